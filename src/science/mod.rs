//! Floor 1: pure physics, agronomy and statistics.
//!
//! Numbers with units go in, numbers with units come out. Nothing here knows a
//! nursery, a screen or a judgement; nothing rounds and nothing formats.
//! Outside inner loops units are in the types of [`crate::measure`]; inside
//! them they are in the names (`suction_cm`).
//!
//! * [`retention`]: how much water a medium holds at a suction.
//! * [`conductivity`]: how fast water moves in it at that suction.
//! * [`flow`]: water on its way from a tray through a bed and a root ball.
//! * [`container`]: the same, averaged over a pot that stands and drains.
//! * [`packing`]: the volume lost when coarse and fine are mixed.
//! * [`blend`]: mass balance of a mix on the volume that is left.
//! * [`numerics`]: roots, integrals and seeded draws.

pub mod blend;
pub mod conductivity;
pub mod container;
pub mod flow;
pub mod numerics;
pub mod packing;
pub mod retention;
