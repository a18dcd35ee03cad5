//! What must hold for any mix whatever.

use super::*;
use longtom::handbook::filling::{MOST_LOST, SPILT, TRAPPED_AIR};
use longtom::handbook::materials::{MATERIALS, Material, PoresBy, material};
use longtom::handbook::pots::POTS;
use longtom::handbook::thresholds::LIMITS;
use longtom::reckon::doubt::doubt_of;
use longtom::reckon::mix::OWN_VOLUME;
use longtom::science::numerics::draws::Draws;
use proptest::prelude::*;

const ROUNDING: f64 = 1e-12;

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= ROUNDING * a.abs().max(b.abs()).max(1.0)
}

/// One to eight materials in any order, any parts of them.
fn parts() -> impl Strategy<Value = Vec<(&'static str, f64)>> {
    let keys: Vec<&str> = MATERIALS.iter().map(|material| material.key).collect();
    let some = prop::sample::subsequence(keys, 1..=8).prop_shuffle();
    (some, prop::collection::vec(0.05..20.0f64, 8))
        .prop_map(|(keys, amounts)| keys.into_iter().zip(amounts).collect())
}

fn any_pot() -> impl Strategy<Value = PotAsked> {
    let known = (0..POTS.len()).prop_map(|place| pot(POTS[place].key));
    let own = (40.0..300.0f64, 0.5..2.0f64, 40.0..400.0f64, 0.0..20.0f64).prop_map(
        |(rim, taper, height, below)| {
            let millimetres = |value: f64| Entry::new(format!("{value:.4}"), "mm");
            PotAsked {
                size: OWN_ROUND.to_owned(),
                rim: millimetres(rim),
                base: millimetres(rim * taper),
                height: millimetres(height),
                below_rim: millimetres(below),
                ..PotAsked::default()
            }
        },
    );
    prop_oneof![known, own]
}

prop_compose! {
    fn any_question()(parts in parts(), pot in any_pot(), pots in 1..500u32, place in 0..LIMITS.len()) -> Question {
        Question { pots: Entry::number(f64::from(pots)), purpose: LIMITS[place].key.to_owned(), ..question(&parts, pot) }
    }
}

fn share_of(question: &Question) -> Vec<(&'static str, f64)> {
    check(question)
        .parts
        .iter()
        .map(|part| (part.material.key, part.share))
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn water_air_and_solids_fill_the_pot(question in any_question()) {
        let figures = Figures::best(&question);
        let of_all = |taken_up: fn(&Material) -> f64| {
            share_of(&question).iter().map(|(key, share)| share * taken_up(material(key).unwrap())).sum::<f64>()
                / (1.0 - figures.of("volume_lost"))
        };
        let solids = of_all(|material| 1.0 - material.pore_space.range.best());
        let trapped = of_all(|material| match material.pores_by {
            PoresBy::Densities => material.pore_space.range.best() * TRAPPED_AIR.range.best(),
            PoresBy::Soaking => 0.0,
        });
        let all = figures.of("water") + figures.of("air_drained") + trapped + solids;
        prop_assert!((all - 1.0).abs() < ROUNDING, "{all}");
        prop_assert!(figures.of("water") >= -ROUNDING && figures.of("air_drained") >= -ROUNDING);
    }

    #[test]
    fn higher_up_the_pot_there_is_never_more_water(question in any_question()) {
        let answer = Mix::answer(&check(&question), None).unwrap();
        for pair in answer.detail.profile.windows(2) {
            prop_assert!(pair[1].water <= pair[0].water + ROUNDING);
            prop_assert!(pair[1].air >= pair[0].air - ROUNDING);
        }
    }

    #[test]
    fn water_in_the_tray_never_gives_air(question in any_question()) {
        let figures = Figures::best(&question);
        prop_assert!(figures.of("air_standing") <= figures.of("air_drained") + ROUNDING);
        prop_assert!(figures.of("air_standing") >= -ROUNDING);
    }

    /// Owen & Altland 2008, HortScience 43:505, for the direction; for straight pots it follows from
    /// the mean of a curve that never rises.
    #[test]
    fn a_taller_pot_of_the_same_mix_never_has_less_air(parts in parts(), height in 3.0..30.0f64, taller in 1.01..2.0f64) {
        let air = |height: f64| Figures::best(&question(&parts, core(height))).of("air_drained");
        prop_assert!(air(height * taller) >= air(height) - 1e-9);
    }

    #[test]
    fn volume_lost_lies_between_nothing_and_the_most_known(question in any_question()) {
        let lost = Figures::best(&question).of("volume_lost");
        prop_assert!((0.0..=MOST_LOST).contains(&lost), "{lost}");
        if question.parts.len() == 1 {
            prop_assert!(lost.abs() < ROUNDING, "{lost}");
        }
    }

    #[test]
    fn the_order_of_the_parts_does_not_matter(question in any_question()) {
        let mut turned = question.clone();
        turned.parts.reverse();
        let (ours, theirs) = (Figures::best(&question), Figures::best(&turned));
        for (name, &value) in ours.names.iter().zip(&ours.values) {
            prop_assert!(near(value, theirs.of(name)), "{name}: {value} and {}", theirs.of(name));
        }
    }

    #[test]
    fn parts_by_the_cup_or_by_the_barrow_are_the_same_mix(parts in parts(), pot in any_pot(), factor in 0.02..40.0f64) {
        let scaled: Vec<_> = parts.iter().map(|&(key, amount)| (key, amount * factor)).collect();
        let (ours, theirs) = (Figures::best(&question(&parts, pot.clone())), Figures::best(&question(&scaled, pot)));
        for (name, (&value, &other)) in ours.names.iter().zip(ours.values.iter().zip(&theirs.values)) {
            prop_assert!(near(value, other), "{name}: {value} and {other}");
        }
    }

    #[test]
    fn a_material_of_nought_parts_is_not_there(parts in parts(), pot in any_pot()) {
        prop_assume!(parts.len() < 8);
        let absent = MATERIALS.iter().find(|m| parts.iter().all(|(key, _)| *key != m.key)).unwrap();
        let mut more = parts.clone();
        more.push((absent.key, 0.0));
        let (ours, theirs) = (Figures::best(&question(&parts, pot.clone())), Figures::best(&question(&more, pot)));
        prop_assert_eq!(&ours.names, &theirs.names);
        prop_assert_eq!(&ours.values, &theirs.values);
    }

    #[test]
    fn twice_the_pots_take_twice_the_mix(question in any_question()) {
        let twice = |question: &Question| {
            let pots: f64 = question.pots.text().parse().unwrap();
            Question { pots: Entry::number(2.0 * pots), ..question.clone() }
        };
        let (one, two) = (Figures::best(&question), Figures::best(&twice(&question)));
        for (name, (&value, &other)) in one.names.iter().zip(one.values.iter().zip(&two.values)) {
            let times = if name == "mix_needed" || name.starts_with("litres_of_") { 2.0 } else { 1.0 };
            prop_assert!(near(times * value, other), "{name}: {value} and {other}");
        }
    }

    #[test]
    fn the_parts_are_what_the_mix_was_before_it_shrank(question in any_question()) {
        let figures = Figures::best(&question);
        let parts: f64 = figures.names.iter().filter(|name| name.starts_with("litres_of_")).map(|name| figures.of(name)).sum();
        prop_assert!(near(parts * (1.0 - figures.of("volume_lost")), figures.of("mix_needed")));
        for (key, share) in share_of(&question) {
            let litres = figures.of(&format!("litres_of_{key}"));
            prop_assert!(near(litres, share * parts));
        }
    }

    #[test]
    fn what_is_measured_out_ends_in_the_pots_but_for_what_is_spilt(question in any_question()) {
        let figures = Figures::best(&question);
        let pots: f64 = question.pots.text().parse().unwrap();
        let pressed = figures.of("mix_needed") / (pots * figures.of("mix_in_pot") * (1.0 + SPILT.range.best()));
        prop_assert!(near(pressed, 1.25));
    }

    #[test]
    fn wet_less_dry_is_the_water(question in any_question()) {
        let figures = Figures::best(&question);
        let litres = figures.of("water_in_pot") * 1000.0;
        prop_assert!(near(figures.of("wet_weight") - figures.of("dry_weight"), litres));
        prop_assert!(near(litres, figures.of("water") * figures.of("mix_in_pot") * 1000.0));
    }

    #[test]
    fn dry_weight_is_that_of_the_parts(question in any_question()) {
        let figures = Figures::best(&question);
        let mass: f64 = share_of(&question)
            .iter()
            .map(|(key, share)| share * material(key).unwrap().dry_density_g_per_l.range.best())
            .sum();
        prop_assert!(near(figures.density() * (1.0 - figures.of("volume_lost")), mass));
    }

    #[test]
    fn easily_available_water_is_part_of_the_water(question in any_question()) {
        let figures = Figures::best(&question);
        prop_assert!(figures.of("laboratory_easy_water") >= 0.0 && figures.of("laboratory_easy_water") <= figures.of("pore_space"));
        prop_assert!(figures.of("easy_water_in_pot") <= figures.of("water_in_pot") + ROUNDING);
    }

    /// 1 in is 25.4 mm, by definition.
    #[test]
    fn a_pot_in_inches_or_centimetres_is_the_same_pot(parts in parts(), rim in 2u32..12, base in 2u32..12, height in 2u32..15) {
        let in_unit = |unit: &str, per_inch: f64| {
            let entry = |inches: u32| Entry::new(format!("{:.4}", f64::from(inches) * per_inch), unit);
            question(&parts, PotAsked {
                size: OWN_ROUND.to_owned(),
                rim: entry(rim.min(2 * base)),
                base: entry(base.min(2 * rim)),
                height: entry(height),
                below_rim: entry(1),
                ..PotAsked::default()
            })
        };
        let inches = Figures::best(&in_unit("in", 1.0));
        for (unit, per_inch) in [("mm", 25.4), ("cm", 2.54), ("m", 0.0254)] {
            let other = Figures::best(&in_unit(unit, per_inch));
            for (name, &value) in inches.names.iter().zip(&inches.values) {
                prop_assert!((value - other.of(name)).abs() <= 1e-9 * value.abs().max(1e-3), "{name} in {unit}");
            }
        }
    }

    /// A round pot and a straight one of the same volume and height differ only by taper.
    #[test]
    fn a_straight_pot_by_volume_is_the_round_one_without_taper(parts in parts(), height in 60.0..300.0f64) {
        let breadth = 100.0f64;
        let litres = std::f64::consts::PI / 4.0 * breadth * breadth * height / 1e6;
        let millimetres = |value: f64| Entry::number(value).with_unit("mm");
        let round = PotAsked { size: OWN_ROUND.to_owned(), rim: millimetres(breadth), base: millimetres(breadth), height: millimetres(height), below_rim: millimetres(5.0), ..PotAsked::default() };
        let volume = PotAsked { size: OWN_VOLUME.to_owned(), volume: Entry::number(litres).with_unit("L"), ..round.clone() };
        let (round, volume) = (Figures::best(&question(&parts, round)), Figures::best(&question(&parts, volume)));
        for (name, &value) in round.names.iter().zip(&round.values) {
            prop_assert!((value - volume.of(name)).abs() <= 1e-9 * value.abs().max(1e-6), "{name}");
        }
    }

    #[test]
    fn a_question_comes_back_from_json_to_the_letter(
        texts in prop::collection::vec("\\PC{0,20}", 8), units in prop::collection::vec("[a-zA-Z%\\[\\]\\\\ ]{0,4}", 8), some in any_question(),
    ) {
        let entry = |place: usize| Entry::new(texts[place].as_str(), units[place].as_str());
        let mut question = some;
        question.parts[0] = PartAsked { material: texts[6].clone(), amount: entry(0), bag: entry(1), ..PartAsked::default() };
        question.pot = PotAsked { size: texts[7].clone(), rim: entry(2), base: entry(3), height: entry(4), volume: entry(5), below_rim: entry(6) };
        question.pots = entry(7);
        let json = serde_json::to_string(&question).unwrap();
        let back: Question = serde_json::from_str(&json).unwrap();
        prop_assert_eq!(back, question);
    }
}

/// Where fines fill all gaps and the cell is short, the pores stay full to the top: the air is
/// nought, and a hair below nought would be printed with a minus and a power of ten.
#[test]
fn air_of_a_cell_that_stays_full_is_not_below_nought() {
    let parts = [
        ("green_compost", 6.330041012179976),
        ("sharp_sand", 9.13074205483081),
    ];
    let figures = Figures::best(&question(&parts, pot("round_cell")));
    for name in ["air", "air_drained", "air_standing"] {
        assert!(figures.of(name) >= 0.0, "{name}: {:e}", figures.of(name));
    }
}

/// Perlite in peat, of every grade, in pots of every height: never less air. Easily available
/// water is not claimed to rise or fall: it depends on the grade.
#[test]
fn more_perlite_in_peat_never_gives_less_air() {
    for perlite in ["perlite_fine", "perlite_medium", "perlite_coarse"] {
        for peat in ["white_peat", "black_peat"] {
            for height in [4.0, 7.6, 12.0, 25.0] {
                let air = |percent: u32| {
                    let share = f64::from(percent) / 100.0;
                    Figures::best(&question(
                        &[(peat, 1.0 - share), (perlite, share)],
                        core(height),
                    ))
                    .of("air_drained")
                };
                for percent in (5..=60).step_by(5) {
                    let (less, more) = (air(percent - 5), air(percent));
                    assert!(
                        more >= less - ROUNDING,
                        "{percent} % {perlite} in {peat}, {height} cm: {more} after {less}"
                    );
                }
            }
        }
    }
}

#[test]
fn ranges_of_careless_questions_are_in_order_and_hold_the_best() {
    /// Enough draws to reach the far ends of the inputs, and few enough for two hundred questions.
    const FEW_DRAWS: u32 = 100;
    let mut draws = Draws::from_seed(2);
    let mut answered = 0;
    while answered < 200 {
        let question = Mix::careless(&mut draws);
        let Ok(case) = Mix::check(&question, DecimalMark::Ask) else {
            continue;
        };
        let best = Mix::best(&case).unwrap().values;
        let doubt = doubt_of::<Mix>(case, FEW_DRAWS, SEED).unwrap();
        assert_eq!(doubt.ranges.len(), best.len());
        for (range, best) in doubt.ranges.iter().zip(best) {
            assert!(
                range.low() <= best
                    && best <= range.high()
                    && range.low().is_finite()
                    && range.high().is_finite()
            );
        }
        assert!(near(doubt.chances.iter().sum(), 1.0));
        answered += 1;
    }
}

fn everyday() -> Vec<Question> {
    vec![
        Question::default(),
        question(
            &[("white_peat", 3.0), ("perlite_medium", 1.0)],
            pot("module_84"),
        ),
        question(
            &[("composted_bark", 4.0), ("sharp_sand", 1.0)],
            pot("round_3_l"),
        ),
        question(&[("loam_compost", 1.0)], pot("round_8_5_l")),
        question(
            &[("coir_pith", 2.0), ("wood_fibre", 1.0), ("grit", 1.0)],
            core(20.0),
        ),
    ]
}

/// However a draw falls out, no more water is held at 50 cm of suction than at 10.
#[test]
fn easily_available_water_is_never_less_than_none() {
    for material in MATERIALS {
        let alone = question(&[(material.key, 1.0)], core(7.6));
        let mixed = question(&[(material.key, 1.0), ("grit", 1.5)], core(7.6));
        let mixed = (material.key != "grit").then_some(mixed);
        for question in [alone].into_iter().chain(mixed) {
            let easy = Figures::sampled(&question).range("laboratory_easy_water");
            assert!(easy.low() >= -ROUNDING, "{}: {easy:?}", material.key);
        }
    }
}

#[test]
fn the_same_seed_gives_the_same_doubt() {
    for question in everyday() {
        let doubt = || doubt_of::<Mix>(check(&question), DRAWS, 5).unwrap();
        assert_eq!(doubt(), doubt());
    }
}

#[test]
fn another_seed_moves_no_limit_by_a_fifth_of_the_width() {
    for question in everyday() {
        let names = Mix::figures(&check(&question));
        let doubt = |seed: u64| doubt_of::<Mix>(check(&question), DRAWS, seed).unwrap();
        let first = doubt(SEED);
        for seed in 2..6 {
            for ((a, b), name) in first.ranges.iter().zip(doubt(seed).ranges).zip(&names) {
                // Nought in many draws: only the few others say where the other limit is.
                let share = if a.low() == 0.0 { 3.0 } else { 5.0 };
                let most = (a.high() - a.low()) / share + ROUNDING;
                let moved = (a.low() - b.low()).abs().max((a.high() - b.high()).abs());
                assert!(
                    moved <= most,
                    "{} moved by {moved} where {most} is allowed",
                    name.name
                );
            }
        }
    }
}

/// What the drawn inputs are, must be what their ranges say: the share of a lone part is known,
/// so its litres must spread as pressing and spilling do, and its density as the handbook's.
#[test]
fn ranges_of_one_material_alone_are_those_of_the_handbook() {
    /// Four standard deviations of a 10 % point found from 400 draws, as a share of the width.
    const CHANCE: f64 = 0.14;
    for material in MATERIALS {
        let figures = Figures::sampled(&question(&[(material.key, 1.0)], core(7.6)));
        let close = |ours: Range<f64>, theirs: Range<f64>| {
            let width = theirs.high() - theirs.low();
            (ours.low() - theirs.low()).abs() < CHANCE * width
                && (ours.high() - theirs.high()).abs() < CHANCE * width
        };
        assert!(
            close(figures.density_range(), material.dry_density_g_per_l.range),
            "{}",
            material.key
        );
        let (pores, open) = (figures.range("pore_space"), material.pore_space.range);
        let trapped = TRAPPED_AIR.range;
        let as_told = match material.pores_by {
            PoresBy::Soaking => close(pores, open),
            // A product lies within the products of its factors' limits.
            PoresBy::Densities => {
                near(pores.best(), open.best() * (1.0 - trapped.best()))
                    && pores.low() > open.low() * (1.0 - trapped.high())
                    && pores.high() < open.high() * (1.0 - trapped.low())
            }
        };
        assert!(as_told, "{}: {pores:?}", material.key);
        assert!(figures.range("volume_lost").is_exact());
    }
}
