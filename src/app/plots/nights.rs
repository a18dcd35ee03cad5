//! Minima and maxima by day: a tube for each, from a full dot at the minimum to an open one at the
//! maximum, as a glass thermometer shows them.

use super::ink::{line, words};
use super::scale::{Scale, tenths};
use crate::app::markup::Markup;
use crate::measure::print::rounded;
use crate::measure::{DecimalMark, Unit, with_unit, write_number};
use crate::nursery::Day;

/// Minimum and maximum of a day, in degrees Celsius.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Night {
    /// The day.
    pub day: Day,
    /// The lowest, if it was read.
    pub low: Option<f64>,
    /// The highest, if it was read.
    pub high: Option<f64>,
}

/// The paper, in its own units.
const PAPER: (f64, f64) = (420.0, 300.0);
/// Room on the paper for the days: left and right.
const ACROSS: (f64, f64) = (44.0, 312.0);
/// Room on the paper for the degrees: bottom and top.
const UP: (f64, f64) = (258.0, 22.0);
/// Days nearer than this on the paper have no dots of their own.
const NEAR: f64 = 7.0;
/// Labels are at least so far apart.
const LABEL: f64 = 18.0;

/// The coldest minimum and its day.
#[must_use]
pub fn coldest(nights: &[Night]) -> Option<(Day, f64)> {
    let lows = nights
        .iter()
        .filter_map(|night| Some((night.day, night.low?)));
    lows.reduce(|one, other| if other.1 < one.1 { other } else { one })
}

/// The hottest maximum and its day.
#[must_use]
pub fn hottest(nights: &[Night]) -> Option<(Day, f64)> {
    let highs = nights
        .iter()
        .filter_map(|night| Some((night.day, night.high?)));
    highs.reduce(|one, other| if other.1 > one.1 { other } else { one })
}

/// The drawing. Nothing where there are fewer than two days.
#[must_use]
pub fn nights_plot(nights: &[Night], unit: &Unit, mark: DecimalMark, described: &str) -> String {
    let (Some(first), Some(last)) = (nights.first(), nights.last()) else {
        return String::new();
    };
    let lows: Vec<(f64, f64)> = points(nights, unit, |night| night.low);
    let highs: Vec<(f64, f64)> = points(nights, unit, |night| night.high);
    let all = || lows.iter().chain(&highs).map(|point| point.1);
    let (least, most) = (
        all().fold(f64::INFINITY, f64::min),
        all().fold(f64::NEG_INFINITY, f64::max),
    );
    if !least.is_finite() || first.day == last.day {
        return String::new();
    }
    let step = step(most - least);
    let bottom = (least / step).floor() * step;
    let top = ((most / step).ceil() * step).max(bottom + step);
    let days = (f64::from(first.day.number()), f64::from(last.day.number()));
    let x = Scale::new(days, ACROSS);
    let y = Scale::new((bottom, top), UP);
    let on_paper = |points: &[(f64, f64)]| -> Vec<(f64, f64)> {
        points
            .iter()
            .map(|(day, value)| (x.at(*day), y.at(*value)))
            .collect()
    };
    let (lows, highs) = (on_paper(&lows), on_paper(&highs));
    let dots = x.at(days.0 + 1.0) - x.at(days.0) >= NEAR;
    let mut markup = Markup::new();
    let view_box = ["0 0 ", &tenths(PAPER.0), " ", &tenths(PAPER.1)].concat();
    let svg = [
        ("viewBox", view_box.as_str()),
        ("role", "img"),
        ("class", "nights"),
        ("aria-labelledby", "nights-title nights-described"),
    ];
    markup.within("svg", &svg, &mut |svg| {
        svg.element(
            "title",
            &[("id", "nights-title")],
            "Minima and maxima by day",
        )
        .element("desc", &[("id", "nights-described")], described);
        degrees(svg, &y, [bottom, top, step], mark);
        days_below(svg, &x, [first.day, last.day]);
        words(svg, (ACROSS.0 - 8.0, 12.0), "end", "tick", unit.symbol);
        if dots {
            for night in nights {
                if let (Some(low), Some(high)) = (night.low, night.high) {
                    let at = x.at(f64::from(night.day.number()));
                    let ends = [low, high].map(|base| (at, y.at(unit.from_base(base))));
                    line(svg, &ends, "tube");
                }
            }
        } else {
            line(svg, &lows, "night-low");
            line(svg, &highs, "night-high");
        }
        for (points, class) in [(&lows, "dot-low"), (&highs, "dot-high")] {
            for (at_x, at_y) in points.iter().take(if dots { points.len() } else { 0 }) {
                svg.mark(
                    "circle",
                    &[
                        ("cx", &tenths(*at_x)),
                        ("cy", &tenths(*at_y)),
                        ("r", "5"),
                        ("class", class),
                    ],
                );
            }
        }
        beside(svg, &lows, &highs);
    });
    markup.done()
}

/// The same as a table.
#[must_use]
pub fn nights_table(nights: &[Night], unit: &Unit, mark: DecimalMark) -> String {
    let told = |base: Option<f64>| match base {
        Some(base) => with_unit(&number(unit.from_base(base), mark), unit),
        None => "–".to_owned(),
    };
    let mut markup = Markup::new();
    markup.table("figures", "", &["Day", "Minimum", "Maximum"], &mut |rows| {
        for night in nights.iter().rev() {
            rows.row(&night.day.told(), &[&told(night.low), &told(night.high)]);
        }
    });
    markup.done()
}

fn points(nights: &[Night], unit: &Unit, of: fn(&Night) -> Option<f64>) -> Vec<(f64, f64)> {
    nights
        .iter()
        .filter_map(|night| Some((f64::from(night.day.number()), unit.from_base(of(night)?))))
        .collect()
}

/// Degrees from one line of the paper to the next: four to eight lines.
fn step(span: f64) -> f64 {
    [1.0, 2.0, 5.0, 10.0, 20.0]
        .into_iter()
        .find(|step| span / step <= 7.0)
        .unwrap_or(50.0)
}

fn number(value: f64, mark: DecimalMark) -> String {
    write_number(rounded(value, 3), mark)
}

fn degrees(svg: &mut Markup, y: &Scale, [bottom, top, step]: [f64; 3], mark: DecimalMark) {
    let mut value = bottom;
    while value <= top {
        let at = y.at(value);
        let class = if value == 0.0 { "nought" } else { "rule" };
        line(svg, &[(ACROSS.0 - 6.0, at), (ACROSS.1 + 6.0, at)], class);
        words(
            svg,
            (ACROSS.0 - 10.0, at + 5.0),
            "end",
            "tick",
            &number(value, mark),
        );
        value += step;
    }
}

/// The first day, the last, and one between where there is room.
fn days_below(svg: &mut Markup, x: &Scale, [first, last]: [Day; 2]) {
    let middle = Day::from_number(i32::midpoint(first.number(), last.number()));
    let mut before = None;
    for (day, anchor) in [(first, "start"), (middle, "middle"), (last, "end")] {
        if before == Some(day) {
            continue;
        }
        before = Some(day);
        let at = x.at(f64::from(day.number()));
        line(svg, &[(at, UP.0), (at, UP.0 + 6.0)], "axis");
        let told = day.told();
        let short = told
            .rsplit_once(' ')
            .map_or(told.as_str(), |(short, _)| short);
        // `3 September` has no room.
        let short = match short.split_once(' ') {
            Some((number, month)) => [number, " ", month.get(..3).unwrap_or(month)].concat(),
            None => short.to_owned(),
        };
        words(svg, (at, UP.0 + 24.0), anchor, "tick", &short);
    }
}

/// What the two are, beside their last points.
fn beside(svg: &mut Markup, lows: &[(f64, f64)], highs: &[(f64, f64)]) {
    let at = ACROSS.1 + 12.0;
    let high = highs.last().map(|point| point.1 + 5.0);
    let low = lows.last().map(|point| point.1 + 5.0);
    let low = match (low, high) {
        (Some(low), Some(high)) => Some(low.max(high + LABEL)),
        (low, _) => low,
    };
    for (place, text) in [(high, "maximum"), (low, "minimum")] {
        if let Some(place) = place {
            words(svg, (at, place), "start", "label", text);
        }
    }
}
