//! Days and times of day.
//!
//! A day is a civil date of the Gregorian calendar. It is read as `2026-05-03`, `3.5.2026`,
//! `3/5/2026` or `3 May 2026`, the day before the month; a date that can only be meant the other
//! way round is refused with the one that would be right.

use std::fmt;

use super::words;
use crate::measure::letters::in_small;

/// A civil date, as days since 1 January 1970.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(i32);

/// Why a text is not a day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DayProblem {
    /// Nothing but spaces.
    Empty,
    /// Not a date at all.
    NotADay {
        /// What was typed.
        text: String,
    },
    /// The year is given with two digits, which leaves open what is what.
    ShortYear {
        /// What was typed.
        text: String,
    },
    /// The month comes before the day.
    MonthFirst {
        /// What was typed.
        text: String,
        /// The date with the day first.
        meant: Day,
    },
    /// There is no such month.
    NoSuchMonth {
        /// The month typed.
        month: u32,
    },
    /// The month has fewer days.
    NoSuchDay {
        /// The day typed.
        day: u32,
        /// The month, 1 to 12.
        month: u32,
        /// The year.
        year: i32,
    },
    /// The year is too far away to be meant.
    FarYear {
        /// The year typed.
        year: i32,
    },
}

impl fmt::Display for DayProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&words::day_problem(self))
    }
}

impl std::error::Error for DayProblem {}

/// The first year that is read.
pub const FIRST_YEAR: i32 = 1900;
/// The last year that is read.
pub const LAST_YEAR: i32 = 2199;

/// Names of the months.
pub const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// Days from 1 March of the year 0 to 1 January 1970.
const DAYS_BEFORE_1970: i32 = 719_468;
/// Days in 400 years, after which the calendar repeats itself.
const DAYS_OF_400_YEARS: i32 = 146_097;

impl Day {
    /// No day is before it.
    pub const FIRST_OF_ALL: Self = Self(i32::MIN);
    /// No day is after it.
    pub const LAST_OF_ALL: Self = Self(i32::MAX);

    /// The day so many days after 1 January 1970.
    #[must_use]
    pub const fn from_number(days: i32) -> Self {
        Self(days)
    }

    /// Days since 1 January 1970.
    #[must_use]
    pub const fn number(self) -> i32 {
        self.0
    }

    /// The date of a year, a month from 1 and a day from 1, if there is one.
    ///
    /// Years begin in March here, so that the day that comes and goes is the last of its year.
    /// Source: Fliegel & Van Flandern 1968, Communications of the ACM 11:657, in this form.
    #[must_use]
    pub fn from_civil(year: i32, month: u32, day: u32) -> Option<Self> {
        if !(FIRST_YEAR..=LAST_YEAR).contains(&year) || day < 1 || day > days_of_month(year, month)
        {
            return None;
        }
        let (month, day) = (month as i32, day as i32);
        let year = if month <= 2 { year - 1 } else { year };
        let of_400 = year.rem_euclid(400);
        let month_from_march = (month + 9) % 12;
        let of_year = (153 * month_from_march + 2) / 5 + day - 1;
        let days = of_400 * 365 + of_400 / 4 - of_400 / 100 + of_year;
        Some(Self(
            year.div_euclid(400) * DAYS_OF_400_YEARS + days - DAYS_BEFORE_1970,
        ))
    }

    /// Year, month from 1 and day from 1.
    #[must_use]
    pub fn civil(self) -> (i32, u32, u32) {
        let days = i64::from(self.0) + i64::from(DAYS_BEFORE_1970);
        let period = i64::from(DAYS_OF_400_YEARS);
        let of_400 = days.rem_euclid(period);
        let year = (of_400 - of_400 / 1460 + of_400 / 36_524 - of_400 / 146_096) / 365;
        let of_year = of_400 - (365 * year + year / 4 - year / 100);
        let month_from_march = (5 * of_year + 2) / 153;
        let day = of_year - (153 * month_from_march + 2) / 5 + 1;
        let month = (month_from_march + 2) % 12 + 1;
        let year = year + days.div_euclid(period) * 400 + i64::from(month <= 2);
        (year as i32, month as u32, day as u32)
    }

    /// 1 for Monday to 7 for Sunday (ISO 8601).
    #[must_use]
    pub fn weekday(self) -> u32 {
        // 1 January 1970 was a Thursday.
        (i64::from(self.0) + 3).rem_euclid(7) as u32 + 1
    }

    /// The year and the number of the week by ISO 8601: the week belongs to the year in which its
    /// Thursday lies.
    #[must_use]
    pub fn week(self) -> (i32, u32) {
        let thursday = self.plus(4 - self.weekday() as i32);
        let (year, ..) = thursday.civil();
        let before = Self::from_civil(year, 1, 1).map_or(0, |first| thursday.0 - first.0);
        (year, before as u32 / 7 + 1)
    }

    /// So many days later, or earlier.
    #[must_use]
    pub const fn plus(self, days: i32) -> Self {
        Self(self.0.saturating_add(days))
    }

    /// `2026-05-03`, as it is stored.
    #[must_use]
    pub fn iso(self) -> String {
        let (_, _, day) = self.civil();
        [&self.month(), "-", &two_digits(day)].concat()
    }

    /// `2026-05`.
    #[must_use]
    pub fn month(self) -> String {
        let (year, month, _) = self.civil();
        [&year.to_string(), "-", &two_digits(month)].concat()
    }

    /// `3 May`, the month by its first three letters, held together.
    #[must_use]
    pub fn in_short(self) -> String {
        let (_, month, day) = self.civil();
        [&day.to_string(), "\u{a0}", &month_in_short(month)].concat()
    }

    /// `3 May`, held together.
    #[must_use]
    pub fn in_words(self) -> String {
        let (_, month, day) = self.civil();
        [&day.to_string(), "\u{a0}", month_name(month)].concat()
    }

    /// `3 May 2026`.
    #[must_use]
    pub fn told(self) -> String {
        let (year, month, day) = self.civil();
        let name = month_name(month);
        [&day.to_string(), " ", name, " ", &year.to_string()].concat()
    }

    /// Reads a date as it is stored: `2026-05-03` and nothing else.
    #[must_use]
    pub fn from_iso(text: &str) -> Option<Self> {
        let (year, rest) = text.split_once('-')?;
        let (month, day) = rest.split_once('-')?;
        if year.len() != 4 || month.len() != 2 || day.len() != 2 {
            return None;
        }
        Self::from_civil(digits(year)? as i32, digits(month)?, digits(day)?)
    }

    /// Reads a date as a person types it.
    ///
    /// # Errors
    /// Why it is none, or why it is not clear which.
    pub fn read(text: &str) -> Result<Self, DayProblem> {
        let typed = text.trim();
        if typed.is_empty() {
            return Err(DayProblem::Empty);
        }
        let not_a_day = || DayProblem::NotADay {
            text: shortened(typed),
        };
        let parts: Vec<&str> = typed
            .split(['.', '/', '-', ' ', '\u{a0}'])
            .filter(|part| !part.is_empty())
            .collect();
        let [first, middle, last] = parts.as_slice() else {
            return Err(not_a_day());
        };
        let month = digits(middle)
            .or_else(|| month_named(middle))
            .ok_or_else(not_a_day)?;
        let (first_number, last_number) = match (digits(first), digits(last)) {
            (Some(first), Some(last)) => (first, last),
            _ => return Err(not_a_day()),
        };
        match (first.len(), last.len()) {
            (4, 1 | 2) => exact(first_number as i32, month, last_number),
            (1 | 2, 4) => {
                let year = last_number as i32;
                match Self::from_civil(year, first_number, month) {
                    Some(meant) if month > 12 => Err(DayProblem::MonthFirst {
                        text: shortened(typed),
                        meant,
                    }),
                    _ => exact(year, month, first_number),
                }
            }
            (1 | 2, 1 | 2) => Err(DayProblem::ShortYear {
                text: shortened(typed),
            }),
            _ => Err(not_a_day()),
        }
    }
}

fn exact(year: i32, month: u32, day: u32) -> Result<Day, DayProblem> {
    if !(FIRST_YEAR..=LAST_YEAR).contains(&year) {
        Err(DayProblem::FarYear { year })
    } else if !(1..=12).contains(&month) {
        Err(DayProblem::NoSuchMonth { month })
    } else {
        Day::from_civil(year, month, day).ok_or(DayProblem::NoSuchDay { day, month, year })
    }
}

/// A month by its first three letters.
#[must_use]
pub fn month_in_short(month: u32) -> String {
    month_name(month).chars().take(3).collect()
}

/// The days of a month; none where there is no such month.
#[must_use]
pub fn days_of_month(year: i32, month: u32) -> u32 {
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    match month {
        2 => 28 + u32::from(leap),
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    }
}

/// The name of a month from 1.
#[must_use]
pub fn month_name(month: u32) -> &'static str {
    let place = (month as usize).saturating_sub(1);
    MONTHS.get(place).copied().unwrap_or_default()
}

/// `May`, `may` or `sept`: at least three letters of a name.
fn month_named(text: &str) -> Option<u32> {
    let text = in_small(text);
    let place = MONTHS
        .iter()
        .position(|name| text.len() >= 3 && in_small(name).starts_with(&text))?;
    Some(place as u32 + 1)
}

/// A whole number of at most four digits.
fn digits(text: &str) -> Option<u32> {
    let plain = !text.is_empty() && text.len() <= 4 && text.bytes().all(|b| b.is_ascii_digit());
    plain.then(|| text.parse().ok()).flatten()
}

/// With a nought in front of a single digit.
fn two_digits(number: u32) -> String {
    let text = number.to_string();
    if text.len() < 2 {
        ["0", &text].concat()
    } else {
        text
    }
}

/// What was typed, cut where a sentence would become too long.
fn shortened(text: &str) -> String {
    const MOST: usize = 30;
    text.chars().take(MOST).collect()
}

/// Minutes in a day.
pub const DAY_MINUTES: u32 = 24 * 60;

/// Minutes since midnight of a time such as `7:40`, `07:40` or `19.05`.
#[must_use]
pub fn read_time(text: &str) -> Option<u32> {
    let (hours, minutes) = text.trim().split_once([':', '.'])?;
    if hours.len() > 2 || minutes.len() != 2 {
        return None;
    }
    let (hours, minutes) = (digits(hours)?, digits(minutes)?);
    (hours < 24 && minutes < 60).then_some(hours * 60 + minutes)
}

/// `07:40`, as it is stored and printed.
#[must_use]
pub fn time_text(minutes: u32) -> String {
    let minutes = minutes % DAY_MINUTES;
    [&two_digits(minutes / 60), ":", &two_digits(minutes % 60)].concat()
}
