//! What Recipe finds, held to searches that were made in other ways.
//!
//! * `reference`: `tests/reference/recipe.py`, which goes through all blends with the published
//!   equations written anew, and searches between them by differential evolution;
//! * `identity`: what must hold for any question: nothing better is overlooked, each blend told
//!   meets its targets in Mix itself, and more to choose from or less to ask for is never worse.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::measure::{DecimalMark, Entry};
use longtom::reckon::answer::{Answer, Verdict};
use longtom::reckon::doubt::{DRAWS, Doubt, SEED, UnderWay, doubt_of};
use longtom::reckon::form::put;
use longtom::reckon::mix::{self, Mix};
use longtom::reckon::recipe::blends::{
    STEPS, coarse_grid, grid, in_lowest, lattice, parts_apart, quadratic,
};
use longtom::reckon::recipe::{
    Aim, BEST_FIGURE, BlendTold, Case, Detail, Finds, MaterialAsked, NINE_IN_TEN, Question, Recipe,
    Search, Target, first_look,
};
use longtom::reckon::{Reckoning, errand, register};

fn check(question: &Question) -> Case {
    Recipe::check(question, DecimalMark::Point).unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn answered(question: &Question, draws: u32) -> Answer<Detail> {
    let doubt = doubt_of::<Recipe>(check(question), draws, SEED).unwrap();
    Recipe::answer(&check(question), Some(&doubt)).unwrap()
}

/// The question that the page opens with, changed.
fn with(change: impl FnOnce(&mut Question)) -> Question {
    let mut question = Question {
        certainty: BEST_FIGURE.to_owned(),
        ..Question::default()
    };
    change(&mut question);
    question
}

fn percent(value: f64) -> Entry {
    Entry::new(value.to_string(), "%")
}

fn material(key: &str, price: &str, in_hand: &str) -> MaterialAsked {
    MaterialAsked {
        material: key.to_owned(),
        price: Entry::new(price, ""),
        bag: Entry::new("50", "L"),
        in_hand: Entry::new(in_hand, "L"),
    }
}

fn counts_of(case: &Case, blend: &BlendTold) -> Vec<u8> {
    let parts = |key: &str| blend.parts.iter().find(|part| part.material == key);
    case.materials
        .iter()
        .map(|stuff| parts(stuff.material.key).map_or(0, |part| part.parts as u8))
        .collect()
}

/// A blend as Mix itself answers it, from the texts that the link to Mix carries.
fn in_mix(blend: &BlendTold, draws: u32) -> (Vec<String>, Doubt) {
    let mut question = mix::Question::default();
    assert!(put(&mut question, &blend.in_mix));
    let case = Mix::check(&question, DecimalMark::Point).unwrap();
    let names = Mix::figures(&case).into_iter().map(|figure| figure.name);
    (names.collect(), doubt_of::<Mix>(case, draws, SEED).unwrap())
}

mod reference {
    use super::*;
    use longtom::handbook::materials::{MATERIALS, Nature};
    use serde_json::Value;

    fn reference() -> Value {
        serde_json::from_str(include_str!("reference/recipe.json")).unwrap()
    }

    fn counts(row: &Value) -> Vec<u8> {
        let parts = row["counts"].as_array().unwrap();
        parts
            .iter()
            .map(|parts| parts.as_u64().unwrap() as u8)
            .collect()
    }

    /// If this fails the handbook has changed: run `python tests/reference/recipe.py` again.
    #[test]
    fn it_was_made_with_the_handbook_as_it_is() {
        for (key, row) in reference()["materials"].as_object().unwrap() {
            let here = MATERIALS.iter().find(|row| row.key == key).unwrap();
            let number = |name: &str| row[name].as_f64().unwrap();
            assert_eq!(
                here.dry_density_g_per_l.range.best(),
                number("density"),
                "{key}"
            );
            assert_eq!(here.pore_space.range.best(), number("pore_space"), "{key}");
            assert_eq!(
                here.water_at_10_cm.range.best(),
                number("water_at_10_cm"),
                "{key}"
            );
            assert_eq!(here.packing_fraction, number("packing"), "{key}");
            assert_eq!(here.grain_mm, number("grain"), "{key}");
            assert_eq!(
                here.nature == Nature::Soft,
                row["soft"].as_bool().unwrap(),
                "{key}"
            );
        }
    }

    #[test]
    fn blends_are_judged_as_the_equations_written_anew_judge_them() {
        let case = check(&Question::default());
        for row in reference()["some"].as_array().unwrap() {
            let mut parts = [0; 5];
            parts[..4].copy_from_slice(&counts(row));
            let judged = case.look(&parts).unwrap().judged;
            let close = |name: &str, value: f64| {
                let there = row[name].as_f64().unwrap();
                assert!(
                    (value - there).abs() < 3e-5 * there.max(1.0),
                    "{name}: {value} {there} {row}"
                );
            };
            close("air", judged.air);
            close("water", judged.water);
            close("wet_kg", judged.wet_kg);
            close("lost", judged.lost);
            close("price", case.price(&parts, judged.lost));
            close("worth", case.worth(&parts, judged.lost));
        }
    }

    /// "The cheapest mix with 20 % of air at 18 cm of depth, from what is in hand."
    #[test]
    fn the_cheapest_of_all_is_found() {
        let question = with(|_| ());
        let answer = answered(&question, 20);
        let found = &reference()["cheapest"];
        assert!(answer.detail.met);
        assert_eq!(
            counts_of(&check(&question), &answer.detail.blends[0]),
            counts(found)
        );
        assert_eq!(
            answer.detail.blends[0].price,
            found["price"].as_f64().unwrap()
        );
    }

    /// Between the steps of 5 % differential evolution finds less than a point more air.
    #[test]
    fn the_airiest_of_all_is_found_and_finer_steps_gain_little() {
        let question = with(|question| {
            question.aim = "air".to_owned();
            question.targets.air = percent(0.0);
            question.targets.water = percent(45.0);
        });
        let answer = answered(&question, 20);
        let reference = reference();
        assert_eq!(
            counts_of(&check(&question), &answer.detail.blends[0]),
            counts(&reference["airiest"])
        );
        let air = answer.figure("air").unwrap().range.best();
        let of_all = reference["airiest_of_all"].as_f64().unwrap();
        println!("air {air:.4} in whole parts, {of_all:.4} in any");
        assert!(air <= of_all + 1e-5 && of_all - air < 0.01);
    }

    #[test]
    fn where_none_does_the_nearest_is_found() {
        let question = with(|question| {
            question.targets.air = percent(45.0);
            question.targets.water = percent(45.0);
        });
        let answer = answered(&question, 20);
        assert!(!answer.detail.met);
        assert_eq!(answer.judgement.verdict, Verdict::DoesNotServe);
        assert_eq!(
            counts_of(&check(&question), &answer.detail.blends[0]),
            counts(&reference()["nearest"])
        );
        assert_eq!(answer.detail.in_way.unwrap().target, "air");
        assert!(
            answer.advice.starts_with("Air stands in the way."),
            "{}",
            answer.advice
        );
    }
}

mod identity {
    use super::*;
    use proptest::prelude::*;

    /// Blends of five materials in twentieths: 24 over 4 (any table of combinations).
    #[test]
    fn the_grid_has_every_blend_once() {
        for (materials, many) in [
            (0, 0),
            (1, 1),
            (2, 21),
            (3, 231),
            (4, 1771),
            (5, 10_626),
            (6, 0),
        ] {
            let mut blends = grid(materials, 1);
            assert_eq!(blends.len(), many);
            assert!(blends.iter().all(|parts| parts.iter().sum::<u8>() == STEPS));
            blends.sort_unstable();
            blends.dedup();
            assert_eq!(blends.len(), many);
            assert!(coarse_grid(materials).len() <= 130);
        }
        assert_eq!(in_lowest(&[12, 4, 4, 0, 0]), [3, 1, 1, 0, 0]);
        assert_eq!(in_lowest(&[20, 0, 0, 0, 0]), [1, 0, 0, 0, 0]);
        assert_eq!(in_lowest(&[7, 5, 5, 3, 0]), [7, 5, 5, 3, 0]);
        assert_eq!(parts_apart(&[20, 0, 0, 0, 0], &[0, 20, 0, 0, 0]), 20);
        assert_eq!(parts_apart(&[10, 5, 5, 0, 0], &[8, 7, 5, 0, 0]), 2);
    }

    /// Scheffé's quadratic goes through what it was made from, and gives any quadratic back.
    #[test]
    fn the_quadratic_is_one() {
        let of = |parts: &[u8; 5]| {
            let x = parts.map(|parts| f64::from(parts) / 20.0);
            0.3 * x[0] - 0.1 * x[1] + 0.7 * x[2] + 0.5 * x[0] * x[1] - 0.9 * x[1] * x[2]
        };
        let known: Vec<_> = lattice(3)
            .into_iter()
            .map(|parts| (parts, of(&parts)))
            .collect();
        assert_eq!(known.len(), 6);
        for parts in grid(3, 1) {
            assert!(
                (quadratic(&known, &parts) - of(&parts)).abs() < 1e-12,
                "{parts:?}"
            );
        }
    }

    fn three() -> Question {
        with(|question| {
            question.certainty = NINE_IN_TEN.to_owned();
            question.materials = vec![
                material("white_peat", "9", ""),
                material("composted_bark", "6", "25"),
                material("grit", "4", "60"),
            ];
        })
    }

    /// Every blend is drawn in full, and none that goes before the one found meets the targets in 9
    /// of 10 draws; none meets them where none was found.
    #[test]
    fn nothing_better_is_overlooked_in_nine_of_ten() {
        let asked: [(&str, f64, f64, &str); 5] = [
            ("price", 12.0, 0.0, ""),
            ("weight", 15.0, 30.0, ""),
            ("air", 5.0, 45.0, ""),
            ("easy_water", 14.0, 0.0, "0.9"),
            ("price", 30.0, 50.0, ""),
        ];
        for (aim, air, water, weight) in asked {
            let mut question = three();
            question.aim = aim.to_owned();
            question.targets.air = percent(air);
            question.targets.water = percent(water);
            question.targets.weight = Entry::new(weight, "kg");
            let case = check(&question);
            let answer = answered(&question, DRAWS);
            let meets = |counts: &[u8; 5]| {
                let doubt = doubt_of::<Mix>(case.mix_of(counts), DRAWS, SEED).unwrap();
                case.meets(counts, &case.at_the_limits(&doubt))
            };
            let mut rank_and_counts: Vec<_> = grid(3, 1)
                .into_iter()
                .map(|counts| (case.rank(&case.look(&counts).unwrap()), counts))
                .collect();
            rank_and_counts.sort_by(|one, other| {
                one.0
                    .0
                    .total_cmp(&other.0.0)
                    .then(one.0.1.total_cmp(&other.0.1))
                    .then(one.0.2.cmp(&other.0.2))
            });
            let truly = rank_and_counts.iter().find(|(_, counts)| meets(counts));
            println!("{aim} {air} {water} {weight}: {truly:?}");
            assert_eq!(answer.detail.met, truly.is_some(), "{question:?}");
            if let Some((rank, _)) = truly {
                let mut found = [0; 5];
                found[..3].copy_from_slice(&counts_of(&case, &answer.detail.blends[0]));
                assert_eq!(
                    case.rank(&case.look(&found).unwrap()),
                    *rank,
                    "{question:?}"
                );
            }
        }
    }

    /// A blend is judged by the very case that its link opens in Mix, with the salt, acidity and
    /// nitrogen of its own materials and of no other.
    #[test]
    fn a_blend_is_judged_by_the_case_that_its_link_opens() {
        let case = check(&Question::default());
        let answer = Recipe::answer(&case, None).unwrap();
        let blends = &answer.detail.blends;
        let left_out = |blend| counts_of(&case, blend).contains(&0);
        assert!(blends.iter().any(left_out), "something is left out");
        for blend in blends {
            let counts = counts_of(&case, blend);
            let mut all = [0; 5];
            all[..counts.len()].copy_from_slice(&counts);
            let here = case.mix_of(&all);
            let mut question = mix::Question::default();
            assert!(put(&mut question, &blend.in_mix));
            question.pots = Entry::number(1.0);
            let there = Mix::check(&question, DecimalMark::Point).unwrap();
            let names = |case| {
                let figures = Mix::figures(case).into_iter();
                figures.map(|figure| figure.name).collect::<Vec<_>>()
            };
            let [here_named, names] = [names(&here), names(&there)];
            assert_eq!(here_named, names);
            assert!(names.iter().any(|name| name == "ph"));
            let (here, there) = (Mix::best(&here).unwrap(), Mix::best(&there).unwrap());
            for ((name, here), there) in names.iter().zip(&here.values).zip(&there.values) {
                assert!(
                    (here - there).abs() <= 1e-9 * there.abs(),
                    "{name}: {here} {there}"
                );
            }
        }
    }

    /// The question that the page opens with, with as many draws as the page takes.
    #[test]
    fn every_blend_told_meets_its_targets_in_mix_itself() {
        let mut question = Question::default();
        question.targets.weight = Entry::new("1.3", "kg");
        let case = check(&question);
        let answer = answered(&question, DRAWS);
        assert!(answer.detail.met && answer.detail.blends.len() > 1);
        for blend in &answer.detail.blends {
            let (names, doubt) = in_mix(blend, DRAWS);
            let range =
                |name: &str| doubt.ranges[names.iter().position(|known| known == name).unwrap()];
            assert!(range("air").low() >= 0.2, "{blend:?}");
            assert!(range("wet_weight").high() <= 1.3, "{blend:?}");
            assert_eq!(range("air").best(), blend.air, "to the digit");
            assert_eq!(range("wet_weight").best(), blend.wet_kg);
        }
        let (names, doubt) = in_mix(&answer.detail.blends[0], DRAWS);
        for name in ["air", "water", "wet_weight", "volume_lost"] {
            let place = names.iter().position(|known| known == name).unwrap();
            assert_eq!(
                answer.figure(name).unwrap().range,
                doubt.ranges[place],
                "{name}"
            );
        }
        assert_eq!(answer.judgement.chances, Some(doubt.chances));
        let told: Vec<_> = answer
            .detail
            .blends
            .iter()
            .map(|blend| counts_of(&case, blend))
            .collect();
        for (index, one) in told.iter().enumerate() {
            for other in &told[..index] {
                let apart: u32 = one
                    .iter()
                    .zip(other)
                    .map(|(a, b)| u32::from(a.abs_diff(*b)))
                    .sum();
                assert!(apart >= 6, "{one:?} and {other:?} are much the same");
            }
        }
    }

    /// The target that gives is told by how much: asked for that much, the blend is found.
    #[test]
    fn what_stands_in_the_way_gives_by_what_is_told() {
        for certainty in [BEST_FIGURE, NINE_IN_TEN] {
            let mut question = three();
            question.certainty = certainty.to_owned();
            question.targets.air = percent(45.0);
            question.targets.water = percent(45.0);
            let answer = answered(&question, 100);
            let way = answer.detail.in_way.clone().unwrap();
            let wanted = match way.target.as_str() {
                "air" => &mut question.targets.air,
                "water" => &mut question.targets.water,
                other => panic!("{other}"),
            };
            *wanted = percent(way.can_be * 100.0 - 1e-9);
            let again = answered(&question, 100);
            assert!(again.detail.met, "{certainty}: {way:?}");
        }
    }

    #[test]
    fn what_cannot_be_bought_is_not_used_beyond_what_is_in_hand() {
        let question = with(|question| {
            question.materials = vec![
                material("white_peat", "", "40"),
                material("perlite_coarse", "20", ""),
                material("grit", "", "15"),
            ];
            question.targets.air = Entry::default();
            question.aim = "easy_water".to_owned();
        });
        let answer = answered(&question, 20);
        assert!(answer.detail.met);
        for blend in &answer.detail.blends {
            for part in &blend.parts {
                let most = match part.material.as_str() {
                    "white_peat" => 40.0,
                    "grit" => 15.0,
                    _ => f64::INFINITY,
                };
                assert!(part.litres <= most, "{blend:?}");
                assert!(part.from_in_hand_litres + part.to_buy_litres - part.litres < 1e-9);
                assert!(part.bags * 50.0 >= part.to_buy_litres - 1e-6);
                assert!((part.bags - 1.0) * 50.0 < part.to_buy_litres || part.bags == 0.0);
            }
        }
    }

    #[test]
    fn where_nothing_can_be_had_that_is_said() {
        let question = with(|question| {
            question.materials = vec![material("white_peat", "", "40"), material("grit", "", "15")];
        });
        let answer = answered(&question, 20);
        assert!(!answer.detail.met && answer.detail.blends.is_empty());
        assert!(
            answer
                .advice
                .starts_with("There is not enough in hand for 100 L"),
            "{}",
            answer.advice
        );
        assert!(
            answer
                .figures
                .iter()
                .all(|figure| figure.range.best() == 0.0)
        );
        assert!(!answer.working.is_empty());
    }

    #[test]
    fn a_price_at_most_may_stand_in_the_way() {
        let question = with(|question| {
            question.materials = vec![material("white_peat", "9", ""), material("grit", "4", "")];
            question.targets.price = Entry::number(3.0);
        });
        let answer = answered(&question, 20);
        let way = answer.detail.in_way.unwrap();
        assert_eq!((way.target.as_str(), way.wanted), ("price", 3.0));
        assert!(way.can_be > 3.0);
    }

    /// A first look tells that it is one, and what it finds is never better than what the whole search does.
    #[test]
    fn a_first_look_says_so() {
        let question = with(|_| ());
        let case = check(&question);
        let first = Recipe::answer(&case, None).unwrap();
        assert!(first.detail.first_look);
        assert!(
            first.judgement.sentence.starts_with("A first look"),
            "{}",
            first.judgement.sentence
        );
        let whole = answered(&question, 20);
        assert!(!whole.detail.first_look);
        let price = |answer: &Answer<Detail>| answer.figure("price").unwrap().range.best();
        assert!(price(&whole) <= price(&first));
        assert_eq!(
            first_look(&case).unwrap().first,
            Recipe::best(&case)
                .ok()
                .and(first_look(&case).unwrap().first)
        );
    }

    #[test]
    fn what_is_aimed_at_comes_first() {
        for aim in Aim::ALL {
            let case = check(&with(|question| question.aim = aim.key().to_owned()));
            let names: Vec<_> = Recipe::figures(&case)
                .into_iter()
                .map(|figure| figure.name)
                .collect();
            let first = match aim {
                Aim::Weight => "wet_weight",
                other => other.key(),
            };
            assert_eq!(names[0], first);
            assert_eq!(names.len(), 6 + 4);
            assert_eq!(Recipe::best(&case).unwrap().values.len(), names.len());
        }
    }

    #[test]
    fn finds_travel_as_numbers_and_as_bytes() {
        let finds = Finds {
            met: false,
            first: Some([7, 5, 5, 3, 0]),
            others: vec![[20, 0, 0, 0, 0], [0, 0, 10, 10, 0]],
            in_way: Some((Target::Weight, 1.25)),
        };
        let numbers = finds.written(4);
        assert_eq!(Finds::read(&numbers, 4), Some(finds.clone()));
        let doubt = Doubt {
            ranges: Vec::new(),
            chances: [0.0, 0.0, 1.0],
            finds: numbers.clone(),
        };
        let reply = errand::Reply::Found { id: 3, doubt };
        assert_eq!(errand::unpack(&errand::pack(&reply)), Some(reply));
        // Those of a question of other materials are none.
        assert_eq!(Finds::read(&numbers, 5), None);
        assert_eq!(Finds::read(&[], 4), None);
        assert_eq!(Finds::read(&numbers[..4], 4), None);
        assert_eq!(Finds::read(&[1.0, -1.0, 0.0, 3.0, 3.0, 3.0, 3.0], 4), None);
        let nothing = Finds::default();
        assert_eq!(Finds::read(&nothing.written(4), 4), Some(nothing));
    }

    /// The search can be taken a little at a time, says how far it is, and finds the same.
    #[test]
    fn it_can_be_taken_in_slices() {
        let question = three();
        let texts = longtom::reckon::form::texts(&mut question.clone());
        let mut slices = register::begin("recipe", &texts, DecimalMark::Point, 50, SEED).unwrap();
        let mut before = 0;
        let mut turns = 0;
        while !slices.advance(7).unwrap() {
            let (done, wanted) = slices.progress();
            assert!(before <= done && done < wanted, "{before} {done} {wanted}");
            before = done;
            turns += 1;
        }
        assert!(turns > 50);
        let whole = doubt_of::<Recipe>(check(&question), 50, SEED).unwrap();
        assert_eq!(slices.finish(), whole);
        let again = Box::new(Search::begin(check(&question), 50, SEED));
        let mut again: Box<dyn UnderWay> = again;
        while !again.advance(u32::MAX).unwrap() {}
        assert_eq!(again.finish(), whole);
    }

    /// Steps of 2.5 % gain little on those of 5 %: less than a point of air, and no more than the
    /// price of one bag.
    #[test]
    fn finer_steps_gain_little() {
        let mut question = three();
        question.certainty = BEST_FIGURE.to_owned();
        question.aim = "air".to_owned();
        question.targets.air = percent(0.0);
        question.targets.water = percent(50.0);
        let answer = answered(&question, 10);
        let case = check(&question);
        let mut most = 0.0f64;
        for one in 0..=40u32 {
            for other in 0..=40 - one {
                let shares = [one, other, 40 - one - other].map(|parts| f64::from(parts) / 40.0);
                let mut blend = case.template.clone();
                for (part, share) in blend.parts.iter_mut().zip(shares) {
                    part.share = share;
                }
                blend.parts.retain(|part| part.share > 0.0);
                let judged = case.judged_of(&Mix::best(&blend).unwrap().values);
                if judged.water >= 0.5 {
                    most = most.max(judged.air);
                }
            }
        }
        let air = answer.figure("air").unwrap().range.best();
        println!("{air:.4} of {most:.4}");
        assert!(air <= most + 1e-12 && most - air < 0.01);
    }

    /// Keys of some materials, none twice.
    fn keys(many: usize) -> impl Strategy<Value = Vec<&'static str>> {
        let all = longtom::handbook::materials::MATERIALS;
        let keys: Vec<&str> = all.iter().map(|row| row.key).collect();
        proptest::sample::subsequence(keys, many).prop_shuffle()
    }

    /// What the best blend has of what is aimed at; less is better.
    fn best_of(question: &Question) -> Option<f64> {
        let case = check(question);
        let answer = answered(question, 1);
        let value = answer.figures[0].range.best();
        let less = matches!(case.aim, Aim::Price | Aim::Weight);
        answer
            .detail
            .met
            .then_some(if less { value } else { -value })
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

        /// Less to ask for is never worse, nor more to choose from, nor more in hand.
        #[test]
        fn loosening_and_more_to_choose_from_are_never_worse(
            keys in keys(3),
            aim in proptest::sample::select(&Aim::ALL[..]),
            air in 2.0..30.0f64,
            water in 20.0..70.0f64,
            price in 1.0..20.0f64,
        ) {
            let strict = with(|question| {
                question.materials = keys[..2].iter().map(|key| material(key, "7", "10")).collect();
                question.targets.air = percent(air);
                question.targets.water = percent(water);
                question.targets.price = Entry::number(price * 3.0);
                question.aim = aim.key().to_owned();
            });
            let Some(best) = best_of(&strict) else {
                let way = answered(&strict, 1).detail.in_way;
                prop_assert!(way.is_some_and(|way| way.can_be != way.wanted));
                return Ok(());
            };
            let no_worse = |change: &dyn Fn(&mut Question)| {
                let mut question = strict.clone();
                change(&mut question);
                best_of(&question).is_some_and(|value| value <= best + 1e-9)
            };
            prop_assert!(no_worse(&|question| question.targets.air = percent(air * 0.8)));
            prop_assert!(no_worse(&|question| question.targets.water = Entry::default()));
            prop_assert!(no_worse(&|question| question.targets.price = Entry::number(price * 4.0)));
            prop_assert!(no_worse(&|question| question.materials.push(material(keys[2], "1", ""))));
            prop_assert!(no_worse(&|question| question.materials[0].in_hand = Entry::new("30", "L")));
        }
    }
}

mod silly {
    use super::*;
    use longtom::science::numerics::draws::Draws;

    fn told(question: &Question) -> Vec<(String, String)> {
        match Recipe::check(question, DecimalMark::Ask) {
            Ok(_) => Vec::new(),
            Err(problems) => problems
                .into_iter()
                .map(|problem| (problem.field, problem.sentence))
                .collect(),
        }
    }

    #[track_caller]
    fn assert_told(question: &Question, expected: &[(&str, &str)]) {
        let told = told(question);
        let told: Vec<_> = told
            .iter()
            .map(|(field, sentence)| (&**field, &**sentence))
            .collect();
        assert_eq!(told, expected);
    }

    #[test]
    fn the_usual_question_has_no_problem() {
        assert_told(&Question::default(), &[]);
    }

    #[test]
    fn nothing_to_choose_from_and_too_much() {
        assert_told(
            &with(|question| question.materials.clear()),
            &[(
                "materials",
                "There is nothing to choose from yet. Add a material.",
            )],
        );
        let all = longtom::handbook::materials::MATERIALS;
        assert_told(
            &with(|question| {
                question.materials = all[..6]
                    .iter()
                    .map(|row| material(row.key, "1", ""))
                    .collect();
            }),
            &[(
                "materials",
                "Choose from up to 5 materials. Leave out those you would use least.",
            )],
        );
    }

    #[test]
    fn materials_that_nobody_knows_that_are_there_twice_or_that_cannot_be_had() {
        assert_told(
            &with(|question| question.materials[1].material = "coir_pithh".to_owned()),
            &[(
                "materials.1.material",
                "There is no material called “coir_pithh”. Did you mean “coir_pith”?",
            )],
        );
        assert_told(
            &with(|question| question.materials[1].material = "coir_pith".to_owned()),
            &[(
                "materials.1.material",
                "There is coir pith in this list already. Take one of the two out.",
            )],
        );
        assert_told(
            &with(|question| question.materials[1].price = Entry::default()),
            &[(
                "materials.1.price",
                "Give the price of a bag, or say how much composted bark is in hand. What costs nothing has the price 0.",
            )],
        );
        // In hand without a price, and free of cost without any in hand, are both to be had.
        assert_told(
            &with(|question| question.materials[0].price = Entry::default()),
            &[],
        );
        assert_told(
            &with(|question| question.materials[1].price = Entry::number(0.0)),
            &[],
        );
    }

    #[test]
    fn numbers_that_are_none_or_make_no_sense() {
        let field = |change: fn(&mut Question)| told(&with(change));
        for (field, told) in [
            (
                "materials.0.price",
                field(|question| question.materials[0].price = Entry::number(-3.0)),
            ),
            (
                "materials.0.price",
                field(|question| question.materials[0].price = Entry::new("1e400", "")),
            ),
            (
                "materials.2.bag",
                field(|question| question.materials[2].bag = Entry::new("", "L")),
            ),
            (
                "materials.2.bag",
                field(|question| question.materials[2].bag = Entry::new("0", "L")),
            ),
            (
                "materials.2.in_hand",
                field(|question| question.materials[2].in_hand = Entry::new("much", "L")),
            ),
            (
                "materials.2.in_hand",
                field(|question| question.materials[2].in_hand = Entry::new("3", "kg")),
            ),
            (
                "depth",
                field(|question| question.depth = Entry::new("0", "cm")),
            ),
            (
                "depth",
                field(|question| question.depth = Entry::new("900", "cm")),
            ),
            (
                "litres",
                field(|question| question.litres = Entry::new("0", "L")),
            ),
            (
                "litres",
                field(|question| question.litres = Entry::new("\u{0}", "L")),
            ),
            (
                "targets.air",
                field(|question| question.targets.air = percent(101.0)),
            ),
            (
                "targets.water",
                field(|question| question.targets.water = percent(-1.0)),
            ),
            (
                "targets.weight",
                field(|question| question.targets.weight = Entry::new("0", "kg")),
            ),
            (
                "targets.price",
                field(|question| question.targets.price = Entry::new("NaN", "")),
            ),
        ] {
            assert_eq!(told.len(), 1, "{field}: {told:?}");
            assert_eq!(told[0].0, field);
            assert!(told[0].1.ends_with(['.', '?']), "{}", told[0].1);
        }
    }

    #[test]
    fn choices_that_are_none_of_those_offered() {
        assert_told(
            &with(|question| question.aim = "glory".to_owned()),
            &[(
                "aim",
                "There is no thing to make the least or the most of called “glory”. Choose one from the list.",
            )],
        );
        assert_told(
            &with(|question| question.certainty = String::new()),
            &[("certainty", "Choose a certainty.")],
        );
        assert_told(
            &with(|question| question.purpose = "seeds".to_owned()),
            &[(
                "purpose",
                "There is no use called “seeds”. Did you mean “seed”?",
            )],
        );
        assert_told(
            &with(|question| question.pot.size = "bucket".to_owned()),
            &[(
                "pot.size",
                "There is no pot called “bucket”. Choose one from the list.",
            )],
        );
    }

    /// A pot, a use and materials that are wrong are all told at once.
    #[test]
    fn everything_wrong_at_once() {
        let question = with(|question| {
            question.materials[0].material = "mud".to_owned();
            question.pot.size = "bucket".to_owned();
            question.purpose = "roof".to_owned();
            question.litres = Entry::default();
            question.targets.air = percent(200.0);
        });
        let fields: Vec<String> = told(&question)
            .into_iter()
            .map(|(field, _)| field)
            .collect();
        for field in [
            "materials.0.material",
            "pot.size",
            "purpose",
            "litres",
            "targets.air",
        ] {
            assert!(
                fields.iter().any(|told| told == field),
                "{field}: {fields:?}"
            );
        }
    }

    /// An extreme question that is sound has an answer.
    #[test]
    fn one_material_and_no_target() {
        let question = with(|question| {
            question.materials.truncate(1);
            question.targets.air = Entry::default();
            question.litres = Entry::new("1000000", "L");
        });
        let answer = answered(&question, 5);
        assert!(answer.detail.met);
        assert_eq!(answer.detail.blends.len(), 1);
        assert_eq!(
            answer.advice,
            "Use coir pith alone, damp, for 1\u{202f}000\u{202f}000 L."
        );
    }

    /// The form has every field of the question at its path, and no other.
    #[test]
    fn every_field_can_be_reached_by_its_path() {
        use longtom::reckon::form::{Form, fields, put, texts};
        let mut question = Question::default();
        for path in question.paths() {
            let choice = question.choice(&path).is_some();
            let entry = question.entry(&path).is_some();
            assert!(choice != entry, "{path} is one or the other");
        }
        for size in ["by_depth", "round_10_cm", "own_round", "own_volume"] {
            question.pot.size = size.to_owned();
            let pieces = question.pieces();
            let paths = question.paths();
            for field in fields(&pieces) {
                assert!(paths.contains(&field.path), "{}", field.path);
            }
        }
        question.add_row("materials");
        assert_eq!(question.materials.len(), 5);
        question.add_row("materials");
        assert_eq!(
            question.materials.len(),
            5,
            "no more than may be chosen from"
        );
        question.take_out_row("materials", 0);
        question.targets.weight = Entry::new("2 1/2", "kg");
        let mut again = Question::default();
        assert!(put(&mut again, &texts(&mut question)));
        assert_eq!(again, question, "to the letter");
    }

    #[test]
    fn careless_questions_are_answered_or_told_what_is_wrong() {
        const MANY: usize = 4_000;
        let mut draws = Draws::from_seed(2026);
        let (mut first, mut refused) = (0, 0);
        for _ in 0..MANY {
            let question = Recipe::careless(&mut draws);
            match Recipe::check(&question, DecimalMark::Ask) {
                Ok(case) => {
                    let answer = Recipe::answer(&case, None)
                        .unwrap_or_else(|problem| panic!("{problem:?}: {question:?}"));
                    for figure in &answer.figures {
                        let best = figure.range.best();
                        assert!(
                            best.is_finite() && best >= -1e-12,
                            "{}: {question:?}",
                            figure.name.name
                        );
                    }
                    assert!(!answer.advice.is_empty() && !answer.working.is_empty());
                    first += 1;
                }
                Err(problems) => {
                    for problem in &problems {
                        let sentence = &problem.sentence;
                        assert!(!problem.field.is_empty(), "{sentence}: {question:?}");
                        assert!(
                            sentence.ends_with(['.', '?']) && sentence.len() < 300,
                            "{sentence}"
                        );
                    }
                    refused += 1;
                }
            }
        }
        assert!(
            first > MANY / 4 && refused > MANY / 4,
            "{first} and {refused}"
        );
    }

    #[test]
    fn searches_of_careless_questions_do_not_break() {
        const MANY: usize = 60;
        let mut draws = Draws::from_seed(77);
        let mut searched = 0;
        while searched < MANY {
            let question = Recipe::careless(&mut draws);
            let Ok(case) = Recipe::check(&question, DecimalMark::Ask) else {
                continue;
            };
            // Ten thousand blends each would take minutes.
            if case.materials.len() > 3 {
                continue;
            }
            let doubt = doubt_of::<Recipe>(case.clone(), 40, searched as u64)
                .unwrap_or_else(|problem| panic!("{problem:?}: {question:?}"));
            let answer = Recipe::answer(&case, Some(&doubt)).unwrap();
            for figure in &answer.figures {
                let range = figure.range;
                let in_order = range.low() <= range.best() && range.best() <= range.high();
                assert!(
                    in_order && range.high().is_finite(),
                    "{}: {question:?}",
                    figure.name.name
                );
            }
            let some = !answer.detail.blends.is_empty();
            assert_eq!(
                answer.detail.in_way.is_some(),
                some && !answer.detail.met,
                "{question:?}"
            );
            searched += 1;
        }
    }
}
