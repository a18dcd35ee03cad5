//! What pages are put together from.
//!
//! * [`field`]: a number with its unit and steppers.
//! * [`choice`]: one of a long list, found by typing.
//! * [`figures`]: a range as it is read, the headline and the table.
//! * [`verdict`]: the verdict by word, shape and colour.
//! * [`behind`]: what is behind the answer: cautions, working.
//! * [`paper`]: print and link.
//! * [`strip`]: the answer in one line while its card is out of sight.

pub mod behind;
pub mod choice;
pub mod field;
pub mod figures;
pub mod paper;
pub mod strip;
pub mod verdict;
