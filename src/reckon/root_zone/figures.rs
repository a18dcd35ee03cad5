//! What Root zone comes to, as a table.

use super::case::{Case, Stand};
use super::come::Outcomes;
use crate::measure::{Duration, Fraction, HeatDensity, Number, Temperature, TemperatureDifference};
use crate::reckon::answer::FigureName;
use crate::science::heat::cost::cost_of;

/// A figure of each standing: its name, its label before "on the floor", and its value.
type Row = (
    &'static str,
    &'static str,
    fn(&str, &str) -> FigureName,
    fn(&Outcomes, Stand) -> f64,
);

fn celsius(name: &str, label: &str) -> FigureName {
    FigureName::of::<Temperature>(name, label, Temperature::DEGREE_CELSIUS.key)
}

fn kelvins(name: &str, label: &str) -> FigureName {
    FigureName::of::<TemperatureDifference>(name, label, TemperatureDifference::DEGREE_CELSIUS.key)
}

fn hours(name: &str, label: &str) -> FigureName {
    FigureName::of::<Duration>(name, label, Duration::HOUR.key)
}

fn times(name: &str, label: &str) -> FigureName {
    FigureName::of::<Number>(name, label, Number::ONE.key)
}

/// Seconds of an hour.
const HOUR_S: f64 = 3600.0;

const ROWS: [Row; 7] = [
    (
        "lowest",
        "Roots at their coldest, ",
        celsius,
        |out, stand| out.at(stand).lowest_c(),
    ),
    ("mean", "Roots on the mean, ", celsius, |out, stand| {
        out.at(stand).mean_c()
    }),
    (
        "highest",
        "Roots at their warmest, ",
        celsius,
        |out, stand| out.at(stand).highest_c(),
    ),
    (
        "swing",
        "From coldest to warmest, ",
        kelvins,
        |out, stand| out.at(stand).highest_c() - out.at(stand).lowest_c(),
    ),
    (
        "water",
        "Water in the tray on the mean, ",
        celsius,
        |out, stand| out.at(stand).water_mean_c(),
    ),
    (
        "chilled",
        "A day below the crop’s limit, ",
        hours,
        |out, stand| out.at(stand).chilled_h * HOUR_S,
    ),
    (
        "growth",
        "Growth against the floor, times, ",
        times,
        |out, stand| out.growth(stand).all(),
    ),
];

/// How a standing is called in labels, and in names.
#[must_use]
pub fn called(stand: Stand) -> (&'static str, &'static str) {
    match stand {
        Stand::Floor => ("floor", "on the floor"),
        Stand::Raised => ("raised", "raised"),
        Stand::Bench => ("bench", "on the heated bench"),
    }
}

/// Watts that give a kilowatt-hour in a day.
const WATTS_OF_KWH_A_DAY: f64 = 1000.0 / 24.0;

/// Days of a week.
pub const WEEK: f64 = 7.0;

/// The names.
pub fn names(case: &Case) -> Vec<FigureName> {
    let (_, here) = called(case.stand);
    let mut names = vec![celsius(
        "roots",
        &["Roots at their coldest, ", here].concat(),
    )];
    for stand in Stand::ALL {
        let (key, on) = called(stand);
        names.extend(ROWS.iter().map(|(name, label, make, _)| {
            make(&[key, "_", name].concat(), &[*label, on].concat())
        }));
    }
    names.extend([
        times(
            "raised_alone",
            "Growth by raising alone, in the same air, times",
        ),
        times(
            "raised_air_roots",
            "Growth by warmer roots in the air at that height, times",
        ),
        times("raised_air", "Growth by that air on leaves, times"),
        times("bench_roots", "Growth by warmer roots on the bench, times"),
        times(
            "bench_air",
            "Growth by the air over the bench on leaves, times",
        ),
        kelvins(
            "raised_alone_lowest",
            "Raising alone changes roots at their coldest by",
        ),
        kelvins(
            "raised_alone_mean",
            "Raising alone changes roots on the mean by",
        ),
        times("bench_kwh", "Heat of the bench in a day, kWh/m²"),
        FigureName::of::<HeatDensity>(
            "bench_watts",
            "Heat of the bench on the mean of the day",
            HeatDensity::WATT_PER_SQUARE_METRE.key,
        ),
        FigureName::of::<Fraction>(
            "bench_runs",
            "Share of the day that its heat is on",
            Fraction::PERCENT.key,
        ),
    ]);
    if case.money.tariff.is_some() {
        names.extend([
            times(
                "bench_cost_night",
                "Heat of the whole bench in a night and day, in your money",
            ),
            times(
                "bench_cost",
                "Heat of the whole bench in a week, in your money",
            ),
        ]);
    }
    names
}

/// Their values, in the same order.
pub fn values(case: &Case, out: &Outcomes) -> Vec<f64> {
    let mut values = vec![out.at(case.stand).lowest_c()];
    for stand in Stand::ALL {
        values.extend(ROWS.iter().map(|(_, _, _, value)| value(out, stand)));
    }
    let floor = out.at(Stand::Floor);
    let alone = out.growth_by_raising();
    let by_its_air = out.growth_by_its_air();
    let bench = out.growth(Stand::Bench);
    let kwh = out.at(Stand::Bench).kwh_per_m2;
    values.extend([
        alone.roots,
        by_its_air.roots,
        by_its_air.air,
        bench.roots,
        bench.air,
        out.raised_alone.lowest_c() - floor.lowest_c(),
        out.raised_alone.mean_c() - floor.mean_c(),
        kwh,
        kwh * WATTS_OF_KWH_A_DAY,
        out.at(Stand::Bench).duty,
    ]);
    values.extend(cost(case, kwh));
    values.extend(cost(case, WEEK * kwh));
    values
}

/// What so much heat costs over the whole bench, where the price is known.
#[must_use]
pub fn cost(case: &Case, kwh_per_m2: f64) -> Option<f64> {
    /// A cable gives all that is paid for as heat.
    const HEAT_FOR_EACH_KWH: f64 = 1.0;
    let area_m2 = case.heated.area.in_square_metres();
    cost_of(kwh_per_m2, area_m2, case.money.tariff?, HEAT_FOR_EACH_KWH).ok()
}
