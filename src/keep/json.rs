//! A JSON value as text.
//!
//! `serde_json` writes one too, with ten thousand bytes of tables for turning any number into
//! digits at top speed; documents hold hardly any numbers, so the standard library's way does.

use serde_json::Value;

/// The value as JSON text, without spaces.
#[must_use]
pub fn text_of(value: &Value) -> String {
    let mut text = String::new();
    write(value, &mut text);
    text
}

/// The value as JSON text at the end of another.
pub(crate) fn write(value: &Value, text: &mut String) {
    match value {
        Value::Null => text.push_str("null"),
        Value::Bool(yes) => text.push_str(if *yes { "true" } else { "false" }),
        Value::Number(number) => text.push_str(&digits(number)),
        Value::String(words) => write_string(words, text),
        Value::Array(items) => {
            text.push('[');
            for (place, item) in items.iter().enumerate() {
                if place > 0 {
                    text.push(',');
                }
                write(item, text);
            }
            text.push(']');
        }
        Value::Object(fields) => {
            text.push('{');
            for (place, (name, field)) in fields.iter().enumerate() {
                if place > 0 {
                    text.push(',');
                }
                write_string(name, text);
                text.push(':');
                write(field, text);
            }
            text.push('}');
        }
    }
}

/// Whole numbers as such; others with a power of ten, so that they are read as such again.
fn digits(number: &serde_json::Number) -> String {
    if let Some(whole) = number.as_u64() {
        whole.to_string()
    } else if let Some(whole) = number.as_i64() {
        whole.to_string()
    } else {
        // A value in memory is finite: JSON has no other numbers.
        number
            .as_f64()
            .map_or_else(|| "null".to_owned(), |value| format!("{value:e}"))
    }
}

/// In quotation marks, with what JSON does not allow bare written out (RFC 8259, section 7).
pub(crate) fn write_string(words: &str, text: &mut String) {
    const HEX: &[u8; 16] = b"0123456789abcdef";
    text.push('"');
    for letter in words.chars() {
        match letter {
            '"' => text.push_str("\\\""),
            '\\' => text.push_str("\\\\"),
            '\n' => text.push_str("\\n"),
            '\r' => text.push_str("\\r"),
            '\t' => text.push_str("\\t"),
            control if control < ' ' => {
                let code = control as usize;
                text.push_str("\\u00");
                text.push(char::from(HEX[code >> 4]));
                text.push(char::from(HEX[code & 15]));
            }
            _ => text.push(letter),
        }
    }
    text.push('"');
}
