//! The shelf over `localStorage`.

use gloo_storage::errors::StorageError;
use gloo_storage::{LocalStorage, Storage};
use wasm_bindgen::{JsCast, JsValue};

use super::in_its_words;
use crate::keep::keys::PREFIX;
use crate::keep::shelf::{Shelf, ShelfProblem};

/// The names under which browsers throw when there is no room: the standard's, and Firefox's own
/// before it.
const FULL: [&str; 2] = ["QuotaExceededError", "NS_ERROR_DOM_QUOTA_REACHED"];

/// The name under which browsers throw when storage is refused.
const REFUSED: &str = "SecurityError";

/// `localStorage`. Texts go through `gloo_storage`, which stores each as a JSON string.
pub struct LocalShelf(());

impl LocalShelf {
    /// Opens it if the browser lets this page have it.
    ///
    /// # Errors
    /// A [`ShelfProblem`] if the browser refuses.
    pub fn open() -> Result<Self, ShelfProblem> {
        storage()?.length().map_err(|thrown| problem(&thrown))?;
        Ok(LocalShelf(()))
    }
}

/// The browser's storage. It is asked for anew each time, and before `gloo_storage` is let near
/// it: that panics where storage is refused, and a permission can be taken back at any moment.
fn storage() -> Result<web_sys::Storage, ShelfProblem> {
    match web_sys::window().map(|window| window.local_storage()) {
        Some(Ok(Some(storage))) => Ok(storage),
        Some(Err(thrown)) => Err(match problem(&thrown) {
            ShelfProblem::Full => ShelfProblem::Full,
            // Whatever it says, there is nothing to be had.
            _ => ShelfProblem::Refused,
        }),
        Some(Ok(None)) | None => Err(ShelfProblem::Refused),
    }
}

pub(super) fn by_name(name: &str, words: impl FnOnce() -> String) -> ShelfProblem {
    if FULL.contains(&name) {
        ShelfProblem::Full
    } else if name == REFUSED {
        ShelfProblem::Refused
    } else {
        ShelfProblem::Other(words())
    }
}

fn problem(thrown: &JsValue) -> ShelfProblem {
    let name = match thrown.dyn_ref::<web_sys::DomException>() {
        Some(exception) => exception.name(),
        None => String::new(),
    };
    by_name(&name, || in_its_words(thrown))
}

impl Shelf for LocalShelf {
    async fn read(&self, key: &str) -> Result<Option<String>, ShelfProblem> {
        // By hand, because `gloo_storage` panics if reading throws, and keeps to itself the very
        // text that is wanted when it is damaged.
        let text = storage()?
            .get_item(key)
            .map_err(|thrown| problem(&thrown))?;
        Ok(text.map(|text| serde_json::from_str(&text).unwrap_or(text)))
    }

    async fn write(&self, key: &str, text: &str) -> Result<(), ShelfProblem> {
        storage()?;
        LocalStorage::set(key, text).map_err(|error| match error {
            StorageError::JsError(error) => by_name(&error.name, || error.message.clone()),
            other => ShelfProblem::Other(other.to_string()),
        })
    }

    async fn remove(&self, key: &str) -> Result<(), ShelfProblem> {
        // By hand, because `gloo_storage` panics if removing throws.
        storage()?
            .remove_item(key)
            .map_err(|thrown| problem(&thrown))
    }

    async fn keys(&self) -> Result<Vec<String>, ShelfProblem> {
        let storage = storage()?;
        let length = storage.length().map_err(|thrown| problem(&thrown))?;
        let mut keys = Vec::new();
        for index in 0..length {
            let key = storage.key(index).map_err(|thrown| problem(&thrown))?;
            keys.extend(key.filter(|key| key.starts_with(PREFIX)));
        }
        keys.sort_unstable();
        Ok(keys)
    }
}
