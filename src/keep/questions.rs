//! The last question of each page, so that a page opens as it was left.

use serde_json::{Map, Value};

use super::document::{Document, Unreadable, Unwritable};
use super::json::text_of;
use super::keys::Kind;
use crate::reckon::form::Texts;

/// The last question of one page; the document's name is the page's.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LastQuestion {
    /// The address that opens the page with this question.
    pub address: String,
    /// The question, as it was typed.
    pub question: Texts,
}

const ADDRESS: &str = "address";
const QUESTION: &str = "question";

impl Document for LastQuestion {
    const KIND: Kind = Kind::Question;
    const SCHEMA: u32 = 1;

    fn repair(body: Value, reset: &mut Vec<String>) -> Result<Self, Unreadable> {
        let Value::Object(mut fields) = body else {
            return Err(Unreadable);
        };
        let mut last = LastQuestion::default();
        match fields.remove(ADDRESS) {
            Some(Value::String(address)) => last.address = address,
            None => {}
            Some(_) => reset.push(ADDRESS.to_owned()),
        }
        match fields.remove(QUESTION) {
            Some(Value::Object(texts)) => {
                for (path, text) in texts {
                    match text {
                        Value::String(text) => last.question.push((path, text)),
                        _ => reset.push(path),
                    }
                }
            }
            None => {}
            Some(_) => reset.push(QUESTION.to_owned()),
        }
        Ok(last)
    }

    fn body(&self) -> Result<String, Unwritable> {
        let mut texts = Map::new();
        for (path, text) in &self.question {
            texts.insert(path.clone(), Value::from(text.as_str()));
        }
        let mut fields = Map::new();
        fields.insert(ADDRESS.to_owned(), Value::from(self.address.as_str()));
        fields.insert(QUESTION.to_owned(), Value::Object(texts));
        Ok(text_of(&Value::Object(fields)))
    }
}
