//! How warm the coming nights may be in one place: from the season, the minima logged there and a
//! forecast.
//!
//! A night's minimum is the season's mean, an offset of the place that stays, and a deviation. The
//! deviation is the sum of a fast and a slow one, each remembering a share of itself from night to
//! night ([`Memory`]). One memory alone is over-sure of a fortnight: weather has spells of days and
//! moods of weeks, and a record that is short cannot tell which it has seen. How far nights spread
//! and how long they remember is itself in doubt, and is given as a few [`Habit`]s of which the log
//! makes some likelier than others.
//!
//! * `memory`: how nights resemble each other.
//! * `outlook`: the coming nights, one by one and together, and the offset of the place.
//! * `paths`: the chance that every one of several nights stays above a limit.
//! * `last_cold`: after which date no night falls below a limit.
//! * `log_alone`: the next night from the log, where nothing is known of the season.
//!
//! Air as the thermometer reads it. A leaf under a clear sky is colder.

mod last_cold;
mod log_alone;
mod memory;
mod outlook;
mod paths;

pub use last_cold::{LastCold, last_cold_night};
pub use log_alone::{LogAlone, nights_that_count};
pub use memory::{Habit, Memory};
pub use outlook::{Coming, Forecast, MOST_NIGHTS, NoOutlook, Offset, Outlook, Reading, Season};
pub use paths::{Paths, Roots};
