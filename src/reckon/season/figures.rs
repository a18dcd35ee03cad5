//! What Season comes to, as a table.

use super::calendar::{LONGEST_DAYS, Stages};
use super::case::Case;
use super::plan::Plan;
use super::weeks::{FULL, busiest, fullest, weeks};
use super::words;
use crate::handbook::crops::Property;
use crate::measure::{Duration, Fraction, Number};
use crate::reckon::Outcome;
use crate::reckon::answer::{FigureName, Verdict};

/// Seconds of a day, and of an hour.
const DAY_S: f64 = 86_400.0;
const HOUR_S: f64 = 3600.0;
/// A bench so much over its room can be squeezed.
const SQUEEZES: f64 = 1.05;

/// The names.
pub fn names(case: &Case, plan: &Plan) -> Vec<FigureName> {
    let mut names = vec![
        FigureName::of::<Fraction>("fullest", words::FULLEST, Fraction::PERCENT.key),
        FigureName::of::<Duration>("hours", words::BUSIEST, Duration::HOUR.key),
    ];
    for (index, sown) in plan.sown.iter().enumerate() {
        let name = |what: &str| [what, "_", &(index + 1).to_string()].concat();
        let of = words::sowing_on(case, sown);
        let label = |what: &str| [what, &of].concat();
        names.push(FigureName::of::<Number>(
            &name("seeds"),
            &label(words::SEEDS),
            Number::ONE.key,
        ));
        for (key, words) in [
            ("up", words::COMES_UP),
            ("potted", words::IS_POTTED),
            ("ready", words::IS_READY),
        ] {
            names.push(FigureName::of::<Duration>(
                &name(key),
                &label(words),
                Duration::DAY.key,
            ));
        }
    }
    names
}

/// One outcome, from when each sowing comes to what.
pub fn outcome(case: &Case, plan: &Plan, stages: &[Option<Stages>]) -> Outcome {
    let weeks = weeks(case, plan, stages);
    let taken = fullest(&weeks).map_or(0.0, |(_, _, taken)| taken);
    let hours = busiest(&weeks).map_or(0.0, |(_, hours)| hours);
    let mut values = vec![taken, hours * HOUR_S];
    for (sown, stages) in plan.sown.iter().zip(stages) {
        let longest = LONGEST_DAYS as f64;
        let stages = stages.unwrap_or(Stages {
            up: longest,
            potted: longest,
            ready: longest,
        });
        values.push(f64::from(sown.seeds));
        values.extend([stages.up, stages.potted, stages.ready].map(|days| days * DAY_S));
    }
    let all_ready = stages.iter().all(Option::is_some);
    let verdict = if taken > SQUEEZES || !all_ready {
        Verdict::DoesNotServe
    } else if taken > FULL || hours > case.hands.hours || !cold_nights(case, plan).is_empty() {
        Verdict::Watch
    } else {
        Verdict::Serves
    };
    Outcome { values, verdict }
}

/// Sowings that go into an unheated house before its nights are warm enough for them, by the mean minimum of the days
/// on which they are potted: their place in the plan, and that minimum, °C.
pub fn cold_nights(case: &Case, plan: &Plan) -> Vec<(usize, f64)> {
    let cold = |(index, (sown, stages)): (usize, (&super::plan::Sown, &Stages))| {
        let sowing = case.sowings.get(sown.row)?;
        let stand = case.stands.get(sowing.then)?;
        if stand.warmth != super::case::Warmth::House {
            return None;
        }
        let limit = sowing
            .crop
            .figure(Property::NightForColdHouse)?
            .range
            .best();
        let on = sown.on.plus(stages.potted as i32);
        let [night_k, _] = stand.warmer_k;
        let low = case.climate.lowest_on(super::calendar::day_of_year(on)) + night_k;
        (low < limit).then_some((index, low))
    };
    plan.sown
        .iter()
        .zip(&plan.stages)
        .enumerate()
        .filter_map(cold)
        .collect()
}
