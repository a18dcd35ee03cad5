//! Season: how many to sow, when, whether all find room, and what to buy.
//!
//! * `question`: what is typed.
//! * `case`: what it is read into.
//! * `read`: reading it.
//! * [`from_record`]: the question as the record asks it.
//! * `form`: its form as data.
//! * `inputs`: what one outcome needs beyond the case: at their best, slow, or drawn.
//! * `calendar`: from day to day, how far warmth and light carry a sowing.
//! * `own`: what one's own batches tell of a crop.
//! * `plan`: what is sown when, and in what number.
//! * `weeks`: room and hands from week to week.
//! * `kept`: what the record keeps of an answer.
//! * `mends`: what would mend a week that is too full.
//! * `buying`: what is to be bought.
//! * `figures`: what it comes to, as a table.
//! * `told`: what belongs to an answer of Season alone.
//! * `working`: how the best figures came about.
//! * `words`: the sentences.

mod buying;
mod calendar;
mod careless;
mod case;
mod figures;
mod form;
pub mod from_record;
mod inputs;
mod kept;
mod mends;
mod own;
mod plan;
mod question;
mod read;
mod told;
mod weeks;
mod words;
mod working;

pub use buying::Bought;
pub(in crate::reckon) use calendar::{day_of_year, gain_of_day, light_of_sun, slowed};
pub use case::{Batch, Case, Warmth};
pub(in crate::reckon) use inputs::with_scatter;
pub use kept::{SOWN_KEPT, kept, kept_at};
pub(in crate::reckon) use plan::SEEDLINGS_PER_M2;
pub use question::{BatchAsked, PartAsked, PlaceAsked, Question, SowingAsked};
pub use told::{BatchTold, Detail, OwnTold, SownTold, WeekTold};

use super::answer::{Answer, Caution, FigureName, Judgement};
use super::doubt::{Doubt, Sampling, UnderWay};
use super::{Outcome, Problem, Reckoning};
use crate::handbook::crops::Crop;
use crate::handbook::sources;
use crate::measure::DecimalMark;
use crate::nursery::{Day, Record};
use crate::science::numerics::draws::Draws;
use inputs::Inputs;
use plan::Plan;

/// The reckoning.
pub struct Season;

/// What is to be bought for what is sown up to a day; nothing where the case comes to no plan.
#[must_use]
pub fn bought_until(case: &Case, until: Day) -> Vec<Bought> {
    Plan::of(case).map_or_else(
        |_| Vec::new(),
        |plan| buying::bought(case, &plan, Some(until)),
    )
}

/// How much warmth one's own batches of a crop needed, times what the handbook has, and how far the next may be off it, 8
/// in 10; none where no batch tells of it.
#[must_use]
pub(in crate::reckon) fn own_warmth(case: &Case, crop: &Crop) -> Option<[f64; 2]> {
    let place = case.crops.iter().position(|known| known.key == crop.key)?;
    let range = case.own.get(place)?.grows?.times(1.0);
    Some([range.best(), (range.high() - range.low()) / 2.0])
}

/// Draws are taken of so many at most: each follows every sowing day by day.
const MOST_DRAWS: u32 = 200;

impl Reckoning for Season {
    const NAME: &'static str = "season";
    const ASKS: &'static str = "How many do I sow, when, and does it fit?";
    type Question = Question;
    type Case = Case;
    type Detail = Detail;

    fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
        read::check(question, mark)
    }

    fn figures(case: &Case) -> Vec<FigureName> {
        Plan::of(case).map_or_else(|_| Vec::new(), |plan| figures::names(case, &plan))
    }

    fn best(case: &Case) -> Result<Outcome, Problem> {
        Ok(figures::best(case, &*Plan::of(case)?))
    }

    fn draw(case: &Case, draws: &mut Draws) -> Result<Outcome, Problem> {
        let plan = Plan::of(case)?;
        let courses = plan.courses_with(case, &Inputs::drawn(case, draws)?);
        Ok(figures::outcome(case, &plan, &courses))
    }

    fn begin(case: Case, wanted: u32, seed: u64) -> Result<Box<dyn UnderWay>, Problem> {
        let wanted = wanted.clamp(1, MOST_DRAWS);
        Ok(Box::new(Sampling::<Self>::begin(case, wanted, seed)?))
    }

    fn answer(case: &Case, doubt: Option<&Doubt>) -> Result<Answer<Detail>, Problem> {
        let plan = Plan::of(case)?;
        let outcome = Self::best(case)?;
        let figures = Doubt::figures(Self::figures(case), &outcome.values, doubt);
        let chances = doubt.map(|doubt| doubt.chances);
        Ok(Answer {
            judgement: Judgement {
                verdict: outcome.verdict,
                sentence: words::verdict(case, &plan, outcome.verdict, chances),
                chances,
            },
            advice: words::advice(case, &plan),
            cautions: vec![
                Caution::new(
                    words::BEFORE_BUYING,
                    words::test_old_seed(),
                    &sources::COMMON_PRACTICE,
                ),
                Caution::new(
                    words::BEFORE_SOWING,
                    words::treated_seed(),
                    &sources::COMMON_PRACTICE,
                ),
            ],
            working: working::working(case, &plan),
            detail: told::detail(case, &plan, &figures),
            figures,
        })
    }

    fn of_record(record: &Record, today: Day) -> Option<Question> {
        from_record::of_record(record, today)
    }

    fn not_yet_asked(today: Day) -> Question {
        let mut question = Question::default();
        let day = from_record::next_middle_of_may(today).iso();
        for sowing in &mut question.sowings {
            sowing.day.clone_from(&day);
        }
        question
    }

    fn careless(draws: &mut Draws) -> Question {
        careless::careless(draws)
    }
}
