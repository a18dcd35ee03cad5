//! What belongs to an answer of Moving on alone.

use super::case::Case;
use super::days::Run;
use super::figures::{limits_of, losses};
use super::hardening::{HardeningTold, plan};
use super::hot::HotTold;
use super::inputs::{Inputs, weeks_before_check};
use super::next_pot::{self, NextPotTold};
use super::nights::{DAYS, Nights, OfDay};
use super::ready::{OnCard, Stage, Standing, Weight, told};
use super::states::{measure, states};
use super::waiting::{gain_of_next, load_g_per_l};
use super::words;
use crate::handbook::crops::Property;
use crate::reckon::doubt::Doubt;

macro_rules! told {
    ($(#[$text:meta])* $name:ident { $($(#[$of_field:meta])* $field:ident: $type:ty,)* }) => {
        $(#[$text])*
        #[derive(Clone, Debug, PartialEq)]
        #[cfg_attr(
            feature = "terminal",
            derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
        )]
        pub struct $name {
            $($(#[$of_field])* pub $field: $type,)*
        }
    };
}

told! {
    /// What a page draws beside the figures.
    Detail {
        /// How it stands: ready, wait, not_yet or overdue.
        stage: String,
        /// The same in a sentence.
        stage_sentence: String,
        /// The best day, such as 2027-05-20; empty where none of the coming three weeks is.
        best_day: String,
        /// Why that day.
        reasons: Vec<String>,
        /// The card of the batch, point by point.
        card: Vec<PointTold>,
        /// What stands at the head of the card that is taken to the bench.
        head: HeadTold,
        /// Each of the coming 21 days as a day to move on.
        days: Vec<DayTold>,
        /// The same for not moving in these days at all.
        left: DayTold,
        /// The coming 21 nights where it goes.
        nights: Vec<NightTold>,
        /// What the nights are told from, and how far that reaches.
        outlook: Vec<String>,
        /// For how many nights the log and the forecast tell more than the season.
        told_ahead: u32,
        /// How much warmer the place is than its climate, K: as the log has it, and its doubt.
        warmer_k: [f64; 2],
        /// The temperatures that count.
        limits: Limits,
        /// How it is hardened, day by day; empty where it is not.
        hardening: Vec<HardeningTold>,
        /// Hot days where it goes; none where it is not known what the crop stands.
        hot: Option<HotTold>,
        /// How warmth carries it.
        way: WayTold,
        /// How much plant the pot carries, and what a larger one would give.
        pot: PotTold,
        /// The sizes that it might go into next, the smallest first; empty for a move that is not into a pot.
        next_pots: Vec<NextPotTold>,
        /// Which of them to take and why, and how little water is enough in it.
        next_pot: Vec<String>,
        /// Indices of the plant that was weighed; none where none was.
        indices: Option<IndicesTold>,
        /// How many plants.
        plants: f64,
    }
}

told! {
    /// What stands at the head of the card that is taken to the bench.
    HeadTold {
        /// The crop.
        crop: String,
        /// The pot it is in.
        pot: String,
        /// The move, such as "into the cold house".
        goes: String,
        /// The day, in words.
        day: String,
    }
}

told! {
    /// A state that a point may be in.
    StateTold {
        /// Its key, as it is asked for.
        key: String,
        /// The same in words.
        words: String,
        /// Whether the point is as it should be so.
        good: bool,
        /// Whether it is what was seen.
        seen: bool,
    }
}

told! {
    /// What is counted or measured at a point.
    MeasureTold {
        /// From so many on it is as it should be.
        from: f64,
        /// The usual most of it; none where there is none.
        to: Option<f64>,
        /// What it is counted in: cm, days, leaves, pairs or leaves of each shoot.
        unit: String,
        /// What was seen.
        seen: Option<f64>,
    }
}

told! {
    /// A point of the card.
    PointTold {
        /// Its key: ball, circling, tips, leaves, height, flower, pests, hardened, own, warmth, nights or heat.
        key: String,
        /// What it is called.
        called: String,
        /// What to look for, in plain words.
        look_for: String,
        /// What is seen, in words.
        seen: String,
        /// How it stands: passed, late, not_looked or missing.
        standing: String,
        /// How much hangs on it: needed, tells or waits.
        weight: String,
        /// The states that it may be in, where there are a few to choose from.
        states: Vec<StateTold>,
        /// What is counted or measured, where something is.
        measure: Option<MeasureTold>,
    }
}

told! {
    /// A day to move on.
    DayTold {
        /// The day, such as 2027-05-20.
        day: String,
        /// What is lost by having waited until then, of 1: low, best, high.
        waiting: [f64; 3],
        /// What is lost by going then and not later.
        early: [f64; 3],
        /// What is lost in all.
        loss: [f64; 3],
        /// The chance that the 7 nights from then on all stay above the limit: at its high, best and low.
        chance_7: [f64; 3],
        /// The same of 14 nights, at the best limit.
        chance_14: f64,
        /// The same of 21 nights, at the best limit.
        chance_21: f64,
    }
}

told! {
    /// A coming night.
    NightTold {
        /// The morning on which its minimum is read, such as 2027-05-20.
        day: String,
        /// Its mean minimum, °C.
        mean_c: f64,
        /// Its standard deviation, K.
        spread_k: f64,
        /// The chance that it stays above the limit.
        chance: f64,
        /// Its minimum as it is forecast for the open, °C.
        forecast_c: Option<f64>,
    }
}

told! {
    /// The temperatures that count, °C: of the air of the place, beside whatever covers the plants.
    Limits {
        /// The night minimum that the move asks for: low, best, high.
        night_c: [f64; 3],
        /// Below it the leaves are harmed.
        chilled_c: Option<f64>,
        /// At it the leaf is killed, by the thermometer.
        killed_c: Option<f64>,
        /// Below it growth stands still.
        grows_c: f64,
        /// Above it the crop is spoilt.
        hot_c: Option<f64>,
        /// How far the hottest day stays below that, K.
        hot_margin_k: Option<f64>,
        /// What the place is held at.
        held_c: Option<f64>,
    }
}

told! {
    /// How warmth carries it.
    WayTold {
        /// The share of its way, 1 where it is there.
        share: f64,
        /// Warmth it needs for this step, °C d: low, best, high.
        sum: [f64; 3],
        /// Days from today until it is ready, below nought where it is; none where it is not for two months.
        ready_in: Option<f64>,
        /// Weeks that count towards the check.
        weeks: f64,
        /// Weeks before growth is checked: low, best, high.
        before_check: [f64; 3],
    }
}

told! {
    /// The pot.
    PotTold {
        /// Dry plant, g to a litre; none where none was weighed.
        load_g_per_l: Option<f64>,
        /// How many times as heavy it grows in its next pot; none where it stays in this one.
        gain: Option<f64>,
    }
}

told! {
    /// Indices of a weighed plant: for sorting, not for foretelling.
    IndicesTold {
        /// Quality index of Dickson, Leaf and Hosner.
        quality: f64,
        /// Height in cm by stem in mm.
        sturdiness: f64,
        /// Dry shoot to dry root.
        shoot_to_root: f64,
    }
}

fn point(case: &Case, run: &Run, chance_7: f64, on: OnCard) -> PointTold {
    let [look_for, seen] = told(case, run, chance_7, on);
    let standing = match on.standing {
        Standing::Passed => "passed",
        Standing::Late => "late",
        Standing::NotLooked => "not_looked",
        Standing::Missing => "missing",
    };
    let weight = match on.weight {
        Weight::Needed => "needed",
        Weight::Tells => "tells",
        Weight::Waits => "waits",
    };
    PointTold {
        key: on.point.key().to_owned(),
        called: words::point_label(on.point).to_owned(),
        look_for,
        seen,
        standing: standing.to_owned(),
        weight: weight.to_owned(),
        states: states(case, on.point),
        measure: measure(case, on.point),
    }
}

fn day_told(
    case: &Case,
    run: &Run,
    chances: Option<&OfDay>,
    day: usize,
    doubt: Option<&Doubt>,
) -> DayTold {
    let best = losses(run).get(day).copied().unwrap_or_default();
    let three = |which: usize| {
        let best = best[which];
        let [low, high] = limits_of(doubt, day, which).unwrap_or([best, best]);
        [low, best, high]
    };
    // What is past the days has nights that were not looked at.
    let [at_high, best_7, at_low, chance_14, chance_21] = chances.copied().unwrap_or_default();
    DayTold {
        day: case.today.plus(day as i32).iso(),
        waiting: three(0),
        early: three(1),
        loss: three(2),
        chance_7: [at_high, best_7, at_low],
        chance_14,
        chance_21,
    }
}

/// All that an answer was found from.
pub struct Found<'a> {
    /// The case.
    pub case: &'a Case,
    /// The inputs at their best.
    pub inputs: &'a Inputs,
    /// The nights.
    pub nights: &'a Nights,
    /// What comes of them.
    pub run: &'a Run,
    /// The card.
    pub card: &'a [OnCard],
    /// What it comes to.
    pub stage: Stage,
    /// Chances of the stretches from today on.
    pub chances: [f64; 3],
    /// Chances of each of the days.
    pub by_day: &'a [OfDay],
    /// The sizes that it might go into next.
    pub next_pots: &'a [NextPotTold],
    /// Hot days.
    pub hot: Option<HotTold>,
}

/// The detail of an answer.
pub fn detail(found: &Found<'_>, doubt: Option<&Doubt>) -> Result<Detail, crate::reckon::Problem> {
    let Found {
        case,
        inputs,
        nights,
        run,
        ..
    } = *found;
    let limits_c = Inputs::limits_c(case)?;
    let [chance_7, ..] = found.chances;
    let before_check = weeks_before_check(case).range;
    let hot_c = case
        .crop
        .figure(Property::HeatLimit)
        .map(|limit| limit.range.best());
    let best_day = if run.best < DAYS {
        case.today.plus(run.best as i32).iso()
    } else {
        String::new()
    };
    let day = |day: usize| day_told(case, run, found.by_day.get(day), day, doubt);
    Ok(Detail {
        stage: found.stage.key().to_owned(),
        stage_sentence: words::stage(found),
        best_day,
        reasons: words::reasons(found),
        card: found
            .card
            .iter()
            .map(|on| point(case, run, chance_7, *on))
            .collect(),
        head: HeadTold {
            crop: case.crop.name.to_owned(),
            pot: case.pot.name.to_owned(),
            goes: words::goes(case),
            day: case.today.in_words(),
        },
        days: (0..DAYS).map(day).collect(),
        left: day(DAYS),
        nights: nights
            .each()
            .into_iter()
            .enumerate()
            .map(|(night, [mean_c, spread_k])| NightTold {
                day: case.today.plus(night as i32 + 1).iso(),
                mean_c,
                spread_k,
                chance: nights.chance_above(night, inputs.limit_c),
                forecast_c: case.forecasts.get(night).copied(),
            })
            .collect(),
        outlook: words::outlook(found),
        told_ahead: nights.told_ahead as u32,
        warmer_k: nights.offset_k,
        limits: Limits {
            night_c: limits_c,
            chilled_c: inputs.chilled_c,
            killed_c: inputs.killed_c,
            grows_c: inputs.grows_c,
            hot_c,
            hot_margin_k: hot_c
                .zip(case.place.hottest_c)
                .map(|(limit, hottest)| limit - hottest),
            held_c: case.place.held_c,
        },
        hardening: plan(case, inputs, run),
        hot: found.hot,
        way: WayTold {
            share: run.share,
            sum: [
                case.sum.range.low(),
                case.sum.range.best(),
                case.sum.range.high(),
            ],
            ready_in: run.ready_in,
            weeks: run.weeks,
            before_check: [before_check.low(), before_check.best(), before_check.high()],
        },
        pot: PotTold {
            load_g_per_l: load_g_per_l(case),
            gain: gain_of_next(case),
        },
        next_pot: next_pot::sentences(found.next_pots),
        next_pots: found.next_pots.to_vec(),
        indices: case.weighed.map(|(plant, _)| IndicesTold {
            quality: plant.quality_by_dickson_1960(),
            sturdiness: plant.sturdiness(),
            shoot_to_root: plant.shoot_to_root(),
        }),
        plants: case.plants,
    })
}
