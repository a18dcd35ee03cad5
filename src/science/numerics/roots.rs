//! The root of a continuous function of one unknown.

use std::fmt;

/// Why no root was given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoRoot {
    /// The function has the same sign at both ends, so no crossing is promised.
    NotBracketed,
    /// The function gave something that is not a number.
    NotANumber,
    /// The interval was not narrowed enough within the allowed steps.
    TooManySteps,
}

impl fmt::Display for NoRoot {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::NotBracketed => "no crossing lies between the two ends",
            Self::NotANumber => "the function is not a number somewhere between the two ends",
            Self::TooManySteps => "the crossing could not be closed in on",
        })
    }
}

impl std::error::Error for NoRoot {}

/// Steps after which the search gives up; bisection alone needs 52 to exhaust
/// the digits of an `f64`.
const MOST_STEPS: usize = 200;

/// Where `f` crosses zero between `low` and `high`, to within `tolerance` in the unknown.
///
/// The ITP method: bisection's worst case with the secant's usual speed.
/// Source: Oliveira & Takahashi 2020, ACM Transactions on Mathematical Software
/// 47(1):5, algorithm 1, with its recommended κ1 = 0.2/(b - a), κ2 = 2, n0 = 1.
///
/// # Errors
/// [`NoRoot`] when the ends do not bracket a crossing or the function is not a number.
pub fn root_between(
    low: f64,
    high: f64,
    tolerance: f64,
    mut f: impl FnMut(f64) -> f64,
) -> Result<f64, NoRoot> {
    let (mut a, mut b) = (low, high);
    let (mut at_a, mut at_b) = (f(a), f(b));
    if !(at_a.is_finite() && at_b.is_finite()) {
        return Err(NoRoot::NotANumber);
    }
    if at_a == 0.0 {
        return Ok(a);
    }
    if at_b == 0.0 {
        return Ok(b);
    }
    if at_a.signum() == at_b.signum() {
        return Err(NoRoot::NotBracketed);
    }
    let kappa_1 = 0.2 / (b - a);
    let slack = 1.0;
    let steps_of_bisection = ((b - a) / (2.0 * tolerance)).log2().ceil().max(0.0);
    let most = steps_of_bisection + slack;
    for step in 0..MOST_STEPS {
        if b - a <= 2.0 * tolerance {
            return Ok(f64::midpoint(a, b));
        }
        let middle = f64::midpoint(a, b);
        // The secant's guess, pulled towards the middle, then kept near enough to it
        // that bisection's worst case still holds.
        let secant = (at_b * a - at_a * b) / (at_b - at_a);
        let towards_middle = (middle - secant).signum();
        let pull = (kappa_1 * (b - a).powi(2)).min((middle - secant).abs());
        let pulled = secant + towards_middle * pull;
        let reach = (tolerance * (most - step as f64).exp2() - (b - a) / 2.0).max(0.0);
        let guess = if (pulled - middle).abs() <= reach {
            pulled
        } else {
            middle - towards_middle * reach
        };
        let at_guess = f(guess);
        if !at_guess.is_finite() {
            return Err(NoRoot::NotANumber);
        }
        if at_guess == 0.0 {
            return Ok(guess);
        }
        if at_guess.signum() == at_a.signum() {
            (a, at_a) = (guess, at_guess);
        } else {
            (b, at_b) = (guess, at_guess);
        }
    }
    Err(NoRoot::TooManySteps)
}
