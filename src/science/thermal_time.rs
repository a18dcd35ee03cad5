//! Thermal time: how far warmth carries a plant, from one temperature or from the day's lowest and
//! highest.
//!
//! Temperatures are in °C, sums in °C d. A day between its lowest and highest is taken as a sine
//! whose mean is half their sum, unless the function says otherwise.

use std::f64::consts::{FRAC_PI_2, LN_2, PI};
use std::fmt;

use super::numerics::quadrature::integral_in_pieces;

/// The temperatures at which a rate is nought, greatest and nought again.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cardinals {
    base_c: f64,
    optimum_c: f64,
    ceiling_c: f64,
}

/// Three temperatures that cannot be cardinal temperatures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotCardinals;

impl fmt::Display for NotCardinals {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("The lowest temperature for growth must be below the best, and the best below the highest.")
    }
}

impl std::error::Error for NotCardinals {}

impl Cardinals {
    /// The three temperatures, which must rise.
    ///
    /// # Errors
    /// [`NotCardinals`] where they do not rise or are not finite.
    pub fn new(base_c: f64, optimum_c: f64, ceiling_c: f64) -> Result<Self, NotCardinals> {
        if base_c.is_finite()
            && ceiling_c.is_finite()
            && base_c < optimum_c
            && optimum_c < ceiling_c
        {
            Ok(Self {
                base_c,
                optimum_c,
                ceiling_c,
            })
        } else {
            Err(NotCardinals)
        }
    }

    /// At and below it nothing happens.
    #[must_use]
    pub fn base_c(&self) -> f64 {
        self.base_c
    }

    /// The rate is greatest here.
    #[must_use]
    pub fn optimum_c(&self) -> f64 {
        self.optimum_c
    }

    /// At and above it nothing happens.
    #[must_use]
    pub fn ceiling_c(&self) -> f64 {
        self.ceiling_c
    }

    /// The rate as a share of the greatest, by the beta function.
    ///
    /// {(T - Tb)/(To - Tb) · \[(Tc - T)/(Tc - To)\]^((Tc - To)/(To - Tb))}^c, nought outside Tb to Tc.
    /// Source: Yin, Kropff, McLaren & Visperas 1995, Agricultural and Forest Meteorology 77:1-16,
    /// normalised to its greatest value; c is their exponent α of the rising part, above 0.
    #[must_use]
    pub fn rate_by_yin_1995(&self, temperature_c: f64, curvature: f64) -> f64 {
        if !self.holds(temperature_c) {
            return 0.0;
        }
        let rising = (temperature_c - self.base_c) / (self.optimum_c - self.base_c);
        let falling = (self.ceiling_c - temperature_c) / (self.ceiling_c - self.optimum_c);
        let weight = (self.ceiling_c - self.optimum_c) / (self.optimum_c - self.base_c);
        (rising * falling.powf(weight)).powf(curvature)
    }

    /// The beta function with the curvature that leaves the falling part straight.
    ///
    /// \[(Tc - T)/(Tc - To)\] · \[(T - Tb)/(To - Tb)\]^((To - Tb)/(Tc - To)).
    /// Source: Yan & Hunt 1999, Annals of Botany 84:607-614, with a base temperature.
    #[must_use]
    pub fn rate_by_yan_hunt_1999(&self, temperature_c: f64) -> f64 {
        let curvature = (self.optimum_c - self.base_c) / (self.ceiling_c - self.optimum_c);
        self.rate_by_yin_1995(temperature_c, curvature)
    }

    /// The rate as a share of the greatest, by the function of wheat models.
    ///
    /// 2 x^α - x^(2α), x = (T - Tb)/(To - Tb), α = ln 2 / ln\[(Tc - Tb)/(To - Tb)\].
    /// Source: Wang & Engel 1998, Agricultural Systems 58:1-24.
    #[must_use]
    pub fn rate_by_wang_engel_1998(&self, temperature_c: f64) -> f64 {
        if !self.holds(temperature_c) {
            return 0.0;
        }
        let reach = self.optimum_c - self.base_c;
        let alpha = LN_2 / ((self.ceiling_c - self.base_c) / reach).ln();
        let power = ((temperature_c - self.base_c) / reach).powf(alpha);
        power * (2.0 - power)
    }

    /// The rate as a share of the greatest, straight up to the optimum, level to the end of the
    /// plateau, straight down to the ceiling. A plateau that ends below the optimum or above the
    /// ceiling is cut to them.
    ///
    /// The trapezoid used for germination by Krug, Liebig & Bazlen 1989 (Acta Horticulturae
    /// 248:167-174, abstract).
    #[must_use]
    pub fn rate_by_trapezoid(&self, temperature_c: f64, plateau_end_c: f64) -> f64 {
        let end = plateau_end_c.clamp(self.optimum_c, self.ceiling_c);
        if !self.holds(temperature_c) {
            0.0
        } else if temperature_c < self.optimum_c {
            (temperature_c - self.base_c) / (self.optimum_c - self.base_c)
        } else if temperature_c <= end {
            1.0
        } else {
            (self.ceiling_c - temperature_c) / (self.ceiling_c - end)
        }
    }

    /// The mean over a day of a rate that has its corners at the cardinal temperatures; 1 where all
    /// day the rate is the greatest. The day runs as a sine between its lowest and highest.
    #[must_use]
    pub fn mean_rate_of_day(
        &self,
        lowest_c: f64,
        highest_c: f64,
        rate: &dyn Fn(f64) -> f64,
    ) -> f64 {
        let (middle, swing) = middle_and_swing(lowest_c, highest_c);
        let angle = |corner: f64| {
            if swing > 0.0 {
                ((corner - middle) / swing).clamp(-1.0, 1.0).asin()
            } else {
                -FRAC_PI_2
            }
        };
        let ends = [
            -FRAC_PI_2,
            angle(self.base_c),
            angle(self.optimum_c),
            angle(self.ceiling_c),
            FRAC_PI_2,
        ];
        integral_in_pieces(&ends, |angle| rate(middle + swing * angle.sin())) / PI
    }

    fn holds(&self, temperature_c: f64) -> bool {
        temperature_c > self.base_c && temperature_c < self.ceiling_c
    }
}

fn middle_and_swing(lowest_c: f64, highest_c: f64) -> (f64, f64) {
    (
        f64::midpoint(lowest_c, highest_c),
        (highest_c - lowest_c).abs() / 2.0,
    )
}

/// Degree days above a base from the mean of lowest and highest. Reads too low on days that cross
/// the base. Source: method 1 of McMaster & Wilhelm 1997, Agricultural and Forest Meteorology
/// 87:291-300 (from memory).
#[must_use]
pub fn degree_days_by_average(lowest_c: f64, highest_c: f64, base_c: f64) -> f64 {
    (f64::midpoint(lowest_c, highest_c) - base_c).max(0.0)
}

/// Degree days above a base, the day taken as a single sine.
///
/// \[(Tm - Tb)(π/2 - θ) + A cos θ\]/π, θ = asin\[(Tb - Tm)/A\], where the day crosses the base.
/// Source: Baskerville & Emin 1969, Ecology 50:514-517.
#[must_use]
pub fn degree_days_by_single_sine(lowest_c: f64, highest_c: f64, base_c: f64) -> f64 {
    let (middle, swing) = middle_and_swing(lowest_c, highest_c);
    let above = middle - base_c;
    if above >= swing {
        above
    } else if above <= -swing {
        0.0
    } else {
        let theta = (-above / swing).asin();
        (above * (FRAC_PI_2 - theta) + swing * theta.cos()) / PI
    }
}

/// Degree days above a base, the day taken as a triangle: (Tx - Tb)²/\[2 (Tx - Tn)\] where the day
/// crosses the base. Source: single triangle of Zalom, Goodell, Wilson, Barnett & Bentley 1983,
/// University of California leaflet 21373.
#[must_use]
pub fn degree_days_by_single_triangle(lowest_c: f64, highest_c: f64, base_c: f64) -> f64 {
    let (middle, swing) = middle_and_swing(lowest_c, highest_c);
    let above = middle - base_c;
    if above >= swing {
        above
    } else if above <= -swing {
        0.0
    } else {
        (above + swing).powi(2) / (4.0 * swing)
    }
}

/// Degree days of a method between a base and a temperature above which more warmth brings no more
/// (a level cut-off): those above the base less those above the limit.
#[must_use]
pub fn degree_days_below_limit(
    method: fn(f64, f64, f64) -> f64,
    lowest_c: f64,
    highest_c: f64,
    base_c: f64,
    limit_c: f64,
) -> f64 {
    method(lowest_c, highest_c, base_c) - method(lowest_c, highest_c, limit_c)
}

/// Ontario crop heat units of a day: half of 3.33 (Tx - 10) - 0.084 (Tx - 10)² by day and
/// 1.8 (Tn - 4.4) by night, neither below nought. Source: Brown & Bootsma 1993, Crop heat units for
/// corn and other warm-season crops in Ontario, Factsheet 93-119 (from memory).
#[must_use]
pub fn ontario_heat_units(lowest_c: f64, highest_c: f64) -> f64 {
    let day = (highest_c - 10.0).max(0.0);
    let night = (lowest_c - 4.4).max(0.0);
    f64::midpoint((3.33 * day - 0.084 * day * day).max(0.0), 1.8 * night)
}

/// Days at one temperature until a sum above a base is reached; none where it never is.
///
/// t = S/(T - Tb), the heat sum of germination and growth (Bierhuizen & Wagenvoort 1974, Scientia
/// Horticulturae 2:213-219).
#[must_use]
pub fn days_at(temperature_c: f64, base_c: f64, sum_c_days: f64) -> Option<f64> {
    (temperature_c > base_c).then(|| sum_c_days / (temperature_c - base_c))
}

/// Days until a sum is reached from the gains of successive days, with the part of the last one;
/// none where the gains end before.
pub fn days_until(sum_c_days: f64, gains: &mut dyn Iterator<Item = f64>) -> Option<f64> {
    let (mut days, mut gained) = (0.0, 0.0);
    if sum_c_days <= 0.0 {
        return Some(0.0);
    }
    for gain in gains {
        if gained + gain >= sum_c_days {
            return Some(days + (sum_c_days - gained) / gain);
        }
        gained += gain;
        days += 1.0;
    }
    None
}

/// A base temperature and a sum above it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatSum {
    /// Base temperature, °C.
    pub base_c: f64,
    /// Sum above the base, °C d.
    pub sum_c_days: f64,
}

/// The heat sum that a straight line through the rates (1 over days) gives: least squares of the
/// rate on the temperature. Points are temperatures in °C with days. None for fewer than two
/// temperatures or where rates do not rise.
#[must_use]
pub fn heat_sum_through(points: &[(f64, f64)]) -> Option<HeatSum> {
    let n = points.len() as f64;
    let mean = |of: &dyn Fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / n;
    let (mean_t, mean_rate) = (mean(&|point| point.0), mean(&|point| 1.0 / point.1));
    let spread = mean(&|point| (point.0 - mean_t).powi(2));
    let slope = mean(&|point| (point.0 - mean_t) * (1.0 / point.1 - mean_rate)) / spread;
    (slope > 0.0 && slope.is_finite()).then(|| HeatSum {
        base_c: mean_t - mean_rate / slope,
        sum_c_days: 1.0 / slope,
    })
}

/// Days read from a table of temperatures (rising, °C) and days, by straight lines between the
/// rates (1 over days): a day runs as fast as its temperature, and it is rates that add. None
/// outside the table.
#[must_use]
pub fn days_from_table(points: &[(f64, f64)], temperature_c: f64) -> Option<f64> {
    points.windows(2).find_map(|pair| {
        let [(cool, slow), (warm, fast)] = *pair else {
            return None;
        };
        if temperature_c < cool || temperature_c > warm {
            return None;
        }
        let part = (temperature_c - cool) / (warm - cool);
        Some(1.0 / ((1.0 - part) / slow + part / fast))
    })
}
