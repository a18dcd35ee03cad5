//! What heating a bench takes: the power to put in, the energy to run it, and when a cover or insulation has
//! paid for itself.

use std::fmt;

use super::ground::DAY_S;
use crate::measure::{HeatDensity, TemperatureDifference};

/// Joules of a kilowatt-hour.
pub const KWH_J: f64 = 3.6e6;

/// A bench from the place that is held at a temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bench {
    /// From there up to the air over it, W/m² K; under a cover, stand and cover in series.
    pub up_w_per_m2_k: f64,
    /// Resistance of what lies below it down to the air or ground there, film and all, m² K/W.
    pub down_m2_k_per_w: f64,
}

/// How a bench did at equal times of a night, a day or a season.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// Energy, kWh/m².
    pub kwh_per_m2: f64,
    /// Mean share of the installed power that ran.
    pub duty: f64,
    /// Hours in which the installed power was too little.
    pub short_h: f64,
}

/// Why no cost is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoCost {
    /// A conductance, resistance, power or price is below nought, or no number.
    NotANumber,
    /// Nothing is saved, so that nothing is ever paid back.
    NothingSaved,
}

impl fmt::Display for NoCost {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::NotANumber => {
                "Power, heat loss and insulation must be more than 0, prices and hours 0 or more."
            }
            Self::NothingSaved => "It saves nothing, so it never pays for itself.",
        })
    }
}

impl std::error::Error for NoCost {}

impl Bench {
    fn check(&self) -> Result<(), NoCost> {
        let positive = |x: f64| x > 0.0 && x.is_finite();
        if positive(self.up_w_per_m2_k) && positive(self.down_m2_k_per_w) {
            Ok(())
        } else {
            Err(NoCost::NotANumber)
        }
    }

    /// The heat that holds a temperature above that of the air over and the air or ground below; nought where
    /// no heat is wanted: h (Ts - Ta) + (Ts - Tb)/R.
    ///
    /// # Errors
    /// [`NoCost::NotANumber`] where the bench makes no sense.
    pub fn to_hold(
        &self,
        over_air: TemperatureDifference,
        over_below: TemperatureDifference,
    ) -> Result<HeatDensity, NoCost> {
        self.check()?;
        let up = self.up_w_per_m2_k * over_air.in_kelvins();
        let down = over_below.in_kelvins() / self.down_m2_k_per_w;
        Ok(HeatDensity::from_watts_per_square_metre(
            (up + down).max(0.0),
        ))
    }

    /// How much warmer than the air over and below it the bench gets with the power installed.
    ///
    /// # Errors
    /// [`NoCost::NotANumber`] where the bench makes no sense.
    pub fn reached(&self, installed: HeatDensity) -> Result<TemperatureDifference, NoCost> {
        self.check()?;
        let loss = self.up_w_per_m2_k + 1.0 / self.down_m2_k_per_w;
        Ok(TemperatureDifference::from_kelvins(
            installed.in_watts_per_square_metre() / loss,
        ))
    }

    /// Holding a temperature through equal times, the air over it and the air or ground below given at each
    /// (°C), with a limited power.
    ///
    /// # Errors
    /// [`NoCost::NotANumber`] where bench or power make no sense.
    pub fn held(
        &self,
        set_c: f64,
        over_and_below_c: &[(f64, f64)],
        hours_each: f64,
        installed: HeatDensity,
    ) -> Result<Held, NoCost> {
        self.check()?;
        let installed = installed.in_watts_per_square_metre();
        if !(installed > 0.0 && installed.is_finite() && hours_each > 0.0 && set_c.is_finite()) {
            return Err(NoCost::NotANumber);
        }
        let (mut wh, mut short_h) = (0.0, 0.0);
        for &(over_c, below_c) in over_and_below_c {
            let needed =
                self.up_w_per_m2_k * (set_c - over_c) + (set_c - below_c) / self.down_m2_k_per_w;
            wh += needed.clamp(0.0, installed) * hours_each;
            if needed > installed {
                short_h += hours_each;
            }
        }
        let hours = hours_each * over_and_below_c.len() as f64;
        Ok(Held {
            kwh_per_m2: wh / 1000.0,
            duty: if hours > 0.0 {
                wh / (installed * hours)
            } else {
                0.0
            },
            short_h,
        })
    }
}

/// What a power that runs for a share of a day takes in a day, kWh/m².
#[must_use]
pub fn day_kwh_per_m2(installed: HeatDensity, duty: f64) -> f64 {
    installed.in_watts_per_square_metre() * duty * DAY_S / KWH_J
}

/// What the energy costs, in the currency of the tariff for each kWh, over an area in m², with so much heat for
/// each kWh paid (1 for a cable, more for a heat pump, less for a boiler).
///
/// # Errors
/// [`NoCost::NotANumber`] where one is below nought, or heat for each kWh is nought.
pub fn cost_of(
    kwh_per_m2: f64,
    area_m2: f64,
    price_per_kwh: f64,
    heat_for_each_kwh: f64,
) -> Result<f64, NoCost> {
    let counts = |x: f64| x >= 0.0 && x.is_finite();
    if counts(kwh_per_m2) && counts(area_m2) && counts(price_per_kwh) && heat_for_each_kwh > 0.0 {
        Ok(kwh_per_m2 * area_m2 * price_per_kwh / heat_for_each_kwh)
    } else {
        Err(NoCost::NotANumber)
    }
}

/// After how many seasons a purchase has paid for itself, by what it saves in each.
///
/// # Errors
/// [`NoCost::NothingSaved`] where it saves nothing, [`NoCost::NotANumber`] where the price is below nought.
pub fn seasons_to_pay_back(price: f64, saved_each_season: f64) -> Result<f64, NoCost> {
    if !(price >= 0.0 && price.is_finite() && saved_each_season.is_finite()) {
        Err(NoCost::NotANumber)
    } else if saved_each_season <= 0.0 {
        Err(NoCost::NothingSaved)
    } else {
        Ok(price / saved_each_season)
    }
}
