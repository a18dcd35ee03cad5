//! How the pots stand: tray, bed, bench, and how long they last.

use super::*;
use longtom::reckon::mix::{OWN_FIGURES, STAGGERED};
use proptest::prelude::*;

fn millimetres(value: f64) -> Entry {
    Entry::new(format!("{value:.4}"), "mm")
}

/// Check values of white peat by an independent quadrature (Python, scipy), for the curve that the
/// reference tables have: 10 cm pot filled to 7.8 cm, mean water drained .8184, standing in 20 mm
/// of water .8713, on a bed with the water 50 mm below the base .6724.
#[test]
fn peat_in_a_tray_and_on_a_bed_holds_what_another_quadrature_says() {
    let mut asked = question(&[("white_peat", 1.0)], pot("own"));
    asked.pot = PotAsked {
        size: "own_round".to_owned(),
        rim: millimetres(100.0),
        base: millimetres(70.0),
        height: millimetres(88.0),
        below_rim: millimetres(10.0),
        ..PotAsked::default()
    };
    let own = &mut asked.parts[0].own;
    OWN_FIGURES.clone_into(&mut own.figures);
    own.pore_space = Entry::new("93", "%");
    own.water_at_10_cm = Entry::new("65", "%");
    asked.purpose = "fed_from_below".to_owned();
    let near = |name: &str, asked: &Question, water: f64| {
        let air = Figures::best(asked).of(name);
        assert!((0.93 - air - water).abs() < 2e-3, "{name}: {air}");
    };
    near("air_drained", &asked, 0.8184);
    near("air_standing", &asked, 0.8713);
    asked.stands.tray = millimetres(0.0);
    asked.stands.bed = millimetres(50.0);
    near("air_standing", &asked, 0.6724);
    near("air_over_empty_tray", &asked, 0.6724);
}

#[test]
fn a_pot_in_water_without_a_bed_goes_between_standing_and_drained() {
    let mut asked = question(&[("coir_pith", 1.0)], pot("round_10_cm"));
    asked.purpose = "fed_from_below".to_owned();
    let figures = Figures::best(&asked);
    let mean = f64::midpoint(figures.of("air_standing"), figures.of("air_drained"));
    assert!((figures.of("air") - mean).abs() < 1e-12);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn more_bed_never_wets_the_pot(bed in 0.0..150.0f64, more in 0.0..100.0f64, tray in 0.0..60.0f64) {
        let air = |bed: f64, name: &str| {
            let mut asked = question(&[("composted_bark", 2.0), ("white_peat", 1.0)], pot("round_2_l"));
            asked.stands.tray = millimetres(tray);
            asked.stands.bed = millimetres(bed.max(0.001));
            Figures::best(&asked).of(name)
        };
        for name in ["air_standing", "air_over_empty_tray"] {
            prop_assert!(air(bed + more, name) >= air(bed, name) - 1e-9);
        }
    }

    #[test]
    fn deeper_water_never_gives_air(tray in 0.0..100.0f64, deeper in 0.0..100.0f64) {
        let air = |tray: f64| {
            let mut asked = question(&[("coir_pith", 3.0), ("perlite_coarse", 1.0)], pot("round_2_l"));
            asked.stands.tray = millimetres(tray);
            Figures::best(&asked).of("air_standing")
        };
        prop_assert!(air(tray + deeper) <= air(tray) + 1e-9);
    }

    #[test]
    fn a_pot_lasts_as_long_as_its_easy_water_is_drunk(drinks in 5.0..2000.0f64) {
        let mut asked = question(&[("white_peat", 3.0), ("perlite_medium", 1.0)], pot("round_2_l"));
        asked.stands.drinks = Entry::new(format!("{drinks:.4}"), "mL");
        let figures = Figures::best(&asked);
        let days = figures.of("lasts") / 86_400.0;
        prop_assert!((days * drinks / 1e6 / figures.of("easy_water_in_pot") - 1.0).abs() < 1e-3);
    }
}

/// 81 pots of 0.4286 L of wet peat at 0.389 kg each and 20 mm of water are 51.5 kg on a square
/// metre, by hand: 81 x (0.090 x 0.4286 + 0.8184 x 0.4286) + 20.
#[test]
fn the_load_on_a_bench_is_pots_and_water() {
    let mut asked = question(&[("white_peat", 1.0)], pot("round_10_cm"));
    asked.bench.spacing = millimetres(1000.0 / 9.0);
    let figures = Figures::best(&asked);
    let by_hand = 81.0 * figures.of("wet_weight") + 20.0;
    assert!((figures.of("bench_load") / by_hand - 1.0).abs() < 1e-4);

    let square = figures.of("bench_load") - 20.0;
    STAGGERED.clone_into(&mut asked.bench.set_out);
    let staggered = Figures::best(&asked).of("bench_load") - 20.0;
    // Rows of triangles lie nearer by the height of one: any table of solids.
    assert!((staggered / square - 2.0 / 3f64.sqrt()).abs() < 1e-6);
}

#[test]
fn an_overloaded_bench_is_said_before_the_pots_are_set_out() {
    let mut asked = question(&[("loam_compost", 1.0)], pot("round_8_5_l"));
    asked.bench.spacing = millimetres(280.0);
    let told = |asked: &Question| {
        let answer = Mix::answer(&check(asked), None).unwrap();
        answer
            .cautions
            .iter()
            .any(|caution| caution.before == "Before you set the pots out")
    };
    assert!(!told(asked_with_limit(&mut asked, "250")));
    assert!(told(asked_with_limit(&mut asked, "50")));
}

fn asked_with_limit<'a>(asked: &'a mut Question, limit: &str) -> &'a Question {
    asked.bench.limit = Entry::new(limit, "kg/m2");
    asked
}
