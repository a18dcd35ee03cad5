//! What a stand of plants gives off, from the sun on it.

/// Heat that turns a kilogram of water at 20 °C to vapour, MJ. Source: IAPWS-95 tables, 2.4535;
/// rounded as FAO Irrigation and Drainage Paper 56, equation 20, uses it.
const LATENT_HEAT_MJ_PER_KG: f64 = 2.45;

/// Water that a square metre of a closed stand gives off in a day, L.
///
/// E = k τ R/λ: the sun outdoors R (MJ/m² in a day, 0 to 35), the share τ of it that the cover lets
/// through, the share k of that which turns water to vapour. Night, wind and heating are left out, and a
/// single plant in the open gives off more than its share of a stand.
///
/// Source: de Graaf & van den Ende 1981, Acta Horticulturae 119:147; Stanghellini 1987,
/// *Transpiration of greenhouse crops* (both cited from memory).
#[must_use]
pub fn litres_per_square_metre(sun_mj_per_m2: f64, transmitted: f64, transpired: f64) -> f64 {
    transpired * transmitted * sun_mj_per_m2 / LATENT_HEAT_MJ_PER_KG
}
