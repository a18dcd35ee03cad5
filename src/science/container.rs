//! A pot as a container: its volume, and the mean water in it once it has drained.
//!
//! Water in a pot that stands still hangs from the water level: the suction at a
//! height above the level, in cm of water, is that height in cm. So a tall pot
//! drains better than a short one of the same mix.

use std::f64::consts::PI;

use super::numerics::quadrature::integral_in_pieces;
use crate::measure::{Area, Length, Volume};

/// The inside of a pot: its cross-section grows in a straight line from the base to the rim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vessel {
    /// Area of the cross-section over the square of its breadth: π/4 for round, 1 for square.
    form: f64,
    base_cm: f64,
    rim_cm: f64,
    height_cm: f64,
}

impl Vessel {
    /// A round pot from its inside diameters at base and rim and its inside height.
    #[must_use]
    pub fn round(base: Length, rim: Length, height: Length) -> Self {
        Self::tapered(PI / 4.0, base, rim, height)
    }

    /// A square pot from its inside widths at base and rim and its inside height.
    #[must_use]
    pub fn square(base: Length, rim: Length, height: Length) -> Self {
        Self::tapered(1.0, base, rim, height)
    }

    /// A straight-sided pot of a volume and an inside height.
    #[must_use]
    pub fn straight(volume: Volume, height: Length) -> Self {
        let width = Length::from_metres((volume.in_cubic_metres() / height.in_metres()).sqrt());
        Self::square(width, width, height)
    }

    fn tapered(form: f64, base: Length, rim: Length, height: Length) -> Self {
        Self {
            form,
            base_cm: base.in_centimetres(),
            rim_cm: rim.in_centimetres(),
            height_cm: height.in_centimetres(),
        }
    }

    /// The inside height from the base to the rim.
    #[must_use]
    pub fn height(&self) -> Length {
        Length::from_centimetres(self.height_cm)
    }

    /// The inside breadth (diameter, or width of a square) at a height above the base.
    #[must_use]
    pub fn breadth_at(&self, height: Length) -> Length {
        Length::from_centimetres(self.breadth_cm(height.in_centimetres()))
    }

    /// The area of the base inside.
    #[must_use]
    pub fn base_area(&self) -> Area {
        Area::from_square_centimetres(self.area_cm2(0.0))
    }

    /// The area inside at a height above the base.
    #[must_use]
    pub fn area_at(&self, height: Length) -> Area {
        Area::from_square_centimetres(self.area_cm2(height.in_centimetres()))
    }

    /// The area of the base, were it so much wider on each side.
    #[must_use]
    pub fn base_spread_by(&self, aside: Length) -> Area {
        let breadth_cm = self.base_cm + 2.0 * aside.in_centimetres();
        Area::from_square_centimetres(self.form * breadth_cm * breadth_cm)
    }

    /// The volume from the base up to a fill height, by the frustum rule.
    ///
    /// V = form H/3 (b² + b t + t²). Source: any table of solids; for pots, Hershey 1988, HortScience 23:626.
    #[must_use]
    pub fn volume_to(&self, fill: Length) -> Volume {
        let fill_cm = fill.in_centimetres();
        let (base, top) = (self.base_cm, self.breadth_cm(fill_cm));
        let cubic_centimetres = self.form * fill_cm / 3.0 * (base * base + base * top + top * top);
        Volume::from_millilitres(cubic_centimetres)
    }

    fn breadth_cm(&self, height_cm: f64) -> f64 {
        self.base_cm + (self.rim_cm - self.base_cm) * height_cm / self.height_cm
    }

    fn area_cm2(&self, height_cm: f64) -> f64 {
        self.form * self.breadth_cm(height_cm).powi(2)
    }

    /// The mean over the filled volume of something that depends on the suction alone.
    ///
    /// `water_level` is the height of the free water above the base: nought for a pot that has
    /// drained through an open base, above it for a pot standing in water, below it for a pot
    /// on a bed that is in touch with water further down. Source: Milks, Fonteno & Larson 1989,
    /// Journal of the American Society for Horticultural Science 114:53 (the container integral),
    /// by quadrature.
    pub fn mean_over(
        &self,
        fill: Length,
        water_level: Length,
        mut at_suction_cm: impl FnMut(f64) -> f64,
    ) -> f64 {
        /// The curve is steepest just above the water, so the first part is integrated by itself.
        const FIRST_PART: f64 = 0.25;
        let fill_cm = fill.in_centimetres();
        let level_cm = water_level.in_centimetres();
        let wet_cm = level_cm.clamp(0.0, fill_cm);
        let knee_cm = wet_cm + FIRST_PART * (fill_cm - wet_cm);
        let sum = integral_in_pieces(&[0.0, wet_cm, knee_cm, fill_cm], |z_cm| {
            self.area_cm2(z_cm) * at_suction_cm((z_cm - level_cm).max(0.0))
        });
        sum / self.volume_to(fill).in_millilitres()
    }
}
