//! The figures of Mix as a table: what each is called, when it is asked for, and where it is found.

use super::case::Case;
use super::chemistry::Found;
use super::physics::{EASY_FROM_CM, Mixed};
use super::words;
use crate::handbook::filling;
use crate::measure::{
    AreaLoad, Density, Duration, Fraction, Length, Mass, Number, Quantity, Range, SaltConductivity,
    Volume,
};
use crate::reckon::answer::{Figure, FigureName, Kind};

/// What a mix comes to, at its best or drawn.
pub struct Come {
    /// Air, water, weight and volume.
    pub mixed: Mixed,
    /// Salt, acidity and nitrogen.
    pub chemistry: Found<f64>,
}

/// A figure that is not of a single part.
struct Row {
    name: &'static str,
    label: fn(&Case) -> &'static str,
    kind: Kind,
    unit: &'static str,
    asked: fn(&Case) -> bool,
    /// The figure in base units.
    of: fn(&Case, &Come) -> f64,
}

/// Figures of the chemistry, in the order of [`Found`].
const CHEMISTRY: [&str; 5] = [
    "extract_conductivity",
    "ph",
    "lime_needed",
    "nitrogen_locked",
    "ph_rise",
];

/// Figures of single parts come after the table, under this and the key of the material.
const PART: &str = "litres_of_";

/// The load on the bench.
pub const BENCH_LOAD: &str = "bench_load";

const SHARE: (Kind, &str) = (Kind::of::<Fraction>(), "%");
const LITRES: (Kind, &str) = (Kind::of::<Volume>(), "L");
const KILOGRAMS: (Kind, &str) = (Kind::of::<Mass>(), "kg");
const PLAIN: (Kind, &str) = (Kind::of::<Number>(), "");

const fn row(
    name: &'static str,
    label: fn(&Case) -> &'static str,
    (kind, unit): (Kind, &'static str),
    asked: fn(&Case) -> bool,
    of: fn(&Case, &Come) -> f64,
) -> Row {
    Row {
        name,
        label,
        kind,
        unit,
        asked,
        of,
    }
}

const fn always(_: &Case) -> bool {
    true
}

static ROWS: &[Row] = &[
    row(
        "air",
        |case| words::judged_air(case.limits.purpose),
        SHARE,
        always,
        |case, Come { mixed, .. }| mixed.judged(case.limits.purpose).air,
    ),
    row(
        "water",
        |_| "water in this pot, once drained",
        SHARE,
        always,
        |_, Come { mixed, .. }| mixed.water,
    ),
    row(
        "air_drained",
        |_| "air in this pot, once drained",
        SHARE,
        always,
        |_, Come { mixed, .. }| mixed.drained_air(),
    ),
    row(
        "air_standing",
        |_| "air in this pot, standing in a filled tray",
        SHARE,
        always,
        |_, Come { mixed, .. }| mixed.standing_air,
    ),
    row(
        "air_over_empty_tray",
        |_| "air in this pot on its bed, the tray just empty",
        SHARE,
        |case| case.bed > Length::from_millimetres(0.0),
        |_, Come { mixed, .. }| mixed.air_over_empty_tray,
    ),
    row(
        "water_in_pot",
        |_| "water in one pot, once drained",
        LITRES,
        always,
        |_, Come { mixed, .. }| litres(mixed.water * mixed.litres_in_pot),
    ),
    row(
        "easy_water_in_pot",
        |_| "of it easily drawn, down to 50 cm of suction",
        LITRES,
        always,
        |_, Come { mixed, .. }| litres(mixed.easy_water_in_pot_litres),
    ),
    row(
        "lasts",
        |_| "a drained pot lasts, from its easily drawn water",
        (Kind::of::<Duration>(), Duration::DAY.key),
        |case| case.drinks.is_some(),
        |case, Come { mixed, .. }| {
            let a_day = case.drinks.map_or(f64::INFINITY, Volume::in_litres);
            Duration::from_days(mixed.easy_water_in_pot_litres / a_day).in_seconds()
        },
    ),
    row(
        "pore_space",
        |_| "pore space that water enters",
        SHARE,
        always,
        |_, Come { mixed, .. }| mixed.pore_space,
    ),
    row(
        "air_trapped",
        |_| "air that stays trapped when a pot is wetted",
        SHARE,
        always,
        |_, Come { mixed, .. }| mixed.trapped_air,
    ),
    row(
        "laboratory_air",
        |_| "laboratory: air at 10 cm of suction",
        SHARE,
        always,
        |_, Come { mixed, .. }| mixed.air_capacity(),
    ),
    row(
        "laboratory_water",
        |_| "laboratory: water at 10 cm of suction",
        SHARE,
        always,
        |_, Come { mixed, .. }| mixed.laboratory_water(EASY_FROM_CM),
    ),
    row(
        "laboratory_easy_water",
        |_| "laboratory: easily available water, 10 to 50 cm of suction",
        SHARE,
        always,
        |_, Come { mixed, .. }| mixed.easy_water,
    ),
    row(
        "laboratory_buffering_water",
        |_| "laboratory: water in reserve, 50 to 100 cm of suction",
        SHARE,
        always,
        |_, Come { mixed, .. }| mixed.buffering_water(),
    ),
    row(
        "dry_density",
        |_| "dry weight of a litre in the pot",
        (Kind::of::<Density>(), Density::GRAM_PER_LITRE.key),
        always,
        |_, Come { mixed, .. }| {
            Density::from_grams_per_litre(mixed.dry_density_g_per_l).in_kilograms_per_cubic_metre()
        },
    ),
    row(
        "dry_weight",
        |_| "dry mix in one pot",
        KILOGRAMS,
        always,
        |_, Come { mixed, .. }| mixed.dry_kg(),
    ),
    row(
        "wet_weight",
        |_| "wet mix in one pot, drained",
        KILOGRAMS,
        always,
        |_, Come { mixed, .. }| mixed.wet_kg(),
    ),
    row(
        BENCH_LOAD,
        |_| "load on the bench, wet, without plants and pots",
        (
            Kind::of::<AreaLoad>(),
            AreaLoad::KILOGRAM_PER_SQUARE_METRE.key,
        ),
        |case| case.bench.is_some(),
        bench_load,
    ),
    row(
        "volume_lost",
        |_| "volume lost on mixing",
        SHARE,
        always,
        |_, Come { mixed, .. }| mixed.volume_lost,
    ),
    row(
        "mix_in_pot",
        |_| "mix in one pot",
        LITRES,
        always,
        |_, Come { mixed, .. }| litres(mixed.litres_in_pot),
    ),
    row(
        "mix_needed",
        |_| "loose mix for all pots",
        LITRES,
        always,
        |_, Come { mixed, .. }| litres(mixed.litres_needed),
    ),
    row(
        CHEMISTRY[0],
        |_| "salt: conductivity of a 1:5 extract",
        (
            Kind::of::<SaltConductivity>(),
            SaltConductivity::MILLISIEMENS_PER_METRE.key,
        ),
        always,
        |_, come| {
            SaltConductivity::from_millisiemens_per_metre(come.chemistry.conductivity_ms_per_m)
                .to_base()
        },
    ),
    row(
        CHEMISTRY[1],
        |_| "pH in water, a bracket",
        PLAIN,
        always,
        |_, come| come.chemistry.ph,
    ),
    row(
        CHEMISTRY[2],
        |_| "ground limestone that takes it to about pH 6",
        (Kind::of::<Density>(), Density::GRAM_PER_LITRE.key),
        always,
        |_, come| Density::from_grams_per_litre(come.chemistry.lime_needed_g_per_l).to_base(),
    ),
    row(
        CHEMISTRY[3],
        |_| "nitrogen that rotting may lock up",
        (Kind::of::<Density>(), Density::MILLIGRAM_PER_LITRE.key),
        always,
        |_, come| {
            Density::from_milligrams_per_litre(come.chemistry.nitrogen_locked_mg_per_l).to_base()
        },
    ),
    row(
        CHEMISTRY[4],
        |_| "how far a season of this water may raise the pH",
        PLAIN,
        |case| case.fed.alkalinity_mg_per_l.is_some(),
        |_, come| come.chemistry.ph_rise,
    ),
    row(
        "cost",
        |_| "worth of the materials for all pots, in your money",
        PLAIN,
        Case::priced,
        cost,
    ),
    row(
        "cost_of_pot",
        |_| "worth of the materials in one pot, in your money",
        PLAIN,
        Case::priced,
        |case, come| cost(case, come) / case.pots,
    ),
];

fn litres(litres: f64) -> f64 {
    Volume::from_litres(litres).in_cubic_metres()
}

/// What lies on the bench, kg/m²: wet pots, the water of the tray, and the bed under them.
fn bench_load(case: &Case, Come { mixed, .. }: &Come) -> f64 {
    let pots = case
        .bench
        .map_or(0.0, |bench| bench.pots.in_per_square_metre());
    let water = Density::from_grams_per_litre(1000.0) * case.tray;
    let bed = Density::from_grams_per_litre(filling::WET_BED_G_PER_L.range.best()) * case.bed;
    pots * mixed.wet_kg() + (water + bed).in_kilograms_per_square_metre()
}

/// What the materials of all pots are worth, by the price of their bags.
fn cost(case: &Case, Come { mixed, .. }: &Come) -> f64 {
    case.parts
        .iter()
        .zip(&mixed.litres_of_parts)
        .filter_map(|(part, litres)| {
            Some(part.bought.price? * litres / part.bought.bag.in_litres())
        })
        .sum()
}

/// The rows that are asked for.
fn asked(case: &Case) -> impl Iterator<Item = &'static Row> {
    ROWS.iter().filter(|row| (row.asked)(case))
}

/// The names of the figures.
pub fn names(case: &Case) -> Vec<FigureName> {
    let of_part = |part: &super::Part| {
        FigureName::of::<Volume>(
            [PART, part.material.key].concat(),
            [part.material.name, " to measure out"].concat(),
            "L",
        )
    };
    asked(case)
        .map(|row| FigureName {
            name: row.name.to_owned(),
            label: (row.label)(case).to_owned(),
            kind: row.kind,
            unit: row.unit,
        })
        .chain(case.parts.iter().map(of_part))
        .collect()
}

/// The figures in base units, in the order of their names.
pub fn values(case: &Case, come: &Come) -> Vec<f64> {
    asked(case)
        .map(|row| (row.of)(case, come))
        .chain(come.mixed.litres_of_parts.iter().copied().map(litres))
        .collect()
}

/// Whether a figure is of a single part.
pub fn is_of_part(name: &str) -> bool {
    name.starts_with(PART)
}

/// The chemistry among the figures with their ranges, each in the unit of its field.
pub fn chemistry(figures: &[Figure], best: &Found<f64>) -> Found<Range<f64>> {
    let best = best.as_array();
    let mut place = 0;
    Found::of(CHEMISTRY.map(|name| {
        let best = best[place];
        place += 1;
        let figure = figures.iter().find(|figure| figure.name.name == name);
        let unit = figure.and_then(|figure| figure.unit_or_own(None));
        figure
            .zip(unit)
            .map_or(Range::exact(best), |(figure, unit)| figure.in_unit(unit))
    }))
}
