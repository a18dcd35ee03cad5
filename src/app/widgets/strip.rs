//! The answer in one line, pinned to the foot of a phone while its card is out of sight.

use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::{IntersectionObserver, IntersectionObserverEntry};

use super::figures::figure_text;
use super::verdict::VerdictMark;
use crate::app::stored::stored;
use crate::reckon::answer::Answer;

/// The strip.
#[component]
pub fn Strip<Detail: Clone + Send + Sync + 'static>(
    /// The answer.
    answer: RwSignal<Option<Answer<Detail>>>,
    /// Whether it is that of an earlier question.
    stale: Signal<bool>,
    /// Id of its card.
    to: &'static str,
) -> impl IntoView {
    let stored = stored();
    let card_in_sight = RwSignal::new(true);
    watch_card(to, card_in_sight);
    let line = move || {
        answer.with(|answer| {
            let answer = answer.as_ref()?;
            let figure = answer.figures.first()?;
            let text = figure_text(figure, stored.unit(figure.name.kind.what).as_deref(), stored.style());
            Some(view! {
                <VerdictMark verdict=answer.judgement.verdict/>
                <strong class="strip-figure">{text.best}</strong>
                <span>{text.span}</span>
                <span class="strip-stale" hidden=move || !stale.get()>"last good"</span>
            })
        })
    };
    let go = move |_| {
        if let Some(card) = document().get_element_by_id(to) {
            card.scroll_into_view();
        }
    };
    view! {
        <button type="button" class="strip" class:stale=move || stale.get() hidden=move || card_in_sight.get() on:click=go>
            {line}
            <span class="sound-only">"Go to the answer"</span>
        </button>
    }
}

/// Watches whether the card can be seen; where the browser cannot tell, the strip stays away.
fn watch_card(to: &'static str, card_in_sight: RwSignal<bool>) {
    Effect::new(move |_| {
        let Some(card) = document().get_element_by_id(to) else { return };
        let seen = Closure::<dyn FnMut(js_sys::Array)>::new(move |entries: js_sys::Array| {
            if let Ok(entry) = entries.get(entries.length().saturating_sub(1)).dyn_into::<IntersectionObserverEntry>() {
                card_in_sight.set(entry.is_intersecting());
            }
        });
        let Ok(observer) = IntersectionObserver::new(seen.as_ref().unchecked_ref()) else { return };
        observer.observe(&card);
        let kept = StoredValue::new_local((observer, seen));
        on_cleanup(move || kept.with_value(|(observer, _)| observer.disconnect()));
    });
}
