//! This morning, at the head of the start page: what is due, each with the page that it opens and the button that writes
//! it down; without a record the demo nursery, and what is soonest reckoned.
//!
//! The start page is the first program's, the record this one's: the page leaves a place, which is filled here.

use std::cell::RefCell;
use std::time::Duration;

use leptos::prelude::*;
use web_sys::Element;

use super::live::{element, keep, pressed_in};
use super::markup::Markup;
use super::notices;
use super::record::{Ledger, Reading};
use super::route::{PAGE, Page, Place, asked};
use super::widgets::things::address_of_new;
use crate::nursery::{Day, Id};
use crate::reckon::this_morning::{Due, Morning, Opens, this_morning};

/// Id of the place that the start page leaves for it.
pub const PLACE: &str = "this-morning";
/// What the buttons do.
const DONE: &str = "done";
const UNDO: &str = "undo";
/// How often it is looked whether a new day has begun.
const LOOK_AGAIN: Duration = Duration::from_secs(20);
/// The first program may still be writing the page: its place is looked for so often, so far apart.
const MOST_WAITS: u32 = 100;
const WAIT: Duration = Duration::from_millis(50);
/// So many are shown at once; the rest behind a line.
const SHOWN: usize = 8;

/// What is reckoned soonest from an empty page.
const SOONEST: [(Page, &str); 3] = [
    (Page::Rinse, "How often must coir or coral be rinsed?"),
    (Page::Mix, "How much air is in a pot of this mix?"),
    (Page::Season, "How many do I sow, and when?"),
];

thread_local! {
    /// What the page shows, for its buttons.
    static SHOWN_NOW: RefCell<Morning> = RefCell::new(Morning::default());
    /// What was done last: what is said of it, and its entry until that is taken back.
    static LAST: RefCell<Option<(String, Option<Id>)>> = const { RefCell::new(None) };
}

/// Keeps the place filled whenever the start page is open.
pub fn open(ledger: Ledger, place: ReadSignal<Place>) {
    // A clock shows no day before 1970.
    let today = RwSignal::new(ledger.today().number());
    let look = move || {
        let now = ledger.today().number();
        if today.get_untracked() != now {
            today.set(now);
        }
    };
    set_interval(look, LOOK_AGAIN);
    let told = RwSignal::new(());
    keep(move || {
        if place.get().page != Page::Reckon {
            LAST.take();
            return;
        }
        let reading = ledger.reading.get();
        // The demo nursery may be shown, which has a day of its own.
        let _ = ledger.demo.get();
        look();
        let today = Day::from_number(today.get());
        told.track();
        if reading == Reading::Opening {
            return;
        }
        let found = |empty: &mut bool| {
            ledger.read(|record| {
                *empty = record.is_empty();
                this_morning(record, today)
            })
        };
        let mut empty = false;
        // While older months are being read it changes with each of them: once it is enough to look.
        let morning = if reading == Reading::Whole {
            found(&mut empty)
        } else {
            untrack(|| found(&mut empty))
        };
        let written = written(&morning, empty, today);
        SHOWN_NOW.set(morning);
        request_animation_frame(move || fill(written, place, MOST_WAITS));
    });
    pressed_in(PAGE, move |button| {
        let inside = button.closest(&["#", PLACE].concat());
        if inside.ok().flatten().is_none() {
            return;
        }
        let of = |name| button.get_attribute(name).unwrap_or_default();
        match of("data-do").as_str() {
            DONE => {
                let which: Option<usize> = of("data-key").parse().ok();
                if let Some(which) = which {
                    write_down(ledger, which);
                }
            }
            UNDO => {
                if let Some((sentence, Some(entry))) = LAST.take() {
                    ledger.undo(entry);
                    LAST.set(Some((["Taken back: ", &sentence].concat(), None)));
                }
            }
            _ => return,
        }
        told.set(());
    });
}

/// Writes down that something is done.
fn write_down(ledger: Ledger, which: usize) {
    let due = SHOWN_NOW.with_borrow(|morning| {
        let mut all = morning.due.iter().chain(&morning.soon);
        all.nth(which).cloned()
    });
    let Some((due, done)) = due.and_then(|due| due.done.clone().map(|done| (due, done))) else {
        return;
    };
    let entry = ledger.add(done.kind, done.texts);
    LAST.set(Some((due.sentence, entry)));
}

fn fill(written: String, place: ReadSignal<Place>, waits: u32) {
    if place.get_untracked().page != Page::Reckon {
        return;
    }
    match element::<Element>(PLACE) {
        Some(here) => here.set_inner_html(&written),
        None if waits > 0 => set_timeout(move || fill(written, place, waits - 1), WAIT),
        None => {}
    }
}

fn written(morning: &Morning, empty: bool, today: Day) -> String {
    let mut markup = Markup::new();
    markup.element("p", &[("class", "lead")], &today.told());
    markup.within(
        "div",
        &[("class", "told"), ("role", "status")],
        &mut |told| {
            LAST.with_borrow(|last| match last {
                Some((sentence, Some(_))) => {
                    notices::write(told, &["Written down: ", sentence].concat(), "Undo", UNDO);
                }
                Some((sentence, None)) => {
                    told.element("p", &[("class", "notice")], sentence);
                }
                None => {}
            });
        },
    );
    if empty {
        write_empty(&mut markup);
        return markup.done();
    }
    if morning.due.is_empty() {
        markup.element("p", &[], "Nothing that is written down is due today.");
    } else {
        write_list(
            &mut markup,
            morning.due.iter().take(SHOWN).enumerate(),
            None,
        );
        write_more(
            &mut markup,
            "More that is due",
            morning.due.iter().enumerate().skip(SHOWN),
            None,
        );
    }
    let first = morning.due.len();
    let soon = morning.soon.iter().enumerate();
    let soon = soon.map(move |(place, due)| (first + place, due));
    write_more(&mut markup, "In the next days", soon, Some(today));
    markup.done()
}

/// Writes what is offered as long as there is no record: an invented one, and what is soonest reckoned.
pub fn write_empty(markup: &mut Markup) {
    markup.element(
        "p",
        &[],
        "Nothing is written down on this device yet. Look at an invented nursery first, or reckon something: these three take a minute.",
    );
    markup.within("ul", &[("class", "soonest")], &mut |list| {
        let demo = (Page::Nursery, "A season of an invented nursery");
        for (page, words) in SOONEST.into_iter().chain([demo]) {
            list.within("li", &[], &mut |item| {
                item.element("a", &[("href", &page.address() as &str)], words);
            });
        }
    });
}

fn write_more<'a>(
    markup: &mut Markup,
    summary: &str,
    all: impl Iterator<Item = (usize, &'a Due)>,
    today: Option<Day>,
) {
    let all: Vec<(usize, &Due)> = all.collect();
    if all.is_empty() {
        return;
    }
    let many = [summary, " (", &all.len().to_string(), ")"].concat();
    markup.within("details", &[("class", "behind")], &mut |details| {
        details.element("summary", &[], &many);
        write_list(details, all.iter().copied(), today);
    });
}

fn write_list<'a>(
    markup: &mut Markup,
    all: impl Iterator<Item = (usize, &'a Due)>,
    today: Option<Day>,
) {
    let all: Vec<(usize, &Due)> = all.collect();
    markup.within("ul", &[("class", "due")], &mut |list| {
        for (which, due) in &all {
            let item = [("data-what", due.what.key())];
            list.within("li", &item, &mut |item| write_due(item, *which, due, today));
        }
    });
}

fn write_due(item: &mut Markup, which: usize, due: &Due, today: Option<Day>) {
    let sentence = match today {
        Some(_) => [&due.from.in_words(), ": ", &due.sentence].concat(),
        None => due.sentence.clone(),
    };
    item.within("p", &[], &mut |line| {
        line.element("strong", &[], &sentence)
            .element("span", &[("class", "hint")], &due.left);
    });
    let address = match &due.opens {
        Opens::New(kind, texts) => address_of_new(kind, &texts.iter().collect::<Vec<_>>()),
        Opens::DayBook => Page::DayBook.address(),
        Opens::MovingOn(question) => asked(Page::MovingOn, &mut *question.clone()),
    };
    item.within("p", &[("class", "acts")], &mut |acts| {
        // Several things have a button of the same words: each says what it is about.
        let about = |words: &str| [words, ": ", &due.sentence].concat();
        if due.done.is_some() {
            let button = [
                ("type", "button"),
                ("data-do", DONE),
                ("data-key", &which.to_string() as &str),
                ("aria-label", &about("Done") as &str),
            ];
            acts.element("button", &button, "Done");
        }
        let link = [
            ("class", "button quiet"),
            ("href", &address as &str),
            ("aria-label", &about("Open") as &str),
        ];
        acts.element("a", &link, "Open");
    });
}
