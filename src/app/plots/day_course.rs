//! Readings through a day, one band of paper under the other, all over the same hours.

use super::ink::{Paper, line, on_paper, tick_at_left, words, words_at_ends};
use super::scale::{Scale, ticks};
use crate::app::markup::Markup;
use crate::measure::{NumberStyle, significant};

/// One line of a band: what it is, how it is drawn, and its readings by the hour.
pub struct Course<'a> {
    /// What it is, written where it ends.
    pub what: &'a str,
    /// How it is drawn.
    pub class: &'a str,
    /// Hours and readings.
    pub points: Vec<(f64, f64)>,
}

/// One band of paper.
pub struct Band<'a> {
    /// What is read, with its unit.
    pub what: &'a str,
    /// Its lines.
    pub courses: Vec<Course<'a>>,
}

/// Breadth of the paper, in its own units.
const PAPER: f64 = 420.0;
/// Room on the paper: left and right.
const ACROSS: (f64, f64) = (50.0, 314.0);
/// Height of a band with its heading.
const BAND: f64 = 128.0;
/// Height of its readings.
const TALL: f64 = 90.0;
const HOURS: f64 = 24.0;

/// The drawing.
#[must_use]
pub fn day_course(
    bands: &[Band],
    name: &str,
    title: &str,
    described: &str,
    style: NumberStyle,
) -> String {
    let x = Scale::new((0.0, HOURS), ACROSS);
    let height = bands.len() as f64 * BAND + 40.0;
    let paper = Paper {
        name,
        size: (PAPER, height),
        title,
        described,
    };
    on_paper(&paper, &mut |svg| {
        for (place, band) in bands.iter().enumerate() {
            write_band(svg, band, place as f64 * BAND, x, style);
        }
        let foot = bands.len() as f64 * BAND - 8.0;
        for hour in [0.0, 6.0, 12.0, 18.0, 24.0] {
            let at = x.at(hour);
            line(svg, &[(at, foot), (at, foot + 6.0)], "axis");
            let number = [&significant(hour, 2, style), ":00"].concat();
            words(svg, (at, foot + 23.0), "middle", "tick", &number);
        }
    })
}

fn write_band(svg: &mut Markup, band: &Band, top: f64, x: Scale, style: NumberStyle) {
    let readings = band.courses.iter().flat_map(|course| &course.points);
    let most = readings.map(|point| point.1).fold(0.0, f64::max);
    let foot = top + BAND - 8.0;
    let y = Scale::new(
        (0.0, most.max(f64::MIN_POSITIVE) * 1.05),
        (foot, foot - TALL),
    );
    words(svg, (4.0, top + 18.0), "start", "tick", band.what);
    line(svg, &[(ACROSS.0, foot), (ACROSS.1, foot)], "axis");
    line(svg, &[(ACROSS.0, foot), (ACROSS.0, foot - TALL)], "axis");
    for reading in ticks(most, 3) {
        let number = significant(reading, 2, style);
        tick_at_left(svg, (ACROSS.0, y.at(reading)), &number);
    }
    let mut ends: Vec<(f64, &str)> = Vec::new();
    for course in &band.courses {
        let on_paper: Vec<(f64, f64)> = course
            .points
            .iter()
            .map(|(hour, reading)| (x.at(*hour), y.at(*reading)))
            .collect();
        line(svg, &on_paper, course.class);
        if let Some((_, at)) = on_paper.last() {
            ends.push((*at, course.what));
        }
    }
    words_at_ends(svg, ACROSS.1 + 8.0, f64::INFINITY, ends);
}
