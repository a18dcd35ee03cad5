//! One outcome of Mix from one set of inputs: at their best, or drawn.

use super::case::{Case, Part};
use crate::handbook::filling;
use crate::handbook::materials::{Nature, PoresBy, SUCTION_OF_WATER_FIGURE_CM};
use crate::handbook::thresholds::Use;
use crate::measure::Length;
use crate::science::blend::{self, Blend};
use crate::science::numerics::draws::Draws;
use crate::science::packing::{Grains, volume_lost_de_larrard_1999};
use crate::science::retention::NotACurve;

/// Suctions between which water is called easily available, cm.
pub const EASY_FROM_CM: f64 = 10.0;
/// Suctions between which water is called easily available, cm.
pub const EASY_TO_CM: f64 = 50.0;
/// Suction to which water beyond the easily available is called buffering, cm.
pub const BUFFERING_TO_CM: f64 = 100.0;

/// Everything that one outcome needs beyond the case, with its doubt resolved one way.
pub struct Inputs {
    /// The parts as they went into the bucket; shares add to one.
    pub parts: Vec<blend::Part>,
    /// How much of the hard-grain volume loss happens.
    pub share_of_loss: f64,
    /// Share of the volume lost on mixing, where a bucket showed it.
    pub measured_loss: Option<f64>,
    /// How far the widest gaps are filled first, 0 to 1.
    pub widest_first: f64,
    /// Departure of the water content below 10 cm of suction, fraction of volume.
    pub departure: f64,
    /// Loose volume that goes into the pot beyond what it holds.
    pub pressed: f64,
    /// Share spilt.
    pub spilt: f64,
}

impl Inputs {
    /// All at their best.
    pub fn best(case: &Case) -> Self {
        let parts = case
            .parts
            .iter()
            .map(|part| blend::Part {
                share: part.share,
                dry_density_kg_per_m3: part.substance.dry_density_g_per_l.best(),
                pore_space: part.substance.pore_space.best(),
                retention: part.retention,
            })
            .collect();
        Self {
            parts,
            share_of_loss: share_of_loss(case, 0.0),
            measured_loss: case.measured_loss.map(|loss| loss.best()),
            widest_first: filling::WIDEST_GAPS_FIRST.range.best(),
            departure: filling::MODEL_BELOW_10_CM.range.best(),
            pressed: filling::PRESSED_INTO_POT.range.best(),
            spilt: filling::SPILT.range.best(),
        }
    }

    /// All drawn from their ranges. A denser lot of a material has less pore space, so the two are
    /// drawn together, and so is all that comes of one way of wetting; parts as measured are drawn
    /// and then shared out anew.
    pub fn drawn(case: &Case, draws: &mut Draws) -> Result<Self, NotACurve> {
        /// At 10 cm of suction the wettest lot has this much air at least, fraction of volume
        /// (common practice, no source), or half of the best figure where that is less.
        const LEAST_AIR: f64 = 0.03;
        /// Half of what sets the pores that soaking finds apart from the table's is the lot, half
        /// is how it was wetted, which all parts of a mix share.
        const SHARED: f64 = std::f64::consts::FRAC_1_SQRT_2;
        const PORE_SPACES: std::ops::RangeInclusive<f64> = 0.05..=0.995;
        let mut parts = Vec::with_capacity(case.parts.len());
        let badly_wetted = draws.deviate();
        let trapped = filling::TRAPPED_AIR
            .range
            .at(badly_wetted)
            .clamp(0.0, filling::MOST_TRAPPED_AIR);
        for part in &case.parts {
            let substance = &part.substance;
            let denser = draws.deviate();
            let pores_at = |less: f64| {
                let pores = substance.pore_space.at(-less);
                pores.clamp(*PORE_SPACES.start(), *PORE_SPACES.end())
            };
            // What is wetted badly has less water at every suction, not at saturation alone.
            let (pore_space, left) = match substance.pores_by {
                PoresBy::Densities => (pores_at(denser), substance.left_by(trapped)),
                PoresBy::Soaking => (pores_at(SHARED * (denser + badly_wetted)), 1.0),
            };
            let wetted = match substance.pores_by {
                PoresBy::Densities => left,
                PoresBy::Soaking => pores_at(SHARED * badly_wetted) / pores_at(0.0),
            };
            let soaked = pore_space * left;
            let air = substance.pore_space.best() - substance.water_at_10_cm.best();
            let least_air = LEAST_AIR.min(air / 2.0).max(0.0);
            let water = substance.water_at_10_cm.at(draws.deviate()) * wetted;
            let wider_gaps = positive(filling::WIDER_GAPS.range.at(draws.deviate()));
            parts.push(blend::Part {
                share: part.share * positive(filling::PART_AS_MEASURED.range.at(draws.deviate())),
                dry_density_kg_per_m3: positive(substance.dry_density_g_per_l.at(denser)),
                pore_space,
                retention: substance.shape.retention_through(
                    soaked,
                    water.clamp(0.0, soaked - least_air),
                    wider_gaps,
                )?,
            });
        }
        let sum: f64 = parts.iter().map(|part| part.share).sum();
        for part in &mut parts {
            part.share /= sum;
        }
        let loss = draws.deviate();
        Ok(Self {
            parts,
            share_of_loss: share_of_loss(case, loss),
            measured_loss: case
                .measured_loss
                .map(|measured| measured.at(loss).clamp(0.0, filling::MOST_MEASURED_LOSS)),
            widest_first: filling::WIDEST_GAPS_FIRST
                .range
                .at(draws.deviate())
                .clamp(0.0, 1.0),
            departure: filling::MODEL_BELOW_10_CM.range.at(draws.deviate()),
            pressed: filling::PRESSED_INTO_POT.range.at(draws.deviate()).max(0.0),
            spilt: filling::SPILT.range.at(draws.deviate()).max(0.0),
        })
    }
}

/// A factor or a density cannot fall to nought, however far out it is drawn.
fn positive(drawn: f64) -> f64 {
    const LEAST: f64 = 0.01;
    drawn.max(LEAST)
}

/// How much of the hard-grain loss happens at a standard normal deviate: between the figure of a
/// stiff mix and that of a soft one by the share of soft parts.
fn share_of_loss(case: &Case, deviate: f64) -> f64 {
    let soft: f64 = case
        .parts
        .iter()
        .filter(|part| part.material.nature == Nature::Soft)
        .map(|part| part.share)
        .sum();
    let softness = (soft / filling::SOFT_FROM_SHARE).min(1.0);
    let stiff = filling::LOSS_OF_STIFF_MIX.range.at(deviate);
    let soft = filling::LOSS_OF_SOFT_MIX.range.at(deviate);
    (stiff + softness * (soft - stiff)).max(0.0)
}

/// One outcome.
pub struct Mixed {
    curve: Curve,
    /// Share of the volume that hard grains would lose.
    pub hard_loss: f64,
    /// Share of the volume lost on mixing.
    pub volume_lost: f64,
    /// Pores that water enters, fraction.
    pub pore_space: f64,
    /// Pores in which air stays trapped when the pot is wetted, fraction. Neither in the air nor in
    /// the pore space told here, for a pot that is soaked and drained does not show them.
    pub trapped_air: f64,
    /// Mean water of the drained pot, fraction.
    pub water: f64,
    /// Mean air of the pot standing in a filled tray, fraction.
    pub standing_air: f64,
    /// Mean air of the pot when its tray has just been emptied, fraction.
    pub air_over_empty_tray: f64,
    /// The laboratory's water between 10 and 50 cm of suction, fraction.
    pub easy_water: f64,
    /// Water that leaves the drained pot until all of it is at 50 cm of suction, L.
    pub easy_water_in_pot_litres: f64,
    /// Volume of mix in the pot, L.
    pub litres_in_pot: f64,
    /// Loose mix for all pots, L.
    pub litres_needed: f64,
    /// Loose volume of each part, L, in the order of the case.
    pub litres_of_parts: Vec<f64>,
    /// Dry bulk density, g/L.
    pub dry_density_g_per_l: f64,
}

/// Share of the volume that hard grains of the sizes of the parts would lose.
fn hard_loss(case: &Case, inputs: &Inputs) -> f64 {
    let grains: Vec<Grains> = case
        .parts
        .iter()
        .zip(&inputs.parts)
        .map(|(part, drawn)| grains(part, drawn.share))
        .collect();
    volume_lost_de_larrard_1999(&grains)
}

/// Share of the volume lost on mixing: as a bucket showed it, or as the grains let one expect.
fn volume_lost(hard_loss: f64, inputs: &Inputs) -> f64 {
    inputs
        .measured_loss
        .unwrap_or_else(|| (hard_loss * inputs.share_of_loss).min(filling::MOST_LOST))
}

/// What of an outcome is judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// Air as the use has it judged, fraction: that of the drained pot; for a pot fed from below the
    /// mean of a tray just filled and a tray just emptied, between which it goes to and fro.
    pub air: f64,
    /// Mean water of the drained pot, fraction.
    pub water: f64,
    /// The laboratory's water between 10 and 50 cm of suction, fraction.
    pub easy_water: f64,
}

/// Works out of one outcome what is judged, and nothing else: for those who try many.
pub fn judged(case: &Case, inputs: &Inputs) -> Judged {
    let lost = volume_lost(hard_loss(case, inputs), inputs);
    let potted = Potted::new(case, inputs, lost);
    let water = potted.mean_water(Potted::DRAINED);
    let air = match case.limits.purpose {
        Use::FedFromBelow => air_fed_from_below(potted.airs_in_tray(water)),
        Use::Seed | Use::YoungPlants | Use::GrowingOn | Use::Cuttings => potted.air(water),
    };
    Judged {
        air,
        water,
        easy_water: potted.curve.easy_water(),
    }
}

/// Of air over an empty tray and air over a filled one.
fn air_fed_from_below([empty, full]: [f64; 2]) -> f64 {
    f64::midpoint(empty, full)
}

/// A mix in its pot.
struct Potted<'a> {
    case: &'a Case,
    curve: Curve,
}

impl<'a> Potted<'a> {
    /// The level at the base of a pot that has drained.
    const DRAINED: Length = Length::from_millimetres(0.0);

    fn new(case: &'a Case, inputs: &Inputs, volume_lost: f64) -> Self {
        let blend = Blend::new(inputs.parts.clone(), volume_lost, inputs.widest_first);
        let shares = inputs.parts.iter().map(|part| part.share);
        Self {
            case,
            curve: Curve::new(blend, inputs.departure, shares),
        }
    }

    /// Mean water above a level, fraction.
    fn mean_water(&self, level: Length) -> f64 {
        let Self { case, curve } = self;
        case.vessel
            .mean_over(case.fill, level, |suction_cm| curve.water(suction_cm))
    }

    /// Mean air where the mean water is so much, fraction. Where all pores stay full, the two differ
    /// by the last bit either way.
    fn air(&self, water: f64) -> f64 {
        (self.curve.blend.soaked() - water).max(0.0)
    }

    /// Mean air when the tray has just been emptied, and when it has just been filled, fraction, where
    /// the drained pot holds so much water.
    fn airs_in_tray(&self, drained: f64) -> [f64; 2] {
        [self.case.level_when_empty(), self.case.level_when_full()].map(|level| {
            // A pot that stands on the floor of an empty tray is a drained pot.
            let water = if level == Self::DRAINED {
                drained
            } else {
                self.mean_water(level)
            };
            self.air(water)
        })
    }
}

/// Works one outcome out.
pub fn mixed(case: &Case, inputs: &Inputs) -> Mixed {
    let hard_loss = hard_loss(case, inputs);
    let volume_lost = volume_lost(hard_loss, inputs);
    let potted = Potted::new(case, inputs, volume_lost);
    let pore_space = potted.curve.blend.soaked();
    let water = potted.mean_water(Potted::DRAINED);
    let [air_over_empty_tray, standing_air] = potted.airs_in_tray(water);
    let curve = potted.curve;

    let litres_in_pot = case.vessel.volume_to(case.fill).in_litres();
    let litres_needed = case.pots * litres_in_pot * (1.0 + inputs.pressed) * (1.0 + inputs.spilt);
    let litres_before_mixing = litres_needed / (1.0 - volume_lost);
    Mixed {
        hard_loss,
        volume_lost,
        pore_space,
        trapped_air: (curve.blend.pore_space() - pore_space).max(0.0),
        water,
        standing_air,
        air_over_empty_tray,
        easy_water: curve.easy_water(),
        // No pot here is taller than 50 cm of suction above its base, or only a little, so what
        // is above that suction already is left out of account by the mean.
        easy_water_in_pot_litres: (water - curve.water(EASY_TO_CM)).max(0.0) * litres_in_pot,
        litres_in_pot,
        litres_needed,
        litres_of_parts: inputs
            .parts
            .iter()
            .map(|part| part.share * litres_before_mixing)
            .collect(),
        dry_density_g_per_l: curve.blend.dry_density_kg_per_m3(),
        curve,
    }
}

impl Mixed {
    /// Water content at a suction in cm, fraction of volume.
    pub fn water_at_suction(&self, suction_cm: f64) -> f64 {
        self.curve.water(suction_cm)
    }

    /// Water content at a suction in cm, fraction of volume, had the mix been wetted in full, as a
    /// laboratory soaks it by EN 13041. A pot watered by hand holds less.
    pub fn laboratory_water(&self, suction_cm: f64) -> f64 {
        self.curve.laboratory_water(suction_cm)
    }

    /// Air capacity as EN 13041 has it: all open pores less the laboratory's water at 10 cm of
    /// suction, fraction of volume. The mean of a pot is another figure.
    pub fn air_capacity(&self) -> f64 {
        self.curve.blend.pore_space() - self.laboratory_water(EASY_FROM_CM)
    }

    /// The laboratory's water between 50 and 100 cm of suction, fraction of volume.
    pub fn buffering_water(&self) -> f64 {
        self.laboratory_water(EASY_TO_CM) - self.laboratory_water(BUFFERING_TO_CM)
    }

    /// Mean air of the drained pot, fraction.
    pub fn drained_air(&self) -> f64 {
        // Where all pores stay full, the two differ by the last bit either way.
        (self.pore_space - self.water).max(0.0)
    }

    /// What of it is judged.
    pub fn judged(&self, purpose: Use) -> Judged {
        let air = match purpose {
            Use::FedFromBelow => air_fed_from_below([self.air_over_empty_tray, self.standing_air]),
            Use::Seed | Use::YoungPlants | Use::GrowingOn | Use::Cuttings => self.drained_air(),
        };
        Judged {
            air,
            water: self.water,
            easy_water: self.easy_water,
        }
    }

    /// Dry mix in one pot, kg.
    pub fn dry_kg(&self) -> f64 {
        const GRAMS_PER_KILOGRAM: f64 = 1000.0;
        self.dry_density_g_per_l * self.litres_in_pot / GRAMS_PER_KILOGRAM
    }

    /// Wet mix in one drained pot, kg, a litre of water taken as a kilogram.
    pub fn wet_kg(&self) -> f64 {
        self.dry_kg() + self.water * self.litres_in_pot
    }
}

fn grains(part: &Part, share: f64) -> Grains {
    Grains {
        bulk_share: share,
        packing_fraction: part.material.packing_fraction,
        grain_mm: part.material.grain_mm,
    }
}

/// What the mix holds: the blend, and how far its water may be off.
struct Curve {
    blend: Blend,
    /// By how much at the most, fraction of volume.
    departure: f64,
    /// How far it is a mix, from 0 for one material to 1.
    mixed: f64,
    /// Water at [`Curve::RIGHT_AGAIN_CM`], fraction; and the same wetted in full.
    least: [f64; 2],
}

impl Curve {
    /// The departure counts in full from this suction, cm.
    const FULL_FROM_CM: f64 = 2.0;
    /// To this suction the curve of a material by itself is in full doubt, cm; its water is measured at
    /// [`SUCTION_OF_WATER_FIGURE_CM`].
    const ALONE_TO_CM: f64 = 5.0;
    /// To this suction a mix is, cm.
    const MIXED_TO_CM: f64 = 10.0;
    /// Beyond this suction nothing departs, cm.
    const RIGHT_AGAIN_CM: f64 = 20.0;

    fn new(blend: Blend, departure: f64, shares: impl Iterator<Item = f64>) -> Self {
        let largest = shares.fold(0.0, f64::max);
        Self {
            departure,
            mixed: ((1.0 - largest) / filling::MIXED_FROM_SHARE).clamp(0.0, 1.0),
            least: [
                blend.water_content(Self::RIGHT_AGAIN_CM),
                blend.water_content_wetted_in_full(Self::RIGHT_AGAIN_CM),
            ],
            blend,
        }
    }

    /// Water content at a suction in cm, fraction of volume.
    fn water(&self, suction_cm: f64) -> f64 {
        let water = self.blend.water_content(suction_cm);
        if suction_cm >= Self::RIGHT_AGAIN_CM {
            return water;
        }
        let [least, _] = self.least;
        self.departed(water, suction_cm)
            .clamp(least, self.blend.soaked().max(least))
    }

    /// The same, wetted in full.
    fn laboratory_water(&self, suction_cm: f64) -> f64 {
        let water = self.blend.water_content_wetted_in_full(suction_cm);
        if suction_cm >= Self::RIGHT_AGAIN_CM {
            return water;
        }
        let [_, least] = self.least;
        self.departed(water, suction_cm)
            .clamp(least, self.blend.pore_space().max(least))
    }

    /// The laboratory's water between 10 and 50 cm of suction, fraction.
    fn easy_water(&self) -> f64 {
        self.laboratory_water(EASY_FROM_CM) - self.laboratory_water(EASY_TO_CM)
    }

    /// A water content with its departure, which is nought at saturation and beyond 20 cm.
    fn departed(&self, water: f64, suction_cm: f64) -> f64 {
        let fades = |from: f64, to: f64| ((to - suction_cm) / (to - from)).clamp(0.0, 1.0);
        let alone = fades(Self::ALONE_TO_CM, SUCTION_OF_WATER_FIGURE_CM);
        let mixed = fades(Self::MIXED_TO_CM, Self::RIGHT_AGAIN_CM);
        let sets_in = (suction_cm / Self::FULL_FROM_CM).clamp(0.0, 1.0);
        water + self.departure * sets_in * (alone + self.mixed * (mixed - alone))
    }
}
