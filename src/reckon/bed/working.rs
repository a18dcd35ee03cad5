//! How the best figures came about.

use super::physics::Scene;
use super::question::Case;
use super::words;
use crate::handbook::sources;
use crate::reckon::answer::Step;

/// The steps.
pub fn working(case: &Case, scene: &Scene<'_>, told: &words::Told<'_>) -> Vec<Step> {
    let at = &told.chosen;
    vec![
        Step::new(
            words::WHAT_AIR,
            "mean over the ball of pores − θ(h), suction h = height above the water",
            words::air_put_in(told),
            words::air_result(at),
            &sources::MILKS_1989,
        ),
        Step::new(
            words::WHAT_LIFTED,
            "z = ∫ ds / (1 + q/K(s))",
            words::lifted_put_in(scene.demand_litres, case),
            words::lifted_result(told.breaks_at_cm),
            &sources::BED_GAPS,
        ),
        Step::new(
            words::WHAT_SUCTION,
            "the same through bed and ball, from the emptiest level to mid-pot",
            words::suction_put_in(told),
            words::suction_result(at),
            &sources::TOMATO_SUCTION_2015,
        ),
    ]
}
