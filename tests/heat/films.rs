//! Films, air layers, free convection, radiation, evaporation.

use longtom::science::heat::films::{
    Convection, Face, Heading, LEWIS, PSYCHROMETRIC_KPA_PER_K, air_at, air_layer_m2_k_per_w,
    black_radiation_w_per_m2_k, clear_sky_c, draught_w_per_m2_k, evaporation, exchange_of_faces,
    inner_surface_m2_k_per_w, nusselt_free_face, nusselt_stagnant_face, nusselt_upright,
    outer_surface_m2_k_per_w, radiation_between_w_per_m2_k, rayleigh, saturation_kpa, sky_c,
    sunlit_wall_k, view_between_strips,
};

use crate::common::{numbers, reference};

/// Half a unit of the last digit printed.
const PRINTED: f64 = 0.0051;

/// EN ISO 6946: conventional resistances of surfaces (as coded in public programs that cite ISO 6946:2007; the
/// outer ones from memory).
#[test]
fn surfaces_of_the_standard() {
    for (heading, printed) in [
        (Heading::Up, 0.10),
        (Heading::Level, 0.13),
        (Heading::Down, 0.17),
    ] {
        let ours = inner_surface_m2_k_per_w(heading, 0.9, 20.0);
        println!("{heading:?}: {ours:.4} against {printed}");
        assert!((ours - printed).abs() < PRINTED);
    }
    for (wind, printed) in [
        (1.0, 0.08),
        (2.0, 0.06),
        (3.0, 0.05),
        (4.0, 0.04),
        (5.0, 0.04),
        (7.0, 0.03),
        (10.0, 0.02),
    ] {
        let ours = outer_surface_m2_k_per_w(wind, 0.9, 10.0);
        println!("{wind} m/s: {ours:.4} against {printed}");
        assert!((ours - printed).abs() < PRINTED);
    }
}

/// EN ISO 6946: unventilated layers of air between surfaces of high emissivity (from memory).
#[test]
fn air_layers_of_the_standard() {
    let gaps = [5.0, 7.0, 10.0, 15.0, 25.0, 50.0, 100.0, 300.0];
    let mut worst = 0f64;
    for (heading, printed) in [
        (
            Heading::Up,
            [0.11, 0.13, 0.15, 0.16, 0.16, 0.16, 0.16, 0.16],
        ),
        (
            Heading::Level,
            [0.11, 0.13, 0.15, 0.17, 0.18, 0.18, 0.18, 0.18],
        ),
        (
            Heading::Down,
            [0.11, 0.13, 0.15, 0.17, 0.19, 0.21, 0.22, 0.23],
        ),
    ] {
        for (gap, printed) in gaps.into_iter().zip(printed) {
            let ours = air_layer_m2_k_per_w(heading, gap / 1000.0, [0.9; 2], 10.0);
            worst = worst.max((ours - printed).abs());
            assert!(
                (ours - printed).abs() < PRINTED,
                "{heading:?}, {gap} mm: {ours}"
            );
        }
    }
    println!("{worst:.4} m² K/W at most over 24 entries printed to 0.01");
}

/// Correlations of the library ht 1.2.0, which codes the same authors.
#[test]
fn free_convection_is_that_of_another_library() {
    let all = reference();
    let mut worst = 0f64;
    for row in all["free_convection"].as_array().unwrap() {
        let row = numbers(row);
        for (ours, theirs) in [
            (nusselt_free_face(row[0]), row[2]),
            (nusselt_stagnant_face(row[0]), row[3]),
            (nusselt_upright(row[0], row[1]), row[4]),
        ] {
            worst = worst.max((ours / theirs - 1.0).abs());
        }
    }
    println!("{worst:.1e} off at most");
    assert!(worst < 1e-6);
}

/// Dry air: Incropera & DeWitt, *Fundamentals of Heat and Mass Transfer*, table A.4 (from memory), whose
/// density (1.1614 kg/m³ at 300 K) is that of 1 bar.
#[test]
fn air_is_that_of_a_table() {
    for (kelvin, viscosity, conductivity, prandtl) in [
        (250.0, 11.44e-6, 22.3e-3, 0.720),
        (300.0, 15.89e-6, 26.3e-3, 0.707),
        (350.0, 20.92e-6, 30.0e-3, 0.700),
    ] {
        let air = air_at(kelvin - 273.15);
        let off = [
            1.01325 * air.viscosity_m2_per_s / viscosity - 1.0,
            air.conductivity_w_per_m_k / conductivity - 1.0,
            air.prandtl / prandtl - 1.0,
        ];
        println!("{kelvin} K: {off:.4?}");
        assert!(off.into_iter().all(|off| off.abs() < 0.01));
    }
}

/// Worked with the properties of air at 15 °C of another source, and the library's correlations.
#[test]
fn a_tray_and_a_pot_in_still_air() {
    let air = air_at(15.0);
    for (difference, length, ra) in [(5.0, 0.1, 5.669e5), (10.0, 0.3, 3.061e7)] {
        let ours = rayleigh(&air, difference, length);
        println!("Ra {ours:.4e} against {ra:.4e}");
        assert!((ours / ra - 1.0).abs() < 0.02);
    }
    let of = |face: Face, surface: f64, air: f64, length_m: f64| {
        Convection::Free {
            face,
            length_m,
            draught_w_per_m2_k: 0.0,
        }
        .coefficient_w_per_m2_k(surface, air)
    };
    // The film is at 15 °C.
    for (face, difference, length, worked) in [
        (Face::Up, 5.0, 0.1, 3.752),
        (Face::Down, 5.0, 0.1, 1.876),
        (Face::Upright, 5.0, 0.1, 3.612),
        (Face::Up, 10.0, 0.3, 3.961),
        (Face::Down, 10.0, 0.3, 1.695),
        (Face::Upright, 10.0, 0.3, 3.637),
    ] {
        let ours = of(
            face,
            15.0 + difference / 2.0,
            15.0 - difference / 2.0,
            length,
        );
        println!("{face:?}: {ours:.3} against {worked}");
        assert!((ours / worked - 1.0).abs() < 0.01);
        // A cold face that looks the other way does the same.
        let other = match face {
            Face::Up => Face::Down,
            Face::Down => Face::Up,
            Face::Upright => Face::Upright,
        };
        let turned = of(
            other,
            15.0 - difference / 2.0,
            15.0 + difference / 2.0,
            length,
        );
        assert!((turned / ours - 1.0).abs() < 1e-12);
    }
    let draught = draught_w_per_m2_k(15.0, 0.5, 0.3);
    println!("draught {draught:.2} W/m² K, worked 5.07");
    assert!((draught / 5.07 - 1.0).abs() < 0.01);
    // Still air of the same temperature conducts, and no more.
    let still = of(Face::Up, 15.0, 15.0, 0.1);
    assert!((still - air.conductivity_w_per_m_k / 0.1).abs() < 1e-9);
}

#[test]
fn radiation_across_a_gap_and_to_the_sky() {
    let heat = |emissivities: [f64; 2]| {
        radiation_between_w_per_m2_k(exchange_of_faces(emissivities), 25.0, 10.0) * 15.0
    };
    // From the fourth powers, by arithmetic.
    assert!((heat([0.9, 0.9]) - 68.393).abs() < 0.02);
    assert!((heat([0.9, 0.05]) - 4.156).abs() < 0.02);
    // EN ISO 6946 prints 4.6, 5.1, 5.7 and 6.3.
    for (mean, printed) in [(0.0, 4.6), (10.0, 5.1), (20.0, 5.7), (30.0, 6.3)] {
        assert!((black_radiation_w_per_m2_k(mean) - printed).abs() < 0.06);
    }
    for (air, sky) in [(0.0, -23.95), (5.0, -17.08), (10.0, -10.15)] {
        assert!((clear_sky_c(air) - sky).abs() < 0.02);
        assert!((sky_c(air, 1.0) - air).abs() < 1e-9);
        assert!((sky_c(air, 0.0) - clear_sky_c(air)).abs() < 1e-9);
    }
    assert!((view_between_strips(0.75, 1.0) - 0.5).abs() < 1e-12);
}

/// Saturation over water: FAO-56, table 2.3 (from memory): 1.228, 2.338 and 4.243 kPa.
#[test]
fn a_wet_surface_loses_heat() {
    for (air, printed) in [(10.0, 1.228), (20.0, 2.338), (30.0, 4.243)] {
        assert!((saturation_kpa(air) - printed).abs() < 0.001);
    }
    // Surface and air at 20 °C, 60 % humid, 3 W/m² K: 42.51 W/m² with 0.066 kPa/K, by arithmetic.
    let (heat, slope) = evaporation(3.0, 1.0, 20.0, 0.6 * saturation_kpa(20.0));
    let as_worked = PSYCHROMETRIC_KPA_PER_K / 0.066;
    println!("{heat:.2} W/m², {slope:.2} W/m² K");
    assert!((heat * as_worked - 42.51).abs() < 0.05 && (slope * as_worked - 6.579).abs() < 0.01);
    let (dew, _) = evaporation(3.0, LEWIS, 5.0, saturation_kpa(10.0));
    assert!(dew < 0.0);
}

/// Black pots in sun: Ingram et al. 2015 (HortScience 50:530) and earlier work find sunny sides of 45 to 50 °C
/// out of doors in air of 30 to 35 °C (from memory). 500 W/m² on the wall, 10 W/m² K outside, 8 to 17
/// into the mix.
#[test]
fn a_black_wall_in_sun_is_as_hot_as_measured() {
    let (least, most) = (
        sunlit_wall_k(0.95, 500.0, 10.0, 17.0),
        sunlit_wall_k(0.95, 500.0, 10.0, 8.0),
    );
    let white = sunlit_wall_k(0.3, 500.0, 10.0, 8.0);
    println!("black {least:.1} to {most:.1} K, white {white:.1} K");
    // From the coolest wall in the hottest air to the other way about.
    assert!(least < 50.0 - 30.0 && most > 45.0 - 35.0 && white < least);
}
