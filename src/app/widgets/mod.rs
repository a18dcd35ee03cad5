//! What pages are put together from.
//!
//! A widget that is live has two ends: `write` puts it into the markup of a page, and `open`, once
//! that stands, puts life into it.
//!
//! * [`form`]: any question's form, drawn from its description.
//! * [`sheet`]: one of a long list, found by typing.
//! * [`few`]: one of a few, all in sight.
//! * [`figures`]: figures as they are read.
//! * [`verdict`]: the verdict by word, shape and colour.
//! * [`behind`]: what is behind the answer: cautions, working.
//! * [`columns`]: how a file of readings is read.
//! * [`paper`]: print and link.
//! * [`things`]: things of the record in lists.
//! * [`standing`]: what stands where in the nursery.
//! * [`strip`]: the answer in one line while its card is out of sight.

pub mod behind;
pub mod columns;
pub mod few;
pub mod figures;
pub mod form;
pub mod paper;
pub mod sheet;
pub mod standing;
pub mod strip;
pub mod things;
pub mod verdict;
