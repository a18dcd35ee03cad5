//! The plan: what is sown when and in what number, and where it stands from week to week.

use std::rc::Rc;

use super::calendar::{Calendar, Stages, Years};
use super::case::{Batch, By, Case, Potting, Sowing, Warmth, Way};
use super::inputs::{Doubtful, Inputs, lost, share_of_seeds};
use super::weeks::{WEEK, Week, weeks};
use super::words;
use crate::handbook::crops::Property;
use crate::measure::Length;
use crate::nursery::Day;
use crate::reckon::Problem;
use crate::science::germination::seeds_to_sow_when_shares_differ;
use crate::science::numerics::draws::standard_normal_quantile;
use crate::science::standing_room::most;

/// Seedlings on a square metre before they are potted: cells of a plug tray. Common practice, no source.
pub const SEEDLINGS_PER_M2: f64 = 800.0;

/// Sowings of all rows together at most.
pub const MOST_SOWN: u32 = 60;

/// Pots of a row that find room on whole benches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Room {
    /// Where it comes up, at its distance.
    pub first: u32,
    /// Where it stands, rim to rim.
    pub touching: u32,
    /// Where it stands, at its distance.
    pub then: u32,
}

impl Room {
    /// Of a way of growing and its pots.
    #[must_use]
    pub fn of(case: &Case, way: Way, potting: &Potting) -> Self {
        let find = |place: usize, apart: Length| {
            case.stands.get(place).map_or(0, |stand| {
                let [length, breadth, apart] =
                    [stand.length, stand.breadth, apart].map(|size| size.in_metres());
                most(length, breadth, apart).unwrap_or(0)
            })
        };
        Self {
            first: find(way.first, potting.spacing),
            touching: find(way.then, potting.pot.rim),
            then: find(way.then, potting.spacing),
        }
    }
}

/// One sowing of one row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sown {
    /// Which row.
    pub row: usize,
    /// Which of its sowings, from 0.
    pub nth: u32,
    /// The day that it is wanted by, where it is.
    pub wanted_by: Option<Day>,
    /// The day.
    pub on: Day,
    /// Cells or pots sown.
    pub cells: u32,
    /// Seeds.
    pub seeds: u32,
    /// Plants potted.
    pub potted: u32,
}

/// When each sowing and each batch comes to what; none for one that does not become ready.
#[derive(Clone, Debug, PartialEq)]
pub struct Courses {
    /// The sowings of a plan.
    pub sown: Vec<Option<Stages>>,
    /// The batches of its case.
    pub batches: Vec<Option<Stages>>,
}

/// All of it.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The sowings, in the order of their days.
    pub sown: Vec<Sown>,
    /// When each sowing and batch comes to what, at the best figures.
    pub courses: Courses,
    /// Of each row, the pots that find room.
    pub room: Vec<Room>,
    /// The same of each batch.
    pub room_of_batches: Vec<Room>,
    /// Its weeks, at the best figures.
    pub weeks: Vec<Week>,
    /// The sowings that go into an unheated house before its nights are warm enough for them.
    pub cold_nights: Vec<ColdNights>,
    calendars: Rc<Calendars>,
}

/// A sowing that goes into an unheated house before its nights are warm enough for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColdNights {
    /// Its place among the sowings.
    pub sown: usize,
    /// The mean minimum in the house then, °C.
    pub low_c: f64,
    /// The first day on which the nights are warm enough; none where they never are.
    pub enough_from: Option<Day>,
}

/// The calendar at the best figures, and with each thing in doubt at the end that takes longest.
#[derive(Debug)]
struct Calendars {
    best: Calendar,
    slow: Vec<Calendar>,
}

impl Calendars {
    fn of(case: &Case) -> Result<Self, Problem> {
        let mut years = Years::default();
        let mut of = |inputs: &Inputs| Calendar::with(case, inputs, &mut years);
        let best = of(&Inputs::best(case)?);
        let slow = Doubtful::ALL
            .iter()
            .map(|in_doubt| Ok(of(&Inputs::slow(case, *in_doubt)?)));
        Ok(Self {
            slow: slow.collect::<Result<_, _>>()?,
            best,
        })
    }
}

impl Plan {
    /// Of a case; found once.
    ///
    /// # Errors
    /// The problem at the field of whatever does not come to an end.
    pub fn of(case: &Case) -> Result<Rc<Self>, Problem> {
        if let Some(known) = case.plan.get() {
            return Ok(Rc::clone(known));
        }
        let calendars = Rc::new(Calendars::of(case)?);
        let found = Rc::new(Self::found(case, &calendars, &[])?);
        Ok(Rc::clone(case.plan.get_or_init(|| found)))
    }

    /// The plan of a case that differs from this one's in nothing but its days.
    ///
    /// # Errors
    /// As [`of`](Self::of).
    pub fn on_other_days(&self, case: &Case) -> Result<Self, Problem> {
        Self::found(case, &self.calendars, &self.sown)
    }

    /// The plan of a case; of a row that was sown in another of its plans, so many cells are sown here too.
    fn found(case: &Case, calendars: &Rc<Calendars>, before: &[Sown]) -> Result<Self, Problem> {
        let many: u32 = case.sowings.iter().map(|sowing| sowing.times).sum();
        if many > MOST_SOWN {
            return Err(Problem::at("sowings", words::too_many_sown(MOST_SOWN)));
        }
        let mut all: Vec<(Sown, Stages)> = Vec::new();
        let mut rooms = Vec::new();
        for (row, sowing) in case.sowings.iter().enumerate() {
            let cells = match before.iter().find(|sown| sown.row == row) {
                Some(sown) => sown.cells,
                None => cells(case, row, sowing)?,
            };
            rooms.push(room_for_one(
                Room::of(case, sowing.way, &sowing.potting),
                || words::at(row, "spacing"),
            )?);
            for nth in 0..sowing.times {
                let later = sowing.every_days.saturating_mul(nth as i32);
                let (on, wanted_by) = match sowing.by {
                    By::Sown(day) => (day.plus(later), None),
                    By::Ready(day) => {
                        let wanted = day.plus(later);
                        let before = days_before(case, calendars, row, sowing.way, wanted)?;
                        (wanted.plus(-(before.ceil() as i32)), Some(wanted))
                    }
                };
                let stages = calendars
                    .best
                    .from(sowing.way, on)
                    .ok_or_else(|| never(row))?;
                all.push((
                    Sown {
                        row,
                        nth,
                        wanted_by,
                        on,
                        cells,
                        seeds: cells.saturating_mul(sowing.in_cell),
                        potted: potted(sowing.wanted, lost(case, sowing)).min(cells),
                    },
                    stages,
                ));
            }
        }
        all.sort_by_key(|(sown, _)| (sown.on, sown.row, sown.nth));
        let mut room_of_batches = Vec::new();
        for (row, batch) in case.batches.iter().enumerate() {
            room_of_batches.push(room_for_one(
                Room::of(case, batch.way, &batch.potting),
                || words::at_batch(row, "spacing"),
            )?);
        }
        let cold_nights = cold_nights(case, &all);
        let (sown, stages): (Vec<Sown>, Vec<Stages>) = all.into_iter().unzip();
        let mut plan = Self {
            sown,
            courses: Courses {
                sown: stages.into_iter().map(Some).collect(),
                batches: batches(case, &calendars.best),
            },
            room: rooms,
            room_of_batches,
            weeks: Vec::new(),
            cold_nights,
            calendars: Rc::clone(calendars),
        };
        plan.weeks = weeks(case, &plan, &plan.courses);
        Ok(plan)
    }

    /// When each sowing and each batch comes to what with other inputs.
    #[must_use]
    pub fn courses_with(&self, case: &Case, inputs: &Inputs) -> Courses {
        let calendar = Calendar::of(case, inputs);
        let of = |sown: &Sown| calendar.from(case.sowings.get(sown.row)?.way, sown.on);
        Courses {
            sown: self.sown.iter().map(of).collect(),
            batches: batches(case, &calendar),
        }
    }

    /// Batches that stand in a place in their pots in a week and of which no end is known.
    #[must_use]
    pub fn without_end(&self, case: &Case, place: usize, monday: Day) -> usize {
        let both = case.batches.iter().zip(&self.courses.batches);
        let there = |(batch, stages): &(&Batch, &Option<Stages>)| {
            let potted = stages.map_or(0.0, |stages| stages.potted);
            batch.gone.is_none()
                && batch.way.then == place
                && batch.sown.plus(potted as i32) < monday.plus(WEEK)
        };
        both.filter(there).count()
    }

    /// The sowings with when they come to what, at the best figures.
    pub fn sown_stages(&self) -> impl Iterator<Item = (&Sown, &Stages)> {
        let both = self.sown.iter().zip(&self.courses.sown);
        both.filter_map(|(sown, stages)| Some((sown, stages.as_ref()?)))
    }
}

/// When each batch comes to what, from the days that are known of it.
fn batches(case: &Case, calendar: &Calendar) -> Vec<Option<Stages>> {
    let of = |batch: &Batch| {
        let known = batch.known_days();
        calendar.when_known(batch.way, batch.sown, known, case.had(batch))
    };
    case.batches.iter().map(of).collect()
}

/// Cells or pots to sow, so sure to give what is wanted.
fn cells(case: &Case, row: usize, sowing: &Sowing) -> Result<u32, Problem> {
    let (a, b) = share_of_seeds(case, row, sowing)?;
    seeds_to_sow_when_shares_differ(sowing.wanted, a, b, case.certainty)
        .ok_or_else(|| Problem::at(words::at(row, "up"), words::too_many_seeds()))
}

fn room_for_one(room: Room, at: impl Fn() -> String) -> Result<Room, Problem> {
    if room.first == 0 || room.then == 0 {
        return Err(Problem::at(at(), words::no_room_for_one()));
    }
    Ok(room)
}

fn cold_nights(case: &Case, all: &[(Sown, Stages)]) -> Vec<ColdNights> {
    /// Nights are looked at for so long, days: a year.
    const YEAR: i32 = 365;
    let cold = |(index, (sown, stages)): (usize, &(Sown, Stages))| {
        let sowing = case.sowings.get(sown.row)?;
        let stand = case.stands.get(sowing.way.then)?;
        if stand.warmth != Warmth::House {
            return None;
        }
        let limit = sowing.crop.figure(Property::NightForColdHouse)?;
        let wanted_c = limit.range.best();
        let on = sown.on.plus(stages.potted as i32);
        let [night_k, _] = stand.warmer_k;
        let low = |day: Day| case.skies.lowest_on(day) + night_k;
        let low_c = low(on);
        let later = (1..=YEAR).map(|days| on.plus(days));
        (low_c < wanted_c).then(|| ColdNights {
            sown: index,
            low_c,
            enough_from: later.into_iter().find(|day| low(*day) >= wanted_c),
        })
    };
    all.iter().enumerate().filter_map(cold).collect()
}

fn never(row: usize) -> Problem {
    Problem::at(words::at(row, "first"), words::never_ready())
}

/// Plants potted, so that as many as are wanted are left.
fn potted(wanted: u32, lost: f64) -> u32 {
    (f64::from(wanted) / (1.0 - lost)).ceil() as u32
}

/// Days before a day on which to sow, so sure to be ready: what each doubt adds, by itself, is taken together as the
/// square root of the sum of their squares.
fn days_before(
    case: &Case,
    calendars: &Calendars,
    row: usize,
    way: Way,
    wanted: Day,
) -> Result<f64, Problem> {
    /// A year in which it never comes is one that takes so much longer, days.
    const NEVER_DAYS: f64 = 60.0;
    let usual = calendars
        .best
        .days_before(way, wanted)
        .ok_or_else(|| never(row))?;
    let squares: f64 = calendars
        .slow
        .iter()
        .map(|slow| {
            let days = slow.days_before(way, wanted);
            days.map_or(NEVER_DAYS, |days| days - usual).powi(2)
        })
        .sum();
    let tenth = standard_normal_quantile(0.9);
    Ok(usual + standard_normal_quantile(case.certainty) * squares.sqrt() / tenth)
}
