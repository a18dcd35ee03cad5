//! Stored for use without a signal, and changing over to a new version.
//!
//! The other end is the service worker, whose head says what it is sent and what it answers.

use std::cell::Cell;

use js_sys::{Object, Reflect};
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    MessageEvent, ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration,
    ServiceWorkerState,
};

use super::live::meanwhile;
use super::stored::Stored;

/// How things stand with use without a signal.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Without {
    /// Not known yet.
    #[default]
    Asking,
    /// This browser, or this way of opening the page, cannot store the program.
    NotHere,
    /// Everything is on this device.
    Stored {
        /// How much that is.
        bytes: f64,
    },
    /// Something was cleared away.
    Incomplete,
}

/// What the page knows of its own version.
#[derive(Clone, Copy)]
pub struct Version {
    /// Whether it works without a signal.
    pub without: RwSignal<Without>,
    stored: Stored,
    /// A new version that waits to be told.
    waiting: RwSignal<Option<ServiceWorker>, LocalStorage>,
}

/// What the page knows of its version, from wherever it was provided.
#[must_use]
pub fn version() -> Version {
    expect_context()
}

impl Version {
    /// Begins to look, and provides itself to the whole page.
    pub fn provide(stored: Stored) -> Self {
        let version = Self {
            without: RwSignal::new(Without::default()),
            stored,
            waiting: RwSignal::new_local(None),
        };
        provide_context(version);
        match container() {
            Some(container) => version.look(&container),
            None => version.without.set(Without::NotHere),
        }
        version
    }

    /// Whether a new version waits.
    #[must_use]
    pub fn is_waiting(self) -> bool {
        self.waiting.with(Option::is_some)
    }

    /// Saves, and tells the new version to take over; every open page then loads anew.
    pub fn change_over(self) {
        self.stored.save_now();
        if let Some(waiting) = self.waiting.get_untracked() {
            post(&waiting, "change over");
        }
    }

    fn look(self, container: &ServiceWorkerContainer) {
        let had_controller = Cell::new(container.controller().is_some());
        on(container, "controllerchange", move || {
            // Without one before, the first visit is now stored and nothing has changed hands;
            // from then on there is one, though the page has not been loaded again.
            if had_controller.replace(true) {
                self.stored.save_now();
                let _ = window().location().reload();
            }
        });
        let hear = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            self.hear(&event.data())
        });
        container.set_onmessage(Some(hear.as_ref().unchecked_ref()));
        hear.forget();
        let ready = container.ready();
        meanwhile(async move {
            let Ok(ready) = ready else {
                self.without.set(Without::NotHere);
                return;
            };
            let Ok(registration) = JsFuture::from(ready).await else {
                self.without.set(Without::NotHere);
                return;
            };
            let registration: ServiceWorkerRegistration = registration.unchecked_into();
            if let Some(active) = registration.active() {
                post(&active, "stored?");
            }
            self.waiting.set(registration.waiting());
            let found = registration.clone();
            on(&registration, "updatefound", move || {
                let Some(coming) = found.installing() else {
                    return;
                };
                let watched = coming.clone();
                on(&coming, "statechange", move || {
                    if watched.state() == ServiceWorkerState::Installed && had_controller_now() {
                        self.waiting.set(Some(watched.clone()));
                    }
                });
            });
        });
    }

    fn hear(self, message: &JsValue) {
        let field =
            |name: &str| Reflect::get(message, &JsValue::from_str(name)).unwrap_or_default();
        match field("kind").as_string().as_deref() {
            Some("stored") => self.without.set(Without::Stored {
                bytes: field("bytes").as_f64().unwrap_or_default(),
            }),
            Some("not stored") => self.without.set(Without::Incomplete),
            _ => {}
        }
    }
}

fn had_controller_now() -> bool {
    container().is_some_and(|container| container.controller().is_some())
}

/// The browser's service workers, where there are any: not on a page that was not loaded securely.
fn container() -> Option<ServiceWorkerContainer> {
    let navigator = web_sys::window()?.navigator();
    let container = Reflect::get(&navigator, &JsValue::from_str("serviceWorker")).ok()?;
    container.dyn_into().ok()
}

fn post(worker: &ServiceWorker, kind: &str) {
    let message = Object::new();
    let set = Reflect::set(
        &message,
        &JsValue::from_str("kind"),
        &JsValue::from_str(kind),
    );
    if set.is_ok() {
        // A worker that has gone is replaced, and the page told, by the browser.
        let _ = worker.post_message(&message);
    }
}

/// Listens for as long as the page stands.
fn on(target: &web_sys::EventTarget, event: &str, call: impl Fn() + 'static) {
    let listener = Closure::<dyn FnMut()>::new(call);
    let _ = target.add_event_listener_with_callback(event, listener.as_ref().unchecked_ref());
    listener.forget();
}
