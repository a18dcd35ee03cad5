//! The form of Season.

use super::question::{
    BatchAsked, CERTAINTIES, HELD, HOUSE, MOST_BATCHES, MOST_PARTS, MOST_PLACES, MOST_SOWINGS,
    PLACE_KEYS, PartAsked, PlaceAsked, Question, READY, SOWN, SowingAsked,
};
use crate::handbook::crops::ageing::KEEPINGS;
use crate::handbook::crops::{Begun, CROPS, Crop};
use crate::measure::{AreaLoad, Density, Duration, Entry, Fraction, Length, Number, Volume};
use crate::reckon::form::{
    CELSIUS, Field, Form, Item, Piece, Row, Takes, Units, WARMER, blank, climates, in_list, named,
    path_in,
};
use crate::reckon::pot;

const SOWINGS: &str = "sowings";
const BATCHES: &str = "batches";
const PLACES: &str = "places";
const PARTS: &str = "parts";
const PLAIN: Units = Units::of::<Number>(&[]);
const SHARES: Units = Units::of::<Fraction>(&["%"]);
const DAYS: Units = Units::of::<Duration>(&["day"]);
const HOURS: Units = Units::of::<Duration>(&["h"]);
const MINUTES: Units = Units::of::<Duration>(&["min"]);
const LENGTHS: Units = Units::of::<Length>(&["mm", "cm", "in"]);
const SPANS: Units = Units::of::<Length>(&["m", "ft"]);
const LITRES: Units = Units::of::<Volume>(&["L"]);
const LOADS: Units = Units::of::<AreaLoad>(&["kg/m2"]);
const WEIGHTS: Units = Units::of::<Density>(&["g/L"]);

fn crops() -> Vec<Item> {
    let item = |crop: &&'static Crop| Item::new(crop.key, crop.name, crop.botanical);
    CROPS
        .iter()
        .filter(|crop| crop.begun == Begun::Seed)
        .map(item)
        .collect()
}

/// The crop of a row, what kind of row it is and its number, as labels have it.
fn called(crop: Option<&str>, kind: &str, row: usize) -> String {
    let known = CROPS.iter().find(|known| crop == Some(known.key));
    let name = known.map_or(kind, |known| known.name);
    [name, ", ", kind, " ", &(row + 1).to_string()].concat()
}

impl Question {
    /// What a sowing is called in labels.
    fn crop_of(&self, row: usize) -> String {
        let asked = self.sowings.get(row);
        called(asked.map(|asked| &*asked.crop), "sowing", row)
    }

    /// What a batch is called in labels.
    fn batch_of(&self, row: usize) -> String {
        let asked = self.batches.get(row);
        called(asked.map(|asked| &*asked.crop), "batch", row)
    }

    /// One of the places, by its number and its name.
    fn place_field(&self, path: &str, label: &str) -> Field {
        let names: Vec<String> = PLACE_KEYS
            .iter()
            .zip(&self.places)
            .map(|(key, place)| [*key, " ", place.name.trim()].concat())
            .collect();
        let items = PLACE_KEYS.into_iter().zip(names.iter().map(String::as_str));
        Field::few(path, label, items)
    }

    fn sowing_row(&self, row: usize) -> Row {
        let at = |name: &str| path_in(SOWINGS, row, name);
        let of = |label: &str| [label, ": ", &self.crop_of(row)].concat();
        Row {
            fields: vec![
                Field::many(&at("crop"), &of("Crop"), "Crop", crops),
                Field::number(&at("wanted"), &of("Wanted"), PLAIN, 10.0),
                Field::few(
                    &at("by"),
                    &of("The day is"),
                    [(READY, "when they are ready"), (SOWN, "when they are sown")],
                ),
                Field::new(&at("day"), &of("Day"), Takes::Day { steps_days: 7 }),
            ],
            take_out: (self.sowings.len() > 1).then(|| ["Take out ", &self.crop_of(row)].concat()),
        }
    }

    fn more_of_sowing(&self, row: usize) -> Vec<Field> {
        let at = |name: &str| path_in(SOWINGS, row, name);
        let of = |label: &str| [label, ": ", &self.crop_of(row)].concat();
        let number = |name: &str, label: &str, units: Units, step: f64| {
            Field::number(&at(name), &of(label), units, step)
        };
        let place = |name: &str, label: &str| self.place_field(&at(name), &of(label));
        vec![
            number("times", "How often, one after the other", PLAIN, 1.0),
            number("every", "From one to the next", DAYS, 1.0),
            place("first", "Comes up on"),
            place("then", "In pots on"),
            Field::many(&at("pot"), &of("Pot"), "Pot", pot::usual_sizes),
            number("spacing", "From pot to pot, middles", LENGTHS, 5.0),
            number("touching", "Rim to rim at first, for", DAYS, 1.0),
            number("stands", "Stands once ready", DAYS, 1.0),
            number(
                "in_cell",
                "Seeds in a cell or pot (empty: usual)",
                PLAIN,
                1.0,
            ),
            number("up", "Share that comes up (empty: usual)", SHARES, 5.0),
            number("tested", "found of so many seeds in a test", PLAIN, 10.0),
            number("aged", "Years old (empty: fresh, or tested)", PLAIN, 1.0),
            Field::few(
                &at("kept"),
                &of("Seed was kept"),
                KEEPINGS
                    .each_ref()
                    .map(|keeping| (keeping.key, keeping.name)),
            ),
            number("lost", "Share lost afterwards (empty: usual)", SHARES, 1.0),
            number("packet", "Seeds in a packet", PLAIN, 100.0),
            number("packet_price", "Price of a packet", PLAIN, 0.5),
            number("in_hand", "Seeds in hand", PLAIN, 100.0),
            number("pot_price", "Price of a pot", PLAIN, 0.01),
            number("pots_in_hand", "Pots in hand", PLAIN, 100.0),
        ]
    }

    fn batch_row(&self, row: usize) -> Row {
        let at = |name: &str| path_in(BATCHES, row, name);
        let of = |label: &str| [label, ": ", &self.batch_of(row)].concat();
        let day = |name: &str, label: &str| {
            Field::new(&at(name), &of(label), Takes::Day { steps_days: 0 })
        };
        Row {
            fields: vec![
                Field::many(&at("crop"), &of("Crop"), "Crop", crops),
                Field::number(&at("number"), &of("Sown, cells or pots"), PLAIN, 10.0),
                day("sown", "Sown on"),
                day("up", "Up on"),
                day("potted", "Potted on"),
                day("ready", "Ready, or first sold on"),
                day("picked", "First cut or pick on"),
                day("gone", "Gone, or to be gone"),
            ],
            take_out: Some(["Take out ", &self.batch_of(row)].concat()),
        }
    }

    fn more_of_batch(&self, row: usize) -> Vec<Field> {
        let at = |name: &str| path_in(BATCHES, row, name);
        let of = |label: &str| [label, ": ", &self.batch_of(row)].concat();
        let number = |name: &str, label: &str, units: Units, step: f64| {
            Field::number(&at(name), &of(label), units, step)
        };
        let place = |name: &str, label: &str| self.place_field(&at(name), &of(label));
        vec![
            number("came_up", "Came up", PLAIN, 10.0),
            number("lost", "Lost of these", PLAIN, 1.0),
            place("first", "Comes up on"),
            place("then", "In pots on"),
            Field::many(&at("pot"), &of("Pot"), "Pot", pot::usual_sizes),
            number("spacing", "From pot to pot, middles", LENGTHS, 5.0),
            number("nights", "Its nights, warmer than usual by", WARMER, 0.5),
            number("days", "Its days, warmer than usual by", WARMER, 0.5),
            Field::new(
                &at("meant_sown"),
                &of("Was to be sown on"),
                Takes::Day { steps_days: 0 },
            ),
            Field::new(
                &at("meant_ready"),
                &of("Was to be ready on"),
                Takes::Day { steps_days: 0 },
            ),
        ]
    }

    fn part_row(&self, row: usize) -> Row {
        let at = |name: &str| path_in(PARTS, row, name);
        let of = |label: &str| [label, " of part ", &(row + 1).to_string()].concat();
        let number = |name: &str, label: &str, units: Units, step: f64| {
            Field::number(&at(name), &of(label), units, step)
        };
        Row {
            fields: vec![
                Field::new(&at("name"), &of("Name"), Takes::Words { long: false }),
                number("parts", "Parts, loose,", PLAIN, 1.0),
                number("bag", "Bag", LITRES, 10.0),
                number("price", "Price of a bag", PLAIN, 0.5),
                number("in_hand", "In hand", LITRES, 10.0),
            ],
            take_out: Some(["Take out part ", &(row + 1).to_string()].concat()),
        }
    }

    fn place_row(&self, row: usize) -> Row {
        let at = |name: &str| path_in(PLACES, row, name);
        let of = |label: &str| [label, " of place ", &(row + 1).to_string()].concat();
        let mut fields = vec![
            Field::new(&at("name"), &of("Name"), Takes::Words { long: false }),
            Field::few(
                &at("warmth"),
                &of("Warmth"),
                [(HELD, "held at"), (HOUSE, "as the house is")],
            ),
        ];
        let held = self
            .places
            .get(row)
            .is_some_and(|place| place.warmth == HELD);
        if held {
            fields.push(Field::number(&at("held"), &of("Held"), CELSIUS, 1.0));
        }
        fields.extend([
            Field::number(&at("length"), &of("Length"), SPANS, 0.5),
            Field::number(&at("breadth"), &of("Breadth"), SPANS, 0.1),
        ]);
        Row {
            fields,
            take_out: (self.places.len() > 1)
                .then(|| ["Take out place ", &(row + 1).to_string()].concat()),
        }
    }

    fn more_of_place(&self, row: usize) -> Vec<Field> {
        let at = |name: &str| path_in(PLACES, row, name);
        let name = self.places.get(row).map_or("", |place| place.name.trim());
        let of = |label: &str| [label, ": ", &(row + 1).to_string(), " ", name].concat();
        vec![
            Field::number(
                &at("night"),
                &of("House warmer than outside by night"),
                WARMER,
                0.5,
            ),
            Field::number(&at("day"), &of("The same by day"), WARMER, 1.0),
            Field::number(
                &at("lamps"),
                &of("Light of lamps, mol/m² a day (empty: none)"),
                PLAIN,
                1.0,
            ),
            Field::number(
                &at("carries"),
                &of("May carry (empty: not asked)"),
                LOADS,
                5.0,
            ),
            Field::number(
                &at("bed"),
                &of("Bed laid new, deep (empty: none)"),
                LENGTHS,
                5.0,
            ),
        ]
    }
}

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let (sowings, places) = (self.sowings.len(), self.places.len());
        let (batches, parts) = (self.batches.len(), self.parts.len());
        let [eighty, ninety, most] = CERTAINTIES;
        let mut pieces = vec![
            Piece::Rows {
                path: SOWINGS,
                legend: "What is wanted",
                rows: (0..sowings).map(|row| self.sowing_row(row)).collect(),
                add: (sowings < MOST_SOWINGS).then_some("Add a sowing"),
            },
            Piece::Rows {
                path: PLACES,
                legend: "Where it may stand",
                rows: (0..places).map(|row| self.place_row(row)).collect(),
                add: (places < MOST_PLACES).then_some("Add a place"),
            },
            Field::few(
                "certainty",
                "How sure it is to be",
                [
                    (eighty, "8 times in 10"),
                    (ninety, "9 times in 10"),
                    (most, "19 times in 20"),
                ],
            )
            .into(),
        ];
        let each = (0..sowings).flat_map(|row| self.more_of_sowing(row));
        pieces.push(Piece::more("More of each sowing", each.collect()));
        let mut already = vec![Piece::Rows {
            path: BATCHES,
            legend: "Batches",
            rows: (0..batches).map(|row| self.batch_row(row)).collect(),
            add: (batches < MOST_BATCHES).then_some("Add a batch"),
        }];
        let each = (0..batches).flat_map(|row| self.more_of_batch(row));
        already.extend(each.map(Piece::from));
        pieces.push(Piece::More {
            about: "What is sown already",
            pieces: already,
        });
        let warm = (0..places).flat_map(|row| self.more_of_place(row));
        pieces.push(Piece::more("The houses and their light", warm.collect()));
        pieces.push(Piece::more(
            "Hands",
            vec![
                Field::number("hands.hours", "Hours of a week", HOURS, 1.0),
                Field::number("hands.sowing", "Sowing a hundred", MINUTES, 5.0),
                Field::number("hands.potting", "Potting a hundred", MINUTES, 5.0),
            ],
        ));
        let mut mix: Vec<Piece> = [
            Field::number("mix.bag", "A bag of mix holds", LITRES, 10.0),
            Field::number("mix.price", "Price of a bag", PLAIN, 0.5),
            Field::number("mix.in_hand", "Mix in hand", LITRES, 10.0),
            Field::number("mix.wet", "Mix weighs, watered", WEIGHTS, 50.0),
            Field::number("mix.cells", "Cells of a tray", PLAIN, 12.0),
            Field::number("mix.trays", "Trays in hand", PLAIN, 10.0),
            Field::number("mix.tray_price", "Price of a tray", PLAIN, 0.1),
            Field::number("bed.bag", "A bag for beds holds", LITRES, 10.0),
            Field::number("bed.price", "Price of such a bag", PLAIN, 0.5),
            Field::number("bed.in_hand", "For beds in hand", LITRES, 10.0),
        ]
        .map(Piece::from)
        .into();
        mix.push(Piece::Rows {
            path: PARTS,
            legend: "Parts of the mix, where you mix it yourself",
            rows: (0..parts).map(|row| self.part_row(row)).collect(),
            add: (parts < MOST_PARTS).then_some("Add a part"),
        });
        pieces.push(Piece::More {
            about: "Mix, trays and beds",
            pieces: mix,
        });
        let climate = Field::many("climate", "Climate", "Climate", climates);
        pieces.push(Piece::more("Where you are", vec![climate]));
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        if let Some((row, name)) = in_list(path, SOWINGS) {
            named(self.sowings.get_mut(row)?.numbers(), name)
        } else if let Some((row, name)) = in_list(path, BATCHES) {
            named(self.batches.get_mut(row)?.numbers(), name)
        } else if let Some((row, name)) = in_list(path, PARTS) {
            named(self.parts.get_mut(row)?.numbers(), name)
        } else if let Some((row, name)) = in_list(path, PLACES) {
            named(self.places.get_mut(row)?.numbers(), name)
        } else {
            named(self.numbers(), path)
        }
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        if let Some((row, name)) = in_list(path, SOWINGS) {
            named(self.sowings.get_mut(row)?.choices(), name)
        } else if let Some((row, name)) = in_list(path, BATCHES) {
            named(self.batches.get_mut(row)?.choices(), name)
        } else if let Some((row, name)) = in_list(path, PARTS) {
            named(self.parts.get_mut(row)?.choices(), name)
        } else if let Some((row, name)) = in_list(path, PLACES) {
            named(self.places.get_mut(row)?.choices(), name)
        } else {
            named(self.choices(), path)
        }
    }

    /// Numbers of rows that are empty have no path: links would be long with them.
    fn paths(&self) -> Vec<String> {
        let mut asked = self.clone();
        let mut paths: Vec<String> = Vec::new();
        for (row, sowing) in asked.sowings.iter_mut().enumerate() {
            let at = |name: &str| path_in(SOWINGS, row, name);
            let said = sowing.choices().into_iter();
            let said = said.filter(|(name, text)| *name != "plan" || !text.is_empty());
            paths.extend(said.map(|(name, _)| at(name)));
            paths.extend(typed(sowing.numbers()).map(at));
        }
        for (row, batch) in asked.batches.iter_mut().enumerate() {
            let at = |name: &str| path_in(BATCHES, row, name);
            let said = batch.choices().into_iter();
            paths.extend(
                said.filter(|(_, text)| !text.is_empty())
                    .map(|(name, _)| at(name)),
            );
            paths.extend(typed(batch.numbers()).map(at));
        }
        for (row, part) in asked.parts.iter_mut().enumerate() {
            let at = |name: &str| path_in(PARTS, row, name);
            paths.extend(part.choices().map(|(name, _)| at(name)));
            paths.extend(typed(part.numbers()).map(at));
        }
        for (row, place) in asked.places.iter_mut().enumerate() {
            let at = |name: &str| path_in(PLACES, row, name);
            paths.extend(place.choices().map(|(name, _)| at(name)));
            paths.extend(typed(place.numbers()).map(at));
        }
        paths.extend(asked.choices().map(|(path, _)| path.to_owned()));
        paths.extend(asked.numbers().into_iter().map(|(path, _)| path.to_owned()));
        paths
    }

    fn lists(&self) -> &'static [&'static str] {
        &[SOWINGS, BATCHES, PLACES, PARTS]
    }

    fn blank_rows(&mut self, path: &str, many: usize) {
        match path {
            SOWINGS => self.sowings = vec![blank(SowingAsked::numbers); many],
            BATCHES => self.batches = vec![blank(BatchAsked::numbers); many],
            PLACES => self.places = vec![blank(PlaceAsked::numbers); many],
            PARTS => self.parts = vec![blank(PartAsked::numbers); many],
            _ => {}
        }
    }

    fn add_row(&mut self, path: &str) {
        match path {
            SOWINGS => {
                let last = self.sowings.last().map(|last| last.day.clone());
                let day = last.unwrap_or_else(|| SowingAsked::default().day);
                self.sowings.push(SowingAsked {
                    day,
                    ..SowingAsked::default()
                });
            }
            BATCHES => self.batches.push(BatchAsked::default()),
            PARTS => self.parts.push(PartAsked::default()),
            PLACES => self.places.push(PlaceAsked {
                name: String::new(),
                ..PlaceAsked::default()
            }),
            _ => {}
        }
    }

    fn take_out_row(&mut self, path: &str, index: usize) {
        match path {
            SOWINGS if self.sowings.len() > 1 && index < self.sowings.len() => {
                self.sowings.remove(index);
            }
            BATCHES if index < self.batches.len() => {
                self.batches.remove(index);
            }
            PARTS if index < self.parts.len() => {
                self.parts.remove(index);
            }
            PLACES if self.places.len() > 1 && index < self.places.len() => {
                self.places.remove(index);
            }
            _ => {}
        }
    }
}

/// Names of the numbers in which something is typed.
fn typed<'a>(
    numbers: crate::reckon::form::Numbers<'a>,
) -> impl Iterator<Item = &'static str> + use<'a> {
    numbers
        .into_iter()
        .filter(|(_, entry)| !entry.text().is_empty())
        .map(|(name, _)| name)
}
