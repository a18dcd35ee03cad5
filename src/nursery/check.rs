//! What does not make sense within one thing.

use super::day::{Day, read_time};
use super::id::Id;
use super::kinds::{Field, Kind, Takes};
use super::thing::Thing;
use super::{vessel, words};
use crate::measure::{DecimalMark, Entry};

/// What is wrong at a field: of a thing, or of a question.
#[derive(Clone, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "terminal", derive(serde::Serialize, schemars::JsonSchema))]
pub struct Problem {
    /// The field, as a path: `parts.2.amount`. Empty where it is the whole.
    pub field: String,
    /// What is wrong and what would be right.
    pub sentence: String,
}

impl Problem {
    /// A problem of one field.
    pub fn at(field: impl Into<String>, sentence: impl Into<String>) -> Self {
        Self {
            field: field.into(),
            sentence: sentence.into(),
        }
    }

    /// The sentence at a field, if one of these is about it.
    #[must_use]
    pub fn sentence_at(problems: &[Self], field: &str) -> Option<String> {
        let found = problems.iter().find(|problem| problem.field == field);
        found.map(|problem| problem.sentence.clone())
    }
}

/// More rows than this nobody has typed.
pub const MOST_ROWS: usize = 200;

/// All that does not make sense within a thing. Fields that the kind does not have are left alone.
#[must_use]
pub fn check(kind: &Kind, thing: &Thing) -> Vec<Problem> {
    let mut problems = Vec::new();
    for field in kind.fields {
        match field.takes {
            Takes::Rows(fields) => {
                let rows = thing.rows(field.key);
                if rows.len() > MOST_ROWS {
                    problems.push(Problem::at(
                        field.key,
                        words::too_many_rows(field.label, MOST_ROWS),
                    ));
                }
                for row in rows.iter().take(MOST_ROWS) {
                    for within in fields {
                        let path = [field.key, ".", row, ".", within.key].concat();
                        say(&mut problems, within, &path, thing.text(&path));
                    }
                }
            }
            _ => say(&mut problems, field, field.key, thing.text(field.key)),
        }
    }
    for (low, high) in kind.ordered {
        if let Some(sentence) = out_of_order(kind, thing, low, high) {
            problems.push(Problem::at(*low, sentence));
        }
    }
    problems
}

fn say(problems: &mut Vec<Problem>, field: &Field, path: &str, text: &str) {
    if let Some(sentence) = field_problem(field, text) {
        problems.push(Problem::at(path, sentence));
    }
}

/// What is wrong with the text of a field by itself, if anything is.
#[must_use]
pub fn field_problem(field: &Field, text: &str) -> Option<String> {
    if text.trim().is_empty() {
        return field.needed.then(|| words::needed(field.label));
    }
    match field.takes {
        Takes::Number(amount) => Entry::from_stored(text)
            .read_base(amount.units, &amount.bounds(field.label), DecimalMark::Ask)
            .err()
            .map(|problem| problem.to_string()),
        Takes::Day => Day::read(text).err().map(|problem| problem.to_string()),
        Takes::Time => read_time(text).is_none().then(|| words::not_a_time(text)),
        Takes::Choice(choices) => {
            let known = choices.iter().any(|(key, _)| *key == text);
            (!known).then(|| words::not_a_choice(text, choices))
        }
        Takes::One(_) => Id::read(text).is_none().then(|| words::not_a_thing(text)),
        Takes::Handbook(book) => {
            let known = Id::read(text).is_some() || vessel::in_handbook(book, text);
            (!known).then(|| words::not_in_handbook(text))
        }
        Takes::Text | Takes::LongText | Takes::Rows(_) => None,
    }
}

fn out_of_order(kind: &Kind, thing: &Thing, low: &str, high: &str) -> Option<String> {
    let value = |path| {
        thing
            .base(path)
            .or_else(|| Some(f64::from(thing.day(path)?.number())))
    };
    let (low_field, high_field) = (kind.field(low)?, kind.field(high)?);
    (value(low)? > value(high)?).then(|| words::above(low_field.label, high_field.label))
}
