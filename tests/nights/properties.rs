//! What must hold of coming nights whatever the case.

use super::common::{Asked, reading};
use longtom::handbook::nights::{SPREAD_TIMES, habits};
use longtom::science::nights::{Forecast, Habit, Memory, Offset, Paths, Reading};
use proptest::prelude::*;

/// So few paths that a run is quick: what must hold, holds of every one.
const PATHS: usize = 96;

prop_compose! {
    fn logs(first: usize)(
        nights in prop::collection::btree_map(0..first, -15.0..25.0_f64, 0..first),
    ) -> Vec<Reading> {
        nights.into_iter().map(|(day, minimum)| reading(day, minimum)).collect()
    }
}

prop_compose! {
    fn habit()(fast in 0.0..0.9_f64, slow in 0.0..0.99_f64, share in 0.0..1.0_f64, times in 0.4..2.0_f64) -> Habit {
        Habit { memory: Memory::new(fast, slow.max(fast), share).unwrap(), spread_times: times, weight: times }
    }
}

prop_compose! {
    fn asked()(
        mean in -5.0..18.0_f64,
        rise in -0.2..0.2_f64,
        spread in 0.5..5.0_f64,
        narrowing in -0.01..0.01_f64,
        expected_k in -2.0..4.0_f64,
        spread_k in prop_oneof![Just(0.0), 0.1..4.0_f64],
        habits in prop::collection::vec(habit(), 1..4),
        log in logs(20),
        told in prop::collection::btree_map(20_usize..41, (-5.0..15.0_f64, 0.2..4.0_f64), 0..7),
    ) -> Asked {
        let days = 41;
        Asked {
            mean_c: (0..days).map(|day| mean + rise * f64::from(day)).collect(),
            spread_k: (0..days).map(|day| spread * (1.0 + narrowing * f64::from(day))).collect(),
            offset: Offset { expected_k, spread_k },
            habits,
            log,
            forecasts: told.into_iter()
                .map(|(day, (minimum_c, error_k))| Forecast { day, minimum_c, error_k })
                .collect(),
            first: 20,
            nights: 21,
        }
    }
}

fn paths(asked: &Asked) -> Paths {
    asked.coming().outlook().unwrap().paths(PATHS).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn chances_are_chances_and_never_rise_with_nights_or_the_limit(asked in asked(), limit in -10.0..20.0_f64) {
        let outlook = asked.coming().outlook().unwrap();
        let paths = outlook.paths(PATHS).unwrap();
        let mut before = 1.0;
        for nights in 0..=23 {
            let chance = paths.chance_all_above(limit, nights);
            prop_assert!((0.0..=1.0).contains(&chance));
            prop_assert!(chance <= before);
            prop_assert!(paths.chance_all_above(limit + 0.3, nights) <= chance);
            before = chance;
        }
        let [early, late] = [0..14, 7..14].map(|stretch| paths.chance_all_above_between(limit, stretch));
        prop_assert!(early <= late);
        let one = outlook.chance_above(20, limit).unwrap();
        prop_assert!((0.0..=1.0).contains(&one));
        prop_assert!(outlook.chance_above(21, limit).is_none());
        prop_assert!((outlook.weights().iter().sum::<f64>() - 1.0).abs() < 1e-12);
        prop_assert!(outlook.spread_k().iter().all(|spread| spread.is_finite() && *spread > 0.0));
    }

    /// Of each night and of all together, and by construction, not within an error.
    #[test]
    fn a_colder_forecast_never_raises_a_chance(
        asked in asked(), place in 0_usize..7, colder in 0.01..8.0_f64, limit in -10.0..20.0_f64,
    ) {
        prop_assume!(!asked.forecasts.is_empty());
        let mut other = asked.clone();
        let place = place % other.forecasts.len();
        other.forecasts[place].minimum_c -= colder;
        let [milder, colder] = [&asked, &other].map(|asked| asked.coming().outlook().unwrap());
        for night in 0..21 {
            let rise = colder.chance_above(night, limit).unwrap() - milder.chance_above(night, limit).unwrap();
            prop_assert!(rise <= 1e-9, "night {night}: {rise}");
        }
        let [milder, colder] = [paths(&asked), paths(&other)];
        for nights in 1..=21 {
            let rise = colder.chance_all_above(limit, nights) - milder.chance_all_above(limit, nights);
            prop_assert!(rise <= 1e-9, "{nights} nights: {rise}");
        }
    }

    /// Under one habit, whatever is read: what a normal quantity is doubted by does not hang on the
    /// values, and one more night takes from it.
    #[test]
    fn a_longer_log_never_widens_the_doubt_of_the_offset(mut asked in asked()) {
        asked.forecasts.clear();
        asked.habits.truncate(1);
        let mut before = f64::INFINITY;
        let log = std::mem::take(&mut asked.log);
        for reading in [None].into_iter().chain(log.into_iter().map(Some)) {
            asked.log.extend(reading);
            let (_, doubt) = asked.coming().outlook().unwrap().offset_k();
            prop_assert!(doubt <= before + 1e-9, "{doubt} after {before}");
            before = doubt;
        }
    }

    /// With the handbook's habits too, where the log goes on as it began: the same nights over again.
    #[test]
    fn nor_does_the_same_log_twice_over(pattern in prop::collection::vec(-6.0..6.0_f64, 5..10), rise in -3.0..3.0_f64) {
        let mut asked = Asked {
            mean_c: vec![7.0; 41],
            spread_k: vec![3.3; 41],
            offset: Offset { expected_k: 0.0, spread_k: 1.5 },
            habits: habits(SPREAD_TIMES).unwrap(),
            log: Vec::new(),
            forecasts: Vec::new(),
            first: 20,
            nights: 21,
        };
        let doubts = [1, 2].map(|times| {
            let length = pattern.len() * times;
            asked.log = (0..length)
                .map(|day| reading(20 - length + day, 7.0 + rise + pattern[day % pattern.len()]))
                .collect();
            asked.coming().outlook().unwrap().offset_k().1
        });
        prop_assert!(doubts[1] <= doubts[0] + 1e-9, "{doubts:?}");
    }

    /// A log a kelvin warmer throughout never makes a colder outlook, under one habit.
    #[test]
    fn a_warmer_log_never_makes_a_colder_mean(mut asked in asked()) {
        asked.habits.truncate(1);
        asked.forecasts.clear();
        let cold = asked.coming().outlook().unwrap().mean_c();
        for reading in &mut asked.log {
            reading.minimum_c += 1.0;
        }
        let warm = asked.coming().outlook().unwrap().mean_c();
        prop_assert!(cold.iter().zip(&warm).all(|(cold, warm)| *warm >= cold - 1e-9));
    }
}

/// The same question has the same answer to the last digit.
#[test]
fn paths_repeat_themselves() {
    let asked = Asked {
        mean_c: vec![7.0; 30],
        spread_k: vec![3.0; 30],
        offset: Offset {
            expected_k: 2.0,
            spread_k: 1.5,
        },
        habits: habits(SPREAD_TIMES).unwrap(),
        log: (0..9).map(|day| reading(day, 8.0)).collect(),
        forecasts: Vec::new(),
        first: 9,
        nights: 21,
    };
    let chances = [0, 1].map(|_| paths(&asked).chance_all_above(4.0, 14).to_bits());
    assert_eq!(chances[0], chances[1]);
}
