//! What waiting costs, and what going early costs, by the day of the move.

use super::case::Case;
use super::hot::scorched;
use super::inputs::{Inputs, counted_from};
use super::nights::{DAYS, Nights};
use crate::handbook::crops::readiness::{CountedFrom, LOAD_BINDS_G_PER_L, LOAD_HOLDS_BACK_G_PER_L};
use crate::handbook::moving;
use crate::science::plant_quality::{growth_by_pot, load};

const DAYS_OF_WEEK: f64 = 7.0;

/// How far a batch is on its way, and how its weeks run.
#[derive(Clone, Copy, Debug)]
pub struct Way {
    /// Days from today until it is ready, below nought where it is; none where it is not within the days.
    pub ready_in: Option<f64>,
    /// Weeks that count towards the check, today.
    pub weeks: f64,
}

impl Way {
    /// Weeks that count towards the check, so many days from today.
    pub fn weeks_on(&self, case: &Case, day: f64) -> f64 {
        match counted_from(case) {
            CountedFrom::Potting => self.weeks + day / DAYS_OF_WEEK,
            CountedFrom::Ready => self
                .ready_in
                .map_or(0.0, |ready| (day - ready).max(0.0) / DAYS_OF_WEEK),
        }
    }
}

/// How far the pot holds growth back: 0 not at all, 1 as far as it will. By the weeks in it, the roots at its wall and
/// the plant that was weighed, whichever says more.
pub fn held_back(case: &Case, weeks: f64, before_check: f64) -> f64 {
    const CIRCLING_MOST: f64 = 3.0;
    let by_weeks = (weeks / before_check - moving::HELD_BACK_FROM) / (1.0 - moving::HELD_BACK_FROM);
    let by_circling = case
        .seen
        .circling
        .map_or(0.0, |score| f64::from(score) / CIRCLING_MOST);
    let by_load = load_g_per_l(case).map_or(0.0, |load| {
        (load / LOAD_HOLDS_BACK_G_PER_L).ln() / (LOAD_BINDS_G_PER_L / LOAD_HOLDS_BACK_G_PER_L).ln()
    });
    by_weeks.max(by_circling).max(by_load).clamp(0.0, 1.0)
}

/// What the pot carries of the plant that was weighed, g/L dry.
pub fn load_g_per_l(case: &Case) -> Option<f64> {
    let (_, mass) = case.weighed?;
    load(mass, case.pot.filled())
        .ok()
        .map(crate::measure::Density::in_grams_per_litre)
}

/// How many times as heavy it grows in its next pot; none where it stays in this one.
pub fn gain_of_next(case: &Case) -> Option<f64> {
    growth_by_pot(case.next?.filled(), case.pot.filled()).ok()
}

/// What is lost by waiting until each of the days, and by not moving in them at all: exponents, from today on.
pub fn waiting(case: &Case, inputs: &Inputs, way: &Way) -> Vec<f64> {
    let gain = gain_of_next(case).map_or(0.0, f64::ln) / inputs.trial_weeks;
    let mut lost = 0.0;
    let mut costs = vec![0.0];
    for day in 0..DAYS {
        let middle = day as f64 + 0.5;
        let weeks = way.weeks_on(case, middle);
        if way.ready_in.is_some_and(|ready| ready <= middle) {
            lost += inputs.day;
        }
        if weeks > inputs.weeks_before_check {
            lost += inputs.checked_per_week / DAYS_OF_WEEK;
        }
        lost += gain * held_back(case, weeks, inputs.weeks_before_check) / DAYS_OF_WEEK;
        costs.push(lost);
    }
    costs
}

/// What cold takes in one night of the place, on the mean of all that may come: an exponent.
fn of_night(inputs: &Inputs, nights: &Nights, night: usize) -> f64 {
    /// Further below than this nothing is counted: nothing is left by then.
    const FAR_K: f64 = 25.0;
    let chilled = inputs.chilled_c.map_or(0.0, |limit| {
        inputs.chilled_per_k * nights.short_of(night, limit, limit - FAR_K)
    });
    let killed = inputs.killed_c.map_or(0.0, |limit| {
        moving::KILLED * nights.chance_colder(night, limit)
    });
    let still = moving::STANDS_STILL_BELOW_K;
    let slowed =
        inputs.day * nights.short_of(night, inputs.grows_c, inputs.grows_c - still) / still;
    chilled + killed + slowed
}

/// What is lost by going early, for each of the days and for not moving in them: exponents.
///
/// Cold takes its part in each night from the move to the last of the days; the nights after those are met whichever
/// day it moves, and make no difference. So do hot days, as long as the plant takes to take hold. What else is missing grows less from day to day.
pub fn early(
    case: &Case,
    inputs: &Inputs,
    nights: &Nights,
    share_on: &[f64],
    missing: f64,
) -> Vec<f64> {
    let hardened = case.seen.hardened_days.unwrap_or(0.0);
    let mut cold = [0.0; DAYS + 1];
    for night in (0..DAYS).rev() {
        cold[night] = cold[night + 1] + of_night(inputs, nights, night);
    }
    cold.iter()
        .zip(scorched(case, inputs))
        .enumerate()
        .map(|(day, (cold, scorched))| {
            let days = day as f64;
            let soft = if case.moves.into_cold() {
                inputs.unhardened * (1.0 - (hardened + days) / inputs.hardening_days).max(0.0)
            } else {
                0.0
            };
            let share = share_on.get(day).copied().unwrap_or(1.0);
            let unready = inputs.unready * (1.0 - share).max(0.0);
            let amiss = inputs.missing * missing * (-days / moving::MISSING_COMES_DAYS).exp();
            cold + scorched + soft + unready + amiss
        })
        .collect()
}
