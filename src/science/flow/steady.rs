//! Steady flow upwards from a water level: what a height of a medium can carry.
//!
//! Darcy's law with one flux q gives ds/dz = 1 + q/K(s), so that the height over which the suction
//! grows from s₁ to s₂ is ∫ ds/(1 + q/K(s)). Heights and suctions are in metres, fluxes and
//! conductivities in m/s, upwards positive.
//!
//! | K(s) | exact answer |
//! |---|---|
//! | any [`Curves`] | [`height_carried_m`], by quadrature |
//! | a/(s^n + b), no limit to suction | [`gardner_height_m`], [`gardner_flux_m_per_s`] |
//! | Ks e^(-α s) | [`exponential_flux_m_per_s`] |
//! | Brooks and Corey, no limit to suction | [`brooks_corey_height_m`], [`brooks_corey_flux_m_per_s`] |
//!
//! At rest (q = 0) all of them say that suction is the height above the water.

use std::f64::consts::PI;

use crate::science::conductivity::Curves;
use crate::science::numerics::quadrature::integral;
use crate::science::numerics::roots::root_between;

/// Suction beyond which no medium carries anything that counts, m: the stand-in for no limit.
pub const NO_LIMIT_M: f64 = 1.0e4;
/// Pieces of the integral have this ratio of suctions. The integrand, a step over ln s as wide as one
/// over the steepest power of K, is smooth within one.
const PIECE_RATIO: f64 = 2.0;
/// The first piece of an integral from nought, m: shorter than any air-entry suction.
const FIRST_PIECE_M: f64 = 1e-5;

/// The height over which a flux up takes the suction from one to another (nought or more, rising), m.
///
/// Source: Gardner 1958, Soil Science 85:228. By quadrature to about 1e-8.
#[must_use]
pub fn height_carried_m(
    medium: &dyn Curves,
    flux_m_per_s: f64,
    from_suction_m: f64,
    to_suction_m: f64,
) -> f64 {
    let rate = |s: f64| {
        let k = medium.conductivity_m_per_s(s);
        // Written so that no conductivity at all gives no height.
        k / (k + flux_m_per_s)
    };
    let mut height_m = 0.0;
    let mut from_m = from_suction_m.max(0.0);
    while from_m < to_suction_m {
        let to_m = (from_m * PIECE_RATIO).max(FIRST_PIECE_M).min(to_suction_m);
        let piece = if from_m > 0.0 {
            // Over the logarithm of suction the step is of one width everywhere.
            integral(from_m.ln(), to_m.ln(), |ln_s| {
                let s = ln_s.exp();
                s * rate(s)
            })
        } else {
            integral(from_m, to_m, rate)
        };
        height_m += piece;
        // What is left cannot matter: the integrand only falls.
        if piece < 1e-12 * height_m {
            break;
        }
        from_m = to_m;
    }
    height_m
}

/// The height at which the link breaks: the most that a flux can be lifted from a suction at the foot, m.
#[must_use]
pub fn break_height_m(medium: &dyn Curves, flux_m_per_s: f64, foot_suction_m: f64) -> f64 {
    height_carried_m(medium, flux_m_per_s, foot_suction_m, NO_LIMIT_M)
}

/// The suction at the top of a height that carries a flux up from a suction at its foot, m; none
/// where the link breaks below the top.
#[must_use]
pub fn suction_above_m(
    medium: &dyn Curves,
    flux_m_per_s: f64,
    foot_suction_m: f64,
    height_m: f64,
) -> Option<f64> {
    let foot_m = foot_suction_m.max(0.0);
    // At least the height at rest; twice as much until the top is passed.
    let mut high_m = foot_m + height_m.max(0.0);
    while height_carried_m(medium, flux_m_per_s, foot_m, high_m) < height_m {
        high_m *= 2.0;
        if high_m.is_nan() || high_m > NO_LIMIT_M {
            return None;
        }
    }
    if height_m <= 0.0 {
        return Some(foot_m);
    }
    root_between(foot_m, high_m, 1e-9 * high_m, |s| {
        height_carried_m(medium, flux_m_per_s, foot_m, s) - height_m
    })
    .ok()
}

/// The flux up that a height carries when the suction grows from the foot's to the top's, m/s.
/// Nought where the top's suction is no more than that at rest.
#[must_use]
pub fn flux_m_per_s(
    medium: &dyn Curves,
    height_m: f64,
    foot_suction_m: f64,
    top_suction_m: f64,
) -> f64 {
    if top_suction_m <= foot_suction_m + height_m || height_m <= 0.0 {
        return 0.0;
    }
    flux_between(
        |flux| height_carried_m(medium, flux, foot_suction_m, top_suction_m),
        height_m,
        medium.conductivity_m_per_s(foot_suction_m.max(0.0)) * (top_suction_m - foot_suction_m)
            / height_m,
    )
}

/// The flux at which a falling height equals the one given, no more than `most`; found over its
/// logarithm, because it spans many powers of ten.
fn flux_between(height_at: impl Fn(f64) -> f64, height_m: f64, most: f64) -> f64 {
    /// Fluxes smaller than this share of the most are nought.
    const LEAST_SHARE_LN: f64 = -80.0;
    let most_ln = most.ln() + 1e-9;
    root_between(most_ln + LEAST_SHARE_LN, most_ln, 1e-12, |ln_flux| {
        height_at(ln_flux.exp()) - height_m
    })
    .map_or(0.0, f64::exp)
}

/// The height to which K = a/(s^n + b) lifts a flux with no limit to the suction above, m.
///
/// d = C (a/q) (b + a/q)^((1-n)/n), C = π/(n sin(π/n)), for n > 1, b ≥ 0; a in m^(n+1)/s, b in m^n.
/// Source: the integral of Gardner 1958 for any n > 1; Warrick 1988, Soil Science 146:63.
#[must_use]
pub fn gardner_height_m(a: f64, b: f64, n: f64, flux_m_per_s: f64) -> f64 {
    let c = PI / (n * (PI / n).sin());
    let ratio = a / flux_m_per_s;
    c * ratio * (b + ratio).powf((1.0 - n) / n)
}

/// The flux that K = a/(s^n + b) lifts to a height with no limit to the suction above, m/s.
#[must_use]
pub fn gardner_flux_m_per_s(a: f64, b: f64, n: f64, height_m: f64) -> f64 {
    // Without b the flux is larger, and known: q = a (C/d)^n.
    let c = PI / (n * (PI / n).sin());
    let most = a * (c / height_m).powf(n);
    flux_between(|flux| gardner_height_m(a, b, n, flux), height_m, most)
}

/// The height to which K = a/(s + b) lifts a flux to a suction, m: d = (a/q) ln\[(S + b + a/q)/(b + a/q)\].
/// For n = 1 no height is the greatest, so the suction must be given. Source: Gardner 1958.
#[must_use]
pub fn gardner_height_of_first_power_m(
    a: f64,
    b: f64,
    top_suction_m: f64,
    flux_m_per_s: f64,
) -> f64 {
    let ratio = a / flux_m_per_s;
    ratio * (top_suction_m / (b + ratio)).ln_1p()
}

/// The flux up through K = Ks e^(-α s) over a height from water to a suction at the top, m/s:
/// q = Ks (1 - e^(-α (S - d)))/(e^(α d) - 1). Down (below nought) where the top is wetter than at rest.
/// Source: Gardner 1958; Philip 1969, Advances in Hydroscience 5:215 (quasi-linear steady flow).
#[must_use]
pub fn exponential_flux_m_per_s(
    saturated_m_per_s: f64,
    alpha_per_m: f64,
    height_m: f64,
    top_suction_m: f64,
) -> f64 {
    let rest = (-alpha_per_m * (top_suction_m - height_m)).exp();
    saturated_m_per_s * (1.0 - rest) / (alpha_per_m * height_m).exp_m1()
}

/// The height to which a medium of Brooks and Corey lifts a flux with no limit to suction, m:
/// d = h_b/(1 + E) + h_b ∫ dx/(1 + E x^P) from 1 on, E = q/Ks, for P > 1.
///
/// The integral in its closed forms: the whole line less what lies below 1 where E is small,
/// and over x^(1-P) where it is not. Source: Sadeghi, Shokri & Jones 2012, Water Resources Research
/// 48:W09516 (the same as a series).
#[must_use]
pub fn brooks_corey_height_m(
    saturated_m_per_s: f64,
    air_entry_m: f64,
    exponent: f64,
    flux_m_per_s: f64,
) -> f64 {
    let e = flux_m_per_s / saturated_m_per_s;
    let p = exponent;
    let beyond = if e < 1.0 {
        let whole = e.powf(-1.0 / p) * PI / (p * (PI / p).sin());
        whole - integral(0.0, 1.0, |x| 1.0 / (1.0 + e * x.powf(p)))
    } else {
        integral(0.0, 1.0, |v| {
            1.0 / ((p - 1.0) * (v.powf(p / (p - 1.0)) + e))
        })
    };
    air_entry_m * (1.0 / (1.0 + e) + beyond)
}

/// The flux that a medium of Brooks and Corey lifts to a height with no limit to suction, m/s.
#[must_use]
pub fn brooks_corey_flux_m_per_s(
    saturated_m_per_s: f64,
    air_entry_m: f64,
    exponent: f64,
    height_m: f64,
) -> f64 {
    // K < Ks (h_b/s)^P everywhere but below the air entry, so q < Ks (h_b C/d)^P + Ks h_b .../d.
    let c = PI / (exponent * (PI / exponent).sin());
    let most = saturated_m_per_s
        * ((air_entry_m * (1.0 + c) / height_m).powf(exponent)
            + air_entry_m * (1.0 + c) / height_m);
    flux_between(
        |flux| brooks_corey_height_m(saturated_m_per_s, air_entry_m, exponent, flux),
        height_m,
        most,
    )
}
