//! Open water that is deep for its surface, such as a tank: how it follows the air and the sun.
//!
//! Source: Edinger, Brady & Geyer 1974, *Heat Exchange and Transport in the Environment* (from memory).

use std::f64::consts::TAU;

use super::ground::DAY_S;
use super::ground::wave::Response;
use super::medium::WATER_J_PER_M3_K;

/// How readily open water gives heat to air, all in one, W/m² K: 4.5 + 0.05 Ts + (β + 0.47) (9.2 + 0.46 W²),
/// β = 0.35 + 0.015 Tm + 0.0012 Tm², Tm midway between water and dew point; wind in m/s at 7 m.
#[must_use]
pub fn exchange_w_per_m2_k(water_c: f64, dew_point_c: f64, wind_m_per_s: f64) -> f64 {
    let middle = f64::midpoint(water_c, dew_point_c);
    let slope = 0.35 + 0.015 * middle + 0.0012 * middle * middle;
    let wind = 9.2 + 0.46 * wind_m_per_s * wind_m_per_s;
    4.5 + 0.05 * water_c + (slope + 0.47) * wind
}

/// The temperature that open water tends to, °C: the dew point, and what the sun that it takes up (W/m²) adds.
#[must_use]
pub fn equilibrium_c(dew_point_c: f64, sun_w_per_m2: f64, exchange_w_per_m2_k: f64) -> f64 {
    dew_point_c + sun_w_per_m2 / exchange_w_per_m2_k
}

/// The time in which mixed water of a depth comes within 1/e of that, s.
#[must_use]
pub fn time_constant_s(depth_m: f64, exchange_w_per_m2_k: f64) -> f64 {
    WATER_J_PER_M3_K * depth_m / exchange_w_per_m2_k
}

/// What is left in mixed water of the swing of a day, and how late it comes.
#[must_use]
pub fn response_to_day(depth_m: f64, exchange_w_per_m2_k: f64) -> Response {
    let angular_per_s = TAU / DAY_S;
    let turned = angular_per_s * time_constant_s(depth_m, exchange_w_per_m2_k);
    Response {
        ratio: 1.0 / 1f64.hypot(turned),
        lag_s: turned.atan() / angular_per_s,
    }
}

/// How far water of another temperature takes down what it is mixed with, K: its depth (m) and temperature
/// against the heat held by what stands there (J/m² K) and its temperature.
#[must_use]
pub fn change_by_filling_k(
    depth_m: f64,
    inflow_c: f64,
    standing_j_per_m2_k: f64,
    standing_c: f64,
) -> f64 {
    let brought = WATER_J_PER_M3_K * depth_m;
    brought * (inflow_c - standing_c) / (brought + standing_j_per_m2_k)
}
