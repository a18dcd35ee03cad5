//! Moving on: is this batch ready, and are the nights?

use web_sys::Element;

use super::reckoning::{self, Sight};
use crate::app::markup::Markup;
use crate::app::plots::looked_at::{looked_at, of_state};
use crate::app::plots::moving_on::moving_on_plot;
use crate::app::route::Page;
use crate::app::widgets::figures::{Shown, figure_table};
use crate::measure::{NumberStyle, fixed, significant};
use crate::nursery::Day;
use crate::reckon::answer::Answer;
use crate::reckon::moving_on::{Detail, HardeningTold, MovingOn, PointTold, kept};

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
    card(&mut markup, &detail.card, shown);
    hardening(&mut markup, &detail.hardening);
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
    bench_card(&mut markup, detail, shown);
    markup.done()
}

/// The plan of hardening: days on which the same is done stand in one row.
fn hardening(markup: &mut Markup, steps: &[HardeningTold]) {
    if steps.is_empty() {
        return;
    }
    let heads = ["Day", "What to do"];
    markup.element("h2", &[], "Hardening, day by day").table(
        "figures hardening",
        "",
        &heads,
        &mut |rows| {
            for same in steps.chunk_by(|one, other| one.what == other.what) {
                let (Some(first), Some(last)) = (same.first(), same.last()) else {
                    continue;
                };
                let mut days = short(&first.day);
                if same.len() > 1 {
                    days = [&days, " to ", &short(&last.day)].concat();
                }
                rows.row(&days, &[&first.what]);
            }
        },
    );
}

/// How a point stands.
fn standing(point: &PointTold) -> &'static str {
    match point.standing.as_str() {
        "passed" => "Good",
        "late" => "Late",
        "not_looked" => "Not looked at",
        _ => "Missing",
    }
}

/// The card of the batch: what to look for with its drawing, what is seen, and how that stands.
fn card(markup: &mut Markup, points: &[PointTold], shown: &Shown) {
    if points.is_empty() {
        return;
    }
    markup.within("div", &[("class", "unprinted")], &mut |card| {
        card.element("h2", &[], "The card of the batch").within(
            "ul",
            &[("class", "points")],
            &mut |list| {
                for point in points {
                    list.within("li", &[], &mut |item| {
                        item.within("div", &[("class", "sight")], &mut |sight| {
                            sight.written(&looked_at(point, shown.style));
                        })
                        .within("div", &[], &mut |words| {
                            write_point(words, point);
                            words.within("p", &[("class", "stands")], &mut |line| {
                                line.element("strong", &[], standing(point));
                                if point.standing != "not_looked" {
                                    line.text([": ", &point.seen, "."].concat().as_str());
                                }
                            });
                        });
                    });
                }
            },
        );
    });
}

/// What a point is called and what to look for; one of one's own is called by what to look for.
fn write_point(words: &mut Markup, point: &PointTold) {
    if point.key == "own" {
        words.element("h3", &[], &point.look_for);
    } else {
        words
            .element("h3", &[], &point.called)
            .element("p", &[], &point.look_for);
    }
}

/// The card on paper, for the bench and a pencil: on a side of its own, with a box for each state.
fn bench_card(markup: &mut Markup, detail: &Detail, shown: &Shown) {
    /// Of more points the drawings are smaller, so that one side holds them.
    const MANY: usize = 8;
    let points: Vec<&PointTold> = detail
        .card
        .iter()
        .filter(|point| !point.states.is_empty() || point.measure.is_some())
        .collect();
    let head = &detail.head;
    let class = if points.len() > MANY {
        "bench-card many"
    } else {
        "bench-card"
    };
    markup.within("div", &[("class", class)], &mut |card| {
        let heading = ["For the bench: ", &head.crop, ", ", &head.goes].concat();
        card.element("h2", &[], &heading)
            .within("dl", &[("class", "bench-head")], &mut |line| {
                for (what, said) in [
                    ("Pot", &*head.pot),
                    ("Day", &head.day),
                    ("Batch", ""),
                    ("Bay", ""),
                ] {
                    line.within("div", &[], &mut |pair| {
                        pair.element("dt", &[], what).element("dd", &[], said);
                    });
                }
            })
            .within("ol", &[("class", "bench-points")], &mut |list| {
                for point in &points {
                    list.within("li", &[], &mut |item| bench_point(item, point, shown));
                }
            })
            .element(
                "p",
                &[("class", "hint")],
                "In bold: as it should be. A tick: seen already.",
            )
            .element("h3", &[], "Notes")
            .mark("p", &[("class", "ruled")])
            .mark("p", &[("class", "ruled")])
            .mark("p", &[("class", "ruled")]);
    });
}

fn bench_point(item: &mut Markup, point: &PointTold, shown: &Shown) {
    item.within("div", &[("class", "bench-words")], &mut |words| {
        write_point(words, point);
    });
    item.within("div", &[("class", "bench-states")], &mut |states| {
        if let Some(measure) = &point.measure {
            states
                .within("div", &[("class", "bench-state")], &mut |state| {
                    state.written(&looked_at(point, shown.style));
                })
                .within("p", &[("class", "bench-measure")], &mut |line| {
                    let seen = measure
                        .seen
                        .map_or_else(String::new, |seen| significant(seen, 3, shown.style));
                    line.element("span", &[("class", "to-write")], &seen)
                        .text(&[" ", &measure.unit].concat());
                });
        }
        for state in &point.states {
            states.within("div", &[("class", "bench-state")], &mut |place| {
                place.written(&of_state(point, state));
                place.within("p", &[], &mut |line| {
                    tick_box(line, state.seen);
                    line.element(
                        if state.good { "strong" } else { "span" },
                        &[],
                        &state.words,
                    );
                });
            });
        }
    });
}

/// A box to tick, or one that is ticked.
fn tick_box(markup: &mut Markup, ticked: bool) {
    let d = if ticked {
        "M1 1h10v10H1ZM3 6l2.5 3L10 2"
    } else {
        "M1 1h10v10H1Z"
    };
    let svg = [
        ("viewBox", "0 0 12 12"),
        ("class", "tick-box"),
        ("aria-hidden", "true"),
    ];
    markup.within("svg", &svg, &mut |svg| {
        svg.mark("path", &[("d", d)]);
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
