//! The next night from the log, where nothing is known of the season.

use super::memory::Memory;
use super::outlook::Reading;
use crate::science::counting::student_share;

/// How many independent nights the mean of these is worth: n²/ΣΣρ, which for unbroken days is
/// n/(1 + 2 Σ (1 - k/n) ρₖ). Nights that resemble each other tell the same thing twice. None without
/// a night.
///
/// Source: Bayley & Hammersley 1946, Supplement to the Journal of the Royal Statistical Society
/// 8:184-197 (from memory).
#[must_use]
pub fn nights_that_count(days: &[usize], memory: &Memory) -> Option<f64> {
    let alike: f64 = days
        .iter()
        .flat_map(|one| {
            days.iter()
                .map(|other| memory.correlation(one.abs_diff(*other)))
        })
        .sum();
    (alike > 0.0).then(|| (days.len() as f64).powi(2) / alike)
}

/// What a log tells by itself of a night in the same spell of weather.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LogAlone {
    /// Mean of the minima, °C.
    pub mean_c: f64,
    /// Their standard deviation as it comes, with n - 1, K.
    pub spread_k: f64,
    /// How many times too small that is, since nights that resemble each other lie close.
    pub spread_times: f64,
    /// How many independent nights they are worth.
    pub nights_that_count: f64,
    /// Degrees of freedom, n - 1.
    pub degrees_of_freedom: f64,
}

impl LogAlone {
    /// From a log of at least three nights that are not all alike; none from less.
    ///
    /// The mean square about the mean of n alike nights comes out at (n - n/n_m)/(n - 1) of their
    /// variance, n_m being [`nights_that_count`]; the spread is enlarged by the root of its inverse.
    /// One night in the same spell only: the season moves on, and of a week this says nothing.
    #[must_use]
    pub fn of(log: &[Reading], memory: &Memory) -> Option<Self> {
        const FEWEST: usize = 3;
        if log.len() < FEWEST {
            return None;
        }
        let n = log.len() as f64;
        let mean_c = log.iter().map(|reading| reading.minimum_c).sum::<f64>() / n;
        let squares: f64 = log
            .iter()
            .map(|reading| (reading.minimum_c - mean_c).powi(2))
            .sum();
        let spread_k = (squares / (n - 1.0)).sqrt();
        let days: Vec<usize> = log.iter().map(|reading| reading.day).collect();
        let count = nights_that_count(&days, memory)?;
        let spread_times = ((n - 1.0) / (n - n / count)).sqrt();
        (spread_k > 0.0 && spread_k.is_finite() && spread_times.is_finite()).then_some(Self {
            mean_c,
            spread_k,
            spread_times,
            nights_that_count: count,
            degrees_of_freedom: n - 1.0,
        })
    }

    /// The chance that a night of the same spell stays above a limit, by Student's distribution:
    /// T((mean - limit)/(s c √(1 + 1/n_m))).
    #[must_use]
    pub fn chance_above(&self, limit_c: f64) -> f64 {
        let wide =
            self.spread_k * self.spread_times * (1.0 + self.nights_that_count.recip()).sqrt();
        student_share((self.mean_c - limit_c) / wide, self.degrees_of_freedom)
    }
}
