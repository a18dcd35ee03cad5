//! The flow of water solved in full at a few depths, at the best figures, until one day is like the
//! next: it holds the quick estimate to account and gives the course of a day.
//!
//! Under the pot water converges from as far aside as the bed is deep to the base; what bed lies beyond
//! stands in the same tray as a store of its own. The tray is taken as level, and nothing evaporates but through the plant.

use std::sync::Arc;

use super::physics::{ACT_AT_CM, GIVE_UP_AT_CM, SPREADS, Scene, course};
use super::question::{Case, Fills};
use crate::handbook::bed_media::{HOLE_MM, HOLES_SHARE};
use crate::measure::{Area, Duration, Length, Suction};
use crate::science::flow::{
    Contact, Filling, Flow, Foot, HalfSine, Joint, Layer, NoFlow, Roots, Station, Steps, Stress,
    Table, Top, Weather,
};

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
/// Distance of the heights solved for in a bed, mm.
const BED_SPACING_MM: f64 = 2.5;
/// What is left beside a foot that takes nearly all of the ground counts as its own: a factor on it.
const NEARLY_ALL: f64 = 1.05;
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
    /// What the plant drank as a share of what it asked for.
    pub drunk_share: f64,
    /// Refills in a day.
    pub refills: f64,
    /// Litres let in for one pot in a day.
    pub litres: f64,
    /// Moments of the last day; none for a run that is only there for its means.
    pub moments: Vec<Moment>,
}

impl Run {
    /// Numbers ahead of the moments.
    const HEAD: usize = 15;
    /// Numbers of a moment.
    const OF_MOMENT: usize = 8 + HEIGHTS;

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
        ]);
        for m in &self.moments {
            into.extend([
                m.hour,
                m.level_mm,
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
        ] = *head;
        let mut moments = Vec::new();
        for _ in 0..(many as usize).min(MOMENTS) {
            let (of_moment, after) = rest.split_first_chunk::<{ Self::OF_MOMENT }>()?;
            let (told, water) = of_moment.split_first_chunk::<8>()?;
            let [
                hour,
                level_mm,
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
                moments,
            },
            rest,
        ))
    }
}

/// Sums over a window of days.
#[derive(Clone, Copy, Default)]
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
    fn new() -> Self {
        Self {
            least: 1.0,
            ..Self::default()
        }
    }

    fn mean_air(&self) -> f64 {
        self.air / self.seconds.max(1.0)
    }
}

/// A run under way.
pub struct Running {
    flow: Flow,
    sun: HalfSine,
    medium: Option<usize>,
    air_estimated: f64,
    depth_m: f64,
    ball_m: f64,
    ball_m3: f64,
    lowest_m3: f64,
    slices_m3: Vec<f64>,
    demand_m3_per_s: f64,
    fails_below: f64,
    /// Days in a window: so many as a filling lasts.
    window: u32,
    days: u32,
    now: Sums,
    before: Option<Sums>,
    last: Sums,
    settled: bool,
    with_moments: bool,
    moments: Vec<Moment>,
    failed: bool,
}

impl Running {
    /// Sets a run up on a bed of a depth; none where it cannot be.
    pub fn begin(
        case: &Case,
        scene: &Scene<'_>,
        medium: Option<usize>,
        depth: Length,
        with_moments: bool,
    ) -> Option<Self> {
        let ball = Arc::new(Table::new(&scene.ball).ok()?);
        let vessel = &case.mix.vessel;
        let fill = case.mix.fill;
        let base = vessel.base_area();
        let form = base
            / (vessel.breadth_at(Length::from_metres(0.0))
                * vessel.breadth_at(Length::from_metres(0.0)));
        let section = |height: Length| vessel.breadth_at(height) * vessel.breadth_at(height) * form;
        let base = if base > case.ground {
            case.ground
        } else {
            base
        };
        let nought = Length::from_metres(0.0);
        // Under the pot water converges to its base; further out the bed only stores.
        let foot = if case.whole_tray {
            let breadth = vessel.breadth_at(nought) + depth * (2.0 * SPREADS);
            let spread = breadth * breadth * form;
            if spread * NEARLY_ALL < case.ground {
                spread
            } else {
                case.ground
            }
        } else {
            base
        };
        let beside = case.whole_tray && depth > nought && foot < case.ground;
        let ground = if beside { foot } else { case.ground };
        let mut layers = Vec::new();
        let mut joint = Joint::Laid;
        let bed = Arc::new(Table::new(&scene.bed_curves).ok()?);
        let laid = |low: Area, high: Area, footprint: Area| Layer {
            medium: Arc::clone(&bed),
            height: depth,
            base: low,
            top: high,
            footprint,
            spacing: Length::from_millimetres(BED_SPACING_MM),
            joint: Joint::Laid,
        };
        if depth > nought {
            layers.push(laid(foot, base, foot));
            if !case.bedded {
                let share = HOLES_SHARE.range.best();
                joint = Joint::Contact(Contact::holes(share, Length::from_millimetres(HOLE_MM)));
            }
        }
        layers.push(Layer {
            medium: ball,
            height: fill,
            base,
            top: section(fill),
            footprint: base,
            spacing: fill * (1.0 / HEIGHTS as f64),
            joint,
        });
        let (depth_m, ball_m) = (depth.in_metres(), fill.in_metres());
        let in_ball = move |height_m: f64| f64::from(u8::from(height_m >= depth_m));
        let day_s = Duration::from_days(1.0).in_seconds();
        let demand_m3_per_s = scene.demand_litres / L_PER_M3 / day_s;
        let [free, wilted] = [ACT_AT_CM, GIVE_UP_AT_CM].map(Suction::from_centimetres_of_water);
        let station = Station {
            layers,
            roots: Some(Roots {
                stress: Stress::of_thirst_alone(free, wilted).ok()?,
                density: &in_ball,
                demand_m3_per_s,
            }),
            foot: Foot::Tray,
            top: Top::Open,
            ground,
            floor: nought,
            count: 1.0,
        };
        let mut stations = vec![station];
        if beside {
            let low = case.ground - foot;
            stations.push(Station {
                layers: vec![laid(low, low, low)],
                roots: None,
                foot: Foot::Tray,
                top: Top::Open,
                ground: low,
                floor: nought,
                count: 1.0,
            });
        }
        let level_m = case.level.in_metres();
        let at = scene.at_depth(depth);
        let seconds = Duration::from_hours(FILLS_WITHIN_MIN / 60.0).in_seconds();
        let rate_m3_per_s = at.fill_litres.max(1e-3) / L_PER_M3 / seconds;
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
        let flow = Flow::new(&stations, filling, level_m, &|_, z_m| level_m - z_m).ok()?;
        let volume = |height: Length| vessel.volume_to(height).in_cubic_metres();
        /// A filling that lasts longer than this is looked at in windows no longer, days.
        const LONGEST_WINDOW: f64 = 4.0;
        Some(Self {
            flow,
            sun: course(),
            medium,
            air_estimated: at.air,
            depth_m,
            ball_m,
            ball_m3: volume(fill),
            lowest_m3: volume(fill * (1.0 / 3.0)),
            slices_m3: (0..HEIGHTS)
                .map(|slice| {
                    let at = |place: usize| volume(fill * (place as f64 / HEIGHTS as f64));
                    at(slice + 1) - at(slice)
                })
                .collect(),
            demand_m3_per_s,
            fails_below: case.mix.limits.air_fails_below,
            window: (1.0 / at.refills.max(1e-3))
                .ceil()
                .clamp(1.0, LONGEST_WINDOW) as u32,
            days: 0,
            now: Sums::new(),
            before: None,
            last: Sums::new(),
            settled: false,
            with_moments,
            moments: Vec::new(),
            failed: false,
        })
    }

    /// Runs one day more; true when the run is done.
    pub fn day(&mut self) -> bool {
        if self.one_day().is_err() {
            self.failed = true;
            return true;
        }
        self.days += 1;
        if self.days.is_multiple_of(self.window) {
            let now = std::mem::replace(&mut self.now, Sums::new());
            let near = |one: f64, other: f64| (one - other).abs() <= SETTLED * one.abs().max(1e-12);
            self.settled = self.before.is_some_and(|before| {
                near(now.mean_air(), before.mean_air()) && near(now.drunk_m3, before.drunk_m3)
            });
            self.before = Some(now);
            self.last = now;
        }
        self.settled || self.days >= MOST_DAYS
    }

    fn one_day(&mut self) -> Result<(), NoFlow> {
        let hour_s = Duration::from_hours(1.0).in_seconds();
        let sun = self.sun;
        let weather = Weather {
            demand: &|time_s| sun.multiple(time_s),
            ..Weather::still()
        };
        let steps = Steps::default();
        let (from_m, to_m) = (self.depth_m, self.depth_m + self.ball_m);
        let third_m = self.depth_m + self.ball_m / 3.0;
        let (ball_m3, lowest_m3, fails_below) = (self.ball_m3, self.lowest_m3, self.fails_below);
        let at_first = self.flow.balance();
        let fills_first = self.flow.fills();
        self.moments.clear();
        let mut drunk_before = at_first.drunk_m3;
        for hour in 0..=HOURS_A_DAY as usize {
            if hour > 0 {
                let until_s = (f64::from(self.days) * HOURS_A_DAY + hour as f64) * hour_s;
                let mut last_s = self.flow.time_s();
                let sums = &mut self.now;
                self.flow.run(until_s, &weather, &steps, &mut |flow| {
                    let air_of = |to_m: f64, volume_m3: f64| {
                        let (water, pores) = flow.water_between(0, from_m, to_m);
                        (pores - water).max(0.0) / volume_m3
                    };
                    let (air, lowest) = (air_of(to_m, ball_m3), air_of(third_m, lowest_m3));
                    let span = flow.time_s() - last_s;
                    last_s = flow.time_s();
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
                let drunk = self.flow.balance().drunk_m3;
                let asked: f64 = sun.multiple((hour as f64 - 0.5) * hour_s) * self.demand_m3_per_s;
                let moment = self.moment(hour, fills_first, drunk - drunk_before, asked * hour_s);
                drunk_before = drunk;
                self.moments.push(moment);
            }
        }
        let at_last = self.flow.balance();
        self.now.drunk_m3 += at_last.drunk_m3 - at_first.drunk_m3;
        self.now.let_in_m3 += at_last.let_in_m3 - at_first.let_in_m3;
        self.now.fills += self.flow.fills() - fills_first;
        Ok(())
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
        if self.failed || self.last.seconds <= 0.0 {
            return None;
        }
        let Sums {
            seconds,
            air_lowest,
            least,
            most,
            wet_s,
            drunk_m3,
            let_in_m3,
            fills,
            ..
        } = self.last;
        let days = seconds / Duration::from_days(1.0).in_seconds();
        Some(Run {
            medium: self.medium,
            depth_mm: self.depth_m * MM_PER_M,
            days: f64::from(self.days),
            settled: self.settled,
            gap: self.flow.balance().relative_gap(),
            air: self.last.mean_air(),
            air_estimated: self.air_estimated,
            air_lowest: air_lowest / seconds,
            air_between: [least, most],
            hours_wet: HOURS_A_DAY * wet_s / seconds,
            drunk_share: drunk_m3 / (self.demand_m3_per_s * seconds),
            refills: f64::from(fills) / days,
            litres: let_in_m3 * L_PER_M3 / days,
            moments: self.moments,
        })
    }
}
