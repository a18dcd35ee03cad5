//! The arithmetic the sciences share: roots of one unknown, integrals over an
//! interval, small sets of linear equations, and seeded draws that can be repeated.

pub mod draws;
pub mod linear;
pub mod quadrature;
pub mod roots;
