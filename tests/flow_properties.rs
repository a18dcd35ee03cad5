//! What must hold of the flow of water whatever the case, beside `flow.rs`: similar media, and columns of
//! layers and tapers at rest.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::sync::Arc;

use longtom::measure::{Area, Conductivity, Length};
use longtom::science::conductivity::{Curves, MUALEM_TORTUOSITY, Medium, Paths};
use longtom::science::flow::steady::{break_height_m, flux_m_per_s};
use longtom::science::flow::{
    Filling, Flow, Foot, Joint, Layer, Station, Steps, Table, Top, Weather,
};
use longtom::science::retention::{PoreSystem, Retention};
use proptest::prelude::*;

const DAY_S: f64 = 86_400.0;

/// θr, θs, α 1/cm, n, Ks cm/day.
fn van_genuchten(residual: f64, saturated: f64, alpha: f64, n: f64, ks: f64) -> Medium {
    let pores = PoreSystem::new(alpha, n).unwrap();
    let retention = Retention::single(residual, saturated, pores).unwrap();
    let saturated = Conductivity::from_centimetres_per_day(ks);
    Medium::new(retention, Paths::One { saturated }, MUALEM_TORTUOSITY).unwrap()
}

/// One medium in several grades, each so many times as fine as the one before, the coarsest first: suctions
/// as one over the grain, conductivity as its square (Miller & Miller 1956).
fn grades(coarsest: Medium, finer: f64) -> Vec<Medium> {
    (0..6)
        .map(|grade| coarsest.similar(finer.powi(-grade)))
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// At a flux under a tenth of what the finest conducts when full, the height at which the link breaks
    /// never falls as grains get finer.
    #[test]
    fn finer_grains_of_similar_media_lift_higher(
        alpha in 0.2..3.0f64,
        n in 1.8..6.0f64,
        ks in 1e3..1e6f64,
        finer in 1.1..2.0f64,
        share in 1e-6..0.1f64,
    ) {
        let grades = grades(van_genuchten(0.02, 0.38, alpha, n, ks), finer);
        let finest = grades.last().unwrap().saturated_conductivity();
        let flux = share * finest.in_metres_per_second();
        let heights: Vec<f64> = grades
            .iter()
            .map(|medium| break_height_m(medium, flux, 0.0))
            .collect();
        for pair in heights.windows(2) {
            prop_assert!(pair[1] >= pair[0] * (1.0 - 1e-9), "{heights:?}");
        }
    }
}

/// Near the water it may be otherwise: over a hair of height the coarser carries more.
#[test]
fn near_the_water_the_coarser_carries_more() {
    let grades = grades(van_genuchten(0.02, 0.38, 0.2, 3.5, 5400.0), 2.0);
    let over = |height_m: f64, suction_m: f64| -> Vec<f64> {
        grades
            .iter()
            .take(3)
            .map(|medium| flux_m_per_s(medium, height_m, 0.0, suction_m))
            .collect()
    };
    let (near, far) = (over(0.005, 0.02), over(0.15, 1.0));
    println!("over 5 mm {near:?}, over 150 mm {far:?}");
    assert!(near.windows(2).all(|pair| pair[0] > pair[1]), "{near:?}");
    assert!(far.windows(2).all(|pair| pair[0] < pair[1]), "{far:?}");
}

/// Simpson's rule, of something else than the solver's own sums.
fn simpson(from: f64, to: f64, f: impl Fn(f64) -> f64) -> f64 {
    const PIECES: u32 = 20_000;
    let step = (to - from) / f64::from(PIECES);
    (0..PIECES)
        .map(|piece| {
            let low = from + step * f64::from(piece);
            step / 6.0 * (f(low) + 4.0 * f(low + 0.5 * step) + f(low + step))
        })
        .sum()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]

    /// Left alone over water, layers that widen or narrow come to hang from it: each head is its depth below
    /// the level, and the water of each layer is its curve summed over its section.
    #[test]
    fn layers_and_tapers_come_to_rest(
        bed_mm in 10.0..60.0f64,
        pot_mm in 40.0..150.0f64,
        narrow in 0.4..1.0f64,
        widens in 1.0..2.5f64,
        level_mm in -20.0..40.0f64,
        full_at_first in any::<bool>(),
    ) {
        let (sand, mix) = (
            // Carsel & Parrish 1988, sand (from memory), and the shape of a mix.
            van_genuchten(0.045, 0.43, 0.145, 2.68, 712.8),
            van_genuchten(0.10, 0.88, 0.12, 1.60, 1000.0),
        );
        let foot = 0.01;
        let joint = foot * narrow;
        let top = joint * widens;
        let layer = |medium: &Medium, mm: f64, low: f64, high: f64| Layer {
            medium: Arc::new(Table::new(medium).unwrap()),
            height: Length::from_millimetres(mm),
            base: Area::from_square_metres(low),
            top: Area::from_square_metres(high),
            footprint: Area::from_square_metres(low),
            spacing: Length::from_millimetres(2.0),
            joint: Joint::Laid,
        };
        let level_m = level_mm / 1000.0;
        let station = Station {
            layers: vec![layer(&sand, bed_mm, foot, joint), layer(&mix, pot_mm, joint, top)],
            roots: None,
            foot: Foot::Head(level_m),
            top: Top::Open,
            ground: Area::from_square_metres(foot),
            floor: Length::from_millimetres(0.0),
            count: 1.0,
        };
        let start = if full_at_first { -1e-3 } else { -0.5 };
        let mut flow = Flow::new(&[station], Filling::Never, 0.0, &|_, _| start).unwrap();
        let steps = Steps { longest_s: 1e7, ..Steps::default() };
        flow.run(400.0 * DAY_S, &Weather::still(), &steps, &mut |_| ()).unwrap();
        prop_assert!(flow.balance().relative_gap() < 1e-6);
        for (z, head) in flow.heads_m(0) {
            prop_assert!((head - (level_m - z)).abs() < 1e-3, "{z}: {head}");
        }
        let bed_m = bed_mm / 1000.0;
        let all_m = bed_m + pot_mm / 1000.0;
        // Breadths run in a straight line, so roots of sections do.
        let section = |z: f64, from: f64, to: f64, low: f64, high: f64| {
            (low.sqrt() + (z - from) / (to - from) * (high.sqrt() - low.sqrt())).powi(2)
        };
        for (medium, from, to, low, high) in
            [(&sand, 0.0, bed_m, foot, joint), (&mix, bed_m, all_m, joint, top)]
        {
            let found = flow.water_between(0, from, to).0;
            let exact = simpson(from, to, |z| {
                section(z, from, to, low, high) * medium.water_content((z - level_m).max(0.0))
            });
            prop_assert!((found / exact - 1.0).abs() < 2e-3, "{found} {exact}");
        }
    }
}
