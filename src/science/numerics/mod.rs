//! The arithmetic the sciences share: roots of one unknown, integrals over an
//! interval, and seeded draws that can be repeated.

pub mod draws;
pub mod quadrature;
pub mod roots;
