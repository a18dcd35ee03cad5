//! Reads the question of Mix into its case.

use super::case::{Bench, Bought, Case, Fed, Part};
use super::chemistry::Substances;
use super::own;
use super::question::{
    BenchAsked, BucketAsked, MOST_PARTS, NO_FEED, OWN_ROUND, OWN_SQUARE, OWN_VOLUME, PartAsked,
    PotAsked, Question, SQUARE, STAGGERED, USUAL_CHARGE,
};
use crate::handbook::materials::{MATERIALS, Material};
use crate::handbook::measuring;
use crate::handbook::pots::{POTS, pot};
use crate::handbook::thresholds::LIMITS;
use crate::measure::{
    AreaLoad, DecimalMark, Density, Length, Limits, Number, NumberPerArea, Range, SaltConductivity,
    Volume,
};
use crate::reckon::reader::Reader;
use crate::reckon::{Problem, words};
use crate::science::bucket_test;
use crate::science::container::Vessel;

const fn litres(what: &'static str, low: f64, high: f64) -> Limits<Volume> {
    Limits {
        what,
        low: Volume::from_litres(low),
        high: Volume::from_litres(high),
        whole: false,
    }
}

const fn millimetres(what: &'static str, low: f64, high: f64) -> Limits<Length> {
    Limits {
        what,
        low: Length::from_millimetres(low),
        high: Length::from_millimetres(high),
        whole: false,
    }
}

const fn count(what: &'static str, low: f64, high: f64, whole: bool) -> Limits<Number> {
    Limits {
        what,
        low: Number::from_count(low),
        high: Number::from_count(high),
        whole,
    }
}

const AMOUNT: Limits<Number> = count("Parts", 0.0, 1000.0, false);
const BAG: Limits<Volume> = litres("Size of the bag", 1.0, 3000.0);
const PRICE: Limits<Number> = count("Price of a bag", 0.0, 1e6, false);
const IN_HAND: Limits<Volume> = litres("What is in hand", 0.0, 1e6);
const POT_COUNT: Limits<Number> = count("Number of pots", 1.0, 100_000.0, true);
const BREADTH: Limits<Length> = millimetres("Breadth of the pot", 10.0, 1000.0);
const HEIGHT: Limits<Length> = millimetres("Height of the pot", 20.0, 1000.0);
const POT_VOLUME: Limits<Volume> = litres("Volume of the pot", 0.005, 500.0);
const BELOW_RIM: Limits<Length> = millimetres("Space below the rim", 0.0, 500.0);
const TRAY: Limits<Length> = millimetres("Depth of water in the tray", 0.0, 300.0);
const BED: Limits<Length> = millimetres("Depth of the bed", 0.0, 500.0);
const DRINKS: Limits<Volume> = litres("What a plant drinks in a day", 0.001, 50.0);
const SPACING: Limits<Length> = millimetres("From pot to pot", 10.0, 5000.0);
const LOAD: Limits<AreaLoad> = Limits {
    what: "What the bench carries",
    low: AreaLoad::from_kilograms_per_square_metre(1.0),
    high: AreaLoad::from_kilograms_per_square_metre(5000.0),
    whole: false,
};
const LIME: Limits<Density> = Limits {
    what: "Ground limestone",
    low: Density::from_grams_per_litre(0.0),
    high: Density::from_grams_per_litre(50.0),
    whole: false,
};
const ALKALINITY: Limits<Density> = Limits {
    what: "Alkalinity of the water",
    low: Density::from_milligrams_per_litre(0.0),
    high: Density::from_milligrams_per_litre(2000.0),
    whole: false,
};
const SALT: Limits<SaltConductivity> = Limits {
    what: "Conductivity of the water",
    low: SaltConductivity::from_millisiemens_per_centimetre(0.0),
    high: SaltConductivity::from_millisiemens_per_centimetre(60.0),
    whole: false,
};
const LOOSE: Limits<Volume> = litres("All parts, loose", 0.1, 10_000.0);
const MIXED: Limits<Volume> = litres("Volume once mixed", 0.1, 10_000.0);

/// No pot is broader than it is tall by more than this, nor the other way round: outside it a
/// volume and a height do not belong together.
const MOST_BREADTH_TO_HEIGHT: f64 = 10.0;
/// Rim and base of a tapered pot differ at most by this factor.
const MOST_TAPER: f64 = 4.0;
/// A pot filled less than this holds nothing worth reckoning.
const FILL_AT_LEAST: Length = Length::from_millimetres(10.0);

/// Reads a question; every problem found comes back, each at its field.
pub fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
    let mut reader = Reader::new(mark);
    let parts = read_parts(&question.parts, &mut reader);
    let inside = read_pot(&question.pot, &mut reader);
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
    let substances = parts.as_deref().and_then(substances);
    match (parts, substances, inside, pots, limits, tray, bed) {
        (
            Some(parts),
            Some(substances),
            Some((vessel, fill)),
            Some(pots),
            Some(limits),
            Some(tray),
            Some(bed),
        ) if reader.problems.is_empty() => Ok(Case {
            parts,
            pot: pot_called(&question.pot),
            vessel,
            fill,
            pots: pots.in_count(),
            measured_loss,
            tray,
            bed,
            drinks,
            bench,
            substances,
            fed,
            limits,
        }),
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
        let material = read_material(&asked[..index], part, &path("material"), reader);
        let amount = reader.read(&path("amount"), &part.amount, &AMOUNT);
        let bag = reader.read(&path("bag"), &part.bag, &BAG);
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

/// What the parts bring of salt, acidity and nitrogen; a test holds that the handbook has it of all.
fn substances(parts: &[Part]) -> Option<Substances> {
    let shares: Vec<(f64, &str)> = parts
        .iter()
        .map(|part| (part.share, part.material.key))
        .collect();
    Substances::of(&shares)
}

/// The material of a part, which none of the earlier parts may be.
fn read_material(
    earlier: &[PartAsked],
    part: &PartAsked,
    path: &str,
    reader: &mut Reader,
) -> Option<&'static Material> {
    let material = reader.choose(
        path,
        words::A_MATERIAL,
        &part.material,
        MATERIALS,
        |material| material.key,
    )?;
    if earlier.iter().any(|other| other.material == part.material) {
        reader.say(path, words::material_twice(material.name));
    }
    Some(material)
}

/// The inside of a pot and the height of the mix in it, once watered.
pub fn read_pot(asked: &PotAsked, reader: &mut Reader) -> Option<(Vessel, Length)> {
    if let Some(pot) = pot(&asked.size) {
        return Some((pot.vessel(), pot.height - pot.below_rim));
    }
    let vessel = match asked.size.as_str() {
        OWN_ROUND | OWN_SQUARE => {
            let rim = reader.read("pot.rim", &asked.rim, &BREADTH);
            let base = reader.read("pot.base", &asked.base, &BREADTH);
            let height = reader.read("pot.height", &asked.height, &HEIGHT);
            let (rim, base, height) = (rim?, base?, height?);
            if rim / base > MOST_TAPER || base / rim > MOST_TAPER {
                reader.say("pot.base", words::pot_tapers_too_much());
                return None;
            }
            if asked.size == OWN_ROUND {
                Vessel::round(base, rim, height)
            } else {
                Vessel::square(base, rim, height)
            }
        }
        OWN_VOLUME => {
            let volume = reader.read("pot.volume", &asked.volume, &POT_VOLUME);
            let height = reader.read("pot.height", &asked.height, &HEIGHT);
            let (volume, height) = (volume?, height?);
            let vessel = Vessel::straight(volume, height);
            let ratio = vessel.breadth_at(height) / height;
            if !(MOST_BREADTH_TO_HEIGHT.recip()..=MOST_BREADTH_TO_HEIGHT).contains(&ratio) {
                reader.say(
                    "pot.volume",
                    words::volume_and_height_apart(vessel.breadth_at(height)),
                );
                return None;
            }
            vessel
        }
        _ => {
            let known = POTS
                .iter()
                .map(|pot| pot.key)
                .chain([OWN_ROUND, OWN_SQUARE, OWN_VOLUME]);
            reader.say(
                "pot.size",
                words::not_in_list(words::A_POT, &asked.size, known),
            );
            return None;
        }
    };
    let below_rim = reader.read("pot.below_rim", &asked.below_rim, &BELOW_RIM)?;
    let fill = vessel.height() - below_rim;
    if fill < FILL_AT_LEAST {
        reader.say("pot.below_rim", words::pot_not_filled(vessel.height()));
        return None;
    }
    Some((vessel, fill))
}

fn pot_called(asked: &PotAsked) -> &'static str {
    pot(&asked.size).map_or("a pot of my own", |pot| pot.name)
}

/// The bench: none where no spacing is typed.
fn read_bench(asked: &BenchAsked, rim: Option<Length>, reader: &mut Reader) -> Option<Bench> {
    /// Rows that are offset by half a space lie nearer by the height of an even triangle.
    const ROWS_WHEN_STAGGERED: f64 = 0.866_025_403_784_438_6;
    let rows = match asked.set_out.as_str() {
        SQUARE => 1.0,
        STAGGERED => ROWS_WHEN_STAGGERED,
        other => {
            let known = [SQUARE, STAGGERED].into_iter();
            reader.say(
                "bench.set_out",
                words::not_in_list(words::A_WAY_TO_SET_OUT, other, known),
            );
            return None;
        }
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
    let charged = match asked.feed.as_str() {
        USUAL_CHARGE => true,
        NO_FEED => false,
        other => {
            let known = [NO_FEED, USUAL_CHARGE].into_iter();
            let sentence = words::not_in_list(words::A_FEED, other, known);
            reader.say("chemistry.feed", sentence);
            false
        }
    };
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
