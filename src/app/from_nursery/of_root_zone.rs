//! What Root zone takes from the record, and keeps there: a note of where pots are to stand.

use super::{Asks, Kept, answered, named, put_choice, put_number};
use crate::app::record::Ledger;
use crate::app::route::Page;
use crate::handbook::bed_media::bed_medium;
use crate::measure::{Area, Entry, HeatDensity, Length, Temperature};
use crate::nursery::bay::{BayHere, bay_here};
use crate::nursery::kinds::DAY;
use crate::nursery::vessel::tray_here;
use crate::nursery::{Record, Texts, Thing};
use crate::reckon::mix::{PartAsked, PotAsked};
use crate::reckon::root_zone::Question;

/// How plants stand in a bay, as the question has it.
const STANDS: [(&str, &str); 4] = [
    ("floor", "floor"),
    ("raised", "raised"),
    ("bench", "raised"),
    ("heated_bench", "bench"),
];
/// Covers of houses, as the handbook of heat has them; others lose more than can be reckoned.
const COVERS: [(&str, &str); 4] = [
    ("glass", "glass"),
    ("film", "film"),
    ("two_films", "double_film"),
    ("twin_wall", "twin_wall"),
];

impl Asks for Question {
    const PAGE: Page = Page::RootZone;
    const TAKES: &'static [(&'static str, &'static str)] = &[
        ("bay", "Your bays and benches"),
        ("tray", "Your trays"),
        ("mix", "Your mixes"),
        ("pot", "Your pots"),
        ("material", "Your materials"),
    ];
    const KEEPS: &'static str = "Note this in the day book for the bay called";

    fn parts(&mut self) -> &mut Vec<PartAsked> {
        &mut self.parts
    }

    fn pot(&mut self) -> &mut PotAsked {
        &mut self.pot
    }

    fn take(&mut self, record: &Record, thing: &Thing) -> Option<()> {
        match thing.kind.as_ref() {
            "mix" => {}
            "bay" => take_bay(self, &bay_here(record, thing.id)?),
            "tray" => take_tray(self, record, thing)?,
            _ => return None,
        }
        Some(())
    }

    fn keep(&mut self, ledger: Ledger, name: &str) -> Kept {
        let Some(answer) = answered::read() else {
            return Kept::wait();
        };
        let Some(bay) = named(ledger, "bay", name) else {
            return Kept::told(
                "There is no bay of that name yet. Add it under Nursery, or choose one above.",
            );
        };
        let note = Texts::default()
            .with(DAY, &ledger.today().iso())
            .with("place", &bay.text())
            .with("notes", answered::text(&answer, answered::JUDGEMENT));
        match ledger.add("note", note) {
            Some(entry) => Kept {
                told: "Noted in the day book.".to_owned(),
                entries: vec![entry],
            },
            None => Kept::not(),
        }
    }
}

/// Whatever the record says of a bay; the rest of the question stays.
fn take_bay(question: &mut Question, bay: &BayHere) {
    let millimetres = |length: Length| Entry::of(length, &Length::MILLIMETRE);
    let metres = |length: Length| Entry::of(length, &Length::METRE);
    let celsius = |temperature: Temperature| Entry::of(temperature, &Temperature::DEGREE_CELSIUS);
    let known = |list: &[(&str, &'static str)], key: Option<&str>| {
        list.iter()
            .find(|(of_record, _)| Some(*of_record) == key)
            .map(|(_, own)| *own)
    };
    put_choice(question, "stand", known(&STANDS, bay.standing));
    put_choice(question, "air.cover", known(&COVERS, bay.house_cover));
    put_choice(question, "place.climate", bay.climate.as_deref());
    put_number(question, "place.latitude", bay.latitude.map(Entry::number));
    put_number(question, "raised.height", bay.height.map(millimetres));
    put_number(question, "heated.set", bay.set_point.map(celsius));
    let power = |heat: HeatDensity| Entry::of(heat, &HeatDensity::WATT_PER_SQUARE_METRE);
    put_number(question, "heated.power", bay.heat.map(power));
    put_number(
        question,
        "heated.thickness",
        bay.insulation.map(millimetres),
    );
    let area = bay.area.map(|area| Entry::of(area, &Area::SQUARE_METRE));
    put_number(question, "heated.area", area);
    put_number(
        question,
        "air.length",
        bay.house.map(|[length, _]| metres(length)),
    );
    put_number(
        question,
        "air.width",
        bay.house.map(|[_, width]| metres(width)),
    );
    if let Some(nights) = &bay.nights {
        put_choice(question, "air.by", Some("inside"));
        put_choice(question, "place.month", Some(&nights.month.to_string()));
        put_number(question, "air.low", Some(tenths(nights.low)));
        put_number(question, "air.high", Some(tenths(nights.high)));
    }
}

/// A mean of readings is no better than to a tenth.
fn tenths(temperature: Temperature) -> Entry {
    let celsius = (temperature.in_celsius() * 10.0).round() / 10.0;
    Entry::of(
        Temperature::from_celsius(celsius),
        &Temperature::DEGREE_CELSIUS,
    )
}

/// What stands in a tray: on the mean of a fill and its emptying half as deep as filled.
fn take_tray(question: &mut Question, record: &Record, thing: &Thing) -> Option<()> {
    let tray = tray_here(record, thing.id)?;
    let millimetres = |length: Length| Entry::of(length, &Length::MILLIMETRE);
    put_number(
        question,
        "tray.water",
        tray.level.map(|level| millimetres(level / 2.0)),
    );
    let medium = bed_medium(thing.text("fill")).map(|row| row.key);
    put_choice(question, "tray.medium", medium);
    put_number(
        question,
        "tray.bed",
        thing.number("fill_depth").map(millimetres),
    );
    let bay = thing.one("inside").and_then(|bay| bay_here(record, bay));
    if let Some(bay) = bay {
        take_bay(question, &bay);
    }
    Some(())
}
