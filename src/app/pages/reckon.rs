//! The start: the reckonings that there are, in the order of the season.

use leptos::prelude::*;
use web_sys::Element;

use crate::app::live::{self, attribute};
use crate::app::markup::Markup;
use crate::app::route::Page;
use crate::app::version::{Without, version};
use crate::app::words;
use crate::reckon::Reckoning;
use crate::reckon::mix::Mix;
use crate::reckon::recipe::Recipe;
use crate::reckon::rinse::Rinse;

/// Id of the line that says whether Longtom works without a signal.
const WITHOUT: &str = "without";

/// The reckonings: page, name, what it answers, what more.
const SLIPS: [(Page, &str, &str, &str); 3] = [
    (
        Page::Mix,
        "Mix",
        Mix::ASKS,
        "Air and water in the pot, what to measure out and buy, weight",
    ),
    (
        Page::Recipe,
        "Recipe",
        Recipe::ASKS,
        "The cheapest, lightest or airiest of all mixes that do what you ask",
    ),
    (
        Page::Rinse,
        "Rinse",
        Rinse::ASKS,
        "Salt in coral and coir, rinse by rinse, and the water it takes",
    ),
];

/// Opens the page.
pub fn open(into: &Element) {
    into.set_inner_html(&written());
    let without = version().without;
    attribute(WITHOUT, "data-without", move || {
        let state = match without.get() {
            Without::Stored { .. } => "stored",
            Without::Asking => "asking",
            Without::NotHere => "not here",
            Without::Incomplete => "incomplete",
        };
        Some(state.to_owned())
    });
    live::words(WITHOUT, move || words::without_a_signal(without.get()));
}

fn written() -> String {
    let mut markup = Markup::new();
    markup
        .element("h1", &[], "What do you want to work out?")
        .element("h2", &[("class", "stage")], "Mix and pot")
        .within("ul", &[("class", "slips")], &mut |slips| {
            for (page, name, asks, more) in SLIPS {
                slips.within("li", &[], &mut |slip| {
                    let link = [("class", "slip"), ("href", &page.address() as &str)];
                    slip.within("a", &link, &mut |link| {
                        link.element("strong", &[], name)
                            .element("span", &[], asks)
                            .element("small", &[], more);
                    });
                });
            }
        })
        .element(
            "p",
            &[("id", WITHOUT), ("class", "hint"), ("role", "status")],
            "",
        );
    markup.done()
}
