//! A month of the day book on paper.

use leptos::prelude::*;
use web_sys::{Element, HtmlInputElement};

use super::{Book, say};
use crate::app::live::{element, heard_on, hidden, inside, pressed};
use crate::app::markup::Markup;
use crate::nursery::day::{days_of_month, month_name};
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Record};

/// Ids of what is live here.
const PART: &str = "paper-part";
const MONTH: &str = "paper-month";
const PRINT: &str = "paper-print";
const SHEET: &str = "paper";

/// Most months to choose from.
const MOST: usize = 120;

pub(super) fn write(markup: &mut Markup) {
    markup.within(
        "section",
        &[
            ("class", "takeaway"),
            ("id", PART),
            ("aria-label", "On paper"),
        ],
        &mut |part| {
            part.element("label", &[("for", MONTH)], "A month on paper")
                .mark("select", &[("id", MONTH)])
                .element(
                    "button",
                    &[("type", "button"), ("class", "quiet"), ("id", PRINT)],
                    "Print the month",
                );
        },
    );
}

/// The place of what is printed.
pub(super) fn write_sheet(markup: &mut Markup) {
    markup.mark("div", &[("id", SHEET), ("class", "day-paper")]);
}

pub(super) fn open(book: Book) {
    hidden(PART, move || {
        book.ledger.read(|record| record.logs().next().is_none())
    });
    inside(MONTH, move || {
        let today = book.today();
        let first = book
            .ledger
            .read(|record| record.logs().next().and_then(|log| log.day(DAY)))
            .unwrap_or(today);
        let mut markup = Markup::new();
        let mut day = today;
        for _ in 0..MOST {
            markup.element("option", &[("value", &day.iso())], &name(day));
            let (.., date) = day.civil();
            day = day.plus(-(date as i32));
            if day < first {
                break;
            }
        }
        markup.done()
    });
    pressed(PRINT, move || {
        let chosen = element::<Element>(MONTH)
            .map(|select| wasm_bindgen::JsCast::unchecked_into::<HtmlInputElement>(select).value());
        let day = chosen.and_then(|iso| Day::from_iso(&iso));
        if let (Some(day), Some(sheet)) = (day, element::<Element>(SHEET)) {
            sheet.set_inner_html(&book.ledger.read(|record| month(record, day)));
            let _ = window().print();
        }
    });
    // Whoever prints the page next prints the page.
    heard_on(
        &window(),
        "afterprint",
        Box::new(|_| {
            if let Some(sheet) = element::<Element>(SHEET) {
                sheet.set_inner_html("");
            }
        }),
    );
}

/// `May 2026`.
fn name(day: Day) -> String {
    let (year, month, _) = day.civil();
    [month_name(month), " ", &year.to_string()].concat()
}

/// The month in which a day lies, by day.
fn month(record: &Record, day: Day) -> String {
    let (year, month, date) = day.civil();
    let first = day.plus(1 - date as i32);
    let last = first.plus(days_of_month(year, month) as i32 - 1);
    let logs: Vec<_> = record.between(first, last).collect();
    let mut markup = Markup::new();
    markup.element("h1", &[], &["Day book, ", &name(day)].concat());
    if logs.is_empty() {
        markup.element("p", &[], "Nothing was entered in this month.");
    }
    markup.table("", "", &["Day", "What was entered"], &mut |rows| {
        for of_day in logs.chunk_by(|one, other| one.text(DAY) == other.text(DAY)) {
            let head = of_day
                .first()
                .and_then(|log| log.day(DAY))
                .map(say::whole_day);
            rows.within("tr", &[], &mut |row| {
                row.element(
                    "th",
                    &[("scope", "row")],
                    head.as_deref().unwrap_or_default(),
                )
                .within("td", &[], &mut |cell| {
                    for log in of_day {
                        cell.element("div", &[], &say::line(record, log));
                    }
                });
            });
        }
    });
    markup.done()
}
