//! The verdict, told three ways: a word, a shape drawn in ink, and a colour.

use crate::app::markup::Markup;
use crate::reckon::answer::Verdict;

/// The word of a verdict within a sentence or a table.
#[must_use]
pub fn in_a_sentence(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Serves => "serves",
        Verdict::Watch => "watch it",
        Verdict::DoesNotServe => "does not serve",
    }
}

/// Writes the verdict.
pub fn write_verdict(markup: &mut Markup, verdict: Verdict) {
    // A leaf for what serves, a half-filled pot for what wants watching, a crossed slip for what does not.
    let (class, word, shape) = match verdict {
        Verdict::Serves => (
            "verdict serves",
            "Serves",
            "M4 20C4 9 10 4 20 4c0 10-5 16-16 16zM4 20L14 10",
        ),
        Verdict::Watch => (
            "verdict watch",
            "Watch it",
            "M5 5h14l-2.4 15H7.4zM6.3 13h11.4",
        ),
        Verdict::DoesNotServe => (
            "verdict fails",
            "Does not serve",
            "M7 3h10v14l-5 4-5-4zM9 8l6 6M15 8l-6 6",
        ),
    };
    markup.within("span", &[("class", class)], &mut |verdict| {
        verdict
            .within(
                "svg",
                &[("viewBox", "0 0 24 24"), ("aria-hidden", "true")],
                &mut |svg| {
                    svg.mark("path", &[("d", shape)]);
                },
            )
            .element("strong", &[], word);
    });
}
