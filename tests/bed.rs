//! What the outside world says of Bed, and what a grower may type.
//!
//! * `cases`: two pots, two mixes, two kinds of day, four media: the whole reckoning with the flow
//!   solved in full;
//! * `published`: findings in print, each with its source;
//! * `properties`: what must hold of any bed;
//! * `advice`: what is to be done;
//! * `silly`: silly, hurried and hostile input.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::handbook::bed_media::DAMP_LINE_OF_1_MM_CM;
use longtom::measure::{DecimalMark, Entry};
use longtom::reckon::Reckoning;
use longtom::reckon::answer::{Answer, Verdict};
use longtom::reckon::bed::{Bed, Detail, Question};
use longtom::reckon::doubt::{SEED, doubt_of};
use longtom::reckon::form::{Form, put, texts};
use longtom::reckon::mix::PartAsked;
use longtom::science::numerics::draws::Draws;

/// Draws of a sweep in these tests.
const SWEEP: u32 = 200;

fn part(material: &str, amount: f64) -> PartAsked {
    PartAsked {
        material: material.to_owned(),
        amount: Entry::number(amount),
        ..PartAsked::default()
    }
}

/// The usual question with a change.
fn with(change: impl FnOnce(&mut Question)) -> Question {
    let mut question = Question::default();
    change(&mut question);
    question
}

fn case_of(peat: bool, large: bool, weather: &str, medium: &str) -> Question {
    with(|question| {
        question.parts = if peat {
            vec![part("white_peat", 1.0)]
        } else {
            vec![
                part("composted_bark", 3.0),
                part("perlite_coarse", 1.0),
                part("coir_pith", 1.0),
            ]
        };
        let (pot, drinks, spacing) = if large {
            ("round_8_5_l", "1000", "350")
        } else {
            ("round_10_cm", "200", "130")
        };
        question.pot.size = pot.to_owned();
        question.plant.drinks = Entry::new(drinks, "mL");
        question.bench.spacing = Entry::new(spacing, "mm");
        question.plant.weather = weather.to_owned();
        question.bed.medium = medium.to_owned();
    })
}

fn at_first(question: &Question) -> Answer<Detail> {
    let case =
        Bed::check(question, DecimalMark::Point).unwrap_or_else(|problems| panic!("{problems:?}"));
    Bed::answer(&case, None).unwrap()
}

fn in_full(question: &Question) -> Answer<Detail> {
    let case =
        Bed::check(question, DecimalMark::Point).unwrap_or_else(|problems| panic!("{problems:?}"));
    let doubt = doubt_of::<Bed>(case.clone(), SWEEP, SEED).unwrap();
    Bed::answer(&case, Some(&doubt)).unwrap()
}

fn problems(question: &Question) -> Vec<(String, String)> {
    match Bed::check(question, DecimalMark::Point) {
        Ok(_) => Vec::new(),
        Err(problems) => problems
            .into_iter()
            .map(|problem| (problem.field, problem.sentence))
            .collect(),
    }
}

mod cases {
    use super::*;

    /// Every water balance of every run closes to a millionth, every range holds its best figure, and
    /// what comes of it is printed.
    #[test]
    fn two_pots_two_mixes_two_days_four_media() {
        for medium in ["perlite_coarse", "expanded_clay", "sand_sharp", "gravel"] {
            for weather in ["mean", "hot"] {
                for (peat, large) in [(true, true), (true, false), (false, true), (false, false)] {
                    let begun = std::time::Instant::now();
                    let answer = in_full(&case_of(peat, large, weather, medium));
                    let took = begun.elapsed();
                    let detail = &answer.detail;
                    let at_50 = detail
                        .depths
                        .iter()
                        .find(|depth| (depth.depth_mm - 50.0).abs() < 1e-6)
                        .and_then(|depth| depth.chances)
                        .map(|[_, _, fails]| 1.0 - fails);
                    println!(
                        "{medium} {weather} {} {}: lay {} mm, window {:?}, {:?} {:.2?}, 50 mm {at_50:.2?}, {took:.1?}",
                        if peat { "peat" } else { "bark" },
                        if large { "8.5 L" } else { "10 cm" },
                        detail.depth_mm.round(),
                        detail.window_mm,
                        answer.judgement.verdict,
                        answer.judgement.chances.unwrap(),
                    );
                    assert!(!detail.runs.is_empty());
                    for told in &detail.runs {
                        let run = &told.run;
                        println!(
                            "    {}: air {:.3} by the estimate {:.3}, lowest third {:.3}, wet {:.1} h, drunk {:.2}, {:.2} refills, {} days, settled {}, gap {:.0e}",
                            told.stands,
                            run.air,
                            run.air_estimated,
                            run.air_lowest,
                            run.hours_wet,
                            run.drunk_share,
                            run.refills,
                            run.days,
                            run.settled,
                            run.gap
                        );
                        assert!(run.gap < 1e-6, "{}: {}", told.stands, run.gap);
                        assert!((0.0..=1.0 + 1e-9).contains(&run.drunk_share));
                        assert!(run.air_between[0] <= run.air + 1e-9);
                        assert!(run.air <= run.air_between[1] + 1e-9);
                    }
                    for figure in &answer.figures {
                        let range = figure.range;
                        assert!(range.low() <= range.best() && range.best() <= range.high());
                    }
                }
            }
        }
    }
}

mod published {
    use super::*;

    /// A short pot drains worse than a tall one of the same mix: the container integral of Milks,
    /// Fonteno and Larson 1989. So straight in the water the 10 cm pot of peat has less air.
    #[test]
    fn a_short_pot_of_peat_has_less_air_than_a_tall_one() {
        for weather in ["mean", "hot"] {
            let air = |large| {
                let answer = at_first(&case_of(true, large, weather, "perlite_coarse"));
                let figure = answer.figure("straight_air_full").unwrap().range.best();
                (figure, answer.detail.depths[0].air_lowest_full)
            };
            let ((short, short_low), (tall, tall_low)) = (air(false), air(true));
            assert!(short < tall, "{short} {tall}");
            assert!(short_low <= tall_low + 1e-12);
        }
    }

    /// Straight in the water a filling is ground less footprint times its depth, and what the ball takes
    /// up: 20 pots of 20 cm of base 350 mm apart, 20 mm deep, 20 × (1225 - 314.16) cm² × 2 cm = 36.434 L
    /// between them. The ball's frustum: any table of solids.
    #[test]
    fn a_filling_is_what_the_tray_holds() {
        let answer = in_full(&case_of(false, true, "mean", "gravel"));
        assert_eq!(answer.detail.depth_mm, 0.0);
        // The ball drains to its own foot between two fillings where nothing is drunk.
        let straight = answer.detail.depths[0];
        let fill = answer.figure("fill").unwrap().range.best() * 1000.0;
        let (base, top, high) = (20.0_f64, 20.0 + 6.0 * 18.5 / 21.0, 18.5);
        let ball = std::f64::consts::PI / 12.0 * high * (base * base + base * top + top * top);
        let most_into_balls = 20.0 * ball / 1000.0 * (2.0 * (straight.air - straight.air_full));
        assert!(fill > 36.434 - 1e-3, "{fill}");
        assert!(
            fill < 36.434 + most_into_balls + 1e-3,
            "{fill} {most_into_balls}"
        );
    }

    /// Heights of capillary rise by class of grain, cm: Lohman 1972, USGS Professional Paper 708, table 1
    /// (from memory), against the damp line of the middle grain. Fine sand of 0.1 to 0.2 mm (42.8 cm) lies
    /// below the range: no bed is laid of it.
    #[test]
    fn the_damp_line_is_where_rises_were_measured() {
        let damp = DAMP_LINE_OF_1_MM_CM.range;
        for (grain_mm, rise_cm) in [(3.5, 2.5), (1.5, 6.5), (0.75, 13.5), (0.35, 24.6)] {
            let [low, high] = [damp.low(), damp.high()].map(|cm| cm / grain_mm);
            println!("{grain_mm} mm: {rise_cm} cm, damp line {low:.1} to {high:.1}");
            assert!((low..=high).contains(&rise_cm), "{grain_mm} mm");
        }
        assert!(damp.low() / 0.15 > 42.8);
    }

    /// Clean coarse grains lift less than fine ones (Salim and Hampton 2012; any handbook of ground
    /// water): the height at which the link breaks never falls as grains get finer.
    #[test]
    fn finer_grains_lift_higher() {
        let lifts = |millimetres: &str| {
            let answer = at_first(&with(|question| {
                question.bed.medium = "own".to_owned();
                question.bed.grain = Entry::new(millimetres, "mm");
            }));
            answer.figure("breaks_at").unwrap().range.best()
        };
        let heights = ["0.3", "0.5", "1", "2", "4", "8", "16"].map(lifts);
        println!("{heights:.4?}");
        assert!(heights.windows(2).all(|pair| pair[0] >= pair[1]));
    }
}

mod properties {
    use super::*;

    /// With one level and one curve, air never falls as the bed gets deeper, and supply never rises.
    #[test]
    fn deeper_is_drier() {
        for medium in ["perlite_coarse", "gravel", "sand_capillary"] {
            for peat in [true, false] {
                let depths = at_first(&case_of(peat, false, "hot", medium)).detail.depths;
                assert!(depths.len() > 5);
                for pair in depths.windows(2) {
                    assert!(pair[1].air_full >= pair[0].air_full - 1e-9);
                    assert!(pair[1].air >= pair[0].air - 1e-9);
                    assert!(pair[1].supply <= pair[0].supply + 1e-9);
                }
            }
        }
    }

    /// The more a plant drinks, the fewer times over a bed supplies it.
    #[test]
    fn more_demand_is_supplied_fewer_times_over() {
        let supply = |millilitres: &str| {
            let depths = at_first(&with(|question| {
                question.plant.drinks = Entry::new(millilitres, "mL");
            }))
            .detail
            .depths;
            depths.iter().map(|depth| depth.supply).collect::<Vec<_>>()
        };
        let of = ["50", "100", "200", "400", "800"].map(supply);
        for pair in of.windows(2) {
            for (less, more) in pair[0].iter().zip(&pair[1]) {
                assert!(more <= less, "{more} {less}");
            }
        }
    }

    /// The same question and seed give the same answer, and a question survives as texts.
    #[test]
    fn the_same_again() {
        let question = case_of(true, false, "mean", "grit");
        let (one, other) = (in_full(&question), in_full(&question));
        assert_eq!(one.detail, other.detail);
        let mut again = Question::default();
        assert!(put(&mut again, &texts(&mut question.clone())));
        assert_eq!(again, question);
        assert!(again.paths().iter().all(|path| {
            again.clone().entry(path).is_some() || again.clone().choice(path).is_some()
        }));
    }
}

mod advice {
    use super::*;

    /// What would help is looked for with the draws: before them nothing is said of it, not even that
    /// there is nothing.
    #[test]
    fn what_would_help_is_told_once_it_is_looked_for() {
        let question = with(|question| {
            question.plant.drinks = Entry::new("8", "L");
            question.bed.medium = "gravel".to_owned();
        });
        let (first, whole) = (at_first(&question), in_full(&question));
        assert_eq!(first.judgement.verdict, Verdict::DoesNotServe);
        assert!(first.detail.others.is_empty() && !whole.detail.others.is_empty());
        let told = |answer: &Answer<Detail>| {
            answer.advice.contains("No other bed")
                || answer.advice.contains(" would serve from ")
                || answer.advice.contains("filled to ")
        };
        assert!(!told(&first), "{}", first.advice);
        assert!(told(&whole), "{}", whole.advice);
    }
}

mod silly {
    use super::*;

    #[test]
    fn each_nonsense_is_told_at_its_field() {
        let asked = |change: fn(&mut Question)| problems(&with(change));
        for (change, at) in [
            (
                (|q| q.tray.level = Entry::new("70", "mm")) as fn(&mut Question),
                "tray.level",
            ),
            (|q| q.tray.slope = Entry::new("30", "mm"), "tray.slope"),
            (|q| q.bench.spacing = Entry::new("", "mm"), "bench.spacing"),
            (
                |q| q.bench.spacing = Entry::new("50", "mm"),
                "bench.spacing",
            ),
            (|q| q.bench.limit = Entry::new("0", "kg/m2"), "bench.limit"),
            (|q| q.bed.medium = "moon dust".to_owned(), "bed.medium"),
            (|q| q.contact = "glued".to_owned(), "contact"),
            (|q| q.plant.drinks = Entry::new("0", "mL"), "plant.drinks"),
            (|q| q.plant.weather = String::new(), "plant.weather"),
            (|q| q.parts.clear(), "parts"),
            (
                |q| {
                    q.bed.medium = "own".to_owned();
                    q.bed.grain = Entry::new("0", "mm");
                },
                "bed.grain",
            ),
            (
                |q| {
                    q.tray.wall = Entry::new("200", "mm");
                    q.tray.level = Entry::new("100", "mm");
                },
                "tray.level",
            ),
        ] {
            let told = asked(change);
            assert!(
                told.iter()
                    .any(|(path, sentence)| path == at && sentence.ends_with(['.', '?'])),
                "{at}: {told:?}"
            );
            let once = told.iter().filter(|(path, _)| path == at).count();
            assert_eq!(once, 1, "{at}: {told:?}");
        }
        assert!(problems(&Question::default()).is_empty());
    }

    #[test]
    fn careless_questions_are_answered_or_told_what_is_wrong() {
        let mut draws = Draws::from_seed(7);
        let (mut answered, mut refused) = (0, 0);
        for _ in 0..2000 {
            let question = Bed::careless(&mut draws);
            let Ok(case) = Bed::check(&question, DecimalMark::Ask) else {
                refused += 1;
                continue;
            };
            let answer = Bed::answer(&case, None).unwrap();
            assert!(
                answer
                    .figures
                    .iter()
                    .all(|figure| figure.range.best().is_finite())
            );
            assert!(!answer.advice.is_empty() && !answer.working.is_empty());
            answered += 1;
        }
        println!("{answered} answered, {refused} told what is wrong");
        assert!(answered > 300 && refused > 300);
    }

    #[test]
    fn ranges_of_careless_questions_do_not_break() {
        let mut draws = Draws::from_seed(8);
        let mut answered = 0;
        while answered < 20 {
            let question = Bed::careless(&mut draws);
            let Ok(case) = Bed::check(&question, DecimalMark::Ask) else {
                continue;
            };
            let doubt = doubt_of::<Bed>(case.clone(), 10, SEED).unwrap();
            let answer = Bed::answer(&case, Some(&doubt)).unwrap();
            assert!(answer.detail.runs.iter().all(|told| told.run.gap < 1e-6));
            answered += 1;
        }
    }
}
