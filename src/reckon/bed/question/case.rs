//! The question of Bed, read and checked.

use std::sync::Arc;

use crate::handbook::bed_media::BedMedium;
use crate::handbook::thirst::Habit;
use crate::measure::{Area, AreaLoad, Length, Range, Volume};
use crate::reckon::mix;
use crate::science::tube_test::Found;

/// How the tray is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fills {
    /// To the level once it is empty.
    WhenEmpty,
    /// Held at the level.
    Held,
    /// To the level once a day.
    Daily,
}

/// What the bed is laid of.
#[derive(Clone, Debug)]
pub struct Laid {
    /// Its row, of the handbook or made up for one's own.
    pub row: BedMedium,
    /// What a tube test found of its grains; they then count, and not the row's.
    pub found: Option<Arc<Found>>,
}

impl Laid {
    /// A medium by its row alone.
    #[must_use]
    pub fn by_row(row: BedMedium) -> Self {
        Self { row, found: None }
    }
}

/// Where the thirst of a plant comes from.
#[derive(Clone, Copy, Debug)]
pub enum Demand {
    /// Told for a mean summer day.
    Told(Volume),
    /// From the breadth of its leaves and the sun.
    OfLeaves {
        /// How it stands in the light.
        habit: &'static Habit,
        /// From side to side.
        breadth: Length,
    },
}

/// The day.
#[derive(Clone, Copy, Debug)]
pub struct Day {
    /// What it is called.
    pub name: &'static str,
    /// What a plant drinks on it as a multiple of a mean summer day.
    pub times: Range<f64>,
}

/// The question, read and checked.
#[derive(Clone, Debug)]
pub struct Case {
    /// The mix in its pot.
    pub mix: mix::Case,
    /// Pots in a tray.
    pub pots: f64,
    /// Trays in the bay.
    pub trays: f64,
    /// The part of the tray that falls to one pot.
    pub ground: Area,
    /// What the bench carries, where that is known.
    pub bench_limit: Option<AreaLoad>,
    /// Whether the whole base touches the bed.
    pub bedded: bool,
    /// What the bed is laid of.
    pub medium: Laid,
    /// Whether it covers the whole tray.
    pub whole_tray: bool,
    /// The bag it is bought in.
    pub bag: Volume,
    /// Price of a bag, where it is known.
    pub price: Option<f64>,
    /// Height of the tray's wall.
    pub wall: Length,
    /// How it is filled.
    pub fills: Fills,
    /// To what depth.
    pub level: Length,
    /// How much lower one end lies than the other.
    pub slope: Length,
    /// Where the thirst of a plant comes from.
    pub demand: Demand,
    /// The day.
    pub day: Day,
    /// How deep the roots reach from the top of the mix.
    pub rooted: Length,
    /// Whether roots have grown into the bed.
    pub roots_in_bed: bool,
    /// Whether the mix was last wetted from below.
    pub wetted_from_below: bool,
    /// The share of the base below which plugs of the mix run through the bed as wicks; nought unless what
    /// else could be done is looked for.
    pub plugs: f64,
    /// A second kind of pot in the tray: the same in all that belongs to the tray.
    pub beside: Option<Box<Self>>,
    /// The depths looked at; the first is nought, the pot straight in the water.
    pub depths: Vec<Length>,
}

impl Case {
    /// The same on another medium.
    #[must_use]
    pub fn on(&self, medium: BedMedium) -> Self {
        self.with(|case| case.medium = Laid::by_row(medium))
    }

    /// The same with a change that both kinds of pot undergo.
    #[must_use]
    pub fn with(&self, change: impl Fn(&mut Self)) -> Self {
        let mut changed = self.clone();
        change(&mut changed);
        if let Some(beside) = &mut changed.beside {
            change(beside);
        }
        changed
    }

    /// The same with another mix or pot for each kind; none where one of them cannot be.
    #[must_use]
    pub fn with_mixes(&self, altered: impl Fn(&Self) -> Option<mix::Case>) -> Option<Self> {
        let one = |kind: &Self| {
            let mix = altered(kind)?;
            Some(Self {
                // Roots reach as far in proportion.
                rooted: mix.fill * (kind.rooted / kind.mix.fill),
                mix,
                ..kind.clone()
            })
        };
        let beside = match &self.beside {
            Some(beside) => Some(Box::new(one(beside)?)),
            None => None,
        };
        Some(Self {
            beside,
            ..one(self)?
        })
    }

    /// The kinds of pot, the one asked about first.
    pub fn kinds(&self) -> impl Iterator<Item = &Self> {
        std::iter::once(self).chain(self.beside.as_deref())
    }
}
