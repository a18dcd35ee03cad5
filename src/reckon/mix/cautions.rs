//! What to mind with a mix, before which step.

use super::case::{Case, Part};
use super::physics::Mixed;
use super::words;
use crate::handbook::materials::Dust;
use crate::handbook::safety;
use crate::handbook::sources::{COMMON_PRACTICE, Source};
use crate::measure::{AreaLoad, Range};
use crate::reckon::answer::Caution;

/// The cautions, in the order of the work. The load on the bench is given where it is known, kg/m².
pub fn cautions(case: &Case, mixed: &Mixed, bench_load: Option<Range<f64>>) -> Vec<Caution> {
    let any = |test: fn(&Part) -> bool| case.parts.iter().any(test);
    let mut cautions = Vec::new();
    let mut mind = |before: &str, sentence: String, source: &'static Source| {
        cautions.push(Caution {
            before: before.to_owned(),
            sentence,
            source,
        });
    };
    if any(|part| part.material.living) {
        mind(
            words::BEFORE_OPENING,
            words::legionella(),
            safety::LEGIONELLA,
        );
    }
    if any(|part| part.material.dust == Dust::Silica) {
        mind(words::BEFORE_MIXING, words::silica(), safety::SILICA_DUST);
    } else if any(|part| part.material.dust != Dust::None) {
        mind(
            words::BEFORE_MIXING,
            words::nuisance_dust(),
            safety::NUISANCE_DUST,
        );
    }
    let wet_kg = mixed.wet_kg();
    let (bag_litres, bag_kg) = heaviest_bag(case);
    let lifting = if bag_kg.max(wet_kg) > safety::LIFT_AT_ARMS_LENGTH.women_kg {
        words::lifting(bag_litres, bag_kg, wet_kg)
    } else {
        words::lifting_small(wet_kg)
    };
    mind(words::BEFORE_LIFTING, lifting, safety::LIFT_CLOSE.source);
    let limit = case
        .bench
        .and_then(|bench| bench.limit)
        .map(AreaLoad::in_kilograms_per_square_metre);
    if let (Some(limit), Some(load)) = (limit, bench_load)
        && load.high() > limit
    {
        mind(
            words::BEFORE_SETTING_OUT,
            words::bench_overloaded(load, limit),
            &COMMON_PRACTICE,
        );
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
