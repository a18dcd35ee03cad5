//! The sentences on the next pot.

use super::NextPotTold;
use crate::handbook::moving;
use crate::reckon::words::{litres, number};

/// What is worked out.
pub const WHAT_WET: &str = "Days until the next pot is dry by half";

/// A mix that could not be reckoned.
pub fn no_mix() -> String {
    "The usual mix cannot be reckoned in this pot. Choose a pot of another size.".to_owned()
}

/// "3 to 5 days", or "about 4 days" where the two are alike as they are told.
fn days([low, best, high]: [f64; 3]) -> String {
    let [low, best, high] = [low, best, high].map(|days| number(days.max(0.1), 1));
    let one = |days: &str| {
        if days == "1" {
            "\u{a0}day"
        } else {
            "\u{a0}days"
        }
    };
    if low == high {
        ["about ", &best, one(&best)].concat()
    } else {
        [&low, " to ", &high, "\u{a0}days"].concat()
    }
}

/// "every day", "every 3 to 5 days", or "twice a day and more".
fn how_often([low, best, high]: [f64; 3]) -> String {
    const TWICE: f64 = 0.5;
    const ONCE: f64 = 1.4;
    if best < TWICE {
        "more than twice a day".to_owned()
    } else if best < 1.0 {
        "once or twice a day".to_owned()
    } else if best < ONCE {
        "every day or two".to_owned()
    } else {
        let [low, high] = [low, high].map(|days| number(days.max(1.0), 1));
        if low == high {
            ["every ", &low, "\u{a0}days"].concat()
        } else {
            ["every ", &low, " to ", &high, "\u{a0}days"].concat()
        }
    }
}

fn amount([low, best, high]: [f64; 3]) -> String {
    const ML_PER_L: f64 = 1000.0;
    let [low, best, high] = [low, best, high].map(|ml| ml / ML_PER_L);
    let [from, only, to] = [low, best, high].map(|amount| litres(amount, 2));
    if from == to {
        only
    } else if high < 1.0 {
        // One unit for both.
        [&number(low * ML_PER_L, 2), " to ", &to].concat()
    } else {
        [&from, " to ", &to].concat()
    }
}

fn minutes([low, _, high]: [f64; 3]) -> String {
    const OF_HOUR: f64 = 60.0;
    const HOURS_FROM: f64 = 180.0;
    if low >= HOURS_FROM {
        let [low, high] = [low, high].map(|minutes| number(minutes / OF_HOUR, 2));
        [&low, " to ", &high, "\u{a0}h"].concat()
    } else {
        let [low, high] = [low, high].map(|minutes| number(minutes, 2));
        [&low, " to ", &high, "\u{a0}minutes"].concat()
    }
}

/// Which size to take, how little water is enough in it, and what it was reckoned for; nothing where there are no
/// sizes.
#[must_use]
pub fn sentences(sizes: &[NextPotTold]) -> Vec<String> {
    let Some(take) = sizes.iter().position(|size| size.take) else {
        return Vec::new();
    };
    let Some(taken) = sizes.get(take) else {
        return Vec::new();
    };
    vec![
        which(sizes, take, taken),
        how_little(taken),
        "Reckoned for three parts bark, one perlite and one coir, drained, at today’s light. A finer mix, dull days and a cold house keep it wet for longer: heft the pot, and water by its weight.".to_owned(),
    ]
}

/// "another potting takes" so long, of those still to come.
fn still_to_come(taken: &NextPotTold) -> String {
    match taken.pottings_after {
        0 => String::new(),
        1 => [
            " The potting still to come takes ",
            &minutes(taken.minutes_after),
            ".",
        ]
        .concat(),
        many => [
            " The ",
            &many.to_string(),
            " pottings still to come take ",
            &minutes(taken.minutes_after),
            ".",
        ]
        .concat(),
    }
}

/// That a dull spell would keep it wet for too long; nothing where it would not, or where there is no smaller size.
fn in_a_dull_spell(taken: &NextPotTold, smaller: Option<&NextPotTold>) -> String {
    let [.., longest] = taken.wet_days;
    let than = moving::WET_FOR_DAYS.range.best();
    if smaller.is_none() || longest <= than {
        return String::new();
    }
    [
        " In a dull spell it may stay wet for longer than ",
        &number(than, 1),
        "\u{a0}days: a size less is safer then.",
    ]
    .concat()
}

/// What is saved by not stopping at a smaller size; nothing where that takes no potting more.
fn saved(smaller: &NextPotTold, taken: &NextPotTold) -> String {
    let fewer = smaller.pottings_after.saturating_sub(taken.pottings_after);
    if fewer == 0 {
        return ".".to_owned();
    }
    let share = f64::from(fewer) / f64::from(smaller.pottings_after);
    let pottings = match fewer {
        1 => "a potting less saves ".to_owned(),
        many => [&many.to_string(), " pottings less save "].concat(),
    };
    let saved = smaller.minutes_after.map(|minutes| share * minutes);
    [", and ", &pottings, &minutes(saved), "."].concat()
}

fn which(sizes: &[NextPotTold], take: usize, taken: &NextPotTold) -> String {
    let wet = days(taken.wet_days);
    let dries = taken.wet_days[1] <= moving::WET_FOR_DAYS.range.best();
    let larger = sizes.get(take + 1..).and_then(<[NextPotTold]>::last);
    let smaller = sizes.first().filter(|_| take > 0);
    let the = match (taken.why.as_str(), larger) {
        ("last", None) => "Straight to the last: the ",
        ("next", _) => "One size up: the ",
        ("two_on", Some(_)) => "Two sizes up, but no more: the ",
        ("two_on", None) => "Two sizes up: the ",
        _ => "Past the next size: the ",
    };
    match (dries, larger) {
        (false, _) => {
            let than = number(moving::WET_FOR_DAYS.range.best(), 1);
            [
                "No size is safe from staying wet: even the ",
                &taken.name,
                " pot takes ",
                &wet,
                " to dry by half at this light, and more than ",
                &than,
                "\u{a0}days round new roots is too long. Take no larger one, and keep it short of water.",
                &still_to_come(taken),
            ]
            .concat()
        }
        (true, None) => {
            let gain = smaller.map_or_else(String::new, |smaller| {
                [
                    " It grows in the end up to ",
                    &number(taken.gain, 2),
                    " times what it would in the ",
                    &smaller.name,
                    " pot",
                    &saved(smaller, taken),
                ]
                .concat()
            });
            [
                the,
                &taken.name,
                " pot dries by half in ",
                &wet,
                ", soon enough for new roots.",
                &in_a_dull_spell(taken, smaller),
                &gain,
            ]
            .concat()
        }
        (true, Some(larger)) => [
            the,
            &taken.name,
            " pot dries by half in ",
            &wet,
            ", while the ",
            &larger.name,
            " would stay wet for ",
            &days(larger.wet_days),
            ", where a plant that fills it takes ",
            &days(larger.rooted_days),
            ": ",
            &amount(larger.out_of_reach_ml),
            " of its water would be out of reach of the roots.",
            &in_a_dull_spell(taken, smaller),
            &still_to_come(taken),
        ]
        .concat(),
    }
}

fn how_little(taken: &NextPotTold) -> String {
    let finger = number(moving::FINGER_MM.range.best(), 2);
    [
        "Until it has rooted, ",
        &amount(taken.give_ml),
        " at a time is enough, ",
        &how_often(taken.every_days),
        ", poured round the stem: that wets the ball and ",
        &finger,
        "\u{a0}mm round it. More only fills mix that no root reaches.",
    ]
    .concat()
}
