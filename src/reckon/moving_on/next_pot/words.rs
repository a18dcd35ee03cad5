//! The sentences on the next pot.

use super::NextPotTold;
use crate::handbook::moving;
use crate::reckon::words::{litres, number};

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
    let [low, best, high] = [low, best, high].map(|ml| litres(ml / ML_PER_L, 2));
    if low == high {
        best
    } else {
        [&low, " to ", &high].concat()
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

fn which(sizes: &[NextPotTold], take: usize, taken: &NextPotTold) -> String {
    let wet = days(taken.wet_days);
    let dries = taken.wet_days[1] <= moving::WET_FOR_DAYS.range.best();
    let larger = sizes.get(take + 1..).and_then(<[NextPotTold]>::last);
    let smaller = sizes.first().filter(|_| take > 0);
    let of_extra = |minutes_of: &str| {
        if taken.pottings_after == 0 {
            String::new()
        } else {
            [" The potting still to come takes ", minutes_of, "."].concat()
        }
    };
    match (dries, larger, smaller) {
        (false, ..) => {
            let than = number(moving::WET_FOR_DAYS.range.best(), 1);
            [
                "No size is safe from staying wet: even the ",
                &taken.name,
                " pot takes ",
                &wet,
                " to dry by half at this light, and more than ",
                &than,
                "\u{a0}days round new roots is too long. Take no larger one, and keep it short of water.",
                &of_extra(&minutes(taken.minutes_after)),
            ]
            .concat()
        }
        (true, None, Some(smaller)) => [
            if taken.why == "last" {
                "Straight to the last: the "
            } else {
                "Go past the next size: the "
            },
            &taken.name,
            " pot dries by half in ",
            &wet,
            ", safe for new roots. It grows in the end up to ",
            &number(taken.gain, 2),
            " times what it would in the ",
            &smaller.name,
            " pot",
            &if smaller.pottings_after > 0 {
                [
                    ", and a potting less saves ",
                    &minutes(smaller.minutes_after),
                    ".",
                ]
                .concat()
            } else {
                ".".to_owned()
            },
        ]
        .concat(),
        (true, None, None) => [
            "Take the ",
            &taken.name,
            " pot: it dries by half in ",
            &wet,
            ", safe for new roots.",
        ]
        .concat(),
        (true, Some(larger), smaller) => [
            if smaller.is_some() {
                "Two sizes up, but no more: the "
            } else {
                "One size up: the "
            },
            &taken.name,
            " pot dries by half in ",
            &wet,
            ", while the ",
            &larger.name,
            " would stay wet for ",
            &days(larger.wet_days),
            ", where a plant that fills it takes ",
            &days(larger.rooted_days),
            "; ",
            &amount(larger.out_of_reach_ml),
            " of its water would be out of reach of the roots.",
            &of_extra(&minutes(taken.minutes_after)),
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
