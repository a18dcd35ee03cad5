//! What one's own batches tell of a crop, beside what the handbook has: how soon it comes up, how much warmth it needs,
//! how much of it comes up and is lost.
//!
//! Each batch of which days are known went so far of the way, by the warmth of its places, as the handbook thinks it has
//! to go: 1 where the handbook holds, more where the crop took longer. The logarithms of these are drawn together
//! towards the handbook's by [`shrunk`].

use super::calendar::Calendar;
use super::case::{Batch, Case};
use super::inputs::{Inputs, TRAYS_DIFFER, USUALLY_LOST, emerges_later, needs_more, usual_share};
use crate::measure::{LIMITS_APART, Range, STANDARD_NORMAL_90};
use crate::reckon::Problem;
use crate::science::shrinkage::{Before, Seen, shrunk};

/// How much longer, or more, than the handbook has: the logarithm of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Times {
    /// Its mean.
    pub mean: f64,
    /// Standard deviation of the next batch.
    pub of_next: f64,
    /// By how many batches.
    pub batches: u32,
}

impl Times {
    /// The logarithm of the next batch, from 1 in 10 to 9 in 10.
    #[must_use]
    pub fn logarithm(&self) -> Range<f64> {
        let tenth = self.of_next * STANDARD_NORMAL_90;
        Range::literal(self.mean - tenth, self.mean, self.mean + tenth)
    }

    /// A figure of the handbook as one's own batches have it.
    #[must_use]
    pub fn times(&self, best: f64) -> Range<f64> {
        self.logarithm().map_increasing(|ln| best * ln.exp())
    }
}

/// What batches tell of a crop.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Own {
    /// Time until it is up.
    pub comes_up: Option<Times>,
    /// Warmth until it is ready.
    pub grows: Option<Times>,
    /// Share that comes up: mean and variance.
    pub up: Option<[f64; 2]>,
    /// Share lost afterwards.
    pub lost: Option<f64>,
}

/// Half of what the handbook's own range leaves open is between one grower and the next, half from batch to batch. A
/// judgement. The scatter between sources is all between growers: lot, variety, hand and what is called ready stay.
const BETWEEN_GROWERS: f64 = 0.5;
/// The handbook's scatter from batch to batch is worth so many batches of one's own. A judgement.
const WORTH: f64 = 4.0;
/// A day is written down so much late or early, days: a standard deviation. A judgement.
const NOTED_OFF_DAYS: f64 = 1.0;
/// The warmth that a batch had is taken from the mean of years, and off by so much of it: a standard deviation. A
/// judgement: 1 K of 12 above the base.
const WEATHER_OFF: f64 = 0.08;
/// The same where its own nights and days were read: the mean of many readings of one thermometer in a house. A judgement:
/// half a kelvin of 12.
const WEATHER_READ_OFF: f64 = 0.04;
/// What is potted waits for room and a free hand: the way until then is off by so much of it, a standard deviation. A
/// judgement.
const POTTED_OFF: f64 = 0.5;
/// What is farther from the handbook than this, times or one part of it, is a slip of the pen.
const FARTHEST: f64 = 4.0;
/// The share usually lost is worth so many plants of one's own. A judgement.
const LOST_WORTH: f64 = 40.0;

/// What the batches of a case tell of each of its crops.
///
/// # Errors
/// The problem at the field of a crop of which too little is known.
pub fn found(case: &Case) -> Result<Vec<Own>, Problem> {
    if case.batches.is_empty() {
        return Ok(vec![Own::default(); case.crops.len()]);
    }
    let calendar = Calendar::of(case, &Inputs::best(case)?);
    let own = case.crops.iter().enumerate().map(|(place, crop)| {
        let batches = || {
            let all = case.batches.iter();
            all.filter(move |batch| batch.way.crop == place)
        };
        let ways: Vec<([Option<f64>; 2], &Batch)> = batches()
            .map(|batch| {
                let known = batch.known_days();
                let way = calendar.came_so_far(batch.way, batch.sown, known, case.had(batch));
                (way, batch)
            })
            .collect();
        let came_up = ways
            .iter()
            .filter_map(|([up, _], batch)| seen((*up)?, batch.known_days().up?, 0.0));
        let grew = ways.iter().filter_map(|([_, grew], batch)| {
            let known = batch.known_days();
            let end = known.picked.or(known.ready).or(known.potted)?;
            let weather_off = match batch.strayed_k {
                Some(_) => WEATHER_READ_OFF,
                None => WEATHER_OFF,
            };
            let waited = match known.picked.or(known.ready) {
                Some(_) => 0.0,
                None => POTTED_OFF,
            };
            seen((*grew)?, end - known.up?, weather_off.hypot(waited))
        });
        Own {
            comes_up: emerges_later(crop)
                .and_then(|range| times(range, case.between.comes_up, came_up.collect())),
            grows: needs_more(crop)
                .and_then(|range| times(range, case.between.grows, grew.collect())),
            up: usual_share(crop).and_then(|usual| came_up_of(usual, batches())),
            lost: lost_of(batches()),
        }
    });
    Ok(own.collect())
}

/// What one batch tells: the way that it went, over how many days, and what its weather may have been off by.
fn seen(way: f64, days: f64, weather_off: f64) -> Option<Seen> {
    let sound = days > 0.0 && (FARTHEST.recip()..=FARTHEST).contains(&way);
    sound.then(|| Seen {
        value: way.ln(),
        misread: (NOTED_OFF_DAYS / days).hypot(weather_off),
    })
}

/// What batches tell beside a range of the handbook and the scatter between sources.
fn times(handbook: Range<f64>, between: f64, seen: Vec<Seen>) -> Option<Times> {
    if seen.is_empty() {
        return None;
    }
    let variance = ((handbook.high() / handbook.low()).ln() / LIMITS_APART).powi(2);
    let before = Before {
        mean: handbook.best().ln(),
        of_groups: (BETWEEN_GROWERS * variance).sqrt().hypot(between),
        of_values: ((1.0 - BETWEEN_GROWERS) * variance).sqrt(),
        worth: WORTH,
    };
    let shrunk = shrunk(&before, &seen);
    Some(Times {
        mean: shrunk.mean,
        of_next: shrunk.of_next,
        batches: seen.len() as u32,
    })
}

/// A count of a batch is worth so many plants that fare each for itself: those of one tray fare alike.
fn worth(number: u32) -> f64 {
    let number = f64::from(number);
    number / (1.0 + (number - 1.0) * TRAYS_DIFFER)
}

/// The share that comes up, by the counts of batches beside what is usual: mean and variance.
fn came_up_of<'a>(
    [mean, variance]: [f64; 2],
    batches: impl Iterator<Item = &'a Batch>,
) -> Option<[f64; 2]> {
    // Of a clump it is not known how many of its seeds came up.
    let counted: Vec<(f64, f64)> = batches
        .filter(|batch| super::case::usual_in_cell(batch.crop) == 1)
        .filter_map(|batch| {
            let worth = worth(batch.number);
            let share = f64::from(batch.came_up?.min(batch.number)) / f64::from(batch.number);
            Some((share * worth, worth))
        })
        .collect();
    if counted.is_empty() {
        return None;
    }
    let before = (mean * (1.0 - mean) / variance - 1.0).max(1.0);
    let up: f64 = counted.iter().map(|(up, _)| up).sum();
    let of: f64 = counted.iter().map(|(_, of)| of).sum();
    let mean = (mean * before + up) / (before + of);
    Some([mean, mean * (1.0 - mean) / (before + of + 1.0)])
}

/// The share lost, by the counts of batches beside what is usual.
fn lost_of<'a>(batches: impl Iterator<Item = &'a Batch>) -> Option<f64> {
    let counted: Vec<(f64, f64)> = batches
        .filter_map(|batch| {
            let of = batch.came_up.unwrap_or(batch.number).max(1);
            let worth = worth(of);
            Some((
                f64::from(batch.lost?.min(of)) / f64::from(of) * worth,
                worth,
            ))
        })
        .collect();
    if counted.is_empty() {
        return None;
    }
    let lost: f64 = counted.iter().map(|(lost, _)| lost).sum();
    let of: f64 = counted.iter().map(|(_, of)| of).sum();
    Some((USUALLY_LOST * LOST_WORTH + lost) / (LOST_WORTH + of))
}
