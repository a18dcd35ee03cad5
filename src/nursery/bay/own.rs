//! Readings of one's own in a bay, and what was fitted to such before.

use crate::measure::Temperature;
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Id, Record, Thing};

/// Readings in pots and trays of a bay, and the air of their days.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnHere {
    /// Minimum at dawn and maximum in the afternoon of each, one day after the other; the last maximum may be none.
    pub days: Vec<(Temperature, Option<Temperature>)>,
    /// The readings.
    pub readings: Vec<ReadingHere>,
}

/// A reading in a pot or a tray.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadingHere {
    /// Of what: root, water or bed.
    pub what: &'static str,
    /// On which of the days, from 1.
    pub day: usize,
    /// The day itself.
    pub on: Day,
    /// Minutes since midnight, by the clock.
    pub minute: u32,
    /// What it read.
    pub temperature: Temperature,
}

/// A figure kept of a fit.
#[derive(Clone, Debug, PartialEq)]
pub struct FigureHere {
    /// What it is, as it was kept.
    pub what: String,
    /// The least, the most likely and the most, where all were kept.
    pub range: [f64; 3],
}

/// The fit of a bay that was kept last.
pub(super) fn last_fit(record: &Record, bay: Id) -> Option<&Thing> {
    record
        .of_kind("fit")
        .filter(|fit| fit.one("of") == Some(bay))
        .max_by_key(|fit| (fit.day("on"), fit.id))
}

pub(super) fn figures(fit: &Thing) -> Vec<FigureHere> {
    let rows = fit.rows("figures");
    let figure = |row: &str| {
        let at = |name: &str| ["figures.", row, ".", name].concat();
        let number = |name: &str| fit.base(&at(name));
        Some(FigureHere {
            what: fit.text(&at("what")).to_owned(),
            range: [number("low")?, number("best")?, number("high")?],
        })
    };
    rows.into_iter().filter_map(figure).collect()
}

/// Days with readings are fitted to so many at most.
const OWN_DAYS: i32 = 14;

/// The last days with readings of pots and trays after a day, each of which has its minimum; none where there are none.
pub(super) fn own(record: &Record, outer: &[&Thing], since: Option<Day>) -> Option<OwnHere> {
    let bay = outer.first()?;
    let here = |thing: &Thing| {
        thing.one("place").is_some_and(|place| {
            place == bay.id
                || record
                    .get(place)
                    .is_some_and(|tray| tray.one("inside") == Some(bay.id))
        })
    };
    let read = |thing: &Thing| {
        let what = thing.choice("what")?;
        let at = (thing.day(DAY)?, thing.time("time")?);
        Some((what, at, Temperature::from_celsius(thing.base("value")?)))
    };
    let found: Vec<_> = record
        .of_kind("reading")
        .filter(|thing| here(thing))
        .filter_map(read)
        .filter(|(what, (day, _), _)| OWN.contains(what) && since.is_none_or(|since| *day > since))
        .collect();
    let last = found.iter().map(|(_, (day, _), _)| *day).max()?;
    // Air was read in the bay itself, or else in what is around it.
    let air = outer.iter().find_map(|thing| {
        let air = Air::of(record, thing.id);
        air.low(last).map(|_| air)
    })?;
    let first = found
        .iter()
        .map(|(_, (day, _), _)| *day)
        .filter(|day| last.number() - day.number() < OWN_DAYS)
        .min()?;
    let mut days = Vec::new();
    let mut from = last;
    let mut day = last;
    while let Some(low) = air.low(day) {
        let high = air.high(day);
        // But for the last, a day without its maximum ends the run.
        if high.is_none() && day != last {
            break;
        }
        days.push((low, high));
        from = day;
        if day <= first {
            break;
        }
        day = day.plus(-1);
    }
    days.reverse();
    let readings: Vec<ReadingHere> = found
        .into_iter()
        .filter(|(_, (day, _), _)| *day >= from)
        .filter_map(|(what, (day, minute), temperature)| {
            Some(ReadingHere {
                what,
                on: day,
                day: usize::try_from(day.number() - from.number()).ok()? + 1,
                minute,
                temperature,
            })
        })
        .collect();
    Some(OwnHere { days, readings })
}

/// What a thermometer in a pot or a tray reads.
const OWN: [&str; 3] = ["root", "water", "bed"];

/// The air of a place: minima and maxima as they are read of a morning, and single readings of it.
struct Air {
    /// Day, minimum of its dawn, maximum of the day before.
    nights: Vec<(Day, Option<f64>, Option<f64>)>,
    /// Day, minute, what was read.
    single: Vec<(Day, u32, f64)>,
}

impl Air {
    fn of(record: &Record, place: Id) -> Self {
        let of_it = |thing: &&Thing| thing.one("place") == Some(place);
        let nights = record
            .of_kind("night")
            .filter(of_it)
            .filter_map(|thing| Some((thing.day(DAY)?, thing.base("low"), thing.base("high"))));
        let single = record
            .of_kind("reading")
            .filter(of_it)
            .filter(|thing| thing.choice("what") == Some("air"))
            .filter_map(|thing| Some((thing.day(DAY)?, thing.time("time")?, thing.base("value")?)));
        Self {
            nights: nights.collect(),
            single: single.collect(),
        }
    }

    fn single(&self, day: Day, minutes: std::ops::Range<u32>) -> impl Iterator<Item = f64> {
        self.single
            .iter()
            .filter(move |(of, minute, _)| *of == day && minutes.contains(minute))
            .map(|(.., value)| *value)
    }

    /// The minimum at the dawn of a day.
    fn low(&self, day: Day) -> Option<Temperature> {
        let night = self
            .nights
            .iter()
            .find(|(of, low, _)| *of == day && low.is_some());
        let single = || self.single(day, 0..NOON).min_by(f64::total_cmp);
        let low = night.and_then(|(_, low, _)| *low).or_else(single)?;
        Some(Temperature::from_celsius(low))
    }

    /// The maximum in the afternoon of a day, which is read the morning after.
    fn high(&self, day: Day) -> Option<Temperature> {
        let after = day.plus(1);
        let night = self
            .nights
            .iter()
            .find(|(of, _, high)| *of == after && high.is_some());
        let single = || self.single(day, NOON..EVENING).max_by(f64::total_cmp);
        let high = night.and_then(|(.., high)| *high).or_else(single)?;
        Some(Temperature::from_celsius(high))
    }
}

/// Minutes since midnight between which an afternoon lies.
const NOON: u32 = 12 * 60;
const EVENING: u32 = 18 * 60;
