//! The sun through the year: how long the day is, and what reaches the top of the air.
//!
//! The day of the year counts from 1 on the first of January and may have a fraction. Latitude is
//! in degrees, north positive. Between a polar circle and its pole days may have no night, or
//! nights no day: the functions then give 24 hours or none.

use std::f64::consts::{PI, TAU};

/// Solar constant, MJ/m² min (FAO-56 equation 21).
const SOLAR_CONSTANT: f64 = 0.0820;

/// Centre of the sun below the horizon at sunrise and sunset as the eye sees them: refraction and
/// the sun's own breadth, degrees (Forsythe et al. 1995, table 1).
pub const SUNRISE_DEGREES: f64 = 0.8333;

/// Centre of the sun below the horizon at the ends of civil twilight, degrees (Forsythe et al.
/// 1995, table 1). Plants that measure the day see about this one.
pub const CIVIL_TWILIGHT_DEGREES: f64 = 6.0;

/// Inverse relative distance of the earth from the sun (Allen, Pereira, Raes & Smith 1998, Crop
/// evapotranspiration, FAO Irrigation and Drainage Paper 56, equation 23).
#[must_use]
pub fn inverse_relative_distance(day_of_year: f64) -> f64 {
    1.0 + 0.033 * (TAU / 365.0 * day_of_year).cos()
}

/// Declination of the sun, radians (FAO-56 equation 24).
#[must_use]
pub fn declination(day_of_year: f64) -> f64 {
    0.409 * (TAU / 365.0 * day_of_year - 1.39).sin()
}

/// Hour angle of sunset, radians: half a turn where the sun does not set, nought where it does not
/// rise (FAO-56 equation 25).
#[must_use]
pub fn sunset_hour_angle(latitude_degrees: f64, day_of_year: f64) -> f64 {
    (-latitude_degrees.to_radians().tan() * declination(day_of_year).tan())
        .clamp(-1.0, 1.0)
        .acos()
}

/// Solar radiation on a level plane at the top of the air, MJ/m² d (FAO-56 equation 21).
#[must_use]
pub fn extraterrestrial_mj_per_m2(latitude_degrees: f64, day_of_year: f64) -> f64 {
    let latitude = latitude_degrees.to_radians();
    let declination = declination(day_of_year);
    let sunset = sunset_hour_angle(latitude_degrees, day_of_year);
    24.0 * 60.0 / PI
        * SOLAR_CONSTANT
        * inverse_relative_distance(day_of_year)
        * (sunset * latitude.sin() * declination.sin()
            + latitude.cos() * declination.cos() * sunset.sin())
}

/// Daylight hours from sunset to sunset of the sun's centre, without refraction (FAO-56 equation
/// 34): the N of formulas with bright sunshine.
#[must_use]
pub fn daylight_hours(latitude_degrees: f64, day_of_year: f64) -> f64 {
    24.0 / PI * sunset_hour_angle(latitude_degrees, day_of_year)
}

/// Hours in which the centre of the sun stands above a line so many degrees below the horizon.
///
/// The CBM model. Source: Forsythe, Rykiel, Stahl, Wu & Schoolfield 1995, A model comparison for
/// daylength as a function of latitude and day of year, Ecological Modelling 80:87-95, equations 1
/// to 3; they found it within a minute of the almanac up to 40° and within seven minutes up to 60°.
#[must_use]
pub fn day_length_hours(
    latitude_degrees: f64,
    day_of_year: f64,
    degrees_below_horizon: f64,
) -> f64 {
    let revolution =
        0.216_310_8 + 2.0 * (0.967_139_6 * (0.008_60 * (day_of_year - 186.0)).tan()).atan();
    let declination = (0.397_95 * revolution.cos()).asin();
    let latitude = latitude_degrees.to_radians();
    let night = ((degrees_below_horizon.to_radians().sin() + latitude.sin() * declination.sin())
        / (latitude.cos() * declination.cos()))
    .clamp(-1.0, 1.0)
    .acos();
    24.0 - 24.0 / PI * night
}

/// Solar radiation on the ground from bright sunshine, MJ/m² d: the Ångström formula with the
/// coefficients 0.25 and 0.50 for places without their own (FAO-56 equation 35).
#[must_use]
pub fn radiation_from_sunshine(
    latitude_degrees: f64,
    day_of_year: f64,
    bright_sunshine_hours: f64,
) -> f64 {
    let possible = daylight_hours(latitude_degrees, day_of_year);
    let share = if possible > 0.0 {
        (bright_sunshine_hours / possible).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (0.25 + 0.50 * share) * extraterrestrial_mj_per_m2(latitude_degrees, day_of_year)
}
