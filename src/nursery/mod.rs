//! Floor 3, `nursery`: the grower's record as it stands: houses and bays, pots and mixes, crops and
//! batches, and the day book.
//!
//! Every thing of the record is of a kind, and a kind is a table of fields, so that forms, lists,
//! checks, files and merging need no special cases. What a person typed is kept to the letter;
//! numbers carry their unit and read alike on every device. A kind or field that this version does
//! not know is kept and passed on.
//!
//! * [`day`]: days and times of day.
//! * [`id`]: names of things that hold on every device.
//! * [`ids`]: sets of them.
//! * [`texts`]: what was typed into the fields of one thing.
//! * [`kinds`]: which kinds there are, and what each field takes.
//! * [`thing`]: one thing, read through its kind.
//! * [`check`]: what does not make sense within one thing.
//! * `pass`: going through all logs, a little at a time.
//! * [`record`]: all things at present, found by id, kind, day and place.
//! * [`sense`]: what does not make sense between things.
//! * [`search`]: finding by words, days and places.
//! * [`tell`]: what stands in a field, as one would say it.
//! * [`vessel`]: the pots and materials of the record as reckonings take them.
//! * [`batch`]: a batch of the record as a reckoning takes it.
//! * [`bay`]: a bay of the record as a reckoning of warmth takes it.
//! * [`words`]: the sentences of this floor.

pub mod batch;
pub mod bay;
pub mod check;
pub mod day;
pub mod id;
pub mod ids;
pub mod kinds;
mod pass;
pub mod record;
pub mod search;
pub mod sense;
pub mod tell;
pub mod texts;
pub mod thing;
pub mod vessel;
pub mod words;

pub use check::Problem;
pub use day::{Day, DayProblem};
pub use id::{Id, Mark};
pub use ids::Ids;
pub use kinds::{Field, Kind, Takes, kind};
pub use record::Record;
pub use search::{Finder, Wanted};
pub use texts::Texts;
pub use thing::Thing;
