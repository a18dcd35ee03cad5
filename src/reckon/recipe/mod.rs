//! Recipe: the best mix of what there is, for what it must do.
//!
//! * `question`: what is typed, and the case it is read into.
//! * `form`: its form as data.
//! * `blends`: all blends in whole parts of twenty.
//! * `judge`: a blend judged by the model of Mix.
//! * `search`: how the best one is found.
//! * `figures`: what is told of it.
//! * `words`: the sentences.

pub mod blends;
mod figures;
mod form;
mod judge;
mod question;
mod search;
mod words;

pub use judge::{Judged, Looked, Places, Taken};
pub use question::{
    Aim, BEST_FIGURE, BY_DEPTH, Case, MaterialAsked, NINE_IN_TEN, Question, Stuff, Target,
    TargetsAsked,
};
pub use search::{Finds, Search, first_look};

use super::answer::{Answer, FigureName, Judgement, Step, Verdict};
use super::careless::{entry, one_of, slips};
use super::doubt::{Doubt, UnderWay};
use super::form::{Texts, texts};
use super::mix::{self, Mix};
use super::pot::{OWN_ROUND, PotAsked};
use super::{Outcome, Problem, Reckoning};
use crate::handbook::materials::MATERIALS;
use crate::handbook::pots::POTS;
use crate::handbook::sources;
use crate::handbook::thresholds::LIMITS;
use crate::measure::{DecimalMark, Entry};
use crate::science::numerics::draws::Draws;
use blends::{Counts, grid, in_lowest};

/// The reckoning.
pub struct Recipe;

/// What belongs to Recipe alone.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Detail {
    /// Whether this is a first look, in coarse steps and at the best figures only.
    pub first_look: bool,
    /// Whether the first blend meets the targets.
    pub met: bool,
    /// The best blend, or the nearest; then others that are nearly as good and differ most.
    pub blends: Vec<BlendTold>,
    /// What stands in the way, where no blend meets the targets.
    pub in_way: Option<InWay>,
}

/// A target that no blend meets.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct InWay {
    /// air, water, weight or price.
    pub target: String,
    /// What was asked for, base units (fractions, kg, money).
    pub wanted: f64,
    /// What can be had, the same units.
    pub can_be: f64,
}

/// A blend.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct BlendTold {
    /// Its parts, those of nought left out.
    pub parts: Vec<PartTold>,
    /// Best figure of its air, fraction.
    pub air: f64,
    /// Best figure of its water, fraction.
    pub water: f64,
    /// Best figure of its easily available water, fraction.
    pub easy_water: f64,
    /// Best figure of its wet weight, kg in one pot, or a litre.
    pub wet_kg: f64,
    /// Price of the bags to buy, at the best figures.
    pub price: f64,
    /// What is bought and used of them is worth, at the best figures.
    pub worth: f64,
    /// The question of Mix about it, as texts by their paths.
    pub in_mix: Texts,
}

/// One part of a blend.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct PartTold {
    /// Key of the material.
    pub material: String,
    /// Its name.
    pub name: String,
    /// Parts of it, of 20.
    pub parts: f64,
    /// To measure out, L.
    pub litres: f64,
    /// Of it in hand, L.
    pub from_in_hand_litres: f64,
    /// Of it to be bought, L.
    pub to_buy_litres: f64,
    /// Whole bags to buy.
    pub bags: f64,
    /// What those bags cost.
    pub bags_price: f64,
}

impl Reckoning for Recipe {
    const NAME: &'static str = "recipe";
    const ASKS: &'static str = "What should I mix from what I have?";
    type Question = Question;
    type Case = Case;
    type Detail = Detail;

    fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
        question::check(question, mark)
    }

    fn figures(case: &Case) -> Vec<FigureName> {
        case.figures()
    }

    fn best(case: &Case) -> Result<Outcome, Problem> {
        outcome(case, &first_look(case)?)
    }

    /// One outcome of the blend that a first look finds.
    fn draw(case: &Case, draws: &mut Draws) -> Result<Outcome, Problem> {
        let finds = first_look(case)?;
        let Some(counts) = finds.first else {
            return outcome(case, &finds);
        };
        let drawn = Mix::draw(&case.mix_of(&counts), draws)?;
        let judged = case.judged_of(&drawn.values);
        Ok(Outcome {
            values: case.values(&counts, &judged),
            verdict: if finds.met {
                drawn.verdict
            } else {
                Verdict::DoesNotServe
            },
        })
    }

    fn begin(case: Case, wanted: u32, seed: u64) -> Result<Box<dyn UnderWay>, Problem> {
        Ok(Box::new(Search::begin(case, wanted.max(1), seed)))
    }

    fn answer(case: &Case, doubt: Option<&Doubt>) -> Result<Answer<Detail>, Problem> {
        let searched = doubt.and_then(|doubt| Finds::read(&doubt.finds, case.materials.len()));
        let first = searched.is_none();
        let finds = match searched {
            Some(finds) => finds,
            None => first_look(case)?,
        };
        let best = outcome(case, &finds)?;
        let figures = Doubt::figures(case.figures(), &best.values, doubt);
        let blends = grid(case.materials.len(), 1).len();
        let told = finds
            .first
            .iter()
            .chain(&finds.others)
            .map(|counts| told(case, counts))
            .collect::<Result<Vec<_>, _>>()?;
        let of_mix = match &finds.first {
            Some(counts) => Some(Mix::answer(&case.mix_of(counts), None)?),
            None => None,
        };
        let (cautions, mut working) =
            of_mix.map_or_else(Default::default, |answer| (answer.cautions, answer.working));
        working.insert(0, searching(case, blends, first));
        let chances = doubt.map(|doubt| doubt.chances);
        Ok(Answer {
            figures,
            judgement: Judgement {
                verdict: best.verdict,
                sentence: judgement(case, &finds, first, blends),
                chances,
            },
            advice: advice(case, &finds),
            cautions,
            working,
            detail: Detail {
                first_look: first,
                met: finds.met,
                blends: told,
                in_way: finds.in_way.map(|(target, can_be)| InWay {
                    target: target.key().to_owned(),
                    wanted: case.wanted(target).unwrap_or(0.0),
                    can_be,
                }),
            },
        })
    }

    fn careless(draws: &mut Draws) -> Question {
        careless(draws)
    }
}

/// The figures of the first blend found, and whether it serves: as Mix has it, where it meets the
/// targets.
fn outcome(case: &Case, finds: &Finds) -> Result<Outcome, Problem> {
    let Some(counts) = finds.first else {
        return Ok(Outcome {
            values: vec![0.0; case.figures().len()],
            verdict: Verdict::DoesNotServe,
        });
    };
    let of_mix = Mix::best(&case.mix_of(&counts))?;
    let judged = case.judged_of(&of_mix.values);
    Ok(Outcome {
        values: case.values(&counts, &judged),
        verdict: if finds.met {
            of_mix.verdict
        } else {
            Verdict::DoesNotServe
        },
    })
}

/// The parts of a blend in lowest terms, with their names.
fn named<'a>(case: &'a Case, counts: &Counts) -> Vec<(u8, &'a str)> {
    let lowest = in_lowest(counts);
    let names = case.materials.iter().map(|stuff| stuff.material.name);
    let parts = lowest.into_iter().zip(names);
    parts.filter(|(parts, _)| *parts > 0).collect()
}

fn judgement(case: &Case, finds: &Finds, first: bool, blends: usize) -> String {
    match (first, finds.met, finds.first) {
        (_, _, None) => words::nothing_to_be_had(case.litres),
        (true, true, _) => words::found_at_first(case.aim),
        (true, false, _) => words::NONE_AT_FIRST.to_owned(),
        (false, true, _) => {
            let any = case.targets.iter().any(Option::is_some);
            words::found(case.aim, case.sure, any, blends)
        }
        (false, false, _) => words::none(case.sure, blends),
    }
}

fn advice(case: &Case, finds: &Finds) -> String {
    let Some(counts) = &finds.first else {
        return words::nothing_to_be_had(case.litres);
    };
    let parts = named(case, counts);
    match finds.in_way {
        Some((target, can_be)) => {
            let wanted = case.wanted(target).unwrap_or(0.0);
            words::in_the_way(target, wanted, can_be, &words::recipe(&parts))
        }
        None => words::mix_it(&parts, case.litres),
    }
}

fn searching(case: &Case, blends: usize, first: bool) -> Step {
    let looked = if first {
        blends::coarse_grid(case.materials.len()).len()
    } else {
        blends
    };
    Step {
        what: words::WHAT_SEARCH.to_owned(),
        formula: words::search_formula(case.sure && !first).to_owned(),
        put_in: words::search_put_in(case.materials.len(), looked),
        result: words::aim(case.aim).to_owned(),
        source: if case.sure && !first {
            &sources::SCHEFFE_1958
        } else {
            &sources::WHOLE_SEARCH
        },
    }
}

fn told(case: &Case, counts: &Counts) -> Result<BlendTold, Problem> {
    let judged = case.look(counts)?.judged;
    let taken = case.taken(counts, judged.lost);
    let parts = case
        .materials
        .iter()
        .zip(counts)
        .zip(&taken)
        .filter(|((_, parts), _)| **parts > 0)
        .map(|((stuff, parts), taken)| PartTold {
            material: stuff.material.key.to_owned(),
            name: stuff.material.name.to_owned(),
            parts: f64::from(*parts),
            litres: taken.litres,
            from_in_hand_litres: taken.from_in_hand,
            to_buy_litres: taken.to_buy,
            bags: taken.bags,
            bags_price: taken.bags_price,
        });
    Ok(BlendTold {
        parts: parts.collect(),
        air: judged.air,
        water: judged.water,
        easy_water: judged.easy_water,
        wet_kg: judged.wet_kg,
        price: case.price(counts, judged.lost),
        worth: case.worth(counts, judged.lost),
        in_mix: texts(&mut mix_question(case, counts)),
    })
}

/// The question of Mix about a blend: the same pot and use, as many pots as the litres fill.
fn mix_question(case: &Case, counts: &Counts) -> mix::Question {
    let mut asked = case.in_mix.clone();
    let lowest = in_lowest(counts);
    let mut place = 0;
    asked.parts.retain_mut(|part| {
        let parts = lowest.get(place).copied().unwrap_or(0);
        place += 1;
        part.amount = Entry::number(f64::from(parts));
        parts > 0
    });
    let in_pot = case.template.vessel.volume_to(case.template.fill);
    let pots = (case.litres / in_pot.in_litres()).floor();
    asked.pots = Entry::number(pots.clamp(1.0, mix::MOST_POTS));
    asked
}

fn careless(draws: &mut Draws) -> Question {
    /// Half of what need not be typed is left empty.
    fn maybe(draws: &mut Draws, unit: &str, low: f64, high: f64) -> Entry {
        let typed = entry(draws, unit, low, high);
        if draws.uniform() < 0.5 {
            typed
        } else {
            typed.with_text("")
        }
    }
    /// What is mostly typed.
    fn seldom_empty(draws: &mut Draws, unit: &str, low: f64, high: f64) -> Entry {
        let typed = entry(draws, unit, low, high);
        if draws.uniform() < 0.9 {
            typed
        } else {
            typed.with_text("")
        }
    }
    let mut keys: Vec<&str> = MATERIALS.iter().map(|material| material.key).collect();
    // Mostly few materials, for five take ten thousand blends.
    let many = [0, 1, 2, 2, 2, 3, 3, 3, 3, 4, 5, 6][draws.below(12)];
    let materials = (0..many)
        .map(|_| {
            let place = draws.below(keys.len());
            let again = slips(draws);
            let key = if again {
                keys[place]
            } else {
                keys.swap_remove(place)
            };
            MaterialAsked {
                material: one_of(draws, &[key], "moon dust").to_owned(),
                price: seldom_empty(draws, "", 0.5, 50.0),
                bag: entry(draws, "L", 5.0, 200.0),
                in_hand: maybe(draws, "L", 1.0, 500.0),
            }
        })
        .collect();
    let mut pots: Vec<&str> = POTS.iter().map(|pot| pot.key).collect();
    pots.extend([BY_DEPTH; 8]);
    let uses: Vec<&str> = LIMITS.iter().map(|limits| limits.key).collect();
    Question {
        materials,
        pot: PotAsked {
            size: one_of(draws, &pots, OWN_ROUND).to_owned(),
            rim: entry(draws, "mm", 30.0, 500.0),
            base: entry(draws, "mm", 30.0, 500.0),
            height: entry(draws, "mm", 30.0, 500.0),
            volume: entry(draws, "L", 0.1, 40.0),
            below_rim: entry(draws, "mm", 1.0, 28.0),
        },
        depth: entry(draws, "cm", 2.8, 48.0),
        purpose: one_of(draws, &uses, "roof").to_owned(),
        litres: entry(draws, "L", 1.0, 3000.0),
        targets: TargetsAsked {
            air: maybe(draws, "%", 3.0, 60.0),
            water: maybe(draws, "%", 10.0, 90.0),
            weight: maybe(draws, "kg", 0.2, 20.0),
            price: maybe(draws, "", 1.0, 500.0),
        },
        aim: one_of(draws, &["price", "weight", "air", "easy_water"], "glory").to_owned(),
        certainty: one_of(draws, &[NINE_IN_TEN, BEST_FIGURE], "surely").to_owned(),
    }
}
