//! Drain tests between the parts of a question and the record, where each vessel is a test of its own.

use super::stuff::part_asked;
use crate::app::record::Ledger;
use crate::measure::Entry;
use crate::nursery::kinds::DAY;
use crate::nursery::vessel::material_here;
use crate::nursery::{Day, Id, Record, Texts, Thing};
use crate::reckon::mix::{DRAIN_TEST, DrainedAsked, MOST_PARTS, PartAsked};

/// The kind of the record, and which of its tests these are.
const TEST: &str = "test";
const WHICH: &str = "what";
const DRAIN: &str = "drain";
const MATERIAL: &str = "material";
const MOISTURE: &str = "moisture";
const HEIGHT: &str = "height";

/// The numbers of a vessel, each under its name in the record.
fn numbers(vessel: &mut DrainedAsked) -> [(&'static str, &mut Entry); 5] {
    [
        ("volume", &mut vessel.volume),
        (HEIGHT, &mut vessel.height),
        ("filled_weight", &mut vessel.filled),
        ("full_weight", &mut vessel.soaked),
        ("drained_weight", &mut vessel.drained),
    ]
}

/// Keeps the drain tests of a question that the record does not hold yet; gives their entries.
pub fn keep(ledger: Ledger, parts: &mut [PartAsked]) -> Vec<Id> {
    let mut kept = Vec::new();
    for part in parts {
        if part.own.figures != DRAIN_TEST {
            continue;
        }
        for vessel in [&mut part.own.short, &mut part.own.tall] {
            if vessel.is_blank() {
                continue;
            }
            let mut test = Texts::default()
                .with(WHICH, DRAIN)
                .with(MATERIAL, &part.material)
                .with(MOISTURE, &part.own.moisture.stored());
            for (name, number) in numbers(vessel) {
                test.set(name, &number.stored());
            }
            let known = ledger.read(|record| {
                drain_tests(record).any(|known| {
                    test.iter()
                        .all(|(path, text)| *path == *DAY || known.text(path) == text)
                })
            });
            test.set(DAY, &ledger.today().iso());
            if !known {
                kept.extend(ledger.add(TEST, test));
            }
        }
    }
    kept
}

fn drain_tests(record: &Record) -> impl DoubleEndedIterator<Item = &Thing> {
    record
        .of_kind(TEST)
        .filter(|test| test.choice(WHICH) == Some(DRAIN) && !test.text(MATERIAL).is_empty())
}

/// The drain tests of the record, the last first: of each material on each day one, and what the
/// two are called.
pub fn listed(record: &Record) -> Vec<(&Thing, String)> {
    let mut listed: Vec<(&Thing, String)> = Vec::new();
    for test in drain_tests(record).rev() {
        let beside = |other: &Thing| is_beside(test, other);
        if listed.iter().any(|(other, _)| beside(other)) {
            continue;
        }
        let Some(here) = material_here(record, test.text(MATERIAL)) else {
            continue;
        };
        let on = test.day(DAY).map(Day::told).unwrap_or_default();
        listed.push((test, [&here.name, ", ", &on].concat()));
    }
    listed
}

/// Whether two tests are of one material on one day: a short vessel and a tall one.
fn is_beside(test: &Thing, other: &Thing) -> bool {
    [MATERIAL, DAY].map(|path| test.text(path)) == [MATERIAL, DAY].map(|path| other.text(path))
}

/// Gives the part of the question that is reckoned alike the figures of a drain test, short vessel
/// and tall; a new part where there is none.
pub fn take(parts: &mut Vec<PartAsked>, record: &Record, test: &Thing) -> Option<()> {
    let new = part_asked(record, test.text(MATERIAL), Entry::number(1.0))?;
    let index = match parts.iter().position(|part| part.material == new.material) {
        Some(index) => index,
        None if parts.len() < MOST_PARTS => {
            parts.push(new);
            parts.len() - 1
        }
        None => return None,
    };
    let mut vessels: Vec<&Thing> = drain_tests(record)
        .filter(|other| is_beside(test, other))
        .collect();
    vessels.sort_by(|one, other| {
        let height = |test: &Thing| test.base(HEIGHT).unwrap_or_default();
        height(one).total_cmp(&height(other))
    });
    let own = &mut parts.get_mut(index)?.own;
    DRAIN_TEST.clone_into(&mut own.figures);
    own.moisture = test.entry(MOISTURE);
    let read = |test: &Thing| {
        let mut vessel = DrainedAsked::default();
        for (name, number) in numbers(&mut vessel) {
            *number = test.entry(name);
        }
        vessel
    };
    own.short = read(vessels.first()?);
    own.tall = match vessels.as_slice() {
        [_, .., tallest] => read(tallest),
        _ => DrainedAsked::default(),
    };
    Some(())
}
