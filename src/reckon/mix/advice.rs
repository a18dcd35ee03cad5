//! What would help a mix that does not serve, found on the same model that judged it.

use super::altered::{ADDITIONS, DEEPER, as_tall, holder, opener, with_more};
use super::case::Case;
use super::physics::{Inputs, Judged, judged};
use super::{Complaint, complaints, words};
use crate::handbook::materials::Material;

/// One sentence: what is wrong and what to do, or how to mix it.
pub fn advice(case: &Case, best: &Judged, found: &[Complaint]) -> String {
    let Some(&worst) = found.first() else {
        return words::MIX_IT.to_owned();
    };
    let purpose = case.limits.purpose;
    let (mends, else_do) = match worst {
        Complaint::TooLittleAir | Complaint::LittleAir => (
            [more(case, opener(case), worst), deeper(case, worst)],
            words::live_with_wet(purpose),
        ),
        Complaint::MuchAir | Complaint::LittleEasyWater | Complaint::LittleWater => (
            [more(case, holder(case), worst), None],
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

/// Whether a changed case has shed the complaint without a worse one in its place.
fn mended(changed: &Case, worst: Complaint) -> bool {
    let after = complaints(changed.limits, &judged(changed, &Inputs::best(changed)));
    let air =
        |complaint: &Complaint| matches!(complaint, Complaint::TooLittleAir | Complaint::LittleAir);
    !after.contains(&worst) && !after.iter().any(air)
}

/// The smallest addition of a material that mends the complaint.
fn more(case: &Case, addition: Option<&'static Material>, worst: Complaint) -> Option<String> {
    /// The mix that an addition is told for, L.
    const TOLD_FOR_LITRES: f64 = 10.0;
    let addition = addition?;
    ADDITIONS.iter().copied().find_map(|share| {
        let changed = with_more(case, addition, share)?;
        mended(&changed, worst)
            .then(|| words::add(share * TOLD_FOR_LITRES, addition.name, TOLD_FOR_LITRES))
    })
}

/// The least deep pot, of those tried, that mends the complaint.
fn deeper(case: &Case, worst: Complaint) -> Option<String> {
    DEEPER.iter().copied().find_map(|times| {
        let (changed, deep) = as_tall(case, times)?;
        mended(&changed, worst).then(|| words::taller((deep.in_millimetres() / 10.0).ceil() * 10.0))
    })
}
