//! One thing of the record: its form, what hangs on it, what was done to it, and undoing that.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use leptos::prelude::*;
use web_sys::{Element, HtmlElement};

use crate::app::draft::Draft;
use crate::app::live::{
    element, hidden, inside, keep, meanwhile, pressed, pressed_in, set_attribute, words,
};
use crate::app::markup::Markup;
use crate::app::notices;
use crate::app::record::{Ledger, Reading, ledger};
use crate::app::route::{Page, Place, asked, go};
use crate::app::stored::{Stored, stored};
use crate::app::widgets::form as fields;
use crate::app::widgets::things::{
    add_words, address_of, address_of_new, said, said_of, write_button, write_list,
};
use crate::keep::browser::tab;
use crate::keep::journal::explain::history;
use crate::keep::journal::fold::WITHDRAWN;
use crate::keep::journal::{Act, Clash, Journal, Present};
use crate::keep::{address, drafts};
use crate::measure::letters::capitalised;
use crate::nursery::day::{DAY_MINUTES, time_text};
use crate::nursery::kinds::{DAY, NAME, Takes, kind};
use crate::nursery::{Day, Id, Kind, Record, Texts, Thing, tell};
use crate::reckon::form;
use crate::reckon::moving_on::from_record;

/// Ids of what is live on the page.
const BODY: &str = "thing";
const NAME_HERE: &str = "thing-name";
const TOLD: &str = "thing-told";
const CLASHES: &str = "clashes";
const UNSAVED: &str = "unsaved";
const SAVE: &str = "save";
const FORGET: &str = "forget";
const ACTS: &str = "thing-acts";
const ABOUT: &str = "about";
const STORY: &str = "story";
const STEPS: &str = "story-steps";
const OUT: &str = "take-out";
const PAPER: &str = "thing-paper";

/// The document in which unsaved typing is kept.
const DRAFTS: &str = "thing";

/// What was typed and not saved, of whatever thing and in whatever tab, as it was last seen.
type Drafts = Rc<RefCell<form::Texts>>;

/// What the page knows of the thing that it is asked for.
const LOOKING: u32 = 0;
const NOT_HERE: u32 = 1;
const HERE: u32 = 2;

/// What the address asks for.
#[derive(Clone)]
enum Wanted {
    /// A thing of the record.
    Of(Id),
    /// A new one of a kind, with what is known of it.
    New(&'static Kind, Texts),
}

impl Wanted {
    fn read(question: &str) -> Option<Self> {
        let asked = address::read(question)?;
        let of = |name: &str| asked.iter().find(|(path, _)| path == name);
        if let Some((_, id)) = of("id") {
            return Id::read(id).map(Self::Of);
        }
        let kind = kind(&of("new")?.1)?;
        let known = asked
            .iter()
            .filter(|(path, _)| kind.field(path).is_some())
            .map(|(path, text)| (path.as_str(), text.as_str()));
        Some(Self::New(kind, Texts::of(known)))
    }

    /// Under what its unsaved typing is kept.
    fn key(&self) -> String {
        match self {
            Self::Of(id) => [&id.text(), "/"].concat(),
            Self::New(kind, _) => ["new ", kind.key, "/"].concat(),
        }
    }
}

/// Opens the page.
pub fn open(into: &Element) {
    into.set_inner_html("<div id=\"thing\"><h1>Record</h1></div>");
    let (ledger, stored) = (ledger(), stored());
    let place = expect_context::<ReadSignal<Place>>();
    let Some(wanted) = Wanted::read(&place.get_untracked().question) else {
        return tell_none("This address names nothing that can be written down.");
    };
    // What was typed and not saved, of whatever thing and in whatever tab.
    let drafts = Drafts::default();
    let (loaded, there) = (RwSignal::new(false), RwSignal::new(LOOKING));
    let begun = Rc::clone(&drafts);
    meanwhile(async move {
        if let Some(last) = stored.last_question(DRAFTS).await {
            begun.replace(last.question);
        }
        loaded.set(true);
    });
    let asked = wanted.clone();
    keep(move || {
        let reading = ledger.reading.get();
        let known = match &asked {
            Wanted::New(..) => reading != Reading::Opening,
            Wanted::Of(id) => ledger.read(|record| record.get(*id).is_some()),
        };
        let state = match (loaded.get(), known) {
            (true, true) => HERE,
            (true, false) if reading == Reading::Whole => NOT_HERE,
            _ => LOOKING,
        };
        if there.get_untracked() != state {
            there.set(state);
        }
    });
    keep(move || match there.get() {
        HERE => untrack(|| write_page(&wanted, &drafts, ledger, stored)),
        NOT_HERE => tell_none(
            "This is not in the record here. Bring in the file of the device that has it.",
        ),
        _ => {}
    });
    on_cleanup(move || stored.save_now());
}

fn tell_none(sentence: &str) {
    if let Some(body) = element::<Element>(BODY) {
        let mut markup = Markup::new();
        markup
            .element("h1", &[], "Record")
            .element("p", &[], sentence);
        write_button(
            &mut markup,
            "button",
            &Page::Nursery.address(),
            "To the nursery",
        );
        body.set_inner_html(&markup.done());
    }
}

fn write_page(wanted: &Wanted, drafts: &Drafts, ledger: Ledger, stored: Stored) {
    let (id, found) = match wanted {
        Wanted::Of(id) => (Some(*id), ledger.read(|record| record.get(*id).cloned())),
        Wanted::New(kind, known) => {
            let mut known = known.clone();
            if kind.is_log && known.get(DAY).is_empty() {
                known.set(DAY, &ledger.today().iso());
            }
            (None, Some(Thing::new(Id::LOWEST, kind.key, known)))
        }
    };
    let (Some(thing), Some(body)) = (found, element::<Element>(BODY)) else {
        return;
    };
    let Some(kind) = thing.table() else {
        return write_unknown(&body, &thing);
    };
    body.set_inner_html(&written(kind, id));
    let draft = match id {
        Some(_) => Draft::of(ledger, kind, &thing),
        None => Draft::new(ledger, kind, (*thing.texts).clone()),
    };
    keep_draft(wanted, &thing, draft, drafts, ledger, stored);
    fields::open(Rc::new(draft));
    if let Some(form) = element::<Element>("question") {
        set_attribute(&form, "aria-label", Some(kind.name));
        // What is written there already is in sight.
        if kind
            .fields
            .iter()
            .skip(AT_ONCE)
            .any(|field| !thing.text(field.key).is_empty())
        {
            open_more(&form);
        }
    }
    words(NAME_HERE, move || match id {
        Some(id) => ledger.read(|record| record.name_of(id)),
        None => add_words(kind),
    });
    if let Some(id) = id {
        keep_thing(id, kind, ledger);
    }
}

/// The fields that a form shows at first.
const AT_ONCE: usize = 9;

fn open_more(form: &Element) {
    if let Ok(Some(more)) = form.query_selector("details") {
        set_attribute(&more, "open", Some(""));
    }
}

fn written(kind: &Kind, id: Option<Id>) -> String {
    let quiet = |id| [("type", "button"), ("class", "quiet"), ("id", id)];
    let mut markup = Markup::new();
    if id.is_some() {
        markup.element("p", &[("class", "kind")], &capitalised(kind.name));
    }
    markup
        .element("h1", &[("id", NAME_HERE)], "")
        .mark("div", &[("id", TOLD), ("role", "status")])
        .mark("div", &[("id", CLASHES)]);
    if id.is_some() {
        markup.mark("div", &[("id", ACTS)]);
    }
    fields::write(&mut markup);
    markup
        .within("p", &[("class", "acts save")], &mut |line| {
            line.element("button", &[("type", "button"), ("id", SAVE)], "Save")
                .element("button", &quiet(FORGET), "Throw away what is not saved");
        })
        .element(
            "p",
            &[("id", UNSAVED), ("class", "hint"), ("role", "status")],
            "Not saved yet. It is kept here as you typed it until you save it.",
        );
    if id.is_some() {
        markup
            .mark("div", &[("id", ABOUT)])
            .within("div", &[("id", STORY)], &mut |story| {
                story.within("details", &[("class", "behind")], &mut |details| {
                    details
                        .element("summary", &[], "How it came to be so")
                        .mark("ol", &[("class", "story"), ("id", STEPS)]);
                });
                story.mark("p", &[("id", OUT)]);
            })
            .mark("div", &[("id", PAPER), ("class", "on-paper")]);
    }
    markup.done()
}

/// A thing of a kind that only a newer version knows: shown as it lies, and left alone.
fn write_unknown(body: &Element, thing: &Thing) {
    let mut markup = Markup::new();
    markup
        .element("h1", &[], &thing.kind)
        .element(
            "p",
            &[],
            "A newer Longtom has written this. It is kept as it is.",
        )
        .table("", "", &["Field", "What stands there"], &mut |rows| {
            for (path, text) in thing.texts.iter() {
                rows.row(path, &[text]);
            }
        });
    body.set_inner_html(&markup.done());
}

/// Keeps what is typed until it is saved, and saves it.
fn keep_draft(
    wanted: &Wanted,
    thing: &Thing,
    draft: Draft,
    drafts: &Drafts,
    ledger: Ledger,
    stored: Stored,
) {
    let (form, tab) = (wanted.key(), tab());
    let key = drafts::key(&tab, &form);
    let begun = {
        let all = drafts.borrow();
        let found = drafts::find(&all, &tab, &form);
        found.map(|found| (found.to_owned(), drafts::texts(&all, found)))
    };
    let base = RwSignal::new((*thing.texts).clone());
    let done = Rc::new(Cell::new(false));
    let saved = Rc::clone(&done);
    let mut taken_up = String::new();
    let begun_here = begun.is_some();
    if let Some((found, begun)) = begun {
        draft.texts.set(begun);
        taken_up = found;
    }
    let drafts = Rc::clone(drafts);
    let store = Rc::new(move |texts: Option<Texts>| {
        let (key, taken_up) = (key.clone(), taken_up.clone());
        let change = move |all: &form::Texts| drafts::with(all, &key, &taken_up, texts.as_ref());
        // Whatever another tab has stored meanwhile stays; where nothing changes, nothing is written.
        let now = change(&drafts.borrow());
        drafts.replace(now);
        stored.change_question(
            DRAFTS,
            Rc::new(move |last| last.question = change(&last.question)),
        );
    });
    if let Wanted::Of(id) = *wanted {
        // What changes in the record under the form comes in where nothing else was typed.
        keep(move || {
            let Some(now) = ledger.read(|record| Some((*record.get(id)?.texts).clone())) else {
                return;
            };
            let before = base.get_untracked();
            if now == before {
                return;
            }
            draft.texts.update(|texts| {
                let paths: Vec<&str> = before.iter().chain(now.iter()).map(|pair| pair.0).collect();
                for path in paths {
                    if texts.get(path) == before.get(path) {
                        texts.set(path, now.get(path));
                    }
                }
            });
            base.set(now);
        });
    }
    let dirty = move || draft.texts.with(|texts| base.with(|base| texts != base));
    hidden(UNSAVED, move || !dirty());
    hidden(FORGET, move || !dirty());
    let typed = Rc::clone(&store);
    let known = Cell::new(begun_here);
    keep(move || {
        // Another tab may have taken up what was typed here, and be done with it.
        ledger.drafts.track();
        let texts = draft.texts.get();
        let dirty = base.with(|base| texts != *base);
        if !saved.get() && ledger.demo.get_untracked().is_none() && (dirty || known.get()) {
            known.set(dirty);
            typed(dirty.then_some(texts));
        }
    });
    pressed(FORGET, move || draft.texts.set(base.get_untracked()));
    pressed(SAVE, move || match draft.save() {
        Some(id) => {
            done.set(true);
            if ledger.demo.get_untracked().is_none() {
                store(None);
            }
            stored.save_now();
            go(&after(ledger, id));
        }
        None => show_wrong(),
    });
}

/// Where it goes on once a thing is saved: what is written of a batch goes back to the batch.
fn after(ledger: Ledger, id: Id) -> String {
    ledger.read(|record| match record.get(id) {
        Some(thing) if thing.is_log() => match thing.one("batch") {
            Some(batch) => address_of(batch),
            None if thing.kind == "stock" || thing.kind == "test" => Page::Nursery.address(),
            None => Page::DayBook.address(),
        },
        _ => Page::Nursery.address(),
    })
}

/// Takes the cursor to the first field that makes no sense yet.
fn show_wrong() {
    let Some(form) = element::<Element>("question") else {
        return;
    };
    // The sentences are put in once the signals have settled.
    set_timeout(
        move || {
            let wrong = form.query_selector("[data-wrong]").ok().flatten();
            let Some(wrong) = wrong else { return };
            if wrong.closest("details").ok().flatten().is_some() {
                open_more(&form);
            }
            let input = wrong.query_selector("input, textarea, select, .choice");
            if let Ok(Some(input)) = input
                && let Ok(input) = wasm_bindgen::JsCast::dyn_into::<HtmlElement>(input)
            {
                let _ = input.focus();
            }
        },
        std::time::Duration::ZERO,
    );
}

/// What a button does, and with what.
const DO: &str = "data-do";
const KEY: &str = "data-key";

/// What is live about a thing that is in the record.
fn keep_thing(id: Id, kind: &'static Kind, ledger: Ledger) {
    inside(TOLD, move || {
        let mut markup = Markup::new();
        if ledger.read(|record| record.get(id).is_some_and(|thing| thing.gone)) {
            notices::write(
                &mut markup,
                "This has been taken out of the record. Nothing of it is lost.",
                "Bring it back",
                "restore",
            );
        }
        markup.done()
    });
    pressed_in(TOLD, move |_| {
        ledger.restore(id);
    });
    inside(CLASHES, move || {
        ledger.read_all(|journal, present| clashes(journal, present, id))
    });
    pressed_in(CLASHES, move |button| {
        let field = button.get_attribute(KEY).unwrap_or_default();
        let text = button.get_attribute("data-text").unwrap_or_default();
        if !field.is_empty() {
            ledger.change(id, &[(&field, &text)]);
        } else if text == WITHDRAWN {
            ledger.withdraw(id);
        } else {
            ledger.restore(id);
        }
    });
    inside(ACTS, move || {
        ledger.read(|record| acts(record, id, kind, ledger.today()))
    });
    inside(ABOUT, move || {
        ledger.read(|record| about(record, id, ledger.today()))
    });
    inside(STEPS, move || {
        ledger.read_all(|journal, present| story(journal, present, id))
    });
    inside(OUT, move || {
        let mut markup = Markup::new();
        if ledger.read(|record| record.get(id).is_some_and(|thing| !thing.gone)) {
            let button = [
                ("type", "button"),
                ("class", "quiet danger"),
                (DO, "withdraw"),
            ];
            markup.element("button", &button, "Take out of the record");
        }
        markup.done()
    });
    pressed_in(STORY, move |button| {
        if button.get_attribute(DO).as_deref() == Some("withdraw") {
            ledger.withdraw(id);
        } else if let Some(entry) = button.get_attribute(KEY).and_then(|key| Id::read(&key)) {
            ledger.undo(entry);
        }
    });
    pressed_in(ACTS, |_| {
        let _ = window().print();
    });
    inside(PAPER, move || {
        ledger.read(|record| paper(record, id, kind, ledger.today()))
    });
}

/// What two devices say, and choosing one of it.
fn clashes(journal: &Journal, present: &Present, id: Id) -> String {
    let mut markup = Markup::new();
    let Some(thing) = present.record.get(id) else {
        return markup.done();
    };
    for clash in present.clashes.get(&id).into_iter().flatten() {
        write_clash(&mut markup, journal, &present.record, thing, clash);
    }
    markup.done()
}

fn write_clash(
    markup: &mut Markup,
    journal: &Journal,
    record: &Record,
    thing: &Thing,
    clash: &Clash,
) {
    let field = thing.table().and_then(|kind| kind.field(&clash.field));
    let label = match clash.field.as_str() {
        "" => "One device has taken this out; another has changed it since.".to_owned(),
        path => [
            &tell::label(thing.table(), path),
            ": two devices say different things.",
        ]
        .concat(),
    };
    markup.within("section", &[("class", "odd")], &mut |section| {
        section.element("h2", &[], &label);
        section.within("ul", &[("class", "sides")], &mut |list| {
            for side in &clash.sides {
                let text = match (clash.field.as_str(), side.text.as_str()) {
                    ("", WITHDRAWN) => "Take it out".to_owned(),
                    ("", _) => "Keep it".to_owned(),
                    (_, "") => "nothing".to_owned(),
                    (_, text) => match field {
                        Some(field) => said(record, field, text),
                        None => text.to_owned(),
                    },
                };
                let when = journal.get(side.entry).map(|entry| entry.at);
                let from = [
                    "device ",
                    &side.entry.mark.to_string(),
                    ", ",
                    &when.map(moment).unwrap_or_default(),
                ]
                .concat();
                list.within("li", &[], &mut |row| {
                    row.within("span", &[], &mut |words| {
                        words
                            .element("strong", &[], &text)
                            .text(" ")
                            .element("small", &[], &from);
                    });
                    let button = [
                        ("type", "button"),
                        ("class", "quiet"),
                        (KEY, &*clash.field),
                        ("data-text", &*side.text),
                        ("aria-label", &["Take this one: ", &text].concat()),
                    ];
                    row.element("button", &button, "Take this one");
                });
            }
        });
    });
}

/// What becomes of a batch: what the button says, the kind, and what is known then.
const DONE: [(&str, &str, &str); 10] = [
    ("Up", "stage", "up"),
    ("Pricked out", "stage", "pricked_out"),
    ("Potted on", "stage", "potted_on"),
    ("Moved", "stage", "moved"),
    ("Pinched", "stage", "pinched"),
    ("Lost", "stage", "lost"),
    ("Cut", "cut", ""),
    ("Sold", "sold", ""),
    ("A look at it", "look", ""),
    ("Ended", "stage", "ended"),
];
/// What is added inside a place.
const INSIDE_IT: [(&str, &[&str]); 3] = [
    ("house", &["bay", "instrument", "tray"]),
    ("bay", &["batch", "tray", "instrument"]),
    ("tray", &["batch"]),
];

/// What can be done with a thing at once.
fn acts(record: &Record, id: Id, kind: &Kind, today: Day) -> String {
    let mut markup = Markup::new();
    if record.get(id).is_none_or(|thing| thing.gone) {
        return markup.done();
    }
    let (text, day) = (id.text(), today.iso());
    if kind.key == "batch" {
        markup.element("h2", &[], "What was done today?");
    }
    markup.within("p", &[("class", "acts")], &mut |line| {
        if kind.key == "batch" {
            for (words, log, what) in DONE {
                let known = [("batch", &*text), (DAY, &*day), ("what", what)];
                let known = if what.is_empty() { &known[..2] } else { &known };
                write_button(line, "quiet button", &address_of_new(log, known), words);
            }
            if let Some(mut question) = from_record::of_batch(record, id, today) {
                let address = asked(Page::MovingOn, &mut question);
                write_button(line, "quiet button", &address, "Is it ready to move?");
            }
        }
        let inside = INSIDE_IT.iter().find(|(of, _)| *of == kind.key);
        for inner in inside.iter().flat_map(|(_, kinds)| kinds.iter()) {
            if let Some(inner) = crate::nursery::kind(inner) {
                let known = [("inside", &*text), ("sown", &*day)];
                let address = address_of_new(inner.key, &known);
                write_button(line, "quiet button", &address, &add_words(inner));
            }
        }
        if on_paper(kind) {
            line.element(
                "button",
                &[("type", "button"), ("class", "quiet")],
                "Print a sheet",
            );
        }
    });
    markup.done()
}

fn on_paper(kind: &Kind) -> bool {
    ["batch", "bay", "house", "mix"].contains(&kind.key)
}

/// The most logs that are listed; the day book has them all.
const MOST_LOGS: usize = 12;

/// What hangs on a thing: what stands in it or names it, and the logs about it.
fn about(record: &Record, id: Id, today: Day) -> String {
    let mut markup = Markup::new();
    let mut here: Vec<&Thing> = record
        .standing()
        .filter(|thing| thing.kind != "batch" && thing.links().any(|(_, link)| link == id))
        .collect();
    let at_place = record.get(id).is_some_and(|thing| {
        let places = INSIDE_IT.iter();
        places.map(|(of, _)| *of).any(|of| of == thing.kind)
    });
    if at_place {
        here.extend(record.batches_in(id, today));
    } else {
        let batches = record.of_kind("batch");
        here.extend(batches.filter(|batch| batch.links().any(|(_, link)| link == id)));
    }
    if !here.is_empty() {
        markup.element(
            "h2",
            &[],
            if at_place {
                "What stands in it"
            } else {
                "Where it is used"
            },
        );
        write_list(&mut markup, record, &mut here.into_iter(), Some(id));
    }
    let ever = record.about(id, Day::FIRST_OF_ALL, Day::LAST_OF_ALL);
    let mut logs = ever.rev().peekable();
    if logs.peek().is_some() {
        markup.element("h2", &[], "In the day book");
        write_list(
            &mut markup,
            record,
            &mut logs.by_ref().take(MOST_LOGS),
            Some(id),
        );
        if logs.peek().is_some() {
            let more = ["And ", &logs.count().to_string(), " earlier ones."].concat();
            markup.element("p", &[], &more);
        }
    }
    markup.done()
}

/// A stamp as the clock on this wall would show it.
fn moment(at: u32) -> String {
    // West of Greenwich the offset is above nought; both are small.
    let offset = js_sys::Date::new_0().get_timezone_offset() as i32;
    let local = i64::from(at) - i64::from(offset);
    let day = i64::from(DAY_MINUTES);
    let told = Day::from_number(local.div_euclid(day) as i32).told();
    [&told, ", ", &time_text(local.rem_euclid(day) as u32)].concat()
}

/// How the thing came to be as it is, the latest first, each step with what undoes it.
fn story(journal: &Journal, present: &Present, id: Id) -> String {
    let mut undone: Vec<Id> = Vec::new();
    for entry in present.entries_about(journal, id).rev() {
        if let Act::Undo { entry: target, .. } = entry.act
            && !undone.contains(&entry.id)
        {
            undone.push(target);
        }
    }
    let mut list = Markup::new();
    for step in history(journal, present, id).iter().rev() {
        let entry = journal.get(step.entry);
        let undoes = entry.is_some_and(|entry| matches!(entry.act, Act::Undo { .. }));
        let off = undone.contains(&step.entry);
        list.within("li", &[], &mut |row| {
            let when = [&moment(step.at), ", device ", &step.entry.mark.to_string()];
            row.within("div", &[], &mut |words| {
                words.element("small", &[], &when.concat());
                let tag = if off { "s" } else { "p" };
                for sentence in &step.sentences {
                    words.element(tag, &[], sentence);
                }
            });
            if !off {
                let key = step.entry.text();
                let button = [("type", "button"), ("class", "quiet"), (KEY, &*key)];
                let words = if undoes { "Do it again" } else { "Undo" };
                row.element("button", &button, words);
            }
        });
    }
    list.done()
}

/// Lines to write on by hand.
const EMPTY_LINES: usize = 8;

/// The sheet for the potting shed or the end of the bay.
fn paper(record: &Record, id: Id, kind: &Kind, today: Day) -> String {
    let mut markup = Markup::new();
    let Some(thing) = record.get(id).filter(|_| on_paper(kind)) else {
        return markup.done();
    };
    let caption = [&capitalised(kind.name), ", as of ", &today.told()].concat();
    markup.element("h2", &[], &record.name_of(id));
    markup.table("", &caption, &[], &mut |rows| {
        for field in kind.fields {
            if field.key != NAME && !matches!(field.takes, Takes::Rows(_)) {
                let text = said_of(record, thing, field.key);
                if !text.is_empty() {
                    rows.row(field.label, &[&text]);
                }
            }
        }
    });
    let here = about(record, id, today);
    let table = markup.done();
    let mut markup = Markup::new();
    markup.table(
        "by-hand",
        "By hand",
        &["Day", "What was done", "How many"],
        &mut |rows| {
            for _ in 0..EMPTY_LINES {
                rows.row("\u{a0}", &["", ""]);
            }
        },
    );
    [table, here, markup.done()].concat()
}
