//! A standing fitted to a few days of one's own readings.
//!
//! What is least certain about a standing (how far air gets between the pots, how well the tray touches the
//! floor, how much colder the air at the floor is, the ground) shows in a root's or the water's temperature.
//! So two or three of these are moved until the column meets the readings, each held back by what is known
//! of it beforehand: least squares with a prior, by Gauss and Newton's method with Levenberg's damping
//! (Levenberg 1944, Quarterly of Applied Mathematics 2:164; priors as in Tarantola 2005, *Inverse Problem
//! Theory*, section 3.2, from memory).
//!
//! **Doubt.** Readings near in time are off together: so many of one place within three hours count as one.
//! Where the column still misses them by more than they are said to be off, the doubt is enlarged alike.
//! A range that comes out as it went in was not told by these readings.

use std::fmt;

use super::column::{Column, Course, Foot, Moment, NoColumn, Place, Standing, Steps};
use crate::measure::{Duration, Range, Temperature, TemperatureDifference};
use crate::science::numerics::draws::standard_normal_quantile;
use crate::science::numerics::linear::{inverse, solved};

/// What may be fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coefficient {
    /// How much of the pots' walls air reaches: a factor.
    PotWalls,
    /// The resistance between tray and floor, or through the bottom of a raised tray: a factor.
    Contact,
    /// The conductivity of the ground: a factor.
    Ground,
    /// The temperature deep in the ground: so much is added, K.
    Deep,
    /// Air at the floor without sun: so much is added, K.
    FloorAirByNight,
    /// The sun that pots, mix and water take up: a factor.
    Sun,
}

impl Coefficient {
    /// Whether it multiplies; otherwise it is added, in kelvins.
    #[must_use]
    pub fn is_factor(self) -> bool {
        !matches!(self, Self::Deep | Self::FloorAirByNight)
    }
}

/// A reading of one's own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Where.
    pub place: Place,
    /// When, from the first midnight of the course.
    pub at: Duration,
    /// What it read.
    pub temperature: Temperature,
}

/// What is known of a coefficient.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// Which.
    pub coefficient: Coefficient,
    /// Its 1-in-10, best and 9-in-10 figures: a factor, or kelvins.
    pub range: Range<f64>,
}

/// A coefficient found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// Which.
    pub coefficient: Coefficient,
    /// Its 1-in-10, best and 9-in-10 figures: a factor, or kelvins.
    pub range: Range<f64>,
    /// Share of the doubt before that is left; near 1 the readings told nothing of it.
    pub doubt_left: f64,
}

/// A standing fitted.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// The coefficients, in the order in which they were given.
    pub estimates: Vec<Estimate>,
    /// How the errors of each two go together, from -1 to 1.
    pub correlations: Vec<Vec<f64>>,
    /// What the column missed the readings by before, root mean square.
    pub missed_before: TemperatureDifference,
    /// What it misses them by now.
    pub missed: TemperatureDifference,
    /// What the column gave at each reading before, °C.
    pub reckoned_before_c: Vec<f64>,
    /// What it gives there now, °C.
    pub reckoned_c: Vec<f64>,
}

/// Why nothing was fitted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoFit {
    /// Too few readings for so many coefficients.
    TooFew {
        /// So many are needed.
        needed: usize,
    },
    /// They span less than a day and a night.
    TooShort,
    /// A reading that is no number, outside the days, or at a place that this standing has not.
    Reading,
    /// The error of a reading is not above nought.
    ReadingError,
    /// No coefficient, more than four, one twice, or one with a range that cannot be.
    Coefficients,
    /// The standing cannot be followed.
    Column(NoColumn),
    /// No standing like this meets the readings.
    DoesNotConverge,
}

impl fmt::Display for NoFit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFew { needed } => write!(
                out,
                "These are too few readings to fit so much: take at least {needed}, some at dawn and some in the afternoon."
            ),
            Self::TooShort => out.write_str(
                "These readings span less than a day and a night. Read on, at dawn and in the afternoon, for two or three days.",
            ),
            Self::Reading => out.write_str(
                "Each reading needs a temperature, a time within the days whose air is known, and a place that is there.",
            ),
            Self::ReadingError => {
                out.write_str("Say how far off a thermometer may be: more than 0, often half a degree.")
            }
            Self::Coefficients => out.write_str(
                "Fit one to four different figures, each with a range that rises (and a factor above 0).",
            ),
            Self::Column(why) => why.fmt(out),
            Self::DoesNotConverge => out.write_str(
                "No standing of this kind meets these readings: check where and when each was taken.",
            ),
        }
    }
}

impl std::error::Error for NoFit {}

impl From<NoColumn> for NoFit {
    fn from(why: NoColumn) -> Self {
        Self::Column(why)
    }
}

/// Coefficients fitted at most.
const MOST: usize = 4;
/// Readings needed beyond as many as there are coefficients.
const BEYOND: usize = 3;
/// Readings of one place within this count as one, h.
const TOGETHER_H: f64 = 3.0;
/// The column is sampled as often as this while it is fitted, min.
const SAMPLED_MIN: f64 = 10.0;
/// No sun, W/m².
const DARK_W_PER_M2: f64 = 1.0;
/// Rounds of Gauss and Newton at most.
const ROUNDS: usize = 30;
/// A change of a coefficient by this share of its prior deviation tells how the column answers.
const NUDGE: f64 = 0.05;
/// Settled when no coefficient moves by more than this share of its prior deviation.
const MOVES: f64 = 2e-3;
/// No coefficient goes further from its prior than so many deviations.
const FARTHEST: f64 = 4.0;
/// Damping is given up beyond this.
const MOST_DAMPED: f64 = 1e8;

/// A coefficient as best + σ u, in logarithms for a factor.
struct Scale {
    coefficient: Coefficient,
    best: f64,
    deviation: f64,
}

impl Scale {
    fn of(known: &Known) -> Result<Self, NoFit> {
        let range = &known.range;
        let (low, best, high) = (range.low(), range.best(), range.high());
        let factor = known.coefficient.is_factor();
        if ![low, best, high].into_iter().all(f64::is_finite)
            || low >= high
            || (factor && low <= 0.0)
        {
            return Err(NoFit::Coefficients);
        }
        let tenths = 2.0 * standard_normal_quantile(0.9);
        let (low, best, high) = if factor {
            (low.ln(), best.ln(), high.ln())
        } else {
            (low, best, high)
        };
        Ok(Self {
            coefficient: known.coefficient,
            best,
            deviation: (high - low) / tenths,
        })
    }

    fn value(&self, u: f64) -> f64 {
        let along = self.best + self.deviation * u;
        if self.coefficient.is_factor() {
            along.exp()
        } else {
            along
        }
    }
}

/// A standing and its course with a coefficient put in.
///
/// # Errors
/// [`NoColumn`] where what comes of it cannot be.
pub fn with_coefficient(
    standing: &mut Standing,
    course: &mut Course,
    coefficient: Coefficient,
    value: f64,
) -> Result<(), NoColumn> {
    match coefficient {
        Coefficient::PotWalls => {
            let acting = &mut standing.pots.side.acting;
            *acting = (*acting * value).clamp(0.0, 1.0);
        }
        Coefficient::Contact => match &mut standing.foot {
            Foot::OnFloor { contact_m2_k_per_w } => *contact_m2_k_per_w *= value,
            Foot::Raised(gap) => gap.through_m2_k_per_w *= value,
        },
        Coefficient::Ground => {
            for layer in &mut standing.floor.layers {
                layer.solid = layer.solid.conducting(value).map_err(|_| NoColumn::Floor)?;
            }
        }
        Coefficient::Deep => {
            standing.floor.deep = standing.floor.deep + TemperatureDifference::from_kelvins(value);
        }
        Coefficient::FloorAirByNight => {
            *course = course.changed(|moment| Moment {
                floor_air_c: if moment.sun_w_per_m2 < DARK_W_PER_M2 {
                    moment.floor_air_c + value
                } else {
                    moment.floor_air_c
                },
                ..*moment
            })?;
        }
        Coefficient::Sun => {
            for sun in [
                &mut standing.pots.side.surface.sun,
                &mut standing.pots.surface.sun,
                &mut standing.tray.open.sun,
            ] {
                *sun = (*sun * value).clamp(0.0, 1.0);
            }
        }
    }
    Ok(())
}

/// What is asked, checked.
struct Asked<'a> {
    standing: &'a Standing,
    course: &'a Course,
    scales: Vec<Scale>,
    readings: &'a [Reading],
    /// Share of a whole reading that each counts.
    weights: Vec<f64>,
    until: Duration,
    error_k: f64,
}

impl Asked<'_> {
    /// What the column gives at the readings, °C.
    fn modelled(&self, u: &[f64]) -> Result<Vec<f64>, NoFit> {
        let (mut standing, mut course) = (self.standing.clone(), self.course.clone());
        for (scale, &u) in self.scales.iter().zip(u) {
            with_coefficient(
                &mut standing,
                &mut course,
                scale.coefficient,
                scale.value(u),
            )?;
        }
        let mut column = Column::begun(&standing, &course, Steps::default())?;
        let spacing = Duration::from_minutes(SAMPLED_MIN);
        let record = column.through(&course, self.until, spacing)?;
        self.readings
            .iter()
            .map(|reading| {
                let trace = record.trace(reading.place).ok_or(NoFit::Reading)?;
                let place = reading.at / spacing;
                let last = trace.samples_c.len().saturating_sub(1);
                let before = (place as usize).min(last);
                let (a, b) = match (
                    trace.samples_c.get(before),
                    trace.samples_c.get((before + 1).min(last)),
                ) {
                    (Some(a), Some(b)) => (a, b),
                    _ => return Err(NoFit::Reading),
                };
                Ok(a + (b - a) * (place - before as f64).clamp(0.0, 1.0))
            })
            .collect()
    }

    /// Misses of the readings in their errors, and the sum of squares with that of the prior.
    fn judged(&self, modelled: &[f64], u: &[f64]) -> (Vec<f64>, f64) {
        let misses: Vec<f64> = self
            .readings
            .iter()
            .zip(modelled)
            .zip(&self.weights)
            .map(|((reading, modelled), weight)| {
                weight.sqrt() * (modelled - reading.temperature.in_celsius()) / self.error_k
            })
            .collect();
        let sum = misses.iter().chain(u).map(|x| x * x).sum();
        (misses, sum)
    }

    fn root_mean_square(&self, modelled: &[f64]) -> TemperatureDifference {
        let squares: f64 = self
            .readings
            .iter()
            .zip(modelled)
            .map(|(reading, modelled)| (modelled - reading.temperature.in_celsius()).powi(2))
            .sum();
        TemperatureDifference::from_kelvins((squares / self.readings.len() as f64).sqrt())
    }
}

fn asked<'a>(
    standing: &'a Standing,
    course: &'a Course,
    known: &[Known],
    readings: &'a [Reading],
    error: TemperatureDifference,
) -> Result<Asked<'a>, NoFit> {
    let twice = |place: usize| {
        known[..place]
            .iter()
            .any(|other| other.coefficient == known[place].coefficient)
    };
    if known.is_empty() || known.len() > MOST || (0..known.len()).any(twice) {
        return Err(NoFit::Coefficients);
    }
    let scales: Vec<Scale> = known.iter().map(Scale::of).collect::<Result<_, _>>()?;
    let error_k = error.in_kelvins();
    if !(error_k > 0.0 && error_k.is_finite()) {
        return Err(NoFit::ReadingError);
    }
    let needed = known.len() + BEYOND;
    if readings.len() < needed {
        return Err(NoFit::TooFew { needed });
    }
    let sound = |reading: &Reading| {
        let at_s = reading.at.in_seconds();
        reading.temperature.in_celsius().is_finite() && at_s >= 0.0 && at_s <= course.end_s()
    };
    if !readings.iter().all(sound) {
        return Err(NoFit::Reading);
    }
    let hours = readings.iter().map(|reading| reading.at.in_hours());
    let (first, last) = (
        hours.clone().fold(f64::INFINITY, f64::min),
        hours.fold(f64::NEG_INFINITY, f64::max),
    );
    /// A day and a night, less what makes two dawns a little under a day apart, h.
    const SPAN_H: f64 = 22.0;
    if last - first < SPAN_H {
        return Err(NoFit::TooShort);
    }
    let weights: Vec<f64> = readings
        .iter()
        .map(|reading| {
            let near = readings.iter().filter(|other| {
                other.place == reading.place
                    && (other.at - reading.at).in_hours().abs() < TOGETHER_H / 2.0
            });
            1.0 / near.count() as f64
        })
        .collect();
    // The count that matters is of those that are apart.
    if weights.iter().sum::<f64>() < needed as f64 - 1e-9 {
        return Err(NoFit::TooFew { needed });
    }
    Ok(Asked {
        standing,
        course,
        scales,
        readings,
        weights,
        // A whole step beyond, so that the last reading lies between two samples.
        until: Duration::from_hours((last + SAMPLED_MIN / 60.0).min(course.end_s() / 3600.0)),
        error_k,
    })
}

/// Fits coefficients to readings of a course of days.
///
/// # Errors
/// [`NoFit`] where the readings are too few or make no sense, or nothing meets them.
pub fn fit(
    standing: &Standing,
    course: &Course,
    known: &[Known],
    readings: &[Reading],
    error: TemperatureDifference,
) -> Result<Fitted, NoFit> {
    let asked = asked(standing, course, known, readings, error)?;
    let count = known.len();
    let mut u = vec![0.0; count];
    let mut modelled = asked.modelled(&u)?;
    let reckoned_before_c = modelled.clone();
    let (mut misses, mut sum) = asked.judged(&modelled, &u);
    let mut damping = 1e-3;
    let mut converged = false;
    let mut normal = Vec::new();
    for _ in 0..ROUNDS {
        // How the misses answer to each coefficient.
        let mut answers = Vec::with_capacity(count);
        for which in 0..count {
            let mut nudged = u.clone();
            let way = if u[which] > 0.0 { -NUDGE } else { NUDGE };
            nudged[which] += way;
            let (other, _) = asked.judged(&asked.modelled(&nudged)?, &nudged);
            let answer: Vec<f64> = other
                .iter()
                .zip(&misses)
                .map(|(other, miss)| (other - miss) / way)
                .collect();
            answers.push(answer);
        }
        let product = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        normal = (0..count)
            .map(|i| {
                (0..count)
                    .map(|j| product(&answers[i], &answers[j]) + f64::from(u8::from(i == j)))
                    .collect::<Vec<f64>>()
            })
            .collect();
        let downhill: Vec<f64> = (0..count)
            .map(|i| -product(&answers[i], &misses) - u[i])
            .collect();
        let moved = loop {
            let mut damped = normal.clone();
            for (i, row) in damped.iter_mut().enumerate() {
                row[i] *= 1.0 + damping;
            }
            let step = solved(&damped, &downhill).ok_or(NoFit::DoesNotConverge)?;
            let tried: Vec<f64> = u
                .iter()
                .zip(&step)
                .map(|(u, step)| (u + step).clamp(-FARTHEST, FARTHEST))
                .collect();
            let moved = largest(&tried, &u);
            let there = asked.modelled(&tried)?;
            let (new_misses, new_sum) = asked.judged(&there, &tried);
            if new_sum <= sum {
                (u, modelled, misses, sum) = (tried, there, new_misses, new_sum);
                damping /= 10.0;
                break moved;
            }
            if moved < MOVES {
                break moved;
            }
            damping *= 10.0;
            if damping > MOST_DAMPED {
                return Err(NoFit::DoesNotConverge);
            }
        };
        if moved < MOVES {
            converged = true;
            break;
        }
    }
    if !converged {
        return Err(NoFit::DoesNotConverge);
    }
    let covariance = inverse(&normal).ok_or(NoFit::DoesNotConverge)?;
    let whole: f64 = asked.weights.iter().sum();
    // Off by more than was said: what the prior does not hold is enlarged alike.
    let enlarged = (product_with_self(&misses) / (whole - count as f64)).max(1.0);
    let deviation = |i: usize| (covariance[i][i] * enlarged).sqrt().min(1.0);
    let tenth = standard_normal_quantile(0.9);
    let estimates = asked
        .scales
        .iter()
        .enumerate()
        .map(|(i, scale)| {
            let reach = tenth * deviation(i);
            let range = Range::new(
                scale.value(u[i] - reach),
                scale.value(u[i]),
                scale.value(u[i] + reach),
            )
            .map_err(|_| NoFit::DoesNotConverge)?;
            Ok(Estimate {
                coefficient: scale.coefficient,
                range,
                doubt_left: deviation(i),
            })
        })
        .collect::<Result<_, NoFit>>()?;
    let correlations = (0..count)
        .map(|i| {
            (0..count)
                .map(|j| covariance[i][j] / (covariance[i][i] * covariance[j][j]).sqrt())
                .collect()
        })
        .collect();
    Ok(Fitted {
        estimates,
        correlations,
        missed_before: asked.root_mean_square(&reckoned_before_c),
        missed: asked.root_mean_square(&modelled),
        reckoned_before_c,
        reckoned_c: modelled,
    })
}

fn largest(one: &[f64], other: &[f64]) -> f64 {
    one.iter()
        .zip(other)
        .map(|(one, other)| (one - other).abs())
        .fold(0.0, f64::max)
}

fn product_with_self(x: &[f64]) -> f64 {
    x.iter().map(|x| x * x).sum()
}
