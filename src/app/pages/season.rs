//! Season: how many to sow, when, whether all find room, and what to buy.

use web_sys::Element;

use super::reckoning::{self, Sight};
use crate::app::markup::Markup;
use crate::app::plots::season::season_plot;
use crate::app::route::Page;
use crate::app::widgets::figures::{Shown, figure_table};
use crate::measure::{NumberStyle, fixed, significant};
use crate::nursery::Day;
use crate::reckon::answer::Answer;
use crate::reckon::season::{Detail, Season, SownTold};

static SIGHT: Sight<Detail> = Sight {
    page: Page::Season,
    heading: "Season",
    beside: None,
    keeps: None,
    drawing: |answer, shown, name| season_plot(&answer.detail, name, shown.style),
    drawing_as_table,
    doing,
    figures: all_figures,
};

/// Opens the page.
pub fn open(into: &Element) {
    reckoning::open::<Season>(into, &SIGHT);
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
    let remarks: Vec<String> = detail
        .sown
        .iter()
        .filter(|sown| !sown.remark.is_empty())
        .map(|sown| [&sown.crop, ", sown ", &short(&sown.on), ": ", &sown.remark].concat())
        .collect();
    list(&mut markup, &remarks);
    list(&mut markup, &detail.tests);
    buying(&mut markup, detail, shown.style);
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

fn buying(markup: &mut Markup, detail: &Detail, style: NumberStyle) {
    let heads = ["What", "Needed", "Buy", "Cost"];
    markup
        .element("h2", &[], "What to buy")
        .table("figures", "", &heads, &mut |rows| {
            for line in &detail.bought {
                let cost = line
                    .cost
                    .map_or_else(|| "–".to_owned(), |cost| fixed(cost, 2, style));
                rows.row(&line.what, &[&line.needed, &line.buy.to_string(), &cost]);
            }
        });
    let said = match detail.total {
        Some(total) => [
            "In all ",
            &significant(total, 4, style),
            " in your money, as far as prices are told.",
        ]
        .concat(),
        None => {
            "Give prices under More of each sowing and under Mix to see what it costs.".to_owned()
        }
    };
    markup.element("p", &[], &said);
}

fn all_figures(answer: &Answer<Detail>, shown: &Shown) -> String {
    figure_table(answer.figures.iter().skip(1), shown)
}
