//! The one-hour tube test: how far water climbs into a dry bed medium of one's own, and what that
//! tells of its pores.
//!
//! A clear tube of 30 to 40 cm, open at its foot but for a cloth, is filled with the dry medium and stood
//! in 2 cm of water for an hour. Two heights above the water are read: up to where the
//! grains look nearly wet, and the damp line. A handful that was soaked and shaken off on a sieve is
//! weighed wet and dry, and a measured volume is weighed dry.
//!
//! | file | what it holds |
//! |---|---|
//! | [`rise`] | how far water has climbed into a medium after a time |
//! | `fit` | which media climb so, as draws |
//! | `words` | the sentences |
//!
//! **What follows from what.** The two heights give the pore size and how evenly the pores are sized,
//! as a van Genuchten curve of *wetting*; how far that had come in the time gives the
//! conductivity behind the front, with the air that wetting traps still in it. Where the rise has come to
//! its end, the same heights would be read in any medium that conducts better, and only a least
//! conductivity follows. The two weights give density, pore space and what the
//! grains hold. The curve of *drying* lies at suctions larger by a ratio that this test does not
//! show; see [`WETTING_RATIO`].
//!
//! **Doubt.** Where an eye sets the two lines, how sieve and hand leave the handful, how dense it lies and what is
//! known of grains in general are drawn by chance together with the medium, and each draw is weighted
//! by how likely it makes what was read (importance sampling, then resampling: Rubin 1988, in *Bayesian
//! Statistics 3*, cited from memory). The draws that are left go together: a finer medium with a
//! poorer conductivity, a coarser one with a better.

mod fit;
pub mod rise;
mod words;

use std::fmt;

use crate::measure::{
    Conductivity, Density, Duration, Length, Mass, Quantity, Range, Suction, Volume,
};
use crate::science::conductivity::Medium;

pub use fit::{ENTRY_NUMBER, WETTING_RATIO};

/// What the grains are like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Grains {
    /// Compact: sand, gravel, grit. The pores are what the grains leave room for.
    Solid {
        /// Density of the grains. Quartz sand and most gravels: [`quartz`].
        density: Range<Density>,
    },
    /// With pores that water enters: pumice, scoria, expanded clay, perlite.
    Porous,
}

/// The density of grains of sand and of most gravels, g/L: quartz 2650, felspar, limestone and flint
/// about as much. Source: any table of minerals; the limits are this program's.
#[must_use]
pub fn quartz() -> Range<Density> {
    Range::literal(2600.0, 2650.0, 2700.0).map_increasing(Density::from_grams_per_litre)
}

/// A tube test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeTest {
    /// Height of the fill, from its foot.
    pub tube: Length,
    /// How deep its foot stands under the water; the water is topped up.
    pub depth: Length,
    /// How long it has stood.
    pub time: Duration,
    /// Up to here, above the water, the grains look nearly wet. Nought if nowhere.
    pub nearly_wet: Length,
    /// Up to here, above the water, they look damp.
    pub damp: Length,
    /// How far off a reading may well be, the waviness of the lines with it: one standard deviation.
    pub reading: Length,
    /// A handful, soaked and shaken off on a sieve.
    pub handful_wet: Mass,
    /// The same handful dried.
    pub handful_dry: Mass,
    /// A volume of the dry medium, filled as the tube was.
    pub volume: Volume,
    /// What it weighs.
    pub volume_dry: Mass,
    /// The step in which the scale shows.
    pub scale_step: Mass,
    /// What the grains are like.
    pub grains: Grains,
}

/// Which reading or weight is not right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// [`TubeTest::tube`].
    Tube,
    /// [`TubeTest::depth`].
    Depth,
    /// [`TubeTest::time`].
    Time,
    /// [`TubeTest::nearly_wet`].
    NearlyWet,
    /// [`TubeTest::damp`].
    Damp,
    /// [`TubeTest::reading`].
    Reading,
    /// [`TubeTest::handful_wet`].
    HandfulWet,
    /// [`TubeTest::handful_dry`].
    HandfulDry,
    /// [`TubeTest::volume`].
    Volume,
    /// [`TubeTest::volume_dry`].
    VolumeDry,
    /// [`TubeTest::scale_step`].
    ScaleStep,
    /// [`TubeTest::grains`].
    Grains,
}

/// Why readings cannot be those of a tube test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Why {
    /// Nought, below it, or no number.
    NotAboveNought,
    /// Below nought, or no number.
    BelowNought,
    /// Shorter than ten minutes or longer than a day.
    TimeOutOfReach,
    /// A tube shorter than 10 cm or taller than 2 m.
    TubeOutOfReach,
    /// The foot stands deeper than a quarter of the tube.
    TooDeep,
    /// Nearly wet higher than damp.
    WetAboveDamp,
    /// Damp up to the top of the tube.
    DampToTheTop,
    /// Water did not rise by as much as reading can tell.
    DidNotRise,
    /// The reading's error is a third of the damp height or more.
    ReadingTooCoarse,
    /// The handful weighs less wet than dry.
    WetLessThanDry,
    /// The volume is denser than a heap of such grains can be, g/L.
    TooDense {
        /// Dry bulk density, g/L.
        grams_per_litre: f64,
    },
    /// The handful holds more water than there is room for, fraction of volume.
    HoldsTooMuch {
        /// Water by volume.
        share: f64,
    },
    /// No medium climbs so.
    NoMedium,
}

/// A tube test that is refused: which of its numbers, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Refusal {
    /// The number.
    pub field: Field,
    /// Why.
    pub why: Why,
}

impl fmt::Display for Refusal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&words::refusal(self.why))
    }
}

impl std::error::Error for Refusal {}

/// What is to be borne in mind about a test that is not refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remark {
    /// The rise had come to its end: the conductivity found is a least one, and how far above it lies is
    /// only what grains of that pore size usually do.
    CameToItsEnd,
    /// The damp line may have run ahead within the grains, so that it tells little.
    DampWithinGrains,
    /// Few of the media tried climb so: the limits are rough.
    FewClimbSo,
}

impl fmt::Display for Remark {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(words::remark(*self))
    }
}

/// A medium that climbs so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// Its curve of drying, which a bed that was flooded and drains follows, and its conductivity.
    pub drying: Medium,
    /// α of wetting over α of drying.
    pub ratio: f64,
}

impl Draw {
    /// Its curve of wetting, which the test shows.
    #[must_use]
    pub fn wetting(&self) -> Medium {
        self.drying.wetting(self.ratio)
    }
}

/// What a tube test tells.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The suction at which a tenth of the pores between the grains are empty, on wetting: about the
    /// height that is kept nearly wet.
    pub wetting_air_entry: Range<Suction>,
    /// The same on drying.
    pub drying_air_entry: Range<Suction>,
    /// n of the pores between the grains: the more alike in size, the larger.
    pub shape: Range<f64>,
    /// Conductivity with the pores between the grains full.
    pub conductivity: Range<Conductivity>,
    /// Pore space that water enters, fraction of volume.
    pub pore_space: Range<f64>,
    /// What the handful held, fraction of volume.
    pub held: Range<f64>,
    /// Dry bulk density.
    pub dry_density: Range<Density>,
    /// The medium of the middle of each figure.
    pub best: Draw,
    /// Media that climb so, all as likely; what is in doubt goes together in them.
    pub draws: Vec<Draw>,
    /// What is to be borne in mind.
    pub remarks: Vec<Remark>,
}

impl Found {
    /// Whether only a least conductivity follows, because the rise had come to its end.
    #[must_use]
    pub fn conductivity_is_a_least_one(&self) -> bool {
        self.remarks.contains(&Remark::CameToItsEnd)
    }
}

/// A test as numbers, in cm, s and g/mL.
#[derive(Clone, Copy)]
struct Read {
    depth_cm: f64,
    time_s: f64,
    nearly_wet_cm: f64,
    damp_cm: f64,
    reading_cm: f64,
    /// Water of the handful for each of its dry weight, and its standard error.
    held_by_weight: f64,
    held_error: f64,
    /// Dry bulk density and the share it may be off.
    density: f64,
    density_off: f64,
    grains: Grains,
}

impl TubeTest {
    /// What the test tells, as so many draws of a seed (a few hundred for limits that hold still).
    ///
    /// Range: media of n from 1.5 up, that begin to empty between 2 mm and 2 m of suction. Of a sand, limits
    /// move by a fortieth of their width from one seed to the next, the highest air entry by a sixth.
    ///
    /// # Errors
    /// [`Refusal`] where the readings cannot be.
    pub fn found(&self, draws: usize, seed: u64) -> Result<Found, Refusal> {
        fit::found(&self.read()?, fit::Tries::WHOLE, draws, seed)
    }

    /// The same from fewer media tried, in a sixth of the time: limits move by a tenth of their width from one
    /// seed to the next, the highest air entry by two fifths.
    ///
    /// # Errors
    /// [`Refusal`] where the readings cannot be.
    pub fn found_at_first(&self, draws: usize, seed: u64) -> Result<Found, Refusal> {
        fit::found(&self.read()?, fit::Tries::FIRST, draws, seed)
    }

    fn read(&self) -> Result<Read, Refusal> {
        /// A filling of a measure lies so much denser or looser than the tube (common practice, no
        /// source), as a share.
        const FILLING: f64 = 0.03;
        const MINUTES: std::ops::RangeInclusive<f64> = 10.0..=1440.0;
        const TUBE_CM: std::ops::RangeInclusive<f64> = 10.0..=200.0;
        const DEEPEST_SHARE: f64 = 0.25;
        const COARSEST_SHARE: f64 = 1.0 / 3.0;
        /// A rise within so many errors of reading may be none.
        const SEEN: f64 = 2.0;
        let refuse = |field, why| Refusal { field, why };
        let sizes = [
            (Field::Tube, above_nought(self.tube)),
            (Field::Depth, above_nought(self.depth)),
            (Field::Time, above_nought(self.time)),
            (Field::Reading, above_nought(self.reading)),
            (Field::HandfulWet, above_nought(self.handful_wet)),
            (Field::HandfulDry, above_nought(self.handful_dry)),
            (Field::Volume, above_nought(self.volume)),
            (Field::VolumeDry, above_nought(self.volume_dry)),
            (Field::ScaleStep, above_nought(self.scale_step)),
        ];
        if let Some((field, _)) = sizes.into_iter().find(|(_, right)| !right) {
            return Err(refuse(field, Why::NotAboveNought));
        }
        for (field, height) in [
            (Field::NearlyWet, self.nearly_wet),
            (Field::Damp, self.damp),
        ] {
            let height_m = height.to_base();
            if !(height_m >= 0.0 && height_m.is_finite()) {
                return Err(refuse(field, Why::BelowNought));
            }
        }
        let tube_cm = self.tube.in_centimetres();
        let depth_cm = self.depth.in_centimetres();
        let nearly_wet_cm = self.nearly_wet.in_centimetres();
        let damp_cm = self.damp.in_centimetres();
        let reading_cm = self.reading.in_centimetres();
        let step_g = self.scale_step.in_grams();
        let (wet_g, dry_g) = (self.handful_wet.in_grams(), self.handful_dry.in_grams());
        let density = self.volume_dry.in_grams() / self.volume.in_millilitres();
        let held_by_weight = (wet_g - dry_g).max(0.0) / dry_g;
        let why = if !TUBE_CM.contains(&tube_cm) {
            Some((Field::Tube, Why::TubeOutOfReach))
        } else if depth_cm > DEEPEST_SHARE * tube_cm {
            Some((Field::Depth, Why::TooDeep))
        } else if !MINUTES.contains(&self.time.in_minutes()) {
            Some((Field::Time, Why::TimeOutOfReach))
        } else if nearly_wet_cm > damp_cm {
            Some((Field::NearlyWet, Why::WetAboveDamp))
        } else if damp_cm + depth_cm + reading_cm > tube_cm {
            Some((Field::Damp, Why::DampToTheTop))
        } else if damp_cm <= SEEN * reading_cm && nearly_wet_cm <= reading_cm {
            Some((Field::Damp, Why::DidNotRise))
        } else if reading_cm > COARSEST_SHARE * damp_cm {
            Some((Field::Reading, Why::ReadingTooCoarse))
        } else if wet_g + step_g < dry_g {
            Some((Field::HandfulWet, Why::WetLessThanDry))
        } else {
            beyond_the_grains(density, held_by_weight * density, self.grains)
        };
        if let Some((field, why)) = why {
            return Err(refuse(field, why));
        }
        // A reading to a step is even within it: its standard deviation is the step over √12.
        let weighing_g = step_g / 12f64.sqrt();
        Ok(Read {
            depth_cm,
            time_s: self.time.in_seconds(),
            nearly_wet_cm,
            damp_cm,
            reading_cm,
            held_by_weight,
            held_error: weighing_g * 2f64.sqrt() / dry_g,
            density,
            density_off: FILLING.hypot(weighing_g / self.volume_dry.in_grams()),
            grains: self.grains,
        })
    }
}

fn above_nought<Q: Quantity>(quantity: Q) -> bool {
    quantity.to_base() > 0.0 && quantity.to_base().is_finite()
}

/// What is more than grains can weigh or hold, if anything; both in g/mL.
fn beyond_the_grains(density: f64, held: f64, grains: Grains) -> Option<(Field, Why)> {
    /// No loose heap of porous grains is denser, g/mL (common practice, no source).
    const DENSEST_POROUS: f64 = 1.3;
    /// No heap of grains leaves less room than this (common practice, no source).
    const LEAST_PORES: f64 = 0.2;
    /// What errors of weighing and filling may add to the water.
    const SLACK: f64 = 0.1;
    const MOST_POROUS: f64 = 0.95;
    let (densest, most_held) = match grains {
        Grains::Solid { density: grain } => {
            let grain = grain.best().in_grams_per_litre() / 1000.0;
            if !(grain > 0.0 && grain.is_finite()) {
                return Some((Field::Grains, Why::NotAboveNought));
            }
            (grain * (1.0 - LEAST_PORES), 1.0 - density / grain + SLACK)
        }
        Grains::Porous => (DENSEST_POROUS, MOST_POROUS),
    };
    if density > densest {
        let grams_per_litre = density * 1000.0;
        Some((Field::VolumeDry, Why::TooDense { grams_per_litre }))
    } else if held > most_held {
        Some((Field::HandfulWet, Why::HoldsTooMuch { share: held }))
    } else {
        None
    }
}
