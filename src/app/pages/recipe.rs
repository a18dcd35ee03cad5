//! Recipe: the best mix of what there is, as a bar of its parts.

use web_sys::Element;

use super::reckoning::{self, Sight};
use crate::app::markup::Markup;
use crate::app::plots::hatch::{fill, write_hatches, write_more_hatches};
use crate::app::plots::ink::{block, words};
use crate::app::plots::scale::{Scale, tenths};
use crate::app::route::Page;
use crate::app::widgets::figures::{Shown, figure_table};
use crate::app::words::percent;
use crate::keep::address;
use crate::measure::{NumberStyle, fixed, significant};
use crate::reckon::answer::Answer;
use crate::reckon::recipe::{BlendTold, Detail, Recipe};

static SIGHT: Sight<Detail> = Sight {
    page: Page::Recipe,
    heading: "Recipe",
    beside: None,
    keeps: None,
    drawing,
    drawing_as_table,
    doing,
    figures: |answer, shown| figure_table(answer.figures.iter().skip(1), shown),
};

/// Opens the page.
pub fn open(into: &Element) {
    reckoning::open::<Recipe>(into, &SIGHT);
}

/// Name of the drawing, for its hatches.
const NAME: &str = "recipe";
/// The hatches, one for each material.
const HATCHES: [&str; 5] = ["solid", "water", "air", "upright", "slant"];
/// Breadth of the paper.
const PAPER: f64 = 420.0;
/// A bar from its left to its right.
const BAR: (f64, f64) = (70.0, 410.0);
/// Height of a bar, and from one to the next.
const TALL: (f64, f64) = (36.0, 48.0);
/// Caption of the other blends.
const OTHERS: &str = "Nearly as good, and different";
/// Height of a line of the legend.
const LINE: f64 = 26.0;

/// The materials of all blends told, in the order in which they come.
fn materials(detail: &Detail) -> Vec<(&str, &str)> {
    let mut found: Vec<(&str, &str)> = Vec::new();
    for part in detail.blends.iter().flat_map(|blend| &blend.parts) {
        if !found.iter().any(|(key, _)| *key == part.material) {
            found.push((&part.material, &part.name));
        }
    }
    found
}

/// What a blend is called beside the others.
fn called(detail: &Detail, place: usize) -> &'static str {
    match (place, detail.met) {
        (0, true) => "best",
        (0, false) => "nearest",
        _ => "or",
    }
}

fn drawing(answer: &Answer<Detail>, shown: &Shown, _: &str) -> String {
    let style = shown.style;
    let detail = &answer.detail;
    let materials = materials(detail);
    let bars = detail.blends.len() as f64 * TALL.1;
    let height = bars + materials.len() as f64 * LINE + 8.0;
    let view_box = ["0 0 ", &tenths(PAPER), " ", &tenths(height)].concat();
    let svg = [
        ("viewBox", view_box.as_str()),
        ("role", "img"),
        ("aria-labelledby", "recipe-title"),
    ];
    let across = Scale::new((0.0, 20.0), BAR);
    let hatch = |key: &str| {
        let place = materials.iter().position(|(other, _)| *other == key);
        fill(NAME, HATCHES[place.unwrap_or(0) % HATCHES.len()])
    };
    let mut markup = Markup::new();
    markup.within("svg", &svg, &mut |svg| {
        svg.element("title", &[("id", "recipe-title")], "Parts of 20 by volume");
        write_hatches(svg, NAME);
        write_more_hatches(svg, NAME);
        for (place, blend) in detail.blends.iter().enumerate() {
            let top = place as f64 * TALL.1;
            let middle = top + TALL.0 / 2.0 + 5.0;
            words(svg, (0.0, middle), "start", "tick", called(detail, place));
            let mut from = 0.0;
            for part in &blend.parts {
                let to = from + part.parts;
                let (left, right) = (across.at(from), across.at(to));
                block(
                    svg,
                    (left, top),
                    (right - left, TALL.0),
                    &hatch(&part.material),
                );
                let number = fixed(part.parts, 0, style);
                words(
                    svg,
                    (f64::midpoint(left, right), middle),
                    "middle",
                    "label",
                    &number,
                );
                from = to;
            }
        }
        for (place, (key, name)) in materials.iter().enumerate() {
            let top = bars + place as f64 * LINE;
            block(svg, (BAR.0, top), (30.0, 18.0), &hatch(key));
            words(svg, (BAR.0 + 40.0, top + 15.0), "start", "tick", name);
        }
    });
    markup.done()
}

fn drawing_as_table(answer: &Answer<Detail>, shown: &Shown) -> String {
    let detail = &answer.detail;
    let mut heads = vec!["Material"];
    heads.extend((0..detail.blends.len()).map(|place| called(detail, place)));
    let mut markup = Markup::new();
    markup.table("figures", "Parts of 20 by volume", &heads, &mut |rows| {
        for (key, name) in materials(detail) {
            let cells: Vec<String> = detail
                .blends
                .iter()
                .map(|blend| {
                    let part = blend.parts.iter().find(|part| part.material == key);
                    part.map_or_else(|| "–".to_owned(), |part| fixed(part.parts, 0, shown.style))
                })
                .collect();
            let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
            rows.row(name, &cells);
        }
    });
    markup.done()
}

/// What to measure out and buy, the way to Mix, and the others.
fn doing(answer: &Answer<Detail>, shown: &Shown) -> String {
    let Some((first, others)) = answer.detail.blends.split_first() else {
        return String::new();
    };
    let style = shown.style;
    let litres = |litres: f64| [&significant(litres, 2, style), " L"].concat();
    let mut markup = Markup::new();
    let caption = "Measure out, loose and damp";
    let heads = ["Material", "Measure out", "Of it in hand", "Bags to buy"];
    markup.table("shopping", caption, &heads, &mut |rows| {
        for part in &first.parts {
            let bags = fixed(part.bags, 0, style);
            let in_hand = litres(part.from_in_hand_litres);
            rows.row(&part.name, &[&litres(part.litres), &in_hand, &bags]);
        }
    });
    if first.price > 0.0 {
        let price = significant(first.price, 4, style);
        markup.element("p", &[], &["The bags cost ", &price, " in all."].concat());
    }
    markup.within("p", &[("class", "takeaway")], &mut |line| {
        link(line, first, "Open this mix in Mix");
    });
    if !others.is_empty() {
        let heads = ["Mix", "Air", "Water", "Wet", "Price"];
        markup.wide_table(OTHERS, OTHERS, &heads, &mut |rows| {
            for blend in others {
                other(rows, blend, style);
            }
        });
    }
    markup.done()
}

fn other(rows: &mut Markup, blend: &BlendTold, style: NumberStyle) {
    let percent = |share: f64| percent(share, style);
    let mut name = String::new();
    for part in &blend.parts {
        let between = if name.is_empty() { "" } else { ", " };
        let parts = fixed(part.parts, 0, style);
        name = [&name, between, &parts, " ", &part.name].concat();
    }
    rows.within("tr", &[], &mut |row| {
        row.within("th", &[("scope", "row")], &mut |head| {
            link(head, blend, &name)
        })
        .element("td", &[], &percent(blend.air))
        .element("td", &[], &percent(blend.water))
        .element(
            "td",
            &[],
            &[&significant(blend.wet_kg, 2, style), " kg"].concat(),
        )
        .element("td", &[], &significant(blend.price, 3, style));
    });
}

/// The way to Mix with a blend.
fn link(markup: &mut Markup, blend: &BlendTold, text: &str) {
    let to = [&Page::Mix.address(), "?", &address::write(&blend.in_mix)].concat();
    let attributes = [("class", "quiet button"), ("href", to.as_str())];
    markup.element("a", &attributes, text);
}
