//! The form of Recipe. The pot is asked for as Mix asks for it.

use super::blends::MOST_MATERIALS;
use super::question::{Aim, BEST_FIGURE, BY_DEPTH, MaterialAsked, NINE_IN_TEN, Question};
use crate::handbook::materials::{MATERIALS, material};
use crate::measure::{Entry, Fraction, Length, Mass, Number, Volume};
use crate::reckon::form::{Field, Form, Item, Items, Piece, Row, Takes, Units, fields};
use crate::reckon::mix;
use std::rc::Rc;

const MATERIALS_LIST: &str = "materials";
const PLAIN: Units = Units::of::<Number>(&[]);
const LENGTHS: Units = Units::of::<Length>(&["cm", "mm", "in"]);
const VOLUMES: Units = Units::of::<Volume>(&["L", "gal", "m3", "ft3"]);
const SHARES: Units = Units::of::<Fraction>(&["%"]);
const WEIGHTS: Units = Units::of::<Mass>(&["kg", "g", "lb"]);

fn field(path: &str, label: &str, takes: Takes) -> Field {
    Field {
        path: path.to_owned(),
        label: label.to_owned(),
        takes,
    }
}

fn number(path: &str, label: &str, units: Units, step: f64) -> Field {
    field(path, label, Takes::Number { units, step })
}

fn few(path: &str, label: &str, choices: &[(&str, &str)]) -> Field {
    let items = choices.iter().map(|(key, name)| item(key, name, ""));
    field(path, label, Takes::Few(items.collect()))
}

fn item(key: &str, name: &str, note: &str) -> Item {
    Item {
        key: key.to_owned(),
        name: name.to_owned(),
        note: note.to_owned(),
    }
}

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let asked = mix::Question {
            pot: self.pot.clone(),
            ..mix::Question::default()
        };
        let of_mix = asked.pieces();
        let of_mix = fields(&of_mix);
        let of_mix = |path: &'static str| {
            let at = move |field: &&&Field| field.path.starts_with(path);
            of_mix.iter().copied().filter(move |field| at(&field))
        };
        let materials = of_mix("parts.0.material").find_map(|field| match &field.takes {
            Takes::Many { items, .. } => Some(Rc::clone(items)),
            _ => None,
        });
        let mut pieces =
            vec![self.materials_piece(&materials.unwrap_or_else(|| Rc::new(Vec::new)))];
        for pot in of_mix("pot.") {
            let mut pot: Field = Field::clone(pot);
            if let Takes::Many { items, .. } = &mut pot.takes {
                let usual = Rc::clone(items);
                *items = Rc::new(move || {
                    let depth = item(BY_DEPTH, "by depth alone", "straight sides, a litre of mix");
                    [depth].into_iter().chain(usual()).collect()
                });
            }
            pieces.push(Piece::Field(pot));
        }
        if self.pot.size == BY_DEPTH {
            pieces.push(Piece::Field(number(
                "depth",
                "Depth of the mix",
                LENGTHS,
                1.0,
            )));
        }
        pieces.extend(of_mix("purpose").map(|field| Piece::Field(Field::clone(field))));
        let weight = if self.pot.size == BY_DEPTH {
            "Weight of a wet litre, at most"
        } else {
            "Weight of a wet pot, at most"
        };
        let rest = [
            number("litres", "Mix needed, loose", VOLUMES, 10.0),
            number("targets.air", "Air, at least", SHARES, 1.0),
            number("targets.water", "Water once drained, at least", SHARES, 1.0),
            number("targets.weight", weight, WEIGHTS, 0.1),
            number("targets.price", "Price of all of it, at most", PLAIN, 5.0),
            few(
                "aim",
                "Of those, the one with",
                &[
                    (Aim::Price.key(), "least price"),
                    (Aim::Weight.key(), "least weight"),
                    (Aim::Air.key(), "most air"),
                    (Aim::EasyWater.key(), "most easy water"),
                ],
            ),
            few(
                "certainty",
                "How sure",
                &[
                    (NINE_IN_TEN, "9 in 10"),
                    (BEST_FIGURE, "at the best figure"),
                ],
            ),
        ];
        pieces.extend(rest.map(Piece::Field));
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        if let Some((index, name)) = material_path(path) {
            let material = self.materials.get_mut(index)?;
            return match name {
                "price" => Some(&mut material.price),
                "bag" => Some(&mut material.bag),
                "stock" => Some(&mut material.stock),
                _ => None,
            };
        }
        let (pot, targets) = (&mut self.pot, &mut self.targets);
        match path {
            "pot.rim" => Some(&mut pot.rim),
            "pot.base" => Some(&mut pot.base),
            "pot.height" => Some(&mut pot.height),
            "pot.volume" => Some(&mut pot.volume),
            "pot.below_rim" => Some(&mut pot.below_rim),
            "depth" => Some(&mut self.depth),
            "litres" => Some(&mut self.litres),
            "targets.air" => Some(&mut targets.air),
            "targets.water" => Some(&mut targets.water),
            "targets.weight" => Some(&mut targets.weight),
            "targets.price" => Some(&mut targets.price),
            _ => None,
        }
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        match material_path(path) {
            Some((index, "material")) => {
                let material = self.materials.get_mut(index)?;
                Some(&mut material.material)
            }
            Some(_) => None,
            None => match path {
                "pot.size" => Some(&mut self.pot.size),
                "purpose" => Some(&mut self.purpose),
                "aim" => Some(&mut self.aim),
                "certainty" => Some(&mut self.certainty),
                _ => None,
            },
        }
    }

    fn paths(&self) -> Vec<String> {
        /// What is not in a list.
        const SINGLE: [&str; 15] = [
            "pot.size",
            "pot.rim",
            "pot.base",
            "pot.height",
            "pot.volume",
            "pot.below_rim",
            "depth",
            "purpose",
            "litres",
            "targets.air",
            "targets.water",
            "targets.weight",
            "targets.price",
            "aim",
            "certainty",
        ];
        let of_material = |index: usize| {
            let at = [MATERIALS_LIST, ".", &index.to_string(), "."].concat();
            ["material", "price", "bag", "stock"].map(|name| [&at, name].concat())
        };
        let materials = (0..self.materials.len()).flat_map(of_material);
        materials.chain(SINGLE.map(str::to_owned)).collect()
    }

    fn lists(&self) -> &'static [&'static str] {
        &[MATERIALS_LIST]
    }

    fn blank_rows(&mut self, path: &str, many: usize) {
        if path == MATERIALS_LIST {
            self.materials = vec![MaterialAsked::default(); many];
        }
    }

    /// Adds the first material that is not in the list yet.
    fn add_row(&mut self, path: &str) {
        if path != MATERIALS_LIST || self.materials.len() >= MOST_MATERIALS {
            return;
        }
        let used = |key: &str| self.materials.iter().any(|other| other.material == key);
        let free = MATERIALS.iter().find(|material| !used(material.key));
        self.materials.push(MaterialAsked {
            material: free.map_or("", |material| material.key).to_owned(),
            ..MaterialAsked::default()
        });
    }

    fn take_out_row(&mut self, path: &str, index: usize) {
        if path == MATERIALS_LIST && self.materials.len() > 1 && index < self.materials.len() {
            self.materials.remove(index);
        }
    }
}

impl Question {
    fn materials_piece(&self, items: &Items) -> Piece {
        let many = self.materials.len();
        let row = |index: usize| {
            let name = self.name_of(index);
            let of = |end: &str| [MATERIALS_LIST, ".", &index.to_string(), ".", end].concat();
            let label = |start: &str| [start, &name].concat();
            let choice = Takes::Many {
                heading: "Material",
                items: Rc::clone(items),
            };
            Row {
                fields: vec![
                    field(
                        &of("material"),
                        &["Material ", &(index + 1).to_string()].concat(),
                        choice,
                    ),
                    number(&of("price"), &label("Price of a bag of "), PLAIN, 1.0),
                    number(&of("bag"), &label("Bag of "), VOLUMES, 5.0),
                    number(&of("stock"), &label("In stock, loose: "), VOLUMES, 10.0),
                ],
                take_out: (many > 1).then(|| label("Take out ")),
            }
        };
        Piece::Rows {
            path: MATERIALS_LIST,
            legend: "What there is to choose from",
            rows: (0..many).map(row).collect(),
            add: (many < MOST_MATERIALS).then_some("Add a material"),
        }
    }

    /// The name of a material, for labels.
    fn name_of(&self, index: usize) -> String {
        let key = self
            .materials
            .get(index)
            .map_or("", |asked| asked.material.as_str());
        material(key).map_or_else(
            || ["material ", &(index + 1).to_string()].concat(),
            |material| material.name.to_owned(),
        )
    }
}

/// Index and field of a path such as `materials.2.price`.
fn material_path(path: &str) -> Option<(usize, &str)> {
    let (index, name) = path
        .strip_prefix(MATERIALS_LIST)?
        .strip_prefix('.')?
        .split_once('.')?;
    Some((index.parse().ok()?, name))
}
