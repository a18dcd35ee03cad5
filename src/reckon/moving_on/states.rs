//! The states that a point of the card may be in, and what is counted or measured at one: what there is to tick and to
//! write at the bench.

use super::case::{Case, Flower, Move, Pests, Seen, Tips};
use super::question::{BALLS, CIRCLINGS, FLOWERS, OWN_SEEN, PESTS, TIPS};
use super::ready::{Point, Standing, leaves_from, stands};
use super::told::{MeasureTold, StateTold};
use super::words;
use crate::handbook::crops::readiness::{BALL_SCORES, CIRCLING_SCORES, Leaves};
use crate::handbook::moving;

/// A state by its key: what it is called, and a batch of which that is seen.
type State = (&'static str, &'static str, Seen);

fn seen_so(change: impl FnOnce(&mut Seen)) -> Seen {
    let mut seen = Seen::default();
    change(&mut seen);
    seen
}

/// What may be seen of a point, from the first state to the last; none where it is counted, measured or reckoned.
fn all(point: Point) -> Vec<State> {
    match point {
        Point::Ball => BALLS
            .into_iter()
            .zip(BALL_SCORES)
            .map(|(key, (score, words))| (key, words, seen_so(|seen| seen.ball = Some(score))))
            .collect(),
        Point::Circling => CIRCLINGS
            .into_iter()
            .zip(CIRCLING_SCORES)
            .map(|(key, (score, words))| (key, words, seen_so(|seen| seen.circling = Some(score))))
            .collect(),
        Point::Tips => TIPS
            .into_iter()
            .zip(words::TIPS_SEEN)
            .zip([Tips::White, Tips::Tan, Tips::Brown])
            .map(|((key, words), tips)| (key, words, seen_so(|seen| seen.tips = Some(tips))))
            .collect(),
        Point::Flower => FLOWERS
            .into_iter()
            .zip(words::FLOWERS_SEEN)
            .zip([Flower::None, Flower::Bud, Flower::Open])
            .map(|((key, words), flower)| (key, words, seen_so(|seen| seen.flower = Some(flower))))
            .collect(),
        Point::Pests => PESTS
            .into_iter()
            .zip(words::PESTS_SEEN)
            .zip([Pests::None, Pests::Few, Pests::Many])
            .map(|((key, words), pests)| (key, words, seen_so(|seen| seen.pests = Some(pests))))
            .collect(),
        _ => Vec::new(),
    }
}

/// Whether two batches were seen alike at a point.
fn alike(point: Point, one: &Seen, other: &Seen) -> bool {
    match point {
        Point::Ball => one.ball == other.ball,
        Point::Circling => one.circling == other.circling,
        Point::Tips => one.tips == other.tips,
        Point::Flower => one.flower == other.flower,
        Point::Pests => one.pests == other.pests,
        _ => false,
    }
}

/// The states that a point may be in, with those that are as they should be and the one that was seen.
pub fn states(case: &Case, point: Point) -> Vec<StateTold> {
    if let Point::Own(place) = point {
        let seen = case.card.own.get(place).and_then(|own| own.seen);
        return OWN_SEEN
            .into_iter()
            .zip(words::OWN_SEEN_TOLD)
            .zip([true, false])
            .map(|((key, words), so)| StateTold {
                key: key.to_owned(),
                words: words.to_owned(),
                good: so,
                seen: seen == Some(so),
            })
            .collect();
    }
    all(point)
        .into_iter()
        .map(|(key, words, seen)| StateTold {
            key: key.to_owned(),
            words: words.to_owned(),
            good: stands(case, &seen, point).0 == Standing::Passed,
            seen: alike(point, &seen, &case.seen),
        })
        .collect()
}

/// What is counted or measured at a point; none where nothing is.
pub fn measure(case: &Case, point: Point) -> Option<MeasureTold> {
    let (from, to, unit, seen) = match point {
        Point::Leaves => {
            let unit = match case.readiness.counted {
                Leaves::Pairs if case.moves != Move::PrickOut => "pairs",
                Leaves::Single | Leaves::Pairs => "leaves",
                Leaves::OfEachShoot => "leaves of each shoot",
            };
            (leaves_from(case), None, unit, case.seen.leaves)
        }
        Point::Height => {
            let range = case.readiness.height_cm.range;
            (range.low(), Some(range.high()), "cm", case.seen.height_cm)
        }
        Point::Hardened => (
            moving::HARDENED_ENOUGH_DAYS,
            None,
            "days",
            case.seen.hardened_days,
        ),
        _ => return None,
    };
    Some(MeasureTold {
        from,
        to,
        unit: unit.to_owned(),
        seen,
    })
}
