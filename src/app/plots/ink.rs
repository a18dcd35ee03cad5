//! Lines and words of a drawing.

use super::scale::{path, tenths};
use crate::app::markup::Markup;

/// A line through points on the paper.
pub fn line(svg: &mut Markup, points: &[(f64, f64)], class: &str) {
    let d = path(points.iter().copied(), false);
    svg.mark("path", &[("d", &d), ("class", class)]);
}

/// Words at a place on the paper, which is their start, middle or end.
pub fn words(svg: &mut Markup, (x, y): (f64, f64), anchor: &str, class: &str, text: &str) {
    svg.element(
        "text",
        &[
            ("x", &tenths(x)),
            ("y", &tenths(y)),
            ("text-anchor", anchor),
            ("class", class),
        ],
        text,
    );
}

/// A filled block from its upper left corner, with a border around it.
pub fn block(svg: &mut Markup, (x, y): (f64, f64), (width, height): (f64, f64), fill: &str) {
    let corners = [
        (x, y),
        (x + width, y),
        (x + width, y + height),
        (x, y + height),
    ];
    let d = path(corners, true);
    // The border's class would take the hatch away.
    svg.mark("path", &[("d", &d), ("fill", fill)])
        .mark("path", &[("d", &d), ("class", "border")]);
}
