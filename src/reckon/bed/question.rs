//! The question of Bed as it is typed, and the case it is read into.

use super::physics;
use super::words;
use crate::handbook::bed_media::{
    BED_MEDIA, BedMedium, OWN, WEATHER, Weather, bed_medium, of_grain,
};
use crate::handbook::sources::COMMON_PRACTICE;
use crate::handbook::{figure, thresholds};
use crate::measure::{Area, AreaLoad, DecimalMark, Entry, Length, Limits, Number, Volume};
use crate::reckon::form::Numbers;
use crate::reckon::mix::{self, BenchAsked, Mix, PartAsked};
use crate::reckon::pot::{self, PotAsked};
use crate::reckon::reader::Reader;
use crate::reckon::{Problem, Reckoning, materials, words as of_all};

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
}

/// The bed.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct BedAsked {
    /// Key of a bed medium such as perlite_coarse, or own.
    pub medium: String,
    /// Median grain (own), such as "3 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub grain: Entry,
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
}

/// The plant.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct PlantAsked {
    /// What one plant drinks on a mean summer day, such as "200 mL".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub drinks: Entry,
    /// The day it is reckoned for: cool, mean or hot.
    pub weather: String,
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
        }
    }
}

impl Default for BedAsked {
    fn default() -> Self {
        Self {
            medium: "perlite_coarse".to_owned(),
            grain: Entry::new("3", Length::MILLIMETRE.key),
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
        }
    }
}

impl Default for PlantAsked {
    fn default() -> Self {
        Self {
            drinks: Entry::new("200", Volume::MILLILITRE.key),
            weather: "mean".to_owned(),
        }
    }
}

impl Question {
    /// Every number that is not one of a part, by its path.
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
            ("plant.drinks", &mut self.plant.drinks),
        ]);
        numbers
    }

    /// Every choice that is not one of a part, by its path.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 7] {
        [
            (pot::SIZE, &mut self.pot.size),
            ("bench.set_out", &mut self.bench.set_out),
            ("contact", &mut self.contact),
            ("bed.medium", &mut self.bed.medium),
            ("bed.extent", &mut self.bed.extent),
            ("tray.filling", &mut self.tray.filling),
            ("plant.weather", &mut self.plant.weather),
        ]
    }
}

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

/// The question, read and checked.
#[derive(Clone, Debug)]
pub struct Case {
    /// The mix in its pot.
    pub mix: mix::Case,
    /// Pots in a tray.
    pub pots: f64,
    /// The part of the tray that falls to one pot.
    pub ground: Area,
    /// What the bench carries, where that is known.
    pub bench_limit: Option<AreaLoad>,
    /// Whether the whole base touches the bed.
    pub bedded: bool,
    /// What the bed is laid of.
    pub medium: BedMedium,
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
    /// What a plant drinks on a mean summer day.
    pub drinks: Volume,
    /// The day.
    pub weather: &'static Weather,
    /// The depths looked at; the first is nought, the pot straight in the water.
    pub depths: Vec<Length>,
}

const GRAIN: Limits<Length> = Limits::millimetres("Grain of the bed", 0.1, 20.0);
const WALL: Limits<Length> = Limits::millimetres("Wall of the tray", 10.0, 300.0);
const LEVEL: Limits<Length> = Limits::millimetres("Depth of water in the tray", 2.0, 200.0);
const SLOPE: Limits<Length> = Limits::millimetres("Slope of the tray", 0.0, 100.0);
const DRINKS: Limits<Volume> = Limits::litres("What a plant drinks in a day", 0.005, 20.0);
const PRICE: Limits<Number> = Limits::number("Price of a bag", 0.0, 1e6);

/// Depths are looked at so far apart, and no deeper than this under pots on heaps of their own.
const APART: Length = Length::from_millimetres(5.0);
/// A bed deeper than this is looked at no more.
const DEEPEST: Length = Length::from_millimetres(150.0);

/// Reads a question; every problem found comes back, each at its field.
pub fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
    let mut reader = Reader::new(mark);
    let of_mix = mix::Question {
        parts: question.parts.clone(),
        pot: question.pot.clone(),
        pots: question.pots.clone(),
        bench: question.bench.clone(),
        ..mix::Question::default()
    };
    let mixed = match Mix::check(&of_mix, mark) {
        Ok(case) => Some(case),
        Err(problems) => {
            reader.problems.extend(problems);
            None
        }
    };
    if question.bench.spacing.is_empty() {
        reader.say("bench.spacing", words::spacing_wanted());
    }
    let contact = choose(
        &mut reader,
        "contact",
        words::A_CONTACT,
        &question.contact,
        &[BEDDED, HOLES],
    );
    let medium = medium(&question.bed, &mut reader);
    let extent = choose(
        &mut reader,
        "bed.extent",
        words::AN_EXTENT,
        &question.bed.extent,
        &[WHOLE_TRAY, UNDER_POTS],
    );
    let bag = reader.read("bed.bag", &question.bed.bag, &materials::BAG);
    let price = reader.read_if_typed("bed.price", &question.bed.price, &PRICE);
    let wall = reader.read("tray.wall", &question.tray.wall, &WALL);
    let filling = choose(
        &mut reader,
        "tray.filling",
        words::A_FILLING,
        &question.tray.filling,
        &[FLOAT, HELD, BY_HAND],
    );
    let level = reader.read("tray.level", &question.tray.level, &LEVEL);
    let slope = reader.read("tray.slope", &question.tray.slope, &SLOPE);
    let drinks = reader.read("plant.drinks", &question.plant.drinks, &DRINKS);
    let weather = reader.choose(
        "plant.weather",
        words::A_WEATHER,
        &question.plant.weather,
        WEATHER,
        |row| row.key,
    );
    if let (Some(wall), Some(level)) = (wall, level)
        && level > wall
    {
        reader.say("tray.level", words::over_the_wall(wall));
    }
    if let (Some(mix), Some(level)) = (&mixed, level)
        && level >= mix.fill
    {
        reader.say("tray.level", words::over_the_pot(mix.fill));
    }
    if let (Some(slope), Some(level)) = (slope, level)
        && slope >= level
    {
        reader.say("tray.slope", words::too_steep(level));
    }
    let case = (|| {
        let mix = mixed?;
        let bench = mix.bench?;
        let (wall, extent) = (wall?, extent?);
        let deepest = if extent == 0 { wall } else { DEEPEST };
        Some(Case {
            pots: mix.pots,
            ground: Area::from_square_metres(1.0 / bench.pots.in_per_square_metre()),
            bench_limit: bench.limit,
            bedded: contact? == 0,
            medium: medium?,
            whole_tray: extent == 0,
            bag: bag?,
            price: price.map(Number::in_count),
            wall,
            fills: [Fills::WhenEmpty, Fills::Held, Fills::Daily]
                .get(filling?)
                .copied()?,
            level: level?,
            slope: slope?,
            drinks: drinks?,
            weather: weather?,
            depths: depths_to(if deepest < DEEPEST { deepest } else { DEEPEST }),
            mix: mix::Case {
                limits: thresholds::limits("fed_from_below")?,
                ..mix
            },
        })
    })();
    match case {
        Some(case) if reader.problems.is_empty() => {
            physics::answerable(&case).map_err(|problem| vec![problem])?;
            Ok(case)
        }
        _ => Err(reader.problems),
    }
}

fn depths_to(deepest: Length) -> Vec<Length> {
    let many = (deepest / APART + 1e-9).floor() as usize;
    (0..=many).map(|step| APART * step as f64).collect()
}

/// The place of what was chosen among keys.
fn choose(
    reader: &mut Reader,
    path: &str,
    what: &str,
    chosen: &str,
    keys: &[&'static str],
) -> Option<usize> {
    let place = keys.iter().position(|key| *key == chosen);
    reader.found(path, place, || {
        of_all::not_in_list(what, chosen, keys.iter().copied())
    })
}

fn medium(asked: &BedAsked, reader: &mut Reader) -> Option<BedMedium> {
    if asked.medium == OWN {
        /// The median of one's own grains as told is good to so much either way, as a factor.
        const AS_TOLD: f64 = 1.25;
        let grain = reader
            .read("bed.grain", &asked.grain, &GRAIN)?
            .in_millimetres();
        return Some(of_grain(figure(
            grain / AS_TOLD,
            grain,
            grain * AS_TOLD,
            &COMMON_PRACTICE,
        )));
    }
    reader
        .found("bed.medium", bed_medium(&asked.medium), || {
            let known = BED_MEDIA.iter().map(|row| row.key);
            of_all::not_in_list(words::A_MEDIUM, &asked.medium, known.chain([OWN]))
        })
        .copied()
}
