//! The day book: minimum and maximum in a few seconds, what else was done, what was entered, and
//! all of it on a plot and on paper.
//!
//! * [`line`]: minimum and maximum typed in one line.
//! * [`quick`]: minimum and maximum of today, house by house.
//! * [`done`]: what else was done.
//! * [`entered`]: what was entered, by day, and finding it.
//! * [`plot`]: minima and maxima over the days shown.
//! * [`paper`]: a month on paper.
//! * [`say`]: an entry in words.

mod done;
mod entered;
mod line;
mod paper;
mod plot;
mod quick;
mod say;

use std::time::Duration;

use leptos::prelude::*;
use web_sys::Element;

use crate::app::live::{inside, keep, meanwhile, pressed_in, words};
use crate::app::markup::Markup;
use crate::app::notices;
use crate::app::record::{Ledger, ledger};
use crate::app::stored::{Stored, stored};
use crate::keep::LastQuestion;
use crate::nursery::{Day, Id, Texts, Thing};

/// Name of the document with what is typed and not saved yet.
const UNSAVED: &str = "day-book";
/// How often the page looks whether a new day has begun.
const LOOK_AGAIN: Duration = Duration::from_secs(20);
/// Days looked back for the last of a kind.
const FAR_BACK: i32 = 400;

/// Ids of what is live at the head of the page.
const TODAY: &str = "today";
const TOLD: &str = "told";

/// What was done last, and how it is taken back.
#[derive(Clone, PartialEq)]
struct Told {
    sentence: String,
    entries: Vec<Id>,
    taken_back: bool,
}

/// What the parts of the page share.
#[derive(Clone, Copy)]
struct Book {
    ledger: Ledger,
    stored: Stored,
    /// Number of the day it is.
    today: RwSignal<u32>,
    /// Id of the place whose minimum and maximum are entered and drawn.
    place: RwSignal<String>,
    /// What is typed for the minimum and maximum.
    typed: RwSignal<Texts>,
    told: RwSignal<Option<Told>>,
}

impl Book {
    fn today(self) -> Day {
        Day::from_number(self.today.get() as i32)
    }

    fn today_now(self) -> Day {
        Day::from_number(self.today.get_untracked() as i32)
    }

    /// Says what was done, so that it can be undone.
    fn tell(self, sentence: String, entries: Vec<Id>) {
        self.told.set(Some(Told {
            sentence,
            entries,
            taken_back: false,
        }));
    }

    /// Adds things, and says so.
    fn add_all(self, kind: &str, all: Vec<Texts>) {
        let mut added = Vec::new();
        let mut lines = Vec::new();
        for texts in all {
            if let Some(id) = self.ledger.add(kind, texts) {
                added.push(id);
                lines.push(self.line(id));
            }
        }
        self.tell(["Saved: ", &lines.join("; ")].concat(), added);
    }

    /// A thing of the record in one line.
    fn line(self, id: Id) -> String {
        self.ledger.read(|record| match record.get(id) {
            Some(thing) => say::line(record, thing),
            None => String::new(),
        })
    }

    /// A thing that is not in the record in one line.
    fn line_of(self, thing: &Thing) -> String {
        self.ledger.read(|record| say::line(record, thing))
    }
}

/// Opens the page.
pub fn open(into: &Element) {
    let ledger = ledger();
    let book = Book {
        ledger,
        stored: stored(),
        // A clock shows no day before 1970.
        today: RwSignal::new(ledger.today().number() as u32),
        place: RwSignal::new(String::new()),
        typed: RwSignal::new(Texts::default()),
        told: RwSignal::new(None),
    };
    into.set_inner_html(&written());
    words(TODAY, move || say::whole_day(book.today()));
    look_again(book);
    keep_told(book);
    quick::open(book);
    let done = done::open(book);
    let shown = entered::open(book);
    plot::open(book, shown);
    paper::open(book);
    keep_unsaved(book, done);
}

fn written() -> String {
    let mut markup = Markup::new();
    markup.within("div", &[("class", "day-book")], &mut |page| {
        page.element("h1", &[], "Day book")
            .element("p", &[("class", "lead"), ("id", TODAY)], "")
            .mark(
                "div",
                &[("id", TOLD), ("class", "told"), ("role", "status")],
            );
        page.within("div", &[("class", "day-parts")], &mut |parts| {
            quick::write(parts);
            done::write(parts);
            entered::write(parts);
            plot::write(parts);
            paper::write(parts);
        });
    });
    paper::write_sheet(&mut markup);
    markup.done()
}

/// At midnight a new day begins, also on a page that stays open.
fn look_again(book: Book) {
    let look = move || {
        let today = book.ledger.today().number() as u32;
        if book.today.get_untracked() != today {
            book.today.set(today);
        }
    };
    if let Ok(handle) = set_interval_with_handle(look, LOOK_AGAIN) {
        on_cleanup(move || handle.clear());
    }
    // Another record may be shown, of another day.
    keep(move || {
        book.ledger.read(|_| ());
        look();
    });
}

fn keep_told(book: Book) {
    inside(TOLD, move || {
        let mut markup = Markup::new();
        if let Some(told) = book.told.get() {
            let answer = if told.taken_back {
                "Put it back"
            } else {
                "Undo"
            };
            notices::write(&mut markup, &told.sentence, answer, "");
        }
        markup.done()
    });
    pressed_in(TOLD, move |_| {
        let Some(told) = book.told.get_untracked() else {
            return;
        };
        let entries: Vec<Id> = told
            .entries
            .iter()
            .filter_map(|entry| book.ledger.undo(*entry))
            .collect();
        let (_, what) = told.sentence.split_once(": ").unwrap_or_default();
        let begin = if told.taken_back {
            "Put back: "
        } else {
            "Taken back: "
        };
        book.told.set(Some(Told {
            sentence: [begin, what].concat(),
            entries,
            taken_back: !told.taken_back,
        }));
    });
}

/// What is typed and not saved yet outlives a reload.
fn keep_unsaved(book: Book, done: done::Done) {
    const PLACE: &str = "place";
    const KIND: &str = "kind";
    const NIGHT: &str = "night.";
    let ready = RwSignal::new(false);
    let filled = done.clone();
    let stored = book.stored;
    meanwhile(async move {
        if let Some(last) = stored.last_question(UNSAVED).await {
            for (path, text) in &last.question {
                match (path.as_str(), path.strip_prefix(NIGHT)) {
                    (PLACE, _) => book.place.set(text.clone()),
                    (KIND, _) => filled.kind.set(text.clone()),
                    (_, Some(path)) => book.typed.update(|texts| texts.set(path, text)),
                    _ => filled.put(path, text),
                }
            }
        }
        ready.set(true);
    });
    keep(move || {
        let mut question = vec![
            (PLACE.to_owned(), book.place.get()),
            (KIND.to_owned(), done.kind.get()),
        ];
        book.typed.with(|texts| {
            for (path, text) in texts {
                question.push(([NIGHT, path].concat(), text.to_owned()));
            }
        });
        done.take(&mut question);
        if ready.get() {
            stored.save_question(
                UNSAVED,
                LastQuestion {
                    address: String::new(),
                    question,
                },
            );
        }
    });
    on_cleanup(move || stored.save_now());
}
