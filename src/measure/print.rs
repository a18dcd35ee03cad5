//! Numbers and ranges on a screen or on paper.

use super::decimal::nearest;
use super::number::DecimalMark;
use super::quantity::{Quantity, Unit};
use super::range::Range;
use super::words;

/// The true minus sign.
const MINUS: char = '\u{2212}';
/// Keeps a number and its unit on one line.
const NO_BREAK_SPACE: char = '\u{a0}';
/// Parts thousands without taking a mark that some would read as decimal.
const THIN_NO_BREAK_SPACE: char = '\u{202f}';
/// Thousands are parted from this many digits up: a year or a bed of 1250 plants is not.
const GROUPED_FROM: usize = 5;
/// Decimals beyond these would only show how the computer counts.
const MOST_DECIMALS: usize = 12;
/// Below this power of ten the noughts would have to be counted: a power is printed instead.
const SMALLEST_POWER: i32 = -5;
/// No number of this kind holds more figures.
const MOST_FIGURES: usize = 17;

/// The marks of a printed number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NumberStyle {
    /// Before the decimals.
    pub decimal: char,
    /// Between thousands, from five digits up.
    pub group: Option<char>,
}

impl Default for NumberStyle {
    fn default() -> NumberStyle {
        NumberStyle {
            decimal: '.',
            group: Some(THIN_NO_BREAK_SPACE),
        }
    }
}

impl NumberStyle {
    /// The style for whoever writes this decimal mark.
    pub fn for_mark(mark: DecimalMark) -> NumberStyle {
        let decimal = match mark {
            DecimalMark::Comma => ',',
            DecimalMark::Point | DecimalMark::Ask => '.',
        };
        NumberStyle {
            decimal,
            ..NumberStyle::default()
        }
    }
}

/// A number with so many decimals, noughts at the end kept: for columns.
pub fn fixed(value: f64, decimals: usize, style: NumberStyle) -> String {
    /// From here on the exponent says more than the digits, which are no longer exact.
    const LARGE: f64 = 1e15;
    if !value.is_finite() {
        words::no_figure().to_owned()
    } else if value.abs() >= LARGE {
        with_power(value, 3, style)
    } else {
        marked(&format!("{value:.*}", decimals.min(MOST_DECIMALS)), style)
    }
}

/// A number with at most so many figures, noughts at the end of its decimals left out.
/// Very small numbers are written with a power of ten.
pub fn significant(value: f64, figures: usize, style: NumberStyle) -> String {
    let figures = figures.clamp(1, MOST_FIGURES);
    let value = rounded(value, figures);
    if !value.is_finite() {
        return fixed(value, 0, style);
    }
    let power = decimal_power(value);
    if value != 0.0 && power < SMALLEST_POWER {
        return with_power(value, figures, style);
    }
    let decimals = usize::try_from(figures as i32 - 1 - power).unwrap_or(0);
    without_end_noughts(fixed(value, decimals, style), style)
}

/// A number followed by its unit on the same line: `50 mm`, `40%`, `1 day`.
pub fn with_unit(number: &str, unit: &Unit) -> String {
    // A unit whose symbol is a word takes its singular.
    let symbol = if number == "1" && unit.symbol == unit.plural {
        unit.singular
    } else {
        unit.symbol
    };
    match symbol {
        "" => number.to_owned(),
        "%" => format!("{number}%"),
        _ => format!("{number}{NO_BREAK_SPACE}{symbol}"),
    }
}

/// A number rounded to so many figures.
pub fn rounded(value: f64, figures: usize) -> f64 {
    let digits = format!("{value:.*e}", figures.clamp(1, MOST_FIGURES) - 1);
    let size = nearest(digits.trim_start_matches('-')).unwrap_or(value.abs());
    size.copysign(value)
}

/// The power of ten of a number's first figure; 0 for nought.
fn decimal_power(value: f64) -> i32 {
    // Printing is exact where a logarithm would stumble on 1000.
    format!("{value:e}")
        .split_once('e')
        .and_then(|(_, power)| power.parse().ok())
        .unwrap_or(0)
}

/// A number written with a power of ten: `1.2 × 10⁻⁷`.
fn with_power(value: f64, figures: usize, style: NumberStyle) -> String {
    const RAISED: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
    let digits = format!("{value:.*e}", figures.clamp(1, MOST_FIGURES) - 1);
    let (number, power) = digits.split_once('e').unwrap_or((&digits, "0"));
    let number = without_end_noughts(marked(number, style), style);
    let raised: String = power
        .chars()
        .map(|c| {
            c.to_digit(10)
                .and_then(|d| RAISED.get(d as usize).copied())
                .unwrap_or('⁻')
        })
        .collect();
    format!("{number}{NO_BREAK_SPACE}×{NO_BREAK_SPACE}10{raised}")
}

/// Rust's digits with the marks of a style, the true minus sign, and no minus before nought.
fn marked(digits: &str, style: NumberStyle) -> String {
    let size = digits.trim_start_matches('-');
    let is_nought = size.chars().all(|c| matches!(c, '0' | '.'));
    let (whole, decimals) = size.split_once('.').unwrap_or((size, ""));
    let mut text = String::with_capacity(digits.len() + 8);
    if digits.starts_with('-') && !is_nought {
        text.push(MINUS);
    }
    for (place, digit) in whole.chars().enumerate() {
        if place > 0 && (whole.len() - place).is_multiple_of(3) && whole.len() >= GROUPED_FROM {
            text.extend(style.group);
        }
        text.push(digit);
    }
    if !decimals.is_empty() {
        text.push(style.decimal);
        text.push_str(decimals);
    }
    text
}

fn without_end_noughts(text: String, style: NumberStyle) -> String {
    if text.contains(style.decimal) && style.group != Some(style.decimal) {
        text.trim_end_matches('0')
            .trim_end_matches(style.decimal)
            .to_owned()
    } else {
        text
    }
}

/// The three figures of a range as printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PrintedRange {
    /// The lower limit.
    pub low: String,
    /// The best figure.
    pub best: String,
    /// The upper limit.
    pub high: String,
}

/// A range with its unit as a screen shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RangeText {
    /// The best figure with its unit: `50 mm`.
    pub best: String,
    /// The limits: `40 to 80`. Nothing where both would be printed alike.
    pub span: Option<String>,
}

/// A range in a unit, with no more figures than the doubt allows.
pub fn range_text<Q: Quantity>(range: &Range<Q>, unit: &Unit, style: NumberStyle) -> RangeText {
    let numbers = range.in_unit(unit);
    let printed = round_range(numbers.low(), numbers.best(), numbers.high(), style);
    let span = (printed.low != printed.high).then(|| words::span(&printed.low, &printed.high));
    RangeText {
        best: with_unit(&printed.best, unit),
        span,
    }
}

/// Prints the three figures of a range with no more figures than the doubt allows.
///
/// All three are rounded to one step, the largest of 1, 2 or 5 times a power of ten that is not
/// above a sixth of the span. So rounding moves a figure by a twelfth of the span at most, the
/// last figure shown is a sixth to a fifteenth of it, and the order is kept. Four figures are
/// shown at most. Where there is no doubt at all, three are. Three whole figures, such as counts,
/// stay whole.
///
/// A figure that is not nought is not printed as nought where the whole range lies on one side
/// of it: it keeps its first figure.
pub fn round_range(low: f64, best: f64, high: f64, style: NumberStyle) -> PrintedRange {
    /// Figures of a number without doubt.
    const FIGURES_WITHOUT_DOUBT: usize = 3;
    let whole = [low, best, high].iter().all(|figure| figure.fract() == 0.0);
    let step = Step::for_span(low, high).map(|step| {
        if whole && step.power < 0 {
            step.of_ones()
        } else {
            step
        }
    });
    let one_side = low >= 0.0 || high <= 0.0;
    let print = |figure: f64| match step {
        None => significant(figure, FIGURES_WITHOUT_DOUBT, style),
        Some(step) if one_side && step.is_nought(figure) => significant(figure, 1, style),
        Some(step) => step.print(figure, style),
    };
    PrintedRange {
        low: print(low),
        best: print(best),
        high: print(high),
    }
}

/// A step of 1, 2 or 5 times a power of ten, to which the figures of one range are rounded.
#[derive(Clone, Copy)]
struct Step {
    times: f64,
    power: i32,
    /// The power of ten of the largest figure.
    largest: i32,
}

impl Step {
    /// The whole steps nearest to a figure. Half a step counts as one, also where another machine
    /// comes out below it by the last bit.
    fn steps(self, figure: f64) -> f64 {
        const LAST_BITS: f64 = 1e-9;
        (figure / self.size() * (1.0 + LAST_BITS)).round()
    }

    /// The step for a range, or none if there is no doubt or no number.
    fn for_span(low: f64, high: f64) -> Option<Step> {
        /// Steps in the span, at least.
        const STEPS_IN_SPAN: f64 = 6.0;
        /// Places after the first figure, at most: four figures in all.
        const MOST_PLACES: i32 = 3;
        let span = high - low;
        if !span.is_finite() || span <= 0.0 {
            return None;
        }
        // With a little given for the rounding of the span, so that 0.3 / 6 is 0.05.
        let widest = span / STEPS_IN_SPAN * (1.0 + 1e-9);
        let power = decimal_power(widest);
        let largest = decimal_power(low.abs().max(high.abs()));
        let finest = largest - MOST_PLACES;
        if power < finest {
            return Some(Step {
                times: 1.0,
                power: finest,
                largest,
            });
        }
        let first = widest / 10f64.powi(power);
        let times = [5.0, 2.0]
            .into_iter()
            .find(|times| *times <= first)
            .unwrap_or(1.0);
        Some(Step {
            times,
            power,
            largest,
        })
    }

    fn of_ones(self) -> Step {
        Step {
            times: 1.0,
            power: 0,
            ..self
        }
    }

    fn size(self) -> f64 {
        self.times * 10f64.powi(self.power)
    }

    fn is_nought(self, figure: f64) -> bool {
        self.steps(figure) == 0.0
    }

    fn print(self, figure: f64, style: NumberStyle) -> String {
        let stepped = self.steps(figure) * self.size();
        if self.largest < SMALLEST_POWER {
            let figures = decimal_power(stepped) - self.power + 1;
            return significant(stepped, usize::try_from(figures).unwrap_or(1), style);
        }
        fixed(stepped, usize::try_from(-self.power).unwrap_or(0), style)
    }
}
