//! How the best figures came about.

use super::case::Case;
use super::inputs::{fallen, share_of_seeds};
use super::plan::Plan;
use super::words;
use crate::handbook::crops::{ageing, between};
use crate::handbook::sources;
use crate::reckon::answer::Step;
use crate::reckon::words::number;

/// The steps, for the first sowing.
pub fn working(case: &Case, plan: &Plan) -> Vec<Step> {
    let Some((sown, stages)) = plan.sown_stages().next() else {
        return Vec::new();
    };
    let Some(sowing) = case.sowings.get(sown.row) else {
        return Vec::new();
    };
    let two = |value: f64| number(value, 2);
    let three = |value: f64| number(value, 3);
    let (a, b) = share_of_seeds(case, sown.row, sowing).unwrap_or((1.0, 1.0));
    let of = words::sowing_on(case, sown);
    let room = plan.room.get(sown.row).map_or(0, |room| room.then);
    let mut steps = vec![
        Step::new(
            words::WHAT_SEEDS,
            "fewest n with P(X ≥ k) ≥ c, X beta-binomial(n, a, b)",
            format!(
                "{of}: k {}, c {}, a {}, b {}, so a share of {} on the mean",
                sowing.wanted,
                two(case.certainty),
                three(a),
                three(b),
                two(a / (a + b))
            ),
            sown.cells.to_string(),
            &sources::COMMON_PRACTICE,
        ),
        Step::new(
            words::WHAT_DAYS,
            "Σ (T − Tb) of each day until the sum is reached; coming up by rates 1/days",
            format!(
                "{of}: up after {} days, potted or moved after {}",
                three(stages.up),
                three(stages.potted)
            ),
            format!("{} days", three(stages.ready)),
            &sources::CROP_STAGES,
        ),
        Step::new(
            words::WHAT_BETWEEN,
            "days or warmth of the handbook × e^(σ z), z standard normal",
            words::between(case.between),
            words::times_between(case.between),
            between::SOURCE,
        ),
        Step::new(
            words::WHAT_ROOM,
            "the most of ⌊l/d⌋ ⌊b/d⌋ and of staggered rows, √3/2 d apart",
            format!(
                "{of}: {} mm from pot to pot",
                three(sowing.potting.spacing.in_millimetres())
            ),
            room.to_string(),
            &sources::COMMON_PRACTICE,
        ),
    ];
    if let Some([fresh, now]) = fallen(case, sown.row, sowing)
        && let Some((years, keeping)) = sowing.aged
    {
        steps.push(Step::new(
            words::WHAT_AGE,
            "v = K_i − d/σ in probits; log σ = K_E − C_W log m − C_H t − C_Q t²",
            format!(
                "{}: {} fresh, {} years {}: m {} %, t {} °C",
                sowing.crop.name,
                two(fresh),
                two(years),
                keeping.name,
                two(keeping.moisture_percent),
                two(keeping.temperature_c)
            ),
            two(now),
            ageing::SOURCE,
        ));
    }
    if case
        .own
        .iter()
        .any(|own| own.grows.or(own.comes_up).is_some())
    {
        steps.push(Step::new(
            words::WHAT_OWN,
            "mean of ln(way gone/way thought), each weighed by 1/variance, the handbook’s among them",
            words::own_of_case(case),
            String::new(),
            &sources::OWN_BATCHES,
        ));
    }
    steps
}
