//! The reckonings at a terminal: a question as JSON goes in, an answer as JSON comes out.

mod record;

use std::io::{Read, Write};
use std::process::ExitCode;

use longtom::keep::demo;
use longtom::keep::journal::{format, plausible};
use longtom::measure::DecimalMark;
use longtom::reckon::bed::Bed;
use longtom::reckon::document::{ask, read_question, schemas};
use longtom::reckon::doubt::{SEED, doubt_of};
use longtom::reckon::mix::Mix;
use longtom::reckon::recipe::Recipe;
use longtom::reckon::rinse::Rinse;
use longtom::reckon::{Problem, Reckoning};
use longtom::science::numerics::draws::Draws;

const HELP: &str = "reckon: the reckonings of Longtom at a terminal

  reckon list                       the reckonings and what they answer
  reckon schema NAME                JSON Schema of its question and its answer
  reckon example NAME               a question to start from
  reckon NAME < question.json       the answer, as JSON
  reckon record demo                the record of the demo nursery, as public/demo.json holds it
  reckon fuzz NAME --count N --seed S [--ranges]
                                    careless questions, to see that none breaks it
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
            (Recipe::NAME, Recipe::ASKS),
            (Rinse::NAME, Rinse::ASKS),
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

struct Options {
    seed: u64,
    count: u64,
    ranges: bool,
    mark: DecimalMark,
}

impl Options {
    fn read(words: &[&str]) -> Result<Self, Ending> {
        const COUNT: u64 = 10_000;
        let mut options = Self {
            seed: SEED,
            count: COUNT,
            ranges: false,
            mark: DecimalMark::Point,
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
                "--ranges" => options.ranges = true,
                "--comma" => options.mark = DecimalMark::Comma,
                other => return Err(Ending::Help(format!("There is no option {other}."))),
            }
        }
        Ok(options)
    }
}

fn dispatch(name: &str, call: Call) -> Result<(), Ending> {
    match name {
        Bed::NAME => perform::<Bed>(call),
        Mix::NAME => perform::<Mix>(call),
        Rinse::NAME => perform::<Rinse>(call),
        Recipe::NAME => perform::<Recipe>(call),
        other => Err(Ending::Help(format!(
            "There is no reckoning called {other}."
        ))),
    }
}

fn perform<R: Reckoning>(call: Call) -> Result<(), Ending> {
    match call {
        Call::Schema => print(&schemas::<R>()),
        Call::Example => print(&R::Question::default()),
        Call::Ask(options) => {
            let mut text = String::new();
            std::io::stdin().read_to_string(&mut text).map_err(|why| {
                Ending::Problems(vec![Problem::at(
                    "",
                    format!("The question cannot be read: {why}."),
                )])
            })?;
            let question = read_question::<R>(&text).map_err(Ending::Problems)?;
            let answer =
                ask::<R>(&question, options.mark, options.seed).map_err(Ending::Problems)?;
            print(&answer)
        }
        Call::Fuzz(options) => fuzz::<R>(&options),
    }
}

fn print(value: &impl serde::Serialize) -> Result<(), Ending> {
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    Ok(writeln!(std::io::stdout(), "{text}")?)
}

/// Puts careless questions. A panic ends the program; a figure that is no number is a problem.
fn fuzz<R: Reckoning>(options: &Options) -> Result<(), Ending> {
    /// Draws of each range while fuzzing: enough to reach the far ends of the inputs.
    const FUZZ_DRAWS: u32 = 50;
    let mut draws = Draws::from_seed(options.seed);
    let (mut answered, mut refused) = (0u64, 0u64);
    for round in 0..options.count {
        let question = R::careless(&mut draws);
        let Ok(case) = R::check(&question, DecimalMark::Ask) else {
            refused += 1;
            continue;
        };
        let odd = |what: &str| {
            let text = serde_json::to_string(&question).unwrap_or_default();
            Ending::Problems(vec![Problem::at(
                "",
                format!("round {round}, {what}: {text}"),
            )])
        };
        let doubt = if options.ranges {
            let again = R::check(&question, DecimalMark::Ask).map_err(Ending::Problems)?;
            Some(
                doubt_of::<R>(again, FUZZ_DRAWS, options.seed)
                    .map_err(|problem| Ending::Problems(vec![problem]))?,
            )
        } else {
            None
        };
        let answer =
            R::answer(&case, doubt.as_ref()).map_err(|problem| Ending::Problems(vec![problem]))?;
        if answer.figures.iter().any(|figure| {
            let range = figure.range;
            !(range.low().is_finite()
                && range.low() <= range.best()
                && range.best() <= range.high()
                && range.high().is_finite())
        }) {
            return Err(odd("a figure is no number or out of order"));
        }
        if answer.advice.is_empty() || answer.working.is_empty() {
            return Err(odd("an answer without advice or working"));
        }
        answered += 1;
    }
    Ok(writeln!(
        std::io::stdout(),
        "{answered} answered, {refused} refused with a sentence, none broke"
    )?)
}
