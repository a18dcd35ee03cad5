//! The paper of a drawing, and the lines and words on it.

use super::scale::{path, tenths};
use crate::app::markup::Markup;

/// The paper of a drawing, and what it says to whoever cannot see it.
pub struct Paper<'a> {
    /// Keeps it apart from others on the page.
    pub name: &'a str,
    /// Breadth and height, in its own units.
    pub size: (f64, f64),
    /// Title.
    pub title: &'a str,
    /// The whole in a sentence or two.
    pub described: &'a str,
}

/// A drawing on its paper.
#[must_use]
pub fn on_paper(paper: &Paper, inside: &mut dyn FnMut(&mut Markup)) -> String {
    let (width, height) = paper.size;
    let view_box = ["0 0 ", &tenths(width), " ", &tenths(height)].concat();
    let title = [paper.name, "-title"].concat();
    let described = [paper.name, "-described"].concat();
    let svg = [
        ("viewBox", view_box.as_str()),
        ("role", "img"),
        ("aria-labelledby", &[&title, " ", &described].concat()),
    ];
    let mut markup = Markup::new();
    markup.within("svg", &svg, &mut |svg| {
        svg.element("title", &[("id", &title)], paper.title)
            .element("desc", &[("id", &described)], paper.described);
        inside(svg);
    });
    markup.done()
}

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

/// A tick to the left of an upright axis, with its number.
pub fn tick_at_left(svg: &mut Markup, (x, y): (f64, f64), number: &str) {
    line(svg, &[(x - 6.0, y), (x, y)], "axis");
    words(svg, (x - 9.0, y + 5.0), "end", "tick", number);
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

/// Words that end lines are at least so far apart.
const LABEL: f64 = 17.0;

/// Words where lines end, from the lowest up, none below the foot and each clear of the one below.
pub fn words_at_ends(svg: &mut Markup, x: f64, foot: f64, mut ends: Vec<(f64, &str)>) {
    ends.sort_by(|one, other| other.0.total_cmp(&one.0));
    let mut below = foot + LABEL;
    for (at, what) in ends {
        let at = at.min(below - LABEL);
        below = at;
        words(svg, (x, at + 5.0), "start", "tick", what);
    }
}
