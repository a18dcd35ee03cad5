//! What one's own moves of before tell of a crop: how cold its nights may be.
//!
//! Each move into cold after which the nights were read is a trial of two limits: that of harm, and that below which it
//! stands still. They draw the handbook's towards one's own, by [`limit`].

use crate::handbook::Figure;
use crate::handbook::crops::{Crop, Property};
use crate::measure::{LIMITS_APART, Range};
use crate::science::harm_limit::{Before, Trial, limit};

/// How a move of before went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Went {
    /// It grew on.
    Well,
    /// It stood still for a while.
    Slowly,
    /// Its growth was checked.
    Checked,
    /// Cold harmed it.
    Harmed,
}

/// A move of before.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Earlier {
    /// The coldest night after it, °C.
    pub low_c: f64,
    /// How it went.
    pub went: Went,
}

/// What one's own moves tell.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Own {
    /// The night minimum that a move asks for, °C.
    pub night_c: Option<Range<f64>>,
    /// That below which the leaves are harmed, °C.
    pub chilled_c: Option<Range<f64>>,
}

/// Half of what the handbook leaves open is between one grower and the next, half from move to move. A judgement.
const BETWEEN_GROWERS: f64 = 0.5;
/// The plants were so much warmer or colder than the thermometer, K: a standard deviation. A judgement.
const READ_OFF_K: f64 = 1.0;

/// What moves of before tell of a crop; nothing where there are none.
pub fn found(crop: &Crop, earlier: &[Earlier]) -> Own {
    if earlier.is_empty() {
        return Own::default();
    }
    let by = |property: Property, harms: &dyn Fn(Went) -> bool| {
        let trials: Vec<Trial> = earlier
            .iter()
            .map(|earlier| Trial {
                reached: earlier.low_c,
                harmed: harms(earlier.went),
            })
            .collect();
        crop.figure(property)
            .and_then(|figure| drawn(&figure, &trials))
    };
    Own {
        night_c: by(Property::NightForColdHouse, &|went| went != Went::Well),
        chilled_c: by(Property::ChillingLimit, &|went| {
            matches!(went, Went::Checked | Went::Harmed)
        }),
    }
}

/// A limit of the handbook as trials have it, as lopsided as before; none where the handbook leaves nothing open.
fn drawn(figure: &Figure, trials: &[Trial]) -> Option<Range<f64>> {
    let range = figure.range;
    let open = (range.high() - range.low()) / LIMITS_APART;
    if open <= 0.0 {
        return None;
    }
    let from_move_to_move = open * (1.0 - BETWEEN_GROWERS).sqrt();
    let before = Before {
        mean: range.best(),
        spread: open * BETWEEN_GROWERS.sqrt(),
        scatter: from_move_to_move.hypot(READ_OFF_K),
    };
    let found = limit(&before, trials);
    let narrower = found.spread.hypot(from_move_to_move) / open;
    Range::new(
        found.mean - narrower * (range.best() - range.low()),
        found.mean,
        found.mean + narrower * (range.high() - range.best()),
    )
    .ok()
}
