//! Everything that one outcome needs beyond the case, with its doubt resolved one way.

use std::cell::RefCell;

use super::super::question::{Case, Demand, Laid};
use crate::handbook::bed_media::{
    ALPHA_OF_1_MM_PER_CM, CONDUCTIVITY_OF_1_MM_CM_PER_D, DAMP_LINE_OF_1_MM_CM, HOLES_SHARE,
    MIX_CONDUCTIVITY_CM_PER_D, MIX_DRIES_AGAIN, MIX_REWETS, N_OF_GAPS, SETTLES,
};
use crate::handbook::thirst::{EVAPORATES_MM_PER_D, MEAN_SUN_MJ_PER_M2, TRANSMITS, TRANSPIRES};
use crate::handbook::{Figure, surface_salt};
use crate::measure::Range;
use crate::reckon::Problem;
use crate::reckon::mix;
use crate::science::conductivity::Medium;
use crate::science::numerics::draws::Draws;
use crate::science::transpiration::litres_per_square_metre;

/// The grains of the bed.
#[derive(Clone, Copy, Debug)]
pub enum Grains {
    /// By the handbook: from their size and their pores.
    Scaled(Scaled),
    /// As a tube test found them.
    Measured(Medium),
}

/// Grains by the handbook.
#[derive(Clone, Copy, Debug)]
pub struct Scaled {
    /// Median grain, mm.
    pub grain_mm: f64,
    /// Gaps between them, fraction of volume.
    pub gaps: f64,
    /// Pores within them, fraction of volume.
    pub inner: f64,
    /// α of the gaps of grains of 1 mm, 1/cm.
    pub alpha_of_1_mm: f64,
    /// n of the gaps.
    pub n: f64,
    /// Conductivity of the full gaps of grains of 1 mm, cm/d.
    pub cm_per_d_of_1_mm: f64,
    /// Height to which grains of 1 mm are damp, cm.
    pub damp_of_1_mm_cm: f64,
    /// Conductivity from grain to grain, cm/d.
    pub within_cm_per_d: f64,
}

/// All inputs.
pub struct Inputs {
    /// Those of the mix.
    pub mix: mix::Inputs,
    /// Conductivity of the full mix, cm/d.
    pub mix_cm_per_d: f64,
    /// α of the curve the mix follows over that of drying.
    pub mix_ratio: f64,
    /// The bed.
    pub grains: Grains,
    /// Dry weight of a litre of it, loose, g.
    pub loose_g_per_l: f64,
    /// Share of its loose volume lost as it settles.
    pub settles: f64,
    /// Share of the base that is holes.
    pub holes: f64,
    /// The day as a multiple of a mean one.
    pub weather: f64,
    /// Transpiration of a closed stand on a mean day, L/m².
    pub stand_litres_per_m2: f64,
    /// What the crop in each kind of pot drinks as a multiple of such a stand.
    pub habits: Vec<f64>,
    /// Evaporation from wet surfaces on the day, mm.
    pub evaporates_mm_per_d: f64,
    /// Diffusivity of salt in the mix by its water, cm²/d.
    pub salt_cm2_per_d: f64,
}

impl Inputs {
    /// All at their best.
    pub fn best(case: &Case) -> Self {
        let best = |range: Range<f64>| range.best();
        let measured = |medium: &Laid| medium.found.as_ref().map(|found| found.best.drying);
        Self::with(case, mix::Inputs::best(&case.mix), best, best, measured)
    }

    /// All drawn from their ranges. What spreads over powers of ten is drawn over its logarithm.
    pub fn drawn(case: &Case, draws: &mut Draws) -> Result<Self, Problem> {
        let mix = mix::Inputs::drawn(&case.mix, draws)
            .map_err(|problem| Problem::at("parts", problem.to_string()))?;
        let draws = RefCell::new(draws);
        let plain = |range: Range<f64>| range.at(draws.borrow_mut().deviate());
        let over_logarithm = |range: Range<f64>| {
            let deviate = draws.borrow_mut().deviate();
            range.map_increasing(f64::ln).at(deviate).exp()
        };
        let measured = |medium: &Laid| {
            let media = &medium.found.as_ref()?.draws;
            let place = (draws.borrow_mut().uniform() * media.len() as f64) as usize;
            media
                .get(place.min(media.len().saturating_sub(1)))
                .map(|draw| draw.drying)
        };
        Ok(Self::with(case, mix, plain, over_logarithm, measured))
    }

    fn with(
        case: &Case,
        mix: mix::Inputs,
        plain: impl Fn(Range<f64>) -> f64,
        over_logarithm: impl Fn(Range<f64>) -> f64,
        measured: impl Fn(&Laid) -> Option<Medium>,
    ) -> Self {
        /// However far out they are drawn, gaps and inner pores stay within these, fraction.
        const GAPS: [f64; 2] = [0.2, 0.6];
        const INNER: [f64; 2] = [0.0, 0.5];
        /// n of sorted grains stays above this.
        const N_AT_LEAST: f64 = 1.8;
        /// A settled bed has lost no more than this.
        const SETTLED_AT_MOST: f64 = 0.3;
        /// No cover lets more through, and no stand gives off more than comes in.
        const ALL: f64 = 1.0;
        /// Litres that are told count as they are.
        const ALONE: f64 = 1.0;
        let figure = |figure: &Figure| over_logarithm(figure.range);
        let row = &case.medium.row;
        let grains = measured(&case.medium).map_or_else(
            || {
                Grains::Scaled(Scaled {
                    grain_mm: figure(&row.grain_mm),
                    gaps: plain(row.gaps.range).clamp(GAPS[0], GAPS[1]),
                    inner: plain(row.inner_pores.range).clamp(INNER[0], INNER[1]),
                    alpha_of_1_mm: figure(&ALPHA_OF_1_MM_PER_CM),
                    n: plain(N_OF_GAPS.range).max(N_AT_LEAST),
                    cm_per_d_of_1_mm: figure(&CONDUCTIVITY_OF_1_MM_CM_PER_D),
                    damp_of_1_mm_cm: figure(&DAMP_LINE_OF_1_MM_CM),
                    within_cm_per_d: figure(&row.grain_to_grain_cm_per_d),
                })
            },
            Grains::Measured,
        );
        let habit = |kind: &Case| match kind.demand {
            Demand::Told(_) => ALONE,
            Demand::OfLeaves { habit, .. } => over_logarithm(habit.times.range),
        };
        let weather = over_logarithm(case.day.times);
        Self {
            mix,
            mix_cm_per_d: figure(&MIX_CONDUCTIVITY_CM_PER_D),
            mix_ratio: figure(if case.wetted_from_below {
                &MIX_REWETS
            } else {
                &MIX_DRIES_AGAIN
            }),
            grains,
            loose_g_per_l: over_logarithm(row.loose_g_per_l.range),
            settles: plain(SETTLES.range).clamp(0.0, SETTLED_AT_MOST),
            holes: figure(&HOLES_SHARE).min(1.0),
            weather,
            stand_litres_per_m2: litres_per_square_metre(
                MEAN_SUN_MJ_PER_M2.range.best(),
                plain(TRANSMITS.range).clamp(0.0, ALL),
                plain(TRANSPIRES.range).clamp(0.0, ALL),
            ),
            habits: case.kinds().map(habit).collect(),
            evaporates_mm_per_d: weather * figure(&EVAPORATES_MM_PER_D),
            salt_cm2_per_d: figure(&surface_salt::DIFFUSES_CM2_PER_D),
        }
    }
}
