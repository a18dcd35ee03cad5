//! Every sentence of this floor. English only.

use super::entry::EntryProblem;
use super::letters::capitalised;
use super::number::{LONGEST, NumberProblem};
use super::range::RangeProblem;

/// Stands where a figure should and there is none.
pub fn no_figure() -> &'static str {
    "not known"
}

/// Two limits: `40 to 80`.
pub fn span(low: &str, high: &str) -> String {
    format!("{low} to {high}")
}

/// What a stored entry should be, for whoever writes one by hand.
pub fn stored_entry_expected() -> &'static str {
    "a number, or a number with its unit in quotation marks, such as \"100 mm\""
}

/// Why three figures do not make a range.
pub fn range_problem(problem: RangeProblem) -> &'static str {
    match problem {
        RangeProblem::Order => "Give the low figure first, then the best, then the high one.",
        RangeProblem::NotFinite => "Give three figures that can be written down.",
    }
}

/// Why a text was not read as a number.
pub fn number_problem(problem: &NumberProblem) -> String {
    match problem {
        NumberProblem::Empty => "Write a number.".to_owned(),
        NumberProblem::TooLong => {
            format!("That is too long for a number. Write at most {LONGEST} digits and marks.")
        }
        NumberProblem::NotANumber { text } => {
            format!("“{text}” is not a number. Write one such as 12, 2.5 or 2 1/2.")
        }
        NumberProblem::Ambiguous {
            text,
            thousands,
            decimals,
        } => format!(
            "{text} can be read as {thousands} or as {decimals}. Write {thousands} or {decimals}."
        ),
        NumberProblem::Groups { text } => {
            format!("The digits of {text} are not parted in thousands. Write them without gaps.")
        }
        NumberProblem::OverZero { text } => {
            format!("{text} is divided by nought. Write a fraction such as 1/2.")
        }
        NumberProblem::TooLarge { text } => format!("{text} is too large. Write a smaller number."),
        NumberProblem::TooSmall { text } => {
            format!("{text} is too close to nought. Write 0, or a larger number.")
        }
    }
}

/// Why an entry does not give the quantity asked for.
pub fn entry_problem(problem: &EntryProblem) -> String {
    match problem {
        EntryProblem::Number(problem) => number_problem(problem),
        EntryProblem::NoUnit { units } => say_which_unit(units),
        EntryProblem::OtherUnit { unit, units } if units.is_empty() => {
            format!("A plain number is wanted here, without {unit}.")
        }
        EntryProblem::OtherUnit { unit, units } => {
            format!("{unit} is not a unit for this. {}", say_which_unit(units))
        }
        EntryProblem::OutOfBounds {
            what,
            given,
            above,
            low,
            high,
        } => {
            let verdict = if *above { "too much" } else { "too little" };
            let what = capitalised(what);
            format!("{what}: {given} is {verdict}. Between {low} and {high} would be right.")
        }
        EntryProblem::NotWhole {
            what,
            given,
            below,
            above,
        } => {
            let what = capitalised(what);
            format!("{what}: {given} is not a whole number. Write {below} or {above}.")
        }
    }
}

/// Asks for one of the units.
fn say_which_unit(units: &[&str]) -> String {
    format!("Say which unit: {}.", one_of(units))
}

/// A list of which one is to be chosen: `mm, cm or m`.
pub fn one_of(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [others @ .., last] => format!("{} or {last}", others.join(", ")),
    }
}
