//! What is live on a page.
//!
//! A page is written once, as [`Markup`]. What changes in it later is known
//! by the id of its element and kept up by the functions here, each of which reads signals and is
//! called again when they change. What is done with a page is heard on an element that stays, so
//! that rewriting what is inside it never loses an ear.
//!
//! All of it lives as long as the page, or whatever else it was called for: see [`Owner`].

use std::cell::RefCell;
use std::pin::Pin;
use std::time::Duration;

use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::prelude::*;
use web_sys::{Element, Event, EventTarget};

use super::markup::Markup;

/// An element by its id, as whatever kind it is.
#[must_use]
pub fn element<E: JsCast>(id: &str) -> Option<E> {
    document().get_element_by_id(id)?.dyn_into().ok()
}

/// Does something now, and again whenever a signal that it reads changes.
pub fn keep(done: impl Fn() + 'static) {
    // In a box, so that an effect is compiled once and not once for each of these.
    keep_boxed(Box::new(done));
}

fn keep_boxed(done: Box<dyn Fn()>) {
    Effect::new(move |_| done());
}

/// Keeps the inside of an element as it is written, which is the business of [`Markup`]; plain
/// sentences go through [`words`].
pub fn inside(id: &'static str, written: impl Fn() -> String + 'static) {
    inside_boxed(id, Box::new(written));
}

fn inside_boxed(id: &'static str, written: Box<dyn Fn() -> String>) {
    let last = RefCell::new(String::new());
    keep(move || {
        let markup = written();
        if *last.borrow() != markup
            && let Some(element) = element::<Element>(id)
        {
            element.set_inner_html(&markup);
            last.replace(markup);
        }
    });
}

/// Keeps the words of an element as they are told. They are words and nothing else, whatever a
/// person typed into them.
pub fn words(id: &'static str, told: impl Fn() -> String + 'static) {
    inside(id, move || {
        let mut markup = Markup::new();
        markup.text(&told());
        markup.done()
    });
}

/// A moment after something has changed: see [`a_moment_after`].
#[derive(Clone, Copy)]
pub struct Moment {
    /// Told when it is over.
    pub over: ReadSignal<()>,
    /// Whether it is under way.
    pub under_way: ReadSignal<bool>,
}

/// Tells a moment after something has changed, and once for all that changes within that moment. So
/// what a person is looking at is drawn first, and in the frame; what lies behind or below it follows.
pub fn a_moment_after(changed: impl Fn() + 'static) -> Moment {
    a_moment_after_boxed(Box::new(changed))
}

fn a_moment_after_boxed(changed: Box<dyn Fn()>) -> Moment {
    /// Longer than a frame, shorter than what anyone waits for.
    const MOMENT: Duration = Duration::from_millis(40);
    let (over, tell) = signal(());
    let (under_way, set_under_way) = signal(false);
    keep(move || {
        changed();
        if under_way.get_untracked() {
            return;
        }
        set_under_way.set(true);
        set_timeout(
            move || {
                // Whoever was to be told may have gone.
                let _ = set_under_way.try_set(false);
                let _ = tell.try_set(());
            },
            MOMENT,
        );
    });
    Moment { over, under_way }
}

/// Keeps an element out of sight while a condition holds.
pub fn hidden(id: &'static str, when: impl Fn() -> bool + 'static) {
    attribute(id, "hidden", move || when().then(String::new));
}

/// Keeps an attribute of an element as it is told, or away where nothing is told.
pub fn attribute(
    id: &'static str,
    name: &'static str,
    value: impl Fn() -> Option<String> + 'static,
) {
    attribute_boxed(id, name, Box::new(value));
}

fn attribute_boxed(id: &'static str, name: &'static str, value: Box<dyn Fn() -> Option<String>>) {
    keep(move || {
        let value = value();
        if let Some(element) = element::<Element>(id) {
            set_attribute(&element, name, value.as_deref());
        }
    });
}

/// Sets an attribute, or takes it away.
pub fn set_attribute(element: &Element, name: &str, value: Option<&str>) {
    // Both refuse only what is no name of an attribute; all of ours are.
    let _ = match value {
        Some(value) => element.set_attribute(name, value),
        None => element.remove_attribute(name),
    };
}

/// Hears an event on an element.
pub fn heard(id: &str, event: &'static str, ear: impl Fn(Event) + 'static) {
    heard_boxed(id, event, Box::new(ear));
}

fn heard_boxed(id: &str, event: &'static str, ear: Box<dyn Fn(Event)>) {
    if let Some(element) = element::<Element>(id) {
        heard_on(&element, event, ear);
    }
}

/// Hears an event on whatever can tell of one.
pub fn heard_on(target: &EventTarget, event: &'static str, ear: Box<dyn Fn(Event)>) {
    let ear = Closure::<dyn Fn(Event)>::wrap(ear);
    let _ = target.add_event_listener_with_callback(event, ear.as_ref().unchecked_ref());
    let kept = StoredValue::new_local((target.clone(), ear));
    on_cleanup(move || {
        kept.with_value(|(target, ear)| {
            let _ = target.remove_event_listener_with_callback(event, ear.as_ref().unchecked_ref());
        });
    });
}

/// Does something when the button of an id is pressed.
pub fn pressed(id: &'static str, act: impl Fn() + 'static) {
    pressed_boxed(id, Box::new(act));
}

fn pressed_boxed(id: &str, act: Box<dyn Fn()>) {
    heard(id, "click", move |_| act());
}

/// Does something when any button inside an element is pressed, though a drawing on it was hit.
pub fn pressed_in(id: &str, act: impl Fn(&Element) + 'static) {
    pressed_in_boxed(id, Box::new(act));
}

fn pressed_in_boxed(id: &str, act: Box<dyn Fn(&Element)>) {
    heard(id, "click", move |event| {
        let hit = target::<Element>(&event).and_then(|hit| hit.closest("button").ok().flatten());
        if let Some(button) = hit {
            act(&button);
        }
    });
}

/// What an event happened to.
#[must_use]
pub fn target<E: JsCast>(event: &Event) -> Option<E> {
    event.target()?.dyn_into().ok()
}

/// Does something that takes a while, beside everything else.
pub fn meanwhile(doing: impl Future<Output = ()> + 'static) {
    let doing: Pin<Box<dyn Future<Output = ()>>> = Box::pin(doing);
    spawn_local(doing);
}
