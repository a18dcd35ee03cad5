//! The archive over IndexedDB, through the page's own script `archive.js`.

use js_sys::{Array, Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::in_its_words;
use crate::keep::shelf::ShelfProblem;
use crate::keep::store::{Archive, Filed};

/// Calls what the script offers, and has it fetched first where it is not here yet; see
/// `starter.js`.
const ARCHIVE: &str = "longtomArchived";

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

    async fn look(&self, name: &str) -> Result<Option<Filed>, ShelfProblem> {
        let found = call("look", &[name]).await?.dyn_into::<Array>();
        Ok(found.ok().map(|found| Filed {
            stamp: found.get(0).as_string().unwrap_or_default(),
            text: found.get(1).as_string(),
        }))
    }

    async fn replace(
        &self,
        name: &str,
        text: &str,
        seen: Option<&str>,
    ) -> Result<bool, ShelfProblem> {
        let told = [name, text, seen.unwrap_or_default()];
        let told = if seen.is_some() { &told } else { &told[..2] };
        Ok(call("replace", told).await?.is_truthy())
    }

    async fn set_aside(&self, name: &str, seen: &str) -> Result<bool, ShelfProblem> {
        Ok(call("setAside", &[name, seen]).await?.is_truthy())
    }
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
        let archive: Function =
            Reflect::get(&js_sys::global(), &JsValue::from_str(ARCHIVE))?.dyn_into()?;
        let told = std::iter::once(name).chain(texts.iter().copied());
        let told: Array = told.map(JsValue::from_str).collect();
        archive.apply(&JsValue::UNDEFINED, &told)?.dyn_into()
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
