//! Hot days where it goes: how far they pass what the crop stands, and what a plant just moved loses to them.

use super::case::{Case, Move};
use super::inputs::Inputs;
use super::nights::DAYS;
use super::words;
use crate::handbook::crops::Property;
use crate::handbook::moving;
use crate::handbook::thirst::MEAN_SUN_MJ_PER_M2;
use crate::measure::{LIMITS_APART, Range};
use crate::reckon::season::day_of_year;
use crate::science::counting::{normal_excess, standard_normal_share_quickly};

/// Days from the last of the days of move over which a plant takes hold: what is left of its danger then is told as
/// none.
const TAKES_HOLD: usize = 14;

/// How far the hottest of three weeks strays from year to year, in standard deviations of a day: that of the largest of
/// 21 normal deviates. Source: Harter 1961, Biometrika 48:151 (from memory).
const HOTTEST_STRAYS: f64 = 0.52;

/// What the open is like by day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Noon {
    /// Mean highest, °C.
    highest_c: f64,
    /// The day's sun as a multiple of a mean day of summer.
    sun: f64,
}

/// The days from today on, as far as the last plant moved takes to take hold.
#[must_use]
pub fn noons(case: &Case) -> Vec<Noon> {
    (0..DAYS + TAKES_HOLD)
        .map(|day| {
            let on = day_of_year(case.today.plus(day as i32));
            Noon {
                highest_c: case.climate.highest_on(on),
                sun: case.climate.radiation_on(on) / MEAN_SUN_MJ_PER_M2.range.best(),
            }
        })
        .collect()
}

/// The highest temperature of a day where it goes, °C: mean and standard deviation, with glass so much warmer by day on
/// a mean day of summer. Where the highest expected there is told, that is the hottest of three weeks.
fn highest(case: &Case, noon: Noon, glass_k: f64) -> [f64; 2] {
    let glass_k = if case.moves == Move::Outdoors {
        0.0
    } else {
        glass_k * noon.sun
    };
    let spread = moving::DAY_SPREAD_K.hypot(moving::SUN_STRAYS * glass_k);
    let mean = case.place.hottest_c.map_or_else(
        || noon.highest_c + glass_k,
        |hottest| hottest - moving::HOTTEST_SPREADS * spread,
    );
    [mean, spread]
}

/// What heat takes by the day of the move, for each of the days and for not moving in them: exponents.
///
/// Each of the days after the move takes its part, the less the better the plant has taken hold; one that is hardened
/// loses less.
#[must_use]
pub fn scorched(case: &Case, inputs: &Inputs) -> Vec<f64> {
    let Some(limit_c) = inputs.hot_c else {
        return vec![0.0; DAYS + 1];
    };
    let kept = (-1.0 / moving::TAKES_HOLD_DAYS).exp();
    let hardened = case.seen.hardened_days.unwrap_or(0.0);
    // From the last day backwards: what comes after a day, as it counts on that day.
    let mut after = 0.0;
    let mut by_day: Vec<f64> = case
        .noons
        .iter()
        .rev()
        .map(|noon| {
            let [mean, spread] = highest(case, *noon, inputs.glass_k);
            let over_k = normal_excess(mean, spread, limit_c);
            after = inputs.scorched_per_k * over_k + kept * after;
            after
        })
        .collect();
    by_day.reverse();
    let soft = |day: usize| {
        if case.moves.into_cold() {
            let hardened = (hardened + day as f64) / inputs.hardening_days;
            1.0 - moving::HARDENED_SPARES * hardened.min(1.0)
        } else {
            1.0
        }
    };
    by_day
        .iter()
        .take(DAYS)
        .enumerate()
        .map(|(day, lost)| soft(day) * lost)
        .chain([0.0])
        .collect()
}

/// What is told of hot days.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct HotTold {
    /// What the crop stands, °C: low, best, high.
    pub stands_c: [f64; 3],
    /// The hottest of the coming three weeks' days where it goes, °C.
    pub hottest_c: [f64; 3],
    /// How far that stays below what the crop stands, K; below nought where it is above.
    pub margin_k: [f64; 3],
    /// The chance that a day passes what the crop stands, on the day of the move that is told as best, or today.
    pub chance: f64,
    /// What heat takes of its worth, moved on that day without shade, of 1.
    pub loses: [f64; 3],
}

/// What is told of hot days; none where it is not known what the crop stands.
#[must_use]
pub fn told(case: &Case, inputs: &Inputs, best: usize) -> Option<HotTold> {
    let stands = case.crop.figure(Property::HeatLimit)?.range;
    let glass = moving::GLASS_WARMER_BY_DAY_K.range;
    let hottest_at = |glass_k: f64| {
        let of_days = case.noons.iter().take(DAYS);
        let days = of_days.map(|noon| {
            let [mean, spread] = highest(case, *noon, glass_k);
            mean + moving::HOTTEST_SPREADS * spread
        });
        days.fold(f64::NEG_INFINITY, f64::max)
    };
    let noon = case.noons.first()?;
    let [_, spread] = highest(case, *noon, inputs.glass_k);
    // Of what is told by the grower only the day strays.
    let strays = LIMITS_APART / 2.0 * HOTTEST_STRAYS * spread;
    let at = [glass.low(), glass.best(), glass.high()].map(hottest_at);
    let [hottest_low, hottest, hottest_high] = at;
    let below = strays.hypot(hottest - hottest_low);
    let above = strays.hypot(hottest_high - hottest);
    let margin = stands.best() - hottest;
    let less = above.hypot(stands.best() - stands.low());
    let more = below.hypot(stands.high() - stands.best());
    let day = if best < DAYS { best } else { 0 };
    let noon = case.noons.get(day).unwrap_or(noon);
    let [mean, spread] = highest(case, *noon, inputs.glass_k);
    let loses = |limit_c: f64, per_k: f64, glass_k: f64| {
        let inputs = Inputs {
            hot_c: Some(limit_c),
            scorched_per_k: per_k,
            glass_k,
            ..inputs.clone()
        };
        let exponent = scorched(case, &inputs).get(day).copied().unwrap_or(0.0);
        super::days::lost(exponent)
    };
    let best_lost = loses(stands.best(), inputs.scorched_per_k, inputs.glass_k);
    // One doubt at a time, put together as independent ones are.
    let [low_cost, high_cost] = cost_limits();
    let together = |limit: f64, cost: f64, glass_k: f64| {
        let by_limit = loses(limit, inputs.scorched_per_k, inputs.glass_k) - best_lost;
        let by_cost = loses(stands.best(), cost, inputs.glass_k) - best_lost;
        let by_glass = loses(stands.best(), inputs.scorched_per_k, glass_k) - best_lost;
        by_limit.hypot(by_cost).hypot(by_glass)
    };
    let less_lost = together(stands.high(), low_cost, glass.low());
    let more_lost = together(stands.low(), high_cost, glass.high());
    Some(HotTold {
        stands_c: three(stands),
        hottest_c: [hottest - below, hottest, hottest + above],
        margin_k: [margin - less, margin, margin + more],
        chance: standard_normal_share_quickly((mean - stands.best()) / spread),
        loses: [
            (best_lost - less_lost).max(0.0),
            best_lost,
            (best_lost + more_lost).min(1.0),
        ],
    })
}

fn three(range: Range<f64>) -> [f64; 3] {
    [range.low(), range.best(), range.high()]
}

fn cost_limits() -> [f64; 2] {
    let range = moving::SCORCHED_PER_K.range;
    [range.low(), range.high()]
}

/// What to say of hot days; nothing where they stay below what the crop stands and take nothing worth telling.
#[must_use]
pub fn sentence(case: &Case, hot: &HotTold) -> Option<String> {
    /// So much of the worth of a plant is worth a sentence. A judgement.
    const WORTH_TELLING: f64 = 0.003;
    let [_, loses, _] = hot.loses;
    let [_, margin, _] = hot.margin_k;
    (loses >= WORTH_TELLING || margin < 0.0).then(|| words::hot_days(case, hot))
}
