//! A mix with more of something in it, or in a taller pot: what is tried where one does not serve.

use super::case::{Bought, Case, Part};
use crate::handbook::materials::{Material, Nature, material};
use crate::measure::{Length, Volume};
use crate::science::container::Vessel;

/// The additions that are tried, as shares of what is there.
pub const ADDITIONS: [f64; 9] = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.75, 1.0];
/// Deeper pots that are tried, as multiples of this one's height.
pub const DEEPER: [f64; 6] = [1.25, 1.5, 1.75, 2.0, 2.5, 3.0];
/// No bench pot is deeper than this.
const DEEPEST: Length = Length::from_millimetres(400.0);
/// What opens a mix where nothing in it does.
const OPENER: &str = "perlite_coarse";
/// What makes a mix hold more where nothing in it does.
const HOLDER: &str = "coir_pith";

/// The stiff material of the mix that holds least water, or coarse perlite.
pub fn opener(case: &Case) -> Option<&'static Material> {
    let driest = |a: &&Part, b: &&Part| water_held(a).total_cmp(&water_held(b));
    case.parts
        .iter()
        .filter(|part| part.material.nature == Nature::Mineral && part.material.grain_mm >= 2.0)
        .min_by(driest)
        .map(|part| part.material)
        .or_else(|| material(OPENER))
}

/// The soft material of the mix that holds most water, or coir pith.
pub fn holder(case: &Case) -> Option<&'static Material> {
    let wettest = |a: &&Part, b: &&Part| water_held(a).total_cmp(&water_held(b));
    case.parts
        .iter()
        .filter(|part| part.material.nature == Nature::Soft)
        .max_by(wettest)
        .map(|part| part.material)
        .or_else(|| material(HOLDER))
}

fn water_held(part: &Part) -> f64 {
    part.substance.water_at_10_cm.best()
}

/// The case with a share of what is there added of a material; none where that makes no curve.
pub fn with_more(case: &Case, addition: &'static Material, share: f64) -> Option<Case> {
    let mut parts = case.parts.clone();
    for part in &mut parts {
        part.share /= 1.0 + share;
    }
    let added = share / (1.0 + share);
    match parts
        .iter_mut()
        .find(|part| part.material.key == addition.key)
    {
        Some(part) => part.share += added,
        None => {
            let bag = Bought::in_bags_of(Volume::from_litres(1.0));
            parts.push(Part::of(addition, added, bag).ok()?);
        }
    }
    let mut changed = case.clone();
    changed.set_parts(parts);
    Some(changed)
}

/// The case in a straight pot so many times as tall, of the same mean breadth; none where that is taller than
/// any pot for a bench. With it the height of the pot told.
pub fn as_tall(case: &Case, times: f64) -> Option<(Case, Length)> {
    let fill = case.fill * times;
    if fill > DEEPEST {
        return None;
    }
    let mut changed = case.clone();
    let volume = case.vessel.volume_to(case.fill) * times;
    changed.vessel = Vessel::straight(volume, fill);
    changed.fill = fill;
    Some((changed, case.vessel.height() * times))
}
