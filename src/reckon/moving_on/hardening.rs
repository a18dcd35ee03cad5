//! How it is hardened, day by day, so that the last day is the best to move.

use super::case::Case;
use super::days::Run;
use super::inputs::Inputs;
use super::nights::DAYS;
use super::words;
use crate::handbook::moving::{HARDENING_DAYS, NIGHT_STEP_K, VENTS_FIRST_DAYS, WATER_SHARE};

/// A day of hardening.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct HardeningTold {
    /// The day, such as 2027-05-20.
    pub day: String,
    /// Which day of hardening it is, from 1; the day of the move is the last.
    pub step: u32,
    /// What to do, in words.
    pub what: String,
    /// The night that follows is let no colder than this where it stands, °C.
    pub night_c: f64,
    /// Water, as a share of what is usual.
    pub water: f64,
}

/// The rows, first day first; none for a move that is not into cold, or where no day of the coming three weeks is worth
/// moving on. With less time than it wants, the plan is as long as there is time.
pub fn plan(case: &Case, inputs: &Inputs, run: &Run) -> Vec<HardeningTold> {
    if !case.moves.into_cold() || run.best >= DAYS {
        return Vec::new();
    }
    let done = case.seen.hardened_days.unwrap_or(0.0).floor();
    let wanted = (HARDENING_DAYS.range.best() - done).max(0.0) as usize;
    let first = run.best.saturating_sub(wanted);
    (first..=run.best)
        .map(|day| {
            let step = done as u32 + (day - first) as u32 + 1;
            let moves = day == run.best;
            let cooler =
                f64::from(step.saturating_sub(VENTS_FIRST_DAYS)) * NIGHT_STEP_K.range.best();
            let least = inputs.limit_c.min(case.stood.low_c);
            let night_c = (case.stood.low_c - cooler).max(least);
            let what = if moves {
                words::harden_and_move(case)
            } else if step <= VENTS_FIRST_DAYS {
                words::HARDEN_VENTS.to_owned()
            } else {
                words::harden_cooler(night_c)
            };
            HardeningTold {
                day: case.today.plus(day as i32).iso(),
                step,
                what,
                night_c,
                water: WATER_SHARE,
            }
        })
        .collect()
}
