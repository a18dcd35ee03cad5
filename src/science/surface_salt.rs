//! Salt that gathers at the top of what drinks from below.
//!
//! Water that evaporates at the top leaves its salt there. It piles up in the top layer, and spreads back
//! down the faster the steeper it has become, up to a balance. Uptake of salt by roots is left out, and so
//! is what is watered from above.

/// Concentration at the top as a multiple of that of what comes up, once salt spreads back down as
/// fast as it comes: exp(E L/D). `evaporates` E in cm/d, `height` L of the ball in cm, `diffuses` D
/// in cm²/d, the diffusivity of salt by the whole section (water content and winding paths in it).
/// Source: the steady solution of convection against diffusion, e.g. Carslaw & Jaeger 1959,
/// *Conduction of Heat in Solids*, section 15.2, cited from memory.
#[must_use]
pub fn steady_multiple(evaporates_cm_per_d: f64, height_cm: f64, diffuses_cm2_per_d: f64) -> f64 {
    (evaporates_cm_per_d * height_cm / diffuses_cm2_per_d).exp()
}

/// Days until the mean of a top layer reads a multiple (above 1) of what comes up, if nothing
/// spreads back down: (times - 1) d θ/E, for a layer d deep (cm) with water θ (fraction).
#[must_use]
pub fn days_to(times: f64, evaporates_cm_per_d: f64, layer_cm: f64, water: f64) -> f64 {
    (times - 1.0) * layer_cm * water / evaporates_cm_per_d
}

/// The multiple that the top layer reads after so many days: what has come up in that time, or the
/// steady one where that is less.
#[must_use]
pub fn multiple_after(
    days: f64,
    evaporates_cm_per_d: f64,
    layer_cm: f64,
    water: f64,
    steady: f64,
) -> f64 {
    (1.0 + evaporates_cm_per_d * days / (layer_cm * water)).min(steady)
}
