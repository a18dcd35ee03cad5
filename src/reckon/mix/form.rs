//! The form of Mix.

use std::rc::Rc;

use super::question::{
    ALKALINITY_UNIT, DRAIN_TEST, HANDBOOK, MOST_PARTS, NO_FEED, Numbers, OWN_FIGURES, OWN_ROUND,
    OWN_SQUARE, OWN_VOLUME, PartAsked, Question, SQUARE, STAGGERED, USUAL_CHARGE,
};
use crate::handbook::materials::{MATERIALS, material};
use crate::handbook::pots::{POTS, pot};
use crate::handbook::thresholds::LIMITS;
use crate::measure::{
    AreaLoad, Density, Entry, Fraction, Length, Mass, Number, NumberStyle, SaltConductivity,
    Volume, significant,
};
use crate::reckon::form::{Field, Form, Item, Piece, Row, Takes, Units};

const PARTS: &str = "parts";
const PLAIN: Units = Units::of::<Number>(&[]);
const LENGTHS: Units = Units::of::<Length>(&["mm", "cm", "in"]);
const VOLUMES: Units = Units::of::<Volume>(&["L", "mL", "gal"]);
const BAGS: Units = Units::of::<Volume>(&["L", "gal", "m3", "ft3"]);
const DRINKS: Units = Units::of::<Volume>(&["mL", "L"]);
const WEIGHTS: Units = Units::of::<Mass>(&["g", "kg", "oz", "lb"]);
const SHARES: Units = Units::of::<Fraction>(&["%"]);
const DENSITIES: Units = Units::of::<Density>(&["g/L", "lb/ft3"]);
const LIME: Units = Units::of::<Density>(&["g/L"]);
const ALKALINITY: Units = Units::of::<Density>(&[ALKALINITY_UNIT]);
const SALT: Units = Units::of::<SaltConductivity>(&["mS/cm", "uS/cm"]);
const LOADS: Units = Units::of::<AreaLoad>(&["kg/m2", "lb/ft2"]);

/// A number that belongs to each part: its path after `parts.0.`, its label before the name of the
/// material, its units and its step.
type OfPart = (&'static str, &'static str, Units, f64);

const BOUGHT: [OfPart; 3] = [
    ("bag", "Bag of", BAGS, 5.0),
    ("price", "Price of a bag of", PLAIN, 0.5),
    ("in_hand", "In hand, loose, of", BAGS, 5.0),
];
const OWN: [OfPart; 3] = [
    ("own.density", "Dry weight of a litre of", DENSITIES, 10.0),
    ("own.pore_space", "Pore space of", SHARES, 1.0),
    (
        "own.water_at_10_cm",
        "Water at 10 cm of suction in",
        SHARES,
        1.0,
    ),
];
const DRAINED: [OfPart; 11] = [
    (
        "own.moisture",
        "Water in what was filled in, share of its weight:",
        SHARES,
        5.0,
    ),
    (
        "own.short.volume",
        "Short vessel, volume to the mark:",
        VOLUMES,
        0.1,
    ),
    (
        "own.short.height",
        "Short vessel, height of the mark:",
        LENGTHS,
        5.0,
    ),
    ("own.short.filled", "Short vessel, filled:", WEIGHTS, 10.0),
    ("own.short.soaked", "Short vessel, soaked:", WEIGHTS, 10.0),
    ("own.short.drained", "Short vessel, drained:", WEIGHTS, 10.0),
    (
        "own.tall.volume",
        "Tall vessel, volume to the mark:",
        VOLUMES,
        0.1,
    ),
    (
        "own.tall.height",
        "Tall vessel, height of the mark:",
        LENGTHS,
        5.0,
    ),
    ("own.tall.filled", "Tall vessel, filled:", WEIGHTS, 10.0),
    ("own.tall.soaked", "Tall vessel, soaked:", WEIGHTS, 10.0),
    ("own.tall.drained", "Tall vessel, drained:", WEIGHTS, 10.0),
];

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let mut pieces = vec![self.parts_piece(), pot_field().into()];
        pieces.extend(self.own_pot_fields().into_iter().map(Piece::from));
        let uses = LIMITS
            .iter()
            .map(|limits| Item::new(limits.key, limits.name, ""));
        pieces.push(Field::new("purpose", "What for", Takes::Few(uses.collect())).into());
        pieces.push(Field::number("pots", "Number of pots", PLAIN, 1.0).into());
        let more = [
            ("How they stand", standing()),
            ("Bags, prices, what is in hand", self.bought()),
            ("Feed, lime and water", fed()),
            ("What you measured yourself", self.measured()),
        ];
        pieces.extend(more.map(|(about, fields)| Piece::More {
            about,
            pieces: fields.into_iter().map(Piece::from).collect(),
        }));
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        match part_path(path) {
            Some((index, name)) => named(self.parts.get_mut(index)?.numbers(), name),
            None => named(self.numbers(), path),
        }
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        match part_path(path) {
            Some((index, name)) => named(self.parts.get_mut(index)?.choices(), name),
            None => named(self.choices(), path),
        }
    }

    /// What says nothing has no path: links would be long with it.
    fn paths(&self) -> Vec<String> {
        let mut paths = Vec::new();
        let mut asked = self.clone();
        for (index, part) in asked.parts.iter_mut().enumerate() {
            let at = |name: &str| [PARTS, ".", &index.to_string(), ".", name].concat();
            paths.push(at("material"));
            if part.own.figures != HANDBOOK {
                paths.push(at("own.figures"));
            }
            let usual = &mut PartAsked::default();
            paths.extend(said(part.numbers(), usual.numbers()).map(at));
        }
        paths.extend(["pot.size", "purpose"].map(str::to_owned));
        if asked.bench.set_out != SQUARE {
            paths.push("bench.set_out".to_owned());
        }
        if asked.chemistry.feed != NO_FEED {
            paths.push("chemistry.feed".to_owned());
        }
        let usual = &mut Self::default();
        paths.extend(said(asked.numbers(), usual.numbers()).map(str::to_owned));
        paths
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
            ..PartAsked::default()
        });
    }

    fn take_out_row(&mut self, path: &str, index: usize) {
        if path == PARTS && self.parts.len() > 1 && index < self.parts.len() {
            self.parts.remove(index);
        }
    }
}

/// Names of the numbers of which something is said, or would be by itself.
fn said<'a>(
    asked: Numbers<'a>,
    usual: Numbers<'a>,
) -> impl Iterator<Item = &'static str> + use<'a> {
    asked
        .into_iter()
        .zip(usual)
        .filter(|((_, asked), (_, usual))| asked != usual || !usual.text().is_empty())
        .map(|((name, _), _)| name)
}

/// The one of a name.
fn named<'a, T>(
    all: impl IntoIterator<Item = (&'static str, &'a mut T)>,
    name: &str,
) -> Option<&'a mut T> {
    all.into_iter()
        .find(|(known, _)| *known == name)
        .map(|(_, found)| found)
}

/// Index and field of a path such as `parts.2.amount`.
fn part_path(path: &str) -> Option<(usize, &str)> {
    let (index, name) = path
        .strip_prefix(PARTS)?
        .strip_prefix('.')?
        .split_once('.')?;
    Some((index.parse().ok()?, name))
}

impl Question {
    fn parts_piece(&self) -> Piece {
        let many = self.parts.len();
        let row = |index: usize| Row {
            fields: vec![
                Field::new(
                    &of_part(index, "material"),
                    &["Material ", &(index + 1).to_string()].concat(),
                    Takes::Many {
                        heading: "Material",
                        items: Rc::new(materials),
                    },
                ),
                self.number_of(index, &("amount", "Parts of", PLAIN, 1.0)),
            ],
            take_out: (many > 1).then(|| ["Take out ", &self.name_of(index)].concat()),
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
            || ["material ", &(index + 1).to_string()].concat(),
            |material| material.name.to_owned(),
        )
    }

    fn number_of(&self, index: usize, (name, label, units, step): &OfPart) -> Field {
        let label = [label, " ", &self.name_of(index)].concat();
        Field::number(&of_part(index, name), &label, *units, *step)
    }

    /// What each part is bought in, costs, and what there is of it.
    fn bought(&self) -> Vec<Field> {
        (0..self.parts.len())
            .flat_map(|index| BOUGHT.iter().map(move |of| self.number_of(index, of)))
            .collect()
    }

    /// Whose figures each part has, and those of one's own; then the bucket test.
    fn measured(&self) -> Vec<Field> {
        let mut fields = Vec::new();
        for (index, part) in self.parts.iter().enumerate() {
            let whose = [
                Item::new(HANDBOOK, "the handbook’s", ""),
                Item::new(OWN_FIGURES, "my own", ""),
                Item::new(DRAIN_TEST, "a drain test’s", ""),
            ];
            fields.push(Field::new(
                &of_part(index, "own.figures"),
                &["Figures of ", &self.name_of(index)].concat(),
                Takes::Few(whose.into()),
            ));
            let asked = match part.own.figures.as_str() {
                OWN_FIGURES => &OWN[..],
                DRAIN_TEST => &DRAINED[..],
                _ => &[],
            };
            fields.extend(asked.iter().map(|of| self.number_of(index, of)));
        }
        fields.push(Field::number(
            "bucket.loose",
            "Bucket test: all parts, loose",
            BAGS,
            1.0,
        ));
        fields.push(Field::number(
            "bucket.mixed",
            "Bucket test: once mixed",
            BAGS,
            0.1,
        ));
        fields
    }

    fn own_pot_fields(&self) -> Vec<Field> {
        let length = |path: &str, label: &str| Field::number(path, label, LENGTHS, 5.0);
        let size = self.pot.size.as_str();
        if pot(size).is_some() {
            return Vec::new();
        }
        let mut fields = match size {
            OWN_ROUND | OWN_SQUARE => vec![
                length("pot.rim", "Across the rim, inside"),
                length("pot.base", "Across the base, inside"),
            ],
            OWN_VOLUME => vec![Field::number(
                "pot.volume",
                "Volume to the brim",
                VOLUMES,
                0.5,
            )],
            _ => return Vec::new(),
        };
        fields.push(length("pot.height", "Height, inside"));
        fields.push(length("pot.below_rim", "Space below the rim, once watered"));
        fields
    }
}

fn of_part(index: usize, name: &str) -> String {
    [PARTS, ".", &index.to_string(), ".", name].concat()
}

/// How the pots stand, what a plant drinks, and what carries them.
fn standing() -> Vec<Field> {
    let set_out = [
        Item::new(SQUARE, "in squares", ""),
        Item::new(STAGGERED, "staggered", ""),
    ];
    vec![
        Field::number(
            "stands.tray",
            "Depth of water in a filled tray",
            LENGTHS,
            5.0,
        ),
        Field::number(
            "stands.bed",
            "Coarse bed between tray and pot",
            LENGTHS,
            10.0,
        ),
        Field::number("stands.drinks", "A plant drinks in a day", DRINKS, 50.0),
        Field::number("bench.spacing", "From pot to pot, middles", LENGTHS, 10.0),
        Field::new("bench.set_out", "Set out", Takes::Few(set_out.into())),
        Field::number("bench.limit", "The bench carries", LOADS, 5.0),
    ]
}

/// What is mixed in, and the water.
fn fed() -> Vec<Field> {
    let feed = [
        Item::new(NO_FEED, "none", ""),
        Item::new(USUAL_CHARGE, "a usual charge, 1 g/L", ""),
    ];
    vec![
        Field::new("chemistry.feed", "Feed mixed in", Takes::Few(feed.into())),
        Field::number("chemistry.lime", "Ground limestone mixed in", LIME, 0.5),
        Field::number(
            "chemistry.alkalinity",
            "Alkalinity of the water, as calcium carbonate",
            ALKALINITY,
            50.0,
        ),
        Field::number(
            "chemistry.conductivity",
            "Conductivity of the water",
            SALT,
            0.1,
        ),
    ]
}

fn pot_field() -> Field {
    Field::new(
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
        .map(|material| Item::new(material.key, material.name, material.grade))
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
        Item::new(pot.key, pot.name, &sizes.concat())
    });
    let own = [
        Item::new(
            OWN_ROUND,
            "my own, round",
            "measured inside at rim, base and height",
        ),
        Item::new(
            OWN_SQUARE,
            "my own, square",
            "measured inside at rim, base and height",
        ),
        Item::new(
            OWN_VOLUME,
            "my own, by volume",
            "a volume to the brim and a height, straight sides",
        ),
    ];
    usual.chain(own).collect()
}
