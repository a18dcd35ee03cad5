//! A temperature that jumps at the surface of deep ground, or in the air above it.
//!
//! Source: Carslaw & Jaeger 1959, *Conduction of Heat in Solids*, sections 2.4 and 2.7.

use std::f64::consts::PI;

use super::Solid;
use crate::science::numerics::error_function::{erfc, erfc_scaled};

/// z/(2 √(a t)): depth against how far heat has come.
fn reach(solid: &Solid, depth_m: f64, time_s: f64) -> f64 {
    depth_m / (2.0 * (solid.diffusivity_m2_per_s() * time_s).sqrt())
}

/// The share of a jump of the surface that has come to a depth after a time: erfc\[z/(2 √(a t))\].
/// Nought before the jump.
#[must_use]
pub fn share_of_surface_step(solid: &Solid, depth_m: f64, time_s: f64) -> f64 {
    if time_s > 0.0 {
        erfc(reach(solid, depth_m, time_s))
    } else {
        0.0
    }
}

/// Heat that runs in through the surface at a time after it jumped by a degree, W/m² K: √(k C/π t).
#[must_use]
pub fn flux_after_step_w_per_m2_k(solid: &Solid, time_s: f64) -> f64 {
    solid.effusivity() / (PI * time_s).sqrt()
}

/// The share of a jump of the air that has come to a depth after a time, through a film of h:
/// erfc X - e^(h z/k + h² a t/k²) erfc(X + h √(a t)/k), X = z/(2 √(a t)). Nought before the jump.
#[must_use]
pub fn share_of_air_step(solid: &Solid, film_w_per_m2_k: f64, depth_m: f64, time_s: f64) -> f64 {
    if time_s > 0.0 {
        let x = reach(solid, depth_m, time_s);
        let grown = film_w_per_m2_k * (solid.diffusivity_m2_per_s() * time_s).sqrt()
            / solid.conductivity_w_per_m_k();
        // The exponent of the second term is (X + grown)² - X².
        erfc(x) - (-x * x).exp() * erfc_scaled(x + grown)
    } else {
        0.0
    }
}
