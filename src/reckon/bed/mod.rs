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
//! * `stand`: one kind of pot on its bed, ready for the flow.
//! * [`soaks`]: whether what is set down dry is wetted from below.
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
pub mod soaks;
mod stand;
mod sweep;
mod told;
mod words;
mod working;

pub use question::{
    ABOVE, BEDDED, BELOW, BY_HAND, BedAsked, Case, FLOAT, Fills, HELD, HOLES, LEAVES, LITRES, NO,
    PlantAsked, Question, SecondAsked, TrayAsked, TubeAsked, UNDER_POTS, WHOLE_TRAY, YES,
};
pub use sweep::{Finds, Sweep};

pub use told::{DepthTold, Detail, KindTold, OtherMedium, RunTold, run_at};

use super::answer::{Answer, FigureName, Judgement};
use super::doubt::{Doubt, UnderWay};
use super::materials::bags_for;
use super::mix::Outline;
use super::{Outcome, Problem, Reckoning};
use crate::measure::{DecimalMark, Length, Range};
use crate::science::conductivity::Curves;
use crate::science::numerics::draws::Draws;
use choose::{better, first_look, held, safe_window};
use instead::Instead;
use physics::{AtDepth, Looked, Tray};
use told::{kinds_told, runs_told};

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
        let tray = Tray::best(case)?;
        let looked = tray.looked();
        outcome(case, &tray, &looked, first_look(&looked))
    }

    /// One outcome at the depth that a first look finds.
    fn draw(case: &Case, draws: &mut Draws) -> Result<Outcome, Problem> {
        let place = first_look(&Tray::best(case)?.looked());
        let drawn = Tray::drawn(case, draws)?;
        outcome(case, &drawn, &drawn.looked(), place)
    }

    fn begin(case: Case, wanted: u32, seed: u64) -> Result<Box<dyn UnderWay>, Problem> {
        Ok(Box::new(Sweep::begin(case, wanted.max(1), seed)))
    }

    fn answer(case: &Case, doubt: Option<&Doubt>) -> Result<Answer<Detail>, Problem> {
        let tray = Tray::best(case)?;
        let scene = tray.first()?;
        let looked = tray.looked();
        let finds = doubt.and_then(|doubt| Finds::read(&doubt.finds, looked.depths()));
        let place = finds
            .as_ref()
            .map_or_else(|| first_look(&looked), |finds| finds.place);
        let best = outcome(case, &tray, &looked, place)?;
        let mut figures = Doubt::figures(Self::figures(case), &best.values, doubt);
        let window = safe_window(case, &looked, finds.as_ref(), place);
        let depth = case
            .depths
            .get(place)
            .copied()
            .unwrap_or(Length::from_millimetres(0.0));
        if let (Some(figure), Some([from, to])) = (figures.first_mut(), window) {
            let (from, to) = (from.in_metres(), to.in_metres());
            figure.range = Range::new(from, depth.in_metres(), to).unwrap_or(figure.range);
        }
        let chosen = looked
            .first()
            .get(place)
            .copied()
            .ok_or_else(words::no_depth)?;
        let straight = looked
            .first()
            .first()
            .copied()
            .ok_or_else(words::no_depth)?;
        let chances = doubt.map(|doubt| doubt.chances);
        let instead = finds.as_ref().map(|finds| &finds.instead);
        let others = instead.map_or_else(Vec::new, Instead::others_told);
        let loose = looked.over_the_tray(case, place, |at: &AtDepth| at.bed_litres);
        let told = words::Told {
            depth,
            window,
            chosen,
            wrong: looked.wrong(place),
            straight,
            breaks_at_cm: scene.breaks_at_cm(),
            loose_litres: loose,
            case,
            better: better(&others, window),
            mends: instead.map(|instead| instead.mends).unwrap_or_default(),
            drawn: finds.is_some(),
        };
        let runs = finds
            .as_ref()
            .map_or_else(Vec::new, |finds| runs_told(case, &finds.runs));
        let verdict = held(best.verdict, &runs, depth);
        let bay = loose * case.trays;
        let bags = bags_for(bay, 0.0, case.bag.in_litres());
        let load = looked.load_kg_per_m2(case, place);
        let soaks = finds.as_ref().map(|finds| finds.soaks);
        let kinds = kinds_told(case, &looked, finds.as_ref(), place);
        Ok(Answer {
            judgement: Judgement {
                verdict,
                sentence: words::verdict(&told, verdict, chances),
                chances,
            },
            advice: words::advice(&told),
            cautions: cautions::cautions(case, load, depth),
            working: working::working(scene, &told),
            detail: Detail {
                first_look: finds.is_none(),
                depth_mm: depth.in_millimetres(),
                window_mm: window.map(|ends| ends.map(Length::in_millimetres)),
                depths: depths_told(case, &looked, finds.as_ref()),
                level_mm: case.level.in_millimetres(),
                wall_mm: case.wall.in_millimetres(),
                fill_mm: case.mix.fill.in_millimetres(),
                medium: case.medium.row.name.to_owned(),
                mix: case.mix.mix_in_words(),
                pot: case.mix.pot_in_words(),
                outline: Outline::of(&case.mix.vessel),
                pore_space: scene.ball.water_content(0.0),
                pot_litres: chosen.bed_litres * scene.settled(),
                laid_litres: loose * scene.settled(),
                loose_litres: loose,
                trays: case.trays,
                bay_litres: bay,
                bags,
                price: case.price.map(|price| price * bags),
                others,
                held_to_account: words::held_to_account(&runs, finds.as_ref()),
                runs,
                soaking: words::soaking(soaks, depth),
                soaks,
                kinds_together: words::kinds_together(&kinds, depth, case.medium.row.name),
                kinds,
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
    tray: &Tray<'_>,
    looked: &Looked,
    place: usize,
) -> Result<Outcome, Problem> {
    Ok(Outcome {
        values: figures::values(case, tray, looked, place)?,
        verdict: looked.verdict(place),
    })
}

/// What comes of every depth, as it is told.
fn depths_told(case: &Case, looked: &Looked, finds: Option<&Finds>) -> Vec<DepthTold> {
    let depths = looked.first().iter().zip(&case.depths).enumerate();
    depths
        .map(|(place, (at, depth))| DepthTold {
            depth_mm: depth.in_millimetres(),
            chances: finds.and_then(|finds| finds.chances.get(place).copied()),
            verdict: looked.verdict(place),
            air: at.air,
            air_full: at.air_full,
            air_lowest_full: at.air_lowest_full,
            supply: at.supply,
            mid_suction_cm: at.mid_suction_cm,
            bed_litres: at.bed_litres,
        })
        .collect()
}
