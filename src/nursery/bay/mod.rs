//! A bay of the record as a reckoning of warmth takes it: how it stands, what heats and covers it, the house it is
//! in, and the nights that were read there.
//!
//! * `own`: readings of one's own in it, and what was fitted to such.

mod own;

use super::kinds::DAY;
use super::vessel::{bay_carries, within};
use super::{Day, Id, Record, Thing};
use crate::measure::{Area, AreaLoad, HeatDensity, Length, Temperature};
pub use own::{FigureHere, OwnHere, ReadingHere};
use own::{figures, last_fit};

/// A bay or a bench: each thing where the record says it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BayHere {
    /// How plants stand: floor, raised, bench or heated_bench.
    pub standing: Option<&'static str>,
    /// Height above the floor.
    pub height: Option<Length>,
    /// Its area, told or by its sides.
    pub area: Option<Area>,
    /// Length and width, where both are told.
    pub sides: Option<[Length; 2]>,
    /// What it may carry.
    pub carries: Option<AreaLoad>,
    /// Heated to.
    pub set_point: Option<Temperature>,
    /// Heat installed.
    pub heat: Option<HeatDensity>,
    /// Insulation below.
    pub insulation: Option<Length>,
    /// What lies over the bay.
    pub cover: Option<&'static str>,
    /// What the house is covered with.
    pub house_cover: Option<&'static str>,
    /// What the house is heated to.
    pub house_set_point: Option<Temperature>,
    /// Length and width of the house.
    pub house: Option<[Length; 2]>,
    /// Degrees north of the place.
    pub latitude: Option<f64>,
    /// Key of the climate of the place.
    pub climate: Option<String>,
    /// Nights read there.
    pub nights: Option<Nights>,
    /// Readings of roots, water and bed there since the last fit, and the air of their days.
    pub own: Option<OwnHere>,
    /// What was fitted to such readings before.
    pub fitted: Vec<FigureHere>,
}

/// Minima and maxima of the last days read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nights {
    /// Whether they were read in the bay itself, not in what is around it.
    pub in_it: bool,
    /// Month of the last, from 1.
    pub month: u32,
    /// How many of the minima.
    pub many: usize,
    /// Mean minimum.
    pub low: Temperature,
    /// Mean maximum.
    pub high: Temperature,
}

/// Days before the last that count with it: about a month.
const DAYS: i32 = 31;
/// Fewer nights than this tell no month.
const FEWEST: usize = 3;

impl BayHere {
    /// What it is held at, by heat of its own or of its house.
    #[must_use]
    pub fn held(&self) -> Option<Temperature> {
        let bench = self
            .set_point
            .filter(|_| self.standing == Some("heated_bench"));
        bench.or(self.house_set_point).or(self.set_point)
    }
}

/// The bay that a place is, or is in.
#[must_use]
pub fn bay_of(record: &Record, place: Id) -> Option<&Thing> {
    let place = record.get(place)?;
    std::iter::once(place)
        .chain(within(record, place))
        .find(|thing| thing.kind == "bay")
}

/// The lowest minimum that was forecast on a day for the night to come, outside.
#[must_use]
pub fn forecast_low(record: &Record, day: Day) -> Option<Temperature> {
    record
        .on(day)
        .filter(|log| log.kind == "forecast")
        .filter_map(|log| log.number::<Temperature>("low"))
        .reduce(|one, other| if other < one { other } else { one })
}

/// The bay of an id. None where there is no such bay.
#[must_use]
pub fn bay_here(record: &Record, id: Id) -> Option<BayHere> {
    let bay = record.get(id).filter(|thing| thing.kind == "bay")?;
    let outer: Vec<&Thing> = std::iter::once(bay).chain(within(record, bay)).collect();
    let of = |kind: &str| outer.iter().copied().find(|thing| thing.kind == kind);
    let (house, place) = (of("house"), of("place"));
    let sides = bay.base("length").zip(bay.base("width"));
    // What was read in the bay itself, or else in what is around it.
    let nights = outer.iter().find_map(|thing| {
        let nights = nights(record, thing.id)?;
        Some(Nights {
            in_it: thing.id == id,
            ..nights
        })
    });
    let fit = last_fit(record, id);
    let since = fit.and_then(|fit| fit.day("on"));
    Some(BayHere {
        standing: bay.choice("standing"),
        height: bay.number("height"),
        area: bay
            .number("area")
            .or_else(|| sides.map(|(length, width)| Area::from_square_metres(length * width))),
        sides: bay
            .number("length")
            .zip(bay.number("width"))
            .map(|(length, width)| [length, width]),
        carries: bay_carries(record, id),
        set_point: bay.number("set_point"),
        heat: bay.number("heat"),
        insulation: bay.number("insulation"),
        cover: bay.choice("cover"),
        house_cover: house.and_then(|house| house.choice("cover")),
        house_set_point: house
            .filter(|house| house.choice("heated") != Some("no"))
            .and_then(|house| house.number("set_point")),
        house: house.and_then(|house| Some([house.number("length")?, house.number("width")?])),
        latitude: place.and_then(|place| place.base("latitude")),
        climate: place
            .map(|place| place.text("climate").to_owned())
            .filter(|climate| !climate.is_empty()),
        nights,
        own: own::own(record, &outer, since),
        fitted: fit.map_or_else(Vec::new, figures),
    })
}

/// The nights of a place about the last that was read.
fn nights(record: &Record, place: Id) -> Option<Nights> {
    let of_it = |night: &&Thing| night.one("place") == Some(place);
    let read = |thing: &Thing| -> Option<(Day, Option<f64>, Option<f64>)> {
        Some((thing.day(DAY)?, thing.base("low"), thing.base("high")))
    };
    let all: Vec<_> = record
        .of_kind("night")
        .filter(of_it)
        .filter_map(read)
        .collect();
    let last = all.iter().map(|(day, _, _)| *day).max()?;
    let lately: Vec<_> = all
        .iter()
        .filter(|(day, _, _)| last.number() - day.number() < DAYS)
        .collect();
    let mean = |of: Vec<f64>| -> Option<(usize, f64)> {
        (of.len() >= FEWEST).then(|| (of.len(), of.iter().sum::<f64>() / of.len() as f64))
    };
    let (many, low) = mean(lately.iter().filter_map(|(_, low, _)| *low).collect())?;
    let (_, high) = mean(lately.iter().filter_map(|(_, _, high)| *high).collect())?;
    Some(Nights {
        in_it: false,
        month: last.civil().1,
        many,
        low: Temperature::from_celsius(low),
        high: Temperature::from_celsius(high),
    })
}
