//! Mix: how a blend of potting materials holds air and water in this pot, what
//! to buy for it, and what it weighs.
//!
//! * `question`: what is typed, to the letter.
//! * `form`: its form as data.
//! * `case`: what is typed, read.
//! * `read`: the reading of it.
//! * `own`: figures of one's own over the handbook's.
//! * `substance`: the figures of a part, the handbook's or one's own.
//! * `physics`: one outcome from one set of inputs.
//! * `figures`: what it comes to, as a table.
//! * `buying`: what to buy.
//! * [`chemistry`]: salt, acidity and nitrogen of a blend.
//! * `altered`: a mix with more of something in it, or in a taller pot.
//! * `advice`: what would help, found on the same model.
//! * `cautions`: what to mind, before which step.
//! * `working`: how the best figures came about.
//! * `words`: the sentences.

mod advice;
pub(in crate::reckon) mod altered;
mod buying;
mod careless;
mod case;
mod cautions;
pub mod chemistry;
mod figures;
mod form;
mod own;
mod physics;
mod question;
mod read;
mod substance;
mod words;
mod working;

pub use buying::Purchase;
pub use case::{Bought, Case, Part};
pub use figures::is_of_part;
pub(in crate::reckon) use form::{change_parts, parts_piece, paths_of_parts};
pub(in crate::reckon) use physics::{Inputs, Mixed, mixed};
pub use question::{
    BenchAsked, DRAIN_TEST, DrainedAsked, HANDBOOK, MOST_PARTS, MOST_POTS, OWN_FIGURES, OwnAsked,
    PartAsked, Question, SQUARE, STAGGERED,
};
pub(in crate::reckon) use read::POT_COUNT;
pub use substance::Substance;

pub use super::pot::{OWN_ROUND, OWN_SQUARE, OWN_VOLUME, PotAsked};

use super::answer::{Answer, FigureName, Judgement, Verdict};
use super::doubt::Doubt;
use super::{Outcome, Problem, Reckoning};
use crate::handbook::thresholds::{Limits, Use};
use crate::measure::{DecimalMark, Length};
use crate::science::container::Vessel;
use crate::science::numerics::draws::Draws;
use figures::Come;
use physics::Judged;

/// The reckoning.
pub struct Mix;

/// What belongs to Mix alone.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Detail {
    /// Height of the mix above the base, mm.
    pub fill_mm: f64,
    /// Whether the pot stands in a tray.
    pub in_tray: bool,
    /// Depth of the water in a filled tray, mm.
    pub tray_mm: f64,
    /// Depth of the coarse bed under the pot, mm.
    pub bed_mm: f64,
    /// The mix in one line.
    pub mix: String,
    /// The pot in one line.
    pub pot: String,
    /// The drained pot from the base to the top of the mix, at the best figures.
    pub profile: Vec<Layer>,
    /// What is to be minded of salt, acidity and nitrogen, worst first.
    pub warnings: Vec<String>,
    /// Names of the materials whose figures are ranges of a class and of no lot that was measured.
    pub of_a_class: Vec<String>,
    /// What to buy.
    pub shopping: Vec<Purchase>,
    /// The inside of the pot, for drawing it.
    pub outline: Outline,
}

/// A thin layer of the pot.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Layer {
    /// Height above the base, mm.
    pub height_mm: f64,
    /// Water, fraction of volume.
    pub water: f64,
    /// Air, fraction of volume.
    pub air: f64,
}

/// The inside of the pot, cut in half.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Outline {
    /// Breadth at the rim, mm.
    pub rim_mm: f64,
    /// Breadth at the base, mm.
    pub base_mm: f64,
    /// Height, mm.
    pub height_mm: f64,
}

impl Outline {
    /// Of a pot.
    pub fn of(vessel: &Vessel) -> Self {
        let breadth_at = |height| vessel.breadth_at(height).in_millimetres();
        Self {
            rim_mm: breadth_at(vessel.height()),
            base_mm: breadth_at(Length::from_millimetres(0.0)),
            height_mm: vessel.height().in_millimetres(),
        }
    }
}

/// Layers drawn from base to top.
const LAYERS: usize = 48;

impl Reckoning for Mix {
    const NAME: &'static str = "mix";
    const ASKS: &'static str = "How will this mix hold air and water in this pot?";
    type Question = Question;
    type Case = Case;
    type Detail = Detail;

    fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
        read::check(question, mark)
    }

    fn figures(case: &Case) -> Vec<FigureName> {
        figures::names(case)
    }

    fn best(case: &Case) -> Result<Outcome, Problem> {
        Ok(outcome(case, &best(case, &Inputs::best(case))))
    }

    fn draw(case: &Case, draws: &mut Draws) -> Result<Outcome, Problem> {
        let inputs = Inputs::drawn(case, draws)
            .map_err(|problem| Problem::at("parts", problem.to_string()))?;
        let mixed = physics::mixed(case, &inputs);
        let treatment = case.fed.treatment(mixed.volume_lost);
        let chemistry = case.substances.draw(&treatment, draws);
        Ok(outcome(case, &Come { mixed, chemistry }))
    }

    fn answer(case: &Case, doubt: Option<&Doubt>) -> Result<Answer<Detail>, Problem> {
        let inputs = Inputs::best(case);
        let come = best(case, &inputs);
        let best = outcome(case, &come);
        let mixed = &come.mixed;
        let figures = Doubt::figures(Self::figures(case), &best.values, doubt);
        let chances = doubt.map(|doubt| doubt.chances);
        let judged = mixed.judged(case.limits.purpose);
        let complaints = complaints(case.limits, &judged);
        let parts = figures
            .iter()
            .filter(|figure| is_of_part(&figure.name.name));
        let shopping = buying::purchases(case, parts.map(|figure| figure.range));
        let treatment = case.fed.treatment(mixed.volume_lost);
        let found = figures::chemistry(&figures, &come.chemistry);
        let warnings = case
            .substances
            .warnings(&treatment, &found, case.limits.purpose);
        let bench_load = figures
            .iter()
            .find(|figure| figure.name.name == figures::BENCH_LOAD)
            .map(|figure| figure.range);
        Ok(Answer {
            judgement: Judgement {
                verdict: best.verdict,
                sentence: words::verdict(best.verdict, case.limits, chances),
                chances,
            },
            advice: advice::advice(case, &judged, &complaints),
            cautions: cautions::cautions(case, mixed, bench_load),
            working: working::working(case, &inputs, mixed),
            detail: Detail {
                fill_mm: case.fill.in_millimetres(),
                in_tray: case.limits.purpose == Use::FedFromBelow,
                tray_mm: case.tray.in_millimetres(),
                bed_mm: case.bed.in_millimetres(),
                mix: case.mix_in_words(),
                pot: case.pot_in_words(),
                profile: profile(case, mixed),
                warnings: warnings
                    .into_iter()
                    .map(|warning| warning.sentence)
                    .collect(),
                of_a_class: case
                    .parts
                    .iter()
                    .filter(|part| part.is_of_a_class())
                    .map(|part| part.material.name.to_owned())
                    .collect(),
                shopping,
                outline: Outline::of(&case.vessel),
            },
            figures,
        })
    }

    fn careless(draws: &mut Draws) -> Question {
        careless::careless(draws)
    }
}

/// What is wrong with a pot of mix for its use, worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Complaint {
    /// Air below what fails.
    TooLittleAir,
    /// Air below what serves.
    LittleAir,
    /// Air above what serves: dries fast.
    MuchAir,
    /// Little water between 10 and 50 cm of suction.
    LittleEasyWater,
    /// Little water in the drained pot.
    LittleWater,
}

fn complaints(limits: &Limits, judged: &Judged) -> Vec<Complaint> {
    let air = judged.air;
    let mut found = Vec::new();
    if air < limits.air_fails_below {
        found.push(Complaint::TooLittleAir);
    } else if air < limits.air_serves_from {
        found.push(Complaint::LittleAir);
    } else if air > limits.air_serves_to {
        found.push(Complaint::MuchAir);
    }
    if judged.easy_water < limits.easy_water_serves_from {
        found.push(Complaint::LittleEasyWater);
    }
    if judged.water < limits.water_serves_from {
        found.push(Complaint::LittleWater);
    }
    found
}

fn verdict(complaints: &[Complaint]) -> Verdict {
    match complaints.first() {
        None => Verdict::Serves,
        Some(Complaint::TooLittleAir) => Verdict::DoesNotServe,
        Some(_) => Verdict::Watch,
    }
}

/// What a mix comes to at the best of everything.
fn best(case: &Case, inputs: &Inputs) -> Come {
    let mixed = physics::mixed(case, inputs);
    let treatment = case.fed.treatment(mixed.volume_lost);
    let chemistry = case.substances.best(&treatment);
    Come { mixed, chemistry }
}

fn outcome(case: &Case, come: &Come) -> Outcome {
    Outcome {
        values: figures::values(case, come),
        verdict: verdict(&complaints(
            case.limits,
            &come.mixed.judged(case.limits.purpose),
        )),
    }
}

fn profile(case: &Case, mixed: &Mixed) -> Vec<Layer> {
    let fill = case.fill;
    (0..=LAYERS)
        .map(|layer| {
            let height = fill * (layer as f64 / LAYERS as f64);
            let water = mixed.water_at_suction(height.in_centimetres());
            Layer {
                height_mm: height.in_millimetres(),
                water,
                air: mixed.pore_space - water,
            }
        })
        .collect()
}
