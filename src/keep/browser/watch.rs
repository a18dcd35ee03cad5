//! A word when another tab has saved or taken away a document.

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{StorageEvent, Window};

use super::{not_offered, window};
use crate::keep::cabinet::KeepProblem;
use crate::keep::keys::{DocumentId, PREFIX, read_aside_key, read_slot_key};

/// What another tab has done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// It has saved this document: load it again.
    Document(DocumentId),
    /// It has set a text aside, or discarded one.
    Asides,
    /// It, or the grower in the browser's settings, has cleared everything.
    Cleared,
    /// Another page of the same site has stored or cleared something of its own: they share the
    /// room.
    Foreign,
}

const STORAGE: &str = "storage";

/// Watches until it is dropped.
#[must_use]
pub struct StorageWatch {
    window: Window,
    listener: Closure<dyn FnMut(StorageEvent)>,
}

/// Calls back when another tab has changed what is stored; never for what this tab does.
///
/// # Errors
/// A [`KeepProblem`] if the browser does not tell.
pub fn watch(callback: impl Fn(Change) + 'static) -> Result<StorageWatch, KeepProblem> {
    let window = window()?;
    let listener = Closure::<dyn FnMut(StorageEvent)>::new(move |event: StorageEvent| {
        if let Some(change) = understand(event.key().as_deref()) {
            callback(change);
        }
    });
    window
        .add_event_listener_with_callback(STORAGE, listener.as_ref().unchecked_ref())
        .map_err(|thrown| not_offered(&thrown))?;
    Ok(StorageWatch { window, listener })
}

/// The key of the event is null when everything was cleared (HTML, the storage event).
fn understand(key: Option<&str>) -> Option<Change> {
    let Some(key) = key else {
        return Some(Change::Cleared);
    };
    if !key.starts_with(PREFIX) {
        return Some(Change::Foreign);
    }
    if read_aside_key(key).is_some() {
        return Some(Change::Asides);
    }
    read_slot_key(key).map(|(document, _)| Change::Document(document))
}

impl Drop for StorageWatch {
    fn drop(&mut self) {
        // A listener that cannot be taken off goes with the page.
        let _ = self
            .window
            .remove_event_listener_with_callback(STORAGE, self.listener.as_ref().unchecked_ref());
    }
}
