//! The flow between two neighbouring heights within one medium.

use super::table::State;

/// Below this the heads are taken as one, m.
const SAME_HEAD_M: f64 = 1e-9;
/// Where both exponents are smaller than this the series is exact to rounding.
const SMALL: f64 = 0.3;

/// A flow upwards over the conducting section and length, m/s, with its slopes over the
/// stretched heads below and above.
#[derive(Clone, Copy, Debug)]
pub(super) struct Flux {
    pub up: f64,
    pub over_below: f64,
    pub over_above: f64,
}

/// One end of an element: its medium's state, its head and the slope of that head.
#[derive(Clone, Copy)]
pub(super) struct End<'a> {
    pub state: &'a State,
    pub head_m: f64,
    pub head_slope: f64,
}

/// K̄ (h_below - h_above - rise): the flux upwards times the length of the element, m²/s.
///
/// K̄ is the mean of K over head (Kirchhoff's), which is exact where suction drives the flow, times
/// E(y - x)/(E(-x) E(y)), E(u) = (e^u - 1)/u, y the fall of ln K over the element and x what it
/// would be at rest. With that factor the flux is exact in steady flow, up or down, for any medium
/// whose ln K is straight over head between the two ends; at rest K̄ is the harmonic mean, and a
/// column at rest stays at rest to the last digit. It is the exponential fitting of Scharfetter &
/// Gummel 1969 (IEEE Transactions on Electron Devices 16:64) applied to Darcy's law; the need for a mean that
/// knows the direction of flow: Szymkiewicz 2009, Water Resources Research 45:W10403.
#[inline(always)]
pub(super) fn flux(below: End<'_>, above: End<'_>, rise_m: f64) -> Flux {
    let fall = below.head_m - above.head_m;
    let drive = fall - rise_m;
    let (mean, mean_below, mean_above);
    if fall.abs() < SAME_HEAD_M {
        let conductivity = |end: End<'_>| end.state.potential_slope / end.head_slope;
        mean = 0.5 * (conductivity(below) + conductivity(above));
        mean_below = 0.5 * mean * below.state.ln_conductivity_slope;
        mean_above = 0.5 * mean * above.state.ln_conductivity_slope;
    } else {
        let inverse = 1.0 / fall;
        mean = (below.state.potential - above.state.potential) * inverse;
        mean_below = (below.state.potential_slope - mean * below.head_slope) * inverse;
        mean_above = -(above.state.potential_slope - mean * above.head_slope) * inverse;
        let y = below.state.ln_conductivity - above.state.ln_conductivity;
        if rise_m != 0.0 && y != 0.0 {
            let x = (y * rise_m * inverse).max(0.0);
            let (factor, ln_over_x, ln_over_y) = fitting(x, y);
            let x_below =
                (rise_m * below.state.ln_conductivity_slope - x * below.head_slope) * inverse;
            let x_above =
                -(rise_m * above.state.ln_conductivity_slope - x * above.head_slope) * inverse;
            let fitted = mean * factor;
            let over_below = ln_over_x * x_below + ln_over_y * below.state.ln_conductivity_slope;
            let over_above = ln_over_x * x_above - ln_over_y * above.state.ln_conductivity_slope;
            return Flux {
                up: fitted * drive,
                over_below: (mean_below * factor + fitted * over_below) * drive
                    + fitted * below.head_slope,
                over_above: (mean_above * factor + fitted * over_above) * drive
                    - fitted * above.head_slope,
            };
        }
    }
    Flux {
        up: mean * drive,
        over_below: mean_below * drive + mean * below.head_slope,
        over_above: mean_above * drive - mean * above.head_slope,
    }
}

/// E(y - x)/(E(-x) E(y)), and the slopes of its logarithm over x and y.
#[inline(always)]
fn fitting(x: f64, y: f64) -> (f64, f64, f64) {
    let u = y - x;
    if x < SMALL && y.abs() < SMALL {
        // ln E(u) = u/2 + u²/24 - u⁴/2880 + u⁶/181440 ...
        let ln_e = |u: f64| u * u * (1.0 / 24.0 - u * u * (1.0 / 2880.0 - u * u / 181_440.0));
        let slope = |u: f64| u * (1.0 / 12.0 - u * u * (1.0 / 720.0 - u * u / 30_240.0));
        let t = ln_e(u) - ln_e(x) - ln_e(y);
        let factor = 1.0 + t * (1.0 + t * (0.5 + t / 6.0));
        return (factor, -slope(u) + slope(-x), slope(u) - slope(y));
    }
    let (exp_y, exp_less_x) = (y.exp(), (-x).exp());
    let exp_u = exp_y * exp_less_x;
    let factor = e(u, exp_u) / (e(-x, exp_less_x) * e(y, exp_y));
    let at_u = ln_e_slope(u, exp_u);
    (
        factor,
        ln_e_slope(-x, exp_less_x) - at_u,
        at_u - ln_e_slope(y, exp_y),
    )
}

/// (e^u - 1)/u.
fn e(u: f64, exp_u: f64) -> f64 {
    if u.abs() < 1e-3 {
        1.0 + u * (0.5 + u * (1.0 / 6.0 + u / 24.0))
    } else {
        (exp_u - 1.0) / u
    }
}

/// d ln E/du = e^u/(e^u - 1) - 1/u.
fn ln_e_slope(u: f64, exp_u: f64) -> f64 {
    if u.abs() < 1e-2 {
        0.5 + u * (1.0 / 12.0 - u * u / 720.0)
    } else {
        exp_u / (exp_u - 1.0) - 1.0 / u
    }
}
