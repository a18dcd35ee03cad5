//! What Season comes to, as a table.

use super::calendar::{LONGEST_DAYS, Stages};
use super::case::{Batch, Case};
use super::plan::{Courses, Plan};
use super::weeks::{FULL, Week, busiest, fullest, to_come, too_heavy, weeks};
use super::words;
use crate::measure::{Duration, Fraction, Number};
use crate::reckon::Outcome;
use crate::reckon::answer::{FigureName, Verdict};

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
    for (index, batch) in foretold(case) {
        for (key, words) in [("potted", words::IS_POTTED), ("ready", words::IS_READY)] {
            let label = [words, &words::batch_sown(batch)].concat();
            let name = of_batch(key, index);
            names.push(FigureName::of::<Duration>(&name, &label, Duration::DAY.key));
        }
    }
    names
}

/// The name of a figure of a batch.
pub fn of_batch(what: &str, index: usize) -> String {
    ["batch_", what, "_", &(index + 1).to_string()].concat()
}

/// The batches of which something is still to come.
fn foretold(case: &Case) -> impl Iterator<Item = (usize, &Batch)> {
    let all = case.batches.iter().enumerate();
    all.filter(|(_, batch)| batch.gone.is_none() && batch.picked.or(batch.known[2]).is_none())
}

/// The outcome at the best figures.
pub fn best(case: &Case, plan: &Plan) -> Outcome {
    of_weeks(case, plan, &plan.courses, &plan.weeks)
}

/// One outcome, from when each sowing comes to what.
pub fn outcome(case: &Case, plan: &Plan, courses: &Courses) -> Outcome {
    of_weeks(case, plan, courses, &weeks(case, plan, courses))
}

fn of_weeks(case: &Case, plan: &Plan, courses: &Courses, weeks: &[Week]) -> Outcome {
    let weeks = to_come(case, plan, weeks);
    let taken = fullest(weeks).map_or(0.0, |(_, _, taken)| taken);
    let hours = busiest(weeks).map_or(0.0, |(_, hours)| hours);
    let mut values = vec![taken, Duration::from_hours(hours).in_seconds()];
    let longest = LONGEST_DAYS as f64;
    let never = Stages {
        up: longest,
        potted: longest,
        ready: longest,
    };
    for (sown, stages) in plan.sown.iter().zip(&courses.sown) {
        let stages = stages.unwrap_or(never);
        values.push(f64::from(sown.seeds));
        let days = [stages.up, stages.potted, stages.ready];
        values.extend(days.map(|days| Duration::from_days(days).in_seconds()));
    }
    for (index, _) in foretold(case) {
        let stages = courses.batches.get(index).copied().flatten();
        let stages = stages.unwrap_or(never);
        let days = [stages.potted, stages.ready];
        values.extend(days.map(|days| Duration::from_days(days).in_seconds()));
    }
    let all_ready = courses.sown.iter().all(Option::is_some);
    let verdict = if taken > SQUEEZES || !all_ready || too_heavy(case, weeks) {
        Verdict::DoesNotServe
    } else if taken > FULL || hours > case.hands.hours || !plan.cold_nights.is_empty() {
        Verdict::Watch
    } else {
        Verdict::Serves
    };
    Outcome { values, verdict }
}
