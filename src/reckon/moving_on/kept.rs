//! What the record keeps of an answer: how the batch stands, the best day, and how it is hardened until then.

use super::told::Detail;
use crate::measure::Entry;
use crate::reckon::form::{Texts, path_in};

/// How it stands.
pub const STAGE_KEPT: &str = "stage";
/// The sentence on it.
pub const SAID_KEPT: &str = "said";
/// The best day to move.
pub const BEST_DAY_KEPT: &str = "best_day";
/// The rows of hardening.
pub const HARDENING_KEPT: &str = "hardening";
/// The rows of what was seen.
pub const SEEN_KEPT: &str = "seen";

/// What was seen, as texts of the rows that keep it: the path of a field, and what was found.
#[must_use]
pub fn seen_kept(question: &Texts) -> Texts {
    let seen = question
        .iter()
        .filter(|(path, text)| path.starts_with("seen.") && is_found(text));
    seen.enumerate()
        .flat_map(|(place, (path, text))| {
            [("what", path), ("found", text)]
                .map(|(what, of)| (path_in(SEEN_KEPT, place, what), of.clone()))
        })
        .collect()
}

/// Whether more than a unit stands in a text.
fn is_found(text: &str) -> bool {
    !Entry::from_stored(text).is_empty()
}

/// An answer, as texts.
#[must_use]
pub fn kept(detail: &Detail) -> Texts {
    let mut texts = vec![
        (STAGE_KEPT.to_owned(), detail.stage.clone()),
        (SAID_KEPT.to_owned(), detail.stage_sentence.clone()),
        (BEST_DAY_KEPT.to_owned(), detail.best_day.clone()),
    ];
    for (place, step) in detail.hardening.iter().enumerate() {
        let at = |what| path_in(HARDENING_KEPT, place, what);
        texts.push((at("day"), step.day.clone()));
        texts.push((at("what"), step.what.clone()));
    }
    texts
}
