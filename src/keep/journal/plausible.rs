//! Journals such as a nursery might have kept, and documents such as a careless, hurried or hostile
//! hand might bring: for tests, fuzzing and measuring.

use std::sync::Arc;

use serde_json::{Map, Value};

use super::entry::{Act, Change, Entry};
use super::explain::history;
use super::fold::fold;
use super::merge::Journal;
use super::months::parts;
use super::preview::preview;
use super::{csv, format};
use crate::keep::json::text_of;
use crate::nursery::day::{DAY_MINUTES, time_text};
use crate::nursery::kinds::{Takes, all, kind};
use crate::nursery::sense::all_problems;
use crate::nursery::thing::kind_key;
use crate::nursery::{Day, Id, Mark, Texts, Wanted, search};
use crate::science::numerics::draws::Draws;

/// Words of notes.
const WORDS: [&str; 32] = [
    "wet", "dry", "moved", "vents", "open", "shut", "late", "north", "end", "watered", "twice",
    "slugs", "leaves", "pale", "new", "lamps", "on", "fleece", "off", "windy", "bright", "dull",
    "sown", "again", "check", "tomorrow", "tank", "low", "probe", "loose", "looks", "well",
];

/// The day the plausible record begins: 1 January 2020.
const FIRST_DAY: i32 = 18_262;
/// Days in ten seasons.
const TEN_SEASONS: usize = 3_652;

/// A journal of about so many entries over ten seasons, from two devices: things that stand, a day
/// book of many kinds, a third of it with notes, and now and then a correction.
#[must_use]
pub fn journal(entries: usize, seed: u64) -> Journal {
    let mut scribe = Scribe {
        draws: Draws::from_seed(seed),
        journal: Journal::default(),
        marks: [Mark::from_random(1), Mark::from_random(2)],
        number: 0,
    };
    let houses: Vec<Id> = (0..2)
        .map(|place| scribe.named("house", place, &[]))
        .collect();
    let mut bays = Vec::new();
    for place in 0..8 {
        let house = houses[place % houses.len()].text();
        bays.push(scribe.named("bay", place, &[("inside", &house), ("standing", "raised")]));
    }
    let mut batches = Vec::new();
    for place in 0..(entries / 400).clamp(4, 400) {
        let bay = bays[place % bays.len()].text();
        let day = scribe.day().iso();
        batches.push(scribe.named(
            "batch",
            place,
            &[
                ("crop", "parsley"),
                ("sown", &day),
                ("inside", &bay),
                ("number", "240"),
            ],
        ));
    }
    while scribe.journal.len() < entries {
        scribe.log(&houses, &bays, &batches);
    }
    scribe.journal
}

struct Scribe {
    draws: Draws,
    journal: Journal,
    marks: [Mark; 2],
    number: u32,
}

impl Scribe {
    fn day(&mut self) -> Day {
        Day::from_number(FIRST_DAY + self.draws.below(TEN_SEASONS) as i32)
    }

    fn pick(&mut self, ids: &[Id]) -> Id {
        ids.get(self.draws.below(ids.len()))
            .copied()
            .unwrap_or(Id::LOWEST)
    }

    fn put(&mut self, at: u32, act: Act) -> Id {
        self.number += 1;
        let mark = self.marks[usize::from(self.draws.below(3) == 0)];
        let entry = Entry::new(mark, self.number, at, act);
        let id = entry.id;
        self.journal.put(entry);
        id
    }

    fn add(&mut self, at: u32, kind: &str, pairs: &[(&str, &str)]) -> Id {
        let texts = Arc::new(Texts::of(pairs.iter().copied()));
        let kind = kind_key(kind);
        self.put(at, Act::Add { kind, texts })
    }

    fn named(&mut self, kind: &str, place: usize, more: &[(&str, &str)]) -> Id {
        let name = [kind, " ", &(place + 1).to_string()].concat();
        let mut pairs = vec![("name", name.as_str())];
        pairs.extend_from_slice(more);
        let at = FIRST_DAY as u32 * DAY_MINUTES;
        self.add(at, kind, &pairs)
    }

    fn notes(&mut self) -> String {
        if self.draws.below(10) >= 3 {
            return String::new();
        }
        let many = 3 + self.draws.below(12);
        let words: Vec<&str> = (0..many)
            .map(|_| WORDS[self.draws.below(WORDS.len())])
            .collect();
        words.join(" ")
    }

    /// A number with a decimal, and its unit.
    fn figure(&mut self, low: usize, high: usize, unit: &str) -> String {
        let tenths = low * 10 + self.draws.below((high - low) * 10);
        let (whole, decimal) = ((tenths / 10).to_string(), (tenths % 10).to_string());
        let parts: &[&str] = if decimal == "0" {
            &[&whole, " ", unit]
        } else {
            &[&whole, ".", &decimal, " ", unit]
        };
        parts.concat()
    }

    fn log(&mut self, houses: &[Id], bays: &[Id], batches: &[Id]) {
        let day = self.day();
        let minute = self.draws.below(DAY_MINUTES as usize) as u32;
        let at = day.number() as u32 * DAY_MINUTES + minute;
        let (iso, time, notes) = (day.iso(), time_text(minute), self.notes());
        let house = self.pick(houses).text();
        let bay = self.pick(bays).text();
        let batch = self.pick(batches).text();
        let low = self.figure(1, 14, "degC");
        let high = self.figure(15, 35, "degC");
        let litres = self.figure(1, 90, "L");
        let count = self.draws.below(40).to_string();
        let mut pairs = vec![("day", iso.as_str()), ("notes", &notes)];
        let kind = match self.draws.below(10) {
            0..=2 => {
                pairs.extend([("place", &*house), ("low", &low), ("high", &high)]);
                "night"
            }
            3 | 4 => {
                pairs.extend([
                    ("place", &*bay),
                    ("time", &time),
                    ("value", &low),
                    ("what", "root"),
                ]);
                "reading"
            }
            5 => {
                pairs.extend([("place", &*bay), ("how", "below"), ("volume", &litres)]);
                "watered"
            }
            6 => {
                pairs.extend([("batch", &*batch), ("what", "moved"), ("to", &bay)]);
                "stage"
            }
            7 => {
                pairs.extend([
                    ("place", &*bay),
                    ("what", "thrips"),
                    ("found", &count),
                    ("on", "card"),
                ]);
                "count"
            }
            8 => {
                pairs.extend([
                    ("batch", &*batch),
                    ("weight", "1.5 kg"),
                    ("bunches", &count),
                ]);
                "cut"
            }
            _ => {
                pairs.extend([("batch", &*batch), ("to", "farm shop"), ("number", &count)]);
                "sold"
            }
        };
        let log = self.add(at, kind, &pairs);
        if self.draws.below(50) == 0 {
            let text = self.notes();
            let change = Change {
                field: "notes".into(),
                text: text.into(),
                over: Vec::new(),
            };
            let fields = vec![change];
            self.put(at + 1, Act::Change { of: log, fields });
        }
    }
}

/// A document such as a careless, hurried or hostile hand might bring.
#[must_use]
pub fn careless(draws: &mut Draws) -> String {
    let entries = (0..draws.below(7)).map(|_| careless_entry(draws)).collect();
    let mut members = Map::new();
    for (name, value) in [
        ("longtom", Value::from("record")),
        ("schema", Value::from(format::SCHEMA)),
        ("entries", Value::Array(entries)),
    ] {
        members.insert(name.to_owned(), value);
    }
    if draws.below(4) == 0 {
        let name = MEMBERS[draws.below(MEMBERS.len())];
        members.insert(name.to_owned(), careless_value(draws, 4));
    }
    let text = text_of(&Value::Object(members));
    if draws.below(3) == 0 {
        damaged(&text, draws)
    } else {
        text
    }
}

/// Bytes lost, doubled or changed, as a bad copy has them.
#[must_use]
pub fn damaged(text: &str, draws: &mut Draws) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..=draws.below(3) {
        if bytes.is_empty() {
            break;
        }
        let place = draws.below(bytes.len());
        match draws.below(4) {
            0 => {
                bytes.remove(place);
            }
            1 => bytes.truncate(place),
            2 => bytes[place] = draws.below(256) as u8,
            _ => bytes.insert(place, b"\"{}[],:019ae\\"[draws.below(13)]),
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

const MEMBERS: [&str; 14] = [
    "id", "at", "add", "of", "set", "over", "withdraw", "restore", "undo", "part", "others",
    "schema", "colour", "",
];

fn careless_entry(draws: &mut Draws) -> Value {
    if draws.below(20) == 0 {
        return careless_value(draws, 3);
    }
    let mut members = Map::new();
    let mut put = |name: &str, value: Value| members.insert(name.to_owned(), value);
    put("id", careless_id(draws));
    put("at", Value::from(draws.below(40_000_000)));
    match draws.below(8) {
        0..=2 => {
            put("add", Value::from(careless_kind(draws)));
            put("set", careless_set(draws));
        }
        3 | 4 => {
            put("of", careless_id(draws));
            let set = careless_set(draws);
            if let (Some(name), true) = (
                set.as_object().and_then(|set| set.keys().next()),
                draws.below(2) == 0,
            ) {
                let ids: Vec<Value> = (0..draws.below(3)).map(|_| careless_id(draws)).collect();
                let mut over = Map::new();
                over.insert(name.clone(), Value::Array(ids));
                put("over", Value::Object(over));
            }
            put("set", set);
        }
        5 | 6 => {
            put("of", careless_id(draws));
            let ids = (0..draws.below(3)).map(|_| careless_id(draws)).collect();
            let name = ["withdraw", "restore"][draws.below(2)];
            put(name, Value::Array(ids));
        }
        _ => {
            put("of", careless_id(draws));
            put("undo", careless_id(draws));
        }
    }
    if draws.below(6) == 0 {
        put(
            MEMBERS[draws.below(MEMBERS.len())],
            careless_value(draws, 3),
        );
    }
    Value::Object(members)
}

/// Few ids, so that entries meet: also under the same id.
fn careless_id(draws: &mut Draws) -> Value {
    if draws.below(40) == 0 {
        return careless_value(draws, 2);
    }
    let mark = ["a", "b", "file"][draws.below(3)];
    let number = ["1", "2", "3", "4", "5", "4294967295"][draws.below(6)];
    let salt = ["0", "1", "zz"][draws.below(12) / 10 + draws.below(2)];
    Value::from([mark, ".", number, ".", salt].concat())
}

fn careless_kind(draws: &mut Draws) -> &'static str {
    let many = all().count();
    let place = draws.below(many + 1);
    all().nth(place).map_or("glasshouse_cat", |kind| kind.key)
}

fn careless_set(draws: &mut Draws) -> Value {
    let table = kind(careless_kind(draws));
    let mut set = Map::new();
    for _ in 0..draws.below(5) {
        let fields = table.map_or(&[][..], |kind| kind.fields);
        let path = match fields.get(draws.below(fields.len() + 1)) {
            None => MEMBERS[draws.below(MEMBERS.len())].to_owned(),
            Some(field) => match field.takes {
                Takes::Rows(rows) => {
                    let row = ["0", "1", "99999999999999999999", "x"][draws.below(4)];
                    let within = rows
                        .get(draws.below(rows.len()))
                        .map_or("", |field| field.key);
                    [field.key, ".", row, ".", within].concat()
                }
                _ => field.key.to_owned(),
            },
        };
        set.insert(path, careless_text(draws));
    }
    Value::Object(set)
}

fn careless_text(draws: &mut Draws) -> Value {
    const TEXTS: [&str; 20] = [
        "",
        " ",
        "6 degC",
        "31 degC",
        "-400 degC",
        "1e999",
        "2026-05-03",
        "31.2.2026",
        "3/13/2026",
        "a.1.0",
        "b.2.1",
        "round_10_cm",
        "perlite_coarse",
        "=1+1",
        "7:40",
        "25:00",
        "½ L",
        "12 mm []",
        "floor",
        "\u{0}\u{1f}ß𝄞",
    ];
    if draws.below(30) == 0 {
        return careless_value(draws, 2);
    }
    Value::from(TEXTS[draws.below(TEXTS.len())])
}

fn careless_value(draws: &mut Draws, depth: usize) -> Value {
    match draws.below(if depth == 0 { 5 } else { 7 }) {
        0 => Value::Null,
        1 => Value::from(draws.below(2) == 0),
        2 => Value::from(draws.below(usize::MAX)),
        3 => Value::from(draws.below(1000) as f64 / 8.0),
        4 => Value::from(WORDS[draws.below(WORDS.len())]),
        5 => (0..draws.below(3))
            .map(|_| careless_value(draws, depth - 1))
            .collect(),
        _ => {
            let mut members = Map::new();
            for _ in 0..draws.below(3) {
                let name = MEMBERS[draws.below(MEMBERS.len())];
                members.insert(name.to_owned(), careless_value(draws, depth - 1));
            }
            Value::Object(members)
        }
    }
}

/// Puts a document through everything that is done with one. Whether it was let in.
///
/// # Errors
/// What does not hold.
pub fn endures(text: &str, before: &Journal) -> Result<bool, &'static str> {
    let parsed: Option<Value> = serde_json::from_str(text).ok();
    if parsed.is_some_and(|parsed| holds_long_number(&parsed)) {
        return Ok(false);
    }
    let Ok(opened) = format::open(text) else {
        return Ok(false);
    };
    let journal = opened.journal;
    let written = format::text(&journal);
    let again = format::open(&written).map_err(|_| "what was let in is not let in again")?;
    if again.journal != journal {
        return Err("a journal does not come back as it was written");
    }
    let present = fold(&journal);
    let placed = present.record.all().count();
    let added = journal
        .entries()
        .filter(|entry| matches!(entry.act, Act::Add { .. }));
    if placed != added.count() {
        return Err("a thing is lost, or made of nothing");
    }
    let mut merged = before.clone();
    merged.merge(&journal);
    let mut other_way = journal.clone();
    other_way.merge(before);
    if merged != other_way {
        return Err("merging depends on the order");
    }
    let told = preview(before, &fold(before), &journal);
    if told.merged != merged || told.present != fold(&merged) {
        return Err("the preview tells something else than the merge does");
    }
    let mut pieces = Journal::default();
    for (part, entries) in parts(&journal) {
        let piece = format::part_text(&journal, &part, entries);
        let piece = format::open(&piece).map_err(|_| "a part is not let in again")?;
        pieces.merge(&piece.journal);
    }
    if pieces != journal {
        return Err("the parts do not make up the whole");
    }
    let _ = all_problems(&present.record);
    for thing in present.record.all() {
        let _ = history(&journal, &present, thing.id);
    }
    for kind in all() {
        let _ = csv::table(&present.record, kind);
    }
    let wanted = Wanted {
        words: "we a".to_owned(),
        ..Wanted::default()
    };
    let _ = search::search(&present.record, &wanted, 10);
    Ok(true)
}

/// Whether a document holds a number that is neither whole nor short. No version writes one, and the
/// parser may round the last digit of it, so that it need not come back the same.
fn holds_long_number(value: &Value) -> bool {
    /// Digits and powers of ten up to which a number is read exactly.
    const LONGEST: usize = 15;
    const FARTHEST: i32 = 22;
    match value {
        Value::Number(number) if number.is_f64() => {
            let text = number.as_f64().map(|number| format!("{number:e}"));
            let text = text.unwrap_or_default();
            let (digits, power) = text.split_once('e').unwrap_or((&text, "0"));
            let power: i32 = power.parse().unwrap_or(i32::MAX);
            digits.len() > LONGEST || power.saturating_abs() > FARTHEST - LONGEST as i32
        }
        Value::Array(items) => items.iter().any(holds_long_number),
        Value::Object(members) => members.values().any(holds_long_number),
        _ => false,
    }
}
