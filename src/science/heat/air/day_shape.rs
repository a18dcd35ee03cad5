//! The hours of a day from its lowest and highest temperature. The clock is solar: the sun is highest at 12.

use std::f64::consts::PI;

/// Noon, h.
const NOON_H: f64 = 12.0;
/// Hours of a day.
pub const DAY_H: f64 = 24.0;

/// How a day runs between its lowest and highest: a sine while the sun is up, a decay by night.
///
/// Source: Parton & Logan 1981, Agricultural Meteorology 23:205-216 (equations from memory; their
/// coefficients as quoted by a published manual).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayShape {
    /// How long after noon it is warmest, h (their a).
    pub warmest_after_noon_h: f64,
    /// How fast the night cools, for the whole night (their b).
    pub night_decay: f64,
    /// How long after sunrise it is coldest, h (their c).
    pub coldest_after_sunrise_h: f64,
}

impl DayShape {
    /// Air at 1.5 m in the open.
    pub const AIR: Self = Self::new(1.86, 2.20, -0.17);
    /// Air at 10 cm.
    pub const AIR_NEAR_GROUND: Self = Self::new(1.52, 2.00, -0.18);
    /// The surface of bare soil.
    pub const SOIL_SURFACE: Self = Self::new(0.50, 1.81, 0.49);
    /// Soil at 10 cm.
    pub const SOIL: Self = Self::new(0.45, 2.28, 1.83);

    /// From the three coefficients of Parton & Logan: a, b and c.
    #[must_use]
    pub const fn new(
        warmest_after_noon_h: f64,
        night_decay: f64,
        coldest_after_sunrise_h: f64,
    ) -> Self {
        Self {
            warmest_after_noon_h,
            night_decay,
            coldest_after_sunrise_h,
        }
    }

    /// The temperature at an hour of one of several days, °C. The day's length in hours must lie above 0 and
    /// below 24; at the poles' seasons give 0.5 or 23.5.
    ///
    /// Before it is coldest the night that began with the day before runs down to this day's lowest, and
    /// after sunset on to the next day's. With one day thrice it repeats itself.
    #[must_use]
    pub fn at(&self, days: &Neighbours, day_length_h: f64, hour: f64) -> f64 {
        let half = day_length_h / 2.0;
        let coldest = NOON_H - half + self.coldest_after_sunrise_h;
        let sunset = NOON_H + half;
        let night_h = DAY_H - day_length_h;
        if hour < coldest {
            let from = self.at_sunset(&days.before, day_length_h);
            let night = hour + DAY_H - sunset;
            self.cooling(from, days.today.lowest_c, night / night_h)
        } else if hour <= sunset {
            self.by_day(&days.today, day_length_h, hour - coldest)
        } else {
            let from = self.at_sunset(&days.today, day_length_h);
            self.cooling(from, days.after.lowest_c, (hour - sunset) / night_h)
        }
    }

    fn by_day(&self, day: &LowestHighest, day_length_h: f64, since_coldest_h: f64) -> f64 {
        let part = since_coldest_h / (day_length_h + 2.0 * self.warmest_after_noon_h);
        day.lowest_c + (day.highest_c - day.lowest_c) * (PI * part).sin()
    }

    fn at_sunset(&self, day: &LowestHighest, day_length_h: f64) -> f64 {
        self.by_day(
            day,
            day_length_h,
            day_length_h - self.coldest_after_sunrise_h,
        )
    }

    fn cooling(&self, from_c: f64, to_c: f64, share_of_night: f64) -> f64 {
        to_c + (from_c - to_c) * (-self.night_decay * share_of_night).exp()
    }
}

/// The lowest and highest of a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LowestHighest {
    /// °C.
    pub lowest_c: f64,
    /// °C.
    pub highest_c: f64,
}

/// A day between its neighbours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Neighbours {
    /// The day before.
    pub before: LowestHighest,
    /// The day itself.
    pub today: LowestHighest,
    /// The day after.
    pub after: LowestHighest,
}

impl Neighbours {
    /// A day like its neighbours.
    #[must_use]
    pub fn alike(day: LowestHighest) -> Self {
        Self {
            before: day,
            today: day,
            after: day,
        }
    }
}

/// The temperature at an hour of a day that repeats itself, °C: half a cosine from sunrise to 14 h, and half
/// one back.
///
/// Source: de Wit et al. 1978, *Simulation of assimilation, respiration and transpiration of crops*,
/// subroutine WAVE (from memory).
#[must_use]
pub fn by_de_wit_1978(day: &LowestHighest, sunrise_h: f64, hour: f64) -> f64 {
    /// When it is warmest, h.
    const WARMEST_H: f64 = 14.0;
    let middle = f64::midpoint(day.lowest_c, day.highest_c);
    let swing = (day.highest_c - day.lowest_c) / 2.0;
    if (sunrise_h..=WARMEST_H).contains(&hour) {
        middle - swing * (PI * (hour - sunrise_h) / (WARMEST_H - sunrise_h)).cos()
    } else {
        let since = (hour - WARMEST_H).rem_euclid(DAY_H);
        middle + swing * (PI * since / (DAY_H - WARMEST_H + sunrise_h)).cos()
    }
}

/// The sun of a day at an hour, as a share of what it is at noon: a half sine between sunrise and sunset.
/// Common practice, no source.
#[must_use]
pub fn sun_share(day_length_h: f64, hour: f64) -> f64 {
    let sunrise = NOON_H - day_length_h / 2.0;
    let part = (hour - sunrise) / day_length_h;
    if (0.0..=1.0).contains(&part) {
        (PI * part).sin()
    } else {
        0.0
    }
}

/// How much warmer the air at bench height is than that at the floor at an hour, K, where so much is known of
/// the night: all of it from sunset to sunrise, none from an hour after sunrise to an hour before sunset.
/// Common practice, no source; two thermometers go before it.
#[must_use]
pub fn bench_warmer_k(by_night_k: f64, day_length_h: f64, hour: f64) -> f64 {
    /// Between night and day, h.
    const FADES_H: f64 = 1.0;
    let from_noon = (hour.rem_euclid(DAY_H) - NOON_H).abs();
    let before_dark = day_length_h / 2.0 - from_noon;
    by_night_k * (1.0 - before_dark / FADES_H).clamp(0.0, 1.0)
}
