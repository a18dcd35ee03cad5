//! The sentences of Season.

use super::case::{Batch, Case, Germination, Sowing};
use super::inputs::{fallen, share_of_seeds};
use super::own::Times;
use super::plan::{ColdNights, Plan, Sown};
use super::weeks::{FULL, busiest, fullest, heaviest, to_come};
use crate::handbook::crops::between::Between;
use crate::handbook::crops::{Crop, Property};
use crate::measure::{Length, NumberStyle, STANDARD_NORMAL_90, Volume, significant};
use crate::nursery::Day;
use crate::reckon::answer::Verdict;
use crate::reckon::form::path_in;
use crate::reckon::words::{chances_worth_saying, number, percent};
use crate::science::counting::limits_by_clopper_pearson_1934;
use crate::science::germination::seeds_to_sow_when_shares_differ;

/// The thing chosen, for a choice that is not in its list.
pub const A_CERTAINTY: &str = "certainty";
/// The thing chosen, for a choice that is not in its list.
pub const A_DAY: &str = "kind of day";
/// The thing chosen, for a choice that is not in its list.
pub const A_KEEPING: &str = "way of keeping seed";
/// The thing chosen, for a choice that is not in its list.
pub const A_WARMTH: &str = "kind of warmth";
/// Label of a figure.
pub const FULLEST: &str = "Room taken on the fullest bench in its fullest week";
/// Label of a figure.
pub const BUSIEST: &str = "Work of the busiest week";
/// Label of a figure, before the sowing.
pub const SEEDS: &str = "Seeds to sow: ";
/// Label of a figure, before the sowing.
pub const COMES_UP: &str = "Comes up after: ";
/// Label of a figure, before the sowing.
pub const IS_POTTED: &str = "Is potted or moved after: ";
/// Label of a figure, before the sowing.
pub const IS_READY: &str = "Is ready after: ";
/// Step of a caution.
pub const BEFORE_BUYING: &str = "Before you buy seed";
/// Step of a caution.
pub const BEFORE_SOWING: &str = "Before you sow treated seed";
/// What is worked out.
pub const WHAT_SEEDS: &str = "Cells or pots to sow";
/// What is worked out.
pub const WHAT_DAYS: &str = "Days from sowing to ready";
/// What is worked out.
pub const WHAT_BETWEEN: &str = "How far days may be out";
/// What is worked out.
pub const WHAT_ROOM: &str = "Pots that find room";

/// What is worked out.
pub const WHAT_AGE: &str = "What is left of old seed";
/// What is worked out.
pub const WHAT_OWN: &str = "What your own batches tell";
/// What batches tell.
pub const OWN_COMES_UP: &str = "time to come up";
/// What batches tell.
pub const OWN_GROWS: &str = "warmth until ready";
/// A unit: of what is usual.
pub const TIMES: &str = "times";
/// A unit.
pub const DEGREE_DAYS: &str = "°C d";

/// The field of a row of what is sown already.
pub fn at_batch(row: usize, name: &str) -> String {
    path_in("batches", row, name)
}

/// The field of a row of what is wanted.
pub fn at(row: usize, name: &str) -> String {
    path_in("sowings", row, name)
}

/// A crop that is grown from cuttings.
pub fn not_from_seed() -> String {
    "This is grown from cuttings, and has no sowing. Choose another, or a crop from seed that is as quick."
        .to_owned()
}

/// A place that is not there.
pub fn no_such_place(places: usize) -> String {
    match places {
        0 => "Add a place first.".to_owned(),
        1 => "There is one place: choose it, or add another.".to_owned(),
        _ => format!("Choose one of the {places} places, or add another."),
    }
}

/// A place that has no name.
pub fn place_without_name(row: usize) -> String {
    ["place ", &(row + 1).to_string()].concat()
}

/// A test without its share.
pub fn share_of_test_wanted() -> String {
    "Say also what share of these seeds came up, such as 85 %.".to_owned()
}

/// A crop of which too little is known.
pub fn not_known_enough() -> String {
    "Of this crop too little is known to foretell its days. Choose one that is as quick.".to_owned()
}

/// A crop whose share is not known.
pub fn share_not_known() -> String {
    "Say what share of this seed comes up, such as 80 %: what is usual is not known.".to_owned()
}

/// More seeds than can be reckoned.
pub fn too_many_seeds() -> String {
    "So few come up that more than 100,000 would have to be sown. Buy fresh seed, or want fewer."
        .to_owned()
}

/// No pot finds room.
pub fn no_room_for_one() -> String {
    "Not one pot finds room at this distance. Say how large the places are, or set pots closer."
        .to_owned()
}

/// Never ready.
pub fn never_ready() -> String {
    "In these places and at this time of the year it does not come up or grow within 500 days. Choose a warmer place, or another day."
        .to_owned()
}

/// No places.
pub fn no_places() -> String {
    "Add a place where plants may stand.".to_owned()
}

/// Nothing wanted.
pub fn nothing_wanted() -> String {
    "Add what is wanted.".to_owned()
}

/// Too many rows.
pub fn too_many_of(list: &str, most: usize) -> String {
    let what = match list {
        "places" => "places",
        "batches" => "batches",
        "parts" => "parts",
        _ => "rows",
    };
    format!("At most {most} {what} are reckoned at once. Take some out.")
}

/// A day before one that must have come first.
pub fn before_it_was(of: &str, before: Day) -> String {
    format!(
        "It was {of} on {}: this day cannot be before that.",
        before.in_words()
    )
}

/// More lost than there were.
pub fn more_lost_than_came_up() -> String {
    "More are lost than came up. Write how many of those that came up were lost.".to_owned()
}

/// A part of the mix that has no name.
pub fn part_without_name(row: usize) -> String {
    ["part ", &(row + 1).to_string()].concat()
}

/// A batch in labels: "sweet basil, sown 28 March".
pub fn batch_sown(batch: &Batch) -> String {
    [batch.crop.name, ", sown ", &batch.sown.in_words()].concat()
}

/// What the range of a day holds, beside the handbook's own ranges and the weather.
pub fn between(of: Between) -> String {
    format!(
        "beside the handbook’s own ranges, the weather of the season and how a bench is held: σ {} until it is up, {} from then on, by other seed, varieties, hands and what is called ready; none where your own batches tell",
        number(of.comes_up, 2),
        number(of.grows, 2)
    )
}

/// The same as times, in 8 of 10.
pub fn times_between(of: Between) -> String {
    let ends = |deviation: f64| {
        let tenth = (deviation * STANDARD_NORMAL_90).exp();
        [&number(tenth.recip(), 2), " to ", &number(tenth, 2)].concat()
    };
    format!(
        "{} times as long, then {} times, in 8 of 10",
        ends(of.comes_up),
        ends(of.grows)
    )
}

/// What one's own batches tell, crop by crop.
pub fn own_of_case(case: &Case) -> String {
    let told = case.crops.iter().zip(&case.own).filter_map(|(crop, own)| {
        let of = |what: &str, times: Option<Times>| {
            let times = times?;
            Some(format!(
                "{what} {} of the handbook’s by {}",
                percent(times.mean.exp()),
                batches(times.batches)
            ))
        };
        let both = [of(OWN_COMES_UP, own.comes_up), of(OWN_GROWS, own.grows)];
        let both: Vec<String> = both.into_iter().flatten().collect();
        (!both.is_empty()).then(|| [crop.name, ": ", &both.join(", ")].concat())
    });
    told.collect::<Vec<_>>().join("; ")
}

fn batches(many: u32) -> String {
    if many == 1 {
        "1 batch".to_owned()
    } else {
        format!("{many} batches")
    }
}

/// Too many sowings in all.
pub fn too_many_sown(most: u32) -> String {
    format!(
        "These are more than {most} sowings in all. Sow less often, or reckon a part of the season."
    )
}

/// A sowing in labels: "sweet basil, sown 28 March".
pub fn sowing_on(case: &Case, sown: &Sown) -> String {
    let crop = case.sowings.get(sown.row).map_or("", |row| row.crop.name);
    [crop, ", sown ", &sown.on.in_words()].concat()
}

/// A day; with its year where that is not the year of what is known already.
fn of_day(case: &Case, day: Day) -> String {
    let year = |day: Day| {
        let (year, ..) = day.civil();
        year
    };
    match case.last_known() {
        Some(known) if year(known) != year(day) => {
            [&day.in_words(), "\u{a0}", &year(day).to_string()].concat()
        }
        _ => day.in_words(),
    }
}

fn of_week(case: &Case, day: Day) -> String {
    ["the week of ", &of_day(case, day)].concat()
}

/// The verdict with its sentence.
pub fn verdict(case: &Case, plan: &Plan, verdict: Verdict, chances: Option<[f64; 3]>) -> String {
    let weeks = to_come(case, plan, &plan.weeks);
    let room = fullest(weeks).map_or_else(String::new, |(place, monday, taken)| {
        let name = case
            .stands
            .get(place)
            .map_or("", |stand| stand.name.as_str());
        if taken > FULL {
            format!(
                "Not all find room: in {} {name} would need {} of its room.",
                of_week(case, monday),
                percent(taken)
            )
        } else {
            format!(
                "All find room: {name} is fullest, {} of it in {}.",
                percent(taken),
                of_week(case, monday)
            )
        }
    });
    let mut said = vec![room];
    if let Some((monday, hours)) = busiest(weeks).filter(|(_, hours)| *hours > case.hands.hours) {
        said.push(format!(
            "In {} there are {}\u{a0}h of work, and {}\u{a0}h for it.",
            of_week(case, monday),
            number(hours, 2),
            number(case.hands.hours, 2)
        ));
    }
    if let Some((place, monday, carries)) = heaviest(case, weeks)
        && let Some(stand) = case.stands.get(place)
        && let Some(limit) = stand.carries
        && carries > limit.in_kilograms_per_square_metre()
    {
        said.push(format!(
            "In {} {} would carry {}\u{a0}kg/m², and may carry {}: set pots wider, or find another bench.",
            of_week(case, monday),
            stand.name,
            number(carries, 2),
            number(limit.in_kilograms_per_square_metre(), 2)
        ));
    }
    if verdict != Verdict::Serves && !plan.cold_nights.is_empty() {
        said.push("Some go into a house whose nights are still too cold for them.".to_owned());
    }
    if let Some([fits, tight, not]) = chances {
        let told = chances_worth_saying([
            (fits, "it fits"),
            (tight, "it is tight"),
            (not, "it does not fit"),
        ]);
        if told.len() > 1 {
            said.push([&told.join(", "), "."].concat());
        }
    }
    said.join(" ")
}

/// What to do next, in one or two sentences.
pub fn advice(case: &Case, plan: &Plan) -> String {
    let Some(first) = plan.sown.first() else {
        return String::new();
    };
    let crop = case.sowings.get(first.row).map_or("", |row| row.crop.name);
    let into_pots = case
        .sowings
        .get(first.row)
        .is_some_and(Sowing::sown_in_pots);
    let (cells, plants) = if into_pots {
        ("pots", "pots of it")
    } else {
        ("cells", "plants")
    };
    let each = case.sowings.get(first.row).map_or(1, |row| row.in_cell);
    let seeds = if each > 1 {
        format!(", {each} seeds in each,")
    } else {
        String::new()
    };
    let for_day = first
        .wanted_by
        .map_or_else(String::new, |day| format!(" for {}", of_day(case, day)));
    let others = plan.sown.len() - 1;
    let more = match others {
        0 => String::new(),
        1 => " One more sowing follows.".to_owned(),
        _ => format!(" {others} more sowings follow."),
    };
    format!(
        "Sow {} {cells} of {crop}{seeds} on {}{for_day}: {} in 100 such sowings then have at least {} {plants}.{more}",
        first.cells,
        of_day(case, first.on),
        number(100.0 * case.certainty, 2),
        case.sowings.get(first.row).map_or(0, |row| row.wanted),
    )
}

/// Nights too cold where it goes.
pub fn cold_nights(crop: &Crop, cold: &ColdNights) -> String {
    let limit = crop
        .figure(Property::NightForColdHouse)
        .map_or(0.0, |figure| figure.range.best());
    let from = cold.enough_from.map_or_else(
        || "The nights there are never so warm in an ordinary year.".to_owned(),
        |day| {
            format!(
                "On the mean of years the nights allow it from {}.",
                day.in_words()
            )
        },
    );
    format!(
        "Goes into the house when its mean minimum is about {}\u{a0}°C, and wants {}\u{a0}°C: keep it warm, cover it, or sow later. {from}",
        number((cold.low_c * 10.0).round() / 10.0, 2),
        number(limit, 2)
    )
}

/// One of several ways out: the first stands for itself, each other is another.
pub fn one_way(is_first: bool, way: String) -> String {
    if is_first {
        let mut letters = way.chars();
        let first = letters.next().map(|first| first.to_uppercase().to_string());
        [&first.unwrap_or_default(), letters.as_str()].concat()
    } else {
        ["Or ", &way].concat()
    }
}

/// Batches of which no end is known.
pub fn batches_without_end(many: usize) -> String {
    if many == 1 {
        "say when the batch that stands there goes: of it no end is known, and it is taken to stay."
            .to_owned()
    } else {
        format!(
            "say when the {many} batches that stand there go: of them no end is known, and they are taken to stay."
        )
    }
}

/// Sown later or earlier.
pub fn shifted(crop: &str, weeks: i32) -> String {
    let many = weeks.unsigned_abs();
    let week = if many == 1 { "week" } else { "weeks" };
    let way = if weeks > 0 { "later" } else { "earlier" };
    format!("have {crop} {many} {week} {way}, and all find room.")
}

/// Fewer of them.
pub fn fewer(crop: &str, many: f64) -> String {
    format!(
        "pot {} fewer of {crop} that stand there in that week.",
        number(many, 4)
    )
}

/// Closer together.
pub fn closer(crop: &str, apart: Length) -> String {
    format!(
        "set {crop} {}\u{a0}mm from pot to pot: they draw up the sooner, and disease spreads more easily.",
        number(apart.in_millimetres().floor(), 3)
    )
}

/// Another bench.
pub fn another_bench(area_m2: f64) -> String {
    format!("find {}\u{a0}m² more for that week.", number(area_m2, 2))
}

/// Seed by the packet.
pub fn seed_of(crop: &str, packet: u32) -> String {
    format!("Seed of {crop}, packets of {packet}")
}

/// A number of seeds.
pub fn seeds(many: u32) -> String {
    format!("{many} seeds")
}

/// So much, and what there is of it in hand.
pub fn needed_in_hand(needed: String, in_hand: u32) -> String {
    if in_hand > 0 {
        format!("{needed}, {in_hand} in hand")
    } else {
        needed
    }
}

/// Pots.
pub fn pots(name: &str) -> String {
    format!("Pots, {name}")
}

/// Trays of cells.
pub fn trays(cells: u32) -> String {
    format!("Trays of {cells} cells")
}

/// Something loose by the bag.
pub fn in_bags(name: &str, bag: Volume) -> String {
    format!("{name}, bags of {}\u{a0}L", number(bag.in_litres(), 3))
}

/// What a bed is laid of, by the bag.
pub fn bed_in_bags(bag: Volume) -> String {
    in_bags("Bed under the pots", bag)
}

/// Mix by the bag.
pub fn mix_in_bags(bag: Volume) -> String {
    in_bags("Mix", bag)
}

/// Litres needed of something loose, and in hand.
pub fn litres_needed(litres: f64, in_hand: Volume) -> String {
    let told = |litres: f64| [&significant(litres, 2, NumberStyle::default()), "\u{a0}L"].concat();
    let in_hand = in_hand.in_litres();
    if in_hand > 0.0 {
        [&told(litres), ", ", &told(in_hand), " in hand"].concat()
    } else {
        told(litres)
    }
}

/// What each germination test tells, or would.
pub fn tests(case: &Case, plan: &Plan) -> Vec<String> {
    let told = case.sowings.iter().enumerate().filter_map(|(row, sowing)| {
        let crop = sowing.crop.name;
        let cells = plan.sown.iter().find(|sown| sown.row == row)?.cells;
        if let Some((years, keeping)) = sowing.aged {
            return Some(match fallen(case, row, sowing) {
                Some([fresh, now]) => format!(
                    "Seed of {crop}, {} years {}: of {} fresh about {} would be left. Sow 20 of it on damp paper before you rely on that.",
                    number(years, 2),
                    keeping.name,
                    percent(fresh),
                    percent(now)
                ),
                None => format!(
                    "How seed of {crop} ages is not known here: test 20 of it, and write what came up."
                ),
            });
        }
        match sowing.germination {
            Germination::Tested { up, of } => Some(test_tells(crop, up.min(of), of)),
            Germination::Said(_) | Germination::Usual => {
                let (up, of) = test_of_fifty(sowing)?;
                let tested = Sowing {
                    germination: Germination::Tested { up, of },
                    ..sowing.clone()
                };
                let (a, b) = share_of_seeds(case, row, &tested).ok()?;
                let then = seeds_to_sow_when_shares_differ(sowing.wanted, a, b, case.certainty)?;
                (then < cells).then(|| {
                    format!(
                        "How well this seed of {crop} comes up is not known: had {up} of {of} come up in a test, {then} would do in place of {cells}."
                    )
                })
            }
        }
    });
    told.collect()
}

fn test_tells(crop: &str, up: u32, of: u32) -> String {
    const CONFIDENCE: f64 = 0.95;
    let (low, high) = limits_by_clopper_pearson_1934(up, of, CONFIDENCE);
    format!(
        "{up} of {of} seeds of {crop} came up: the lot may do anything from {} to {} (19 times in 20).",
        percent(low),
        percent(high)
    )
}

/// A test of fifty seeds that came out as is thought.
fn test_of_fifty(sowing: &Sowing) -> Option<(u32, u32)> {
    const SEEDS: u32 = 50;
    let share = match sowing.germination {
        Germination::Said(share) => share,
        _ => sowing.crop.figure(Property::GerminationShare)?.range.best(),
    };
    Some(((share * f64::from(SEEDS)).round() as u32, SEEDS))
}

/// Test old seed.
pub fn test_old_seed() -> String {
    "Test an old lot before you rely on it: 20 seeds on damp paper at the warmth they like, counted when most are up and once more at the end.".to_owned()
}

/// Treated seed.
pub fn treated_seed() -> String {
    "Dressed seed is treated with pesticide: wear gloves, keep it from food and children, and follow its label. Herbs for the kitchen are sown undressed.".to_owned()
}
