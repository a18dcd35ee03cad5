//! Which pot next, and how little water is enough: what the outside world says of it, and what must hold of any batch.
//!
//! Retention, pots and thirst below it have their own checks in `tests/mix`, `tests/science.rs` and `tests/bed.rs`. The
//! rest is judgement, marked so in the handbook: nothing in print was at hand on how long a pot stays wet round a small
//! ball.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::handbook::crops::{CROPS, Property, readiness::readiness};
use longtom::handbook::pots::{POTS, pot};
use longtom::handbook::thirst::{HABITS, MEAN_SUN_MJ_PER_M2, TRANSMITS, TRANSPIRES};
use longtom::measure::{DecimalMark, Entry};
use longtom::reckon::Reckoning;
use longtom::reckon::answer::Answer;
use longtom::reckon::doubt::{SEED, doubt_of};
use longtom::reckon::mix::{self, Mix, PotAsked};
use longtom::reckon::moving_on::{Detail, MovingOn, NextPotTold, Question};
use longtom::science::numerics::draws::Draws;
use longtom::science::transpiration::litres_per_square_metre;

const DRAWS: u32 = 60;

fn at_best(question: &Question) -> Answer<Detail> {
    let case = MovingOn::check(question, DecimalMark::Point)
        .unwrap_or_else(|problems| panic!("{problems:?}"));
    MovingOn::answer(&case, None).unwrap()
}

fn with_ranges(question: &Question) -> Answer<Detail> {
    let case = MovingOn::check(question, DecimalMark::Point)
        .unwrap_or_else(|problems| panic!("{problems:?}"));
    let doubt = doubt_of::<MovingOn>(case.clone(), DRAWS, SEED).unwrap();
    MovingOn::answer(&case, Some(&doubt)).unwrap()
}

fn sizes(question: &Question) -> Vec<NextPotTold> {
    at_best(question).detail.next_pots
}

/// Tomatoes in 9 cm pots, to be potted on.
fn tomatoes(today: &str, since: &str) -> Question {
    Question {
        crop: "tomato".to_owned(),
        moves: "pot_on".to_owned(),
        today: today.to_owned(),
        since: since.to_owned(),
        ..Question::default()
    }
}

fn in_april() -> Question {
    tomatoes("2027-04-20", "2027-03-20")
}

/// Questions of a move into a pot, of all kinds.
fn any(seed: u64, many: usize) -> Vec<Question> {
    let mut draws = Draws::from_seed(seed);
    std::iter::repeat_with(|| {
        let mut question = MovingOn::careless(&mut draws);
        let into = if draws.below(3) == 0 {
            "prick_out"
        } else {
            "pot_on"
        };
        into.clone_into(&mut question.moves);
        question
    })
    .filter(|question| {
        MovingOn::check(question, DecimalMark::Point).is_ok() && !sizes(question).is_empty()
    })
    .take(many)
    .collect()
}

mod published {
    use super::*;

    /// Poorter and others 2012 (abstract): 43 % more in twice the pot.
    #[test]
    fn growth_goes_by_the_pot_as_printed() {
        let told = sizes(&in_april());
        let first = told.first().unwrap();
        for size in &told {
            let doublings = (size.litres / first.litres).log2();
            let printed = 1.43_f64.powf(doublings);
            println!(
                "{}: {:.3} times, printed {printed:.3}",
                size.name, size.gain
            );
            assert!((size.gain - printed).abs() < 1e-9);
        }
    }

    /// Bilderback & Fonteno 1987, Journal of Environmental Horticulture 5(4):180, abstract: one mix has less water and
    /// more air the taller its pot, and the two add to the same.
    #[test]
    fn air_and_water_add_to_the_same_in_any_size_and_tall_ones_hold_less() {
        let told = sizes(&in_april());
        let of = |size: &NextPotTold| {
            let water = size.water_ml[1] / (1000.0 * size.litres);
            (water, size.air[1])
        };
        for pair in told.windows(2) {
            let ((water, air), (more, airier)) = (of(&pair[0]), of(&pair[1]));
            println!("{}: {water:.3} water, {air:.3} air", pair[0].name);
            assert!((water + air - more - airier).abs() < 1e-9);
            assert!(more < water);
        }
    }

    /// What a closed stand gives off by the sun (de Graaf & van den Ende 1981, cited from memory): a plant that is
    /// ready in its 9 cm pot, with leaves 12 to 18 cm across (common practice, no source), on a mean day of summer.
    /// The young plants' thirst of the handbook is practice and had no part of it.
    #[test]
    fn young_plants_drink_what_their_share_of_a_stand_does() {
        const BREADTHS_M: [f64; 2] = [0.12, 0.18];
        let mut held = 0;
        let mut asked = 0;
        for crop in CROPS.iter().filter(|crop| readiness(crop).is_some()) {
            let Some(drinks) = crop.figure(Property::WaterYoung) else {
                continue;
            };
            let stand = |breadth: f64, low: bool| {
                let at = |figure: longtom::handbook::Figure| {
                    if low {
                        figure.range.low()
                    } else {
                        figure.range.high()
                    }
                };
                let habits = HABITS.iter().map(|habit| at(habit.times));
                let times = if low {
                    habits.fold(f64::INFINITY, f64::min)
                } else {
                    habits.fold(0.0, f64::max)
                };
                let litres =
                    litres_per_square_metre(at(MEAN_SUN_MJ_PER_M2), at(TRANSMITS), at(TRANSPIRES));
                1000.0 * litres * times * std::f64::consts::FRAC_PI_4 * breadth * breadth
            };
            let (low, high) = (stand(BREADTHS_M[0], true), stand(BREADTHS_M[1], false));
            let best = drinks.range.best();
            let inside = (low..=high).contains(&best);
            println!(
                "{}: {best} mL, by the sun {low:.0} to {high:.0}: {inside}",
                crop.key
            );
            asked += 1;
            held += u32::from(inside);
        }
        println!("{held} of {asked} inside");
        assert!(held * 10 >= asked * 8);
    }
}

mod reference {
    use super::*;

    /// Water, air and easily available water of each size are those that Mix tells of the same pot.
    #[test]
    fn the_mix_in_each_size_is_that_of_mix() {
        for size in sizes(&in_april()) {
            let question = mix::Question {
                pot: PotAsked {
                    size: size.pot.clone(),
                    ..PotAsked::default()
                },
                purpose: "growing_on".to_owned(),
                ..mix::Question::default()
            };
            let case = Mix::check(&question, DecimalMark::Point).unwrap();
            let answer = Mix::answer(&case, None).unwrap();
            let of = |name: &str| answer.figure(name).unwrap().range.best();
            let ml = |name: &str| of(name) * 1e6;
            assert!((size.air[1] - of("air")).abs() < 1e-9);
            assert!((size.water_ml[1] - ml("water_in_pot")).abs() < 1e-6 * size.water_ml[1]);
            // By hand: half of the easily available water, by what goes of it in a day.
            let half = 0.5 * ml("easy_water_in_pot");
            let day = half / size.wet_days[1];
            println!(
                "{}: {half:.0} mL go in {:.1} days, {day:.0} mL a day of which {:.0} are drunk",
                size.name, size.wet_days[1], size.drinks_ml[1]
            );
            // Of what is drunk, mix out of reach lends less.
            assert!(day >= 0.7 * size.drinks_ml[1]);
        }
    }

    /// The ball and a finger round it, layer by layer of the tapered pot that the ball has the shape of: what is told
    /// takes it as broad throughout.
    #[test]
    fn what_is_wetted_is_the_ball_with_a_finger_round_it() {
        const LAYERS: usize = 400;
        const FINGER_CM: f64 = 2.0;
        let ball = pot("round_9_cm").unwrap();
        let fill_cm = (ball.height - ball.below_rim).in_centimetres();
        let (base, rim) = (ball.base.in_centimetres(), ball.rim.in_centimetres());
        let breadth =
            |height_cm: f64| base + (rim - base) * height_cm / ball.height.in_centimetres();
        let layer = (fill_cm + FINGER_CM) / LAYERS as f64;
        let whole: f64 = (0..LAYERS)
            .map(|place| {
                let height_cm = (layer * (place as f64 + 0.5) - FINGER_CM).max(0.0);
                let broad = breadth(height_cm) + 2.0 * FINGER_CM;
                std::f64::consts::FRAC_PI_4 * broad * broad * layer
            })
            .sum();
        // In the last, which is large enough to hold it all.
        let told = sizes(&in_april());
        let last = told.last().unwrap();
        let all_ml = 1000.0 * last.litres;
        let reached = all_ml * (1.0 - last.out_of_reach_ml[1] / last.water_ml[1]);
        println!("{reached:.0} mL, layer by layer {whole:.0}");
        assert!((reached / whole - 1.0).abs() < 0.06);
    }
}

mod identity {
    use super::*;

    /// What must not fall from one size to the next larger.
    #[test]
    fn a_bigger_pot_never_dries_sooner() {
        for question in any(1, 25) {
            let told = with_ranges(&question).detail.next_pots;
            for pair in told.windows(2) {
                assert!(pair[0].litres < pair[1].litres);
                for limit in 0..3 {
                    let [small, large] = [&pair[0], &pair[1]];
                    assert!(
                        large.wet_days[limit] >= small.wet_days[limit] - 1e-9,
                        "{question:?}"
                    );
                    assert!(large.water_ml[limit] >= small.water_ml[limit] - 1e-9);
                    assert!(large.out_of_reach_ml[limit] >= small.out_of_reach_ml[limit] - 1e-9);
                    assert!(large.rooted_days[limit] <= large.wet_days[limit] + 1e-9);
                    assert!(large.give_ml[limit] <= large.water_ml[limit]);
                }
                assert!(pair[1].gain > pair[0].gain);
            }
            assert_eq!(told.iter().filter(|size| size.take).count(), 1);
        }
    }

    #[test]
    fn more_leaf_never_keeps_it_wetter() {
        let mut changed = 0;
        for question in any(2, 25) {
            let with = |leaves: f64| {
                let mut asked = question.clone();
                // Leaves that the card leaves out are not counted.
                asked.card.clear();
                asked.seen.leaves = Entry::number(leaves);
                sizes(&asked)
            };
            let mut before = with(0.0);
            for leaves in [1, 2, 3, 5, 8, 13] {
                let now = with(f64::from(leaves));
                for (more, less) in now.iter().zip(&before) {
                    assert!(
                        more.wet_days[1] <= less.wet_days[1] + 1e-12,
                        "{leaves} {} {} {question:?}",
                        more.wet_days[1],
                        less.wet_days[1]
                    );
                    assert!(more.every_days[1] <= less.every_days[1] + 1e-12);
                    changed += u32::from(more.wet_days[1] < less.wet_days[1]);
                }
                before = now;
            }
        }
        assert!(changed > 0);
    }

    #[test]
    fn less_water_drunk_never_recommends_more_pot() {
        let mut smaller = 0;
        for question in any(3, 25) {
            let with = |light: f64| {
                let mut asked = question.clone();
                asked.stood.light = Entry::number(light);
                let told = sizes(&asked);
                let taken = told.iter().find(|size| size.take).unwrap();
                (taken.drinks_ml[1], taken.litres)
            };
            let mut before = with(40.0);
            for light in [30.0, 20.0, 12.0, 6.0, 3.0, 0.0] {
                let now = with(light);
                assert!(now.0 <= before.0 + 1e-9, "{question:?}");
                assert!(now.1 <= before.1 + 1e-12, "{question:?}");
                smaller += u32::from(now.1 < before.1);
                before = now;
            }
        }
        println!("{smaller} times a smaller pot with less light");
        assert!(smaller > 0);
    }

    #[test]
    fn a_move_into_a_house_has_no_next_pot() {
        for moves in ["cold_house", "outdoors"] {
            let detail = at_best(&Question {
                moves: moves.to_owned(),
                ..in_april()
            })
            .detail;
            assert!(detail.next_pots.is_empty() && detail.next_pot.is_empty());
        }
    }

    #[test]
    fn the_pot_that_was_asked_for_is_among_the_sizes() {
        for row in POTS {
            let now = pot("round_9_cm").unwrap();
            if row.filled() <= now.filled() {
                continue;
            }
            let question = Question {
                next: row.key.to_owned(),
                ..in_april()
            };
            assert!(sizes(&question).iter().any(|size| size.pot == row.key));
        }
    }
}

mod asked {
    use super::*;

    fn taken(answer: &Answer<Detail>) -> &NextPotTold {
        let sizes = &answer.detail.next_pots;
        sizes.iter().find(|size| size.take).unwrap()
    }

    /// In the long light of July a plant drinks its way through what it would drown in in February.
    #[test]
    fn the_light_of_the_day_decides() {
        let winter = with_ranges(&tomatoes("2027-02-01", "2026-12-20"));
        let summer = with_ranges(&tomatoes("2027-07-01", "2027-06-01"));
        for answer in [&winter, &summer] {
            for size in &answer.detail.next_pots {
                println!("{size:?}");
            }
            for sentence in &answer.detail.next_pot {
                println!("{sentence}");
            }
        }
        assert!(taken(&winter).litres < taken(&summer).litres);
        assert!(taken(&winter).every_days[1] > taken(&summer).every_days[1]);
    }

    #[test]
    fn seedlings_are_told_how_little_is_enough() {
        let question = Question {
            crop: "tomato".to_owned(),
            moves: "prick_out".to_owned(),
            from: "up".to_owned(),
            today: "2027-03-10".to_owned(),
            since: "2027-02-20".to_owned(),
            ..Question::default()
        };
        let answer = with_ranges(&question);
        for sentence in &answer.detail.next_pot {
            println!("{sentence}");
        }
        assert_eq!(answer.detail.next_pot.len(), 3);
        assert!(
            answer
                .detail
                .next_pots
                .iter()
                .all(|size| size.give_ml[1] < 100.0)
        );
    }
}
