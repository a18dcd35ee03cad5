//! The air in a house without heat: hour by hour from its lowest and highest, and from the weather outside.
//!
//! | file | what it holds |
//! |---|---|
//! | [`day_shape`] | the hours of a day from its lowest and highest |
//! | [`house`] | the balance of the house: cover, leakage, sun, clear sky, ground |

pub mod day_shape;
pub mod house;
