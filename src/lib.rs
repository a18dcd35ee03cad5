//! Longtom, a glasshouse grower's reckoner: the map of the house.
//!
//! Each floor may use only the floors below it; a test reads the source and holds
//! them to it.
//!
//! | floor | room | what it is for |
//! |---|---|---|
//! | 6 | `app` | the screens, and the only floor that touches the page (feature `screen`) |
//! | 5 | [`keep`] | documents and their one door: parse, migrate, repair; and `keep::browser`, where they are stored |
//! | 4 | [`reckon`] | the reckonings: a question goes in, an answer with its working comes out |
//! | 3 | [`nursery`] | the grower's record as it stands: houses, bays, pots, mixes, batches and the day book |
//! | 2 | [`handbook`] | published figures, each with its source |
//! | 1 | [`science`] | pure physics, agronomy and statistics, with units and sources |
//! | 0 | [`measure`] | quantities, units, ranges; reading and printing numbers |
//!
//! One name per thing on every floor: `reckon/mix`, `app/pages/mix.rs`, `tests/mix` and
//! `e2e/mix.spec.ts` are the same thing seen from four sides. The same reckonings run on a page
//! (`main.rs`), off its main thread (`bin/worker.rs`) and at a terminal (`bin/reckon.rs`).

#[cfg(feature = "screen")]
pub mod app;
pub mod handbook;
pub mod keep;
pub mod measure;
pub mod nursery;
pub mod reckon;
pub mod science;
