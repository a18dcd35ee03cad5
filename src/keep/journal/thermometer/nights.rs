//! Minima and maxima of each night, and readings, as entries.
//!
//! A night runs from noon to noon and has the date of its morning, as a minimum and maximum
//! thermometer is read and set back in the morning. A night counts only where the file reaches
//! through it: with a reading between midnight and 8:00 and one from 8:00 on; its maximum only where
//! there is a reading between noon and 18:00 of the day before.

use litemap::LiteMap;

use super::{Bad, Found, Reading, What};
use crate::keep::journal::entry::Entry;
use crate::keep::journal::merge::Journal;
use crate::keep::journal::words;
use crate::nursery::day::{DAY_MINUTES, time_text};
use crate::nursery::{Day, Id, Record, Texts};

const NOON: u32 = 12 * 60;
/// The coldest of a night is past by then.
const MORNING: u32 = 8 * 60;
/// The warmest of a day is past by then.
const EVENING: u32 = 18 * 60;

/// What is to be made of the readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wish {
    /// Where the instrument is.
    pub place: Id,
    /// The instrument, where the record has it.
    pub instrument: Option<Id>,
    /// Minimum and maximum of each night.
    pub nights: bool,
    /// Every single reading.
    pub readings: bool,
}

/// What an import would add, before anything is written.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Import {
    /// The entries that are not there yet.
    pub entries: Vec<Entry>,
    /// How many were there already.
    pub known: usize,
    /// Lines that could not be read, and nights that are not all in the file.
    pub bad: Vec<Bad>,
}

/// Makes entries of what was found. What the journal has already, or the record has to the same
/// effect, is left out.
#[must_use]
pub fn import(found: &Found, wish: &Wish, journal: &Journal, record: &Record) -> Import {
    let mut import = Import {
        bad: found.bad.clone(),
        ..Import::default()
    };
    let mut logs = Vec::new();
    if wish.nights {
        logs.extend(nights(found, &mut import.bad).into_iter().map(Log::Night));
    }
    if wish.readings {
        let single = found
            .readings
            .iter()
            .filter(|reading| reading.what == What::Humidity || reading.what.key().is_some());
        logs.extend(single.map(Log::Single));
    }
    let there = effects(record, &logs);
    let mut made: Vec<String> = Vec::new();
    for log in logs {
        let Some(entry) = log.entry(wish) else {
            continue;
        };
        let effect = effect(log.kind(), &log.texts(wish));
        if journal.get(entry.id).is_some() || there.binary_search(&effect).is_ok() {
            import.known += 1;
        } else if let Err(place) = made.binary_search(&effect) {
            made.insert(place, effect);
            import.entries.push(entry);
        }
    }
    import.bad.sort_by_key(|bad| bad.line);
    import
}

/// One log to be made.
enum Log<'a> {
    Night(Night),
    Single(&'a Reading),
}

/// Minimum and maximum of a night, each as it is stored.
#[derive(Clone, Debug, PartialEq)]
pub struct Night {
    /// The date of its morning.
    pub day: Day,
    /// The minimum; may be empty.
    pub low: String,
    /// The maximum; may be empty.
    pub high: String,
}

impl Log<'_> {
    const fn kind(&self) -> &'static str {
        match self {
            Self::Night(_) => "night",
            Self::Single(reading) => match reading.what {
                What::Humidity => "humidity",
                _ => "reading",
            },
        }
    }

    const fn day(&self) -> Day {
        match self {
            Self::Night(night) => night.day,
            Self::Single(reading) => reading.day,
        }
    }

    fn texts(&self, wish: &Wish) -> Texts {
        let (day, place) = (self.day().iso(), wish.place.text());
        let instrument = wish.instrument.map(|id| id.text()).unwrap_or_default();
        let mut texts = vec![
            ("day", day.as_str()),
            ("place", &place),
            ("instrument", &instrument),
        ];
        let time;
        match self {
            Self::Night(night) => texts.extend([("low", &*night.low), ("high", &*night.high)]),
            Self::Single(reading) => {
                time = reading.minute.map(time_text).unwrap_or_default();
                texts.extend([
                    ("time", &*time),
                    ("value", &*reading.text),
                    ("what", reading.what.key().unwrap_or_default()),
                ]);
            }
        }
        Texts::of(texts)
    }

    /// The entry depends on nothing but what was read.
    fn entry(&self, wish: &Wish) -> Option<Entry> {
        let days = u32::try_from(self.day().number()).unwrap_or(0);
        let minute = match self {
            Self::Night(_) => MORNING,
            Self::Single(reading) => reading.minute.unwrap_or(NOON),
        };
        let at = days.saturating_mul(DAY_MINUTES).saturating_add(minute);
        Entry::from_file(days, at, self.kind(), self.texts(wish))
    }
}

/// What a log says, without the instrument that it was read from.
fn effect(kind: &str, texts: &Texts) -> String {
    let mut effect = kind.to_owned();
    for path in ["day", "time", "place", "what", "value", "low", "high"] {
        effect.push('\n');
        effect.push_str(texts.get(path));
    }
    effect
}

/// What the record says already in the days of these logs.
fn effects(record: &Record, logs: &[Log]) -> Vec<String> {
    let days = || logs.iter().map(Log::day);
    let (Some(from), Some(to)) = (days().min(), days().max()) else {
        return Vec::new();
    };
    let mut effects: Vec<String> = record
        .between(from, to)
        .filter(|thing| ["night", "reading", "humidity"].contains(&thing.kind.as_ref()))
        .map(|thing| effect(&thing.kind, &thing.texts))
        .collect();
    effects.sort_unstable();
    effects
}

/// The nights of a file. Those that are not all in it are told among what could not be read.
#[must_use]
pub fn nights(found: &Found, bad: &mut Vec<Bad>) -> Vec<Night> {
    let mut windows: LiteMap<Day, Window> = LiteMap::new();
    for reading in &found.readings {
        match (reading.what, reading.minute) {
            (What::Minimum, _) => windows.entry(reading.day).or_default().told_low(reading),
            (What::Maximum, _) => windows.entry(reading.day).or_default().told_high(reading),
            (What::Air, Some(minute)) => {
                let morning = if minute < NOON {
                    reading.day
                } else {
                    reading.day.plus(1)
                };
                windows.entry(morning).or_default().read(reading, minute);
            }
            _ => {}
        }
    }
    let mut nights = Vec::new();
    for (day, window) in &windows {
        let (low, high) = (window.low(), window.high());
        if low.is_none() && high.is_none() {
            bad.push(Bad {
                line: window.line,
                why: words::night_in_part(&day.told()),
            });
            continue;
        }
        let text = |reading: Option<&Reading>| {
            reading.map_or_else(String::new, |reading| reading.text.clone())
        };
        nights.push(Night {
            day: *day,
            low: text(low),
            high: text(high),
        });
    }
    nights
}

/// The readings from noon to noon, or what the instrument itself says of a day.
#[derive(Default)]
struct Window<'a> {
    line: usize,
    lowest: Option<&'a Reading>,
    highest: Option<&'a Reading>,
    told_low: Option<&'a Reading>,
    told_high: Option<&'a Reading>,
    afternoon: bool,
    small_hours: bool,
    morning: bool,
}

impl<'a> Window<'a> {
    fn read(&mut self, reading: &'a Reading, minute: u32) {
        self.line = self.line.max(reading.line);
        self.afternoon |= (NOON..EVENING).contains(&minute);
        self.small_hours |= minute < MORNING;
        self.morning |= (MORNING..NOON).contains(&minute);
        keep(&mut self.lowest, reading, |new, old| new < old);
        keep(&mut self.highest, reading, |new, old| new > old);
    }

    fn told_low(&mut self, reading: &'a Reading) {
        self.line = self.line.max(reading.line);
        keep(&mut self.told_low, reading, |new, old| new < old);
    }

    fn told_high(&mut self, reading: &'a Reading) {
        self.line = self.line.max(reading.line);
        keep(&mut self.told_high, reading, |new, old| new > old);
    }

    fn through(&self) -> bool {
        self.small_hours && self.morning
    }

    fn low(&self) -> Option<&'a Reading> {
        self.told_low.or(self.lowest.filter(|_| self.through()))
    }

    fn high(&self) -> Option<&'a Reading> {
        let highest = self.highest.filter(|_| self.through() && self.afternoon);
        self.told_high.or(highest)
    }
}

fn keep<'a>(kept: &mut Option<&'a Reading>, reading: &'a Reading, better: fn(f64, f64) -> bool) {
    if kept.is_none_or(|kept| better(reading.base, kept.base)) {
        *kept = Some(reading);
    }
}
