//! Taking an answer away: on paper, or as a link.

use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;

/// Where the browser lets no page write to the clipboard.
const NOT_COPIED: &str = "The link is in the browser's address line. Copy it from there.";

/// Print, and copy the link.
#[component]
pub fn Paper() -> impl IntoView {
    let told = RwSignal::new(String::new());
    let copy = move |_| {
        let Ok(link) = window().location().href() else {
            return;
        };
        // Not to be had on a page that was not loaded securely.
        let clipboard =
            js_sys::Reflect::get(&window().navigator(), &"clipboard".into()).unwrap_or_default();
        if clipboard.is_undefined() {
            told.set(NOT_COPIED.to_owned());
            return;
        }
        spawn_local(async move {
            let copied = JsFuture::from(window().navigator().clipboard().write_text(&link)).await;
            told.set(match copied {
                Ok(_) => "Copied. Whoever opens it sees this question and its answer.".to_owned(),
                Err(_) => NOT_COPIED.to_owned(),
            });
        });
    };
    view! {
        <p class="takeaway">
            <button type="button" class="quiet" on:click=move |_| { let _ = window().print(); }>"Print"</button>
            <button type="button" class="quiet" on:click=copy>"Copy the link"</button>
            <span role="status">{Signal::derive(move || told.get())}</span>
        </p>
    }
}
