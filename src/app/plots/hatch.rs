//! Hatches: water lies in level lines, air in rings, solids in dots. They tell what is what
//! without colour, and print in black.

use crate::app::markup::Markup;

/// Writes the hatches of a drawing; its name keeps those of two drawings apart.
pub fn write_hatches(markup: &mut Markup, drawing: &str) {
    let pattern =
        |markup: &mut Markup, what: &str, size: [&str; 2], marks: &mut dyn FnMut(&mut Markup)| {
            let ground = ["hatch-", what, "-ground"].concat();
            let id = [drawing, "-", what].concat();
            let [width, height] = size;
            let attributes = [
                ("id", id.as_str()),
                ("width", width),
                ("height", height),
                ("patternUnits", "userSpaceOnUse"),
            ];
            markup.within("pattern", &attributes, &mut |pattern| {
                pattern.mark(
                    "rect",
                    &[("width", width), ("height", height), ("class", &ground)],
                );
                marks(pattern);
            });
        };
    let ring = |markup: &mut Markup, class: &str, x: &str, y: &str, radius: &str| {
        markup.mark(
            "circle",
            &[("cx", x), ("cy", y), ("r", radius), ("class", class)],
        );
    };
    markup.within("defs", &[], &mut |defs| {
        pattern(defs, "water", ["8", "5"], &mut |marks| {
            marks.mark("path", &[("d", "M0 2.5h8"), ("class", "hatch-water-line")]);
        });
        pattern(defs, "air", ["12", "12"], &mut |marks| {
            ring(marks, "hatch-air-line", "4", "4", "1.6");
            ring(marks, "hatch-air-line", "10", "10", "1.6");
        });
        pattern(defs, "solid", ["5", "5"], &mut |marks| {
            ring(marks, "hatch-solid-dot", "1.5", "1.5", "1.1");
            ring(marks, "hatch-solid-dot", "4", "4", "0.8");
        });
    });
}

/// More hatches, for drawings that tell apart more than water, air and solids: lines that stand
/// upright and lines that lean, and what is solid and wet.
pub fn write_more_hatches(markup: &mut Markup, drawing: &str) {
    const MORE: [(&str, &str, &str); 3] = [
        ("upright", "M4 0v8", "hatch-air-line"),
        ("slant", "M0 8L8 0", "hatch-air-line"),
        ("wet", "M0 2h8M0 6h8", "hatch-water-line"),
    ];
    markup.within("defs", &[], &mut |defs| {
        for (what, d, class) in MORE {
            let id = [drawing, "-", what].concat();
            let attributes = [
                ("id", id.as_str()),
                ("width", "8"),
                ("height", "8"),
                ("patternUnits", "userSpaceOnUse"),
            ];
            defs.within("pattern", &attributes, &mut |pattern| {
                let ground = [
                    ("width", "8"),
                    ("height", "8"),
                    ("class", "hatch-air-ground"),
                ];
                pattern
                    .mark("rect", &ground)
                    .mark("path", &[("d", d), ("class", class)]);
                if what == "wet" {
                    let dot = [
                        ("cx", "4"),
                        ("cy", "4"),
                        ("r", "1.2"),
                        ("class", "hatch-solid-dot"),
                    ];
                    pattern.mark("circle", &dot);
                }
            });
        }
    });
}

/// The fill of a hatch of a drawing.
#[must_use]
pub fn fill(drawing: &str, what: &str) -> String {
    ["url(#", drawing, "-", what, ")"].concat()
}
