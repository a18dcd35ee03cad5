//! What is to be written down: minima and maxima of the places where they are read.

use super::{Due, Opens, What, words};
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Id, Record};

/// Where nobody has read for so long, nobody reads any more, days.
const GIVEN_UP_DAYS: i32 = 120;

/// Adds what is to be written down: one line for each place, however many mornings were missed.
pub fn due(record: &Record, today: Day, all: &mut Vec<Due>) {
    let mut read: Vec<(Id, Day)> = Vec::new();
    let since = today.plus(-GIVEN_UP_DAYS);
    for night in record
        .between(since, today)
        .filter(|log| log.kind == "night")
    {
        let Some((place, day)) = night.one("place").zip(night.day(DAY)) else {
            continue;
        };
        match read.iter_mut().find(|(known, _)| *known == place) {
            Some((_, last)) => *last = day.max(*last),
            None => read.push((place, day)),
        }
    }
    for (place, last) in read {
        let there = record.get(place).is_some_and(|place| !place.gone);
        if last < today && there {
            let name = record.name_of(place);
            all.push(Due {
                what: What::ReadNight,
                about: Some(place),
                from: last.plus(1),
                sentence: words::read(&name),
                left: words::read_left(last, today),
                opens: Opens::DayBook,
                done: None,
                loses: What::ReadNight.lost_in_a_day(),
            });
        }
    }
}
