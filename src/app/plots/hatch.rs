//! Hatches: water lies in level lines, air in rings, solids in dots. They tell what is what
//! without colour, and print in black.

use leptos::prelude::*;

/// The hatches of a drawing; its name keeps those of two drawings apart.
#[component]
pub fn Hatches(
    /// Name of the drawing.
    name: &'static str,
) -> impl IntoView {
    let id = move |what: &str| [name, "-", what].concat();
    view! {
        <defs>
            <pattern id=id("water") width="8" height="5" patternUnits="userSpaceOnUse">
                <rect width="8" height="5" class="hatch-water-ground"/>
                <path d="M0 2.5h8" class="hatch-water-line"/>
            </pattern>
            <pattern id=id("air") width="12" height="12" patternUnits="userSpaceOnUse">
                <rect width="12" height="12" class="hatch-air-ground"/>
                <circle cx="4" cy="4" r="1.6" class="hatch-air-line"/>
                <circle cx="10" cy="10" r="1.6" class="hatch-air-line"/>
            </pattern>
            <pattern id=id("solid") width="5" height="5" patternUnits="userSpaceOnUse">
                <rect width="5" height="5" class="hatch-solid-ground"/>
                <circle cx="1.5" cy="1.5" r="1.1" class="hatch-solid-dot"/>
                <circle cx="4" cy="4" r="0.8" class="hatch-solid-dot"/>
            </pattern>
        </defs>
    }
}

/// The fill of a hatch of a drawing.
#[must_use]
pub fn fill(name: &str, what: &str) -> String {
    ["url(#", name, "-", what, ")"].concat()
}
