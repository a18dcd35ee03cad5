//! What the outside world says of heat under glass.
//!
//! * `ground`: handbook solutions of conduction against general-purpose libraries, standards' worked values,
//!   published measurements of ground.
//! * `films`: standards' tables and the correlations of another library.
//! * `air`: the hours of a day against open hourly data; the balance of a house; published lifts.
//! * `column`: standings against an independent solver, and what must hold whatever the case.
//! * `growth`: published trials of warmth at the root.
//! * `cost`: published bench loads.
//! * `water`: open water by arithmetic.
//! * `fit`: known coefficients found again from readings with errors.
//!
//! Values of general-purpose libraries are in `../reference/heat.json`, made by `../reference/heat.py`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod air;
mod column;
mod common;
mod cost;
mod films;
mod fit;
mod ground;
mod growth;
mod water;
