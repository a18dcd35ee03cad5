//! The demo nursery’s season, week by week: on each Monday the record asks a question that is read, answered and makes
//! sense to whoever holds it against the record.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::collections::BTreeMap;

use longtom::handbook::crops::{Property, crop};
use longtom::handbook::pots::pot;
use longtom::keep::demo;
use longtom::keep::journal::fold;
use longtom::measure::DecimalMark;
use longtom::nursery::{Day, Record};
use longtom::reckon::Reckoning;
use longtom::reckon::answer::Answer;
use longtom::reckon::doubt::{SEED, doubt_of};
use longtom::reckon::season::{Case, Detail, Question, Season};
use longtom::science::standing_room::most;

/// Draws of each Monday: enough for ranges in order.
const DRAWS: u32 = 40;
const WEEK: i32 = 7;
/// No bench holds more than so many times its room, and no week so many hours.
const ABSURD: [f64; 2] = [5.0, 100.0];

fn day(iso: &str) -> Day {
    Day::from_iso(iso).unwrap_or_else(|| panic!("{iso} is no day"))
}

/// The Mondays from the first sowing of the record until two months after the last of its plans.
fn mondays(record: &Record) -> Vec<Day> {
    let days = |kind: &'static str, path: &'static str| {
        record
            .of_kind(kind)
            .filter_map(move |thing| thing.day(path))
    };
    let first = days("batch", "sown").min().unwrap();
    let last = days("plan", "sow_on").chain(days("batch", "sown")).max();
    let first = first.plus(1 - first.weekday() as i32);
    let weeks = (last.unwrap().number() - first.number()) / WEEK + 8;
    (0..weeks).map(|week| first.plus(WEEK * week)).collect()
}

/// What is looked at of a Monday.
type Look<'a> = &'a mut dyn FnMut(&Record, Day, &Question, &Case, &Answer<Detail>);

/// Each Monday with its question, its case and its answer.
fn season(look: Look<'_>) {
    let record = fold(&demo::journal()).record;
    let mut answered = 0;
    for monday in mondays(&record) {
        let question = Season::of_record(&record, monday).unwrap();
        let case = Season::check(&question, DecimalMark::Point)
            .unwrap_or_else(|problems| panic!("{}: {problems:?}", monday.iso()));
        let doubt = doubt_of::<Season>(case.clone(), DRAWS, SEED).unwrap();
        let answer = Season::answer(&case, Some(&doubt)).unwrap();
        look(&record, monday, &question, &case, &answer);
        answered += 1;
    }
    println!("{answered} Mondays");
    assert!(answered > 50);
}

#[test]
fn what_stands_and_what_is_planned_is_there_once() {
    season(&mut |record, monday, question, _, answer| {
        let on = monday.iso();
        let of_batch = |id: &str| {
            let all = question.batches.iter();
            all.filter(|batch| batch.batch == id).count()
        };
        for (id, place) in record.where_batches_stand(monday) {
            let sown = record.get(id).and_then(|batch| batch.day("sown"));
            if place.is_some() && sown.is_some_and(|sown| sown <= monday) {
                assert_eq!(of_batch(&id.text()), 1, "{on}: {}", id.text());
            }
        }
        assert_eq!(answer.detail.batches.len(), question.batches.len());
        for plan in record.of_kind("plan") {
            let begun = record.of_kind("batch").any(|batch| {
                batch.one("plan") == Some(plan.id)
                    && batch.day("sown").is_some_and(|sown| sown <= monday)
            });
            let text = plan.id.text();
            let rows = question.sowings.iter().enumerate();
            let rows: Vec<usize> = rows
                .filter(|(_, sowing)| sowing.plan == text)
                .map(|(row, _)| row)
                .collect();
            let over = plan.day("sow_on").is_some_and(|sow| sow.plus(60) < monday);
            assert_eq!(rows.len(), usize::from(!begun && !over), "{on}: {text}");
            for row in rows {
                let told = answer.detail.sown.iter();
                assert_eq!(told.filter(|sown| sown.row == row).count(), 1, "{on}");
            }
        }
    });
}

#[test]
fn days_are_in_order_and_numbers_are_those_of_a_nursery() {
    season(&mut |_, monday, question, _, answer| {
        let on = monday.iso();
        let detail = &answer.detail;
        let rising = |days: &[String; 3]| days[0] <= days[1] && days[1] <= days[2];
        for sown in &detail.sown {
            let stages = [&sown.up, &sown.potted, &sown.ready];
            assert!(stages.iter().all(|days| rising(days)), "{on}: {sown:?}");
            let pairs = stages.windows(2);
            assert!(
                pairs.into_iter().all(|pair| pair[0][1] <= pair[1][1]),
                "{on}: {sown:?}"
            );
            assert!(
                sown.on < sown.up[0] && sown.ready[1] <= sown.gone,
                "{on}: {sown:?}"
            );
            assert!(
                sown.pots <= sown.cells && sown.seeds >= sown.cells,
                "{on}: {sown:?}"
            );
        }
        for (asked, batch) in question.batches.iter().zip(&detail.batches) {
            let stages = [&batch.up, &batch.potted, &batch.ready];
            assert!(stages.iter().all(|days| rising(days)), "{on}: {batch:?}");
            assert!(
                batch.on <= batch.up[1] && batch.up[1] <= batch.potted[1],
                "{on}: {batch:?}"
            );
            assert!(batch.potted[1] <= batch.ready[1], "{on}: {batch:?}");
            assert_eq!(batch.on, asked.sown);
            assert!(batch.stands <= batch.number && day(&batch.on) <= monday);
            for (known, told) in [&asked.up, &asked.potted, &asked.ready].iter().zip(stages) {
                assert!(known.is_empty() || **known == told[1], "{on}: {batch:?}");
                assert!(known.is_empty() || day(known) <= monday, "{on}: {batch:?}");
            }
        }
        let mut last: Option<Day> = None;
        for week in &detail.weeks {
            let first = day(&week.monday);
            assert!(
                last.is_none_or(|last| last.plus(WEEK) == first),
                "{on}: {week:?}"
            );
            last = Some(first);
            let [most_taken, most_hours] = ABSURD;
            assert!(
                week.taken
                    .iter()
                    .all(|taken| (0.0..most_taken).contains(taken)),
                "{on}: {week:?}"
            );
            assert!((0.0..most_hours).contains(&week.hours), "{on}: {week:?}");
            assert!(
                week.carries.iter().all(|kg| (0.0..200.0).contains(kg)),
                "{on}: {week:?}"
            );
        }
        for figure in &answer.figures {
            let range = figure.range;
            assert!(
                range.low() >= 0.0 && range.low() <= range.best() && range.best() <= range.high()
            );
        }
        let said = [&answer.judgement.sentence, &answer.advice];
        for sentence in said.into_iter().chain(&detail.mends).chain(&detail.tests) {
            assert!(
                sentence.is_empty() || sentence.ends_with(['.', '?', '!']),
                "{on}: {sentence}"
            );
            assert!(
                !sentence.contains("  ") && !sentence.contains(" ,"),
                "{on}: {sentence}"
            );
        }
    });
}

/// The room of every place in every week is that of the lots told, each from its sowing until it is gone, added up
/// again from what is told: none is lost when a lot is potted, and none counts twice on one bench.
#[test]
fn no_room_is_lost_between_weeks() {
    season(&mut |_, monday, question, case, answer| {
        let detail = &answer.detail;
        let area = |place: usize| case.stands[place].area_m2();
        let room = |place: usize, spacing_m: f64| {
            let stand = &case.stands[place];
            f64::from(
                most(
                    stand.length.in_metres(),
                    stand.breadth.in_metres(),
                    spacing_m,
                )
                .unwrap(),
            )
        };
        // From, to, place and share of each stage of each lot.
        let mut lots: Vec<[(Day, Day, usize, f64); 2]> = Vec::new();
        let ever = day("2099-12-31");
        let mut lot =
            |into_pots: bool, spacing_m: f64, numbers: [u32; 2], at: [usize; 2], days: [Day; 3]| {
                let [first, then] = at;
                let [cells, plants] = numbers.map(f64::from);
                let share = if into_pots {
                    cells / room(first, spacing_m)
                } else {
                    cells / 800.0 / area(first)
                };
                let [sown, potted, gone] = days;
                lots.push([
                    (sown, potted, first, share),
                    (potted, gone, then, plants / room(then, spacing_m)),
                ]);
            };
        for sown in &detail.sown {
            let spacing = case.sowings[sown.row].potting.spacing.in_metres();
            let days = [day(&sown.on), day(&sown.potted[1]), day(&sown.gone)];
            lot(
                sown.into_pots,
                spacing,
                [sown.cells, sown.pots],
                sown.where_at,
                days,
            );
        }
        for ((asked, batch), read) in question
            .batches
            .iter()
            .zip(&detail.batches)
            .zip(&case.batches)
        {
            let into_pots = crop(&asked.crop)
                .unwrap()
                .figure(Property::PrickOutSum)
                .is_none();
            let gone = Day::from_iso(&batch.gone).unwrap_or(ever);
            let days = [day(&batch.on), day(&batch.potted[1]).min(gone), gone];
            let spacing = read.potting.spacing.in_metres();
            lot(
                into_pots,
                spacing,
                [batch.number, batch.stands],
                batch.where_at,
                days,
            );
        }
        for week in &detail.weeks {
            let first = day(&week.monday);
            for (place, taken) in week.taken.iter().enumerate() {
                let there = |(from, to, at, share): &(Day, Day, usize, f64)| {
                    let stands = *at == place && *from < first.plus(WEEK) && *to >= first;
                    if stands { *share } else { 0.0 }
                };
                let by_hand: f64 = lots
                    .iter()
                    .map(|stages| there(&stages[0]).max(there(&stages[1])))
                    .sum();
                assert!(
                    (taken - by_hand).abs() < 1e-9,
                    "{}: week of {}, place {place}: {taken}, by hand {by_hand}",
                    monday.iso(),
                    week.monday
                );
            }
        }
    });
}

/// Seed and pots to buy are what the sowings need, less what is in hand.
#[test]
fn the_list_adds_up() {
    season(&mut |_, monday, question, case, answer| {
        let on = monday.iso();
        let detail = &answer.detail;
        let line = |what: &str| {
            detail
                .bought
                .iter()
                .find(|line| line.what.starts_with(what))
        };
        let mut pots: BTreeMap<&str, u32> = BTreeMap::new();
        let mut litres = 0.0;
        for (row, (sowing, asked)) in case.sowings.iter().zip(&question.sowings).enumerate() {
            let sown = || detail.sown.iter().filter(|sown| sown.row == row);
            let seeds: u32 = sown().map(|sown| sown.seeds).sum();
            let short = seeds.saturating_sub(sowing.in_hand);
            let seed = line(&["Seed of ", sowing.crop.name].concat()).unwrap();
            assert_eq!(seed.buy, short.div_ceil(sowing.packet), "{on}: {seed:?}");
            assert!(
                seed.needed.starts_with(&format!("{seeds} seeds")),
                "{on}: {seed:?}"
            );
            let into = pot(&asked.pot).unwrap();
            for sown in sown() {
                *pots.entry(into.name).or_default() += if sown.into_pots {
                    sown.cells
                } else {
                    sown.pots
                };
                let filled = into.filled().in_litres() * 1.1;
                litres +=
                    f64::from(sown.pots.max(if sown.into_pots { sown.cells } else { 0 })) * filled;
                litres += if sown.into_pots {
                    0.0
                } else {
                    f64::from(sown.cells) * 0.03
                };
            }
        }
        for (name, many) in pots {
            let told = line(&["Pots, ", name].concat()).unwrap();
            assert!(told.needed.starts_with(&many.to_string()), "{on}: {told:?}");
        }
        let parts: f64 = case
            .mix
            .parts
            .iter()
            .map(|part| {
                let told = line(&part.name).unwrap();
                let litres = told.needed.split('\u{a0}').next().unwrap().replace(',', "");
                litres.parse::<f64>().unwrap()
            })
            .sum();
        // Loose, parts are 8 in 100 more than the mix of them; each is told to two digits.
        let in_hand = case.mix.stuff.in_hand.in_litres();
        let loose = (litres - in_hand).max(0.0) / 0.92;
        assert!(
            case.mix.parts.is_empty() || (parts / loose - 1.0).abs() < 0.05,
            "{on}: {parts} L told, {loose} by hand"
        );
        let costs: Vec<f64> = detail.bought.iter().filter_map(|line| line.cost).collect();
        let all: f64 = costs.iter().sum();
        assert_eq!(detail.total, (!costs.is_empty()).then_some(all), "{on}");
    });
}
