//! Finding by words, days and places.
//!
//! A [`Finder`] holds what can be found by words in one long text, so that ten seasons are searched
//! as one types; without one, [`search`] goes through the record itself.

use super::day::Day;
use super::id::Id;
use super::ids::Ids;
use super::kinds::{DAY, Takes};
use super::record::Record;
use super::thing::Thing;
use crate::measure::letters::in_small;

/// What is looked for. Whatever is empty does not narrow the search.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Wanted {
    /// Words or parts of words, all of which must be found: in what was typed, or in the names of
    /// things referred to. Capital or small does not matter.
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

/// Days that no log lies before or behind.
const EVER: [Day; 2] = [Day::from_number(i32::MIN), Day::from_number(i32::MAX)];

/// The first `most` logs that are wanted, the latest first.
#[must_use]
pub fn search<'a>(record: &'a Record, wanted: &Wanted, most: usize) -> Vec<&'a Thing> {
    let filter = Filter::new(record, wanted);
    match (wanted.from, wanted.to) {
        // Those whose day cannot be read belong to no range of days, but to all of them.
        (None, None) => filter.pick(record.logs().rev(), most),
        (from, to) => {
            let days = record.between(from.unwrap_or(EVER[0]), to.unwrap_or(EVER[1]));
            filter.pick(days.rev(), most)
        }
    }
}

/// The first `most` standing things that are wanted.
#[must_use]
pub fn search_standing<'a>(record: &'a Record, wanted: &Wanted, most: usize) -> Vec<&'a Thing> {
    Filter::new(record, wanted).pick(record.standing(), most)
}

/// Everything that can be found by words, as one text in small letters: a line for each log.
#[derive(Clone, Debug, Default)]
pub struct Finder {
    text: String,
    /// Where each line begins, and whose it is.
    lines: Vec<(usize, Id)>,
}

/// Ends a line.
const LINE_END: char = '\n';

impl Finder {
    /// Takes in all logs of a record.
    #[must_use]
    pub fn of(record: &Record) -> Self {
        let mut finder = Self::default();
        for thing in record.logs() {
            finder.push(record, thing);
        }
        finder
    }

    /// Takes in a thing that was added or changed.
    pub fn follow(&mut self, record: &Record, id: Id) {
        match record.get(id) {
            // Logs are found by the names of what they refer to, and one of these has changed.
            Some(thing) if !thing.is_log() => *self = Self::of(record),
            // What it said before stays, and is not believed when it is found.
            Some(thing) => self.push(record, thing),
            None => {}
        }
    }

    fn push(&mut self, record: &Record, thing: &Thing) {
        self.lines.push((self.text.len(), thing.id));
        for text in told_texts(thing) {
            self.push_words(text);
        }
        for (_, id) in thing.links() {
            self.push_words(record.get(id).map_or("", Thing::own_name));
        }
        self.text.push(LINE_END);
    }

    fn push_words(&mut self, words: &str) {
        let small = in_small(words);
        self.text.extend(small.chars().map(|letter| match letter {
            LINE_END => ' ',
            letter => letter,
        }));
        // Nothing is found across two texts: no word has a space.
        self.text.push(' ');
    }

    /// The first `most` logs that are wanted, the latest first: the same that [`search`] finds.
    #[must_use]
    pub fn search<'a>(&self, record: &'a Record, wanted: &Wanted, most: usize) -> Vec<&'a Thing> {
        let filter = Filter::new(record, wanted);
        // The longest word is the rarest.
        let longest = filter.words.iter().max_by_key(|word| word.small.len());
        let Some(longest) = longest else {
            return search(record, wanted, most);
        };
        let mut found = Vec::new();
        let mut from = 0;
        while let Some(rest) = self.text.get(from..)
            && let Some(place) = rest.find(&longest.small)
        {
            let place = from + place;
            let line = self.lines.partition_point(|(start, _)| *start <= place);
            let next = self.lines.get(line);
            from = next.map_or(self.text.len(), |(start, _)| *start);
            let id = line.checked_sub(1).and_then(|line| self.lines.get(line));
            let thing = id.and_then(|(_, id)| record.get(*id));
            let good = |thing: &&Thing| !thing.gone && wanted.covers(thing) && filter.wants(thing);
            if let Some(thing) = thing.filter(good) {
                found.push((thing.day(DAY), thing.id));
            }
        }
        found.sort_unstable();
        found.dedup();
        let latest = found.iter().rev().take(most);
        latest.filter_map(|(_, id)| record.get(*id)).collect()
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

/// The texts by which a thing is found: what was typed in words.
fn told_texts(thing: &Thing) -> impl Iterator<Item = &str> {
    let table = thing.table();
    thing.texts.iter().filter_map(move |(path, text)| {
        let field = table.and_then(|kind| kind.field(path));
        let told = match field.map(|field| &field.takes) {
            Some(Takes::Text | Takes::LongText | Takes::Handbook(_)) | None => true,
            Some(_) => false,
        };
        told.then_some(text)
    })
}

struct Filter<'w> {
    kind: &'w str,
    words: Vec<Word>,
    places: Option<Ids>,
}

/// A word in small letters, and the standing things that have it in their name.
struct Word {
    small: String,
    named: Ids,
}

impl<'w> Filter<'w> {
    fn new(record: &Record, wanted: &'w Wanted) -> Self {
        let word = |word: &str| {
            let small = in_small(word);
            let names = record
                .standing()
                .filter(|thing| holds(thing.own_name(), &small));
            Word {
                named: names.map(|thing| thing.id).collect(),
                small,
            }
        };
        Self {
            kind: &wanted.kind,
            words: wanted.words.split_whitespace().map(word).collect(),
            places: wanted.place.map(|place| record.within(place)),
        }
    }

    fn pick<'a>(&self, things: impl Iterator<Item = &'a Thing>, most: usize) -> Vec<&'a Thing> {
        things
            .filter(|thing| self.wants(thing))
            .take(most)
            .collect()
    }

    fn wants(&self, thing: &Thing) -> bool {
        (self.kind.is_empty() || thing.kind == self.kind)
            && self.words.iter().all(|word| word.is_in(thing))
            && self.places.as_ref().is_none_or(|places| {
                places.contains(&thing.id) || thing.links().any(|(_, id)| places.contains(&id))
            })
    }
}

impl Word {
    fn is_in(&self, thing: &Thing) -> bool {
        // The whole holds paths too, so it can only rule out.
        let typed = holds(thing.texts.whole(), &self.small)
            && told_texts(thing).any(|text| holds(text, &self.small));
        typed || (!self.named.is_empty() && thing.links().any(|(_, id)| self.named.contains(&id)))
    }
}

/// Whether a text holds a word that is given in small letters.
fn holds(text: &str, small: &str) -> bool {
    if !text.is_ascii() {
        return in_small(text).contains(small);
    }
    let (mut rest, small) = (text.as_bytes(), small.as_bytes());
    let Some((first, others)) = small.split_first() else {
        return true;
    };
    let capital = first.to_ascii_uppercase();
    while let Some(place) = rest
        .iter()
        .position(|byte| byte == first || *byte == capital)
    {
        rest = rest.get(place + 1..).unwrap_or_default();
        let next = rest.get(..others.len());
        if next.is_some_and(|next| next.eq_ignore_ascii_case(others)) {
            return true;
        }
    }
    false
}
