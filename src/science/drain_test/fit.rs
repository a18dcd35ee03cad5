//! A retention curve fitted to a drain test, with its doubt.
//!
//! The curve keeps the shape of its class; its suctions are all divided by one factor k. With vessels
//! of two heights the residual water is fitted too. What the weights cannot tell stays as doubtful
//! as the class is: k is lognormal about 1, the residual water and the shape number n normal about
//! those of the class.

use super::{DrainTest, Estimate, Field, Found, Refusal, Remark, Why};
use crate::measure::{Density, Length, Range, Volume};
use crate::science::container::Vessel;
use crate::science::numerics::linear::{between, inverse, solved};
use crate::science::numerics::roots::root_between;
use crate::science::retention::{NotACurve, PoreSystem, Retention};

/// What materials of one class have in common. Judgement, not published: half a class lies within a
/// factor of 1.6 of its usual pore size, and within 3 points of its usual residual water.
pub mod class {
    /// Standard deviation of ln k.
    pub const LN_FACTOR: f64 = 0.7;
    /// Standard deviation of the residual water, fraction of volume.
    pub const RESIDUAL: f64 = 0.05;
    /// Standard deviation of ln(n - 1), the shape of how pores empty.
    pub const LN_SHAPE: f64 = 0.15;
    /// A material whose factor is not within this, either way, is not like the class.
    pub const FARTHEST_FACTOR: f64 = 10.0;
}

/// The class that the material is like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Class {
    /// Its usual curve.
    pub curve: Retention,
    /// Density of its solids with their closed pores, if known.
    pub particle_density: Option<Density>,
}

/// A curve fitted to a drain test.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// What the weights say by themselves.
    pub found: Found,
    /// The curve at its best.
    pub curve: Retention,
    /// k: how much finer its pores are than those of the class, as a factor below 1, or coarser.
    pub factor: f64,
    /// Pore space that water enters, fraction of volume.
    pub pore_space: Range<f64>,
    /// Water at 10 cm of suction, fraction of volume.
    pub water_at_10_cm: Range<f64>,
    /// Dry bulk density, g/L.
    pub dry_density_g_per_l: Range<f64>,
    /// What is odd, with what is odd about the weights.
    pub remarks: Vec<Remark>,
    class: Class,
    best: Unknowns,
    covariance: Vec<Vec<f64>>,
}

/// Suction of [`Fitted::water_at_10_cm`], cm.
const SUCTION_CM: f64 = 10.0;

/// Pore space, ln k, residual water, ln of the change of n - 1.
type Unknowns = [f64; 4];

impl Class {
    /// The curve of a material of this class.
    fn curve_of(
        &self,
        [pore_space, ln_factor, residual, ln_shape]: Unknowns,
    ) -> Result<Retention, NotACurve> {
        /// Pores that hold on to all of their water empty nothing.
        const MOST_RESIDUAL: f64 = 0.95;
        let pore_space = pore_space.clamp(0.0, 1.0);
        let like = |system: &PoreSystem| {
            PoreSystem::new(
                system.alpha_per_cm() * ln_factor.exp(),
                1.0 + (system.n() - 1.0) * ln_shape.exp(),
            )
        };
        Retention::double(
            residual.clamp(0.0, MOST_RESIDUAL * pore_space),
            pore_space,
            self.curve.coarse_share(),
            like(self.curve.coarse())?,
            like(self.curve.fine())?,
        )
    }

    /// The factor k by which suctions are to be divided so that a straight vessel of a height holds
    /// this much water once drained (fraction of volume), the pore space (fraction of volume) being
    /// given and the residual water that of the class; none within a factor of ten either way.
    ///
    /// # Errors
    /// [`NotACurve`] for a pore space outside 0 to 1.
    pub fn factor_for(
        &self,
        pore_space: f64,
        height: Length,
        water: f64,
    ) -> Result<Option<f64>, NotACurve> {
        /// Closer than any weight tells, in ln k.
        const CLOSE_ENOUGH: f64 = 1e-9;
        if !(0.0..=1.0).contains(&pore_space) {
            return Err(NotACurve::Water);
        }
        let residual = self.curve.residual();
        self.curve_of([pore_space, 0.0, residual, 0.0])?;
        let excess = |ln_factor: f64| {
            self.curve_of([pore_space, ln_factor, residual, 0.0])
                .map_or(f64::NAN, |curve| mean_water(&curve, height) - water)
        };
        let farthest = class::FARTHEST_FACTOR.ln();
        Ok(root_between(-farthest, farthest, CLOSE_ENOUGH, excess)
            .ok()
            .map(f64::exp))
    }
}

/// Mean water of a drained straight vessel, fraction of volume.
#[must_use]
pub fn mean_water(curve: &Retention, height: Length) -> f64 {
    let vessel = Vessel::straight(Volume::from_litres(1.0), height);
    let base = Length::from_millimetres(0.0);
    vessel.mean_over(height, base, |suction_cm| curve.water_content(suction_cm))
}

impl DrainTest {
    /// Fits the curve of a class to the weights.
    ///
    /// Least squares with priors: (y - m)ᵀ C⁻¹ (y - m) + (ln k/0.7)² + ((θr - θr₀)/0.05)² +
    /// (ln((n-1)/(n₀-1))/0.15)², where y holds the pore space and the water at each height, C the covariance
    /// of their errors, and m what the curve gives; by Gauss and Newton, the covariance of what is
    /// fitted by Laplace's approximation. With one height the best curve goes through its water
    /// exactly. Nothing is known from weights alone at suctions beyond twice the tallest height:
    /// there the class speaks. Source: van Genuchten 1980 and Durner 1994 for the curve; Tarantola
    /// 2005, *Inverse Problem Theory*, section 3.2, for the fit.
    ///
    /// # Errors
    /// [`Refusal`] where the weights cannot be.
    pub fn fitted(&self, class: &Class) -> Result<Fitted, Refusal> {
        let found = self.found(class.particle_density)?;
        let fit = Fit::of(&found, class);
        let refuse = |_| Refusal {
            filling: None,
            field: Field::Whole,
            why: Why::NoCurve,
        };
        let none = || refuse(());
        let (likeliest, covariance) = fit.likeliest().ok_or_else(none)?;
        let (best, like) = fit.best(likeliest, class).map_err(|_| none())?;
        let curve = class.curve_of(best).map_err(|_| none())?;
        let mut remarks = found.remarks.clone();
        if !like {
            remarks.push(Remark::NotLikeTheClass);
        }
        let mut fitted = Fitted {
            factor: best[1].exp(),
            pore_space: found.pore_space.range_within(0.0, 1.0),
            dry_density_g_per_l: found.dry_density_g_per_l.range_within(0.0, f64::MAX),
            water_at_10_cm: Range::exact(curve.water_content(SUCTION_CM)),
            found,
            curve,
            remarks,
            class: *class,
            best,
            covariance,
        };
        fitted.water_at_10_cm = fitted.water_at(SUCTION_CM);
        Ok(fitted)
    }
}

impl Fitted {
    /// Water content at a suction in cm, fraction of volume, with its limits.
    #[must_use]
    pub fn water_at(&self, suction_cm: f64) -> Range<f64> {
        let water = |unknowns: Unknowns| {
            self.class
                .curve_of(unknowns)
                .map_or(f64::NAN, |curve| curve.water_content(suction_cm))
        };
        let slope = slope(self.best, water);
        let variance = between(&slope, &self.covariance, &slope);
        Estimate {
            best: water(self.best),
            standard_error: variance.max(0.0).sqrt(),
        }
        .range_within(0.0, self.pore_space.best().min(1.0))
    }

    /// Residual water of the best curve, fraction of volume.
    #[must_use]
    pub fn residual(&self) -> f64 {
        self.curve.residual()
    }
}

/// How a figure changes with each unknown, by central differences.
fn slope(at: Unknowns, figure: impl Fn(Unknowns) -> f64) -> Unknowns {
    /// Small against any doubt, large against rounding.
    const STEP: f64 = 1e-4;
    std::array::from_fn(|which| {
        let (mut below, mut above) = (at, at);
        below[which] -= STEP;
        above[which] += STEP;
        let slope = (figure(above) - figure(below)) / (2.0 * STEP);
        if slope.is_finite() { slope } else { 0.0 }
    })
}

/// What is fitted, to what.
struct Fit<'a> {
    class: &'a Class,
    heights: Vec<Length>,
    /// Pore space and the water at each height.
    seen: Vec<f64>,
    covariance: &'a [Vec<f64>],
    usual: Unknowns,
}

impl<'a> Fit<'a> {
    fn of(found: &'a Found, class: &'a Class) -> Self {
        // What the weights say beyond a full vessel is error of the volume.
        const FULLEST: f64 = 0.995;
        let pore_space = found.pore_space.best.clamp(0.0, FULLEST);
        Self {
            class,
            heights: found.at_heights.iter().map(|at| at.height).collect(),
            seen: [pore_space]
                .into_iter()
                .chain(found.at_heights.iter().map(|at| at.water.best))
                .collect(),
            covariance: &found.covariance,
            usual: [pore_space, 0.0, class.curve.residual().min(pore_space), 0.0],
        }
    }

    fn given(&self, unknowns: Unknowns) -> Option<Vec<f64>> {
        let curve = self.class.curve_of(unknowns).ok()?;
        let water = self
            .heights
            .iter()
            .map(|&height| mean_water(&curve, height));
        Some([curve.saturated()].into_iter().chain(water).collect())
    }

    /// Inverse variances of the priors; of the pore space nothing is taken for granted.
    fn prior() -> Unknowns {
        [
            0.0,
            class::LN_FACTOR.powi(-2),
            class::RESIDUAL.powi(-2),
            class::LN_SHAPE.powi(-2),
        ]
    }

    fn misfit(&self, unknowns: Unknowns, weight: &[Vec<f64>]) -> Option<f64> {
        let apart: Vec<f64> = self
            .given(unknowns)?
            .iter()
            .zip(&self.seen)
            .map(|(given, seen)| seen - given)
            .collect();
        let prior: f64 = Self::prior()
            .iter()
            .zip(unknowns.iter().zip(&self.usual))
            .map(|(weight, (now, usual))| weight * (now - usual).powi(2))
            .sum();
        let sum = between(&apart, weight, &apart) + prior;
        sum.is_finite().then_some(sum)
    }

    /// The likeliest unknowns and their covariance.
    fn likeliest(&self) -> Option<(Unknowns, Vec<Vec<f64>>)> {
        const MOST_STEPS: usize = 60;
        const MOST_HALVINGS: usize = 12;
        const CLOSE_ENOUGH: f64 = 1e-8;
        let weight = inverse(self.covariance)?;
        let prior = Self::prior();
        let mut now = self.usual;
        let mut misfit = self.misfit(now, &weight)?;
        let mut curvature = Vec::new();
        for _ in 0..MOST_STEPS {
            let given = self.given(now)?;
            let slopes: Vec<Unknowns> = (0..given.len())
                .map(|which| {
                    slope(now, |unknowns| {
                        self.given(unknowns)
                            .and_then(|given| given.get(which).copied())
                            .unwrap_or(f64::NAN)
                    })
                })
                .collect();
            let apart: Vec<f64> = self
                .seen
                .iter()
                .zip(&given)
                .map(|(seen, given)| seen - given)
                .collect();
            let column =
                |which: usize| -> Vec<f64> { slopes.iter().map(|slope| slope[which]).collect() };
            curvature = (0..now.len())
                .map(|i| {
                    (0..now.len())
                        .map(|j| {
                            let own = if i == j { prior[i] } else { 0.0 };
                            between(&column(i), &weight, &column(j)) + own
                        })
                        .collect()
                })
                .collect::<Vec<Vec<f64>>>();
            let pull: Vec<f64> = (0..now.len())
                .map(|i| between(&column(i), &weight, &apart) - prior[i] * (now[i] - self.usual[i]))
                .collect();
            let step = solved(&curvature, &pull)?;
            let mut share = 1.0;
            let mut moved = None;
            for _ in 0..MOST_HALVINGS {
                let next: Unknowns = std::array::from_fn(|i| now[i] + share * step[i]);
                if let Some(less) = self.misfit(next, &weight).filter(|&less| less <= misfit) {
                    moved = Some((next, less));
                    break;
                }
                share /= 2.0;
            }
            let Some((next, less)) = moved else { break };
            let done = misfit - less <= CLOSE_ENOUGH * (1.0 + misfit);
            (now, misfit) = (next, less);
            if done {
                break;
            }
        }
        Some((now, inverse(&curvature)?))
    }

    /// The best unknowns, and whether the material is like its class at them. With one height the
    /// curve goes through its water by k alone; where no k within its limits does, by the residual water with k at
    /// its limit; where that does not either, it comes as near as it can. So heavier is never drier.
    fn best(&self, likeliest: Unknowns, class: &Class) -> Result<(Unknowns, bool), NotACurve> {
        /// Misfits of this many standard errors are not chance.
        const ODD: f64 = 3.0;
        let errors = (1..self.seen.len()).map(|place| self.covariance[place][place].sqrt());
        let fits = self.given(likeliest).is_some_and(|given| {
            given
                .iter()
                .zip(&self.seen)
                .skip(1)
                .zip(errors)
                .all(|((given, seen), error)| (given - seen).abs() <= ODD * error)
        });
        let near = likeliest[1].abs() <= class::FARTHEST_FACTOR.ln();
        let ([pore_space, water], [height]) = (self.seen.as_slice(), self.heights.as_slice())
        else {
            return Ok((likeliest, fits && near));
        };
        match class.factor_for(*pore_space, *height, *water)? {
            Some(factor) => Ok(([*pore_space, factor.ln(), self.usual[2], 0.0], true)),
            None => {
                let nearest = self.at_farthest(*pore_space, *height, *water)?;
                Ok((nearest, fits && near))
            }
        }
    }

    /// The unknowns with k at its limit, coarse or fine, and the residual water that comes nearest to the water of
    /// the one height.
    fn at_farthest(
        &self,
        pore_space: f64,
        height: Length,
        water: f64,
    ) -> Result<Unknowns, NotACurve> {
        const CLOSE_ENOUGH: f64 = 1e-9;
        let class = self.class;
        let farthest = class::FARTHEST_FACTOR.ln();
        let held = |ln_factor: f64, residual: f64| {
            let curve = class.curve_of([pore_space, ln_factor, residual, 0.0])?;
            Ok(mean_water(&curve, height))
        };
        let too_dry = water < held(farthest, self.usual[2])?;
        let ln_factor = if too_dry { farthest } else { -farthest };
        let (least, most) = if too_dry {
            (0.0, self.usual[2])
        } else {
            (self.usual[2], pore_space)
        };
        let excess =
            |residual: f64| held(ln_factor, residual).map_or(f64::NAN, |held| held - water);
        let residual = root_between(least, most, CLOSE_ENOUGH, excess);
        let end = if too_dry { least } else { most };
        Ok([pore_space, ln_factor, residual.unwrap_or(end), 0.0])
    }
}
