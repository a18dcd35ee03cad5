//! What to mind, before which step.

use super::question::{Case, Fills};
use super::words;
use crate::handbook::sources;
use crate::measure::Length;
use crate::reckon::answer::Caution;
use crate::reckon::cautions as of_all;

/// All that is to be minded at a depth, with what all of it weighs wet, kg/m².
pub fn cautions(case: &Case, load_kg_per_m2: f64, depth: Length) -> Vec<Caution> {
    let practice = &sources::COMMON_PRACTICE;
    let mut cautions: Vec<Caution> = Vec::new();
    if depth > Length::from_millimetres(0.0) {
        cautions.extend(of_all::dust(
            words::BEFORE_TIPPING,
            [case.medium.row.dust].into_iter(),
        ));
    }
    if depth > Length::from_millimetres(0.0) && case.medium.row.floats {
        cautions.push(Caution::new(
            words::BEFORE_FILLING,
            words::floats(case.medium.row.name),
            practice,
        ));
    }
    if let Some(limit) = case.bench_limit
        && load_kg_per_m2 > limit.in_kilograms_per_square_metre()
    {
        cautions.push(Caution::new(
            words::BEFORE_FILLING,
            words::overloads(load_kg_per_m2, limit.in_kilograms_per_square_metre()),
            practice,
        ));
    }
    cautions.push(Caution::new(
        words::BEFORE_SETTING_DOWN,
        words::dry_pots(),
        practice,
    ));
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
