//! From day to day: how far the warmth and light of its places carry a sowing.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use super::case::{Case, Had, KnownDays, Warmth, Way};
use super::inputs::{ComesUp, Inputs};
use crate::handbook::climates::Climate;
use crate::handbook::crops::emergence::Emergence;
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
    /// Those of each climate that was asked for: a question is read at every key.
    static KNOWN: RefCell<Vec<(&'static str, Rc<Skies>)>> = const { RefCell::new(Vec::new()) };
}

impl Skies {
    /// Of a climate.
    #[must_use]
    pub fn of(climate: &Climate) -> Rc<Self> {
        KNOWN.with_borrow_mut(|known| {
            if let Some((_, skies)) = known.iter().find(|(key, _)| *key == climate.key) {
                return Rc::clone(skies);
            }
            let skies = Rc::new(Self::found(climate));
            known.push((climate.key, Rc::clone(&skies)));
            skies
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

    /// The mean minimum outside on a day, °C.
    #[must_use]
    pub fn lowest_on(&self, day: Day) -> f64 {
        let [low, _, _] = self.on(day_of_year(day) as usize - 1);
        low
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
    /// How far seed comes up: each day a part of what takes it up where it takes no longer than is usual.
    comes_up: Rc<Days>,
    /// So many times as much as is usual until it is up, or the sum.
    to_up: f64,
    /// Warmth where it comes up, °C d.
    first: Rc<Days>,
    /// Warmth where it stands in its pots, °C d.
    then: Rc<Days>,
    /// From coming up to potting, °C d; none where it is sown into its pot.
    to_potting: Option<f64>,
    /// From then until it is ready, °C d.
    after: f64,
    /// From coming up to the first cut or pick, °C d, where that is known.
    to_pick: Option<f64>,
}

impl Gains {
    /// The same in weather that was so much warmer by night and by day, K, in place of what a season may be off by.
    fn in_weather(&self, strayed_k: [f64; 2]) -> Self {
        let of = |days: &Days| {
            let [held_off_k, _] = days.year.off_k;
            Rc::new(Days::of(Year {
                off_k: [held_off_k, 0.0],
                strayed_k,
                ..days.year.clone()
            }))
        };
        Self {
            comes_up: of(&self.comes_up),
            first: of(&self.first),
            then: of(&self.then),
            ..self.clone()
        }
    }
}

/// Of each day of a year something, found when it is first asked for: most sowings see a part of the year.
#[derive(Clone, Debug)]
struct Days {
    year: Year,
    known: Vec<Cell<f64>>,
}

impl Days {
    fn of(year: Year) -> Self {
        Self {
            year,
            known: vec![Cell::new(f64::NAN); YEAR],
        }
    }

    fn on(&self, day: Day) -> f64 {
        let place = day_of_year(day) as usize - 1;
        let Some(known) = self.known.get(place) else {
            return 0.0;
        };
        if known.get().is_nan() {
            known.set(self.year.on(place));
        }
        known.get()
    }
}

/// Years that are known already, by crop and place: inputs that leave a year as it is share it.
#[derive(Debug, Default)]
pub struct Years {
    known: Vec<((usize, usize), Rc<Days>)>,
}

impl Years {
    fn of(&mut self, crop_in: (usize, usize), year: Year) -> Rc<Days> {
        let same = |known: &Year| known.off_k == year.off_k && known.gain == year.gain;
        let mut all = self.known.iter();
        if let Some((_, days)) = all.find(|(known, days)| *known == crop_in && same(&days.year)) {
            return Rc::clone(days);
        }
        let days = Rc::new(Days::of(year));
        self.known.push((crop_in, Rc::clone(&days)));
        days
    }
}

impl Calendar {
    /// Of a case with its inputs.
    #[must_use]
    pub fn of(case: &Case, inputs: &Inputs) -> Self {
        Self::with(case, inputs, &mut Years::default())
    }

    /// The same, sharing the years that are known already of this case.
    #[must_use]
    pub fn with(case: &Case, inputs: &Inputs, years: &mut Years) -> Self {
        let mut ways: Vec<(Way, Gains)> = Vec::new();
        for way in case.ways() {
            if ways.iter().any(|(known, _)| *known == way) {
                continue;
            }
            let Some(needs) = inputs.needs.get(way.crop) else {
                continue;
            };
            let mut of = |place: usize, gain: Gain| {
                let year = Year::of(case, place, inputs, gain);
                years.of((way.crop, place), year)
            };
            let (coming_up, to_up) = match needs.comes_up {
                ComesUp::Table {
                    table,
                    cardinals,
                    later,
                } => (Gain::ByTable(table, cardinals), later),
                ComesUp::Sum { cardinals, sum } => (Gain::OfMix(cardinals), sum),
            };
            let growing = Gain::OfAir(needs.growth);
            let gains = Gains {
                comes_up: of(way.first, coming_up),
                to_up,
                first: of(way.first, growing),
                then: of(way.then, growing),
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
        self.when_known(way, sown, KnownDays::default(), None)
    }

    /// What becomes of one of which some days are known, in days after it was sown (that it was up, was potted, was
    /// ready), and perhaps the weather that it has had. None where it does not become ready.
    #[must_use]
    pub fn when_known(
        &self,
        way: Way,
        sown: Day,
        known: KnownDays,
        had: Option<Had>,
    ) -> Option<Stages> {
        let gains = self.gains(way)?;
        let had = had.map(|had| (gains.in_weather(had.strayed_k), had.until));
        let on = |from: f64, sum: f64, of: fn(&Gains) -> &Days| {
            let gain = |day: Day| match &had {
                Some((past, today)) if day < *today => of(past).on(day),
                _ => of(gains).on(day),
            };
            let days = pieces(from).map(|(day, share)| (share, gain(sown.plus(day))));
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
            None => match on(0.0, gains.to_up, |gains| &gains.comes_up) {
                Some(up) => no_later(up, &[potted, ready, picked]),
                None => potted.or(ready).or(picked)?,
            },
        };
        let potted = match (potted, gains.to_potting) {
            (Some(potted), _) => potted,
            (None, None) => up,
            (None, Some(sum)) => match on(up, sum, |gains| &gains.first) {
                Some(potted) => no_later(potted, &[ready, picked]),
                None => ready.or(picked)?,
            },
        };
        let ready = match ready {
            Some(ready) => ready,
            None => match on(potted, gains.after, |gains| &gains.then) {
                Some(ready) => no_later(ready, &[picked]),
                None => picked?,
            },
        };
        Some(Stages { up, potted, ready })
    }

    /// How far one came by the days that are known of it, of all the way as it is thought: until it was up, and from
    /// then until it was cut or picked, or else was ready, or else was potted.
    #[must_use]
    pub fn came_so_far(
        &self,
        way: Way,
        sown: Day,
        known: KnownDays,
        had: Option<Had>,
    ) -> [Option<f64>; 2] {
        let Some(usual) = self.gains(way) else {
            return [None; 2];
        };
        let past = had.map(|had| usual.in_weather(had.strayed_k));
        let gains = past.as_ref().unwrap_or(usual);
        let between = |of: &Days, from: f64, to: f64| -> f64 {
            (from as i32..to as i32)
                .map(|day| of.on(sown.plus(day)))
                .sum()
        };
        let KnownDays {
            up,
            potted,
            ready,
            picked,
        } = known;
        let came_up = up.map(|up| between(&gains.comes_up, 0.0, up) / gains.to_up);
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
        let back = |from: f64, sum: f64, of: &Days| {
            let days = pieces(from).map(|(day, share)| (share, of.on(ready.plus(-1 - day))));
            Some(from + until(sum, days)?)
        };
        let potted = back(0.0, gains.after, &gains.then)?;
        let up = match gains.to_potting {
            None => potted,
            Some(sum) => back(potted, sum, &gains.first)?,
        };
        back(up, gains.to_up, &gains.comes_up)
    }
}

/// What a day does.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Gain {
    /// For seed in a mix, by a table of days: a part of what takes it up.
    ByTable(&'static Emergence, Cardinals),
    /// For seed in a mix, by warmth: °C d.
    OfMix(Cardinals),
    /// For plants in the air: °C d.
    OfAir(Cardinals),
}

/// The days of a year in a place, as one set of inputs has them.
#[derive(Clone, Debug)]
struct Year {
    skies: Rc<Skies>,
    warmth: Warmth,
    warmer_k: [f64; 2],
    lamps_mol_per_m2: f64,
    transmits: f64,
    gain: Gain,
    /// How much warmer than it is held, and than the mean of years, K.
    off_k: [f64; 2],
    /// How much warmer nights and days were than usual, where that is known, K.
    strayed_k: [f64; 2],
}

impl Year {
    fn of(case: &Case, place: usize, inputs: &Inputs, gain: Gain) -> Self {
        let stand = case.stands.get(place);
        Self {
            skies: Rc::clone(&case.skies),
            warmth: stand.map_or(Warmth::House, |stand| stand.warmth),
            warmer_k: stand.map_or([0.0; 2], |stand| stand.warmer_k),
            lamps_mol_per_m2: stand.map_or(0.0, |stand| stand.lamps_mol_per_m2),
            transmits: inputs.transmits,
            gain,
            off_k: [inputs.held_off_k, inputs.season_off_k],
            strayed_k: [0.0; 2],
        }
    }

    fn on(&self, place: usize) -> f64 {
        let [low, high, sun] = self.skies.on(place);
        let [low, high] = self.inside([low, high]);
        let mix_c = f64::midpoint(low, high);
        match &self.gain {
            Gain::ByTable(table, cardinals) => table
                .days_at_any(mix_c, cardinals)
                .map_or(0.0, |days| 1.0 / days),
            Gain::OfMix(cardinals) => {
                let rate = cardinals.rate_by_trapezoid(mix_c, plateau_end(cardinals));
                rate * (cardinals.optimum_c() - cardinals.base_c())
            }
            Gain::OfAir(growth) => {
                let light = self.lamps_mol_per_m2 + light_of_sun(sun, self.transmits);
                gain_of_day(growth, [low, high], light)
            }
        }
    }

    /// Lowest and highest of the place, from those outside, °C.
    fn inside(&self, [low, high]: [f64; 2]) -> [f64; 2] {
        let [night_k, day_k] = self.warmer_k;
        let [held_off_k, off] = self.off_k;
        let [strayed_night_k, strayed_day_k] = self.strayed_k;
        let low = low + night_k + off + strayed_night_k;
        let high = high + day_k + off + strayed_day_k;
        let house = [low, high.max(low)];
        match self.warmth {
            Warmth::House => house,
            Warmth::Held(held) => house.map(|house| house.max(held + held_off_k)),
        }
    }
}

/// Sines of the times of a quarter of a day that are looked at, from its middle: 7.5° and every 15° from there.
const SINES: [f64; 6] = [
    0.130_526_192_220_051_6,
    0.382_683_432_365_089_8,
    0.608_761_429_008_720_7,
    0.793_353_340_291_235_2,
    0.923_879_532_511_286_7,
    0.991_444_861_373_810_4,
];

/// Warmth of a day above the base, °C d, between its lowest and highest, less where light (mol/m² of a day) is short.
/// The day runs as a sine between its lowest and highest; 24 times of it are looked at: its mean is then within 0.3 % of
/// the whole integral. Each of six sines stands for four of them, twice above and twice below the middle.
pub fn gain_of_day(growth: &Cardinals, [low, high]: [f64; 2], light_mol: f64) -> f64 {
    let (middle, swing) = (f64::midpoint(low, high), (high - low) / 2.0);
    let end = plateau_end(growth);
    let rate = |at_c: f64| growth.rate_by_trapezoid(at_c, end);
    let share = if swing > 0.0 {
        let both = |sine: &f64| rate(middle + swing * sine) + rate(middle - swing * sine);
        let sum: f64 = SINES.iter().map(both).sum();
        sum / (2.0 * SINES.len() as f64)
    } else {
        rate(middle)
    };
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
