//! Look up: the figures of the handbook, each with its source.

use web_sys::Element;

use crate::app::live::inside;
use crate::app::markup::Markup;
use crate::app::stored::stored;
use crate::handbook::materials::MATERIALS;
use crate::handbook::pots::POTS;
use crate::handbook::thresholds::LIMITS;
use crate::handbook::{Figure, sources};
use crate::measure::{NumberStyle, round_range, significant};

/// Id of the whole.
const LOOK_UP: &str = "look-up";

/// Opens the page.
pub fn open(into: &Element) {
    let mut markup = Markup::new();
    markup.mark("div", &[("id", LOOK_UP), ("class", "look-up")]);
    into.set_inner_html(&markup.done());
    let stored = stored();
    inside(LOOK_UP, move || page(stored.style()));
}

fn page(style: NumberStyle) -> String {
    let mut markup = Markup::new();
    markup.element("h1", &[], "Look up").element(
        "p",
        &[("class", "lead")],
        "What Longtom reckons with. A range is a best figure with its limits: 1 in 10 lies below them, and 1 in 10 above. A class of material is not your heap.",
    );
    let heads = [
        "Material",
        "Dry, g/L",
        "Pore space, %",
        "Water at 10 cm of suction, %",
        "Sources",
    ];
    section(&mut markup, "Materials", "", &heads, &mut |rows| {
        for material in MATERIALS {
            let sources = [
                material.water_at_10_cm.source.short,
                "; ",
                material.pore_space.source.short,
            ]
            .concat();
            rows.row(
                &material.name_and_grade(),
                &[
                    &figure(&material.dry_density_g_per_l, 1.0, style),
                    &figure(&material.pore_space, 100.0, style),
                    &figure(&material.water_at_10_cm, 100.0, style),
                    &sources,
                ],
            );
        }
    });
    let heads = [
        "Pot",
        "Rim, mm",
        "Base, mm",
        "Height, mm",
        "To the brim, L",
        "Source",
    ];
    section(&mut markup, "Pots", "", &heads, &mut |rows| {
        for pot in POTS {
            let millimetres =
                |length: crate::measure::Length| significant(length.in_millimetres(), 3, style);
            rows.row(
                pot.name,
                &[
                    &millimetres(pot.rim),
                    &millimetres(pot.base),
                    &millimetres(pot.height),
                    &significant(pot.vessel().volume_to(pot.height).in_litres(), 2, style),
                    pot.source.short,
                ],
            );
        }
    });
    let heads = [
        "For",
        "Air fails below",
        "Air serves",
        "Easily available water, from",
        "Water once drained, from",
    ];
    section(
        &mut markup,
        "How much air and water serves",
        sources::AIR_JUDGEMENT.full,
        &heads,
        &mut |rows| {
            for limits in LIMITS {
                let serves = [
                    percent(limits.air_serves_from, style),
                    percent(limits.air_serves_to, style),
                ]
                .join(" to ");
                rows.row(
                    limits.name,
                    &[
                        &percent(limits.air_fails_below, style),
                        &serves,
                        &percent(limits.easy_water_serves_from, style),
                        &percent(limits.water_serves_from, style),
                    ],
                );
            }
        },
    );
    markup
        .element("h2", &[], "Sources")
        .within("ul", &[("class", "sources")], &mut |list| {
            for source in sources::ALL {
                list.within("li", &[], &mut |item| {
                    item.element("strong", &[], source.short)
                        .element("span", &[], source.full)
                        .element("small", &[], source.standing.words());
                });
            }
        });
    markup.done()
}

/// A heading, a sentence which may be empty, and a table that may be wider than the page.
fn section(
    markup: &mut Markup,
    heading: &str,
    sentence: &str,
    heads: &[&str],
    rows: &mut dyn FnMut(&mut Markup),
) {
    markup.element("h2", &[], heading);
    if !sentence.is_empty() {
        markup.element("p", &[], sentence);
    }
    let wide = [
        ("class", "wide"),
        ("tabindex", "0"),
        ("role", "region"),
        ("aria-label", heading),
    ];
    markup.within("div", &wide, &mut |wide| {
        wide.table("figures", "", heads, rows);
    });
}

fn figure(figure: &Figure, times: f64, style: NumberStyle) -> String {
    let range = figure.range.map_increasing(|value| value * times);
    let printed = round_range(range.low(), range.best(), range.high(), style);
    [
        &printed.best,
        " (",
        &printed.low,
        " to ",
        &printed.high,
        ")",
    ]
    .concat()
}

fn percent(fraction: f64, style: NumberStyle) -> String {
    [&significant(fraction * 100.0, 2, style), "%"].concat()
}
