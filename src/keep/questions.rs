//! The last question of each page, so that a page opens as it was left.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

use super::document::{Document, Unreadable, Unwritable, take_field};
use super::json::text_of;
use super::keys::Kind;

/// The last question of one page; the document's name is the page's.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LastQuestion<T> {
    /// The address that opens the page with this question.
    pub address: String,
    /// The question, as it was typed.
    pub question: T,
}

const ADDRESS: &str = "address";
const QUESTION: &str = "question";

impl<T: Serialize + DeserializeOwned + Default> Document for LastQuestion<T> {
    const KIND: Kind = Kind::Question;
    const SCHEMA: u32 = 1;

    fn migrate(_schema: u32, _body: Value) -> Result<Value, Unreadable> {
        // There was no schema before the first.
        Err(Unreadable)
    }

    fn repair(body: Value, reset: &mut Vec<String>) -> Result<Self, Unreadable> {
        let Value::Object(mut fields) = body else {
            return Err(Unreadable);
        };
        let mut last = LastQuestion::default();
        take_field(&mut fields, ADDRESS, &mut last.address, reset);
        if let Some(question) = fields.remove(QUESTION) {
            last.question = overlay(question, reset);
        }
        Ok(last)
    }

    fn body(&self) -> Result<String, Unwritable> {
        let mut fields = Map::new();
        fields.insert(ADDRESS.to_owned(), Value::from(self.address.as_str()));
        let question = serde_json::to_value(&self.question).map_err(|_| Unwritable)?;
        fields.insert(QUESTION.to_owned(), question);
        Ok(text_of(&Value::Object(fields)))
    }
}

/// Reads a question; if it does not read as a whole, lays its fields one by one over a question as
/// a page opens with it, and keeps those that read.
fn overlay<T: Serialize + DeserializeOwned + Default>(stored: Value, reset: &mut Vec<String>) -> T {
    let mut question = T::default();
    let usual = serde_json::to_value(&question).unwrap_or_default();
    // A list would be read as fields without names, in order: nothing of ours writes that.
    if stored.is_object() == usual.is_object()
        && let Ok(question) = serde_json::from_value(stored.clone())
    {
        return question;
    }
    let (Value::Object(fields), Value::Object(_)) = (stored, usual) else {
        reset.push(QUESTION.to_owned());
        return question;
    };
    for (name, value) in fields {
        let mut candidate = serde_json::to_value(&question).unwrap_or_default();
        if let Value::Object(map) = &mut candidate {
            map.insert(name.clone(), value);
        }
        match serde_json::from_value(candidate) {
            Ok(understood) => question = understood,
            Err(_) => reset.push(name),
        }
    }
    question
}
