//! Mix: how a blend of potting materials holds air and water in this pot, what
//! to buy for it, and what it weighs.
//!
//! * `question`: what is typed, and the case it is read into.
//! * `form`: its form as data.
//! * `substance`: the figures of a part, the handbook's or one's own.
//! * `physics`: one outcome from one set of inputs.
//! * `advice`: what would help, found on the same model.
//! * `working`: how the best figures came about.
//! * `words`: the sentences.

mod advice;
mod form;
mod physics;
mod question;
mod substance;
mod words;
mod working;

pub use question::{
    Case, MOST_PARTS, OWN_ROUND, OWN_SQUARE, OWN_VOLUME, Part, PartAsked, PotAsked, Question,
};

pub use substance::Substance;

use super::answer::{Answer, Caution, FigureName, Judgement, Verdict};
use super::doubt::Doubt;
use super::{Outcome, Problem, Reckoning};
use crate::handbook::materials::{Dust, MATERIALS};
use crate::handbook::pots::POTS;
use crate::handbook::safety;
use crate::handbook::thresholds::{LIMITS, Limits, Use};
use crate::measure::{DecimalMark, Entry, Fraction, Length, Mass, Volume};
use crate::science::numerics::draws::Draws;
use physics::{Inputs, Mixed};

/// The reckoning.
pub struct Mix;

/// Places of the figures in an outcome; the litres of each part follow the last.
mod place {
    pub const JUDGED_AIR: usize = 0;
    pub const WATER: usize = 1;
    pub const EASY_WATER: usize = 2;
    pub const DRAINED_AIR: usize = 3;
    pub const STANDING_AIR: usize = 4;
    pub const PORE_SPACE: usize = 5;
    pub const WATER_IN_POT: usize = 6;
    pub const EASY_WATER_IN_POT: usize = 7;
    pub const DRY_WEIGHT: usize = 8;
    pub const WET_WEIGHT: usize = 9;
    pub const VOLUME_LOST: usize = 10;
    pub const MIX_IN_POT: usize = 11;
    pub const MIX_NEEDED: usize = 12;
    pub const FIRST_PART: usize = 13;
}

/// What belongs to Mix alone.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Detail {
    /// Height of the mix above the base, mm.
    pub fill_mm: f64,
    /// Whether the pot stands in a tray.
    pub in_tray: bool,
    /// Depth of the water in a filled tray, mm.
    pub tray_mm: f64,
    /// The drained pot from the base to the top of the mix, at the best figures.
    pub profile: Vec<Layer>,
    /// What to buy.
    pub shopping: Vec<Purchase>,
    /// The inside of the pot, for drawing it.
    pub outline: Outline,
}

/// A thin layer of the pot.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Layer {
    /// Height above the base, mm.
    pub height_mm: f64,
    /// Water, fraction of volume.
    pub water: f64,
    /// Air, fraction of volume.
    pub air: f64,
}

/// The inside of the pot, cut in half.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Outline {
    /// Breadth at the rim, mm.
    pub rim_mm: f64,
    /// Breadth at the base, mm.
    pub base_mm: f64,
    /// Height, mm.
    pub height_mm: f64,
}

/// One material to buy.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Purchase {
    /// Key of the material.
    pub material: String,
    /// Size of the bag, L.
    pub bag_litres: f64,
    /// Whole bags for the best figure.
    pub bags: f64,
    /// Litres left over from them at the best figure.
    pub left_over_litres: f64,
    /// Whole bags to be 9 in 10 sure; the same as `bags` until the doubt is known.
    pub bags_to_be_sure: f64,
}

/// Layers drawn from base to top.
const LAYERS: usize = 48;

impl Reckoning for Mix {
    const NAME: &'static str = "mix";
    const ASKS: &'static str = "How will this mix hold air and water in this pot?";
    type Question = Question;
    type Case = Case;
    type Detail = Detail;

    fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
        question::check(question, mark)
    }

    fn figures(case: &Case) -> Vec<FigureName> {
        let fraction = |name: &str, label: &str| FigureName::of::<Fraction>(name, label, "%");
        let volume = |name: &str, label: &str| FigureName::of::<Volume>(name, label, "L");
        let mass = |name: &str, label: &str| FigureName::of::<Mass>(name, label, "kg");
        let mut names = vec![
            fraction("air", words::judged_air(case.limits.purpose)),
            fraction("water", "water, once drained"),
            fraction(
                "easy_water",
                "easily available water, 10 to 50 cm of suction",
            ),
            fraction("air_drained", "air, once drained"),
            fraction("air_standing", "air, standing in a filled tray"),
            fraction("pore_space", "pore space that water enters"),
            volume("water_in_pot", "water in one pot, once drained"),
            volume(
                "easy_water_in_pot",
                "of it easily drawn, down to 50 cm of suction",
            ),
            mass("dry_weight", "dry mix in one pot"),
            mass("wet_weight", "wet mix in one pot, drained"),
            fraction("volume_lost", "volume lost on mixing"),
            volume("mix_in_pot", "mix in one pot"),
            volume("mix_needed", "loose mix for all pots"),
        ];
        names.extend(case.parts.iter().map(|part| {
            volume(
                &format!("litres_of_{}", part.material.key),
                &format!("{} to measure out", part.material.name),
            )
        }));
        names
    }

    fn best(case: &Case) -> Result<Outcome, Problem> {
        Ok(outcome(case, &physics::mixed(case, &Inputs::best(case))))
    }

    fn draw(case: &Case, draws: &mut Draws) -> Result<Outcome, Problem> {
        let inputs = Inputs::drawn(case, draws)
            .map_err(|problem| Problem::at("parts", problem.to_string()))?;
        Ok(outcome(case, &physics::mixed(case, &inputs)))
    }

    fn answer(case: &Case, doubt: Option<&Doubt>) -> Result<Answer<Detail>, Problem> {
        let inputs = Inputs::best(case);
        let mixed = physics::mixed(case, &inputs);
        let best = outcome(case, &mixed);
        let figures = Doubt::figures(Self::figures(case), &best.values, doubt);
        let chances = doubt.map(|doubt| doubt.chances);
        let complaints = complaints(case.limits, &mixed);
        let shopping = shopping(case, &figures);
        Ok(Answer {
            judgement: Judgement {
                verdict: best.verdict,
                sentence: words::verdict(best.verdict, case.limits, chances),
                chances,
            },
            advice: advice::advice(case, &mixed, &complaints),
            cautions: cautions(case, &mixed),
            working: working::working(case, &inputs, &mixed),
            detail: Detail {
                fill_mm: case.fill.in_millimetres(),
                in_tray: case.limits.purpose == Use::FedFromBelow,
                tray_mm: case.tray.in_millimetres(),
                profile: profile(case, &mixed),
                shopping,
                outline: Outline {
                    rim_mm: case
                        .vessel
                        .breadth_at(case.vessel.height())
                        .in_millimetres(),
                    base_mm: case
                        .vessel
                        .breadth_at(Length::from_millimetres(0.0))
                        .in_millimetres(),
                    height_mm: case.vessel.height().in_millimetres(),
                },
            },
            figures,
        })
    }

    fn careless(draws: &mut Draws) -> Question {
        careless(draws)
    }
}

/// What is wrong with a pot of mix for its use, worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Complaint {
    /// Air below what fails.
    TooLittleAir,
    /// Air below what serves.
    LittleAir,
    /// Air above what serves: dries fast.
    MuchAir,
    /// Little water between 10 and 50 cm of suction.
    LittleEasyWater,
    /// Little water in the drained pot.
    LittleWater,
}

fn complaints(limits: &Limits, mixed: &Mixed) -> Vec<Complaint> {
    let air = mixed.judged_air(limits.purpose);
    let mut found = Vec::new();
    if air < limits.air_fails_below {
        found.push(Complaint::TooLittleAir);
    } else if air < limits.air_serves_from {
        found.push(Complaint::LittleAir);
    } else if air > limits.air_serves_to {
        found.push(Complaint::MuchAir);
    }
    if mixed.easy_water < limits.easy_water_serves_from {
        found.push(Complaint::LittleEasyWater);
    }
    if mixed.water < limits.water_serves_from {
        found.push(Complaint::LittleWater);
    }
    found
}

fn verdict(complaints: &[Complaint]) -> Verdict {
    match complaints.first() {
        None => Verdict::Serves,
        Some(Complaint::TooLittleAir) => Verdict::DoesNotServe,
        Some(_) => Verdict::Watch,
    }
}

fn outcome(case: &Case, mixed: &Mixed) -> Outcome {
    let mut values = vec![0.0; place::FIRST_PART];
    let litres = |litres: f64| Volume::from_litres(litres).in_cubic_metres();
    values[place::JUDGED_AIR] = mixed.judged_air(case.limits.purpose);
    values[place::WATER] = mixed.water;
    values[place::EASY_WATER] = mixed.easy_water;
    values[place::DRAINED_AIR] = mixed.drained_air();
    values[place::STANDING_AIR] = mixed.standing_air;
    values[place::PORE_SPACE] = mixed.pore_space;
    values[place::WATER_IN_POT] = litres(mixed.water * mixed.litres_in_pot);
    values[place::EASY_WATER_IN_POT] = litres(mixed.easy_water_in_pot_litres);
    values[place::DRY_WEIGHT] = mixed.dry_kg();
    values[place::WET_WEIGHT] = mixed.wet_kg();
    values[place::VOLUME_LOST] = mixed.volume_lost;
    values[place::MIX_IN_POT] = litres(mixed.litres_in_pot);
    values[place::MIX_NEEDED] = litres(mixed.litres_needed);
    values.extend(mixed.litres_of_parts.iter().map(|&part| litres(part)));
    Outcome {
        values,
        verdict: verdict(&complaints(case.limits, mixed)),
    }
}

fn profile(case: &Case, mixed: &Mixed) -> Vec<Layer> {
    let fill = case.fill;
    (0..=LAYERS)
        .map(|layer| {
            let height = fill * (layer as f64 / LAYERS as f64);
            let water = mixed.water_at_suction(height.in_centimetres());
            Layer {
                height_mm: height.in_millimetres(),
                water,
                air: mixed.pore_space - water,
            }
        })
        .collect()
}

fn shopping(case: &Case, figures: &[super::answer::Figure]) -> Vec<Purchase> {
    case.parts
        .iter()
        .zip(figures.get(place::FIRST_PART..).unwrap_or_default())
        .map(|(part, litres)| {
            let bag = part.bag.in_litres();
            let in_litres = |base: f64| Volume::from_cubic_metres(base).in_litres();
            let best = in_litres(litres.range.best());
            let bags = (best / bag).ceil();
            Purchase {
                material: part.material.key.to_owned(),
                bag_litres: bag,
                bags,
                left_over_litres: bags * bag - best,
                bags_to_be_sure: (in_litres(litres.range.high()) / bag).ceil(),
            }
        })
        .collect()
}

fn cautions(case: &Case, mixed: &Mixed) -> Vec<Caution> {
    let any = |test: fn(&Part) -> bool| case.parts.iter().any(test);
    let caution = |before: &str, sentence: String, source| Caution {
        before: before.to_owned(),
        sentence,
        source,
    };
    let mut cautions = Vec::new();
    if any(|part| part.material.living) {
        cautions.push(caution(
            words::BEFORE_OPENING,
            words::legionella(),
            safety::LEGIONELLA,
        ));
    }
    if any(|part| part.material.dust == Dust::Silica) {
        cautions.push(caution(
            words::BEFORE_MIXING,
            words::silica(),
            safety::SILICA_DUST,
        ));
    } else if any(|part| part.material.dust != Dust::None) {
        cautions.push(caution(
            words::BEFORE_MIXING,
            words::nuisance_dust(),
            safety::NUISANCE_DUST,
        ));
    }
    let (heaviest_bag_litres, bag_kg) = case
        .parts
        .iter()
        .map(|part| {
            let litres = part.bag.in_litres();
            let grams_per_litre = part.material.bagged_density_g_per_l.range.best();
            (litres, litres * grams_per_litre / 1000.0)
        })
        .fold(
            (0.0, 0.0),
            |heaviest, bag| if bag.1 > heaviest.1 { bag } else { heaviest },
        );
    if bag_kg.max(mixed.wet_kg()) > safety::LIFT_AT_ARMS_LENGTH.women_kg {
        cautions.push(caution(
            words::BEFORE_LIFTING,
            words::lifting(heaviest_bag_litres, bag_kg, mixed.wet_kg()),
            safety::LIFT_CLOSE.source,
        ));
    } else {
        cautions.push(caution(
            words::BEFORE_LIFTING,
            words::lifting_small(mixed.wet_kg()),
            safety::LIFT_CLOSE.source,
        ));
    }
    cautions
}

/// Texts such as a careless, hurried or hostile hand might type as a number.
const TYPED: &[&str] = &[
    "",
    " ",
    "0",
    "-1",
    "1",
    "3",
    "2.5",
    "2,5",
    "1/2",
    "2 1/2",
    "½",
    "1,250",
    "1 250",
    "1e3",
    "1e400",
    "-1e400",
    "NaN",
    "inf",
    "0x10",
    "1/0",
    "..",
    "--3",
    "+4",
    "7 mm",
    "9999999999",
    "0.0000001",
    "abc",
    "٣",
    "１２",
    "1_000",
    "\u{0}",
    "🌱",
];
const UNITS_TYPED: &[&str] = &["", "mm", "cm", "in", "L", "gal", "kg", "%", "furlong"];

/// How often each field is typed carelessly: seldom enough that half the questions are answered.
const CARELESSNESS: f64 = 0.03;

fn careless(draws: &mut Draws) -> Question {
    fn one_of<'a>(draws: &mut Draws, list: &[&'a str], other: &'a str) -> &'a str {
        let careless = draws.uniform() < CARELESSNESS;
        let place = draws.below(list.len());
        if careless {
            other
        } else {
            list.get(place).copied().unwrap_or(other)
        }
    }
    fn entry(draws: &mut Draws, unit: &str, low: f64, high: f64) -> Entry {
        let careless = draws.uniform() < CARELESSNESS;
        let value = low * (high / low).powf(draws.uniform());
        let text = one_of(draws, TYPED, "");
        if careless {
            Entry::new(text, one_of(draws, UNITS_TYPED, "L"))
        } else {
            Entry::new(format!("{value:.2}"), unit)
        }
    }
    let mut materials: Vec<&str> = MATERIALS.iter().map(|material| material.key).collect();
    let pots: Vec<&str> = POTS
        .iter()
        .map(|pot| pot.key)
        .chain([OWN_ROUND, OWN_SQUARE, OWN_VOLUME].repeat(4))
        .collect();
    let uses: Vec<&str> = LIMITS.iter().map(|limits| limits.key).collect();
    let many = draws.below(MOST_PARTS + 2);
    let parts = (0..many)
        .map(|_| {
            let again = draws.uniform() < CARELESSNESS;
            let place = draws.below(materials.len());
            let key = if again {
                materials[place]
            } else {
                materials.swap_remove(place)
            };
            PartAsked {
                material: one_of(draws, &[key], "moon dust").to_owned(),
                amount: entry(draws, "", 0.05, 20.0),
                bag: entry(draws, "L", 5.0, 2000.0),
            }
        })
        .collect();
    let breadth = entry(draws, "mm", 30.0, 500.0);
    let narrower = if draws.uniform() < CARELESSNESS {
        entry(draws, "mm", 10.0, 900.0)
    } else {
        breadth.clone()
    };
    let height = draws.uniform() * 500.0 + 40.0;
    Question {
        parts,
        pot: PotAsked {
            size: one_of(draws, &pots, "bucket").to_owned(),
            rim: breadth,
            base: narrower,
            height: Entry::new(format!("{height:.1}"), "mm"),
            volume: entry(draws, "L", 0.1, 40.0),
            below_rim: entry(draws, "mm", 1.0, 28.0),
        },
        pots: Entry::number((1.0 + draws.uniform() * 300.0).floor()),
        purpose: one_of(draws, &uses, "roof").to_owned(),
    }
}
