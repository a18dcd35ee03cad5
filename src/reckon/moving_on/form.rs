//! The form of Moving on.

use super::card::{CARD, LOOKED_AT, point_of};
use super::question::{
    BALLS, CIRCLINGS, COLD_HOUSE, COVERS, EarlierAsked, FLOWERS, FROM, ForecastAsked, MOST_EARLIER,
    MOST_FORECASTS, MOST_NIGHTS, MOST_POINTS, NightAsked, OUTDOORS, OWN, OWN_SEEN, PESTS, POT_ON,
    PRICK_OUT, PointAsked, Question, TIPS, WEIGHTS, WENT,
};
use super::ready::Point;
use super::words;
use crate::handbook::crops::readiness::{BALL_SCORES, CIRCLING_SCORES};
use crate::handbook::crops::{CROPS, Crop, crop};
use crate::measure::{Duration, Entry, Fraction, Length, Mass, Number};
use crate::nursery::Day;
use crate::reckon::form::{
    CELSIUS, Field, Form, Item, Piece, Row, RowInOrder, Takes, Units, WARMER, climates, in_list,
    named, path_in,
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

    /// The field of a point that is looked at; one of one's own has its own among the points of the card.
    fn field_of(&self, point: Point) -> Option<Field> {
        let field = match point {
            Point::Ball => looked(
                "seen.ball",
                words::BALL_LABEL,
                BALLS.into_iter().zip(BALL_SCORES.map(|(_, words)| words)),
            ),
            Point::Circling => looked(
                "seen.circling",
                words::CIRCLING_LABEL,
                CIRCLINGS
                    .into_iter()
                    .zip(CIRCLING_SCORES.map(|(_, words)| words)),
            ),
            Point::Tips => looked(
                "seen.tips",
                words::TIPS_LABEL,
                TIPS.into_iter().zip(words::TIPS_SEEN),
            ),
            Point::Leaves => Field::number(
                "seen.leaves",
                &words::leaves_label(crop(&self.crop)),
                PLAIN,
                1.0,
            ),
            Point::Height => Field::number("seen.height", words::HEIGHT_LABEL, HEIGHTS, 1.0),
            Point::Flower => looked(
                "seen.flower",
                words::FLOWER_LABEL,
                FLOWERS.into_iter().zip(words::FLOWERS_SEEN),
            ),
            Point::Pests => looked(
                "seen.pests",
                words::PESTS_LABEL,
                PESTS.into_iter().zip(words::PESTS_SEEN),
            ),
            Point::Hardened => Field::number("seen.hardened", words::HARDENED_LABEL, DAYS, 1.0),
            Point::Own(_) | Point::Warmth | Point::Nights | Point::Heat | Point::Room => {
                return None;
            }
        };
        Some(field)
    }

    /// What is asked for of the points of the card, in its order.
    fn looked_at(&self) -> Vec<Piece> {
        let points = self.points_asked().into_iter();
        points
            .filter_map(|point| self.field_of(point))
            .map(Piece::from)
            .collect()
    }

    /// The points of the card, to be added, dropped and put in order.
    fn points_of_card(&self) -> Piece {
        let rows = self.rows_of_card();
        let many = rows.len();
        // Whoever typed the same point twice, or one that there is none, must be able to choose another.
        let named = |index: usize| {
            let what = &rows.get(index)?.what;
            let before = rows.iter().take(index).any(|row| row.what == *what);
            point_of(what).filter(|_| !before)
        };
        let row = |(index, row): (usize, &PointAsked)| {
            let at = |name: &str| path_in(CARD, index, name);
            let of = |label: &str| [label, ", point ", &(index + 1).to_string()].concat();
            let point = named(index);
            let called = match point {
                Some(point) => words::point_label(point),
                None if row.is_own() => "Your own",
                None => &row.what,
            };
            let place = [&(index + 1).to_string(), " of ", &many.to_string()].concat();
            let mut fields = Vec::new();
            if point.is_none() {
                let free = LOOKED_AT
                    .into_iter()
                    .filter(|point| rows.iter().all(|row| row.what != point.key()))
                    .map(|point| (point.key(), words::point_label(point)));
                let choices = std::iter::once((OWN, "one of your own")).chain(free);
                fields.push(Field::few(&at("what"), &of("What it is"), choices));
            }
            if row.is_own() {
                let weights = WEIGHTS.into_iter().zip(words::WEIGHTS_TOLD);
                let seen = OWN_SEEN.into_iter().zip(words::OWN_SEEN_TOLD);
                fields.extend([
                    Field::new(
                        &at("words"),
                        &of("What to look for"),
                        Takes::Words { long: false },
                    ),
                    looked(&at("seen"), &of("Is it so"), seen),
                    Field::few(&at("weight"), &of("How much hangs on it"), weights),
                ]);
            }
            RowInOrder {
                title: match point {
                    Some(point) if !self.suits(point) => [called, " (not for this move)"].concat(),
                    _ => called.to_owned(),
                },
                row: Row {
                    fields,
                    // A card without rows is the usual one: the last point stays.
                    take_out: (many > 1).then(|| ["Take out: ", called, ", ", &place].concat()),
                },
                earlier: (index > 0).then(|| ["Earlier: ", called, ", ", &place].concat()),
            }
        };
        Piece::Ordered {
            path: CARD,
            legend: "What is looked at, in this order",
            rows: rows.iter().enumerate().map(row).collect(),
            add: (many < MOST_POINTS).then_some("Add a point"),
        }
    }

    /// Writes the usual points down as rows, so that they can be changed.
    fn lay_out(&mut self) {
        if self.card.is_empty() {
            self.card = self.rows_of_card();
        }
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
            path: FORECASTS,
            legend: "Minima forecast",
            rows: (0..forecasts).map(|row| self.forecast_row(row)).collect(),
            add: (forecasts < MOST_FORECASTS).then_some("Add a forecast"),
        });
        // A month of them is long, and comes from the record.
        pieces.push(Piece::More {
            about: "Minima read where it goes",
            pieces: vec![Piece::Rows {
                path: NIGHTS,
                legend: "Each morning",
                rows: (0..nights).map(|row| self.night_row(row)).collect(),
                add: (nights < MOST_NIGHTS).then_some("Add a night"),
            }],
        });
        pieces.push(Piece::More {
            about: "Points of the card",
            pieces: vec![self.points_of_card()],
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
        } else if let Some((row, name)) = in_list(path, CARD) {
            let point = self.card.get_mut(row)?;
            match name {
                "what" => Some(&mut point.what),
                "words" => Some(&mut point.words),
                "weight" => Some(&mut point.weight),
                "seen" => Some(&mut point.seen),
                _ => None,
            }
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
        // Of a point that is not one's own its key says all, but where something was typed before.
        let blank = PointAsked::default();
        for (row, point) in self.card.iter().enumerate() {
            let own = point.is_own();
            let said = [
                ("what", true),
                ("words", own || point.words != blank.words),
                ("weight", own || point.weight != blank.weight),
                ("seen", own || point.seen != blank.seen),
            ];
            let said = said.into_iter().filter(|(_, said)| *said);
            paths.extend(said.map(|(name, _)| path_in(CARD, row, name)));
        }
        let said = asked.choices().into_iter();
        // What it is in the record is told where it is of it.
        let said = said.filter(|(path, text)| !["batch", "to"].contains(path) || !text.is_empty());
        paths.extend(said.map(|(path, _)| path.to_owned()));
        paths.extend(asked.numbers().into_iter().map(|(path, _)| path.to_owned()));
        paths
    }

    fn lists(&self) -> &'static [&'static str] {
        &[NIGHTS, FORECASTS, EARLIER, CARD]
    }

    fn blank_rows(&mut self, path: &str, many: usize) {
        match path {
            NIGHTS => self.nights = vec![NightAsked::default(); many],
            FORECASTS => self.forecasts = vec![ForecastAsked::default(); many],
            EARLIER => self.earlier = vec![EarlierAsked::default(); many],
            CARD => self.card = vec![PointAsked::default(); many],
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
            CARD => {
                self.lay_out();
                self.card.push(PointAsked::default());
            }
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
            CARD => {
                self.lay_out();
                if index < self.card.len() && self.card.len() > 1 {
                    self.card.remove(index);
                }
            }
            _ => {}
        }
    }

    fn move_row_up(&mut self, path: &str, index: usize) {
        if path == CARD {
            self.lay_out();
            if index > 0 && index < self.card.len() {
                self.card.swap(index - 1, index);
            }
        }
    }
}
