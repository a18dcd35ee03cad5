//! How the best figures of Rinse came about, step by step.

use super::physics::Inputs;
use super::question::{Case, Holder};
use super::words::{conductivity, litres, number};
use crate::handbook::sources;
use crate::reckon::answer::Step;
use crate::science::rinsing::Way;

/// The working, in the order of the reckoning.
pub fn working(case: &Case, inputs: &Inputs) -> Vec<Step> {
    let step = Step::new;
    let holds = inputs.holds;
    let mut steps = Vec::new();
    if let Some(celsius) = case.celsius {
        steps.push(step(
            "Reading at 25 °C",
            "EC / (1 + a (T − 25))",
            format!(
                "{} / (1 + {} × ({} − 25))",
                conductivity(case.read_ms_per_cm),
                number(inputs.per_kelvin, 3),
                number(celsius, 3)
            ),
            conductivity(inputs.read_ms_per_cm),
            &sources::ISO_7888,
        ));
    }
    steps.push(match &case.holder {
        Holder::Known(material) => step(
            "Water held once drained",
            "mean of θ(h) over the heap, suction h = height above its base",
            format!(
                "{}, {} cm deep, of {} L/L of pores",
                material.name,
                number(case.depth.in_centimetres(), 3),
                number(inputs.pore_space, 2)
            ),
            format!("{} L/L", number(holds.water, 2)),
            &sources::MILKS_1989,
        ),
        Holder::Own { held, .. } => step(
            "Water held once drained",
            "as you measured it",
            format!("{} L/L", number(*held, 2)),
            format!("{} L/L", number(holds.water, 2)),
            &sources::COMMON_PRACTICE,
        ),
    });
    steps.push(step(
        "What salt is spread over",
        "held water × R, where R is for what the grains hold on to",
        format!(
            "{} × {}",
            number(holds.water, 2),
            number(holds.all() / holds.water, 3)
        ),
        format!("{} L/L", number(holds.all(), 2)),
        &sources::RINSING_JUDGEMENT,
    ));
    let extract = inputs.extract;
    let sampled = if extract.water > 0.0 {
        inputs.water
    } else {
        holds.water
    } + holds.on_grains;
    steps.push(step(
        "Salt in a litre of it",
        "(EC − own) × (w + h) − w × EC of the extract's water",
        format!(
            "({} − {}) × ({} + {}) − {} × {}",
            number(inputs.read_ms_per_cm, 3),
            number(extract.background_ms_per_cm, 2),
            number(extract.water, 2),
            number(sampled, 2),
            number(extract.water, 2),
            number(extract.water_ms_per_cm, 2)
        ),
        format!("{} mS/cm × L", number(inputs.salt, 3)),
        &sources::EN_13038,
    ));
    let (formula, share) = match inputs.way {
        Way::Soak { mixing } => (
            "C − e (C − (C W + EC A) / (W + A))",
            format!("e = {}", number(mixing, 2)),
        ),
        Way::Trickle { swept } => (
            "EC + (C − EC) exp(−V / (f W))",
            format!("f = {}", number(swept, 2)),
        ),
    };
    steps.push(step(
        "Each rinse",
        formula,
        format!(
            "{share}, W = {} L/L, A = {} L/L, EC = {}",
            number(holds.all(), 2),
            number(inputs.added, 3),
            conductivity(inputs.source)
        ),
        inputs.rinses().next().map_or_else(String::new, |rinse| {
            format!(
                "{} in the extract after the first",
                conductivity(rinse.extract)
            )
        }),
        &sources::BUNT_1974,
    ));
    steps.push(step(
        "Least that this water allows",
        "(EC W + w × EC of the extract's water) / (w + W) + own",
        format!(
            "({} × {} + {} × {}) / ({} + {}) + {}",
            number(inputs.source, 2),
            number(holds.all(), 2),
            number(extract.water, 2),
            number(extract.water_ms_per_cm, 2),
            number(extract.water, 2),
            number(holds.all(), 2),
            number(extract.background_ms_per_cm, 2)
        ),
        conductivity(inputs.least()),
        &sources::EN_13038,
    ));
    steps.push(step(
        "Rinses",
        "the first after which the extract reads the target or less",
        format!("{} to come down to", conductivity(inputs.target())),
        format!("{}", case.rinses),
        &sources::SALT_TARGETS,
    ));
    steps.push(step(
        "Weight, wet and drained",
        "(dry density + held water) × litres",
        format!(
            "({} + {}) kg/L × {}",
            number(inputs.dry_kg_per_l, 2),
            number(holds.water, 2),
            litres(case.litres)
        ),
        format!("{} kg", number(inputs.wet_kg_per_l() * case.litres, 3)),
        &sources::CONSENSUS,
    ));
    steps
}
