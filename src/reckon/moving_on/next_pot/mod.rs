//! Which pot next: one size up, or straight to the last, with the water around a small root system.
//!
//! A big pot round a small ball holds water that no root reaches: it stays wet for days, and new roots want air. A
//! small one is potted on again. Each size is told with how long it stays wet beside how long it would with a plant that
//! fills it, how little water is enough until it is rooted, and what it gives in growth and saves in work.
//!
//! * `told`: what is told of each size.
//! * `words`: the sentences.

mod told;
mod words;

pub use told::{NextPotTold, told};
pub use words::sentences;

use super::case::{Case, Move};
use super::ready::{is_young, leaves_from};
use crate::handbook::crops::Property;
use crate::handbook::crops::readiness::Step as Given;
use crate::handbook::moving;
use crate::handbook::pots::{Outline, POTS, Pot, pot};
use crate::handbook::thirst::{EVAPORATES_MM_PER_D, MEAN_SUN_MJ_PER_M2, TRANSMITS};
use crate::measure::{DecimalMark, Length, Range};
use crate::reckon::answer::Step;
use crate::reckon::mix::{self, Mix, Mixed, PotAsked};
use crate::reckon::season::light_of_sun;
use crate::reckon::words::number;
use crate::reckon::{Problem, Reckoning};
use crate::science::numerics::draws::Draws;
use crate::science::plant_quality::growth_by_pot;
use std::f64::consts::FRAC_PI_4;

/// The pot to whose plants the handbook's thirst of the young belongs.
const YOUNG_POT: &str = "round_9_cm";
const ML_PER_L: f64 = 1000.0;

/// The pot that it is usual to give at a step, from plug to last. Common practice, no source.
const USUAL: [(Given, &str); 4] = [
    (Given::Plug, "round_cell"),
    (Given::Small, YOUNG_POT),
    (Given::Middle, "round_2_l"),
    (Given::Last, "round_8_5_l"),
];

/// Why a size is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// One size up.
    Next,
    /// Two sizes up.
    TwoOn,
    /// The one that it is usual to give the crop next.
    Usual,
    /// The last that the crop is given.
    Last,
    /// The one that was asked for.
    Asked,
}

impl Why {
    /// Stable name in files.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Next => "next",
            Self::TwoOn => "two_on",
            Self::Usual => "usual",
            Self::Last => "last",
            Self::Asked => "asked",
        }
    }
}

/// What is reckoned of a size, by its place among the figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// Water in it once it has drained, mL.
    Water,
    /// Of that, out of reach of the roots, mL.
    OutOfReach,
    /// Air in it once it has drained, of 1.
    Air,
    /// What the plant drinks of a day, mL.
    Drinks,
    /// Days until half of its easily available water is gone.
    WetDays,
    /// The same with a plant that fills it.
    RootedDays,
    /// Water that wets the ball and what is within reach anew, mL.
    Give,
    /// Days from one such watering to the next.
    EveryDays,
}

/// How many figures there are of a size.
pub const FIGURES: usize = 8;

/// The figures of a size.
pub type Figures = [f64; FIGURES];

/// The sizes worth looking at, with the usual mix in each.
#[derive(Clone, Debug)]
pub struct Sizes {
    all: Vec<Size>,
    /// What a plant drinks that is ready in its 9 cm pot, in the light where it stands, mL a day.
    ready_ml: f64,
    /// The day's sun, or what a lamp makes up for, as a multiple of a mean day of summer.
    sun: f64,
}

/// A size.
#[derive(Clone, Debug)]
pub struct Size {
    /// The pot.
    pub pot: &'static Pot,
    /// Why it is looked at.
    pub why: Why,
    mix: mix::Case,
}

/// What a size hangs on, resolved one way.
struct Inputs {
    mix: mix::Inputs,
    finger_cm: f64,
    seedling_ball_ml: f64,
    seedling_drinks: f64,
    drinks_times: f64,
    evaporates_mm: f64,
    drawn_across: f64,
}

/// Figures that are drawn beside those of the mix.
const DEVIATES: usize = 6;

impl Inputs {
    fn best(size: &Size) -> Self {
        Self::with(mix::Inputs::best(&size.mix), [0.0; DEVIATES])
    }

    fn drawn(size: &Size, draws: &mut Draws) -> Result<Self, Problem> {
        let deviates = std::array::from_fn(|_| draws.deviate());
        let mix = mix::Inputs::drawn(&size.mix, draws)
            .map_err(|why| Problem::at("next", why.to_string()))?;
        Ok(Self::with(mix, deviates))
    }

    fn with(mix: mix::Inputs, deviates: [f64; DEVIATES]) -> Self {
        const MM_PER_CM: f64 = 10.0;
        let [finger, ball, seedling, drinks, evaporates, across] = deviates;
        let at = |figure: crate::handbook::Figure, deviate: f64| {
            // Far from its best a lopsided figure may run below nought, where it means nothing.
            let least = figure.range.low() / 2.0;
            figure.range.at(deviate).max(least)
        };
        Self {
            mix,
            finger_cm: at(moving::FINGER_MM, finger) / MM_PER_CM,
            seedling_ball_ml: at(moving::SEEDLING_BALL_ML, ball),
            seedling_drinks: at(moving::SEEDLING_DRINKS, seedling),
            drinks_times: at(moving::DRINKS_TIMES, drinks),
            evaporates_mm: at(EVAPORATES_MM_PER_D, evaporates),
            drawn_across: at(moving::DRAWN_ACROSS, across).min(1.0),
        }
    }
}

/// Breadth and height of a ball, cm, and its volume over breadth² height.
#[derive(Clone, Copy, Debug)]
struct Ball {
    breadth_cm: f64,
    height_cm: f64,
    form: f64,
}

impl Ball {
    fn of(case: &Case, inputs: &Inputs) -> Self {
        if case.moves == Move::PrickOut {
            // As broad as it is tall.
            let form = FRAC_PI_4;
            let breadth_cm = (inputs.seedling_ball_ml / form).cbrt();
            return Self {
                breadth_cm,
                height_cm: breadth_cm,
                form,
            };
        }
        let height_cm = (case.pot.height - case.pot.below_rim).in_centimetres();
        let form = match case.pot.outline {
            Outline::Round => FRAC_PI_4,
            Outline::Square => 1.0,
        };
        // As broad throughout as holds what the tapered pot does.
        let area_cm2 = case.pot.filled().in_millilitres() / height_cm;
        Self {
            breadth_cm: (area_cm2 / form).sqrt(),
            height_cm,
            form,
        }
    }

    /// The volume of the ball with so much round its sides and under it, mL.
    fn with_round_it_ml(self, finger_cm: f64) -> f64 {
        let breadth_cm = self.breadth_cm + 2.0 * finger_cm;
        self.form * breadth_cm * breadth_cm * (self.height_cm + finger_cm)
    }

    /// The area from which the wetted mix dries, cm².
    fn top_cm2(self, finger_cm: f64) -> f64 {
        self.form * (self.breadth_cm + 2.0 * finger_cm).powi(2)
    }
}

/// The area of the mix in a pot at its top, cm².
fn mouth_cm2(pot: &Pot) -> f64 {
    let fill: Length = pot.height - pot.below_rim;
    pot.vessel().area_at(fill).in_square_centimetres()
}

/// The pots that it is usual to give the crop, in order.
fn usual_of(case: &Case) -> impl Iterator<Item = (Given, &'static Pot)> {
    USUAL.iter().filter_map(|(step, key)| {
        let mut given = case.readiness.weeks_in.iter();
        let given = given.any(|(given, _)| given == step);
        pot(key).filter(|_| given).map(|pot| (*step, pot))
    })
}

fn sizes_for(case: &Case) -> Vec<(&'static Pot, Why)> {
    let litres = |pot: &Pot| pot.filled().in_litres();
    let seedling_l = moving::SEEDLING_BALL_ML.range.best() / ML_PER_L;
    let now = if case.moves == Move::PrickOut {
        seedling_l
    } else {
        litres(case.pot)
    };
    let up_from = |from: f64| {
        POTS.iter()
            .find(|pot| litres(pot) >= moving::SIZE_UP * from)
    };
    let next = up_from(now);
    let two_on = next.and_then(|next| up_from(litres(next)));
    // A seedling that goes into a pot is not put into a cell first.
    let into_pots = usual_of(case).filter(|(step, _)| *step != Given::Plug);
    let mut usual = into_pots.map(|(_, pot)| pot);
    let usual = usual.find(|pot| litres(pot) >= moving::SIZE_UP * now);
    let last = usual_of(case).map(|(_, pot)| pot);
    let last = last.last().filter(|pot| litres(pot) > now);
    let mut found: Vec<(&'static Pot, Why)> = Vec::new();
    for (pot, why) in [
        (next, Why::Next),
        (last, Why::Last),
        (case.next, Why::Asked),
        (usual, Why::Usual),
        (two_on, Why::TwoOn),
    ] {
        // What is as large as one that is there already tells nothing new.
        if let Some(pot) = pot
            && found.iter().all(|(known, _)| litres(known) != litres(pot))
        {
            found.push((pot, why));
        }
    }
    found.sort_by(|(one, _), (other, _)| litres(one).total_cmp(&litres(other)));
    found
}

impl Sizes {
    /// Of a case; none for a move that is not into a pot, or of a crop whose thirst is not known.
    ///
    /// # Errors
    /// Where the usual mix cannot be reckoned in a pot.
    pub fn of(case: &Case) -> Result<Option<Self>, Problem> {
        if !matches!(case.moves, Move::PrickOut | Move::PotOn) {
            return Ok(None);
        }
        let Some(drinks) = case.crop.figure(Property::WaterYoung) else {
            return Ok(None);
        };
        let all: Result<Vec<Size>, Problem> = sizes_for(case)
            .into_iter()
            .map(|(pot, why)| {
                Ok(Size {
                    pot,
                    why,
                    mix: usual_mix_in(pot)?,
                })
            })
            .collect();
        let mean_mol = light_of_sun(MEAN_SUN_MJ_PER_M2.range.best(), TRANSMITS.range.best());
        let sun = case.light_on(0) / mean_mol;
        let drinks = drinks.range;
        Ok(Some(Self {
            all: all?,
            // From a dull cool day to a bright hot one.
            ready_ml: (drinks.best() * sun).clamp(drinks.low(), drinks.high()),
            sun,
        }))
    }

    /// The sizes, from the smallest to the largest.
    #[must_use]
    pub fn all(&self) -> &[Size] {
        &self.all
    }

    /// The figures of each at their best.
    #[must_use]
    pub fn best(&self, case: &Case) -> Vec<Figures> {
        let of = |size: &Size| self.figures(case, size, &Inputs::best(size));
        self.all.iter().map(of).collect()
    }

    /// The figures of each with every input drawn, the same for all sizes.
    ///
    /// # Errors
    /// Where a mix that was drawn holds no water that can be reckoned.
    pub fn drawn(&self, case: &Case, draws: &mut Draws) -> Result<Vec<Figures>, Problem> {
        let Some(first) = self.all.first() else {
            return Ok(Vec::new());
        };
        let inputs = Inputs::drawn(first, draws)?;
        let of = |size: &Size| self.figures(case, size, &inputs);
        Ok(self.all.iter().map(of).collect())
    }

    /// What the plant drinks of a day, mL: what its like drinks that is ready in a 9 cm pot, by the light; as much more
    /// as its pot is wider, and by its leaves where they were counted.
    fn drinks_ml(&self, case: &Case, inputs: &Inputs) -> f64 {
        let [least, most] = moving::LEAVES_TIMES;
        let usual = if is_young(case) {
            leaves_from(case)
        } else {
            case.readiness.leaves.range.best()
        };
        let by_leaves = case
            .seen
            .leaves
            .map_or(1.0, |leaves| (leaves / usual).clamp(least, most));
        let by_size = if case.moves == Move::PrickOut {
            inputs.seedling_drinks
        } else {
            against_young(case.pot)
        };
        self.ready_ml * inputs.drinks_times * by_size * by_leaves
    }

    fn figures(&self, case: &Case, size: &Size, inputs: &Inputs) -> Figures {
        /// A tenth of a mm, so that a pot that nothing dries has a figure.
        const LEAST_ML_PER_D: f64 = 0.1;
        let mixed: Mixed = mix::mixed(&size.mix, &inputs.mix);
        let all_ml = mixed.litres_in_pot * ML_PER_L;
        let ball = Ball::of(case, inputs);
        let reached_ml = ball.with_round_it_ml(inputs.finger_cm).min(all_ml);
        let easy = mixed.easy_water_in_pot_litres / mixed.litres_in_pot;
        let lent = moving::DRIES_TO * easy;
        let drinks = self.drinks_ml(case, inputs);
        // What the sun takes from bare mix, mL from a cm² of it.
        let bare = inputs.evaporates_mm * self.sun / 10.0;
        let mouth_cm2 = mouth_cm2(size.pot);
        let out_of_reach = (all_ml - reached_ml).max(0.0) / all_ml;
        let across = 1.0 - (1.0 - inputs.drawn_across) * out_of_reach;
        let all_day = (drinks * across + bare * mouth_cm2).max(LEAST_ML_PER_D);
        let rooted = self.ready_ml * inputs.drinks_times * against_young(size.pot);
        let rooted_day = rooted.max(drinks) + bare * mouth_cm2;
        let top_cm2 = ball.top_cm2(inputs.finger_cm).min(mouth_cm2);
        let near_day = (drinks + bare * top_cm2).max(LEAST_ML_PER_D);
        let give = lent * reached_ml;
        [
            mixed.water * all_ml,
            mixed.water * out_of_reach * all_ml,
            mixed.drained_air(),
            drinks,
            lent * all_ml / all_day,
            lent * all_ml / rooted_day.max(LEAST_ML_PER_D),
            give,
            give / near_day,
        ]
    }

    /// Which of the sizes to take, by its place: the largest that does not stay wet for too long; where none does not,
    /// the smallest.
    #[must_use]
    pub fn choice(best: &[Figures]) -> usize {
        let dries =
            |figures: &Figures| figures[Of::WetDays as usize] <= moving::WET_FOR_DAYS.range.best();
        best.iter().rposition(dries).unwrap_or(0)
    }

    /// How many times as heavy it grows in the end in a size as in the smallest of them; 1 where that cannot be told.
    #[must_use]
    pub fn gain(&self, place: usize) -> f64 {
        let litres = |size: Option<&Size>| size.map(|size| size.pot.filled());
        litres(self.all.get(place))
            .zip(litres(self.all.first()))
            .and_then(|(pot, other)| growth_by_pot(pot, other).ok())
            .unwrap_or(1.0)
    }

    /// How many pottings are still to come after a size: into each pot that it is usual to give the crop and that is a
    /// size up from the one before.
    #[must_use]
    pub fn pottings_after(&self, case: &Case, place: usize) -> usize {
        let Some(size) = self.all.get(place) else {
            return 0;
        };
        let mut litres = size.pot.filled().in_litres();
        usual_of(case)
            .filter(|(_, usual)| {
                let up = usual.filled().in_litres() >= moving::SIZE_UP * litres;
                if up {
                    litres = usual.filled().in_litres();
                }
                up
            })
            .count()
    }
}

/// How much wider the mouth of a pot is than that of the pot of the handbook's thirst.
fn against_young(own: &Pot) -> f64 {
    pot(YOUNG_POT).map_or(1.0, |young| mouth_cm2(own) / mouth_cm2(young))
}

/// The mix that Mix begins with, in a pot of the handbook, drained and watered from above.
fn usual_mix_in(pot: &Pot) -> Result<mix::Case, Problem> {
    let question = mix::Question {
        pot: PotAsked {
            size: pot.key.to_owned(),
            ..PotAsked::default()
        },
        purpose: "growing_on".to_owned(),
        ..mix::Question::default()
    };
    Mix::check(&question, DecimalMark::Point).map_err(|problems| {
        let first = problems.into_iter().next();
        first.unwrap_or_else(|| Problem::at("next", words::no_mix()))
    })
}

/// How the days that the size to take stays wet came about.
pub fn step(taken: &NextPotTold) -> Step {
    let [_, water, _] = taken.water_ml;
    let [_, drinks, _] = taken.drinks_ml;
    let [_, wet, _] = taken.wet_days;
    Step::new(
        words::WHAT_WET,
        "half of the water between drained and 50 cm of suction, by what the plant drinks and the top gives off",
        format!(
            "{}: {} mL drained, {} mL drunk a day",
            taken.name,
            number(water, 3),
            number(drinks, 2)
        ),
        format!("{} days", number(wet, 2)),
        moving::NEXT_POT,
    )
}

/// The limits of each figure of each size out of the draws, as they travel with the doubt: low and high, size by size.
#[must_use]
pub fn limits(best: &[Figures], drawn: &[Vec<Figures>]) -> Vec<f64> {
    let mut found = Vec::with_capacity(2 * FIGURES * best.len());
    for (place, figures) in best.iter().enumerate() {
        for (which, value) in figures.iter().enumerate() {
            let of_draw = |sizes: &Vec<Figures>| sizes.get(place).map(|of| of[which]);
            let mut samples: Vec<f64> = drawn.iter().filter_map(of_draw).collect();
            let range = Range::from_samples(*value, &mut samples);
            let range = range.unwrap_or_else(|| Range::exact(*value));
            found.extend([range.low(), range.high()]);
        }
    }
    found
}
