//! The numbers that fields take. Limits keep out slips of the finger, not what is merely unusual:
//! common practice, no source.

use super::Amount;
use crate::measure::{
    Area, AreaLoad, Density, Duration, Fraction, HeatDensity, Length, Mass, Number, NumberPerArea,
    PhotonFlux, Power, Quantity, SaltConductivity, Temperature, TemperatureDifference, Unit,
    Volume,
};

const fn amount(
    units: &'static [Unit],
    unit: &'static Unit,
    [low, high]: [f64; 2],
    step: f64,
) -> Amount {
    Amount {
        units,
        unit,
        low,
        high,
        whole: false,
        step,
    }
}

const fn whole(low: f64, high: f64) -> Amount {
    let mut count = amount(Number::UNITS, &Number::ONE, [low, high], 1.0);
    count.whole = true;
    count
}

const fn temperature(low: f64, high: f64, step: f64) -> Amount {
    amount(
        Temperature::UNITS,
        &Temperature::DEGREE_CELSIUS,
        [low, high],
        step,
    )
}

const fn length(unit: &'static Unit, low: f64, high: f64, step: f64) -> Amount {
    amount(Length::UNITS, unit, [low, high], step)
}

/// Temperatures that air, water and roots may have.
pub static TEMPERATURE: Amount = temperature(-40.0, 60.0, 1.0);
/// What a thermostat is set to.
pub static SET_POINT: Amount = temperature(0.0, 40.0, 1.0);
/// What is added to what an instrument shows.
pub static OFFSET: Amount = amount(
    TemperatureDifference::UNITS,
    &TemperatureDifference::DEGREE_CELSIUS,
    [-10.0, 10.0],
    0.1,
);
/// Sizes of pots.
pub static POT_SIZE: Amount = length(&Length::MILLIMETRE, 10.0, 1000.0, 5.0);
/// From the rim of a pot down to the mix.
pub static BELOW_RIM: Amount = length(&Length::MILLIMETRE, 0.0, 500.0, 5.0);
/// Depths, walls and sheets of insulation.
pub static DEPTH: Amount = length(&Length::MILLIMETRE, 0.0, 1000.0, 5.0);
/// Heights above the floor, and of plants.
pub static HEIGHT: Amount = length(&Length::CENTIMETRE, 0.0, 1000.0, 5.0);
/// Lengths and widths of houses, bays and trays.
pub static SPAN: Amount = length(&Length::METRE, 0.05, 1000.0, 0.1);
/// Ground and bench.
pub static AREA: Amount = amount(Area::UNITS, &Area::SQUARE_METRE, [0.01, 1_000_000.0], 1.0);
/// What a pot holds.
pub static POT_VOLUME: Amount = amount(Volume::UNITS, &Volume::LITRE, [0.005, 500.0], 0.5);
/// What a bag holds.
pub static BAG: Amount = amount(Volume::UNITS, &Volume::LITRE, [1.0, 3000.0], 5.0);
/// Water and heaps.
pub static VOLUME: Amount = amount(Volume::UNITS, &Volume::LITRE, [0.0, 1_000_000.0], 1.0);
/// Weights of what is cut, sold and weighed.
pub static WEIGHT: Amount = amount(Mass::UNITS, &Mass::KILOGRAM, [0.0, 10_000.0], 0.1);
/// Weights on small scales.
pub static SMALL_WEIGHT: Amount = amount(Mass::UNITS, &Mass::GRAM, [0.0, 100_000.0], 1.0);
/// Strength of a feed, and density of a material.
pub static DENSITY: Amount = amount(Density::UNITS, &Density::GRAM_PER_LITRE, [0.0, 3000.0], 1.0);
/// A share of a whole.
pub static SHARE: Amount = amount(Fraction::UNITS, &Fraction::PERCENT, [0.0, 100.0], 5.0);
/// How far a bench falls over its length.
pub static SLOPE: Amount = amount(Fraction::UNITS, &Fraction::PERCENT, [0.0, 20.0], 0.5);
/// How many.
pub static COUNT: Amount = whole(0.0, 10_000_000.0);
/// How many, at least one.
pub static ONE_OR_MORE: Amount = whole(1.0, 10_000_000.0);
/// A year.
pub static YEAR: Amount = whole(1900.0, 2199.0);
/// Parts of a mix by volume.
pub static PARTS: Amount = amount(Number::UNITS, &Number::ONE, [0.0, 1000.0], 1.0);
/// Money, in whatever is paid with.
pub static MONEY: Amount = amount(Number::UNITS, &Number::ONE, [0.0, 10_000_000.0], 0.1);
/// A figure that was found.
pub static FIGURE: Amount = amount(Number::UNITS, &Number::ONE, [-1e12, 1e12], 1.0);
/// Degrees north of the equator, south as a negative number.
pub static LATITUDE: Amount = amount(Number::UNITS, &Number::ONE, [-66.0, 66.0], 1.0);
/// Days from one thing to another.
pub static DAYS: Amount = amount(Duration::UNITS, &Duration::DAY, [0.0, 1000.0], 1.0);
/// How long a test runs.
pub static MINUTES: Amount = amount(Duration::UNITS, &Duration::MINUTE, [0.0, 100_000.0], 1.0);
/// Hours of lamps.
pub static HOURS: Amount = amount(Duration::UNITS, &Duration::HOUR, [0.0, 24.0], 1.0);
/// What a bench may carry.
pub static LOAD: Amount = amount(
    AreaLoad::UNITS,
    &AreaLoad::KILOGRAM_PER_SQUARE_METRE,
    [0.0, 2000.0],
    5.0,
);
/// Plants on each square metre.
pub static SPACING: Amount = amount(
    NumberPerArea::UNITS,
    &NumberPerArea::PER_SQUARE_METRE,
    [0.0, 10_000.0],
    1.0,
);
/// Heat of a bench.
pub static HEAT: Amount = amount(
    HeatDensity::UNITS,
    &HeatDensity::WATT_PER_SQUARE_METRE,
    [0.0, 500.0],
    10.0,
);
/// What lamps use.
pub static POWER: Amount = amount(Power::UNITS, &Power::WATT, [0.0, 1_000_000.0], 10.0);
/// Light of lamps where the leaves are.
pub static LAMP_LIGHT: Amount = amount(
    PhotonFlux::UNITS,
    &PhotonFlux::MICROMOLE,
    [0.0, 2000.0],
    10.0,
);
/// Salt in a feed or a drained water.
pub static SALT: Amount = amount(
    SaltConductivity::UNITS,
    &SaltConductivity::MILLISIEMENS_PER_CENTIMETRE,
    [0.0, 20.0],
    0.1,
);
