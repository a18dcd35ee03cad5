//! How a thing came to be as it is, in sentences.

use litemap::LiteMap;

use super::entry::{Act, Entry};
use super::fold::Present;
use super::merge::Journal;
use super::words;
use crate::nursery::tell::{label, told};
use crate::nursery::{Id, Kind, Record, kind};

/// One step in the story of a thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The entry.
    pub entry: Id,
    /// Minutes since 1 January 1970, 00:00, by the clock of the device that made it.
    pub at: u32,
    /// What was done, one sentence for each field.
    pub sentences: Vec<String>,
}

/// The whole story of a thing, from its first entry.
#[must_use]
pub fn history(journal: &Journal, present: &Present, thing: Id) -> Vec<Step> {
    story(journal, present, thing, None)
}

/// The story of one field of a thing. Undoings are in it, whatever they undo.
#[must_use]
pub fn field_history(journal: &Journal, present: &Present, thing: Id, field: &str) -> Vec<Step> {
    story(journal, present, thing, Some(field))
}

fn story(journal: &Journal, present: &Present, thing: Id, field: Option<&str>) -> Vec<Step> {
    let mut teller = Teller {
        journal,
        record: &present.record,
        kind: None,
        field,
        texts: LiteMap::new(),
    };
    let steps = present.entries_about(journal, thing).map(|entry| Step {
        entry: entry.id,
        at: entry.at,
        sentences: teller.sentences(entry),
    });
    steps.filter(|step| !step.sentences.is_empty()).collect()
}

struct Teller<'a> {
    journal: &'a Journal,
    record: &'a Record,
    kind: Option<&'static Kind>,
    field: Option<&'a str>,
    /// What each entry put into a field, so that a change can tell what it replaced.
    texts: LiteMap<(Id, &'a str), &'a str>,
}

impl<'a> Teller<'a> {
    fn told(&self, path: &str, text: &str) -> String {
        match self.kind.and_then(|kind| kind.field(path)) {
            Some(field) if !text.is_empty() => told(self.record, field, text),
            _ => text.to_owned(),
        }
    }

    fn wanted(&self, path: &str) -> bool {
        self.field.is_none_or(|field| field == path)
    }

    fn sentences(&mut self, entry: &'a Entry) -> Vec<String> {
        match &entry.act {
            Act::Add { kind: key, texts } => {
                self.kind = kind(key);
                let name = self.kind.map_or(key.as_ref(), |kind| kind.name);
                let mut sentences = vec![words::added(name)];
                for (path, text) in texts.iter() {
                    self.texts.insert((entry.id, path), text);
                    if self.wanted(path) {
                        let label = label(self.kind, path);
                        sentences.push(words::is(&label, &self.told(path, text)));
                    }
                }
                sentences
            }
            Act::Change { of, fields } => {
                let mut sentences = Vec::new();
                for change in fields {
                    self.texts.insert((entry.id, &change.field), &change.text);
                    if !self.wanted(&change.field) {
                        continue;
                    }
                    // Without a change before it, it replaces what was typed at first.
                    let replaced = if change.over.is_empty() {
                        std::slice::from_ref(of)
                    } else {
                        change.over.as_slice()
                    };
                    let before: Vec<String> = replaced
                        .iter()
                        .filter_map(|id| self.texts.get(&(*id, &*change.field)))
                        .map(|text| self.told(&change.field, text))
                        .collect();
                    let after = self.told(&change.field, &change.text);
                    let label = label(self.kind, &change.field);
                    sentences.push(words::changed(&label, &before, &after));
                }
                sentences
            }
            Act::Withdraw { .. } => vec![words::was_withdrawn().to_owned()],
            Act::Restore { .. } => vec![words::was_restored().to_owned()],
            Act::Undo { entry, .. } => {
                let what = self.journal.get(*entry).map(|undone| &undone.act);
                vec![words::was_undone(what)]
            }
            Act::Other => Vec::new(),
        }
    }
}
