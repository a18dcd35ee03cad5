//! The sentences of Recipe.

use super::blends::STEPS;
use super::question::{Aim, Target};
use crate::reckon::words::{listed, number};

/// The thing chosen, where a choice is not in its list.
pub const AN_AIM: &str = "thing to make the least or the most of";
/// The thing chosen, where a choice is not in its list.
pub const A_CERTAINTY: &str = "certainty";
/// Name of a figure.
pub const PRICE_OF_ALL: &str = "price of the bags to buy";
/// Name of a figure.
pub const AIR: &str = "air in this pot, as the use has it judged";
/// Name of a figure.
pub const EASY_WATER: &str = "easily available water, 10 to 50 cm of suction";
/// Name of a figure.
pub const WATER: &str = "water, once drained";
/// Name of a figure.
pub const VOLUME_LOST: &str = "volume lost on mixing";

/// A fraction for a sentence.
fn percent(fraction: f64) -> String {
    [&number(fraction * 100.0, 3), "%"].concat()
}

/// Name of a figure.
pub fn wet_weight(by_depth: bool) -> &'static str {
    if by_depth {
        "a litre of wet mix, drained"
    } else {
        "wet mix in one pot, drained"
    }
}

/// No materials.
pub fn no_materials() -> String {
    "There is nothing to choose from yet. Add a material.".to_owned()
}

/// More materials than can be chosen from.
pub fn too_many_materials() -> String {
    "Choose from up to 5 materials. Leave out those you would use least.".to_owned()
}

/// A material that is there already.
pub fn material_twice(name: &str) -> String {
    [
        "There is ",
        name,
        " in this list already. Take one of the two out.",
    ]
    .concat()
}

/// A material that can neither be bought nor taken.
pub fn not_to_be_had(name: &str) -> String {
    [
        "Give the price of a bag, or say how much ",
        name,
        " is in hand. What costs nothing has the price 0.",
    ]
    .concat()
}

/// Mix has no longer a figure that is wanted of it.
pub fn no_such_figure() -> String {
    "This version of Longtom cannot search for mixes. Close all tabs of it and open it again."
        .to_owned()
}

/// A target as a phrase: "20% of air".
pub fn target(target: Target, value: f64) -> String {
    match target {
        Target::Air => [&percent(value), " of air"].concat(),
        Target::Water => [&percent(value), " of water"].concat(),
        Target::Weight => ["a wet weight of ", &number(value, 3), " kg"].concat(),
        Target::Price => ["a price of ", &number(value, 4)].concat(),
    }
}

/// What is made the least or the most of.
pub fn aim(aim: Aim) -> &'static str {
    match aim {
        Aim::Price => "cheapest",
        Aim::Weight => "lightest",
        Aim::Air => "airiest",
        Aim::EasyWater => "one with most water that is easily had",
    }
}

/// How sure the targets are met.
fn how_sure(sure: bool) -> &'static str {
    if sure {
        "in 9 of 10 draws"
    } else {
        "at the best figures"
    }
}

/// The blend was found.
pub fn found(of: Aim, sure: bool, any_target: bool, blends: usize) -> String {
    let met = if any_target {
        [", of those that meet each of your targets ", how_sure(sure)].concat()
    } else {
        String::new()
    };
    format!(
        "The {} of all {blends} mixes in whole parts of {STEPS}{met}.",
        aim(of)
    )
}

/// A first look has found a blend.
pub fn found_at_first(of: Aim) -> String {
    [
        "A first look, in coarse steps and at the best figures only: the ",
        aim(of),
        " so far. The full search goes on, and may find a better one or none.",
    ]
    .concat()
}

/// A first look has found none.
pub const NONE_AT_FIRST: &str = "A first look, in coarse steps and at the best figures only, has found no mix that meets your targets. The full search goes on.";

/// No blend meets the targets.
pub fn none(sure: bool, blends: usize) -> String {
    [
        "None of all ",
        &blends.to_string(),
        " mixes meets your targets ",
        how_sure(sure),
        ". This is the nearest.",
    ]
    .concat()
}

/// Nothing can be mixed.
pub fn nothing_to_be_had(litres: f64) -> String {
    [
        "There is not enough in hand for ",
        &number(litres, 3),
        " L, and nothing that can be bought fills it up. Give a price for one of the materials, or make less.",
    ]
    .concat()
}

/// What stands in the way, and by how much it has to give.
pub fn in_the_way(way: Target, wanted: f64, can_be: f64, recipe: &str) -> String {
    let name = match way {
        Target::Air => "Air",
        Target::Water => "Water",
        Target::Weight => "Weight",
        Target::Price => "Price",
    };
    [
        name,
        " stands in the way. The nearest that can be had has ",
        &target(way, can_be),
        " instead of ",
        &target(way, wanted),
        ": ",
        recipe,
        ". Ask for less, or choose from other materials.",
    ]
    .concat()
}

/// The blend as one would say it: "12 parts of coir pith and 5 of grit".
pub fn recipe(parts: &[(u8, &str)]) -> String {
    if let [(_, only)] = parts {
        return [only, " alone"].concat();
    }
    let said = |(index, (count, name)): (usize, &(u8, &str))| {
        let unit = match (index, *count) {
            (0, 1) => " part",
            (0, _) => " parts",
            _ => "",
        };
        [count.to_string().as_str(), unit, " of ", name].concat()
    };
    let said: Vec<String> = parts.iter().enumerate().map(said).collect();
    listed(&said)
}

/// How to mix it.
pub fn mix_it(parts: &[(u8, &str)], litres: f64) -> String {
    let verb = if parts.len() == 1 { "Use " } else { "Mix " };
    let how = if parts.len() == 1 {
        ", damp, for "
    } else {
        " by volume, loose and damp, for "
    };
    [verb, &recipe(parts), how, &number(litres, 3), " L."].concat()
}

/// A step of the working.
pub const WHAT_SEARCH: &str = "The search";

/// How the search goes.
pub fn search_formula(sure: bool) -> &'static str {
    if sure {
        "each mix judged as Mix judges it; those that come near, drawn in full from the best downwards until one meets every target in 9 of 10 draws"
    } else {
        "each mix judged as Mix judges it at the best figures, and none left out"
    }
}

/// What was searched.
pub fn search_put_in(materials: usize, blends: usize) -> String {
    let many = |count: usize, one: &str| {
        let end = if count == 1 { "" } else { "s" };
        format!("{count} {one}{end}")
    };
    [many(materials, "material"), many(blends, "mixture")].join(", ")
}
