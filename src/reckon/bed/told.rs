//! What belongs to an answer of Bed alone.

use super::choose::{by_chances, safe_by, window};
use super::physics::Looked;
use super::question::Case;
use super::runs::Run;
use super::soaks::Soaks;
use super::sweep::Finds;
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
    /// Medium under one pot, L: as laid and settled.
    pub pot_litres: f64,
    /// Medium for a tray, L: as laid and settled.
    pub laid_litres: f64,
    /// Medium for a tray, L: loose, to measure out.
    pub loose_litres: f64,
    /// Trays in the bay.
    pub trays: f64,
    /// Medium for all trays, L: loose, to buy.
    pub bay_litres: f64,
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
    /// How far the quick estimate is from those, and how good the chances are; empty before them.
    pub held_to_account: String,
    /// How soon what is set down dry is wetted from below; nothing before the draws.
    pub soaks: Option<Soaks>,
    /// That in a sentence; empty before the draws.
    pub soaking: String,
    /// The kinds of pot, where there are two: each by itself at the one level of the water.
    pub kinds: Vec<KindTold>,
    /// What to do for a tray of two kinds of pot, in a sentence; empty for one kind.
    pub kinds_together: String,
}

/// A kind of pot in a tray of two.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct KindTold {
    /// The pot in one line.
    pub pot: String,
    /// Number of them in a tray.
    pub pots: f64,
    /// The depth to lay for it alone, mm.
    pub depth_mm: f64,
    /// Its own window, mm.
    pub window_mm: Option<[f64; 2]>,
    /// Shares of the draws that serve, need watching and do not serve on the bed laid for all; nothing before
    /// the draws.
    pub chances: Option<[f64; 3]>,
    /// The verdict on the bed laid for all, best figures.
    pub verdict: Verdict,
    /// How much deeper than that its own bed is to be, mm.
    pub raise_mm: f64,
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
            stands: words::stands_on(depth, medium.unwrap_or(&case.medium.row).name),
            of_the_question: medium.is_none(),
            run: run.clone(),
        }
    };
    runs.iter().map(told).collect()
}

/// The kinds of pot, each by itself; nothing where there is but one. `place` is that of the bed laid for
/// all.
pub(super) fn kinds_told(
    case: &Case,
    looked: &Looked,
    finds: Option<&Finds>,
    place: usize,
) -> Vec<KindTold> {
    if looked.kinds.len() < 2 {
        return Vec::new();
    }
    let kinds = case.kinds().zip(&looked.kinds).enumerate();
    let alone = kinds.map(|(which, (kind, at))| {
        // Without draws a depth counts as sure as its best figure.
        let sure: Vec<[f64; 3]> = at
            .iter()
            .map(|at| Verdict::ALL.map(|verdict| f64::from(u8::from(verdict == at.verdict))))
            .collect();
        let chances = finds
            .and_then(|finds| finds.of_kinds.get(which))
            .unwrap_or(&sure);
        let own = by_chances(chances);
        let depth_mm = |at: usize| {
            kind.depths
                .get(at)
                .map_or(0.0, |depth| depth.in_millimetres())
        };
        let safe = window(kind, own, |at| safe_by(chances, at));
        KindTold {
            pot: kind.mix.pot_in_words(),
            pots: kind.pots,
            depth_mm: depth_mm(own),
            window_mm: safe.map(|ends| ends.map(Length::in_millimetres)),
            chances: finds.and_then(|_| chances.get(place).copied()),
            verdict: at.get(place).map_or(Verdict::DoesNotServe, |at| at.verdict),
            raise_mm: 0.0,
        }
    });
    let mut kinds: Vec<KindTold> = alone.collect();
    let windows: Vec<[f64; 2]> = kinds.iter().filter_map(|kind| kind.window_mm).collect();
    let together = windows.iter().fold([0.0, f64::INFINITY], |both, own| {
        [f64::max(both[0], own[0]), f64::min(both[1], own[1])]
    });
    if windows.len() < kinds.len() || together[0] > together[1] {
        // No one depth is safe for all: the deeper one gets a bed of its own on top.
        let least = kinds
            .iter()
            .map(|kind| kind.depth_mm)
            .fold(f64::INFINITY, f64::min);
        for kind in &mut kinds {
            kind.raise_mm = kind.depth_mm - least;
        }
    }
    kinds
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
