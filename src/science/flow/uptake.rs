//! What roots take, where they are, and what holds them back.

use std::f64::consts::PI;

use crate::measure::{Duration, Suction};

/// Why numbers make no response of roots to suction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAStress;

impl std::fmt::Display for NotAStress {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(
            "the four suctions must rise: drowned, free of drowning, free of thirst, wilted",
        )
    }
}

impl std::error::Error for NotAStress {}

/// The share of its demand that a root takes at a suction: nought up to the first suction, rising
/// to one at the second, one up to the third, falling to nought at the fourth.
///
/// Source: Feddes, Kowalik & Zaradny 1978, *Simulation of Field Water Use and Crop Yield*
/// (straight lines); thresholds differ by crop and medium and are the caller's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stress {
    drowned_m: f64,
    free_of_drowning_m: f64,
    free_of_thirst_m: f64,
    wilted_m: f64,
}

impl Stress {
    /// From the four suctions in rising order. Where the first two are equal the change is
    /// sudden; below nought (standing water over the root) is allowed.
    ///
    /// # Errors
    /// [`NotAStress`] unless finite and first ≤ second ≤ third < fourth.
    pub fn new(
        drowned: Suction,
        free_of_drowning: Suction,
        free_of_thirst: Suction,
        wilted: Suction,
    ) -> Result<Self, NotAStress> {
        let [a, b, c, d] = [drowned, free_of_drowning, free_of_thirst, wilted]
            .map(|s| s.in_millimetres_of_water() / 1000.0);
        if !(a <= b && b <= c && c < d && a.is_finite() && d.is_finite()) {
            return Err(NotAStress);
        }
        Ok(Self {
            drowned_m: a,
            free_of_drowning_m: b,
            free_of_thirst_m: c,
            wilted_m: d,
        })
    }

    /// Roots that take what is asked of them whatever the suction below wilting, drowned or not.
    ///
    /// # Errors
    /// [`NotAStress`] unless the two suctions rise.
    pub fn of_thirst_alone(free_of_thirst: Suction, wilted: Suction) -> Result<Self, NotAStress> {
        // Deeper under water than any tray.
        let never = Suction::from_centimetres_of_water(-1e4);
        Self::new(never, never, free_of_thirst, wilted)
    }

    /// The suction at which nothing more is taken, m.
    pub(super) fn wilted_m(&self) -> f64 {
        self.wilted_m
    }

    /// The share at a suction in metres of water (negative below a water level), from 0 to 1.
    #[must_use]
    pub fn share(&self, suction_m: f64) -> f64 {
        self.share_and_slope(suction_m).0
    }

    /// The share, and how it changes with suction, 1/m.
    pub(super) fn share_and_slope(&self, suction_m: f64) -> (f64, f64) {
        if suction_m < self.free_of_drowning_m {
            let span = self.free_of_drowning_m - self.drowned_m;
            if suction_m <= self.drowned_m {
                (0.0, 0.0)
            } else {
                ((suction_m - self.drowned_m) / span, 1.0 / span)
            }
        } else if suction_m <= self.free_of_thirst_m {
            (1.0, 0.0)
        } else if suction_m < self.wilted_m {
            let span = self.wilted_m - self.free_of_thirst_m;
            ((self.wilted_m - suction_m) / span, -1.0 / span)
        } else {
            (0.0, 0.0)
        }
    }
}

/// How demand runs through the day: a half sine from sunrise to sunset and nought at night, as a
/// multiple of the mean over the whole day.
///
/// rate/mean = (π/2) (24 h/daylength) sin(π (t - rise)/daylength); its integral from sunrise is
/// (E/2)(1 - cos(π (t - rise)/daylength)). Common practice after radiation under a clear sky.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HalfSine {
    rise_s: f64,
    length_s: f64,
}

const DAY_S: f64 = 86_400.0;

impl HalfSine {
    /// From sunrise and sunset after midnight; a day without length asks for nothing.
    #[must_use]
    pub fn new(sunrise: Duration, sunset: Duration) -> Self {
        Self {
            rise_s: sunrise.in_seconds(),
            length_s: (sunset - sunrise).in_seconds().clamp(0.0, DAY_S),
        }
    }

    /// The multiple of the day's mean at a time in seconds after any midnight.
    #[must_use]
    pub fn multiple(&self, time_s: f64) -> f64 {
        let since_rise = (time_s - self.rise_s).rem_euclid(DAY_S);
        if since_rise >= self.length_s {
            return 0.0;
        }
        PI / 2.0 * DAY_S / self.length_s * (PI * since_rise / self.length_s).sin()
    }
}
