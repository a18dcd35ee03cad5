//! Look up: the figures of the handbook, each with its source.

use web_sys::Element;

use crate::app::live::inside;
use crate::app::markup::Markup;
use crate::app::stored::stored;
use crate::handbook::bed_media::BED_MEDIA;
use crate::handbook::materials::MATERIALS;
use crate::handbook::pots::POTS;
use crate::handbook::thresholds::LIMITS;
use crate::handbook::{Figure, sources};
use crate::measure::{NumberStyle, round_range, significant};

/// Id of the whole.
const LOOK_UP: &str = "look-up";

/// Tests with kitchen means, whose numbers Mix takes: what each is called, and its steps. The ways
/// are those of EN 13041 and EN 12580 brought down to a scale and a pipe (common practice, no source).
static TESTS: [(&str, &[&str]); 2] = [
    (
        "The kitchen drain test",
        &[
            "Take a straight vessel of half a litre to two, 7 to 12 cm tall, with holes in its base that you can tape; better also a second of the same width, 18 to 30 cm tall. Mark the height of filling. Line it with a bag, fill it with water to the mark and weigh: a gram is a millilitre.",
            "Damp the material until it holds together when you squeeze it and does not drip. Dry a weighed handful at 105 °C for a day, never in a microwave oven: what it loses, as a share of its damp weight, is the water in it. Peat and fibre can catch fire; stay by the oven.",
            "Fill the vessel loosely, let it drop three times from 5 cm, fill up and level. Weigh it, less the vessel: that is “filled”.",
            "Tape the holes. Let water in from below until it stands just at the top, leave it for a day (dry peat and bark two), fill up, wipe and weigh: that is “soaked”.",
            "Open the holes and let it drain upright on a grid for an hour (peat and loam two). Weigh it: that is “drained”.",
            "Do it two or three times; where the dry weight of a litre is off by more than 8 in 100, leave that run out. Gloves and a mask while the material is dry.",
        ],
    ),
    (
        "The bucket test",
        &[
            "Measure out the parts of your mix loose, each struck off level and not pressed, ten litres or more together.",
            "Mix them damp, and measure the mix the same way. What is missing was lost between the grains.",
        ],
    ),
];

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
        "What Longtom reckons with. A range is a best figure with its limits: 1 in 10 lies below them, and 1 in 10 above. “Class” stands where a range holds for a kind of material and was not measured on one lot: your heap may lie anywhere in it, and a drain test says where.",
    );
    for (heading, steps) in TESTS {
        markup
            .element("h2", &[], heading)
            .within("ol", &[("class", "steps")], &mut |list| {
                for step in steps {
                    list.element("li", &[], step);
                }
            });
    }
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
    section(
        &mut markup,
        "What beds are laid of",
        "Grain and weight as bought; what grains carry to the next once the gaps between them are empty is a judgement.",
        &[
            "Medium",
            "Grade",
            "Grain, mm",
            "Gaps, %",
            "Within the grains, %",
            "A litre, g",
            "From",
        ],
        &mut |rows| {
            for medium in BED_MEDIA {
                rows.row(
                    medium.name,
                    &[
                        medium.grade,
                        &figure(&medium.grain_mm, 1.0, style),
                        &figure(&medium.gaps, 100.0, style),
                        &figure(&medium.inner_pores, 100.0, style),
                        &figure(&medium.loose_g_per_l, 1.0, style),
                        medium.inner_pores.source.short,
                    ],
                );
            }
        },
    );
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
    markup.wide_table(heading, "", heads, rows);
}

fn figure(figure: &Figure, times: f64, style: NumberStyle) -> String {
    let range = figure.range.map_increasing(|value| value * times);
    let printed = round_range(range.low(), range.best(), range.high(), style);
    let class = if figure.is_of_a_class() {
        "), class"
    } else {
        ")"
    };
    [
        &printed.best,
        " (",
        &printed.low,
        " to ",
        &printed.high,
        class,
    ]
    .concat()
}

fn percent(fraction: f64, style: NumberStyle) -> String {
    [&significant(fraction * 100.0, 2, style), "%"].concat()
}
