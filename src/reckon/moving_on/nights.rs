//! The coming nights of the place a batch goes to: one by one, and all of several together.

use std::cell::OnceCell;
use std::rc::Rc;

use super::case::{Case, Move};
use super::words;
use crate::handbook::climates::NIGHT_SPREAD_C;
use crate::handbook::nights::{
    FORECAST_ERROR_LATER_K, FORECAST_ERROR_SOON_K, LIFT_UNDER_GLASS_K, PLACE_SPREAD_K, SOON_NIGHTS,
    SPREAD_TIMES, SPREAD_TIMES_UNDER_GLASS, habits,
};
use crate::measure::LIMITS_APART;
use crate::reckon::Problem;
use crate::reckon::season::day_of_year;
use crate::science::nights::{
    Coming, Forecast, NoOutlook, Offset, Outlook, Paths, Reading, Season,
};
use crate::science::year_course::on_day;

/// The days from today on which it may move.
pub const DAYS: usize = 21;
/// Stretches of nights that are told, from the day of the move.
pub const STRETCHES: [usize; 3] = [7, 14, 21];
/// Nights looked ahead: the longest stretch from the last of the days.
const NIGHTS: usize = DAYS - 1 + 21;
/// A log of fewer nights is told to be short.
pub const FEWEST_NIGHTS: usize = 3;

/// Temperatures at which the share of nights below is kept: from, so far apart, so many.
const COLDEST_C: f64 = -30.0;
const APART_K: f64 = 0.25;
const POINTS: usize = 241;

/// The coming nights.
#[derive(Debug)]
pub struct Nights {
    outlook: Outlook,
    paths: Paths,
    /// Of each night of the days, at each temperature: the chance that it is colder, and the sum of such chances up to
    /// there, K.
    colder: Vec<Vec<[f64; 2]>>,
    /// Chances of the stretches from today on, by limits that rise, for draws.
    drawn: OnceCell<Vec<(f64, [f64; 3])>>,
    /// What the place is held at, °C.
    held_c: Option<f64>,
    /// For how many nights the weather of the log and the forecast still tells more than the season does.
    pub told_ahead: usize,
    /// How much warmer the place is than its climate, K: mean and standard deviation.
    pub offset_k: [f64; 2],
}

impl Nights {
    /// Of a case, found once.
    pub fn of(case: &Case) -> Result<Rc<Self>, Problem> {
        if let Some(known) = case.nights.get() {
            return Ok(Rc::clone(known));
        }
        let found =
            Self::found(case).map_err(|why| Problem::at("nights", words::no_outlook(why)))?;
        Ok(Rc::clone(case.nights.get_or_init(|| Rc::new(found))))
    }

    fn found(case: &Case) -> Result<Self, NoOutlook> {
        // Minima read where a heater keeps the cold out tell nothing of nights without it.
        let log: &[(usize, f64)] = if case.place.held_c.is_some() {
            &[]
        } else {
            &case.log
        };
        let before = log.iter().map(|(ago, _)| ago + 1).max().unwrap_or(0);
        let days = (0..before + NIGHTS).map(|day| {
            let since_tonight = day as i32 - before as i32;
            day_of_year(case.today.plus(1 + since_tonight))
        });
        let (mean_c, spread_k): (Vec<f64>, Vec<f64>) = days
            .map(|day| (case.climate.lowest_on(day), on_day(&NIGHT_SPREAD_C, day)))
            .unzip();
        let glass = case.moves != Move::Outdoors;
        let habits = habits(if glass {
            SPREAD_TIMES_UNDER_GLASS
        } else {
            SPREAD_TIMES
        })?;
        let readings: Vec<Reading> = log
            .iter()
            .map(|(ago, minimum_c)| Reading {
                day: before - 1 - ago,
                minimum_c: *minimum_c,
            })
            .collect();
        let lift_off_k = if glass {
            let lift = LIFT_UNDER_GLASS_K.range;
            (lift.high() - lift.low()) / LIMITS_APART
        } else {
            0.0
        };
        let forecasts: Vec<Forecast> = case
            .forecasts
            .iter()
            .enumerate()
            .map(|(night, outside_c)| {
                let error = if night < SOON_NIGHTS {
                    FORECAST_ERROR_SOON_K
                } else {
                    FORECAST_ERROR_LATER_K
                };
                Forecast {
                    day: before + night,
                    minimum_c: outside_c + case.place.night_k,
                    error_k: error.range.best().hypot(lift_off_k),
                }
            })
            .collect();
        let season = Season {
            mean_c: &mean_c,
            spread_k: &spread_k,
        };
        let outlook = Coming {
            season,
            offset: Offset {
                expected_k: case.place.night_k,
                spread_k: PLACE_SPREAD_K,
            },
            habits: &habits,
            log: &readings,
            forecasts: &forecasts,
            first: before,
            nights: NIGHTS,
        }
        .outlook()?;
        let paths = outlook.paths(case.paths)?;
        let (offset, doubt) = outlook.offset_k();
        Ok(Self {
            colder: (0..DAYS).map(|night| colder(&outlook, night)).collect(),
            told_ahead: told_ahead(&outlook, spread_k.get(before..).unwrap_or(&[])),
            offset_k: [offset, doubt],
            held_c: case.place.held_c,
            drawn: OnceCell::new(),
            outlook,
            paths,
        })
    }

    /// Mean and standard deviation of each night of the days, °C and K, as if nothing were heated.
    #[must_use]
    pub fn each(&self) -> Vec<[f64; 2]> {
        let (mean, spread) = (self.outlook.mean_c(), self.outlook.spread_k());
        let pairs = mean.into_iter().zip(spread).take(DAYS);
        pairs.map(|(mean, spread)| [mean, spread]).collect()
    }

    /// Whether the heater keeps a limit.
    fn kept(&self, limit_c: f64) -> bool {
        self.held_c.is_some_and(|held| held > limit_c)
    }

    /// The chance that one night stays above a limit.
    #[must_use]
    pub fn chance_above(&self, night: usize, limit_c: f64) -> f64 {
        if self.kept(limit_c) {
            return 1.0;
        }
        self.outlook.chance_above(night, limit_c).unwrap_or(1.0)
    }

    /// The chance that so many nights from a day of move on all stay above a limit.
    #[must_use]
    pub fn chance_from(&self, day: usize, nights: usize, limit_c: f64) -> f64 {
        if self.kept(limit_c) {
            return 1.0;
        }
        self.paths
            .chance_all_above_between(limit_c, day..day + nights)
    }

    /// The chances of the three [`STRETCHES`] from today on.
    #[must_use]
    pub fn chances(&self, limit_c: f64) -> [f64; 3] {
        STRETCHES.map(|nights| self.chance_from(0, nights, limit_c))
    }

    /// The same between limits that were followed before, quick enough for each draw.
    #[must_use]
    pub fn chances_drawn(&self, limit_c: f64) -> [f64; 3] {
        /// Limits from the coldest to the warmest that any crop has under any cover.
        const LIMITS: usize = 27;
        const FROM_C: f64 = -9.0;
        const STEP_K: f64 = 1.0;
        if self.kept(limit_c) {
            return [1.0; 3];
        }
        let known = self.drawn.get_or_init(|| {
            (0..LIMITS)
                .map(|place| FROM_C + STEP_K * place as f64)
                .map(|limit| {
                    let chances = STRETCHES
                        .map(|nights| self.paths.chance_all_above_between(limit, 0..nights));
                    (limit, chances)
                })
                .collect()
        });
        let after = known.partition_point(|(limit, _)| *limit <= limit_c);
        match (
            after.checked_sub(1).and_then(|place| known.get(place)),
            known.get(after),
        ) {
            (Some((low, chances)), Some((high, next))) => {
                let part = (limit_c - low) / (high - low);
                std::array::from_fn(|at| chances[at] + part * (next[at] - chances[at]))
            }
            _ => self.chances(limit_c),
        }
    }

    /// How far a night falls below a temperature on the mean of all that may come, K, counted no further down than to
    /// another temperature.
    #[must_use]
    pub fn short_of(&self, night: usize, limit_c: f64, down_to_c: f64) -> f64 {
        let down_to = self.held_c.map_or(down_to_c, |held| held.max(down_to_c));
        if down_to >= limit_c {
            return 0.0;
        }
        (self.at(night, limit_c, 1) - self.at(night, down_to, 1)).max(0.0)
    }

    /// The chance that a night is colder than a temperature.
    #[must_use]
    pub fn chance_colder(&self, night: usize, limit_c: f64) -> f64 {
        if self.kept(limit_c) {
            return 0.0;
        }
        self.at(night, limit_c, 0)
    }

    fn at(&self, night: usize, temperature_c: f64, which: usize) -> f64 {
        let Some(kept) = self.colder.get(night) else {
            return 0.0;
        };
        let place = ((temperature_c - COLDEST_C) / APART_K).clamp(0.0, (POINTS - 1) as f64);
        let low = place.floor();
        let at = |place: f64| {
            let pair = kept.get(place as usize).copied().unwrap_or_default();
            pair[which]
        };
        let part = place - low;
        at(low) + part * (at((low + 1.0).min((POINTS - 1) as f64)) - at(low))
    }
}

fn colder(outlook: &Outlook, night: usize) -> Vec<[f64; 2]> {
    let mut sum = 0.0;
    let mut last: Option<f64> = None;
    (0..POINTS)
        .map(|place| {
            let limit = COLDEST_C + APART_K * place as f64;
            let chance = 1.0 - outlook.chance_above(night, limit).unwrap_or(1.0);
            if let Some(last) = last {
                sum += APART_K * f64::midpoint(last, chance);
            }
            last = Some(chance);
            [chance, sum]
        })
        .collect()
}

/// For how many nights from tonight the weather that was read or forecast narrows the night by more than a twentieth
/// beyond what is left of it in the last of them, where only the season and the place are known.
fn told_ahead(outlook: &Outlook, season_k: &[f64]) -> usize {
    const WORTH_TELLING: f64 = 0.95;
    let narrow: Vec<f64> = outlook
        .spread_k()
        .into_iter()
        .zip(season_k)
        .map(|(spread, season)| spread / season)
        .collect();
    let Some(last) = narrow.last() else {
        return 0;
    };
    narrow
        .iter()
        .take_while(|spread| **spread < WORTH_TELLING * last)
        .count()
}
