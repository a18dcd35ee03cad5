//! What stands on what, as the column takes it.

use super::case::{Case, Stand};
use super::inputs::Inputs;
use super::weather::DEEP_M;
use crate::measure::{Length, NumberPerArea, Temperature, TemperatureDifference};
use crate::reckon::Problem;
use crate::science::heat::column::{
    Control, Cover, Floor, Foot, Gap, Heater, Pots, Refill, Side, Standing, Surface, Tray,
};
use crate::science::heat::films::{Convection, Face, exchange_of_faces};
use crate::science::heat::ground::Solid;
use crate::science::heat::ground::layers::Slice;
use crate::science::heat::medium::{Grains, capacity_j_per_m3_k};

/// A standing and what is changed of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Variant {
    /// Where.
    pub stand: Stand,
    /// How high a raised tray stands.
    pub height: Length,
    /// Whether all air is that at the floor, so that raising alone is seen.
    pub in_floor_air: bool,
    /// Whether the cover over it lies in its hours.
    pub covered: bool,
    /// Whether a heated bench is insulated as asked.
    pub insulated: bool,
}

impl Variant {
    /// A standing as asked.
    #[must_use]
    pub fn asked(case: &Case, stand: Stand) -> Self {
        Self {
            stand,
            height: case.raised,
            in_floor_air: false,
            covered: stand == Stand::Bench && case.cover.is_some(),
            insulated: true,
        }
    }
}

/// Height at which air over benches is measured, m.
pub const BENCH_HEIGHT_M: f64 = 0.75;
/// Emissivity of pots, mixes and water (EN ISO 10456 and texts on heat transfer, from memory).
const EMISSIVITY: f64 = 0.93;
/// Length of a tray along which air moves, m: area over edge of one about a metre wide.
const TRAY_M: f64 = 0.25;
/// Organic solids take up so much, J/m³ K (de Vries 1963, from memory).
const ORGANIC_J_PER_M3_K: f64 = 2.5e6;
/// Mineral solids take up so much (the same).
const MINERAL_J_PER_M3_K: f64 = 2.0e6;
/// What a plastic tray takes up, J/m² K: 1 mm of it.
const TRAY_J_PER_M2_K: f64 = 2000.0;
/// What the sand or mat of a heated bench takes up, J/m² K, and its resistance up to the tray: 20 mm of moist
/// sand at 1.2 W/m K, and contact.
const HEATED_LAYER_J_PER_M2_K: f64 = 30e3;
const HEATED_UP_M2_K_PER_W: f64 = 0.05;
/// Resistance of a bare bench below the heat, m² K/W: a sheet and no board.
const BARE_M2_K_PER_W: f64 = 0.02;
/// Trays refill while plants drink: from this hour, for so long. Common practice, no source.
const REFILLS_FROM_H: f64 = 9.0;
const REFILLS_FOR_H: f64 = 8.0;

fn solid(conductivity: f64, capacity: f64, at: &str) -> Result<Solid, Problem> {
    Solid::new(conductivity, capacity).map_err(|problem| Problem::at(at, problem.to_string()))
}

/// The standing of a variant, with the ground a metre down and the mean of the air, °C.
///
/// # Errors
/// A problem where a figure makes no solid.
pub fn standing(
    case: &Case,
    inputs: &Inputs,
    variant: &Variant,
    deep: Temperature,
    mean_air: Temperature,
) -> Result<Standing, Problem> {
    let raised_to = match variant.stand {
        Stand::Floor => 0.0,
        Stand::Raised => variant.height.in_metres(),
        Stand::Bench => BENCH_HEIGHT_M,
    };
    let heights = |metres: f64| {
        if variant.in_floor_air {
            0.0
        } else {
            (metres / BENCH_HEIGHT_M).min(1.0)
        }
    };
    let foot = match variant.stand {
        Stand::Floor => Foot::OnFloor {
            contact_m2_k_per_w: inputs.contact_m2_k_per_w,
        },
        Stand::Raised | Stand::Bench => Foot::Raised(Gap {
            under_tray: free(Face::Down, TRAY_M, inputs),
            on_floor: free(Face::Up, TRAY_M, inputs),
            exchange: exchange_of_faces([EMISSIVITY; 2]),
            air_height: heights(raised_to / 2.0),
            floor_sun: inputs.sun_below_tray,
            through_m2_k_per_w: inputs.through_m2_k_per_w,
        }),
    };
    let bed = match case.bed {
        None => None,
        Some(laid) => {
            let row = laid.medium;
            let (gaps, inner) = (row.gaps.range.best(), row.inner_pores.range.best());
            let within = (1.0 - gaps) * inner;
            let (pores, water) = (gaps + within, inputs.bed_gaps_full * gaps + within);
            Some(Slice {
                solid: solid(
                    Grains::COARSE.conductivity_w_per_m_k(pores, water),
                    capacity_j_per_m3_k(water, pores, MINERAL_J_PER_M3_K),
                    "tray.medium",
                )?,
                thickness_m: laid.depth.in_metres(),
            })
        }
    };
    let drunk_m = case.drinks.in_cubic_metres() * case.pots_per_m2;
    Ok(Standing {
        tray: Tray {
            water: case.water,
            own_j_per_m2_k: TRAY_J_PER_M2_K,
            bed,
            open: Surface {
                convection: free(Face::Up, TRAY_M, inputs),
                emissivity: EMISSIVITY,
                sees_cover: inputs.tray_sees,
                wet: 1.0,
                sun: inputs.sun_top * open_over_covered(case),
            },
            refills: vec![Refill {
                depth: Length::from_metres(drunk_m),
                tank: case.tank.unwrap_or(mean_air),
                from_h: REFILLS_FROM_H,
                for_h: REFILLS_FOR_H,
            }],
        },
        pots: pots(case, inputs)?,
        floor: floor(inputs, case, deep),
        foot,
        heater: heater(case, inputs, variant),
        cover: cover(case, inputs, variant),
        air_height: heights(raised_to),
    })
}

fn free(face: Face, length_m: f64, inputs: &Inputs) -> Convection {
    Convection::Free {
        face,
        length_m,
        draught_w_per_m2_k: inputs.draught_w_per_m2_k,
    }
}

/// Open tray against that covered by pots; all that sun falls on alike.
fn open_over_covered(case: &Case) -> f64 {
    let breadth = case.mix.vessel.breadth_at(case.mix.fill).in_metres();
    let covered = case.pots_per_m2 * std::f64::consts::FRAC_PI_4 * breadth * breadth;
    ((1.0 - covered).max(0.0) / covered.max(f64::MIN_POSITIVE)).min(1.0)
}

fn pots(case: &Case, inputs: &Inputs) -> Result<Pots, Problem> {
    let breadth_at = |height: Length| case.mix.vessel.breadth_at(height);
    let top = breadth_at(case.mix.fill);
    let mix = &inputs.mix;
    // A round face of breadth D has area over edge of D/4.
    let top_m = top.in_metres() / 4.0;
    Ok(Pots {
        number: NumberPerArea::from_per_square_metre(case.pots_per_m2),
        top,
        base: breadth_at(Length::from_millimetres(0.0)),
        depth: case.mix.fill,
        mix: solid(
            Grains::ORGANIC.conductivity_w_per_m_k(mix.pore_space, mix.water),
            capacity_j_per_m3_k(mix.water, mix.pore_space, ORGANIC_J_PER_M3_K),
            "parts",
        )?,
        into_base_w_per_m2_k: inputs.into_base_w_per_m2_k,
        side: Side {
            surface: Surface {
                convection: free(Face::Upright, case.mix.fill.in_metres(), inputs),
                emissivity: EMISSIVITY,
                sees_cover: inputs.wall_sees,
                wet: 0.0,
                sun: inputs.sun_walls,
            },
            acting: inputs.walls,
        },
        surface: Surface {
            convection: free(Face::Up, top_m, inputs),
            emissivity: EMISSIVITY,
            sees_cover: inputs.top_sees,
            wet: inputs.wet_top,
            sun: inputs.sun_top,
        },
    })
}

fn floor(inputs: &Inputs, case: &Case, deep: Temperature) -> Floor {
    let top = case.top.zip(inputs.top);
    let laid = top.map_or(0.0, |((_, thickness), _)| thickness.in_metres());
    let mut layers: Vec<Slice> = top
        .map(|((_, thickness), solid)| Slice {
            solid,
            thickness_m: thickness.in_metres(),
        })
        .into_iter()
        .collect();
    layers.push(Slice {
        solid: inputs.earth,
        thickness_m: DEEP_M - laid,
    });
    Floor { layers, deep }
}

fn heater(case: &Case, inputs: &Inputs, variant: &Variant) -> Option<Heater> {
    (variant.stand == Stand::Bench).then(|| Heater {
        power: case.heated.power,
        layer_j_per_m2_k: HEATED_LAYER_J_PER_M2_K,
        up_m2_k_per_w: HEATED_UP_M2_K_PER_W,
        insulation_m2_k_per_w: match case.heated.board {
            Some((_, thickness)) if variant.insulated => {
                BARE_M2_K_PER_W + thickness.in_metres() / inputs.board_w_per_m_k
            }
            _ => BARE_M2_K_PER_W,
        },
        control: Control::Thermostat {
            set: case.heated.set,
            band: TemperatureDifference::from_kelvins(inputs.band_k),
            probe: case.heated.probe,
        },
    })
}

fn cover(case: &Case, inputs: &Inputs, variant: &Variant) -> Option<Cover> {
    /// Where none is asked about, what one would change is told of one closed by night.
    const BY_NIGHT_H: (f64, f64) = (18.0, 8.0);
    variant.covered.then(|| {
        let (from_h, to_h) = case
            .cover
            .map_or(BY_NIGHT_H, |covered| (covered.from_h, covered.to_h));
        Cover {
            from_h,
            to_h,
            loss_w_per_m2_k: inputs.cover_w_per_m2_k,
            sees_cover: inputs.bench_cover_sees,
            transmitted: inputs.bench_cover_transmits,
        }
    })
}
