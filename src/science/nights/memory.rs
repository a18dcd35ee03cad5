//! How nights resemble each other.

use super::NoOutlook;

/// How a night's deviation from the season is remembered: the sum of a fast and a slow first-order
/// autoregression.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Memory {
    fast: f64,
    slow: f64,
    slow_share: f64,
}

impl Memory {
    /// A memory of two speeds: correlations from one night to the next of the fast and of the slow
    /// part, both from 0 to below 1, and the slow part's share of the variance, 0 to 1.
    ///
    /// # Errors
    /// [`NoOutlook::Memory`] outside these.
    pub fn new(fast: f64, slow: f64, slow_share: f64) -> Result<Self, NoOutlook> {
        let remembers = |correlation: f64| (0.0..1.0).contains(&correlation);
        if remembers(fast) && remembers(slow) && (0.0..=1.0).contains(&slow_share) {
            Ok(Self {
                fast,
                slow,
                slow_share,
            })
        } else {
            Err(NoOutlook::Memory)
        }
    }

    /// The plain first-order autoregression, for comparison: over-sure beyond a few nights.
    ///
    /// # Errors
    /// [`NoOutlook::Memory`] where the correlation is not from 0 to below 1.
    pub fn of_one_speed(correlation: f64) -> Result<Self, NoOutlook> {
        Self::new(correlation, 0.0, 0.0)
    }

    /// The correlation of two nights so many days apart: (1 - w) φ₁ᵏ + w φ₂ᵏ.
    #[must_use]
    pub fn correlation(&self, days: usize) -> f64 {
        let days = days as f64;
        (1.0 - self.slow_share) * self.fast.powf(days) + self.slow_share * self.slow.powf(days)
    }

    /// The two parts: correlation from one night to the next, and share of the variance.
    pub(super) fn parts(&self) -> [(f64, f64); 2] {
        [
            (self.fast, 1.0 - self.slow_share),
            (self.slow, self.slow_share),
        ]
    }
}

/// One way in which the nights may behave, and how likely it is before the log is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Habit {
    /// How they resemble each other.
    pub memory: Memory,
    /// How many times as wide as the season says they spread, above 0.
    pub spread_times: f64,
    /// How likely it is, against the other habits; above 0, in any unit.
    pub weight: f64,
}

impl Habit {
    /// The only habit there is: nothing about spread and memory in doubt.
    #[must_use]
    pub fn certain(memory: Memory) -> [Self; 1] {
        [Self {
            memory,
            spread_times: 1.0,
            weight: 1.0,
        }]
    }
}
