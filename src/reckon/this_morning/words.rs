//! The sentences of This morning.

use crate::nursery::Day;
use crate::reckon::season::{Bought, SownTold};
use crate::reckon::words::{in_ten, number};

fn days(many: i32) -> String {
    match many {
        1 => "1\u{a0}day".to_owned(),
        _ => format!("{many}\u{a0}days"),
    }
}

fn of_name(name: &str, fallback: &str) -> String {
    if name.is_empty() { fallback } else { name }.to_owned()
}

/// To be sown.
pub fn sow(name: &str, told: &SownTold) -> String {
    let what = if told.into_pots { "pots" } else { "cells" };
    let each = if told.seeds > told.cells && told.cells > 0 {
        format!(", {} seeds in each", told.seeds / told.cells)
    } else {
        String::new()
    };
    format!(
        "Sow {}: {} {what} of {}{each}.",
        of_name(name, "what was planned"),
        told.cells,
        told.crop
    )
}

/// What comes of not sowing.
pub fn sow_left(told: &SownTold, from: Day, today: Day) -> String {
    let ready = Day::from_iso(&told.ready[1]).map_or_else(String::new, Day::in_words);
    match today.number() - from.number() {
        late if late > 0 => format!(
            "{} late already. Sown on its day it was to be ready about {ready}.",
            days(late)
        ),
        0 => format!("Sown today it is ready about {ready}; each day later is a day later then."),
        _ => format!(
            "To be sown on {}, and ready about {ready}.",
            from.in_words()
        ),
    }
}

/// To be bought.
pub fn buy(line: &Bought) -> String {
    format!("Buy {} of: {}.", line.buy, line.what)
}

/// What comes of not buying.
pub fn buy_left(first: Day) -> String {
    format!("Wanted for what is sown from {} on.", first.in_words())
}

/// To be looked at.
pub fn look(name: &str) -> String {
    format!("Look whether {name} is up.")
}

/// What comes of not looking.
pub fn look_left(from: Day, today: Day) -> String {
    /// After so long seed that is not up is not likely to come.
    const LONG_DAYS: i32 = 10;
    let late = today.number() - from.number();
    if late > LONG_DAYS {
        format!(
            "It should have been up {} ago. If nothing shows, sow again.",
            days(late)
        )
    } else {
        "Under a cover, what is up draws and damps off.".to_owned()
    }
}

/// To be potted, or to be moved.
pub fn pot(name: &str, plants: u32, into_pots: bool, place: Option<&str>) -> String {
    let to = place.map_or_else(String::new, |place| format!(" to {place}"));
    if into_pots {
        format!("Move {name}{to}: {plants} pots.")
    } else {
        format!("Pot {name}{to}: {plants} plants.")
    }
}

/// What comes of not potting.
pub fn pot_left(late: bool) -> String {
    if late {
        "They stand in their cells for too long, and are checked.".to_owned()
    } else {
        "In their cells they are soon checked.".to_owned()
    }
}

/// What comes of not moving.
pub fn moved_left() -> String {
    "They draw up in the warmth, and keep it from what comes next.".to_owned()
}

/// To be cut or sold.
pub fn ready(name: &str, plants: u32) -> String {
    format!("{name} is ready to cut, to sell or to go on: {plants} plants.")
}

/// What comes of leaving it.
pub fn ready_left(from: Day, today: Day) -> String {
    let late = today.number() - from.number();
    if late > 0 {
        format!(
            "Ready since about {}: it goes over, and keeps its room.",
            from.in_words()
        )
    } else {
        "Left, it goes over, and keeps its room.".to_owned()
    }
}

/// To be looked over.
pub fn look_over(name: &str) -> String {
    format!("Look {name} over: roots, leaves, pests, and whether it is ready to move.")
}

/// What comes of not looking it over.
pub fn look_over_left() -> String {
    "By warmth it is soon there; the ball says whether it is.".to_owned()
}

/// The same where its pot holds it back already.
pub fn checked_left() -> String {
    "By its weeks in this pot its growth is checked: it should have moved before.".to_owned()
}

/// The same where it was not ready when somebody looked.
pub fn look_again_left(said: Day) -> String {
    format!("On {} it was not to move yet.", said.in_words())
}

/// A day of hardening.
pub fn harden(name: &str, step: &str) -> String {
    format!("Harden {name}. {step}")
}

/// What comes of not hardening.
pub fn harden_left(best: Option<Day>) -> String {
    best.map_or_else(String::new, |best| {
        format!("It is to move on {}, hardened.", best.in_words())
    })
}

/// To be moved.
pub fn move_it(name: &str, plants: u32, to: Option<&str>) -> String {
    let to = to.map_or_else(String::new, |to| format!(" to {to}"));
    format!("Move {name}{to}: {plants} plants.")
}

/// What comes of not moving.
pub fn move_left(best: Day, today: Day) -> String {
    match today.number() - best.number() {
        late if late > 0 => format!("{} past its best day.", days(late)),
        _ => "This is its best day, by its look and the nights.".to_owned(),
    }
}

/// How it went.
pub fn how_it_went(name: &str) -> String {
    format!("Say how {name} has gone since it moved.")
}

/// What comes of not saying.
pub fn how_it_went_left(moved: Day) -> String {
    format!(
        "Moved on {}. Said, it tells how cold the nights of the next batch may be.",
        moved.in_words()
    )
}

/// A week that may be too cold.
pub fn cold_week(place: &str, plants: u32, chance: f64, limit_c: f64) -> String {
    format!(
        "Have fleece at hand in {place}: below {}\u{a0}°C within a week {}, with {plants} plants there.",
        number(limit_c, 2),
        in_ten(chance)
    )
}

/// What comes of not minding it.
pub fn cold_week_left(limit_c: f64) -> String {
    format!(
        "Below {}\u{a0}°C they are harmed. Write down the forecast, and the night to be minded is told.",
        number(limit_c, 2)
    )
}

/// To be covered.
pub fn cover(place: &str, plants: u32, night_c: f64) -> String {
    format!(
        "Cover or move {plants} plants in {place}: about {}\u{a0}°C there tonight.",
        number((night_c * 2.0).round() / 2.0, 2)
    )
}

/// What comes of not covering.
pub fn cover_left(limit_c: f64) -> String {
    format!(
        "Below {}\u{a0}°C they are harmed. Take a cover off before the sun is on it.",
        number(limit_c, 2)
    )
}

/// That it was covered, as the day book has it.
pub fn covered(place: &str) -> String {
    format!("Covered for the night, or moved: {place}.")
}

/// To be read.
pub fn read(place: &str) -> String {
    format!("Read minimum and maximum: {place}.")
}

/// What comes of not reading.
pub fn read_left(last: Day, today: Day) -> String {
    match today.number() - last.number() {
        1 => "Read every day, it tells how warm the nights are there.".to_owned(),
        _ => format!("Last written on {}.", last.in_words()),
    }
}
