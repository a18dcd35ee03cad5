//! What would help a mix that does not serve, found on the same model that judged it.

use super::case::{Bought, Case, Part};
use super::physics::{Inputs, Judged, judged};
use super::{Complaint, complaints, words};
use crate::handbook::materials::{Material, Nature, material};
use crate::measure::{Length, Volume};
use crate::science::container::Vessel;

/// The additions that are tried, as shares of what is there.
const ADDITIONS: [f64; 9] = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.75, 1.0];
/// What opens a mix where nothing in it does.
const OPENER: &str = "perlite_coarse";
/// What makes a mix hold more where nothing in it does.
const HOLDER: &str = "coir_pith";
/// Deeper pots that are tried, as multiples of this one's height.
const DEEPER: [f64; 6] = [1.25, 1.5, 1.75, 2.0, 2.5, 3.0];
/// No bench pot is deeper than this.
const DEEPEST: Length = Length::from_millimetres(400.0);

/// One sentence: what is wrong and what to do, or how to mix it.
pub fn advice(case: &Case, best: &Judged, found: &[Complaint]) -> String {
    let Some(&worst) = found.first() else {
        return words::MIX_IT.to_owned();
    };
    let purpose = case.limits.purpose;
    let (mends, else_do) = match worst {
        Complaint::TooLittleAir | Complaint::LittleAir => (
            [with_more(case, opener(case), worst), deeper(case, worst)],
            words::live_with_wet(purpose),
        ),
        Complaint::MuchAir | Complaint::LittleEasyWater | Complaint::LittleWater => (
            [with_more(case, holder(case), worst), None],
            words::live_with_dry(purpose),
        ),
    };
    let mends: Vec<String> = mends.into_iter().flatten().collect();
    let mend = if mends.is_empty() {
        else_do.to_owned()
    } else {
        mends.join(", or ")
    };
    format!("{}: {mend}.", words::complaint(worst, case.limits, best))
}

/// The stiff material of the mix that holds least water, or coarse perlite.
fn opener(case: &Case) -> Option<&'static Material> {
    let driest = |a: &&Part, b: &&Part| water_held(a).total_cmp(&water_held(b));
    case.parts
        .iter()
        .filter(|part| part.material.nature == Nature::Mineral && part.material.grain_mm >= 2.0)
        .min_by(driest)
        .map(|part| part.material)
        .or_else(|| material(OPENER))
}

/// The soft material of the mix that holds most water, or coir pith.
fn holder(case: &Case) -> Option<&'static Material> {
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

/// Whether a changed case has shed the complaint without a worse one in its place.
fn mended(changed: &Case, worst: Complaint) -> bool {
    let after = complaints(changed.limits, &judged(changed, &Inputs::best(changed)));
    let air =
        |complaint: &Complaint| matches!(complaint, Complaint::TooLittleAir | Complaint::LittleAir);
    !after.contains(&worst) && !after.iter().any(air)
}

/// The smallest addition of a material that mends the complaint.
fn with_more(case: &Case, addition: Option<&'static Material>, worst: Complaint) -> Option<String> {
    let addition = addition?;
    ADDITIONS.iter().copied().find_map(|share| {
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
                let part = Part::of(
                    addition,
                    added,
                    Bought::in_bags_of(Volume::from_litres(1.0)),
                )
                .ok()?;
                parts.push(part);
            }
        }
        let mut changed = case.clone();
        changed.set_parts(parts);
        /// The mix that an addition is told for, L.
        const TOLD_FOR_LITRES: f64 = 10.0;
        mended(&changed, worst)
            .then(|| words::add(share * TOLD_FOR_LITRES, addition.name, TOLD_FOR_LITRES))
    })
}

/// The least deep pot, of those tried, that mends the complaint.
fn deeper(case: &Case, worst: Complaint) -> Option<String> {
    DEEPER.iter().copied().find_map(|times| {
        let fill = case.fill * times;
        if fill > DEEPEST {
            return None;
        }
        let mut changed = case.clone();
        let volume = case.vessel.volume_to(case.fill) * times;
        changed.vessel = Vessel::straight(volume, fill);
        changed.fill = fill;
        let deep = (case.vessel.height() * times).in_millimetres();
        mended(&changed, worst).then(|| words::taller((deep / 10.0).ceil() * 10.0))
    })
}
