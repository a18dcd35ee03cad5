//! Layers one under another, and what a wave at the top sees of them.

use std::f64::consts::TAU;

use super::Solid;
use crate::science::numerics::complex::Complex;

/// A layer of one solid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slice {
    /// What it is of.
    pub solid: Solid,
    /// How thick, m.
    pub thickness_m: f64,
}

/// q = √(i ω/a), 1/m.
fn wave_number(solid: &Solid, angular_per_s: f64) -> Complex {
    (Complex::I * (angular_per_s / solid.diffusivity_m2_per_s())).sqrt()
}

/// Heat into the top of a layer for each degree of swing there, W/m² K, where a fixed temperature lies below
/// it: k q coth(q L); k/L for what does not swing (ω of nought).
///
/// Source: Carslaw & Jaeger 1959, *Conduction of Heat in Solids*, section 3.7.
#[must_use]
pub fn conductance_over_fixed(slice: &Slice, angular_per_s: f64) -> Complex {
    let k = slice.solid.conductivity_w_per_m_k();
    if angular_per_s > 0.0 {
        let q = wave_number(&slice.solid, angular_per_s);
        q * (q * slice.thickness_m).coth() * k
    } else {
        Complex::real(k / slice.thickness_m)
    }
}

/// How swings of temperature and heat on one side of layers give those on the other, at one period.
///
/// \[T₂, q₂\] = Z \[T₁, q₁\], side 2 behind side 1, heat positive from 1 to 2.
/// Source: EN ISO 13786 (from memory); Carslaw & Jaeger 1959, section 3.7.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Transfer {
    z: [[Complex; 2]; 2],
    angular_per_s: f64,
}

impl Transfer {
    /// Nothing between the two sides.
    #[must_use]
    pub fn nothing(period_s: f64) -> Self {
        Self {
            z: [[Complex::ONE, Complex::ZERO], [Complex::ZERO, Complex::ONE]],
            angular_per_s: TAU / period_s,
        }
    }

    /// The same with a film or an air gap behind it, its resistance in m² K/W.
    #[must_use]
    pub fn then_film(self, resistance_m2_k_per_w: f64) -> Self {
        self.then([
            [Complex::ONE, Complex::real(-resistance_m2_k_per_w)],
            [Complex::ZERO, Complex::ONE],
        ])
    }

    /// The same with a layer behind it.
    #[must_use]
    pub fn then_layer(self, slice: &Slice) -> Self {
        let q = wave_number(&slice.solid, self.angular_per_s);
        let (cosh, sinh) = (q * slice.thickness_m).cosh_and_sinh();
        let through = q * slice.solid.conductivity_w_per_m_k();
        self.then([[cosh, -(sinh / through)], [-(sinh * through), cosh]])
    }

    fn then(self, later: [[Complex; 2]; 2]) -> Self {
        let entry = |row: usize, column: usize| {
            later[row][0] * self.z[0][column] + later[row][1] * self.z[1][column]
        };
        Self {
            z: [[entry(0, 0), entry(0, 1)], [entry(1, 0), entry(1, 1)]],
            ..self
        }
    }

    /// Heat into side 1 for each degree of swing there, with the other side still, W/m² K: -Z₁₁/Z₁₂.
    #[must_use]
    pub fn admittance_near(&self) -> Complex {
        -(self.z[0][0] / self.z[0][1])
    }

    /// The same from side 2: -Z₂₂/Z₁₂.
    #[must_use]
    pub fn admittance_far(&self) -> Complex {
        -(self.z[1][1] / self.z[0][1])
    }

    /// Heat through side 1 for each degree of swing on side 2, with side 1 still, W/m² K: 1/Z₁₂ (its sign
    /// as in the standard: minus the heat that arrives).
    #[must_use]
    pub fn periodic_transmittance(&self) -> Complex {
        Complex::ONE / self.z[0][1]
    }

    /// How late the heat arrives behind the swing that drives it, s, from nought to the period.
    #[must_use]
    pub fn lag_s(&self) -> f64 {
        let period_s = TAU / self.angular_per_s;
        let turned = -(Complex::ONE / self.z[0][1]);
        (-turned.angle() / TAU).rem_euclid(1.0) * period_s
    }
}
