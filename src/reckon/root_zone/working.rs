//! How the best figures came about.

use super::case::{Case, Stand};
use super::come::Outcomes;
use super::inputs::Inputs;
use super::weather::When;
use super::words::{WHAT_DEEP, WHAT_GROWTH, WHAT_HEAT, WHAT_RATE, WHAT_ROOTS, celsius};
use crate::handbook::sources;
use crate::reckon::answer::Step;
use crate::reckon::words::number;

/// The steps.
pub fn working(case: &Case, inputs: &Inputs, when: &When, out: &Outcomes) -> Vec<Step> {
    let deep = when.deep(case, inputs).in_celsius();
    let come = out.at(case.stand);
    let bench = out.at(Stand::Bench);
    let growth = out.growth(case.stand);
    let two = |value: f64| number(value, 2);
    let three = |value: f64| number(value, 3);
    vec![
        Step::new(
            WHAT_DEEP,
            "T = Tm − A exp(−z/d) cos[2π(t − t₀)/year − z/d]",
            if case.ground.deep.is_some() {
                "your own reading".to_owned()
            } else {
                format!(
                    "Tm {}, A {} K, coldest on day {}, z 1 m, d {} m",
                    celsius(inputs.ground_mean_c),
                    two(inputs.ground_swing_k),
                    two(inputs.ground_coldest_day),
                    three(
                        inputs
                            .earth
                            .damping_depth_m(crate::science::heat::ground::YEAR_S)
                    )
                )
            },
            celsius(deep),
            &sources::HEAT_JUDGEMENT,
        ),
        Step::new(
            WHAT_ROOTS,
            "heat in − heat out = heat stored, for ground, tray, bed and thirds of the pot, until the day repeats itself",
            format!(
                "mix with {} % of water, walls reached by {} of the air, daylight {} h, sun on the mean {} W/m²",
                two(100.0 * inputs.mix.water),
                two(inputs.walls),
                three(when.day_h),
                three(inputs.transmitted * when.sun_w_per_m2)
            ),
            format!(
                "{} to {}, balance closed to {}",
                celsius(come.lowest_c()),
                celsius(come.highest_c()),
                number(come.gap, 1)
            ),
            &sources::HEAT_JUDGEMENT,
        ),
        Step::new(
            WHAT_RATE,
            "mean over the day of the beta function of Yan and Hunt (1999)",
            format!(
                "base {}, best {}, ceiling {}",
                celsius(inputs.cardinals.base_c()),
                celsius(inputs.cardinals.optimum_c()),
                celsius(inputs.cardinals.ceiling_c())
            ),
            format!("{} of the greatest", two(come.root_rate)),
            &sources::ROOT_CARDINALS,
        ),
        Step::new(
            WHAT_GROWTH,
            "(1 − s + s r)/(1 − s + s r′) for roots, and the same with 1 − s for the air on leaves",
            format!("root’s share s {}", two(inputs.root_share)),
            format!(
                "{} × {} = {} times",
                three(growth.roots),
                three(growth.air),
                three(growth.all())
            ),
            &sources::HEAT_JUDGEMENT,
        ),
        Step::new(
            WHAT_HEAT,
            "power installed × share of the day that it runs",
            format!(
                "{} W/m² for {} % of the day",
                three(case.heated.power.in_watts_per_square_metre()),
                two(100.0 * bench.duty)
            ),
            format!("{} kWh/m²", two(bench.kwh_per_m2)),
            &sources::HEAT_JUDGEMENT,
        ),
    ]
}
