//! Mix: what goes into the pot, and how it will hold air and water there.

use web_sys::Element;

use super::reckoning::{self, Sight};
use crate::app::markup::Markup;
use crate::app::plots::pot_cut::{pot_cut, pot_table};
use crate::app::route::Page;
use crate::app::widgets::figures::{Shown, figure_table};
use crate::measure::{NumberStyle, fixed, significant};
use crate::reckon::answer::{Answer, Figure};
use crate::reckon::mix::{Detail, Mix, Purchase};

/// Figures before those of the single parts: the rest of the outcome is the table of what to measure out.
const PART_FIGURE: &str = "litres_of_";

static SIGHT: Sight<Detail> = Sight {
    page: Page::Mix,
    heading: "Mix",
    drawing,
    drawing_as_table: |answer, shown| pot_table(&answer.detail, shown.style),
    doing: shopping,
    figures: all_figures,
};

/// Opens the page.
pub fn open(into: &Element) {
    reckoning::open::<Mix>(into, &SIGHT);
}

fn drawing(answer: &Answer<Detail>, shown: &Shown) -> String {
    pot_cut(&answer.detail, answer.detail.in_tray, shown.style)
}

fn all_figures(answer: &Answer<Detail>, shown: &Shown) -> String {
    figure_table(
        answer
            .figures
            .iter()
            .skip(1)
            .filter(|figure| !is_of_part(figure)),
        shown,
    )
}

fn is_of_part(figure: &Figure) -> bool {
    figure.name.name.starts_with(PART_FIGURE)
}

/// What to measure out and what to buy.
fn shopping(answer: &Answer<Detail>, shown: &Shown) -> String {
    let mut markup = Markup::new();
    let caption = "Measure out, loose and damp, for all pots";
    markup.table(
        "shopping",
        caption,
        &["Material", "Measure out", "Bags"],
        &mut |rows| {
            let parts = answer.figures.iter().filter(|figure| is_of_part(figure));
            for (figure, purchase) in parts.zip(&answer.detail.shopping) {
                let text = shown.text(figure);
                rows.within("tr", &[], &mut |row| {
                    row.element(
                        "th",
                        &[("scope", "row")],
                        figure.name.label.trim_end_matches(" to measure out"),
                    )
                    .within("td", &[], &mut |cell| {
                        cell.text(&text.best).element(
                            "small",
                            &[],
                            text.span.as_deref().unwrap_or_default(),
                        );
                    })
                    .element("td", &[], &bags(purchase, shown.style));
                });
            }
        },
    );
    markup.done()
}

/// "2 bags of 70 L, 9 L left over; 3 to be 9 in 10 sure".
fn bags(purchase: &Purchase, style: NumberStyle) -> String {
    let count = |bags: f64| {
        if bags == 1.0 {
            "1 bag".to_owned()
        } else {
            [&fixed(bags, 0, style), " bags"].concat()
        }
    };
    let sure = if purchase.bags_to_be_sure > purchase.bags {
        [
            "; ",
            &fixed(purchase.bags_to_be_sure, 0, style),
            " to be 9 in 10 sure",
        ]
        .concat()
    } else {
        String::new()
    };
    [
        &count(purchase.bags),
        " of ",
        &significant(purchase.bag_litres, 3, style),
        " L, ",
        &significant(purchase.left_over_litres, 2, style),
        " L left over",
        &sure,
    ]
    .concat()
}
