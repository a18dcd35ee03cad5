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
//! * [`paper`]: print and link.
//! * [`strip`]: the answer in one line while its card is out of sight.

pub mod behind;
pub mod few;
pub mod figures;
pub mod form;
pub mod paper;
pub mod sheet;
pub mod strip;
pub mod verdict;
