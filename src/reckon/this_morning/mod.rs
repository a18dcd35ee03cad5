//! This morning: what is due to be covered, sown, potted, bought and written down, in the order of what is lost if it is
//! left.
//!
//! It is no reckoning with a question of its own: the record asks, by way of [`Season`](super::season::Season), and what comes of that is held
//! against the day.
//!
//! * `asked`: the record's question, and its answer.
//! * `batches`: what batches that stand want.
//! * `moves`: what was settled about a batch that is to move: hardening, the day itself, how it went.
//! * `nights`: what a cold night would harm, tonight and in the week to come.
//! * `plans`: what is to be sown, and bought for it.
//! * `writing`: what is to be written down.
//! * `words`: the sentences.

mod asked;
mod batches;
mod moves;
mod nights;
mod plans;
mod words;
mod writing;

use asked::Asked;

use crate::nursery::{Day, Id, Record, Texts};
use crate::reckon::moving_on;

/// A thing that is due.
#[derive(Clone, Debug, PartialEq)]
pub struct Due {
    /// What it is.
    pub what: What,
    /// The thing of the record that it is about.
    pub about: Option<Id>,
    /// The day from which it is due.
    pub from: Day,
    /// What to do, in a sentence.
    pub sentence: String,
    /// What is lost if it is left, in a sentence.
    pub left: String,
    /// The page that it opens.
    pub opens: Opens,
    /// What is written into the record once it is done; none where it is not done with one tap.
    pub done: Option<Done>,
    /// Plants, or what is worth as much, that are lost for each day that it is left.
    pub loses: f64,
}

/// What is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum What {
    /// Tender plants where the night will be too cold.
    Cover,
    /// A plan whose day has come.
    Sow,
    /// A batch whose seed should be up.
    LookWhetherUp,
    /// A batch to be potted, or to be moved where it was sown into its pots.
    Pot,
    /// A batch that is ready to be cut or sold.
    Ready,
    /// A batch to be looked over, whether it is ready to move.
    LookOver,
    /// A day of hardening.
    Harden,
    /// A batch whose best day to move has come.
    Move,
    /// How a batch has gone since it moved.
    HowItWent,
    /// Nights of the week to come that may be too cold for what stands somewhere.
    ColdWeek,
    /// Something to be bought for what is sown soon.
    Buy,
    /// Minimum and maximum of a place.
    ReadNight,
}

impl What {
    /// Its stable name, for the page.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Cover => "cover",
            Self::Sow => "sow",
            Self::LookWhetherUp => "look",
            Self::Pot => "pot",
            Self::Ready => "ready",
            Self::LookOver => "look_over",
            Self::Harden => "harden",
            Self::Move => "move",
            Self::HowItWent => "how_it_went",
            Self::ColdWeek => "cold_week",
            Self::Buy => "buy",
            Self::ReadNight => "read",
        }
    }

    /// Share of what it is about that is lost for each day that it is left. Judgements, and only for an order: a night too
    /// cold takes half of what is tender; young plants past their time in cells are checked, and what is ready goes over;
    /// a day late in sowing is a day of a season of sixty.
    const fn lost_in_a_day(self) -> f64 {
        match self {
            Self::Cover => 0.5,
            Self::Pot | Self::Move => 0.03,
            Self::ColdWeek => 0.04,
            Self::Harden => 0.015,
            Self::LookOver => 0.01,
            Self::Ready => 0.02,
            Self::Sow => 1.0 / 60.0,
            Self::Buy => 1.0 / 90.0,
            Self::LookWhetherUp => 0.005,
            Self::ReadNight | Self::HowItWent => 0.0,
        }
    }
}

/// What a due thing opens.
#[derive(Clone, Debug, PartialEq)]
pub enum Opens {
    /// A new thing of a kind, with what is known of it.
    New(&'static str, Texts),
    /// The day book.
    DayBook,
    /// Whether a batch is ready to move, with all that the record knows of it.
    MovingOn(Box<moving_on::Question>),
}

/// What is written once something is done: the kind of a thing, and its texts.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// The kind.
    pub kind: &'static str,
    /// Its texts.
    pub texts: Texts,
}

/// All that is due.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Morning {
    /// What is due today or was before, what is lost most by it first.
    pub due: Vec<Due>,
    /// What is due in the next days, by the day.
    pub soon: Vec<Due>,
}

/// Days that are looked ahead.
pub const AHEAD: i32 = 7;

/// What is due on a day.
#[must_use]
pub fn this_morning(record: &Record, today: Day) -> Morning {
    let asked = Asked::of(record, today);
    let mut all = Vec::new();
    if let Some(asked) = &asked {
        plans::due(asked, &mut all);
        batches::due(asked, &mut all);
        nights::due(asked, &mut all);
    }
    writing::due(record, today, &mut all);
    let (mut due, mut soon): (Vec<Due>, Vec<Due>) = all
        .into_iter()
        .filter(|due| due.from <= today.plus(AHEAD))
        .partition(|due| due.from <= today);
    due.sort_by(|one, other| {
        other
            .loses
            .total_cmp(&one.loses)
            .then(one.from.cmp(&other.from))
    });
    soon.sort_by(|one, other| {
        one.from
            .cmp(&other.from)
            .then(other.loses.total_cmp(&one.loses))
    });
    Morning { due, soon }
}
