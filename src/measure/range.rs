//! A figure with its doubt: low, best and high.
//!
//! Low and high are the 1-in-10 and 9-in-10 limits: of ten such figures one may be expected below
//! low and one above high. Handbook spreads are read so too.

use super::quantity::{Quantity, Unit};
use super::words;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use std::fmt;

/// How many standard deviations above the mean nine tenths of a normal distribution lie below:
/// the 90 % point, as in any table of the normal distribution.
pub const STANDARD_NORMAL_90: f64 = 1.2815515655446004;

/// A figure with its doubt. Always low ≤ best ≤ high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range<Q> {
    low: Q,
    best: Q,
    high: Q,
}

/// Why three figures do not make a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RangeProblem {
    /// Not in the order low, best, high.
    Order,
    /// One of them is not a number that can be written down.
    NotFinite,
}

impl fmt::Display for RangeProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(words::range_problem(*self))
    }
}

impl std::error::Error for RangeProblem {}

/// From the 1-in-10 to the 9-in-10 limit of a normal distribution, standard deviations.
pub const LIMITS_APART: f64 = 2.0 * STANDARD_NORMAL_90;

impl<Q: Copy> Range<Q> {
    /// For callers on this floor that have made sure of the order.
    pub(super) const fn from_ordered(low: Q, best: Q, high: Q) -> Range<Q> {
        Range { low, best, high }
    }

    /// A figure without doubt: all three the same.
    pub const fn exact(figure: Q) -> Range<Q> {
        Range {
            low: figure,
            best: figure,
            high: figure,
        }
    }

    /// One figure in ten may be expected below this.
    pub const fn low(&self) -> Q {
        self.low
    }

    /// The likeliest figure: as many may be expected below it as above.
    pub const fn best(&self) -> Q {
        self.best
    }

    /// One figure in ten may be expected above this.
    pub const fn high(&self) -> Q {
        self.high
    }
}

impl<Q: Quantity> Range<Q> {
    /// A range from its three figures, which must be finite and in order.
    pub fn new(low: Q, best: Q, high: Q) -> Result<Range<Q>, RangeProblem> {
        if ![low, best, high]
            .iter()
            .all(|figure| figure.to_base().is_finite())
        {
            return Err(RangeProblem::NotFinite);
        }
        if low <= best && best <= high {
            Ok(Range { low, best, high })
        } else {
            Err(RangeProblem::Order)
        }
    }

    /// Whether there is no doubt at all.
    pub fn is_exact(&self) -> bool {
        self.low == self.high
    }

    /// The figure at a standard normal deviate.
    ///
    /// The distribution is two halves of normal distributions that meet at the median, which is
    /// `best`; its 10 % and 90 % points are exactly `low` and `high`. It rises with the deviate.
    pub fn at(&self, deviate: f64) -> Q {
        let limit = if deviate < 0.0 { self.low } else { self.high };
        Q::from_base(part_way(
            self.best.to_base(),
            limit.to_base(),
            deviate.abs() / STANDARD_NORMAL_90,
        ))
    }

    /// The range of a result that rises as this figure rises and depends on nothing else that is
    /// in doubt. `f` must give finite figures over the whole range.
    pub fn map_increasing<R: Quantity>(&self, f: impl Fn(Q) -> R) -> Range<R> {
        ordered(f(self.low), f(self.best), f(self.high))
    }

    /// The range of a result that falls as this figure rises and depends on nothing else that is
    /// in doubt. `f` must give finite figures over the whole range.
    pub fn map_decreasing<R: Quantity>(&self, f: impl Fn(Q) -> R) -> Range<R> {
        ordered(f(self.high), f(self.best), f(self.low))
    }

    /// The three figures as numbers in a unit.
    pub fn in_unit(&self, unit: &Unit) -> Range<f64> {
        self.map_increasing(|figure| figure.in_unit(unit))
    }

    /// A range of a quantity from numbers in a unit.
    pub fn from_unit(numbers: &Range<f64>, unit: &Unit) -> Range<Q> {
        numbers.map_increasing(|number| Q::from_unit(number, unit))
    }
}

impl Range<f64> {
    /// A range for a table of constants. Limits out of order, or not finite, stop the compiler;
    /// use [`Range::new`] for whatever is not written in the source.
    pub const fn literal(low: f64, best: f64, high: f64) -> Range<f64> {
        assert!(
            low <= best && best <= high,
            "write low, best, high in rising order"
        );
        assert!(low.is_finite() && high.is_finite(), "write finite limits");
        Range { low, best, high }
    }

    /// The range of sampled figures around a best one, or nothing if there are none or one of
    /// them is not finite. Leaves the samples sorted.
    ///
    /// The limits are the 10 % and 90 % points of the samples. The best figure is worked out from
    /// the best inputs, not from the samples; where the result is bent it can lie outside those
    /// limits, and they are then widened to hold it, for a figure outside its own range would
    /// be believed by nobody.
    pub fn from_samples(best: f64, samples: &mut [f64]) -> Option<Range<f64>> {
        if !best.is_finite() || !samples.iter().all(|sample| sample.is_finite()) {
            return None;
        }
        samples.sort_unstable_by(f64::total_cmp);
        let low = quantile(samples, 0.1)?;
        let high = quantile(samples, 0.9)?;
        Some(Range {
            low: low.min(best),
            best,
            high: high.max(best),
        })
    }
}

/// The point below which a share of the sorted samples lies, by straight lines between them
/// (type 7 of Hyndman and Fan 1996, The American Statistician 50: 361-365).
fn quantile(sorted: &[f64], share: f64) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    let place = share * last as f64;
    let below = place.floor() as usize;
    let lower = *sorted.get(below)?;
    let upper = *sorted.get((below + 1).min(last))?;
    Some(part_way(lower, upper, place - place.floor()))
}

/// The number a part of the way from one to another, or beyond the other for a part above 1.
fn part_way(from: f64, to: f64, part: f64) -> f64 {
    // The difference is rounded, so the whole way has to be told apart to end exactly there. Any
    // other part is at least a last place off 1, which is more than that rounding.
    if part == 1.0 {
        to
    } else {
        from + part * (to - from)
    }
}

/// Three figures put in order by widening the limits to hold the best one.
fn ordered<Q: Quantity>(low: Q, best: Q, high: Q) -> Range<Q> {
    Range {
        low: if low > best { best } else { low },
        best,
        high: if high < best { best } else { high },
    }
}

/// How a range of numbers is stored.
#[derive(Serialize, Deserialize)]
#[serde(rename = "Range")]
struct Stored {
    low: f64,
    best: f64,
    high: f64,
}

impl Serialize for Range<f64> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        Stored {
            low: self.low,
            best: self.best,
            high: self.high,
        }
        .serialize(to)
    }
}

impl<'de> Deserialize<'de> for Range<f64> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Range<f64>, D::Error> {
        let stored = Stored::deserialize(from)?;
        Range::new(stored.low, stored.best, stored.high).map_err(de::Error::custom)
    }
}
