//! A thing of the record as it is filled in: its form, what does not make sense yet, saving it.

use std::rc::Rc;

use leptos::prelude::*;

use super::record::Ledger;
use super::widgets::form::Asked;
use crate::handbook::bed_media::{BED_MEDIA, bed_medium};
use crate::handbook::climates::CLIMATES;
use crate::handbook::crops::CROPS;
use crate::handbook::materials::MATERIALS;
use crate::handbook::pots::POTS;
use crate::measure::Entry;
use crate::nursery::kinds::Book;
use crate::nursery::{Id, Kind, Problem, Record, Texts, Thing, kinds, sense};
use crate::reckon::form::{Field, Item, Piece, Row, Takes, Units};

/// More fields than these are too many to see at once; of them so many are shown.
const MOST_AT_ONCE: usize = 11;
/// See [`MOST_AT_ONCE`].
const AT_ONCE: usize = 9;

/// What a field takes that is for a number of the record.
pub fn number(amount: &kinds::Amount) -> Takes {
    Takes::Number {
        units: Units::down_to(amount.units, amount.low, amount.unit),
        step: amount.step,
    }
}

/// A thing that is being filled in.
#[derive(Clone, Copy)]
pub struct Draft {
    kind: &'static Kind,
    /// The thing, where it is in the record already.
    id: Option<Id>,
    /// What stands in its fields.
    pub texts: RwSignal<Texts>,
    problems: RwSignal<Vec<Problem>>,
    /// Rows in which nothing stands yet, by their list.
    blank: RwSignal<Vec<(String, String)>>,
    ledger: Ledger,
}

impl Draft {
    /// A new thing, with what is known of it.
    #[must_use]
    pub fn new(ledger: Ledger, kind: &'static Kind, texts: Texts) -> Self {
        Self {
            kind,
            id: None,
            texts: RwSignal::new(texts),
            problems: RwSignal::new(Vec::new()),
            blank: RwSignal::new(Vec::new()),
            ledger,
        }
    }

    /// A thing of the record.
    #[must_use]
    pub fn of(ledger: Ledger, kind: &'static Kind, thing: &Thing) -> Self {
        let mut draft = Self::new(ledger, kind, (*thing.texts).clone());
        draft.id = Some(thing.id);
        draft
    }

    /// Saves it, if it makes sense; otherwise says at its fields what does not. Gives back the id of
    /// the thing.
    pub fn save(self) -> Option<Id> {
        let texts = self.texts.get_untracked();
        let problems = self.problems_of(&texts);
        let sound = problems.is_empty();
        self.problems.set(problems);
        if !sound {
            return None;
        }
        match self.id {
            None => self.ledger.add(self.kind.key, texts),
            Some(id) => {
                let before = self
                    .ledger
                    .read(|record| record.get(id).map(|thing| (*thing.texts).clone()))
                    .unwrap_or_default();
                // What has been emptied is changed too.
                let mut changes: Vec<(&str, &str)> = before
                    .iter()
                    .filter(|(path, _)| texts.get(path).is_empty())
                    .map(|(path, _)| (path, ""))
                    .collect();
                // What is left alone is not changed, so that what two devices clash over stays open.
                changes.extend(
                    texts
                        .iter()
                        .filter(|(path, text)| before.get(path) != *text),
                );
                self.ledger.change(id, &changes);
                Some(id)
            }
        }
    }

    fn problems_of(self, texts: &Texts) -> Vec<Problem> {
        let thing = Thing::new(self.id.unwrap_or(Id::LOWEST), self.kind.key, texts.clone());
        self.ledger.read(|record| sense::problems(record, &thing))
    }

    fn set(self, path: &str, text: &str) {
        self.texts.update(|texts| texts.set(path, text));
        // What was wrong may be right now; what is not, is said when it is saved again.
        self.problems
            .update(|problems| problems.retain(|problem| problem.field != path));
    }

    fn rows(self, list: &str) -> Vec<String> {
        let thing = Thing::new(Id::LOWEST, self.kind.key, self.texts.get());
        let mut rows: Vec<String> = thing.rows(list).into_iter().map(str::to_owned).collect();
        self.blank.with(|blank| {
            for (of, row) in blank {
                if of == list && !rows.contains(row) {
                    rows.push(row.clone());
                }
            }
        });
        rows
    }

    fn pieces_of(self, fields: &'static [kinds::Field]) -> Vec<Piece> {
        let mut pieces = Vec::new();
        for field in fields {
            pieces.push(match field.takes {
                kinds::Takes::Rows(within) => Piece::Rows {
                    path: field.key,
                    legend: field.label,
                    rows: self
                        .rows(field.key)
                        .iter()
                        .map(|row| Row {
                            fields: within
                                .iter()
                                .map(|inner| {
                                    let path = [field.key, ".", row, ".", inner.key].concat();
                                    self.field(path, inner)
                                })
                                .collect(),
                            take_out: Some(["Take out of ", field.label].concat()),
                        })
                        .collect(),
                    add: Some("Add a row"),
                },
                _ => Piece::Field(self.field(field.key.to_owned(), field)),
            });
        }
        pieces
    }

    fn field(self, path: String, field: &'static kinds::Field) -> Field {
        let ledger = self.ledger;
        let takes = match field.takes {
            kinds::Takes::Number(amount) => number(amount),
            kinds::Takes::Day => Takes::Day { steps_days: 0 },
            kinds::Takes::Time => Takes::Time,
            kinds::Takes::Choice(choices) => Takes::Few(few(choices)),
            kinds::Takes::One(of) => Takes::Many {
                heading: field.label,
                items: Rc::new(move || ledger.read(|record| things(record, of))),
            },
            kinds::Takes::Handbook(book) => Takes::Many {
                heading: field.label,
                items: Rc::new(move || ledger.read(|record| in_book(record, book))),
            },
            kinds::Takes::LongText => Takes::Words { long: true },
            kinds::Takes::Text | kinds::Takes::Rows(_) => Takes::Words { long: false },
        };
        Field {
            path,
            label: field.label.to_owned(),
            takes,
        }
    }
}

fn item(key: &str, name: &str, note: &str) -> Item {
    Item {
        key: key.to_owned(),
        name: name.to_owned(),
        note: note.to_owned(),
    }
}

/// The choices, after that of none.
fn few(choices: &[(&str, &str)]) -> Vec<Item> {
    let none = item("", "not said", "");
    let given = choices.iter().map(|(key, words)| item(key, words, ""));
    std::iter::once(none).chain(given).collect()
}

/// Things of these kinds, after that of none.
fn things(record: &Record, of: &[&str]) -> Vec<Item> {
    let mut items = vec![item("", "not said", "")];
    for kind in of {
        let note = kinds::kind(kind).map_or("", |kind| kind.name);
        items.extend(
            record
                .of_kind(kind)
                .map(|thing| item(&thing.id.text(), &record.name_of(thing.id), note)),
        );
    }
    items
}

/// Things of one's own, then those of the handbook.
fn in_book(record: &Record, book: Book) -> Vec<Item> {
    let mut items = things(record, &[book.own()]);
    match book {
        Book::Pot => items.extend(POTS.iter().map(|pot| item(pot.key, pot.name, "handbook"))),
        Book::Material => items.extend(
            MATERIALS
                .iter()
                .map(|material| item(material.key, material.name, material.grade)),
        ),
        Book::BedMedium => {
            let media = BED_MEDIA.iter();
            items.extend(media.map(|medium| item(medium.key, medium.name, medium.grade)));
            let others = MATERIALS
                .iter()
                .filter(|material| bed_medium(material.key).is_none());
            items.extend(others.map(|material| item(material.key, material.name, material.grade)));
        }
        Book::Crop => items.extend(
            CROPS
                .iter()
                .map(|crop| item(crop.key, crop.name, crop.botanical)),
        ),
        Book::Climate => items.extend(
            CLIMATES
                .iter()
                .map(|climate| item(climate.key, climate.name, "handbook")),
        ),
    }
    items
}

impl Asked for Draft {
    fn pieces(&self) -> Vec<Piece> {
        // Whoever reads the pieces is told of every change, also of what stands in the fields.
        self.texts.track();
        let mut pieces = self.pieces_of(self.kind.fields);
        if pieces.len() > MOST_AT_ONCE {
            let more = pieces.split_off(AT_ONCE);
            pieces.push(Piece::More {
                about: "More about it",
                pieces: more,
            });
        }
        pieces
    }

    fn entry(&self, path: &str) -> Entry {
        let entry = Entry::from_stored(
            self.texts
                .with_untracked(|texts| texts.get(path).to_owned())
                .as_str(),
        );
        match self.kind.field(path).map(|field| &field.takes) {
            // A field that is empty yet has the unit of its table.
            Some(kinds::Takes::Number(amount)) if entry.text().is_empty() => {
                entry.with_unit(amount.unit.key)
            }
            _ => entry,
        }
    }

    fn choice(&self, path: &str) -> String {
        self.texts
            .with_untracked(|texts| texts.get(path).to_owned())
    }

    fn type_in(&self, path: &str, entry: Entry) {
        let text = if entry.is_empty() {
            String::new()
        } else {
            entry.stored()
        };
        self.set(path, &text);
    }

    fn choose(&self, path: &str, key: &str) {
        self.set(path, key);
    }

    fn add_row(&self, path: &str) {
        let (mut row, rows) = (self.ledger.new_row(), self.rows(path));
        // Several may be added before the first of them is saved.
        while rows.contains(&row) {
            row.push('x');
        }
        self.blank
            .update(|blank| blank.push((path.to_owned(), row)));
    }

    fn take_out_row(&self, path: &str, index: usize) {
        if let Some(row) = self.rows(path).get(index) {
            self.blank
                .update(|blank| blank.retain(|(_, other)| other != row));
            let start = [path, ".", row, "."].concat();
            self.texts.update(|texts| {
                let kept: Vec<(&str, &str)> = texts
                    .iter()
                    .filter(|(path, _)| !path.starts_with(&start))
                    .collect();
                *texts = Texts::of(kept);
            });
        }
    }

    fn problem(&self, path: &str) -> Option<String> {
        self.problems
            .with(|problems| Problem::sentence_at(problems, path))
    }
}
