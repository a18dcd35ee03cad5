//! Where harm begins, by whether it was seen.
//!
//! A grower never reads a limit: a batch stood through a night of 8 °C and went on, another met 6 °C and did not. Each
//! such trial says on which side of the limit it lay, more or less surely, since trials differ. They draw what was known
//! of the limit before towards what fits them.

use super::counting::standard_normal_share;
use super::numerics::quadrature::integral_in_pieces;

/// What is known of a limit before one's own trials.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Before {
    /// Where it is thought to lie.
    pub mean: f64,
    /// How far it may lie from there: a standard deviation, above nought.
    pub spread: f64,
    /// How far it differs from one trial to the next: a standard deviation, above nought.
    pub scatter: f64,
}

/// A trial: how low it went, and whether there was harm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trial {
    /// What was reached.
    pub reached: f64,
    /// Whether it harmed.
    pub harmed: bool,
}

/// A limit with its doubt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// Its mean.
    pub mean: f64,
    /// Standard deviation of it.
    pub spread: f64,
}

/// Beyond so many standard deviations nothing of a normal density is left that would show.
const FAR: f64 = 9.0;
/// Standard deviations of a piece that is integrated by 32 points.
const PIECE: f64 = 2.25;
/// Narrower than this share of what was known a trial is not taken to be: a step would not be seen.
const LEAST_SCATTER: f64 = 0.05;

/// The limit by the trials, beside what was known before: the mean and the standard deviation of its density given
/// them. The limit is normal before; a trial that reached `x` harms with the chance Φ((limit - x) / scatter).
///
/// Source: the probit model with a normal prior (Rasmussen & Williams 2006, *Gaussian Processes for Machine Learning*,
/// section 3.9; for one trial equations 3.85 and 3.87 give the moments in closed form), from memory and checked against
/// those equations and against quadrature.
#[must_use]
pub fn limit(before: &Before, trials: &[Trial]) -> Limit {
    let scatter = before.scatter.max(LEAST_SCATTER * before.spread);
    let density = |deviate: f64| {
        let limit = before.mean + before.spread * deviate;
        let fits = trials.iter().fold(1.0, |fits, trial| {
            let above = (limit - trial.reached) / scatter;
            fits * standard_normal_share(if trial.harmed { above } else { -above })
        });
        (-0.5 * deviate * deviate).exp() * fits
    };
    // A trial far from what was known draws the limit as far at the most.
    let farthest = |sign: f64| {
        let beyond = trials
            .iter()
            .map(|trial| sign * (trial.reached - before.mean) / before.spread);
        FAR + beyond.fold(0.0, f64::max)
    };
    let (low, high) = (-farthest(-1.0), farthest(1.0));
    let pieces = ((high - low) / PIECE).ceil().max(1.0) as usize;
    let ends: Vec<f64> = (0..=pieces)
        .map(|end| low + (high - low) * end as f64 / pieces as f64)
        .collect();
    let moment = |of: &dyn Fn(f64) -> f64| {
        integral_in_pieces(&ends, |deviate| density(deviate) * of(deviate))
    };
    let whole = moment(&|_| 1.0);
    if whole.is_nan() || whole <= f64::MIN_POSITIVE {
        // Trials that cannot be: what was known stays.
        return Limit {
            mean: before.mean,
            spread: before.spread,
        };
    }
    let mean = moment(&|deviate| deviate) / whole;
    let variance = moment(&|deviate| (deviate - mean).powi(2)) / whole;
    Limit {
        mean: before.mean + before.spread * mean,
        spread: before.spread * variance.sqrt(),
    }
}
