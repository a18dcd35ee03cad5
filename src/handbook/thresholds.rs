//! The program's one table of limits for air and water in a pot.
//!
//! All are for the **mean of the chosen pot**, drained, not for a laboratory
//! suction, except easily available water, which is a laboratory figure (10 to
//! 50 cm of suction) everywhere. They colour a verdict and never refuse one.
//!
//! Why these: limits of 20 to 30 % air are often quoted, but they were written
//! for air at a suction of 10 cm; a 10 cm pot of peat shows half of that as its
//! mean and grows well. The limits below are written for the mean.

use super::sources::{AIR_JUDGEMENT, Source};

/// What the pots are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Use {
    /// Sowing in cells and small pots.
    Seed,
    /// Young plants, once pricked out or plugged.
    YoungPlants,
    /// Pots that drink from a tray or a bed below.
    FedFromBelow,
    /// Growing on, watered from above.
    GrowingOn,
    /// Cuttings on a warm bench.
    Cuttings,
}

/// The limits of one use, fractions of volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// The use.
    pub purpose: Use,
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// Name on the page, to follow "for".
    pub name: &'static str,
    /// Less air than this does not serve.
    pub air_fails_below: f64,
    /// From here the air serves; between the two it needs watching.
    pub air_serves_from: f64,
    /// Above this the pot dries fast and needs watching.
    pub air_serves_to: f64,
    /// Less easily available water than this needs watching.
    pub easy_water_serves_from: f64,
    /// Less water in the drained pot than this needs watching.
    pub water_serves_from: f64,
    /// Where the limits come from.
    pub source: &'static Source,
}

/// The limits of a key.
#[must_use]
pub fn limits(key: &str) -> Option<&'static Limits> {
    LIMITS.iter().find(|limits| limits.key == key)
}

const fn row(
    purpose: Use,
    key: &'static str,
    name: &'static str,
    air: [f64; 3],
    easy_water_serves_from: f64,
    water_serves_from: f64,
) -> Limits {
    let [air_fails_below, air_serves_from, air_serves_to] = air;
    Limits {
        purpose,
        key,
        name,
        air_fails_below,
        air_serves_from,
        air_serves_to,
        easy_water_serves_from,
        water_serves_from,
        source: &AIR_JUDGEMENT,
    }
}

/// The table.
pub static LIMITS: &[Limits] = &[
    row(
        Use::Seed,
        "seed",
        "sowing seed",
        [0.03, 0.06, 0.20],
        0.20,
        0.60,
    ),
    row(
        Use::YoungPlants,
        "young_plants",
        "young plants",
        [0.06, 0.10, 0.30],
        0.20,
        0.50,
    ),
    row(
        Use::FedFromBelow,
        "fed_from_below",
        "pots fed from below",
        [0.08, 0.12, 0.35],
        0.20,
        0.45,
    ),
    row(
        Use::GrowingOn,
        "growing_on",
        "growing on, watered from above",
        [0.10, 0.15, 0.40],
        0.15,
        0.40,
    ),
    row(
        Use::Cuttings,
        "cuttings",
        "cuttings",
        [0.10, 0.15, 0.40],
        0.15,
        0.45,
    ),
];
