//! What is to be bought.

use super::case::Case;
use super::plan::Plan;
use super::words;
use crate::measure::{Length, Volume};

/// A line of what is to be bought.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Bought {
    /// What.
    pub what: String,
    /// How much is needed, in words.
    pub needed: String,
    /// How many packets, bags or pots to buy.
    pub buy: u32,
    /// What these cost, where the price is known.
    pub cost: Option<f64>,
}

/// A mix settles on filling and watering: so much more is filled in than the pot holds. Common practice, no source.
const SETTLES: f64 = 1.1;
/// Mix of a cell of a plug tray. Common practice, no source: 72 to 128 cells of a tray hold 43 to 23 mL.
const CELL: Volume = Volume::from_millilitres(30.0);

/// All lines: seed of each row, pots by size, mix.
#[must_use]
pub fn bought(case: &Case, plan: &Plan) -> Vec<Bought> {
    let mut lines = Vec::new();
    let of_row = |row: usize, each: fn(&super::plan::Sown) -> u32| -> u32 {
        plan.sown
            .iter()
            .filter(|sown| sown.row == row)
            .map(each)
            .sum()
    };
    for (row, sowing) in case.sowings.iter().enumerate() {
        let seeds = of_row(row, |sown| sown.seeds);
        let packets = seeds
            .saturating_sub(sowing.in_hand)
            .div_ceil(sowing.packet.max(1));
        lines.push(Bought {
            what: words::seed_of(sowing.crop.name, sowing.packet),
            needed: words::seeds_needed(seeds, sowing.in_hand),
            buy: packets,
            cost: sowing.packet_price.map(|price| price * f64::from(packets)),
        });
    }
    let mut litres = 0.0;
    let mut pots: Vec<(&'static str, u32, Option<f64>)> = Vec::new();
    for (row, sowing) in case.sowings.iter().enumerate() {
        let cells = of_row(row, |sown| sown.cells);
        let many = if sowing.sown_in_pots() {
            cells
        } else {
            litres += f64::from(cells) * CELL.in_litres();
            of_row(row, |sown| sown.potted)
        };
        let vessel = sowing.pot.vessel();
        let filled: Length = sowing.pot.height - sowing.pot.below_rim;
        litres += f64::from(many) * vessel.volume_to(filled).in_litres() * SETTLES;
        let cost = sowing.pot_price.map(|price| price * f64::from(many));
        match pots.iter_mut().find(|(name, ..)| *name == sowing.pot.name) {
            Some((_, all, all_cost)) => {
                *all += many;
                *all_cost = all_cost.zip(cost).map(|(one, other)| one + other);
            }
            None => pots.push((sowing.pot.name, many, cost)),
        }
    }
    lines.extend(pots.into_iter().map(|(name, many, cost)| Bought {
        what: words::pots(name),
        needed: words::counted(many),
        buy: many,
        cost,
    }));
    let short = (litres - case.mix.in_hand.in_litres()).max(0.0);
    let bags = (short / case.mix.bag.in_litres()).ceil() as u32;
    lines.push(Bought {
        what: words::mix_in_bags(case.mix.bag),
        needed: words::litres_needed(litres),
        buy: bags,
        cost: case.mix.price.map(|price| price * f64::from(bags)),
    });
    lines
}

/// What all of it costs, as far as prices are known; none where none is.
#[must_use]
pub fn total(lines: &[Bought]) -> Option<f64> {
    let known: Vec<f64> = lines.iter().filter_map(|line| line.cost).collect();
    (!known.is_empty()).then(|| known.iter().sum())
}
