//! The archive over IndexedDB, through the page's own script `archive.js`.

use js_sys::{Array, Function, Promise, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::in_its_words;
use crate::keep::shelf::ShelfProblem;
use crate::keep::store::Archive;

/// Where the script puts what it offers.
const OFFERED: &str = "longtomArchive";

/// Closed months, each as one packed value.
pub struct MonthArchive(());

impl MonthArchive {
    /// Opens it, if the browser has a database and lets this page use it.
    pub async fn open() -> Option<Self> {
        call("names", &[]).await.ok().map(|_| Self(()))
    }
}

impl Archive for MonthArchive {
    async fn names(&self) -> Result<Vec<String>, ShelfProblem> {
        let names = call("names", &[]).await?;
        let names = names.dyn_into::<Array>().map_err(|other| problem(&other))?;
        Ok(names.iter().filter_map(|name| name.as_string()).collect())
    }

    async fn read(&self, name: &str) -> Result<Option<String>, ShelfProblem> {
        Ok(call("read", &[name]).await?.as_string())
    }

    async fn read_many(&self, names: &[String]) -> Vec<Result<Option<String>, ShelfProblem>> {
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let found = call("readMany", &names).await;
        match found.and_then(|found| found.dyn_into::<Array>().map_err(|other| problem(&other))) {
            Ok(found) => found.iter().map(text_of).collect(),
            Err(problem) => vec![Err(problem); names.len()],
        }
    }

    async fn write(&self, name: &str, text: &str) -> Result<(), ShelfProblem> {
        call("write", &[name, text]).await.map(drop)
    }
}

/// What was found under a name: bytes, nothing, or a fault.
fn text_of(found: JsValue) -> Result<Option<String>, ShelfProblem> {
    if found.is_undefined() {
        return Ok(None);
    }
    let bytes = found.dyn_into::<Uint8Array>();
    let bytes = bytes.map_err(|fault| problem(&fault))?.to_vec();
    String::from_utf8(bytes)
        .map(Some)
        .map_err(|_| ShelfProblem::Other("it is not text".to_owned()))
}

/// Lets the page do what else it has to do, if that has waited for a while: whatever takes long is
/// done in pieces with a breath after each.
pub async fn breathe() {
    // Where it cannot, the pieces follow each other.
    let _ = call("breathe", &[]).await;
}

/// While this is held, no other tab holds the same.
pub struct Alone(Option<Function>);

impl Alone {
    /// Waits until no other tab holds it. Where browsers cannot do this, everyone is let in.
    pub async fn with(name: &str) -> Self {
        let let_in = call("alone", &[name]).await;
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

async fn call(name: &str, texts: &[&str]) -> Result<JsValue, ShelfProblem> {
    let asked = || -> Result<Promise, JsValue> {
        let offered = Reflect::get(&js_sys::global(), &JsValue::from_str(OFFERED))?;
        let function: Function = Reflect::get(&offered, &JsValue::from_str(name))?.dyn_into()?;
        let texts: Array = texts.iter().map(|text| JsValue::from_str(text)).collect();
        function.apply(&offered, &texts)?.dyn_into()
    };
    let promise = asked().map_err(|thrown| problem(&thrown))?;
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
