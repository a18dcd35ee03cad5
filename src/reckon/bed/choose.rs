//! Which depth to lay, and which depths are safe.

use super::physics::{Looked, Wrong, depth_to_lay};
use super::question::Case;
use super::sweep::Finds;
use super::told::{OtherMedium, RunTold, run_at};
use super::words;
use crate::measure::Length;
use crate::reckon::answer::Verdict;

/// A depth is called safe where it does not fail in so many of ten draws. A judgement.
const SAFE_FROM: f64 = 0.7;

/// The depth to lay by the best figures alone.
pub fn first_look(looked: &Looked) -> usize {
    let many = looked.depths();
    let is = |place: usize, verdict| f64::from(u8::from(looked.verdict(place) == verdict));
    // Where all fail, the one that lacks least: drowned ones are too shallow, thirsty ones too deep.
    if (0..many).all(|place| looked.verdict(place) == Verdict::DoesNotServe) {
        return (0..many)
            .find(|place| looked.wrong(*place) != Wrong::Drowned)
            .unwrap_or(many.saturating_sub(1));
    }
    depth_to_lay(
        many,
        |place| is(place, Verdict::DoesNotServe),
        |place| is(place, Verdict::Serves),
    )
}

/// The depth to lay by shares of draws by verdict, depth by depth.
pub fn by_chances(chances: &[[f64; 3]]) -> usize {
    depth_to_lay(
        chances.len(),
        |place| chances.get(place).map_or(1.0, |[_, _, fails]| *fails),
        |place| chances.get(place).map_or(0.0, |[serves, _, _]| *serves),
    )
}

/// The depths around a place that are safe.
pub fn window(case: &Case, place: usize, safe: impl Fn(usize) -> bool) -> Option<[Length; 2]> {
    if !safe(place) {
        return None;
    }
    let many = case.depths.len();
    let from = (0..=place).rev().take_while(|at| safe(*at)).last()?;
    let to = (place..many).take_while(|at| safe(*at)).last()?;
    Some([*case.depths.get(from)?, *case.depths.get(to)?])
}

/// Whether a depth is safe by its chances.
pub fn safe_by(chances: &[[f64; 3]], place: usize) -> bool {
    chances
        .get(place)
        .is_some_and(|[_, _, fails]| 1.0 - fails >= SAFE_FROM)
}

/// The safe depths around a place: by the draws, or else by the best figures.
pub fn safe_window(
    case: &Case,
    looked: &Looked,
    finds: Option<&Finds>,
    place: usize,
) -> Option<[Length; 2]> {
    window(case, place, |at| match finds {
        Some(finds) => safe_by(&finds.chances, at),
        None => at < looked.depths() && looked.verdict(at) != Verdict::DoesNotServe,
    })
}

/// A verdict held to account: where the flow solved in full leaves the plant short at that depth, it
/// needs watching at the least.
pub fn held(verdict: Verdict, runs: &[RunTold], depth: Length) -> Verdict {
    let short =
        run_at(runs, depth.in_millimetres()).is_some_and(|run| run.drunk_share < words::ALL_OF_IT);
    if short {
        verdict.max(Verdict::Watch)
    } else {
        verdict
    }
}

/// The other medium with the widest window at the best figures, where that is wider than this one's.
pub fn better(others: &[OtherMedium], window: Option<[Length; 2]>) -> Option<OtherMedium> {
    let wide = |ends: Option<[f64; 2]>| ends.map_or(-1.0, |[from, to]| to - from);
    let own = wide(window.map(|ends| ends.map(Length::in_millimetres)));
    others
        .iter()
        .filter(|other| wide(other.window_mm) > own)
        .max_by(|one, other| wide(one.window_mm).total_cmp(&wide(other.window_mm)))
        .cloned()
}
