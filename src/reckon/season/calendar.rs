//! From day to day: how far the warmth and light of its places carry a sowing.

use std::cell::RefCell;
use std::rc::Rc;

use super::case::{Case, KnownDays, Stand, Warmth, Way};
use super::inputs::{ComesUp, Inputs, Needs};
use crate::handbook::climates::Climate;
use crate::nursery::Day;
use crate::science::thermal_time::Cardinals;

/// Nothing is followed for longer than this, days.
pub const LONGEST_DAYS: usize = 500;
/// Days of a year; the last of a leap year is that of others.
const YEAR: usize = 365;

/// When a sowing comes to what, days after it was sown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stages {
    /// Half has come up.
    pub up: f64,
    /// It is potted, or goes to where it stands where it was sown into its pot.
    pub potted: f64,
    /// It is ready.
    pub ready: f64,
}

/// The weather of each day of a year, which is the same whatever is drawn.
#[derive(Clone, Debug)]
pub struct Skies {
    /// Mean minimum and maximum outside, °C, and solar radiation, MJ/m².
    days: Vec<[f64; 3]>,
}

thread_local! {
    /// Those asked for last: a question is read at every key, and seldom moves to another climate.
    static LAST: RefCell<Option<(&'static str, Rc<Skies>)>> = const { RefCell::new(None) };
}

impl Skies {
    /// Of a climate.
    #[must_use]
    pub fn of(climate: &Climate) -> Rc<Self> {
        LAST.with_borrow_mut(|last| match last {
            Some((key, skies)) if *key == climate.key => Rc::clone(skies),
            _ => {
                let skies = Rc::new(Self::found(climate));
                *last = Some((climate.key, Rc::clone(&skies)));
                skies
            }
        })
    }

    fn found(climate: &Climate) -> Self {
        let on = |day: usize| {
            let day = day as f64;
            [
                climate.lowest_on(day),
                climate.highest_on(day),
                climate.radiation_on(day),
            ]
        };
        Self {
            days: (1..=YEAR).map(on).collect(),
        }
    }

    fn on(&self, place: usize) -> [f64; 3] {
        self.days.get(place).copied().unwrap_or_default()
    }
}

/// What each day of a year does for each way of growing a crop, with one set of inputs.
#[derive(Clone, Debug)]
pub struct Calendar {
    ways: Vec<(Way, Gains)>,
}

/// What each day of a year does for a crop in its places.
#[derive(Clone, Debug)]
struct Gains {
    /// How far seed comes up, of all the way.
    comes_up: Days,
    /// Warmth where it comes up, °C d.
    first: Days,
    /// Warmth where it stands in its pots, °C d.
    then: Days,
    /// From coming up to potting, °C d; none where it is sown into its pot.
    to_potting: Option<f64>,
    /// From then until it is ready, °C d.
    after: f64,
    /// From coming up to the first cut or pick, °C d, where that is known.
    to_pick: Option<f64>,
}

/// Of each day of a year something.
type Days = Rc<Vec<f64>>;

/// Years of a crop in a place, each found once.
struct Years {
    known: Vec<((usize, usize), Days)>,
}

impl Years {
    fn of(&mut self, crop_in: (usize, usize), found: &dyn Fn() -> Vec<f64>) -> Days {
        if let Some((_, year)) = self.known.iter().find(|(known, _)| *known == crop_in) {
            return Rc::clone(year);
        }
        let year = Rc::new(found());
        self.known.push((crop_in, Rc::clone(&year)));
        year
    }
}

impl Calendar {
    /// Of a case with its inputs.
    #[must_use]
    pub fn of(case: &Case, inputs: &Inputs) -> Self {
        let nothing_known = || Years { known: Vec::new() };
        let (mut coming_up, mut growing) = (nothing_known(), nothing_known());
        let year = Year { inputs };
        let mut ways: Vec<(Way, Gains)> = Vec::new();
        for way in case.ways() {
            if ways.iter().any(|(known, _)| *known == way) {
                continue;
            }
            let Some(needs) = inputs.needs.get(way.crop) else {
                continue;
            };
            let days = |place: usize, of: &dyn Fn(&Stand, [f64; 3]) -> f64| -> Vec<f64> {
                let stand = case.stands.get(place);
                (0..YEAR)
                    .map(|day| stand.map_or(0.0, |stand| of(stand, case.skies.on(day))))
                    .collect()
            };
            let mut grows = |place: usize| {
                growing.of((way.crop, place), &|| {
                    days(place, &|stand, sky| year.grows(stand, needs, sky))
                })
            };
            let gains = Gains {
                comes_up: coming_up.of((way.crop, way.first), &|| {
                    days(way.first, &|stand, sky| year.comes_up(stand, needs, sky))
                }),
                first: grows(way.first),
                then: grows(way.then),
                to_potting: needs.prick_out,
                after: needs.ready - needs.prick_out.unwrap_or(0.0),
                to_pick: needs.pick,
            };
            ways.push((way, gains));
        }
        Self { ways }
    }

    fn gains(&self, way: Way) -> Option<&Gains> {
        self.ways
            .iter()
            .find(|(known, _)| *known == way)
            .map(|(_, gains)| gains)
    }

    /// What becomes of a crop that is sown on a day; none where it does not become ready.
    #[must_use]
    pub fn from(&self, way: Way, sown: Day) -> Option<Stages> {
        self.when_known(way, sown, KnownDays::default())
    }

    /// What becomes of one of which some days are known, in days after it was sown: that it was up, was potted, was
    /// ready. None where it does not become ready.
    #[must_use]
    pub fn when_known(&self, way: Way, sown: Day, known: KnownDays) -> Option<Stages> {
        let gains = self.gains(way)?;
        let on = |from: f64, sum: f64, of: &[f64]| {
            let days = pieces(from).map(|(day, share)| (share, on_day(of, sown.plus(day))));
            Some(from + until(sum, days)?)
        };
        let KnownDays {
            up,
            potted,
            ready,
            picked,
        } = known;
        // What is known of a later day holds for an earlier one that is not: it was up when it was potted.
        let no_later =
            |day: f64, known: &[Option<f64>]| known.iter().copied().flatten().fold(day, f64::min);
        let up = match up {
            Some(up) => up,
            None => match on(0.0, 1.0, &gains.comes_up) {
                Some(up) => no_later(up, &[potted, ready, picked]),
                None => potted.or(ready).or(picked)?,
            },
        };
        let potted = match (potted, gains.to_potting) {
            (Some(potted), _) => potted,
            (None, None) => up,
            (None, Some(sum)) => match on(up, sum, &gains.first) {
                Some(potted) => no_later(potted, &[ready, picked]),
                None => ready.or(picked)?,
            },
        };
        let ready = match ready {
            Some(ready) => ready,
            None => match on(potted, gains.after, &gains.then) {
                Some(ready) => no_later(ready, &[picked]),
                None => picked?,
            },
        };
        Some(Stages { up, potted, ready })
    }

    /// How far one came by the days that are known of it, of all the way as it is thought: until it was up, and from
    /// then until it was cut or picked, or else was ready, or else was potted.
    #[must_use]
    pub fn came_so_far(&self, way: Way, sown: Day, known: KnownDays) -> [Option<f64>; 2] {
        let Some(gains) = self.gains(way) else {
            return [None; 2];
        };
        let between = |of: &[f64], from: f64, to: f64| -> f64 {
            (from as i32..to as i32)
                .map(|day| on_day(of, sown.plus(day)))
                .sum()
        };
        let KnownDays {
            up,
            potted,
            ready,
            picked,
        } = known;
        let came_up = up.map(|up| between(&gains.comes_up, 0.0, up));
        // Where it was potted on a day that is not known, it is not known where it grew.
        let left_first = match gains.to_potting {
            Some(_) => potted,
            None => up,
        };
        let grew_until = |end: f64, sum: f64| {
            let (up, left) = up.zip(left_first)?;
            let left = left.min(end);
            Some((between(&gains.first, up, left) + between(&gains.then, left, end)) / sum)
        };
        let grew = match (picked.zip(gains.to_pick), ready) {
            (Some((picked, sum)), _) => grew_until(picked, sum),
            (None, Some(ready)) => grew_until(ready, gains.to_potting.unwrap_or(0.0) + gains.after),
            (None, None) => {
                let both = potted.zip(gains.to_potting);
                both.and_then(|(potted, sum)| grew_until(potted, sum))
            }
        };
        [came_up, grew]
    }

    /// How many days before a day a crop must be sown to be ready then; none where it would never be.
    #[must_use]
    pub fn days_before(&self, way: Way, ready: Day) -> Option<f64> {
        let gains = self.gains(way)?;
        let back = |from: f64, sum: f64, of: &[f64]| {
            let days = pieces(from).map(|(day, share)| (share, on_day(of, ready.plus(-1 - day))));
            Some(from + until(sum, days)?)
        };
        let potted = back(0.0, gains.after, &gains.then)?;
        let up = match gains.to_potting {
            None => potted,
            Some(sum) => back(potted, sum, &gains.first)?,
        };
        back(up, 1.0, &gains.comes_up)
    }
}

fn on_day(of: &[f64], day: Day) -> f64 {
    let place = day_of_year(day) as usize - 1;
    of.get(place).copied().unwrap_or(0.0)
}

/// The days of a year in places.
struct Year<'a> {
    inputs: &'a Inputs,
}

impl Year<'_> {
    /// Lowest and highest of a place under a sky, °C.
    fn warmth(&self, stand: &Stand, [low, high, _]: [f64; 3]) -> [f64; 2] {
        let [night_k, day_k] = stand.warmer_k;
        let off = self.inputs.season_off_k;
        let low = low + night_k + off;
        let house = [low, (high + day_k + off).max(low)];
        match stand.warmth {
            Warmth::House => house,
            Warmth::Held(held) => house.map(|house| house.max(held + self.inputs.held_off_k)),
        }
    }

    /// How far seed comes up in a day, of all the way.
    fn comes_up(&self, stand: &Stand, needs: &Needs, sky: [f64; 3]) -> f64 {
        let [low, high] = self.warmth(stand, sky);
        let mix_c = f64::midpoint(low, high);
        match &needs.comes_up {
            ComesUp::Table {
                table,
                cardinals,
                later,
            } => table
                .days_at_any(mix_c, cardinals)
                .map_or(0.0, |days| 1.0 / (days * later)),
            ComesUp::Sum { cardinals, sum } => {
                let rate = cardinals.rate_by_trapezoid(mix_c, plateau_end(cardinals));
                rate * (cardinals.optimum_c() - cardinals.base_c()) / sum
            }
        }
    }

    /// Warmth of a day above the base, °C d, less where light is short.
    fn grows(&self, stand: &Stand, needs: &Needs, sky: [f64; 3]) -> f64 {
        let [_, _, sun] = sky;
        let light = stand.lamps_mol_per_m2 + light_of_sun(sun, self.inputs.transmits);
        gain_of_day(&needs.growth, self.warmth(stand, sky), light)
    }
}

/// Warmth of a day above the base, °C d, between its lowest and highest, less where light (mol/m² of a day) is short.
/// The day runs as a sine between its lowest and highest.
pub fn gain_of_day(growth: &Cardinals, [low, high]: [f64; 2], light_mol: f64) -> f64 {
    /// Times of a day that are looked at: its mean is then within 0.3 % of the whole integral.
    const TIMES: usize = 24;
    let (middle, swing) = (f64::midpoint(low, high), (high - low) / 2.0);
    let sum: f64 = (0..TIMES)
        .map(|time| {
            let angle = std::f64::consts::TAU * (time as f64 + 0.5) / TIMES as f64;
            growth.rate_by_trapezoid(middle + swing * angle.sin(), plateau_end(growth))
        })
        .sum();
    let share = sum / TIMES as f64;
    share * (growth.optimum_c() - growth.base_c()) / slowed(light_mol)
}

/// How much longer everything takes for want of light: 1 + 0.08 (10 - D), D the light in mol/m² of a day, between 4
/// and 10. Common practice, no source for the figures; that young plants take up to twice as long below 10 is
/// printed by a university's extension.
pub fn slowed(light_mol: f64) -> f64 {
    const ENOUGH_MOL: f64 = 10.0;
    const LEAST_MOL: f64 = 4.0;
    const SLOWER_PER_MOL: f64 = 0.08;
    1.0 + SLOWER_PER_MOL * (ENOUGH_MOL - light_mol.clamp(LEAST_MOL, ENOUGH_MOL))
}

/// Light for plants of a day, mol/m², in a house that lets a share of it in, from the sun's energy, MJ/m².
pub fn light_of_sun(sun_mj: f64, transmits: f64) -> f64 {
    /// Light of plants in the sun's energy, mol/MJ: 45 % of it, at 4.57 µmol/J (McCree 1972, from memory).
    const MOL_PER_MJ: f64 = 2.06;
    MOL_PER_MJ * (sun_mj * transmits)
}

/// Days until a sum is reached, from parts of days and what a whole day gains; none where it is not.
fn until(sum: f64, days: impl Iterator<Item = (f64, f64)>) -> Option<f64> {
    let (mut left, mut time) = (sum, 0.0);
    if left <= 0.0 {
        return Some(0.0);
    }
    for (share, gain) in days {
        let all = share * gain;
        if all >= left {
            return Some(time + share * left / all);
        }
        left -= all;
        time += share;
    }
    None
}

/// Whole days and what is left of the first, from a time on.
fn pieces(from: f64) -> impl Iterator<Item = (i32, f64)> {
    let first = from.floor();
    (0..LONGEST_DAYS).map(move |step| {
        let share = if step == 0 { 1.0 - (from - first) } else { 1.0 };
        (first as i32 + step as i32, share)
    })
}

/// Leaves come as fast up to a third of the way from the optimum to the ceiling. A judgement.
fn plateau_end(cardinals: &Cardinals) -> f64 {
    cardinals.optimum_c() + (cardinals.ceiling_c() - cardinals.optimum_c()) / 3.0
}

/// The day of the year, from 1; the last of a leap year is that of others.
pub fn day_of_year(day: Day) -> f64 {
    let (year, _, _) = day.civil();
    let first = Day::from_civil(year, 1, 1).unwrap_or(day);
    f64::from((day.number() - first.number() + 1).min(YEAR as i32))
}
