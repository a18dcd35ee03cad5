//! A set of ids, as a sorted list: one kind of set for everything that gathers ids.

use super::id::Id;

/// A set of ids, in their order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ids(Vec<Id>);

impl Ids {
    /// None yet.
    #[must_use]
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// The set of these, in whatever order and however often.
    #[must_use]
    pub fn of(mut ids: Vec<Id>) -> Self {
        ids.sort_unstable();
        ids.dedup();
        Self(ids)
    }

    /// Whether it holds an id.
    #[must_use]
    pub fn contains(&self, id: &Id) -> bool {
        self.0.binary_search(id).is_ok()
    }

    /// Puts one in; false where it was there already.
    pub fn insert(&mut self, id: Id) -> bool {
        match self.0.binary_search(&id) {
            Ok(_) => false,
            Err(place) => {
                self.0.insert(place, id);
                true
            }
        }
    }

    /// Takes one out, if it is there.
    pub fn remove(&mut self, id: &Id) {
        if let Ok(place) = self.0.binary_search(id) {
            self.0.remove(place);
        }
    }

    /// Puts several in.
    pub fn extend(&mut self, more: impl IntoIterator<Item = Id>) {
        self.0.extend(more);
        self.0.sort_unstable();
        self.0.dedup();
    }

    /// All of them, in order.
    pub fn iter(&self) -> std::slice::Iter<'_, Id> {
        self.0.iter()
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl FromIterator<Id> for Ids {
    fn from_iter<I: IntoIterator<Item = Id>>(ids: I) -> Self {
        Self::of(ids.into_iter().collect())
    }
}

impl<'a> IntoIterator for &'a Ids {
    type Item = &'a Id;
    type IntoIter = std::slice::Iter<'a, Id>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}
