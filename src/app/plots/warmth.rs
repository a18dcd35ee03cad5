//! How warm places are through a day, all on one paper, with a line not to fall below.

use super::ink::{Paper, line, on_paper, tick_at_left, words, words_at_ends};
use super::scale::{Scale, ticks};
use crate::measure::{NumberStyle, significant};

/// One place: what it is, how it is drawn, and its temperatures at equal times from midnight, °C.
pub struct Warmth<'a> {
    /// What it is, written where it ends.
    pub what: &'a str,
    /// How it is drawn.
    pub class: &'a str,
    /// °C.
    pub temperatures_c: &'a [f64],
}

/// What is drawn.
pub struct Day<'a> {
    /// The places.
    pub places: &'a [Warmth<'a>],
    /// Not to fall below.
    pub limit_c: Option<f64>,
    /// Keeps it apart from others on the page.
    pub name: &'a str,
    /// Title.
    pub title: &'a str,
    /// The whole in a sentence, for whoever cannot see it.
    pub described: &'a str,
}

/// The paper, in its own units.
const PAPER: (f64, f64) = (420.0, 330.0);
/// Room on the paper: left and right.
const ACROSS: (f64, f64) = (46.0, 318.0);
/// Room on the paper: bottom and top.
const UP: (f64, f64) = (280.0, 34.0);
const HOURS: f64 = 24.0;
/// Temperatures are marked so far apart, K.
const APART_K: f64 = 5.0;

/// The drawing.
#[must_use]
pub fn warmth(day: &Day, style: NumberStyle) -> String {
    let all = day
        .places
        .iter()
        .flat_map(|place| place.temperatures_c)
        .copied()
        .chain(day.limit_c);
    let (low, high) = all.fold((0.0, 0.0), |(low, high): (f64, f64), at| {
        (low.min(at), high.max(at))
    });
    let (foot, head) = (
        (low / APART_K).floor() * APART_K,
        ((high / APART_K).ceil() * APART_K).max(APART_K),
    );
    let x = Scale::new((0.0, HOURS), ACROSS);
    let y = Scale::new((foot, head), UP);
    let paper = Paper {
        name: day.name,
        size: PAPER,
        title: day.title,
        described: day.described,
    };
    on_paper(&paper, &mut |svg| {
        line(svg, &[(ACROSS.0, UP.0), (ACROSS.0, UP.1)], "axis");
        line(svg, &[(ACROSS.0, UP.0), (ACROSS.1, UP.0)], "axis");
        words(svg, (4.0, 18.0), "start", "tick", "°C");
        for above in ticks(head - foot, 6) {
            let number = significant(foot + above, 2, style);
            tick_at_left(svg, (ACROSS.0, y.at(foot + above)), &number);
        }
        for hour in [0.0, 6.0, 12.0, 18.0, 24.0] {
            let at = x.at(hour);
            line(svg, &[(at, UP.0), (at, UP.0 + 6.0)], "axis");
            let number = [&significant(hour, 2, style), ":00"].concat();
            words(svg, (at, UP.0 + 24.0), "middle", "tick", &number);
        }
        let mut ends = Vec::new();
        if let Some(limit_c) = day.limit_c {
            let at = y.at(limit_c);
            line(svg, &[(ACROSS.0, at), (ACROSS.1, at)], "level");
            ends.push((at, "too cold"));
        }
        for place in day.places {
            let many = place.temperatures_c.len().max(1);
            // The day repeats itself: it ends as it began.
            let around = place
                .temperatures_c
                .iter()
                .chain(place.temperatures_c.first());
            let points: Vec<(f64, f64)> = around
                .enumerate()
                .map(|(time, &at)| (x.at(time as f64 * HOURS / many as f64), y.at(at)))
                .collect();
            line(svg, &points, place.class);
            if let Some((_, at)) = points.last() {
                ends.push((*at, place.what));
            }
        }
        words_at_ends(svg, ACROSS.1 + 8.0, UP.0, ends);
    })
}
