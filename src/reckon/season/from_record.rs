//! The question of Season as the grower's record asks it: its bays, what is planned, what is sown already, the seed,
//! the mix and what is in hand of them.

use std::collections::BTreeSet;

use super::calendar::day_of_year;
use super::case::usual_in_cell;
use super::inputs::DAYS_OF_YEAR;
use super::question::{
    BatchAsked, HELD, HOUSE, MOST_BATCHES, MOST_PARTS, MOST_PLACES, MOST_SOWINGS, PLACE_KEYS,
    PartAsked, PlaceAsked, Question, READY, SOWN, SowingAsked,
};
use crate::handbook::climates::{CLIMATES, Climate};
use crate::handbook::crops::{Begun, Crop, Kind};
use crate::handbook::pots::Pot;
use crate::measure::{
    Area, Duration, Entry, Length, PhotonFlux, Temperature, TemperatureDifference, Volume,
};
use crate::nursery::batch::{BatchHere, batches_here, crop_like};
use crate::nursery::bay::{BayHere, bay_here};
use crate::nursery::kinds::{DAY, INSIDE};
use crate::nursery::vessel::{material_here, pot_like};
use crate::nursery::{Day, Id, Record, Thing};
use crate::reckon::root_zone::own::Fits;

/// Batches sown longer ago than this, and gone, tell no more of this season's.
const REMEMBERED_DAYS: i32 = 400;
/// What was to be sown longer ago than this is no plan any more.
const OVERDUE_DAYS: i32 = 60;

/// The question of a record on a day; none where it holds neither a plan, nor a batch, nor a bay.
#[must_use]
pub fn of_record(record: &Record, today: Day) -> Option<Question> {
    of_batches(record, &batches_here(record, today), today)
}

/// The same where it is known already what became of its batches.
#[must_use]
pub fn of_batches(record: &Record, batches: &[BatchHere], today: Day) -> Option<Question> {
    let climate = climate(record);
    let places = Places::of(record, climate);
    let read = Read::of(record, &places, climate, today);
    let fallback = Question::default();
    let mut question = Question {
        climate: climate.map_or(fallback.climate, |climate| climate.key.to_owned()),
        sowings: sowings(record, &places, batches, today),
        batches: batches
            .iter()
            .filter(|batch| {
                let stands = batch.gone.is_none();
                stands || today.number() - batch.sown.number() <= REMEMBERED_DAYS
            })
            .filter_map(|batch| batch_asked(record, &places, &read, batch))
            .take(MOST_BATCHES)
            .collect(),
        ..Question::default()
    };
    let nothing = places.asked.is_empty();
    if !nothing {
        question.places.clone_from(&places.asked);
    }
    if question.sowings.is_empty() && question.batches.is_empty() {
        if nothing {
            return None;
        }
        let (first, then) = places.usual();
        question.sowings.push(SowingAsked {
            day: next_middle_of_may(today).iso(),
            first,
            then,
            ..SowingAsked::default()
        });
    }
    question.parts = parts(record);
    Some(question)
}

/// The day of the question as it stands when nothing was asked yet: the 20th of May that leaves time to sow for it.
#[must_use]
pub fn next_middle_of_may(today: Day) -> Day {
    /// Sown so long before at the least, days.
    const TIME_TO_SOW: i32 = 90;
    let (year, ..) = today.civil();
    let in_year = |year: i32| Day::from_civil(year, 5, 20).unwrap_or(today);
    let soonest = today.plus(TIME_TO_SOW);
    (year..=year + 1)
        .map(in_year)
        .find(|day| *day >= soonest)
        .unwrap_or_else(|| in_year(year + 1))
}

fn climate(record: &Record) -> Option<&'static Climate> {
    record.of_kind("place").find_map(|place| {
        let key = place.text("climate");
        CLIMATES.iter().find(|climate| climate.key == key)
    })
}

/// The crop that a text names; none where it has no sowing.
fn sown_crop(record: &Record, text: &str) -> Option<&'static Crop> {
    crop_like(record, text).filter(|crop| crop.begun == Begun::Seed)
}

fn millimetres(length: Length) -> Entry {
    Entry::of(length, &Length::MILLIMETRE)
}

/// To a tenth.
fn kelvins(by: f64) -> Entry {
    let by = TemperatureDifference::from_kelvins((by * 10.0).round() / 10.0);
    Entry::of(by, &TemperatureDifference::DEGREE_CELSIUS)
}

/// Pots of a size are set so far apart where nothing is said: a fifth more than they are wide. Common practice, no
/// source.
fn usual_spacing(pot: &Pot) -> Entry {
    let apart = pot.rim.in_millimetres() * 1.2;
    millimetres(Length::from_millimetres((apart / 5.0).ceil() * 5.0))
}

/// The bays of a record as places.
struct Places {
    asked: Vec<PlaceAsked>,
    ids: Vec<Id>,
    areas_m2: Vec<f64>,
    /// Where the nights of each were read, and how much warmer than outside these nights and days were, K.
    read: Vec<Option<(Id, [f64; 2])>>,
    warm: Option<usize>,
}

impl Places {
    fn of(record: &Record, climate: Option<&Climate>) -> Self {
        let mut places = Self {
            asked: Vec::new(),
            ids: Vec::new(),
            areas_m2: Vec::new(),
            read: Vec::new(),
            warm: None,
        };
        let nights = record.of_kind("night");
        let with_nights: BTreeSet<Id> = nights.filter_map(|night| night.one("place")).collect();
        for bay in record.of_kind("bay") {
            let Some(here) = bay_here(record, bay.id) else {
                continue;
            };
            let warmer_k = climate.and_then(|climate| warmer(&here, climate));
            let Some((asked, area_m2)) = place_asked(bay, &here, warmer_k) else {
                continue;
            };
            if places.asked.len() == MOST_PLACES {
                break;
            }
            if bay.choice("standing") == Some("heated_bench") && places.warm.is_none() {
                places.warm = Some(places.asked.len());
            }
            places.asked.push(asked);
            places.ids.push(bay.id);
            places.areas_m2.push(area_m2);
            places
                .read
                .push(read_at(record, bay, &with_nights).zip(warmer_k));
        }
        places
    }

    /// Where the nights of a place were read, by its number.
    fn read_of(&self, key: &str) -> Option<Id> {
        let place = PLACE_KEYS.iter().position(|known| *known == key)?;
        let (id, _) = self.read.get(place).copied().flatten()?;
        Some(id)
    }

    /// How much warmer than outside nights and days were that were read in a place of the record, K.
    fn warmer_where_read(&self, at: Id) -> Option<[f64; 2]> {
        let mut all = self.read.iter().flatten();
        all.find(|(id, _)| *id == at).map(|(_, warmer_k)| *warmer_k)
    }

    fn key(place: usize) -> String {
        PLACE_KEYS
            .get(place)
            .map_or_else(String::new, |key| (*key).to_owned())
    }

    /// The number of the bay that a place of the record is, is in or has in it.
    fn key_of(&self, record: &Record, place: Option<Id>) -> Option<String> {
        let place = place?;
        let at = |id: Id| self.ids.iter().position(|known| *known == id);
        let outer = || {
            let inside = record.get(place)?.one(INSIDE)?;
            at(inside)
        };
        let inner = || {
            let inside = |id: &Id| record.get(*id).and_then(|bay| bay.one(INSIDE)) == Some(place);
            self.ids.iter().position(inside)
        };
        at(place).or_else(outer).or_else(inner).map(Self::key)
    }

    /// Where seed comes up and where pots stand, where nothing is said of it: the heated bench, and the largest of the
    /// others.
    fn usual(&self) -> (String, String) {
        let first = self.warm.unwrap_or(0);
        let others = self
            .areas_m2
            .iter()
            .enumerate()
            .filter(|(at, _)| *at != first);
        let then = others
            .max_by(|(_, one), (_, other)| one.total_cmp(other))
            .map_or(first, |(at, _)| at);
        if self.asked.is_empty() {
            let usual = SowingAsked::default();
            (usual.first, usual.then)
        } else {
            (Self::key(first), Self::key(then))
        }
    }
}

/// Where the nights of a bay were read: in it, or else in what is around it.
fn read_at(record: &Record, bay: &Thing, with_nights: &BTreeSet<Id>) -> Option<Id> {
    /// A bay is in a house, and that in a place.
    const DEEPEST: usize = 3;
    let outer = |thing: &&Thing| record.get(thing.one(INSIDE)?);
    let around = std::iter::successors(Some(bay), outer).take(DEEPEST);
    around
        .map(|thing| thing.id)
        .find(|id| with_nights.contains(id))
}

/// How much warmer nights and days were, as they were read, than outside in a mean year, K.
fn warmer(here: &BayHere, climate: &Climate) -> Option<[f64; 2]> {
    let nights = here.nights?;
    let month = nights.month.saturating_sub(1) as usize;
    let weather = climate.weather();
    let low = weather.lowest_c.get(month)?;
    let high = weather.highest_c.get(month)?;
    Some([
        nights.low.in_celsius() - low,
        nights.high.in_celsius() - high,
    ])
}

fn place_asked(
    bay: &Thing,
    here: &BayHere,
    warmer_k: Option<[f64; 2]>,
) -> Option<(PlaceAsked, f64)> {
    let metres = |length: Length| Entry::of(length, &Length::METRE);
    let celsius = |at: Temperature| Entry::of(at, &Temperature::DEGREE_CELSIUS);
    let [length, breadth] = here.sides.or_else(|| here.area.map(as_wide_as_a_bench))?;
    let mut asked = PlaceAsked {
        name: bay.own_name().to_owned(),
        warmth: HOUSE.to_owned(),
        length: metres(length),
        breadth: metres(breadth),
        ..PlaceAsked::default()
    };
    if let Some(held) = here.held() {
        HELD.clone_into(&mut asked.warmth);
        asked.held = celsius(held);
    }
    if let Some(([night_k, day_k], nights)) = warmer_k.zip(here.nights) {
        // What was fitted to the bay tells how much warmer its nights are than those read around it.
        let at_bench = if nights.in_it {
            0.0
        } else {
            fitted_night(here)
        };
        asked.night = kelvins(night_k + at_bench);
        asked.day = kelvins(day_k);
    }
    if let Some((light, hours)) = bay
        .number::<PhotonFlux>("lamp_light")
        .zip(bay.number::<Duration>("lamp_hours"))
    {
        const MICROMOLES_OF_MOLE: f64 = 1e6;
        let a_day = light.in_micromoles() * hours.in_seconds();
        asked.lamps = Entry::number((a_day / MICROMOLES_OF_MOLE * 10.0).round() / 10.0);
    }
    if let Some(carries) = here.carries {
        let unit = &crate::measure::AreaLoad::KILOGRAM_PER_SQUARE_METRE;
        asked.carries = Entry::of(carries, unit);
    }
    Some((asked, (length * breadth).in_square_metres()))
}

/// How much warmer the nights of a bay were found to be than those read around it, K.
fn fitted_night(here: &BayHere) -> f64 {
    let night = here
        .fitted
        .iter()
        .find(|figure| figure.what == Fits::Night.name());
    night.map_or(0.0, |figure| figure.range[1])
}

/// How far nights and days that were read under glass strayed from what is usual there at that time of the year, K.
struct Read {
    /// By day and by the place where they were read; nights and days apart.
    strayed: Vec<(Day, Id, [Option<f64>; 2])>,
}

impl Read {
    fn of(record: &Record, places: &Places, climate: Option<&Climate>, today: Day) -> Self {
        let since = today.plus(-REMEMBERED_DAYS);
        let nights = record.of_kind("night").filter_map(|night| {
            let day = night.day(DAY).filter(|day| (since..=today).contains(day))?;
            let at = night.one("place")?;
            let [night_k, day_k] = places.warmer_where_read(at)?;
            let (climate, on) = (climate?, day_of_year(day));
            let low = night.base("low");
            let high = night.base("high");
            let by = [
                low.map(|low| low - climate.lowest_on(on) - night_k),
                high.map(|high| high - climate.highest_on(on) - day_k),
            ];
            Some((day, at, by))
        });
        Self {
            strayed: nights.collect(),
        }
    }

    /// The mean where something stood, from a day on, and to another where that is known; none where too little was read.
    fn strayed(&self, at: [Option<Id>; 2], from: Day, to: Option<Day>) -> Option<[f64; 2]> {
        /// Fewer nights than this tell nothing.
        const FEWEST: usize = 5;
        let mean = |which: fn(&[Option<f64>; 2]) -> Option<f64>| {
            let of_time = self.strayed.iter().filter(|(day, place, _)| {
                *day >= from && to.is_none_or(|to| *day <= to) && at.contains(&Some(*place))
            });
            let read: Vec<f64> = of_time.filter_map(|(_, _, by)| which(by)).collect();
            (read.len() >= FEWEST).then(|| read.iter().sum::<f64>() / read.len() as f64)
        };
        let nights = mean(|[night, _]| *night)?;
        let days = mean(|[_, day]| *day)?;
        Some([nights, days])
    }
}

/// The sides of a bay of which the area alone is known: as broad as one reaches over.
fn as_wide_as_a_bench(area: Area) -> [Length; 2] {
    const REACH: Length = Length::from_metres(1.2);
    let length = area.in_square_metres() / REACH.in_metres();
    [Length::from_metres(length), REACH]
}

fn batch_asked(
    record: &Record,
    places: &Places,
    read: &Read,
    batch: &BatchHere,
) -> Option<BatchAsked> {
    let crop = sown_crop(record, &batch.crop)?;
    let usual = BatchAsked::default();
    let (first, then) = places.usual();
    let pot = pot_like(record, &batch.pot);
    let day = |day: Option<Day>| day.map_or_else(String::new, Day::iso);
    let number = |number: Option<u32>| {
        number.map_or_else(Entry::default, |number| Entry::number(f64::from(number)))
    };
    let plan = batch.plan.and_then(|plan| record.get(plan));
    let meant = |path: &str| day(plan.and_then(|plan| plan.day(path)));
    // A day that lies before the one it follows was a slip of the pen: it is left out.
    let mut last = batch.sown;
    let mut in_order = |day: Option<Day>| {
        let day = day.filter(|day| *day >= last)?;
        last = day;
        Some(day)
    };
    // What was sold as a plant after it was cut is no news of when it was ready.
    let ready = batch
        .ready
        .filter(|ready| batch.picked.is_none_or(|picked| *ready <= picked));
    let known = [batch.up, batch.potted, ready, batch.picked, batch.gone].map(&mut in_order);
    // What was read after it was cut or ready is no weather that brought it there.
    let grown = known.iter().skip(2).copied().flatten().min();
    let [up, potted, ready, picked, gone] = known.map(day);
    let of = batch.number.filter(|number| *number > 0)?;
    let came_up = batch.came_up.map(|up| up.min(of));
    let lost = batch.lost.map(|lost| lost.min(came_up.unwrap_or(of)));
    let here = places.key_of(record, batch.last);
    let first_key = places.key_of(record, batch.first).unwrap_or(first);
    // Hardy plants leave the heated bench once they are potted; tender ones stay there until somebody moves them.
    let leaves =
        batch.potted.is_none() && crop.kind == Kind::Hardy && places.warm.map(Places::key) == here;
    let meant_for = || places.key_of(record, plan?.one("then"));
    let then_key = match here {
        Some(here) if !leaves => here,
        _ => meant_for().unwrap_or(then),
    };
    let at = [&first_key, &then_key].map(|key| places.read_of(key));
    let strayed = read.strayed(at, batch.sown, grown);
    let [nights, days] = strayed.map_or([usual.nights, usual.days], |by| by.map(kelvins));
    Some(BatchAsked {
        crop: crop.key.to_owned(),
        number: number(Some(of)),
        nights,
        days,
        sown: batch.sown.iso(),
        up,
        potted,
        ready,
        picked,
        gone,
        came_up: number(came_up),
        lost: number(lost),
        meant_sown: meant("sow_on"),
        meant_ready: meant("ready_by"),
        pot: pot.map_or(usual.pot, |pot| pot.key.to_owned()),
        spacing: pot.map_or(usual.spacing, usual_spacing),
        first: first_key,
        then: then_key,
        batch: batch.id.text(),
    })
}

fn sowings(
    record: &Record,
    places: &Places,
    batches: &[BatchHere],
    today: Day,
) -> Vec<SowingAsked> {
    let begun = |plan: &Thing| batches.iter().any(|batch| batch.plan == Some(plan.id));
    let mut plans: Vec<(Day, &Thing)> = record
        .of_kind("plan")
        .filter(|plan| !begun(plan))
        .filter_map(|plan| Some((plan.day("sow_on").or_else(|| plan.day("ready_by"))?, plan)))
        .filter(|(day, _)| today.number() - day.number() <= OVERDUE_DAYS)
        .collect();
    plans.sort_by_key(|(day, plan)| (*day, plan.id));
    plans
        .into_iter()
        .filter_map(|(_, plan)| sowing_asked(record, places, batches, plan, today))
        .take(MOST_SOWINGS)
        .collect()
}

/// What a plan asks: on the day it is to be sown, where that was settled, or for the day it is to be ready.
fn sowing_asked(
    record: &Record,
    places: &Places,
    batches: &[BatchHere],
    plan: &Thing,
    today: Day,
) -> Option<SowingAsked> {
    let crop = sown_crop(record, plan.text("crop"))?;
    let (by, day) = match (plan.day("sow_on"), plan.day("ready_by")) {
        (Some(on), _) => (SOWN, on),
        (None, Some(ready)) => (READY, ready),
        (None, None) => return None,
    };
    let usual = SowingAsked::default();
    let (first, then) = places.usual();
    let place = |path: &str| places.key_of(record, plan.one(path));
    let pot = pot_like(record, plan.text("pot"));
    let spacing = plan.number("spacing").map(millimetres);
    let mut asked = SowingAsked {
        crop: crop.key.to_owned(),
        by: by.to_owned(),
        day: day.iso(),
        lost: usual.lost.with_text(String::new()),
        pot: pot.map_or(usual.pot.clone(), |pot| pot.key.to_owned()),
        spacing: spacing
            .unwrap_or_else(|| pot.map_or_else(|| usual.spacing.clone(), usual_spacing)),
        first: place("first").unwrap_or(first),
        then: place("then").unwrap_or(then),
        plan: plan.id.text(),
        ..usual
    };
    if let Some(wanted) = plan.base("wanted") {
        asked.wanted = Entry::number(wanted);
    }
    if let Some(price) = Id::read(plan.text("pot"))
        .and_then(|pot| record.get(pot))
        .and_then(|pot| pot.base("price"))
    {
        asked.pot_price = Entry::number(price);
    }
    if let Some(lot) = lot_of(record, plan) {
        take_lot(&mut asked, record, batches, lot, crop, today);
    }
    Some(asked)
}

/// The seed of a plan: the lot that it names, or the one of its crop that was bought last.
fn lot_of<'a>(record: &'a Record, plan: &Thing) -> Option<&'a Thing> {
    let named = plan.one("seed_lot").and_then(|lot| record.get(lot));
    named.or_else(|| {
        let of_crop = |lot: &&Thing| lot.text("crop") == plan.text("crop");
        record
            .of_kind("seed_lot")
            .filter(of_crop)
            .max_by_key(|lot| (lot.day("bought"), lot.id))
    })
}

/// How much of a lot comes up, how old it is, and what is left of it.
fn take_lot(
    asked: &mut SowingAsked,
    record: &Record,
    batches: &[BatchHere],
    lot: &Thing,
    crop: &Crop,
    today: Day,
) {
    let tests = record.of_kind("test");
    let tested = tests
        .filter(|test| test.choice("what") == Some("germination"))
        .filter(|test| test.one("seed_lot") == Some(lot.id))
        .filter_map(|test| Some((test.day(DAY)?, test.base("seeds")?, test.base("up")?)))
        .max_by_key(|(day, ..)| *day);
    let share = |of: f64| {
        let percent = (of * 1000.0).round() / 10.0;
        asked.up.with_text(Entry::number(percent).text().to_owned())
    };
    match tested {
        Some((_, seeds, up)) if seeds > 0.0 => {
            asked.up = share(up / seeds);
            asked.tested = Entry::number(seeds);
        }
        _ => {
            if let Some(said) = lot.base("germination") {
                asked.up = share(said);
            }
            // Seed is gathered in autumn.
            let harvest = lot
                .base("year")
                .and_then(|year| Day::from_civil(year as i32, 10, 1));
            let days = harvest.map_or(0, |harvest| today.number() - harvest.number());
            let years = f64::from(days.max(0)) / DAYS_OF_YEAR;
            if years >= 1.0 {
                asked.aged = Entry::number((years * 10.0).round() / 10.0);
            }
        }
    }
    if let Some(seeds) = lot.base("seeds").filter(|seeds| *seeds >= 1.0) {
        asked.packet = Entry::number(seeds);
        let in_cell = f64::from(usual_in_cell(crop));
        let of_lot = batches
            .iter()
            .filter(|batch| batch.seed_lot == Some(lot.id));
        let sown: f64 = of_lot
            .filter_map(|batch| Some(f64::from(batch.number?) * in_cell))
            .sum();
        asked.in_hand = Entry::number((seeds - sown).max(0.0));
    }
    if let Some(price) = lot.base("price") {
        asked.packet_price = Entry::number(price);
    }
}

/// The parts of the mix that young plants are potted into: of the record's mixes the one that was used last.
fn parts(record: &Record) -> Vec<PartAsked> {
    let used = record
        .of_kind("stage")
        .rev()
        .filter(|stage| stage.text("what") == "potted_on")
        .find_map(|stage| record.get(stage.one("mix")?));
    let Some(mix) = used.or_else(|| record.of_kind("mix").next()) else {
        return Vec::new();
    };
    let rows = mix.rows("parts");
    let part = |row: &str| {
        let at = |name: &str| ["parts.", row, ".", name].concat();
        let here = material_here(record, mix.text(&at("material")))?;
        let usual = PartAsked::default();
        let litres = |volume: Volume| Entry::of(volume, &Volume::LITRE);
        let bag = mix.number(&at("bag")).or(here.bag);
        Some(PartAsked {
            name: here.name,
            parts: Entry::number(mix.base(&at("amount")).unwrap_or(1.0)),
            bag: bag.map_or(usual.bag, litres),
            price: here.price.map_or(usual.price, Entry::number),
            in_hand: here.in_hand.map_or(usual.in_hand, litres),
        })
    };
    rows.into_iter().filter_map(part).take(MOST_PARTS).collect()
}
