//! Fit to my house: what a few days of one's own readings tell of what is least certain about a standing.

use super::case::{Case, Stand};
use super::come::Day;
use super::inputs::{Inputs, usual_walls};
use super::stands::Variant;
use super::weather::When;
use crate::handbook::heat::{BENCH_WARMER_BY_NIGHT_K, READ_TO_K};
use crate::measure::{Range, TemperatureDifference};
use crate::reckon::Problem;
use crate::science::heat::air::day_shape::LowestHighest;
use crate::science::heat::column::Place;
use crate::science::heat::fit::{Coefficient, Estimate, Fitted, Known, NoFit, Reading, fit};

/// Where one's own thermometer may be, in the order of the keys of the question.
pub const PLACES: [Place; 3] = [Place::PotMiddle, Place::Water, Place::Bed];

/// Days with readings of one's own.
#[derive(Clone, Debug, PartialEq)]
pub struct Own {
    /// The air of each at bench height, one day after the other.
    pub days: Vec<LowestHighest>,
    /// The readings, from the midnight before the first day.
    pub readings: Vec<Reading>,
}

/// What is fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fits {
    /// How well air gets at the walls of the pots: a factor.
    Walls,
    /// How much warmer air is at bench height by night, K.
    Night,
    /// The sun that pots and tray take up: a factor.
    Sun,
}

impl Fits {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Walls, Self::Night, Self::Sun];

    /// Its stable name.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Walls => "walls",
            Self::Night => "night",
            Self::Sun => "sun",
        }
    }

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Walls => "Air at the walls, times usual",
            Self::Night => "Warmer at the bench by night, K",
            Self::Sun => "Sun taken up, times usual",
        }
    }

    /// What is moved in the column for it.
    fn coefficient(self) -> Coefficient {
        match self {
            Self::Walls => Coefficient::PotWalls,
            Self::Night => Coefficient::FloorAirByNight,
            Self::Sun => Coefficient::Sun,
        }
    }

    /// What the handbook lets expect of it.
    fn usual(self, case: &Case) -> Range<f64> {
        /// Either the half or the double of what is usual is 1 in 10: the handbook's shares of the sun run from 0.05
        /// to 0.25 about 0.1.
        const SUN: Range<f64> = Range::literal(0.5, 1.0, 2.0);
        match self {
            Self::Walls => {
                let shares = usual_walls(case).range;
                shares.map_increasing(|share| share / shares.best())
            }
            Self::Night => BENCH_WARMER_BY_NIGHT_K.range,
            Self::Sun => SUN,
        }
    }
}

/// What was fitted before: each as the question has it, where it was.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Before {
    /// How well air gets at the walls, times what is usual.
    pub walls: Option<Range<f64>>,
    /// How much warmer air is at bench height by night, K.
    pub night: Option<Range<f64>>,
    /// The sun taken up, times what is usual.
    pub sun: Option<Range<f64>>,
}

impl Before {
    /// Of one.
    #[must_use]
    pub fn of(&self, fits: Fits) -> Option<Range<f64>> {
        match fits {
            Fits::Walls => self.walls,
            Fits::Night => self.night,
            Fits::Sun => self.sun,
        }
    }
}

/// One figure found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// Which.
    pub fits: Fits,
    /// What was known of it.
    pub before: Range<f64>,
    /// What is known of it now.
    pub now: Range<f64>,
    /// Share of the doubt before that is left.
    pub doubt_left: f64,
}

/// What came of a fit.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The figures.
    pub found: Vec<Found>,
    /// What the reckoning missed the readings by before, root mean square, K.
    pub missed_before_k: f64,
    /// What it misses them by now, K.
    pub missed_k: f64,
    /// What was reckoned for each reading before, and what is now, °C.
    pub reckoned_c: Vec<[f64; 2]>,
}

impl Fit {
    /// The reading that is furthest off what is reckoned now, from 0, and by how much, K.
    #[must_use]
    pub fn furthest(&self, own: &Own) -> Option<(usize, f64)> {
        let off = |(reading, [_, now]): (&Reading, &[f64; 2])| {
            (reading.temperature.in_celsius() - now).abs()
        };
        let all = own.readings.iter().zip(&self.reckoned_c).map(off);
        all.enumerate()
            .max_by(|(_, one), (_, other)| one.total_cmp(other))
    }
}

/// What one's own readings come to.
#[derive(Clone, Debug, PartialEq)]
pub enum OwnFound {
    /// They were fitted.
    Fit(Fit),
    /// They could not be.
    No(NoFit),
}

/// Fits a case to its readings; none where it has none.
///
/// # Errors
/// The problem where the case has no standing.
pub fn found(case: &Case) -> Result<Option<OwnFound>, Problem> {
    let Some(own) = &case.own else {
        return Ok(None);
    };
    let inputs = Inputs::best(case)?;
    let when = When::of_month(case, case.month);
    let course = when.course_of_days(case, &inputs, &own.days)?;
    let standing = Day::new(case, &inputs, &when)?.standing(&Variant::asked(case, case.stand))?;
    let asked: Vec<Asked> = Fits::ALL
        .into_iter()
        .filter(|fits| asks(case, *fits))
        .map(|fits| Asked::of(case, fits))
        .collect();
    let known: Vec<Known> = asked.iter().map(|asked| asked.known).collect();
    let error = TemperatureDifference::from_kelvins(READ_TO_K.range.best());
    Ok(Some(
        match fit(&standing, &course, &known, &own.readings, error) {
            Ok(fitted) => OwnFound::Fit(told(&asked, &fitted)),
            Err(why) => OwnFound::No(why),
        },
    ))
}

/// Whether a figure is fitted: a bench that heats itself hardly feels the air at the floor, and where that was read
/// apart there is nothing to fit.
fn asks(case: &Case, fits: Fits) -> bool {
    fits != Fits::Night || (case.stand != Stand::Bench && !case.floor_air_is_read())
}

/// A figure that is to be fitted.
struct Asked {
    fits: Fits,
    before: Range<f64>,
    known: Known,
}

impl Asked {
    fn of(case: &Case, fits: Fits) -> Self {
        let before = case.fitted.of(fits).unwrap_or_else(|| fits.usual(case));
        let best = before.best();
        // The column has the best figure already: what is moved is how far it is off from there.
        let range = match fits {
            Fits::Walls | Fits::Sun => before.map_increasing(|factor| factor / best),
            // Air at the floor is the colder, the warmer it is at bench height.
            Fits::Night => before.map_decreasing(|warmer_k| best - warmer_k),
        };
        Self {
            fits,
            before,
            known: Known {
                coefficient: fits.coefficient(),
                range,
            },
        }
    }

    fn found(&self, estimate: &Estimate) -> Found {
        let best = self.before.best();
        let now = match self.fits {
            Fits::Walls | Fits::Sun => estimate.range.map_increasing(|factor| factor * best),
            Fits::Night => estimate.range.map_decreasing(|added_k| best - added_k),
        };
        Found {
            fits: self.fits,
            before: self.before,
            now,
            doubt_left: estimate.doubt_left,
        }
    }
}

fn told(asked: &[Asked], fitted: &Fitted) -> Fit {
    Fit {
        found: asked
            .iter()
            .zip(&fitted.estimates)
            .map(|(asked, estimate)| asked.found(estimate))
            .collect(),
        missed_before_k: fitted.missed_before.in_kelvins(),
        missed_k: fitted.missed.in_kelvins(),
        reckoned_c: fitted
            .reckoned_before_c
            .iter()
            .zip(&fitted.reckoned_c)
            .map(|(&before, &now)| [before, now])
            .collect(),
    }
}

/// What stands first of the plain numbers.
const FITTED: f64 = 0.0;
const TOO_FEW: f64 = 1.0;
const TOO_SHORT: f64 = 2.0;
const NONE_MEETS: f64 = 3.0;

impl OwnFound {
    /// As plain numbers.
    pub fn put(&self, numbers: &mut Vec<f64>) {
        match self {
            Self::Fit(fit) => {
                let readings = fit.reckoned_c.len() as f64;
                numbers.extend([FITTED, fit.missed_before_k, fit.missed_k, readings]);
                numbers.extend(fit.reckoned_c.iter().flatten());
                for found in &fit.found {
                    let place = Fits::ALL.iter().position(|fits| *fits == found.fits);
                    numbers.push(place.unwrap_or(0) as f64);
                    for range in [&found.before, &found.now] {
                        numbers.extend([range.low(), range.best(), range.high()]);
                    }
                    numbers.push(found.doubt_left);
                }
            }
            Self::No(NoFit::TooFew { needed }) => numbers.extend([TOO_FEW, *needed as f64]),
            Self::No(NoFit::TooShort) => numbers.push(TOO_SHORT),
            Self::No(_) => numbers.push(NONE_MEETS),
        }
    }

    /// From plain numbers; none where they are none.
    #[must_use]
    pub fn take(numbers: &[f64]) -> Option<Self> {
        let (kind, rest) = numbers.split_first()?;
        Some(match *kind {
            FITTED => {
                let ([missed_before_k, missed_k, readings], rest) =
                    rest.split_first_chunk::<3>()?;
                let (reckoned, rest) = rest.split_at_checked(2 * *readings as usize)?;
                let found = rest.as_chunks::<8>().0.iter().map(|numbers| {
                    let [place, a, b, c, d, e, f, doubt_left] = *numbers;
                    Some(Found {
                        fits: Fits::ALL.get(place as usize).copied()?,
                        before: Range::new(a, b, c).ok()?,
                        now: Range::new(d, e, f).ok()?,
                        doubt_left,
                    })
                });
                Self::Fit(Fit {
                    found: found.collect::<Option<_>>()?,
                    missed_before_k: *missed_before_k,
                    missed_k: *missed_k,
                    reckoned_c: reckoned.as_chunks::<2>().0.to_vec(),
                })
            }
            TOO_FEW => Self::No(NoFit::TooFew {
                needed: *rest.first()? as usize,
            }),
            TOO_SHORT => Self::No(NoFit::TooShort),
            _ => Self::No(NoFit::DoesNotConverge),
        })
    }
}
