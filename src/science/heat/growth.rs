//! What warmth at the root is worth to growth.
//!
//! A plant answers to the warmth of its root and of its shoot. The response curve to temperature is known for
//! whole plants and for roots alone when all else is at its best; where the root alone is warmed, growth
//! rises far less than that curve says, since leaves and light go on as before. The root's part is 1 where it
//! is all that grows (emergence, rooting of cuttings), and about 0.3 for plants in leaf. It is told in one of
//! two ways, which agree for rates that are not far apart:
//!
//! * as an exponent on the ratio of two mean rates ([`damped_ratio`]). It runs away where the colder rate
//!   nears nought;
//! * as a share of growth that follows the root, while the rest goes on ([`shared_ratio`]). It does not, and
//!   of the two it is the one that tells a trial to which neither was fitted.

use crate::science::thermal_time::Cardinals;

/// The mean over equal times of the rate of growth as a share of the greatest, by the beta function whose
/// falling part is straight; nought for no times at all.
///
/// Source: Yan & Hunt 1999, Annals of Botany 84:607-614 (see [`Cardinals::rate_by_yan_hunt_1999`]).
#[must_use]
pub fn mean_rate(cardinals: &Cardinals, temperatures_c: &[f64]) -> f64 {
    if temperatures_c.is_empty() {
        return 0.0;
    }
    let sum: f64 = temperatures_c
        .iter()
        .map(|&temperature_c| cardinals.rate_by_yan_hunt_1999(temperature_c))
        .sum();
    sum / temperatures_c.len() as f64
}

/// How much faster a plant grows than beside it, from the mean rates of its root and of the other's, the root's
/// share as the exponent. None where neither or only the other grows not at all, so that no ratio can be
/// told.
#[must_use]
pub fn damped_ratio(rate: f64, beside: f64, exponent: f64) -> Option<f64> {
    (rate >= 0.0 && beside > 0.0 && exponent >= 0.0 && rate.is_finite() && beside.is_finite())
        .then(|| (rate / beside).powf(exponent))
}

/// How many times as fast a plant grows as one beside it, where a share of growth follows the mean rate of the
/// root and the rest goes on as it is: (1 - s + s r)/(1 - s + s r'). None where a rate or the share lies
/// outside 0 to 1, or where the other does not grow at all.
///
/// No published form; the simplest that is right at both ends. For its check see the tests.
#[must_use]
pub fn shared_ratio(rate: f64, beside: f64, share: f64) -> Option<f64> {
    let within = |x: f64| (0.0..=1.0).contains(&x);
    let grows = |rate: f64| 1.0 - share + share * rate;
    (within(rate) && within(beside) && within(share) && grows(beside) > 0.0)
        .then(|| grows(rate) / grows(beside))
}

/// The exponent that a trial tells: growth was so many times that beside it, where the rates were in that
/// ratio. None where the rates do not differ.
#[must_use]
pub fn exponent_of_trial(grew_times: f64, rate: f64, beside: f64) -> Option<f64> {
    let ratio = (rate / beside).ln();
    (grew_times > 0.0 && ratio.is_finite() && ratio.abs() > f64::EPSILON)
        .then(|| grew_times.ln() / ratio)
}

/// Hours of a day, given at equal times, that lie below a limit; straight lines between the times, the last
/// joined to the first.
#[must_use]
pub fn hours_below(temperatures_c: &[f64], limit_c: f64) -> f64 {
    let times = temperatures_c.len();
    let below: f64 = (0..times)
        .map(|time| {
            let (from, to) = (
                temperatures_c[time] - limit_c,
                temperatures_c[(time + 1) % times] - limit_c,
            );
            match (from < 0.0, to < 0.0) {
                (true, true) => 1.0,
                (false, false) => 0.0,
                (true, false) => from / (from - to),
                (false, true) => to / (to - from),
            }
        })
        .sum();
    if times == 0 {
        0.0
    } else {
        24.0 * below / times as f64
    }
}
