//! The day that it is.

use crate::nursery::Day;

/// The day that the device's calendar shows.
#[must_use]
pub fn by_the_calendar() -> Day {
    let now = js_sys::Date::new_0();
    // A calendar's own numbers: small and whole.
    let day = Day::from_civil(
        now.get_full_year() as i32,
        now.get_month() + 1,
        now.get_date(),
    );
    day.unwrap_or(Day::from_number(0))
}
