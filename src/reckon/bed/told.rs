//! What belongs to an answer of Bed alone.

use super::question::Case;
use super::runs::Run;
use super::words;
use crate::handbook::bed_media::BED_MEDIA;
use crate::measure::Length;
use crate::reckon::answer::Verdict;
use crate::reckon::mix::Outline;

/// What belongs to Bed alone.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Detail {
    /// Whether this is a first look at the best figures, before the draws.
    pub first_look: bool,
    /// The depth to lay, mm; nought is the pot straight in the water.
    pub depth_mm: f64,
    /// Shallowest and deepest bed around it that serve at least so often as is called safe, mm;
    /// nothing where not even the best does.
    pub window_mm: Option<[f64; 2]>,
    /// Every depth looked at, the first straight in the water.
    pub depths: Vec<DepthTold>,
    /// Depth of the water in the filled tray, mm.
    pub level_mm: f64,
    /// Height of the tray's wall, mm.
    pub wall_mm: f64,
    /// Height of the mix in the pot, mm.
    pub fill_mm: f64,
    /// The bed medium.
    pub medium: String,
    /// The mix in one line.
    pub mix: String,
    /// The pot in one line.
    pub pot: String,
    /// The inside of the pot, for drawing it.
    pub outline: Outline,
    /// Pores of the ball that water enters, fraction.
    pub pore_space: f64,
    /// Medium for the tray, L: as laid and settled.
    pub laid_litres: f64,
    /// Medium for the tray, L: loose, to buy.
    pub loose_litres: f64,
    /// Whole bags of it.
    pub bags: f64,
    /// What they cost, where the price is known.
    pub price: Option<f64>,
    /// Every other medium of the handbook for the same pot and tray, at the best figures; nothing
    /// before the draws.
    pub others: Vec<OtherMedium>,
    /// The flow solved in full at the best figures: straight in the water, at the depth to lay, on
    /// another medium, then at other depths; nothing before the draws.
    pub runs: Vec<RunTold>,
    /// How far the quick estimate is from those, in one sentence; empty before them.
    pub held_to_account: String,
}

/// A run of the flow solved in full.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct RunTold {
    /// What the pot stands on.
    pub stands: String,
    /// Whether that is the medium asked about, and not another beside it.
    pub of_the_question: bool,
    /// What came of it.
    pub run: Run,
}

/// One depth.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct DepthTold {
    /// Depth of the bed, mm.
    pub depth_mm: f64,
    /// Shares of the draws that serve, need watching and do not serve; nothing before the draws.
    pub chances: Option<[f64; 3]>,
    /// At the best figures.
    pub verdict: Verdict,
    /// Mean air over the tray's levels, fraction, best figure.
    pub air: f64,
    /// Mean air with the tray full, fraction.
    pub air_full: f64,
    /// The same of the lowest third of the ball.
    pub air_lowest_full: f64,
    /// Supply as a multiple of what the plant drinks, with the tray at its emptiest.
    pub supply: f64,
    /// Suction at mid-pot with the tray at its emptiest, cm of water.
    pub mid_suction_cm: f64,
    /// Loose medium for one pot, L.
    pub bed_litres: f64,
}

/// Another medium.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct OtherMedium {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// The depth to lay of it, mm.
    pub depth_mm: f64,
    /// Shallowest and deepest that serve or can serve, mm; nothing where none does.
    pub window_mm: Option<[f64; 2]>,
    /// The verdict at that depth.
    pub verdict: Verdict,
}

/// The runs, each with what the quick estimate says of it.
pub(super) fn runs_told(case: &Case, runs: &[Run]) -> Vec<RunTold> {
    let told = |run: &Run| {
        let medium = run.medium.and_then(|place| BED_MEDIA.get(place));
        let depth = Length::from_millimetres(run.depth_mm);
        RunTold {
            stands: words::stands_on(depth, medium.unwrap_or(&case.medium).name),
            of_the_question: medium.is_none(),
            run: run.clone(),
        }
    };
    runs.iter().map(told).collect()
}

/// The run of the medium asked about at a depth in mm, where one was made.
#[must_use]
pub fn run_at(runs: &[RunTold], depth_mm: f64) -> Option<&Run> {
    /// Depths nearer than this are one: those looked at are whole steps apart.
    const ALIKE_MM: f64 = 0.5;
    let there =
        |told: &&RunTold| told.of_the_question && (told.run.depth_mm - depth_mm).abs() < ALIKE_MM;
    runs.iter().find(there).map(|told| &told.run)
}
