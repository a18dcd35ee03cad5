//! What to buy for a mix, beyond what is in hand.

use super::case::Case;
use crate::measure::{Range, Volume};
use crate::reckon::materials::bags_for;

/// One material to measure out, and the bags of it to buy.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Purchase {
    /// Key of the material.
    pub material: String,
    /// What it is called.
    pub name: String,
    /// What is in hand of it, L.
    pub in_hand_litres: f64,
    /// Size of the bag, L.
    pub bag_litres: f64,
    /// Whole bags to buy for the best figure.
    pub bags: f64,
    /// Litres left over from them and from what is in hand, at the best figure.
    pub left_over_litres: f64,
    /// Whole bags to be 9 in 10 sure; the same as `bags` until the doubt is known.
    pub bags_to_be_sure: f64,
    /// What the bags cost, where the price of one is known.
    pub cost: Option<f64>,
}

/// What to buy of each part, from the litres of it that are measured out (m³).
pub fn purchases<'a>(
    case: &'a Case,
    measured_out: impl Iterator<Item = Range<f64>> + 'a,
) -> Vec<Purchase> {
    case.parts
        .iter()
        .zip(measured_out)
        .map(|(part, range)| {
            let litres = |base: f64| Volume::from_cubic_metres(base).in_litres();
            let bought = &part.bought;
            let (bag, in_hand) = (bought.bag.in_litres(), bought.in_hand.in_litres());
            let needed = litres(range.best());
            let bags = bags_for(needed, in_hand, bag);
            Purchase {
                material: part.material.key.to_owned(),
                name: part.material.name.to_owned(),
                in_hand_litres: in_hand,
                bag_litres: bag,
                bags,
                left_over_litres: (in_hand + bags * bag - needed).max(0.0),
                bags_to_be_sure: bags_for(litres(range.high()), in_hand, bag),
                cost: bought.price.map(|price| price * bags),
            }
        })
        .collect()
}
