//! The text in which a document is stored.
//!
//! ```json
//! {"longtom":"question","name":"mix","schema":1,"turn":7,"body":{...},"check":"1c291ca3"}
//! ```
//!
//! * `longtom`: the kind of document, and the mark that it is one of ours.
//! * `name`: which of the kind; empty where there is only one.
//! * `schema`: which shape the body has. It goes up when an older program could no longer read it.
//! * `turn`: counts the saves of this document; of two copies the one with the higher turn is newer.
//! * `body`: the document.
//! * `check`: CRC-32 of every byte before `,"check":"`, as eight hexadecimal digits. It covers the
//!   turn and the schema too: a damaged turn would make an old copy look like the newest.
//!
//! `check` comes last and exactly so, so that a copy can be checked before it is parsed.

use serde_json::Value;

use super::checksum::crc32;
use super::json::text_of;
use super::keys::DocumentId;

/// Stands between what is checked and its check.
const CHECK: &str = ",\"check\":\"";
/// Ends the text.
const END: &str = "\"}";
/// Hexadecimal digits of a CRC-32.
const CHECK_DIGITS: usize = 8;

/// The highest turn that JSON carries exactly in every program that may read it (2^53 - 1,
/// RFC 8259 section 6).
pub const LAST_TURN: u64 = (1 << 53) - 1;

/// The parts of an envelope.
#[derive(Clone, Debug, PartialEq)]
pub struct Envelope {
    /// The kind of document.
    pub kind: String,
    /// Which of the kind.
    pub name: String,
    /// The shape of the body.
    pub schema: u32,
    /// The count of saves.
    pub turn: u64,
    /// The document.
    pub body: Value,
    /// The checksum the text carries, which it also has.
    pub check: u32,
}

/// Why a text is no envelope.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Damage {
    /// Longer than this kind of document may be.
    TooLong,
    /// Cut off, or not written by this program.
    NoCheck,
    /// Changed since it was written.
    CheckDiffers,
    /// Whole, but not readable as an envelope.
    NotReadable,
}

/// Puts a body, already written as JSON, into its envelope.
pub fn seal(document: &DocumentId, schema: u32, turn: u64, body: &str) -> String {
    let mut text = head(document, schema, turn) + body;
    let check = digits(crc32(text.as_bytes()));
    text.push_str(CHECK);
    text.push_str(&check);
    text.push_str(END);
    text
}

fn head(document: &DocumentId, schema: u32, turn: u64) -> String {
    let name = text_of(&Value::from(document.name.as_str()));
    [
        "{\"longtom\":\"",
        document.kind.key(),
        "\",\"name\":",
        &name,
        ",\"schema\":",
        &schema.to_string(),
        ",\"turn\":",
        &turn.to_string(),
        ",\"body\":",
    ]
    .concat()
}

/// The body, as text, of an envelope that is to the letter as [`seal`] makes it of the same, and
/// whole; none where [`open`] must say what it is. Whether the body is JSON is not looked at.
#[must_use]
pub fn sealed<'a>(text: &'a str, document: &DocumentId, schema: u32, turn: u64) -> Option<&'a str> {
    let (checked, _) = checked(text).ok()?;
    checked.strip_prefix(head(document, schema, turn).as_str())
}

/// What the checksum covers, if that agrees, and the checksum.
fn checked(text: &str) -> Result<(&str, u32), Damage> {
    let (checked, tail) = text.rsplit_once(CHECK).ok_or(Damage::NoCheck)?;
    let written = tail.strip_suffix(END).ok_or(Damage::NoCheck)?;
    let check = crc32(checked.as_bytes());
    if written == digits(check) {
        Ok((checked, check))
    } else {
        Err(Damage::CheckDiffers)
    }
}

/// Opens an envelope of at most `most_bytes`, checking it first.
///
/// # Errors
/// A [`Damage`] if the text is too long, cut off, changed, or no envelope.
pub fn open(text: &str, most_bytes: usize) -> Result<Envelope, Damage> {
    if text.len() > most_bytes {
        return Err(Damage::TooLong);
    }
    let (_, check) = checked(text)?;
    // The parser refuses more than 128 levels of nesting by itself.
    let whole: Value = serde_json::from_str(text).map_err(|_| Damage::NotReadable)?;
    parts(whole, check).ok_or(Damage::NotReadable)
}

fn parts(mut whole: Value, check: u32) -> Option<Envelope> {
    let text = |field: &str| Some(whole.get(field)?.as_str()?.to_owned());
    let (kind, name) = (text("longtom")?, text("name")?);
    let schema = u32::try_from(whole.get("schema")?.as_u64()?).ok()?;
    let turn = whole.get("turn")?.as_u64()?;
    let body = whole.get_mut("body")?.take();
    (turn <= LAST_TURN).then_some(Envelope {
        kind,
        name,
        schema,
        turn,
        body,
        check,
    })
}

fn digits(check: u32) -> String {
    let digits = format!("{check:x}");
    let zeros = "0".repeat(CHECK_DIGITS - digits.len());
    zeros + &digits
}
