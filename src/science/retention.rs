//! Retention: the water a medium still holds at a suction.
//!
//! Suctions are in centimetres of water and positive: 10 cm is about 1 kPa.

use std::fmt;

use super::numerics::roots::root_between;

/// Why a set of numbers is no retention curve.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotACurve {
    /// α must be above nought and finite.
    Alpha,
    /// n must be above one.
    Shape,
    /// Residual water must lie from nought up to the pore space, and the pore space up to one.
    Water,
    /// The share of the coarse pores must lie from nought to one.
    Share,
}

impl fmt::Display for NotACurve {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Alpha => {
                "the inverse air-entry suction of a retention curve must be above nought"
            }
            Self::Shape => "the shape number n of a retention curve must be above one",
            Self::Water => {
                "the residual water must lie between nought and the pore space, and that below one"
            }
            Self::Share => "the share of coarse pores must lie between nought and one",
        })
    }
}

impl std::error::Error for NotACurve {}

/// One system of pores after van Genuchten, with Mualem's restriction m = 1 - 1/n.
///
/// S = \[1 + (α h)^n\]^-m, where h is the suction.
/// Source: van Genuchten 1980, Soil Science Society of America Journal 44:892, equations 3 and 8.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PoreSystem {
    ln_alpha_per_cm: f64,
    n: f64,
    m: f64,
}

impl PoreSystem {
    /// From α in 1/cm (above 0) and n (above 1).
    ///
    /// # Errors
    /// [`NotACurve`] outside those ranges.
    pub fn new(alpha_per_cm: f64, n: f64) -> Result<Self, NotACurve> {
        if !(alpha_per_cm > 0.0 && alpha_per_cm.is_finite()) {
            return Err(NotACurve::Alpha);
        }
        if !(n > 1.0 && n.is_finite()) {
            return Err(NotACurve::Shape);
        }
        Ok(Self {
            ln_alpha_per_cm: alpha_per_cm.ln(),
            n,
            m: 1.0 - 1.0 / n,
        })
    }

    /// α, the inverse of the suction at which these pores begin to empty, 1/cm.
    #[must_use]
    pub fn alpha_per_cm(&self) -> f64 {
        self.ln_alpha_per_cm.exp()
    }

    /// n, the shape of how these pores empty; above 1.
    #[must_use]
    pub fn n(&self) -> f64 {
        self.n
    }

    /// (α h)^n at a suction given by its logarithm, ln(cm).
    pub(super) fn power_at_ln(&self, ln_suction_cm: f64) -> f64 {
        (self.n * (self.ln_alpha_per_cm + ln_suction_cm)).exp()
    }

    /// m = 1 - 1/n.
    pub(super) fn m(&self) -> f64 {
        self.m
    }

    /// The share of these pores that is full at a suction given by its logarithm, ln(cm).
    #[must_use]
    pub(super) fn saturation_at_ln(&self, ln_suction_cm: f64) -> f64 {
        (-self.m * self.power_at_ln(ln_suction_cm).ln_1p()).exp()
    }

    fn scaled(&self, factor: f64) -> Self {
        Self {
            ln_alpha_per_cm: self.ln_alpha_per_cm + factor.ln(),
            ..*self
        }
    }
}

/// A retention curve of two pore systems: between the grains (coarse) and within them (fine).
///
/// θ = θr + (θs - θr) \[w S_coarse + (1 - w) S_fine\].
/// Source: Durner 1994, Water Resources Research 30:211, equation 7, for two systems;
/// with w = 0 it is the curve of van Genuchten 1980.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Retention {
    residual: f64,
    saturated: f64,
    coarse_share: f64,
    coarse: PoreSystem,
    fine: PoreSystem,
}

impl Retention {
    /// One pore system: residual water θr and effective pore space θs, as fractions of volume.
    ///
    /// # Errors
    /// [`NotACurve`] unless 0 ≤ θr ≤ θs ≤ 1.
    pub fn single(residual: f64, saturated: f64, pores: PoreSystem) -> Result<Self, NotACurve> {
        Self::double(residual, saturated, 0.0, pores, pores)
    }

    /// Two pore systems; `coarse_share` is w, the share of the drainable pores that lies between the grains.
    ///
    /// # Errors
    /// [`NotACurve`] unless 0 ≤ θr ≤ θs ≤ 1 and 0 ≤ w ≤ 1.
    pub fn double(
        residual: f64,
        saturated: f64,
        coarse_share: f64,
        coarse: PoreSystem,
        fine: PoreSystem,
    ) -> Result<Self, NotACurve> {
        if !(0.0 <= residual && residual <= saturated && saturated <= 1.0) {
            return Err(NotACurve::Water);
        }
        if !(0.0..=1.0).contains(&coarse_share) {
            return Err(NotACurve::Share);
        }
        Ok(Self {
            residual,
            saturated,
            coarse_share,
            coarse,
            fine,
        })
    }

    /// θs: the pore space that water enters, fraction of volume.
    #[must_use]
    pub fn saturated(&self) -> f64 {
        self.saturated
    }

    /// θr: the water left however hard one pulls, fraction of volume.
    #[must_use]
    pub fn residual(&self) -> f64 {
        self.residual
    }

    /// w: the share of the drainable pores that lies between the grains.
    #[must_use]
    pub fn coarse_share(&self) -> f64 {
        self.coarse_share
    }

    /// The pores between the grains; they count for nothing where their share is nought.
    #[must_use]
    pub fn coarse(&self) -> &PoreSystem {
        &self.coarse
    }

    /// The pores within the grains, or all of them where there is one system.
    #[must_use]
    pub fn fine(&self) -> &PoreSystem {
        &self.fine
    }

    /// The gaps between the grains, fraction of volume; nought where they are no system of their own.
    #[must_use]
    pub fn gaps(&self) -> f64 {
        self.coarse_share * (self.saturated - self.residual)
    }

    /// Water content, fraction of volume, at a suction in cm of water; at and below nought all pores are full.
    #[must_use]
    pub fn water_content(&self, suction_cm: f64) -> f64 {
        if suction_cm <= 0.0 {
            return self.saturated;
        }
        self.water_content_at_ln(suction_cm.ln())
    }

    /// The same from ln(suction in cm), for loops over several curves at one suction.
    #[must_use]
    pub fn water_content_at_ln(&self, ln_suction_cm: f64) -> f64 {
        let (water, _) = self.water_and_that_in_gaps_at_ln(ln_suction_cm);
        water
    }

    /// The water, and how much of it is in the gaps between the grains, both as fractions of volume,
    /// from ln(suction in cm).
    pub(super) fn water_and_that_in_gaps_at_ln(&self, ln_suction_cm: f64) -> (f64, f64) {
        let drainable = self.saturated - self.residual;
        let fine = self.fine.saturation_at_ln(ln_suction_cm);
        if self.coarse_share <= 0.0 {
            return (self.residual + drainable * fine, 0.0);
        }
        let coarse = self.coarse_share * self.coarse.saturation_at_ln(ln_suction_cm);
        let filled = coarse + (1.0 - self.coarse_share) * fine;
        (self.residual + drainable * filled, drainable * coarse)
    }

    /// The curve of a medium alike in shape whose pores are finer or coarser:
    /// each suction is divided by `factor` (above nought). Source: Miller & Miller 1956,
    /// Journal of Applied Physics 27:324 (similar media).
    #[must_use]
    pub fn with_suctions_divided_by(&self, factor: f64) -> Self {
        Self {
            coarse: self.coarse.scaled(factor),
            fine: self.fine.scaled(factor),
            ..*self
        }
    }

    /// The curve of a like medium that holds a given water content at a given suction in cm; as near
    /// to it as the pore space allows.
    ///
    /// Of two pore systems it is the volume within the grains that differs from lot to lot, and the
    /// gaps between them take up the rest of the pore space. Where that does not suffice, and where
    /// there is one system, all pores are finer or coarser in proportion.
    #[must_use]
    pub fn drawn_through(&self, suction_cm: f64, water_content: f64) -> Self {
        /// Pores no more than e^5 (about 150) times finer or coarser than those of the shape.
        const FARTHEST_LN: f64 = 5.0;
        /// A change of pore size by this share moves no water content that anyone measures.
        const CLOSE_ENOUGH_LN: f64 = 1e-6;
        /// A difference in water content that nobody measures.
        const REACHED: f64 = 1e-9;
        let ln_suction_cm = suction_cm.ln();
        let missed_by =
            |curve: &Self| (curve.water_content_at_ln(ln_suction_cm) - water_content).abs();
        let scaled = |curve: &Self| {
            let excess = |ln_factor: f64| {
                curve.water_content_at_ln(ln_suction_cm + ln_factor) - water_content
            };
            let ln_factor = root_between(-FARTHEST_LN, FARTHEST_LN, CLOSE_ENOUGH_LN, excess)
                .unwrap_or_else(|_| FARTHEST_LN.copysign(excess(0.0)));
            curve.with_suctions_divided_by(ln_factor.exp())
        };
        let other_grains = self.with_grains_for(ln_suction_cm, water_content);
        if missed_by(&other_grains) < REACHED {
            return other_grains;
        }
        let other_pores = scaled(self);
        if other_grains == *self {
            return other_pores;
        }
        let other_grains_and_pores = scaled(&other_grains);
        if missed_by(&other_grains_and_pores) < missed_by(&other_pores) {
            other_grains_and_pores
        } else {
            other_pores
        }
    }

    /// The same curve with more or less pore volume within the grains, and less or more between them,
    /// so that it holds a water content at a suction, given by its logarithm, ln(cm); as near to it as
    /// that allows.
    fn with_grains_for(&self, ln_suction_cm: f64, water_content: f64) -> Self {
        /// Grains keep at least this share of the pore volume that they have in the shape.
        const LEAST: f64 = 0.05;
        let gaps = self.gaps();
        let within_grains = self.saturated - gaps;
        if gaps <= 0.0 || within_grains <= 0.0 {
            return *self;
        }
        let gaps_full = self.coarse.saturation_at_ln(ln_suction_cm);
        let held_within = self.residual
            + (within_grains - self.residual) * self.fine.saturation_at_ln(ln_suction_cm);
        // k times the grains hold k held_within, and the gaps are what they leave of the pore space.
        let gained = held_within - within_grains * gaps_full;
        if gained <= 0.0 {
            return *self;
        }
        let most = self.saturated / within_grains;
        let k = ((water_content - self.saturated * gaps_full) / gained).clamp(LEAST, most);
        let residual = self.residual * k;
        let left = self.saturated - residual;
        Self {
            residual,
            coarse_share: if left > 0.0 {
                ((self.saturated - within_grains * k) / left).clamp(0.0, 1.0)
            } else {
                0.0
            },
            ..*self
        }
    }

    /// The same curve for another pore space, residual water kept in proportion.
    ///
    /// # Errors
    /// [`NotACurve::Water`] unless 0 ≤ `saturated` ≤ 1.
    pub fn with_saturated(&self, saturated: f64) -> Result<Self, NotACurve> {
        if !(0.0..=1.0).contains(&saturated) {
            return Err(NotACurve::Water);
        }
        let ratio = if self.saturated > 0.0 {
            saturated / self.saturated
        } else {
            1.0
        };
        Ok(Self {
            residual: (self.residual * ratio).min(saturated),
            saturated,
            ..*self
        })
    }
}

/// Water content after Brooks & Corey, fraction of volume, at a suction in cm.
///
/// θ = θs up to the air-entry suction h_b, and θr + (θs - θr)(h_b/h)^λ beyond it.
/// Source: Brooks & Corey 1964, Colorado State University Hydrology Paper 3, equation 3.
#[must_use]
pub fn brooks_corey_water_content(
    residual: f64,
    saturated: f64,
    air_entry_cm: f64,
    lambda: f64,
    suction_cm: f64,
) -> f64 {
    if suction_cm <= air_entry_cm {
        saturated
    } else {
        residual + (saturated - residual) * (air_entry_cm / suction_cm).powf(lambda)
    }
}
