//! The nursery at a glance: houses, bays, batches, materials.

use web_sys::Element;

use crate::app::markup::Markup;

/// Opens the page.
pub fn open(into: &Element) {
    let mut markup = Markup::new();
    markup.element("h1", &[], "Nursery");
    into.set_inner_html(&markup.done());
}
