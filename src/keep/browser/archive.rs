//! The archive over IndexedDB, through the page's own script `archive.js`, which `starter.js` fetches
//! when it is first wanted.

use js_sys::{Array, Function, Promise, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

use super::in_its_words;
use crate::keep::cabinet::{KeepProblem, Why};
use crate::keep::shelf::ShelfProblem;
use crate::keep::store::{Archive, Filed};

/// Closed months, each as one packed value.
pub struct MonthArchive(());

impl MonthArchive {
    /// Opens it, if the browser has a database and lets this page use it.
    pub async fn open() -> Option<Self> {
        call("names", "", None, None).await.ok().map(|_| Self(()))
    }
}

impl Archive for MonthArchive {
    async fn names(&self) -> Result<Vec<String>, ShelfProblem> {
        let names = call("names", "", None, None).await?;
        let names = names.dyn_into::<Array>().map_err(|other| problem(&other))?;
        Ok(names.iter().filter_map(|name| name.as_string()).collect())
    }

    async fn look(&self, name: &str) -> Result<Option<Filed>, ShelfProblem> {
        let found = call("look", name, None, None).await?.dyn_into::<Array>();
        Ok(found.ok().map(|found| Filed {
            stamp: found.get(0).as_string().unwrap_or_default(),
            text: found.get(1).as_string(),
        }))
    }

    async fn read_many(&self, names: &[String]) -> Vec<Result<Option<String>, ShelfProblem>> {
        let found = call("readMany", &names.join("\n"), None, None).await;
        match found.and_then(|found| found.dyn_into::<Array>().map_err(|other| problem(&other))) {
            Ok(found) => found.iter().map(text_of).collect(),
            Err(problem) => vec![Err(problem); names.len()],
        }
    }

    async fn replace(
        &self,
        name: &str,
        text: &str,
        seen: Option<&str>,
    ) -> Result<bool, ShelfProblem> {
        let replaced = call("replace", name, Some(text), seen).await?;
        Ok(replaced.is_truthy())
    }

    async fn set_aside(&self, name: &str, seen: &str) -> Result<bool, ShelfProblem> {
        let moved = call("setAside", name, None, Some(seen)).await?;
        Ok(moved.is_truthy())
    }
}

/// How many UTF-16 units `localStorage` holds; none where that cannot be told.
pub async fn units_used() -> Option<usize> {
    let units = call("used", "", None, None).await.ok()?.as_f64()?;
    // Whole, and a few millions at most.
    Some(units as usize)
}

/// What the settings page asks of the archive.
#[derive(Clone, Copy)]
pub enum Asked {
    /// All that is in it, as it lies, as JSON by its name: for the file that holds everything.
    Everything,
    /// What was set aside in it, each in a line: name and bytes.
    Asides,
    /// The text of something that was set aside.
    AsideText,
    /// To take away for good what was set aside.
    Discard,
}

/// Asks something of the archive, about a name where it is about one.
///
/// # Errors
/// A [`KeepProblem`] if it cannot be reached, or does not do it.
pub async fn ask_archive(asked: Asked, name: &str) -> Result<String, KeepProblem> {
    let act = match asked {
        Asked::Everything => "everything",
        Asked::Asides => "asides",
        Asked::AsideText => "asideText",
        Asked::Discard => "discard",
    };
    match call(act, name, None, None).await {
        // It may have been thrown away in another window.
        Ok(told) if told.is_undefined() && matches!(asked, Asked::AsideText) => Err(KeepProblem {
            document: None,
            why: Why::NotAside,
        }),
        Ok(told) => Ok(told.as_string().unwrap_or_default()),
        Err(problem) => Err(KeepProblem {
            document: None,
            why: match asked {
                Asked::Discard => Why::NotRemoved(problem),
                _ => Why::NotRead(problem),
            },
        }),
    }
}

/// What was found under a name: bytes, nothing, or a fault.
fn text_of(found: JsValue) -> Result<Option<String>, ShelfProblem> {
    if found.is_undefined() {
        return Ok(None);
    }
    if found.is_null() {
        return Err(ShelfProblem::Damaged);
    }
    let bytes = found.dyn_into::<Uint8Array>();
    let bytes = bytes.map_err(|fault| problem(&fault))?.to_vec();
    String::from_utf8(bytes)
        .map(Some)
        .map_err(|_| ShelfProblem::Damaged)
}

/// Lets the page do what else it has to do, if that has waited for a while: whatever takes long is
/// done in pieces with a breath after each.
pub async fn breathe() {
    // Where it cannot, the pieces follow each other.
    let _ = call("breathe", "", None, None).await;
}

/// While this is held, no other tab holds the same.
pub struct Alone(Option<Function>);

impl Alone {
    /// Waits until no other tab holds it. Where browsers cannot do this, everyone is let in.
    pub async fn with(name: &str) -> Self {
        let let_in = call("alone", name, None, None).await;
        Self(let_in.ok().and_then(|let_in| let_in.dyn_into().ok()))
    }
}

impl Drop for Alone {
    fn drop(&mut self) {
        if let Some(let_in) = &self.0 {
            // It only lets the next one in.
            let _ = let_in.call0(&JsValue::UNDEFINED);
        }
    }
}

#[wasm_bindgen]
extern "C" {
    /// Calls what the script offers, and has it fetched first where it is not here yet.
    #[wasm_bindgen(catch, js_name = longtomArchived)]
    fn archived(
        act: &str,
        name: &str,
        text: Option<&str>,
        seen: Option<&str>,
    ) -> Result<Promise, JsValue>;
}

async fn call(
    act: &str,
    name: &str,
    text: Option<&str>,
    seen: Option<&str>,
) -> Result<JsValue, ShelfProblem> {
    let promise = archived(act, name, text, seen).map_err(|thrown| problem(&thrown))?;
    JsFuture::from(promise)
        .await
        .map_err(|thrown| problem(&thrown))
}

fn problem(thrown: &JsValue) -> ShelfProblem {
    match thrown.dyn_ref::<web_sys::DomException>() {
        Some(exception) => super::local::by_name(&exception.name(), || exception.message()),
        None => ShelfProblem::Other(in_its_words(thrown)),
    }
}
