//! Chances, means and spreads against scipy, scikit-learn and statsmodels.

use super::common::{Asked, near, reading, records};
use longtom::handbook::climates::{NIGHT_SPREAD_C, YEAR_SPREAD_C};
use longtom::handbook::nights::{FAST, SLOW, SLOW_SHARE, SPREAD_TIMES, habits};
use longtom::science::counting::student_share;
use longtom::science::nights::{
    Forecast, Habit, LogAlone, Memory, NoOutlook, Offset, Paths, Season, last_cold_night,
    nights_that_count,
};
use longtom::science::numerics::draws::Draws;
use serde_json::Value;

/// A chance of several nights lies within this of the library's.
const WITHIN: f64 = 0.001;

fn reference(name: &str) -> Vec<Value> {
    let all: Value = serde_json::from_str(include_str!("../reference/nights.json")).unwrap();
    all[name].as_array().unwrap().clone()
}

fn number(value: &Value) -> f64 {
    value.as_str().unwrap().parse().unwrap()
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

fn count(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}

fn steady(mean_c: f64, spread_k: f64, log: Option<f64>, nights: usize, memory: Memory) -> Asked {
    Asked {
        mean_c: vec![mean_c; nights + 1],
        spread_k: vec![spread_k; nights + 1],
        offset: Offset {
            expected_k: 0.0,
            spread_k: 0.0,
        },
        habits: Habit::certain(memory).to_vec(),
        log: log.map(|last| reading(0, last)).into_iter().collect(),
        forecasts: Vec::new(),
        first: 1,
        nights,
    }
}

/// Simpson's rule night by night, and scipy's integral of the multivariate normal.
#[test]
fn one_memory_without_offset() {
    let mut worst: f64 = 0.0;
    for row in reference("one_memory") {
        let [mean, spread, memory] = [0, 1, 2].map(|place| number(&row[place]));
        let last = (!row[3].is_null()).then(|| number(&row[3]));
        let (limit, nights, printed) = (number(&row[4]), count(&row[5]), number(&row[6]));
        let memory = Memory::of_one_speed(memory).unwrap();
        let asked = steady(mean, spread, last, nights, memory);
        let paths = asked.coming().outlook().unwrap().paths(Paths::MANY);
        let found = paths.unwrap().chance_all_above(limit, nights);
        worst = worst.max((found - printed).abs());
        near(found, printed, WITHIN, &row.to_string());
    }
    println!("one memory: chances within {worst:.5} of the recursion");
}

/// scikit-learn's Gaussian process and scipy's integral of the multivariate normal.
#[test]
fn two_memories_an_offset_and_a_log_with_gaps() {
    let (mut worst_mean, mut worst_chance): (f64, f64) = (0.0, 0.0);
    for case in reference("given_log") {
        let (first, nights) = (count(&case["first"]), count(&case["nights"]));
        let of = |name: &str| number(&case[name]);
        let memory = Memory::new(of("fast"), of("slow"), of("share")).unwrap();
        let days = case["days"].as_array().unwrap().iter().map(count);
        let asked = Asked {
            mean_c: (0..first + nights)
                .map(|day| of(if day < first { "behind" } else { "ahead" }))
                .collect(),
            spread_k: vec![of("sigma"); first + nights],
            offset: Offset {
                expected_k: of("b0"),
                spread_k: of("tau"),
            },
            habits: Habit::certain(memory).to_vec(),
            log: days
                .zip(numbers(&case["log"]))
                .map(|(day, minimum)| reading(day, minimum))
                .collect(),
            forecasts: Vec::new(),
            first,
            nights,
        };
        let outlook = asked.coming().outlook().unwrap();
        let covariance = &outlook.covariance_k2()[0];
        for (found, printed) in [
            (&outlook.mean_c(), &case["mean"]),
            (&outlook.spread_k(), &case["spread"]),
            (covariance, &case["covariance_of_first"]),
        ] {
            let printed = numbers(printed);
            assert_eq!(found.len(), printed.len());
            for (found, printed) in found.iter().zip(printed) {
                worst_mean = worst_mean.max((found - printed).abs());
                near(*found, printed, 1e-8, "mean, spread or covariance");
            }
        }
        let paths = outlook.paths(Paths::MANY).unwrap();
        for row in case["all_above"].as_array().unwrap() {
            let (all, limit, printed) = (count(&row[0]), number(&row[1]), number(&row[2]));
            let found = paths.chance_all_above(limit, all);
            worst_chance = worst_chance.max((found - printed).abs());
            near(found, printed, WITHIN, &row.to_string());
            if all == 1 {
                near(
                    outlook.chance_above(0, limit).unwrap(),
                    printed,
                    1e-10,
                    "a single night",
                );
            }
        }
    }
    println!("given a log: means within {worst_mean:.1e}, chances within {worst_chance:.5}");
}

/// More paths change a chance by less than the promised errors.
#[test]
fn more_paths_change_little() {
    let habits = habits(SPREAD_TIMES).unwrap();
    let asked = Asked {
        habits,
        offset: Offset {
            expected_k: 2.0,
            spread_k: 1.5,
        },
        ..steady(6.0, 3.3, Some(7.0), 21, Memory::of_one_speed(0.0).unwrap())
    };
    let mut told = asked.clone();
    told.forecasts = (1..8)
        .map(|day| Forecast {
            day,
            minimum_c: 6.0,
            error_k: 1.5,
        })
        .collect();
    let outlooks = [asked, told].map(|asked| asked.coming().outlook().unwrap());
    let most = outlooks
        .each_ref()
        .map(|outlook| outlook.paths(4 * Paths::MANY).unwrap());
    for (count, within) in [(Paths::MANY, 0.002), (Paths::QUICK, 0.006)] {
        let mut worst: f64 = 0.0;
        for (outlook, most) in outlooks.iter().zip(&most) {
            let fewer = outlook.paths(count).unwrap();
            for limit in [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0] {
                for nights in [1, 7, 14, 21] {
                    let apart = fewer.chance_all_above(limit, nights)
                        - most.chance_all_above(limit, nights);
                    worst = worst.max(apart.abs());
                }
            }
        }
        println!("{count} paths within {worst:.5} of four times as many");
        assert!(worst < within, "{worst}");
    }
}

/// A forecast without error is a reading; one with an error gives its night that mean and that
/// spread, and the rest by Gauss's formulae, worked here for one memory: the next night follows by φ.
#[test]
fn forecasts_are_taken_at_their_word() {
    let memory = Memory::of_one_speed(0.6).unwrap();
    let told = |error_k: f64| Asked {
        forecasts: vec![Forecast {
            day: 1,
            minimum_c: 2.0,
            error_k,
        }],
        ..steady(9.0, 3.0, Some(8.0), 7, memory)
    };
    let sure = told(1e-6).coming().outlook().unwrap();
    let mut read = steady(9.0, 3.0, None, 7, memory);
    read.log = vec![reading(0, 8.0), reading(1, 2.0)];
    (read.first, read.nights) = (2, 6);
    let read = read.coming().outlook().unwrap();
    for (night, (told, read)) in sure.mean_c()[1..].iter().zip(read.mean_c()).enumerate() {
        near(*told, read, 1e-5, &format!("mean of night {night}"));
    }
    for (told, read) in sure.spread_k()[1..].iter().zip(read.spread_k()) {
        near(*told, read, 1e-5, "spread");
    }
    let doubtful = told(1.5).coming().outlook().unwrap();
    near(doubtful.mean_c()[0], 2.0, 1e-12, "the forecast night");
    near(doubtful.spread_k()[0], 1.5, 1e-12, "its error");
    near(
        doubtful.mean_c()[1],
        9.0 + 0.6 * (2.0 - 9.0),
        1e-9,
        "the next",
    );
    let next = (9.0 * (1.0 - 0.36) + 0.36 * 2.25_f64).sqrt();
    near(doubtful.spread_k()[1], next, 1e-9, "its spread");
}

/// The share of springs over by a day, by a recursion backwards on a lattice; and the dates of the
/// generic site at 52° N.
#[test]
fn dates_of_the_last_cold_night() {
    let season = numbers(&Value::Array(reference("season")));
    let spread = vec![3.3; season.len()];
    for row in reference("last_cold") {
        let [limit, phi, share] = [0, 1, 2].map(|place| number(&row[place]));
        let habits = Habit::certain(Memory::of_one_speed(phi).unwrap());
        let last = last_cold_night(
            Season {
                mean_c: &season,
                spread_k: &spread,
            },
            Offset {
                expected_k: 0.0,
                spread_k: 0.0,
            },
            &habits,
            limit,
            8000,
            7,
        )
        .unwrap();
        let (day, printed) = (count(&row[3]), number(&row[4]));
        near(
            last.share_over_before(day + 1),
            printed,
            0.017,
            &row.to_string(),
        );
        near(
            last.over_by(share).unwrap() as f64,
            day as f64,
            2.0,
            &row.to_string(),
        );
    }
}

/// scipy.stats.t.
#[test]
fn student_from_the_log_alone() {
    for row in reference("student_share") {
        let [deviate, degrees, printed] = [0, 1, 2].map(|place| number(&row[place]));
        near(
            student_share(deviate, degrees),
            printed,
            1e-12,
            &row.to_string(),
        );
    }
    for row in reference("student") {
        let values = numbers(&row[0]);
        let [phi, limit, counted, times, printed] =
            [1, 2, 3, 4, 5].map(|place| number(&row[place]));
        let memory = Memory::of_one_speed(phi).unwrap();
        let log: Vec<_> = values
            .iter()
            .enumerate()
            .map(|(day, minimum)| reading(day, *minimum))
            .collect();
        let alone = LogAlone::of(&log, &memory).unwrap();
        near(alone.nights_that_count, counted, 1e-9, "nights that count");
        near(alone.spread_times, times, 1e-9, "spread");
        near(alone.chance_above(limit), printed, 1e-10, "chance");
    }
    // n/(1 + 2 Σ (1 - k/n) 0.6^k) for 10, 14 and 28 nights.
    for (nights, printed) in [(10, 3.073), (14, 4.041), (28, 7.502)] {
        let days: Vec<usize> = (0..nights).collect();
        let memory = Memory::of_one_speed(0.6).unwrap();
        near(
            nights_that_count(&days, &memory).unwrap(),
            printed,
            0.0005,
            "count",
        );
    }
}

/// Simulated logs of one memory: the night beyond the limit that nine in ten should stay above does
/// so about as often, where the textbook's form falls short.
#[test]
fn the_log_alone_is_hardly_over_sure() {
    let memory = Memory::of_one_speed(0.6).unwrap();
    let (kept, nights, logs) = (0.6_f64, 14, 20_000);
    let anew = (1.0 - kept * kept).sqrt();
    let mut draws = Draws::from_seed(3);
    let mut sums = [0.0, 0.0];
    for _ in 0..logs {
        let mut strayed = draws.deviate();
        let log: Vec<_> = (0..nights)
            .map(|day| {
                let read = reading(day, strayed);
                strayed = kept * strayed + anew * draws.deviate();
                read
            })
            .collect();
        // A night of the same spell, but so far on that only the mean is shared.
        let night = draws.deviate();
        for (sum, memory) in sums
            .iter_mut()
            .zip([memory, Memory::of_one_speed(0.0).unwrap()])
        {
            let alone = LogAlone::of(&log, &memory).unwrap();
            *sum += f64::from(u8::from(alone.chance_above(night) < 0.9));
        }
    }
    let [corrected, textbook] = sums.map(|sum| 1.0 - sum / f64::from(logs));
    // The chance that a night stays above what it turned out to be is even over 0 to 1.
    println!("above the 1-in-10 limit: corrected {corrected:.3}, textbook {textbook:.3}");
    near(corrected, 0.1, 0.03, "corrected");
    assert!(corrected < textbook);
}

/// The handbook's habits hold what a least-squares fit of two exponentials gives for the record that
/// they were fitted to: 0.549, 0.952 and 0.096 by scipy over 60 days of lag.
#[test]
fn the_memory_is_that_of_the_record_it_was_fitted_to() {
    let record = records()
        .into_iter()
        .find(|record| record.key == "clemson_early")
        .unwrap();
    let strayed = super::back_test::standardised(&record);
    let correlation = |lag: usize| {
        let pairs: Vec<(f64, f64)> = strayed
            .iter()
            .zip(&strayed[lag..])
            .filter_map(|(one, other)| Some(((*one)?, (*other)?)))
            .collect();
        pairs.iter().map(|(one, other)| one * other).sum::<f64>() / pairs.len() as f64
    };
    let whole = correlation(0);
    let best = [FAST, SLOW, SLOW_SHARE].map(|figure| figure.range.best());
    let memory = Memory::new(best[0], best[1], best[2]).unwrap();
    let squares: f64 = (1..=60)
        .map(|lag| (correlation(lag) / whole - memory.correlation(lag)).powi(2))
        .sum();
    let apart = (squares / 60.0).sqrt();
    let alone = Memory::of_one_speed(correlation(1) / whole).unwrap();
    let squares: f64 = (1..=60)
        .map(|lag| (correlation(lag) / whole - alone.correlation(lag)).powi(2))
        .sum();
    let apart_alone = (squares / 60.0).sqrt();
    println!("two speeds {apart:.4} from the record, one speed {apart_alone:.4}");
    assert!(apart < 0.015, "{apart}");
    assert!(apart < 0.7 * apart_alone, "{apart} {apart_alone}");
}

/// English stations, 1991 to 2020: the spread of a month's mean minimum between years by that of a
/// single night, which long memory makes large. The year's mean of it lies within the handbook's short
/// and long memory; from April to August it lies below, so that the handbook is there on the careful
/// side.
#[test]
fn the_memory_holds_what_months_of_english_stations_show() {
    let month: Vec<usize> = (0..30).collect();
    let of = |fast: f64, share: f64| {
        let memory = Memory::new(fast, SLOW.range.best(), share).unwrap();
        nights_that_count(&month, &memory).unwrap().sqrt().recip()
    };
    let short = of(FAST.range.low(), SLOW_SHARE.range.low());
    let long = of(FAST.range.high(), SLOW_SHARE.range.high());
    let shown: Vec<f64> = YEAR_SPREAD_C
        .iter()
        .zip(NIGHT_SPREAD_C)
        .map(|(year, night)| year / night)
        .collect();
    let mean = shown.iter().sum::<f64>() / 12.0;
    println!("a month's mean by a night: {short:.3} to {long:.3}, shown {mean:.3} {shown:.2?}");
    assert!((short..=long).contains(&mean), "{short} {mean} {long}");
    assert!(shown.iter().all(|shown| *shown < long));
    assert!(shown[3..8].iter().all(|shown| *shown < short));
}

#[test]
fn what_cannot_be_reckoned_is_refused_with_the_reason() {
    let memory = Memory::of_one_speed(0.5).unwrap();
    let sound = || steady(7.0, 3.0, Some(7.0), 7, memory);
    let refused = |change: fn(&mut Asked)| {
        let mut asked = sound();
        change(&mut asked);
        asked.coming().outlook().unwrap_err()
    };
    assert!(sound().coming().outlook().is_ok());
    for (found, reason) in [
        (refused(|asked| asked.nights = 0), NoOutlook::Nights),
        (refused(|asked| asked.nights = 61), NoOutlook::Nights),
        (refused(|asked| asked.nights = 8), NoOutlook::Season),
        (refused(|asked| asked.spread_k[3] = 0.0), NoOutlook::Season),
        (
            refused(|asked| asked.mean_c[3] = f64::NAN),
            NoOutlook::Season,
        ),
        (refused(|asked| asked.first = usize::MAX), NoOutlook::Season),
        (
            refused(|asked| asked.offset.spread_k = -1.0),
            NoOutlook::Offset,
        ),
        (refused(|asked| asked.habits.clear()), NoOutlook::Habits),
        (
            refused(|asked| asked.habits[0].weight = 0.0),
            NoOutlook::Habits,
        ),
        (
            refused(|asked| asked.log.push(reading(0, 7.0))),
            NoOutlook::Log,
        ),
        (
            refused(|asked| asked.log.push(reading(1, 7.0))),
            NoOutlook::Log,
        ),
        (
            refused(|asked| asked.log[0].minimum_c = f64::NAN),
            NoOutlook::Log,
        ),
        (
            refused(|asked| {
                asked.forecasts.push(Forecast {
                    day: 0,
                    minimum_c: 2.0,
                    error_k: 1.5,
                });
            }),
            NoOutlook::Forecast,
        ),
        (
            refused(|asked| {
                asked.forecasts.push(Forecast {
                    day: 2,
                    minimum_c: 2.0,
                    error_k: 0.0,
                });
            }),
            NoOutlook::Forecast,
        ),
        (Memory::new(1.0, 0.5, 0.1).unwrap_err(), NoOutlook::Memory),
        (Memory::new(0.5, 0.5, 1.1).unwrap_err(), NoOutlook::Memory),
    ] {
        assert_eq!(found, reason);
        assert!(found.to_string().ends_with('.'));
    }
    assert!(LogAlone::of(&[reading(0, 1.0), reading(1, 2.0)], &memory).is_none());
    assert!(LogAlone::of(&[0, 1, 2].map(|day| reading(day, 4.0)), &memory).is_none());
}
