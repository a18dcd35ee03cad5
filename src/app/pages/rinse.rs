//! Rinse: how often, with how much water, and what the water running off tells.

use web_sys::Element;

use super::reckoning::{self, Sight};
use crate::app::markup::Markup;
use crate::app::plots::falling::{Falling, falling};
use crate::app::route::Page;
use crate::app::widgets::figures::{Shown, figure_table};
use crate::measure::{NumberStyle, fixed, significant};
use crate::reckon::answer::{Answer, Figure};
use crate::reckon::rinse::{Detail, EXTRACT_OF_RINSE, RUN_OFF_OF_RINSE};

static SIGHT: Sight<Detail> = Sight {
    page: Page::Rinse,
    heading: "Rinse",
    beside: None,
    keeps: None,
    drawing,
    drawing_as_table: |answer, shown| by_rinse(answer, shown, EXTRACT_OF_RINSE, "Extract"),
    doing: |answer, shown| by_rinse(answer, shown, RUN_OFF_OF_RINSE, "Runs off at"),
    figures: all_figures,
};

/// Opens the page.
pub fn open(into: &Element) {
    reckoning::open::<crate::reckon::rinse::Rinse>(into, &SIGHT);
}

fn drawing(answer: &Answer<Detail>, shown: &Shown, _: &str) -> String {
    let detail = &answer.detail;
    let steps: Vec<[f64; 3]> = detail
        .rinses
        .iter()
        .map(|step| [step.extract.low, step.extract.best, step.extract.high])
        .collect();
    let ends = [steps.first(), steps.last()].map(|end| end.map_or(0.0, |end| end[1]));
    let number = |value: f64| significant(value, 2, shown.style);
    let described = [
        "The ",
        &detail.extract,
        " falls from ",
        &number(ends[0]),
        " to ",
        &number(ends[1]),
        " mS/cm over ",
        &number(detail.rinses.len() as f64 - 1.0),
        " rinses; it is to come down to ",
        &number(detail.target_ms_per_cm),
        ", and this water allows no less than ",
        &number(detail.least_ms_per_cm),
        ".",
    ]
    .concat();
    let drawn = Falling {
        steps: &steps,
        target: detail.target_ms_per_cm,
        floor: detail.least_ms_per_cm,
        title: "Salt by rinse",
        described: &described,
        below: "rinses",
        unit: &["mS/cm, ", &detail.extract].concat(),
    };
    falling(&drawn, shown.style)
}

/// What is told of each rinse: the figures whose names begin so.
fn by_rinse(answer: &Answer<Detail>, shown: &Shown, which: &str, head: &str) -> String {
    let style: NumberStyle = shown.style;
    let mut markup = Markup::new();
    let heads = ["Rinse", "Water so far", head, "8 in 10 lie within"];
    markup.table("figures", "Rinse by rinse", &heads, &mut |rows| {
        let figures = answer
            .figures
            .iter()
            .filter(|figure| figure.name.name.starts_with(which));
        for (figure, step) in figures.zip(answer.detail.rinses.iter().skip(1)) {
            let text = shown.text(figure);
            rows.row(
                &fixed(step.rinse, 0, style),
                &[
                    &[&significant(step.water_litres, 3, style), " L"].concat(),
                    &text.best,
                    text.span.as_deref().unwrap_or("–"),
                ],
            );
        }
    });
    markup.done()
}

fn all_figures(answer: &Answer<Detail>, shown: &Shown) -> String {
    let of_one_rinse = |figure: &&Figure| {
        figure.name.name.starts_with(EXTRACT_OF_RINSE)
            || figure.name.name.starts_with(RUN_OFF_OF_RINSE)
    };
    let whole = answer.figures.iter().skip(1);
    figure_table(whole.filter(|figure| !of_one_rinse(figure)), shown)
}
