//! How often each depth of a bed serves: a bar for each, the safe ones bracketed, the one to lay
//! pointed at.

use super::hatch::{fill, write_hatches, write_more_hatches};
use super::ink::{Paper, block, line, on_paper, tick_at_left, words};
use super::scale::{Scale, path, tenths};
use crate::app::markup::Markup;
use crate::app::widgets::verdict::in_a_sentence;
use crate::app::words::millimetres;
use crate::measure::{NumberStyle, fixed};
use crate::reckon::answer::Verdict;
use crate::reckon::bed::Detail;

/// The paper, in its own units.
const PAPER: (f64, f64) = (420.0, 300.0);
/// Room on the paper: left and right.
const ACROSS: (f64, f64) = (54.0, 412.0);
/// Room on the paper: bottom and top.
const UP: (f64, f64) = (196.0, 34.0);
/// Of the room of a bar, this share is the bar.
const BAR: f64 = 0.76;
/// The hatches of the parts of a bar from the bottom, in the order of the verdicts: the first is
/// filled.
const HATCHES: [&str; 3] = ["", "upright", "slant"];

/// The drawing; its name keeps it apart from others on the page.
#[must_use]
pub fn depths_plot(detail: &Detail, name: &str, style: NumberStyle) -> String {
    let many = detail.depths.len();
    if many == 0 {
        return String::new();
    }
    let x = Scale::new((0.0, many as f64), ACROSS);
    let y = Scale::new((0.0, 1.0), UP);
    let wide = x.at(1.0) - x.at(0.0);
    let paper = Paper {
        name,
        size: PAPER,
        title: "How often each depth serves",
        described: &described(detail, style),
    };
    on_paper(&paper, &mut |svg| {
        write_hatches(svg, name);
        write_more_hatches(svg, name);
        line(svg, &[(ACROSS.0, UP.0), (ACROSS.0, UP.1)], "axis");
        line(svg, &[(ACROSS.0, UP.0), (ACROSS.1, UP.0)], "axis");
        for tenth in [0.0, 5.0, 10.0] {
            let number = fixed(tenth, 0, style);
            tick_at_left(svg, (ACROSS.0, y.at(tenth / 10.0)), &number);
        }
        words(svg, (4.0, 16.0), "start", "tick", "times in 10");
        for (place, depth) in detail.depths.iter().enumerate() {
            let shares = depth.chances.unwrap_or_else(|| {
                Verdict::ALL.map(|verdict| f64::from(u8::from(verdict == depth.verdict)))
            });
            let left = x.at(place as f64) + wide * (1.0 - BAR) / 2.0;
            let mut from = 0.0;
            for (hatch, share) in HATCHES.iter().zip(shares) {
                let to = from + share;
                if share > 0.0 {
                    part(
                        svg,
                        (left, y.at(to)),
                        (wide * BAR, y.at(from) - y.at(to)),
                        name,
                        hatch,
                    );
                }
                from = to;
            }
            // Labels of their own room each: every bar has one where there are few.
            if many <= 12 || place % 2 == 0 {
                let number = fixed(depth.depth_mm, 0, style);
                let middle = x.at(place as f64 + 0.5);
                words(svg, (middle, UP.0 + 19.0), "middle", "tick", &number);
            }
        }
        words(
            svg,
            (ACROSS.1, UP.0 + 54.0),
            "end",
            "tick",
            "depth of the bed, mm",
        );
        let place_of = |mm: f64| {
            detail
                .depths
                .iter()
                .position(|depth| (depth.depth_mm - mm).abs() < 0.5)
        };
        if let Some([from, to]) = detail.window_mm.map(|ends| ends.map(place_of))
            && let (Some(from), Some(to)) = (from, to)
        {
            let top = UP.1 - 8.0;
            let (left, right) = (x.at(from as f64) + 3.0, x.at(to as f64 + 1.0) - 3.0);
            line(
                svg,
                &[
                    (left, top + 6.0),
                    (left, top),
                    (right, top),
                    (right, top + 6.0),
                ],
                "bracket",
            );
            words(
                svg,
                (f64::midpoint(left, right).max(150.0), top - 6.0),
                "middle",
                "tick",
                "safe",
            );
        }
        if let Some(place) = place_of(detail.depth_mm) {
            let middle = x.at(place as f64 + 0.5);
            let tip = UP.0 + 26.0;
            let arrow = [
                (middle, tip),
                (middle - 7.0, tip + 12.0),
                (middle + 7.0, tip + 12.0),
            ];
            svg.mark("path", &[("d", &path(arrow, true)), ("class", "pot")]);
        }
        let mut left = ACROSS.0;
        for (hatch, verdict) in HATCHES.iter().zip(Verdict::ALL) {
            let what = in_a_sentence(verdict);
            let top = PAPER.1 - 26.0;
            part(svg, (left, top), (26.0, 16.0), name, hatch);
            words(svg, (left + 33.0, top + 14.0), "start", "tick", what);
            left += 52.0 + what.chars().count() as f64 * 8.0;
        }
    })
}

/// A part of a bar: ground for what serves, hatched for the others.
fn part(svg: &mut Markup, corner: (f64, f64), size: (f64, f64), name: &str, hatch: &str) {
    if hatch.is_empty() {
        let (x, y, width, height) = (
            tenths(corner.0),
            tenths(corner.1),
            tenths(size.0),
            tenths(size.1),
        );
        svg.mark(
            "rect",
            &[
                ("x", &x),
                ("y", &y),
                ("width", &width),
                ("height", &height),
                ("class", "serves"),
            ],
        );
    } else {
        block(svg, corner, size, &fill(name, hatch));
    }
}

fn described(detail: &Detail, style: NumberStyle) -> String {
    let millimetres = |mm: f64| millimetres(mm, style);
    match detail.window_mm {
        Some([from, to]) => [
            "Safe from ",
            &millimetres(from),
            " to ",
            &millimetres(to),
            "; lay ",
            &millimetres(detail.depth_mm),
            ".",
        ]
        .concat(),
        None => "No depth is safe.".to_owned(),
    }
}
