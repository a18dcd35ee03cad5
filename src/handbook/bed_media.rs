//! What a capillary bed is laid of: grains, the gaps between them, and the pores within.
//!
//! Gaps are as wide as their grains: α and the conductivity of the gaps are scaled from one grain size
//! to another as similar media (Miller and Miller 1956). Beyond the damp line gaps carry nothing: a
//! measured sand of 0.5 mm was damp to 19.5 cm and no higher (Salim and Hampton 2012), and a fitted curve
//! of gravel carries more in films than such a rise lets one expect. From grain to grain porous media
//! carry a little more; that figure is a judgement with a hundredfold spread, and decides deep beds.

use super::materials::Dust;
use super::sources::{
    BED_GAPS, BED_JUDGEMENT, COMMON_PRACTICE, CONSENSUS, HULLS_AND_PERLITE, KOOL_1987,
    SAND_RISE_2012,
};
use super::{Figure, figure};

/// A medium for a bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BedMedium {
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// Its grade, as it is asked for.
    pub grade: &'static str,
    /// Median grain, mm.
    pub grain_mm: Figure,
    /// Gaps between the grains, fraction of volume.
    pub gaps: Figure,
    /// Open pores within the grains, fraction of volume; nought for stone.
    pub inner_pores: Figure,
    /// Conductivity from grain to grain and in films, once the gaps are empty, cm/d.
    pub grain_to_grain_cm_per_d: Figure,
    /// Dry weight of a litre as it is laid, g.
    pub loose_g_per_l: Figure,
    /// Whether its grains float.
    pub floats: bool,
    /// What its dry dust can do.
    pub dust: Dust,
}

/// Key of a medium of one's own, told by its grain.
pub const OWN: &str = "own";
/// Key of a medium of one's own, told by a tube test.
pub const BY_TUBE: &str = "own_tube";

/// α of the gaps of grains of 1 mm, 1/cm: such gaps drain at about 5 cm of suction. From one sand of
/// 0.5 mm that stayed nearly full to 7.9 cm; angular grains may leave gaps twice as wide.
pub static ALPHA_OF_1_MM_PER_CM: Figure = figure(0.14, 0.2, 0.4, &SAND_RISE_2012);
/// n of the gaps between sorted grains.
pub static N_OF_GAPS: Figure = figure(2.7, 3.5, 5.0, &BED_GAPS);
/// Conductivity of full gaps between grains of 1 mm, cm/d; it grows with the square of the grain.
pub static CONDUCTIVITY_OF_1_MM_CM_PER_D: Figure = figure(1500.0, 5400.0, 30_000.0, &BED_GAPS);
/// Height to which grains of 1 mm are damp above water, cm; it falls as one over the grain.
pub static DAMP_LINE_OF_1_MM_CM: Figure = figure(7.0, 9.8, 14.0, &SAND_RISE_2012);
/// α of the pores within grains, 1/cm.
pub const ALPHA_WITHIN_PER_CM: f64 = 0.05;
/// n of the pores within grains.
pub const N_WITHIN: f64 = 1.5;
/// Water that gaps keep for good, fraction of volume.
pub const HELD_IN_GAPS: f64 = 0.02;
/// Share of its loose volume that a bed loses as it settles.
pub static SETTLES: Figure = figure(0.02, 0.05, 0.1, &COMMON_PRACTICE);
/// Conductivity of a full potting mix, cm/d: it spreads ten- to fiftyfold in practice.
pub static MIX_CONDUCTIVITY_CM_PER_D: Figure = figure(150.0, 1000.0, 6000.0, &BED_JUDGEMENT);
/// α of the curve of a mix that was last wetted from below, over that of one that was wetted in full
/// and drains: about 2 for soils.
pub static MIX_REWETS: Figure = figure(1.4, 2.0, 2.9, &KOOL_1987);
/// The same of a mix watered in from above: after some fillings it lies between drying and wetting.
pub static MIX_DRIES_AGAIN: Figure = figure(1.0, 1.0, 1.5, &BED_JUDGEMENT);
/// A mix conducts as a full one up to this suction, cm. A judgement; without it curves of wide
/// spread lose most of their conductivity within a hair of saturation.
pub const MIX_AIR_ENTRY_CM: f64 = 1.0;
/// Share of the base of a pot that is holes.
pub static HOLES_SHARE: Figure = figure(0.02, 0.05, 0.1, &COMMON_PRACTICE);
/// Breadth of one hole in the base of a pot, mm.
pub const HOLE_MM: f64 = 8.0;

const fn stone(
    key: &'static str,
    name: &'static str,
    grade: &'static str,
    grain_mm: Figure,
) -> BedMedium {
    BedMedium {
        key,
        name,
        grade,
        grain_mm,
        gaps: figure(0.36, 0.4, 0.44, &CONSENSUS),
        inner_pores: figure(0.0, 0.0, 0.01, &CONSENSUS),
        grain_to_grain_cm_per_d: figure(0.001, 0.01, 0.1, &BED_JUDGEMENT),
        loose_g_per_l: figure(1450.0, 1550.0, 1650.0, &CONSENSUS),
        floats: false,
        dust: Dust::Silica,
    }
}

const fn porous(
    key: &'static str,
    name: &'static str,
    grade: &'static str,
    grain_mm: Figure,
    inner_pores: Figure,
    loose_g_per_l: Figure,
    floats: bool,
) -> BedMedium {
    BedMedium {
        gaps: figure(0.36, 0.4, 0.46, &CONSENSUS),
        inner_pores,
        grain_to_grain_cm_per_d: figure(0.1, 1.0, 10.0, &BED_JUDGEMENT),
        loose_g_per_l,
        floats,
        dust: Dust::Nuisance,
        ..stone(key, name, grade, grain_mm)
    }
}

/// The table, porous first.
pub static BED_MEDIA: &[BedMedium] = &[
    porous(
        "perlite_coarse",
        "coarse perlite",
        "3-6 mm",
        figure(3.0, 4.0, 5.0, &COMMON_PRACTICE),
        figure(0.15, 0.27, 0.4, &HULLS_AND_PERLITE),
        figure(70.0, 90.0, 120.0, &CONSENSUS),
        true,
    ),
    BedMedium {
        grain_to_grain_cm_per_d: figure(0.01, 0.1, 1.0, &BED_JUDGEMENT),
        ..porous(
            "expanded_clay",
            "expanded clay",
            "4-8 mm",
            figure(5.0, 6.0, 7.0, &COMMON_PRACTICE),
            figure(0.06, 0.12, 0.2, &CONSENSUS),
            figure(280.0, 380.0, 500.0, &CONSENSUS),
            true,
        )
    },
    porous(
        "pumice",
        "pumice",
        "2-6 mm",
        figure(2.5, 3.5, 4.5, &COMMON_PRACTICE),
        figure(0.2, 0.3, 0.4, &CONSENSUS),
        figure(400.0, 550.0, 750.0, &CONSENSUS),
        true,
    ),
    porous(
        "scoria",
        "scoria",
        "2-8 mm",
        figure(3.0, 4.5, 6.0, &COMMON_PRACTICE),
        figure(0.12, 0.2, 0.3, &CONSENSUS),
        figure(650.0, 850.0, 1100.0, &CONSENSUS),
        false,
    ),
    stone(
        "sand_capillary",
        "capillary sand",
        "0.2-0.5 mm",
        figure(0.25, 0.35, 0.45, &COMMON_PRACTICE),
    ),
    stone(
        "sand_sharp",
        "sharp sand",
        "0.5-2 mm",
        figure(0.5, 0.8, 1.2, &COMMON_PRACTICE),
    ),
    stone(
        "grit",
        "grit",
        "2-4 mm",
        figure(2.3, 3.0, 3.6, &COMMON_PRACTICE),
    ),
    stone(
        "gravel",
        "pea gravel or local gravel",
        "5-10 mm",
        figure(5.5, 7.0, 9.0, &COMMON_PRACTICE),
    ),
];

/// The medium of a key.
#[must_use]
pub fn bed_medium(key: &str) -> Option<&'static BedMedium> {
    BED_MEDIA.iter().find(|medium| medium.key == key)
}

/// A medium of one's own: clean grains of a median, mm, as if they were stone.
#[must_use]
pub fn of_grain(grain_mm: Figure) -> BedMedium {
    BedMedium {
        dust: Dust::Nuisance,
        ..stone(OWN, "a medium of my own", "by its grain", grain_mm)
    }
}

/// A medium of one's own as a tube test found it: its grains are told by the test itself.
#[must_use]
pub fn by_tube(loose_g_per_l: Figure, porous: bool) -> BedMedium {
    /// Porous grains lighter than this float, dry weight of a litre, g: common practice, no source.
    const FLOATS_BELOW_G_PER_L: f64 = 700.0;
    BedMedium {
        floats: porous && loose_g_per_l.range.best() < FLOATS_BELOW_G_PER_L,
        dust: if porous { Dust::Nuisance } else { Dust::Silica },
        loose_g_per_l,
        ..stone(
            BY_TUBE,
            "a medium of my own",
            "by a tube test",
            figure(0.1, 1.0, 10.0, &COMMON_PRACTICE),
        )
    }
}
