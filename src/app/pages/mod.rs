//! The pages: one per reckoning, and the places to go.

pub mod bed;
pub mod beside;
pub mod bring_in;
pub mod day_book;
pub mod look_up;
pub mod mix;
pub mod moving_on;
pub mod nursery;
pub mod recipe;
pub mod reckon;
pub mod reckoning;
pub mod rinse;
pub mod root_zone;
pub mod season;
pub mod settings;
pub mod thing;
