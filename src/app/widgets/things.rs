//! Things of the record in lists: each a link by its name, with the gist of it in a line.

use crate::app::markup::Markup;
use crate::app::route::Page;
use crate::handbook::climates::CLIMATES;
use crate::handbook::crops::CROPS;
use crate::keep::address;
use crate::nursery::kinds::{Book, DAY, Field, NAME, Takes};
use crate::nursery::{Id, Kind, Record, Thing, tell};

/// Address of a thing.
#[must_use]
pub fn address_of(id: Id) -> String {
    [&Page::Thing.address(), "?id=", &id.text()].concat()
}

/// Address of a new thing of a kind, of which some is known already.
#[must_use]
pub fn address_of_new(kind: &str, known: &[(&str, &str)]) -> String {
    let owned = |pair: &(&str, &str)| (pair.0.to_owned(), pair.1.to_owned());
    let mut texts = vec![owned(&("new", kind))];
    texts.extend(known.iter().map(owned));
    [&Page::Thing.address(), "?", &address::write(&texts)].concat()
}

/// What adds a thing of a kind: "Add an instrument".
#[must_use]
pub fn add_words(kind: &Kind) -> String {
    let article = match kind.name.chars().next() {
        _ if kind.name == kind.plural => "",
        Some('a' | 'e' | 'i' | 'o' | 'u') => "an ",
        _ => "a ",
    };
    ["Add ", article, kind.name].concat()
}

/// A link that looks like a button.
pub fn write_button(markup: &mut Markup, class: &str, address: &str, words: &str) {
    markup.element("a", &[("class", class), ("href", address)], words);
}

/// Things as a list, each with its gist.
pub fn write_list(
    markup: &mut Markup,
    record: &Record,
    things: &mut dyn Iterator<Item = &Thing>,
    besides: Option<Id>,
) {
    markup.within("ul", &[("class", "things")], &mut |list| {
        for thing in &mut *things {
            list.within("li", &[], &mut |row| {
                row.within("a", &[("href", &address_of(thing.id))], &mut |link| {
                    link.element("strong", &[], &record.name_of(thing.id))
                        .text(" ")
                        .element("small", &[], &gist(record, thing, besides));
                });
            });
        }
    });
}

/// The most that is told of a thing in one line.
const MOST_FIELDS: usize = 5;

/// What a thing says, in one line, without what is known where the line stands.
#[must_use]
pub fn gist(record: &Record, thing: &Thing, besides: Option<Id>) -> String {
    let mut told: Vec<String> = Vec::new();
    for field in thing.table().map_or(&[][..], |kind| kind.fields) {
        if field.key == NAME || field.key == DAY || told.len() == MOST_FIELDS {
            continue;
        }
        if let Takes::Rows(within) = field.takes {
            for row in thing.rows(field.key).iter().take(MOST_FIELDS) {
                let cells: Vec<String> = within
                    .iter()
                    .map(|inner| {
                        let path = [field.key, ".", row, ".", inner.key].concat();
                        said(record, inner, thing.text(&path))
                    })
                    .filter(|text| !text.is_empty())
                    .collect();
                told.push(cells.join(" "));
            }
            continue;
        }
        let text = thing.text(field.key);
        if text.is_empty() || (besides.is_some() && Id::read(text) == besides) {
            continue;
        }
        let said = said(record, field, text);
        told.push(match field.takes {
            Takes::Number(_) | Takes::Day => [field.label, " ", &said].concat(),
            _ => said,
        });
    }
    told.join(" · ")
}

/// The text of a field as one would say it.
#[must_use]
pub fn said(record: &Record, field: &Field, text: &str) -> String {
    let name = match field.takes {
        Takes::Handbook(Book::Crop) => CROPS
            .iter()
            .find(|crop| crop.key == text)
            .map(|crop| crop.name),
        Takes::Handbook(Book::Climate) => CLIMATES
            .iter()
            .find(|climate| climate.key == text)
            .map(|climate| climate.name),
        _ => None,
    };
    match name {
        Some(name) => name.to_owned(),
        None => tell::told(record, field, text),
    }
}

/// The text of the field at a path of a thing, as one would say it.
#[must_use]
pub fn said_of(record: &Record, thing: &Thing, path: &str) -> String {
    match thing.table().and_then(|kind| kind.field(path)) {
        Some(field) if !thing.text(path).is_empty() => said(record, field, thing.text(path)),
        _ => String::new(),
    }
}
