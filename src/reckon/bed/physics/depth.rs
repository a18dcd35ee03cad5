//! What comes of one depth, and of all of them for the kinds of pot in a tray.

use super::super::question::Case;
use crate::reckon::answer::Verdict;

/// What comes of one depth for one kind of pot.
///
/// The lowest third is told and not judged: the limits were written for the mean of a whole pot, and
/// the foot of a pot that has drained from above stands nearly full too. No limit for a part of a
/// ball was found in print; inventing one would decide the answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtDepth {
    /// Mean air of the ball over the tray's levels, fraction.
    pub air: f64,
    /// Mean air with the tray full, fraction.
    pub air_full: f64,
    /// The same of the lowest third of the ball.
    pub air_lowest_full: f64,
    /// Mean air with the tray at its emptiest, fraction.
    pub air_empty: f64,
    /// The most that can be lifted with mid-pot at 60 cm of suction, over the levels of the tray, as a
    /// multiple of what the plant drinks over the whole day.
    pub supply: f64,
    /// Suction at mid-pot with the tray at its emptiest and the day's mean drunk, cm.
    pub mid_suction_cm: f64,
    /// Refills in a day.
    pub refills: f64,
    /// Water of one filling, for one pot, L.
    pub fill_litres: f64,
    /// Loose medium for one pot, L.
    pub bed_litres: f64,
    /// One pot wet on its bed with its share of the full tray, kg.
    pub wet_kg: f64,
    /// Days until the top reads the multiple at which it is flushed, if nothing spreads back down.
    pub flush_days: f64,
    /// Salt at the top after a month as a multiple of what comes up.
    pub salt_after_a_month: f64,
    /// How it is judged.
    pub verdict: Verdict,
    /// What is wrong with it, if anything.
    pub wrong: Wrong,
}

/// What is wrong with a depth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// Nothing.
    Nothing,
    /// It drowns.
    Drowned,
    /// It thirsts, because the link breaks or a filling holds too little.
    Thirsts,
    /// Both.
    Both,
}

impl Wrong {
    fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::Nothing, wrong) | (wrong, Self::Nothing) => wrong,
            (one, other) if one == other => one,
            _ => Self::Both,
        }
    }
}

/// What comes of every depth, for each kind of pot in the tray.
pub struct Looked {
    /// By kind, the one asked about first; by depth.
    pub kinds: Vec<Vec<AtDepth>>,
}

impl Looked {
    /// For the pot asked about, by depth.
    #[must_use]
    pub fn first(&self) -> &[AtDepth] {
        self.kinds.first().map_or(&[], Vec::as_slice)
    }

    /// How many depths.
    #[must_use]
    pub fn depths(&self) -> usize {
        self.first().len()
    }

    fn at(&self, place: usize) -> impl Iterator<Item = &AtDepth> {
        self.kinds.iter().filter_map(move |kind| kind.get(place))
    }

    /// The verdict on a depth: that of the kind that fares worst.
    #[must_use]
    pub fn verdict(&self, place: usize) -> Verdict {
        self.at(place)
            .map(|at| at.verdict)
            .max()
            .unwrap_or(Verdict::DoesNotServe)
    }

    /// What is wrong with a depth for any kind.
    #[must_use]
    pub fn wrong(&self, place: usize) -> Wrong {
        self.at(place)
            .fold(Wrong::Nothing, |wrong, at| wrong.and(at.wrong))
    }

    /// Whether some depth serves, or can serve if watched.
    #[must_use]
    pub fn some_depth_does(&self) -> bool {
        (0..self.depths()).any(|place| self.verdict(place) != Verdict::DoesNotServe)
    }

    /// All of it wet with the tray full, kg/m².
    #[must_use]
    pub fn load_kg_per_m2(&self, case: &Case, place: usize) -> f64 {
        let ground: f64 = case
            .kinds()
            .map(|kind| kind.pots * kind.ground.in_square_metres())
            .sum();
        self.over_the_tray(case, place, |at| at.wet_kg) / ground
    }

    /// The sum over all pots of a tray of what falls to one.
    #[must_use]
    pub fn over_the_tray(&self, case: &Case, place: usize, of_one: fn(&AtDepth) -> f64) -> f64 {
        case.kinds()
            .zip(self.at(place))
            .map(|(kind, at)| kind.pots * of_one(at))
            .sum()
    }
}
