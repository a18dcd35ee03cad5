//! What batches that stand want: to be looked at, potted, moved, cut or sold.

use super::asked::{Asked, Standing};
use super::{Done, Due, Opens, What, moves, words};
use crate::measure::DecimalMark;
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Texts};
use crate::reckon::Reckoning;
use crate::reckon::moving_on::{COLD_HOUSE, MovingOn, Question, Stage, in_brief};

/// Adds what batches want.
pub fn due(asked: &Asked<'_>, all: &mut Vec<Due>) {
    for standing in asked.standing() {
        if !moves::due(asked, &standing, all)
            && let Some(due) = of_batch(asked, &standing)
        {
            let before = due.from.plus(-LOOKED_OVER_BEFORE_DAYS);
            if due.what == What::Pot && due.from > asked.today {
                all.extend(moves::look_over(asked, &standing, before));
            }
            all.push(due);
        }
    }
}

/// A batch is looked over so many days before it moves by its warmth. Common practice, no source.
const LOOKED_OVER_BEFORE_DAYS: i32 = 3;

fn of_batch(asked: &Asked<'_>, standing: &Standing<'_>) -> Option<Due> {
    let Standing { here, batch, told } = standing;
    let best = |days: &[String; 3]| Day::from_iso(&days[1]);
    let name = asked.record.name_of(here.id);
    let entered = |what: &str, kind: &'static str| {
        let mut texts = Texts::default()
            .with(DAY, &asked.today.iso())
            .with("batch", &here.id.text());
        if !what.is_empty() {
            texts.set("what", what);
        }
        Done { kind, texts }
    };
    let due = |what: What, from: Day, sentence: String, left: String, done: Done| Due {
        what,
        about: Some(here.id),
        from,
        sentence,
        left,
        opens: Opens::New(done.kind, done.texts.clone()),
        done: Some(done),
        loses: f64::from(told.stands) * what.lost_in_a_day(),
    };
    let [is_up, is_potted, is_ready] = told.known;
    let gives = is_ready || !told.picked.is_empty();
    if !is_up && !is_potted && !gives {
        let from = best(&told.up)?;
        let (sentence, left) = (words::look(&name), words::look_left(from, asked.today));
        return Some(due(
            What::LookWhetherUp,
            from,
            sentence,
            left,
            entered("up", "stage"),
        ));
    }
    let into_pots = batch.sown_in_pots();
    let moves = told.where_at[0] != told.where_at[1];
    if !is_potted && !gives && (!into_pots || moves) {
        let from = best(&told.potted)?;
        let what = if into_pots { "moved" } else { "potted_on" };
        let mut done = entered(what, "stage");
        if let Some(plan) = here.plan.and_then(|plan| asked.record.get(plan)) {
            done.texts.set("to", plan.text("then"));
            if !into_pots {
                done.texts.set("pot", plan.text("pot"));
            }
        }
        let late = from.number() < asked.today.number();
        let place = asked.detail.places.get(told.where_at[1]);
        let sentence = words::pot(&name, told.stands, into_pots, place.map(String::as_str));
        let left = if into_pots {
            words::moved_left()
        } else {
            words::pot_left(late)
        };
        return Some(due(What::Pot, from, sentence, left, done));
    }
    if !gives {
        let from = best(&told.ready)?;
        let mut ready = due(
            What::Ready,
            from,
            words::ready(&name, told.stands),
            words::ready_left(from, asked.today),
            entered("", "sold"),
        );
        // What was cut or sold, and to whom, is not known to a tap.
        ready.done = None;
        let question = asked.moving_on(here);
        if from > asked.today && question.as_ref().is_some_and(is_overdue) {
            let mut over = moves::look_over(asked, standing, asked.today)?;
            over.left = words::checked_left();
            over.loses = f64::from(told.stands) * What::Move.lost_in_a_day();
            return Some(over);
        }
        // What stands in the warm and may go on into the cold is looked over first.
        if let Some(question) = question.filter(|question| question.moves == COLD_HOUSE) {
            ready.opens = Opens::MovingOn(Box::new(question));
        }
        return Some(ready);
    }
    None
}

/// Whether a batch should have moved before, as far as its days and its pot tell.
fn is_overdue(question: &Question) -> bool {
    MovingOn::check(question, DecimalMark::Ask)
        .ok()
        .and_then(|case| in_brief(&case).ok())
        .is_some_and(|brief| brief.stage == Stage::Overdue)
}
