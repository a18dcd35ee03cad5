//! What is to be bought.

use super::case::{Case, Stand, Stuff};
use super::plan::{Plan, Sown};
use super::weeks::in_pots;
use super::words;
use crate::measure::{Length, Volume};
use crate::nursery::Day;

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
/// Loose parts lose so much of their volume as they are mixed. Common practice, no source; Mix works it out.
const LOST_ON_MIXING: f64 = 0.08;
/// Mix of a cell of a plug tray. Common practice, no source: 72 to 128 cells of a tray hold 43 to 23 mL.
pub const CELL: Volume = Volume::from_millilitres(30.0);

/// What a plan needs.
#[derive(Default)]
struct Needs {
    /// Pots by their names: how many, in hand, and what one costs.
    pots: Vec<(&'static str, u32, u32, Option<f64>)>,
    mix_litres: f64,
}

impl Needs {
    fn pots(&mut self, name: &'static str, many: u32, in_hand: u32, price: Option<f64>) {
        match self.pots.iter_mut().find(|(known, ..)| *known == name) {
            Some((_, all, at_hand, of_one)) => {
                *all += many;
                // Two rows of one size tell of the same heap.
                *at_hand = (*at_hand).max(in_hand);
                *of_one = of_one.or(price);
            }
            None => self.pots.push((name, many, in_hand, price)),
        }
    }
}

/// All lines: seed of each row, pots by size, trays, mix or its parts, and what beds are laid of. What is sown up to
/// the last day counts, where one is named, and all of the beds.
#[must_use]
pub fn bought(case: &Case, plan: &Plan, until: Option<Day>) -> Vec<Bought> {
    let counts = |sown: &&Sown| until.is_none_or(|until| sown.on <= until);
    let of_row = |row: usize, each: fn(&Sown) -> u32| -> u32 {
        let of_it = plan.sown.iter().filter(|sown| sown.row == row);
        of_it.filter(counts).map(each).sum()
    };
    let mut lines = Vec::new();
    let mut needs = Needs::default();
    for (row, sowing) in case.sowings.iter().enumerate() {
        let seeds = of_row(row, |sown| sown.seeds);
        if seeds == 0 {
            continue;
        }
        let packets = seeds
            .saturating_sub(sowing.in_hand)
            .div_ceil(sowing.packet.max(1));
        lines.push(Bought {
            what: words::seed_of(sowing.crop.name, sowing.packet),
            needed: words::needed_in_hand(words::seeds(seeds), sowing.in_hand),
            buy: packets,
            cost: sowing.packet_price.map(|price| price * f64::from(packets)),
        });
        let cells = of_row(row, |sown| sown.cells);
        let many = if sowing.sown_in_pots() {
            cells
        } else {
            needs.mix_litres += f64::from(cells) * CELL.in_litres();
            of_row(row, |sown| sown.potted)
        };
        let pot = sowing.potting.pot;
        needs.mix_litres += f64::from(many) * pot.filled().in_litres() * SETTLES;
        needs.pots(pot.name, many, sowing.pots_in_hand, sowing.pot_price);
    }
    let cells = cells_at_once(case, plan, until);
    lines.extend(needs.pots.iter().map(|(name, many, in_hand, price)| {
        let buy = many.saturating_sub(*in_hand);
        Bought {
            what: words::pots(name),
            needed: words::needed_in_hand(many.to_string(), *in_hand),
            buy,
            cost: price.map(|price| price * f64::from(buy)),
        }
    }));
    if cells > 0 {
        let trays = cells.div_ceil(case.mix.cells.max(1));
        let buy = trays.saturating_sub(case.mix.trays);
        lines.push(Bought {
            what: words::trays(case.mix.cells),
            needed: words::needed_in_hand(trays.to_string(), case.mix.trays),
            buy,
            cost: case.mix.tray_price.map(|price| price * f64::from(buy)),
        });
    }
    let ready = &case.mix.stuff;
    if case.mix.parts.is_empty() {
        lines.push(loose(
            words::mix_in_bags(ready.bag),
            needs.mix_litres,
            ready,
        ));
    } else {
        let to_mix =
            (needs.mix_litres - ready.in_hand.in_litres()).max(0.0) / (1.0 - LOST_ON_MIXING);
        let parts = case.mix.parts.iter();
        lines.extend(parts.map(|part| {
            let what = words::in_bags(&part.name, part.stuff.bag);
            loose(what, to_mix * part.share, &part.stuff)
        }));
    }
    let bed_litres: f64 = case.stands.iter().map(bed_litres).sum();
    if bed_litres > 0.0 {
        let what = words::bed_in_bags(case.bed.bag);
        lines.push(loose(what, bed_litres, &case.bed));
    }
    lines
}

/// What the bed of a place takes.
fn bed_litres(stand: &Stand) -> f64 {
    let depth = stand.bed.unwrap_or(Length::from_millimetres(0.0));
    (stand.length * stand.breadth * depth).in_litres()
}

/// Something loose, by the bag.
fn loose(what: String, litres: f64, stuff: &Stuff) -> Bought {
    let short = (litres - stuff.in_hand.in_litres()).max(0.0);
    let bags = (short / stuff.bag.in_litres()).ceil() as u32;
    Bought {
        what,
        needed: words::litres_needed(litres, stuff.in_hand),
        buy: bags,
        cost: stuff.price.map(|price| price * f64::from(bags)),
    }
}

/// Cells that seedlings stand in, on the day on which these are most: trays are used again.
fn cells_at_once(case: &Case, plan: &Plan, until: Option<Day>) -> u32 {
    let standing: Vec<(Day, Day, u32)> = plan
        .sown_stages()
        .filter(|(sown, _)| until.is_none_or(|until| sown.on <= until))
        .filter_map(|(sown, stages)| {
            let sowing = case.sowings.get(sown.row)?;
            let (potted, _) = in_pots(case, sown, stages);
            (!sowing.sown_in_pots()).then_some((sown.on, potted, sown.cells))
        })
        .collect();
    let on = |day: Day| -> u32 {
        let there = standing.iter();
        there
            .filter(|(from, to, _)| *from <= day && day <= *to)
            .map(|(_, _, cells)| cells)
            .sum()
    };
    standing
        .iter()
        .map(|(from, ..)| on(*from))
        .max()
        .unwrap_or(0)
}

/// What all of it costs, as far as prices are known; none where none is.
#[must_use]
pub fn total(lines: &[Bought]) -> Option<f64> {
    let known: Vec<f64> = lines.iter().filter_map(|line| line.cost).collect();
    (!known.is_empty()).then(|| known.iter().sum())
}
