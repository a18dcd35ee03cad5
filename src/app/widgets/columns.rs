//! How a thermometer's file is read: its marks, and what each of its columns holds, to be changed.

use crate::app::markup::Markup;
use crate::keep::journal::thermometer::{Column, DateOrder, Plan, Row, Sheet, What};
use crate::keep::journal::words;
use crate::measure::{DecimalMark, Quantity, Temperature};

/// What a table lies in that may be wider than the page.
pub const WIDE: &[(&str, &str)] = &[
    ("class", "wide"),
    ("tabindex", "0"),
    ("role", "region"),
    ("aria-label", "Table"),
];
/// Rows of the file that are shown.
const ROWS_SHOWN: usize = 5;
/// Lines that are looked at for them.
const LINES: usize = 60;

const DELIMITERS: [(char, &str); 4] = [
    (',', "a comma"),
    (';', "a semicolon"),
    ('\t', "a tab"),
    ('|', "a bar"),
];
const MARKS: [(DecimalMark, &str); 2] = [
    (DecimalMark::Point, "a point: 2.5"),
    (DecimalMark::Comma, "a comma: 2,5"),
];
const ORDERS: [(DateOrder, &str); 3] = [
    (DateOrder::DayFirst, "day, month, year"),
    (DateOrder::MonthFirst, "month, day, year"),
    (DateOrder::YearFirst, "year, month, day"),
];
const WHATS: [(Option<What>, &str); 9] = [
    (None, "nothing that is wanted"),
    (Some(What::Air), "air"),
    (Some(What::Minimum), "minimum of the day"),
    (Some(What::Maximum), "maximum of the day"),
    (Some(What::Root), "mix, at the roots"),
    (Some(What::Bed), "bed under the pots"),
    (Some(What::Water), "water"),
    (Some(What::Outside), "air outside"),
    (Some(What::Humidity), "relative humidity"),
];
const PERCENT: &str = "%";

/// Ids of the selects, with the place of the column behind the last two.
const DELIMITER: &str = "delimiter";
const MARK: &str = "mark";
const ORDER: &str = "order";
const DAY: &str = "day-column";
const TIME: &str = "time-column";
const WHAT: &str = "what-";
const UNIT: &str = "unit-";

/// Writes a choice of one: key and words of each.
pub fn write_select(
    markup: &mut Markup,
    id: &str,
    label: &str,
    all: &[(String, String)],
    chosen: &str,
) {
    markup.within("div", &[("class", "field")], &mut |field| {
        field.element("label", &[("for", id)], label);
        field.within("select", &[("id", id)], &mut |select| {
            for (key, words) in all {
                let option: &[(&str, &str)] = &[("value", key), ("selected", "")];
                let option = if key == chosen { option } else { &option[..1] };
                select.element("option", option, words);
            }
        });
    });
}

/// Choices that go by their place in a table.
fn by_place<T: PartialEq + Copy>(table: &[(T, &str)], made: T) -> (Vec<(String, String)>, String) {
    let all = table.iter().enumerate();
    let all = all.map(|(place, (_, words))| (place.to_string(), (*words).to_owned()));
    let at = table.iter().position(|(key, _)| *key == made);
    (all.collect(), at.unwrap_or(0).to_string())
}

/// Writes the plan with the first rows of the file.
pub fn write(markup: &mut Markup, plan: &Plan, sheet: &Sheet) {
    let rows = sheet.beginning(LINES).rows(plan.delimiter);
    let (heads, body) = rows.split_at(plan.heading_rows.min(rows.len()));
    let width = body.iter().map(|row| row.cells.len()).max().unwrap_or(0);
    let titles: Vec<String> = (0..width).map(|place| title(heads, place)).collect();
    markup.within("div", WIDE, &mut |wide| {
        let titles: Vec<&str> = titles.iter().map(String::as_str).collect();
        wide.table("", "The first lines of the file", &titles, &mut |table| {
            for row in body.iter().take(ROWS_SHOWN) {
                table.within("tr", &[], &mut |line| {
                    for cell in &row.cells {
                        line.element("td", &[], cell.trim());
                    }
                });
            }
        });
    });
    markup.within("div", &[("class", "marks")], &mut |marks| {
        let (all, made) = by_place(&DELIMITERS, plan.delimiter);
        write_select(marks, DELIMITER, "Between the columns", &all, &made);
        let (all, made) = by_place(&MARKS, plan.decimal);
        write_select(marks, MARK, "Decimal mark", &all, &made);
        let (all, made) = by_place(&ORDERS, plan.order);
        write_select(marks, ORDER, "Order of dates", &all, &made);
        let mut places: Vec<(String, String)> = titles
            .iter()
            .enumerate()
            .map(|(place, title)| (place.to_string(), title.clone()))
            .collect();
        write_select(marks, DAY, "The day is in", &places, &plan.day.to_string());
        places.insert(0, (String::new(), "the same column, or nowhere".to_owned()));
        let time = plan.time.map(|time| time.to_string()).unwrap_or_default();
        write_select(marks, TIME, "The time is in", &places, &time);
        for column in &plan.columns {
            write_column(marks, column);
        }
    });
}

fn write_column(markup: &mut Markup, column: &Column) {
    let place = column.place.to_string();
    let name = match column.heading.as_str() {
        "" => words::column(column.place),
        heading => heading.to_owned(),
    };
    let (all, made) = by_place(&WHATS, column.what);
    let label = ["“", &name, "” holds"].concat();
    write_select(markup, &[WHAT, &place].concat(), &label, &all, &made);
    if column.what.is_some_and(|what| what != What::Humidity) {
        let units: Vec<(String, String)> = Temperature::UNITS
            .iter()
            .map(|unit| (unit.key.to_owned(), unit.symbol.to_owned()))
            .collect();
        let label = ["Unit of “", &name, "”"].concat();
        write_select(
            markup,
            &[UNIT, &place].concat(),
            &label,
            &units,
            &column.unit,
        );
    }
}

fn title(heads: &[Row], place: usize) -> String {
    let cells = heads.iter().rev().filter_map(|row| row.cells.get(place));
    let heading = cells.map(|cell| cell.trim()).find(|cell| !cell.is_empty());
    heading.map_or_else(|| words::column(place), str::to_owned)
}

/// Changes what a select stands for.
pub fn change(plan: &mut Plan, sheet: &Sheet, id: &str, value: &str) {
    let place = value.parse::<usize>().ok();
    let at = place.unwrap_or(0);
    match id {
        DELIMITER => {
            if let Some((delimiter, _)) = DELIMITERS.get(at) {
                plan.delimiter = *delimiter;
                columns_anew(plan, sheet);
            }
        }
        MARK => plan.decimal = MARKS.get(at).map_or(plan.decimal, |(mark, _)| *mark),
        ORDER => plan.order = ORDERS.get(at).map_or(plan.order, |(order, _)| *order),
        DAY => {
            plan.day = at;
            columns_anew(plan, sheet);
        }
        TIME => {
            plan.time = place;
            columns_anew(plan, sheet);
        }
        _ => {
            for column in &mut plan.columns {
                let place = column.place.to_string();
                if id.strip_prefix(WHAT) == Some(&place) {
                    column.what = WHATS.get(at).and_then(|(what, _)| *what);
                    let humid = column.what == Some(What::Humidity);
                    if humid || column.unit == PERCENT {
                        let unit = if humid {
                            PERCENT
                        } else {
                            Temperature::UNITS[0].key
                        };
                        unit.clone_into(&mut column.unit);
                    }
                } else if id.strip_prefix(UNIT) == Some(&place) {
                    value.clone_into(&mut column.unit);
                }
            }
        }
    }
}

/// The columns that are left for readings, as they were where they were known.
fn columns_anew(plan: &mut Plan, sheet: &Sheet) {
    let rows = sheet.beginning(LINES).rows(plan.delimiter);
    let (heads, body) = rows.split_at(plan.heading_rows.min(rows.len()));
    let width = body.iter().map(|row| row.cells.len()).max().unwrap_or(0);
    let before = std::mem::take(&mut plan.columns);
    for place in (0..width).filter(|place| *place != plan.day && Some(*place) != plan.time) {
        let known = before.iter().find(|column| column.place == place);
        plan.columns.push(known.cloned().unwrap_or_else(|| Column {
            place,
            heading: title(heads, place),
            what: None,
            unit: Temperature::UNITS[0].key.to_owned(),
        }));
    }
}
