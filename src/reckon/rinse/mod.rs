//! Rinse: how often a salty material must be rinsed before it serves, with how much water, and what
//! the water that runs off reads on the way.
//!
//! * `question`: what is typed, and the case it is read into.
//! * `form`: its form as data.
//! * `physics`: one outcome from one set of inputs.
//! * `working`: how the best figures came about.
//! * `words`: the sentences.

mod form;
mod physics;
mod question;
mod words;
mod working;

pub use question::{
    CORRECTS, Case, DOES_NOT, EXTRACTS, ExtractKind, Goal, Holder, OWN_TARGET, PURE, Question,
    SAME, SOAK, TRICKLE,
};

use super::answer::{Answer, Caution, Figure, FigureName, Judgement};
use super::careless::{entry, one_of, slips};
use super::cautions as of_all;
use super::doubt::Doubt;
use super::{Outcome, Problem, Reckoning};
use crate::handbook::rinsing::{CALCIUM_NITRATE_G_PER_L, SALTY, TARGETS, WETNESS};
use crate::handbook::{safety, sources};
use crate::measure::{DecimalMark, Fraction, Mass, Number, Range, SaltConductivity, Unit, Volume};
use crate::science::numerics::draws::Draws;
use physics::{Inputs, MOST, Rinse as AfterRinse, rinses_to_target};

/// The reckoning.
pub struct Rinse;

/// Places of the figures in an outcome; two for each rinse told follow the last.
mod place {
    pub const RINSES: usize = 0;
    pub const WATER_USED: usize = 1;
    pub const EXTRACT_NOW: usize = 2;
    pub const EXTRACT_AFTER: usize = 3;
    pub const RUN_OFF_WHEN_DONE: usize = 4;
    pub const LEAST: usize = 5;
    pub const WATER_HELD: usize = 6;
    pub const WATER_TO_COVER: usize = 7;
    pub const WET_WEIGHT: usize = 8;
    pub const FIRST_RINSE: usize = 9;
}

/// Names of the figures of single rinses begin so.
pub const EXTRACT_OF_RINSE: &str = "extract_after_rinse_";
/// Names of the figures of single rinses begin so.
pub const RUN_OFF_OF_RINSE: &str = "run_off_of_rinse_";

/// What belongs to Rinse alone.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Detail {
    /// How the extract is called.
    pub extract: String,
    /// What it is to come down to, mS/cm in the extract.
    pub target_ms_per_cm: f64,
    /// The least that the water allows, mS/cm in the extract.
    pub least_ms_per_cm: f64,
    /// Whole rinses to be 9 in 10 sure; the same as the best until the doubt is known.
    pub rinses_to_be_sure: f64,
    /// Water for one rinse, L.
    pub water_of_rinse_litres: f64,
    /// The rinses one by one, at the best figures, from before the first.
    pub rinses: Vec<Step>,
}

/// After one rinse.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Step {
    /// Which rinse; nought is before the first.
    pub rinse: f64,
    /// Water used so far, L.
    pub water_litres: f64,
    /// What the extract reads, mS/cm.
    pub extract: Spread,
    /// What the water running off reads, mS/cm; nothing before the first rinse.
    pub run_off: Option<Spread>,
}

/// Low, best and high, mS/cm; all alike until the doubt is known.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Spread {
    /// The 1-in-10 limit.
    pub low: f64,
    /// The best figure.
    pub best: f64,
    /// The 9-in-10 limit.
    pub high: f64,
}

const MILLI: &Unit = &SaltConductivity::MILLISIEMENS_PER_CENTIMETRE;

impl Reckoning for Rinse {
    const NAME: &'static str = "rinse";
    const ASKS: &'static str = "How often must this be rinsed?";
    type Question = Question;
    type Case = Case;
    type Detail = Detail;

    fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
        question::check(question, mark)
    }

    fn figures(case: &Case) -> Vec<FigureName> {
        let salt =
            |name: &str, label: &str| FigureName::of::<SaltConductivity>(name, label, "mS/cm");
        let volume = |name: &str, label: &str| FigureName::of::<Volume>(name, label, "L");
        let called = case.extract.called;
        let after = words::rinses(case.rinses);
        let running = if case.trickles {
            "the last of the water running off"
        } else {
            "the water running off"
        };
        let mut names = vec![
            FigureName::of::<Number>("rinses", "rinses until the salt is low enough", ""),
            volume("water_used", "water for all of them"),
            salt("extract_now", &format!("{called} now, at 25 °C")),
            salt("extract_after", &format!("{called} after {after}")),
            salt("run_off_when_done", &format!("{running} when it is done")),
            salt("least", &format!("least that this water allows, {called}")),
            FigureName::of::<Fraction>("water_held", "water held once drained", "%"),
            volume("water_to_cover", "water that covers it once drained"),
            FigureName::of::<Mass>("wet_weight", "all of it, wet and drained", "kg"),
        ];
        for rinse in 1..=case.told {
            names.push(salt(
                &format!("{EXTRACT_OF_RINSE}{rinse}"),
                &format!("{called} after rinse {rinse}"),
            ));
            names.push(salt(
                &format!("{RUN_OFF_OF_RINSE}{rinse}"),
                &format!("{running} of rinse {rinse}"),
            ));
        }
        names
    }

    fn best(case: &Case) -> Result<Outcome, Problem> {
        Ok(outcome(case, &Inputs::best(case)?))
    }

    fn draw(case: &Case, draws: &mut Draws) -> Result<Outcome, Problem> {
        Ok(outcome(case, &Inputs::drawn(case, draws)?))
    }

    fn answer(case: &Case, doubt: Option<&Doubt>) -> Result<Answer<Detail>, Problem> {
        let inputs = Inputs::best(case)?;
        let best = outcome(case, &inputs);
        let mut figures = Doubt::figures(Self::figures(case), &best.values, doubt);
        // Nobody rinses half a time.
        if let Some(rinses) = figures.get_mut(place::RINSES) {
            let range = rinses.range;
            rinses.range =
                Range::new(range.low().floor(), range.best(), range.high().ceil()).unwrap_or(range);
        }
        let chances = doubt.map(|doubt| doubt.chances);
        let detail = detail(case, &inputs, &figures);
        let to_be_sure = detail.rinses_to_be_sure as usize;
        let covers = inputs.covers_with() * case.litres;
        let nitrate_water = covers.max(case.litres * inputs.holds.water);
        let doing = words::Doing {
            trickles: case.trickles,
            water: case.water_litres,
            covers,
            rinses: case.rinses,
            sure: to_be_sure,
            run_off: figures.get(place::RUN_OFF_WHEN_DONE).map_or_else(
                || inputs.run_off_when_done(),
                |figure| figure.in_unit(MILLI).low(),
            ),
            never_sure: to_be_sure >= MOST,
            nitrate: case
                .salty
                .charged
                .then_some([nitrate_water * CALCIUM_NITRATE_G_PER_L, nitrate_water]),
        };
        Ok(Answer {
            judgement: Judgement {
                verdict: best.verdict,
                sentence: words::verdict(best.verdict, case.rinses, &purpose(case), chances),
                chances,
            },
            advice: words::advice(&doing),
            cautions: cautions(case, &inputs),
            working: working::working(case, &inputs),
            detail,
            figures,
        })
    }

    fn careless(draws: &mut Draws) -> Question {
        careless(draws)
    }
}

/// What it is for, to follow "serves".
fn purpose(case: &Case) -> String {
    match case.goal {
        Goal::Use(target) => format!("for {}", target.name),
        Goal::Own(target) => format!("for a reading of {} or less", words::conductivity(target)),
    }
}

fn outcome(case: &Case, inputs: &Inputs) -> Outcome {
    let rinses = rinses_to_target(inputs);
    let milli = |ms_per_cm: f64| MILLI.to_base(ms_per_cm);
    let litres = |litres: f64| Volume::from_litres(litres).in_cubic_metres();
    let told: Vec<AfterRinse> = inputs.rinses().take(case.told).collect();
    let now = inputs.reads(inputs.salt);
    let after = case
        .rinses
        .checked_sub(1)
        .and_then(|last| told.get(last).map(|rinse| rinse.extract))
        .unwrap_or_else(|| {
            let last = case.rinses.checked_sub(1);
            last.and_then(|last| inputs.rinses().nth(last))
                .map_or(now, |rinse| rinse.extract)
        });
    let many = rinses.unwrap_or(MOST) as f64;
    let mut values = vec![0.0; place::FIRST_RINSE];
    values[place::RINSES] = many;
    values[place::WATER_USED] = litres(many * case.water_litres);
    values[place::EXTRACT_NOW] = milli(inputs.read_ms_per_cm);
    values[place::EXTRACT_AFTER] = milli(after);
    values[place::RUN_OFF_WHEN_DONE] = milli(inputs.run_off_when_done());
    values[place::LEAST] = milli(inputs.least());
    values[place::WATER_HELD] = inputs.holds.water;
    values[place::WATER_TO_COVER] = litres(inputs.covers_with() * case.litres);
    values[place::WET_WEIGHT] = inputs.wet_kg_per_l() * case.litres;
    for rinse in told {
        values.push(milli(rinse.extract));
        values.push(milli(rinse.run_off));
    }
    Outcome {
        values,
        verdict: physics::verdict(inputs, rinses),
    }
}

fn detail(case: &Case, inputs: &Inputs, figures: &[Figure]) -> Detail {
    let spread = |place: usize| {
        let figure = figures.get(place)?;
        let range = figure.in_unit(MILLI);
        Some(Spread {
            low: range.low(),
            best: range.best(),
            high: range.high(),
        })
    };
    let now = spread(place::EXTRACT_NOW).map(|extract| Step {
        rinse: 0.0,
        water_litres: 0.0,
        extract,
        run_off: None,
    });
    let told = (0..case.told).filter_map(|rinse| {
        Some(Step {
            rinse: rinse as f64 + 1.0,
            water_litres: (rinse as f64 + 1.0) * case.water_litres,
            extract: spread(place::FIRST_RINSE + 2 * rinse)?,
            run_off: spread(place::FIRST_RINSE + 2 * rinse + 1),
        })
    });
    Detail {
        extract: case.extract.called.to_owned(),
        target_ms_per_cm: inputs.target(),
        least_ms_per_cm: inputs.least(),
        rinses_to_be_sure: figures
            .get(place::RINSES)
            .map_or(case.rinses as f64, |figure| figure.range.high().ceil()),
        water_of_rinse_litres: case.water_litres,
        rinses: now.into_iter().chain(told).collect(),
    }
}

fn cautions(case: &Case, inputs: &Inputs) -> Vec<Caution> {
    let mut cautions = Vec::new();
    if let Holder::Known(material) = &case.holder {
        if material.living {
            cautions.push(of_all::legionella(words::BEFORE_WETTING));
        }
        let dust = [material.dust].into_iter();
        cautions.extend(of_all::dust(words::BEFORE_TIPPING, dust));
    }
    let kg = inputs.wet_kg_per_l() * case.litres;
    if kg > safety::LIFT_AT_ARMS_LENGTH.women_kg {
        cautions.push(Caution::new(
            words::BEFORE_LIFTING,
            words::lifting(kg),
            safety::LIFT_CLOSE.source,
        ));
    }
    if case.salty.charged {
        cautions.push(Caution::new(
            words::BEFORE_DISSOLVING,
            words::nitrate(),
            &sources::GBOLLIE_2021,
        ));
    }
    cautions.push(Caution::new(
        words::BEFORE_POURING,
        words::run_off(case.salty.charged),
        &sources::CARRION_2005,
    ));
    if case.salty.lime {
        cautions.push(Caution::new(
            words::BEFORE_USING,
            words::lime(),
            &sources::COMMON_PRACTICE,
        ));
    }
    cautions
}

fn careless(draws: &mut Draws) -> Question {
    let salty: Vec<&str> = SALTY.iter().map(|row| row.key).collect();
    let extracts: Vec<&str> = EXTRACTS.iter().map(|row| row.key).collect();
    let wetness: Vec<&str> = WETNESS.iter().map(|row| row.key).collect();
    let mut uses: Vec<&str> = TARGETS.iter().map(|row| row.key).collect();
    uses.extend([OWN_TARGET; 4]);
    let litres = entry(draws, "L", 0.5, 900.0);
    let water = if slips(draws) {
        entry(draws, "L", 0.01, 9000.0)
    } else {
        litres.clone()
    };
    Question {
        material: one_of(draws, &salty, "moon dust").to_owned(),
        held: entry(draws, "%", 3.0, 89.0),
        density: entry(draws, "g/L", 30.0, 1900.0),
        litres,
        wetness: one_of(draws, &wetness, "soggy").to_owned(),
        conductivity: entry(draws, "mS/cm", 0.05, 20.0),
        extract: one_of(draws, &extracts, "tea").to_owned(),
        extract_water: one_of(draws, &[PURE, SAME], "beer").to_owned(),
        meter: one_of(draws, &[CORRECTS, DOES_NOT], "broken").to_owned(),
        temperature: entry(draws, "degC", 6.0, 34.0),
        source: entry(draws, "mS/cm", 0.01, 1.5),
        water,
        way: one_of(draws, &[SOAK, TRICKLE], "shout").to_owned(),
        depth: entry(draws, "cm", 4.0, 140.0),
        purpose: one_of(draws, &uses, "roof").to_owned(),
        target: entry(draws, "mS/cm", 0.05, 5.0),
    }
}
