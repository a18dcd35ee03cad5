//! Questions of Root zone such as a careless, hurried or hostile hand might put.

use super::question::{
    BENCH, BOARDS_ON, DayAsked, FLOOR, INSIDE, LEAF, NONE, OUTSIDE, PROBE_KEYS, Question, RAISED,
    READ_KEYS, REPAIRS, ROOTING, ReadingAsked, SLATS,
};
use crate::handbook::bed_media::BED_MEDIA;
use crate::handbook::climates::CLIMATES;
use crate::handbook::heat::{BENCH_COVERS, BOARDS, GROUNDS, HOUSE_COVERS, ROOT_CROPS};
use crate::measure::Entry;
use crate::reckon::Reckoning;
use crate::reckon::careless::{entry, one_of};
use crate::reckon::mix::Mix;
use crate::science::numerics::draws::Draws;

/// A key of a list or nothing of the kind.
fn or_none(keys: impl Iterator<Item = &'static str>) -> Vec<&'static str> {
    keys.chain([NONE]).collect()
}

pub fn careless(draws: &mut Draws) -> Question {
    let of_mix = Mix::careless(draws);
    let mut question = Question {
        parts: of_mix.parts,
        pot: of_mix.pot,
        bench: of_mix.bench,
        ..Question::default()
    };
    let keys = |rows: Vec<&'static str>, draws: &mut Draws, other: &str| {
        one_of(draws, &rows, other).to_owned()
    };
    question.bench.spacing = entry(draws, "mm", 350.0, 700.0);
    question.stand = one_of(draws, &[FLOOR, RAISED, BENCH], "hanging").to_owned();
    question.crop = keys(
        ROOT_CROPS.iter().map(|row| row.key).collect(),
        draws,
        "moss",
    );
    question.stage = one_of(draws, &[LEAF, ROOTING], "asleep").to_owned();
    question.place.climate = keys(CLIMATES.iter().map(|row| row.key).collect(), draws, "mars");
    question.place.month = keys(vec!["1", "2", "3", "4", "6", "8", "10", "12"], draws, "13");
    question.air.by = one_of(draws, &[INSIDE, OUTSIDE], "by nose").to_owned();
    question.air.low = entry(draws, "degC", 0.1, 15.0);
    question.air.high = entry(draws, "degC", 10.0, 55.0);
    question.air.cover = keys(
        HOUSE_COVERS.iter().map(|row| row.key).collect(),
        draws,
        "tin",
    );
    question.air.repair = one_of(draws, &REPAIRS, "ruined").to_owned();
    question.floor.top = keys(GROUNDS.iter().map(|row| row.key).collect(), draws, "lava");
    question.floor.thickness = entry(draws, "mm", 10.0, 300.0);
    question.raised.height = entry(draws, "mm", 25.0, 1900.0);
    question.raised.on = one_of(draws, &[SLATS, BOARDS_ON], "air").to_owned();
    question.heated.set = entry(draws, "degC", 5.0, 33.0);
    question.heated.probe = one_of(draws, &PROBE_KEYS, "pocket").to_owned();
    question.heated.power = entry(draws, "W/m2", 10.0, 500.0);
    question.heated.board = keys(or_none(BOARDS.iter().map(|row| row.key)), draws, "straw");
    question.heated.thickness = entry(draws, "mm", 5.0, 200.0);
    question.cover.kind = keys(
        or_none(BENCH_COVERS.iter().map(|row| row.key)),
        draws,
        "hat",
    );
    question.tray.water = entry(draws, "mm", 1.0, 60.0);
    question.tray.medium = keys(or_none(BED_MEDIA.iter().map(|row| row.key)), draws, "jam");
    question.tray.bed = entry(draws, "mm", 5.0, 200.0);
    question.tray.drinks = entry(draws, "mL", 5.0, 2000.0);
    // One thing that is seldom asked is told at a time, or a slip in it would stop nearly all.
    match draws.below(8) {
        0 => {
            question.air.floor_low = entry(draws, "degC", 0.1, 8.0);
            question.air.floor_high = entry(draws, "degC", 10.0, 50.0);
        }
        1 => question.air.humidity = entry(draws, "%", 20.0, 99.0),
        2 => question.place.latitude = entry(draws, "", 35.0, 64.0),
        3 => question.floor.deep = entry(draws, "degC", 1.0, 25.0),
        4 => {
            question.money.tariff = entry(draws, "", 0.05, 2.0);
            question.money.cover_price = entry(draws, "", 5.0, 500.0);
        }
        5 => own(&mut question, draws),
        6 => {
            question.floor.mean = entry(draws, "degC", 1.0, 20.0);
            question.floor.swing = entry(draws, "degC", 1.0, 15.0);
        }
        _ => question.tray.tank = entry(draws, "degC", 1.0, 30.0),
    }
    question
}

/// Two days and a few readings, and now and then something fitted before.
fn own(question: &mut Question, draws: &mut Draws) {
    for _ in 0..2 {
        question.days.push(DayAsked {
            low: entry(draws, "degC", 0.1, 15.0),
            high: entry(draws, "degC", 16.0, 50.0),
        });
    }
    for _ in 0..=draws.below(9) {
        question.readings.push(ReadingAsked {
            what: one_of(draws, &READ_KEYS, "nose").to_owned(),
            day: Entry::number(1.0 + draws.below(2) as f64),
            hour: Entry::new((draws.below(48) as f64 / 2.0).to_string(), "h"),
            temperature: Entry::new((draws.below(300) as f64 / 10.0).to_string(), "degC"),
        });
    }
    if draws.below(2) == 0 {
        question.fitted.walls.low = entry(draws, "", 0.1, 1.0);
        question.fitted.walls.best = entry(draws, "", 1.0, 2.0);
        question.fitted.walls.high = entry(draws, "", 2.0, 9.0);
    }
}
