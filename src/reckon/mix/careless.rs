//! Questions of Mix such as a careless, hurried or hostile hand might put.

use super::question::{
    DRAIN_TEST, HANDBOOK, MOST_PARTS, OWN_FIGURES, OwnAsked, PartAsked, Question, SQUARE, STAGGERED,
};
use crate::handbook::materials::MATERIALS;
use crate::handbook::pots::POTS;
use crate::handbook::thresholds::LIMITS;
use crate::measure::Entry;
use crate::reckon::careless::{entry, one_of, slips};
use crate::reckon::form::Numbers;
use crate::reckon::pot::{OWN_ROUND, OWN_SQUARE, OWN_VOLUME, PotAsked};
use crate::science::numerics::draws::Draws;

/// Numbers that need not be typed, each with the least and the most that is typed there, in the
/// unit that stands beside it.
const SELDOM: &[(&str, f64, f64)] = &[
    ("stands.tray", 5.0, 60.0),
    ("stands.bed", 5.0, 120.0),
    ("stands.drinks", 20.0, 2000.0),
    ("bench.spacing", 50.0, 600.0),
    ("bench.limit", 10.0, 300.0),
    ("chemistry.lime", 0.1, 8.0),
    ("chemistry.alkalinity", 10.0, 400.0),
    ("chemistry.conductivity", 0.05, 2.0),
    ("price", 0.5, 60.0),
    ("in_hand", 1.0, 500.0),
    ("own.density", 20.0, 1800.0),
    ("own.pore_space", 50.0, 98.0),
    ("own.water_at_10_cm", 2.0, 50.0),
];

/// Each of these is typed so often.
const HOW_SELDOM: f64 = 0.1;

pub fn careless(draws: &mut Draws) -> Question {
    let mut materials: Vec<&str> = MATERIALS.iter().map(|material| material.key).collect();
    let pots: Vec<&str> = POTS
        .iter()
        .map(|pot| pot.key)
        .chain([OWN_ROUND, OWN_SQUARE, OWN_VOLUME].repeat(4))
        .collect();
    let uses: Vec<&str> = LIMITS.iter().map(|limits| limits.key).collect();
    let many = draws.below(MOST_PARTS + 2);
    let parts = (0..many)
        .map(|_| {
            let again = slips(draws);
            let place = draws.below(materials.len());
            let key = if again {
                materials[place]
            } else {
                materials.swap_remove(place)
            };
            part(draws, key)
        })
        .collect();
    let breadth = entry(draws, "mm", 30.0, 500.0);
    let narrower = if slips(draws) {
        entry(draws, "mm", 10.0, 900.0)
    } else {
        breadth.clone()
    };
    let height = draws.uniform() * 500.0 + 40.0;
    let mut question = Question {
        parts,
        pot: PotAsked {
            size: one_of(draws, &pots, "bucket").to_owned(),
            rim: breadth,
            base: narrower,
            height: Entry::new(format!("{height:.1}"), "mm"),
            volume: entry(draws, "L", 0.1, 40.0),
            below_rim: entry(draws, "mm", 1.0, 28.0),
        },
        pots: Entry::number((1.0 + draws.uniform() * 300.0).floor()),
        purpose: one_of(draws, &uses, "roof").to_owned(),
        ..Question::default()
    };
    question.bench.set_out = one_of(draws, &[SQUARE, STAGGERED], "heap").to_owned();
    type_seldom(question.numbers(), draws);
    if draws.uniform() < HOW_SELDOM {
        question.bucket.loose = entry(draws, "L", 9.0, 11.0);
        question.bucket.mixed = entry(draws, "L", 7.0, 9.5);
    }
    question
}

fn part(draws: &mut Draws, key: &str) -> PartAsked {
    let mut part = PartAsked {
        material: one_of(draws, &[key], "moon dust").to_owned(),
        amount: entry(draws, "", 0.05, 20.0),
        bag: entry(draws, "L", 5.0, 2000.0),
        ..PartAsked::default()
    };
    // Most parts have the handbook's figures.
    let whose = [HANDBOOK, HANDBOOK, HANDBOOK, OWN_FIGURES, DRAIN_TEST];
    part.own.figures = one_of(draws, &whose, "a guess").to_owned();
    type_seldom(part.numbers(), draws);
    if part.own.figures == DRAIN_TEST && !slips(draws) {
        weigh(draws, &mut part.own);
    }
    part
}

/// A drain test of a material that might be, in one vessel or two; a weight may be misread.
fn weigh(draws: &mut Draws, own: &mut OwnAsked) {
    let dry_g_per_l = 50.0 + 500.0 * draws.uniform();
    let pore_space = 0.6 + 0.35 * draws.uniform();
    let moisture = 0.7 * draws.uniform();
    own.moisture = Entry::new(format!("{:.1}", 100.0 * moisture), "%");
    let both = draws.uniform() < 0.5;
    let vessels = [(&mut own.short, 1.0, 90.0), (&mut own.tall, 2.0, 200.0)];
    for (vessel, litres, millimetres) in vessels.into_iter().take(1 + usize::from(both)) {
        let drained = pore_space * (0.4 + 0.5 * draws.uniform());
        let dry_g = dry_g_per_l * litres;
        let weighed = |draws: &mut Draws, water: f64| {
            let grams = dry_g + 1000.0 * water * litres;
            entry(draws, "g", grams, grams * 1.001)
        };
        vessel.volume = entry(draws, "L", litres, litres * 1.01);
        vessel.height = entry(draws, "mm", millimetres, millimetres * 1.1);
        vessel.filled = entry(draws, "g", dry_g, dry_g * 1.001);
        if !slips(draws) {
            let damp = dry_g / (1.0 - moisture);
            vessel.filled = entry(draws, "g", damp, damp * 1.001);
        }
        vessel.soaked = weighed(draws, pore_space);
        vessel.drained = weighed(draws, drained);
    }
}

fn type_seldom(numbers: Numbers<'_>, draws: &mut Draws) {
    for (name, number) in numbers {
        if draws.uniform() < HOW_SELDOM {
            type_one(name, number, draws);
        }
    }
}

fn type_one(name: &str, number: &mut Entry, draws: &mut Draws) {
    if let Some(&(_, low, high)) = SELDOM.iter().find(|(known, ..)| *known == name) {
        *number = entry(draws, number.unit(), low, high);
    }
}
