//! Questions of Season such as a careless, hurried or hostile hand might put.

use super::question::{
    CERTAINTIES, HELD, HOUSE, PLACE_KEYS, PlaceAsked, Question, READY, SOWN, SowingAsked,
};
use crate::handbook::climates::CLIMATES;
use crate::handbook::crops::CROPS;
use crate::handbook::pots::POTS;
use crate::measure::Entry;
use crate::nursery::Day;
use crate::reckon::careless::{entry, one_of, slips};
use crate::science::numerics::draws::Draws;

fn whole(draws: &mut Draws, low: usize, high: usize) -> Entry {
    if slips(draws) {
        entry(draws, "", 0.1, 1e4)
    } else {
        Entry::number((low + draws.below(high - low + 1)) as f64)
    }
}

pub fn careless(draws: &mut Draws) -> Question {
    let climates: Vec<&str> = CLIMATES.iter().map(|row| row.key).collect();
    let places = 1 + draws.below(3);
    Question {
        certainty: one_of(draws, &CERTAINTIES, "110").to_owned(),
        climate: one_of(draws, &climates, "mars").to_owned(),
        sowings: (0..=draws.below(3))
            .map(|_| sowing(draws, places))
            .collect(),
        places: (0..places).map(|_| place(draws)).collect(),
        ..Question::default()
    }
}

fn sowing(draws: &mut Draws, places: usize) -> SowingAsked {
    let crops: Vec<&str> = CROPS.iter().map(|crop| crop.key).collect();
    let pots: Vec<&str> = POTS.iter().map(|pot| pot.key).collect();
    let mut asked = SowingAsked {
        crop: one_of(draws, &crops, "triffid").to_owned(),
        wanted: whole(draws, 1, 500),
        by: one_of(draws, &[READY, SOWN], "never").to_owned(),
        times: whole(draws, 1, 6),
        every: entry(draws, "day", 2.0, 60.0),
        lost: entry(draws, "%", 0.5, 50.0),
        in_cell: whole(draws, 1, 15),
        pot: one_of(draws, &pots, "boot").to_owned(),
        spacing: entry(draws, "mm", 100.0, 500.0),
        first: one_of(draws, &PLACE_KEYS[..places], "9").to_owned(),
        then: one_of(draws, &PLACE_KEYS[..places], "").to_owned(),
        stands: entry(draws, "day", 0.5, 90.0),
        ..SowingAsked::default()
    };
    let first = Day::from_civil(2027, 1, 1).unwrap_or(Day::from_number(0));
    let day = first.plus(draws.below(730) as i32);
    asked.day = if slips(draws) {
        one_of(
            draws,
            &["31 February 2027", "", "2027-13-01", "tomorrow"],
            "💐",
        )
        .to_owned()
    } else {
        day.iso()
    };
    if draws.below(3) == 0 {
        asked.up = entry(draws, "%", 20.0, 100.0);
        if draws.below(2) == 0 {
            asked.tested = whole(draws, 10, 100);
        }
    }
    asked
}

fn place(draws: &mut Draws) -> PlaceAsked {
    PlaceAsked {
        name: one_of(draws, &["bench", "", "  "], "<b>").to_owned(),
        warmth: one_of(draws, &[HELD, HOUSE], "cosy").to_owned(),
        held: entry(draws, "degC", 10.0, 28.0),
        night: entry(draws, "degC", 0.5, 5.0),
        day: entry(draws, "degC", 1.0, 12.0),
        lamps: Entry::number(draws.below(15) as f64),
        length: entry(draws, "m", 0.5, 30.0),
        breadth: entry(draws, "m", 0.5, 3.0),
    }
}
