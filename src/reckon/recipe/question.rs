//! The question of Recipe as it is typed, and the case it is read into.

use super::blends::MOST_MATERIALS;
use super::judge::Places;
use super::words;
use crate::handbook::materials::Material;
use crate::measure::{
    DecimalMark, Entry, Fraction, Length, Limits, Mass, Number, Quantity, Volume,
};
use crate::reckon::form::Numbers;
use crate::reckon::mix::{self, Mix};
use crate::reckon::pot::{self, OWN_VOLUME, PotAsked};
use crate::reckon::reader::Reader;
use crate::reckon::words::not_in_list;
use crate::reckon::{Problem, Reckoning, materials};

/// What there is, where it is to go, and what it must do there.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct Question {
    /// The materials to choose from, one to five.
    pub materials: Vec<MaterialAsked>,
    /// The pot, as in Mix; its size may be by_depth too.
    pub pot: PotAsked,
    /// Depth of the mix (by_depth), such as "18 cm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub depth: Entry,
    /// What the pots are for, as in Mix.
    pub purpose: String,
    /// Mix needed, loose, such as "100 L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub litres: Entry,
    /// What it must do.
    pub targets: TargetsAsked,
    /// What to make the least or the most of: price, weight, air or easy_water.
    pub aim: String,
    /// How sure the targets must be met: best_figure or nine_in_ten.
    pub certainty: String,
}

/// One material to choose from.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct MaterialAsked {
    /// Key of a handbook material, such as composted_bark.
    pub material: String,
    /// Price of a bag in one's own money; empty where none can be bought.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub price: Entry,
    /// Size of the bag, such as "70 L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub bag: Entry,
    /// What is in hand, loose, and costs nothing; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub in_hand: Entry,
}

/// The targets; each may be empty.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct TargetsAsked {
    /// Air at least, such as "20 %", as Mix judges it.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub air: Entry,
    /// Water of the drained pot at least, such as "45 %".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub water: Entry,
    /// Weight of the wet mix in one pot at most; by depth, of one litre.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub weight: Entry,
    /// Price of all of it at most, in one's own money.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub price: Entry,
}

/// A pot of which only the depth of the mix is known.
pub const BY_DEPTH: &str = "by_depth";
/// Targets met by the best figure.
pub const BEST_FIGURE: &str = "best_figure";
/// Targets met in nine of ten draws.
pub const NINE_IN_TEN: &str = "nine_in_ten";

impl Default for MaterialAsked {
    fn default() -> Self {
        Self {
            material: String::new(),
            price: Entry::default(),
            bag: Entry::new("70", Volume::LITRE.key),
            in_hand: Entry::new("", Volume::LITRE.key),
        }
    }
}

impl Default for TargetsAsked {
    fn default() -> Self {
        Self {
            air: Entry::new("20", Fraction::PERCENT.key),
            water: Entry::new("", Fraction::PERCENT.key),
            weight: Entry::new("", Mass::KILOGRAM.key),
            price: Entry::default(),
        }
    }
}

impl Default for Question {
    /// The cheapest mix with 20 % of air at 18 cm of depth, from what is in hand and to be bought.
    fn default() -> Self {
        let of = |material: &str, price: f64, bag: &str, in_hand: &str| MaterialAsked {
            material: material.to_owned(),
            price: Entry::number(price),
            bag: Entry::new(bag, Volume::LITRE.key),
            in_hand: Entry::new(in_hand, Volume::LITRE.key),
        };
        Self {
            materials: vec![
                of("coir_pith", 14.0, "70", "40"),
                of("composted_bark", 9.0, "60", ""),
                of("perlite_coarse", 22.0, "100", "30"),
                of("grit", 5.0, "20", "20"),
            ],
            pot: PotAsked {
                size: BY_DEPTH.to_owned(),
                ..PotAsked::default()
            },
            depth: Entry::new("18", Length::CENTIMETRE.key),
            purpose: "growing_on".to_owned(),
            litres: Entry::new("100", Volume::LITRE.key),
            targets: TargetsAsked::default(),
            aim: Aim::Price.key().to_owned(),
            certainty: NINE_IN_TEN.to_owned(),
        }
    }
}

impl Question {
    /// Every number that is not one of a material, by its path.
    pub fn numbers(&mut self) -> Numbers<'_> {
        let targets = &mut self.targets;
        let mut numbers = self.pot.numbers();
        numbers.extend([
            ("depth", &mut self.depth),
            ("litres", &mut self.litres),
            ("targets.air", &mut targets.air),
            ("targets.water", &mut targets.water),
            ("targets.weight", &mut targets.weight),
            ("targets.price", &mut targets.price),
        ]);
        numbers
    }

    /// Every choice that is not one of a material, by its path.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 4] {
        [
            (pot::SIZE, &mut self.pot.size),
            ("purpose", &mut self.purpose),
            ("aim", &mut self.aim),
            ("certainty", &mut self.certainty),
        ]
    }
}

impl MaterialAsked {
    /// Its numbers, by their paths after `materials.0.`.
    pub fn numbers(&mut self) -> [(&'static str, &mut Entry); 3] {
        [
            ("price", &mut self.price),
            ("bag", &mut self.bag),
            ("in_hand", &mut self.in_hand),
        ]
    }
}

/// What to make the least or the most of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// The least price.
    Price,
    /// The least weight.
    Weight,
    /// The most air.
    Air,
    /// The most easily available water.
    EasyWater,
}

impl Aim {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Price, Self::Weight, Self::Air, Self::EasyWater];

    /// Stable name in files and addresses.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Price => "price",
            Self::Weight => "weight",
            Self::Air => "air",
            Self::EasyWater => "easy_water",
        }
    }
}

/// A target.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Target {
    /// Air at least.
    Air,
    /// Water at least.
    Water,
    /// Weight at most.
    Weight,
    /// Price at most.
    Price,
}

impl Target {
    /// All of them, in the order in which they are kept.
    pub const ALL: [Self; 4] = [Self::Air, Self::Water, Self::Weight, Self::Price];

    /// Stable name in files.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Air => "air",
            Self::Water => "water",
            Self::Weight => "weight",
            Self::Price => "price",
        }
    }

    /// Whether more of it is better.
    #[must_use]
    pub const fn at_least(self) -> bool {
        matches!(self, Self::Air | Self::Water)
    }
}

/// A material to choose from, read.
#[derive(Clone, Copy, Debug)]
pub struct Stuff {
    /// The material.
    pub material: &'static Material,
    /// Price of a bag; none where it cannot be bought.
    pub price: Option<f64>,
    /// Size of the bag, L.
    pub bag_litres: f64,
    /// In hand, L.
    pub in_hand_litres: f64,
}

/// The question, read and checked.
#[derive(Clone, Debug)]
pub struct Case {
    /// The materials, in the order typed.
    pub materials: Vec<Stuff>,
    /// A question of Mix with a part of each of them.
    pub in_mix: mix::Question,
    /// The same, read.
    pub template: mix::Case,
    /// Where Mix has the figures.
    pub places: Places,
    /// Mix needed, loose, L.
    pub litres: f64,
    /// The targets in base units, in the order of [`Target::ALL`].
    pub targets: [Option<f64>; 4],
    /// What to make the least or the most of.
    pub aim: Aim,
    /// Whether the targets must be met in nine of ten draws.
    pub sure: bool,
    /// Whether only the depth is known, so that weights are of one litre.
    pub by_depth: bool,
}

const PRICE: Limits<Number> = Limits::number("Price of a bag", 0.0, 100_000.0);
const IN_HAND: Limits<Volume> = Limits::litres("What is in hand", 0.0, 1_000_000.0);
const NEEDED: Limits<Volume> = Limits::litres("Mix needed", 0.1, 1_000_000.0);
/// A litre that is this deep is still a pot to Mix.
const DEPTH: Limits<Length> = Limits::millimetres("Depth of the mix", 30.0, 450.0);
const AIR: Limits<Fraction> = Limits::percent("Air at least", 0.0, 100.0);
const WATER: Limits<Fraction> = Limits::percent("Water at least", 0.0, 100.0);
const WEIGHT: Limits<Mass> = Limits::between(
    "Wet weight at most",
    Mass::from_grams(1.0),
    Mass::from_kilograms(1000.0),
);
const TOTAL: Limits<Number> = Limits::number("Price of all of it", 0.0, 100_000_000.0);

/// Reads a question; every problem found comes back, each at its field.
pub fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
    let mut reader = Reader::new(mark);
    let materials = read_materials(&question.materials, &mut reader);
    let by_depth = question.pot.size == BY_DEPTH;
    let depth = if by_depth {
        reader
            .read("depth", &question.depth, &DEPTH)
            .map(Length::in_metres)
    } else {
        None
    };
    let in_mix = in_mix(question, &materials, depth);
    let template = match Mix::check(&in_mix, mark) {
        Ok(case) => Some(case),
        Err(problems) => {
            // Its parts were made here; whatever it finds amiss is about the pot or the use, and
            // a depth that cannot be read has been told already.
            let told = |problem: &Problem| !(by_depth && problem.field.starts_with("pot."));
            reader.problems.extend(problems.into_iter().filter(told));
            None
        }
    };
    let litres = reader.read("litres", &question.litres, &NEEDED);
    let asked = &question.targets;
    let targets = [
        target(&mut reader, "targets.air", &asked.air, &AIR),
        target(&mut reader, "targets.water", &asked.water, &WATER),
        target(&mut reader, "targets.weight", &asked.weight, &WEIGHT),
        target(&mut reader, "targets.price", &asked.price, &TOTAL),
    ];
    let aim = Aim::ALL.into_iter().find(|aim| aim.key() == question.aim);
    if aim.is_none() {
        let known = Aim::ALL.into_iter().map(Aim::key);
        reader.say("aim", not_in_list(words::AN_AIM, &question.aim, known));
    }
    let sure = match question.certainty.as_str() {
        NINE_IN_TEN => Some(true),
        BEST_FIGURE => Some(false),
        other => {
            let known = [BEST_FIGURE, NINE_IN_TEN].into_iter();
            reader.say("certainty", not_in_list(words::A_CERTAINTY, other, known));
            None
        }
    };
    match (template, litres, aim, sure) {
        (Some(template), Some(litres), Some(aim), Some(sure)) if reader.problems.is_empty() => {
            Ok(Case {
                places: Places::of(&template)
                    .ok_or_else(|| vec![Problem::at("", words::no_such_figure())])?,
                materials,
                in_mix,
                template,
                litres: litres.in_litres(),
                targets,
                aim,
                sure,
                by_depth,
            })
        }
        _ => Err(reader.problems),
    }
}

/// A target in base units, where one is typed.
fn target<Q: Quantity>(
    reader: &mut Reader,
    path: &str,
    entry: &Entry,
    limits: &Limits<Q>,
) -> Option<f64> {
    reader
        .read_if_typed(path, entry, limits)
        .map(Quantity::to_base)
}

fn read_materials(asked: &[MaterialAsked], reader: &mut Reader) -> Vec<Stuff> {
    if asked.is_empty() {
        reader.say("materials", words::no_materials());
    } else if asked.len() > MOST_MATERIALS {
        reader.say("materials", words::too_many_materials());
        return Vec::new();
    }
    let mut read = Vec::with_capacity(asked.len());
    for (index, one) in asked.iter().enumerate() {
        let field = |name: &str| ["materials.", &index.to_string(), ".", name].concat();
        let found = materials::read(
            &field("material"),
            &one.material,
            asked
                .iter()
                .take(index)
                .map(|other| other.material.as_str()),
            words::material_twice,
            reader,
        );
        let before = reader.problems.len();
        let price = reader.read_if_typed(&field("price"), &one.price, &PRICE);
        let bag = reader.read(&field("bag"), &one.bag, &materials::BAG);
        let in_hand = reader.read_if_typed(&field("in_hand"), &one.in_hand, &IN_HAND);
        let in_hand_litres = in_hand.map_or(0.0, Volume::in_litres);
        if let Some(found) = found
            && reader.problems.len() == before
            && price.is_none()
            && in_hand_litres <= 0.0
        {
            reader.say(&field("price"), words::not_to_be_had(found.name));
        }
        if let (Some(material), Some(bag)) = (found, bag) {
            read.push(Stuff {
                material,
                price: price.map(Number::in_count),
                bag_litres: bag.in_litres(),
                in_hand_litres,
            });
        }
    }
    read
}

/// The question of Mix with a part of each material, in this pot.
fn in_mix(question: &Question, materials: &[Stuff], depth: Option<f64>) -> mix::Question {
    let mut keys: Vec<&str> = materials.iter().map(|stuff| stuff.material.key).collect();
    keys.sort_unstable();
    keys.dedup();
    let sound = !keys.is_empty() && keys.len() == materials.len();
    let mut asked = mix::Question {
        pot: question.pot.clone(),
        pots: Entry::number(1.0),
        purpose: question.purpose.clone(),
        ..mix::Question::default()
    };
    // Parts that cannot be read are told by this reckoning; the pot is looked at all the same.
    if sound {
        asked.parts = vec![mix::PartAsked::default(); materials.len()];
        for (part, stuff) in asked.parts.iter_mut().zip(materials) {
            part.material = stuff.material.key.to_owned();
            part.amount = Entry::number(1.0);
            part.bag = Entry::of(Volume::from_litres(stuff.bag_litres), &Volume::LITRE);
        }
    }
    if question.pot.size == BY_DEPTH {
        asked.pot = PotAsked {
            size: OWN_VOLUME.to_owned(),
            volume: Entry::of(Volume::from_litres(1.0), &Volume::LITRE),
            height: Entry::of(
                Length::from_metres(depth.unwrap_or(0.1)),
                &Length::MILLIMETRE,
            ),
            below_rim: Entry::of(Length::from_millimetres(0.0), &Length::MILLIMETRE),
            ..asked.pot
        };
    }
    asked
}
