//! The question of Moving on, read and checked.

use std::cell::OnceCell;
use std::rc::Rc;

use super::card::Card;
use super::hot::Noon;
use super::nights::Nights;
use super::own::{Earlier, Own};
use crate::handbook::climates::Climate;
use crate::handbook::crops::readiness::{Readiness, Step};
use crate::handbook::crops::{Crop, Property};
use crate::handbook::moving;
use crate::handbook::pots::Pot;
use crate::handbook::sources::Source;
use crate::measure::{Mass, Range};
use crate::nursery::Day;
use crate::science::plant_quality::Weighed;

/// Which move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Move {
    /// Seedlings into their first pot.
    PrickOut,
    /// Into a bigger pot.
    PotOn,
    /// Into an unheated house.
    ColdHouse,
    /// Into the open.
    Outdoors,
}

impl Move {
    /// All of them, in the order of the question's keys.
    pub const ALL: [Self; 4] = [Self::PrickOut, Self::PotOn, Self::ColdHouse, Self::Outdoors];

    /// Whether it goes into cold, so that it is hardened first.
    #[must_use]
    pub fn into_cold(self) -> bool {
        matches!(self, Self::ColdHouse | Self::Outdoors)
    }
}

/// What a day is counted from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum From {
    /// The day it came up.
    Up,
    /// The day of its last move.
    Moved,
}

/// Colour of the root tips.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tips {
    /// White to cream.
    White,
    /// Tan at the ends.
    Tan,
    /// Brown: the sheath slips off.
    Brown,
}

/// How far its flower is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Flower {
    /// None to be seen.
    None,
    /// A bud.
    Bud,
    /// Open, or a truss that shows.
    Open,
}

/// Pests and disease on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pests {
    /// None.
    None,
    /// A few.
    Few,
    /// Many.
    Many,
}

/// What is seen; none where nobody looked.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Seen {
    /// Score of the ball, 1 to 5.
    pub ball: Option<u8>,
    /// Score of circling, 0 to 3.
    pub circling: Option<u8>,
    /// Colour of the root tips.
    pub tips: Option<Tips>,
    /// True leaves, as the crop's are counted.
    pub leaves: Option<f64>,
    /// Height, cm.
    pub height_cm: Option<f64>,
    /// Its flower.
    pub flower: Option<Flower>,
    /// Its pests.
    pub pests: Option<Pests>,
    /// Days it was hardened.
    pub hardened_days: Option<f64>,
}

/// Where it stood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stood {
    /// Mean minimum, °C.
    pub low_c: f64,
    /// Mean maximum, °C.
    pub high_c: f64,
    /// Light, mol/m² in a day; none for that of the sun under glass.
    pub light_mol: Option<f64>,
}

/// Where it goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// How much warmer its nights are than outside, K.
    pub night_k: f64,
    /// Held at by heat, °C.
    pub held_c: Option<f64>,
    /// Whether fleece lies over the plants by night.
    pub fleece: bool,
    /// The highest expected there, °C.
    pub hottest_c: Option<f64>,
    /// What there is of room.
    pub room: Room,
}

/// What there is of room where a batch goes; none of what was not asked.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Room {
    /// Pots that still find room.
    pub pots: Option<f64>,
    /// Pots that a tray takes.
    pub in_tray: Option<f64>,
    /// Trays that are free.
    pub trays: Option<f64>,
    /// Float valves that are free, one to a tray.
    pub floats: Option<f64>,
}

impl Room {
    /// Trays that so many pots fill; none where it is not known what a tray takes.
    #[must_use]
    pub fn trays_for(&self, pots: f64) -> Option<f64> {
        self.in_tray.map(|in_tray| (pots / in_tray).ceil())
    }

    /// How many pots of so many find room, trays and valves; none where nothing was asked.
    #[must_use]
    pub fn takes(&self, pots: f64) -> Option<f64> {
        let by_trays = |free: Option<f64>| Some(free? * self.in_tray?);
        [self.pots, by_trays(self.trays), by_trays(self.floats)]
            .into_iter()
            .flatten()
            .reduce(f64::min)
            .map(|room| room.min(pots))
    }
}

/// The question, read and checked.
#[derive(Clone, Debug)]
pub struct Case {
    /// The crop.
    pub crop: &'static Crop,
    /// What it must look like.
    pub readiness: &'static Readiness,
    /// The move.
    pub moves: Move,
    /// The day it is.
    pub today: Day,
    /// The day from which its way is counted.
    pub since: Day,
    /// What that day is.
    pub from: From,
    /// The pot it is in.
    pub pot: &'static Pot,
    /// The pot it goes into, where it is potted on.
    pub next: Option<&'static Pot>,
    /// How many plants.
    pub plants: f64,
    /// The climate.
    pub climate: &'static Climate,
    /// Where it stood.
    pub stood: Stood,
    /// The points that are looked at.
    pub card: Card,
    /// What is seen.
    pub seen: Seen,
    /// The plant that was weighed.
    pub weighed: Option<(Weighed, Mass)>,
    /// Where it goes.
    pub place: Place,
    /// Minima read there: how many days before today, and °C.
    pub log: Vec<(usize, f64)>,
    /// Minima forecast for the open, tonight's first, °C.
    pub forecasts: Vec<f64>,
    /// Moves of before.
    pub earlier: Vec<Earlier>,
    /// What these tell.
    pub own: Own,
    /// Whether the warmth is that of one's own batches.
    pub own_warmth: bool,
    /// The warmth that it needs for this step, °C d.
    pub sum: Sum,
    /// Light where it stands of each day from that one on, mol/m².
    pub(super) lights: Vec<f64>,
    /// What the open is like by day, from today on.
    pub(super) noons: Vec<Noon>,
    /// The coming nights, once they were asked for.
    pub(super) nights: OnceCell<Rc<Nights>>,
}

/// The warmth of a step, and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sum {
    /// °C d above the crop's growth base.
    pub range: Range<f64>,
    /// Whose figures.
    pub source: &'static Source,
}

/// Which pot on the way from seed to the end it is, by what it holds: between the sizes that the handbook names.
#[must_use]
pub fn step_of(pot: &Pot) -> Step {
    const PLUG_LITRES: f64 = 0.15;
    const SMALL_LITRES: f64 = 1.2;
    const MIDDLE_LITRES: f64 = 5.0;
    let litres = pot.filled().in_litres();
    if litres < PLUG_LITRES {
        Step::Plug
    } else if litres < SMALL_LITRES {
        Step::Small
    } else if litres < MIDDLE_LITRES {
        Step::Middle
    } else {
        Step::Last
    }
}

/// The warmth that a crop needs from a day until a move out of a pot; none where that is not known.
///
/// From coming up to pricking out, and to a plant that is ready for its next pot or for sale, the handbook has sums.
/// From its last move on, it is what is left between the two. For larger pots it has weeks, which are turned into
/// warmth at the temperature that they were printed for.
pub fn sum_of(
    crop: &Crop,
    readiness: &Readiness,
    pot: &Pot,
    moves: Move,
    from: From,
) -> Option<Sum> {
    const DAYS_OF_WEEK: f64 = 7.0;
    let sum = |property: Property| crop.figure(property);
    let whole = |property: Property| {
        sum(property).map(|figure| Sum {
            range: figure.range,
            source: figure.source,
        })
    };
    let between = || {
        let ready = sum(Property::ReadySum)?;
        let Some(pricked) = sum(Property::PrickOutSum) else {
            return whole(Property::ReadySum);
        };
        // Sums of one crop move together.
        let left = |ready: f64, pricked: f64| (ready - pricked).max(1.0);
        let (all, first) = (ready.range, pricked.range);
        let mut three = [
            left(all.low(), first.low()),
            left(all.best(), first.best()),
            left(all.high(), first.high()),
        ];
        three.sort_by(f64::total_cmp);
        Some(Sum {
            range: Range::new(three[0], three[1], three[2]).ok()?,
            source: ready.source,
        })
    };
    let by_weeks = |step: Step| {
        let (_, weeks) = readiness
            .weeks_in
            .iter()
            .find(|(known, _)| *known == step)?;
        let base = sum(Property::GrowthBase)?.range.best();
        let of_week = DAYS_OF_WEEK * (moving::USUAL_WEEKS_AT_C - base);
        (of_week > 0.0 && weeks.range.best() > 0.0).then(|| Sum {
            range: weeks.range.map_increasing(|weeks: f64| weeks * of_week),
            source: weeks.source,
        })
    };
    match (moves, step_of(pot), from) {
        (Move::PrickOut, ..) => whole(Property::PrickOutSum),
        (Move::PotOn, Step::Plug, From::Up) => {
            whole(Property::PrickOutSum).or_else(|| whole(Property::ReadySum))
        }
        (Move::PotOn, Step::Plug, From::Moved) => by_weeks(Step::Plug).or_else(between),
        (_, step @ (Step::Middle | Step::Last), From::Moved) => by_weeks(step).or_else(between),
        (_, _, From::Moved) => between(),
        (_, _, From::Up) => whole(Property::ReadySum),
    }
}
