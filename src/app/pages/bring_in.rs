//! Bringing in files: a record, or a thermometer's readings. And taking out: everything, or a log.

use std::cell::RefCell;
use std::rc::Rc;

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Element, File, HtmlElement, HtmlInputElement};

use crate::app::copy_due::room_told;
use crate::app::live::{self, element, heard, inside, keep, meanwhile, pressed_in, target};
use crate::app::markup::Markup;
use crate::app::record::{Ledger, Reading, ledger};
use crate::app::route::Page;
use crate::app::stored::{Stored, stored};
use crate::app::widgets::columns::{self, WIDE};
use crate::app::widgets::things::{said, write_button};
use crate::keep::Settings;
use crate::keep::browser::save_file;
use crate::keep::journal::thermometer::nights::{Import, Wish, import};
use crate::keep::journal::thermometer::{Bad, Found, NotRead, Plan, Sheet, find, guess, sheet};
use crate::keep::journal::{Entry, Journal, Opened, Preview, csv, format, preview, words};
use crate::measure::letters::capitalised;
use crate::nursery::kinds::{self, PLACES};
use crate::nursery::{Id, Record, kind, tell};

/// Ids of what is live on the page.
const FILE: &str = "file";
const IN: &str = "bring-in";
const TOLD: &str = "file-told";
const FOUND: &str = "found";
const UNDO: &str = "undo-file";
const OUT: &str = "out";
const ROOM: &str = "room";

/// A file that was chosen, and what is to be made of it.
#[derive(Clone)]
enum Chosen {
    /// Nothing yet, or a sentence about what was.
    Told(String),
    /// A record.
    Record(Rc<Opened>),
    /// A thermometer's readings.
    Readings(Rc<Readings>),
    /// What was made of it, and the entries that undo it.
    Done(String, Rc<[Id]>, Undoes),
}

/// What the button under a file that was brought in does.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Undoes {
    /// It takes back all that the file has brought.
    File,
    /// It brings that in again.
    Undoing,
}

/// A thermometer's file and how it is read.
#[derive(Clone)]
struct Readings {
    sheet: Rc<Sheet>,
    plan: Plan,
    /// Where the instrument is.
    place: Option<Id>,
    /// Whether each single reading is wanted too.
    each: bool,
}

/// What was chosen, where every ear of the page finds it.
#[derive(Clone)]
struct Desk {
    chosen: Rc<RefCell<Chosen>>,
    /// Goes up whenever it changes.
    changes: RwSignal<u32>,
    /// The id of what the cursor goes back to once the page is written anew; empty for nothing.
    cursor: Rc<RefCell<String>>,
}

impl Desk {
    /// What was chosen; whoever asks is told when it changes.
    fn get(&self) -> Chosen {
        self.changes.track();
        self.chosen.borrow().clone()
    }

    fn set(&self, chosen: Chosen) {
        self.chosen.replace(chosen);
        self.changes.update(|count| *count = count.wrapping_add(1));
    }
}

/// Opens the page.
pub fn open(into: &Element) {
    let mut markup = Markup::new();
    markup
        .element("h1", &[], "Bring in and take out")
        .within("section", &[("id", IN)], &mut |section| {
            section
                .element("h2", &[], "Bring in")
                .within("div", &[("class", "field")], &mut |field| {
                    field
                        .element("label", &[("for", FILE)], "A record of Longtom, or the readings of a thermometer (CSV)")
                        .alone("input", &[("type", "file"), ("id", FILE), ("accept", ".json,.csv,.tsv,.txt,text/*,application/json,*/*")]);
                })
                .element("p", &[("class", "hint")], "Nothing is changed before you have seen what would be.")
                .element("p", &[("id", TOLD), ("role", "status")], "")
                .mark("div", &[("id", FOUND)]);
        })
        .within("section", &[], &mut |section| {
            section
                .element("h2", &[], "Take out")
                .element("p", &[], "One file holds everything. Keep a copy of it elsewhere, and bring it in on another device: nothing is doubled.")
                .mark("div", &[("id", OUT), ("class", "outs")]);
        })
        .mark("section", &[("id", ROOM)]);
    into.set_inner_html(&markup.done());
    let (ledger, stored) = (ledger(), stored());
    let chosen = Desk {
        chosen: Rc::new(RefCell::new(Chosen::Told(String::new()))),
        changes: RwSignal::new(0),
        cursor: Rc::default(),
    };
    let [telling, finding, changing, doing, minding] = [(); 5].map(|()| chosen.clone());
    heard(FILE, "change", move |event| {
        let Some(input) = target::<HtmlInputElement>(&event) else {
            return;
        };
        let Some(file) = input.files().and_then(|files| files.get(0)) else {
            return;
        };
        chosen.set(Chosen::Told("Reading the file …".to_owned()));
        let chosen = chosen.clone();
        meanwhile(async move {
            let read = read(&file).await;
            // So that the same file can be chosen again.
            input.set_value("");
            chosen.set(read.unwrap_or_else(Chosen::Told));
        });
    });
    live::words(TOLD, move || match telling.get() {
        Chosen::Told(sentence) | Chosen::Done(sentence, ..) => sentence,
        _ => "The file has been read.".to_owned(),
    });
    inside(FOUND, move || match &finding.get() {
        Chosen::Told(_) => String::new(),
        Chosen::Done(_, ids, undoes) => undo_written(ids, *undoes),
        Chosen::Record(opened) => {
            if ledger.reading.get() != Reading::Whole {
                return "<p>The record is still being read …</p>".to_owned();
            }
            ledger.read_all(|journal, present| {
                let preview = preview(journal, present, &opened.journal);
                if preview.new == 0 {
                    return nothing_new(journal.undoings_of(&opened.journal).len());
                }
                what_would_change(&preview, &present.record, opened)
            })
        }
        Chosen::Readings(readings) => {
            ledger.read_all(|journal, present| readings_written(readings, journal, &present.record))
        }
    });
    heard(FOUND, "change", move |event| {
        let (Some(select), Chosen::Readings(readings)) =
            (target::<Element>(&event), untrack(|| changing.get()))
        else {
            return;
        };
        let mut readings = (*readings).clone();
        // A select has a value as an input has.
        let value = select.unchecked_ref::<HtmlInputElement>().value();
        match select.id().as_str() {
            "place" => readings.place = Id::read(&value),
            "each" => readings.each = !value.is_empty(),
            id => columns::change(&mut readings.plan, &readings.sheet, id, &value),
        }
        changing.cursor.replace(select.id());
        changing.set(Chosen::Readings(Rc::new(readings)));
    });
    // After the choices have been written anew.
    keep(move || {
        minding.changes.track();
        let id = minding.cursor.take();
        if let Some(again) = element::<HtmlElement>(&id) {
            let _ = again.focus();
        }
    });
    pressed_in(FOUND, move |_| {
        let (told, ids, undoes) = match untrack(|| doing.get()) {
            Chosen::Told(_) => return,
            Chosen::Record(opened) => take_in(ledger, &opened),
            Chosen::Readings(readings) => write_in(ledger, &readings),
            Chosen::Done(_, ids, undoes) => take_back(ledger, &ids, undoes),
        };
        doing.cursor.replace(UNDO.to_owned());
        doing.set(Chosen::Done(told, ids.into(), undoes));
    });
    inside(OUT, move || {
        let whole = ledger.reading.get() == Reading::Whole;
        ledger.read(|record| outs(record, whole))
    });
    let copied = RwSignal::new(false);
    pressed_in(OUT, move |button| {
        let key = button.get_attribute("data-key").unwrap_or_default();
        if take_out(ledger, stored, &key) && key.is_empty() {
            ledger.copied();
            copied.set(true);
        }
    });
    keep_room(ledger, copied);
}

/// Reads a file, and finds out what it is.
async fn read(file: &File) -> Result<Chosen, String> {
    // What is longer than either may be is not even read.
    if file.size() > sheet::MOST_BYTES as f64 {
        return Err(NotRead::TooLong.to_string());
    }
    let buffer = JsFuture::from(file.array_buffer()).await;
    let buffer = buffer.map_err(|_| {
        "The browser could not read this file. Copy it onto this device and choose it there."
            .to_owned()
    })?;
    let bytes = js_sys::Uint8Array::new(&buffer).to_vec();
    let begins = bytes.iter().find(|byte| {
        // Behind the mark of the byte order.
        !byte.is_ascii_whitespace() && !matches!(**byte, 0xEF | 0xBB | 0xBF)
    });
    let is_json = matches!(begins, Some(b'{' | b'[')) || file.name().ends_with(".json");
    if is_json {
        let text = String::from_utf8(bytes)
            .map_err(|_| words::refused(format::Refused::NotJson).to_owned())?;
        let opened = format::open(&text).map_err(|why| why.to_string())?;
        return Ok(Chosen::Record(Rc::new(opened)));
    }
    let sheet = Sheet::read(&bytes).map_err(|why| why.to_string())?;
    let plan = guess::guess(&sheet).map_err(|why| why.to_string())?;
    Ok(Chosen::Readings(Rc::new(Readings {
        sheet: Rc::new(sheet),
        plan,
        place: None,
        each: false,
    })))
}

/// The most lines that are told of anything in a file.
const MOST_TOLD: usize = 12;

/// "3 of this": the number, then the one or the many.
fn counted(number: usize, one: &str, many: &str) -> String {
    [
        &*number.to_string(),
        " ",
        if number == 1 { one } else { many },
    ]
    .concat()
}

/// Of a record that is here already, and of which so many entries were undone here.
fn nothing_new(undone: usize) -> String {
    let mut markup = Markup::new();
    let mut sentence = "Everything in this file is here already. Nothing would change.".to_owned();
    if undone > 0 {
        let many = counted(undone, "step was", "steps were");
        sentence = [
            "Everything in this file is here already, and ",
            &many,
            " undone here.",
        ]
        .concat();
    }
    markup.element("p", &[], &sentence);
    if undone > 0 {
        markup.element("button", &[("type", "button")], AGAIN);
    }
    markup.done()
}

/// What taking in a record would change.
fn what_would_change(preview: &Preview, before: &Record, opened: &Opened) -> String {
    let mut markup = Markup::new();
    let after = &preview.present.record;
    markup.element("h3", &[], "What this record would change");
    let sentence = [
        &counted(preview.new, "entry is", "entries are"),
        " new, ",
        &preview.known.to_string(),
        " here already.",
    ];
    markup.element("p", &[], &sentence.concat());
    for (what, ids) in [
        ("Added", &preview.added),
        ("Taken out of the record", &preview.withdrawn),
        ("Brought back", &preview.restored),
    ] {
        if ids.is_empty() {
            continue;
        }
        let head = [what, " (", &ids.len().to_string(), ")"].concat();
        markup.element("h4", &[], &head);
        let things = ids.iter().filter_map(|id| after.get(*id));
        write_list_unlinked(&mut markup, after, &mut things.take(MOST_TOLD));
        write_more(&mut markup, ids.len());
    }
    if !preview.changed.is_empty() {
        let heads = ["What", "Now", "Then"];
        markup.within("div", WIDE, &mut |wide| {
            wide.table("", "Changed", &heads, &mut |rows| {
                for change in preview.changed.iter().take(MOST_TOLD) {
                    let thing = after.get(change.thing);
                    let table = thing.and_then(|thing| thing.table());
                    let name = [
                        &before.name_of(change.thing),
                        ", ",
                        &tell::label(table, &change.field),
                    ];
                    let field = table.and_then(|kind| kind.field(&change.field));
                    let told = |text: &str| match field {
                        Some(field) if !text.is_empty() => said(after, field, text),
                        _ => text.to_owned(),
                    };
                    rows.row(
                        &name.concat(),
                        &[&told(&change.before), &told(&change.after)],
                    );
                }
            });
        });
        write_more(&mut markup, preview.changed.len());
    }
    if !preview.clashes.is_empty() {
        let clashes = counted(
            preview.clashes.len(),
            "field was changed on both devices. Both sides are kept, and you choose.",
            "fields were changed on both devices. Both sides are kept, and you choose.",
        );
        markup.element("p", &[], &clashes);
    }
    let strange = opened.report.in_part.len() + opened.report.no_entries.len();
    if strange > 0 {
        let sentence = counted(
            strange,
            "entry is not understood by this version. It is kept as it is.",
            "entries are not understood by this version. They are kept as they are.",
        );
        markup.element("p", &[], &sentence);
    }
    markup.element("button", &[("type", "button")], "Take it in");
    markup.done()
}

fn write_list_unlinked(
    markup: &mut Markup,
    record: &Record,
    things: &mut dyn Iterator<Item = &crate::nursery::Thing>,
) {
    markup.within("ul", &[("class", "told")], &mut |list| {
        for thing in &mut *things {
            let what = thing.table().map_or(&*thing.kind, |kind| kind.name);
            let name = record.name_of(thing.id);
            let words = if thing.own_name().is_empty() {
                name
            } else {
                [&name, " (", what, ")"].concat()
            };
            list.element("li", &[], &words);
        }
    });
}

fn write_more(markup: &mut Markup, all: usize) {
    if all > MOST_TOLD {
        let more = (all - MOST_TOLD).to_string();
        markup.element(
            "p",
            &[("class", "hint")],
            &["And ", &more, " more."].concat(),
        );
    }
}

/// What is told of a deed, the entries it has written, and what undoes them.
type Deed = (String, Vec<Id>, Undoes);

const AGAIN: &str = "Bring it in again";

/// The button that takes back all that a file has brought, or brings it in again.
fn undo_written(ids: &[Id], undoes: Undoes) -> String {
    let mut markup = Markup::new();
    if !ids.is_empty() {
        let words = match undoes {
            Undoes::File => "Undo all of it",
            Undoes::Undoing => AGAIN,
        };
        let button = [("type", "button"), ("class", "quiet"), ("id", UNDO)];
        markup.element("button", &button, words);
    }
    markup.done()
}

fn take_back(ledger: Ledger, ids: &[Id], undoes: Undoes) -> Deed {
    let undone = ledger.undo_all(ids);
    match undoes {
        Undoes::File => (
            "All that the file has brought is undone. What was here before is as it was."
                .to_owned(),
            undone,
            Undoes::Undoing,
        ),
        Undoes::Undoing => (
            "All that the file has brought counts again.".to_owned(),
            undone,
            Undoes::File,
        ),
    }
}

fn take_in(ledger: Ledger, opened: &Opened) -> Deed {
    let known = ledger.read_all(|_, present| present.clashes.clone());
    let brought = ledger.bring_in(&opened.journal);
    if brought.is_empty() {
        let undone = ledger.read_all(|journal, _| journal.undoings_of(&opened.journal));
        return take_back(ledger, &undone, Undoes::Undoing);
    }
    let clashes = ledger.read_all(|_, present| {
        present.clashes.iter().any(|(thing, clashes)| {
            let known = known.get(thing);
            clashes
                .iter()
                .any(|clash| !known.is_some_and(|known| known.contains(clash)))
        })
    });
    let mut told = counted(
        brought.len(),
        "entry was taken in.",
        "entries were taken in.",
    );
    if clashes {
        told.push_str(" The nursery page says where two devices differ.");
    }
    (told, brought, Undoes::File)
}

/// What was found, and what it would come to.
fn found_in(readings: &Readings) -> Found {
    find(&readings.sheet, &readings.plan)
}

fn import_of(readings: &Readings, found: &Found, journal: &Journal, record: &Record) -> Import {
    // Counted before a place is chosen too, as if it were none.
    let wish = Wish {
        place: place_of(readings, record).unwrap_or(Id::LOWEST),
        instrument: None,
        nights: true,
        readings: readings.each,
    };
    import(found, &wish, journal, record)
}

/// The place chosen; the only one where there is but one.
fn place_of(readings: &Readings, record: &Record) -> Option<Id> {
    let chosen = readings.place.filter(|place| record.get(*place).is_some());
    chosen.or_else(|| {
        let mut all = PLACES.iter().flat_map(|kind| record.of_kind(kind));
        let only = all.next()?.id;
        all.next().is_none().then_some(only)
    })
}

fn readings_written(readings: &Readings, journal: &Journal, record: &Record) -> String {
    let found = found_in(readings);
    let import = import_of(readings, &found, journal, record);
    let mut markup = Markup::new();
    markup
        .element("h3", &[], "Readings of a thermometer")
        .element(
            "p",
            &[],
            "This is how the file is read. Change what is not right.",
        );
    columns::write(&mut markup, &readings.plan, &readings.sheet);
    let place = place_of(readings, record);
    let mut places = vec![(String::new(), "choose one".to_owned())];
    for kind in PLACES {
        let things = record.of_kind(kind);
        places.extend(things.map(|thing| (thing.id.text(), record.name_of(thing.id))));
    }
    let chosen = place.map(|place| place.text()).unwrap_or_default();
    columns::write_select(
        &mut markup,
        "place",
        "Where the thermometer is",
        &places,
        &chosen,
    );
    let each = [
        (
            String::new(),
            "minimum and maximum of each night".to_owned(),
        ),
        ("each".to_owned(), "every single reading too".to_owned()),
    ];
    let wanted = if readings.each { "each" } else { "" };
    columns::write_select(&mut markup, "each", "What is written down", &each, wanted);
    markup.element("p", &[("class", "hint")], words::night_rule());

    let days = || found.readings.iter().map(|reading| reading.day);
    if let (Some(first), Some(last)) = (days().min(), days().max()) {
        let sentence = [
            &counted(found.readings.len(), "reading", "readings"),
            " from ",
            &first.told(),
            " to ",
            &last.told(),
            ".",
        ];
        markup.element("p", &[], &sentence.concat());
    }
    write_bad(&mut markup, &import.bad);
    let nights = import
        .entries
        .iter()
        .filter(|entry| is_night(entry))
        .count();
    let singles = import.entries.len() - nights;
    if place.is_none() {
        if places.len() > 1 {
            markup.element("p", &[], "Say where the thermometer is.");
        } else {
            markup.element("p", &[], "Add the house where the thermometer is first.");
            write_button(
                &mut markup,
                "button",
                &Page::Nursery.address(),
                "To the nursery",
            );
        }
    } else if import.entries.is_empty() {
        let sentence = if import.known > 0 {
            "All of it is in the day book already. Nothing is added."
        } else {
            "No whole night was found in this file."
        };
        markup.element("p", &[], sentence);
    } else {
        if import.known > 0 {
            let sentence = counted(
                import.known,
                "is in the day book already and is left out.",
                "are in the day book already and are left out.",
            );
            markup.element("p", &[], &sentence);
        }
        let mut words = ["Write ", &counted(nights, "night", "nights")].concat();
        if singles > 0 {
            words = [&words, " and ", &counted(singles, "reading", "readings")].concat();
        }
        words.push_str(" into the day book");
        markup.element("button", &[("type", "button")], &words);
    }
    markup.done()
}

fn is_night(entry: &Entry) -> bool {
    matches!(&entry.act, crate::keep::journal::Act::Add { kind, .. } if kind == "night")
}

fn write_bad(markup: &mut Markup, bad: &[Bad]) {
    if bad.is_empty() {
        return;
    }
    let title = [
        &counted(bad.len(), "line or night is", "lines or nights are"),
        " left out",
    ];
    markup.within("details", &[("class", "behind")], &mut |details| {
        details.element("summary", &[], &title.concat());
        details.table("", "", &["Line", "Why"], &mut |rows| {
            for bad in bad.iter().take(MOST_TOLD) {
                rows.row(&bad.line.to_string(), &[&bad.why]);
            }
        });
        write_more(details, bad.len());
    });
}

fn write_in(ledger: Ledger, readings: &Readings) -> Deed {
    let found = found_in(readings);
    let import =
        ledger.read_all(|journal, present| import_of(readings, &found, journal, &present.record));
    let told = counted(
        import.entries.len(),
        "entry was written into the day book.",
        "entries were written into the day book.",
    );
    (told, ledger.put(import.entries), Undoes::File)
}

/// What can be taken out.
fn outs(record: &Record, whole: bool) -> String {
    let mut markup = Markup::new();
    if !whole {
        markup.element("p", &[], "The record is still being read …");
        return markup.done();
    }
    let button = |class: &'static str, key: &'static str| {
        [("type", "button"), ("class", class), ("data-key", key)]
    };
    markup.element("button", &button("", ""), "Export the whole record");
    let mut any = false;
    for kind in kinds::all().filter(|kind| kind.is_log) {
        let many = record.of_kind(kind.key).count();
        if many == 0 {
            continue;
        }
        if !any {
            markup.element("h3", &[], "A log as a table (CSV)");
            any = true;
        }
        let words = [&capitalised(kind.plural), " (", &many.to_string(), ")"].concat();
        markup.element("button", &button("quiet", kind.key), &words);
    }
    markup.done()
}

/// Making room, where all of the record shares it: once a copy was taken, the months of a year that are
/// over can be taken off this device, at the second touch.
fn keep_room(ledger: Ledger, copied: RwSignal<bool>) {
    let sure_of = RwSignal::new(String::new());
    inside(ROOM, move || {
        let room = room_told(ledger);
        if room.is_empty() {
            return room;
        }
        let mut markup = Markup::new();
        markup
            .element("h2", &[], "Room on this device")
            .element("p", &[("role", "status")], &room);
        if !copied.get() {
            let words = "Earlier months can be taken off this device. Export the whole record first: that file brings them back.";
            markup.element("p", &[], words);
            return markup.done();
        }
        let mut before = String::new();
        for month in ledger.months_over("") {
            let year = month.split('-').next().unwrap_or_default();
            if before == year {
                continue;
            }
            before = year.to_owned();
            let sure = sure_of.with(|sure| *sure == before);
            let words = if sure {
                ["The file is safe: take ", year, " off"]
            } else {
                ["Take ", year, " off this device"]
            };
            let button = [
                ("type", "button"),
                ("class", "quiet danger"),
                ("data-key", year),
            ];
            markup.element("button", &button, &words.concat());
        }
        markup.done()
    });
    pressed_in(ROOM, move |button| {
        let year = button.get_attribute("data-key").unwrap_or_default();
        if sure_of.get_untracked() != year {
            return sure_of.set(year);
        }
        meanwhile(async move {
            ledger.take_off(&year).await;
            sure_of.set(String::new());
        });
    });
}

/// Takes out everything, or a log; false where the browser does not do it.
fn take_out(ledger: Ledger, stored: Stored, key: &str) -> bool {
    let day = ledger.today().iso();
    let done = match kind(key) {
        None => {
            let text = ledger.read_all(|journal, _| format::text(journal));
            let name = ["longtom-record-", &day, ".json"].concat();
            let saved = save_file(&name, "application/json", &text);
            if saved.is_ok() && ledger.demo.get_untracked().is_none() {
                stored.change_settings(Rc::new(move |settings: &mut Settings| {
                    settings.exported.clone_from(&day);
                }));
            }
            saved
        }
        Some(kind) => {
            let text = ledger.read(|record| csv::table(record, kind));
            let name = [&csv::file_name(kind), "-", &day, ".csv"].concat();
            save_file(&name, "text/csv", &text)
        }
    };
    match done {
        Ok(()) => true,
        Err(problem) => {
            stored.tell(problem.to_string());
            false
        }
    }
}
