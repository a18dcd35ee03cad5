//! How the best figures of Mix came about, step by step.

use super::case::Case;
use super::physics::{EASY_FROM_CM, EASY_TO_CM, Inputs, Mixed};
use super::words::{litres, number, percent};
use crate::handbook::sources;
use crate::handbook::thresholds::Use;
use crate::reckon::answer::Step;

/// The working, in the order of the reckoning.
pub fn working(case: &Case, inputs: &Inputs, mixed: &Mixed) -> Vec<Step> {
    let step = Step::new;
    let fill_mm = number(case.fill.in_millimetres(), 3);
    let tray_mm = number(case.tray.in_millimetres(), 2);
    let sum = |of: &dyn Fn(usize) -> String| {
        (0..inputs.parts.len())
            .map(of)
            .collect::<Vec<_>>()
            .join(" + ")
    };
    let share = |i: usize| number(inputs.parts[i].share, 2);
    let mut steps = vec![
        step(
            "Volume lost on mixing",
            "s = k (1 − Σ vφ / φ mix)",
            format!(
                "k = {} of the {} that hard grains of these sizes would lose",
                number(inputs.share_of_loss, 2),
                percent(mixed.hard_loss)
            ),
            percent(mixed.volume_lost),
            &sources::DE_LARRARD_1999,
        ),
        step(
            "Pore space that water enters",
            "1 − Σ v (1 − θs) / (1 − s)",
            format!(
                "1 − ({}) / (1 − {})",
                sum(&|i| format!(
                    "{} × {}",
                    share(i),
                    number(1.0 - inputs.parts[i].retention.saturated(), 2)
                )),
                number(mixed.volume_lost, 2)
            ),
            percent(mixed.pore_space),
            &sources::TRAPPED_ON_WETTING,
        ),
        step(
            "Volume of mix in the pot",
            "V = ∫ A(z) dz from the base to the mix's top",
            format!("{fill_mm} mm of mix, the pot widening as measured"),
            litres(mixed.litres_in_pot),
            &sources::HERSHEY_1988,
        ),
        step(
            "Water, once drained",
            "mean of θ(h) over the pot, suction h = height above the base",
            format!(
                "θ from {} at the base to {} at {fill_mm} mm, by volume at each height",
                percent(mixed.pore_space),
                percent(mixed.water_at_suction(case.fill.in_centimetres()))
            ),
            percent(mixed.water),
            &sources::MILKS_1989,
        ),
        step(
            "Air, once drained",
            "pore space − water",
            format!("{} − {}", percent(mixed.pore_space), percent(mixed.water)),
            percent(mixed.drained_air()),
            &sources::MILKS_1989,
        ),
        step(
            "Air, standing in a filled tray",
            "the same with h = height above the water",
            format!("{tray_mm} mm of water, full pores below it"),
            percent(mixed.standing_air),
            &sources::MILKS_1989,
        ),
        step(
            "Easily available water",
            "θ(10 cm) − θ(50 cm)",
            format!(
                "{} − {}",
                percent(mixed.laboratory_water(EASY_FROM_CM)),
                percent(mixed.laboratory_water(EASY_TO_CM))
            ),
            percent(mixed.easy_water),
            &sources::DE_BOODT_1972,
        ),
        step(
            "Weight of the mix in one pot",
            "dry: Σ v ρ / (1 − s) × V; wet: and 1 kg for each litre of water",
            format!(
                "({}) g/L / (1 − {}) × {}",
                sum(&|i| format!(
                    "{} × {}",
                    share(i),
                    number(inputs.parts[i].dry_density_kg_per_m3, 3)
                )),
                number(mixed.volume_lost, 2),
                litres(mixed.litres_in_pot)
            ),
            format!(
                "{} kg dry, {} kg wet",
                number(mixed.dry_kg(), 2),
                number(mixed.wet_kg(), 2)
            ),
            &sources::CONSENSUS,
        ),
        step(
            "Loose mix for all pots",
            "pots × V × (1 + pressed) × (1 + spilt)",
            format!(
                "{} × {} × {} × {}",
                number(case.pots, 6),
                litres(mixed.litres_in_pot),
                number(1.0 + inputs.pressed, 3),
                number(1.0 + inputs.spilt, 3)
            ),
            litres(mixed.litres_needed),
            &sources::VERHAGEN_2017,
        ),
    ];
    if case.limits.purpose == Use::FedFromBelow {
        steps.insert(
            6,
            step(
                "Air that is judged",
                "mean of drained and standing",
                format!(
                    "({} + {}) / 2",
                    percent(mixed.drained_air()),
                    percent(mixed.standing_air)
                ),
                percent(mixed.judged(case.limits.purpose).air),
                &sources::AIR_JUDGEMENT,
            ),
        );
    }
    steps
}
