//! Everything that one outcome needs beyond the case, with its doubt resolved one way.

use super::case::{Case, Move};
use super::words;
use crate::handbook::Figure;
use crate::handbook::crops::Property;
use crate::handbook::crops::readiness::CountedFrom;
use crate::handbook::moving;
use crate::measure::Range;
use crate::reckon::Problem;
use crate::science::numerics::draws::Draws;
use crate::science::thermal_time::Cardinals;

/// Where a batch stood was warmer or colder than was told by this, K: thermometers, and corners of a bench. A
/// judgement.
const STOOD_OFF_K: Range<f64> = Range::literal(-1.0, 0.0, 1.0);

/// What is drawn by one deviate each: figures of one kind move together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Doubtful {
    Sum,
    Base,
    Warmth,
    Cold,
    Cover,
    ColdCost,
    EarlyCost,
    WaitCost,
    Weeks,
    Heat,
    HeatCost,
    ByDay,
}

/// How many kinds there are.
const KINDS: usize = 12;

/// All inputs.
#[derive(Clone, Debug)]
pub struct Inputs {
    /// Between which temperatures leaves come.
    pub growth: Cardinals,
    /// Warmth of the step, °C d.
    pub sum: f64,
    /// How much warmer it stood than was told, K.
    pub stood_off_k: f64,
    /// The night minimum of the place, beside its cover, that the move asks for, °C.
    pub limit_c: f64,
    /// The night minimum beside the cover below which it is chilled, °C.
    pub chilled_c: Option<f64>,
    /// The air beside the cover at which the leaf is killed, °C.
    pub killed_c: Option<f64>,
    /// The night minimum beside the cover from which it goes on growing, °C.
    pub grows_c: f64,
    /// Worth lost for each K below the chilling limit.
    pub chilled_per_k: f64,
    /// The highest temperature that it stands, °C.
    pub hot_c: Option<f64>,
    /// Worth lost in a day for each K above that.
    pub scorched_per_k: f64,
    /// How much warmer it gets under glass by day, on a mean day of summer, K.
    pub glass_k: f64,
    /// Worth lost without hardening.
    pub unhardened: f64,
    /// Days of hardening.
    pub hardening_days: f64,
    /// Worth lost by the unready.
    pub unready: f64,
    /// Worth lost for each point that is missing.
    pub missing: f64,
    /// Worth of a day.
    pub day: f64,
    /// Worth lost in a week after growth is checked.
    pub checked_per_week: f64,
    /// Weeks over which the gain of a larger pot builds up.
    pub trial_weeks: f64,
    /// Weeks before growth is checked.
    pub weeks_before_check: f64,
}

impl Inputs {
    /// All at their best.
    pub fn best(case: &Case) -> Result<Self, Problem> {
        Self::with(case, [0.0; KINDS])
    }

    /// All at their best but the limit, which is where one grower of ten sets it, low and high.
    pub fn limits_c(case: &Case) -> Result<[f64; 3], Problem> {
        let best = Self::best(case)?;
        let range = limit(case)?.range;
        let covered = range.best() - best.limit_c;
        Ok([range.low(), range.best(), range.high()].map(|limit| limit - covered))
    }

    /// All drawn from their ranges.
    pub fn drawn(case: &Case, draws: &mut Draws) -> Result<Self, Problem> {
        Self::with(case, std::array::from_fn(|_| draws.deviate()))
    }

    fn with(case: &Case, deviates: [f64; KINDS]) -> Result<Self, Problem> {
        let at = |of: Doubtful, range: Range<f64>| {
            range.at(deviates.get(of as usize).copied().unwrap_or(0.0))
        };
        let unknown = || Problem::at("crop", words::not_known_enough());
        let range = |property: Property| case.crop.figure(property).map(|figure| figure.range);
        let base = at(
            Doubtful::Base,
            range(Property::GrowthBase).ok_or_else(unknown)?,
        );
        let cover_k = if case.place.fleece {
            at(Doubtful::Cover, moving::FLEECE_K.range)
        } else {
            0.0
        };
        let leaf_k = at(Doubtful::Cover, moving::LEAF_BELOW_AIR_K.range);
        let cold = |property: Property| range(property).map(|range| at(Doubtful::Cold, range));
        let chilled = case.own.chilled_c.map(|own| at(Doubtful::Cold, own));
        let weeks = weeks_before_check(case).range;
        Ok(Self {
            growth: case.crop.growth_above(base).ok_or_else(unknown)?,
            sum: at(Doubtful::Sum, case.sum.range),
            stood_off_k: at(Doubtful::Warmth, STOOD_OFF_K),
            limit_c: at(Doubtful::Cold, limit(case)?.range) - cover_k,
            chilled_c: chilled
                .or_else(|| cold(Property::ChillingLimit))
                .map(|limit| limit - cover_k),
            // A leaf under fleece does not see the sky, and is as warm as the air there.
            killed_c: cold(Property::KillingLimit).map(|limit| {
                if case.place.fleece {
                    limit - cover_k
                } else {
                    limit + leaf_k
                }
            }),
            grows_c: at(Doubtful::Cold, case.readiness.growing_night_c.range) - cover_k,
            chilled_per_k: at(Doubtful::ColdCost, moving::CHILLED_PER_K.range),
            hot_c: range(Property::HeatLimit).map(|limit| at(Doubtful::Heat, limit)),
            scorched_per_k: at(Doubtful::HeatCost, moving::SCORCHED_PER_K.range).max(0.0),
            glass_k: at(Doubtful::ByDay, moving::GLASS_WARMER_BY_DAY_K.range).max(0.0),
            unhardened: at(Doubtful::ColdCost, moving::UNHARDENED.range),
            hardening_days: at(Doubtful::Weeks, moving::HARDENING_DAYS.range).max(1.0),
            unready: at(Doubtful::EarlyCost, moving::UNREADY.range),
            missing: at(Doubtful::EarlyCost, moving::MISSING.range),
            day: at(Doubtful::WaitCost, moving::DAY.range),
            checked_per_week: at(Doubtful::WaitCost, moving::CHECKED_PER_WEEK.range),
            trial_weeks: at(Doubtful::Weeks, moving::TRIAL_WEEKS.range).max(1.0),
            weeks_before_check: at(Doubtful::Weeks, weeks).max(0.1),
        })
    }
}

/// The night minimum that the move asks for: that of an unheated house, in the open as well, since plants that go from
/// a heated to a cold house need the same as those that go outdoors. The handbook's, or what one's own moves made of it.
///
/// # Errors
/// That too little is known of the crop.
pub fn limit(case: &Case) -> Result<Figure, Problem> {
    let figure = case
        .crop
        .figure(Property::NightForColdHouse)
        .ok_or_else(|| Problem::at("crop", words::not_known_enough()))?;
    Ok(Figure {
        range: case.own.night_c.unwrap_or(figure.range),
        ..figure
    })
}

/// Weeks before growth is checked: of seedlings once they are ready, else of the crop.
pub fn weeks_before_check(case: &Case) -> Figure {
    if case.moves == Move::PrickOut {
        moving::SEEDLINGS_WAIT_WEEKS
    } else {
        case.readiness.weeks_before_check
    }
}

/// From when these weeks count.
pub fn counted_from(case: &Case) -> CountedFrom {
    if case.moves == Move::PrickOut {
        CountedFrom::Ready
    } else {
        case.readiness.counted_from
    }
}
