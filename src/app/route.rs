//! The list of pages and their addresses: everything behind `#`, so that any host serves them.

use leptos::prelude::*;

use web_sys::Element;

use super::live::{element, heard_on, keep};
use crate::keep::address;
use crate::reckon::form::{Form, texts};

/// A page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Page {
    /// The reckonings, in the order of the season.
    Reckon,
    /// Potting mixes.
    Mix,
    /// Up to four of them side by side.
    Beside,
    /// The best mix of what there is.
    Recipe,
    /// Rinsing of salty materials.
    Rinse,
    /// Beds under the pots.
    Bed,
    /// Raised, on the floor, or on a heated bench.
    RootZone,
    /// How many to sow, when, where it fits, what to buy.
    Season,
    /// Is this batch ready, and are the nights?
    MovingOn,
    /// The nursery: houses, bays, batches, materials.
    Nursery,
    /// One thing of the record: `id=…`, or a new one of a kind: `new=house`.
    Thing,
    /// The day book.
    DayBook,
    /// Bringing in files: a record, or a thermometer's readings.
    BringIn,
    /// Figures and sources.
    LookUp,
    /// Settings, what is stored, about, cautions.
    Settings,
}

/// Id of what a page is written into.
pub const PAGE: &str = "page";
/// A program beside the first: it opens pages that whoever only wants a first answer need not wait for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// What `public/starter.js` calls it.
    pub name: &'static str,
    /// On the page's root once it is here.
    pub here: &'static str,
}

/// The pages of the record.
pub const NURSERY: Part = Part {
    name: "nursery",
    here: "data-nursery-here",
};
/// The reckonings beyond the first, mixes side by side, and the figures to look up.
pub const RECKONINGS: Part = Part {
    name: "reckonings",
    here: "data-reckonings-here",
};

/// Name of a page in its address.
const NAMES: [(Page, &str); 15] = [
    (Page::Reckon, ""),
    (Page::Mix, "mix"),
    (Page::Beside, "side-by-side"),
    (Page::Recipe, "recipe"),
    (Page::Rinse, "rinse"),
    (Page::Bed, "bed"),
    (Page::RootZone, "root-zone"),
    (Page::Season, "season"),
    (Page::MovingOn, "moving-on"),
    (Page::Nursery, "nursery"),
    (Page::Thing, "thing"),
    (Page::DayBook, "day-book"),
    (Page::BringIn, "bring-in"),
    (Page::LookUp, "look-up"),
    (Page::Settings, "settings"),
];

impl Page {
    /// The program that opens it, where that is not the first.
    #[must_use]
    pub fn part(self) -> Option<Part> {
        match self {
            Self::Reckon | Self::Mix | Self::Settings => None,
            Self::Beside
            | Self::Recipe
            | Self::Rinse
            | Self::Bed
            | Self::RootZone
            | Self::Season
            | Self::MovingOn
            | Self::LookUp => Some(RECKONINGS),
            Self::Nursery | Self::Thing | Self::DayBook | Self::BringIn => Some(NURSERY),
        }
    }

    /// Its address, without a question.
    #[must_use]
    pub fn address(self) -> String {
        let name = NAMES
            .iter()
            .find(|(page, _)| *page == self)
            .map_or("", |(_, name)| name);
        ["#/", name].concat()
    }
}

/// A page and the question that its address carries, which may be empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The page.
    pub page: Page,
    /// What stands behind the question mark.
    pub question: String,
}

impl Place {
    /// The place of a fragment such as `#/mix?pots=3`; the start where it names no page.
    #[must_use]
    pub fn read(fragment: &str) -> Self {
        let path = fragment.trim_start_matches('#').trim_start_matches('/');
        let (name, question) = path.split_once('?').unwrap_or((path, ""));
        let page = NAMES
            .iter()
            .find(|(_, known)| *known == name)
            .map_or(Page::Reckon, |(page, _)| *page);
        Self {
            page,
            question: question.to_owned(),
        }
    }

    /// Where the browser is.
    #[must_use]
    pub fn here() -> Self {
        Self::read(&window().location().hash().unwrap_or_default())
    }
}

/// Where the browser is, as it goes from page to page.
#[must_use]
pub fn place() -> ReadSignal<Place> {
    let (place, set_place) = signal(Place::here());
    heard_on(
        &window(),
        "hashchange",
        Box::new(move |_| set_place.set(Place::here())),
    );
    place
}

/// The address of a page with a question.
#[must_use]
pub fn asked(page: Page, question: &mut dyn Form) -> String {
    [&page.address(), "?", &address::write(&texts(question))].concat()
}

/// Goes to an address of ours.
pub fn go(address: &str) {
    let _ = window().location().set_hash(address);
}

/// The page to be open, once there is something to open it with. What is asked of most pages they
/// follow themselves; another thing of the record is another page.
#[must_use]
pub fn opened(place: ReadSignal<Place>, ready: RwSignal<bool>) -> Memo<Option<Place>> {
    Memo::new(move |_| {
        ready.get().then(|| {
            let mut place = place.get();
            if place.page != Page::Thing {
                place.question.clear();
            }
            place
        })
    })
}

/// Puts a question into the address of its page without a new step in the browser's history. False
/// where the browser is at another page by now, which is left as it is, and where it refuses: it does
/// when this is done too often in a row.
pub fn put_in_address(page: Page, question: &str) -> bool {
    let here = window().location().hash().unwrap_or_default();
    let address = [&page.address(), "?", question].concat();
    here == address
        || (Place::read(&here).page == page
            && window()
                .history()
                .and_then(|history| {
                    history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(&address))
                })
                .is_ok())
}

/// Opens the pages of a program whenever the address asks for one of them.
pub fn follow(place: ReadSignal<Place>, ready: RwSignal<bool>, open_page: fn(Page, &Element)) {
    let page = opened(place, ready);
    // What a page has kept and heard ends when the next one takes its place.
    keep(move || {
        if let (Some(now), Some(into)) = (page.get(), element::<Element>(PAGE)) {
            untrack(|| open_page(now.page, &into));
        }
    });
}
