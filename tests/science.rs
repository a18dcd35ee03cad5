//! What the outside world says of the sciences below Mix: arithmetic, retention, packing, pots and
//! the mass balance. Values of reference libraries are in `mix.rs`, room `reference`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::measure::{Length, Volume};
use longtom::science::blend::{Blend, Part};
use longtom::science::container::Vessel;
use longtom::science::packing::{Grains, volume_lost_de_larrard_1999};
use longtom::science::retention::{NotACurve, PoreSystem, Retention};
use proptest::prelude::*;

mod numerics {
    use longtom::science::numerics::draws::{Draws, standard_normal_quantile};
    use longtom::science::numerics::quadrature::{integral, integral_in_pieces};
    use longtom::science::numerics::roots::{NoRoot, root_between};

    #[test]
    fn a_corner_at_the_end_of_a_piece_costs_nothing() {
        let area = integral_in_pieces(&[-1.0, 0.0, 2.0], f64::abs);
        assert!((area - 2.5).abs() < 1e-14, "{area}");
        let coarse = (integral(-1.0, 2.0, f64::abs) - 2.5).abs();
        assert!(coarse > 1e-5, "and in one piece it does: {coarse:e}");
    }

    #[test]
    fn an_interval_of_nothing_holds_nothing() {
        assert_eq!(integral(3.0, 3.0, f64::exp), 0.0);
        assert_eq!(integral_in_pieces(&[3.0], f64::exp), 0.0);
        assert_eq!(integral_in_pieces(&[], f64::exp), 0.0);
    }

    #[test]
    fn the_integral_of_the_exponential_is_its_own_difference() {
        let exact = 5f64.exp() - (-3f64).exp();
        assert!((integral(-3.0, 5.0, f64::exp) / exact - 1.0).abs() < 1e-14);
    }

    #[test]
    fn a_root_at_an_end_is_that_end() {
        assert_eq!(root_between(1.0, 5.0, 1e-9, |x| x - 1.0), Ok(1.0));
        assert_eq!(root_between(1.0, 5.0, 1e-9, |x| x - 5.0), Ok(5.0));
    }

    #[test]
    fn a_falling_function_has_its_root_too() {
        let root = root_between(0.0, 10.0, 1e-12, |x| 2.0 - x * x).unwrap();
        assert!((root - std::f64::consts::SQRT_2).abs() <= 1e-12);
    }

    #[test]
    fn what_has_no_root_is_told_and_not_guessed() {
        assert_eq!(
            root_between(0.0, 1.0, 1e-9, |_| 1.0),
            Err(NoRoot::NotBracketed)
        );
        assert_eq!(
            root_between(0.0, 1.0, 1e-9, |_| f64::NAN),
            Err(NoRoot::NotANumber)
        );
        let broken = |x: f64| {
            if x > 0.2 && x < 0.9 {
                f64::NAN
            } else {
                x - 0.5
            }
        };
        assert_eq!(
            root_between(0.0, 1.0, 1e-9, broken),
            Err(NoRoot::NotANumber)
        );
    }

    #[test]
    fn a_tolerance_finer_than_numbers_are_does_not_hang() {
        match root_between(0.0, 3.0, 1e-300, |x| x * x - 2.0) {
            Ok(root) => assert!((root - std::f64::consts::SQRT_2).abs() < 1e-15),
            Err(problem) => assert_eq!(problem, NoRoot::TooManySteps),
        }
    }

    /// Moments of the uniform and the normal distribution, as in any table; four standard deviations
    /// of chance are allowed, and the seed is fixed.
    #[test]
    fn draws_have_the_moments_of_their_distributions() {
        const MANY: usize = 200_000;
        let mut draws = Draws::from_seed(11);
        let mean = |numbers: &[f64]| numbers.iter().sum::<f64>() / numbers.len() as f64;
        let uniforms: Vec<f64> = (0..MANY).map(|_| draws.uniform()).collect();
        let deviates: Vec<f64> = (0..MANY).map(|_| draws.deviate()).collect();
        let chance = 4.0 / (MANY as f64).sqrt();
        assert!(uniforms.iter().all(|&u| u > 0.0 && u < 1.0));
        assert!((mean(&uniforms) - 0.5).abs() < chance * (1.0 / 12f64).sqrt());
        assert!(mean(&deviates).abs() < chance);
        let power = |k: i32| mean(&deviates.iter().map(|z| z.powi(k)).collect::<Vec<_>>());
        assert!((power(2) - 1.0).abs() < chance * 2f64.sqrt());
        assert!(power(3).abs() < chance * 15f64.sqrt());
        assert!((power(4) - 3.0).abs() < chance * 96f64.sqrt());
        let neighbours: Vec<f64> = deviates.windows(2).map(|pair| pair[0] * pair[1]).collect();
        assert!(
            mean(&neighbours).abs() < chance,
            "neighbours do not hang together"
        );
    }

    #[test]
    fn whole_numbers_stay_below_their_end_and_reach_all_of_it() {
        let mut draws = Draws::from_seed(3);
        let mut seen = [0u32; 7];
        for _ in 0..7000 {
            seen[draws.below(7)] += 1;
        }
        // 1000 each, and five standard deviations of chance: 5 √(7000 · 1/7 · 6/7).
        assert!(
            seen.iter().all(|&count| (854..=1146).contains(&count)),
            "{seen:?}"
        );
        assert_eq!(draws.below(0), 0);
        assert_eq!(draws.below(1), 0);
    }

    /// McKay, Beckman & Conover 1979, Technometrics 21:239: over so many draws each input falls once into
    /// each of as many equal strata, and the inputs do not hang together.
    #[test]
    fn a_latin_hypercube_visits_each_stratum_once() {
        const DRAWS: usize = 500;
        const INPUTS: usize = 4;
        let mut draws = Draws::hypercube(9, DRAWS);
        let mut inputs = vec![Vec::new(); INPUTS];
        for _ in 0..DRAWS {
            for input in &mut inputs {
                input.push(draws.uniform());
            }
            draws.next_draw();
        }
        for input in &inputs {
            assert!(input.iter().all(|&u| u > 0.0 && u < 1.0));
            let mut strata: Vec<usize> =
                input.iter().map(|u| (u * DRAWS as f64) as usize).collect();
            strata.sort_unstable();
            assert_eq!(strata, (0..DRAWS).collect::<Vec<_>>());
            // So the mean is surer than chance: half a stratum at most.
            let mean = input.iter().sum::<f64>() / DRAWS as f64;
            assert!((mean - 0.5).abs() < 0.5 / DRAWS as f64);
        }
        for (i, one) in inputs.iter().enumerate() {
            for other in &inputs[..i] {
                let together: f64 = one
                    .iter()
                    .zip(other)
                    .map(|(a, b)| (a - 0.5) * (b - 0.5))
                    .sum();
                // Four standard deviations of chance, as a correlation.
                let correlation = 12.0 * together / DRAWS as f64;
                assert!(
                    correlation.abs() < 4.0 / (DRAWS as f64).sqrt(),
                    "{correlation}"
                );
            }
        }
    }

    #[test]
    fn a_hypercube_is_repeated_from_its_seed_and_differs_from_another() {
        let first = |seed: u64| {
            let mut draws = Draws::hypercube(seed, 20);
            let mut found = Vec::new();
            for _ in 0..45 {
                found.push((draws.uniform(), draws.deviate()));
                draws.next_draw();
            }
            found
        };
        assert_eq!(first(4), first(4));
        assert_ne!(first(4), first(5));
        assert!(
            first(4).iter().all(|(_, deviate)| deviate.is_finite()),
            "beyond the last it begins anew"
        );
    }

    /// norm.pdf(z) + z norm.cdf(z) of scipy 1; at 0 and 1 also in tables of the unit normal loss integral, 0.3989 and
    /// 0.0833 + 1.
    #[test]
    fn what_lies_above_a_limit_on_the_mean_is_that_of_another_library() {
        use longtom::science::counting::normal_excess;
        for (z, known) in [
            (-3.0, 0.000_382_154_317_047_727_5),
            (-1.0, 0.083_315_470_587_686_29),
            (0.0, 0.398_942_280_401_432_7),
            (0.5, 0.697_796_557_401_306_1),
            (1.0, 1.083_315_470_587_686_4),
            (2.0, 2.008_490_702_616_83),
        ] {
            let found = normal_excess(30.0 + 4.0 * z, 4.0, 30.0);
            println!("{z}: {found}, {}", 4.0 * known);
            assert!((found - 4.0 * known).abs() < 1e-8, "{z}");
        }
    }

    #[test]
    fn quantiles_outside_nought_to_one_are_no_number() {
        for share in [0.0, 1.0, -0.1, 1.1, f64::NAN, f64::INFINITY] {
            assert!(standard_normal_quantile(share).is_nan(), "{share}");
        }
        for share in [1e-9, 0.01, 0.07, 0.3, 0.49] {
            let (below, above) = (
                standard_normal_quantile(share),
                standard_normal_quantile(1.0 - share),
            );
            assert!(
                (below + above).abs() <= 1e-7 * below.abs(),
                "as far below as above: {share}"
            );
        }
    }
}

fn curve() -> impl Strategy<Value = Retention> {
    let pores = || {
        (-3.0..2.0f64, 1.05..4.0f64)
            .prop_map(|(ln_alpha, n)| PoreSystem::new(ln_alpha.exp(), n).unwrap())
    };
    (0.0..1.0f64, 0.05..1.0f64, 0.0..=1.0f64, pores(), pores()).prop_map(
        |(part, saturated, share, coarse, fine)| {
            Retention::double(part * saturated, saturated, share, coarse, fine).unwrap()
        },
    )
}

mod retention {
    use super::*;

    /// Carsel & Parrish 1988, Water Resources Research 24:755, sand: θr 0.045, θs 0.43, α 0.145 1/cm,
    /// n 2.68, put into van Genuchten's equation 3 by its plain form.
    #[test]
    fn a_published_sand_holds_what_the_plain_equation_says() {
        let sand = Retention::single(0.045, 0.43, PoreSystem::new(0.145, 2.68).unwrap()).unwrap();
        for suction in [0.001f64, 0.1, 1.0, 5.0, 10.0, 30.0, 100.0, 1000.0, 15_000.0] {
            let filled = (1.0 + (0.145 * suction).powf(2.68)).powf(-(1.0 - 1.0 / 2.68));
            let plain = 0.045 + (0.43 - 0.045) * filled;
            assert!(
                (sand.water_content(suction) - plain).abs() < 1e-14,
                "{suction}"
            );
        }
        // To three figures by hand: (1.45)^2.68 = 2.707, 3.707^-0.6269 = 0.440, 0.045 + 0.385 × 0.440.
        assert!((sand.water_content(10.0) - 0.214).abs() < 5e-4);
    }

    /// van Genuchten 1980, equation 3, at α h = 1: S = 2^-m. And far out it falls as a power of the
    /// suction, (α h)^-(n - 1), which is Brooks & Corey 1964 with λ = n - 1.
    #[test]
    fn one_pore_system_meets_its_limits() {
        for n in [1.1, 1.796, 3.0] {
            let pores = PoreSystem::new(0.2, n).unwrap();
            let curve = Retention::single(0.0, 1.0, pores).unwrap();
            let m = 1.0 - 1.0 / n;
            assert!((curve.water_content(5.0) - 2f64.powf(-m)).abs() < 1e-14);
            let far = 1e7 / 0.2;
            let corey = longtom::science::retention::brooks_corey_water_content(
                0.0,
                1.0,
                5.0,
                n - 1.0,
                far,
            );
            assert!(
                (curve.water_content(far) / corey - 1.0).abs() < 1e-6,
                "n {n}"
            );
            assert_eq!(curve.water_content(0.0), 1.0);
            assert_eq!(curve.water_content(-3.0), 1.0);
        }
    }

    #[test]
    fn what_is_no_curve_is_refused_with_its_reason() {
        assert_eq!(PoreSystem::new(0.0, 2.0), Err(NotACurve::Alpha));
        assert_eq!(PoreSystem::new(f64::NAN, 2.0), Err(NotACurve::Alpha));
        assert_eq!(PoreSystem::new(f64::INFINITY, 2.0), Err(NotACurve::Alpha));
        assert_eq!(PoreSystem::new(1.0, 1.0), Err(NotACurve::Shape));
        assert_eq!(PoreSystem::new(1.0, f64::NAN), Err(NotACurve::Shape));
        let pores = PoreSystem::new(0.1, 2.0).unwrap();
        for (residual, saturated) in [
            (-0.1, 0.5),
            (0.6, 0.5),
            (0.1, 1.1),
            (f64::NAN, 0.5),
            (0.1, f64::NAN),
        ] {
            assert_eq!(
                Retention::single(residual, saturated, pores),
                Err(NotACurve::Water)
            );
        }
        for share in [-0.1, 1.1, f64::NAN] {
            assert_eq!(
                Retention::double(0.1, 0.5, share, pores, pores),
                Err(NotACurve::Share)
            );
        }
        let curve = Retention::single(0.1, 0.5, pores).unwrap();
        assert_eq!(curve.with_saturated(1.5), Err(NotACurve::Water));
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn more_suction_never_holds_more_water(curve in curve(), ln_suction in -20.0..20.0f64, further in 0.0..5.0f64) {
            let (nearer, farther) = (curve.water_content_at_ln(ln_suction), curve.water_content_at_ln(ln_suction + further));
            prop_assert!(farther <= nearer + 1e-15);
            prop_assert!(curve.residual() - 1e-15 <= farther && nearer <= curve.saturated() + 1e-15);
        }

        /// Miller & Miller 1956: pores twice as wide hold at half the suction what these hold at the whole.
        #[test]
        fn similar_media_differ_by_the_scale_of_suction_alone(curve in curve(), ln_suction in -5.0..8.0f64, factor in 0.01..100.0f64) {
            let wider = curve.with_suctions_divided_by(factor);
            let here = curve.water_content_at_ln(ln_suction + factor.ln());
            prop_assert!((wider.water_content_at_ln(ln_suction) - here).abs() < 1e-12);
        }

        /// The documentation allows pores to be e^-5 to e^5 times as wide: within that the curve goes
        /// through the point it is drawn through.
        #[test]
        fn a_curve_goes_through_the_point_it_is_drawn_through(curve in curve(), suction in 1.0..100.0f64, ln_factor in -4.9..4.9f64) {
            let wanted = curve.water_content_at_ln(suction.ln() + ln_factor);
            let drawn = curve.drawn_through(suction, wanted);
            prop_assert!((drawn.water_content(suction) - wanted).abs() < 1e-5, "{} for {wanted}", drawn.water_content(suction));
            prop_assert_eq!(drawn.saturated(), curve.saturated());
        }

        #[test]
        fn a_point_out_of_reach_is_approached_from_the_right_side(curve in curve()) {
            let dry = curve.drawn_through(10.0, 0.0);
            let wet = curve.drawn_through(10.0, 1.0);
            prop_assert!(dry.water_content(10.0) <= curve.water_content(10.0));
            prop_assert!(wet.water_content(10.0) >= curve.water_content(10.0));
        }

        #[test]
        fn another_pore_space_keeps_the_shape(curve in curve(), saturated in 0.05..1.0f64, ln_suction in -3.0..8.0f64) {
            let other = curve.with_saturated(saturated).unwrap();
            let ratio = other.water_content_at_ln(ln_suction) / curve.water_content_at_ln(ln_suction);
            prop_assert!((ratio - saturated / curve.saturated()).abs() < 1e-12);
        }
    }
}

mod packing {
    use super::*;

    fn grains(list: &[(f64, f64, f64)]) -> Vec<Grains> {
        list.iter()
            .map(|&(bulk_share, packing_fraction, grain_mm)| Grains {
                bulk_share,
                packing_fraction,
                grain_mm,
            })
            .collect()
    }

    fn lost(list: &[(f64, f64, f64)]) -> f64 {
        volume_lost_de_larrard_1999(&grains(list))
    }

    /// Furnas 1931, Industrial & Engineering Chemistry 23:1052, as told in textbooks: with fines of no
    /// size the densest mix of two that pack at 0.6 alone has 0.7143 coarse and packs at 0.84.
    #[test]
    fn fines_of_no_size_pack_as_furnas_says() {
        let packing =
            |coarse: f64| 0.6 / (1.0 - lost(&[(coarse, 0.6, 1.0), (1.0 - coarse, 0.6, 1e-9)]));
        assert!((packing(0.7143) - 0.84).abs() < 1e-3, "{}", packing(0.7143));
        let best = (1..1000)
            .map(|share| f64::from(share) / 1000.0)
            .max_by(|&a, &b| packing(a).total_cmp(&packing(b)))
            .unwrap();
        assert!((best - 0.7143).abs() < 1e-3, "{best}");
    }

    /// Westman & Hugill 1930, Journal of the American Ceramic Society 13:767, as told in textbooks: the
    /// volume for one of grains is the greater of a c x c and x c + a f x f, a = 1/φ, for any φ.
    #[test]
    fn fines_of_no_size_pack_as_westman_and_hugill_say() {
        for (coarse, fine) in [(0.6, 0.6), (0.55, 0.63), (0.62, 0.45)] {
            for percent in 1..100 {
                let x = f64::from(percent) / 100.0;
                let bulk = (x / coarse, (1.0 - x) / fine);
                let whole = bulk.0 + bulk.1;
                let exact = (x / coarse).max(x + (1.0 - x) / fine);
                let ours = whole
                    * (1.0 - lost(&[(bulk.0 / whole, coarse, 1.0), (bulk.1 / whole, fine, 1e-12)]));
                assert!(
                    (ours - exact).abs() < 1e-5,
                    "{percent} % coarse, {coarse}, {fine}: {ours} against {exact}"
                );
            }
        }
    }

    /// Grains of one size take the room they took, whatever each packs at: volumes add.
    #[test]
    fn grains_of_one_size_lose_nothing() {
        assert!(lost(&[(0.3, 0.6, 2.0), (0.7, 0.6, 2.0)]).abs() < 1e-15);
        assert!(lost(&[(0.3, 0.5, 2.0), (0.2, 0.6, 2.0), (0.5, 0.63, 2.0)]).abs() < 1e-15);
        assert_eq!(lost(&[(1.0, 0.6, 2.0)]), 0.0);
        assert_eq!(lost(&[]), 0.0);
        assert_eq!(lost(&[(0.0, 0.6, 2.0)]), 0.0);
    }

    /// A small difference of size loses a little, and nothing jumps where the two meet.
    #[test]
    fn the_loss_comes_on_gently() {
        let mut before = 0.0;
        for step in 0..=100 {
            let ratio = 1.0 - f64::from(step) / 101.0;
            let now = lost(&[(0.5, 0.6, 1.0), (0.5, 0.6, ratio)]);
            assert!(
                now >= before - 1e-12 && now - before < 0.02,
                "ratio {ratio}: {before} then {now}"
            );
            before = now;
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn no_mix_grows_or_packs_tighter_than_solid(list in prop::collection::vec((0.01..1.0f64, 0.3..0.9f64, 0.05..20.0f64), 1..8)) {
            let whole: f64 = list.iter().map(|grain| grain.0).sum();
            let list: Vec<_> = list.into_iter().map(|(share, fraction, size)| (share / whole, fraction, size)).collect();
            let lost = lost(&list);
            let envelopes: f64 = list.iter().map(|grain| grain.0 * grain.1).sum();
            prop_assert!((0.0..1.0).contains(&lost));
            prop_assert!(envelopes / (1.0 - lost) <= 1.0 + 1e-12);
        }

        /// One material in two heaps is one material; its place in the list does not matter.
        #[test]
        fn a_heap_parted_in_two_packs_as_one(
            a in 0.05..0.95f64, part in 0.1..0.9f64, sizes in (0.1..10.0f64, 0.1..10.0f64), fractions in (0.4..0.7f64, 0.4..0.7f64),
        ) {
            let whole = lost(&[(a, fractions.0, sizes.0), (1.0 - a, fractions.1, sizes.1)]);
            let parted = lost(&[(1.0 - a, fractions.1, sizes.1), (a * part, fractions.0, sizes.0), (a * (1.0 - part), fractions.0, sizes.0)]);
            prop_assert!((whole - parted).abs() < 1e-12, "{whole} and {parted}");
        }

        /// Only the ratio of sizes counts.
        #[test]
        fn the_unit_of_grain_size_does_not_matter(a in 0.05..0.95f64, sizes in (0.1..10.0f64, 0.1..10.0f64), factor in 0.01..100.0f64) {
            let one = lost(&[(a, 0.6, sizes.0), (1.0 - a, 0.5, sizes.1)]);
            let other = lost(&[(a, 0.6, factor * sizes.0), (1.0 - a, 0.5, factor * sizes.1)]);
            prop_assert!((one - other).abs() < 1e-9);
        }
    }
}

mod container {
    use super::*;

    fn centimetres(value: f64) -> Length {
        Length::from_centimetres(value)
    }

    /// A frustum as a cone less its tip: π/3 (R² h₁ - r² h₂). Solid geometry.
    #[test]
    fn a_frustum_is_a_cone_without_its_tip() {
        let vessel = Vessel::round(centimetres(12.0), centimetres(17.0), centimetres(13.0));
        let whole_cone = 13.0 * 8.5 / (8.5 - 6.0);
        let exact = std::f64::consts::PI / 3.0
            * (8.5f64.powi(2) * whole_cone - 6f64.powi(2) * (whole_cone - 13.0));
        assert!((vessel.volume_to(centimetres(13.0)).in_millilitres() / exact - 1.0).abs() < 1e-13);
    }

    /// A square pot holds 4/π of the round one of the same breadths.
    #[test]
    fn a_square_pot_holds_more_than_the_round_one_by_four_over_pi() {
        let (base, rim, height) = (centimetres(6.0), centimetres(9.0), centimetres(8.5));
        let (round, square) = (
            Vessel::round(base, rim, height),
            Vessel::square(base, rim, height),
        );
        let ratio = square.volume_to(height) / round.volume_to(height);
        assert!((ratio - 4.0 / std::f64::consts::PI).abs() < 1e-14);
        let areas = square.base_area() / round.base_area();
        assert!((areas - 4.0 / std::f64::consts::PI).abs() < 1e-14);
    }

    #[test]
    fn a_straight_pot_has_the_volume_it_was_made_from() {
        let vessel = Vessel::straight(Volume::from_litres(8.5), centimetres(21.0));
        assert!((vessel.volume_to(centimetres(21.0)).in_litres() - 8.5).abs() < 1e-12);
        assert!((vessel.volume_to(centimetres(10.5)).in_litres() - 4.25).abs() < 1e-12);
        assert_eq!(
            vessel.breadth_at(centimetres(0.0)),
            vessel.breadth_at(centimetres(21.0))
        );
    }

    /// The mean height of a frustum above its base, H/4 (b² + 2 b t + 3 t²)/(b² + b t + t²): its centroid,
    /// in any table of solids. With the water at the base the suction is the height; with the water
    /// lower it is more by the depth.
    #[test]
    fn the_mean_suction_of_a_pot_is_the_height_of_its_centroid() {
        let vessel = Vessel::round(centimetres(7.0), centimetres(10.0), centimetres(9.0));
        let centroid = 9.0 / 4.0 * (49.0 + 2.0 * 70.0 + 300.0) / (49.0 + 70.0 + 100.0);
        let mean =
            |level: f64| vessel.mean_over(centimetres(9.0), centimetres(level), |suction| suction);
        assert!((mean(0.0) - centroid).abs() < 1e-13);
        assert!((mean(-5.0) - centroid - 5.0).abs() < 1e-12);
        assert_eq!(mean(9.0), 0.0);
        assert_eq!(mean(40.0), 0.0);
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn the_mean_of_what_is_everywhere_the_same_is_that(
            base in 2.0..30.0f64, rim in 2.0..30.0f64, height in 2.0..40.0f64, part in 0.2..=1.0f64, level in -20.0..50.0f64, value in -5.0..5.0f64,
        ) {
            let vessel = Vessel::round(centimetres(base), centimetres(rim), centimetres(height));
            let mean = vessel.mean_over(centimetres(height * part), centimetres(level), |_| value);
            prop_assert!((mean - value).abs() < 1e-12);
        }

        /// Straight pots only: higher water, wetter mix; taller pot, drier mix.
        #[test]
        fn the_nearer_the_water_the_wetter(curve in curve(), height in 3.0..30.0f64, level in -20.0..20.0f64, more in 0.1..10.0f64) {
            let water = |height: f64, level: f64| {
                let vessel = Vessel::straight(Volume::from_litres(1.0), centimetres(height));
                vessel.mean_over(centimetres(height), centimetres(level), |suction| curve.water_content(suction))
            };
            prop_assert!(water(height, level + more) >= water(height, level) - 1e-6);
            prop_assert!(water(height + more, level) <= water(height, level) + 1e-6);
        }

        /// d(H CC)/dH = θ(H) in a straight pot, so what two heights of one mix hold gives the mean of the
        /// curve between them (the container integral of Milks, Fonteno & Larson 1989, differentiated).
        #[test]
        fn two_heights_of_a_mix_give_a_piece_of_its_curve(height in 4.0..20.0f64, more in 1.0..10.0f64) {
            let peat = Retention::single(0.207, 0.93, PoreSystem::new(0.1479, 1.796).unwrap()).unwrap();
            let water = |height: f64| {
                let vessel = Vessel::straight(Volume::from_litres(1.0), centimetres(height));
                height * vessel.mean_over(centimetres(height), centimetres(0.0), |suction| peat.water_content(suction))
            };
            let between = longtom::science::numerics::quadrature::integral(height, height + more, |suction| peat.water_content(suction));
            prop_assert!((water(height + more) - water(height) - between).abs() < 1e-6);
        }
    }
}

mod blend {
    use super::*;

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        /// Solids and mass are kept on the volume that is left; water is never more than the pores.
        #[test]
        fn solids_and_mass_are_kept(
            curves in prop::collection::vec((curve(), 0.05..1.0f64, 50.0..1600.0f64, 0.0..0.5f64), 1..6), lost in 0.0..0.04f64, widest_first in 0.0..1.0f64, suction in 0.0..100.0f64,
        ) {
            let whole: f64 = curves.iter().map(|part| part.1).sum();
            let parts: Vec<Part> = curves
                .iter()
                .map(|&(retention, share, density, trapped)| Part {
                    share: share / whole,
                    dry_density_kg_per_m3: density,
                    pore_space: retention.saturated() + trapped * (1.0 - retention.saturated()),
                    retention,
                })
                .collect();
            let left_over = |pores: fn(&Part) -> f64| -> f64 { parts.iter().map(|part| part.share * (1.0 - pores(part))).sum() };
            let (solids, dry_for_good) = (left_over(|part| part.pore_space), left_over(|part| part.retention.saturated()));
            let mass: f64 = parts.iter().map(|part| part.share * part.dry_density_kg_per_m3).sum();
            let dry: f64 = parts.iter().map(|part| part.share * part.retention.water_content(suction)).sum();
            let blend = Blend::new(parts, lost, widest_first);
            let left = 1.0 - lost;
            prop_assert!((blend.pore_space() - (1.0 - solids / left).max(0.0)).abs() < 1e-14);
            prop_assert!((blend.soaked() - (1.0 - dry_for_good / left).max(0.0)).abs() < 1e-14);
            prop_assert!(blend.soaked() <= blend.pore_space());
            prop_assert!((blend.dry_density_kg_per_m3() * left / mass - 1.0).abs() < 1e-14);
            let water = blend.water_content(suction);
            prop_assert!(water <= blend.soaked());
            if suction > 0.0 && lost == 0.0 {
                prop_assert!((water - dry).abs() < 1e-12);
            }
            prop_assert!(blend.water_content(suction + 1.0) <= water + 1e-15);
            let in_full = blend.water_content_wetted_in_full(suction);
            prop_assert!(water <= in_full + 1e-15 && in_full <= blend.pore_space());
        }
    }

    #[test]
    fn one_part_alone_is_itself() {
        let peat = Retention::single(0.207, 0.93, PoreSystem::new(0.1479, 1.796).unwrap()).unwrap();
        let part = Part {
            share: 1.0,
            dry_density_kg_per_m3: 90.0,
            pore_space: 0.95,
            retention: peat,
        };
        let blend = Blend::new(vec![part], 0.0, 0.5);
        assert!((blend.soaked() - 0.93).abs() < 1e-15);
        assert!((blend.pore_space() - 0.95).abs() < 1e-15);
        assert_eq!(blend.dry_density_kg_per_m3(), 90.0);
        for suction in [0.5, 5.0, 10.0, 50.0, 100.0] {
            assert!((blend.water_content(suction) - peat.water_content(suction)).abs() < 1e-15);
        }
    }
}
