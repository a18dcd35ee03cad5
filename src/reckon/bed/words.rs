//! The sentences of Bed.

use super::instead::Mends;
use super::physics::{ACT_AT_CM, AtDepth, LOSS_AT_CM, Wrong};
use super::question::{Case, Demand, Fills};
use super::soaks::{LONGEST_H, Soaks};
use super::sweep::Finds;
use super::told::{KindTold, OtherMedium, RunTold};
use crate::handbook::surface_salt::TOP_CM;
use crate::measure::{Area, Length};
use crate::reckon::Problem;
use crate::reckon::answer::Verdict;
use crate::reckon::mix::altered::{holder, opener};
use crate::reckon::words::{chances_worth_saying, litres, number, percent};

/// Air as one would say it: what is less than half a per cent is none to speak of.
fn air(share: f64) -> String {
    const TO_SPEAK_OF: f64 = 0.005;
    if share < TO_SPEAK_OF {
        "hardly any".to_owned()
    } else {
        percent(share)
    }
}

/// The thing chosen, for a choice that is not in its list.
pub const A_CONTACT: &str = "way for the pot to stand";
/// The thing chosen, for a choice that is not in its list.
pub const A_MEDIUM: &str = "bed medium";
/// The thing chosen, for a choice that is not in its list.
pub const AN_EXTENT: &str = "place for the bed";
/// The thing chosen, for a choice that is not in its list.
pub const A_FILLING: &str = "way of filling";
/// The thing chosen, for a choice that is not in its list.
pub const A_WEATHER: &str = "kind of day";
/// The thing chosen, for a choice that is not in its list.
pub const A_YES_OR_NO: &str = "answer";
/// The thing chosen, for a choice that is not in its list.
pub const A_WETTING: &str = "way of wetting";
/// The thing chosen, for a choice that is not in its list.
pub const A_THIRST: &str = "way to tell what a plant drinks";
/// The thing chosen, for a choice that is not in its list.
pub const A_HABIT: &str = "kind of plant";
/// The thing chosen, for a choice that is not in its list.
pub const KINDS_OF_GRAIN: &str = "kind of grain";
/// A day by one's own figure of sun.
pub const OWN_DAY: &str = "a day of your own figure";
/// Step of a caution.
pub const BEFORE_TIPPING: &str = "Before you tip the bed out";
/// Step of a caution.
pub const BEFORE_SETTING_DOWN: &str = "Before you set pots down";
/// Step of a caution.
pub const BEFORE_FILLING: &str = "Before you let water in";
/// Step of a caution.
pub const BEFORE_LIFTING: &str = "Before you lift a tray";
/// Step of a caution.
pub const AS_IT_STANDS: &str = "While it stands";
/// Step of a caution.
pub const BETWEEN_CROPS: &str = "Between crops";
/// What is worked out.
pub const WHAT_AIR: &str = "Air in the ball";
/// What is worked out.
pub const WHAT_LIFTED: &str = "Height to which the bed lifts it";
/// What is worked out.
pub const WHAT_SUCTION: &str = "Suction amid the roots";
/// What is worked out.
pub const WHAT_THIRST: &str = "What a plant drinks";
/// What is worked out.
pub const WHAT_SALT: &str = "Salt at the top";

/// What the sentences are about.
pub struct Told<'a> {
    /// The depth to lay.
    pub depth: Length,
    /// The safe window.
    pub window: Option<[Length; 2]>,
    /// What comes of it for the pot asked about.
    pub chosen: AtDepth,
    /// What is wrong with it for any kind of pot.
    pub wrong: Wrong,
    /// What comes of the pot straight in the water.
    pub straight: AtDepth,
    /// Height to which the bed lifts what the plant drinks, cm.
    pub breaks_at_cm: f64,
    /// Medium for a tray, loose, L.
    pub loose_litres: f64,
    /// The case.
    pub case: &'a Case,
    /// Another medium with a wider window.
    pub better: Option<OtherMedium>,
    /// What would make some depth serve.
    pub mends: Mends,
    /// Whether the draws are done.
    pub drawn: bool,
}

/// Without a spacing nothing is known of the tray.
pub fn spacing_wanted() -> String {
    "Say how far it is from the middle of a pot to the next: the water for one pot hangs on it. 120 mm is usual for 10 cm pots.".to_owned()
}

/// More water than the tray holds.
pub fn over_the_wall(wall: Length) -> String {
    format!(
        "The water would run over the wall. Fill it to less than {}.",
        millimetres(wall)
    )
}

/// More water than the pot is tall.
pub fn over_the_pot(fill: Length) -> String {
    format!(
        "The water would stand over the mix in the pot. Fill the tray to less than {}.",
        millimetres(fill)
    )
}

/// One end never gets wet.
pub fn too_steep(level: Length) -> String {
    format!(
        "The high end of the tray would never be reached. Level it to well under {}.",
        millimetres(level)
    )
}

/// No depth was looked at: never of a case that was read.
pub fn no_depth() -> Problem {
    Problem::at(
        "tray.wall",
        "The wall is too low for any bed. Give it 10 mm or more.".to_owned(),
    )
}

fn millimetres(length: Length) -> String {
    [&number(length.in_millimetres(), 3), " mm"].concat()
}

/// "straight in the water" or "on 50 mm of coarse perlite".
fn stands(told: &Told<'_>) -> String {
    stands_on(told.depth, told.case.medium.row.name)
}

/// The same of a depth and a medium.
pub fn stands_on(depth: Length, medium: &str) -> String {
    if depth > Length::from_millimetres(0.0) {
        format!("on {} of {medium}", millimetres(depth))
    } else {
        "straight in the water".to_owned()
    }
}

/// How far the quick estimate is off, and how good the chances are.
pub fn held_to_account(runs: &[RunTold], finds: Option<&Finds>) -> String {
    /// Eight in ten of a normal spread lie within so many standard deviations.
    const EIGHT_IN_TEN: f64 = 1.2816;
    let off = runs
        .iter()
        .map(|told| (told.run.air - told.run.air_estimated).abs())
        .fold(0.0, f64::max);
    if runs.is_empty() {
        return String::new();
    }
    let draws = finds.map_or(1.0, |finds| finds.draws.max(1.0));
    let unsolved = finds.map_or(0.0, |finds| finds.unsolved);
    let short_of = if unsolved > 0.0 {
        format!(
            " At {} more it could not be solved, and only the estimate stands.",
            number(unsolved, 2)
        )
    } else {
        String::new()
    };
    let chances = format!(
        "Chances are of {} draws at each depth: one of a half is good to {} points either way.",
        number(draws, 3),
        number(EIGHT_IN_TEN * (0.25 / draws).sqrt() * PERCENT, 1)
    );
    let short: Vec<String> = runs
        .iter()
        .filter(|told| told.run.drunk_share < ALL_OF_IT)
        .map(|told| format!("{} ({})", told.stands, percent(told.run.drunk_share)))
        .collect();
    let short = if short.is_empty() {
        "The plant drank all it asked for in each.".to_owned()
    } else {
        format!("The plant got less than it asked for {}.", short.join(", "))
    };
    format!(
        "Solved in full at {} stands, mean air differs from the quick estimate by up to {} points.{short_of} {short} {chances}",
        number(runs.len() as f64, 2),
        number(off * PERCENT, 2)
    )
}

/// A plant that drinks less than this share of what it asks for goes short. A judgement.
pub const ALL_OF_IT: f64 = 0.97;

/// Points in a whole.
const PERCENT: f64 = 100.0;

/// The verdict in one sentence.
pub fn verdict(told: &Told<'_>, verdict: Verdict, chances: Option<[f64; 3]>) -> String {
    let stands = stands(told);
    let so = match verdict {
        Verdict::Serves => format!("The pot serves {stands}"),
        Verdict::Watch => format!("The pot can serve {stands}, if watched"),
        Verdict::DoesNotServe => format!(
            "No depth of {} serves; the nearest is {stands}",
            told.case.medium.row.name
        ),
    };
    let window = match told.window {
        Some([from, to]) if to > from => format!(
            ", and anything from {} to {} is safe",
            millimetres(from),
            millimetres(to)
        ),
        _ => String::new(),
    };
    let sure = chances.map(|[serves, watch, fails]| {
        chances_worth_saying([
            (serves, "serve"),
            (watch, "need watching"),
            (fails, "do not serve"),
        ])
        .join(", ")
    });
    match sure {
        Some(sure) if !sure.is_empty() => format!("{so}{window}: {sure}."),
        _ => format!("{so}{window}."),
    }
}

/// The mix that an addition is told for, L.
const TOLD_FOR_LITRES: f64 = 10.0;

/// What would serve better, as found on the same model.
fn what_would(told: &Told<'_>) -> String {
    let mut ways = Vec::new();
    if let Some(other) = &told.better
        && let Some([from, to]) = other.window_mm
    {
        ways.push(format!(
            "{} would serve from {} to {} mm, at the best figures",
            capital(&other.name),
            number(from, 3),
            number(to, 3)
        ));
    }
    let Mends {
        lower_fill,
        height,
        more_opener,
        more_holder,
        plugs,
    } = told.mends;
    ways.extend(lower_fill.map(|level| {
        format!(
            "filled to {} only, a depth serves or can serve",
            millimetres(level)
        )
    }));
    ways.extend(height.map(|height| format!("so it does in a pot {} tall", millimetres(height))));
    let with_more = |share: f64, name: &str| {
        format!(
            "so it does with {} more {name} to 10 L of the mix",
            litres(share * TOLD_FOR_LITRES, 2)
        )
    };
    let mix = &told.case.mix;
    ways.extend(
        more_opener
            .zip(opener(mix))
            .map(|(share, addition)| with_more(share, addition.name)),
    );
    ways.extend(
        more_holder
            .zip(holder(mix))
            .map(|(share, addition)| with_more(share, addition.name)),
    );
    ways.extend(plugs.map(|share| {
        format!(
            "so it does with plugs of the mix run down through the bed as wicks, under {} of the base",
            percent(share)
        )
    }));
    if ways.is_empty() {
        "Nothing that was tried helps it: no other bed, no lower fill, no taller or shorter pot, no more of anything in the mix, no wicks.".to_owned()
    } else {
        let mut sentence = ways.join("; ");
        if let Some(first) = sentence.strip_prefix("so it does") {
            sentence = ["A depth serves or can serve", first].concat();
        }
        [&capital(&sentence), "."].concat()
    }
}

/// What to do.
pub fn advice(told: &Told<'_>) -> String {
    let Told {
        case,
        chosen,
        straight,
        ..
    } = told;
    let on_a_bed = told.depth > Length::from_millimetres(0.0);
    let do_it = match told.wrong {
        Wrong::Nothing if on_a_bed => format!(
            "Lay {} of {}, {} loose for the tray, level it, set the pots on it watered, and press and twist them in. Straight in the water the ball would have {} of air and its lowest third {}, with the tray full.",
            millimetres(told.depth),
            case.medium.row.name,
            litres(told.loose_litres, 2),
            air(straight.air_full),
            air(straight.air_lowest_full)
        ),
        Wrong::Nothing => format!(
            "Set the pots straight in the tray: the ball keeps {} of air with the tray full, and its lowest third {}.",
            air(straight.air_full),
            air(straight.air_lowest_full)
        ),
        Wrong::Drowned => format!(
            "Even on the deepest bed that the wall allows the ball has {} of air on the mean, which is too little.",
            air(chosen.air)
        ),
        Wrong::Thirsts if case.fills == Fills::Daily && chosen.refills > 1.0 => format!(
            "One filling is {} for a pot, and it drinks {} times as much in a day. Fill it so often, or use a float.",
            litres(chosen.fill_litres, 2),
            number(chosen.refills, 2)
        ),
        Wrong::Thirsts | Wrong::Both => format!(
            "The plant asks for more than comes up: {} lifts it no higher than about {} mm, and the mix too carries little once it is dry. Water from above on such days.",
            case.medium.row.name,
            number(told.breaks_at_cm * MM_PER_CM, 2)
        ),
    };
    match told.wrong {
        Wrong::Nothing if told.window.is_some() || !told.drawn => do_it,
        Wrong::Nothing => format!(
            "{do_it} No depth is sure to do; try a tray before you lay them all. {}",
            what_would(told)
        ),
        // What would help is looked for with the draws.
        _ if !told.drawn => do_it,
        _ => [&do_it, " ", &what_would(told)].concat(),
    }
}

const MM_PER_CM: f64 = 10.0;

fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Light grains float.
pub fn floats(name: &str) -> String {
    format!(
        "{} floats. Wet it as you lay it, fill slowly, and never above the top of the bed until pots hold it down; keep it out of drains and valves.",
        capital(name)
    )
}

/// The bench carries less.
pub fn overloads(load: f64, limit: f64) -> String {
    format!(
        "Wet and full it weighs {} kg on a square metre, and the bench carries {}. Spread it, or carry it on the floor.",
        number(load, 2),
        number(limit, 2)
    )
}

/// Mains water.
pub fn backflow() -> String {
    "A float on the mains needs protection against backflow; local water rules say which, and a licensed fitter knows them.".to_owned()
}

/// Heavy trays.
pub fn full_trays() -> String {
    "Never lift a full tray: drain it, take the pots off, and lift the bed in parts. Do it in the cool hours.".to_owned()
}

/// Warm standing water.
pub fn standing_water() -> String {
    "Warm standing water can carry Legionella and grows algae: keep it shaded and moving over, do not spray it, let no child near it, and dry the floor where it drips, for it is slippery. Electric heat or lamps near it need residual-current protection and a licensed electrician.".to_owned()
}

/// Salt gathers on top.
pub fn salt() -> String {
    "Salt gathers in the top 2 to 4 cm of the ball, for nothing washes it down. Feed at about half strength, and water once from above with 1 to 1.5 pot volumes when the top reads three times the middle; never in heat on a dry pot.".to_owned()
}

/// Pots set down dry.
pub fn dry_pots() -> String {
    /// Water below which peat and bark begin to repel, fraction of volume.
    const REPELS_BELOW: f64 = 0.3;
    format!(
        "Peat or bark with less than about {} of water repels it. Wet such pots from above until they drip, let them drain, then press and twist them in.",
        percent(REPELS_BELOW)
    )
}

/// How soon what is set down dry is wetted.
pub fn soaking(soaks: Option<Soaks>, depth: Length) -> String {
    let Some(soaks) = soaks else {
        return String::new();
    };
    let hours = |hours: Option<f64>| match hours {
        Some(hours) if hours < 1.0 => "within an hour".to_owned(),
        Some(hours) => format!("after about {} hours", number(hours, 2)),
        None => format!("not within {} hours", number(LONGEST_H, 2)),
    };
    let ball = hours(soaks.pot_dry_h);
    let advice = if soaks.pot_dry_h.is_none_or(|hours| hours > SOON_H) {
        " Water the pots from above when you set them down."
    } else {
        ""
    };
    if depth > Length::from_millimetres(0.0) {
        format!(
            "A dry pot that does not repel water is wetted from below {ball} on a wet bed, and {} where the bed is dry too.{advice}",
            hours(soaks.all_dry_h)
        )
    } else {
        format!("A dry pot that does not repel water is wetted from below {ball}.{advice}")
    }
}

/// Plants are not left to wait longer than this, h. A judgement.
const SOON_H: f64 = 6.0;

/// What to do for a tray of two kinds of pot.
pub fn kinds_together(kinds: &[KindTold], laid: Length, medium: &str) -> String {
    if kinds.is_empty() {
        return String::new();
    }
    let lacking: Vec<&str> = kinds
        .iter()
        .filter(|kind| kind.window_mm.is_none())
        .map(|kind| kind.pot.as_str())
        .collect();
    if !lacking.is_empty() {
        return format!(
            "No depth is safe for {}: give it a tray of its own.",
            lacking.join(", nor for ")
        );
    }
    match kinds.iter().find(|kind| kind.raise_mm > 0.0) {
        None => format!("One bed of {} suits both.", millimetres(laid)),
        Some(raised) => {
            let under_all = Length::from_millimetres(raised.depth_mm - raised.raise_mm);
            let lay = if under_all > Length::from_millimetres(0.0) {
                format!("Lay {} of {medium} under all", millimetres(under_all))
            } else {
                "Lay no bed under all".to_owned()
            };
            format!(
                "No one depth is safe for both. {lay}, and raise {} on {} more of its own.",
                raised.pot,
                millimetres(Length::from_millimetres(raised.raise_mm))
            )
        }
    }
}

/// Roots deeper than the mix.
pub fn roots_beyond_the_pot(fill: Length) -> String {
    format!(
        "The mix is {} deep, and roots deeper than that are in the bed. Say so much or less, and below that they have grown into the bed.",
        millimetres(fill)
    )
}

/// A tray too small for its pots.
pub fn pots_do_not_fit() -> String {
    "So many pots do not fit on that floor, rim to rim. Give the tray’s floor inside, or fewer pots.".to_owned()
}

/// The same, with their spacing known.
pub fn too_many_pots(needs: Area) -> String {
    format!(
        "So many pots that far apart need {} m². Give a larger tray, fewer pots, or a closer spacing.",
        number(needs.in_square_metres(), 3)
    )
}

/// What goes into the thirst of a plant.
pub fn thirst_put_in(case: &Case) -> String {
    match case.demand {
        Demand::OfLeaves { habit, breadth } => {
            format!(
                "{}, leaves {} across, {}",
                habit.name,
                millimetres(breadth),
                case.day.name
            )
        }
        Demand::Told(told) => litres(told.in_litres(), 2),
    }
}

/// What comes out.
pub fn thirst_result(demand_litres: f64) -> String {
    [&litres(demand_litres, 2), " in the day"].concat()
}

/// What goes into the salt at the top.
pub fn salt_put_in(evaporates_mm_per_d: f64) -> String {
    format!(
        "{} mm evaporates in a day, the top {} cm",
        number(evaporates_mm_per_d, 2),
        number(TOP_CM.range.best(), 2)
    )
}

/// What comes out.
pub fn salt_result(at: &AtDepth) -> String {
    format!(
        "{} days to three times what comes up",
        number(at.flush_days, 2)
    )
}

/// Hygiene.
pub fn cleaning() -> String {
    "Pots in one tray share their water and their diseases. Twist pots to break roots that have grown through before you move them; between crops rake the bed out, wash bed and tray, and use a disinfectant by its label only.".to_owned()
}

/// What goes into the air.
pub fn air_put_in(told: &Told<'_>) -> String {
    format!(
        "water {} mm above the floor when full, base of the pot at {} mm, ball {} mm high",
        number(told.case.level.in_millimetres(), 3),
        number(told.depth.in_millimetres(), 3),
        number(told.case.mix.fill.in_millimetres(), 3)
    )
}

/// What comes out.
pub fn air_result(at: &AtDepth) -> String {
    format!(
        "{} full, {} at the emptiest, {} on the mean, which is judged",
        percent(at.air_full),
        percent(at.air_empty),
        percent(at.air)
    )
}

/// What goes into the height.
pub fn lifted_put_in(demand_litres: f64, case: &Case) -> String {
    format!(
        "{} a day through {} cm² of base, {}",
        litres(demand_litres, 2),
        number(case.mix.vessel.base_area().in_square_centimetres(), 3),
        case.medium.row.name
    )
}

/// What comes out.
pub fn lifted_result(height_cm: f64) -> String {
    [&number(height_cm * MM_PER_CM, 2), " mm"].concat()
}

/// What goes into the suction.
pub fn suction_put_in(told: &Told<'_>) -> String {
    format!(
        "{} of bed, slope {} mm",
        millimetres(told.depth),
        number(told.case.slope.in_millimetres(), 2)
    )
}

/// What comes out.
pub fn suction_result(at: &AtDepth) -> String {
    format!(
        "{} cm; from {} cm act, at {} cm a tenth of the yield is lost",
        number(at.mid_suction_cm, 2),
        number(ACT_AT_CM, 2),
        number(LOSS_AT_CM, 2)
    )
}
