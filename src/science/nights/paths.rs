//! The chance that every one of several nights stays above a limit.

use std::ops::Range;
use std::sync::OnceLock;

use super::outlook::{MOST_NIGHTS, Outlook};
use crate::science::counting::standard_normal_share_quickly;
use crate::science::numerics::draws::{Draws, standard_normal_quantile};
use crate::science::numerics::linear::Triangle;

/// The points of all paths are the same, so that the same question has the same answer.
const SEED: u64 = 0x0171_9475;

/// Lines through the space of the coming nights, along which all grow warmer together.
///
/// The nights x = m + L z, L the root of their covariance and z independent standard normal
/// deviates. z is split into its part t along one direction u and the rest; the rest is drawn, and
/// along u the chance is exact: every night stays above the limit where t > max (limit - m - h)/g,
/// with g = L u and h the rest's part in each night. Its mean over the draws is the chance. u is
/// the direction in which the sum of all nights rises fastest, L^T 1, and g is then in proportion to
/// the sums of the rows of the covariance, so that no night falls along it where nights resemble
/// each other.
///
/// Rather than separating the variables one after the other (Genz 1992, Journal of Computational
/// and Graphical Statistics 1:141-149), since with this every single draw, and so the chance, falls
/// or stays as nights are added, as a limit rises and as the nights grow colder.
///
/// Source of the split: Ditlevsen, Bjerager, Olesen & Hasofer 1988, Probabilistic Engineering
/// Mechanics 3:207-217 (directional and line simulation; from memory). The draws are the points of
/// Richtmyer's rule folded by the tent, fractional parts of multiples of the roots of primes, as in
/// Genz 1992, section 5.
#[derive(Clone, Debug)]
pub struct Paths {
    nights: usize,
    sheaves: Vec<Sheaf>,
}

/// The lines under one habit.
#[derive(Clone, Debug)]
struct Sheaf {
    weight: f64,
    /// How many lines.
    lines: usize,
    /// How fast each night warms along a line, K for a standard deviation.
    slope: Vec<f64>,
    /// Each night at the middle of every line, one night after the other, °C.
    middles: Vec<f64>,
}

/// So many lines are followed together, side by side: few enough that all their nights lie at hand.
const ABREAST: usize = 64;

/// One number for each line of those followed together.
type Abreast = [f64; ABREAST];

/// Roots of the covariance of the coming nights, under each habit: what paths are followed from.
#[derive(Clone, Debug)]
pub struct Roots {
    habits: Vec<Habit>,
}

#[derive(Clone, Debug)]
struct Habit {
    weight: f64,
    mean: Vec<f64>,
    root: Triangle,
}

impl Roots {
    pub(super) fn of(outlook: &Outlook) -> Option<Self> {
        let nights = outlook.nights();
        let habits: Option<Vec<Habit>> = outlook
            .bundles()
            .iter()
            .map(|bundle| {
                let covariance = bundle.covariance.get(..nights)?;
                Some(Habit {
                    weight: bundle.weight,
                    mean: bundle.mean.iter().take(nights).copied().collect(),
                    root: Triangle::of(covariance)?,
                })
            })
            .collect();
        Some(Self { habits: habits? })
    }

    /// So many paths over all habits through the first so many nights, or all that there are.
    #[must_use]
    pub fn paths(&self, nights: usize, count: usize) -> Paths {
        let known = self.habits.first().map_or(0, |habit| habit.mean.len());
        let nights = nights.min(known);
        // Each habit has points of its own, so that their errors do not add up.
        let each = count.div_ceil(self.habits.len().max(1)).max(1);
        let points = Points::of(nights);
        let sheaves = self
            .habits
            .iter()
            .enumerate()
            .map(|(place, habit)| {
                Sheaf::of(habit, &points, nights, place * each..(place + 1) * each)
            })
            .collect();
        Paths { nights, sheaves }
    }
}

impl Paths {
    /// So many give a chance within about 0.002, and within 0.001 mostly.
    pub const MANY: usize = 36_864;
    /// So many give a chance within about 0.006, in a sixth of the time.
    pub const QUICK: usize = 9216;

    /// The chance that all of the first `nights` stay above a limit; 1 for no night, and all that
    /// there are for more than there are. Never rises with the number of nights or the limit.
    #[must_use]
    pub fn chance_all_above(&self, limit_c: f64, nights: usize) -> f64 {
        self.chance_all_above_between(limit_c, 0..nights)
    }

    /// The same of the nights of a stretch, counted from 0 without its end: the nights that a batch
    /// meets which moves later.
    #[must_use]
    pub fn chance_all_above_between(&self, limit_c: f64, stretch: Range<usize>) -> f64 {
        let chances = self.chances_all_above(limit_c, std::slice::from_ref(&stretch));
        chances.first().copied().unwrap_or(1.0)
    }

    /// The same of many stretches at once, in their order, in little more time than one takes.
    #[must_use]
    pub fn chances_all_above(&self, limit_c: f64, stretches: &[Range<usize>]) -> Vec<f64> {
        let stretches: Vec<Range<usize>> = stretches
            .iter()
            .map(|stretch| {
                let end = stretch.end.min(self.nights);
                stretch.start.min(end)..end
            })
            .collect();
        let mut chances = vec![0.0; stretches.len()];
        for sheaf in &self.sheaves {
            let shares = sheaf.shares_above(limit_c, &stretches);
            for (chance, share) in chances.iter_mut().zip(shares) {
                *chance += sheaf.weight * share;
            }
        }
        chances
            .into_iter()
            .zip(stretches)
            .map(|(chance, stretch)| {
                if stretch.is_empty() {
                    1.0
                } else {
                    chance.clamp(0.0, 1.0)
                }
            })
            .collect()
    }
}

impl Sheaf {
    fn of(habit: &Habit, points: &Points, nights: usize, places: Range<usize>) -> Self {
        let rows = habit.root.rows();
        let rows = rows.get(..nights).unwrap_or(rows);
        let mut sums = vec![0.0; nights];
        for row in rows {
            for (sum, entry) in sums.iter_mut().zip(row) {
                *sum += entry;
            }
        }
        let length = sums.iter().map(|sum| sum * sum).sum::<f64>().sqrt();
        let along: Vec<f64> = sums.iter().map(|sum| sum / length).collect();
        let times = |row: &Vec<f64>| row.iter().zip(&along).map(|(a, b)| a * b).sum();
        let slope: Vec<f64> = rows.iter().map(times).collect();
        let lines = places.len();
        let mut middles = vec![0.0; nights * lines];
        for begin in (0..lines).step_by(ABREAST) {
            let many = ABREAST.min(lines - begin);
            let deviates = points.abreast(places.start + begin);
            // The part of each point along the line, which is left out of its middle.
            let mut parts = [0.0; ABREAST];
            for (deviates, along) in deviates.iter().zip(&along) {
                add_times(&mut parts, *along, deviates);
            }
            for (night, row) in rows.iter().enumerate() {
                let mut middle = [habit.mean[night]; ABREAST];
                for (deviates, entry) in deviates.iter().zip(row) {
                    add_times(&mut middle, *entry, deviates);
                }
                add_times(&mut middle, -slope[night], &parts);
                let from = night * lines + begin;
                middles[from..from + many].copy_from_slice(&middle[..many]);
            }
        }
        Self {
            weight: habit.weight,
            lines,
            slope,
            middles,
        }
    }

    /// The share of the lines along which each of the stretches stays above a limit.
    ///
    /// The furthest of the bounds of several nights in a row is the further of those of two runs of
    /// nights that cover them, each twice as long as one of the step before.
    fn shares_above(&self, limit_c: f64, stretches: &[Range<usize>]) -> Vec<f64> {
        let asked = stretches.iter().filter(|stretch| !stretch.is_empty());
        let first = asked.clone().map(|stretch| stretch.start).min();
        let first = first.unwrap_or(0);
        let end = asked.clone().map(|stretch| stretch.end).max().unwrap_or(0);
        let longest = asked.map(Range::len).max().unwrap_or(0);
        let nights = end.saturating_sub(first);
        let falls = self.slope[first..first + nights]
            .iter()
            .any(|slope| *slope <= 0.0);
        // By how often the run was doubled, and by its first night.
        let doubled = (longest.max(1).ilog2() + 1) as usize;
        let mut from = vec![[f64::NEG_INFINITY; ABREAST]; doubled * nights];
        let mut to = vec![[f64::INFINITY; ABREAST]; if falls { doubled * nights } else { 0 }];
        let mut shares = vec![0.0; stretches.len()];
        for begin in (0..self.lines).step_by(ABREAST) {
            let many = ABREAST.min(self.lines - begin);
            for night in 0..nights {
                let at = (first + night) * self.lines + begin;
                let middles = &self.middles[at..at + many];
                let slope = self.slope[first + night];
                if slope > 0.0 {
                    let steep = slope.recip();
                    for (from, middle) in from[night].iter_mut().zip(middles) {
                        *from = (limit_c - middle) * steep;
                    }
                } else if slope < 0.0 {
                    // Where a night falls along the line, it bounds it from above.
                    let steep = slope.recip();
                    for (to, middle) in to[night].iter_mut().zip(middles) {
                        *to = (limit_c - middle) * steep;
                    }
                } else {
                    for (from, middle) in from[night].iter_mut().zip(middles) {
                        *from = if limit_c > *middle {
                            f64::INFINITY
                        } else {
                            f64::NEG_INFINITY
                        };
                    }
                }
            }
            double(&mut from, nights, further);
            double(&mut to, nights, nearer);
            for (share, stretch) in shares.iter_mut().zip(stretches) {
                let Some(twice) = stretch.len().checked_ilog2() else {
                    continue;
                };
                let run = twice as usize * nights;
                let (one, other) = (stretch.start - first, stretch.end - first - (1 << twice));
                let bounds = from[run + one].iter().zip(&from[run + other]).take(many);
                let bounds = bounds.map(|(one, other)| further(*one, *other));
                *share += if falls {
                    let ends = to[run + one].iter().zip(&to[run + other]);
                    let ends = ends.map(|(one, other)| nearer(*one, *other));
                    bounds
                        .zip(ends)
                        .map(|(from, to)| share_between(from, to))
                        .sum::<f64>()
                } else {
                    bounds
                        .map(|from| standard_normal_share_quickly(-from))
                        .sum::<f64>()
                };
            }
        }
        let lines = self.lines as f64;
        shares.iter().map(|share| share / lines).collect()
    }
}

/// The share of a line between two of its places; none where the first is not before the other.
fn share_between(from: f64, to: f64) -> f64 {
    if from >= to {
        0.0
    } else {
        standard_normal_share_quickly(to) - standard_normal_share_quickly(from)
    }
}

fn further(one: f64, other: f64) -> f64 {
    if one > other { one } else { other }
}

fn nearer(one: f64, other: f64) -> f64 {
    if one < other { one } else { other }
}

/// From the bounds of single nights those of runs of 2, 4, 8 and so on, from each night on as far as there are nights.
fn double(bounds: &mut [Abreast], nights: usize, of_two: fn(f64, f64) -> f64) {
    let mut run = 1;
    let mut rest = bounds;
    while rest.len() > nights {
        let (single, twice) = rest.split_at_mut(nights);
        let pairs = single.iter().zip(single.iter().skip(run));
        for (both, (one, other)) in twice.iter_mut().take(nights).zip(pairs) {
            for (both, (one, other)) in both.iter_mut().zip(one.iter().zip(other)) {
                *both = of_two(*one, *other);
            }
        }
        run *= 2;
        rest = twice;
    }
}

/// Adds so many times some numbers to others.
fn add_times(sums: &mut Abreast, times: f64, numbers: &Abreast) {
    for (sum, number) in sums.iter_mut().zip(numbers) {
        *sum += times * number;
    }
}

/// A sequence of points of so many independent standard normal deviates.
struct Points {
    steps: Vec<(f64, f64)>,
}

/// The deviates of one dimension of the first points, which every question asks for.
type Kept = OnceLock<Vec<f64>>;

impl Points {
    fn of(dimensions: usize) -> Self {
        let mut draws = Draws::from_seed(SEED);
        let prime = |number: &u32| {
            (2..*number)
                .take_while(|factor| factor * factor <= *number)
                .all(|factor| !number.is_multiple_of(factor))
        };
        let steps = (2_u32..)
            .filter(prime)
            .take(dimensions)
            .map(|prime| (f64::from(prime).sqrt().fract(), draws.uniform()))
            .collect();
        Self { steps }
    }

    /// The points from a place on, dimension by dimension.
    fn abreast(&self, from: usize) -> Vec<Abreast> {
        static KEPT: [Kept; MOST_NIGHTS] = [const { OnceLock::new() }; MOST_NIGHTS];
        let dimensions = self.steps.iter().enumerate();
        dimensions
            .map(|(dimension, step)| {
                let mut deviates = [0.0; ABREAST];
                let known = KEPT.get(dimension).map(|kept| {
                    kept.get_or_init(|| {
                        (0..Paths::QUICK)
                            .map(|place| deviate(*step, place))
                            .collect()
                    })
                });
                let known = known.and_then(|known| known.get(from..from + ABREAST));
                if let Some(known) = known {
                    deviates.copy_from_slice(known);
                } else {
                    for (place, found) in deviates.iter_mut().enumerate() {
                        *found = deviate(*step, from + place);
                    }
                }
                deviates
            })
            .collect()
    }
}

/// The deviate of one dimension at a place of the sequence.
fn deviate((step, start): (f64, f64), place: usize) -> f64 {
    /// Keeps a folded fraction off the ends, where the deviate has no bounds.
    const NEAREST: f64 = 1e-12;
    let place = (place + 1) as f64;
    let folded = (2.0 * (place * step + start).fract() - 1.0).abs();
    standard_normal_quantile(folded.clamp(NEAREST, 1.0 - NEAREST))
}
