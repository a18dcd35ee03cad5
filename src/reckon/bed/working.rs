//! How the best figures came about.

use super::physics::Scene;
use super::question::Demand;
use super::words;
use crate::handbook::sources;
use crate::reckon::answer::Step;

/// The steps.
pub fn working(scene: &Scene<'_>, told: &words::Told<'_>) -> Vec<Step> {
    let at = &told.chosen;
    let case = told.case;
    let mut steps = Vec::new();
    if matches!(case.demand, Demand::OfLeaves { .. }) {
        steps.push(Step::new(
            words::WHAT_THIRST,
            "E = k τ R/λ over the leaves, times habit and day",
            words::thirst_put_in(case),
            words::thirst_result(scene.demand_litres),
            &sources::STAND_BY_SUN,
        ));
    }
    steps.extend([
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
        Step::new(
            words::WHAT_SALT,
            "t = (3 - 1) d θ/E",
            words::salt_put_in(scene.evaporates_mm_per_d),
            words::salt_result(at),
            &sources::SALT_CRUST,
        ),
    ]);
    steps
}
