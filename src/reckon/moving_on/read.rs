//! Reading the question of Moving on; every problem is told at its field.

use std::cell::OnceCell;

use super::card;
use super::case::{Case, Flower, From, Move, Pests, Place, Room, Seen, Stood, Sum, Tips, sum_of};
use super::days::lights;
use super::hot::noons;
use super::nights::Nights;
use super::own::{Earlier, Went, found as own_found};
use super::question::{
    BALLS, CIRCLINGS, COVERS, FLOWERS, FROM, MOST_EARLIER, MOST_FORECASTS, MOST_NIGHTS, MOVES,
    OwnAsked, PESTS, PlaceAsked, Question, TIPS, WENT, WeighedAsked,
};
use super::ready::{Point, leaves_from};
use super::words;
use crate::handbook::crops::between::BETWEEN;
use crate::handbook::crops::readiness::readiness;
use crate::handbook::pots::POTS;
use crate::measure::{
    DecimalMark, Duration, Entry, Fraction, Length, Limits, Mass, Number, Range, Temperature,
    TemperatureDifference,
};
use crate::nursery::Day;
use crate::reckon::Problem;
use crate::reckon::form::path_in;
use crate::reckon::reader::Reader;
use crate::reckon::season::with_scatter;
use crate::science::plant_quality::Weighed;

const fn celsius(what: &'static str, low: f64, high: f64) -> Limits<Temperature> {
    Limits::between(
        what,
        Temperature::from_celsius(low),
        Temperature::from_celsius(high),
    )
}

const fn grams(what: &'static str) -> Limits<Mass> {
    Limits::between(what, Mass::from_grams(0.001), Mass::from_grams(500.0))
}

const fn days(what: &'static str, high: f64) -> Limits<Duration> {
    Limits::between(what, Duration::from_days(0.0), Duration::from_days(high))
}

const PLANTS: Limits<Number> = Limits {
    whole: true,
    ..Limits::number("How many plants", 1.0, 100_000.0)
};
const STOOD_LOW: Limits<Temperature> = celsius("The mean minimum where it stood", -5.0, 32.0);
const STOOD_HIGH: Limits<Temperature> = celsius("The mean maximum where it stood", 0.0, 45.0);
const LIGHT: Limits<Number> = Limits::number("Light where it stood", 0.0, 60.0);
const LEAVES: Limits<Number> = Limits::number("True leaves", 0.0, 40.0);
const HEIGHT: Limits<Length> = Limits::millimetres("Height of a plant", 0.0, 1500.0);
const HARDENED: Limits<Duration> = days("Days hardened", 60.0);
const PLANT_HEIGHT: Limits<Length> = Limits::millimetres("Height of the plant", 5.0, 2000.0);
const STEM: Limits<Length> = Limits::millimetres("Thickness of the stem", 0.2, 40.0);
const SHOOT: Limits<Mass> = grams("What grows above the mix, dry,");
const ROOT: Limits<Mass> = grams("The roots, dry,");
const WARMER: Limits<TemperatureDifference> = Limits::between(
    "How much warmer its nights are",
    TemperatureDifference::from_kelvins(-5.0),
    TemperatureDifference::from_kelvins(15.0),
);
const HELD: Limits<Temperature> = celsius("What it is held at", 0.0, 30.0);
const HOTTEST: Limits<Temperature> = celsius("The highest expected there", 0.0, 60.0);
const NIGHT: Limits<Temperature> = celsius("A minimum", -30.0, 30.0);

const ROOM: Limits<Number> = Limits {
    whole: true,
    ..Limits::number("Pots that find room there", 0.0, 100_000.0)
};
const TRAYS: Limits<Number> = Limits {
    whole: true,
    ..Limits::number("Free trays", 0.0, 10_000.0)
};
const IN_TRAY: Limits<Number> = Limits {
    whole: true,
    ..Limits::number("Pots that a tray takes", 1.0, 1000.0)
};
const FLOATS: Limits<Number> = Limits {
    whole: true,
    ..Limits::number("Free float valves", 0.0, 10_000.0)
};
const OWN_WARMTH: Limits<Fraction> = Limits::percent(
    "Warmth that your batches needed, of the handbook's,",
    25.0,
    400.0,
);
const OWN_OFF: Limits<Fraction> = Limits::percent("How far the next may be off", 1.0, 100.0);

/// A batch is followed for so long at most, days.
const LONGEST_DAYS: i32 = 400;
/// A minimum that was read longer ago than this tells nothing of the coming nights, days.
const OLDEST_NIGHT_DAYS: i32 = 60;

/// What was seen of a few things to choose from; none where nobody looked, or where it is none of them.
fn looked<T: Copy>(
    reader: &mut Reader,
    path: &str,
    what: &str,
    chosen: &str,
    keys: &[&'static str],
    all: &[T],
) -> Option<T> {
    if chosen.trim().is_empty() {
        return None;
    }
    let place = reader.one_of(path, what, chosen, keys)?;
    all.get(place).copied()
}

fn seen(reader: &mut Reader, question: &Question) -> Seen {
    let asked = &question.seen;
    Seen {
        ball: looked(
            reader,
            "seen.ball",
            words::A_BALL,
            &asked.ball,
            &BALLS,
            &[1, 2, 3, 4, 5],
        ),
        circling: looked(
            reader,
            "seen.circling",
            words::A_CIRCLING,
            &asked.circling,
            &CIRCLINGS,
            &[0, 1, 2, 3],
        ),
        tips: looked(
            reader,
            "seen.tips",
            words::A_COLOUR,
            &asked.tips,
            &TIPS,
            &[Tips::White, Tips::Tan, Tips::Brown],
        ),
        leaves: reader
            .read_if_typed("seen.leaves", &asked.leaves, &LEAVES)
            .map(Number::in_count),
        height_cm: reader
            .read_if_typed("seen.height", &asked.height, &HEIGHT)
            .map(Length::in_centimetres),
        flower: looked(
            reader,
            "seen.flower",
            words::A_FLOWER,
            &asked.flower,
            &FLOWERS,
            &[Flower::None, Flower::Bud, Flower::Open],
        ),
        pests: looked(
            reader,
            "seen.pests",
            words::A_PEST,
            &asked.pests,
            &PESTS,
            &[Pests::None, Pests::Few, Pests::Many],
        ),
        hardened_days: reader
            .read_if_typed("seen.hardened", &asked.hardened, &HARDENED)
            .map(Duration::in_days),
    }
}

/// The weighed plant with its dry mass in all; none where nothing of it is typed. All four are wanted, or none.
fn weighed(reader: &mut Reader, asked: &WeighedAsked) -> Option<(Weighed, Mass)> {
    let all: [(&str, &Entry); 4] = [
        ("weighed.height", &asked.height),
        ("weighed.stem", &asked.stem),
        ("weighed.shoot", &asked.shoot),
        ("weighed.root", &asked.root),
    ];
    if all.iter().all(|(_, entry)| entry.is_empty()) {
        return None;
    }
    for (path, _) in all.iter().filter(|(_, entry)| entry.is_empty()) {
        reader.say(path, words::all_four_or_none());
    }
    let height = reader.read_if_typed("weighed.height", &asked.height, &PLANT_HEIGHT);
    let stem = reader.read_if_typed("weighed.stem", &asked.stem, &STEM);
    let shoot = reader.read_if_typed("weighed.shoot", &asked.shoot, &SHOOT);
    let root = reader.read_if_typed("weighed.root", &asked.root, &ROOT);
    let (height, stem, shoot, root) = (height?, stem?, shoot?, root?);
    match Weighed::new(height, stem, shoot, root) {
        Ok(weighed) => Some((weighed, shoot + root)),
        Err(why) => {
            reader.say("weighed.height", why.to_string());
            None
        }
    }
}

fn log(reader: &mut Reader, question: &Question, today: Option<Day>) -> Vec<(usize, f64)> {
    let mut found: Vec<(usize, f64)> = Vec::new();
    for (row, asked) in question.nights.iter().take(MOST_NIGHTS).enumerate() {
        let at = |name: &str| path_in("nights", row, name);
        if asked.day.trim().is_empty() && asked.low.is_empty() {
            continue;
        }
        let on = reader.day(&at("day"), &asked.day);
        let low = reader.read(&at("low"), &asked.low, &NIGHT);
        let (Some(on), Some(today), Some(low)) = (on, today, low) else {
            continue;
        };
        let ago = today.number() - on.number();
        match usize::try_from(ago) {
            Err(_) => reader.say(&at("day"), words::night_to_come(today)),
            Ok(_) if ago > OLDEST_NIGHT_DAYS => {
                reader.say(&at("day"), words::night_long_ago(OLDEST_NIGHT_DAYS));
            }
            Ok(ago) if found.iter().any(|(known, _)| *known == ago) => {
                reader.say(&at("day"), words::night_twice(on));
            }
            Ok(ago) => found.push((ago, low.in_celsius())),
        }
    }
    found
}

/// Forecasts run from tonight without a gap: an empty one ends them, and one after it is a problem.
fn forecasts(reader: &mut Reader, question: &Question) -> Vec<f64> {
    let mut found = Vec::new();
    let mut ended = None;
    for (row, asked) in question.forecasts.iter().take(MOST_FORECASTS).enumerate() {
        let path = path_in("forecasts", row, "low");
        if asked.low.is_empty() {
            ended = ended.or(Some(path));
            continue;
        }
        if let Some(gap) = ended.take() {
            reader.say(&gap, words::forecast_gap());
        }
        found.extend(
            reader
                .read(&path, &asked.low, &NIGHT)
                .map(Temperature::in_celsius),
        );
    }
    found
}

/// Moves of before; a row of which nothing is typed is none.
fn earlier(reader: &mut Reader, question: &Question) -> Vec<Earlier> {
    let mut found = Vec::new();
    for (row, asked) in question.earlier.iter().take(MOST_EARLIER).enumerate() {
        if asked.low.is_empty() {
            continue;
        }
        let at = |name: &str| path_in("earlier", row, name);
        let low = reader.read(&at("low"), &asked.low, &NIGHT);
        let went = looked(
            reader,
            &at("went"),
            words::A_WAY_IT_WENT,
            &asked.went,
            &WENT,
            &[Went::Well, Went::Slowly, Went::Checked, Went::Harmed],
        );
        if low.is_some() && asked.went.trim().is_empty() {
            reader.say(&at("went"), words::how_it_went());
        }
        found.extend(low.zip(went).map(|(low, went)| Earlier {
            low_c: low.in_celsius(),
            went,
        }));
    }
    found
}

/// What there is of room; trays and valves are of no use where it is not known what a tray takes.
fn room(reader: &mut Reader, asked: &PlaceAsked) -> Room {
    let count = |reader: &mut Reader, path: &str, entry: &Entry, limits: &Limits<Number>| {
        reader
            .read_if_typed(path, entry, limits)
            .map(Number::in_count)
    };
    let found = Room {
        pots: count(reader, "place.room", &asked.room, &ROOM),
        in_tray: count(reader, "place.in_tray", &asked.in_tray, &IN_TRAY),
        trays: count(reader, "place.trays", &asked.trays, &TRAYS),
        floats: count(reader, "place.floats", &asked.floats, &FLOATS),
    };
    if asked.in_tray.is_empty() && !(asked.trays.is_empty() && asked.floats.is_empty()) {
        reader.say("place.in_tray", words::in_tray_wanted());
    }
    found
}

/// The warmth of a step as one's own batches have it; where nothing is typed the handbook's, with the scatter between one
/// source and the next.
fn own_sum(reader: &mut Reader, asked: &OwnAsked, sum: Option<Sum>) -> Option<Sum> {
    let warmth = reader.read_if_typed("own.warmth", &asked.warmth, &OWN_WARMTH);
    let off = reader.read_if_typed("own.off", &asked.off, &OWN_OFF);
    let sum = sum?;
    let range = sum.range;
    let Some(warmth) = warmth.map(Fraction::in_fraction) else {
        let range = with_scatter(range, BETWEEN.grows);
        return Some(Sum { range, ..sum });
    };
    let best = range.best();
    let [low, high] = match off.map(Fraction::in_fraction) {
        Some(off) if off < warmth => [warmth - off, warmth + off],
        Some(_) => {
            reader.say("own.off", words::off_by_less());
            return Some(sum);
        }
        None => [warmth * range.low() / best, warmth * range.high() / best],
    };
    let range = Range::new(low * best, warmth * best, high * best).ok()?;
    Some(Sum { range, ..sum })
}

/// Reads a question; every problem found comes back, each at its field.
pub fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
    let mut reader = Reader::new(mark);
    let reader = &mut reader;
    let crop = reader.crop("crop", &question.crop);
    let ready =
        crop.and_then(|crop| reader.found("crop", readiness(crop), words::not_known_enough));
    let moves = reader.one_of("move", words::A_MOVE, &question.moves, &MOVES);
    let moves = moves.and_then(|place| Move::ALL.get(place).copied());
    let today = reader.day("today", &question.today);
    let since = reader.day("since", &question.since);
    if let Some((today, since)) = today.zip(since) {
        let days = today.number() - since.number();
        if days < 0 {
            reader.say("since", words::since_to_come(today));
        } else if days > LONGEST_DAYS {
            reader.say("since", words::since_long_ago(LONGEST_DAYS));
        }
    }
    let from = reader.one_of("from", words::A_BEGINNING, &question.from, &FROM);
    let from = from.map(|place| if place == 0 { From::Up } else { From::Moved });
    let pot = reader.choose(
        "pot",
        crate::reckon::words::A_POT,
        &question.pot,
        POTS,
        |pot| pot.key,
    );
    let next = if moves == Some(Move::PotOn) {
        let next = reader.choose(
            "next",
            crate::reckon::words::A_POT,
            &question.next,
            POTS,
            |pot| pot.key,
        );
        if let Some((pot, next)) = pot.zip(next)
            && next.filled() <= pot.filled()
        {
            reader.say("next", words::next_not_bigger(pot));
        }
        next
    } else {
        None
    };
    let plants = reader.read("plants", &question.plants, &PLANTS);
    let climate = reader.climate("climate", &question.climate);
    let low = reader.read("stood.low", &question.stood.low, &STOOD_LOW);
    let high = reader.read("stood.high", &question.stood.high, &STOOD_HIGH);
    if let Some((low, high)) = low.zip(high)
        && high < low
    {
        reader.say("stood.high", words::high_below_low(low.in_celsius()));
    }
    let light = reader.read_if_typed("stood.light", &question.stood.light, &LIGHT);
    let card = card::read(reader, question);
    let seen = seen(reader, question);
    // Of a point that is not asked for nobody sees the field: what cannot be read there is passed over.
    let points = question.points_asked();
    reader.problems.retain(|problem| {
        let key = problem.field.strip_prefix("seen.");
        key.and_then(card::point_of)
            .is_none_or(|point| points.contains(&point))
    });
    let weighed = weighed(reader, &question.weighed);
    let night = reader.read("place.night", &question.place.night, &WARMER);
    let held = reader.read_if_typed("place.held", &question.place.held, &HELD);
    let cover = reader.one_of(
        "place.cover",
        words::A_COVER,
        &question.place.cover,
        &COVERS,
    );
    let hottest = reader.read_if_typed("place.hottest", &question.place.hottest, &HOTTEST);
    for (list, many, most) in [
        ("nights", question.nights.len(), MOST_NIGHTS),
        ("forecasts", question.forecasts.len(), MOST_FORECASTS),
        ("earlier", question.earlier.len(), MOST_EARLIER),
    ] {
        if many > most {
            reader.say(list, words::too_many_nights(most));
        }
    }
    let log = log(reader, question, today);
    let forecasts = forecasts(reader, question);
    let earlier = earlier(reader, question);
    let room = room(reader, &question.place);
    let sum = match (crop, ready, pot, moves, from) {
        (Some(crop), Some(ready), Some(pot), Some(moves), Some(from)) => {
            let sum = sum_of(crop, ready, pot, moves, from);
            reader.found("move", sum, || words::no_sum(crop, moves))
        }
        _ => None,
    };
    let sum = own_sum(reader, &question.own, sum);
    let case = (|| {
        Some(Case {
            crop: crop?,
            readiness: ready?,
            moves: moves?,
            today: today?,
            since: since?,
            from: from?,
            pot: pot?,
            next,
            plants: plants?.in_count(),
            climate: climate?,
            stood: Stood {
                low_c: low?.in_celsius(),
                high_c: high?.in_celsius(),
                light_mol: light.map(Number::in_count),
            },
            card,
            seen,
            weighed,
            place: Place {
                night_k: night?.in_kelvins(),
                held_c: held.map(Temperature::in_celsius),
                fleece: cover? == 1,
                hottest_c: hottest.map(Temperature::in_celsius),
                room,
            },
            log,
            forecasts,
            own: own_found(crop?, &earlier),
            earlier,
            own_warmth: !question.own.warmth.is_empty(),
            sum: sum?,
            lights: Vec::new(),
            noons: Vec::new(),
            nights: OnceCell::new(),
        })
    })();
    match case {
        Some(mut case) if reader.problems.is_empty() => {
            // Leaves that are not on the card speak of its way where they are enough, and are never missing.
            if !case.card.points.contains(&Point::Leaves) {
                let from = leaves_from(&case);
                case.seen.leaves = case.seen.leaves.filter(|leaves| *leaves >= from);
            }
            case.lights = lights(&case);
            case.noons = noons(&case);
            // That the nights come to an outlook at all; no path is followed yet.
            Nights::of(&case).map_err(|problem| vec![problem])?;
            Ok(case)
        }
        _ => Err(std::mem::take(&mut reader.problems)),
    }
}
