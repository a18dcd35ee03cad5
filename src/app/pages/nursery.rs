//! The nursery at a glance: houses, bays, batches, materials.

use leptos::prelude::*;
use web_sys::Element;

use crate::app::copy_due;
use crate::app::demo;
use crate::app::live::{hidden, inside, pressed_in};
use crate::app::markup::Markup;
use crate::app::notices;
use crate::app::record::{Reading, ledger};
use crate::app::route::Page;
use crate::app::stored::stored;
use crate::app::widgets::standing::Plan;
use crate::app::widgets::things::{
    add_words, address_of, address_of_new, write_button, write_list,
};
use crate::keep::journal::explain::history;
use crate::keep::journal::{Journal, Present};
use crate::measure::letters::capitalised;
use crate::nursery::check::Problem;
use crate::nursery::kinds::kind;
use crate::nursery::{Id, Record, Thing, sense};

/// Ids of what is live on the page.
const READING: &str = "reading";
const DONE: &str = "done";
const COPY: &str = "copy-due";
const ODD: &str = "odd";
const PLAN: &str = "plan";
const LISTS: &str = "lists";
const FOOT: &str = "nursery-foot";

/// Opens the page.
pub fn open(into: &Element) {
    let mut markup = Markup::new();
    markup
        .element("h1", &[], "Nursery")
        .element(
            "p",
            &[("id", READING), ("class", "hint"), ("role", "status")],
            "Earlier months are still being read.",
        )
        .mark("div", &[("id", DONE), ("role", "status")])
        .mark("div", &[("id", COPY), ("role", "status")])
        .mark("div", &[("id", ODD)])
        .mark("div", &[("id", PLAN), ("class", "plan")])
        .mark("div", &[("id", LISTS)])
        .mark("div", &[("id", FOOT)]);
    into.set_inner_html(&markup.done());
    let (ledger, stored) = (ledger(), stored());
    hidden(READING, move || ledger.reading.get() == Reading::Whole);
    inside(DONE, move || {
        ledger.last.get().map_or_else(String::new, |last| {
            ledger.read_all(|journal, present| done(journal, present, last))
        })
    });
    pressed_in(DONE, move |_| {
        if let Some(last) = ledger.last.get_untracked() {
            ledger.undo(last);
        }
    });
    inside(COPY, move || copy_due::told(ledger, stored));
    inside(ODD, move || ledger.read_odd(odd));
    inside(PLAN, move || {
        if ledger.reading.get() == Reading::Opening {
            return String::new();
        }
        ledger.read_standing(|record| {
            let mut markup = Markup::new();
            write_first_steps(&mut markup, record);
            Plan::new(record, ledger.today()).write(&mut markup);
            if has(record, "house") {
                write_button(
                    &mut markup,
                    "quiet button",
                    &address_of_new("house", &[]),
                    "Add a house",
                );
            }
            markup.done()
        })
    });
    inside(LISTS, move || {
        if ledger.reading.get() == Reading::Opening {
            return String::new();
        }
        ledger.read(lists)
    });
    inside(FOOT, move || {
        let mut markup = Markup::new();
        if ledger.reading.get() != Reading::Opening && ledger.demo.get().is_none() {
            let button = [("type", "button"), ("class", "quiet")];
            markup
                .element("h2", &[], "The demo nursery")
                .element("p", &[], "A season of an invented nursery, to look around in and try things out. It stands beside your own record and leaves no trace.")
                .element("button", &button, "Show the demo nursery");
        }
        markup.done()
    });
    pressed_in(FOOT, move |_| demo::show(ledger, stored));
}

fn has(record: &Record, kind: &str) -> bool {
    record.how_many(kind) > 0
}

/// What to do first, until there is a house with a bay and a batch in it.
fn write_first_steps(markup: &mut Markup, record: &Record) {
    if !has(record, "house") {
        markup
            .element("p", &[("class", "lead")], "Nothing is written down yet. Add your house, then its bays and benches. What you grow then stands in them.")
            .within("p", &[("class", "acts")], &mut |line| {
                write_button(line, "button", &address_of_new("house", &[]), "Add your house");
            });
    } else if !has(record, "bay") {
        markup.element(
            "p",
            &[("class", "lead")],
            "Next, add the bays and benches of your house.",
        );
    } else if !has(record, "batch") {
        markup.element(
            "p",
            &[("class", "lead")],
            "Next, add the batches that stand there: what was sown or struck together.",
        );
    }
}

/// What was done last, which can be undone.
fn done(journal: &Journal, present: &Present, last: Id) -> String {
    let thing = journal.get(last).and_then(|entry| entry.thing());
    let Some(thing) = thing else {
        return String::new();
    };
    let steps = history(journal, present, thing);
    let Some(step) = steps.iter().find(|step| step.entry == last) else {
        return String::new();
    };
    let what = step.sentences.first().map_or("", String::as_str);
    let sentence = [&capitalised(&present.record.name_of(thing)), ": ", what].concat();
    let mut markup = Markup::new();
    notices::write(&mut markup, &sentence, "Undo", "undo");
    markup.done()
}

/// More of them than these are only counted.
const MOST_ODD: usize = 8;

/// What clashes between devices, and what makes no sense.
fn odd(present: &Present, of_logs: &[(Id, Problem)]) -> String {
    let record = &present.record;
    let clashes = present.clashes.keys().map(|id| {
        let sentence = "two devices say different things. Choose one.";
        (*id, sentence.to_owned())
    });
    let mut found: Vec<(Id, String)> = clashes.collect();
    for thing in record.standing() {
        for problem in sense::problems(record, thing) {
            found.push((thing.id, problem.sentence));
        }
    }
    let many = found.len() + of_logs.len();
    for (id, problem) in of_logs.iter().take(MOST_ODD) {
        found.push((*id, problem.sentence.clone()));
    }
    let mut markup = Markup::new();
    if found.is_empty() {
        return markup.done();
    }
    markup.within("section", &[("class", "odd")], &mut |section| {
        section.element("h2", &[], "To put right").within(
            "ul",
            &[("class", "things")],
            &mut |list| {
                for (id, sentence) in found.iter().take(MOST_ODD) {
                    list.within("li", &[], &mut |row| {
                        row.within("a", &[("href", &address_of(*id))], &mut |link| {
                            link.element("strong", &[], &record.name_of(*id))
                                .text(" ")
                                .element("span", &[], sentence);
                        });
                    });
                }
            },
        );
        if let Some(more) = many.checked_sub(MOST_ODD).filter(|more| *more > 0) {
            section.element("p", &[], &["And ", &more.to_string(), " more."].concat());
        }
    });
    markup.done()
}

/// What is listed under the plan: a heading, and its kinds.
const GROUPS: [(&str, &[&str]); 13] = [
    ("Batches", &["batch"]),
    ("Seed lots", &["seed_lot"]),
    ("Crops", &["crop"]),
    ("Plans", &["plan"]),
    ("Mixes", &["mix"]),
    ("Materials", &["material"]),
    ("Stock in hand", &["stock"]),
    ("Pots", &["pot"]),
    ("Trays", &["tray"]),
    ("Instruments", &["instrument"]),
    ("Prices", &["price", "tariff"]),
    (
        "Findings",
        &["test", "look", "verdict", "outcome", "card", "fit"],
    ),
    ("Places", &["place"]),
];
/// A longer list opens only when it is asked for.
const SHORT: usize = 6;
/// The most logs in a list: all of them stand in the day book.
const MOST_LOGS: usize = 20;

fn lists(record: &Record) -> String {
    let mut markup = Markup::new();
    let mut empty = Vec::new();
    for (title, kinds) in GROUPS {
        let mut things: Vec<&Thing> = Vec::new();
        for table in kinds.iter().filter_map(|key| kind(key)) {
            let most = if table.is_log { MOST_LOGS } else { usize::MAX };
            // The latest first, and no further back than there are any.
            let most = most.min(record.how_many(table.key));
            things.extend(record.of_kind(table.key).rev().take(most));
        }
        if kinds.contains(&"stock") {
            latest_of_each(&mut things);
        }
        if things.is_empty() {
            empty.extend(kinds);
            continue;
        }
        let open: &[(&str, &str)] = &[("class", "behind group"), ("open", "")];
        let open = if things.len() <= SHORT {
            open
        } else {
            &open[..1]
        };
        markup.within("details", open, &mut |details| {
            let count = [title, " (", &things.len().to_string(), ")"].concat();
            details.element("summary", &[], &count);
            write_list(details, record, &mut things.iter().copied(), None);
            write_adds(details, kinds);
        });
    }
    let gone: Vec<&Thing> = record.gone().collect();
    if !gone.is_empty() {
        markup.within("details", &[("class", "behind group")], &mut |details| {
            details.element("summary", &[], "Taken out of the record");
            write_list(
                details,
                record,
                &mut gone.iter().rev().copied().take(MOST_LOGS),
                None,
            );
        });
    }
    if !empty.is_empty() {
        markup.within("details", &[("class", "behind group")], &mut |details| {
            details.element("summary", &[], "Write down something else");
            write_adds(details, &empty);
        });
    }
    markup.within("p", &[("class", "acts")], &mut |line| {
        let address = Page::BringIn.address();
        write_button(
            line,
            "quiet button",
            &address,
            "Bring in or take out a file",
        );
    });
    markup.done()
}

fn write_adds(markup: &mut Markup, kinds: &[&str]) {
    markup.within("p", &[("class", "acts")], &mut |line| {
        for kind in kinds.iter().filter_map(|key| kind(key)) {
            let address = address_of_new(kind.key, &[]);
            write_button(line, "quiet button", &address, &add_words(kind));
        }
    });
}

/// Of each material what was counted last.
fn latest_of_each(things: &mut Vec<&Thing>) {
    let mut seen: Vec<&str> = Vec::new();
    things.retain(|thing| {
        let material = thing.text("material");
        let new = !seen.contains(&material);
        seen.push(material);
        new
    });
}
