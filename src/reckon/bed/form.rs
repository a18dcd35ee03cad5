//! The form of Bed.

use std::rc::Rc;

use super::question::{BEDDED, BY_HAND, FLOAT, HELD, HOLES, Question, UNDER_POTS, WHOLE_TRAY};
use crate::handbook::bed_media::{BED_MEDIA, OWN, WEATHER};
use crate::measure::{AreaLoad, Entry, Length, Number, Volume};
use crate::reckon::form::{Field, Form, Item, Piece, Takes, Units, in_list, named};
use crate::reckon::mix::{self, SQUARE, STAGGERED};
use crate::reckon::pot;

const PARTS: &str = "parts";
const PLAIN: Units = Units::of::<Number>(&[]);
const LENGTHS: Units = Units::of::<Length>(&["mm", "cm", "in"]);
const BAGS: Units = Units::of::<Volume>(&["L", "gal", "m3", "ft3"]);
const DRINKS: Units = Units::of::<Volume>(&["mL", "L"]);
const LOADS: Units = Units::of::<AreaLoad>(&["kg/m2", "lb/ft2"]);

impl Question {
    /// The question of Mix about the same parts, for what is done to their list.
    fn of_mix(&self) -> mix::Question {
        mix::Question {
            parts: self.parts.clone(),
            ..mix::Question::default()
        }
    }
}

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let media = || {
            let own = Item::new(OWN, "my own", "clean grains, by their size");
            let item = |row: &crate::handbook::bed_media::BedMedium| {
                Item::new(row.key, row.name, row.grade)
            };
            BED_MEDIA.iter().map(item).chain([own]).collect()
        };
        let mut fields: Vec<Field> = self.pot.fields(Rc::new(pot::sizes)).collect();
        fields.push(Field::new(
            "bed.medium",
            "What the bed is laid of",
            Takes::Many {
                heading: "Bed",
                items: Rc::new(media),
            },
        ));
        if self.bed.medium == OWN {
            fields.push(Field::number("bed.grain", "Its middle grain", LENGTHS, 0.5));
        }
        let weather = WEATHER.iter().map(|row| (row.key, row.name));
        fields.extend([
            Field::number("tray.level", "Water in the tray when filled", LENGTHS, 5.0),
            Field::few(
                "tray.filling",
                "Filled",
                [
                    (FLOAT, "by a float, once empty"),
                    (HELD, "held at that level"),
                    (BY_HAND, "by hand, once a day"),
                ],
            ),
            Field::number("tray.wall", "Height of the tray’s wall", LENGTHS, 5.0),
            Field::number("bench.spacing", "From pot to pot, middles", LENGTHS, 10.0),
            Field::number(
                "plant.drinks",
                "A plant drinks on a mean summer day",
                DRINKS,
                50.0,
            ),
            Field::few("plant.weather", "The day", weather),
        ]);
        let mut pieces = vec![mix::parts_piece(&self.parts)];
        pieces.extend(fields.into_iter().map(Piece::from));
        let standing = vec![
            Field::few(
                "contact",
                "The base of the pot",
                [
                    (BEDDED, "pressed and twisted into the bed"),
                    (HOLES, "set on it, touching by its holes"),
                ],
            ),
            Field::few(
                "bed.extent",
                "The bed lies",
                [
                    (WHOLE_TRAY, "over the whole tray"),
                    (UNDER_POTS, "under the pots only"),
                ],
            ),
            Field::number("tray.slope", "One end lies lower by", LENGTHS, 1.0),
            Field::few(
                "bench.set_out",
                "Set out",
                [(SQUARE, "in squares"), (STAGGERED, "staggered")],
            ),
        ];
        let buying = vec![
            Field::number("pots", "Pots in the tray", PLAIN, 1.0),
            Field::number("bed.bag", "Bag of the bed’s medium", BAGS, 5.0),
            Field::number("bed.price", "Price of a bag", PLAIN, 0.5),
            Field::number("bench.limit", "The bench carries", LOADS, 5.0),
        ];
        pieces.push(Piece::more("How they stand", standing));
        pieces.push(Piece::more("How much of it, and its weight", buying));
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

    fn paths(&self) -> Vec<String> {
        let of_parts = self.of_mix().paths();
        let mut paths: Vec<String> = of_parts
            .into_iter()
            .filter(|path| in_list(path, PARTS).is_some())
            .collect();
        let mut asked = self.clone();
        paths.extend(asked.choices().map(|(path, _)| path.to_owned()));
        paths.extend(asked.numbers().into_iter().map(|(path, _)| path.to_owned()));
        paths
    }

    fn lists(&self) -> &'static [&'static str] {
        &[PARTS]
    }

    fn blank_rows(&mut self, path: &str, many: usize) {
        let mut of_mix = self.of_mix();
        of_mix.blank_rows(path, many);
        self.parts = of_mix.parts;
    }

    fn add_row(&mut self, path: &str) {
        let mut of_mix = self.of_mix();
        of_mix.add_row(path);
        self.parts = of_mix.parts;
    }

    fn take_out_row(&mut self, path: &str, index: usize) {
        let mut of_mix = self.of_mix();
        of_mix.take_out_row(path, index);
        self.parts = of_mix.parts;
    }
}
