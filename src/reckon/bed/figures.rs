//! What a bed comes to, as a table.

use super::physics::{AtDepth, Scene};
use super::question::Case;
use crate::measure::{AreaLoad, Fraction, Length, Number, Suction, Volume};
use crate::reckon::answer::FigureName;

/// The names of the figures, the headline first.
pub fn names() -> Vec<FigureName> {
    let share = |name: &str, label: &str| FigureName::of::<Fraction>(name, label, "%");
    let length = |name: &str, label: &str| FigureName::of::<Length>(name, label, "mm");
    let litres = |name: &str, label: &str| FigureName::of::<Volume>(name, label, "L");
    vec![
        length("depth", "depth of the bed"),
        share("air", "air in the ball, between full tray and empty"),
        share("air_full", "air in the ball, tray full"),
        share("air_lowest_full", "air in its lowest third, tray full"),
        share("air_empty", "air in the ball, tray at its emptiest"),
        FigureName::of::<Number>(
            "supply",
            "supply, as a multiple of what the plant drinks",
            "",
        ),
        FigureName::of::<Suction>(
            "mid_suction",
            "suction at mid-pot, tray at its emptiest",
            "cm_water",
        ),
        length(
            "breaks_at",
            "height to which this bed lifts what the plant drinks, at 60 cm of suction",
        ),
        FigureName::of::<Number>("refills", "refills in a day", ""),
        litres("fill", "water of one filling of the tray"),
        litres("drunk", "water drunk in the tray in a day"),
        litres("bed", "bed medium for the tray, loose"),
        FigureName::of::<AreaLoad>("load", "all of it wet, tray full", "kg/m2"),
        share("straight_air_full", "air straight in the water, tray full"),
        share(
            "straight_air_lowest",
            "air in the lowest third straight in the water, tray full",
        ),
    ]
}

/// The figures at a depth, in the order of their names.
pub fn values(
    case: &Case,
    scene: &Scene<'_>,
    at: &AtDepth,
    straight: &AtDepth,
    depth: Length,
) -> Vec<f64> {
    /// Less air than this is none, fraction: nobody measures it.
    const LEAST_AIR: f64 = 5e-4;
    let litres = |litres: f64| Volume::from_litres(litres).in_cubic_metres();
    let air = |air: f64| if air < LEAST_AIR { 0.0 } else { air };
    vec![
        depth.in_metres(),
        at.air,
        air(at.air_full),
        air(at.air_lowest_full),
        at.air_empty,
        at.supply,
        Suction::CENTIMETRE_OF_WATER.to_base(at.mid_suction_cm),
        Length::from_centimetres(scene.breaks_at_cm()).in_metres(),
        at.refills,
        litres(at.fill_litres * case.pots),
        litres(scene.demand_litres * case.pots),
        litres(at.bed_litres * case.pots),
        AreaLoad::KILOGRAM_PER_SQUARE_METRE.to_base(at.load_kg_per_m2),
        air(straight.air_full),
        air(straight.air_lowest_full),
    ]
}
