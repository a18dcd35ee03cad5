//! What is rinsed of its salt before it serves, how its salt behaves, and how little must be left.
//!
//! Constants of rinsing are judgements of this program: no measured rinsing of these materials in a
//! bucket was found in print. None was set to the published leachings that stand as checks in the
//! tests.

use super::sources::{CALCITE_WATER, CONSENSUS, ISO_7888, RINSING_JUDGEMENT, SALT_TARGETS};
use super::{Figure, figure};

/// One material that can be salty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Salty {
    /// Key of the material in the handbook, or [`OWN`].
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// How many times the held water its salt counts for, by what the grains hold on to; 1 for none.
    pub retardation: Figure,
    /// How far held and added water become one in a soak that is stirred once, 0 to 1.
    pub mixing: Figure,
    /// What it keeps giving off, however often it is rinsed: mS/cm in a 1:5 extract.
    pub background: Figure,
    /// Whether its grains are charged with potassium and sodium that plain water leaves there.
    pub charged: bool,
    /// Whether it is lime.
    pub lime: bool,
}

/// A material of one's own.
pub const OWN: &str = "own";

/// The table.
pub static SALTY: &[Salty] = &[
    Salty {
        key: "crushed_coral",
        name: "crushed coral",
        retardation: figure(1.0, 1.02, 1.1, &RINSING_JUDGEMENT),
        mixing: figure(0.6, 0.8, 0.95, &RINSING_JUDGEMENT),
        background: figure(0.02, 0.06, 0.11, &CALCITE_WATER),
        charged: false,
        lime: true,
    },
    Salty {
        key: "coir_pith",
        name: "coir pith",
        retardation: figure(1.0, 1.3, 2.0, &RINSING_JUDGEMENT),
        mixing: figure(0.7, 0.85, 0.97, &RINSING_JUDGEMENT),
        background: figure(0.0, 0.03, 0.08, &RINSING_JUDGEMENT),
        charged: true,
        lime: false,
    },
    Salty {
        key: "coir_chips",
        name: "coir chips",
        retardation: figure(1.0, 1.3, 2.0, &RINSING_JUDGEMENT),
        mixing: figure(0.5, 0.7, 0.9, &RINSING_JUDGEMENT),
        background: figure(0.0, 0.03, 0.08, &RINSING_JUDGEMENT),
        charged: true,
        lime: false,
    },
    Salty {
        key: "expanded_clay",
        name: "expanded clay",
        retardation: figure(1.0, 1.05, 1.2, &RINSING_JUDGEMENT),
        mixing: figure(0.5, 0.7, 0.9, &RINSING_JUDGEMENT),
        background: figure(0.0, 0.01, 0.03, &RINSING_JUDGEMENT),
        charged: false,
        lime: false,
    },
    Salty {
        key: OWN,
        name: "my own",
        retardation: figure(1.0, 1.1, 1.8, &RINSING_JUDGEMENT),
        mixing: figure(0.5, 0.75, 0.95, &RINSING_JUDGEMENT),
        background: figure(0.0, 0.02, 0.08, &RINSING_JUDGEMENT),
        charged: false,
        lime: false,
    },
];

/// The salty material of a key.
#[must_use]
pub fn salty(key: &str) -> Option<&'static Salty> {
    SALTY.iter().find(|salty| salty.key == key)
}

/// How much salt may be left for a use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Target {
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// Name on the page, to follow "for".
    pub name: &'static str,
    /// Conductivity of a 1:5 extract with pure water, mS/cm at 25 °C.
    pub ms_per_cm: f64,
}

/// The targets by use; all of one source, [`TARGETS_SOURCE`].
pub static TARGETS: &[Target] = &[
    Target {
        key: "seed",
        name: "sowing seed",
        ms_per_cm: 0.25,
    },
    Target {
        key: "young_plants",
        name: "young plants",
        ms_per_cm: 0.4,
    },
    Target {
        key: "growing_on",
        name: "growing on",
        ms_per_cm: 0.6,
    },
    Target {
        key: "bed",
        name: "a bed of grit or coral under the pots",
        ms_per_cm: 0.1,
    },
];
/// Source of [`TARGETS`].
pub static TARGETS_SOURCE: &super::sources::Source = &SALT_TARGETS;

/// Change of conductivity with temperature, 1/K from 25 °C. Potassium chloride lies at 0.0184 to
/// 0.0199 from 5 to 35 °C, sodium chloride at about 0.021.
pub static PER_KELVIN: Figure = figure(0.0184, 0.0191, 0.021, &ISO_7888);

/// How far a pocket meter, calibrated now and then, is off, as a factor.
pub static METER: Figure = figure(0.97, 1.0, 1.03, &RINSING_JUDGEMENT);

/// How far a thermometer in the sample is off, K.
pub static THERMOMETER: Figure = figure(-0.7, 0.0, 0.7, &RINSING_JUDGEMENT);

/// How far one sample of a heap is off from the heap, as a factor of its salt; with how loosely the
/// litre of the extract was filled.
pub static SAMPLE: Figure = figure(0.82, 1.0, 1.22, &RINSING_JUDGEMENT);

/// How far a volume measured by the bucket is off, as a factor.
pub static BUCKET: Figure = figure(0.93, 1.0, 1.07, &RINSING_JUDGEMENT);

/// How much of the held water takes part where water trickles through, as a factor: pushed ahead
/// below 1, run past above it.
pub static SWEPT: Figure = figure(0.6, 0.9, 1.4, &RINSING_JUDGEMENT);

/// How far the water held by a material of one's own is off, as a factor.
pub static OWN_HELD: Figure = figure(0.9, 1.0, 1.1, &RINSING_JUDGEMENT);

/// How wet a material is before it is rinsed, as a share of the water it holds once drained.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wetness {
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// Share of the water held once drained.
    pub share: Figure,
}

/// The table.
pub static WETNESS: &[Wetness] = &[
    Wetness {
        key: "dry",
        name: "dry",
        share: figure(0.02, 0.08, 0.2, &CONSENSUS),
    },
    Wetness {
        key: "damp",
        name: "damp",
        share: figure(0.25, 0.5, 0.75, &CONSENSUS),
    },
    Wetness {
        key: "wet",
        name: "wet through and drained",
        share: figure(0.9, 1.0, 1.0, &CONSENSUS),
    },
];

/// From so many rinses on, rinsing is a labour to think twice about.
pub const MANY_RINSES: usize = 8;
/// From so many rinses on, it does not serve.
pub const TOO_MANY_RINSES: usize = 20;
/// From this share of the target on, what the water itself brings needs watching.
pub const SOURCE_TAKES: f64 = 0.7;
/// How much calcium nitrate a litre of water takes for the soak after the rinses, g: of Gbollie and
/// others 2021, 6.7 g, and of common practice, 1 to 2 g; the middle of common practice.
pub const CALCIUM_NITRATE_G_PER_L: f64 = 1.5;
