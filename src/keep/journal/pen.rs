//! Writing new entries: each says which earlier ones its writer knew.

use std::sync::Arc;

use super::entry::{Act, Change, Entry};
use super::fold::Present;
use super::merge::Journal;
use crate::nursery::thing::kind_key;
use crate::nursery::{Id, Mark, Texts};

/// Whoever writes: a device, at a minute of its clock, before a journal and what it comes to.
#[derive(Clone, Copy, Debug)]
pub struct Pen<'a> {
    /// The journal.
    pub journal: &'a Journal,
    /// What it comes to.
    pub present: &'a Present,
    /// The device.
    pub mark: Mark,
    /// Minutes since 1 January 1970, 00:00, by the device's clock.
    pub at: u32,
}

impl Pen<'_> {
    fn entry(&self, act: Act) -> Entry {
        Entry::new(self.mark, self.journal.next_number(), self.at, act)
    }

    /// Adds a thing of a kind. Its id is the entry's.
    #[must_use]
    pub fn add(&self, kind: &str, texts: Texts) -> Entry {
        self.entry(Act::Add {
            kind: kind_key(kind),
            texts: Arc::new(texts),
        })
    }

    /// Changes fields of a thing to these texts. Where a field has a clash, this settles it. None
    /// where nothing would change.
    #[must_use]
    pub fn change(&self, thing: Id, texts: &[(&str, &str)]) -> Option<Entry> {
        let now = self.present.record.get(thing)?;
        let clashes = self.present.clashes.get(&thing);
        let clashing = |field: &str| {
            clashes.is_some_and(|clashes| clashes.iter().any(|clash| clash.field == field))
        };
        let fields: Vec<Change> = texts
            .iter()
            .filter(|(field, text)| now.text(field) != *text || clashing(field))
            .map(|(field, text)| Change {
                field: (*field).into(),
                text: (*text).into(),
                over: self.present.heads(self.journal, thing, field),
            })
            .collect();
        (!fields.is_empty()).then(|| self.entry(Act::Change { of: thing, fields }))
    }

    /// Takes a thing out of the present.
    #[must_use]
    pub fn withdraw(&self, thing: Id) -> Entry {
        self.entry(Act::Withdraw {
            of: thing,
            over: self.present.knows(self.journal, thing),
        })
    }

    /// Brings a thing back, or settles that it stays.
    #[must_use]
    pub fn restore(&self, thing: Id) -> Entry {
        self.entry(Act::Restore {
            of: thing,
            over: self.present.knows(self.journal, thing),
        })
    }

    /// Makes an entry count no more; where that entry is itself an undo, makes count again what it
    /// undid. None where there is no such entry, or only a newer version understands it.
    #[must_use]
    pub fn undo(&self, entry: Id) -> Option<Entry> {
        let of = self.journal.get(entry)?.thing()?;
        Some(self.entry(Act::Undo { of, entry }))
    }

    /// Makes many entries count no more, such as all that a file has brought. Undone in the same way,
    /// all of them count again. Those that only a newer version understands are left as they are.
    #[must_use]
    pub fn undo_all(&self, entries: &[Id]) -> Vec<Entry> {
        let mut number = self.journal.next_number();
        let mut undone = Vec::with_capacity(entries.len());
        for &entry in entries {
            if let Some(of) = self.journal.get(entry).and_then(Entry::thing) {
                let act = Act::Undo { of, entry };
                undone.push(Entry::new(self.mark, number, self.at, act));
                number = number.saturating_add(1);
            }
        }
        undone
    }

    /// The piece that stands for a new row in the path of its fields. Two devices that add a row at
    /// the same time do not give it the same.
    #[must_use]
    pub fn new_row(&self) -> String {
        let number = self.journal.next_number().to_string();
        [number, self.mark.to_string()].concat()
    }
}
