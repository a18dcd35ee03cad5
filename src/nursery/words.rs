//! Every sentence of this floor. English only.

use super::day::{Day, DayProblem, FIRST_YEAR, LAST_YEAR, days_of_month, month_name};
use super::kinds::{DAY, kind};
use super::thing::Thing;
use crate::measure::letters::{capitalised, in_small};
use crate::measure::words::one_of;

/// Why a text is not a day.
#[must_use]
pub fn day_problem(problem: &DayProblem) -> String {
    match problem {
        DayProblem::Empty => "Write a day, such as 3.5.2026.".to_owned(),
        DayProblem::NotADay { text } => [
            "“",
            text,
            "” is not a day. Write one such as 3.5.2026 or 2026-05-03.",
        ]
        .concat(),
        DayProblem::ShortYear { text } => [
            "Write the year of ",
            text,
            " with four digits, such as 2026.",
        ]
        .concat(),
        DayProblem::MonthFirst { text, meant } => [
            text,
            " has the month first. Write the day first: ",
            &meant.told(),
            ".",
        ]
        .concat(),
        DayProblem::NoSuchMonth { month } => [
            "There is no month ",
            &month.to_string(),
            ". Write the day, then a month from 1 to 12.",
        ]
        .concat(),
        DayProblem::NoSuchDay { day, month, year } => [
            month_name(*month),
            " ",
            &year.to_string(),
            " has no day ",
            &day.to_string(),
            ". A day from 1 to ",
            &days_of_month(*year, *month).to_string(),
            " would be right.",
        ]
        .concat(),
        DayProblem::FarYear { year } => [
            "The year ",
            &year.to_string(),
            " is too far away. A year from ",
            &FIRST_YEAR.to_string(),
            " to ",
            &LAST_YEAR.to_string(),
            " would be right.",
        ]
        .concat(),
    }
}

/// Why a text is not a time of day.
#[must_use]
pub fn not_a_time(text: &str) -> String {
    [
        "“",
        text,
        "” is not a time of day. Write one such as 7:40 or 19:05.",
    ]
    .concat()
}

/// A field that is needed is empty.
#[must_use]
pub fn needed(label: &str) -> String {
    [label, " is needed here."].concat()
}

/// A choice that is not among those to choose from.
#[must_use]
pub fn not_a_choice(text: &str, choices: &[(&str, &str)]) -> String {
    let words: Vec<&str> = choices.iter().map(|(_, words)| *words).collect();
    ["“", text, "” is not one of these: ", &one_of(&words), "."].concat()
}

/// A text that should name a thing of the record.
#[must_use]
pub fn not_a_thing(text: &str) -> String {
    [
        "“",
        text,
        "” is nothing in the record. Choose one from the list.",
    ]
    .concat()
}

/// A key that the handbook does not have.
#[must_use]
pub fn not_in_handbook(text: &str) -> String {
    [
        "“",
        text,
        "” is not in this version's handbook. Choose one from the list.",
    ]
    .concat()
}

/// A list with more rows than make sense.
#[must_use]
pub fn too_many_rows(label: &str, most: usize) -> String {
    [
        label,
        ": at most ",
        &most.to_string(),
        " rows would be right.",
    ]
    .concat()
}

/// The first number is above the second.
#[must_use]
pub fn above(low: &str, high: &str) -> String {
    [
        low,
        " is above “",
        &in_small(high),
        "”. Perhaps the two are the wrong way round.",
    ]
    .concat()
}

/// A thing that is named is not in the record.
#[must_use]
pub fn not_here(label: &str) -> String {
    [
        label,
        ": what is named here is not in the record. Choose another, or bring in the file of the \
         device that has it.",
    ]
    .concat()
}

/// A thing that is named has been withdrawn.
#[must_use]
pub fn withdrawn(label: &str, name: &str) -> String {
    [
        label,
        ": ",
        name,
        " has been withdrawn. Bring it back, or choose another.",
    ]
    .concat()
}

/// A thing that is named is of another kind than this field takes.
#[must_use]
pub fn wrong_kind(label: &str, name: &str, kinds: &[&str]) -> String {
    let names: Vec<&str> = kinds
        .iter()
        .map(|key| kind(key).map_or(*key, |kind| kind.name))
        .collect();
    [
        label,
        ": ",
        name,
        " does not go here. Choose a ",
        &one_of(&names),
        ".",
    ]
    .concat()
}

/// A place that holds itself.
#[must_use]
pub fn inside_itself(name: &str) -> String {
    [
        &capitalised(name),
        " would stand inside itself. Choose what it stands in.",
    ]
    .concat()
}

/// A day before the one that must come first.
#[must_use]
pub fn too_early(label: &str, day: Day, other: &str, other_label: &str, other_day: Day) -> String {
    [
        label,
        ": ",
        &day.told(),
        " is before ",
        other,
        " was ",
        &in_small(other_label),
        ", on ",
        &other_day.told(),
        ". That day or a later one would be right.",
    ]
    .concat()
}

/// A thing that is not in the record.
#[must_use]
pub const fn something_not_here() -> &'static str {
    "something that is not here"
}

/// What a thing is called in a sentence: its own name, or what it is and of which day.
#[must_use]
pub fn name_of(thing: &Thing) -> String {
    let own = thing.own_name();
    if !own.is_empty() {
        return own.to_owned();
    }
    let what = thing.table().map_or(thing.kind.as_ref(), |kind| kind.name);
    match thing.day(DAY) {
        Some(day) => [what, " of ", &day.told()].concat(),
        None => ["a ", what, " without a name"].concat(),
    }
}
