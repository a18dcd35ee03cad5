//! The question of Mix, read and checked.

use super::chemistry::{Substances, Treatment};
use super::substance::Substance;
use super::words;
use crate::handbook::materials::Material;
use crate::handbook::thresholds;
use crate::measure::{AreaLoad, Length, NumberPerArea, Range, Volume};
use crate::science::container::Vessel;
use crate::science::retention::{NotACurve, Retention};

/// A part, read.
#[derive(Clone, Debug)]
pub struct Part {
    /// The material.
    pub material: &'static Material,
    /// Its figures, from the handbook or one's own.
    pub substance: Substance,
    /// The retention curve at the best of them.
    pub retention: Retention,
    /// Share of the mix by bulk volume.
    pub share: f64,
    /// What it is bought in.
    pub bought: Bought,
}

/// What a part is bought in and costs, and what there is of it.
#[derive(Clone, Copy, Debug)]
pub struct Bought {
    /// Size of the bag.
    pub bag: Volume,
    /// Price of a bag, where it is known.
    pub price: Option<f64>,
    /// What is in hand of it, loose.
    pub in_hand: Volume,
}

impl Bought {
    /// A bag of which nothing else is known.
    pub const fn in_bags_of(bag: Volume) -> Self {
        Self {
            bag,
            price: None,
            in_hand: Volume::from_litres(0.0),
        }
    }
}

impl Part {
    /// Some of a material as the handbook has it.
    pub(super) fn of(
        material: &'static Material,
        share: f64,
        bought: Bought,
    ) -> Result<Self, NotACurve> {
        Self::made_of(material, Substance::of(material), share, bought)
    }

    /// Some of a material with figures of its own.
    pub(super) fn made_of(
        material: &'static Material,
        substance: Substance,
        share: f64,
        bought: Bought,
    ) -> Result<Self, NotACurve> {
        Ok(Self {
            material,
            substance,
            retention: substance.retention()?,
            share,
            bought,
        })
    }
}

impl Part {
    /// Whether its figures are ranges of a class: the handbook's, where those are.
    pub fn is_of_a_class(&self) -> bool {
        let material = self.material;
        self.substance == Substance::of(material)
            && (material.pore_space.is_of_a_class() || material.water_at_10_cm.is_of_a_class())
    }
}

/// The bench, where the spacing on it is known.
#[derive(Clone, Copy, Debug)]
pub struct Bench {
    /// Pots on a square metre.
    pub pots: NumberPerArea,
    /// What it carries, where that is known.
    pub limit: Option<AreaLoad>,
}

/// What is mixed in besides the materials, and the water.
#[derive(Clone, Copy, Debug)]
pub struct Fed {
    /// Whether a usual charge of feed is mixed in.
    pub charged: bool,
    /// Ground limestone, g/L of mix.
    pub lime_g_per_l: f64,
    /// Alkalinity of the water as calcium carbonate, mg/L, where it is known.
    pub alkalinity_mg_per_l: Option<f64>,
    /// Conductivity of the water, mS/m, where it is known.
    pub water_ms_per_m: Option<f64>,
}

impl Fed {
    /// All that is done to a mix that has lost a share of its volume.
    pub fn treatment(&self, volume_lost: f64) -> Treatment {
        Treatment {
            volume_lost,
            lime_g_per_l: self.lime_g_per_l,
            alkalinity_mg_per_l: self.alkalinity_mg_per_l.unwrap_or(0.0),
            water_ms_per_m: self.water_ms_per_m.unwrap_or(0.0),
            charged: self.charged,
        }
    }
}

/// The question, read and checked.
#[derive(Clone, Debug)]
pub struct Case {
    /// The parts; shares add to one. [`Case::set_parts`] sets others.
    pub parts: Vec<Part>,
    /// What the pot is called.
    pub pot: &'static str,
    /// The inside of the pot.
    pub vessel: Vessel,
    /// Height of the mix above the base, once watered.
    pub fill: Length,
    /// Number of pots.
    pub pots: f64,
    /// Share of the volume lost on mixing as a bucket showed it, fraction; without it, it is reckoned.
    pub measured_loss: Option<Range<f64>>,
    /// Depth of the water in a filled tray.
    pub tray: Length,
    /// Depth of the coarse bed between the floor of the tray and the pot; nought for a pot that
    /// stands in the water.
    pub bed: Length,
    /// What a plant drinks in a day, where that is known.
    pub drinks: Option<Volume>,
    /// The bench, where the spacing on it is known.
    pub bench: Option<Bench>,
    /// What the parts bring of salt, acidity and nitrogen.
    pub substances: Substances,
    /// Feed and lime mixed in, and the water.
    pub fed: Fed,
    /// The limits of the use.
    pub limits: &'static thresholds::Limits,
}

/// What parts bring of salt, acidity and nitrogen.
pub(super) fn substances(parts: &[Part]) -> Substances {
    let shares: Vec<_> = parts
        .iter()
        .map(|part| (part.share, part.material))
        .collect();
    Substances::of_materials(&shares)
}

impl Case {
    /// Gives it other parts, whose shares add to one, and with them what they bring of salt, acidity
    /// and nitrogen.
    pub fn set_parts(&mut self, parts: Vec<Part>) {
        self.substances = substances(&parts);
        self.parts = parts;
    }

    /// How far the water of a filled tray stands above the base of the pot; below nought where it
    /// lies down in the bed.
    pub fn level_when_full(&self) -> Length {
        self.tray - self.bed
    }

    /// The same once the tray has just been emptied: the water is down at its floor.
    pub fn level_when_empty(&self) -> Length {
        Length::from_millimetres(0.0) - self.bed
    }

    /// The mix in one line.
    pub fn mix_in_words(&self) -> String {
        words::mix(self)
    }

    /// The pot in one line.
    pub fn pot_in_words(&self) -> String {
        words::pot(self)
    }

    /// Whether the price of everything in it is known.
    pub fn priced(&self) -> bool {
        self.parts.iter().all(|part| part.bought.price.is_some())
    }
}
