//! Longtom.
pub mod handbook;
pub mod keep;
pub mod measure;
pub mod reckon;
pub mod science;
