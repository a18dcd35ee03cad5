//! Root zone: raised, on the floor, or on a heated bench.
//!
//! * `question`: what is typed.
//! * `case`: what it is read into.
//! * `read`: reading it.
//! * `form`: its form as data.
//! * `inputs`: what one outcome needs beyond the case: at their best, or drawn.
//! * `weather`: the air, the sun and the cover of the house through a day.
//! * `stands`: what stands on what.
//! * `come`: what comes of each standing.
//! * [`further`]: covers, insulation, months, heights, July.
//! * `figures`: what it comes to, as a table.
//! * [`own`]: what one's own readings tell of the house.
//! * `sweep`: the draws, and what is looked for after them.
//! * `told`: what belongs to an answer of Root zone alone.
//! * `cautions`: what to mind, before which step.
//! * `working`: how the best figures came about.
//! * `words`: the sentences.

mod careless;
mod case;
mod cautions;
mod come;
mod figures;
mod form;
pub mod further;
mod inputs;
pub mod own;
mod question;
mod read;
mod stands;
mod sweep;
mod told;
mod weather;
mod words;
mod working;

pub use case::{Case, Stand};
pub use question::{
    DayAsked, FITTED_ENDS, FittedAsked, MOST_READINGS, Question, ReadingAsked, fitted_at,
};
pub use told::{Cause, ColourName, Detail, FittedTold, HeatTold, ReadingTold, StandTold};
pub use weather::TIMES;
pub use words::told_of;

use super::answer::{Answer, FigureName, Judgement};
use super::doubt::{Doubt, UnderWay};
use super::{Outcome, Problem, Reckoning};
use crate::measure::DecimalMark;
use crate::science::numerics::draws::Draws;
use come::{Best, Outcomes};
use inputs::Inputs;
use sweep::{Finds, Sweep};
use weather::When;

/// The reckoning.
pub struct RootZone;

impl Reckoning for RootZone {
    const NAME: &'static str = "root_zone";
    const ASKS: &'static str = "Where do these pots stand this month?";
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
        Ok(outcome(case, &Best::of(case)?.outcomes))
    }

    fn draw(case: &Case, draws: &mut Draws) -> Result<Outcome, Problem> {
        let inputs = Inputs::drawn(case, draws)?;
        Ok(outcome(case, &Outcomes::of(case, &inputs)?))
    }

    fn begin(case: Case, wanted: u32, seed: u64) -> Result<Box<dyn UnderWay>, Problem> {
        Ok(Box::new(Sweep::begin(case, wanted, seed)?))
    }

    fn answer(case: &Case, doubt: Option<&Doubt>) -> Result<Answer<Detail>, Problem> {
        let best = Best::of(case)?;
        let out = &best.outcomes;
        let when = When::of_month(case, case.month);
        let values = figures::values(case, out);
        let verdict = out.verdict(case.stand);
        let chances = doubt.map(|doubt| doubt.chances);
        Ok(Answer {
            figures: Doubt::figures(Self::figures(case), &values, doubt),
            judgement: Judgement {
                verdict,
                sentence: words::verdict(case, out, verdict, chances),
                chances,
            },
            advice: words::advice(case, out),
            cautions: cautions::cautions(case),
            working: working::working(case, &best.inputs, &when, out),
            detail: told::detail(case, &best, doubt.and_then(Finds::read)),
        })
    }

    fn careless(draws: &mut Draws) -> Question {
        careless::careless(draws)
    }
}

fn outcome(case: &Case, out: &Outcomes) -> Outcome {
    Outcome {
        values: figures::values(case, out),
        verdict: out.verdict(case.stand),
    }
}
