//! A temperature that swings at the surface of deep ground, and what is left of it below.

use std::f64::consts::TAU;

use super::Solid;

/// A wave: its mean, its half-range, when it is lowest, and how long it takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wave {
    /// Mean, °C.
    pub mean_c: f64,
    /// Half of the way from lowest to highest, K.
    pub swing_k: f64,
    /// When it is lowest, s.
    pub coldest_s: f64,
    /// From one lowest to the next, s.
    pub period_s: f64,
}

impl Wave {
    /// The temperature of the wave itself at a time, °C.
    #[must_use]
    pub fn at(&self, time_s: f64) -> f64 {
        self.mean_c - self.swing_k * (TAU / self.period_s * (time_s - self.coldest_s)).cos()
    }

    /// The wave at a depth below a surface that follows this one.
    ///
    /// T = Tm - A e^(-z/d) cos\[ω (t - t0) - z/d\].
    /// Source: Kusuda & Achenbach 1965, ASHRAE Transactions 71(1):61-75; Carslaw & Jaeger 1959,
    /// *Conduction of Heat in Solids*, section 2.6.
    #[must_use]
    pub fn at_depth(&self, solid: &Solid, depth_m: f64) -> Self {
        let in_damping_depths = depth_m / solid.damping_depth_m(self.period_s);
        Self {
            swing_k: self.swing_k * (-in_damping_depths).exp(),
            coldest_s: self.coldest_s + in_damping_depths / TAU * self.period_s,
            ..*self
        }
    }

    /// The wave at a surface where this one is in the air above, the film between them as given.
    ///
    /// Source: Carslaw & Jaeger 1959, section 2.6; see [`under_film`].
    #[must_use]
    pub fn under_film(&self, solid: &Solid, film_w_per_m2_k: f64) -> Self {
        let response = under_film(solid, film_w_per_m2_k, self.period_s);
        Self {
            swing_k: self.swing_k * response.ratio,
            coldest_s: self.coldest_s + response.lag_s,
            ..*self
        }
    }

    /// Heat that runs into a surface that follows this wave, W/m²: it leads the temperature by an eighth
    /// of the period.
    #[must_use]
    pub fn flux_into_surface_w_per_m2(&self, solid: &Solid, time_s: f64) -> f64 {
        let ahead = Self {
            mean_c: 0.0,
            ..*self
        };
        solid.admittance_w_per_m2_k(self.period_s) * ahead.at(time_s + self.period_s / 8.0)
    }
}

/// What is left of a swing, and how late it comes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Response {
    /// Share of the swing.
    pub ratio: f64,
    /// Lag, s.
    pub lag_s: f64,
}

/// What deep ground follows at its surface of a wave in the air above.
///
/// 1/√(1 + 2b + 2b²) and atan\[b/(1 + b)\]/ω, b = k/(h d).
/// Source: Carslaw & Jaeger 1959, section 2.6.
#[must_use]
pub fn under_film(solid: &Solid, film_w_per_m2_k: f64, period_s: f64) -> Response {
    let b = solid.conductivity_w_per_m_k() / (film_w_per_m2_k * solid.damping_depth_m(period_s));
    Response {
        ratio: 1.0 / (1.0 + 2.0 * b + 2.0 * b * b).sqrt(),
        lag_s: (b / (1.0 + b)).atan() / TAU * period_s,
    }
}
