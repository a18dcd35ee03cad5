//! The one door: a journal as JSON, and back, whether it comes from storage, from a file or to be
//! merged.
//!
//! ```json
//! {"longtom":"record","schema":1,"part":"2026-05","entries":[
//!   {"id":"k3fq.1.a2b4","at":29635660,"add":"house","set":{"name":"North"}}
//! ]}
//! ```
//!
//! * `longtom`: says what it is. `schema`: the shape it has.
//! * `part`: where the record is stored in pieces, which piece this is: `standing`, or a month. It
//!   only tells; every piece reads as a journal of its own, and merging the pieces gives the whole.
//! * `entries`: see [`super::entry`]. What stands here and is no entry is kept, told, and written
//!   again.
//! * `others`: further values of members that only a newer version understands, where two
//!   documents had different ones.
//!
//! All numbers are whole; whatever a person typed is a string. Longer or deeper texts than a record
//! can have are refused before they are read.

use serde_json::Value;

use super::entry::{Act, Entry};
use super::merge::{Journal, Put};
use super::months::Part;
use super::words;
use crate::keep::document::{Unreadable, before_the_first};
use crate::keep::json::{text_of, write_string};
use crate::nursery::Id;

pub use super::plain::open_plain;

/// What the document says it is.
pub const NAME: &str = "record";
/// The shape that this version writes.
pub const SCHEMA: u32 = 1;
/// The longest text that is read, in bytes: several times what fifty seasons come to.
pub const MOST_BYTES: usize = 100_000_000;
/// The deepest nesting that is read. What this version writes has five levels.
pub const DEEPEST: usize = 40;

/// The deepest nesting of a member that only a newer version understands.
const DEEPEST_MEMBER: usize = DEEPEST - 10;

const LONGTOM: &str = "longtom";
const SCHEMA_NAME: &str = "schema";
const PART: &str = "part";
const ENTRIES: &str = "entries";
const OTHERS: &str = "others";

/// Why a text is not let in; its `Display` is the sentence. What is stored is not touched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// Longer than [`MOST_BYTES`].
    TooLong,
    /// Deeper than [`DEEPEST`].
    TooDeep,
    /// Not JSON, or cut off.
    NotJson,
    /// JSON, but not a record of this program.
    NotARecord,
    /// Written by a newer version.
    Newer,
    /// Of a shape that was never written.
    Unreadable,
}

impl std::fmt::Display for Refused {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(words::refused(*self))
    }
}

impl std::error::Error for Refused {}

/// What came through the door.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Opened {
    /// All entries, and what is kept beside them.
    pub journal: Journal,
    /// What is to be told of it.
    pub report: Report,
}

/// What is to be told of a document that was read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Report {
    /// Entries that were understood.
    pub understood: usize,
    /// What stands among the entries and is none, by its place from 0. It is kept.
    pub no_entries: Vec<usize>,
    /// Entries that hold something that is not understood, or are not understood at all. They are
    /// kept whole.
    pub in_part: Vec<Id>,
    /// Entries whose id another has too.
    pub renamed: Vec<Id>,
}

/// Reads a text.
///
/// # Errors
/// [`Refused`], where nothing is to be made of it.
pub fn open(text: &str) -> Result<Opened, Refused> {
    if text.len() > MOST_BYTES {
        return Err(Refused::TooLong);
    }
    if let Some(opened) = open_plain(text) {
        return Ok(opened);
    }
    open_any(text)
}

/// Reads a text of any shape, by way of a tree of values.
fn open_any(text: &str) -> Result<Opened, Refused> {
    if depth(text) > DEEPEST {
        return Err(Refused::TooDeep);
    }
    // Some programs put a mark of the byte order in front.
    let text = text.trim_start_matches('\u{feff}');
    read(serde_json::from_str(text).map_err(|_| Refused::NotJson)?)
}

/// Reads a document that is parsed already.
///
/// # Errors
/// [`Refused`], where nothing is to be made of it.
pub fn read(document: Value) -> Result<Opened, Refused> {
    let Value::Object(members) = document else {
        return Err(Refused::NotARecord);
    };
    if members.get(LONGTOM).and_then(Value::as_str) != Some(NAME) {
        return Err(Refused::NotARecord);
    }
    let schema = members.get(SCHEMA_NAME).and_then(Value::as_u64);
    let schema = schema.ok_or(Refused::NotARecord)?;
    if schema > u64::from(SCHEMA) {
        return Err(Refused::Newer);
    }
    let mut members = if schema < u64::from(SCHEMA) {
        before_the_first(schema, members).map_err(|Unreadable| Refused::Unreadable)?
    } else {
        members
    };
    let Some(Value::Array(entries)) = members.remove(ENTRIES) else {
        return Err(Refused::NotARecord);
    };
    let mut opened = Opened::default();
    for (place, value) in entries.into_iter().enumerate() {
        opened.take(place, value);
    }
    for name in [LONGTOM, SCHEMA_NAME, PART] {
        members.remove(name);
    }
    if let Some(others) = members.remove(OTHERS) {
        match others_of(&others) {
            Some(others) => {
                for (name, json) in others {
                    opened.journal.keep_member(name, json);
                }
            }
            // In a list it cannot be taken for an entry.
            None => {
                let json = text_of(&Value::from(vec![Value::from(OTHERS), others]));
                opened.journal.keep_unread(json);
            }
        }
    }
    for (name, value) in members {
        opened.journal.keep_member(name, text_of(&value));
    }
    // They may have to be written two levels deeper, and must still be read then.
    if opened
        .journal
        .members()
        .any(|(_, json)| depth(json) > DEEPEST_MEMBER)
    {
        return Err(Refused::TooDeep);
    }
    Ok(opened)
}

impl Opened {
    /// Takes what stands at a place among the entries.
    pub(super) fn take(&mut self, place: usize, value: Value) {
        match Entry::read(value) {
            Ok(entry) => self.take_entry(entry),
            Err(value) => {
                self.report.no_entries.push(place);
                self.journal.keep_unread(text_of(&value));
            }
        }
    }

    /// Takes an entry.
    pub(super) fn take_entry(&mut self, entry: Entry) {
        let id = entry.id;
        if entry.extra.is_some() || entry.act == Act::Other {
            self.report.in_part.push(id);
        } else {
            self.report.understood += 1;
        }
        if self.journal.put(entry) == Put::Renamed {
            self.report.renamed.push(id);
        }
    }
}

/// Pairs of name and value.
fn others_of(others: &Value) -> Option<Vec<(String, String)>> {
    let pair = |pair: &Value| match pair.as_array()?.as_slice() {
        [Value::String(name), value] => Some((name.clone(), text_of(value))),
        _ => None,
    };
    others.as_array()?.iter().map(pair).collect()
}

/// A whole journal as a document.
#[must_use]
pub fn text(journal: &Journal) -> String {
    let mut out = Out::begin(None);
    for entry in journal.entries() {
        out.next();
        entry.write(&mut out.text);
    }
    out.end(journal)
}

/// Part of a journal as a document. What is kept unread goes with the standing part.
#[must_use]
pub fn part_text<'a>(
    journal: &Journal,
    part: &Part,
    entries: impl IntoIterator<Item = &'a Entry>,
) -> String {
    let mut out = Out::begin(Some(part));
    for entry in entries {
        out.next();
        entry.write(&mut out.text);
    }
    match part {
        Part::Standing => out.end(journal),
        Part::Month(_) => out.end(&Journal::default()),
    }
}

/// A document being written.
struct Out {
    text: String,
    begun: bool,
}

impl Out {
    fn begin(part: Option<&Part>) -> Self {
        let mut text = ["{\"longtom\":\"record\",\"schema\":", &SCHEMA.to_string()].concat();
        if let Some(part) = part {
            text.push_str(",\"part\":");
            write_string(part.name(), &mut text);
        }
        text.push_str(",\"entries\":[");
        Self { text, begun: false }
    }

    /// A line of its own for each entry, so that a person can read it.
    fn next(&mut self) {
        self.text.push_str(if self.begun { ",\n" } else { "\n" });
        self.begun = true;
    }

    /// With what is kept beside the entries.
    fn end(mut self, journal: &Journal) -> String {
        for json in journal.unread() {
            self.next();
            self.text.push_str(json);
        }
        self.text.push_str("\n]");
        let mut before = None;
        let mut others = Vec::new();
        for (name, json) in journal.members() {
            if before == Some(name) {
                others.push((name, json));
            } else {
                self.text.push(',');
                write_string(name, &mut self.text);
                self.text.push(':');
                self.text.push_str(json);
            }
            before = Some(name);
        }
        if !others.is_empty() {
            self.text.push_str(",\"others\":[");
            for (place, (name, json)) in others.iter().enumerate() {
                self.text.push_str(if place > 0 { ",[" } else { "[" });
                write_string(name, &mut self.text);
                self.text.push(',');
                self.text.push_str(json);
                self.text.push(']');
            }
            self.text.push(']');
        }
        self.text.push('}');
        self.text
    }
}

/// How deep the brackets of a text go, told without parsing it.
fn depth(text: &str) -> usize {
    let (mut depth, mut deepest) = (0usize, 0);
    let (mut quoted, mut escaped) = (false, false);
    for byte in text.bytes() {
        match byte {
            _ if escaped => escaped = false,
            b'\\' if quoted => escaped = true,
            b'"' => quoted = !quoted,
            b'[' | b'{' if !quoted => {
                depth += 1;
                deepest = deepest.max(depth);
            }
            b']' | b'}' if !quoted => depth = depth.saturating_sub(1),
            _ => {}
        }
    }
    deepest
}
