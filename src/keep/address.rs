//! The address of a question: what stands behind `#/mix?` in a link or a bookmark.
//!
//! Fields are named, so that a link made today is read in ten years: `parts.0.material=coir_pith`.
//! Only texts are carried; whoever reads one checks it as if it had been typed. Empty fields are
//! left out, and a field that a question does not have is passed over.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

/// Longer than this, an address was not made here.
const MOST_BYTES: usize = 8_000;
/// No question is a longer list than this.
const MOST_ITEMS: usize = 64;
/// No question is nested deeper than this.
const MOST_DEPTH: usize = 6;

/// A question as an address. None if it holds anything but texts, lists and named fields.
#[must_use]
pub fn write<T: Serialize>(question: &T) -> Option<String> {
    let value = serde_json::to_value(question).ok()?;
    let mut pairs = Vec::new();
    flatten(&value, String::new(), &mut pairs)?;
    Some(pairs.join("&"))
}

fn flatten(value: &Value, path: String, pairs: &mut Vec<String>) -> Option<()> {
    let under = |name: &str| {
        if path.is_empty() {
            name.to_owned()
        } else {
            [&path, ".", name].concat()
        }
    };
    match value {
        Value::String(text) if text.is_empty() => {}
        Value::String(text) => pairs.push([escape(&path), "=".to_owned(), escape(text)].concat()),
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                flatten(item, under(&index.to_string()), pairs)?;
            }
        }
        Value::Object(fields) => {
            for (name, field) in fields {
                flatten(field, under(name), pairs)?;
            }
        }
        _ => return None,
    }
    Some(())
}

/// The question of an address, or nothing where it is none. Lists are as long as the address
/// makes them; other fields that it leaves out are as the page opens with them.
#[must_use]
pub fn read<T: Serialize + DeserializeOwned + Default>(address: &str) -> Option<T> {
    if address.is_empty() || address.len() > MOST_BYTES {
        return None;
    }
    let mut given = Value::Object(Map::new());
    for pair in address.split('&') {
        let (path, text) = pair.split_once('=')?;
        let path = unescape(path)?;
        let steps: Vec<&str> = path.split('.').collect();
        if steps.len() > MOST_DEPTH {
            return None;
        }
        place(&mut given, &steps, unescape(text)?)?;
    }
    let usual = serde_json::to_value(T::default()).ok()?;
    let (Some(fields), Some(known)) = (given.as_object(), usual.as_object()) else {
        return None;
    };
    if !fields.keys().any(|name| known.contains_key(name)) {
        return None;
    }
    serde_json::from_value(laid_over(usual, given)).ok()
}

/// Puts a text at a path, making lists and fields on the way.
fn place(value: &mut Value, steps: &[&str], text: String) -> Option<()> {
    let Some((step, rest)) = steps.split_first() else {
        *value = Value::String(text);
        return Some(());
    };
    if let Ok(index) = step.parse::<usize>() {
        if index >= MOST_ITEMS {
            return None;
        }
        if !value.is_array() {
            *value = Value::Array(Vec::new());
        }
        let Value::Array(items) = value else {
            return None;
        };
        while items.len() <= index {
            items.push(Value::Object(Map::new()));
        }
        place(items.get_mut(index)?, rest, text)
    } else {
        if !value.is_object() {
            *value = Value::Object(Map::new());
        }
        let Value::Object(fields) = value else {
            return None;
        };
        place(
            fields.entry(*step).or_insert(Value::Object(Map::new())),
            rest,
            text,
        )
    }
}

/// The usual question with the given fields over it; a given list takes the place of the usual one.
/// A text left out of an address that has its neighbours was empty.
fn laid_over(usual: Value, given: Value) -> Value {
    match (usual, given) {
        (Value::Object(usual), Value::Object(mut given)) => Value::Object(
            usual
                .into_iter()
                .map(|(name, usual)| {
                    let value = match (given.remove(&name), usual) {
                        (Some(given), usual) => laid_over(usual, given),
                        (None, Value::String(_)) => Value::String(String::new()),
                        (None, Value::Array(_)) => Value::Array(Vec::new()),
                        (None, usual) => usual,
                    };
                    (name, value)
                })
                .collect(),
        ),
        (_, given) => given,
    }
}

/// Every byte but letters, digits and `-._~` as `%XX` (RFC 3986, section 2.3).
fn escape(text: &str) -> String {
    const HEX: &[u8; 16] = b"0123456789ABCDEF";
    let mut escaped = String::with_capacity(text.len());
    for &byte in text.as_bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            escaped.push(char::from(byte));
        } else {
            escaped.push('%');
            escaped.push(char::from(HEX[usize::from(byte >> 4)]));
            escaped.push(char::from(HEX[usize::from(byte & 15)]));
        }
    }
    escaped
}

fn unescape(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let Some((&byte, after)) = rest.split_first() {
        if byte == b'%' {
            let digits = std::str::from_utf8(after.get(..2)?).ok()?;
            bytes.push(u8::from_str_radix(digits, 16).ok()?);
            rest = after.get(2..)?;
        } else {
            bytes.push(byte);
            rest = after;
        }
    }
    String::from_utf8(bytes).ok()
}
