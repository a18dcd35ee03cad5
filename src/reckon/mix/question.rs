//! The question of Mix as it is typed, and the case it is read into.

use super::super::{Problem, words};
use super::substance::Substance;
use crate::handbook::filling::TRAY_FILL_MM;
use crate::handbook::materials::{MATERIALS, Material, material};
use crate::handbook::pots::{POTS, pot};
use crate::handbook::thresholds::{self, LIMITS};
use crate::measure::{DecimalMark, Entry, Length, Limits, Number, Quantity, Range, Volume};
use crate::science::container::Vessel;
use crate::science::retention::{NotACurve, Retention};

/// The most parts a mix may have.
pub const MOST_PARTS: usize = 8;

/// A mix, a pot and what they are for.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct Question {
    /// The parts, one to eight.
    pub parts: Vec<PartAsked>,
    /// The pot.
    pub pot: PotAsked,
    /// Number of pots, a whole number from 1 to 100000.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub pots: Entry,
    /// What the pots are for: seed, young_plants, fed_from_below, growing_on or cuttings.
    pub purpose: String,
}

/// One part of the mix.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct PartAsked {
    /// Key of a handbook material, such as composted_bark.
    pub material: String,
    /// Parts by volume, such as 3 or 1/2.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub amount: Entry,
    /// Size of the bag it is bought in, such as "70 L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub bag: Entry,
}

impl Default for PartAsked {
    /// No material yet, and none of it, in the bag that materials usually come in.
    fn default() -> Self {
        Self {
            material: String::new(),
            amount: Entry::default(),
            bag: Entry::new("70", Volume::LITRE.key),
        }
    }
}

/// The pot: one of the handbook, or sizes of one's own. What belongs to another size is kept but not read.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct PotAsked {
    /// Key of a handbook pot such as round_10_cm, or own_round, own_square or own_volume.
    pub size: String,
    /// Inside breadth at the rim (own_round, own_square), such as "100 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub rim: Entry,
    /// Inside breadth at the base (own_round, own_square), such as "70 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub base: Entry,
    /// Inside height (all own sizes), such as "88 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub height: Entry,
    /// Volume to the rim (own_volume), such as "8.5 L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub volume: Entry,
    /// From the rim down to the mix once watered (own sizes), such as "10 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub below_rim: Entry,
}

/// A round pot by its own sizes.
pub const OWN_ROUND: &str = "own_round";
/// A square pot by its own sizes.
pub const OWN_SQUARE: &str = "own_square";
/// A straight-sided pot by volume and height.
pub const OWN_VOLUME: &str = "own_volume";

impl Default for Question {
    fn default() -> Self {
        let part = |material: &str, amount: f64| PartAsked {
            material: material.to_owned(),
            amount: Entry::number(amount),
            ..PartAsked::default()
        };
        Self {
            parts: vec![
                part("composted_bark", 3.0),
                part("perlite_coarse", 1.0),
                part("coir_pith", 1.0),
            ],
            pot: PotAsked::default(),
            pots: Entry::number(20.0),
            purpose: "fed_from_below".to_owned(),
        }
    }
}

impl Default for PotAsked {
    fn default() -> Self {
        let millimetres = |text: &str| Entry::new(text, Length::MILLIMETRE.key);
        Self {
            size: "round_10_cm".to_owned(),
            rim: millimetres("100"),
            base: millimetres("70"),
            height: millimetres("88"),
            volume: Entry::new("0.5", Volume::LITRE.key),
            below_rim: millimetres("10"),
        }
    }
}

/// A part, read.
#[derive(Clone, Debug)]
pub struct Part {
    /// The material.
    pub material: &'static Material,
    /// Its figures, from the handbook or one's own.
    pub substance: Substance,
    /// The retention curve at the best of them.
    pub retention: Retention,
    /// Share of the mix by bulk volume.
    pub share: f64,
    /// Size of the bag.
    pub bag: Volume,
}

impl Part {
    /// Some of a material as the handbook has it.
    pub(super) fn of(
        material: &'static Material,
        share: f64,
        bag: Volume,
    ) -> Result<Self, NotACurve> {
        let substance = Substance::of(material);
        Ok(Self {
            material,
            substance,
            retention: substance.retention()?,
            share,
            bag,
        })
    }
}

/// The question, read and checked.
#[derive(Clone, Debug)]
pub struct Case {
    /// The parts; shares add to one.
    pub parts: Vec<Part>,
    /// The inside of the pot.
    pub vessel: Vessel,
    /// Height of the mix above the base, once watered.
    pub fill: Length,
    /// Number of pots.
    pub pots: f64,
    /// Share of the volume lost on mixing as a bucket showed it, fraction; without it, it is reckoned.
    pub measured_loss: Option<Range<f64>>,
    /// Depth of the water in a filled tray.
    pub tray: Length,
    /// How far the water level lies below the base of the pot, where it stands on a bed.
    pub bed: Option<Length>,
    /// The limits of the use.
    pub limits: &'static thresholds::Limits,
}

const AMOUNT: Limits<Number> = Limits {
    what: "Parts",
    low: Number::from_count(0.0),
    high: Number::from_count(1000.0),
    whole: false,
};
const BAG: Limits<Volume> = Limits {
    what: "Size of the bag",
    low: Volume::from_litres(1.0),
    high: Volume::from_litres(3000.0),
    whole: false,
};
const POT_COUNT: Limits<Number> = Limits {
    what: "Number of pots",
    low: Number::from_count(1.0),
    high: Number::from_count(100_000.0),
    whole: true,
};
const BREADTH: Limits<Length> = Limits {
    what: "Breadth of the pot",
    low: Length::from_millimetres(10.0),
    high: Length::from_millimetres(1000.0),
    whole: false,
};
const HEIGHT: Limits<Length> = Limits {
    what: "Height of the pot",
    low: Length::from_millimetres(20.0),
    high: Length::from_millimetres(1000.0),
    whole: false,
};
const POT_VOLUME: Limits<Volume> = Limits {
    what: "Volume of the pot",
    low: Volume::from_litres(0.005),
    high: Volume::from_litres(500.0),
    whole: false,
};
const BELOW_RIM: Limits<Length> = Limits {
    what: "Space below the rim",
    low: Length::from_millimetres(0.0),
    high: Length::from_millimetres(500.0),
    whole: false,
};

/// No pot is broader than it is tall by more than this, nor the other way round: outside it a
/// volume and a height do not belong together.
const MOST_BREADTH_TO_HEIGHT: f64 = 10.0;
/// Rim and base of a tapered pot differ at most by this factor.
const MOST_TAPER: f64 = 4.0;

/// Gathers problems while the fields are read one after the other.
struct Reader {
    mark: DecimalMark,
    problems: Vec<Problem>,
}

impl Reader {
    fn read<Q: Quantity>(&mut self, field: &str, entry: &Entry, limits: &Limits<Q>) -> Option<Q> {
        match entry.read(limits, self.mark) {
            Ok(value) => Some(value),
            Err(problem) => {
                self.say(field, problem.to_string());
                None
            }
        }
    }

    fn say(&mut self, field: &str, sentence: String) {
        self.problems.push(Problem::at(field, sentence));
    }
}

/// Reads a question; every problem found comes back, each at its field.
pub fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
    let mut reader = Reader {
        mark,
        problems: Vec::new(),
    };
    let parts = read_parts(question, &mut reader);
    let pot = read_pot(&question.pot, &mut reader);
    let pots = reader.read("pots", &question.pots, &POT_COUNT);
    let limits = thresholds::limits(&question.purpose);
    if limits.is_none() {
        let known = LIMITS.iter().map(|limits| limits.key);
        reader.say(
            "purpose",
            words::not_in_list(words::A_USE, &question.purpose, known),
        );
    }
    match (parts, pot, pots, limits) {
        (Some(parts), Some((vessel, fill)), Some(pots), Some(limits))
            if reader.problems.is_empty() =>
        {
            Ok(Case {
                parts,
                vessel,
                fill,
                pots: pots.in_count(),
                measured_loss: None,
                tray: Length::from_millimetres(TRAY_FILL_MM.range.best()),
                bed: None,
                limits,
            })
        }
        _ => Err(reader.problems),
    }
}

fn read_parts(question: &Question, reader: &mut Reader) -> Option<Vec<Part>> {
    let asked = &question.parts;
    if asked.is_empty() {
        reader.say("parts", words::mix_without_parts());
        return None;
    }
    if asked.len() > MOST_PARTS {
        reader.say("parts", words::mix_of_too_many_parts(MOST_PARTS));
        return None;
    }
    let mut read = Vec::with_capacity(asked.len());
    for (index, part) in asked.iter().enumerate() {
        let field = |name: &str| format!("parts.{index}.{name}");
        let found = material(&part.material);
        if found.is_none() {
            let known = MATERIALS.iter().map(|material| material.key);
            reader.say(
                &field("material"),
                words::not_in_list(words::A_MATERIAL, &part.material, known),
            );
        }
        let earlier = asked[..index]
            .iter()
            .position(|other| other.material == part.material);
        if let (Some(found), Some(_)) = (found, earlier) {
            reader.say(&field("material"), words::material_twice(found.name));
        }
        let amount = reader.read(&field("amount"), &part.amount, &AMOUNT);
        let bag = reader.read(&field("bag"), &part.bag, &BAG);
        if let (Some(material), Some(amount), Some(bag)) = (found, amount, bag) {
            match Part::of(material, amount.in_count(), bag) {
                Ok(part) => read.push(part),
                Err(problem) => reader.say(&field("material"), problem.to_string()),
            }
        }
    }
    let sum: f64 = read.iter().map(|part| part.share).sum();
    if read.len() == asked.len() && sum <= 0.0 {
        reader.say("parts.0.amount", words::mix_of_nothing());
        return None;
    }
    Some(
        read.into_iter()
            .filter(|part| part.share > 0.0)
            .map(|part| Part {
                share: part.share / sum,
                ..part
            })
            .collect(),
    )
}

fn read_pot(asked: &PotAsked, reader: &mut Reader) -> Option<(Vessel, Length)> {
    if let Some(pot) = pot(&asked.size) {
        return Some((pot.vessel(), pot.height - pot.below_rim));
    }
    let vessel = match asked.size.as_str() {
        OWN_ROUND | OWN_SQUARE => {
            let rim = reader.read("pot.rim", &asked.rim, &BREADTH);
            let base = reader.read("pot.base", &asked.base, &BREADTH);
            let height = reader.read("pot.height", &asked.height, &HEIGHT);
            let (rim, base, height) = (rim?, base?, height?);
            if rim / base > MOST_TAPER || base / rim > MOST_TAPER {
                reader.say("pot.base", words::pot_tapers_too_much());
                return None;
            }
            if asked.size == OWN_ROUND {
                Vessel::round(base, rim, height)
            } else {
                Vessel::square(base, rim, height)
            }
        }
        OWN_VOLUME => {
            let volume = reader.read("pot.volume", &asked.volume, &POT_VOLUME);
            let height = reader.read("pot.height", &asked.height, &HEIGHT);
            let (volume, height) = (volume?, height?);
            let vessel = Vessel::straight(volume, height);
            let ratio = vessel.breadth_at(height) / height;
            if !(MOST_BREADTH_TO_HEIGHT.recip()..=MOST_BREADTH_TO_HEIGHT).contains(&ratio) {
                reader.say(
                    "pot.volume",
                    words::volume_and_height_apart(vessel.breadth_at(height)),
                );
                return None;
            }
            vessel
        }
        _ => {
            let known = POTS
                .iter()
                .map(|pot| pot.key)
                .chain([OWN_ROUND, OWN_SQUARE, OWN_VOLUME]);
            reader.say(
                "pot.size",
                words::not_in_list(words::A_POT, &asked.size, known),
            );
            return None;
        }
    };
    let below_rim = reader.read("pot.below_rim", &asked.below_rim, &BELOW_RIM)?;
    let fill = vessel.height() - below_rim;
    if fill < FILL_AT_LEAST {
        reader.say("pot.below_rim", words::pot_not_filled(vessel.height()));
        return None;
    }
    Some((vessel, fill))
}

/// A pot filled less than this holds nothing worth reckoning.
const FILL_AT_LEAST: Length = Length::from_millimetres(10.0);
