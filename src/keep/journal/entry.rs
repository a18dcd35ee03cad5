//! One entry of the journal: what was done, on which device, and when by its clock.
//!
//! ```json
//! {"id":"k3fq.1.a2b4","at":29635660,"add":"house","set":{"name":"North"}}
//! {"id":"k3fq.2.7cde","at":29635661,"of":"k3fq.1.a2b4","set":{"name":"Old North"}}
//! {"id":"k3fq.3.9xyz","at":29635662,"of":"k3fq.1.a2b4","set":{"name":"North"},
//!  "over":{"name":["k3fq.2.7cde"]}}
//! {"id":"k3fq.4.0abc","at":29635663,"of":"k3fq.1.a2b4","withdraw":["k3fq.3.9xyz"]}
//! {"id":"k3fq.5.4def","at":29635664,"of":"k3fq.1.a2b4","restore":["k3fq.4.0abc"]}
//! {"id":"k3fq.6.5fgh","at":29635665,"of":"k3fq.1.a2b4","undo":"k3fq.3.9xyz"}
//! ```
//!
//! * `id`: the entry's name, and the name of the thing that it adds; see [`crate::nursery::id`].
//! * `at`: minutes since 1 January 1970, 00:00, as the device's clock showed them. Told, never
//!   used to decide anything: clocks are wrong.
//! * `add`: adds a thing of this kind. `of`: about the thing of this id.
//! * `set`: texts by the path of their field; an empty one empties the field.
//! * `over`: by the path, which earlier changes of that field the device knew, so that changes made
//!   on two devices without knowing of each other are recognised. That the thing was added it knew
//!   anyway.
//! * `withdraw`, `restore`: takes a thing out of the present, or brings it back; with the changes
//!   that the device knew.
//! * `undo`: that entry counts no more. Undoing an undo makes it count again.
//!
//! Whatever else an entry holds comes from a newer version and is passed on.

use std::borrow::Cow;
use std::sync::Arc;

use serde_json::{Map, Value};

use crate::keep::checksum::crc32;
use crate::keep::json::{write, write_string};
use crate::nursery::thing::kind_key;
use crate::nursery::{Id, Mark, Texts};

/// One entry. It is never changed; what it says is corrected by further ones.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its name.
    pub id: Id,
    /// Minutes since 1 January 1970, 00:00, by the device's clock.
    pub at: u32,
    /// What was done.
    pub act: Act,
    /// Members that are not understood, or not in full: they are written as they were read.
    pub extra: Option<Box<Map<String, Value>>>,
}

/// What was done.
#[derive(Clone, Debug, PartialEq)]
pub enum Act {
    /// A thing was added, under the entry's id.
    Add {
        /// Key of its kind.
        kind: Cow<'static, str>,
        /// What was typed.
        texts: Arc<Texts>,
    },
    /// Fields of a thing were changed.
    Change {
        /// The thing.
        of: Id,
        /// The fields, by their path.
        fields: Vec<Change>,
    },
    /// A thing was taken out of the present.
    Withdraw {
        /// The thing.
        of: Id,
        /// The latest changes that were known.
        over: Vec<Id>,
    },
    /// A thing was brought back.
    Restore {
        /// The thing.
        of: Id,
        /// The withdrawals that were known.
        over: Vec<Id>,
    },
    /// An entry was made to count no more.
    Undo {
        /// The thing that it is about.
        of: Id,
        /// The entry.
        entry: Id,
    },
    /// Something that only a newer version understands.
    Other,
}

/// The change of one field.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The path of the field.
    pub field: Box<str>,
    /// What it holds now; may be empty.
    pub text: Box<str>,
    /// The changes that this one replaces.
    pub over: Vec<Id>,
}

const ID: &str = "id";
const AT: &str = "at";
const ADD: &str = "add";
const OF: &str = "of";
const SET: &str = "set";
const OVER: &str = "over";
const WITHDRAW: &str = "withdraw";
const RESTORE: &str = "restore";
const UNDO: &str = "undo";

/// Bits of the checksum in the id of an ordinary entry: enough to part the entries of two devices
/// that carry the same mark.
const SALT: u32 = (1 << 20) - 1;
/// Bits in the id of an entry that is made out of a file, of which one day may hold very many.
const FILE_SALT: u32 = (1 << 30) - 1;
/// The bit in the id of an entry that had to take another name.
const RENAMED: u32 = 1 << 31;
/// The mark of entries made out of a file.
const FILE_MARK: &str = "file";

impl Entry {
    /// A new entry of a device. The number comes from
    /// [`Journal::next_number`](super::Journal::next_number).
    #[must_use]
    pub fn new(mark: Mark, number: u32, at: u32, act: Act) -> Self {
        let id = Id {
            number,
            mark,
            salt: 0,
        };
        let mut entry = Self {
            id,
            at,
            act,
            extra: None,
        };
        entry.id.salt = entry.check() & SALT;
        entry
    }

    /// A thing added out of a file. The same reading gives the same entry, whenever and wherever
    /// the file is read, so that it is never there twice. None where files have no mark.
    #[must_use]
    pub fn from_file(number: u32, at: u32, kind: &str, texts: Texts) -> Option<Self> {
        let act = Act::Add {
            kind: kind_key(kind),
            texts: Arc::new(texts),
        };
        let mut entry = Self::new(Mark::read(FILE_MARK)?, number, at, act);
        entry.id.salt = entry.check() & FILE_SALT;
        Some(entry)
    }

    /// The same entry under a name that depends on all it says, for when another has its name.
    pub(super) fn renamed(&self) -> Self {
        let mut entry = self.clone();
        entry.id.salt = entry.check() | RENAMED;
        entry
    }

    /// Whether it had to take another name because two devices carry the same mark.
    #[must_use]
    pub const fn is_renamed(&self) -> bool {
        self.id.salt & RENAMED != 0
    }

    /// The thing that it is about; none where only a newer version knows.
    #[must_use]
    pub const fn thing(&self) -> Option<Id> {
        match &self.act {
            Act::Add { .. } => Some(self.id),
            Act::Change { of, .. }
            | Act::Withdraw { of, .. }
            | Act::Restore { of, .. }
            | Act::Undo { of, .. } => Some(*of),
            Act::Other => None,
        }
    }

    /// The checksum of everything but its name.
    fn check(&self) -> u32 {
        let mut text = String::new();
        self.write_body(&mut text);
        crc32(text.as_bytes())
    }

    /// Its JSON, at the end of a text.
    pub fn write(&self, text: &mut String) {
        text.push_str("{\"id\":\"");
        self.id.push(text);
        text.push('"');
        self.write_body(text);
        text.push('}');
    }

    /// Its JSON.
    #[must_use]
    pub fn text(&self) -> String {
        let mut text = String::new();
        self.write(&mut text);
        text
    }

    /// All members but the id, each with a comma before it.
    fn write_body(&self, text: &mut String) {
        let kept = |name: &str| {
            let extra = self.extra.as_ref();
            extra.is_some_and(|extra| extra.contains_key(name))
        };
        if !kept(AT) {
            member(text, AT);
            text.push_str(&self.at.to_string());
        }
        match &self.act {
            Act::Add { kind, .. } => {
                member(text, ADD);
                write_string(kind, text);
            }
            Act::Change { of, .. }
            | Act::Withdraw { of, .. }
            | Act::Restore { of, .. }
            | Act::Undo { of, .. } => {
                member(text, OF);
                write_id(*of, text);
            }
            Act::Other => {}
        }
        match &self.act {
            Act::Add { texts, .. } if !kept(SET) => {
                write_object(text, SET, texts.iter(), |value, text| {
                    write_string(value, text)
                });
            }
            Act::Change { fields, .. } => {
                if !kept(SET) {
                    let pairs = fields.iter().map(|change| (&*change.field, &*change.text));
                    write_object(text, SET, pairs, write_string);
                }
                let over = || fields.iter().filter(|change| !change.over.is_empty());
                if !kept(OVER) && over().next().is_some() {
                    let pairs = over().map(|change| (&*change.field, &*change.over));
                    write_object(text, OVER, pairs, write_ids);
                }
            }
            Act::Withdraw { over, .. } if !kept(WITHDRAW) => {
                member(text, WITHDRAW);
                write_ids(over, text);
            }
            Act::Restore { over, .. } if !kept(RESTORE) => {
                member(text, RESTORE);
                write_ids(over, text);
            }
            Act::Undo { entry, .. } => {
                member(text, UNDO);
                write_id(*entry, text);
            }
            _ => {}
        }
        for (name, value) in self.extra.iter().flat_map(|extra| extra.iter()) {
            member(text, name);
            write(value, text);
        }
    }

    /// Reads one entry. What it does not understand it keeps.
    ///
    /// # Errors
    /// The value itself, where it is no entry at all: it has no id.
    pub fn read(value: Value) -> Result<Self, Value> {
        let Value::Object(mut members) = value else {
            return Err(value);
        };
        let Some(id) = members.get(ID).and_then(id_of) else {
            return Err(Value::Object(members));
        };
        members.remove(ID);
        let whole = |value: &Value| value.as_u64().and_then(|at| u32::try_from(at).ok());
        let at = members.get(AT).and_then(whole);
        if at.is_some() {
            members.remove(AT);
        }
        let act = read_act(&mut members).unwrap_or(Act::Other);
        Ok(Self {
            id,
            at: at.unwrap_or(0),
            act,
            extra: (!members.is_empty()).then(|| Box::new(members)),
        })
    }
}

/// Takes the members that say what was done. Those that hold more than is understood stay.
fn read_act(members: &mut Map<String, Value>) -> Option<Act> {
    if let Some(Value::String(kind)) = members.get(ADD) {
        let kind = kind_key(kind);
        let set = members.get(SET);
        if set.is_some_and(|set| !set.is_object()) {
            return None;
        }
        members.remove(ADD);
        let texts = match take_understood(members, SET, |value| value.is_string()) {
            Some(set) => Texts::of(texts_of(&set)),
            None => Texts::default(),
        };
        return Some(Act::Add {
            kind,
            texts: Arc::new(texts),
        });
    }
    let of = members.get(OF).and_then(id_of)?;
    let act = if let Some(entry) = members.get(UNDO).and_then(id_of) {
        members.remove(UNDO);
        Act::Undo { of, entry }
    } else if let Some(over) = take_ids(members, WITHDRAW) {
        Act::Withdraw { of, over }
    } else if let Some(over) = take_ids(members, RESTORE) {
        Act::Restore { of, over }
    } else {
        let set = take_understood(members, SET, Value::is_string)?;
        let all_ids = |ids: &Value| ids.as_array().is_some_and(|ids| ids.iter().all(is_id));
        let over = take_understood(members, OVER, all_ids);
        let field = |(field, text): (&str, &str)| Change {
            field: field.into(),
            text: text.into(),
            over: over
                .as_ref()
                .and_then(|over| over.get(field)?.as_array())
                .map(|ids| ids.iter().filter_map(id_of).collect())
                .unwrap_or_default(),
        };
        Act::Change {
            of,
            fields: texts_of(&set).map(field).collect(),
        }
    };
    members.remove(OF);
    Some(act)
}

/// The texts of an object, by name.
fn texts_of(set: &Map<String, Value>) -> impl Iterator<Item = (&str, &str)> {
    set.iter()
        .filter_map(|(name, value)| Some((name.as_str(), value.as_str()?)))
}

/// The object of a name; a copy stays among the members if it holds more than is understood.
fn take_understood(
    members: &mut Map<String, Value>,
    name: &str,
    understood: impl Fn(&Value) -> bool,
) -> Option<Map<String, Value>> {
    let object = members.get(name)?.as_object()?;
    if !object.values().all(understood) {
        return Some(object.clone());
    }
    match members.remove(name) {
        Some(Value::Object(object)) => Some(object),
        _ => None,
    }
}

/// The ids of a list; the list stays among the members if it holds more.
fn take_ids(members: &mut Map<String, Value>, name: &str) -> Option<Vec<Id>> {
    let list = members.get(name)?.as_array()?;
    let ids: Vec<Id> = list.iter().filter_map(id_of).collect();
    if ids.len() == list.len() {
        members.remove(name);
    }
    Some(ids)
}

fn id_of(value: &Value) -> Option<Id> {
    Id::read(value.as_str()?)
}

fn is_id(value: &Value) -> bool {
    id_of(value).is_some()
}

fn member(text: &mut String, name: &str) {
    text.push(',');
    write_string(name, text);
    text.push(':');
}

fn write_id(id: Id, text: &mut String) {
    text.push('"');
    id.push(text);
    text.push('"');
}

fn write_ids(ids: &[Id], text: &mut String) {
    text.push('[');
    for (place, id) in ids.iter().enumerate() {
        if place > 0 {
            text.push(',');
        }
        write_id(*id, text);
    }
    text.push(']');
}

fn write_object<'a, T: ?Sized + 'a>(
    text: &mut String,
    name: &str,
    pairs: impl Iterator<Item = (&'a str, &'a T)>,
    mut value: impl FnMut(&T, &mut String),
) {
    member(text, name);
    text.push('{');
    for (place, (name, item)) in pairs.enumerate() {
        if place > 0 {
            text.push(',');
        }
        write_string(name, text);
        text.push(':');
        value(item, text);
    }
    text.push('}');
}
