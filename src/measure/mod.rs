//! Floor 0: quantities and their units, ranges, and the reading and printing of numbers.
//!
//! | file | what it holds |
//! |---|---|
//! | `quantity` | what a quantity and a unit are, and the macros behind the tables |
//! | `quantities` | the tables: one per quantity, and the products that make sense |
//! | `range` | a figure with its doubt: low, best and high |
//! | `decimal` | digits to the nearest number |
//! | `number` | reading a number as a person types it, and writing one back |
//! | `letters` | capital and small letters |
//! | `entry` | what a person typed in a field, kept to the letter, with its unit |
//! | `print` | numbers and ranges on a screen or on paper |
//! | `words` | every sentence of this floor |
//!
//! Nothing here knows plants, pots or screens.

pub mod decimal;
pub mod entry;
pub mod letters;
pub mod number;
pub mod print;
pub mod quantities;
pub mod quantity;
pub mod range;
pub mod words;

pub use entry::{Bounds, Entry, EntryProblem, Limits};
pub use number::{DecimalMark, NumberProblem, read_number, write_number};
pub use print::{
    NumberStyle, PrintedRange, RangeText, fixed, range_text, round_range, significant, with_unit,
};
pub use quantities::*;
pub use quantity::{Quantity, Unit};
pub use range::{LIMITS_APART, Range, RangeProblem, STANDARD_NORMAL_90};
