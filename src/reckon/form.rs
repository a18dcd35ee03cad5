//! The form of a question as data: which fields it has, what each is called and what it takes.
//!
//! A field is known by its path, the same by which a problem names it. Whoever draws a form or
//! fills one in needs nothing else of a reckoning. By its paths a question is also written as
//! [`Texts`], which is how it is stored, linked to, and handed to another thread.

use std::rc::Rc;

use crate::handbook::climates::{CLIMATES, Climate};
use crate::measure::{DecimalMark, Entry, Quantity, Temperature, TemperatureDifference, Unit};

/// A part of a question, as it is typed: its fields with what they take, and all of them optional in JSON.
macro_rules! asked {
    ($(#[$text:meta])* $name:ident { $($(#[$of_field:meta])* $field:ident: $takes:ident,)* }) => {
        $(#[$text])*
        #[derive(Clone, Debug, PartialEq)]
        #[cfg_attr(
            feature = "terminal",
            derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
            serde(default)
        )]
        pub struct $name {
            $($(#[$of_field])* pub $field: $takes,)*
        }
    };
}
pub(crate) use asked;

/// One of a list to choose from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// Its name in the question.
    pub key: String,
    /// Its name on the page.
    pub name: String,
    /// A second line, which may be empty.
    pub note: String,
}

/// The units in which a number may be given.
#[derive(Clone, Copy, Debug)]
pub struct Units {
    /// All units of the quantity.
    pub all: &'static [Unit],
    /// Keys of the units offered, where that is not all of them.
    pub keys: Option<&'static [&'static str]>,
    /// How far down the number may be stepped, in the base unit.
    pub low: f64,
}

impl Units {
    /// These units of a quantity.
    #[must_use]
    pub const fn of<Q: Quantity>(keys: &'static [&'static str]) -> Self {
        Self {
            all: Q::UNITS,
            keys: Some(keys),
            low: 0.0,
        }
    }

    /// All units of a quantity, for a number that may be as low as so much of one of them.
    #[must_use]
    pub const fn down_to(all: &'static [Unit], low: f64, unit: &Unit) -> Self {
        Self {
            all,
            keys: None,
            low: unit.to_base(low),
        }
    }

    /// Whether the number may be below nought in one of its units.
    #[must_use]
    pub fn go_below_nought(self) -> bool {
        self.all.iter().any(|unit| unit.from_base(self.low) < 0.0)
    }

    /// The units offered; none for a plain number.
    pub fn offered(self) -> impl Iterator<Item = &'static Unit> {
        self.all.iter().filter(move |unit| {
            !unit.symbol.is_empty() && self.keys.is_none_or(|keys| keys.contains(&unit.key))
        })
    }
}

/// No temperature is stepped below this, °C.
const COLDEST_C: f64 = -40.0;
/// Temperatures of air.
pub const CELSIUS: Units =
    Units::down_to(Temperature::UNITS, COLDEST_C, &Temperature::DEGREE_CELSIUS);
/// How much warmer or colder one place is than another.
pub const WARMER: Units = Units::down_to(
    TemperatureDifference::UNITS,
    -10.0,
    &TemperatureDifference::DEGREE_CELSIUS,
);

/// The climates to choose from.
#[must_use]
pub fn climates() -> Vec<Item> {
    let item = |row: &Climate| Item::new(row.key, row.name, "");
    CLIMATES.iter().map(item).collect()
}

/// A row of a question of which no number is said, though each has its unit.
pub fn blank<T: Default>(numbers: impl for<'a> Fn(&'a mut T) -> Numbers<'a>) -> T {
    let mut blank = T::default();
    for (_, entry) in numbers(&mut blank) {
        *entry = entry.with_text(String::new());
    }
    blank
}

/// Numbers of a question, each by its path or by the end of it.
pub type Numbers<'a> = Vec<(&'static str, &'a mut Entry)>;

/// The one of a name: a number, or a choice, by its path.
pub fn named<'a, T>(
    all: impl IntoIterator<Item = (&'static str, &'a mut T)>,
    name: &str,
) -> Option<&'a mut T> {
    all.into_iter()
        .find(|(known, _)| *known == name)
        .map(|(_, found)| found)
}

/// The index and the rest of a path in a list, such as 2 and `amount` of `parts.2.amount`.
pub fn in_list<'a>(path: &'a str, list: &str) -> Option<(usize, &'a str)> {
    let (index, name) = path
        .strip_prefix(list)?
        .strip_prefix('.')?
        .split_once('.')?;
    Some((index.parse().ok()?, name))
}

/// The path of a row of a list: `parts.2.amount` of 2 and `amount`.
#[must_use]
pub fn path_in(list: &str, index: usize, name: &str) -> String {
    [list, ".", &index.to_string(), ".", name].concat()
}

/// Gives a list to choose from.
pub type Items = Rc<dyn Fn() -> Vec<Item>>;

/// What a field takes.
#[derive(Clone)]
pub enum Takes {
    /// A number as it is typed.
    Number {
        /// Its units.
        units: Units,
        /// How far a step goes, in the unit shown.
        step: f64,
    },
    /// A few words, or as many as one likes.
    Words {
        /// Whether they may run over several lines.
        long: bool,
    },
    /// A day.
    Day {
        /// How far a step goes, days; nought where none is offered.
        steps_days: i32,
    },
    /// A time of day.
    Time,
    /// One of a few, chosen in place.
    Few(Vec<Item>),
    /// One of many, found by typing a part of its name.
    Many {
        /// Heading of the list.
        heading: &'static str,
        /// The list.
        items: Items,
    },
}

/// A field.
#[derive(Clone)]
pub struct Field {
    /// Its path in the question.
    pub path: String,
    /// What it is called.
    pub label: String,
    /// What it takes.
    pub takes: Takes,
}

/// A piece of a form.
#[derive(Clone)]
pub enum Piece {
    /// A field.
    Field(Field),
    /// Rows of fields of which there may be more or fewer.
    Rows {
        /// Path of the list in the question.
        path: &'static str,
        /// What the rows are.
        legend: &'static str,
        /// The rows.
        rows: Vec<Row>,
        /// What adds one; none where there are as many as there may be.
        add: Option<&'static str>,
    },
    /// Rows of which the order is the grower's.
    Ordered {
        /// Path of the list in the question.
        path: &'static str,
        /// What the rows are.
        legend: &'static str,
        /// The rows.
        rows: Vec<RowInOrder>,
        /// What adds one; none where there are as many as there may be.
        add: Option<&'static str>,
    },
    /// Pieces that are asked for more seldom.
    More {
        /// What they are about, which is written over them.
        about: &'static str,
        /// The pieces.
        pieces: Vec<Piece>,
    },
}

impl From<Field> for Piece {
    fn from(field: Field) -> Self {
        Self::Field(field)
    }
}

impl Piece {
    /// Fields that are asked for more seldom.
    #[must_use]
    pub fn more(about: &'static str, fields: Vec<Field>) -> Self {
        Self::More {
            about,
            pieces: fields.into_iter().map(Self::from).collect(),
        }
    }
}

impl Field {
    /// A field of a path.
    #[must_use]
    pub fn new(path: &str, label: &str, takes: Takes) -> Self {
        Self {
            path: path.to_owned(),
            label: label.to_owned(),
            takes,
        }
    }

    /// A field for one of a few, chosen by their names.
    #[must_use]
    pub fn few<'a>(
        path: &str,
        label: &str,
        choices: impl IntoIterator<Item = (&'a str, &'a str)>,
    ) -> Self {
        let items = choices
            .into_iter()
            .map(|(key, name)| Item::new(key, name, ""));
        Self::new(path, label, Takes::Few(items.collect()))
    }

    /// One of many, found by typing a part of its name.
    #[must_use]
    pub fn many(
        path: &str,
        label: &str,
        heading: &'static str,
        items: impl Fn() -> Vec<Item> + 'static,
    ) -> Self {
        let items = Rc::new(items);
        Self::new(path, label, Takes::Many { heading, items })
    }

    /// A field for a number, stepped so far in the unit shown.
    #[must_use]
    pub fn number(path: &str, label: &str, units: Units, step: f64) -> Self {
        Self::new(path, label, Takes::Number { units, step })
    }
}

impl Item {
    /// One of a list; the note may be empty.
    #[must_use]
    pub fn new(key: &str, name: &str, note: &str) -> Self {
        Self {
            key: key.to_owned(),
            name: name.to_owned(),
            note: note.to_owned(),
        }
    }
}

/// One row.
#[derive(Clone)]
pub struct Row {
    /// Its fields.
    pub fields: Vec<Field>,
    /// What takes it out, such as "Take out coir pith"; none for the last one left.
    pub take_out: Option<String>,
}

/// One row of which the order is the grower's.
#[derive(Clone)]
pub struct RowInOrder {
    /// What it is.
    pub title: String,
    /// The row.
    pub row: Row,
    /// What moves it before the one that it follows, such as "Earlier: leaves"; none for the first.
    pub earlier: Option<String>,
}

/// What can be done to a question through its form.
pub trait Form {
    /// The pieces of the form, for the question as it stands.
    fn pieces(&self) -> Vec<Piece>;
    /// The number typed at a path.
    fn entry(&mut self, path: &str) -> Option<&mut Entry>;
    /// The choice made at a path.
    fn choice(&mut self, path: &str) -> Option<&mut String>;
    /// The paths of all its fields, whether they are asked for now or not.
    fn paths(&self) -> Vec<String>;
    /// The paths of its lists.
    fn lists(&self) -> &'static [&'static str];
    /// Makes the list at a path so long, with rows in which nothing is said.
    fn blank_rows(&mut self, path: &str, many: usize);
    /// Adds a row to the list at a path.
    fn add_row(&mut self, path: &str);
    /// Takes a row out of the list at a path.
    fn take_out_row(&mut self, path: &str, index: usize);
    /// Moves a row of the list at a path before the one that it follows; nothing where its rows keep their order.
    fn move_row_up(&mut self, _path: &str, _index: usize) {}
}

/// The fields of pieces, in order, with those of rows and of what is asked more seldom.
#[must_use]
pub fn fields(pieces: &[Piece]) -> Vec<&Field> {
    let mut found = Vec::new();
    for piece in pieces {
        match piece {
            Piece::Field(field) => found.push(field),
            Piece::Rows { rows, .. } => found.extend(rows.iter().flat_map(|row| &row.fields)),
            Piece::Ordered { rows, .. } => {
                found.extend(rows.iter().flat_map(|ordered| &ordered.row.fields));
            }
            Piece::More { pieces, .. } => found.extend(fields(pieces)),
        }
    }
    found
}

/// A question as texts by their paths: `parts.0.amount` is `3`, `pot.height` is `88 mm`.
pub type Texts = Vec<(String, String)>;

/// No list of a question is longer than this.
const MOST_ROWS: usize = 64;

/// A question as texts, to the letter.
pub fn texts(question: &mut dyn Form) -> Texts {
    let mut texts = Texts::new();
    for path in question.paths() {
        let choice = question.choice(&path).map(|choice| choice.clone());
        let text = choice.or_else(|| question.entry(&path).map(|entry| entry.stored()));
        texts.extend(text.map(|text| (path, text)));
    }
    texts
}

/// Puts texts into a question; false if it has a field for none of them, or a list is too long.
/// Lists become as long as the texts make them; other fields of which nothing is said are left as
/// they are, and texts without a field are passed over.
pub fn put(question: &mut dyn Form, texts: &Texts) -> bool {
    for list in question.lists() {
        let rows = texts
            .iter()
            .filter_map(|(path, _)| Some(in_list(path, list)?.0));
        let Some(last) = rows.max() else { continue };
        if last >= MOST_ROWS {
            return false;
        }
        question.blank_rows(list, last + 1);
    }
    let mut any = false;
    for (path, text) in texts {
        if let Some(choice) = question.choice(path) {
            choice.clone_from(text);
            any = true;
        } else if let Some(entry) = question.entry(path) {
            *entry = Entry::from_stored(text);
            any = true;
        }
    }
    any
}

/// Tells every number of a question as any device reads it alike, whichever mark is decimal there.
pub fn make_portable(question: &mut dyn Form, mark: DecimalMark) {
    for path in question.paths() {
        if let Some(entry) = question.entry(&path) {
            *entry = entry.canonical(mark);
        }
    }
}
