//! Mix: what goes into the pot, and how it will hold air and water there.

use web_sys::Element;

use super::beside;
use super::reckoning::{self, Beside, Sight};
use crate::app::markup::Markup;
use crate::app::plots::pot_cut::{pot_cut, pot_table};
use crate::app::route::Page;
use crate::app::widgets::figures::{Shown, figure_table};
use crate::measure::{NumberStyle, fixed, significant};
use crate::reckon::answer::Answer;
use crate::reckon::mix::{Detail, Mix, Purchase, is_of_part};

const BESIDE: Beside<Detail> = Beside {
    lead: "Up to four mixes in one pot, or one mix in up to four pots.",
    called: |answer| [&answer.detail.mix, ", in ", &answer.detail.pot].concat(),
};

static SIGHT: Sight<Detail> = Sight {
    page: Page::Mix,
    heading: "Mix",
    beside: Some(BESIDE),
    keeps: None,
    drawing,
    drawing_as_table: |answer, shown| pot_table(&answer.detail, shown.style),
    doing,
    figures: all_figures,
};

/// Opens the page.
pub fn open(into: &Element) {
    reckoning::open::<Mix>(into, &SIGHT);
}

/// Opens the page of mixes side by side.
pub fn open_beside(into: &Element) {
    beside::open::<Mix>(into, &SIGHT, BESIDE);
}

fn drawing(answer: &Answer<Detail>, shown: &Shown, name: &str) -> String {
    pot_cut(&answer.detail, name, shown.style)
}

fn all_figures(answer: &Answer<Detail>, shown: &Shown) -> String {
    figure_table(
        answer
            .figures
            .iter()
            .skip(1)
            .filter(|figure| !is_of_part(&figure.name.name)),
        shown,
    )
}

/// What to measure out and what to buy, and what to mind of salt, acidity and nitrogen.
fn doing(answer: &Answer<Detail>, shown: &Shown) -> String {
    let mut markup = Markup::new();
    markup.written(&shopping(answer, shown));
    if !answer.detail.of_a_class.is_empty() {
        let names = answer.detail.of_a_class.join(", ");
        let sentence = [
            "Class ranges, not measured on your lots: ",
            &names,
            ". A kitchen drain test narrows them: Look up tells how.",
        ];
        markup.element("p", &[("class", "hint")], &sentence.concat());
    }
    if !answer.detail.warnings.is_empty() {
        markup
            .element("h3", &[], "Mind the salt, the acidity, the nitrogen")
            .within("ul", &[("class", "minds")], &mut |list| {
                for sentence in &answer.detail.warnings {
                    list.element("li", &[], sentence);
                }
            });
    }
    markup.done()
}

fn shopping(answer: &Answer<Detail>, shown: &Shown) -> String {
    let mut markup = Markup::new();
    let caption = "Measure out, loose and damp, for all pots";
    markup.table(
        "shopping",
        caption,
        &["Material", "Measure out", "Buy"],
        &mut |rows| {
            let parts = answer
                .figures
                .iter()
                .filter(|figure| is_of_part(&figure.name.name));
            for (figure, purchase) in parts.zip(&answer.detail.shopping) {
                let text = shown.text(figure);
                rows.within("tr", &[], &mut |row| {
                    row.element("th", &[("scope", "row")], &purchase.name)
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

/// "2 bags of 70 L, 9 L left over; 3 to be 9 in 10 sure; 28 to pay".
fn bags(purchase: &Purchase, style: NumberStyle) -> String {
    let count = |bags: f64| {
        if bags == 1.0 {
            "1 bag".to_owned()
        } else {
            [&fixed(bags, 0, style), " bags"].concat()
        }
    };
    let litres = |litres: f64| significant(litres, 2, style);
    let mut said = if purchase.bags > 0.0 {
        [
            &count(purchase.bags),
            " of ",
            &significant(purchase.bag_litres, 3, style),
            " L",
        ]
        .concat()
    } else {
        "none: enough in hand".to_owned()
    };
    said.push_str(&[", ", &litres(purchase.left_over_litres), " L left over"].concat());
    if purchase.bags_to_be_sure > purchase.bags {
        let sure = fixed(purchase.bags_to_be_sure, 0, style);
        said.push_str(&["; ", &sure, " to be 9 in 10 sure"].concat());
    }
    if let Some(cost) = purchase.cost.filter(|cost| *cost > 0.0) {
        said.push_str(&["; ", &fixed(cost, 2, style), " to pay"].concat());
    }
    said
}
