//! The kitchen drain test: what a vessel of one's own material weighs soaked, drained and dry, and
//! what that tells of its pores.
//!
//! A vessel with holes in its base is filled with damp material to a mark, soaked from below with
//! the holes taped, weighed, drained on a grid, and weighed again. All masses are without the vessel.
//!
//! * [`DrainTest::found`]: pore space, water, air and density, each with its standard error.
//! * [`fit`]: a retention curve of a class of material, fitted to them.
//! * `words`: the sentences.

pub mod fit;
mod words;

use std::fmt;

use crate::measure::range::STANDARD_NORMAL_90;
use crate::measure::{Density, Fraction, Length, Mass, Quantity, Range, Volume};

/// One vessel filled, soaked and drained.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Filling {
    /// Volume of the vessel up to the mark.
    pub volume: Volume,
    /// Height from the base to the mark, inside; the sides are straight.
    pub height: Length,
    /// Damp material filled in.
    pub filled: Mass,
    /// Soaked, the holes taped.
    pub soaked: Mass,
    /// Drained.
    pub drained: Mass,
    /// Dried to constant mass, if it was.
    pub dry: Option<Mass>,
}

/// A drain test.
#[derive(Clone, Debug, PartialEq)]
pub struct DrainTest {
    /// The fillings, one or more, in vessels of one or more heights.
    pub fillings: Vec<Filling>,
    /// Water in the damp material as it was filled, as a share of its mass (0 to 0.95); needed
    /// where no filling was dried.
    pub moisture: Option<Range<Fraction>>,
    /// The step in which the scale shows.
    pub scale_step: Mass,
}

/// Which weight or size is not right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// All of it.
    Whole,
    /// [`Filling::volume`].
    Volume,
    /// [`Filling::height`].
    Height,
    /// [`Filling::filled`].
    Filled,
    /// [`Filling::soaked`].
    Soaked,
    /// [`Filling::drained`].
    Drained,
    /// [`Filling::dry`].
    Dry,
    /// [`DrainTest::moisture`].
    Moisture,
    /// [`DrainTest::scale_step`].
    ScaleStep,
}

/// Why weights cannot be those of a drain test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Why {
    /// There is no filling.
    NoFilling,
    /// A size or a weight is nought, below it, or no number.
    NotAboveNought,
    /// A vessel lower than 2 cm or taller than 1 m.
    HeightOutOfReach,
    /// Neither dried nor its moisture known.
    DryUnknown,
    /// Moisture outside 0 to 0.95.
    MoistureOutOfReach,
    /// Dry it weighs more than it did damp.
    DryMoreThanFilled,
    /// Drained it weighs less than dry.
    DrainedLessThanDry,
    /// Drained it weighs more than soaked.
    DrainedMoreThanSoaked,
    /// Soaked it weighs less than it did damp.
    SoakedLessThanFilled,
    /// More water than the vessel has room for: how many times as much.
    MoreWaterThanVessel {
        /// Litres of water for each litre of the vessel.
        times: f64,
    },
    /// Denser than any potting material, g/L.
    TooDense {
        /// Dry bulk density, g/L.
        grams_per_litre: f64,
    },
    /// The numbers leave no curve.
    NoCurve,
}

/// A drain test that is refused: at which filling, which of its numbers, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Refusal {
    /// Place of the filling, from nought.
    pub filling: Option<usize>,
    /// The number.
    pub field: Field,
    /// Why.
    pub why: Why,
}

impl fmt::Display for Refusal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&words::refusal(self.why))
    }
}

impl std::error::Error for Refusal {}

/// What is odd about a test that is not refused.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remark {
    /// The soaked pore space is so much less than the solids leave room for: air was trapped.
    AirTrapped {
        /// By how much, fraction of volume.
        short_by: f64,
    },
    /// The soaked pore space is so much more than the solids leave room for.
    MoreThanSolidsLeave {
        /// By how much, fraction of volume.
        over_by: f64,
    },
    /// A filling was packed more than 8 % denser or looser than the others.
    PackedOtherwise {
        /// Place of the filling, from nought.
        filling: usize,
    },
    /// No curve of the class's shape fits.
    NotLikeTheClass,
}

impl fmt::Display for Remark {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&words::remark(*self))
    }
}

/// A figure with its standard error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// The figure.
    pub best: f64,
    /// One standard deviation of its error.
    pub standard_error: f64,
}

impl Estimate {
    /// Its 1-in-10 and 9-in-10 limits, kept between `least` and `most`.
    #[must_use]
    pub fn range_within(&self, least: f64, most: f64) -> Range<f64> {
        let spread = STANDARD_NORMAL_90 * self.standard_error;
        let cut = |figure: f64| figure.max(least).min(most);
        let (low, best, high) = (
            cut(self.best - spread),
            cut(self.best),
            cut(self.best + spread),
        );
        // In order by construction; only what is not a number falls through.
        Range::new(low, best, high).unwrap_or_else(|_| Range::exact(best))
    }
}

/// What was found with vessels of one height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtHeight {
    /// Height from base to mark.
    pub height: Length,
    /// How many fillings.
    pub fillings: usize,
    /// Mean water once drained, fraction of volume.
    pub water: Estimate,
    /// Mean air once drained, fraction of volume: soaked less drained.
    pub air: Estimate,
    /// The same air by weights alone, after [`air_by_weights`], for where air was trapped in the soaking.
    pub air_by_weights: f64,
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Pore space that water enters, fraction of volume.
    pub pore_space: Estimate,
    /// Dry bulk density, g/L.
    pub dry_density_g_per_l: Estimate,
    /// Water and air by height, lowest first.
    pub at_heights: Vec<AtHeight>,
    /// What is odd.
    pub remarks: Vec<Remark>,
    /// Covariance of the errors of the pore space and of the water at each height.
    pub(crate) covariance: Vec<Vec<f64>>,
}

/// Errors of a kitchen drain test, each one standard deviation (common practice, no source).
mod error {
    /// The vessel's volume, as a share of it; the same for all fillings of one vessel.
    pub const VOLUME: f64 = 0.01;
    /// The level of the material, cm.
    pub const LEVEL_CM: f64 = 0.2;
    /// How much denser or looser it is packed than usual, as a share of the density.
    pub const PACKING: f64 = 0.03;
    /// Water follows packing by this much: pressed material holds more, but not all of it.
    pub const WATER_FOLLOWS: f64 = 0.5;
    /// Drops that hang on or fall, fraction of the vessel's volume.
    pub const DRIP: f64 = 0.01;
    /// The brim of the soaked vessel and air left in it, fraction of the vessel's volume.
    pub const SOAK: f64 = 0.01;
    /// A moisture estimated without drying, where only its best is known, as a share of mass.
    pub const MOISTURE: f64 = 0.01;
}

/// Vessels whose heights differ by less are of one height, cm.
const SAME_HEIGHT_CM: f64 = 0.2;

/// One filling as numbers.
struct Weighed {
    volume_ml: f64,
    height_cm: f64,
    filled_g: f64,
    soaked_g: f64,
    drained_g: f64,
    dry_g: f64,
    dried: bool,
}

impl Weighed {
    fn pore_space(&self) -> f64 {
        (self.soaked_g - self.dry_g) / self.volume_ml
    }
    fn water(&self) -> f64 {
        (self.drained_g - self.dry_g) / self.volume_ml
    }
    fn air(&self) -> f64 {
        (self.soaked_g - self.drained_g) / self.volume_ml
    }
    /// g/mL.
    fn density(&self) -> f64 {
        self.dry_g / self.volume_ml
    }
    /// Errors of pore space, water, air and density (g/mL), one for each cause: those of this
    /// filling alone first, then those it shares with others of its vessel, then with all.
    fn errors(&self, step_g: f64, moisture_error: f64) -> [Vec<[f64; 4]>; 3] {
        let figures = [self.pore_space(), self.water(), self.air(), self.density()];
        let of_volume = |share: f64| figures.map(|figure| -share * figure);
        // A reading to a step is even within it: its standard deviation is the step over √12.
        let weighing = step_g / 12f64.sqrt() / self.volume_ml;
        let water_follows = error::PACKING * error::WATER_FOLLOWS * self.water();
        let pores_close = error::PACKING * (1.0 - self.pore_space()).max(0.0);
        let mut own = vec![
            of_volume(error::LEVEL_CM / self.height_cm),
            [
                -pores_close,
                water_follows,
                -pores_close - water_follows,
                error::PACKING * self.density(),
            ],
            [0.0, error::DRIP, -error::DRIP, 0.0],
            [error::SOAK, 0.0, error::SOAK, 0.0],
            [weighing, 0.0, weighing, 0.0],
            [0.0, weighing, -weighing, 0.0],
        ];
        let mut of_all = Vec::new();
        if self.dried {
            own.push([-weighing, -weighing, 0.0, weighing]);
        } else {
            let dry = moisture_error * self.filled_g / self.volume_ml;
            of_all.push([-dry, -dry, 0.0, dry]);
        }
        [own, vec![of_volume(error::VOLUME)], of_all]
    }
}

impl DrainTest {
    /// Pore space, water, air and density, each with its standard error.
    ///
    /// Pore space = (soaked - dry)/(ρ V), water = (drained - dry)/(ρ V), air = (soaked - drained)/(ρ V),
    /// density = dry/V, with ρ = 1 g/mL (0.3 % off at most from 4 to 25 °C). Means over the fillings.
    /// `particle_density` is that of the solids with their closed pores, if known: pore space that is
    /// more than 0.05 away from 1 - density/particle density is remarked on.
    /// Source: the definitions of EN 13041 and of container tests; errors by the rule for small
    /// independent errors, from the causes in this module, and not below what repeats show.
    ///
    /// # Errors
    /// [`Refusal`] where the weights cannot be.
    pub fn found(&self, particle_density: Option<Density>) -> Result<Found, Refusal> {
        let (weighed, moisture_error) = self.weighed()?;
        let step_g = self.scale_step.in_grams();
        let heights = heights(&weighed);
        let many = weighed.len() as f64;
        let place_of = |filling: &Weighed| {
            heights
                .iter()
                .position(|height| (height - filling.height_cm).abs() < SAME_HEIGHT_CM)
                .unwrap_or(0)
        };
        let counts: Vec<f64> = (0..heights.len())
            .map(|place| {
                weighed
                    .iter()
                    .filter(|filling| place_of(filling) == place)
                    .count() as f64
            })
            .collect();
        let mean_at = |place: usize, of: fn(&Weighed) -> f64| {
            let here = weighed.iter().filter(|filling| place_of(filling) == place);
            here.map(of).sum::<f64>() / counts[place]
        };
        let mean = |of: fn(&Weighed) -> f64| weighed.iter().map(of).sum::<f64>() / many;

        // How far each cause moves pore space, density, and water and air at each height.
        let figures = 2 + 2 * heights.len();
        let moved = |filling: &Weighed, [pore, water, air, density]: [f64; 4]| {
            let place = place_of(filling);
            let mut moved = vec![0.0; figures];
            moved[0] = pore / many;
            moved[1] = density / many;
            moved[2 + 2 * place] = water / counts[place];
            moved[3 + 2 * place] = air / counts[place];
            moved
        };
        let mut own: Vec<Vec<f64>> = Vec::new();
        let mut of_vessel = vec![vec![0.0; figures]; heights.len()];
        let mut of_all = vec![0.0; figures];
        let add = |to: &mut Vec<f64>, more: Vec<f64>| {
            for (to, more) in to.iter_mut().zip(more) {
                *to += more;
            }
        };
        for filling in &weighed {
            let [alone, vessel, all] = filling.errors(step_g, moisture_error);
            own.extend(alone.into_iter().map(|error| moved(filling, error)));
            for error in vessel {
                add(&mut of_vessel[place_of(filling)], moved(filling, error));
            }
            for error in all {
                add(&mut of_all, moved(filling, error));
            }
        }
        let wider = wider_by_repeats(&weighed, step_g, place_of);
        for error in own.iter_mut().flatten() {
            *error *= wider;
        }
        let causes: Vec<Vec<f64>> = own.into_iter().chain(of_vessel).chain([of_all]).collect();
        let covariance =
            |i: usize, j: usize| -> f64 { causes.iter().map(|cause| cause[i] * cause[j]).sum() };
        let estimate = |best: f64, place: usize| Estimate {
            best,
            standard_error: covariance(place, place).sqrt(),
        };

        let density = mean(Weighed::density);
        let pore_space = mean(Weighed::pore_space);
        let mut remarks = packed_otherwise(&weighed);
        if let Some(particle) = particle_density {
            remarks.extend(against_solids(
                pore_space,
                1.0 - density / (particle.in_grams_per_litre() / 1000.0),
            ));
        }
        let of_fit: Vec<usize> = [0]
            .into_iter()
            .chain((0..heights.len()).map(|place| 2 + 2 * place))
            .collect();
        Ok(Found {
            pore_space: estimate(pore_space, 0),
            dry_density_g_per_l: {
                let per_ml = estimate(density, 1);
                Estimate {
                    best: per_ml.best * 1000.0,
                    standard_error: per_ml.standard_error * 1000.0,
                }
            },
            at_heights: heights
                .iter()
                .enumerate()
                .map(|(place, &height_cm)| AtHeight {
                    height: Length::from_centimetres(height_cm),
                    fillings: counts[place] as usize,
                    water: estimate(mean_at(place, Weighed::water), 2 + 2 * place),
                    air: estimate(mean_at(place, Weighed::air), 3 + 2 * place),
                    air_by_weights: air_by_weights(
                        mean_at(place, |filling| filling.drained_g / filling.volume_ml),
                        mean_at(place, Weighed::density),
                    ),
                })
                .collect(),
            remarks,
            covariance: of_fit
                .iter()
                .map(|&i| of_fit.iter().map(|&j| covariance(i, j)).collect())
                .collect(),
        })
    }

    /// The fillings as numbers, and the standard error of the moisture.
    fn weighed(&self) -> Result<(Vec<Weighed>, f64), Refusal> {
        let refuse = |filling: Option<usize>, field: Field, why: Why| Refusal {
            filling,
            field,
            why,
        };
        if self.fillings.is_empty() {
            return Err(refuse(None, Field::Whole, Why::NoFilling));
        }
        if !above_nought(self.scale_step) {
            return Err(refuse(None, Field::ScaleStep, Why::NotAboveNought));
        }
        let (moisture, moisture_error) = self.known_moisture()?;
        let mut weighed = Vec::with_capacity(self.fillings.len());
        for (place, filling) in self.fillings.iter().enumerate() {
            let refuse = |field: Field, why: Why| Refusal {
                filling: Some(place),
                field,
                why,
            };
            let sizes = [
                (Field::Volume, above_nought(filling.volume)),
                (Field::Height, above_nought(filling.height)),
                (Field::Filled, above_nought(filling.filled)),
                (Field::Soaked, above_nought(filling.soaked)),
                (Field::Drained, above_nought(filling.drained)),
                (Field::Dry, filling.dry.is_none_or(above_nought)),
            ];
            if let Some((field, _)) = sizes.into_iter().find(|(_, right)| !right) {
                return Err(refuse(field, Why::NotAboveNought));
            }
            let dry_g = match (filling.dry, moisture) {
                (Some(dry), _) => dry.in_grams(),
                (None, Some(moisture)) => filling.filled.in_grams() * (1.0 - moisture),
                (None, None) => return Err(refuse(Field::Dry, Why::DryUnknown)),
            };
            let numbers = Weighed {
                volume_ml: filling.volume.in_millilitres(),
                height_cm: filling.height.in_centimetres(),
                filled_g: filling.filled.in_grams(),
                soaked_g: filling.soaked.in_grams(),
                drained_g: filling.drained.in_grams(),
                dry_g,
                dried: filling.dry.is_some(),
            };
            if let Some((field, why)) = impossible(&numbers, self.scale_step.in_grams()) {
                return Err(refuse(field, why));
            }
            weighed.push(numbers);
        }
        Ok((weighed, moisture_error))
    }

    /// Moisture of the damp material, fraction of its mass, and its standard error: as it was
    /// given, or from the fillings that were dried.
    fn known_moisture(&self) -> Result<(Option<f64>, f64), Refusal> {
        /// Wetter than this it runs.
        const MOST: f64 = 0.95;
        if let Some(range) = &self.moisture {
            let within = |share: Fraction| (0.0..=MOST).contains(&share.in_fraction());
            if !(within(range.low()) && within(range.best()) && within(range.high())) {
                return Err(Refusal {
                    filling: None,
                    field: Field::Moisture,
                    why: Why::MoistureOutOfReach,
                });
            }
            let spread = range.high().in_fraction() - range.low().in_fraction();
            let error = (spread / (2.0 * STANDARD_NORMAL_90)).max(error::MOISTURE / 2.0);
            return Ok((Some(range.best().in_fraction()), error));
        }
        let dried = self.fillings.iter().filter_map(|filling| {
            let wet = filling.filled.in_grams();
            filling.dry.map(|dry| 1.0 - dry.in_grams() / wet)
        });
        let shares: Vec<f64> = dried.collect();
        if shares.is_empty() {
            return Ok((None, 0.0));
        }
        let mean = shares.iter().sum::<f64>() / shares.len() as f64;
        Ok((Some(mean.max(0.0)), error::MOISTURE))
    }
}

fn above_nought<Q: Quantity>(quantity: Q) -> bool {
    quantity.to_base() > 0.0 && quantity.to_base().is_finite()
}

/// What cannot be about a filling, if anything. A step of the scale either way is let pass.
fn impossible(filling: &Weighed, step_g: f64) -> Option<(Field, Why)> {
    /// Water beyond the vessel that errors of volume and brim can explain.
    const MOST_WATER: f64 = 1.03;
    /// No loose material that plants grow in is denser, g/mL.
    const DENSEST: f64 = 2.2;
    const HEIGHTS_CM: std::ops::RangeInclusive<f64> = 2.0..=100.0;
    let more = |one: f64, other: f64| one > other + step_g;
    if !HEIGHTS_CM.contains(&filling.height_cm) {
        Some((Field::Height, Why::HeightOutOfReach))
    } else if more(filling.dry_g, filling.filled_g) {
        Some((Field::Dry, Why::DryMoreThanFilled))
    } else if more(filling.dry_g, filling.drained_g) {
        Some((Field::Drained, Why::DrainedLessThanDry))
    } else if more(filling.drained_g, filling.soaked_g) {
        Some((Field::Drained, Why::DrainedMoreThanSoaked))
    } else if more(filling.filled_g, filling.soaked_g) {
        Some((Field::Soaked, Why::SoakedLessThanFilled))
    } else if filling.density() > DENSEST {
        let grams_per_litre = filling.density() * 1000.0;
        Some((Field::Filled, Why::TooDense { grams_per_litre }))
    } else if filling.pore_space() > MOST_WATER {
        let times = filling.pore_space();
        Some((Field::Soaked, Why::MoreWaterThanVessel { times }))
    } else {
        None
    }
}

/// The heights there are, lowest first, cm.
fn heights(weighed: &[Weighed]) -> Vec<f64> {
    let mut heights: Vec<f64> = weighed.iter().map(|filling| filling.height_cm).collect();
    heights.sort_by(f64::total_cmp);
    let mut apart: Vec<f64> = Vec::new();
    for height in heights {
        if apart
            .last()
            .is_none_or(|last| height - last >= SAME_HEIGHT_CM)
        {
            apart.push(height);
        }
    }
    apart
}

/// Fillings more than 8 % denser or looser than the mean of the others.
fn packed_otherwise(weighed: &[Weighed]) -> Vec<Remark> {
    const MOST: f64 = 0.08;
    let sum: f64 = weighed.iter().map(Weighed::density).sum();
    let others = weighed.len() as f64 - 1.0;
    let apart = |filling: &Weighed| {
        let others = (sum - filling.density()) / others;
        (filling.density() / others - 1.0).abs() > MOST
    };
    weighed
        .iter()
        .enumerate()
        .filter(|(_, filling)| others > 0.0 && apart(filling))
        .map(|(filling, _)| Remark::PackedOtherwise { filling })
        .collect()
}

/// Pore space against what the solids leave room for.
fn against_solids(pore_space: f64, room: f64) -> Option<Remark> {
    const MOST_APART: f64 = 0.05;
    if pore_space < room - MOST_APART {
        Some(Remark::AirTrapped {
            short_by: room - pore_space,
        })
    } else if pore_space > room + MOST_APART {
        Some(Remark::MoreThanSolidsLeave {
            over_by: pore_space - room,
        })
    } else {
        None
    }
}

/// How much larger the errors of single fillings are than taken here, by how far repeats of one
/// vessel lie apart; never smaller, for a few repeats may agree by luck. The errors taken here weigh
/// as much as so many repeats.
fn wider_by_repeats(weighed: &[Weighed], step_g: f64, place_of: impl Fn(&Weighed) -> usize) -> f64 {
    const WEIGHT: f64 = 6.0;
    let figures: [fn(&Weighed) -> f64; 2] = [Weighed::pore_space, Weighed::water];
    let widest = figures.into_iter().enumerate().map(|(which, figure)| {
        let (mut sum, mut free) = (0.0, 0.0);
        let places: Vec<usize> = weighed.iter().map(&place_of).collect();
        for (filling, place) in weighed.iter().zip(&places) {
            let here: Vec<f64> = weighed
                .iter()
                .zip(&places)
                .filter(|(_, other)| *other == place)
                .map(|(other, _)| figure(other))
                .collect();
            let mean = here.iter().sum::<f64>() / here.len() as f64;
            let [own, ..] = filling.errors(step_g, 0.0);
            let taken: f64 = own.iter().map(|error| error[which].powi(2)).sum();
            sum += (figure(filling) - mean).powi(2) / taken;
            free += 1.0 - 1.0 / here.len() as f64;
        }
        ((WEIGHT + sum) / (WEIGHT + free)).sqrt()
    });
    widest.fold(1.0, f64::max)
}

/// Air in a drained material by weights alone, fraction of the drained volume: needs no particle
/// density, and no soaking that trapped air could falsify.
///
/// AFP % = 96.7 - (100 WW - 61.9 WD)/DV, from `drained` (WW/DV) and `dry` (WD/DV) in g/mL.
/// Not where closed pores are many (polystyrene, coarse perlite).
/// Source: Waller, Bragg & Rodgers 1993, Acta Horticulturae 342:183 (abstract).
#[must_use]
pub fn air_by_weights(drained_g_per_ml: f64, dry_g_per_ml: f64) -> f64 {
    (96.7 - (100.0 * drained_g_per_ml - 61.9 * dry_g_per_ml)) / 100.0
}

/// Pore space by the dry density alone, fraction of volume.
///
/// PS % = 96.72 - 0.038 VW with VW in g/L; from 238 substrates, not where closed pores are many.
/// Source: Acta Horticulturae 294, article 2 (1991, abstract).
#[must_use]
pub fn pore_space_by_density(dry_g_per_l: f64) -> f64 {
    (96.72 - 0.038 * dry_g_per_l) / 100.0
}

/// Air of a drained material by its dry and its drained density, fraction of volume.
///
/// AV % = 96.72 + 0.062 VW - 100 DD, with VW in g/L and DD in g/mL.
/// Source: as [`pore_space_by_density`].
#[must_use]
pub fn air_by_densities(dry_g_per_l: f64, drained_g_per_ml: f64) -> f64 {
    (96.72 + 0.062 * dry_g_per_l - 100.0 * drained_g_per_ml) / 100.0
}

/// Mean water content between two suctions, fraction of volume, from the mean water of two drained
/// straight vessels: (H₂ θ₂ - H₁ θ₁)/(H₂ - H₁), with heights in any one unit, H₂ above H₁.
///
/// Source: the derivative of the container integral, d(H θ̄)/dH = θ(H); Milks, Fonteno & Larson 1989,
/// Journal of the American Society for Horticultural Science 114:53 (the integral).
#[must_use]
pub fn water_between((low, water_low): (f64, f64), (tall, water_tall): (f64, f64)) -> f64 {
    (tall * water_tall - low * water_low) / (tall - low)
}
