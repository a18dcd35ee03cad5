//! What belongs to an answer of Root zone alone.

use super::case::{Case, Stand};
use super::come::{Best, Come, Outcomes};
use super::figures::{WEEK, called, cost};
use super::further::{Compared, Further};
use super::own::{Found, OwnFound};
use super::sweep::Finds;
use super::words;
use crate::handbook::heat::POT_COLOURS;
use crate::measure::Range;
use crate::science::heat::fit::Reading;

/// What belongs to Root zone alone.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Detail {
    /// The three standings: on the floor, raised, on the heated bench.
    pub stands: Vec<StandTold>,
    /// Which of them was asked about.
    pub chosen: usize,
    /// Air at the floor and at bench height through the day, °C, every half hour from midnight.
    pub floor_air_c: Vec<f64>,
    /// The same at bench height.
    pub bench_air_c: Vec<f64>,
    /// The crop's limit, °C; none for the hardy.
    pub chilled_below_c: Option<f64>,
    /// What makes roots raised differ from roots on the floor, part by part.
    pub causes: Vec<Cause>,
    /// What the parts leave out.
    pub not_in_it: String,
    /// The readings that would settle it in this house.
    pub settled_by: String,
    /// Draws that could not be followed, in words; empty where all could.
    pub left_out: String,
    /// What one's own readings tell, in words; empty where there are none, or until it is known.
    pub own: String,
    /// The figures fitted to them.
    pub fitted: Vec<FittedTold>,
    /// The readings themselves, beside what is reckoned for them.
    pub readings: Vec<ReadingTold>,
    /// What was fitted before and is used, in words; empty where nothing was.
    pub fitted_before: String,
    /// What is looked for beyond the month, once that is done.
    pub further: Option<Further>,
    /// When raising overtakes, in words; empty until it is known.
    pub overtakes: String,
    /// Where more height stops paying, in words.
    pub heights: String,
    /// Rows of covers, insulation, energy and money.
    pub heat: Vec<HeatTold>,
    /// What it takes to hold the bench, in words.
    pub hold: String,
    /// Colours of pots in July's sun.
    pub colours: Vec<ColourName>,
    /// The same in words.
    pub july: String,
}

/// A standing.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct StandTold {
    /// Its key: floor, raised, bench.
    pub key: String,
    /// What it is called: "on the floor".
    pub called: String,
    /// Roots, °C, every half hour from midnight.
    pub roots_c: Vec<f64>,
    /// Water of the tray.
    pub water_c: Vec<f64>,
    /// Air around the plants.
    pub air_c: Vec<f64>,
    /// Surface of the floor below.
    pub floor_c: Vec<f64>,
    /// What the energy balance of its day misses, as a share of all that flowed.
    pub gap: f64,
}

/// A part of what raising does.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Cause {
    /// What.
    pub what: String,
    /// Roots at their coldest, K.
    pub lowest_k: Option<f64>,
    /// Roots on the mean, K.
    pub mean_k: Option<f64>,
    /// Growth, times.
    pub growth: Option<f64>,
}

/// A row of heat.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct HeatTold {
    /// The bench, how.
    pub what: String,
    /// Roots at their coldest, °C.
    pub lowest_c: f64,
    /// kWh/m² in a day.
    pub kwh_per_m2: f64,
    /// The bench in a season, kWh.
    pub season_kwh: f64,
    /// The same in money, where the price is known.
    pub season_cost: Option<f64>,
    /// What is said of it.
    pub said: String,
}

/// A colour of pots.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct ColourName {
    /// The colour.
    pub colour: String,
    /// The ball at its warmest, °C.
    pub ball_c: f64,
    /// The sunlit wall, °C.
    pub wall_c: f64,
}

/// A figure fitted to one's own readings.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct FittedTold {
    /// Its key: walls, night or sun.
    pub key: String,
    /// What it is called.
    pub what: String,
    /// What was known of it: 1 in 10 below, the most likely, 1 in 10 above.
    pub before: [f64; 3],
    /// What is known of it now.
    pub now: [f64; 3],
    /// Share of the doubt that is left; near 1 the readings told nothing of it.
    pub doubt_left: f64,
}

/// A reading beside what is reckoned for it.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct ReadingTold {
    /// Where and when: "water, day 2 at 6 h".
    pub what: String,
    /// What was read, °C.
    pub read_c: f64,
    /// What was reckoned before the fit, °C.
    pub before_c: f64,
    /// What is reckoned with it, °C.
    pub now_c: f64,
}

fn reading_told((reading, [before_c, now_c]): (&Reading, &[f64; 2])) -> ReadingTold {
    ReadingTold {
        what: words::reading(reading),
        read_c: reading.temperature.in_celsius(),
        before_c: *before_c,
        now_c: *now_c,
    }
}

fn fitted_told(found: &Found) -> FittedTold {
    let ends = |range: &Range<f64>| [range.low(), range.best(), range.high()];
    FittedTold {
        key: found.fits.key().to_owned(),
        what: found.fits.name().to_owned(),
        before: ends(&found.before),
        now: ends(&found.now),
        doubt_left: found.doubt_left,
    }
}

fn stand_told(stand: Stand, come: &Come) -> StandTold {
    let (key, on) = called(stand);
    StandTold {
        key: key.to_owned(),
        called: on.to_owned(),
        roots_c: come.roots_c.clone(),
        water_c: come.water_c.clone(),
        air_c: come.air_c.clone(),
        floor_c: come.floor_c.clone(),
        gap: come.gap,
    }
}

fn causes(out: &Outcomes, further: Option<&Further>) -> Vec<Cause> {
    let (floor, raised, alone) = (
        out.at(Stand::Floor),
        out.at(Stand::Raised),
        &out.raised_alone,
    );
    let by_raising = out.growth_by_raising();
    let by_its_air = out.growth_by_its_air();
    let mut causes = vec![
        Cause {
            what: words::RAISING_ALONE.to_owned(),
            lowest_k: Some(alone.lowest_c() - floor.lowest_c()),
            mean_k: Some(alone.mean_c() - floor.mean_c()),
            growth: Some(by_raising.all()),
        },
        Cause {
            what: words::AIR_ON_ROOTS.to_owned(),
            lowest_k: Some(raised.lowest_c() - alone.lowest_c()),
            mean_k: Some(raised.mean_c() - alone.mean_c()),
            growth: Some(by_its_air.roots),
        },
        Cause {
            what: words::AIR_ON_LEAVES.to_owned(),
            lowest_k: None,
            mean_k: None,
            growth: Some(by_its_air.air),
        },
    ];
    if let Some(further) = further {
        let [floor_sun, raised_sun] = further.sun_adds_k;
        causes.push(Cause {
            what: words::OF_WHICH_SUN.to_owned(),
            lowest_k: None,
            mean_k: Some(raised_sun - floor_sun),
            growth: None,
        });
    }
    causes
}

fn heat(case: &Case, further: &Further) -> Vec<HeatTold> {
    let season = |kwh_per_m2: f64| kwh_per_m2 * WEEK * case.money.weeks;
    let cost = |kwh_per_m2: f64| cost(case, season(kwh_per_m2));
    let row = |what: &str, of: &Compared, said: String| HeatTold {
        what: what.to_owned(),
        lowest_c: of.lowest_c,
        kwh_per_m2: of.kwh_per_m2,
        season_kwh: season(of.kwh_per_m2) * case.heated.area.in_square_metres(),
        season_cost: cost(of.kwh_per_m2),
        said,
    };
    let asked = if case.cover.is_some() {
        further.bench_covered
    } else {
        further.bench_open
    };
    let saved = |more: &Compared, less: &Compared| {
        cost(more.kwh_per_m2)
            .zip(cost(less.kwh_per_m2))
            .map(|(more, less)| more - less)
    };
    let open = &further.bench_open;
    let covered = &further.bench_covered;
    let mut rows = vec![
        row(words::BENCH_OPEN, open, words::held_short(open.short_h)),
        row(
            words::BENCH_COVERED,
            covered,
            words::pays_back(saved(open, covered), &case.money.cover),
        ),
    ];
    if case.heated.board.is_some() {
        rows.push(row(
            words::BENCH_BARE,
            &further.bench_bare,
            words::pays_back(saved(&further.bench_bare, &asked), &case.money.board),
        ));
    }
    rows
}

/// The detail of an answer.
pub fn detail(case: &Case, best: &Best, finds: Option<Finds>) -> Detail {
    let out = &best.outcomes;
    let [floor_air_c, bench_air_c] = best.airs.clone();
    let left_out = finds
        .as_ref()
        .map_or_else(String::new, |finds| words::left_out(finds.unsolved));
    let own = finds.as_ref().and_then(|finds| finds.own.as_ref());
    let fit = match own {
        Some(OwnFound::Fit(fit)) => Some(fit),
        _ => None,
    };
    let fitted = fit.map_or_else(Vec::new, |fit| fit.found.iter().map(fitted_told).collect());
    let readings = fit
        .zip(case.own.as_ref())
        .map_or_else(Vec::new, |(fit, own)| {
            let read = own.readings.iter().zip(&fit.reckoned_c);
            read.map(reading_told).collect()
        });
    let own = own.map_or_else(String::new, |own| words::own(case, own));
    let further = finds.and_then(|finds| finds.further);
    let colours = further.iter().flat_map(|further| {
        POT_COLOURS
            .iter()
            .zip(&further.colours)
            .map(|(row, told)| ColourName {
                colour: row.name.to_owned(),
                ball_c: told.ball_c,
                wall_c: told.wall_c,
            })
    });
    Detail {
        stands: Stand::ALL
            .iter()
            .map(|&stand| stand_told(stand, out.at(stand)))
            .collect(),
        chosen: case.stand.place(),
        floor_air_c,
        bench_air_c,
        chilled_below_c: case.crop.chilled_below_c.map(|figure| figure.range.best()),
        causes: causes(out, further.as_ref()),
        left_out,
        not_in_it: words::not_in_it(),
        settled_by: words::settled_by(),
        own,
        fitted,
        readings,
        fitted_before: words::fitted_before(&case.fitted),
        overtakes: further.as_ref().map_or_else(String::new, words::overtakes),
        heights: further.as_ref().map_or_else(String::new, words::heights),
        heat: further
            .as_ref()
            .map_or_else(Vec::new, |further| heat(case, further)),
        hold: further
            .as_ref()
            .map_or_else(String::new, |further| words::hold(case, further)),
        july: further
            .as_ref()
            .map_or_else(String::new, |further| words::july(case, further)),
        colours: colours.collect(),
        further,
    }
}
