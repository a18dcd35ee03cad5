//! Many draws, each judged at every depth: the same luck at all of them, so that depths differ by
//! their depth alone.

use super::Bed;
use super::choose::by_chances;
use super::figures::values;
use super::instead::Instead;
use super::physics::Tray;
use super::question::Case;
use super::runs::{MOST_DAYS, Run, Running};
use super::soaks::Soaks;
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
    /// Draws made.
    pub draws: f64,
    /// Stands at which the flow could not be solved in full.
    pub unsolved: f64,
    /// For each depth the shares of the draws by verdict, on all pots of the tray together.
    pub chances: Vec<[f64; 3]>,
    /// The same for each kind of pot, where there are two.
    pub of_kinds: Vec<Vec<[f64; 3]>>,
    /// How soon what is set down dry is wetted at the depth to lay.
    pub soaks: Soaks,
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
        let ([place, draws, unsolved, kinds], rest) = numbers.split_first_chunk::<4>()?;
        let take = |rest: &[f64]| -> Option<(Vec<[f64; 3]>, usize)> {
            let rows = rest.get(..depths * 3)?;
            Some((rows.as_chunks::<3>().0.to_vec(), rows.len()))
        };
        let (chances, taken) = take(rest)?;
        let mut rest = rest.get(taken..)?;
        let mut of_kinds = Vec::new();
        for _ in 0..(*kinds as usize).min(2) {
            let (rows, taken) = take(rest)?;
            of_kinds.push(rows);
            rest = rest.get(taken..)?;
        }
        let (soaks, rest) = Soaks::take(rest)?;
        let (instead, mut rest) = Instead::take(rest)?;
        let mut runs = Vec::new();
        while !rest.is_empty() {
            let (run, after) = Run::take(rest)?;
            runs.push(run);
            rest = after;
        }
        let place = *place as usize;
        (place < depths).then_some(Self {
            place,
            draws: *draws,
            unsolved: *unsolved,
            chances,
            of_kinds,
            soaks,
            runs,
            instead,
        })
    }

    fn numbers(&self) -> Vec<f64> {
        let kinds = self.of_kinds.len() as f64;
        let mut numbers = vec![self.place as f64, self.draws, self.unsolved, kinds];
        numbers.extend(self.chances.iter().flatten());
        numbers.extend(self.of_kinds.iter().flatten().flatten());
        self.soaks.put(&mut numbers);
        self.instead.put(&mut numbers);
        for run in &self.runs {
            run.put(&mut numbers);
        }
        numbers
    }
}

/// How many draws gave each verdict, depth by depth.
#[derive(Clone)]
struct Counts(Vec<[u32; 3]>);

impl Counts {
    fn none(depths: usize) -> Self {
        Self(vec![[0; 3]; depths])
    }

    fn count(&mut self, place: usize, verdict: Verdict) {
        let which = Verdict::ALL.iter().position(|known| *known == verdict);
        let found = self.0.get_mut(place).zip(which);
        if let Some(count) = found.and_then(|(counts, which)| counts.get_mut(which)) {
            *count += 1;
        }
    }

    fn chances(&self, draws: u32) -> Vec<[f64; 3]> {
        let draws = f64::from(draws.max(1));
        let shares = |counts: &[u32; 3]| counts.map(|count| f64::from(count) / draws);
        self.0.iter().map(shares).collect()
    }
}

/// A sweep under way.
pub struct Sweep {
    case: Case,
    draws: Draws,
    wanted: u32,
    done: u32,
    /// Of all pots together.
    counts: Counts,
    /// Of each kind.
    of_kinds: Vec<Counts>,
    /// By depth, by draw: the figures.
    samples: Vec<Vec<Vec<f64>>>,
    /// What is still to be run, the last first.
    to_run: Vec<Planned>,
    running: Option<Running>,
    runs: Vec<Run>,
    unsolved: u32,
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
/// Depths at which the flow is solved in full, where the wall allows so many: straight in the water, at the
/// depth to lay, at others.
const DEPTHS: usize = 5;
/// Runs that are made: at those depths, and on another medium.
const RUNS: u32 = DEPTHS as u32 + 1;

impl Sweep {
    /// Begins one.
    #[must_use]
    pub fn begin(case: Case, wanted: u32, seed: u64) -> Self {
        let depths = case.depths.len();
        let kinds = case.kinds().count();
        Self {
            draws: Draws::hypercube(seed, wanted as usize),
            wanted,
            done: 0,
            counts: Counts::none(depths),
            of_kinds: vec![Counts::none(depths); kinds],
            samples: vec![Vec::with_capacity(wanted as usize); depths],
            to_run: Vec::new(),
            running: None,
            runs: Vec::new(),
            unsolved: 0,
            days: 0,
            planned: false,
            case,
        }
    }

    fn one(&mut self) -> Result<(), Problem> {
        let tray = Tray::drawn(&self.case, &mut self.draws)?;
        let looked = tray.looked();
        for place in 0..looked.depths() {
            self.counts.count(place, looked.verdict(place));
            for (counts, kind) in self.of_kinds.iter_mut().zip(&looked.kinds) {
                if let Some(at) = kind.get(place) {
                    counts.count(place, at.verdict);
                }
            }
            if let Some(samples) = self.samples.get_mut(place) {
                samples.push(values(&self.case, &tray, &looked, place)?);
            }
        }
        Ok(())
    }

    fn chances(&self) -> Vec<[f64; 3]> {
        self.counts.chances(self.done)
    }

    fn plan(&mut self) {
        let last = self.case.depths.len().saturating_sub(1);
        let place = by_chances(&self.chances());
        let planned = |place: usize, medium: Option<usize>, with_moments: bool| {
            let depth = self.case.depths.get(place).copied()?;
            Some(Planned {
                medium,
                depth,
                with_moments,
            })
        };
        let own = self.case.medium.row.key;
        let another = BED_MEDIA.iter().position(|medium| medium.key != own);
        // Where the pot is best straight in the water, another bed is shown at the wall's height.
        let laid = if place == 0 { last } else { place };
        let mut plan = vec![planned(0, None, true)];
        if place > 0 {
            plan.push(planned(place, None, true));
        }
        plan.push(planned(laid, another, true));
        let mut told = vec![0, place];
        told.dedup();
        for other in [last / 3, 2 * last / 3, last, last / 6, last / 2] {
            if told.len() < DEPTHS && !told.contains(&other) {
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
            let other = next.medium.and_then(|place| BED_MEDIA.get(place));
            let case = other.map_or_else(|| self.case.clone(), |medium| self.case.on(*medium));
            let tray = Tray::best(&case)?;
            self.running = Running::begin(&case, &tray, next.medium, next.depth, next.with_moments);
        }
        self.days += 1;
        let done = self.running.as_mut().is_none_or(Running::day);
        if done {
            match self.running.take().and_then(Running::finish) {
                Some(run) => self.runs.push(run),
                None => self.unsolved += 1,
            }
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
        let chances = self.chances();
        let place = by_chances(&chances);
        let of_kinds = if self.of_kinds.len() > 1 {
            let shares = |counts: &Counts| counts.chances(self.done);
            self.of_kinds.iter().map(shares).collect()
        } else {
            Vec::new()
        };
        // What makes no curve has been refused by the first draw.
        let (best, soaks) = Tray::best(&self.case).map_or_else(
            |_| (Vec::new(), Soaks::default()),
            |tray| {
                let depth = self.case.depths.get(place).copied();
                let depth = depth.unwrap_or(Length::from_metres(0.0));
                (
                    values(&self.case, &tray, &tray.looked(), place).unwrap_or_default(),
                    Soaks::find(&self.case, &tray, depth),
                )
            },
        );
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
                draws: f64::from(self.done),
                unsolved: f64::from(self.unsolved),
                chances,
                of_kinds,
                soaks,
                runs: self.runs,
                instead: Instead::find(&self.case).unwrap_or_default(),
            }
            .numbers(),
        }
    }
}
