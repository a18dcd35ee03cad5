//! The record as it stands: days against the calendar, kinds that hold together, and what does not
//! make sense said in a sentence.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::collections::HashSet;

use longtom::handbook::bed_media::BED_MEDIA;
use longtom::handbook::pots::pot;
use longtom::handbook::thresholds::LIMITS;
use longtom::measure::{
    Area, DecimalMark, HeatDensity, Length, Mass, Temperature, Volume, read_number,
};
use longtom::nursery::bay::bay_here;
use longtom::nursery::check::{Problem, check, field_problem};
use longtom::nursery::day::{days_of_month, read_time, time_text};
use longtom::nursery::kinds::{Book, DAY, INSIDE, NAME, Takes, all, kind};
use longtom::nursery::search::{search, search_standing};
use longtom::nursery::sense::{all_problems, problems};
use longtom::nursery::tell::{label, plain_number, told};
use longtom::nursery::vessel::{bay_carries, in_handbook, material_here, pot_here, tray_here};
use longtom::nursery::{Day, DayProblem, Finder, Id, Mark, Record, Texts, Thing, Wanted};
use proptest::prelude::*;

fn id(number: u32) -> Id {
    Id {
        number,
        mark: Mark::read("k3fq").unwrap(),
        salt: 7,
    }
}

fn day(text: &str) -> Day {
    Day::from_iso(text).unwrap()
}

fn thing(number: u32, kind: &str, pairs: &[(&str, &str)]) -> Thing {
    Thing::new(id(number), kind, Texts::of(pairs.iter().copied()))
}

/// A house, two bays, a bench in a bay, and a batch that was moved.
fn nursery() -> Record {
    let mut record = Record::default();
    let (north, east, west, bench) = (id(1).text(), id(2).text(), id(3).text(), id(4).text());
    for thing in [
        thing(1, "house", &[("name", "North"), ("cover", "glass")]),
        thing(
            2,
            "bay",
            &[("name", "East"), ("inside", &north), ("standing", "raised")],
        ),
        thing(
            3,
            "bay",
            &[("name", "West"), ("inside", &north), ("standing", "floor")],
        ),
        thing(
            4,
            "bay",
            &[
                ("name", "Bench"),
                ("inside", &east),
                ("standing", "heated_bench"),
            ],
        ),
        thing(
            5,
            "batch",
            &[
                ("name", "Parsley 1"),
                ("crop", "parsley"),
                ("sown", "2026-03-01"),
                ("inside", &bench),
            ],
        ),
        thing(
            6,
            "stage",
            &[
                ("day", "2026-04-10"),
                ("batch", &id(5).text()),
                ("what", "moved"),
                ("to", &west),
            ],
        ),
        thing(
            7,
            "night",
            &[
                ("day", "2026-05-03"),
                ("place", &north),
                ("low", "6 degC"),
                ("high", "31 degC"),
            ],
        ),
        thing(
            8,
            "note",
            &[
                ("day", "2026-05-04"),
                ("place", &bench),
                ("notes", "Slugs again"),
            ],
        ),
        thing(9, "note", &[("day", "2026-05-05"), ("notes", "Ganz naß")]),
    ] {
        record.put(thing);
    }
    record
}

fn sentences(found: &[Problem]) -> Vec<(&str, &str)> {
    found
        .iter()
        .map(|problem| (problem.field.as_str(), problem.sentence.as_str()))
        .collect()
}

mod days {
    use super::*;

    /// The examples of ISO 8601:2004, 4.1.4 and 3.2.2, and well-known days: 1 January 2000 was a
    /// Saturday; the Unix epoch (IEEE Std 1003.1, 4.16) a Thursday.
    #[test]
    fn known_days() {
        assert_eq!(Day::from_civil(1970, 1, 1).unwrap().number(), 0);
        // IEEE Std 1003.1 (2017), 4.16: the formula for seconds since the epoch, over 86 400, for
        // 1 January of a year y (counted from 1900) is
        // (y-70)*365 + (y-69)/4 - (y-1)/100 + (y+299)/400.
        for year in 1970..=2199 {
            let y = year - 1900;
            let days = (y - 70) * 365 + (y - 69) / 4 - (y - 1) / 100 + (y + 299) / 400;
            assert_eq!(
                Day::from_civil(year, 1, 1).unwrap().number(),
                days,
                "{year}"
            );
        }
        assert_eq!(day("1970-01-01").weekday(), 4);
        assert_eq!(day("2000-01-01").weekday(), 6);
        // ISO 8601:2004, 4.1.4.2: 12 April 1985 is a Friday of week 15.
        assert_eq!(
            (day("1985-04-12").weekday(), day("1985-04-12").week()),
            (5, (1985, 15))
        );
        // ISO 8601:2004, 3.2.2, example: 1995-01-01 belongs to 1994-W52, 1996-12-31 to 1997-W01.
        assert_eq!(day("1995-01-01").week(), (1994, 52));
        assert_eq!(day("1996-12-31").week(), (1997, 1));
        // Years of 53 weeks: those that begin on a Thursday, and leap years that begin on a
        // Wednesday (ISO 8601 follows from its definition).
        for year in 1900..=2198 {
            let first = Day::from_civil(year, 1, 1).unwrap().weekday();
            let leap = days_of_month(year, 2) == 29;
            let long = first == 4 || (leap && first == 3);
            let last = Day::from_civil(year, 12, 28).unwrap().week().1;
            assert_eq!(last, if long { 53 } else { 52 }, "{year}");
        }
    }

    /// The rule of the Gregorian calendar (bull "Inter gravissimas", 1582): a leap year each fourth,
    /// but not each hundredth, but each four hundredth.
    #[test]
    fn leap_years() {
        for (year, days) in [
            (1900, 28),
            (1904, 29),
            (2000, 29),
            (2024, 29),
            (2026, 28),
            (2100, 28),
        ] {
            assert_eq!(days_of_month(year, 2), days, "{year}");
        }
        assert_eq!(Day::from_civil(2026, 2, 29), None);
        assert!(Day::from_civil(2028, 2, 29).is_some());
    }

    #[test]
    fn days_follow_each_other() {
        let mut before = Day::from_civil(1900, 1, 1).unwrap();
        assert_eq!(before.civil(), (1900, 1, 1));
        for _ in 0..100_000 {
            let after = before.plus(1);
            let (year, month, date) = before.civil();
            let expected = if date < days_of_month(year, month) {
                (year, month, date + 1)
            } else if month < 12 {
                (year, month + 1, 1)
            } else {
                (year + 1, 1, 1)
            };
            assert_eq!(after.civil(), expected);
            assert_eq!(
                Day::from_civil(expected.0, expected.1, expected.2),
                Some(after)
            );
            assert_eq!(after.weekday(), before.weekday() % 7 + 1);
            before = after;
        }
    }

    #[test]
    fn days_as_they_are_typed() {
        for text in [
            "2026-05-03",
            "3.5.2026",
            "03.05.2026",
            "3/5/2026",
            "3-5-2026",
            " 3. 5. 2026 ",
            "3 May 2026",
            "3 may 2026",
            "2026/5/3",
            "2026.05.03",
        ] {
            assert_eq!(Day::read(text), Ok(day("2026-05-03")), "{text}");
        }
        assert_eq!(day("2026-05-03").told(), "3 May 2026");
        assert_eq!(day("2026-05-03").iso(), "2026-05-03");
        assert_eq!(day("2026-05-03").month(), "2026-05");
    }

    #[test]
    fn silly_days_are_refused_with_what_would_be_right() {
        for (text, sentence) in [
            (
                "31.2.2026",
                "February 2026 has no day 31. A day from 1 to 28 would be right.",
            ),
            (
                "29/2/2026",
                "February 2026 has no day 29. A day from 1 to 28 would be right.",
            ),
            (
                "2026-04-31",
                "April 2026 has no day 31. A day from 1 to 30 would be right.",
            ),
            (
                "0.5.2026",
                "May 2026 has no day 0. A day from 1 to 31 would be right.",
            ),
            (
                "5/13/2026",
                "5/13/2026 has the month first. Write the day first: 13 May 2026.",
            ),
            (
                "13/13/2026",
                "There is no month 13. Write the day, then a month from 1 to 12.",
            ),
            (
                "3.5.26",
                "Write the year of 3.5.26 with four digits, such as 2026.",
            ),
            (
                "3.5.0026",
                "The year 26 is too far away. A year from 1900 to 2199 would be right.",
            ),
            (
                "soon",
                "“soon” is not a day. Write one such as 3.5.2026 or 2026-05-03.",
            ),
            ("", "Write a day, such as 3.5.2026."),
        ] {
            assert_eq!(Day::read(text).unwrap_err().to_string(), sentence, "{text}");
        }
        assert!(matches!(
            Day::read("1 2 3 4"),
            Err(DayProblem::NotADay { .. })
        ));
    }

    #[test]
    fn times_of_day() {
        assert_eq!(read_time("7:40"), Some(460));
        assert_eq!(read_time("19.05"), Some(19 * 60 + 5));
        for text in ["24:00", "7:60", "740", "7:4", "-1:00", "", "7:40:10"] {
            assert_eq!(read_time(text), None, "{text}");
        }
        assert_eq!(time_text(460), "07:40");
    }

    proptest! {
        #[test]
        fn every_day_reads_back(number in -25_567..84_000i32) {
            let day = Day::from_number(number);
            prop_assert_eq!(Day::from_iso(&day.iso()), Some(day));
            prop_assert_eq!(Day::read(&day.told()), Ok(day));
        }

        #[test]
        fn whatever_is_typed_is_a_day_or_a_sentence(text in "\\PC{0,20}|[0-9./ -]{0,14}") {
            if let Err(problem) = Day::read(&text) {
                prop_assert!(problem.to_string().ends_with('.'));
            }
        }
    }
}

mod ids {
    use super::*;

    #[test]
    fn every_id_has_one_text() {
        for text in [
            "k3fq.812.a2b4",
            "a.0.0",
            "file.4294967295.3zzzzzz",
            "12345678.1.z",
        ] {
            assert_eq!(Id::read(text).unwrap().text(), text);
        }
        for text in [
            "",
            "k3fq",
            "k3fq.1",
            "k3fq.01.a",
            "k3fq.1.0a",
            "K3fq.1.a",
            "k3fq.1.a.b",
            "123456789.1.a",
            ".1.a",
            "k3fq..a",
            "k3fq.1.",
            "k3fq.4294967296.a",
            "k3fq.1.i",
            "k3fq.1.4000000",
            "k3fq.+1.a",
        ] {
            assert_eq!(Id::read(text), None, "{text}");
        }
    }

    #[test]
    fn marks_of_new_devices_are_marks() {
        for random in [0, 1, u64::MAX, 0x0123_4567_89ab_cdef] {
            let mark = Mark::from_random(random);
            assert_eq!(mark.to_string().len(), 6);
            assert_eq!(Mark::read(&mark.to_string()), Some(mark));
        }
    }

    proptest! {
        #[test]
        fn ids_come_back(number: u32, salt: u32, mark in "[0-9a-z]{1,8}") {
            let id = Id { number, salt, mark: Mark::read(&mark).unwrap() };
            prop_assert_eq!(Id::read(&id.text()), Some(id));
        }

        #[test]
        fn marks_sort_as_their_texts_do(a in "[0-9a-z]{1,8}", b in "[0-9a-z]{1,8}") {
            prop_assert_eq!(Mark::read(&a).cmp(&Mark::read(&b)), a.cmp(&b));
        }
    }
}

mod texts {
    use super::*;

    proptest! {
        #[test]
        fn texts_hold_whatever_is_typed(
            pairs in prop::collection::vec(("[a-z:0-9.=]{0,4}|\\PC{0,3}", ".{0,120}"), 0..6),
        ) {
            let texts = Texts::of(pairs.iter().map(|(path, text)| (path.as_str(), text.as_str())));
            for (path, _) in &pairs {
                let last = pairs.iter().rev().find(|(other, _)| other == path).unwrap();
                prop_assert_eq!(texts.get(path), last.1.as_str());
            }
            let paths: Vec<&str> = texts.iter().map(|(path, _)| path).collect();
            prop_assert!(paths.windows(2).all(|pair| pair[0] < pair[1]));
            prop_assert!(texts.iter().all(|(_, text)| !text.is_empty()));
        }
    }

    #[test]
    fn an_emptied_field_is_as_if_it_had_never_been() {
        let texts = Texts::of([("low", "6 degC"), ("high", "31 degC")]);
        assert_eq!(
            texts.clone().with("low", ""),
            Texts::of([("high", "31 degC")])
        );
        assert_eq!(texts.with("low", "7").get("low"), "7");
    }
}

mod kinds {
    use super::*;

    /// The kinds that a nursery's record must be able to hold.
    const WANTED: [&str; 35] = [
        "place",
        "house",
        "bay",
        "tray",
        "pot",
        "instrument",
        "material",
        "stock",
        "mix",
        "price",
        "tariff",
        "crop",
        "seed_lot",
        "batch",
        "stage",
        "plan",
        "night",
        "reading",
        "humidity",
        "forecast",
        "watered",
        "fed",
        "tank",
        "count",
        "treated",
        "bought",
        "cut",
        "sold",
        "note",
        "test",
        "fit",
        "card",
        "look",
        "verdict",
        "outcome",
    ];

    #[test]
    fn every_kind_is_there_once() {
        let keys: Vec<&str> = all().map(|kind| kind.key).collect();
        assert_eq!(keys, WANTED);
    }

    #[test]
    fn every_kind_holds_together() {
        for one in all() {
            let mut seen = HashSet::new();
            for field in one.fields {
                let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
                assert!(field.key.chars().all(plain), "{} {}", one.key, field.key);
                assert!(seen.insert(field.key), "{} {} twice", one.key, field.key);
                assert!(!field.label.is_empty() && !field.label.ends_with('.'));
                holds_together(one.key, &field.takes);
                if let Takes::Rows(fields) = field.takes {
                    for within in fields {
                        holds_together(one.key, &within.takes);
                        assert!(!matches!(within.takes, Takes::Rows(_)), "rows in rows");
                        let path = [field.key, ".0.", within.key].concat();
                        assert!(std::ptr::eq(one.field(&path).unwrap(), within));
                    }
                }
            }
            assert_eq!(one.is_log, one.field(DAY).is_some(), "{}", one.key);
            assert!(one.is_log != one.field(NAME).is_some(), "{}", one.key);
            for (low, high) in one.ordered {
                assert!(
                    one.field(low).is_some() && one.field(high).is_some(),
                    "{low} {high}"
                );
            }
            for after in one.after {
                assert!(matches!(one.field(after.day).unwrap().takes, Takes::Day));
                let other = match one.field(after.link).unwrap().takes {
                    Takes::One([other]) => kind(other).unwrap(),
                    _ => panic!("{}: a day comes after that of one kind", one.key),
                };
                assert!(matches!(
                    other.field(after.other_day).unwrap().takes,
                    Takes::Day
                ));
            }
            assert_eq!(kind(one.key).unwrap().key, one.key);
        }
        assert!(kind("glasshouse_cat").is_none());
    }

    fn holds_together(of: &str, takes: &Takes) {
        match takes {
            Takes::Number(amount) => {
                assert!(amount.units.iter().any(|unit| unit == amount.unit), "{of}");
                assert!(amount.low < amount.high && amount.step > 0.0, "{of}");
            }
            Takes::Choice(choices) => {
                let keys: HashSet<_> = choices.iter().map(|(key, _)| key).collect();
                assert_eq!(keys.len(), choices.len(), "{of}");
            }
            Takes::One(kinds) => kinds
                .iter()
                .for_each(|key| assert!(kind(key).is_some(), "{key}")),
            Takes::Handbook(book) => assert!(kind(book.own()).is_some()),
            _ => {}
        }
    }

    /// A mix of the record is for what a mix of the handbook's limits is for.
    #[test]
    fn purposes_are_those_of_the_handbook() {
        let Takes::Choice(choices) = kind("mix").unwrap().field("purpose").unwrap().takes else {
            panic!("a choice");
        };
        let keys: Vec<&str> = choices.iter().map(|(key, _)| *key).collect();
        let limits: Vec<&str> = LIMITS.iter().map(|limits| limits.key).collect();
        assert_eq!(keys, limits);
    }
}

mod things {
    use super::*;

    #[test]
    fn fields_are_read_through_their_kind() {
        let night = thing(
            1,
            "night",
            &[
                ("day", "2026-05-03"),
                ("place", "k3fq.1.7"),
                ("low", "43 degF"),
                ("high", "2 L"),
            ],
        );
        let low: Temperature = night.number("low").unwrap();
        // 43 °F = (43 - 32) × 5/9 °C, by the definition of the scale.
        assert!((low.in_celsius() - 11.0 * 5.0 / 9.0).abs() < 1e-12);
        assert_eq!(night.number::<Length>("low"), None, "another quantity");
        assert_eq!(night.number::<Temperature>("high"), None, "another unit");
        assert_eq!(night.day("day"), Some(day("2026-05-03")));
        assert_eq!(night.one("place"), Some(id(1)));
        assert_eq!(night.entry("low").unit(), "degF");
        let bay = thing(
            2,
            "bay",
            &[
                ("heat", "150 W/m2"),
                ("area", "12 m2"),
                ("standing", "raised"),
                ("cover", "tin"),
            ],
        );
        assert_eq!(
            bay.number::<HeatDensity>("heat")
                .unwrap()
                .in_watts_per_square_metre(),
            150.0
        );
        assert_eq!(bay.number::<Area>("area").unwrap().in_square_metres(), 12.0);
        assert_eq!(
            (bay.choice("standing"), bay.choice("cover")),
            (Some("raised"), None)
        );
        let cut = thing(3, "cut", &[("weight", "1 lb")]);
        assert_eq!(cut.number::<Mass>("weight").unwrap().in_pounds(), 1.0);
    }

    #[test]
    fn rows_come_in_order_whatever_is_missing() {
        let mix = thing(
            1,
            "mix",
            &[
                ("parts.10.amount", "1"),
                ("parts.2.amount", "3"),
                ("parts.2.material", "perlite_coarse"),
                ("parts.12k3fq.amount", "1"),
                ("parts.12a.amount", "1"),
                ("others.1.amount", "1"),
            ],
        );
        assert_eq!(mix.rows("parts"), ["2", "10", "12a", "12k3fq"]);
    }

    #[test]
    fn what_does_not_make_sense_is_said_at_its_field() {
        let night = |pairs: &[(&str, &str)]| {
            let night = thing(1, "night", pairs);
            check(kind("night").unwrap(), &night)
        };
        let place = ("place", "k3fq.1.7");
        assert_eq!(
            sentences(&night(&[
                ("day", "2026-05-03"),
                place,
                ("low", "31 degC"),
                ("high", "6 degC")
            ])),
            [(
                "low",
                "Minimum is above “maximum”. Perhaps the two are the wrong way round."
            )]
        );
        // By their quantities, not by their digits.
        assert!(
            night(&[
                ("day", "2026-05-03"),
                place,
                ("low", "6 degC"),
                ("high", "50 degF")
            ])
            .is_empty()
        );
        assert_eq!(
            night(&[
                ("day", "2026-05-03"),
                place,
                ("low", "6 degC"),
                ("high", "40 degF")
            ])
            .len(),
            1
        );
        assert_eq!(
            sentences(&night(&[
                ("day", "31.2.2026"),
                ("low", "-300 degC"),
                ("high", "warm")
            ])),
            [
                (
                    "day",
                    "February 2026 has no day 31. A day from 1 to 28 would be right."
                ),
                ("place", "Where is needed here."),
                (
                    "low",
                    "Minimum: -300\u{a0}°C is too little. Between \u{2212}40 and 60\u{a0}°C would be right."
                ),
                (
                    "high",
                    "“warm” is not a number. Write one such as 12, 2.5 or 2 1/2."
                ),
            ]
        );
        let field = |of: &str, path: &str, text: &str| {
            field_problem(kind(of).unwrap().field(path).unwrap(), text)
        };
        assert_eq!(
            field("bay", "standing", "up high").unwrap(),
            "“up high” is not one of these: on the floor, raised, on a bench or on a heated bench."
        );
        assert_eq!(
            field("tariff", "night_from", "25:00").unwrap(),
            "“25:00” is not a time of day. Write one such as 7:40 or 19:05."
        );
        assert!(field("mix", "pot", "round_10_cm").is_none());
        assert!(field("mix", "pot", "bucket").is_some());
        assert!(field("cut", "bunches", "2.5").is_some(), "half a bunch");
        assert!(field("mix", "parts.0.amount", "").is_some());
    }

    #[test]
    fn orders_hold_for_days_too() {
        let plan = thing(
            1,
            "plan",
            &[
                ("name", "Chives"),
                ("sow_on", "2026-05-03"),
                ("ready_by", "2026-04-03"),
            ],
        );
        let found = check(kind("plan").unwrap(), &plan);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].field, "sow_on");
    }
}

mod records {
    use super::*;

    #[test]
    fn things_are_found_by_kind_place_and_day() {
        let record = nursery();
        let names = |things: Vec<&Thing>| {
            let names: Vec<String> = things
                .iter()
                .map(|thing| record.name_of(thing.id))
                .collect();
            names
        };
        assert_eq!(
            names(record.inside("bay", id(1)).collect()),
            ["East", "West"]
        );
        assert_eq!(record.within(id(2)), [id(2), id(4)].into_iter().collect());
        assert_eq!(record.within(id(1)).len(), 4);
        assert_eq!(
            names(record.on(day("2026-05-03")).collect()),
            ["minimum and maximum of 3 May 2026"]
        );
        assert_eq!(
            record.between(day("2026-05-03"), day("2026-05-04")).count(),
            2
        );
        assert_eq!(
            record.between(day("2026-05-04"), day("2026-05-03")).count(),
            0
        );
        assert_eq!(
            record
                .about(id(1), day("2026-01-01"), day("2026-12-31"))
                .count(),
            1
        );
        assert_eq!(record.of_kind("note").count(), 2);
        assert_eq!(record.standing().count(), 5);
        assert_eq!(record.logs().count(), 4);
    }

    #[test]
    fn a_batch_stands_where_it_was_last_put() {
        let mut record = nursery();
        assert_eq!(record.batches_in(id(2), day("2026-04-09")).len(), 1);
        assert_eq!(record.batches_in(id(3), day("2026-04-09")).len(), 0);
        assert_eq!(record.batches_in(id(2), day("2026-04-10")).len(), 0);
        assert_eq!(record.batches_in(id(3), day("2026-04-10")).len(), 1);
        assert_eq!(record.batches_in(id(1), day("2026-04-10")).len(), 1);
        let ended = [
            ("day", "2026-06-01"),
            ("batch", &*id(5).text()),
            ("what", "ended"),
        ];
        record.put(thing(10, "stage", &ended));
        assert_eq!(record.batches_in(id(1), day("2026-06-01")).len(), 0);
    }

    #[test]
    fn the_logs_of_a_batch_follow_whatever_becomes_of_them() {
        let (one, other) = (id(5).text(), id(6).text());
        let log = |number, kind, day: &str, batch: &str| {
            thing(number, kind, &[("day", day), ("batch", batch)])
        };
        let mut gone = log(21, "stage", "2026-05-02", &one);
        gone.gone = true;
        let steps = [
            log(20, "stage", "2026-05-03", &one),
            log(21, "stage", "2026-05-02", &one),
            log(22, "sold", "2026-05-03", &one),
            // Such logs do not move or count a batch.
            log(23, "cut", "2026-05-03", &one),
            log(24, "stage", "2026-05-01", &other),
            // Another day, another batch, taken out and put back.
            log(20, "stage", "2026-06-03", &one),
            log(22, "sold", "2026-05-03", &other),
            log(24, "stage", "2026-05-01", "no batch"),
            log(22, "sold", "2026-05-03", &one),
            gone,
            log(21, "stage", "2026-05-02", &one),
            log(25, "stage", "no day", &one),
        ];
        let mut record = nursery();
        let check = |record: &Record| {
            for batch in [id(5), id(6)] {
                for until in ["2026-05-02", "2026-05-03", "2027-01-01"].map(day) {
                    let found: Vec<Id> = record.stages_of(batch, until).map(|log| log.id).collect();
                    let all = record.logs().filter(|log| {
                        ["stage", "sold"].contains(&log.kind.as_ref())
                            && log.one("batch") == Some(batch)
                            && log.day("day").is_none_or(|day| day <= until)
                    });
                    assert_eq!(found, all.map(|log| log.id).collect::<Vec<Id>>());
                }
            }
            assert_eq!(*record, Record::of(record.all().cloned().collect()));
        };
        for step in steps {
            record.put(step);
            check(&record);
        }
        assert!(record.stages_of(id(5), day("2027-01-01")).count() >= 4);
        for number in 20..=25 {
            record.take_out(id(number));
            check(&record);
        }
    }

    #[test]
    fn a_changed_thing_is_found_where_it_is_now() {
        let mut record = nursery();
        record.put(thing(
            8,
            "note",
            &[("day", "2026-07-01"), ("notes", "moved")],
        ));
        assert_eq!(record.on(day("2026-05-04")).count(), 0);
        assert_eq!(record.on(day("2026-07-01")).count(), 1);
        let mut gone = record.get(id(8)).unwrap().clone();
        gone.gone = true;
        record.put(gone);
        assert_eq!(record.on(day("2026-07-01")).count(), 0);
        assert_eq!(record.gone().count(), 1);
        assert_eq!(record.get(id(8)).unwrap().text("notes"), "moved");
        record.take_out(id(8));
        assert_eq!(record.get(id(8)), None);
        assert_eq!(record, {
            let others: Vec<Thing> = record.all().cloned().collect();
            Record::of(others)
        });
    }

    #[test]
    fn a_thing_of_an_unknown_kind_keeps_its_day() {
        let mut record = Record::default();
        record.put(thing(
            1,
            "glasshouse_cat",
            &[("day", "2026-05-03"), ("mood", "fine")],
        ));
        record.put(thing(2, "glasshouse_cat", &[("name", "Tom")]));
        assert_eq!(record.on(day("2026-05-03")).count(), 1);
        assert_eq!(record.of_kind("glasshouse_cat").count(), 2);
        assert!(all_problems(&record).is_empty());
    }
}

mod sense {
    use super::*;

    #[test]
    fn a_sound_nursery_has_no_problems() {
        assert_eq!(all_problems(&nursery()), []);
    }

    #[test]
    fn a_bay_inside_itself() {
        let mut record = nursery();
        let own = thing(2, "bay", &[("name", "East"), (INSIDE, &id(2).text())]);
        assert_eq!(
            sentences(&problems(&record, &own)),
            [(
                "inside",
                "East would stand inside itself. Choose what it stands in."
            )]
        );
        // Also round about: East in Bench, which is in East.
        let round = thing(2, "bay", &[("name", "East"), (INSIDE, &id(4).text())]);
        record.put(round.clone());
        assert_eq!(problems(&record, &round).len(), 1);
        // One that only stands in such a ring is not inside itself, and nothing hangs.
        let outside = thing(11, "bay", &[("name", "Shelf"), (INSIDE, &id(4).text())]);
        assert!(problems(&record, &outside).is_empty());
        assert_eq!(record.within(id(2)).len(), 2);
    }

    #[test]
    fn a_batch_moved_before_it_was_sown() {
        let record = nursery();
        let (batch, bay) = (id(5).text(), id(3).text());
        let moved = |day: &str| {
            let pairs = [
                ("day", day),
                ("batch", &*batch),
                ("what", "moved"),
                ("to", &*bay),
            ];
            thing(12, "stage", &pairs)
        };
        assert_eq!(
            sentences(&problems(&record, &moved("2026-02-28"))),
            [(
                "day",
                "Day: 28 February 2026 is before Parsley 1 was sown or struck, on 1 March 2026. \
                 That day or a later one would be right."
            )]
        );
        assert!(problems(&record, &moved("2026-03-01")).is_empty());
    }

    #[test]
    fn links_to_what_is_not_there_is_gone_or_does_not_fit() {
        let mut record = nursery();
        let night = |place: Id| {
            let pairs = [
                ("day", "2026-05-03"),
                ("place", &*place.text()),
                ("low", "6 degC"),
            ];
            thing(13, "night", &pairs)
        };
        assert_eq!(
            sentences(&problems(&record, &night(id(99)))),
            [(
                "place",
                "Where: what is named here is not in the record. Choose another, or bring in the \
                 file of the device that has it."
            )]
        );
        assert_eq!(
            sentences(&problems(&record, &night(id(5)))),
            [(
                "place",
                "Where: Parsley 1 does not go here. Choose a house, bay or tray."
            )]
        );
        let mut house = record.get(id(1)).unwrap().clone();
        house.gone = true;
        record.put(house);
        assert_eq!(
            sentences(&problems(&record, &night(id(1)))),
            [(
                "place",
                "Where: North has been withdrawn. Bring it back, or choose another."
            )]
        );
    }
}

mod looking_through {
    use super::*;
    use longtom::nursery::sense::{Oddities, all_problems};

    /// What makes no sense in logs, found all at once.
    fn of_logs(record: &Record) -> Vec<(u32, String)> {
        let mut found: Vec<(u32, String)> = all_problems(record)
            .into_iter()
            .filter(|(id, _)| record.get(*id).unwrap().is_log())
            .map(|(id, problem)| (id.number, problem.sentence))
            .collect();
        found.sort();
        found
    }

    fn told(odd: &Oddities) -> Vec<(u32, String)> {
        let found = odd.found().iter();
        let mut found: Vec<(u32, String)> = found
            .map(|(id, problem)| (id.number, problem.sentence.clone()))
            .collect();
        found.sort();
        found
    }

    #[test]
    fn a_little_at_a_time_finds_all_and_follows() {
        let mut record = nursery();
        let night = [
            ("day", "2026-05-02"),
            ("place", &*id(1).text()),
            ("low", "9 degC"),
            ("high", "3 degC"),
        ];
        record.put(thing(20, "night", &night));
        record.put(thing(
            21,
            "night",
            &[("day", "2026-05-01"), ("low", "1 degC")],
        ));
        let mut odd = Oddities::default();
        odd.take_in(&record, 2);
        assert!(!odd.is_whole() && odd.found().is_empty());
        // One that has been looked at is changed meanwhile.
        let wrong = [("day", "2026-05-05"), ("place", "nowhere")];
        record.put(thing(9, "watered", &wrong));
        odd.follow(&record, id(9));
        while !odd.is_whole() {
            odd.take_in(&record, 2);
        }
        assert_eq!(told(&odd), of_logs(&record));
        assert!(odd.found().len() >= 2, "{:?}", odd.found());
        // Put right, taken out, and made wrong by what it names.
        let mut right = record.get(id(20)).unwrap().clone();
        right.texts = std::sync::Arc::new((*right.texts).clone().with("low", "2 degC"));
        let mut gone = record.get(id(21)).unwrap().clone();
        gone.gone = true;
        let mut house = record.get(id(1)).unwrap().clone();
        house.gone = true;
        for thing in [right, gone, house] {
            let id = thing.id;
            record.put(thing);
            odd.follow(&record, id);
            assert!(odd.is_whole());
            assert_eq!(told(&odd), of_logs(&record));
        }
        assert!(odd.found().iter().any(|(odd, _)| *odd == id(20)));
        // What is known is told until all has been looked at again.
        let known = told(&odd);
        odd.look_again();
        assert!(!odd.is_whole());
        assert_eq!(told(&odd), known);
        odd.take_in(&record, usize::MAX);
        assert_eq!(told(&odd), of_logs(&record));
    }

    #[test]
    fn things_are_counted_as_they_come_and_go() {
        let mut record = nursery();
        let counted = |record: &Record| {
            for kind in longtom::nursery::kinds::all() {
                let many = record.of_kind(kind.key).count();
                assert_eq!(record.how_many(kind.key), many, "{}", kind.key);
            }
            let all: Vec<Thing> = record.all().cloned().collect();
            assert_eq!(*record, Record::of(all), "however it came to be so");
        };
        counted(&record);
        let mut note = thing(20, "note", &[("day", "2026-05-04")]);
        record.put(note.clone());
        counted(&record);
        note.texts = std::sync::Arc::new(Texts::of([("day", "2026-06-04")]));
        record.put(note.clone());
        counted(&record);
        note.kind = "cut".into();
        record.put(note.clone());
        counted(&record);
        note.gone = true;
        record.put(note.clone());
        counted(&record);
        record.take_out(id(20));
        record.take_out(id(1));
        counted(&record);
    }
}

mod searching {
    use super::*;

    /// Found with and without a finder.
    fn found(record: &Record, wanted: &Wanted) -> Vec<u32> {
        let numbers = |things: Vec<&Thing>| {
            let numbers: Vec<u32> = things.iter().map(|thing| thing.id.number).collect();
            numbers
        };
        let plainly = numbers(search(record, wanted, 10));
        let finder = Finder::of(record);
        assert_eq!(
            numbers(finder.search(record, wanted, 10)),
            plainly,
            "{wanted:?}"
        );
        plainly
    }

    #[test]
    fn a_finder_follows_the_record() {
        let mut record = nursery();
        let mut finder = Finder::of(&record);
        let words = |words: &str| Wanted {
            words: words.to_owned(),
            ..Wanted::default()
        };
        let change = |record: &mut Record, finder: &mut Finder, thing: Thing| {
            let id = thing.id;
            record.put(thing);
            finder.follow(record, id);
        };
        let note = thing(
            8,
            "note",
            &[("day", "2026-05-04"), ("notes", "Snails\nnow")],
        );
        change(&mut record, &mut finder, note);
        assert_eq!(finder.search(&record, &words("slugs"), 9).len(), 0);
        assert_eq!(finder.search(&record, &words("snails now"), 9).len(), 1);
        let house = thing(1, "house", &[("name", "Palace")]);
        change(&mut record, &mut finder, house);
        assert_eq!(finder.search(&record, &words("palace"), 9).len(), 1);
        assert_eq!(finder.search(&record, &words("north"), 9).len(), 0);
        let mut gone = record.get(id(8)).unwrap().clone();
        gone.gone = true;
        change(&mut record, &mut finder, gone);
        assert_eq!(finder.search(&record, &words("snails"), 9).len(), 0);
    }

    #[test]
    fn by_the_words_that_a_person_sees() {
        let mut record = nursery();
        let watered = [
            ("day", "2026-05-06"),
            ("place", &*id(2).text()),
            ("how", "below"),
        ];
        record.put(thing(21, "watered", &watered));
        let batch = [
            ("name", "Row 3"),
            ("crop", "thai_basil"),
            ("sown", "2026-04-01"),
        ];
        record.put(thing(22, "batch", &batch));
        let own = [("name", "Shiso")];
        record.put(thing(23, "crop", &own));
        let batch = [("name", "Row 4"), ("crop", &*id(23).text())];
        record.put(thing(24, "batch", &batch));
        for (number, batch) in [(25, 22), (26, 24)] {
            let cut = [("day", "2026-05-07"), ("batch", &*id(batch).text())];
            record.put(thing(number, "cut", &cut));
        }
        let words = |words: &str| Wanted {
            words: words.to_owned(),
            ..Wanted::default()
        };
        assert_eq!(found(&record, &words("watering")), [21], "its kind");
        assert_eq!(found(&record, &words("watered")), [21], "what was done");
        assert_eq!(
            found(&record, &words("from below")),
            [21],
            "what was chosen"
        );
        assert_eq!(
            found(&record, &words("thai row")),
            [25],
            "the crop of its batch"
        );
        assert_eq!(found(&record, &words("shiso")), [26], "a crop of one's own");
        assert_eq!(
            found(&record, &words("thai_basil")),
            [] as [u32; 0],
            "not what stands in files"
        );
    }

    #[test]
    fn a_finder_made_a_little_at_a_time_misses_nothing() {
        let mut record = nursery();
        let words = |words: &str| Wanted {
            words: words.to_owned(),
            ..Wanted::default()
        };
        let mut finder = Finder::default();
        finder.take_in(&record, 2);
        assert!(!finder.is_whole());
        // Meanwhile one that is in it and one that is not are changed, and one is added.
        for (number, day, notes) in [
            (9, "2026-05-05", "later whitefly"),
            (8, "2026-04-01", "whitefly moved"),
            (20, "2026-05-09", "whitefly new"),
        ] {
            record.put(thing(number, "note", &[("day", day), ("notes", notes)]));
            finder.follow(&record, id(number));
        }
        let search_both = |finder: &Finder, word: &str, most: usize| {
            let wanted = words(word);
            let found = finder.search(&record, &wanted, most);
            assert_eq!(found, search(&record, &wanted, most), "{word}, {most}");
            found.len()
        };
        assert_eq!(search_both(&finder, "whitefly", 9), 3);
        while !finder.is_whole() {
            finder.take_in(&record, 1);
        }
        for most in 1..4 {
            assert_eq!(search_both(&finder, "whitefly", most), most);
        }
        for word in ["slugs", "naß", "north", "note", "e"] {
            search_both(&finder, word, 2);
        }
    }

    #[test]
    fn by_words_days_and_places() {
        let record = nursery();
        let words = |words: &str| Wanted {
            words: words.to_owned(),
            ..Wanted::default()
        };
        assert_eq!(found(&record, &words("SLUG")), [8]);
        assert_eq!(found(&record, &words("slugs again")), [8]);
        assert_eq!(found(&record, &words("slugs never")), [] as [u32; 0]);
        assert_eq!(found(&record, &words("NASS")), [] as [u32; 0]);
        assert_eq!(found(&record, &words("Naß")), [9]);
        assert_eq!(
            found(&record, &words("north")),
            [7],
            "by the name of the house"
        );
        assert_eq!(
            found(&record, &words("parsley")),
            [6],
            "by the name of the batch"
        );
        assert_eq!(
            found(&record, &words("notes")),
            [] as [u32; 0],
            "not by the name of a field"
        );
        assert_eq!(found(&record, &words("")), [9, 8, 7, 6], "the latest first");
        assert_eq!(search(&record, &words(""), 2).len(), 2);
        let in_east = Wanted {
            place: Some(id(2)),
            ..Wanted::default()
        };
        assert_eq!(found(&record, &in_east), [8], "and in what is within");
        let of_may = Wanted {
            from: Some(day("2026-05-01")),
            to: Some(day("2026-05-04")),
            ..Wanted::default()
        };
        assert_eq!(found(&record, &of_may), [8, 7]);
        let nights = Wanted {
            kind: "night".to_owned(),
            ..Wanted::default()
        };
        assert_eq!(found(&record, &nights), [7]);
        // The bench, and the batch that was first put there.
        assert_eq!(search_standing(&record, &words("bench"), 9).len(), 2);
    }

    proptest! {
        /// A plain search by small letters finds the same.
        #[test]
        fn a_note_is_found_by_any_part_of_it(notes in "[a-zA-ZäÄß ]{1,30}", from in 0..30usize, many in 1..6usize) {
            let mut record = Record::default();
            record.put(thing(1, "note", &[("day", "2026-05-03"), ("notes", &notes)]));
            let part: String = notes.chars().skip(from).take(many).collect();
            let wanted = Wanted { words: part.clone(), ..Wanted::default() };
            let small = notes.to_lowercase();
            let expected = part.split_whitespace().all(|word| small.contains(&word.to_lowercase()));
            prop_assert_eq!(search(&record, &wanted, 1).len() == 1, expected);
            let finder = Finder::of(&record);
            prop_assert_eq!(finder.search(&record, &wanted, 1).len() == 1, expected);
        }
    }
}

mod for_reckonings {
    use super::*;

    #[test]
    fn pots_of_the_handbook_and_of_ones_own() {
        let mut record = Record::default();
        let usual = pot_here(&record, "round_10_cm").unwrap();
        assert_eq!(usual.vessel, pot("round_10_cm").unwrap().vessel());
        record.put(thing(
            1,
            "pot",
            &[
                ("name", "Deep tens"),
                ("like", "round_10_cm"),
                ("height", "120 mm"),
            ],
        ));
        let own = pot_here(&record, &id(1).text()).unwrap();
        assert_eq!(own.vessel.height().in_millimetres(), 120.0);
        assert_eq!(own.below_rim, usual.below_rim);
        assert_eq!(own.name, "Deep tens");
        record.put(thing(
            2,
            "pot",
            &[("name", "Tub"), ("volume", "8 L"), ("height", "20 cm")],
        ));
        let tub = pot_here(&record, &id(2).text()).unwrap();
        let brim = tub.vessel.volume_to(tub.vessel.height());
        assert!((brim.in_litres() - 8.0).abs() < 1e-9);
        record.put(thing(3, "pot", &[("name", "Half known"), ("rim", "90 mm")]));
        assert_eq!(pot_here(&record, &id(3).text()), None);
        assert_eq!(pot_here(&record, "bucket"), None);
    }

    #[test]
    fn materials_with_their_bags() {
        let mut record = Record::default();
        record.put(thing(
            1,
            "material",
            &[
                ("name", "Our perlite"),
                ("like", "perlite_coarse"),
                ("bag", "100 L"),
                ("price", "14.5"),
            ],
        ));
        let own = material_here(&record, &id(1).text()).unwrap();
        assert_eq!(own.like.key, "perlite_coarse");
        assert_eq!(own.bag, Some(Volume::from_litres(100.0)));
        assert_eq!(own.price, Some(14.5));
        assert_eq!(material_here(&record, "perlite_coarse").unwrap().bag, None);
        record.put(thing(2, "material", &[("name", "Mystery")]));
        assert_eq!(material_here(&record, &id(2).text()), None);
    }

    #[test]
    fn fields_are_told_in_words() {
        let record = nursery();
        let say = |of: &str, path: &str, text: &str| {
            told(&record, kind(of).unwrap().field(path).unwrap(), text)
        };
        assert_eq!(say("night", "low", "6 degC"), "6\u{a0}°C");
        assert_eq!(say("night", "day", "2026-05-03"), "3 May 2026");
        assert_eq!(say("night", "place", &id(1).text()), "North");
        assert_eq!(say("bay", "standing", "floor"), "on the floor");
        assert_eq!(
            say("mix", "parts.0.material", "perlite_coarse"),
            "coarse perlite"
        );
        assert_eq!(say("night", "low", "cold"), "cold");
        assert_eq!(
            label(kind("mix"), "parts.0.amount"),
            "Parts by volume, loose, row 1: Parts"
        );
        assert_eq!(label(kind("mix"), "colour"), "colour");
        let low = kind("night").unwrap().field("low").unwrap();
        assert_eq!(plain_number(low, "50 degF").as_deref(), Some("10"));
        assert_eq!(plain_number(low, "-4.5 degC").as_deref(), Some("-4.5"));
        assert_eq!(plain_number(low, "cold"), None);
    }
}

proptest! {
    /// Nothing typed anywhere breaks anything.
    #[test]
    fn whatever_is_typed_is_read_or_said(
        pick in any::<prop::sample::Index>(),
        texts in prop::collection::vec((any::<prop::sample::Index>(), "\\PC{0,12}|[0-9.,/ -]{0,9}|[0-9]{1,3} (degC|L|mm|m2)"), 0..8),
    ) {
        let kinds: Vec<_> = all().collect();
        let kind = *pick.get(&kinds);
        let pairs: Vec<(&str, &str)> = texts
            .iter()
            .map(|(pick, text)| (pick.get(kind.fields).key, text.as_str()))
            .collect();
        let thing = Thing::new(id(1), kind.key, Texts::of(pairs));
        let record = nursery();
        for problem in problems(&record, &thing) {
            prop_assert!(problem.sentence.ends_with('.'), "{}", problem.sentence);
        }
        for field in kind.fields {
            let text = thing.text(field.key);
            // A number that is read is the one that was typed.
            if let (Takes::Number(amount), Some(base)) = (&field.takes, thing.base(field.key)) {
                let entry = thing.entry(field.key);
                let typed = read_number(entry.text(), DecimalMark::Ask).unwrap();
                let unit = amount.units.iter().find(|unit| unit.key == entry.unit()).unwrap();
                prop_assert!((unit.to_base(typed) - base).abs() <= 1e-9 * base.abs().max(1.0));
            }
            let said = told(&record, field, text);
            prop_assert!(text.is_empty() || !said.is_empty());
        }
    }
}

mod trays {
    use super::*;

    #[test]
    fn a_tray_says_what_it_knows_and_its_bench_the_rest() {
        let mut record = Record::default();
        let bench = [
            ("name", "Bench"),
            ("slope", "0.5 %"),
            ("load_limit", "60 kg/m2"),
        ];
        let inside = id(1).text();
        let tray = [
            ("name", "Long tray"),
            ("inside", inside.as_str()),
            ("length", "1.2 m"),
            ("width", "0.6 m"),
            ("wall", "60 mm"),
            ("fill", "sand_sharp"),
        ];
        let fallen = [("name", "Own"), ("inside", &inside), ("fall", "4 mm")];
        record.put(thing(1, "bay", &bench));
        record.put(thing(2, "tray", &tray));
        record.put(thing(3, "tray", &fallen));
        let here = tray_here(&record, id(2)).unwrap();
        assert_eq!(here.wall, Some(Length::from_millimetres(60.0)));
        assert_eq!((here.level, here.number), (None, None));
        // Half a hundredth of 1.2 m.
        assert!((here.fall.unwrap().in_millimetres() - 6.0).abs() < 1e-9);
        assert!((here.floor.unwrap().in_square_metres() - 0.72).abs() < 1e-9);
        assert_eq!(here.medium.unwrap().key, "sand_sharp");
        assert_eq!(here.carries, bay_carries(&record, id(1)));
        assert!(here.carries.is_some());
        let own = tray_here(&record, id(3)).unwrap();
        assert_eq!(own.fall, Some(Length::from_millimetres(4.0)));
        assert_eq!((own.floor, own.medium), (None, None));
        assert_eq!(tray_here(&record, id(1)), None);
        assert_eq!(bay_carries(&record, id(2)), None);
    }

    /// A bench in a house in a place, with nights read in the house.
    #[test]
    fn a_bay_says_how_warm_it_is() {
        let mut record = Record::default();
        let inside = |number: u32| id(number).text();
        record.put(thing(
            1,
            "place",
            &[
                ("name", "Here"),
                ("latitude", "52"),
                ("climate", "east_anglia"),
            ],
        ));
        let place = inside(1);
        record.put(thing(
            2,
            "house",
            &[
                ("name", "Long house"),
                ("inside", &place),
                ("cover", "film"),
                ("length", "12 m"),
                ("width", "6 m"),
            ],
        ));
        let house = inside(2);
        let bench = [
            ("name", "Bench"),
            ("inside", house.as_str()),
            ("standing", "heated_bench"),
            ("length", "4 m"),
            ("width", "1 m"),
            ("set_point", "20 degC"),
            ("heat", "90 W/m2"),
        ];
        record.put(thing(3, "bay", &bench));
        for (number, day, low, high) in [
            (4, "2026-03-01", "-9", "1"),
            (5, "2026-04-10", "3", "18"),
            (6, "2026-04-11", "5", "20"),
            (7, "2026-04-12", "4", "22"),
        ] {
            record.put(thing(
                number,
                "night",
                &[
                    ("day", day),
                    ("place", &house),
                    ("low", &format!("{low} degC")),
                    ("high", &format!("{high} degC")),
                ],
            ));
        }
        let here = bay_here(&record, id(3)).unwrap();
        assert_eq!(
            (here.standing, here.house_cover),
            (Some("heated_bench"), Some("film"))
        );
        assert_eq!(
            (here.latitude, here.climate.as_deref()),
            (Some(52.0), Some("east_anglia"))
        );
        assert!((here.area.unwrap().in_square_metres() - 4.0).abs() < 1e-9);
        let nights = here.nights.unwrap();
        assert_eq!((nights.month, nights.many), (4, 3));
        assert!(
            (nights.low.in_celsius() - 4.0).abs() < 1e-9
                && (nights.high.in_celsius() - 20.0).abs() < 1e-9
        );
        assert_eq!(bay_here(&record, id(2)), None);
        // Two nights tell no month.
        record.take_out(id(7));
        assert_eq!(bay_here(&record, id(3)).unwrap().nights, None);
    }

    /// A minimum is of the dawn on which it was read, a maximum of the afternoon before.
    #[test]
    fn readings_of_a_bay_go_with_the_air_of_their_days_and_with_its_last_fit() {
        let bay = id(3).text();
        let tray = id(4).text();
        let mut record = Record::default();
        record.put(thing(3, "bay", &[("name", "Bench"), ("cover", "film")]));
        record.put(thing(4, "tray", &[("name", "Tray"), ("inside", &bay)]));
        for (number, day, low, high) in [
            (10, "2026-04-10", "3", "18"),
            (11, "2026-04-11", "5", "20"),
            (12, "2026-04-12", "4", "22"),
        ] {
            let (low, high) = (format!("{low} degC"), format!("{high} degC"));
            let night = [
                ("day", day),
                ("place", &*bay),
                ("low", &*low),
                ("high", &*high),
            ];
            record.put(thing(number, "night", &night));
        }
        for (number, place, day, time, what, value) in [
            (20, &bay, "2026-04-08", "07:00", "root", "9"),
            (21, &bay, "2026-04-10", "06:30", "root", "10"),
            (22, &tray, "2026-04-12", "15:00", "water", "19"),
            (23, &bay, "2026-04-12", "15:00", "outside", "14"),
            (24, &id(9).text(), "2026-04-11", "15:00", "root", "30"),
        ] {
            let value = format!("{value} degC");
            let reading = [
                ("day", day),
                ("place", &**place),
                ("time", time),
                ("what", what),
                ("value", &*value),
            ];
            record.put(thing(number, "reading", &reading));
        }
        let here = bay_here(&record, id(3)).unwrap();
        assert_eq!(here.cover, Some("film"));
        assert!(here.fitted.is_empty());
        let own = here.own.unwrap();
        let days: Vec<(f64, Option<f64>)> = own
            .days
            .iter()
            .map(|(low, high)| (low.in_celsius(), high.map(|high| high.in_celsius())))
            .collect();
        assert_eq!(days, [(3.0, Some(20.0)), (5.0, Some(22.0)), (4.0, None)]);
        let read: Vec<(&str, usize, u32)> = own
            .readings
            .iter()
            .map(|reading| (reading.what, reading.day, reading.minute))
            .collect();
        assert_eq!(read, [("root", 1, 390), ("water", 3, 900)]);

        // A day without its minimum parts those before from those after.
        let mut gap = record.clone();
        gap.take_out(id(11));
        let own = bay_here(&gap, id(3)).unwrap().own.unwrap();
        assert_eq!((own.days.len(), own.readings.len()), (1, 1));
        assert_eq!(own.readings[0].day, 1);

        // What was fitted is known, and only what was read since is fitted to.
        for (number, on, best) in [(30, "2026-04-01", "9"), (31, "2026-04-11", "0.5")] {
            record.put(thing(
                number,
                "fit",
                &[
                    ("name", "Bench, fitted"),
                    ("on", on),
                    ("of", &bay),
                    ("figures.0.what", "Air"),
                    ("figures.0.low", "0.3"),
                    ("figures.0.best", best),
                    ("figures.0.high", "10"),
                    ("figures.1.what", "Half of it"),
                    ("figures.1.best", "1"),
                ],
            ));
        }
        let here = bay_here(&record, id(3)).unwrap();
        assert_eq!(here.fitted.len(), 1);
        assert_eq!(here.fitted[0].range, [0.3, 0.5, 10.0]);
        let own = here.own.unwrap();
        assert_eq!(own.readings.len(), 1);
        assert_eq!(own.readings[0].what, "water");
    }

    #[test]
    fn a_tray_may_be_filled_with_any_bed_medium_and_with_what_it_could_be_before() {
        for medium in BED_MEDIA {
            assert!(in_handbook(Book::BedMedium, medium.key), "{}", medium.key);
        }
        assert!(in_handbook(Book::BedMedium, "perlite_medium"));
        assert!(!in_handbook(Book::BedMedium, "porridge"));
    }
}
