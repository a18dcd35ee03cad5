//! Salt at the top of pots that drink from below: how fast it gathers, and when to flush.

use super::sources::{BED_JUDGEMENT, SALT_CRUST};
use super::{Figure, figure};

/// Diffusivity of salt in a moist mix by its whole section, cm²/d.
pub static DIFFUSES_CM2_PER_D: Figure = figure(0.2, 0.33, 0.5, &SALT_CRUST);
/// The layer in which it gathers, cm: the top 2 to 4 cm read highest.
pub static TOP_CM: Figure = figure(2.0, 2.5, 4.0, &SALT_CRUST);
/// The top is flushed once it reads so many times the middle. A judgement.
pub static FLUSH_AT_TIMES: Figure = figure(3.0, 3.0, 3.0, &BED_JUDGEMENT);
