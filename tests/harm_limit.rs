//! Where harm begins, by whether it was seen, beside other means of finding it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::science::counting::standard_normal_share;
use longtom::science::harm_limit::{Before, Trial, limit};
use serde_json::Value;

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// By quadrature of the density put together as a product (scipy, `tests/reference/harm_limit.py`).
#[test]
fn a_limit_is_found_as_by_quadrature() {
    let cases: Value = serde_json::from_str(include_str!("reference/harm_limit.json")).unwrap();
    let mut worst: f64 = 0.0;
    for case in cases.as_array().unwrap() {
        let before = Before {
            mean: number(&case["mean"]),
            spread: number(&case["spread"]),
            scatter: number(&case["scatter"]),
        };
        let trials: Vec<Trial> = case["trials"]
            .as_array()
            .unwrap()
            .iter()
            .map(|trial| Trial {
                reached: number(&trial[0]),
                harmed: trial[1].as_bool().unwrap(),
            })
            .collect();
        let found = limit(&before, &trials);
        worst = worst.max((found.mean - number(&case["limit"])).abs());
        worst = worst.max((found.spread - number(&case["doubt"])).abs());
    }
    println!("limits of harm within {worst:e} of quadrature");
    assert!(worst < 1e-9);
}

/// Of one trial the moments are known in closed form: Rasmussen & Williams 2006, Gaussian Processes for Machine
/// Learning, equations 3.85 and 3.87 (from memory).
#[test]
fn of_one_trial_it_has_the_moments_in_print() {
    for (mean, spread, scatter, reached) in [
        (12.0, 1.5, 1.0, 9.0),
        (5.0, 0.5, 2.0, 6.5),
        (0.0, 3.0, 0.5, -2.0),
    ] {
        let before = Before {
            mean,
            spread,
            scatter,
        };
        let variance: f64 = spread * spread;
        let by: f64 = (variance + scatter * scatter).sqrt();
        let z = (mean - reached) / by;
        let density = (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt();
        let pull = density / standard_normal_share(z);
        let by_print = [
            mean + variance * pull / by,
            (variance - variance * variance * pull / (by * by) * (z + pull)).sqrt(),
        ];
        let found = limit(
            &before,
            &[Trial {
                reached,
                harmed: true,
            }],
        );
        assert!(
            (found.mean - by_print[0]).abs() < 1e-9,
            "{found:?} {by_print:?}"
        );
        assert!(
            (found.spread - by_print[1]).abs() < 1e-9,
            "{found:?} {by_print:?}"
        );
    }
}

/// Harm that is seen never lowers a limit, coming through never raises it, and trials only lessen the doubt.
#[test]
fn trials_draw_it_the_right_way() {
    let before = Before {
        mean: 12.0,
        spread: 1.5,
        scatter: 1.2,
    };
    let mut trials = Vec::new();
    let mut last = limit(&before, &trials);
    assert!((last.mean - before.mean).abs() < 1e-9 && (last.spread - before.spread).abs() < 1e-6);
    for reached in [14.0, 12.0, 9.0, 11.0, 6.0, 12.5] {
        trials.push(Trial {
            reached,
            harmed: false,
        });
        let next = limit(&before, &trials);
        assert!(
            next.mean <= last.mean && next.spread <= last.spread + 1e-9,
            "{reached}"
        );
        last = next;
    }
    for reached in [8.0, 10.0, 12.0] {
        trials.push(Trial {
            reached,
            harmed: true,
        });
        let next = limit(&before, &trials);
        assert!(next.mean >= last.mean, "{reached}");
        last = next;
    }
    // What cannot be leaves what was known.
    let absurd = limit(
        &before,
        &[Trial {
            reached: f64::NAN,
            harmed: true,
        }],
    );
    assert_eq!(absurd.mean.to_bits(), before.mean.to_bits());
}
