//! Questions of Bed such as a careless, hurried or hostile hand might put.

use super::question::{
    ABOVE, BEDDED, BELOW, BY_HAND, FLOAT, HELD, HOLES, LEAVES, LITRES, NO, POROUS, Question, SOLID,
    TubeAsked, UNDER_POTS, WHOLE_TRAY, YES,
};
use crate::handbook::bed_media::{BED_MEDIA, BY_TUBE, OWN};
use crate::handbook::thirst::{HABITS, OWN_DAY, WEATHER};
use crate::reckon::Reckoning;
use crate::reckon::careless::{entry, one_of};
use crate::reckon::mix::Mix;
use crate::science::numerics::draws::Draws;

pub fn careless(draws: &mut Draws) -> Question {
    let of_mix = Mix::careless(draws);
    let media: Vec<&str> = BED_MEDIA
        .iter()
        .map(|row| row.key)
        .chain([OWN, BY_TUBE])
        .collect();
    let weather: Vec<&str> = WEATHER.iter().map(|row| row.key).collect();
    let habits: Vec<&str> = HABITS.iter().map(|row| row.key).collect();
    let mut question = Question {
        parts: of_mix.parts,
        pot: of_mix.pot,
        pots: of_mix.pots,
        bench: of_mix.bench,
        contact: one_of(draws, &[BEDDED, HOLES], "glued").to_owned(),
        ..Question::default()
    };
    question.bench.spacing = entry(draws, "mm", 350.0, 700.0);
    question.bed.medium = one_of(draws, &media, "moon dust").to_owned();
    question.bed.grain = entry(draws, "mm", 0.1, 20.0);
    question.bed.extent = one_of(draws, &[WHOLE_TRAY, UNDER_POTS], "on the roof").to_owned();
    question.bed.bag = entry(draws, "L", 5.0, 1500.0);
    question.tray.wall = entry(draws, "mm", 20.0, 200.0);
    question.tray.level = entry(draws, "mm", 3.0, 30.0);
    question.tray.slope = entry(draws, "mm", 0.1, 5.0);
    question.tray.filling = one_of(draws, &[FLOAT, HELD, BY_HAND], "by rain").to_owned();
    question.plant.drinks = entry(draws, "mL", 6.0, 9000.0);
    question.plant.weather = one_of(draws, &weather, "snow").to_owned();
    // One thing that is seldom asked is told at a time, or a slip in it would stop nearly all.
    match draws.below(8) {
        0 => {
            question.plant.by = one_of(draws, &[LITRES, LEAVES], "by ear").to_owned();
            question.plant.habit = one_of(draws, &habits, "a hedge").to_owned();
            question.plant.breadth = entry(draws, "mm", 30.0, 1500.0);
        }
        1 => {
            question.plant.weather = OWN_DAY.to_owned();
            question.plant.sun = entry(draws, "", 1.0, 30.0);
        }
        2 => {
            question.wetted = one_of(draws, &[ABOVE, BELOW], "sideways").to_owned();
            question.plant.roots_in_bed = one_of(draws, &[NO, YES], "perhaps").to_owned();
            question.plant.rooted = entry(draws, "mm", 10.0, 300.0);
        }
        3 => {
            question.tray.area = entry(draws, "m2", 1.0, 100.0);
            question.tray.number = entry(draws, "", 1.0, 1.0);
            question.pots = entry(draws, "", 1.0, 1.0);
        }
        4 => {
            question.bed.medium = BY_TUBE.to_owned();
            careless_tube(&mut question.bed.tube, draws);
        }
        5 => {
            let second = &mut question.second;
            second.there = one_of(draws, &[NO, YES], "later").to_owned();
            second.pots = entry(draws, "", 1.0, 1.0);
            second.spacing = entry(draws, "mm", 350.0, 700.0);
            second.drinks = entry(draws, "mL", 6.0, 9000.0);
        }
        _ => {}
    }
    question
}

fn careless_tube(tube: &mut TubeAsked, draws: &mut Draws) {
    tube.grains = one_of(draws, &[SOLID, POROUS], "dust").to_owned();
    tube.tube = entry(draws, "mm", 250.0, 500.0);
    tube.time = entry(draws, "min", 30.0, 90.0);
    tube.nearly_wet = entry(draws, "mm", 10.0, 60.0);
    tube.damp = entry(draws, "mm", 50.0, 220.0);
    tube.handful_dry = entry(draws, "g", 100.0, 150.0);
    tube.handful_wet = entry(draws, "g", 130.0, 200.0);
    tube.litre_dry = entry(draws, "g", 400.0, 1500.0);
}
