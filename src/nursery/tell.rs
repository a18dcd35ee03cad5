//! What stands in a field, as one would say it.

use super::day::Day;
use super::id::Id;
use super::kinds::{Book, Field, Kind, Takes, row_path};
use super::record::Record;
use crate::handbook::bed_media::bed_medium;
use crate::handbook::materials::material;
use crate::handbook::pots::pot;
use crate::measure::{DecimalMark, Entry, with_unit, write_number};

/// The text of a field as one would say it: units by their symbol, days in words, things by name.
/// What cannot be read is told as it was typed.
#[must_use]
pub fn told(record: &Record, field: &Field, text: &str) -> String {
    let told = match field.takes {
        Takes::Number(amount) => {
            let entry = Entry::from_stored(text);
            let unit = amount.units.iter().find(|unit| unit.key == entry.unit());
            unit.map(|unit| with_unit(entry.text(), unit))
        }
        Takes::Day => Day::read(text).ok().map(Day::told),
        Takes::Choice(choices) => {
            let found = choices.iter().find(|(key, _)| *key == text);
            found.map(|(_, words)| (*words).to_owned())
        }
        Takes::One(_) => Id::read(text).map(|id| record.name_of(id)),
        Takes::Handbook(book) => match Id::read(text) {
            Some(id) => Some(record.name_of(id)),
            None => handbook_name(book, text).map(str::to_owned),
        },
        Takes::Text | Takes::LongText | Takes::Time | Takes::Rows(_) => None,
    };
    told.unwrap_or_else(|| text.to_owned())
}

fn handbook_name(book: Book, key: &str) -> Option<&'static str> {
    match book {
        Book::Pot => pot(key).map(|pot| pot.name),
        Book::Material => material(key).map(|material| material.name),
        Book::BedMedium => bed_medium(key)
            .map(|medium| medium.name)
            .or_else(|| material(key).map(|material| material.name)),
        Book::Crop | Book::Climate => None,
    }
}

/// The number of a field in the unit of its table, as any program reads it. None where there is no
/// number that makes sense.
#[must_use]
pub fn plain_number(field: &Field, text: &str) -> Option<String> {
    /// Beyond these lie only the traces of converting back and forth.
    const FIGURES: usize = 12;
    let Takes::Number(amount) = field.takes else {
        return None;
    };
    let entry = Entry::from_stored(text);
    let base = entry
        .read_base(amount.units, &amount.bounds(field.label), DecimalMark::Ask)
        .ok()?;
    let value = crate::measure::print::rounded(amount.unit.from_base(base), FIGURES);
    Some(write_number(value, DecimalMark::Point))
}

/// What the field at a path is called; the path itself where only a newer version knows it.
#[must_use]
pub fn label(kind: Option<&'static Kind>, path: &str) -> String {
    let Some(kind) = kind else {
        return path.to_owned();
    };
    let Some(field) = kind.field(path) else {
        return path.to_owned();
    };
    match row_path(path).and_then(|(list, row, _)| Some((kind.field(list)?, row))) {
        Some((list, row)) => [list.label, ", row ", &row_number(row), ": ", field.label].concat(),
        None => field.label.to_owned(),
    }
}

/// Rows count from 1 in words.
fn row_number(row: &str) -> String {
    match row.parse::<u32>() {
        Ok(number) => number.saturating_add(1).to_string(),
        Err(_) => row.to_owned(),
    }
}
