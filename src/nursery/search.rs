//! Finding by words, days and places.
//!
//! What a thing is found by are the words that a person sees of it: its kind, what was typed, what
//! was chosen, and the names of what it refers to. [`search`] puts them together for one log after
//! the other; a [`Finder`] holds those of all logs in one long text, so that ten seasons are
//! searched as one types.

use super::day::Day;
use super::id::Id;
use super::ids::Ids;
use super::kinds::{Book, DAY, Takes};
use super::pass::Pass;
use super::record::Record;
use super::tell::told;
use super::thing::Thing;
use crate::handbook::crops::CROPS;
use crate::measure::letters::{in_small, small};

/// What is looked for. Whatever is empty does not narrow the search.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Wanted {
    /// Words or parts of words, all of which must be found. Capital or small does not matter.
    pub words: String,
    /// Logs of this day and later.
    pub from: Option<Day>,
    /// Logs of this day and earlier.
    pub to: Option<Day>,
    /// What refers to this place, or to one within it.
    pub place: Option<Id>,
    /// Things of this kind; any where empty.
    pub kind: String,
}

/// The first `most` logs that are wanted, the latest first.
#[must_use]
pub fn search<'a>(record: &'a Record, wanted: &Wanted, most: usize) -> Vec<&'a Thing> {
    let filter = Filter::new(record, wanted);
    match (wanted.from, wanted.to) {
        // Those whose day cannot be read belong to no range of days, but to all of them.
        (None, None) => filter.pick(record, record.logs().rev(), most),
        (from, to) => {
            let (from, to) = (
                from.unwrap_or(Day::FIRST_OF_ALL),
                to.unwrap_or(Day::LAST_OF_ALL),
            );
            let days = record.between(from, to);
            filter.pick(record, days.rev(), most)
        }
    }
}

/// The first `most` standing things that are wanted.
#[must_use]
pub fn search_standing<'a>(record: &'a Record, wanted: &Wanted, most: usize) -> Vec<&'a Thing> {
    Filter::new(record, wanted).pick(record, record.standing(), most)
}

/// The words of all logs as one text, the latest first, a line for each.
#[derive(Clone, Debug, Default)]
pub struct Finder {
    text: String,
    /// Where each line begins, and whose it is.
    lines: Vec<(usize, Id)>,
    /// Logs that were added or changed since, each with the words that it has now.
    changed: Vec<(Id, String)>,
    pass: Pass,
}

/// Ends a line.
const LINE_END: char = '\n';

impl Finder {
    /// Takes in all logs of a record.
    #[must_use]
    pub fn of(record: &Record) -> Self {
        let mut finder = Self::default();
        finder.take_in(record, usize::MAX);
        finder
    }

    /// Takes in at most so many more logs of a record. Until all are in it, the record itself is
    /// searched.
    pub fn take_in(&mut self, record: &Record, most: usize) {
        let (text, lines) = (&mut self.text, &mut self.lines);
        self.pass.go_on(record, most, &mut |thing| {
            lines.push((text.len(), thing.id));
            push_words(record, thing, text);
            text.push(LINE_END);
        });
    }

    /// Whether all logs are in it.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.pass.is_whole()
    }

    /// Takes in a thing that was added or changed.
    pub fn follow(&mut self, record: &Record, id: Id) {
        let Some(thing) = record.get(id) else {
            return;
        };
        if thing.is_log() {
            self.follow_log(record, id);
            return;
        }
        // Logs are found by the names of what they refer to, and one of these may have changed. Where
        // it is named in many, the words are put together anew.
        match record.logs_naming(thing) {
            Some(logs) if thing.kind != CROP => {
                for log in logs {
                    self.follow_log(record, log);
                }
            }
            _ => *self = Self::default(),
        }
    }

    fn follow_log(&mut self, record: &Record, id: Id) {
        let mut words = String::new();
        if let Some(thing) = record.get(id) {
            push_words(record, thing, &mut words);
        }
        match self.changed.iter_mut().find(|(known, _)| *known == id) {
            Some((_, before)) => *before = words,
            None => self.changed.push((id, words)),
        }
    }

    /// The first `most` logs that are wanted, the latest first: the same that [`search`] finds.
    #[must_use]
    pub fn search<'a>(&self, record: &'a Record, wanted: &Wanted, most: usize) -> Vec<&'a Thing> {
        let filter = Filter::new(record, wanted);
        // The longest word is the rarest.
        let longest = filter.words.iter().max_by_key(|word| word.len());
        let Some(longest) = longest.filter(|_| self.is_whole()) else {
            return search(record, wanted, most);
        };
        let good = |id: Id, words: &str| {
            let thing = record.get(id).filter(|_| filter.has_all(words))?;
            (!thing.gone && wanted.covers(thing) && filter.is_of(thing)).then_some(thing)
        };
        let changed: Ids = self.changed.iter().map(|(id, _)| *id).collect();
        let mut found = Vec::new();
        let mut from = 0;
        while let Some(rest) = self.text.get(from..)
            && let Some(place) = rest.find(longest.as_str())
            && found.len() < most
        {
            let line = self
                .lines
                .partition_point(|(start, _)| *start <= from + place);
            let Some((start, id)) = line.checked_sub(1).and_then(|line| self.lines.get(line))
            else {
                break;
            };
            from = self
                .lines
                .get(line)
                .map_or(self.text.len(), |(start, _)| *start);
            if !changed.contains(id) {
                found.extend(good(*id, self.text.get(*start..from).unwrap_or_default()));
            }
        }
        found.extend(
            self.changed
                .iter()
                .filter_map(|(id, words)| good(*id, words)),
        );
        // Nearly all are in order already.
        found.sort_by_key(|thing| std::cmp::Reverse((thing.day(DAY), thing.id)));
        found.truncate(most);
        found
    }
}

impl Wanted {
    /// Whether a log is of one of the days. One whose day cannot be read is of none.
    fn covers(&self, thing: &Thing) -> bool {
        if self.from.is_none() && self.to.is_none() {
            return true;
        }
        thing.day(DAY).is_some_and(|day| {
            self.from.is_none_or(|from| from <= day) && self.to.is_none_or(|to| day <= to)
        })
    }
}

/// The words that a person sees of a thing, in small letters, at the end of a text. No line ends
/// in them.
fn push_words(record: &Record, thing: &Thing, text: &mut String) {
    // A watering may be looked for as `watered`, which is its key.
    push_small(&thing.kind, text);
    let table = thing.table();
    push_small(table.map_or("", |kind| kind.name), text);
    for (path, typed) in &*thing.texts {
        let Some(field) = table.and_then(|kind| kind.field(path)) else {
            push_small(typed, text);
            continue;
        };
        match field.takes {
            Takes::Number(_) | Takes::Day | Takes::Time | Takes::Rows(_) => {}
            Takes::Text | Takes::LongText => push_small(typed, text),
            Takes::Choice(_) => push_small(&told(record, field, typed), text),
            Takes::One(_) | Takes::Handbook(_) => match Id::read(typed) {
                Some(id) => {
                    if let Some(named) = record.get(id) {
                        push_small(named.own_name(), text);
                        push_crop(record, named.text(CROP), text);
                    }
                }
                None if matches!(field.takes, Takes::Handbook(Book::Crop)) => {
                    push_crop(record, typed, text);
                }
                None => push_small(&told(record, field, typed), text),
            },
        }
    }
}

/// The field with the crop of a batch, and the kind of one's own.
const CROP: &str = "crop";

/// What a crop is called that is given by its key in the handbook, or by its id.
fn push_crop(record: &Record, crop: &str, text: &mut String) {
    let own = Id::read(crop).and_then(|id| record.get(id));
    let known = || CROPS.iter().find(|known| known.key == crop);
    push_small(
        match own {
            Some(own) => own.own_name(),
            None => known().map_or(crop, |known| known.name),
        },
        text,
    );
}

fn push_small(words: &str, text: &mut String) {
    text.extend(words.chars().map(|letter| match small(letter) {
        LINE_END => ' ',
        letter => letter,
    }));
    // Nothing is found across two texts: no word has a space.
    text.push(' ');
}

struct Filter<'w> {
    kind: &'w str,
    /// In small letters.
    words: Vec<String>,
    places: Option<Ids>,
}

impl<'w> Filter<'w> {
    fn new(record: &Record, wanted: &'w Wanted) -> Self {
        Self {
            kind: &wanted.kind,
            words: wanted.words.split_whitespace().map(in_small).collect(),
            places: wanted.place.map(|place| record.within(place)),
        }
    }

    fn pick<'a>(
        &self,
        record: &Record,
        things: impl Iterator<Item = &'a Thing>,
        most: usize,
    ) -> Vec<&'a Thing> {
        let mut words = String::new();
        let wanted = things.filter(|thing| {
            self.is_of(thing)
                && (self.words.is_empty() || {
                    words.clear();
                    push_words(record, thing, &mut words);
                    self.has_all(&words)
                })
        });
        wanted.take(most).collect()
    }

    /// Whether all that is looked for is among the words of a thing.
    fn has_all(&self, words: &str) -> bool {
        self.words.iter().all(|word| words.contains(word.as_str()))
    }

    /// Whether a thing is of the kind and of the place.
    fn is_of(&self, thing: &Thing) -> bool {
        (self.kind.is_empty() || thing.kind == self.kind)
            && self.places.as_ref().is_none_or(|places| {
                places.contains(&thing.id) || thing.links().any(|(_, id)| places.contains(&id))
            })
    }
}
