//! The answer in one line, pinned to the foot of a phone while its card is out of sight.

use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::{Element, IntersectionObserver, IntersectionObserverEntry};

use crate::app::live::{attribute, element, hidden, inside, pressed};
use crate::app::markup::Markup;

/// Id of the strip.
const STRIP: &str = "strip";

/// Writes the strip.
pub fn write(markup: &mut Markup) {
    let strip = [
        ("type", "button"),
        ("class", "strip"),
        ("id", STRIP),
        ("hidden", ""),
    ];
    markup.element("button", &strip, "");
}

/// Puts life into it: the answer in one line, whether that is of an earlier question, and the id
/// of its card.
pub fn open(
    card: &'static str,
    line: impl Fn() -> String + Copy + 'static,
    stale: impl Fn() -> bool + 'static,
) {
    let card_in_sight = RwSignal::new(true);
    watch_card(card, card_in_sight);
    inside(STRIP, line);
    hidden(STRIP, move || card_in_sight.get() || line().is_empty());
    attribute(STRIP, "data-stale", move || stale().then(String::new));
    pressed(STRIP, move || {
        if let Some(card) = element::<Element>(card) {
            card.scroll_into_view();
        }
    });
}

/// Watches whether the card can be seen; where the browser cannot tell, the strip stays away.
fn watch_card(card: &str, card_in_sight: RwSignal<bool>) {
    let Some(card) = element::<Element>(card) else {
        return;
    };
    let seen = Closure::<dyn FnMut(js_sys::Array)>::new(move |entries: js_sys::Array| {
        if let Ok(entry) = entries
            .get(entries.length().saturating_sub(1))
            .dyn_into::<IntersectionObserverEntry>()
        {
            card_in_sight.set(entry.is_intersecting());
        }
    });
    let Ok(observer) = IntersectionObserver::new(seen.as_ref().unchecked_ref()) else {
        return;
    };
    observer.observe(&card);
    let kept = StoredValue::new_local((observer, seen));
    on_cleanup(move || kept.with_value(|(observer, _)| observer.disconnect()));
}
