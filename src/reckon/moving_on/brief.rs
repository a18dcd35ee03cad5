//! How a batch stands in brief, for whoever asks of all that stand at once.

use super::case::Case;
use super::days::Run;
use super::inputs::Inputs;
use super::nights::{DAYS, Nights};
use super::ready::{Stage, card, stage};
use crate::nursery::Day;
use crate::reckon::Problem;

/// How a batch stands, at the best figures alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Brief {
    /// What it comes to.
    pub stage: Stage,
    /// Days from today until it is ready, below nought where it is; none where it is not for two months.
    pub ready_in: Option<f64>,
    /// Weeks that count towards the check of its growth, today.
    pub weeks: f64,
    /// Whether its growth is checked already.
    pub checked: bool,
    /// The best day to move; none where none of the coming three weeks is.
    pub best_day: Option<Day>,
    /// The chance that the 7 nights from today on all stay above the limit.
    pub chance_7: f64,
}

/// How a batch stands, without ranges, in a few hundredths of the time of an answer.
///
/// The days, the weeks and the best day are those of the answer. The chance of the nights comes of few paths, which
/// go no further than these nights: it lies within 0.01 of the answer's. The stage is the answer's but where that chance
/// is so near the one from which nights are called likely to serve, 0.8, that the two lie on either side of it.
///
/// # Errors
/// Where too little is known of the crop, or the nights come to nothing.
pub fn in_brief(case: &Case) -> Result<Brief, Problem> {
    let nights = Nights::of(case)?;
    let inputs = Inputs::best(case)?;
    let run = Run::of(case, &inputs, &nights);
    let chance_7 = nights.chance_soon(inputs.limit_c);
    Ok(Brief {
        stage: stage(&run, &card(case, &run, chance_7)),
        ready_in: run.ready_in,
        weeks: run.weeks,
        checked: run.checked,
        best_day: (run.best < DAYS).then(|| case.today.plus(run.best as i32)),
        chance_7,
    })
}
