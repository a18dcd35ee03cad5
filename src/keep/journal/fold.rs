//! The present, folded from the journal.
//!
//! Each thing is folded by itself from the entries about it, whatever their order. Of a field's
//! changes those count that no later one replaces; if they differ, two devices have changed the
//! field without knowing of each other: a clash. Both sides are kept, the later by id is shown
//! first, and a change over both settles it.

use std::borrow::Cow;
use std::sync::Arc;

use litemap::LiteMap;

use super::entry::{Act, Entry};
use super::merge::Journal;
use crate::nursery::{Id, Ids, Record, Texts, Thing};

/// What the journal comes to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Present {
    /// All things.
    pub record: Record,
    /// What two devices have changed differently, by the thing.
    pub clashes: LiteMap<Id, Vec<Clash>>,
    /// Entries about something that is not here: they wait for the file that has it.
    pub unplaced: Ids,
    /// Entries that only a newer version understands.
    pub unknown: Ids,
    /// Entries about a thing besides the one that added it, in order.
    about: LiteMap<Id, Ids>,
}

/// One field that two devices have changed differently.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clash {
    /// The path of the field. Empty where one device has withdrawn the thing and another has not:
    /// the thing then stays present.
    pub field: String,
    /// Both sides, the one shown first. There may be more than two.
    pub sides: Vec<Side>,
}

/// One side of a clash.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Side {
    /// The entry that says so.
    pub entry: Id,
    /// What it says; for a thing withdrawn or not, [`WITHDRAWN`] or nothing.
    pub text: String,
}

/// The text of a side that has withdrawn the thing.
pub const WITHDRAWN: &str = "withdrawn";

/// Folds a whole journal.
#[must_use]
pub fn fold(journal: &Journal) -> Present {
    let mut present = Present::default();
    for entry in journal.entries() {
        match (entry.thing(), &entry.act) {
            (_, Act::Add { .. }) => {}
            (Some(of), _) => {
                present.about.entry(of).or_default().insert(entry.id);
            }
            (None, _) => {
                present.unknown.insert(entry.id);
            }
        }
    }
    // Nearly all things are never changed, and need no folding.
    let mut untouched = Vec::with_capacity(journal.len());
    for entry in journal.entries() {
        if let Act::Add { kind, texts } = &entry.act
            && !present.about.contains_key(&entry.id)
        {
            untouched.push(thing(entry.id, kind.clone(), Arc::clone(texts)));
        }
    }
    present.record = Record::of(untouched);
    let touched: Vec<Id> = present.about.keys().copied().collect();
    for thing in touched {
        present.refold(journal, thing);
    }
    present
}

impl Present {
    /// Takes in one entry that has just been put into the journal, without folding the rest again.
    /// Where [`Journal::put`] had to rename one, fold the whole anew.
    pub fn follow(&mut self, journal: &Journal, entry: &Entry) {
        match (entry.thing(), &entry.act) {
            // Nearly all things are never changed, and need no folding.
            (Some(of), Act::Add { kind, texts }) if !self.about.contains_key(&of) => {
                self.record.put(thing(of, kind.clone(), Arc::clone(texts)));
            }
            (Some(of), Act::Add { .. }) => self.refold(journal, of),
            (Some(of), _) => {
                self.about.entry(of).or_default().insert(entry.id);
                self.refold(journal, of);
            }
            (None, _) => {
                self.unknown.insert(entry.id);
            }
        }
    }

    /// Takes in another journal, without folding what is there again. Gives back the entries that
    /// were not there yet; nothing where one had to take another name and all was folded anew.
    pub fn join(&mut self, journal: &mut Journal, other: Journal) -> Option<Vec<Arc<Entry>>> {
        let new = journal.take_in(other);
        match &new {
            Some(new) => {
                for entry in new {
                    self.follow(journal, entry);
                }
            }
            None => *self = fold(journal),
        }
        new
    }

    /// The entries about a thing, the one that added it first.
    pub fn entries_about<'a>(
        &'a self,
        journal: &'a Journal,
        thing: Id,
    ) -> impl DoubleEndedIterator<Item = &'a Entry> {
        let later = self.about.get(&thing).into_iter().flatten();
        std::iter::once(thing)
            .chain(later.copied())
            .filter_map(|id| journal.get(id))
    }

    fn refold(&mut self, journal: &Journal, id: Id) {
        let about = self.about.get(&id);
        let later: Vec<&Entry> = about
            .into_iter()
            .flatten()
            .filter_map(|id| journal.get(*id))
            .collect();
        let added = journal.get(id).and_then(|added| Story::of(added, &later));
        for entry in &later {
            // An undo of something that is not here waits like a change of it.
            let waits = match entry.act {
                Act::Undo { entry, .. } => journal.get(entry).is_none(),
                _ => false,
            };
            if waits || added.is_none() {
                self.unplaced.insert(entry.id);
            } else {
                self.unplaced.remove(&entry.id);
            }
        }
        let Some(story) = added else {
            self.record.take_out(id);
            self.clashes.remove(&id);
            return;
        };
        let (thing, clashes) = story.end();
        self.record.put(thing);
        if clashes.is_empty() {
            self.clashes.remove(&id);
        } else {
            self.clashes.insert(id, clashes);
        }
    }

    /// The entries that a new change of a field replaces: those whose texts it shows now.
    #[must_use]
    pub fn heads(&self, journal: &Journal, thing: Id, field: &str) -> Vec<Id> {
        self.with_story(journal, thing, |story| {
            let writes = story.writes();
            writes
                .get(field)
                .map(|writes| heads(writes).iter().map(|write| write.id).collect())
        })
    }

    /// The entries that a new withdrawal knows of, or a new restoration replaces: the latest
    /// changes, and what was said of its being here.
    #[must_use]
    pub fn knows(&self, journal: &Journal, thing: Id) -> Vec<Id> {
        self.with_story(journal, thing, |story| {
            let writes = story.writes();
            let fields = writes.values().flat_map(|writes| heads(writes));
            let mut known: Vec<Id> = fields
                .chain(heads(&story.stays()))
                .map(|write| write.id)
                .collect();
            known.sort_unstable();
            known.dedup();
            Some(known)
        })
    }

    fn with_story(
        &self,
        journal: &Journal,
        thing: Id,
        ask: impl FnOnce(&Story) -> Option<Vec<Id>>,
    ) -> Vec<Id> {
        let entries: Vec<&Entry> = self.entries_about(journal, thing).collect();
        entries
            .split_first()
            .and_then(|(added, later)| ask(&Story::of(added, later)?))
            .unwrap_or_default()
    }
}

/// A thing with the entries about it that count.
struct Story<'a> {
    added: &'a Entry,
    kind: &'a Cow<'static, str>,
    texts: &'a Arc<Texts>,
    undone: Ids,
    /// The latest undo of the adding itself.
    added_undone: Option<Id>,
    later: &'a [&'a Entry],
}

/// A text put into a field by an entry, and the entries that it replaces.
struct Write<'a> {
    id: Id,
    text: &'a str,
    over: &'a [Id],
}

/// Those that no later one replaces, the latest first. What claims to replace something later than
/// itself is not believed, so there is always one.
fn heads<'a, 'b>(writes: &'b [Write<'a>]) -> Vec<&'b Write<'a>> {
    let mut replaced = Ids::new();
    for write in writes {
        replaced.extend(write.over.iter().copied().filter(|over| *over < write.id));
    }
    let remain = writes.iter().filter(|write| !replaced.contains(&write.id));
    let mut heads: Vec<&Write> = remain.collect();
    heads.sort_by_key(|write| std::cmp::Reverse(write.id));
    heads
}

impl<'a> Story<'a> {
    /// None where the entry adds nothing.
    fn of(added: &'a Entry, later: &'a [&'a Entry]) -> Option<Self> {
        let Act::Add { kind, texts } = &added.act else {
            return None;
        };
        // An undo can itself be undone, but only by a later one: so the latest is settled first.
        let mut undone = Ids::new();
        let mut added_undone = None;
        for entry in later.iter().rev() {
            if let Act::Undo { entry: target, .. } = entry.act
                && target < entry.id
                && !undone.contains(&entry.id)
            {
                undone.insert(target);
                if target == added.id {
                    added_undone = added_undone.max(Some(entry.id));
                }
            }
        }
        Some(Self {
            added,
            kind,
            texts,
            undone,
            added_undone,
            later,
        })
    }

    fn counting(&self) -> impl Iterator<Item = &'a Entry> {
        let later = self.later.iter().copied();
        later.filter(|entry| !self.undone.contains(&entry.id))
    }

    /// The changes that count, by field.
    fn writes(&self) -> LiteMap<&'a str, Vec<Write<'a>>> {
        let mut writes: LiteMap<&str, Vec<Write>> = LiteMap::new();
        for entry in self.counting() {
            if let Act::Change { fields, .. } = &entry.act {
                for change in fields {
                    writes.entry(&change.field).or_default().push(Write {
                        id: entry.id,
                        text: &change.text,
                        over: &change.over,
                    });
                }
            }
        }
        writes
    }

    /// The withdrawals and restorations that count.
    fn stays(&self) -> Vec<Write<'a>> {
        let stay = |entry: &'a Entry| match &entry.act {
            Act::Withdraw { over, .. } => Some((WITHDRAWN, over)),
            Act::Restore { over, .. } => Some(("", over)),
            _ => None,
        };
        self.counting()
            .filter_map(|entry| {
                let (text, over) = stay(entry)?;
                Some(Write {
                    id: entry.id,
                    text,
                    over,
                })
            })
            .collect()
    }

    /// The thing as it is now, and its clashes.
    fn end(&self) -> (Thing, Vec<Clash>) {
        let writes = self.writes();
        let stays = self.stays();
        let mut clashes = Vec::new();
        let mut shown = Vec::new();
        for (field, writes) in &writes {
            let heads = heads(writes);
            clashes.extend(clash(field, &heads));
            shown.extend(heads.first().map(|head| (*field, head.text)));
        }
        let texts = if shown.is_empty() {
            Arc::clone(self.texts)
        } else {
            Arc::new(Texts::of(self.texts.iter().chain(shown)))
        };
        let stays = heads(&stays);
        // Whoever brings back a thing whose adding was undone means it.
        let mut gone = self.added_undone.is_some_and(|undo| {
            let mut stays = stays.iter();
            !stays.any(|stay| stay.text.is_empty() && stay.id > undo)
        });
        if stays.iter().any(|stay| stay.text == WITHDRAWN) {
            // Changes that whoever withdrew it did not know of.
            let away = stays.iter().filter(|stay| stay.text == WITHDRAWN);
            let seen: Vec<Ids> = away
                .map(|stay| stay.over.iter().copied().collect())
                .collect();
            let unseen = |write: &&Write| !seen.iter().all(|seen| seen.contains(&write.id));
            let changed = writes.values().flat_map(|writes| heads(writes));
            let mut sides: Vec<Side> = changed
                .filter(unseen)
                .map(|write| Side {
                    entry: write.id,
                    text: String::new(),
                })
                .collect();
            sides.sort_by_key(|side| std::cmp::Reverse(side.entry));
            sides.dedup();
            sides.extend(stays.iter().map(|stay| Side {
                entry: stay.id,
                text: stay.text.to_owned(),
            }));
            // What keeps it comes first.
            sides.sort_by_key(|side| side.text == WITHDRAWN);
            let kept = sides.iter().any(|side| side.text != WITHDRAWN);
            gone = gone || !kept;
            if kept {
                clashes.push(Clash {
                    field: String::new(),
                    sides,
                });
            }
        }
        let mut thing = thing(self.added.id, self.kind.clone(), texts);
        thing.gone = gone;
        (thing, clashes)
    }
}

fn thing(id: Id, kind: Cow<'static, str>, texts: Arc<Texts>) -> Thing {
    Thing {
        id,
        kind,
        texts,
        gone: false,
    }
}

fn clash(field: &str, heads: &[&Write]) -> Option<Clash> {
    let first = heads.first()?;
    let differ = heads.iter().any(|head| head.text != first.text);
    differ.then(|| Clash {
        field: field.to_owned(),
        sides: heads
            .iter()
            .map(|head| Side {
                entry: head.id,
                text: head.text.to_owned(),
            })
            .collect(),
    })
}
