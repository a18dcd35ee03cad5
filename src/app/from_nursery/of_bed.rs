//! What Bed takes from the record, and keeps there: the bed in its tray, and a note of it in the day
//! book.

use super::{Asks, Kept, answered, named, put_number};
use crate::app::record::Ledger;
use crate::app::route::Page;
use crate::handbook::bed_media::bed_medium;
use crate::measure::{Area, AreaLoad, Entry, Length};
use crate::nursery::kinds::{DAY, NAME};
use crate::nursery::vessel::{TrayHere, bay_carries, tray_here};
use crate::nursery::{Record, Texts, Thing};
use crate::reckon::bed::Question;
use crate::reckon::form::{Form, Texts as Answered};
use crate::reckon::mix::{PartAsked, PotAsked};

/// Fields of a tray of the record that are numbers of the question, too.
const OF_A_TRAY: [(&str, &str); 4] = [
    ("wall", "tray.wall"),
    ("level", "tray.level"),
    ("fall", "tray.slope"),
    ("number", "tray.number"),
];
const MEDIUM: &str = "bed.medium";
const LIMIT: &str = "bench.limit";

impl Asks for Question {
    const PAGE: Page = Page::Bed;
    const TAKES: &'static [(&'static str, &'static str)] = &[
        ("tray", "Your trays"),
        ("bay", "Your bays and benches"),
        ("mix", "Your mixes"),
        ("pot", "Your pots"),
        ("material", "Your materials"),
    ];
    const KEEPS: &'static str = "Keep this bed in the tray called";

    fn parts(&mut self) -> &mut Vec<PartAsked> {
        &mut self.parts
    }

    fn pot(&mut self) -> &mut PotAsked {
        &mut self.pot
    }

    fn take(&mut self, record: &Record, thing: &Thing) -> Option<()> {
        match thing.kind.as_ref() {
            "mix" => {}
            "tray" => take_tray(self, &tray_here(record, thing.id)?),
            "bay" => put_number(self, LIMIT, Some(load(bay_carries(record, thing.id)?))),
            _ => return None,
        }
        Some(())
    }

    fn keep(&mut self, ledger: Ledger, name: &str) -> Kept {
        let Some(answer) = answered::read() else {
            return Kept::wait();
        };
        let depth = answered::text(&answer, "depth");
        let key = self
            .choice(MEDIUM)
            .map(|key| key.clone())
            .unwrap_or_default();
        let (bed, fill, laid) = laid(&answer, depth, &key);
        let fields = [("bed", bed), ("fill", fill), ("fill_depth", depth)];
        let (tray, entry) = match named(ledger, "tray", name) {
            Some(tray) => (Some(tray), ledger.change(tray, &fields)),
            None => {
                let mut new = Texts::default().with(NAME, name);
                for (field, path) in OF_A_TRAY {
                    if let Some(entry) = self.entry(path) {
                        new.set(field, &entry.stored());
                    }
                }
                for (field, text) in fields {
                    new.set(field, text);
                }
                let added = ledger.add("tray", new);
                (added, added)
            }
        };
        let Some(tray) = tray else {
            return Kept::not();
        };
        let note = Texts::default()
            .with(DAY, &ledger.today().iso())
            .with("place", &tray.text())
            .with(
                "notes",
                &[
                    laid.as_str(),
                    " ",
                    answered::text(&answer, answered::JUDGEMENT),
                ]
                .concat(),
            );
        let mut entries: Vec<_> = entry.into_iter().collect();
        entries.extend(ledger.add("note", note));
        Kept {
            told: "Kept in the tray, with a note in the day book.".to_owned(),
            entries,
        }
    }
}

/// How a tray's bed, what it is filled with, and the day book's sentence tell what is laid.
fn laid(answer: &Answered, depth: &str, key: &str) -> (&'static str, &'static str, String) {
    if Entry::from_stored(depth).text() == "0" {
        let sentence = "No bed: pots stand straight in the water.";
        return ("none", "", sentence.to_owned());
    }
    let (bed, fill, words) = match bed_medium(key) {
        Some(row) if row.key.starts_with("sand") => ("sand", row.key, row.name),
        Some(row) => ("grains", row.key, row.name),
        None => ("grains", "", "a medium of one’s own"),
    };
    let deep = answered::told(answer, "depth");
    let loose = answered::told(answer, "bed");
    let sentence = [
        "A bed of ",
        words,
        ", ",
        deep,
        " deep: ",
        loose,
        " loose to a tray.",
    ];
    (bed, fill, sentence.concat())
}

/// Whatever the record says of a tray; the rest of the question stays.
fn take_tray(question: &mut Question, tray: &TrayHere) {
    let millimetres = |length: Length| Entry::of(length, &Length::MILLIMETRE);
    put_number(question, "tray.wall", tray.wall.map(millimetres));
    put_number(question, "tray.level", tray.level.map(millimetres));
    put_number(question, "tray.slope", tray.fall.map(millimetres));
    put_number(question, "tray.number", tray.number.map(Entry::number));
    let floor = tray
        .floor
        .map(|floor| Entry::of(floor, &Area::SQUARE_METRE));
    put_number(question, "tray.area", floor);
    put_number(question, LIMIT, tray.carries.map(load));
    if let (Some(row), Some(medium)) = (tray.medium, question.choice(MEDIUM)) {
        row.key.clone_into(medium);
    }
}

fn load(carries: AreaLoad) -> Entry {
    Entry::of(carries, &AreaLoad::KILOGRAM_PER_SQUARE_METRE)
}
