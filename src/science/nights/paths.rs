//! The chance that every one of several nights stays above a limit.

use std::ops::Range;

use super::outlook::Outlook;
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
    /// How fast each night warms along a line, K for a standard deviation.
    slope: Vec<f64>,
    /// Each line's nights at its middle, one line after the other, °C.
    middles: Vec<f64>,
}

impl Paths {
    /// So many give a chance within about 0.002, and within 0.001 mostly.
    pub const MANY: usize = 36_864;
    /// So many give a chance within about 0.006, in a sixth of the time.
    pub const QUICK: usize = 9216;

    pub(super) fn of(outlook: &Outlook, count: usize) -> Option<Self> {
        let nights = outlook.nights();
        // Each habit has points of its own, so that their errors do not add up.
        let each = count.div_ceil(outlook.bundles().len().max(1)).max(1);
        let mut points = Points::of(nights);
        let sheaves: Option<Vec<Sheaf>> = outlook
            .bundles()
            .iter()
            .map(|bundle| {
                let covariance: Vec<Vec<f64>> = bundle
                    .covariance
                    .iter()
                    .take(nights)
                    .map(|row| row[..nights].to_vec())
                    .collect();
                let root = Triangle::of(&covariance)?;
                let sums = root.transposed_times(&vec![1.0; nights]);
                let length = sums.iter().map(|sum| sum * sum).sum::<f64>().sqrt();
                let along: Vec<f64> = sums.iter().map(|sum| sum / length).collect();
                let slope = root.times(&along);
                let mut middles = Vec::with_capacity(nights * each);
                for _ in 0..each {
                    let point = points.next_deviates();
                    let part: f64 = point.iter().zip(&along).map(|(z, u)| z * u).sum();
                    let rest: Vec<f64> = point
                        .iter()
                        .zip(&along)
                        .map(|(z, u)| z - part * u)
                        .collect();
                    let strayed = root.times(&rest);
                    middles.extend(bundle.mean.iter().zip(strayed).map(|(m, h)| m + h));
                }
                (length > 0.0 && slope.iter().all(|slope| slope.is_finite())).then_some(Sheaf {
                    weight: bundle.weight,
                    slope,
                    middles,
                })
            })
            .collect();
        Some(Self {
            nights,
            sheaves: sheaves?,
        })
    }

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
        let end = stretch.end.min(self.nights);
        if stretch.start >= end {
            return 1.0;
        }
        let stretch = stretch.start..end;
        self.sheaves
            .iter()
            .map(|sheaf| sheaf.weight * sheaf.share_above(limit_c, stretch.clone(), self.nights))
            .sum::<f64>()
            .clamp(0.0, 1.0)
    }
}

impl Sheaf {
    fn share_above(&self, limit_c: f64, stretch: Range<usize>, nights: usize) -> f64 {
        let lines = self.middles.chunks(nights);
        let count = lines.len() as f64;
        let slope = &self.slope[stretch.clone()];
        let sum: f64 = lines
            .map(|line| {
                // Where a night falls along the line, it bounds it from above.
                let (mut from, mut to) = (f64::NEG_INFINITY, f64::INFINITY);
                for (middle, slope) in line[stretch.clone()].iter().zip(slope) {
                    let short = limit_c - middle;
                    if *slope > 0.0 {
                        from = from.max(short / slope);
                    } else if *slope < 0.0 {
                        to = to.min(short / slope);
                    } else if short > 0.0 {
                        from = f64::INFINITY;
                    }
                }
                if from >= to {
                    0.0
                } else if to == f64::INFINITY {
                    standard_normal_share_quickly(-from)
                } else {
                    standard_normal_share_quickly(to) - standard_normal_share_quickly(from)
                }
            })
            .sum();
        sum / count
    }
}

/// A sequence of points of so many independent standard normal deviates.
struct Points {
    place: usize,
    steps: Vec<(f64, f64)>,
}

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
        Self { place: 0, steps }
    }

    fn next_deviates(&mut self) -> Vec<f64> {
        /// Keeps a folded fraction off the ends, where the deviate has no bounds.
        const NEAREST: f64 = 1e-12;
        self.place += 1;
        let place = self.place as f64;
        self.steps
            .iter()
            .map(|(step, start)| {
                let folded = (2.0 * (place * step + start).fract() - 1.0).abs();
                standard_normal_quantile(folded.clamp(NEAREST, 1.0 - NEAREST))
            })
            .collect()
    }
}
