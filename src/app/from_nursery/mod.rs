//! What the record brings to the page of Mix: pots, materials, mixes and drain tests of one's own,
//! and saving the mix that is asked about with its drain tests.
//!
//! The page itself is the first program's. The two meet in the address: the question is read from
//! it, and a changed one is put there as if a link had been followed, which can be taken back.

mod drain_tests;

use leptos::prelude::*;
use web_sys::{Element, HtmlInputElement};

use crate::app::live::{element, keep, pressed_in};
use crate::app::markup::Markup;
use crate::app::record::Ledger;
use crate::app::route::{self, PAGE, Page, Place};
use crate::handbook::pots::pot;
use crate::keep::address;
use crate::measure::{Entry, Length, Volume};
use crate::nursery::vessel::{material_here, pot_here};
use crate::nursery::{Id, Record, Texts, Thing};
use crate::reckon::form::{put, texts};
use crate::reckon::mix::{
    MOST_PARTS, OWN_FIGURES, OWN_ROUND, OWN_SQUARE, OWN_VOLUME, PartAsked, PotAsked, Question,
};

/// Id of the place that the page of Mix leaves for it.
pub const PLACE: &str = "from-nursery";
const NAME: &str = "mix-name";
const TOLD: &str = "mix-told";

/// What a button does.
const USE: &str = "use";
const SAVE: &str = "save";

/// Keeps the place filled whenever the page of Mix is open.
pub fn open(ledger: Ledger, place: ReadSignal<Place>) {
    keep(move || {
        if place.get().page != Page::Mix {
            return;
        }
        let written = ledger.read(written);
        // The first program writes the page in this same turn.
        request_animation_frame(move || {
            let Some(here) = element::<Element>(PLACE) else {
                return;
            };
            // What is being typed there stays.
            let typed = element::<HtmlInputElement>(NAME).map(|input| input.value());
            here.set_inner_html(&written);
            if let (Some(typed), Some(input)) = (typed, element::<HtmlInputElement>(NAME)) {
                input.set_value(&typed);
            }
        });
    });
    pressed_in(PAGE, move |button| {
        let of = |name| button.get_attribute(name).unwrap_or_default();
        if button
            .closest(&["#", PLACE].concat())
            .ok()
            .flatten()
            .is_none()
        {
            return;
        }
        match of("data-do").as_str() {
            USE => {
                if let Some(id) = Id::read(&of("data-key")) {
                    take(ledger, id);
                }
            }
            SAVE => tell(save(ledger)),
            _ => {}
        }
    });
}

fn written(record: &Record) -> String {
    let mut markup = Markup::new();
    let kinds = [
        ("mix", "Your mixes"),
        ("pot", "Your pots"),
        ("material", "Your materials"),
    ];
    markup.element("h2", &[], "From your nursery");
    for (kind, heading) in kinds {
        let things = record.of_kind(kind);
        let named = things.map(|thing| (thing, record.name_of(thing.id)));
        write_things(&mut markup, heading, &named.collect::<Vec<_>>());
    }
    let tests = drain_tests::listed(record);
    write_things(&mut markup, "Your drain tests", &tests);
    let button = [("type", "button"), ("data-do", SAVE)];
    markup
        .within("div", &[("class", "field")], &mut |field| {
            field
                .element("label", &[("for", NAME)], "Keep this mix under the name")
                .alone(
                    "input",
                    &[
                        ("id", NAME),
                        ("type", "text"),
                        ("autocomplete", "off"),
                        ("maxlength", "60"),
                        ("aria-describedby", TOLD),
                    ],
                );
        })
        .within("p", &[("class", "takeaway")], &mut |line| {
            line.element("button", &button, "Keep it in the record")
                .element("span", &[("id", TOLD), ("role", "status")], "");
        });
    markup.done()
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
fn asked() -> Question {
    let mut question = Question::default();
    if let Some(texts) = address::read(&Place::here().question) {
        put(&mut question, &texts);
    }
    question
}

/// Puts a thing of the record into the question.
fn take(ledger: Ledger, id: Id) {
    let mut question = asked();
    let fits = ledger.read(|record| {
        let thing = record.get(id)?;
        match thing.kind.as_ref() {
            "pot" => question.pot = pot_asked(record, &id.text())?,
            "material" => take_material(&mut question, record, &id.text())?,
            "mix" => take_mix(&mut question, record, thing)?,
            "test" => drain_tests::take(&mut question, record, thing)?,
            _ => return None,
        }
        Some(())
    });
    if fits.is_some() {
        let address = address::write(&texts(&mut question));
        route::go(&[&Page::Mix.address(), "?", &address].concat());
    } else {
        tell(
            "That does not say enough of itself yet. Open it under Nursery, and say what it is like."
                .to_owned(),
        );
    }
}

/// A pot of the record or the handbook as the question takes it.
fn pot_asked(record: &Record, text: &str) -> Option<PotAsked> {
    if let Some(usual) = pot(text) {
        return Some(PotAsked {
            size: usual.key.to_owned(),
            ..PotAsked::default()
        });
    }
    let here = pot_here(record, text)?;
    let thing = record.get(Id::read(text)?)?;
    let millimetres = |length: Length| Entry::of(length, &Length::MILLIMETRE);
    let height = here.vessel.height();
    let of_volume = !thing.text("volume").is_empty() && thing.text("rim").is_empty();
    let square = thing.choice("outline") == Some("square");
    Some(PotAsked {
        size: match (of_volume, square) {
            (true, _) => OWN_VOLUME,
            (false, true) => OWN_SQUARE,
            (false, false) => OWN_ROUND,
        }
        .to_owned(),
        rim: millimetres(here.vessel.breadth_at(height)),
        base: millimetres(here.vessel.breadth_at(Length::from_millimetres(0.0))),
        height: millimetres(height),
        volume: Entry::of(here.vessel.volume_to(height), &Volume::LITRE),
        below_rim: millimetres(here.below_rim),
    })
}

/// Adds a part of a material, or gives the part that is reckoned alike all that is known of it.
fn take_material(question: &mut Question, record: &Record, text: &str) -> Option<()> {
    let new = part_asked(record, text, Entry::number(1.0))?;
    let parts = &mut question.parts;
    if let Some(part) = parts.iter_mut().find(|part| part.material == new.material) {
        let amount = part.amount.clone();
        *part = PartAsked { amount, ..new };
        return Some(());
    }
    if parts.len() >= MOST_PARTS {
        return None;
    }
    parts.push(new);
    Some(())
}

/// A material of the record or the handbook as a part, with its bag, price, stock and own figures.
fn part_asked(record: &Record, text: &str, amount: Entry) -> Option<PartAsked> {
    let here = material_here(record, text)?;
    let mut part = PartAsked {
        material: here.like.key.to_owned(),
        amount,
        ..PartAsked::default()
    };
    if let Some(bag) = here.bag {
        part.bag = Entry::of(bag, &Volume::LITRE);
    }
    if let Some(price) = here.price {
        part.price = Entry::number(price);
    }
    if let Some(in_hand) = here.in_hand {
        part.in_hand = Entry::of(in_hand, &Volume::LITRE);
    }
    if let Some(thing) = Id::read(text).and_then(|id| record.get(id)) {
        let own = &mut part.own;
        let figures = [
            ("density", &mut own.density),
            ("pore_space", &mut own.pore_space),
            ("water_at_10_cm", &mut own.water_at_10_cm),
        ];
        for (path, figure) in figures {
            if !thing.text(path).is_empty() {
                *figure = thing.entry(path);
                OWN_FIGURES.clone_into(&mut own.figures);
            }
        }
    }
    Some(part)
}

fn take_mix(question: &mut Question, record: &Record, mix: &Thing) -> Option<()> {
    let rows = mix.rows("parts");
    let part = |row: &&str| {
        let text = |name: &str| mix.text(&["parts.", row, ".", name].concat());
        let amount = Entry::from_stored(text("amount"));
        let mut part = part_asked(record, text("material"), amount)?;
        if !text("bag").is_empty() {
            part.bag = Entry::from_stored(text("bag"));
        }
        Some(part)
    };
    let parts: Option<Vec<PartAsked>> = rows.iter().map(part).collect();
    question.parts = parts.filter(|parts| !parts.is_empty())?;
    if let Some(purpose) = mix.choice("purpose") {
        purpose.clone_into(&mut question.purpose);
    }
    if !mix.text("pot").is_empty() {
        question.pot = pot_asked(record, mix.text("pot"))?;
    }
    Some(())
}

/// Keeps the mix of the question under the name that is typed; gives what is to be told.
fn save(ledger: Ledger) -> String {
    let name = element::<HtmlInputElement>(NAME)
        .map(|input| input.value().trim().to_owned())
        .unwrap_or_default();
    if name.is_empty() {
        return "Write a name for it first.".to_owned();
    }
    let mut question = asked();
    let mut kept = Texts::default()
        .with("name", &name)
        .with("purpose", &question.purpose);
    if pot(&question.pot.size).is_some() {
        kept.set("pot", &question.pot.size);
    }
    for (index, part) in question.parts.iter().enumerate() {
        let at = ["parts.", &index.to_string(), "."].concat();
        kept.set(&[&at, "material"].concat(), &part.material);
        kept.set(&[&at, "amount"].concat(), &part.amount.stored());
        kept.set(&[&at, "bag"].concat(), &part.bag.stored());
    }
    if ledger.add("mix", kept).is_none() {
        return "It was not kept. Try again.".to_owned();
    }
    match drain_tests::keep(ledger, &mut question) {
        0 => "Kept. It stands among your mixes.".to_owned(),
        1 => "Kept among your mixes, and the drain test among your tests.".to_owned(),
        many => format!("Kept among your mixes, and {many} drain tests among your tests."),
    }
}

fn tell(sentence: String) {
    // After the place has been written anew, because there is a mix more.
    request_animation_frame(move || {
        request_animation_frame(move || {
            if let Some(line) = element::<Element>(TOLD) {
                line.set_text_content(Some(&sentence));
            }
        });
    });
}
