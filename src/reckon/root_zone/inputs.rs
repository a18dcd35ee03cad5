//! Everything that one outcome needs beyond the case, with its doubt resolved one way.

use std::cell::RefCell;

use super::case::Case;
use crate::handbook::Figure;
use crate::handbook::heat::{
    APART_WALLS, BED_GAPS_FULL, BENCH_COVER_SEES, BENCH_COVER_TRANSMITS, BENCH_WARMER_BY_NIGHT_K,
    BLOCK_WALLS, BOARDS_M2_K_PER_W, CONTACT_FLAT_M2_K_PER_W, CONTACT_POINTS_M2_K_PER_W,
    DEW_POINT_OVER_LOWEST_K, DRAUGHT_W_PER_M2_K, FLOOR_FILM_W_PER_M2_K, GLASS_WARMEST_AFTER_NOON_H,
    GROUNDS, Ground, HOUSE_KEEPS_SUN, INTO_BASE_W_PER_M2_K, MIX_HOLDS_OF_DRAINED,
    OPEN_GROUND_COLDEST_DAY, OPEN_GROUND_MEAN_C, OPEN_GROUND_SWING_K, ROOT_SHARE, SKY_SEEN,
    SLATS_M2_K_PER_W, STANDING_KJ_PER_M2_K, SUN_BELOW_TRAY, SUN_ON_FLOOR, SUN_ON_TOP, SUN_ON_WALLS,
    THERMOSTAT_BAND_K, TOP_SEES, TRAY_SEES, UNDER_HOUSE_SWINGS_MORE_K, UNDER_HOUSE_WARMER_K,
    WALL_SEES, WET_TOP,
};
use crate::handbook::thirst::TRANSMITS;
use crate::measure::{Range, Temperature, TemperatureDifference};
use crate::reckon::Problem;
use crate::reckon::mix;
use crate::science::heat::ground::Solid;
use crate::science::numerics::draws::Draws;
use crate::science::thermal_time::Cardinals;

/// A mix, as far as heat goes.
#[derive(Clone, Copy, Debug)]
pub struct Wet {
    /// Pores, fraction.
    pub pore_space: f64,
    /// Water on the mean of the days, fraction.
    pub water: f64,
}

/// All inputs.
#[derive(Clone, Debug)]
pub struct Inputs {
    /// The mix.
    pub mix: Wet,
    /// Earth below the floor.
    pub earth: Solid,
    /// What lies on it.
    pub top: Option<Solid>,
    /// Mean of the year at the surface below the house, °C.
    pub ground_mean_c: f64,
    /// Half-range of the year there, K.
    pub ground_swing_k: f64,
    /// Day on which it is coldest.
    pub ground_coldest_day: f64,
    /// How much warmer air is at bench height by night, K.
    pub bench_warmer_k: f64,
    /// How long after noon it is warmest, h.
    pub warmest_after_noon_h: f64,
    /// Dew point over the lowest of the night, K.
    pub dew_over_lowest_k: f64,
    /// Cover of the house, W/m² K.
    pub house_w_per_m2_k: f64,
    /// Changes of air an hour.
    pub air_changes_per_h: f64,
    /// Share of the sun through the cover.
    pub transmitted: f64,
    /// Share of that which stays as heat.
    pub kept: f64,
    /// Share of that which falls on the floor.
    pub on_floor: f64,
    /// Share of the sky that the cover sees.
    pub sky_seen: f64,
    /// What stands in the house takes up, J/m² K.
    pub standing_j_per_m2_k: f64,
    /// Between floor and air, W/m² K.
    pub floor_film_w_per_m2_k: f64,
    /// Share of the pots' walls that air reaches.
    pub walls: f64,
    /// Between tray and floor, m² K/W.
    pub contact_m2_k_per_w: f64,
    /// Through slats or boards, m² K/W.
    pub through_m2_k_per_w: f64,
    /// Into the base of the pots, W/m² K.
    pub into_base_w_per_m2_k: f64,
    /// What draughts carry, W/m² K.
    pub draught_w_per_m2_k: f64,
    /// Share of the sun on the tops.
    pub sun_top: f64,
    /// Share of the sun on the walls.
    pub sun_walls: f64,
    /// Share of what tops of pots see that is the cover.
    pub top_sees: f64,
    /// The same of their walls.
    pub wall_sees: f64,
    /// The same of open trays.
    pub tray_sees: f64,
    /// Share of a bench cover's loss that radiates to that of the house.
    pub bench_cover_sees: f64,
    /// Share of the sun that a bench cover lets through.
    pub bench_cover_transmits: f64,
    /// Share of the sun that the floor below a raised tray takes up.
    pub sun_below_tray: f64,
    /// How full the gaps of a bed are.
    pub bed_gaps_full: f64,
    /// Share of the top that evaporates as open water.
    pub wet_top: f64,
    /// The thermostat's band, K.
    pub band_k: f64,
    /// Conductivity of the insulation, W/m K.
    pub board_w_per_m_k: f64,
    /// Cover of the bench, W/m² K.
    pub cover_w_per_m2_k: f64,
    /// What roots ask for.
    pub cardinals: Cardinals,
    /// Below this roots are chilled, °C; none for the hardy.
    pub chilled_below_c: Option<f64>,
    /// The root's share of growth.
    pub root_share: f64,
}

impl Inputs {
    /// All at their best.
    pub fn best(case: &Case) -> Result<Self, Problem> {
        Self::with(case, &mix::Inputs::best(&case.mix), |range| range.best())
    }

    /// All drawn from their ranges.
    pub fn drawn(case: &Case, draws: &mut Draws) -> Result<Self, Problem> {
        let mix = mix::Inputs::drawn(&case.mix, draws)
            .map_err(|problem| Problem::at("parts", problem.to_string()))?;
        let draws = RefCell::new(draws);
        Self::with(case, &mix, |range| range.at(draws.borrow_mut().deviate()))
    }

    fn with(
        case: &Case,
        mix: &mix::Inputs,
        resolved: impl Fn(Range<f64>) -> f64,
    ) -> Result<Self, Problem> {
        /// A factor, a film or a resistance stays above this share of its lowest figure, however far out it is
        /// drawn.
        const LEAST: f64 = 0.3;
        /// A mix holds some water always, fraction.
        const LEAST_WATER: f64 = 0.05;
        /// Cardinal temperatures stay so far apart, K.
        const APART_K: f64 = 2.0;
        let of = |figure: &Figure| resolved(figure.range);
        let positive = |figure: &Figure| of(figure).max(LEAST * figure.range.low());
        let share = |figure: &Figure| of(figure).clamp(0.0, 1.0);
        let solid = |ground: &Ground| {
            let (k, c) = (
                positive(&ground.conductivity_w_per_m_k),
                positive(&ground.capacity_mj_per_m3_k),
            );
            Solid::new(k, c * 1e6).map_err(|problem| Problem::at("floor.top", problem.to_string()))
        };
        let mixed = mix::mixed(&case.mix, mix);
        let water = mixed.water * of(&MIX_HOLDS_OF_DRAINED).clamp(LEAST_WATER, 1.0);
        let flat = case
            .top
            .is_some_and(|(top, _)| ["concrete", "slabs", "timber"].contains(&top.key));
        let contact = if flat {
            &CONTACT_FLAT_M2_K_PER_W
        } else {
            &CONTACT_POINTS_M2_K_PER_W
        };
        // What was fitted goes before what is usual, with its own doubt.
        let walls = match case.fitted.walls {
            Some(times) => usual_walls(case).range.best() * resolved(times),
            None => of(usual_walls(case)),
        };
        let [sun_top, sun_walls] = match case.fitted.sun {
            Some(times) => {
                let times = resolved(times);
                [&SUN_ON_TOP, &SUN_ON_WALLS].map(|usual| times * usual.range.best())
            }
            None => [&SUN_ON_TOP, &SUN_ON_WALLS].map(of),
        };
        let through = if case.on_boards {
            &BOARDS_M2_K_PER_W
        } else {
            &SLATS_M2_K_PER_W
        };
        let cover = case.cover.map_or(
            &crate::handbook::heat::BENCH_COVERS[0].loss_w_per_m2_k,
            |covered| &covered.cover.loss_w_per_m2_k,
        );
        // All three move together: the trials that tell them were done at the same steps.
        let crop = case.crop;
        let base = of(&crop.base_c);
        let optimum = of(&crop.optimum_c).max(base + APART_K);
        let ceiling = of(&crop.ceiling_c).max(optimum + APART_K);
        Ok(Self {
            mix: Wet {
                pore_space: mixed.pore_space,
                water: water.max(LEAST_WATER).min(mixed.pore_space),
            },
            earth: solid(&GROUNDS[0])?,
            top: case.top.map(|(top, _)| solid(top)).transpose()?,
            ground_mean_c: case.ground.mean.map_or_else(
                || of(&OPEN_GROUND_MEAN_C) + of(&UNDER_HOUSE_WARMER_K),
                Temperature::in_celsius,
            ),
            ground_swing_k: case.ground.swing.map_or_else(
                || (of(&OPEN_GROUND_SWING_K) + of(&UNDER_HOUSE_SWINGS_MORE_K)).max(0.0),
                TemperatureDifference::in_kelvins,
            ),
            ground_coldest_day: of(&OPEN_GROUND_COLDEST_DAY),
            bench_warmer_k: resolved(case.fitted.night.unwrap_or(BENCH_WARMER_BY_NIGHT_K.range)),
            warmest_after_noon_h: of(&GLASS_WARMEST_AFTER_NOON_H).clamp(0.0, 4.0),
            dew_over_lowest_k: of(&DEW_POINT_OVER_LOWEST_K),
            house_w_per_m2_k: positive(&case.shell.cover.loss_w_per_m2_k),
            air_changes_per_h: positive(&case.shell.air_changes_per_h),
            transmitted: share(&TRANSMITS),
            kept: share(&HOUSE_KEEPS_SUN),
            on_floor: share(&SUN_ON_FLOOR),
            sky_seen: share(&SKY_SEEN),
            standing_j_per_m2_k: positive(&STANDING_KJ_PER_M2_K) * 1e3,
            floor_film_w_per_m2_k: positive(&FLOOR_FILM_W_PER_M2_K),
            walls: walls.clamp(0.0, 1.0),
            contact_m2_k_per_w: positive(contact),
            through_m2_k_per_w: positive(through),
            into_base_w_per_m2_k: positive(&INTO_BASE_W_PER_M2_K),
            draught_w_per_m2_k: of(&DRAUGHT_W_PER_M2_K).max(0.0),
            sun_top: sun_top.clamp(0.0, 1.0),
            sun_walls: sun_walls.clamp(0.0, 1.0),
            top_sees: share(&TOP_SEES),
            wall_sees: share(&WALL_SEES),
            tray_sees: share(&TRAY_SEES),
            bench_cover_sees: share(&BENCH_COVER_SEES),
            bench_cover_transmits: share(&BENCH_COVER_TRANSMITS),
            sun_below_tray: share(&SUN_BELOW_TRAY),
            bed_gaps_full: share(&BED_GAPS_FULL),
            wet_top: share(&WET_TOP),
            band_k: positive(&THERMOSTAT_BAND_K),
            board_w_per_m_k: case
                .heated
                .board
                .map_or(1.0, |(board, _)| positive(&board.conductivity_w_per_m_k)),
            cover_w_per_m2_k: positive(cover),
            cardinals: Cardinals::new(base, optimum, ceiling)
                .map_err(|problem| Problem::at("crop", problem.to_string()))?,
            chilled_below_c: crop.chilled_below_c.as_ref().map(of),
            root_share: if case.rooting {
                1.0
            } else {
                share(&ROOT_SHARE)
            },
        })
    }
}

/// The share of the pots' walls that air reaches.
#[must_use]
pub fn usual_walls(case: &Case) -> &'static Figure {
    if apart(case) {
        &APART_WALLS
    } else {
        &BLOCK_WALLS
    }
}

/// Whether pots stand so far apart that air gets between them: by half their breadth again.
fn apart(case: &Case) -> bool {
    const FREE: f64 = 1.5;
    let breadth = case.mix.vessel.breadth_at(case.mix.fill).in_metres();
    1.0 / case.pots_per_m2.sqrt() > FREE * breadth
}
