//! How heat gets from a surface to air and to other surfaces: standard films, air layers, free
//! convection, radiation and evaporation.
//!
//! All coefficients are in W/m² K, temperatures in °C.

/// Stefan-Boltzmann constant, W/m² K⁴ (CODATA 2018).
pub const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;
/// 0 °C, K.
pub const ICE_POINT_K: f64 = 273.15;
/// Standard gravity, m/s² (3rd General Conference on Weights and Measures, 1901).
const GRAVITY_M_PER_S2: f64 = 9.806_65;

/// Which way heat runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heading {
    /// Up.
    Up,
    /// Level.
    Level,
    /// Down.
    Down,
}

impl Heading {
    /// Conventional convection at an inner surface (EN ISO 13789:2017, table 8; EN ISO 6946).
    #[must_use]
    pub fn inner_convection_w_per_m2_k(self) -> f64 {
        match self {
            Self::Up => 5.0,
            Self::Level => 2.5,
            Self::Down => 0.7,
        }
    }

    /// Convection and conduction across an unventilated layer of air of that thickness: the larger of
    /// 0.025/g and a value for each heading (EN ISO 6946, annex on air layers, from memory; it holds for
    /// faces that differ by up to 5 K).
    #[must_use]
    pub fn air_layer_w_per_m2_k(self, thickness_m: f64) -> f64 {
        let still = match self {
            Self::Up => 1.95,
            Self::Level => 1.25,
            Self::Down => 0.12 * thickness_m.powf(-0.44),
        };
        (0.025 / thickness_m).max(still)
    }
}

/// Convection at an outer surface in a wind of v m/s: 4 + 4 v (EN ISO 6946).
#[must_use]
pub fn outer_convection_w_per_m2_k(wind_m_per_s: f64) -> f64 {
    4.0 + 4.0 * wind_m_per_s
}

/// Radiation of black surfaces for each degree between them, 4 σ T³ at their mean (EN ISO 6946).
#[must_use]
pub fn black_radiation_w_per_m2_k(mean_c: f64) -> f64 {
    4.0 * STEFAN_BOLTZMANN * (mean_c + ICE_POINT_K).powi(3)
}

/// The resistance of an inner surface, m² K/W, its emissivity as given.
#[must_use]
pub fn inner_surface_m2_k_per_w(heading: Heading, emissivity: f64, mean_c: f64) -> f64 {
    1.0 / (heading.inner_convection_w_per_m2_k() + emissivity * black_radiation_w_per_m2_k(mean_c))
}

/// The resistance of an outer surface in a wind, m² K/W.
#[must_use]
pub fn outer_surface_m2_k_per_w(wind_m_per_s: f64, emissivity: f64, mean_c: f64) -> f64 {
    1.0 / (outer_convection_w_per_m2_k(wind_m_per_s)
        + emissivity * black_radiation_w_per_m2_k(mean_c))
}

/// The resistance of an unventilated layer of air between wide faces, m² K/W.
#[must_use]
pub fn air_layer_m2_k_per_w(
    heading: Heading,
    thickness_m: f64,
    emissivities: [f64; 2],
    mean_c: f64,
) -> f64 {
    1.0 / (heading.air_layer_w_per_m2_k(thickness_m)
        + exchange_of_faces(emissivities) * black_radiation_w_per_m2_k(mean_c))
}

/// 1/(1/ε₁ + 1/ε₂ - 1): radiation between two wide faces against that of black ones.
#[must_use]
pub fn exchange_of_faces([one, other]: [f64; 2]) -> f64 {
    1.0 / (1.0 / one + 1.0 / other - 1.0)
}

/// The share of what one strip sends out that meets another of the same breadth at a distance over it:
/// √(1 + r²) - r, r = distance/breadth.
/// Source: any text on heat transfer (view factor of infinite parallel plates of equal width).
#[must_use]
pub fn view_between_strips(distance_m: f64, breadth_m: f64) -> f64 {
    let r = distance_m / breadth_m;
    (1.0 + r * r).sqrt() - r
}

/// The coefficient that carries just the heat of the fourth powers between two temperatures:
/// E σ (T₁² + T₂²)(T₁ + T₂).
#[must_use]
pub fn radiation_between_w_per_m2_k(exchange: f64, one_c: f64, other_c: f64) -> f64 {
    let (one, other) = (one_c + ICE_POINT_K, other_c + ICE_POINT_K);
    exchange * STEFAN_BOLTZMANN * (one * one + other * other) * (one + other)
}

/// The temperature of a clear sky as a radiator, °C: 0.0552 T^1.5 in kelvins (Swinbank 1963, Quarterly
/// Journal of the Royal Meteorological Society 89:339, from memory).
#[must_use]
pub fn clear_sky_c(outside_c: f64) -> f64 {
    0.0552 * (outside_c + ICE_POINT_K).powf(1.5) - ICE_POINT_K
}

/// The temperature of a sky of which a share is cloud, °C: clouds radiate at the temperature of the air,
/// and the fourth powers are blended by share (common practice, no source).
#[must_use]
pub fn sky_c(outside_c: f64, cloud: f64) -> f64 {
    let (clear, air) = (
        clear_sky_c(outside_c) + ICE_POINT_K,
        outside_c + ICE_POINT_K,
    );
    (clear.powi(4) + cloud.clamp(0.0, 1.0) * (air.powi(4) - clear.powi(4))).powf(0.25) - ICE_POINT_K
}

/// How much warmer than the air a sunlit wall is, K: the sun that it takes up over the films on both sides
/// (W/m² K), what lies behind it being as warm as the air. On that side alone; a pot's mean is far less.
#[must_use]
pub fn sunlit_wall_k(
    absorptance: f64,
    sun_on_wall_w_per_m2: f64,
    outer_w_per_m2_k: f64,
    inner_w_per_m2_k: f64,
) -> f64 {
    absorptance * sun_on_wall_w_per_m2 / (outer_w_per_m2_k + inner_w_per_m2_k)
}

/// What air is at a temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Conductivity, W/m K.
    pub conductivity_w_per_m_k: f64,
    /// Kinematic viscosity, m²/s.
    pub viscosity_m2_per_s: f64,
    /// Prandtl number.
    pub prandtl: f64,
    /// Absolute temperature, K; its inverse is the expansion of an ideal gas.
    pub kelvin: f64,
}

/// Dry air at 1 atm, from -20 to 60 °C.
///
/// Viscosity and conductivity by Sutherland's formula, with 1.716e-5 Pa s and 0.0241 W/m K at 273.15 K
/// and 111 and 194 K (White 2006, *Viscous Fluid Flow*, tables 1-2 and 1-3, from memory); density of an
/// ideal gas of 287.05 J/kg K; 1006 J/kg K.
#[must_use]
pub fn air_at(film_c: f64) -> Air {
    /// Of dry air, J/kg K.
    const GAS_J_PER_KG_K: f64 = 287.05;
    /// Of dry air at constant pressure, J/kg K.
    const HEAT_J_PER_KG_K: f64 = 1006.0;
    /// A standard atmosphere, Pa.
    const ATMOSPHERE_PA: f64 = 101_325.0;
    let kelvin = film_c + ICE_POINT_K;
    let warmer = kelvin / ICE_POINT_K;
    let sutherland =
        |at_zero: f64, s: f64| at_zero * warmer * warmer.sqrt() * (ICE_POINT_K + s) / (kelvin + s);
    let viscosity_pa_s = sutherland(1.716e-5, 111.0);
    let conductivity_w_per_m_k = sutherland(0.0241, 194.0);
    let density = ATMOSPHERE_PA / (GAS_J_PER_KG_K * kelvin);
    Air {
        conductivity_w_per_m_k,
        viscosity_m2_per_s: viscosity_pa_s / density,
        prandtl: viscosity_pa_s * HEAT_J_PER_KG_K / conductivity_w_per_m_k,
        kelvin,
    }
}

/// Rayleigh number of a surface that is so much warmer or colder than the air.
#[must_use]
pub fn rayleigh(air: &Air, difference_k: f64, length_m: f64) -> f64 {
    GRAVITY_M_PER_S2 / air.kelvin * difference_k.abs() * length_m.powi(3) * air.prandtl
        / air.viscosity_m2_per_s.powi(2)
}

/// Nusselt number over a warm face that looks up, or under a cold one that looks down; length is area over
/// edge. 0.54 Ra^¼ to Ra of 10⁷, 0.15 Ra^⅓ beyond.
/// Source: McAdams 1954, *Heat Transmission*, third edition.
#[must_use]
pub fn nusselt_free_face(rayleigh: f64) -> f64 {
    /// Where the boundary layer turns turbulent.
    const TURBULENT: f64 = 1e7;
    if rayleigh > TURBULENT {
        0.15 * rayleigh.cbrt()
    } else {
        0.54 * rayleigh.sqrt().sqrt()
    }
}

/// Nusselt number under a warm face that looks down, or over a cold one that looks up: 0.27 Ra^¼.
/// Source: McAdams 1954.
#[must_use]
pub fn nusselt_stagnant_face(rayleigh: f64) -> f64 {
    0.27 * rayleigh.sqrt().sqrt()
}

/// Nusselt number of an upright face.
///
/// {0.825 + 0.387 Ra^⅙/\[1 + (0.492/Pr)^(9/16)\]^(8/27)}².
/// Source: Churchill & Chu 1975, International Journal of Heat and Mass Transfer 18:1323.
#[must_use]
pub fn nusselt_upright(rayleigh: f64, prandtl: f64) -> f64 {
    // x^(9/16), x^(8/27) and x^(1/6) by roots, which are far quicker than powers.
    let sixteenth = (0.492 / prandtl).sqrt().sqrt().sqrt().sqrt();
    let of_prandtl = (1.0 + sixteenth.powi(9)).cbrt().cbrt().cbrt().powi(8);
    (0.825 + 0.387 * rayleigh.cbrt().sqrt() / of_prandtl).powi(2)
}

/// Which way a face looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// Up; the length is its area over its edge.
    Up,
    /// Down; the same.
    Down,
    /// Sideways; the length is its height.
    Upright,
}

/// How air moves along a surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Convection {
    /// A coefficient that does not change, W/m² K.
    Steady(f64),
    /// Free convection with some draught.
    Free {
        /// Which way it looks.
        face: Face,
        /// Its length, m.
        length_m: f64,
        /// What draughts alone carry, W/m² K ([`draught_w_per_m2_k`]). It keeps wet surfaces from ceasing to
        /// evaporate where they are just as warm as the air.
        draught_w_per_m2_k: f64,
    },
}

/// What air of that speed carries off a flat face that it runs along, W/m² K: 0.664 Re^½ Pr^⅓ k/L, laminar
/// (Re below 5 × 10⁵).
/// Source: Incropera & DeWitt, *Fundamentals of Heat and Mass Transfer*, external flow, from memory.
#[must_use]
pub fn draught_w_per_m2_k(air_c: f64, speed_m_per_s: f64, length_m: f64) -> f64 {
    let air = air_at(air_c);
    let reynolds = speed_m_per_s * length_m / air.viscosity_m2_per_s;
    0.664 * reynolds.sqrt() * air.prandtl.cbrt() * air.conductivity_w_per_m_k / length_m
}

impl Convection {
    /// The coefficient between a surface and air, W/m² K.
    ///
    /// Draught and free convection join by their third powers (Incropera & DeWitt, combined free and forced
    /// convection, from memory). Where neither moves, conduction over the length is left.
    #[must_use]
    pub fn coefficient_w_per_m2_k(self, surface_c: f64, air_c: f64) -> f64 {
        match self {
            Self::Steady(coefficient) => coefficient,
            Self::Free {
                face,
                length_m,
                draught_w_per_m2_k,
            } => {
                let air = air_at(f64::midpoint(surface_c, air_c));
                let ra = rayleigh(&air, surface_c - air_c, length_m);
                let nusselt = match (face, surface_c >= air_c) {
                    (Face::Up, true) | (Face::Down, false) => nusselt_free_face(ra),
                    (Face::Up, false) | (Face::Down, true) => nusselt_stagnant_face(ra),
                    (Face::Upright, _) => nusselt_upright(ra, air.prandtl),
                };
                let free = nusselt.max(1.0) * air.conductivity_w_per_m_k / length_m;
                (free.powi(3) + draught_w_per_m2_k.powi(3)).cbrt()
            }
        }
    }

    /// Whether its numbers make sense.
    #[must_use]
    pub fn is_sound(self) -> bool {
        let counts = |x: f64| x >= 0.0 && x.is_finite();
        match self {
            Self::Steady(coefficient) => counts(coefficient),
            Self::Free {
                length_m,
                draught_w_per_m2_k,
                ..
            } => length_m > 0.0 && length_m.is_finite() && counts(draught_w_per_m2_k),
        }
    }
}

/// Psychrometric constant at sea level, kPa/K (Allen, Pereira, Raes & Smith 1998, FAO Irrigation and Drainage
/// Paper 56, equation 8: 0.665e-3 × 101.3).
pub const PSYCHROMETRIC_KPA_PER_K: f64 = 0.067_4;
/// Le^(-2/3) of water vapour in air, Le 0.89 (from memory; any text on mass transfer).
pub const LEWIS: f64 = 1.08;

/// Vapour pressure of saturated air, kPa (FAO-56, equation 11).
#[must_use]
pub fn saturation_kpa(air_c: f64) -> f64 {
    0.6108 * (17.27 * air_c / (air_c + 237.3)).exp()
}

/// Its slope, kPa/K (FAO-56, equation 13).
#[must_use]
pub fn saturation_slope_kpa_per_k(air_c: f64) -> f64 {
    4098.0 * saturation_kpa(air_c) / (air_c + 237.3).powi(2)
}

/// Heat that a wet surface loses by evaporation at its temperature, as a straight line about that
/// temperature: W/m² there, and W/m² K. Below nought where dew forms.
///
/// λE = (hc/γ) Le^(-2/3) (es(Ts) - ea).
/// Source: the analogy of heat and mass transfer, any text; Monteith & Unsworth 1990, *Principles of
/// Environmental Physics* (from memory).
#[must_use]
pub fn evaporation(
    convection_w_per_m2_k: f64,
    lewis: f64,
    surface_c: f64,
    vapour_kpa: f64,
) -> (f64, f64) {
    let times = convection_w_per_m2_k * lewis / PSYCHROMETRIC_KPA_PER_K;
    (
        times * (saturation_kpa(surface_c) - vapour_kpa),
        times * saturation_slope_kpa_per_k(surface_c),
    )
}
