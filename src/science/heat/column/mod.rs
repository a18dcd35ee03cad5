//! The column of pot, tray and bench: how warm roots are, hour by hour, on the floor, raised, or on a heated
//! bench.
//!
//! | file | what it holds |
//! |---|---|
//! | [`standing`] | what stands on what: pots, tray, floor or gap, heater, cover |
//! | [`course`] | the air, the sun and the cover of the house above it, through the hours |
//! | `network` | the same as capacities and conductances, for each square metre |
//! | `bordered` | equations of a chain of nodes that share one air above |
//! | `stepping` | from one time to the next, the thermostat acting when it acts |
//! | `settling` | the day that repeats itself |
//! | `holding` | the power that holds a temperature on the coldest night |
//! | [`record`] | what became of each place, and where the heat went |
//!
//! **Places** follow one another upwards: the ground in thin layers down to a known temperature, the surface of
//! the floor, the underside of a raised tray or bench, the heater, the water of the tray, a bed in it, and
//! the pots in thirds. Surfaces without heat of their own (the top of the mix, pot walls, open water) are
//! worked out from what lies behind them. Under a closed cover all share its air, which has no heat of
//! its own either.
//!
//! **Steps** are implicit, of the second order and damp what is stiff: two stages with γ = 1 - 1/√2, the
//! last of which is the end of the step (Alexander 1977, SIAM Journal on Numerical Analysis 14:1006, theorem
//! 5). Films, radiation and evaporation are held through a step as they will be at its middle if all goes on
//! as in the step before, radiation as the coefficient that carries just the heat of the fourth powers,
//! evaporation as its tangent. What
//! leaves one place enters another to the last digit, so that the balance closes.

mod bordered;
pub mod course;
mod holding;
mod network;
pub mod record;
mod settling;
pub mod standing;
mod stepping;
mod words;

pub use course::{Course, Moment};
pub use record::{Balance, Record, Trace};
pub use settling::Settled;
pub use standing::{
    Control, Cover, Floor, Foot, Gap, Heater, Place, Pots, Refill, Side, Standing, Surface, Tray,
};
pub use stepping::{Column, Steps};
pub use words::NoColumn;
