//! What the record brings to the pages that reckon, and what they keep in it.
//!
//! * `of_mix`, `of_bed`, `of_root_zone`, `of_season`, `of_moving_on`: what each page takes, and what it keeps.
//! * `stuff`: pots, materials and mixes as questions take them.
//! * `drain_tests`: drain tests between a question and the record.
//! * [`answered`]: what the page's answer comes to.
//!
//! The pages themselves are other programs'. They meet in the address: the question is read from
//! it, and a changed one is put there as if a link had been followed, which can be taken back.
//! Another page needs what it takes and keeps as [`Asks`], and its line in [`Side::of_page`].

pub mod answered;
mod drain_tests;
mod of_bed;
mod of_mix;
mod of_moving_on;
mod of_root_zone;
mod of_season;
mod stuff;

use std::cell::RefCell;
use std::time::Duration;

use leptos::prelude::*;
use web_sys::{Element, HtmlInputElement};

use crate::app::live::{element, keep, pressed_in};
use crate::app::markup::Markup;
use crate::app::record::Ledger;
use crate::app::route::{self, PAGE, Page, Place};
use crate::keep::address;
use crate::measure::Entry;
use crate::nursery::{Day, Id, Record, Thing};
use crate::reckon::form::{Form, put};
use crate::reckon::mix::{PartAsked, PotAsked};
use crate::reckon::{bed, mix, root_zone};

/// Id of the place that a page which reckons leaves for it.
pub const PLACE: &str = "from-nursery";
const NAME: &str = "kept-name";
const TOLD: &str = "kept-told";

/// What a button does.
const USE: &str = "use";
const USE_ALL: &str = "use-all";
const SAVE: &str = "save";
const ACT: &str = "act";
const UNDO: &str = "undo";

/// A question of parts in a pot that takes from the record and is kept there.
trait Asks: Form + Default {
    /// Its page.
    const PAGE: Page;
    /// The kinds of thing it takes, and the heading over each.
    const TAKES: &'static [(&'static str, &'static str)];
    /// What the name is for.
    const KEEPS: &'static str;

    /// Its parts.
    fn parts(&mut self) -> &mut Vec<PartAsked>;
    /// Its pot.
    fn pot(&mut self) -> &mut PotAsked;
    /// Takes what a thing says beyond parts and pot; none where it says too little of itself.
    fn take(&mut self, record: &Record, thing: &Thing) -> Option<()>;
    /// Keeps it under a name.
    fn keep(&mut self, ledger: Ledger, name: &str) -> Kept;
}

/// What came of keeping.
struct Kept {
    /// What is to be told.
    told: String,
    /// The entries made, which can be taken back.
    entries: Vec<Id>,
}

impl Kept {
    fn told(sentence: &str) -> Self {
        Self {
            told: sentence.to_owned(),
            entries: Vec::new(),
        }
    }

    fn wait() -> Self {
        Self::told("Wait until the range of the answer is found, then keep it.")
    }

    fn not() -> Self {
        Self::told("It was not kept. Try again.")
    }
}

/// The thing of a kind that is called so.
fn named(ledger: Ledger, kind: &str, name: &str) -> Option<Id> {
    ledger.read(|record| {
        let mut things = record.of_kind(kind);
        things
            .find(|thing| thing.own_name() == name)
            .map(|thing| thing.id)
    })
}

/// Puts a number where a question asks for one there.
fn put_number(question: &mut dyn Form, path: &str, number: Option<Entry>) {
    if let (Some(number), Some(entry)) = (number, question.entry(path)) {
        *entry = number;
    }
}

/// Puts a choice where a question asks for one there.
fn put_choice(question: &mut dyn Form, path: &str, key: Option<&str>) {
    if let (Some(key), Some(choice)) = (key, question.choice(path)) {
        key.clone_into(choice);
    }
}

/// The words of a button, and what it does; false where the record asks nothing.
type Whole = (&'static str, fn(Ledger) -> bool);

/// How a page keeps what it asks.
#[derive(Clone, Copy)]
enum Keeps {
    /// Under a name, which is for this.
    Named(&'static str),
    /// With the thing it is of: the words of its button.
    Alone(&'static str),
}

/// What can be written down at once beside the question.
struct Acts {
    /// What it is about.
    heading: String,
    /// The words of each button, with its key.
    buttons: Vec<(&'static str, &'static str)>,
}

/// What belongs to one page.
#[derive(Clone, Copy)]
struct Side {
    takes: &'static [(&'static str, &'static str)],
    /// Which things of these kinds it takes.
    fits: fn(&Record, &Thing, Day) -> bool,
    /// Whether it takes drain tests.
    tests: bool,
    /// What takes all of the record at once, where that is one question: the words of its button, and what it does.
    whole: Option<Whole>,
    keeps: Keeps,
    take: fn(Ledger, Id) -> bool,
    keep: fn(Ledger, &str) -> Kept,
    /// What can be written down at once on a day, and what writes it.
    acts: fn(&Record, Day) -> Option<Acts>,
    act: fn(Ledger, &str) -> Kept,
}

impl Side {
    /// One that takes and keeps nothing.
    const EMPTY: Self = Self {
        takes: &[],
        fits: |_, _, _| true,
        tests: false,
        whole: None,
        keeps: Keeps::Named(""),
        take: |_, _| false,
        keep: |_, _| Kept::not(),
        acts: |_, _| None,
        act: |_, _| Kept::not(),
    };

    fn of<Q: Asks>() -> Self {
        Self {
            takes: Q::TAKES,
            tests: true,
            keeps: Keeps::Named(Q::KEEPS),
            take: take::<Q>,
            keep: |ledger, name| asked::<Q>().keep(ledger, name),
            ..Self::EMPTY
        }
    }

    /// The side of a page; none where the record brings nothing to it.
    fn of_page(page: Page) -> Option<Self> {
        match page {
            Page::Mix => Some(Self::of::<mix::Question>()),
            Page::Bed => Some(Self::of::<bed::Question>()),
            Page::RootZone => Some(Self::of::<root_zone::Question>()),
            Page::Season => Some(of_season::SIDE),
            Page::MovingOn => Some(of_moving_on::SIDE),
            _ => None,
        }
    }
}

thread_local! {
    /// The entries that were last kept, until they are taken back.
    static LAST: RefCell<Vec<Id>> = const { RefCell::new(Vec::new()) };
}

/// Keeps the place filled whenever a page that takes from the record is open.
pub fn open(ledger: Ledger, place: ReadSignal<Place>) {
    keep(move || {
        let page = place.get().page;
        let Some(side) = Side::of_page(page) else {
            return;
        };
        let written = ledger.read(|record| written(side, record, ledger.today()));
        request_animation_frame(move || fill(written, (page, place), MOST_WAITS));
    });
    pressed_in(PAGE, move |button| {
        let of = |name| button.get_attribute(name).unwrap_or_default();
        let inside = button.closest(&["#", PLACE].concat());
        if inside.ok().flatten().is_none() {
            return;
        }
        let Some(side) = Side::of_page(place.get_untracked().page) else {
            return;
        };
        match of("data-do").as_str() {
            USE => {
                if let Some(id) = Id::read(&of("data-key")) {
                    use_it(ledger, side, id);
                }
            }
            USE_ALL if side.whole.is_some_and(|(_, take)| !take(ledger)) => {
                let sentence = "The record asks nothing of this yet. Add a bay, a plan or a batch under Nursery.";
                tell(sentence.to_owned(), false);
            }
            SAVE => save(ledger, side),
            ACT => done((side.act)(ledger, &of("data-key"))),
            UNDO => {
                let entries = LAST.take();
                ledger.undo_all(&entries);
                tell("Taken back.".to_owned(), false);
            }
            _ => {}
        }
    });
}

/// The page's own program may still be fetched: its place is looked for so often, so far apart.
const MOST_WAITS: u32 = 300;
const WAIT: Duration = Duration::from_millis(100);

/// Fills the place, once it is there and as long as its page is.
fn fill(written: String, (page, place): (Page, ReadSignal<Place>), waits: u32) {
    if place.get_untracked().page != page {
        return;
    }
    let Some(here) = element::<Element>(PLACE) else {
        if waits > 0 {
            set_timeout(move || fill(written, (page, place), waits - 1), WAIT);
        }
        return;
    };
    // What is being typed there stays.
    let typed = name_typed();
    here.set_inner_html(&written);
    if let (Some(typed), Some(input)) = (typed, element::<HtmlInputElement>(NAME)) {
        input.set_value(&typed);
    }
}

/// What stands in the field for the name, where it is there.
fn name_typed() -> Option<String> {
    element::<HtmlInputElement>(NAME).map(|input| input.value())
}

fn written(side: Side, record: &Record, today: Day) -> String {
    let mut markup = Markup::new();
    markup.element("h2", &[], "From your nursery");
    if let Some((words, _)) = side.whole {
        let button = [("type", "button"), ("class", "quiet"), ("data-do", USE_ALL)];
        markup.within("p", &[("class", "takeaway")], &mut |line| {
            line.element("button", &button, words);
        });
    }
    for (kind, heading) in side.takes {
        let things = record.of_kind(kind);
        let things = things.filter(|thing| (side.fits)(record, thing, today));
        let named = things.map(|thing| (thing, record.name_of(thing.id)));
        write_things(&mut markup, heading, &named.collect::<Vec<_>>());
    }
    if side.tests {
        let tests = drain_tests::listed(record);
        write_things(&mut markup, "Your drain tests", &tests);
    }
    if let Some(acts) = (side.acts)(record, today) {
        write_acts(&mut markup, &acts);
    }
    let words = match side.keeps {
        Keeps::Alone(words) => words,
        Keeps::Named(keeps) => {
            write_name(&mut markup, keeps);
            "Keep it in the record"
        }
    };
    let button = [("type", "button"), ("data-do", SAVE)];
    let undo = [
        ("type", "button"),
        ("class", "quiet"),
        ("data-do", UNDO),
        ("hidden", ""),
    ];
    markup.within("p", &[("class", "takeaway")], &mut |line| {
        line.element("button", &button, words)
            .element("button", &undo, "Undo")
            .element("span", &[("id", TOLD), ("role", "status")], "");
    });
    markup.done()
}

fn write_name(markup: &mut Markup, keeps: &str) {
    markup.within("div", &[("class", "field")], &mut |field| {
        field.element("label", &[("for", NAME)], keeps).alone(
            "input",
            &[
                ("id", NAME),
                ("type", "text"),
                ("autocomplete", "off"),
                ("maxlength", "60"),
                ("aria-describedby", TOLD),
            ],
        );
    });
}

fn write_acts(markup: &mut Markup, acts: &Acts) {
    markup.element("h3", &[], &acts.heading);
    markup.within("p", &[("class", "takeaway")], &mut |line| {
        for (key, words) in &acts.buttons {
            let button = [
                ("type", "button"),
                ("class", "quiet"),
                ("data-do", ACT),
                ("data-key", *key),
            ];
            line.element("button", &button, words);
        }
    });
}

/// Buttons of the things of one kind, which are nothing where there are none.
fn write_things(markup: &mut Markup, heading: &str, things: &[(&Thing, String)]) {
    if things.is_empty() {
        return;
    }
    markup.element("h3", &[], heading);
    markup.within("p", &[("class", "takeaway")], &mut |line| {
        for (thing, name) in things {
            let id = thing.id.text();
            let button = [
                ("type", "button"),
                ("class", "quiet"),
                ("data-do", USE),
                ("data-key", &id as &str),
            ];
            line.element("button", &button, name);
        }
    });
}

/// The question of the page, as its address has it.
fn asked<Q: Form + Default>() -> Q {
    let mut question = Q::default();
    if let Some(texts) = address::read(&Place::here().question) {
        put(&mut question, &texts);
    }
    question
}

/// Puts a thing of the record into the question; false where it says too little of itself.
fn take<Q: Asks>(ledger: Ledger, id: Id) -> bool {
    let mut question = asked::<Q>();
    let fits = ledger.read(|record| {
        let thing = record.get(id)?;
        match thing.kind.as_ref() {
            "pot" => *question.pot() = stuff::pot_asked(record, &id.text())?,
            "material" => stuff::take_material(question.parts(), record, &id.text())?,
            "test" => drain_tests::take(question.parts(), record, thing)?,
            "mix" => {
                *question.parts() = stuff::parts_of_mix(record, thing)?;
                if !thing.text("pot").is_empty() {
                    *question.pot() = stuff::pot_asked(record, thing.text("pot"))?;
                }
                question.take(record, thing)?;
            }
            _ => question.take(record, thing)?,
        }
        Some(())
    });
    if fits.is_some() {
        route::go(&route::asked(Q::PAGE, &mut question));
    }
    fits.is_some()
}

fn use_it(ledger: Ledger, side: Side, id: Id) {
    if !(side.take)(ledger, id) {
        tell(
            "That does not say enough of itself yet. Open it under Nursery, and say what it is like."
                .to_owned(),
            false,
        );
        return;
    }
    // What comes of it is most likely kept with the tray or the bay that was taken.
    let tray = ledger.read(|record| {
        let places = ["tray", "bay"];
        let tray = record
            .get(id)
            .filter(|thing| places.contains(&thing.kind.as_ref()))?;
        Some(tray.own_name().to_owned())
    });
    if let (Some(tray), Some(input)) = (tray, element::<HtmlInputElement>(NAME)) {
        input.set_value(&tray);
    }
}

/// Keeps the question under the name that is typed, and tells what came of it.
fn save(ledger: Ledger, side: Side) {
    let name = name_typed().unwrap_or_default();
    let name = name.trim();
    if name.is_empty() && matches!(side.keeps, Keeps::Named(_)) {
        tell("Write a name for it first.".to_owned(), false);
        return;
    }
    done((side.keep)(ledger, name));
}

/// Tells what came of it, and keeps it in mind until it is taken back.
fn done(kept: Kept) {
    let undoes = !kept.entries.is_empty();
    LAST.set(kept.entries);
    tell(kept.told, undoes);
}

fn tell(sentence: String, undoes: bool) {
    // After the place has been written anew, because there is a thing more.
    request_animation_frame(move || {
        request_animation_frame(move || {
            if let Some(line) = element::<Element>(TOLD) {
                line.set_text_content(Some(&sentence));
            }
            let undo = ["#", PLACE, " [data-do=", UNDO, "]"].concat();
            if let Ok(Some(button)) = document().query_selector(&undo) {
                // Nothing hangs on whether an attribute could be set.
                let _ = button.toggle_attribute_with_force("hidden", !undoes);
            }
        });
    });
}
