//! What several of these rooms need.

use std::f64::consts::TAU;

use longtom::measure::{HeatDensity, Length, NumberPerArea, Temperature};
use longtom::science::heat::air::day_shape::{DayShape, LowestHighest, Neighbours};
use longtom::science::heat::column::{
    Control, Course, Floor, Foot, Gap, Heater, Moment, Pots, Side, Standing, Surface, Tray,
};
use longtom::science::heat::films::Convection;
use longtom::science::heat::ground::Solid;
use longtom::science::heat::ground::layers::Slice;

/// What general-purpose libraries give.
pub fn reference() -> serde_json::Value {
    serde_json::from_str(include_str!("../reference/heat.json")).unwrap()
}

/// A row of numbers.
pub fn numbers(row: &serde_json::Value) -> Vec<f64> {
    let row = row.as_array().unwrap();
    row.iter().map(|number| number.as_f64().unwrap()).collect()
}

pub fn mm(x: f64) -> Length {
    Length::from_millimetres(x)
}

pub fn celsius(x: f64) -> Temperature {
    Temperature::from_celsius(x)
}

pub fn solid(k: f64, c: f64) -> Solid {
    Solid::new(k, c).unwrap()
}

/// The film behind which the way from the middle of a round pot to its wall (D/8k) leaves so much.
pub fn film_behind_wall(all: f64, breadth_m: f64, k: f64) -> f64 {
    1.0 / (1.0 / all - breadth_m / (8.0 * k))
}

/// Pots of a worked case: 60 of 9 by 9 cm on a square metre, 15 mm of water, plain films.
pub fn plain_pots() -> Pots {
    Pots {
        number: NumberPerArea::from_per_square_metre(60.0),
        top: mm(90.0),
        base: mm(90.0),
        depth: mm(90.0),
        mix: solid(0.35, 2.5e6),
        into_base_w_per_m2_k: 100.0,
        side: Side {
            surface: Surface::plain(film_behind_wall(6.0, 0.09, 0.35)),
            acting: 0.4,
        },
        surface: Surface::plain(8.0),
    }
}

pub fn plain_tray() -> Tray {
    Tray {
        water: mm(15.0),
        own_j_per_m2_k: 0.0,
        bed: None,
        open: Surface::plain(8.0),
        refills: Vec::new(),
    }
}

/// A metre of ground over a temperature.
pub fn plain_floor(deep_c: f64) -> Floor {
    Floor {
        layers: vec![Slice {
            solid: solid(1.5, 2.2e6),
            thickness_m: 1.0,
        }],
        deep: celsius(deep_c),
    }
}

/// Air alone under the tray, none of the floor's radiation.
pub fn air_below(film: f64, through: f64) -> Foot {
    Foot::Raised(Gap {
        under_tray: Convection::Steady(film),
        on_floor: Convection::Steady(1.0),
        exchange: 0.0,
        air_height: 1.0,
        floor_sun: 0.0,
        through_m2_k_per_w: through,
    })
}

pub fn on_floor(deep_c: f64) -> Standing {
    Standing {
        pots: plain_pots(),
        tray: plain_tray(),
        floor: plain_floor(deep_c),
        foot: Foot::OnFloor {
            contact_m2_k_per_w: 0.05,
        },
        heater: None,
        cover: None,
        air_height: 0.0,
    }
}

pub fn raised() -> Standing {
    Standing {
        foot: air_below(1.0 / 0.13, 0.01),
        air_height: 1.0,
        ..on_floor(9.0)
    }
}

/// 50 mm of expanded polystyrene below, 15 kJ/m² K with the heat in it.
pub fn heated(watts: f64, control: Control) -> Standing {
    Standing {
        foot: air_below(1.0 / 0.17, 1e-6),
        heater: Some(Heater {
            power: HeatDensity::from_watts_per_square_metre(watts),
            layer_j_per_m2_k: 15e3,
            up_m2_k_per_w: 0.05,
            insulation_m2_k_per_w: 0.05 / 0.036,
            control,
        }),
        ..raised()
    }
}

/// The hours of a day by Parton & Logan.
pub fn hours(lowest_c: f64, highest_c: f64, day_length_h: f64) -> Vec<f64> {
    let day = Neighbours::alike(LowestHighest {
        lowest_c,
        highest_c,
    });
    (0..24)
        .map(|hour| DayShape::AIR.at(&day, day_length_h, f64::from(hour)))
        .collect()
}

/// The smooth wave through equal times, at more of them.
pub fn smooth(values: &[f64], times: usize) -> Vec<f64> {
    let count = values.len();
    (0..times)
        .map(|time| {
            let at = time as f64 / times as f64;
            (0..=count / 2)
                .map(|n| {
                    let (mut cos, mut sin) = (0.0, 0.0);
                    for (place, value) in values.iter().enumerate() {
                        let angle = TAU * (n * place) as f64 / count as f64;
                        cos += value * angle.cos();
                        sin += value * angle.sin();
                    }
                    let alone = n == 0 || 2 * n == count;
                    let weight = if alone { 1.0 } else { 2.0 } / count as f64;
                    let angle = TAU * n as f64 * at;
                    // At half the times the wave is kept real.
                    let sin = if alone { 0.0 } else { sin };
                    weight * (cos * angle.cos() + sin * angle.sin())
                })
                .sum()
        })
        .collect()
}

/// The same air everywhere, no sun, no sky.
pub fn course_of_air(air: &[f64]) -> Course {
    Course::of_day(air.iter().map(|&air| Moment::dark(air)).collect()).unwrap()
}
