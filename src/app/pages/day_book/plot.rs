//! Minima and maxima of the place chosen, over the days shown.

use leptos::prelude::*;

use super::entered::Shown;
use super::{Book, say};
use crate::app::live::{hidden, inside};
use crate::app::markup::Markup;
use crate::app::plots::nights::{Night, coldest, hottest, nights_plot, nights_table};
use crate::measure::{DecimalMark, print::rounded};
use crate::measure::{Temperature, Unit, with_unit, write_number};
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Id, Record};

/// Ids of what is live here.
const SECTION: &str = "plot";
const HEAD: &str = "plot-head";
const WORDS: &str = "plot-words";
const DRAWN: &str = "plot-drawn";
const TABLE: &str = "plot-table";

pub(super) fn write(markup: &mut Markup) {
    markup.within(
        "section",
        &[
            ("class", "slip-card"),
            ("id", SECTION),
            ("aria-labelledby", HEAD),
            ("hidden", ""),
        ],
        &mut |section| {
            section
                .element("h2", &[("id", HEAD)], "Minima and maxima")
                .element("p", &[("id", WORDS), ("class", "advice")], "")
                .mark("div", &[("id", DRAWN), ("class", "drawing")])
                .within("details", &[("class", "behind")], &mut |behind| {
                    behind
                        .element("summary", &[], "The drawing as a table")
                        .mark("div", &[("id", TABLE)]);
                });
        },
    );
}

/// What is drawn.
#[derive(Clone, PartialEq)]
struct Drawn {
    name: String,
    nights: Vec<Night>,
    unit: &'static str,
    mark: DecimalMark,
}

pub(super) fn open(book: Book, shown: Shown) {
    let drawn = RwSignal::new(None::<Drawn>);
    crate::app::live::keep(move || {
        let (today, place) = (book.today(), Id::read(&book.place.get()));
        let mark = book.stored.settings().decimal;
        let now = book.ledger.read(|record| {
            let place = place?;
            let (nights, unit) = nights_of(record, place, shown.range(record, today));
            Some(Drawn {
                name: record.name_of(place),
                nights,
                unit,
                mark,
            })
        });
        if drawn.with_untracked(|before| *before != now) {
            drawn.set(now);
        }
    });
    let read = move |write: fn(&Drawn) -> String| {
        move || drawn.with(|drawn| drawn.as_ref().map(write).unwrap_or_default())
    };
    // One night is a line of words, and no course.
    hidden(SECTION, move || {
        drawn.with(|drawn| drawn.as_ref().is_none_or(|drawn| drawn.nights.len() < 2))
    });
    inside(
        HEAD,
        read(|drawn| {
            let mut markup = Markup::new();
            markup.text("Minima and maxima: ").text(&drawn.name);
            markup.done()
        }),
    );
    inside(WORDS, read(|drawn| extremes(drawn, ".")));
    inside(
        DRAWN,
        read(|drawn| {
            let described = extremes(drawn, ".");
            nights_plot(&drawn.nights, unit(drawn), drawn.mark, &described)
        }),
    );
    inside(
        TABLE,
        read(|drawn| nights_table(&drawn.nights, unit(drawn), drawn.mark)),
    );
}

fn unit(drawn: &Drawn) -> &'static Unit {
    say::unit(drawn.unit).unwrap_or(&Temperature::DEGREE_CELSIUS)
}

/// The coldest and the hottest in words.
fn extremes(drawn: &Drawn, end: &str) -> String {
    let told = |value: f64| {
        let number = write_number(rounded(unit(drawn).from_base(value), 3), drawn.mark);
        with_unit(&number, unit(drawn))
    };
    let mut words = String::new();
    for (begin, night) in [
        ("Coldest: ", coldest(&drawn.nights)),
        ("Hottest: ", hottest(&drawn.nights)),
    ] {
        if let Some((day, value)) = night {
            if !words.is_empty() {
                words.push(' ');
            }
            words.push_str(&[begin, &told(value), " on ", &day.told(), end].concat());
        }
    }
    words
}

/// The minimum and maximum of each day; of several readings the lowest and the highest.
fn nights_of(record: &Record, place: Id, [from, to]: [Day; 2]) -> (Vec<Night>, &'static str) {
    let id = place.text();
    let mut nights: Vec<Night> = Vec::new();
    let mut unit = Temperature::DEGREE_CELSIUS.key;
    for thing in record.between(from, to) {
        if thing.kind != "night" || thing.text("place") != id {
            continue;
        }
        let Some(day) = thing.day(DAY) else { continue };
        let (low, high) = (thing.base("low"), thing.base("high"));
        if let Some(typed) = say::unit(thing.entry("low").unit()) {
            unit = typed.key;
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
