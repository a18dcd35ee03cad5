//! The card as it is asked for: which points are looked at and in which order, those of one's own among them.
//!
//! A question without rows has the usual points in their usual order. From the first change on it has rows, and those
//! are the card: what is not among them is not asked, not shown, and neither missing nor not looked at. A point that
//! does not belong to the move, such as the ball of a seedling, is passed over and keeps its place.

use super::case::{Move, step_of};
use super::question::{
    MOST_LETTERS, MOST_POINTS, MOVES, OWN, OWN_SEEN, PRICK_OUT, PointAsked, Question, WEIGHTS,
};
use super::ready::{Point, Weight};
use super::words;
use crate::handbook::crops::readiness::Step;
use crate::handbook::pots::{Pot, pot};
use crate::reckon::form::path_in;
use crate::reckon::reader::Reader;

/// Path of the rows.
pub const CARD: &str = "card";

/// The points that are looked at, in their usual order.
pub const LOOKED_AT: [Point; 8] = [
    Point::Ball,
    Point::Circling,
    Point::Tips,
    Point::Leaves,
    Point::Height,
    Point::Flower,
    Point::Pests,
    Point::Hardened,
];

/// A point of one's own.
#[derive(Clone, Debug, PartialEq)]
pub struct Own {
    /// What to look for.
    pub words: String,
    /// How much hangs on it.
    pub weight: Weight,
    /// Whether it is so; none where nobody looked.
    pub seen: Option<bool>,
}

/// A card that was read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Card {
    /// Its points in their order, without those that do not belong to the move.
    pub points: Vec<Point>,
    /// Those of one's own, as the points count them.
    pub own: Vec<Own>,
}

/// The point that is looked at by its key.
#[must_use]
pub fn point_of(key: &str) -> Option<Point> {
    LOOKED_AT.into_iter().find(|point| point.key() == key)
}

/// Whether a plant in this pot is so young that the table of leaves and heights does not speak of it: a seedling, or a
/// plug.
#[must_use]
pub fn is_young(moves: Move, pot: &Pot) -> bool {
    moves == Move::PrickOut || moves == Move::PotOn && step_of(pot) == Step::Plug
}

/// Whether a point belongs to a move out of a pot.
#[must_use]
pub fn belongs(point: Point, moves: Move, pot: &Pot) -> bool {
    match point {
        Point::Ball | Point::Circling => moves != Move::PrickOut,
        Point::Height | Point::Flower => !is_young(moves, pot),
        Point::Hardened => moves.into_cold(),
        _ => true,
    }
}

impl Question {
    /// The rows of its card: those that were written, or the usual ones.
    #[must_use]
    pub fn rows_of_card(&self) -> Vec<PointAsked> {
        if self.card.is_empty() {
            LOOKED_AT.map(|point| PointAsked::of(point.key())).into()
        } else {
            self.card.clone()
        }
    }

    /// Whether a point belongs to the move that is asked for; it does while move or pot are not known.
    pub(super) fn suits(&self, point: Point) -> bool {
        let moves = MOVES.iter().position(|key| *key == self.moves);
        let moves = moves.and_then(|place| Move::ALL.get(place).copied());
        match moves.zip(pot(&self.pot)) {
            Some((moves, pot)) => belongs(point, moves, pot),
            None => self.moves != PRICK_OUT || !matches!(point, Point::Ball | Point::Circling),
        }
    }

    /// The points that are asked for, in the order of the card, each once.
    pub(super) fn points_asked(&self) -> Vec<Point> {
        let mut found = Vec::new();
        for row in self.rows_of_card().iter().take(MOST_POINTS) {
            if let Some(point) = point_of(&row.what)
                && !found.contains(&point)
                && self.suits(point)
            {
                found.push(point);
            }
        }
        found
    }
}

/// What to look for as it is kept: without room around it, and with one space where there were more.
fn tidied(words: &str) -> String {
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Reads the card of a question; every problem is told at its field.
pub fn read(reader: &mut Reader, question: &Question) -> Card {
    let mut card = Card::default();
    let mut known: Vec<String> = Vec::new();
    if question.card.len() > MOST_POINTS {
        reader.say(CARD, words::too_many_points(MOST_POINTS));
    }
    let rows = question.rows_of_card();
    for (index, row) in rows.iter().take(MOST_POINTS).enumerate() {
        let at = |name: &str| path_in(CARD, index, name);
        if row.is_own() {
            let Some(own) = read_own(reader, &at, row) else {
                continue;
            };
            let named = own.words.to_lowercase();
            if known.contains(&named) {
                reader.say(&at("words"), words::point_twice(&own.words));
            }
            known.push(named);
            card.points.push(Point::Own(card.own.len()));
            card.own.push(own);
        } else {
            let keys: Vec<&'static str> = LOOKED_AT
                .iter()
                .map(|point| point.key())
                .chain([OWN])
                .collect();
            let place = reader.one_of(&at("what"), words::A_POINT, &row.what, &keys);
            let Some(point) = place.and_then(|place| LOOKED_AT.get(place).copied()) else {
                continue;
            };
            if known.contains(&row.what) {
                reader.say(&at("what"), words::point_twice(words::point_label(point)));
            }
            known.push(row.what.clone());
            if question.suits(point) {
                card.points.push(point);
            }
        }
    }
    card
}

fn read_own(reader: &mut Reader, at: &dyn Fn(&str) -> String, row: &PointAsked) -> Option<Own> {
    let said = tidied(&row.words);
    let letters = said.chars().count();
    let words_serve = if letters == 0 {
        reader.say(&at("words"), words::no_words());
        false
    } else if letters > MOST_LETTERS {
        reader.say(&at("words"), words::too_many_letters(letters, MOST_LETTERS));
        false
    } else {
        true
    };
    let weight = reader.one_of(&at("weight"), words::A_WEIGHT, &row.weight, &WEIGHTS);
    let seen = if row.seen.trim().is_empty() {
        Some(None)
    } else {
        let place = reader.one_of(&at("seen"), words::AN_ANSWER, &row.seen, &OWN_SEEN);
        place.map(|place| Some(place == 0))
    };
    let (weight, seen) = (weight?, seen?);
    words_serve.then_some(Own {
        words: said,
        weight: if weight == 0 {
            Weight::Needed
        } else {
            Weight::Tells
        },
        seen,
    })
}

/// Between the points of a card that is kept as one text.
const BETWEEN: char = ';';
/// Between the parts of a point of one's own.
const WITHIN: char = ':';
/// Before one of these where it is a letter like any other.
const PLAIN: char = '\\';

/// A card as one text on one line, to be kept for a crop: the keys of its points in their order with `;` between them,
/// and for one of one's own `own:`, its weight, `:` and its words, such as `ball;own:needed:labels are in;leaves`. A
/// `;` or `\` within the words has a `\` before it. What is seen is of a batch and not of the card: it is left out. No
/// rows are no text, which is the usual card.
///
/// [`card_of_texts`] reads it: it gives the same rows again, but that nothing is seen of them, that words have neither
/// room around them nor line breaks, and that of points that are not one's own no words and no weight are kept.
#[must_use]
pub fn card_texts(card: &[PointAsked]) -> String {
    let mut text = String::new();
    for (index, row) in card.iter().enumerate() {
        if index > 0 {
            text.push(BETWEEN);
        }
        let parts = if row.is_own() {
            vec![OWN.to_owned(), tidied(&row.weight), tidied(&row.words)]
        } else {
            vec![tidied(&row.what)]
        };
        for (part, words) in parts.iter().enumerate() {
            if part > 0 {
                text.push(WITHIN);
            }
            for letter in words.chars() {
                // The words come last, and take what is left of the point as it is.
                if [BETWEEN, PLAIN].contains(&letter) || part < 2 && letter == WITHIN {
                    text.push(PLAIN);
                }
                text.push(letter);
            }
        }
    }
    text
}

/// The rows of a card that [`card_texts`] wrote. A text that it did not write gives rows all the same: whatever is not
/// understood in it gets its sentence when the question is read.
#[must_use]
pub fn card_of_texts(text: &str) -> Vec<PointAsked> {
    /// Words of one's own come last, and colons in them are letters.
    const MOST_PARTS: usize = 3;
    let mut rows: Vec<Vec<String>> = vec![vec![String::new()]];
    let mut letters = text.chars();
    while let Some(letter) = letters.next() {
        let Some(row) = rows.last_mut() else { break };
        match letter {
            BETWEEN => rows.push(vec![String::new()]),
            WITHIN if row.len() < MOST_PARTS => row.push(String::new()),
            _ => {
                let letter = if letter == PLAIN {
                    letters.next().unwrap_or(PLAIN)
                } else {
                    letter
                };
                if let Some(part) = row.last_mut() {
                    part.push(letter);
                }
            }
        }
    }
    let row_of = |parts: Vec<String>| {
        let part = |place: usize| parts.get(place).map_or("", |part| part.trim());
        let row = PointAsked::of(part(0));
        if row.is_own() {
            PointAsked {
                weight: part(1).to_owned(),
                words: part(2).to_owned(),
                ..row
            }
        } else {
            row
        }
    };
    rows.into_iter()
        .filter(|parts| parts.iter().any(|part| !part.trim().is_empty()))
        .map(row_of)
        .collect()
}
