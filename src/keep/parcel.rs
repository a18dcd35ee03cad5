//! Everything stored, as one text to download: for the settings page, and for the page that is
//! shown when the program has stopped.
//!
//! ```json
//! {"longtom": "parcel", "schema": 1, "packed": "2031-04-02",
//!  "stored": {"longtom.settings.a": "the text, exactly as stored"},
//!  "not_read": {"longtom.question.mix.a": "why it could not be read"}}
//! ```

use serde_json::{Map, Value};

use super::json::text_of;
use super::keys::PREFIX;
use super::shelf::{Shelf, ShelfProblem};
use super::words;

/// The shape of a parcel.
pub const SCHEMA: u32 = 1;

/// Packs everything on a shelf. `packed` is the day, as the caller would write it. A text that
/// cannot be read does not keep the others from being packed.
///
/// # Errors
/// A [`ShelfProblem`] if the shelf cannot even say what is on it.
pub async fn pack<S: Shelf>(shelf: &S, packed: &str) -> Result<String, ShelfProblem> {
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
    Ok(text_of(&Value::Object(parcel)))
}
