//! Readings out of the files that thermometers write: lines of a day, a time and readings, whoever
//! made the instrument.
//!
//! First a [`Sheet`] is read and a [`Plan`] is guessed; the plan can be shown and changed; then the
//! readings are found, with each line that could not be read and why; then they become entries, which
//! are the same each time the file is read, so that nothing is there twice.
//!
//! * [`sheet`]: the text of the file, and its cells.
//! * [`guess`]: what the columns hold.
//! * [`nights`]: minima and maxima of each night, and entries.

pub mod guess;
pub mod nights;
pub mod sheet;

use super::words;
use crate::measure::{DecimalMark, Entry, read_number};
use crate::nursery::Day;
use crate::nursery::kinds::Amount;
use crate::nursery::kinds::amounts::{SHARE, TEMPERATURE};
pub use sheet::{Row, Sheet};

/// Why a file is not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotRead {
    /// There is nothing in it.
    Empty,
    /// Longer than anything a thermometer writes.
    TooLong,
    /// A picture, a workbook, or anything else that is not plain text.
    NotText,
    /// No column holds days.
    NoDays,
    /// No column holds numbers.
    NoReadings,
}

impl std::fmt::Display for NotRead {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(words::not_read(*self))
    }
}

impl std::error::Error for NotRead {}

/// In which order the numbers of a date stand, where the year is not first in four digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DateOrder {
    /// 3.5.2026 is in May.
    DayFirst,
    /// 3/5/2026 is in March.
    MonthFirst,
    /// 26-05-03 is in 2026.
    YearFirst,
}

/// What a column of readings holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// Air of the house or bay.
    Air,
    /// Mix, at the roots.
    Root,
    /// Bed under the pots.
    Bed,
    /// Water.
    Water,
    /// Air outside.
    Outside,
    /// Relative humidity.
    Humidity,
    /// The lowest of a day, found by the instrument.
    Minimum,
    /// The highest of a day, found by the instrument.
    Maximum,
}

impl What {
    /// What a reading of it is called in the record; none where it makes no reading by itself.
    #[must_use]
    pub const fn key(self) -> Option<&'static str> {
        match self {
            Self::Air => Some("air"),
            Self::Root => Some("root"),
            Self::Bed => Some("bed"),
            Self::Water => Some("water"),
            Self::Outside => Some("outside"),
            Self::Humidity | Self::Minimum | Self::Maximum => None,
        }
    }

    const fn amount(self) -> &'static Amount {
        match self {
            Self::Humidity => &SHARE,
            _ => &TEMPERATURE,
        }
    }
}

/// One column of a file that could hold readings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its place from 0.
    pub place: usize,
    /// Its heading; may be empty.
    pub heading: String,
    /// What it holds; none where it is left out.
    pub what: Option<What>,
    /// Key of the unit of its numbers.
    pub unit: String,
}

/// How a file is read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// Between cells.
    pub delimiter: char,
    /// The decimal mark.
    pub decimal: DecimalMark,
    /// The order of dates.
    pub order: DateOrder,
    /// Rows before the first with readings.
    pub heading_rows: usize,
    /// The column with the day, and with the time where it has no column of its own.
    pub day: usize,
    /// The column with the time.
    pub time: Option<usize>,
    /// The columns that could hold readings.
    pub columns: Vec<Column>,
}

/// One reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The line of the file, from 1.
    pub line: usize,
    /// The day.
    pub day: Day,
    /// Minutes since midnight, where the file has times.
    pub minute: Option<u32>,
    /// What was read.
    pub what: What,
    /// The number, in the base unit.
    pub base: f64,
    /// The number with its unit, as it is stored.
    pub text: String,
}

/// A line that could not be read, in full or in part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bad {
    /// The line of the file, from 1.
    pub line: usize,
    /// Why.
    pub why: String,
}

/// What is in a file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// The readings, in the order of the file.
    pub readings: Vec<Reading>,
    /// What could not be read.
    pub bad: Vec<Bad>,
}

/// Finds the readings by a plan. Empty cells are no readings and no fault.
#[must_use]
pub fn find(sheet: &Sheet, plan: &Plan) -> Found {
    let mut found = Found::default();
    for row in sheet.rows(plan.delimiter).iter().skip(plan.heading_rows) {
        if let Err(why) = find_in_row(row, plan, &mut found) {
            found.bad.push(Bad {
                line: row.line,
                why,
            });
        }
    }
    found
}

fn find_in_row(row: &Row, plan: &Plan, found: &mut Found) -> Result<(), String> {
    let cell = |place: usize| row.cells.get(place).map_or("", |cell| cell.trim());
    let text = cell(plan.day);
    if text.is_empty() {
        return Err(words::line_too_short().to_owned());
    }
    let (date, rest) = split_moment(text);
    let day = read_date(date, plan.order).ok_or_else(|| words::no_day(text))?;
    let time = plan.time.map_or(rest, cell);
    let minute = match time {
        "" => None,
        time => Some(read_moment(time).ok_or_else(|| words::no_time(time))?),
    };
    for column in &plan.columns {
        let Some(what) = column.what else {
            continue;
        };
        let text = cell(column.place);
        if text.is_empty() {
            continue;
        }
        match read_cell(text, column, what, plan.decimal) {
            Ok((base, text)) => found.readings.push(Reading {
                line: row.line,
                day,
                minute,
                what,
                base,
                text,
            }),
            Err(why) => {
                let name = match column.heading.as_str() {
                    "" => words::column(column.place),
                    heading => heading.to_owned(),
                };
                found.bad.push(Bad {
                    line: row.line,
                    why: words::no_reading(&name, &why),
                });
            }
        }
    }
    Ok(())
}

/// The number of a cell, in the base unit and as it is stored.
fn read_cell(
    text: &str,
    column: &Column,
    what: What,
    mark: DecimalMark,
) -> Result<(f64, String), String> {
    let entry = Entry::new(without_unit(text), column.unit.as_str()).canonical(mark);
    let amount = what.amount();
    let name = match what {
        What::Humidity => "Relative humidity",
        _ => "Temperature",
    };
    let base = entry
        .read_base(amount.units, &amount.bounds(name), DecimalMark::Ask)
        .map_err(|problem| problem.to_string())?;
    Ok((base, entry.stored()))
}

/// A number without the unit that some instruments write behind it.
fn without_unit(text: &str) -> &str {
    text.trim_end_matches(|letter: char| {
        letter.is_whitespace()
            || matches!(letter, '°' | 'º' | '℃' | '℉' | '%' | 'C' | 'F' | 'c' | 'f')
    })
}

/// Whether a cell holds a number, whatever its decimal mark.
fn is_number(text: &str) -> bool {
    let bare = without_unit(text);
    read_number(bare, DecimalMark::Point).is_ok() || read_number(bare, DecimalMark::Comma).is_ok()
}

/// The date and the time of a cell that may hold both.
fn split_moment(text: &str) -> (&str, &str) {
    match text.split_once([' ', 'T', '\u{a0}']) {
        // A date in words has spaces of its own.
        Some((date, rest)) if date.contains(['.', '/', '-']) => (date, rest.trim()),
        _ => (text, ""),
    }
}

/// Reads a date in an order. A year of four digits in front, or a month in letters, settles it.
fn read_date(text: &str, order: DateOrder) -> Option<Day> {
    let parts: Vec<&str> = text.split(['.', '/', '-']).collect();
    let [first, middle, last] = parts.as_slice() else {
        return Day::read(text).ok();
    };
    let digits = |part: &str| match part.len() {
        1..=4 if part.bytes().all(|byte| byte.is_ascii_digit()) => part.parse::<u32>().ok(),
        _ => None,
    };
    let (Some(a), Some(b), Some(c)) = (digits(first), digits(middle), digits(last)) else {
        return Day::read(text).ok();
    };
    let (year, month, day) = match order {
        _ if first.len() == 4 => (a, b, c),
        DateOrder::YearFirst => (a, b, c),
        DateOrder::DayFirst => (c, b, a),
        DateOrder::MonthFirst => (c, a, b),
    };
    // Two digits are of this century: no instrument that writes files is older.
    let year = if year < 100 { year + 2000 } else { year };
    Day::from_civil(i32::try_from(year).ok()?, month, day)
}

/// Minutes since midnight of `07:40`, `7:40:15`, `7:40 PM`, `07:40:00.000` or `07:40Z`.
fn read_moment(text: &str) -> Option<u32> {
    let text = text.trim().to_ascii_lowercase();
    let (clock, late) = match (text.strip_suffix("pm"), text.strip_suffix("am")) {
        (Some(clock), _) => (clock, Some(true)),
        (_, Some(clock)) => (clock, Some(false)),
        _ => (text.as_str(), None),
    };
    let clock = clock.trim_end().trim_end_matches('z');
    // The hour by the clock is meant; how far it is from elsewhere does not matter.
    let clock = clock.split(['+', ' ']).next()?;
    let mut parts = clock.split(':');
    let number = |part: &str, below: u32| {
        let plain = matches!(part.len(), 1 | 2) && part.bytes().all(|byte| byte.is_ascii_digit());
        let number: u32 = plain.then(|| part.parse().ok()).flatten()?;
        (number < below).then_some(number)
    };
    let hours = number(parts.next()?, 24)?;
    let minutes = number(parts.next()?, 60)?;
    if let Some(seconds) = parts.next() {
        number(seconds.split(['.', ',']).next()?, 60)?;
    }
    let hours = match late {
        Some(_) if !(1..=12).contains(&hours) => return None,
        Some(late) => hours % 12 + if late { 12 } else { 0 },
        None => hours,
    };
    parts.next().is_none().then_some(hours * 60 + minutes)
}
