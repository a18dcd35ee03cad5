//! The floor of a house as a whole, over months: how much heat it loses to the ground, near the edge and
//! in the middle.
//!
//! Source: EN ISO 13370, floors on the ground (from memory; the same formulas stand in several published
//! programs that quote it). Not for hour by hour: for that see [`super::layers`].

use std::f64::consts::PI;

/// Inner film for heat that runs down, m² K/W (EN ISO 6946, table of conventional resistances).
pub const INNER_FILM_DOWN_M2_K_PER_W: f64 = 0.17;
/// Outer film, m² K/W (the same).
pub const OUTER_FILM_M2_K_PER_W: f64 = 0.04;

/// A floor that lies on the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slab {
    /// Its area, m².
    pub area_m2: f64,
    /// The length of its edge to the outside, m.
    pub edge_m: f64,
    /// Thickness of the wall that stands on that edge, m.
    pub wall_m: f64,
    /// Conductivity of the ground, W/m K.
    pub ground_w_per_m_k: f64,
    /// Resistance of what lies on the ground (screed, insulation), m² K/W; nought for bare ground.
    pub layers_m2_k_per_w: f64,
}

/// Insulation along the edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeInsulation {
    /// How wide it lies, or how deep it stands, m.
    pub width_m: f64,
    /// Its thickness, m.
    pub thickness_m: f64,
    /// Its conductivity, W/m K.
    pub conductivity_w_per_m_k: f64,
    /// Whether it stands in the ground; otherwise it lies flat.
    pub upright: bool,
}

impl Slab {
    /// B, m: the area over half the edge.
    #[must_use]
    pub fn characteristic_m(&self) -> f64 {
        self.area_m2 / (0.5 * self.edge_m)
    }

    /// Thickness of ground that resists as much as wall, films and layers do, m.
    #[must_use]
    pub fn equivalent_thickness_m(&self) -> f64 {
        self.wall_m
            + self.ground_w_per_m_k
                * (INNER_FILM_DOWN_M2_K_PER_W + self.layers_m2_k_per_w + OUTER_FILM_M2_K_PER_W)
    }

    /// Heat lost for each degree that the inside is warmer than the outside on the mean of a year or month,
    /// W/m² K of floor: 2k/(πB + d) ln(πB/d + 1) where d < B, k/(0.457 B + d) otherwise.
    #[must_use]
    pub fn transmittance_w_per_m2_k(&self) -> f64 {
        let (b, d) = (self.characteristic_m(), self.equivalent_thickness_m());
        if d < b {
            2.0 * self.ground_w_per_m_k / (PI * b + d) * (PI * b / d + 1.0).ln()
        } else {
            self.ground_w_per_m_k / (0.457 * b + d)
        }
    }

    /// What insulation along the edge changes, W/m K of edge; below nought.
    #[must_use]
    pub fn edge_term_w_per_m_k(&self, edge: &EdgeInsulation) -> f64 {
        let d = self.equivalent_thickness_m();
        let resistance = edge.thickness_m / edge.conductivity_w_per_m_k
            - edge.thickness_m / self.ground_w_per_m_k;
        let further = resistance * self.ground_w_per_m_k;
        let width = if edge.upright {
            2.0 * edge.width_m
        } else {
            edge.width_m
        };
        -self.ground_w_per_m_k / PI * ((width / d + 1.0).ln() - (width / (d + further) + 1.0).ln())
    }

    /// The transmittance with insulation along the edge, W/m² K of floor: U + 2ψ/B.
    #[must_use]
    pub fn with_edge_w_per_m2_k(&self, edge: &EdgeInsulation) -> f64 {
        self.transmittance_w_per_m2_k()
            + 2.0 * self.edge_term_w_per_m_k(edge) / self.characteristic_m()
    }
}
