//! The question of Mix as it is typed, to the letter.

use crate::measure::{AreaLoad, Density, Entry, Fraction, Length, Mass, SaltConductivity, Volume};
use crate::reckon::form::Numbers;
use crate::reckon::pot::{self, PotAsked};

/// The most parts a mix may have.
pub const MOST_PARTS: usize = 8;
/// The most pots.
pub const MOST_POTS: f64 = 100_000.0;

/// A mix, a pot and what they are for.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct Question {
    /// The parts, one to eight.
    pub parts: Vec<PartAsked>,
    /// The pot.
    pub pot: PotAsked,
    /// Number of pots, a whole number from 1 to 100000.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub pots: Entry,
    /// What the pots are for: seed, young_plants, fed_from_below, growing_on or cuttings.
    pub purpose: String,
    /// How the pots stand.
    pub stands: StandsAsked,
    /// The bench that carries them.
    pub bench: BenchAsked,
    /// What is in the mix besides its materials, and the water it will get.
    pub chemistry: ChemistryAsked,
    /// A bucket test of the mix, if one was made.
    pub bucket: BucketAsked,
}

/// One part of the mix.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct PartAsked {
    /// Key of a handbook material, such as composted_bark.
    pub material: String,
    /// Parts by volume, such as 3 or 1/2.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub amount: Entry,
    /// Size of the bag it is bought in, such as "70 L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub bag: Entry,
    /// Price of a bag in one's own money, 0 for what costs nothing; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub price: Entry,
    /// What is in hand of it, loose, such as "40 L"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub in_hand: Entry,
    /// Figures of one's own for it.
    pub own: OwnAsked,
}

/// Figures of one's own for a material. What belongs to another choice is kept but not read.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct OwnAsked {
    /// Whose figures are used: handbook, own_figures or drain_test.
    pub figures: String,
    /// Dry weight of a litre as filled (own_figures), such as "90 g/L"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub density: Entry,
    /// Pore space that water enters (own_figures), such as "85 %"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub pore_space: Entry,
    /// Water at 10 cm of suction (own_figures), such as "60 %"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub water_at_10_cm: Entry,
    /// Water in what was filled in (drain_test), % of its weight: "0 %" for what was dried.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub moisture: Entry,
    /// The drain test in a short vessel (drain_test).
    pub short: DrainedAsked,
    /// The same in a tall vessel (drain_test); all of it may be empty.
    pub tall: DrainedAsked,
}

/// One vessel of a drain test: filled damp, soaked with its holes shut, drained. Weights are
/// without the vessel.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct DrainedAsked {
    /// Volume up to the mark, such as "1 L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub volume: Entry,
    /// Height of the mark above the base, such as "100 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub height: Entry,
    /// Weight of what was filled in, such as "240 g".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub filled: Entry,
    /// Weight once soaked, such as "1010 g".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub soaked: Entry,
    /// Weight once drained, such as "800 g".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub drained: Entry,
}

/// How the pots stand and what a plant drinks.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct StandsAsked {
    /// Depth of the water in a filled tray, such as "20 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub tray: Entry,
    /// Depth of the coarse bed between the floor of the tray and the pots, such as "50 mm"; "0 mm"
    /// for pots that stand in the water.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub bed: Entry,
    /// What one plant drinks in a day, such as "200 mL"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub drinks: Entry,
}

/// The bench.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct BenchAsked {
    /// How the pots are set out: square or staggered.
    pub set_out: String,
    /// From the middle of a pot to the middle of the next, such as "110 mm"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub spacing: Entry,
    /// What the bench carries, such as "50 kg/m2"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub limit: Entry,
}

/// What is in the mix besides its materials, and the water it will get.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct ChemistryAsked {
    /// Feed mixed in: none or usual_charge.
    pub feed: String,
    /// Ground limestone mixed in, such as "3 g/L"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub lime: Entry,
    /// Alkalinity of the water as calcium carbonate, such as "250 mg/L"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub alkalinity: Entry,
    /// Conductivity of the water, such as "0.5 mS/cm"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub conductivity: Entry,
}

/// A bucket test: loose volumes measured, put together, mixed damp and measured again.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct BucketAsked {
    /// All loose volumes together, in the parts of this mix, such as "10 L"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub loose: Entry,
    /// The volume once mixed, such as "9.3 L"; may be empty.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub mixed: Entry,
}

/// The handbook's figures of a material.
pub const HANDBOOK: &str = "handbook";
/// Figures of one's own over those of the handbook.
pub const OWN_FIGURES: &str = "own_figures";
/// Figures out of a drain test.
pub const DRAIN_TEST: &str = "drain_test";

/// Pots set out in squares.
pub const SQUARE: &str = "square";
/// Pots set out in rows that are offset by half a space.
pub const STAGGERED: &str = "staggered";

/// No feed is mixed in.
pub const NO_FEED: &str = "none";
/// About a gram of compound feed to the litre is mixed in.
pub const USUAL_CHARGE: &str = "usual_charge";

/// Unit of an alkalinity.
pub const ALKALINITY_UNIT: &str = Density::MILLIGRAM_PER_LITRE.key;

/// Nothing typed yet, in a unit.
fn blank(unit: &str) -> Entry {
    Entry::new("", unit)
}

impl Default for PartAsked {
    /// No material yet, and none of it, in the bag that materials usually come in.
    fn default() -> Self {
        Self {
            material: String::new(),
            amount: Entry::default(),
            bag: Entry::new("70", Volume::LITRE.key),
            price: Entry::default(),
            in_hand: blank(Volume::LITRE.key),
            own: OwnAsked::default(),
        }
    }
}

impl Default for OwnAsked {
    fn default() -> Self {
        Self {
            figures: HANDBOOK.to_owned(),
            density: blank(Density::GRAM_PER_LITRE.key),
            pore_space: blank(Fraction::PERCENT.key),
            water_at_10_cm: blank(Fraction::PERCENT.key),
            moisture: blank(Fraction::PERCENT.key),
            short: DrainedAsked::default(),
            tall: DrainedAsked::default(),
        }
    }
}

impl DrainedAsked {
    /// Whether nothing is typed.
    pub fn is_blank(&self) -> bool {
        [
            &self.volume,
            &self.height,
            &self.filled,
            &self.soaked,
            &self.drained,
        ]
        .into_iter()
        .all(Entry::is_empty)
    }
}

impl Default for DrainedAsked {
    fn default() -> Self {
        Self {
            volume: blank(Volume::LITRE.key),
            height: blank(Length::MILLIMETRE.key),
            filled: blank(Mass::GRAM.key),
            soaked: blank(Mass::GRAM.key),
            drained: blank(Mass::GRAM.key),
        }
    }
}

impl Default for Question {
    fn default() -> Self {
        let part = |material: &str, amount: f64| PartAsked {
            material: material.to_owned(),
            amount: Entry::number(amount),
            ..PartAsked::default()
        };
        Self {
            parts: vec![
                part("composted_bark", 3.0),
                part("perlite_coarse", 1.0),
                part("coir_pith", 1.0),
            ],
            pot: PotAsked::default(),
            pots: Entry::number(20.0),
            purpose: "fed_from_below".to_owned(),
            stands: StandsAsked::default(),
            bench: BenchAsked::default(),
            chemistry: ChemistryAsked::default(),
            bucket: BucketAsked::default(),
        }
    }
}

impl Default for StandsAsked {
    fn default() -> Self {
        Self {
            tray: Entry::new("20", Length::MILLIMETRE.key),
            bed: Entry::new("0", Length::MILLIMETRE.key),
            drinks: blank(Volume::MILLILITRE.key),
        }
    }
}

impl Default for BenchAsked {
    fn default() -> Self {
        Self {
            set_out: SQUARE.to_owned(),
            spacing: blank(Length::MILLIMETRE.key),
            limit: blank(AreaLoad::KILOGRAM_PER_SQUARE_METRE.key),
        }
    }
}

impl Default for ChemistryAsked {
    fn default() -> Self {
        Self {
            feed: NO_FEED.to_owned(),
            lime: blank(Density::GRAM_PER_LITRE.key),
            alkalinity: blank(ALKALINITY_UNIT),
            conductivity: blank(SaltConductivity::MILLISIEMENS_PER_CENTIMETRE.key),
        }
    }
}

impl Default for BucketAsked {
    fn default() -> Self {
        Self {
            loose: blank(Volume::LITRE.key),
            mixed: blank(Volume::LITRE.key),
        }
    }
}

impl Question {
    /// Every number that is not one of a part, by its path.
    pub fn numbers(&mut self) -> Numbers<'_> {
        let mut numbers = self.pot.numbers();
        numbers.extend([
            ("pots", &mut self.pots),
            ("stands.tray", &mut self.stands.tray),
            ("stands.bed", &mut self.stands.bed),
            ("stands.drinks", &mut self.stands.drinks),
            ("bench.spacing", &mut self.bench.spacing),
            ("bench.limit", &mut self.bench.limit),
            ("chemistry.lime", &mut self.chemistry.lime),
            ("chemistry.alkalinity", &mut self.chemistry.alkalinity),
            ("chemistry.conductivity", &mut self.chemistry.conductivity),
            ("bucket.loose", &mut self.bucket.loose),
            ("bucket.mixed", &mut self.bucket.mixed),
        ]);
        numbers
    }

    /// Every choice that is not one of a part, by its path.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 4] {
        [
            (pot::SIZE, &mut self.pot.size),
            ("purpose", &mut self.purpose),
            ("bench.set_out", &mut self.bench.set_out),
            ("chemistry.feed", &mut self.chemistry.feed),
        ]
    }
}

impl PartAsked {
    /// Every number of the part, by its path after `parts.0.`.
    pub fn numbers(&mut self) -> Numbers<'_> {
        let own = &mut self.own;
        let (short, tall) = (&mut own.short, &mut own.tall);
        vec![
            ("amount", &mut self.amount),
            ("bag", &mut self.bag),
            ("price", &mut self.price),
            ("in_hand", &mut self.in_hand),
            ("own.density", &mut own.density),
            ("own.pore_space", &mut own.pore_space),
            ("own.water_at_10_cm", &mut own.water_at_10_cm),
            ("own.moisture", &mut own.moisture),
            ("own.short.volume", &mut short.volume),
            ("own.short.height", &mut short.height),
            ("own.short.filled", &mut short.filled),
            ("own.short.soaked", &mut short.soaked),
            ("own.short.drained", &mut short.drained),
            ("own.tall.volume", &mut tall.volume),
            ("own.tall.height", &mut tall.height),
            ("own.tall.filled", &mut tall.filled),
            ("own.tall.soaked", &mut tall.soaked),
            ("own.tall.drained", &mut tall.drained),
        ]
    }

    /// Every choice of the part, by its path after `parts.0.`.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 2] {
        [
            ("material", &mut self.material),
            ("own.figures", &mut self.own.figures),
        ]
    }
}
