//! Everything stored, as one text to download: for the settings page, and for the page that is
//! shown when the program has stopped.
//!
//! ```json
//! {"longtom": "parcel", "schema": 1, "packed": "2031-04-02",
//!  "stored": {"longtom.settings.a": "the text, exactly as stored"},
//!  "closed": {"2031-03": "the text of a closed month, exactly as stored",
//!             "aside.1932768000000.2031-02": {"packed": true, "bytes": "q1YqLk=="}},
//!  "not_read": {"longtom.question.mix.a": "why it could not be read"}}
//! ```
//!
//! Where no text can be made of a closed month, its bytes are given in base 64; `packed` says that
//! they were once packed with raw deflate (RFC 1951).

use serde_json::{Map, Value};

use super::cabinet::KeepProblem;
use super::json::text_of;
use super::keys::PREFIX;
use super::shelf::{Shelf, ShelfProblem};
use super::words;

/// The shape of a parcel.
pub const SCHEMA: u32 = 1;

/// The member with what is in the archive.
const CLOSED: &str = "closed";

/// Packs everything on a shelf, and all that is in the archive, given as JSON. `packed` is the day, as the
/// caller would write it. What cannot be read does not keep the rest from being packed.
///
/// # Errors
/// A [`ShelfProblem`] if the shelf cannot even say what is on it.
pub async fn pack<S: Shelf>(
    shelf: &S,
    closed: Result<String, KeepProblem>,
    packed: &str,
) -> Result<String, ShelfProblem> {
    let mut stored = Map::new();
    let mut not_read = Map::new();
    for key in shelf.keys().await? {
        if !key.starts_with(PREFIX) {
            continue;
        }
        match shelf.read(&key).await {
            Ok(Some(text)) => {
                stored.insert(key, Value::from(text));
            }
            // Taken away by another tab since the keys were listed.
            Ok(None) => {}
            Err(problem) => {
                not_read.insert(key, Value::from(words::shelf_problem(&problem)));
            }
        }
    }
    let closed = closed.unwrap_or_else(|problem| {
        not_read.insert(CLOSED.to_owned(), Value::from(problem.to_string()));
        "{}".to_owned()
    });
    let mut parcel = Map::new();
    for (name, value) in [
        ("longtom", Value::from("parcel")),
        ("schema", Value::from(SCHEMA)),
        ("packed", Value::from(packed)),
        ("stored", Value::Object(stored)),
        ("not_read", Value::Object(not_read)),
    ] {
        parcel.insert(name.to_owned(), value);
    }
    // The archive's part may be long, and is JSON already.
    let mut text = text_of(&Value::Object(parcel));
    text.pop();
    Ok([&text, ",\"", CLOSED, "\":", &closed, "}"].concat())
}
