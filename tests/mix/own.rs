//! Figures of one's own: typed, out of a drain test, out of a bucket test.

use super::*;
use longtom::handbook::materials::{MATERIALS, material};
use longtom::measure::Length;
use longtom::reckon::mix::{DRAIN_TEST, OWN_FIGURES, Substance};
use longtom::science::drain_test::fit::mean_water;

fn grams(value: f64) -> Entry {
    Entry::new(format!("{value:.4}"), "g")
}

fn percent(value: f64) -> Entry {
    Entry::new(format!("{:.4}", value * 100.0), "%")
}

/// What vessels of 1 L at 10 cm and 2 L at 20 cm weigh with a material, dry when it was filled in.
fn weighed(substance: &Substance) -> [[f64; 3]; 2] {
    let curve = substance.retention().unwrap();
    let dry = substance.dry_density_g_per_l.best();
    [(1.0, 10.0), (2.0, 20.0)].map(|(litres, cm)| {
        let water = mean_water(&curve, Length::from_centimetres(cm));
        [
            dry * litres,
            (dry + 1000.0 * curve.saturated()) * litres,
            (dry + 1000.0 * water) * litres,
        ]
    })
}

fn drained(question: &mut Question, part: usize, weights: [[f64; 3]; 2], both: bool) {
    let own = &mut question.parts[part].own;
    DRAIN_TEST.clone_into(&mut own.figures);
    own.moisture = Entry::new("0", "%");
    let vessels = [(&mut own.short, "1", "100"), (&mut own.tall, "2", "200")];
    for ((vessel, litres, mm), [filled, soaked, drained]) in
        vessels.into_iter().zip(weights).take(1 + usize::from(both))
    {
        vessel.volume = Entry::new(litres, "L");
        vessel.height = Entry::new(mm, "mm");
        vessel.filled = grams(filled);
        vessel.soaked = grams(soaked);
        vessel.drained = grams(drained);
    }
}

/// Whoever drains a material that is just as the handbook has it is told what the handbook tells.
#[test]
fn a_material_that_is_as_the_handbook_has_it_comes_back_from_its_weights() {
    for material in MATERIALS {
        for both in [false, true] {
            let usual = question(&[(material.key, 1.0)], pot("round_10_cm"));
            let mut own = usual.clone();
            drained(&mut own, 0, weighed(&Substance::of(material)), both);
            let (usual, own) = (Figures::best(&usual), Figures::best(&own));
            for name in ["water", "air_drained", "pore_space", "air_standing"] {
                let apart = (usual.of(name) - own.of(name)).abs();
                assert!(apart < 0.01, "{} {name}: {apart}", material.key);
            }
            let ratio = own.of("dry_weight") / usual.of("dry_weight");
            assert!((ratio - 1.0).abs() < 0.005, "{}: {ratio}", material.key);
        }
    }
}

/// The range that is left is that of the weighing, and narrower than that of the class.
#[test]
fn two_heights_know_more_than_a_class() {
    let usual = question(&[("composted_bark", 1.0)], pot("round_8_5_l"));
    let width = |question: &Question, name: &str| {
        let range = Figures::sampled(question).range(name);
        range.high() - range.low()
    };
    let mut own = usual.clone();
    let bark = material("composted_bark").unwrap();
    drained(&mut own, 0, weighed(&Substance::of(bark)), true);
    for name in ["water", "air_drained", "dry_weight"] {
        assert!(width(&own, name) < width(&usual, name), "{name}");
    }
}

/// Mean water between the two heights is what the second vessel holds beyond the first: the
/// derivative rule for straight vessels (reference check E3), here as the mix's own pots tell it.
#[test]
fn two_straight_pots_tell_the_water_between_their_heights() {
    let water = |cm: f64| Figures::best(&question(&[("white_peat", 1.0)], core(cm))).of("water");
    let between = (16.0 * water(16.0) - 8.0 * water(8.0)) / 8.0;
    let middle = Substance::of(material("white_peat").unwrap())
        .retention()
        .unwrap()
        .water_content(12.0);
    assert!((between - middle).abs() < 0.01, "{between} and {middle}");
}

#[test]
fn typed_figures_overrule_and_what_is_not_typed_stays() {
    let mut own = question(&[("coir_pith", 1.0)], core(10.0));
    let usual = Figures::best(&own);
    OWN_FIGURES.clone_into(&mut own.parts[0].own.figures);
    let nothing_typed = Figures::best(&own);
    for name in ["water", "pore_space", "dry_weight"] {
        assert!(
            (usual.of(name) - nothing_typed.of(name)).abs() < 1e-12,
            "{name}"
        );
    }
    own.parts[0].own.pore_space = percent(0.80);
    own.parts[0].own.water_at_10_cm = percent(0.50);
    own.parts[0].own.density = Entry::new("120", "g/L");
    let figures = Figures::sampled(&own);
    assert!((figures.of("pore_space") - 0.80).abs() < 1e-9);
    assert!((figures.of("laboratory_water") - 0.50).abs() < 1e-6);
    assert!((figures.density() - 120.0).abs() < 1e-6);
    let range = figures.range("pore_space");
    assert!(range.low() > 0.74 && range.high() < 0.86, "{range:?}");
}

/// A material that holds less water than its class ever does is taken at its word.
#[test]
fn a_measured_figure_goes_before_the_class() {
    let mut own = question(&[("white_peat", 1.0)], core(10.0));
    OWN_FIGURES.clone_into(&mut own.parts[0].own.figures);
    own.parts[0].own.water_at_10_cm = percent(0.12);
    let figures = Figures::best(&own);
    assert!((figures.of("laboratory_water") - 0.12).abs() < 0.01);
}

#[test]
fn a_bucket_test_is_the_loss() {
    let mut asked = question(&[("composted_bark", 4.0), ("sharp_sand", 1.0)], core(10.0));
    asked.bucket.loose = Entry::new("20", "L");
    asked.bucket.mixed = Entry::new("17.8", "L");
    let figures = Figures::sampled(&asked);
    assert!((figures.of("volume_lost") - 0.11).abs() < 1e-9);
    let range = figures.range("volume_lost");
    assert!(range.low() > 0.06 && range.high() < 0.16, "{range:?}");
    // Solids that were measured out must fit in what is left.
    asked.bucket.mixed = Entry::new("19.9", "L");
    let less_lost = Figures::best(&asked);
    assert!(less_lost.of("pore_space") > figures.of("pore_space"));
    assert!(less_lost.of("dry_weight") < figures.of("dry_weight"));
}
