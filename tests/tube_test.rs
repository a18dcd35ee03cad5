//! What the outside world says of the tube test: the rise against the whole of Richards' equation,
//! and how often the truth lies within the limits.
//!
//! * `rise`: heights after a time, against the flow solved in full, and against Terzaghi's front.
//! * `sense`: what must hold of any test, and the sentences of those refused.
//! * `published`: a measured rise.
//! * `coverage`: media drawn by chance, stood in water in full, read with errors.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::sync::Arc;

use longtom::measure::{Area, Conductivity, Duration, Length, Mass, Range, Suction, Volume};
use longtom::science::conductivity::{
    BrooksCorey, Curves, MUALEM_TORTUOSITY, Medium, Paths, Theory,
};
use longtom::science::flow::{
    Filling, Flow, Foot, Joint, Layer, Station, Steps, Table, Top, Weather,
};
use longtom::science::numerics::draws::Draws;
use longtom::science::retention::{PoreSystem, Retention};
use longtom::science::tube_test::rise::{Climb, Rise, SHARE_OFF};
use longtom::science::tube_test::{Field, Found, Grains, Remark, TubeTest, Why, quartz};

/// What an eye sees of a medium at a suction in cm: so much of it wet.
type Seen<'a> = &'a dyn Fn(f64) -> f64;

/// A dry tube stood in water and solved in full: the heights above the water, cm, up to which each of
/// two things seen is at least a share; none where the flow is not solved.
fn stood(
    curves: &dyn Curves,
    [tube_cm, depth_cm]: [f64; 2],
    time_s: f64,
    seen: [(Seen<'_>, f64); 2],
) -> Option<[f64; 2]> {
    const AIR_DRY_M: f64 = 1e4;
    const PIECES: f64 = 250.0;
    let section = Area::from_square_metres(1.0);
    let station = Station {
        layers: vec![Layer {
            medium: Arc::new(Table::new(curves).unwrap()),
            height: Length::from_centimetres(tube_cm),
            base: section,
            top: section,
            footprint: section,
            spacing: Length::from_centimetres(tube_cm / PIECES),
            joint: Joint::Laid,
        }],
        roots: None,
        foot: Foot::Head(depth_cm / 100.0),
        top: Top::Open,
        ground: section,
        floor: Length::from_millimetres(0.0),
        count: 1.0,
    };
    let mut flow = Flow::new(&[station], Filling::Never, 0.0, &|_, _| -AIR_DRY_M).unwrap();
    let steps = Steps {
        first_s: 1e-3,
        longest_s: 600.0,
        tolerance: 1e-3,
        most: 20_000,
    };
    flow.run(time_s, &Weather::still(), &steps, &mut |_| ())
        .ok()?;
    assert!(flow.balance().relative_gap() < 1e-6);
    let heads: Vec<(f64, f64)> = flow
        .heads_m(0)
        .map(|(z, head)| (100.0 * z - depth_cm, -100.0 * head))
        .collect();
    Some(seen.map(|(of, share)| {
        heads
            .windows(2)
            .rev()
            .find(|pair| of(pair[0].1) >= share)
            .map_or(0.0, |pair| {
                let ((low, more), (high, less)) = (pair[0], pair[1]);
                let (more, less) = (of(more), of(less));
                low + (high - low) * ((more - share) / (more - less)).clamp(0.0, 1.0)
            })
    }))
}

fn medium(residual: f64, full: f64, alpha: f64, n: f64, cm_per_s: f64) -> Medium {
    let pores = PoreSystem::new(alpha, n).unwrap();
    let retention = Retention::single(residual, full, pores).unwrap();
    let saturated = Conductivity::from_metres_per_second(cm_per_s / 100.0);
    Medium::new(retention, Paths::One { saturated }, MUALEM_TORTUOSITY).unwrap()
}

mod rise {
    use super::*;

    /// One steady flow after another, against the whole equation, over shapes, pore sizes and how far
    /// the rise has come.
    #[test]
    fn heights_are_those_of_the_whole_equation() {
        let (mut squares, mut count, mut worst) = (0.0, 0.0, 0f64);
        for n in [1.8, 2.0, 2.7, 4.0, 8.0] {
            let rise = Rise::new(&PoreSystem::new(1.0, n).unwrap());
            for alpha in [0.05, 0.2, 1.0] {
                for time in [0.1, 1.0, 10.0, 1000.0] {
                    // T = t Ks α/Δθ
                    let (time_s, fillable) = (3600.0, 0.35);
                    let cm_per_s = time * fillable / (time_s * alpha);
                    let climb = Climb {
                        alpha_per_cm: alpha,
                        conductivity_cm_per_s: cm_per_s,
                        fillable,
                        depth_cm: 2.0,
                        time_s,
                    };
                    let shares = [0.85, 0.1];
                    let ours = rise.risen(&climb, shares).heights_cm;
                    let curves = medium(0.05, 0.40, alpha, n, cm_per_s);
                    let tall_cm = 2.0 + (1.3 * ours[1] + 0.5 / alpha).max(2.0);
                    let full_of =
                        |suction_cm: f64| (curves.water_content(suction_cm / 100.0) - 0.05) / 0.35;
                    let seen = shares.map(|share| (&full_of as Seen<'_>, share));
                    let Some(full) = stood(&curves, [tall_cm, 2.0], time_s, seen) else {
                        println!("n {n} alpha {alpha} T {time}: not solved");
                        continue;
                    };
                    for (ours, full) in ours.iter().zip(full) {
                        let off = ours.max(0.0) / full - 1.0;
                        println!(
                            "n {n} alpha {alpha} T {time}: {full:.2} cm, ours {ours:.2} ({:+.1} %)",
                            100.0 * off
                        );
                        if full > 0.3 / alpha {
                            squares += off * off;
                            count += 1.0;
                            worst = worst.max(off.abs());
                        }
                    }
                }
            }
        }
        let off = f64::sqrt(squares / count);
        println!("{count} heights: {off:.4} off, {worst:.3} at most");
        assert!(off < SHARE_OFF);
    }
}

/// A test of solid grains: heights in cm, weights in g, the volume a litre.
fn solid(nearly_wet_cm: f64, damp_cm: f64, litre_g: f64, handful_wet_g: f64) -> TubeTest {
    TubeTest {
        tube: Length::from_centimetres(40.0),
        depth: Length::from_centimetres(2.0),
        time: Duration::from_hours(1.0),
        nearly_wet: Length::from_centimetres(nearly_wet_cm),
        damp: Length::from_centimetres(damp_cm),
        reading: Length::from_centimetres(0.5),
        handful_wet: Mass::from_grams(handful_wet_g),
        handful_dry: Mass::from_grams(200.0),
        volume: Volume::from_litres(1.0),
        volume_dry: Mass::from_grams(litre_g),
        scale_step: Mass::from_grams(1.0),
        grains: Grains::Solid { density: quartz() },
    }
}

mod published {
    use super::*;

    /// Sand of 0.45 to 0.55 mm as measured: nearly saturated to 7.9 cm, damp for 11.6 cm more. Salim & Hampton
    /// 2012, annual meeting of the Soil Science Society of America, paper 263-4 (abstract). They waited for
    /// the end of the rise; an hour is taken here. Density is not printed: 1.59 kg/L is common for such a
    /// sand (from memory), and a handful of it is held full.
    ///
    /// Hazen 1892 (K = 100 d10², cm/s and cm, for clean sand of even grain, from memory) gives 0.2 cm/s;
    /// it must not lie beyond the limits by more than a factor of 2.
    #[test]
    fn a_measured_sand() {
        let found = solid(7.9, 19.5, 1590.0, 250.0).found(400, 1).unwrap();
        let entry = found
            .wetting_air_entry
            .map_increasing(|s| s.in_centimetres_of_water());
        let k = found
            .conductivity
            .map_increasing(|k| 100.0 * k.in_metres_per_second());
        println!(
            "{entry:?} cm, n {:?}, {k:?} cm/s, {:?}",
            found.shape, found.remarks
        );
        assert!(entry.low() < 7.9 && 5.0 < entry.best() && entry.best() < 9.0);
        let hazen = 100.0 * 0.045f64.powi(2);
        assert!(k.low() / 2.0 < hazen && hazen < 2.0 * k.high());
    }
}

mod reference {
    use super::*;
    use serde_json::Value;

    fn rows(name: &str) -> Vec<Value> {
        let all: Value = serde_json::from_str(include_str!("reference/tube_test.json")).unwrap();
        all[name].as_array().unwrap().clone()
    }

    fn numbers(value: &Value) -> Vec<f64> {
        let list = value.as_array().unwrap();
        list.iter().map(|v| v.as_f64().unwrap()).collect()
    }

    /// The method of lines (scipy), which is as sure as its two grids lie apart.
    #[test]
    fn the_rise_of_another_method() {
        for row in rows("rises") {
            let number = |name: &str| row[name].as_f64().unwrap();
            let rise = Rise::new(&PoreSystem::new(1.0, number("n")).unwrap());
            let climb = Climb {
                alpha_per_cm: 1.0,
                conductivity_cm_per_s: 1.0,
                fillable: 1.0,
                depth_cm: 0.0,
                time_s: number("time"),
            };
            let ours = rise.risen(&climb, [0.85, 0.1]).heights_cm;
            for (ours, theirs) in ours.iter().zip(numbers(&row["heights"])) {
                println!("{ours:.4} against {theirs:.4}");
                let unsure = number("unsure") + 3.0 * SHARE_OFF * theirs;
                assert!((ours - theirs).abs() < unsure, "{row}: {ours}");
            }
        }
    }

    /// Another sampler (numpy), with a grid of its own: limits within a fifth of their width, which is what
    /// the draws of both leave open.
    #[test]
    fn the_limits_of_another_sampler() {
        for row in rows("fits") {
            let reading = |name: &str| row["reading"][name].as_f64().unwrap();
            let found = solid(
                reading("wet"),
                reading("damp"),
                1000.0 * reading("density"),
                reading("handful"),
            )
            .found(400, 1)
            .unwrap();
            let theirs = |name: &str| numbers(&row["found"][name]);
            let cm = |range: Range<longtom::measure::Suction>| {
                range.map_increasing(|s| s.in_centimetres_of_water())
            };
            let per_s = |k: longtom::measure::Conductivity| 100.0 * k.in_metres_per_second();
            let pairs = [
                ("entry", cm(found.wetting_air_entry)),
                ("drying", cm(found.drying_air_entry)),
                ("n", found.shape),
                ("k", found.conductivity.map_increasing(per_s)),
                ("pores", found.pore_space),
            ];
            for (name, ours) in pairs {
                let theirs = theirs(name);
                println!("{name}: {ours:.4?} against {theirs:.4?}");
                let wide = (theirs[2] / theirs[0]).ln();
                for (ours, theirs) in [ours.low(), ours.best(), ours.high()].iter().zip(&theirs) {
                    assert!(
                        (ours / theirs).ln().abs() < 0.2 * wide,
                        "{name}: {ours} {theirs}"
                    );
                }
            }
        }
    }
}

mod sense {
    use super::*;

    fn refused(test: &TubeTest) -> (Field, Why) {
        let refusal = test.found(100, 1).unwrap_err();
        let sentence = refusal.to_string();
        assert!(sentence.ends_with('.') && sentence.len() > 30, "{sentence}");
        (refusal.field, refusal.why)
    }

    #[test]
    fn impossible_readings_are_refused_with_a_sentence() {
        let right = solid(7.9, 19.5, 1590.0, 250.0);
        let nought = Length::from_centimetres(0.0);
        let cases = [
            (
                TubeTest {
                    tube: nought,
                    ..right
                },
                Field::Tube,
                Why::NotAboveNought,
            ),
            (
                TubeTest {
                    damp: Length::from_centimetres(f64::NAN),
                    ..right
                },
                Field::Damp,
                Why::BelowNought,
            ),
            (
                TubeTest {
                    time: Duration::from_minutes(2.0),
                    ..right
                },
                Field::Time,
                Why::TimeOutOfReach,
            ),
            (
                TubeTest {
                    tube: Length::from_metres(3.0),
                    ..right
                },
                Field::Tube,
                Why::TubeOutOfReach,
            ),
            (
                TubeTest {
                    depth: Length::from_centimetres(12.0),
                    ..right
                },
                Field::Depth,
                Why::TooDeep,
            ),
            (
                TubeTest {
                    nearly_wet: Length::from_centimetres(20.0),
                    ..right
                },
                Field::NearlyWet,
                Why::WetAboveDamp,
            ),
            (
                TubeTest {
                    damp: Length::from_centimetres(38.0),
                    ..right
                },
                Field::Damp,
                Why::DampToTheTop,
            ),
            (
                TubeTest {
                    damp: nought,
                    nearly_wet: nought,
                    ..right
                },
                Field::Damp,
                Why::DidNotRise,
            ),
            (
                TubeTest {
                    reading: Length::from_centimetres(7.0),
                    ..right
                },
                Field::Reading,
                Why::ReadingTooCoarse,
            ),
            (
                TubeTest {
                    handful_wet: Mass::from_grams(150.0),
                    ..right
                },
                Field::HandfulWet,
                Why::WetLessThanDry,
            ),
        ];
        for (test, field, why) in cases {
            assert_eq!(refused(&test), (field, why));
        }
        let dense = TubeTest {
            volume_dry: Mass::from_kilograms(2.4),
            ..right
        };
        assert!(matches!(
            refused(&dense),
            (Field::VolumeDry, Why::TooDense { .. })
        ));
        let soaked = TubeTest {
            handful_wet: Mass::from_grams(300.0),
            ..right
        };
        assert!(matches!(
            refused(&soaked),
            (Field::HandfulWet, Why::HoldsTooMuch { .. })
        ));
    }

    /// What is odd is said in whole sentences.
    #[test]
    fn remarks_are_whole() {
        for remark in [
            Remark::CameToItsEnd,
            Remark::DampWithinGrains,
            Remark::FewClimbSo,
        ] {
            assert!(remark.to_string().ends_with('.'));
        }
    }

    /// Twice as high is half as wide pores, other things being equal; and the draws hold together as
    /// one medium does.
    #[test]
    fn a_finer_medium_climbs_higher() {
        let entry = |test: &TubeTest| {
            let found = test.found(300, 1).unwrap();
            assert_eq!(found.draws.len(), 300);
            for draw in &found.draws {
                let (dry, wet) = (draw.drying, draw.wetting());
                assert!(dry.water_content(0.05) >= wet.water_content(0.05));
            }
            found.wetting_air_entry.best().in_centimetres_of_water()
        };
        let (low, high) = (
            entry(&solid(3.0, 8.0, 1590.0, 240.0)),
            entry(&solid(6.0, 16.0, 1590.0, 250.0)),
        );
        println!("{low:.2} and {high:.2} cm");
        assert!((1.5..2.7).contains(&(high / low)));
    }

    /// A rise of a few centimetres is over within minutes, and says so; one that is still on its way
    /// does not.
    #[test]
    fn an_ended_rise_gives_a_least_conductivity() {
        let ended = solid(2.0, 6.0, 1500.0, 240.0).found(100, 1).unwrap();
        assert!(ended.conductivity_is_a_least_one());
        let rising = solid(22.0, 26.0, 1450.0, 254.0).found(100, 1).unwrap();
        assert!(!rising.conductivity_is_a_least_one());
        let wide = |found: &Found| {
            let k = found.conductivity;
            k.high().in_metres_per_second() / k.low().in_metres_per_second()
        };
        println!("{:.1} and {:.1}", wide(&ended), wide(&rising));
        assert!(wide(&rising) < wide(&ended));
    }
}

/// Media drawn by chance, stood in water in full, read and weighed with errors: how often the truth
/// lies within the limits that should hold 8 in 10.
mod coverage {
    use super::*;

    struct Truth {
        gaps: PoreSystem,
        wetting: Medium,
        drying: Medium,
        ratio: f64,
        within: Option<PoreSystem>,
        density: f64,
        conductivity: f64,
    }

    fn lognormal(best: f64, high: f64, draws: &mut Draws) -> f64 {
        best * ((high / best).ln() / 1.28155 * draws.deviate()).exp()
    }

    fn between(low: f64, high: f64, draws: &mut Draws) -> f64 {
        low + (high - low) * draws.uniform()
    }

    /// (ρ g/μ) φ (J γ α/(ρ g))², cm/s, with the constants of water at 20 °C.
    fn conductivity(entry_number: f64, pores: f64, alpha_per_cm: f64) -> f64 {
        9.769e4 * pores * (entry_number * 0.07431 * alpha_per_cm).powi(2)
    }

    fn truth(porous: bool, draws: &mut Draws) -> Truth {
        let n = loop {
            let n = 1.0 + lognormal(2.5, 6.0, draws);
            if (1.5..=15.0).contains(&n) {
                break n;
            }
        };
        let finest_cm: f64 = if porous { 20.0 } else { 30.0 };
        let alpha = 1.0 / between(f64::ln(0.7), finest_cm.ln(), draws).exp();
        let ratio = lognormal(2.0, 2.9, draws).max(1.0);
        let gaps = PoreSystem::new(alpha / ratio, n).unwrap();
        let entry = lognormal(0.15, 0.15 * 2.6, draws);
        let mps = |cm_per_s: f64| Conductivity::from_metres_per_second(cm_per_s / 100.0);
        let (drying, within, density, cm_per_s) = if porous {
            let gap_share = 0.42 + 0.045 * draws.deviate();
            let inner = between(0.1, 0.35, draws);
            let inner_alpha = 1.0 / lognormal(100.0, 300.0, draws);
            let pores = PoreSystem::new(inner_alpha, 1.5).unwrap();
            let residual = 0.2 * inner;
            let full = gap_share + inner;
            let between_k = conductivity(entry, gap_share, alpha);
            let within_k = conductivity(0.15, inner, inner_alpha) * lognormal(0.1, 0.3, draws);
            let share = gap_share / (full - residual);
            let retention = Retention::double(residual, full, share, gaps, pores).unwrap();
            let paths = Paths::Two {
                between: mps(between_k),
                within: mps(within_k),
            };
            let medium = Medium::new(retention, paths, MUALEM_TORTUOSITY).unwrap();
            (medium, Some(pores), between(0.3, 0.9, draws), between_k)
        } else {
            let density = between(1.35, 1.7, draws);
            let full = 1.0 - density / (2.65 + 0.05 / 1.28155 * draws.deviate());
            let residual = between(0.0, 0.08, draws);
            let retention = Retention::single(residual, full, gaps).unwrap();
            let k = conductivity(entry, full, alpha);
            let saturated = mps(k);
            let paths = Paths::One { saturated };
            let medium = Medium::new(retention, paths, MUALEM_TORTUOSITY).unwrap();
            (medium, None, density, k)
        };
        Truth {
            gaps,
            wetting: drying.wetting(ratio),
            drying,
            ratio,
            within,
            density,
            conductivity: cm_per_s,
        }
    }

    const READING_CM: f64 = 0.3;
    const DEPTH_CM: f64 = 2.0;

    fn share_full(pores: &PoreSystem, suction_cm: f64) -> f64 {
        if suction_cm <= 0.0 {
            return 1.0;
        }
        let power = (pores.alpha_per_cm() * suction_cm).powf(pores.n());
        (1.0 + power).powf(1.0 / pores.n() - 1.0)
    }

    /// The test as a grower would read it; none where the tube would have to be too tall or the flow is
    /// not solved.
    fn read(truth: &Truth, draws: &mut Draws) -> Option<TubeTest> {
        let wet_share = between(0.70, 0.95, draws);
        let damp_share = between(f64::ln(0.03), f64::ln(0.2), draws).exp();
        let gaps = |suction_cm: f64| share_full(&truth.gaps, suction_cm * truth.ratio);
        // Grains darken as well.
        let damp = |suction_cm: f64| {
            let within = truth
                .within
                .map_or(0.0, |pores| share_full(&pores, suction_cm * truth.ratio));
            gaps(suction_cm).max(within)
        };
        let mut tube_cm = 40.0;
        let [wet_cm, damp_cm] = loop {
            let heights = stood(
                &truth.wetting,
                [tube_cm, DEPTH_CM],
                3600.0,
                [(&gaps, wet_share), (&damp, damp_share)],
            )?;
            if heights[1] < 0.9 * tube_cm - DEPTH_CM {
                break heights;
            }
            tube_cm *= 2.0;
            if tube_cm > 200.0 {
                return None;
            }
        };
        let handful_cm = between(2.0, 5.0, draws);
        let held = (0..200)
            .map(|k| {
                let suction_m = handful_cm / 100.0 * (f64::from(k) + 0.5) / 200.0;
                truth.drying.water_content(suction_m)
            })
            .sum::<f64>()
            / 200.0;
        let held = held + 0.02 * draws.deviate();
        let millimetres = |cm: f64, off: f64| {
            Length::from_millimetres((10.0 * (cm + READING_CM * off)).round().max(0.0))
        };
        let grams = |g: f64| Mass::from_grams(g.round());
        let dry = 200.0;
        let damp = millimetres(damp_cm, draws.deviate());
        let nearly_wet = millimetres(wet_cm, draws.deviate());
        Some(TubeTest {
            tube: Length::from_centimetres(tube_cm),
            depth: Length::from_centimetres(DEPTH_CM),
            time: Duration::from_hours(1.0),
            nearly_wet: if nearly_wet > damp { damp } else { nearly_wet },
            damp,
            reading: Length::from_centimetres(READING_CM),
            handful_wet: grams(dry * (1.0 + held.max(0.0) / truth.density)),
            handful_dry: grams(dry),
            volume: Volume::from_litres(1.0),
            volume_dry: grams(1000.0 * truth.density * (1.0 + 0.03 * draws.deviate())),
            scale_step: Mass::from_grams(1.0),
            grains: if truth.within.is_some() {
                Grains::Porous
            } else {
                Grains::Solid { density: quartz() }
            },
        })
    }

    /// The suction at which a tenth of the gaps are empty, cm.
    fn air_entry(pores: &PoreSystem) -> f64 {
        let m = 1.0 - 1.0 / pores.n();
        (0.9f64.powf(-1.0 / m) - 1.0).powf(1.0 / pores.n()) / pores.alpha_per_cm()
    }

    /// Water on wetting at a suction, over the draws.
    fn water(found: &Found, suction_cm: f64) -> Range<f64> {
        let at = |draw: &longtom::science::tube_test::Draw| {
            draw.wetting().water_content(suction_cm / 100.0)
        };
        let mut samples: Vec<f64> = found.draws.iter().map(at).collect();
        Range::from_samples(at(&found.best), &mut samples).unwrap()
    }

    fn limits_hold(porous: bool, many: usize, seed: u64) {
        let mut draws = Draws::from_seed(seed);
        const NAMES: [&str; 7] = [
            "wetting air entry",
            "drying air entry",
            "n",
            "conductivity",
            "pore space",
            "water at 5 cm",
            "density",
        ];
        let (mut inside, mut all) = ([0.0; 7], 0.0);
        let (mut widths, mut off) = ([0.0; 7], [0.0; 7]);
        let (mut unsolved, mut refused, mut ended, mut few) = (0, 0, 0, 0);
        while all < many as f64 {
            let truth = truth(porous, &mut draws);
            let Some(test) = read(&truth, &mut draws) else {
                unsolved += 1;
                continue;
            };
            let found = match test.found(300, 7) {
                Ok(found) => found,
                Err(refusal) => {
                    println!(
                        "refused: {refusal:?} {:?} {:?} a {} n {} ratio {} K {}",
                        test.nearly_wet,
                        test.damp,
                        truth.gaps.alpha_per_cm(),
                        truth.gaps.n(),
                        truth.ratio,
                        truth.conductivity
                    );
                    refused += 1;
                    continue;
                }
            };
            all += 1.0;
            few += u32::from(found.remarks.contains(&Remark::FewClimbSo));
            ended += u32::from(found.conductivity_is_a_least_one());
            let drying_cm = air_entry(&truth.gaps);
            let cm = |range: Range<longtom::measure::Suction>| {
                range.map_increasing(|s| s.in_centimetres_of_water())
            };
            let pairs = [
                (cm(found.wetting_air_entry), drying_cm / truth.ratio),
                (cm(found.drying_air_entry), drying_cm),
                (found.shape, truth.gaps.n()),
                (
                    found
                        .conductivity
                        .map_increasing(|k| 100.0 * k.in_metres_per_second()),
                    truth.conductivity,
                ),
                (found.pore_space, truth.drying.retention().saturated()),
                (water(&found, 5.0), truth.wetting.water_content(0.05)),
                (
                    found
                        .dry_density
                        .map_increasing(|d| d.in_grams_per_litre() / 1000.0),
                    truth.density,
                ),
            ];
            for (k, (range, truth)) in pairs.into_iter().enumerate() {
                if range.low() <= truth && truth <= range.high() {
                    inside[k] += 1.0;
                }
                widths[k] += (range.high() / range.low()).ln();
                off[k] += (range.best() / truth).ln();
            }
        }
        println!(
            "{many} {}: {unsolved} not solved, {refused} refused, {ended} at the end of their rise, {few} fitted by few",
            if porous { "porous" } else { "solid" }
        );
        for k in 0..NAMES.len() {
            let (share, wide, off) = (inside[k] / all, (widths[k] / all).exp(), off[k] / all);
            println!(
                "{}: {share:.3} inside, high over low {wide:.2}, best over truth {:.2}",
                NAMES[k],
                off.exp()
            );
        }
        // Eight in ten, give or take a tenth or three times what chance alone makes of so many.
        let give = (3.0 * (0.8 * 0.2 / all).sqrt()).max(0.10);
        for k in 0..NAMES.len() {
            let share = inside[k] / all;
            assert!((share - 0.8).abs() <= give, "{}: {share:.3}", NAMES[k]);
        }
        assert!(f64::from(refused) < 0.05 * all);
    }

    #[test]
    fn limits_hold_eight_in_ten_of_solid_grains() {
        limits_hold(false, 80, 3);
    }

    #[test]
    fn limits_hold_eight_in_ten_of_porous_grains() {
        limits_hold(true, 80, 5);
    }

    /// Four times as many of each, which takes minutes: `make bench` runs it.
    #[test]
    #[ignore = "takes minutes"]
    fn limits_hold_eight_in_ten_of_many() {
        limits_hold(false, 320, 3);
        limits_hold(true, 320, 5);
    }

    /// Media of another shape, after Brooks & Corey 1964 with λ from 1 to 5, which the test takes for van
    /// Genuchten's: the water at 5 cm and the conductivity are still found, if not as often.
    #[test]
    fn another_shape_of_curve_is_found_as_well() {
        const MANY: usize = 40;
        let mut draws = Draws::from_seed(9);
        let (mut water_in, mut conductivity_in, mut all) = (0.0, 0.0, 0.0);
        while all < MANY as f64 {
            let entry_cm = between(f64::ln(1.0), f64::ln(20.0), &mut draws).exp();
            let lambda = between(0.0, f64::ln(5.0), &mut draws).exp();
            let (residual, full) = (between(0.0, 0.08, &mut draws), 0.41);
            let k = conductivity(lognormal(0.15, 0.39, &mut draws), full, 1.0 / entry_cm);
            let curve = |entry_cm: f64| {
                BrooksCorey::new(
                    residual,
                    full,
                    Suction::from_centimetres_of_water(entry_cm),
                    lambda,
                    Conductivity::from_metres_per_second(k / 100.0),
                    Theory::Mualem,
                )
                .unwrap()
            };
            let (wetting, drying) = (curve(entry_cm), curve(2.0 * entry_cm));
            let share = |suction_cm: f64| {
                (wetting.water_content(suction_cm / 100.0) - residual) / (full - residual)
            };
            let wet_share = between(0.70, 0.95, &mut draws);
            let damp_share = between(f64::ln(0.03), f64::ln(0.2), &mut draws).exp();
            let heights = stood(
                &wetting,
                [120.0, DEPTH_CM],
                3600.0,
                [(&share, wet_share), (&share, damp_share)],
            );
            let Some([wet_cm, damp_cm]) = heights.filter(|heights| heights[1] < 110.0) else {
                continue;
            };
            let held = (0..200)
                .map(|k| drying.water_content(0.03 * (f64::from(k) + 0.5) / 200.0) / 200.0)
                .sum::<f64>();
            let test = TubeTest {
                tube: Length::from_centimetres(120.0),
                reading: Length::from_centimetres(READING_CM),
                ..solid(wet_cm, damp_cm, 1563.0, 200.0 * (1.0 + held / 1.563))
            };
            let Ok(found) = test.found(300, 7) else {
                continue;
            };
            all += 1.0;
            let at_5_cm = water(&found, 5.0);
            let truth = wetting.water_content(0.05);
            if at_5_cm.low() <= truth && truth <= at_5_cm.high() {
                water_in += 1.0;
            }
            let per_s = |k: Conductivity| 100.0 * k.in_metres_per_second();
            let range = found.conductivity.map_increasing(per_s);
            if range.low() <= k && k <= range.high() {
                conductivity_in += 1.0;
            }
        }
        let (water_in, conductivity_in) = (water_in / all, conductivity_in / all);
        println!("water at 5 cm: {water_in:.3} inside, conductivity: {conductivity_in:.3}");
        assert!(water_in > 0.6 && conductivity_in > 0.6);
    }
}
