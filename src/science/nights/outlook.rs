//! The coming nights, one by one and together, and the offset of the place.

use std::fmt;

use super::memory::Habit;
use super::paths::{Paths, Roots};
use crate::science::counting::standard_normal_share_quickly;
use crate::science::numerics::linear::Triangle;

/// More coming nights than this are not reckoned.
pub const MOST_NIGHTS: usize = 60;

/// The season: for each day from the first that is spoken of to the last, both by the same count of
/// days.
#[derive(Clone, Copy, Debug)]
pub struct Season<'a> {
    /// Mean minimum of that day over many years, °C.
    pub mean_c: &'a [f64],
    /// Standard deviation of a single night about it, K, above 0.
    pub spread_k: &'a [f64],
}

/// What is believed of the place's lasting difference from the season's place, before its log is
/// looked at: normal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offset {
    /// Warmer by, K: 0 out of doors, more under glass.
    pub expected_k: f64,
    /// Standard deviation, K, 0 or more; 0 where the season is the place's own.
    pub spread_k: f64,
}

/// A minimum that was read in the place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Day of the season, from 0.
    pub day: usize,
    /// °C.
    pub minimum_c: f64,
}

/// A minimum that was forecast for the place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Forecast {
    /// Day of the season, from 0.
    pub day: usize,
    /// °C, for the place itself: a forecast for the open needs the lift of the glass added.
    pub minimum_c: f64,
    /// Standard deviation of its error, K, above 0.
    pub error_k: f64,
}

/// Why there is no outlook.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoOutlook {
    /// Correlations or a share outside their range.
    Memory,
    /// No habit, or one whose spread or weight is not above 0.
    Habits,
    /// The season is too short for the days asked for, or a spread is not above 0.
    Season,
    /// The offset or its spread is no number, or the spread below 0.
    Offset,
    /// No night is asked for, or more than [`MOST_NIGHTS`].
    Nights,
    /// A reading on or after the first coming night, twice on a day, or no number.
    Log,
    /// A forecast outside the coming nights, twice for a night, or with no error.
    Forecast,
    /// The numbers are such that nothing can be worked out from them.
    Numbers,
}

impl fmt::Display for NoOutlook {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Memory => "Nights must resemble each other by 0 to less than 1.",
            Self::Habits => "The spread of nights must be above 0.",
            Self::Season => "The season must be known for every day asked for.",
            Self::Offset => "The offset of the place must be a number, and its doubt 0 or more.",
            Self::Nights => "Between 1 and 60 coming nights can be reckoned.",
            Self::Log => "Logged nights must lie before the coming ones, each once.",
            Self::Forecast => "Forecasts must be for the coming nights, each once, with an error.",
            Self::Numbers => "These numbers are too far apart to be reckoned with.",
        })
    }
}

impl std::error::Error for NoOutlook {}

/// Everything an outlook is worked out from.
#[derive(Clone, Copy, Debug)]
pub struct Coming<'a> {
    /// The season.
    pub season: Season<'a>,
    /// The place against it.
    pub offset: Offset,
    /// How nights may behave.
    pub habits: &'a [Habit],
    /// What was read; days may be missing.
    pub log: &'a [Reading],
    /// What is forecast.
    pub forecasts: &'a [Forecast],
    /// Day of the season of the first coming night.
    pub first: usize,
    /// How many coming nights.
    pub nights: usize,
}

/// The coming nights under one habit: jointly normal.
#[derive(Clone, Debug)]
pub(super) struct Bundle {
    /// How likely the habit is, in light of the log.
    pub(super) weight: f64,
    /// Means of the nights and, last, of the offset.
    pub(super) mean: Vec<f64>,
    /// Their covariance.
    pub(super) covariance: Vec<Vec<f64>>,
}

/// The coming nights: a mixture of normal distributions, one for each habit.
#[derive(Clone, Debug)]
pub struct Outlook {
    nights: usize,
    bundles: Vec<Bundle>,
}

impl Coming<'_> {
    fn check(&self) -> Result<(), NoOutlook> {
        let above_nought = |value: f64| value > 0.0 && value.is_finite();
        if !(1..=MOST_NIGHTS).contains(&self.nights) {
            return Err(NoOutlook::Nights);
        }
        let days = self.first.saturating_add(self.nights);
        let Season { mean_c, spread_k } = self.season;
        if mean_c.len() < days
            || spread_k.len() < days
            || !mean_c.iter().all(|mean| mean.is_finite())
            || !spread_k.iter().all(|spread| above_nought(*spread))
        {
            return Err(NoOutlook::Season);
        }
        let Offset {
            expected_k,
            spread_k,
        } = self.offset;
        if !(expected_k.is_finite() && spread_k >= 0.0 && spread_k.is_finite()) {
            return Err(NoOutlook::Offset);
        }
        let sound = |habit: &Habit| above_nought(habit.spread_times) && above_nought(habit.weight);
        if self.habits.is_empty() || !self.habits.iter().all(sound) {
            return Err(NoOutlook::Habits);
        }
        let once = |days: &mut Vec<usize>| {
            days.sort_unstable();
            days.windows(2).all(|pair| pair[0] != pair[1])
        };
        let read = |reading: &Reading| reading.day < self.first && reading.minimum_c.is_finite();
        let mut logged = self.log.iter().map(|reading| reading.day).collect();
        if !(self.log.iter().all(read) && once(&mut logged)) {
            return Err(NoOutlook::Log);
        }
        let told = |forecast: &Forecast| {
            (self.first..days).contains(&forecast.day)
                && forecast.minimum_c.is_finite()
                && above_nought(forecast.error_k)
        };
        let mut foretold = self.forecasts.iter().map(|forecast| forecast.day).collect();
        if !(self.forecasts.iter().all(told) && once(&mut foretold)) {
            return Err(NoOutlook::Forecast);
        }
        Ok(())
    }

    /// The outlook.
    ///
    /// Under each habit the season, the offset and the deviations are jointly normal, and the log
    /// conditions them (any text on the multivariate normal; Rasmussen & Williams 2006, *Gaussian
    /// Processes for Machine Learning*, equations 2.23 to 2.25 and algorithm 2.1). Each habit's
    /// weight becomes its weight times the density of the log under it.
    ///
    /// A forecast says of its nights what its maker means it to say: such a night is as likely
    /// above the figure as below it, with that error, whatever the season. The other nights follow
    /// it as far as they hang together with it (Jeffrey 1965, *The Logic of Decision*, chapter 11:
    /// new odds for some nights, the odds of the rest given those unchanged). Taken instead as a
    /// reading with an error it would be pulled to the season, though its maker knew the season.
    /// Errors of several nights are taken as independent; in truth they go together somewhat, which
    /// makes the chance that all stay above a limit rather higher than is said here. A forecast does
    /// not tell one habit from another, so that a colder one never makes for a milder outlook.
    ///
    /// # Errors
    /// [`NoOutlook`] with the reason.
    pub fn outlook(&self) -> Result<Outlook, NoOutlook> {
        self.check()?;
        let found: Option<Vec<(f64, Bundle)>> = self
            .habits
            .iter()
            .map(|habit| {
                let (ln_density, mut bundle) = self.given_log(habit)?;
                self.follow_forecasts(&mut bundle)?;
                Some((habit.weight.ln() + ln_density, bundle))
            })
            .collect();
        let found = found.ok_or(NoOutlook::Numbers)?;
        let most = found
            .iter()
            .fold(f64::NEG_INFINITY, |most, (ln, _)| most.max(*ln));
        let all: f64 = found.iter().map(|(ln, _)| (ln - most).exp()).sum();
        if !(most.is_finite() && all.is_finite()) {
            return Err(NoOutlook::Numbers);
        }
        let bundles = found
            .into_iter()
            .map(|(ln, bundle)| Bundle {
                weight: (ln - most).exp() / all,
                ..bundle
            })
            .collect();
        Ok(Outlook {
            nights: self.nights,
            bundles,
        })
    }

    /// The logarithm of the density of the log under a habit (without the factor that all habits
    /// share), and what is then to be expected.
    fn given_log(&self, habit: &Habit) -> Option<(f64, Bundle)> {
        let offset_variance = self.offset.spread_k.powi(2);
        let spread = |day: usize| self.season.spread_k[day] * habit.spread_times;
        let all_days = self.first + self.nights;
        let correlations: Vec<f64> = (0..all_days)
            .map(|apart| habit.memory.correlation(apart))
            .collect();
        let between = |one: usize, other: usize| {
            offset_variance + spread(one) * spread(other) * correlations[one.abs_diff(other)]
        };
        let days: Vec<usize> = (self.first..all_days).collect();
        let expected = |day: usize| self.season.mean_c[day] + self.offset.expected_k;
        let logged: Vec<Vec<f64>> = self
            .log
            .iter()
            .map(|one| {
                self.log
                    .iter()
                    .map(|other| between(one.day, other.day))
                    .collect()
            })
            .collect();
        let log = Triangle::of(&logged)?;
        let strayed: Vec<f64> = self
            .log
            .iter()
            .map(|reading| reading.minimum_c - expected(reading.day))
            .collect();
        let strayed = log.forward(&strayed);
        let ln_density =
            -0.5 * strayed.iter().map(|z| z * z).sum::<f64>() - log.ln_product_of_diagonal();
        // Each coming night, and last the offset, against the log.
        let towards_log: Vec<Vec<f64>> = days
            .iter()
            .map(|day| {
                let row: Vec<f64> = self.log.iter().map(|one| between(*day, one.day)).collect();
                log.forward(&row)
            })
            .chain([log.forward(&vec![offset_variance; self.log.len()])])
            .collect();
        let times = |one: &[f64], other: &[f64]| -> f64 {
            one.iter().zip(other).map(|(one, other)| one * other).sum()
        };
        let before = |one: usize, other: usize| match (days.get(one), days.get(other)) {
            (Some(one), Some(other)) => between(*one, *other),
            _ => offset_variance,
        };
        let mean = towards_log
            .iter()
            .enumerate()
            .map(|(place, row)| {
                let season = days
                    .get(place)
                    .map_or(self.offset.expected_k, |day| expected(*day));
                season + times(row, &strayed)
            })
            .collect();
        let mut covariance = vec![vec![0.0; self.nights + 1]; self.nights + 1];
        for one in 0..=self.nights {
            for other in 0..=one {
                let both = before(one, other) - times(&towards_log[one], &towards_log[other]);
                covariance[one][other] = both;
                covariance[other][one] = both;
            }
        }
        let bundle = Bundle {
            weight: habit.weight,
            mean,
            covariance,
        };
        Some((ln_density, bundle))
    }

    /// The forecast nights take the forecast's odds, and the rest follow: with B = C_of C_ff⁻¹,
    /// m_o + B (f - m_f) and C - B (C_ff - D) Bᵀ, D the squares of the errors.
    fn follow_forecasts(&self, bundle: &mut Bundle) -> Option<()> {
        if self.forecasts.is_empty() {
            return Some(());
        }
        let places: Vec<usize> = self
            .forecasts
            .iter()
            .map(|forecast| forecast.day - self.first)
            .collect();
        let pick = |row: &[f64]| -> Vec<f64> { places.iter().map(|place| row[*place]).collect() };
        let own: Vec<Vec<f64>> = places
            .iter()
            .map(|place| pick(&bundle.covariance[*place]))
            .collect();
        let triangle = Triangle::of(&own)?;
        // A forecast night follows itself alone: solving for it would only add rounding.
        let follows: Vec<Vec<f64>> = bundle
            .covariance
            .iter()
            .enumerate()
            .map(
                |(place, row)| match places.iter().position(|told| *told == place) {
                    Some(told) => (0..places.len())
                        .map(|other| f64::from(u8::from(told == other)))
                        .collect(),
                    None => triangle.solved(&pick(row)),
                },
            )
            .collect();
        let change: Vec<f64> = self
            .forecasts
            .iter()
            .zip(&places)
            .map(|(forecast, place)| forecast.minimum_c - bundle.mean[*place])
            .collect();
        for (mean, row) in bundle.mean.iter_mut().zip(&follows) {
            *mean += row.iter().zip(&change).map(|(b, f)| b * f).sum::<f64>();
        }
        let narrowed: Vec<Vec<f64>> = own
            .iter()
            .zip(self.forecasts)
            .enumerate()
            .map(|(place, (row, forecast))| {
                let mut row = row.clone();
                row[place] -= forecast.error_k.powi(2);
                row
            })
            .collect();
        let through: Vec<Vec<f64>> = follows
            .iter()
            .map(|row| {
                narrowed
                    .iter()
                    .map(|other| row.iter().zip(other).map(|(b, n)| b * n).sum())
                    .collect()
            })
            .collect();
        for (one, row) in bundle.covariance.iter_mut().enumerate() {
            for (other, entry) in row.iter_mut().enumerate() {
                *entry -= through[one]
                    .iter()
                    .zip(&follows[other])
                    .map(|(t, b)| t * b)
                    .sum::<f64>();
            }
        }
        Some(())
    }
}

impl Outlook {
    /// How many nights.
    #[must_use]
    pub fn nights(&self) -> usize {
        self.nights
    }

    pub(super) fn bundles(&self) -> &[Bundle] {
        &self.bundles
    }

    /// How likely each habit is in light of the log, in the order given; they add to 1.
    #[must_use]
    pub fn weights(&self) -> Vec<f64> {
        self.bundles.iter().map(|bundle| bundle.weight).collect()
    }

    fn mean_of(&self, place: usize) -> f64 {
        self.bundles
            .iter()
            .map(|bundle| bundle.weight * bundle.mean[place])
            .sum()
    }

    fn covariance_of(&self, one: usize, other: usize) -> f64 {
        let (mean, other_mean) = (self.mean_of(one), self.mean_of(other));
        self.bundles
            .iter()
            .map(|bundle| {
                let apart = (bundle.mean[one] - mean) * (bundle.mean[other] - other_mean);
                bundle.weight * (bundle.covariance[one][other] + apart)
            })
            .sum()
    }

    /// The mean minimum of each coming night, °C.
    #[must_use]
    pub fn mean_c(&self) -> Vec<f64> {
        (0..self.nights).map(|night| self.mean_of(night)).collect()
    }

    /// The standard deviation of each coming night's minimum, K.
    #[must_use]
    pub fn spread_k(&self) -> Vec<f64> {
        (0..self.nights)
            .map(|night| self.covariance_of(night, night).max(0.0).sqrt())
            .collect()
    }

    /// The covariance of the coming nights, K².
    #[must_use]
    pub fn covariance_k2(&self) -> Vec<Vec<f64>> {
        let nights = 0..self.nights;
        nights
            .clone()
            .map(|one| {
                nights
                    .clone()
                    .map(|other| self.covariance_of(one, other))
                    .collect()
            })
            .collect()
    }

    /// The place's offset from the season, K: its mean and standard deviation in light of the log
    /// (and of the forecast, as far as that tells of it).
    #[must_use]
    pub fn offset_k(&self) -> (f64, f64) {
        let variance = self.covariance_of(self.nights, self.nights);
        (self.mean_of(self.nights), variance.max(0.0).sqrt())
    }

    /// The chance that one night, from 0, stays above a limit. None for a night that is not asked
    /// for.
    #[must_use]
    pub fn chance_above(&self, night: usize, limit_c: f64) -> Option<f64> {
        (night < self.nights).then(|| {
            let chance: f64 = self
                .bundles
                .iter()
                .map(|bundle| {
                    let spread = bundle.covariance[night][night].max(0.0).sqrt();
                    bundle.weight
                        * standard_normal_share_quickly((bundle.mean[night] - limit_c) / spread)
                })
                .sum();
            // Weights add to one but for their last digits.
            chance.clamp(0.0, 1.0)
        })
    }

    /// The roots from which paths through the coming nights are followed: without them there are none.
    ///
    /// # Errors
    /// [`NoOutlook::Numbers`] where the nights hang together too closely for the digits there are.
    pub fn roots(&self) -> Result<Roots, NoOutlook> {
        Roots::of(self).ok_or(NoOutlook::Numbers)
    }

    /// Paths through the coming nights, so many over all habits, by which chances of several nights
    /// are reckoned: the same each time. [`Paths::MANY`] or [`Paths::QUICK`].
    ///
    /// # Errors
    /// As [`roots`](Self::roots).
    pub fn paths(&self, count: usize) -> Result<Paths, NoOutlook> {
        Ok(self.roots()?.paths(self.nights, count))
    }
}
