//! The question of Moving on as the grower's record asks it, batch by batch: what became of the batch, where it stands,
//! where it could go, and the nights that were read there.

use super::question::{
    COLD_HOUSE, ForecastAsked, MOST_NIGHTS, MOVED, NightAsked, POT_ON, PRICK_OUT, PlaceAsked,
    Question, StoodAsked, UP,
};
use crate::handbook::climates::CLIMATES;
use crate::handbook::crops::Property;
use crate::handbook::crops::readiness::{Step, readiness};
use crate::handbook::nights::LIFT_UNDER_GLASS_K;
use crate::handbook::pots::{POTS, Pot};
use crate::measure::{Entry, Quantity, Temperature, TemperatureDifference};
use crate::nursery::batch::{BatchHere, batches_here, crop_like};
use crate::nursery::bay::{BayHere, bay_here, bay_of, forecast_low};
use crate::nursery::kinds::{DAY, INSIDE};
use crate::nursery::vessel::pot_like;
use crate::nursery::{Day, Id, Record, Thing};

/// The question of the batch that was sown last and still stands; none where there is none that can be asked about.
#[must_use]
pub fn of_record(record: &Record, today: Day) -> Option<Question> {
    batches_here(record, today)
        .iter()
        .filter(|batch| batch.gone.is_none())
        .find_map(|batch| asked(record, batch, today))
}

/// The question of a batch on a day; none where the record has no such batch, it is gone or not up yet, or its crop or
/// pot is not of the handbook, nor like one of it.
#[must_use]
pub fn of_batch(record: &Record, batch: Id, today: Day) -> Option<Question> {
    batches_here(record, today)
        .iter()
        .find(|here| here.id == batch && here.gone.is_none())
        .and_then(|here| asked(record, here, today))
}

fn celsius(celsius: f64) -> Entry {
    let tenths = (celsius * 10.0).round() / 10.0;
    Entry::of(
        Temperature::from_celsius(tenths),
        &Temperature::DEGREE_CELSIUS,
    )
}

/// What a bay is held at, °C.
fn held(here: &BayHere) -> Option<f64> {
    here.held().map(Temperature::in_celsius)
}

/// The last move of a batch: pricked out, potted on or moved.
fn last_move(record: &Record, batch: &BatchHere, today: Day) -> Option<Day> {
    record
        .stages_of(batch.id, today)
        .filter(|log| ["pricked_out", "potted_on", "moved"].contains(&log.text("what")))
        .filter_map(|log| log.day(DAY))
        .max()
}

fn asked(record: &Record, batch: &BatchHere, today: Day) -> Option<Question> {
    let crop = crop_like(record, &batch.crop)?;
    readiness(crop)?;
    let fallback = Question::default();
    let pot = pot_like(record, &batch.pot);
    let pot_key = pot.map_or(fallback.pot, |pot| pot.key.to_owned());
    let moved = last_move(record, batch, today).or(batch.potted);
    let (from, since) = match (moved, batch.up) {
        (Some(moved), _) => (MOVED, moved),
        (None, Some(up)) => (UP, up),
        (None, None) => return None,
    };
    let stands = batch.last.and_then(|place| bay_of(record, place));
    let here = stands.and_then(|bay| bay_here(record, bay.id));
    let is_held = here.as_ref().and_then(held);
    let cold = record
        .of_kind("bay")
        .filter(|bay| Some(bay.id) != stands.map(|stands| stands.id))
        .find(|bay| bay_here(record, bay.id).is_some_and(|here| held(&here).is_none()));
    let small = pot.is_none_or(|pot| super::case::step_of(pot) == Step::Plug);
    let pricked = moved.is_none() && small && crop.figure(Property::PrickOutSum).is_some();
    let moves = if pricked {
        PRICK_OUT
    } else if is_held.is_some() && cold.is_some() {
        COLD_HOUSE
    } else {
        POT_ON
    };
    // Potted on or pricked out, it stays in the warm where it stands.
    let target = if moves == COLD_HOUSE { cold } else { stands };
    let target_here = target.and_then(|bay| bay_here(record, bay.id));
    let target_held = target_here.as_ref().and_then(held);
    let climate = here
        .as_ref()
        .and_then(|here| here.climate.clone())
        .or_else(|| {
            let climates = record.of_kind("place").map(|place| place.text("climate"));
            climates
                .filter(|key| !key.is_empty())
                .map(ToOwned::to_owned)
                .next()
        })
        .filter(|key| CLIMATES.iter().any(|row| row.key == key));
    let lift = TemperatureDifference::from_kelvins(LIFT_UNDER_GLASS_K.range.best());
    let number = batch.came_up.or(batch.number);
    let plants = number.map(|number| number.saturating_sub(batch.lost.unwrap_or(0)));
    Some(Question {
        crop: crop.key.to_owned(),
        moves: moves.to_owned(),
        today: today.iso(),
        since: since.iso(),
        from: from.to_owned(),
        next: next_of(&pot_key).map_or(fallback.next, |pot| pot.key.to_owned()),
        pot: pot_key,
        plants: plants
            .filter(|plants| *plants > 0)
            .map_or(fallback.plants, |plants| Entry::number(f64::from(plants))),
        climate: climate.clone().unwrap_or(fallback.climate),
        stood: stood(here.as_ref(), climate.as_deref(), today),
        place: PlaceAsked {
            night: Entry::of(lift, &TemperatureDifference::DEGREE_CELSIUS),
            held: target_held.map_or_else(|| celsius(0.0).with_text(""), celsius),
            ..PlaceAsked::default()
        },
        nights: target.map_or_else(Vec::new, |bay| nights(record, bay, today)),
        forecasts: forecasts(record, today),
        batch: batch.id.text(),
        ..Question::default()
    })
}

/// The next pot of the handbook that holds at least twice as much; none after the largest.
fn next_of(pot: &str) -> Option<&'static Pot> {
    const TIMES: f64 = 2.0;
    let holds = |pot: &Pot| pot.filled().in_litres();
    let now = holds(crate::handbook::pots::pot(pot)?);
    POTS.iter().find(|next| holds(next) >= TIMES * now)
}

/// How warm it is where the batch stands: by the nights read there and what it is held at, or else by the season under
/// glass.
fn stood(here: Option<&BayHere>, climate: Option<&str>, today: Day) -> StoodAsked {
    /// How much warmer a house is than outside by day, K. Common practice, no source.
    const WARMER_BY_DAY_K: f64 = 6.0;
    /// A bench that is held is so much warmer by day at the least, K. A judgement.
    const SWING_K: f64 = 3.0;
    let usual = StoodAsked::default();
    let read = here
        .and_then(|here| here.nights)
        .map(|nights| [nights.low.in_celsius(), nights.high.in_celsius()]);
    let season = || {
        let climate = CLIMATES.iter().find(|row| Some(row.key) == climate)?;
        let on = crate::reckon::season::day_of_year(today);
        Some([
            climate.lowest_on(on) + LIFT_UNDER_GLASS_K.range.best(),
            climate.highest_on(on) + WARMER_BY_DAY_K,
        ])
    };
    let held = here.and_then(held);
    let (low, high) = match (read.or_else(season), held) {
        (Some([low, high]), None) => (low, high),
        (Some([low, high]), Some(held)) => (low.max(held), high.max(held + SWING_K)),
        (None, Some(held)) => (held, held + SWING_K),
        (None, None) => return usual,
    };
    StoodAsked {
        low: celsius(low),
        high: celsius(high.max(low)),
        ..usual
    }
}

/// The minima of the last month that were read in a bay, or else in the house around it, the last first.
fn nights(record: &Record, bay: &Thing, today: Day) -> Vec<NightAsked> {
    const LATELY_DAYS: i32 = 30;
    let read_in = |place: Id| -> Vec<NightAsked> {
        let mut found: Vec<(Day, f64)> = record
            .of_kind("night")
            .filter(|night| night.one("place") == Some(place))
            .filter_map(|night| Some((night.day(DAY)?, night.base("low")?)))
            .filter(|(day, _)| *day <= today && today.number() - day.number() <= LATELY_DAYS)
            .collect();
        found.sort_by_key(|(day, _)| std::cmp::Reverse(*day));
        found.dedup_by_key(|(day, _)| *day);
        found
            .into_iter()
            .take(MOST_NIGHTS)
            .map(|(day, low)| NightAsked {
                day: day.iso(),
                low: celsius(Temperature::from_base(low).in_celsius()),
            })
            .collect()
    };
    let own = read_in(bay.id);
    if own.is_empty() {
        bay.one(INSIDE).map_or_else(Vec::new, read_in)
    } else {
        own
    }
}

/// What is forecast today for tonight.
fn forecasts(record: &Record, today: Day) -> Vec<ForecastAsked> {
    let tonight = forecast_low(record, today).map(Temperature::in_celsius);
    tonight
        .map(|low| ForecastAsked { low: celsius(low) })
        .into_iter()
        .collect()
}
