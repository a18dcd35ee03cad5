//! Season: how many to sow, when, whether all find room, and what to buy.

use std::cell::RefCell;
use std::rc::Rc;

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent};

use super::reckoning::{self, DRAWN, Sight};
use crate::app::desk::Desk;
use crate::app::live::{element, heard, target};
use crate::app::markup::Markup;
use crate::app::plots::season::{DAYS_ACROSS, OF_ROW, season_plot};
use crate::app::route::Page;
use crate::app::widgets::figures::{Shown, figure_table};
use crate::measure::{NumberStyle, fixed, significant};
use crate::nursery::Day;
use crate::reckon::answer::Answer;
use crate::reckon::season::{BatchTold, Bought, Detail, OwnTold, Season, SownTold, kept};

static SIGHT: Sight<Detail> = Sight {
    page: Page::Season,
    heading: "Season",
    beside: None,
    keeps: Some(kept),
    drawing: |answer, shown, name| season_plot(&answer.detail, name, shown.style),
    drawing_as_table,
    doing,
    figures: all_figures,
};

/// Opens the page.
pub fn open(into: &Element) {
    let desk = reckoning::open::<Season>(into, &SIGHT);
    hear_dragging(desk);
}

/// A bar that is being dragged: its sowing, where it was taken hold of, the day that it had, and how many days of the
/// drawing lie in a pixel.
#[derive(Clone)]
struct Held {
    row: usize,
    from_x: f64,
    day: Day,
    days_in_pixel: f64,
}

/// Bars are dragged to another day: what is wanted then, or sown then, follows at once. By keyboard and by tap the same
/// is done at the day of the sowing.
fn hear_dragging(desk: Desk<Season>) {
    let held: Rc<RefCell<Option<Held>>> = Rc::default();
    let taken = Rc::clone(&held);
    heard(DRAWN, "pointerdown", move |event| {
        let Some(event) = event.dyn_ref::<PointerEvent>() else {
            return;
        };
        let hold = hold(desk, event);
        if hold.is_some() {
            event.prevent_default();
            // What is drawn anew under the finger still belongs to this hold.
            if let Some(drawn) = element::<Element>(DRAWN) {
                let _ = drawn.set_pointer_capture(event.pointer_id());
            }
        }
        taken.replace(hold);
    });
    let moved = Rc::clone(&held);
    heard(DRAWN, "pointermove", move |event| {
        let (Some(event), Some(held)) = (event.dyn_ref::<PointerEvent>(), moved.borrow().clone())
        else {
            return;
        };
        let days = (f64::from(event.client_x()) - held.from_x) * held.days_in_pixel;
        let day = held.day.plus(days.round() as i32).iso();
        let stands = desk.question.with_untracked(|question| {
            question
                .sowings
                .get(held.row)
                .is_none_or(|sowing| sowing.day == day)
        });
        if !stands {
            desk.question.update(|question| {
                if let Some(sowing) = question.sowings.get_mut(held.row) {
                    sowing.day = day;
                }
            });
        }
    });
    for end in ["pointerup", "pointercancel"] {
        let held = Rc::clone(&held);
        heard(DRAWN, end, move |_| {
            held.take();
        });
    }
}

/// Takes hold of the bar under a pointer; nothing where there is none.
fn hold(desk: Desk<Season>, event: &PointerEvent) -> Option<Held> {
    let hit = target::<Element>(event)?;
    let bar = hit.closest(&["[", OF_ROW, "]"].concat()).ok().flatten()?;
    let row: usize = bar.get_attribute(OF_ROW)?.parse().ok()?;
    let paper = hit.closest("svg").ok().flatten()?;
    let days: f64 = element::<Element>(DRAWN)?
        .query_selector(&["[", DAYS_ACROSS, "]"].concat())
        .ok()
        .flatten()?
        .get_attribute(DAYS_ACROSS)?
        .parse()
        .ok()?;
    let day = desk
        .question
        .with_untracked(|question| Day::read(&question.sowings.get(row)?.day).ok())?;
    let wide = f64::from(paper.client_width());
    (wide > 0.0).then(|| Held {
        row,
        from_x: f64::from(event.client_x()),
        day,
        days_in_pixel: days / wide,
    })
}

/// A day as a table has it: "28 Mar".
fn short(iso: &str) -> String {
    Day::from_iso(iso).map_or_else(|| "–".to_owned(), Day::in_short)
}

/// From the early day to the late one, or the one day while the others are not known.
fn from_to([early, best, late]: &[String; 3]) -> String {
    if early == late {
        short(best)
    } else {
        [&short(early), "–", &short(late)].concat()
    }
}

fn drawing_as_table(answer: &Answer<Detail>, shown: &Shown) -> String {
    let detail = &answer.detail;
    let mut markup = Markup::new();
    for (place, called) in detail.places.iter().enumerate() {
        let caption = ["Room taken: ", called].concat();
        let heads = ["Week of", "Taken", "Hours of work"];
        markup.table("figures", &caption, &heads, &mut |rows| {
            for week in &detail.weeks {
                let taken = week.taken.get(place).copied().unwrap_or(0.0);
                if taken > 0.0 {
                    rows.row(
                        &short(&week.monday),
                        &[
                            &[&fixed(100.0 * taken, 0, shown.style), "\u{a0}%"].concat(),
                            &fixed(week.hours, 1, shown.style),
                        ],
                    );
                }
            }
        });
    }
    markup.done()
}

fn doing(answer: &Answer<Detail>, shown: &Shown) -> String {
    let detail = &answer.detail;
    let mut markup = Markup::new();
    if !detail.mends.is_empty() {
        markup.element("h2", &[], "What would mend it");
        list(&mut markup, &detail.mends);
    }
    if !detail.sown.is_empty() {
        let heads = ["Crop", "Sow", "How many", "Ready"];
        markup.element("h2", &[], "What to sow, and when").table(
            "figures",
            "In the order of its days",
            &heads,
            &mut |rows| {
                for sown in &detail.sown {
                    rows.row(
                        &sown.crop,
                        &[&short(&sown.on), &cells(sown), &from_to(&sown.ready)],
                    );
                }
            },
        );
    }
    let remarks: Vec<String> = detail
        .sown
        .iter()
        .filter(|sown| !sown.remark.is_empty())
        .map(|sown| [&sown.crop, ", sown ", &short(&sown.on), ": ", &sown.remark].concat())
        .collect();
    list(&mut markup, &remarks);
    list(&mut markup, &detail.tests);
    if !detail.first_until.is_empty() {
        let caption = ["For what is sown until ", &short(&detail.first_until)].concat();
        let lines = &detail.bought_first;
        bought(
            &mut markup,
            "What to buy first",
            &caption,
            lines,
            shown.style,
        );
    }
    buying(&mut markup, detail, shown.style);
    under_way(&mut markup, &detail.batches);
    own(&mut markup, &detail.own, shown.style);
    if detail.sown.is_empty() {
        return markup.done();
    }
    markup.within("div", &[("class", "unprinted")], &mut |more| {
        let heads = ["Crop and day sown", "Up", "Potted"];
        let caption = "Early in 1 season of 10, late in 1 of 10";
        more.element("h2", &[], "On the way")
            .table("figures", caption, &heads, &mut |rows| {
                for sown in &detail.sown {
                    let head = [&sown.crop, ", ", &short(&sown.on)].concat();
                    rows.row(&head, &[&from_to(&sown.up), &from_to(&sown.potted)]);
                }
            });
    });
    markup.done()
}

fn cells(sown: &SownTold) -> String {
    let what = if sown.into_pots { " pots" } else { " cells" };
    [&sown.cells.to_string(), what].concat()
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

/// What is sown already: what happened, and what was meant.
fn under_way(markup: &mut Markup, batches: &[BatchTold]) {
    if batches.is_empty() {
        return;
    }
    let heads = ["Crop and day sown", "Up", "Potted", "Ready"];
    let caption = "What happened, and (in brackets) what is to come";
    markup.element("h2", &[], "What is sown already").table(
        "figures",
        caption,
        &heads,
        &mut |rows| {
            for batch in batches {
                let head = [&batch.crop, ", ", &short(&batch.on)].concat();
                let stage = |days: &[String; 3], known: bool| {
                    if known {
                        short(&days[1])
                    } else {
                        ["(", &from_to(days), ")"].concat()
                    }
                };
                let [up, potted, ready] = batch.known;
                let mut last = stage(&batch.ready, ready);
                if !batch.picked.is_empty() {
                    last = ["cut ", &short(&batch.picked)].concat();
                }
                if let [_, meant] = &batch.meant
                    && !meant.is_empty()
                {
                    last = [&last, ", meant ", &short(meant)].concat();
                }
                rows.row(
                    &head,
                    &[&stage(&batch.up, up), &stage(&batch.potted, potted), &last],
                );
            }
        },
    );
}

/// What one's own batches tell of each crop, beside the handbook.
fn own(markup: &mut Markup, all: &[OwnTold], style: NumberStyle) {
    if all.is_empty() {
        return;
    }
    let heads = ["What", "Handbook", "With your batches"];
    let caption = "In the middle the most likely, around it 8 batches of 10";
    markup
        .element("h2", &[], "What your own batches tell")
        .table("figures", caption, &heads, &mut |rows| {
            for own in all {
                let batches = if own.batches == 1 {
                    "1 batch".to_owned()
                } else {
                    [&own.batches.to_string(), " batches"].concat()
                };
                let head = [&own.crop, ", ", &own.what, ", by ", &batches].concat();
                let told = |[low, best, high]: [f64; 3]| {
                    let number = |value: f64| significant(value, 3, style);
                    let ends = [&number(low), "–", &number(high)].concat();
                    [&number(best), " ", &own.unit, " (", &ends, ")"].concat()
                };
                rows.row(&head, &[&told(own.handbook), &told(own.own)]);
            }
        });
}

fn bought(markup: &mut Markup, heading: &str, caption: &str, lines: &[Bought], style: NumberStyle) {
    let heads = ["What", "Needed", "Buy", "Cost"];
    markup
        .element("h2", &[], heading)
        .table("figures", caption, &heads, &mut |rows| {
            for line in lines {
                let cost = line
                    .cost
                    .map_or_else(|| "–".to_owned(), |cost| fixed(cost, 2, style));
                rows.row(&line.what, &[&line.needed, &line.buy.to_string(), &cost]);
            }
        });
}

fn buying(markup: &mut Markup, detail: &Detail, style: NumberStyle) {
    if detail.bought.is_empty() {
        return;
    }
    bought(markup, "What to buy", "", &detail.bought, style);
    let said = match detail.total {
        Some(total) => [
            "In all ",
            &significant(total, 4, style),
            " in your money, as far as prices are told.",
        ]
        .concat(),
        None => {
            "Give prices under More of each sowing and under Mix, trays and beds to see what it costs.".to_owned()
        }
    };
    markup.element("p", &[], &said);
}

fn all_figures(answer: &Answer<Detail>, shown: &Shown) -> String {
    figure_table(answer.figures.iter().skip(1), shown)
}
