//! What belongs to an answer of Season alone.

use super::buying::{Bought, bought, total};
use super::calendar::Stages;
use super::case::{Batch, Case};
use super::figures::of_batch;
use super::inputs::{emerges_later, needs_more, with_scatter};
use super::mends::mends;
use super::own::{Own, Times};
use super::plan::{Plan, Sown};
use super::weeks::{WEEK, in_pots};
use super::words;
use crate::handbook::crops::{Crop, Property};
use crate::measure::{Duration, Range};
use crate::nursery::Day;
use crate::reckon::answer::Figure;

/// What belongs to Season alone.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Detail {
    /// The places, by their names.
    pub places: Vec<String>,
    /// What is sown, in the order of its days.
    pub sown: Vec<SownTold>,
    /// What is sown already.
    pub batches: Vec<BatchTold>,
    /// What one's own batches tell of each crop, beside the handbook.
    pub own: Vec<OwnTold>,
    /// What each place may carry, kg/m², where that is said.
    pub carries: Vec<Option<f64>>,
    /// The weeks.
    pub weeks: Vec<WeekTold>,
    /// What would mend a week in which not all find room, in words.
    pub mends: Vec<String>,
    /// What is to be bought.
    pub bought: Vec<Bought>,
    /// What it costs, as far as prices are known.
    pub total: Option<f64>,
    /// What is to be bought for what is sown in the first weeks, and its last day.
    pub bought_first: Vec<Bought>,
    /// The last day of these weeks; empty where nothing is sown later.
    pub first_until: String,
    /// What a germination test tells, in words.
    pub tests: Vec<String>,
}

/// A sowing.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct SownTold {
    /// The crop.
    pub crop: String,
    /// The row of the question, from 0.
    pub row: usize,
    /// The day of sowing, such as 2027-03-28.
    pub on: String,
    /// Cells or pots sown.
    pub cells: u32,
    /// Seeds.
    pub seeds: u32,
    /// Whether it is sown into its pots.
    pub into_pots: bool,
    /// When it comes up: early in 1 case of 10, most likely, late in 1 of 10.
    pub up: [String; 3],
    /// When it is potted, or goes to where it stands.
    pub potted: [String; 3],
    /// Plants potted.
    pub pots: u32,
    /// When it is ready.
    pub ready: [String; 3],
    /// The day that it is wanted by, or else that on which it is ready most likely.
    pub ready_by: String,
    /// The day until which its pots stand there.
    pub gone: String,
    /// Where it comes up, and where it stands, by their places in the list.
    pub where_at: [usize; 2],
    /// What is to be minded of it, in words; mostly empty.
    pub remark: String,
}

/// A batch that is sown already.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct BatchTold {
    /// The crop.
    pub crop: String,
    /// Cells or pots sown.
    pub number: u32,
    /// Plants that stand, or will.
    pub stands: u32,
    /// The day of sowing.
    pub on: String,
    /// When it came up, or will.
    pub up: [String; 3],
    /// When it was potted, or will be.
    pub potted: [String; 3],
    /// When it was ready, or will be.
    pub ready: [String; 3],
    /// The day of its first cut or pick; empty where it is not known.
    pub picked: String,
    /// Which of these three days are past and known.
    pub known: [bool; 3],
    /// The day that the last of it was or will be gone; empty where it is not known.
    pub gone: String,
    /// The days on which it was meant to be sown and to be ready; empty where nobody said.
    pub meant: [String; 2],
    /// Where it comes up, and where it stands, by their places in the list.
    pub where_at: [usize; 2],
}

/// What one's own batches tell of a crop, beside the handbook: a figure of each.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct OwnTold {
    /// The crop.
    pub crop: String,
    /// What, in words.
    pub what: String,
    /// By how many batches.
    pub batches: u32,
    /// The handbook's, with the scatter between sources: low, best, high.
    pub handbook: [f64; 3],
    /// With one's own batches.
    pub own: [f64; 3],
    /// The unit, in words: °C d, or times.
    pub unit: String,
}

/// A week.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct WeekTold {
    /// Its Monday.
    pub monday: String,
    /// Of each place, the share of its room that is taken.
    pub taken: Vec<f64>,
    /// Of each place, the weight on it, kg/m².
    pub carries: Vec<f64>,
    /// Hours of work.
    pub hours: f64,
}

/// The days of a stage, from the figure of that name.
fn days(figures: &[Figure], name: &str, sown: Day) -> [String; 3] {
    let range = figures
        .iter()
        .find(|figure| figure.name.name == name)
        .map(|figure| figure.range);
    let at = |seconds: f64| {
        sown.plus(Duration::from_seconds(seconds).in_days().floor() as i32)
            .iso()
    };
    range.map_or_else(Default::default, |range| {
        [range.low(), range.best(), range.high()].map(at)
    })
}

/// The first weeks, for which one buys at once.
const FIRST_WEEKS: i32 = 4;

fn sown_told(
    case: &Case,
    plan: &Plan,
    figures: &[Figure],
    (index, (sown, stages)): (usize, (&Sown, &Stages)),
) -> Option<SownTold> {
    let sowing = case.sowings.get(sown.row)?;
    let name = |what: &str| [what, "_", &(index + 1).to_string()].concat();
    let (_, gone) = in_pots(case, sown, stages);
    let cold = plan.cold_nights.iter().find(|cold| cold.sown == index);
    Some(SownTold {
        crop: sowing.crop.name.to_owned(),
        row: sown.row,
        on: sown.on.iso(),
        cells: sown.cells,
        seeds: sown.seeds,
        into_pots: sowing.sown_in_pots(),
        up: days(figures, &name("up"), sown.on),
        potted: days(figures, &name("potted"), sown.on),
        pots: sown.potted,
        ready_by: match sown.wanted_by {
            Some(wanted) => wanted.iso(),
            None => sown.on.plus(stages.ready.floor() as i32).iso(),
        },
        ready: days(figures, &name("ready"), sown.on),
        gone: gone.iso(),
        where_at: [sowing.way.first, sowing.way.then],
        remark: cold.map_or_else(String::new, |cold| words::cold_nights(sowing.crop, cold)),
    })
}

fn batch_told(
    figures: &[Figure],
    index: usize,
    batch: &Batch,
    stages: Option<Stages>,
) -> BatchTold {
    let at = |days: f64| batch.sown.plus(days.floor() as i32).iso();
    let one = |days: Option<f64>| -> [String; 3] {
        days.map_or_else(Default::default, |days| [at(days), at(days), at(days)])
    };
    // What is foretold has a range where its figure has one; what is known is one day.
    let of = |what: &str, days: Option<f64>, known: bool| {
        let ranged = if known {
            Default::default()
        } else {
            self::days(figures, &of_batch(what, index), batch.sown)
        };
        if ranged[1].is_empty() {
            one(days)
        } else {
            ranged
        }
    };
    let known = batch.known.map(|day| day.is_some());
    BatchTold {
        crop: batch.crop.name.to_owned(),
        number: batch.number,
        stands: batch.stands(),
        on: batch.sown.iso(),
        up: one(stages.map(|stages| stages.up)),
        potted: of("potted", stages.map(|stages| stages.potted), known[1]),
        ready: of("ready", stages.map(|stages| stages.ready), known[2]),
        known,
        picked: batch.picked.map_or_else(String::new, Day::iso),
        gone: batch.gone.map_or_else(String::new, Day::iso),
        meant: batch
            .meant
            .map(|day| day.map_or_else(String::new, Day::iso)),
        where_at: [batch.way.first, batch.way.then],
    }
}

fn own_told(case: &Case) -> Vec<OwnTold> {
    let three = |range: Range<f64>| [range.low(), range.best(), range.high()];
    let of = |(crop, own): (&&'static Crop, &Own)| {
        let mut told = Vec::new();
        let mut tell =
            |what: &str, of: Option<Times>, handbook: Option<Range<f64>>, best: f64, unit: &str| {
                if let Some((own, handbook)) = of.zip(handbook) {
                    told.push(OwnTold {
                        crop: crop.name.to_owned(),
                        what: what.to_owned(),
                        batches: own.batches,
                        handbook: three(handbook).map(|times| times * best),
                        own: three(own.times(best)),
                        unit: unit.to_owned(),
                    });
                }
            };
        tell(
            words::OWN_COMES_UP,
            own.comes_up,
            emerges_later(crop).map(|range| with_scatter(range, case.between.comes_up)),
            1.0,
            words::TIMES,
        );
        let sum = crop
            .figure(Property::ReadySum)
            .map_or(0.0, |sum| sum.range.best());
        tell(
            words::OWN_GROWS,
            own.grows,
            needs_more(crop).map(|range| with_scatter(range, case.between.grows)),
            sum,
            words::DEGREE_DAYS,
        );
        told
    };
    case.crops.iter().zip(&case.own).flat_map(of).collect()
}

/// The detail of an answer.
pub fn detail(case: &Case, plan: &Plan, figures: &[Figure]) -> Detail {
    let all = bought(case, plan, None);
    let first_until = plan
        .sown
        .first()
        .map(|sown| sown.on.plus(WEEK * FIRST_WEEKS));
    let later = |until: Day| plan.sown.iter().any(|sown| sown.on > until);
    let first_until = first_until.filter(|until| later(*until));
    Detail {
        places: case.stands.iter().map(|stand| stand.name.clone()).collect(),
        sown: plan
            .sown_stages()
            .enumerate()
            .filter_map(|sown| sown_told(case, plan, figures, sown))
            .collect(),
        batches: case
            .batches
            .iter()
            .zip(&plan.courses.batches)
            .enumerate()
            .map(|(index, (batch, stages))| batch_told(figures, index, batch, *stages))
            .collect(),
        own: own_told(case),
        carries: case
            .stands
            .iter()
            .map(|stand| Some(stand.carries?.in_kilograms_per_square_metre()))
            .collect(),
        weeks: plan
            .weeks
            .iter()
            .map(|week| WeekTold {
                monday: week.monday.iso(),
                taken: week.taken.clone(),
                carries: week.carries.clone(),
                hours: week.hours,
            })
            .collect(),
        mends: mends(case, plan),
        total: total(&all),
        bought: all,
        bought_first: first_until
            .map(|until| bought(case, plan, Some(until)))
            .unwrap_or_default(),
        first_until: first_until.map_or_else(String::new, Day::iso),
        tests: words::tests(case, plan),
    }
}
