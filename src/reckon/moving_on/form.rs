//! The form of Moving on.

use super::question::{
    BALLS, CIRCLINGS, COLD_HOUSE, COVERS, EarlierAsked, FLOWERS, FROM, ForecastAsked, MOST_EARLIER,
    MOST_FORECASTS, MOST_NIGHTS, NightAsked, OUTDOORS, PESTS, POT_ON, PRICK_OUT, Question, TIPS,
    WENT,
};
use super::words;
use crate::handbook::crops::readiness::{BALL_SCORES, CIRCLING_SCORES};
use crate::handbook::crops::{CROPS, Crop, crop};
use crate::measure::{Duration, Entry, Fraction, Length, Mass, Number};
use crate::nursery::Day;
use crate::reckon::form::{
    CELSIUS, Field, Form, Item, Piece, Row, Takes, Units, WARMER, climates, in_list, named, path_in,
};
use crate::reckon::pot;

const NIGHTS: &str = "nights";
const FORECASTS: &str = "forecasts";
const EARLIER: &str = "earlier";
const PLAIN: Units = Units::of::<Number>(&[]);
const DAYS: Units = Units::of::<Duration>(&["day"]);
const SHARES: Units = Units::of::<Fraction>(&["%"]);
const HEIGHTS: Units = Units::of::<Length>(&["mm", "cm", "in"]);
const GRAMS: Units = Units::of::<Mass>(&["g"]);

fn crops() -> Vec<Item> {
    let item = |crop: &&'static Crop| Item::new(crop.key, crop.name, crop.botanical);
    CROPS.iter().map(item).collect()
}

/// A few to choose from, and that nobody looked.
fn looked<'a>(
    path: &str,
    label: &str,
    seen: impl IntoIterator<Item = (&'a str, &'a str)>,
) -> Field {
    Field::few(
        path,
        label,
        std::iter::once(("", words::NOT_LOOKED)).chain(seen),
    )
}

impl Question {
    fn night_row(&self, row: usize) -> Row {
        let at = |name: &str| path_in(NIGHTS, row, name);
        let of = |label: &str| [label, ", night ", &(row + 1).to_string()].concat();
        Row {
            fields: vec![
                Field::new(&at("day"), &of("Read on"), Takes::Day { steps_days: 1 }),
                Field::number(&at("low"), &of("Minimum"), CELSIUS, 0.5),
            ],
            take_out: Some(["Take out night ", &(row + 1).to_string()].concat()),
        }
    }

    fn forecast_row(&self, row: usize) -> Row {
        let label = match row {
            0 => "Tonight, outside".to_owned(),
            1 => "Tomorrow night, outside".to_owned(),
            _ => ["In ", &row.to_string(), " nights, outside"].concat(),
        };
        Row {
            fields: vec![Field::number(
                &path_in(FORECASTS, row, "low"),
                &label,
                CELSIUS,
                0.5,
            )],
            take_out: Some(["Take out forecast ", &(row + 1).to_string()].concat()),
        }
    }

    fn earlier_row(&self, row: usize) -> Row {
        let at = |name: &str| path_in(EARLIER, row, name);
        let of = |label: &str| [label, ", move ", &(row + 1).to_string()].concat();
        let went = WENT.into_iter().zip(words::WENT_SEEN);
        Row {
            fields: vec![
                Field::number(
                    &at("low"),
                    &of("Coldest night of the two weeks after"),
                    CELSIUS,
                    0.5,
                ),
                Field::few(&at("went"), &of("How it went"), went),
            ],
            take_out: Some(["Take out move ", &(row + 1).to_string()].concat()),
        }
    }

    fn looked_at(&self) -> Vec<Piece> {
        let crop = crop(&self.crop);
        let leaves = words::leaves_label(crop);
        let ball = BALLS.into_iter().zip(BALL_SCORES.map(|(_, words)| words));
        let circling = CIRCLINGS
            .into_iter()
            .zip(CIRCLING_SCORES.map(|(_, words)| words));
        let mut pieces: Vec<Piece> = Vec::new();
        if self.moves != PRICK_OUT {
            pieces.push(looked("seen.ball", words::BALL_LABEL, ball).into());
            pieces.push(looked("seen.circling", words::CIRCLING_LABEL, circling).into());
        }
        pieces.extend([
            looked(
                "seen.tips",
                words::TIPS_LABEL,
                TIPS.into_iter().zip(words::TIPS_SEEN),
            )
            .into(),
            Field::number("seen.leaves", &leaves, PLAIN, 1.0).into(),
            Field::number("seen.height", "Height above the mix", HEIGHTS, 1.0).into(),
            looked(
                "seen.flower",
                words::FLOWER_LABEL,
                FLOWERS.into_iter().zip(words::FLOWERS_SEEN),
            )
            .into(),
            looked(
                "seen.pests",
                words::PESTS_LABEL,
                PESTS.into_iter().zip(words::PESTS_SEEN),
            )
            .into(),
        ]);
        if [COLD_HOUSE, OUTDOORS].contains(&&*self.moves) {
            pieces.push(Field::number("seen.hardened", "Hardened for", DAYS, 1.0).into());
        }
        pieces
    }
}

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let (nights, forecasts) = (self.nights.len(), self.forecasts.len());
        let [up, moved] = FROM;
        let day = |path: &str, label: &str| Field::new(path, label, Takes::Day { steps_days: 1 });
        let mut pieces: Vec<Piece> = vec![
            Field::many("crop", "Crop", "Crop", crops).into(),
            Field::few(
                "move",
                "The move",
                [
                    (PRICK_OUT, "seedlings into pots"),
                    (POT_ON, "into a bigger pot"),
                    (COLD_HOUSE, "into a cold house"),
                    (OUTDOORS, "out of doors"),
                ],
            )
            .into(),
            day("today", "Today").into(),
            Field::few(
                "from",
                "Its way is counted from the day it",
                [(up, "came up"), (moved, "was last moved")],
            )
            .into(),
            day("since", "That day was").into(),
        ];
        pieces.extend(self.looked_at());
        pieces.push(Piece::Rows {
            path: NIGHTS,
            legend: "Minima read where it goes",
            rows: (0..nights).map(|row| self.night_row(row)).collect(),
            add: (nights < MOST_NIGHTS).then_some("Add a night"),
        });
        pieces.push(Piece::Rows {
            path: FORECASTS,
            legend: "Minima forecast",
            rows: (0..forecasts).map(|row| self.forecast_row(row)).collect(),
            add: (forecasts < MOST_FORECASTS).then_some("Add a forecast"),
        });
        let mut batch = vec![
            Field::number("plants", "Plants", PLAIN, 10.0),
            Field::many("pot", "Pot it is in", "Pot", pot::usual_sizes),
        ];
        if self.moves == POT_ON {
            batch.push(Field::many(
                "next",
                "Pot it goes into",
                "Pot",
                pot::usual_sizes,
            ));
        }
        batch.extend([
            Field::number("stood.low", "Mean minimum where it stood", CELSIUS, 0.5),
            Field::number("stood.high", "Mean maximum where it stood", CELSIUS, 0.5),
            Field::number(
                "stood.light",
                "Light there, mol/m² a day (empty: the sun under glass)",
                PLAIN,
                1.0,
            ),
        ]);
        pieces.push(Piece::more("The batch", batch));
        let covers = COVERS.into_iter().zip(["nothing", "fleece"]);
        pieces.push(Piece::more(
            "Where it goes",
            vec![
                Field::number(
                    "place.night",
                    "Nights there warmer than outside by",
                    WARMER,
                    0.5,
                ),
                Field::few("place.cover", "Over the plants by night", covers),
                Field::number("place.held", "Heated to (empty: not heated)", CELSIUS, 1.0),
                Field::number(
                    "place.hottest",
                    "Highest expected there (empty: not asked)",
                    CELSIUS,
                    1.0,
                ),
                Field::many("climate", "Climate", "Climate", climates),
                Field::number(
                    "place.room",
                    "Pots that find room there (empty: not asked)",
                    PLAIN,
                    10.0,
                ),
                Field::number("place.in_tray", "Pots that a tray takes", PLAIN, 1.0),
                Field::number("place.trays", "Free trays (empty: no trays)", PLAIN, 1.0),
                Field::number(
                    "place.floats",
                    "Free float valves (empty: not counted)",
                    PLAIN,
                    1.0,
                ),
            ],
        ));
        let rows = self.earlier.len();
        pieces.push(Piece::More {
            about: "Moves of yours before",
            pieces: vec![
                Piece::Rows {
                    path: EARLIER,
                    legend: "Of this crop into cold",
                    rows: (0..rows).map(|row| self.earlier_row(row)).collect(),
                    add: (rows < MOST_EARLIER).then_some("Add a move of before"),
                },
                Field::number(
                    "own.warmth",
                    "Warmth your batches needed, of the handbook's (empty: its own)",
                    SHARES,
                    5.0,
                )
                .into(),
                Field::number(
                    "own.off",
                    "Off that, 8 batches in 10, by up to",
                    SHARES,
                    5.0,
                )
                .into(),
            ],
        });
        pieces.push(Piece::more(
            "A plant weighed, for sorting",
            vec![
                Field::number("weighed.height", "Height of the plant", HEIGHTS, 1.0),
                Field::number("weighed.stem", "Stem at the collar", HEIGHTS, 0.1),
                Field::number("weighed.shoot", "Dry, above the mix", GRAMS, 0.1),
                Field::number("weighed.root", "Dry, roots", GRAMS, 0.1),
            ],
        ));
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        if let Some((row, name)) = in_list(path, NIGHTS) {
            (name == "low").then_some(&mut self.nights.get_mut(row)?.low)
        } else if let Some((row, name)) = in_list(path, FORECASTS) {
            (name == "low").then_some(&mut self.forecasts.get_mut(row)?.low)
        } else if let Some((row, name)) = in_list(path, EARLIER) {
            (name == "low").then_some(&mut self.earlier.get_mut(row)?.low)
        } else {
            named(self.numbers(), path)
        }
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        if let Some((row, name)) = in_list(path, NIGHTS) {
            (name == "day").then_some(&mut self.nights.get_mut(row)?.day)
        } else if let Some((row, name)) = in_list(path, EARLIER) {
            (name == "went").then_some(&mut self.earlier.get_mut(row)?.went)
        } else {
            named(self.choices(), path)
        }
    }

    fn paths(&self) -> Vec<String> {
        let mut asked = self.clone();
        let mut paths: Vec<String> = Vec::new();
        for row in 0..self.nights.len() {
            paths.extend(["day", "low"].map(|name| path_in(NIGHTS, row, name)));
        }
        for row in 0..self.forecasts.len() {
            paths.push(path_in(FORECASTS, row, "low"));
        }
        for row in 0..self.earlier.len() {
            paths.extend(["low", "went"].map(|name| path_in(EARLIER, row, name)));
        }
        let said = asked.choices().into_iter();
        // What it is in the record is told where it is of it.
        let said = said.filter(|(path, text)| !["batch", "to"].contains(path) || !text.is_empty());
        paths.extend(said.map(|(path, _)| path.to_owned()));
        paths.extend(asked.numbers().into_iter().map(|(path, _)| path.to_owned()));
        paths
    }

    fn lists(&self) -> &'static [&'static str] {
        &[NIGHTS, FORECASTS, EARLIER]
    }

    fn blank_rows(&mut self, path: &str, many: usize) {
        match path {
            NIGHTS => self.nights = vec![NightAsked::default(); many],
            FORECASTS => self.forecasts = vec![ForecastAsked::default(); many],
            EARLIER => self.earlier = vec![EarlierAsked::default(); many],
            _ => {}
        }
    }

    /// A night more is the one before the first, so that a log is written backwards from this morning.
    fn add_row(&mut self, path: &str) {
        match path {
            NIGHTS => {
                let read = |text: &str| Day::read(text).ok();
                let days = self.nights.iter().filter_map(|night| read(&night.day));
                let next = match days.min() {
                    Some(first) => Some(first.plus(-1)),
                    None => read(&self.today),
                };
                self.nights.push(NightAsked {
                    day: next.map_or_else(String::new, Day::iso),
                    ..NightAsked::default()
                });
            }
            FORECASTS => self.forecasts.push(ForecastAsked::default()),
            EARLIER => self.earlier.push(EarlierAsked::default()),
            _ => {}
        }
    }

    fn take_out_row(&mut self, path: &str, index: usize) {
        match path {
            NIGHTS if index < self.nights.len() => {
                self.nights.remove(index);
            }
            FORECASTS if index < self.forecasts.len() => {
                self.forecasts.remove(index);
            }
            EARLIER if index < self.earlier.len() => {
                self.earlier.remove(index);
            }
            _ => {}
        }
    }
}
