//! Usual pots, by their inside sizes.

use super::sources::{COMMON_PRACTICE, POT_GUIDE, Source};
use crate::measure::{Length, Volume};
use crate::science::container::Vessel;

/// The outline of a pot seen from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outline {
    /// Round.
    Round,
    /// Square.
    Square,
}

/// A usual pot: inside sizes, and how far below the rim it is usually filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pot {
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// Round or square.
    pub outline: Outline,
    /// Inside breadth at the rim.
    pub rim: Length,
    /// Inside breadth at the base.
    pub base: Length,
    /// Inside height.
    pub height: Length,
    /// From the rim down to the mix, once watered.
    pub below_rim: Length,
    /// Where the sizes come from.
    pub source: &'static Source,
}

impl Pot {
    /// The inside of the pot.
    #[must_use]
    pub fn vessel(&self) -> Vessel {
        match self.outline {
            Outline::Round => Vessel::round(self.base, self.rim, self.height),
            Outline::Square => Vessel::square(self.base, self.rim, self.height),
        }
    }

    /// What it holds up to where it is filled.
    #[must_use]
    pub fn filled(&self) -> Volume {
        self.vessel().volume_to(self.height - self.below_rim)
    }
}

/// The pot of a key.
#[must_use]
pub fn pot(key: &str) -> Option<&'static Pot> {
    POTS.iter().find(|pot| pot.key == key)
}

const fn row(
    key: &'static str,
    name: &'static str,
    outline: Outline,
    rim_base_height_cm: [f64; 3],
    below_rim_mm: f64,
    source: &'static Source,
) -> Pot {
    let [rim, base, height] = rim_base_height_cm;
    Pot {
        key,
        name,
        outline,
        rim: Length::from_centimetres(rim),
        base: Length::from_centimetres(base),
        height: Length::from_centimetres(height),
        below_rim: Length::from_millimetres(below_rim_mm),
        source,
    }
}

use Outline::{Round, Square};

/// All pots, smallest first. Space below the rim: common practice, no source.
pub static POTS: &[Pot] = &[
    row(
        "module_84",
        "module of an 84 tray",
        Square,
        [3.8, 2.2, 4.5],
        3.0,
        &COMMON_PRACTICE,
    ),
    row(
        "round_cell",
        "round cell, 50 mL",
        Round,
        [4.5, 3.0, 4.5],
        3.0,
        &COMMON_PRACTICE,
    ),
    row(
        "round_7_cm",
        "7 cm round",
        Round,
        [7.0, 5.0, 6.5],
        8.0,
        &COMMON_PRACTICE,
    ),
    row(
        "round_9_cm",
        "9 cm round",
        Round,
        [9.0, 6.0, 8.5],
        10.0,
        &POT_GUIDE,
    ),
    row(
        "square_9_cm",
        "9 cm square",
        Square,
        [9.0, 6.0, 8.5],
        10.0,
        &POT_GUIDE,
    ),
    row(
        "round_10_cm",
        "10 cm round",
        Round,
        [10.0, 7.0, 8.8],
        10.0,
        &COMMON_PRACTICE,
    ),
    row(
        "round_1_l",
        "13 cm, 1 L",
        Round,
        [13.0, 10.0, 11.0],
        12.0,
        &POT_GUIDE,
    ),
    row(
        "round_2_l",
        "17 cm, 2 L",
        Round,
        [17.0, 12.0, 13.0],
        15.0,
        &POT_GUIDE,
    ),
    row(
        "round_3_l",
        "19 cm, 3 L",
        Round,
        [19.0, 13.0, 15.0],
        15.0,
        &POT_GUIDE,
    ),
    row(
        "round_5_l",
        "22.5 cm, 5 L",
        Round,
        [22.5, 16.5, 18.0],
        20.0,
        &POT_GUIDE,
    ),
    row(
        "round_7_l",
        "25 cm, 7 L",
        Round,
        [25.0, 19.0, 20.0],
        20.0,
        &POT_GUIDE,
    ),
    row(
        "round_8_5_l",
        "26 cm, 8.5 L",
        Round,
        [26.0, 20.0, 21.0],
        25.0,
        &COMMON_PRACTICE,
    ),
    row(
        "round_10_l",
        "28 cm, 10 L",
        Round,
        [28.0, 24.0, 22.5],
        25.0,
        &POT_GUIDE,
    ),
    row(
        "round_15_l",
        "33 cm, 15 L",
        Round,
        [33.0, 25.5, 30.0],
        25.0,
        &POT_GUIDE,
    ),
];
