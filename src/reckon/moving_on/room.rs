//! What there is of room in a bay of the record: on the bench, in its trays, and at its float valves.

use super::question::PlaceAsked;
use crate::handbook::pots::Pot;
use crate::measure::Entry;
use crate::nursery::batch::BatchHere;
use crate::nursery::bay::BayHere;
use crate::nursery::vessel::{pot_like, tray_here};
use crate::nursery::{Id, Record, Thing};
use crate::reckon::season::SEEDLINGS_PER_M2;
use crate::science::standing_room::most;

/// What lies so near to a whole pot is one.
const NEARLY: f64 = 1e-6;

/// Writes into a place what there is of room in a bay for pots of a kind, rim to rim, beside the batches that stand
/// there; nothing of what the record does not know.
pub fn room_there(
    asked: &mut PlaceAsked,
    (record, bay, here): (&Record, Id, &BayHere),
    pot: &Pot,
    others: &[&BatchHere],
) {
    let within = record.within(bay);
    let stand: Vec<(f64, Option<&'static Pot>)> = others
        .iter()
        .filter(|other| other.last.is_some_and(|place| within.contains(&place)))
        .filter_map(|other| Some((f64::from(other.stands()?), pot_like(record, &other.pot))))
        .collect();
    let count = |number: f64| Entry::number(number.max(0.0));
    let trays: Vec<&Thing> = record
        .of_kind("tray")
        .filter(|tray| within.contains(&tray.id))
        .collect();
    // Of trays of several sizes the first stands for all: they are counted alike.
    let first = trays.iter().find_map(|tray| in_tray(record, tray, pot));
    if let Some(takes) = first {
        let all: f64 = trays
            .iter()
            .map(|tray| tray.base("number").unwrap_or(1.0))
            .sum();
        let filled: f64 = stand
            .iter()
            .map(|(plants, other)| {
                let of_pot = other.unwrap_or(pot);
                let takes = trays.iter().find_map(|tray| in_tray(record, tray, of_pot));
                (plants / takes.unwrap_or(1.0)).ceil()
            })
            .sum();
        asked.in_tray = count(takes);
        asked.trays = count(all - filled);
        let valves = record.get(bay).and_then(|bay| bay.base("floats"));
        if let Some(valves) = valves {
            asked.floats = count(valves - filled);
        }
        return;
    }
    let Some(whole) = on_bench(here, pot) else {
        return;
    };
    let taken: f64 = stand
        .iter()
        .map(|(plants, other)| {
            let room = match other {
                Some(other) => on_bench(here, other),
                None => here
                    .area
                    .map(|area| SEEDLINGS_PER_M2 * area.in_square_metres()),
            };
            room.filter(|room| *room > 0.0)
                .map_or(0.0, |room| plants / room)
        })
        .sum();
    asked.room = count((whole * (1.0 - taken) + NEARLY).floor());
}

/// Pots of a kind that a tray takes, rim to rim; none where its sides are not known, or it takes none.
fn in_tray(record: &Record, tray: &Thing, pot: &Pot) -> Option<f64> {
    tray_here(record, tray.id)?;
    let (length, width) = (tray.base("length")?, tray.base("width")?);
    whole_pots(length, width, pot)
}

/// Pots of a kind that a bench takes, rim to rim.
fn on_bench(here: &BayHere, pot: &Pot) -> Option<f64> {
    if let Some([length, width]) = here.sides {
        return whole_pots(length.in_metres(), width.in_metres(), pot);
    }
    let rim = pot.rim.in_metres();
    here.area
        .map(|area| (area.in_square_metres() / (rim * rim)).floor())
}

fn whole_pots(length_m: f64, width_m: f64, pot: &Pot) -> Option<f64> {
    let pots = most(length_m, width_m, pot.rim.in_metres()).ok()?;
    (pots > 0).then(|| f64::from(pots))
}
