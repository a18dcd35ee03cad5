//! Which tab this is.

use super::window;

/// Where a tab keeps its name; only this tab sees it, and it is there after a reload.
const NAME: &str = "longtom.tab";

/// The name of this tab, the same after a reload. Where the browser does not let the page keep one, it
/// has another each time.
#[must_use]
pub fn tab() -> String {
    let storage = window()
        .ok()
        .and_then(|window| window.session_storage().ok().flatten());
    if let Some(storage) = &storage
        && let Ok(Some(name)) = storage.get_item(NAME)
    {
        return name;
    }
    // Any number will do that no other tab has.
    let name = ((js_sys::Math::random() * f64::from(u32::MAX)) as u32).to_string();
    if let Some(storage) = &storage {
        let _ = storage.set_item(NAME, &name);
    }
    name
}
