//! The day book: quick entry, what was entered, minima and maxima.

use web_sys::Element;

use crate::app::markup::Markup;

/// Opens the page.
pub fn open(into: &Element) {
    let mut markup = Markup::new();
    markup.element("h1", &[], "Day book");
    into.set_inner_html(&markup.done());
}
