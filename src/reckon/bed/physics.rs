//! One outcome of Bed from one set of inputs, at every depth: the quick estimate.
//!
//! Quasi-steady: with the tray full, water in the pot hangs from the level, as it does at night; with
//! the tray at its emptiest what the plant drinks is lifted steadily through bed and ball. Both ends
//! of the tray's cycle are looked at, the fullest for air and the emptiest for supply. Centimetres and
//! days throughout.

use std::sync::LazyLock;

use super::question::{Case, Fills};
use crate::handbook::Figure;
use crate::handbook::bed_media::{
    ALPHA_OF_1_MM_PER_CM, ALPHA_WITHIN_PER_CM, CONDUCTIVITY_OF_1_MM_CM_PER_D, DAMP_LINE_OF_1_MM_CM,
    DRINKS_FROM_TO_H, HELD_IN_GAPS, HOLE_MM, HOLES_SHARE, MIX_AIR_ENTRY_CM,
    MIX_CONDUCTIVITY_CM_PER_D, N_OF_GAPS, N_WITHIN, SETTLES,
};
use crate::measure::{Conductivity, Duration, Length};
use crate::reckon::answer::Verdict;
use crate::reckon::mix::{self, Mixed};
use crate::reckon::{Problem, words as of_all};
use crate::science::conductivity::{Curves, MUALEM_TORTUOSITY, Medium, Paths};
use crate::science::flow::HalfSine;
use crate::science::numerics::draws::Draws;
use crate::science::retention::{PoreSystem, Retention};

/// Suction at mid-pot above which a grower should act, cm. Source: [`TOMATO_SUCTION_2015`].
///
/// [`TOMATO_SUCTION_2015`]: crate::handbook::sources::TOMATO_SUCTION_2015
pub const ACT_AT_CM: f64 = 30.0;
/// Suction at mid-pot at which about a tenth of the yield is lost, cm. The same source.
pub const LOSS_AT_CM: f64 = 60.0;

/// Suction at which roots in a mix give up, cm. A judgement: field crops bear far more, but a mix
/// conducts next to nothing by then.
pub const GIVE_UP_AT_CM: f64 = 300.0;

/// A bed wider than the pot carries water to it from so far aside for each length of depth: at half a
/// right angle. A judgement; the flow is solved in one dimension.
pub const SPREADS: f64 = 1.0;

const CM_PER_M: f64 = 100.0;
const ML_PER_L: f64 = 1000.0;

/// Everything that one outcome needs beyond the case, with its doubt resolved one way.
pub struct Inputs {
    mix: mix::Inputs,
    mix_cm_per_d: f64,
    grain_mm: f64,
    gaps: f64,
    inner: f64,
    alpha_of_1_mm: f64,
    n: f64,
    cm_per_d_of_1_mm: f64,
    damp_of_1_mm_cm: f64,
    within_cm_per_d: f64,
    loose_g_per_l: f64,
    settles: f64,
    holes: f64,
    weather: f64,
}

impl Inputs {
    /// All at their best.
    pub fn best(case: &Case) -> Self {
        let best = |figure: &Figure| figure.range.best();
        Self::with(case, mix::Inputs::best(&case.mix), best, best)
    }

    /// All drawn from their ranges. What spreads over powers of ten is drawn over its logarithm.
    pub fn drawn(case: &Case, draws: &mut Draws) -> Result<Self, Problem> {
        let mix = mix::Inputs::drawn(&case.mix, draws)
            .map_err(|problem| Problem::at("parts", problem.to_string()))?;
        let draws = std::cell::RefCell::new(draws);
        let plain = |figure: &Figure| figure.range.at(draws.borrow_mut().deviate());
        let over_logarithm = |figure: &Figure| {
            let deviate = draws.borrow_mut().deviate();
            figure.range.map_increasing(f64::ln).at(deviate).exp()
        };
        Ok(Self::with(case, mix, plain, over_logarithm))
    }

    fn with(
        case: &Case,
        mix: mix::Inputs,
        plain: impl Fn(&Figure) -> f64,
        over_logarithm: impl Fn(&Figure) -> f64,
    ) -> Self {
        /// However far out they are drawn, gaps and inner pores stay within these, fraction.
        const GAPS: [f64; 2] = [0.2, 0.6];
        const INNER: [f64; 2] = [0.0, 0.5];
        /// n of sorted grains stays above this.
        const N_AT_LEAST: f64 = 1.8;
        /// A settled bed has lost no more than this.
        const SETTLED_AT_MOST: f64 = 0.3;
        let medium = &case.medium;
        Self {
            mix,
            mix_cm_per_d: over_logarithm(&MIX_CONDUCTIVITY_CM_PER_D),
            grain_mm: over_logarithm(&medium.grain_mm),
            gaps: plain(&medium.gaps).clamp(GAPS[0], GAPS[1]),
            inner: plain(&medium.inner_pores).clamp(INNER[0], INNER[1]),
            alpha_of_1_mm: over_logarithm(&ALPHA_OF_1_MM_PER_CM),
            n: plain(&N_OF_GAPS).max(N_AT_LEAST),
            cm_per_d_of_1_mm: over_logarithm(&CONDUCTIVITY_OF_1_MM_CM_PER_D),
            damp_of_1_mm_cm: over_logarithm(&DAMP_LINE_OF_1_MM_CM),
            within_cm_per_d: over_logarithm(&medium.grain_to_grain_cm_per_d),
            loose_g_per_l: over_logarithm(&medium.loose_g_per_l),
            settles: plain(&SETTLES).clamp(0.0, SETTLED_AT_MOST),
            holes: over_logarithm(&HOLES_SHARE).min(1.0),
            weather: over_logarithm(&case.weather.times),
        }
    }
}

/// The bed: gaps between grains, and pores within them, side by side.
pub struct BedCurves {
    between: Medium,
    within: Medium,
    damp_m: f64,
}

impl BedCurves {
    fn new(inputs: &Inputs) -> Option<Self> {
        let one = |residual, saturated, pores, cm_per_d| {
            let retention = Retention::single(residual, saturated, pores).ok()?;
            let paths = Paths::One {
                saturated: Conductivity::from_centimetres_per_day(cm_per_d),
            };
            Medium::new(retention, paths, MUALEM_TORTUOSITY).ok()
        };
        let grain = inputs.grain_mm;
        let gaps = PoreSystem::new(inputs.alpha_of_1_mm * grain, inputs.n).ok()?;
        let inner = PoreSystem::new(ALPHA_WITHIN_PER_CM, N_WITHIN).ok()?;
        Some(Self {
            between: one(
                HELD_IN_GAPS,
                inputs.gaps,
                gaps,
                inputs.cm_per_d_of_1_mm * grain * grain,
            )?,
            within: one(0.0, inputs.inner, inner, inputs.within_cm_per_d)?,
            damp_m: inputs.damp_of_1_mm_cm / grain / CM_PER_M,
        })
    }
}

impl Curves for BedCurves {
    fn water_content(&self, suction_m: f64) -> f64 {
        self.between.water_content(suction_m) + self.within.water_content(suction_m)
    }

    fn conductivity_m_per_s(&self, suction_m: f64) -> f64 {
        /// Beyond the damp line gaps carry nothing that counts: a power as steep as this.
        const GIVES_OUT: i32 = 20;
        /// Films on stone thin to half their conductivity at this suction, m. A judgement.
        const FILMS_HALVE_AT_M: f64 = 1.0;
        let over = (self.damp_m / suction_m).min(1.0).powi(GIVES_OUT);
        let between = self.between.conductivity_m_per_s(suction_m) * over;
        // Contact points and films hold on as the inner pores do, by their water and not by Mualem's
        // widest pores, which no contact has.
        let filled =
            self.within.water_content(suction_m) / self.within.water_content(0.0).max(1e-9);
        let full = self.within.saturated_conductivity().in_metres_per_second();
        let share = if self.within.water_content(0.0) > 0.0 {
            filled
        } else {
            1.0 / (1.0 + suction_m / FILMS_HALVE_AT_M)
        };
        between + full * share
    }
}

/// Curves at suctions that rise by a ratio: the mix, or anything that is asked for often.
#[derive(Clone)]
pub struct Tabled {
    water: Vec<f64>,
    ln_cm_per_d: Vec<f64>,
}

impl Tabled {
    const FIRST_CM: f64 = 0.1;
    const RATIO: f64 = 1.1;
    const MANY: usize = 130;

    fn suction_cm(place: usize) -> f64 {
        Self::FIRST_CM * Self::RATIO.powi(place as i32)
    }

    /// A mix by its water, conducting after Mualem 1976: K = Ks S^ℓ (∫ dθ/s beyond s over all of it)².
    fn of_mix(mixed: &Mixed, full_cm_per_d: f64) -> Self {
        let mut water: Vec<f64> = (0..Self::MANY)
            .map(|place| {
                mixed
                    .water_at_suction(Self::suction_cm(place))
                    .clamp(0.0, 1.0)
            })
            .collect();
        // Where a departure of the curve fades out it could rise with suction, which no water does.
        for place in 1..Self::MANY {
            water[place] = water[place].min(water[place - 1]);
        }
        let mut joined = vec![0.0; Self::MANY];
        for place in (0..Self::MANY - 1).rev() {
            let s = Self::suction_cm(place) * Self::RATIO.sqrt();
            joined[place] = joined[place + 1] + (water[place] - water[place + 1]) / s;
        }
        let least = water.last().copied().unwrap_or(0.0);
        let entry = (0..Self::MANY)
            .find(|place| Self::suction_cm(*place) >= MIX_AIR_ENTRY_CM)
            .unwrap_or(0);
        let mut ln_cm_per_d = Vec::with_capacity(Self::MANY);
        let mut last = full_cm_per_d.ln();
        for place in 0..Self::MANY {
            /// Nothing conducts less than this share of the full: it only keeps a logarithm.
            const LEAST: f64 = 1e-12;
            let full = (water[entry] - least).max(LEAST);
            let filled = ((water[place] - least) / full).clamp(LEAST, 1.0);
            let join = (joined[place] / joined[entry].max(LEAST)).clamp(LEAST, 1.0);
            let share = filled.powf(MUALEM_TORTUOSITY) * join * join;
            let ln = full_cm_per_d.ln() + share.max(LEAST).ln();
            last = ln.min(last);
            ln_cm_per_d.push(last);
        }
        Self { water, ln_cm_per_d }
    }

    fn of(curves: &dyn Curves) -> Self {
        let at = |place: usize| Self::suction_cm(place) / CM_PER_M;
        let cm_per_d = |suction_m: f64| {
            let conducts = curves.conductivity_m_per_s(suction_m);
            Conductivity::from_metres_per_second(conducts).in_centimetres_per_day()
        };
        Self {
            water: (0..Self::MANY)
                .map(|p| curves.water_content(at(p)))
                .collect(),
            ln_cm_per_d: (0..Self::MANY).map(|p| cm_per_d(at(p)).ln()).collect(),
        }
    }

    fn between(values: &[f64], suction_cm: f64) -> f64 {
        let at = ((suction_cm.max(Self::FIRST_CM) / Self::FIRST_CM).ln() / Self::RATIO.ln())
            .clamp(0.0, (Self::MANY - 1) as f64);
        let place = (at as usize).min(Self::MANY - 2);
        let along = at - place as f64;
        match values.get(place..place + 2) {
            Some([low, high]) => low + along * (high - low),
            _ => 0.0,
        }
    }

    /// Water, fraction, at a suction in cm.
    pub fn water(&self, suction_cm: f64) -> f64 {
        Self::between(&self.water, suction_cm)
    }

    /// Water with all pores full, fraction.
    pub fn full(&self) -> f64 {
        self.water.first().copied().unwrap_or(0.0)
    }

    /// Conductivities at the suctions of the table, cm/d.
    fn conductivities(&self) -> Vec<f64> {
        self.ln_cm_per_d.iter().map(|ln| ln.exp()).collect()
    }

    /// Conductivity, cm/d, at a suction in cm.
    pub fn cm_per_d(&self, suction_cm: f64) -> f64 {
        Self::between(&self.ln_cm_per_d, suction_cm).exp()
    }
}

impl Curves for Tabled {
    fn water_content(&self, suction_m: f64) -> f64 {
        self.water(suction_m * CM_PER_M)
    }

    fn conductivity_m_per_s(&self, suction_m: f64) -> f64 {
        let cm_per_d = self.cm_per_d(suction_m * CM_PER_M);
        Conductivity::from_centimetres_per_day(cm_per_d).in_metres_per_second()
    }
}

/// What a bed carries over a height: heights that a flux climbs to each suction of the table.
struct Climb {
    heights_cm: Vec<f64>,
}

impl Climb {
    /// dz = ds/(1 + q/K(s)): Gardner 1958. The bed is given by its conductivities at the suctions of
    /// the table, cm/d.
    fn new(conductivities: &[f64], flux_cm_per_d: f64) -> Self {
        let rate = |place: usize| {
            let k = conductivities.get(place).copied().unwrap_or(0.0);
            k / (k + flux_cm_per_d)
        };
        let mut heights_cm = Vec::with_capacity(Tabled::MANY);
        let mut height = Tabled::FIRST_CM * rate(0);
        heights_cm.push(height);
        for place in 1..Tabled::MANY {
            let wide = Tabled::suction_cm(place) - Tabled::suction_cm(place - 1);
            height += 0.5 * wide * (rate(place - 1) + rate(place));
            heights_cm.push(height);
        }
        Self { heights_cm }
    }

    /// The suction at a height above the water, cm; none beyond where the link breaks.
    fn suction_at(&self, height_cm: f64) -> Option<f64> {
        let first = self.heights_cm.first().copied()?;
        if height_cm <= first {
            return Some(height_cm);
        }
        let place = self.heights_cm.iter().position(|h| *h >= height_cm)?;
        let (low, high) = (self.heights_cm.get(place - 1)?, self.heights_cm.get(place)?);
        let along = (height_cm - low) / (high - low).max(1e-12);
        let from = Tabled::suction_cm(place - 1);
        Some(from + along * (Tabled::suction_cm(place) - from))
    }

    /// The height that it climbs while the suction grows to a limit, cm.
    fn height_to(&self, suction_cm: f64) -> f64 {
        Tabled::between(&self.heights_cm, suction_cm)
    }
}

/// What comes of one depth.
///
/// The lowest third is told and not judged: the limits were written for the mean of a whole pot, and
/// the foot of a pot that has drained from above stands nearly full too. No limit for a part of a
/// ball was found in print; inventing one would decide the answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtDepth {
    /// Mean air of the ball over the tray's levels, fraction.
    pub air: f64,
    /// Mean air with the tray full, fraction.
    pub air_full: f64,
    /// The same of the lowest third of the ball.
    pub air_lowest_full: f64,
    /// Mean air with the tray at its emptiest, fraction.
    pub air_empty: f64,
    /// The most that can be lifted with mid-pot at 60 cm of suction, over the levels of the tray, as a
    /// multiple of what the plant drinks over the whole day.
    pub supply: f64,
    /// Suction at mid-pot with the tray at its emptiest and the day's mean drunk, cm.
    pub mid_suction_cm: f64,
    /// Refills in a day.
    pub refills: f64,
    /// Water of one filling, for one pot, L.
    pub fill_litres: f64,
    /// Loose medium for one pot, L.
    pub bed_litres: f64,
    /// All of it wet and the tray full, kg/m².
    pub load_kg_per_m2: f64,
    /// How it is judged.
    pub verdict: Verdict,
    /// What is wrong with it, if anything.
    pub wrong: Wrong,
}

/// What is wrong with a depth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// Nothing.
    Nothing,
    /// It drowns.
    Drowned,
    /// It thirsts, because the link breaks or a filling holds too little.
    Thirsts,
    /// Both.
    Both,
}

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
    bed_wet_g_per_l: f64,
    bed_settled: f64,
    holes: f64,
    /// For the multiples of the day's mean, after [`SPREAD_MANY`] that are smaller.
    climbs: Vec<Climb>,
    mean_flux_cm_per_d: f64,
}

/// Multiples of the day's mean that are tried for supply, from the least to the most.
const LEAST_TIMES: f64 = 0.1;
const TIMES_RATIO: f64 = 1.15;
const TIMES_MANY: usize = 34;
/// So many steps of the same ratio a flux may thin out where it spreads below the base.
const SPREAD_MANY: usize = 16;
/// A suction told for a link that has broken, cm: as dry as it matters.
const BROKEN_CM: f64 = 1000.0;

fn times(place: usize) -> f64 {
    LEAST_TIMES * TIMES_RATIO.powi(place as i32)
}

/// Share of the day's demand above each multiple of its mean: the same for every bed and every draw.
static BEYOND: LazyLock<Vec<f64>> = LazyLock::new(|| {
    (0..TIMES_MANY)
        .map(|place| share_beyond(times(place)))
        .collect()
});

/// The share of the day's demand beyond a multiple of its mean that was tried.
fn share_at(multiple: f64) -> f64 {
    let place = ((multiple / LEAST_TIMES).ln() / TIMES_RATIO.ln() + 1e-9).max(0.0) as usize;
    BEYOND.get(place).copied().unwrap_or(0.0)
}

/// Levels at which an emptying tray is looked at.
const LEVELS: usize = 4;
/// A multiple so small that nothing comes up.
const NOTHING: f64 = 1e-3;

/// What is carried up.
#[derive(Clone, Copy)]
struct Carried {
    /// The most, as a multiple of the day's mean, with mid-pot at 30 and at 60 cm of suction.
    times: [f64; 2],
    /// Suction at mid-pot with the day's mean drunk, cm.
    mean_suction_cm: f64,
}

/// How demand runs through a day.
pub fn course() -> HalfSine {
    let [from, to] = DRINKS_FROM_TO_H.map(Duration::from_hours);
    HalfSine::new(from, to)
}

/// The share of a day's demand that lies above a multiple of its mean.
fn share_beyond(multiple: f64) -> f64 {
    /// Pieces of the day.
    const PIECES: usize = 96;
    let sun = course();
    let day = Duration::from_days(1.0).in_seconds();
    (0..PIECES)
        .map(|piece| {
            let at = (piece as f64 + 0.5) / PIECES as f64 * day;
            (sun.multiple(at) - multiple).max(0.0)
        })
        .sum::<f64>()
        / PIECES as f64
}

impl<'a> Scene<'a> {
    /// From inputs; none where figures far out make no curve.
    pub fn new(case: &'a Case, inputs: &Inputs) -> Option<Self> {
        let mixed = mix::mixed(&case.mix, &inputs.mix);
        let ball = Tabled::of_mix(&mixed, inputs.mix_cm_per_d);
        let bed_curves = BedCurves::new(inputs)?;
        let bed = Tabled::of(&bed_curves);
        let demand_litres = case.drinks.in_litres() * inputs.weather;
        let base_cm2 = case.mix.vessel.base_area().in_square_centimetres();
        let mean = demand_litres * ML_PER_L / base_cm2;
        let conductivities = bed.conductivities();
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
            mean_flux_cm_per_d: mean,
            bed_wet_g_per_l: inputs.loose_g_per_l / (1.0 - inputs.settles)
                + (inputs.inner + HELD_IN_GAPS) * ML_PER_L,
            bed_settled: 1.0 - inputs.settles,
            holes: inputs.holes,
            climbs,
            mixed,
            ball,
            bed,
            bed_curves,
        })
    }

    /// Height to which the bed lifts what the plant drinks over the day with its top at 60 cm of
    /// suction, cm.
    pub fn breaks_at_cm(&self) -> f64 {
        let base_cm2 = self.case.mix.vessel.base_area().in_square_centimetres();
        let mean = self.demand_litres * ML_PER_L / base_cm2;
        Climb::new(&self.bed.conductivities(), mean).height_to(LOSS_AT_CM)
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

    /// Suction at mid-pot where a flux comes in at the foot at a suction and is drunk evenly on the
    /// way up, cm.
    fn mid_suction_cm(&self, foot_cm: f64, flux_cm_per_d: f64) -> f64 {
        /// Steps from the foot to the middle.
        const STEPS: usize = 24;
        let step = 0.5 * self.case.mix.fill.in_centimetres() / STEPS as f64;
        let mut s = foot_cm;
        if !self.case.bedded {
            s += self.lost_at_holes_cm(s, flux_cm_per_d);
        }
        for place in 0..STEPS {
            let left = 1.0 - 0.5 * (place as f64 + 0.5) / STEPS as f64;
            s += step * (1.0 + left * flux_cm_per_d / self.ball.cm_per_d(s));
            if s > BROKEN_CM {
                return BROKEN_CM;
            }
        }
        s
    }

    /// Suction lost where water squeezes together to the holes of the base and apart again, cm
    /// (see [`Contact`](crate::science::flow::Contact)).
    fn lost_at_holes_cm(&self, suction_cm: f64, flux_cm_per_d: f64) -> f64 {
        const MM_PER_CM: f64 = 10.0;
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
    fn steps_thinner(&self, depth_cm: f64) -> usize {
        let case = self.case;
        if !case.whole_tray {
            return 0;
        }
        let base = case.mix.vessel.base_area().in_square_centimetres();
        let breadth = case
            .mix
            .vessel
            .breadth_at(Length::from_metres(0.0))
            .in_centimetres();
        let foot = base * ((breadth + 2.0 * SPREADS * depth_cm) / breadth).powi(2);
        let thinner = (foot.min(case.ground.in_square_centimetres()) / base).sqrt();
        (thinner.max(1.0).ln() / TIMES_RATIO.ln()).round() as usize
    }

    /// What is carried to a ball that stands so far above the water, on a bed of a depth.
    fn carried(&self, depth_cm: f64, lift_cm: f64) -> Carried {
        let mut found = Carried {
            times: [0.0; 2],
            mean_suction_cm: BROKEN_CM,
        };
        let spread = SPREAD_MANY - self.steps_thinner(depth_cm).min(SPREAD_MANY);
        let climbs = self.climbs.iter().skip(spread).take(TIMES_MANY);
        for (place, climb) in climbs.enumerate() {
            let Some(foot) = climb.suction_at(lift_cm) else {
                break;
            };
            let mid = self.mid_suction_cm(foot, self.mean_flux_cm_per_d * times(place));
            if times(place) <= 1.0 {
                found.mean_suction_cm = mid;
            }
            for (carried, limit) in found.times.iter_mut().zip([ACT_AT_CM, LOSS_AT_CM]) {
                if mid <= limit {
                    *carried = times(place);
                }
            }
            if mid > LOSS_AT_CM && times(place) > 1.0 {
                break;
            }
        }
        // A multiple below one at which the link holds says nothing of the mean itself.
        if found.times[1] < 1.0 / TIMES_RATIO {
            found.mean_suction_cm = found.mean_suction_cm.max(LOSS_AT_CM);
        }
        found
    }

    /// What comes of a depth.
    pub fn at_depth(&self, depth: Length) -> AtDepth {
        let case = self.case;
        let (d, fill) = (depth.in_centimetres(), case.mix.fill);
        let level = case.level.in_centimetres();
        let full_above = level - d;
        let air_full = self.air_over(fill, full_above);
        let into_the_ball = (self.air_over(fill, -d) - air_full).max(0.0);
        let fill_litres =
            self.fill_beside_the_ball_litres(d) + into_the_ball * self.mixed.litres_in_pot;
        let refills = self.demand_litres / fill_litres.max(1e-9);
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
        let half = 0.5 * fill.in_centimetres();
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
            let store = (stored - left).max(0.0) * self.mixed.litres_in_pot;
            // What the ball must lend at midday, and while the tray stands low.
            let midday = share_at(supply[which]) * self.demand_litres;
            let of_level = fill_litres / levels.len() as f64;
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
        let ball_kg =
            self.mixed.dry_kg() + self.water_over(fill, full_above) * self.mixed.litres_in_pot;
        let bed_kg = laid * self.bed_wet_g_per_l / ML_PER_L;
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
            load_kg_per_m2: (ball_kg + bed_kg + fill_litres) / case.ground.in_square_metres(),
            verdict,
            wrong,
        }
    }

    /// What is left of loose medium once it has settled, fraction.
    pub fn settled(&self) -> f64 {
        self.bed_settled
    }

    /// What comes of every depth of the case.
    pub fn at_all_depths(&self) -> Vec<AtDepth> {
        self.case
            .depths
            .iter()
            .map(|depth| self.at_depth(*depth))
            .collect()
    }
}

/// The scene at the best figures.
///
/// # Errors
/// A problem where they make no curve.
pub fn best_scene(case: &Case) -> Result<Scene<'_>, Problem> {
    Scene::new(case, &Inputs::best(case)).ok_or_else(no_curve)
}

/// The scene of drawn figures.
///
/// # Errors
/// A problem where they make no curve.
pub fn drawn_scene<'a>(case: &'a Case, draws: &mut Draws) -> Result<Scene<'a>, Problem> {
    Scene::new(case, &Inputs::drawn(case, draws)?).ok_or_else(no_curve)
}

fn no_curve() -> Problem {
    Problem::at("bed.medium", of_all::no_such_curve("this bed"))
}

/// Whether a case has an answer at all.
///
/// # Errors
/// A problem where it has none.
pub fn answerable(case: &Case) -> Result<(), Problem> {
    BedCurves::new(&Inputs::best(case))
        .map(drop)
        .ok_or_else(no_curve)
}

/// The depth to lay: among those that fail least often the one in the middle of those that serve most
/// often. `fails` and `serves` give the shares by place.
pub fn depth_to_lay(
    many: usize,
    fails: impl Fn(usize) -> f64,
    serves: impl Fn(usize) -> f64,
) -> usize {
    /// Shares nearer than this are one: 400 draws cannot tell them apart.
    const ALIKE: f64 = 0.02;
    let least = (0..many).map(&fails).fold(f64::INFINITY, f64::min);
    let seldom: Vec<usize> = (0..many).filter(|p| fails(*p) <= least + ALIKE).collect();
    let most = seldom.iter().map(|p| serves(*p)).fold(0.0, f64::max);
    let best: Vec<usize> = seldom
        .into_iter()
        .filter(|p| serves(*p) >= most - ALIKE)
        .collect();
    best.get(best.len() / 2).copied().unwrap_or(0)
}
