//! Where the low and the high of an answer come from: many draws of the whole
//! reckoning, each with every input drawn from its range, dependent inputs together.

use serde::{Deserialize, Serialize};

use super::answer::{Figure, FigureName, Verdict};
use super::{Problem, Reckoning};
use crate::measure::Range;
use crate::science::numerics::draws::Draws;

/// Draws of an answer unless another number is asked for: enough that the 1-in-10
/// and 9-in-10 limits move by less than a fifth of the spread between them from seed to seed; a
/// third, for a figure that is nought in many draws and has a limit there.
pub const DRAWS: u32 = 400;

/// The seed unless another is asked for. Any number would do; it is fixed so that
/// an answer is the same tomorrow.
pub const SEED: u64 = 1;

/// What the draws say.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Doubt {
    /// For each figure its limits, base units, in the order of the outcome's values.
    pub ranges: Vec<Range<f64>>,
    /// Shares of the draws by verdict, in the order of [`Verdict::ALL`].
    pub chances: [f64; 3],
    /// What a reckoning that searches has found, as numbers that it reads itself; nothing for others.
    pub finds: Vec<f64>,
}

/// What takes longer than a frame, whatever its reckoning: draws, or a search.
pub trait UnderWay {
    /// Does up to `most` pieces of work more, each about one outcome; true when all are done.
    ///
    /// # Errors
    /// A problem where a case has no outcome.
    fn advance(&mut self, most: u32) -> Result<bool, Problem>;
    /// Pieces of work done and wanted.
    fn progress(&self) -> (u32, u32);
    /// What came of it.
    fn finish(self: Box<Self>) -> Doubt;
}

impl Doubt {
    /// The figures of an answer: best values with these limits, or without where the doubt
    /// is not known yet. A doubt that does not fit the figures is left aside.
    #[must_use]
    pub fn figures(names: Vec<FigureName>, best: &[f64], doubt: Option<&Self>) -> Vec<Figure> {
        let ranges = doubt.map_or(&[][..], |doubt| &doubt.ranges);
        names
            .into_iter()
            .zip(best)
            .enumerate()
            .map(|(index, (name, &value))| Figure {
                name,
                range: ranges
                    .get(index)
                    .copied()
                    .unwrap_or_else(|| Range::exact(value)),
            })
            .collect()
    }
}

/// A sampling under way: it can be taken a few draws at a time, so that a worker
/// stays able to listen.
pub struct Sampling<R: Reckoning> {
    case: R::Case,
    draws: Draws,
    wanted: u32,
    done: u32,
    best: Vec<f64>,
    samples: Vec<Vec<f64>>,
    verdicts: [u32; 3],
}

impl<R: Reckoning> Sampling<R> {
    /// Begins a sampling of `wanted` draws from `seed`.
    ///
    /// # Errors
    /// A problem where the case has no outcome even at its best.
    pub fn begin(case: R::Case, wanted: u32, seed: u64) -> Result<Self, Problem> {
        let best = R::best(&case)?.values;
        Ok(Self {
            case,
            draws: Draws::hypercube(seed, wanted as usize),
            wanted,
            done: 0,
            samples: vec![Vec::with_capacity(wanted as usize); best.len()],
            best,
            verdicts: [0; 3],
        })
    }

    /// Draws done and draws wanted.
    #[must_use]
    pub fn progress(&self) -> (u32, u32) {
        (self.done, self.wanted)
    }

    /// Takes up to `most` draws more; true when all are done.
    ///
    /// # Errors
    /// A problem where a drawn case has no outcome.
    pub fn advance(&mut self, most: u32) -> Result<bool, Problem> {
        for _ in 0..most.min(self.wanted - self.done) {
            let outcome = R::draw(&self.case, &mut self.draws)?;
            self.draws.next_draw();
            for (samples, value) in self.samples.iter_mut().zip(outcome.values) {
                samples.push(value);
            }
            let place = Verdict::ALL
                .iter()
                .position(|&verdict| verdict == outcome.verdict);
            if let Some(count) = place.and_then(|place| self.verdicts.get_mut(place)) {
                *count += 1;
            }
            self.done += 1;
        }
        Ok(self.done >= self.wanted)
    }

    /// What the draws so far say.
    #[must_use]
    pub fn doubt(mut self) -> Doubt {
        let ranges = self
            .samples
            .iter_mut()
            .zip(&self.best)
            .map(|(samples, &best)| {
                Range::from_samples(best, samples).unwrap_or_else(|| Range::exact(best))
            })
            .collect();
        let done = f64::from(self.done.max(1));
        Doubt {
            ranges,
            chances: self.verdicts.map(|count| f64::from(count) / done),
            finds: Vec::new(),
        }
    }
}

impl<R: Reckoning> UnderWay for Sampling<R> {
    fn advance(&mut self, most: u32) -> Result<bool, Problem> {
        Self::advance(self, most)
    }

    fn progress(&self) -> (u32, u32) {
        Self::progress(self)
    }

    fn finish(self: Box<Self>) -> Doubt {
        self.doubt()
    }
}

/// The doubt of a case in one go.
///
/// # Errors
/// A problem where the case has no outcome.
pub fn doubt_of<R: Reckoning>(case: R::Case, wanted: u32, seed: u64) -> Result<Doubt, Problem> {
    let mut under_way = R::begin(case, wanted, seed)?;
    while !under_way.advance(wanted.max(1))? {}
    Ok(under_way.finish())
}
