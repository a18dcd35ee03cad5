//! Chances of counts, and what a count tells of a share.

use std::sync::LazyLock;

use super::numerics::roots::root_between;

/// Natural logarithm of the gamma function, x > 0.
///
/// Source: Lanczos 1964, SIAM Journal on Numerical Analysis B 1:86-96, with g = 7 and nine terms
/// (coefficients of Godfrey 2001); relative accuracy about 1e-15.
#[must_use]
pub fn ln_gamma(x: f64) -> f64 {
    const G: f64 = 7.0;
    const FIRST: f64 = 0.999_999_999_999_809_9;
    const TERMS: [f64; 8] = [
        676.520_368_121_885_1,
        -1_259.139_216_722_402_8,
        771.323_428_777_653_1,
        -176.615_029_162_140_6,
        12.507_343_278_686_905,
        -0.138_571_095_265_720_12,
        9.984_369_578_019_572e-6,
        1.505_632_735_149_311_6e-7,
    ];
    let x = x - 1.0;
    let (sum, _) = TERMS.iter().fold((FIRST, 1.0), |(sum, place), term| {
        (sum + term / (x + place), place + 1.0)
    });
    let t = x + G + 0.5;
    0.5 * std::f64::consts::TAU.ln() + (x + 0.5) * t.ln() - t + sum.ln()
}

/// The regularised incomplete beta function I_x(a, b), a and b above 0, x from 0 to 1.
///
/// Source: continued fraction of the NIST Digital Library of Mathematical Functions 8.17.22,
/// evaluated by Lentz's method as modified by Thompson & Barnett 1986, Journal of Computational
/// Physics 64:490-509.
#[must_use]
pub fn incomplete_beta(a: f64, b: f64, x: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if x >= 1.0 {
        return 1.0;
    }
    // The fraction is quick on this side; the other follows from I_x(a,b) = 1 - I_(1-x)(b,a).
    if x > (a + 1.0) / (a + b + 2.0) {
        return 1.0 - incomplete_beta(b, a, 1.0 - x);
    }
    let front = (ln_gamma(a + b) - ln_gamma(a) - ln_gamma(b) + a * x.ln() + b * (-x).ln_1p()).exp();
    front * beta_fraction(a, b, x) / a
}

fn beta_fraction(a: f64, b: f64, x: f64) -> f64 {
    /// Stands for nought where it would divide.
    const TINY: f64 = 1e-300;
    /// Terms grow with the root of the larger of a and b; this is enough for a hundred million.
    const MOST_TERMS: u32 = 20_000;
    let away = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut c = 1.0;
    let mut d = 1.0 / away(1.0 - (a + b) * x / (a + 1.0));
    let mut fraction = d;
    for m in 1..=MOST_TERMS {
        let m = f64::from(m);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let mut change = 1.0;
        for term in [even, odd] {
            d = 1.0 / away(1.0 + term * d);
            c = away(1.0 + term / c);
            change = c * d;
            fraction *= change;
        }
        if (change - 1.0).abs() < f64::EPSILON {
            break;
        }
    }
    fraction
}

/// The x at which I_x(a, b) is a share p: the quantile of the beta distribution.
#[must_use]
pub fn beta_quantile(a: f64, b: f64, p: f64) -> f64 {
    if p <= 0.0 {
        return 0.0;
    }
    if p >= 1.0 {
        return 1.0;
    }
    root_between(0.0, 1.0, 1e-14, |x| incomplete_beta(a, b, x) - p).unwrap_or(f64::NAN)
}

/// The chance that at least `wanted` of `trials` succeed, each with the chance `share`: the exact
/// tail of the binomial distribution, I_p(k, n - k + 1).
#[must_use]
pub fn chance_of_at_least(wanted: u32, trials: u32, share: f64) -> f64 {
    if wanted == 0 {
        1.0
    } else if wanted > trials {
        0.0
    } else {
        let wanted = f64::from(wanted);
        incomplete_beta(wanted, f64::from(trials) - wanted + 1.0, share)
    }
}

/// The same where the share is itself drawn from a beta distribution with `a` and `b` above 1e-200 (a
/// share known from a test, or trays that differ): the exact tail of the beta-binomial distribution.
///
/// The chances of successive counts are as p(k + 1)/p(k) = (n - k)(k + a)/\[(k + 1)(n - k - 1 + b)\]. Each
/// side of the tail is summed by that from where they meet, and only their ratio counts: neither side
/// loses digits to the other however small it is, and no gamma function is needed. Source of the
/// distribution: Skellam 1948, Journal of the Royal Statistical Society B 10:257-261 (from memory).
#[must_use]
pub fn chance_of_at_least_when_shares_differ(wanted: u32, trials: u32, a: f64, b: f64) -> f64 {
    if wanted == 0 {
        return 1.0;
    }
    if wanted > trials {
        return 0.0;
    }
    let n = f64::from(trials);
    let rise = |count: u32| {
        let k = f64::from(count);
        (n - k) / (k + 1.0) * ((k + a) / (n - k - 1.0 + b))
    };
    let fall = |count: u32| {
        let k = f64::from(count);
        (k + 1.0) / (n - k) * ((n - k - 1.0 + b) / (k + a))
    };
    // From wanted up, as multiples of p(wanted), and from one fewer down, as multiples of its own.
    let enough = sum_of_products((wanted..trials).map(rise));
    let too_few = sum_of_products((0..wanted - 1).rev().map(fall));
    let against = fall(wanted - 1) * (too_few.0 / enough.0) * HUGE.powi(too_few.1 - enough.1);
    1.0 / (1.0 + against)
}

/// What a sum is divided by, so that it stays within what a number can hold.
const HUGE: f64 = 1e100;

/// 1 and the products of the first ratio, the first two, and so on, summed; and how often it was divided
/// by [`HUGE`].
fn sum_of_products(ratios: impl Iterator<Item = f64>) -> (f64, i32) {
    let (mut product, mut sum, mut divided) = (1.0, 1.0, 0);
    for ratio in ratios {
        product *= ratio;
        sum += product;
        if sum > HUGE {
            product /= HUGE;
            sum /= HUGE;
            divided += 1;
        }
    }
    (sum, divided)
}

/// The two parameters of the beta distribution with a mean and an intra-class correlation between
/// 0 and 1: a = m (1/ρ - 1), b = (1 - m)(1/ρ - 1).
#[must_use]
pub fn beta_of_mean_and_correlation(mean: f64, correlation: f64) -> (f64, f64) {
    let weight = 1.0 / correlation - 1.0;
    (mean * weight, (1.0 - mean) * weight)
}

/// The fewest trials, up to `most`, whose chance reaches `certainty`; none where none does. The
/// chance must not fall as trials grow.
#[must_use]
pub fn fewest_trials(
    least: u32,
    most: u32,
    certainty: f64,
    chance_of: &dyn Fn(u32) -> f64,
) -> Option<u32> {
    if least > most {
        return None;
    }
    /// A chance that reaches the certainty exactly may come out a last digit below it.
    const LAST_DIGITS: f64 = 1e-12;
    let enough = |trials: u32| chance_of(trials) >= certainty - LAST_DIGITS;
    let (mut short, mut step, mut high) = (least, 1_u32, least);
    while !enough(high) {
        if high == most {
            return None;
        }
        short = high + 1;
        high = high.saturating_add(step).min(most);
        step = step.saturating_mul(2);
    }
    while short < high {
        let middle = short + (high - short) / 2;
        if enough(middle) {
            high = middle;
        } else {
            short = middle + 1;
        }
    }
    Some(high)
}

/// The exact limits of a share from a count, two-sided at a confidence (0.95 and the like).
///
/// Source: Clopper & Pearson 1934, Biometrika 26:404-413, as beta quantiles. At least as wide as
/// said.
#[must_use]
pub fn limits_by_clopper_pearson_1934(count: u32, trials: u32, confidence: f64) -> (f64, f64) {
    let (x, m) = (f64::from(count.min(trials)), f64::from(trials));
    let tail = (1.0 - confidence) / 2.0;
    let low = if x > 0.0 {
        beta_quantile(x, m - x + 1.0, tail)
    } else {
        0.0
    };
    let high = if x < m {
        beta_quantile(x + 1.0, m - x, 1.0 - tail)
    } else {
        1.0
    };
    (low, high)
}

/// The limits of a share from a count by the prior of Jeffreys, two-sided at a confidence: beta
/// quantiles of x + ½ and m - x + ½, the low nought for no success and the high one for all.
///
/// Source: Brown, Cai & DasGupta 2001, Statistical Science 16:101-133, section 4.1.2.
#[must_use]
pub fn limits_by_jeffreys(count: u32, trials: u32, confidence: f64) -> (f64, f64) {
    let count = count.min(trials);
    let (a, b) = (f64::from(count) + 0.5, f64::from(trials - count) + 0.5);
    let tail = (1.0 - confidence) / 2.0;
    let low = if count > 0 {
        beta_quantile(a, b, tail)
    } else {
        0.0
    };
    let high = if count < trials {
        beta_quantile(a, b, 1.0 - tail)
    } else {
        1.0
    };
    (low, high)
}

/// The share below which a standard normal deviate falls, for where it is asked a million times: within 1e-10
/// of [`standard_normal_share`], in a tenth of the time or less. It rises with the deviate; beyond 8 it is nought or 1.
///
/// Between points 1/128 apart, of which the share and its slope (the density) are kept, by the cubic that has both at
/// either end (Hermite's; any text on interpolation). Its error is at most h⁴/384 times the greatest fourth
/// derivative, 1.38.
#[must_use]
pub fn standard_normal_share_quickly(deviate: f64) -> f64 {
    const FURTHEST: f64 = 8.0;
    const TO_ONE: f64 = 128.0;
    static KEPT: LazyLock<Vec<[f64; 2]>> = LazyLock::new(|| {
        let points = (2.0 * FURTHEST * TO_ONE) as usize;
        (0..=points)
            .map(|place| {
                let z = place as f64 / TO_ONE - FURTHEST;
                let density = (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt();
                [standard_normal_share(z), density / TO_ONE]
            })
            .collect()
    });
    let place = (deviate + FURTHEST) * TO_ONE;
    if place <= 0.0 {
        return 0.0;
    }
    if place >= 2.0 * FURTHEST * TO_ONE {
        return 1.0;
    }
    let low = place as usize;
    let (Some([from, slope]), Some([to, slope_there])) = (KEPT.get(low), KEPT.get(low + 1)) else {
        return f64::NAN;
    };
    let t = place - low as f64;
    let rise = to - from;
    from + t
        * (slope
            + t * (3.0 * rise - 2.0 * slope - slope_there + t * (slope + slope_there - 2.0 * rise)))
}

/// The share below which a standard normal deviate falls.
///
/// Source: NIST Digital Library of Mathematical Functions 7.6.2 (series, near the middle) and 7.9.3
/// (continued fraction of erfc, in the tails).
#[must_use]
pub fn standard_normal_share(deviate: f64) -> f64 {
    /// Both forms are good to the last digits where they meet.
    const MEET: f64 = 3.0;
    const FRACTION_TERMS: u32 = 120;
    let z = deviate.abs();
    let density = (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt();
    let beyond = if z < MEET {
        let (mut term, mut sum, mut odd) = (z, z, 1.0);
        while term > f64::EPSILON * 1e-2 * sum {
            odd += 2.0;
            term *= z * z / odd;
            sum += term;
        }
        0.5 - density * sum
    } else {
        let tail = (1..=FRACTION_TERMS)
            .rev()
            .fold(z, |below, k| z + f64::from(k) / below);
        density / tail
    };
    if deviate < 0.0 { beyond } else { 1.0 - beyond }
}

/// The share below which a deviate of Student's distribution falls, with degrees of freedom above 0.
///
/// Source: NIST Digital Library of Mathematical Functions 8.17, with Abramowitz & Stegun 1964,
/// 26.7.1: of both tails together I_x(ν/2, ½) with x = ν/(ν + t²).
#[must_use]
pub fn student_share(deviate: f64, degrees_of_freedom: f64) -> f64 {
    let nu = degrees_of_freedom;
    let beyond = incomplete_beta(nu / 2.0, 0.5, nu / (nu + deviate * deviate)) / 2.0;
    if deviate < 0.0 { beyond } else { 1.0 - beyond }
}

/// How far a normal quantity lies above a limit on the mean, nought where it does not: s (φ(z) + z Φ(z)) with
/// z = (mean - limit)/s, in the unit of both; s above 0.
///
/// Source: the unit normal loss integral, as in Raiffa & Schlaifer 1961, *Applied Statistical Decision Theory*, table II
/// (from memory).
#[must_use]
pub fn normal_excess(mean: f64, spread: f64, limit: f64) -> f64 {
    let z = (mean - limit) / spread;
    let density = (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt();
    (spread * (density + z * standard_normal_share_quickly(z))).max(0.0)
}
