//! Which entries are stored together: what belongs to a month, and what to none.
//!
//! A log belongs to the month of the day it was entered for; whatever corrects it later goes with
//! it, so that an entry never moves from one part to another. All that is about no log stands by
//! itself. Every part is a document of its own; merged in any order they give the whole.

use litemap::LiteMap;

use super::entry::{Act, Entry};
use super::merge::Journal;
use crate::nursery::day::DAY_MINUTES;
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, kind};

/// A part of the record.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// What belongs to no day.
    Standing,
    /// What belongs to a month, such as `2026-05`.
    Month(String),
}

impl Part {
    /// Its name in documents.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Standing => "standing",
            Self::Month(month) => month,
        }
    }
}

/// The part that an entry belongs to.
#[must_use]
pub fn part_of(journal: &Journal, entry: &Entry) -> Part {
    let added = match &entry.act {
        Act::Add { .. } => Some(entry),
        _ => entry.thing().and_then(|thing| journal.get(thing)),
    };
    let Some((added, Act::Add { kind: key, texts })) = added.map(|added| (added, &added.act))
    else {
        return Part::Standing;
    };
    let text = texts.get(DAY);
    let day = Day::from_iso(text).or_else(|| Day::read(text).ok());
    match (kind(key).map(|kind| kind.is_log), day) {
        (Some(true) | None, Some(day)) => Part::Month(day.month()),
        // A log must not pile up among what stands, even if its day cannot be read.
        (Some(true), None) => Part::Month(day_of(added.at).month()),
        (Some(false), _) | (None, None) => Part::Standing,
    }
}

/// The day of a stamp.
fn day_of(at: u32) -> Day {
    // A stamp in minutes has fewer days than a day can hold.
    Day::from_number((at / DAY_MINUTES) as i32)
}

/// All parts, each with its entries in order. The standing part is always there.
#[must_use]
pub fn parts(journal: &Journal) -> LiteMap<Part, Vec<&Entry>> {
    let mut parts = LiteMap::new();
    parts.insert(Part::Standing, Vec::new());
    for entry in journal.entries() {
        parts
            .entry(part_of(journal, entry))
            .or_default()
            .push(entry);
    }
    parts
}
