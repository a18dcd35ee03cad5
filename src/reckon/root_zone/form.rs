//! The form of Root zone.

use std::rc::Rc;

use super::own::Fits;
use super::question::{
    BENCH, BOARDS_ON, DayAsked, FLOOR, INSIDE, LEAF, MONTH_KEYS, MOST_DAYS, MOST_READINGS, NONE,
    OUTSIDE, PROBE_KEYS, Question, RAISED, READ_KEYS, REPAIRS, ROOTING, ReadingAsked, SLATS,
    fitted_at,
};
use crate::handbook::bed_media::{BED_MEDIA, BedMedium};
use crate::handbook::crops::crop;
use crate::handbook::heat::{BENCH_COVERS, BOARDS, GROUNDS, HOUSE_COVERS, ROOT_CROPS};
use crate::measure::{Area, Duration, Entry, Fraction, HeatDensity, Length, Number, Quantity};
use crate::measure::{TemperatureDifference, Volume};
use crate::nursery::day::month_name;
use crate::reckon::form::{
    CELSIUS, Field, Form, Item, Piece, Row, Units, climates, in_list, named, path_in,
};
use crate::reckon::mix::{self, SQUARE, STAGGERED};
use crate::reckon::pot;

const PARTS: &str = "parts";
const DAYS: &str = "days";
const READINGS: &str = "readings";
const PLAIN: Units = Units::of::<Number>(&[]);
const LENGTHS: Units = Units::of::<Length>(&["mm", "cm", "in"]);
const DIFFERENCES: Units = Units::of::<TemperatureDifference>(&["degC", "degF"]);
const SPANS: Units = Units::of::<Length>(&["m", "ft"]);
const AREAS: Units = Units::of::<Area>(&["m2", "ft2"]);
const SHARES: Units = Units::of::<Fraction>(&["%"]);
const POWERS: Units = Units::of::<HeatDensity>(&["W/m2", "W/ft2"]);
/// Air may be the colder for its height.
const SIGNED: Units = Units::down_to(Number::UNITS, -10.0, &Number::ONE);
const HOURS: Units = Units::of::<Duration>(&["h"]);
const DRINKS: Units = Units::of::<Volume>(&["mL", "L"]);

fn celsius(path: &str, label: &str) -> Field {
    Field::number(path, label, CELSIUS, 1.0)
}

fn house(question: &Question) -> Vec<Field> {
    let inside = question.air.by == INSIDE;
    let mut fields = Vec::new();
    if inside {
        fields.extend([
            celsius(
                "air.floor_low",
                "Minimum at the floor (empty: from the height)",
            ),
            celsius("air.floor_high", "Maximum at the floor"),
        ]);
    }
    fields.extend([
        Field::number(
            "air.humidity",
            "Mean humidity inside (empty: by the nights)",
            SHARES,
            5.0,
        ),
        Field::few(
            "air.cover",
            "Covered with",
            HOUSE_COVERS.iter().map(|row| (row.key, row.name)),
        ),
    ]);
    if !inside {
        let [old, poor, new] = REPAIRS;
        fields.extend([
            Field::few(
                "air.repair",
                "The house is",
                [
                    (old, "in good repair"),
                    (poor, "leaky"),
                    (new, "new and tight"),
                ],
            ),
            Field::number("air.length", "Length of the house", SPANS, 1.0),
            Field::number("air.width", "Width of the house", SPANS, 0.5),
            Field::number("air.height", "Mean height of the house", SPANS, 0.1),
        ]);
    }
    fields.push(celsius("air.hottest", "Hottest day of July, inside"));
    fields
}

fn heated(question: &Question) -> Vec<Field> {
    let [bottom, middle, heater, water, air] = PROBE_KEYS;
    let boards = BOARDS.iter().map(|row| (row.key, row.name));
    let covers = BENCH_COVERS.iter().map(|row| (row.key, row.name));
    let mut fields = vec![
        celsius("heated.set", "Held at"),
        Field::few(
            "heated.probe",
            "The probe sits",
            [
                (bottom, "at the bottom of a pot"),
                (middle, "in the middle of a pot"),
                (heater, "beside the cable"),
                (water, "in the tray"),
                (air, "in the air"),
            ],
        ),
        Field::number("heated.power", "Power installed", POWERS, 10.0),
        Field::few(
            "heated.board",
            "Insulated below with",
            boards.chain([(NONE, "nothing")]),
        ),
    ];
    if question.heated.board != NONE {
        fields.push(Field::number(
            "heated.thickness",
            "How thick",
            LENGTHS,
            10.0,
        ));
    }
    fields.push(Field::few(
        "cover.kind",
        "Cover over the bench",
        [(NONE, "none")].into_iter().chain(covers),
    ));
    if question.cover.kind != NONE {
        fields.extend([
            Field::number("cover.from", "Closed from, hour of the day", HOURS, 1.0),
            Field::number("cover.to", "Closed to, hour of the day", HOURS, 1.0),
        ]);
    }
    fields
}

fn tray(question: &Question) -> Vec<Field> {
    let media = || {
        let item = |row: &BedMedium| Item::new(row.key, row.name, row.grade);
        let none = Item::new(NONE, "no bed", "pots straight in the tray");
        [none]
            .into_iter()
            .chain(BED_MEDIA.iter().map(item))
            .collect()
    };
    let mut fields = vec![
        Field::few(
            "bench.set_out",
            "Set out",
            [(SQUARE, "in squares"), (STAGGERED, "staggered")],
        ),
        Field::number("tray.water", "Water in the tray, on the mean", LENGTHS, 5.0),
        Field::many("tray.medium", "Bed in the tray", "Bed", media),
    ];
    if question.tray.medium != NONE {
        fields.push(Field::number("tray.bed", "Depth of the bed", LENGTHS, 5.0));
    }
    fields.extend([
        Field::number("tray.drinks", "A plant drinks in a day", DRINKS, 10.0),
        celsius(
            "tray.tank",
            "Water of the tank (empty: as the mean of the air)",
        ),
    ]);
    fields
}

fn money() -> Vec<Field> {
    vec![
        Field::number("money.tariff", "Price of a kWh of heat", PLAIN, 0.01),
        Field::number("heated.area", "Area of the bench", AREAS, 0.5),
        Field::number("money.weeks", "Weeks of heat in a season", PLAIN, 1.0),
        Field::number("money.cover_price", "Price of a cover", PLAIN, 5.0),
        Field::number("money.cover_life", "Seasons it lasts", PLAIN, 1.0),
        Field::number("money.board_price", "Price of the insulation", PLAIN, 5.0),
        Field::number(
            "money.board_life",
            "Seasons the insulation lasts",
            PLAIN,
            1.0,
        ),
    ]
}

/// Days with readings of one's own, the readings, and what was fitted to such before.
fn own(question: &Question) -> Vec<Piece> {
    let day = |index: usize| {
        let of = |name: &str, label: &str| {
            let number = (index + 1).to_string();
            celsius(&path_in(DAYS, index, name), &[label, &number].concat())
        };
        Row {
            fields: vec![
                of("low", "Minimum at bench height, dawn of day "),
                of("high", "Maximum of day "),
            ],
            take_out: Some(["Take out day ", &(index + 1).to_string()].concat()),
        }
    };
    let [root, water, bed] = READ_KEYS;
    let reading = |index: usize| {
        let at = |name: &str| path_in(READINGS, index, name);
        let of = |label: &str| [label, " of reading ", &(index + 1).to_string()].concat();
        Row {
            fields: vec![
                Field::few(
                    &at("what"),
                    &of("Place"),
                    [
                        (root, "mix, amid a pot"),
                        (water, "water"),
                        (bed, "bed in the tray"),
                    ],
                ),
                Field::number(&at("day"), &of("Day"), PLAIN, 1.0),
                Field::number(&at("hour"), &of("Hour"), HOURS, 1.0),
                celsius(&at("temperature"), &of("Temperature")),
            ],
            take_out: Some(["Take out reading ", &(index + 1).to_string()].concat()),
        }
    };
    let (days, readings) = (question.days.len(), question.readings.len());
    let mut pieces = vec![
        Piece::Rows {
            path: DAYS,
            legend: "The air on days with readings, one after the other",
            rows: (0..days).map(day).collect(),
            add: (days < MOST_DAYS).then_some("Add a day"),
        },
        Piece::Rows {
            path: READINGS,
            legend: "What a thermometer read where they stand",
            rows: (0..readings).map(reading).collect(),
            add: (readings < MOST_READINGS).then_some("Add a reading"),
        },
    ];
    for fits in Fits::ALL {
        if !question.fitted.of(fits).is_empty() {
            let field = |end: &str, which: &str| {
                let path = fitted_at(fits.key(), end);
                Field::number(&path, &[fits.name(), which].concat(), SIGNED, 0.1).into()
            };
            pieces.extend([
                field("low", ", fitted, least"),
                field("best", ", fitted"),
                field("high", ", fitted, most"),
            ]);
        }
    }
    pieces
}

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let crops = || {
            ROOT_CROPS
                .iter()
                .map(|row| {
                    let known = crop(row.key);
                    let name = known.map_or(row.key, |crop| crop.name);
                    Item::new(row.key, name, known.map_or("", |crop| crop.botanical))
                })
                .collect()
        };
        let months = || {
            (1..)
                .zip(MONTH_KEYS)
                .map(|(month, key)| Item::new(key, month_name(month), ""))
                .collect()
        };
        let (low, high) = if self.air.by == INSIDE {
            (
                "Mean minimum inside, at bench height",
                "Mean maximum inside, at bench height",
            )
        } else {
            ("Mean minimum outside", "Mean maximum outside")
        };
        let mut fields = vec![
            Field::few(
                "stand",
                "They would stand",
                [
                    (FLOOR, "on the floor"),
                    (RAISED, "raised"),
                    (BENCH, "on a heated bench"),
                ],
            ),
            Field::many("place.month", "Month", "Month", months),
            Field::many("crop", "Crop", "Crop", crops),
            Field::few(
                "stage",
                "It is",
                [(LEAF, "in leaf"), (ROOTING, "coming up or rooting")],
            ),
            Field::few(
                "air.by",
                "The air is known",
                [(INSIDE, "inside"), (OUTSIDE, "outside")],
            ),
            celsius("air.low", low),
            celsius("air.high", high),
            Field::number("raised.height", "Raised above the floor by", LENGTHS, 50.0),
        ];
        fields.extend(self.pot.fields(Rc::new(pot::sizes)));
        fields.push(Field::number(
            "bench.spacing",
            "From pot to pot, middles",
            LENGTHS,
            10.0,
        ));
        let floor = vec![
            Field::many("floor.top", "On the earth lies", "Floor", || {
                GROUNDS
                    .iter()
                    .map(|row| Item::new(row.key, row.name, ""))
                    .collect()
            }),
            Field::number("floor.thickness", "How thick it lies", LENGTHS, 10.0),
            celsius("floor.deep", "The ground a metre down (empty: by month)"),
            celsius(
                "floor.mean",
                "Its surface under the house, mean of the year (empty: usual)",
            ),
            Field::number(
                "floor.swing",
                "Half of its swing from winter to summer (empty: usual)",
                DIFFERENCES,
                0.5,
            ),
            Field::few(
                "raised.on",
                "Raised trays stand on",
                [(SLATS, "slats"), (BOARDS_ON, "boards")],
            ),
        ];
        let place = vec![
            Field::many("place.climate", "Climate", "Climate", climates),
            Field::number(
                "place.latitude",
                "Degrees north (empty: of the climate)",
                PLAIN,
                1.0,
            ),
        ];
        let mut pieces: Vec<Piece> = fields.into_iter().map(Piece::from).collect();
        pieces.push(mix::parts_piece(&self.parts));
        pieces.extend([
            Piece::more("The heated bench", heated(self)),
            Piece::more("The house and its air", house(self)),
            Piece::more("The floor", floor),
            Piece::more("The tray", tray(self)),
            Piece::more("What heat costs", money()),
            Piece::more("Where", place),
            Piece::More {
                about: "Your own readings",
                pieces: own(self),
            },
        ]);
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        if let Some((index, name)) = in_list(path, PARTS) {
            named(self.parts.get_mut(index)?.numbers(), name)
        } else if let Some((index, name)) = in_list(path, DAYS) {
            named(self.days.get_mut(index)?.numbers(), name)
        } else if let Some((index, name)) = in_list(path, READINGS) {
            named(self.readings.get_mut(index)?.numbers(), name)
        } else {
            named(self.numbers(), path)
        }
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        if let Some((index, name)) = in_list(path, PARTS) {
            named(self.parts.get_mut(index)?.choices(), name)
        } else if let Some((index, name)) = in_list(path, READINGS) {
            named(self.readings.get_mut(index)?.choices(), name)
        } else {
            named(self.choices(), path)
        }
    }

    /// What was not fitted has no path: links would be long with it.
    fn paths(&self) -> Vec<String> {
        let mut paths: Vec<String> = mix::paths_of_parts(&self.parts).collect();
        let mut asked = self.clone();
        paths.extend(asked.choices().map(|(path, _)| path.to_owned()));
        let said = asked
            .numbers()
            .into_iter()
            .filter(|(path, entry)| !(path.starts_with("fitted.") && entry.text().is_empty()));
        paths.extend(said.map(|(path, _)| path.to_owned()));
        for index in 0..self.days.len() {
            paths.extend(["low", "high"].map(|name| path_in(DAYS, index, name)));
        }
        for index in 0..self.readings.len() {
            let names = ["what", "day", "hour", "temperature"];
            paths.extend(names.map(|name| path_in(READINGS, index, name)));
        }
        paths
    }

    fn lists(&self) -> &'static [&'static str] {
        &[PARTS, DAYS, READINGS]
    }

    fn blank_rows(&mut self, path: &str, many: usize) {
        match path {
            DAYS => self.days = vec![DayAsked::default(); many],
            READINGS => self.readings = vec![ReadingAsked::default(); many],
            _ => mix::change_parts(&mut self.parts, |of_mix| of_mix.blank_rows(path, many)),
        }
    }

    fn add_row(&mut self, path: &str) {
        match path {
            DAYS => self.days.push(DayAsked::default()),
            READINGS => self.readings.push(self.next_reading()),
            _ => mix::change_parts(&mut self.parts, |of_mix| of_mix.add_row(path)),
        }
    }

    fn take_out_row(&mut self, path: &str, index: usize) {
        match path {
            DAYS if index < self.days.len() => {
                self.days.remove(index);
            }
            READINGS if index < self.readings.len() => {
                self.readings.remove(index);
            }
            _ => mix::change_parts(&mut self.parts, |of_mix| of_mix.take_out_row(path, index)),
        }
    }
}

impl Question {
    /// A reading like the last one, but for what it read.
    fn next_reading(&self) -> ReadingAsked {
        ReadingAsked {
            temperature: ReadingAsked::default().temperature,
            ..self.readings.last().cloned().unwrap_or_default()
        }
    }
}
