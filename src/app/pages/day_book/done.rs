//! What else was done: a button for each, its form, and the same as yesterday.

use std::rc::Rc;

use leptos::prelude::*;
use web_sys::{Element, HtmlElement};

use super::{Book, FAR_BACK};
use crate::app::draft::Draft;
use crate::app::live::{element, hidden, inside, keep, pressed, pressed_in, set_attribute, words};
use crate::app::markup::Markup;
use crate::app::widgets::form::{self, Asked, Ids};
use crate::measure::Entry;
use crate::nursery::kinds::{self, DAY};
use crate::nursery::{Day, Id, Record, Takes, Texts, Thing};
use crate::reckon::form::Piece;

/// What can be done, by the kind of its log.
const ACTS: [(&str, &str); 13] = [
    ("watered", "Watered"),
    ("fed", "Fed"),
    ("reading", "Root, bed or water temperature"),
    ("humidity", "Humidity"),
    ("forecast", "Tonight’s forecast"),
    ("tank", "Tank"),
    ("count", "Counted"),
    ("treated", "Treated"),
    ("cut", "Cut"),
    ("sold", "Sold"),
    ("bought", "Bought"),
    ("stage", "Batch: up, moved, potted on"),
    ("note", "Note"),
];

/// Most batches shown to be tapped; any other is chosen in the form.
const MOST_BATCHES: usize = 12;

/// Ids of what is live here.
const BATCHES: &str = "batches";
const ABOUT: &str = "about";
const BUTTONS: &str = "acts";
const OPEN: &str = "act";
const HEAD: &str = "act-head";
const FORM: Ids = ["act-form", "act-sheet"];
const SAVE: &str = "act-save";
const CLOSE: &str = "act-close";
const AGAIN: &str = "act-again";

/// The key of a kind, a thing of it being filled in, and the same as its form sees it.
type OfKind = (&'static str, Draft, Rc<dyn Asked>);

/// The forms, one of which is open at most.
#[derive(Clone)]
pub(super) struct Done {
    drafts: Rc<[OfKind]>,
    /// The kind of the form that is open; empty where none is.
    pub(super) kind: RwSignal<String>,
}

impl Done {
    fn of(&self, kind: &str) -> Option<Draft> {
        self.drafts
            .iter()
            .find(|(key, ..)| *key == kind)
            .map(|(_, draft, _)| *draft)
    }

    fn current(&self) -> Option<&dyn Asked> {
        let kind = self.kind.get();
        let open = self.drafts.iter().find(|(key, ..)| *key == kind)?;
        Some(&*open.2)
    }

    /// Puts a text back that was typed before: `watered/volume`.
    pub(super) fn put(&self, path: &str, text: &str) {
        if let Some((kind, path)) = path.split_once('/')
            && let Some(draft) = self.of(kind)
        {
            draft.texts.update(|texts| texts.set(path, text));
        }
    }

    /// Takes what is typed.
    pub(super) fn take(&self, into: &mut Vec<(String, String)>) {
        for (kind, draft, _) in self.drafts.iter() {
            draft.texts.with(|texts| {
                for (path, text) in texts {
                    into.push(([kind, "/", path].concat(), text.to_owned()));
                }
            });
        }
    }

    fn close(&self) {
        let kind = self.kind.get_untracked();
        if let Some(draft) = self.of(&kind) {
            draft.texts.set(Texts::default());
        }
        self.kind.set(String::new());
        // Back to where it was opened.
        if let Some(button) = element::<HtmlElement>(&[BUTTONS, "-", &kind].concat()) {
            let _ = button.focus();
        }
    }
}

pub(super) fn write(markup: &mut Markup) {
    markup.within(
        "section",
        &[("class", "slip-card"), ("aria-labelledby", "acts-head")],
        &mut |section| {
            section
                .element("h2", &[("id", "acts-head")], "What else was done")
                .within("div", &[("id", ABOUT)], &mut |about| {
                    about
                        .element(
                            "p",
                            &[("class", "hint")],
                            "Tap a batch first where it is about one.",
                        )
                        .mark(
                            "div",
                            &[
                                ("id", BATCHES),
                                ("class", "chips"),
                                ("role", "group"),
                                ("aria-label", "Batch"),
                            ],
                        );
                })
                .within(
                    "div",
                    &[("id", BUTTONS), ("class", "tiles")],
                    &mut |tiles| {
                        for (kind, words) in ACTS {
                            let id = [BUTTONS, "-", kind].concat();
                            tiles.element(
                                "button",
                                &[
                                    ("type", "button"),
                                    ("class", "quiet"),
                                    ("data-key", kind),
                                    ("id", &id),
                                    ("aria-expanded", "false"),
                                ],
                                words,
                            );
                        }
                    },
                )
                .within(
                    "div",
                    &[("id", OPEN), ("class", "act"), ("hidden", "")],
                    &mut |act| {
                        act.element("h3", &[("id", HEAD), ("tabindex", "-1")], "")
                            .within("p", &[("class", "acts")], &mut |acts| {
                                acts.element(
                                    "button",
                                    &[("type", "button"), ("class", "quiet"), ("id", AGAIN)],
                                    "",
                                );
                            });
                        form::write_as(act, FORM, "What was done");
                        act.within("p", &[("class", "acts")], &mut |acts| {
                            acts.element("button", &[("type", "button"), ("id", SAVE)], "Save")
                                .element(
                                    "button",
                                    &[("type", "button"), ("class", "quiet"), ("id", CLOSE)],
                                    "Close without saving",
                                );
                        });
                    },
                );
        },
    );
}

pub(super) fn open(book: Book) -> Done {
    let drafts: Vec<(&str, Draft, Rc<dyn Asked>)> = ACTS
        .iter()
        .filter_map(|(key, _)| {
            let kind = kinds::kind(key)?;
            let draft = Draft::new(book.ledger, kind, Texts::default());
            Some((kind.key, draft, Rc::new(draft) as Rc<dyn Asked>))
        })
        .collect();
    let done = Done {
        drafts: drafts.into(),
        kind: RwSignal::new(String::new()),
    };
    let batch = RwSignal::new(String::new());
    keep_batches(book, batch);
    let kind = done.kind;
    hidden(OPEN, move || kind.with(String::is_empty));
    words(HEAD, move || {
        let act = kind.with(|kind| ACTS.iter().find(|(key, _)| key == kind));
        act.map_or_else(String::new, |(_, words)| (*words).to_owned())
    });
    keep(move || {
        kind.with(|kind| {
            for (key, _) in ACTS {
                if let Some(button) = element::<Element>(&[BUTTONS, "-", key].concat()) {
                    let on = if key == kind { "true" } else { "false" };
                    let _ = button.set_attribute("aria-expanded", on);
                }
            }
        });
    });
    let opened = done.clone();
    pressed_in(BUTTONS, move |button| {
        let key = button.get_attribute("data-key").unwrap_or_default();
        if let Some(draft) = opened.of(&key) {
            let begun = draft.texts.with_untracked(|texts| !texts.is_empty());
            if !begun || !batch.with_untracked(String::is_empty) {
                draft.texts.set(begin(book, &key, &batch.get_untracked()));
            }
            opened.kind.set(key);
            // It is taken out of hiding only once this is over, and what is hidden takes no focus.
            if let Some(act) = element::<Element>(OPEN) {
                set_attribute(&act, "hidden", None);
            }
            if let Some(head) = element::<HtmlElement>(HEAD) {
                head.scroll_into_view();
                let _ = head.focus();
            }
        }
    });
    form::open_as(FORM, Rc::new(done.clone()));
    let saved = done.clone();
    pressed(SAVE, move || {
        let draft = saved.of(&saved.kind.get_untracked());
        let Some(id) = draft.and_then(Draft::save) else {
            return;
        };
        book.tell(["Saved: ", &book.line(id)].concat(), vec![id]);
        batch.set(String::new());
        saved.close();
    });
    let closed = done.clone();
    pressed(CLOSE, move || closed.close());
    keep_again(book, &done);
    done
}

/// The batches that are there to be tapped, the latest first.
fn keep_batches(book: Book, batch: RwSignal<String>) {
    inside(BATCHES, move || {
        let (chosen, today) = (batch.get(), book.today());
        book.ledger.read(|record| batches(record, today, &chosen))
    });
    pressed_in(BATCHES, move |button| {
        let key = button.get_attribute("data-key").unwrap_or_default();
        batch.update(|chosen| *chosen = if *chosen == key { String::new() } else { key });
    });
}

fn batches(record: &Record, today: Day, chosen: &str) -> String {
    let ended: Vec<&str> = record
        .between(today.plus(-FAR_BACK), today)
        .filter(|thing| thing.kind == "stage" && thing.text("what") == "ended")
        .map(|thing| thing.text("batch"))
        .collect();
    let mut markup = Markup::new();
    let mut room = MOST_BATCHES;
    for batch in record.of_kind("batch").rev() {
        let id = batch.id.text();
        if ended.contains(&id.as_str()) || room == 0 {
            continue;
        }
        room -= 1;
        let on = if id == chosen { "true" } else { "false" };
        markup.element(
            "button",
            &[
                ("type", "button"),
                ("class", "quiet"),
                ("data-key", &id),
                ("aria-pressed", on),
            ],
            &record.name_of(batch.id),
        );
    }
    markup.done()
}

/// What a form opens with: today, and place and batch of the last of its kind.
fn begin(book: Book, kind: &str, batch: &str) -> Texts {
    let today = book.today_now();
    let mut texts = Texts::of([(DAY, today.iso().as_str())]);
    let Some(table) = kinds::kind(kind) else {
        return texts;
    };
    book.ledger.read(|record| {
        let last = record
            .between(today.plus(-FAR_BACK), today)
            .rev()
            .find(|thing| thing.kind == kind);
        for path in ["place", "batch", "instrument", "what"] {
            let here = last.map_or("", |last| last.text(path));
            let field = table.field(path);
            // What was written in words then may not be so now.
            if field.is_some_and(|field| !matches!(field.takes, Takes::Text)) && kind != "stage" {
                texts.set(path, here);
            }
        }
    });
    if !batch.is_empty() && table.field("batch").is_some() {
        texts.set("batch", batch);
    }
    texts
}

/// One tap enters again what was done yesterday.
fn keep_again(book: Book, done: &Done) {
    let kind = done.kind;
    words(AGAIN, move || told_again(book, &kind.get()));
    let closed = done.clone();
    pressed(AGAIN, move || {
        let kind = kind.get_untracked();
        book.add_all(&kind, yesterday(book, &kind));
        closed.close();
    });
}

/// What is entered by that tap, in words; nothing where nothing was done yesterday.
fn told_again(book: Book, kind: &str) -> String {
    let lines: Vec<String> = yesterday(book, kind)
        .into_iter()
        .map(|texts| book.line_of(&Thing::new(Id::LOWEST, kind, texts)))
        .collect();
    if lines.is_empty() {
        return String::new();
    }
    ["Same as yesterday: ", &lines.join("; ")].concat()
}

/// What was done of a kind yesterday, as it would be entered today.
fn yesterday(book: Book, kind: &str) -> Vec<Texts> {
    let today = book.today();
    let mut all = Vec::new();
    book.ledger.read(|record| {
        for thing in record.on(today.plus(-1)) {
            if thing.kind == kind {
                all.push(again(thing, today));
            }
        }
    });
    all
}

/// What was entered, as of another day. Its time, and what was noted then, are not known again.
fn again(thing: &Thing, day: Day) -> Texts {
    let mut texts = (*thing.texts).clone();
    texts.set(DAY, &day.iso());
    texts.set("time", "");
    if thing.kind != "note" {
        texts.set("notes", "");
    }
    texts
}

/// The form that is open answers for all.
impl Asked for Done {
    fn pieces(&self) -> Vec<Piece> {
        self.current()
            .map(|draft| draft.pieces())
            .unwrap_or_default()
    }

    fn entry(&self, path: &str) -> Entry {
        self.current()
            .map(|draft| draft.entry(path))
            .unwrap_or_default()
    }

    fn choice(&self, path: &str) -> String {
        self.current()
            .map(|draft| draft.choice(path))
            .unwrap_or_default()
    }

    fn type_in(&self, path: &str, entry: Entry) {
        if let Some(draft) = self.current() {
            draft.type_in(path, entry);
        }
    }

    fn choose(&self, path: &str, key: &str) {
        if let Some(draft) = self.current() {
            draft.choose(path, key);
        }
    }

    fn add_row(&self, path: &str) {
        if let Some(draft) = self.current() {
            draft.add_row(path);
        }
    }

    fn take_out_row(&self, path: &str, index: usize) {
        if let Some(draft) = self.current() {
            draft.take_out_row(path, index);
        }
    }

    fn problem(&self, path: &str) -> Option<String> {
        self.current().and_then(|draft| draft.problem(path))
    }
}
