//! A batch of the record as a reckoning takes it: when it was sown, what became of it, and where it stood.

use std::collections::BTreeMap;

use super::kinds::{DAY, INSIDE};
use super::vessel::key_like;
use super::{Day, Id, Record, Thing};
use crate::handbook::crops::{Crop, crop};

/// A batch until a day.
#[derive(Clone, Debug, PartialEq)]
pub struct BatchHere {
    /// Its name on every device.
    pub id: Id,
    /// The crop, as it was written.
    pub crop: String,
    /// The day of sowing or striking.
    pub sown: Day,
    /// How many cells or pots.
    pub number: Option<u32>,
    /// The day that it was up.
    pub up: Option<Day>,
    /// How many were.
    pub came_up: Option<u32>,
    /// The day that it was potted, or else moved on.
    pub potted: Option<Day>,
    /// How many were lost so far.
    pub lost: Option<u32>,
    /// The day that the first of its plants were sold.
    pub ready: Option<Day>,
    /// The day of the first cut or pick.
    pub picked: Option<Day>,
    /// The day that it ended.
    pub gone: Option<Day>,
    /// The pot it is in.
    pub pot: String,
    /// Where it was put first.
    pub first: Option<Id>,
    /// Where it stood last.
    pub last: Option<Id>,
    /// The seed that it is of.
    pub seed_lot: Option<Id>,
    /// The plan that it was sown for.
    pub plan: Option<Id>,
}

impl BatchHere {
    /// How many of it stand, as far as they were counted: what came up or was sown, less what was lost.
    #[must_use]
    pub fn stands(&self) -> Option<u32> {
        let number = self.came_up.or(self.number)?;
        Some(number.saturating_sub(self.lost.unwrap_or(0)))
    }
}

/// The batches of a record that were sown until a day, as they were at the end of it, the last sown first.
#[must_use]
pub fn batches_here(record: &Record, until: Day) -> Vec<BatchHere> {
    // Cuts are not found by their batch: they are gone through once.
    let mut first_cut: BTreeMap<Id, Day> = BTreeMap::new();
    for cut in record.of_kind("cut") {
        if let Some((batch, day)) = cut.one("batch").zip(cut.day(DAY))
            && day <= until
        {
            let first = first_cut.entry(batch).or_insert(day);
            *first = day.min(*first);
        }
    }
    let mut found: Vec<BatchHere> = record
        .of_kind("batch")
        .filter_map(|batch| here(record, batch, until, first_cut.get(&batch.id).copied()))
        .collect();
    found.sort_by_key(|batch| std::cmp::Reverse((batch.sown, batch.id)));
    found
}

/// The crop of the handbook that a text names: by its key, or one of the record by what it is reckoned as.
#[must_use]
pub fn crop_like(record: &Record, text: &str) -> Option<&'static Crop> {
    crop(key_like(record, text))
}

fn count(thing: &Thing, path: &str) -> Option<u32> {
    thing.base(path).map(|number| number.round() as u32)
}

fn here(record: &Record, batch: &Thing, until: Day, first_cut: Option<Day>) -> Option<BatchHere> {
    let sown = batch.day("sown").filter(|sown| *sown <= until)?;
    let first = batch.one(INSIDE);
    let mut here = BatchHere {
        id: batch.id,
        crop: batch.text("crop").to_owned(),
        sown,
        number: count(batch, "number"),
        up: None,
        came_up: None,
        potted: None,
        lost: None,
        ready: None,
        picked: first_cut,
        gone: None,
        pot: batch.text("pot").to_owned(),
        first,
        last: first,
        seed_lot: batch.one("seed_lot"),
        plan: batch.one("plan"),
    };
    let mut moved = None;
    for log in record.stages_of(batch.id, until) {
        let Some(day) = log.day(DAY) else { continue };
        if log.kind == "sold" {
            // What is sold by weight was cut.
            let of = if log.text("weight").is_empty() {
                &mut here.ready
            } else {
                &mut here.picked
            };
            *of = Some(of.map_or(day, |first| first.min(day)));
            continue;
        }
        if let Some(to) = log.one("to") {
            here.last = Some(to);
        }
        if !log.text("pot").is_empty() {
            log.text("pot").clone_into(&mut here.pot);
        }
        match log.text("what") {
            "up" => {
                here.up = here.up.or(Some(day));
                here.came_up = here.came_up.or_else(|| count(log, "number"));
            }
            "pricked_out" | "potted_on" => here.potted = here.potted.or(Some(day)),
            "moved" => moved = moved.or(Some(day)),
            "lost" => {
                let lost = count(log, "number").unwrap_or(0);
                here.lost = Some(here.lost.unwrap_or(0).saturating_add(lost));
            }
            "ended" => here.gone = Some(day),
            _ => {}
        }
    }
    here.potted = here.potted.or(moved);
    Some(here)
}
