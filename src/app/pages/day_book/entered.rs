//! What was entered, by day, the latest first, and finding it again.

use leptos::prelude::*;
use web_sys::{Element, Event, HtmlInputElement};

use super::{Book, say};
use crate::app::live::{heard, hidden, inside, pressed, pressed_in, target, words};
use crate::app::markup::Markup;
use crate::app::record::Reading;
use crate::nursery::kinds::{self, DAY};
use crate::nursery::{Day, Id, Record, Texts, Thing, Wanted};

/// Days on one page.
const PAGE_DAYS: i32 = 14;
/// So many of what is found are shown first, and as many more each time more is asked for.
const FOUND_AT_A_TIME: u32 = 40;
/// Most of one day.
const MOST_OF_DAY: usize = 200;

/// Ids of what is live here.
const SEARCH: &str = "search";
const PLACES: &str = "wanted-place";
const FOUND: &str = "found";
const LIST: &str = "entered";
const EARLIER: &str = "earlier";
const READ: &str = "read-back";

/// The days shown, as the plot needs them.
#[derive(Clone, Copy)]
pub(super) struct Shown {
    /// How often one has gone further back.
    pages: RwSignal<u32>,
    /// How many of what is found are shown at the most.
    most: RwSignal<u32>,
    /// What is looked for, by the name of its field.
    wanted: RwSignal<Texts>,
    /// The days `from` and `to` which are looked at, apart from it: the plot heeds these alone.
    days: RwSignal<Texts>,
}

pub(super) fn write(markup: &mut Markup) {
    markup.within(
        "section",
        &[("class", "entered"), ("aria-labelledby", "entered-head")],
        &mut |section| {
            section.element("h2", &[("id", "entered-head")], "What was entered");
            section
                .within(
                    "form",
                    &[("id", SEARCH), ("class", "search"), ("role", "search")],
                    &mut |form| {
                        write_input(form, "words", "Find words", "search", "");
                        form.within("details", &[("class", "more")], &mut |more| {
                            more.element("summary", &[], "By kind, place and days");
                            write_select(more, "kind", "Kind", &mut |select| {
                                for kind in kinds::all().filter(|kind| kind.is_log) {
                                    select.element("option", &[("value", kind.key)], kind.plural);
                                }
                            });
                            write_select(more, "place", "Where", &mut |_| {});
                            write_input(more, "from", "From", "date", "");
                            write_input(more, "to", "To", "date", "");
                        });
                    },
                )
                .element(
                    "p",
                    &[("class", "hint"), ("id", READ), ("role", "status")],
                    "",
                )
                .element(
                    "p",
                    &[("class", "sound-only"), ("id", FOUND), ("role", "status")],
                    "",
                )
                .mark("div", &[("id", LIST), ("class", "days")])
                .within("p", &[("class", "acts")], &mut |acts| {
                    acts.element(
                        "button",
                        &[
                            ("type", "button"),
                            ("class", "quiet"),
                            ("id", EARLIER),
                            ("hidden", ""),
                        ],
                        "Earlier",
                    );
                });
        },
    );
}

fn write_input(markup: &mut Markup, name: &str, label: &str, kind: &str, hint: &str) {
    let id = ["wanted-", name].concat();
    markup.within("div", &[("class", "field")], &mut |field| {
        field.element("label", &[("for", &id)], label).alone(
            "input",
            &[
                ("id", &id),
                ("name", name),
                ("type", kind),
                ("autocomplete", "off"),
                ("maxlength", "100"),
                ("placeholder", hint),
            ],
        );
    });
}

fn write_select(
    markup: &mut Markup,
    name: &str,
    label: &str,
    options: &mut dyn FnMut(&mut Markup),
) {
    let id = ["wanted-", name].concat();
    markup.within("div", &[("class", "field")], &mut |field| {
        field.element("label", &[("for", &id)], label).within(
            "select",
            &[("id", &id), ("name", name)],
            &mut |select| {
                select.element("option", &[("value", "")], "all");
                options(select);
            },
        );
    });
}

pub(super) fn open(book: Book) -> Shown {
    let shown = Shown {
        pages: RwSignal::new(0),
        most: RwSignal::new(FOUND_AT_A_TIME),
        wanted: RwSignal::new(Texts::default()),
        days: RwSignal::new(Texts::default()),
    };
    let typed = move |event: Event| {
        if let Some(input) = target::<Element>(&event) {
            // A select has a name and a value too.
            let input: HtmlInputElement = wasm_bindgen::JsCast::unchecked_into(input);
            let name = input.name();
            let texts = match name.as_str() {
                "from" | "to" => shown.days,
                _ => shown.wanted,
            };
            shown.most.set(FOUND_AT_A_TIME);
            texts.update(|texts| texts.set(&name, &input.value()));
        }
    };
    heard(SEARCH, "input", typed);
    heard(SEARCH, "submit", |event| event.prevent_default());
    inside(PLACES, move || {
        let mut markup = Markup::new();
        markup.element("option", &[("value", "")], "all");
        book.ledger.read(|record| {
            for kind in kinds::PLACES {
                for thing in record.of_kind(kind) {
                    markup.element(
                        "option",
                        &[("value", &thing.id.text())],
                        &record.name_of(thing.id),
                    );
                }
            }
        });
        markup.done()
    });
    let count = RwSignal::new(0u32);
    inside(LIST, move || {
        let today = book.today();
        let wanted = shown.wanted();
        let Some(wanted) = wanted else {
            count.set(0);
            return book
                .ledger
                .read(|record| days(record, shown.first_page_day(record, today), today));
        };
        let most = shown.most.get() as usize;
        book.ledger.search(&wanted, most, |record, logs| {
            count.set(logs.len() as u32);
            found(record, logs, today)
        })
    });
    let is_more = move || shown.wanted().is_some() && count.get() >= shown.most.get();
    words(FOUND, move || match count.get() {
        _ if shown.wanted().is_none() => String::new(),
        0 => "Nothing found.".to_owned(),
        count if is_more() => ["At least ", &count.to_string(), " found."].concat(),
        count => [&count.to_string(), " found."].concat(),
    });
    hidden(EARLIER, move || {
        if shown.wanted().is_some() {
            return !is_more();
        }
        let today = book.today();
        book.ledger.read(|record| {
            let from = shown.first_page_day(record, today);
            record
                .between(Day::FIRST_OF_ALL, from.plus(-1))
                .next()
                .is_none()
        })
    });
    pressed(EARLIER, move || {
        if shown.wanted().is_some() {
            shown.most.update(|most| *most += FOUND_AT_A_TIME);
        } else {
            shown.pages.update(|pages| *pages += 1);
        }
    });
    words(READ, move || match book.ledger.reading.get() {
        Reading::Opening => "Reading the record …".to_owned(),
        Reading::Following => {
            book.ledger.read(
                |record| match record.logs().next().and_then(|log| log.day(DAY)) {
                    Some(day) => [
                        "The record has been read back to ",
                        &day.told(),
                        ". Earlier months are coming.",
                    ]
                    .concat(),
                    None => "Earlier months are coming.".to_owned(),
                },
            )
        }
        Reading::Whole => String::new(),
    });
    pressed_in(LIST, move |button| {
        let Some(id) = button
            .get_attribute("data-key")
            .and_then(|key| Id::read(&key))
        else {
            return;
        };
        let line = book.line(id);
        if let Some(entry) = book.ledger.withdraw(id) {
            book.tell(["Taken out: ", &line].concat(), vec![entry]);
        }
    });
    shown
}

impl Shown {
    /// What is looked for, if anything is.
    fn wanted(self) -> Option<Wanted> {
        let (texts, days) = (self.wanted.get(), self.days.get());
        (!texts.is_empty() || !days.is_empty()).then(|| Wanted {
            words: texts.get("words").to_owned(),
            from: Day::from_iso(days.get("from")),
            to: Day::from_iso(days.get("to")),
            place: Id::read(texts.get("place")),
            kind: texts.get("kind").to_owned(),
        })
    }

    /// The first day that is shown: each page goes a fortnight back from the latest entry before it.
    fn first_page_day(self, record: &Record, today: Day) -> Day {
        let mut from = today.plus(1 - PAGE_DAYS);
        for _ in 0..self.pages.get() {
            let Some(before) = record
                .between(Day::FIRST_OF_ALL, from.plus(-1))
                .next_back()
                .and_then(|log| log.day(DAY))
            else {
                break;
            };
            from = before.plus(1 - PAGE_DAYS);
        }
        from
    }

    /// The days from which to which the plot is drawn.
    pub(super) fn range(self, record: &Record, today: Day) -> [Day; 2] {
        let days = self.days.get();
        let [from, to] = ["from", "to"].map(|name| Day::from_iso(days.get(name)));
        let first = || self.first_page_day(record, today);
        [from.unwrap_or_else(first), to.unwrap_or(today)]
    }
}

/// Days and what was entered on each, the latest first.
fn days(record: &Record, from: Day, today: Day) -> String {
    let logs: Vec<&Thing> = record.between(from, Day::LAST_OF_ALL).rev().collect();
    if logs.is_empty() {
        let sentence = if record.logs().next().is_none() {
            "Nothing has been entered yet. What you save above stands here."
        } else {
            "Nothing was entered in the last fortnight."
        };
        return none(sentence);
    }
    written(record, &logs, today)
}

/// What was found.
fn found(record: &Record, logs: &[&Thing], today: Day) -> String {
    if logs.is_empty() {
        return none("Nothing of the kind was entered. Try fewer words, or more days.");
    }
    written(record, logs, today)
}

fn none(sentence: &str) -> String {
    let mut markup = Markup::new();
    markup.element("p", &[("class", "none")], sentence);
    markup.done()
}

fn written(record: &Record, logs: &[&Thing], today: Day) -> String {
    let mut markup = Markup::new();
    for of_day in logs.chunk_by(|one, other| one.text(DAY) == other.text(DAY)) {
        let Some(first) = of_day.first() else {
            continue;
        };
        let head = match first.day(DAY) {
            Some(day) if day == today => ["Today, ", &day.told()].concat(),
            Some(day) => say::whole_day(day),
            None => "Without a day".to_owned(),
        };
        markup.element("h3", &[], &head);
        markup.within("ul", &[], &mut |list| {
            for log in of_day.iter().take(MOST_OF_DAY) {
                write_log(list, record, log);
            }
        });
        if of_day.len() > MOST_OF_DAY {
            markup.element(
                "p",
                &[("class", "none")],
                "There is more on this day. Find it by a word.",
            );
        }
    }
    markup.done()
}

fn write_log(list: &mut Markup, record: &Record, log: &Thing) {
    let id = log.id.text();
    let line = say::line(record, log);
    let take_out = ["Take out ", &line].concat();
    list.within("li", &[], &mut |row| {
        row.element("a", &[("href", &["#/thing?id=", &id].concat())], &line)
            .element(
                "button",
                &[
                    ("type", "button"),
                    ("class", "quiet"),
                    ("data-key", &id),
                    ("aria-label", &take_out),
                ],
                "Take out",
            );
    });
}
