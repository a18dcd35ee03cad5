//! The question of Bed as it is typed.
//!
//! * `case`: what it is read into.
//! * `read`: reading it.
//! * `tube`: a bed medium of one's own by a tube test.

mod case;
mod read;
mod tube;

pub use case::{Case, Demand, Fills, Laid};
pub use read::check;
pub use tube::{POROUS, SOLID, TubeAsked};

use crate::measure::{Area, Entry, Length, Volume};
use crate::reckon::form::Numbers;
use crate::reckon::mix::{self, BenchAsked, PartAsked};
use crate::reckon::pot::{self, PotAsked};

/// A mix in a pot, what the pot stands on and in, and what the plant drinks.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct Question {
    /// The parts of the mix, as in Mix.
    pub parts: Vec<PartAsked>,
    /// The pot.
    pub pot: PotAsked,
    /// Number of pots in one tray, a whole number from 1 to 100000.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub pots: Entry,
    /// How the pots are set out, and what the bench carries.
    pub bench: BenchAsked,
    /// How the base of the pot touches what it stands on: bedded or holes.
    pub contact: String,
    /// What the bed is laid of.
    pub bed: BedAsked,
    /// The tray and its filling.
    pub tray: TrayAsked,
    /// What the plant drinks.
    pub plant: PlantAsked,
    /// How the mix was last wetted in full: from above or below.
    pub wetted: String,
    /// A second kind of pot in the same tray.
    pub second: SecondAsked,
}

/// The bed.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct BedAsked {
    /// Key of a bed medium such as perlite_coarse, or own, or own_tube.
    pub medium: String,
    /// Median grain (own), such as "3 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub grain: Entry,
    /// How water climbs in it (own_tube).
    pub tube: TubeAsked,
    /// Where it lies: whole_tray or under_pots.
    pub extent: String,
    /// Size of the bag it is bought in, such as "100 L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub bag: Entry,
    /// Price of a bag in one's own money; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub price: Entry,
}

/// The tray.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct TrayAsked {
    /// Height of its wall, such as "60 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub wall: Entry,
    /// How it is filled: float (to the level, once it is empty), held (kept at the level) or by_hand
    /// (to the level, once a day).
    pub filling: String,
    /// Depth of the water when filled, such as "20 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub level: Entry,
    /// How much lower one end of it lies than the other, such as "0 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub slope: Entry,
    /// Its floor inside, such as "0.72 m2"; may be empty where the spacing of the pots says it.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub area: Entry,
    /// Number of such trays in the bay.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub number: Entry,
}

/// The plant.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct PlantAsked {
    /// Where its thirst comes from: litres, or leaves.
    pub by: String,
    /// What one plant drinks on a mean summer day (litres), such as "200 mL".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub drinks: Entry,
    /// How it stands in the light (leaves): herb, bush or tall.
    pub habit: String,
    /// Breadth of its leaves from side to side (leaves), such as "150 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub breadth: Entry,
    /// The day it is reckoned for: cool, mean, hot or own.
    pub weather: String,
    /// Sun outdoors on that day (own), MJ/m².
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub sun: Entry,
    /// How deep its roots reach from the top of the mix, such as "60 mm"; empty for all of it.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub rooted: Entry,
    /// Whether roots have grown into the bed: no or yes.
    pub roots_in_bed: String,
}

/// A second kind of pot in the same tray, of the same mix and set down the same way.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct SecondAsked {
    /// Whether there is one: no or yes.
    pub there: String,
    /// The pot.
    pub pot: PotAsked,
    /// Number of them in one tray.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub pots: Entry,
    /// From pot to pot among them, middles.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub spacing: Entry,
    /// What one plant in them drinks on a mean summer day (litres).
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub drinks: Entry,
    /// How the plant in them stands in the light (leaves): herb, bush or tall.
    pub habit: String,
    /// Breadth of its leaves (leaves).
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub breadth: Entry,
}

/// The base is pressed and twisted into the bed.
pub const BEDDED: &str = "bedded";
/// The base touches the bed through its holes alone.
pub const HOLES: &str = "holes";
/// The bed covers the whole tray.
pub const WHOLE_TRAY: &str = "whole_tray";
/// There is bed under the pots only, and open water between.
pub const UNDER_POTS: &str = "under_pots";
/// A float fills the tray once it is empty.
pub const FLOAT: &str = "float";
/// The level is held.
pub const HELD: &str = "held";
/// The tray is filled by hand, once a day.
pub const BY_HAND: &str = "by_hand";
/// What a plant drinks is told in litres.
pub const LITRES: &str = "litres";
/// What a plant drinks follows from its leaves and the sun.
pub const LEAVES: &str = "leaves";
/// The mix was last wetted from above.
pub const ABOVE: &str = "above";
/// The mix was last wetted from below.
pub const BELOW: &str = "below";
/// It is not so.
pub const NO: &str = "no";
/// It is so.
pub const YES: &str = "yes";
/// Where the paths of a second kind of pot begin.
pub const SECOND: &str = "second.";

impl Default for Question {
    /// A 10 cm pot of the usual mix in a tray of 60 mm filled to 20 mm by a float, on coarse perlite.
    fn default() -> Self {
        let of_mix = mix::Question::default();
        Self {
            parts: of_mix.parts,
            pot: of_mix.pot,
            pots: of_mix.pots,
            bench: BenchAsked {
                spacing: Entry::new("120", Length::MILLIMETRE.key),
                ..BenchAsked::default()
            },
            contact: BEDDED.to_owned(),
            bed: BedAsked::default(),
            tray: TrayAsked::default(),
            plant: PlantAsked::default(),
            wetted: ABOVE.to_owned(),
            second: SecondAsked::default(),
        }
    }
}

impl Default for BedAsked {
    fn default() -> Self {
        Self {
            medium: "perlite_coarse".to_owned(),
            grain: Entry::new("3", Length::MILLIMETRE.key),
            tube: TubeAsked::default(),
            extent: WHOLE_TRAY.to_owned(),
            bag: Entry::new("100", Volume::LITRE.key),
            price: Entry::default(),
        }
    }
}

impl Default for TrayAsked {
    fn default() -> Self {
        let millimetres = |text: &str| Entry::new(text, Length::MILLIMETRE.key);
        Self {
            wall: millimetres("60"),
            filling: FLOAT.to_owned(),
            level: millimetres("20"),
            slope: millimetres("0"),
            area: Entry::new("", Area::SQUARE_METRE.key),
            number: Entry::number(1.0),
        }
    }
}

impl Default for PlantAsked {
    fn default() -> Self {
        Self {
            by: LITRES.to_owned(),
            drinks: Entry::new("200", Volume::MILLILITRE.key),
            habit: "herb".to_owned(),
            breadth: Entry::new("150", Length::MILLIMETRE.key),
            weather: "mean".to_owned(),
            sun: Entry::number(16.0),
            rooted: Entry::new("", Length::MILLIMETRE.key),
            roots_in_bed: NO.to_owned(),
        }
    }
}

impl Default for SecondAsked {
    /// None; were there one, a pot of 8.5 L with a bush in it.
    fn default() -> Self {
        Self {
            there: NO.to_owned(),
            pot: PotAsked {
                size: "round_8_5_l".to_owned(),
                ..PotAsked::default()
            },
            pots: Entry::number(2.0),
            spacing: Entry::new("350", Length::MILLIMETRE.key),
            drinks: Entry::new("1000", Volume::MILLILITRE.key),
            habit: "bush".to_owned(),
            breadth: Entry::new("400", Length::MILLIMETRE.key),
        }
    }
}

impl SecondAsked {
    /// Its numbers, each by the end of its path.
    pub fn numbers(&mut self) -> Numbers<'_> {
        let mut numbers = self.pot.numbers();
        numbers.extend([
            ("pots", &mut self.pots),
            ("spacing", &mut self.spacing),
            ("drinks", &mut self.drinks),
            ("breadth", &mut self.breadth),
        ]);
        numbers
    }

    /// Its choices, each by the end of its path.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 3] {
        [
            ("there", &mut self.there),
            (pot::SIZE, &mut self.pot.size),
            ("habit", &mut self.habit),
        ]
    }
}

impl Question {
    /// Every number that is not one of a part or of the second kind of pot, by its path.
    pub fn numbers(&mut self) -> Numbers<'_> {
        let mut numbers = self.pot.numbers();
        numbers.extend([
            ("pots", &mut self.pots),
            ("bench.spacing", &mut self.bench.spacing),
            ("bench.limit", &mut self.bench.limit),
            ("bed.grain", &mut self.bed.grain),
            ("bed.bag", &mut self.bed.bag),
            ("bed.price", &mut self.bed.price),
            ("tray.wall", &mut self.tray.wall),
            ("tray.level", &mut self.tray.level),
            ("tray.slope", &mut self.tray.slope),
            ("tray.area", &mut self.tray.area),
            ("tray.number", &mut self.tray.number),
            ("plant.drinks", &mut self.plant.drinks),
            ("plant.breadth", &mut self.plant.breadth),
            ("plant.sun", &mut self.plant.sun),
            ("plant.rooted", &mut self.plant.rooted),
        ]);
        numbers.extend(self.bed.tube.numbers());
        numbers
    }

    /// Every choice that is not one of a part or of the second kind of pot, by its path.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 12] {
        [
            (pot::SIZE, &mut self.pot.size),
            ("bench.set_out", &mut self.bench.set_out),
            ("contact", &mut self.contact),
            ("bed.medium", &mut self.bed.medium),
            ("bed.extent", &mut self.bed.extent),
            ("tray.filling", &mut self.tray.filling),
            ("bed.tube.grains", &mut self.bed.tube.grains),
            ("plant.by", &mut self.plant.by),
            ("plant.habit", &mut self.plant.habit),
            ("plant.weather", &mut self.plant.weather),
            ("plant.roots_in_bed", &mut self.plant.roots_in_bed),
            ("wetted", &mut self.wetted),
        ]
    }
}
