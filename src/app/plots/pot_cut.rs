//! The pot cut in half, to scale: at each height the breadth is shared out between solids,
//! water and air, as they share the volume there.

use super::hatch::{fill, write_hatches};
use super::ink::{Paper, line, on_paper, words};
use super::scale::{Scale, path, ticks};
use crate::app::markup::Markup;
use crate::app::words::percent;
use crate::measure::{NumberStyle, fixed};
use crate::reckon::mix::{Detail, Layer};

/// Breadth of the paper, in its own units.
const PAPER: f64 = 420.0;
/// Room on the paper for the pot: left and right.
const ROOM: (f64, f64) = (70.0, 330.0);
/// The most height the pot takes.
const TALLEST: f64 = 270.0;
/// Room above the pot.
const ABOVE: f64 = 10.0;
/// Room below the pot.
const BELOW: f64 = 42.0;
/// Thickness of the pot's wall on the paper.
const WALL: f64 = 5.0;

type Points = Vec<(f64, f64)>;

/// The drawing; its name keeps it apart from others on the page.
#[must_use]
pub fn pot_cut(detail: &Detail, name: &str, style: NumberStyle) -> String {
    let outline = detail.outline;
    let (left, right) = ROOM;
    let widest = outline.rim_mm.max(outline.base_mm);
    // One scale for both directions, or it would not be to scale.
    let bed_mm = if detail.in_tray { detail.bed_mm } else { 0.0 };
    let per_mm = ((right - left) / widest).min(TALLEST / (outline.height_mm + bed_mm));
    let bottom = ABOVE + outline.height_mm * per_mm;
    let bed = bed_mm * per_mm;
    let paper_height = bottom + bed + BELOW;
    let middle = f64::midpoint(left, right);
    let height = Scale::new((0.0, 1.0), (bottom, bottom - per_mm));
    let half_at = |mm: f64| {
        let share = mm / outline.height_mm;
        (outline.base_mm + (outline.rim_mm - outline.base_mm) * share) / 2.0 * per_mm
    };
    let across = |layer: &Layer, share: f64| {
        let half = half_at(layer.height_mm);
        (
            middle - half + 2.0 * half * share,
            height.at(layer.height_mm),
        )
    };
    // A border that goes up the pot at a share of its breadth, which may change with height.
    let border = |share: fn(&Layer) -> f64| -> Points {
        detail
            .profile
            .iter()
            .map(|layer| across(layer, share(layer)))
            .collect()
    };
    let grounds = [
        ("solid", border(|_| 0.0), border(solids)),
        ("water", border(solids), border(not_air)),
        ("air", border(not_air), border(|_| 1.0)),
    ];
    let rim = height.at(outline.height_mm);
    let (half_base, half_rim) = (half_at(0.0), half_at(outline.height_mm));
    let pot = path(
        [
            (middle - half_rim - WALL, rim),
            (middle - half_base - WALL, bottom + WALL),
            (middle + half_base + WALL, bottom + WALL),
            (middle + half_rim + WALL, rim),
            (middle + half_rim, rim),
            (middle + half_base, bottom),
            (middle - half_base, bottom),
            (middle - half_rim, rim),
        ],
        true,
    );
    let axis = left - 34.0;
    let paper = Paper {
        name,
        size: (PAPER, paper_height),
        title: "The pot cut in half",
        described: &described(detail, style),
    };
    on_paper(&paper, &mut |svg| {
        write_hatches(svg, name);
        for (what, one, other) in &grounds {
            let d = path(one.iter().chain(other.iter().rev()).copied(), true);
            svg.mark("path", &[("d", &d), ("fill", &fill(name, what))]);
        }
        for (_, _, edge) in grounds.iter().take(2) {
            line(svg, edge, "border");
        }
        svg.mark("path", &[("d", &pot), ("class", "pot")]);
        line(svg, &[(axis, bottom), (axis, rim)], "axis");
        for mm in ticks(outline.height_mm, 5) {
            let y = height.at(mm);
            line(svg, &[(axis, y), (axis + 6.0, y)], "axis");
            words(
                svg,
                (axis - 5.0, y + 5.0),
                "end",
                "tick",
                &fixed(mm, 0, style),
            );
        }
        words(
            svg,
            (axis, paper_height - 10.0),
            "start",
            "tick",
            "mm above the base, once drained",
        );
        if bed > 0.0 {
            let corners = [
                (left, bottom + WALL),
                (right, bottom + WALL),
                (right, bottom + WALL + bed),
                (left, bottom + WALL + bed),
            ];
            let bed_ground = [
                ("d", &path(corners, true) as &str),
                ("fill", &fill(name, "solid")),
                ("class", "bed"),
            ];
            svg.mark("path", &bed_ground);
            let middle = (left + 6.0, bottom + WALL + bed / 2.0 + 5.0);
            words(svg, middle, "start", "label", "bed");
        }
        if detail.in_tray {
            let y = height.at(detail.tray_mm - detail.bed_mm);
            line(svg, &[(axis + 8.0, y), (PAPER - 6.0, y)], "level");
            words(svg, (PAPER - 6.0, y - 6.0), "end", "tick", "tray filled");
        }
        // Each ground's name is written across its middle, more than half way up, where there is room.
        if let Some(layer) = detail.profile.get(detail.profile.len() * 5 / 8) {
            let (solid, wet) = (solids(layer), not_air(layer));
            let names = [
                ("solids", 0.0, solid),
                ("water", solid, wet),
                ("air", wet, 1.0),
            ];
            for (what, from, to) in names {
                words(
                    svg,
                    across(layer, f64::midpoint(from, to)),
                    "middle",
                    "label",
                    what,
                );
            }
        }
    })
}

/// The table behind the drawing.
#[must_use]
pub fn pot_table(detail: &Detail, style: NumberStyle) -> String {
    /// Every so many layers make a row.
    const EVERY: usize = 6;
    let mut markup = Markup::new();
    let caption = "Shares of the volume by height, once drained, best figures";
    markup.table(
        "figures",
        caption,
        &["Height", "Water", "Air", "Solids"],
        &mut |rows| {
            for layer in detail.profile.iter().rev().step_by(EVERY) {
                rows.row(
                    &[&fixed(layer.height_mm, 0, style), " mm"].concat(),
                    &[
                        &percent(layer.water, style),
                        &percent(layer.air, style),
                        &percent(solids(layer), style),
                    ],
                );
            }
        },
    );
    markup.done()
}

fn solids(layer: &Layer) -> f64 {
    1.0 - layer.water - layer.air
}

fn not_air(layer: &Layer) -> f64 {
    1.0 - layer.air
}

fn described(detail: &Detail, style: NumberStyle) -> String {
    let (Some(base), Some(top)) = (detail.profile.first(), detail.profile.last()) else {
        return String::new();
    };
    [
        "At the base ",
        &percent(base.water, style),
        " water and ",
        &percent(base.air, style),
        " air; at the top of the mix, ",
        &fixed(top.height_mm, 0, style),
        " mm up, ",
        &percent(top.water, style),
        " water and ",
        &percent(top.air, style),
        " air.",
    ]
    .concat()
}
