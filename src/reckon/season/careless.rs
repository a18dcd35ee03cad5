//! Questions of Season such as a careless, hurried or hostile hand might put.

use super::question::{
    BatchAsked, CERTAINTIES, HELD, HOUSE, PLACE_KEYS, PartAsked, PlaceAsked, Question, READY, SOWN,
    SowingAsked,
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
        batches: (0..draws.below(4).saturating_sub(1))
            .map(|_| batch(draws, places))
            .collect(),
        parts: (0..draws.below(4).saturating_sub(1))
            .map(|_| part(draws))
            .collect(),
        ..Question::default()
    }
}

fn part(draws: &mut Draws) -> PartAsked {
    PartAsked {
        name: one_of(draws, &["peat", "", "grit"], "<i>").to_owned(),
        parts: entry(draws, "", 0.5, 8.0),
        bag: entry(draws, "L", 5.0, 100.0),
        price: Entry::default(),
        in_hand: entry(draws, "L", 1.0, 500.0),
    }
}

/// A day of 2027 or 2028, or a slip.
fn day(draws: &mut Draws) -> String {
    if slips(draws) {
        let silly = ["31 February 2027", "", "2027-13-01", "tomorrow"];
        return one_of(draws, &silly, "💐").to_owned();
    }
    let first = Day::from_civil(2027, 1, 1).unwrap_or(Day::from_number(0));
    first.plus(draws.below(730) as i32).iso()
}

fn batch(draws: &mut Draws, places: usize) -> BatchAsked {
    let crops: Vec<&str> = CROPS.iter().map(|crop| crop.key).collect();
    let mut asked = BatchAsked {
        crop: one_of(draws, &crops, "triffid").to_owned(),
        number: whole(draws, 1, 500),
        sown: day(draws),
        first: one_of(draws, &PLACE_KEYS[..places], "9").to_owned(),
        then: one_of(draws, &PLACE_KEYS[..places], "").to_owned(),
        ..BatchAsked::default()
    };
    if let Some(mut on) = Day::from_iso(&asked.sown) {
        for known in [
            &mut asked.up,
            &mut asked.potted,
            &mut asked.ready,
            &mut asked.gone,
        ] {
            if draws.below(3) == 0 {
                break;
            }
            on = on.plus(draws.below(40) as i32);
            *known = if slips(draws) {
                "yesterday".to_owned()
            } else {
                on.iso()
            };
        }
    }
    if draws.below(2) == 0 {
        asked.came_up = whole(draws, 0, 500);
        asked.lost = whole(draws, 0, 50);
    }
    // Weather as far from what is usual as the day of sowing happens to say.
    if let Some(on) = Day::from_iso(&asked.sown) {
        let strayed_k = on.number().rem_euclid(13) - 6;
        if strayed_k != 0 {
            asked.nights = Entry::new(strayed_k.to_string(), "degC");
            asked.days = Entry::new((strayed_k / 2).to_string(), "degC");
        }
    }
    asked
}

fn sowing(draws: &mut Draws, places: usize) -> SowingAsked {
    let crops: Vec<&str> = CROPS.iter().map(|crop| crop.key).collect();
    let pots: Vec<&str> = POTS.iter().map(|pot| pot.key).collect();
    let mut asked = SowingAsked {
        crop: one_of(draws, &crops, "triffid").to_owned(),
        wanted: whole(draws, 1, 500),
        by: one_of(draws, &[READY, SOWN], "never").to_owned(),
        pot: one_of(draws, &pots, "boot").to_owned(),
        first: one_of(draws, &PLACE_KEYS[..places], "9").to_owned(),
        then: one_of(draws, &PLACE_KEYS[..places], "").to_owned(),
        ..SowingAsked::default()
    };
    asked.day = day(draws);
    // What need not be typed is left as it stands every other time.
    let mut typed = |path: &mut Entry, typed: &dyn Fn(&mut Draws) -> Entry| {
        if draws.below(2) == 0 {
            *path = typed(draws);
        }
    };
    typed(&mut asked.times, &|draws| whole(draws, 1, 6));
    typed(&mut asked.every, &|draws| entry(draws, "day", 2.0, 60.0));
    typed(&mut asked.lost, &|draws| entry(draws, "%", 0.5, 50.0));
    typed(&mut asked.in_cell, &|draws| whole(draws, 1, 15));
    typed(&mut asked.spacing, &|draws| {
        entry(draws, "mm", 100.0, 500.0)
    });
    typed(&mut asked.touching, &|draws| entry(draws, "day", 0.5, 40.0));
    typed(&mut asked.stands, &|draws| entry(draws, "day", 0.5, 90.0));
    if draws.below(4) == 0 {
        asked.aged = entry(draws, "", 0.5, 10.0);
        asked.kept = one_of(draws, &["sealed_cold", "dry_room", "shed"], "loft").to_owned();
    }
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
        ..PlaceAsked::default()
    }
}
