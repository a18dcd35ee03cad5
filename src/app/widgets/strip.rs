//! The answer in one line, pinned to the foot of a phone while its card is out of sight.

use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::{IntersectionObserver, IntersectionObserverEntry};

/// The strip.
#[component]
pub fn Strip(
    /// The answer in one line.
    line: Signal<String>,
    /// Whether it is that of an earlier question.
    stale: Signal<bool>,
    /// Id of its card.
    to: &'static str,
) -> impl IntoView {
    let card_in_sight = RwSignal::new(true);
    watch_card(to, card_in_sight);
    let go = move |_| {
        if let Some(card) = document().get_element_by_id(to) {
            card.scroll_into_view();
        }
    };
    view! {
        <button
            type="button"
            class="strip"
            class:stale=stale
            hidden=Signal::derive(move || card_in_sight.get() || line.with(String::is_empty))
            inner_html=line
            on:click=go
        ></button>
    }
}

/// Watches whether the card can be seen; where the browser cannot tell, the strip stays away.
fn watch_card(to: &'static str, card_in_sight: RwSignal<bool>) {
    Effect::new(move |_| {
        let Some(card) = document().get_element_by_id(to) else {
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
    });
}
