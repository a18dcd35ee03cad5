//! Known coefficients found again from readings with errors.

use longtom::measure::{Duration, Range, TemperatureDifference};
use longtom::science::heat::air::day_shape::{DayShape, LowestHighest, Neighbours, sun_share};
use longtom::science::heat::column::{
    Column, Course, Moment, NoColumn, Place, Standing, Steps, Surface,
};
use longtom::science::heat::fit::{Coefficient, Known, NoFit, Reading, fit, with_coefficient};
use longtom::science::numerics::draws::Draws;

use crate::common::{celsius, on_floor};

const ERROR_K: f64 = 0.4;

fn error() -> TemperatureDifference {
    TemperatureDifference::from_kelvins(ERROR_K)
}

/// Four days of changing weather in a house, hour by hour.
fn four_days() -> Course {
    let days = [(5.0, 21.0), (3.0, 24.0), (8.0, 17.0), (6.0, 22.0)].map(|(lowest_c, highest_c)| {
        LowestHighest {
            lowest_c,
            highest_c,
        }
    });
    let sun = [350.0, 450.0, 120.0, 400.0];
    let moments = (0..=96usize)
        .map(|hour| {
            let day = (hour / 24).min(3);
            let of_day = hour as f64 - 24.0 * day as f64;
            let near = Neighbours {
                before: days[day.saturating_sub(1)],
                today: days[day],
                after: days[(day + 1).min(3)],
            };
            let air = DayShape::AIR.at(&near, 13.7, of_day);
            Moment {
                sun_w_per_m2: sun[day] * sun_share(13.7, of_day),
                ..Moment::dark(air)
            }
        })
        .collect();
    Course::of_days(moments, Duration::from_hours(1.0)).unwrap()
}

fn standing() -> Standing {
    let mut standing = on_floor(9.0);
    standing.pots.surface = Surface {
        sun: 0.15,
        ..Surface::plain(8.0)
    };
    standing.tray.open = Surface {
        sun: 0.1,
        ..Surface::plain(8.0)
    };
    standing
}

/// What is said of each beforehand.
fn known() -> Vec<Known> {
    vec![
        Known {
            coefficient: Coefficient::PotWalls,
            range: Range::literal(0.5, 1.0, 2.0),
        },
        Known {
            coefficient: Coefficient::FloorAirByNight,
            range: Range::literal(-1.5, -0.5, 0.5),
        },
        Known {
            coefficient: Coefficient::Sun,
            range: Range::literal(0.5, 1.0, 2.0),
        },
    ]
}

/// Readings of roots and water at dawn, noon, afternoon and evening of a standing with these coefficients.
fn read(truth: &[f64], days: u32, chance: &mut Draws) -> Vec<Reading> {
    let (mut standing, mut course) = (standing(), four_days());
    for (known, &value) in known().iter().zip(truth) {
        with_coefficient(&mut standing, &mut course, known.coefficient, value).unwrap();
    }
    let mut column = Column::begun(&standing, &course, Steps::default()).unwrap();
    let record = column
        .through(&course, Duration::from_days(4.0), Duration::from_hours(1.0))
        .unwrap();
    assert!(record.balance.relative_gap() < 1e-6);
    let mut readings = Vec::new();
    for day in 0..days {
        for hour in [6, 12, 16, 21] {
            let at = 24 * day + hour;
            for place in [Place::PotMiddle, Place::Water] {
                let trace = record.trace(place).unwrap();
                readings.push(Reading {
                    place,
                    at: Duration::from_hours(f64::from(at)),
                    temperature: celsius(trace.samples_c[at as usize] + ERROR_K * chance.deviate()),
                });
            }
        }
    }
    readings
}

/// Truths drawn from what is said beforehand, read with errors: the limits of the fit hold eight in ten, and are
/// narrower than those before.
#[test]
fn known_coefficients_are_found_again_within_their_limits() {
    let mut chance = Draws::from_seed(5);
    let (mut within, mut all, mut doubt, mut closer) = (0.0, 0.0, [0.0; 3], 0.0);
    const RUNS: u32 = 24;
    for _ in 0..RUNS {
        let truth: Vec<f64> = known()
            .iter()
            .map(|known| {
                let deviate = chance.deviate().clamp(-2.0, 2.0);
                if known.coefficient.is_factor() {
                    known.range.map_increasing(f64::ln).at(deviate).exp()
                } else {
                    known.range.at(deviate)
                }
            })
            .collect();
        let readings = read(&truth, 3, &mut chance);
        let found = fit(&standing(), &four_days(), &known(), &readings, error()).unwrap();
        for (which, (estimate, truth)) in found.estimates.iter().zip(&truth).enumerate() {
            let range = estimate.range;
            within += f64::from(u8::from(range.low() <= *truth && *truth <= range.high()));
            doubt[which] += estimate.doubt_left / f64::from(RUNS);
            all += 1.0;
        }
        assert!(found.missed.in_kelvins() < 2.0 * ERROR_K);
        closer += f64::from(u8::from(found.missed <= found.missed_before));
    }
    println!(
        "{:.2} within eight in ten; doubt left {doubt:.2?} of walls, air, sun",
        within / all
    );
    // 72 figures of eight in ten: 0.8 ± 0.047.
    assert!((0.68..=0.92).contains(&(within / all)));
    assert!(doubt.into_iter().all(|left| left < 0.8));
    assert!(closer >= f64::from(RUNS) - 1.0);
}

/// Without errors the coefficients come back nearly as they were.
#[test]
fn exact_readings_give_the_coefficients_back() {
    let mut chance = Draws::from_seed(9);
    let truth = [1.4, -1.1, 0.7];
    let mut exact = read(&truth, 4, &mut chance);
    // Take the errors out again by drawing them anew.
    let mut again = Draws::from_seed(9);
    for reading in &mut exact {
        let off = ERROR_K * again.deviate();
        reading.temperature = reading.temperature - TemperatureDifference::from_kelvins(off);
    }
    let sharp = TemperatureDifference::from_kelvins(0.02);
    let found = fit(&standing(), &four_days(), &known(), &exact, sharp).unwrap();
    for (estimate, truth) in found.estimates.iter().zip(truth) {
        println!(
            "{:?}: {:.3} for {truth}",
            estimate.coefficient,
            estimate.range.best()
        );
        assert!((estimate.range.best() - truth).abs() < 0.03 * (1.0 + truth.abs()));
    }
    assert!(found.missed.in_kelvins() < 0.01);
    assert!(found.missed_before.in_kelvins() > 0.3);
}

#[test]
fn too_few_readings_are_told_so() {
    let mut chance = Draws::from_seed(3);
    let truth = [1.0, -0.5, 1.0];
    let (standing, course) = (standing(), four_days());
    let of = |readings: &[Reading]| fit(&standing, &course, &known(), readings, error());
    let readings = read(&truth, 3, &mut chance);
    assert_eq!(of(&readings[..5]).unwrap_err(), NoFit::TooFew { needed: 6 });
    assert_eq!(of(&readings[..8]).unwrap_err(), NoFit::TooShort);
    // Many readings within an hour are one.
    let crowded: Vec<Reading> = (0..40)
        .map(|minute| Reading {
            at: Duration::from_minutes(f64::from(minute) + if minute > 20 { 1440.0 } else { 0.0 }),
            ..readings[0]
        })
        .collect();
    assert_eq!(of(&crowded).unwrap_err(), NoFit::TooFew { needed: 6 });
    let sentence = NoFit::TooFew { needed: 6 }.to_string();
    assert!(sentence.contains("at least 6") && sentence.ends_with('.'));
}

#[test]
fn what_cannot_be_fitted_is_told_so() {
    let mut chance = Draws::from_seed(3);
    let readings = read(&[1.0, -0.5, 1.0], 3, &mut chance);
    let (standing, course) = (standing(), four_days());
    let with = |known: &[Known], readings: &[Reading]| {
        fit(&standing, &course, known, readings, error()).unwrap_err()
    };
    let twice = [known()[0], known()[0]];
    assert_eq!(with(&[], &readings), NoFit::Coefficients);
    assert_eq!(with(&twice, &readings), NoFit::Coefficients);
    let below_nought = Known {
        coefficient: Coefficient::Ground,
        range: Range::literal(-1.0, 1.0, 2.0),
    };
    assert_eq!(with(&[below_nought], &readings), NoFit::Coefficients);
    let mut late = readings.clone();
    late[0].at = Duration::from_days(9.0);
    assert_eq!(with(&known(), &late), NoFit::Reading);
    let mut no_bed = readings.clone();
    no_bed[0].place = Place::Bed;
    assert_eq!(with(&known(), &no_bed), NoFit::Reading);
    let none = TemperatureDifference::from_kelvins(0.0);
    assert_eq!(
        fit(&standing, &course, &known(), &readings, none).unwrap_err(),
        NoFit::ReadingError
    );
    let mut broken = standing.clone();
    broken.floor.layers.clear();
    assert_eq!(
        fit(&broken, &course, &known(), &readings, error()).unwrap_err(),
        NoFit::Column(NoColumn::Floor)
    );
}
