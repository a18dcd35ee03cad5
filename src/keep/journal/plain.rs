//! Reads what this program has written itself straight from the text, without a tree of values in
//! between: that tree is most of the time that ten seasons take.
//!
//! This is the door's quick wing, and lets in nothing that the door itself would read otherwise. An
//! entry that is anything but a thing added in the plainest form goes through the door by itself; a
//! document of any other shape goes through it whole.

use std::sync::Arc;

use super::entry::{Act, Entry};
use super::format::{DEEPEST, Opened, SCHEMA};
use crate::nursery::thing::kind_key;
use crate::nursery::{Id, Texts};

/// Levels of a document above its entries.
const ABOVE: usize = 2;

/// The whole of a text; none where it is not as this version writes it.
pub fn open_plain(text: &str) -> Option<Opened> {
    let mut text = Plain(text);
    let mut opened = Opened::default();
    text.skip("{\"longtom\":\"record\",\"schema\":")?;
    text.skip(&SCHEMA.to_string())?;
    text.part()?;
    text.skip(",\"entries\":[\n")?;
    let mut pairs = Vec::new();
    for place in 0.. {
        let mut ahead = Plain(text.0);
        match ahead.added(&mut pairs) {
            Some(entry) => {
                text = ahead;
                opened.take_entry(entry);
            }
            None => {
                let value = serde_json::from_str(text.value()?).ok()?;
                opened.take(place, value);
            }
        }
        if text.skip(",\n").is_none() {
            break;
        }
    }
    text.skip("\n]")?;
    text.part()?;
    (text.0 == "}").then_some(opened)
}

/// The rest of a text.
struct Plain<'a>(&'a str);

impl<'a> Plain<'a> {
    /// Goes past what must stand here.
    fn skip(&mut self, expected: &str) -> Option<()> {
        self.0 = self.0.strip_prefix(expected)?;
        Some(())
    }

    /// Goes past the name of the part, if it stands here.
    fn part(&mut self) -> Option<()> {
        if self.skip(",\"part\":").is_some() {
            self.string()?;
        }
        Some(())
    }

    /// Goes past the next bytes that are let through. Those that are not must be of ASCII.
    fn span(&mut self, through: impl Fn(u8) -> bool) -> Option<&'a str> {
        let end = self.0.bytes().position(|byte| !through(byte))?;
        let (span, rest) = self.0.split_at_checked(end)?;
        self.0 = rest;
        Some(span)
    }

    /// A string in which nothing is written out.
    fn string(&mut self) -> Option<&'a str> {
        self.skip("\"")?;
        let words = self.span(|byte| byte >= b' ' && byte != b'"' && byte != b'\\')?;
        self.skip("\"")?;
        Some(words)
    }

    /// An entry that adds a thing.
    fn added(&mut self, pairs: &mut Vec<(&'a str, &'a str)>) -> Option<Entry> {
        self.skip("{\"id\":")?;
        let id = Id::read(self.string()?)?;
        self.skip(",\"at\":")?;
        let at = self.span(|byte| byte.is_ascii_digit())?;
        if at.len() > 1 && at.starts_with('0') {
            return None;
        }
        let at = at.parse().ok()?;
        self.skip(",\"add\":")?;
        let kind = kind_key(self.string()?);
        self.skip(",\"set\":{")?;
        pairs.clear();
        if self.skip("}").is_none() {
            loop {
                let path = self.string()?;
                self.skip(":")?;
                pairs.push((path, self.string()?));
                if self.skip(",").is_none() {
                    break;
                }
            }
            self.skip("}")?;
        }
        self.skip("}")?;
        let texts = Arc::new(Texts::of_pairs(pairs));
        Some(Entry {
            id,
            at,
            act: Act::Add { kind, texts },
            extra: None,
        })
    }

    /// Goes past an object that is no deeper than a document may be, by its brackets alone: whether
    /// it is one indeed is for the door to say.
    fn value(&mut self) -> Option<&'a str> {
        let (mut depth, mut quoted, mut escaped) = (0usize, false, false);
        let end = self.0.bytes().position(|byte| {
            match byte {
                _ if escaped => escaped = false,
                b'\\' if quoted => escaped = true,
                b'"' => quoted = !quoted,
                b'[' | b'{' if !quoted => depth += 1,
                b']' | b'}' if !quoted => depth = depth.saturating_sub(1),
                _ => {}
            }
            depth == 0 || depth + ABOVE > DEEPEST
        })?;
        let (value, rest) = self.0.split_at_checked(end + 1)?;
        self.0 = rest;
        (depth == 0).then_some(value)
    }
}
