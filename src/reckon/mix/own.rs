//! Figures of one's own over those of the handbook.

use super::question::{DRAIN_TEST, DrainedAsked, HANDBOOK, OWN_FIGURES, OwnAsked};
use super::substance::Substance;
use crate::handbook::materials::{Material, PoresBy};
use crate::handbook::measuring;
use crate::measure::{Density, Fraction, Length, Limits, Mass, Quantity, Range, Volume};
use crate::reckon::reader::Reader;
use crate::reckon::words;
use crate::science::drain_test::fit::Class;
use crate::science::drain_test::{DrainTest, Field as DrainField, Filling};

const DENSITY: Limits<Density> = Limits::grams_per_litre("Dry weight of a litre", 5.0, 2500.0);
const PORE_SPACE: Limits<Fraction> = Limits::percent("Pore space", 5.0, 99.0);
const WATER: Limits<Fraction> = Limits::percent("Water at 10 cm of suction", 0.5, 98.0);

const MOISTURE: Limits<Fraction> = Limits::percent("Water in what was filled in", 0.0, 95.0);
const VESSEL: Limits<Volume> = Limits::litres("Volume of the vessel", 0.05, 50.0);
const HEIGHT: Limits<Length> = Limits::millimetres("Height of the mark", 20.0, 1000.0);
const WEIGHT: Limits<Mass> =
    Limits::between("Weight", Mass::from_grams(1.0), Mass::from_kilograms(100.0));

/// Water that no suction draws, as the most of the water at 10 cm of suction.
const MOST_HELD_BACK: f64 = 0.9;

/// The figures of a part: the handbook's, or one's own over them. Paths of its fields begin with `at`.
pub fn read(
    material: &'static Material,
    asked: &OwnAsked,
    at: &str,
    reader: &mut Reader,
) -> Option<Substance> {
    let handbook = Substance::of(material);
    match asked.figures.as_str() {
        HANDBOOK => Some(handbook),
        OWN_FIGURES => read_own(handbook, asked, at, reader),
        DRAIN_TEST => read_drained(handbook, asked, at, reader),
        other => {
            let known = [HANDBOOK, OWN_FIGURES, DRAIN_TEST].into_iter();
            let sentence = words::not_in_list(words::WHOSE_FIGURES, other, known);
            reader.say(&[at, "figures"].concat(), sentence);
            None
        }
    }
}

/// Figures typed one by one; what is not typed stays as the handbook has it.
fn read_own(
    handbook: Substance,
    asked: &OwnAsked,
    at: &str,
    reader: &mut Reader,
) -> Option<Substance> {
    let path = |name: &str| [at, name].concat();
    let density = reader.read_if_typed(&path("density"), &asked.density, &DENSITY);
    let pore_space = reader.read_if_typed(&path("pore_space"), &asked.pore_space, &PORE_SPACE);
    let water_path = path("water_at_10_cm");
    let water = reader.read_if_typed(&water_path, &asked.water_at_10_cm, &WATER);
    let spread =
        |typed: f64, spread: f64| Range::new((typed - spread).max(0.0), typed, typed + spread).ok();
    let over = |typed: Option<Fraction>, usual: Range<f64>| {
        typed
            .and_then(|typed| spread(typed.to_base(), measuring::SHARE_OFF))
            .unwrap_or(usual)
    };
    let own = Substance {
        dry_density_g_per_l: density
            .map(Density::in_grams_per_litre)
            .and_then(|typed| spread(typed, typed * measuring::DENSITY_OFF))
            .unwrap_or(handbook.dry_density_g_per_l),
        pore_space: over(pore_space, handbook.pore_space),
        water_at_10_cm: over(water, handbook.water_at_10_cm),
        pores_by: if pore_space.is_some() {
            PoresBy::Soaking
        } else {
            handbook.pores_by
        },
        ..handbook
    };
    // What was measured stands, and the class gives way: it cannot hold back more than that.
    let held_back = own.water_at_10_cm.low() * MOST_HELD_BACK;
    let pores = own.pore_space.best();
    let residual = own.shape.residual_at(pores).min(held_back);
    let own = Substance {
        shape: own.shape.with_residual(residual, pores),
        ..own
    };
    if own.water_at_10_cm.best() >= own.pore_space.best() {
        reader.say(
            &water_path,
            words::more_water_than_pores(own.water_at_10_cm.best(), own.pore_space.best()),
        );
        return None;
    }
    Some(own)
}

/// Figures out of a drain test, in one vessel or in two of different heights.
fn read_drained(
    handbook: Substance,
    asked: &OwnAsked,
    at: &str,
    reader: &mut Reader,
) -> Option<Substance> {
    let moisture_path = [at, "moisture"].concat();
    let moisture = reader.read(&moisture_path, &asked.moisture, &MOISTURE);
    let (short_at, tall_at) = ([at, "short."].concat(), [at, "tall."].concat());
    let short = read_vessel(&asked.short, &short_at, reader);
    let tall = if asked.tall.is_blank() {
        None
    } else {
        Some(read_vessel(&asked.tall, &tall_at, reader)?)
    };
    let (moisture, short) = (moisture?.to_base(), short?);
    let share = |off: f64| Fraction::from_base((moisture + off).max(0.0));
    let test = DrainTest {
        fillings: [Some(short), tall].into_iter().flatten().collect(),
        moisture: Range::new(
            share(-measuring::MOISTURE_OFF),
            share(0.0),
            share(measuring::MOISTURE_OFF),
        )
        .ok(),
        scale_step: Mass::from_grams(measuring::SCALE_STEP_G),
    };
    let class = Class {
        curve: handbook.retention().ok()?,
        particle_density: None,
    };
    match test.fitted(&class) {
        Ok(fitted) => Some(Substance {
            dry_density_g_per_l: fitted.dry_density_g_per_l,
            pore_space: fitted.pore_space,
            pores_by: PoresBy::Soaking,
            water_at_10_cm: fitted.water_at_10_cm,
            shape: handbook
                .shape
                .with_residual(fitted.residual(), fitted.pore_space.best()),
        }),
        Err(refusal) => {
            let vessel = if refusal.filling == Some(1) {
                &tall_at
            } else {
                &short_at
            };
            let path = match refusal.field {
                DrainField::Volume => [vessel, "volume"].concat(),
                DrainField::Height => [vessel, "height"].concat(),
                DrainField::Filled | DrainField::Dry => [vessel, "filled"].concat(),
                DrainField::Soaked => [vessel, "soaked"].concat(),
                DrainField::Drained => [vessel, "drained"].concat(),
                DrainField::Moisture | DrainField::ScaleStep => moisture_path,
                DrainField::Whole => [at, "figures"].concat(),
            };
            reader.say(&path, refusal.to_string());
            None
        }
    }
}

fn read_vessel(asked: &DrainedAsked, at: &str, reader: &mut Reader) -> Option<Filling> {
    let path = |name: &str| [at, name].concat();
    let volume = reader.read(&path("volume"), &asked.volume, &VESSEL);
    let height = reader.read(&path("height"), &asked.height, &HEIGHT);
    let filled = reader.read(&path("filled"), &asked.filled, &WEIGHT);
    let soaked = reader.read(&path("soaked"), &asked.soaked, &WEIGHT);
    let drained = reader.read(&path("drained"), &asked.drained, &WEIGHT);
    Some(Filling {
        volume: volume?,
        height: height?,
        filled: filled?,
        soaked: soaked?,
        drained: drained?,
        dry: None,
    })
}
