//! What is due of a morning: by what is lost, on the right days, whatever was missed, and gone once it is done.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::keep::demo;
use longtom::keep::journal::fold;
use longtom::nursery::check::check;
use longtom::nursery::kinds::kind;
use longtom::nursery::{Day, Id, Record, Texts, Thing};
use longtom::reckon::this_morning::{AHEAD, Due, Morning, What, this_morning};

fn day(iso: &str) -> Day {
    Day::from_iso(iso).unwrap()
}

fn id(number: u32) -> Id {
    Id::read(&format!("k3fq.{number}.a2b4")).unwrap()
}

/// A thing to be: its kind and its texts.
type Kept<'a> = (&'a str, &'a [(&'a str, &'a str)]);

/// A record of things.
fn record(things: &[Kept<'_>]) -> Record {
    let thing = |(number, (kind, texts)): (usize, &Kept<'_>)| {
        Thing::new(
            id(number as u32 + 1),
            kind,
            Texts::of(texts.iter().copied()),
        )
    };
    Record::of(things.iter().enumerate().map(thing).collect())
}

fn of(morning: &Morning, what: What) -> Vec<&Due> {
    morning.due.iter().filter(|due| due.what == what).collect()
}

/// Does what is due, as the button does.
fn done(record: &mut Record, due: &Due, number: u32) {
    let done = due.done.clone().unwrap();
    let thing = Thing::new(id(number), done.kind, done.texts);
    let problems = check(kind(done.kind).unwrap(), &thing);
    assert!(problems.is_empty(), "{problems:?}");
    record.put(thing);
}

const NURSERY: &[Kept<'_>] = &[
    ("place", &[("name", "Here"), ("climate", "east_anglia")]),
    (
        "house",
        &[
            ("name", "Main"),
            ("inside", "k3fq.1.a2b4"),
            ("heated", "no"),
        ],
    ),
    (
        "bay",
        &[
            ("name", "Warm bench"),
            ("inside", "k3fq.2.a2b4"),
            ("standing", "heated_bench"),
            ("set_point", "21 degC"),
            ("length", "3 m"),
            ("width", "1.2 m"),
        ],
    ),
    (
        "bay",
        &[
            ("name", "Long bench"),
            ("inside", "k3fq.2.a2b4"),
            ("standing", "bench"),
            ("length", "10 m"),
            ("width", "1.5 m"),
        ],
    ),
    (
        "plan",
        &[
            ("name", "Basil for the shop"),
            ("crop", "sweet_basil"),
            ("wanted", "200"),
            ("sow_on", "2028-02-29"),
            ("first", "k3fq.3.a2b4"),
            ("then", "k3fq.4.a2b4"),
            ("pot", "round_9_cm"),
        ],
    ),
];

#[test]
fn an_empty_record_has_nothing_due() {
    assert_eq!(
        this_morning(&Record::default(), day("2028-02-29")),
        Morning::default()
    );
}

/// Sown on a leap day: told a week before, due on the day, later more so; once done it is a batch that wants to be looked
/// at, then potted, then sold, each only when its time has come.
#[test]
fn from_the_plan_to_the_sale() {
    let mut record = record(NURSERY);
    let on = day("2028-02-29");
    for before in 1..=AHEAD {
        let morning = this_morning(&record, on.plus(-before));
        assert!(of(&morning, What::Sow).is_empty());
        assert_eq!(
            morning
                .soon
                .iter()
                .filter(|due| due.what == What::Sow)
                .count(),
            1
        );
    }
    assert!(
        this_morning(&record, on.plus(-AHEAD - 1))
            .soon
            .iter()
            .all(|due| due.what != What::Sow)
    );
    // Seed, pots, trays and mix are to be had before.
    assert!(of(&this_morning(&record, on.plus(-14)), What::Buy).len() >= 3);
    let late = this_morning(&record, day("2028-03-01"));
    let sow = of(&late, What::Sow)[0];
    assert!(sow.left.contains("1\u{a0}day late"), "{}", sow.left);
    assert!(
        sow.sentence.contains("Basil for the shop"),
        "{}",
        sow.sentence
    );
    done(&mut record, sow, 100);
    let batch = record.get(id(100)).unwrap();
    assert_eq!(batch.text("sown"), "2028-03-01");
    assert_eq!(batch.one("inside"), Some(id(3)));
    assert!(of(&this_morning(&record, day("2028-03-01")), What::Sow).is_empty());
    let mut today = day("2028-03-01");
    let mut order = Vec::new();
    let mut number = 101;
    let mut looked_over = None;
    for _ in 0..120 {
        let morning = this_morning(&record, today);
        let mut of_it = morning.due.iter().filter(|due| due.about == Some(id(100)));
        if of_it.clone().any(|due| due.what == What::LookOver) {
            looked_over = looked_over.or(Some(today));
        }
        let of_batch = of_it.find(|due| due.what != What::LookOver);
        if let Some(due) = of_batch {
            order.push((due.what, today));
            if due.what == What::HowItWent {
                let outcome = Texts::default()
                    .with("day", &today.iso())
                    .with("batch", &id(100).text())
                    .with("went", "well");
                record.put(Thing::new(id(number), "outcome", outcome));
                number += 1;
                continue;
            }
            if due.done.is_none() {
                break;
            }
            done(&mut record, due, number);
            number += 1;
        }
        today = today.plus(1);
    }
    let whats: Vec<What> = order.iter().map(|(what, _)| *what).collect();
    assert_eq!(
        whats,
        [What::LookWhetherUp, What::Pot, What::HowItWent, What::Ready],
        "{order:?}"
    );
    // It is looked over a little before it is potted.
    let before = order[1].1.number() - looked_over.unwrap().number();
    assert!((1..=3).contains(&before), "{before}");
    let potted = record.of_kind("stage").last().unwrap();
    assert_eq!(potted.one("to"), Some(id(4)));
    assert_eq!(potted.text("pot"), "round_9_cm");
    let days: Vec<i32> = order
        .iter()
        .map(|(_, on)| on.number() - day("2028-03-01").number())
        .collect();
    println!("looked at, potted, asked how it went and ready after {days:?} days");
    assert!(days[0] >= 4 && days[0] <= 10 && days[1] > days[0] && days[3] > days[1]);
    // A week after it came into the cold.
    assert_eq!(days[2], days[1] + 7);
}

/// What loses most comes first, and a cold night before all.
#[test]
fn a_cold_night_comes_first() {
    let mut record = record(NURSERY);
    let basil = Texts::default()
        .with("name", "Basil 1")
        .with("crop", "sweet_basil")
        .with("sown", "2028-02-01")
        .with("number", "150")
        .with("inside", &id(3).text());
    record.put(Thing::new(id(50), "batch", basil));
    for (number, what, on, to) in [
        (51, "up", "2028-02-08", ""),
        (52, "potted_on", "2028-02-25", "k3fq.4.a2b4"),
    ] {
        let stage = Texts::default()
            .with("day", on)
            .with("batch", &id(50).text())
            .with("what", what)
            .with("to", to);
        record.put(Thing::new(id(number), "stage", stage));
    }
    let today = day("2028-03-01");
    assert!(of(&this_morning(&record, today), What::Cover).is_empty());
    let forecast = Texts::default()
        .with("day", "2028-03-01")
        .with("low", "1 degC");
    record.put(Thing::new(id(60), "forecast", forecast));
    let morning = this_morning(&record, today);
    assert_eq!(morning.due[0].what, What::Cover, "{:?}", morning.due);
    assert!(
        morning.due[0].sentence.contains("150 plants in Long bench"),
        "{}",
        morning.due[0].sentence
    );
    assert!(
        morning
            .due
            .windows(2)
            .all(|pair| pair[0].loses >= pair[1].loses)
    );
    // A mild night, and plants that are still on the warm bench, are in no danger.
    let mild = Texts::default()
        .with("day", "2028-03-01")
        .with("low", "12 degC");
    record.put(Thing::new(id(60), "forecast", mild));
    assert!(of(&this_morning(&record, today), What::Cover).is_empty());
}

/// However long nobody looked: one line for each place, and no batch is forgotten.
#[test]
fn after_weeks_unopened() {
    let record = fold(&demo::journal()).record;
    let last = day("2025-10-12");
    for later in [1, 2, 30, 60] {
        let morning = this_morning(&record, last.plus(later));
        let read = of(&morning, What::ReadNight);
        assert_eq!(read.len(), 2, "{later}");
        if later > 1 {
            assert!(read[0].left.contains("October"), "{}", read[0].left);
        }
    }
    // Nobody reads there any more.
    assert!(of(&this_morning(&record, last.plus(200)), What::ReadNight).is_empty());
    let on_day = this_morning(&record, last);
    println!(
        "{} due and {} soon in the demo nursery on its last day",
        on_day.due.len(),
        on_day.soon.len()
    );
    let parsley = this_morning(&record, last.plus(3));
    assert!(
        parsley
            .due
            .iter()
            .any(|due| due.what == What::Pot && due.sentence.contains("winter")),
        "{:?}",
        parsley.due
    );
}

/// Every morning of two years, over leap days and turns of the year, has its sentences.
#[test]
fn every_morning_has_its_sentences() {
    let record = fold(&demo::journal()).record;
    let mut today = day("2025-01-20");
    let mut many = 0;
    while today < day("2027-01-20") {
        let morning = this_morning(&record, today);
        for due in morning.due.iter().chain(&morning.soon) {
            for sentence in [&due.sentence, &due.left] {
                assert!(sentence.ends_with('.'), "{sentence}");
            }
            assert!(due.loses.is_finite() && due.loses >= 0.0);
            many += 1;
        }
        assert!(morning.due.iter().all(|due| due.from <= today));
        assert!(
            morning
                .soon
                .iter()
                .all(|due| due.from > today && due.from <= today.plus(AHEAD))
        );
        today = today.plus(7);
    }
    println!("{many} due in a hundred weeks of the demo nursery");
}

/// A batch that was written down wrongly takes no other with it.
#[test]
fn what_makes_no_sense_is_passed_over() {
    let mut record = record(NURSERY);
    let broken = Texts::default()
        .with("name", "Nonsense")
        .with("crop", "sweet_basil")
        .with("sown", "2028-02-20")
        .with("number", "90000000");
    record.put(Thing::new(id(70), "batch", broken));
    let plan = Texts::default()
        .with("name", "Too many")
        .with("crop", "parsley")
        .with("wanted", "9000000")
        .with("sow_on", "2028-02-28");
    record.put(Thing::new(id(71), "plan", plan));
    let morning = this_morning(&record, day("2028-02-29"));
    let sow = of(&morning, What::Sow);
    assert_eq!(sow.len(), 1, "{:?}", morning.due);
    assert_eq!(sow[0].about, Some(id(5)));
}

/// Basil in pots on the warm bench, and what was settled about it.
fn settled(stage: &str, best: &str, hardening: &[(&str, &str)]) -> Record {
    let mut record = record(NURSERY);
    let basil = Texts::default()
        .with("name", "Basil 1")
        .with("crop", "sweet_basil")
        .with("sown", "2028-03-01")
        .with("number", "150")
        .with("inside", &id(3).text());
    record.put(Thing::new(id(50), "batch", basil));
    for (number, what, on) in [(51, "up", "2028-03-08"), (52, "potted_on", "2028-03-27")] {
        let of_stage = Texts::default()
            .with("day", on)
            .with("batch", &id(50).text())
            .with("what", what)
            .with("pot", "round_9_cm");
        record.put(Thing::new(id(number), "stage", of_stage));
    }
    let mut verdict = Texts::default()
        .with("day", "2028-05-10")
        .with("batch", &id(50).text())
        .with("by", "moving_on")
        .with("said", "It is ready.")
        .with("stage", stage)
        .with("best_day", best)
        .with("to", &id(4).text());
    for (row, (on, what)) in hardening.iter().enumerate() {
        verdict.set(&format!("hardening.{row}.day"), on);
        verdict.set(&format!("hardening.{row}.what"), what);
    }
    let thing = Thing::new(id(53), "verdict", verdict);
    let problems = check(kind("verdict").unwrap(), &thing);
    assert!(problems.is_empty(), "{problems:?}");
    record.put(thing);
    record
}

/// What was settled is done day by day: hardened, moved on its best day, later if that was missed, and asked after.
#[test]
fn a_verdict_is_followed_until_the_batch_has_moved() {
    let mut record = settled(
        "wait",
        "2028-05-13",
        &[
            ("2028-05-11", "Open the vents by day."),
            ("2028-05-12", "Let the night fall to 14 °C."),
            ("2028-05-13", "Take it into the cold house."),
        ],
    );
    let first = this_morning(&record, day("2028-05-11"));
    let harden = of(&first, What::Harden);
    assert_eq!(harden.len(), 1, "{:?}", first.due);
    assert!(
        harden[0].sentence.ends_with("Open the vents by day."),
        "{}",
        harden[0].sentence
    );
    assert!(of(&first, What::Move).is_empty());
    assert!(first.soon.iter().any(|due| due.what == What::Move));
    // What was settled speaks for it: nothing else of it is due.
    assert!(of(&first, What::Ready).is_empty() && of(&first, What::Pot).is_empty());
    done(&mut record, harden[0], 60);
    assert!(of(&this_morning(&record, day("2028-05-11")), What::Harden).is_empty());
    assert_eq!(
        of(&this_morning(&record, day("2028-05-12")), What::Harden).len(),
        1
    );
    // On its day it moves, and is not hardened any more.
    let on_day = this_morning(&record, day("2028-05-13"));
    assert!(of(&on_day, What::Harden).is_empty());
    assert!(of(&on_day, What::Move)[0].left.contains("best day"));
    let late = this_morning(&record, day("2028-05-16"));
    let moves = of(&late, What::Move);
    assert!(
        moves[0].left.starts_with("3\u{a0}days past"),
        "{}",
        moves[0].left
    );
    done(&mut record, moves[0], 61);
    let moved = record.of_kind("stage").last().unwrap();
    assert_eq!(
        (moved.one("to"), moved.text("what")),
        (Some(id(4)), "moved")
    );
    assert!(of(&this_morning(&record, day("2028-05-16")), What::Move).is_empty());
    // A week on it is asked how it went, until that is said.
    assert!(of(&this_morning(&record, day("2028-05-22")), What::HowItWent).is_empty());
    let asks = this_morning(&record, day("2028-05-24"));
    assert_eq!(of(&asks, What::HowItWent).len(), 1, "{:?}", asks.due);
    let outcome = Texts::default()
        .with("day", "2028-05-24")
        .with("batch", &id(50).text())
        .with("went", "well");
    record.put(Thing::new(id(62), "outcome", outcome));
    assert!(of(&this_morning(&record, day("2028-05-25")), What::HowItWent).is_empty());
}

/// What was not ready is looked at again, and what no day serves for as well.
#[test]
fn what_was_not_ready_is_looked_at_again() {
    for (stage, best) in [("not_yet", ""), ("not_yet", "2028-05-20"), ("wait", "")] {
        let record = settled(stage, best, &[]);
        assert!(of(&this_morning(&record, day("2028-05-12")), What::LookOver).is_empty());
        let again = this_morning(&record, day("2028-05-13"));
        let look = of(&again, What::LookOver);
        assert_eq!(look.len(), 1, "{stage} {:?}", again.due);
        assert!(look[0].left.contains("May"), "{}", look[0].left);
        assert!(of(&again, What::Move).is_empty());
    }
}

/// Tender plants without heat in early spring: a week that may be too cold is told, and is not in July.
#[test]
fn a_week_that_may_be_too_cold_is_told() {
    let mut record = record(NURSERY);
    for (number, sown, name) in [(50, "2028-02-20", "Basil 1"), (60, "2028-05-01", "Basil 2")] {
        let basil = Texts::default()
            .with("name", name)
            .with("crop", "sweet_basil")
            .with("sown", sown)
            .with("number", "150")
            .with("inside", &id(4).text());
        record.put(Thing::new(id(number), "batch", basil));
        let up = Day::from_iso(sown).unwrap().plus(9).iso();
        let up = Texts::default()
            .with("day", &up)
            .with("batch", &id(number).text())
            .with("what", "up");
        record.put(Thing::new(id(number + 1), "stage", up));
    }
    let spring = this_morning(&record, day("2028-03-20"));
    let cold = of(&spring, What::ColdWeek);
    assert_eq!(cold.len(), 1, "{:?}", spring.due);
    assert!(
        cold[0].sentence.contains("Long bench"),
        "{}",
        cold[0].sentence
    );
    let summer = this_morning(&record, day("2028-07-20"));
    assert!(of(&summer, What::ColdWeek).is_empty(), "{:?}", summer.due);
}
