//! When a copy of the record is due: all of it lies in one browser, and browsers forget.

use js_sys::Reflect;
use leptos::prelude::*;
use wasm_bindgen::JsValue;

use super::markup::Markup;
use super::record::Ledger;
use super::route::Page;
use super::stored::Stored;
use crate::nursery::Day;
use crate::nursery::day::DAY_MINUTES;

/// A copy is due so many days after the last one, or after the first entry.
const DUE_AFTER_DAYS: i32 = 30;
/// Safari on a tablet or phone clears what a site stores after so many days without a visit, unless
/// the site is on the home screen (WebKit, "Full Third-Party Cookie Blocking and More", 2020).
const SAFARI_CLEARS_AFTER_DAYS: i32 = 7;

/// With room for fewer nights than these it is time to make some: a quarter of a year.
const FEW_NIGHTS: usize = 90;

/// How much room there is, where that is scarce; nothing where it is not.
#[must_use]
pub fn room_told(ledger: Ledger) -> String {
    let nights = ledger.room.get();
    nights.map_or_else(String::new, |nights| {
        let nights = nights.to_string();
        [
            "There is room on this device for about ",
            &nights,
            " more nights’ entries.",
        ]
        .concat()
    })
}

/// What is to be said of copies and room.
#[must_use]
pub fn told(ledger: Ledger, stored: Stored) -> String {
    let due = due(ledger, stored);
    let room = room_told(ledger);
    if room.is_empty() {
        return due;
    }
    let mut markup = Markup::new();
    let few = ledger.room.get().is_some_and(|nights| nights < FEW_NIGHTS);
    let class = if few { "notice" } else { "hint" };
    markup.within("p", &[("class", class)], &mut |line| {
        line.element("span", &[], &room);
        if few {
            let link = [
                ("class", "quiet button"),
                ("href", &Page::BringIn.address() as &str),
            ];
            line.element("a", &link, "Make room");
        }
    });
    due + &markup.done()
}

/// What is to be said of a copy; nothing where none is due.
fn due(ledger: Ledger, stored: Stored) -> String {
    if ledger.demo.get().is_some() {
        return String::new();
    }
    let first = ledger.read_all(|journal, _| journal.entries().next().map(|entry| entry.at));
    let Some(first) = first else {
        return String::new();
    };
    // Minutes since 1970 are fewer days than a day can hold.
    let first = Day::from_number((first / DAY_MINUTES) as i32);
    let copied = Day::from_iso(&stored.settings().exported);
    let since = ledger.today().number() - copied.unwrap_or(first).number();
    let clears = clears_after_a_week();
    let due = if clears {
        copied.is_none() || since >= SAFARI_CLEARS_AFTER_DAYS
    } else {
        since >= DUE_AFTER_DAYS
    };
    if !due {
        return String::new();
    }
    let days = since.to_string() + if since == 1 { " day" } else { " days" };
    let mut sentence = match copied {
        Some(_) => ["The last copy of this record was taken ", &days, " ago."].concat(),
        None => "This record is nowhere but in this browser.".to_owned(),
    };
    if clears {
        sentence.push_str(
            " Safari clears it after seven days without a visit, unless Longtom is on the home screen.",
        );
    }
    let link = [
        ("class", "quiet button"),
        ("href", &Page::BringIn.address() as &str),
    ];
    let mut markup = Markup::new();
    markup.within("p", &[("class", "notice")], &mut |notice| {
        notice
            .element("span", &[], &sentence)
            .element("a", &link, "Take a copy");
    });
    markup.done()
}

/// Whether this is Safari on a tablet or phone, and Longtom is not on its home screen: only there
/// is this property, and then it is false.
fn clears_after_a_week() -> bool {
    let standalone = Reflect::get(&window().navigator(), &JsValue::from_str("standalone"));
    standalone.is_ok_and(|alone| alone.as_bool() == Some(false))
}
