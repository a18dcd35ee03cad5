//! What a document must be able to do.

use serde_json::{Map, Value};

use super::keys::Kind;

/// The body is of a shape that cannot be understood at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unreadable;

/// The document holds something that cannot be written down, such as a map without text for keys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unwritable;

/// Something that is kept.
pub trait Document: Sized + Default {
    /// What kind it is.
    const KIND: Kind;

    /// The shape of the body this version writes. It goes up when an older program could no longer
    /// read the body; a field more does not need that.
    const SCHEMA: u32;

    /// The longest text that is read or written, in bytes.
    const MOST_BYTES: usize = 1_000_000;

    /// Brings a body of an older schema to [`Self::SCHEMA`].
    ///
    /// # Errors
    /// [`Unreadable`] if that schema was never written or the body is not of its shape; the copy is
    /// then treated as damaged.
    fn migrate(schema: u32, body: Value) -> Result<Value, Unreadable> {
        before_the_first(schema.into(), body)
    }

    /// Reads a body field by field. A field that cannot be understood gets its usual value, and its
    /// name is added to `reset`; the others are kept.
    ///
    /// # Errors
    /// [`Unreadable`] if there are no fields at all; the copy is then treated as damaged.
    fn repair(body: Value, reset: &mut Vec<String>) -> Result<Self, Unreadable>;

    /// The body as JSON.
    ///
    /// # Errors
    /// [`Unwritable`] if it cannot be written as JSON.
    fn body(&self) -> Result<String, Unwritable>;
}

/// Brings up what claims to be older than the first schema: there was none.
///
/// # Errors
/// [`Unreadable`], always.
pub fn before_the_first<T>(_schema: u64, _body: T) -> Result<T, Unreadable> {
    Err(Unreadable)
}

/// Takes a choice out of a body into `target`; one that is not there leaves it as it is, one that
/// is not among the choices does too and is named in `reset`.
pub fn take_choice<T: Copy>(
    fields: &mut Map<String, Value>,
    name: &str,
    choices: &[(&str, T)],
    target: &mut T,
    reset: &mut Vec<String>,
) {
    let Some(value) = fields.remove(name) else {
        return;
    };
    let made = choices
        .iter()
        .find(|(key, _)| value.as_str() == Some(key))
        .map(|(_, choice)| *choice);
    match made {
        Some(choice) => *target = choice,
        None => reset.push(name.to_owned()),
    }
}

/// How a choice is stored.
pub fn key_of<T: PartialEq>(choices: &[(&'static str, T)], made: T) -> &'static str {
    choices
        .iter()
        .find(|(_, choice)| *choice == made)
        .map_or("", |(key, _)| key)
}
