//! Whether what is set down dry is wetted from below, and how soon: the flow of water solved with the
//! level held and nothing drunk.

use std::sync::Arc;

use super::physics::{GIVE_UP_AT_CM, Tray};
use super::question::Case;
use super::runs::Stand;
use crate::measure::{Duration, Length};
use crate::science::flow::{Filling, Flow, Steps, Table, Weather};

/// How long wetting takes, h; none where it has not come about within [`LONGEST_H`].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Soaks {
    /// A dry pot on a dry bed.
    pub all_dry_h: Option<f64>,
    /// A dry pot on a bed that was wetted from above.
    pub pot_dry_h: Option<f64>,
}

/// What is not wet by then is not waited for, h.
pub const LONGEST_H: f64 = 48.0;
/// A ball is wetted once it has taken up so much of what it takes up in the end. A judgement.
const WETTED: f64 = 0.8;
/// Suction of a bed that has dried in the air of the house, cm: its gaps and most of its pores are
/// empty. A judgement.
const DRY_BED_CM: f64 = 1000.0;
const CM_PER_M: f64 = 100.0;
/// Where it has not come about.
const NEVER: f64 = -1.0;

impl Soaks {
    /// Numbers of it.
    const MANY: usize = 2;

    /// For the pot asked about on a bed of a depth.
    pub fn find(case: &Case, tray: &Tray<'_>, depth: Length) -> Self {
        Self {
            all_dry_h: hours(case, tray, depth, true),
            pot_dry_h: hours(case, tray, depth, false),
        }
    }

    /// As numbers, for another thread.
    pub fn put(&self, into: &mut Vec<f64>) {
        into.extend([self.all_dry_h, self.pot_dry_h].map(|hours| hours.unwrap_or(NEVER)));
    }

    /// From such numbers, with those that follow; none where they are too few.
    pub fn take(numbers: &[f64]) -> Option<(Self, &[f64])> {
        let ([all_dry_h, pot_dry_h], rest) = numbers.split_first_chunk::<{ Self::MANY }>()?;
        let read = |hours: f64| (hours >= 0.0).then_some(hours);
        let found = Self {
            all_dry_h: read(*all_dry_h),
            pot_dry_h: read(*pot_dry_h),
        };
        Some((found, rest))
    }
}

/// Hours until the ball is wetted.
fn hours(case: &Case, tray: &Tray<'_>, depth: Length, bed_dry: bool) -> Option<f64> {
    /// Its water is looked at so often, h.
    const EVERY_H: f64 = 0.25;
    let scene = tray.first().ok()?;
    let bed = Arc::new(Table::new(&scene.bed_curves).ok()?);
    let stand = Stand::new(case, scene, depth, &bed)?.rewetted()?;
    let stations = stand.stations(Length::from_metres(0.0), 1.0);
    let (level_m, depth_m) = (case.level.in_metres(), depth.in_metres());
    let start = |_: usize, z_m: f64| {
        if z_m >= depth_m {
            -GIVE_UP_AT_CM / CM_PER_M
        } else if bed_dry {
            -DRY_BED_CM / CM_PER_M
        } else {
            level_m - z_m
        }
    };
    let mut flow = Flow::new(&stations, Filling::Held { level_m }, level_m, &start).ok()?;
    let top_m = depth_m + case.mix.fill.in_metres();
    let water = |flow: &Flow| flow.water_between(0, depth_m, top_m).0;
    let curve = scene.rewetted();
    let in_the_end = case
        .mix
        .vessel
        .mean_over(case.mix.fill, case.level - depth, |suction_cm| {
            curve.water(suction_cm)
        })
        * case.mix.vessel.volume_to(case.mix.fill).in_cubic_metres();
    let at_first = water(&flow);
    let wanted = at_first + WETTED * (in_the_end - at_first);
    let mut hours = 0.0;
    while water(&flow) < wanted {
        hours += EVERY_H;
        if hours > LONGEST_H {
            return None;
        }
        let until_s = Duration::from_hours(hours).in_seconds();
        flow.run(until_s, &Weather::still(), &Steps::default(), &mut |_| {})
            .ok()?;
    }
    Some(hours)
}
