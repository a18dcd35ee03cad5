//! A word when the page is about to be hidden, so that what waits to be saved is saved now.

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Document, Event, VisibilityState, Window};

use super::{not_offered, window};
use crate::keep::cabinet::KeepProblem;

/// A tablet may stop a hidden page at any time, and `unload` is then never fired.
const VISIBILITY: &str = "visibilitychange";
/// Leaving the page, also where it is kept for going back.
const PAGE_HIDE: &str = "pagehide";

/// Watches until it is dropped.
#[must_use]
pub struct HidingWatch {
    window: Window,
    document: Document,
    listener: Closure<dyn FnMut(Event)>,
}

/// Calls back when the page is hidden or left. It may call twice for one hiding.
///
/// # Errors
/// A [`KeepProblem`] if the browser does not tell.
pub fn on_hiding(callback: impl Fn() + 'static) -> Result<HidingWatch, KeepProblem> {
    let window = window()?;
    let document = window
        .document()
        .ok_or_else(|| not_offered(&"there is no page".into()))?;
    let page = document.clone();
    let listener = Closure::<dyn FnMut(Event)>::new(move |event: Event| {
        if event.type_() == PAGE_HIDE || page.visibility_state() == VisibilityState::Hidden {
            callback();
        }
    });
    let call = listener.as_ref().unchecked_ref();
    document
        .add_event_listener_with_callback(VISIBILITY, call)
        .and_then(|()| window.add_event_listener_with_callback(PAGE_HIDE, call))
        .map_err(|thrown| not_offered(&thrown))?;
    Ok(HidingWatch {
        window,
        document,
        listener,
    })
}

impl Drop for HidingWatch {
    fn drop(&mut self) {
        let call = self.listener.as_ref().unchecked_ref();
        // Listeners that cannot be taken off go with the page.
        let _ = self
            .document
            .remove_event_listener_with_callback(VISIBILITY, call);
        let _ = self
            .window
            .remove_event_listener_with_callback(PAGE_HIDE, call);
    }
}
