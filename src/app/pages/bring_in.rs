//! Bringing in files: a record, or a thermometer's readings.

use web_sys::Element;

use crate::app::markup::Markup;

/// Opens the page.
pub fn open(into: &Element) {
    let mut markup = Markup::new();
    markup.element("h1", &[], "Bring in");
    into.set_inner_html(&markup.done());
}
