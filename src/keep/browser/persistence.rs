//! Asking the browser to keep what is stored even when the device runs short of room.

use js_sys::Reflect;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::StorageManager;

/// What the browser answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Persistence {
    /// It keeps what is stored until the grower takes it away.
    Granted,
    /// It may clear it when the device runs short of room.
    NotGranted,
    /// It cannot be asked.
    NotOffered,
}

/// Asks the browser to keep what is stored. Some browsers then ask the grower, so ask after
/// something worth keeping has been entered.
pub async fn ask_persistence() -> Persistence {
    let Some(manager) = manager() else {
        return Persistence::NotOffered;
    };
    let Ok(promise) = manager.persist() else {
        return Persistence::NotOffered;
    };
    match JsFuture::from(promise).await {
        Ok(answer) if answer.is_truthy() => Persistence::Granted,
        Ok(_) => Persistence::NotGranted,
        Err(_) => Persistence::NotOffered,
    }
}

/// The storage manager, if there is one with the question to be asked: there is none on a page
/// that was not loaded securely.
fn manager() -> Option<StorageManager> {
    let navigator = web_sys::window()?.navigator();
    let manager = Reflect::get(&navigator, &JsValue::from_str("storage")).ok()?;
    let persist = Reflect::get(&manager, &JsValue::from_str("persist")).ok()?;
    persist
        .is_function()
        .then(|| manager.unchecked_into::<StorageManager>())
}
