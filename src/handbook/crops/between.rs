//! How far one source lies from the next in the time that a crop takes.
//!
//! A figure of a crop is of one table or one judgement. Another lot of seed, another variety, another hand and another
//! idea of what is up or ready give other days, by more than the range of any one figure says. How much more is told by
//! findings in print that had no part in the figures (`tests/season_published.rs`): days to coming up of fourteen
//! sources, days to young plants, pots and cuts of six, each at a stated temperature.
//!
//! Each finding’s time is this program’s, times what is due to its source, times what is due to the finding alone, beside
//! the range of the figures themselves; all are log-normal about 1. The scatter of the two together is estimated by
//! maximum likelihood (`tests/reference/between.py` does it by another way), of all findings. What the ranges then hold is
//! counted with each source left out of the estimate in turn.

use super::super::sources::{BETWEEN_SOURCES, Source};

/// The scatter between sources: standard deviations of the natural logarithm of a time, or of the warmth that it takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// Of the time from sowing until half are up.
    pub comes_up: f64,
    /// Of the warmth from then until a stage is reached.
    pub grows: f64,
}

impl Between {
    /// None: the range of the handbook’s figures alone.
    pub const NONE: Self = Self {
        comes_up: 0.0,
        grows: 0.0,
    };
}

/// As found in 26 and 25 findings, to two digits. They leave it open between 0.15 and 0.45 for coming up and between 0.19
/// and 0.58 for growth (profile likelihood, 9 times in 10): of few sources, the second above all.
pub const BETWEEN: Between = Between {
    comes_up: 0.28,
    grows: 0.32,
};

/// Where it comes from.
pub static SOURCE: &Source = &BETWEEN_SOURCES;
