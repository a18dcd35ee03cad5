//! How this device shows things.

use litemap::LiteMap;

use serde_json::{Map, Value};

use super::document::{Document, Unreadable, Unwritable, key_of, take_choice};
use super::json::text_of;
use super::keys::Kind;
use crate::measure::DecimalMark;

/// Light or dark.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Scheme {
    /// As the device is set.
    #[default]
    Auto,
    /// Ink on paper, for full sun.
    Light,
    /// Paper on ink, for before dawn.
    Dark,
}

/// How large text is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TextSize {
    /// As the device is set.
    #[default]
    Normal,
    /// One step larger.
    Large,
    /// Two steps larger.
    Largest,
}

/// The settings of this device.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Settings {
    /// Which mark is the decimal one when a number is typed.
    pub decimal: DecimalMark,
    /// Light or dark.
    pub scheme: Scheme,
    /// How large text is.
    pub text_size: TextSize,
    /// The unit last chosen, by the name of the field or quantity.
    pub units: LiteMap<String, String>,
    /// The mark of this device in the ids of what it enters; empty until something is.
    pub mark: String,
    /// The day of the last copy of the record, such as `2026-05-03`; empty until there is one.
    pub exported: String,
    /// What a later version has stored in settings of the same schema: passed on as it is.
    pub extra: LiteMap<String, Value>,
}

impl Settings {
    /// What this tab has changed since `base`, over what another tab has saved: for
    /// [`super::Saved::ChangedElsewhere`]. Where both have changed the same thing, this tab's
    /// holds, because it is the one being touched.
    #[must_use]
    pub fn merged(base: &Settings, mine: &Settings, theirs: &Settings) -> Settings {
        Settings {
            decimal: *changed(&base.decimal, &mine.decimal, &theirs.decimal),
            scheme: *changed(&base.scheme, &mine.scheme, &theirs.scheme),
            text_size: *changed(&base.text_size, &mine.text_size, &theirs.text_size),
            mark: changed(&base.mark, &mine.mark, &theirs.mark).clone(),
            exported: changed(&base.exported, &mine.exported, &theirs.exported).clone(),
            units: changed_entries(&base.units, &mine.units, &theirs.units),
            extra: changed_entries(&base.extra, &mine.extra, &theirs.extra),
        }
    }
}

fn changed<'a, T: PartialEq>(base: &T, mine: &'a T, theirs: &'a T) -> &'a T {
    if mine == base { theirs } else { mine }
}

fn changed_entries<T: PartialEq + Clone>(
    base: &LiteMap<String, T>,
    mine: &LiteMap<String, T>,
    theirs: &LiteMap<String, T>,
) -> LiteMap<String, T> {
    mine.keys()
        .chain(theirs.keys())
        .filter_map(|key| {
            let (base, mine, theirs) = (base.get(key), mine.get(key), theirs.get(key));
            Some((key.clone(), changed(&base, &mine, &theirs).cloned()?))
        })
        .collect()
}

const DECIMAL: &str = "decimal";
const SCHEME: &str = "scheme";
const TEXT_SIZE: &str = "text_size";
const UNITS: &str = "units";
const MARK: &str = "mark";
const EXPORTED: &str = "exported";

/// What is chosen among, as it is stored.
const MARKS: [(&str, DecimalMark); 3] = [
    ("ask", DecimalMark::Ask),
    ("point", DecimalMark::Point),
    ("comma", DecimalMark::Comma),
];
const SCHEMES: [(&str, Scheme); 3] = [
    ("auto", Scheme::Auto),
    ("light", Scheme::Light),
    ("dark", Scheme::Dark),
];
const TEXT_SIZES: [(&str, TextSize); 3] = [
    ("normal", TextSize::Normal),
    ("large", TextSize::Large),
    ("largest", TextSize::Largest),
];

impl Document for Settings {
    const KIND: Kind = Kind::Settings;
    const SCHEMA: u32 = 1;

    fn repair(body: Value, reset: &mut Vec<String>) -> Result<Self, Unreadable> {
        let Value::Object(mut fields) = body else {
            return Err(Unreadable);
        };
        let mut settings = Settings::default();
        take_choice(&mut fields, DECIMAL, &MARKS, &mut settings.decimal, reset);
        take_choice(&mut fields, SCHEME, &SCHEMES, &mut settings.scheme, reset);
        take_choice(
            &mut fields,
            TEXT_SIZE,
            &TEXT_SIZES,
            &mut settings.text_size,
            reset,
        );
        match fields.remove(UNITS) {
            Some(Value::Object(units)) => {
                for (field, unit) in units {
                    match unit {
                        Value::String(unit) => {
                            settings.units.insert(field, unit);
                        }
                        _ => reset.push([UNITS, ".", &field].concat()),
                    }
                }
            }
            Some(_) => reset.push(UNITS.to_owned()),
            None => {}
        }
        for (name, target) in [
            (MARK, &mut settings.mark),
            (EXPORTED, &mut settings.exported),
        ] {
            match fields.remove(name) {
                Some(Value::String(text)) => *target = text,
                Some(_) => reset.push(name.to_owned()),
                None => {}
            }
        }
        settings.extra = fields.into_iter().collect();
        Ok(settings)
    }

    fn body(&self) -> Result<String, Unwritable> {
        let mut fields = Map::new();
        for (name, value) in &self.extra {
            fields.insert(name.clone(), value.clone());
        }
        // After the others, so that nothing passed on can take the place of a setting.
        let units = self
            .units
            .iter()
            .map(|(name, unit)| (name.clone(), Value::from(unit.as_str())))
            .collect();
        for (name, value) in [
            (DECIMAL, Value::from(key_of(&MARKS, self.decimal))),
            (SCHEME, Value::from(key_of(&SCHEMES, self.scheme))),
            (TEXT_SIZE, Value::from(key_of(&TEXT_SIZES, self.text_size))),
            (UNITS, Value::Object(units)),
            (MARK, Value::from(self.mark.as_str())),
            (EXPORTED, Value::from(self.exported.as_str())),
        ] {
            fields.insert(name.to_owned(), value);
        }
        Ok(text_of(&Value::Object(fields)))
    }
}
