//! The form of Recipe.

use std::rc::Rc;

use super::blends::MOST_MATERIALS;
use super::question::{Aim, BEST_FIGURE, BY_DEPTH, MaterialAsked, NINE_IN_TEN, Question};
use crate::handbook::thresholds::LIMITS;
use crate::measure::{Entry, Fraction, Length, Mass, Number, Volume};
use crate::reckon::form::{Field, Form, Item, Piece, Row, Units, in_list, named, path_in};
use crate::reckon::{materials, pot};

const MATERIALS_LIST: &str = "materials";
/// The choice in a row of it.
const MATERIAL: &str = "material";
const PLAIN: Units = Units::of::<Number>(&[]);
const LENGTHS: Units = Units::of::<Length>(&["cm", "mm", "in"]);
const VOLUMES: Units = Units::of::<Volume>(&["L", "gal", "m3", "ft3"]);
const SHARES: Units = Units::of::<Fraction>(&["%"]);
const WEIGHTS: Units = Units::of::<Mass>(&["kg", "g", "lb"]);

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let sizes = || {
            let note = "straight sides, a litre of mix";
            let depth = Item::new(BY_DEPTH, "by depth alone", note);
            [depth].into_iter().chain(pot::sizes()).collect()
        };
        let mut fields: Vec<Field> = self.pot.fields(Rc::new(sizes)).collect();
        if self.pot.size == BY_DEPTH {
            fields.push(Field::number("depth", "Depth of the mix", LENGTHS, 1.0));
        }
        let uses = LIMITS.iter().map(|limits| (limits.key, limits.name));
        fields.push(Field::few("purpose", "What for", uses));
        let weight = if self.pot.size == BY_DEPTH {
            "Weight of a wet litre, at most"
        } else {
            "Weight of a wet pot, at most"
        };
        fields.extend([
            Field::number("litres", "Mix needed, loose", VOLUMES, 10.0),
            Field::number("targets.air", "Air, at least", SHARES, 1.0),
            Field::number("targets.water", "Water once drained, at least", SHARES, 1.0),
            Field::number("targets.weight", weight, WEIGHTS, 0.1),
            Field::number("targets.price", "Price of all of it, at most", PLAIN, 5.0),
            Field::few(
                "aim",
                "Of those, the one with",
                [
                    (Aim::Price.key(), "least price"),
                    (Aim::Weight.key(), "least weight"),
                    (Aim::Air.key(), "most air"),
                    (Aim::EasyWater.key(), "most easy water"),
                ],
            ),
            Field::few(
                "certainty",
                "How sure",
                [
                    (NINE_IN_TEN, "9 in 10"),
                    (BEST_FIGURE, "at the best figure"),
                ],
            ),
        ]);
        let mut pieces = vec![self.materials_piece()];
        pieces.extend(fields.into_iter().map(Piece::from));
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        match in_list(path, MATERIALS_LIST) {
            Some((index, name)) => named(self.materials.get_mut(index)?.numbers(), name),
            None => named(self.numbers(), path),
        }
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        match in_list(path, MATERIALS_LIST) {
            Some((index, MATERIAL)) => Some(&mut self.materials.get_mut(index)?.material),
            Some(_) => None,
            None => named(self.choices(), path),
        }
    }

    fn paths(&self) -> Vec<String> {
        let mut paths = Vec::new();
        let mut asked = self.clone();
        for (index, material) in asked.materials.iter_mut().enumerate() {
            let at = |name: &str| path_in(MATERIALS_LIST, index, name);
            paths.push(at(MATERIAL));
            paths.extend(material.numbers().into_iter().map(|(name, _)| at(name)));
        }
        paths.extend(asked.choices().map(|(path, _)| path.to_owned()));
        paths.extend(asked.numbers().into_iter().map(|(path, _)| path.to_owned()));
        paths
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
        let used = self.materials.iter().map(|other| other.material.as_str());
        self.materials.push(MaterialAsked {
            material: materials::another(used).to_owned(),
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
    fn materials_piece(&self) -> Piece {
        let many = self.materials.len();
        let row = |index: usize| {
            let asked = self.materials.get(index);
            let name = materials::called(asked.map_or("", |asked| &asked.material), index);
            let of = |end: &str| path_in(MATERIALS_LIST, index, end);
            let label = |start: &str| [start, &name].concat();
            Row {
                fields: vec![
                    materials::field(&of(MATERIAL), index),
                    Field::number(&of("price"), &label("Price of a bag of "), PLAIN, 1.0),
                    Field::number(&of("bag"), &label("Bag of "), VOLUMES, 5.0),
                    Field::number(&of("in_hand"), &label("In hand, loose: "), VOLUMES, 10.0),
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
}
