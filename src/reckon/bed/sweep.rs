//! Many draws, each judged at every depth: the same luck at all of them, so that depths differ by
//! their depth alone.

use super::Bed;
use super::figures::values;
use super::instead::Instead;
use super::physics::{AtDepth, best_scene, depth_to_lay, drawn_scene};
use super::question::Case;
use super::runs::{MOST_DAYS, Run, Running};
use crate::handbook::bed_media::BED_MEDIA;
use crate::measure::{Length, Range};
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
    /// The flow solved in full: straight in the water, at the depth to lay, on another medium as
    /// deep, then at other depths.
    pub runs: Vec<Run>,
    /// What else could be done.
    pub instead: Instead,
}

impl Finds {
    /// From the numbers of a doubt; none where they do not fit so many depths.
    #[must_use]
    pub fn read(numbers: &[f64], depths: usize) -> Option<Self> {
        let (place, rest) = numbers.split_first()?;
        let (rows, rest) = rest.split_at_checked(depths * 3)?;
        let (instead, mut rest) = Instead::take(rest)?;
        let place = *place as usize;
        let mut runs = Vec::new();
        while !rest.is_empty() {
            let (run, after) = Run::take(rest)?;
            runs.push(run);
            rest = after;
        }
        (place < depths).then(|| Self {
            place,
            chances: rows.as_chunks::<3>().0.to_vec(),
            runs,
            instead,
        })
    }

    fn numbers(&self) -> Vec<f64> {
        let mut numbers = vec![self.place as f64];
        numbers.extend(self.chances.iter().flatten());
        self.instead.put(&mut numbers);
        for run in &self.runs {
            run.put(&mut numbers);
        }
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
    /// What is still to be run, the last first.
    to_run: Vec<Planned>,
    running: Option<Running>,
    runs: Vec<Run>,
    /// Days run, those spared by runs that settled early with them.
    days: u32,
    planned: bool,
}

/// A run to be made.
#[derive(Clone, Copy)]
struct Planned {
    medium: Option<usize>,
    depth: Length,
    with_moments: bool,
}

/// A day of the flow solved in full takes about as long as so many draws.
const DAY_IS: u32 = 8;
/// Runs that are made: straight in the water, at the depth to lay, on another medium, at three other
/// depths.
const RUNS: u32 = 6;

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
            to_run: Vec::new(),
            running: None,
            runs: Vec::new(),
            days: 0,
            planned: false,
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

impl Sweep {
    fn chances(&self) -> Vec<[f64; 3]> {
        let done = f64::from(self.done.max(1));
        self.counts
            .iter()
            .map(|counts| counts.map(|count| f64::from(count) / done))
            .collect()
    }

    /// The place of the depth to lay, by the draws.
    fn place(&self) -> usize {
        let chances = self.chances();
        depth_to_lay(
            chances.len(),
            |place| chances.get(place).map_or(1.0, |[_, _, fails]| *fails),
            |place| chances.get(place).map_or(0.0, |[serves, _, _]| *serves),
        )
    }

    fn plan(&mut self) {
        let last = self.case.depths.len().saturating_sub(1);
        let place = self.place();
        let planned = |place: usize, medium: Option<usize>, with_moments: bool| {
            let depth = self.case.depths.get(place).copied()?;
            Some(Planned {
                medium,
                depth,
                with_moments,
            })
        };
        let own = self.case.medium.key;
        let another = BED_MEDIA.iter().position(|medium| medium.key != own);
        // Where the pot is best straight in the water, another bed is shown at the wall's height.
        let laid = if place == 0 { last } else { place };
        let mut plan = vec![planned(0, None, true)];
        if place > 0 {
            plan.push(planned(place, None, true));
        }
        plan.push(planned(laid, another, true));
        let mut told = vec![0, place];
        for other in [last / 3, 2 * last / 3, last] {
            if !told.contains(&other) {
                told.push(other);
                plan.push(planned(other, None, false));
            }
        }
        self.to_run = plan.into_iter().flatten().rev().collect();
        self.planned = true;
    }

    /// Runs one day more of the next run; true when there is none left.
    fn one_day(&mut self) -> Result<bool, Problem> {
        if !self.planned {
            self.plan();
        }
        if self.running.is_none() {
            let Some(next) = self.to_run.pop() else {
                return Ok(true);
            };
            let on_it = next.medium.and_then(|place| BED_MEDIA.get(place));
            let case = Case {
                medium: on_it.copied().unwrap_or(self.case.medium),
                ..self.case.clone()
            };
            let scene = best_scene(&case)?;
            self.running =
                Running::begin(&case, &scene, next.medium, next.depth, next.with_moments);
        }
        self.days += 1;
        let done = self.running.as_mut().is_none_or(Running::day);
        if done {
            let run = self.running.take().and_then(Running::finish);
            self.runs.extend(run);
        }
        Ok(false)
    }
}

impl UnderWay for Sweep {
    fn advance(&mut self, most: u32) -> Result<bool, Problem> {
        let mut left = most;
        for _ in 0..most.min(self.wanted - self.done) {
            self.one()?;
            self.draws.next_draw();
            self.done += 1;
            left -= 1;
        }
        while left > 0 {
            if self.one_day()? {
                return Ok(true);
            }
            left -= left.min(DAY_IS);
        }
        Ok(false)
    }

    fn progress(&self) -> (u32, u32) {
        let still = self.to_run.len() as u32 + u32::from(self.running.is_some());
        // Until they are planned all runs are to come; one that settles early gives its days back.
        let wanted = if self.planned {
            self.days + still * MOST_DAYS
        } else {
            RUNS * MOST_DAYS
        };
        (
            self.done + DAY_IS * self.days,
            self.wanted + DAY_IS * wanted,
        )
    }

    fn finish(self: Box<Self>) -> Doubt {
        let (chances, place) = (self.chances(), self.place());
        let best = super::best_scene(&self.case)
            .and_then(|scene| super::outcome(&self.case, &scene, &scene.at_all_depths(), place))
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
            finds: Finds {
                place,
                chances,
                runs: self.runs,
                // What makes no curve has been refused by the first draw.
                instead: Instead::find(&self.case).unwrap_or_default(),
            }
            .numbers(),
        }
    }
}
