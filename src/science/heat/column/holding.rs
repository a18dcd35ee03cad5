//! The power that holds a place at a temperature through the coldest night.

use super::NoColumn;
use super::course::{Course, Moment};
use super::standing::{Control, Cover, Place, Standing};
use super::stepping::{Column, Steps};
use crate::measure::{Duration, HeatDensity, Temperature};

/// Settled to this, K.
const WITHIN_K: f64 = 0.01;
/// Rounds after which it is given up: without free convection the first meets it.
const ROUNDS: usize = 20;
/// Where the search begins, W/m².
const BEGINS_W_PER_M2: f64 = 100.0;
/// Beyond this no bench is heated, W/m².
const MOST_W_PER_M2: f64 = 5000.0;

impl Column {
    /// The heat that holds a place at a temperature if the coldest moment of the night lasted, with the
    /// bench's cover closed where it has one: what to install. Nought where none is needed.
    ///
    /// # Errors
    /// [`NoColumn::Heater`] where the standing has no heater or no power would do; [`NoColumn::Probe`] where it
    /// has no such place; else as [`Column::settled`].
    pub fn power_to_hold(
        standing: &Standing,
        coldest: &Moment,
        held: Temperature,
        place: Place,
    ) -> Result<HeatDensity, NoColumn> {
        let night = Course::of_day(vec![
            Moment {
                sun_w_per_m2: 0.0,
                ..*coldest
            };
            2
        ])?;
        let mut standing = standing.clone();
        standing.cover = standing.cover.map(|cover| Cover {
            to_h: cover.from_h,
            ..cover
        });
        let held_c = held.in_celsius();
        let mut warmth = |watts: f64| -> Result<f64, NoColumn> {
            let heater = standing.heater.as_mut().ok_or(NoColumn::Heater)?;
            heater.power = HeatDensity::from_watts_per_square_metre(watts);
            heater.control = Control::On;
            let an_hour = Duration::from_hours(1.0);
            let settled = Self::settled(&standing, &night, an_hour, Steps::default())?;
            let trace = settled.day.trace(place).ok_or(NoColumn::Probe)?;
            Ok(trace.mean_c)
        };
        let none = warmth(0.0)?;
        if none >= held_c {
            return Ok(HeatDensity::from_watts_per_square_metre(0.0));
        }
        // By secants, each over the last two powers tried.
        let (mut before, mut now) = ((0.0, none), (BEGINS_W_PER_M2, warmth(BEGINS_W_PER_M2)?));
        for _ in 0..ROUNDS {
            if (now.1 - held_c).abs() < WITHIN_K {
                return Ok(HeatDensity::from_watts_per_square_metre(now.0));
            }
            let slope = (now.1 - before.1) / (now.0 - before.0);
            let next = now.0 + (held_c - now.1) / slope;
            if !(next > 0.0 && next <= MOST_W_PER_M2) {
                break;
            }
            before = now;
            now = (next, warmth(next)?);
        }
        Err(NoColumn::Heater)
    }
}
