//! Settings: how this device shows things, what is stored on it, and about Longtom.

use std::rc::Rc;

use leptos::prelude::*;
use web_sys::Element;

use crate::app::install::{Install, install};
use crate::app::live::{self, heard, inside, keep, meanwhile, pressed, pressed_in};
use crate::app::markup::Markup;
use crate::app::stored::{Stored, room_made, stored};
use crate::app::version::version;
use crate::app::widgets::few;
use crate::app::words;
use crate::keep::browser::{AnyShelf, Asked, ask_archive, save_file};
use crate::keep::keys::{ARCHIVE_ASIDE, read_archive_aside};
use crate::keep::{Aside, Cabinet, KeepProblem, Scheme, Settings, TextSize, parcel};
use crate::measure::{DecimalMark, Length, Mass, Unit, Volume};
use crate::reckon::answer::Kind;

/// Ids of what is live on the page.
const CHOICES: &str = "choices";
const TOLD: &str = "device-told";
const EVERYTHING: &str = "everything";
const ASIDES: &str = "asides";
const HOME_SCREEN: &str = "home-screen";

/// Opens the page.
pub fn open(into: &Element) {
    let choices = Rc::new(choices());
    into.set_inner_html(&written(&choices));
    hear_choices(choices);
    let without = version().without;
    live::words(TOLD, move || words::without_a_signal(without.get()));
    let stored = stored();
    pressed(EVERYTHING, move || save_everything(stored));
    keep_asides(stored);
    let install = install();
    inside(HOME_SCREEN, move || home_screen(install));
    pressed_in(HOME_SCREEN, move |_| install.accept());
}

fn written(choices: &[Choice]) -> String {
    let mut markup = Markup::new();
    markup
        .element("h1", &[], "Settings")
        .within("section", &[("aria-labelledby", "showing")], &mut |section| {
            section
                .element("h2", &[("id", "showing")], "How things are shown")
                .within("div", &[("id", CHOICES)], &mut |all| {
                    for choice in choices {
                        few::write(all, choice.legend, choice.name, &choice.words);
                    }
                });
        })
        .within("section", &[("aria-labelledby", "device")], &mut |section| {
            section
                .element("h2", &[("id", "device")], "On this device")
                .element("p", &[("id", TOLD)], "")
                .element("p", &[], "What you type stays on this device, in this browser. Nothing is sent anywhere. Clearing the browser's data clears it too: take a copy now and then.")
                .within("p", &[], &mut |line| {
                    line.element(
                        "button",
                        &[("type", "button"), ("id", EVERYTHING)],
                        words::TAKE_EVERYTHING,
                    );
                })
                .mark("div", &[("id", ASIDES)])
                .element("h3", &[], "On the home screen")
                .mark("div", &[("id", HOME_SCREEN)]);
        })
        .within("section", &[("aria-labelledby", "about")], &mut |section| {
            section
                .element("h2", &[("id", "about")], "About Longtom")
                .element("p", &[], "Longtom works out what a small glasshouse nursery has to settle, from the first sowing to the last invoice, on the device itself. A long tom is the old potters' word for a deep pot: depth is what drains a pot.")
                .element("p", &[], concat!("Version ", env!("CARGO_PKG_VERSION"), ". Every figure has its source, under Look up and behind each answer."))
                .element("h3", &[], "Mind this everywhere")
                .element("p", &[], "Longtom reckons; it does not know your place. Labels, local codes and licensed practice go first: for mains electricity near water, for sprays, for lifting, for dust, and for heat under glass. Try a little before you trust it with a crop.");
        });
    markup.done()
}

/// A setting among few values, which go by their place.
struct Choice {
    legend: &'static str,
    name: &'static str,
    words: Vec<String>,
    made: Box<dyn Fn(&Settings) -> usize>,
    make: Rc<Make>,
}

/// Makes a choice by its place.
type Make = dyn Fn(&mut Settings, usize);

fn choices() -> Vec<Choice> {
    const MARKS: [DecimalMark; 3] = [DecimalMark::Ask, DecimalMark::Point, DecimalMark::Comma];
    const SCHEMES: [Scheme; 3] = [Scheme::Auto, Scheme::Light, Scheme::Dark];
    const SIZES: [TextSize; 3] = [TextSize::Normal, TextSize::Large, TextSize::Largest];
    vec![
        choice(
            "Decimal mark",
            "decimal",
            &[
                "ask when 1,250 or 1.250 can be read two ways",
                "point: 2.5",
                "comma: 2,5",
            ],
            |all| place_of(&MARKS, all.decimal),
            |all, place| all.decimal = MARKS.get(place).copied().unwrap_or_default(),
        ),
        unit_choice("Volumes", Kind::of::<Volume>(), &["L", "gal", "us_gal"]),
        unit_choice("Weights", Kind::of::<Mass>(), &["kg", "lb"]),
        unit_choice("Lengths", Kind::of::<Length>(), &["mm", "cm", "in"]),
        choice(
            "Light or dark",
            "scheme",
            &[
                "as the device is set",
                "light, for full sun",
                "dark, for before dawn",
            ],
            |all| place_of(&SCHEMES, all.scheme),
            |all, place| all.scheme = SCHEMES.get(place).copied().unwrap_or_default(),
        ),
        choice(
            "Size of text",
            "text",
            &["normal", "large", "largest"],
            |all| place_of(&SIZES, all.text_size),
            |all, place| all.text_size = SIZES.get(place).copied().unwrap_or_default(),
        ),
    ]
}

fn place_of<T: PartialEq>(values: &[T], value: T) -> usize {
    values
        .iter()
        .position(|other| *other == value)
        .unwrap_or_default()
}

fn choice(
    legend: &'static str,
    name: &'static str,
    words: &[&str],
    made: fn(&Settings) -> usize,
    make: fn(&mut Settings, usize),
) -> Choice {
    Choice {
        legend,
        name,
        words: words.iter().map(|words| (*words).to_owned()).collect(),
        made: Box::new(made),
        make: Rc::new(make),
    }
}

/// The unit in which a quantity is shown.
fn unit_choice(legend: &'static str, kind: Kind, keys: &[&str]) -> Choice {
    let offered: Rc<[&'static Unit]> = kind
        .units
        .iter()
        .filter(|unit| keys.contains(&unit.key))
        .collect();
    let known = Rc::clone(&offered);
    Choice {
        legend,
        name: kind.what,
        words: offered
            .iter()
            .map(|unit| [unit.plural, " (", unit.symbol, ")"].concat())
            .collect(),
        made: Box::new(move |all| {
            let kept = all.units.get(kind.what);
            known
                .iter()
                .position(|unit| Some(unit.key) == kept.map(String::as_str))
                .unwrap_or_default()
        }),
        make: Rc::new(move |all, place| {
            if let Some(unit) = offered.get(place) {
                all.units.insert(kind.what.to_owned(), unit.key.to_owned());
            }
        }),
    }
}

fn hear_choices(choices: Rc<Vec<Choice>>) {
    let stored = stored();
    let shown = Rc::clone(&choices);
    keep(move || {
        let settings = stored.settings();
        for choice in shown.iter() {
            few::show(choice.name, (choice.made)(&settings));
        }
    });
    heard(CHOICES, "change", move |event| {
        let Some((name, place)) = few::made(&event) else {
            return;
        };
        if let Some(choice) = choices.iter().find(|choice| choice.name == name) {
            let make = Rc::clone(&choice.make);
            stored.change_settings(Rc::new(move |settings: &mut Settings| {
                make(settings, place)
            }));
        }
    });
}

fn save_everything(stored: Stored) {
    stored.save_now();
    let Some(cabinet) = stored.cabinet() else {
        return;
    };
    meanwhile(async move {
        let now = String::from(js_sys::Date::new_0().to_iso_string());
        let closed = ask_archive(Asked::Everything, "").await;
        let told = match parcel::pack(cabinet.shelf(), closed, &now).await {
            Ok(text) => save_file(words::EVERYTHING_FILE, "application/json", &text)
                .map_err(|problem| problem.to_string()),
            Err(problem) => Err(crate::keep::words::shelf_problem(&problem)),
        };
        if let Err(sentence) = told {
            stored.tell(sentence);
        }
    });
}

/// What the buttons of a text that was set aside do with it.
const SAVE: &str = "save";
const DISCARD: &str = "discard";

/// The texts that were set aside: each can be saved as a file, and thrown away at the second touch.
fn keep_asides(stored: Stored) {
    let asides = RwSignal::new(Vec::<Aside>::new());
    let sure_of = RwSignal::new(String::new());
    keep(move || {
        stored.asides_changed.track();
        if let Some(cabinet) = stored.cabinet() {
            meanwhile(async move {
                match cabinet.asides().await {
                    Ok(mut found) => {
                        if let Ok(lines) = ask_archive(Asked::Asides, "").await {
                            found.extend(lines.split('\n').filter_map(aside_of));
                        }
                        asides.set(found);
                    }
                    Err(problem) => stored.tell(problem.to_string()),
                }
            });
        }
    });
    inside(ASIDES, move || {
        asides.with(|all| sure_of.with(|sure_of| asides_written(all, sure_of)))
    });
    pressed_in(ASIDES, move |button| {
        let (Some(key), Some(cabinet)) = (button.get_attribute("data-key"), stored.cabinet())
        else {
            return;
        };
        let discards = button.get_attribute("data-do").as_deref() == Some(DISCARD);
        if discards && sure_of.get_untracked() != key {
            sure_of.set(key);
            return;
        }
        meanwhile(async move {
            let done = do_with_aside(&cabinet, &key, discards).await;
            match done {
                Ok(()) if discards => {
                    stored.asides_changed.update(|count| *count += 1);
                    room_made();
                }
                Ok(()) => {}
                Err(problem) => stored.tell(problem.to_string()),
            }
        });
    });
}

/// What was set aside in the archive: its name and its bytes, in a line.
fn aside_of(line: &str) -> Option<Aside> {
    let (key, bytes) = line.split_once(' ')?;
    Some(Aside {
        key: key.to_owned(),
        document: read_archive_aside(key),
        bytes: bytes.parse().ok()?,
        in_place: false,
    })
}

async fn do_with_aside(
    cabinet: &Cabinet<AnyShelf>,
    key: &str,
    discards: bool,
) -> Result<(), KeepProblem> {
    let archived = key.starts_with(ARCHIVE_ASIDE);
    let text = match (archived, discards) {
        (true, true) => return ask_archive(Asked::Discard, key).await.map(drop),
        (false, true) => return cabinet.discard_aside(key).await,
        (true, false) => ask_archive(Asked::AsideText, key).await?,
        (false, false) => cabinet.aside_text(key).await?,
    };
    save_file(&[key, ".txt"].concat(), "text/plain", &text)
}

fn asides_written(asides: &[Aside], sure_of: &str) -> String {
    let mut markup = Markup::new();
    if asides.is_empty() {
        return markup.done();
    }
    markup
        .element("h3", &[], "Set aside")
        .element(
            "p",
            &[],
            "These could not be read by this version. Nothing of them is lost: save them as files.",
        )
        .within("ul", &[("class", "asides")], &mut |list| {
            for aside in asides {
                list.within("li", &[], &mut |row| {
                    write_aside(row, aside, aside.key == sure_of)
                });
            }
        });
    markup.done()
}

fn write_aside(row: &mut Markup, aside: &Aside, sure: bool) {
    let button = |class: &'static str, act: &'static str| {
        [
            ("type", "button"),
            ("class", class),
            ("data-do", act),
            ("data-key", &aside.key as &str),
        ]
    };
    let size = words::kilobytes(aside.bytes as f64);
    let name = [&aside.told(), ", ", &size].concat();
    row.element("span", &[], &name)
        .element("button", &button("quiet", SAVE), "Save as a file");
    if !aside.in_place {
        let words = if sure {
            "Throw away for good"
        } else {
            "Throw away"
        };
        row.element("button", &button("quiet danger", DISCARD), words);
    }
}

/// How Longtom comes onto the home screen.
fn home_screen(install: Install) -> String {
    let mut markup = Markup::new();
    if install.done.get() {
        markup.element("p", &[], "Longtom is on the home screen of this device.");
    } else if install.is_offered() {
        markup.within("p", &[], &mut |line| {
            line.element(
                "button",
                &[("type", "button")],
                "Put Longtom on the home screen",
            );
        });
    } else {
        write_how_to_install(&mut markup);
    }
    markup.done()
}

/// How it is put there where the browser does not offer it.
fn write_how_to_install(markup: &mut Markup) {
    /// The share sign, adding, the pot on the screen; and the arrows between them.
    const SIGNS: [(&str, &str); 5] = [
        ("", "M30 40v30h34V40M47 52V18M37 27l10-10 10 10"),
        ("way", "M84 48h26M102 41l8 7-8 7"),
        ("", "M130 26h40v44h-40zM150 36v24M138 48h24"),
        ("way", "M190 48h26M208 41l8 7-8 7"),
        ("", "M236 20h44v54h-44zM250 34h16l-2.4 24h-11.2zM252 48h12"),
    ];
    let drawing = [
        ("class", "how-to"),
        ("viewBox", "0 0 300 90"),
        ("role", "img"),
        (
            "aria-label",
            "Share sign, then add to the home screen, then the pot on the screen",
        ),
    ];
    markup
        .element("p", &[], "On a tablet or phone, open the browser's menu or its share sign, and choose to add the page to the home screen. What is stored in the browser may not come along: save it as a file first.")
        .within("svg", &drawing, &mut |svg| {
            for (class, path) in SIGNS {
                svg.mark("path", &[("class", class), ("d", path)]);
            }
        });
}
