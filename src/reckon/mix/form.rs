//! The form of Mix.

use std::rc::Rc;

use super::question::{MOST_PARTS, OWN_ROUND, OWN_SQUARE, OWN_VOLUME, PartAsked, Question};
use crate::handbook::materials::{MATERIALS, material};
use crate::handbook::pots::{POTS, pot};
use crate::handbook::thresholds::LIMITS;
use crate::measure::{Entry, Length, Number, NumberStyle, Volume, significant};
use crate::reckon::form::{Field, Form, Item, Piece, Row, Takes, Units};

const PARTS: &str = "parts";
const PLAIN: Units = Units::of::<Number>(&[]);
const LENGTHS: Units = Units::of::<Length>(&["mm", "cm", "in"]);
const VOLUMES: Units = Units::of::<Volume>(&["L", "mL", "gal"]);
const BAGS: Units = Units::of::<Volume>(&["L", "gal", "m3", "ft3"]);

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let mut pieces = vec![self.parts_piece(), pot_field()];
        pieces.extend(self.own_pot_fields());
        let uses = LIMITS
            .iter()
            .map(|limits| item(limits.key, limits.name, ""));
        pieces.push(field("purpose", "What for", Takes::Few(uses.collect())));
        pieces.push(number("pots", "Number of pots", PLAIN, 1.0));
        let bag = |index: usize| {
            number(
                &format!("parts.{index}.bag"),
                &format!("Bag of {}", self.name_of(index)),
                BAGS,
                5.0,
            )
        };
        pieces.push(Piece::More((0..self.parts.len()).map(bag).collect()));
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        if let Some((index, name)) = part_path(path) {
            let part = self.parts.get_mut(index)?;
            return match name {
                "amount" => Some(&mut part.amount),
                "bag" => Some(&mut part.bag),
                _ => None,
            };
        }
        let pot = &mut self.pot;
        match path {
            "pots" => Some(&mut self.pots),
            "pot.rim" => Some(&mut pot.rim),
            "pot.base" => Some(&mut pot.base),
            "pot.height" => Some(&mut pot.height),
            "pot.volume" => Some(&mut pot.volume),
            "pot.below_rim" => Some(&mut pot.below_rim),
            _ => None,
        }
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        match part_path(path) {
            Some((index, "material")) => self.parts.get_mut(index).map(|part| &mut part.material),
            Some(_) => None,
            None => match path {
                "pot.size" => Some(&mut self.pot.size),
                "purpose" => Some(&mut self.purpose),
                _ => None,
            },
        }
    }

    fn paths(&self) -> Vec<String> {
        /// What is not in a list.
        const SINGLE: [&str; 8] = [
            "pot.size",
            "pot.rim",
            "pot.base",
            "pot.height",
            "pot.volume",
            "pot.below_rim",
            "purpose",
            "pots",
        ];
        let of_part = |index: usize| {
            let at = [PARTS, ".", &index.to_string(), "."].concat();
            ["material", "amount", "bag"].map(|name| [&at, name].concat())
        };
        let parts = (0..self.parts.len()).flat_map(of_part);
        parts.chain(SINGLE.map(str::to_owned)).collect()
    }

    fn lists(&self) -> &'static [&'static str] {
        &[PARTS]
    }

    fn blank_rows(&mut self, path: &str, many: usize) {
        if path == PARTS {
            self.parts = vec![PartAsked::default(); many];
        }
    }

    /// Adds one part of the first material that is not in the mix yet.
    fn add_row(&mut self, path: &str) {
        if path != PARTS || self.parts.len() >= MOST_PARTS {
            return;
        }
        let used = |key: &str| self.parts.iter().any(|part| part.material == key);
        let material = MATERIALS
            .iter()
            .find(|material| !used(material.key))
            .map_or("", |material| material.key);
        let bag = self
            .parts
            .last()
            .map_or_else(|| PartAsked::default().bag, |part| part.bag.clone());
        self.parts.push(PartAsked {
            material: material.to_owned(),
            amount: Entry::number(1.0),
            bag,
        });
    }

    fn take_out_row(&mut self, path: &str, index: usize) {
        if path == PARTS && self.parts.len() > 1 && index < self.parts.len() {
            self.parts.remove(index);
        }
    }
}

impl Question {
    fn parts_piece(&self) -> Piece {
        let many = self.parts.len();
        let row = |index: usize| Row {
            fields: vec![
                Field {
                    path: format!("parts.{index}.material"),
                    label: format!("Material {}", index + 1),
                    takes: Takes::Many {
                        heading: "Material",
                        items: Rc::new(materials),
                    },
                },
                Field {
                    path: format!("parts.{index}.amount"),
                    label: format!("Parts of {}", self.name_of(index)),
                    takes: Takes::Number {
                        units: PLAIN,
                        step: 1.0,
                    },
                },
            ],
            take_out: (many > 1).then(|| format!("Take out {}", self.name_of(index))),
        };
        Piece::Rows {
            path: PARTS,
            legend: "Parts by volume, loose",
            rows: (0..many).map(row).collect(),
            add: (many < MOST_PARTS).then_some("Add a material"),
        }
    }

    /// The name of the material of a part, for labels.
    fn name_of(&self, index: usize) -> String {
        let key = self
            .parts
            .get(index)
            .map_or("", |part| part.material.as_str());
        material(key).map_or_else(
            || format!("material {}", index + 1),
            |material| material.name.to_owned(),
        )
    }

    fn own_pot_fields(&self) -> Vec<Piece> {
        let length = |path: &str, label: &str| number(path, label, LENGTHS, 5.0);
        let size = self.pot.size.as_str();
        if pot(size).is_some() {
            return Vec::new();
        }
        let mut fields = match size {
            OWN_ROUND | OWN_SQUARE => vec![
                length("pot.rim", "Across the rim, inside"),
                length("pot.base", "Across the base, inside"),
            ],
            OWN_VOLUME => vec![number("pot.volume", "Volume to the brim", VOLUMES, 0.5)],
            _ => return Vec::new(),
        };
        fields.push(length("pot.height", "Height, inside"));
        fields.push(length("pot.below_rim", "Space below the rim, once watered"));
        fields
    }
}

/// Index and field of a path such as `parts.2.amount`.
fn part_path(path: &str) -> Option<(usize, &str)> {
    let (index, name) = path.strip_prefix("parts.")?.split_once('.')?;
    Some((index.parse().ok()?, name))
}

fn field(path: &str, label: &str, takes: Takes) -> Piece {
    Piece::Field(Field {
        path: path.to_owned(),
        label: label.to_owned(),
        takes,
    })
}

fn number(path: &str, label: &str, units: Units, step: f64) -> Piece {
    field(path, label, Takes::Number { units, step })
}

fn item(key: &str, name: &str, note: &str) -> Item {
    Item {
        key: key.to_owned(),
        name: name.to_owned(),
        note: note.to_owned(),
    }
}

fn pot_field() -> Piece {
    field(
        "pot.size",
        "Pot",
        Takes::Many {
            heading: "Pot",
            items: Rc::new(pots),
        },
    )
}

fn materials() -> Vec<Item> {
    MATERIALS
        .iter()
        .map(|material| item(material.key, material.name, material.grade))
        .collect()
}

fn pots() -> Vec<Item> {
    let style = NumberStyle::default();
    let usual = POTS.iter().map(|pot| {
        let brim = pot.vessel().volume_to(pot.height).in_litres();
        let millimetres = |length: Length| significant(length.in_millimetres(), 3, style);
        let sizes = [
            &millimetres(pot.rim),
            " mm across, ",
            &millimetres(pot.height),
            " mm tall, ",
            &significant(brim, 2, style),
            " L to the brim",
        ];
        item(pot.key, pot.name, &sizes.concat())
    });
    let own = [
        item(
            OWN_ROUND,
            "my own, round",
            "measured inside at rim, base and height",
        ),
        item(
            OWN_SQUARE,
            "my own, square",
            "measured inside at rim, base and height",
        ),
        item(
            OWN_VOLUME,
            "my own, by volume",
            "a volume to the brim and a height, straight sides",
        ),
    ];
    usual.chain(own).collect()
}
