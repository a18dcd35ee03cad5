//! The balance of a house: what its cover, its leaks, the sun, the sky and the ground make of the weather
//! outside.
//!
//! Air and cover have next to no heat of their own and follow at once; the floor and what stands on it do
//! not, and are taken wave by wave (Carslaw & Jaeger 1959, section 3.7). Coefficients are steady through the
//! day.

use std::f64::consts::TAU;
use std::fmt;

use super::super::films::{
    Heading, black_radiation_w_per_m2_k, inner_surface_m2_k_per_w, outer_convection_w_per_m2_k,
    sky_c,
};
use super::super::ground::DAY_S;
use super::super::ground::layers::{Slice, conductance_over_fixed};
use super::super::medium::AIR_J_PER_M3_K;
use crate::measure::{Area, Volume};
use crate::science::numerics::complex::Complex;

/// A house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct House {
    /// Its cover: roof and walls.
    pub cover: Area,
    /// Transmittance of the cover, W/m² K.
    pub cover_w_per_m2_k: f64,
    /// Air within.
    pub volume: Volume,
    /// How often an hour that air is changed by leaks and vents.
    pub air_changes_per_h: f64,
    /// Floor.
    pub floor: Area,
    /// Share of the sun outside that comes through the cover.
    pub transmitted: f64,
    /// Share of that which stays as heat: what is not sent out again, and not turned into vapour that leaves.
    pub kept: f64,
    /// Share of that which falls on the floor; the rest warms the air by way of plants and benches.
    pub on_floor: f64,
    /// Film between floor and air, W/m² K.
    pub floor_film_w_per_m2_k: f64,
    /// The ground under the floor down to where a temperature is known.
    pub ground: Slice,
    /// Heat taken up by what stands in the house and follows its air, J/K for each m² of floor.
    pub standing_j_per_m2_k: f64,
    /// Share of the sky that the cover sees; the rest is trees, walls and other houses.
    pub sky_seen: f64,
}

/// The weather outside at one of the equal times of a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outside {
    /// Air, °C.
    pub air_c: f64,
    /// Share of the sky that is cloud.
    pub cloud: f64,
    /// Wind at the house, m/s.
    pub wind_m_per_s: f64,
    /// Sun on the level, W/m².
    pub sun_w_per_m2: f64,
}

/// The house at one of those times.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inside {
    /// Air, °C.
    pub air_c: f64,
    /// Surface of the floor, °C.
    pub floor_c: f64,
    /// Inner face of the cover as plants see it, °C.
    pub cover_c: f64,
}

/// Why a house has no balance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoBalance {
    /// A size or a coefficient is below nought, or no number.
    House,
    /// Fewer than four times, or a time at which the weather is no number.
    Weather,
}

impl fmt::Display for NoBalance {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::House => {
                "A house needs a cover, a floor and air within, each more than 0, and shares between 0 and 1."
            }
            Self::Weather => {
                "Give the weather of at least four equal times of the day, each a number."
            }
        })
    }
}

impl std::error::Error for NoBalance {}

/// Emissivity of glass and wet film (EN ISO 10456 and EN 673, from memory).
const COVER_EMISSIVITY: f64 = 0.84;
/// About how warm covers of unheated houses are, for radiation within; 10 K more change it by a tenth.
const FACES_ABOUT_C: f64 = 10.0;

/// The temperature of outside air that would take as much heat from the cover as air and a colder sky do, °C.
///
/// To - hr F (To - Tsky)/(hr + hc): the equivalent temperature of building physics (EN ISO 13790 form, from
/// memory).
#[must_use]
pub fn equivalent_outside_c(outside: &Outside, sky_seen: f64) -> f64 {
    let sky = sky_c(outside.air_c, outside.cloud);
    let radiation =
        COVER_EMISSIVITY * black_radiation_w_per_m2_k(f64::midpoint(outside.air_c, sky));
    let all = radiation + outer_convection_w_per_m2_k(outside.wind_m_per_s);
    outside.air_c - radiation * sky_seen * (outside.air_c - sky) / all
}

/// The inner face of a cover, °C: as much of the way from the air to the equivalent outside as the inner film is
/// of all resistance (EN ISO 6946).
#[must_use]
pub fn inner_face_c(air_c: f64, equivalent_outside_c: f64, cover_w_per_m2_k: f64) -> f64 {
    let inner = inner_surface_m2_k_per_w(Heading::Up, COVER_EMISSIVITY, FACES_ABOUT_C);
    let way = (inner * cover_w_per_m2_k).min(1.0);
    air_c - way * (air_c - equivalent_outside_c)
}

impl House {
    /// Heat that leaks out for each degree, W/K.
    #[must_use]
    pub fn leaks_w_per_k(&self) -> f64 {
        AIR_J_PER_M3_K * self.air_changes_per_h * self.volume.in_cubic_metres() / 3600.0
    }

    /// Heat lost through cover and leaks for each degree, W/K.
    #[must_use]
    pub fn loss_w_per_k(&self) -> f64 {
        self.cover.in_square_metres() * self.cover_w_per_m2_k + self.leaks_w_per_k()
    }

    fn check(&self) -> Result<(), NoBalance> {
        let positive = |x: f64| x > 0.0 && x.is_finite();
        let share = |x: f64| (0.0..=1.0).contains(&x);
        let sound = positive(self.cover.in_square_metres())
            && positive(self.cover_w_per_m2_k)
            && positive(self.volume.in_cubic_metres())
            && positive(self.floor.in_square_metres())
            && positive(self.floor_film_w_per_m2_k)
            && positive(self.ground.thickness_m)
            && self.air_changes_per_h >= 0.0
            && self.air_changes_per_h.is_finite()
            && self.standing_j_per_m2_k >= 0.0
            && self.standing_j_per_m2_k.is_finite()
            && [self.transmitted, self.kept, self.on_floor, self.sky_seen]
                .into_iter()
                .all(share);
        if sound { Ok(()) } else { Err(NoBalance::House) }
    }

    /// The house through a day that repeats itself, at the same equal times as the weather, with a known
    /// temperature deep below and so much heat given off by benches (W/m² of floor, at each time).
    ///
    /// # Errors
    /// [`NoBalance`] where the house or the weather makes no sense.
    pub fn through_the_day(
        &self,
        weather: &[Outside],
        deep_c: f64,
        given_off_w_per_m2: &dyn Fn(usize) -> f64,
    ) -> Result<Vec<Inside>, NoBalance> {
        /// Fewer times than this tell no day from night.
        const FEWEST: usize = 4;
        self.check()?;
        let times = weather.len();
        let finite = |outside: &Outside| {
            outside.air_c.is_finite()
                && outside.cloud.is_finite()
                && outside.wind_m_per_s >= 0.0
                && outside.wind_m_per_s.is_finite()
                && outside.sun_w_per_m2 >= 0.0
                && outside.sun_w_per_m2.is_finite()
        };
        if times < FEWEST
            || !deep_c.is_finite()
            || !weather.iter().all(finite)
            || !(0..times).all(|time| given_off_w_per_m2(time).is_finite())
        {
            return Err(NoBalance::Weather);
        }
        let floor_m2 = self.floor.in_square_metres();
        let loss = self.loss_w_per_k();
        let through_cover = self.cover.in_square_metres() * self.cover_w_per_m2_k;
        let leaks = self.leaks_w_per_k();
        let sun = |outside: &Outside| outside.sun_w_per_m2 * self.transmitted * self.kept;
        let toe: Vec<f64> = weather
            .iter()
            .map(|outside| equivalent_outside_c(outside, self.sky_seen))
            .collect();
        // What drives the air and the floor, each by its harmonics.
        let at_air: Vec<f64> = (0..times)
            .map(|time| {
                through_cover * toe[time]
                    + leaks * weather[time].air_c
                    + floor_m2
                        * ((1.0 - self.on_floor) * sun(&weather[time]) + given_off_w_per_m2(time))
            })
            .collect();
        let at_floor: Vec<f64> = weather
            .iter()
            .map(|outside| self.on_floor * sun(outside))
            .collect();
        let (drive_air, drive_floor) = (harmonics(&at_air), harmonics(&at_floor));
        let film = Complex::real(self.floor_film_w_per_m2_k);
        let mut air = Vec::with_capacity(drive_air.len());
        let mut floor = Vec::with_capacity(drive_air.len());
        for (n, (drive_air, drive_floor)) in drive_air.into_iter().zip(drive_floor).enumerate() {
            let angular = TAU * n as f64 / DAY_S;
            let ground = conductance_over_fixed(&self.ground, angular);
            let deep = if n == 0 {
                ground * deep_c
            } else {
                Complex::ZERO
            };
            let at_surface = drive_floor + deep;
            // Floor: (h + Y) Tf = h Ta + S + Y Td. Air: (H + iωC + A h) Ta = drive + A h Tf.
            let both = film + ground;
            let stored = Complex::new(0.0, angular * self.standing_j_per_m2_k * floor_m2);
            let own = Complex::real(loss) + stored + film * floor_m2 * (ground / both);
            let air_n = (drive_air + film * floor_m2 * (at_surface / both)) / own;
            air.push(air_n);
            floor.push((film * air_n + at_surface) / both);
        }
        Ok((0..times)
            .map(|time| {
                let air_c = at_time(&air, time, times);
                Inside {
                    air_c,
                    floor_c: at_time(&floor, time, times),
                    cover_c: inner_face_c(air_c, toe[time], self.cover_w_per_m2_k),
                }
            })
            .collect())
    }
}

/// The first half of the discrete Fourier transform of equal times of a day, each with the weight with which
/// it is put together again.
fn harmonics(values: &[f64]) -> Vec<Complex> {
    let times = values.len();
    (0..=times / 2)
        .map(|n| {
            let sum = values
                .iter()
                .enumerate()
                .fold(Complex::ZERO, |sum, (time, &value)| {
                    sum + Complex::turned(-TAU * (n * time) as f64 / times as f64) * value
                });
            let alone = n == 0 || 2 * n == times;
            sum * (if alone { 1.0 } else { 2.0 } / times as f64)
        })
        .collect()
}

fn at_time(harmonics: &[Complex], time: usize, times: usize) -> f64 {
    harmonics
        .iter()
        .enumerate()
        .map(|(n, &wave)| (wave * Complex::turned(TAU * (n * time) as f64 / times as f64)).re)
        .sum()
}

/// Air under a cover that lies over a bench, °C, when nothing changes: the stand gives heat to it through one
/// coefficient and it loses heat to the air of the house through another (W/m² K of bench).
#[must_use]
pub fn under_cover_c(
    stand_c: f64,
    stand_w_per_m2_k: f64,
    house_c: f64,
    cover_w_per_m2_k: f64,
) -> f64 {
    (stand_w_per_m2_k * stand_c + cover_w_per_m2_k * house_c)
        / (stand_w_per_m2_k + cover_w_per_m2_k)
}

/// Two conductances one after the other, W/m² K: a stand under a cover.
#[must_use]
pub fn in_series_w_per_m2_k(one: f64, other: f64) -> f64 {
    1.0 / (1.0 / one + 1.0 / other)
}

/// How much warmer the air of a house is than an equivalent outside when its floor gives back so much heat
/// for each m² of floor and nothing else comes in, K.
#[must_use]
pub fn night_lift_k(house: &House, given_back_w_per_m2: f64) -> f64 {
    given_back_w_per_m2 * house.floor.in_square_metres() / house.loss_w_per_k()
}
