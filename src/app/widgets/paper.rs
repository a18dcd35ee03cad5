//! Taking an answer away: on paper, or as a link.

use leptos::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::Element;

use crate::app::live::{element, meanwhile, pressed};
use crate::app::markup::Markup;

/// Where the browser lets no page write to the clipboard.
const NOT_COPIED: &str = "The link is in the browser's address line. Copy it from there.";

/// Ids of its parts.
const PRINT: &str = "print";
const COPY: &str = "copy-link";
const TOLD: &str = "copy-told";

/// Print, and copy the link; and what else is done with an answer: ids and words of its buttons.
pub fn write(markup: &mut Markup, more: &[(&str, &str)]) {
    markup.within("p", &[("class", "takeaway")], &mut |line| {
        for (id, words) in [(PRINT, "Print"), (COPY, "Copy the link")]
            .iter()
            .chain(more)
        {
            let button = [("type", "button"), ("class", "quiet"), ("id", *id)];
            line.element("button", &button, words);
        }
        line.element("span", &[("role", "status"), ("id", TOLD)], "");
    });
}

/// Puts life into it.
pub fn open() {
    pressed(PRINT, || {
        let _ = window().print();
    });
    pressed(COPY, || {
        meanwhile(async {
            let told = if copy_link().await.is_some() {
                "Copied. Whoever opens it sees this question and its answer."
            } else {
                NOT_COPIED
            };
            if let Some(line) = element::<Element>(TOLD) {
                line.set_text_content(Some(told));
            }
        });
    });
}

/// Copies the address, where the browser lets the page: not on one that was not loaded securely.
async fn copy_link() -> Option<()> {
    let link = window().location().href().ok()?;
    let navigator = window().navigator();
    let clipboard = js_sys::Reflect::get(&navigator, &"clipboard".into()).ok()?;
    if clipboard.is_undefined() {
        return None;
    }
    JsFuture::from(navigator.clipboard().write_text(&link))
        .await
        .ok()
        .map(drop)
}
