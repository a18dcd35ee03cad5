//! What is looked at on a batch, point by point and state by state: small drawings in ink, to stand beside the words of
//! the card and to be ticked at the bench.
//!
//! Most are [`paths`] alone. What is counted or measured is drawn to what is wanted: so many leaves, such a height.

mod paths;

use super::ink::{line, words};
use super::scale::{Scale, tenths};
use crate::app::markup::Markup;
use crate::measure::{NumberStyle, significant};
use crate::reckon::moving_on::{MeasureTold, PointTold, StateTold};
use paths::{BALL, DRAWN, LEAF, LICE, LOUSE, Layer, MIX, ONE_LEAF, PLANT, SEED_LEAVES, Shared};

/// The paper, in its own units, both ways.
const PAPER: &str = "0 0 96 96";
/// The mix on the paper.
const FOOT: f64 = 90.0;
/// The stem of a plant whose leaves are counted.
const STEM: f64 = 38.0;
/// Lice where there are a few.
const FEW: usize = 3;

/// The drawing of a point as it was seen, or as it should be where nobody looked; nothing for a point that is reckoned.
#[must_use]
pub fn looked_at(point: &PointTold, style: NumberStyle) -> String {
    // Roots at the wall may also be none, but that is not what one looks for.
    let usual = |state: &&StateTold| state.good && state.key != "0";
    let states = &point.states;
    let state = states
        .iter()
        .find(|state| state.seen)
        .or_else(|| states.iter().find(usual));
    match state {
        Some(state) if point.key != "own" => of_state(point, state),
        _ => drawing(&point.key, &point.called, point.measure.as_ref(), style),
    }
}

/// The drawing of a state that a point may be in.
#[must_use]
pub fn of_state(point: &PointTold, state: &StateTold) -> String {
    let name = [&point.key, "_", &state.key].concat();
    let title = [&point.called, ": ", &state.words].concat();
    drawing(&name, &title, None, NumberStyle::default())
}

/// A drawing by its name; nothing where there is none of that name.
fn drawing(name: &str, title: &str, measure: Option<&MeasureTold>, style: NumberStyle) -> String {
    let plain = DRAWN.iter().find(|(known, ..)| *known == name);
    let measured = measure.filter(|_| ["leaves", "height"].contains(&name));
    if plain.is_none() && measured.is_none() {
        return String::new();
    }
    let svg = [("viewBox", PAPER), ("class", "looked-at"), ("role", "img")];
    let mut markup = Markup::new();
    markup.within("svg", &svg, &mut |svg| {
        svg.element("title", &[], title);
        if let Some((_, own, shared)) = plain {
            let (behind, before): (&[Layer], &[Layer]) = match shared {
                Shared::None => (&[], &[]),
                Shared::Plant => (&[], PLANT),
                Shared::Ball => (BALL, &[]),
                Shared::Leaf => (LEAF, &[]),
            };
            for layers in [behind, own, before] {
                layers.iter().for_each(|layer| draw(svg, *layer));
            }
            let lice = match name {
                "pests_few" => FEW,
                "pests_many" => LICE.len(),
                _ => 0,
            };
            LICE.iter().take(lice).for_each(|louse| sit(svg, *louse));
        } else if let Some(measure) = measured {
            if name == "height" {
                height(svg, measure, style);
            } else {
                leaves(svg, measure, style);
            }
        }
    });
    markup.done()
}

/// A layer; roots are drawn twice, so that they are pale within dark edges on any ground.
fn draw(svg: &mut Markup, (class, d): Layer) {
    svg.mark("path", &[("class", class), ("d", d)]);
    let core = match class {
        "root" => "root-core",
        "sheath" => "sheath-core",
        "rot" => "rot-core",
        _ => return,
    };
    svg.mark("path", &[("class", core), ("d", d)]);
}

fn sit(svg: &mut Markup, (x, y, turned): (f64, f64, f64)) {
    let place = [
        "translate(",
        &tenths(x),
        " ",
        &tenths(y),
        ") rotate(",
        &tenths(turned),
        ")",
    ]
    .concat();
    svg.within("g", &[("transform", &place)], &mut |louse| {
        LOUSE.iter().for_each(|layer| draw(louse, *layer));
    });
}

/// A leaf that sits on a stem, so large, to the right or (below nought) to the left.
fn leaf(svg: &mut Markup, (x, y): (f64, f64), size: f64) {
    let place = [
        "translate(",
        &tenths(x),
        " ",
        &tenths(y),
        ") scale(",
        &format!("{size:.2} {:.2}", size.abs()),
        ")",
    ]
    .concat();
    let leaf = [("class", "leaf"), ("d", ONE_LEAF), ("transform", &place)];
    svg.mark("path", &leaf);
}

/// The bud at the end of a shoot.
fn tip(svg: &mut Markup, x: f64, y: f64) {
    let d = [
        "M",
        &tenths(x),
        " ",
        &tenths(y),
        "c-4-4-4-8 0-12c4 4 4 8 0 12Z",
    ]
    .concat();
    svg.mark("path", &[("class", "leaf"), ("d", &d)]);
}

/// A plant with as many leaves, pairs of leaves or leaves of each shoot as are wanted, the seed leaves dashed, and the
/// number at a bracket.
fn leaves(svg: &mut Markup, wanted: &MeasureTold, style: NumberStyle) {
    /// More of them are too small to be told apart: the number says how many.
    const MOST: f64 = 8.0;
    /// Room for them on the paper, and for one at most.
    const ROOM: (f64, f64) = (46.0, 15.0);
    /// Where the lowest sits.
    const LOWEST: f64 = 70.0;
    let many = wanted.from.round().clamp(1.0, MOST);
    let shoots = wanted.unit.ends_with("shoot");
    let pairs = wanted.unit == "pairs";
    let gap = (ROOM.0 / many).min(ROOM.1);
    let size = (gap / 14.0).clamp(0.55, if shoots { 0.7 } else { 1.0 });
    let top = LOWEST - gap * (many - 1.0);
    MIX.iter().for_each(|layer| draw(svg, *layer));
    if shoots {
        draw(
            svg,
            ("fine", "M38 90C32 72 22 66 18 48M38 90C44 72 54 66 58 48"),
        );
        for side in [-1.0, 1.0] {
            let x = STEM + 20.0 * side;
            leaf(svg, (x, 48.0), 0.5 * side);
            leaf(svg, (STEM + 13.0 * side, 65.0), 0.5 * side);
            tip(svg, x, 49.0);
        }
    } else {
        draw(svg, ("dashed", SEED_LEAVES));
    }
    line(svg, &[(STEM, FOOT), (STEM, top - 6.0)], "ink");
    for which in 0..many as usize {
        let y = LOWEST - gap * which as f64;
        let right = which % 2 == 0;
        if pairs || right {
            leaf(svg, (STEM, y), size);
        }
        if pairs || !right {
            leaf(svg, (STEM, y), -size);
        }
    }
    tip(svg, STEM, top - 4.0);
    let (x, high, low) = (82.0, top - 8.0, LOWEST + 4.0);
    line(
        svg,
        &[(x, high), (x + 6.0, high), (x + 6.0, low), (x, low)],
        "ink",
    );
    let number = significant(wanted.from, 2, style);
    words(svg, (x + 3.0, high - 6.0), "middle", "number", &number);
}

/// A plant beside a ruler, and between which heights it should be, cm.
fn height(svg: &mut Markup, wanted: &MeasureTold, style: NumberStyle) {
    /// The ruler: left and right.
    const RULER: (f64, f64) = (8.0, 24.0);
    /// Where the plant stands.
    const PLANT: f64 = 46.0;
    const ENDS: f64 = 66.0;
    let (low, high) = (wanted.from, wanted.to.unwrap_or(wanted.from));
    let top = high.max(1.0) * 1.18;
    let up = Scale::new((0.0, top), (FOOT, 6.0));
    line(svg, &[(4.0, FOOT), (92.0, FOOT)], "ink");
    let (left, right) = RULER;
    let ruler = [(left, FOOT), (left, 4.0), (right, 4.0), (right, FOOT)];
    line(svg, &ruler, "blank");
    // Each centimetre while they can be told apart, and else every second or fifth.
    let step = [(16.0, 1.0), (32.0, 2.0)]
        .into_iter()
        .find(|(most, _)| top <= *most)
        .map_or(5.0, |(_, step)| step);
    for tick in 1..(top / step).ceil() as usize {
        let y = up.at(step * tick as f64);
        let long = if tick % 5 == 0 { 9.0 } else { 5.0 };
        line(svg, &[(left, y), (left + long, y)], "fine");
    }
    let middle = up.at(f64::midpoint(low, high));
    line(svg, &[(PLANT, FOOT), (PLANT, middle + 6.0)], "ink");
    for pair in [0.25, 0.56, 0.87] {
        let y = 86.0 - (86.0 - middle) * pair;
        leaf(svg, (PLANT, y), 0.62);
        leaf(svg, (PLANT, y), -0.62);
    }
    tip(svg, PLANT, middle + 12.0);
    for at in [low, high] {
        let y = up.at(at);
        line(svg, &[(right, y), (ENDS, y)], "dashed");
        let number = significant(at, 2, style);
        words(svg, (ENDS + 3.0, y + 6.0), "start", "number", &number);
    }
}
