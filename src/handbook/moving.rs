//! What moving a plant too early or too late takes off its worth, and how it is hardened.
//!
//! None of the costs was measured: each is a judgement drawn from practice, wide on purpose. They are
//! told as what is lost of the worth of a whole plant, 1, and are put together as risks of a life are:
//! a plant that keeps exp(-a) of its worth through one harm and exp(-b) through another keeps
//! exp(-a - b) through both, so that no sum of harms takes more than there is.

use super::sources::{
    COMMON_PRACTICE, HARDENING_ADVICE, HOT_DAY_JUDGEMENT, MOVING_JUDGEMENT, NEXT_POT_JUDGEMENT,
    Source,
};
use super::{Figure, figure};

/// Where the costs come from.
pub static COSTS: &Source = &MOVING_JUDGEMENT;

/// Where the days of hardening come from.
pub static HARDENING: &Source = &HARDENING_ADVICE;

/// How much colder a leaf may be at dawn than the air that a thermometer reads, under a clear sky and
/// single glass or none, K.
pub const LEAF_BELOW_AIR_K: Figure = figure(1.0, 2.0, 3.0, &COMMON_PRACTICE);

/// How much warmer a night's minimum is under fleece than beside it, K.
pub const FLEECE_K: Figure = figure(1.0, 1.5, 2.0, &COMMON_PRACTICE);

/// Worth lost for each K that a night's minimum lies below the chilling limit, of 1.
pub const CHILLED_PER_K: Figure = figure(0.01, 0.03, 0.06, &MOVING_JUDGEMENT);

/// Worth lost in a night in which the leaf falls below the killing limit: 95 in 100 plants, as the
/// exponent -ln 0.05. A judgement.
pub const KILLED: f64 = 3.0;

/// Worth of a day: what a ready plant loses that waits a day, and one that stands still through one.
pub const DAY: Figure = figure(0.003, 0.007, 0.015, &MOVING_JUDGEMENT);

/// So far below the least night it grows in, a plant stands still through the day as well, K. A
/// judgement.
pub const STANDS_STILL_BELOW_K: f64 = 8.0;

/// Worth lost by a plant that goes without hardening into cold, of 1; less in proportion to the days
/// that it was hardened.
pub const UNHARDENED: Figure = figure(0.04, 0.08, 0.16, &MOVING_JUDGEMENT);

/// Worth lost by a seedling that is moved with all its way still before it, of 1; less in proportion
/// to the way gone.
pub const UNREADY: Figure = figure(0.15, 0.3, 0.5, &MOVING_JUDGEMENT);

/// Worth lost for each point that is missing from the card on the day of the move, of 1. A point that
/// nobody looked at counts half.
pub const MISSING: Figure = figure(0.03, 0.06, 0.12, &MOVING_JUDGEMENT);

/// What is missing comes by and by: of its cost a share of 1/e is left after so many days. A judgement.
pub const MISSING_COMES_DAYS: f64 = 7.0;

/// Worth lost in each week after growth is checked for good, of 1.
pub const CHECKED_PER_WEEK: Figure = figure(0.02, 0.05, 0.1, &MOVING_JUDGEMENT);

/// The weeks of a trial of pot sizes, over which the gain of a larger pot builds up.
pub const TRIAL_WEEKS: Figure = figure(5.0, 8.0, 12.0, &MOVING_JUDGEMENT);

/// The share of the weeks before growth is checked from which the pot begins to hold it back. A
/// judgement.
pub const HELD_BACK_FROM: f64 = 0.5;

/// Weeks that seedlings may wait to be pricked out once they are ready.
pub const SEEDLINGS_WAIT_WEEKS: Figure = figure(0.7, 1.5, 2.5, &COMMON_PRACTICE);

/// Days of hardening before plants go into cold.
pub const HARDENING_DAYS: Figure = figure(5.0, 7.0, 10.0, &HARDENING_ADVICE);

/// Days of hardening of which fewer are missing from the card.
pub const HARDENED_ENOUGH_DAYS: f64 = 5.0;

/// The first days of hardening: vents open by day, nights as before. Common practice, no source.
pub const VENTS_FIRST_DAYS: u32 = 3;

/// How much cooler each night of hardening is than the one before, K.
pub const NIGHT_STEP_K: Figure = figure(2.0, 2.5, 3.0, &COMMON_PRACTICE);

/// Water while hardening, as a share of what is usual. Common practice, no source.
pub const WATER_SHARE: f64 = 0.7;

/// Mean temperature at which the usual weeks in a pot are reckoned, °C: 18 to 20, as the tables of
/// transplant ages have it. This program's reading.
pub const USUAL_WEEKS_AT_C: f64 = 19.0;

/// The share of its way from which a batch may count as there by warmth alone. A judgement.
pub const THERE_FROM: f64 = 0.9;

/// Where the figures of the next pot come from.
pub static NEXT_POT: &Source = &NEXT_POT_JUDGEMENT;

/// A size up holds so many times as much at least: potting on roughly doubles a pot. Common practice, no source.
pub const SIZE_UP: f64 = 1.7;

/// How far round the ball the mix counts as within reach of its roots in the first days, mm: a finger's breadth.
pub const FINGER_MM: Figure = figure(15.0, 20.0, 25.0, &NEXT_POT_JUDGEMENT);

/// The mix that comes along with the roots of a seedling, mL.
pub const SEEDLING_BALL_ML: Figure = figure(2.0, 5.0, 10.0, &NEXT_POT_JUDGEMENT);

/// What a seedling drinks, of what a plant does that is ready in its 9 cm pot, of 1.
pub const SEEDLING_DRINKS: Figure = figure(0.03, 0.06, 0.12, &NEXT_POT_JUDGEMENT);

/// How many times as much as the handbook has it a plant may drink over some days, for its own vigour, its place on the
/// bench and the weather.
pub const DRINKS_TIMES: Figure = figure(0.6, 1.0, 1.6, &NEXT_POT_JUDGEMENT);

/// A plant with more or fewer leaves than it is usual to move it with is taken as so many times as large at the least
/// and the most. A judgement.
pub const LEAVES_TIMES: [f64; 2] = [0.3, 2.0];

/// The share of a pot's easily available water that goes before it is watered anew, and before its mix is as airy as new
/// roots want it. A judgement.
pub const DRIES_TO: f64 = 0.5;

/// A pot whose mix takes no longer than so many days to come down to that is safe for a plant that has not rooted into
/// it yet.
pub const WET_FOR_DAYS: Figure = figure(5.0, 7.0, 10.0, &NEXT_POT_JUDGEMENT);

/// One potting on, minutes a plant, with fetching, filling, watering in and setting out.
pub const POTTING_MINUTES: Figure = figure(0.5, 1.0, 2.0, &NEXT_POT_JUDGEMENT);

/// How readily a plant drinks the water of mix that its roots do not reach yet, beside that within reach, of 1: water
/// creeps to where it is taken, the slower the drier the mix.
pub const DRAWN_ACROSS: Figure = figure(0.4, 0.7, 1.0, &NEXT_POT_JUDGEMENT);

/// Where the figures of hot days come from.
pub static HOT_DAY: &Source = &HOT_DAY_JUDGEMENT;

/// How much warmer than the open it gets at midday under glass with its vents open, on a mean day of summer, K; more and
/// less in proportion to the day's sun.
pub const GLASS_WARMER_BY_DAY_K: Figure = figure(3.0, 6.0, 12.0, &HOT_DAY_JUDGEMENT);

/// Standard deviation of a single day's highest temperature about the mean of many years, in the open, K.
pub const DAY_SPREAD_K: f64 = 3.7;

/// How much of what the sun adds strays from day to day: standard deviation, of 1. A judgement.
pub const SUN_STRAYS: f64 = 0.45;

/// The hottest of three weeks' days lies so many standard deviations above the mean: the expected largest of 21 normal
/// deviates. Source: Harter 1961, Biometrika 48:151 (from memory), between 1.87 for 20 and 1.97 for 25.
pub const HOTTEST_SPREADS: f64 = 1.89;

/// Worth lost in a day for each K by which its highest lies above what the crop stands, of 1, by a plant just moved.
pub const SCORCHED_PER_K: Figure = figure(0.001, 0.004, 0.01, &HOT_DAY_JUDGEMENT);

/// A plant that was moved takes hold by and by: of its danger from heat a share of 1/e is left after so many days. A
/// judgement.
pub const TAKES_HOLD_DAYS: f64 = 4.0;

/// The share of that danger which hardening takes away. A judgement.
pub const HARDENED_SPARES: f64 = 0.5;
