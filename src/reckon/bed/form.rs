//! The form of Bed.

use std::rc::Rc;

use super::question::{
    ABOVE, BEDDED, BELOW, BY_HAND, FLOAT, HELD, HOLES, LEAVES, LITRES, NO, POROUS, Question,
    SECOND, SOLID, UNDER_POTS, WHOLE_TRAY, YES,
};
use crate::handbook::bed_media::{BED_MEDIA, BY_TUBE, OWN};
use crate::handbook::thirst::{HABITS, OWN_DAY, WEATHER};
use crate::measure::{Area, AreaLoad, Duration, Entry, Length, Mass, Number, Volume};
use crate::reckon::form::{Field, Form, Item, Piece, Takes, Units, in_list, named};
use crate::reckon::mix::{self, SQUARE, STAGGERED};
use crate::reckon::pot;

const PARTS: &str = "parts";
const PLAIN: Units = Units::of::<Number>(&[]);
const LENGTHS: Units = Units::of::<Length>(&["mm", "cm", "in"]);
const BAGS: Units = Units::of::<Volume>(&["L", "gal", "m3", "ft3"]);
const DRINKS: Units = Units::of::<Volume>(&["mL", "L"]);
const AREAS: Units = Units::of::<Area>(&["m2", "ft2"]);
const WEIGHTS: Units = Units::of::<Mass>(&["g", "kg", "oz", "lb"]);
const TIMES: Units = Units::of::<Duration>(&["min", "h"]);
const LOADS: Units = Units::of::<AreaLoad>(&["kg/m2", "lb/ft2"]);

/// What is read and weighed of a tube test.
fn tube_fields() -> Vec<Field> {
    let length =
        |name: &str, label: &str| Field::number(&["bed.tube.", name].concat(), label, LENGTHS, 5.0);
    let weight =
        |name: &str, label: &str| Field::number(&["bed.tube.", name].concat(), label, WEIGHTS, 5.0);
    vec![
        Field::few(
            "bed.tube.grains",
            "Its grains",
            [(SOLID, "solid: sand, gravel"), (POROUS, "porous")],
        ),
        length(
            "tube",
            "Dry medium in a clear tube, stood in 20 mm of water: its height",
        ),
        Field::number("bed.tube.time", "It stood for", TIMES, 5.0),
        length("nearly_wet", "Nearly wet up to, above the water"),
        length("damp", "Damp up to, above the water"),
        weight("handful_wet", "A handful soaked and shaken off"),
        weight("handful_dry", "The same handful dried"),
        weight("litre_dry", "A litre of it, dry"),
    ]
}

impl Question {
    /// What tells how much a plant drinks, at paths that begin so.
    fn thirst_fields(&self, at: &str, habit: &str) -> Vec<Field> {
        let path = |name: &str| [at, name].concat();
        if self.plant.by == LEAVES {
            let habits = HABITS.iter().map(|row| (row.key, row.name));
            let breadth = if habit == "tall" {
                "Breadth of its leaves, side to side"
            } else {
                "Breadth of the plant, leaf tip to leaf tip"
            };
            vec![
                Field::few(&path("habit"), "The plant", habits),
                Field::number(&path("breadth"), breadth, LENGTHS, 10.0),
            ]
        } else {
            vec![Field::number(
                &path("drinks"),
                "A plant drinks on a mean summer day",
                DRINKS,
                50.0,
            )]
        }
    }

    fn second_fields(&self) -> Vec<Field> {
        let mut fields = vec![Field::few(
            "second.there",
            "Other pots stand there too",
            [(NO, "no"), (YES, "yes")],
        )];
        if self.second.there == YES {
            let of_pot = self.second.pot.fields(Rc::new(pot::sizes));
            fields.extend(of_pot.map(|field| Field {
                path: [SECOND, &field.path].concat(),
                ..field
            }));
            fields.extend([
                Field::number("second.pots", "How many of them", PLAIN, 1.0),
                Field::number("second.spacing", "From pot to pot, middles", LENGTHS, 10.0),
            ]);
            fields.extend(self.thirst_fields(SECOND, &self.second.habit));
        }
        fields
    }
}

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let media = || {
            let own = [
                Item::new(OWN, "my own", "clean grains, by their size"),
                Item::new(BY_TUBE, "my own, tested", "by an hour in a tube"),
            ];
            let item = |row: &crate::handbook::bed_media::BedMedium| {
                Item::new(row.key, row.name, row.grade)
            };
            BED_MEDIA.iter().map(item).chain(own).collect()
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
        match self.bed.medium.as_str() {
            OWN => fields.push(Field::number("bed.grain", "Its middle grain", LENGTHS, 0.5)),
            BY_TUBE => fields.extend(tube_fields()),
            _ => {}
        }
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
            Field::few(
                "plant.by",
                "What a plant drinks is told",
                [(LITRES, "in litres"), (LEAVES, "by its leaves")],
            ),
        ]);
        fields.extend(self.thirst_fields("plant.", &self.plant.habit));
        let days = WEATHER.iter().map(|row| (row.key, row.name));
        fields.push(Field::few(
            "plant.weather",
            "The day",
            days.chain([(OWN_DAY, "by its sun")]),
        ));
        if self.plant.weather == OWN_DAY {
            fields.push(Field::number(
                "plant.sun",
                "Sun outdoors, MJ/m² (16 a mean summer day, 30 the clearest)",
                PLAIN,
                1.0,
            ));
        }
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
                "wetted",
                "The mix was last wetted through",
                [(ABOVE, "from above"), (BELOW, "from below")],
            ),
            Field::number(
                "plant.rooted",
                "Roots reach down by (empty: all the way)",
                LENGTHS,
                10.0,
            ),
            Field::few(
                "plant.roots_in_bed",
                "Roots have grown into the bed",
                [(NO, "no"), (YES, "yes")],
            ),
            Field::few(
                "bench.set_out",
                "Set out",
                [(SQUARE, "in squares"), (STAGGERED, "staggered")],
            ),
        ];
        let buying = vec![
            Field::number("pots", "Pots in the tray", PLAIN, 1.0),
            Field::number(
                "tray.area",
                "Floor of the tray (empty: by the spacing)",
                AREAS,
                0.1,
            ),
            Field::number("tray.number", "Trays in the bay", PLAIN, 1.0),
            Field::number("bed.bag", "Bag of the bed’s medium", BAGS, 5.0),
            Field::number("bed.price", "Price of a bag", PLAIN, 0.5),
            Field::number("bench.limit", "The bench carries", LOADS, 5.0),
        ];
        pieces.push(Piece::more("How they stand", standing));
        pieces.push(Piece::more(
            "A second kind of pot in the tray",
            self.second_fields(),
        ));
        pieces.push(Piece::more("How much of it, and its weight", buying));
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        match in_list(path, PARTS) {
            Some((index, name)) => named(self.parts.get_mut(index)?.numbers(), name),
            None => match path.strip_prefix(SECOND) {
                Some(name) => named(self.second.numbers(), name),
                None => named(self.numbers(), path),
            },
        }
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        match in_list(path, PARTS) {
            Some((index, name)) => named(self.parts.get_mut(index)?.choices(), name),
            None => match path.strip_prefix(SECOND) {
                Some(name) => named(self.second.choices(), name),
                None => named(self.choices(), path),
            },
        }
    }

    fn paths(&self) -> Vec<String> {
        let mut paths: Vec<String> = mix::paths_of_parts(&self.parts).collect();
        let mut asked = self.clone();
        paths.extend(asked.choices().map(|(path, _)| path.to_owned()));
        paths.extend(asked.numbers().into_iter().map(|(path, _)| path.to_owned()));
        let of_second = |(name, _): (&str, _)| [SECOND, name].concat();
        paths.extend(
            asked
                .second
                .choices()
                .map(|(name, choice)| of_second((name, choice.len()))),
        );
        let numbers = asked.second.numbers().into_iter();
        paths.extend(numbers.map(|(name, entry)| of_second((name, entry.text().len()))));
        paths
    }

    fn lists(&self) -> &'static [&'static str] {
        &[PARTS]
    }

    fn blank_rows(&mut self, path: &str, many: usize) {
        mix::change_parts(&mut self.parts, |of_mix| of_mix.blank_rows(path, many));
    }

    fn add_row(&mut self, path: &str) {
        mix::change_parts(&mut self.parts, |of_mix| of_mix.add_row(path));
    }

    fn take_out_row(&mut self, path: &str, index: usize) {
        mix::change_parts(&mut self.parts, |of_mix| of_mix.take_out_row(path, index));
    }
}
