//! What a careless, hurried or hostile hand types: for questions that must not stop the program.

use crate::measure::Entry;
use crate::science::numerics::draws::Draws;

/// Texts that might be typed as a number.
const TYPED: &[&str] = &[
    "",
    " ",
    "0",
    "-1",
    "1",
    "3",
    "2.5",
    "2,5",
    "1/2",
    "2 1/2",
    "½",
    "1,250",
    "1 250",
    "1e3",
    "1e400",
    "-1e400",
    "NaN",
    "inf",
    "0x10",
    "1/0",
    "..",
    "--3",
    "+4",
    "7 mm",
    "9999999999",
    "0.0000001",
    "abc",
    "٣",
    "１２",
    "1_000",
    "\u{0}",
    "🌱",
];
const UNITS_TYPED: &[&str] = &["", "mm", "cm", "in", "L", "gal", "kg", "%", "furlong"];

/// How often each field is typed carelessly: seldom enough that half the questions are answered.
const CARELESSNESS: f64 = 0.03;

/// Whether the hand slips this time.
pub fn slips(draws: &mut Draws) -> bool {
    draws.uniform() < CARELESSNESS
}

/// One of a list, or seldom another.
pub fn one_of<'a>(draws: &mut Draws, list: &[&'a str], other: &'a str) -> &'a str {
    let slips = slips(draws);
    let place = draws.below(list.len());
    if slips {
        other
    } else {
        list.get(place).copied().unwrap_or(other)
    }
}

/// A number between two others, both above nought, in a unit; or seldom anything at all.
pub fn entry(draws: &mut Draws, unit: &str, low: f64, high: f64) -> Entry {
    let slips = slips(draws);
    let value = low * (high / low).powf(draws.uniform());
    let text = one_of(draws, TYPED, "");
    if slips {
        Entry::new(text, one_of(draws, UNITS_TYPED, "L"))
    } else {
        Entry::new(format!("{value:.2}"), unit)
    }
}
