//! What does not make sense between things.

use super::check::{Problem, check};
use super::id::Id;
use super::ids::Ids;
use super::kinds::{After, INSIDE, Kind, Takes};
use super::pass::Pass;
use super::record::Record;
use super::thing::Thing;
use super::words;

/// All that does not make sense of a thing, by itself and beside the others. The thing need not be
/// in the record yet. Of a kind that this version does not know nothing can be said.
#[must_use]
pub fn problems(record: &Record, thing: &Thing) -> Vec<Problem> {
    let Some(kind) = thing.table() else {
        return Vec::new();
    };
    let mut problems = check(kind, thing);
    for (path, id) in thing.links() {
        if let Some(sentence) = link_problem(record, kind, path, id) {
            problems.push(Problem::at(path, sentence));
        }
    }
    if record.is_inside_itself(thing) {
        let sentence = words::inside_itself(&words::name_of(thing));
        problems.push(Problem::at(INSIDE, sentence));
    }
    for after in kind.after {
        if let Some(sentence) = too_early(record, kind, thing, after) {
            problems.push(Problem::at(after.day, sentence));
        }
    }
    problems
}

/// Everything that does not make sense, with the thing it belongs to.
#[must_use]
pub fn all_problems(record: &Record) -> Vec<(Id, Problem)> {
    let mut found = Vec::new();
    for thing in record.present() {
        push(record, thing, &mut found);
    }
    found
}

/// What does not make sense in the logs of a record, found a little at a time: ten seasons take
/// seconds to look through.
#[derive(Clone, Debug, Default)]
pub struct Oddities {
    /// Those of logs that were changed, then those of the others, the latest first.
    found: Vec<(Id, Problem)>,
    /// What will be told once all has been looked through.
    coming: Vec<(Id, Problem)>,
    /// What must be looked at again.
    again: Vec<Id>,
    pass: Pass,
}

impl Oddities {
    /// Looks at at most so many more logs.
    pub fn take_in(&mut self, record: &Record, most: usize) {
        if self.is_whole() {
            return;
        }
        let coming = &mut self.coming;
        self.pass
            .go_on(record, most, &mut |thing| push(record, thing, coming));
        if self.is_whole() {
            self.found = std::mem::take(&mut self.coming);
            self.settle(record);
        }
    }

    /// Whether all logs have been looked at.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.pass.is_whole()
    }

    /// Looks again at a thing that was added or changed, and at the logs that name it; where they are
    /// many, at all.
    pub fn follow(&mut self, record: &Record, id: Id) {
        let Some(thing) = record.get(id) else {
            return;
        };
        let Some(logs) = record.logs_naming(thing) else {
            return self.look_again();
        };
        self.again.extend(logs);
        self.again.push(id);
        if self.is_whole() {
            self.settle(record);
        }
    }

    /// Looks at those again that have changed.
    fn settle(&mut self, record: &Record) {
        let again: Ids = std::mem::take(&mut self.again).into_iter().collect();
        let mut found = Vec::new();
        for thing in again.iter().filter_map(|id| record.get(*id)) {
            if thing.is_log() && !thing.gone {
                push(record, thing, &mut found);
            }
        }
        found.extend(
            std::mem::take(&mut self.found)
                .into_iter()
                .filter(|(id, _)| !again.contains(id)),
        );
        self.found = found;
    }

    /// Looks at all logs again; until then what is known is told.
    pub fn look_again(&mut self) {
        let found = std::mem::take(&mut self.found);
        *self = Self::default();
        self.found = found;
    }

    /// What is known of now.
    #[must_use]
    pub fn found(&self) -> &[(Id, Problem)] {
        &self.found
    }
}

fn push(record: &Record, thing: &Thing, found: &mut Vec<(Id, Problem)>) {
    for problem in problems(record, thing) {
        found.push((thing.id, problem));
    }
}

fn link_problem(record: &Record, kind: &Kind, path: &str, id: Id) -> Option<String> {
    let field = kind.field(path)?;
    let single;
    let kinds: &[&str] = match field.takes {
        Takes::One(kinds) => kinds,
        Takes::Handbook(book) => {
            single = [book.own()];
            &single
        }
        _ => return None,
    };
    let Some(named) = record.get(id) else {
        return Some(words::not_here(field.label));
    };
    if named.gone {
        return Some(words::withdrawn(field.label, &words::name_of(named)));
    }
    // A kind of a newer version may be right here too.
    let wrong = named.table().is_some() && !kinds.contains(&named.kind.as_ref());
    wrong.then(|| words::wrong_kind(field.label, &words::name_of(named), kinds))
}

fn too_early(record: &Record, kind: &Kind, thing: &Thing, after: &After) -> Option<String> {
    let day = thing.day(after.day)?;
    let other = record.get(thing.one(after.link)?)?;
    let other_day = other.day(after.other_day)?;
    let label = other.table()?.field(after.other_day)?.label;
    let own_label = kind.field(after.day)?.label;
    (day < other_day)
        .then(|| words::too_early(own_label, day, &words::name_of(other), label, other_day))
}
