//! What the outside world says of floor 0: units against the `uom` library, the normal
//! distribution against its definition, and properties that hold for whatever is typed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::measure::*;
use proptest::prelude::*;

/// How a unit of ours is told in the reference library: how many SI base units one of it is.
mod units_against_uom {
    use super::*;
    use uom::si::f64 as uom_f64;

    /// `uom` 0.38 writes customary units to seven figures (as NIST SP 811 prints them); exact
    /// ones agree to the last place or two.
    const SEVEN_FIGURES: f64 = 1.5e-7;
    const EXACT: f64 = 4e-16;

    fn agree(ours: f64, theirs: f64, tolerance: f64, unit: &str) {
        let off = (ours / theirs - 1.0).abs();
        assert!(
            off <= tolerance,
            "{unit}: ours {ours}, theirs {theirs}, off by {off:e}"
        );
    }

    /// One of a unit, by our constructor, against one of a unit of `uom`, in a base unit of both.
    macro_rules! checks {
        (
            $test:ident: $ours:ident = $kind:ident in $module:ident::$base:ident;
            $($from:ident, $theirs:ident, $tolerance:ident;)+
        ) => {
            #[test]
            fn $test() {
                use uom::si::$module as theirs;
                $(
                    let base = uom_f64::$kind::new::<theirs::$theirs>(1.0).get::<theirs::$base>();
                    agree($ours::$from(1.0).to_base(), base, $tolerance, stringify!($theirs));
                )+
            }
        };
    }

    checks! { length: Length = Length in length::meter;
        from_millimetres, millimeter, EXACT;
        from_centimetres, centimeter, EXACT;
        from_metres, meter, EXACT;
        from_inches, inch, EXACT;
        from_feet, foot, EXACT;
    }
    checks! { area: Area = Area in area::square_meter;
        from_square_metres, square_meter, EXACT;
        from_square_centimetres, square_centimeter, EXACT;
        from_square_feet, square_foot, EXACT;
    }
    checks! { volume: Volume = Volume in volume::cubic_meter;
        from_litres, liter, EXACT;
        from_millilitres, milliliter, EXACT;
        from_cubic_metres, cubic_meter, EXACT;
        from_imperial_gallons, gallon_imperial, EXACT;
        from_us_gallons, gallon, SEVEN_FIGURES;
        from_cubic_feet, cubic_foot, SEVEN_FIGURES;
    }
    checks! { mass: Mass = Mass in mass::kilogram;
        from_kilograms, kilogram, EXACT;
        from_grams, gram, EXACT;
        from_pounds, pound, SEVEN_FIGURES;
        from_ounces, ounce, SEVEN_FIGURES;
    }
    checks! { density: Density = MassDensity in mass_density::kilogram_per_cubic_meter;
        from_kilograms_per_cubic_metre, kilogram_per_cubic_meter, EXACT;
        from_pounds_per_cubic_foot, pound_per_cubic_foot, SEVEN_FIGURES;
    }
    checks! { fraction: Fraction = Ratio in ratio::ratio;
        from_percent, percent, EXACT;
        from_fraction, ratio, EXACT;
    }
    checks! { temperature_difference:
        TemperatureDifference = TemperatureInterval in temperature_interval::kelvin;
        from_kelvins, kelvin, EXACT;
        from_fahrenheit_degrees, degree_fahrenheit, EXACT;
    }
    checks! { duration: Duration = Time in time::second;
        from_days, day, EXACT;
        from_hours, hour, EXACT;
        from_minutes, minute, EXACT;
        from_seconds, second, EXACT;
    }
    checks! { conductivity: Conductivity = Velocity in velocity::meter_per_second;
        from_metres_per_second, meter_per_second, EXACT;
    }
    checks! { area_load:
        AreaLoad = ArealMassDensity in areal_mass_density::kilogram_per_square_meter;
        from_kilograms_per_square_metre, kilogram_per_square_meter, EXACT;
    }
    checks! { number_per_area:
        NumberPerArea = ArealNumberDensity in areal_number_density::per_square_meter;
        from_per_square_metre, per_square_meter, EXACT;
        from_per_square_foot, per_square_foot, EXACT;
    }
    checks! { power: Power = Power in power::watt;
        from_watts, watt, EXACT;
        from_kilowatts, kilowatt, EXACT;
    }
    checks! { heat_density: HeatDensity = HeatFluxDensity in heat_flux_density::watt_per_square_meter;
        from_watts_per_square_metre, watt_per_square_meter, EXACT;
    }

    /// Units that `uom` does not name, made of those that it does.
    #[test]
    fn heat_per_foot_light_and_salt() {
        use uom::si::{area, electrical_conductivity, heat_flux_density, molar_flux, power};
        let per_foot: uom_f64::HeatFluxDensity =
            uom_f64::Power::new::<power::watt>(1.0) / uom_f64::Area::new::<area::square_foot>(1.0);
        let theirs = per_foot.get::<heat_flux_density::watt_per_square_meter>();
        let ours = HeatDensity::from_watts_per_square_foot(1.0).to_base();
        agree(ours, theirs, EXACT, "W/ft2");

        let mole = uom_f64::MolarFlux::new::<molar_flux::mole_per_square_meter_second>(1.0);
        let theirs = (mole / 1e6).get::<molar_flux::mole_per_square_meter_second>();
        agree(
            PhotonFlux::from_micromoles(1.0).to_base(),
            theirs,
            EXACT,
            "umol/m2/s",
        );

        let siemens = uom_f64::ElectricalConductivity::new::<
            electrical_conductivity::siemens_per_centimeter,
        >(1.0);
        for (ours, parts, unit) in [
            (
                SaltConductivity::from_millisiemens_per_centimetre(1.0),
                1e3,
                "mS/cm",
            ),
            (
                SaltConductivity::from_microsiemens_per_centimetre(1.0),
                1e6,
                "uS/cm",
            ),
        ] {
            let theirs = (siemens / parts).get::<electrical_conductivity::siemens_per_meter>();
            agree(ours.to_base(), theirs, EXACT, unit);
        }
    }

    /// Suction is a height here and a pressure there: compared as so many centimetres of water.
    #[test]
    fn suction() {
        use uom::si::pressure::*;
        for (ours, theirs, unit) in [
            (
                Suction::from_kilopascals(1.0),
                uom_f64::Pressure::new::<kilopascal>(1.0),
                "kPa",
            ),
            (
                Suction::from_hectopascals(1.0),
                uom_f64::Pressure::new::<hectopascal>(1.0),
                "hPa",
            ),
            (
                Suction::from_centimetres_of_water(1.0),
                uom_f64::Pressure::new::<centimeter_of_water>(1.0),
                "cm of water",
            ),
            (
                Suction::from_millimetres_of_water(1.0),
                uom_f64::Pressure::new::<millimeter_of_water>(1.0),
                "mm of water",
            ),
        ] {
            let theirs = theirs.get::<centimeter_of_water>();
            agree(ours.in_centimetres_of_water(), theirs, 4.0 * EXACT, unit);
        }
    }

    /// Rates that `uom` does not name, made of a length and a time that it does.
    #[test]
    fn conductivity_by_length_and_time() {
        use uom::si::{length, time, velocity};
        let rate = |height: uom_f64::Length, time: uom_f64::Time| {
            (height / time).get::<velocity::meter_per_second>()
        };
        let centimetre = uom_f64::Length::new::<length::centimeter>(1.0);
        let millimetre = uom_f64::Length::new::<length::millimeter>(1.0);
        for (ours, theirs, unit) in [
            (
                Conductivity::from_centimetres_per_day(1.0),
                rate(centimetre, uom_f64::Time::new::<time::day>(1.0)),
                "cm/day",
            ),
            (
                Conductivity::from_centimetres_per_minute(1.0),
                rate(centimetre, uom_f64::Time::new::<time::minute>(1.0)),
                "cm/min",
            ),
            (
                Conductivity::from_millimetres_per_hour(1.0),
                rate(millimetre, uom_f64::Time::new::<time::hour>(1.0)),
                "mm/h",
            ),
        ] {
            agree(ours.to_base(), theirs, EXACT, unit);
        }
    }

    /// Quotients that `uom` does not name, made of a mass and an area or a volume that it does.
    #[test]
    fn density_and_load_by_mass() {
        use uom::si::{area, areal_mass_density, mass, mass_density, volume};
        let gram = uom_f64::Mass::new::<mass::gram>(1.0);
        let litre = uom_f64::Volume::new::<volume::liter>(1.0);
        let theirs = (gram / litre).get::<mass_density::kilogram_per_cubic_meter>();
        agree(
            Density::from_grams_per_litre(1.0).to_base(),
            theirs,
            EXACT,
            "g/L",
        );

        let pound = uom_f64::Mass::new::<mass::pound>(1.0);
        let square_foot = uom_f64::Area::new::<area::square_foot>(1.0);
        let load: uom_f64::ArealMassDensity = pound / square_foot;
        let theirs = load.get::<areal_mass_density::kilogram_per_square_meter>();
        let ours = AreaLoad::from_pounds_per_square_foot(1.0).to_base();
        agree(ours, theirs, SEVEN_FIGURES, "lb/ft2");
    }

    #[test]
    fn temperature() {
        use uom::si::thermodynamic_temperature::*;
        for fahrenheit in [-40.0, 0.0, 32.0, 68.0, 98.6, 212.0] {
            let theirs = uom_f64::ThermodynamicTemperature::new::<degree_fahrenheit>(fahrenheit)
                .get::<degree_celsius>();
            let ours = Temperature::from_fahrenheit(fahrenheit).in_celsius();
            // `uom` goes by way of kelvins, which costs it some places.
            assert!(
                (ours - theirs).abs() < 1e-12 * 300.0,
                "{fahrenheit}: {ours} {theirs}"
            );
        }
    }
}

/// Fixed points of the scales and definitions, as in NIST Special Publication 811 (2008),
/// appendix B, and the Units of Measurement Regulations 1995.
#[test]
fn units_at_known_points() {
    assert_eq!(Temperature::from_celsius(100.0).in_fahrenheit(), 212.0);
    assert_eq!(Temperature::from_fahrenheit(32.0).in_celsius(), 0.0);
    assert_eq!(Temperature::from_fahrenheit(-40.0).in_celsius(), -40.0);
    assert!((Volume::from_imperial_gallons(1.0).in_litres() - 4.54609).abs() < 1e-14);
    assert!((Volume::from_us_gallons(1.0).in_litres() - 3.785411784).abs() < 1e-14);
    assert!((Volume::from_cubic_feet(1.0).in_litres() - 28.316846592).abs() < 1e-13);
    assert!((Mass::from_ounces(1.0).in_grams() - 28.349523125).abs() < 1e-13);
    assert!(
        (Density::from_pounds_per_cubic_foot(1.0).in_kilograms_per_cubic_metre() - 16.01846).abs()
            < 5e-6
    );
    assert!(
        (AreaLoad::from_pounds_per_square_foot(1.0).in_kilograms_per_square_metre() - 4.882428)
            .abs()
            < 5e-7
    );
    assert!((Suction::from_kilopascals(1.0).in_centimetres_of_water() - 10.19716).abs() < 5e-6);
}

#[test]
fn products_and_differences_keep_their_units() {
    let bench = Length::from_metres(2.0) * Length::from_centimetres(150.0);
    assert_eq!(bench.in_square_metres(), 3.0);
    let sand = bench * Length::from_millimetres(50.0);
    assert!((sand.in_litres() - 150.0).abs() < 1e-9);
    assert!(((sand / bench).in_millimetres() - 50.0).abs() < 1e-9);
    let weight = Density::from_grams_per_litre(1500.0) * sand;
    assert!((weight.in_kilograms() - 225.0).abs() < 1e-9);
    assert!(((weight / bench).in_kilograms_per_square_metre() - 75.0).abs() < 1e-9);
    assert!(((weight / sand).in_grams_per_litre() - 1500.0).abs() < 1e-9);
    assert!(((sand * Fraction::from_percent(40.0)).in_litres() - 60.0).abs() < 1e-9);
    assert_eq!(
        (NumberPerArea::from_per_square_metre(40.0) * bench).in_count(),
        120.0
    );
    let rise = Conductivity::from_centimetres_per_day(12.0) * Duration::from_hours(2.0);
    assert!((rise.in_centimetres() - 1.0).abs() < 1e-12);
    let warmer = Temperature::from_fahrenheit(68.0) - Temperature::from_fahrenheit(50.0);
    assert!((warmer.in_fahrenheit_degrees() - 18.0).abs() < 1e-12);
    assert_eq!(
        (Temperature::from_celsius(10.0) + warmer).in_celsius(),
        20.0
    );
    let mixed: Volume = [10.0, 20.0, 12.5]
        .map(Volume::from_litres)
        .into_iter()
        .sum();
    assert!((mixed.in_litres() - 42.5).abs() < 1e-12);
    assert_eq!(Volume::from_litres(6.0) / Volume::from_litres(4.0), 1.5);
}

#[test]
fn every_unit_has_its_own_ascii_key_within_its_quantity() {
    for units in ALL_UNITS {
        for (place, unit) in units.iter().enumerate() {
            assert!(
                unit.key.is_ascii() && !unit.key.contains([' ', '[', ']']),
                "{}",
                unit.key
            );
            assert!(unit.factor > 0.0, "{}", unit.key);
            assert!(
                units[..place].iter().all(|other| other.key != unit.key),
                "{}",
                unit.key
            );
            assert!(
                units[..place]
                    .iter()
                    .all(|other| other.symbol != unit.symbol),
                "{}",
                unit.key
            );
        }
    }
    assert_eq!(Length::unit("ft"), Some(&Length::FOOT));
    assert_eq!(Length::unit("kg"), None);
}

#[test]
fn a_key_means_one_factor_wherever_it_stands() {
    let all: Vec<&Unit> = ALL_UNITS.iter().copied().flatten().collect();
    for unit in &all {
        for other in all.iter().filter(|other| other.key == unit.key) {
            assert_eq!(other.factor, unit.factor, "{}", unit.key);
        }
    }
}

proptest! {
    #[test]
    fn every_unit_goes_there_and_back(value in -1e6..1e6f64, pick in any::<prop::sample::Index>()) {
        let all: Vec<&Unit> = ALL_UNITS.iter().copied().flatten().collect();
        let unit = pick.get(&all);
        let back = unit.from_base(unit.to_base(value));
        // An offset takes its own size in rounding.
        let size = value.abs() + 2.0 * unit.offset.abs();
        prop_assert!((back - value).abs() <= 2e-15 * size, "{}", unit.key);
    }
}

// ---- Reading numbers -------------------------------------------------------------------------

#[test]
fn numbers_as_they_are_typed() {
    use DecimalMark::{Ask, Comma, Point};
    let any = [Ask, Point, Comma];
    let cases: &[(&str, &[DecimalMark], f64)] = &[
        // Plain.
        ("0", &any, 0.0),
        ("7", &any, 7.0),
        ("  7 ", &any, 7.0),
        ("007", &any, 7.0),
        ("1250", &any, 1250.0),
        ("+4", &any, 4.0),
        ("-4", &any, -4.0),
        ("- 4", &any, -4.0),
        ("\u{2212}4", &any, -4.0),
        ("\u{2013}4", &any, -4.0),
        ("-0", &any, 0.0),
        ("\u{a0}12\u{2009}", &any, 12.0),
        ("12\n", &any, 12.0),
        // Decimals by either mark, where there is one reading.
        ("2.5", &any, 2.5),
        ("2,5", &any, 2.5),
        (".5", &any, 0.5),
        (",5", &any, 0.5),
        ("5.", &any, 5.0),
        ("5,", &any, 5.0),
        ("-2,75", &any, -2.75),
        ("0.250", &any, 0.25),
        ("0,250", &any, 0.25),
        ("000.250", &any, 0.25),
        (".250", &any, 0.25),
        ("1.2500", &any, 1.25),
        ("1,25", &any, 1.25),
        ("1250.500", &any, 1250.5),
        ("2.54000508001016", &any, 2.54000508001016),
        // Thousands in groups, where there is one reading.
        ("1 250", &any, 1250.0),
        ("1\u{a0}250", &any, 1250.0),
        ("1\u{202f}250", &any, 1250.0),
        ("1\u{2009}250\u{2009}000", &any, 1_250_000.0),
        ("1'250", &any, 1250.0),
        ("1\u{2019}250\u{2019}000", &any, 1_250_000.0),
        ("1,250,000", &any, 1_250_000.0),
        ("1.250.000", &any, 1_250_000.0),
        ("1,250.5", &any, 1250.5),
        ("1.250,5", &any, 1250.5),
        ("1,250.500", &any, 1250.5),
        ("1 250,5", &any, 1250.5),
        ("1'250.5", &any, 1250.5),
        ("1,250,000.75", &any, 1_250_000.75),
        // Two readings: the setting says which.
        ("1,250", &[Point], 1250.0),
        ("1,250", &[Comma], 1.25),
        ("1.250", &[Point], 1.25),
        ("1.250", &[Comma], 1250.0),
        ("-12,500", &[Point], -12500.0),
        ("123.456", &[Comma], 123_456.0),
        // Fractions.
        ("1/2", &any, 0.5),
        ("2 1/2", &any, 2.5),
        ("2  1/2", &any, 2.5),
        ("1 / 4", &any, 0.25),
        ("-1/2", &any, -0.5),
        ("-2 1/2", &any, -2.5),
        ("3/2", &any, 1.5),
        ("1\u{2044}2", &any, 0.5),
        ("½", &any, 0.5),
        ("2½", &any, 2.5),
        ("2 ½", &any, 2.5),
        ("\u{2212}2¾", &any, -2.75),
        ("⅛", &any, 0.125),
        ("1 250 1/2", &any, 1250.5),
        // Exponents.
        ("1e3", &any, 1000.0),
        ("1E3", &any, 1000.0),
        ("2.5e-2", &any, 0.025),
        ("2,5e+1", &any, 25.0),
        ("1e300", &any, 1e300),
    ];
    assert!(cases.len() >= 60);
    for (text, marks, value) in cases {
        for mark in *marks {
            let read = read_number(text, *mark);
            assert_eq!(read, Ok(*value), "{text:?} under {mark:?}");
            // Nought has no sign.
            assert!(read.is_ok_and(|read| read != 0.0 || read.is_sign_positive()));
        }
    }
}

#[test]
fn what_is_not_a_number_gets_a_sentence() {
    let long = "1".repeat(41);
    let cases = [
        ("", "Write a number."),
        (" \u{a0} ", "Write a number."),
        (
            long.as_str(),
            "That is too long for a number. Write at most 40 digits and marks.",
        ),
        (
            "abc",
            "“abc” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "1_000",
            "“1_000” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "0x1F",
            "“0x1F” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "inf",
            "“inf” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "-infinity",
            "“-infinity” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "NaN",
            "“NaN” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "--4",
            "“--4” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "4-",
            "“4-” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "-",
            "“-” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            ".",
            "“.” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "e5",
            "“e5” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "1e",
            "“1e” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "1e2.5",
            "“1e2.5” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "1/",
            "“1/” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "/2",
            "“/2” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "1/2/3",
            "“1/2/3” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "1.5/2",
            "“1.5/2” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "2.5 1/2",
            "“2.5 1/2” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "1.250 1/2",
            "“1.250 1/2” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "1,2.3,456",
            "The digits of 1,2.3,456 are not parted in thousands. Write them without gaps.",
        ),
        (
            "½½",
            "“½½” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "½2",
            "“½2” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "12 mm",
            "“12 mm” is not a number. Write one such as 12, 2.5 or 2 1/2.",
        ),
        (
            "1 25",
            "The digits of 1 25 are not parted in thousands. Write them without gaps.",
        ),
        (
            "1,25,000",
            "The digits of 1,25,000 are not parted in thousands. Write them without gaps.",
        ),
        (
            "1250,000,000",
            "The digits of 1250,000,000 are not parted in thousands. Write them without gaps.",
        ),
        (
            "2 .5",
            "The digits of 2 .5 are not parted in thousands. Write them without gaps.",
        ),
        (
            "1/0",
            "1/0 is divided by nought. Write a fraction such as 1/2.",
        ),
        (
            "0/0",
            "0/0 is divided by nought. Write a fraction such as 1/2.",
        ),
        ("1e400", "1e400 is too large. Write a smaller number."),
        ("-1e400", "-1e400 is too large. Write a smaller number."),
        (
            "1e-400",
            "1e-400 is too close to nought. Write 0, or a larger number.",
        ),
        (
            "1,250",
            "1,250 can be read as 1250 or as 1.25. Write 1250 or 1.25.",
        ),
        (
            "1.250",
            "1.250 can be read as 1250 or as 1.25. Write 1250 or 1.25.",
        ),
        (
            "-1,234",
            "-1,234 can be read as -1234 or as -1.2340. Write -1234 or -1.2340.",
        ),
        (
            "12.000",
            "12.000 can be read as 12000 or as 12. Write 12000 or 12.",
        ),
        (
            "1.234e2",
            "1.234e2 can be read as 1234e2 or as 1.2340e2. Write 1234e2 or 1.2340e2.",
        ),
    ];
    for (text, sentence) in cases {
        match read_number(text, DecimalMark::Ask) {
            Ok(value) => panic!("{text:?} was read as {value}"),
            Err(problem) => assert_eq!(problem.to_string(), sentence, "{text:?}"),
        }
    }
}

/// Text made of what numbers are made of, so that most of it is nearly one.
fn nearly_a_number() -> impl Strategy<Value = String> {
    prop::collection::vec(
        prop::sample::select(vec![
            "0", "1", "2", "5", "25", "250", "000", ".", ",", "'", " ", "\u{202f}", "/", "½", "⅔",
            "-", "+", "\u{2212}", "e", "E", "_", "x", "mm", "[", "]", "\\", "°C",
        ]),
        0..9,
    )
    .prop_map(|parts| parts.concat())
}

fn any_mark() -> impl Strategy<Value = DecimalMark> {
    prop::sample::select(vec![
        DecimalMark::Ask,
        DecimalMark::Point,
        DecimalMark::Comma,
    ])
}

proptest! {
    #[test]
    fn reading_never_panics_and_gives_finite_numbers(
        text in prop_oneof![any::<String>(), nearly_a_number()], mark in any_mark()
    ) {
        if let Ok(value) = read_number(&text, mark) {
            prop_assert!(value.is_finite());
        }
    }

    /// What is read without a setting is read the same under both: asking never guesses.
    #[test]
    fn what_needs_no_setting_reads_alike_under_any(text in nearly_a_number()) {
        if let Ok(value) = read_number(&text, DecimalMark::Ask) {
            prop_assert_eq!(read_number(&text, DecimalMark::Point), Ok(value));
            prop_assert_eq!(read_number(&text, DecimalMark::Comma), Ok(value));
        }
    }

    /// Whoever types either of the two readings offered is understood, and they are the two.
    #[test]
    fn both_readings_of_an_ambiguous_number_are_readable(
        whole in 1..1000u32, decimals in 0..1000u32, comma: bool
    ) {
        let mark = if comma { ',' } else { '.' };
        let text = format!("{whole}{mark}{decimals:03}");
        let Err(NumberProblem::Ambiguous { thousands, decimals, .. }) =
            read_number(&text, DecimalMark::Ask)
        else {
            return Err(TestCaseError::fail(text));
        };
        let (group, decimal) = if comma {
            (DecimalMark::Point, DecimalMark::Comma)
        } else {
            (DecimalMark::Comma, DecimalMark::Point)
        };
        prop_assert_eq!(read_number(&thousands, DecimalMark::Ask), read_number(&text, group));
        prop_assert_eq!(read_number(&decimals, DecimalMark::Ask), read_number(&text, decimal));
    }

    #[test]
    fn a_written_number_reads_back_the_same(
        value in prop::num::f64::ANY.prop_filter("finite", |v| v.is_finite()),
        mark in any_mark(),
    ) {
        prop_assert_eq!(read_number(&write_number(value, mark), mark), Ok(value));
        let plain = write_number(value, DecimalMark::Ask);
        for reader in [DecimalMark::Ask, DecimalMark::Point, DecimalMark::Comma] {
            prop_assert_eq!(read_number(&plain, reader), Ok(value), "{}", &plain);
        }
    }

    #[test]
    fn a_printed_number_reads_back_within_its_precision(
        value in -1e9..1e9f64, decimals in 0..6usize, figures in 1..10usize, comma: bool
    ) {
        let mark = if comma { DecimalMark::Comma } else { DecimalMark::Point };
        let style = NumberStyle::for_mark(mark);
        let read = read_number(&fixed(value, decimals, style), mark);
        let half = 0.5 * 10f64.powi(-(decimals as i32)) * (1.0 + 1e-6);
        prop_assert!((read.unwrap() - value).abs() <= half + f64::EPSILON * value.abs());
        if value.abs() > 1e-4 {
            let read = read_number(&significant(value, figures, style), mark).unwrap();
            let half = 0.5 * 10f64.powi(1 - figures as i32) * (1.0 + 1e-6);
            prop_assert!((read / value - 1.0).abs() <= half);
        }
    }
}

// ---- Printing --------------------------------------------------------------------------------

#[test]
fn numbers_are_printed_plainly() {
    let style = NumberStyle::default();
    let comma = NumberStyle::for_mark(DecimalMark::Comma);
    assert_eq!(fixed(2.5, 1, style), "2.5");
    assert_eq!(fixed(2.5, 1, comma), "2,5");
    assert_eq!(fixed(2.0, 2, style), "2.00");
    assert_eq!(fixed(1250.0, 0, style), "1250");
    assert_eq!(fixed(12500.0, 0, style), "12\u{202f}500");
    assert_eq!(fixed(1234567.89, 1, style), "1\u{202f}234\u{202f}567.9");
    assert_eq!(
        fixed(
            12500.0,
            0,
            NumberStyle {
                group: None,
                ..style
            }
        ),
        "12500"
    );
    assert_eq!(fixed(-3.0, 0, style), "\u{2212}3");
    assert_eq!(fixed(-0.04, 1, style), "0.0");
    assert_eq!(fixed(-0.0, 0, style), "0");
    assert_eq!(fixed(f64::NAN, 1, style), "not known");
    assert_eq!(fixed(2e20, 0, style), "2\u{a0}×\u{a0}10²⁰");
    assert_eq!(significant(0.0, 3, style), "0");
    assert_eq!(significant(50.0, 3, style), "50");
    assert_eq!(significant(2.54321, 3, style), "2.54");
    assert_eq!(significant(9.999, 3, style), "10");
    assert_eq!(significant(0.00123456, 3, style), "0.00123");
    assert_eq!(significant(12345.0, 3, style), "12\u{202f}300");
    assert_eq!(significant(-0.5, 3, comma), "\u{2212}0,5");
    assert_eq!(significant(1.234e-7, 2, style), "1.2\u{a0}×\u{a0}10⁻⁷");
    assert_eq!(significant(f64::INFINITY, 3, style), "not known");
    assert_eq!(with_unit("40", &Fraction::PERCENT), "40%");
    assert_eq!(with_unit("1", &Duration::DAY), "1\u{a0}day");
    assert_eq!(with_unit("2", &Duration::DAY), "2\u{a0}days");
    assert_eq!(with_unit("3", &Number::ONE), "3");
}

#[test]
fn ranges_are_printed_with_no_more_figures_than_their_doubt_allows() {
    let printed = |low, best, high| {
        let text = round_range(low, best, high, NumberStyle::default());
        format!("{} ({} to {})", text.best, text.low, text.high)
    };
    assert_eq!(printed(40.3, 51.7, 79.2), "50 (40 to 80)");
    assert_eq!(printed(41.2, 52.3, 58.9), "52 (42 to 58)");
    assert_eq!(printed(9.7, 10.0, 10.4), "10.0 (9.7 to 10.4)");
    assert_eq!(printed(0.112, 0.152, 0.221), "0.15 (0.11 to 0.22)");
    assert_eq!(printed(1234.0, 1401.0, 1677.0), "1400 (1250 to 1700)");
    assert_eq!(
        printed(11_800.0, 14_700.0, 19_900.0),
        "15\u{202f}000 (12\u{202f}000 to 20\u{202f}000)"
    );
    // Counts stay whole.
    assert_eq!(printed(1.0, 2.0, 2.0), "2 (1 to 2)");
    assert_eq!(printed(3.0, 4.0, 7.0), "4 (3 to 7)");
    // Three tenths in six steps, although 0.7 - 0.4 is a little less in binary.
    assert_eq!(printed(0.4, 0.53, 0.7), "0.55 (0.40 to 0.70)");
    // Not nought, so not printed as nought ...
    assert_eq!(printed(2.2, 10.0, 60.0), "10 (2 to 60)");
    assert_eq!(printed(0.0, 10.0, 60.0), "10 (0 to 60)");
    // ... unless the range spans it.
    assert_eq!(printed(-30.0, 0.7, 28.0), "0 (\u{2212}30 to 30)");
    // No doubt: three figures. Hardly any: four.
    assert_eq!(printed(8.5, 8.5, 8.5), "8.5 (8.5 to 8.5)");
    assert_eq!(printed(99.9999, 100.0, 100.0001), "100.0 (100.0 to 100.0)");
    assert_eq!(
        printed(1e-7, 2e-7, 4e-7),
        "2\u{a0}×\u{a0}10⁻⁷ (1\u{a0}×\u{a0}10⁻⁷ to 4\u{a0}×\u{a0}10⁻⁷)"
    );
}

#[test]
fn a_range_is_told_in_the_unit_asked_for() {
    let depth = Length::literal_range(
        Length::from_millimetres(40.0),
        Length::from_millimetres(50.0),
        Length::from_millimetres(80.0),
    );
    let style = NumberStyle::default();
    let text = range_text(&depth, &Length::MILLIMETRE, style);
    assert_eq!(
        text,
        RangeText {
            best: "50\u{a0}mm".into(),
            span: Some("40 to 80".into())
        }
    );
    let text = range_text(&depth, &Length::INCH, style);
    assert_eq!(
        text,
        RangeText {
            best: "2.0\u{a0}in".into(),
            span: Some("1.6 to 3.2".into())
        }
    );
    let exact = range_text(
        &Range::exact(Volume::from_litres(8.5)),
        &Volume::LITRE,
        style,
    );
    assert_eq!(
        exact,
        RangeText {
            best: "8.5\u{a0}L".into(),
            span: None
        }
    );
    let warm = Range::exact(Temperature::from_celsius(20.0));
    assert_eq!(
        range_text(&warm, &Temperature::DEGREE_FAHRENHEIT, style).best,
        "68\u{a0}°F"
    );
}

proptest! {
    /// The rule of printing holds: near enough, in order, and never finer than it should be.
    #[test]
    fn printed_ranges_are_near_and_in_order(
        from in -1e6..1e6f64, up in 0.0..1e5f64, more in 1e-3..1e5f64
    ) {
        let (low, best, high) = (from, from + up, from + up + more);
        let printed = round_range(low, best, high, NumberStyle::default());
        let read = |text: &str| read_number(text, DecimalMark::Point).unwrap();
        let (low_read, best_read, high_read) =
            (read(&printed.low), read(&printed.best), read(&printed.high));
        prop_assert!(low_read <= best_read && best_read <= high_read);
        let size = low.abs().max(high.abs());
        let allowed = ((high - low) / 12.0).max(size * 0.5e-3) * (1.0 + 1e-6);
        for (read, exact) in [(low_read, low), (best_read, best), (high_read, high)] {
            prop_assert!((read - exact).abs() <= allowed, "{} {}", read, exact);
        }
        for text in [&printed.low, &printed.best, &printed.high] {
            prop_assert_ne!(text.as_str(), "\u{2212}0");
        }
    }
}

// ---- Ranges ----------------------------------------------------------------------------------

fn any_range() -> impl Strategy<Value = Range<f64>> {
    (-1e6..1e6f64, 0.0..1e6f64, 0.0..1e6f64)
        .prop_map(|(low, up, more)| Range::new(low, low + up, low + up + more).unwrap())
}

#[test]
fn ranges_out_of_order_or_without_end_are_refused() {
    assert_eq!(Range::new(2.0, 1.0, 3.0), Err(RangeProblem::Order));
    assert_eq!(Range::new(1.0, 4.0, 3.0), Err(RangeProblem::Order));
    assert_eq!(Range::new(1.0, f64::NAN, 3.0), Err(RangeProblem::NotFinite));
    assert_eq!(
        Range::new(1.0, 2.0, f64::INFINITY),
        Err(RangeProblem::NotFinite)
    );
    let kept: Range<f64> = serde_json::from_str(r#"{"low":1,"best":2,"high":3.5}"#).unwrap();
    assert_eq!(kept, Range::literal(1.0, 2.0, 3.5));
    let refused = serde_json::from_str::<Range<f64>>(r#"{"low":3,"best":2,"high":1}"#);
    assert!(
        refused
            .unwrap_err()
            .to_string()
            .starts_with("Give the low figure first")
    );
}

/// The 90 % point by its definition: nine tenths of the standard normal density lie below it.
/// The density is integrated here by Simpson's rule from its own formula.
#[test]
fn the_ninety_per_cent_point_of_the_normal_distribution() {
    let density = |z: f64| (-z * z / 2.0).exp() / (2.0 * std::f64::consts::PI).sqrt();
    let steps = 2000;
    let width = STANDARD_NORMAL_90 / steps as f64;
    let inner: f64 = (1..steps)
        .map(|step| density(step as f64 * width) * if step % 2 == 1 { 4.0 } else { 2.0 })
        .sum();
    let area = (density(0.0) + inner + density(STANDARD_NORMAL_90)) * width / 3.0;
    assert!((0.5 + area - 0.9).abs() < 1e-13, "{area}");
}

/// Type 7 quantiles of 1 to 10, as R's `quantile(1:10, c(.1, .9))` gives them: 1.9 and 9.1
/// (Hyndman and Fan 1996, definition 7; R's documented default).
#[test]
fn limits_of_samples_are_type_seven_quantiles() {
    let mut samples = [10.0, 3.0, 7.0, 1.0, 9.0, 2.0, 8.0, 4.0, 6.0, 5.0];
    let range = Range::from_samples(5.5, &mut samples).unwrap();
    assert!((range.low() - 1.9).abs() < 1e-12);
    assert!((range.high() - 9.1).abs() < 1e-12);
    assert_eq!(range.best(), 5.5);
    assert_eq!(Range::from_samples(5.5, &mut []), None);
    assert_eq!(Range::from_samples(5.5, &mut [1.0, f64::NAN]), None);
    assert_eq!(Range::from_samples(f64::INFINITY, &mut [1.0]), None);
    assert_eq!(
        Range::from_samples(1.0, &mut [4.0]),
        Some(Range::literal(1.0, 1.0, 4.0))
    );
}

#[test]
fn one_input_carries_its_range_through_a_monotone_function() {
    let side = Range::<Length>::from_unit(&Range::literal(10.0, 12.0, 15.0), &Length::CENTIMETRE);
    let bench = side.map_increasing(|side| side * side);
    assert!((bench.high().in_square_centimetres() - 225.0).abs() < 1e-9);
    let number = side.map_decreasing(|side| Length::from_metres(6.0) / side);
    assert!((number.low() - 40.0).abs() < 1e-9 && (number.high() - 60.0).abs() < 1e-9);
    assert_eq!(number.best(), 50.0);
}

proptest! {
    #[test]
    fn a_range_hits_its_limits_exactly(range in any_range()) {
        prop_assert_eq!(range.at(-STANDARD_NORMAL_90), range.low());
        prop_assert_eq!(range.at(0.0), range.best());
        prop_assert_eq!(range.at(STANDARD_NORMAL_90), range.high());
    }

    #[test]
    fn a_range_rises_with_the_deviate(range in any_range(), a in -6.0..6.0f64, b in -6.0..6.0f64) {
        let near = STANDARD_NORMAL_90 * (1.0 - f64::EPSILON);
        let limit = STANDARD_NORMAL_90;
        for (a, b) in [(a, b), (a, limit), (near, limit), (-limit, -near)] {
            let (lower, upper) = if a < b { (a, b) } else { (b, a) };
            prop_assert!(range.at(lower) <= range.at(upper));
        }
    }

    /// A tenth of evenly spread probability lies beyond each limit.
    #[test]
    fn a_tenth_lies_beyond_each_limit(
        range in any_range()
            .prop_filter("some doubt", |r| r.low() < r.best() && r.best() < r.high()),
    ) {
        prop_assert!(range.at(-1.2816) < range.low());
        prop_assert!(range.at(-1.2815) > range.low());
        prop_assert!(range.at(1.2816) > range.high());
        prop_assert!(range.at(1.2815) < range.high());
    }

    #[test]
    fn a_range_of_samples_holds_its_best_figure(
        best in -1e6..1e6f64, mut samples in prop::collection::vec(-1e6..1e6f64, 1..200)
    ) {
        let range = Range::from_samples(best, &mut samples).unwrap();
        prop_assert!(range.low() <= best && best <= range.high());
        let below = samples.iter().filter(|s| **s < range.low()).count();
        let above = samples.iter().filter(|s| **s > range.high()).count();
        // A tenth of the steps between them, and the one that a limit lies within.
        let tenth = 0.1 * (samples.len() - 1) as f64 + 1.0;
        prop_assert!(below as f64 <= tenth && above as f64 <= tenth);
    }

    #[test]
    fn a_stored_range_comes_back_the_same(range in any_range()) {
        let json = serde_json::to_string(&range).unwrap();
        let back = serde_json::from_str::<Range<f64>>(&json).unwrap();
        for (back, kept) in
            [(back.low(), range.low()), (back.best(), range.best()), (back.high(), range.high())]
        {
            // `serde_json` may miss the last place unless its `float_roundtrip` is on.
            prop_assert!((back - kept).abs() <= 4.0 * f64::EPSILON * kept.abs());
        }
        let bytes = postcard::to_allocvec(&range).unwrap();
        prop_assert_eq!(postcard::from_bytes::<Range<f64>>(&bytes).unwrap(), range);
    }
}

// ---- Entries ---------------------------------------------------------------------------------

const POT_HEIGHT: Limits<Length> = Limits {
    what: "height of the pot",
    low: Length::from_centimetres(2.0),
    high: Length::from_centimetres(60.0),
    whole: false,
};
const POTS: Limits<Number> = Limits {
    what: "number of pots",
    low: Number::from_count(1.0),
    high: Number::from_count(100_000.0),
    whole: true,
};
const AIR: Limits<Temperature> = Limits {
    what: "temperature of the air",
    low: Temperature::from_celsius(-30.0),
    high: Temperature::from_celsius(55.0),
    whole: false,
};

fn sentence<Q: Quantity>(entry: Entry, limits: &Limits<Q>) -> String {
    match entry.read(limits, DecimalMark::Ask) {
        Ok(value) => panic!("{entry:?} was read as {value:?}"),
        Err(problem) => problem.to_string(),
    }
}

#[test]
fn entries_are_read_within_their_limits() {
    let read = |text: &str, unit: &str| Entry::new(text, unit).read(&POT_HEIGHT, DecimalMark::Ask);
    assert_eq!(read("10", "cm"), Ok(Length::from_centimetres(10.0)));
    assert_eq!(read("4 1/2", "in"), Ok(Length::from_inches(4.5)));
    // The limits themselves, in whatever unit.
    assert_eq!(read("60", "cm"), Ok(Length::from_centimetres(60.0)));
    assert_eq!(read("600", "mm"), Ok(Length::from_centimetres(60.0)));
    assert_eq!(read("0.02", "m"), Ok(Length::from_centimetres(2.0)));
    let pots = Entry::new("1 250", "").read(&POTS, DecimalMark::Ask);
    assert_eq!(pots, Ok(Number::from_count(1250.0)));
}

/// Seventy times 0.01 is a little more than 0.7 in binary: the limit itself is meant.
#[test]
fn a_limit_typed_in_another_unit_is_the_limit() {
    let limits = Limits {
        what: "height of the pot",
        low: Length::from_metres(0.1),
        high: Length::from_metres(0.7),
        whole: false,
    };
    assert!(Length::from_centimetres(70.0) > limits.high);
    let read = Entry::new("70", "cm").read(&limits, DecimalMark::Ask);
    assert_eq!(read, Ok(limits.high));
}

#[test]
fn entries_that_cannot_be_used_get_a_sentence() {
    let height = |text: &str, unit: &str| sentence(Entry::new(text, unit), &POT_HEIGHT);
    assert_eq!(
        height("400", "cm"),
        "Height of the pot: 400\u{a0}cm is too much. Between 2 and 60\u{a0}cm would be right."
    );
    assert_eq!(
        height("0", "cm"),
        "Height of the pot: 0\u{a0}cm is too little. Between 2 and 60\u{a0}cm would be right."
    );
    assert_eq!(
        height("-3", "mm"),
        "Height of the pot: -3\u{a0}mm is too little. Between 20 and 600\u{a0}mm would be right."
    );
    // 2 cm is 0.7874 in, 60 cm is 23.622 in: both are rounded inwards.
    assert_eq!(
        height("1/2", "in"),
        "Height of the pot: 1/2\u{a0}in is too little. Between 0.788 and 23.6\u{a0}in would be right."
    );
    assert_eq!(height("10", ""), "Say which unit: mm, cm, m, in or ft.");
    assert_eq!(
        height("10", "kg"),
        "kg is not a unit for this. Say which unit: mm, cm, m, in or ft."
    );
    assert_eq!(height("", "cm"), "Write a number.");
    assert_eq!(
        height("1,250", "mm"),
        "1,250 can be read as 1250 or as 1.25. Write 1250 or 1.25."
    );
    assert_eq!(
        sentence(Entry::new("2.5", ""), &POTS),
        "Number of pots: 2.5 is not a whole number. Write 2 or 3."
    );
    assert_eq!(
        sentence(Entry::new("0.5", ""), &POTS),
        "Number of pots: 0.5 is too little. Between 1 and 100\u{202f}000 would be right."
    );
    assert_eq!(
        sentence(Entry::new("3", "L"), &POTS),
        "A plain number is wanted here, without L."
    );
    assert_eq!(
        sentence(Entry::new("200", "degF"), &AIR),
        "Temperature of the air: 200\u{a0}°F is too much. Between \u{2212}22 and 131\u{a0}°F would be right."
    );
    assert_eq!(
        sentence(Entry::new("20", ""), &AIR),
        "Say which unit: °C or °F."
    );
}

#[test]
fn switching_the_unit_converts_the_number() {
    let switch = |text: &str, from: &str, to: &Unit, mark| {
        Entry::new(text, from)
            .converted::<Length>(to, mark)
            .text()
            .to_owned()
    };
    use DecimalMark::{Ask, Comma, Point};
    assert_eq!(switch("100", "mm", &Length::INCH, Ask), "3.9370");
    assert_eq!(switch("100", "mm", &Length::INCH, Point), "3.937");
    assert_eq!(switch("100", "mm", &Length::INCH, Comma), "3,937");
    assert_eq!(switch("3.937", "in", &Length::MILLIMETRE, Point), "100");
    assert_eq!(switch("2 1/2", "cm", &Length::MILLIMETRE, Ask), "25");
    assert_eq!(switch("12.345", "m", &Length::MILLIMETRE, Point), "12345");
    // Not a number, no unit, the same unit: the text stays.
    assert_eq!(switch("abc", "mm", &Length::INCH, Ask), "abc");
    assert_eq!(switch("10", "", &Length::INCH, Ask), "10");
    assert_eq!(switch("2 1/2", "in", &Length::INCH, Ask), "2 1/2");
    let warm =
        Entry::new("20", "degC").converted::<Temperature>(&Temperature::DEGREE_FAHRENHEIT, Ask);
    assert_eq!(warm, Entry::new("68", "degF"));
}

#[test]
fn entries_from_numbers_have_no_digits_too_many() {
    let of = |value: Length, unit| Entry::of(value, unit);
    assert_eq!(
        of(Length::from_inches(4.0), &Length::MILLIMETRE),
        Entry::new("101.6", "mm")
    );
    assert_eq!(
        of(Length::from_centimetres(12.3), &Length::CENTIMETRE),
        Entry::new("12.3", "cm")
    );
    assert_eq!(
        of(Length::from_millimetres(1125.0), &Length::METRE),
        Entry::new("1.1250", "m")
    );
    assert_eq!(Entry::number(0.125), Entry::new("0.125", ""));
    assert_eq!(Entry::number(-3.0), Entry::new("-3", ""));
}

#[test]
fn stored_entries_are_plain_to_read() {
    let stored = |text: &str, unit: &str| serde_json::to_value(Entry::new(text, unit)).unwrap();
    assert_eq!(stored("100", "mm"), "100 mm");
    assert_eq!(stored("2 1/2", "L"), "2 1/2 L");
    assert_eq!(stored("3", ""), "3");
    assert_eq!(stored("", ""), "");
    assert_eq!(stored("", "mm"), " mm");
    assert_eq!(stored("abc", "cm_water"), "abc cm_water");
    assert_eq!(stored("12 mm", ""), "12 mm []");
    assert_eq!(stored("12 mm", "mm"), "12 mm mm");
    assert_eq!(stored("100", "furlong"), "100 [furlong]");
    let read = |json: &str| serde_json::from_str::<Entry>(json).unwrap();
    assert_eq!(read("\"100 mm\""), Entry::new("100", "mm"));
    assert_eq!(read("\"100mm\""), Entry::new("100", "mm"));
    assert_eq!(read("\"5min\""), Entry::new("5", "min"));
    assert_eq!(read("\"20 °C\""), Entry::new("20", "degC"));
    assert_eq!(read("\"40%\""), Entry::new("40", "%"));
    assert_eq!(read("\"5 US gal\""), Entry::new("5", "us_gal"));
    assert_eq!(read("\"2½ gal\""), Entry::new("2½", "gal"));
    assert_eq!(read("\"12 per m²\""), Entry::new("12", "per_m2"));
    assert_eq!(read("\"mm\""), Entry::new("mm", ""));
    assert_eq!(read("100"), Entry::new("100", ""));
    assert_eq!(read("-4"), Entry::new("-4", ""));
    assert_eq!(read("2.5"), Entry::new("2.5", ""));
    assert_eq!(read("1.25e3"), Entry::new("1250", ""));
    assert!(serde_json::from_str::<Entry>("null").is_err());
    assert!(serde_json::from_str::<Entry>("[1]").is_err());
}

fn any_entry() -> impl Strategy<Value = Entry> {
    let keys = ALL_UNITS
        .iter()
        .copied()
        .flatten()
        .map(|unit| unit.key)
        .collect::<Vec<_>>();
    let text = prop_oneof![
        any::<String>(),
        nearly_a_number(),
        prop::sample::select(vec![
            "", " ", "  7 ", "12 mm mm", "12 mm []", " [", "] [", "20 °C", "5 US gal"
        ])
        .prop_map(str::to_owned),
    ];
    let unit = prop_oneof![
        4 => prop::sample::select(keys).prop_map(str::to_owned),
        1 => any::<String>(),
        1 => nearly_a_number(),
    ];
    (text, unit).prop_map(|(text, unit)| Entry::new(text, unit))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]
    #[test]
    fn a_stored_entry_comes_back_to_the_letter(entry in any_entry()) {
        let json = serde_json::to_string(&entry).unwrap();
        prop_assert_eq!(&serde_json::from_str::<Entry>(&json).unwrap(), &entry);
        let bytes = postcard::to_allocvec(&entry).unwrap();
        prop_assert_eq!(&postcard::from_bytes::<Entry>(&bytes).unwrap(), &entry);
    }

    #[test]
    fn a_canonical_entry_reads_alike_under_any_mark(entry in any_entry(), mark in any_mark()) {
        let canonical = entry.canonical(mark);
        prop_assert_eq!(canonical.unit(), entry.unit());
        match read_number(entry.text(), mark) {
            Ok(value) => for reader in [DecimalMark::Ask, DecimalMark::Point, DecimalMark::Comma] {
                prop_assert_eq!(read_number(canonical.text(), reader), Ok(value));
            },
            Err(_) => prop_assert_eq!(canonical.text(), entry.text()),
        }
    }

    #[test]
    fn reading_an_entry_never_panics_and_stays_within_limits(
        entry in any_entry(),
        mark in any_mark(),
    ) {
        match entry.read(&POT_HEIGHT, mark) {
            Ok(height) => prop_assert!(POT_HEIGHT.low <= height && height <= POT_HEIGHT.high),
            Err(problem) => prop_assert!(problem.to_string().ends_with('.')),
        }
    }

    /// Whoever types a limit as the sentence states it is not refused.
    #[test]
    fn the_limits_a_sentence_states_are_accepted(
        low in 1e-3..1e2f64, more in 0.1..1e3f64, pick in any::<prop::sample::Index>()
    ) {
        let limits = Limits {
            what: "depth",
            low: Length::from_metres(low),
            high: Length::from_metres(low * (1.1 + more)),
            whole: false,
        };
        let unit = pick.get(Length::UNITS);
        let Err(EntryProblem::OutOfBounds { low, high, .. }) =
            Entry::new("1e9", unit.key).read(&limits, DecimalMark::Point)
        else {
            return Err(TestCaseError::fail("not out of bounds"));
        };
        for end in [low.as_str(), high.trim_end_matches(unit.symbol)] {
            let read = Entry::new(end, unit.key).read(&limits, DecimalMark::Point);
            prop_assert!(read.is_ok(), "{} {}: {:?}", end, unit.key, read);
        }
    }

    #[test]
    fn converting_there_and_back_keeps_four_figures(
        value in 0.01..9999.0f64,
        pick in any::<prop::sample::Index>(),
    ) {
        let entry = Entry::of(Length::from_centimetres(value), &Length::CENTIMETRE);
        let to = pick.get(Length::UNITS);
        let there = entry.converted::<Length>(to, DecimalMark::Ask);
        prop_assert_eq!(there.unit(), to.key);
        let read = read_number(there.text(), DecimalMark::Ask).unwrap();
        let exact = Length::from_centimetres(value).in_unit(to);
        prop_assert!((read / exact - 1.0).abs() <= 0.5e-3 * (1.0 + 1e-6));
    }
}
