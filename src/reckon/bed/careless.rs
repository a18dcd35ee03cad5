//! Questions of Bed such as a careless, hurried or hostile hand might put.

use super::question::{BEDDED, BY_HAND, FLOAT, HELD, HOLES, Question, UNDER_POTS, WHOLE_TRAY};
use crate::handbook::bed_media::{BED_MEDIA, OWN, WEATHER};
use crate::reckon::Reckoning;
use crate::reckon::careless::{entry, one_of};
use crate::reckon::mix::Mix;
use crate::science::numerics::draws::Draws;

pub fn careless(draws: &mut Draws) -> Question {
    let of_mix = Mix::careless(draws);
    let media: Vec<&str> = BED_MEDIA.iter().map(|row| row.key).chain([OWN]).collect();
    let weather: Vec<&str> = WEATHER.iter().map(|row| row.key).collect();
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
    question
}
