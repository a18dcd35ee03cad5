//! The sentences about salt, acidity and nitrogen of a blend.

use super::super::words::{number, percent};
use crate::handbook::chemistry::SaltLimits;
use crate::handbook::thresholds::Use;
use crate::measure::Range;

/// "38 to 95"; "60" while the range is not known.
fn span(range: Range<f64>, figures: usize) -> String {
    if range.low() == range.high() {
        return number(range.best(), figures);
    }
    [number(range.low(), figures), number(range.high(), figures)].join(" to ")
}

/// Last season's mix.
pub fn used_mix(purpose: Use) -> String {
    let not_for = match purpose {
        Use::Seed => "Do not sow in it, since a seedling has no defence against damping off. ",
        Use::Cuttings => "Do not root cuttings in it, since an open wound takes every rot. ",
        Use::YoungPlants | Use::FedFromBelow | Use::GrowingOn => "",
    };
    [
        "Last year's mix carries the salt of its feed, the root rots, wilts and viruses of what grew in it, and weed seed. ",
        not_for,
        "Never put the same family in it two years running (tomato, chilli, aubergine and potato are one; cucumber and courgette another), nor use it where plants wilted, rotted or had eelworm. Rinse it and measure what drains before you use it.",
    ]
    .concat()
}

/// Too much salt.
pub fn salty(salt: Range<f64>, limits: &SaltLimits) -> String {
    format!(
        "Salty: a 1:5 extract of {} mS/m where up to {} serves. Rinse what brings the salt, or use less of it, and hold back the feed.",
        span(salt, 2),
        number(limits.serves_to_ms_per_m, 2)
    )
}

/// Much compost.
pub fn compost(share: f64, most: f64) -> String {
    format!(
        "{} compost: above {} its salt and its lime harm roots and lock up iron. Use less of it.",
        percent(share),
        percent(most)
    )
}

/// Much coral.
pub fn coral(share: f64) -> String {
    format!(
        "{} coral holds the pH at 7 to 8 or above, and no feed brings it down. Not for chilli, tomato, pepper or aubergine; lay it under the pots instead.",
        percent(share)
    )
}

/// Coir that may not have been washed.
pub fn coir(limits: &SaltLimits) -> String {
    format!(
        "Coir may come unwashed, with sea salt and potassium in it. Measure one part in five of water: above {} mS/m, rinse it first.",
        number(limits.serves_to_ms_per_m, 2)
    )
}

/// Wood and hulls.
pub fn woody(share: f64, nitrogen: Range<f64>) -> String {
    format!(
        "{} wood and hulls may lock up {} mg of nitrogen in each litre as they rot. Add about {} mg/L beyond the usual feed, spread over the first eight weeks; leaves that pale from below ask for more.",
        percent(share),
        span(nitrogen, 2),
        number(nitrogen.best(), 2)
    )
}

/// pH too low.
pub fn sour(ph: Range<f64>, lime: Range<f64>) -> String {
    format!(
        "Sour: pH about {}, a bracket and no measurement. {} g of ground limestone to the litre ({}) takes it to about 6; peat sold as limed needs none. Measure a week after you mix.",
        span(ph, 2),
        number(lime.best(), 2),
        span(lime, 2)
    )
}

/// pH too high.
pub fn limy(ph: Range<f64>, limit: f64) -> String {
    format!(
        "Limy: pH about {}, a bracket and no measurement, where up to {} serves. Add no lime, and measure before you plant.",
        span(ph, 2),
        number(limit, 2)
    )
}

/// Water that raises the pH.
pub fn alkaline(alkalinity: f64, rise: Range<f64>) -> String {
    format!(
        "Water with {} mg/L of alkalinity may raise the pH by {} over a season. Mix in rain water, or feed with ammonium, and leave out some of the lime.",
        number(alkalinity, 2),
        span(rise, 2)
    )
}
