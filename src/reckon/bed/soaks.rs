//! Whether what is set down dry is wetted from below, and how soon: the flow of water solved with the
//! level held and nothing drunk.

use std::sync::Arc;

use super::physics::{GIVE_UP_AT_CM, Tray};
use super::question::Case;
use super::stand::Stand;
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
        Soaking::begin(case, tray, depth).map_or_else(Self::default, |mut soaking| Self {
            all_dry_h: soaking.hours(true),
            pot_dry_h: soaking.hours(false),
        })
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

/// A pot on its bed in a tray held full, to be begun dry.
struct Soaking {
    flow: Flow,
    level_m: f64,
    depth_m: f64,
    top_m: f64,
    /// Water of the ball in the end, m³.
    in_the_end_m3: f64,
}

impl Soaking {
    fn begin(case: &Case, tray: &Tray<'_>, depth: Length) -> Option<Self> {
        let scene = tray.first().ok()?;
        let bed = Arc::new(Table::new(&scene.bed_curves).ok()?);
        let wetting = scene.rewetted();
        let stand = Stand::new(case, scene, depth, &wetting, &bed)?;
        let stations = stand.stations(Length::from_metres(0.0), 1.0);
        let (vessel, fill) = (&case.mix.vessel, case.mix.fill);
        let level_m = case.level.in_metres();
        let filling = Filling::Held { level_m };
        let share = vessel.mean_over(fill, case.level - depth, |s| wetting.water(s));
        let depth_m = depth.in_metres();
        Some(Self {
            flow: Flow::new(&stations, filling, level_m, &|_, z_m| level_m - z_m).ok()?,
            level_m,
            depth_m,
            top_m: depth_m + fill.in_metres(),
            in_the_end_m3: share * vessel.volume_to(fill).in_cubic_metres(),
        })
    }

    fn water_m3(&self) -> f64 {
        self.flow.water_between(0, self.depth_m, self.top_m).0
    }

    /// Hours until a dry ball is wetted.
    fn hours(&mut self, bed_dry: bool) -> Option<f64> {
        /// Its water is looked at so often, h.
        const EVERY_H: f64 = 0.25;
        let (level_m, depth_m) = (self.level_m, self.depth_m);
        let start = |_: usize, z_m: f64| {
            if z_m >= depth_m {
                -GIVE_UP_AT_CM / CM_PER_M
            } else if bed_dry {
                -DRY_BED_CM / CM_PER_M
            } else {
                level_m - z_m
            }
        };
        self.flow.begin(level_m, &start).ok()?;
        let at_first = self.water_m3();
        let wanted = at_first + WETTED * (self.in_the_end_m3 - at_first);
        let mut hours = 0.0;
        while self.water_m3() < wanted {
            hours += EVERY_H;
            if hours > LONGEST_H {
                return None;
            }
            let until_s = Duration::from_hours(hours).in_seconds();
            self.flow
                .run(until_s, &Weather::still(), &Steps::default(), &mut |_| {})
                .ok()?;
        }
        Some(hours)
    }
}
