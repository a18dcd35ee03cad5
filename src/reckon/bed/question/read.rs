//! Reading the question of Bed; every problem is told at its field.

use super::case::{Case, Day, Demand, Fills, Laid};
use super::{
    ABOVE, BEDDED, BELOW, BY_HAND, BedAsked, FLOAT, HELD, HOLES, LEAVES, LITRES, NO, PlantAsked,
    Question, SECOND, UNDER_POTS, WHOLE_TRAY, YES, tube,
};
use crate::handbook::bed_media::{BED_MEDIA, BY_TUBE, OWN, bed_medium, of_grain};
use crate::handbook::sources::COMMON_PRACTICE;
use crate::handbook::thirst::{BY_SUN_ALONE, HABITS, MEAN_SUN_MJ_PER_M2, OWN_DAY, WEATHER};
use crate::handbook::{figure, thresholds};
use crate::measure::{Area, DecimalMark, Entry, Length, Limits, Number, Range, Volume};
use crate::reckon::bed::{physics, words};
use crate::reckon::mix::{self, Mix, SQUARE};
use crate::reckon::reader::Reader;
use crate::reckon::{Problem, Reckoning, materials, words as of_all};

const GRAIN: Limits<Length> = Limits::millimetres("Grain of the bed", 0.1, 20.0);
const WALL: Limits<Length> = Limits::millimetres("Wall of the tray", 10.0, 300.0);
const LEVEL: Limits<Length> = Limits::millimetres("Depth of water in the tray", 2.0, 200.0);
const SLOPE: Limits<Length> = Limits::millimetres("Slope of the tray", 0.0, 100.0);
const TRAY_AREA: Limits<Area> = Limits::between(
    "Floor of the tray",
    Area::from_square_metres(0.01),
    Area::from_square_metres(100.0),
);
const TRAYS: Limits<Number> = Limits {
    whole: true,
    ..Limits::number("Number of trays", 1.0, 10_000.0)
};
const DRINKS: Limits<Volume> = Limits::litres("What a plant drinks in a day", 0.005, 20.0);
const BREADTH: Limits<Length> = Limits::millimetres("Breadth of the leaves", 20.0, 2000.0);
const SUN: Limits<Number> = Limits::number("Sun outdoors", 1.0, 35.0);
const ROOTED: Limits<Length> = Limits::millimetres("Depth of the roots", 5.0, 1000.0);
const PRICE: Limits<Number> = Limits::number("Price of a bag", 0.0, 1e6);

/// Depths are looked at so far apart, and no deeper than this under pots on heaps of their own.
const APART: Length = Length::from_millimetres(5.0);
/// A bed deeper than this is looked at no more.
const DEEPEST: Length = Length::from_millimetres(150.0);
/// Pots may stand closer than their spacing says by this share of the tray, for edges.
const EDGES: f64 = 1.05;

/// Reads a question; every problem found comes back, each at its field.
pub fn check(question: &Question, mark: DecimalMark) -> Result<Case, Vec<Problem>> {
    let mut reader = Reader::new(mark);
    let area = reader.read_if_typed("tray.area", &question.tray.area, &TRAY_AREA);
    let second = second_there(question, &mut reader);
    let mixed = first_pot(question, area, second, &mut reader, mark);
    let trays = reader.read("tray.number", &question.tray.number, &TRAYS);
    let contact = reader.one_of(
        "contact",
        words::A_CONTACT,
        &question.contact,
        &[BEDDED, HOLES],
    );
    let medium = medium(&question.bed, &mut reader);
    let extent = reader.one_of(
        "bed.extent",
        words::AN_EXTENT,
        &question.bed.extent,
        &[WHOLE_TRAY, UNDER_POTS],
    );
    let bag = reader.read("bed.bag", &question.bed.bag, &materials::BAG);
    let price = reader.read_if_typed("bed.price", &question.bed.price, &PRICE);
    let wall = reader.read("tray.wall", &question.tray.wall, &WALL);
    let filling = reader.one_of(
        "tray.filling",
        words::A_FILLING,
        &question.tray.filling,
        &[FLOAT, HELD, BY_HAND],
    );
    let level = reader.read("tray.level", &question.tray.level, &LEVEL);
    let slope = reader.read("tray.slope", &question.tray.slope, &SLOPE);
    let demand = demand(&question.plant, &mut reader);
    let day = day(&question.plant, &mut reader);
    let rooted = reader.read_if_typed("plant.rooted", &question.plant.rooted, &ROOTED);
    let roots_in_bed = reader.one_of(
        "plant.roots_in_bed",
        words::A_YES_OR_NO,
        &question.plant.roots_in_bed,
        &[NO, YES],
    );
    let wetted = reader.one_of(
        "wetted",
        words::A_WETTING,
        &question.wetted,
        &[ABOVE, BELOW],
    );
    if let (Some(wall), Some(level)) = (wall, level)
        && level > wall
    {
        reader.say("tray.level", words::over_the_wall(wall));
    }
    if let (Some(mix), Some(level)) = (&mixed, level)
        && level >= mix.fill
    {
        reader.say("tray.level", words::over_the_pot(mix.fill));
    }
    if let (Some(mix), Some(rooted)) = (&mixed, rooted)
        && rooted > mix.fill
    {
        reader.say("plant.rooted", words::roots_beyond_the_pot(mix.fill));
    }
    if let (Some(slope), Some(level)) = (slope, level)
        && slope >= level
    {
        reader.say("tray.slope", words::too_steep(level));
    }
    let case = (|| {
        let mix = mixed?;
        let bench = mix.bench?;
        let (wall, extent) = (wall?, extent?);
        let deepest = if extent == 0 { wall } else { DEEPEST };
        Some(Case {
            pots: mix.pots,
            trays: trays?.in_count(),
            ground: Area::from_square_metres(1.0 / bench.pots.in_per_square_metre()),
            bench_limit: bench.limit,
            bedded: contact? == 0,
            medium: medium?,
            whole_tray: extent == 0,
            bag: bag?,
            price: price.map(Number::in_count),
            wall,
            fills: [Fills::WhenEmpty, Fills::Held, Fills::Daily]
                .get(filling?)
                .copied()?,
            level: level?,
            slope: slope?,
            demand: demand?,
            day: day?,
            rooted: rooted.unwrap_or(mix.fill),
            roots_in_bed: roots_in_bed? == 1,
            wetted_from_below: wetted? == 1,
            plugs: 0.0,
            beside: None,
            depths: depths_to(if deepest < DEEPEST { deepest } else { DEEPEST }),
            mix: mix::Case {
                limits: thresholds::limits("fed_from_below")?,
                ..mix
            },
        })
    })();
    let case = match (case, second) {
        (Some(case), Some(true)) => beside(case, question, &mut reader, mark),
        (case, _) => case,
    };
    if let Some(case) = &case {
        fits(case, area, &mut reader);
    }
    match case {
        Some(case) if reader.problems.is_empty() => {
            physics::answerable(&case).map_err(|problem| vec![problem])?;
            Ok(share_out(case, area))
        }
        _ => Err(reader.problems),
    }
}

/// Whether there is a second kind of pot.
fn second_there(question: &Question, reader: &mut Reader) -> Option<bool> {
    reader
        .one_of(
            "second.there",
            words::A_YES_OR_NO,
            &question.second.there,
            &[NO, YES],
        )
        .map(|place| place == 1)
}

/// The question of Mix about the pot asked about first. Without a spacing the tray's area is shared out
/// among its pots.
fn first_pot(
    question: &Question,
    area: Option<Area>,
    second: Option<bool>,
    reader: &mut Reader,
    mark: DecimalMark,
) -> Option<mix::Case> {
    let mut of_mix = mix::Question {
        parts: question.parts.clone(),
        pot: question.pot.clone(),
        pots: question.pots.clone(),
        bench: question.bench.clone(),
        ..mix::Question::default()
    };
    let shared = question.bench.spacing.is_empty() && second == Some(false);
    if let (true, Some(area)) = (shared, area)
        && let Ok(pots) = question.pots.read(&mix::POT_COUNT, mark)
    {
        let each = Length::from_metres((area.in_square_metres() / pots.in_count()).sqrt());
        of_mix.bench.spacing = Entry::of(each, &Length::METRE);
        SQUARE.clone_into(&mut of_mix.bench.set_out);
    } else if question.bench.spacing.is_empty() {
        reader.say("bench.spacing", words::spacing_wanted());
    }
    match Mix::check(&of_mix, mark) {
        Ok(case) => Some(case),
        Err(problems) => {
            let told = problems.into_iter().map(|problem| {
                if shared && problem.field == "bench.spacing" {
                    Problem::at("tray.area", words::pots_do_not_fit())
                } else {
                    problem
                }
            });
            reader.problems.extend(told);
            None
        }
    }
}

/// A case with the second kind of pot beside it.
fn beside(case: Case, question: &Question, reader: &mut Reader, mark: DecimalMark) -> Option<Case> {
    let asked = &question.second;
    let of_mix = mix::Question {
        parts: question.parts.clone(),
        pot: asked.pot.clone(),
        pots: asked.pots.clone(),
        bench: mix::BenchAsked {
            spacing: asked.spacing.clone(),
            ..question.bench.clone()
        },
        ..mix::Question::default()
    };
    let plant = PlantAsked {
        drinks: asked.drinks.clone(),
        habit: asked.habit.clone(),
        breadth: asked.breadth.clone(),
        ..question.plant.clone()
    };
    if asked.spacing.is_empty() {
        reader.say("second.spacing", words::spacing_wanted());
    }
    let mut own = Reader::new(mark);
    let demand = demand(&plant, &mut own);
    let mixed = Mix::check(&of_mix, mark)
        .map_err(|problems| own.problems.extend(problems))
        .ok();
    for problem in own.problems {
        let field = problem.field.as_str();
        let at = match field {
            "bench.spacing" => "spacing",
            "plant.drinks" => "drinks",
            "plant.habit" => "habit",
            "plant.breadth" => "breadth",
            field if field == "pots" || field.starts_with("pot.") => field,
            // What both share is told once, at the first.
            _ => continue,
        };
        reader.say(&[SECOND, at].concat(), problem.sentence.clone());
    }
    let mix = mixed?;
    // What stands over both is told once, at the first.
    if case.level >= mix.fill && case.level < case.mix.fill {
        reader.say("tray.level", words::over_the_pot(mix.fill));
    }
    let ground = Area::from_square_metres(1.0 / mix.bench?.pots.in_per_square_metre());
    let second = Case {
        pots: mix.pots,
        ground,
        demand: demand?,
        // Roots reach as far in proportion.
        rooted: mix.fill * (case.rooted / case.mix.fill),
        mix: mix::Case {
            limits: case.mix.limits,
            ..mix
        },
        ..case.clone()
    };
    Some(Case {
        beside: Some(Box::new(second)),
        ..case
    })
}

/// Whether the pots fit in the tray.
fn fits(case: &Case, area: Option<Area>, reader: &mut Reader) {
    let Some(area) = area else {
        return;
    };
    if needs(case) > area * EDGES {
        reader.say("tray.area", words::too_many_pots(needs(case)));
    }
}

/// What all pots of a tray take up at their spacing.
fn needs(case: &Case) -> Area {
    case.kinds()
        .fold(Area::from_square_metres(0.0), |sum, kind| {
            sum + kind.ground * kind.pots
        })
}

/// Each pot with its share of a tray of a known area.
fn share_out(mut case: Case, area: Option<Area>) -> Case {
    if let Some(area) = area {
        let share = area / needs(&case);
        case = case.with(|kind| kind.ground = kind.ground * share);
    }
    case
}

fn demand(asked: &PlantAsked, reader: &mut Reader) -> Option<Demand> {
    match reader.one_of("plant.by", words::A_THIRST, &asked.by, &[LITRES, LEAVES])? {
        0 => reader
            .read("plant.drinks", &asked.drinks, &DRINKS)
            .map(Demand::Told),
        _ => {
            let habit = reader.choose("plant.habit", words::A_HABIT, &asked.habit, HABITS, |row| {
                row.key
            });
            let breadth = reader.read("plant.breadth", &asked.breadth, &BREADTH);
            Some(Demand::OfLeaves {
                habit: habit?,
                breadth: breadth?,
            })
        }
    }
}

fn day(asked: &PlantAsked, reader: &mut Reader) -> Option<Day> {
    if asked.weather == OWN_DAY {
        let sun = reader.read("plant.sun", &asked.sun, &SUN)?.in_count();
        let times = sun / MEAN_SUN_MJ_PER_M2.range.best();
        return Some(Day {
            name: words::OWN_DAY,
            times: Range::new(times / BY_SUN_ALONE, times, times * BY_SUN_ALONE).ok()?,
        });
    }
    let row = WEATHER.iter().find(|row| row.key == asked.weather);
    reader
        .found("plant.weather", row, || {
            let known = WEATHER.iter().map(|row| row.key).chain([OWN_DAY]);
            of_all::not_in_list(words::A_WEATHER, &asked.weather, known)
        })
        .map(|row| Day {
            name: row.name,
            times: row.times.range,
        })
}

fn depths_to(deepest: Length) -> Vec<Length> {
    let many = (deepest / APART + 1e-9).floor() as usize;
    (0..=many).map(|step| APART * step as f64).collect()
}

fn medium(asked: &BedAsked, reader: &mut Reader) -> Option<Laid> {
    match asked.medium.as_str() {
        OWN => {
            /// The median of one's own grains as told is good to so much either way, as a factor.
            const AS_TOLD: f64 = 1.25;
            let grain = reader
                .read("bed.grain", &asked.grain, &GRAIN)?
                .in_millimetres();
            Some(Laid::by_row(of_grain(figure(
                grain / AS_TOLD,
                grain,
                grain * AS_TOLD,
                &COMMON_PRACTICE,
            ))))
        }
        BY_TUBE => tube::read(&asked.tube, reader),
        chosen => reader
            .found("bed.medium", bed_medium(chosen), || {
                let known = BED_MEDIA.iter().map(|row| row.key);
                of_all::not_in_list(words::A_MEDIUM, chosen, known.chain([OWN, BY_TUBE]))
            })
            .map(|row| Laid::by_row(*row)),
    }
}
