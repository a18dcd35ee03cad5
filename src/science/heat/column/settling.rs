//! The day that repeats itself.
//!
//! A day by itself carries what was wrong at its beginning on for weeks: a metre of ground forgets in eight
//! days or so. So each day is used to set the next one right. Over a day K T̄ = b̄ - C ΔT/P, so the mean of the
//! day that repeats itself lies K⁻¹ C ΔT/P above that of the day just run. What is fast has long been
//! forgotten by the day's end and needs no such correction: (I + P C⁻¹ K/2)⁻¹ of it is taken, by which each
//! mode of decay λ is set right by (1 - e^-λP)/(λP + (λP)²/2), where e^-λP would be perfect; the rest is
//! at most a twelfth, and the next day sees to it.

use super::NoColumn;
use super::course::Course;
use super::record::Record;
use super::standing::Standing;
use super::stepping::{Column, Steps};
use crate::measure::{Duration, Temperature};
use crate::science::heat::ground::DAY_S;

/// The day repeats itself where its end is no further than this from its beginning, K.
const TOLERANCE_K: f64 = 1e-4;
/// After so many days this will do, K: where free convection turns over between two steps, its coefficient
/// jumps, and days may differ for good by a little, about as much as steps are off.
const LATER: (u32, f64) = (12, 1e-2);
/// Days run at most.
const MOST_DAYS: u32 = 60;
/// With a thermostat, whose switchings fall elsewhere each day, no day quite repeats itself. So many are run
/// at least, and so many at most; of those after the least, the one is taken that ends with most nearly the
/// heat with which it began.
const SWITCHED_DAYS: std::ops::RangeInclusive<u32> = 4..=12;
/// A day with a thermostat whose heat is no further off than this will do at once, W/m² over the day.
const STORED_W_PER_M2: f64 = 0.2;
/// One that is further off than this will not do at all, W/m² over the day.
const MOST_STORED_W_PER_M2: f64 = 10.0;
/// Once so many days are run with a thermostat, what is left to correct is mostly where in its band the day
/// began and ended, and this share of it is taken.
const LATE_SHARE: f64 = 0.3;
/// A probe that a thermostat holds is as good as tied to it by this, W/m² K.
const HELD_W_PER_M2_K: f64 = 1e3;
/// It holds where it runs for a share of the day between these.
const HOLDS: std::ops::Range<f64> = 0.005..0.995;
/// Times of the day at which the conductances are looked at for the correction.
const LOOKS: usize = 8;

/// A day that repeats itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Settled {
    /// The day.
    pub day: Record,
    /// How many days were run to find it.
    pub days: u32,
    /// How far its end is from its beginning, the largest of all nodes, K; with a thermostat also where in
    /// its band the day began and ended.
    pub drift_k: f64,
}

/// A day that may be the one, as it began.
struct Candidate {
    start: Column,
    /// Between its end and its beginning, W/m² over the day.
    stored: f64,
    drift_k: f64,
}

/// The midnight of the day that repeats itself.
struct Midnight {
    found: Candidate,
    days: u32,
}

/// Room for the correction.
struct Correction {
    diagonal: Vec<f64>,
    link: Vec<f64>,
    first: Vec<f64>,
    second: Vec<f64>,
}

impl Column {
    /// The day of a standing that repeats itself, with samples at equal times of it.
    ///
    /// # Errors
    /// [`NoColumn`] where something makes no sense or the day does not come to repeat itself.
    pub fn settled(
        standing: &Standing,
        course: &Course,
        sampled: Duration,
        steps: Steps,
    ) -> Result<Settled, NoColumn> {
        if !course.repeats() {
            return Err(NoColumn::Course);
        }
        let Midnight { mut found, days } = Self::midnight(standing, course, steps)?;
        // Once more, with all that is asked.
        let a_day = Duration::from_seconds(DAY_S);
        let day = found.start.through(course, a_day, sampled)?;
        Ok(Settled {
            day,
            days,
            drift_k: found.drift_k,
        })
    }

    /// A standing at the first midnight of a course of days, as if many days such as the first had gone before.
    ///
    /// # Errors
    /// [`NoColumn`] where something makes no sense or the first day does not come to repeat itself.
    pub fn begun(standing: &Standing, course: &Course, steps: Steps) -> Result<Self, NoColumn> {
        Ok(Self::midnight(standing, &course.first_day()?, steps)?
            .found
            .start)
    }

    fn midnight(standing: &Standing, course: &Course, steps: Steps) -> Result<Midnight, NoColumn> {
        let begins = Temperature::from_celsius(course.mean().bench_air_c);
        Self::new(standing, begins, steps)?.settle(course)
    }

    fn settle(&mut self, course: &Course) -> Result<Midnight, NoColumn> {
        let switches = self.thermostat.is_some();
        let nodes = self.temperatures.len();
        let mut correction = Correction {
            diagonal: vec![0.0; nodes],
            link: vec![0.0; nodes],
            first: vec![0.0; nodes],
            second: vec![0.0; nodes],
        };
        let mut before = self.temperatures.clone();
        let mut means = vec![f64::INFINITY; nodes];
        let mut drift_k = f64::INFINITY;
        let mut nearest: Option<Candidate> = None;
        for days in 1..=MOST_DAYS {
            self.at_midnight();
            before.copy_from_slice(&self.temperatures);
            let start = self.clone();
            let mut gathered = self.gathering(0);
            self.go_on(course, DAY_S, DAY_S, &mut gathered)?;
            drift_k = largest_of(&self.temperatures, &before);
            for (mean, integral) in means.iter_mut().zip(&gathered.integral) {
                *mean = integral / DAY_S;
            }
            let stored = self.stored_since(&before).abs() / DAY_S;
            if switches && days >= *SWITCHED_DAYS.start() {
                if nearest.as_ref().is_none_or(|known| stored < known.stored) {
                    nearest = Some(Candidate {
                        start,
                        stored,
                        drift_k,
                    });
                }
                let is_last = days >= *SWITCHED_DAYS.end();
                let will_do = if is_last {
                    MOST_STORED_W_PER_M2
                } else {
                    STORED_W_PER_M2
                };
                if let Some(found) = nearest.take_if(|known| known.stored < will_do) {
                    return Ok(Midnight { found, days });
                } else if is_last {
                    break;
                }
            } else if !switches && (drift_k < TOLERANCE_K || (days > LATER.0 && drift_k < LATER.1))
            {
                let found = Candidate {
                    start,
                    stored,
                    drift_k,
                };
                return Ok(Midnight { found, days });
            }
            let duty = gathered.heated_s / DAY_S;
            self.correct(course, &before, &means, duty, &mut correction);
            if switches && days >= *SWITCHED_DAYS.start() {
                for by in &mut correction.first {
                    *by *= LATE_SHARE;
                }
            }
            self.shift(&correction.first);
        }
        Err(NoColumn::DoesNotSettle { drift_k })
    }

    fn correct(
        &mut self,
        course: &Course,
        before: &[f64],
        means: &[f64],
        duty: f64,
        room: &mut Correction,
    ) {
        let nodes = self.temperatures.len();
        let (now_air, beyond) = (self.network.air, self.network.conductance_beyond_shared());
        self.network.keep();
        room.diagonal.fill(0.0);
        room.link.fill(0.0);
        for look in 0..LOOKS {
            let time_s = DAY_S * (look as f64 + 0.5) / LOOKS as f64;
            let held = self.held_at(course, time_s, means);
            // What shares the air under a cover is joined to the house through the cover.
            let shared: f64 = held.shared.iter().sum();
            for node in 0..nodes {
                let own = held.shared[node];
                let kept = if shared > 0.0 && beyond > 0.0 {
                    own * beyond / (beyond + shared) - own
                } else {
                    0.0
                };
                room.diagonal[node] += (held.diagonal[node] + kept) / LOOKS as f64;
                room.link[node] += held.link[node] / LOOKS as f64;
            }
        }
        self.network.take_back();
        self.network.air = now_air;
        if let Some(node) = self.thermostat.and_then(|thermostat| thermostat.node)
            && HOLDS.contains(&duty)
        {
            room.diagonal[node] += HELD_W_PER_M2_K;
        }
        let capacity = &self.network.capacity;
        for (((deficit, capacity), now), before) in room
            .first
            .iter_mut()
            .zip(capacity)
            .zip(&self.temperatures)
            .zip(before)
        {
            *deficit = capacity * (now - before) / DAY_S;
        }
        chain_solved(
            &room.diagonal,
            &room.link,
            &mut room.first,
            &mut room.second,
        );
        // (C + K P/2) δ = C δ₁.
        for (node, capacity) in capacity.iter().enumerate() {
            room.first[node] *= capacity;
            room.diagonal[node] = capacity + room.diagonal[node] * DAY_S / 2.0;
            room.link[node] *= DAY_S / 2.0;
        }
        chain_solved(
            &room.diagonal,
            &room.link,
            &mut room.first,
            &mut room.second,
        );
    }
}

fn largest_of(one: &[f64], other: &[f64]) -> f64 {
    one.iter()
        .zip(other)
        .map(|(one, other)| (one - other).abs())
        .fold(0.0, f64::max)
}

/// Solves d_i x_i - l_i x_{i+1} - l_{i-1} x_{i-1} = r_i in place (Thomas's algorithm).
fn chain_solved(diagonal: &[f64], link: &[f64], right: &mut [f64], room: &mut [f64]) {
    let nodes = diagonal.len();
    let (mut before, mut swept, mut link_below) = (0.0, 0.0, 0.0);
    for node in 0..nodes {
        let pivot = 1.0 / (diagonal[node] - link_below * swept);
        before = (right[node] + link_below * before) * pivot;
        swept = link[node] * pivot;
        right[node] = before;
        room[node] = swept;
        link_below = link[node];
    }
    for node in (0..nodes.saturating_sub(1)).rev() {
        right[node] += room[node] * right[node + 1];
    }
}
