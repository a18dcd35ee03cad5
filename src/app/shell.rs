//! The frame around every page, which stands in `index.html`: places to go, notices, the page.

use leptos::prelude::*;
use web_sys::{Element, HtmlElement};

use super::errands::Errands;
use super::install::Install;
use super::live::{element, heard, inside, keep, pressed_in, set_attribute};
use super::markup::Markup;
use super::pages::{bring_in, day_book, look_up, mix, nursery, reckon, settings, thing};
use super::record::ledger;
use super::route::{self, Page};
use super::stored::Stored;
use super::version::Version;
use crate::keep::{Scheme, TextSize};

/// Ids of the parts of the frame.
const SKIP: &str = "skip";
const PLACES: &str = "places";
const MAIN: &str = "main";
const NOTICES: &str = "notices";
/// Id of what a page is written into.
const PAGE: &str = "page";

/// Puts life into the frame.
pub fn open() {
    let stored = Stored::provide();
    let version = Version::provide(stored);
    Install::provide();
    provide_context(StoredValue::new_local(Errands::start()));
    let place = route::place();
    provide_context(place);
    keep(move || dress_page(stored));
    keep(move || mark_place(place.get().page));
    keep_notices(stored, version);
    heard(SKIP, "click", |event| {
        event.prevent_default();
        focus_main();
    });

    // What is asked of most pages they follow themselves; another thing is another page.
    let page = Memo::new(move |_| {
        stored.ready.get().then(|| {
            let mut place = place.get();
            if place.page != Page::Thing {
                place.question.clear();
            }
            place
        })
    });
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
        Page::Nursery => nursery::open(into),
        Page::Thing => thing::open(into),
        Page::DayBook => day_book::open(into),
        Page::BringIn => bring_in::open(into),
        Page::LookUp => look_up::open(into),
        Page::Settings => settings::open(into),
    }
}

/// The name of a page at the head of the window.
fn title(page: Page) -> &'static str {
    match page {
        Page::Reckon => "Reckon",
        Page::Mix => "Mix",
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
        Page::Mix => Page::Reckon,
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

/// What the button of a notice does.
const CHANGE_OVER: &str = "change over";
const LEAVE_DEMO: &str = "leave demo";

/// Sentences at the head of the page, and what can be done about each.
fn keep_notices(stored: Stored, version: Version) {
    let ledger = ledger();
    inside(NOTICES, move || {
        let mut markup = Markup::new();
        if version.is_waiting() {
            let sentence = "A new version of Longtom is ready on this device.";
            write_notice(&mut markup, sentence, "Change over", CHANGE_OVER);
        }
        if let Some(day) = ledger.demo.get() {
            let sentence = [
                "This is the demo nursery. Nothing of it is stored. It is ",
                &day.told(),
                " there.",
            ]
            .concat();
            write_notice(&mut markup, &sentence, "Leave the demo", LEAVE_DEMO);
        }
        stored.notices.with(|all| {
            for (place, sentence) in all.iter().enumerate() {
                write_notice(&mut markup, sentence, "I have read it", &place.to_string());
            }
        });
        markup.done()
    });
    pressed_in(NOTICES, move |button| {
        let act = button.get_attribute("data-do").unwrap_or_default();
        if act == CHANGE_OVER {
            version.change_over();
        } else if act == LEAVE_DEMO {
            ledger.leave_demo();
            route::go(&Page::Nursery.address());
        } else if let Ok(place) = act.parse::<usize>() {
            stored.notices.update(|all| {
                if place < all.len() {
                    all.remove(place);
                }
            });
        }
    });
}

/// Writes a sentence and the button that answers it.
pub fn write_notice(markup: &mut Markup, sentence: &str, answer: &str, act: &str) {
    let button = [("type", "button"), ("class", "quiet"), ("data-do", act)];
    markup.within("p", &[("class", "notice")], &mut |notice| {
        notice
            .element("span", &[], sentence)
            .element("button", &button, answer);
    });
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
