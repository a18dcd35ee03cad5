//! A pot on its bed in its tray, cut in half, to scale: where the water stands, and at each height
//! of the ball the breadth shared out between solids, water and air, hour by hour.

use super::hatch::{fill, write_hatches, write_more_hatches};
use super::ink::{Paper, line, on_paper, words};
use super::scale::{Scale, path, ticks};
use crate::app::markup::Markup;
use crate::app::words::{millimetres, percent};
use crate::measure::{NumberStyle, fixed};
use crate::reckon::bed::Detail;
use crate::reckon::bed::runs::Moment;

/// Breadth of the paper, in its own units.
const PAPER: f64 = 420.0;
/// The tray on the paper, from wall to wall.
const TRAY: (f64, f64) = (62.0, 400.0);
/// The pot is no wider than this on the paper.
const WIDEST: f64 = 200.0;
/// Bed and pot together are no taller.
const TALLEST: f64 = 280.0;
/// Room above the pot.
const ABOVE: f64 = 12.0;
/// Room below the tray.
const BELOW: f64 = 34.0;
/// Thickness of walls on the paper.
const WALL: f64 = 5.0;

/// On the part of a drawing that shows one hour: which.
pub const HOUR: &str = "data-hour";

/// What is drawn of a detail, on the paper's scale.
struct Cut<'a> {
    detail: &'a Detail,
    name: &'a str,
    height: Scale,
    per_mm: f64,
    floor: f64,
}

impl<'a> Cut<'a> {
    fn new(detail: &'a Detail, name: &'a str) -> Self {
        let outline = detail.outline;
        let widest = outline.rim_mm.max(outline.base_mm);
        let tall_mm = (outline.height_mm + detail.depth_mm).max(detail.wall_mm);
        let per_mm = (WIDEST / widest).min(TALLEST / tall_mm);
        let floor = ABOVE + tall_mm * per_mm;
        Self {
            detail,
            name,
            height: Scale::new((0.0, 1.0), (floor, floor - per_mm)),
            per_mm,
            floor,
        }
    }

    fn middle() -> f64 {
        f64::midpoint(TRAY.0, TRAY.1)
    }

    /// Half the breadth of the pot at a height above its own base, mm.
    fn half_at(&self, mm: f64) -> f64 {
        let outline = self.detail.outline;
        let share = mm / outline.height_mm;
        (outline.base_mm + (outline.rim_mm - outline.base_mm) * share) / 2.0 * self.per_mm
    }

    fn hatch(&self, what: &str) -> String {
        fill(self.name, what)
    }

    /// A layer of the tray from one height above its floor to another, mm.
    fn layer(&self, svg: &mut Markup, from_mm: f64, to_mm: f64, what: &str) {
        if to_mm <= from_mm {
            return;
        }
        let corners = [
            (TRAY.0, self.height.at(from_mm)),
            (TRAY.1, self.height.at(from_mm)),
            (TRAY.1, self.height.at(to_mm)),
            (TRAY.0, self.height.at(to_mm)),
        ];
        svg.mark(
            "path",
            &[("d", &path(corners, true)), ("fill", &self.hatch(what))],
        );
    }

    /// Bed and water, with the water standing so high above the floor, mm.
    fn tray(&self, svg: &mut Markup, level_mm: f64) {
        let depth = self.detail.depth_mm;
        self.layer(svg, 0.0, level_mm.min(depth), "wet");
        self.layer(svg, level_mm.min(depth), depth, "solid");
        self.layer(svg, depth, level_mm, "water");
        if depth > 0.0 {
            let top = self.height.at(depth);
            line(svg, &[(TRAY.0, top), (TRAY.1, top)], "border");
        }
        let level = self.height.at(level_mm);
        line(svg, &[(TRAY.0, level), (TRAY.1, level)], "level");
    }

    /// The ball, shared out; all of it solid where its water is not known yet.
    fn ball(&self, svg: &mut Markup, water: &[f64]) {
        let detail = self.detail;
        let step = detail.fill_mm / water.len().max(1) as f64;
        let solids = 1.0 - detail.pore_space;
        let border = |share: &dyn Fn(f64) -> f64| -> Vec<(f64, f64)> {
            let at = |mm: f64, share: f64| {
                let half = self.half_at(mm);
                (
                    Self::middle() - half + 2.0 * half * share,
                    self.height.at(detail.depth_mm + mm),
                )
            };
            // Each slice is what it is at its middle; the first and the last reach to the ends.
            let middles = water
                .iter()
                .enumerate()
                .map(|(slice, water)| at((slice as f64 + 0.5) * step, share(*water)));
            let foot = water.first().map(|water| at(0.0, share(*water)));
            let top = water.last().map(|water| at(detail.fill_mm, share(*water)));
            let mut points: Vec<(f64, f64)> = foot.into_iter().chain(middles).chain(top).collect();
            if points.is_empty() {
                points.extend([0.0, detail.fill_mm].map(|mm| at(mm, share(1.0))));
            }
            points
        };
        let none = water.is_empty();
        let left = border(&|_| 0.0);
        let after_solids = border(&|_| if none { 1.0 } else { solids });
        let after_water = border(&|water| (solids + water).min(1.0));
        let right = border(&|_| 1.0);
        for (what, one, other) in [
            ("solid", &left, &after_solids),
            ("water", &after_solids, &after_water),
            ("air", &after_water, &right),
        ] {
            let d = path(one.iter().chain(other.iter().rev()).copied(), true);
            svg.mark("path", &[("d", &d), ("fill", &self.hatch(what))]);
        }
        line(svg, &after_solids, "border");
        line(svg, &after_water, "border");
    }

    fn pot(&self, svg: &mut Markup) {
        let (foot, rim) = (
            self.height.at(self.detail.depth_mm),
            self.height
                .at(self.detail.depth_mm + self.detail.outline.height_mm),
        );
        let (base, top) = (
            self.half_at(0.0),
            self.half_at(self.detail.outline.height_mm),
        );
        let middle = Self::middle();
        for side in [-1.0, 1.0] {
            let wall = [
                (middle + side * base, foot),
                (middle + side * (base + WALL), foot),
                (middle + side * (top + WALL), rim),
                (middle + side * top, rim),
            ];
            svg.mark("path", &[("d", &path(wall, true)), ("class", "pot")]);
        }
    }

    fn walls(&self, svg: &mut Markup) {
        let top = self.height.at(self.detail.wall_mm);
        let (left, right, floor) = (TRAY.0 - WALL, TRAY.1 + WALL, self.floor + WALL);
        let tray = [
            (left, top),
            (left, floor),
            (right, floor),
            (right, top),
            (TRAY.1, top),
            (TRAY.1, self.floor),
            (TRAY.0, self.floor),
            (TRAY.0, top),
        ];
        svg.mark("path", &[("d", &path(tray, true)), ("class", "pot")]);
    }
}

/// The drawing; its name keeps it apart from others on the page. Of the moments all are written and
/// one is shown: that of the hour.
#[must_use]
pub fn bed_cut(
    detail: &Detail,
    moments: &[Moment],
    hour: usize,
    name: &str,
    style: NumberStyle,
) -> String {
    let cut = Cut::new(detail, name);
    let paper_height = cut.floor + WALL + BELOW;
    let paper = Paper {
        name,
        size: (PAPER, paper_height),
        title: "The pot on its bed in the tray, cut in half",
        described: &described(detail, moments, style),
    };
    on_paper(&paper, &mut |svg| {
        write_hatches(svg, name);
        write_more_hatches(svg, name);
        if moments.is_empty() {
            cut.tray(svg, detail.level_mm);
            cut.ball(svg, &[]);
        }
        for moment in moments {
            let at = fixed(moment.hour, 0, NumberStyle::default());
            let shown = moment.hour == hour as f64;
            let group: &[(&'static str, &str)] = &[
                (HOUR, &at),
                ("display", if shown { "inline" } else { "none" }),
            ];
            svg.within("g", group, &mut |group| {
                cut.tray(group, moment.level_mm);
                cut.ball(group, &moment.water);
            });
        }
        cut.walls(svg);
        cut.pot(svg);
        let axis = TRAY.0 - 16.0;
        let highest = detail.depth_mm + detail.outline.height_mm;
        line(
            svg,
            &[(axis, cut.floor), (axis, cut.height.at(highest))],
            "axis",
        );
        for mm in ticks(highest, 6) {
            let y = cut.height.at(mm);
            line(svg, &[(axis, y), (axis + 6.0, y)], "axis");
            let number = fixed(mm, 0, style);
            words(svg, (axis - 4.0, y + 5.0), "end", "tick", &number);
        }
        words(
            svg,
            (4.0, paper_height - 8.0),
            "start",
            "tick",
            "mm above the floor of the tray",
        );
        if detail.depth_mm > 0.0 {
            let y = cut.height.at(detail.depth_mm / 2.0) + 5.0;
            words(svg, (TRAY.0 + 8.0, y), "start", "label", "bed");
        }
        if !moments.is_empty() {
            let y = cut.height.at(detail.depth_mm + detail.fill_mm * 0.6);
            let half = cut.half_at(detail.fill_mm * 0.6);
            words(
                svg,
                (Cut::middle() - half + 6.0, y),
                "start",
                "label",
                "solids",
            );
            words(svg, (Cut::middle(), y + 20.0), "middle", "label", "water");
            words(svg, (Cut::middle() + half - 6.0, y), "end", "label", "air");
        }
    })
}

fn described(detail: &Detail, moments: &[Moment], style: NumberStyle) -> String {
    let millimetres = |mm: f64| millimetres(mm, style);
    let percent = |share: f64| percent(share, style);
    let mut said = if detail.depth_mm > 0.0 {
        [
            "The pot stands on ",
            &millimetres(detail.depth_mm),
            " of ",
            &detail.medium,
            ".",
        ]
        .concat()
    } else {
        "The pot stands straight in the water.".to_owned()
    };
    said.push_str(
        &[
            " The tray is filled to ",
            &millimetres(detail.level_mm),
            ".",
        ]
        .concat(),
    );
    let airs = || moments.iter().map(|moment| moment.air);
    if !moments.is_empty() {
        said.push_str(
            &[
                " Through the day the ball has between ",
                &percent(airs().fold(1.0, f64::min)),
                " and ",
                &percent(airs().fold(0.0, f64::max)),
                " air.",
            ]
            .concat(),
        );
    }
    said
}
