//! The error function and its complement.

use std::f64::consts::PI;

/// Below this the series is taken, above it the continued fraction.
const SERIES_TO: f64 = 2.0;
/// Terms of the continued fraction: at 2 the digits of an `f64` are reached with fewer.
const TERMS: u32 = 120;

/// erf x = 2/√π ∫₀ˣ e^(-t²) dt.
#[must_use]
pub fn erf(x: f64) -> f64 {
    if x.abs() < SERIES_TO {
        series(x)
    } else {
        x.signum() * (1.0 - erfc(x.abs()))
    }
}

/// 1 - erf x, without loss of digits where x is large.
#[must_use]
pub fn erfc(x: f64) -> f64 {
    if x < SERIES_TO {
        1.0 - erf(x)
    } else {
        (-x * x).exp() * scaled_of_large(x)
    }
}

/// e^(x²) erfc x for x of nought or more, which falls slowly where both factors run out of range.
#[must_use]
pub fn erfc_scaled(x: f64) -> f64 {
    if x < SERIES_TO {
        (x * x).exp() * erfc(x)
    } else {
        scaled_of_large(x)
    }
}

/// 2/√π e^(-x²) Σ 2ⁿ x^(2n+1)/(2n+1)!!, whose terms are all of one sign.
/// Source: Abramowitz & Stegun 1964, *Handbook of Mathematical Functions*, 7.1.6.
fn series(x: f64) -> f64 {
    let (mut term, mut sum, mut n) = (x, x, 0.0);
    while term.abs() > f64::EPSILON * sum.abs() {
        n += 1.0;
        term *= 2.0 * x * x / (2.0 * n + 1.0);
        sum += term;
    }
    2.0 / PI.sqrt() * (-x * x).exp() * sum
}

/// 1/√π · 1/(x + ½/(x + 1/(x + 3/2/(x + …)))), from its far end.
/// Source: Abramowitz & Stegun 1964, 7.1.14.
fn scaled_of_large(x: f64) -> f64 {
    let tail = (1..=TERMS)
        .rev()
        .fold(x, |tail, n| x + f64::from(n) / 2.0 / tail);
    1.0 / (PI.sqrt() * tail)
}
