//! Every sentence of this room. English only.

use super::entry::Act;
use super::format::Refused;
use super::thermometer::NotRead;
use crate::measure::letters::capitalised;

/// Why a text is not let in.
#[must_use]
pub const fn refused(why: Refused) -> &'static str {
    match why {
        Refused::TooLong => {
            "This file is longer than any record can be. Choose a file that Longtom has written."
        }
        Refused::TooDeep => {
            "This file is nested deeper than any record. Choose a file that Longtom has written."
        }
        Refused::NotJson => {
            "This file is cut off or was not written by Longtom. Choose another copy of it."
        }
        Refused::NotARecord => {
            "This file is no record of Longtom. Choose one that was written with “Export”."
        }
        Refused::Newer => {
            "This record was written by a newer Longtom. Close Longtom in every window and open it \
             again to get the newer one; the record is left as it is."
        }
        Refused::Unreadable => {
            "This record is of a shape that Longtom has never written. Choose another copy of it."
        }
    }
}

/// A thing was added.
#[must_use]
pub fn added(kind: &str) -> String {
    [&capitalised(kind), " entered."].concat()
}

/// What was typed into a field at first.
#[must_use]
pub fn is(label: &str, text: &str) -> String {
    [label, ": ", text, "."].concat()
}

/// What a field was changed to, and from what.
#[must_use]
pub fn changed(label: &str, before: &[String], after: &str) -> String {
    let before: Vec<&str> = before
        .iter()
        .map(String::as_str)
        .filter(|text| !text.is_empty())
        .collect();
    let to = if after.is_empty() { "empty" } else { after };
    if before.is_empty() {
        is(label, to)
    } else {
        [
            label,
            ": ",
            to,
            ", in place of ",
            &before.join(" and "),
            ".",
        ]
        .concat()
    }
}

/// A thing was withdrawn.
#[must_use]
pub const fn was_withdrawn() -> &'static str {
    "Withdrawn."
}

/// A thing was brought back.
#[must_use]
pub const fn was_restored() -> &'static str {
    "Brought back."
}

/// An entry was undone.
#[must_use]
pub fn was_undone(what: Option<&Act>) -> String {
    match what {
        Some(Act::Add { .. }) => "The first entry undone.",
        Some(Act::Change { .. }) => "A change undone.",
        Some(Act::Withdraw { .. }) => "The withdrawal undone.",
        Some(Act::Restore { .. }) => "The bringing back undone.",
        Some(Act::Undo { .. }) => "Done again after it had been undone.",
        Some(Act::Other) | None => "Something undone that is not here.",
    }
    .to_owned()
}

/// Why a thermometer's file is not read.
#[must_use]
pub const fn not_read(why: NotRead) -> &'static str {
    match why {
        NotRead::Empty => "There is nothing in this file. Choose another.",
        NotRead::TooLong => {
            "This file is too long for readings of a thermometer. Choose a shorter stretch of days."
        }
        NotRead::NotText => {
            "This is a picture, a workbook or another file that holds no plain text. Save the \
             readings as CSV and choose that file."
        }
        NotRead::NoDays => {
            "No column of days was found in this file. Choose a CSV file in which each line has a \
             day, a time and readings."
        }
        NotRead::NoReadings => {
            "No column of readings was found in this file. Choose a CSV file in which each line has \
             a day, a time and readings."
        }
    }
}

/// A line that ends before its day.
#[must_use]
pub const fn line_too_short() -> &'static str {
    "The line is too short: it has no day."
}

/// A line whose day cannot be read in the chosen order.
#[must_use]
pub fn no_day(text: &str) -> String {
    ["“", text, "” is not a day in the chosen order."].concat()
}

/// A line whose time cannot be read.
#[must_use]
pub fn no_time(text: &str) -> String {
    [
        "“",
        text,
        "” is not a time of day. It should look like 07:40.",
    ]
    .concat()
}

/// A reading that is no number, or not one that makes sense.
#[must_use]
pub fn no_reading(column: &str, why: &str) -> String {
    [column, ": ", why].concat()
}

/// A column without a heading.
#[must_use]
pub fn column(place: usize) -> String {
    ["Column ", &(place + 1).to_string()].concat()
}

/// A day whose readings do not reach through the night.
#[must_use]
pub fn night_in_part(day: &str) -> String {
    [
        "The night to ",
        day,
        " is not all in the file, so it has no minimum. It needs a reading between midnight and 8:00, \
         and one from 8:00 on.",
    ]
    .concat()
}

/// How nights are counted.
#[must_use]
pub const fn night_rule() -> &'static str {
    "A night runs from noon to noon and has the date of its morning: its minimum and maximum are \
     those of these 24 hours."
}
