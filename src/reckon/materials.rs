//! A material as a question asks for it: which one it is, and what it is bought in.

use std::rc::Rc;

use super::form::{Field, Item, Takes};
use super::reader::Reader;
use super::words;
use crate::handbook::materials::{MATERIALS, Material, material};
use crate::measure::{Limits, Volume};

/// Size of the bag it is bought in.
pub const BAG: Limits<Volume> = Limits::litres("Size of the bag", 1.0, 3000.0);

/// The field for the material of a row.
#[must_use]
pub fn field(path: &str, row: usize) -> Field {
    let items = || {
        let item = |material: &Material| Item::new(material.key, material.name, material.grade);
        MATERIALS.iter().map(item).collect()
    };
    let choice = Takes::Many {
        heading: "Material",
        items: Rc::new(items),
    };
    Field::new(path, &["Material ", &place(row)].concat(), choice)
}

/// The name of the material of a row, for labels.
#[must_use]
pub fn called(key: &str, row: usize) -> String {
    material(key).map_or_else(
        || ["material ", &place(row)].concat(),
        |material| material.name.to_owned(),
    )
}

fn place(row: usize) -> String {
    (row + 1).to_string()
}

/// The key of the first material that is none of these; nothing where there is no other.
#[must_use]
pub fn another<'a>(used: impl Iterator<Item = &'a str> + Clone) -> &'static str {
    MATERIALS
        .iter()
        .find(|material| !used.clone().any(|key| key == material.key))
        .map_or("", |material| material.key)
}

/// The material chosen in a row, which must be none of the earlier rows; the sentence says so of its
/// name.
pub fn read<'a>(
    path: &str,
    chosen: &str,
    mut earlier: impl Iterator<Item = &'a str>,
    twice: fn(&str) -> String,
    reader: &mut Reader,
) -> Option<&'static Material> {
    let key = |material: &Material| material.key;
    let material = reader.choose(path, words::A_MATERIAL, chosen, MATERIALS, key)?;
    if earlier.any(|other| other == chosen) {
        reader.say(path, twice(material.name));
    }
    Some(material)
}

/// Whole bags to buy for what is needed beyond what is there, all in the same unit.
#[must_use]
pub fn bags_for(needed: f64, there: f64, bag: f64) -> f64 {
    /// No bag is bought for what rounding leaves.
    const A_TRACE: f64 = 1e-9;
    ((needed - there) / bag - A_TRACE).max(0.0).ceil()
}
