//! The form of Mix.

use std::rc::Rc;

use super::question::{
    ALKALINITY_UNIT, DRAIN_TEST, HANDBOOK, MOST_PARTS, NO_FEED, OWN_FIGURES, PartAsked, Question,
    SQUARE, STAGGERED, USUAL_CHARGE,
};
use crate::handbook::thresholds::LIMITS;
use crate::measure::{
    AreaLoad, Density, Entry, Fraction, Length, Mass, Number, SaltConductivity, Volume,
};
use crate::reckon::form::{Field, Form, Numbers, Piece, Row, Units, in_list, named, path_in};
use crate::reckon::{materials, pot};

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
        let mut pieces = vec![self.parts_piece()];
        pieces.extend(self.pot.fields(Rc::new(pot::sizes)).map(Piece::from));
        let uses = LIMITS.iter().map(|limits| (limits.key, limits.name));
        pieces.push(Field::few("purpose", "What for", uses).into());
        pieces.push(Field::number("pots", "Number of pots", PLAIN, 1.0).into());
        let more = [
            ("How they stand", standing()),
            ("Bags, prices, what is in hand", self.bought()),
            ("Feed, lime and water", fed()),
            ("What you measured yourself", self.measured()),
        ];
        pieces.extend(more.map(|(about, fields)| Piece::more(about, fields)));
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        match in_list(path, PARTS) {
            Some((index, name)) => named(self.parts.get_mut(index)?.numbers(), name),
            None => named(self.numbers(), path),
        }
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        match in_list(path, PARTS) {
            Some((index, name)) => named(self.parts.get_mut(index)?.choices(), name),
            None => named(self.choices(), path),
        }
    }

    /// What says nothing has no path: links would be long with it.
    fn paths(&self) -> Vec<String> {
        let mut paths = Vec::new();
        let mut asked = self.clone();
        for (index, part) in asked.parts.iter_mut().enumerate() {
            let at = |name: &str| path_in(PARTS, index, name);
            paths.push(at("material"));
            if part.own.figures != HANDBOOK {
                paths.push(at("own.figures"));
            }
            let usual = &mut PartAsked::default();
            paths.extend(said(part.numbers(), usual.numbers()).map(at));
        }
        paths.extend([pot::SIZE, "purpose"].map(str::to_owned));
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
        let used = self.parts.iter().map(|part| part.material.as_str());
        let material = materials::another(used);
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

/// The list of parts of another reckoning that asks for a mix, changed as Mix changes its own.
pub(in crate::reckon) fn change_parts(
    parts: &mut Vec<PartAsked>,
    change: impl FnOnce(&mut Question),
) {
    let mut of_mix = Question {
        parts: std::mem::take(parts),
        ..Question::default()
    };
    change(&mut of_mix);
    *parts = of_mix.parts;
}

/// The paths of all fields of such parts.
pub(in crate::reckon) fn paths_of_parts(parts: &[PartAsked]) -> impl Iterator<Item = String> {
    let of_mix = Question {
        parts: parts.to_vec(),
        ..Question::default()
    };
    let paths = of_mix.paths().into_iter();
    paths.filter(|path| in_list(path, PARTS).is_some())
}

/// The rows of the parts of a mix, for another reckoning that asks for one.
pub(in crate::reckon) fn parts_piece(parts: &[PartAsked]) -> Piece {
    let question = Question {
        parts: parts.to_vec(),
        ..Question::default()
    };
    question.parts_piece()
}

impl Question {
    fn parts_piece(&self) -> Piece {
        let many = self.parts.len();
        let row = |index: usize| Row {
            fields: vec![
                materials::field(&path_in(PARTS, index, "material"), index),
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
        let part = self.parts.get(index);
        materials::called(part.map_or("", |part| &part.material), index)
    }

    fn number_of(&self, index: usize, (name, label, units, step): &OfPart) -> Field {
        let label = [label, " ", &self.name_of(index)].concat();
        Field::number(&path_in(PARTS, index, name), &label, *units, *step)
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
            fields.push(Field::few(
                &path_in(PARTS, index, "own.figures"),
                &["Figures of ", &self.name_of(index)].concat(),
                [
                    (HANDBOOK, "the handbook’s"),
                    (OWN_FIGURES, "my own"),
                    (DRAIN_TEST, "a drain test’s"),
                ],
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
}

/// How the pots stand, what a plant drinks, and what carries them.
fn standing() -> Vec<Field> {
    let set_out = [(SQUARE, "in squares"), (STAGGERED, "staggered")];
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
        Field::few("bench.set_out", "Set out", set_out),
        Field::number("bench.limit", "The bench carries", LOADS, 5.0),
    ]
}

/// What is mixed in, and the water.
fn fed() -> Vec<Field> {
    let feed = [(NO_FEED, "none"), (USUAL_CHARGE, "a usual charge, 1 g/L")];
    vec![
        Field::few("chemistry.feed", "Feed mixed in", feed),
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
