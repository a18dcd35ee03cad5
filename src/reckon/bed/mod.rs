//! Bed: how deep a capillary bed under the pot.
//!
//! * `question`: what is typed, and the case it is read into.
//! * `form`: its form as data.
//! * `figures`: what it comes to, as a table.
//! * `choose`: which depth to lay, and which are safe.
//! * `cautions`: what to mind, before which step.
//! * `working`: how the best figures came about.
//! * `told`: what belongs to an answer of Bed alone.
//! * `physics`: one outcome at every depth from one set of inputs: the quick estimate.
//! * `instead`: what else could be done for the same pots.
//! * [`runs`]: the flow of water solved in full.
//! * `sweep`: many draws at every depth at once.
//! * `words`: the sentences.

mod careless;
mod cautions;
mod choose;
mod figures;
mod form;
mod instead;
mod physics;
mod question;
pub mod runs;
mod sweep;
mod told;
mod words;
mod working;

pub use question::{
    BEDDED, BY_HAND, BedAsked, Case, FLOAT, Fills, HELD, HOLES, PlantAsked, Question, TrayAsked,
    UNDER_POTS, WHOLE_TRAY,
};
pub use sweep::{Finds, Sweep};

pub use told::{DepthTold, Detail, OtherMedium, RunTold, run_at};

use super::answer::{Answer, FigureName, Judgement};
use super::doubt::{Doubt, UnderWay};
use super::materials::bags_for;
use super::mix::Outline;
use super::{Outcome, Problem, Reckoning};
use crate::measure::{DecimalMark, Length, Range};
use crate::science::conductivity::Curves;
use crate::science::numerics::draws::Draws;
use choose::{better, first_look, held, window};
use instead::Instead;
use physics::{AtDepth, Scene, best_scene, drawn_scene};
use told::runs_told;

/// The reckoning.
pub struct Bed;

impl Reckoning for Bed {
    const NAME: &'static str = "bed";
    const ASKS: &'static str = "How deep a bed under the pots?";
    type Question = Question;
    type Case = Case;
    type Detail = Detail;

    fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
        question::check(question, mark)
    }

    fn figures(_: &Case) -> Vec<FigureName> {
        figures::names()
    }

    fn best(case: &Case) -> Result<Outcome, Problem> {
        let scene = best_scene(case)?;
        let all = scene.at_all_depths();
        outcome(case, &scene, &all, first_look(&all))
    }

    /// One outcome at the depth that a first look finds.
    fn draw(case: &Case, draws: &mut Draws) -> Result<Outcome, Problem> {
        let place = first_look(&best_scene(case)?.at_all_depths());
        let drawn = drawn_scene(case, draws)?;
        outcome(case, &drawn, &drawn.at_all_depths(), place)
    }

    fn begin(case: Case, wanted: u32, seed: u64) -> Result<Box<dyn UnderWay>, Problem> {
        Ok(Box::new(Sweep::begin(case, wanted.max(1), seed)))
    }

    fn answer(case: &Case, doubt: Option<&Doubt>) -> Result<Answer<Detail>, Problem> {
        let scene = best_scene(case)?;
        let all = scene.at_all_depths();
        let finds = doubt.and_then(|doubt| Finds::read(&doubt.finds, all.len()));
        let place = finds
            .as_ref()
            .map_or_else(|| first_look(&all), |finds| finds.place);
        let best = outcome(case, &scene, &all, place)?;
        let mut figures = Doubt::figures(Self::figures(case), &best.values, doubt);
        let window = window(case, &all, finds.as_ref(), place);
        let depth = case
            .depths
            .get(place)
            .copied()
            .unwrap_or(Length::from_millimetres(0.0));
        if let (Some(figure), Some([from, to])) = (figures.first_mut(), window) {
            let (from, to) = (from.in_metres(), to.in_metres());
            figure.range = Range::new(from, depth.in_metres(), to).unwrap_or(figure.range);
        }
        let chosen = all.get(place).copied().ok_or_else(words::no_depth)?;
        let straight = all.first().copied().ok_or_else(words::no_depth)?;
        let chances = doubt.map(|doubt| doubt.chances);
        let instead = finds.as_ref().map(|finds| &finds.instead);
        let others = instead.map_or_else(Vec::new, Instead::others_told);
        let told = words::Told {
            depth,
            window,
            chosen,
            straight,
            breaks_at_cm: scene.breaks_at_cm(),
            case,
            better: better(&others, window),
            lower_fill: instead.and_then(|instead| instead.lower_fill),
            drawn: finds.is_some(),
        };
        let runs = finds
            .as_ref()
            .map_or_else(Vec::new, |finds| runs_told(case, &finds.runs));
        let verdict = held(best.verdict, &runs, depth);
        let laid = chosen.bed_litres * case.pots;
        let bags = bags_for(laid, 0.0, case.bag.in_litres());
        Ok(Answer {
            judgement: Judgement {
                verdict,
                sentence: words::verdict(&told, verdict, chances),
                chances,
            },
            advice: words::advice(&told),
            cautions: cautions::cautions(case, &chosen, depth),
            working: working::working(case, &scene, &told),
            detail: Detail {
                first_look: finds.is_none(),
                depth_mm: depth.in_millimetres(),
                window_mm: window.map(|ends| ends.map(Length::in_millimetres)),
                depths: all
                    .iter()
                    .zip(&case.depths)
                    .enumerate()
                    .map(|(place, (at, depth))| DepthTold {
                        depth_mm: depth.in_millimetres(),
                        chances: finds
                            .as_ref()
                            .and_then(|finds| finds.chances.get(place).copied()),
                        verdict: at.verdict,
                        air: at.air,
                        air_full: at.air_full,
                        air_lowest_full: at.air_lowest_full,
                        supply: at.supply,
                        mid_suction_cm: at.mid_suction_cm,
                        bed_litres: at.bed_litres,
                    })
                    .collect(),
                level_mm: case.level.in_millimetres(),
                wall_mm: case.wall.in_millimetres(),
                fill_mm: case.mix.fill.in_millimetres(),
                medium: case.medium.name.to_owned(),
                mix: case.mix.mix_in_words(),
                pot: case.mix.pot_in_words(),
                outline: Outline::of(&case.mix.vessel),
                pore_space: scene.ball.water_content(0.0),
                laid_litres: laid * scene.settled(),
                loose_litres: laid,
                bags,
                price: case.price.map(|price| price * bags),
                others,
                held_to_account: words::held_to_account(&runs),
                runs,
            },
            figures,
        })
    }

    fn careless(draws: &mut Draws) -> Question {
        careless::careless(draws)
    }
}

/// The outcome at one of the depths, of what comes of all of them.
fn outcome(
    case: &Case,
    scene: &Scene<'_>,
    all: &[AtDepth],
    place: usize,
) -> Result<Outcome, Problem> {
    let found = (case.depths.get(place), all.get(place), all.first());
    let (Some(depth), Some(at), Some(straight)) = found else {
        return Err(words::no_depth());
    };
    Ok(Outcome {
        values: figures::values(case, scene, at, straight, *depth),
        verdict: at.verdict,
    })
}
