//! Errands: how a page asks another thread for the doubt of an answer.
//!
//! Messages are bytes, positional and without names, so both ends must be of one
//! build; they never reach storage.

use serde::{Deserialize, Serialize};

use super::doubt::Doubt;
use super::form::Texts;
use crate::measure::DecimalMark;

/// From the page to the worker.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Errand {
    /// Find the doubt of a question. A later errand for the same reckoning replaces an earlier one.
    Find {
        /// Number that the replies carry.
        id: u32,
        /// Name of the reckoning.
        reckoning: String,
        /// The question.
        question: Texts,
        /// Which mark is decimal.
        mark: DecimalMark,
        /// How many draws.
        draws: u32,
        /// From which seed.
        seed: u64,
    },
    /// Stop an errand.
    Stop {
        /// Its number.
        id: u32,
    },
}

/// From the worker to the page.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Reply {
    /// The worker is up and listening.
    Ready,
    /// How far an errand is.
    Under {
        /// Its number.
        id: u32,
        /// Draws done.
        done: u32,
        /// Draws wanted.
        wanted: u32,
    },
    /// An errand is done.
    Found {
        /// Its number.
        id: u32,
        /// What was found.
        doubt: Doubt,
    },
    /// An errand could not be done.
    Refused {
        /// Its number.
        id: u32,
        /// Why, in a sentence.
        sentence: String,
    },
}

/// A message as bytes; empty if it cannot be written, which no message of these kinds meets.
#[must_use]
pub fn pack<M: Serialize>(message: &M) -> Vec<u8> {
    postcard::to_allocvec(message).unwrap_or_default()
}

/// A message from its bytes; none if they are of another build or damaged.
#[must_use]
pub fn unpack<'a, M: Deserialize<'a>>(bytes: &'a [u8]) -> Option<M> {
    postcard::from_bytes(bytes).ok()
}
