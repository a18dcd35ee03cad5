//! Minimum and maximum of today, house by house: two numbers and save.

use std::rc::Rc;

use leptos::prelude::*;

use super::{Book, FAR_BACK, line, say};
use crate::app::draft;
use crate::app::live::{element, heard, hidden, inside, keep, pressed, pressed_in, words};
use crate::app::markup::Markup;
use crate::app::record::Reading;
use crate::app::widgets::form::{self, Asked, Ids};
use crate::measure::{Entry, Temperature};
use crate::nursery::kinds::amounts::TEMPERATURE;
use crate::nursery::kinds::{DAY, INSIDE, PLACES};
use crate::nursery::{Day, Id, Problem, Record, Texts, Thing, sense};
use crate::reckon::form::{Field, Piece, Takes};

/// Ids of what is live here.
const QUICK: &str = "quick";
const HOUSES: &str = "houses";
const NIGHT: Ids = ["night", "night-sheet"];
const ALREADY: &str = "night-already";
const SAVE: &str = "night-save";
const AGAIN: &str = "night-again";
const FIRST: &str = "first";

/// Paths of the form, each with what it is called in a night of the record.
const LOW: &str = "night.low";
const HIGH: &str = "night.high";
const LINE: &str = "night.line";
const UNIT: &str = "night.unit";

/// A place and its last minimum and maximum.
#[derive(Clone, PartialEq)]
struct Last {
    id: String,
    name: String,
    night: Option<(Day, Texts, String)>,
}

pub(super) fn write(markup: &mut Markup) {
    markup.mark("div", &[("id", FIRST)]).within(
        "section",
        &[
            ("class", "slip-card"),
            ("id", QUICK),
            ("hidden", ""),
            ("aria-labelledby", "quick-head"),
        ],
        &mut |quick| {
            quick
                .element("h2", &[("id", "quick-head")], "Minimum and maximum")
                .mark("div", &[("id", HOUSES), ("class", "houses")]);
            form::write_as(quick, NIGHT, "Minimum and maximum of today");
            quick
                .element("p", &[("class", "hint"), ("id", ALREADY)], "")
                .within("p", &[("class", "acts")], &mut |acts| {
                    acts.element(
                        "button",
                        &[("type", "submit"), ("form", NIGHT[0]), ("id", SAVE)],
                        "Save",
                    );
                })
                .within("p", &[], &mut |again| {
                    again.element(
                        "button",
                        &[
                            ("type", "button"),
                            ("class", "quiet"),
                            ("id", AGAIN),
                            ("hidden", ""),
                        ],
                        "",
                    );
                });
        },
    );
}

pub(super) fn open(book: Book) {
    let lasts = RwSignal::new(Vec::<Last>::new());
    keep(move || {
        let today = book.today();
        let now = book.ledger.read(|record| lasts_of(record, today));
        if lasts.with_untracked(|before| *before != now) {
            lasts.set(now);
        }
    });
    // Where the place chosen is none, the first takes its turn.
    keep(move || {
        let chosen = book.place.get();
        lasts.with(|lasts| {
            if let Some(first) = lasts.first()
                && lasts.iter().all(|last| last.id != chosen)
            {
                book.place.set(first.id.clone());
            }
        });
    });
    let none = move || lasts.with(Vec::is_empty);
    hidden(QUICK, none);
    inside(FIRST, move || match book.ledger.reading.get() {
        Reading::Opening => "<p class=\"none\">Reading the record …</p>".to_owned(),
        _ if none() => nothing_yet(),
        _ => String::new(),
    });
    inside(HOUSES, move || {
        let (chosen, today) = (book.place.get(), book.today());
        lasts.with(|lasts| houses(lasts, &chosen, today))
    });
    pressed_in(HOUSES, move |button| {
        if let Some(key) = button.get_attribute("data-key") {
            book.place.set(key);
        }
    });
    let night = Night {
        book,
        lasts,
        problems: RwSignal::new(Vec::new()),
    };
    form::open_as(NIGHT, Rc::new(night));
    heard(NIGHT[0], "submit", move |_| night.save());
    words(ALREADY, move || {
        let today = book.today();
        match night.last().and_then(|last| Some((last.name, last.night?))) {
            Some((name, (day, _, told))) if day == today => [
                &name,
                " has ",
                &told,
                " for today already. Saving adds a second reading.",
            ]
            .concat(),
            _ => String::new(),
        }
    });
    let yesterday = move || {
        let last = night.last()?.night?;
        (last.0 == book.today().plus(-1)).then_some(last)
    };
    hidden(AGAIN, move || yesterday().is_none());
    words(AGAIN, move || {
        let told = yesterday().map(|last| last.2).unwrap_or_default();
        ["Same as yesterday: ", &told].concat()
    });
    pressed(AGAIN, move || {
        if let Some((_, texts, _)) = yesterday() {
            night.add(texts);
        }
    });
}

fn nothing_yet() -> String {
    let mut markup = Markup::new();
    markup.within("section", &[("class", "slip-card")], &mut |card| {
        card.element("h2", &[], "Add a house first")
            .element(
                "p",
                &[],
                "Then its minimum and maximum take two numbers a day, and a few seconds.",
            )
            .within("p", &[("class", "acts")], &mut |acts| {
                acts.element(
                    "a",
                    &[("class", "button"), ("href", "#/thing?new=house")],
                    "Add a house",
                )
                .element(
                    "a",
                    &[("class", "button quiet"), ("href", "#/bring-in")],
                    "Bring in a record",
                );
            });
    });
    markup.done()
}

/// Houses, and bays and trays with a thermometer of their own, each with its last night.
fn lasts_of(record: &Record, today: Day) -> Vec<Last> {
    let has_thermometer = |thing: &Thing| {
        thing.one("probe").is_some()
            || record.of_kind("instrument").any(|instrument| {
                instrument.one(INSIDE) == Some(thing.id)
                    && matches!(instrument.text("measures"), "" | "temperature" | "both")
            })
    };
    let mut lasts: Vec<(Id, Last)> = Vec::new();
    for kind in PLACES {
        for thing in record.of_kind(kind) {
            if *kind == "house" || has_thermometer(thing) {
                let last = Last {
                    id: thing.id.text(),
                    name: record.name_of(thing.id),
                    night: None,
                };
                lasts.push((thing.id, last));
            }
        }
    }
    let mut missing = lasts.len();
    for thing in record.between(today.plus(-FAR_BACK), today).rev() {
        if missing == 0 {
            break;
        }
        if thing.kind != "night" {
            continue;
        }
        let (Some(place), Some(day)) = (thing.one("place"), thing.day(DAY)) else {
            continue;
        };
        if let Some((_, last)) = lasts.iter_mut().find(|(id, _)| *id == place)
            && last.night.is_none()
        {
            last.night = Some((day, (*thing.texts).clone(), say::low_to_high(thing)));
            missing -= 1;
        }
    }
    lasts.into_iter().map(|(_, last)| last).collect()
}

/// The places to choose from, each with its last night.
fn houses(lasts: &[Last], chosen: &str, today: Day) -> String {
    let mut markup = Markup::new();
    for last in lasts {
        let pressed = if last.id == chosen { "true" } else { "false" };
        let attributes = [
            ("type", "button"),
            ("data-key", last.id.as_str()),
            ("aria-pressed", pressed),
        ];
        markup.within("button", &attributes, &mut |button| {
            button.element("span", &[("class", "whose")], &last.name);
            match &last.night {
                Some((day, _, told)) => button.element("strong", &[], told).element(
                    "small",
                    &[],
                    &say::beside(*day, today),
                ),
                None => button.element("small", &[], "nothing yet"),
            };
        });
    }
    markup.done()
}

/// The form of a minimum and a maximum.
#[derive(Clone, Copy)]
struct Night {
    book: Book,
    lasts: RwSignal<Vec<Last>>,
    problems: RwSignal<Vec<Problem>>,
}

impl Night {
    /// The place chosen, and its last night.
    fn last(self) -> Option<Last> {
        let chosen = self.book.place.get();
        self.lasts
            .with(|lasts| lasts.iter().find(|last| last.id == chosen).cloned())
    }

    fn last_entry(self, path: &str) -> Entry {
        let night = self.last().and_then(|last| last.night);
        night.map_or_else(Entry::default, |(_, texts, _)| {
            Entry::from_stored(texts.get(own(path)))
        })
    }

    fn set(self, path: &str, text: &str) {
        self.book.typed.update(|texts| texts.set(own(path), text));
        if !self.problems.with_untracked(Vec::is_empty) {
            self.problems.set(Vec::new());
        }
    }

    fn save(self) {
        let book = self.book;
        let typed = book.typed.get_untracked();
        let (low, high, typed_line) = (typed.get("low"), typed.get("high"), typed.get("line"));
        let mut problems = Vec::new();
        let mark = book.stored.settings_now().decimal;
        if !typed_line.trim().is_empty() && line::read(typed_line, mark).is_none() {
            problems.push(Problem::at(
                LINE,
                "Write both, the minimum first, such as 6/31; or say which it is: min 6.",
            ));
        } else if low.is_empty() && high.is_empty() {
            problems.push(Problem::at(
                LOW,
                "Nothing is typed yet. Type the minimum or the maximum, or press + or − to start from the last one.",
            ));
        } else {
            let texts = Texts::of([("low", low), ("high", high)]);
            let thing = Thing::new(Id::LOWEST, "night", self.with_day(texts.clone()));
            let found = book.ledger.read(|record| sense::problems(record, &thing));
            for problem in found {
                let path = if problem.field == "high" { HIGH } else { LOW };
                problems.push(Problem::at(path, problem.sentence));
            }
            if problems.is_empty() {
                return self.add(texts);
            }
        }
        self.problems.set(problems);
    }

    fn with_day(self, texts: Texts) -> Texts {
        texts
            .with(DAY, &self.book.today_now().iso())
            .with("place", &self.book.place.get_untracked())
    }

    /// Adds a night of today, and goes on to the next place that has none.
    fn add(self, texts: Texts) {
        let book = self.book;
        let texts = self.with_day(Texts::of([
            ("low", texts.get("low")),
            ("high", texts.get("high")),
            ("instrument", texts.get("instrument")),
        ]));
        book.add_all("night", vec![texts]);
        book.typed.set(Texts::default());
        self.problems.set(Vec::new());
        let today = book.today_now();
        let next = self.book.ledger.read(|record| {
            lasts_of(record, today)
                .into_iter()
                .find(|last| last.night.as_ref().is_none_or(|night| night.0 != today))
        });
        if let Some(next) = next {
            book.place.set(next.id);
            // Whoever types goes on typing.
            let typing = document()
                .active_element()
                .is_some_and(|active| active.tag_name() == "INPUT");
            if typing && let Some(low) = element::<web_sys::HtmlElement>("field-night-low") {
                let _ = low.focus();
            }
        }
    }
}

/// What a path of the form is called in a night of the record.
fn own(path: &str) -> &str {
    path.split_once('.').map_or(path, |(_, own)| own)
}

impl Asked for Night {
    fn pieces(&self) -> Vec<Piece> {
        self.book.typed.track();
        let number = |path: &str, label: &str| {
            Piece::Field(Field {
                path: path.to_owned(),
                label: label.to_owned(),
                takes: draft::number(&TEMPERATURE),
            })
        };
        vec![
            number(LOW, "Minimum"),
            number(HIGH, "Maximum"),
            Piece::Field(Field {
                path: LINE.to_owned(),
                label: "Or both in one line, such as 6/31".to_owned(),
                takes: Takes::Words { long: false },
            }),
        ]
    }

    fn entry(&self, path: &str) -> Entry {
        let typed = Entry::from_stored(
            &self
                .book
                .typed
                .with_untracked(|texts| texts.get(own(path)).to_owned()),
        );
        if !typed.unit().is_empty() {
            return typed;
        }
        let chosen = self.choice(UNIT);
        // The unit of the last night holds on.
        let last = self.last_entry(path);
        let unit = say::unit(&chosen).or_else(|| say::unit(last.unit()));
        typed.with_unit(unit.unwrap_or(&Temperature::DEGREE_CELSIUS).key)
    }

    fn choice(&self, path: &str) -> String {
        self.book
            .typed
            .with_untracked(|texts| texts.get(own(path)).to_owned())
    }

    fn type_in(&self, path: &str, entry: Entry) {
        let text = if entry.is_empty() {
            // The unit may be chosen before the number.
            self.set(UNIT, entry.unit());
            String::new()
        } else {
            entry.stored()
        };
        self.set(path, &text);
    }

    fn choose(&self, path: &str, text: &str) {
        self.set(path, text);
        let mark = self.book.stored.settings_now().decimal;
        if let Some([low, high]) = line::read(text, mark) {
            self.type_in(LOW, self.entry(LOW).with_text(low));
            self.type_in(HIGH, self.entry(HIGH).with_text(high));
        }
    }

    fn add_row(&self, _path: &str) {}

    fn take_out_row(&self, _path: &str, _index: usize) {}

    fn problem(&self, path: &str) -> Option<String> {
        self.problems
            .with(|problems| Problem::sentence_at(problems, path))
    }

    fn begin(&self, path: &str) -> String {
        self.last_entry(path).text().to_owned()
    }
}
