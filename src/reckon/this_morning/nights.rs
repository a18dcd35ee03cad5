//! What a cold night that is forecast would harm.

use super::asked::Asked;
use super::{Done, Due, Opens, What, words};
use crate::handbook::crops::Property;
use crate::nursery::Texts;
use crate::nursery::bay::forecast_low;
use crate::nursery::kinds::DAY;
use crate::reckon::season::Warmth;

/// A forecast minimum is of the air outside; a single night under glass is warmer than that by as much as a place is on
/// the mean, or may be no warmer at all: so much of it is counted on. A judgement.
const COUNTED_ON: f64 = 0.5;

/// Adds what is in danger in the night to come.
pub fn due(asked: &Asked<'_>, all: &mut Vec<Due>) {
    let Some(outside) = forecast_low(asked.record, asked.today) else {
        return;
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
}
