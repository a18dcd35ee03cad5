//! The last page, should the program stop: it says so in plain words, and what is
//! stored can still be taken away as a file.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, Document, Element, HtmlAnchorElement, Url};

use super::words;
use crate::keep::browser::parcel_now;

/// From now on a stop of the program is told on the page.
pub fn stand_by() {
    std::panic::set_hook(Box::new(|stopped| {
        // The program cannot go on, so nothing here may need it: a plain page with a plain link.
        if show(&stopped.to_string()).is_none()
            && let Some(body) = web_sys::window().and_then(|window| window.document()).and_then(|page| page.body())
        {
            body.set_text_content(Some(words::STOPPED));
        }
    }));
}

fn show(stopped: &str) -> Option<()> {
    let page = web_sys::window()?.document()?;
    let place = page.get_element_by_id("app")?;
    place.set_text_content(None);
    let main = child(&page, &place, "main", "")?;
    main.set_class_name("stopped");
    child(&page, &main, "h1", words::STOPPED)?;
    child(&page, &main, "p", words::STOPPED_WHAT_TO_DO)?;
    let now = String::from(js_sys::Date::new_0().to_iso_string());
    match parcel_now(&now) {
        Ok(parcel) => {
            let line = child(&page, &main, "p", "")?;
            let link = child(&page, &line, "a", words::TAKE_EVERYTHING)?.dyn_into::<HtmlAnchorElement>().ok()?;
            link.set_class_name("button");
            link.set_href(&file_of(&parcel)?);
            link.set_download(words::EVERYTHING_FILE);
        }
        Err(problem) => {
            child(&page, &main, "p", &problem.to_string())?;
        }
    }
    let line = child(&page, &main, "p", "")?;
    let again = child(&page, &line, "a", words::OPEN_AGAIN)?.dyn_into::<HtmlAnchorElement>().ok()?;
    again.set_href("./");
    let details = child(&page, &main, "details", "")?;
    child(&page, &details, "summary", words::STOPPED_DETAILS)?;
    child(&page, &details, "pre", stopped)?;
    Some(())
}

fn child(page: &Document, parent: &Element, tag: &str, text: &str) -> Option<Element> {
    let element = page.create_element(tag).ok()?;
    element.set_text_content(Some(text));
    parent.append_child(&element).ok()?;
    Some(element)
}

/// An address under which the browser holds a text as a file, for as long as this page stands.
fn file_of(text: &str) -> Option<String> {
    let kind = BlobPropertyBag::new();
    kind.set_type("application/json");
    let parts = js_sys::Array::of1(&JsValue::from_str(text));
    let blob = Blob::new_with_str_sequence_and_options(&parts, &kind).ok()?;
    Url::create_object_url_with_blob(&blob).ok()
}
