//! The draws of a question, then what is looked for beyond its month.

use super::RootZone;
use super::case::Case;
use super::come::{Best, Outcomes};
use super::figures::values;
use super::further::{Further, Looking, PIECES};
use super::inputs::Inputs;
use super::own::{self, OwnFound};
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
    /// Draws of which some standing could not be followed.
    unsolved: u32,
    /// What is looked for; none once some of it could not be found.
    looking: Option<Looking>,
    looked: bool,
    /// What one's own readings tell, as plain numbers.
    own: Vec<f64>,
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
            unsolved: 0,
            looking: Some(Looking::begin(&case)?),
            looked: false,
            own: Vec::new(),
            case,
        })
    }

    /// Fits to one's own readings, before all else: it is what they were typed for.
    fn fit(&mut self) -> Result<(), Problem> {
        if let Some(found) = own::found(&self.case)? {
            found.put(&mut self.own);
        }
        Ok(())
    }

    fn one(&mut self) {
        let drawn = Inputs::drawn(&self.case, &mut self.draws)
            .and_then(|inputs| Outcomes::of(&self.case, &inputs));
        self.draws.next_draw();
        self.done += 1;
        // A thermostat far too strong for what it heats may leave no two days alike.
        let Ok(out) = drawn else {
            self.unsolved += 1;
            return;
        };
        for (samples, value) in self.samples.iter_mut().zip(values(&self.case, &out)) {
            samples.push(value);
        }
        let verdict = out.verdict(self.case.stand);
        let place = Verdict::ALL.iter().position(|known| *known == verdict);
        if let Some(count) = place.and_then(|place| self.verdicts.get_mut(place)) {
            *count += 1;
        }
    }

    /// Looks for one thing more; true when all is found, or cannot be.
    fn look(&mut self) -> bool {
        match self.looking.as_mut().map(|looking| looking.one(&self.case)) {
            Some(Ok(done)) => done,
            Some(Err(_)) | None => {
                self.looking = None;
                true
            }
        }
    }
}

impl UnderWay for Sweep {
    fn advance(&mut self, most: u32) -> Result<bool, Problem> {
        let mut left = most.max(1);
        if self.done == 0 {
            self.fit()?;
        }
        while left > 0 && self.done < self.wanted {
            self.one();
            left -= 1;
        }
        while left > 0 && !self.looked {
            self.looked = self.look();
            left = left.saturating_sub(PIECE_IS);
        }
        Ok(self.looked)
    }

    fn progress(&self) -> (u32, u32) {
        let looked = self.looking.as_ref().map_or(PIECES, Looking::done);
        (
            self.done + PIECE_IS * looked,
            self.wanted + PIECE_IS * PIECES,
        )
    }

    fn finish(mut self: Box<Self>) -> Doubt {
        let best = Best::of(&self.case)
            .map_or_else(|_| Vec::new(), |best| values(&self.case, &best.outcomes));
        let ranges = best
            .iter()
            .zip(&mut self.samples)
            .map(|(&best, samples)| {
                Range::from_samples(best, samples).unwrap_or_else(|| Range::exact(best))
            })
            .collect();
        let done = f64::from((self.done - self.unsolved).max(1));
        let mut finds = vec![f64::from(self.unsolved), self.own.len() as f64];
        finds.extend(self.own);
        if let Some(looking) = self.looking {
            looking.found().put(&mut finds);
        }
        Doubt {
            ranges,
            chances: self.verdicts.map(|count| f64::from(count) / done),
            finds,
        }
    }
}

/// What a sweep has found.
pub struct Finds {
    /// Draws that could not be followed.
    pub unsolved: f64,
    /// What one's own readings tell; none where there are none.
    pub own: Option<OwnFound>,
    /// What is beyond the month; none where some of it could not be followed.
    pub further: Option<Further>,
}

impl Finds {
    /// Out of a doubt; none where it has none.
    #[must_use]
    pub fn read(doubt: &Doubt) -> Option<Self> {
        let ([unsolved, own], rest) = doubt.finds.split_first_chunk::<2>()?;
        let (own, rest) = rest.split_at_checked(*own as usize)?;
        Some(Self {
            unsolved: *unsolved,
            own: OwnFound::take(own),
            further: Further::take(rest),
        })
    }
}
