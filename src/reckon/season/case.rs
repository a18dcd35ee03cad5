//! The question of Season, read and checked.

use std::cell::OnceCell;
use std::rc::Rc;

use super::calendar::Skies;
use super::plan::Plan;
use crate::handbook::climates::Climate;
use crate::handbook::crops::{Crop, Property};
use crate::handbook::pots::Pot;
use crate::measure::{Length, Volume};
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

/// Something to be raised.
#[derive(Clone, Debug)]
pub struct Sowing {
    /// The crop.
    pub crop: &'static Crop,
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
    /// Share lost afterwards.
    pub lost: f64,
    /// Seeds in a cell.
    pub in_cell: u32,
    /// The pot.
    pub pot: &'static Pot,
    /// From middle to middle.
    pub spacing: Length,
    /// Where it comes up.
    pub first: usize,
    /// Where it stands in pots.
    pub then: usize,
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
#[derive(Clone, Copy, Debug)]
pub struct Mix {
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
    /// What is to be raised.
    pub sowings: Vec<Sowing>,
    /// Where it may stand.
    pub stands: Vec<Stand>,
    /// Hands.
    pub hands: Hands,
    /// The mix.
    pub mix: Mix,
    /// The plan at the best figures, once that was asked for.
    pub(super) plan: OnceCell<Rc<Plan>>,
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
