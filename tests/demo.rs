//! The demo nursery: the file that is shipped is the one that its rules make, and it makes sense.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::collections::BTreeSet;

use longtom::keep::demo;
use longtom::keep::journal::{fold, format};
use longtom::measure::DecimalMark;
use longtom::nursery::bay::bay_here;
use longtom::nursery::{Day, Record, sense};
use longtom::reckon::Reckoning;
use longtom::reckon::moving_on::MovingOn;
use longtom::reckon::moving_on::from_record::of_batch;

#[test]
fn the_file_is_the_one_that_the_rules_make() {
    let shipped = std::fs::read_to_string("public/demo.json").unwrap();
    assert_eq!(
        shipped,
        format::text(&demo::journal()),
        "make it anew: cargo run --bin reckon -- record demo > public/demo.json"
    );
}

#[test]
fn it_comes_through_the_one_door_whole_and_makes_sense() {
    let opened = format::open(&format::text(&demo::journal())).unwrap();
    assert_eq!(opened.report.understood, opened.journal.len());
    let present = fold(&opened.journal);
    assert_eq!(sense::all_problems(&present.record), []);
    assert!(present.clashes.is_empty() && present.unplaced.is_empty());
}

#[test]
fn it_holds_a_season_of_every_thing_that_the_pages_show() {
    let record = fold(&demo::journal()).record;
    let days: BTreeSet<i32> = record
        .of_kind("night")
        .filter_map(|night| night.day("day"))
        .map(|day| day.number())
        .collect();
    let (first, last) = (days.first().unwrap(), days.last().unwrap());
    assert!(last - first > 240, "from winter to autumn");
    let last = longtom::nursery::Day::from_number(*last);
    let standing = record.where_batches_stand(last);
    assert!(standing.values().filter(|place| place.is_some()).count() >= 5);
    for kind in [
        "house",
        "bay",
        "seed_lot",
        "batch",
        "mix",
        "material",
        "instrument",
        "stage",
        "cut",
        "sold",
        "note",
        "stock",
        "price",
        "plan",
        "reading",
    ] {
        assert!(record.of_kind(kind).count() > 0, "{kind}");
    }
    let kept = record
        .of_kind("night")
        .filter(|night| night.base("low") > night.base("high"));
    assert_eq!(kept.count(), 0);
}

#[test]
fn a_bay_has_readings_to_fit_to() {
    let record = fold(&demo::journal()).record;
    let bays = record.of_kind("bay");
    let own: Vec<_> = bays
        .filter_map(|bay| bay_here(&record, bay.id)?.own)
        .collect();
    assert_eq!(own.len(), 1);
    println!(
        "{} days, {} readings",
        own[0].days.len(),
        own[0].readings.len()
    );
    assert!(own[0].days.len() >= 4 && own[0].readings.len() >= 12);
}

/// What Moving on is said to have told of batches is what it tells from the record of that day, and all of its verdicts
/// are among them.
#[test]
fn its_verdicts_are_those_of_moving_on() {
    let record = fold(&demo::journal()).record;
    let mut stages = BTreeSet::new();
    let mut wrong = Vec::new();
    for verdict in record.of_kind("verdict") {
        let today = verdict.day("day").unwrap();
        let batch = verdict.one("batch").unwrap();
        // It was looked at before it was moved on that day.
        let question = of_batch(&record, batch, today).unwrap();
        let case = MovingOn::check(&question, DecimalMark::Point).unwrap();
        let detail = MovingOn::answer(&case, None).unwrap().detail;
        let told = [&detail.stage, &detail.best_day, &detail.stage_sentence];
        let kept = ["stage", "best_day", "said"].map(|path| verdict.text(path));
        if told != kept {
            wrong.push(format!(
                "{} {}: {told:?}",
                today.iso(),
                record.name_of(batch)
            ));
        }
        stages.insert(verdict.text("stage").to_owned());
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert_eq!(stages.len(), 4, "{stages:?}");
    // And what came of moves is asked and counted.
    let asked: usize = record
        .of_kind("batch")
        .filter_map(|batch| of_batch(&record, batch.id, record_ends(&record)))
        .map(|question| question.earlier.len())
        .sum();
    assert!(asked > 0);
}

fn record_ends(record: &Record) -> Day {
    record
        .logs()
        .filter_map(|log| log.day("day"))
        .max()
        .unwrap()
}
