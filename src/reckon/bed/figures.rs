//! What a bed comes to, as a table.

use super::physics::{AtDepth, Looked, Tray};
use super::question::Case;
use super::words;
use crate::measure::{AreaLoad, Duration, Fraction, Length, Number, Suction, Volume};
use crate::reckon::Problem;
use crate::reckon::answer::FigureName;

/// The names of the figures, the headline first.
pub fn names() -> Vec<FigureName> {
    let share = |name: &str, label: &str| FigureName::of::<Fraction>(name, label, "%");
    let length = |name: &str, label: &str| FigureName::of::<Length>(name, label, "mm");
    let litres = |name: &str, label: &str| FigureName::of::<Volume>(name, label, "L");
    let times = |name: &str, label: &str| FigureName::of::<Number>(name, label, "");
    vec![
        length("depth", "depth of the bed"),
        share("air", "air in the ball, between full tray and empty"),
        share("air_full", "air in the ball, tray full"),
        share("air_lowest_full", "air in its lowest third, tray full"),
        share("air_empty", "air in the ball, tray at its emptiest"),
        times("supply", "supply, as a multiple of what the plant drinks"),
        FigureName::of::<Suction>(
            "mid_suction",
            "suction amid the roots, tray at its emptiest",
            "cm_water",
        ),
        length(
            "breaks_at",
            "height to which this bed lifts what the plant drinks, at 60 cm of suction",
        ),
        times("refills", "refills in a day"),
        litres("fill", "water of one filling of the tray"),
        litres("a_plant", "what a plant drinks on the day"),
        litres("drunk", "water drunk in the tray in a day"),
        litres("evaporated", "water that evaporates beside it in a day"),
        litres("bed_a_pot", "bed medium for a pot, loose"),
        litres("bed", "bed medium for the tray, loose"),
        FigureName::of::<AreaLoad>("load", "all of it wet, tray full", "kg/m2"),
        FigureName::of::<Duration>(
            "flush",
            "time until the top reads three times what comes up",
            "day",
        ),
        times(
            "salt",
            "salt in the top after a month, as a multiple of what comes up",
        ),
        share("straight_air_full", "air straight in the water, tray full"),
        share(
            "straight_air_lowest",
            "air in the lowest third straight in the water, tray full",
        ),
    ]
}

/// The figures at a place among the depths, in the order of their names.
///
/// # Errors
/// A problem where there is no such depth.
pub fn values(
    case: &Case,
    tray: &Tray<'_>,
    looked: &Looked,
    place: usize,
) -> Result<Vec<f64>, Problem> {
    /// Less air than this is none, fraction: nobody measures it.
    const LEAST_AIR: f64 = 5e-4;
    /// A top that reads so much only later than this never does, days.
    const LATEST_DAYS: f64 = 365.0;
    let scene = tray.first()?;
    let found = (
        case.depths.get(place),
        looked.first().get(place),
        looked.first().first(),
    );
    let (Some(depth), Some(at), Some(straight)) = found else {
        return Err(words::no_depth());
    };
    let litres = |litres: f64| Volume::from_litres(litres).in_cubic_metres();
    let air = |air: f64| if air < LEAST_AIR { 0.0 } else { air };
    let sum = |of_one: fn(&AtDepth) -> f64| looked.over_the_tray(case, place, of_one);
    Ok(vec![
        depth.in_metres(),
        at.air,
        air(at.air_full),
        air(at.air_lowest_full),
        at.air_empty,
        at.supply,
        Suction::CENTIMETRE_OF_WATER.to_base(at.mid_suction_cm),
        Length::from_centimetres(scene.breaks_at_cm()).in_metres(),
        at.refills,
        litres(sum(|at| at.fill_litres)),
        litres(scene.demand_litres),
        litres(tray.over_all_pots(|scene| scene.demand_litres)),
        litres(tray.over_all_pots(|scene| scene.evaporated_litres())),
        litres(at.bed_litres),
        litres(sum(|at| at.bed_litres)),
        AreaLoad::KILOGRAM_PER_SQUARE_METRE.to_base(looked.load_kg_per_m2(case, place)),
        Duration::from_days(at.flush_days.min(LATEST_DAYS)).in_seconds(),
        at.salt_after_a_month,
        air(straight.air_full),
        air(straight.air_lowest_full),
    ])
}
