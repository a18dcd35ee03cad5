//! What was entered, in one line of words.

use crate::measure::letters::{capitalised, in_small};
use crate::measure::{Temperature, Unit, with_unit};
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Record, Takes, Thing, tell};

/// The days of the week, from Monday.
const WEEKDAYS: [&str; 7] = [
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
];

/// `Wednesday, 25 November 2026`.
#[must_use]
pub fn whole_day(day: Day) -> String {
    let name = WEEKDAYS
        .get(day.weekday() as usize - 1)
        .copied()
        .unwrap_or_default();
    [name, ", ", &day.told()].concat()
}

/// A day beside today: `today`, `yesterday`, or the date.
#[must_use]
pub fn beside(day: Day, today: Day) -> String {
    match today.number() - day.number() {
        0 => "today".to_owned(),
        1 => "yesterday".to_owned(),
        _ => day.told(),
    }
}

/// A thing of a day in one line: `North house: 6 to 31 °C`, `Watering: North house, can`.
#[must_use]
pub fn line(record: &Record, thing: &Thing) -> String {
    let Some(kind) = thing.table() else {
        // Of a kind that only a newer version knows, all that it says.
        let mut parts = vec![thing.kind.as_ref()];
        parts.extend(thing.texts.iter().map(|(_, text)| text));
        return parts.join(", ");
    };
    let mut parts: Vec<String> = Vec::new();
    let night = thing.kind == "night";
    let mut place = String::new();
    for field in kind.fields {
        let text = thing.text(field.key);
        if field.key == DAY || text.is_empty() {
            continue;
        }
        match field.key {
            "low" | "high" if night => {}
            "place" if night => place = tell::told(record, field, text),
            _ => {
                let told = tell::told(record, field, text);
                parts.push(match field.takes {
                    Takes::Number(_) => [&in_small(field.label), " ", &told].concat(),
                    _ => told,
                });
            }
        }
    }
    if night {
        parts.insert(0, low_to_high(thing));
        [&place, ": ", &parts.join(", ")].concat()
    } else {
        [&capitalised(kind.name), ": ", &parts.join(", ")].concat()
    }
}

/// `6 to 31 °C`, or whichever of the two there is.
#[must_use]
pub fn low_to_high(night: &Thing) -> String {
    let (low, high) = (night.entry("low"), night.entry("high"));
    let told = |entry: &crate::measure::Entry| match unit(entry.unit()) {
        Some(unit) => with_unit(entry.text(), unit),
        None => entry.text().to_owned(),
    };
    match (low.is_empty(), high.is_empty()) {
        (false, false) if low.unit() == high.unit() => [low.text(), " to ", &told(&high)].concat(),
        (false, false) => [&told(&low), " to ", &told(&high)].concat(),
        (false, true) => ["minimum ", &told(&low)].concat(),
        (true, _) => ["maximum ", &told(&high)].concat(),
    }
}

/// A unit of temperature by its key.
#[must_use]
pub fn unit(key: &str) -> Option<&'static Unit> {
    use crate::measure::Quantity;
    Temperature::UNITS.iter().find(|unit| unit.key == key)
}
