//! How well a mix, a sand or a soil conducts heat, and how much it takes up, from its pores and its water.

/// Water, J/m³ K, between 5 and 30 °C (IAPWS, from memory).
pub const WATER_J_PER_M3_K: f64 = 4.18e6;
/// Still water at about 15 °C, W/m K (IAPWS, from memory).
pub const WATER_W_PER_M_K: f64 = 0.59;
/// Dry air, J/m³ K: 1.2 kg/m³ of 1006 J/kg K.
pub const AIR_J_PER_M3_K: f64 = 1206.0;

/// Heat capacity by volume, J/m³ K: water, solids and air, each by its share of the volume.
#[must_use]
pub fn capacity_j_per_m3_k(water: f64, pore_space: f64, solids_j_per_m3_k: f64) -> f64 {
    let air = (pore_space - water).max(0.0);
    WATER_J_PER_M3_K * water + solids_j_per_m3_k * (1.0 - pore_space) + AIR_J_PER_M3_K * air
}

/// What kind of grains, for the rule of Côté and Konrad.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grains {
    /// Conductivity of what the grains are of, W/m K.
    pub solids_w_per_m_k: f64,
    /// κ: how soon water between the grains carries heat.
    pub kappa: f64,
    /// χ, W/m K: conductivity of dry grains without pores.
    pub chi_w_per_m_k: f64,
    /// η: how it falls with pore space.
    pub eta: f64,
}

impl Grains {
    /// Fibrous organic: peat, and, for want of measurements, coir, bark and mixes of them.
    pub const ORGANIC: Self = Self {
        solids_w_per_m_k: 0.25,
        kappa: 0.60,
        chi_w_per_m_k: 0.30,
        eta: 0.87,
    };
    /// Coarse sand and gravel of quartz and felspar.
    pub const COARSE: Self = Self {
        solids_w_per_m_k: 3.0,
        kappa: 4.60,
        chi_w_per_m_k: 1.70,
        eta: 1.80,
    };
    /// Fine sand.
    pub const FINE_SAND: Self = Self {
        kappa: 3.55,
        ..Self::COARSE
    };
    /// Loam, silt and clay.
    pub const LOAM: Self = Self {
        solids_w_per_m_k: 2.9,
        kappa: 1.90,
        chi_w_per_m_k: 0.75,
        eta: 1.20,
    };

    /// Conductivity at a pore space and a water content, fractions of volume, W/m K.
    ///
    /// k = (ksat - kdry) κS/\[1 + (κ - 1)S\] + kdry, kdry = χ 10^(-ηn), ksat = ks^(1-n) 0.6ⁿ.
    /// Source: Côté & Konrad 2005, Canadian Geotechnical Journal 42:443-458 (constants from memory).
    #[must_use]
    pub fn conductivity_w_per_m_k(&self, pore_space: f64, water: f64) -> f64 {
        /// Of water as the authors take it, W/m K.
        const THEIR_WATER_W_PER_M_K: f64 = 0.6;
        let full = (water / pore_space).clamp(0.0, 1.0);
        let dry = self.chi_w_per_m_k * 10f64.powf(-self.eta * pore_space);
        let saturated =
            self.solids_w_per_m_k.powf(1.0 - pore_space) * THEIR_WATER_W_PER_M_K.powf(pore_space);
        let relative = self.kappa * full / (1.0 + (self.kappa - 1.0) * full);
        (saturated - dry) * relative + dry
    }
}

/// Conductivity of a fine-grained mineral soil by the older rule, W/m K: pore space, water, and the share of
/// quartz in the solids, fractions.
///
/// k = Ke (ksat - kdry) + kdry, Ke = log₁₀ S + 1 (S above 0.1, else dry).
/// Source: Johansen 1975, as coded by Peters-Lidard, Blackburn, Liang & Wood 1998, Journal of the Atmospheric
/// Sciences 55:1209 (from memory).
#[must_use]
pub fn loam_by_johansen_1975_w_per_m_k(pore_space: f64, water: f64, quartz: f64) -> f64 {
    /// Of mineral grains, kg/m³.
    const GRAIN_KG_PER_M3: f64 = 2700.0;
    /// Of quartz and of water, W/m K.
    const QUARTZ_AND_WATER: [f64; 2] = [7.7, 0.57];
    /// Below so much of the pores full the rule ends.
    const LEAST_FULL: f64 = 0.1;
    let bulk = (1.0 - pore_space) * GRAIN_KG_PER_M3;
    let dry = (0.135 * bulk + 64.7) / (GRAIN_KG_PER_M3 - 0.947 * bulk);
    let others: f64 = if quartz > 0.2 { 2.0 } else { 3.0 };
    let solids = QUARTZ_AND_WATER[0].powf(quartz) * others.powf(1.0 - quartz);
    let saturated = solids.powf(1.0 - pore_space) * QUARTZ_AND_WATER[1].powf(pore_space);
    let full = (water / pore_space).clamp(LEAST_FULL, 1.0);
    (full.log10() + 1.0) * (saturated - dry) + dry
}
