//! The air, the sun and the cover of the house through a day of a month.

use super::case::{Air, Case};
use super::inputs::Inputs;
use super::words;
use crate::handbook::climates::MJ_PER_DAY_IN_WATT;
use crate::measure::{Area, Temperature, Volume};
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
        case.deep.unwrap_or_else(|| {
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
        /// The house stands lower and more sheltered than a mast of 10 m: half its wind. Common practice, no
        /// source.
        const WIND_AT_HOUSE: f64 = 0.5;
        let hours = (0..TIMES).map(|time| time as f64 * DAY_H / TIMES as f64);
        let cloud = self.cloud(case.latitude);
        // A half sine by day has its mean over day and night at 2 D/(24 π) of its noon.
        let noon = self.sun_w_per_m2 * DAY_H * std::f64::consts::FRAC_PI_2 / self.day_h;
        let glass = DayShape {
            warmest_after_noon_h: inputs.warmest_after_noon_h,
            ..DayShape::AIR
        };
        let outside: Vec<Outside> = hours
            .clone()
            .map(|hour| Outside {
                air_c: DayShape::AIR.at(&Neighbours::alike(self.outside), self.day_h, hour),
                cloud,
                wind_m_per_s: WIND_AT_HOUSE * self.wind_m_per_s,
                sun_w_per_m2: noon * sun_share(self.day_h, hour),
            })
            .collect();
        let inside =
            |day: LowestHighest, hour: f64| glass.at(&Neighbours::alike(day), self.day_h, hour);
        // Air at bench height, at the floor where it is known apart, and the inner face of the cover.
        let airs: Vec<(f64, Option<f64>, f64)> = match self.air {
            Air::Inside { bench, floor } => hours
                .clone()
                .zip(&outside)
                .map(|(hour, outside)| {
                    let air = inside(bench, hour);
                    let beyond = equivalent_outside_c(outside, inputs.sky_seen);
                    let cover = inner_face_c(air, beyond, inputs.house_w_per_m2_k);
                    (air, floor.map(|floor| inside(floor, hour)), cover)
                })
                .collect(),
            Air::Outside(_) => self
                .house(case, inputs)
                .through_the_day(&outside, self.deep(case, inputs).in_celsius(), &|_| 0.0)
                .map_err(|problem| Problem::at("air.length", problem.to_string()))?
                .into_iter()
                .map(|inside| (inside.air_c, None, inside.cover_c))
                .collect(),
        };
        let lowest = airs.iter().map(|air| air.0).fold(f64::INFINITY, f64::min);
        let mean = airs.iter().map(|air| air.0).sum::<f64>() / TIMES as f64;
        let vapour = case.humidity.map_or_else(
            || saturation_kpa(lowest + inputs.dew_over_lowest_k),
            |share| share * saturation_kpa(mean),
        );
        let moments = hours
            .zip(airs)
            .zip(outside)
            .map(|((hour, (bench, floor, cover_c)), outside)| Moment {
                floor_air_c: floor.unwrap_or_else(|| {
                    bench - bench_warmer_k(inputs.bench_warmer_k, self.day_h, hour)
                }),
                bench_air_c: bench,
                cover_c,
                vapour_kpa: vapour.min(saturation_kpa(bench)),
                sun_w_per_m2: inputs.transmitted * outside.sun_w_per_m2,
            })
            .collect();
        Course::of_day(moments).map_err(words::no_column)
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
