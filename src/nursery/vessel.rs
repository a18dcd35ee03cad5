//! The pots, trays and materials of the record as reckonings take them.

use super::id::Id;
use super::kinds::{Book, INSIDE};
use super::record::Record;
use super::thing::Thing;
use crate::handbook::bed_media::{BedMedium, bed_medium};
use crate::handbook::materials::{Material, material};
use crate::handbook::pots::{self, Outline};
use crate::measure::{Area, AreaLoad, Length, Quantity, Volume};
use crate::science::container::Vessel;

/// Whether a handbook has a key. The parts of it that are not on the shelf yet leave every key open.
#[must_use]
pub fn in_handbook(book: Book, key: &str) -> bool {
    match book {
        Book::Pot => pots::pot(key).is_some(),
        Book::Material => material(key).is_some(),
        Book::BedMedium => bed_medium(key).is_some() || material(key).is_some(),
        Book::Crop | Book::Climate => true,
    }
}

/// A pot as a reckoning takes it.
#[derive(Clone, Debug, PartialEq)]
pub struct PotHere {
    /// What it is called.
    pub name: String,
    /// The inside of it.
    pub vessel: Vessel,
    /// From the rim down to the mix.
    pub below_rim: Length,
}

/// The pot that a text names: one of the handbook by its key, or one of the record by its id. None
/// where there is no such pot, or its sizes are not all there.
#[must_use]
pub fn pot_here(record: &Record, text: &str) -> Option<PotHere> {
    match Id::read(text) {
        None => pots::pot(text).map(|pot| PotHere {
            name: pot.name.to_owned(),
            vessel: pot.vessel(),
            below_rim: pot.below_rim,
        }),
        Some(id) => own_pot(record.get(id).filter(|thing| thing.kind == "pot")?),
    }
}

/// The pot of the handbook that a text names: by its key, or one of the record by what it is like.
#[must_use]
pub fn pot_like(record: &Record, text: &str) -> Option<&'static pots::Pot> {
    pots::pot(key_like(record, text))
}

/// The key of the handbook that a text is, or that a thing of the record which it names is like.
pub(super) fn key_like<'a>(record: &'a Record, text: &'a str) -> &'a str {
    let own = Id::read(text).and_then(|id| record.get(id));
    own.map_or(text, |own| own.text("like"))
}

/// Sizes of one's own over those of the handbook's pot that it is like.
fn own_pot(thing: &Thing) -> Option<PotHere> {
    let like = pots::pot(thing.text("like"));
    let size = |path: &str, usual: fn(&pots::Pot) -> Length| {
        thing.number::<Length>(path).or_else(|| like.map(usual))
    };
    let height = size("height", |pot| pot.height)?;
    let vessel = match thing.number::<Volume>("volume") {
        // A volume by itself says more than the sizes of another pot.
        Some(volume) if thing.text("rim").is_empty() => Vessel::straight(volume, height),
        _ => {
            let (rim, base) = (size("rim", |pot| pot.rim)?, size("base", |pot| pot.base)?);
            let outline = match thing.choice("outline") {
                Some("square") => Outline::Square,
                Some(_) => Outline::Round,
                None => like.map_or(Outline::Round, |pot| pot.outline),
            };
            match outline {
                Outline::Round => Vessel::round(base, rim, height),
                Outline::Square => Vessel::square(base, rim, height),
            }
        }
    };
    Some(PotHere {
        name: thing.own_name().to_owned(),
        vessel,
        below_rim: size("below_rim", |pot| pot.below_rim).unwrap_or(Length::from_millimetres(0.0)),
    })
}

/// A tray as a reckoning takes it: each thing where the record says it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TrayHere {
    /// Height of its wall.
    pub wall: Option<Length>,
    /// Depth of the water when it is filled.
    pub level: Option<Length>,
    /// How much lower one end lies than the other: its own, or by the slope of the bay it stands in.
    pub fall: Option<Length>,
    /// Its floor inside.
    pub floor: Option<Area>,
    /// How many of them there are.
    pub number: Option<f64>,
    /// What its bed is laid of, where that is a bed medium of the handbook.
    pub medium: Option<&'static BedMedium>,
    /// What the bay or bench that it stands in may carry.
    pub carries: Option<AreaLoad>,
}

/// The tray of an id. None where there is no such tray.
#[must_use]
pub fn tray_here(record: &Record, id: Id) -> Option<TrayHere> {
    let tray = record.get(id).filter(|thing| thing.kind == "tray")?;
    let length = tray.base("length");
    let by_the_bay = || {
        let slope = within(record, tray).find_map(|outer| outer.base("slope"))?;
        Some(Length::from_metres(length? * slope))
    };
    Some(TrayHere {
        wall: tray.number("wall"),
        level: tray.number("level"),
        fall: tray.number("fall").or_else(by_the_bay),
        floor: length
            .zip(tray.base("width"))
            .map(|(length, width)| Area::from_base(length * width)),
        number: tray.base("number"),
        medium: bed_medium(tray.text("fill")),
        carries: within(record, tray).find_map(|outer| outer.number("load_limit")),
    })
}

/// What a bay or bench may carry, by itself or by the bay it is in. None where nobody says.
#[must_use]
pub fn bay_carries(record: &Record, id: Id) -> Option<AreaLoad> {
    let bay = record.get(id).filter(|thing| thing.kind == "bay")?;
    bay.number("load_limit")
        .or_else(|| within(record, bay).find_map(|outer| outer.number("load_limit")))
}

/// What a thing stands in, the nearest first.
pub(super) fn within<'a>(record: &'a Record, thing: &'a Thing) -> impl Iterator<Item = &'a Thing> {
    /// Two devices may put two bays into each other.
    const DEEPEST: usize = 16;
    let outer = |thing: &&'a Thing| record.get(thing.one(INSIDE)?);
    std::iter::successors(Some(thing), outer)
        .skip(1)
        .take(DEEPEST)
}

/// A material as a reckoning takes it.
#[derive(Clone, Debug, PartialEq)]
pub struct MaterialHere {
    /// What it is called.
    pub name: String,
    /// What it is reckoned as.
    pub like: &'static Material,
    /// Size of the bag, where it is known.
    pub bag: Option<Volume>,
    /// Price of a bag, where it is known.
    pub price: Option<f64>,
    /// What was in hand of it when that was last looked at, loose.
    pub in_hand: Option<Volume>,
}

/// The material that a text names: one of the handbook by its key, or one of the record by its id.
/// None where there is no such material, or it does not say what to reckon it as.
#[must_use]
pub fn material_here(record: &Record, text: &str) -> Option<MaterialHere> {
    let Some(id) = Id::read(text) else {
        return material(text).map(|like| MaterialHere {
            name: like.name.to_owned(),
            like,
            bag: None,
            price: None,
            in_hand: in_hand(record, text, None),
        });
    };
    let thing = record.get(id).filter(|thing| thing.kind == "material")?;
    let bag = thing.number("bag");
    Some(MaterialHere {
        name: thing.own_name().to_owned(),
        like: material(thing.text("like"))?,
        bag,
        price: thing.base("price"),
        in_hand: in_hand(record, text, bag),
    })
}

/// The stock of a material by the last look at it: its loose volume and its bags together. None
/// where nobody looked, or bags were counted whose size is not known.
fn in_hand(record: &Record, material: &str, bag: Option<Volume>) -> Option<Volume> {
    let of_it = |stock: &&Thing| stock.text("material") == material;
    let last = record.of_kind("stock").rev().find(of_it)?;
    let loose = last.number::<Volume>("volume");
    match last.base("bags").filter(|bags| *bags > 0.0) {
        None => loose,
        Some(bags) => Some(loose.unwrap_or(Volume::from_litres(0.0)) + bag? * bags),
    }
}
