//! Many draws, each judged at every depth: the same luck at all of them, so that depths differ by
//! their depth alone.

use super::physics::{AtDepth, depth_to_lay, drawn_scene};
use super::question::Case;
use super::{Bed, values};
use crate::measure::Range;
use crate::reckon::answer::Verdict;
use crate::reckon::doubt::{Doubt, UnderWay};
use crate::reckon::{Problem, Reckoning};
use crate::science::numerics::draws::Draws;

/// What a sweep has found.
#[derive(Clone, Debug, PartialEq)]
pub struct Finds {
    /// The place of the depth to lay among those of the case.
    pub place: usize,
    /// For each depth the shares of the draws by verdict.
    pub chances: Vec<[f64; 3]>,
}

impl Finds {
    /// From the numbers of a doubt; none where they do not fit so many depths.
    #[must_use]
    pub fn read(numbers: &[f64], depths: usize) -> Option<Self> {
        let (place, rest) = numbers.split_first()?;
        let (rows, over) = rest.as_chunks::<3>();
        let place = *place as usize;
        (rows.len() == depths && over.is_empty() && place < depths).then(|| Self {
            place,
            chances: rows.to_vec(),
        })
    }

    fn numbers(&self) -> Vec<f64> {
        let mut numbers = vec![self.place as f64];
        numbers.extend(self.chances.iter().flatten());
        numbers
    }
}

/// A sweep under way.
pub struct Sweep {
    case: Case,
    draws: Draws,
    wanted: u32,
    done: u32,
    counts: Vec<[u32; 3]>,
    /// By depth, by draw: the figures.
    samples: Vec<Vec<Vec<f64>>>,
}

impl Sweep {
    /// Begins one.
    #[must_use]
    pub fn begin(case: Case, wanted: u32, seed: u64) -> Self {
        let many = case.depths.len();
        Self {
            draws: Draws::hypercube(seed, wanted as usize),
            wanted,
            done: 0,
            counts: vec![[0; 3]; many],
            samples: vec![Vec::with_capacity(wanted as usize); many],
            case,
        }
    }

    fn one(&mut self) -> Result<(), Problem> {
        let scene = drawn_scene(&self.case, &mut self.draws)?;
        let all: Vec<AtDepth> = scene.at_all_depths();
        let Some(straight) = all.first() else {
            return Ok(());
        };
        for (place, (at, depth)) in all.iter().zip(&self.case.depths).enumerate() {
            let verdict = Verdict::ALL.iter().position(|v| *v == at.verdict);
            if let Some(count) = self
                .counts
                .get_mut(place)
                .zip(verdict)
                .and_then(|(counts, verdict)| counts.get_mut(verdict))
            {
                *count += 1;
            }
            if let Some(samples) = self.samples.get_mut(place) {
                samples.push(values(&self.case, &scene, at, straight, *depth));
            }
        }
        Ok(())
    }
}

impl UnderWay for Sweep {
    fn advance(&mut self, most: u32) -> Result<bool, Problem> {
        for _ in 0..most.min(self.wanted - self.done) {
            self.one()?;
            self.draws.next_draw();
            self.done += 1;
        }
        Ok(self.done >= self.wanted)
    }

    fn progress(&self) -> (u32, u32) {
        (self.done, self.wanted)
    }

    fn finish(self: Box<Self>) -> Doubt {
        let done = f64::from(self.done.max(1));
        let chances: Vec<[f64; 3]> = self
            .counts
            .iter()
            .map(|counts| counts.map(|count| f64::from(count) / done))
            .collect();
        let place = depth_to_lay(
            chances.len(),
            |place| chances.get(place).map_or(1.0, |[_, _, fails]| *fails),
            |place| chances.get(place).map_or(0.0, |[serves, _, _]| *serves),
        );
        let best = super::best_scene(&self.case)
            .and_then(|scene| super::outcome(&self.case, &scene, place))
            .map_or_else(|_| Vec::new(), |outcome| outcome.values);
        let samples = self.samples.get(place);
        let ranges = best
            .iter()
            .enumerate()
            .map(|(figure, &best)| {
                let mut drawn: Vec<f64> = samples
                    .into_iter()
                    .flatten()
                    .filter_map(|values| values.get(figure).copied())
                    .collect();
                Range::from_samples(best, &mut drawn).unwrap_or_else(|| Range::exact(best))
            })
            .collect();
        debug_assert_eq!(best.len(), Bed::figures(&self.case).len());
        Doubt {
            ranges,
            chances: chances.get(place).copied().unwrap_or([0.0; 3]),
            finds: Finds { place, chances }.numbers(),
        }
    }
}
