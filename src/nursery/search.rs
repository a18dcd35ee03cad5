//! Finding by words, days and places.

use std::collections::BTreeSet;

use super::day::Day;
use super::id::Id;
use super::kinds::Takes;
use super::record::Record;
use super::thing::Thing;

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

struct Filter<'w> {
    kind: &'w str,
    words: Vec<Word>,
    places: Option<BTreeSet<Id>>,
}

/// A word in small letters, and the standing things that have it in their name.
struct Word {
    small: String,
    named: BTreeSet<Id>,
}

impl<'w> Filter<'w> {
    fn new(record: &Record, wanted: &'w Wanted) -> Self {
        let word = |word: &str| {
            let small = word.to_lowercase();
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
            && thing.texts.iter().any(|(path, text)| {
                let field = thing.table().and_then(|kind| kind.field(path));
                let told = match field.map(|field| &field.takes) {
                    Some(Takes::Text | Takes::LongText | Takes::Handbook(_)) | None => true,
                    Some(_) => false,
                };
                told && holds(text, &self.small)
            });
        typed || (!self.named.is_empty() && thing.links().any(|(_, id)| self.named.contains(&id)))
    }
}

/// Whether a text holds a word that is given in small letters.
fn holds(text: &str, small: &str) -> bool {
    if !text.is_ascii() {
        return text.to_lowercase().contains(small);
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
