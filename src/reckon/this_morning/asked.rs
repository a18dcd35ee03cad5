//! The record's question of a season, and its answer, with the things of the record that each is about.

use crate::measure::DecimalMark;
use crate::nursery::batch::{BatchHere, batches_here, crop_like};
use crate::nursery::{Day, Id, Record, Thing};
use crate::reckon::Reckoning;
use crate::reckon::form::in_list;
use crate::reckon::moving_on;
use crate::reckon::season::from_record::of_batches;
use crate::reckon::season::{
    Batch, BatchTold, Case, Detail, Question, Season, SownTold, own_warmth,
};

/// What the record asks, and the answer.
pub struct Asked<'a> {
    pub record: &'a Record,
    pub today: Day,
    pub question: Question,
    pub case: Case,
    pub detail: Detail,
    here: Vec<BatchHere>,
}

/// A sowing of the answer with the plan that asks it.
pub struct Planned<'a> {
    pub plan: &'a Thing,
    pub told: &'a SownTold,
}

/// A batch of the answer with what the record has of it.
pub struct Standing<'a> {
    pub here: &'a BatchHere,
    pub batch: &'a Batch,
    pub told: &'a BatchTold,
}

impl<'a> Asked<'a> {
    /// Of a record on a day; none where it asks nothing, or nothing that can be answered.
    pub fn of(record: &'a Record, today: Day) -> Option<Self> {
        let here = batches_here(record, today);
        let (question, case) = answerable(of_batches(record, &here, today)?)?;
        let detail = Season::answer(&case, None).ok()?.detail;
        Some(Self {
            record,
            today,
            question,
            case,
            detail,
            here,
        })
    }

    /// Whether a batch is ready to move, as the record asks it; none where nothing is known of when it is.
    pub fn moving_on(&self, batch: &BatchHere) -> Option<moving_on::Question> {
        let warmth = own_warmth(&self.case, crop_like(self.record, &batch.crop)?);
        moving_on::from_record::of_batch_among(self.record, batch, &self.here, self.today, warmth)
    }

    /// The sowings that plans ask.
    pub fn planned(&self) -> impl Iterator<Item = Planned<'_>> {
        self.detail.sown.iter().filter_map(|told| {
            let asked = self.question.sowings.get(told.row)?;
            let plan = self.record.get(Id::read(&asked.plan)?)?;
            Some(Planned { plan, told })
        })
    }

    /// The batches that are not gone.
    pub fn standing(&self) -> impl Iterator<Item = Standing<'_>> {
        let read = self.case.batches.iter().zip(&self.detail.batches);
        let all = self.question.batches.iter().zip(read);
        all.filter_map(|(asked, (batch, told))| {
            let id = Id::read(&asked.batch)?;
            let here = self.here.iter().find(|here| here.id == id)?;
            here.gone
                .is_none()
                .then_some(Standing { here, batch, told })
        })
    }
}

/// A question without the rows that cannot be read, and its case: one batch that was written down wrongly takes no other
/// with it. None where that is of no help.
fn answerable(mut question: Question) -> Option<(Question, Case)> {
    /// Each round takes out one row at the least.
    const ROUNDS: usize = 128;
    for _ in 0..ROUNDS {
        let problems = match Season::check(&question, DecimalMark::Ask) {
            Ok(case) => return Some((question, case)),
            Err(problems) => problems,
        };
        let mut rows: Vec<(bool, usize)> = problems
            .iter()
            .filter_map(|problem| {
                let row = |list| in_list(&problem.field, list).map(|(row, _)| row);
                row("sowings")
                    .map(|row| (true, row))
                    .or_else(|| row("batches").map(|row| (false, row)))
            })
            .collect();
        rows.sort_unstable();
        rows.dedup();
        if rows.is_empty() {
            // More sowings than are reckoned at once: those that come last can wait.
            question.sowings.pop()?;
        }
        for (of_sowings, row) in rows.into_iter().rev() {
            if of_sowings {
                (row < question.sowings.len()).then(|| question.sowings.remove(row));
            } else {
                (row < question.batches.len()).then(|| question.batches.remove(row));
            }
        }
        if question.sowings.is_empty() && question.batches.is_empty() {
            return None;
        }
    }
    None
}
