//! What the outside world says of the flow of water through a bed and a pot: conductivity, steady
//! flow, wicking, the published problems of Richards' equation, and what must hold whatever the case.
//!
//! Values of general-purpose libraries are in `reference/flow.json`, made by `reference/flow.py`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::sync::Arc;

use longtom::measure::{Area, Conductivity, Duration, Length, Suction};
use longtom::science::conductivity::{
    BrooksCorey, Curves, MUALEM_TORTUOSITY, Medium, NotAConductor, Paths, Theory,
};
use longtom::science::flow::{
    Contact, Filling, Flow, Foot, HalfSine, Joint, Layer, NoFlow, NotAStation, NotCurves, Roots,
    Station, Steps, Stress, Table, Top, Weather,
};
use longtom::science::numerics::draws::Draws;
use longtom::science::retention::{PoreSystem, Retention};
use proptest::prelude::*;

const DAY_S: f64 = 86_400.0;
const HOUR_S: f64 = 3600.0;

fn cm_per_day(k: f64) -> Conductivity {
    Conductivity::from_centimetres_per_day(k)
}

fn cm_water(s: f64) -> Suction {
    Suction::from_centimetres_of_water(s)
}

fn mm(x: f64) -> Length {
    Length::from_millimetres(x)
}

fn cm2(x: f64) -> Area {
    Area::from_square_centimetres(x)
}

/// θr, θs, α 1/cm, n, Ks cm/day.
fn van_genuchten(residual: f64, saturated: f64, alpha: f64, n: f64, ks: f64) -> Medium {
    let pores = PoreSystem::new(alpha, n).unwrap();
    let retention = Retention::single(residual, saturated, pores).unwrap();
    let saturated = cm_per_day(ks);
    Medium::new(retention, Paths::One { saturated }, MUALEM_TORTUOSITY).unwrap()
}

/// θr, θs, w, (α, n) between and within the grains, and their Ks cm/day.
fn porous_grains(
    [residual, saturated, share]: [f64; 3],
    between: (f64, f64),
    within: (f64, f64),
    ks: [f64; 2],
) -> Medium {
    let pores = |(alpha, n)| PoreSystem::new(alpha, n).unwrap();
    let retention =
        Retention::double(residual, saturated, share, pores(between), pores(within)).unwrap();
    let [between, within] = ks.map(cm_per_day);
    Medium::new(
        retention,
        Paths::Two { between, within },
        MUALEM_TORTUOSITY,
    )
    .unwrap()
}

/// The media of `flow.py`.
fn medium(name: &str) -> Medium {
    match name {
        // Carsel & Parrish 1988, Water Resources Research 24:755, table 6, sand.
        "sand" => van_genuchten(0.045, 0.43, 0.145, 2.68, 712.8),
        // Matrix-free gravel as fitted in a published table (α 111.6 1/m, n 2.70).
        "gravel" => van_genuchten(0.02, 0.36, 1.116, 2.70, 86_400.0),
        // A coarse sand of the same table.
        "coarse_sand" => van_genuchten(0.013, 0.337, 0.205, 2.92, 8448.0),
        // The shape of a mix of peat and perlite, here only something to wet.
        "mix" => van_genuchten(0.10, 0.88, 0.12, 1.60, 1000.0),
        _ => panic!("no medium is called {name}"),
    }
}

fn table(curves: &dyn Curves) -> Arc<Table> {
    Arc::new(Table::new(curves).unwrap())
}

/// Curves from two functions of the suction in cm: water, and conductivity in cm/s.
struct Functions<W, K>(W, K);

impl<W: Fn(f64) -> f64, K: Fn(f64) -> f64> Curves for Functions<W, K> {
    fn water_content(&self, suction_m: f64) -> f64 {
        (self.0)(100.0 * suction_m.max(0.0))
    }
    fn conductivity_m_per_s(&self, suction_m: f64) -> f64 {
        (self.1)(100.0 * suction_m.max(0.0)) / 100.0
    }
}

/// A straight layer of a section of 1 m², so that m³ are metres of water.
fn slab(medium: &Arc<Table>, height_mm: f64, spacing_mm: f64) -> Layer {
    let section = Area::from_square_metres(1.0);
    Layer {
        medium: Arc::clone(medium),
        height: mm(height_mm),
        base: section,
        top: section,
        footprint: section,
        spacing: mm(spacing_mm),
        joint: Joint::Laid,
    }
}

fn column(layers: Vec<Layer>, foot: Foot, top: Top) -> Station<'static> {
    Station {
        layers,
        roots: None,
        foot,
        top,
        ground: Area::from_square_metres(1.0),
        floor: mm(0.0),
        count: 1.0,
    }
}

fn careful(tolerance: f64, first_s: f64) -> Steps {
    Steps {
        first_s,
        longest_s: 1e9,
        tolerance,
        ..Steps::default()
    }
}

/// The head in cm at a height in m, straight between the heights that are solved for.
fn head_cm(flow: &Flow, height_m: f64) -> f64 {
    let points: Vec<(f64, f64)> = flow.heads_m(0).collect();
    let above = points.partition_point(|(z, _)| *z < height_m).clamp(1, points.len() - 1);
    let ((z0, h0), (z1, h1)) = (points[above - 1], points[above]);
    let part = if z1 > z0 { (height_m - z0) / (z1 - z0) } else { 0.0 };
    100.0 * (h0 + part * (h1 - h0))
}

/// The balance closes to the last digits, as it must in every run.
fn closed(flow: &Flow) {
    let balance = flow.balance();
    assert!(
        balance.relative_gap() < 1e-6,
        "in = drunk + evaporated + stored, to {:e}: {balance:?}",
        balance.relative_gap()
    );
}

/// A pot on a bed in its share of a tray.
struct Potted {
    bed: Option<(Arc<Table>, f64)>,
    bed_fills_the_tray: bool,
    mix: Arc<Table>,
    pot_mm: f64,
    base_cm2: f64,
    top_cm2: f64,
    ground_cm2: f64,
    contact: Contact,
    litres_a_day: f64,
    stress: Stress,
    spacing_mm: (f64, f64),
}

fn feddes(suctions_cm: [f64; 4]) -> Stress {
    let [a, b, c, d] = suctions_cm.map(cm_water);
    Stress::new(a, b, c, d).unwrap()
}

impl Potted {
    fn usual(bed: Option<(&Arc<Table>, f64)>, mix: &Arc<Table>) -> Self {
        Self {
            bed: bed.map(|(medium, depth_mm)| (Arc::clone(medium), depth_mm)),
            bed_fills_the_tray: true,
            mix: Arc::clone(mix),
            pot_mm: 90.0,
            base_cm2: 50.0,
            top_cm2: 78.0,
            ground_cm2: 200.0,
            contact: Contact::bedded(),
            litres_a_day: 0.15,
            stress: feddes([0.0, 3.0, 40.0, 300.0]),
            spacing_mm: (1.5, 3.0),
        }
    }

    fn bed_m(&self) -> f64 {
        self.bed.as_ref().map_or(0.0, |(_, depth_mm)| depth_mm / 1000.0)
    }

    /// Sets up the station and hands it on.
    fn with<T>(&self, then: impl FnOnce(Station<'_>) -> T) -> T {
        let mut layers = Vec::new();
        if let Some((medium, depth_mm)) = &self.bed {
            let section = cm2(if self.bed_fills_the_tray {
                self.ground_cm2
            } else {
                self.base_cm2
            });
            layers.push(Layer {
                medium: Arc::clone(medium),
                height: mm(*depth_mm),
                base: section,
                top: section,
                footprint: section,
                spacing: mm(self.spacing_mm.0),
                joint: Joint::Laid,
            });
        }
        layers.push(Layer {
            medium: Arc::clone(&self.mix),
            height: mm(self.pot_mm),
            base: cm2(self.base_cm2),
            top: cm2(self.top_cm2),
            footprint: cm2(self.base_cm2),
            spacing: mm(self.spacing_mm.1),
            joint: Joint::Contact(self.contact),
        });
        let bed_m = self.bed_m();
        let density = move |z: f64| if z > bed_m { 1.0 } else { 0.0 };
        then(Station {
            layers,
            roots: Some(Roots {
                stress: self.stress,
                density: &density,
                demand_m3_per_s: self.litres_a_day * 1e-3 / DAY_S,
            }),
            foot: Foot::Tray,
            top: Top::Open,
            ground: cm2(self.ground_cm2),
            floor: mm(0.0),
            count: 1.0,
        })
    }

    fn flow(&self, filling: Filling, level_m: f64, start_m: &dyn Fn(usize, f64) -> f64) -> Flow {
        self.with(|station| Flow::new(&[station], filling, level_m, start_m).unwrap())
    }
}

fn float() -> Filling {
    Filling::Float {
        opens_at_m: 0.0,
        shuts_at_m: 0.02,
        rate_m3_per_s: 1e-3 / 600.0,
        delay_s: 600.0,
    }
}

/// Any case from gravel to peat, beds to 100 mm and pots from 40 to 300 mm, from brimming to bone
/// dry: all must be solved, closed and finite.
mod survey {
    use super::*;

    fn some_bed(draws: &mut Draws) -> (&'static str, Medium) {
        let u = draws.uniform();
        let between = |low: f64, high: f64| low * (high / low).powf(u);
        match draws.below(7) {
            0 => ("gravel", van_genuchten(0.02, 0.36, between(0.8, 3.0), 2.7, between(5e4, 2e6))),
            1 => ("pea gravel", porous_grains([0.007, 0.39, 0.939], (between(1.0, 3.0), 3.0), (0.1793, 1.658), [between(1e5, 1e6), 1.0])),
            2 => ("coarse perlite", porous_grains([0.129, 0.80, 0.685], (between(0.5, 1.2), 3.0), (0.4204, 1.404), [between(1e4, 3e5), between(0.5, 20.0)])),
            3 => ("expanded clay", porous_grains([0.063, 0.52, 0.809], (1.2, 3.0), (0.1056, 1.68), [between(5e4, 5e5), between(0.1, 5.0)])),
            4 => ("sharp sand", van_genuchten(0.05, 0.41, between(0.03, 0.15), between(2.0, 5.0), between(300.0, 6000.0))),
            5 => ("one network", {
                let pores = |a, n| PoreSystem::new(a, n).unwrap();
                let r = Retention::double(0.082, 0.58, 0.722, pores(0.8, 3.0), pores(0.1156, 1.347)).unwrap();
                Medium::new(r, Paths::One { saturated: cm_per_day(between(1e4, 3e5)) }, MUALEM_TORTUOSITY).unwrap()
            }),
            _ => ("sandy gravel", van_genuchten(0.037, 0.274, 0.0474, 2.40, between(500.0, 3000.0))),
        }
    }

    fn some_mix(draws: &mut Draws) -> (&'static str, Medium) {
        let u = draws.uniform();
        let between = |low: f64, high: f64| low * (high / low).powf(u);
        match draws.below(6) {
            0 => ("white peat", van_genuchten(0.207, 0.93, 0.1479, 1.796, between(1440.0, 28_800.0))),
            1 => ("black peat", van_genuchten(0.19, 0.89, 0.0993, 1.376, between(144.0, 4320.0))),
            2 => ("bark", {
                let pores = |a, n| PoreSystem::new(a, n).unwrap();
                let r = Retention::double(0.08, 0.80, 0.5, pores(0.6, 3.0), pores(0.1336, 1.204)).unwrap();
                Medium::new(r, Paths::One { saturated: cm_per_day(between(1.4e4, 4e5)) }, MUALEM_TORTUOSITY).unwrap()
            }),
            3 => ("compost", van_genuchten(0.0, 0.77, 0.4725, 1.168, between(700.0, 28_800.0))),
            4 => ("gravel alone", van_genuchten(0.02, 0.36, between(0.8, 2.0), 2.7, between(5e4, 1e6))),
            _ => ("mix", van_genuchten(0.10, 0.88, 0.12, 1.60, between(200.0, 5000.0))),
        }
    }

    #[test]
    fn every_case_is_solved() {
        const CASES: usize = 250;
        let mut draws = Draws::from_seed(1907);
        let (mut solved, mut steps, mut worst_gap, mut most) = (0, 0, 0f64, 0);
        let mut failed = Vec::new();
        for case in 0..CASES {
            let (bed_name, bed) = some_bed(&mut draws);
            let (mix_name, mix) = some_mix(&mut draws);
            let bed = if draws.below(2) == 0 { bed.wetting(2.0) } else { bed };
            let (bed, mix) = (table(&bed), table(&mix));
            let mut between = |low: f64, high: f64| low * (high / low).powf(draws.uniform());
            let bed_mm = between(4.0, 100.0) - 4.0;
            let base_cm2 = between(15.0, 350.0);
            let mut potted = Potted {
                pot_mm: between(40.0, 300.0),
                base_cm2,
                top_cm2: base_cm2 * between(0.8, 2.0),
                ground_cm2: base_cm2 * between(1.05, 5.0),
                litres_a_day: base_cm2 * between(1e-3, 2e-2),
                spacing_mm: (between(0.7, 4.0), between(2.0, 8.0)),
                ..Potted::usual((bed_mm > 0.5).then_some((&bed, bed_mm)), &mix)
            };
            let evaporation = between(1e-4, 6e-3) / DAY_S;
            let dry_m = between(0.3, 80.0);
            let share = between(0.02, 0.5);
            potted.contact = match draws.below(3) {
                0 => Contact::bedded(),
                1 => Contact::holes(share, mm(8.0)),
                _ => Contact::holes(share, mm(12.0)).across_a_gap(1e-4),
            };
            potted.bed_fills_the_tray = draws.below(2) == 0;
            let filling = match draws.below(4) {
                0 => Filling::Held { level_m: 0.02 },
                1 => Filling::ByHand {
                    at_s: vec![7.0 * HOUR_S, 13.0 * HOUR_S],
                    to_m: 0.025,
                    rate_m3_per_s: 1e-4,
                },
                2 => Filling::Never,
                _ => float(),
            };
            let start: &dyn Fn(usize, f64) -> f64 = match draws.below(3) {
                0 => &|_, z| 0.02 - z,
                1 => &|_, _| -dry_m,
                // As after drenching: full to the brim.
                _ => &|_, _| -1e-3,
            };
            let day = HalfSine::new(Duration::from_hours(5.0), Duration::from_hours(20.0));
            let weather = Weather {
                demand: &|t| day.multiple(t),
                evaporation_m_per_s: &|t| evaporation * day.multiple(t),
                watering_m_per_s: &|_| 0.0,
                air_dry_suction_m: 100.0,
            };
            let mut flow = potted.flow(filling.clone(), 0.02, start);
            let run = flow.run(DAY_S, &weather, &Steps::default(), &mut |_| ());
            let balance = flow.balance();
            let finite = flow.heads_m(0).all(|(_, h)| h.is_finite());
            assert!(finite, "case {case}: heads are numbers");
            match run {
                Ok(()) => {
                    solved += 1;
                    assert!(balance.relative_gap() < 1e-6, "case {case}: {balance:?}");
                    assert!(balance.drunk_m3 >= 0.0 && balance.drunk_m3 <= potted.litres_a_day * 1e-3 * (1.0 + 1e-3));
                    worst_gap = worst_gap.max(balance.relative_gap());
                    steps += flow.effort().0;
                    most = most.max(flow.effort().0);
                }
                Err(problem) => failed.push(format!(
                    "case {case}: {bed_mm:.1} mm of {bed_name} under {:.0} mm of {mix_name}, {filling:?}: {problem:?}",
                    potted.pot_mm
                )),
            }
        }
        println!(
            "survey: {solved} of {CASES} solved, {} steps a day on average, {most} at most, widest gap {worst_gap:.1e}",
            steps / solved.max(1)
        );
        assert!(failed.is_empty(), "{failed:#?}");
    }
}
