//! The months of the handbook's places, the course between them, and the sun: against FAO-56, an
//! almanac's algorithm and printed normals.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::handbook::climates::{CLIMATES, MJ_PER_DAY_IN_WATT, SPREAD_SOURCE, climate};
use longtom::handbook::sources::{ALL, Standing};
use longtom::science::numerics::quadrature::integral;
use longtom::science::sun;
use longtom::science::year_course::{MONTH_DAYS, course_by_epstein_1991, months_at_noon, on_day};
use proptest::prelude::*;

fn near(found: f64, printed: f64, within: f64, what: &str) {
    assert!(
        (found - printed).abs() <= within,
        "{what}: {found}, printed {printed}"
    );
}

mod the_sun {
    use super::*;

    /// FAO-56 examples 8 and 9: 20° S on 3 September (day 246): dr 0.985, δ 0.120, ωs 1.527,
    /// Ra 32.2 MJ/m² d, N 11.7 h.
    #[test]
    fn examples_8_and_9_of_fao_56() {
        near(sun::inverse_relative_distance(246.0), 0.985, 0.0005, "dr");
        near(sun::declination(246.0), 0.120, 0.0005, "declination");
        near(
            sun::sunset_hour_angle(-20.0, 246.0),
            1.527,
            0.0005,
            "sunset",
        );
        near(
            sun::extraterrestrial_mj_per_m2(-20.0, 246.0),
            32.2,
            0.05,
            "Ra",
        );
        near(sun::daylight_hours(-20.0, 246.0), 11.7, 0.05, "N");
    }

    /// FAO-56 example 10: Rio de Janeiro, 22°54' S, 15 May (day 135), 220 h of sun in the month:
    /// Ra 25.1, N 10.9, Rs 14.5 MJ/m² d.
    #[test]
    fn example_10_of_fao_56() {
        let rio = -22.9;
        near(
            sun::extraterrestrial_mj_per_m2(rio, 135.0),
            25.1,
            0.05,
            "Ra",
        );
        near(sun::daylight_hours(rio, 135.0), 10.9, 0.05, "N");
        near(
            sun::radiation_from_sunshine(rio, 135.0, 220.0 / 31.0),
            14.5,
            0.06,
            "Rs",
        );
    }

    /// FAO-56 examples 15, 17 and 18: Lyon, 45°43' N, July: Ra 40.6; Bangkok, 13°44' N, 15 April:
    /// Ra 38.06, N 12.31; Uccle, 50°48' N, 6 July, 9.25 h of sun: Ra 41.09, N 16.1, Rs 22.07.
    #[test]
    fn examples_15_17_and_18_of_fao_56() {
        let (lyon, bangkok, uccle) = (45.0 + 43.0 / 60.0, 13.0 + 44.0 / 60.0, 50.8);
        near(
            sun::extraterrestrial_mj_per_m2(lyon, 196.0),
            40.6,
            0.05,
            "Ra",
        );
        near(
            sun::extraterrestrial_mj_per_m2(bangkok, 105.0),
            38.06,
            0.01,
            "Ra",
        );
        near(sun::daylight_hours(bangkok, 105.0), 12.31, 0.005, "N");
        near(
            sun::extraterrestrial_mj_per_m2(uccle, 187.0),
            41.09,
            0.01,
            "Ra",
        );
        near(sun::daylight_hours(uccle, 187.0), 16.1, 0.05, "N");
        near(
            sun::radiation_from_sunshine(uccle, 187.0, 9.25),
            22.07,
            0.01,
            "Rs",
        );
    }

    /// Sunrise to sunset at 52° N 0° E, 2025, by the Solar Position Algorithm (Reda & Andreas 2004,
    /// as in the library pvlib 0.16.1): 16.735 h on 21 June, 7.743 h on 21 December. Forsythe et al.
    /// 1995 state an error of up to seven minutes at 60°.
    #[test]
    fn long_and_short_days_are_those_of_the_almanac() {
        let length = |day| sun::day_length_hours(52.0, day, sun::SUNRISE_DEGREES);
        near(length(172.0), 16.735, 2.0 / 60.0, "21 June");
        near(length(355.0), 7.743, 2.0 / 60.0, "21 December");
    }

    /// London, 51.5° N, from memory of printed almanacs: 20 March 12 h 09 min, 21 June 16 h 38 min,
    /// 22 September 12 h 13 min, 21 December 7 h 50 min.
    #[test]
    fn days_of_london_are_those_remembered() {
        let printed = [
            (79.0, 12.0, 9.0),
            (172.0, 16.0, 38.0),
            (265.0, 12.0, 13.0),
            (355.0, 7.0, 50.0),
        ];
        for (day, hours, minutes) in printed {
            let found = sun::day_length_hours(51.5, day, sun::SUNRISE_DEGREES);
            near(found, hours + minutes / 60.0, 5.0 / 60.0, "a day of London");
        }
    }

    #[test]
    fn beyond_the_polar_circle_there_are_days_without_night() {
        for (latitude, day, hours) in [(70.0, 172.0, 24.0), (70.0, 355.0, 0.0), (-70.0, 172.0, 0.0)]
        {
            near(sun::daylight_hours(latitude, day), hours, 1e-9, "centre");
            let seen = sun::day_length_hours(latitude, day, sun::SUNRISE_DEGREES);
            near(seen, hours, 1e-9, "seen");
            let above = sun::extraterrestrial_mj_per_m2(latitude, day);
            assert_eq!(above > 1.0, hours > 0.0, "{latitude}: {above}");
            assert!(above > -1e-9 && sun::radiation_from_sunshine(latitude, day, 5.0).is_finite());
        }
    }

    proptest! {
        #[test]
        fn the_two_lengths_of_day_agree(latitude in -60.0..60.0_f64, day in 1.0..366.0_f64) {
            // Without refraction. The declination of FAO-56 strays by a degree in autumn.
            let centre = sun::day_length_hours(latitude, day, 0.0);
            let fao = sun::daylight_hours(latitude, day);
            prop_assert!((centre - fao).abs() < 0.45, "{centre} and {fao}");
            let seen = sun::day_length_hours(latitude, day, sun::SUNRISE_DEGREES);
            let twilight = sun::day_length_hours(latitude, day, sun::CIVIL_TWILIGHT_DEGREES);
            prop_assert!(twilight > seen && seen > centre);
        }

        #[test]
        fn more_sunshine_is_more_radiation_and_never_all(
            latitude in -60.0..60.0_f64, day in 1.0..366.0_f64, hours in 0.0..16.0_f64,
        ) {
            let less = sun::radiation_from_sunshine(latitude, day, hours);
            let more = sun::radiation_from_sunshine(latitude, day, hours + 1.0);
            let top = sun::extraterrestrial_mj_per_m2(latitude, day);
            prop_assert!(less <= more && more < 0.750_001 * top && less > 0.249_999 * top);
        }
    }
}

mod the_course_of_the_year {
    use super::*;

    proptest! {
        #[test]
        fn each_month_keeps_its_mean(means in prop::array::uniform12(-20.0..40.0_f64)) {
            for (month, mean) in means.into_iter().enumerate() {
                let start = month as f64;
                let kept = integral(start, start + 1.0, |months| course_by_epstein_1991(&means, months));
                prop_assert!((kept - mean).abs() < 1e-10, "month {month}: {kept} for {mean}");
            }
        }

        #[test]
        fn days_of_a_month_average_to_it(means in prop::array::uniform12(-20.0..40.0_f64)) {
            let mut day = 0.0;
            for (month, mean) in means.into_iter().enumerate() {
                let days = MONTH_DAYS[month];
                let sum: f64 = (1..=days as u32).map(|d| on_day(&means, day + f64::from(d))).sum();
                prop_assert!((sum / days - mean).abs() < 0.15, "month {month}: {}", sum / days);
                day += days;
            }
        }

        #[test]
        fn the_year_joins(means in prop::array::uniform12(-20.0..40.0_f64), day in 1.0..366.0_f64) {
            let jump = on_day(&means, 365.5 - 1e-6) - on_day(&means, 0.5 + 1e-6);
            prop_assert!(jump.abs() < 1e-3);
            prop_assert!((on_day(&means, day) - on_day(&means, day + 365.0)).abs() < 1e-8);
        }
    }

    #[test]
    fn a_sine_is_found_again_from_its_monthly_means() {
        // The mean over a month of cos(2πt/12) about its middle m is cos(2πm/12) · sin(π/12)/(π/12).
        let turn = std::f64::consts::TAU / 12.0;
        let flattened = (turn / 2.0).sin() / (turn / 2.0);
        let means = std::array::from_fn(|month| {
            10.0 - 8.0 * flattened * (turn * (month as f64 + 0.5)).cos()
        });
        for step in 0..120 {
            let months = f64::from(step) / 10.0;
            let truth = 10.0 - 8.0 * (turn * months).cos();
            near(
                course_by_epstein_1991(&means, months),
                truth,
                1e-12,
                "the sine",
            );
        }
    }

    #[test]
    fn noon_of_known_days_lies_in_their_month() {
        near(months_at_noon(1.0), 0.5 / 31.0, 1e-12, "1 January");
        near(months_at_noon(32.0), 1.0 + 0.5 / 28.0, 1e-12, "1 February");
        near(
            months_at_noon(365.0),
            11.0 + 30.5 / 31.0,
            1e-12,
            "31 December",
        );
        near(months_at_noon(366.0), months_at_noon(1.0), 1e-12, "and on");
        near(MONTH_DAYS.iter().sum(), 365.0, 0.0, "a year");
        near(
            on_day(&[7.5; 12], 100.0),
            7.5,
            1e-12,
            "a year without seasons",
        );
    }
}

mod places {
    use super::*;

    fn year_of(monthly: &[f64; 12]) -> f64 {
        monthly
            .iter()
            .zip(MONTH_DAYS)
            .map(|(value, days)| value * days)
            .sum()
    }

    #[test]
    fn every_place_is_sane_and_has_its_source() {
        let mut south = 48.0;
        for place in CLIMATES {
            assert_eq!(climate(place.key), Some(place));
            assert!(
                place.weather().latitude > south && place.weather().latitude < 58.0,
                "{}",
                place.key
            );
            south = place.weather().latitude;
            assert!(
                (-8.0..15.0).contains(&place.weather().longitude)
                    && (0.0..300.0).contains(&place.weather().height_m)
            );
            assert!(
                place.weather().years[1] - place.weather().years[0] >= 19,
                "{}: too few years",
                place.key
            );
            assert!(
                [
                    place.weather().source,
                    place.weather().sky_source,
                    SPREAD_SOURCE
                ]
                .iter()
                .all(|source| ALL.contains(source))
            );
            for month in 0..12 {
                assert!(
                    place.weather().lowest_c[month] + 4.0 < place.weather().highest_c[month],
                    "{} {month}",
                    place.key
                );
                assert!((-5.0..15.0).contains(&place.weather().lowest_c[month]));
                assert!((20.0..110.0).contains(&place.weather().rain_mm[month]));
                assert!((2.0..7.0).contains(&place.weather().wind_m_per_s[month]));
            }
            let published = place.weather().source.standing == Standing::Published;
            assert_eq!(published, place.key != "netherlands", "{}", place.key);
        }
        assert_eq!(climate("moon"), None);
    }

    /// Met Office, historic station data, 2001 to 2020 (reference/stations.txt): the handbook has their
    /// means, rounded.
    #[test]
    fn months_are_the_means_of_the_station_series() {
        let mut checked = 0;
        for series in include_str!("reference/stations.txt").split('@').skip(1) {
            let (station, years) = series.split_once('\n').unwrap();
            let place = CLIMATES
                .iter()
                .find(|place| place.weather().station.to_lowercase() == station)
                .unwrap();
            let years: Vec<Vec<[f64; 3]>> = years
                .lines()
                .map(|year| {
                    year.split(',')
                        .map(|month| {
                            let tenths: Vec<f64> = month
                                .split(' ')
                                .map(|number| number.parse::<f64>().unwrap() / 10.0)
                                .collect();
                            tenths.try_into().unwrap()
                        })
                        .collect()
                })
                .collect();
            assert_eq!(
                years.len(),
                usize::from(place.weather().years[1] - place.weather().years[0]) + 1
            );
            for month in 0..12 {
                let mean = |of: usize| {
                    years.iter().map(|year| year[month][of]).sum::<f64>() / years.len() as f64
                };
                near(place.weather().highest_c[month], mean(0), 0.051, station);
                near(place.weather().lowest_c[month], mean(1), 0.051, station);
                near(place.weather().rain_mm[month], mean(2), 0.51, station);
                checked += 1;
            }
        }
        assert_eq!(checked, 6 * 12);
    }

    /// SAP 2012 table U1, mean temperature of the region around in an older period, °C, January and
    /// July.
    #[test]
    fn mean_temperatures_are_those_of_the_region() {
        for (key, january, july) in [
            ("east_anglia", 4.7, 17.6),
            ("east_scotland", 3.6, 14.6),
            ("northern_ireland", 4.8, 15.0),
            ("north_east_england", 4.0, 15.8),
            ("west_midlands", 4.3, 16.6),
            ("south_west_england", 4.9, 16.7),
        ] {
            let place = climate(key).unwrap();
            let mean = |month: usize| {
                f64::midpoint(
                    place.weather().highest_c[month],
                    place.weather().lowest_c[month],
                )
            };
            near(mean(0), january, 0.8, key);
            near(mean(6), july, 0.8, key);
        }
    }

    /// The same stations in 1991 to 2020, worked out apart from the same series: mean minimum of
    /// January, May and July 1.9, 7.4, 12.6 °C at Cambridge, 1.2, 6.7, 11.5 °C at Shawbury. The
    /// twenty later years are a little warmer.
    #[test]
    fn minima_are_those_of_thirty_years_and_a_little_warmer() {
        for (key, normals) in [
            ("east_anglia", [1.9, 7.4, 12.6]),
            ("west_midlands", [1.2, 6.7, 11.5]),
        ] {
            let place = climate(key).unwrap();
            for (month, normal) in [0, 4, 6].into_iter().zip(normals) {
                let warmer = place.weather().lowest_c[month] - normal;
                assert!((-0.05..0.35).contains(&warmer), "{key} {month}: {warmer}");
            }
        }
    }

    /// What is printed of De Bilt for 1981 to 2010 (Statistics Netherlands): radiation 354 kJ/cm² a
    /// year, rain 887 mm, humidity 82 %, mean minimum of winter 0.5 and mean maximum of summer
    /// 21.9 °C.
    #[test]
    fn the_remembered_place_agrees_with_what_is_printed_of_it() {
        let place = climate("netherlands").unwrap();
        let kilojoules_per_cm2 =
            year_of(&place.weather().radiation_w_per_m2) * MJ_PER_DAY_IN_WATT / 10.0;
        near(kilojoules_per_cm2, 354.0, 2.0, "radiation");
        near(
            place.weather().rain_mm.iter().sum(),
            887.0,
            0.05 * 887.0,
            "rain",
        );
        near(
            place
                .weather()
                .humidity_percent
                .unwrap()
                .iter()
                .sum::<f64>()
                / 12.0,
            82.0,
            1.0,
            "humidity",
        );
        let winter = (place.weather().lowest_c[11]
            + place.weather().lowest_c[0]
            + place.weather().lowest_c[1])
            / 3.0;
        let summer = (place.weather().highest_c[5]
            + place.weather().highest_c[6]
            + place.weather().highest_c[7])
            / 3.0;
        near(winter, 0.5, 0.8, "winter minimum");
        near(summer, 21.9, 0.8, "summer maximum");
    }

    /// Nine nights of January and two of April freeze in lowland England (seven stations, 1991 to
    /// 2020: 8.95 and 2.24 days of air frost), none of July.
    #[test]
    fn the_coldest_night_freezes_when_it_should() {
        for place in CLIMATES {
            for month in 0..12 {
                let coldest = place.coldest_night_c(month).unwrap();
                assert!(coldest.high() < place.weather().lowest_c[month] - 3.0);
                let dew = place.dew_point_c(month).unwrap();
                assert!(dew.low() < dew.best() && dew.high() < place.weather().highest_c[month]);
            }
            let coldest = |month| place.coldest_night_c(month).unwrap();
            assert!(
                coldest(0).high() < 0.0 && coldest(3).best() < 0.0,
                "{}",
                place.key
            );
            assert!(coldest(6).best() > 3.0, "{}", place.key);
            assert_eq!(
                (place.coldest_night_c(12), place.dew_point_c(12)),
                (None, None)
            );
        }
    }

    #[test]
    fn the_course_stays_near_the_months_and_below_the_sun() {
        for place in CLIMATES {
            let low = place
                .weather()
                .lowest_c
                .iter()
                .copied()
                .fold(f64::INFINITY, f64::min);
            let high = place
                .weather()
                .highest_c
                .iter()
                .copied()
                .fold(f64::NEG_INFINITY, f64::max);
            for day in 1..=365 {
                let day = f64::from(day);
                assert!(place.lowest_on(day) > low - 1.0 && place.highest_on(day) < high + 1.0);
                assert!(
                    place.lowest_on(day) + 3.0 < place.highest_on(day),
                    "{} {day}",
                    place.key
                );
                let top = sun::extraterrestrial_mj_per_m2(place.weather().latitude, day);
                let share = place.radiation_on(day) / top;
                assert!(
                    (0.18..0.62).contains(&share),
                    "{} {day}: {share}",
                    place.key
                );
            }
        }
    }

    #[test]
    fn the_north_is_cooler_in_summer_and_darker_in_winter() {
        let [south, north] = ["east_anglia", "east_scotland"].map(|key| climate(key).unwrap());
        assert!(north.highest_on(196.0) < south.highest_on(196.0));
        assert!(north.radiation_on(355.0) < south.radiation_on(355.0));
    }
}
