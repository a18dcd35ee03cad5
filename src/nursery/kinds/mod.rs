//! Which kinds of thing a record holds, and what each field takes: tables, no code.
//!
//! | file | kinds |
//! |---|---|
//! | `places` | place, house, bay (and bench), tray, pot, instrument |
//! | `stuff` | material, stock, mix, price, tariff |
//! | `plants` | crop, seed lot, batch, stage, plan |
//! | `daybook` | night, reading, humidity, forecast, watered, fed, tank, count, treated, bought, cut, sold, note |
//! | `findings` | test, fit, card, look, verdict, outcome |
//!
//! A key is never used again for something else, for it stands in files that are older or younger.

pub mod amounts;
pub mod daybook;
pub mod findings;
pub mod places;
pub mod plants;
pub mod stuff;

use crate::measure::{Bounds, Unit};

/// A kind of thing.
#[derive(Debug)]
pub struct Kind {
    /// Stable name in files.
    pub key: &'static str,
    /// One of it: `house`.
    pub name: &'static str,
    /// Several of it: `houses`.
    pub plural: &'static str,
    /// Whether it belongs to a day, which then stands in the field [`DAY`].
    pub is_log: bool,
    /// The fields, in the order in which they are asked.
    pub fields: &'static [Field],
    /// Pairs of fields of which the first must not be above the second.
    pub ordered: &'static [(&'static str, &'static str)],
    /// Days that must not come before the day of another thing.
    pub after: &'static [After],
}

/// The kinds of place that something can stand in or be read in, the widest first.
pub const PLACES: &[&str] = &["house", "bay", "tray"];
/// The field by which things are called.
pub const NAME: &str = "name";
/// The field with the day of a log.
pub const DAY: &str = "day";
/// The field with the thing that this one stands in.
pub const INSIDE: &str = "inside";

/// A day that must not come before the day of another thing.
#[derive(Debug)]
pub struct After {
    /// The field with the day.
    pub day: &'static str,
    /// The field that names the other thing.
    pub link: &'static str,
    /// The field of the other thing with its day.
    pub other_day: &'static str,
}

/// A field of a kind, or of a row.
#[derive(Debug)]
pub struct Field {
    /// Stable name in files.
    pub key: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// What it takes.
    pub takes: Takes,
    /// Whether a thing makes no sense without it.
    pub needed: bool,
}

/// What a field takes.
#[derive(Debug)]
pub enum Takes {
    /// A number, with a unit where it has one.
    Number(&'static Amount),
    /// A few words.
    Text,
    /// As much as one likes to write.
    LongText,
    /// A day.
    Day,
    /// A time of day.
    Time,
    /// One of a few: key and words of each.
    Choice(&'static [(&'static str, &'static str)]),
    /// Another thing, of one of these kinds.
    One(&'static [&'static str]),
    /// An entry of the handbook by its key, or a thing of one's own kind.
    Handbook(Book),
    /// A list of rows with these fields.
    Rows(&'static [Field]),
}

/// A part of the handbook, or the kind of thing that stands beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Book {
    /// Sizes of pots.
    Pot,
    /// What mixes are made of.
    Material,
    /// What beds are laid of; a tray may be filled with what mixes are made of, too.
    BedMedium,
    /// Crops.
    Crop,
    /// Climates.
    Climate,
}

impl Book {
    /// The kind of one's own that may be named instead of a key of the handbook.
    #[must_use]
    pub const fn own(self) -> &'static str {
        match self {
            Self::Pot => "pot",
            Self::Material | Self::BedMedium => "material",
            Self::Crop => "crop",
            Self::Climate => "place",
        }
    }
}

/// The number that a field takes.
#[derive(Debug)]
pub struct Amount {
    /// All units of its quantity.
    pub units: &'static [Unit],
    /// The unit in which limits are told and files are written.
    pub unit: &'static Unit,
    /// The least that makes sense, in that unit.
    pub low: f64,
    /// The most that makes sense, in that unit.
    pub high: f64,
    /// Whether it must be whole.
    pub whole: bool,
    /// How far a step goes, in that unit.
    pub step: f64,
}

impl Amount {
    /// Its limits, under the name of a field.
    #[must_use]
    pub const fn bounds(&self, what: &'static str) -> Bounds {
        Bounds {
            what,
            low: self.unit.to_base(self.low),
            high: self.unit.to_base(self.high),
            whole: self.whole,
        }
    }
}

impl Field {
    /// A field that may be left empty.
    #[must_use]
    pub const fn new(key: &'static str, label: &'static str, takes: Takes) -> Self {
        Self {
            key,
            label,
            takes,
            needed: false,
        }
    }

    /// A field that is needed.
    #[must_use]
    pub const fn needed(key: &'static str, label: &'static str, takes: Takes) -> Self {
        Self {
            key,
            label,
            takes,
            needed: true,
        }
    }
}

impl Kind {
    const fn standing(
        key: &'static str,
        [name, plural]: [&'static str; 2],
        fields: &'static [Field],
    ) -> Self {
        Self {
            key,
            name,
            plural,
            is_log: false,
            fields,
            ordered: &[],
            after: &[],
        }
    }

    const fn log(key: &'static str, names: [&'static str; 2], fields: &'static [Field]) -> Self {
        let mut kind = Self::standing(key, names, fields);
        kind.is_log = true;
        kind
    }

    const fn ordered(mut self, ordered: &'static [(&'static str, &'static str)]) -> Self {
        self.ordered = ordered;
        self
    }

    const fn after(mut self, after: &'static [After]) -> Self {
        self.after = after;
        self
    }

    /// The field at a path: `low`, or `parts.0.amount` in a row.
    #[must_use]
    pub fn field(&self, path: &str) -> Option<&'static Field> {
        match row_path(path) {
            None => find(self.fields, path),
            Some((list, _, name)) => match find(self.fields, list)?.takes {
                Takes::Rows(fields) => find(fields, name),
                _ => None,
            },
        }
    }
}

fn find(fields: &'static [Field], key: &str) -> Option<&'static Field> {
    fields.iter().find(|field| field.key == key)
}

/// List, row and field of a path such as `parts.0.amount`.
#[must_use]
pub fn row_path(path: &str) -> Option<(&str, &str, &str)> {
    let (list, rest) = path.split_once('.')?;
    let (row, name) = rest.split_once('.')?;
    Some((list, row, name))
}

/// The kinds of every file.
static SPHERES: [&[&Kind]; 5] = [
    places::KINDS,
    stuff::KINDS,
    plants::KINDS,
    daybook::KINDS,
    findings::KINDS,
];

/// All kinds.
pub fn all() -> impl Iterator<Item = &'static Kind> {
    SPHERES.iter().copied().flatten().copied()
}

/// The kind of a key; none where a newer version has made it.
#[must_use]
pub fn kind(key: &str) -> Option<&'static Kind> {
    // Asked for every entry of a record: loops are quicker here than one iterator in another.
    for sphere in SPHERES {
        for kind in sphere {
            if kind.key == key {
                return Some(kind);
            }
        }
    }
    None
}

/// The field that many kinds end with.
const NOTES: Field = Field::new("notes", "Notes", Takes::LongText);
/// What a thing is called.
const NAMED: Field = Field::needed(NAME, "Name", Takes::Text);
/// The day of a log.
const ON: Field = Field::needed(DAY, "Day", Takes::Day);
/// The time of day of a log.
const TIME: Field = Field::new("time", "Time", Takes::Time);
/// The batch that something is about.
const BATCH: Field = Field::new("batch", "Batch", Takes::One(&["batch"]));
/// The batch that something makes no sense without.
const ITS_BATCH: Field = Field::needed("batch", "Batch", Takes::One(&["batch"]));
/// Where something was.
const PLACE: Field = Field::new("place", "Where", Takes::One(PLACES));
/// Where something was, where it makes no sense without.
const ITS_PLACE: Field = Field::needed("place", "Where", Takes::One(PLACES));
/// What happens to a batch happens after it was sown.
const AFTER_SOWING: &[After] = &[After {
    day: DAY,
    link: "batch",
    other_day: "sown",
}];
