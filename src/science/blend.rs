//! The mass balance of a mix, on the volume that is left after mixing.
//!
//! Grains keep their own solids and their own inner pores; the volume that is
//! lost was air between grains. So solids and water per litre rise by 1/(1 - s).

use super::retention::Retention;

/// One part of a mix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Share by bulk volume before mixing; the shares add to one.
    pub share: f64,
    /// Dry bulk density, kg/m³ (the same number in g/L).
    pub dry_density_kg_per_m3: f64,
    /// Retention of the part by itself.
    pub retention: Retention,
}

/// A mix of parts that lost a share of its volume on mixing.
#[derive(Clone, Debug, PartialEq)]
pub struct Blend {
    parts: Vec<Part>,
    volume_left: f64,
    pore_space: f64,
}

impl Blend {
    /// From the parts and the share of the volume lost on mixing, 0 ≤ s < 1.
    #[must_use]
    pub fn new(parts: Vec<Part>, volume_lost: f64) -> Self {
        let volume_left = 1.0 - volume_lost;
        let solids: f64 = parts
            .iter()
            .map(|part| part.share * (1.0 - part.retention.saturated()))
            .sum();
        Self {
            parts,
            volume_left,
            pore_space: (1.0 - solids / volume_left).max(0.0),
        }
    }

    /// Effective pore space of the mix, fraction of volume: 1 - Σ v (1 - θs)/(1 - s).
    #[must_use]
    pub fn pore_space(&self) -> f64 {
        self.pore_space
    }

    /// Dry bulk density of the mix, kg/m³: Σ v ρ/(1 - s).
    #[must_use]
    pub fn dry_density_kg_per_m3(&self) -> f64 {
        let mass: f64 = self
            .parts
            .iter()
            .map(|part| part.share * part.dry_density_kg_per_m3)
            .sum();
        mass / self.volume_left
    }

    /// Water content of the mix, fraction of volume, at a suction in cm:
    /// the lesser of the pore space and Σ v θ(h)/(1 - s).
    ///
    /// Exact if each grain keeps its inner pores and only empty pores vanish; below
    /// about 10 cm it overstates the water where fines fill the gaps of a coarse part.
    #[must_use]
    pub fn water_content(&self, suction_cm: f64) -> f64 {
        if suction_cm <= 0.0 {
            return self.pore_space;
        }
        let ln_suction_cm = suction_cm.ln();
        let water: f64 = self
            .parts
            .iter()
            .map(|part| part.share * part.retention.water_content_at_ln(ln_suction_cm))
            .sum();
        (water / self.volume_left).min(self.pore_space)
    }
}
