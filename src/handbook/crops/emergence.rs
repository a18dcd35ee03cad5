//! Days from sowing to emergence by the temperature of the mix, as measured.
//!
//! Seed 13 mm deep, never short of water (Harrington & Minges 1954). For these crops the table goes
//! before a heat sum. Aubergine came from a poor lot: use its days, not its shares.

use super::super::sources::{HARRINGTON_1954, Source};
use crate::science::thermal_time::{Cardinals, days_from_table};

/// Days to emergence of one kind of seed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Emergence {
    /// Key of the crop.
    pub crop: &'static str,
    /// The seed that was sown, where it is not the crop's own but a near one's.
    pub stand_in: Option<&'static str>,
    /// Temperature of the mix, °C, and days.
    pub days: &'static [(f64, f64)],
    /// Temperature of the mix, °C, and the share that grew into normal seedlings.
    pub shares: &'static [(f64, f64)],
}

/// Where all of them come from.
pub static SOURCE: &Source = &HARRINGTON_1954;

const fn row(
    crop: &'static str,
    days: &'static [(f64, f64)],
    shares: &'static [(f64, f64)],
) -> Emergence {
    Emergence {
        crop,
        stand_in: None,
        days,
        shares,
    }
}

/// The table.
pub static EMERGENCE: &[Emergence] = &[
    row(
        "tomato",
        &[
            (10.0, 43.0),
            (15.0, 14.0),
            (20.0, 8.0),
            (25.0, 6.0),
            (30.0, 6.0),
            (35.0, 9.0),
        ],
        &[
            (5.0, 0.0),
            (10.0, 0.82),
            (15.0, 0.98),
            (20.0, 0.98),
            (25.0, 0.97),
            (30.0, 0.83),
            (35.0, 0.46),
            (40.0, 0.0),
        ],
    ),
    row("sweet_pepper", PEPPER_DAYS, PEPPER_SHARES),
    row("chilli_annuum", PEPPER_DAYS, PEPPER_SHARES),
    row("aubergine", &[(20.0, 13.0), (25.0, 8.0), (30.0, 5.0)], &[]),
    row(
        "cucumber",
        &[
            (15.0, 13.0),
            (20.0, 6.0),
            (25.0, 4.0),
            (30.0, 3.0),
            (35.0, 3.0),
        ],
        &[
            (10.0, 0.0),
            (15.0, 0.95),
            (20.0, 0.99),
            (25.0, 0.99),
            (30.0, 0.99),
            (35.0, 0.99),
            (40.0, 0.49),
        ],
    ),
    row(
        "lettuce",
        &[
            (0.0, 49.0),
            (5.0, 15.0),
            (10.0, 7.0),
            (15.0, 4.0),
            (20.0, 3.0),
            (25.0, 2.0),
            (30.0, 3.0),
        ],
        &[
            (0.0, 0.98),
            (5.0, 0.98),
            (10.0, 0.98),
            (15.0, 0.99),
            (20.0, 0.99),
            (25.0, 0.99),
            (30.0, 0.12),
            (35.0, 0.0),
        ],
    ),
    row(
        "parsley",
        &[
            (10.0, 29.0),
            (15.0, 17.0),
            (20.0, 14.0),
            (25.0, 13.0),
            (30.0, 12.0),
        ],
        &[(10.0, 0.63), (20.0, 0.69), (25.0, 0.64), (30.0, 0.5)],
    ),
    Emergence {
        crop: "chives",
        stand_in: Some("onion"),
        days: &[
            (0.0, 136.0),
            (5.0, 31.0),
            (10.0, 13.0),
            (15.0, 7.0),
            (20.0, 5.0),
            (25.0, 4.0),
            (30.0, 4.0),
            (35.0, 13.0),
        ],
        shares: &[
            (0.0, 0.9),
            (5.0, 0.98),
            (10.0, 0.98),
            (15.0, 0.98),
            (20.0, 0.99),
            (25.0, 0.97),
            (30.0, 0.91),
            (35.0, 0.73),
            (40.0, 0.02),
        ],
    },
    Emergence {
        crop: "courgette",
        stand_in: Some("squash"),
        days: &[(20.0, 15.0), (25.0, 6.0), (30.0, 4.0), (35.0, 3.0)],
        shares: &[],
    },
];

const PEPPER_DAYS: &[(f64, f64)] = &[
    (15.0, 25.0),
    (20.0, 13.0),
    (25.0, 8.0),
    (30.0, 8.0),
    (35.0, 9.0),
];
const PEPPER_SHARES: &[(f64, f64)] = &[
    (5.0, 0.0),
    (10.0, 0.01),
    (15.0, 0.7),
    (20.0, 0.96),
    (25.0, 0.98),
    (30.0, 0.95),
    (35.0, 0.7),
    (40.0, 0.0),
];

impl Emergence {
    /// Days to emergence in a mix of a temperature, by straight lines between the rates. None
    /// outside the temperatures that were tried and came up.
    #[must_use]
    pub fn days_at(&self, mix_c: f64) -> Option<f64> {
        days_from_table(self.days, mix_c)
    }

    /// The same also beyond the temperatures that came up: from there the rate falls on a straight line to nought, where
    /// none came up when it was tried, or else at the base and the ceiling of the crop. None at and beyond these.
    #[must_use]
    pub fn days_at_any(&self, mix_c: f64, cardinals: &Cardinals) -> Option<f64> {
        /// So few are none.
        const NONE: f64 = 0.05;
        let (coolest, warmest) = self.days.first().zip(self.days.last())?;
        let barren = |point: &&(f64, f64)| point.1 < NONE;
        let beyond = |(end_c, days): (f64, f64), nought_c: f64| {
            let left = (mix_c - nought_c) / (end_c - nought_c);
            (left > 0.0 && left < 1.0).then(|| days / left)
        };
        if mix_c < coolest.0 {
            let tried = self.shares.iter().filter(barren).map(|point| point.0);
            let tried = tried.filter(|at_c| *at_c < coolest.0);
            beyond(*coolest, tried.fold(cardinals.base_c(), f64::max))
        } else if mix_c > warmest.0 {
            let tried = self.shares.iter().filter(barren).map(|point| point.0);
            let tried = tried.filter(|at_c| *at_c > warmest.0).reduce(f64::min);
            beyond(*warmest, tried.unwrap_or(cardinals.ceiling_c()))
        } else {
            self.days_at(mix_c)
        }
    }
}

/// The measured days of a crop.
#[must_use]
pub fn emergence(crop: &str) -> Option<&'static Emergence> {
    EMERGENCE.iter().find(|row| row.crop == crop)
}
