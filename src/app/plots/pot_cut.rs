//! The pot cut in half, to scale: at each height the breadth is shared out between solids,
//! water and air, as they share the volume there.

use leptos::prelude::*;

use super::hatch::{Hatches, fill};
use super::scale::{Scale, path, tenths, ticks};
use crate::measure::{NumberStyle, fixed};
use crate::reckon::mix::{Detail, Layer};

/// Name of the drawing, for its hatches and its title.
const NAME: &str = "pot";
/// Breadth and height of the paper, in its own units.
const PAPER: (f64, f64) = (420.0, 340.0);
/// Room on the paper for the pot: left, right, top, bottom.
const ROOM: (f64, f64, f64, f64) = (70.0, 330.0, 22.0, 292.0);
/// Thickness of the pot's wall on the paper.
const WALL: f64 = 5.0;

/// The drawing, with its table behind.
#[component]
pub fn PotCut(
    /// The pot and what is in it.
    detail: Detail,
    /// Whether it stands in a tray.
    in_tray: bool,
    /// How numbers are printed.
    style: NumberStyle,
) -> impl IntoView {
    let outline = detail.outline;
    let (left, right, top, bottom) = ROOM;
    let widest = outline.rim_mm.max(outline.base_mm);
    // One scale for both directions, or it would not be to scale.
    let per_mm = ((right - left) / widest).min((bottom - top) / outline.height_mm);
    let middle = f64::midpoint(left, right);
    let height = Scale::new((0.0, 1.0), (bottom, bottom - per_mm));
    let half_at = move |mm: f64| {
        let share = mm / outline.height_mm;
        (outline.base_mm + (outline.rim_mm - outline.base_mm) * share) / 2.0 * per_mm
    };
    // A border that goes up the pot at a share of its breadth, which may change with height.
    let border = |share: &dyn Fn(&Layer) -> f64| -> Vec<(f64, f64)> {
        detail
            .profile
            .iter()
            .map(|layer| {
                let half = half_at(layer.height_mm);
                (middle - half + 2.0 * half * share(layer), height.at(layer.height_mm))
            })
            .collect()
    };
    let solid_share = |layer: &Layer| 1.0 - layer.water - layer.air;
    let wet_share = |layer: &Layer| 1.0 - layer.air;
    let (wall_left, solids, water, wall_right) =
        (border(&|_| 0.0), border(&solid_share), border(&wet_share), border(&|_| 1.0));
    let between = |one: &[(f64, f64)], other: &[(f64, f64)]| path(one.iter().chain(other.iter().rev()).copied(), true);
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
    let marks = ticks(outline.height_mm, 5)
        .into_iter()
        .map(|mm| {
            let y = height.at(mm);
            view! {
                <g>
                    <path d=path([(axis, y), (axis + 6.0, y)], false) class="axis"/>
                    <text x=tenths(axis - 5.0) y=tenths(y + 5.0) text-anchor="end" class="tick">
                        {fixed(mm, 0, style)}
                    </text>
                </g>
            }
        })
        .collect_view();
    let tray = in_tray.then(|| {
        let y = height.at(detail.tray_mm);
        view! {
            <g>
                <path d=path([(axis + 8.0, y), (PAPER.0 - 6.0, y)], false) class="level"/>
                <text x=tenths(PAPER.0 - 6.0) y=tenths(y - 6.0) text-anchor="end" class="tick">"tray filled"</text>
            </g>
        }
    });
    let label = |what: &'static str, share: &dyn Fn(&Layer) -> f64| {
        // Written across the middle of its own ground, half way up, where there is room for it.
        let layer = detail.profile.get(detail.profile.len() * 5 / 8)?;
        let half = half_at(layer.height_mm);
        let x = middle - half + 2.0 * half * share(layer);
        let y = height.at(layer.height_mm);
        Some(view! { <text x=tenths(x) y=tenths(y) text-anchor="middle" class="label">{what}</text> })
    };
    let labels = [
        label("solids", &|layer| (1.0 - layer.water - layer.air) / 2.0),
        label("water", &|layer| 1.0 - layer.air - layer.water / 2.0),
        label("air", &|layer| 1.0 - layer.air / 2.0),
    ];
    let description = described(&detail, style);
    let rows = table_rows(&detail.profile, style);
    view! {
        <figure class="drawing">
            <svg
                viewBox=format!("0 0 {} {}", PAPER.0, PAPER.1)
                role="img"
                aria-labelledby="pot-title pot-described"
            >
                <title id="pot-title">"The pot cut in half"</title>
                <desc id="pot-described">{description}</desc>
                <Hatches name=NAME/>
                <path d=between(&wall_left, &solids) fill=fill(NAME, "solid")/>
                <path d=between(&solids, &water) fill=fill(NAME, "water")/>
                <path d=between(&water, &wall_right) fill=fill(NAME, "air")/>
                <path d=path(solids.iter().copied(), false) class="border"/>
                <path d=path(water.iter().copied(), false) class="border"/>
                <path d=pot class="pot"/>
                <path d=path([(axis, height.at(0.0)), (axis, rim)], false) class="axis"/>
                {marks}
                <text x=tenths(axis) y=tenths(PAPER.1 - 12.0) class="tick">"mm above the base, once drained"</text>
                {tray}
                {labels}
            </svg>
            <details class="behind">
                <summary>"The drawing as a table"</summary>
                <table class="figures">
                    <caption>"Shares of the volume by height, once drained, best figures"</caption>
                    <thead>
                        <tr>
                            <th scope="col">"Height"</th>
                            <th scope="col">"Water"</th>
                            <th scope="col">"Air"</th>
                            <th scope="col">"Solids"</th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            </details>
        </figure>
    }
}

fn percent(fraction: f64, style: NumberStyle) -> String {
    [&fixed(fraction * 100.0, 0, style), "%"].concat()
}

fn described(detail: &Detail, style: NumberStyle) -> String {
    let (Some(base), Some(top)) = (detail.profile.first(), detail.profile.last()) else {
        return String::new();
    };
    format!(
        "At the base {} water and {} air; at the top of the mix, {} mm up, {} water and {} air.",
        percent(base.water, style),
        percent(base.air, style),
        fixed(top.height_mm, 0, style),
        percent(top.water, style),
        percent(top.air, style),
    )
}

fn table_rows(profile: &[Layer], style: NumberStyle) -> impl IntoView + use<> {
    /// Every so many layers make a row.
    const EVERY: usize = 6;
    profile
        .iter()
        .rev()
        .step_by(EVERY)
        .map(|layer| {
            view! {
                <tr>
                    <th scope="row">{fixed(layer.height_mm, 0, style)} " mm"</th>
                    <td>{percent(layer.water, style)}</td>
                    <td>{percent(layer.air, style)}</td>
                    <td>{percent(1.0 - layer.water - layer.air, style)}</td>
                </tr>
            }
        })
        .collect_view()
}
