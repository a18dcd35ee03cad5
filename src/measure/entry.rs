//! What a person typed in a field, kept to the letter, with the unit chosen beside it.

use super::number::{DecimalMark, NumberProblem, is_fraction, read_number, write_number};
use super::print::{NumberStyle, rounded, significant, with_unit};
use super::quantities::{ALL_UNITS, Density, Fraction, Length, Number, SaltConductivity, Volume};
use super::quantity::{Quantity, Unit, find_unit};
use super::words;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use std::fmt;

/// What a person typed, and the key of the unit chosen beside it. Both may be empty, and neither
/// need make sense: it is read only when it is used, and never changed by being read.
///
/// Stored as one string, `100 mm` or `2 1/2 L`. Where that would not give the same entry back,
/// because the text itself ends like a unit or the unit is not known, the unit stands in square
/// brackets: `12 mm []` is the text `12 mm` without a unit.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Entry {
    text: String,
    unit: String,
}

/// A bounded quantity, declared once with its word.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits<Q> {
    /// What it is, in lower case: `height of the pot`.
    pub what: &'static str,
    /// The least that makes sense.
    pub low: Q,
    /// The most that makes sense.
    pub high: Q,
    /// Whether it must be a whole number in its unit.
    pub whole: bool,
}

impl<Q> Limits<Q> {
    /// From a low to a high.
    pub const fn between(what: &'static str, low: Q, high: Q) -> Self {
        Self {
            what,
            low,
            high,
            whole: false,
        }
    }
}

impl Limits<Length> {
    /// In millimetres.
    pub const fn millimetres(what: &'static str, low: f64, high: f64) -> Self {
        Self::between(
            what,
            Length::from_millimetres(low),
            Length::from_millimetres(high),
        )
    }
}

impl Limits<Volume> {
    /// In litres.
    pub const fn litres(what: &'static str, low: f64, high: f64) -> Self {
        Self::between(what, Volume::from_litres(low), Volume::from_litres(high))
    }
}

impl Limits<Fraction> {
    /// In per cent.
    pub const fn percent(what: &'static str, low: f64, high: f64) -> Self {
        Self::between(
            what,
            Fraction::from_percent(low),
            Fraction::from_percent(high),
        )
    }
}

impl Limits<Density> {
    /// In grams per litre.
    pub const fn grams_per_litre(what: &'static str, low: f64, high: f64) -> Self {
        Self::between(
            what,
            Density::from_grams_per_litre(low),
            Density::from_grams_per_litre(high),
        )
    }
}

impl Limits<SaltConductivity> {
    /// In millisiemens per centimetre.
    pub const fn millisiemens_per_centimetre(what: &'static str, low: f64, high: f64) -> Self {
        Self::between(
            what,
            SaltConductivity::from_millisiemens_per_centimetre(low),
            SaltConductivity::from_millisiemens_per_centimetre(high),
        )
    }
}

impl Limits<Number> {
    /// A plain number.
    pub const fn number(what: &'static str, low: f64, high: f64) -> Self {
        Self::between(what, Number::from_count(low), Number::from_count(high))
    }
}

/// Why an entry does not give the quantity asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EntryProblem {
    /// The text is not a number.
    Number(NumberProblem),
    /// No unit is chosen.
    NoUnit {
        /// The units there are.
        units: Vec<&'static str>,
    },
    /// The unit is one of another quantity, or of none.
    OtherUnit {
        /// What it is.
        unit: String,
        /// The units there are; none for a plain number.
        units: Vec<&'static str>,
    },
    /// Below or above what makes sense.
    OutOfBounds {
        /// What was to be given.
        what: &'static str,
        /// What was given, with its unit.
        given: String,
        /// Whether it is above; otherwise it is below.
        above: bool,
        /// The least, in the unit typed.
        low: String,
        /// The most, in the unit typed, with the unit.
        high: String,
    },
    /// Not a whole number.
    NotWhole {
        /// What was to be given.
        what: &'static str,
        /// What was given, with its unit.
        given: String,
        /// The whole number below.
        below: String,
        /// The whole number above, with the unit.
        above: String,
    },
}

impl fmt::Display for EntryProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&words::entry_problem(self))
    }
}

impl std::error::Error for EntryProblem {}

impl Entry {
    /// What was typed, and the key of the unit chosen.
    pub fn new(text: impl Into<String>, unit: impl Into<String>) -> Entry {
        Entry {
            text: text.into(),
            unit: unit.into(),
        }
    }

    /// A plain number.
    pub fn number(value: f64) -> Entry {
        Entry::new(write_number(value, DecimalMark::Ask), "")
    }

    /// A quantity in one of its units, with as few digits as it needs.
    pub fn of<Q: Quantity>(value: Q, unit: &Unit) -> Entry {
        /// Beyond these lie only the traces of converting back and forth.
        const FIGURES: usize = 12;
        let number = rounded(value.in_unit(unit), FIGURES);
        Entry::new(write_number(number, DecimalMark::Ask), unit.key)
    }

    /// The one string in which it is stored.
    pub fn stored(&self) -> String {
        join(self)
    }

    /// The entry of a stored string; every string is one.
    pub fn from_stored(stored: &str) -> Entry {
        split(stored)
    }

    /// What was typed.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The key of the unit chosen; may be empty.
    pub fn unit(&self) -> &str {
        &self.unit
    }

    /// Whether nothing but spaces was typed.
    pub fn is_empty(&self) -> bool {
        self.text.trim().is_empty()
    }

    /// The same unit with another text.
    pub fn with_text(&self, text: impl Into<String>) -> Entry {
        Entry::new(text, self.unit.as_str())
    }

    /// The same text with another unit.
    pub fn with_unit(&self, unit: impl Into<String>) -> Entry {
        Entry::new(self.text.as_str(), unit)
    }

    /// The same quantity in another unit, to four figures, as a field shows it when its unit is
    /// switched. A text that is not a number is kept as it is.
    pub fn converted<Q: Quantity>(&self, to: &Unit, mark: DecimalMark) -> Entry {
        self.converted_among(Q::UNITS, to, mark)
    }

    /// The same, among the units of a quantity.
    pub fn converted_among(&self, units: &'static [Unit], to: &Unit, mark: DecimalMark) -> Entry {
        let from = find_unit(units, &self.unit).filter(|from| from.key != to.key);
        match (from, read_number(&self.text, mark)) {
            (Some(from), Ok(value)) => {
                let value = four_figures(to.from_base(from.to_base(value)));
                Entry::new(write_number(value, mark), to.key)
            }
            _ => self.with_unit(to.key),
        }
    }

    /// The same entry as it reads under any decimal mark: its number with a point, without groups.
    /// A text that is not a number is kept as it is.
    pub fn canonical(&self, mark: DecimalMark) -> Entry {
        match read_number(&self.text, mark) {
            Ok(value) => self.with_text(write_number(value, DecimalMark::Ask)),
            Err(_) => self.clone(),
        }
    }

    /// The quantity typed, if it is within its limits.
    pub fn read<Q: Quantity>(
        &self,
        limits: &Limits<Q>,
        mark: DecimalMark,
    ) -> Result<Q, EntryProblem> {
        let bounds = Bounds {
            what: limits.what,
            low: limits.low.to_base(),
            high: limits.high.to_base(),
            whole: limits.whole,
        };
        self.read_base(Q::UNITS, &bounds, mark).map(Q::from_base)
    }

    /// The number typed, in the base unit of a table of units, if it is within bounds: one function
    /// for all quantities, to keep the program small.
    ///
    /// # Errors
    /// Why it is not such a number.
    pub fn read_base(
        &self,
        units: &'static [Unit],
        bounds: &Bounds,
        mark: DecimalMark,
    ) -> Result<f64, EntryProblem> {
        let value = read_number(&self.text, mark).map_err(EntryProblem::Number)?;
        let unit = find_unit(units, &self.unit).ok_or_else(|| self.unit_problem(units))?;
        let given = || with_unit(self.text.trim(), unit);
        let base = bounds.check(value, unit, NumberStyle::for_mark(mark), given)?;
        if bounds.whole && value.fract() != 0.0 {
            return Err(EntryProblem::NotWhole {
                what: bounds.what,
                given: given(),
                below: write_number(value.floor(), mark),
                above: with_unit(&write_number(value.ceil(), mark), unit),
            });
        }
        Ok(base)
    }

    fn unit_problem(&self, units: &'static [Unit]) -> EntryProblem {
        let symbols = units
            .iter()
            .map(|unit| unit.symbol)
            .filter(|symbol| !symbol.is_empty());
        let units = symbols.collect();
        if self.unit.is_empty() {
            EntryProblem::NoUnit { units }
        } else {
            EntryProblem::OtherUnit {
                unit: self.unit.clone(),
                units,
            }
        }
    }
}

/// Rounds to four figures, but never a whole number to tens.
fn four_figures(value: f64) -> f64 {
    const FIGURES: usize = 4;
    if value.abs() >= 10f64.powi(FIGURES as i32 - 1) {
        value.round()
    } else {
        rounded(value, FIGURES)
    }
}

/// [`Limits`] in base units, for tables of fields of many quantities.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// What it is, in lower case.
    pub what: &'static str,
    /// The least that makes sense.
    pub low: f64,
    /// The most that makes sense.
    pub high: f64,
    /// Whether it must be a whole number in its unit.
    pub whole: bool,
}

impl Bounds {
    /// The value in base units, if it is within. What lies outside by no more than the rounding of
    /// a conversion counts as the limit itself.
    fn check(
        &self,
        value: f64,
        unit: &Unit,
        style: NumberStyle,
        given: impl Fn() -> String,
    ) -> Result<f64, EntryProblem> {
        /// A few roundings of a conversion, as a part of the larger limit.
        const ROUNDING: f64 = 1e-12;
        let slack = ROUNDING * self.low.abs().max(self.high.abs());
        let base = unit.to_base(value);
        let above = base > self.high + slack;
        if !above && base >= self.low - slack {
            return Ok(base.max(self.low).min(self.high));
        }
        let low = inward(unit.from_base(self.low), 1.0);
        let high = inward(unit.from_base(self.high), -1.0);
        Err(EntryProblem::OutOfBounds {
            what: self.what,
            given: given(),
            above,
            low: significant(low, SENTENCE_FIGURES, style),
            high: with_unit(&significant(high, SENTENCE_FIGURES, style), unit),
        })
    }
}

/// Figures of a limit in a sentence.
const SENTENCE_FIGURES: usize = 3;

/// A limit rounded for a sentence, never outwards: whoever types what the sentence says must not
/// be refused. `direction` is 1 for a lower limit and -1 for an upper one.
fn inward(limit: f64, direction: f64) -> f64 {
    /// Rounding of a conversion, as a part of the number.
    const ROUNDING: f64 = 1e-9;
    let near = rounded(limit, SENTENCE_FIGURES);
    if (near - limit) * direction >= -ROUNDING * limit.abs() {
        return near;
    }
    let power = limit.abs().log10().floor() as i32 - (SENTENCE_FIGURES as i32 - 1);
    near + direction * 10f64.powi(power)
}

/// The stored string of an entry.
fn join(entry: &Entry) -> String {
    let plain = match entry.unit.as_str() {
        "" => entry.text.clone(),
        unit => [&entry.text, " ", unit].concat(),
    };
    if split(&plain) == *entry {
        plain
    } else {
        let unit = entry.unit.replace('\\', "\\\\").replace('[', "\\(");
        [&entry.text, " [", &unit, "]"].concat()
    }
}

/// The entry of a stored string.
fn split(stored: &str) -> Entry {
    split_brackets(stored)
        .or_else(|| split_known_unit(stored))
        .unwrap_or_else(|| Entry::new(stored, ""))
}

/// `12 mm [unit]`. Inside, `\(` stands for `[` and `\\` for `\`, so the last `[` opens.
fn split_brackets(stored: &str) -> Option<Entry> {
    let (text, unit) = stored.strip_suffix(']')?.rsplit_once('[')?;
    let text = text.strip_suffix(' ')?;
    let mut plain = String::new();
    let mut characters = unit.chars();
    while let Some(character) = characters.next() {
        plain.push(match character {
            '\\' => match characters.next()? {
                '(' => '[',
                other => other,
            },
            other => other,
        });
    }
    Some(Entry::new(text, plain))
}

/// `100 mm`, `100mm`, `20 °C`: the longest key or symbol of a unit that stands at the end, after
/// a space or a digit.
fn split_known_unit(stored: &str) -> Option<Entry> {
    let mut found: Option<(&str, &Unit)> = None;
    for unit in ALL_UNITS.iter().copied().flatten() {
        for name in [unit.key, unit.symbol] {
            let text = stored.strip_suffix(name).filter(|_| !name.is_empty());
            let Some(text) = text.filter(|text| ends_a_number(text)) else {
                continue;
            };
            if found.is_none_or(|(shortest, _)| text.len() < shortest.len()) {
                found = Some((text, unit));
            }
        }
    }
    let (text, unit) = found?;
    Some(Entry::new(text.strip_suffix(' ').unwrap_or(text), unit.key))
}

/// Whether a unit may follow.
fn ends_a_number(text: &str) -> bool {
    text.ends_with(|c: char| c == ' ' || c.is_ascii_digit() || is_fraction(c))
}

impl Serialize for Entry {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        if to.is_human_readable() {
            to.serialize_str(&join(self))
        } else {
            (&self.text, &self.unit).serialize(to)
        }
    }
}

impl<'de> Deserialize<'de> for Entry {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Entry, D::Error> {
        if from.is_human_readable() {
            from.deserialize_any(StoredEntry)
        } else {
            let (text, unit) = <(String, String)>::deserialize(from)?;
            Ok(Entry { text, unit })
        }
    }
}

/// Takes a string with its unit, or a bare number.
struct StoredEntry;

impl de::Visitor<'_> for StoredEntry {
    type Value = Entry;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(words::stored_entry_expected())
    }

    fn visit_str<E: de::Error>(self, stored: &str) -> Result<Entry, E> {
        Ok(split(stored))
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Entry, E> {
        Ok(Entry::number(value))
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Entry, E> {
        Ok(Entry::new(value.to_string(), ""))
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Entry, E> {
        Ok(Entry::new(value.to_string(), ""))
    }
}
