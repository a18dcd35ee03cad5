//! The question of Season, read and checked.

use std::cell::OnceCell;
use std::rc::Rc;

use super::calendar::Skies;
use super::own::Own;
use super::plan::Plan;
use crate::handbook::climates::Climate;
use crate::handbook::crops::ageing::Keeping;
use crate::handbook::crops::between::Between;
use crate::handbook::crops::{Crop, Property};
use crate::handbook::pots::Pot;
use crate::measure::{AreaLoad, Density, Length, Mass, Volume};
use crate::nursery::Day;

/// How warm a place is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Warmth {
    /// Held at so many °C, or warmer where the house around it is.
    Held(f64),
    /// As warm as a house in that weather.
    House,
}

/// Where plants stand.
#[derive(Clone, Debug)]
pub struct Stand {
    /// What it is called.
    pub name: String,
    /// How warm it is.
    pub warmth: Warmth,
    /// How much warmer the house is than outside by night, and by day, K.
    pub warmer_k: [f64; 2],
    /// Light of lamps, mol/m² in a day.
    pub lamps_mol_per_m2: f64,
    /// Length.
    pub length: Length,
    /// Breadth.
    pub breadth: Length,
    /// What it may carry.
    pub carries: Option<AreaLoad>,
    /// How deep a bed is laid on it.
    pub bed: Option<Length>,
}

impl Stand {
    /// Its area, m².
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        (self.length * self.breadth).in_square_metres()
    }
}

/// What is known of the share that comes up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Germination {
    /// What is usual, or on the packet.
    Said(f64),
    /// So many of so many came up in a test.
    Tested {
        /// Up.
        up: u32,
        /// Of.
        of: u32,
    },
    /// Nothing: what the handbook has.
    Usual,
}

/// What the day of a sowing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// The day on which plants are to be ready.
    Ready(Day),
    /// The day of sowing.
    Sown(Day),
}

/// How a crop is grown: which crop, where it comes up and where it stands in its pots.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Way {
    /// The crop, by its place among [`Case::crops`].
    pub crop: usize,
    /// Where it comes up.
    pub first: usize,
    /// Where it stands in pots.
    pub then: usize,
}

/// The pot that plants stand in, and how far apart.
#[derive(Clone, Copy, Debug)]
pub struct Potting {
    /// The pot.
    pub pot: &'static Pot,
    /// From middle to middle.
    pub spacing: Length,
}

/// Something to be raised.
#[derive(Clone, Debug)]
pub struct Sowing {
    /// The crop.
    pub crop: &'static Crop,
    /// How it is grown.
    pub way: Way,
    /// Plants or pots wanted, each time.
    pub wanted: u32,
    /// Its day.
    pub by: By,
    /// How often.
    pub times: u32,
    /// Days from one to the next.
    pub every_days: i32,
    /// Share that comes up.
    pub germination: Germination,
    /// How old its seed is, years, and how it was kept.
    pub aged: Option<(f64, &'static Keeping)>,
    /// Share lost afterwards; none for what is usual.
    pub lost: Option<f64>,
    /// Seeds in a cell.
    pub in_cell: u32,
    /// Its pot.
    pub potting: Potting,
    /// Days that pots stand rim to rim at first.
    pub touching_days: f64,
    /// Days that it stands once it is ready.
    pub stands_days: f64,
    /// Seeds in a packet.
    pub packet: u32,
    /// Price of a packet.
    pub packet_price: Option<f64>,
    /// Seeds in hand.
    pub in_hand: u32,
    /// Price of a pot.
    pub pot_price: Option<f64>,
    /// Pots in hand.
    pub pots_in_hand: u32,
}

/// What is known of a sowing, in days after it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct KnownDays {
    /// It was up.
    pub up: Option<f64>,
    /// It was potted.
    pub potted: Option<f64>,
    /// It was ready for its next place or for sale.
    pub ready: Option<f64>,
    /// It was cut or picked for the first time.
    pub picked: Option<f64>,
}

/// The weather that a batch has had.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Had {
    /// How much warmer nights and days were than they usually are, K.
    pub strayed_k: [f64; 2],
    /// From this day on it is weather to come.
    pub until: Day,
}

/// Something that is sown already.
#[derive(Clone, Debug)]
pub struct Batch {
    /// The crop.
    pub crop: &'static Crop,
    /// How it is grown.
    pub way: Way,
    /// Cells or pots sown.
    pub number: u32,
    /// The day of sowing.
    pub sown: Day,
    /// The days on which it was up, was potted and was ready, as far as they are known.
    pub known: [Option<Day>; 3],
    /// The day of its first cut or pick.
    pub picked: Option<Day>,
    /// The day that the last of it was gone, or is to go.
    pub gone: Option<Day>,
    /// How many came up.
    pub came_up: Option<u32>,
    /// How many of these were lost.
    pub lost: Option<u32>,
    /// The days on which it was meant to be sown and to be ready.
    pub meant: [Option<Day>; 2],
    /// How much warmer its nights and its days were than they usually are there, K; none where nobody knows.
    pub strayed_k: Option<[f64; 2]>,
    /// Its pot.
    pub potting: Potting,
}

impl Batch {
    /// Plants of it that stand, or will.
    #[must_use]
    pub fn stands(&self) -> u32 {
        self.came_up
            .unwrap_or(self.number)
            .saturating_sub(self.lost.unwrap_or(0))
    }

    /// The days after sowing that are known of it.
    #[must_use]
    pub fn known_days(&self) -> KnownDays {
        let after = |day: Option<Day>| Some(f64::from(day?.number() - self.sown.number()));
        let [up, potted, ready] = self.known.map(after);
        KnownDays {
            up,
            potted,
            ready,
            picked: after(self.picked),
        }
    }
}

/// Hands.
#[derive(Clone, Copy, Debug)]
pub struct Hands {
    /// Hours of a week.
    pub hours: f64,
    /// Minutes for one cell or pot sown.
    pub sowing_min: f64,
    /// Minutes for one potted.
    pub potting_min: f64,
}

/// The mix.
#[derive(Clone, Debug)]
pub struct Mix {
    /// How it is bought, ready.
    pub stuff: Stuff,
    /// What a litre of it weighs in a watered pot.
    pub wet: Density,
    /// Cells of a tray.
    pub cells: u32,
    /// Trays in hand.
    pub trays: u32,
    /// Price of a tray.
    pub tray_price: Option<f64>,
    /// What it is made of; empty where it is bought ready.
    pub parts: Vec<Part>,
}

impl Mix {
    /// What a pot of it weighs, watered; the pot itself is next to nothing.
    #[must_use]
    pub fn weight_of(&self, pot: &Pot) -> Mass {
        self.wet * pot.filled()
    }
}

/// A part of the mix.
#[derive(Clone, Debug)]
pub struct Part {
    /// What it is called.
    pub name: String,
    /// Share of all parts, loose.
    pub share: f64,
    /// How it is bought.
    pub stuff: Stuff,
}

/// How something loose is bought.
#[derive(Clone, Copy, Debug)]
pub struct Stuff {
    /// A bag.
    pub bag: Volume,
    /// Its price.
    pub price: Option<f64>,
    /// In hand.
    pub in_hand: Volume,
}

/// The question, read and checked.
#[derive(Clone, Debug)]
pub struct Case {
    /// How sure it is to be.
    pub certainty: f64,
    /// Climate of the place.
    pub climate: &'static Climate,
    /// Its weather from day to day.
    pub(super) skies: Rc<Skies>,
    /// The crops of it, each once.
    pub crops: Vec<&'static Crop>,
    /// How far one source lies from the next.
    pub between: Between,
    /// What is to be raised.
    pub sowings: Vec<Sowing>,
    /// What is sown already.
    pub batches: Vec<Batch>,
    /// What batches tell of each crop.
    pub own: Vec<Own>,
    /// Where it may stand.
    pub stands: Vec<Stand>,
    /// Hands.
    pub hands: Hands,
    /// The mix.
    pub mix: Mix,
    /// What beds are laid of.
    pub bed: Stuff,
    /// The plan at the best figures, once that was asked for.
    pub(super) plan: OnceCell<Rc<Plan>>,
}

impl Case {
    /// All ways in which something of it is grown: of the sowings, then of the batches.
    pub fn ways(&self) -> impl Iterator<Item = Way> {
        let sowings = self.sowings.iter().map(|sowing| sowing.way);
        sowings.chain(self.batches.iter().map(|batch| batch.way))
    }

    /// The last day of which something is known of a batch: earlier weeks are over.
    #[must_use]
    pub fn last_known(&self) -> Option<Day> {
        let of = |batch: &Batch| {
            let known = batch.known.into_iter().chain([batch.picked]).flatten();
            known.fold(batch.sown, Day::max)
        };
        self.batches.iter().map(of).max()
    }

    /// The weather that a batch has had, where that is known.
    #[must_use]
    pub fn had(&self, batch: &Batch) -> Option<Had> {
        Some(Had {
            strayed_k: batch.strayed_k?,
            until: self.last_known()?,
        })
    }

    /// What its batches tell of a crop.
    #[must_use]
    pub fn own_of(&self, way: Way) -> Option<&Own> {
        self.own.get(way.crop)
    }
}

impl Batch {
    /// Whether it was sown into its pots.
    #[must_use]
    pub fn sown_in_pots(&self) -> bool {
        sown_in_pots(self.crop)
    }
}

impl Sowing {
    /// Whether it is sown into its pots: of such a crop no sum to pricking out is known.
    #[must_use]
    pub fn sown_in_pots(&self) -> bool {
        sown_in_pots(self.crop)
    }
}

fn sown_in_pots(crop: &Crop) -> bool {
    crop.figure(Property::PrickOutSum).is_none()
}

/// Seeds in a cell or pot, where nothing is said: of herbs that are sown into their pots and cut, a clump; of all else
/// one. Common practice, no source.
#[must_use]
pub fn usual_in_cell(crop: &Crop) -> u32 {
    const CLUMP: u32 = 12;
    if sown_in_pots(crop) && crop.figure(Property::RegrowthSum).is_some() {
        CLUMP
    } else {
        1
    }
}
