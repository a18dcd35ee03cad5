//! The house stands: no floor uses one above it, the map in `lib.rs` has every room, and what belongs
//! to a browser stays where a browser is. Read from the source itself.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::fs;
use std::path::{Path, PathBuf};

/// The floors, lowest first.
const FLOORS: [&str; 7] = [
    "measure", "science", "handbook", "nursery", "reckon", "keep", "app",
];

/// Crates of the browser, by the beginning of their name.
const OF_THE_BROWSER: [&str; 5] = ["leptos", "web_sys", "js_sys", "gloo", "wasm_bindgen"];
/// A builder's tool that runs on the machine, whatever its name begins with.
const NOT_OF_THE_BROWSER: &str = "wasm_bindgen_cli_support";
/// Where they may be used: these files, and whatever lies in these rooms.
const BROWSER_MAY_BE_IN: [&str; 4] = ["app/", "keep/browser/", "main.rs", "bin/worker.rs"];

fn floor(room: &str) -> Option<usize> {
    FLOORS.iter().position(|known| *known == room)
}

/// The code alone: comments, strings and characters become spaces.
fn code(source: &str) -> String {
    let text: Vec<char> = source.chars().collect();
    let at = |place: usize| text.get(place).copied().unwrap_or('\0');
    let mut bare = String::with_capacity(source.len());
    let mut i = 0;
    while i < text.len() {
        let after_name = i > 0 && (at(i - 1).is_alphanumeric() || at(i - 1) == '_');
        let raw =
            (at(i) == 'r' && !after_name).then(|| (i + 1..).take_while(|&j| at(j) == '#').count());
        if at(i) == '/' && at(i + 1) == '/' {
            while i < text.len() && at(i) != '\n' {
                i += 1;
            }
        } else if at(i) == '/' && at(i + 1) == '*' {
            let mut deep = 0;
            loop {
                if at(i) == '/' && at(i + 1) == '*' {
                    deep += 1;
                    i += 2;
                } else if at(i) == '*' && at(i + 1) == '/' {
                    deep -= 1;
                    i += 2;
                } else {
                    i += 1;
                }
                if deep == 0 || i >= text.len() {
                    break;
                }
            }
        } else if let Some(marks) = raw.filter(|marks| at(i + 1 + marks) == '"') {
            i += marks + 2;
            while i < text.len() && !(at(i) == '"' && (1..=marks).all(|k| at(i + k) == '#')) {
                i += 1;
            }
            i += marks + 1;
        } else if at(i) == '"' {
            i += 1;
            while i < text.len() && at(i) != '"' {
                i += if at(i) == '\\' { 2 } else { 1 };
            }
            i += 1;
        } else if at(i) == '\'' && (at(i + 1) == '\\' || at(i + 2) == '\'') {
            i += if at(i + 1) == '\\' { 3 } else { 2 };
            while i < text.len() && at(i) != '\'' {
                i += 1;
            }
            i += 1;
        } else {
            bare.push(at(i));
            i += 1;
            continue;
        }
        bare.push(' ');
    }
    bare
}

/// Names and marks of the code; `::` is one mark.
fn tokens(code: &str) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    let mut characters = code.chars().peekable();
    while let Some(c) = characters.next() {
        if c.is_whitespace() {
            continue;
        }
        let mut token = c.to_string();
        if c.is_alphanumeric() || c == '_' {
            while let Some(&next) = characters.peek() {
                if !(next.is_alphanumeric() || next == '_') {
                    break;
                }
                token.push(next);
                characters.next();
            }
        } else if c == ':' && characters.peek() == Some(&':') {
            characters.next();
            token.push(':');
        }
        found.push(token);
    }
    found
}

/// The paths that begin at a token: one, or all of a group `{a, b::{c}}`. Returns the place after them.
fn paths(
    tokens: &[String],
    mut place: usize,
    before: &[String],
    found: &mut Vec<Vec<String>>,
) -> usize {
    let mut path = before.to_vec();
    loop {
        match tokens.get(place).map(String::as_str) {
            Some("{") => {
                place += 1;
                while tokens.get(place).is_some_and(|token| token != "}") {
                    if tokens[place] == "," {
                        place += 1;
                    } else {
                        place = paths(tokens, place, &path, found).max(place + 1);
                    }
                }
                return place + 1;
            }
            Some(name) => {
                path.push(name.to_owned());
                place += 1;
            }
            None => return place,
        }
        if tokens.get(place).is_some_and(|token| token == "::") {
            place += 1;
        } else {
            found.push(path);
            // `a as b` in a group: the new name is no path.
            return if tokens.get(place).is_some_and(|token| token == "as") {
                place + 2
            } else {
                place
            };
        }
    }
}

/// The module that a file holds, as names from the root.
fn module_of(file: &str) -> Vec<String> {
    let mut names: Vec<String> = file
        .trim_end_matches(".rs")
        .split('/')
        .map(str::to_owned)
        .collect();
    if names.last().is_some_and(|name| name == "mod") {
        names.pop();
    }
    names
}

/// Where a path that begins with `crate`, `self` or `super` leads, from the root.
fn resolved(path: &[String], module: &[String]) -> Vec<String> {
    let mut at = module.to_vec();
    for (place, name) in path.iter().enumerate() {
        match name.as_str() {
            "crate" if place == 0 => at.clear(),
            "self" => {}
            "super" => {
                at.pop();
            }
            _ => at.push(name.clone()),
        }
    }
    at
}

/// What is wrong with one file of the library, named from `src`.
fn upward_uses(file: &str, source: &str) -> Vec<String> {
    let module = module_of(file);
    let Some(own) = module.first().and_then(|room| floor(room)) else {
        return Vec::new();
    };
    let tokens = tokens(&code(source));
    // Modules within the file, each with the depth of braces that it opened at.
    let mut inner: Vec<(String, usize)> = Vec::new();
    let (mut depth, mut wrong) = (0usize, Vec::new());
    for place in 0..tokens.len() {
        let back = |steps: usize| {
            place
                .checked_sub(steps)
                .map_or("", |before| tokens[before].as_str())
        };
        match tokens[place].as_str() {
            "{" => {
                if back(2) == "mod" {
                    inner.push((back(1).to_owned(), depth));
                }
                depth += 1;
            }
            "}" => {
                depth = depth.saturating_sub(1);
                if inner.last().is_some_and(|(_, opened)| *opened == depth) {
                    inner.pop();
                }
            }
            "crate" | "self" | "super"
                if back(1) != "::" && tokens.get(place + 1).is_some_and(|next| next == "::") =>
            {
                let mut found = Vec::new();
                paths(&tokens, place, &[], &mut found);
                let here: Vec<String> = module
                    .iter()
                    .cloned()
                    .chain(inner.iter().map(|(name, _)| name.clone()))
                    .collect();
                for path in found {
                    let target = resolved(&path, &here);
                    let said = path.join("::");
                    match target.first().map(|room| (room, floor(room))) {
                        Some((_, Some(used))) if used <= own => {}
                        Some((room, Some(_))) => {
                            wrong.push(format!("{file}: {said} climbs to {room}"))
                        }
                        _ => wrong.push(format!("{file}: {said} leads to no floor")),
                    }
                }
            }
            _ => {}
        }
    }
    wrong
}

/// Names of browser crates in a file that is no place for them.
fn browser_below(file: &str, source: &str) -> Vec<String> {
    if BROWSER_MAY_BE_IN
        .iter()
        .any(|place| file == *place || place.ends_with('/') && file.starts_with(place))
    {
        return Vec::new();
    }
    let of_the_browser = |token: &String| {
        token != NOT_OF_THE_BROWSER && OF_THE_BROWSER.iter().any(|name| token.starts_with(name))
    };
    tokens(&code(source))
        .into_iter()
        .filter(of_the_browser)
        .map(|token| format!("{file}: {token}"))
        .collect()
}

/// Rooms that the map at the head of `lib.rs` does not list beside the number of their floor.
fn rooms_not_on_the_map(lib: &str, rooms: &[String]) -> Vec<String> {
    let map: Vec<&str> = lib
        .lines()
        .filter_map(|line| line.strip_prefix("//!"))
        .collect();
    rooms
        .iter()
        .filter(|room| {
            let number = floor(room).map(|floor| floor.to_string());
            !map.iter().any(|line| {
                let cells: Vec<&str> = line.split('|').map(str::trim).collect();
                let numbered = number
                    .as_deref()
                    .is_some_and(|number| cells.contains(&number));
                numbered
                    && cells
                        .iter()
                        .any(|cell| cell.trim_matches(['[', ']', '`']) == room.as_str())
            })
        })
        .cloned()
        .collect()
}

fn src() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// Every file of the source, named from `src` with forward strokes, and what it holds.
fn files() -> Vec<(String, String)> {
    fn walk(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                walk(&path, found);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                found.push(path);
            }
        }
    }
    let mut found = Vec::new();
    walk(&src(), &mut found);
    found.sort();
    let named = |path: PathBuf| {
        let name: Vec<_> = path
            .strip_prefix(src())
            .unwrap()
            .iter()
            .map(|part| part.to_string_lossy().into_owned())
            .collect();
        (name.join("/"), fs::read_to_string(&path).unwrap())
    };
    found.into_iter().map(named).collect()
}

/// Modules at the root: folders with source in them, and files beside the roots of the programs.
fn rooms() -> Vec<String> {
    let mut rooms: Vec<String> = files()
        .into_iter()
        .filter_map(|(file, _)| {
            file.split('/')
                .next()
                .map(|first| first.trim_end_matches(".rs").to_owned())
        })
        .filter(|room| !["lib", "main", "bin"].contains(&room.as_str()))
        .collect();
    rooms.dedup();
    rooms
}

#[test]
fn no_floor_uses_one_above_it() {
    let files = files();
    assert!(
        files.len() > 30,
        "the source is found: {} files",
        files.len()
    );
    let wrong: Vec<String> = files
        .iter()
        .flat_map(|(file, source)| upward_uses(file, source))
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn the_browser_stays_where_it_belongs() {
    let wrong: Vec<String> = files()
        .iter()
        .flat_map(|(file, source)| browser_below(file, source))
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn the_map_has_every_room() {
    let lib = fs::read_to_string(src().join("lib.rs")).unwrap();
    let rooms = rooms();
    assert!(rooms.len() >= 5, "{rooms:?}");
    let missing = rooms_not_on_the_map(&lib, &rooms);
    assert!(
        missing.is_empty(),
        "not on the map in lib.rs, or without the number of a floor: {missing:?}"
    );
}

/// The check is checked: what it must find is planted, and what it must let pass is put beside it.
#[test]
fn planted_uses_of_a_higher_floor_are_found() {
    for (file, source) in [
        (
            "science/packing.rs",
            "use crate::handbook::materials::MATERIALS;",
        ),
        (
            "measure/range.rs",
            "use crate::{measure::Unit, reckon::{Problem, mix::Mix}};",
        ),
        (
            "reckon/mix/physics.rs",
            "use super::super::super::keep::document;",
        ),
        ("reckon/mod.rs", "use super::app::words;"),
        (
            "handbook/pots.rs",
            "fn f() -> f64 { crate::reckon::doubt::DRAWS as f64 }",
        ),
        ("keep/mod.rs", "pub use crate::app;"),
        (
            "science/mod.rs",
            "mod inner { use super::super::super::keep::x; use super::super::handbook::x; }",
        ),
        (
            "science/blend.rs",
            "fn f<'a>(x: &'a str) -> char { let c = '\"'; crate::nursery::f(x); c }",
        ),
        ("measure/mod.rs", "use crate::odds::and_ends;"),
        (
            "handbook/mod.rs",
            "use crate::measure as m; use crate::{science as s, keep as k};",
        ),
    ] {
        assert!(!upward_uses(file, source).is_empty(), "{file}: {source}");
    }
    let grouped = upward_uses(
        "measure/range.rs",
        "use crate::{measure::Unit, reckon::{Problem, mix::Mix}};",
    );
    assert_eq!(
        grouped,
        [
            "measure/range.rs: crate::reckon::Problem climbs to reckon",
            "measure/range.rs: crate::reckon::mix::Mix climbs to reckon",
        ]
    );
}

#[test]
fn downward_uses_and_mere_words_pass() {
    for (file, source) in [
        (
            "reckon/mix/mod.rs",
            "use super::{Problem, words}; use crate::{handbook::{pots::POTS, safety}, measure::*};",
        ),
        (
            "science/blend.rs",
            "// crate::keep\n/* crate::app /* super::super::keep */ */ /// [`x`](crate::reckon)\nuse super::retention::Retention;",
        ),
        (
            "science/blend.rs",
            "const S: &str = \"crate::keep::x \\\" crate::app\"; const R: &str = r#\"crate::app \" \"#;",
        ),
        (
            "reckon/mix/mod.rs",
            "mod place { use super::super::answer::Answer; use super::words; }",
        ),
        (
            "keep/browser/mod.rs",
            "pub(crate) fn f() { self::local::g(); Self::h(); }",
        ),
        ("app/mod.rs", "use crate::keep::x; use crate::app::y;"),
        ("bin/reckon.rs", "use longtom::keep::x;"),
    ] {
        assert_eq!(
            upward_uses(file, source),
            Vec::<String>::new(),
            "{file}: {source}"
        );
    }
}

#[test]
fn planted_browsers_are_found_and_those_at_home_pass() {
    for source in [
        "use leptos::prelude::*;",
        "fn f() { web_sys::window(); }",
        "use js_sys::Date;",
        "use gloo_storage::Storage;",
    ] {
        for file in [
            "keep/cabinet.rs",
            "reckon/mod.rs",
            "bin/reckon.rs",
            "lib.rs",
        ] {
            assert_eq!(browser_below(file, source).len(), 1, "{file}: {source}");
        }
        for file in [
            "app/shell.rs",
            "app/pages/mix.rs",
            "keep/browser/mod.rs",
            "main.rs",
            "bin/worker.rs",
        ] {
            assert_eq!(
                browser_below(file, source),
                Vec::<String>::new(),
                "{file}: {source}"
            );
        }
    }
    assert!(
        browser_below(
            "bin/site/build.rs",
            "use wasm_bindgen_cli_support::Bindgen; // leptos"
        )
        .is_empty()
    );
}

#[test]
fn a_room_that_is_left_off_the_map_is_found() {
    let map = "//! | floor | room | what |\n//! | 5 | [`keep`] | documents, `app` and `science` |\n//! | 2 | `science` | figures |\n// | 6 | `app` | screens |\n";
    let rooms = ["app", "keep", "science"].map(str::to_owned);
    assert_eq!(
        rooms_not_on_the_map(map, &rooms),
        ["app", "science"],
        "off the map, and on the wrong floor"
    );
}

/// What stands between two marks, each time.
fn between<'a>(text: &'a str, start: &str, end: &str) -> Vec<&'a str> {
    let rest = text.split(start).skip(1);
    rest.filter_map(|rest| rest.split_once(end).map(|pair| pair.0))
        .collect()
}

/// The script that starts the page fetches another program at once where the address asks for one
/// of its pages; it must know them by the same names.
#[test]
fn the_starter_knows_the_pages_of_each_program() {
    let read = |path: &str| fs::read_to_string(path).unwrap();
    let route = read("src/app/route.rs");
    let names = between(&route, "(Page::", ")");
    let name_of = |page: &str| {
        let row = names
            .iter()
            .find_map(|row| row.strip_prefix(page)?.strip_prefix(", \""));
        row.unwrap().trim_end_matches('"').to_owned()
    };
    let starter = read("public/starter.js");
    let asked = between(&starter, "/^#\\/(", ")");
    let programs = ["nursery", "reckonings"];
    assert_eq!(asked.len(), programs.len());
    for (program, asked) in programs.into_iter().zip(asked) {
        let source = read(&format!("src/app/{program}.rs"));
        let opens = source.split_once("fn open_page").unwrap().1;
        let pages = opens.lines().filter_map(|line| {
            let (page, opened) = line.trim().strip_prefix("Page::")?.split_once(" => ")?;
            opened.contains("::open").then_some(page)
        });
        let mut of_program: Vec<String> = pages.map(name_of).collect();
        let mut of_starter: Vec<&str> = asked.split('|').collect();
        of_program.sort_unstable();
        of_starter.sort_unstable();
        assert_eq!(of_starter, of_program, "{program}");
        assert!(of_program.len() >= 4);
    }
}
