//! Everything that one outcome needs beyond the case, with its doubt resolved one way.

use super::case::{Case, Germination, Sowing};
use super::words;
use crate::handbook::crops::Property;
use crate::handbook::crops::emergence::{Emergence, emergence};
use crate::handbook::thirst::TRANSMITS;
use crate::measure::Range;
use crate::reckon::Problem;
use crate::science::numerics::draws::Draws;
use crate::science::thermal_time::Cardinals;

/// Seed of a lot comes up sooner or later than the table by this, times. The table is of good lots. A judgement.
const EMERGES_LATER: Range<f64> = Range::literal(0.8, 1.0, 1.35);
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
}

impl Doubtful {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Emergence, Self::Sums, Self::Base, Self::Warmth];
}

/// How seed comes up.
#[derive(Clone, Copy, Debug)]
pub enum ComesUp {
    /// By a table of days, so many times as long.
    Table(&'static Emergence, f64),
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
}

/// All inputs.
#[derive(Clone, Debug)]
pub struct Inputs {
    /// Of each sowing.
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
        let needs = case
            .sowings
            .iter()
            .enumerate()
            .map(|(row, sowing)| needs(row, sowing, resolved))
            .collect::<Result<_, _>>()?;
        Ok(Self {
            needs,
            held_off_k,
            season_off_k,
            transmits: TRANSMITS.range.best(),
        })
    }
}

fn needs(
    row: usize,
    sowing: &Sowing,
    resolved: &mut dyn FnMut(Doubtful, Range<f64>) -> f64,
) -> Result<Needs, Problem> {
    /// Cardinal temperatures stay so far apart, K.
    const APART_K: f64 = 2.0;
    let unknown = || Problem::at(words::at(row, "crop"), words::not_known_enough());
    let range = |property: Property| sowing.crop.figure(property).map(|figure| figure.range);
    let best = |property: Property| range(property).map(|range| range.best());
    let base = resolved(
        Doubtful::Base,
        range(Property::GrowthBase).ok_or_else(unknown)?,
    );
    let optimum = best(Property::GrowthOptimum)
        .ok_or_else(unknown)?
        .max(base + APART_K);
    let ceiling = best(Property::GrowthCeiling)
        .ok_or_else(unknown)?
        .max(optimum + APART_K);
    let growth = Cardinals::new(base, optimum, ceiling).map_err(|_| unknown())?;
    let ready = resolved(
        Doubtful::Sums,
        range(Property::ReadySum).ok_or_else(unknown)?,
    );
    let prick_out = range(Property::PrickOutSum).map(|range| resolved(Doubtful::Sums, range));
    let later = resolved(Doubtful::Emergence, EMERGES_LATER);
    let table = [Some(sowing.crop), sowing.crop.kind_of]
        .into_iter()
        .flatten()
        .find_map(|crop| emergence(crop.key));
    let comes_up = match table {
        Some(table) => ComesUp::Table(table, later),
        None => ComesUp::Sum {
            cardinals: sowing.crop.germination().ok_or_else(unknown)?,
            sum: resolved(
                Doubtful::Emergence,
                range(Property::EmergenceSum).ok_or_else(unknown)?,
            ),
        },
    };
    Ok(Needs {
        comes_up,
        growth,
        // Potting comes before being ready, whatever is drawn.
        prick_out: prick_out.map(|sum| sum.min(ready)),
        ready,
    })
}

/// The share of seeds that make plants, as the two parameters of a beta distribution.
pub fn share_of_seeds(row: usize, sowing: &Sowing) -> Result<(f64, f64), Problem> {
    /// Cells of one tray fare alike by this, as a correlation: 0.01 on a good bench, 0.05 with uneven heat.
    /// Common practice, no source.
    const TRAYS_DIFFER: f64 = 0.02;
    /// What is said on a packet, or is usual, is off by this, as a share: a standard deviation. A judgement.
    const SAID_OFF: f64 = 0.06;
    /// Shares lie so far from nought and all at the least.
    const EDGE: f64 = 1e-3;
    let kept = 1.0 - sowing.lost;
    let of_seed = |mean: f64, variance: f64| {
        let mean = (mean * kept).clamp(EDGE, 1.0 - EDGE);
        let spread = mean * (1.0 - mean);
        let shared = (variance * kept * kept / spread + TRAYS_DIFFER).clamp(TRAYS_DIFFER, 0.9);
        (mean, shared)
    };
    let (mean, shared) = match sowing.germination {
        Germination::Said(share) => of_seed(share, SAID_OFF * SAID_OFF),
        Germination::Usual => {
            let usual = sowing
                .crop
                .figure(Property::GerminationShare)
                .ok_or_else(|| Problem::at(words::at(row, "up"), words::share_not_known()))?;
            let range = usual.range;
            // From 1 in 10 to 9 in 10 is so many standard deviations.
            let deviation = (range.high() - range.low()) / 2.563;
            of_seed(range.best(), deviation * deviation)
        }
        Germination::Tested { up, of } => {
            // Knowing nothing before: a flat prior (Laplace's rule), so a mean of (x + 1)/(m + 2).
            let (a, b) = (f64::from(up) + 1.0, f64::from(of - up.min(of)) + 1.0);
            let mean = a / (a + b);
            of_seed(mean, mean * (1.0 - mean) / (a + b + 1.0))
        }
    };
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
