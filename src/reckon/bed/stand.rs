//! One kind of pot on its bed, ready to be stood in a tray for the flow of water to be solved.
//!
//! Under the pot water converges from as far aside as the bed is deep to the base; what bed lies beyond
//! stands in the same tray as a store of its own.

use std::sync::Arc;

use super::physics::{ACT_AT_CM, GIVE_UP_AT_CM, SPREADS, Scene, Tabled};
use super::question::Case;
use super::runs::HEIGHTS;
use crate::handbook::bed_media::{HOLE_MM, HOLES_SHARE};
use crate::measure::{Area, Duration, Length, Suction};
use crate::science::flow::{Contact, Foot, Joint, Layer, Roots, Station, Stress, Table, Top};

/// Distance of the heights solved for in a bed, mm.
const BED_SPACING_MM: f64 = 2.5;
/// What is left beside a foot that takes nearly all of the ground counts as its own: a factor on it.
const NEARLY_ALL: f64 = 1.05;
const L_PER_M3: f64 = 1000.0;

/// One kind of pot on a bed of a depth, ready to be stood in a tray.
pub struct Stand<'a> {
    case: &'a Case,
    scene: &'a Scene<'a>,
    depth: Length,
    ball: Arc<Table>,
    bed: Arc<Table>,
    in_ball: Box<dyn Fn(f64) -> f64>,
    stress: Stress,
}

impl<'a> Stand<'a> {
    /// With its mix on a curve, of drying or of wetting; none where that cannot be tabulated.
    pub fn new(
        case: &'a Case,
        scene: &'a Scene<'a>,
        depth: Length,
        mix: &Tabled,
        bed: &Arc<Table>,
    ) -> Option<Self> {
        let fill_m = case.mix.fill.in_metres();
        let rooted_from_m = depth.in_metres() + fill_m - case.rooted.in_metres();
        // Roots in the bed are as dense as in the ball by height, whatever the breadth of the bed.
        let mean_m2 = case.mix.vessel.volume_to(case.mix.fill).in_cubic_metres() / fill_m;
        let depth_m = depth.in_metres();
        let in_bed = if case.roots_in_bed {
            mean_m2 / foot_of(case, depth).in_square_metres()
        } else {
            0.0
        };
        let in_ball = move |height_m: f64| {
            if height_m < depth_m {
                in_bed
            } else {
                f64::from(u8::from(height_m >= rooted_from_m - 1e-9))
            }
        };
        let [free, wilted] = [ACT_AT_CM, GIVE_UP_AT_CM].map(Suction::from_centimetres_of_water);
        Some(Self {
            case,
            scene,
            depth,
            ball: Arc::new(Table::new(mix).ok()?),
            bed: Arc::clone(bed),
            in_ball: Box::new(in_ball),
            stress: Stress::of_thirst_alone(free, wilted).ok()?,
        })
    }

    fn laid(&self, low: Area, high: Area, footprint: Area) -> Layer {
        Layer {
            medium: Arc::clone(&self.bed),
            height: self.depth,
            base: low,
            top: high,
            footprint,
            spacing: Length::from_millimetres(BED_SPACING_MM),
            joint: Joint::Laid,
        }
    }

    /// Its stations at a place of the tray whose floor lies so high: the pot, then the bed beside it where
    /// that is a store of its own.
    pub fn stations(&self, floor: Length, count: f64) -> Vec<Station<'_>> {
        let case = self.case;
        let vessel = &case.mix.vessel;
        let fill = case.mix.fill;
        let nought = Length::from_metres(0.0);
        let base = least(vessel.base_area(), case.ground);
        let foot = foot_of(case, self.depth);
        let beside = case.whole_tray && self.depth > nought && foot < case.ground;
        let ground = if beside { foot } else { case.ground };
        let mut layers = Vec::new();
        let mut joint = Joint::Laid;
        if self.depth > nought {
            layers.push(self.laid(foot, base, foot));
            if !case.bedded {
                let share = HOLES_SHARE.range.best();
                joint = Joint::Contact(Contact::holes(share, Length::from_millimetres(HOLE_MM)));
            }
        }
        layers.push(Layer {
            medium: Arc::clone(&self.ball),
            height: fill,
            base,
            top: vessel.area_at(fill),
            footprint: base,
            spacing: fill * (1.0 / HEIGHTS as f64),
            joint,
        });
        let day_s = Duration::from_days(1.0).in_seconds();
        let mut stations = vec![Station {
            layers,
            roots: Some(Roots {
                stress: self.stress,
                density: &self.in_ball,
                demand_m3_per_s: self.scene.demand_litres / L_PER_M3 / day_s,
            }),
            foot: Foot::Tray,
            top: Top::Open,
            ground,
            floor,
            count,
        }];
        if beside {
            let low = case.ground - foot;
            stations.push(Station {
                layers: vec![self.laid(low, low, low)],
                roots: None,
                foot: Foot::Tray,
                top: Top::Open,
                ground: low,
                floor,
                count,
            });
        }
        stations
    }
}

fn least(one: Area, other: Area) -> Area {
    if one > other { other } else { one }
}

/// The part of the bed through which water comes to a pot: under it, it converges to its base; further
/// out the bed only stores.
fn foot_of(case: &Case, depth: Length) -> Area {
    let vessel = &case.mix.vessel;
    if !case.whole_tray {
        return least(vessel.base_area(), case.ground);
    }
    let spread = vessel.base_spread_by(depth * SPREADS);
    if spread * NEARLY_ALL < case.ground {
        spread
    } else {
        case.ground
    }
}
