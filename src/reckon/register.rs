//! All reckonings by name, for whoever knows only the name: the worker and the terminal.

use super::bed::Bed;
pub use super::doubt::UnderWay;
use super::form::{Texts, put};
use super::mix::Mix;
use super::moving_on::MovingOn;
use super::recipe::Recipe;
use super::rinse::Rinse;
use super::root_zone::RootZone;
use super::season::Season;
use super::{Problem, Reckoning, words};
use crate::measure::DecimalMark;

/// Begins the sampling of a question by the name of its reckoning.
///
/// # Errors
/// The first problem of the question, or that no reckoning has this name.
pub fn begin(
    reckoning: &str,
    question: &Texts,
    mark: DecimalMark,
    draws: u32,
    seed: u64,
) -> Result<Box<dyn UnderWay>, Problem> {
    match reckoning {
        Bed::NAME => begin_as::<Bed>(question, mark, draws, seed),
        Mix::NAME => begin_as::<Mix>(question, mark, draws, seed),
        MovingOn::NAME => begin_as::<MovingOn>(question, mark, draws, seed),
        Rinse::NAME => begin_as::<Rinse>(question, mark, draws, seed),
        Recipe::NAME => begin_as::<Recipe>(question, mark, draws, seed),
        RootZone::NAME => begin_as::<RootZone>(question, mark, draws, seed),
        Season::NAME => begin_as::<Season>(question, mark, draws, seed),
        _ => Err(Problem::at("", words::no_such_reckoning(reckoning))),
    }
}

/// Begins the work on a question of one reckoning. A program that has this and not [`begin`] is
/// spared all other reckonings.
///
/// # Errors
/// The first problem of the question.
pub fn begin_as<R: Reckoning>(
    texts: &Texts,
    mark: DecimalMark,
    draws: u32,
    seed: u64,
) -> Result<Box<dyn UnderWay>, Problem> {
    let mut question = R::Question::default();
    put(&mut question, texts);
    let case = R::check(&question, mark).map_err(first_of)?;
    R::begin(case, draws, seed)
}

/// The first of the problems of a question, where only one can be told.
#[must_use]
pub fn first_of(problems: Vec<Problem>) -> Problem {
    problems
        .into_iter()
        .next()
        .unwrap_or_else(|| Problem::at("", words::question_of_another_build()))
}
