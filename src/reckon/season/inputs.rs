//! Everything that one outcome needs beyond the case, with its doubt resolved one way.

use super::case::{Case, Germination, Sowing, Way};
use super::own::{Own, Times};
use super::words;
use crate::handbook::crops::ageing::ages;
use crate::handbook::crops::emergence::{Emergence, emergence};
use crate::handbook::crops::{Crop, Property};
use crate::handbook::thirst::TRANSMITS;
use crate::measure::{LIMITS_APART, Range, STANDARD_NORMAL_90};
use crate::reckon::Problem;
use crate::science::numerics::draws::Draws;
use crate::science::thermal_time::Cardinals;

/// Seed of a lot comes up sooner or later than the table by this, times. The table is of good lots. A judgement.
const EMERGES_LATER: Range<f64> = Range::literal(0.8, 1.0, 1.35);
/// The same where the table is of another seed that is near. A judgement; what is printed of chives beside onion was seen
/// before it was made.
const STAND_IN_LATER: Range<f64> = Range::literal(0.8, 1.25, 2.1);
/// A mix held at a temperature is off by this, K: thermostats and thermometers. A judgement.
const HELD_OFF_K: Range<f64> = Range::literal(-1.0, 0.0, 1.0);
/// A season is warmer or colder than the mean of many by this, K: about the spread of a month's mean between years
/// ([`YEAR_SPREAD_C`](crate::handbook::climates::YEAR_SPREAD_C)), of which several follow one another.
const SEASON_OFF_K: Range<f64> = Range::literal(-1.2, 0.0, 1.2);

/// What moves when a plan comes to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubtful {
    /// How fast seed comes up.
    Emergence,
    /// How much warmth plants need.
    Sums,
    /// Above which temperature they grow.
    Base,
    /// How warm places are.
    Warmth,
    /// How fast seed comes up, from one source to the next; all of it where one's own batches tell.
    EmergenceBetween,
    /// How much warmth plants need, likewise.
    SumsBetween,
}

impl Doubtful {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::Emergence,
        Self::Sums,
        Self::Base,
        Self::Warmth,
        Self::EmergenceBetween,
        Self::SumsBetween,
    ];
}

/// How seed comes up.
#[derive(Clone, Copy, Debug)]
pub enum ComesUp {
    /// By a table of days.
    Table {
        /// The table.
        table: &'static Emergence,
        /// Below and above which temperature none comes up, where the table ends before.
        cardinals: Cardinals,
        /// So many times as long.
        later: f64,
    },
    /// By a heat sum.
    Sum {
        /// Below, at and above which temperature.
        cardinals: Cardinals,
        /// °C d.
        sum: f64,
    },
}

/// What a crop needs.
#[derive(Clone, Debug)]
pub struct Needs {
    /// How it comes up.
    pub comes_up: ComesUp,
    /// Between which temperatures leaves come.
    pub growth: Cardinals,
    /// From coming up to pricking out or potting, °C d; none where it is sown into its pot.
    pub prick_out: Option<f64>,
    /// From coming up to being ready, °C d.
    pub ready: f64,
    /// From coming up to the first cut or pick, °C d, where that is known.
    pub pick: Option<f64>,
}

/// All inputs.
#[derive(Clone, Debug)]
pub struct Inputs {
    /// Of each crop.
    pub needs: Vec<Needs>,
    /// How much warmer than held, K.
    pub held_off_k: f64,
    /// How much warmer the season is than the mean, K.
    pub season_off_k: f64,
    /// Share of the light that gets into a house.
    pub transmits: f64,
}

impl Inputs {
    /// All at their best.
    pub fn best(case: &Case) -> Result<Self, Problem> {
        Self::with(case, &mut |_, range| range.best())
    }

    /// All at their best but one, which is at the end that takes longest.
    pub fn slow(case: &Case, in_doubt: Doubtful) -> Result<Self, Problem> {
        Self::with(case, &mut |of, range| match of {
            _ if of != in_doubt => range.best(),
            Doubtful::Warmth => range.low(),
            _ => range.high(),
        })
    }

    /// All drawn from their ranges.
    pub fn drawn(case: &Case, draws: &mut Draws) -> Result<Self, Problem> {
        let mut kept: Option<(Doubtful, f64)> = None;
        Self::with(case, &mut |of, range| {
            // What is asked for twice on end moves together: sums of one crop, warmth of one season.
            let deviate = match kept {
                Some((last, deviate)) if last == of => deviate,
                _ => draws.deviate(),
            };
            kept = Some((of, deviate));
            range.at(deviate)
        })
    }

    fn with(
        case: &Case,
        resolved: &mut dyn FnMut(Doubtful, Range<f64>) -> f64,
    ) -> Result<Self, Problem> {
        let held_off_k = resolved(Doubtful::Warmth, HELD_OFF_K);
        let season_off_k = resolved(Doubtful::Warmth, SEASON_OFF_K);
        let needs = (0..case.crops.len())
            .map(|crop| needs(case, crop, resolved))
            .collect::<Result<_, _>>()?;
        Ok(Self {
            needs,
            held_off_k,
            season_off_k,
            transmits: TRANSMITS.range.best(),
        })
    }
}

/// How long the seed of a crop takes to come up, times as long as is usual, by the handbook alone.
pub fn emerges_later(crop: &Crop) -> Option<Range<f64>> {
    if let Some(table) = table_of(crop) {
        return Some(relative(later_than(table)));
    }
    let sum = crop.figure(Property::EmergenceSum)?.range;
    Some(relative(sum))
}

/// How much warmth a crop needs until it is ready, times as much as is usual, by the handbook alone.
pub fn needs_more(crop: &Crop) -> Option<Range<f64>> {
    Some(relative(crop.figure(Property::ReadySum)?.range))
}

/// A range of the handbook, times as much as is usual, with the scatter between sources: the two together as the square
/// root of the sum of their squares.
pub fn with_scatter(handbook: Range<f64>, between: f64) -> Range<f64> {
    let tenth = between * STANDARD_NORMAL_90;
    let wider = |end: f64| (end / handbook.best()).ln().hypot(tenth);
    let best = handbook.best();
    Range::literal(
        best * (-wider(handbook.low())).exp(),
        best,
        best * wider(handbook.high()).exp(),
    )
}

/// A scatter about nought, from 1 in 10 to 9 in 10.
fn about_nought(deviation: f64) -> Range<f64> {
    let tenth = deviation * STANDARD_NORMAL_90;
    Range::literal(-tenth, 0.0, tenth)
}

fn relative(range: Range<f64>) -> Range<f64> {
    let best = range.best();
    Range::literal(range.low() / best, 1.0, range.high() / best)
}

/// The table that a crop comes up by: its own, or that of the crop it is a kind of unless it has a sum of its own.
fn table_of(crop: &Crop) -> Option<&'static Emergence> {
    emergence(crop.key).or_else(|| {
        let kind_of = crop.kind_of?;
        let sum_is_its_own = crop
            .own()
            .iter()
            .any(|(property, _)| *property == Property::EmergenceSum);
        if sum_is_its_own {
            None
        } else {
            table_of(kind_of)
        }
    })
}

fn later_than(table: &Emergence) -> Range<f64> {
    if table.stand_in.is_some() {
        STAND_IN_LATER
    } else {
        EMERGES_LATER
    }
}

/// Where a problem with a crop stands: at the first sowing of it, or else the first batch.
fn at_crop(case: &Case, crop: usize) -> String {
    let of = |way: Way| way.crop == crop;
    match case.sowings.iter().position(|sowing| of(sowing.way)) {
        Some(row) => words::at(row, "crop"),
        None => {
            let batch = case.batches.iter().position(|batch| of(batch.way));
            words::at_batch(batch.unwrap_or(0), "crop")
        }
    }
}

fn needs(
    case: &Case,
    place: usize,
    resolved: &mut dyn FnMut(Doubtful, Range<f64>) -> f64,
) -> Result<Needs, Problem> {
    let unknown = || Problem::at(at_crop(case, place), words::not_known_enough());
    let crop = *case.crops.get(place).ok_or_else(unknown)?;
    let own = case.own.get(place);
    let range = |property: Property| crop.figure(property).map(|figure| figure.range);
    let base = resolved(
        Doubtful::Base,
        range(Property::GrowthBase).ok_or_else(unknown)?,
    );
    let growth = crop.growth_above(base).ok_or_else(unknown)?;
    // What one's own batches tell holds all that is in doubt; without them sources differ beside the handbook's ranges.
    let own_or = |of: fn(&Own) -> Option<Times>, between: f64| {
        let own = own.and_then(of);
        let logarithm = own.map_or_else(|| about_nought(between), |own| own.logarithm());
        (own.is_some(), logarithm)
    };
    let (known, logarithm) = own_or(|own| own.grows, case.between.grows);
    let times = resolved(Doubtful::SumsBetween, logarithm).exp();
    // What they tell of the sum until it is ready holds for that to pricking out.
    let mut sum = |property: Property| {
        let range = range(property)?;
        let sum = if known {
            range.best()
        } else {
            resolved(Doubtful::Sums, range)
        };
        Some(times * sum)
    };
    let ready = sum(Property::ReadySum).ok_or_else(unknown)?;
    let prick_out = sum(Property::PrickOutSum);
    let pick = range(Property::PickSum).map(|range| times * range.best());
    let (known, logarithm) = own_or(|own| own.comes_up, case.between.comes_up);
    let times = resolved(Doubtful::EmergenceBetween, logarithm).exp();
    let mut later = |range: Range<f64>| {
        let later = if known {
            range.best()
        } else {
            resolved(Doubtful::Emergence, range)
        };
        times * later
    };
    let cardinals = crop.germination().ok_or_else(unknown)?;
    let comes_up = match table_of(crop) {
        Some(table) => ComesUp::Table {
            table,
            cardinals,
            later: later(later_than(table)),
        },
        None => ComesUp::Sum {
            cardinals,
            sum: later(range(Property::EmergenceSum).ok_or_else(unknown)?),
        },
    };
    Ok(Needs {
        comes_up,
        growth,
        // Potting comes before being ready, whatever is drawn.
        prick_out: prick_out.map(|sum| sum.min(ready)),
        ready,
        pick,
    })
}

/// Cells of one tray fare alike by this, as a correlation: 0.01 on a good bench, 0.05 with uneven heat.
/// Common practice, no source.
pub const TRAYS_DIFFER: f64 = 0.02;

/// The share of a crop's seed that comes up where nothing is said of it: mean and variance.
pub fn usual_share(crop: &Crop) -> Option<[f64; 2]> {
    let range = crop.figure(Property::GerminationShare)?.range;
    let deviation = (range.high() - range.low()) / LIMITS_APART;
    Some([range.best(), deviation * deviation])
}

/// The share of a sowing's seed that comes up, as it was fresh: mean and variance.
fn fresh_share(case: &Case, row: usize, sowing: &Sowing) -> Result<[f64; 2], Problem> {
    /// What is said on a packet, or is usual, is off by this, as a share: a standard deviation. A judgement.
    const SAID_OFF: f64 = 0.06;
    Ok(match sowing.germination {
        Germination::Said(share) => [share, SAID_OFF * SAID_OFF],
        Germination::Usual => {
            let own = case.own_of(sowing.way).and_then(|own| own.up);
            own.or_else(|| usual_share(sowing.crop))
                .ok_or_else(|| Problem::at(words::at(row, "up"), words::share_not_known()))?
        }
        Germination::Tested { up, of } => {
            // Knowing nothing before: a flat prior (Laplace's rule), so a mean of (x + 1)/(m + 2).
            let (a, b) = (f64::from(up) + 1.0, f64::from(of - up.min(of)) + 1.0);
            let mean = a / (a + b);
            [mean, mean * (1.0 - mean) / (a + b + 1.0)]
        }
    })
}

/// What is left of a share after some years of a sowing's seed: mean and variance. The fall itself is known to its half.
fn aged_share(sowing: &Sowing, [mean, variance]: [f64; 2]) -> [f64; 2] {
    /// A standard deviation of the fall, as a share of it. A judgement.
    const FALL_OFF: f64 = 0.5;
    let Some(((years, keeping), ages)) = sowing.aged.zip(ages(sowing.crop)) else {
        return [mean, variance];
    };
    let left = ages.ageing.share_after(
        mean.clamp(EDGE, 1.0 - EDGE),
        years * DAYS_OF_YEAR,
        keeping.moisture_percent,
        keeping.temperature_c,
    );
    let fall = (mean - left).max(0.0);
    [mean - fall, variance + (FALL_OFF * fall).powi(2)]
}

/// What a sowing's seed has lost with the years, from and to; none where nothing is known of it, or it is fresh.
pub fn fallen(case: &Case, row: usize, sowing: &Sowing) -> Option<[f64; 2]> {
    let fresh = fresh_share(case, row, sowing).ok()?;
    let [now, _] = aged_share(sowing, fresh);
    (now < fresh[0]).then_some([fresh[0], now])
}

/// Days of a year, with its leap days.
pub const DAYS_OF_YEAR: f64 = 365.25;
/// Shares lie so far from nought and all at the least.
const EDGE: f64 = 1e-3;
/// Share of seedlings lost where nothing is said. Common practice, no source: 2 to 15 in 100.
pub const USUALLY_LOST: f64 = 0.05;

/// The share of a sowing's seedlings that is lost: as typed, as in one's own batches, or as is usual.
pub fn lost(case: &Case, sowing: &Sowing) -> f64 {
    let own = || case.own_of(sowing.way)?.lost;
    sowing.lost.or_else(own).unwrap_or(USUALLY_LOST)
}

/// The share of cells or pots of a sowing that make a plant, as the two parameters of a beta distribution.
pub fn share_of_seeds(case: &Case, row: usize, sowing: &Sowing) -> Result<(f64, f64), Problem> {
    let kept = 1.0 - lost(case, sowing);
    let [mean, variance] = aged_share(sowing, fresh_share(case, row, sowing)?);
    let mean = (mean * kept).clamp(EDGE, 1.0 - EDGE);
    let spread = mean * (1.0 - mean);
    let shared = (variance * kept * kept / spread + TRAYS_DIFFER).clamp(TRAYS_DIFFER, 0.9);
    // A cell fills where one at least of its seeds makes a plant.
    let seeds = f64::from(sowing.in_cell);
    let fills = 1.0 - (1.0 - mean).powf(seeds);
    let steeper = seeds * (1.0 - mean).powf(seeds - 1.0);
    let variance = shared * mean * (1.0 - mean) * steeper * steeper;
    let fills = fills.clamp(EDGE, 1.0 - EDGE);
    let shared = (variance / (fills * (1.0 - fills))).clamp(EDGE, 0.9);
    Ok(crate::science::counting::beta_of_mean_and_correlation(
        fills, shared,
    ))
}
