//! What the record keeps of an answer: its sowings, each a plan.

use super::told::Detail;
use crate::reckon::form::{Texts, path_in};

/// The row of the question that a sowing is of.
pub const SOWN_KEPT: &str = "row";

/// Where something of a sowing stands.
#[must_use]
pub fn kept_at(place: usize, what: &str) -> String {
    path_in("sown", place, what)
}

/// The sowings of an answer, as texts.
#[must_use]
pub fn kept(detail: &Detail) -> Texts {
    let sown = detail.sown.iter().enumerate();
    sown.flat_map(|(place, sown)| {
        [
            (SOWN_KEPT, sown.row.to_string()),
            ("crop", sown.crop.clone()),
            ("on", sown.on.clone()),
            ("cells", sown.cells.to_string()),
            ("ready", sown.ready_by.clone()),
        ]
        .map(|(what, text)| (kept_at(place, what), text))
    })
    .collect()
}
