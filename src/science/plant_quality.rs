//! What a weighed young plant is worth, and its pot against it.
//!
//! For sorting plants of one crop, age and pot, not for foretelling their yield: over six ages of
//! tomato seedlings such measurements hardly went with later yield (Ciência Rural, abstract), and
//! ratios alone mislead (Racey, Glerum & Hutchison 1983, Forestry Chronicle 59:240-243, abstract:
//! shoot to root is skewed, its mean biased, and worth less than length, thickness and volume).

use std::fmt;

use crate::measure::{Density, Length, Mass, Volume};

/// A measurement that is not above nought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotMeasured;

impl fmt::Display for NotMeasured {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("Height, thickness, masses and volumes must all be above 0.")
    }
}

impl std::error::Error for NotMeasured {}

fn sound(value: f64) -> Result<f64, NotMeasured> {
    if value > 0.0 && value.is_finite() {
        Ok(value)
    } else {
        Err(NotMeasured)
    }
}

/// A plant as measured and weighed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    height_cm: f64,
    stem_mm: f64,
    shoot_g: f64,
    root_g: f64,
}

impl Weighed {
    /// A plant by its height, the thickness of its stem at the collar, and the dry masses of what
    /// grows above and below it, all above nought.
    ///
    /// # Errors
    /// [`NotMeasured`] where one is not.
    pub fn new(
        height: Length,
        stem: Length,
        dry_shoot: Mass,
        dry_root: Mass,
    ) -> Result<Self, NotMeasured> {
        Ok(Self {
            height_cm: sound(height.in_centimetres())?,
            stem_mm: sound(stem.in_millimetres())?,
            shoot_g: sound(dry_shoot.in_grams())?,
            root_g: sound(dry_root.in_grams())?,
        })
    }

    /// The quality index: dry mass in g by the sum of [sturdiness](Self::sturdiness) and
    /// [shoot to root](Self::shoot_to_root), M/(H/D + S/R). Higher is better, among like plants.
    ///
    /// Source: Dickson, Leaf & Hosner 1960, Forestry Chronicle 36:10-13, as later papers on seedlings
    /// of trees and vegetables print it; that paper itself was not read.
    #[must_use]
    pub fn quality_by_dickson_1960(&self) -> f64 {
        (self.shoot_g + self.root_g) / (self.sturdiness() + self.shoot_to_root())
    }

    /// The sturdiness quotient, height in cm by thickness in mm: the lower, the stockier.
    ///
    /// Source: May, *Southern Pine Nursery Handbook*, chapter 9 (abstract).
    #[must_use]
    pub fn sturdiness(&self) -> f64 {
        self.height_cm / self.stem_mm
    }

    /// Dry shoot to dry root, by mass.
    #[must_use]
    pub fn shoot_to_root(&self) -> f64 {
        self.shoot_g / self.root_g
    }
}

/// How many times as heavy plants grow, on the mean, where the pot is twice the volume.
///
/// Source: Poorter, Bühler, van Dusschoten, Climent & Postma 2012, Functional Plant Biology
/// 39:839-850 (abstract): 43 % more in 65 studies.
pub const GROWTH_IN_TWICE_THE_POT: f64 = 1.43;

/// How many times as heavy a plant grows in one pot as in another: (V/V')^log₂ 1.43.
///
/// A mean over many species, grown to the end of each trial: over a few weeks the gain is smaller,
/// and a plant that has hardly rooted gains nothing yet. Source: [`GROWTH_IN_TWICE_THE_POT`]; that
/// the gain is alike from any size to twice that size is this program's reading of it.
///
/// # Errors
/// [`NotMeasured`] where a volume is not above nought.
pub fn growth_by_pot(pot: Volume, other: Volume) -> Result<f64, NotMeasured> {
    let ratio = sound(pot.in_litres())? / sound(other.in_litres())?;
    Ok(ratio.powf(GROWTH_IN_TWICE_THE_POT.log2()))
}

/// How much plant a pot carries: dry mass by volume.
///
/// Above 1 g/L the pot holds growth back, and two thirds of trials in print exceed it (Poorter et
/// al. 2012, abstract). So does nearly every pot plant when it is sold: for comparing, not for
/// rejecting.
///
/// # Errors
/// [`NotMeasured`] where one is not above nought.
pub fn load(dry_plant: Mass, pot: Volume) -> Result<Density, NotMeasured> {
    let grams_per_litre = sound(dry_plant.in_grams())? / sound(pot.in_litres())?;
    Ok(Density::from_grams_per_litre(grams_per_litre))
}
