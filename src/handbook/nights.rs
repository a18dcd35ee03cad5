//! How nights behave about their season, for whoever has no long record of the place.
//!
//! Outdoor records only: how the minima of a house stray has not been measured for this program, and
//! the figures for glass are practice.

use super::sources::{
    COMMON_PRACTICE, NIGHT_MEMORY, NIGHT_VERDICT, NIGHTS_UNDER_GLASS, PLACE_IN_REGION, SAVAGE_1980,
    Source,
};
use super::{Figure, figure};
use crate::science::nights::{Habit, Memory, NoOutlook};

/// How far a night's passing weather is remembered the next night: correlation of the fast part.
pub const FAST: Figure = figure(0.45, 0.55, 0.65, &NIGHT_MEMORY);

/// The same of the slow part, the mood of some weeks.
pub const SLOW: Figure = figure(0.93, 0.95, 0.97, &NIGHT_MEMORY);

/// How much of the variance of single nights is the slow part's.
pub const SLOW_SHARE: Figure = figure(0.06, 0.10, 0.18, &NIGHT_MEMORY);

/// How many times as wide as the handbook's [spread](super::climates::NIGHT_SPREAD_C) the normal
/// distribution must be that stands for single nights of one place, out of doors. Above 1, for real
/// nights stray unevenly: still weeks and sudden cold, which one spread for a season hides.
pub const SPREAD_TIMES: Figure = figure(0.97, 1.15, 1.35, &NIGHT_MEMORY);

/// The same under unheated glass, still against the spread out of doors.
pub const SPREAD_TIMES_UNDER_GLASS: Figure = figure(0.65, 0.87, 1.2, &NIGHTS_UNDER_GLASS);

/// How much warmer than the open a night's minimum is under unheated single glass, K. A plastic
/// tunnel was measured at 1.3 ([`MEASURED_LIFT`]).
pub const LIFT_UNDER_GLASS_K: Figure = figure(1.0, 2.0, 3.0, &COMMON_PRACTICE);

/// What the one measurement of such a lift is.
pub static MEASURED_LIFT: &Source = &SAVAGE_1980;

/// How far a place's lasting difference from its region may be off, out of doors or once the lift of
/// the glass is counted: standard deviation, K.
pub const PLACE_SPREAD_K: f64 = 1.5;

/// Where [`PLACE_SPREAD_K`] comes from.
pub static PLACE_SOURCE: &Source = &PLACE_IN_REGION;

/// Standard deviation of the error of a forecast minimum, K, for tonight and the two nights after.
pub const FORECAST_ERROR_SOON_K: Figure = figure(1.0, 1.5, 2.2, &COMMON_PRACTICE);

/// The same for the fourth to the seventh night.
pub const FORECAST_ERROR_LATER_K: Figure = figure(1.8, 2.5, 3.5, &COMMON_PRACTICE);

/// Nights from the first, of which [`FORECAST_ERROR_SOON_K`] speaks.
pub const SOON_NIGHTS: usize = 3;

/// What a chance that all coming nights stay above a limit is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stay {
    /// More likely than not, a night falls below.
    Unlikely,
    /// About even: wait, or cover.
    Even,
    /// Likely, with something to cover the plants at hand.
    Likely,
    /// As good as safe.
    Safe,
}

/// The chances from which a stay is even, likely and safe.
pub const STANDS_FROM: [(f64, Stay); 3] =
    [(0.5, Stay::Even), (0.8, Stay::Likely), (0.95, Stay::Safe)];

/// Where [`STANDS_FROM`] comes from.
pub static STANDS_SOURCE: &Source = &NIGHT_VERDICT;

/// What a chance is called.
#[must_use]
pub fn stay(chance: f64) -> Stay {
    STANDS_FROM
        .iter()
        .rev()
        .find(|(from, _)| chance >= *from)
        .map_or(Stay::Unlikely, |(_, stay)| *stay)
}

/// The weights of a low, a best and a high figure that stand for all between and beyond.
///
/// Source: Swanson's rule, as in Hurst, Brown & Swanson 2000, AAPG Bulletin 84:1883-1891 (from
/// memory; it keeps the mean and the spread of a normal quantity known by its 1-in-10 limits).
const SWANSON: [f64; 3] = [0.3, 0.4, 0.3];

fn three(figure: Figure) -> [f64; 3] {
    let range = figure.range;
    [range.low(), range.best(), range.high()]
}

/// The nine habits in which nights may stray: three spreads by three memories, long and short. The
/// slow part's share rises with the fast part's memory, as both make for long spells.
///
/// # Errors
/// [`NoOutlook::Memory`] never with the handbook's own figures.
pub fn habits(spread_times: Figure) -> Result<Vec<Habit>, NoOutlook> {
    let spreads = three(spread_times).into_iter().zip(SWANSON);
    let memories = three(FAST).into_iter().zip(three(SLOW_SHARE)).zip(SWANSON);
    spreads
        .flat_map(|spread| memories.clone().map(move |memory| (spread, memory)))
        .map(|((spread_times, likely), ((fast, share), as_likely))| {
            Ok(Habit {
                memory: Memory::new(fast, SLOW.range.best(), share)?,
                spread_times,
                weight: likely * as_likely,
            })
        })
        .collect()
}
