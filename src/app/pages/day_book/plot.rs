//! Minima and maxima of the place chosen, over the days shown.

use leptos::prelude::Get;

use super::entered::Shown;
use super::{Book, say};
use crate::app::live::inside;
use crate::app::markup::Markup;
use crate::app::plots::nights::{Night, coldest, hottest, nights_plot, nights_table};
use crate::measure::{DecimalMark, print::rounded};
use crate::measure::{Temperature, Unit, with_unit, write_number};
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Id, Record};

/// Id of what is live here, and of its heading.
const PLOT: &str = "plot";
const HEAD: &str = "plot-head";

pub(super) fn write(markup: &mut Markup) {
    markup.mark("div", &[("id", PLOT)]);
}

pub(super) fn open(book: Book, shown: Shown) {
    inside(PLOT, move || {
        let (today, place) = (book.today(), Id::read(&book.place.get()));
        let mark = book.stored.settings().decimal;
        book.ledger.read(|record| {
            place.map_or_else(String::new, |place| {
                let (nights, unit) = nights_of(record, place, shown.range(record, today));
                drawn(&record.name_of(place), &nights, unit, mark)
            })
        })
    });
}

fn drawn(name: &str, nights: &[Night], unit: &Unit, mark: DecimalMark) -> String {
    let words = extremes(nights, unit, mark);
    let drawing = nights_plot(nights, unit, mark, &words);
    let mut markup = Markup::new();
    // One night is a line of words, and no course.
    if drawing.is_empty() {
        return markup.done();
    }
    let section = [("class", "slip-card"), ("aria-labelledby", HEAD)];
    markup.within("section", &section, &mut |section| {
        section
            .element(
                "h2",
                &[("id", HEAD)],
                &["Minima and maxima: ", name].concat(),
            )
            .element("p", &[("class", "advice")], &words)
            .within("div", &[("class", "drawing")], &mut |place| {
                place.written(&drawing);
            })
            .within("details", &[("class", "behind")], &mut |behind| {
                behind
                    .element("summary", &[], "The drawing as a table")
                    .written(&nights_table(nights, unit, mark));
            });
    });
    markup.done()
}

/// The coldest and the hottest in words.
fn extremes(nights: &[Night], unit: &Unit, mark: DecimalMark) -> String {
    let mut words = String::new();
    for (begin, night) in [
        ("Coldest: ", coldest(nights)),
        (" Hottest: ", hottest(nights)),
    ] {
        if let Some((day, value)) = night {
            let number = write_number(rounded(unit.from_base(value), 3), mark);
            let told = with_unit(&number, unit);
            words.push_str(&[begin, &told, " on ", &day.told(), "."].concat());
        }
    }
    words
}

/// The minimum and maximum of each day; of several readings the lowest and the highest.
fn nights_of(record: &Record, place: Id, [from, to]: [Day; 2]) -> (Vec<Night>, &'static Unit) {
    let id = place.text();
    let mut nights: Vec<Night> = Vec::new();
    let mut unit = &Temperature::DEGREE_CELSIUS;
    for thing in record.between(from, to) {
        if thing.kind != "night" || thing.text("place") != id {
            continue;
        }
        let Some(day) = thing.day(DAY) else { continue };
        let (low, high) = (thing.base("low"), thing.base("high"));
        if let Some(typed) = say::unit(thing.entry("low").unit()) {
            unit = typed;
        }
        match nights.last_mut() {
            Some(last) if last.day == day => {
                last.low = lower(last.low, low, f64::min);
                last.high = lower(last.high, high, f64::max);
            }
            _ => nights.push(Night { day, low, high }),
        }
    }
    (nights, unit)
}

fn lower(one: Option<f64>, other: Option<f64>, of: fn(f64, f64) -> f64) -> Option<f64> {
    match (one, other) {
        (Some(one), Some(other)) => Some(of(one, other)),
        _ => one.or(other),
    }
}
