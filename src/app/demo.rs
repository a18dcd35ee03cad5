//! The demo nursery: a record of an invented season, fetched when it is asked for and shown in place
//! of the grower's own, which it never touches.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::Response;

use super::live::meanwhile;
use super::record::Ledger;
use super::stored::Stored;
use crate::keep::journal::format;

/// Where the page says its address is.
const ADDRESS: &str = "data-demo";
const NOT_HERE: &str =
    "The demo nursery is not on this device yet. Open Longtom once with a signal.";

/// Shows it.
pub fn show(ledger: Ledger, stored: Stored) {
    meanwhile(async move {
        let opened = fetched().await.and_then(|text| format::open(&text).ok());
        match opened {
            Some(opened) => ledger.show_demo(opened.journal),
            None => stored.tell(NOT_HERE.to_owned()),
        }
    });
}

async fn fetched() -> Option<String> {
    let address = document().document_element()?.get_attribute(ADDRESS)?;
    let response = JsFuture::from(window().fetch_with_str(&address)).await;
    let response: Response = response.ok()?.dyn_into().ok()?;
    if !response.ok() {
        return None;
    }
    let text = JsFuture::from(response.text().ok()?).await;
    text.ok()?.as_string()
}
