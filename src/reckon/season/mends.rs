//! What would mend a week in which more stands than finds room.

use std::cell::OnceCell;

use super::case::{By, Case};
use super::plan::Plan;
use super::weeks::{FULL, WEEK, fullest, in_pots, to_come};
use super::words;
use crate::nursery::Day;

/// Weeks by which a sowing is tried earlier or later.
const MOST_WEEKS: i32 = 8;

/// Ways that mend the fullest week, in words; none where all find room.
#[must_use]
pub fn mends(case: &Case, plan: &Plan) -> Vec<String> {
    let Some((place, monday, taken)) = fullest(to_come(case, plan, &plan.weeks)) else {
        return Vec::new();
    };
    if taken <= FULL {
        return Vec::new();
    }
    let mut found = Vec::new();
    // Rows that stand there in pots in that week, with the share that they take.
    let mut rows: Vec<(usize, f64, u32)> = Vec::new();
    for (sown, stages) in plan.sown_stages() {
        let (from, to) = in_pots(case, sown, stages);
        let there = case
            .sowings
            .get(sown.row)
            .is_some_and(|row| row.way.then == place)
            && from <= monday.plus(WEEK - 1)
            && to >= monday;
        let room = plan.room.get(sown.row).map_or(1, |room| room.then.max(1));
        if there {
            let share = f64::from(sown.potted) / f64::from(room);
            match rows.iter_mut().find(|(row, ..)| *row == sown.row) {
                Some((_, all, potted)) => {
                    *all += share;
                    *potted += sown.potted;
                }
                None => rows.push((sown.row, share, sown.potted)),
            }
        }
    }
    rows.sort_by(|one, other| other.1.total_cmp(&one.1));
    for (row, ..) in &rows {
        if let Some(weeks) = shift(case, plan, *row) {
            let name = case.sowings.get(*row).map_or("", |row| row.crop.name);
            found.push(words::shifted(name, weeks));
            break;
        }
    }
    if let Some((row, share, potted)) = rows.first()
        && let Some(sowing) = case.sowings.get(*row)
    {
        let over = taken - FULL;
        if *share > over {
            let fewer = (over / share * f64::from(*potted)).ceil();
            found.push(words::fewer(sowing.crop.name, fewer));
            let closer = sowing.potting.spacing * ((share - over) / share).sqrt();
            if closer >= sowing.potting.pot.rim {
                found.push(words::closer(sowing.crop.name, closer));
            }
        }
    }
    let no_end = plan.without_end(case, place, monday);
    if no_end > 0 {
        found.push(words::batches_without_end(no_end));
    }
    if let Some(stand) = case.stands.get(place) {
        found.push(words::another_bench((taken - 1.0) * stand.area_m2()));
    }
    found
        .into_iter()
        .enumerate()
        .map(|(place, mend)| words::one_way(place == 0, mend))
        .collect()
}

/// The least number of weeks by which a row is sown later (or earlier, below nought) for all to find room.
fn shift(case: &Case, plan: &Plan, row: usize) -> Option<i32> {
    (1..=MOST_WEEKS)
        .flat_map(|weeks| [weeks, -weeks])
        .find(|weeks| fits(case, plan, row, *weeks))
}

fn fits(case: &Case, plan: &Plan, row: usize, by_weeks: i32) -> bool {
    let mut shifted = case.clone();
    shifted.plan = OnceCell::new();
    let later = |day: Day| day.plus(WEEK * by_weeks);
    if let Some(sowing) = shifted.sowings.get_mut(row) {
        sowing.by = match sowing.by {
            By::Ready(day) => By::Ready(later(day)),
            By::Sown(day) => By::Sown(later(day)),
        };
    }
    plan.on_other_days(&shifted).is_ok_and(|plan| {
        fullest(to_come(&shifted, &plan, &plan.weeks)).is_none_or(|(_, _, taken)| taken <= FULL)
    })
}
