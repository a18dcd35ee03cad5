//! What a quantity and a unit are, and the macros behind the tables in `quantities`.
//!
//! A quantity is a number held in one base unit. It is made from a unit and read in a unit,
//! both named in the call, so that no bare number can be taken for the wrong thing.

use std::fmt::Debug;

/// One unit of one quantity: a row of its table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// The ASCII name used in files and addresses.
    pub key: &'static str,
    /// What stands after a number on a screen. Empty for a plain number.
    pub symbol: &'static str,
    /// The name of one of it.
    pub singular: &'static str,
    /// The name of several of it.
    pub plural: &'static str,
    /// How many base units one of it is.
    pub factor: f64,
    /// What is added before multiplying, for a scale that starts elsewhere.
    pub offset: f64,
}

impl Unit {
    /// A value in this unit, told in the base unit: (value + offset) × factor.
    pub const fn to_base(&self, value: f64) -> f64 {
        (value + self.offset) * self.factor
    }

    /// A value in the base unit, told in this unit.
    pub const fn from_base(&self, base: f64) -> f64 {
        base / self.factor - self.offset
    }
}

/// A kind of thing that is measured, with the units it may be given in.
pub trait Quantity: Copy + PartialOrd + Debug + Send + Sync + 'static {
    /// What is measured, in one or two plain words.
    const WHAT: &'static str;
    /// Its units, the usual one first.
    const UNITS: &'static [Unit];

    /// From a number in the base unit.
    fn from_base(base: f64) -> Self;

    /// As a number in the base unit.
    fn to_base(self) -> f64;

    /// From a number in the given unit, which must be one of this quantity's.
    fn from_unit(value: f64, unit: &Unit) -> Self {
        Self::from_base(unit.to_base(value))
    }

    /// As a number in the given unit, which must be one of this quantity's.
    fn in_unit(self, unit: &Unit) -> f64 {
        unit.from_base(self.to_base())
    }

    /// The unit with this key, if this quantity has it.
    fn unit(key: &str) -> Option<&'static Unit> {
        find_unit(Self::UNITS, key)
    }
}

/// The unit with this key in a table of units.
pub(crate) fn find_unit(units: &'static [Unit], key: &str) -> Option<&'static Unit> {
    units.iter().find(|unit| unit.key == key)
}

/// A bare number is a quantity too, so that ranges serve both.
impl Quantity for f64 {
    const WHAT: &'static str = super::Number::WHAT;
    const UNITS: &'static [Unit] = super::Number::UNITS;

    fn from_base(base: f64) -> f64 {
        base
    }

    fn to_base(self) -> f64 {
        self
    }
}

/// The table of one quantity. Each row is a unit: its name as a constant, its factor to the base
/// unit written as its exact definition (and an offset, if its scale starts elsewhere), its key,
/// symbol, singular and plural, and the functions that make the quantity from it and read it.
macro_rules! quantity {
    (
        $(#[$doc:meta])*
        $name:ident, $what:literal {
            $(
                $unit:ident = $factor:expr, $(offset $offset:expr,)?
                $key:literal, $symbol:literal, $singular:literal, $plural:literal,
                $from:ident, $in:ident;
            )+
        }
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            $(
                #[doc = concat!("The unit `", $key, "`: ", $plural, ".")]
                pub const $unit: Unit = Unit {
                    key: $key,
                    symbol: $symbol,
                    singular: $singular,
                    plural: $plural,
                    factor: $factor,
                    offset: 0.0 $(+ $offset)?,
                };

                #[doc = concat!("From a number of ", $plural, ".")]
                pub const fn $from(value: f64) -> $name {
                    $name($name::$unit.to_base(value))
                }

                #[doc = concat!("As a number of ", $plural, ".")]
                pub const fn $in(self) -> f64 {
                    $name::$unit.from_base(self.0)
                }
            )+

            /// A range for a table of constants. The compiler refuses limits out of order.
            pub const fn literal_range(low: $name, best: $name, high: $name) -> Range<$name> {
                let _ordered = Range::literal(low.0, best.0, high.0);
                Range::from_ordered(low, best, high)
            }
        }

        impl Quantity for $name {
            const WHAT: &'static str = $what;
            const UNITS: &'static [Unit] = &[$($name::$unit),+];

            fn from_base(base: f64) -> $name {
                $name(base)
            }

            fn to_base(self) -> f64 {
                self.0
            }
        }
    };
}

/// Quantities of which there may be more or less: sums, differences, multiples and ratios.
macro_rules! amounts {
    ($($name:ident),+ $(,)?) => {
        $(
            impl std::ops::Add for $name {
                type Output = $name;
                fn add(self, other: $name) -> $name {
                    $name(self.0 + other.0)
                }
            }

            impl std::ops::Sub for $name {
                type Output = $name;
                fn sub(self, other: $name) -> $name {
                    $name(self.0 - other.0)
                }
            }

            impl std::ops::Mul<f64> for $name {
                type Output = $name;
                fn mul(self, times: f64) -> $name {
                    $name(self.0 * times)
                }
            }

            impl std::ops::Div<f64> for $name {
                type Output = $name;
                fn div(self, by: f64) -> $name {
                    $name(self.0 / by)
                }
            }

            impl std::ops::Div for $name {
                type Output = f64;
                fn div(self, other: $name) -> f64 {
                    self.0 / other.0
                }
            }

            impl std::iter::Sum for $name {
                fn sum<I: Iterator<Item = $name>>(parts: I) -> $name {
                    $name(parts.map(|part| part.0).sum())
                }
            }
        )+
    };
}

/// Squares: `A * A = C`, and `C / A = A`. Base units must agree.
macro_rules! squares {
    ($($a:ident * $same:ident = $c:ident;)+) => {
        $(
            impl std::ops::Mul<$same> for $a {
                type Output = $c;
                fn mul(self, other: $same) -> $c {
                    $c(self.0 * other.0)
                }
            }

            impl std::ops::Div<$a> for $c {
                type Output = $same;
                fn div(self, by: $a) -> $same {
                    $same(self.0 / by.0)
                }
            }
        )+
    };
}

/// Products of two kinds: `A * B = C`, with `B * A`, `C / A` and `C / B`. Base units must agree.
macro_rules! products {
    ($($a:ident * $b:ident = $c:ident;)+) => {
        $(
            squares! { $a * $b = $c; }

            impl std::ops::Mul<$a> for $b {
                type Output = $c;
                fn mul(self, other: $a) -> $c {
                    $c(self.0 * other.0)
                }
            }

            impl std::ops::Div<$b> for $c {
                type Output = $a;
                fn div(self, by: $b) -> $a {
                    $a(self.0 / by.0)
                }
            }
        )+
    };
}

/// Quantities of which a fraction may be taken: `A * Fraction = A`.
macro_rules! shares {
    ($($name:ident),+ $(,)?) => {
        $(
            impl std::ops::Mul<Fraction> for $name {
                type Output = $name;
                fn mul(self, share: Fraction) -> $name {
                    $name(self.0 * share.0)
                }
            }
        )+
    };
}

pub(crate) use {amounts, products, quantity, shares, squares};
