//! Floor 5, `keep`: what stays on this device, and the one door through which it comes back.
//!
//! * [`address`]: a question as what stands in a link.
//! * [`json`]: a JSON value as text.
//! * [`keys`]: every storage key, in one place.
//! * [`shelf`]: where texts are stored, as a trait, with a shelf in memory.
//! * [`checksum`], [`envelope`]: the text in which a document is stored, so that damage shows.
//! * [`document`]: what a document must be able to do: migrate, repair, be written.
//! * [`cabinet`]: loading and saving, with two copies of everything and nothing overwritten that
//!   could not be read.
//! * [`turnstile`]: lets the saves of one document through one at a time, in the order asked for.
//! * [`settings`], [`questions`]: the documents. [`drafts`]: what is typed and not saved yet.
//! * [`journal`]: the grower's record, kept so that two devices can merge theirs.
//! * [`store`]: the record in its parts: on the shelf, and closed months in an archive.
//! * [`demo`]: the demo nursery, made by a few rules.
//! * [`room`]: how much is left on the shelf.
//! * [`parcel`]: everything stored, as one text to download.
//! * [`words`]: the sentences of this floor.
//! * `browser` (feature `screen`): the only room that touches a browser's storage.
//!
//! Everything but `browser` is pure and runs natively. Reading and writing are asynchronous
//! throughout, whatever the shelf: `localStorage` answers at once, other shelves do not.

pub mod address;
#[cfg(feature = "screen")]
pub mod browser;
pub mod cabinet;
pub mod checksum;
pub mod demo;
pub mod document;
pub mod drafts;
pub mod envelope;
pub mod journal;
pub mod json;
pub mod keys;
pub mod parcel;
pub mod questions;
pub mod room;
pub mod settings;
pub mod shelf;
pub mod store;
pub mod turnstile;
pub mod words;

pub use cabinet::{Aside, Cabinet, KeepProblem, Loaded, Notice, Saved, Why};
pub use document::Document;
pub use keys::{DocumentId, Kind};
pub use questions::LastQuestion;
pub use settings::{Scheme, Settings, TextSize};
pub use shelf::{MemoryShelf, Shelf, ShelfProblem};
pub use store::{Archive, Filed, Store};
