//! Moving on: is this batch ready, and are the nights where it goes?
//!
//! * `question`: what is typed.
//! * `case`: what it is read into.
//! * `read`: reading it.
//! * [`from_record`]: the question as the record asks it, batch by batch.
//! * `card`: the points that are looked at, those of one's own among them, and a card as one text.
//! * `form`: its form as data.
//! * `inputs`: what one outcome needs beyond the case: at their best, or drawn.
//! * `nights`: the coming nights where it goes.
//! * `ready`: the card of the batch, and what it comes to.
//! * `own`: what one's own moves of before tell.
//! * `room`: what there is of room in a bay of the record.
//! * `states`: what a point may look like, and what is counted or measured.
//! * `waiting`: what waiting costs, and what going early costs.
//! * `days`: how far it is from day to day, and the best day to move.
//! * `hot`: hot days where it goes.
//! * `hardening`: how it is hardened until that day.
//! * `next_pot`: one size up or straight to the last, and how little water is enough.
//! * `figures`: what it comes to, as a table.
//! * `brief`: how a batch stands in brief, where many are asked at once.
//! * `told`: what belongs to an answer of Moving on alone.
//! * `working`: how the best figures came about.
//! * `kept`: what the record keeps of an answer.
//! * `words`: the sentences.

mod brief;
mod card;
mod careless;
mod case;
mod days;
mod figures;
mod form;
pub mod from_record;
mod hardening;
mod hot;
mod inputs;
mod kept;
mod next_pot;
mod nights;
mod own;
mod question;
mod read;
mod ready;
mod room;
mod states;
mod told;
mod waiting;
mod words;
mod working;

pub use brief::{Brief, in_brief};
pub use card::{card_of_texts, card_texts};
pub use case::{Case, Move};
pub use hardening::HardeningTold;
pub use hot::HotTold;
pub use kept::{BEST_DAY_KEPT, HARDENING_KEPT, SAID_KEPT, STAGE_KEPT, kept, seen_kept};
pub use next_pot::NextPotTold;
pub use nights::DAYS;
pub use question::{
    CHECKED, COLD_HOUSE, EarlierAsked, ForecastAsked, HARMED, MOVED, NightAsked, OUTDOORS,
    OwnAsked, POT_ON, PRICK_OUT, PlaceAsked, PointAsked, Question, SLOWLY, SeenAsked, StoodAsked,
    UP, WELL, WENT, WeighedAsked,
};
pub use ready::Stage;
pub use told::{
    DayTold, Detail, HeadTold, IndicesTold, Limits, MeasureTold, NightTold, PointTold, PotTold,
    StateTold, WayTold,
};

use super::answer::{Answer, FigureName, Judgement};
use super::doubt::{Doubt, UnderWay};
use super::{Outcome, Problem, Reckoning};
use crate::measure::DecimalMark;
use crate::nursery::{Day, Record};
use crate::science::nights::Paths;
use crate::science::numerics::draws::Draws;
use days::Run;
use inputs::Inputs;
use nights::Nights;
use told::Found;

/// The reckoning.
pub struct MovingOn;

/// Draws are taken of so many at most.
const MOST_DRAWS: u32 = 200;

impl Reckoning for MovingOn {
    const NAME: &'static str = "moving_on";
    const ASKS: &'static str = "Is this batch ready, and are the nights?";
    type Question = Question;
    type Case = Case;
    type Detail = Detail;

    fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
        read::check(question, mark)
    }

    fn figures(_: &Case) -> Vec<FigureName> {
        figures::names()
    }

    fn best(case: &Case) -> Result<Outcome, Problem> {
        let nights = Nights::of(case)?;
        let inputs = Inputs::best(case)?;
        let run = Run::of(case, &inputs, &nights);
        Ok(figures::outcome(case, &run, nights.chances(inputs.limit_c)))
    }

    fn draw(case: &Case, draws: &mut Draws) -> Result<Outcome, Problem> {
        figures::drawn(case, draws).map(|(_, outcome)| outcome)
    }

    fn begin(case: Case, wanted: u32, seed: u64) -> Result<Box<dyn UnderWay>, Problem> {
        let wanted = wanted.clamp(1, MOST_DRAWS);
        let case = case.finely()?;
        Ok(Box::new(figures::DaysUnderWay::begin(case, wanted, seed)?))
    }

    fn answer(case: &Case, doubt: Option<&Doubt>) -> Result<Answer<Detail>, Problem> {
        let nights = Nights::of(case)?;
        let inputs = Inputs::best(case)?;
        let run = Run::of(case, &inputs, &nights);
        let by_day = figures::by_day(case, &nights, doubt)?;
        let chances = figures::from_today(&by_day);
        let next_pots = figures::next_pots(case, doubt)?;
        let outcome = figures::outcome(case, &run, chances);
        let card = ready::card(case, &run, chances[0]);
        let found = Found {
            case,
            inputs: &inputs,
            nights: &nights,
            run: &run,
            card: &card,
            stage: ready::stage(&run, &card),
            chances,
            by_day: &by_day,
            next_pots: &next_pots,
            hot: hot::told(case, &inputs, run.best),
        };
        let of_verdicts = doubt.map(|doubt| doubt.chances);
        Ok(Answer {
            judgement: Judgement {
                verdict: outcome.verdict,
                sentence: words::verdict(&found, of_verdicts),
                chances: of_verdicts,
            },
            advice: words::advice(&found),
            cautions: words::cautions(case),
            working: working::working(&found),
            detail: told::detail(&found, doubt)?,
            figures: Doubt::figures(figures::names(), &outcome.values, doubt),
        })
    }

    fn of_record(record: &Record, today: Day) -> Option<Question> {
        from_record::of_record(record, today)
    }

    /// The same batch as in April, on that day.
    fn not_yet_asked(today: Day) -> Question {
        let asked = Question::default();
        let read = |text: &str| Day::read(text).ok();
        let days = read(&asked.today)
            .zip(read(&asked.since))
            .map_or(0, |(today, since)| since.number() - today.number());
        Question {
            today: today.iso(),
            since: today.plus(days).iso(),
            ..asked
        }
    }

    fn careless(draws: &mut Draws) -> Question {
        careless::careless(draws)
    }
}

/// The chance that one of the seven nights from tonight on is colder than a temperature, °C, where a batch goes: within
/// 0.01. None where the question cannot be read.
#[must_use]
pub fn chance_of_colder(question: &Question, limit_c: f64) -> Option<f64> {
    let case = read::check(question, DecimalMark::Ask).ok()?;
    Some(1.0 - Nights::of(&case).ok()?.chance_soon(limit_c))
}

impl Case {
    /// The same case, followed through more paths: for whoever has the time.
    fn finely(self) -> Result<Self, Problem> {
        let fine = Nights::of(&self)?.followed(Paths::MANY);
        Ok(Self {
            nights: std::cell::OnceCell::from(std::rc::Rc::new(fine)),
            ..self
        })
    }
}
