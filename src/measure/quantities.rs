//! The tables: one per quantity, then the sums and products that make sense.
//!
//! Every factor is its exact definition: the international inch, foot and pound (1959), the
//! imperial gallon (United Kingdom, Units of Measurement Regulations 1995), the United States
//! gallon (231 cubic inches), and standard gravity (3rd General Conference on Weights and
//! Measures, 1901).

use super::quantity::{Quantity, Unit, amounts, products, quantity, shares, squares};
use super::range::Range;

/// The international inch, in metres.
const INCH_METRES: f64 = 0.0254;
/// The international foot, in metres.
const FOOT_METRES: f64 = 0.3048;
/// The international pound, in kilograms.
const POUND_KILOGRAMS: f64 = 0.45359237;
/// Standard gravity, in metres per second squared.
const STANDARD_GRAVITY: f64 = 9.80665;
/// The density by which a column of water stands for a pressure, in kilograms per cubic metre.
/// By convention, not that of water on the day.
const CONVENTIONAL_WATER: f64 = 1000.0;
/// A day, in seconds.
const DAY_SECONDS: f64 = 86_400.0;

quantity! {
    /// How long, deep, wide or high. Base unit: metre.
    Length, "length" {
        MILLIMETRE = 0.001, "mm", "mm", "millimetre", "millimetres",
            from_millimetres, in_millimetres;
        CENTIMETRE = 0.01, "cm", "cm", "centimetre", "centimetres",
            from_centimetres, in_centimetres;
        METRE = 1.0, "m", "m", "metre", "metres", from_metres, in_metres;
        INCH = INCH_METRES, "in", "in", "inch", "inches", from_inches, in_inches;
        FOOT = FOOT_METRES, "ft", "ft", "foot", "feet", from_feet, in_feet;
    }
}

quantity! {
    /// How much ground or bench. Base unit: square metre.
    Area, "area" {
        SQUARE_METRE = 1.0, "m2", "m²", "square metre", "square metres",
            from_square_metres, in_square_metres;
        SQUARE_CENTIMETRE = 0.01 * 0.01, "cm2", "cm²", "square centimetre", "square centimetres",
            from_square_centimetres, in_square_centimetres;
        SQUARE_FOOT = FOOT_METRES * FOOT_METRES, "ft2", "ft²", "square foot", "square feet",
            from_square_feet, in_square_feet;
    }
}

quantity! {
    /// How much room, or how much of a liquid or a loose heap. Base unit: cubic metre.
    Volume, "volume" {
        LITRE = 0.001, "L", "L", "litre", "litres", from_litres, in_litres;
        MILLILITRE = 1e-6, "mL", "mL", "millilitre", "millilitres",
            from_millilitres, in_millilitres;
        CUBIC_METRE = 1.0, "m3", "m³", "cubic metre", "cubic metres",
            from_cubic_metres, in_cubic_metres;
        IMPERIAL_GALLON = 4.54609e-3, "gal", "gal", "imperial gallon", "imperial gallons",
            from_imperial_gallons, in_imperial_gallons;
        US_GALLON = 231.0 * INCH_METRES * INCH_METRES * INCH_METRES,
            "us_gal", "US gal", "US gallon", "US gallons", from_us_gallons, in_us_gallons;
        CUBIC_FOOT = FOOT_METRES * FOOT_METRES * FOOT_METRES,
            "ft3", "ft³", "cubic foot", "cubic feet", from_cubic_feet, in_cubic_feet;
    }
}

quantity! {
    /// How heavy. Base unit: kilogram.
    Mass, "weight" {
        KILOGRAM = 1.0, "kg", "kg", "kilogram", "kilograms", from_kilograms, in_kilograms;
        GRAM = 0.001, "g", "g", "gram", "grams", from_grams, in_grams;
        POUND = POUND_KILOGRAMS, "lb", "lb", "pound", "pounds", from_pounds, in_pounds;
        OUNCE = POUND_KILOGRAMS / 16.0, "oz", "oz", "ounce", "ounces", from_ounces, in_ounces;
    }
}

quantity! {
    /// How heavy for its volume. Base unit: kilogram per cubic metre, the same as gram per litre.
    Density, "density" {
        GRAM_PER_LITRE = 1.0, "g/L", "g/L", "gram per litre", "grams per litre",
            from_grams_per_litre, in_grams_per_litre;
        MILLIGRAM_PER_LITRE = 0.001, "mg/L", "mg/L", "milligram per litre", "milligrams per litre",
            from_milligrams_per_litre, in_milligrams_per_litre;
        KILOGRAM_PER_CUBIC_METRE = 1.0, "kg/m3", "kg/m³",
            "kilogram per cubic metre", "kilograms per cubic metre",
            from_kilograms_per_cubic_metre, in_kilograms_per_cubic_metre;
        POUND_PER_CUBIC_FOOT = POUND_KILOGRAMS / (FOOT_METRES * FOOT_METRES * FOOT_METRES),
            "lb/ft3", "lb/ft³", "pound per cubic foot", "pounds per cubic foot",
            from_pounds_per_cubic_foot, in_pounds_per_cubic_foot;
    }
}

quantity! {
    /// A share of a whole. Base unit: the whole.
    Fraction, "share" {
        PERCENT = 0.01, "%", "%", "per cent", "per cent", from_percent, in_percent;
        ONE = 1.0, "one", "of 1", "of one", "of one", from_fraction, in_fraction;
    }
}

quantity! {
    /// A plain number: a count, or parts of a mix.
    Number, "number" {
        ONE = 1.0, "", "", "", "", from_count, in_count;
    }
}

quantity! {
    /// How hard water is held, as the height of a column of water (1000 kg/m³, standard gravity)
    /// that would pull as hard. A positive number. Base unit: metre of water.
    Suction, "suction" {
        CENTIMETRE_OF_WATER = 0.01, "cm_water", "cm of water",
            "centimetre of water", "centimetres of water",
            from_centimetres_of_water, in_centimetres_of_water;
        MILLIMETRE_OF_WATER = 0.001, "mm_water", "mm of water",
            "millimetre of water", "millimetres of water",
            from_millimetres_of_water, in_millimetres_of_water;
        KILOPASCAL = 1000.0 / (CONVENTIONAL_WATER * STANDARD_GRAVITY), "kPa", "kPa",
            "kilopascal", "kilopascals", from_kilopascals, in_kilopascals;
        HECTOPASCAL = 100.0 / (CONVENTIONAL_WATER * STANDARD_GRAVITY), "hPa", "hPa",
            "hectopascal", "hectopascals", from_hectopascals, in_hectopascals;
    }
}

quantity! {
    /// How warm. Base unit: degree Celsius.
    Temperature, "temperature" {
        DEGREE_CELSIUS = 1.0, "degC", "°C", "degree Celsius", "degrees Celsius",
            from_celsius, in_celsius;
        DEGREE_FAHRENHEIT = 5.0 / 9.0, offset -32.0, "degF", "°F",
            "degree Fahrenheit", "degrees Fahrenheit", from_fahrenheit, in_fahrenheit;
    }
}

quantity! {
    /// How much warmer one thing is than another. Base unit: kelvin, which is a step of one
    /// degree Celsius and is shown as one.
    TemperatureDifference, "difference of temperature" {
        DEGREE_CELSIUS = 1.0, "degC", "°C", "degree Celsius", "degrees Celsius",
            from_kelvins, in_kelvins;
        DEGREE_FAHRENHEIT = 5.0 / 9.0, "degF", "°F", "degree Fahrenheit", "degrees Fahrenheit",
            from_fahrenheit_degrees, in_fahrenheit_degrees;
    }
}

quantity! {
    /// How long it takes. Base unit: second.
    Duration, "time" {
        DAY = DAY_SECONDS, "day", "days", "day", "days", from_days, in_days;
        HOUR = 3600.0, "h", "h", "hour", "hours", from_hours, in_hours;
        MINUTE = 60.0, "min", "min", "minute", "minutes", from_minutes, in_minutes;
        SECOND = 1.0, "s", "s", "second", "seconds", from_seconds, in_seconds;
    }
}

quantity! {
    /// Hydraulic conductivity: how fast water runs through under its own weight. Base unit:
    /// metre per second.
    Conductivity, "hydraulic conductivity" {
        CENTIMETRE_PER_DAY = 0.01 / DAY_SECONDS, "cm/day", "cm/day",
            "centimetre per day", "centimetres per day",
            from_centimetres_per_day, in_centimetres_per_day;
        CENTIMETRE_PER_MINUTE = 0.01 / 60.0, "cm/min", "cm/min",
            "centimetre per minute", "centimetres per minute",
            from_centimetres_per_minute, in_centimetres_per_minute;
        MILLIMETRE_PER_HOUR = 0.001 / 3600.0, "mm/h", "mm/h",
            "millimetre per hour", "millimetres per hour",
            from_millimetres_per_hour, in_millimetres_per_hour;
        METRE_PER_SECOND = 1.0, "m/s", "m/s", "metre per second", "metres per second",
            from_metres_per_second, in_metres_per_second;
    }
}

quantity! {
    /// How heavy on the ground or the bench. Base unit: kilogram per square metre.
    AreaLoad, "load" {
        KILOGRAM_PER_SQUARE_METRE = 1.0, "kg/m2", "kg/m²",
            "kilogram per square metre", "kilograms per square metre",
            from_kilograms_per_square_metre, in_kilograms_per_square_metre;
        POUND_PER_SQUARE_FOOT = POUND_KILOGRAMS / (FOOT_METRES * FOOT_METRES), "lb/ft2", "lb/ft²",
            "pound per square foot", "pounds per square foot",
            from_pounds_per_square_foot, in_pounds_per_square_foot;
    }
}

quantity! {
    /// How many on each piece of ground or bench. Base unit: one per square metre.
    NumberPerArea, "number per area" {
        PER_SQUARE_METRE = 1.0, "per_m2", "per m²", "per square metre", "per square metre",
            from_per_square_metre, in_per_square_metre;
        PER_SQUARE_FOOT = 1.0 / (FOOT_METRES * FOOT_METRES), "per_ft2", "per ft²",
            "per square foot", "per square foot", from_per_square_foot, in_per_square_foot;
    }
}

quantity! {
    /// How fast energy is used or given off. Base unit: watt.
    Power, "power" {
        WATT = 1.0, "W", "W", "watt", "watts", from_watts, in_watts;
        KILOWATT = 1000.0, "kW", "kW", "kilowatt", "kilowatts", from_kilowatts, in_kilowatts;
    }
}

quantity! {
    /// Heat given to each piece of bench. Base unit: watt per square metre.
    HeatDensity, "heat per area" {
        WATT_PER_SQUARE_METRE = 1.0, "W/m2", "W/m²", "watt per square metre",
            "watts per square metre", from_watts_per_square_metre, in_watts_per_square_metre;
        WATT_PER_SQUARE_FOOT = 1.0 / (FOOT_METRES * FOOT_METRES), "W/ft2", "W/ft²",
            "watt per square foot", "watts per square foot",
            from_watts_per_square_foot, in_watts_per_square_foot;
    }
}

quantity! {
    /// Light that plants can use, as photons of 400 to 700 nm that fall on each piece of bench.
    /// Base unit: mole per square metre and second.
    PhotonFlux, "plant light" {
        MICROMOLE = 1e-6, "umol/m2/s", "µmol/m²/s", "micromole per square metre and second",
            "micromoles per square metre and second", from_micromoles, in_micromoles;
    }
}

quantity! {
    /// How well a feed or a drained water conducts, which tells how much salt is in it. Base unit:
    /// siemens per metre.
    SaltConductivity, "conductivity of the water" {
        MILLISIEMENS_PER_CENTIMETRE = 0.001 / 0.01, "mS/cm", "mS/cm",
            "millisiemens per centimetre", "millisiemens per centimetre",
            from_millisiemens_per_centimetre, in_millisiemens_per_centimetre;
        MILLISIEMENS_PER_METRE = 0.001, "mS/m", "mS/m", "millisiemens per metre",
            "millisiemens per metre",
            from_millisiemens_per_metre, in_millisiemens_per_metre;
        MICROSIEMENS_PER_CENTIMETRE = 1e-6 / 0.01, "uS/cm", "µS/cm",
            "microsiemens per centimetre", "microsiemens per centimetre",
            from_microsiemens_per_centimetre, in_microsiemens_per_centimetre;
    }
}

/// The units of every quantity there is.
pub const ALL_UNITS: &[&[Unit]] = &[
    Length::UNITS,
    Area::UNITS,
    Volume::UNITS,
    Mass::UNITS,
    Density::UNITS,
    Fraction::UNITS,
    Number::UNITS,
    Suction::UNITS,
    Temperature::UNITS,
    TemperatureDifference::UNITS,
    Duration::UNITS,
    Conductivity::UNITS,
    AreaLoad::UNITS,
    NumberPerArea::UNITS,
    Power::UNITS,
    HeatDensity::UNITS,
    PhotonFlux::UNITS,
    SaltConductivity::UNITS,
];

// Not `Temperature`: twice 20 degrees is not 40 degrees, for the scale starts elsewhere.
amounts! {
    Length, Area, Volume, Mass, Density, Fraction, Number, Suction, TemperatureDifference,
    Duration, Conductivity, AreaLoad, NumberPerArea, Power, HeatDensity, PhotonFlux,
    SaltConductivity,
}

shares! { Length, Area, Volume, Mass, Number, Fraction }

squares! {
    Length * Length = Area;
}

products! {
    Area * Length = Volume;
    Density * Volume = Mass;
    Density * Length = AreaLoad;
    AreaLoad * Area = Mass;
    NumberPerArea * Area = Number;
    Conductivity * Duration = Length;
    HeatDensity * Area = Power;
}

impl std::ops::Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Temperature) -> TemperatureDifference {
        TemperatureDifference(self.0 - other.0)
    }
}

impl std::ops::Add<TemperatureDifference> for Temperature {
    type Output = Temperature;
    fn add(self, warmer: TemperatureDifference) -> Temperature {
        Temperature(self.0 + warmer.0)
    }
}

impl std::ops::Sub<TemperatureDifference> for Temperature {
    type Output = Temperature;
    fn sub(self, cooler: TemperatureDifference) -> Temperature {
        Temperature(self.0 - cooler.0)
    }
}
