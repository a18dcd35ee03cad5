//! Reads the question of Mix into its case.

use super::case::{Bench, Bought, Case, Fed, Part, substances};
use super::own;
use super::question::{
    BenchAsked, BucketAsked, MOST_PARTS, MOST_POTS, NO_FEED, PartAsked, Question, SQUARE,
    STAGGERED, USUAL_CHARGE,
};
use crate::handbook::measuring;
use crate::handbook::thresholds::LIMITS;
use crate::measure::{
    AreaLoad, DecimalMark, Density, Length, Limits, Number, NumberPerArea, Range, SaltConductivity,
    Volume,
};
use crate::reckon::reader::Reader;
use crate::reckon::{Problem, materials, words};
use crate::science::bucket_test;

const AMOUNT: Limits<Number> = Limits::number("Parts", 0.0, 1000.0);
const PRICE: Limits<Number> = Limits::number("Price of a bag", 0.0, 1e6);
const IN_HAND: Limits<Volume> = Limits::litres("What is in hand", 0.0, 1e6);
/// The number of pots that is asked for.
pub const POT_COUNT: Limits<Number> = Limits {
    whole: true,
    ..Limits::number("Number of pots", 1.0, MOST_POTS)
};
const TRAY: Limits<Length> = Limits::millimetres("Depth of water in the tray", 0.0, 300.0);
const BED: Limits<Length> = Limits::millimetres("Depth of the bed", 0.0, 500.0);
const DRINKS: Limits<Volume> = Limits::litres("What a plant drinks in a day", 0.001, 50.0);
const SPACING: Limits<Length> = Limits::millimetres("From pot to pot", 10.0, 5000.0);
const LOAD: Limits<AreaLoad> = Limits::between(
    "What the bench carries",
    AreaLoad::from_kilograms_per_square_metre(1.0),
    AreaLoad::from_kilograms_per_square_metre(5000.0),
);
const LIME: Limits<Density> = Limits::grams_per_litre("Ground limestone", 0.0, 50.0);
const ALKALINITY: Limits<Density> = Limits::between(
    "Alkalinity of the water",
    Density::from_milligrams_per_litre(0.0),
    Density::from_milligrams_per_litre(2000.0),
);
const SALT: Limits<SaltConductivity> =
    Limits::millisiemens_per_centimetre("Conductivity of the water", 0.0, 60.0);
const LOOSE: Limits<Volume> = Limits::litres("All parts, loose", 0.1, 10_000.0);
const MIXED: Limits<Volume> = Limits::litres("Volume once mixed", 0.1, 10_000.0);

/// Reads a question; every problem found comes back, each at its field.
pub fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
    let mut reader = Reader::new(mark);
    let parts = read_parts(&question.parts, &mut reader);
    let inside = question.pot.read(&mut reader);
    let pots = reader.read("pots", &question.pots, &POT_COUNT);
    let limits = reader.choose(
        "purpose",
        words::A_USE,
        &question.purpose,
        LIMITS,
        |limits| limits.key,
    );
    let stands = &question.stands;
    let tray = reader.read("stands.tray", &stands.tray, &TRAY);
    let bed = reader.read("stands.bed", &stands.bed, &BED);
    let drinks = reader.read_if_typed("stands.drinks", &stands.drinks, &DRINKS);
    let widest = inside.map(|(vessel, _)| vessel.breadth_at(vessel.height()));
    let bench = read_bench(&question.bench, widest, &mut reader);
    let fed = read_fed(question, &mut reader);
    let measured_loss = read_bucket(&question.bucket, parts.as_deref(), &mut reader);
    match (parts, inside, pots, limits, tray, bed) {
        (Some(parts), Some((vessel, fill)), Some(pots), Some(limits), Some(tray), Some(bed))
            if reader.problems.is_empty() =>
        {
            Ok(Case {
                substances: substances(&parts),
                parts,
                pot: question.pot.called(),
                vessel,
                fill,
                pots: pots.in_count(),
                measured_loss,
                tray,
                bed,
                drinks,
                bench,
                fed,
                limits,
            })
        }
        _ => Err(reader.problems),
    }
}

fn read_parts(asked: &[PartAsked], reader: &mut Reader) -> Option<Vec<Part>> {
    if asked.is_empty() {
        reader.say("parts", words::mix_without_parts());
        return None;
    }
    if asked.len() > MOST_PARTS {
        reader.say("parts", words::mix_of_too_many_parts(MOST_PARTS));
        return None;
    }
    let mut read = Vec::with_capacity(asked.len());
    for (index, part) in asked.iter().enumerate() {
        let at = ["parts.", &index.to_string(), "."].concat();
        let path = |name: &str| [&at, name].concat();
        let material = materials::read(
            &path("material"),
            &part.material,
            asked
                .iter()
                .take(index)
                .map(|other| other.material.as_str()),
            words::material_twice,
            reader,
        );
        let amount = reader.read(&path("amount"), &part.amount, &AMOUNT);
        let bag = reader.read(&path("bag"), &part.bag, &materials::BAG);
        let price = reader.read_if_typed(&path("price"), &part.price, &PRICE);
        let in_hand = reader.read_if_typed(&path("in_hand"), &part.in_hand, &IN_HAND);
        let Some(material) = material else { continue };
        let substance = own::read(material, &part.own, &path("own."), reader);
        if let (Some(substance), Some(amount), Some(bag)) = (substance, amount, bag) {
            let bought = Bought {
                bag,
                price: price.map(Number::in_count),
                in_hand: in_hand.unwrap_or(Volume::from_litres(0.0)),
            };
            match Part::made_of(material, substance, amount.in_count(), bought) {
                Ok(part) => read.push(part),
                Err(_) => reader.say(&path("own.figures"), words::no_such_curve(material.name)),
            }
        }
    }
    let sum: f64 = read.iter().map(|part| part.share).sum();
    if read.len() == asked.len() && sum <= 0.0 {
        reader.say("parts.0.amount", words::mix_of_nothing());
        return None;
    }
    read.retain(|part| part.share > 0.0);
    for part in &mut read {
        part.share /= sum;
    }
    Some(read)
}

/// The bench: none where no spacing is typed.
fn read_bench(asked: &BenchAsked, rim: Option<Length>, reader: &mut Reader) -> Option<Bench> {
    /// Rows that are offset by half a space lie nearer by the height of an even triangle.
    const ROWS_WHEN_STAGGERED: f64 = 0.866_025_403_784_438_6;
    let rows = match reader.one_of(
        "bench.set_out",
        words::A_WAY_TO_SET_OUT,
        &asked.set_out,
        &[SQUARE, STAGGERED],
    )? {
        0 => 1.0,
        _ => ROWS_WHEN_STAGGERED,
    };
    let limit = reader.read_if_typed("bench.limit", &asked.limit, &LOAD);
    let spacing = reader.read_if_typed("bench.spacing", &asked.spacing, &SPACING)?;
    if let Some(rim) = rim.filter(|rim| spacing < *rim) {
        reader.say("bench.spacing", words::pots_closer_than_they_are_wide(rim));
        return None;
    }
    let metres = spacing.in_metres();
    Some(Bench {
        pots: NumberPerArea::from_per_square_metre(1.0 / (metres * metres * rows)),
        limit,
    })
}

fn read_fed(question: &Question, reader: &mut Reader) -> Fed {
    let asked = &question.chemistry;
    let lime = reader.read_if_typed("chemistry.lime", &asked.lime, &LIME);
    let alkalinity = reader.read_if_typed("chemistry.alkalinity", &asked.alkalinity, &ALKALINITY);
    let conductivity = reader.read_if_typed("chemistry.conductivity", &asked.conductivity, &SALT);
    let charged = reader.one_of(
        "chemistry.feed",
        words::A_FEED,
        &asked.feed,
        &[NO_FEED, USUAL_CHARGE],
    ) == Some(1);
    /// Millisiemens per metre in one per centimetre.
    const PER_METRE: f64 = 100.0;
    Fed {
        charged,
        lime_g_per_l: lime.map_or(0.0, Density::in_grams_per_litre),
        alkalinity_mg_per_l: alkalinity.map(Density::in_milligrams_per_litre),
        water_ms_per_m: conductivity.map(|salt| salt.in_millisiemens_per_centimetre() * PER_METRE),
    }
}

/// A bucket test: both volumes or neither.
fn read_bucket(
    asked: &BucketAsked,
    parts: Option<&[Part]>,
    reader: &mut Reader,
) -> Option<Range<f64>> {
    if asked.loose.is_empty() && asked.mixed.is_empty() {
        return None;
    }
    let loose = reader.read("bucket.loose", &asked.loose, &LOOSE);
    let mixed = reader.read("bucket.mixed", &asked.mixed, &MIXED);
    let (loose, mixed) = (loose?, mixed?);
    let measured_out: Vec<Volume> = parts?.iter().map(|part| loose * part.share).collect();
    let reading = mixed * measuring::BUCKET_READ_TO;
    match bucket_test::volume_lost(&measured_out, mixed, reading) {
        Ok(lost) => Some(lost),
        Err(problem) => {
            reader.say("bucket.mixed", problem.to_string());
            None
        }
    }
}
