//! How fast water climbs into what is dry, by fronts: answers of the right order to check a solution by.
//!
//! Lengths in metres, times in seconds, conductivities in m/s.

/// The tension of a water surface at 20 °C, N/m. Source: IAPWS R1-76(2014), table 1.
pub const SURFACE_TENSION_N_PER_M: f64 = 0.072_74;
/// The viscosity of water at 20 °C, Pa s. Source: Kestin, Sokolov & Wakeham 1978, Journal of Physical
/// and Chemical Reference Data 7:941.
pub const VISCOSITY_PA_S: f64 = 1.002e-3;
/// The density of water at 20 °C, kg/m³. Source: Tanaka et al. 2001, Metrologia 38:301.
pub const DENSITY_KG_PER_M3: f64 = 998.2;
/// Standard gravity, m/s². Source: 3rd General Conference on Weights and Measures, 1901.
pub const GRAVITY_M_PER_S2: f64 = 9.806_65;

/// The height to which water stands in a tube of a radius, m: 2 γ cos β/(ρ g r).
/// Source: Jurin 1718, Philosophical Transactions 30:739. `wetting` is cos β, 1 for clean mineral,
/// 0 and below for what repels water.
#[must_use]
pub fn jurin_rise_m(radius_m: f64, wetting: f64) -> f64 {
    2.0 * SURFACE_TENSION_N_PER_M * wetting / (DENSITY_KG_PER_M3 * GRAVITY_M_PER_S2 * radius_m)
}

/// How far water has come along a level tube after a time, m: √(γ r cos β t/(2 μ)). For a tube on end
/// it holds as long as the rise is small beside Jurin's. None is drawn in where `wetting` is not above nought.
/// Source: Washburn 1921, Physical Review 17:273.
#[must_use]
pub fn washburn_reach_m(radius_m: f64, wetting: f64, time_s: f64) -> f64 {
    (SURFACE_TENSION_N_PER_M * radius_m * wetting.max(0.0) * time_s / (2.0 * VISCOSITY_PA_S)).sqrt()
}

/// A sharp front of water that rises from a free level into an evenly dry medium.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RisingFront {
    /// The pores that fill behind the front, fraction of volume.
    pub fillable: f64,
    /// The suction at the front, m, which is also how high it gets.
    pub front_suction_m: f64,
    /// The conductivity behind the front, m/s.
    pub conductivity_m_per_s: f64,
}

impl RisingFront {
    /// The time until the front stands at a height, s; without end at the front suction and above.
    ///
    /// t = (φ s_f/K) \[-ln(1 - z/s_f) - z/s_f\].
    /// Source: Terzaghi 1943, *Theoretical Soil Mechanics*; Green & Ampt 1911, Journal
    /// of Agricultural Science 4:1, for a front that rises.
    #[must_use]
    pub fn time_to_s(&self, height_m: f64) -> f64 {
        if height_m >= self.front_suction_m {
            return f64::INFINITY;
        }
        let part = (height_m / self.front_suction_m).max(0.0);
        self.fillable * self.front_suction_m / self.conductivity_m_per_s * (-(-part).ln_1p() - part)
    }

    /// How far the front has come at a time while the height still counts for nothing, m:
    /// √(2 K s_f t/φ).
    #[must_use]
    pub fn early_height_m(&self, time_s: f64) -> f64 {
        (2.0 * self.conductivity_m_per_s * self.front_suction_m * time_s / self.fillable).sqrt()
    }
}
