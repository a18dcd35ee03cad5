//! What belongs to an answer of Season alone.

use super::buying::{Bought, bought, total};
use super::calendar::Stages;
use super::case::Case;
use super::mends::mends;
use super::plan::{Plan, Sown};
use super::weeks::in_pots;
use super::words;
use crate::measure::Duration;
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
    /// The weeks.
    pub weeks: Vec<WeekTold>,
    /// What would mend a week in which not all find room, in words.
    pub mends: Vec<String>,
    /// What is to be bought.
    pub bought: Vec<Bought>,
    /// What it costs, as far as prices are known.
    pub total: Option<f64>,
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
    /// The day until which its pots stand there.
    pub gone: String,
    /// Where it comes up, and where it stands, by their places in the list.
    pub where_at: [usize; 2],
    /// What is to be minded of it, in words; mostly empty.
    pub remark: String,
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

/// The detail of an answer.
pub fn detail(case: &Case, plan: &Plan, figures: &[Figure]) -> Detail {
    let told = |(index, (sown, stages)): (usize, (&Sown, &Stages))| {
        let sowing = case.sowings.get(sown.row)?;
        let name = |what: &str| [what, "_", &(index + 1).to_string()].concat();
        let (_, gone) = in_pots(case, sown, stages);
        let low = plan.cold_nights.iter().find(|(at, _)| *at == index);
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
            ready: days(figures, &name("ready"), sown.on),
            gone: gone.iso(),
            where_at: [sowing.first, sowing.then],
            remark: low.map_or_else(String::new, |(_, low_c)| {
                words::cold_nights(sowing.crop, *low_c)
            }),
        })
    };
    let bought = bought(case, plan);
    Detail {
        places: case.stands.iter().map(|stand| stand.name.clone()).collect(),
        sown: plan
            .sown
            .iter()
            .zip(&plan.stages)
            .enumerate()
            .filter_map(told)
            .collect(),
        weeks: plan
            .weeks
            .iter()
            .map(|week| WeekTold {
                monday: week.monday.iso(),
                taken: week.taken.clone(),
                hours: week.hours,
            })
            .collect(),
        mends: mends(case, plan),
        total: total(&bought),
        bought,
        tests: words::tests(case, plan),
    }
}
