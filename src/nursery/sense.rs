//! What does not make sense between things.

use super::check::{Problem, check};
use super::id::Id;
use super::kinds::{After, INSIDE, Kind, Takes};
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
    record
        .present()
        .flat_map(|thing| {
            let found = problems(record, thing);
            found.into_iter().map(|problem| (thing.id, problem))
        })
        .collect()
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
