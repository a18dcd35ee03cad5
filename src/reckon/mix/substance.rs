//! What a part of a mix is to the reckoning: the handbook's figures of its material, or one's own.

use crate::handbook::filling;
use crate::handbook::materials::{Material, PoresBy, Shape};
use crate::measure::Range;
use crate::science::retention::{NotACurve, Retention};

/// The figures of a part that one's own tests can overrule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Substance {
    /// Dry bulk density as filled and watered once, g/L.
    pub dry_density_g_per_l: Range<f64>,
    /// Pore space, fraction of volume.
    pub pore_space: Range<f64>,
    /// How that was found. Of one's own soaked and drained pot: by soaking.
    pub pores_by: PoresBy,
    /// Water at 10 cm of suction, fraction of volume.
    pub water_at_10_cm: Range<f64>,
    /// Shape of the retention curve.
    pub shape: Shape,
}

impl Substance {
    /// A material as the handbook has it.
    pub fn of(material: &Material) -> Self {
        Self {
            dry_density_g_per_l: material.dry_density_g_per_l.range,
            pore_space: material.pore_space.range,
            pores_by: material.pores_by,
            water_at_10_cm: material.water_at_10_cm.range,
            shape: material.shape,
        }
    }

    /// The share of the pores, and of the water at any suction, that is left when air stays trapped in
    /// a share of them: for air is trapped in pores of all widths (Parker & Lenhard 1987, Water Resources
    /// Research 23:2187, from memory).
    pub fn left_by(&self, trapped: f64) -> f64 {
        match self.pores_by {
            PoresBy::Densities => 1.0 - trapped,
            PoresBy::Soaking => 1.0,
        }
    }

    /// The retention curve at the best figures.
    ///
    /// # Errors
    /// [`NotACurve`] where the figures are no curve.
    pub fn retention(&self) -> Result<Retention, NotACurve> {
        /// The gaps between grains as the table has them.
        const AS_WIDE: f64 = 1.0;
        let left = self.left_by(filling::TRAPPED_AIR.range.best());
        self.shape.retention_through(
            self.pore_space.best() * left,
            self.water_at_10_cm.best() * left,
            AS_WIDE,
        )
    }
}
