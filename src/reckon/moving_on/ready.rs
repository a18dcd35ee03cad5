//! The card: what a batch must look like, point by point, and what it comes to.

use super::card;
use super::case::{Case, Flower, Move, Pests, Seen, Tips};
use super::days::Run;
use super::words;
use crate::handbook::crops::Property;
use crate::handbook::crops::readiness::{FirstFlower, Leaves};
use crate::handbook::moving;
use crate::handbook::nights::{Stay, stay};
use crate::reckon::answer::Verdict;

/// A point of the card.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Point {
    /// The ball holds.
    Ball,
    /// Roots at the wall.
    Circling,
    /// Colour of the root tips.
    Tips,
    /// True leaves.
    Leaves,
    /// Height.
    Height,
    /// Its flower.
    Flower,
    /// Pests.
    Pests,
    /// Days hardened.
    Hardened,
    /// One of one's own, by its place among those of the card.
    Own(usize),
    /// The warmth it had.
    Warmth,
    /// The nights where it goes.
    Nights,
    /// The hottest day where it goes.
    Heat,
    /// Room, trays and float valves where it goes.
    Room,
}

impl Point {
    /// Stable name in files.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Ball => "ball",
            Self::Circling => "circling",
            Self::Tips => "tips",
            Self::Leaves => "leaves",
            Self::Height => "height",
            Self::Flower => "flower",
            Self::Pests => "pests",
            Self::Hardened => "hardened",
            Self::Own(_) => "own",
            Self::Warmth => "warmth",
            Self::Nights => "nights",
            Self::Heat => "heat",
            Self::Room => "room",
        }
    }
}

/// How a point stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// As it should be.
    Passed,
    /// As it should be, and later than it should be.
    Late,
    /// Not looked at.
    NotLooked,
    /// Missing.
    Missing,
}

/// How much hangs on a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// Without it a batch does not move.
    Needed,
    /// It tells, and decides nothing alone.
    Tells,
    /// It is of the place or of hardening, not of the batch: what is missing is waited for.
    Waits,
}

/// A point as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnCard {
    /// Which.
    pub point: Point,
    /// How it stands.
    pub standing: Standing,
    /// How much hangs on it.
    pub weight: Weight,
}

/// What it all comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Move it.
    Ready,
    /// Ready, but wait for the nights or harden it first.
    Wait,
    /// Not yet.
    NotYet,
    /// It should have moved before.
    Overdue,
}

impl Stage {
    /// Stable name in files.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Ready => "ready",
            Self::Wait => "wait",
            Self::NotYet => "not_yet",
            Self::Overdue => "overdue",
        }
    }
}

/// Whether a batch is so young that the table of leaves and heights does not speak of it: a seedling, or a plug.
pub fn is_young(case: &Case) -> bool {
    card::is_young(case.moves, case.pot)
}

/// Leaves from which it may go: of a seedling the first, of a plug two, or one pair; else as the crop has it. Seedlings
/// and plugs: common practice, no source.
pub fn leaves_from(case: &Case) -> f64 {
    const SEEDLING: f64 = 1.0;
    const PLUG: f64 = 2.0;
    if case.moves == Move::PrickOut {
        SEEDLING
    } else if !is_young(case) {
        case.readiness.leaves.range.low()
    } else if case.readiness.counted == Leaves::Pairs {
        PLUG / 2.0
    } else {
        PLUG
    }
}

/// How a point that is looked at stands, by what is seen, and how much hangs on it.
pub fn stands(case: &Case, seen: &Seen, point: Point) -> (Standing, Weight) {
    let told = |passed: Option<bool>| match passed {
        None => Standing::NotLooked,
        Some(true) => Standing::Passed,
        Some(false) => Standing::Missing,
    };
    // What decides once it is so, and else only tells.
    let needed_where = |so: bool| if so { Weight::Needed } else { Weight::Tells };
    match point {
        Point::Ball => {
            let holds = seen.ball.map(|ball| ball >= case.readiness.ball_at_least);
            (told(holds), Weight::Needed)
        }
        Point::Circling => {
            let circling = match seen.circling {
                None => Standing::NotLooked,
                Some(3..) => Standing::Late,
                Some(0) if case.moves == Move::PotOn => Standing::Missing,
                Some(_) => Standing::Passed,
            };
            (circling, Weight::Tells)
        }
        Point::Tips => {
            let sound = seen.tips.map(|tips| tips != Tips::Brown);
            (told(sound), needed_where(sound == Some(false)))
        }
        Point::Leaves => {
            let enough = seen.leaves.map(|leaves| leaves >= leaves_from(case));
            // Where nobody counted, warmth speaks for the leaves.
            (told(enough), needed_where(enough.is_some()))
        }
        Point::Height => {
            let least = case.readiness.height_cm.range.low();
            let tall = seen.height_cm.map(|height| height >= least);
            (told(tall), Weight::Tells)
        }
        Point::Flower => {
            let flower = match (case.readiness.first_flower, seen.flower) {
                (_, None) => Standing::NotLooked,
                (FirstFlower::None, Some(Flower::Open)) => Standing::Late,
                (FirstFlower::Bud | FirstFlower::Truss, Some(Flower::None)) => Standing::Missing,
                _ => Standing::Passed,
            };
            (flower, Weight::Tells)
        }
        Point::Pests => {
            let clean = seen.pests.map(|pests| pests == Pests::None);
            (told(clean), needed_where(seen.pests == Some(Pests::Many)))
        }
        Point::Hardened => {
            let enough = seen
                .hardened_days
                .map(|days| days >= moving::HARDENED_ENOUGH_DAYS);
            (told(enough), Weight::Waits)
        }
        Point::Heat => {
            let limit = case.crop.figure(Property::HeatLimit);
            let cool = case
                .place
                .hottest_c
                .zip(limit)
                .map(|(hottest, limit)| hottest <= limit.range.best());
            (told(cool), Weight::Tells)
        }
        Point::Own(place) => case
            .card
            .own
            .get(place)
            .map_or((Standing::NotLooked, Weight::Tells), |own| {
                (told(own.seen), own.weight)
            }),
        Point::Room => {
            let takes = case.place.room.takes(case.plants);
            (told(takes.map(|takes| takes >= case.plants)), Weight::Waits)
        }
        // Both are reckoned, and nobody looks.
        Point::Warmth | Point::Nights => (Standing::NotLooked, Weight::Tells),
    }
}

/// The points that are seen of the batch in the order of its card, without warmth and nights.
pub fn seen(case: &Case) -> Vec<OnCard> {
    let hot = case.place.hottest_c.is_some() && case.crop.figure(Property::HeatLimit).is_some();
    let room = case.place.room.takes(case.plants);
    let points = case.card.points.iter().copied();
    points
        .chain(hot.then_some(Point::Heat))
        .chain(room.is_some().then_some(Point::Room))
        .map(|point| {
            let (standing, weight) = stands(case, &case.seen, point);
            OnCard {
                point,
                standing,
                weight,
            }
        })
        .collect()
}

/// How many points of the batch itself are missing, those that nobody looked at by half. Hardening has a cost of its
/// own.
pub fn missing(card: &[OnCard]) -> f64 {
    card.iter()
        .filter(|on| !matches!(on.point, Point::Hardened | Point::Heat | Point::Room))
        .map(|on| match on.standing {
            Standing::Missing => 1.0,
            Standing::NotLooked => 0.5,
            Standing::Passed | Standing::Late => 0.0,
        })
        .sum()
}

/// The whole card of one outcome.
pub fn card(case: &Case, run: &Run, chance_7: f64) -> Vec<OnCard> {
    let mut card = seen(case);
    let there = run.share >= moving::THERE_FROM;
    let counted = case.seen.leaves.is_some();
    card.push(OnCard {
        point: Point::Warmth,
        standing: if there {
            Standing::Passed
        } else {
            Standing::Missing
        },
        // Leaves that were counted tell more than warmth that was reckoned.
        weight: if counted {
            Weight::Tells
        } else {
            Weight::Needed
        },
    });
    let serve = stay(chance_7) >= Stay::Likely;
    card.push(OnCard {
        point: Point::Nights,
        standing: if serve {
            Standing::Passed
        } else {
            Standing::Missing
        },
        weight: Weight::Waits,
    });
    card
}

/// Moved today it may lose so much more than on the best day and still be told to move: of the worth of a plant. A
/// judgement.
const AS_GOOD_AS_BEST: f64 = 0.02;

/// What a card comes to.
pub fn stage(run: &Run, card: &[OnCard]) -> Stage {
    let any = |of: &dyn Fn(&OnCard) -> bool| card.iter().any(of);
    let missing =
        |on: &OnCard, weight: Weight| on.standing == Standing::Missing && on.weight == weight;
    if any(&|on| missing(on, Weight::Needed)) {
        Stage::NotYet
    } else if run.checked || any(&|on| on.standing == Standing::Late) {
        Stage::Overdue
    } else if run.lost_by_today() > AS_GOOD_AS_BEST
        || any(&|on| {
            on.weight == Weight::Waits
                && matches!(on.standing, Standing::Missing | Standing::NotLooked)
        })
    {
        Stage::Wait
    } else {
        Stage::Ready
    }
}

/// The verdict on it: it serves where it is ready, somebody looked at all that is needed, and nothing is amiss.
pub fn verdict(stage: Stage, card: &[OnCard]) -> Verdict {
    let clear = card.iter().all(|on| match on.standing {
        Standing::Passed => true,
        Standing::Missing | Standing::Late => false,
        Standing::NotLooked => on.weight == Weight::Tells,
    });
    match stage {
        Stage::NotYet => Verdict::DoesNotServe,
        Stage::Ready if clear => Verdict::Serves,
        Stage::Ready | Stage::Wait | Stage::Overdue => Verdict::Watch,
    }
}

/// The sentence on what to look for at a point, and on what is seen.
pub fn told(case: &Case, run: &Run, chance_7: f64, on: OnCard) -> [String; 2] {
    words::point(case, run, chance_7, on.point)
}
