//! Bench loads, energy and money.

use longtom::handbook::heat::{
    BOARDS, CLOSED_STAND_W_PER_M2_K, GROUNDS, HOUSE_COVERS, SOIL_WARMING_LIFT_K,
    SOIL_WARMING_MEASURED_W_PER_M2, SOIL_WARMING_W_PER_M2, UNDER_BENCH_W_PER_M2, ground_of,
};
use longtom::handbook::sources::ALL;
use longtom::measure::{HeatDensity, TemperatureDifference};
use longtom::science::heat::cost::{Bench, NoCost, cost_of, day_kwh_per_m2, seasons_to_pay_back};

use crate::common::hours;

fn watts(x: f64) -> HeatDensity {
    HeatDensity::from_watts_per_square_metre(x)
}

fn kelvins(x: f64) -> TemperatureDifference {
    TemperatureDifference::from_kelvins(x)
}

/// A closed stand over 50 mm of expanded polystyrene.
fn bench() -> Bench {
    Bench {
        up_w_per_m2_k: 6.0,
        down_m2_k_per_w: 0.05 / 0.036 + 0.17,
    }
}

/// A retail sheet of warming cable: 86 W/m² raises its bed by 11 to 13 K over a house of 7 °C. The stand's own
/// loss is the handbook's, in the middle and at both ends.
#[test]
fn a_printed_sheet_is_met_with_the_handbooks_loss() {
    let reached = |up: f64| {
        Bench {
            up_w_per_m2_k: up,
            ..bench()
        }
        .reached(watts(SOIL_WARMING_W_PER_M2.range.best()))
        .unwrap()
        .in_kelvins()
    };
    let range = CLOSED_STAND_W_PER_M2_K.range;
    let (most, best, least) = (
        reached(range.low()),
        reached(range.best()),
        reached(range.high()),
    );
    println!("{least:.1} to {most:.1} K, {best:.1} K at best; printed 11 to 13 K");
    let printed = SOIL_WARMING_LIFT_K.range;
    assert!(best > printed.low() - 1.0 && best < printed.high() + 1.0);
    assert!(least < printed.low() && printed.high() < most);
}

/// Units of what is printed: 15 and 25 Btu/h ft² (a university's guide), 6.75 MJ/m² a day (Fernandez & Rodriguez
/// 2011). A Btu is 1055.056 J (international table).
#[test]
fn printed_loads_are_turned_right() {
    const BTU_PER_H_FT2: f64 = 1055.056 / 3600.0 / (0.3048 * 0.3048);
    let range = UNDER_BENCH_W_PER_M2.range;
    assert!((15.0 * BTU_PER_H_FT2 - range.low()).abs() < 0.5);
    assert!((25.0 * BTU_PER_H_FT2 - range.high()).abs() < 0.5);
    let mean = 6.75e6 / 86_400.0;
    assert!((mean - SOIL_WARMING_MEASURED_W_PER_M2.range.best()).abs() < 0.5);
    assert!((day_kwh_per_m2(watts(mean), 1.0) - 1.875).abs() < 1e-9);
}

#[test]
fn loads_and_nights_by_arithmetic() {
    let load = bench().to_hold(kelvins(15.0), kelvins(15.0)).unwrap();
    assert!((load.in_watts_per_square_metre() - 99.6).abs() < 0.1);
    let none = bench().to_hold(kelvins(-3.0), kelvins(-3.0)).unwrap();
    assert_eq!(none.in_watts_per_square_metre(), 0.0);
    let night = Bench {
        up_w_per_m2_k: 7.0,
        down_m2_k_per_w: 1e9,
    };
    let held = night
        .held(20.0, &[(8.0, 8.0); 14], 1.0, watts(200.0))
        .unwrap();
    assert!((held.kwh_per_m2 - 1.176).abs() < 1e-6 && held.short_h == 0.0);
    assert!((held.duty - 84.0 / 200.0).abs() < 1e-6);
    // The hours of a day in April held at 18 °C, worked beforehand from the formula.
    let air: Vec<(f64, f64)> = hours(5.0, 24.0, 13.7).iter().map(|&t| (t, t)).collect();
    for (installed, kwh, short_h) in [(100.0, 0.7428, 0.0), (60.0, 0.6676, 7.0)] {
        let held = bench().held(18.0, &air, 1.0, watts(installed)).unwrap();
        println!(
            "{installed} W/m²: {:.4} kWh/m², short {} h",
            held.kwh_per_m2, held.short_h
        );
        assert!((held.kwh_per_m2 - kwh).abs() < 5e-4 && held.short_h == short_h);
    }
}

#[test]
fn money_by_arithmetic() {
    assert!((cost_of(1.2, 10.0, 0.3, 1.0).unwrap() - 3.6).abs() < 1e-12);
    assert!((cost_of(1.2, 10.0, 0.3, 3.0).unwrap() - 1.2).abs() < 1e-12);
    assert_eq!(cost_of(1.2, 10.0, 0.0, 1.0), Ok(0.0));
    assert_eq!(cost_of(1.2, 10.0, -0.1, 1.0), Err(NoCost::NotANumber));
    assert_eq!(cost_of(1.2, 10.0, 0.3, 0.0), Err(NoCost::NotANumber));
    assert_eq!(seasons_to_pay_back(90.0, 30.0), Ok(3.0));
    assert_eq!(seasons_to_pay_back(90.0, 0.0), Err(NoCost::NothingSaved));
    assert_eq!(seasons_to_pay_back(f64::NAN, 1.0), Err(NoCost::NotANumber));
    let open = Bench {
        up_w_per_m2_k: 0.0,
        ..bench()
    };
    assert_eq!(
        open.to_hold(kelvins(10.0), kelvins(10.0)),
        Err(NoCost::NotANumber)
    );
    assert_eq!(
        bench().held(18.0, &[(5.0, 5.0)], 1.0, watts(0.0)),
        Err(NoCost::NotANumber)
    );
    assert!(NoCost::NothingSaved.to_string().ends_with('.'));
}

/// Each row of the handbook stands once, names a listed source, and its figures are in doubt.
#[test]
fn the_handbook_of_heat_is_in_order() {
    let figures = GROUNDS
        .iter()
        .flat_map(|row| {
            [
                (row.key, row.conductivity_w_per_m_k),
                (row.key, row.capacity_mj_per_m3_k),
            ]
        })
        .chain(
            HOUSE_COVERS
                .iter()
                .map(|row| (row.key, row.loss_w_per_m2_k)),
        )
        .chain(
            BOARDS
                .iter()
                .map(|row| (row.key, row.conductivity_w_per_m_k)),
        );
    for (key, figure) in figures {
        assert!(figure.range.low() < figure.range.best(), "{key}");
        assert!(figure.range.best() < figure.range.high(), "{key}");
        assert!(ALL.contains(&figure.source), "{key}");
    }
    assert!(GROUNDS.iter().all(|row| ground_of(row.key) == Some(row)));
    // Water is the most that anything here can hold: no more than 4.2 MJ/m³ K.
    assert!(
        GROUNDS
            .iter()
            .all(|row| row.capacity_mj_per_m3_k.range.high() < 4.2)
    );
}
