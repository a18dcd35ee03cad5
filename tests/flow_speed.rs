//! How quick the flow of water is solved: told by `make bench`, never asserted, for it hangs on the machine
//! and on what else it does. Left out of the usual run of tests.
//!
//! The day of `equal_error` is solved by `reference/flow_speed.py` as well, with a general-purpose library, and
//! the two are held together there at equal error.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::fmt::Write;
use std::sync::Arc;
use std::time::Instant;

use longtom::measure::{Area, Conductivity, DecimalMark, Duration, Entry, Length, Suction};
use longtom::reckon::Reckoning;
use longtom::reckon::bed::{Bed, Question};
use longtom::reckon::doubt::{DRAWS, SEED};
use longtom::science::conductivity::{MUALEM_TORTUOSITY, Medium, Paths};
use longtom::science::flow::{
    Contact, Filling, Flow, Foot, HalfSine, Joint, Layer, Roots, Station, Steps, Stress, Table,
    Top, Weather,
};
use longtom::science::retention::{PoreSystem, Retention};

const DAY_S: f64 = 86_400.0;
const HOUR_S: f64 = 3600.0;
/// The quickest of so many: the machine has other work.
const TRIES: usize = 5;

fn cm_per_day(k: f64) -> Conductivity {
    Conductivity::from_centimetres_per_day(k)
}

/// Coarse perlite: gaps that drain at about a centimetre, and grains that hold on. The shape is that of the
/// survey in `flow.rs`.
fn perlite() -> Arc<Table> {
    let pores = |alpha, n| PoreSystem::new(alpha, n).unwrap();
    let retention =
        Retention::double(0.129, 0.80, 0.685, pores(0.8, 3.0), pores(0.4204, 1.404)).unwrap();
    let paths = Paths::Two {
        between: cm_per_day(1e5),
        within: cm_per_day(5.0),
    };
    let medium = Medium::new(retention, paths, MUALEM_TORTUOSITY).unwrap();
    Arc::new(Table::new(&medium).unwrap())
}

/// The shape of an open mix of peat and perlite.
fn mix() -> Arc<Table> {
    let pores = PoreSystem::new(0.12, 1.6).unwrap();
    let retention = Retention::single(0.10, 0.88, pores).unwrap();
    let saturated = cm_per_day(1000.0);
    let medium = Medium::new(retention, Paths::One { saturated }, MUALEM_TORTUOSITY).unwrap();
    Arc::new(Table::new(&medium).unwrap())
}

/// A round pot on perlite of its own width.
struct Pot {
    name: &'static str,
    base_cm: f64,
    top_cm: f64,
    fill_cm: f64,
    ground_cm2: f64,
    litres_a_day: f64,
}

const SMALL: Pot = Pot {
    name: "10 cm pot",
    base_cm: 7.0,
    top_cm: 9.7,
    fill_cm: 8.0,
    ground_cm2: 144.0,
    litres_a_day: 0.2,
};
const LARGE: Pot = Pot {
    name: "8.5 L pot",
    base_cm: 20.0,
    top_cm: 25.3,
    fill_cm: 18.5,
    ground_cm2: 1225.0,
    litres_a_day: 1.0,
};
const BED_CM: f64 = 5.0;
const LEVEL_M: f64 = 0.02;

fn round(breadth_cm: f64) -> Area {
    Area::from_square_centimetres(std::f64::consts::FRAC_PI_4 * breadth_cm * breadth_cm)
}

/// Bed and mix are cut at so many millimetres.
fn flow(pot: &Pot, spacing_mm: [f64; 2], filling: Filling) -> Flow {
    let layer = |medium, height_cm, low, high, spacing_mm, joint| Layer {
        medium,
        height: Length::from_centimetres(height_cm),
        base: round(low),
        top: round(high),
        footprint: round(low),
        spacing: Length::from_millimetres(spacing_mm),
        joint,
    };
    let in_ball = |z: f64| f64::from(u8::from(z > BED_CM / 100.0));
    let [free, wilted] = [30.0, 300.0].map(Suction::from_centimetres_of_water);
    let station = Station {
        layers: vec![
            layer(
                perlite(),
                BED_CM,
                pot.base_cm,
                pot.base_cm,
                spacing_mm[0],
                Joint::Laid,
            ),
            layer(
                mix(),
                pot.fill_cm,
                pot.base_cm,
                pot.top_cm,
                spacing_mm[1],
                Joint::Contact(Contact::bedded()),
            ),
        ],
        roots: Some(Roots {
            stress: Stress::of_thirst_alone(free, wilted).unwrap(),
            density: &in_ball,
            demand_m3_per_s: pot.litres_a_day * 1e-3 / DAY_S,
        }),
        foot: Foot::Tray,
        top: Top::Open,
        ground: Area::from_square_centimetres(pot.ground_cm2),
        floor: Length::from_millimetres(0.0),
        count: 1.0,
    };
    Flow::new(&[station], filling, LEVEL_M, &|_, z| LEVEL_M - z).unwrap()
}

fn sun() -> HalfSine {
    HalfSine::new(Duration::from_hours(5.0), Duration::from_hours(20.0))
}

fn run(flow: &mut Flow, until_s: f64, steps: &Steps) {
    let sun = sun();
    let weather = Weather {
        demand: &|t| sun.multiple(t),
        ..Weather::still()
    };
    flow.run(until_s, &weather, steps, &mut |_| ()).unwrap();
}

/// Milliseconds of a day from the start, and the flow at its end.
fn timed(flow: &mut Flow, steps: &Steps) -> f64 {
    (0..TRIES)
        .map(|_| {
            flow.begin(LEVEL_M, &|_, z| LEVEL_M - z).unwrap();
            let begun = Instant::now();
            run(flow, DAY_S, steps);
            1e3 * begun.elapsed().as_secs_f64()
        })
        .fold(f64::INFINITY, f64::min)
}

fn finest() -> Steps {
    Steps {
        first_s: 0.1,
        tolerance: 1e-6,
        ..Steps::default()
    }
}

/// A day of the usual pots on 50 mm of coarse perlite with a float, as accurate as is stated: nodes times
/// steps in a second, milliseconds, and how far off a run is that is cut four times as fine.
#[test]
#[ignore = "timings, for make bench"]
fn a_day_of_the_usual_pots() {
    for pot in [SMALL, LARGE] {
        let filling = || Filling::Float {
            opens_at_m: 0.0,
            shuts_at_m: LEVEL_M,
            rate_m3_per_s: pot.ground_cm2 * 2e-6 / 600.0,
            delay_s: 0.0,
        };
        let ball_mm = 10.0 * pot.fill_cm / 24.0;
        let mut usual = flow(&pot, [2.5, ball_mm], filling());
        let ms = timed(&mut usual, &Steps::default());
        let (steps, iterations) = usual.effort();
        let mut fine = flow(&pot, [0.625, ball_mm / 4.0], filling());
        run(&mut fine, DAY_S, &finest());
        let drunk = |flow: &Flow| 1e6 * flow.balance().drunk_m3;
        let air = |flow: &Flow| {
            let (water, pores) = flow.water_between(0, BED_CM / 100.0, 1.0);
            100.0 * (pores - water) / pores
        };
        println!(
            "a day of a {} on 50 mm of coarse perlite: {ms:.2} ms, {} heights, {steps} steps, {iterations} iterations, {:.2} million node-steps a second, {:.2} million node-iterations; drunk {:.2} mL (finest {:.2}), pores empty {:.2} % (finest {:.2})",
            pot.name,
            usual.nodes(),
            1e-3 * (usual.nodes() * steps) as f64 / ms,
            1e-3 * (usual.nodes() * iterations) as f64 / ms,
            drunk(&usual),
            drunk(&fine),
            air(&usual),
            air(&fine),
        );
    }
}

/// The whole of Bed as a page asks for it: so many draws at every depth, and the flow solved in full at
/// some of them until one day is like the next.
#[test]
#[ignore = "timings, for make bench"]
fn a_settled_answer() {
    for (name, large) in [("10 cm pot", false), ("8.5 L pot", true)] {
        let mut question = Question::default();
        if large {
            question.pot.size = "round_8_5_l".to_owned();
            question.bench.spacing = Entry::new("350", "mm");
            question.plant.drinks = Entry::new("1000", "mL");
        }
        let case = Bed::check(&question, DecimalMark::Point).unwrap();
        let mut under_way = Bed::begin(case.clone(), DRAWS, SEED).unwrap();
        let begun = Instant::now();
        while under_way.progress().0 < DRAWS {
            under_way.advance(1).unwrap();
        }
        let drawn_ms = 1e3 * begun.elapsed().as_secs_f64();
        let mut days = Vec::new();
        loop {
            let day = Instant::now();
            let done = under_way.advance(1).unwrap();
            if done {
                break;
            }
            days.push(1e3 * day.elapsed().as_secs_f64());
        }
        let doubt = under_way.finish();
        let all_ms = 1e3 * begun.elapsed().as_secs_f64();
        let answer = Bed::answer(&case, Some(&doubt)).unwrap();
        let runs = answer.detail.runs.len();
        days.sort_by(f64::total_cmp);
        println!(
            "Bed of a {name}: all {all_ms:.0} ms, of which {DRAWS} draws at {} depths {drawn_ms:.0} ms and {} days of {runs} runs until settled {:.0} ms (a day {:.2} ms in the middle, {:.2} at most; a settled run {:.0} ms on average)",
            answer.detail.depths.len(),
            days.len(),
            days.iter().sum::<f64>(),
            days[days.len() / 2],
            days[days.len() - 1],
            days.iter().sum::<f64>() / runs as f64,
        );
    }
}

/// From dawn to two hours after sunset out of a tray that is not filled again: heads and level at set hours by several cuts
/// and tolerances, with the time each took, for `reference/flow_speed.py` to hold its own to. Written where
/// `FLOW_SPEED` says.
#[test]
#[ignore = "timings, for make bench"]
fn equal_error() {
    const HOURS: [f64; 5] = [8.0, 11.0, 14.0, 17.0, 22.0];
    const HEIGHTS_CM: [f64; 6] = [1.0, 3.0, 4.5, 6.0, 9.0, 12.0];
    let pot = Pot {
        ground_cm2: 238.5,
        ..SMALL
    };
    let mut text = String::from("[\n");
    for (finer, tolerance, first_s) in [
        (0.5, 3e-3, 1.0),
        (1.0, 1e-3, 1.0),
        (2.0, 3e-4, 1.0),
        (4.0, 1e-4, 0.1),
        (8.0, 1e-5, 0.1),
        (16.0, 1e-6, 0.1),
    ] {
        let steps = Steps {
            first_s,
            tolerance,
            ..Steps::default()
        };
        let mut cut = flow(
            &pot,
            [2.5 / finer, 10.0 * pot.fill_cm / 24.0 / finer],
            Filling::Never,
        );
        let mut heads = Vec::new();
        let mut quickest = f64::INFINITY;
        for _ in 0..TRIES {
            heads.clear();
            cut.begin(LEVEL_M, &|_, z| LEVEL_M - z).unwrap();
            let begun = Instant::now();
            for hour in HOURS {
                run(&mut cut, hour * HOUR_S, &steps);
                let points: Vec<(f64, f64)> = cut.heads_m(0).collect();
                heads.push(100.0 * cut.level_m());
                heads.extend(HEIGHTS_CM.map(|height_cm| {
                    let at = height_cm / 100.0;
                    let above = points
                        .partition_point(|(z, _)| *z < at)
                        .clamp(1, points.len() - 1);
                    let ((z0, h0), (z1, h1)) = (points[above - 1], points[above]);
                    100.0 * (h0 + (at - z0) / (z1 - z0).max(1e-12) * (h1 - h0))
                }));
            }
            quickest = quickest.min(1e3 * begun.elapsed().as_secs_f64());
        }
        let comma = if finer < 16.0 { "," } else { "" };
        writeln!(
            text,
            "  {{\"heights\": {}, \"tolerance\": {tolerance:e}, \"ms\": {quickest:.4}, \"heads_cm\": {heads:?}}}{comma}",
            cut.nodes(),
        )
        .unwrap();
    }
    text.push_str("]\n");
    match std::env::var("FLOW_SPEED") {
        Ok(place) => std::fs::write(place, text).unwrap(),
        Err(_) => print!("{text}"),
    }
}
