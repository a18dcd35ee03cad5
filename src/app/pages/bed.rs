//! Bed: how deep to lay a bed under the pots, and what a day on it is like.

use std::cmp::Ordering;

use leptos::prelude::document;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement};

use super::reckoning::{self, DRAWN, Sight};
use crate::app::live::{element, heard, pressed_in, set_attribute, target};
use crate::app::markup::Markup;
use crate::app::plots::bed_cut::{HOUR, bed_cut};
use crate::app::plots::day_course::{Band, Course, day_course};
use crate::app::plots::depths::depths_plot;
use crate::app::route::Page;
use crate::app::widgets::figures::{Shown, figure_table};
use crate::app::widgets::verdict::in_a_sentence;
use crate::app::words::{millimetres, percent};
use crate::measure::{NumberStyle, fixed, significant};
use crate::reckon::answer::Answer;
use crate::reckon::bed::runs::{Moment, Run};
use crate::reckon::bed::{Bed, Detail, KindTold, run_at};

static SIGHT: Sight<Detail> = Sight {
    page: Page::Bed,
    heading: "Bed",
    beside: None,
    keeps: Some(|_| Vec::new()),
    drawing,
    drawing_as_table,
    doing,
    figures: all_figures,
};

/// The slider of the hours, and what it tells.
const SLIDER: &str = "bed-hour";
const TOLD: &str = "bed-hour-told";
/// On a button that goes to an hour: which.
const TO_HOUR: &str = "data-to-hour";
/// The hour that is shown first: plants ask for most then.
const NOON: usize = 13;

/// Opens the page.
pub fn open(into: &Element) {
    reckoning::open::<Bed>(into, &SIGHT);
    heard(DRAWN, "input", |event| {
        let Some(slider) = target::<HtmlInputElement>(&event).filter(|hit| hit.id() == SLIDER)
        else {
            return;
        };
        show_hour(&slider.value());
    });
    pressed_in(DRAWN, |button| {
        let Some(hour) = button.get_attribute(TO_HOUR) else {
            return;
        };
        if let Some(slider) = element::<HtmlInputElement>(SLIDER) {
            slider.set_value(&hour);
        }
        show_hour(&hour);
    });
}

/// Shows what is drawn of an hour and its words, and nothing of the others.
fn show_hour(hour: &str) {
    if let Some(told) = element::<Element>(TOLD) {
        // Each hour's words are with its drawing.
        let words = told.get_attribute(&[HOUR, "-", hour].concat());
        told.set_text_content(words.as_deref());
    }
    let Ok(groups) = document().query_selector_all(&["#", DRAWN, " [", HOUR, "]"].concat()) else {
        return;
    };
    for index in 0..groups.length() {
        if let Some(group) = groups
            .item(index)
            .and_then(|one| one.dyn_into::<Element>().ok())
        {
            let shown = group.get_attribute(HOUR).as_deref() == Some(hour);
            set_attribute(
                &group,
                "display",
                Some(if shown { "inline" } else { "none" }),
            );
        }
    }
}

/// The run at the depth to lay, hour by hour, once it is solved.
fn chosen(detail: &Detail) -> Option<&Run> {
    run_at(&detail.runs, detail.depth_mm).filter(|run| !run.moments.is_empty())
}

/// An hour in words.
fn hour_told(moment: &Moment, style: NumberStyle) -> String {
    [
        &fixed(moment.hour, 0, style),
        " o’clock: water ",
        &millimetres(moment.level_mm, style),
        " deep, ",
        &percent(moment.air, style),
        " air in the ball, ",
        &percent(moment.air_lowest, style),
        " in its lowest third",
    ]
    .concat()
}

/// The hour at which the water stands at one of its ends.
fn extreme(moments: &[Moment], by: fn(&f64, &f64) -> Ordering) -> String {
    let found = moments
        .iter()
        .max_by(|one, other| by(&one.level_mm, &other.level_mm));
    let hour = found.map_or(NOON as f64, |moment| moment.hour);
    fixed(hour, 0, NumberStyle::default())
}

fn drawing(answer: &Answer<Detail>, shown: &Shown, name: &str) -> String {
    let detail = &answer.detail;
    let style = shown.style;
    let moments = chosen(detail).map_or(&[][..], |run| &run.moments);
    let mut markup = Markup::new();
    markup.written(&bed_cut(
        detail,
        moments,
        NOON,
        &[name, "-cut"].concat(),
        style,
    ));
    if let Some(now) = moments.get(NOON) {
        let hours = fixed(moments.len() as f64 - 1.0, 0, NumberStyle::default());
        let value = fixed(NOON as f64, 0, NumberStyle::default());
        let words: Vec<(String, String)> = moments
            .iter()
            .map(|moment| {
                let hour = fixed(moment.hour, 0, NumberStyle::default());
                ([HOUR, "-", &hour].concat(), hour_told(moment, style))
            })
            .collect();
        markup.within("div", &[("class", "hours")], &mut |line| {
            line.element("label", &[("for", SLIDER)], "Hour of the day")
                .alone(
                    "input",
                    &[
                        ("type", "range"),
                        ("id", SLIDER),
                        ("min", "0"),
                        ("max", &hours),
                        ("step", "1"),
                        ("value", &value),
                    ],
                );
            let mut output: Vec<(&str, &str)> = vec![("id", TOLD), ("for", SLIDER)];
            output.extend(
                words
                    .iter()
                    .map(|(name, words)| (name.as_str(), words.as_str())),
            );
            line.element("output", &output, &hour_told(now, style));
            for (words, hour) in [
                ("Tray at its fullest", extreme(moments, f64::total_cmp)),
                (
                    "Tray at its emptiest",
                    extreme(moments, |one, other| other.total_cmp(one)),
                ),
            ] {
                let button = [("type", "button"), ("class", "quiet"), (TO_HOUR, &hour)];
                line.element("button", &button, words);
            }
        });
    }
    markup.written(&depths_plot(detail, &[name, "-depths"].concat(), style));
    markup.done()
}

fn drawing_as_table(answer: &Answer<Detail>, shown: &Shown) -> String {
    let style = shown.style;
    let mut markup = Markup::new();
    let heads = [
        "Depth",
        "Serves or can serve",
        "Air, tray full",
        "Lowest third",
        "Supply",
        "Suction at mid-pot",
    ];
    markup.wide_table("Depth by depth", "", &heads, &mut |rows| {
        for depth in &answer.detail.depths {
            let chance = depth.chances.map_or_else(
                || in_a_sentence(depth.verdict).to_owned(),
                |[_, _, fails]| [&fixed((1.0 - fails) * 10.0, 0, style), " in 10"].concat(),
            );
            rows.row(
                &millimetres(depth.depth_mm, style),
                &[
                    &chance,
                    &percent(depth.air_full, style),
                    &percent(depth.air_lowest_full, style),
                    &[&significant(depth.supply, 2, style), "\u{a0}times"].concat(),
                    &[&significant(depth.mid_suction_cm, 2, style), "\u{a0}cm"].concat(),
                ],
            );
        }
    });
    markup.done()
}

/// What to lay and buy, what a day is like, and what else there is to lay.
fn doing(answer: &Answer<Detail>, shown: &Shown) -> String {
    let detail = &answer.detail;
    let style = shown.style;
    let mut markup = Markup::new();
    if detail.depth_mm > 0.0 {
        markup.written(&to_lay(detail, style));
    }
    if !detail.kinds.is_empty() {
        markup.written(&kinds(detail, style));
    }
    markup.within("div", &[("class", "unprinted")], &mut |more| {
        if !detail.soaking.is_empty() {
            more.element("p", &[("class", "hint")], &detail.soaking);
        }
        if let Some(run) = chosen(detail) {
            let figure = [("class", "drawing")];
            more.element("h3", &[], "Through the day")
                .within("div", &figure, &mut |figure| {
                    figure.written(&through_the_day(run, style));
                });
        }
        if !detail.runs.is_empty() {
            more.written(&compared(detail, style));
        }
        if !detail.held_to_account.is_empty() {
            more.element("p", &[("class", "hint")], &detail.held_to_account);
        }
        if !detail.others.is_empty() {
            more.written(&others(detail, style));
        }
    });
    markup.done()
}

fn to_lay(detail: &Detail, style: NumberStyle) -> String {
    let litres = |litres: f64| [&significant(litres, 2, style), "\u{a0}L"].concat();
    let bags = fixed(detail.bags, 0, style);
    let mut buy = [
        bags.as_str(),
        if detail.bags == 1.0 { " bag" } else { " bags" },
    ]
    .concat();
    if let Some(price) = detail.price {
        buy.push_str(&["; ", &fixed(price, 2, style), " to pay"].concat());
    }
    let mut markup = Markup::new();
    let trays = fixed(detail.trays, 0, style);
    let in_all = if detail.trays > 1.0 {
        ["All ", &trays, " trays, loose"].concat()
    } else {
        "Loose, to measure out".to_owned()
    };
    let heads = ["Medium", "A tray, settled", &in_all, "Buy"];
    let settled = [
        &litres(detail.laid_litres),
        ", ",
        &litres(detail.pot_litres),
        " a pot",
    ]
    .concat();
    markup.table("shopping", "What to lay", &heads, &mut |rows| {
        rows.row(
            &detail.medium,
            &[&settled, &litres(detail.bay_litres), &buy],
        );
    });
    markup.done()
}

/// Two kinds of pot in one tray, each by itself.
fn kinds(detail: &Detail, style: NumberStyle) -> String {
    let mut markup = Markup::new();
    let heads = ["Pots", "Safe depths", "Best alone", "On this bed"];
    let on_this_bed = |kind: &KindTold| {
        kind.chances.map_or_else(
            || in_a_sentence(kind.verdict).to_owned(),
            |[_, _, fails]| {
                [
                    "serves or can serve ",
                    &fixed((1.0 - fails) * 10.0, 0, style),
                    " in 10",
                ]
                .concat()
            },
        )
    };
    markup
        .table("figures", "Both kinds of pot", &heads, &mut |rows| {
            for kind in &detail.kinds {
                rows.row(
                    &[&fixed(kind.pots, 0, style), " of ", &kind.pot].concat(),
                    &[
                        &window_told(kind.window_mm, style),
                        &millimetres(kind.depth_mm, style),
                        &on_this_bed(kind),
                    ],
                );
            }
        })
        .element("p", &[], &detail.kinds_together);
    markup.done()
}

/// Shallowest to deepest, or that there is none.
fn window_told(window_mm: Option<[f64; 2]>, style: NumberStyle) -> String {
    window_mm.map_or_else(
        || "no depth".to_owned(),
        |[from, to]| [&fixed(from, 0, style), " to ", &millimetres(to, style)].concat(),
    )
}

fn through_the_day(run: &Run, style: NumberStyle) -> String {
    let course = |what: &'static str, class: &'static str, read: fn(&Moment) -> f64| Course {
        what,
        class,
        points: run
            .moments
            .iter()
            .map(|moment| (moment.hour, read(moment)))
            .collect(),
    };
    let bands = [
        Band {
            what: "water in the tray in the hour, mm",
            courses: vec![
                course("highest", "level", |moment| moment.level_between_mm[1]),
                course("lowest", "dashed", |moment| moment.level_between_mm[0]),
            ],
        },
        Band {
            what: "air, % of the ball",
            courses: vec![
                course("whole", "border", |moment| moment.air * 100.0),
                course("lowest third", "dashed", |moment| moment.air_lowest * 100.0),
            ],
        },
        Band {
            what: "drunk in the hour, mL",
            courses: vec![
                course("asked for", "asked", |moment| moment.asked_ml),
                course("drunk", "border", |moment| moment.drunk_ml),
            ],
        },
    ];
    let described = [
        "Air in the ball between ",
        &percent(run.air_between[0], style),
        " and ",
        &percent(run.air_between[1], style),
        "; the plant drinks ",
        &percent(run.drunk_share, style),
        " of what it asks for; ",
        &significant(run.refills, 2, style),
        " refills.",
    ]
    .concat();
    day_course(
        &bands,
        "bed-day",
        "The tray and the ball through the day",
        &described,
        style,
    )
}

/// The flow solved in full: straight in the water, on this bed, on another, at other depths.
fn compared(detail: &Detail, style: NumberStyle) -> String {
    let mut markup = Markup::new();
    let heads = [
        "The pot stands",
        "Air",
        "Lowest third",
        "Too wet, hours a day",
        "Drinks of what it asks",
        "Fills a day",
        "Water a day",
        "Means settled",
    ];
    markup
        .element("h3", &[], "The flow of water solved, best figures")
        .wide_table(
            "The flow of water solved, best figures",
            "",
            &heads,
            &mut |rows| {
                for told in &detail.runs {
                    let run = &told.run;
                    let air = [
                        &percent(run.air, style),
                        ", ",
                        &fixed(run.air_between[0] * 100.0, 0, style),
                        " to ",
                        &fixed(run.air_between[1] * 100.0, 0, style),
                    ]
                    .concat();
                    rows.row(
                        &told.stands,
                        &[
                            &air,
                            &percent(run.air_lowest, style),
                            &fixed(run.hours_wet, 0, style),
                            &percent(run.drunk_share.min(1.0), style),
                            &significant(run.refills, 2, style),
                            &[&significant(run.litres, 2, style), "\u{a0}L"].concat(),
                            &settled(run, style),
                        ],
                    );
                }
            },
        );
    markup.done()
}

/// Over how many days means were told, and whether they had come to rest.
fn settled(run: &Run, style: NumberStyle) -> String {
    let days = fixed(run.days, 0, style);
    if run.settled {
        [
            "after ",
            &days,
            " days, over ",
            &fixed(run.window, 0, style),
        ]
        .concat()
    } else {
        ["not in ", &days, " days"].concat()
    }
}

fn others(detail: &Detail, style: NumberStyle) -> String {
    let mut markup = Markup::new();
    let heads = ["Instead", "Lay", "Serves or can serve", "There it"];
    markup.table(
        "figures",
        "Other media, best figures",
        &heads,
        &mut |rows| {
            for other in &detail.others {
                rows.row(
                    &other.name,
                    &[
                        &millimetres(other.depth_mm, style),
                        &window_told(other.window_mm, style),
                        in_a_sentence(other.verdict),
                    ],
                );
            }
        },
    );
    markup.done()
}

fn all_figures(answer: &Answer<Detail>, shown: &Shown) -> String {
    let mut markup = Markup::new();
    markup.written(&figure_table(answer.figures.iter().skip(1), shown));
    if let Some(run) = chosen(&answer.detail) {
        markup.written(&hour_by_hour(run, shown.style));
    }
    markup.done()
}

fn hour_by_hour(run: &Run, style: NumberStyle) -> String {
    let mut markup = Markup::new();
    let heads = [
        "O’clock",
        "Water in the tray",
        "Water in the ball",
        "Air",
        "Lowest third",
        "Drunk",
        "Asked for",
        "Refills so far",
    ];
    markup
        .element("h3", &[], "Hour by hour")
        .wide_table("Hour by hour", "", &heads, &mut |rows| {
            for moment in &run.moments {
                rows.row(
                    &fixed(moment.hour, 0, style),
                    &[
                        &millimetres(moment.level_mm, style),
                        &[&significant(moment.water_litres, 3, style), " L"].concat(),
                        &percent(moment.air, style),
                        &percent(moment.air_lowest, style),
                        &[&fixed(moment.drunk_ml, 0, style), " mL"].concat(),
                        &[&fixed(moment.asked_ml, 0, style), " mL"].concat(),
                        &fixed(moment.refills, 0, style),
                    ],
                );
            }
        });
    markup.done()
}
