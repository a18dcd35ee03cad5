//! One outcome of Bed from one set of inputs, at every depth: the quick estimate.
//!
//! Quasi-steady: with the tray full, water in the pot hangs from the level, as it does at night; with
//! the tray at its emptiest what the plant drinks is lifted steadily through bed and ball. Both ends
//! of the tray's cycle are looked at, the fullest for air and the emptiest for supply. Centimetres and
//! days throughout.
//!
//! * `inputs`: everything beyond the case, with its doubt resolved one way.
//! * `curves`: the curves of bed and mix, and what a bed carries over a height.
//! * `thirst`: how demand runs through a day.
//! * `scene`: bed, ball and demand of one kind of pot.
//! * `depth`: what comes of each depth.

mod curves;
mod depth;
mod inputs;
mod scene;
mod thirst;

pub use curves::Tabled;
pub use depth::{AtDepth, Looked, Wrong};
pub use scene::Scene;
pub use thirst::course;

use super::question::Case;
use crate::measure::Length;
use crate::reckon::{Problem, words as of_all};
use crate::science::numerics::draws::Draws;
use curves::BedCurves;
use inputs::Inputs;

/// Suction at mid-pot above which a grower should act, cm. Source: [`TOMATO_SUCTION_2015`].
///
/// [`TOMATO_SUCTION_2015`]: crate::handbook::sources::TOMATO_SUCTION_2015
pub const ACT_AT_CM: f64 = 30.0;
/// Suction at mid-pot at which about a tenth of the yield is lost, cm. The same source.
pub const LOSS_AT_CM: f64 = 60.0;

/// Suction at which roots in a mix give up, cm. A judgement: field crops bear far more, but a mix
/// conducts next to nothing by then.
pub const GIVE_UP_AT_CM: f64 = 300.0;

/// A bed wider than the pot carries water to it from so far aside for each length of depth: at half a
/// right angle. A judgement; the flow is solved in one dimension.
pub const SPREADS: f64 = 1.0;

/// The kinds of pot in one tray, each with its scene: the one asked about first.
pub struct Tray<'a> {
    case: &'a Case,
    /// By kind.
    pub kinds: Vec<Scene<'a>>,
}

impl<'a> Tray<'a> {
    /// The tray at the best figures.
    ///
    /// # Errors
    /// A problem where they make no curve.
    pub fn best(case: &'a Case) -> Result<Self, Problem> {
        Self::new(case, &Inputs::best(case))
    }

    /// The tray of drawn figures.
    ///
    /// # Errors
    /// A problem where they make no curve.
    pub fn drawn(case: &'a Case, draws: &mut Draws) -> Result<Self, Problem> {
        Self::new(case, &Inputs::drawn(case, draws)?)
    }

    fn new(case: &'a Case, inputs: &Inputs) -> Result<Self, Problem> {
        let scenes = case.kinds().enumerate();
        let kinds: Option<Vec<Scene<'a>>> = scenes
            .map(|(which, kind)| Scene::new(kind, inputs, which))
            .collect();
        Ok(Self {
            case,
            kinds: kinds
                .filter(|kinds| !kinds.is_empty())
                .ok_or_else(no_curve)?,
        })
    }

    /// The scene of the pot asked about.
    ///
    /// # Errors
    /// Never: a tray has a kind of pot.
    pub fn first(&self) -> Result<&Scene<'a>, Problem> {
        self.kinds.first().ok_or_else(no_curve)
    }

    /// The sum over all pots of what falls to one.
    #[must_use]
    pub fn over_all_pots(&self, of_one: impl Fn(&Scene<'_>) -> f64) -> f64 {
        let kinds = self.case.kinds().zip(&self.kinds);
        kinds.map(|(kind, scene)| kind.pots * of_one(scene)).sum()
    }

    /// What comes of a depth for each kind of pot: refills are what all pots take by what all pots have
    /// of a filling.
    #[must_use]
    pub fn at_depth(&self, depth: Length) -> Vec<AtDepth> {
        /// A filling is never less than this, L.
        const LEAST: f64 = 1e-9;
        let fills: Vec<f64> = self
            .kinds
            .iter()
            .map(|scene| scene.fill_litres(depth))
            .collect();
        let kinds = self.case.kinds().zip(&fills);
        let filled: f64 = kinds.map(|(kind, fill)| kind.pots * fill).sum();
        let taken = self.over_all_pots(|scene| scene.demand_litres + scene.evaporated_litres());
        let refills = taken / filled.max(LEAST);
        let kinds = self.kinds.iter().zip(fills);
        kinds
            .map(|(scene, fill)| scene.at_depth(depth, refills, fill))
            .collect()
    }

    /// What comes of every depth.
    #[must_use]
    pub fn looked(&self) -> Looked {
        let mut kinds = vec![Vec::with_capacity(self.case.depths.len()); self.kinds.len()];
        for depth in &self.case.depths {
            for (kind, at) in kinds.iter_mut().zip(self.at_depth(*depth)) {
                kind.push(at);
            }
        }
        Looked { kinds }
    }
}

fn no_curve() -> Problem {
    Problem::at("bed.medium", of_all::no_such_curve("this bed"))
}

/// Whether a case has an answer at all.
///
/// # Errors
/// A problem where it has none.
pub fn answerable(case: &Case) -> Result<(), Problem> {
    BedCurves::new(&Inputs::best(case))
        .map(drop)
        .ok_or_else(no_curve)
}

/// The depth to lay: among those that fail least often the one in the middle of those that serve most
/// often. `fails` and `serves` give the shares by place.
pub fn depth_to_lay(
    many: usize,
    fails: impl Fn(usize) -> f64,
    serves: impl Fn(usize) -> f64,
) -> usize {
    /// Shares nearer than this are one: 400 draws cannot tell them apart.
    const ALIKE: f64 = 0.02;
    let least = (0..many).map(&fails).fold(f64::INFINITY, f64::min);
    let seldom: Vec<usize> = (0..many).filter(|p| fails(*p) <= least + ALIKE).collect();
    let most = seldom.iter().map(|p| serves(*p)).fold(0.0, f64::max);
    let best: Vec<usize> = seldom
        .into_iter()
        .filter(|p| serves(*p) >= most - ALIKE)
        .collect();
    best.get(best.len() / 2).copied().unwrap_or(0)
}
