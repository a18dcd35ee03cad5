//! Hydraulic conductivity: how fast water moves through a medium at a suction.
//!
//! Suctions are in metres of water and positive; conductivities in m/s. A medium is its
//! retention curve and a theory of how the pores that are still full join up:
//!
//! | model | conductivity |
//! |---|---|
//! | [`Medium`], [`Paths::One`] | Mualem 1976 on one or two pore systems that form one network |
//! | [`Medium`], [`Paths::Two`] | two networks side by side, each after Mualem 1976 |
//! | [`BrooksCorey`] | a power of the suction, after Burdine 1953 or Mualem 1976 |
//!
//! Hysteresis: the curves are those of drying unless the caller takes [`Medium::wetting`].

use std::fmt;

use super::retention::{Retention, brooks_corey_water_content};
use crate::measure::{Conductivity, Suction};

/// What a medium does at each suction: all that the flow of water asks of it.
///
/// Neither curve may rise with suction, and the conductivity is above nought. Below a
/// suction of nought all pores are full.
pub trait Curves {
    /// Water content, fraction of volume, at a suction in metres of water.
    fn water_content(&self, suction_m: f64) -> f64;
    /// Hydraulic conductivity, m/s, at a suction in metres of water.
    fn conductivity_m_per_s(&self, suction_m: f64) -> f64;
}

/// Why numbers make no conducting medium.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotAConductor {
    /// The conductivity of the full pores must be above nought and finite.
    Saturated,
    /// The exponent of tortuosity must be a number that keeps conductivity falling.
    Tortuosity,
    /// The air-entry suction must be nought or more, and finite.
    AirEntry,
    /// λ must be above nought, and residual water below the pore space.
    Retention,
}

impl fmt::Display for NotAConductor {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Saturated => "the conductivity of the full medium must be above nought",
            Self::Tortuosity => {
                "the exponent of tortuosity must not make water flow faster as pores empty"
            }
            Self::AirEntry => "the air-entry suction must be nought or more",
            Self::Retention => {
                "the spread of pores must be above nought, and residual water below the pore space"
            }
        })
    }
}

impl std::error::Error for NotAConductor {}

/// How the pores of a [`Medium`] join up, with the conductivity when all of them are full.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Paths {
    /// All pores form one network. With two pore systems
    /// K = Ks S^ℓ \[Σ w α f / Σ w α\]², f = 1 - (1 - S_i^(1/m))^m.
    /// Source: Priesack & Durner 2006, Vadose Zone Journal 5:121; with one system it
    /// is van Genuchten 1980, Soil Science Society of America Journal 44:892, equation 8.
    One {
        /// Ks of the whole.
        saturated: Conductivity,
    },
    /// The pores between the grains and those within them conduct side by side, each by itself:
    /// K = Σ Ks_i S_i^ℓ f_i². For grains whose inner pores touch their neighbours at points only,
    /// so that `within` is far below what a block of the same pores would carry.
    /// Source: the sum of two domains, Othmer, Diekkrüger & Kutilek 1991, Soil Science 152:139.
    Two {
        /// Ks of the pores between the grains.
        between: Conductivity,
        /// Ks of the pores within the grains and across their points of contact.
        within: Conductivity,
    },
}

/// ℓ of Mualem's theory, the mean of 45 soils. Source: Mualem 1976, Water Resources Research 12:513.
pub const MUALEM_TORTUOSITY: f64 = 0.5;

/// A medium of one or two pore systems after van Genuchten that conducts after Mualem.
///
/// Range: suctions from nought up; below the air-entry suction it is full and conducts as such.
/// Source: van Genuchten 1980; Durner 1994, Water Resources Research 30:211; near saturation
/// Vogel, van Genuchten & Cislerova 2000, Advances in Water Resources 24:133, and for two systems
/// Ippisch, Vogel & Bastian 2006, Advances in Water Resources 29:1780.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Medium {
    retention: Retention,
    paths: Paths,
    tortuosity: f64,
    air_entry_cm: f64,
}

const CENTIMETRES_PER_METRE: f64 = 100.0;

impl Medium {
    /// From a retention curve, the paths with their saturated conductivity, and Mualem's ℓ
    /// ([`MUALEM_TORTUOSITY`] unless measured).
    ///
    /// # Errors
    /// [`NotAConductor`] for a conductivity that is not above nought, or ℓ below -1.
    pub fn new(retention: Retention, paths: Paths, tortuosity: f64) -> Result<Self, NotAConductor> {
        let conducts = |k: Conductivity| {
            let k = k.in_metres_per_second();
            k > 0.0 && k.is_finite()
        };
        let all_conduct = match paths {
            Paths::One { saturated } => conducts(saturated),
            Paths::Two { between, within } => conducts(between) && conducts(within),
        };
        if !all_conduct {
            return Err(NotAConductor::Saturated);
        }
        // f falls at least as fast as S, so S^ℓ f² falls for every ℓ down to -1.
        if !(tortuosity >= -1.0 && tortuosity.is_finite()) {
            return Err(NotAConductor::Tortuosity);
        }
        Ok(Self {
            retention,
            paths,
            tortuosity,
            air_entry_cm: 0.0,
        })
    }

    /// The same medium that stays full up to a suction of its own: without one, curves of n below
    /// 2 lose most of their conductivity within a hair of saturation.
    ///
    /// S = S(s)/S(s_e) beyond the air-entry suction s_e, and f likewise.
    /// Source: Vogel, van Genuchten & Cislerova 2000 (2 cm for clays); Ippisch et al. 2006.
    ///
    /// # Errors
    /// [`NotAConductor::AirEntry`] unless nought or more.
    pub fn with_air_entry(self, suction: Suction) -> Result<Self, NotAConductor> {
        let air_entry_cm = suction.in_centimetres_of_water();
        if !(air_entry_cm >= 0.0 && air_entry_cm.is_finite()) {
            return Err(NotAConductor::AirEntry);
        }
        Ok(Self {
            air_entry_cm,
            ..self
        })
    }

    /// The curve of wetting, which lies at suctions smaller by `ratio` (α wetting over α drying).
    ///
    /// Kool & Parker 1987, Water Resources Research 23:105, find about 2 for soils. The true water
    /// lies between the two curves; how far is the caller's doubt. Above nought.
    #[must_use]
    pub fn wetting(self, ratio: f64) -> Self {
        Self {
            retention: self.retention.with_suctions_divided_by(ratio),
            air_entry_cm: self.air_entry_cm / ratio,
            ..self
        }
    }

    /// A similar medium whose pores are `factor` times as wide: each suction is divided by it and
    /// conductivity is multiplied by its square.
    /// Source: Miller & Miller 1956, Journal of Applied Physics 27:324.
    #[must_use]
    pub fn similar(self, factor: f64) -> Self {
        let times = factor * factor;
        Self {
            paths: match self.paths {
                Paths::One { saturated } => Paths::One {
                    saturated: saturated * times,
                },
                Paths::Two { between, within } => Paths::Two {
                    between: between * times,
                    within: within * times,
                },
            },
            ..self.wetting(factor)
        }
    }

    /// The retention curve, without the air-entry suction.
    #[must_use]
    pub fn retention(&self) -> &Retention {
        &self.retention
    }

    /// The conductivity when all pores are full.
    #[must_use]
    pub fn saturated_conductivity(&self) -> Conductivity {
        match self.paths {
            Paths::One { saturated } => saturated,
            Paths::Two { between, within } => between + within,
        }
    }

    /// Shares and states of the coarse and the fine system at a suction: (w, α, S, f).
    fn systems(&self, ln_suction_cm: f64) -> [(f64, f64, f64, f64); 2] {
        let w = self.retention.coarse_share();
        [
            (w, self.retention.coarse()),
            (1.0 - w, self.retention.fine()),
        ]
        .map(|(share, pores)| {
            if share == 0.0 {
                return (0.0, 0.0, 1.0, 1.0);
            }
            // 1 - S^(1/m) = x/(1 + x) with x = (α h)^n; in this form f keeps its digits when tiny.
            let x = pores.power_at_ln(ln_suction_cm);
            let f = -(-pores.m() * (1.0 / x).ln_1p()).exp_m1();
            (
                share,
                pores.alpha_per_cm(),
                pores.saturation_at_ln(ln_suction_cm),
                f,
            )
        })
    }
}

impl Curves for Medium {
    fn water_content(&self, suction_m: f64) -> f64 {
        let suction_cm = suction_m * CENTIMETRES_PER_METRE;
        let saturated = self.retention.saturated();
        if suction_cm <= self.air_entry_cm {
            return saturated;
        }
        let water = self.retention.water_content(suction_cm);
        let residual = self.retention.residual();
        let at_entry = self.retention.water_content(self.air_entry_cm);
        if self.air_entry_cm == 0.0 || at_entry <= residual {
            return water;
        }
        residual + (saturated - residual) * (water - residual) / (at_entry - residual)
    }

    fn conductivity_m_per_s(&self, suction_m: f64) -> f64 {
        let suction_cm = suction_m * CENTIMETRES_PER_METRE;
        if suction_cm <= self.air_entry_cm {
            return self.saturated_conductivity().in_metres_per_second();
        }
        let now = self.systems(suction_cm.ln());
        let full = if self.air_entry_cm > 0.0 {
            self.systems(self.air_entry_cm.ln())
        } else {
            now.map(|(w, alpha, _, _)| (w, alpha, 1.0, 1.0))
        };
        match self.paths {
            Paths::One { saturated } => {
                let filled = |systems: &[(f64, f64, f64, f64); 2]| -> f64 {
                    systems.iter().map(|(w, _, s, _)| w * s).sum()
                };
                let joined = |systems: &[(f64, f64, f64, f64); 2]| -> f64 {
                    systems.iter().map(|(w, alpha, _, f)| w * alpha * f).sum()
                };
                saturated.in_metres_per_second()
                    * (filled(&now) / filled(&full)).powf(self.tortuosity)
                    * (joined(&now) / joined(&full)).powi(2)
            }
            Paths::Two { between, within } => [between, within]
                .iter()
                .zip(now.iter().zip(&full))
                .map(|(k, ((_, _, s, f), (_, _, s_full, f_full)))| {
                    k.in_metres_per_second()
                        * (s / s_full).powf(self.tortuosity)
                        * (f / f_full).powi(2)
                })
                .sum(),
        }
    }
}

/// The theory by which the exponent of a [`BrooksCorey`] medium follows from its pores.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Theory {
    /// K/Ks = S^(3 + 2/λ): P = 2 + 3 λ. Source: Burdine 1953, as in Brooks & Corey 1964.
    Burdine,
    /// K/Ks = S^(2.5 + 2/λ): P = 2 + 2.5 λ. Source: Mualem 1976, with ℓ = 0.5.
    Mualem,
}

/// A medium whose water and conductivity are powers of the suction beyond the air entry h_b:
/// θ = θr + (θs - θr)(h_b/s)^λ and K = Ks (h_b/s)^P.
///
/// Source: Brooks & Corey 1964, Colorado State University Hydrology Paper 3.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BrooksCorey {
    residual: f64,
    saturated: f64,
    air_entry_m: f64,
    lambda: f64,
    exponent: f64,
    saturated_m_per_s: f64,
}

impl BrooksCorey {
    /// From residual water and pore space (fractions of volume), air-entry suction h_b (above
    /// nought), λ (above nought), saturated conductivity and the theory that gives P.
    ///
    /// # Errors
    /// [`NotAConductor`] outside those ranges.
    pub fn new(
        residual: f64,
        saturated: f64,
        air_entry: Suction,
        lambda: f64,
        saturated_conductivity: Conductivity,
        theory: Theory,
    ) -> Result<Self, NotAConductor> {
        let air_entry_m = air_entry.in_centimetres_of_water() / CENTIMETRES_PER_METRE;
        let saturated_m_per_s = saturated_conductivity.in_metres_per_second();
        if !(lambda > 0.0
            && lambda.is_finite()
            && 0.0 <= residual
            && residual <= saturated
            && saturated <= 1.0)
        {
            return Err(NotAConductor::Retention);
        }
        if !(air_entry_m > 0.0 && air_entry_m.is_finite()) {
            return Err(NotAConductor::AirEntry);
        }
        if !(saturated_m_per_s > 0.0 && saturated_m_per_s.is_finite()) {
            return Err(NotAConductor::Saturated);
        }
        Ok(Self {
            residual,
            saturated,
            air_entry_m,
            lambda,
            exponent: match theory {
                Theory::Burdine => 2.0 + 3.0 * lambda,
                Theory::Mualem => 2.0 + (2.0 + MUALEM_TORTUOSITY) * lambda,
            },
            saturated_m_per_s,
        })
    }

    /// P, the power by which conductivity falls with suction.
    #[must_use]
    pub fn exponent(&self) -> f64 {
        self.exponent
    }
}

impl Curves for BrooksCorey {
    fn water_content(&self, suction_m: f64) -> f64 {
        brooks_corey_water_content(
            self.residual,
            self.saturated,
            self.air_entry_m,
            self.lambda,
            suction_m,
        )
    }

    fn conductivity_m_per_s(&self, suction_m: f64) -> f64 {
        if suction_m <= self.air_entry_m {
            self.saturated_m_per_s
        } else {
            self.saturated_m_per_s * (self.air_entry_m / suction_m).powf(self.exponent)
        }
    }
}
