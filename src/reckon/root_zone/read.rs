//! Reading the question of Root zone; every problem is told at its field.

use std::cell::OnceCell;

use super::case::{
    Air, Bought, Case, Covered, GroundKnown, Heated, Laid, Money, PROBES, Shell, Stand,
};
use super::come::Best;
use super::own::{Before, Own, PLACES};
use super::question::{
    BENCH, BOARDS_ON, DayAsked, FLOOR, INSIDE, LEAF, MONTH_KEYS, MOST_DAYS, MOST_READINGS, NONE,
    OUTSIDE, PROBE_KEYS, Question, RAISED, READ_KEYS, REPAIRS, ROOTING, RangeAsked, ReadingAsked,
    SLATS, fitted_at,
};
use super::words;
use crate::handbook::bed_media::BED_MEDIA;
use crate::handbook::crops::crop;
use crate::handbook::heat::{
    AIR_CHANGES_NEW_PER_H, AIR_CHANGES_PER_H, AIR_CHANGES_POOR_PER_H, BENCH_COVERS, BOARDS,
    GROUNDS, HOUSE_COVERS, ROOT_CROPS,
};
use crate::measure::{
    Area, DecimalMark, Duration, Entry, Fraction, HeatDensity, Length, Limits, Number, Range,
    Temperature, TemperatureDifference, Volume,
};
use crate::reckon::form::path_in;
use crate::reckon::mix::{self, Mix};
use crate::reckon::reader::Reader;
use crate::reckon::{Problem, Reckoning};
use crate::science::heat::air::day_shape::LowestHighest;
use crate::science::heat::column::Place;
use crate::science::heat::fit::Reading;

const fn celsius(what: &'static str, low: f64, high: f64) -> Limits<Temperature> {
    Limits::between(
        what,
        Temperature::from_celsius(low),
        Temperature::from_celsius(high),
    )
}

/// Beyond the polar circles days have no night or nights no day.
const LATITUDE: Limits<Number> = Limits::number("Degrees north", 30.0, 65.0);
const LOW: Limits<Temperature> = celsius("The minimum", -25.0, 35.0);
const HIGH: Limits<Temperature> = celsius("The maximum", -15.0, 60.0);
const FLOOR_LOW: Limits<Temperature> = celsius("The minimum at the floor", -25.0, 35.0);
const FLOOR_HIGH: Limits<Temperature> = celsius("The maximum at the floor", -15.0, 60.0);
const HOTTEST: Limits<Temperature> = celsius("The hottest day inside", 20.0, 65.0);
const HUMIDITY: Limits<Fraction> = Limits::percent("Relative humidity", 10.0, 100.0);
const SPAN: Limits<Length> = Limits::between(
    "The house",
    Length::from_metres(1.0),
    Length::from_metres(200.0),
);
const TALL: Limits<Length> = Limits::between(
    "Mean height of the house",
    Length::from_metres(1.0),
    Length::from_metres(8.0),
);
const THICKNESS: Limits<Length> = Limits::millimetres("The layer on the earth", 5.0, 500.0);
const DEEP: Limits<Temperature> = celsius("The ground a metre down", -2.0, 30.0);
const GROUND_MEAN: Limits<Temperature> = celsius("The ground's mean of the year", -2.0, 25.0);
const GROUND_SWING: Limits<TemperatureDifference> = Limits::between(
    "Half of the ground's swing",
    TemperatureDifference::from_kelvins(0.0),
    TemperatureDifference::from_kelvins(20.0),
);
const RAISED_BY: Limits<Length> = Limits::millimetres("Height above the floor", 20.0, 2000.0);
const SET: Limits<Temperature> = celsius("What the bench is held at", 2.0, 35.0);
const POWER: Limits<HeatDensity> = Limits::between(
    "Power of the bench",
    HeatDensity::from_watts_per_square_metre(5.0),
    HeatDensity::from_watts_per_square_metre(1000.0),
);
const BOARD: Limits<Length> = Limits::millimetres("Insulation", 2.0, 300.0);
const BENCH_AREA: Limits<Area> = Limits::between(
    "Area of the bench",
    Area::from_square_metres(0.1),
    Area::from_square_metres(1000.0),
);
const OCLOCK: Limits<Duration> = Limits::between(
    "The hour",
    Duration::from_hours(0.0),
    Duration::from_hours(24.0),
);
const WATER: Limits<Length> = Limits::millimetres("Water in the tray", 0.0, 200.0);
const BED: Limits<Length> = Limits::millimetres("Depth of the bed", 2.0, 300.0);
const DRINKS: Limits<Volume> = Limits::litres("What a plant drinks in a day", 0.0, 20.0);
const TANK: Limits<Temperature> = celsius("Water of the tank", 0.1, 40.0);
const PRICE: Limits<Number> = Limits::number("A price", 0.0, 1e6);
const WEEKS: Limits<Number> = Limits::number("Weeks of heat", 0.0, 52.0);
const LIFE: Limits<Number> = Limits::number("Seasons that it lasts", 0.1, 100.0);
const DAY: Limits<Number> = Limits::number("The day", 1.0, MOST_DAYS as f64);
const READ: Limits<Temperature> = celsius("What it read", -20.0, 60.0);
const TIMES_USUAL: Limits<Number> = Limits::number("Times what is usual", 0.01, 20.0);
const WARMER: Limits<Number> = Limits::number("Warmer by night", -10.0, 10.0);

/// A minimum and a maximum, the one below the other.
fn between(
    reader: &mut Reader,
    [at_low, at_high]: [&str; 2],
    [low, high]: [&Entry; 2],
    limits: [&Limits<Temperature>; 2],
) -> Option<LowestHighest> {
    let low = reader.read(at_low, low, limits[0]);
    let high = reader.read(at_high, high, limits[1]);
    let (low, high) = (low?.in_celsius(), high?.in_celsius());
    if low >= high {
        reader.say(at_low, words::lowest_over_highest());
        return None;
    }
    Some(LowestHighest {
        lowest_c: low,
        highest_c: high,
    })
}

fn air(question: &Question, reader: &mut Reader) -> Option<Air> {
    let by = reader.one_of(
        "air.by",
        words::A_WAY_OF_AIR,
        &question.air.by,
        &[INSIDE, OUTSIDE],
    );
    let asked = &question.air;
    let day = between(
        reader,
        ["air.low", "air.high"],
        [&asked.low, &asked.high],
        [&LOW, &HIGH],
    );
    if by? == 1 {
        return Some(Air::Outside(day?));
    }
    let floor = if asked.floor_low.is_empty() && asked.floor_high.is_empty() {
        None
    } else {
        Some(between(
            reader,
            ["air.floor_low", "air.floor_high"],
            [&asked.floor_low, &asked.floor_high],
            [&FLOOR_LOW, &FLOOR_HIGH],
        )?)
    };
    Some(Air::Inside { bench: day?, floor })
}

fn shell(question: &Question, reader: &mut Reader) -> Option<Shell> {
    let asked = &question.air;
    let cover = reader.choose(
        "air.cover",
        words::A_HOUSE_COVER,
        &asked.cover,
        HOUSE_COVERS,
        |row| row.key,
    );
    let repair = reader.one_of("air.repair", words::A_REPAIR, &asked.repair, &REPAIRS);
    let length = reader.read("air.length", &asked.length, &SPAN);
    let width = reader.read("air.width", &asked.width, &SPAN);
    let height = reader.read("air.height", &asked.height, &TALL);
    Some(Shell {
        cover: cover?,
        air_changes_per_h: [
            AIR_CHANGES_PER_H,
            AIR_CHANGES_POOR_PER_H,
            AIR_CHANGES_NEW_PER_H,
        ]
        .get(repair?)
        .copied()?,
        length: length?,
        width: width?,
        height: height?,
    })
}

fn heated(question: &Question, reader: &mut Reader) -> Option<Heated> {
    let asked = &question.heated;
    let set = reader.read("heated.set", &asked.set, &SET);
    let probe = reader.one_of("heated.probe", words::A_PROBE, &asked.probe, &PROBE_KEYS);
    let power = reader.read("heated.power", &asked.power, &POWER);
    let area = reader.read("heated.area", &asked.area, &BENCH_AREA);
    let board = if asked.board == NONE {
        Some(None)
    } else {
        let board = reader.choose(
            "heated.board",
            words::A_BOARD,
            &asked.board,
            BOARDS,
            |row| row.key,
        );
        let thickness = reader.read("heated.thickness", &asked.thickness, &BOARD);
        board.zip(thickness).map(Some)
    };
    Some(Heated {
        set: set?,
        probe: PROBES.get(probe?).copied()?,
        power: power?,
        board: board?,
        area: area?,
    })
}

/// A cover, or none; none at all where it could not be read.
fn cover(question: &Question, reader: &mut Reader) -> Option<Option<Covered>> {
    let asked = &question.cover;
    if asked.kind == NONE {
        return Some(None);
    }
    let row = reader.choose(
        "cover.kind",
        words::A_BENCH_COVER,
        &asked.kind,
        BENCH_COVERS,
        |row| row.key,
    );
    let from = reader.read("cover.from", &asked.from, &OCLOCK);
    let to = reader.read("cover.to", &asked.to, &OCLOCK);
    Some(Some(Covered {
        cover: row?,
        from_h: from?.in_hours(),
        to_h: to?.in_hours(),
    }))
}

fn bed(question: &Question, reader: &mut Reader) -> Option<Option<Laid>> {
    if question.tray.medium == NONE {
        return Some(None);
    }
    let medium = reader.choose(
        "tray.medium",
        words::A_MEDIUM,
        &question.tray.medium,
        BED_MEDIA,
        |row| row.key,
    );
    let depth = reader.read("tray.bed", &question.tray.bed, &BED);
    Some(Some(Laid {
        medium: medium?,
        depth: depth?,
    }))
}

fn money(question: &Question, reader: &mut Reader) -> Option<Money> {
    let asked = &question.money;
    let mut price = |path: &str, entry: &Entry| {
        let price = reader.read_if_typed(path, entry, &PRICE);
        price.map(Number::in_count)
    };
    let tariff = price("money.tariff", &asked.tariff);
    let cover_price = price("money.cover_price", &asked.cover_price);
    let board_price = price("money.board_price", &asked.board_price);
    let weeks = reader.read("money.weeks", &asked.weeks, &WEEKS);
    let cover_life = reader.read("money.cover_life", &asked.cover_life, &LIFE);
    let board_life = reader.read("money.board_life", &asked.board_life, &LIFE);
    Some(Money {
        tariff,
        weeks: weeks?.in_count(),
        cover: Bought {
            price: cover_price,
            seasons: cover_life?.in_count(),
        },
        board: Bought {
            price: board_price,
            seasons: board_life?.in_count(),
        },
    })
}

/// Days with readings of one's own; none where no reading is told, and none at all where something of them is amiss.
fn own(question: &Question, reader: &mut Reader) -> Option<Option<Own>> {
    if question.readings.is_empty() {
        return Some(None);
    }
    let before = reader.problems.len();
    if question.days.len() > MOST_DAYS {
        reader.say("days", words::too_many(MOST_DAYS, "days"));
    }
    if question.readings.len() > MOST_READINGS {
        reader.say("readings", words::too_many(MOST_READINGS, "readings"));
    }
    let days = days(&question.days, reader);
    let bed = question.tray.medium != NONE;
    let readings: Vec<Reading> = (0..)
        .zip(&question.readings)
        .take(MOST_READINGS)
        .filter_map(|(row, asked)| reading(asked, row, (question.days.len(), bed), reader))
        .collect();
    (reader.problems.len() == before).then_some(Some(Own { days, readings }))
}

/// The air of days. A last maximum that is not read yet is the mean of those that are.
fn days(asked: &[DayAsked], reader: &mut Reader) -> Vec<LowestHighest> {
    let mut read: Vec<(f64, Option<f64>)> = Vec::new();
    for (row, day) in (0..).zip(asked).take(MOST_DAYS) {
        let [at_low, at_high] = ["low", "high"].map(|name| path_in("days", row, name));
        let low = reader
            .read(&at_low, &day.low, &LOW)
            .map(Temperature::in_celsius);
        let high = if day.high.is_empty() && row + 1 == asked.len() {
            Some(None)
        } else {
            let high = reader.read(&at_high, &day.high, &HIGH);
            high.map(|high| Some(high.in_celsius()))
        };
        let Some((low, high)) = low.zip(high) else {
            continue;
        };
        if high.is_some_and(|high| low >= high) {
            reader.say(&at_low, words::lowest_over_highest());
        }
        read.push((low, high));
    }
    let highs: Vec<f64> = read.iter().filter_map(|(_, high)| *high).collect();
    if highs.is_empty() {
        reader.say("days", words::days_wanted());
    }
    let mean = highs.iter().sum::<f64>() / highs.len().max(1) as f64;
    read.iter()
        .map(|(low, high)| LowestHighest {
            lowest_c: *low,
            highest_c: high.unwrap_or(mean).max(*low),
        })
        .collect()
}

fn reading(
    asked: &ReadingAsked,
    row: usize,
    (days, bed): (usize, bool),
    reader: &mut Reader,
) -> Option<Reading> {
    let [at_what, at_day, at_hour, at_read] =
        ["what", "day", "hour", "temperature"].map(|name| path_in("readings", row, name));
    let what = reader.one_of(&at_what, words::A_READING, &asked.what, &READ_KEYS);
    let day = reader.read(&at_day, &asked.day, &DAY).map(Number::in_count);
    let hour = reader.read(&at_hour, &asked.hour, &OCLOCK);
    let temperature = reader.read(&at_read, &asked.temperature, &READ);
    let place = PLACES.get(what?).copied()?;
    if place == Place::Bed && !bed {
        reader.say(&at_what, words::no_bed_to_read());
    }
    let day = day?;
    if day.fract() != 0.0 || day > days as f64 {
        reader.say(&at_day, words::no_such_day(days));
    }
    Some(Reading {
        place,
        at: Duration::from_hours(24.0 * (day - 1.0) + hour?.in_hours()),
        temperature: temperature?,
    })
}

/// What was fitted before; none at all where something of it is amiss.
fn fitted(question: &Question, reader: &mut Reader) -> Option<Before> {
    let before = reader.problems.len();
    let asked = &question.fitted;
    let found = Before {
        walls: range("walls", &asked.walls, &TIMES_USUAL, reader),
        night: range("night", &asked.night, &WARMER, reader),
        sun: range("sun", &asked.sun, &TIMES_USUAL, reader),
    };
    (reader.problems.len() == before).then_some(found)
}

fn range(
    name: &str,
    asked: &RangeAsked,
    limits: &Limits<Number>,
    reader: &mut Reader,
) -> Option<Range<f64>> {
    if asked.is_empty() {
        return None;
    }
    let at = |end: &str| fitted_at(name, end);
    let mut read = |end: &str, entry: &Entry| reader.read(&at(end), entry, limits);
    let (low, best, high) = (
        read("low", &asked.low),
        read("best", &asked.best),
        read("high", &asked.high),
    );
    let [low, best, high] = [low?, best?, high?].map(Number::in_count);
    match Range::new(low, best, high) {
        Ok(range) if low < high => Some(range),
        _ => {
            reader.say(&at("best"), words::range_rises());
            None
        }
    }
}

/// The mix in its pot, on a bench with a spacing.
fn mixed(question: &Question, reader: &mut Reader, mark: DecimalMark) -> Option<mix::Case> {
    if question.bench.spacing.is_empty() {
        reader.say("bench.spacing", words::spacing_wanted());
    }
    let of_mix = mix::Question {
        parts: question.parts.clone(),
        pot: question.pot.clone(),
        bench: question.bench.clone(),
        ..mix::Question::default()
    };
    match Mix::check(&of_mix, mark) {
        Ok(case) => Some(case),
        Err(problems) => {
            reader.problems.extend(problems);
            None
        }
    }
}

/// Reads a question; every problem found comes back, each at its field.
pub fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
    let mut reader = Reader::new(mark);
    let reader = &mut reader;
    let stand = reader.one_of(
        "stand",
        words::A_STAND,
        &question.stand,
        &[FLOOR, RAISED, BENCH],
    );
    let crop_row = reader.choose("crop", words::A_CROP, &question.crop, ROOT_CROPS, |row| {
        row.key
    });
    let stage = reader.one_of("stage", words::A_STAGE, &question.stage, &[LEAF, ROOTING]);
    let climate = reader.climate("place.climate", &question.place.climate);
    let latitude = reader.read_if_typed("place.latitude", &question.place.latitude, &LATITUDE);
    let month = reader.one_of(
        "place.month",
        words::A_MONTH,
        &question.place.month,
        &MONTH_KEYS,
    );
    let air = air(question, reader);
    let humidity = reader.read_if_typed("air.humidity", &question.air.humidity, &HUMIDITY);
    let hottest = reader.read("air.hottest", &question.air.hottest, &HOTTEST);
    let shell = shell(question, reader);
    let top = reader.choose(
        "floor.top",
        words::A_FLOOR,
        &question.floor.top,
        GROUNDS,
        |row| row.key,
    );
    let thickness = reader.read("floor.thickness", &question.floor.thickness, &THICKNESS);
    let ground = GroundKnown {
        deep: reader.read_if_typed("floor.deep", &question.floor.deep, &DEEP),
        mean: reader.read_if_typed("floor.mean", &question.floor.mean, &GROUND_MEAN),
        swing: reader.read_if_typed("floor.swing", &question.floor.swing, &GROUND_SWING),
    };
    let raised = reader.read("raised.height", &question.raised.height, &RAISED_BY);
    let on = reader.one_of(
        "raised.on",
        words::A_FOOT,
        &question.raised.on,
        &[SLATS, BOARDS_ON],
    );
    let heated = heated(question, reader);
    let cover = cover(question, reader);
    let mix = mixed(question, reader, mark);
    let water = reader.read("tray.water", &question.tray.water, &WATER);
    let bed = bed(question, reader);
    let drinks = reader.read("tray.drinks", &question.tray.drinks, &DRINKS);
    let tank = reader.read_if_typed("tray.tank", &question.tray.tank, &TANK);
    let money = money(question, reader);
    let own = own(question, reader);
    let fitted = fitted(question, reader);
    let case = (|| {
        let climate = climate?;
        let crop_row = crop_row?;
        let top = top?;
        let thickness = thickness?;
        let mix = mix?;
        Some(Case {
            stand: Stand::ALL.get(stand?).copied()?,
            crop: crop_row,
            crop_name: crop(crop_row.key).map_or(crop_row.key, |crop| crop.name),
            rooting: stage? == 1,
            climate,
            latitude: latitude.map_or(climate.weather().latitude, Number::in_count),
            month: month?,
            air: air?,
            humidity: humidity.map(Fraction::in_fraction),
            hottest: hottest?,
            shell: shell?,
            top: (top.key != GROUNDS[0].key).then_some((top, thickness)),
            ground,
            raised: raised?,
            on_boards: on? == 1,
            heated: heated?,
            cover: cover?,
            pots_per_m2: mix.bench?.pots.in_per_square_metre(),
            mix,
            water: water?,
            bed: bed?,
            drinks: drinks?,
            tank,
            money: money?,
            own: own?,
            fitted: fitted?,
            best: OnceCell::new(),
        })
    })();
    match case {
        Some(case) if reader.problems.is_empty() => {
            // That it can be followed at all.
            Best::of(&case).map_err(|problem| vec![problem])?;
            Ok(case)
        }
        _ => Err(std::mem::take(&mut reader.problems)),
    }
}
