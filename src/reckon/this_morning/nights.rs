//! What a cold night that is forecast would harm, and how likely one is in the week to come.

use super::asked::Asked;
use super::{Done, Due, Opens, What, words};
use crate::handbook::crops::Property;
use crate::nursery::batch::BatchHere;
use crate::nursery::bay::{bay_here, bay_of, forecast_low};
use crate::nursery::kinds::DAY;
use crate::nursery::{Texts, Thing};
use crate::reckon::moving_on::chance_of_colder;
use crate::reckon::moving_on::from_record::staying;
use crate::reckon::season::Warmth;

/// A forecast minimum is of the air outside; a single night under glass is warmer than that by as much as a place is on
/// the mean, or may be no warmer at all: so much of it is counted on. A judgement.
const COUNTED_ON: f64 = 0.5;

/// Less likely than not, a cold night is not told: in summer no week is without some chance of one. A judgement.
const WORTH_TELLING: f64 = 0.5;

/// Adds what is in danger in the night to come, and in the week.
pub fn due(asked: &Asked<'_>, all: &mut Vec<Due>) {
    let told = tonight(asked, all);
    in_the_week(asked, &told, all);
}

/// What stands in one place without heat: the place, how many plants, the batch that stands least cold, and below what.
struct Tender<'a> {
    bay: &'a Thing,
    plants: u32,
    batch: &'a BatchHere,
    limit_c: f64,
}

fn tender<'a>(asked: &'a Asked<'_>) -> Vec<Tender<'a>> {
    let mut found: Vec<Tender<'a>> = Vec::new();
    for standing in asked.standing() {
        let [is_up, is_potted, _] = standing.told.known;
        let limit = standing.batch.crop.figure(Property::ChillingLimit);
        let place = standing
            .here
            .last
            .and_then(|place| bay_of(asked.record, place));
        let (Some(limit), Some(bay), true) = (limit, place, is_up || is_potted) else {
            continue;
        };
        let (plants, limit_c) = (standing.told.stands, limit.range.best());
        match found.iter_mut().find(|known| known.bay.id == bay.id) {
            Some(known) => {
                known.plants += plants;
                if limit_c > known.limit_c {
                    (known.batch, known.limit_c) = (standing.here, limit_c);
                }
            }
            None => found.push(Tender {
                bay,
                plants,
                batch: standing.here,
                limit_c,
            }),
        }
    }
    found.retain(|tender| {
        bay_here(asked.record, tender.bay.id).is_some_and(|here| here.held().is_none())
    });
    found
}

fn in_the_week(asked: &Asked<'_>, told: &[&str], all: &mut Vec<Due>) {
    for tender in tender(asked) {
        let name = asked.record.name_of(tender.bay.id);
        // Where tonight is told already, the week need not be.
        if told.contains(&tender.bay.own_name()) {
            continue;
        }
        let Some(question) = asked.moving_on(tender.batch) else {
            continue;
        };
        let here = staying(question, asked.record, tender.bay, asked.today);
        let Some(chance) = chance_of_colder(&here, tender.limit_c) else {
            continue;
        };
        if chance >= WORTH_TELLING {
            all.push(Due {
                what: What::ColdWeek,
                about: Some(tender.bay.id),
                from: asked.today,
                sentence: words::cold_week(&name, tender.plants, chance, tender.limit_c),
                left: words::cold_week_left(tender.limit_c),
                opens: Opens::MovingOn(Box::new(here)),
                done: None,
                loses: f64::from(tender.plants) * chance * What::ColdWeek.lost_in_a_day(),
            });
        }
    }
}

/// Adds what is in danger tonight, and gives the names of the places where that is.
fn tonight<'a>(asked: &'a Asked<'_>, all: &mut Vec<Due>) -> Vec<&'a str> {
    let mut told = Vec::new();
    let Some(outside) = forecast_low(asked.record, asked.today) else {
        return told;
    };
    let outside_c = outside.in_celsius();
    for (place, stand) in asked.case.stands.iter().enumerate() {
        let [warmer_k, _] = stand.warmer_k;
        let house_c = outside_c + COUNTED_ON * warmer_k.max(0.0);
        let night_c = match stand.warmth {
            Warmth::House => house_c,
            Warmth::Held(held_c) => house_c.max(held_c),
        };
        let mut plants = 0;
        let mut limit_c = f64::NEG_INFINITY;
        for standing in asked.standing() {
            let [is_up, is_potted, _] = standing.told.known;
            let at = usize::from(is_potted);
            let limit = standing.batch.crop.figure(Property::ChillingLimit);
            if let Some(limit) = limit
                && (is_up || is_potted)
                && standing.told.where_at.get(at) == Some(&place)
                && night_c < limit.range.best()
            {
                plants += standing.told.stands;
                limit_c = limit_c.max(limit.range.best());
            }
        }
        if plants > 0 {
            told.push(stand.name.as_str());
            let texts = Texts::default()
                .with(DAY, &asked.today.iso())
                .with("notes", &words::covered(&stand.name));
            all.push(Due {
                what: What::Cover,
                about: None,
                from: asked.today,
                sentence: words::cover(&stand.name, plants, night_c),
                left: words::cover_left(limit_c),
                opens: Opens::DayBook,
                done: Some(Done {
                    kind: "note",
                    texts,
                }),
                loses: f64::from(plants) * What::Cover.lost_in_a_day(),
            });
        }
    }
    told
}
