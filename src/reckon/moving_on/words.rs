//! The sentences of Moving on.

use super::case::{Case, Flower, Move, Pests, Tips};
use super::days::Run;
use super::hot::{self, HotTold};
use super::inputs::{Inputs, weeks_before_check};
use super::nights::{DAYS, FEWEST_NIGHTS, STRETCHES};
use super::ready::{OnCard, Point, Stage, Standing, Weight, leaves_from};
use super::told::Found;
use super::waiting::gain_of_next;
use crate::handbook::crops::readiness::{
    BALL_SCORES, CIRCLING_SCORES, FirstFlower, Leaves, readiness,
};
use crate::handbook::crops::{Crop, Property};
use crate::handbook::moving;
use crate::handbook::nights::{Stay, stay};
use crate::handbook::pots::Pot;
use crate::handbook::{safety, sources};
use crate::nursery::Day;
use crate::reckon::answer::Caution;
use crate::reckon::words::{
    chances_worth_saying, easy_lift, in_ten, listed, litres, number, percent,
};
use crate::science::nights::NoOutlook;

/// The thing chosen, for a choice that is not in its list.
pub const A_MOVE: &str = "move";
/// The thing chosen, for a choice that is not in its list.
pub const A_BEGINNING: &str = "day to count from";
/// The thing chosen, for a choice that is not in its list.
pub const A_BALL: &str = "score of the ball";
/// The thing chosen, for a choice that is not in its list.
pub const A_CIRCLING: &str = "score of circling";
/// The thing chosen, for a choice that is not in its list.
pub const A_COLOUR: &str = "colour of root tips";
/// The thing chosen, for a choice that is not in its list.
pub const A_FLOWER: &str = "state of the flower";
/// The thing chosen, for a choice that is not in its list.
pub const A_PEST: &str = "number of pests";
/// The thing chosen, for a choice that is not in its list.
pub const A_COVER: &str = "cover";
/// The thing chosen, for a choice that is not in its list.
pub const A_WAY_IT_WENT: &str = "way it went";
/// How a move went, in the order of the question's keys.
pub const WENT_SEEN: [&str; 4] = ["well", "slowly", "with a check to growth", "harmed by cold"];
/// The thing chosen, for a choice that is not in its list.
pub const A_POINT: &str = "point of the card";
/// The thing chosen, for a choice that is not in its list.
pub const A_WEIGHT: &str = "weight of a point";
/// The thing chosen, for a choice that is not in its list.
pub const AN_ANSWER: &str = "state of a point";
/// A choice that nobody made.
pub const NOT_LOOKED: &str = "not looked";
/// Label of a field.
pub const BALL_LABEL: &str = "The ball, knocked out";
/// Label of a field.
pub const CIRCLING_LABEL: &str = "Roots at the wall";
/// Label of a field.
pub const TIPS_LABEL: &str = "Root tips";
/// Label of a field.
pub const LEAVES_LABEL: &str = "True leaves";
/// Label of a field.
pub const HEIGHT_LABEL: &str = "Height above the mix";
/// Label of a field.
pub const HARDENED_LABEL: &str = "Hardened for";
/// Label of a field.
pub const FLOWER_LABEL: &str = "Flower";
/// Label of a field.
pub const PESTS_LABEL: &str = "Pests and disease";
/// What is seen of root tips, the best first.
pub const TIPS_SEEN: [&str; 3] = ["white to cream", "tan", "brown, and slip off"];
/// What is seen of a flower.
pub const FLOWERS_SEEN: [&str; 3] = ["none", "a bud", "open, or a truss"];
/// What is seen of pests.
pub const PESTS_SEEN: [&str; 3] = ["none", "a few", "many"];
/// How much may hang on a point of one's own.
pub const WEIGHTS_TOLD: [&str; 2] = ["it does not move without it", "it tells, no more"];
/// What may be seen of a point of one's own.
pub const OWN_SEEN_TOLD: [&str; 2] = ["yes", "no"];
/// Label of a figure.
pub const SHARE: &str = "Way gone by warmth";
/// Label of a figure.
pub const BEST_DAY: &str = "Best day to move, from today (21: none of these)";
/// Label of a figure.
pub const LOSS_BEST: &str = "Lost of its worth, moved on that day";
/// Label of a figure.
pub const LOSS_TODAY: &str = "Lost of its worth, moved today";
/// Label of a figure.
pub const LOSS_LEFT: &str = "Lost of its worth, left for 21 days";
/// What is worked out.
pub const WHAT_SHARE: &str = "Way gone by warmth";
/// What is worked out.
pub const WHAT_CHANCE: &str = "Chance that every night stays above the limit";
/// What is worked out.
pub const WHAT_LIMIT: &str = "Night minimum that the move asks for";
/// What is worked out.
pub const WHAT_LOSS: &str = "Loss on the best day";
/// What is worked out.
pub const WHAT_POT: &str = "Growth in the next pot, times that in this";
/// What is done on the first days of hardening.
pub const HARDEN_VENTS: &str = "Open the vents by day and close them for the night. Water to 70 % of what is usual, halve the nitrogen and keep the potash.";

const BEFORE_LIFTING: &str = "Before you lift wet pots and full trays";
const BEFORE_TOUCHING: &str = "Before you handle chillies";
const BEFORE_A_HOT_DAY: &str = "Before a hot day";
const BEFORE_CLOSING: &str = "Before you shut the house";

/// Label of a figure.
pub fn chance_label(nights: usize) -> String {
    format!("Chance that the next {nights} nights all stay above the limit")
}

/// How leaves of a crop are counted, as a label.
pub fn leaves_label(crop: Option<&Crop>) -> String {
    match crop.and_then(readiness).map(|row| row.counted) {
        Some(Leaves::Pairs) => "Pairs of true leaves",
        Some(Leaves::OfEachShoot) => "True leaves of each shoot",
        Some(Leaves::Single) | None => LEAVES_LABEL,
    }
    .to_owned()
}

/// What a point of the card is called.
pub fn point_label(point: Point) -> &'static str {
    match point {
        Point::Ball => BALL_LABEL,
        Point::Circling => CIRCLING_LABEL,
        Point::Tips => TIPS_LABEL,
        Point::Leaves => LEAVES_LABEL,
        Point::Height => HEIGHT_LABEL,
        Point::Flower => FLOWER_LABEL,
        Point::Pests => PESTS_LABEL,
        Point::Hardened => "Hardening",
        Point::Own(_) => "Your own point",
        Point::Warmth => "Warmth since its last move",
        Point::Nights => "The coming nights",
        Point::Heat => "The hottest day",
        Point::Room => "Room",
    }
}

/// A point that is on the card already.
pub fn point_twice(called: &str) -> String {
    format!("“{called}” stands on the card already. Take one of them out.")
}

/// A point of one's own that does not say what to look for.
pub fn no_words() -> String {
    "Write what to look for, such as “the label is in the tray”, or take the point out.".to_owned()
}

/// A point of one's own that says too much.
pub fn too_many_letters(letters: usize, most: usize) -> String {
    format!("The card has room for {most} letters, and this has {letters}. Say it shorter.")
}

/// Too many points.
pub fn too_many_points(most: usize) -> String {
    format!("The card has room for {most} points. Take some out.")
}

/// A crop of which too little is known.
pub fn not_known_enough() -> String {
    "When this crop is ready to move is not known here. Choose one that grows like it.".to_owned()
}

/// A move that a crop does not make.
pub fn no_sum(crop: &Crop, moves: Move) -> String {
    match moves {
        Move::PrickOut => format!(
            "Of {} no pricking out is known: it is sown into its pot, or struck. Choose another move.",
            crop.name
        ),
        _ => format!(
            "How much warmth {} needs for this move is not known. Choose another move, or a crop that grows like it.",
            crop.name
        ),
    }
}

/// A day that has not come.
pub fn since_to_come(today: Day) -> String {
    format!(
        "This day is still to come: it cannot be after today, {}. Write the day it came up or was last moved.",
        today.in_words()
    )
}

/// A day too long ago.
pub fn since_long_ago(most: i32) -> String {
    format!("This is more than {most} days ago. Write the day of its last move.")
}

/// A night that has not come.
pub fn night_to_come(today: Day) -> String {
    format!(
        "A minimum is read in the morning after the night, so at the latest on {}. What is still to come goes under forecasts.",
        today.in_words()
    )
}

/// A night too long ago.
pub fn night_long_ago(most: i32) -> String {
    format!("A night more than {most} days ago tells nothing of the coming ones. Take it out.")
}

/// A night twice.
pub fn night_twice(day: Day) -> String {
    format!(
        "There is a minimum of {} already. Take one of them out.",
        day.in_words()
    )
}

/// A forecast with a gap before it.
pub fn forecast_gap() -> String {
    "Forecasts follow each other from tonight: write this one, or take out those after it."
        .to_owned()
}

/// Too many rows.
pub fn too_many_nights(most: usize) -> String {
    format!("At most {most} are reckoned with. Take some out.")
}

/// A maximum below the minimum.
pub fn high_below_low(low_c: f64) -> String {
    format!(
        "The mean maximum cannot be below the mean minimum: write {}\u{a0}°C or more.",
        number(low_c, 3)
    )
}

/// A next pot that is not bigger.
pub fn next_not_bigger(pot: &Pot) -> String {
    format!(
        "Potted on, it goes into more room than it has: choose one bigger than {}.",
        pot.name
    )
}

/// A weighed plant of which something is missing.
pub fn all_four_or_none() -> String {
    "For a weighed plant height, stem, shoot and root are all wanted: write this one too, or leave all four empty."
        .to_owned()
}

/// No outlook.
pub fn no_outlook(why: NoOutlook) -> String {
    format!("Nothing can be said of these nights. {why}")
}

/// A move of before of which it is not said how it went.
pub fn how_it_went() -> String {
    "Say how that move went, or take the row out.".to_owned()
}

/// Trays and valves without what a tray takes.
pub fn in_tray_wanted() -> String {
    "Say how many pots a tray takes, or leave trays and float valves empty.".to_owned()
}

/// A doubt of one's own that leaves nothing.
pub fn off_by_less() -> String {
    "The next batch cannot be off by more than all the warmth that yours needed: write less."
        .to_owned()
}

fn degrees(celsius: f64) -> String {
    [&number((celsius * 10.0).round() / 10.0, 3), "\u{a0}°C"].concat()
}

fn best_day(found: &Found<'_>) -> String {
    match found.run.best {
        0 => "today".to_owned(),
        1 => "tomorrow".to_owned(),
        day if day >= DAYS => "later than these three weeks".to_owned(),
        day => ["on ", &found.case.today.plus(day as i32).in_words()].concat(),
    }
}

fn the_move(moves: Move) -> &'static str {
    match moves {
        Move::PrickOut => "pricking out",
        Move::PotOn => "potting on",
        Move::ColdHouse => "the cold house",
        Move::Outdoors => "going out of doors",
    }
}

/// Where a batch goes, at the head of its card.
pub fn goes(case: &Case) -> String {
    match (case.moves, case.next) {
        (Move::PrickOut, _) => "pricked out".to_owned(),
        (Move::PotOn, Some(next)) => ["into ", next.name].concat(),
        (Move::PotOn, None) => "into a bigger pot".to_owned(),
        (Move::ColdHouse, _) => "into the cold house".to_owned(),
        (Move::Outdoors, _) => "out of doors".to_owned(),
    }
}

fn to_do(case: &Case) -> String {
    match (case.moves, case.next) {
        (Move::PrickOut, _) => "Prick it out".to_owned(),
        (Move::PotOn, Some(next)) => ["Pot it on into ", next.name].concat(),
        (Move::PotOn, None) => "Pot it on".to_owned(),
        (Move::ColdHouse, _) => "Take it into the cold house".to_owned(),
        (Move::Outdoors, _) => "Take it out of doors".to_owned(),
    }
}

/// What is missing that a batch needs, as it is named.
fn named(case: &Case, point: Point) -> String {
    match point {
        Point::Ball => "a ball that holds".to_owned(),
        Point::Circling => "roots at the wall of the pot".to_owned(),
        Point::Tips => "sound roots".to_owned(),
        Point::Leaves => leaves_wanted(case),
        Point::Height => "height".to_owned(),
        Point::Flower => "the first bud".to_owned(),
        Point::Pests => "clean leaves".to_owned(),
        Point::Hardened => "hardening".to_owned(),
        Point::Own(place) => ["“", own_words(case, place).trim_end_matches('.'), "”"].concat(),
        Point::Warmth => "warmth enough since its last move".to_owned(),
        Point::Nights => "warmer nights where it goes".to_owned(),
        Point::Heat => "a place that stays cooler by day".to_owned(),
        Point::Room => "room where it goes".to_owned(),
    }
}

fn own_words(case: &Case, place: usize) -> &str {
    case.card.own.get(place).map_or("", |own| &own.words)
}

fn leaves_wanted(case: &Case) -> String {
    let many = leaves_from(case);
    let many_text = number(many, 2);
    let one = many <= 1.0;
    match case.readiness.counted {
        Leaves::Pairs if case.moves != Move::PrickOut => {
            let what = if one { "pair" } else { "pairs" };
            format!("{many_text} {what} of true leaves")
        }
        Leaves::OfEachShoot => {
            let what = if one { "true leaf" } else { "true leaves" };
            format!("{many_text} {what} on each shoot")
        }
        _ => format!("{many_text} true {}", if one { "leaf" } else { "leaves" }),
    }
}

fn lacking(found: &Found<'_>, of: impl Fn(&OnCard) -> bool) -> Vec<String> {
    let on = found.card.iter().filter(|on| of(on));
    on.map(|on| named(found.case, on.point)).collect()
}

/// How the stage is told.
pub fn stage(found: &Found<'_>) -> String {
    let Found { case, run, .. } = found;
    let crop = case.crop.name;
    let missing = |weight: Weight| {
        lacking(found, |on| {
            on.standing == Standing::Missing && on.weight == weight
        })
    };
    match found.stage {
        Stage::Ready => format!(
            "This batch of {crop} is ready for {}.",
            the_move(case.moves)
        ),
        Stage::Wait => {
            let waits = lacking(found, |on| {
                on.weight == Weight::Waits
                    && matches!(on.standing, Standing::Missing | Standing::NotLooked)
            });
            if waits.is_empty() {
                format!(
                    "This batch of {crop} is ready for {}, but less is lost by moving it {}.",
                    the_move(case.moves),
                    best_day(found)
                )
            } else {
                format!(
                    "This batch of {crop} is ready for {} but for {}.",
                    the_move(case.moves),
                    listed(&waits)
                )
            }
        }
        Stage::NotYet => format!(
            "This batch of {crop} is not ready for {} yet: it lacks {}.",
            the_move(case.moves),
            listed(&missing(Weight::Needed))
        ),
        Stage::Overdue => {
            let waits = missing(Weight::Waits);
            let but = if waits.is_empty() {
                String::new()
            } else {
                format!(" It still lacks {}.", listed(&waits))
            };
            let why = if run.checked {
                format!(
                    "its pot has checked it since about week {}",
                    number(weeks_before_check(case).range.best(), 2)
                )
            } else {
                "it shows that it has waited".to_owned()
            };
            format!("This batch of {crop} should have moved before: {why}.{but}")
        }
    }
}

/// The verdict with its sentence.
pub fn verdict(found: &Found<'_>, chances: Option<[f64; 3]>) -> String {
    let [seven, ..] = found.chances;
    let mut said = vec![
        stage(found),
        format!(
            "That the next {} nights there all stay above {}{} is {}: {}.",
            STRETCHES[0],
            degrees(found.inputs.limit_c),
            if found.case.place.fleece {
                " beside the fleece"
            } else {
                ""
            },
            stay_words(seven),
            in_ten(seven)
        ),
    ];
    let not_looked = lacking(found, |on| {
        on.standing == Standing::NotLooked && on.weight == Weight::Needed
    });
    if !not_looked.is_empty() {
        said.push(format!(
            "Nobody has looked for {}: look before you move it.",
            listed(&not_looked)
        ));
    }
    if let Some([ready, watch, not]) = chances {
        let told = chances_worth_saying([
            (ready, "it is ready"),
            (watch, "it is ready with something to mind"),
            (not, "it is not ready"),
        ]);
        if told.len() > 1 {
            said.push([&told.join(", "), "."].concat());
        }
    }
    said.join(" ")
}

fn stay_words(chance: f64) -> &'static str {
    match stay(chance) {
        Stay::Safe => "as good as safe",
        Stay::Likely => "likely, with a cover at hand",
        Stay::Even => "about even",
        Stay::Unlikely => "unlikely",
    }
}

/// What to do next.
pub fn advice(found: &Found<'_>) -> String {
    let Found { case, run, .. } = found;
    let needed = lacking(found, |on| {
        on.standing == Standing::Missing && on.weight == Weight::Needed
    });
    let pot = pot_advice(case);
    if !needed.is_empty() {
        let when = match run.ready_in {
            Some(days) if days > 0.5 => format!(
                "in about {} days, when warmth will have carried it there",
                number(days.ceil(), 2)
            ),
            _ => "in three days".to_owned(),
        };
        let amiss = |point: Point| {
            found
                .card
                .iter()
                .any(|on| on.point == point && on.standing == Standing::Missing)
        };
        let sound = if amiss(Point::Tips) {
            " Brown roots are rot: let it dry a little, look at the roots of others, and do not pot it on."
        } else if amiss(Point::Pests) && case.seen.pests == Some(Pests::Many) {
            " Deal with the pests where it stands, and do not carry them with it."
        } else {
            ""
        };
        return format!("Leave it where it is, and look again {when}.{sound}{pot}");
    }
    if run.best >= DAYS {
        return format!(
            "Leave it where it is warm: in none of the coming 21 days is {} better than waiting. Ask again in a week.{pot}",
            the_move(case.moves)
        );
    }
    let left = percent(run.loss(DAYS));
    let lost = if run.best == 0 {
        format!(
            "about {} of its worth is lost so, and {left} if it is left for 21 days",
            percent(run.loss(0))
        )
    } else {
        format!(
            "about {} of its worth is lost then, {} if it goes today and {left} if it is left for 21 days",
            percent(run.loss(run.best)),
            percent(run.loss(0))
        )
    };
    let plan = if case.moves.into_cold() && run.best > 0 {
        " Harden it until then by the plan."
    } else {
        ""
    };
    let cover = if !case.place.fleece && stay(found.chances[0]) < Stay::Safe {
        " Keep fleece at hand for a cold night."
    } else {
        ""
    };
    format!(
        "{} {}: {lost}.{plan}{cover}{pot}",
        to_do(case),
        best_day(found)
    )
}

fn pot_advice(case: &Case) -> String {
    let Some((next, gain)) = case.next.zip(gain_of_next(case)) else {
        return String::new();
    };
    format!(
        " In {} it may grow {} times as heavy in the end; much wet mix round few roots stays wet, so water little until they reach the wall.",
        litres(next.filled().in_litres(), 2),
        number(gain, 2)
    )
}

/// Why the best day is the best.
pub fn reasons(found: &Found<'_>) -> Vec<String> {
    let Found { case, run, .. } = found;
    let at = |costs: &[f64], day: usize| costs.get(day).copied().unwrap_or(0.0);
    let best = run.best;
    let mut said = Vec::new();
    if best > 0 {
        let saved = at(&run.early, 0) - at(&run.early, best);
        let cost = at(&run.waiting, best);
        said.push(format!(
            "Gone today, cold nights, haste and want of hardening take about {} more than on the best day; waiting until then takes {}.",
            percent(super::days::lost(saved.max(0.0))),
            percent(super::days::lost(cost))
        ));
    } else {
        said.push(format!(
            "Each day of waiting takes more than the nights of going: in a week {}.",
            percent(super::days::lost(at(&run.waiting, 7)))
        ));
    }
    if best < DAYS {
        let later = (best + 7).min(DAYS);
        let more = run.loss(later) - run.loss(best);
        said.push(format!(
            "{} later about {} more is lost.",
            if later - best == 7 {
                "A week"
            } else {
                "A few days"
            },
            percent(more.max(0.0))
        ));
    }
    let gone = way_gone(run.share);
    said.push(match run.ready_in {
        Some(days) if days > 0.5 => format!(
            "By warmth it has gone {gone}, and is there in about {} days.",
            number(days.ceil(), 2)
        ),
        Some(_) => format!("By warmth it has gone {gone}."),
        None => format!(
            "By warmth it has gone {gone}; where it stands it is not there within two months."
        ),
    });
    said.extend(found.hot.as_ref().and_then(|hot| hot::sentence(case, hot)));
    if case.moves.into_cold() {
        let done = case.seen.hardened_days.unwrap_or(0.0);
        let wants = moving::HARDENING_DAYS.range.best();
        if done < wants {
            said.push(format!(
                "It wants about {} days of hardening, and has had {}.",
                number(wants, 2),
                number(done, 2)
            ));
        }
    }
    if let Some(takes) = case.place.room.takes(case.plants)
        && takes < case.plants
    {
        said.push(format!(
            "There is room for {} of {} pots there: make room, or move them in two goes.",
            number(takes, 6),
            number(case.plants, 6)
        ));
    }
    said.extend(own(case));
    said.push(
        "What cold and waiting cost is judged, not measured: which day is better is surer than by how much."
            .to_owned(),
    );
    said
}

fn way_gone(share: f64) -> String {
    if share >= 1.0 {
        "all of its way".to_owned()
    } else {
        [&percent(share), " of its way"].concat()
    }
}

/// What the nights are told from, and how far that reaches.
pub fn outlook(found: &Found<'_>) -> Vec<String> {
    let Found { case, nights, .. } = found;
    let mut said = Vec::new();
    if let Some(held) = case.place.held_c {
        said.push(format!(
            "The place is held at {}: as long as its heater runs, no night there is colder. Minima read there tell nothing of nights without it, and are left aside.",
            degrees(held)
        ));
    } else if case.log.len() < FEWEST_NIGHTS {
        let have = match case.log.len() {
            0 => "No night was read there".to_owned(),
            1 => "One night was read there".to_owned(),
            many => format!("Only {many} nights were read there"),
        };
        said.push(format!(
            "{have}: this is almost all the climate of {} and the warmth you gave the place. Read its minimum for ten mornings.",
            case.climate.name
        ));
    } else {
        let [warmer, doubt] = nights.offset_k;
        said.push(format!(
            "By {} nights read there, it is {}\u{a0}K warmer than the climate of {}, give or take {}.",
            case.log.len(),
            number((warmer * 10.0).round() / 10.0, 2),
            case.climate.name,
            number(doubt, 2)
        ));
    }
    if case.place.held_c.is_none() && !(case.log.is_empty() && case.forecasts.is_empty()) {
        said.push(match nights.told_ahead {
            0 => "Of single nights ahead this tells no more than the season does.".to_owned(),
            1 => "For tonight this tells more than the season does; beyond it only the season and the place are known."
                .to_owned(),
            many => format!(
                "For {many} nights this tells more than the season does; beyond them only the season and the place are known."
            ),
        });
    }
    said.push(
        "How nights stray was checked on minima read out of doors; how far glass changes that is practice, not measured."
            .to_owned(),
    );
    said
}

/// What to look for at a point, and what is seen.
pub fn point(case: &Case, run: &Run, chance_7: f64, point: Point) -> [String; 2] {
    let seen = &case.seen;
    let not_looked = || NOT_LOOKED.to_owned();
    let scored = |scores: &[(u8, &str)], score: Option<u8>| {
        score
            .and_then(|score| scores.iter().find(|(known, _)| *known == score))
            .map_or_else(not_looked, |(_, words)| (*words).to_owned())
    };
    match point {
        Point::Ball => [
            "Water it an hour before, turn it over and knock it out on your hand: the ball stays whole, or loses less than a spoonful.".to_owned(),
            scored(&BALL_SCORES, seen.ball),
        ],
        Point::Circling => [
            "Look at the wall of the ball: some roots there, not yet a full turn. A turn is teased apart; a mat at the base is late.".to_owned(),
            scored(&CIRCLING_SCORES, seen.circling),
        ],
        Point::Tips => [
            "Look at the root tips: white to cream is sound, tan is late or salty, brown that slips off between the fingers is rot.".to_owned(),
            seen.tips.map_or_else(not_looked, |tips| {
                let place = match tips {
                    Tips::White => 0,
                    Tips::Tan => 1,
                    Tips::Brown => 2,
                };
                TIPS_SEEN[place].to_owned()
            }),
        ],
        Point::Leaves => [
            format!(
                "Count on ten plants, without the seed leaves: from {}.",
                leaves_wanted(case)
            ),
            seen.leaves.map_or_else(not_looked, |leaves| {
                [&number(leaves, 2), " counted"].concat()
            }),
        ],
        Point::Height => {
            let range = case.readiness.height_cm.range;
            [
                format!(
                    "Measure from the mix to the tip: {} to {}\u{a0}cm. Taller and thin is drawn for want of light.",
                    number(range.low(), 2),
                    number(range.high(), 2)
                ),
                seen.height_cm.map_or_else(not_looked, |height| {
                    [&number(height, 3), "\u{a0}cm"].concat()
                }),
            ]
        }
        Point::Flower => [
            match case.readiness.first_flower {
                FirstFlower::None => "No flower yet: one that opens tells of a plant that has waited.",
                FirstFlower::Bud => "The first bud can be seen.",
                FirstFlower::Truss => "The first truss shows.",
            }
            .to_owned(),
            seen.flower.map_or_else(not_looked, |flower| {
                let place = match flower {
                    Flower::None => 0,
                    Flower::Bud => 1,
                    Flower::Open => 2,
                };
                FLOWERS_SEEN[place].to_owned()
            }),
        ],
        Point::Pests => [
            "Turn leaves over: no lice, flies, mites or thrips, no mould, no spots. What goes with it spreads there.".to_owned(),
            seen.pests.map_or_else(not_looked, |pests| {
                let place = match pests {
                    Pests::None => 0,
                    Pests::Few => 1,
                    Pests::Many => 2,
                };
                PESTS_SEEN[place].to_owned()
            }),
        ],
        Point::Hardened => [
            format!(
                "Vents open by day, then cooler nights and less water, for about {} days.",
                number(moving::HARDENING_DAYS.range.best(), 2)
            ),
            seen.hardened_days.map_or_else(not_looked, |days| {
                format!("{} days", number(days, 2))
            }),
        ],
        Point::Warmth => [
            format!(
                "{} to {} degree days since, above {}.",
                number(case.sum.range.low(), 2),
                number(case.sum.range.high(), 2),
                degrees(
                    case.crop
                        .figure(Property::GrowthBase)
                        .map_or(0.0, |base| base.range.best())
                )
            ),
            if case.seen.leaves.is_some() && !case.card.points.contains(&Point::Leaves) {
                [&way_gone(run.share), ", but its leaves were counted and are enough"].concat()
            } else {
                way_gone(run.share)
            },
        ],
        Point::Own(place) => [
            own_words(case, place).to_owned(),
            case.card
                .own
                .get(place)
                .and_then(|own| own.seen)
                .map_or_else(not_looked, |so| OWN_SEEN_TOLD[usize::from(!so)].to_owned()),
        ],
        Point::Nights => [
            format!(
                "The next {} nights there all stay above {}, 8 times in 10 or more.",
                STRETCHES[0],
                degrees(Inputs::best(case).map_or(0.0, |inputs| inputs.limit_c))
            ),
            in_ten(chance_7),
        ],
        Point::Heat => {
            let limit = case
                .crop
                .figure(Property::HeatLimit)
                .map_or(0.0, |limit| limit.range.best());
            [
                format!("The hottest day there stays below {}: shade and vents.", degrees(limit)),
                case.place.hottest_c.map_or_else(not_looked, |hottest| {
                    [&degrees(hottest), " expected"].concat()
                }),
            ]
        }
        Point::Room => room(case),
    }
}

/// Room as it is wanted, and what there is of it.
fn room(case: &Case) -> [String; 2] {
    let room = case.place.room;
    let plants = number(case.plants, 6);
    let wanted = match room.trays_for(case.plants) {
        Some(trays) if trays > 1.0 => format!(
            "Room for {plants} pots there, rim to rim at first: {} trays.",
            number(trays, 5)
        ),
        _ => format!("Room for {plants} pots there, rim to rim at first."),
    };
    let takes = room.takes(case.plants).unwrap_or(case.plants);
    let seen = if takes >= case.plants {
        "for all".to_owned()
    } else {
        format!("for {}", number(takes, 6))
    };
    [wanted, seen]
}

/// What one's own moves and batches made of the handbook's figures; nothing where there are none.
pub fn own(case: &Case) -> Vec<String> {
    let mut said = Vec::new();
    let handbook = case.crop.figure(Property::NightForColdHouse);
    if let Some((own, handbook)) = case.own.night_c.zip(handbook) {
        let moves = match case.earlier.len() {
            1 => "one move of yours".to_owned(),
            many => format!("{many} moves of yours"),
        };
        said.push(format!(
            "By {moves}, nights for it may fall to {} ({} to {}); the handbook has {} ({} to {}).",
            degrees(own.best()),
            degrees(own.low()),
            degrees(own.high()),
            degrees(handbook.range.best()),
            degrees(handbook.range.low()),
            degrees(handbook.range.high()),
        ));
    }
    if case.own_warmth {
        said.push(
            "The warmth it needs is that of your own batches, drawn towards the handbook's."
                .to_owned(),
        );
    }
    said
}

/// A cooler night of hardening.
pub fn harden_cooler(night_c: f64) -> String {
    format!(
        "Vents open by day; let the night fall to {} and no lower. Water to 70 % of what is usual, and do not feed nitrogen.",
        degrees(night_c)
    )
}

/// The last day of hardening.
pub fn harden_and_move(case: &Case) -> String {
    format!(
        "{} in the afternoon, watered through, and out of the wind and the midday sun for two days.",
        to_do(case)
    )
}

/// What is to be minded.
pub fn cautions(case: &Case) -> Vec<Caution> {
    let practice = &sources::COMMON_PRACTICE;
    let mut all = vec![Caution::new(
        BEFORE_LIFTING,
        [
            "A tray of watered pots is heavy and drips: let it drain, clear the way, carry it close, and let two carry what one would have to heave. ",
            &easy_lift(),
        ]
        .concat(),
        safety::LIFT_CLOSE.source,
    )];
    if ["chilli_annuum", "chilli_chinense"].contains(&case.crop.key) {
        all.push(Caution::new(
            BEFORE_TOUCHING,
            "Broken fruit and seed of hot chillies burn skin and eyes. Wear nitrile gloves, keep your hands off your face, and wash them with oil or soap before water. From eyes rinse it for 15 minutes, and see a doctor if it still hurts.".to_owned(),
            practice,
        ));
    }
    all.push(Caution::new(
        BEFORE_A_HOT_DAY,
        "Under glass in July it can pass 50 °C. Move plants in the cool of the morning or the evening, drink before you are thirsty, and rest in the shade; giddy, sick or confused is heat stroke: get cool and call for help.".to_owned(),
        practice,
    ));
    if case.moves != Move::Outdoors {
        all.push(Caution::new(
            BEFORE_CLOSING,
            "A house that is shut for a cold night is an oven an hour after sunrise: open it before the sun is on it, or fit a vent that opens by itself.".to_owned(),
            practice,
        ));
    }
    all
}

/// What hot days take, and what spares it.
pub fn hot_days(case: &Case, hot: &HotTold) -> String {
    let [low, _, high] = hot.hottest_c;
    let [_, stands, _] = hot.stands_c;
    let [least, _, most] = hot.loses;
    let there = if case.moves == Move::Outdoors {
        "outside"
    } else {
        "there"
    };
    let whole = |celsius: f64| degrees(celsius.round());
    format!(
        "The hottest day {there} comes to {} to {}, where {} stands {}; a plant just moved loses {} to {} of its worth to such heat. Move in the evening, shade for the first days, and open the vents early.",
        whole(low),
        whole(high),
        case.crop.name,
        whole(stands),
        percent(least),
        percent(most),
    )
}
