//! Bed: how deep a capillary bed under the pot.
//!
//! * `question`: what is typed, and the case it is read into.
//! * `form`: its form as data.
//! * `physics`: one outcome at every depth from one set of inputs: the quick estimate.
//! * `instead`: what else could be done for the same pots.
//! * [`runs`]: the flow of water solved in full.
//! * `sweep`: many draws at every depth at once.
//! * `words`: the sentences.

mod careless;
mod form;
mod instead;
mod physics;
mod question;
pub mod runs;
mod sweep;
mod words;

pub use question::{
    BEDDED, BY_HAND, BedAsked, Case, FLOAT, Fills, HELD, HOLES, PlantAsked, Question, TrayAsked,
    UNDER_POTS, WHOLE_TRAY,
};
pub use sweep::{Finds, Sweep};

use super::answer::{Answer, Caution, FigureName, Judgement, Step, Verdict};
use super::cautions as of_all;
use super::doubt::{Doubt, UnderWay};
use super::materials::bags_for;
use super::mix::Outline;
use super::{Outcome, Problem, Reckoning};
use crate::handbook::bed_media::BED_MEDIA;
use crate::handbook::sources;
use crate::measure::{AreaLoad, DecimalMark, Fraction, Length, Number, Range, Suction, Volume};
use crate::science::conductivity::Curves;
use crate::science::numerics::draws::Draws;
use instead::Instead;
use physics::{AtDepth, Scene, Wrong, best_scene, depth_to_lay, drawn_scene};
use runs::Run;

/// The reckoning.
pub struct Bed;

/// What belongs to Bed alone.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Detail {
    /// Whether this is a first look at the best figures, before the draws.
    pub first_look: bool,
    /// The depth to lay, mm; nought is the pot straight in the water.
    pub depth_mm: f64,
    /// Shallowest and deepest bed around it that serve at least so often as is called safe, mm;
    /// nothing where not even the best does.
    pub window_mm: Option<[f64; 2]>,
    /// Every depth looked at, the first straight in the water.
    pub depths: Vec<DepthTold>,
    /// Depth of the water in the filled tray, mm.
    pub level_mm: f64,
    /// Height of the tray's wall, mm.
    pub wall_mm: f64,
    /// Height of the mix in the pot, mm.
    pub fill_mm: f64,
    /// The bed medium.
    pub medium: String,
    /// The mix in one line.
    pub mix: String,
    /// The pot in one line.
    pub pot: String,
    /// The inside of the pot, for drawing it.
    pub outline: Outline,
    /// Pores of the ball that water enters, fraction.
    pub pore_space: f64,
    /// Medium for the tray, L: as laid and settled.
    pub laid_litres: f64,
    /// Medium for the tray, L: loose, to buy.
    pub loose_litres: f64,
    /// Whole bags of it.
    pub bags: f64,
    /// What they cost, where the price is known.
    pub price: Option<f64>,
    /// Every other medium of the handbook for the same pot and tray, at the best figures; nothing
    /// before the draws.
    pub others: Vec<OtherMedium>,
    /// The flow solved in full at the best figures: straight in the water, at the depth to lay, on
    /// another medium, then at other depths; nothing before the draws.
    pub runs: Vec<RunTold>,
    /// How far the quick estimate is from those, in one sentence; empty before them.
    pub held_to_account: String,
}

/// A run of the flow solved in full.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct RunTold {
    /// What the pot stands on.
    pub stands: String,
    /// Whether that is the medium asked about, and not another beside it.
    pub of_the_question: bool,
    /// What came of it.
    pub run: Run,
}

/// One depth.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct DepthTold {
    /// Depth of the bed, mm.
    pub depth_mm: f64,
    /// Shares of the draws that serve, need watching and do not serve; nothing before the draws.
    pub chances: Option<[f64; 3]>,
    /// At the best figures.
    pub verdict: Verdict,
    /// Mean air over the tray's levels, fraction, best figure.
    pub air: f64,
    /// Mean air with the tray full, fraction.
    pub air_full: f64,
    /// The same of the lowest third of the ball.
    pub air_lowest_full: f64,
    /// Supply as a multiple of what the plant drinks, with the tray at its emptiest.
    pub supply: f64,
    /// Suction at mid-pot with the tray at its emptiest, cm of water.
    pub mid_suction_cm: f64,
    /// Loose medium for one pot, L.
    pub bed_litres: f64,
}

/// Another medium.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct OtherMedium {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// The depth to lay of it, mm.
    pub depth_mm: f64,
    /// Shallowest and deepest that serve or can serve, mm; nothing where none does.
    pub window_mm: Option<[f64; 2]>,
    /// The verdict at that depth.
    pub verdict: Verdict,
}

/// A depth is called safe where it does not fail in so many of ten draws. A judgement.
const SAFE_FROM: f64 = 0.7;

impl Reckoning for Bed {
    const NAME: &'static str = "bed";
    const ASKS: &'static str = "How deep a bed under the pots?";
    type Question = Question;
    type Case = Case;
    type Detail = Detail;

    fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
        question::check(question, mark)
    }

    fn figures(_: &Case) -> Vec<FigureName> {
        let share = |name: &str, label: &str| FigureName::of::<Fraction>(name, label, "%");
        let length = |name: &str, label: &str| FigureName::of::<Length>(name, label, "mm");
        let litres = |name: &str, label: &str| FigureName::of::<Volume>(name, label, "L");
        vec![
            length("depth", "depth of the bed"),
            share("air", "air in the ball, between full tray and empty"),
            share("air_full", "air in the ball, tray full"),
            share("air_lowest_full", "air in its lowest third, tray full"),
            share("air_empty", "air in the ball, tray at its emptiest"),
            FigureName::of::<Number>(
                "supply",
                "supply, as a multiple of what the plant drinks",
                "",
            ),
            FigureName::of::<Suction>(
                "mid_suction",
                "suction at mid-pot, tray at its emptiest",
                "cm_water",
            ),
            length(
                "breaks_at",
                "height to which this bed lifts what the plant drinks, at 60 cm of suction",
            ),
            FigureName::of::<Number>("refills", "refills in a day", ""),
            litres("fill", "water of one filling of the tray"),
            litres("drunk", "water drunk in the tray in a day"),
            litres("bed", "bed medium for the tray, loose"),
            FigureName::of::<AreaLoad>("load", "all of it wet, tray full", "kg/m2"),
            share("straight_air_full", "air straight in the water, tray full"),
            share(
                "straight_air_lowest",
                "air in the lowest third straight in the water, tray full",
            ),
        ]
    }

    fn best(case: &Case) -> Result<Outcome, Problem> {
        let scene = best_scene(case)?;
        let place = first_look(&scene.at_all_depths());
        outcome(case, &scene, place)
    }

    /// One outcome at the depth that a first look finds.
    fn draw(case: &Case, draws: &mut Draws) -> Result<Outcome, Problem> {
        let place = first_look(&best_scene(case)?.at_all_depths());
        outcome(case, &drawn_scene(case, draws)?, place)
    }

    fn begin(case: Case, wanted: u32, seed: u64) -> Result<Box<dyn UnderWay>, Problem> {
        Ok(Box::new(Sweep::begin(case, wanted.max(1), seed)))
    }

    fn answer(case: &Case, doubt: Option<&Doubt>) -> Result<Answer<Detail>, Problem> {
        let scene = best_scene(case)?;
        let all = scene.at_all_depths();
        let finds = doubt.and_then(|doubt| Finds::read(&doubt.finds, all.len()));
        let place = finds
            .as_ref()
            .map_or_else(|| first_look(&all), |finds| finds.place);
        let best = outcome(case, &scene, place)?;
        let mut figures = Doubt::figures(Self::figures(case), &best.values, doubt);
        let window = window(case, &all, finds.as_ref(), place);
        let depth = case
            .depths
            .get(place)
            .copied()
            .unwrap_or(Length::from_millimetres(0.0));
        if let (Some(figure), Some([from, to])) = (figures.first_mut(), window) {
            let (from, to) = (from.in_metres(), to.in_metres());
            figure.range = Range::new(from, depth.in_metres(), to).unwrap_or(figure.range);
        }
        let chosen = all.get(place).copied().ok_or_else(words::no_depth)?;
        let straight = all.first().copied().ok_or_else(words::no_depth)?;
        let chances = doubt.map(|doubt| doubt.chances);
        let instead = finds.as_ref().map(|finds| &finds.instead);
        let others = instead.map_or_else(Vec::new, Instead::others_told);
        let told = words::Told {
            depth,
            window,
            chosen,
            straight,
            breaks_at_cm: scene.breaks_at_cm(),
            case,
            better: better(&others, window),
            lower_fill: instead.and_then(|instead| instead.lower_fill),
            drawn: finds.is_some(),
        };
        let runs = finds
            .as_ref()
            .map_or_else(Vec::new, |finds| runs_told(case, &finds.runs));
        let verdict = held(best.verdict, &runs, depth);
        let laid = chosen.bed_litres * case.pots;
        let bags = bags_for(laid, 0.0, case.bag.in_litres());
        Ok(Answer {
            judgement: Judgement {
                verdict,
                sentence: words::verdict(&told, verdict, chances),
                chances,
            },
            advice: words::advice(&told),
            cautions: cautions(case, &chosen, depth),
            working: working(case, &scene, &told),
            detail: Detail {
                first_look: finds.is_none(),
                depth_mm: depth.in_millimetres(),
                window_mm: window.map(|ends| ends.map(Length::in_millimetres)),
                depths: all
                    .iter()
                    .zip(&case.depths)
                    .enumerate()
                    .map(|(place, (at, depth))| DepthTold {
                        depth_mm: depth.in_millimetres(),
                        chances: finds
                            .as_ref()
                            .and_then(|finds| finds.chances.get(place).copied()),
                        verdict: at.verdict,
                        air: at.air,
                        air_full: at.air_full,
                        air_lowest_full: at.air_lowest_full,
                        supply: at.supply,
                        mid_suction_cm: at.mid_suction_cm,
                        bed_litres: at.bed_litres,
                    })
                    .collect(),
                level_mm: case.level.in_millimetres(),
                wall_mm: case.wall.in_millimetres(),
                fill_mm: case.mix.fill.in_millimetres(),
                medium: case.medium.name.to_owned(),
                mix: case.mix.mix_in_words(),
                pot: case.mix.pot_in_words(),
                outline: Outline::of(&case.mix.vessel),
                pore_space: scene.ball.water_content(0.0),
                laid_litres: laid * scene.settled(),
                loose_litres: laid,
                bags,
                price: case.price.map(|price| price * bags),
                others,
                held_to_account: words::held_to_account(&runs),
                runs,
            },
            figures,
        })
    }

    fn careless(draws: &mut Draws) -> Question {
        careless::careless(draws)
    }
}

/// The depth to lay by the best figures alone.
fn first_look(all: &[AtDepth]) -> usize {
    let is = |place: usize, verdict| {
        f64::from(u8::from(
            all.get(place).is_some_and(|at| at.verdict == verdict),
        ))
    };
    // Where all fail, the one that lacks least: drowned ones are too shallow, thirsty ones too deep.
    if all.iter().all(|at| at.verdict == Verdict::DoesNotServe) {
        return all
            .iter()
            .position(|at| at.wrong != Wrong::Drowned)
            .unwrap_or(all.len().saturating_sub(1));
    }
    depth_to_lay(
        all.len(),
        |place| is(place, Verdict::DoesNotServe),
        |place| is(place, Verdict::Serves),
    )
}

/// The depths around a place that are safe: by the draws, or else by the best figures.
fn window(
    case: &Case,
    all: &[AtDepth],
    finds: Option<&Finds>,
    place: usize,
) -> Option<[Length; 2]> {
    let safe = |at: usize| match finds {
        Some(finds) => finds
            .chances
            .get(at)
            .is_some_and(|[_, _, fails]| 1.0 - fails >= SAFE_FROM),
        None => all
            .get(at)
            .is_some_and(|at| at.verdict != Verdict::DoesNotServe),
    };
    if !safe(place) {
        return None;
    }
    let from = (0..=place).rev().take_while(|at| safe(*at)).last()?;
    let to = (place..all.len()).take_while(|at| safe(*at)).last()?;
    Some([*case.depths.get(from)?, *case.depths.get(to)?])
}

/// The figures at a depth, in the order of [`Bed::figures`].
fn values(
    case: &Case,
    scene: &Scene<'_>,
    at: &AtDepth,
    straight: &AtDepth,
    depth: Length,
) -> Vec<f64> {
    /// Less air than this is none, fraction: nobody measures it.
    const LEAST_AIR: f64 = 5e-4;
    let litres = |litres: f64| Volume::from_litres(litres).in_cubic_metres();
    let air = |air: f64| if air < LEAST_AIR { 0.0 } else { air };
    vec![
        depth.in_metres(),
        at.air,
        air(at.air_full),
        air(at.air_lowest_full),
        at.air_empty,
        at.supply,
        Suction::CENTIMETRE_OF_WATER.to_base(at.mid_suction_cm),
        Length::from_centimetres(scene.breaks_at_cm()).in_metres(),
        at.refills,
        litres(at.fill_litres * case.pots),
        litres(scene.demand_litres * case.pots),
        litres(at.bed_litres * case.pots),
        AreaLoad::KILOGRAM_PER_SQUARE_METRE.to_base(at.load_kg_per_m2),
        air(straight.air_full),
        air(straight.air_lowest_full),
    ]
}

fn outcome(case: &Case, scene: &Scene<'_>, place: usize) -> Result<Outcome, Problem> {
    let depth = case
        .depths
        .get(place)
        .copied()
        .ok_or_else(words::no_depth)?;
    let at = scene.at_depth(depth);
    let straight = scene.at_depth(Length::from_millimetres(0.0));
    Ok(Outcome {
        values: values(case, scene, &at, &straight, depth),
        verdict: at.verdict,
    })
}

/// A verdict held to account: where the flow solved in full leaves the plant short at that depth, it
/// needs watching at the least.
fn held(verdict: Verdict, runs: &[RunTold], depth: Length) -> Verdict {
    let depth_mm = depth.in_millimetres();
    let short = runs.iter().any(|told| {
        told.of_the_question
            && (told.run.depth_mm - depth_mm).abs() < 0.5
            && told.run.drunk_share < words::ALL_OF_IT
    });
    if short {
        verdict.max(Verdict::Watch)
    } else {
        verdict
    }
}

/// The other medium with the widest window at the best figures, where that is wider than this one's.
fn better(others: &[OtherMedium], window: Option<[Length; 2]>) -> Option<OtherMedium> {
    let wide = |ends: Option<[f64; 2]>| ends.map_or(-1.0, |[from, to]| to - from);
    let own = wide(window.map(|ends| ends.map(Length::in_millimetres)));
    others
        .iter()
        .filter(|other| wide(other.window_mm) > own)
        .max_by(|one, other| wide(one.window_mm).total_cmp(&wide(other.window_mm)))
        .cloned()
}

/// The runs, each with what the quick estimate says of it.
fn runs_told(case: &Case, runs: &[Run]) -> Vec<RunTold> {
    let told = |run: &Run| {
        let medium = run.medium.and_then(|place| BED_MEDIA.get(place));
        let depth = Length::from_millimetres(run.depth_mm);
        RunTold {
            stands: words::stands_on(depth, medium.unwrap_or(&case.medium).name),
            of_the_question: medium.is_none(),
            run: run.clone(),
        }
    };
    runs.iter().map(told).collect()
}

fn cautions(case: &Case, at: &AtDepth, depth: Length) -> Vec<Caution> {
    let practice = &sources::COMMON_PRACTICE;
    let mut cautions: Vec<Caution> = Vec::new();
    if depth > Length::from_millimetres(0.0) {
        cautions.extend(of_all::dust(
            words::BEFORE_TIPPING,
            [case.medium.dust].into_iter(),
        ));
    }
    if depth > Length::from_millimetres(0.0) && case.medium.floats {
        cautions.push(Caution::new(
            words::BEFORE_FILLING,
            words::floats(case.medium.name),
            practice,
        ));
    }
    if let Some(limit) = case.bench_limit
        && at.load_kg_per_m2 > limit.in_kilograms_per_square_metre()
    {
        cautions.push(Caution::new(
            words::BEFORE_FILLING,
            words::overloads(at.load_kg_per_m2, limit.in_kilograms_per_square_metre()),
            practice,
        ));
    }
    if case.fills != Fills::Daily {
        cautions.push(Caution::new(
            words::BEFORE_FILLING,
            words::backflow(),
            practice,
        ));
    }
    cautions.extend([
        Caution::new(words::BEFORE_LIFTING, words::full_trays(), practice),
        Caution::new(words::AS_IT_STANDS, words::standing_water(), practice),
        Caution::new(words::AS_IT_STANDS, words::salt(), practice),
        Caution::new(words::BETWEEN_CROPS, words::cleaning(), practice),
    ]);
    cautions
}

fn working(case: &Case, scene: &Scene<'_>, told: &words::Told<'_>) -> Vec<Step> {
    let at = &told.chosen;
    vec![
        Step::new(
            words::WHAT_AIR,
            "mean over the ball of pores − θ(h), suction h = height above the water",
            words::air_put_in(told),
            words::air_result(at),
            &sources::MILKS_1989,
        ),
        Step::new(
            words::WHAT_LIFTED,
            "z = ∫ ds / (1 + q/K(s))",
            words::lifted_put_in(scene.demand_litres, case),
            words::lifted_result(told.breaks_at_cm),
            &sources::BED_GAPS,
        ),
        Step::new(
            words::WHAT_SUCTION,
            "the same through bed and ball, from the emptiest level to mid-pot",
            words::suction_put_in(told),
            words::suction_result(at),
            &sources::TOMATO_SUCTION_2015,
        ),
    ]
}
