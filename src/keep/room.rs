//! How much room is left on the shelf, in what a grower enters: where a browser has no archive, all of
//! the record shares it.

/// What `localStorage` holds, in UTF-16 units: 5 MiB of them, measured in Chromium 156. Browsers differ;
/// what is told is "about", and a write that finds no room says so itself.
pub const UNITS: usize = 5_242_880;

/// Units that the minimum and maximum of one night take: its entry, in both copies of the month, and
/// written as a string within a string. Measured in `tests/store.rs`.
pub const A_NIGHT: usize = 330;

/// So many are told exactly; more are told to two figures, so that what is told does not change with
/// every entry.
const EXACTLY: usize = 100;

/// For about how many more nights there is room, where so many units are in use.
#[must_use]
pub fn nights_left(used: usize) -> usize {
    let nights = UNITS.saturating_sub(used) / A_NIGHT;
    let mut rounded = 1;
    while nights / rounded >= EXACTLY {
        rounded *= 10;
    }
    nights / rounded * rounded
}
