//! A bed medium of one's own by a tube test: what is read and weighed, and what follows.

use std::cell::RefCell;
use std::sync::Arc;

use super::Laid;
use crate::handbook::bed_media::by_tube;
use crate::handbook::figure;
use crate::handbook::sources::COMMON_PRACTICE;
use crate::measure::{Density, Duration, Entry, Length, Limits, Mass, Volume};
use crate::reckon::bed::words;
use crate::reckon::form::Numbers;
use crate::reckon::reader::Reader;
use crate::science::tube_test::{Field, Found, Grains, TubeTest, quartz};

/// A tube test as it is asked for.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct TubeAsked {
    /// What the grains are like: solid or porous.
    pub grains: String,
    /// Height of the fill in the tube, such as "350 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub tube: Entry,
    /// How long it stood, such as "60 min".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub time: Entry,
    /// Up to here above the water grains look nearly wet, such as "40 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub nearly_wet: Entry,
    /// Up to here above the water they look damp, such as "90 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub damp: Entry,
    /// A handful, soaked and shaken off, such as "250 g".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub handful_wet: Entry,
    /// The same handful dried, such as "210 g".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub handful_dry: Entry,
    /// A litre of it, dry, filled as the tube was, such as "1500 g".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub litre_dry: Entry,
}

/// Compact grains.
pub const SOLID: &str = "solid";
/// Grains with pores.
pub const POROUS: &str = "porous";

impl Default for TubeAsked {
    /// Nothing is read or weighed yet; the test takes an hour.
    fn default() -> Self {
        let millimetres = |text: &str| Entry::new(text, Length::MILLIMETRE.key);
        let grams = || Entry::new("", Mass::GRAM.key);
        Self {
            grains: SOLID.to_owned(),
            tube: millimetres("350"),
            time: Entry::new("60", Duration::MINUTE.key),
            nearly_wet: millimetres(""),
            damp: millimetres(""),
            handful_wet: grams(),
            handful_dry: grams(),
            litre_dry: grams(),
        }
    }
}

impl TubeAsked {
    /// Its numbers, each by its path.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("bed.tube.tube", &mut self.tube),
            ("bed.tube.time", &mut self.time),
            ("bed.tube.nearly_wet", &mut self.nearly_wet),
            ("bed.tube.damp", &mut self.damp),
            ("bed.tube.handful_wet", &mut self.handful_wet),
            ("bed.tube.handful_dry", &mut self.handful_dry),
            ("bed.tube.litre_dry", &mut self.litre_dry),
        ]
    }
}

const TUBE: Limits<Length> = Limits::millimetres("Height of the fill in the tube", 100.0, 2000.0);
const RISE: Limits<Length> = Limits::millimetres("Height above the water", 0.0, 2000.0);
const WEIGHT: Limits<Mass> =
    Limits::between("Weight", Mass::from_grams(1.0), Mass::from_kilograms(50.0));
const TIME: Limits<Duration> = Limits::between(
    "Time in the water",
    Duration::from_minutes(10.0),
    Duration::from_days(1.0),
);
/// The tube stands in so much water, as its instructions say.
const STANDS_IN: Length = Length::from_millimetres(20.0);
/// A line in grains can be read to so much, either way. A judgement.
const READ_TO: Length = Length::from_millimetres(4.0);
/// Kitchen scales show grams.
const SCALE_STEP: Mass = Mass::from_grams(1.0);
/// Media that climb so, drawn. A question is read at every key, so that few are tried.
const DRAWS: usize = 300;
const SEED: u64 = 1;

/// The medium that a test tells of.
pub fn read(asked: &TubeAsked, reader: &mut Reader) -> Option<Laid> {
    let before = reader.problems.len();
    let grains = reader.one_of(
        "bed.tube.grains",
        words::KINDS_OF_GRAIN,
        &asked.grains,
        &[SOLID, POROUS],
    );
    let tube = reader.read("bed.tube.tube", &asked.tube, &TUBE);
    let nearly_wet = reader.read("bed.tube.nearly_wet", &asked.nearly_wet, &RISE);
    let damp = reader.read("bed.tube.damp", &asked.damp, &RISE);
    let time = reader.read("bed.tube.time", &asked.time, &TIME);
    let mut weight = |path: &str, entry: &Entry| reader.read(path, entry, &WEIGHT);
    let handful_wet = weight("bed.tube.handful_wet", &asked.handful_wet);
    let handful_dry = weight("bed.tube.handful_dry", &asked.handful_dry);
    let volume_dry = weight("bed.tube.litre_dry", &asked.litre_dry);
    if reader.problems.len() > before {
        return None;
    }
    let porous = grains? == 1;
    let test = TubeTest {
        tube: tube?,
        depth: STANDS_IN,
        time: time?,
        nearly_wet: nearly_wet?,
        damp: damp?,
        reading: READ_TO,
        handful_wet: handful_wet?,
        handful_dry: handful_dry?,
        volume: Volume::from_litres(1.0),
        volume_dry: volume_dry?,
        scale_step: SCALE_STEP,
        grains: if porous {
            Grains::Porous
        } else {
            Grains::Solid { density: quartz() }
        },
    };
    match found(&test) {
        Ok(found) => {
            let litre = found.dry_density.in_unit(&Density::GRAM_PER_LITRE);
            let loose = figure(litre.low(), litre.best(), litre.high(), &COMMON_PRACTICE);
            Some(Laid {
                row: by_tube(loose, porous),
                found: Some(found),
            })
        }
        Err(refusal) => {
            reader.say(path_of(refusal.field), refusal.to_string());
            None
        }
    }
}

/// What the last test told, for a question is read at every key.
fn found(test: &TubeTest) -> Result<Arc<Found>, crate::science::tube_test::Refusal> {
    thread_local! {
        static LAST: RefCell<Option<(TubeTest, Arc<Found>)>> = const { RefCell::new(None) };
    }
    let known = LAST.with_borrow(|last| {
        last.as_ref()
            .filter(|(of, _)| of == test)
            .map(|(_, found)| Arc::clone(found))
    });
    if let Some(found) = known {
        return Ok(found);
    }
    let found = Arc::new(test.found_at_first(DRAWS, SEED)?);
    LAST.set(Some((*test, Arc::clone(&found))));
    Ok(found)
}

fn path_of(field: Field) -> &'static str {
    match field {
        Field::Tube | Field::Depth => "bed.tube.tube",
        Field::Time => "bed.tube.time",
        Field::NearlyWet => "bed.tube.nearly_wet",
        Field::Damp | Field::Reading => "bed.tube.damp",
        Field::HandfulWet => "bed.tube.handful_wet",
        Field::HandfulDry | Field::ScaleStep => "bed.tube.handful_dry",
        Field::Volume | Field::VolumeDry => "bed.tube.litre_dry",
        Field::Grains => "bed.tube.grains",
    }
}
