//! What comes of each standing on a day: the column run until the day repeats itself.

use std::rc::Rc;

use super::case::{Case, Stand};
use super::inputs::Inputs;
use super::stands::{Variant, standing};
use super::weather::{TIMES, When};
use super::words;
use crate::handbook::heat::CHECKED_AFTER_H;
use crate::measure::{Duration, Temperature};
use crate::reckon::Problem;
use crate::reckon::answer::Verdict;
use crate::science::heat::column::{Column, Course, Moment, Place, Record, Standing, Steps};
use crate::science::heat::ground::DAY_S;
use crate::science::heat::growth::{hours_below, mean_rate, shared_ratio};

/// What comes of one standing.
#[derive(Clone, Debug)]
pub struct Come {
    /// Roots at equal times of the day, the mean of the ball, °C.
    pub roots_c: Vec<f64>,
    /// Water of the tray, °C.
    pub water_c: Vec<f64>,
    /// Air around the plants, °C.
    pub air_c: Vec<f64>,
    /// Surface of the floor, °C.
    pub floor_c: Vec<f64>,
    /// Hours of the day in which roots are below the crop's limit.
    pub chilled_h: f64,
    /// Mean rate of growth that the root allows, of the greatest.
    pub root_rate: f64,
    /// The same of the air.
    pub air_rate: f64,
    /// Heat given, kWh/m² in a day.
    pub kwh_per_m2: f64,
    /// Share of the day that the heater runs.
    pub duty: f64,
    /// Hours in which the power was too little.
    pub short_h: f64,
    /// What the balance misses, as a share of all that flowed.
    pub gap: f64,
}

fn least(of: &[f64]) -> f64 {
    of.iter().copied().fold(f64::INFINITY, f64::min)
}

fn most(of: &[f64]) -> f64 {
    of.iter().copied().fold(f64::NEG_INFINITY, f64::max)
}

fn mean(of: &[f64]) -> f64 {
    of.iter().sum::<f64>() / of.len().max(1) as f64
}

impl Come {
    /// Roots at their coldest, °C.
    #[must_use]
    pub fn lowest_c(&self) -> f64 {
        least(&self.roots_c)
    }

    /// Roots at their warmest, °C.
    #[must_use]
    pub fn highest_c(&self) -> f64 {
        most(&self.roots_c)
    }

    /// Roots on the mean of the day, °C.
    #[must_use]
    pub fn mean_c(&self) -> f64 {
        mean(&self.roots_c)
    }

    /// Water of the tray on the mean, °C.
    #[must_use]
    pub fn water_mean_c(&self) -> f64 {
        mean(&self.water_c)
    }

    fn of(record: &Record, inputs: &Inputs) -> Self {
        let samples = |place: Place| {
            record
                .trace(place)
                .map_or_else(Vec::new, |trace| trace.samples_c.clone())
        };
        let thirds = [Place::PotBottom, Place::PotMiddle, Place::PotTop].map(samples);
        let [bottom, middle, top] = &thirds;
        let roots_c: Vec<f64> = bottom
            .iter()
            .zip(middle)
            .zip(top)
            .map(|((bottom, middle), top)| (bottom + middle + top) / 3.0)
            .collect();
        let air_c = samples(Place::Air);
        Self {
            chilled_h: inputs
                .chilled_below_c
                .map_or(0.0, |limit_c| hours_below(&roots_c, limit_c)),
            root_rate: mean_rate(&inputs.cardinals, &roots_c),
            air_rate: mean_rate(&inputs.cardinals, &air_c),
            kwh_per_m2: record.heater_kwh_per_m2(),
            duty: record.duty(),
            short_h: record.short_s / 3600.0,
            gap: record.balance.relative_gap(),
            water_c: samples(Place::Water),
            floor_c: samples(Place::Floor),
            air_c,
            roots_c,
        }
    }
}

/// A day for one set of inputs, on which standings are tried.
pub struct Day<'a> {
    case: &'a Case,
    inputs: &'a Inputs,
    course: Course,
    deep: Temperature,
    mean_air: Temperature,
}

impl<'a> Day<'a> {
    /// A day of a month.
    ///
    /// # Errors
    /// A problem where its weather or house makes no sense.
    pub fn new(case: &'a Case, inputs: &'a Inputs, when: &When) -> Result<Self, Problem> {
        let course = when.course(case, inputs)?;
        let mean_air = Temperature::from_celsius(course.mean().bench_air_c);
        Ok(Self {
            case,
            inputs,
            deep: when.deep(case, inputs),
            course,
            mean_air,
        })
    }

    /// The same without sun.
    ///
    /// # Errors
    /// As [`Course::changed`].
    pub fn without_sun(&self) -> Result<Self, Problem> {
        let dark = self.course.changed(|moment| Moment {
            sun_w_per_m2: 0.0,
            ..*moment
        });
        Ok(Self {
            course: dark.map_err(words::no_column)?,
            ..*self
        })
    }

    /// The air at the floor or at bench height, at equal times from midnight, °C.
    #[must_use]
    pub fn air(&self, at_bench: bool) -> Vec<f64> {
        (0..TIMES)
            .map(|time| {
                let moment = self.course.at(time as f64 * DAY_S / TIMES as f64);
                if at_bench {
                    moment.bench_air_c
                } else {
                    moment.floor_air_c
                }
            })
            .collect()
    }

    /// The course of the house.
    #[must_use]
    pub fn course(&self) -> &Course {
        &self.course
    }

    /// A standing of a variant.
    ///
    /// # Errors
    /// A problem where a figure makes none.
    pub fn standing(&self, variant: &Variant) -> Result<Standing, Problem> {
        standing(self.case, self.inputs, variant, self.deep, self.mean_air)
    }

    /// What comes of a standing.
    ///
    /// # Errors
    /// A problem where it cannot be followed.
    pub fn run(&self, standing: &Standing) -> Result<Come, Problem> {
        /// Steps of 5 minutes instead move no root by more than 0.011 K on the April day.
        const STEP_MIN: f64 = 20.0;
        let steps = Steps {
            longest: Duration::from_minutes(STEP_MIN),
            ..Steps::default()
        };
        let sampled = Duration::from_hours(24.0 / TIMES as f64);
        let settled =
            Column::settled(standing, &self.course, sampled, steps).map_err(words::no_column)?;
        Ok(Come::of(&settled.day, self.inputs))
    }

    /// What comes of a variant.
    ///
    /// # Errors
    /// As [`run`](Self::run).
    pub fn come(&self, variant: &Variant) -> Result<Come, Problem> {
        self.run(&self.standing(variant)?)
    }
}

/// All three standings of a day, and raising by itself.
#[derive(Debug)]
pub struct Outcomes {
    /// In the order of [`Stand::ALL`].
    pub stands: [Come; 3],
    /// Raised in the air at the floor.
    pub raised_alone: Come,
    /// The root's share of growth.
    pub root_share: f64,
}

/// Growth against that on the floor, as times.
#[derive(Clone, Copy, Debug)]
pub struct Growth {
    /// By the warmth of the roots.
    pub roots: f64,
    /// By that of the air.
    pub air: f64,
}

impl Growth {
    /// All in one.
    #[must_use]
    pub fn all(self) -> f64 {
        self.roots * self.air
    }
}

/// How one standing grows against another.
#[must_use]
pub fn growth(of: &Come, beside: &Come, root_share: f64) -> Growth {
    // Where the other grows not at all, nothing can be told: neither is better.
    let ratio =
        |rate: f64, beside: f64, share: f64| shared_ratio(rate, beside, share).unwrap_or(1.0);
    Growth {
        roots: ratio(of.root_rate, beside.root_rate, root_share),
        air: ratio(of.air_rate, beside.air_rate, 1.0 - root_share),
    }
}

impl Outcomes {
    /// Of a case in its month.
    ///
    /// # Errors
    /// A problem where a standing cannot be followed.
    pub fn of(case: &Case, inputs: &Inputs) -> Result<Self, Problem> {
        Self::on(&Day::new(case, inputs, &When::of_month(case, case.month))?)
    }

    /// Of a day.
    fn on(day: &Day<'_>) -> Result<Self, Problem> {
        let asked = |stand: Stand| day.come(&Variant::asked(day.case, stand));
        Ok(Self {
            stands: [
                asked(Stand::Floor)?,
                asked(Stand::Raised)?,
                asked(Stand::Bench)?,
            ],
            raised_alone: day.come(&Variant {
                in_floor_air: true,
                ..Variant::asked(day.case, Stand::Raised)
            })?,
            root_share: day.inputs.root_share,
        })
    }

    /// Of one standing.
    #[must_use]
    pub fn at(&self, stand: Stand) -> &Come {
        let [floor, raised, bench] = &self.stands;
        match stand {
            Stand::Floor => floor,
            Stand::Raised => raised,
            Stand::Bench => bench,
        }
    }

    /// How it grows against the floor.
    #[must_use]
    pub fn growth(&self, stand: Stand) -> Growth {
        growth(self.at(stand), self.at(Stand::Floor), self.root_share)
    }

    /// How raising in the same air grows against the floor.
    #[must_use]
    pub fn growth_by_raising(&self) -> Growth {
        growth(&self.raised_alone, self.at(Stand::Floor), self.root_share)
    }

    /// How it grows raised against raising in the air at the floor: what the air at that height does.
    #[must_use]
    pub fn growth_by_its_air(&self) -> Growth {
        growth(self.at(Stand::Raised), &self.raised_alone, self.root_share)
    }

    /// Whether the standing serves the crop's roots.
    #[must_use]
    pub fn verdict(&self, stand: Stand) -> Verdict {
        judged(self.at(stand))
    }
}

/// Whether a standing serves the crop's roots: hours below its limit, and growth at all.
#[must_use]
pub fn judged(come: &Come) -> Verdict {
    /// Roots that grow less than this of their best hardly grow. A judgement.
    const HARDLY: f64 = 0.1;
    /// Of hours, on the way from one sample to the next.
    const SOME_H: f64 = 0.5;
    if come.chilled_h >= CHECKED_AFTER_H.range.best() {
        Verdict::DoesNotServe
    } else if come.chilled_h > SOME_H || come.root_rate < HARDLY {
        Verdict::Watch
    } else {
        Verdict::Serves
    }
}

/// What comes of a case at the best figures, found once a case.
#[derive(Debug)]
pub struct Best {
    /// The figures.
    pub inputs: Inputs,
    /// The standings.
    pub outcomes: Outcomes,
    /// Air at the floor and at bench height, at equal times from midnight, °C.
    pub airs: [Vec<f64>; 2],
}

impl Best {
    /// Of a case.
    ///
    /// # Errors
    /// The problem where it cannot be followed.
    pub fn of(case: &Case) -> Result<Rc<Self>, Problem> {
        if let Some(found) = case.best.get() {
            return Ok(Rc::clone(found));
        }
        let inputs = Inputs::best(case)?;
        let day = Day::new(case, &inputs, &When::of_month(case, case.month))?;
        let found = Rc::new(Self {
            outcomes: Outcomes::on(&day)?,
            airs: [false, true].map(|at_bench| day.air(at_bench)),
            inputs,
        });
        Ok(Rc::clone(case.best.get_or_init(|| found)))
    }
}
