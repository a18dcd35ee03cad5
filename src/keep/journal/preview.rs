//! What a merge would do, told without doing it.

use super::fold::{Clash, Present, fold};
use super::merge::Journal;
use crate::nursery::{Id, Ids, Record, Thing};

/// What a merge would do. Nothing of it is done until the merged journal is taken over.
#[derive(Clone, Debug, PartialEq)]
pub struct Preview {
    /// Both journals in one.
    pub merged: Journal,
    /// What they come to.
    pub present: Present,
    /// Entries that are not here yet.
    pub new: usize,
    /// Entries that are here already.
    pub known: usize,
    /// Things that would be added.
    pub added: Vec<Id>,
    /// Fields that would change.
    pub changed: Vec<Changed>,
    /// Things that would be withdrawn.
    pub withdrawn: Vec<Id>,
    /// Things that would be brought back.
    pub restored: Vec<Id>,
    /// Clashes that are not there yet.
    pub clashes: Vec<(Id, Clash)>,
    /// Entries that another device has written under an id that is taken here.
    pub renamed: Vec<Id>,
}

/// One field that would change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Changed {
    /// The thing.
    pub thing: Id,
    /// The path of the field.
    pub field: String,
    /// What it holds now.
    pub before: String,
    /// What it would hold.
    pub after: String,
}

/// What the merge of another journal into this one would do.
#[must_use]
pub fn preview(here: &Journal, now: &Present, other: &Journal) -> Preview {
    let mut merged = here.clone();
    merged.merge(other);
    let present = fold(&merged);
    let fresh: Vec<_> = merged
        .entries()
        .filter(|entry| here.get(entry.id) != Some(entry))
        .collect();
    let touched: Ids = fresh.iter().filter_map(|entry| entry.thing()).collect();
    let renamed = fresh.iter().filter(|entry| entry.is_renamed());
    let mut preview = Preview {
        new: merged.len() - here.len(),
        known: (here.len() + other.len()).saturating_sub(merged.len()),
        renamed: renamed.map(|entry| entry.id).collect(),
        added: Vec::new(),
        changed: Vec::new(),
        withdrawn: Vec::new(),
        restored: Vec::new(),
        clashes: Vec::new(),
        present: Present::default(),
        merged: Journal::default(),
    };
    for &thing in &touched {
        preview.compare(&now.record, &present.record, thing);
        let before = now.clashes.get(&thing);
        for clash in present.clashes.get(&thing).into_iter().flatten() {
            if !before.is_some_and(|before| before.contains(clash)) {
                preview.clashes.push((thing, clash.clone()));
            }
        }
    }
    preview.merged = merged;
    preview.present = present;
    preview
}

impl Preview {
    fn compare(&mut self, before: &Record, after: &Record, id: Id) {
        let Some(after) = after.get(id) else {
            return;
        };
        let Some(before) = before.get(id) else {
            // What was added and withdrawn elsewhere is kept, but changes nothing here.
            if !after.gone {
                self.added.push(id);
            }
            return;
        };
        match (before.gone, after.gone) {
            (false, true) => self.withdrawn.push(id),
            (true, false) => self.restored.push(id),
            _ => {}
        }
        self.changed.extend(differences(before, after));
    }
}

/// The fields in which two states of a thing differ.
fn differences(before: &Thing, after: &Thing) -> Vec<Changed> {
    let mut paths: Vec<&str> = before
        .texts
        .iter()
        .chain(after.texts.iter())
        .map(|(path, _)| path)
        .collect();
    paths.sort_unstable();
    paths.dedup();
    paths
        .into_iter()
        .filter(|path| before.text(path) != after.text(path))
        .map(|path| Changed {
            thing: after.id,
            field: path.to_owned(),
            before: before.text(path).to_owned(),
            after: after.text(path).to_owned(),
        })
        .collect()
}
