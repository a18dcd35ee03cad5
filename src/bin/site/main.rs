//! Builds, measures and serves the site; never part of what it ships.
//!
//! * `site build`: both programs compiled, every file named by its content, into `dist/`
//! * `site serve`: `dist/` over HTTP, with the headers a real host must send
//! * `site sizes`: bytes of everything, held against the limits
//! * `site dev`: build quickly, serve, and do so again at each change of the source
//!
//! Run it through the `Makefile`, from the top of the repository.

mod build;
mod compile;
mod compress;
mod dev;
mod headers;
mod names;
mod problem;
mod scripts;
mod serve;
mod sizes;
mod styles;

use std::path::PathBuf;
use std::process::ExitCode;

use problem::{Outcome, Problem};

/// What is printed when the words on the command line make no sense.
const USAGE: &str = "\
site build [--dir dist]
site serve [--dir dist] [--port 8080] [--under /]
site sizes [--dir dist]
site dev   [--dir target/dev] [--port 8081]";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match run(&words) {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            eprintln!("{problem}");
            ExitCode::FAILURE
        }
    }
}

fn run(words: &[String]) -> Outcome<()> {
    let (command, options) = words.split_first().ok_or_else(|| Problem::new(USAGE))?;
    let given = Options::read(options)?;
    match command.as_str() {
        "build" => build::site(&given.dir("dist"), build::Speed::Release),
        "serve" => serve::forever(&given.dir("dist"), given.port(8080)?, given.under(), None),
        "sizes" => sizes::check(&given.dir("dist")),
        "dev" => dev::watch(&given.dir("target/dev"), given.port(8081)?),
        other => Err(Problem::new(format!(
            "There is no command “{other}”. There are:\n{USAGE}"
        ))),
    }
}

/// The `--name value` pairs that follow the command.
struct Options<'a>(Vec<(&'a str, &'a str)>);

impl<'a> Options<'a> {
    fn read(words: &'a [String]) -> Outcome<Self> {
        let pairs = words.chunks(2).map(|pair| match pair {
            [name, value] if ["--dir", "--port", "--under"].contains(&name.as_str()) => {
                Ok((name.as_str(), value.as_str()))
            }
            other => Err(Problem::new(format!(
                "“{}” is not understood here. The commands are:\n{USAGE}",
                other.join(" ")
            ))),
        });
        Ok(Self(pairs.collect::<Outcome<_>>()?))
    }

    fn find(&self, name: &str) -> Option<&'a str> {
        self.0.iter().find(|(n, _)| *n == name).map(|(_, v)| *v)
    }

    fn dir(&self, usual: &str) -> PathBuf {
        PathBuf::from(self.find("--dir").unwrap_or(usual))
    }

    fn port(&self, usual: u16) -> Outcome<u16> {
        self.find("--port").map_or(Ok(usual), |given| {
            given.parse().map_err(|_| {
                Problem::new(format!(
                    "A port is a whole number from 0 to 65535, not “{given}”."
                ))
            })
        })
    }

    fn under(&self) -> &'a str {
        self.find("--under").unwrap_or("/")
    }
}
