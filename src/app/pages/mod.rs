//! The pages: one per reckoning, and the places to go.

pub mod look_up;
pub mod mix;
pub mod reckon;
pub mod reckoning;
pub mod settings;
