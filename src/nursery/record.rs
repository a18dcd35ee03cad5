//! All things at present, found by id, kind, day and place.

use std::borrow::Cow;
use std::collections::BTreeMap;

use litemap::LiteMap;

use super::day::Day;
use super::id::Id;
use super::ids::Ids;
use super::kinds::{DAY, INSIDE, Takes};
use super::thing::Thing;
use super::words;

/// The record as it stands.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Record {
    /// All things, by day and id: first what belongs to no day, and what has been withdrawn.
    things: BTreeMap<(i32, Id), Thing>,
    /// The day under which each is found.
    days: BTreeMap<Id, i32>,
    /// How many are present of each kind.
    counts: LiteMap<Cow<'static, str>, usize>,
    /// The logs by which a batch is moved and counted, by the batch, in the order of `things`:
    /// there are few of each batch among all logs.
    by_batch: LiteMap<Id, Vec<(i32, Id)>>,
}

/// The kinds of log by which batches are moved and counted.
pub const BATCHES_STAND_BY: [&str; 2] = ["stage", "sold"];

/// Stands for the day of things that have been withdrawn.
const GONE: i32 = i32::MIN;
/// Stands for the day of things that belong to none.
const STANDING: i32 = i32::MIN + 1;
/// Stands for the day of logs whose day cannot be read.
const NO_DAY: i32 = i32::MIN + 2;
/// Nothing is inside more things than this, one in the other.
const DEEPEST: usize = 16;

fn day_of(thing: &Thing) -> i32 {
    if thing.gone {
        GONE
    } else if thing.is_log() {
        thing.day(DAY).map_or(NO_DAY, Day::number)
    } else {
        STANDING
    }
}

/// Whether things of a kind can be named in a field of others.
fn may_be_named(kind: &str) -> bool {
    let mut fields = super::kinds::all().flat_map(|other| other.fields);
    fields.any(|field| matches!(field.takes, Takes::One(kinds) if kinds.contains(&kind)))
}

/// Counts a thing of a day among those of its kind, or counts it no more.
fn count(counts: &mut LiteMap<Cow<'static, str>, usize>, thing: &Thing, day: i32, by: isize) {
    if day == GONE {
        return;
    }
    let before = counts.get(&thing.kind).copied().unwrap_or(0);
    match before.saturating_add_signed(by) {
        0 => counts.remove(&thing.kind),
        now => counts.insert(thing.kind.clone(), now),
    };
}

/// The batch that a log moves or counts, if it is such a log and present.
fn batch_of(thing: &Thing, day: i32) -> Option<Id> {
    let counts = day != GONE && BATCHES_STAND_BY.contains(&thing.kind.as_ref());
    counts.then(|| thing.one("batch")).flatten()
}

impl Record {
    /// A record of things, of which no two have the same id.
    #[must_use]
    pub fn of(things: Vec<Thing>) -> Self {
        let mut counts = LiteMap::new();
        let mut by_batch: LiteMap<Id, Vec<(i32, Id)>> = LiteMap::new();
        let keys = things.iter().map(|thing| {
            let day = day_of(thing);
            count(&mut counts, thing, day, 1);
            if let Some(batch) = batch_of(thing, day) {
                by_batch.entry(batch).or_default().push((day, thing.id));
            }
            (thing.id, day)
        });
        let days: BTreeMap<Id, i32> = keys.collect();
        for (_, logs) in by_batch.iter_mut() {
            logs.sort_unstable();
        }
        let key = |thing: &Thing| (days.get(&thing.id).copied().unwrap_or(NO_DAY), thing.id);
        let things = things.into_iter().map(|thing| (key(&thing), thing));
        Self {
            things: things.collect(),
            days,
            counts,
            by_batch,
        }
    }

    /// Puts a thing in, in place of what had its id.
    pub fn put(&mut self, thing: Thing) {
        let day = day_of(&thing);
        count(&mut self.counts, &thing, day, 1);
        if let Some(before) = self.days.insert(thing.id, day)
            && let Some(replaced) = self.things.remove(&(before, thing.id))
        {
            count(&mut self.counts, &replaced, before, -1);
            self.leave_batch(&replaced, before);
        }
        if let Some(batch) = batch_of(&thing, day) {
            let logs = self.by_batch.entry(batch).or_default();
            let key = (day, thing.id);
            if let Err(place) = logs.binary_search(&key) {
                logs.insert(place, key);
            }
        }
        self.things.insert((day, thing.id), thing);
    }

    /// Takes a thing out, as if it had never been.
    pub fn take_out(&mut self, id: Id) {
        if let Some(day) = self.days.remove(&id)
            && let Some(thing) = self.things.remove(&(day, id))
        {
            count(&mut self.counts, &thing, day, -1);
            self.leave_batch(&thing, day);
        }
    }

    /// A log no longer moves or counts the batch that it did.
    fn leave_batch(&mut self, log: &Thing, day: i32) {
        let Some(batch) = batch_of(log, day) else {
            return;
        };
        if let Some(logs) = self.by_batch.get_mut(&batch) {
            if let Ok(place) = logs.binary_search(&(day, log.id)) {
                logs.remove(place);
            }
            if logs.is_empty() {
                self.by_batch.remove(&batch);
            }
        }
    }

    /// How many things of a kind are present.
    #[must_use]
    pub fn how_many(&self, kind: &str) -> usize {
        self.counts.get(kind).copied().unwrap_or(0)
    }

    /// A thing by its id, also one that has been withdrawn.
    #[must_use]
    pub fn get(&self, id: Id) -> Option<&Thing> {
        self.things.get(&(*self.days.get(&id)?, id))
    }

    /// Whether nothing is present.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.present().next().is_none()
    }

    /// All things, with those that have been withdrawn.
    pub fn all(&self) -> impl DoubleEndedIterator<Item = &Thing> {
        self.things.values()
    }

    /// What is present: first what belongs to no day, then the logs by day.
    pub fn present(&self) -> impl DoubleEndedIterator<Item = &Thing> {
        self.range(STANDING, i32::MAX)
    }

    /// What has been withdrawn.
    pub fn gone(&self) -> impl DoubleEndedIterator<Item = &Thing> {
        self.range(GONE, GONE)
    }

    fn range(&self, first: i32, last: i32) -> impl DoubleEndedIterator<Item = &Thing> {
        let first = (first, Id::LOWEST);
        // What comes after the last day; a range must not end before it begins.
        let end = (last.saturating_add(1), Id::LOWEST).max(first);
        self.things.range(first..end).map(|(_, thing)| thing)
    }

    /// Things that belong to no day: houses, mixes, batches.
    pub fn standing(&self) -> impl DoubleEndedIterator<Item = &Thing> {
        self.range(STANDING, STANDING)
    }

    /// Logs of the days from one to another, both included, the earliest first.
    pub fn between(&self, from: Day, to: Day) -> impl DoubleEndedIterator<Item = &Thing> {
        self.range(from.number().max(NO_DAY + 1), to.number())
    }

    /// Logs of a day.
    pub fn on(&self, day: Day) -> impl DoubleEndedIterator<Item = &Thing> {
        self.between(day, day)
    }

    /// All logs, those whose day cannot be read first.
    pub fn logs(&self) -> impl DoubleEndedIterator<Item = &Thing> {
        self.range(NO_DAY, i32::MAX)
    }

    /// Logs by day and id, each with that, from the one before the one given, or the latest, back
    /// to the earliest.
    pub(super) fn logs_back_from(
        &self,
        end: Option<(i32, Id)>,
    ) -> impl Iterator<Item = ((i32, Id), &Thing)> {
        let first = (NO_DAY, Id::LOWEST);
        let end = end.unwrap_or((i32::MAX, Id::LOWEST)).max(first);
        let logs = self.things.range(first..end).rev();
        logs.map(|(key, thing)| (*key, thing))
    }

    /// Logs that name a thing; none where they are so many that going through all is as well.
    pub(super) fn logs_naming(&self, thing: &Thing) -> Option<Vec<Id>> {
        /// Of more than these all are gone through again.
        const FEW: usize = 500;
        if thing.is_log() && !may_be_named(&thing.kind) {
            return Some(Vec::new());
        }
        let (id, text) = (thing.id, thing.id.text());
        let naming = self.logs().filter(|log| {
            log.texts.whole().contains(&text) && log.links().any(|(_, link)| link == id)
        });
        let found: Vec<Id> = naming.map(|log| log.id).take(FEW + 1).collect();
        (found.len() <= FEW).then_some(found)
    }

    /// Present things of a kind: those that belong to no day in the order of their ids, logs by day.
    pub fn of_kind<'a>(&'a self, kind: &'a str) -> impl DoubleEndedIterator<Item = &'a Thing> {
        // Of a kind that this version does not know some things may have a day and others none.
        let (first, last) = match super::kinds::kind(kind) {
            Some(table) if table.is_log => (NO_DAY, i32::MAX),
            Some(_) => (STANDING, STANDING),
            None => (STANDING, i32::MAX),
        };
        self.range(first, last)
            .filter(move |thing| thing.kind == kind)
    }

    /// Present standing things of a kind that stand in another directly: the bays of a house.
    pub fn inside<'a>(&'a self, kind: &'a str, outer: Id) -> impl Iterator<Item = &'a Thing> {
        self.of_kind(kind)
            .filter(move |thing| thing.one(INSIDE) == Some(outer))
    }

    /// A place and every present place within it.
    #[must_use]
    pub fn within(&self, outer: Id) -> Ids {
        let mut found = Ids::of(vec![outer]);
        // Each round finds what is one step deeper.
        for _ in 0..DEEPEST {
            let more: Vec<Id> = self
                .standing()
                .filter(|thing| !found.contains(&thing.id) && thing.kind != "batch")
                .filter(|thing| {
                    thing
                        .one(INSIDE)
                        .is_some_and(|inside| found.contains(&inside))
                })
                .map(|thing| thing.id)
                .collect();
            if more.is_empty() {
                break;
            }
            found.extend(more);
        }
        found
    }

    /// Logs that name a thing, in some days.
    pub fn about(&self, id: Id, from: Day, to: Day) -> impl DoubleEndedIterator<Item = &Thing> {
        let text = id.text();
        self.between(from, to).filter(move |thing| {
            thing.texts.whole().contains(&text) && thing.links().any(|(_, link)| link == id)
        })
    }

    /// The logs by which a batch was moved and counted until the end of a day, the earliest first;
    /// on the same day in the order in which they were entered. Those whose day cannot be read come
    /// first of all.
    pub fn stages_of(&self, batch: Id, until: Day) -> impl DoubleEndedIterator<Item = &Thing> {
        let logs = self.by_batch.get(&batch).map_or(&[][..], Vec::as_slice);
        let end = logs.partition_point(|(day, _)| *day <= until.number());
        let logs = logs.get(..end).unwrap_or_default().iter();
        logs.filter_map(|key| self.things.get(key))
    }

    /// Where every present batch stands at the end of a day: where it was put first, and then where
    /// its stages say.
    #[must_use]
    pub fn where_batches_stand(&self, day: Day) -> LiteMap<Id, Option<Id>> {
        let batches = self.of_kind("batch");
        let places = batches.map(|batch| {
            let stages = self.stages_of(batch.id, day);
            let stages = stages.filter(|log| log.kind == "stage");
            // The last that says anything of it.
            let mut said = stages.rev().filter_map(|stage| {
                let ended = stage.text("what") == "ended";
                let to = if ended { None } else { stage.one("to") };
                (ended || to.is_some()).then_some(to)
            });
            (batch.id, said.next().unwrap_or_else(|| batch.one(INSIDE)))
        });
        places.collect()
    }

    /// Batches that stand in a place or within it at the end of a day.
    #[must_use]
    pub fn batches_in(&self, place: Id, day: Day) -> Vec<&Thing> {
        let within = self.within(place);
        self.where_batches_stand(day)
            .into_iter()
            .filter(|(_, at)| at.is_some_and(|at| within.contains(&at)))
            .filter_map(|(batch, _)| self.get(batch))
            .collect()
    }

    /// What a thing is called in a sentence: its own name, or what it is and of which day.
    #[must_use]
    pub fn name_of(&self, id: Id) -> String {
        match self.get(id) {
            Some(thing) => words::name_of(thing),
            None => words::something_not_here().to_owned(),
        }
    }

    /// Whether a thing stands inside itself, however many others are between.
    #[must_use]
    pub fn is_inside_itself(&self, thing: &Thing) -> bool {
        let mut seen = Ids::new();
        let mut at = thing.one(INSIDE);
        while let Some(outer) = at {
            if outer == thing.id {
                return true;
            }
            if !seen.insert(outer) {
                return false;
            }
            at = self.get(outer).and_then(|outer| outer.one(INSIDE));
        }
        false
    }
}
