//! Heat in the ground and in a floor: waves, steps, layers, and the slab as a whole.
//!
//! | file | what it holds |
//! |---|---|
//! | [`wave`] | a temperature that swings at the surface, or in the air above it |
//! | [`step`] | a temperature that jumps |
//! | [`layers`] | layers one under another, seen from above |
//! | [`slab`] | the floor of a house over the months |
//! | [`season`] | mean, swing and coldest day from one's own readings |

pub mod layers;
pub mod season;
pub mod slab;
pub mod step;
pub mod wave;

use std::f64::consts::{PI, TAU};
use std::fmt;

/// A day, s.
pub const DAY_S: f64 = 86_400.0;
/// A year of 365.25 days, s.
pub const YEAR_S: f64 = 365.25 * DAY_S;

/// What heat runs through: how well, and how much it takes up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solid {
    conductivity_w_per_m_k: f64,
    capacity_j_per_m3_k: f64,
}

/// Why two numbers are not those of a solid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotASolid;

impl fmt::Display for NotASolid {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("Conductivity and heat capacity must both be more than 0.")
    }
}

impl std::error::Error for NotASolid {}

impl Solid {
    /// From conductivity, W/m K, and heat capacity by volume, J/m³ K.
    ///
    /// # Errors
    /// [`NotASolid`] where one is not above nought, or not finite.
    pub fn new(conductivity_w_per_m_k: f64, capacity_j_per_m3_k: f64) -> Result<Self, NotASolid> {
        let positive = |x: f64| x > 0.0 && x.is_finite();
        if positive(conductivity_w_per_m_k) && positive(capacity_j_per_m3_k) {
            Ok(Self {
                conductivity_w_per_m_k,
                capacity_j_per_m3_k,
            })
        } else {
            Err(NotASolid)
        }
    }

    /// Conductivity k, W/m K.
    #[must_use]
    pub fn conductivity_w_per_m_k(&self) -> f64 {
        self.conductivity_w_per_m_k
    }

    /// Heat capacity by volume C, J/m³ K.
    #[must_use]
    pub fn capacity_j_per_m3_k(&self) -> f64 {
        self.capacity_j_per_m3_k
    }

    /// The same with a conductivity so many times as large.
    ///
    /// # Errors
    /// [`NotASolid`] where the factor is not above nought.
    pub fn conducting(&self, times: f64) -> Result<Self, NotASolid> {
        Self::new(
            self.conductivity_w_per_m_k * times,
            self.capacity_j_per_m3_k,
        )
    }

    /// Diffusivity a = k/C, m²/s.
    #[must_use]
    pub fn diffusivity_m2_per_s(&self) -> f64 {
        self.conductivity_w_per_m_k / self.capacity_j_per_m3_k
    }

    /// Effusivity √(k C), W s^½/m² K: how much heat a surface takes in when it jumps by a degree.
    #[must_use]
    pub fn effusivity(&self) -> f64 {
        (self.conductivity_w_per_m_k * self.capacity_j_per_m3_k).sqrt()
    }

    /// Damping depth √(a P/π), m: where a wave of that period keeps 1/e of its swing.
    #[must_use]
    pub fn damping_depth_m(&self, period_s: f64) -> f64 {
        (self.diffusivity_m2_per_s() * period_s / PI).sqrt()
    }

    /// Heat that runs into the surface for each degree of swing, W/m² K: √(ω k C).
    #[must_use]
    pub fn admittance_w_per_m2_k(&self, period_s: f64) -> f64 {
        self.effusivity() * (TAU / period_s).sqrt()
    }
}
