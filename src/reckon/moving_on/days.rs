//! From day to day: how far the batch is, what each day of move costs, and which is best.

use super::case::Case;
use super::inputs::Inputs;
use super::nights::{DAYS, Nights};
use super::ready::{self, OnCard, Point, Standing};
use super::waiting::{Way, early, waiting};
use crate::reckon::season::{gain_of_day, slowed};

/// One outcome.
#[derive(Clone, Debug)]
pub struct Run {
    /// The share of its way that warmth has carried it, 1 where it is there.
    pub share: f64,
    /// Days from today until it is ready, below nought where it is; none where it is not within the days.
    pub ready_in: Option<f64>,
    /// Weeks that count towards the check.
    pub weeks: f64,
    /// Whether growth is checked already.
    pub checked: bool,
    /// What waiting costs, for each of the days and for not moving in them: exponents.
    pub waiting: Vec<f64>,
    /// What going early costs, the same way.
    pub early: Vec<f64>,
    /// The best day, from 0 for today; the number of [`DAYS`] where none of them is.
    pub best: usize,
}

/// What an exponent takes off the worth of a plant, of 1.
#[must_use]
pub fn lost(exponent: f64) -> f64 {
    -(-exponent).exp_m1()
}

/// Days over which it is followed beyond the days of move, to tell when it will be ready.
const FOLLOWED: usize = 60;

impl Run {
    /// Of a case with its inputs.
    pub fn of(case: &Case, inputs: &Inputs, nights: &Nights) -> Self {
        let temperatures = [case.stood.low_c, case.stood.high_c].map(|c| c + inputs.stood_off_k);
        // Day by day only the light is another.
        let warmth = gain_of_day(&inputs.growth, temperatures, f64::INFINITY);
        let gain = |day: i32| warmth / slowed(case.light_on(day));
        let before = case.days_since();
        let gone: f64 = (-before..0).map(gain).sum::<f64>() / inputs.sum;
        let card = ready::seen(case);
        // What was counted goes before what was reckoned: leaves that are there have come, and those that are not have
        // not.
        let start = match case.seen.leaves {
            Some(leaves) if ready::leaves_from(case) > leaves => {
                gone.min(leaves / ready::leaves_from(case))
            }
            Some(_) if holds(&card) => gone.max(1.0),
            _ => gone,
        };
        let mut share_on = vec![start];
        let mut share = start;
        let mut ready_in = (start >= 1.0).then(|| {
            // So long ago, at the warmth of today.
            let today = gain(0) / inputs.sum;
            let ago = if today > 0.0 {
                (start - 1.0) / today
            } else {
                0.0
            };
            -ago.min(f64::from(before))
        });
        for day in 0..FOLLOWED {
            let of_day = gain(day as i32) / inputs.sum;
            if ready_in.is_none() && of_day > 0.0 && share + of_day >= 1.0 {
                ready_in = Some(day as f64 + (1.0 - share) / of_day);
            }
            share += of_day;
            share_on.push(share);
        }
        let way = Way {
            ready_in,
            weeks: f64::from(before) / 7.0,
        };
        let waiting = waiting(case, inputs, &way);
        let early = early(case, inputs, nights, &share_on, ready::missing(&card));
        let weeks = way.weeks_on(case, 0.0);
        Self {
            share: gone,
            ready_in,
            weeks,
            checked: weeks > inputs.weeks_before_check,
            best: best(&waiting, &early),
            waiting,
            early,
        }
    }

    /// What is lost in all by moving on a day, of 1; not at all for the number of [`DAYS`].
    #[must_use]
    pub fn loss(&self, day: usize) -> f64 {
        lost(self.exponent(day))
    }

    fn exponent(&self, day: usize) -> f64 {
        let at = |costs: &[f64]| costs.get(day).copied().unwrap_or(0.0);
        at(&self.waiting) + at(&self.early)
    }

    /// How much more a move today loses than one on the best day: an exponent.
    #[must_use]
    pub fn lost_by_today(&self) -> f64 {
        self.exponent(0) - self.exponent(self.best)
    }
}

/// Whether the ball was looked at and holds, or is not asked for.
fn holds(card: &[OnCard]) -> bool {
    card.iter()
        .filter(|on| on.point == Point::Ball)
        .all(|on| on.standing == Standing::Passed)
}

/// The first of the days on which the least is lost.
fn best(waiting: &[f64], early: &[f64]) -> usize {
    let mut best = 0;
    let mut least = f64::INFINITY;
    for (day, (waiting, early)) in waiting.iter().zip(early).enumerate().take(DAYS + 1) {
        if waiting + early < least {
            (best, least) = (day, waiting + early);
        }
    }
    best
}

impl Case {
    /// Days from the one its way is counted from until today.
    #[must_use]
    pub fn days_since(&self) -> i32 {
        self.today.number() - self.since.number()
    }

    /// Light where it stands, so many days from today, mol/m² of a day.
    #[must_use]
    pub fn light_on(&self, day: i32) -> f64 {
        let place = usize::try_from(self.days_since() + day).unwrap_or(0);
        self.lights.get(place).copied().unwrap_or_default()
    }
}

/// The light of each day from the one its way is counted from: what is typed, or that of the sun under glass.
pub fn lights(case: &Case) -> Vec<f64> {
    use crate::handbook::thirst::TRANSMITS;
    use crate::reckon::season::{day_of_year, light_of_sun};
    let many = usize::try_from(case.days_since()).unwrap_or(0) + FOLLOWED + 1;
    (0..many)
        .map(|day| {
            case.stood.light_mol.unwrap_or_else(|| {
                let on = day_of_year(case.since.plus(day as i32));
                light_of_sun(case.climate.radiation_on(on), TRANSMITS.range.best())
            })
        })
        .collect()
}
