//! The sentences of Root zone.

use super::case::{Bought, Case, Stand};
use super::come::Outcomes;
use super::figures::called;
use super::further::{Further, ROOTS_HARMED_C, SEEN};
use super::own::{Before, Fits, OwnFound};
use super::sweep::MOST_DRAWS;
use crate::handbook::heat::{CUT_OUT_C, WARMEST_ROOTS_C};
use crate::nursery::day::month_name;
use crate::reckon::Problem;
use crate::reckon::answer::Verdict;
use crate::reckon::words::{chances_worth_saying, number};
use crate::science::heat::column::{NoColumn, Place};
use crate::science::heat::cost::seasons_to_pay_back;
use crate::science::heat::fit::Reading;
use crate::science::year_course::MONTH_DAYS;

/// The thing chosen, for a choice that is not in its list.
pub const A_STAND: &str = "place to stand";
/// The thing chosen, for a choice that is not in its list.
pub const A_CROP: &str = "crop";
/// The thing chosen, for a choice that is not in its list.
pub const A_STAGE: &str = "stage";
/// The thing chosen, for a choice that is not in its list.
pub const A_MONTH: &str = "month";
/// The thing chosen, for a choice that is not in its list.
pub const A_WAY_OF_AIR: &str = "way to tell the air";
/// The thing chosen, for a choice that is not in its list.
pub const A_HOUSE_COVER: &str = "cover of a house";
/// The thing chosen, for a choice that is not in its list.
pub const A_REPAIR: &str = "state of repair";
/// The thing chosen, for a choice that is not in its list.
pub const A_FLOOR: &str = "floor";
/// The thing chosen, for a choice that is not in its list.
pub const A_FOOT: &str = "thing to stand on";
/// The thing chosen, for a choice that is not in its list.
pub const A_PROBE: &str = "place of a probe";
/// The thing chosen, for a choice that is not in its list.
pub const A_BOARD: &str = "insulating board";
/// The thing chosen, for a choice that is not in its list.
pub const A_BENCH_COVER: &str = "cover of a bench";
/// The thing chosen, for a choice that is not in its list.
pub const A_MEDIUM: &str = "bed medium";
/// The thing chosen, for a choice that is not in its list.
pub const A_READING: &str = "place of a thermometer";
/// Step of a caution.
pub const BEFORE_WIRING: &str = "Before you bring mains to a bench";
/// Step of a caution.
pub const BEFORE_SWITCHING: &str = "Before you switch a bench on";
/// Step of a caution.
pub const BEFORE_LAYING: &str = "Before you lay a cable or mat";
/// Step of a caution.
pub const BEFORE_COVERING: &str = "Before you close a cover";
/// Step of a caution.
pub const BEFORE_RAISING: &str = "Before you raise trays";
/// Part of what raising does.
pub const RAISING_ALONE: &str = "Raising alone, in the same air";
/// Part of what raising does.
pub const AIR_ON_ROOTS: &str = "The air at that height, on the roots";
/// Part of what raising does.
pub const AIR_ON_LEAVES: &str = "The same air, on the leaves";
/// Part of what raising does.
pub const OF_WHICH_SUN: &str = "Of all this, by sun";
/// A row of heat.
pub const BENCH_OPEN: &str = "no cover";
/// A row of heat.
pub const BENCH_COVERED: &str = "covered";
/// A row of heat.
pub const BENCH_BARE: &str = "not insulated";
/// What is worked out.
pub const WHAT_DEEP: &str = "The ground a metre down";
/// What is worked out.
pub const WHAT_ROOTS: &str = "Roots through the day";
/// What is worked out.
pub const WHAT_RATE: &str = "Growth that the roots allow";
/// What is worked out.
pub const WHAT_GROWTH: &str = "Growth against the floor";
/// What is worked out.
pub const WHAT_HEAT: &str = "Heat of the bench";

/// A reading further off than this was of something else, or the standing is another, K: three deviations of a
/// thermometer. A judgement.
const MUCH_MISSED_K: f64 = 1.5;

/// A temperature as it is said.
pub fn celsius(value: f64) -> String {
    let tenths = (value * 10.0).round() / 10.0 + 0.0;
    [
        &number(tenths, if tenths.abs() < 10.0 { 2 } else { 3 }),
        "\u{a0}°C",
    ]
    .concat()
}

/// A minimum that is no lower than the maximum.
pub fn lowest_over_highest() -> String {
    "The minimum must lie below the maximum. Are the two the wrong way round?".to_owned()
}

/// Without a spacing nothing is known of the stand.
pub fn spacing_wanted() -> String {
    "Say how far it is from the middle of a pot to the next. 110 mm is usual for 10 cm pots rim to rim.".to_owned()
}

/// Readings without the air of their days.
pub fn days_wanted() -> String {
    "Say the minimum and maximum of the air on the days of your readings, one day after the other."
        .to_owned()
}

/// More rows than can be fitted to.
pub fn too_many(most: usize, what: &str) -> String {
    format!("At most {most} {what} are fitted to. Take out the oldest.")
}

/// A reading on a day that is not told.
pub fn no_such_day(days: usize) -> String {
    match days {
        0 => days_wanted(),
        1 => "There is one day above: say 1, or add the others.".to_owned(),
        _ => format!("Say a whole number from 1 to {days}, for the days above, or add the others."),
    }
}

/// A reading of a bed that is not there.
pub fn no_bed_to_read() -> String {
    "There is no bed in the tray. Lay one under The tray, or read the water or the roots."
        .to_owned()
}

/// A fitted figure whose ends are the wrong way round.
pub fn range_rises() -> String {
    "The three must rise from the least to the most, as they were fitted. Empty all three to go by the handbook."
        .to_owned()
}

/// Why a column is not followed, at the field most likely to mend it.
pub fn no_column(problem: NoColumn) -> Problem {
    let field = match problem {
        NoColumn::Pots | NoColumn::PotsTooClose => "bench.spacing",
        NoColumn::Tray => "tray.water",
        NoColumn::Refill => "tray.drinks",
        NoColumn::Floor => "floor.top",
        NoColumn::Foot => "raised.height",
        NoColumn::Heater | NoColumn::TooManySteps { .. } | NoColumn::DoesNotSettle { .. } => {
            "heated.power"
        }
        NoColumn::Probe => "heated.probe",
        NoColumn::Cover => "cover.from",
        NoColumn::Course
        | NoColumn::Surface
        | NoColumn::Steps
        | NoColumn::Times
        | NoColumn::OutOfBounds { .. }
        | NoColumn::DoesNotBalance { .. } => "air.high",
    };
    Problem::at(field, problem.to_string())
}

/// The verdict with its sentence.
pub fn verdict(case: &Case, out: &Outcomes, verdict: Verdict, chances: Option<[f64; 3]>) -> String {
    let (_, on) = called(case.stand);
    let come = out.at(case.stand);
    let crop = case.crop_name;
    let said = match (verdict, case.crop.chilled_below_c) {
        (Verdict::DoesNotServe, Some(limit)) => format!(
            "Too cold {on}: roots of {crop} lie below {} for {}\u{a0}h of the day, and some such nights on end check them.",
            celsius(limit.range.best()),
            number(come.chilled_h, 2)
        ),
        (Verdict::Watch, Some(limit)) if come.chilled_h > 0.0 => format!(
            "Cold {on}: roots of {crop} dip below {} for {}\u{a0}h of the day.",
            celsius(limit.range.best()),
            number(come.chilled_h, 2)
        ),
        (Verdict::Serves, Some(limit)) => format!(
            "Warm enough {on}: roots of {crop} stay above {} but for cold nights.",
            celsius(limit.range.best())
        ),
        (Verdict::Serves, None) => {
            format!("Warm enough {on}: {crop} is not checked by such nights.")
        }
        _ => format!("Alive but hardly growing {on}: roots of {crop} are below what they grow at."),
    };
    match chances.and_then(chances_of) {
        Some(sure) => [&said, " ", &sure].concat(),
        None => said,
    }
}

fn chances_of([serves, watch, fails]: [f64; 3]) -> Option<String> {
    let told = chances_worth_saying([
        (serves, "are warm enough"),
        (watch, "need watching"),
        (fails, "are too cold"),
    ]);
    (told.len() > 1).then(|| [&told.join(", "), "."].concat())
}

fn per_cent(times: f64) -> f64 {
    100.0 * (times - 1.0)
}

/// Growth as one would say it.
fn against(times: f64) -> String {
    let change = per_cent(times);
    if change.abs() < 1.0 {
        "no faster or slower to speak of".to_owned()
    } else if change > 0.0 {
        format!("about {}\u{a0}% faster", number(change, 2))
    } else {
        format!("about {}\u{a0}% slower", number(-change, 2))
    }
}

/// What to do, in one sentence.
pub fn advice(case: &Case, out: &Outcomes) -> String {
    let floor = out.at(Stand::Floor);
    let raised = out.at(Stand::Raised);
    let bench = out.at(Stand::Bench);
    let colder = raised.lowest_c() - floor.lowest_c();
    let raising = format!(
        "Raised, roots are {}\u{a0}K {} at their coldest than on the floor and growth is {}",
        number(colder.abs(), 1),
        if colder < 0.0 { "colder" } else { "warmer" },
        against(out.growth(Stand::Raised).all())
    );
    let bench_is = format!(
        "the bench holds them above {} for {}\u{a0}kWh/m² a day, and growth is {}",
        celsius(bench.lowest_c()),
        number(bench.kwh_per_m2, 2),
        against(out.growth(Stand::Bench).all())
    );
    let chilled = |stand: Stand| out.verdict(stand) != Verdict::Serves;
    let first = match case.stand {
        _ if chilled(Stand::Floor) && chilled(Stand::Raised) && !chilled(Stand::Bench) => {
            "Stand them on the heated bench, or wait for warmer nights"
        }
        _ if chilled(Stand::Floor) && chilled(Stand::Raised) => {
            "Wait, or give more heat: nowhere are the roots warm enough"
        }
        _ if per_cent(out.growth(Stand::Raised).all()) >= 2.0 => "Raise them",
        _ if per_cent(out.growth(Stand::Raised).all()) <= -2.0 => "Leave them on the floor",
        _ => "Floor or raised makes little odds: go by drainage and by your back",
    };
    format!("{first}. {raising}; {bench_is}.")
}

/// What the model leaves out, and the trade's own figure.
pub fn not_in_it() -> String {
    "Growers say that trays raised early in the season grow about a fifth faster (common practice, no source). What is reckoned here is warmth alone: of roots, of air at that height, of sun. Light is not: in dull months warm air draws plants up as much as it grows them. Drainage, slugs, light at the floor and shade from neighbours are not in it, and may well be most of that fifth."
        .to_owned()
}

/// Draws that are left out of the ranges.
pub fn left_out(unsolved: f64) -> String {
    if unsolved < 1.0 {
        String::new()
    } else {
        format!(
            "In {} of {MOST_DRAWS} draws some day did not come to repeat itself; they are left out of the ranges.",
            number(unsolved, 3)
        )
    }
}

/// The readings that settle it.
pub fn settled_by() -> String {
    "Two readings settle it in your house: a minimum and maximum at the floor beside one at the height of the raised trays, and a root thermometer in a pot of each at dawn. A week will do: write them in the day book for the bay, take the bay below, and the reckoning is fitted to them."
        .to_owned()
}

/// What one's own readings tell.
pub fn own(case: &Case, own: &OwnFound) -> String {
    let (_, here) = called(case.stand);
    match own {
        OwnFound::Fit(fit) => format!(
            "Fitted to your readings {here}: it missed them by {}\u{a0}K before and misses them by {}\u{a0}K now. {}",
            number(fit.missed_before_k, 2),
            number(fit.missed_k, 2),
            match case.own.as_ref().and_then(|own| fit.furthest(own)) {
                Some((place, off_k)) if off_k > MUCH_MISSED_K => format!(
                    "Reading {} is {}\u{a0}K off: check where and when it was taken before you keep this.",
                    place + 1,
                    number(off_k, 2)
                ),
                _ =>
                    "Keep it with the bay, and the bay is reckoned with it from then on.".to_owned(),
            }
        ),
        OwnFound::No(why) => format!("Not fitted to your readings {here}. {why}"),
    }
}

/// A reading, by where and when.
pub fn reading(reading: &Reading) -> String {
    let place = match reading.place {
        Place::Water => "water",
        Place::Bed => "bed",
        _ => "mix",
    };
    let hours = reading.at.in_hours();
    let day = (hours / 24.0).floor();
    let minutes = ((hours - 24.0 * day) * 60.0).round();
    format!(
        "{place}, day {} at {:02}:{:02}",
        day + 1.0,
        (minutes / 60.0).floor(),
        minutes % 60.0
    )
}

/// What readings told of a figure, by the share of its doubt that is left.
#[must_use]
pub fn told_of(doubt_left: f64) -> &'static str {
    match doubt_left {
        left if left < 0.4 => "much",
        left if left < 0.7 => "some",
        left if left < 0.9 => "little",
        _ => "nothing",
    }
}

/// What was fitted before.
pub fn fitted_before(before: &Before) -> String {
    let told: Vec<String> = Fits::ALL
        .into_iter()
        .filter_map(|fits| {
            let range = before.of(fits)?;
            Some(format!(
                "{} {} ({} to {})",
                fits.name().to_lowercase(),
                number(range.best(), 2),
                number(range.low(), 2),
                number(range.high(), 2)
            ))
        })
        .collect();
    if told.is_empty() {
        String::new()
    } else {
        format!(
            "Reckoned with what was fitted to your readings: {}.",
            told.join("; ")
        )
    }
}

/// A day of the year as one would say it.
fn about(day_of_year: f64) -> String {
    let mut left = day_of_year.rem_euclid(365.0);
    for (month, days) in (1..).zip(MONTH_DAYS) {
        if left < days {
            let part = match left / days {
                part if part < 1.0 / 3.0 => "early",
                part if part < 2.0 / 3.0 => "mid",
                _ => "late",
            };
            return [part, " ", month_name(month)].concat();
        }
        left -= days;
    }
    "the turn of the year".to_owned()
}

/// When raising overtakes the floor.
pub fn overtakes(further: &Further) -> String {
    let told = further.overtakes();
    if told.is_empty() {
        let ahead = further
            .months
            .first()
            .is_some_and(|month| month.growth[0] > 1.0 + SEEN);
        return if ahead {
            "Raised pots grow faster than those on the floor in every month, by warmth.".to_owned()
        } else {
            "In no month does warmth put raised pots ahead of those on the floor by as much as a fiftieth.".to_owned()
        };
    }
    let parts: Vec<String> = told
        .iter()
        .map(|(day, ahead)| {
            format!(
                "from {} {}",
                about(*day),
                if *ahead {
                    "raised pots grow faster"
                } else {
                    "the floor is as good or better"
                }
            )
        })
        .collect();
    let mut sentence = parts.join(", ");
    if let Some(first) = sentence.get_mut(0..1) {
        first.make_ascii_uppercase();
    }
    let most = further
        .months
        .iter()
        .map(|month| per_cent(month.growth[0]).abs())
        .fold(0.0, f64::max);
    format!(
        "{sentence}. The lead is {}\u{a0}% at most, by warmth.",
        number(most.max(0.1), 1)
    )
}

/// Where more height stops paying.
pub fn heights(further: &Further) -> String {
    match further.pays_to_mm() {
        Some(height_mm) => format!(
            "Beyond about {}\u{a0}mm more height adds less than a hundredth of growth.",
            number(height_mm, 2)
        ),
        None => "No height adds as much as a hundredth of growth over the floor by warmth: choose it for drainage and for your back.".to_owned(),
    }
}

/// What it takes to hold the bench.
pub fn hold(case: &Case, further: &Further) -> String {
    let set = celsius(case.heated.set.in_celsius());
    match further.hold() {
        Some(watts) => {
            let have = case.heated.power.in_watts_per_square_metre();
            let enough = if watts <= have {
                "what is installed is enough"
            } else {
                "more than is installed: it will fall short"
            };
            format!(
                "To hold {set} through the coldest night of an average such month takes {}\u{a0}W/m², as it stands; {enough}.",
                number(watts, 2)
            )
        }
        None => format!(
            "Nothing reasonable holds {set} there through the coldest night: cover it, or set it lower."
        ),
    }
}

/// Pots in July's sun.
pub fn july(case: &Case, further: &Further) -> String {
    let hottest = celsius(case.hottest.in_celsius());
    let Some(black) = further.colours.first() else {
        return String::new();
    };
    let harmed = if black.ball_c > ROOTS_HARMED_C {
        "that harms roots: shade the outer row, or stand a board before it"
    } else {
        "roots at the sunny wall suffer, the ball as a whole less"
    };
    format!(
        "On a July day of {hottest} inside, the ball of a black pot in the outer row reaches about {} and its sunny wall about {}: {harmed}.",
        celsius(black.ball_c.round()),
        celsius(black.wall_c.round())
    )
}

/// That the power falls short.
pub fn held_short(short_h: f64) -> String {
    if short_h > 0.5 {
        format!("falls short for {}\u{a0}h of the day", number(short_h, 2))
    } else {
        "holds all day".to_owned()
    }
}

/// When something has paid for itself.
pub fn pays_back(saved: Option<f64>, bought: &Bought) -> String {
    match (saved, bought.price) {
        (None, _) => "give the price of a kWh to see what it saves".to_owned(),
        (Some(saved), None) => format!("saves {} a season", number(saved.max(0.0), 2)),
        (Some(saved), Some(price)) => match seasons_to_pay_back(price, saved) {
            Ok(seasons) if seasons <= bought.seasons => format!(
                "saves {} a season: paid for after {} of its {} seasons",
                number(saved, 2),
                number(seasons.max(0.1), 2),
                number(bought.seasons, 2)
            ),
            Ok(_) => format!(
                "saves {} a season: worn out before it has paid",
                number(saved, 2)
            ),
            Err(_) => "saves nothing".to_owned(),
        },
    }
}

/// Mains near water.
pub fn mains() -> String {
    "Mains and water kill. Have a competent electrician do it to the local code (in Britain BS 7671, section 705), behind a residual-current device of 30 mA, and test that every month.".to_owned()
}

/// An independent cut-out.
pub fn cut_out() -> String {
    let range = CUT_OUT_C.range;
    format!(
        "Fit a cut-out of its own beside the thermostat, at {} to {}: a probe that slips out of the pot heats until something gives.",
        number(range.low(), 2),
        celsius(range.high())
    )
}

/// Water no warmer.
pub fn warm_water() -> String {
    let range = WARMEST_ROOTS_C.range;
    format!(
        "Keep the water and the bottoms of pots no warmer than {} to {}: roots rot, and warm standing water breeds Legionella.",
        number(range.low(), 2),
        celsius(range.high())
    )
}

/// No bare polystyrene.
pub fn polystyrene() -> String {
    "Never lay a cable on bare polystyrene, which softens at 80 °C: sand or foil between, never crossed, coiled tight or run in air.".to_owned()
}

/// A dry bed.
pub fn dry_bed() -> String {
    "Keep the sand over a cable moist: a dry bed carries no heat away, and the cable overheats."
        .to_owned()
}

/// A probe amid the pot of an open bench.
pub fn probe_in_the_middle() -> String {
    "Do not drive an open bench by a probe in the middle of the pot: it keeps on heating for air that it cannot warm, and cooks the bottom roots. Set the probe at the bottom of the pot, or cover the bench.".to_owned()
}

/// A cover in sun.
pub fn cover_in_sun() -> String {
    "Open the cover before the sun is on it: shut in sun it cooks plants within the hour."
        .to_owned()
}

/// Weight and lifting.
pub fn raised_load() -> String {
    "Check that legs and slats carry wet pots and full trays, and raise trays empty.".to_owned()
}
