//! Moving on as the record asks it: room, what moves of before tell, one's own warmth, and what is kept of an answer.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::measure::{DecimalMark, Entry};
use longtom::nursery::check::check;
use longtom::nursery::kinds::kind;
use longtom::nursery::{Day, Id, Record, Texts, Thing};
use longtom::reckon::Reckoning;
use longtom::reckon::answer::Answer;
use longtom::reckon::form::texts;
use longtom::reckon::moving_on::from_record::of_batch;
use longtom::reckon::moving_on::{
    Detail, EarlierAsked, MovingOn, OwnAsked, PlaceAsked, PointTold, Question, SeenAsked,
    card_texts, kept, seen_kept,
};

fn day(iso: &str) -> Day {
    Day::from_iso(iso).unwrap()
}

fn id(number: u32) -> Id {
    Id::read(&format!("k3fq.{number}.a2b4")).unwrap()
}

fn put(record: &mut Record, number: u32, of_kind: &str, pairs: &[(&str, &str)]) {
    let thing = Thing::new(id(number), of_kind, Texts::of(pairs.iter().copied()));
    let problems = check(kind(of_kind).unwrap(), &thing);
    assert!(problems.is_empty(), "{of_kind}: {problems:?}");
    record.put(thing);
}

fn at_best(question: &Question) -> Answer<Detail> {
    let case = MovingOn::check(question, DecimalMark::Point)
        .unwrap_or_else(|problems| panic!("{problems:?}"));
    MovingOn::answer(&case, None).unwrap()
}

/// The point of room on the card of an answer.
fn room_of(answer: &Answer<Detail>) -> &PointTold {
    let mut card = answer.detail.card.iter();
    card.find(|point| point.key == "room").unwrap()
}

fn celsius(text: &str) -> Entry {
    Entry::new(text, "degC")
}

/// A warm bench, a cold bench of 1 m by 0.45 m, and 20 chillies in 9 cm pots on the warm one.
fn nursery() -> Record {
    let mut record = Record::default();
    let put = |record: &mut Record, number, of_kind, pairs: &[(&str, &str)]| {
        put(record, number, of_kind, pairs);
    };
    put(
        &mut record,
        1,
        "place",
        &[("name", "Here"), ("climate", "east_anglia")],
    );
    put(
        &mut record,
        2,
        "house",
        &[
            ("name", "Main"),
            ("inside", "k3fq.1.a2b4"),
            ("heated", "no"),
        ],
    );
    put(
        &mut record,
        3,
        "bay",
        &[
            ("name", "Warm bench"),
            ("inside", "k3fq.2.a2b4"),
            ("standing", "heated_bench"),
            ("set_point", "21 degC"),
        ],
    );
    put(
        &mut record,
        4,
        "bay",
        &[
            ("name", "Cold bench"),
            ("inside", "k3fq.2.a2b4"),
            ("standing", "bench"),
            ("length", "1 m"),
            ("width", "0.45 m"),
        ],
    );
    batch(&mut record, 50, "2027-02-01", "20", 3);
    record
}

/// A batch of chillies in 9 cm pots that stands in a bay.
fn batch(record: &mut Record, number: u32, sown: &str, many: &str, bay: u32) {
    let sown_on = day(sown);
    put(
        record,
        number,
        "batch",
        &[
            ("name", &format!("Chillies {number}")),
            ("crop", "chilli_annuum"),
            ("sown", sown),
            ("number", many),
            ("inside", &id(bay).text()),
        ],
    );
    for (after, what, days) in [(1, "up", 12), (2, "potted_on", 40)] {
        put(
            record,
            number + after,
            "stage",
            &[
                ("day", &sown_on.plus(days).iso()),
                ("batch", &id(number).text()),
                ("what", what),
                ("pot", "round_9_cm"),
            ],
        );
    }
}

fn asked(record: &Record, today: &str) -> Question {
    of_batch(record, id(50), day(today)).unwrap()
}

/// A 9 cm pot is 90 mm at the rim: 11 by 5 of them stand on a metre by 0.45 m, by counting, and staggered no more.
#[test]
fn room_is_counted_beside_what_stands_there() {
    let mut record = nursery();
    let alone = asked(&record, "2027-05-01");
    assert_eq!(alone.moves, "cold_house");
    assert_eq!(alone.to, id(4).text());
    assert_eq!(alone.place.room.text(), "55");
    batch(&mut record, 60, "2027-02-01", "40", 4);
    let beside = asked(&record, "2027-05-01");
    assert_eq!(beside.place.room.text(), "15");
    let answer = at_best(&beside);
    let room = room_of(&answer);
    assert_eq!(room.standing, "missing");
    assert!(room.seen.contains("15"), "{}", room.seen);
    assert!(
        answer
            .detail
            .reasons
            .iter()
            .any(|reason| reason.contains("15 of 20")),
        "{:?}",
        answer.detail.reasons
    );
    // One batch fewer there, and there is room for all.
    put(
        &mut record,
        63,
        "stage",
        &[
            ("day", "2027-04-20"),
            ("batch", "k3fq.60.a2b4"),
            ("what", "ended"),
        ],
    );
    let answer = at_best(&asked(&record, "2027-05-01"));
    let room = room_of(&answer);
    assert_eq!(room.standing, "passed");
}

/// Trays of 0.4 by 0.3 m take 4 by 3 pots of 9 cm; float valves feed one each.
#[test]
fn trays_and_float_valves_are_counted() {
    let mut record = nursery();
    put(
        &mut record,
        5,
        "tray",
        &[
            ("name", "Trays"),
            ("inside", "k3fq.4.a2b4"),
            ("number", "4"),
            ("length", "0.4 m"),
            ("width", "0.3 m"),
        ],
    );
    batch(&mut record, 60, "2027-02-01", "24", 4);
    let question = asked(&record, "2027-05-01");
    assert_eq!(question.place.in_tray.text(), "12");
    assert_eq!(question.place.trays.text(), "2");
    assert!(question.place.floats.is_empty());
    put(
        &mut record,
        4,
        "bay",
        &[
            ("name", "Cold bench"),
            ("inside", "k3fq.2.a2b4"),
            ("standing", "bench"),
            ("floats", "3"),
        ],
    );
    let question = asked(&record, "2027-05-01");
    assert_eq!(question.place.floats.text(), "1");
    let answer = at_best(&question);
    let room = room_of(&answer);
    assert_eq!(room.standing, "missing");
    assert!(room.look_for.contains("2 trays"), "{}", room.look_for);
    assert!(room.seen.contains("12"), "{}", room.seen);
}

/// Nights after a move that went well draw the limit down, those after harm draw it up, beside the handbook.
#[test]
fn how_moves_went_changes_the_night_that_is_asked_for() {
    let limit = |earlier: &[(&str, &str)]| {
        let question = Question {
            earlier: earlier
                .iter()
                .map(|(low, went)| EarlierAsked {
                    low: celsius(low),
                    went: (*went).to_owned(),
                })
                .collect(),
            ..Question::default()
        };
        let limits = at_best(&question).detail.limits;
        (limits.night_c, limits.chilled_c.unwrap())
    };
    let (handbook, chilled) = limit(&[]);
    let (well, _) = limit(&[("8", "well"), ("9", "well"), ("7.5", "well")]);
    assert!(well[1] < handbook[1] - 0.5, "{well:?} {handbook:?}");
    // The next batch is less in doubt, and no surer than batches are alike.
    assert!(well[2] - well[0] < handbook[2] - handbook[0]);
    assert!(well[2] - well[0] > 0.6 * (handbook[2] - handbook[0]));
    let (harmed, harmed_chilled) = limit(&[("13", "harmed"), ("14", "checked")]);
    assert!(harmed[1] > handbook[1] && harmed_chilled > chilled);
    // What stood still in the cold was not harmed by it.
    let (slow, slow_chilled) = limit(&[("12.5", "slowly"), ("12", "slowly")]);
    assert!(slow[1] > handbook[1] && slow_chilled < chilled);
    println!(
        "basil: handbook {handbook:.2?}, after three good moves {well:.2?}, after two bad {harmed:.2?}"
    );
}

/// From the record: the coldest night within two weeks of the move, and only what was said of it.
#[test]
fn moves_of_the_record_are_trials() {
    let mut record = nursery();
    batch(&mut record, 70, "2027-01-01", "30", 3);
    put(
        &mut record,
        73,
        "stage",
        &[
            ("day", "2027-04-10"),
            ("batch", "k3fq.70.a2b4"),
            ("what", "moved"),
            ("to", "k3fq.4.a2b4"),
        ],
    );
    for (number, on, low) in [
        (80, "2027-04-10", "3 degC"),
        (81, "2027-04-11", "9 degC"),
        (82, "2027-04-18", "7.5 degC"),
        (83, "2027-04-26", "2 degC"),
    ] {
        put(
            &mut record,
            number,
            "night",
            &[("day", on), ("place", "k3fq.2.a2b4"), ("low", low)],
        );
    }
    assert!(asked(&record, "2027-05-01").earlier.is_empty());
    put(
        &mut record,
        90,
        "outcome",
        &[
            ("day", "2027-04-28"),
            ("batch", "k3fq.70.a2b4"),
            ("went", "well"),
        ],
    );
    // Not before it was said.
    assert!(asked(&record, "2027-04-27").earlier.is_empty());
    let question = asked(&record, "2027-05-01");
    assert_eq!(question.earlier.len(), 1);
    assert_eq!(question.earlier[0].low.text(), "7.5");
    let answer = at_best(&question);
    assert!(
        answer
            .detail
            .reasons
            .iter()
            .any(|reason| reason.contains("one move of yours")),
        "{:?}",
        answer.detail.reasons
    );
}

/// Batches that took longer than the handbook has make the next one take longer.
#[test]
fn own_batches_change_the_warmth_it_needs() {
    let with = |warmth: &str, off: &str| {
        at_best(&Question {
            own: OwnAsked {
                warmth: Entry::new(warmth, "%"),
                off: Entry::new(off, "%"),
            },
            ..Question::default()
        })
        .detail
        .way
    };
    let (handbook, slow, narrow) = (with("", ""), with("130", ""), with("100", "5"));
    assert!((slow.sum[1] / handbook.sum[1] - 1.3).abs() < 1e-9);
    assert!(slow.share < handbook.share);
    assert!((narrow.sum[2] / narrow.sum[1] - 1.05).abs() < 1e-9);
}

/// What is kept of an answer is what the record's kinds take, and is there again when the batch is next asked about.
#[test]
fn what_is_kept_is_read_again() {
    let mut record = nursery();
    let mut question = asked(&record, "2027-05-01");
    question.seen = SeenAsked {
        ball: "4".to_owned(),
        leaves: Entry::number(7.0),
        ..question.seen
    };
    let answer = at_best(&question);
    let asked_texts = texts(&mut question);
    let mut verdict = Texts::default()
        .with("day", "2027-05-01")
        .with("batch", "k3fq.50.a2b4")
        .with("by", "moving_on")
        .with("to", &question.to);
    for (path, text) in kept(&answer.detail).iter().chain(&seen_kept(&asked_texts)) {
        verdict.set(path, text);
    }
    let thing = Thing::new(id(100), "verdict", verdict);
    let problems = check(kind("verdict").unwrap(), &thing);
    assert!(problems.is_empty(), "{problems:?}");
    assert_eq!(thing.text("stage"), answer.detail.stage);
    record.put(thing);
    let again = asked(&record, "2027-05-02");
    assert_eq!(again.seen.ball, "4");
    assert_eq!(again.seen.leaves.text(), "7");
    // What was seen long ago is looked at anew.
    assert!(asked(&record, "2027-05-06").seen.ball.is_empty());
    // Days that it was hardened are counted.
    for (number, on) in [(101, "2027-05-02"), (102, "2027-05-03")] {
        put(
            &mut record,
            number,
            "stage",
            &[("day", on), ("batch", "k3fq.50.a2b4"), ("what", "hardened")],
        );
    }
    assert_eq!(asked(&record, "2027-05-04").seen.hardened.text(), "2");
}

/// A card that is kept for a crop is that of its next batch.
#[test]
fn the_card_of_a_crop_comes_with_its_batches() {
    let mut record = nursery();
    assert!(asked(&record, "2027-05-01").card.is_empty());
    put(
        &mut record,
        110,
        "card",
        &[
            ("name", "Card of chilli"),
            ("crop", "chilli_annuum"),
            ("points", "ball;own:needed:labels are in;leaves"),
        ],
    );
    let question = asked(&record, "2027-05-01");
    assert_eq!(
        card_texts(&question.card),
        "ball;own:needed:labels are in;leaves"
    );
    let answer = at_best(&question);
    let keys: Vec<&str> = answer.detail.card.iter().map(|point| &*point.key).collect();
    assert_eq!(keys[..3], ["ball", "own", "leaves"]);
}

/// Numbers of room and of one's own that make no sense have a sentence at their field.
#[test]
fn silly_numbers_are_told() {
    let problems = |question: &Question| -> Vec<String> {
        match MovingOn::check(question, DecimalMark::Point) {
            Ok(_) => Vec::new(),
            Err(problems) => problems.into_iter().map(|problem| problem.field).collect(),
        }
    };
    let place = |place: PlaceAsked| Question {
        place,
        ..Question::default()
    };
    let trays = place(PlaceAsked {
        trays: Entry::number(3.0),
        ..PlaceAsked::default()
    });
    assert_eq!(problems(&trays), ["place.in_tray"]);
    let half = place(PlaceAsked {
        room: Entry::number(2.5),
        ..PlaceAsked::default()
    });
    assert_eq!(problems(&half), ["place.room"]);
    let own = Question {
        own: OwnAsked {
            warmth: Entry::new("60", "%"),
            off: Entry::new("70", "%"),
        },
        ..Question::default()
    };
    assert_eq!(problems(&own), ["own.off"]);
    let earlier = Question {
        earlier: vec![EarlierAsked {
            low: celsius("60"),
            went: "splendidly".to_owned(),
        }],
        ..Question::default()
    };
    assert_eq!(problems(&earlier), ["earlier.0.low", "earlier.0.went"]);
}
