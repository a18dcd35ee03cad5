//! Floor 2: published figures as data, each with its source.
//!
//! A figure is a low, a best and a high: low and high are the 1-in-10 and
//! 9-in-10 limits. Handbook spreads are read so. Where a figure is only a
//! judgement or comes from memory, its source says so.
//!
//! * [`sources`]: the bibliography.
//! * [`bed_media`]: what a capillary bed is laid of.
//! * [`materials`]: what potting mixes are made of.
//! * [`measuring`]: how far kitchen measurements are off.
//! * [`chemistry`]: salt, acidity and nitrogen of what mixes are made of.
//! * [`pots`]: usual sizes.
//! * [`thresholds`]: how much air and water serves which use.
//! * [`filling`]: what is lost and pressed between the bag and the pot.
//! * [`rinsing`]: what is rinsed of its salt, and how little must be left.
//! * [`heat`]: grounds, covers, insulation, bench heat and roots.
//! * [`safety`]: lifting, dust and hygiene.
//! * [`surface_salt`]: salt at the top of pots that drink from below.
//! * [`thirst`]: what plants drink.
//! * [`crops`]: what each crop needs of warmth, water, room and seed.
//! * [`climates`]: the months of some places.
//! * [`nights`]: how nights behave about their season.
//! * [`moving`]: what moving a plant too early or too late takes off its worth.

pub mod bed_media;
pub mod chemistry;
pub mod climates;
pub mod crops;
pub mod filling;
pub mod heat;
pub mod materials;
pub mod measuring;
pub mod moving;
pub mod nights;
pub mod pots;
pub mod rinsing;
pub mod safety;
pub mod sources;
pub mod surface_salt;
pub mod thirst;
pub mod thresholds;

use crate::measure::Range;
use sources::{Source, Standing};

/// A published figure: its range, in the unit that its field names, and its source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// Low, best and high.
    pub range: Range<f64>,
    /// Where it comes from.
    pub source: &'static Source,
}

impl Figure {
    /// Whether it is what a class of material is commonly taken to be, and not read off a
    /// published measurement: your own heap may well lie elsewhere.
    #[must_use]
    pub fn is_of_a_class(&self) -> bool {
        self.source.standing != Standing::Published
    }
}

/// A figure for a constant table; a disordered range does not compile.
#[must_use]
pub const fn figure(low: f64, best: f64, high: f64, source: &'static Source) -> Figure {
    Figure {
        range: Range::literal(low, best, high),
        source,
    }
}
