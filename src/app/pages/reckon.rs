//! The start: the reckonings that there are, in the order of the season.

use leptos::prelude::*;

use crate::app::route::Page;
use crate::app::version::{Without, version};
use crate::app::words;
use crate::reckon::Reckoning;
use crate::reckon::mix::Mix;

/// The page.
#[component]
pub fn ReckonPage() -> impl IntoView {
    let without = version().without;
    let state = Signal::derive(move || {
        match without.get() {
            Without::Stored { .. } => "stored",
            Without::Asking => "asking",
            Without::NotHere => "not here",
            Without::Incomplete => "incomplete",
        }
        .to_owned()
    });
    let told = Signal::derive(move || {
        match without.get() {
        Without::Asking => "Storing Longtom on this device …".to_owned(),
        Without::Stored { bytes } => {
            ["All of Longtom is on this device (", &words::kilobytes(bytes), "). It needs no signal any more."].concat()
        }
        Without::NotHere => {
            "This browser cannot store Longtom for use without a signal. Open it over a secure address, and not in a private window.".to_owned()
        }
        Without::Incomplete => {
            "Part of Longtom has been cleared from this device. Load the page once with a signal.".to_owned()
        }
    }
    });
    view! {
        <h1>"What do you want to work out?"</h1>
        <h2 class="stage">"Mix and pot"</h2>
        <ul class="slips">
            <li>
                <a class="slip" href=Page::Mix.address()>
                    <strong>"Mix"</strong>
                    <span>{Mix::ASKS}</span>
                    <small>"Air and water in the pot, what to measure out and buy, weight"</small>
                </a>
            </li>
        </ul>
        <p class="hint" role="status" data-without=state>{told}</p>
    }
}
