//! The second program: the pages of the nursery's record, in the frame that the first has opened.
//!
//! It is a program of its own, so that whoever only wants an answer need not wait for it. The two
//! share the page, its address and what is stored, and nothing else: each follows the address and
//! opens its own pages, and each reads the settings anew when the other has changed them.

use leptos::prelude::*;
use web_sys::Element;

use super::from_nursery;
use super::live::{heard_on, keep, meanwhile, set_attribute};
use super::notices;
use super::pages::{bring_in, day_book, nursery, thing};
use super::record::Ledger;
use super::route::{self, NURSERY, Page};
use super::stored::{ROOM_MADE, Stored};
use super::this_morning;
use crate::keep::Kind;
use crate::keep::browser::on_hiding;

/// Id of the place for its notices.
const NOTICES: &str = "nursery-notices";
/// What the button of the demo's notice does.
const LEAVE_DEMO: &str = "leave demo";
/// What the button of something unsaved does.
const SAVE_NOW: &str = "save now";

/// Opens the pages of the nursery whenever the address asks for one.
pub fn open() {
    let stored = Stored::provide();
    let ledger = Ledger::provide(stored);
    let place = route::place();
    provide_context(place);
    if let Some(root) = document().document_element() {
        set_attribute(&root, NURSERY.here, Some(""));
    }
    stored.on_document(move |document| match document.kind {
        Kind::Record => meanwhile(async move {
            ledger.changed_elsewhere(document.name).await;
            ledger.save_unsaved().await;
        }),
        Kind::Question => ledger.drafts.update(|count| *count = count.wrapping_add(1)),
        Kind::Settings => {}
    });
    let save_unsaved = move || meanwhile(ledger.save_unsaved());
    heard_on(&window(), ROOM_MADE, Box::new(move |_| save_unsaved()));
    match on_hiding(save_unsaved) {
        Ok(watching) => {
            StoredValue::new_local(watching);
        }
        Err(problem) => stored.tell(problem.to_string()),
    }
    keep(move || {
        if stored.ready.get() {
            meanwhile(ledger.open());
        }
    });
    notices::keep(
        NOTICES,
        stored,
        move |markup| {
            if let Some(day) = ledger.demo.get() {
                let sentence = [
                    "This is the demo nursery. Nothing of it is stored. It is ",
                    &day.told(),
                    " there.",
                ];
                notices::write(markup, &sentence.concat(), "Leave the demo", LEAVE_DEMO);
            }
            ledger.unsaved.with(|all| {
                for sentence in all {
                    notices::write(markup, sentence, "Save it now", SAVE_NOW);
                }
            });
        },
        move |act| match act {
            LEAVE_DEMO => {
                ledger.leave_demo();
                route::go(&Page::Nursery.address());
            }
            SAVE_NOW => save_unsaved(),
            _ => {}
        },
    );
    from_nursery::open(ledger, place);
    this_morning::open(ledger, place);
    route::follow(place, stored.ready, open_page);
}

fn open_page(page: Page, into: &Element) {
    match page {
        Page::Nursery => nursery::open(into),
        Page::Thing => thing::open(into),
        Page::DayBook => day_book::open(into),
        Page::BringIn => bring_in::open(into),
        _ => {}
    }
}
