//! The third program: the reckonings beyond the first, mixes side by side, and the figures to look
//! up, in the frame that the first program has opened.
//!
//! Like the nursery's it is a program of its own, so that the first answer need not wait for it. It
//! shares the page, its address and what is stored with the other two, and nothing else.

use leptos::prelude::*;
use web_sys::Element;

use super::errands::Errands;
use super::live::set_attribute;
use super::notices;
use super::pages::{bed, look_up, mix, moving_on, recipe, rinse, root_zone, season};
use super::route::{self, Page, RECKONINGS};
use super::stored::Stored;

/// Id of the place for its notices.
const NOTICES: &str = "reckonings-notices";

/// Opens the pages of its reckonings whenever the address asks for one.
pub fn open() {
    let stored = Stored::provide();
    provide_context(StoredValue::new_local(Errands::asleep()));
    let place = route::place();
    provide_context(place);
    if let Some(root) = document().document_element() {
        set_attribute(&root, RECKONINGS.here, Some(""));
    }
    notices::keep(NOTICES, stored, |_| {}, |_| {});
    route::follow(place, stored.ready, open_page);
}

fn open_page(page: Page, into: &Element) {
    match page {
        Page::Bed => bed::open(into),
        Page::Beside => mix::open_beside(into),
        Page::LookUp => look_up::open(into),
        Page::Recipe => recipe::open(into),
        Page::Rinse => rinse::open(into),
        Page::RootZone => root_zone::open(into),
        Page::Season => season::open(into),
        Page::MovingOn => moving_on::open(into),
        _ => {}
    }
}
