//! All reckonings by name, for whoever knows only the name: the worker and the terminal.

use super::doubt::{Doubt, Sampling};
use super::form::{Texts, put};
use super::mix::Mix;
use super::rinse::Rinse;
use super::{Problem, Reckoning, words};
use crate::measure::DecimalMark;

/// A sampling under way, whatever its reckoning.
pub trait UnderWay {
    /// Takes up to `most` draws more; true when all are done.
    ///
    /// # Errors
    /// A problem where a drawn case has no outcome.
    fn advance(&mut self, most: u32) -> Result<bool, Problem>;
    /// Draws done and draws wanted.
    fn progress(&self) -> (u32, u32);
    /// What the draws say.
    fn finish(self: Box<Self>) -> Doubt;
}

impl<R: Reckoning> UnderWay for Sampling<R> {
    fn advance(&mut self, most: u32) -> Result<bool, Problem> {
        Self::advance(self, most)
    }

    fn progress(&self) -> (u32, u32) {
        Self::progress(self)
    }

    fn finish(self: Box<Self>) -> Doubt {
        self.doubt()
    }
}

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
        Mix::NAME => begin_as::<Mix>(question, mark, draws, seed),
        Rinse::NAME => begin_as::<Rinse>(question, mark, draws, seed),
        _ => Err(Problem::at("", words::no_such_reckoning(reckoning))),
    }
}

fn begin_as<R: Reckoning>(
    texts: &Texts,
    mark: DecimalMark,
    draws: u32,
    seed: u64,
) -> Result<Box<dyn UnderWay>, Problem> {
    let mut question = R::Question::default();
    put(&mut question, texts);
    let case = R::check(&question, mark).map_err(first_of)?;
    Ok(Box::new(Sampling::<R>::begin(case, draws, seed)?))
}

/// The first of the problems of a question, where only one can be told.
#[must_use]
pub fn first_of(problems: Vec<Problem>) -> Problem {
    problems
        .into_iter()
        .next()
        .unwrap_or_else(|| Problem::at("", words::question_of_another_build()))
}
