//! The start: what is due this morning, and the reckonings that there are, in the order of the season.

use leptos::prelude::*;
use web_sys::Element;

use crate::app::live::{self, attribute};
use crate::app::markup::Markup;
use crate::app::route::Page;
use crate::app::this_morning;
use crate::app::version::{Without, version};
use crate::app::words;
use crate::reckon::Reckoning;
use crate::reckon::bed::Bed;
use crate::reckon::mix::Mix;
use crate::reckon::moving_on::MovingOn;
use crate::reckon::recipe::Recipe;
use crate::reckon::rinse::Rinse;
use crate::reckon::root_zone::RootZone;
use crate::reckon::season::Season;

/// On the page’s root where a record is kept on this device: set by the script that starts the programs.
const KEEPS_RECORD: &str = "data-keeps-record";
/// Id of the line that says whether Longtom works without a signal.
const WITHOUT: &str = "without";

/// A reckoning: page, name, what it answers, what more.
type Slip = (Page, &'static str, &'static str, &'static str);

/// The reckonings, by the stage of the season.
const STAGES: [(&str, &[Slip]); 4] = [
    ("Plan", &PLAN),
    ("Mix and pot", &MIX_AND_POT),
    ("Lay out", &LAY_OUT),
    ("Move on", &MOVE_ON),
];

const MOVE_ON: [Slip; 1] = [(
    Page::MovingOn,
    "Moving on",
    MovingOn::ASKS,
    "The nights to come, what waiting and going early cost, the best day, hardening day by day",
)];

const PLAN: [Slip; 1] = [(
    Page::Season,
    "Season",
    Season::ASKS,
    "Numbers and days of sowing, room by week, hands, and what to buy",
)];

const LAY_OUT: [Slip; 2] = [
    (
        Page::Bed,
        "Bed",
        Bed::ASKS,
        "Safe depths of a capillary bed, water through the hottest day, what to lay",
    ),
    (
        Page::RootZone,
        "Root zone",
        RootZone::ASKS,
        "Floor, raised or heated bench: roots through the day, growth, what heat costs",
    ),
];

const MIX_AND_POT: [Slip; 3] = [
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
    markup.element("h1", &[], "This morning");
    let morning = [("id", this_morning::PLACE), ("aria-label", "What is due")];
    markup.within("section", &morning, &mut |morning| {
        let root = document().document_element();
        if root.is_some_and(|root| root.has_attribute(KEEPS_RECORD)) {
            morning.element("p", &[("class", "hint")], "Looking what is due…");
        } else {
            this_morning::write_empty(morning);
        }
    });
    markup.element("h2", &[], "What do you want to work out?");
    for (stage, slips) in STAGES {
        markup.element("h3", &[("class", "stage")], stage).within(
            "ul",
            &[("class", "slips")],
            &mut |list| {
                slips.iter().for_each(|slip| write_slip(list, slip));
            },
        );
    }
    markup.element(
        "p",
        &[("id", WITHOUT), ("class", "hint"), ("role", "status")],
        "",
    );
    markup.done()
}

fn write_slip(list: &mut Markup, (page, name, asks, more): &Slip) {
    list.within("li", &[], &mut |slip| {
        let link = [("class", "slip"), ("href", &page.address() as &str)];
        slip.within("a", &link, &mut |link| {
            link.element("strong", &[], name)
                .element("span", &[], asks)
                .element("small", &[], more);
        });
    });
}
