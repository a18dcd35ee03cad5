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

    /// The pores that water enters, out of a pore space, when air stays trapped in a share of them.
    pub fn soaked(&self, pore_space: f64, trapped: f64) -> f64 {
        match self.pores_by {
            PoresBy::Densities => pore_space * (1.0 - trapped),
            PoresBy::Soaking => pore_space,
        }
    }

    /// The retention curve at the best figures.
    ///
    /// # Errors
    /// [`NotACurve`] where the figures are no curve.
    pub fn retention(&self) -> Result<Retention, NotACurve> {
        /// The gaps between grains as the table has them.
        const AS_WIDE: f64 = 1.0;
        self.shape.retention_through(
            self.soaked(self.pore_space.best(), filling::TRAPPED_AIR.range.best()),
            self.water_at_10_cm.best(),
            AS_WIDE,
        )
    }
}
