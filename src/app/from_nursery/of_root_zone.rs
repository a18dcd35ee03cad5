//! What Root zone takes from the record, and keeps there: a note of where pots are to stand.

use super::{Asks, Kept, answered, named, put_choice, put_number};
use crate::app::record::Ledger;
use crate::app::route::Page;
use crate::handbook::bed_media::bed_medium;
use crate::measure::{Area, Duration, Entry, HeatDensity, Length, Temperature};
use crate::nursery::bay::{BayHere, ReadingHere, bay_here};
use crate::nursery::kinds::DAY;
use crate::nursery::vessel::tray_here;
use crate::nursery::{Id, Record, Texts, Thing};
use crate::reckon::form::Texts as Answered;
use crate::reckon::mix::{PartAsked, PotAsked};
use crate::reckon::root_zone::own::Fits;
use crate::reckon::root_zone::{
    DayAsked, FITTED_ENDS, FittedAsked, MOST_READINGS, Question, ReadingAsked, fitted_at,
};

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

/// Covers over bays, as the handbook of heat has them; what else may lie there is no film.
const BENCH_COVERS: [(&str, &str); 2] = [("film", "film"), ("none", "none")];

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
        let Some(note) = ledger.add("note", note) else {
            return Kept::not();
        };
        let Some(fit) = fit(&answer, name, bay, &ledger.today().iso()) else {
            return Kept {
                told: "Noted in the day book.".to_owned(),
                entries: vec![note],
            };
        };
        match ledger.add("fit", fit) {
            Some(fit) => Kept {
                told: "Noted in the day book, and what was fitted is kept with the bay. Take the bay again to reckon with it.".to_owned(),
                entries: vec![note, fit],
            },
            None => Kept::not(),
        }
    }
}

/// What was fitted, as the record keeps it; none where nothing was.
fn fit(answer: &Answered, name: &str, bay: Id, today: &str) -> Option<Texts> {
    let fitted: Vec<Fits> = Fits::ALL
        .into_iter()
        .filter(|fits| !answered::text(answer, &fitted_at(fits.key(), "best")).is_empty())
        .collect();
    if fitted.is_empty() {
        return None;
    }
    let mut kept = Texts::default()
        .with("name", &[name, ", fitted"].concat())
        .with("on", today)
        .with("of", &bay.text())
        .with("by", "Root zone");
    for (row, fits) in fitted.into_iter().enumerate() {
        let at = |field: &str| ["figures.", &row.to_string(), ".", field].concat();
        kept.set(&at("what"), fits.name());
        for end in FITTED_ENDS {
            kept.set(
                &at(end),
                answered::text(answer, &fitted_at(fits.key(), end)),
            );
        }
    }
    Some(kept)
}

/// Puts in what was fitted before, and readings since then.
fn take_own(question: &mut Question, bay: &BayHere) {
    question.fitted = FittedAsked::default();
    for figure in &bay.fitted {
        let known = Fits::ALL
            .into_iter()
            .find(|fits| fits.name() == figure.what);
        let Some(fits) = known else { continue };
        for (end, value) in FITTED_ENDS.into_iter().zip(figure.range) {
            put_number(
                question,
                &fitted_at(fits.key(), end),
                Some(Entry::number(value)),
            );
        }
    }
    let celsius = |temperature: Temperature| Entry::of(temperature, &Temperature::DEGREE_CELSIUS);
    question.days.clear();
    question.readings.clear();
    let Some(own) = &bay.own else { return };
    question
        .days
        .extend(own.days.iter().map(|(low, high)| DayAsked {
            low: celsius(*low),
            high: high.map_or_else(|| DayAsked::default().high, celsius),
        }));
    let latest = own.readings.len().saturating_sub(MOST_READINGS);
    question
        .readings
        .extend(own.readings.iter().skip(latest).map(|reading| {
            let (day, hour) = by_the_sun(reading);
            ReadingAsked {
                what: reading.what.to_owned(),
                day: Entry::number(day as f64),
                hour: Entry::of(Duration::from_hours(hour), &Duration::HOUR),
                temperature: celsius(reading.temperature),
            }
        }));
}

/// The day of a reading, from 1, and its hour by the sun: the clock less what it is put forward in summer.
fn by_the_sun(reading: &ReadingHere) -> (usize, f64) {
    const HOUR_MINUTES: f64 = 60.0;
    const DAY_MINUTES: i32 = 1440;
    let (year, month, day) = reading.on.civil();
    let offset = |month: u32, day: u32| {
        let noon = js_sys::Date::new_with_year_month_day(year as u32, month as i32 - 1, day as i32);
        noon.get_timezone_offset() as i32
    };
    // Minutes behind Greenwich are most in winter, whichever half of the year that is.
    let forward = offset(1, 1).max(offset(7, 1)) - offset(month, day);
    let since_first = reading.day as i32 * DAY_MINUTES + reading.minute as i32 - forward;
    let since_first = since_first.max(DAY_MINUTES);
    let hour = f64::from(since_first.rem_euclid(DAY_MINUTES)) / HOUR_MINUTES;
    (
        (since_first / DAY_MINUTES) as usize,
        (hour * 100.0).round() / 100.0,
    )
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
    put_choice(question, "cover.kind", known(&BENCH_COVERS, bay.cover));
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
    take_own(question, bay);
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
