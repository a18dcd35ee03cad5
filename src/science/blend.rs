//! The mass balance of a mix, on the volume that is left after mixing.
//!
//! Grains keep their own solids and their own inner pores. The volume that is lost on mixing was
//! the widest of the gaps between grains, for these are what finer grains fall into. So solids
//! per litre rise by 1/(1 - s), and so does water at suctions at which those gaps would have been
//! empty. Below such suctions the gaps would have held water; now they are no more, and the
//! mix holds what is left of its pores.

use super::retention::Retention;

/// One part of a mix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Share by bulk volume before mixing; the shares add to one.
    pub share: f64,
    /// Dry bulk density, kg/m³ (the same number in g/L).
    pub dry_density_kg_per_m3: f64,
    /// All its open pores by itself, fraction of volume: those that water enters, and those in which
    /// air stays trapped when it is wetted.
    pub pore_space: f64,
    /// Retention of the part by itself, from the pores that water enters.
    pub retention: Retention,
}

/// A mix of parts that lost a share of its volume on mixing.
#[derive(Clone, Debug, PartialEq)]
pub struct Blend {
    parts: Vec<Part>,
    volume_left: f64,
    pore_space: f64,
    soaked: f64,
}

impl Blend {
    /// From the parts and the share of the volume lost on mixing, 0 ≤ s < 1.
    #[must_use]
    pub fn new(parts: Vec<Part>, volume_lost: f64) -> Self {
        let volume_left = 1.0 - volume_lost;
        let left_by = |taken: &dyn Fn(&Part) -> f64| {
            let taken: f64 = parts.iter().map(|part| part.share * taken(part)).sum();
            (1.0 - taken / volume_left).max(0.0)
        };
        Self {
            volume_left,
            pore_space: left_by(&|part| 1.0 - part.pore_space),
            soaked: left_by(&|part| 1.0 - part.retention.saturated()),
            parts,
        }
    }

    /// All open pores of the mix, fraction of volume: 1 - Σ v (1 - pores)/(1 - s).
    #[must_use]
    pub fn pore_space(&self) -> f64 {
        self.pore_space
    }

    /// The pores that water enters when the mix is wetted, fraction of volume:
    /// 1 - Σ v (1 - θs)/(1 - s). Air stays trapped in the others.
    #[must_use]
    pub fn soaked(&self) -> f64 {
        self.soaked
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
    /// the lesser of the pores that water enters and Σ v θ(h)/(1 - s).
    ///
    /// That is what is left when the volume lost is taken out of the pores in order, widest first:
    /// of pores that empty beyond a suction there were Σ v θ(h) before mixing, and as many are
    /// there still unless more than all wider ones have gone.
    #[must_use]
    pub fn water_content(&self, suction_cm: f64) -> f64 {
        if suction_cm <= 0.0 {
            return self.soaked;
        }
        let ln_suction_cm = suction_cm.ln();
        let water: f64 = self
            .parts
            .iter()
            .map(|part| part.share * part.retention.water_content_at_ln(ln_suction_cm))
            .sum();
        (water / self.volume_left).min(self.soaked)
    }
}
