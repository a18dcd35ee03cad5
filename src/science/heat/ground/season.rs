//! Mean, swing and coldest day of the ground from readings of one's own at one depth.

use std::f64::consts::TAU;
use std::fmt;

use super::wave::Wave;
use super::{DAY_S, Solid, YEAR_S};
use crate::science::numerics::linear::{between, inverse, solved};

/// A reading of the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GroundReading {
    /// Day of the year, from 1; the middle of the month for a month's mean.
    pub day_of_year: f64,
    /// °C.
    pub temperature_c: f64,
}

/// What readings tell of the year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Season {
    /// The wave at the surface.
    pub surface: Wave,
    /// The wave at the depth of the readings.
    pub at_depth: Wave,
    /// Standard error of the mean, K; nought is claimed where three readings are met exactly.
    pub mean_error_k: f64,
    /// Standard error of the swing at the surface, K.
    pub swing_error_k: f64,
    /// Standard error of the coldest day, days.
    pub coldest_error_days: f64,
    /// Root mean square of what the wave misses the readings by, K.
    pub residual_k: f64,
}

/// Why readings tell no year.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoSeason {
    /// Fewer than four, so that nothing would be left to judge them by.
    TooFew,
    /// A day, a temperature or a depth that is not a number, or a depth above the ground.
    NotANumber,
    /// They lie too close together in the year.
    TooClose,
}

impl fmt::Display for NoSeason {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::TooFew => {
                "Give at least 4 readings of the ground, of 4 different months; 12 will tell most."
            }
            Self::NotANumber => "Each reading needs a day, a temperature and a depth below ground.",
            Self::TooClose => {
                "These readings lie too close together in the year: add some of another season."
            }
        })
    }
}

impl std::error::Error for NoSeason {}

/// Least squares on 1, cos and sin of the year; the swing is then carried up to the surface and the day
/// put back by the lag of the depth.
///
/// Source: the wave is that of Kusuda & Achenbach 1965 (see [`Wave::at_depth`]); least squares as in any
/// text on statistics.
///
/// # Errors
/// [`NoSeason`] where the readings are too few or too close.
pub fn season(readings: &[GroundReading], depth_m: f64, solid: &Solid) -> Result<Season, NoSeason> {
    /// Cos and sin hang together where the smallest share of a year between readings is below this: their
    /// errors would be this many times that of a reading.
    const MOST_ERROR: f64 = 20.0;
    const UNKNOWNS: usize = 3;
    if readings.len() <= UNKNOWNS {
        return Err(NoSeason::TooFew);
    }
    let sound = |reading: &GroundReading| {
        reading.day_of_year.is_finite() && reading.temperature_c.is_finite()
    };
    if !(depth_m >= 0.0 && depth_m.is_finite() && readings.iter().all(sound)) {
        return Err(NoSeason::NotANumber);
    }
    let row = |day: f64| {
        let (sin, cos) = (TAU * day * DAY_S / YEAR_S).sin_cos();
        [1.0, cos, sin]
    };
    let mut normal = vec![vec![0.0; UNKNOWNS]; UNKNOWNS];
    let mut right = vec![0.0; UNKNOWNS];
    for reading in readings {
        let terms = row(reading.day_of_year);
        for (i, term) in terms.iter().enumerate() {
            right[i] += term * reading.temperature_c;
            for (j, other) in terms.iter().enumerate() {
                normal[i][j] += term * other;
            }
        }
    }
    let found = solved(&normal, &right).ok_or(NoSeason::TooClose)?;
    let spread = inverse(&normal).ok_or(NoSeason::TooClose)?;
    if (0..UNKNOWNS).any(|i| spread[i][i].is_nan() || spread[i][i] > MOST_ERROR.powi(2)) {
        return Err(NoSeason::TooClose);
    }
    let (mean, cos, sin) = (found[0], found[1], found[2]);
    let missed: f64 = readings
        .iter()
        .map(|reading| {
            let terms = row(reading.day_of_year);
            let wave: f64 = terms.iter().zip(&found).map(|(term, x)| term * x).sum();
            (reading.temperature_c - wave).powi(2)
        })
        .sum();
    let variance = missed / (readings.len() - UNKNOWNS) as f64;
    let swing_k = cos.hypot(sin);
    // T = m + c cos + s sin = m - A cos(θ - θ0): c = -A cos θ0, s = -A sin θ0.
    let coldest = (-sin).atan2(-cos).rem_euclid(TAU);
    let along = [0.0, cos / swing_k, sin / swing_k];
    let across = [0.0, -sin / swing_k, cos / swing_k];
    let error =
        |direction: &[f64; UNKNOWNS]| (variance * between(direction, &spread, direction)).sqrt();
    let at_depth = Wave {
        mean_c: mean,
        swing_k,
        coldest_s: coldest / TAU * YEAR_S,
        period_s: YEAR_S,
    };
    let in_damping_depths = depth_m / solid.damping_depth_m(YEAR_S);
    let grown = in_damping_depths.exp();
    let surface = Wave {
        swing_k: swing_k * grown,
        coldest_s: at_depth.coldest_s - in_damping_depths / TAU * YEAR_S,
        ..at_depth
    };
    Ok(Season {
        surface,
        at_depth,
        mean_error_k: error(&[1.0, 0.0, 0.0]),
        swing_error_k: error(&along) * grown,
        coldest_error_days: if swing_k > 0.0 {
            error(&across) / swing_k / TAU * YEAR_S / DAY_S
        } else {
            f64::INFINITY
        },
        residual_k: (missed / readings.len() as f64).sqrt(),
    })
}
