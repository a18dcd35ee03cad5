//! The flow of water solved in full at a few depths, at the best figures, until one day is like the
//! next: it holds the quick estimate to account and gives the course of a day.
//!
//! In a tray that slopes one pot stands at either end, and
//! what is told of air is of the low one. A second kind of pot drinks from the same tray.

use std::sync::Arc;

use super::physics::{Tray, course};
use super::question::{Case, Fills};
use super::stand::Stand;
use crate::measure::{Duration, Length};
use crate::science::flow::{Filling, Flow, HalfSine, NoFlow, Steps, Table, Weather};

/// Heights of the ball told in each moment, from its base.
pub const HEIGHTS: usize = 24;
/// Moments told of a day, from midnight to midnight.
pub const MOMENTS: usize = 25;
/// Days after which a run is ended whether it has settled or not.
pub const MOST_DAYS: u32 = 14;

/// A float lets a whole filling in within so long: common practice, no source.
const FILLS_WITHIN_MIN: f64 = 10.0;
/// The hour at which trays are filled by hand.
const BY_HAND_AT_H: f64 = 6.0;
/// Means that change by less than this from window to window have settled.
const SETTLED: f64 = 0.01;
const HOURS_A_DAY: f64 = 24.0;
const MM_PER_M: f64 = 1000.0;
const ML_PER_M3: f64 = 1e6;
const L_PER_M3: f64 = 1000.0;

/// One moment of the last day.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Moment {
    /// Hours after midnight.
    pub hour: f64,
    /// Water above the floor of the tray, mm.
    pub level_mm: f64,
    /// Lowest and highest it stood in the hour before, mm.
    pub level_between_mm: [f64; 2],
    /// Water in one root ball, L.
    pub water_litres: f64,
    /// Air of the whole ball, fraction.
    pub air: f64,
    /// Air of its lowest third, fraction.
    pub air_lowest: f64,
    /// What the plant drank in the hour before, mL.
    pub drunk_ml: f64,
    /// What it asked for in that hour, mL.
    pub asked_ml: f64,
    /// Refills since midnight.
    pub refills: f64,
    /// Water at the middle of each slice of the ball from its base, fraction.
    pub water: [f64; HEIGHTS],
}

/// A run.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Run {
    /// Place of the medium in the handbook's table; none for the question's own.
    pub medium: Option<usize>,
    /// Depth of the bed, mm.
    pub depth_mm: f64,
    /// Days simulated.
    pub days: f64,
    /// Whether the means had settled by then.
    pub settled: bool,
    /// What came in less what went out and is stored, as a share of the largest of them.
    pub gap: f64,
    /// Mean air over the last window, fraction.
    pub air: f64,
    /// The same by the quick estimate.
    pub air_estimated: f64,
    /// The same of the lowest third.
    pub air_lowest: f64,
    /// Least and most air of the ball in the last window.
    pub air_between: [f64; 2],
    /// Hours of a day in which the ball has less air than fails.
    pub hours_wet: f64,
    /// What the plant drank as a share of what it asked for: where the tray slopes, the one at the high
    /// end.
    pub drunk_share: f64,
    /// Refills in a day.
    pub refills: f64,
    /// Litres let in for one pot in a day.
    pub litres: f64,
    /// Days over which means are told: whole days, at the least so many as a filling lasts.
    pub window: f64,
    /// Moments of the last day; none for a run that is only there for its means.
    pub moments: Vec<Moment>,
}

impl Run {
    /// Numbers ahead of the moments.
    const HEAD: usize = 16;
    /// Numbers of a moment.
    const OF_MOMENT: usize = 10 + HEIGHTS;

    /// As numbers, for another thread.
    pub fn put(&self, into: &mut Vec<f64>) {
        let yes = |yes: bool| f64::from(u8::from(yes));
        into.extend([
            self.medium.map_or(-1.0, |place| place as f64),
            self.depth_mm,
            self.days,
            yes(self.settled),
            self.gap,
            self.air,
            self.air_lowest,
            self.air_between[0],
            self.air_between[1],
            self.hours_wet,
            self.drunk_share,
            self.refills,
            self.litres,
            self.moments.len() as f64,
            self.air_estimated,
            self.window,
        ]);
        for m in &self.moments {
            into.extend([
                m.hour,
                m.level_mm,
                m.level_between_mm[0],
                m.level_between_mm[1],
                m.water_litres,
                m.air,
                m.air_lowest,
                m.drunk_ml,
                m.asked_ml,
                m.refills,
            ]);
            into.extend(m.water);
        }
    }

    /// From such numbers, with those that follow; none where they are too few.
    pub fn take(numbers: &[f64]) -> Option<(Self, &[f64])> {
        let (head, mut rest) = numbers.split_first_chunk::<{ Self::HEAD }>()?;
        let [
            medium,
            depth_mm,
            days,
            settled,
            gap,
            air,
            air_lowest,
            least,
            most,
            hours_wet,
            drunk_share,
            refills,
            litres,
            many,
            air_estimated,
            window,
        ] = *head;
        let mut moments = Vec::new();
        for _ in 0..(many as usize).min(MOMENTS) {
            let (of_moment, after) = rest.split_first_chunk::<{ Self::OF_MOMENT }>()?;
            let (told, water) = of_moment.split_first_chunk::<10>()?;
            let [
                hour,
                level_mm,
                low_mm,
                high_mm,
                water_litres,
                air,
                air_lowest,
                drunk_ml,
                asked_ml,
                refills,
            ] = *told;
            moments.push(Moment {
                hour,
                level_mm,
                level_between_mm: [low_mm, high_mm],
                water_litres,
                air,
                air_lowest,
                drunk_ml,
                asked_ml,
                refills,
                water: water.try_into().ok()?,
            });
            rest = after;
        }
        Some((
            Self {
                medium: (medium >= 0.0).then_some(medium as usize),
                depth_mm,
                days,
                settled: settled > 0.0,
                gap,
                air,
                air_estimated,
                air_lowest,
                air_between: [least, most],
                hours_wet,
                drunk_share,
                refills,
                litres,
                window,
                moments,
            },
            rest,
        ))
    }
}

/// Sums over some days.
#[derive(Clone, Copy)]
struct Sums {
    seconds: f64,
    air: f64,
    air_lowest: f64,
    least: f64,
    most: f64,
    wet_s: f64,
    drunk_m3: f64,
    let_in_m3: f64,
    fills: u32,
}

impl Sums {
    const NONE: Self = Self {
        seconds: 0.0,
        air: 0.0,
        air_lowest: 0.0,
        least: 1.0,
        most: 0.0,
        wet_s: 0.0,
        drunk_m3: 0.0,
        let_in_m3: 0.0,
        fills: 0,
    };

    /// Those of several days.
    fn over(days: &[Self]) -> Self {
        days.iter().fold(Self::NONE, |sum, day| Self {
            seconds: sum.seconds + day.seconds,
            air: sum.air + day.air,
            air_lowest: sum.air_lowest + day.air_lowest,
            least: sum.least.min(day.least),
            most: sum.most.max(day.most),
            wet_s: sum.wet_s + day.wet_s,
            drunk_m3: sum.drunk_m3 + day.drunk_m3,
            let_in_m3: sum.let_in_m3 + day.let_in_m3,
            fills: sum.fills + day.fills,
        })
    }

    fn mean_air(&self) -> f64 {
        self.air / self.seconds.max(1.0)
    }

    /// Whether means are as good as those of another time as long.
    fn is_like(&self, other: &Self) -> bool {
        let near = |one: f64, other: f64| (one - other).abs() <= SETTLED * one.abs().max(1e-12);
        near(self.mean_air(), other.mean_air()) && near(self.drunk_m3, other.drunk_m3)
    }
}

/// The days over which means have settled, if they have: whole days, at least so many, like as many
/// before.
fn settled_over(days: &[Sums], at_least: usize) -> Option<usize> {
    (at_least.max(1)..=days.len() / 2).find(|window| {
        let (before, last) = days.split_at(days.len() - window);
        let before = &before[before.len() - window..];
        Sums::over(last).is_like(&Sums::over(before))
    })
}

/// A run under way.
pub struct Running {
    flow: Flow,
    sun: HalfSine,
    evaporates_m_per_s: f64,
    medium: Option<usize>,
    air_estimated: f64,
    depth_m: f64,
    ball_m: f64,
    ball_m3: f64,
    lowest_m3: f64,
    slices_m3: Vec<f64>,
    demand_m3_per_s: f64,
    fails_below: f64,
    /// The station whose plant fares worst for water: the same, or the one at the high end.
    driest: usize,
    /// Pots there are for each of the kind asked about, that one with them.
    pots: f64,
    /// Days that a filling lasts.
    filling_days: usize,
    days: Vec<Sums>,
    with_moments: bool,
    moments: Vec<Moment>,
    failed: bool,
}

impl Running {
    /// Sets a run up on a bed of a depth; none where it cannot be.
    pub fn begin(
        case: &Case,
        tray: &Tray<'_>,
        medium: Option<usize>,
        depth: Length,
        with_moments: bool,
    ) -> Option<Self> {
        let scene = tray.first().ok()?;
        let bed = Arc::new(Table::new(&scene.bed_curves).ok()?);
        let kinds = case.kinds().zip(&tray.kinds);
        let stands: Option<Vec<Stand<'_>>> = kinds
            .map(|(kind, scene)| Stand::new(kind, scene, depth, &scene.ball, &bed))
            .collect();
        let stands = stands?;
        let nought = Length::from_metres(0.0);
        let sloped = case.slope > nought;
        let mut stations = Vec::new();
        let mut driest = 0;
        for (kind, stand) in case.kinds().zip(&stands) {
            // So many of its kind for each pot asked about.
            let count = kind.pots / case.pots;
            if sloped {
                stations.extend(stand.stations(nought, 0.5 * count));
                if driest == 0 {
                    driest = stations.len();
                }
                stations.extend(stand.stations(case.slope, 0.5 * count));
            } else {
                stations.extend(stand.stations(nought, count));
            }
        }
        let vessel = &case.mix.vessel;
        let fill = case.mix.fill;
        let day_s = Duration::from_days(1.0).in_seconds();
        let level_m = case.level.in_metres();
        let kinds = tray.at_depth(depth);
        let at = kinds.first()?;
        let filling_litres = case
            .kinds()
            .zip(&kinds)
            .map(|(kind, at)| kind.pots / case.pots * at.fill_litres)
            .sum::<f64>()
            .max(1e-3);
        let seconds = Duration::from_hours(FILLS_WITHIN_MIN / 60.0).in_seconds();
        let rate_m3_per_s = filling_litres / L_PER_M3 / seconds;
        let filling = match case.fills {
            Fills::WhenEmpty => Filling::Float {
                opens_at_m: 0.0,
                shuts_at_m: level_m,
                rate_m3_per_s,
                delay_s: 0.0,
            },
            Fills::Held => Filling::Held { level_m },
            Fills::Daily => Filling::ByHand {
                at_s: (0..MOST_DAYS)
                    .map(|day| {
                        f64::from(day) * day_s + Duration::from_hours(BY_HAND_AT_H).in_seconds()
                    })
                    .collect(),
                to_m: level_m,
                rate_m3_per_s,
            },
        };
        let floors: Vec<f64> = stations
            .iter()
            .map(|station| station.floor.in_metres())
            .collect();
        let hangs =
            |station: usize, z_m: f64| level_m - z_m - floors.get(station).copied().unwrap_or(0.0);
        let flow = Flow::new(&stations, filling, level_m, &hangs).ok()?;
        let volume = |height: Length| vessel.volume_to(height).in_cubic_metres();
        Some(Self {
            flow,
            sun: course(),
            evaporates_m_per_s: scene.evaporates_mm_per_d / MM_PER_M / day_s,
            medium,
            air_estimated: at.air,
            depth_m: depth.in_metres(),
            ball_m: fill.in_metres(),
            ball_m3: volume(fill),
            lowest_m3: volume(fill * (1.0 / 3.0)),
            slices_m3: (0..HEIGHTS)
                .map(|slice| {
                    let at = |place: usize| volume(fill * (place as f64 / HEIGHTS as f64));
                    at(slice + 1) - at(slice)
                })
                .collect(),
            demand_m3_per_s: scene.demand_litres / L_PER_M3 / day_s,
            fails_below: case.mix.limits.air_fails_below,
            driest,
            pots: case.kinds().map(|kind| kind.pots / case.pots).sum(),
            filling_days: (1.0 / at.refills.max(1e-3)).ceil() as usize,
            days: Vec::with_capacity(MOST_DAYS as usize),
            with_moments,
            moments: Vec::new(),
            failed: false,
        })
    }

    /// Runs one day more; true when the run is done.
    pub fn day(&mut self) -> bool {
        match self.one_day() {
            Ok(day) => self.days.push(day),
            Err(_) => {
                self.failed = true;
                return true;
            }
        }
        self.settled().is_some() || self.days.len() >= MOST_DAYS as usize
    }

    fn settled(&self) -> Option<usize> {
        settled_over(&self.days, self.filling_days)
    }

    fn one_day(&mut self) -> Result<Sums, NoFlow> {
        let hour_s = Duration::from_hours(1.0).in_seconds();
        let (sun, evaporates) = (self.sun, self.evaporates_m_per_s);
        let weather = Weather {
            demand: &|time_s| sun.multiple(time_s),
            evaporation_m_per_s: &|time_s| evaporates * sun.multiple(time_s),
            ..Weather::still()
        };
        let steps = Steps::default();
        let (from_m, to_m) = (self.depth_m, self.depth_m + self.ball_m);
        let third_m = self.depth_m + self.ball_m / 3.0;
        let (ball_m3, lowest_m3, fails_below) = (self.ball_m3, self.lowest_m3, self.fails_below);
        let at_first = self.flow.balance();
        let fills_first = self.flow.fills();
        let drunk_first = self.flow.drunk_m3(self.driest);
        let mut sums = Sums::NONE;
        self.moments.clear();
        let mut drunk_before = drunk_first;
        let mut between_m = [self.flow.level_m(); 2];
        for hour in 0..=HOURS_A_DAY as usize {
            if hour > 0 {
                let until_s = (self.days.len() as f64 * HOURS_A_DAY + hour as f64) * hour_s;
                let mut last_s = self.flow.time_s();
                between_m = [self.flow.level_m(); 2];
                self.flow.run(until_s, &weather, &steps, &mut |flow| {
                    let air_of = |to_m: f64, volume_m3: f64| {
                        let (water, pores) = flow.water_between(0, from_m, to_m);
                        (pores - water).max(0.0) / volume_m3
                    };
                    let (air, lowest) = (air_of(to_m, ball_m3), air_of(third_m, lowest_m3));
                    let span = flow.time_s() - last_s;
                    last_s = flow.time_s();
                    between_m = [
                        between_m[0].min(flow.level_m()),
                        between_m[1].max(flow.level_m()),
                    ];
                    sums.seconds += span;
                    sums.air += span * air;
                    sums.air_lowest += span * lowest;
                    sums.least = sums.least.min(air);
                    sums.most = sums.most.max(air);
                    if air < fails_below {
                        sums.wet_s += span;
                    }
                })?;
            }
            if self.with_moments {
                let drunk = self.flow.drunk_m3(self.driest);
                let asked: f64 = sun.multiple((hour as f64 - 0.5) * hour_s) * self.demand_m3_per_s;
                let mut moment =
                    self.moment(hour, fills_first, drunk - drunk_before, asked * hour_s);
                moment.level_between_mm = between_m.map(|level_m| level_m.max(0.0) * MM_PER_M);
                drunk_before = drunk;
                self.moments.push(moment);
            }
        }
        sums.drunk_m3 = self.flow.drunk_m3(self.driest) - drunk_first;
        sums.let_in_m3 = self.flow.balance().let_in_m3 - at_first.let_in_m3;
        sums.fills = self.flow.fills() - fills_first;
        Ok(sums)
    }

    fn moment(&self, hour: usize, fills_first: u32, drunk_m3: f64, asked_m3: f64) -> Moment {
        let (water_m3, pores_m3) =
            self.flow
                .water_between(0, self.depth_m, self.depth_m + self.ball_m);
        let (low_water, low_pores) =
            self.flow
                .water_between(0, self.depth_m, self.depth_m + self.ball_m / 3.0);
        let mut water = [0.0; HEIGHTS];
        let step = self.ball_m / HEIGHTS as f64;
        for (place, (slice, volume)) in water.iter_mut().zip(&self.slices_m3).enumerate() {
            let from = self.depth_m + step * place as f64;
            *slice = self.flow.water_between(0, from, from + step).0 / volume;
        }
        Moment {
            hour: hour as f64,
            level_mm: self.flow.level_m().max(0.0) * MM_PER_M,
            level_between_mm: [0.0; 2],
            water_litres: water_m3 * L_PER_M3,
            air: (pores_m3 - water_m3).max(0.0) / self.ball_m3,
            air_lowest: (low_pores - low_water).max(0.0) / self.lowest_m3,
            drunk_ml: drunk_m3 * ML_PER_M3,
            asked_ml: asked_m3 * ML_PER_M3,
            refills: f64::from(self.flow.fills() - fills_first),
            water,
        }
    }

    /// What came of it; none where the flow could not be solved.
    pub fn finish(self) -> Option<Run> {
        if self.failed || self.days.is_empty() {
            return None;
        }
        let settled = self.settled();
        let window = settled
            .unwrap_or(self.filling_days)
            .clamp(1, self.days.len());
        let last = Sums::over(&self.days[self.days.len() - window..]);
        let days = window as f64;
        Some(Run {
            medium: self.medium,
            depth_mm: self.depth_m * MM_PER_M,
            days: self.days.len() as f64,
            settled: settled.is_some(),
            gap: self.flow.balance().relative_gap(),
            air: last.mean_air(),
            air_estimated: self.air_estimated,
            air_lowest: last.air_lowest / last.seconds,
            air_between: [last.least, last.most],
            hours_wet: HOURS_A_DAY * last.wet_s / last.seconds,
            drunk_share: last.drunk_m3 / (self.demand_m3_per_s * last.seconds),
            refills: f64::from(last.fills) / days,
            litres: last.let_in_m3 * L_PER_M3 / days / self.pots,
            window: days,
            moments: self.moments,
        })
    }
}
