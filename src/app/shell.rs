//! The frame around every page, which stands in `index.html`: places to go, notices, the page.

use js_sys::{Function, Reflect};
use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, HtmlElement};

use super::errands::Errands;
use super::install::Install;
use super::live::{element, heard, keep, meanwhile, set_attribute};
use super::markup::Markup;
use super::notices;
use super::pages::{mix, reckon, settings};
use super::route::{self, NURSERY, PAGE, Page, Part};
use super::stored::Stored;
use super::version::Version;
use crate::keep::{Scheme, TextSize};

/// Ids of the parts of the frame.
const SKIP: &str = "skip";
const PLACES: &str = "places";
const MAIN: &str = "main";
const NOTICES: &str = "notices";

/// Puts life into the frame.
pub fn open() {
    let stored = Stored::provide();
    let version = Version::provide(stored);
    Install::provide();
    let place = route::place();
    let errands = Errands::asleep();
    // Who opens a page of the record waits for the record, and has no use for the other thread yet.
    let of_record = |part: Part| part.name == NURSERY.name;
    if !place.get_untracked().page.part().is_some_and(of_record) {
        errands.wake();
    }
    provide_context(StoredValue::new_local(errands));
    provide_context(place);
    keep(move || dress_page(stored));
    keep(move || mark_place(place.get().page));
    notices::keep(
        NOTICES,
        stored,
        move |markup| {
            if version.is_waiting() {
                let sentence = "A new version of Longtom is ready on this device.";
                notices::write(markup, sentence, "Change over", "change over");
            }
        },
        move |_| version.change_over(),
    );
    heard(SKIP, "click", |event| {
        event.prevent_default();
        focus_main();
    });

    let page = route::opened(place, stored.ready);
    let before = StoredValue::new(false);
    // What a page has kept and heard ends when the next one takes its place.
    keep(move || {
        let (Some(now), Some(into)) = (page.get(), element::<Element>(PAGE)) else {
            return;
        };
        document().set_title(&[title(now.page), " – Longtom"].concat());
        untrack(|| open_page(now.page, &into));
        // Whoever reads by ear or keyboard is taken to the head of the new page; not on opening.
        if before.get_value() {
            window().scroll_to_with_x_and_y(0.0, 0.0);
            focus_main();
        }
        before.set_value(true);
    });
    // The first answer stands: now there is time for the rest.
    meanwhile(async { send_for(NURSERY, "idle") });
}

fn focus_main() {
    if let Some(main) = element::<HtmlElement>(MAIN) {
        let _ = main.focus();
    }
}

fn open_page(page: Page, into: &Element) {
    match page {
        Page::Reckon => reckon::open(into),
        Page::Mix => mix::open(into),
        Page::Settings => settings::open(into),
        Page::Beside
        | Page::Recipe
        | Page::Rinse
        | Page::Bed
        | Page::RootZone
        | Page::Season
        | Page::MovingOn
        | Page::LookUp
        | Page::Nursery
        | Page::Thing
        | Page::DayBook
        | Page::BringIn => {
            let Some(part) = page.part() else { return };
            let root = document().document_element();
            if root.is_none_or(|root| !root.has_attribute(part.here)) {
                into.set_inner_html(&until_here(title(page)));
                send_for(part, "now");
            }
        }
    }
}

/// What stands on a page of another program until that is here.
fn until_here(title: &str) -> String {
    let mut markup = Markup::new();
    markup.element("h1", &[], title).element(
        "p",
        &[("id", "opening"), ("role", "status")],
        "Opening…",
    );
    markup.done()
}

/// Has another program fetched by the script that has started this one: now, or when the
/// browser is idle and there is a record to read.
fn send_for(part: Part, when: &str) {
    let sent = Reflect::get(&window(), &JsValue::from_str("longtomPart"))
        .ok()
        .and_then(|send| send.dyn_into::<Function>().ok());
    if let Some(send) = sent {
        // It says by itself on the page what stands in the way.
        let (name, when) = (JsValue::from_str(part.name), JsValue::from_str(when));
        let _ = send.call2(&JsValue::UNDEFINED, &name, &when);
    }
}

/// The name of a page at the head of the window.
fn title(page: Page) -> &'static str {
    match page {
        Page::Reckon => "Reckon",
        Page::Mix => "Mix",
        Page::Beside => "Side by side",
        Page::Recipe => "Recipe",
        Page::Rinse => "Rinse",
        Page::Bed => "Bed",
        Page::RootZone => "Root zone",
        Page::Season => "Season",
        Page::MovingOn => "Moving on",
        Page::Nursery => "Nursery",
        Page::Thing => "Record",
        Page::DayBook => "Day book",
        Page::BringIn => "Bring in",
        Page::LookUp => "Look up",
        Page::Settings => "Settings",
    }
}

/// Marks the place where the page is to be found; the reckonings are all behind the first.
fn mark_place(page: Page) {
    let of = match page {
        Page::Mix
        | Page::Beside
        | Page::Recipe
        | Page::Rinse
        | Page::Bed
        | Page::RootZone
        | Page::Season
        | Page::MovingOn => Page::Reckon,
        Page::Thing | Page::BringIn => Page::Nursery,
        other => other,
    };
    let Some(places) = element::<Element>(PLACES) else {
        return;
    };
    let links = places.children();
    for link in (0..links.length()).filter_map(|index| links.item(index)) {
        let here = link.get_attribute("href") == Some(of.address());
        set_attribute(&link, "aria-current", here.then_some("page"));
    }
}

/// Light or dark, and the size of text, on the page's root.
fn dress_page(stored: Stored) {
    let Some(root) = document().document_element() else {
        return;
    };
    let settings = stored.settings();
    let scheme = match settings.scheme {
        Scheme::Auto => None,
        Scheme::Light => Some("light"),
        Scheme::Dark => Some("dark"),
    };
    let text = match settings.text_size {
        TextSize::Normal => None,
        TextSize::Large => Some("large"),
        TextSize::Largest => Some("largest"),
    };
    set_attribute(&root, "data-scheme", scheme);
    set_attribute(&root, "data-text", text);
}
