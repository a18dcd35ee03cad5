//! After which date no night falls below a limit.

use super::memory::Habit;
use super::outlook::{NoOutlook, Offset, Season};
use crate::science::numerics::draws::Draws;

/// The last cold night of each of many simulated springs.
#[derive(Clone, Debug, PartialEq)]
pub struct LastCold {
    /// Days of the season, rising; springs without a cold night come first, as none.
    days: Vec<Option<usize>>,
}

impl LastCold {
    /// The day of the season by which the last cold night is over in a share of years, 0 to 1. None
    /// where so many years have no cold night at all.
    #[must_use]
    pub fn over_by(&self, share: f64) -> Option<usize> {
        let last = self.days.len().checked_sub(1)?;
        let place = (share.clamp(0.0, 1.0) * last as f64).round() as usize;
        self.days.get(place.min(last)).copied().flatten()
    }

    /// The share of years in which the last cold night is past before a day of the season.
    #[must_use]
    pub fn share_over_before(&self, day: usize) -> f64 {
        let over = self
            .days
            .partition_point(|last| last.is_none_or(|last| last < day));
        over as f64 / self.days.len() as f64
    }
}

/// The last nights not above a limit in so many simulated springs, which end with the season given:
/// choose one that ends in the warmest weeks. Each spring draws its habit and its offset anew, so
/// that what is not known of the place widens the dates. The same seed gives the same springs.
///
/// # Errors
/// [`NoOutlook`] where the season, a habit or the offset is unsound, or no spring is asked for.
pub fn last_cold_night(
    season: Season<'_>,
    offset: Offset,
    habits: &[Habit],
    limit_c: f64,
    springs: usize,
    seed: u64,
) -> Result<LastCold, NoOutlook> {
    let above_nought = |value: &f64| *value > 0.0 && value.is_finite();
    if season.mean_c.is_empty()
        || season.mean_c.len() != season.spread_k.len()
        || !season.spread_k.iter().all(above_nought)
    {
        return Err(NoOutlook::Season);
    }
    let sound = |habit: &Habit| above_nought(&habit.spread_times) && above_nought(&habit.weight);
    if habits.is_empty() || !habits.iter().all(sound) {
        return Err(NoOutlook::Habits);
    }
    if !(offset.expected_k.is_finite() && offset.spread_k >= 0.0 && offset.spread_k.is_finite()) {
        return Err(NoOutlook::Offset);
    }
    if springs == 0 {
        return Err(NoOutlook::Nights);
    }
    let all: f64 = habits.iter().map(|habit| habit.weight).sum();
    let mut draws = Draws::from_seed(seed);
    let mut days: Vec<Option<usize>> = (0..springs)
        .map(|_| {
            let mut left = draws.uniform() * all;
            let habit = habits
                .iter()
                .find(|habit| {
                    left -= habit.weight;
                    left <= 0.0
                })
                .unwrap_or(&habits[0]);
            let warmer = offset.expected_k + offset.spread_k * draws.deviate();
            let parts = habit.memory.parts();
            // Each part begins as it is on the whole, and keeps its spread from night to night.
            let mut strayed = parts.map(|(_, share)| share.sqrt() * draws.deviate());
            let mut last = None;
            for (day, (mean, spread)) in season.mean_c.iter().zip(season.spread_k).enumerate() {
                if day > 0 {
                    for (part, (kept, share)) in strayed.iter_mut().zip(parts) {
                        if share > 0.0 {
                            let anew = (share * (1.0 - kept * kept)).sqrt();
                            *part = kept * *part + anew * draws.deviate();
                        }
                    }
                }
                let strayed: f64 = strayed.iter().sum();
                if mean + warmer + spread * habit.spread_times * strayed <= limit_c {
                    last = Some(day);
                }
            }
            last
        })
        .collect();
    days.sort_unstable();
    Ok(LastCold { days })
}
