//! The sentences of Season.

use super::case::{Case, Germination, Sowing};
use super::inputs::share_of_seeds;
use super::plan::{Plan, Sown};
use super::weeks::{FULL, busiest, fullest};
use crate::handbook::crops::{Crop, Property};
use crate::measure::{Length, NumberStyle, Volume, significant};
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
pub const WHAT_ROOM: &str = "Pots that find room";

/// The field of a row of what is wanted.
pub fn at(row: usize, name: &str) -> String {
    path_in("sowings", row, name)
}

/// A crop that is not in the handbook.
pub fn no_such_crop() -> String {
    "Choose a crop of the list; one that is near to yours will do to begin with.".to_owned()
}

/// A crop that is grown from cuttings.
pub fn not_from_seed() -> String {
    "This is grown from cuttings, and has no sowing. Choose another, or a crop from seed that is as quick."
        .to_owned()
}

/// A climate that is not in the handbook.
pub fn no_such_climate() -> String {
    "Choose the climate that is nearest to yours.".to_owned()
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

/// No rows.
pub fn none_of(list: &str) -> String {
    if list == "places" {
        "Add a place where plants may stand.".to_owned()
    } else {
        "Add what is wanted.".to_owned()
    }
}

/// Too many rows.
pub fn too_many_of(list: &str, most: usize) -> String {
    let what = if list == "places" { "places" } else { "rows" };
    format!("At most {most} {what} are reckoned at once. Take some out.")
}

/// Too many sowings in all.
pub fn too_many_sown(most: u32) -> String {
    format!(
        "These are more than {most} sowings in all. Sow less often, or reckon a part of the season."
    )
}

/// A day as it is said in a sentence: "28 March".
pub fn on_day(day: Day) -> String {
    let (_, month, of_month) = day.civil();
    [
        &of_month.to_string(),
        "\u{a0}",
        crate::nursery::day::month_name(month),
    ]
    .concat()
}

/// A sowing in labels: "sweet basil, sown 28 March".
pub fn sowing_on(case: &Case, sown: &Sown) -> String {
    let crop = case.sowings.get(sown.row).map_or("", |row| row.crop.name);
    [crop, ", sown ", &on_day(sown.on)].concat()
}

fn of_week(day: Day) -> String {
    ["the week of ", &on_day(day)].concat()
}

/// The verdict with its sentence.
pub fn verdict(case: &Case, plan: &Plan, verdict: Verdict, chances: Option<[f64; 3]>) -> String {
    let room = fullest(&plan.weeks).map_or_else(String::new, |(place, monday, taken)| {
        let name = case
            .stands
            .get(place)
            .map_or("", |stand| stand.name.as_str());
        if taken > FULL {
            format!(
                "Not all find room: in {} {name} would need {} of its room.",
                of_week(monday),
                percent(taken)
            )
        } else {
            format!(
                "All find room: {name} is fullest, {} of it in {}.",
                percent(taken),
                of_week(monday)
            )
        }
    });
    let mut said = vec![room];
    if let Some((monday, hours)) =
        busiest(&plan.weeks).filter(|(_, hours)| *hours > case.hands.hours)
    {
        said.push(format!(
            "In {} there are {}\u{a0}h of work, and {}\u{a0}h for it.",
            of_week(monday),
            number(hours, 2),
            number(case.hands.hours, 2)
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
    let cells = if into_pots { "pots" } else { "cells" };
    let each = case.sowings.get(first.row).map_or(1, |row| row.in_cell);
    let seeds = if each > 1 {
        format!(", {each} seeds in each")
    } else {
        String::new()
    };
    let for_day = first
        .wanted_by
        .map_or_else(String::new, |day| format!(" for {}", on_day(day)));
    let others = plan.sown.len() - 1;
    let more = match others {
        0 => String::new(),
        1 => " One more sowing follows.".to_owned(),
        _ => format!(" {others} more sowings follow."),
    };
    format!(
        "Sow {} {cells} of {crop}{seeds} on {}{for_day}: {} in 100 such sowings then have at least {} plants.{more}",
        first.cells,
        on_day(first.on),
        number(100.0 * case.certainty, 2),
        case.sowings.get(first.row).map_or(0, |row| row.wanted),
    )
}

/// Nights too cold where it goes.
pub fn cold_nights(crop: &Crop, low_c: f64) -> String {
    let limit = crop
        .figure(Property::NightForColdHouse)
        .map_or(0.0, |figure| figure.range.best());
    format!(
        "Goes into the house when its mean minimum is about {}\u{a0}°C, and wants {}\u{a0}°C: keep it warm, cover it, or sow later.",
        number((low_c * 10.0).round() / 10.0, 2),
        number(limit, 2)
    )
}

/// Sown later or earlier.
pub fn shifted(crop: &str, weeks: i32) -> String {
    let many = weeks.unsigned_abs();
    let week = if many == 1 { "week" } else { "weeks" };
    let way = if weeks > 0 { "later" } else { "earlier" };
    format!("Have {crop} {many} {week} {way}, and all find room.")
}

/// Fewer of them.
pub fn fewer(crop: &str, many: f64) -> String {
    format!(
        "Or pot {} fewer of {crop} that stand there in that week.",
        number(many, 4)
    )
}

/// Closer together.
pub fn closer(crop: &str, apart: Length) -> String {
    format!(
        "Or set {crop} {}\u{a0}mm from pot to pot: they draw up the sooner, and disease spreads more easily.",
        number(apart.in_millimetres().floor(), 3)
    )
}

/// Another bench.
pub fn another_bench(area_m2: f64) -> String {
    format!("Or find {}\u{a0}m² more for that week.", number(area_m2, 2))
}

/// Seed by the packet.
pub fn seed_of(crop: &str, packet: u32) -> String {
    format!("Seed of {crop}, packets of {packet}")
}

/// Seeds needed, and in hand.
pub fn seeds_needed(seeds: u32, in_hand: u32) -> String {
    if in_hand > 0 {
        format!("{seeds} seeds, {in_hand} in hand")
    } else {
        format!("{seeds} seeds")
    }
}

/// Pots.
pub fn pots(name: &str) -> String {
    format!("Pots, {name}")
}

/// A number of them.
pub fn counted(many: u32) -> String {
    many.to_string()
}

/// Mix by the bag.
pub fn mix_in_bags(bag: Volume) -> String {
    format!("Mix, bags of {}\u{a0}L", number(bag.in_litres(), 3))
}

/// Litres of mix.
pub fn litres_needed(litres: f64) -> String {
    let litres = significant(litres, 2, NumberStyle::default());
    [&litres, "\u{a0}L"].concat()
}

/// What each germination test tells, or would.
pub fn tests(case: &Case, plan: &Plan) -> Vec<String> {
    let told = case.sowings.iter().enumerate().filter_map(|(row, sowing)| {
        let crop = sowing.crop.name;
        let cells = plan.sown.iter().find(|sown| sown.row == row)?.cells;
        match sowing.germination {
            Germination::Tested { up, of } => Some(test_tells(crop, up.min(of), of)),
            Germination::Said(_) | Germination::Usual => {
                let (up, of) = test_of_fifty(sowing)?;
                let tested = Sowing {
                    germination: Germination::Tested { up, of },
                    ..sowing.clone()
                };
                let (a, b) = share_of_seeds(row, &tested).ok()?;
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
