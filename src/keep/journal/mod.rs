//! The grower's record as a journal: entries are added, corrected and withdrawn by further entries,
//! and the present is what they come to. Two devices' journals merge without loss.
//!
//! * [`entry`]: one entry, in memory and as JSON.
//! * [`merge`]: the journal, and two of them in one.
//! * [`mod@fold`]: the present, with what clashes and what waits.
//! * [`pen`]: writing new entries, also those that undo others.
//! * [`explain`]: how a thing came to be as it is.
//! * [`mod@format`]: the one door: a journal as JSON, and back; `plain` is its quick wing.
//! * [`months`]: which entries are stored together.
//! * `plausible` (feature `terminal`): journals to test and measure with.
//! * [`mod@preview`]: what a merge would do.
//! * [`csv`]: each log as a table for other programs.
//! * [`thermometer`]: readings out of the files of thermometers.
//! * [`words`]: the sentences of this room.
//!
//! ```
//! use longtom::keep::journal::{Journal, Pen, fold, format};
//! use longtom::nursery::{Mark, Texts};
//!
//! let mut journal = Journal::default();
//! let mut present = fold(&journal);
//! let mark = Mark::from_random(7);
//! let pen = Pen { journal: &journal, present: &present, mark, at: 29_635_660 };
//! let house = pen.add("house", Texts::of([("name", "North")]));
//! journal.put(house.clone());
//! present.follow(&journal, &house);
//! assert_eq!(present.record.name_of(house.id), "North");
//!
//! let file = format::text(&journal);
//! assert_eq!(format::open(&file).map(|opened| opened.journal), Ok(journal));
//! ```

pub mod csv;
pub mod entry;
pub mod explain;
pub mod fold;
pub mod format;
pub mod merge;
pub mod months;
pub mod pen;
mod plain;
#[cfg(feature = "terminal")]
pub mod plausible;
pub mod preview;
pub mod thermometer;
pub mod words;

pub use entry::{Act, Change, Entry};
pub use fold::{Clash, Present, Side, fold};
pub use format::{Opened, Refused, Report};
pub use merge::{Journal, Put};
pub use months::Part;
pub use pen::Pen;
pub use preview::{Preview, preview};
