//! Room and hands from week to week.

use super::calendar::Stages;
use super::case::Case;
use super::plan::{Plan, SEEDLINGS_PER_M2, Sown};
use crate::nursery::Day;

/// A place is full when this much of its room is taken: to the nearest hundredth it is all of it.
pub const FULL: f64 = 1.005;
/// Days of a week.
pub const WEEK: i32 = 7;
/// No plan is told for longer than this, weeks.
const MOST_WEEKS: i32 = 160;

/// A week.
#[derive(Clone, Debug, PartialEq)]
pub struct Week {
    /// Its Monday.
    pub monday: Day,
    /// Of each place, the share of its room that is taken.
    pub taken: Vec<f64>,
    /// Hours of work.
    pub hours: f64,
}

/// The Monday of a day's week.
#[must_use]
pub fn monday_of(day: Day) -> Day {
    day.plus(1 - day.weekday() as i32)
}

/// A day so many days after another, with its part.
fn after(on: Day, days: f64) -> Day {
    on.plus(days.floor() as i32)
}

/// The first and the last day on which a sowing stands in pots: what is ready before it is wanted waits for its day.
#[must_use]
pub fn in_pots(case: &Case, sown: &Sown, stages: &Stages) -> (Day, Day) {
    let stands = case
        .sowings
        .get(sown.row)
        .map_or(0.0, |sowing| sowing.stands_days);
    let ready = after(sown.on, stages.ready);
    let wanted = sown.wanted_by.map_or(ready, |wanted| wanted.max(ready));
    (after(sown.on, stages.potted), after(wanted, stands))
}

/// The weeks of a plan, from the first sowing to the last pot gone.
#[must_use]
pub fn weeks(case: &Case, plan: &Plan, stages: &[Option<Stages>]) -> Vec<Week> {
    let known = || {
        let both = plan.sown.iter().zip(stages);
        both.filter_map(|(sown, stages)| Some((sown, stages.as_ref()?)))
    };
    let Some(first) = known().map(|(sown, _)| monday_of(sown.on)).min() else {
        return Vec::new();
    };
    let last = known()
        .map(|(sown, stages)| in_pots(case, sown, stages).1)
        .max()
        .unwrap_or(first);
    let many = ((last.number() - first.number()) / WEEK + 1).min(MOST_WEEKS);
    let mut weeks: Vec<Week> = (0..many)
        .map(|week| Week {
            monday: first.plus(WEEK * week),
            taken: vec![0.0; case.stands.len()],
            hours: 0.0,
        })
        .collect();
    for (sown, stages) in known() {
        let Some(sowing) = case.sowings.get(sown.row) else {
            continue;
        };
        let Some([room_first, room_then]) = plan.room.get(sown.row).copied() else {
            continue;
        };
        let into_pots = sowing.sown_in_pots();
        let of_room = |many: u32, room: u32| f64::from(many) / f64::from(room.max(1));
        let coming_up = if into_pots {
            of_room(sown.cells, room_first)
        } else {
            case.stands.get(sowing.first).map_or(0.0, |stand| {
                f64::from(sown.cells) / SEEDLINGS_PER_M2 / stand.area_m2()
            })
        };
        let of_pots = of_room(sown.potted, room_then);
        let (potted_on, gone_on) = in_pots(case, sown, stages);
        for week in &mut weeks {
            let (from, to) = (week.monday, week.monday.plus(WEEK - 1));
            let within = |day: Day| day >= from && day <= to;
            if sown.on <= to && potted_on >= from {
                add(&mut week.taken, sowing.first, coming_up);
            }
            if potted_on <= to && gone_on >= from {
                add(&mut week.taken, sowing.then, of_pots);
            }
            let minutes = |does: bool, many: u32, each: f64| {
                if does { f64::from(many) * each } else { 0.0 }
            };
            week.hours += (minutes(within(sown.on), sown.cells, case.hands.sowing_min)
                + minutes(
                    !into_pots && within(potted_on),
                    sown.potted,
                    case.hands.potting_min,
                ))
                / 60.0;
        }
    }
    weeks
}

fn add(taken: &mut [f64], place: usize, share: f64) {
    if let Some(taken) = taken.get_mut(place) {
        *taken += share;
    }
}

/// The fullest place in its fullest week: place, week, share.
#[must_use]
pub fn fullest(weeks: &[Week]) -> Option<(usize, Day, f64)> {
    weeks
        .iter()
        .flat_map(|week| {
            let places = week.taken.iter().enumerate();
            places.map(|(place, taken)| (place, week.monday, *taken))
        })
        .max_by(|one, other| one.2.total_cmp(&other.2))
}

/// The week with most work: week and hours.
#[must_use]
pub fn busiest(weeks: &[Week]) -> Option<(Day, f64)> {
    weeks
        .iter()
        .map(|week| (week.monday, week.hours))
        .max_by(|one, other| one.1.total_cmp(&other.1))
}
