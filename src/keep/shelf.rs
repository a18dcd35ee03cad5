//! Where texts are stored.

use litemap::LiteMap;
use std::cell::RefCell;
use std::rc::Rc;

/// Why a shelf did not do what it was asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ShelfProblem {
    /// The browser does not let this page store anything.
    Refused,
    /// There is no room.
    Full,
    /// No text can be made of what is there.
    Damaged,
    /// Anything else, in the browser's own words.
    Other(String),
}

/// Texts under keys. A write may fail half-way; whoever writes must reckon with that.
// A page has one thread, so the futures need not be `Send`, which is all the lint warns of.
#[allow(async_fn_in_trait)]
pub trait Shelf {
    /// The text under a key, if there is one.
    async fn read(&self, key: &str) -> Result<Option<String>, ShelfProblem>;

    /// Puts a text under a key, in place of what was there.
    async fn write(&self, key: &str, text: &str) -> Result<(), ShelfProblem>;

    /// Takes away what is under a key, if anything is.
    async fn remove(&self, key: &str) -> Result<(), ShelfProblem>;

    /// All keys of this program, in order.
    async fn keys(&self) -> Result<Vec<String>, ShelfProblem>;
}

/// A shelf that lasts as long as the page is open. The program falls back on it where the browser
/// refuses to store anything, so that work goes on for this visit.
#[derive(Debug, Default)]
pub struct MemoryShelf {
    texts: RefCell<LiteMap<String, String>>,
}

impl MemoryShelf {
    /// An empty shelf.
    pub fn new() -> Self {
        MemoryShelf::default()
    }
}

impl Shelf for MemoryShelf {
    async fn read(&self, key: &str) -> Result<Option<String>, ShelfProblem> {
        Ok(self.texts.borrow().get(key).cloned())
    }

    async fn write(&self, key: &str, text: &str) -> Result<(), ShelfProblem> {
        self.texts
            .borrow_mut()
            .insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    async fn remove(&self, key: &str) -> Result<(), ShelfProblem> {
        self.texts.borrow_mut().remove(key);
        Ok(())
    }

    async fn keys(&self) -> Result<Vec<String>, ShelfProblem> {
        Ok(self.texts.borrow().keys().cloned().collect())
    }
}

/// A shelf that several cabinets share.
impl<S: Shelf> Shelf for Rc<S> {
    async fn read(&self, key: &str) -> Result<Option<String>, ShelfProblem> {
        S::read(self, key).await
    }

    async fn write(&self, key: &str, text: &str) -> Result<(), ShelfProblem> {
        S::write(self, key, text).await
    }

    async fn remove(&self, key: &str) -> Result<(), ShelfProblem> {
        S::remove(self, key).await
    }

    async fn keys(&self) -> Result<Vec<String>, ShelfProblem> {
        S::keys(self).await
    }
}
