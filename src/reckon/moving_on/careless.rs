//! Questions of Moving on such as a careless, hurried or hostile hand might put.

use super::card::LOOKED_AT;
use super::question::{
    BALLS, CIRCLINGS, COVERS, EarlierAsked, FLOWERS, FROM, ForecastAsked, MOVES, NightAsked,
    OWN_SEEN, OwnAsked, PESTS, PlaceAsked, PointAsked, Question, SeenAsked, StoodAsked, TIPS,
    WEIGHTS, WENT, WeighedAsked,
};
use crate::handbook::climates::CLIMATES;
use crate::handbook::crops::CROPS;
use crate::handbook::pots::POTS;
use crate::measure::Entry;
use crate::nursery::Day;
use crate::reckon::careless::{entry, one_of, slips};
use crate::science::numerics::draws::Draws;

/// A choice that nobody need make.
fn looked(draws: &mut Draws, list: &[&'static str]) -> String {
    if draws.below(3) == 0 {
        String::new()
    } else {
        one_of(draws, list, "green-ish").to_owned()
    }
}

/// A number that nobody need type.
fn typed(draws: &mut Draws, unit: &str, low: f64, high: f64) -> Entry {
    if draws.below(2) == 0 {
        Entry::new("", unit)
    } else {
        entry(draws, unit, low, high)
    }
}

/// A count that nobody need type.
fn counted(draws: &mut Draws, most: usize) -> Entry {
    match draws.below(4) {
        0 | 1 => Entry::default(),
        _ if slips(draws) => entry(draws, "", 0.1, 1e3),
        _ => Entry::number(draws.below(most) as f64),
    }
}

/// A temperature between two, which may lie below nought, or seldom anything at all.
fn celsius(draws: &mut Draws, low: f64, high: f64) -> Entry {
    if slips(draws) {
        return entry(draws, "degC", 1.0, 1e3);
    }
    let value = low + (high - low) * draws.uniform();
    Entry::new(format!("{value:.1}"), "degC")
}

fn day_or_slip(draws: &mut Draws, day: Day) -> String {
    if slips(draws) {
        let silly = ["31 February 2027", "", "2027-13-01", "tomorrow"];
        return one_of(draws, &silly, "💐").to_owned();
    }
    day.iso()
}

pub fn careless(draws: &mut Draws) -> Question {
    let crops: Vec<&str> = CROPS.iter().map(|crop| crop.key).collect();
    let pots: Vec<&str> = POTS.iter().map(|pot| pot.key).collect();
    let climates: Vec<&str> = CLIMATES.iter().map(|row| row.key).collect();
    let first = Day::from_civil(2027, 1, 1).unwrap_or(Day::from_number(0));
    let today = first.plus(draws.below(730) as i32);
    let since = today.plus(-(draws.below(120) as i32));
    let low = 4.0 + 18.0 * draws.uniform();
    let high = low + 12.0 * draws.uniform();
    let nights = if draws.below(3) == 0 {
        0
    } else {
        draws.below(12)
    };
    Question {
        crop: one_of(draws, &crops, "triffid").to_owned(),
        moves: one_of(draws, &MOVES, "fly").to_owned(),
        today: day_or_slip(draws, today),
        since: day_or_slip(draws, since),
        from: one_of(draws, &FROM, "never").to_owned(),
        pot: one_of(draws, &pots, "boot").to_owned(),
        next: one_of(draws, &pots[pots.len().saturating_sub(4)..], "").to_owned(),
        plants: if slips(draws) {
            entry(draws, "", 0.1, 1e4)
        } else {
            Entry::number((1 + draws.below(500)) as f64)
        },
        climate: one_of(draws, &climates, "mars").to_owned(),
        stood: StoodAsked {
            low: celsius(draws, low, low),
            high: celsius(draws, high, high),
            light: typed(draws, "", 1.0, 30.0),
        },
        seen: SeenAsked {
            ball: looked(draws, &BALLS),
            circling: looked(draws, &CIRCLINGS),
            tips: looked(draws, &TIPS),
            leaves: typed(draws, "", 0.5, 12.0),
            height: typed(draws, "cm", 1.0, 40.0),
            flower: looked(draws, &FLOWERS),
            pests: looked(draws, &PESTS),
            hardened: typed(draws, "day", 0.5, 20.0),
        },
        weighed: if draws.below(4) == 0 {
            WeighedAsked {
                height: entry(draws, "cm", 3.0, 40.0),
                stem: entry(draws, "mm", 1.0, 8.0),
                shoot: entry(draws, "g", 0.05, 5.0),
                root: entry(draws, "g", 0.01, 2.0),
            }
        } else {
            WeighedAsked::default()
        },
        place: PlaceAsked {
            night: celsius(draws, -1.0, 5.0),
            held: typed(draws, "degC", 2.0, 20.0),
            cover: one_of(draws, &COVERS, "lead").to_owned(),
            hottest: typed(draws, "degC", 20.0, 50.0),
            room: counted(draws, 400),
            trays: counted(draws, 40),
            // Trays and valves are of no use without it.
            in_tray: if slips(draws) {
                entry(draws, "", 0.5, 40.0)
            } else {
                Entry::number((1 + draws.below(40)) as f64)
            },
            floats: counted(draws, 40),
        },
        nights: (0..nights)
            .map(|night| NightAsked {
                day: {
                    let slip = draws.below(200) == 0;
                    let ago = if slip { draws.below(90) } else { night };
                    day_or_slip(draws, today.plus(-(ago as i32)))
                },
                low: celsius(draws, -8.0, 18.0),
            })
            .collect(),
        forecasts: (0..draws.below(8))
            .map(|_| ForecastAsked {
                low: celsius(draws, -8.0, 15.0),
            })
            .collect(),
        earlier: (0..draws.below(4))
            .map(|_| EarlierAsked {
                low: celsius(draws, -5.0, 18.0),
                went: one_of(draws, &WENT, "so-so").to_owned(),
            })
            .collect(),
        own: OwnAsked {
            warmth: typed(draws, "%", 60.0, 160.0),
            off: typed(draws, "%", 5.0, 50.0),
        },
        card: card(draws),
        ..Question::default()
    }
}

/// A card, or as often none: most of the usual points in any order, and some of one's own.
fn card(draws: &mut Draws) -> Vec<PointAsked> {
    const SAID: [&str; 5] = [
        "labels are in; all of them",
        "stems: as thick as a pencil",
        "no moss on the mix",
        "the tray drains",
        "\\ 💐",
    ];
    const TOO_LONG: &str = "so long that it does not fit on any card, however small one writes, and so long that nobody \
        who stands at a bench with wet hands would ever read it to the end";
    if draws.below(2) == 0 {
        return Vec::new();
    }
    let mut rows = Vec::new();
    for point in LOOKED_AT {
        if draws.below(4) > 0 {
            rows.push(PointAsked::of(one_of(draws, &[point.key()], "feet")));
        }
    }
    let own = if draws.below(50) == 0 {
        12
    } else {
        draws.below(4)
    };
    for place in 0..own {
        // A hand that slips writes the same again.
        let said = SAID.get(place).copied().unwrap_or("the same");
        let other = if draws.below(2) == 0 { TOO_LONG } else { "" };
        rows.push(PointAsked {
            words: one_of(draws, &[said], other).to_owned(),
            weight: one_of(draws, &WEIGHTS, "heavy").to_owned(),
            seen: looked(draws, &OWN_SEEN),
            ..PointAsked::default()
        });
    }
    // In any order.
    for place in (1..rows.len()).rev() {
        rows.swap(place, draws.below(place + 1));
    }
    rows
}
