//! The draws of a question, then what is looked for beyond its month.

use super::RootZone;
use super::case::Case;
use super::come::Outcomes;
use super::figures::values;
use super::further::{Further, Looking, PIECES};
use super::inputs::Inputs;
use crate::measure::Range;
use crate::reckon::answer::Verdict;
use crate::reckon::doubt::{Doubt, UnderWay};
use crate::reckon::{Problem, Reckoning};
use crate::science::numerics::draws::Draws;

/// Draws are taken of so many at most: each runs four days of the column until they repeat themselves.
pub const MOST_DRAWS: u32 = 200;
/// A piece of what is looked for takes about as long as so many draws.
const PIECE_IS: u32 = 2;

/// It under way.
pub struct Sweep {
    case: Case,
    draws: Draws,
    wanted: u32,
    done: u32,
    samples: Vec<Vec<f64>>,
    verdicts: [u32; 3],
    looking: Looking,
    looked: bool,
}

impl Sweep {
    /// Begins one.
    ///
    /// # Errors
    /// A problem where the case has no outcome.
    pub fn begin(case: Case, wanted: u32, seed: u64) -> Result<Self, Problem> {
        let wanted = wanted.clamp(1, MOST_DRAWS);
        Ok(Self {
            draws: Draws::hypercube(seed, wanted as usize),
            wanted,
            done: 0,
            samples: vec![Vec::with_capacity(wanted as usize); RootZone::figures(&case).len()],
            verdicts: [0; 3],
            looking: Looking::begin(&case)?,
            looked: false,
            case,
        })
    }

    fn one(&mut self) -> Result<(), Problem> {
        let inputs = Inputs::drawn(&self.case, &mut self.draws)?;
        let out = Outcomes::of(&self.case, &inputs)?;
        self.draws.next_draw();
        for (samples, value) in self.samples.iter_mut().zip(values(&self.case, &out)) {
            samples.push(value);
        }
        let verdict = out.verdict(self.case.stand);
        let place = Verdict::ALL.iter().position(|known| *known == verdict);
        if let Some(count) = place.and_then(|place| self.verdicts.get_mut(place)) {
            *count += 1;
        }
        self.done += 1;
        Ok(())
    }
}

impl UnderWay for Sweep {
    fn advance(&mut self, most: u32) -> Result<bool, Problem> {
        let mut left = most.max(1);
        while left > 0 && self.done < self.wanted {
            self.one()?;
            left -= 1;
        }
        while left > 0 && !self.looked {
            self.looked = self.looking.one(&self.case)?;
            left = left.saturating_sub(PIECE_IS);
        }
        Ok(self.looked)
    }

    fn progress(&self) -> (u32, u32) {
        (
            self.done + PIECE_IS * self.looking.done(),
            self.wanted + PIECE_IS * PIECES,
        )
    }

    fn finish(mut self: Box<Self>) -> Doubt {
        let best = Inputs::best(&self.case)
            .and_then(|inputs| Outcomes::of(&self.case, &inputs))
            .map_or_else(|_| Vec::new(), |out| values(&self.case, &out));
        let ranges = best
            .iter()
            .zip(&mut self.samples)
            .map(|(&best, samples)| {
                Range::from_samples(best, samples).unwrap_or_else(|| Range::exact(best))
            })
            .collect();
        let done = f64::from(self.done.max(1));
        let mut finds = Vec::new();
        self.looking.found().put(&mut finds);
        Doubt {
            ranges,
            chances: self.verdicts.map(|count| f64::from(count) / done),
            finds,
        }
    }
}

/// What was found beyond the month, out of a doubt.
#[must_use]
pub fn further(doubt: Option<&Doubt>) -> Option<Further> {
    doubt.and_then(|doubt| Further::take(&doubt.finds))
}
