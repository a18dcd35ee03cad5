//! What to mind with a mix, before which step.

use super::case::Case;
use super::physics::Mixed;
use super::words;
use crate::handbook::safety;
use crate::handbook::sources::COMMON_PRACTICE;
use crate::measure::{AreaLoad, Range};
use crate::reckon::answer::Caution;
use crate::reckon::cautions as of_all;

/// The cautions, in the order of the work. The load on the bench is given where it is known, kg/m².
pub fn cautions(case: &Case, mixed: &Mixed, bench_load: Option<Range<f64>>) -> Vec<Caution> {
    let mut cautions = Vec::new();
    if case.parts.iter().any(|part| part.material.living) {
        cautions.push(of_all::legionella(words::BEFORE_OPENING));
    }
    let dusts = case.parts.iter().map(|part| part.material.dust);
    cautions.extend(of_all::dust(words::BEFORE_MIXING, dusts));
    let wet_kg = mixed.wet_kg();
    let (bag_litres, bag_kg) = heaviest_bag(case);
    let lifting = if bag_kg.max(wet_kg) > safety::LIFT_AT_ARMS_LENGTH.women_kg {
        words::lifting(bag_litres, bag_kg, wet_kg)
    } else {
        words::lifting_small(wet_kg)
    };
    cautions.push(Caution::new(
        words::BEFORE_LIFTING,
        lifting,
        safety::LIFT_CLOSE.source,
    ));
    let limit = case
        .bench
        .and_then(|bench| bench.limit)
        .map(AreaLoad::in_kilograms_per_square_metre);
    if let (Some(limit), Some(load)) = (limit, bench_load)
        && load.high() > limit
    {
        cautions.push(Caution::new(
            words::BEFORE_SETTING_OUT,
            words::bench_overloaded(load, limit),
            &COMMON_PRACTICE,
        ));
    }
    cautions
}

/// Litres and damp weight in kg of the heaviest bag.
fn heaviest_bag(case: &Case) -> (f64, f64) {
    const GRAMS_PER_KILOGRAM: f64 = 1000.0;
    let bags = case.parts.iter().map(|part| {
        let litres = part.bought.bag.in_litres();
        let grams_per_litre = part.material.bagged_density_g_per_l.range.best();
        (litres, litres * grams_per_litre / GRAMS_PER_KILOGRAM)
    });
    bags.max_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or_default()
}
