//! One thing of the record, read through its kind.

use std::borrow::Cow;
use std::sync::Arc;

use super::day::{Day, read_time};
use super::id::Id;
use super::kinds::{DAY, Field, Kind, NAME, Takes, kind, row_path};
use super::texts::Texts;
use crate::measure::{DecimalMark, Entry, Quantity};

/// One thing: what it is and what was typed into its fields.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Thing {
    /// Its name on every device.
    pub id: Id,
    /// The key of its kind, which a newer version may have made.
    pub kind: Cow<'static, str>,
    /// What was typed. Shared with the entry that added the thing, as long as nothing was changed.
    pub texts: Arc<Texts>,
    /// Whether it has been withdrawn. It is kept, so that what refers to it can still name it.
    pub gone: bool,
}

/// The key of a kind, without a copy where the kind is known.
#[must_use]
pub fn kind_key(key: &str) -> Cow<'static, str> {
    match kind(key) {
        Some(known) => Cow::Borrowed(known.key),
        None => Cow::Owned(key.to_owned()),
    }
}

impl Thing {
    /// A thing of a kind with what was typed.
    #[must_use]
    pub fn new(id: Id, kind: &str, texts: Texts) -> Self {
        Self {
            id,
            kind: kind_key(kind),
            texts: Arc::new(texts),
            gone: false,
        }
    }

    /// The table of its kind; none where a newer version has made it.
    #[must_use]
    pub fn table(&self) -> Option<&'static Kind> {
        kind(&self.kind)
    }

    /// Whether it belongs to a day. Of a kind that is not known, whether it says so itself.
    #[must_use]
    pub fn is_log(&self) -> bool {
        match self.table() {
            Some(kind) => kind.is_log,
            None => self.day(DAY).is_some(),
        }
    }

    /// What was typed at a path; empty where nothing was.
    #[must_use]
    pub fn text(&self, path: &str) -> &str {
        self.texts.get(path)
    }

    /// The number and the unit typed at a path.
    #[must_use]
    pub fn entry(&self, path: &str) -> Entry {
        Entry::from_stored(self.text(path))
    }

    /// The number at a path, in the base unit of its quantity.
    #[must_use]
    pub fn base(&self, path: &str) -> Option<f64> {
        base_of(self.table()?.field(path)?, self.text(path))
    }

    /// The quantity at a path, if the field takes one of this quantity and it is within limits.
    #[must_use]
    pub fn number<Q: Quantity>(&self, path: &str) -> Option<Q> {
        let field = self.table()?.field(path)?;
        match field.takes {
            Takes::Number(amount) if amount.units == Q::UNITS => {
                base_of(field, self.text(path)).map(Q::from_base)
            }
            _ => None,
        }
    }

    /// The day at a path.
    #[must_use]
    pub fn day(&self, path: &str) -> Option<Day> {
        let text = self.text(path);
        Day::from_iso(text).or_else(|| Day::read(text).ok())
    }

    /// The time of day at a path, in minutes since midnight.
    #[must_use]
    pub fn time(&self, path: &str) -> Option<u32> {
        read_time(self.text(path))
    }

    /// The thing named at a path.
    #[must_use]
    pub fn one(&self, path: &str) -> Option<Id> {
        Id::read(self.text(path))
    }

    /// What was chosen at a path, if it is one of those to choose from.
    #[must_use]
    pub fn choice(&self, path: &str) -> Option<&'static str> {
        let Takes::Choice(choices) = self.table()?.field(path)?.takes else {
            return None;
        };
        let text = self.text(path);
        choices
            .iter()
            .find(|(key, _)| *key == text)
            .map(|(key, _)| *key)
    }

    /// What stands in a field of a row, the row by the piece that stands in its path; empty where nothing does.
    #[must_use]
    pub fn in_row(&self, list: &str, row: &str, name: &str) -> &str {
        self.text(&[list, ".", row, ".", name].concat())
    }

    /// The rows of a list, in order, each by the piece that stands in its path: `0`, `1`, `812k3fq`.
    #[must_use]
    pub fn rows(&self, list: &str) -> Vec<&str> {
        let mut rows: Vec<&str> = self
            .texts
            .iter()
            .filter_map(|(path, _)| row_path(path))
            .filter(|(of, ..)| *of == list)
            .map(|(_, row, _)| row)
            .collect();
        rows.sort_by_key(|row| row_order(row));
        rows.dedup();
        rows
    }

    /// What it is called by itself; empty where it has no name.
    #[must_use]
    pub fn own_name(&self) -> &str {
        self.text(NAME)
    }

    /// Every thing that it names, with the path.
    pub fn links(&self) -> impl Iterator<Item = (&str, Id)> {
        let table = self.table();
        self.texts.iter().filter_map(move |(path, text)| {
            let takes = &table?.field(path)?.takes;
            let may = matches!(takes, Takes::One(_) | Takes::Handbook(_));
            may.then(|| Id::read(text)).flatten().map(|id| (path, id))
        })
    }
}

/// Rows sort by the number in front, then by what follows: two devices that add a row at the same
/// time give it the same number and their own mark.
fn row_order(row: &str) -> (u64, &str) {
    let end = row
        .find(|letter: char| !letter.is_ascii_digit())
        .unwrap_or(row.len());
    let (number, rest) = row.split_at(end);
    (number.parse().unwrap_or(u64::MAX), rest)
}

/// The number of a field, in the base unit.
fn base_of(field: &Field, text: &str) -> Option<f64> {
    let Takes::Number(amount) = field.takes else {
        return None;
    };
    let entry = Entry::from_stored(text);
    entry
        .read_base(amount.units, &amount.bounds(field.label), DecimalMark::Ask)
        .ok()
}
