//! Room and hands from week to week.

use super::buying::CELL;
use super::calendar::Stages;
use super::case::{Case, Potting, Stand, Way};
use super::plan::{Courses, Plan, Room, SEEDLINGS_PER_M2, Sown};
use crate::nursery::Day;

/// A place is full when this much of its room is taken: to the nearest hundredth it is all of it.
pub const FULL: f64 = 1.005;
/// Days of a week.
pub const WEEK: i32 = 7;
const MINUTES_OF_HOUR: f64 = 60.0;
/// No plan is told for longer than this, weeks.
const MOST_WEEKS: i32 = 160;

/// Weeks are told from so long before the last day of which something is known, days: a year and a little.
const HISTORY_DAYS: i32 = 400;

/// A week.
#[derive(Clone, Debug, PartialEq)]
pub struct Week {
    /// Its Monday.
    pub monday: Day,
    /// Of each place, the share of its room that is taken.
    pub taken: Vec<f64>,
    /// Of each place, the weight on it, kg/m².
    pub carries: Vec<f64>,
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

/// Something that takes room in a place for some days.
struct Taking {
    place: usize,
    from: Day,
    to: Day,
    share: f64,
    kg_per_m2: f64,
}

/// Work of a day.
struct Work {
    on: Day,
    minutes: f64,
}

/// What takes room, lot by lot, and what makes work.
#[derive(Default)]
struct Load {
    lots: Vec<Vec<Taking>>,
    work: Vec<Work>,
}

/// One lot of plants as it takes room: cells sown on a day, plants potted later.
struct Lot<'a> {
    way: Way,
    potting: &'a Potting,
    room: Room,
    into_pots: bool,
    sown: Day,
    cells: u32,
    plants: u32,
    potted: Day,
    touching_days: f64,
    /// The last day; none for one that stands on and on.
    gone: Option<Day>,
}

impl Load {
    fn add(&mut self, case: &Case, lot: &Lot<'_>) {
        let of_room = |many: u32, room: u32| f64::from(many) / f64::from(room.max(1));
        let area = |place: usize| case.stands.get(place).map_or(1.0, Stand::area_m2);
        let pot_kg = case.mix.weight_of(lot.potting.pot).in_kilograms();
        let weight = |place: usize, pots: u32| f64::from(pots) * pot_kg / area(place);
        let Way { first, then, .. } = lot.way;
        let (share, kg_per_m2) = if lot.into_pots {
            (of_room(lot.cells, lot.room.first), weight(first, lot.cells))
        } else {
            let area_m2 = f64::from(lot.cells) / SEEDLINGS_PER_M2;
            let litres = f64::from(lot.cells) * CELL.in_litres();
            let kg = litres * case.mix.wet.in_grams_per_litre() / 1000.0;
            (area_m2 / area(first), kg / area(first))
        };
        let mut takings = vec![Taking {
            place: first,
            from: lot.sown,
            to: lot.potted,
            share,
            kg_per_m2,
        }];
        let gone = lot.gone.unwrap_or(Day::from_number(i32::MAX / 2));
        let spaced = after(lot.potted, lot.touching_days).min(gone);
        let kg_per_m2 = weight(then, lot.plants);
        let mut stand = |from: Day, to: Day, room: u32| {
            takings.push(Taking {
                place: then,
                from,
                to,
                share: of_room(lot.plants, room),
                kg_per_m2,
            });
        };
        // In the week in which they are set apart they take the room of both, which is that of the second.
        let last_touching = monday_of(spaced).plus(-1);
        if last_touching >= lot.potted {
            stand(lot.potted, last_touching, lot.room.touching);
        }
        stand(spaced, gone, lot.room.then);
        self.lots.push(takings);
    }

    fn work(&mut self, on: Day, many: u32, each_min: f64) {
        self.work.push(Work {
            on,
            minutes: f64::from(many) * each_min,
        });
    }
}

fn load(case: &Case, plan: &Plan, courses: &Courses) -> Load {
    let mut load = Load::default();
    for (sown, stages) in plan.sown.iter().zip(&courses.sown) {
        let (Some(stages), Some(sowing), Some(room)) = (
            stages,
            case.sowings.get(sown.row),
            plan.room.get(sown.row).copied(),
        ) else {
            continue;
        };
        let (potted, gone) = in_pots(case, sown, stages);
        let into_pots = sowing.sown_in_pots();
        load.work(sown.on, sown.cells, case.hands.sowing_min);
        if !into_pots {
            load.work(potted, sown.potted, case.hands.potting_min);
        }
        let lot = Lot {
            way: sowing.way,
            potting: &sowing.potting,
            room,
            into_pots,
            sown: sown.on,
            cells: sown.cells,
            plants: sown.potted,
            potted,
            touching_days: sowing.touching_days,
            gone: Some(gone),
        };
        load.add(case, &lot);
    }
    for ((batch, stages), room) in case
        .batches
        .iter()
        .zip(&courses.batches)
        .zip(&plan.room_of_batches)
    {
        let [_, potted_known, ready_known] = batch.known;
        let begun_to_give = ready_known.or(batch.picked);
        // One that never grows on stands where it is.
        let potted = stages.map_or(batch.gone, |stages| Some(after(batch.sown, stages.potted)));
        let potted = potted.unwrap_or(batch.sown);
        let gone = batch.gone.map(|gone| gone.max(batch.sown));
        let lot = Lot {
            way: batch.way,
            potting: &batch.potting,
            room: *room,
            into_pots: batch.sown_in_pots(),
            sown: batch.sown,
            cells: batch.number,
            plants: batch.stands(),
            potted: gone.map_or(potted, |gone| potted.min(gone)),
            touching_days: 0.0,
            gone,
        };
        load.add(case, &lot);
        // Work that is done already is no work of this plan.
        if !lot.into_pots && potted_known.or(begun_to_give).is_none() {
            load.work(lot.potted, lot.plants, case.hands.potting_min);
        }
    }
    load
}

/// The weeks of a plan, from the first sowing (or a year ago, where that is later) to the last pot gone. A batch of which no day of its end is known stands
/// to the end.
#[must_use]
pub fn weeks(case: &Case, plan: &Plan, courses: &Courses) -> Vec<Week> {
    let load = load(case, plan, courses);
    let takings = || load.lots.iter().flatten();
    let Some(first) = takings().map(|taking| taking.from).min() else {
        return Vec::new();
    };
    // Of what was sown long ago and still stands, the weeks before are history.
    let lately = case.last_known().map(|known| known.plus(-HISTORY_DAYS));
    let first = monday_of(lately.map_or(first, |lately| first.max(lately)));
    let ends = takings().map(|taking| taking.to);
    let ended = ends.filter(|to| to.number() < i32::MAX / 2).max();
    let last = ended.unwrap_or(first);
    let many = ((last.number() - first.number()) / WEEK + 1).clamp(1, MOST_WEEKS);
    let nothing = || vec![0.0; case.stands.len()];
    let mut weeks: Vec<Week> = (0..many)
        .map(|week| Week {
            monday: first.plus(WEEK * week),
            taken: nothing(),
            carries: nothing(),
            hours: 0.0,
        })
        .collect();
    let week_of = |day: Day| (day.number() - first.number()).div_euclid(WEEK);
    for lot in &load.lots {
        for (place, taking) in lot.iter().enumerate() {
            let (from, to) = (week_of(taking.from), week_of(taking.to).min(many - 1));
            for number in from.max(0)..=to {
                let Some(week) = weeks.get_mut(number as usize) else {
                    continue;
                };
                // A lot that changes where it stands within a week takes the room of the larger alone.
                let before = lot.iter().take(place).filter(|before| {
                    before.place == taking.place
                        && (week_of(before.from)..=week_of(before.to)).contains(&number)
                });
                let [share, kg_per_m2] =
                    before.fold([0.0; 2], |[share, kg_per_m2]: [f64; 2], before| {
                        [share.max(before.share), kg_per_m2.max(before.kg_per_m2)]
                    });
                if let Some(taken) = week.taken.get_mut(taking.place) {
                    *taken += (taking.share - share).max(0.0);
                }
                if let Some(carries) = week.carries.get_mut(taking.place) {
                    *carries += (taking.kg_per_m2 - kg_per_m2).max(0.0);
                }
            }
        }
    }
    for work in &load.work {
        let week = usize::try_from(week_of(work.on)).ok();
        if let Some(week) = week.and_then(|week| weeks.get_mut(week)) {
            week.hours += work.minutes / MINUTES_OF_HOUR;
        }
    }
    weeks
}

/// The weeks that are not over, as far as batches and what is still to be sown tell; the last at the least.
#[must_use]
pub fn to_come<'a>(case: &Case, plan: &Plan, weeks: &'a [Week]) -> &'a [Week] {
    let Some(known) = case.last_known() else {
        return weeks;
    };
    let first_sown = plan.sown.first().map(|sown| sown.on);
    let known = first_sown.map_or(known, |on| on.min(known));
    let over = weeks
        .iter()
        .take_while(|week| week.monday.plus(WEEK) <= known);
    let over = over.count().min(weeks.len().saturating_sub(1));
    weeks.get(over..).unwrap_or_default()
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

/// The place that carries most beside what it may: place, week, kg/m²; none where no place says what it may carry.
#[must_use]
pub fn heaviest(case: &Case, weeks: &[Week]) -> Option<(usize, Day, f64)> {
    let mut most: Option<(f64, (usize, Day, f64))> = None;
    for week in weeks {
        for (place, carries) in week.carries.iter().enumerate() {
            let Some(limit) = case.stands.get(place).and_then(|stand| stand.carries) else {
                continue;
            };
            let share = carries / limit.in_kilograms_per_square_metre();
            if most.is_none_or(|(so_far, _)| share > so_far) {
                most = Some((share, (place, week.monday, *carries)));
            }
        }
    }
    most.map(|(_, found)| found)
}

/// Whether a place carries more than it may in some week.
#[must_use]
pub fn too_heavy(case: &Case, weeks: &[Week]) -> bool {
    heaviest(case, weeks).is_some_and(|(place, _, carries)| {
        let limit = case.stands.get(place).and_then(|stand| stand.carries);
        limit.is_some_and(|limit| carries > limit.in_kilograms_per_square_metre())
    })
}
