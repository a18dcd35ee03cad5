//! Open water: the formulas of Edinger, Brady & Geyer 1974 (from memory), worked beforehand by arithmetic.

use longtom::science::heat::water::{
    change_by_filling_k, equilibrium_c, exchange_w_per_m2_k, response_to_day, time_constant_s,
};

#[test]
fn a_tank_follows_days_and_not_hours() {
    let response = response_to_day(0.5, 15.0);
    // 4.18e6 × 0.5/15, and the daily wave through a store of that time constant.
    assert!((time_constant_s(0.5, 15.0) / 3600.0 - 38.7).abs() < 0.1);
    assert!((response.ratio - 0.0981).abs() < 5e-4);
    assert!((response.lag_s / 3600.0 - 5.625).abs() < 0.005);
}

#[test]
fn exchange_and_equilibrium_by_arithmetic() {
    for (wind, worked) in [(0.0, 15.84), (1.0, 16.37), (3.0, 20.61)] {
        let ours = exchange_w_per_m2_k(15.0, 8.0, wind);
        println!("{wind} m/s: {ours:.2} against {worked}");
        assert!((ours - worked).abs() < 0.02);
    }
    let tends_to = equilibrium_c(8.0, 100.0, exchange_w_per_m2_k(15.0, 8.0, 0.0));
    assert!((tends_to - 14.31).abs() < 0.02);
}

#[test]
fn cold_water_cools_what_it_fills() {
    // 5 L/m² of 6 °C into 148 kJ/m² K at 16 °C.
    assert!((change_by_filling_k(0.005, 6.0, 148e3, 16.0) + 1.24).abs() < 0.01);
}
