//! What moving on loses, by the day of the move: by waiting, by going early, and both together.

use super::ink::{Paper, line, on_paper, tick_at_left, words, words_at_ends};
use super::scale::{Scale, path, ticks};
use crate::measure::{NumberStyle, fixed};
use crate::nursery::Day;
use crate::reckon::moving_on::{DayTold, Detail};

/// The paper, in its own units.
const PAPER: (f64, f64) = (420.0, 310.0);
/// Room on the paper: left and right.
const ACROSS: (f64, f64) = (52.0, 316.0);
/// Room on the paper: bottom and top.
const UP: (f64, f64) = (254.0, 34.0);
/// Days from one tick to the next.
const WEEK: usize = 7;
const PERCENT: f64 = 100.0;

fn short(iso: &str) -> String {
    Day::from_iso(iso).map_or_else(String::new, Day::in_short)
}

/// The drawing; its name keeps it apart from others on the page.
#[must_use]
pub fn moving_on_plot(detail: &Detail, name: &str, style: NumberStyle) -> String {
    let days: Vec<&DayTold> = detail.days.iter().chain([&detail.left]).collect();
    let Some(last) = days.len().checked_sub(1).filter(|last| *last > 0) else {
        return String::new();
    };
    let highest = days.iter().map(|day| PERCENT * day.loss[2]);
    // What is next to nothing is not drawn as large as the paper.
    let top = highest.fold(1.0, f64::max) * 1.05;
    let x = Scale::new((0.0, last as f64), ACROSS);
    let y = Scale::new((0.0, top), UP);
    let points = |of: &dyn Fn(&DayTold) -> f64| -> Vec<(f64, f64)> {
        let at = |(day, told): (usize, &&DayTold)| (x.at(day as f64), y.at(PERCENT * of(told)));
        days.iter().enumerate().map(at).collect()
    };
    let waiting = points(&|day| day.waiting[1]);
    let early = points(&|day| day.early[1]);
    let both = points(&|day| day.loss[1]);
    let (low, high) = (points(&|day| day.loss[0]), points(&|day| day.loss[2]));
    let band = path(high.iter().chain(low.iter().rev()).copied(), true);
    let paper = Paper {
        name,
        size: PAPER,
        title: "What is lost, by the day of the move",
        described: &described(detail, style),
    };
    on_paper(&paper, &mut |svg| {
        svg.mark("path", &[("d", &band), ("class", "band")]);
        line(svg, &[(ACROSS.0, UP.0), (ACROSS.0, UP.1)], "axis");
        line(svg, &[(ACROSS.0, UP.0), (ACROSS.1, UP.0)], "axis");
        for value in ticks(top, 5) {
            let places = usize::from(top < 5.0);
            tick_at_left(svg, (ACROSS.0, y.at(value)), &fixed(value, places, style));
        }
        for (day, told) in days.iter().enumerate().step_by(WEEK) {
            let at = x.at(day as f64);
            line(svg, &[(at, UP.0), (at, UP.0 + 6.0)], "axis");
            words(svg, (at, UP.0 + 23.0), "middle", "tick", &short(&told.day));
        }
        words(svg, (6.0, 16.0), "start", "tick", "% of their worth");
        words(svg, (ACROSS.1, PAPER.1 - 8.0), "end", "tick", "moved on");
        line(svg, &waiting, "dashed");
        line(svg, &early, "level");
        line(svg, &both, "border");
        let best = days.iter().position(|day| day.day == detail.best_day);
        if let Some(best) = best {
            let at = x.at(best as f64);
            line(svg, &[(at, UP.0), (at, UP.1 - 4.0)], "bracket");
        }
        let end = |points: &[(f64, f64)]| points.last().map_or(UP.0, |(_, y)| *y);
        words_at_ends(
            svg,
            ACROSS.1 + 6.0,
            UP.0,
            vec![
                (end(&waiting), "waiting"),
                (end(&early), "going early"),
                (end(&both), "in all"),
            ],
        );
    })
}

fn described(detail: &Detail, style: NumberStyle) -> String {
    let mut said = String::new();
    for day in detail.days.iter().step_by(WEEK).chain([&detail.left]) {
        let percent = |share: f64| [&fixed(PERCENT * share, 1, style), " %"].concat();
        let told = [
            "Moved on ",
            &short(&day.day),
            ", lost by waiting ",
            &percent(day.waiting[1]),
            ", by going early ",
            &percent(day.early[1]),
            ". ",
        ];
        said.push_str(&told.concat());
    }
    if !detail.best_day.is_empty() {
        said.push_str("Least is lost on ");
        said.push_str(&short(&detail.best_day));
        said.push('.');
    }
    said
}
