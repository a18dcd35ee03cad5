//! The reckonings at a terminal: a question as JSON goes in, an answer as JSON comes out.

mod record;

use std::io::{Read, Write};
use std::process::ExitCode;
use std::sync::atomic::{AtomicU64, Ordering};

use longtom::keep::demo;
use longtom::keep::journal::{fold, format, plausible};
use longtom::measure::DecimalMark;
use longtom::nursery::Day;
use longtom::nursery::kinds::DAY;
use longtom::reckon::bed::{self, Bed};
use longtom::reckon::document::{ask, read_question, schemas};
use longtom::reckon::doubt::{SEED, doubt_of};
use longtom::reckon::mix::Mix;
use longtom::reckon::moving_on::{self, MovingOn};
use longtom::reckon::recipe::Recipe;
use longtom::reckon::rinse::Rinse;
use longtom::reckon::root_zone::{self, RootZone};
use longtom::reckon::season::Season;
use longtom::reckon::{Problem, Reckoning};
use longtom::science::numerics::draws::Draws;

const HELP: &str = "reckon: the reckonings of Longtom at a terminal

  reckon list                       the reckonings and what they answer
  reckon schema NAME                JSON Schema of its question and its answer
  reckon example NAME               a question to start from
  reckon NAME < question.json       the answer, as JSON
  reckon NAME --record F [--on DAY] the answer to what the record in the file F asks, on that day or on
                                    the last of which the record has an entry; --question tells the
                                    question itself
  reckon record demo                the record of the demo nursery, as public/demo.json holds it
  reckon fuzz NAME --count N --seed S [--check | --ranges] [--answered]
                                    careless questions, to see that none breaks it: read and checked
                                    alone, answered, or answered with their ranges; with --answered
                                    until so many could be answered, and not until so many were put
  reckon record fuzz --count N --seed S
                                    careless documents of a record, to see that none breaks it
  reckon record plausible --count N --seed S
                                    a record of N invented entries, to try things with
  reckon record measure --count N --seed S
                                    how long a record of N entries takes, and how large it is

Options of reckon NAME: --seed S    the seed of the draws behind each range
                        --comma     a comma is the decimal mark
";

/// Exit code of a question that cannot be answered; what is wrong is on standard error, as JSON.
const UNANSWERED: u8 = 1;
/// Exit code of a call that is not understood.
const NOT_UNDERSTOOD: u8 = 2;

/// Why the program ends early.
enum Ending {
    Help(String),
    Problems(Vec<Problem>),
    ReaderGone,
}

impl From<Problem> for Ending {
    fn from(problem: Problem) -> Self {
        Self::Problems(vec![problem])
    }
}

impl From<std::io::Error> for Ending {
    /// Writing fails when the reader closes early, as `head` does: no fault of the question.
    fn from(_: std::io::Error) -> Self {
        Self::ReaderGone
    }
}

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match run(&words) {
        Ok(()) => ExitCode::SUCCESS,
        Err(Ending::Help(why)) => {
            eprintln!("{why}\n\n{HELP}");
            ExitCode::from(NOT_UNDERSTOOD)
        }
        Err(Ending::Problems(problems)) => {
            eprintln!(
                "{}",
                serde_json::to_string_pretty(&problems).unwrap_or_default()
            );
            ExitCode::from(UNANSWERED)
        }
        Err(Ending::ReaderGone) => ExitCode::SUCCESS,
    }
}

fn run(words: &[String]) -> Result<(), Ending> {
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        [] | ["help" | "--help" | "-h"] => Ok(write!(std::io::stdout(), "{HELP}")?),
        ["list"] => list(&[
            (Bed::NAME, Bed::ASKS),
            (Mix::NAME, Mix::ASKS),
            (MovingOn::NAME, MovingOn::ASKS),
            (Recipe::NAME, Recipe::ASKS),
            (Rinse::NAME, Rinse::ASKS),
            (RootZone::NAME, RootZone::ASKS),
            (Season::NAME, Season::ASKS),
        ]),
        ["record", "fuzz", options @ ..] => {
            let options = Options::read(options)?;
            Ok(writeln!(
                std::io::stdout(),
                "{}",
                record::fuzz(options.count, options.seed)?
            )?)
        }
        ["record", "measure", options @ ..] => {
            let options = Options::read(options)?;
            let entries = usize::try_from(options.count).unwrap_or(usize::MAX);
            let text = record::measure(entries, options.seed);
            Ok(write!(std::io::stdout(), "{text}")?)
        }
        ["record", "plausible", options @ ..] => {
            let options = Options::read(options)?;
            let entries = usize::try_from(options.count).unwrap_or(usize::MAX);
            let journal = plausible::journal(entries, options.seed);
            Ok(write!(std::io::stdout(), "{}", format::text(&journal))?)
        }
        ["record", "demo"] => Ok(write!(
            std::io::stdout(),
            "{}",
            format::text(&demo::journal())
        )?),
        ["schema", name] => dispatch(name, Call::Schema),
        ["example", name] => dispatch(name, Call::Example),
        ["fuzz", name, options @ ..] => {
            let options = Options::read(options)?;
            dispatch(name, Call::Fuzz(options))
        }
        [name, options @ ..] => {
            let options = Options::read(options)?;
            dispatch(name, Call::Ask(options))
        }
    }
}

fn list(reckonings: &[(&str, &str)]) -> Result<(), Ending> {
    for (name, asks) in reckonings {
        writeln!(std::io::stdout(), "{name}\t{asks}")?;
    }
    Ok(())
}

enum Call {
    Schema,
    Example,
    Ask(Options),
    Fuzz(Options),
}

/// How far a careless question is taken.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Taken {
    Checked,
    Answered,
    WithRanges,
}

struct Options {
    seed: u64,
    count: u64,
    taken: Taken,
    /// Whether the count is of those that could be answered.
    of_answered: bool,
    mark: DecimalMark,
    /// The file of a record that asks the question.
    record: Option<String>,
    /// The day on which it asks.
    on: Option<Day>,
    /// Whether the question is told in place of the answer.
    question: bool,
}

impl Options {
    fn read(words: &[&str]) -> Result<Self, Ending> {
        const COUNT: u64 = 10_000;
        let mut options = Self {
            seed: SEED,
            count: COUNT,
            taken: Taken::Answered,
            of_answered: false,
            mark: DecimalMark::Point,
            record: None,
            on: None,
            question: false,
        };
        let mut rest = words.iter();
        while let Some(&word) = rest.next() {
            let mut number = || {
                rest.next()
                    .and_then(|word| word.parse().ok())
                    .ok_or_else(|| Ending::Help(format!("{word} wants a whole number after it.")))
            };
            match word {
                "--seed" => options.seed = number()?,
                "--count" => options.count = number()?,
                "--check" => options.taken = Taken::Checked,
                "--ranges" => options.taken = Taken::WithRanges,
                "--answered" => options.of_answered = true,
                "--record" => {
                    let file = rest.next().map(|word| (*word).to_owned());
                    options.record = Some(file.ok_or_else(|| {
                        Ending::Help(format!("{word} wants the name of a file after it."))
                    })?);
                }
                "--on" => {
                    let day = rest.next().and_then(|word| Day::read(word).ok());
                    options.on = Some(day.ok_or_else(|| {
                        Ending::Help(format!("{word} wants a day such as 2027-05-20 after it."))
                    })?);
                }
                "--question" => options.question = true,
                "--comma" => options.mark = DecimalMark::Comma,
                other => return Err(Ending::Help(format!("There is no option {other}."))),
            }
        }
        Ok(options)
    }
}

fn dispatch(name: &str, call: Call) -> Result<(), Ending> {
    match name {
        Bed::NAME => perform::<Bed>(call, balances_close),
        Mix::NAME => perform::<Mix>(call, nothing_more),
        MovingOn::NAME => perform::<MovingOn>(call, moving_adds_up),
        Rinse::NAME => perform::<Rinse>(call, nothing_more),
        RootZone::NAME => perform::<RootZone>(call, heat_closes),
        Season::NAME => perform::<Season>(call, nothing_more),
        Recipe::NAME => perform::<Recipe>(call, nothing_more),
        other => Err(Ending::Help(format!(
            "There is no reckoning called {other}."
        ))),
    }
}

/// What else must hold of an answer of one reckoning; what does not, in words.
type Holds<R> = fn(&<R as Reckoning>::Detail, Taken) -> Option<String>;

fn nothing_more<Detail>(_: &Detail, _: Taken) -> Option<String> {
    None
}

/// The flow solved in full is there with the ranges, and what came in is what the plant drank and
/// what is stored, in every run.
fn balances_close(detail: &bed::Detail, taken: Taken) -> Option<String> {
    /// As a share of the largest of them.
    const WIDEST_GAP: f64 = 1e-6;
    if taken == Taken::WithRanges && detail.runs.is_empty() {
        return Some("no flow was solved in full".to_owned());
    }
    detail
        .runs
        .iter()
        .find(|told| !told.run.gap.is_finite() || told.run.gap > WIDEST_GAP)
        .map(|told| {
            let gap = told.run.gap;
            format!("the water of a pot {} has a gap of {gap:e}", told.stands)
        })
}

/// The heat of every standing closes its balance.
fn heat_closes(detail: &root_zone::Detail, _: Taken) -> Option<String> {
    /// As a share of all that flowed.
    const WIDEST_GAP: f64 = 1e-6;
    detail
        .stands
        .iter()
        .find(|told| !told.gap.is_finite() || told.gap > WIDEST_GAP)
        .map(|told| format!("the heat {} has a gap of {:e}", told.called, told.gap))
}

/// Every chance and loss of a day of move is a share, and chances do not rise with the number of nights.
fn moving_adds_up(detail: &moving_on::Detail, _: Taken) -> Option<String> {
    let share = |value: f64| (0.0..=1.0).contains(&value);
    let wrong = |day: &&moving_on::DayTold| {
        let all = [day.waiting, day.early, day.loss, day.chance_7].concat();
        let shares = all.into_iter().chain([day.chance_21]).all(share);
        let in_order = day.chance_21 <= day.chance_14 && day.chance_14 <= day.chance_7[1];
        !(shares && in_order)
    };
    let day = detail.days.iter().find(wrong)?;
    Some(format!("the shares of {} are out of order", day.day))
}

fn perform<R: Reckoning>(call: Call, holds: Holds<R>) -> Result<(), Ending> {
    match call {
        Call::Schema => print(&schemas::<R>()),
        Call::Example => print(&R::Question::default()),
        Call::Ask(options) => {
            let question = match &options.record {
                Some(file) => asked_by_record::<R>(file, options.on)?,
                None => {
                    let mut text = String::new();
                    std::io::stdin()
                        .read_to_string(&mut text)
                        .map_err(|why| Problem::at("", not_read("question", &why)))?;
                    read_question::<R>(&text).map_err(Ending::Problems)?
                }
            };
            if options.question {
                return print(&question);
            }
            let answer =
                ask::<R>(&question, options.mark, options.seed).map_err(Ending::Problems)?;
            print(&answer)
        }
        Call::Fuzz(options) => fuzz::<R>(&options, holds),
    }
}

fn not_read(what: &str, why: &dyn std::fmt::Display) -> String {
    format!("The {what} cannot be read: {why}.")
}

/// The question of the record in a file.
fn asked_by_record<R: Reckoning>(file: &str, on: Option<Day>) -> Result<R::Question, Problem> {
    let text =
        std::fs::read_to_string(file).map_err(|why| Problem::at("", not_read("record", &why)))?;
    let opened = format::open(&text).map_err(|why| Problem::at("", not_read("record", &why)))?;
    let record = fold(&opened.journal).record;
    let last = || record.logs().filter_map(|log| log.day(DAY)).max();
    let today = on.or_else(last).ok_or_else(|| {
        Problem::at(
            "",
            "The record has no entry of any day: say which day it is, with --on.",
        )
    })?;
    R::of_record(&record, today).ok_or_else(|| {
        let sentence = format!(
            "The record asks nothing of {} yet: add a bay, a plan or a batch.",
            R::NAME
        );
        Problem::at("", sentence)
    })
}

fn print(value: &impl serde::Serialize) -> Result<(), Ending> {
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    Ok(writeln!(std::io::stdout(), "{text}")?)
}

/// A careless question as the text of a document, which in one of two a slip of the hand has
/// damaged: a piece is gone or there twice.
fn document_text<R: Reckoning>(question: &R::Question, draws: &mut Draws) -> String {
    /// Characters of such a piece at most.
    const PIECE: usize = 12;
    let text = serde_json::to_string(question).unwrap_or_default();
    let letters: Vec<char> = text.chars().collect();
    if letters.is_empty() || draws.below(2) == 0 {
        return text;
    }
    let from = draws.below(letters.len());
    let to = (from + 1 + draws.below(PIECE)).min(letters.len());
    let kept_to = if draws.below(2) == 0 { from } else { to };
    letters
        .iter()
        .take(kept_to)
        .chain(letters.iter().skip(if kept_to == from { to } else { from }))
        .collect()
}

/// What became of careless questions.
#[derive(Clone, Copy, Default)]
struct Tally {
    let_in: u64,
    refused: u64,
    /// Documents that could not be read.
    unread: u64,
}

/// Puts careless questions, on all cores. Each round draws from a seed of its own, so that what comes
/// of it does not hang on how many cores there are. A panic ends the program; a figure that is no number
/// is a problem.
fn fuzz<R: Reckoning>(options: &Options, holds: Holds<R>) -> Result<(), Ending> {
    let next = AtomicU64::new(0);
    let work = || {
        let mut tally = Tally::default();
        loop {
            let round = next.fetch_add(1, Ordering::Relaxed);
            if round >= options.count {
                return Ok(tally);
            }
            if let Err(ending) = put_one::<R>(options, round, holds, &mut tally) {
                next.store(options.count, Ordering::Relaxed);
                return Err(ending);
            }
        }
    };
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let all: Vec<Result<Tally, Ending>> = std::thread::scope(|scope| {
        let workers: Vec<_> = (0..cores).map(|_| scope.spawn(work)).collect();
        let join = |worker: std::thread::ScopedJoinHandle<'_, _>| match worker.join() {
            Ok(done) => done,
            Err(panic) => std::panic::resume_unwind(panic),
        };
        workers.into_iter().map(join).collect()
    });
    let mut total = Tally::default();
    for tally in all {
        let tally = tally?;
        total.let_in += tally.let_in;
        total.refused += tally.refused;
        total.unread += tally.unread;
    }
    let Tally {
        let_in,
        refused,
        unread,
    } = total;
    let told = if options.taken == Taken::Checked {
        format!("{let_in} let in, {unread} not read")
    } else {
        format!("{let_in} answered")
    };
    Ok(writeln!(
        std::io::stdout(),
        "{told}, {refused} refused with a sentence, none broke"
    )?)
}

/// One careless question; where those answered are counted, one after the other until one is.
fn put_one<R: Reckoning>(
    options: &Options,
    round: u64,
    holds: Holds<R>,
    tally: &mut Tally,
) -> Result<(), Ending> {
    /// Seeds of one run lie apart from those of the next by more than there are rounds.
    const SEEDS_APART: u64 = 1 << 40;
    let seed = options.seed.wrapping_mul(SEEDS_APART).wrapping_add(round);
    let mut draws = Draws::from_seed(seed);
    loop {
        let question = R::careless(&mut draws);
        match meets::<R>(question, options, holds, &mut draws) {
            Ok(Met::LetIn) => {
                tally.let_in += 1;
                return Ok(());
            }
            Ok(Met::Refused) => tally.refused += 1,
            Ok(Met::NotRead) => tally.unread += 1,
            Err((question, what)) => {
                let text = serde_json::to_string(&question).unwrap_or_default();
                return Err(Ending::from(Problem::at(
                    "",
                    format!("round {round}, {what}: {text}"),
                )));
            }
        }
        if !options.of_answered {
            return Ok(());
        }
    }
}

/// How a careless question was met.
enum Met {
    LetIn,
    Refused,
    NotRead,
}

/// Meets a question as far as is wanted; what is wrong with that, with the question.
fn meets<R: Reckoning>(
    mut question: R::Question,
    options: &Options,
    holds: Holds<R>,
    draws: &mut Draws,
) -> Result<Met, (R::Question, String)> {
    /// Draws of each range while fuzzing: enough to reach the far ends of the inputs.
    const FUZZ_DRAWS: u32 = 50;
    const NO_SENTENCE: &str = "refused without a sentence";
    let in_sentences = |problems: &[Problem]| {
        !problems.is_empty()
            && problems
                .iter()
                .all(|problem| problem.sentence.ends_with(['.', '?', '!']))
    };
    if options.taken == Taken::Checked {
        match read_question::<R>(&document_text::<R>(&question, draws)) {
            Ok(read) => question = read,
            Err(problems) if in_sentences(&problems) => return Ok(Met::NotRead),
            Err(_) => return Err((question, NO_SENTENCE.to_owned())),
        }
    }
    let case = match R::check(&question, DecimalMark::Ask) {
        Ok(case) => case,
        Err(problems) if in_sentences(&problems) => return Ok(Met::Refused),
        Err(_) => return Err((question, NO_SENTENCE.to_owned())),
    };
    let answered = || {
        let doubt = if options.taken == Taken::WithRanges {
            let again = R::check(&question, DecimalMark::Ask)
                .map_err(|_| "refused the second time".to_owned())?;
            let found = doubt_of::<R>(again, FUZZ_DRAWS, options.seed);
            Some(found.map_err(|problem| problem.sentence)?)
        } else {
            None
        };
        let answer = R::answer(&case, doubt.as_ref()).map_err(|problem| problem.sentence)?;
        if answer.figures.iter().any(|figure| {
            let range = figure.range;
            !(range.low().is_finite()
                && range.low() <= range.best()
                && range.best() <= range.high()
                && range.high().is_finite())
        }) {
            return Err("a figure is no number or out of order".to_owned());
        }
        if answer.advice.is_empty() || answer.working.is_empty() {
            return Err("an answer without advice or working".to_owned());
        }
        holds(&answer.detail, options.taken).map_or(Ok(()), Err)
    };
    if options.taken != Taken::Checked
        && let Err(what) = answered()
    {
        return Err((question, what));
    }
    Ok(Met::LetIn)
}
