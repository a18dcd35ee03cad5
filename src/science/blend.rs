//! The mass balance of a mix, on the volume that is left after mixing.
//!
//! Grains keep their own solids and their own inner pores. The volume that is lost on mixing was
//! gaps between grains, which finer grains fell into. So solids per litre rise by 1/(1 - s). At a
//! suction at which such gaps are empty, so does the water; at less suction the gaps would have held
//! water, and that water is gone with them.

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
    /// Share of the gaps between grains that is lost.
    gaps_filled: f64,
    widest_first: f64,
    pore_space: f64,
    soaked: f64,
}

impl Blend {
    /// From the parts, the share of the volume lost on mixing, 0 ≤ s < 1, and how far it is the
    /// widest gaps that are filled first: from 0, all alike, to 1, strictly in order.
    #[must_use]
    pub fn new(parts: Vec<Part>, volume_lost: f64, widest_first: f64) -> Self {
        let volume_left = 1.0 - volume_lost;
        let left_by = |taken: &dyn Fn(&Part) -> f64| {
            let taken: f64 = parts.iter().map(|part| part.share * taken(part)).sum();
            (1.0 - taken / volume_left).max(0.0)
        };
        let gaps: f64 = parts
            .iter()
            .map(|part| part.share * part.retention.gaps())
            .sum();
        let gaps_filled = if gaps > volume_lost {
            volume_lost / gaps
        } else {
            1.0
        };
        Self {
            volume_left,
            gaps_filled,
            widest_first,
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

    /// Water content of the mix, fraction of volume, at a suction in cm.
    ///
    /// Which gaps are filled lies between two limits, and so does this. If the widest go first, the
    /// mix holds the lesser of Σ v θ(h)/(1 - s) and the pores that water enters. If all gaps shrink
    /// alike, it holds (Σ v θ(h) - s S(h))/(1 - s), where S is the share of the gaps that is
    /// full, of all parts by the volume of their gaps; where more is lost than there are gaps,
    /// the rest goes as in the first case. Both are exact if each grain keeps its inner pores.
    #[must_use]
    pub fn water_content(&self, suction_cm: f64) -> f64 {
        self.held(suction_cm, self.soaked, |_| 1.0)
    }

    /// The same had it been wetted in full, with no air trapped: as a laboratory soaks it.
    #[must_use]
    pub fn water_content_wetted_in_full(&self, suction_cm: f64) -> f64 {
        self.held(suction_cm, self.pore_space, |part| {
            let soaked = part.retention.saturated();
            if soaked > 0.0 {
                part.pore_space / soaked
            } else {
                1.0
            }
        })
    }

    fn held(&self, suction_cm: f64, full: f64, wetter: impl Fn(&Part) -> f64) -> f64 {
        if suction_cm <= 0.0 {
            return full;
        }
        let ln_suction_cm = suction_cm.ln();
        let (mut water, mut full_gaps) = (0.0, 0.0);
        for part in &self.parts {
            let share = part.share * wetter(part);
            let (held, in_gaps) = part.retention.water_and_that_in_gaps_at_ln(ln_suction_cm);
            water += share * held;
            full_gaps += share * in_gaps;
        }
        let left = |water: f64| (water / self.volume_left).min(full);
        let alike = left(water - self.gaps_filled * full_gaps);
        alike + self.widest_first * (left(water) - alike)
    }
}
