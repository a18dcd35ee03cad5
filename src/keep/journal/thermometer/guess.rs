//! What the columns of a thermometer's file hold, guessed from its beginning. Everything that is
//! guessed can be changed.

use super::{Column, DateOrder, NotRead, Plan, Row, Sheet, What};
use super::{is_number, read_date, read_moment, split_moment, without_unit};
use crate::measure::letters::in_small;
use crate::measure::{DecimalMark, Quantity, Temperature, read_number};

/// Lines that are looked at.
const LINES: usize = 400;
/// Delimiters, the least likely to stand within a number first.
const DELIMITERS: [char; 4] = ['\t', ';', '|', ','];
/// So many of a hundred rows must agree.
const MOST_ROWS_OF_100: usize = 70;

/// Guesses how a file is to be read.
///
/// # Errors
/// Where it has no days or no numbers.
pub fn guess(sheet: &Sheet) -> Result<Plan, NotRead> {
    let sheet = sheet.beginning(LINES);
    let mut last = NotRead::NoDays;
    for delimiter in DELIMITERS {
        let rows = sheet.rows(delimiter);
        match guess_with(&rows, delimiter) {
            Ok(plan) => return Ok(plan),
            Err(NotRead::NoReadings) => last = NotRead::NoReadings,
            Err(_) => {}
        }
    }
    Err(last)
}

fn guess_with(rows: &[Row], delimiter: char) -> Result<Plan, NotRead> {
    let width = rows.iter().map(|row| row.cells.len()).max().unwrap_or(0);
    let (day, heading_rows) = find_days(rows, width).ok_or(NotRead::NoDays)?;
    let (heads, body) = rows.split_at(heading_rows);
    let day_has_time = mostly(body, day, |cell| {
        read_moment(split_moment(cell).1).is_some()
    });
    let time = (0..width)
        .filter(|place| *place != day && !day_has_time)
        .find(|place| mostly(body, *place, |cell| read_moment(cell).is_some()));
    let decimal = guess_decimal(body, day, delimiter);
    let free = |place: &usize| *place != day && Some(*place) != time;
    let mut columns: Vec<Column> = (0..width)
        .filter(free)
        .filter(|place| holds_numbers(body, *place))
        .filter(|place| !counts_rows(body, *place))
        .map(|place| guess_column(heads, body, place))
        .collect();
    if columns.is_empty() {
        return Err(NotRead::NoReadings);
    }
    settle(&mut columns);
    Ok(Plan {
        delimiter,
        decimal,
        order: guess_order(body, day),
        heading_rows,
        day,
        time,
        columns,
    })
}

/// The column with the most days, which holds hardly anything else once they begin, and the row in
/// which they begin.
fn find_days(rows: &[Row], width: usize) -> Option<(usize, usize)> {
    let dated = |row: &Row, place| is_date(split_moment(cell(row, place)).0);
    let mut best: Option<(usize, usize, usize)> = None;
    for place in 0..width {
        let Some(first) = rows.iter().position(|row| dated(row, place)) else {
            continue;
        };
        let body = rows.get(first..).unwrap_or_default();
        let many = body.iter().filter(|row| dated(row, place)).count();
        let enough = many * 100 >= body.len() * MOST_ROWS_OF_100;
        if enough && best.is_none_or(|(most, ..)| many > most) {
            best = Some((many, place, first));
        }
    }
    best.map(|(_, place, first)| (place, first))
}

fn cell(row: &Row, place: usize) -> &str {
    row.cells.get(place).map_or("", |cell| cell.trim())
}

/// Whether most of the rows agree in a column.
fn mostly(rows: &[Row], place: usize, agrees: impl Fn(&str) -> bool) -> bool {
    let agree = rows.iter().filter(|row| agrees(cell(row, place))).count();
    agree > 0 && agree * 100 >= rows.len() * MOST_ROWS_OF_100
}

fn is_date(text: &str) -> bool {
    const ORDERS: [DateOrder; 3] = [
        DateOrder::DayFirst,
        DateOrder::MonthFirst,
        DateOrder::YearFirst,
    ];
    ORDERS.iter().any(|order| read_date(text, *order).is_some())
}

/// The order in which most dates can be read; of two alike the one in which they follow each other
/// most closely; and the day first if that does not settle it either.
fn guess_order(rows: &[Row], day: usize) -> DateOrder {
    let judge = |order: DateOrder| {
        let days: Vec<i64> = rows
            .iter()
            .filter_map(|row| read_date(split_moment(cell(row, day)).0, order))
            .map(|day| i64::from(day.number()))
            .collect();
        let steps = days.windows(2).map(|pair| (pair[1] - pair[0]).abs());
        (rows.len() - days.len(), steps.sum::<i64>())
    };
    [
        DateOrder::DayFirst,
        DateOrder::MonthFirst,
        DateOrder::YearFirst,
    ]
    .into_iter()
    .min_by_key(|order| judge(*order))
    .unwrap_or(DateOrder::DayFirst)
}

/// The comma, if more numbers have one before their last digits than have a point.
fn guess_decimal(rows: &[Row], day: usize, delimiter: char) -> DecimalMark {
    let with = |mark: char| {
        let cells = rows.iter().flat_map(|row| {
            let cells = row.cells.iter().enumerate();
            cells.filter(|(place, _)| *place != day)
        });
        let numbers = cells.filter(|(_, cell)| {
            let parts = without_unit(cell.trim()).rsplit_once(mark);
            parts.is_some_and(|(whole, decimals)| is_number(whole) && is_number(decimals))
        });
        numbers.count()
    };
    if delimiter != ',' && with(',') > with('.') {
        DecimalMark::Comma
    } else {
        DecimalMark::Point
    }
}

/// Whether at least half of what stands in a column are numbers.
fn holds_numbers(rows: &[Row], place: usize) -> bool {
    let filled = || {
        rows.iter()
            .map(|row| cell(row, place))
            .filter(|cell| !cell.is_empty())
    };
    let numbers = filled().filter(|cell| is_number(cell)).count();
    numbers > 0 && numbers * 2 >= filled().count()
}

/// Whether a column only counts its rows.
fn counts_rows(rows: &[Row], place: usize) -> bool {
    let numbers: Vec<f64> = rows
        .iter()
        .filter_map(|row| read_number(cell(row, place), DecimalMark::Point).ok())
        .collect();
    const ENOUGH: usize = 4;
    numbers.len() >= ENOUGH
        && numbers
            .windows(2)
            .all(|pair| pair[1] - pair[0] == 1.0 && pair[0].fract() == 0.0)
}

/// Words of a heading, in small letters, and what they tell. Common practice, no source.
const HEADINGS: [(&str, Option<What>); 21] = [
    ("dew", None),
    ("batt", None),
    ("volt", None),
    ("press", None),
    ("light", None),
    ("lux", None),
    ("signal", None),
    ("hum", Some(What::Humidity)),
    ("rh", Some(What::Humidity)),
    ("feucht", Some(What::Humidity)),
    ("min", Some(What::Minimum)),
    ("max", Some(What::Maximum)),
    ("low", Some(What::Minimum)),
    ("high", Some(What::Maximum)),
    ("out", Some(What::Outside)),
    ("soil", Some(What::Root)),
    ("root", Some(What::Root)),
    ("bed", Some(What::Bed)),
    ("water", Some(What::Water)),
    ("air", Some(What::Air)),
    ("temp", Some(What::Air)),
];

fn guess_column(heads: &[Row], body: &[Row], place: usize) -> Column {
    // The nearest heading counts; above it there may be lines about the instrument.
    let heading = heads
        .iter()
        .rev()
        .map(|row| cell(row, place))
        .find(|cell| !cell.is_empty())
        .unwrap_or_default();
    let small = in_small(heading);
    let known = HEADINGS.iter().find(|(word, _)| small.contains(word));
    let ends = |signs: &[char]| {
        let mut cells = body.iter().map(|row| cell(row, place));
        cells.any(|cell| cell.ends_with(signs))
    };
    let what = match known {
        Some((_, what)) => *what,
        None if small.contains('%') || ends(&['%']) => Some(What::Humidity),
        None => Some(What::Air),
    };
    let fahrenheit = ["°f", "(f)", "[f]", "deg f", "fahrenheit", "℉", "_f"]
        .iter()
        .any(|sign| small.contains(sign))
        || ends(&['F', '℉']);
    let unit = match what {
        Some(What::Humidity) => "%",
        _ if fahrenheit => Temperature::DEGREE_FAHRENHEIT.key,
        _ => Temperature::UNITS[0].key,
    };
    Column {
        place,
        heading: heading.to_owned(),
        what,
        unit: unit.to_owned(),
    }
}

/// Of two columns of the same the first is taken; the other can be chosen by hand.
fn settle(columns: &mut [Column]) {
    let mut seen = Vec::new();
    for column in columns.iter_mut() {
        if seen.contains(&column.what) {
            column.what = None;
        }
        seen.push(column.what);
    }
}
