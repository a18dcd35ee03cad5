//! Reading the question of Season; every problem is told at its field.

use std::cell::OnceCell;

use super::calendar::Skies;
use super::case::{
    Batch, By, Case, Germination, Hands, Mix, Part, Potting, Sowing, Stand, Stuff, Warmth, Way,
    usual_in_cell,
};
use super::own;
use super::plan::Plan;
use super::question::{
    BatchAsked, CERTAINTIES, HELD, HOUSE, MOST_BATCHES, MOST_PARTS, MOST_PLACES, MOST_SOWINGS,
    PLACE_KEYS, PartAsked, PlaceAsked, Question, READY, SOWN, SowingAsked,
};
use super::words;
use crate::handbook::crops::ageing::KEEPINGS;
use crate::handbook::crops::between::BETWEEN;
use crate::handbook::crops::{Begun, Crop};
use crate::handbook::pots::POTS;
use crate::measure::{
    AreaLoad, DecimalMark, Density, Duration, Entry, Fraction, Length, Limits, Number, Temperature,
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
const AGED: Limits<Number> = Limits::number("Years of seed", 0.0, 20.0);
const BATCH_OF: Limits<Number> = whole("How many", 1.0, 20_000.0);
const OF_BATCH: Limits<Number> = whole("How many of it", 0.0, 20_000.0);
const LOST: Limits<Fraction> = Limits::percent("Share lost afterwards", 0.0, 90.0);
const IN_CELL: Limits<Number> = whole("Seeds in a cell", 1.0, 50.0);
const SPACING: Limits<Length> = Limits::millimetres("From pot to pot", 20.0, 2000.0);
const STANDS: Limits<Duration> = Limits::between(
    "How long they stand",
    Duration::from_days(0.0),
    Duration::from_days(300.0),
);
const TOUCHING: Limits<Duration> = Limits::between(
    "How long they stand rim to rim",
    Duration::from_days(0.0),
    Duration::from_days(300.0),
);
const POTS_IN_HAND: Limits<Number> = whole("Pots in hand", 0.0, 1e6);
const CARRIES: Limits<AreaLoad> = Limits::between(
    "What it may carry",
    AreaLoad::from_kilograms_per_square_metre(5.0),
    AreaLoad::from_kilograms_per_square_metre(2000.0),
);
const BED: Limits<Length> = Limits::millimetres("Depth of the bed", 0.0, 500.0);
const WET: Limits<Density> = Limits::between(
    "What a litre weighs",
    Density::from_kilograms_per_cubic_metre(200.0),
    Density::from_kilograms_per_cubic_metre(2500.0),
);
const CELLS: Limits<Number> = whole("Cells of a tray", 1.0, 1000.0);
const TRAYS: Limits<Number> = whole("Trays in hand", 0.0, 1e5);
const PARTS: Limits<Number> = Limits::number("Parts", 0.001, 1000.0);
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
const STRAYED: Limits<TemperatureDifference> = Limits::between(
    "How much warmer it was than usual",
    TemperatureDifference::from_kelvins(-10.0),
    TemperatureDifference::from_kelvins(10.0),
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
const LOOSE_IN_HAND: Limits<Volume> = Limits::litres("What is in hand", 0.0, 1e6);

/// A hundred of them take so long; one takes this, min.
fn each_min(reader: &mut Reader, path: &str, entry: &Entry) -> Option<f64> {
    const HUNDRED: f64 = 100.0;
    let all = reader.read(path, entry, &MINUTES)?;
    Some(all.in_minutes() / HUNDRED)
}

fn count(value: Number) -> u32 {
    value.in_count().round() as u32
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

/// The crops of a case, each once, in the order in which they were met.
#[derive(Default)]
struct Crops(Vec<&'static Crop>);

impl Crops {
    fn place_of(&mut self, crop: &'static Crop) -> usize {
        let found = self.0.iter().position(|known| known.key == crop.key);
        found.unwrap_or_else(|| {
            self.0.push(crop);
            self.0.len() - 1
        })
    }
}

/// What a sowing and a batch are asked alike: the crop, where it is grown, and its pot.
struct Grown {
    crop: &'static Crop,
    way: Way,
    potting: Potting,
}

/// Reads what belongs to [`Grown`].
struct GrownReader<'a> {
    crops: &'a mut Crops,
    /// How many places there are.
    places: usize,
}

impl GrownReader<'_> {
    fn read(
        &mut self,
        reader: &mut Reader,
        at: &dyn Fn(&str) -> String,
        [crop, pot, first, then]: [&str; 4],
        spacing: &Entry,
    ) -> Option<Grown> {
        let crop = reader.crop(&at("crop"), crop);
        if crop.is_some_and(|crop| crop.begun == Begun::Cuttings) {
            reader.say(&at("crop"), words::not_from_seed());
        }
        let pot = reader.choose(&at("pot"), crate::reckon::words::A_POT, pot, POTS, |pot| {
            pot.key
        });
        let spacing = reader.read(&at("spacing"), spacing, &SPACING);
        if let Some((pot, spacing)) = pot.zip(spacing)
            && spacing < pot.rim
        {
            let sentence = crate::reckon::words::pots_closer_than_they_are_wide(pot.rim);
            reader.say(&at("spacing"), sentence);
        }
        let places = self.places;
        let mut place = |name: &str, text: &str| {
            let number = PLACE_KEYS.iter().take(places).position(|key| *key == text);
            reader.found(&at(name), number, || words::no_such_place(places))
        };
        let (first, then) = (place("first", first), place("then", then));
        let crop = crop?;
        Some(Grown {
            crop,
            way: Way {
                crop: self.crops.place_of(crop),
                first: first?,
                then: then?,
            },
            potting: Potting {
                pot: pot?,
                spacing: spacing?,
            },
        })
    }
}

fn sowing(
    reader: &mut Reader,
    row: usize,
    asked: &SowingAsked,
    grown: &mut GrownReader<'_>,
) -> Option<Sowing> {
    let at = |name: &str| path_in("sowings", row, name);
    let texts = [&*asked.crop, &asked.pot, &asked.first, &asked.then];
    let grown = grown.read(reader, &at, texts, &asked.spacing);
    let wanted = reader.read(&at("wanted"), &asked.wanted, &WANTED);
    let by = reader.one_of(&at("by"), words::A_DAY, &asked.by, &[READY, SOWN]);
    let day = reader.day(&at("day"), &asked.day);
    let times = reader.read(&at("times"), &asked.times, &TIMES);
    let every = reader.read(&at("every"), &asked.every, &EVERY);
    let germination = germination(reader, &at, asked);
    let keeping = reader.choose(
        &at("kept"),
        words::A_KEEPING,
        &asked.kept,
        &KEEPINGS,
        |keeping| keeping.key,
    );
    let aged = reader.read_if_typed(&at("aged"), &asked.aged, &AGED);
    let lost = reader.read_if_typed(&at("lost"), &asked.lost, &LOST);
    let in_cell = if asked.in_cell.is_empty() {
        grown.as_ref().map(|grown| usual_in_cell(grown.crop))
    } else {
        let typed = reader.read(&at("in_cell"), &asked.in_cell, &IN_CELL);
        typed.map(count)
    };
    let touching = reader.read_if_typed(&at("touching"), &asked.touching, &TOUCHING);
    let stands = reader.read(&at("stands"), &asked.stands, &STANDS);
    let packet = reader.read(&at("packet"), &asked.packet, &PACKET);
    let packet_price = reader.read_if_typed(&at("packet_price"), &asked.packet_price, &PRICE);
    let in_hand = reader.read(&at("in_hand"), &asked.in_hand, &IN_HAND);
    let pot_price = reader.read_if_typed(&at("pot_price"), &asked.pot_price, &PRICE);
    let pots_in_hand =
        reader.read_if_typed(&at("pots_in_hand"), &asked.pots_in_hand, &POTS_IN_HAND);
    let day = day?;
    let Grown { crop, way, potting } = grown?;
    Some(Sowing {
        crop,
        way,
        wanted: count(wanted?),
        by: if by? == 0 {
            By::Ready(day)
        } else {
            By::Sown(day)
        },
        times: count(times?),
        every_days: every?.in_days().round() as i32,
        germination: germination?,
        aged: aged.map(Number::in_count).zip(keeping),
        lost: lost.map(Fraction::in_fraction),
        in_cell: in_cell?,
        potting,
        touching_days: touching.map_or(0.0, Duration::in_days),
        stands_days: stands?.in_days(),
        packet: count(packet?),
        packet_price: packet_price.map(Number::in_count),
        in_hand: count(in_hand?),
        pot_price: pot_price.map(Number::in_count),
        pots_in_hand: pots_in_hand.map_or(0, count),
    })
}

/// The days of a batch by their names, in the order in which they come.
const DAYS_OF_BATCH: [&str; 6] = ["sown", "up", "potted", "ready", "picked", "gone"];

fn batch(
    reader: &mut Reader,
    row: usize,
    asked: &BatchAsked,
    grown: &mut GrownReader<'_>,
) -> Option<Batch> {
    let at = |name: &str| path_in("batches", row, name);
    let texts = [&*asked.crop, &asked.pot, &asked.first, &asked.then];
    let grown = grown.read(reader, &at, texts, &asked.spacing);
    let number = reader.read(&at("number"), &asked.number, &BATCH_OF);
    let sown = reader.day(&at("sown"), &asked.sown);
    let mut known = |name: &str, text: &str| {
        if text.trim().is_empty() {
            None
        } else {
            reader.day(&at(name), text)
        }
    };
    let days = [
        sown,
        known("up", &asked.up),
        known("potted", &asked.potted),
        known("ready", &asked.ready),
        known("picked", &asked.picked),
        known("gone", &asked.gone),
    ];
    let meant = [
        known("meant_sown", &asked.meant_sown),
        known("meant_ready", &asked.meant_ready),
    ];
    let mut last: Option<(Day, &str)> = None;
    for (name, day) in DAYS_OF_BATCH.into_iter().zip(days) {
        let Some(day) = day else { continue };
        if let Some((before, of)) = last.filter(|(before, _)| day < *before) {
            reader.say(&at(name), words::before_it_was(of, before));
        }
        last = Some((day, name));
    }
    let came_up = reader.read_if_typed(&at("came_up"), &asked.came_up, &OF_BATCH);
    let lost = reader.read_if_typed(&at("lost"), &asked.lost, &OF_BATCH);
    let mut strayed = |name: &str, entry: &Entry| reader.read_if_typed(&at(name), entry, &STRAYED);
    let strayed = [
        strayed("nights", &asked.nights),
        strayed("days", &asked.days),
    ];
    // Where one of the two is known, the other is taken to be as usual.
    let known = strayed.iter().any(Option::is_some);
    let strayed = strayed.map(|strayed| strayed.map_or(0.0, TemperatureDifference::in_kelvins));
    let (number, came_up, lost) = (count(number?), came_up.map(count), lost.map(count));
    if lost.is_some_and(|lost| lost > came_up.unwrap_or(number)) {
        reader.say(&at("lost"), words::more_lost_than_came_up());
    }
    let Grown { crop, way, potting } = grown?;
    let [sown, up, potted, ready, picked, gone] = days;
    Some(Batch {
        crop,
        way,
        number,
        sown: sown?,
        known: [up, potted, ready],
        picked,
        gone,
        came_up,
        lost,
        meant,
        strayed_k: known.then_some(strayed),
        potting,
    })
}

/// How something loose is bought.
fn stuff(
    reader: &mut Reader,
    at: &dyn Fn(&str) -> String,
    [bag, price, in_hand]: [&Entry; 3],
) -> Option<Stuff> {
    let bag = reader.read(&at("bag"), bag, &BAG);
    let price = reader.read_if_typed(&at("price"), price, &PRICE);
    let in_hand = reader.read(&at("in_hand"), in_hand, &LOOSE_IN_HAND);
    Some(Stuff {
        bag: bag?,
        price: price.map(Number::in_count),
        in_hand: in_hand?,
    })
}

/// A part of the mix, with its number of parts.
fn part(reader: &mut Reader, row: usize, asked: &PartAsked) -> Option<(f64, Part)> {
    let at = |name: &str| path_in("parts", row, name);
    let parts = reader.read(&at("parts"), &asked.parts, &PARTS);
    let stuff = stuff(reader, &at, [&asked.bag, &asked.price, &asked.in_hand]);
    let name = asked.name.trim();
    let part = Part {
        name: if name.is_empty() {
            words::part_without_name(row)
        } else {
            name.to_owned()
        },
        share: 0.0,
        stuff: stuff?,
    };
    Some((parts?.in_count(), part))
}

/// The mix, but for what it is bought as.
fn mix(reader: &mut Reader, question: &Question) -> Option<Mix> {
    let asked = &question.mix;
    let own = |name: &str| ["mix.", name].concat();
    let bought = stuff(reader, &own, [&asked.bag, &asked.price, &asked.in_hand]);
    let wet = reader.read("mix.wet", &asked.wet, &WET);
    let cells = reader.read("mix.cells", &asked.cells, &CELLS);
    let trays = reader.read_if_typed("mix.trays", &asked.trays, &TRAYS);
    let tray_price = reader.read_if_typed("mix.tray_price", &asked.tray_price, &PRICE);
    let parts: Vec<(f64, Part)> = (0..MOST_PARTS)
        .zip(&question.parts)
        .filter_map(|(row, asked)| part(reader, row, asked))
        .collect();
    let all: f64 = parts.iter().map(|(parts, _)| parts).sum();
    let parts = parts.into_iter().map(|(parts, part)| Part {
        share: parts / all,
        ..part
    });
    Some(Mix {
        stuff: bought?,
        wet: wet?,
        cells: count(cells?),
        trays: trays.map_or(0, count),
        tray_price: tray_price.map(Number::in_count),
        parts: parts.collect(),
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
    let carries = reader.read_if_typed(&at("carries"), &asked.carries, &CARRIES);
    let bed = reader.read_if_typed(&at("bed"), &asked.bed, &BED);
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
        carries,
        bed,
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
    let climate = reader.climate("climate", &question.climate);
    for (list, many, most) in [
        ("sowings", question.sowings.len(), MOST_SOWINGS),
        ("batches", question.batches.len(), MOST_BATCHES),
        ("places", question.places.len(), MOST_PLACES),
        ("parts", question.parts.len(), MOST_PARTS),
    ] {
        if many > most {
            reader.say(list, words::too_many_of(list, most));
        }
    }
    if question.places.is_empty() {
        reader.say("places", words::no_places());
    }
    if question.sowings.is_empty() && question.batches.is_empty() {
        reader.say("sowings", words::nothing_wanted());
    }
    let places = question.places.len().min(MOST_PLACES);
    let stands: Vec<Stand> = (0..places)
        .zip(&question.places)
        .filter_map(|(row, asked)| stand(reader, row, asked))
        .collect();
    let mut crops = Crops::default();
    let mut grown = GrownReader {
        crops: &mut crops,
        places,
    };
    let sowings: Vec<Sowing> = (0..MOST_SOWINGS)
        .zip(&question.sowings)
        .filter_map(|(row, asked)| sowing(reader, row, asked, &mut grown))
        .collect();
    let batches: Vec<Batch> = (0..MOST_BATCHES)
        .zip(&question.batches)
        .filter_map(|(row, asked)| batch(reader, row, asked, &mut grown))
        .collect();
    let hours = reader.read("hands.hours", &question.hands.hours, &HOURS);
    let sowing_min = each_min(reader, "hands.sowing", &question.hands.sowing);
    let potting_min = each_min(reader, "hands.potting", &question.hands.potting);
    let mix = mix(reader, question);
    let of_bed = |name: &str| ["bed.", name].concat();
    let asked = &question.bed;
    let bed = stuff(reader, &of_bed, [&asked.bag, &asked.price, &asked.in_hand]);
    let case = (|| {
        Some(Case {
            certainty: CERTAINTIES
                .get(certainty?)
                .and_then(|text| text.parse::<f64>().ok())?
                / 100.0,
            climate: climate?,
            skies: Skies::of(climate?),
            crops: crops.0,
            between: BETWEEN,
            sowings,
            batches,
            own: Vec::new(),
            stands,
            hands: Hands {
                hours: hours?.in_hours(),
                sowing_min: sowing_min?,
                potting_min: potting_min?,
            },
            mix: mix?,
            bed: bed?,
            plan: OnceCell::new(),
        })
    })();
    match case {
        Some(mut case) if reader.problems.is_empty() => {
            case.own = own::found(&case).map_err(|problem| vec![problem])?;
            // That it comes to an end at all.
            Plan::of(&case).map_err(|problem| vec![problem])?;
            Ok(case)
        }
        _ => Err(std::mem::take(&mut reader.problems)),
    }
}
