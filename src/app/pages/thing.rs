//! One thing of the record: its form, what was done to it, and undoing that.

use web_sys::Element;

use crate::app::markup::Markup;

/// Opens the page.
pub fn open(into: &Element) {
    let mut markup = Markup::new();
    markup.element("h1", &[], "Record");
    into.set_inner_html(&markup.done());
}
