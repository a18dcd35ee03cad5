//! Floor 6: the screens, and the only floor that touches the page.
//!
//! State flows one way: the question is a signal, the answer is derived from it,
//! the page draws the answer. No page computes.
//!
//! * [`shell`]: the frame around every page: name, places to go, notices.
//! * [`route`]: the list of pages and their addresses.
//! * [`stored`]: settings and last questions, from and to what is kept.
//! * [`desk`]: one reckoning on one page: question in, answer and doubt out.
//! * [`errands`]: the other thread that finds the doubt.
//! * [`version`]: stored for use without a signal, and changing over to a new version.
//! * [`install`]: putting it on the home screen.
//! * [`markup`]: parts of a page that are only read.
//! * [`pages`], [`widgets`], [`plots`]: what is seen.
//! * [`words`]: the sentences of the screens.

pub mod desk;
pub mod errands;
pub mod install;
pub mod markup;
pub mod pages;
pub mod plots;
pub mod route;
pub mod shell;
pub mod stored;
pub mod version;
pub mod widgets;
pub mod words;

use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// Opens the application in the element `#app`, in place of what stands there.
pub fn open() {
    let Some(place) = document()
        .get_element_by_id("app")
        .and_then(|element| element.dyn_into::<web_sys::HtmlElement>().ok())
    else {
        return;
    };
    place.set_text_content(None);
    leptos::mount::mount_to(place, shell::Shell).forget();
}
