//! A text handed to the grower as a file.

use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

use super::{not_offered, window};
use crate::keep::cabinet::KeepProblem;

/// How long the browser may take to start the download before the file is let go, ms. Some
/// browsers ask the grower first; nothing is lost but memory by waiting.
const LET_GO_AFTER_MS: i32 = 60_000;

/// Starts the download of a text as a file of this name and media type.
///
/// # Errors
/// A [`KeepProblem`] if the browser does not do it.
pub fn save_file(name: &str, media_type: &str, text: &str) -> Result<(), KeepProblem> {
    start(name, media_type, text).map_err(|thrown| not_offered(&thrown))
}

fn start(name: &str, media_type: &str, text: &str) -> Result<(), JsValue> {
    let none = || JsValue::from_str("there is no page");
    let window = window().map_err(|_| none())?;
    let document = window.document().ok_or_else(none)?;
    let body = document.body().ok_or_else(none)?;

    let options = BlobPropertyBag::new();
    options.set_type(media_type);
    let parts = js_sys::Array::of1(&JsValue::from_str(text));
    let blob = Blob::new_with_str_sequence_and_options(&parts, &options)?;
    let address = Url::create_object_url_with_blob(&blob)?;

    let link: HtmlAnchorElement = document.create_element("a")?.dyn_into()?;
    link.set_href(&address);
    link.set_download(name);
    // Firefox follows a link only while it is in the page.
    body.append_child(&link)?;
    link.click();
    body.remove_child(&link)?;

    let let_go = Closure::once_into_js(move || {
        // If it cannot be let go it goes with the page.
        let _ = Url::revoke_object_url(&address);
    });
    window.set_timeout_with_callback_and_timeout_and_arguments_0(
        let_go.unchecked_ref(),
        LET_GO_AFTER_MS,
    )?;
    Ok(())
}
