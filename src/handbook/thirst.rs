//! What plants drink: a closed stand by the sun, one plant by the breadth of its leaves, and the day.

use super::sources::{BED_JUDGEMENT, STAND_BY_SUN, THIRST_JUDGEMENT};
use super::{Figure, figure};

/// Share of the sun outdoors that a glasshouse lets through.
pub static TRANSMITS: Figure = figure(0.55, 0.6, 0.7, &STAND_BY_SUN);
/// Share of the sun inside that a closed stand turns to vapour.
pub static TRANSPIRES: Figure = figure(0.6, 0.7, 0.8, &STAND_BY_SUN);
/// Sun outdoors on a mean summer day at 50 to 55 degrees north, MJ/m².
pub static MEAN_SUN_MJ_PER_M2: Figure = figure(14.0, 16.0, 18.0, &THIRST_JUDGEMENT);
/// Evaporation from wet mix, bed and water between pots on such a day, mm: a tenth to three tenths of what
/// a stand gives off, and more where trays stand bare.
pub static EVAPORATES_MM_PER_D: Figure = figure(0.2, 0.6, 1.5, &THIRST_JUDGEMENT);

/// How a crop stands in the light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Habit {
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// What it drinks as a multiple of its ground's share of a closed stand: sides in the light, air
    /// moving past.
    pub times: Figure,
}

/// The habits.
pub static HABITS: &[Habit] = &[
    Habit {
        key: "herb",
        name: "a leafy herb",
        times: figure(0.9, 1.2, 1.8, &THIRST_JUDGEMENT),
    },
    Habit {
        key: "bush",
        name: "a bush: chilli, aubergine",
        times: figure(0.9, 1.1, 1.6, &THIRST_JUDGEMENT),
    },
    Habit {
        key: "tall",
        name: "trained tall: tomato, cucumber",
        times: figure(1.0, 1.3, 1.8, &THIRST_JUDGEMENT),
    },
];

/// What the day asks of a plant beside a mean day of summer: a factor on what it drinks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weather {
    /// Stable name.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// The factor.
    pub times: Figure,
}

/// Key of a day by one's own figure of sun.
pub const OWN_DAY: &str = "own";

/// The kinds of day.
pub static WEATHER: &[Weather] = &[
    Weather {
        key: "cool",
        name: "cool and dull",
        times: figure(0.3, 0.5, 0.7, &BED_JUDGEMENT),
    },
    Weather {
        key: "mean",
        name: "a mean summer day",
        times: figure(0.8, 1.0, 1.25, &BED_JUDGEMENT),
    },
    Weather {
        key: "hot",
        name: "hot and bright",
        times: figure(1.3, 1.6, 2.0, &BED_JUDGEMENT),
    },
];

/// A day of one's own figure: what plants drink goes with its sun up to this factor either way, for
/// air and wind are not told. A judgement.
pub const BY_SUN_ALONE: f64 = 1.15;

/// Hours after midnight between which plants drink in summer: common practice, no source.
pub const DRINKS_FROM_TO_H: [f64; 2] = [5.0, 20.0];
