//! Values of general-purpose libraries and independent quadrature.

use longtom::measure::{Length, Range};
use longtom::science::blend::{Blend, Part};
use longtom::science::container::Vessel;
use longtom::science::numerics::draws::{Draws, standard_normal_quantile};
use longtom::science::numerics::quadrature::{integral, integral_in_pieces};
use longtom::science::numerics::roots::root_between;
use longtom::science::retention::{PoreSystem, Retention, brooks_corey_water_content};
use rand_core::{Rng, SeedableRng};
use serde_json::Value;

fn reference() -> Value {
    serde_json::from_str(include_str!("../reference/container.json")).unwrap()
}

fn rows<'a>(reference: &'a Value, name: &str) -> &'a Vec<Value> {
    reference[name].as_array().unwrap()
}

/// A number that stands as text, to the last bit.
fn exact(value: &Value) -> f64 {
    match value {
        Value::String(text) => text.parse().unwrap(),
        whole => whole.as_f64().unwrap(),
    }
}

fn number(row: &Value, name: &str) -> f64 {
    exact(&row[name])
}

fn text<'a>(row: &'a Value, name: &str) -> &'a str {
    row[name].as_str().unwrap()
}

fn retention(row: &Value) -> Retention {
    let pores = |name: &str| PoreSystem::new(exact(&row[name][0]), exact(&row[name][1])).unwrap();
    Retention::double(
        number(row, "residual"),
        number(row, "saturated"),
        number(row, "coarse_share"),
        pores("coarse"),
        pores("fine"),
    )
    .unwrap()
}

fn vessel(row: &Value) -> (Vessel, Length) {
    let length = |name: &str| Length::from_centimetres(number(row, name));
    let (base, rim, height) = (length("base_cm"), length("rim_cm"), length("height_cm"));
    let vessel = match text(row, "outline") {
        "round" => Vessel::round(base, rim, height),
        _ => Vessel::square(base, rim, height),
    };
    (vessel, length("fill_cm"))
}

/// The larger of two errors, and the larger is remembered.
fn note(worst: &mut f64, error: f64) -> f64 {
    *worst = worst.max(error);
    error
}

/// Closed forms by mpmath's 2F1, confirmed by scipy's adaptive quadrature: seven curves, eight
/// pots, water at the base, above it and below it.
#[test]
fn mean_water_of_pots_is_that_of_the_closed_form() {
    /// Fraction of volume: far below anything that is weighed.
    const TOLERANCE: f64 = 1e-8;
    let reference = reference();
    let (mut worst, mut relative) = (0.0, 0.0);
    for row in rows(&reference, "containers") {
        let curve = retention(&reference["curves"][text(row, "curve")]);
        let (vessel, fill) = vessel(&reference["pots"][text(row, "pot")]);
        let level = Length::from_centimetres(number(row, "level_cm"));
        let ours = vessel.mean_over(fill, level, |suction| curve.water_content(suction));
        note(&mut relative, (ours / number(row, "mean") - 1.0).abs());
        let error = note(&mut worst, (ours - number(row, "mean")).abs());
        assert!(error < TOLERANCE, "{row}: {ours}, off by {error:e}");
    }
    println!("container means: worst error {worst:.1e} of volume, {relative:.1e} of itself");
}

/// Closed forms of Brooks & Corey, with the published parameters of three peats among them.
#[test]
fn brooks_and_corey_integrate_to_their_closed_form() {
    const TOLERANCE: f64 = 1e-12;
    let mut worst = 0.0;
    for row in rows(&reference(), "brooks_corey") {
        let of = |name: &str| number(row, name);
        let (entry, height) = (of("air_entry_cm"), of("height_cm"));
        let water = |suction: f64| {
            brooks_corey_water_content(
                of("residual"),
                of("saturated"),
                entry,
                of("lambda"),
                suction,
            )
        };
        let ours = integral_in_pieces(&[0.0, entry.min(height), height], water) / height;
        let error = note(&mut worst, (ours / of("mean") - 1.0).abs());
        assert!(error < TOLERANCE, "{row}: {ours}, off by {error:e}");
    }
    println!("Brooks and Corey: worst relative error {worst:.1e}");
}

/// A curve with a corner that the rule is not told of, as that of a capped blend has: the
/// container integral still serves, to far less than a point of water.
#[test]
fn a_corner_in_the_curve_costs_less_than_a_tenth_of_a_point() {
    const TOLERANCE: f64 = 1e-3;
    let mut worst = 0.0;
    for row in rows(&reference(), "brooks_corey") {
        let of = |name: &str| number(row, name);
        let height = Length::from_centimetres(of("height_cm"));
        let width = Length::from_centimetres(8.0);
        let ours = Vessel::round(width, width, height).mean_over(
            height,
            Length::from_metres(0.0),
            |suction| {
                brooks_corey_water_content(
                    of("residual"),
                    of("saturated"),
                    of("air_entry_cm"),
                    of("lambda"),
                    suction,
                )
            },
        );
        let error = note(&mut worst, (ours - of("mean")).abs());
        assert!(error < TOLERANCE, "{row}: {ours}, off by {error:e}");
    }
    println!("a corner in the curve: worst error {worst:.1e} of volume");
}

/// The blend written anew in Python and integrated by scipy.integrate.quad in short pieces: its
/// curve has corners, of which our rule is not told.
#[test]
fn mean_water_of_blends_is_that_of_quadrature() {
    /// Fraction of volume: a fiftieth of a point.
    const TOLERANCE: f64 = 2e-4;
    let reference = reference();
    let mut worst = 0.0;
    for row in rows(&reference, "blends") {
        let parts = row["parts"].as_array().unwrap().iter().map(|part| {
            let retention = retention(&reference["curves"][text(part, "curve")]);
            Part {
                share: number(part, "share"),
                dry_density_kg_per_m3: 100.0,
                pore_space: retention.saturated(),
                retention,
            }
        });
        let blend = Blend::new(
            parts.collect(),
            number(row, "lost"),
            number(row, "widest_first"),
        );
        assert!((blend.soaked() - number(row, "soaked")).abs() < 1e-12);
        let height = Length::from_centimetres(number(row, "height_cm"));
        let ours = Vessel::round(height, height, height).mean_over(
            height,
            Length::from_metres(0.0),
            |suction| blend.water_content(suction),
        );
        let error = note(&mut worst, (ours - number(row, "mean")).abs());
        assert!(error < TOLERANCE, "{row}: {ours}, off by {error:e}");
    }
    println!("blends: worst error {worst:.1e} of volume");
}

/// scipy.integrate.quad over the cross-section.
#[test]
fn volumes_of_frustums_are_those_of_quadrature() {
    const TOLERANCE: f64 = 1e-13;
    let reference = reference();
    let mut worst = 0.0;
    for row in rows(&reference, "frustums") {
        let (vessel, fill) = vessel(&reference["pots"][text(row, "pot")]);
        let ours = vessel.volume_to(fill).in_millilitres();
        let error = note(&mut worst, (ours / number(row, "millilitres") - 1.0).abs());
        assert!(error < TOLERANCE, "{row}: {ours}");
    }
    println!("frustums: worst relative error {worst:.1e}");
}

/// scipy.stats.norm.ppf, refined by mpmath to 40 figures and rounded once, from 1e-300 up.
/// Wichura's algorithm promises about 1e-16; four roundings are allowed on top.
#[test]
fn normal_quantiles_are_right_to_the_far_tails() {
    const TOLERANCE: f64 = 1e-15;
    let mut worst = 0.0;
    for row in rows(&reference(), "normal_quantiles") {
        let ours = standard_normal_quantile(number(row, "share"));
        let error = note(&mut worst, (ours / number(row, "deviate") - 1.0).abs());
        assert!(error < TOLERANCE, "{row}: {ours}, off by {error:e}");
    }
    println!("normal quantiles: worst relative error {worst:.1e}");
}

/// Two half-normal distributions that meet at the median: their distribution function by
/// scipy.stats.norm.cdf, inverted by scipy.optimize.brentq.
#[test]
fn quantiles_of_a_range_are_those_of_its_two_halves() {
    const TOLERANCE: f64 = 1e-12;
    let mut worst = 0.0;
    for row in rows(&reference(), "split_normal_quantiles") {
        let of = |name: &str| number(row, name);
        let range = Range::new(of("low"), of("best"), of("high")).unwrap();
        let ours = range.at(standard_normal_quantile(of("share")));
        let error = note(
            &mut worst,
            (ours - of("figure")).abs() / (of("high") - of("low")),
        );
        assert!(error < TOLERANCE, "{row}: {ours}");
    }
    println!("split-normal quantiles: worst error {worst:.1e} of the width");
}

/// mpmath: zeros of the Legendre polynomial of degree 32 and their weights, rounded once. Each
/// place where the rule asks for the function is a node, and what it makes of a function that is one
/// there and nought elsewhere is the weight.
#[test]
fn nodes_and_weights_are_those_of_gauss_and_legendre() {
    const TOLERANCE: f64 = 1e-15;
    let mut nodes = Vec::new();
    integral(-1.0, 1.0, |x| {
        nodes.push(x);
        0.0
    });
    nodes.sort_by(f64::total_cmp);
    let reference = reference();
    let exact = rows(&reference, "gauss_legendre_32");
    assert_eq!(nodes.len(), exact.len());
    for (&node, row) in nodes.iter().zip(exact) {
        let weight = integral(-1.0, 1.0, |x| {
            f64::from(u8::from(x.to_bits() == node.to_bits()))
        });
        assert!(
            (node - number(row, "node")).abs() < TOLERANCE,
            "{row}: {node}"
        );
        assert!(
            (weight - number(row, "weight")).abs() < TOLERANCE,
            "{row}: {weight}"
        );
    }
}

/// The rule of 32 points is exact up to degree 63 and not beyond (Abramowitz & Stegun 25.4.29).
#[test]
fn polynomials_integrate_exactly_up_to_degree_63() {
    const TOLERANCE: f64 = 1e-14;
    let mut worst = 0.0;
    for degree in 0..=63 {
        let power = |x: f64| x.powi(degree);
        let exact = 1.0 / f64::from(degree + 1);
        let error = note(&mut worst, (integral(0.0, 1.0, power) / exact - 1.0).abs());
        assert!(error < TOLERANCE, "degree {degree}: off by {error:e}");
    }
    println!("polynomials up to degree 63: worst relative error {worst:.1e}");
    let monic = |degree: i32| {
        move |x: f64| {
            let (mut before, mut now) = (1.0, x);
            for k in 1..degree {
                let k = f64::from(k);
                (before, now) = (now, ((2.0 * k + 1.0) * x * now - k * before) / (k + 1.0));
            }
            now
        }
    };
    // The square of the Legendre polynomial of degree 32 is of degree 64 and nought at each node.
    let p = monic(32);
    assert!(integral(-1.0, 1.0, |x| p(x).powi(2)).abs() < 1e-20);
}

/// A function of the published test problems, as in Alefeld, Potra & Shi 1995, ACM Transactions on
/// Mathematical Software 21:327, table I.
fn problem(number: u64, n: f64) -> Box<dyn Fn(f64) -> f64> {
    match number {
        1 => Box::new(|x| x.sin() - x / 2.0),
        2 => Box::new(|x| {
            (1..=20)
                .map(f64::from)
                .map(|i| -2.0 * (2.0 * i - 5.0).powi(2) / (x - i * i).powi(3))
                .sum()
        }),
        3 => {
            let (a, b) = [(-40.0, -1.0), (-100.0, -2.0), (-200.0, -3.0)][n as usize];
            Box::new(move |x| a * x * f64::exp(b * x))
        }
        4 => Box::new(move |x| x.powf(n) - 0.2),
        5 => Box::new(|x| x.sin() - 0.5),
        6 => Box::new(move |x| 2.0 * x * (-n).exp() - 2.0 * (-n * x).exp() + 1.0),
        7 => Box::new(move |x| (1.0 + (1.0 - n).powi(2)) * x - (1.0 - n * x).powi(2)),
        8 => Box::new(move |x| x * x - (1.0 - x).powf(n)),
        9 => Box::new(move |x| (1.0 + (1.0 - n).powi(4)) * x - (1.0 - n * x).powi(4)),
        10 => Box::new(move |x| (-n * x).exp() * (x - 1.0) + x.powf(n)),
        11 => Box::new(move |x| (n * x - 1.0) / ((n - 1.0) * x)),
        12 => Box::new(move |x| x.powf(1.0 / n) - n.powf(1.0 / n)),
        14 => Box::new(move |x| {
            if x >= 0.0 {
                n / 20.0 * (x / 1.5 + x.sin() - 1.0)
            } else {
                -n / 20.0
            }
        }),
        _ => Box::new(move |x| {
            if x > 2e-3 / (1.0 + n) {
                std::f64::consts::E - 1.859
            } else if x >= 0.0 {
                ((n + 1.0) * x / 2.0 * 1e3).exp() - 1.859
            } else {
                -0.859
            }
        }),
    }
}

/// scipy.optimize.brentq on those problems. And what the method promises: never more calls than
/// bisection and one (Oliveira & Takahashi 2020, theorem 2.1), here with the two at the ends, and one
/// more where rounding leaves the last interval a hair wider than it was reckoned to be.
#[test]
fn roots_of_published_problems_are_found_in_the_promised_steps() {
    const TOLERANCE: f64 = 1e-12;
    let (mut worst, mut calls_in_all, mut bisection_in_all) = (0.0, 0, 0);
    for row in rows(&reference(), "roots") {
        let (low, high, root) = (number(row, "low"), number(row, "high"), number(row, "root"));
        let f = problem(row["problem"].as_u64().unwrap(), number(row, "n"));
        let mut calls = 0;
        let ours = root_between(low, high, TOLERANCE, |x| {
            calls += 1;
            f(x)
        })
        .unwrap();
        let rounding = 4.0 * f64::EPSILON * root.abs().max(1e-3);
        let error = note(&mut worst, (ours - root).abs());
        assert!(
            error <= TOLERANCE + rounding,
            "{row}: {ours}, off by {error:e}"
        );
        let bisection = ((high - low) / (2.0 * TOLERANCE)).log2().ceil() as usize;
        assert!(
            calls <= bisection + 4,
            "{row}: {calls} calls where bisection takes {bisection}"
        );
        calls_in_all += calls;
        bisection_in_all += bisection;
    }
    println!(
        "roots: worst error {worst:.1e}; {calls_in_all} calls where bisection takes {bisection_in_all}"
    );
}

/// The generator itself: the published first outputs for a state of 42
/// (`check-mcg-128-xsl-rr-64.out`, test suite of O'Neill's PCG library in C).
#[test]
fn the_stream_is_the_published_one() {
    let mut generator = rand_pcg::Pcg64Mcg::from_seed(42u128.to_le_bytes());
    let outputs: Vec<u64> = (0..6).map(|_| generator.next_u64()).collect();
    let published = [
        0x63b4_a3a8_13ce_700a,
        0x3829_5420_0617_ab24,
        0xa7fd_85ae_3fe9_50ce,
        0xd715_286a_a288_7737,
        0x60c9_2fee_2e59_f32c,
        0x84c4_e96b_eff3_0017,
    ];
    assert_eq!(outputs, published);
}

/// Our draws for a seed, against the generator written anew in Python: to the last bit.
#[test]
fn draws_of_a_seed_are_the_same_everywhere() {
    for row in rows(&reference(), "pcg") {
        let mut draws = Draws::from_seed(text(row, "seed").parse().unwrap());
        for expected in row["uniforms"].as_array().unwrap() {
            assert_eq!(
                draws.uniform().to_bits(),
                exact(expected).to_bits(),
                "{row}"
            );
        }
    }
}
