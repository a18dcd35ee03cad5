//! A reading that falls from step to step: its best with its band, a line to come down to, and a
//! floor that it cannot pass.

use super::ink::{Paper, line, on_paper, tick_at_left, words};
use super::scale::{Scale, path, tenths, ticks};
use crate::measure::{NumberStyle, significant};

/// One step: low, best and high.
pub type Step = [f64; 3];

/// What is drawn.
pub struct Falling<'a> {
    /// The steps from nought on.
    pub steps: &'a [Step],
    /// What to come down to.
    pub target: f64,
    /// What cannot be passed.
    pub floor: f64,
    /// Title.
    pub title: &'a str,
    /// The whole in a sentence, for whoever cannot see it.
    pub described: &'a str,
    /// What stands under the steps.
    pub below: &'a str,
    /// The unit.
    pub unit: &'a str,
}

/// The paper, in its own units.
const PAPER: (f64, f64) = (420.0, 300.0);
/// Room on the paper: left and right.
const ACROSS: (f64, f64) = (54.0, 400.0);
/// Room on the paper: bottom and top.
const UP: (f64, f64) = (244.0, 30.0);

/// The drawing.
#[must_use]
pub fn falling(drawn: &Falling, style: NumberStyle) -> String {
    let Some(last) = drawn.steps.len().checked_sub(1).filter(|last| *last > 0) else {
        return String::new();
    };
    let all = drawn.steps.iter().flatten().copied();
    let top = all.fold(drawn.target, f64::max) * 1.05;
    let x = Scale::new((0.0, last as f64), ACROSS);
    let y = Scale::new((0.0, top.max(f64::MIN_POSITIVE)), UP);
    let points = |which: usize| -> Vec<(f64, f64)> {
        drawn
            .steps
            .iter()
            .enumerate()
            .map(|(step, values)| (x.at(step as f64), y.at(values[which])))
            .collect()
    };
    let (low, best, high) = (points(0), points(1), points(2));
    let band = path(high.iter().chain(low.iter().rev()).copied(), true);
    let paper = Paper {
        name: "falling",
        size: PAPER,
        title: drawn.title,
        described: drawn.described,
    };
    let number = |value: f64| significant(value, 2, style);
    on_paper(&paper, &mut |svg| {
        svg.mark("path", &[("d", &band), ("class", "band")]);
        line(svg, &[(ACROSS.0, UP.0), (ACROSS.0, UP.1)], "axis");
        line(svg, &[(ACROSS.0, UP.0), (ACROSS.1, UP.0)], "axis");
        for value in ticks(top, 5) {
            tick_at_left(svg, (ACROSS.0, y.at(value)), &number(value));
        }
        // Steps are whole: never a tick between two.
        let apart = ticks(last as f64, 8)
            .get(1)
            .map_or(1, |step| step.ceil().max(1.0) as usize);
        for step in (0..=last).step_by(apart) {
            let at = x.at(step as f64);
            line(svg, &[(at, UP.0), (at, UP.0 + 6.0)], "axis");
            words(
                svg,
                (at, UP.0 + 23.0),
                "middle",
                "tick",
                &number(step as f64),
            );
        }
        words(svg, (ACROSS.0 - 40.0, 16.0), "start", "tick", drawn.unit);
        words(svg, (ACROSS.1, PAPER.1 - 10.0), "end", "tick", drawn.below);
        // Each where the falling reading is not: the target's at the end, the floor's at the start.
        for (value, class, name, anchor, place) in [
            (drawn.target, "level", "to come down to", "end", ACROSS.1),
            (drawn.floor, "floor", "no lower", "start", ACROSS.0 + 8.0),
        ] {
            let at = y.at(value);
            line(svg, &[(ACROSS.0, at), (ACROSS.1, at)], class);
            words(svg, (place, at - 6.0), anchor, "tick", name);
        }
        line(svg, &best, "border");
        for (at_x, at_y) in &best {
            let (cx, cy) = (tenths(*at_x), tenths(*at_y));
            svg.mark(
                "circle",
                &[
                    ("cx", &cx),
                    ("cy", &cy),
                    ("r", "4"),
                    ("class", "hatch-solid-dot"),
                ],
            );
        }
    })
}
