//! Floor 4: the reckonings, one file each: a question goes in, an answer with its working comes out.
//!
//! Judgement lives here: defaults, verdicts and advice, each threshold a named
//! figure of the [`handbook`](crate::handbook). Every reckoning implements
//! [`Reckoning`], so that pages, printing, links, the terminal, tests and fuzzing
//! need no special cases.
//!
//! * [`answer`]: what an answer is made of.
//! * [`careless`]: what a careless hand types.
//! * [`cautions`]: what more than one reckoning has to be minded.
//! * [`doubt`]: where its low and high come from.
//! * `document`: questions and answers as JSON, for the terminal.
//! * [`errand`]: how the doubt is fetched from another thread.
//! * [`form`]: the form of a question as data.
//! * [`materials`]: which material, and what it is bought in.
//! * [`pot`]: the pot as a question asks for it.
//! * [`reader`]: reading a question field by field.
//! * [`register`]: all reckonings by name.
//! * [`bed`]: how deep a capillary bed under the pot.
//! * [`mix`]: how a potting mix holds air and water in this pot.
//! * [`moving_on`]: whether a batch is ready to move, and the nights where it goes.
//! * [`rinse`]: how often a salty material must be rinsed.
//! * [`recipe`]: the best mix of what there is.
//! * [`root_zone`]: raised, on the floor, or on a heated bench.
//! * [`season`]: how many to sow, when, where it fits, what to buy.
//! * [`this_morning`]: what is due today, by what is lost if it is left.

pub mod answer;
pub mod bed;
pub mod careless;
pub mod cautions;
#[cfg(feature = "terminal")]
pub mod document;
pub mod doubt;
pub mod errand;
pub mod form;
pub mod materials;
pub mod mix;
pub mod moving_on;
pub mod pot;
pub mod reader;
pub mod recipe;
pub mod register;
pub mod rinse;
pub mod root_zone;
pub mod season;
pub mod this_morning;
pub mod words;

use crate::measure::DecimalMark;
use crate::nursery::{Day, Record};
use crate::science::numerics::draws::Draws;
use answer::{Answer, FigureName, Verdict};
use doubt::{Doubt, Sampling, UnderWay};

/// What stands between a question and its answer, at its field.
pub use crate::nursery::Problem;

/// One outcome of a reckoning: its figures in base units, in the order of
/// [`Reckoning::figures`], and how they are judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The figures, base units.
    pub values: Vec<f64>,
    /// The verdict on them.
    pub verdict: Verdict,
}

/// With the terminal built in, a question can be read as JSON, and question and answer say what
/// they are as JSON Schema.
#[cfg(feature = "terminal")]
pub trait AsJson: schemars::JsonSchema + serde::Serialize + serde::de::DeserializeOwned {}
#[cfg(feature = "terminal")]
impl<T: schemars::JsonSchema + serde::Serialize + serde::de::DeserializeOwned> AsJson for T {}
/// Without the terminal there is no JSON of them.
#[cfg(not(feature = "terminal"))]
pub trait AsJson {}
#[cfg(not(feature = "terminal"))]
impl<T> AsJson for T {}

/// One reckoning: what is asked, and how it is answered.
///
/// The best figures come from [`best`](Self::best) at once; the low and the high
/// come from many [`draw`](Self::draw)s, elsewhere and a little later.
pub trait Reckoning: 'static {
    /// Its name in files, addresses and at the terminal.
    const NAME: &'static str;
    /// What it answers, as a grower would ask.
    const ASKS: &'static str;
    /// The question as it was typed, to the letter.
    type Question: form::Form + Default + Clone + PartialEq + AsJson + Send + Sync + 'static;
    /// The question read and checked: quantities with units, figures looked up.
    type Case: 'static;
    /// What belongs to this answer alone: profiles, tables.
    type Detail: Clone + PartialEq + AsJson + Send + Sync + 'static;

    /// Reads the question.
    ///
    /// # Errors
    /// Every problem found, each at its field.
    fn check(question: &Self::Question, mark: DecimalMark) -> Result<Self::Case, Vec<Problem>>;

    /// The names of the figures, in the order of an [`Outcome`]'s values.
    fn figures(case: &Self::Case) -> Vec<FigureName>;

    /// The outcome with every input at its best.
    ///
    /// # Errors
    /// A problem where the case has no outcome.
    fn best(case: &Self::Case) -> Result<Outcome, Problem>;

    /// One outcome with every input drawn from its range.
    ///
    /// # Errors
    /// A problem where the drawn case has no outcome.
    fn draw(case: &Self::Case, draws: &mut Draws) -> Result<Outcome, Problem>;

    /// The answer in words and figures, with its doubt where that is known already.
    ///
    /// # Errors
    /// A problem where the case has no outcome.
    fn answer(case: &Self::Case, doubt: Option<&Doubt>) -> Result<Answer<Self::Detail>, Problem>;

    /// Begins what takes longer than a frame: so many draws from a seed, unless the reckoning has
    /// something of its own to find.
    ///
    /// # Errors
    /// A problem where the case has no outcome even at its best.
    fn begin(case: Self::Case, wanted: u32, seed: u64) -> Result<Box<dyn UnderWay>, Problem>
    where
        Self: Sized,
    {
        Ok(Box::new(Sampling::<Self>::begin(case, wanted, seed)?))
    }

    /// The question that a record asks on a day; none where it does not, or such a question is not read from a record as
    /// a whole.
    fn of_record(_record: &Record, _today: Day) -> Option<Self::Question> {
        None
    }

    /// The question to begin with on a day.
    fn not_yet_asked(_today: Day) -> Self::Question {
        Self::Question::default()
    }

    /// A question such as a careless, hurried or hostile hand might put.
    fn careless(draws: &mut Draws) -> Self::Question;
}
