//! What is told of each size.

use super::{FIGURES, Figures, Of, Sizes};
use crate::handbook::moving;
use crate::reckon::moving_on::case::Case;

/// A size that it might go into: each figure low, best and high.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct NextPotTold {
    /// Key of the pot.
    pub pot: String,
    /// What it is called.
    pub name: String,
    /// Why it is looked at: next for one size up, `two_on` for two, usual for the one that the crop is usually given
    /// next, last for the last that it is given, asked for the one that was asked for.
    pub why: String,
    /// Whether it is the one to take.
    pub take: bool,
    /// Mix in it, L.
    pub litres: f64,
    /// Water in it once it has drained, mL.
    pub water_ml: [f64; 3],
    /// Of that, out of reach of the roots in the first days, mL.
    pub out_of_reach_ml: [f64; 3],
    /// Air in it once it has drained, of 1.
    pub air: [f64; 3],
    /// What the plant drinks of a day, mL.
    pub drinks_ml: [f64; 3],
    /// Days until half of its easily available water is gone.
    pub wet_days: [f64; 3],
    /// The same with a plant that fills it.
    pub rooted_days: [f64; 3],
    /// Water that is enough at a time until it is rooted, mL.
    pub give_ml: [f64; 3],
    /// Days from one such watering to the next.
    pub every_days: [f64; 3],
    /// How many times as heavy it grows in the end as in the smallest of the sizes, at the most.
    pub gain: f64,
    /// Pottings still to come until the last size.
    pub pottings_after: u32,
    /// Minutes that these take over all plants.
    pub minutes_after: [f64; 3],
}

/// Each of the sizes, with the limits that came with the doubt.
#[must_use]
pub fn told(case: &Case, sizes: &Sizes, best: &[Figures], limits: &[f64]) -> Vec<NextPotTold> {
    let take = Sizes::choice(best);
    let minutes = moving::POTTING_MINUTES.range;
    sizes
        .all()
        .iter()
        .zip(best)
        .enumerate()
        .map(|(place, (size, figures))| {
            let three = |of: Of| {
                let which = of as usize;
                let best = figures[which];
                let at = 2 * (FIGURES * place + which);
                let limit = |at: usize| limits.get(at).copied().unwrap_or(best);
                [limit(at), best, limit(at + 1)]
            };
            let pottings = sizes.pottings_after(case, place) as u32;
            let of_all = |minutes: f64| f64::from(pottings) * case.plants * minutes;
            NextPotTold {
                pot: size.pot.key.to_owned(),
                name: size.pot.name.to_owned(),
                why: size.why.key().to_owned(),
                take: place == take,
                litres: size.pot.filled().in_litres(),
                water_ml: three(Of::Water),
                out_of_reach_ml: three(Of::OutOfReach),
                air: three(Of::Air),
                drinks_ml: three(Of::Drinks),
                wet_days: three(Of::WetDays),
                rooted_days: three(Of::RootedDays),
                give_ml: three(Of::Give),
                every_days: three(Of::EveryDays),
                gain: sizes.gain(place),
                pottings_after: pottings,
                minutes_after: [minutes.low(), minutes.best(), minutes.high()].map(of_all),
            }
        })
        .collect()
}
