//! A season: what is sown as bars through the weeks, and below it how full each place is.

use super::hatch::{fill, write_hatches, write_more_hatches};
use super::ink::{Paper, block, line, on_paper, words};
use super::scale::Scale;
use crate::app::markup::Markup;
use crate::measure::{NumberStyle, fixed};
use crate::nursery::Day;
use crate::nursery::day::month_in_short;
use crate::reckon::season::{BatchTold, Detail, SownTold};

/// Breadth of the paper, in its own units.
const WIDE: f64 = 420.0;
/// Room on the paper: left and right.
const ACROSS: (f64, f64) = (10.0, 410.0);
/// From the top to the first words.
const TOP: f64 = 18.0;
/// A line of words, a bar with what is left below it, and between two things.
const WORDS: f64 = 18.0;
const BAR: f64 = 9.0;
const BAR_STEP: f64 = 12.0;
const APART: f64 = 10.0;
/// The room of a place, and how much of it is all of its room.
const PLACE: f64 = 52.0;
const FULL: f64 = 0.75;
/// Days of a week.
const WEEK: i32 = 7;
/// Months are named where they are at least so wide.
const NAMED: f64 = 26.0;

/// Cells coming up: hatched. Pots: filled.
const COMING_UP: &str = "slant";
const IN_POTS: &str = "var(--moss)";
/// What stands already: another tone than what is to come.
const STANDS: &str = "var(--soft)";
/// On the bars of a sowing: its row of the question. They can be dragged.
pub const OF_ROW: &str = "data-of-row";
/// On the drawing: how many days its whole breadth has.
pub const DAYS_ACROSS: &str = "data-days-across";

fn number(iso: &str) -> f64 {
    Day::from_iso(iso).map_or(0.0, |day| f64::from(day.number()))
}

/// The drawing; its name keeps it apart from others on the page.
#[must_use]
pub fn season_plot(detail: &Detail, name: &str, style: NumberStyle) -> String {
    let Some((first, last)) = detail.weeks.first().zip(detail.weeks.last()) else {
        return String::new();
    };
    let ends = (
        number(&first.monday),
        number(&last.monday) + f64::from(WEEK),
    );
    let x = Scale::new(ends, ACROSS);
    let mut rows: Vec<usize> = detail.sown.iter().map(|sown| sown.row).collect();
    rows.sort_unstable();
    rows.dedup();
    let bars = (detail.sown.len() + detail.batches.len()) as f64 * BAR_STEP;
    let crops = crops_under_way(&detail.batches);
    let of_rows = (rows.len() + crops.len()) as f64 * (WORDS + APART) + bars;
    let of_places = detail.places.len() as f64 * (WORDS + PLACE + APART);
    let high = TOP + WORDS + of_rows + of_places + WORDS;
    let paper = Paper {
        name,
        size: (WIDE, high),
        title: "The season",
        described: &described(detail),
    };
    on_paper(&paper, &mut |svg| {
        write_hatches(svg, name);
        write_more_hatches(svg, name);
        let days = (ends.1 - ends.0) * WIDE / (ACROSS.1 - ACROSS.0);
        svg.mark("g", &[(DAYS_ACROSS, &days.to_string())]);
        months(svg, x, ends, high);
        let mut y = TOP + WORDS;
        for row in &rows {
            let of_row: Vec<&SownTold> =
                detail.sown.iter().filter(|sown| sown.row == *row).collect();
            let crop = of_row.first().map_or("", |sown| sown.crop.as_str());
            words(svg, (ACROSS.0, y + WORDS - 4.0), "start", "tick", crop);
            y += WORDS;
            let row = row.to_string();
            svg.within("g", &[(OF_ROW, &row)], &mut |bars| {
                for sown in &of_row {
                    bar(bars, x, y, sown, name);
                    y += BAR_STEP;
                }
            });
            y += APART;
        }
        for crop in &crops {
            let said = [*crop, ", sown already"].concat();
            words(svg, (ACROSS.0, y + WORDS - 4.0), "start", "tick", &said);
            y += WORDS;
            for batch in detail.batches.iter().filter(|batch| batch.crop == **crop) {
                batch_bar(svg, x, y, batch, ends.1, name);
                y += BAR_STEP;
            }
            y += APART;
        }
        for (place, called) in detail.places.iter().enumerate() {
            let most = taken(detail, place).fold(0.0, f64::max);
            let said = [
                called.as_str(),
                ": ",
                &fixed(100.0 * most, 0, style),
                " % at most",
            ];
            words(
                svg,
                (ACROSS.0, y + WORDS - 4.0),
                "start",
                "tick",
                &said.concat(),
            );
            y += WORDS;
            room(svg, x, y, detail, place, most);
            y += PLACE + APART;
        }
    })
}

fn taken(detail: &Detail, place: usize) -> impl Iterator<Item = f64> {
    detail
        .weeks
        .iter()
        .map(move |week| week.taken.get(place).copied().unwrap_or(0.0))
}

/// The months along the top, with a line at the first of each.
fn months(svg: &mut Markup, x: Scale, (from, to): (f64, f64), high: f64) {
    let mut day = Day::from_number(from as i32);
    let last = Day::from_number(to as i32);
    let mut free_from = ACROSS.0;
    while day < last {
        let (_, month, of_month) = day.civil();
        let at = x.at(f64::from(day.number()));
        if of_month == 1 {
            line(svg, &[(at, TOP), (at, high)], "floor");
        }
        if (of_month == 1 || day.number() == from as i32) && at >= free_from {
            let short = month_in_short(month);
            if at + NAMED < ACROSS.1 {
                words(svg, (at + 2.0, TOP - 4.0), "start", "tick", &short);
                free_from = at + NAMED + 6.0;
            }
        }
        day = day.plus(1);
    }
}

fn bar(svg: &mut Markup, x: Scale, y: f64, sown: &SownTold, name: &str) {
    let [on, potted, gone] = [&sown.on, &sown.potted[1], &sown.gone].map(|day| x.at(number(day)));
    let wide = |from: f64, to: f64| (to - from).max(1.0);
    block(
        svg,
        (on, y),
        (wide(on, potted), BAR),
        &fill(name, COMING_UP),
    );
    block(svg, (potted, y), (wide(potted, gone), BAR), IN_POTS);
    let ready = x.at(number(&sown.ready[1]));
    line(svg, &[(ready, y - 1.5), (ready, y + BAR + 1.5)], "bracket");
}

/// The crops of what is sown already, each once.
fn crops_under_way(batches: &[BatchTold]) -> Vec<&str> {
    let mut crops: Vec<&str> = Vec::new();
    for batch in batches {
        if !crops.contains(&batch.crop.as_str()) {
            crops.push(&batch.crop);
        }
    }
    crops
}

/// A batch: what happened as the bars of what is to come, with a line beneath it from the day that it was meant to be
/// sown to that on which it was meant to be ready.
fn batch_bar(svg: &mut Markup, x: Scale, y: f64, batch: &BatchTold, end: f64, name: &str) {
    let gone = if batch.gone.is_empty() {
        end
    } else {
        number(&batch.gone)
    };
    let days = [number(&batch.on), number(&batch.potted[1]).min(gone), gone];
    let [on, potted, gone] = days.map(|day| x.at(day.min(end)));
    let wide = |from: f64, to: f64| (to - from).max(1.0);
    block(
        svg,
        (on, y),
        (wide(on, potted), BAR),
        &fill(name, COMING_UP),
    );
    block(svg, (potted, y), (wide(potted, gone), BAR), STANDS);
    let ready = if batch.picked.is_empty() {
        &batch.ready[1]
    } else {
        &batch.picked
    };
    if !ready.is_empty() {
        let ready = x.at(number(ready).min(end));
        line(svg, &[(ready, y - 1.5), (ready, y + BAR + 1.5)], "bracket");
    }
    let [meant_sown, meant_ready] = &batch.meant;
    if !meant_ready.is_empty() {
        let from = if meant_sown.is_empty() {
            &batch.on
        } else {
            meant_sown
        };
        let (from, to) = (x.at(number(from)), x.at(number(meant_ready).min(end)));
        line(svg, &[(from, y + BAR + 1.5), (to, y + BAR + 1.5)], "level");
    }
}

/// How full a place is from week to week, against all of its room.
fn room(svg: &mut Markup, x: Scale, y: f64, detail: &Detail, place: usize, most: f64) {
    let foot = y + PLACE;
    let all = PLACE * FULL;
    // What is more than fits the paper is drawn smaller, and so is the line of all the room.
    let shrunk = (PLACE / (all * most.max(1.0))).min(1.0);
    for (week, taken) in detail.weeks.iter().zip(taken(detail, place)) {
        if taken > 0.0 {
            let from = x.at(number(&week.monday));
            let to = x.at(number(&week.monday) + f64::from(WEEK));
            let high = taken * all * shrunk;
            block(svg, (from, foot - high), (to - from, high), "var(--soft)");
        }
    }
    line(svg, &[(ACROSS.0, foot), (ACROSS.1, foot)], "axis");
    let full = foot - all * shrunk;
    line(svg, &[(ACROSS.0, full), (ACROSS.1, full)], "level");
}

fn described(detail: &Detail) -> String {
    let mut said = String::new();
    for sown in &detail.sown {
        let told = [
            sown.crop.as_str(),
            " sown ",
            &sown.on,
            ", in pots ",
            &sown.potted[1],
            ", ready ",
            &sown.ready[1],
            "; ",
        ];
        said.push_str(&told.concat());
    }
    for batch in &detail.batches {
        let told = [
            batch.crop.as_str(),
            " sown already on ",
            &batch.on,
            ", in pots ",
            &batch.potted[1],
            ", ready ",
            &batch.ready[1],
            "; ",
        ];
        said.push_str(&told.concat());
    }
    said.push_str("and how full each place is from week to week, against all of its room.");
    said
}
