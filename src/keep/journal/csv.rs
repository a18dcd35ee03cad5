//! Each log as a table for other programs: CSV as RFC 4180 has it, in UTF-8 with the mark that tells
//! spreadsheets so.
//!
//! A spreadsheet takes a cell that begins with `=`, `+`, `-` or `@` for a formula, and formulas can
//! do harm. So what begins so, even behind spaces, tabs or line ends, or begins with a tab or a line
//! end, has an apostrophe put before it. Plain numbers, also negative ones, stay as they are. The
//! JSON document has everything to the letter.

use crate::measure::letters::in_small;
use crate::nursery::kinds::{Field, Takes};
use crate::nursery::tell::{plain_number, told};
use crate::nursery::{Day, Kind, Record, Thing};

/// Tells a program that a text is in UTF-8.
const MARK: char = '\u{feff}';
/// Between lines, as RFC 4180 has it.
const LINE_END: &str = "\r\n";

/// All present things of a kind, one on each line, under a heading. Numbers are in the unit of the
/// heading.
#[must_use]
pub fn table(record: &Record, kind: &Kind) -> String {
    let mut text = String::from(MARK);
    let heads: Vec<String> = kind.fields.iter().map(heading).collect();
    line(&mut text, heads.iter().map(String::as_str).chain(["Id"]));
    for thing in record.of_kind(kind.key) {
        let id = thing.id.text();
        let cells: Vec<String> = kind
            .fields
            .iter()
            .map(|field| cell(record, thing, field))
            .collect();
        line(&mut text, cells.iter().map(String::as_str).chain([&*id]));
    }
    text
}

/// `Minimum (°C)`.
fn heading(field: &Field) -> String {
    match field.takes {
        Takes::Number(amount) if !amount.unit.symbol.is_empty() => {
            [field.label, " (", amount.unit.symbol, ")"].concat()
        }
        _ => field.label.to_owned(),
    }
}

fn cell(record: &Record, thing: &Thing, field: &Field) -> String {
    let text = thing.text(field.key);
    match field.takes {
        Takes::Number(_) => plain_number(field, text).unwrap_or_else(|| text.to_owned()),
        // A spreadsheet reads a day in this form and no other without asking where it is.
        Takes::Day => Day::read(text).map_or_else(|_| text.to_owned(), Day::iso),
        Takes::Rows(fields) => rows(record, thing, field.key, fields),
        _ if text.is_empty() => String::new(),
        _ => told(record, field, text),
    }
}

/// Rows in one cell: `Material: perlite, Parts: 1; Material: …`.
fn rows(record: &Record, thing: &Thing, list: &str, fields: &[Field]) -> String {
    let row = |row: &&str| {
        let cells = fields.iter().filter_map(|field| {
            let text = thing.in_row(list, row, field.key);
            let said = (!text.is_empty()).then(|| told(record, field, text))?;
            Some([field.label, ": ", &said].concat())
        });
        cells.collect::<Vec<_>>().join(", ")
    };
    let rows: Vec<String> = thing.rows(list).iter().map(row).collect();
    rows.join("; ")
}

fn line<'a>(text: &mut String, cells: impl Iterator<Item = &'a str>) {
    for (place, cell) in cells.enumerate() {
        if place > 0 {
            text.push(',');
        }
        push_cell(text, cell);
    }
    text.push_str(LINE_END);
}

/// One cell, guarded against being taken for a formula and quoted where it must be.
fn push_cell(text: &mut String, cell: &str) {
    let guard = if may_be_formula(cell) { "'" } else { "" };
    let outer_space = cell.starts_with(' ') || cell.ends_with(' ');
    if outer_space || cell.contains([',', '"', '\r', '\n', ';', '\t']) {
        text.push('"');
        text.push_str(guard);
        text.push_str(&cell.replace('"', "\"\""));
        text.push('"');
    } else {
        text.push_str(guard);
        text.push_str(cell);
    }
}

/// Whether some program might take a cell for a formula: also by the full-width signs, which some
/// read as the usual ones.
#[must_use]
pub fn may_be_formula(cell: &str) -> bool {
    const SIGNS: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];
    let bare =
        cell.trim_start_matches(|letter: char| letter.is_whitespace() || letter.is_control());
    let sign = bare.starts_with(SIGNS) && !is_plain_number(bare);
    sign || cell.starts_with(['\t', '\r', '\n'])
}

/// `-4`, `-4.25`: a minus, digits, and at most one point between digits.
fn is_plain_number(cell: &str) -> bool {
    let size = cell.strip_prefix('-').unwrap_or(cell);
    let (whole, decimals) = size.split_once('.').unwrap_or((size, "0"));
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    digits(whole) && digits(decimals)
}

/// The name of the file of a kind's table, before the day.
#[must_use]
pub fn file_name(kind: &Kind) -> String {
    in_small(kind.plural).replace(' ', "-")
}
