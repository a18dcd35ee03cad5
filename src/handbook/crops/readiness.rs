//! When a young plant is ready to move, and how long it may wait.
//!
//! A range of leaves or height reads: from the low figure it may go, the best is usual, beyond the
//! high it is late. Ready is a plant with the leaves, a ball that holds, and the nights.

use super::Crop;
use crate::handbook::sources::{
    COMMON_PRACTICE, POORTER_2012, PROPAGATION_WEEKS, Source, TRANSPLANTS_UTAH,
};
use crate::handbook::{Figure, figure};

/// How leaves are counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leaves {
    /// True leaves, one by one.
    Single,
    /// Pairs of true leaves.
    Pairs,
    /// True leaves of each shoot of a clump.
    OfEachShoot,
}

/// What of the first flower goes with a plant that is ready.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FirstFlower {
    /// No flower yet; one tells of a plant that is late.
    None,
    /// A bud can be seen.
    Bud,
    /// The first truss shows.
    Truss,
}

/// From when the weeks are counted after which growth is checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CountedFrom {
    /// From the day it came into this pot or plug.
    Potting,
    /// From the day it was ready.
    Ready,
}

/// A pot on the way from seed to the end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// A plug of 20 to 50 mL.
    Plug,
    /// A pot of 9 to 10.5 cm, 0.35 to 0.65 L.
    Small,
    /// A pot of 2 to 3 L.
    Middle,
    /// A pot of 8 to 9 L, to the end of cropping.
    Last,
}

/// What a crop must look like to move, and how long it may stay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Readiness {
    /// Key of the crop.
    pub crop: &'static str,
    /// How its leaves are counted.
    pub counted: Leaves,
    /// How many.
    pub leaves: Figure,
    /// Height above the mix, cm.
    pub height_cm: Figure,
    /// The least score of the [ball](BALL_SCORES).
    pub ball_at_least: u8,
    /// What of the first flower.
    pub first_flower: FirstFlower,
    /// Weeks in the plug or the small pot after which growth is checked for good.
    pub weeks_before_check: Figure,
    /// From when they count.
    pub counted_from: CountedFrom,
    /// Weeks in each pot that it is usual to give it, in order.
    pub weeks_in: &'static [(Step, Figure)],
    /// The night minimum from which it goes on growing, °C: cooler than that it stands still, long
    /// before it is harmed.
    pub growing_night_c: Figure,
}

/// What is seen of a ball that is lifted out or knocked out, from none to whole, with its score.
/// Common practice, no source.
pub const BALL_SCORES: [(u8, &str); 5] = [
    (1, "no ball"),
    (2, "falls apart"),
    (3, "loses 5 to 25 %"),
    (4, "loses less than 5 %"),
    (5, "whole"),
];

/// What is seen of roots at the wall of the pot, with its score. From 1 it may go into its next pot;
/// 2 is teased or sliced; at 3 growth is checked. Common practice, no source.
pub const CIRCLING_SCORES: [(u8, &str); 4] = [
    (0, "none at the wall"),
    (1, "some at the wall"),
    (2, "a full turn"),
    (3, "a mat at the base"),
];

/// Dry plant in g to each litre of pot from which the pot holds growth back.
pub const LOAD_HOLDS_BACK_G_PER_L: f64 = 1.0;
/// Where [`LOAD_HOLDS_BACK_G_PER_L`] comes from.
pub static LOAD_SOURCE: &Source = &POORTER_2012;
/// The same from which a plant needs water twice a day and feed. Common practice, no source.
pub const LOAD_RESTRICTS_G_PER_L: f64 = 2.0;
/// The same from which a plant is pot-bound. Common practice, no source.
pub const LOAD_BINDS_G_PER_L: f64 = 5.0;

const fn practice(low: f64, best: f64, high: f64) -> Figure {
    figure(low, best, high, &COMMON_PRACTICE)
}

const fn weeks(low: f64, best: f64, high: f64) -> Figure {
    figure(low, best, high, &PROPAGATION_WEEKS)
}

const fn utah(low: f64, best: f64, high: f64) -> Figure {
    figure(low, best, high, &TRANSPLANTS_UTAH)
}

/// The ball that every crop is asked for: it loses less than 5 %.
const HOLDS: u8 = 4;

const HERB_STEPS: &[(Step, Figure)] = &[
    (Step::Plug, practice(3.0, 3.5, 4.0)),
    (Step::Small, practice(4.0, 6.0, 8.0)),
];

const CLUMP_STEPS: &[(Step, Figure)] = &[(Step::Small, practice(4.0, 6.0, 8.0))];

/// A clump sown in its pot, or a small herb.
const fn clump(
    crop: &'static str,
    height_cm: Figure,
    weeks_before_check: Figure,
    growing_night_c: Figure,
) -> Readiness {
    Readiness {
        crop,
        counted: Leaves::OfEachShoot,
        leaves: practice(3.0, 4.0, 5.0),
        height_cm,
        ball_at_least: HOLDS,
        first_flower: FirstFlower::None,
        weeks_before_check,
        counted_from: CountedFrom::Potting,
        weeks_in: CLUMP_STEPS,
        growing_night_c,
    }
}

/// A fruiting crop that goes with its first bud.
const fn with_bud(
    crop: &'static str,
    leaves: Figure,
    weeks_in: &'static [(Step, Figure)],
    growing_night_c: Figure,
) -> Readiness {
    Readiness {
        crop,
        counted: Leaves::Single,
        leaves,
        height_cm: practice(12.0, 16.0, 20.0),
        ball_at_least: HOLDS,
        first_flower: FirstFlower::Bud,
        weeks_before_check: practice(7.0, 8.0, 9.0),
        counted_from: CountedFrom::Potting,
        weeks_in,
        growing_night_c,
    }
}

/// The table. A variety that has no row takes that of the crop it is a kind of.
pub static READINESS: &[Readiness] = &[
    Readiness {
        crop: "sweet_basil",
        counted: Leaves::Pairs,
        leaves: practice(3.0, 3.5, 4.0),
        height_cm: practice(8.0, 10.0, 12.0),
        ball_at_least: HOLDS,
        first_flower: FirstFlower::None,
        weeks_before_check: practice(3.0, 4.0, 5.0),
        counted_from: CountedFrom::Potting,
        weeks_in: HERB_STEPS,
        growing_night_c: practice(13.0, 15.0, 17.0),
    },
    clump(
        "coriander",
        practice(8.0, 10.0, 12.0),
        practice(3.5, 4.0, 5.0),
        practice(2.0, 3.0, 5.0),
    ),
    clump(
        "parsley",
        practice(8.0, 10.0, 12.0),
        practice(4.0, 4.5, 6.0),
        practice(2.0, 3.0, 5.0),
    ),
    clump(
        "chives",
        practice(8.0, 10.0, 12.0),
        practice(4.0, 4.5, 6.0),
        practice(2.0, 3.0, 5.0),
    ),
    clump(
        "dill",
        practice(8.0, 12.0, 16.0),
        practice(3.0, 4.0, 5.0),
        practice(3.0, 5.0, 7.0),
    ),
    Readiness {
        crop: "mint",
        counted: Leaves::Pairs,
        leaves: practice(4.0, 5.0, 6.0),
        height_cm: practice(8.0, 10.0, 12.0),
        ball_at_least: HOLDS,
        first_flower: FirstFlower::None,
        weeks_before_check: practice(4.0, 5.0, 6.0),
        counted_from: CountedFrom::Potting,
        weeks_in: HERB_STEPS,
        growing_night_c: practice(2.0, 3.0, 5.0),
    },
    Readiness {
        crop: "rocket",
        counted: Leaves::Single,
        leaves: practice(4.0, 5.0, 6.0),
        height_cm: practice(5.0, 7.0, 10.0),
        ball_at_least: HOLDS,
        first_flower: FirstFlower::None,
        weeks_before_check: practice(1.0, 1.5, 2.0),
        counted_from: CountedFrom::Ready,
        weeks_in: &[(Step::Plug, practice(3.0, 3.5, 4.5))],
        growing_night_c: practice(2.0, 4.0, 6.0),
    },
    with_bud(
        "chilli_annuum",
        practice(6.0, 8.0, 10.0),
        &[
            (Step::Plug, practice(4.0, 4.5, 5.0)),
            (Step::Small, practice(3.0, 4.0, 5.0)),
            (Step::Middle, practice(3.0, 4.0, 5.0)),
            (Step::Last, practice(16.0, 20.0, 24.0)),
        ],
        practice(12.0, 13.5, 15.6),
    ),
    with_bud(
        "sweet_pepper",
        utah(5.0, 6.0, 7.0),
        &[
            (Step::Plug, practice(4.0, 4.5, 5.0)),
            (Step::Small, practice(3.0, 4.0, 5.0)),
            (Step::Middle, practice(3.0, 4.0, 5.0)),
            (Step::Last, practice(16.0, 20.0, 24.0)),
        ],
        practice(12.0, 13.5, 15.6),
    ),
    with_bud(
        "chilli_chinense",
        practice(6.0, 8.0, 10.0),
        &[
            (Step::Plug, practice(5.0, 5.5, 6.0)),
            (Step::Small, practice(4.0, 5.0, 6.0)),
            (Step::Middle, practice(4.0, 4.5, 5.0)),
        ],
        practice(13.5, 15.0, 16.5),
    ),
    with_bud(
        "aubergine",
        utah(5.0, 6.0, 7.0),
        &[
            (Step::Plug, practice(4.0, 4.5, 5.0)),
            (Step::Small, practice(3.0, 3.5, 4.0)),
            (Step::Middle, practice(2.0, 3.0, 4.0)),
            (Step::Last, practice(14.0, 17.0, 20.0)),
        ],
        practice(13.0, 14.5, 18.3),
    ),
    Readiness {
        crop: "tomato",
        counted: Leaves::Single,
        leaves: utah(5.0, 6.0, 7.0),
        height_cm: practice(15.0, 20.0, 25.0),
        ball_at_least: HOLDS,
        first_flower: FirstFlower::Truss,
        weeks_before_check: practice(5.0, 6.0, 7.0),
        counted_from: CountedFrom::Potting,
        weeks_in: &[
            (Step::Plug, practice(2.0, 2.5, 3.0)),
            (Step::Small, practice(3.0, 3.5, 4.0)),
            (Step::Middle, practice(0.0, 1.5, 3.0)),
            (Step::Last, practice(14.0, 17.0, 20.0)),
        ],
        growing_night_c: practice(10.0, 12.0, 15.6),
    },
    Readiness {
        crop: "cucumber",
        counted: Leaves::Single,
        leaves: practice(2.0, 3.0, 4.0),
        height_cm: practice(12.0, 16.0, 20.0),
        ball_at_least: HOLDS,
        first_flower: FirstFlower::None,
        weeks_before_check: practice(3.0, 3.5, 4.0),
        counted_from: CountedFrom::Potting,
        weeks_in: &[
            (Step::Small, weeks(2.0, 3.0, 4.0)),
            (Step::Last, practice(10.0, 12.0, 14.0)),
        ],
        growing_night_c: practice(14.0, 15.5, 18.3),
    },
    Readiness {
        crop: "courgette",
        counted: Leaves::Single,
        leaves: practice(2.0, 2.5, 3.0),
        height_cm: practice(8.0, 11.0, 15.0),
        ball_at_least: HOLDS,
        first_flower: FirstFlower::None,
        weeks_before_check: practice(2.5, 3.0, 4.0),
        counted_from: CountedFrom::Potting,
        weeks_in: &[(Step::Small, weeks(2.0, 3.0, 4.0))],
        growing_night_c: practice(10.0, 12.0, 15.0),
    },
    Readiness {
        crop: "lettuce",
        counted: Leaves::Single,
        leaves: practice(4.0, 5.0, 6.0),
        height_cm: practice(5.0, 6.5, 8.0),
        ball_at_least: HOLDS,
        first_flower: FirstFlower::None,
        weeks_before_check: practice(1.0, 1.5, 2.0),
        counted_from: CountedFrom::Ready,
        weeks_in: &[(Step::Plug, weeks(4.0, 5.0, 6.0))],
        growing_night_c: practice(2.0, 3.0, 4.4),
    },
];

/// The row of a crop, its own or of the crop it is a kind of.
#[must_use]
pub fn readiness(crop: &Crop) -> Option<&'static Readiness> {
    READINESS
        .iter()
        .find(|row| row.crop == crop.key)
        .or_else(|| readiness(crop.kind_of?))
}
