//! What Moving on comes to, as a table, and how its doubt is gathered.

use super::case::Case;
use super::days::{Run, lost};
use super::inputs::Inputs;
use super::next_pot::{Figures, NextPotTold, Sizes, limits, told};
use super::nights::{DAYS, Nights, OfDay, STRETCHES};
use super::ready::{card, stage, verdict};
use super::words;
use crate::measure::{Duration, Fraction, Range};
use crate::reckon::answer::{FigureName, Verdict};
use crate::reckon::doubt::{Doubt, UnderWay};
use crate::reckon::{Outcome, Problem};
use crate::science::numerics::draws::Draws;

/// The names.
pub fn names() -> Vec<FigureName> {
    let share =
        |name: &str, label: &str| FigureName::of::<Fraction>(name, label, Fraction::PERCENT.key);
    let mut names: Vec<FigureName> = STRETCHES
        .map(|nights| {
            let name = ["chance_", &nights.to_string()].concat();
            share(&name, &words::chance_label(nights))
        })
        .into();
    names.extend([
        share("share", words::SHARE),
        FigureName::of::<Duration>("best_day", words::BEST_DAY, Duration::DAY.key),
        share("loss_best", words::LOSS_BEST),
        share("loss_today", words::LOSS_TODAY),
        share("loss_left", words::LOSS_LEFT),
    ]);
    names
}

/// What one run comes to, with the chances of its nights.
pub fn outcome(case: &Case, run: &Run, chances: [f64; 3]) -> Outcome {
    /// What habits, places and forecasts leave open of a chance is far more than a hundredth: it is told to that.
    const STEPS: f64 = 100.0;
    let told = |chance: f64| (STEPS * chance).round() / STEPS;
    let mut values = chances.map(told).to_vec();
    values.extend([
        run.share,
        Duration::from_days(run.best as f64).in_seconds(),
        run.loss(run.best),
        run.loss(0),
        run.loss(DAYS),
    ]);
    let card = card(case, run, chances[0]);
    Outcome {
        values,
        verdict: verdict(stage(run, &card), &card),
    }
}

/// One run with every input drawn from its range.
pub fn drawn(case: &Case, draws: &mut Draws) -> Result<(Run, Outcome), Problem> {
    let nights = Nights::of(case)?;
    let inputs = Inputs::drawn(case, draws)?;
    let run = Run::of(case, &inputs, &nights);
    let outcome = outcome(case, &run, nights.chances_drawn(inputs.limit_c));
    Ok((run, outcome))
}

/// What is kept of each day of move: losses by waiting, by going early, and in all, of 1.
pub const KEPT: usize = 3;

/// The losses of each of the days, and of not moving in them.
pub fn losses(run: &Run) -> Vec<[f64; KEPT]> {
    let pairs = run.waiting.iter().zip(&run.early).enumerate();
    pairs
        .map(|(day, (waiting, early))| [lost(*waiting), lost(*early), run.loss(day)])
        .collect()
}

/// The chances of the stretches from today on, out of those of each of the days.
pub fn from_today(by_day: &[OfDay]) -> [f64; 3] {
    let [_, seven, _, fourteen, all] = by_day.first().copied().unwrap_or_default();
    [seven, fourteen, all]
}

/// The chances of each of the days: those that were found with the doubt, along many paths; else along few.
pub fn by_day(case: &Case, nights: &Nights, doubt: Option<&Doubt>) -> Result<Vec<OfDay>, Problem> {
    let first = 2 * KEPT * (DAYS + 1);
    let found = doubt.and_then(|doubt| {
        let last = first + DAYS * OfDay::default().len();
        doubt.finds.get(first..last)
    });
    let found: Vec<OfDay> = found.unwrap_or_default().as_chunks().0.to_vec();
    if found.len() == DAYS {
        return Ok(found);
    }
    Ok(nights.chances_by_day(Inputs::limits_c(case)?, doubt.is_some()))
}

/// The sizes that it might go into next, with the limits that were found with the doubt.
pub fn next_pots(case: &Case, doubt: Option<&Doubt>) -> Result<Vec<NextPotTold>, Problem> {
    let Some(sizes) = Sizes::of(case)? else {
        return Ok(Vec::new());
    };
    let first = 2 * KEPT * (DAYS + 1) + DAYS * OfDay::default().len();
    let limits = doubt.and_then(|doubt| doubt.finds.get(first..));
    let best = sizes.best(case);
    Ok(told(case, &sizes, &best, limits.unwrap_or_default()))
}

/// Draws of the next pots, which are none of the other draws.
struct PotsUnderWay {
    sizes: Sizes,
    draws: Draws,
    best: Vec<Figures>,
    drawn: Vec<Vec<Figures>>,
}

/// Draws under way, which keep the losses of each day of move beside the figures: the limits of each are found in the
/// doubt, low and high, day by day.
pub struct DaysUnderWay {
    case: Case,
    draws: Draws,
    wanted: u32,
    done: u32,
    /// Best figures, and how many of them are figures; the others are losses by day.
    best: Vec<f64>,
    figures: usize,
    /// What was drawn of each.
    drawn: Vec<Vec<f64>>,
    verdicts: [u32; 3],
    /// Chances of each of the days.
    by_day: Vec<OfDay>,
    /// The pots that it might go into next.
    pots: Option<PotsUnderWay>,
}

impl DaysUnderWay {
    /// Begins so many draws from a seed.
    pub fn begin(case: Case, wanted: u32, seed: u64) -> Result<Self, Problem> {
        let nights = Nights::of(&case)?;
        let inputs = Inputs::best(&case)?;
        let run = Run::of(&case, &inputs, &nights);
        let by_day = nights.chances_by_day(Inputs::limits_c(&case)?, true);
        let mut best = outcome(&case, &run, from_today(&by_day)).values;
        let figures = best.len();
        let pots = Sizes::of(&case)?.map(|sizes| PotsUnderWay {
            best: sizes.best(&case),
            sizes,
            draws: Draws::hypercube(seed, wanted as usize),
            drawn: Vec::with_capacity(wanted as usize),
        });
        best.extend(losses(&run).concat());
        Ok(Self {
            draws: Draws::hypercube(seed, wanted as usize),
            wanted,
            done: 0,
            drawn: vec![Vec::with_capacity(wanted as usize); best.len()],
            best,
            figures,
            verdicts: [0; 3],
            by_day,
            pots,
            case,
        })
    }
}

impl UnderWay for DaysUnderWay {
    fn advance(&mut self, most: u32) -> Result<bool, Problem> {
        for _ in 0..most.min(self.wanted - self.done) {
            let (run, outcome) = drawn(&self.case, &mut self.draws)?;
            self.draws.next_draw();
            if let Some(pots) = &mut self.pots {
                let drawn = pots.sizes.drawn(&self.case, &mut pots.draws)?;
                pots.drawn.push(drawn);
                pots.draws.next_draw();
            }
            let values = outcome.values.into_iter().chain(losses(&run).concat());
            for (kept, value) in self.drawn.iter_mut().zip(values) {
                kept.push(value);
            }
            for (count, verdict) in self.verdicts.iter_mut().zip(Verdict::ALL) {
                *count += u32::from(verdict == outcome.verdict);
            }
            self.done += 1;
        }
        Ok(self.done >= self.wanted)
    }

    fn progress(&self) -> (u32, u32) {
        (self.done, self.wanted)
    }

    fn finish(self: Box<Self>) -> Doubt {
        let this = *self;
        let mut ranges: Vec<Range<f64>> = this
            .drawn
            .into_iter()
            .zip(&this.best)
            .map(|(mut drawn, best)| {
                Range::from_samples(*best, &mut drawn).unwrap_or_else(|| Range::exact(*best))
            })
            .collect();
        let days = ranges.split_off(this.figures.min(ranges.len()));
        let done = f64::from(this.done.max(1));
        let pots = this.pots.map(|pots| limits(&pots.best, &pots.drawn));
        Doubt {
            ranges,
            chances: this.verdicts.map(|count| f64::from(count) / done),
            finds: days
                .iter()
                .flat_map(|range| [range.low(), range.high()])
                .chain(this.by_day.concat())
                .chain(pots.unwrap_or_default())
                .collect(),
        }
    }
}

/// The low and the high of the losses of a day, from the doubt; none where it holds no such day.
pub fn limits_of(doubt: Option<&Doubt>, day: usize, which: usize) -> Option<[f64; 2]> {
    let place = 2 * (KEPT * day + which);
    let finds = &doubt?.finds;
    Some([*finds.get(place)?, *finds.get(place + 1)?])
}
