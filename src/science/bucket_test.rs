//! The bucket test: the volume that is lost when materials are mixed, as measured.
//!
//! Each material is measured out loose, struck off and not pressed; the mix is measured the same way.

use std::fmt;

use crate::measure::range::STANDARD_NORMAL_90;
use crate::measure::{Range, Volume};

/// Why measured volumes tell no loss.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotABucketTest {
    /// Fewer than two materials went in.
    TooFew,
    /// A volume is nought or no number.
    Volume,
    /// The reading error is not above nought, or larger than the volumes.
    Reading,
    /// The mix measures more than what went in, by more than reading can explain.
    Grown,
    /// More than half is lost.
    MostLost,
}

impl fmt::Display for NotABucketTest {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::TooFew => "Measure out at least two materials and mix them.",
            Self::Volume => "Each volume must be above 0. Measure it loose, struck off level.",
            Self::Reading => {
                "Say how finely you can read the bucket: more than 0, and less than a tenth of what is in it."
            }
            Self::Grown => {
                "The mix measures more than what went in. Measure all of it the same way, loose and struck off."
            }
            Self::MostLost => {
                "No mix loses half of its volume. Measure the mix again, loose and not pressed."
            }
        })
    }
}

impl std::error::Error for NotABucketTest {}

/// How far one way of filling a bucket differs from the next, as a share of the volume, one
/// standard deviation (common practice, no source).
pub const FILLING_SPREAD: f64 = 0.015;

/// The share of the volume lost on mixing: s = 1 - V mixed / Σ V.
///
/// `reading` is one standard deviation of a reading of the bucket; to it comes [`FILLING_SPREAD`]
/// of each volume, and both are carried through to the low and the high by the rule for small
/// independent errors. A loss below nought that reading can explain is nought.
/// Source: the definition; measuring a test mix rather than predicting it: Acta Horticulturae 819:215 (2009, abstract).
///
/// # Errors
/// [`NotABucketTest`] where the volumes cannot be those of such a test.
pub fn volume_lost(
    parts: &[Volume],
    mixed: Volume,
    reading: Volume,
) -> Result<Range<f64>, NotABucketTest> {
    /// A bucket read no better than this is no measure.
    const COARSEST: f64 = 0.1;
    const MOST_LOST: f64 = 0.5;
    if parts.len() < 2 {
        return Err(NotABucketTest::TooFew);
    }
    let litres = |volume: &Volume| volume.in_litres();
    let above = |litres: f64| litres > 0.0 && litres.is_finite();
    if !parts
        .iter()
        .map(litres)
        .chain([mixed.in_litres()])
        .all(above)
    {
        return Err(NotABucketTest::Volume);
    }
    let sum: f64 = parts.iter().map(litres).sum();
    let mixed = mixed.in_litres();
    let reading = reading.in_litres();
    if !above(reading) || reading > COARSEST * mixed {
        return Err(NotABucketTest::Reading);
    }
    let lost = 1.0 - mixed / sum;
    let error_of = |litres: f64| reading.hypot(FILLING_SPREAD * litres);
    let of_parts: f64 = parts
        .iter()
        .map(|part| error_of(litres(part)).powi(2))
        .sum();
    let error = (error_of(mixed) / sum).hypot(of_parts.sqrt() * mixed / (sum * sum));
    let spread = STANDARD_NORMAL_90 * error;
    if lost < -2.0 * error {
        return Err(NotABucketTest::Grown);
    }
    if lost > MOST_LOST {
        return Err(NotABucketTest::MostLost);
    }
    let share = |share: f64| share.max(0.0);
    // In order, since all three are cut off at the same place.
    Range::new(share(lost - spread), share(lost), share(lost + spread))
        .map_err(|_| NotABucketTest::Volume)
}
