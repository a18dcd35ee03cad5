//! Moving on: is this batch ready, and are the nights?

use web_sys::Element;

use super::reckoning::{self, Sight};
use crate::app::markup::Markup;
use crate::app::plots::moving_on::moving_on_plot;
use crate::app::route::Page;
use crate::app::widgets::figures::{Shown, figure_table};
use crate::measure::{NumberStyle, fixed, significant};
use crate::nursery::Day;
use crate::reckon::answer::Answer;
use crate::reckon::moving_on::{Detail, MovingOn, PointTold, kept};

static SIGHT: Sight<Detail> = Sight {
    page: Page::MovingOn,
    heading: "Moving on",
    beside: None,
    keeps: Some(kept),
    drawing: |answer, shown, name| moving_on_plot(&answer.detail, name, shown.style),
    drawing_as_table,
    doing,
    figures: all_figures,
};

/// Opens the page.
pub fn open(into: &Element) {
    reckoning::open::<MovingOn>(into, &SIGHT);
}

fn short(iso: &str) -> String {
    Day::from_iso(iso).map_or_else(|| "–".to_owned(), Day::in_short)
}

fn percent(share: f64, style: NumberStyle) -> String {
    [&fixed(100.0 * share, 0, style), "\u{a0}%"].concat()
}

/// Of a hundred, without the sign: columns are narrow on a phone.
fn of_hundred(share: f64, style: NumberStyle) -> String {
    const TENTHS_BELOW: f64 = 10.0;
    let percent = 100.0 * share;
    fixed(percent, usize::from(percent < TENTHS_BELOW), style)
}

fn drawing_as_table(answer: &Answer<Detail>, shown: &Shown) -> String {
    let detail = &answer.detail;
    let mut markup = Markup::new();
    let heads = ["Moved on", "Waiting", "Early", "In all"];
    let caption = "What is lost by waiting and by going early, % of their worth";
    markup.table("figures", caption, &heads, &mut |rows| {
        for day in &detail.days {
            let lost = |of: [f64; 3]| of_hundred(of[1], shown.style);
            rows.row(
                &short(&day.day),
                &[&lost(day.waiting), &lost(day.early), &lost(day.loss)],
            );
        }
    });
    let heads = ["Moved on", "7", "14", "21"];
    let caption = "How often in 100 all of so many nights from then on are warm enough";
    markup.table("figures", caption, &heads, &mut |rows| {
        for day in &detail.days {
            let chance = |share: f64| of_hundred(share, shown.style);
            rows.row(
                &short(&day.day),
                &[
                    &chance(day.chance_7[1]),
                    &chance(day.chance_14),
                    &chance(day.chance_21),
                ],
            );
        }
    });
    markup.done()
}

fn doing(answer: &Answer<Detail>, shown: &Shown) -> String {
    let detail = &answer.detail;
    let mut markup = Markup::new();
    markup.element("h2", &[], "Why that day");
    list(&mut markup, &detail.reasons);
    card(&mut markup, &detail.card);
    if !detail.hardening.is_empty() {
        let heads = ["Day", "What to do"];
        markup.element("h2", &[], "Hardening, day by day").table(
            "figures",
            "",
            &heads,
            &mut |rows| {
                for step in &detail.hardening {
                    rows.row(&short(&step.day), &[&step.what]);
                }
            },
        );
    }
    next_pots(&mut markup, detail, shown);
    markup.within("div", &[("class", "unprinted")], &mut |more| {
        more.element("h2", &[], "The nights");
        list(more, &detail.outlook);
        let heads = ["Morning of", "Minimum", "Warm enough"];
        let caption = "The minimum most likely, and how far it may be off, 2 nights of 3";
        more.table("figures", caption, &heads, &mut |rows| {
            for night in &detail.nights {
                let mean = fixed(night.mean_c, 1, shown.style);
                let spread = fixed(night.spread_k, 1, shown.style);
                rows.row(
                    &short(&night.day),
                    &[
                        &[&mean, " ± ", &spread, "\u{a0}°C"].concat(),
                        &percent(night.chance, shown.style),
                    ],
                );
            }
        });
    });
    if let Some(indices) = &detail.indices {
        let heads = ["Index", "Of the plant weighed"];
        let caption = "For sorting within one crop and pot, not for foretelling";
        let two = |value: f64| significant(value, 2, shown.style);
        markup
            .element("h2", &[], "The plant that was weighed")
            .table("figures", caption, &heads, &mut |rows| {
                rows.row("Dickson’s quality index", &[&two(indices.quality)]);
                rows.row("Height by stem, cm/mm", &[&two(indices.sturdiness)]);
                rows.row("Dry shoot to dry root", &[&two(indices.shoot_to_root)]);
            });
    }
    markup.done()
}

/// The card of the batch: what to look for, what is seen, and how that stands.
fn card(markup: &mut Markup, points: &[PointTold]) {
    if points.is_empty() {
        return;
    }
    let heads = ["Look for", "Seen", "So"];
    markup
        .element("h2", &[], "The card of the batch")
        .table("figures", "", &heads, &mut |rows| {
            for point in points {
                let so = match point.standing.as_str() {
                    "passed" => "good",
                    "late" => "late",
                    "not_looked" => "not looked at",
                    _ => "missing",
                };
                rows.row(&point.look_for, &[&point.seen, so]);
            }
        });
}

/// The sizes that it might go into next: how long each stays wet, beside a plant that fills it, and how little water is
/// enough.
fn next_pots(markup: &mut Markup, detail: &Detail, shown: &Shown) {
    if detail.next_pots.is_empty() {
        return;
    }
    let number = |value: f64| significant(value, 2, shown.style);
    let between = |[low, _, high]: [f64; 3]| [&number(low), " to ", &number(high)].concat();
    markup.element("h2", &[], "Which pot next");
    list(markup, &detail.next_pot);
    let heads = ["Pot", "Wet, days", "Filled, days", "Enough, mL"];
    let caption =
        "Days until it is dry by half, now and with a plant that fills it; and water at a time";
    markup.table("figures", caption, &heads, &mut |rows| {
        for size in &detail.next_pots {
            let name = if size.take {
                [&size.name, ", take this"].concat()
            } else {
                size.name.clone()
            };
            rows.row(
                &name,
                &[
                    &between(size.wet_days),
                    &between(size.rooted_days),
                    &between(size.give_ml),
                ],
            );
        }
    });
}

fn list(markup: &mut Markup, sentences: &[String]) {
    if sentences.is_empty() {
        return;
    }
    markup.within("ul", &[], &mut |list| {
        for sentence in sentences {
            list.element("li", &[], sentence);
        }
    });
}

fn all_figures(answer: &Answer<Detail>, shown: &Shown) -> String {
    figure_table(answer.figures.iter().skip(1), shown)
}
