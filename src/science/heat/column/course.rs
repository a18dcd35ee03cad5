//! The air, the sun and the cover of the house, through the hours.

use super::NoColumn;
use crate::measure::Duration;
use crate::science::heat::films::saturation_kpa;
use crate::science::heat::ground::DAY_S;

/// How it is in the house at one time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Air at the floor, °C.
    pub floor_air_c: f64,
    /// Air at bench height, °C.
    pub bench_air_c: f64,
    /// The inner face of the house's cover, which plants and pots radiate to, °C.
    pub cover_c: f64,
    /// Vapour pressure of the air, kPa.
    pub vapour_kpa: f64,
    /// Sun on the level at bench height, W/m².
    pub sun_w_per_m2: f64,
}

impl Moment {
    /// The same air everywhere, saturated, no sun, and a cover as warm as the air.
    #[must_use]
    pub fn dark(air_c: f64) -> Self {
        Self {
            floor_air_c: air_c,
            bench_air_c: air_c,
            cover_c: air_c,
            vapour_kpa: saturation_kpa(air_c),
            sun_w_per_m2: 0.0,
        }
    }

    fn is_sound(&self) -> bool {
        self.floor_air_c.is_finite()
            && self.bench_air_c.is_finite()
            && self.cover_c.is_finite()
            && self.vapour_kpa >= 0.0
            && self.vapour_kpa.is_finite()
            && self.sun_w_per_m2 >= 0.0
            && self.sun_w_per_m2.is_finite()
    }

    fn blended(&self, other: &Self, part: f64) -> Self {
        let between = |a: f64, b: f64| a + part * (b - a);
        Self {
            floor_air_c: between(self.floor_air_c, other.floor_air_c),
            bench_air_c: between(self.bench_air_c, other.bench_air_c),
            cover_c: between(self.cover_c, other.cover_c),
            vapour_kpa: between(self.vapour_kpa, other.vapour_kpa),
            sun_w_per_m2: between(self.sun_w_per_m2, other.sun_w_per_m2),
        }
    }

    /// Air at a height between floor (0) and bench (1), °C.
    pub(super) fn air_at_c(&self, height: f64) -> f64 {
        self.floor_air_c + height * (self.bench_air_c - self.floor_air_c)
    }
}

/// A day that repeats itself, or a run of days, at equal times from midnight, with straight lines between.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    moments: Vec<Moment>,
    spacing_s: f64,
    repeats: bool,
}

impl Course {
    /// A day that repeats itself: at so many equal times of it, the first at midnight.
    ///
    /// # Errors
    /// [`NoColumn::Course`] where there are fewer than two times, or one is no number.
    pub fn of_day(moments: Vec<Moment>) -> Result<Self, NoColumn> {
        let spacing_s = DAY_S / moments.len().max(1) as f64;
        Self::checked(moments, spacing_s, true)
    }

    /// A run of days from a midnight, at equal times. It ends with the last.
    ///
    /// # Errors
    /// [`NoColumn::Course`] where there are fewer than two times, one is no number, or they do not follow
    /// one another.
    pub fn of_days(moments: Vec<Moment>, spacing: Duration) -> Result<Self, NoColumn> {
        Self::checked(moments, spacing.in_seconds(), false)
    }

    fn checked(moments: Vec<Moment>, spacing_s: f64, repeats: bool) -> Result<Self, NoColumn> {
        if moments.len() >= 2
            && spacing_s > 0.0
            && spacing_s.is_finite()
            && moments.iter().all(Moment::is_sound)
        {
            Ok(Self {
                moments,
                spacing_s,
                repeats,
            })
        } else {
            Err(NoColumn::Course)
        }
    }

    /// When it ends, s; never for a day that repeats itself.
    #[must_use]
    pub fn end_s(&self) -> f64 {
        if self.repeats {
            f64::INFINITY
        } else {
            self.spacing_s * (self.moments.len() - 1) as f64
        }
    }

    /// Whether it is a day that repeats itself.
    #[must_use]
    pub fn repeats(&self) -> bool {
        self.repeats
    }

    /// How it is at a time.
    #[must_use]
    pub fn at(&self, time_s: f64) -> Moment {
        let times = self.moments.len();
        let place = if self.repeats {
            time_s.rem_euclid(DAY_S) / self.spacing_s
        } else {
            (time_s / self.spacing_s).clamp(0.0, (times - 1) as f64)
        };
        let before = (place as usize).min(times - 1);
        let after = if before + 1 < times {
            before + 1
        } else if self.repeats {
            0
        } else {
            before
        };
        self.moments[before].blended(&self.moments[after], place - before as f64)
    }

    /// The same, each moment changed alike.
    ///
    /// # Errors
    /// [`NoColumn::Course`] where a moment is no number any more.
    pub fn changed(&self, change: impl Fn(&Moment) -> Moment) -> Result<Self, NoColumn> {
        let moments = self.moments.iter().map(change).collect();
        Self::checked(moments, self.spacing_s, self.repeats)
    }

    /// Its first day, repeated; all of it where that is no whole day.
    pub(super) fn first_day(&self) -> Result<Self, NoColumn> {
        let times = (DAY_S / self.spacing_s).round() as usize;
        if self.repeats {
            return Ok(self.clone());
        }
        let moments = self.moments.iter().take(times.max(2)).copied().collect();
        Self::of_day(moments)
    }

    /// The mean over all of it.
    #[must_use]
    pub fn mean(&self) -> Moment {
        let times = self.moments.len() as f64;
        let mean = |of: &dyn Fn(&Moment) -> f64| self.moments.iter().map(of).sum::<f64>() / times;
        Moment {
            floor_air_c: mean(&|m| m.floor_air_c),
            bench_air_c: mean(&|m| m.bench_air_c),
            cover_c: mean(&|m| m.cover_c),
            vapour_kpa: mean(&|m| m.vapour_kpa),
            sun_w_per_m2: mean(&|m| m.sun_w_per_m2),
        }
    }
}
