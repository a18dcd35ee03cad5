//! From one time to the next.

use super::NoColumn;
use super::bordered::Bordered;
use super::course::Course;
use super::network::{Drive, Network};
use super::record::{Balance, Flows, Record, Trace};
use super::standing::{Control, DAY_H, Place, Standing};
use crate::measure::{Duration, Temperature};
use crate::science::heat::ground::DAY_S;

/// γ of the two stages: 1 - 1/√2.
const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
const HOUR_S: f64 = 3600.0;
/// Times nearer than this are one, s.
const INSTANT_S: f64 = 1e-3;
/// A thermostat does not act again within this, s.
const DWELL_S: f64 = 10.0;
/// It acts within this of its threshold, K.
const ACTS_WITHIN_K: f64 = 0.002;
/// A probe still below its band so long after the heater went on shows that its power is too little, and
/// not that heat is slow on its way, s.
const SLOW_S: f64 = 2.0 * HOUR_S;
/// How often a step is cut to meet a threshold.
const CUTS: usize = 8;
/// Beyond these temperatures nothing here holds, °C.
const BOUNDS_C: std::ops::RangeInclusive<f64> = -150.0..=500.0;

/// How it is stepped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steps {
    /// The longest step.
    pub longest: Duration,
    /// Steps after which a day is given up.
    pub most_in_a_day: u32,
}

impl Default for Steps {
    /// Ten minutes, and as many switchings as a thermostat can well make.
    fn default() -> Self {
        Self {
            longest: Duration::from_minutes(10.0),
            most_in_a_day: 20_000,
        }
    }
}

/// A thermostat, ready to act.
#[derive(Clone, Copy, Debug)]
pub(super) struct Thermostat {
    on_below: f64,
    off_above: f64,
    /// The node with the probe; none where it hangs in the air.
    pub node: Option<usize>,
}

/// A standing at a time.
#[derive(Clone, Debug)]
pub struct Column {
    pub(super) network: Network,
    pub(super) temperatures: Vec<f64>,
    pub(super) thermostat: Option<Thermostat>,
    control: Option<Control>,
    power: f64,
    pub(super) on: bool,
    next_act_s: f64,
    time_s: f64,
    steps: Steps,
    longest_s: f64,
    /// Seconds of the day at which a step must end, rising.
    edges_s: Vec<f64>,
    equations: Bordered,
    known: Vec<f64>,
    first: Vec<f64>,
    second: Vec<f64>,
    air_before: f64,
}

/// What a step did.
struct Step {
    seconds: f64,
    first: Flows,
    second: Flows,
    air_first: f64,
    air_second: f64,
}

/// What is gathered over a time.
pub(super) struct Gathered {
    pub balance: Balance,
    /// ∫ T dt of the nodes, K s.
    pub integral: Vec<f64>,
    air_integral: f64,
    pub heated_s: f64,
    switched_on: u32,
    short_s: f64,
    lowest: Vec<(f64, f64)>,
    highest: Vec<(f64, f64)>,
    most_samples: usize,
    samples: Vec<Vec<f64>>,
}

impl Column {
    /// A standing that begins at midnight with everything at one temperature.
    ///
    /// # Errors
    /// [`NoColumn`] where the standing or the steps make no sense.
    pub fn new(standing: &Standing, begins: Temperature, steps: Steps) -> Result<Self, NoColumn> {
        let longest_s = steps.longest.in_seconds();
        if !(longest_s > INSTANT_S && longest_s <= HOUR_S && begins.in_celsius().is_finite()) {
            return Err(NoColumn::Steps);
        }
        let mut network = Network::new(standing)?;
        let thermostat = match standing.heater.map(|heater| heater.control) {
            Some(Control::Thermostat { set, band, probe }) => {
                let node = network.node_of(probe);
                if node.is_none() && probe != Place::Air {
                    return Err(NoColumn::Probe);
                }
                let half = band.in_kelvins() / 2.0;
                Some(Thermostat {
                    on_below: set.in_celsius() - half,
                    off_above: set.in_celsius() + half,
                    node,
                })
            }
            _ => None,
        };
        let mut edges_s: Vec<f64> = network
            .hours_of_change()
            .map(|hour| hour.rem_euclid(DAY_H) * HOUR_S)
            .collect();
        edges_s.push(DAY_S);
        edges_s.sort_unstable_by(f64::total_cmp);
        let nodes = network.nodes();
        network.begin_at(begins.in_celsius());
        Ok(Self {
            temperatures: vec![begins.in_celsius(); nodes],
            thermostat,
            control: standing.heater.map(|heater| heater.control),
            power: standing
                .heater
                .map_or(0.0, |heater| heater.power.in_watts_per_square_metre()),
            on: false,
            next_act_s: 0.0,
            time_s: 0.0,
            steps,
            longest_s,
            edges_s,
            equations: Bordered::new(nodes),
            known: vec![0.0; nodes],
            first: vec![0.0; nodes],
            second: vec![0.0; nodes],
            air_before: begins.in_celsius(),
            network,
        })
    }

    /// The time it has come to, s since midnight of the first day.
    #[must_use]
    pub fn time_s(&self) -> f64 {
        self.time_s
    }

    /// How warm a place is now, °C; none if there is no such place.
    #[must_use]
    pub fn temperature_c(&self, place: Place) -> Option<f64> {
        if place == Place::Air {
            return Some(self.network.air);
        }
        self.network
            .node_of(place)
            .map(|node| self.temperatures[node])
    }

    fn probe(&self, temperatures: &[f64]) -> Option<f64> {
        self.thermostat.map(|thermostat| match thermostat.node {
            Some(node) => temperatures[node],
            None => self.network.air,
        })
    }

    /// Whether the heater should run now.
    fn mind(&mut self) -> bool {
        let was = self.on;
        match (
            self.control,
            self.thermostat,
            self.probe(&self.temperatures),
        ) {
            (Some(Control::On), ..) => self.on = true,
            (_, Some(thermostat), Some(probe)) => {
                if self.time_s >= self.next_act_s - INSTANT_S {
                    if probe <= thermostat.on_below + ACTS_WITHIN_K {
                        self.on = true;
                    } else if probe >= thermostat.off_above - ACTS_WITHIN_K {
                        self.on = false;
                    }
                    if self.on != was {
                        self.network.forget();
                        self.next_act_s = self.time_s + DWELL_S;
                    }
                }
            }
            _ => self.on = false,
        }
        self.on && !was
    }

    fn drive(&self, course: &Course, time_s: f64) -> Drive {
        Drive {
            moment: course.at(time_s),
            heater: if self.on { self.power } else { 0.0 },
        }
    }

    /// One stage: solves T = known + weight × rates(T), and tells the flows.
    fn stage(&mut self, weight_s: f64, drive: &Drive, is_second: bool) -> Flows {
        self.network.load(drive, &mut self.equations);
        for (node, capacity) in self.network.capacity.iter().enumerate() {
            let stored = capacity / weight_s;
            self.equations.diagonal[node] += stored;
            self.equations.right[node] += stored * self.known[node];
        }
        let into = if is_second {
            &mut self.second
        } else {
            &mut self.first
        };
        let shared = self.equations.solve(into);
        self.network.follow(into, shared, drive)
    }

    fn attempt(&mut self, course: &Course, seconds: f64) -> Step {
        let weight_s = GAMMA * seconds;
        let middle_s = self.time_s + seconds / 2.0;
        let hour = middle_s.rem_euclid(DAY_S) / HOUR_S;
        let moment = course.at(middle_s);
        self.network
            .hold(&self.temperatures, &moment, hour, seconds / 2.0);
        self.known.copy_from_slice(&self.temperatures);
        let drive = self.drive(course, self.time_s + weight_s);
        let first = self.stage(weight_s, &drive, false);
        let air_first = self.network.air;
        for ((known, first), begin) in self
            .known
            .iter_mut()
            .zip(&self.first)
            .zip(&self.temperatures)
        {
            *known = begin + (1.0 - GAMMA) / GAMMA * (first - begin);
        }
        let drive = self.drive(course, self.time_s + seconds);
        let second = self.stage(weight_s, &drive, true);
        Step {
            seconds,
            first,
            second,
            air_first,
            air_second: self.network.air,
        }
    }

    /// The share of a step after which the thermostat's threshold is met; none where it is not.
    fn crossed(&self) -> Option<f64> {
        let thermostat = self.thermostat?;
        let (before, after) = match thermostat.node {
            Some(node) => (self.temperatures[node], self.second[node]),
            None => (self.air_before, self.network.air),
        };
        let (threshold, beyond) = if self.on {
            (thermostat.off_above, after - thermostat.off_above)
        } else {
            (thermostat.on_below, thermostat.on_below - after)
        };
        if beyond <= ACTS_WITHIN_K || before == after {
            return None;
        }
        Some(((threshold - before) / (after - before)).clamp(0.0, 1.0))
    }

    /// One step, no longer than to a time, the thermostat acting at its end.
    fn step(&mut self, course: &Course, until_s: f64) -> Result<Step, NoColumn> {
        let of_day = self.time_s.rem_euclid(DAY_S);
        let edge = self
            .edges_s
            .iter()
            .find(|edge| **edge > of_day + INSTANT_S)
            .map_or(DAY_S, |edge| *edge);
        // Steps end at whole multiples of the longest, where courses have their corners.
        let next = ((of_day + INSTANT_S) / self.longest_s).floor() + 1.0;
        let mut seconds = (next * self.longest_s).min(edge) - of_day;
        seconds = seconds.min(until_s - self.time_s);
        self.network.keep();
        self.air_before = self.network.air;
        let mut step = self.attempt(course, seconds);
        let may_act_s = self.next_act_s - self.time_s;
        for _ in 0..CUTS {
            let Some(part) = self.crossed() else { break };
            let shorter = (part * step.seconds).max(may_act_s).max(INSTANT_S);
            if shorter >= step.seconds * (1.0 - 1e-9) {
                break;
            }
            self.network.take_back();
            self.network.air = self.air_before;
            step = self.attempt(course, shorter);
        }
        self.network.learn(
            &self.temperatures,
            &self.second,
            self.air_before,
            step.seconds,
        );
        self.temperatures.copy_from_slice(&self.second);
        self.time_s += step.seconds;
        if self.temperatures.iter().all(|t| BOUNDS_C.contains(t))
            && BOUNDS_C.contains(&self.network.air)
        {
            Ok(step)
        } else {
            Err(NoColumn::OutOfBounds {
                time_s: self.time_s,
            })
        }
    }

    /// Room for what is gathered to a time: places, and how many samples.
    pub(super) fn gathering(&self, samples: usize) -> Gathered {
        let places = self.network.places().count();
        Gathered {
            balance: Balance::default(),
            integral: vec![0.0; self.network.nodes()],
            air_integral: 0.0,
            heated_s: 0.0,
            switched_on: 0,
            short_s: 0.0,
            lowest: vec![(f64::INFINITY, 0.0); places],
            highest: vec![(f64::NEG_INFINITY, 0.0); places],
            most_samples: samples,
            samples: (0..places).map(|_| Vec::with_capacity(samples)).collect(),
        }
    }

    fn of_place(&self, place: Place) -> f64 {
        match place {
            Place::Air => self.network.air,
            _ => self
                .network
                .node_of(place)
                .map_or(f64::NAN, |node| self.temperatures[node]),
        }
    }

    fn sample(&self, gathered: &mut Gathered) {
        for (samples, place) in gathered.samples.iter_mut().zip(self.network.places()) {
            if samples.len() < gathered.most_samples {
                samples.push(self.of_place(place));
            }
        }
    }

    /// Goes on to a time, gathering. Nothing is allocated on the way.
    pub(super) fn go_on(
        &mut self,
        course: &Course,
        until_s: f64,
        spacing_s: f64,
        gathered: &mut Gathered,
    ) -> Result<(), NoColumn> {
        let begins_s = self.time_s;
        let most =
            f64::from(self.steps.most_in_a_day) * ((until_s - begins_s) / DAY_S).max(1.0).ceil();
        let (mut steps, mut sampled) = (0.0, 0.0);
        if begins_s == 0.0 {
            // Nothing is known yet of the air but the course.
            self.network
                .hold(&self.temperatures, &course.at(0.0), 0.0, 0.0);
        }
        while self.time_s < until_s - INSTANT_S {
            if steps >= most {
                return Err(NoColumn::TooManySteps {
                    time_s: self.time_s,
                });
            }
            steps += 1.0;
            let sample_s = begins_s + sampled * spacing_s;
            if self.time_s >= sample_s - INSTANT_S {
                self.sample(gathered);
                sampled += 1.0;
            }
            let stop_s = until_s.min(begins_s + sampled * spacing_s);
            if self.mind() {
                gathered.switched_on += 1;
            }
            let step = self.step(course, stop_s)?;
            let (a, b) = ((1.0 - GAMMA) * step.seconds, GAMMA * step.seconds);
            gathered.balance.add(&step.first, a);
            gathered.balance.add(&step.second, b);
            for ((sum, first), second) in gathered
                .integral
                .iter_mut()
                .zip(&self.first)
                .zip(&self.second)
            {
                *sum += a * first + b * second;
            }
            gathered.air_integral += a * step.air_first + b * step.air_second;
            if self.on && self.power > 0.0 {
                gathered.heated_s += step.seconds;
                if let (Some(thermostat), Some(probe)) =
                    (self.thermostat, self.probe(&self.temperatures))
                    && probe < thermostat.on_below - ACTS_WITHIN_K
                    && self.time_s - self.next_act_s > SLOW_S
                {
                    gathered.short_s += step.seconds;
                }
            }
            for (at, place) in self.network.places().enumerate() {
                let now = self.of_place(place);
                if now < gathered.lowest[at].0 {
                    gathered.lowest[at] = (now, self.time_s);
                }
                if now > gathered.highest[at].0 {
                    gathered.highest[at] = (now, self.time_s);
                }
            }
        }
        Ok(())
    }

    pub(super) fn stored_since(&self, before: &[f64]) -> f64 {
        self.network
            .capacity
            .iter()
            .zip(&self.temperatures)
            .zip(before)
            .map(|((capacity, now), before)| capacity * (now - before))
            .sum()
    }

    /// Goes on to a time and tells what became of it, with a sample at equal times.
    ///
    /// # Errors
    /// [`NoColumn`] where the times lie outside the course, it cannot be followed, or its balance does not close.
    pub fn through(
        &mut self,
        course: &Course,
        until: Duration,
        sampled: Duration,
    ) -> Result<Record, NoColumn> {
        /// No more samples than this are kept of a place.
        const MOST_SAMPLES: f64 = 1e5;
        let (begins_s, ends_s) = (self.time_s, until.in_seconds());
        let spacing_s = sampled.in_seconds();
        let samples = (ends_s - begins_s) / spacing_s;
        let is_in_time = ends_s > begins_s + INSTANT_S
            && ends_s.is_finite()
            && ends_s <= course.end_s() + INSTANT_S
            && spacing_s > INSTANT_S
            && samples <= MOST_SAMPLES;
        if !is_in_time {
            return Err(NoColumn::Times);
        }
        let before = self.temperatures.clone();
        let mut gathered = self.gathering((samples - INSTANT_S / spacing_s).floor() as usize + 1);
        self.go_on(course, ends_s, spacing_s, &mut gathered)?;
        gathered.balance.stored_j_per_m2 = self.stored_since(&before);
        let gap = gathered.balance.relative_gap();
        if gap.is_nan() || gap > Balance::MOST_GAP {
            return Err(NoColumn::DoesNotBalance { gap });
        }
        let seconds = ends_s - begins_s;
        let mut samples = gathered.samples.into_iter();
        let traces = self
            .network
            .places()
            .enumerate()
            .map(|(at, place)| Trace {
                place,
                samples_c: samples.next().unwrap_or_default(),
                mean_c: match self.network.node_of(place) {
                    Some(node) => gathered.integral[node],
                    None => gathered.air_integral,
                } / seconds,
                lowest_c: gathered.lowest[at].0,
                lowest_s: gathered.lowest[at].1,
                highest_c: gathered.highest[at].0,
                highest_s: gathered.highest[at].1,
            })
            .collect();
        Ok(Record {
            begins_s,
            ends_s,
            spacing_s,
            traces,
            balance: gathered.balance,
            heated_s: gathered.heated_s,
            switched_on: gathered.switched_on,
            short_s: gathered.short_s,
        })
    }

    /// Adds a correction to every node, and lets the surfaces be as far off.
    pub(super) fn shift(&mut self, by: &[f64]) {
        for (temperature, by) in self.temperatures.iter_mut().zip(by) {
            *temperature += by;
        }
    }

    /// Back to midnight, as it is.
    pub(super) fn at_midnight(&mut self) {
        self.next_act_s = (self.next_act_s - self.time_s).max(0.0);
        self.time_s = 0.0;
    }

    /// Conductances and sources as they are held at a time, without what is stored.
    pub(super) fn held_at(
        &mut self,
        course: &Course,
        time_s: f64,
        temperatures: &[f64],
    ) -> &mut Bordered {
        let moment = course.at(time_s);
        let hour = time_s.rem_euclid(DAY_S) / HOUR_S;
        self.network.hold(temperatures, &moment, hour, 0.0);
        let drive = Drive {
            moment,
            heater: 0.0,
        };
        self.network.load(&drive, &mut self.equations);
        &mut self.equations
    }
}
