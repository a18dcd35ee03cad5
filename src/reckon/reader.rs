//! Reads the fields of a question one after the other, and gathers what is wrong with each.

use super::Problem;
use crate::measure::{DecimalMark, Entry, Limits, Quantity};

/// A reading under way.
pub struct Reader {
    mark: DecimalMark,
    /// What was found wrong so far.
    pub problems: Vec<Problem>,
}

impl Reader {
    /// Begins to read under a decimal mark.
    #[must_use]
    pub const fn new(mark: DecimalMark) -> Self {
        Self {
            mark,
            problems: Vec::new(),
        }
    }

    /// The quantity typed in a field, if it is one and within its limits.
    pub fn read<Q: Quantity>(
        &mut self,
        field: &str,
        entry: &Entry,
        limits: &Limits<Q>,
    ) -> Option<Q> {
        match entry.read(limits, self.mark) {
            Ok(value) => Some(value),
            Err(problem) => {
                self.say(field, problem.to_string());
                None
            }
        }
    }

    /// What was chosen in a field, if it was found; a sentence at the field otherwise.
    pub fn found<T>(
        &mut self,
        field: &str,
        found: Option<T>,
        sentence: impl FnOnce() -> String,
    ) -> Option<T> {
        if found.is_none() {
            self.say(field, sentence());
        }
        found
    }

    /// Says what is wrong with a field.
    pub fn say(&mut self, field: &str, sentence: String) {
        self.problems.push(Problem::at(field, sentence));
    }
}
