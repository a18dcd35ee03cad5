//! The arithmetic the sciences share: roots of one unknown, integrals over an
//! interval, small sets of linear equations, complex numbers, the error function,
//! and seeded draws that can be repeated.

pub mod complex;
pub mod draws;
pub mod error_function;
pub mod linear;
pub mod quadrature;
pub mod roots;
