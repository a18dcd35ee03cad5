//! The journal: all entries, and what is kept beside them unread. Two journals merge into one that
//! holds all of both, in whatever order and however often they are merged.

use std::collections::BTreeMap;
use std::sync::Arc;

use litemap::LiteMap;

use super::entry::{Act, Entry};
use crate::nursery::Id;

/// All entries by their id.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Journal {
    entries: BTreeMap<Id, Arc<Entry>>,
    /// What is kept unread, as name and JSON: members of the document that only a newer version
    /// understands, and, without a name, what stood among the entries and is none.
    beside: LiteMap<(String, String), ()>,
}

/// What came of putting an entry in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Put {
    /// It was not there yet.
    New,
    /// It was there already.
    Known,
    /// Another entry has the same id, because two devices carry the same mark. Both are kept, one
    /// of them under a name of its own.
    Renamed,
}

impl Journal {
    /// An entry by its id.
    #[must_use]
    pub fn get(&self, id: Id) -> Option<&Entry> {
        self.entries.get(&id).map(Arc::as_ref)
    }

    /// The id under which an entry is here: its own, or the one it had to take because another has
    /// that. None where it is not here.
    #[must_use]
    pub fn id_here(&self, entry: &Entry) -> Option<Id> {
        if self.get(entry.id)? == entry {
            return Some(entry.id);
        }
        let renamed = entry.renamed();
        (self.get(renamed.id)? == &renamed).then_some(renamed.id)
    }

    /// The entries here by which something of another journal counts no more, and of which that
    /// journal knows nothing.
    #[must_use]
    pub fn undoings_of(&self, other: &Self) -> Vec<Id> {
        let undo = |entry: &Entry| match entry.act {
            Act::Undo { entry: target, .. } => Some((entry.id, target)),
            _ => None,
        };
        let undoings: Vec<(Id, Id)> = self.entries().filter_map(undo).collect();
        let mut undone = vec![false; undoings.len()];
        let mut found = Vec::new();
        // An undoing can itself be undone, but only by a later one: so the latest is settled first.
        for (place, &(id, target)) in undoings.iter().enumerate().rev() {
            if undone.get(place) == Some(&true) {
                continue;
            }
            if let Ok(earlier) = undoings.binary_search_by_key(&target, |undoing| undoing.0)
                && let Some(undone) = undone.get_mut(earlier)
            {
                *undone = true;
            }
            if other.get(target).is_some() && other.get(id).is_none() {
                found.push(id);
            }
        }
        found
    }

    /// All entries, in the order of their ids: each after all that its device knew.
    pub fn entries(&self) -> impl DoubleEndedIterator<Item = &Entry> {
        self.entries.values().map(Arc::as_ref)
    }

    /// How many entries there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is nothing at all in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty() && self.beside.is_empty()
    }

    /// The number of the next entry: higher than any yet.
    #[must_use]
    pub fn next_number(&self) -> u32 {
        // At the end of all numbers the rest of an id still parts entries.
        let last = self.entries.last_key_value();
        last.map_or(1, |(id, _)| id.number.saturating_add(1))
    }

    /// What stood among the entries and is none, as JSON.
    pub fn unread(&self) -> impl Iterator<Item = &str> {
        self.beside
            .keys()
            .filter(|(name, _)| name.is_empty())
            .map(|(_, json)| json.as_str())
    }

    /// Keeps something that is no entry, given as JSON.
    pub fn keep_unread(&mut self, json: String) {
        self.beside.insert((String::new(), json), ());
    }

    /// Members of the document that only a newer version understands: name and JSON.
    pub fn members(&self) -> impl Iterator<Item = (&str, &str)> {
        self.beside
            .keys()
            .filter(|(name, _)| !name.is_empty())
            .map(|(name, json)| (name.as_str(), json.as_str()))
    }

    /// Keeps a member of the document, given as JSON.
    pub fn keep_member(&mut self, name: String, json: String) {
        self.beside.insert((name, json), ());
    }

    /// Puts an entry in.
    pub fn put(&mut self, entry: Entry) -> Put {
        self.put_shared(Arc::new(entry))
    }

    fn put_shared(&mut self, entry: Arc<Entry>) -> Put {
        let Some(present) = self.entries.get(&entry.id) else {
            self.entries.insert(entry.id, entry);
            return Put::New;
        };
        if *present == entry {
            return Put::Known;
        }
        // Which of the two keeps the name must not depend on which came first.
        let (keeps, moves) = if entry.text() < present.text() {
            (Arc::clone(&entry), Arc::clone(present))
        } else {
            (Arc::clone(present), entry)
        };
        self.entries.insert(keeps.id, keeps);
        let renamed = moves.renamed();
        if renamed.id == moves.id {
            self.keep_unread(moves.text());
            return Put::Renamed;
        }
        match self.put(renamed) {
            Put::Known => Put::Known,
            Put::New | Put::Renamed => Put::Renamed,
        }
    }

    /// Puts in everything that another journal holds.
    pub fn merge(&mut self, other: &Self) {
        for entry in other.entries.values() {
            self.put_shared(Arc::clone(entry));
        }
        for kept in other.beside.keys() {
            self.beside.insert(kept.clone(), ());
        }
    }

    /// Puts in everything that another journal holds. Gives back the entries that were not there
    /// yet, or nothing where one had to take another name.
    #[must_use]
    pub fn take_in(&mut self, other: Self) -> Option<Vec<Arc<Entry>>> {
        let mut new = Vec::with_capacity(other.entries.len());
        let mut renamed = false;
        for (id, entry) in other.entries {
            match self.entries.get(&id) {
                None => {
                    self.entries.insert(id, Arc::clone(&entry));
                    new.push(entry);
                }
                Some(known) if *known == entry => {}
                Some(_) => {
                    self.put_shared(entry);
                    renamed = true;
                }
            }
        }
        for (kept, ()) in other.beside {
            self.beside.insert(kept, ());
        }
        (!renamed).then_some(new)
    }
}
