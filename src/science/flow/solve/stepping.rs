//! Steps through time: their length, their error, and the valve between them.

use super::super::NoFlow;
use super::super::station::{Foot, Top};
use super::super::table::{driest, stretched};
use super::super::tray::FILM_M;
use super::{Flow, Now};

/// γ of the two-stage method that is stable for every step and exact at its end: 1 - 1/√2.
const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
/// Iterations above which the next step is no longer than this one.
const MANY_ITERATIONS: usize = 12;
/// A first guess goes on by no more than this power of e in suction.
const GUESSED: f64 = 0.2;
/// Steps shorter than this are not tried, s.
const SHORTEST_S: f64 = 1e-7;

/// What the air and the grower do, as functions of the seconds since the start.
pub struct Weather<'a> {
    /// Demand of the plants as a multiple of each station's mean.
    pub demand: &'a dyn Fn(f64) -> f64,
    /// Evaporation from wet surfaces, m/s.
    pub evaporation_m_per_s: &'a dyn Fn(f64) -> f64,
    /// Water on the tops of the stations, m/s.
    pub watering_m_per_s: &'a dyn Fn(f64) -> f64,
    /// The suction at which a surface is as dry as the air, m; 100 m (about 10⁴ cm) is usual.
    pub air_dry_suction_m: f64,
}

impl Weather<'static> {
    /// Nothing asked, nothing given.
    #[must_use]
    pub fn still() -> Self {
        Self {
            demand: &|_| 0.0,
            evaporation_m_per_s: &|_| 0.0,
            watering_m_per_s: &|_| 0.0,
            air_dry_suction_m: 100.0,
        }
    }
}

/// How time is stepped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steps {
    /// The first step, s.
    pub first_s: f64,
    /// The longest step, s.
    pub longest_s: f64,
    /// The water that a step's first-order error may misplace, as a share of all pores. The error of
    /// the step itself is of second order and much smaller. Infinite, it gives steps of even length.
    pub tolerance: f64,
    /// Steps after which the run is given up.
    pub most: usize,
}

impl Default for Steps {
    /// A simulated day of a bed and a pot to about one part in a hundred.
    fn default() -> Self {
        Self {
            first_s: 1.0,
            longest_s: 1800.0,
            tolerance: 1e-3,
            most: 1_000_000,
        }
    }
}

impl Flow {
    fn weather_at(&self, weather: &Weather<'_>, time_s: f64) -> Result<Now, NoFlow> {
        let now = Now {
            demand: (weather.demand)(time_s),
            evaporation: (weather.evaporation_m_per_s)(time_s),
            watering: (weather.watering_m_per_s)(time_s),
            air_dry_m: weather.air_dry_suction_m,
            valve: if self.valve.open {
                self.filling.rate_m3_per_s()
            } else {
                0.0
            },
        };
        let sound = |x: f64| x >= 0.0 && x.is_finite();
        if [now.demand, now.evaporation, now.watering]
            .into_iter()
            .all(sound)
            && now.air_dry_m > 0.0
        {
            Ok(now)
        } else {
            Err(NoFlow::Weather { time_s })
        }
    }

    /// Tries a step. Gives the share of the pores' water that its first-order error misplaces and the
    /// iterations of its worse stage; nothing where it could not be solved.
    fn attempt(
        &mut self,
        weather: &Weather<'_>,
        step_s: f64,
    ) -> Result<Option<(f64, usize)>, NoFlow> {
        self.heads_before.copy_from_slice(&self.heads);
        self.level_before_m = self.level_m;
        if let Some(found) = self.attempt_in_two_stages(weather, step_s)? {
            return Ok(Some(found));
        }
        self.take_back();
        self.attempt_in_one_stage(weather, step_s)
    }

    fn attempt_in_two_stages(
        &mut self,
        weather: &Weather<'_>,
        step_s: f64,
    ) -> Result<Option<(f64, usize)>, NoFlow> {
        let tau_s = GAMMA * step_s;
        self.known.copy_from_slice(&self.water);
        let now = self.weather_at(weather, self.time_s + tau_s)?;
        let Some(first) = self.stage(tau_s, &now) else {
            return Ok(None);
        };
        self.rates_first.copy_from_slice(&self.rates);
        self.flows_first = self.flows;
        self.drinks_first.copy_from_slice(&self.drinks);
        for ((known, water), rate) in self
            .known
            .iter_mut()
            .zip(&self.water)
            .zip(&self.rates_first)
        {
            *known = water + step_s * (1.0 - GAMMA) * rate;
        }
        // On from the first stage as it went so far, where that is no great way.
        for (head, before) in self.heads.iter_mut().zip(&self.heads_before) {
            let change = (*head - before) * ((1.0 - GAMMA) / GAMMA);
            if change.abs() < GUESSED {
                *head += change;
            }
        }
        let now = self.weather_at(weather, self.time_s + step_s)?;
        let Some(second) = self.stage(tau_s, &now) else {
            return Ok(None);
        };
        let change = self.change_of_rates(&self.rates_first);
        Ok(Some((change * tau_s / self.capacity_m3, first.max(second))))
    }

    /// Euler's implicit step. The second of two stages starts from water carried on beyond the first,
    /// which there may not be where a surface gives out or a tray runs dry within the step; this one
    /// never asks for such.
    fn attempt_in_one_stage(
        &mut self,
        weather: &Weather<'_>,
        step_s: f64,
    ) -> Result<Option<(f64, usize)>, NoFlow> {
        self.known.copy_from_slice(&self.water);
        let now = self.weather_at(weather, self.time_s + step_s)?;
        let Some(iterations) = self.stage(step_s, &now) else {
            return Ok(None);
        };
        // The error of the first order is half the step times the change of rates over it.
        let change = self.change_of_rates(&self.rates_accepted);
        self.rates_first.copy_from_slice(&self.rates);
        self.flows_first = self.flows;
        self.drinks_first.copy_from_slice(&self.drinks);
        Ok(Some((0.5 * change * step_s / self.capacity_m3, iterations)))
    }

    /// How much the rates are now unlike others, summed over all nodes, m³/s.
    fn change_of_rates(&self, others: &[f64]) -> f64 {
        let last = self.nodes.len();
        let tray = if self.has_tray {
            (self.rates[last] - others[last]).abs()
        } else {
            0.0
        };
        self.columns.iter().fold(tray, |sum, column| {
            let own: f64 = (column.first..column.end)
                .map(|node| (self.rates[node] - others[node]).abs())
                .sum();
            sum + column.count * own
        })
    }

    fn take_back(&mut self) {
        self.heads.copy_from_slice(&self.heads_before);
        self.level_m = self.level_before_m;
    }

    fn accept(&mut self, step_s: f64) {
        let (a, b) = (step_s * (1.0 - GAMMA), step_s * GAMMA);
        for ((water, first), second) in self
            .water
            .iter_mut()
            .zip(&self.rates_first)
            .zip(&self.rates)
        {
            *water += a * first + b * second;
        }
        for (flows, times) in [(self.flows_first, a), (self.flows, b)] {
            let sum = &mut self.balance;
            sum.let_in_m3 += times * flows.let_in;
            sum.watered_m3 += times * flows.watered;
            sum.across_held_heads_m3 += times * flows.held;
            sum.drunk_m3 += times * flows.drunk;
            sum.evaporated_from_media_m3 += times * flows.evaporated;
            sum.evaporated_from_water_m3 += times * flows.from_water;
        }
        let drinks = self.drinks_first.iter().zip(&self.drinks);
        for (drunk_m3, (first, second)) in self.drunk_m3.iter_mut().zip(drinks) {
            *drunk_m3 += a * first + b * second;
        }
        self.rates_accepted.copy_from_slice(&self.rates);
        self.time_s += step_s;
        self.steps += 1;
    }

    fn find_floors(&mut self, air_dry_m: f64) {
        for column in &self.columns {
            let wilted_m = column.stress.map(|stress| stress.wilted_m());
            for node in column.first..column.end {
                let cut = &self.nodes[node];
                // Beside its neighbours; they dry no further than their own.
                let driest_m = match wilted_m {
                    _ if cut.open_m2 > 0.0 => Some(air_dry_m),
                    Some(wilted_m) if cut.roots > 0.0 => Some(wilted_m.max(air_dry_m)),
                    _ => None,
                };
                self.floors[node] = driest_m.map_or(driest(), |suction_m| stretched(-suction_m));
            }
        }
    }

    fn hold_heads(&mut self) {
        for column in &self.columns {
            if let Foot::Head(head_m) = column.foot {
                self.heads[column.first] = stretched(head_m);
            }
            if let Top::Head(head_m) = column.top {
                self.heads[column.end - 1] = stretched(head_m);
            }
        }
    }

    /// Runs on to a time since the start. `watch` sees the flow after every step.
    ///
    /// # Errors
    /// [`NoFlow`] where the weather or the steps make no sense, or a step cannot be solved. The flow
    /// then stands where it last was.
    pub fn run(
        &mut self,
        until_s: f64,
        weather: &Weather<'_>,
        steps: &Steps,
        watch: &mut dyn FnMut(&Self),
    ) -> Result<(), NoFlow> {
        let positive = |x: f64| x > 0.0;
        if !([steps.first_s, steps.longest_s, steps.tolerance]
            .into_iter()
            .all(positive)
            && until_s.is_finite())
        {
            return Err(NoFlow::Steps);
        }
        if self.step_s <= 0.0 {
            self.step_s = steps.first_s;
        }
        self.hold_heads();
        self.find_floors(weather.air_dry_suction_m);
        let begun = self.steps;
        // Times nearer than this are one.
        let instant_s = SHORTEST_S.max(1e-12 * until_s.abs());
        while self.time_s < until_s - instant_s {
            if self.has_tray
                && self
                    .valve
                    .mind(&self.filling, self.time_s + instant_s, self.level_m)
            {
                self.step_s = self.step_s.min(steps.first_s);
            }
            let stop_s = self
                .valve
                .next_s(&self.filling)
                .filter(|next| *next > self.time_s + instant_s)
                .map_or(until_s, |next| next.min(until_s));
            let mut step_s = self.step_s.min(steps.longest_s);
            let mut clipped = false;
            if self.time_s + step_s >= stop_s - instant_s {
                clipped = self.time_s + step_s > stop_s + instant_s;
                step_s = stop_s - self.time_s;
            }
            let next_s = loop {
                if self.steps - begun >= steps.most {
                    return Err(NoFlow::TooManySteps {
                        time_s: self.time_s,
                    });
                }
                let shorter = match self.attempt(weather, step_s)? {
                    None => Some(0.25 * step_s),
                    Some((error, iterations)) => {
                        /// Steps aim at this share of the tolerance.
                        const AIM: f64 = 0.8;
                        let change = AIM * (steps.tolerance / error.max(1e-300)).sqrt();
                        if error > steps.tolerance && step_s > 1e3 * SHORTEST_S {
                            Some(step_s * change.clamp(0.1, 0.8))
                        } else if let Some(share) = self.overshoot(step_s) {
                            Some(step_s * share)
                        } else {
                            let most = if iterations > MANY_ITERATIONS {
                                1.0
                            } else {
                                3.0
                            };
                            self.accept(step_s);
                            break step_s * change.clamp(0.2, most);
                        }
                    }
                };
                if let Some(shorter) = shorter {
                    self.take_back();
                    step_s = shorter;
                    clipped = false;
                    if step_s < SHORTEST_S {
                        return Err(NoFlow::DoesNotConverge {
                            time_s: self.time_s,
                        });
                    }
                }
            };
            // A step cut to meet a time tells nothing against the next one's length.
            self.step_s = if clipped {
                self.step_s.max(next_s)
            } else {
                next_s
            };
            self.balance.stored_m3 = self.stored_m3();
            watch(self);
        }
        Ok(())
    }

    /// The share to which a step is cut that took the level past the one at which the valve acts.
    fn overshoot(&self, step_s: f64) -> Option<f64> {
        /// A step as short as this meets it well enough, s.
        const PROMPT_S: f64 = 10.0;
        if !self.has_tray || step_s <= PROMPT_S {
            return None;
        }
        let (was, is) = (self.level_before_m, self.level_m);
        let level = if self.valve.open {
            let shuts = self.filling.shuts_at_m() - FILM_M;
            (was < shuts && is >= shuts).then_some(shuts)
        } else {
            let waiting = self.valve.opens_s.is_none();
            let opens = self.filling.opens_at_m();
            opens.filter(|opens| waiting && was > *opens && is <= *opens)
        };
        level.map(|level| ((level - was) / (is - was)).clamp(0.1, 0.6))
    }
}
