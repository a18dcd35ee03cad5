//! The question of Rinse as it is typed, and the case it is read into.

use super::super::{Problem, words as of_all};
use super::physics::{self, Inputs};
use super::words;
use crate::handbook::materials::{Material, material};
use crate::handbook::rinsing::{OWN, SALTY, Salty, TARGETS, Target, WETNESS, Wetness};
use crate::measure::{
    DecimalMark, Density, Entry, Fraction, Length, Limits, Quantity, SaltConductivity, Temperature,
    Volume,
};
use crate::reckon::form::Numbers;
use crate::reckon::reader::Reader;

/// A material, its salt, the water and what for.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct Question {
    /// Key of a salty material, such as crushed_coral, or own.
    pub material: String,
    /// Water that a material of one's own holds once drained (own), such as "30 %".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub held: Entry,
    /// Dry density of a material of one's own (own), such as "500 g/L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub density: Entry,
    /// How much is rinsed, such as "10 L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub litres: Entry,
    /// How wet it is before: dry, damp or wet.
    pub wetness: String,
    /// Conductivity measured, such as "1.5 mS/cm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub conductivity: Entry,
    /// In which water it was measured: one_to_five, one_to_one_and_half or run_off.
    pub extract: String,
    /// What the extract was made with: pure or same (as for rinsing).
    pub extract_water: String,
    /// Whether the meter corrects for temperature: corrects or does_not.
    pub meter: String,
    /// Temperature of what was measured (does_not), such as "15 degC".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub temperature: Entry,
    /// Conductivity of the water for rinsing, such as "0.2 mS/cm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub source: Entry,
    /// Water for each rinse of all of it, such as "10 L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub water: Entry,
    /// How it is rinsed: soak or trickle.
    pub way: String,
    /// How deep it lies while it drains, such as "20 cm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub depth: Entry,
    /// What for: seed, young_plants, growing_on, bed, or own_target.
    pub purpose: String,
    /// Conductivity to come down to, in the same extract (own_target), such as "0.5 mS/cm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub target: Entry,
}

/// A target of one's own.
pub const OWN_TARGET: &str = "own_target";
/// The extract was made with pure water.
pub const PURE: &str = "pure";
/// The extract was made with the water for rinsing.
pub const SAME: &str = "same";
/// The meter tells what it would read at 25 °C.
pub const CORRECTS: &str = "corrects";
/// The meter tells what it reads.
pub const DOES_NOT: &str = "does_not";
/// Soaked and drained.
pub const SOAK: &str = "soak";
/// Trickled through.
pub const TRICKLE: &str = "trickle";

/// A way to get at the salt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ExtractKind {
    /// Stable name.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// How a sentence calls it.
    pub called: &'static str,
    /// Litres of water to one litre of material.
    pub water: f64,
}

/// The extracts that there are.
pub const EXTRACTS: &[ExtractKind] = &[
    ExtractKind {
        key: "one_to_five",
        name: "1 part shaken with 5 of water",
        called: "1:5 extract",
        water: 5.0,
    },
    ExtractKind {
        key: "one_to_one_and_half",
        name: "1 part with 1½ of water",
        called: "1:1½ extract",
        water: 1.5,
    },
    ExtractKind {
        key: "run_off",
        name: "the water that drains off",
        called: "water that drains off",
        water: 0.0,
    },
];

impl Default for Question {
    fn default() -> Self {
        let conductivity =
            |text: &str| Entry::new(text, SaltConductivity::MILLISIEMENS_PER_CENTIMETRE.key);
        let litres = |text: &str| Entry::new(text, Volume::LITRE.key);
        Self {
            material: "crushed_coral".to_owned(),
            held: Entry::new("30", Fraction::PERCENT.key),
            density: Entry::new("500", Density::GRAM_PER_LITRE.key),
            litres: litres("10"),
            wetness: "damp".to_owned(),
            conductivity: conductivity("1.5"),
            extract: "one_to_five".to_owned(),
            extract_water: PURE.to_owned(),
            meter: CORRECTS.to_owned(),
            temperature: Entry::new("15", Temperature::DEGREE_CELSIUS.key),
            source: conductivity("0.2"),
            water: litres("10"),
            way: SOAK.to_owned(),
            depth: Entry::new("20", Length::CENTIMETRE.key),
            purpose: OWN_TARGET.to_owned(),
            target: conductivity("0.5"),
        }
    }
}

impl Question {
    /// Every number, by its path.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("held", &mut self.held),
            ("density", &mut self.density),
            ("litres", &mut self.litres),
            ("conductivity", &mut self.conductivity),
            ("temperature", &mut self.temperature),
            ("source", &mut self.source),
            ("water", &mut self.water),
            ("depth", &mut self.depth),
            ("target", &mut self.target),
        ]
    }

    /// Every choice, by its path.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 7] {
        [
            ("material", &mut self.material),
            ("wetness", &mut self.wetness),
            ("extract", &mut self.extract),
            ("extract_water", &mut self.extract_water),
            ("meter", &mut self.meter),
            ("way", &mut self.way),
            ("purpose", &mut self.purpose),
        ]
    }
}

/// What holds the water.
#[derive(Clone, Debug)]
pub enum Holder {
    /// A material of the handbook.
    Known(&'static Material),
    /// One's own: water held once drained (L/L) and dry density (g/L).
    Own {
        /// Fraction of volume.
        held: f64,
        /// g/L.
        dry_density_g_per_l: f64,
    },
}

/// What to come down to.
#[derive(Clone, Copy, Debug)]
pub enum Goal {
    /// A use of the handbook.
    Use(&'static Target),
    /// So much in the extract that was measured, mS/cm.
    Own(f64),
}

/// The question, read and checked.
#[derive(Clone, Debug)]
pub struct Case {
    /// The material's salt.
    pub salty: &'static Salty,
    /// The material's water.
    pub holder: Holder,
    /// Material to rinse, L.
    pub litres: f64,
    /// How wet it is before.
    pub wetness: &'static Wetness,
    /// As it was read, mS/cm.
    pub read_ms_per_cm: f64,
    /// In what.
    pub extract: ExtractKind,
    /// Whether the extract was made with the water for rinsing.
    pub extract_of_source: bool,
    /// Temperature at which it was read, °C, where the meter does not correct for it.
    pub celsius: Option<f64>,
    /// The water for rinsing as it was read, mS/cm.
    pub source_ms_per_cm: f64,
    /// Water for each rinse, L.
    pub water_litres: f64,
    /// Whether it trickles through.
    pub trickles: bool,
    /// How deep it lies while it drains.
    pub depth: Length,
    /// What to come down to.
    pub goal: Goal,
    /// Rinses at the best figures.
    pub rinses: usize,
    /// Rinses that the answer tells one by one.
    pub told: usize,
}

const LITRES: Limits<Volume> = Limits::litres("Material to rinse", 0.1, 10_000.0);
const WATER: Limits<Volume> = Limits::litres("Water for each rinse", 0.01, 100_000.0);
const READ: Limits<SaltConductivity> =
    Limits::millisiemens_per_centimetre("Conductivity measured", 0.0, 60.0);
const SOURCE: Limits<SaltConductivity> =
    Limits::millisiemens_per_centimetre("Conductivity of the water", 0.0, 5.0);
const TARGET: Limits<SaltConductivity> =
    Limits::millisiemens_per_centimetre("Conductivity to come down to", 0.01, 20.0);
const TEMPERATURE: Limits<Temperature> = Limits::between(
    "Temperature",
    Temperature::from_celsius(5.0),
    Temperature::from_celsius(35.0),
);
const DEPTH: Limits<Length> = Limits::between(
    "Depth",
    Length::from_centimetres(3.0),
    Length::from_centimetres(150.0),
);
const HELD: Limits<Fraction> = Limits::percent("Water held", 2.0, 90.0);
const DENSITY: Limits<Density> = Limits::grams_per_litre("Dry density", 20.0, 2000.0);

/// Which of two keys was chosen.
fn first_of_two(
    reader: &mut Reader,
    field: &str,
    (what, chosen): (&str, &str),
    keys: [&'static str; 2],
) -> Option<bool> {
    let place = keys.iter().position(|key| *key == chosen);
    reader.found(field, place.map(|place| place == 0), || {
        of_all::not_in_list(what, chosen, keys.into_iter())
    })
}

/// Reads a question; every problem found comes back, each at its field.
pub fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
    let mut reader = Reader::new(mark);
    let salty = reader.choose(
        "material",
        of_all::A_MATERIAL,
        &question.material,
        SALTY,
        |row| row.key,
    );
    let holder = salty.and_then(|salty| holder(salty, question, &mut reader));
    let litres = reader.read("litres", &question.litres, &LITRES);
    let wetness = reader.choose(
        "wetness",
        words::A_WETNESS,
        &question.wetness,
        WETNESS,
        |row| row.key,
    );
    let read = reader.read("conductivity", &question.conductivity, &READ);
    let extract = reader.choose(
        "extract",
        words::A_MEASUREMENT,
        &question.extract,
        EXTRACTS,
        |row| row.key,
    );
    let of_source = first_of_two(
        &mut reader,
        "extract_water",
        (words::A_WATER, &question.extract_water),
        [SAME, PURE],
    );
    let corrects = first_of_two(
        &mut reader,
        "meter",
        (words::A_METER, &question.meter),
        [CORRECTS, DOES_NOT],
    );
    // A temperature that is not asked for is not read.
    let celsius = match corrects {
        Some(false) => reader
            .read("temperature", &question.temperature, &TEMPERATURE)
            .map(|temperature| Some(temperature.in_celsius())),
        Some(true) => Some(None),
        None => None,
    };
    let source = reader.read("source", &question.source, &SOURCE);
    let water = reader.read("water", &question.water, &WATER);
    let trickles = first_of_two(
        &mut reader,
        "way",
        (words::A_WAY, &question.way),
        [TRICKLE, SOAK],
    );
    let depth = reader.read("depth", &question.depth, &DEPTH);
    let goal = goal(question, &mut reader);

    let milli = |conductivity: SaltConductivity| {
        conductivity.in_unit(&SaltConductivity::MILLISIEMENS_PER_CENTIMETRE)
    };
    let case = (|| {
        Some(Case {
            salty: salty?,
            holder: holder?,
            litres: litres?.in_litres(),
            wetness: wetness?,
            read_ms_per_cm: milli(read?),
            extract: *extract?,
            extract_of_source: of_source?,
            celsius: celsius?,
            source_ms_per_cm: milli(source?),
            water_litres: water?.in_litres(),
            trickles: trickles?,
            depth: depth?,
            goal: goal?,
            rinses: 0,
            told: 0,
        })
    })();
    match case {
        Some(case) if reader.problems.is_empty() => {
            answerable(case).map_err(|problem| vec![problem])
        }
        _ => Err(reader.problems),
    }
}

fn holder(salty: &'static Salty, question: &Question, reader: &mut Reader) -> Option<Holder> {
    if salty.key == OWN {
        let held = reader.read("held", &question.held, &HELD);
        let density = reader.read("density", &question.density, &DENSITY);
        return Some(Holder::Own {
            held: held?.in_fraction(),
            dry_density_g_per_l: density?.in_grams_per_litre(),
        });
    }
    let found = material(salty.key).map(Holder::Known);
    reader.found("material", found, || {
        of_all::not_in_list(of_all::A_MATERIAL, salty.key, std::iter::empty())
    })
}

fn goal(question: &Question, reader: &mut Reader) -> Option<Goal> {
    if question.purpose == OWN_TARGET {
        let target = reader.read("target", &question.target, &TARGET)?;
        return Some(Goal::Own(
            target.in_unit(&SaltConductivity::MILLISIEMENS_PER_CENTIMETRE),
        ));
    }
    let found = TARGETS.iter().find(|target| target.key == question.purpose);
    let found = reader.found("purpose", found, || {
        let known = TARGETS.iter().map(|target| target.key);
        of_all::not_in_list(of_all::A_USE, &question.purpose, known.chain([OWN_TARGET]))
    });
    found.map(Goal::Use)
}

/// The case with its rinses, if there are any that help.
fn answerable(mut case: Case) -> Result<Case, Problem> {
    /// Rinses told one by one, at least and at most.
    const TOLD: (usize, usize) = (4, 16);
    let inputs = Inputs::best(&case)?;
    if case.extract_of_source
        && case.extract.water > 0.0
        && case.read_ms_per_cm < case.source_ms_per_cm
    {
        return Err(Problem::at("conductivity", words::less_than_its_water()));
    }
    if inputs.only_wets() {
        let least = inputs.wets_with() * case.litres;
        return Err(Problem::at("water", words::only_wets(least)));
    }
    let target = inputs.target();
    let least = inputs.least();
    let at = match case.goal {
        Goal::Own(_) => "target",
        Goal::Use(_) => "purpose",
    };
    let rinses = physics::rinses_to_target(&inputs);
    if least >= target && rinses != Some(0) {
        return Err(Problem::at(
            at,
            words::out_of_reach(target, least, inputs.least_with_pure_water()),
        ));
    }
    case.rinses = rinses.ok_or_else(|| Problem::at("water", words::too_many(physics::MOST)))?;
    case.told = (2 * case.rinses + 2).clamp(TOLD.0, TOLD.1);
    Ok(case)
}
