//! How the best figures came about.

use super::inputs::limit;
use super::next_pot;
use super::told::Found;
use super::waiting::gain_of_next;
use super::words;
use crate::handbook::moving;
use crate::handbook::sources;
use crate::reckon::answer::Step;
use crate::reckon::words::number;

/// The steps.
pub fn working(found: &Found<'_>) -> Vec<Step> {
    let Found {
        case,
        inputs,
        nights,
        run,
        chances,
        ..
    } = *found;
    let two = |value: f64| number(value, 2);
    let three = |value: f64| number(value, 3);
    let [seven, fourteen, all] = chances;
    let mut steps = vec![
        Step::new(
            words::WHAT_SHARE,
            "Σ (T − Tb) of each day since, by the sum of this step; slower below 10 mol/m² of light",
            format!(
                "{} to {} °C over {} days, Tb {} °C, sum {} °C d",
                three(case.stood.low_c),
                three(case.stood.high_c),
                case.days_since(),
                three(inputs.growth.base_c()),
                three(inputs.sum)
            ),
            two(run.share),
            case.sum.source,
        ),
        Step::new(
            words::WHAT_CHANCE,
            "P(every night > limit): season + offset of the place + a fast and a slow deviation, given the log and the forecast",
            format!(
                "limit {} °C, {} nights of log, {} of forecast, place {} ± {} K warmer",
                three(inputs.limit_c),
                case.log.len(),
                case.forecasts.len(),
                two(nights.offset_k[0]),
                two(nights.offset_k[1])
            ),
            format!(
                "{} for 7, {} for 14, {} for 21",
                two(seven),
                two(fourteen),
                two(all)
            ),
            &sources::NIGHT_MEMORY,
        ),
        Step::new(
            words::WHAT_LIMIT,
            "night minimum for an unheated house, less what a cover adds",
            format!("{}: {} °C", case.crop.name, three(inputs.limit_c)),
            format!("{} °C", three(inputs.limit_c)),
            limit(case).map_or(&sources::COMMON_PRACTICE, |limit| limit.source),
        ),
        Step::new(
            words::WHAT_LOSS,
            "1 − exp(−(waiting + early)), each the sum of what its days and nights take",
            format!(
                "best day, {} from today: waiting {}, early {}",
                run.best,
                three(run.waiting.get(run.best).copied().unwrap_or(0.0)),
                three(run.early.get(run.best).copied().unwrap_or(0.0))
            ),
            two(run.loss(run.best)),
            moving::COSTS,
        ),
    ];
    if let Some((next, gain)) = case.next.zip(gain_of_next(case)) {
        steps.push(Step::new(
            words::WHAT_POT,
            "(V/V′)^log₂ 1.43",
            format!(
                "{} L after {} L",
                three(next.filled().in_litres()),
                three(case.pot.filled().in_litres())
            ),
            two(gain),
            &sources::POORTER_2012,
        ));
    }
    steps.extend(
        found
            .next_pots
            .iter()
            .find(|size| size.take)
            .map(next_pot::step),
    );
    steps
}
