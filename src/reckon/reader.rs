//! Reading a question field by field: every problem is gathered at its field, and reading goes on.

use super::{Problem, words};
use crate::handbook::climates::{CLIMATES, Climate};
use crate::handbook::crops::{Crop, crop};
use crate::measure::{DecimalMark, Entry, Limits, Quantity};
use crate::nursery::Day;

/// Gathers problems while the fields of a question are read one after the other.
#[derive(Debug)]
pub struct Reader {
    mark: DecimalMark,
    /// The problems found so far.
    pub problems: Vec<Problem>,
}

impl Reader {
    /// A reader that takes this mark as the decimal one.
    #[must_use]
    pub fn new(mark: DecimalMark) -> Self {
        Self {
            mark,
            problems: Vec::new(),
        }
    }

    /// The quantity typed at a path; a problem and none where it is not one.
    pub fn read<Q: Quantity>(
        &mut self,
        path: &str,
        entry: &Entry,
        limits: &Limits<Q>,
    ) -> Option<Q> {
        match entry.read(limits, self.mark) {
            Ok(value) => Some(value),
            Err(problem) => {
                self.say(path, problem.to_string());
                None
            }
        }
    }

    /// The same where nothing need be typed: none, without a problem, where nothing is.
    pub fn read_if_typed<Q: Quantity>(
        &mut self,
        path: &str,
        entry: &Entry,
        limits: &Limits<Q>,
    ) -> Option<Q> {
        (!entry.is_empty())
            .then(|| self.read(path, entry, limits))
            .flatten()
    }

    /// What was chosen in a field, if it was found; a sentence at the field otherwise.
    pub fn found<T>(
        &mut self,
        path: &str,
        found: Option<T>,
        sentence: impl FnOnce() -> String,
    ) -> Option<T> {
        if found.is_none() {
            self.say(path, sentence());
        }
        found
    }

    /// The day typed in a field; a problem and none where it is not one.
    pub fn day(&mut self, path: &str, text: &str) -> Option<Day> {
        match Day::read(text) {
            Ok(day) => Some(day),
            Err(problem) => {
                self.say(path, problem.to_string());
                None
            }
        }
    }

    /// The crop of the handbook whose key was chosen; a problem and none where there is none.
    pub fn crop(&mut self, path: &str, key: &str) -> Option<&'static Crop> {
        self.found(path, crop(key), words::no_such_crop)
    }

    /// The climate of the handbook whose key was chosen; a problem and none where there is none.
    pub fn climate(&mut self, path: &str, key: &str) -> Option<&'static Climate> {
        let known = CLIMATES.iter().find(|row| row.key == key);
        self.found(path, known, words::no_such_climate)
    }

    /// The row of a list whose key was chosen; a problem and none where there is no such key.
    pub fn choose<T>(
        &mut self,
        path: &str,
        what: &str,
        chosen: &str,
        rows: &'static [T],
        key: fn(&T) -> &'static str,
    ) -> Option<&'static T> {
        self.found(path, rows.iter().find(|row| key(row) == chosen), || {
            words::not_in_list(what, chosen, rows.iter().map(key))
        })
    }

    /// The place of what was chosen among a few keys; a problem and none where it is none of them.
    pub fn one_of(
        &mut self,
        path: &str,
        what: &str,
        chosen: &str,
        keys: &[&'static str],
    ) -> Option<usize> {
        let place = keys.iter().position(|key| *key == chosen);
        self.found(path, place, || {
            words::not_in_list(what, chosen, keys.iter().copied())
        })
    }

    /// A problem at a path.
    pub fn say(&mut self, path: &str, sentence: String) {
        self.problems.push(Problem::at(path, sentence));
    }
}
