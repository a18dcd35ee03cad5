//! The plan: what is sown when and in what number, and where it stands from week to week.

use std::rc::Rc;

use super::calendar::{Calendar, Stages, day_of_year};
use super::case::{By, Case, Warmth};
use super::inputs::{Doubtful, Inputs, share_of_seeds};
use super::weeks::{Week, weeks};
use super::words;
use crate::handbook::crops::Property;
use crate::nursery::Day;
use crate::reckon::Problem;
use crate::science::germination::seeds_to_sow_when_shares_differ;
use crate::science::numerics::draws::standard_normal_quantile;
use crate::science::standing_room::most;

/// Seedlings on a square metre before they are potted: cells of a plug tray. Common practice, no source.
pub const SEEDLINGS_PER_M2: f64 = 800.0;

/// Sowings of all rows together at most.
pub const MOST_SOWN: u32 = 60;

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

/// All of it.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The sowings, in the order of their days.
    pub sown: Vec<Sown>,
    /// When each comes to what, at the best figures.
    pub stages: Vec<Stages>,
    /// Of each row, the pots that find room where it comes up, and where it stands.
    pub room: Vec<[u32; 2]>,
    /// Its weeks, at the best figures.
    pub weeks: Vec<Week>,
    /// The sowings that go into an unheated house before its nights are warm enough for them: their place, and the mean
    /// minimum then, °C.
    pub cold_nights: Vec<(usize, f64)>,
    calendars: Rc<Calendars>,
}

/// The calendar at the best figures, and with each thing in doubt at the end that takes longest.
#[derive(Debug)]
struct Calendars {
    best: Calendar,
    slow: Vec<Calendar>,
}

impl Calendars {
    fn of(case: &Case) -> Result<Self, Problem> {
        let slow = Doubtful::ALL
            .iter()
            .map(|of| Ok(Calendar::of(case, &Inputs::slow(case, *of)?)));
        Ok(Self {
            best: Calendar::of(case, &Inputs::best(case)?),
            slow: slow.collect::<Result<_, _>>()?,
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
        let found = Rc::new(Self::found(case, &calendars)?);
        Ok(Rc::clone(case.plan.get_or_init(|| found)))
    }

    /// The plan of a case that differs from this one's in nothing but its days.
    ///
    /// # Errors
    /// As [`of`](Self::of).
    pub fn on_other_days(&self, case: &Case) -> Result<Self, Problem> {
        Self::found(case, &self.calendars)
    }

    fn found(case: &Case, calendars: &Rc<Calendars>) -> Result<Self, Problem> {
        let many: u32 = case.sowings.iter().map(|sowing| sowing.times).sum();
        if many > MOST_SOWN {
            return Err(Problem::at("sowings", words::too_many_sown(MOST_SOWN)));
        }
        let mut all: Vec<(Sown, Stages)> = Vec::new();
        let mut rooms = Vec::new();
        for (row, sowing) in case.sowings.iter().enumerate() {
            let (a, b) = share_of_seeds(row, sowing)?;
            let cells = seeds_to_sow_when_shares_differ(sowing.wanted, a, b, case.certainty)
                .ok_or_else(|| Problem::at(words::at(row, "up"), words::too_many_seeds()))?;
            let room = [sowing.first, sowing.then].map(|place| {
                case.stands.get(place).map_or(0, |stand| {
                    let sizes = [stand.length, stand.breadth, sowing.spacing];
                    let [length, breadth, apart] = sizes.map(|size| size.in_metres());
                    most(length, breadth, apart).unwrap_or(0)
                })
            });
            if room.contains(&0) {
                return Err(Problem::at(
                    words::at(row, "spacing"),
                    words::no_room_for_one(),
                ));
            }
            rooms.push(room);
            for nth in 0..sowing.times {
                let later = sowing.every_days.saturating_mul(nth as i32);
                let (on, wanted_by) = match sowing.by {
                    By::Sown(day) => (day.plus(later), None),
                    By::Ready(day) => {
                        let wanted = day.plus(later);
                        let before = days_before(case, calendars, row, wanted)?;
                        (wanted.plus(-(before.ceil() as i32)), Some(wanted))
                    }
                };
                let stages = calendars.best.from(row, on).ok_or_else(|| never(row))?;
                all.push((
                    Sown {
                        row,
                        nth,
                        wanted_by,
                        on,
                        cells,
                        seeds: cells.saturating_mul(sowing.in_cell),
                        potted: potted(sowing.wanted, sowing.lost).min(cells),
                    },
                    stages,
                ));
            }
        }
        all.sort_by_key(|(sown, _)| (sown.on, sown.row, sown.nth));
        let cold_nights = cold_nights(case, &all);
        let (sown, stages): (Vec<Sown>, Vec<Stages>) = all.into_iter().unzip();
        let mut plan = Self {
            sown,
            stages,
            room: rooms,
            weeks: Vec::new(),
            cold_nights,
            calendars: Rc::clone(calendars),
        };
        plan.weeks = weeks(case, &plan, &plan.best_stages());
        Ok(plan)
    }

    /// When each sowing comes to what at the best figures, as [`stages_with`](Self::stages_with) has it.
    #[must_use]
    pub fn best_stages(&self) -> Vec<Option<Stages>> {
        self.stages.iter().copied().map(Some).collect()
    }

    /// When each sowing comes to what with other inputs; none for one that does not become ready.
    #[must_use]
    pub fn stages_with(&self, case: &Case, inputs: &Inputs) -> Vec<Option<Stages>> {
        let calendar = Calendar::of(case, inputs);
        self.sown
            .iter()
            .map(|sown| calendar.from(sown.row, sown.on))
            .collect()
    }
}

fn cold_nights(case: &Case, all: &[(Sown, Stages)]) -> Vec<(usize, f64)> {
    let cold = |(index, (sown, stages)): (usize, &(Sown, Stages))| {
        let sowing = case.sowings.get(sown.row)?;
        let stand = case.stands.get(sowing.then)?;
        if stand.warmth != Warmth::House {
            return None;
        }
        let limit = sowing.crop.figure(Property::NightForColdHouse)?;
        let on = sown.on.plus(stages.potted as i32);
        let [night_k, _] = stand.warmer_k;
        let low = case.climate.lowest_on(day_of_year(on)) + night_k;
        (low < limit.range.best()).then_some((index, low))
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
    wanted: Day,
) -> Result<f64, Problem> {
    /// A year in which it never comes is one that takes so much longer, days.
    const NEVER_DAYS: f64 = 60.0;
    let usual = calendars
        .best
        .days_before(row, wanted)
        .ok_or_else(|| never(row))?;
    let squares: f64 = calendars
        .slow
        .iter()
        .map(|slow| {
            let days = slow.days_before(row, wanted);
            days.map_or(NEVER_DAYS, |days| days - usual).powi(2)
        })
        .sum();
    let tenth = standard_normal_quantile(0.9);
    Ok(usual + standard_normal_quantile(case.certainty) * squares.sqrt() / tenth)
}
