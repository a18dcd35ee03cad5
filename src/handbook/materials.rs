//! What potting mixes are made of.
//!
//! Volumes are as filled into a pot and watered once. Pores closed inside the
//! grain are in no pore space; whether those are in which air stays trapped on wetting hangs on
//! how it was found ([`PoresBy`]). A curve keeps the shape of its class and is drawn
//! through the pore space and the water at 10 cm of suction. The shape below
//! 10 cm is the weakest part: for gaps between grains it rests on one measured
//! sand. A drain test on your own heap overrules all of it.

use super::sources::{
    BARK_MEASURED, COIR_MEASURED, COMMON_PRACTICE, CONSENSUS, HULLS_AND_PERLITE, SMITH_2019,
    USED_MIX,
};
use super::{Figure, figure};
use crate::science::retention::{NotACurve, PoreSystem, Retention};

/// What kind of grain a material has, for packing and for words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nature {
    /// Gives way under pressure: peat, coir pith, fibre, loam.
    Soft,
    /// Stiff plant material: bark, chips, hulls, compost.
    Woody,
    /// Hard grains, with or without pores of their own.
    Mineral,
}

/// How a pore space was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PoresBy {
    /// From dry bulk density and particle density: all open pores. Some air stays trapped in them
    /// when the material is wetted.
    Densities,
    /// From the water taken up in a soak: air that stayed trapped is out of it already.
    Soaking,
}

/// What its dry dust can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dust {
    /// Little dust as it is usually sold, damp.
    None,
    /// A nuisance: eyes, nose and chest.
    Nuisance,
    /// May carry quartz, fine enough to breathe in.
    Silica,
    /// Fibres that itch.
    Fibre,
}

/// The larger of two pore systems: the gaps between grains.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BetweenGrains {
    /// α of van Genuchten, 1/cm: 0.3 (1 - φ)/φ × median grain in mm, φ being
    /// [`Material::packing_fraction`]. Gaps are as wide as their hydraulic radius, ε d/6(1 - ε) with
    /// ε = 1 - φ (Kozeny 1927, Carman 1937, from memory); the 0.3 is that of one measured sand (Salim
    /// and Hampton 2012), which packs at 0.6.
    pub alpha_per_cm: f64,
    /// n of van Genuchten.
    pub n: f64,
    /// Share of the drainable pores that lies between the grains.
    pub share: f64,
}

/// The shape of a class's retention curve, before it is drawn through a material's own figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shape {
    /// Residual water, fraction of volume.
    pub residual: f64,
    /// Pore space that the shape was fitted with, fraction of volume.
    pub saturated: f64,
    /// The gaps between grains, where they form a pore system of their own.
    pub between_grains: Option<BetweenGrains>,
    /// α of the finer (or only) pore system, 1/cm.
    pub fine_alpha_per_cm: f64,
    /// n of the finer (or only) pore system.
    pub fine_n: f64,
}

impl Shape {
    /// The same shape with another residual water at a pore space, both fractions of volume.
    #[must_use]
    pub fn with_residual(self, residual: f64, pore_space: f64) -> Self {
        Self {
            residual: residual * self.saturated / pore_space,
            ..self
        }
    }

    /// The residual water at a pore space, both fractions of volume.
    #[must_use]
    pub fn residual_at(&self, pore_space: f64) -> f64 {
        self.residual * pore_space / self.saturated
    }

    /// The retention curve of this shape through a pore space and a water content at
    /// [`SUCTION_OF_WATER_FIGURE_CM`] (fractions of volume), with the gaps between grains wider than
    /// the table's by a factor.
    ///
    /// # Errors
    /// [`NotACurve`] if a row of the table is out of order; a test holds every row to it.
    pub fn retention_through(
        &self,
        pore_space: f64,
        water_at_10_cm: f64,
        wider_gaps: f64,
    ) -> Result<Retention, NotACurve> {
        let fine = PoreSystem::new(self.fine_alpha_per_cm, self.fine_n)?;
        let curve = match self.between_grains {
            None => Retention::single(self.residual, self.saturated, fine)?,
            Some(gaps) => Retention::double(
                self.residual,
                self.saturated,
                gaps.share,
                PoreSystem::new(gaps.alpha_per_cm * wider_gaps, gaps.n)?,
                fine,
            )?,
        };
        Ok(curve
            .with_saturated(pore_space)?
            .drawn_through(SUCTION_OF_WATER_FIGURE_CM, water_at_10_cm))
    }
}

/// One material of the handbook.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Material {
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// Grade or make-up that the figures hold for; may be empty.
    pub grade: &'static str,
    /// Kind of grain.
    pub nature: Nature,
    /// Dry bulk density, g/L.
    pub dry_density_g_per_l: Figure,
    /// Density as it is bought, moist as it usually comes, g/L.
    pub bagged_density_g_per_l: Figure,
    /// Pore space, fraction of volume.
    pub pore_space: Figure,
    /// How the pore space was found.
    pub pores_by: PoresBy,
    /// Water at 10 cm of suction, fraction of volume.
    pub water_at_10_cm: Figure,
    /// Shape of the retention curve.
    pub shape: Shape,
    /// Share of the bulk volume that the grains' envelopes fill (common practice, no source).
    pub packing_fraction: f64,
    /// Median grain, mm (common practice, no source).
    pub grain_mm: f64,
    /// What its dust can do.
    pub dust: Dust,
    /// Whether it may carry Legionella, as composted and plant materials may.
    pub living: bool,
}

/// Suction of [`Material::water_at_10_cm`], cm.
pub const SUCTION_OF_WATER_FIGURE_CM: f64 = 10.0;

impl Material {
    /// The name with its grade: "composted bark, under 10 mm".
    #[must_use]
    pub fn name_and_grade(&self) -> String {
        if self.grade.is_empty() {
            self.name.to_owned()
        } else {
            format!("{}, {}", self.name, self.grade)
        }
    }
}

/// The material of a key.
#[must_use]
pub fn material(key: &str) -> Option<&'static Material> {
    MATERIALS.iter().find(|material| material.key == key)
}

const fn pores(alpha_per_cm: f64, n: f64, share: f64) -> BetweenGrains {
    BetweenGrains {
        alpha_per_cm,
        n,
        share,
    }
}

/// All materials, softest first.
pub static MATERIALS: &[Material] = &[
    Material {
        key: "white_peat",
        name: "white peat",
        grade: "little decomposed",
        nature: Nature::Soft,
        dry_density_g_per_l: figure(60.0, 90.0, 120.0, &CONSENSUS),
        bagged_density_g_per_l: figure(200.0, 300.0, 400.0, &COMMON_PRACTICE),
        pore_space: figure(0.92, 0.94, 0.965, &CONSENSUS),
        pores_by: PoresBy::Densities,
        water_at_10_cm: figure(0.52, 0.67, 0.8, &CONSENSUS),
        shape: Shape {
            residual: 0.207,
            saturated: 0.93,
            between_grains: None,
            fine_alpha_per_cm: 0.1479,
            fine_n: 1.796,
        },
        packing_fraction: 0.55,
        grain_mm: 0.8,
        dust: Dust::None,
        living: true,
    },
    Material {
        key: "black_peat",
        name: "black peat",
        grade: "well decomposed, frozen",
        nature: Nature::Soft,
        dry_density_g_per_l: figure(120.0, 160.0, 220.0, &CONSENSUS),
        bagged_density_g_per_l: figure(350.0, 450.0, 600.0, &COMMON_PRACTICE),
        pore_space: figure(0.86, 0.895, 0.925, &CONSENSUS),
        pores_by: PoresBy::Densities,
        water_at_10_cm: figure(0.7, 0.77, 0.84, &CONSENSUS),
        shape: Shape {
            residual: 0.19,
            saturated: 0.89,
            between_grains: None,
            fine_alpha_per_cm: 0.0993,
            fine_n: 1.376,
        },
        packing_fraction: 0.55,
        grain_mm: 0.5,
        dust: Dust::None,
        living: true,
    },
    Material {
        key: "coir_pith",
        name: "coir pith",
        grade: "",
        nature: Nature::Soft,
        dry_density_g_per_l: figure(45.0, 70.0, 105.0, &COIR_MEASURED),
        bagged_density_g_per_l: figure(250.0, 350.0, 450.0, &COMMON_PRACTICE),
        pore_space: figure(0.93, 0.945, 0.962, &COIR_MEASURED),
        pores_by: PoresBy::Densities,
        water_at_10_cm: figure(0.5, 0.64, 0.76, &CONSENSUS),
        shape: Shape {
            residual: 0.218,
            saturated: 0.94,
            between_grains: None,
            fine_alpha_per_cm: 0.1754,
            fine_n: 1.677,
        },
        packing_fraction: 0.55,
        grain_mm: 0.6,
        dust: Dust::None,
        living: true,
    },
    Material {
        key: "coir_chips",
        name: "coir chips",
        grade: "5 to 15 mm",
        nature: Nature::Woody,
        dry_density_g_per_l: figure(60.0, 75.0, 95.0, &CONSENSUS),
        bagged_density_g_per_l: figure(150.0, 250.0, 350.0, &COMMON_PRACTICE),
        pore_space: figure(0.8, 0.89, 0.94, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.18, 0.3, 0.42, &CONSENSUS),
        shape: Shape {
            residual: 0.067,
            saturated: 0.9,
            between_grains: Some(pores(2.4, 3.0, 0.576)),
            fine_alpha_per_cm: 0.261,
            fine_n: 1.373,
        },
        packing_fraction: 0.5,
        grain_mm: 8.0,
        dust: Dust::None,
        living: true,
    },
    Material {
        key: "composted_bark",
        name: "composted bark",
        grade: "under 10 mm",
        nature: Nature::Woody,
        dry_density_g_per_l: figure(150.0, 190.0, 270.0, &BARK_MEASURED),
        bagged_density_g_per_l: figure(300.0, 400.0, 500.0, &COMMON_PRACTICE),
        pore_space: figure(0.74, 0.8, 0.85, &BARK_MEASURED),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.31, 0.39, 0.49, &CONSENSUS),
        shape: Shape {
            residual: 0.08,
            saturated: 0.8,
            between_grains: Some(pores(0.736, 3.0, 0.5)),
            fine_alpha_per_cm: 0.1336,
            fine_n: 1.204,
        },
        packing_fraction: 0.55,
        grain_mm: 3.0,
        dust: Dust::Nuisance,
        living: true,
    },
    Material {
        key: "green_compost",
        name: "green compost",
        grade: "under 10 mm",
        nature: Nature::Woody,
        dry_density_g_per_l: figure(300.0, 450.0, 600.0, &CONSENSUS),
        bagged_density_g_per_l: figure(450.0, 525.0, 600.0, &COMMON_PRACTICE),
        pore_space: figure(0.68, 0.76, 0.83, &CONSENSUS),
        pores_by: PoresBy::Densities,
        water_at_10_cm: figure(0.5, 0.58, 0.66, &CONSENSUS),
        shape: Shape {
            residual: 0.0,
            saturated: 0.77,
            between_grains: None,
            fine_alpha_per_cm: 0.4725,
            fine_n: 1.168,
        },
        packing_fraction: 0.55,
        grain_mm: 2.0,
        dust: Dust::Nuisance,
        living: true,
    },
    Material {
        key: "loam_compost",
        name: "loam-based compost",
        grade: "7 loam, 3 peat, 2 sand",
        nature: Nature::Soft,
        dry_density_g_per_l: figure(750.0, 900.0, 1100.0, &CONSENSUS),
        bagged_density_g_per_l: figure(900.0, 1050.0, 1200.0, &COMMON_PRACTICE),
        pore_space: figure(0.52, 0.6, 0.66, &CONSENSUS),
        pores_by: PoresBy::Densities,
        water_at_10_cm: figure(0.4, 0.46, 0.53, &CONSENSUS),
        shape: Shape {
            residual: 0.0,
            saturated: 0.6,
            between_grains: None,
            fine_alpha_per_cm: 0.2457,
            fine_n: 1.235,
        },
        packing_fraction: 0.55,
        grain_mm: 0.5,
        dust: Dust::None,
        living: true,
    },
    Material {
        key: "used_mix",
        name: "last year's heap",
        grade: "a peat or coir mix, slumped",
        nature: Nature::Soft,
        dry_density_g_per_l: figure(100.0, 160.0, 280.0, &USED_MIX),
        bagged_density_g_per_l: figure(350.0, 500.0, 750.0, &COMMON_PRACTICE),
        pore_space: figure(0.78, 0.86, 0.92, &USED_MIX),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.56, 0.68, 0.8, &USED_MIX),
        shape: Shape {
            residual: 0.19,
            saturated: 0.89,
            between_grains: None,
            fine_alpha_per_cm: 0.0993,
            fine_n: 1.376,
        },
        packing_fraction: 0.55,
        grain_mm: 0.8,
        dust: Dust::Nuisance,
        living: true,
    },
    Material {
        key: "wood_fibre",
        name: "wood fibre",
        grade: "",
        nature: Nature::Soft,
        dry_density_g_per_l: figure(50.0, 80.0, 150.0, &CONSENSUS),
        bagged_density_g_per_l: figure(80.0, 150.0, 250.0, &COMMON_PRACTICE),
        pore_space: figure(0.9, 0.94, 0.97, &SMITH_2019),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.28, 0.42, 0.58, &CONSENSUS),
        shape: Shape {
            residual: 0.082,
            saturated: 0.93,
            between_grains: Some(pores(0.55, 3.0, 0.472)),
            fine_alpha_per_cm: 0.2442,
            fine_n: 1.389,
        },
        packing_fraction: 0.45,
        grain_mm: 1.5,
        dust: Dust::Nuisance,
        living: true,
    },
    Material {
        key: "wood_chips",
        name: "wood chips",
        grade: "5 to 20 mm",
        nature: Nature::Woody,
        dry_density_g_per_l: figure(120.0, 170.0, 240.0, &CONSENSUS),
        bagged_density_g_per_l: figure(180.0, 280.0, 400.0, &COMMON_PRACTICE),
        pore_space: figure(0.76, 0.82, 0.88, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.15, 0.24, 0.33, &CONSENSUS),
        shape: Shape {
            residual: 0.141,
            saturated: 0.82,
            between_grains: Some(pores(2.4, 3.0, 0.81)),
            fine_alpha_per_cm: 0.1068,
            fine_n: 1.621,
        },
        packing_fraction: 0.5,
        grain_mm: 8.0,
        dust: Dust::None,
        living: true,
    },
    Material {
        key: "rice_hulls",
        name: "rice hulls",
        grade: "parboiled",
        nature: Nature::Woody,
        dry_density_g_per_l: figure(90.0, 110.0, 140.0, &CONSENSUS),
        bagged_density_g_per_l: figure(95.0, 120.0, 160.0, &COMMON_PRACTICE),
        pore_space: figure(0.84, 0.91, 0.95, &HULLS_AND_PERLITE),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.12, 0.17, 0.25, &CONSENSUS),
        shape: Shape {
            residual: 0.024,
            saturated: 0.87,
            between_grains: Some(pores(0.917, 3.0, 0.78)),
            fine_alpha_per_cm: 7.688,
            fine_n: 1.1,
        },
        packing_fraction: 0.45,
        grain_mm: 2.5,
        dust: Dust::Nuisance,
        living: false,
    },
    Material {
        key: "perlite_fine",
        name: "fine perlite",
        grade: "under 1.5 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(80.0, 115.0, 150.0, &CONSENSUS),
        bagged_density_g_per_l: figure(85.0, 120.0, 170.0, &COMMON_PRACTICE),
        pore_space: figure(0.7, 0.82, 0.89, &HULLS_AND_PERLITE),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.42, 0.52, 0.62, &CONSENSUS),
        shape: Shape {
            residual: 0.213,
            saturated: 0.85,
            between_grains: None,
            fine_alpha_per_cm: 0.5194,
            fine_n: 1.426,
        },
        packing_fraction: 0.55,
        grain_mm: 0.8,
        dust: Dust::Nuisance,
        living: false,
    },
    Material {
        key: "perlite_medium",
        name: "medium perlite",
        grade: "1 to 4 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(75.0, 100.0, 150.0, &CONSENSUS),
        bagged_density_g_per_l: figure(80.0, 110.0, 170.0, &COMMON_PRACTICE),
        pore_space: figure(0.62, 0.74, 0.85, &HULLS_AND_PERLITE),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.27, 0.36, 0.46, &CONSENSUS),
        shape: Shape {
            residual: 0.114,
            saturated: 0.83,
            between_grains: Some(pores(0.614, 3.0, 0.586)),
            fine_alpha_per_cm: 0.1504,
            fine_n: 1.341,
        },
        packing_fraction: 0.55,
        grain_mm: 2.5,
        dust: Dust::Nuisance,
        living: false,
    },
    Material {
        key: "perlite_coarse",
        name: "coarse perlite",
        grade: "3 to 6 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(70.0, 95.0, 150.0, &CONSENSUS),
        bagged_density_g_per_l: figure(75.0, 105.0, 170.0, &COMMON_PRACTICE),
        pore_space: figure(0.6, 0.73, 0.84, &HULLS_AND_PERLITE),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.17, 0.25, 0.33, &CONSENSUS),
        shape: Shape {
            residual: 0.129,
            saturated: 0.8,
            between_grains: Some(pores(0.982, 3.0, 0.685)),
            fine_alpha_per_cm: 0.4204,
            fine_n: 1.404,
        },
        packing_fraction: 0.55,
        grain_mm: 4.0,
        dust: Dust::Nuisance,
        living: false,
    },
    Material {
        key: "vermiculite",
        name: "vermiculite",
        grade: "2 to 4 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(70.0, 105.0, 160.0, &CONSENSUS),
        bagged_density_g_per_l: figure(70.0, 110.0, 170.0, &COMMON_PRACTICE),
        pore_space: figure(0.8, 0.87, 0.93, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.42, 0.52, 0.62, &CONSENSUS),
        shape: Shape {
            residual: 0.205,
            saturated: 0.88,
            between_grains: Some(pores(0.4, 3.0, 0.504)),
            fine_alpha_per_cm: 0.0599,
            fine_n: 1.534,
        },
        packing_fraction: 0.6,
        grain_mm: 2.0,
        dust: Dust::Nuisance,
        living: false,
    },
    Material {
        key: "pumice",
        name: "pumice",
        grade: "2 to 6 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(400.0, 550.0, 750.0, &CONSENSUS),
        bagged_density_g_per_l: figure(450.0, 650.0, 850.0, &COMMON_PRACTICE),
        pore_space: figure(0.58, 0.68, 0.76, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.22, 0.3, 0.4, &CONSENSUS),
        shape: Shape {
            residual: 0.191,
            saturated: 0.68,
            between_grains: Some(pores(0.8, 3.0, 0.726)),
            fine_alpha_per_cm: 0.1223,
            fine_n: 1.438,
        },
        packing_fraction: 0.6,
        grain_mm: 4.0,
        dust: Dust::Silica,
        living: false,
    },
    Material {
        key: "scoria",
        name: "scoria (lava sand)",
        grade: "2 to 8 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(650.0, 850.0, 1100.0, &CONSENSUS),
        bagged_density_g_per_l: figure(700.0, 950.0, 1200.0, &COMMON_PRACTICE),
        pore_space: figure(0.48, 0.6, 0.69, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.12, 0.2, 0.32, &CONSENSUS),
        shape: Shape {
            residual: 0.082,
            saturated: 0.58,
            between_grains: Some(pores(0.8, 3.0, 0.722)),
            fine_alpha_per_cm: 0.1156,
            fine_n: 1.347,
        },
        packing_fraction: 0.6,
        grain_mm: 4.0,
        dust: Dust::Silica,
        living: false,
    },
    Material {
        key: "sharp_sand",
        name: "sharp sand",
        grade: "0.2 to 2 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(1400.0, 1500.0, 1650.0, &CONSENSUS),
        bagged_density_g_per_l: figure(1600.0, 1680.0, 1750.0, &COMMON_PRACTICE),
        pore_space: figure(0.35, 0.4, 0.44, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.12, 0.28, 0.38, &CONSENSUS),
        shape: Shape {
            residual: 0.05,
            saturated: 0.41,
            between_grains: None,
            fine_alpha_per_cm: 0.0922,
            fine_n: 2.599,
        },
        packing_fraction: 0.6,
        grain_mm: 0.6,
        dust: Dust::Silica,
        living: false,
    },
    Material {
        key: "grit",
        name: "grit",
        grade: "2 to 5 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(1430.0, 1520.0, 1600.0, &CONSENSUS),
        bagged_density_g_per_l: figure(1600.0, 1675.0, 1750.0, &COMMON_PRACTICE),
        pore_space: figure(0.38, 0.42, 0.46, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.03, 0.045, 0.08, &CONSENSUS),
        shape: Shape {
            residual: 0.007,
            saturated: 0.42,
            between_grains: Some(pores(0.6, 3.0, 0.884)),
            fine_alpha_per_cm: 0.317,
            fine_n: 1.423,
        },
        packing_fraction: 0.6,
        grain_mm: 3.0,
        dust: Dust::Silica,
        living: false,
    },
    Material {
        key: "pea_gravel",
        name: "pea gravel",
        grade: "6 to 10 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(1400.0, 1520.0, 1650.0, &CONSENSUS),
        bagged_density_g_per_l: figure(1500.0, 1600.0, 1700.0, &COMMON_PRACTICE),
        pore_space: figure(0.36, 0.4, 0.46, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.01, 0.022, 0.04, &CONSENSUS),
        shape: Shape {
            residual: 0.007,
            saturated: 0.39,
            between_grains: Some(pores(1.6, 3.0, 0.939)),
            fine_alpha_per_cm: 0.1793,
            fine_n: 1.658,
        },
        packing_fraction: 0.6,
        grain_mm: 8.0,
        dust: Dust::Silica,
        living: false,
    },
    Material {
        key: "expanded_clay",
        name: "expanded clay",
        grade: "4 to 8 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(280.0, 380.0, 500.0, &CONSENSUS),
        bagged_density_g_per_l: figure(290.0, 400.0, 520.0, &COMMON_PRACTICE),
        pore_space: figure(0.45, 0.52, 0.6, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.07, 0.13, 0.2, &CONSENSUS),
        shape: Shape {
            residual: 0.063,
            saturated: 0.52,
            between_grains: Some(pores(1.2, 3.0, 0.809)),
            fine_alpha_per_cm: 0.1056,
            fine_n: 1.68,
        },
        packing_fraction: 0.6,
        grain_mm: 6.0,
        dust: Dust::Nuisance,
        living: false,
    },
    Material {
        key: "rockwool_granulate",
        name: "rockwool granulate",
        grade: "absorbent",
        nature: Nature::Soft,
        dry_density_g_per_l: figure(60.0, 80.0, 120.0, &CONSENSUS),
        bagged_density_g_per_l: figure(60.0, 90.0, 150.0, &COMMON_PRACTICE),
        pore_space: figure(0.92, 0.95, 0.97, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.4, 0.6, 0.8, &CONSENSUS),
        shape: Shape {
            residual: 0.019,
            saturated: 0.95,
            between_grains: None,
            fine_alpha_per_cm: 0.1019,
            fine_n: 2.889,
        },
        packing_fraction: 0.5,
        grain_mm: 3.0,
        dust: Dust::Fibre,
        living: false,
    },
    Material {
        key: "crushed_coral",
        name: "crushed coral",
        grade: "2 to 6 mm",
        nature: Nature::Mineral,
        dry_density_g_per_l: figure(1000.0, 1200.0, 1400.0, &CONSENSUS),
        bagged_density_g_per_l: figure(1050.0, 1270.0, 1500.0, &COMMON_PRACTICE),
        pore_space: figure(0.5, 0.57, 0.63, &CONSENSUS),
        pores_by: PoresBy::Soaking,
        water_at_10_cm: figure(0.07, 0.12, 0.18, &CONSENSUS),
        shape: Shape {
            residual: 0.052,
            saturated: 0.57,
            between_grains: Some(pores(0.8, 3.0, 0.849)),
            fine_alpha_per_cm: 0.0906,
            fine_n: 1.652,
        },
        packing_fraction: 0.6,
        grain_mm: 4.0,
        dust: Dust::Nuisance,
        living: false,
    },
];
