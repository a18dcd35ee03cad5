//! Reading the question of Season; every problem is told at its field.

use std::cell::OnceCell;

use super::calendar::Skies;
use super::case::{By, Case, Germination, Hands, Mix, Sowing, Stand, Warmth, usual_in_cell};
use super::plan::Plan;
use super::question::{
    CERTAINTIES, HELD, HOUSE, MOST_PLACES, MOST_SOWINGS, PLACE_KEYS, PlaceAsked, Question, READY,
    SOWN, SowingAsked,
};
use super::words;
use crate::handbook::climates::CLIMATES;
use crate::handbook::crops::{Begun, CROPS};
use crate::handbook::pots::POTS;
use crate::measure::{
    DecimalMark, Duration, Entry, Fraction, Length, Limits, Number, Temperature,
    TemperatureDifference, Volume,
};
use crate::nursery::Day;
use crate::reckon::Problem;
use crate::reckon::form::path_in;
use crate::reckon::reader::Reader;

const fn whole(what: &'static str, low: f64, high: f64) -> Limits<Number> {
    Limits {
        whole: true,
        ..Limits::number(what, low, high)
    }
}

const WANTED: Limits<Number> = whole("Plants wanted", 1.0, 20_000.0);
const TIMES: Limits<Number> = whole("How often", 1.0, 30.0);
const EVERY: Limits<Duration> = Limits::between(
    "From one to the next",
    Duration::from_days(1.0),
    Duration::from_days(200.0),
);
const UP: Limits<Fraction> = Limits::percent("Share that comes up", 1.0, 100.0);
const TESTED: Limits<Number> = whole("Seeds in the test", 5.0, 1000.0);
const LOST: Limits<Fraction> = Limits::percent("Share lost afterwards", 0.0, 90.0);
const IN_CELL: Limits<Number> = whole("Seeds in a cell", 1.0, 50.0);
const SPACING: Limits<Length> = Limits::millimetres("From pot to pot", 20.0, 2000.0);
const STANDS: Limits<Duration> = Limits::between(
    "How long they stand",
    Duration::from_days(0.0),
    Duration::from_days(300.0),
);
const PACKET: Limits<Number> = whole("Seeds in a packet", 1.0, 1e6);
const PRICE: Limits<Number> = Limits::number("A price", 0.0, 1e6);
const IN_HAND: Limits<Number> = whole("Seeds in hand", 0.0, 1e7);
const HELD_AT: Limits<Temperature> = Limits::between(
    "What it is held at",
    Temperature::from_celsius(2.0),
    Temperature::from_celsius(35.0),
);
const WARMER: Limits<TemperatureDifference> = Limits::between(
    "How much warmer it is",
    TemperatureDifference::from_kelvins(-5.0),
    TemperatureDifference::from_kelvins(25.0),
);
const LAMPS: Limits<Number> = Limits::number("Light of lamps", 0.0, 60.0);
const SIZE: Limits<Length> = Limits::between(
    "Length or breadth",
    Length::from_metres(0.2),
    Length::from_metres(200.0),
);
const HOURS: Limits<Duration> = Limits::between(
    "Hours of a week",
    Duration::from_hours(0.0),
    Duration::from_hours(1000.0),
);
const MINUTES: Limits<Duration> = Limits::between(
    "Time for a hundred",
    Duration::from_minutes(0.0),
    Duration::from_minutes(10_000.0),
);
const BAG: Limits<Volume> = Limits::litres("A bag", 1.0, 2000.0);
const MIX_IN_HAND: Limits<Volume> = Limits::litres("Mix in hand", 0.0, 1e6);

/// A hundred of them take so long; one takes this, min.
fn each_min(reader: &mut Reader, path: &str, entry: &Entry) -> Option<f64> {
    const HUNDRED: f64 = 100.0;
    let all = reader.read(path, entry, &MINUTES)?;
    Some(all.in_minutes() / HUNDRED)
}

fn count(value: Number) -> u32 {
    value.in_count().round() as u32
}

fn day(reader: &mut Reader, path: &str, text: &str) -> Option<Day> {
    match Day::read(text) {
        Ok(day) => Some(day),
        Err(problem) => {
            reader.say(path, problem.to_string());
            None
        }
    }
}

fn germination(
    reader: &mut Reader,
    at: &dyn Fn(&str) -> String,
    asked: &SowingAsked,
) -> Option<Germination> {
    let share = if asked.up.is_empty() {
        None
    } else {
        Some(reader.read(&at("up"), &asked.up, &UP)?.in_fraction())
    };
    let tested = if asked.tested.is_empty() {
        None
    } else {
        Some(count(reader.read(&at("tested"), &asked.tested, &TESTED)?))
    };
    match (share, tested) {
        (None, None) => Some(Germination::Usual),
        (Some(share), None) => Some(Germination::Said(share)),
        (Some(share), Some(of)) => Some(Germination::Tested {
            up: (share * f64::from(of)).round() as u32,
            of,
        }),
        (None, Some(_)) => {
            reader.say(&at("up"), words::share_of_test_wanted());
            None
        }
    }
}

fn sowing(reader: &mut Reader, row: usize, asked: &SowingAsked, places: usize) -> Option<Sowing> {
    let at = |name: &str| path_in("sowings", row, name);
    let found = CROPS.iter().copied().find(|crop| crop.key == asked.crop);
    let crop = reader.found(&at("crop"), found, words::no_such_crop);
    if crop.is_some_and(|crop| crop.begun == Begun::Cuttings) {
        reader.say(&at("crop"), words::not_from_seed());
    }
    let wanted = reader.read(&at("wanted"), &asked.wanted, &WANTED);
    let by = reader.one_of(&at("by"), words::A_DAY, &asked.by, &[READY, SOWN]);
    let day = day(reader, &at("day"), &asked.day);
    let times = reader.read(&at("times"), &asked.times, &TIMES);
    let every = reader.read(&at("every"), &asked.every, &EVERY);
    let germination = germination(reader, &at, asked);
    let lost = reader.read(&at("lost"), &asked.lost, &LOST);
    let in_cell = if asked.in_cell.is_empty() {
        crop.map(usual_in_cell)
    } else {
        let typed = reader.read(&at("in_cell"), &asked.in_cell, &IN_CELL);
        typed.map(count)
    };
    let pot = reader.choose(
        &at("pot"),
        crate::reckon::words::A_POT,
        &asked.pot,
        POTS,
        |pot| pot.key,
    );
    let spacing = reader.read(&at("spacing"), &asked.spacing, &SPACING);
    if let Some((pot, spacing)) = pot.zip(spacing)
        && spacing < pot.rim
    {
        let sentence = crate::reckon::words::pots_closer_than_they_are_wide(pot.rim);
        reader.say(&at("spacing"), sentence);
    }
    let mut place = |name: &str, text: &str| {
        let number = PLACE_KEYS.iter().take(places).position(|key| *key == text);
        reader.found(&at(name), number, || words::no_such_place(places))
    };
    let (first, then) = (place("first", &asked.first), place("then", &asked.then));
    let stands = reader.read(&at("stands"), &asked.stands, &STANDS);
    let packet = reader.read(&at("packet"), &asked.packet, &PACKET);
    let packet_price = reader.read_if_typed(&at("packet_price"), &asked.packet_price, &PRICE);
    let in_hand = reader.read(&at("in_hand"), &asked.in_hand, &IN_HAND);
    let pot_price = reader.read_if_typed(&at("pot_price"), &asked.pot_price, &PRICE);
    let day = day?;
    Some(Sowing {
        crop: crop?,
        wanted: count(wanted?),
        by: if by? == 0 {
            By::Ready(day)
        } else {
            By::Sown(day)
        },
        times: count(times?),
        every_days: every?.in_days().round() as i32,
        germination: germination?,
        lost: lost?.in_fraction(),
        in_cell: in_cell?,
        pot: pot?,
        spacing: spacing?,
        first: first?,
        then: then?,
        stands_days: stands?.in_days(),
        packet: count(packet?),
        packet_price: packet_price.map(Number::in_count),
        in_hand: count(in_hand?),
        pot_price: pot_price.map(Number::in_count),
    })
}

fn stand(reader: &mut Reader, row: usize, asked: &PlaceAsked) -> Option<Stand> {
    let at = |name: &str| path_in("places", row, name);
    let warmth = reader.one_of(
        &at("warmth"),
        words::A_WARMTH,
        &asked.warmth,
        &[HELD, HOUSE],
    );
    let held = reader.read(&at("held"), &asked.held, &HELD_AT);
    let mut warmer = |name: &str, entry: &Entry| reader.read(&at(name), entry, &WARMER);
    let (night, day) = (warmer("night", &asked.night), warmer("day", &asked.day));
    let lamps = reader.read_if_typed(&at("lamps"), &asked.lamps, &LAMPS);
    let length = reader.read(&at("length"), &asked.length, &SIZE);
    let breadth = reader.read(&at("breadth"), &asked.breadth, &SIZE);
    let name = asked.name.trim();
    Some(Stand {
        name: if name.is_empty() {
            words::place_without_name(row)
        } else {
            name.to_owned()
        },
        warmth: if warmth? == 0 {
            Warmth::Held(held?.in_celsius())
        } else {
            Warmth::House
        },
        warmer_k: [night?.in_kelvins(), day?.in_kelvins()],
        lamps_mol_per_m2: lamps.map_or(0.0, Number::in_count),
        length: length?,
        breadth: breadth?,
    })
}

/// Reads a question; every problem found comes back, each at its field.
pub fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
    let mut reader = Reader::new(mark);
    let reader = &mut reader;
    let certainty = reader.one_of(
        "certainty",
        words::A_CERTAINTY,
        &question.certainty,
        &CERTAINTIES,
    );
    let climate = reader.found(
        "climate",
        CLIMATES.iter().find(|row| row.key == question.climate),
        words::no_such_climate,
    );
    for (list, many, most) in [
        ("sowings", question.sowings.len(), MOST_SOWINGS),
        ("places", question.places.len(), MOST_PLACES),
    ] {
        if many == 0 {
            reader.say(list, words::none_of(list));
        } else if many > most {
            reader.say(list, words::too_many_of(list, most));
        }
    }
    let places = question.places.len().min(MOST_PLACES);
    let stands: Vec<Stand> = (0..places)
        .zip(&question.places)
        .filter_map(|(row, asked)| stand(reader, row, asked))
        .collect();
    let sowings: Vec<Sowing> = (0..MOST_SOWINGS)
        .zip(&question.sowings)
        .filter_map(|(row, asked)| sowing(reader, row, asked, places))
        .collect();
    let hours = reader.read("hands.hours", &question.hands.hours, &HOURS);
    let sowing_min = each_min(reader, "hands.sowing", &question.hands.sowing);
    let potting_min = each_min(reader, "hands.potting", &question.hands.potting);
    let bag = reader.read("mix.bag", &question.mix.bag, &BAG);
    let price = reader.read_if_typed("mix.price", &question.mix.price, &PRICE);
    let in_hand = reader.read("mix.in_hand", &question.mix.in_hand, &MIX_IN_HAND);
    let case = (|| {
        Some(Case {
            certainty: CERTAINTIES
                .get(certainty?)
                .and_then(|text| text.parse::<f64>().ok())?
                / 100.0,
            climate: climate?,
            skies: Skies::of(climate?),
            sowings,
            stands,
            hands: Hands {
                hours: hours?.in_hours(),
                sowing_min: sowing_min?,
                potting_min: potting_min?,
            },
            mix: Mix {
                bag: bag?,
                price: price.map(Number::in_count),
                in_hand: in_hand?,
            },
            plan: OnceCell::new(),
        })
    })();
    match case {
        Some(case) if reader.problems.is_empty() => {
            // That it comes to an end at all.
            Plan::of(&case).map_err(|problem| vec![problem])?;
            Ok(case)
        }
        _ => Err(std::mem::take(&mut reader.problems)),
    }
}
