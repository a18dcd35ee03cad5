//! The course of a quantity through the year, from its twelve monthly means.

use std::f64::consts::PI;

/// Days of each month of a year without a leap day.
pub const MONTH_DAYS: [f64; 12] = [
    31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0,
];

/// Days from the new year to the middle of a month (0 is January) of a year without a leap day.
#[must_use]
pub fn middle_of_month(month: usize) -> f64 {
    let before: f64 = MONTH_DAYS.iter().take(month).sum();
    before + MONTH_DAYS.get(month).copied().unwrap_or_default() / 2.0
}

/// Where in the year a moment lies, in months: 0 at the start of January, 12 at the end of December,
/// each month's own days stretched over one. The day counts from 1; its noon is a half on. Days
/// beyond the year are taken round, so that day 366 is the first of January.
#[must_use]
pub fn months_at_noon(day_of_year: f64) -> f64 {
    months_since_new_year(day_of_year - 0.5)
}

fn months_since_new_year(days: f64) -> f64 {
    let mut left = days.rem_euclid(365.0);
    for (month, length) in MONTH_DAYS.into_iter().enumerate() {
        if left < length {
            return month as f64 + left / length;
        }
        left -= length;
    }
    0.0
}

/// The value at a place in the year (in months, 0 to 12) of the harmonic course whose mean over each
/// month is that month's mean.
///
/// Five full harmonics and the cosine of the sixth through the monthly means, the amplitude of the
/// k-th enlarged by (πk/12)/sin(πk/12) for what averaging over a month takes from it.
/// Source: Epstein 1991, On obtaining daily climatological values from monthly means, Journal of
/// Climate 4:365-368. A course may pass a little below the lowest month; a sum such as rain must be
/// kept from falling below nought by whoever asks.
#[must_use]
pub fn course_by_epstein_1991(monthly_means: &[f64; 12], months: f64) -> f64 {
    monthly_means
        .iter()
        .enumerate()
        .map(|(month, mean)| mean * weight(months - (month as f64 + 0.5)))
        .sum()
}

/// How much a month counts that lies so many months before.
fn weight(months_since: f64) -> f64 {
    let harmonics: f64 = (1..=6)
        .map(|k| {
            let half_month = PI * f64::from(k) / 12.0;
            let share = if k == 6 { 1.0 } else { 2.0 };
            share * half_month / half_month.sin() * (2.0 * half_month * months_since).cos()
        })
        .sum();
    (1.0 + harmonics) / 12.0
}

/// The value on a day of the year (at its noon), by [`course_by_epstein_1991`].
#[must_use]
pub fn on_day(monthly_means: &[f64; 12], day_of_year: f64) -> f64 {
    course_by_epstein_1991(monthly_means, months_at_noon(day_of_year))
}
