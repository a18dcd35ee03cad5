//! Complex numbers, as far as waves of heat need them.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A complex number: a swing and its place in the cycle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Complex {
    /// The real part.
    pub re: f64,
    /// The imaginary part.
    pub im: f64,
}

impl Complex {
    /// Nought.
    pub const ZERO: Self = Self::new(0.0, 0.0);
    /// One.
    pub const ONE: Self = Self::new(1.0, 0.0);
    /// The square root of -1.
    pub const I: Self = Self::new(0.0, 1.0);

    /// From its two parts.
    #[must_use]
    pub const fn new(re: f64, im: f64) -> Self {
        Self { re, im }
    }

    /// A number of the real line.
    #[must_use]
    pub const fn real(re: f64) -> Self {
        Self::new(re, 0.0)
    }

    /// e^(i angle), the angle in radians.
    #[must_use]
    pub fn turned(angle: f64) -> Self {
        Self::new(angle.cos(), angle.sin())
    }

    /// Its size.
    #[must_use]
    pub fn size(self) -> f64 {
        self.re.hypot(self.im)
    }

    /// Its angle, radians, from -π to π.
    #[must_use]
    pub fn angle(self) -> f64 {
        self.im.atan2(self.re)
    }

    /// The square root with a real part of nought or more.
    #[must_use]
    pub fn sqrt(self) -> Self {
        Self::turned(self.angle() / 2.0) * self.size().sqrt()
    }

    /// e to its power.
    #[must_use]
    pub fn exp(self) -> Self {
        Self::turned(self.im) * self.re.exp()
    }

    /// The hyperbolic cosine and sine.
    #[must_use]
    pub fn cosh_and_sinh(self) -> (Self, Self) {
        (
            Self::new(
                self.re.cosh() * self.im.cos(),
                self.re.sinh() * self.im.sin(),
            ),
            Self::new(
                self.re.sinh() * self.im.cos(),
                self.re.cosh() * self.im.sin(),
            ),
        )
    }

    /// The hyperbolic cotangent of a number whose real part is above nought: (1 + e^-2z)/(1 - e^-2z),
    /// which no large number overflows.
    #[must_use]
    pub fn coth(self) -> Self {
        let fades = (self * -2.0).exp();
        (Self::ONE + fades) / (Self::ONE - fades)
    }
}

impl Add for Complex {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.re + other.re, self.im + other.im)
    }
}

impl Sub for Complex {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.re - other.re, self.im - other.im)
    }
}

impl Neg for Complex {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.re, -self.im)
    }
}

impl Mul for Complex {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::new(
            self.re * other.re - self.im * other.im,
            self.re * other.im + self.im * other.re,
        )
    }
}

impl Mul<f64> for Complex {
    type Output = Self;
    fn mul(self, times: f64) -> Self {
        Self::new(self.re * times, self.im * times)
    }
}

impl Div for Complex {
    type Output = Self;
    fn div(self, by: Self) -> Self {
        let square = by.re * by.re + by.im * by.im;
        Self::new(
            (self.re * by.re + self.im * by.im) / square,
            (self.im * by.re - self.re * by.im) / square,
        )
    }
}
