//! The air, the sun and the cover of the house through a day of a month.

use super::case::{Air, Case};
use super::inputs::Inputs;
use super::words;
use crate::handbook::climates::MJ_PER_DAY_IN_WATT;
use crate::measure::{Area, Duration, Temperature, Volume};
use crate::reckon::Problem;
use crate::science::heat::air::day_shape::{
    DayShape, LowestHighest, Neighbours, bench_warmer_k, sun_share,
};
use crate::science::heat::air::house::{House, Outside, equivalent_outside_c, inner_face_c};
use crate::science::heat::column::{Course, Moment};
use crate::science::heat::films::saturation_kpa;
use crate::science::heat::ground::layers::Slice;
use crate::science::heat::ground::wave::Wave;
use crate::science::heat::ground::{DAY_S, YEAR_S};
use crate::science::sun::{SUNRISE_DEGREES, day_length_hours, extraterrestrial_mj_per_m2};
use crate::science::year_course::middle_of_month;

/// Times of a day at which the air is told.
pub const TIMES: usize = 48;
const DAY_H: f64 = 24.0;
/// Depth at which the ground's temperature is taken as known, m.
pub const DEEP_M: f64 = 1.0;

/// A day of a month, and its weather.
#[derive(Clone, Copy, Debug)]
pub struct When {
    /// Day of the year.
    pub day_of_year: f64,
    /// Hours of daylight.
    pub day_h: f64,
    /// What is known of the air.
    pub air: Air,
    /// Outside.
    pub outside: LowestHighest,
    /// Sun outside, mean over day and night, W/m².
    pub sun_w_per_m2: f64,
    /// Wind in the open, m/s.
    pub wind_m_per_s: f64,
}

fn shifted(day: LowestHighest, by: LowestHighest) -> LowestHighest {
    /// A day swings by this at least, K.
    const SWINGS_K: f64 = 1.0;
    let lowest_c = day.lowest_c + by.lowest_c;
    LowestHighest {
        lowest_c,
        highest_c: (day.highest_c + by.highest_c).max(lowest_c + SWINGS_K),
    }
}

/// The hour of the day at one of its times.
fn hour_of(time: usize) -> f64 {
    time as f64 * DAY_H / TIMES as f64
}

/// The air of the house at a time.
#[derive(Clone, Copy, Debug)]
struct Airs {
    /// At bench height.
    bench_c: f64,
    /// At the floor, where that is known apart.
    floor_c: Option<f64>,
    /// The inner face of the cover.
    cover_c: f64,
}

/// The vapour of the air: by its humidity on the mean, or by the lowest that it came to.
fn vapour_kpa(case: &Case, inputs: &Inputs, airs: &[Airs]) -> f64 {
    let bench = || airs.iter().map(|airs| airs.bench_c);
    case.humidity.map_or_else(
        || saturation_kpa(bench().fold(f64::INFINITY, f64::min) + inputs.dew_over_lowest_k),
        |share| share * saturation_kpa(bench().sum::<f64>() / airs.len().max(1) as f64),
    )
}

impl When {
    /// The middle of a month. What was told of the air in the month asked about is taken to differ from the
    /// climate's by as much in every month.
    #[must_use]
    pub fn of_month(case: &Case, month: usize) -> Self {
        /// Days have nights, and nights days, in the formulas of their hours.
        const DAY_LENGTHS_H: [f64; 2] = [0.5, 23.5];
        let weather = case.climate.weather();
        let at = |months: &[f64; 12], month: usize| months.get(month).copied().unwrap_or_default();
        let of_climate = |month: usize| LowestHighest {
            lowest_c: at(&weather.lowest_c, month),
            highest_c: at(&weather.highest_c, month),
        };
        let (then, asked) = (of_climate(month), of_climate(case.month));
        let by = LowestHighest {
            lowest_c: then.lowest_c - asked.lowest_c,
            highest_c: then.highest_c - asked.highest_c,
        };
        let air = match case.air {
            Air::Inside { bench, floor } => Air::Inside {
                bench: shifted(bench, by),
                floor: floor.map(|floor| shifted(floor, by)),
            },
            Air::Outside(day) => Air::Outside(shifted(day, by)),
        };
        let day_of_year = middle_of_month(month);
        let [shortest, longest] = DAY_LENGTHS_H;
        Self {
            day_of_year,
            day_h: day_length_hours(case.latitude, day_of_year, SUNRISE_DEGREES)
                .clamp(shortest, longest),
            outside: match air {
                Air::Outside(day) => day,
                Air::Inside { .. } => then,
            },
            air,
            sun_w_per_m2: at(&weather.radiation_w_per_m2, month),
            wind_m_per_s: at(&weather.wind_m_per_s, month),
        }
    }

    /// Sun outside on a day without a cloud, mean over day and night, W/m²: three quarters of that at the top of the
    /// air (FAO-56, equation 35 with the sun out all day).
    #[must_use]
    pub fn clear_sun_w_per_m2(&self, latitude: f64) -> f64 {
        const CLEAR: f64 = 0.75;
        CLEAR * extraterrestrial_mj_per_m2(latitude, self.day_of_year) / MJ_PER_DAY_IN_WATT
    }

    /// Share of the sky that is cloud: what the sun falls short of a clear month, by the formula of Ångström
    /// with the coefficients of FAO-56, equation 35.
    fn cloud(&self, latitude: f64) -> f64 {
        let top = extraterrestrial_mj_per_m2(latitude, self.day_of_year) / MJ_PER_DAY_IN_WATT;
        1.0 - ((self.sun_w_per_m2 / top.max(1.0) - 0.25) / 0.5).clamp(0.0, 1.0)
    }

    /// The ground a metre down, °C.
    #[must_use]
    pub fn deep(&self, case: &Case, inputs: &Inputs) -> Temperature {
        case.ground.deep.unwrap_or_else(|| {
            let surface = Wave {
                mean_c: inputs.ground_mean_c,
                swing_k: inputs.ground_swing_k,
                coldest_s: inputs.ground_coldest_day * DAY_S,
                period_s: YEAR_S,
            };
            let below = surface.at_depth(&inputs.earth, DEEP_M);
            Temperature::from_celsius(below.at(self.day_of_year * DAY_S))
        })
    }

    /// The house through the day.
    ///
    /// # Errors
    /// A problem where the house has no balance.
    pub fn course(&self, case: &Case, inputs: &Inputs) -> Result<Course, Problem> {
        let alike = Neighbours::alike(self.outside);
        let outside: Vec<Outside> = (0..TIMES)
            .map(|time| self.outside_at(case, &alike, self.sun_w_per_m2, hour_of(time)))
            .collect();
        let airs: Vec<Airs> = match self.air {
            Air::Inside { bench, floor } => (0..TIMES)
                .zip(&outside)
                .map(|(time, outside)| {
                    let floor = floor.map(Neighbours::alike);
                    let bench = Neighbours::alike(bench);
                    self.inside_at(inputs, &bench, floor.as_ref(), outside, hour_of(time))
                })
                .collect(),
            Air::Outside(_) => self
                .house(case, inputs)
                .through_the_day(&outside, self.deep(case, inputs).in_celsius(), &|_| 0.0)
                .map_err(|problem| Problem::at("air.length", problem.to_string()))?
                .into_iter()
                .map(|inside| Airs {
                    bench_c: inside.air_c,
                    floor_c: None,
                    cover_c: inside.cover_c,
                })
                .collect(),
        };
        let vapour_kpa = vapour_kpa(case, inputs, &airs);
        let moments = airs
            .into_iter()
            .zip(outside)
            .enumerate()
            .map(|(time, (airs, outside))| {
                self.moment(inputs, &airs, &outside, vapour_kpa, hour_of(time))
            })
            .collect();
        Course::of_day(moments).map_err(words::no_column)
    }

    /// The house through days whose air was read at bench height, one after the other. The air at the floor and outside
    /// differ from what they are on the mean of the month as much as that at the bench; the sun goes as the root of the
    /// day's swing (Hargreaves & Samani 1982, as in FAO-56, equation 50), and is never more than a clear day's.
    ///
    /// # Errors
    /// A problem where what was read makes no course.
    pub fn course_of_days(
        &self,
        case: &Case,
        inputs: &Inputs,
        days: &[LowestHighest],
    ) -> Result<Course, Problem> {
        let many = days.len().max(1) as f64;
        let mean = LowestHighest {
            lowest_c: days.iter().map(|day| day.lowest_c).sum::<f64>() / many,
            highest_c: days.iter().map(|day| day.highest_c).sum::<f64>() / many,
        };
        let swing = |day: &LowestHighest| (day.highest_c - day.lowest_c).max(0.0);
        let usual = days.iter().map(|day| swing(day).sqrt()).sum::<f64>() / many;
        let at = |day: usize| days.get(day.min(days.len().saturating_sub(1))).copied();
        let between = |day: usize, of: &dyn Fn(LowestHighest) -> LowestHighest| {
            let of_day = |day: usize| of(at(day).unwrap_or(mean));
            Neighbours {
                before: of_day(day.saturating_sub(1)),
                today: of_day(day),
                after: of_day(day + 1),
            }
        };
        // As much off from a mean of the month as the bench is from that of its days.
        let off = |usual: LowestHighest| {
            move |day: LowestHighest| {
                let by = LowestHighest {
                    lowest_c: day.lowest_c - mean.lowest_c,
                    highest_c: day.highest_c - mean.highest_c,
                };
                shifted(usual, by)
            }
        };
        let floor_over = match self.air {
            Air::Inside {
                bench,
                floor: Some(floor),
            } => Some(LowestHighest {
                lowest_c: floor.lowest_c - bench.lowest_c,
                highest_c: floor.highest_c - bench.highest_c,
            }),
            _ => None,
        };
        let sun = |day: usize| {
            let share =
                at(day).map_or(1.0, |day| swing(&day).sqrt() / usual.max(f64::MIN_POSITIVE));
            (share * self.sun_w_per_m2).min(self.clear_sun_w_per_m2(case.latitude))
        };
        let mut times = Vec::with_capacity(days.len() * TIMES + 1);
        for time in 0..=days.len() * TIMES {
            let (day, of_day) = (time / TIMES, time % TIMES);
            let hour = hour_of(of_day);
            let outside = between(day, &off(self.outside));
            let outside = self.outside_at(case, &outside, sun(day), hour);
            let floor = floor_over.map(|over| between(day, &|day| shifted(day, over)));
            let bench = between(day, &|day| day);
            let airs = self.inside_at(inputs, &bench, floor.as_ref(), &outside, hour);
            times.push((airs, outside, hour));
        }
        let airs: Vec<Airs> = times.iter().map(|(airs, ..)| *airs).collect();
        let vapour_kpa = vapour_kpa(case, inputs, &airs);
        let moments = times
            .iter()
            .map(|(airs, outside, hour)| self.moment(inputs, airs, outside, vapour_kpa, *hour))
            .collect();
        let spacing = Duration::from_hours(DAY_H / TIMES as f64);
        Course::of_days(moments, spacing).map_err(words::no_column)
    }

    fn outside_at(&self, case: &Case, days: &Neighbours, sun_w_per_m2: f64, hour: f64) -> Outside {
        /// The house stands lower and more sheltered than a mast of 10 m: half its wind. Common practice, no
        /// source.
        const WIND_AT_HOUSE: f64 = 0.5;
        // A half sine by day has its mean over day and night at 2 D/(24 π) of its noon.
        let noon = sun_w_per_m2 * DAY_H * std::f64::consts::FRAC_PI_2 / self.day_h;
        Outside {
            air_c: DayShape::AIR.at(days, self.day_h, hour),
            cloud: self.cloud(case.latitude),
            wind_m_per_s: WIND_AT_HOUSE * self.wind_m_per_s,
            sun_w_per_m2: noon * sun_share(self.day_h, hour),
        }
    }

    /// The air of days at bench height and, where it is known apart, at the floor.
    fn inside_at(
        &self,
        inputs: &Inputs,
        bench: &Neighbours,
        floor: Option<&Neighbours>,
        outside: &Outside,
        hour: f64,
    ) -> Airs {
        let glass = DayShape {
            warmest_after_noon_h: inputs.warmest_after_noon_h,
            ..DayShape::AIR
        };
        let inside = |days: &Neighbours| glass.at(days, self.day_h, hour);
        let bench_c = inside(bench);
        let beyond = equivalent_outside_c(outside, inputs.sky_seen);
        Airs {
            bench_c,
            floor_c: floor.map(inside),
            cover_c: inner_face_c(bench_c, beyond, inputs.house_w_per_m2_k),
        }
    }

    fn moment(
        &self,
        inputs: &Inputs,
        airs: &Airs,
        outside: &Outside,
        vapour_kpa: f64,
        hour: f64,
    ) -> Moment {
        let warmer_k = bench_warmer_k(inputs.bench_warmer_k, self.day_h, hour);
        Moment {
            floor_air_c: airs.floor_c.unwrap_or(airs.bench_c - warmer_k),
            bench_air_c: airs.bench_c,
            cover_c: airs.cover_c,
            vapour_kpa: vapour_kpa.min(saturation_kpa(airs.bench_c)),
            sun_w_per_m2: inputs.transmitted * outside.sun_w_per_m2,
        }
    }

    fn house(&self, case: &Case, inputs: &Inputs) -> House {
        /// A roof is larger than the floor below it by this. Common practice, no source.
        const ROOF: f64 = 1.15;
        let shell = &case.shell;
        let floor = shell.length * shell.width;
        let walls = (shell.length + shell.width) * shell.height;
        House {
            cover: Area::from_square_metres(
                ROOF * floor.in_square_metres() + 2.0 * walls.in_square_metres(),
            ),
            cover_w_per_m2_k: inputs.house_w_per_m2_k,
            volume: Volume::from_cubic_metres(floor.in_square_metres() * shell.height.in_metres()),
            air_changes_per_h: inputs.air_changes_per_h,
            floor,
            transmitted: inputs.transmitted,
            kept: inputs.kept,
            on_floor: inputs.on_floor,
            floor_film_w_per_m2_k: inputs.floor_film_w_per_m2_k,
            ground: Slice {
                solid: inputs.earth,
                thickness_m: DEEP_M,
            },
            standing_j_per_m2_k: inputs.standing_j_per_m2_k,
            sky_seen: inputs.sky_seen,
        }
    }
}
