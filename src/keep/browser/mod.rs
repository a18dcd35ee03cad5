//! The only room that touches a browser's storage, and the little else that keeping needs of a
//! browser: a file to download, a promise to keep what is stored, which tab this is, a word when the
//! page is hidden or another tab has saved.

mod archive;
mod download;
mod hiding;
mod local;
mod persistence;
mod tab;
mod watch;

use wasm_bindgen::{JsCast, JsValue};

use super::cabinet::{Cabinet, KeepProblem, Notice, Why};
use super::shelf::{MemoryShelf, Shelf, ShelfProblem};

pub use archive::{Alone, Asked, MonthArchive, ask_archive, breathe, units_used};
pub use download::save_file;
pub use hiding::{HidingWatch, on_hiding};
pub use local::LocalShelf;
pub use persistence::{Persistence, ask_persistence};
pub use tab::tab;
pub use watch::{Change, StorageWatch, watch};

/// The shelf this page has: the browser's, or one that lasts for this visit.
pub enum AnyShelf {
    /// `localStorage`.
    Local(LocalShelf),
    /// In memory, where the browser refuses.
    Memory(MemoryShelf),
}

impl Shelf for AnyShelf {
    async fn read(&self, key: &str) -> Result<Option<String>, ShelfProblem> {
        match self {
            AnyShelf::Local(shelf) => shelf.read(key).await,
            AnyShelf::Memory(shelf) => shelf.read(key).await,
        }
    }

    async fn write(&self, key: &str, text: &str) -> Result<(), ShelfProblem> {
        match self {
            AnyShelf::Local(shelf) => shelf.write(key, text).await,
            AnyShelf::Memory(shelf) => shelf.write(key, text).await,
        }
    }

    async fn remove(&self, key: &str) -> Result<(), ShelfProblem> {
        match self {
            AnyShelf::Local(shelf) => shelf.remove(key).await,
            AnyShelf::Memory(shelf) => shelf.remove(key).await,
        }
    }

    async fn keys(&self) -> Result<Vec<String>, ShelfProblem> {
        match self {
            AnyShelf::Local(shelf) => shelf.keys().await,
            AnyShelf::Memory(shelf) => shelf.keys().await,
        }
    }
}

/// Opens the cabinet of this device. Where the browser refuses to store anything, the cabinet
/// works in memory and the notice says so.
pub async fn open() -> (Cabinet<AnyShelf>, Option<Notice>) {
    match LocalShelf::open() {
        Ok(shelf) => (Cabinet::new(AnyShelf::Local(shelf)), None),
        Err(problem) => (
            Cabinet::new(AnyShelf::Memory(MemoryShelf::new())),
            Some(Notice::OnlyThisVisit { problem }),
        ),
    }
}

/// What a browser has thrown, in its own words.
fn in_its_words(thrown: &JsValue) -> String {
    if let Some(error) = thrown.dyn_ref::<js_sys::Error>() {
        let words = String::from(error.message());
        if !words.is_empty() {
            return words.trim_end_matches('.').to_owned();
        }
        return String::from(error.name());
    }
    thrown
        .as_string()
        .unwrap_or_else(|| "nothing more".to_owned())
}

/// The problem of something that this browser does not do.
fn not_offered(thrown: &JsValue) -> KeepProblem {
    KeepProblem {
        document: None,
        why: Why::NotOffered(in_its_words(thrown)),
    }
}

/// The window, or the problem that there is none.
fn window() -> Result<web_sys::Window, KeepProblem> {
    web_sys::window().ok_or_else(|| not_offered(&JsValue::from_str("there is no window")))
}
