//! Tables of the record for other programs, and readings out of the files of thermometers.
#![cfg(feature = "terminal")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::keep::journal::csv::{file_name, may_be_formula, table};
use longtom::keep::journal::thermometer::guess::guess;
use longtom::keep::journal::thermometer::nights::{Import, Night, Wish, import, nights};
use longtom::keep::journal::thermometer::{DateOrder, Found, NotRead, Plan, Sheet, What, find};
use longtom::keep::journal::{Journal, fold};
use longtom::measure::DecimalMark;
use longtom::nursery::{Day, Id, Record, Texts, Thing, kind};
use proptest::prelude::*;

fn id(number: u32) -> Id {
    Id::read(&format!("k3fq.{number}.7")).unwrap()
}

fn day(text: &str) -> Day {
    Day::from_iso(text).unwrap()
}

fn thing(number: u32, kind: &str, pairs: &[(&str, &str)]) -> Thing {
    Thing::new(id(number), kind, Texts::of(pairs.iter().copied()))
}

mod out {
    use super::*;

    #[test]
    fn a_table_has_headings_with_units_and_a_line_for_each_log() {
        let mut record = Record::default();
        record.put(thing(1, "house", &[("name", "North, \"old\"")]));
        let place = id(1).text();
        record.put(thing(
            3,
            "night",
            &[
                ("day", "2026-05-04"),
                ("place", &place),
                ("low", "-1.5 degC"),
                ("high", "68 degF"),
            ],
        ));
        record.put(thing(
            2,
            "night",
            &[
                ("day", "2026-05-03"),
                ("place", &place),
                ("low", "cold"),
                ("notes", "=2+3\nwindy"),
            ],
        ));
        assert_eq!(
            table(&record, kind("night").unwrap()),
            concat!(
                "\u{feff}Day,Where,Minimum (°C),Maximum (°C),Instrument,Notes,Id\r\n",
                "2026-05-03,\"North, \"\"old\"\"\",cold,,,\"'=2+3\nwindy\",k3fq.2.7\r\n",
                "2026-05-04,\"North, \"\"old\"\"\",-1.5,20,,,k3fq.3.7\r\n",
            )
        );
        assert_eq!(file_name(kind("night").unwrap()), "minima-and-maxima");
    }

    #[test]
    fn rows_stand_in_one_cell() {
        let mut record = Record::default();
        record.put(thing(
            1,
            "mix",
            &[
                ("name", "Herbs"),
                ("parts.0.material", "perlite_coarse"),
                ("parts.0.amount", "1"),
                ("parts.1.material", "coir_pith"),
                ("parts.1.amount", "2"),
            ],
        ));
        let text = table(&record, kind("mix").unwrap());
        assert!(
            text.contains("\"Material: coarse perlite, Parts: 1; Material: coir pith, Parts: 2\""),
            "{text}"
        );
    }

    /// The signs that OWASP's page "CSV Injection" names, and their full-width forms.
    #[test]
    fn no_cell_can_become_a_formula() {
        for cell in [
            "=1+1",
            "+1+1",
            "-1+1",
            "@SUM(A1)",
            "\t=1",
            "\r=1",
            "\n=1",
            "  =1",
            "＝1",
            "－1＋1",
            "-",
            "-1-1",
            "-1.2.3",
            "=cmd|' /C calc'!A0",
            "+4",
            "\u{a0}=1",
            "\u{0}=1",
        ] {
            assert!(may_be_formula(cell), "{cell:?}");
            let mut record = Record::default();
            record.put(thing(1, "note", &[("day", "2026-05-03"), ("notes", cell)]));
            let text = table(&record, kind("note").unwrap());
            let line = text.split_once("\r\n").unwrap().1;
            assert!(
                line.contains(&["'", cell].concat()),
                "{cell:?} stands guarded in {line:?}"
            );
        }
        for cell in [
            "-4",
            "-4.25",
            "4",
            "",
            "a=b",
            "2026-05-03",
            "'",
            "6 °C",
            "1-2",
        ] {
            assert!(!may_be_formula(cell), "{cell:?}");
        }
    }

    proptest! {
        /// What is written is read back by the rules of RFC 4180, with the guard before it.
        #[test]
        fn a_table_reads_back(notes in "[=+@\\-\"',;\t\r\na-z ]{0,20}", name in "\\PC{0,10}") {
            let mut record = Record::default();
            record.put(thing(1, "house", &[("name", &name)]));
            let place = id(1).text();
            let pairs = [("day", "2026-05-03"), ("place", &*place), ("notes", &*notes)];
            record.put(thing(2, "note", &pairs));
            let text = table(&record, kind("note").unwrap());
            let Ok(sheet) = Sheet::read(text.as_bytes()) else {
                return Ok(());
            };
            let rows = sheet.rows(',');
            prop_assert_eq!(rows.len(), 2);
            prop_assert_eq!(rows[1].cells.len(), rows[0].cells.len());
            let guard = if may_be_formula(&notes) { "'" } else { "" };
            prop_assert_eq!(&rows[1].cells[4], &[guard, &*notes].concat());
        }
    }
}

fn sheet(text: &str) -> Sheet {
    Sheet::read(text.as_bytes()).unwrap()
}

fn guessed(text: &str) -> (Plan, Found) {
    let sheet = sheet(text);
    let plan = guess(&sheet).unwrap();
    let found = find(&sheet, &plan);
    (plan, found)
}

/// Day, minute, what and stored text of each reading.
fn read(found: &Found) -> Vec<(String, Option<u32>, What, &str)> {
    let readings = found.readings.iter();
    readings
        .map(|reading| {
            (
                reading.day.iso(),
                reading.minute,
                reading.what,
                &*reading.text,
            )
        })
        .collect()
}

fn wish(nights: bool, readings: bool) -> Wish {
    Wish {
        place: id(1),
        instrument: None,
        nights,
        readings,
    }
}

mod thermometers {
    use super::*;

    /// RFC 4180, section 2, rules 5 to 7.
    #[test]
    fn cells_as_rfc_4180_has_them() {
        let cells = |text: &str| {
            let rows = sheet(text).rows(',');
            let cells: Vec<Vec<String>> = rows.into_iter().map(|row| row.cells).collect();
            cells
        };
        assert_eq!(
            cells("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]
        );
        assert_eq!(
            cells("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            [["aaa", "b\r\nbb", "ccc"], ["zzz", "yyy", "xxx"]]
        );
        assert_eq!(
            cells("\"aaa\",\"b\"\"bb\",\"ccc\""),
            [["aaa", "b\"bb", "ccc"]]
        );
        // A mark that is never closed is none, and swallows nothing.
        assert_eq!(
            cells("5\" pot,1\na,\"2\nb,3"),
            [["5\" pot", "1"], ["a", "\"2"], ["b", "3"]]
        );
    }

    #[test]
    fn a_plain_file_with_a_point() {
        let (plan, found) = guessed(
            "Time,Temperature (°C),Humidity (%)\n\
             2026-05-03 21:00,12.5,70\n\
             2026-05-03 22:00,11.0,72\n",
        );
        assert_eq!((plan.delimiter, plan.decimal), (',', DecimalMark::Point));
        assert_eq!((plan.day, plan.time, plan.heading_rows), (0, None, 1));
        assert_eq!(
            read(&found),
            [
                ("2026-05-03".to_owned(), Some(1260), What::Air, "12.5 degC"),
                ("2026-05-03".to_owned(), Some(1260), What::Humidity, "70 %"),
                ("2026-05-03".to_owned(), Some(1320), What::Air, "11 degC"),
                ("2026-05-03".to_owned(), Some(1320), What::Humidity, "72 %"),
            ]
        );
        assert!(found.bad.is_empty());
    }

    #[test]
    fn a_file_with_commas_tabs_and_lines_about_the_instrument() {
        let (plan, found) = guessed(
            "Logger\t0815\r\nStarted\tin spring\r\n\r\nNr\tDatum\tZeit\tTemp [°C]\tBatterie\r\n\
             1\t13.05.26\t07:40:00\t8,5 °C\t3,1\r\n2\t13.05.26\t08:40:00\t9,25 °C\t3,1\r\n\
             3\t13.05.26\t09:40:00\t9,5 °C\t3,1\r\n4\t13.05.26\t10:40:00\t-0,5 °C\t3,1\r\n",
        );
        assert_eq!((plan.delimiter, plan.decimal), ('\t', DecimalMark::Comma));
        assert_eq!((plan.day, plan.time), (1, Some(2)));
        assert_eq!(plan.order, DateOrder::DayFirst);
        let texts: Vec<&str> = found
            .readings
            .iter()
            .map(|reading| &*reading.text)
            .collect();
        assert_eq!(texts, ["8.5 degC", "9.25 degC", "9.5 degC", "-0.5 degC"]);
        assert_eq!(found.readings[0].day, day("2026-05-13"));
        assert_eq!(found.readings[0].line, 5);
        let columns: Vec<(&str, Option<What>)> = plan
            .columns
            .iter()
            .map(|column| (&*column.heading, column.what))
            .collect();
        assert_eq!(
            columns,
            [("Temp [°C]", Some(What::Air)), ("Batterie", None)]
        );
    }

    #[test]
    fn a_file_with_the_month_first_and_fahrenheit() {
        let (plan, found) =
            guessed("Date;Time;Temp (°F)\n05/30/2026;11:00 PM;50\n05/31/2026;12:30 AM;41\n");
        assert_eq!(plan.order, DateOrder::MonthFirst);
        assert_eq!(
            read(&found),
            [
                ("2026-05-30".to_owned(), Some(23 * 60), What::Air, "50 degF"),
                ("2026-05-31".to_owned(), Some(30), What::Air, "41 degF"),
            ]
        );
        // 50 °F is 10 °C, by the definition of the scale.
        assert!((found.readings[0].base - 10.0).abs() < 1e-9);
    }

    #[test]
    fn dates_that_may_be_read_both_ways_follow_each_other_or_have_the_day_first() {
        // As days first these are one day apart, as months first a month.
        let (plan, _) =
            guessed("a;b\n01.05.2026 07:00;5\n02.05.2026 07:00;6\n03.05.2026 07:00;6\n");
        assert_eq!(plan.order, DateOrder::DayFirst);
        let (plan, _) =
            guessed("a;b\n05/01/2026 07:00;5\n05/02/2026 07:00;6\n05/03/2026 07:00;6\n");
        assert_eq!(plan.order, DateOrder::MonthFirst);
        let (plan, _) = guessed("a;b\n05.05.2026 07:00;5\n");
        assert_eq!(plan.order, DateOrder::DayFirst);
    }

    #[test]
    fn a_plan_can_be_changed() {
        let text = "a;b\n01.05.2026 07:00;1,5\n02.05.2026 07:00;2,5\n";
        let sheet = sheet(text);
        let mut plan = guess(&sheet).unwrap();
        plan.order = DateOrder::MonthFirst;
        plan.columns[0].what = Some(What::Root);
        plan.columns[0].unit = "degF".to_owned();
        let found = find(&sheet, &plan);
        assert_eq!(
            read(&found)[1],
            ("2026-02-05".to_owned(), Some(420), What::Root, "2.5 degF")
        );
    }

    #[test]
    fn bad_lines_are_listed_with_their_reason() {
        let (_, found) = guessed(
            "Day,Time,Temp\n2026-05-03,07:00,5\n2026-02-31,08:00,5\n2026-05-03,25:00,5\n\
             2026-05-03,09:00,---\n2026-05-03,10:00,999\n,,5\n2026-05-03,11:00,\n2026-05-03,12:00,6\n\
             2026-05-03,13:00,6\n2026-05-03,14:00,6\n2026-05-03,15:00,6\n2026-05-03,16:00,6\n\
             2026-05-03,17:00,6\n2026-05-03,18:00,6\n2026-05-03,19:00,6\n2026-05-03,20:00,6\n",
        );
        let bad: Vec<(usize, &str)> = found.bad.iter().map(|bad| (bad.line, &*bad.why)).collect();
        assert_eq!(
            bad,
            [
                (3, "“2026-02-31” is not a day in the chosen order."),
                (
                    4,
                    "“25:00” is not a time of day. It should look like 07:40."
                ),
                (
                    5,
                    "Temp: “---” is not a number. Write one such as 12, 2.5 or 2 1/2."
                ),
                (
                    6,
                    "Temp: Temperature: 999\u{a0}°C is too much. Between \u{2212}40 and 60\u{a0}°C would be right."
                ),
                (7, "The line is too short: it has no day."),
            ]
        );
        assert_eq!(found.readings.len(), 10, "an empty cell is no fault");
    }

    #[test]
    fn what_is_no_text_is_refused_with_a_sentence() {
        // The first bytes of PNG (ISO/IEC 15948, 5.2), JPEG (JFIF 1.02) and ZIP (APPNOTE 4.3.7).
        for bytes in [
            &b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR"[..],
            &b"\xFF\xD8\xFF\xE0\0\x10JFIF\0"[..],
            &b"PK\x03\x04\x14\0\x06\0"[..],
            &b"%PDF-1.7\n%abc"[..],
        ] {
            assert_eq!(Sheet::read(bytes), Err(NotRead::NotText));
        }
        assert_eq!(Sheet::read(b""), Err(NotRead::Empty));
        assert_eq!(Sheet::read(b" \r\n\t"), Err(NotRead::Empty));
        assert_eq!(
            guess(&sheet("dear diary\nit was cold\n")),
            Err(NotRead::NoDays)
        );
        assert_eq!(
            guess(&sheet("2026-05-03,cold\n2026-05-04,warm\n")),
            Err(NotRead::NoReadings)
        );
        assert!(NotRead::NotText.to_string().contains("CSV"));
    }

    #[test]
    fn other_alphabets_of_bytes() {
        let text = "Tag;Grad °C\n2026-05-03 07:00;5,5\n2026-05-04 07:00;6,5\n";
        let mut utf16 = vec![0xFF, 0xFE];
        utf16.extend(text.encode_utf16().flat_map(u16::to_le_bytes));
        assert_eq!(Sheet::read(&utf16).unwrap(), sheet(text));
        let mut big = vec![0xFE, 0xFF];
        big.extend(text.encode_utf16().flat_map(u16::to_be_bytes));
        assert_eq!(Sheet::read(&big).unwrap(), sheet(text));
        let western: Vec<u8> = text.chars().map(|letter| letter as u8).collect();
        assert_eq!(Sheet::read(&western).unwrap(), sheet(text));
        let marked = ["\u{feff}", text].concat();
        assert_eq!(sheet(&marked), sheet(text));
    }

    proptest! {
        #[test]
        fn whatever_is_in_a_file_is_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..80)) {
            if let Ok(sheet) = Sheet::read(&bytes) && let Ok(plan) = guess(&sheet) {
                let found = find(&sheet, &plan);
                let made = import(&found, &wish(true, true), &Journal::default(), &Record::default());
                prop_assert!(made.entries.len() + made.known <= 2 * found.readings.len());
            }
        }

        #[test]
        fn whatever_looks_like_a_file_is_read_or_refused(
            text in "((2026-0[0-9]-[0-9]{1,2}|[0-9]{1,2}/[0-9]{1,2}/20[0-9]{2})[ ;,]([0-9]{1,2}:[0-9]{2})?[;,\t\"](-?[0-9]{0,3}[.,]?[0-9]{0,2}[;,]?){1,3}\r?\n?){0,6}",
        ) {
            if let Ok(sheet) = Sheet::read(text.as_bytes()) && let Ok(plan) = guess(&sheet) {
                let found = find(&sheet, &plan);
                let lines = text.matches(['\r', '\n']).count() + 1;
                prop_assert!(found.bad.iter().all(|bad| (1..=lines).contains(&bad.line)));
                let made = import(&found, &wish(true, true), &Journal::default(), &Record::default());
                prop_assert!(made.bad.iter().all(|bad| bad.why.ends_with('.')));
            }
        }
    }
}

mod imports {
    use super::*;

    /// Two days of a reading each hour, coldest at 5 in the morning, warmest at 14.
    fn two_days() -> String {
        let mut text = String::from("Time,Temp\n");
        for hour in 0..48 {
            let of_day = hour % 24;
            let value = match of_day {
                5 => 2 + hour / 24,
                14 => 30 + hour / 24,
                _ => 15,
            };
            text += &format!("2026-05-{:02} {of_day:02}:00,{value}\n", 3 + hour / 24);
        }
        text
    }

    fn night(day_text: &str, low: &str, high: &str) -> Night {
        Night {
            day: day(day_text),
            low: low.to_owned(),
            high: high.to_owned(),
        }
    }

    #[test]
    fn a_night_runs_from_noon_to_noon() {
        let (_, found) = guessed(&two_days());
        let mut bad = Vec::new();
        assert_eq!(
            nights(&found, &mut bad),
            [
                // The afternoon before is not in the file, so neither is the maximum.
                night("2026-05-03", "2 degC", ""),
                night("2026-05-04", "3 degC", "30 degC"),
            ]
        );
        // The file ends before the night to 5 May is over.
        assert_eq!(bad.len(), 1);
        assert!(
            bad[0]
                .why
                .starts_with("The night to 5 May 2026 is not all in the file")
        );
    }

    #[test]
    fn minima_that_the_instrument_found_are_taken_as_they_are() {
        let (_, found) = guessed("Day;Min;Max\n3.5.2026;6,5;31\n4.5.2026;7;29,5\n");
        let mut bad = Vec::new();
        assert_eq!(
            nights(&found, &mut bad),
            [
                night("2026-05-03", "6.5 degC", "31 degC"),
                night("2026-05-04", "7 degC", "29.5 degC"),
            ]
        );
        assert!(bad.is_empty());
    }

    fn import_into(journal: &mut Journal, text: &str, wish: &Wish) -> Import {
        let (_, found) = guessed(text);
        let present = fold(journal);
        let made = import(&found, wish, journal, &present.record);
        for entry in &made.entries {
            journal.put(entry.clone());
        }
        made
    }

    #[test]
    fn the_same_file_twice_adds_nothing_twice() {
        let mut journal = Journal::default();
        let both = wish(true, true);
        let first = import_into(&mut journal, &two_days(), &both);
        assert_eq!((first.entries.len(), first.known), (50, 0));
        let whole = journal.clone();
        let second = import_into(&mut journal, &two_days(), &both);
        assert_eq!((second.entries.len(), second.known), (0, 50));
        assert_eq!(journal, whole);
        // Nor with the instrument named the second time.
        let named = Wish {
            instrument: Some(id(9)),
            ..both
        };
        let third = import_into(&mut journal, &two_days(), &named);
        assert_eq!((third.entries.len(), third.known), (0, 50));
        // Nor on a second device that read it by itself.
        let mut other = Journal::default();
        import_into(&mut other, &two_days(), &both);
        other.merge(&whole);
        assert_eq!(other, whole);
        // Nor when the lines come twice in one file.
        let mut twice = Journal::default();
        let text = [two_days(), two_days().replace("Time,Temp\n", "")].concat();
        import_into(&mut twice, &text, &wish(false, true));
        assert_eq!(twice.len(), 48);
    }

    #[test]
    fn a_longer_stretch_adds_what_is_new() {
        let mut journal = Journal::default();
        let readings = wish(false, true);
        let text = two_days();
        let half: String = text
            .lines()
            .take(25)
            .flat_map(|line| [line, "\n"])
            .collect();
        assert_eq!(
            import_into(&mut journal, &half, &readings).entries.len(),
            24
        );
        let rest = import_into(&mut journal, &text, &readings);
        assert_eq!((rest.entries.len(), rest.known), (24, 24));
        let present = fold(&journal);
        assert_eq!(present.record.on(day("2026-05-04")).count(), 24);
        let reading = present.record.on(day("2026-05-04")).next().unwrap();
        assert_eq!(reading.kind, "reading");
        assert_eq!(
            (reading.text("what"), reading.one("place")),
            ("air", Some(id(1)))
        );
    }
}
