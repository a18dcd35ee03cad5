//! What Moving on takes from the record, and keeps there: a batch, the verdict on it, and how its last move went.

use super::{Acts, Keeps, Kept, Side, answered, asked};
use crate::app::record::Ledger;
use crate::app::route::{self, Page};
use crate::handbook::crops::crop;
use crate::keep::address;
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Id, Record, Texts, Thing};
use crate::reckon::Reckoning;
use crate::reckon::form::{in_list, texts};
use crate::reckon::moving_on::{
    BEST_DAY_KEPT, CHECKED, HARDENING_KEPT, HARMED, MovingOn, Question, SAID_KEPT, SLOWLY,
    STAGE_KEPT, WELL, card_texts, from_record, seen_kept,
};

pub const SIDE: Side = Side {
    takes: &[("batch", "Your batches")],
    fits: stands,
    keeps: Keeps::Alone("Write the verdict to the batch"),
    take,
    keep: |ledger, _| keep(ledger),
    acts,
    act,
    ..Side::EMPTY
};

/// How a move went: what is kept, and the words of its button.
const WENT: [(&str, &str); 5] = [
    (WELL, "It grew on"),
    (SLOWLY, "It stood still"),
    (CHECKED, "Its growth was checked"),
    (HARMED, "Cold harmed it"),
    ("lost", "It was lost"),
];

/// Whether a batch still stands somewhere.
fn stands(record: &Record, batch: &Thing, today: Day) -> bool {
    record
        .stages_of(batch.id, today)
        .all(|log| log.text("what") != "ended")
}

fn take(ledger: Ledger, batch: Id) -> bool {
    let question = ledger.read(|record| from_record::of_batch(record, batch, ledger.today()));
    let Some(mut question) = question else {
        return false;
    };
    route::go(&route::asked(Page::MovingOn, &mut question));
    true
}

/// The batch that is asked about, where it is of the record.
fn batch_asked(record: &Record, question: &Question) -> Option<Id> {
    let batch = Id::read(&question.batch)?;
    record
        .get(batch)
        .is_some_and(|batch| batch.kind == "batch" && !batch.gone)
        .then_some(batch)
}

/// Writes the verdict to the batch, with the question it answers.
fn keep(ledger: Ledger) -> Kept {
    let mut question = asked::<Question>();
    let Some(batch) = ledger.read(|record| batch_asked(record, &question)) else {
        return Kept::told("Choose a batch of your nursery first: it is written to that.");
    };
    let Some(answer) = answered::read() else {
        return Kept::wait();
    };
    let of = |what: &str| answered::text(&answer, what);
    let today = Day::read(&question.today).unwrap_or_else(|_| ledger.today());
    let asked = texts(&mut question);
    let mut verdict = Texts::default()
        .with(DAY, &today.iso())
        .with("batch", &batch.text())
        .with("by", MovingOn::NAME)
        .with("said", of(SAID_KEPT))
        .with("stage", of(STAGE_KEPT))
        .with("best_day", of(BEST_DAY_KEPT))
        .with("to", &question.to)
        .with("question", &address::write(&asked));
    let steps = answer
        .iter()
        .filter(|(path, _)| in_list(path, HARDENING_KEPT).is_some());
    for (path, text) in steps.chain(&seen_kept(&asked)) {
        verdict.set(path, text);
    }
    let Some(entry) = ledger.add("verdict", verdict) else {
        return Kept::not();
    };
    let mut entries = vec![entry];
    entries.extend(keep_card(ledger, &question));
    Kept {
        told: "Written to the batch. What is to be done until it moves stands under This morning."
            .to_owned(),
        entries,
    }
}

/// Keeps a card of one's own for the crop, where it is not kept so already.
fn keep_card(ledger: Ledger, question: &Question) -> Option<Id> {
    let points = card_texts(&question.card);
    let crop = crop(&question.crop)?;
    let kept = ledger.read(|record| {
        let card = from_record::card_of(record, crop.key)?;
        Some((card.id, card.text("points").to_owned()))
    });
    match kept {
        _ if points.is_empty() => None,
        Some((_, known)) if known == points => None,
        Some((card, _)) => ledger.change(card, &[("points", &points)]),
        None => {
            let card = Texts::default()
                .with("name", &["Card of ", crop.name].concat())
                .with("crop", crop.key)
                .with("points", &points);
            ledger.add("card", card)
        }
    }
}

/// What is asked of the last move of the batch.
fn acts(record: &Record, today: Day) -> Option<Acts> {
    let batch = batch_asked(record, &asked::<Question>())?;
    let moved = from_record::to_be_judged(record, batch, today)?;
    Some(Acts {
        heading: ["How has it gone since it moved on ", &moved.in_words(), "?"].concat(),
        buttons: WENT.to_vec(),
    })
}

fn act(ledger: Ledger, went: &str) -> Kept {
    let today = ledger.today();
    let outcome = ledger.read(|record| {
        let batch = batch_asked(record, &asked::<Question>())?;
        let verdict = from_record::last_verdict(record, batch, today);
        Some(
            Texts::default()
                .with(DAY, &today.iso())
                .with("batch", &batch.text())
                .with(
                    "verdict",
                    &verdict.map_or_else(String::new, |verdict| verdict.id.text()),
                )
                .with("went", went),
        )
    });
    match outcome.and_then(|outcome| ledger.add("outcome", outcome)) {
        Some(entry) => Kept {
            told: "Written down. It counts when the next batch of this crop is asked about."
                .to_owned(),
            entries: vec![entry],
        },
        None => Kept::not(),
    }
}
