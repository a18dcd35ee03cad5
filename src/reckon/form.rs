//! The form of a question as data: which fields it has, what each is called and what it takes.
//!
//! A field is known by its path, the same by which a problem names it. Whoever draws a form or
//! fills one in needs nothing else of a reckoning.

use super::answer::Kind;
use crate::measure::{DecimalMark, Entry, Quantity, Unit};

/// One of a list to choose from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// Its name in the question.
    pub key: &'static str,
    /// Its name on the page.
    pub name: String,
    /// A second line, which may be empty.
    pub note: String,
}

/// The units in which a number may be given, and how what is typed is told in another.
#[derive(Clone, Copy, Debug)]
pub struct Units {
    /// The quantity.
    pub kind: Kind,
    /// Keys of the units offered; none for a plain number.
    pub keys: &'static [&'static str],
    /// Tells an entry in another unit of the quantity.
    pub convert: fn(&Entry, &Unit, DecimalMark) -> Entry,
}

impl Units {
    /// These units of a quantity.
    #[must_use]
    pub const fn of<Q: Quantity>(keys: &'static [&'static str]) -> Self {
        Self {
            kind: Kind::of::<Q>(),
            keys,
            convert: Entry::converted::<Q>,
        }
    }

    /// The units offered.
    pub fn offered(self) -> impl Iterator<Item = &'static Unit> {
        self.kind
            .units
            .iter()
            .filter(move |unit| self.keys.contains(&unit.key))
    }
}

/// What a field takes.
#[derive(Clone, Debug)]
pub enum Takes {
    /// A number as it is typed.
    Number {
        /// Its units.
        units: Units,
        /// How far a step goes, in the unit shown.
        step: f64,
    },
    /// One of a few, chosen in place.
    Few(Vec<Item>),
    /// One of many, found by typing a part of its name.
    Many {
        /// Heading of the list.
        heading: &'static str,
        /// The list.
        items: fn() -> Vec<Item>,
    },
}

/// A field.
#[derive(Clone, Debug)]
pub struct Field {
    /// Its path in the question.
    pub path: String,
    /// What it is called.
    pub label: String,
    /// What it takes.
    pub takes: Takes,
}

/// A piece of a form.
#[derive(Clone, Debug)]
pub enum Piece {
    /// A field.
    Field(Field),
    /// Rows of fields of which there may be more or fewer.
    Rows {
        /// Path of the list in the question.
        path: &'static str,
        /// What the rows are.
        legend: &'static str,
        /// The rows.
        rows: Vec<Row>,
        /// What adds one; none where there are as many as there may be.
        add: Option<&'static str>,
    },
    /// Pieces that are asked for more seldom.
    More(Vec<Piece>),
}

/// One row.
#[derive(Clone, Debug)]
pub struct Row {
    /// Its fields.
    pub fields: Vec<Field>,
    /// What takes it out, such as "Take out coir pith"; none for the last one left.
    pub take_out: Option<String>,
}

/// What can be done to a question through its form.
pub trait Form {
    /// The pieces of the form, for the question as it stands.
    fn pieces(&self) -> Vec<Piece>;
    /// The number typed at a path.
    fn entry(&mut self, path: &str) -> Option<&mut Entry>;
    /// The choice made at a path.
    fn choice(&mut self, path: &str) -> Option<&mut String>;
    /// Adds a row to the list at a path.
    fn add_row(&mut self, path: &str);
    /// Takes a row out of the list at a path.
    fn take_out_row(&mut self, path: &str, index: usize);
}

/// The fields of pieces, in order, with those of rows and of what is asked more seldom.
#[must_use]
pub fn fields(pieces: &[Piece]) -> Vec<&Field> {
    let mut found = Vec::new();
    for piece in pieces {
        match piece {
            Piece::Field(field) => found.push(field),
            Piece::Rows { rows, .. } => found.extend(rows.iter().flat_map(|row| &row.fields)),
            Piece::More(pieces) => found.extend(fields(pieces)),
        }
    }
    found
}
