//! The crops: what each needs of warmth, water, room and seed.
//!
//! A crop holds its figures as a list by [`Property`]; what a variety does not hold itself it takes
//! from the crop it is a kind of, and [`Crop::taken_from`] says so. No figure knows your seed, your
//! house or your hand: the record's own figures go before all of them.
//!
//! * `table`: the crops.
//! * `figures`: what each holds itself.
//! * [`ageing`]: how seed ages.
//! * [`between`]: how far one source lies from the next.
//! * [`emergence`]: days to emergence by temperature, as measured.
//! * [`readiness`]: when a young plant is ready to move, and how long it may wait.

pub mod ageing;
pub mod between;
pub mod emergence;
mod figures;
pub mod readiness;
mod table;

use super::Figure;
use crate::science::thermal_time::Cardinals;

pub use table::CROPS;

/// How a crop is begun.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Begun {
    /// From seed.
    Seed,
    /// From cuttings.
    Cuttings,
}

/// What a plant can bear.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Hurt well above freezing.
    Tender,
    /// Stands some frost once hardened.
    Hardy,
}

macro_rules! properties {
    ($($name:ident: $key:literal, $unit:literal, $text:literal;)*) => {
        /// What is known of a crop, each with its unit.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Property {
            $(#[doc = concat!($text, " (", $unit, ").")] $name,)*
        }

        impl Property {
            /// All of them, in the order of a page.
            pub const ALL: &[Property] = &[$(Property::$name),*];

            /// Stable name in files and addresses.
            #[must_use]
            pub fn key(self) -> &'static str {
                match self { $(Property::$name => $key,)* }
            }

            /// The property of a key.
            #[must_use]
            pub fn of_key(key: &str) -> Option<Property> {
                Self::ALL.iter().copied().find(|property| property.key() == key)
            }

            /// Key of the unit of the figure; "one" is a plain number.
            #[must_use]
            pub fn unit(self) -> &'static str {
                match self { $(Property::$name => $unit,)* }
            }

            /// In words, for the page.
            #[must_use]
            pub fn words(self) -> &'static str {
                match self { $(Property::$name => $text,)* }
            }
        }
    };
}

properties! {
    GerminationBase: "germination_base", "degC", "Mix temperature below which seed does not come up";
    GerminationOptimum: "germination_optimum", "degC", "Mix temperature at which seed comes up fastest";
    GerminationCeiling: "germination_ceiling", "degC", "Mix temperature above which seed does not come up";
    EmergenceSum: "emergence_sum", "degC d", "Heat sum above the germination base until half have come up";
    GrowthBase: "growth_base", "degC", "Air temperature below which leaves stop coming";
    GrowthOptimum: "growth_optimum", "degC", "Air temperature at which leaves come fastest";
    GrowthCeiling: "growth_ceiling", "degC", "Air temperature above which leaves stop coming";
    ChillingLimit: "chilling_limit", "degC", "Air temperature that harms leaves when it lasts for several hours";
    KillingLimit: "killing_limit", "degC", "Leaf temperature at which a short frost kills";
    HeatLimit: "heat_limit", "degC", "Air temperature above which the crop is spoilt: scorch, bolting or no set";
    NightForColdHouse: "night_for_cold_house", "degC", "Night minimum from which young plants go into an unheated house";
    PrickOutSum: "prick_out_sum", "degC d", "Heat sum above the growth base from emergence to pricking out";
    ReadySum: "ready_sum", "degC d", "Heat sum above the growth base from emergence (or rooting) to a plant ready for its next pot or for sale";
    FlowerSum: "flower_sum", "degC d", "Heat sum above the growth base from emergence (or rooting) to the first flower";
    PickSum: "pick_sum", "degC d", "Heat sum above the growth base from emergence (or rooting) to the first cut or pick";
    RegrowthSum: "regrowth_sum", "degC d", "Heat sum above the growth base from one cut to the next";
    SeedsPerGram: "seeds_per_gram", "per g", "Seeds in a gram (whole fruits for coriander)";
    GerminationShare: "germination_share", "one", "Share of sound seed that comes up";
    CropCoefficient: "crop_coefficient", "one", "Water use of a full stand as a multiple of reference evapotranspiration";
    WaterYoung: "water_young", "mL d-1", "Water a plant or clump uses a day in its 9 to 10 cm pot, from a dull cool to a bright hot day";
    WaterFull: "water_full", "mL d-1", "Water a full-grown plant or clump uses a day, from a dull cool to a bright hot day";
    PotsTouching: "pots_touching", "per_m2", "Young pots of 9 to 10 cm standing together";
    PotsSpaced: "pots_spaced", "per_m2", "The same once leaves meet";
    PlantsFinal: "plants_final", "per_m2", "Full-grown plants or clumps";
}

/// One crop.
#[derive(Debug)]
pub struct Crop {
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// Botanical name.
    pub botanical: &'static str,
    /// How it is begun.
    pub begun: Begun,
    /// What it can bear.
    pub kind: Kind,
    /// The crop it is a kind of.
    pub kind_of: Option<&'static Crop>,
}

impl Crop {
    /// What it holds itself.
    #[must_use]
    pub fn own(&self) -> &'static [(Property, Figure)] {
        figures::of(self.key)
    }

    /// A figure, its own or of the crop it is a kind of. None where the property has no meaning for
    /// it (seeds of what is grown from cuttings, chilling of the hardy) or is not known.
    #[must_use]
    pub fn figure(&self, property: Property) -> Option<Figure> {
        self.own_figure(property)
            .or_else(|| self.kind_of?.figure(property))
    }

    /// The crop that a figure is taken from, where it is not the crop's own.
    #[must_use]
    pub fn taken_from(&self, property: Property) -> Option<&'static Crop> {
        let parent = self.kind_of?;
        if self.own_figure(property).is_some() {
            return None;
        }
        parent
            .taken_from(property)
            .or_else(|| parent.own_figure(property).map(|_| parent))
    }

    fn own_figure(&self, property: Property) -> Option<Figure> {
        self.own()
            .iter()
            .find(|(own, _)| *own == property)
            .map(|(_, figure)| *figure)
    }

    /// The cardinal temperatures of germination at their best figures.
    #[must_use]
    pub fn germination(&self) -> Option<Cardinals> {
        self.cardinals([
            Property::GerminationBase,
            Property::GerminationOptimum,
            Property::GerminationCeiling,
        ])
    }

    /// The cardinal temperatures of growth at their best figures.
    #[must_use]
    pub fn growth(&self) -> Option<Cardinals> {
        self.cardinals([
            Property::GrowthBase,
            Property::GrowthOptimum,
            Property::GrowthCeiling,
        ])
    }

    /// The same above another base, °C, which may be a drawn one: optimum and ceiling stay above it.
    #[must_use]
    pub fn growth_above(&self, base_c: f64) -> Option<Cardinals> {
        /// They stay so far apart, K.
        const APART_K: f64 = 2.0;
        let best = |property: Property| Some(self.figure(property)?.range.best());
        let optimum_c = best(Property::GrowthOptimum)?.max(base_c + APART_K);
        let ceiling_c = best(Property::GrowthCeiling)?.max(optimum_c + APART_K);
        Cardinals::new(base_c, optimum_c, ceiling_c).ok()
    }

    fn cardinals(&self, properties: [Property; 3]) -> Option<Cardinals> {
        let [base, optimum, ceiling] =
            properties.map(|property| self.figure(property).map(|figure| figure.range.best()));
        Cardinals::new(base?, optimum?, ceiling?).ok()
    }
}

/// The crop of a key.
#[must_use]
pub fn crop(key: &str) -> Option<&'static Crop> {
    CROPS.iter().copied().find(|crop| crop.key == key)
}
