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
