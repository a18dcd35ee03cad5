//! Reading a number as a person types it, and writing one so that it reads back the same.
//!
//! Read: `2.5`, `2,5`, `1/2`, `2 1/2`, `½`, `2½`, signs, thousands in groups (`1 250`,
//! `1,250,000`, `1'250`), exponents (`1e3`). What has two readings is refused with both of them.

use super::decimal::nearest;
use super::words;
use serde::{Deserialize, Serialize};
use std::fmt;

/// The longest number read, in characters. The longest that says anything has about 25.
pub const LONGEST: usize = 40;

/// Which mark stands before the decimals.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum DecimalMark {
    /// `2.5`; a comma may part thousands.
    Point,
    /// `2,5`; a point may part thousands.
    Comma,
    /// Either; a number that has two readings is asked about.
    #[default]
    Ask,
}

/// Why a text was not read as a number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NumberProblem {
    /// Nothing but spaces.
    Empty,
    /// Longer than [`LONGEST`].
    TooLong,
    /// Not a number at all.
    NotANumber {
        /// What was typed.
        text: String,
    },
    /// A mark that may part thousands or decimals.
    Ambiguous {
        /// What was typed.
        text: String,
        /// The reading with the mark between thousands, written without it.
        thousands: String,
        /// The reading with the mark before decimals, written so that it has one reading only.
        decimals: String,
    },
    /// Digits parted otherwise than in thousands.
    Groups {
        /// What was typed.
        text: String,
    },
    /// A fraction over nothing.
    OverZero {
        /// What was typed.
        text: String,
    },
    /// Too large to be kept.
    TooLarge {
        /// What was typed.
        text: String,
    },
    /// Not nought, but too near it to be kept.
    TooSmall {
        /// What was typed.
        text: String,
    },
}

impl fmt::Display for NumberProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&words::number_problem(self))
    }
}

impl std::error::Error for NumberProblem {}

/// Reads a number as a person types it. The mark says how to take one mark before exactly three
/// digits; wherever there is only one reading, either mark is read whatever the setting.
pub fn read_number(text: &str, mark: DecimalMark) -> Result<f64, NumberProblem> {
    if text.chars().nth(LONGEST).is_some() && text.trim().chars().nth(LONGEST).is_some() {
        return Err(NumberProblem::TooLong);
    }
    let plain = plain_characters(text);
    let typed = plain.trim();
    if typed.is_empty() {
        return Err(NumberProblem::Empty);
    }
    let (negative, size) = split_sign(typed);
    let about = |kind: Kind| kind.about(text.trim(), negative);
    let value = if size.contains('/') {
        read_fraction(size).map_err(about)?
    } else {
        read_digits(size, mark).map_err(about)?
    };
    Ok(if negative && value != 0.0 {
        -value
    } else {
        value
    })
}

/// Writes a number with as few digits as read back to the same number under the mark, without
/// groups. Under [`DecimalMark::Ask`] it has one reading only, whatever the setting of the reader.
pub fn write_number(value: f64, mark: DecimalMark) -> String {
    /// From here on Rust would write more noughts than anybody counts.
    const LARGE: f64 = 1e15;
    /// The same below nought point.
    const SMALL: f64 = 1e-6;
    let size = value.abs();
    let digits = if size == 0.0 {
        "0".to_owned()
    } else if (SMALL..LARGE).contains(&size) {
        format!("{value}")
    } else {
        format!("{value:e}")
    };
    match mark {
        DecimalMark::Point => digits,
        DecimalMark::Comma => digits.replace('.', ","),
        DecimalMark::Ask => one_reading(&digits),
    }
}

/// Gives a fourth decimal to a number, written with a point, whose three could be thousands.
fn one_reading(digits: &str) -> String {
    let (number, exponent) = split_exponent(digits);
    match number.trim_start_matches('-').split_once('.') {
        Some((whole, decimals)) if may_be_thousands(whole, decimals) => {
            format!("{number}0{exponent}")
        }
        _ => digits.to_owned(),
    }
}

/// Why a part was not read: a problem before it is told about the whole text.
enum Kind {
    NotANumber,
    Groups,
    OverZero,
    TooLarge,
    TooSmall,
    /// Holds both readings, without a sign.
    Ambiguous(String, String),
}

impl Kind {
    fn about(self, text: &str, negative: bool) -> NumberProblem {
        let text = text.to_owned();
        let sign = if negative { "-" } else { "" };
        match self {
            Kind::NotANumber => NumberProblem::NotANumber { text },
            Kind::Groups => NumberProblem::Groups { text },
            Kind::OverZero => NumberProblem::OverZero { text },
            Kind::TooLarge => NumberProblem::TooLarge { text },
            Kind::TooSmall => NumberProblem::TooSmall { text },
            Kind::Ambiguous(thousands, decimals) => NumberProblem::Ambiguous {
                text,
                thousands: format!("{sign}{thousands}"),
                decimals: format!("{sign}{decimals}"),
            },
        }
    }
}

/// Fractions that have a character of their own.
const FRACTIONS: [(char, &str); 15] = [
    ('½', "1/2"),
    ('⅓', "1/3"),
    ('⅔', "2/3"),
    ('¼', "1/4"),
    ('¾', "3/4"),
    ('⅕', "1/5"),
    ('⅖', "2/5"),
    ('⅗', "3/5"),
    ('⅘', "4/5"),
    ('⅙', "1/6"),
    ('⅚', "5/6"),
    ('⅛', "1/8"),
    ('⅜', "3/8"),
    ('⅝', "5/8"),
    ('⅞', "7/8"),
];

/// Whether a character is a fraction by itself.
pub(super) fn is_fraction(character: char) -> bool {
    FRACTIONS.iter().any(|(fraction, _)| *fraction == character)
}

/// The same text in plain characters: one kind of space, minus, apostrophe and fraction bar, and
/// fractions spelt out with a space on both sides.
fn plain_characters(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '\u{2212}' | '\u{2013}' => plain.push('-'),
            '\u{2019}' => plain.push('\''),
            '\u{2044}' | '\u{2215}' => plain.push('/'),
            space if space.is_whitespace() => plain.push(' '),
            other => match FRACTIONS.iter().find(|(fraction, _)| *fraction == other) {
                Some((_, spelt)) => plain.extend([" ", *spelt, " "]),
                None => plain.push(other),
            },
        }
    }
    plain
}

/// Whether it is negative, and the rest.
fn split_sign(typed: &str) -> (bool, &str) {
    let size = typed.strip_prefix(['+', '-']).unwrap_or(typed);
    (typed.starts_with('-'), size.trim_start())
}

/// The number before an exponent, and the exponent with its `e`, or nothing.
fn split_exponent(size: &str) -> (&str, &str) {
    size.split_at(size.find(['e', 'E']).unwrap_or(size.len()))
}

/// Reads `1/2` and `2 1/2`.
fn read_fraction(size: &str) -> Result<f64, Kind> {
    let (before, after) = size.split_once('/').ok_or(Kind::NotANumber)?;
    let (before, below) = (before.trim_end(), after.trim_start());
    let (whole, above) = before.rsplit_once(' ').unwrap_or(("0", before));
    if !all_digits(above) || !all_digits(below) {
        return Err(Kind::NotANumber);
    }
    if whole.contains(['.', ',']) {
        return Err(Kind::NotANumber);
    }
    let whole = parse(&without_groups(whole.trim_end())?)?;
    let below = parse(below)?;
    if below == 0.0 {
        return Err(Kind::OverZero);
    }
    Ok(whole + parse(above)? / below)
}

/// Reads digits with marks, groups and an exponent.
fn read_digits(size: &str, mark: DecimalMark) -> Result<f64, Kind> {
    let (number, exponent) = split_exponent(size);
    let good_exponent = match exponent.get(1..) {
        None => true,
        Some(power) => all_digits(power.strip_prefix(['+', '-']).unwrap_or(power)),
    };
    let only_digits_and_marks = number
        .chars()
        .all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '\'' | ' '));
    if !good_exponent || !only_digits_and_marks || !number.contains(|c: char| c.is_ascii_digit()) {
        return Err(Kind::NotANumber);
    }
    let (whole, decimals) = match decimal_place(number, mark) {
        Place::Nowhere => (number, ""),
        Place::At(place) => (&number[..place], &number[place + 1..]),
        Place::Either(place) => {
            let (whole, decimals) = (&number[..place], &number[place + 1..]);
            let thousands = format!("{whole}{decimals}{exponent}");
            return Err(Kind::Ambiguous(
                thousands,
                shortest_decimals(whole, decimals, exponent),
            ));
        }
    };
    if !decimals.chars().all(|c| c.is_ascii_digit()) {
        return Err(Kind::Groups);
    }
    parse(&format!("{}.{decimals}{exponent}", without_groups(whole)?))
}

/// Where the decimal mark is.
enum Place {
    Nowhere,
    /// At this byte.
    At(usize),
    /// At this byte, unless the mark there parts thousands.
    Either(usize),
}

fn decimal_place(number: &str, mark: DecimalMark) -> Place {
    let Some(last) = number.rfind(['.', ',']) else {
        return Place::Nowhere;
    };
    let (whole, decimals) = (&number[..last], &number[last + 1..]);
    let is_point = number[last..].starts_with('.');
    let same = if is_point { '.' } else { ',' };
    if whole.contains(same) {
        // A decimal mark stands once, so these part thousands.
        return Place::Nowhere;
    }
    if !may_be_thousands(whole, decimals) {
        return Place::At(last);
    }
    match mark {
        DecimalMark::Ask => Place::Either(last),
        DecimalMark::Point if is_point => Place::At(last),
        DecimalMark::Comma if !is_point => Place::At(last),
        DecimalMark::Point | DecimalMark::Comma => Place::Nowhere,
    }
}

/// Whether a mark between these two could part thousands: one to three digits, not all nought,
/// before exactly three.
fn may_be_thousands(whole: &str, decimals: &str) -> bool {
    all_digits(whole)
        && whole.len() <= 3
        && whole.contains(|c| c != '0')
        && decimals.len() == 3
        && all_digits(decimals)
}

/// Decimals without noughts at the end, and never three of them.
fn shortest_decimals(whole: &str, decimals: &str, exponent: &str) -> String {
    let short = decimals.trim_end_matches('0');
    match short.len() {
        0 => format!("{whole}{exponent}"),
        3 => format!("{whole}.{short}0{exponent}"),
        _ => format!("{whole}.{short}{exponent}"),
    }
}

/// Digits with their thousands marks taken out: one to three, then threes, and one kind of mark.
fn without_groups(whole: &str) -> Result<String, Kind> {
    let Some(mark) = whole.chars().find(|c| !c.is_ascii_digit()) else {
        return Ok(whole.to_owned());
    };
    let mut groups = whole.split(mark);
    let first = groups.next().unwrap_or_default();
    let good = (1..=3).contains(&first.len())
        && all_digits(first)
        && groups.all(|group| group.len() == 3 && all_digits(group));
    if good {
        Ok(whole.replace(mark, ""))
    } else {
        Err(Kind::Groups)
    }
}

fn all_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

/// The one place where digits become a number, rounded to the nearest.
fn parse(digits: &str) -> Result<f64, Kind> {
    let value = nearest(digits).ok_or(Kind::NotANumber)?;
    let number = split_exponent(digits).0;
    if value.is_infinite() {
        Err(Kind::TooLarge)
    } else if value == 0.0 && number.contains(|c: char| ('1'..='9').contains(&c)) {
        Err(Kind::TooSmall)
    } else {
        Ok(value)
    }
}
