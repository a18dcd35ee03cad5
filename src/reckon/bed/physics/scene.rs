//! Bed, ball and demand of one kind of pot, ready for any depth.

use super::super::question::{Case, Demand, Fills};
use super::curves::{BedCurves, Climb, Tabled};
use super::depth::{AtDepth, Wrong};
use super::inputs::Inputs;
use super::thirst::{MEAN_PLACE, SPREAD_MANY, TIMES_MANY, TIMES_RATIO, share_at, times};
use super::{ACT_AT_CM, GIVE_UP_AT_CM, LOSS_AT_CM, SPREADS};
use crate::handbook::bed_media::{HOLE_MM, MIX_REWETS};
use crate::handbook::surface_salt::{FLUSH_AT_TIMES, TOP_CM};
use crate::measure::Length;
use crate::reckon::answer::Verdict;
use crate::reckon::mix::{self, Mixed};
use crate::science::surface_salt::{days_to, multiple_after, steady_multiple};

const ML_PER_L: f64 = 1000.0;
const MM_PER_CM: f64 = 10.0;

/// A suction told for a link that has broken, cm: as dry as it matters.
const BROKEN_CM: f64 = 1000.0;
/// Levels at which an emptying tray is looked at.
const LEVELS: usize = 4;
/// A multiple so small that nothing comes up.
const NOTHING: f64 = 1e-3;

/// Bed, ball and demand, ready for any depth.
pub struct Scene<'a> {
    case: &'a Case,
    /// The mix, weighed and packed.
    pub mixed: Mixed,
    /// The mix's curves.
    pub ball: Tabled,
    /// The bed's curves.
    pub bed: Tabled,
    /// The bed's curves themselves.
    pub bed_curves: BedCurves,
    /// What a plant drinks on the day, L.
    pub demand_litres: f64,
    /// What the day evaporates from a wet surface, mm.
    pub evaporates_mm_per_d: f64,
    salt_cm2_per_d: f64,
    mix_cm_per_d: f64,
    bed_wet_g_per_l: f64,
    bed_settled: f64,
    holes: f64,
    /// For the multiples of the day's mean, after [`SPREAD_MANY`] that are smaller.
    climbs: Vec<Climb>,
    mean_flux_cm_per_d: f64,
}

/// What is carried up.
#[derive(Clone, Copy)]
struct Carried {
    /// The most, as a multiple of the day's mean, with mid-pot at 30 and at 60 cm of suction.
    times: [f64; 2],
    /// Suction at mid-pot with the day's mean drunk, cm.
    mean_suction_cm: f64,
}

impl<'a> Scene<'a> {
    /// The scene of one of the kinds of pot, by its place among them; none where figures far out make no
    /// curve.
    pub fn new(case: &'a Case, inputs: &Inputs, which: usize) -> Option<Self> {
        let mixed = mix::mixed(&case.mix, &inputs.mix);
        let ball = Tabled::of_mix(&mixed, inputs.mix_cm_per_d, inputs.mix_ratio);
        let bed_curves = BedCurves::new(inputs)?;
        let bed = Tabled::of(&bed_curves);
        let demand_litres = inputs.weather * a_mean_day_litres(case, inputs, which);
        let base_cm2 = case.mix.vessel.base_area().in_square_centimetres();
        let mean = demand_litres * ML_PER_L / base_cm2;
        let mut conductivities = bed.conductivities();
        if case.plugs > 0.0 {
            // Plugs of the mix run beside the bed's own grains.
            for (place, conducts) in conductivities.iter_mut().enumerate() {
                *conducts += case.plugs * ball.cm_per_d(Tabled::suction_cm(place));
            }
        }
        let climbs = (0..SPREAD_MANY + TIMES_MANY)
            .map(|place| {
                Climb::new(
                    &conductivities,
                    mean * times(place) / TIMES_RATIO.powi(SPREAD_MANY as i32),
                )
            })
            .collect();
        Some(Self {
            case,
            demand_litres,
            evaporates_mm_per_d: inputs.evaporates_mm_per_d,
            salt_cm2_per_d: inputs.salt_cm2_per_d,
            mix_cm_per_d: inputs.mix_cm_per_d,
            mean_flux_cm_per_d: mean,
            bed_wet_g_per_l: inputs.loose_g_per_l / (1.0 - inputs.settles)
                + bed_curves.held() * ML_PER_L,
            bed_settled: 1.0 - inputs.settles,
            holes: inputs.holes,
            climbs,
            mixed,
            ball,
            bed,
            bed_curves,
        })
    }

    /// The mix's curve of wetting, at the best figures of how far it lies from that of drying.
    pub fn rewetted(&self) -> Tabled {
        Tabled::of_mix(&self.mixed, self.mix_cm_per_d, MIX_REWETS.range.best())
    }

    /// Height to which the bed lifts what the plant drinks over the day with its top at 60 cm of
    /// suction, cm.
    pub fn breaks_at_cm(&self) -> f64 {
        Climb::new(&self.bed.conductivities(), self.mean_flux_cm_per_d).height_to(LOSS_AT_CM)
    }

    fn water_over(&self, fill: Length, level_cm: f64) -> f64 {
        let level = Length::from_centimetres(level_cm);
        let vessel = &self.case.mix.vessel;
        vessel.mean_over(fill, level, |suction_cm| {
            if suction_cm <= 0.0 {
                self.ball.full()
            } else {
                self.ball.water(suction_cm)
            }
        })
    }

    fn air_over(&self, fill: Length, level_cm: f64) -> f64 {
        (self.ball.full() - self.water_over(fill, level_cm)).max(0.0)
    }

    /// Suction in the middle of the roots where a flux comes in at the foot at a suction, rises through
    /// what has no roots and is then drunk evenly on the way up, cm.
    fn mid_suction_cm(&self, foot_cm: f64, flux_cm_per_d: f64) -> f64 {
        /// Steps from the foot to the middle.
        const STEPS: usize = 24;
        let rooted = self.case.rooted.in_centimetres();
        let bare = (self.case.mix.fill.in_centimetres() - rooted).max(0.0);
        let step = (bare + 0.5 * rooted) / STEPS as f64;
        let mut s = foot_cm;
        if !self.case.bedded {
            s += self.lost_at_holes_cm(s, flux_cm_per_d);
        }
        for place in 0..STEPS {
            let height = (place as f64 + 0.5) * step;
            let left = 1.0 - (height - bare).max(0.0) / rooted;
            s += step * (1.0 + left * flux_cm_per_d / self.ball.cm_per_d(s));
            if s > BROKEN_CM {
                return BROKEN_CM;
            }
        }
        s
    }

    /// How far the middle of the roots lies above the base, cm.
    fn roots_middle_cm(&self) -> f64 {
        self.case.mix.fill.in_centimetres() - 0.5 * self.case.rooted.in_centimetres()
    }

    /// The share of what the plant drinks that goes through the base of the pot: the rest is drunk by
    /// roots in the bed, which are taken to be as dense as in the ball. A judgement.
    fn through_the_base(&self, depth_cm: f64) -> f64 {
        let rooted = self.case.rooted.in_centimetres();
        if self.case.roots_in_bed {
            rooted / (rooted + depth_cm)
        } else {
            1.0
        }
    }

    /// Suction lost where water squeezes together to the holes of the base and apart again, cm
    /// (see [`Contact`](crate::science::flow::Contact)).
    fn lost_at_holes_cm(&self, suction_cm: f64, flux_cm_per_d: f64) -> f64 {
        let path_cm = std::f64::consts::FRAC_PI_8 * HOLE_MM / MM_PER_CM;
        let through = flux_cm_per_d * path_cm / self.holes;
        let bed = through / self.bed.cm_per_d(suction_cm);
        (bed + through / self.ball.cm_per_d(suction_cm + bed.min(BROKEN_CM))).min(BROKEN_CM)
    }

    /// Water of one filling beside and within the bed for one pot, L, on a bed of a depth: what is let in
    /// between an empty tray and a full one. A bed of fine grains stays full above its water, so that
    /// little goes in.
    fn fill_beside_the_ball_litres(&self, depth_cm: f64) -> f64 {
        /// Slices of the bed.
        const SLICES: usize = 24;
        let case = self.case;
        let ground = case.ground.in_square_centimetres();
        let pot = case
            .mix
            .vessel
            .base_area()
            .in_square_centimetres()
            .min(ground);
        let level = case.level.in_centimetres();
        let bed_area = if case.whole_tray { ground } else { pot };
        let slice = depth_cm / SLICES as f64;
        let taken_in: f64 = (0..SLICES)
            .map(|place| {
                let height = slice * (place as f64 + 0.5);
                let full = self.bed.water((height - level).max(0.0));
                slice * (full - self.bed.water(height)).max(0.0)
            })
            .sum();
        let below = level.min(depth_cm) * (ground - bed_area) + bed_area * taken_in;
        let above = (level - depth_cm).max(0.0) * (ground - pot);
        // The end that lies high holds less: on the mean half of the slope is missing.
        let sloped = 1.0 - 0.5 * case.slope.in_centimetres() / level;
        (below + above) * sloped / ML_PER_L
    }

    /// Steps of [`TIMES_RATIO`] by which the flux is thinner in the bed than through the base of the pot:
    /// ∫ dz/A over a frustum is its length over the geometric mean of its ends.
    fn steps_thinner(&self, depth: Length) -> usize {
        let case = self.case;
        if !case.whole_tray {
            return 0;
        }
        let base = case.mix.vessel.base_area().in_square_centimetres();
        let foot = case
            .mix
            .vessel
            .base_spread_by(depth * SPREADS)
            .in_square_centimetres();
        let thinner = (foot.min(case.ground.in_square_centimetres()) / base).sqrt();
        (thinner.max(1.0).ln() / TIMES_RATIO.ln()).round() as usize
    }

    /// What is carried to a ball that stands so far above the water, on a bed of a depth.
    fn carried(&self, depth_cm: f64, lift_cm: f64) -> Carried {
        let mut found = Carried {
            times: [0.0; 2],
            mean_suction_cm: BROKEN_CM,
        };
        let spread = SPREAD_MANY
            - self
                .steps_thinner(Length::from_centimetres(depth_cm))
                .min(SPREAD_MANY);
        let climbs = self
            .climbs
            .get(spread..spread + TIMES_MANY)
            .unwrap_or_default();
        // More drawn never stands at less suction, so the most that is carried is found by halving.
        let reached = climbs.partition_point(|climb| climb.suction_at(lift_cm).is_some());
        let base = self.through_the_base(depth_cm);
        let mid_at = |place: usize| {
            let foot = climbs
                .get(place)
                .and_then(|climb| climb.suction_at(lift_cm));
            let flux = self.mean_flux_cm_per_d * times(place) * base;
            foot.map_or(BROKEN_CM, |foot| self.mid_suction_cm(foot, flux))
        };
        let mut most = reached;
        for (carried, limit) in found.times.iter_mut().zip([ACT_AT_CM, LOSS_AT_CM]).rev() {
            most = first_beyond(most, |place| mid_at(place) > limit);
            if most > 0 {
                *carried = times(most - 1);
            }
        }
        if let Some(last) = MEAN_PLACE.min(reached).checked_sub(1) {
            found.mean_suction_cm = mid_at(last);
        }
        // A multiple below one at which the link holds says nothing of the mean itself.
        if found.times[1] < 1.0 / TIMES_RATIO {
            found.mean_suction_cm = found.mean_suction_cm.max(LOSS_AT_CM);
        }
        found
    }

    /// Water that evaporates beside the plant in a day for one pot, L: from the top of the mix, the bed
    /// and the water between pots, as far as it lies open.
    pub fn evaporated_litres(&self) -> f64 {
        let case = self.case;
        let vessel = &case.mix.vessel;
        let ground = case.ground.in_square_centimetres();
        let beside = (ground - vessel.base_area().in_square_centimetres()).max(0.0);
        let open = vessel.area_at(case.mix.fill).in_square_centimetres() + beside;
        open * self.evaporates_mm_per_d / MM_PER_CM / ML_PER_L
    }

    /// Water of one filling that falls to one pot, L: beside it, in the bed and in the ball.
    pub fn fill_litres(&self, depth: Length) -> f64 {
        let (d, fill) = (depth.in_centimetres(), self.case.mix.fill);
        let level = self.case.level.in_centimetres();
        let into_the_ball = (self.air_over(fill, -d) - self.air_over(fill, level - d)).max(0.0);
        self.fill_beside_the_ball_litres(d) + into_the_ball * self.mixed.litres_in_pot
    }

    /// What comes of a depth, with the tray refilled so often in a day, and of one filling so much for a
    /// pot, L.
    pub fn at_depth(&self, depth: Length, refills: f64, fill_litres: f64) -> AtDepth {
        let case = self.case;
        let (d, fill) = (depth.in_centimetres(), case.mix.fill);
        let level = case.level.in_centimetres();
        let full_above = level - d;
        let air_full = self.air_over(fill, full_above);
        // In a tray that is shared a pot has its share of each filling by what it drinks.
        let of_a_filling = (self.demand_litres + self.evaporated_litres()) / refills.max(NOTHING);
        let enough_in_a_day = case.fills != Fills::Daily || refills <= 1.0;
        let emptiest = match case.fills {
            Fills::WhenEmpty => 0.0,
            Fills::Held => level,
            Fills::Daily => level * (1.0 - refills).max(0.0),
        };
        let third = fill * (1.0 / 3.0);
        // The end of the tray that lies high is the driest.
        let lift = d + case.slope.in_centimetres() - emptiest;
        let at_emptiest = self.carried(d, lift);
        let mean_suction = at_emptiest.mean_suction_cm;
        // A tray that is emptied falls through its levels, each for as long as its water lasts.
        let levels: Vec<Carried> = if case.fills == Fills::WhenEmpty {
            (0..LEVELS)
                .map(|place| level * (place as f64 + 0.5) / LEVELS as f64)
                .map(|above| self.carried(d, lift - above))
                .collect()
        } else {
            vec![at_emptiest]
        };
        // Over all levels the mean is the harmonic one: time is water over flow.
        let over_levels = |which: usize| {
            let sum: f64 = levels
                .iter()
                .map(|at| 1.0 / at.times[which].max(NOTHING))
                .sum();
            levels.len() as f64 / sum
        };
        let supply = [over_levels(0), over_levels(1)];
        let at_mean = supply[1] >= 1.0;
        // A ball that is drunk from hangs drier than one at rest, and one whose link has broken dries
        // until its roots give up.
        let half = self.roots_middle_cm();
        let driest = if at_mean { LOSS_AT_CM } else { GIVE_UP_AT_CM };
        let hangs = (mean_suction.min(driest) - half).max(d - emptiest);
        let air_empty = self.air_over(fill, -hangs);
        let air = if at_mean || case.fills != Fills::WhenEmpty {
            // The tray is at its emptiest for a moment only: Simpson's rule over its levels.
            let halfway = self.air_over(fill, f64::midpoint(level, emptiest) - d);
            (air_full + 4.0 * halfway + air_empty) / 6.0
        } else {
            // What is not drunk stays in the tray, and the float does not open again.
            air_empty
        };
        let serves_dry = |which: usize, limit: f64| {
            if supply[which] < 1.0 || !enough_in_a_day {
                return false;
            }
            let stored = self.water_over(fill, -lift.max(0.0));
            let left = self.water_over(fill, -(limit - half).max(lift).max(0.0));
            // Water that lies below the roots comes up too slowly to count.
            let reached = case.rooted / fill;
            let store = (stored - left).max(0.0) * self.mixed.litres_in_pot * reached;
            // What the ball must lend at midday, and while the tray stands low.
            let midday = share_at(supply[which]) * self.demand_litres;
            let of_level = of_a_filling / levels.len() as f64;
            let low: f64 = levels
                .iter()
                .map(|at| of_level * (1.0 / at.times[which].max(NOTHING) - 1.0).max(0.0))
                .sum();
            midday + low <= store
        };
        let limits = case.mix.limits;
        let drowned = air < limits.air_fails_below;
        let thirsts = !serves_dry(1, LOSS_AT_CM);
        let watch = air < limits.air_serves_from || !serves_dry(0, ACT_AT_CM);
        let wrong = match (drowned, thirsts) {
            (true, true) => Wrong::Both,
            (true, false) => Wrong::Drowned,
            (false, true) => Wrong::Thirsts,
            (false, false) => Wrong::Nothing,
        };
        let verdict = match wrong {
            Wrong::Nothing if watch => Verdict::Watch,
            Wrong::Nothing => Verdict::Serves,
            _ => Verdict::DoesNotServe,
        };
        let ground = case.ground.in_square_centimetres();
        let base = case.mix.vessel.base_area().in_square_centimetres();
        let laid = d * if case.whole_tray {
            ground
        } else {
            base.min(ground)
        } / ML_PER_L;
        /// Days in a month of salt.
        const MONTH_DAYS: f64 = 30.0;
        let ball_kg =
            self.mixed.dry_kg() + self.water_over(fill, full_above) * self.mixed.litres_in_pot;
        let bed_kg = laid * self.bed_wet_g_per_l / ML_PER_L;
        // The top of the mix hangs on the mean level; its water sets how much salt it takes in.
        let top_cm = TOP_CM.range.best();
        let top_lifted = d + fill.in_centimetres() - 0.5 * (top_cm + level + emptiest);
        let top_water = self.ball.water(top_lifted.max(0.0)).max(NOTHING);
        let evaporates = self.evaporates_mm_per_d / MM_PER_CM;
        let steady = steady_multiple(evaporates, fill.in_centimetres(), self.salt_cm2_per_d);
        AtDepth {
            air,
            air_full,
            air_lowest_full: self.air_over(third, full_above),
            air_empty,
            supply: supply[1],
            mid_suction_cm: mean_suction,
            refills,
            fill_litres,
            bed_litres: laid / self.bed_settled,
            wet_kg: ball_kg + bed_kg + fill_litres,
            flush_days: days_to(FLUSH_AT_TIMES.range.best(), evaporates, top_cm, top_water),
            salt_after_a_month: multiple_after(MONTH_DAYS, evaporates, top_cm, top_water, steady),
            verdict,
            wrong,
        }
    }

    /// What is left of loose medium once it has settled, fraction.
    pub fn settled(&self) -> f64 {
        self.bed_settled
    }
}

/// The first place that lies beyond, of so many of which all after it do; their number where none does.
fn first_beyond(many: usize, beyond: impl Fn(usize) -> bool) -> usize {
    let (mut low, mut high) = (0, many);
    while low < high {
        let middle = usize::midpoint(low, high);
        if beyond(middle) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    low
}

/// What one plant drinks on a mean summer day, L.
fn a_mean_day_litres(case: &Case, inputs: &Inputs, which: usize) -> f64 {
    match case.demand {
        Demand::Told(litres) => litres.in_litres(),
        Demand::OfLeaves { breadth, .. } => {
            let metres = breadth.in_metres();
            let leaves = std::f64::consts::FRAC_PI_4 * metres * metres;
            // Leaves that meet share the light of their ground.
            let lit = leaves.min(case.ground.in_square_metres());
            let habit = inputs.habits.get(which).copied().unwrap_or(1.0);
            inputs.stand_litres_per_m2 * habit * lit
        }
    }
}
