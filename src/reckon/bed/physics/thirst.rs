//! How demand runs through a day, and the multiples of its mean that are tried.

use std::sync::LazyLock;

use crate::handbook::thirst::DRINKS_FROM_TO_H;
use crate::measure::Duration;
use crate::science::flow::HalfSine;

/// The least multiple of the day's mean that is tried for supply.
pub const LEAST_TIMES: f64 = 0.1;
/// Each is larger than the last by so much.
pub const TIMES_RATIO: f64 = 1.15;
/// So many are tried.
pub const TIMES_MANY: usize = 34;
/// So many steps of the same ratio a flux may thin out where it spreads below the base.
pub const SPREAD_MANY: usize = 16;
/// So many of them are no more than the mean itself: 0.1 × 1.15^16 is 0.94.
pub const MEAN_PLACE: usize = 17;

/// A multiple of the day's mean, from the least.
pub fn times(place: usize) -> f64 {
    LEAST_TIMES * TIMES_RATIO.powi(place as i32)
}

/// Share of the day's demand above each multiple of its mean: the same for every bed and every draw.
static BEYOND: LazyLock<Vec<f64>> = LazyLock::new(|| {
    (0..TIMES_MANY)
        .map(|place| share_beyond(times(place)))
        .collect()
});

/// The share of the day's demand beyond a multiple of its mean that was tried.
pub fn share_at(multiple: f64) -> f64 {
    let place = ((multiple / LEAST_TIMES).ln() / TIMES_RATIO.ln() + 1e-9).max(0.0) as usize;
    BEYOND.get(place).copied().unwrap_or(0.0)
}

/// How demand runs through a day.
pub fn course() -> HalfSine {
    let [from, to] = DRINKS_FROM_TO_H.map(Duration::from_hours);
    HalfSine::new(from, to)
}

/// The share of a day's demand that lies above a multiple of its mean.
fn share_beyond(multiple: f64) -> f64 {
    /// Pieces of the day.
    const PIECES: usize = 96;
    let sun = course();
    let day = Duration::from_days(1.0).in_seconds();
    (0..PIECES)
        .map(|piece| {
            let at = (piece as f64 + 0.5) / PIECES as f64 * day;
            (sun.multiple(at) - multiple).max(0.0)
        })
        .sum::<f64>()
        / PIECES as f64
}
