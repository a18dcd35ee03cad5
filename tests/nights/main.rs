//! What the outside world says of coming nights.
//!
//! * `reference`: chances, means and spreads against general-purpose libraries.
//! * `properties`: what must hold whatever the case.
//! * `back_test`: forecasts against nights that were measured.
//!
//! Values of general-purpose libraries are in `../reference/nights.json`, made by
//! `../reference/nights.py`; measured minima with their sources in `../reference/minima.txt`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod back_test;
mod common;
mod properties;
mod reference;
