//! Putting Longtom on the home screen: by the browser's own offer where there is one.

use js_sys::{Function, Reflect};
use leptos::prelude::*;
use wasm_bindgen::prelude::*;

use super::live::heard_on;

/// Whether and how it can be installed.
#[derive(Clone, Copy)]
pub struct Install {
    /// The browser's offer, kept until it is asked for.
    offer: RwSignal<Option<JsValue>, LocalStorage>,
    /// Whether it runs from the home screen already.
    pub done: RwSignal<bool>,
}

/// Whether it can be installed, from wherever it was provided.
#[must_use]
pub fn install() -> Install {
    expect_context()
}

impl Install {
    /// Waits for the offer, and provides itself to the whole page.
    pub fn provide() {
        let alone = window()
            .match_media("(display-mode: standalone)")
            .ok()
            .flatten()
            .is_some_and(|query| query.matches());
        let install = Self {
            offer: RwSignal::new_local(None),
            done: RwSignal::new(alone),
        };
        provide_context(install);
        heard_on(
            &window(),
            "beforeinstallprompt",
            Box::new(move |event| {
                event.prevent_default();
                install.offer.set(Some(event.into()));
            }),
        );
        heard_on(
            &window(),
            "appinstalled",
            Box::new(move |_| {
                install.offer.set(None);
                install.done.set(true);
            }),
        );
    }

    /// Whether the browser offers it.
    #[must_use]
    pub fn is_offered(self) -> bool {
        self.offer.with(Option::is_some)
    }

    /// Takes the browser's offer.
    pub fn accept(self) {
        let Some(offer) = self.offer.get_untracked() else {
            return;
        };
        let prompt = Reflect::get(&offer, &JsValue::from_str("prompt"))
            .ok()
            .and_then(|prompt| prompt.dyn_into::<Function>().ok());
        if let Some(prompt) = prompt {
            // The grower may say no, and the browser may have withdrawn: either way the offer is gone.
            let _ = prompt.call0(&offer);
        }
        self.offer.set(None);
    }
}
