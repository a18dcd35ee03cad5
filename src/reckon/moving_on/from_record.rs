//! The question of Moving on as the grower's record asks it, batch by batch: what became of the batch, where it stands,
//! where it could go, and the nights that were read there.

use super::card::card_of_texts;
use super::kept::SEEN_KEPT;
use super::question::{
    COLD_HOUSE, EarlierAsked, ForecastAsked, MOST_EARLIER, MOST_NIGHTS, MOVED, NightAsked,
    OwnAsked, POT_ON, PRICK_OUT, PlaceAsked, Question, SeenAsked, StoodAsked, UP, WENT,
};
use super::room::room_there;
use crate::handbook::climates::CLIMATES;
use crate::handbook::crops::readiness::{Step, readiness};
use crate::handbook::crops::{Crop, Property};
use crate::handbook::nights::LIFT_UNDER_GLASS_K;
use crate::handbook::pots::{POTS, Pot};
use crate::measure::{DecimalMark, Duration, Entry, Fraction, Temperature, TemperatureDifference};
use crate::nursery::batch::{BatchHere, batches_here, crop_like};
use crate::nursery::bay::{BayHere, bay_here, bay_of, forecast_low};
use crate::nursery::kinds::{DAY, INSIDE};
use crate::nursery::vessel::pot_like;
use crate::nursery::{Day, Id, Record, Thing};
use crate::reckon::Reckoning;
use crate::reckon::form::put;
use crate::reckon::season::{self, Season};

/// The question of the batch that was sown last and still stands; none where there is none that can be asked about.
#[must_use]
pub fn of_record(record: &Record, today: Day) -> Option<Question> {
    let all = batches_here(record, today);
    all.iter()
        .filter(|batch| batch.gone.is_none())
        .find_map(|batch| alone(record, batch, &all, today))
}

/// The question of a batch on a day; none where the record has no such batch, it is gone or not up yet, or its crop or
/// pot is not of the handbook, nor like one of it.
#[must_use]
pub fn of_batch(record: &Record, batch: Id, today: Day) -> Option<Question> {
    let all = batches_here(record, today);
    let here = all.iter().find(|here| here.id == batch)?;
    alone(record, here, &all, today)
}

fn alone(record: &Record, batch: &BatchHere, all: &[BatchHere], today: Day) -> Option<Question> {
    let crop = crop_like(record, &batch.crop)?;
    of_batch_among(record, batch, all, today, warmth(record, crop, all, today))
}

/// The same of a batch among all of the record, with the warmth that the batches of its crop needed, and how far the next
/// may be off it, where these tell.
#[must_use]
pub fn of_batch_among(
    record: &Record,
    batch: &BatchHere,
    all: &[BatchHere],
    today: Day,
    own_warmth: Option<[f64; 2]>,
) -> Option<Question> {
    let mut question = asked(record, batch, today)?;
    let crop = crop_like(record, &batch.crop)?;
    let to = Id::read(&question.to);
    let goes = to.and_then(|to| bay_of(record, to));
    if let Some((bay, here)) = goes.and_then(|bay| Some((bay, bay_here(record, bay.id)?)))
        && let Some(pot) = crate::handbook::pots::pot(if question.moves == POT_ON {
            &question.next
        } else {
            &question.pot
        })
    {
        let others: Vec<&BatchHere> = all
            .iter()
            .filter(|other| other.gone.is_none() && other.id != batch.id)
            .collect();
        room_there(&mut question.place, (record, bay.id, &here), pot, &others);
    }
    question.earlier = earlier(record, crop, all, today);
    question.card =
        card_of(record, crop.key).map_or_else(Vec::new, |card| card_of_texts(card.text("points")));
    if let Some([warmth, off]) = own_warmth {
        let percent =
            |share: f64| Entry::new((100.0 * share).round().to_string(), Fraction::PERCENT.key);
        question.own = OwnAsked {
            warmth: percent(warmth),
            off: percent(off),
        };
    }
    Some(question)
}

/// The last move of a batch into a place without heat, of which nobody has said how it went; none before some days have
/// shown it, nor when it is long ago.
#[must_use]
pub fn to_be_judged(record: &Record, batch: Id, today: Day) -> Option<Day> {
    /// So long after a move it shows.
    const SHOWS_AFTER_DAYS: i32 = 7;
    /// After so long other things have made it what it is.
    const SHOWS_UNTIL_DAYS: i32 = 42;
    let (on, bay) = into_another_place(record, batch, today)?;
    let cold = bay_here(record, bay.id).is_some_and(|here| held(&here).is_none());
    let judged = record.of_kind("outcome").any(|outcome| {
        outcome.one("batch") == Some(batch) && outcome.day(DAY).is_some_and(|said| said >= on)
    });
    let shows = (SHOWS_AFTER_DAYS..=SHOWS_UNTIL_DAYS).contains(&(today.number() - on.number()));
    (cold && !judged && shows).then_some(on)
}

/// The card that is kept for a crop.
#[must_use]
pub fn card_of<'a>(record: &'a Record, crop: &str) -> Option<&'a Thing> {
    record
        .of_kind("card")
        .find(|card| card.text("crop") == crop)
}

/// When a batch last came into another place, and the bay that this is in.
fn into_another_place(record: &Record, batch: Id, until: Day) -> Option<(Day, &Thing)> {
    let moved = record
        .stages_of(batch, until)
        .rfind(|log| log.kind == "stage" && log.one("to").is_some())?;
    Some((moved.day(DAY)?, bay_of(record, moved.one("to")?)?))
}

/// The last verdict on a batch since it was last moved; none where nobody looked since, or that is long ago.
#[must_use]
pub fn last_verdict(record: &Record, batch: Id, today: Day) -> Option<&Thing> {
    /// Twice the three weeks that a verdict looks ahead.
    const HOLDS_DAYS: i32 = 42;
    let moved = last_move(record, batch, today);
    record
        .of_kind("verdict")
        .filter(|verdict| verdict.one("batch") == Some(batch))
        .filter_map(|verdict| Some((verdict.day(DAY)?, verdict)))
        .filter(|(on, _)| (0..=HOLDS_DAYS).contains(&(today.number() - on.number())))
        .filter(|(on, _)| moved.is_none_or(|moved| *on >= moved))
        .max_by_key(|(on, verdict)| (*on, verdict.id))
        .map(|(_, verdict)| verdict)
}

/// What was seen of a batch within the last days; nothing where that is longer ago. And the days that it was hardened,
/// as they were written down.
fn seen(record: &Record, batch: Id, today: Day) -> SeenAsked {
    /// What was seen longer ago is looked at anew.
    const SEEN_DAYS: i32 = 2;
    let mut before = Question::default();
    let verdict = last_verdict(record, batch, today).filter(|verdict| {
        verdict
            .day(DAY)
            .is_some_and(|on| today.number() - on.number() <= SEEN_DAYS)
    });
    if let Some(verdict) = verdict {
        let texts: Vec<(String, String)> = verdict
            .rows(SEEN_KEPT)
            .into_iter()
            .map(|row| {
                let of = |what| verdict.in_row(SEEN_KEPT, row, what).to_owned();
                (of("what"), of("found"))
            })
            .collect();
        // What cannot be read of it is asked anew.
        let _ = put(&mut before, &texts);
    }
    let moved = last_move(record, batch, today);
    let hardened = record
        .stages_of(batch, today)
        .filter(|log| log.text("what") == "hardened")
        .filter_map(|log| log.day(DAY))
        .filter(|on| moved.is_none_or(|moved| *on >= moved))
        .count();
    let mut seen = before.seen;
    if hardened > 0 {
        seen.hardened = Entry::new(hardened.to_string(), Duration::DAY.key);
    }
    seen
}

/// Warmth that the batches of a crop needed, and how far the next may be off it.
fn warmth(record: &Record, crop: &Crop, all: &[BatchHere], today: Day) -> Option<[f64; 2]> {
    let of_crop: Vec<BatchHere> = all
        .iter()
        .filter(|other| crop_like(record, &other.crop).is_some_and(|like| like.key == crop.key))
        .cloned()
        .collect();
    let mut asked = season::from_record::of_batches(record, &of_crop, today)?;
    asked.sowings.clear();
    let case = Season::check(&asked, DecimalMark::Ask).ok()?;
    season::own_warmth(&case, crop)
}

/// Moves of a crop into cold of which it is known how they went, and the nights after them, the last first.
fn earlier(record: &Record, crop: &Crop, all: &[BatchHere], today: Day) -> Vec<EarlierAsked> {
    /// Nights after a move by which it is judged.
    const AFTER_DAYS: i32 = 14;
    let mut outcomes: Vec<(Day, &Thing)> = record
        .of_kind("outcome")
        .filter(|outcome| WENT.contains(&outcome.text("went")))
        .filter_map(|outcome| Some((outcome.day(DAY)?, outcome)))
        .filter(|(on, _)| *on <= today)
        .collect();
    outcomes.sort_by_key(|(on, outcome)| std::cmp::Reverse((*on, outcome.id)));
    let found = outcomes.into_iter().filter_map(|(on, outcome)| {
        let batch = all
            .iter()
            .find(|batch| Some(batch.id) == outcome.one("batch"))?;
        if crop_like(record, &batch.crop)?.key != crop.key {
            return None;
        }
        let (from, bay) = into_another_place(record, batch.id, on)?;
        let until = on.min(from.plus(AFTER_DAYS));
        let read = read_there(record, bay, [from.plus(1), until]);
        let low = read.iter().map(|(_, low)| *low).min_by(f64::total_cmp)?;
        Some(EarlierAsked {
            low: celsius(low),
            went: outcome.text("went").to_owned(),
        })
    });
    found.take(MOST_EARLIER).collect()
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
fn last_move(record: &Record, batch: Id, today: Day) -> Option<Day> {
    record
        .stages_of(batch, today)
        .filter(|log| ["pricked_out", "potted_on", "moved"].contains(&log.text("what")))
        .filter_map(|log| log.day(DAY))
        .max()
}

fn asked(record: &Record, batch: &BatchHere, today: Day) -> Option<Question> {
    if batch.gone.is_some() {
        return None;
    }
    let crop = crop_like(record, &batch.crop)?;
    readiness(crop)?;
    let fallback = Question::default();
    let pot = pot_like(record, &batch.pot);
    let pot_key = pot.map_or(fallback.pot, |pot| pot.key.to_owned());
    let moved = last_move(record, batch.id, today).or(batch.potted);
    let (from, since) = match (moved, batch.up) {
        (Some(moved), _) => (MOVED, moved),
        (None, Some(up)) => (UP, up),
        (None, None) => return None,
    };
    let stands = batch.last.and_then(|place| bay_of(record, place));
    let here = stands.and_then(|bay| bay_here(record, bay.id));
    let is_held = here.as_ref().and_then(held);
    let is_cold = |bay: &&Thing| {
        Some(bay.id) != stands.map(|stands| stands.id)
            && bay_here(record, bay.id).is_some_and(|here| held(&here).is_none())
    };
    // Where it was meant to go, or else the first place without heat.
    let meant = batch.plan.and_then(|plan| record.get(plan)?.one("then"));
    let cold = meant
        .and_then(|place| bay_of(record, place))
        .filter(is_cold)
        .or_else(|| record.of_kind("bay").find(is_cold));
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
    let plants = batch.stands();
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
        seen: seen(record, batch.id, today),
        batch: batch.id.text(),
        to: target.map_or_else(String::new, |bay| bay.id.text()),
        ..Question::default()
    })
}

/// The question of a batch as if it went where it stands: for the nights there.
#[must_use]
pub fn staying(question: Question, record: &Record, bay: &Thing, today: Day) -> Question {
    Question {
        moves: COLD_HOUSE.to_owned(),
        nights: nights(record, bay, today),
        place: PlaceAsked {
            night: question.place.night,
            ..PlaceAsked::default()
        },
        to: bay.id.text(),
        ..question
    }
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
    let read = read_there(record, bay, [today.plus(-LATELY_DAYS), today]);
    let asked = read.into_iter().take(MOST_NIGHTS);
    let asked = asked.map(|(day, low)| NightAsked {
        day: day.iso(),
        low: celsius(low),
    });
    asked.collect()
}

/// The minima that were read in a bay, or else in the house around it, from one day to another: °C, the last first.
fn read_there(record: &Record, bay: &Thing, [from, until]: [Day; 2]) -> Vec<(Day, f64)> {
    let read_in = |place: Id| -> Vec<(Day, f64)> {
        let mut found: Vec<(Day, f64)> = record
            .between(from, until)
            .filter(|log| log.kind == "night" && log.one("place") == Some(place))
            .filter_map(|night| Some((night.day(DAY)?, night.number::<Temperature>("low")?)))
            .map(|(day, low)| (day, low.in_celsius()))
            .collect();
        found.sort_by_key(|(day, _)| std::cmp::Reverse(*day));
        found.dedup_by_key(|(day, _)| *day);
        found
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
