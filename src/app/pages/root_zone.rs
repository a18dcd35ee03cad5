//! Root zone: where pots stand this month, what their roots feel, what it is worth and what it costs.

use web_sys::Element;

use super::reckoning::{self, Sight};
use crate::app::markup::Markup;
use crate::app::plots::warmth::{Day, Warmth, warmth};
use crate::app::route::Page;
use crate::app::widgets::figures::{Shown, figure_table};
use crate::app::words::millimetres;
use crate::measure::{Entry, NumberStyle, fixed, significant};
use crate::nursery::day::month_name;
use crate::reckon::answer::Answer;
use crate::reckon::form::Texts;
use crate::reckon::root_zone::further::Further;
use crate::reckon::root_zone::{Detail, FITTED_ENDS, RootZone, fitted_at, told_of};

static SIGHT: Sight<Detail> = Sight {
    page: Page::RootZone,
    heading: "Root zone",
    beside: None,
    keeps: Some(fitted_texts),
    drawing,
    drawing_as_table,
    doing,
    figures: all_figures,
};

/// How roots of each standing are drawn, in their order.
const CLASSES: [&str; 3] = ["dashed", "border", "heated"];
/// What they are called where their lines end.
const ENDS: [&str; 3] = ["on floor", "raised", "heated"];

/// What was fitted, by the paths at which the question asks for it.
fn fitted_texts(detail: &Detail) -> Texts {
    /// To a thousandth: what lies beyond is noise.
    const THOUSANDTHS: f64 = 1000.0;
    let rounded = |value: f64| Entry::number((value * THOUSANDTHS).round() / THOUSANDTHS).stored();
    let figures = detail.fitted.iter().flat_map(|figure| {
        let ends = FITTED_ENDS.into_iter().zip(figure.now);
        ends.map(|(end, value)| (fitted_at(&figure.key, end), rounded(value)))
    });
    figures.collect()
}

/// Opens the page.
pub fn open(into: &Element) {
    reckoning::open::<RootZone>(into, &SIGHT);
}

fn celsius(value: f64, style: NumberStyle) -> String {
    [&fixed(value, 1, style), "\u{a0}°C"].concat()
}

/// A number with its sign; what is as good as nought has none.
fn signed(value: f64, decimals: usize, style: NumberStyle) -> String {
    let number = fixed(value.abs(), decimals, style);
    let nought = number == fixed(0.0, decimals, style);
    let sign = match value {
        _ if nought => "",
        value if value < 0.0 => "−",
        _ => "+",
    };
    [sign, &number].concat()
}

/// A difference, with its sign.
fn kelvins(value: f64, style: NumberStyle) -> String {
    [&signed(value, 1, style), "\u{a0}K"].concat()
}

/// A factor as per cent more or less, with its sign.
fn change(times: f64, style: NumberStyle) -> String {
    let per_cent = 100.0 * (times - 1.0);
    let decimals = usize::from(per_cent.abs() < 10.0);
    [&signed(per_cent, decimals, style), "\u{a0}%"].concat()
}

fn drawing(answer: &Answer<Detail>, shown: &Shown, name: &str) -> String {
    let detail = &answer.detail;
    let mut places = vec![Warmth {
        what: "air at bench",
        class: "asked",
        temperatures_c: &detail.bench_air_c,
    }];
    for ((stand, class), what) in detail.stands.iter().zip(CLASSES).zip(ENDS) {
        places.push(Warmth {
            what,
            class,
            temperatures_c: &stand.roots_c,
        });
    }
    if let Some(stand) = detail.stands.get(detail.chosen) {
        places.push(Warmth {
            what: "floor below",
            class: "ground",
            temperatures_c: &stand.floor_c,
        });
    }
    let mut described = "Roots through the day: ".to_owned();
    for stand in &detail.stands {
        let least = stand.roots_c.iter().copied().fold(f64::INFINITY, f64::min);
        let most = stand
            .roots_c
            .iter()
            .copied()
            .fold(f64::NEG_INFINITY, f64::max);
        let told = [
            stand.called.as_str(),
            " from ",
            &celsius(least, shown.style),
            " to ",
            &celsius(most, shown.style),
            "; ",
        ];
        described.push_str(&told.concat());
    }
    described.push_str("beside the air over the bench and the floor below.");
    warmth(
        &Day {
            places: &places,
            limit_c: detail.chilled_below_c,
            name,
            title: "Roots through the day",
            described: &described,
        },
        shown.style,
    )
}

fn drawing_as_table(answer: &Answer<Detail>, shown: &Shown) -> String {
    let detail = &answer.detail;
    let mut markup = Markup::new();
    let roots: Vec<&[f64]> = detail
        .stands
        .iter()
        .map(|stand| stand.roots_c.as_slice())
        .collect();
    let heads = ["O’clock", "On the floor", "Raised", "Heated"];
    through_the_day(&mut markup, "Roots, °C", &heads, &roots, shown.style);
    let mut around: Vec<&[f64]> = vec![&detail.bench_air_c, &detail.floor_air_c];
    around.extend(
        detail
            .stands
            .get(detail.chosen)
            .map(|stand| stand.floor_c.as_slice()),
    );
    let heads = ["O’clock", "Air at bench", "Air at floor", "Floor below"];
    through_the_day(
        &mut markup,
        "Air and floor, °C",
        &heads,
        &around,
        shown.style,
    );
    markup.done()
}

/// Temperatures every second hour.
fn through_the_day(
    markup: &mut Markup,
    caption: &str,
    heads: &[&str],
    places: &[&[f64]],
    style: NumberStyle,
) {
    let times = places.first().map_or(0, |temperatures| temperatures.len());
    markup.table("figures", caption, heads, &mut |rows| {
        for time in (0..times).step_by((times / 12).max(1)) {
            let cells: Vec<String> = places
                .iter()
                .map(|temperatures| at(temperatures, time, style))
                .collect();
            let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
            let hour = time as f64 * 24.0 / times.max(1) as f64;
            rows.row(&fixed(hour, 0, style), &cells);
        }
    });
}

fn at(temperatures_c: &[f64], time: usize, style: NumberStyle) -> String {
    temperatures_c
        .get(time)
        .map_or_else(|| "–".to_owned(), |value| fixed(*value, 1, style))
}

fn doing(answer: &Answer<Detail>, shown: &Shown) -> String {
    let detail = &answer.detail;
    let style = shown.style;
    let mut markup = Markup::new();
    markup.within("div", &[("class", "unprinted")], &mut |more| {
        raising(more, detail, style);
        own_readings(more, detail, style);
        if !detail.left_out.is_empty() {
            more.element("p", &[("class", "hint")], &detail.left_out);
        }
    });
    if let Some(further) = &detail.further {
        markup.written(&beyond(detail, further, style));
    }
    markup.done()
}

/// What raising does, part by part.
fn raising(markup: &mut Markup, detail: &Detail, style: NumberStyle) {
    let heads = ["Part", "Coldest", "Mean", "Growth"];
    let none = || "–".to_owned();
    markup
        .element("h2", &[], "What raising does, part by part")
        .table("figures", "Raised against the floor", &heads, &mut |rows| {
            for cause in &detail.causes {
                rows.row(
                    &cause.what,
                    &[
                        &cause.lowest_k.map_or_else(none, |k| kelvins(k, style)),
                        &cause.mean_k.map_or_else(none, |k| kelvins(k, style)),
                        &cause.growth.map_or_else(none, |times| change(times, style)),
                    ],
                );
            }
        })
        .element("p", &[], &detail.not_in_it)
        .element("p", &[], &detail.settled_by);
}

/// What one's own readings tell of this house.
fn own_readings(markup: &mut Markup, detail: &Detail, style: NumberStyle) {
    if !detail.own.is_empty() {
        markup
            .element("h2", &[], "Fitted to your readings")
            .element("p", &[], &detail.own);
    }
    if !detail.fitted_before.is_empty() {
        markup.element("p", &[("class", "hint")], &detail.fitted_before);
    }
    if detail.fitted.is_empty() {
        return;
    }
    let heads = ["Figure", "Before", "Now", "They told"];
    let range = |[low, best, high]: [f64; 3]| {
        let two = |value: f64| significant(value, 2, style);
        [&two(best), " (", &two(low), "–", &two(high), ")"].concat()
    };
    markup.table("figures", "What was fitted", &heads, &mut |rows| {
        for figure in &detail.fitted {
            rows.row(
                &figure.what,
                &[
                    &range(figure.before),
                    &range(figure.now),
                    told_of(figure.doubt_left),
                ],
            );
        }
    });
    markup.within("details", &[], &mut |more| {
        more.element("summary", &[], "Reading by reading");
        let heads = ["Reading, °C", "Read", "Before", "Now"];
        more.table("figures", "", &heads, &mut |rows| {
            for reading in &detail.readings {
                let cells = [reading.read_c, reading.before_c, reading.now_c];
                let cells = cells.map(|value| fixed(value, 1, style));
                rows.row(&reading.what, &[&cells[0], &cells[1], &cells[2]]);
            }
        });
    });
}

/// What is looked for beyond the month.
fn beyond(detail: &Detail, further: &Further, style: NumberStyle) -> String {
    let mut markup = Markup::new();
    markup
        .element("h2", &[], "The heated bench")
        .element("p", &[], &detail.hold);
    let heads = ["Bench", "Roots at coldest", "kWh/m² a day", "A season"];
    markup.table("figures", "", &heads, &mut |rows| {
        for row in &detail.heat {
            let season = [&significant(row.season_kwh, 2, style), "\u{a0}kWh"].concat();
            rows.row(
                &row.what,
                &[
                    &celsius(row.lowest_c, style),
                    &fixed(row.kwh_per_m2, 1, style),
                    &row.season_cost.map_or(season, |cost| fixed(cost, 0, style)),
                ],
            );
        }
    });
    let raised = &further.raised_covered;
    let covered = [
        "A cover closed at night over raised pots, without heat, keeps their roots above ",
        &celsius(raised.lowest_c, style),
        " and makes growth ",
        &change(raised.growth, style),
        " against the open floor.",
    ];
    markup.within("div", &[("class", "unprinted")], &mut |more| {
        more.within("ul", &[], &mut |list| {
            for row in &detail.heat {
                list.element("li", &[], &[&row.what, ": ", &row.said, "."].concat());
            }
        })
        .element("p", &[], &covered.concat());
        year(more, detail, further, style);
        height(more, detail, further, style);
        july(more, detail, style);
    });
    markup.done()
}

fn year(markup: &mut Markup, detail: &Detail, further: &Further, style: NumberStyle) {
    let heads = ["Month", "Mean on floor", "Raised", "Bench grows"];
    markup
        .element("h2", &[], "Through the year")
        .element("p", &[], &detail.overtakes)
        .table(
            "figures",
            "Roots on the mean, and growth against the floor",
            &heads,
            &mut |rows| {
                for (place, month) in (1..).zip(&further.months) {
                    let [floor, raised] = month.mean_c;
                    rows.row(
                        month_name(place),
                        &[
                            &celsius(floor, style),
                            &kelvins(raised - floor, style),
                            &change(month.growth[1], style),
                        ],
                    );
                }
            },
        );
}

fn height(markup: &mut Markup, detail: &Detail, further: &Further, style: NumberStyle) {
    let heads = ["Height", "Coldest", "Mean", "Growth"];
    markup
        .element("h2", &[], "How high")
        .element("p", &[], &detail.heights)
        .table("figures", "Raised so high", &heads, &mut |rows| {
            for height in &further.heights {
                rows.row(
                    &millimetres(height.height_mm, style),
                    &[
                        &celsius(height.lowest_c, style),
                        &celsius(height.mean_c, style),
                        &change(height.growth, style),
                    ],
                );
            }
        });
}

fn july(markup: &mut Markup, detail: &Detail, style: NumberStyle) {
    let heads = ["Pot", "Ball at its warmest", "Sunny wall"];
    markup
        .element("h2", &[], "Pots in July’s sun")
        .element("p", &[], &detail.july)
        .table("figures", "", &heads, &mut |rows| {
            for colour in &detail.colours {
                rows.row(
                    &colour.colour,
                    &[
                        &celsius(colour.ball_c, style),
                        &celsius(colour.wall_c, style),
                    ],
                );
            }
        });
}

fn all_figures(answer: &Answer<Detail>, shown: &Shown) -> String {
    figure_table(answer.figures.iter().skip(1), shown)
}
