//! The coming nights of the place a batch goes to: one by one, and all of several together.

use std::cell::OnceCell;
use std::ops::Range;
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
    Coming, Forecast, NoOutlook, Offset, Outlook, Paths, Reading, Roots, Season,
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

/// Limits from the coldest to the warmest that any crop has under any cover, at which draws find their chances.
const LIMITS: usize = 27;
const FROM_C: f64 = -9.0;
const STEP_K: f64 = 1.0;

/// Of one night at each temperature: the chance that it is colder, and the sum of such chances up to there, K.
type Colder = Vec<[f64; 2]>;

/// The coming nights. Paths are followed, and tables made, for whoever asks for them first.
#[derive(Debug)]
pub struct Nights {
    look: Rc<Look>,
    /// How many paths are followed.
    count: usize,
    paths: OnceCell<Paths>,
    /// Chances of the stretches from today on, by limits that rise, for draws.
    drawn: [OnceCell<[f64; 3]>; LIMITS],
    /// For how many nights the weather of the log and the forecast still tells more than the season does.
    pub told_ahead: usize,
    /// How much warmer the place is than its climate, K: mean and standard deviation.
    pub offset_k: [f64; 2],
}

/// What does not hang on how many paths are followed.
#[derive(Debug)]
struct Look {
    outlook: Outlook,
    roots: Roots,
    /// Night by night of the days.
    colder: [OnceCell<Colder>; DAYS],
    /// What the place is held at, °C.
    held_c: Option<f64>,
    /// A few paths through the nights of the first stretch.
    soon: OnceCell<Paths>,
}

/// Chances of a day to move on: of the first stretch from then on at the high, the best and the low limit, and of the
/// two longer ones at the best.
pub type OfDay = [f64; 5];

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
        let (offset, doubt) = outlook.offset_k();
        Ok(Self {
            told_ahead: told_ahead(&outlook, spread_k.get(before..).unwrap_or(&[])),
            offset_k: [offset, doubt],
            count: Paths::QUICK,
            paths: OnceCell::new(),
            drawn: std::array::from_fn(|_| OnceCell::new()),
            look: Rc::new(Look {
                roots: outlook.roots()?,
                outlook,
                colder: std::array::from_fn(|_| OnceCell::new()),
                held_c: case.place.held_c,
                soon: OnceCell::new(),
            }),
        })
    }

    /// The same nights, followed along so many paths.
    pub fn followed(&self, count: usize) -> Self {
        Self {
            look: Rc::clone(&self.look),
            count,
            paths: OnceCell::new(),
            drawn: std::array::from_fn(|_| OnceCell::new()),
            told_ahead: self.told_ahead,
            offset_k: self.offset_k,
        }
    }

    fn paths(&self) -> &Paths {
        self.paths
            .get_or_init(|| self.look.roots.paths(NIGHTS, self.count))
    }

    /// Mean and standard deviation of each night of the days, °C and K, as if nothing were heated.
    #[must_use]
    pub fn each(&self) -> Vec<[f64; 2]> {
        let (mean, spread) = (self.look.outlook.mean_c(), self.look.outlook.spread_k());
        let pairs = mean.into_iter().zip(spread).take(DAYS);
        pairs.map(|(mean, spread)| [mean, spread]).collect()
    }

    /// Whether the heater keeps a limit.
    fn kept(&self, limit_c: f64) -> bool {
        self.look.held_c.is_some_and(|held| held > limit_c)
    }

    /// The chance that one night stays above a limit.
    #[must_use]
    pub fn chance_above(&self, night: usize, limit_c: f64) -> f64 {
        if self.kept(limit_c) {
            return 1.0;
        }
        self.look
            .outlook
            .chance_above(night, limit_c)
            .unwrap_or(1.0)
    }

    /// The chances of the three [`STRETCHES`] from today on.
    #[must_use]
    pub fn chances(&self, limit_c: f64) -> [f64; 3] {
        if self.kept(limit_c) {
            return [1.0; 3];
        }
        let stretches = STRETCHES.map(|nights| 0..nights);
        let chances = self.paths().chances_all_above(limit_c, &stretches);
        std::array::from_fn(|at| chances.get(at).copied().unwrap_or(1.0))
    }

    /// The chance that the first of the stretches from today on stays above a limit, from paths that go no further and
    /// are few: within 0.01 of the others.
    #[must_use]
    pub fn chance_soon(&self, limit_c: f64) -> f64 {
        if self.kept(limit_c) {
            return 1.0;
        }
        let [soon, ..] = STRETCHES;
        let paths = self
            .look
            .soon
            .get_or_init(|| self.look.roots.paths(soon, Paths::QUICK));
        paths.chance_all_above(limit_c, soon)
    }

    /// The chances of each of the days as a day to move on, at the limits where one grower of ten sets it low, the best
    /// and high; without those of the low and the high, which are then as the best, where they are not wanted.
    #[must_use]
    pub fn chances_by_day(&self, limits_c: [f64; 3], with_limits: bool) -> Vec<OfDay> {
        let [soon, ..] = STRETCHES;
        let from_each = |limit_c: f64, lengths: &[usize]| -> Vec<f64> {
            let lengths = lengths.iter();
            let stretches: Vec<Range<usize>> = lengths
                .flat_map(|nights| (0..DAYS).map(move |day| day..day + nights))
                .collect();
            if self.kept(limit_c) {
                vec![1.0; stretches.len()]
            } else {
                self.paths().chances_all_above(limit_c, &stretches)
            }
        };
        let [low_c, best_c, high_c] = limits_c;
        let best = from_each(best_c, &STRETCHES);
        let (at_high, at_low) = if with_limits {
            (from_each(high_c, &[soon]), from_each(low_c, &[soon]))
        } else {
            (best.clone(), best.clone())
        };
        let at = |chances: &[f64], place: usize| chances.get(place).copied().unwrap_or_default();
        (0..DAYS)
            .map(|day| {
                [
                    at(&at_high, day),
                    at(&best, day),
                    at(&at_low, day),
                    at(&best, DAYS + day),
                    at(&best, 2 * DAYS + day),
                ]
            })
            .collect()
    }

    /// The same as [`chances`](Self::chances) between limits that were followed before, quick enough for each draw.
    #[must_use]
    pub fn chances_drawn(&self, limit_c: f64) -> [f64; 3] {
        if self.kept(limit_c) {
            return [1.0; 3];
        }
        let place = (limit_c - FROM_C) / STEP_K;
        if !(0.0..(LIMITS - 1) as f64).contains(&place) {
            return self.chances(limit_c);
        }
        let at = |low: usize| {
            let found = || {
                let limit = FROM_C + STEP_K * low as f64;
                let stretches = STRETCHES.map(|nights| 0..nights);
                let chances = self.paths().chances_all_above(limit, &stretches);
                std::array::from_fn(|at| chances.get(at).copied().unwrap_or(1.0))
            };
            self.drawn
                .get(low)
                .map_or([1.0; 3], |known| *known.get_or_init(found))
        };
        let low = place.floor();
        let (chances, next) = (at(low as usize), at(low as usize + 1));
        let part = place - low;
        std::array::from_fn(|at| chances[at] + part * (next[at] - chances[at]))
    }

    /// How far a night falls below a temperature on the mean of all that may come, K, counted no further down than to
    /// another temperature.
    #[must_use]
    pub fn short_of(&self, night: usize, limit_c: f64, down_to_c: f64) -> f64 {
        let down_to = self
            .look
            .held_c
            .map_or(down_to_c, |held| held.max(down_to_c));
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
        let Some(kept) = self.look.colder.get(night) else {
            return 0.0;
        };
        let kept = kept.get_or_init(|| colder(&self.look.outlook, night));
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

fn colder(outlook: &Outlook, night: usize) -> Colder {
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
