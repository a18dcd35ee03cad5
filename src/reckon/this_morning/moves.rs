//! What was settled about batches that are to move: to be looked over again, hardened, moved on their best day; and how it
//! has gone since.

use super::asked::{Asked, Standing};
use super::{Done, Due, Opens, What, words};
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Texts, Thing};
use crate::reckon::moving_on::HARDENING_KEPT;
use crate::reckon::moving_on::from_record::{last_verdict, to_be_judged};

/// What is not ready is looked at again after so many days. Common practice, no source.
const AGAIN_DAYS: i32 = 3;

/// Adds what was settled about a batch. True where that says when it moves, and nothing else need say so.
pub fn due(asked: &Asked<'_>, standing: &Standing<'_>, all: &mut Vec<Due>) -> bool {
    let about = standing.here.id;
    if let Some(moved) = to_be_judged(asked.record, about, asked.today)
        && let Some(question) = asked.moving_on(standing.here)
    {
        let name = asked.record.name_of(about);
        all.push(of(
            standing,
            What::HowItWent,
            (asked.today, Opens::MovingOn(Box::new(question)), None),
            (words::how_it_went(&name), words::how_it_went_left(moved)),
        ));
    }
    let Some(verdict) = last_verdict(asked.record, about, asked.today) else {
        return false;
    };
    match verdict.text("stage") {
        "not_yet" => look_again(asked, standing, verdict, all),
        "ready" | "wait" | "overdue" => harden_and_move(asked, standing, verdict, all),
        // A verdict that says nothing of its move.
        _ => return false,
    }
    true
}

/// A thing that is due of a batch: from when, what it opens, what is written once it is done, and its two sentences.
type When = (Day, Opens, Option<Done>);

fn of(
    standing: &Standing<'_>,
    what: What,
    (from, opens, done): When,
    (sentence, left): (String, String),
) -> Due {
    Due {
        what,
        about: Some(standing.here.id),
        from,
        sentence,
        left,
        opens,
        done,
        loses: f64::from(standing.told.stands) * what.lost_in_a_day(),
    }
}

fn look_again(asked: &Asked<'_>, standing: &Standing<'_>, verdict: &Thing, all: &mut Vec<Due>) {
    let Some((said, question)) = verdict.day(DAY).zip(asked.moving_on(standing.here)) else {
        return;
    };
    let name = asked.record.name_of(standing.here.id);
    all.push(of(
        standing,
        What::LookOver,
        (
            said.plus(AGAIN_DAYS),
            Opens::MovingOn(Box::new(question)),
            None,
        ),
        (words::look_over(&name), words::look_again_left(said)),
    ));
}

/// A batch is looked over before it moves, where that was not done.
pub fn look_over(asked: &Asked<'_>, standing: &Standing<'_>, from: Day) -> Option<Due> {
    let question = asked.moving_on(standing.here)?;
    let name = asked.record.name_of(standing.here.id);
    Some(of(
        standing,
        What::LookOver,
        (from, Opens::MovingOn(Box::new(question)), None),
        (words::look_over(&name), words::look_over_left()),
    ))
}

fn harden_and_move(
    asked: &Asked<'_>,
    standing: &Standing<'_>,
    verdict: &Thing,
    all: &mut Vec<Due>,
) {
    let batch = standing.here.id;
    let name = asked.record.name_of(batch);
    let stage = |what: &str| {
        Texts::default()
            .with(DAY, &asked.today.iso())
            .with("batch", &batch.text())
            .with("what", what)
    };
    let best = verdict.day("best_day");
    let step =
        today_of(verdict, asked.today).filter(|_| best.is_some_and(|best| best > asked.today));
    let is_done = asked
        .record
        .stages_of(batch, asked.today)
        .any(|log| log.text("what") == "hardened" && log.day(DAY) == Some(asked.today));
    if let (Some(step), false) = (step, is_done) {
        let texts = stage("hardened");
        all.push(of(
            standing,
            What::Harden,
            (
                asked.today,
                Opens::New("stage", texts.clone()),
                Some(Done {
                    kind: "stage",
                    texts,
                }),
            ),
            (words::harden(&name, step), words::harden_left(best)),
        ));
    }
    // Without a day it waits for warmer nights: it is asked again.
    let Some(best) = best else {
        look_again(asked, standing, verdict, all);
        return;
    };
    let mut texts = stage("moved");
    texts.set("to", verdict.text("to"));
    let to = verdict.one("to").map(|to| asked.record.name_of(to));
    all.push(of(
        standing,
        What::Move,
        (
            best,
            Opens::New("stage", texts.clone()),
            Some(Done {
                kind: "stage",
                texts,
            }),
        ),
        (
            words::move_it(&name, standing.told.stands, to.as_deref()),
            words::move_left(best, asked.today),
        ),
    ));
}

/// What the plan of hardening has for a day.
fn today_of(verdict: &Thing, today: Day) -> Option<&str> {
    let today = today.iso();
    let of = |row, name| verdict.in_row(HARDENING_KEPT, row, name);
    let rows = verdict.rows(HARDENING_KEPT);
    let row = rows.into_iter().find(|row| of(row, "day") == today)?;
    Some(of(row, "what"))
}
