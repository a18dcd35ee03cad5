//! How seed ages, by the constants of its viability equation, and how it is kept.
//!
//! What comes of it is to be read as a comparison: a lot so old and kept so is likely to be so much worse. A test of
//! twenty seeds goes before it.

use super::super::sources::{COMMON_PRACTICE, Source, VIABILITY_CONSTANTS};
use super::Crop;
use crate::science::germination::Ageing;

/// The constants of one kind of seed.
#[derive(Debug)]
pub struct Ages {
    /// Key of the crop.
    pub crop: &'static str,
    /// The seed that was aged, where it is not the crop's own but a near one's.
    pub stand_in: Option<&'static str>,
    /// The constants.
    pub ageing: Ageing,
}

/// Where all constants come from.
pub static SOURCE: &Source = &VIABILITY_CONSTANTS;

const fn row(crop: &'static str, stand_in: Option<&'static str>, constants: [f64; 4]) -> Ages {
    let [species, moisture, temperature, temperature_squared] = constants;
    Ages {
        crop,
        stand_in,
        ageing: Ageing {
            species,
            moisture,
            temperature,
            temperature_squared,
        },
    }
}

/// C_H and C_Q that hold for all seed, where it was aged at one temperature alone.
const OF_ALL: [f64; 2] = [0.0329, 0.000_478];

/// The table. Of basil, coriander, dill and parsley no constants are known here. Aubergine has a printed set (5.166,
/// 3.009, 0.0940, 0.0019) by which seed would not live for a season in a cold store, against four to five years of
/// practice: tomato's stands for it.
pub static AGES: &[Ages] = &[
    row("chives", Some("onion"), [6.975, 3.470, 0.0400, 0.000_428]),
    row("sweet_pepper", None, [7.767, 4.670, OF_ALL[0], OF_ALL[1]]),
    row("chilli_annuum", None, [7.767, 4.670, OF_ALL[0], OF_ALL[1]]),
    row(
        "chilli_chinense",
        Some("pepper"),
        [7.767, 4.670, OF_ALL[0], OF_ALL[1]],
    ),
    row("cucumber", None, [5.350, 2.030, OF_ALL[0], OF_ALL[1]]),
    row("courgette", None, [6.913, 3.604, 0.0400, 0.0004]),
    row("lettuce", None, [7.938, 5.250, OF_ALL[0], OF_ALL[1]]),
    row("tomato", None, [6.5017, 3.1807, 0.0324, 0.000_431]),
    row(
        "aubergine",
        Some("tomato"),
        [6.5017, 3.1807, 0.0324, 0.000_431],
    ),
    row(
        "rocket",
        Some("leaf mustard"),
        [7.768, 4.560, OF_ALL[0], OF_ALL[1]],
    ),
    row(
        "mint",
        Some("pennyroyal"),
        [4.312, 0.610, OF_ALL[0], OF_ALL[1]],
    ),
];

/// The constants of a crop, its own or of the crop it is a kind of; none where they are not known.
#[must_use]
pub fn ages(crop: &Crop) -> Option<&'static Ages> {
    let own = AGES.iter().find(|ages| ages.crop == crop.key);
    own.or_else(|| ages(crop.kind_of?))
}

/// How seed is kept.
#[derive(Debug, PartialEq)]
pub struct Keeping {
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// In words.
    pub name: &'static str,
    /// Moisture of the seed, % of its fresh weight.
    pub moisture_percent: f64,
    /// Temperature, °C.
    pub temperature_c: f64,
}

/// Ways of keeping it. Common practice, no source: seed in the air of a room comes to 7.5 to 9 % where it is starchy,
/// 5.5 to 7 % where it is oily. A shed that is warm by turns counts as warmer than its mean.
pub static KEEPINGS: [Keeping; 3] = [
    Keeping {
        key: "sealed_cold",
        name: "dried, in a closed jar in the cold",
        moisture_percent: 6.0,
        temperature_c: 5.0,
    },
    Keeping {
        key: "dry_room",
        name: "in packets in a dry room",
        moisture_percent: 8.0,
        temperature_c: 18.0,
    },
    Keeping {
        key: "shed",
        name: "in a shed",
        moisture_percent: 10.0,
        temperature_c: 17.0,
    },
];

/// Where the ways of keeping come from.
pub static KEPT_SOURCE: &Source = &COMMON_PRACTICE;
