//! The sentences of Mix.

use super::Complaint;
use super::case::Case;
use super::physics::Judged;
use crate::handbook::safety::LIFT_AT_ARMS_LENGTH;
use crate::handbook::thresholds::{Limits, Use};
use crate::measure::Range;
use crate::reckon::answer::Verdict;
use crate::reckon::words::{self as of_all, chances_worth_saying, easy_lift, in_ten, listed};
pub use crate::reckon::words::{number, percent};

/// Step of a caution.
pub const BEFORE_OPENING: &str = "Before you open the bags";
/// Step of a caution.
pub const BEFORE_MIXING: &str = "Before you tip and mix";
/// Step of a caution.
pub const BEFORE_LIFTING: &str = "Before you lift";

/// Step of a caution.
pub const BEFORE_SETTING_OUT: &str = "Before you set the pots out";

/// The air that the verdict looks at.
pub fn judged_air(purpose: Use) -> &'static str {
    match purpose {
        Use::FedFromBelow => "air, mean of tray full and tray just empty",
        Use::Seed | Use::YoungPlants | Use::GrowingOn | Use::Cuttings => {
            "air in this pot, once drained"
        }
    }
}

/// The verdict in one sentence.
pub fn verdict(verdict: Verdict, limits: &Limits, chances: Option<[f64; 3]>) -> String {
    let said = match verdict {
        Verdict::Serves => format!("Serves for {}", limits.name),
        Verdict::Watch => format!("Can serve for {}, if you watch it", limits.name),
        Verdict::DoesNotServe => format!("Does not serve for {}", limits.name),
    };
    let Some([serves, watch, fails]) = chances else {
        return format!("{said}.");
    };
    let sure = match verdict {
        Verdict::Serves => serves,
        Verdict::Watch => watch,
        Verdict::DoesNotServe => fails,
    };
    let others = [
        (Verdict::Serves, serves, "that it serves as it is"),
        (Verdict::Watch, watch, "that watching is enough"),
        (Verdict::DoesNotServe, fails, "that it does not serve"),
    ];
    let others = others.into_iter().filter(|(other, ..)| *other != verdict);
    let others = chances_worth_saying(others.map(|(_, chance, what)| (chance, what)));
    if others.is_empty() {
        format!("{said}: {} sure.", in_ten(sure))
    } else {
        format!("{said}: {} sure; {}.", in_ten(sure), listed(&others))
    }
}

/// What is wrong, as the first half of an advice.
pub fn complaint(complaint: Complaint, limits: &Limits, judged: &Judged) -> String {
    let air = percent(judged.air);
    match complaint {
        Complaint::TooLittleAir | Complaint::LittleAir => {
            format!(
                "Too wet in this pot: {air} air where {} serves",
                percent(limits.air_serves_from)
            )
        }
        Complaint::MuchAir => format!(
            "Drains hard and dries fast: {air} air where up to {} serves",
            percent(limits.air_serves_to)
        ),
        Complaint::LittleEasyWater => format!(
            "Plenty of air, but little water that is easily had: {} where {} serves",
            percent(judged.easy_water),
            percent(limits.easy_water_serves_from)
        ),
        Complaint::LittleWater => format!(
            "Holds little water: {} where {} serves",
            percent(judged.water),
            percent(limits.water_serves_from)
        ),
    }
}

/// Add something to the mix.
pub fn add(parts: f64, material: &str, to_parts: f64) -> String {
    format!(
        "add {} of {material} to every {} of this mix",
        litres(parts),
        litres(to_parts)
    )
}

/// Take a taller pot.
pub fn taller(millimetres: f64) -> String {
    format!("take a pot {} mm deep or deeper", number(millimetres, 2))
}

/// Nothing in the handbook mends a wet mix.
pub fn live_with_wet(purpose: Use) -> &'static str {
    match purpose {
        Use::FedFromBelow => {
            "lift the pot clear of the water, and let the tray run dry before it fills again"
        }
        Use::Seed | Use::YoungPlants | Use::GrowingOn | Use::Cuttings => {
            "water seldom, and let the top dry between waterings"
        }
    }
}

/// Nothing in the handbook mends a dry mix.
pub fn live_with_dry(purpose: Use) -> &'static str {
    match purpose {
        Use::FedFromBelow => {
            "it serves while the tray feeds it, so do not let the tray stand empty on a hot day"
        }
        Use::Seed | Use::YoungPlants | Use::GrowingOn | Use::Cuttings => "water little and often",
    }
}

/// Mix as it is.
pub const MIX_IT: &str = "Mix it as it is, damp, and water it once from above so that it settles.";

/// The mix in one line: "60% composted bark, 20% coarse perlite and 20% coir pith".
pub fn mix(case: &Case) -> String {
    let parts: Vec<String> = case
        .parts
        .iter()
        .map(|part| [&percent(part.share), " ", part.material.name].concat())
        .collect();
    listed(&parts)
}

/// The pot in one line: "10 cm pot, 78 mm of mix".
pub fn pot(case: &Case) -> String {
    let deep = number(case.fill.in_millimetres(), 3);
    [case.pot, ", ", &deep, " mm of mix"].concat()
}

/// An amount of litres as one would say it.
pub fn litres(amount: f64) -> String {
    of_all::litres(amount, 2)
}

/// Lifting something heavy.
pub fn lifting(bag_litres: f64, bag_kg: f64, pot_kg: f64) -> String {
    format!(
        "A damp bag of {} L can weigh {} kg, and one wet pot about {} kg. {} Split the load or get help.",
        number(bag_litres, 3),
        number(bag_kg, 2),
        number(pot_kg, 2),
        easy_lift(),
    )
}

/// Lifting something light, many times.
pub fn lifting_small(pot_kg: f64) -> String {
    format!(
        "One wet pot is about {} kg: a full tray of them soon passes {} kg at arm's length. Carry few at a time, close to the body.",
        number(pot_kg, 2),
        number(LIFT_AT_ARMS_LENGTH.women_kg, 2)
    )
}

/// More on a bench than it carries.
pub fn bench_overloaded(load: Range<f64>, limit: f64) -> String {
    format!(
        "The bench carries {} kg on a square metre, and this would load it with {} ({} to {}), plants and pots not counted. Set the pots wider, or put props under it; the maker’s figure goes first.",
        number(limit, 3),
        number(load.best(), 2),
        number(load.low(), 2),
        number(load.high(), 2),
    )
}
