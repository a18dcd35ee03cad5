//! A blend judged by the model of Mix, which is asked and not copied.

use super::blends::{Counts, STEPS};
use super::question::{Aim, Case, Stuff, Target};
use crate::reckon::doubt::Doubt;
use crate::reckon::materials::bags_for;
use crate::reckon::mix::{self, Mix};
use crate::reckon::{Problem, Reckoning};

/// Where Mix has the figures of which this reckoning speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Places {
    pub(super) air: usize,
    pub(super) water: usize,
    pub(super) easy_water: usize,
    pub(super) wet_weight: usize,
    pub(super) volume_lost: usize,
}

impl Places {
    /// Found by their names; none where Mix has no longer one of them.
    #[must_use]
    pub fn of(case: &mix::Case) -> Option<Self> {
        let names = Mix::figures(case);
        let place = |name: &str| names.iter().position(|figure| figure.name == name);
        Some(Self {
            air: place("air")?,
            water: place("water")?,
            easy_water: place("laboratory_easy_water")?,
            wet_weight: place("wet_weight")?,
            volume_lost: place("volume_lost")?,
        })
    }
}

/// What Mix says of a blend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// Air, as the use has it judged, fraction.
    pub air: f64,
    /// Water of the drained pot, fraction.
    pub water: f64,
    /// Easily available water, fraction.
    pub easy_water: f64,
    /// Wet mix in one pot, kg.
    pub wet_kg: f64,
    /// Share of the volume lost on mixing.
    pub lost: f64,
}

/// A blend that has been looked at.
#[derive(Clone, Copy, Debug)]
pub struct Looked {
    /// Its parts.
    pub counts: Counts,
    /// At the best figures.
    pub judged: Judged,
}

/// What one material of a blend takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken {
    /// Loose, to measure out, L.
    pub litres: f64,
    /// Of it in hand, L.
    pub from_in_hand: f64,
    /// Of it to be bought, L.
    pub to_buy: f64,
    /// Whole bags to buy.
    pub bags: f64,
    /// What those bags cost, in one's own money.
    pub bags_price: f64,
}

impl Stuff {
    fn taken(&self, litres: f64) -> Taken {
        let from_in_hand = litres.min(self.in_hand_litres);
        let to_buy = litres - from_in_hand;
        let bags = bags_for(litres, self.in_hand_litres, self.bag_litres);
        Taken {
            litres,
            from_in_hand,
            to_buy,
            bags,
            bags_price: bags * self.price.unwrap_or(0.0),
        }
    }
}

impl Case {
    /// The case of Mix for a blend: the parts that are in it, shared out as Mix shares them out.
    #[must_use]
    pub fn mix_of(&self, counts: &Counts) -> mix::Case {
        let mut case = self.template.clone();
        let shared_out = |(part, parts): (&mix::Part, &u8)| mix::Part {
            share: f64::from(*parts) / f64::from(STEPS),
            ..part.clone()
        };
        let used = self.template.parts.iter().zip(counts);
        case.set_parts(
            used.filter(|(_, parts)| **parts > 0)
                .map(shared_out)
                .collect(),
        );
        case
    }

    /// A blend at the best figures.
    ///
    /// # Errors
    /// What Mix says where it has no outcome.
    pub fn look(&self, counts: &Counts) -> Result<Looked, Problem> {
        let outcome = Mix::best(&self.mix_of(counts))?;
        Ok(Looked {
            counts: *counts,
            judged: self.judged_of(&outcome.values),
        })
    }

    /// What the values of an outcome of Mix say.
    #[must_use]
    pub fn judged_of(&self, values: &[f64]) -> Judged {
        self.judged(|place| values.get(place).copied().unwrap_or(f64::NAN))
    }

    /// What is asked for of a target, base units; none where it is left empty.
    #[must_use]
    pub fn wanted(&self, target: Target) -> Option<f64> {
        let place = Target::ALL.iter().position(|other| *other == target)?;
        self.targets.get(place).copied().flatten()
    }

    /// The limits of a doubt of Mix that count against the targets: the 1-in-10 limit of what there
    /// should be much of, the 9-in-10 limit of what there should be little of.
    #[must_use]
    pub fn at_the_limits(&self, doubt: &Doubt) -> Judged {
        let low = |place: usize| {
            doubt
                .ranges
                .get(place)
                .map_or(f64::NAN, |range| range.low())
        };
        let high = |place: usize| {
            doubt
                .ranges
                .get(place)
                .map_or(f64::NAN, |range| range.high())
        };
        Judged {
            wet_kg: high(self.places.wet_weight),
            lost: high(self.places.volume_lost),
            ..self.judged(low)
        }
    }

    fn judged(&self, value: impl Fn(usize) -> f64) -> Judged {
        Judged {
            air: value(self.places.air),
            water: value(self.places.water),
            easy_water: value(self.places.easy_water),
            wet_kg: value(self.places.wet_weight),
            lost: value(self.places.volume_lost),
        }
    }

    /// What a blend takes of each material, where so much volume is lost on mixing.
    #[must_use]
    pub fn taken(&self, counts: &Counts, lost: f64) -> Vec<Taken> {
        let loose = self.litres / (1.0 - lost);
        self.materials
            .iter()
            .zip(counts)
            .map(|(stuff, &parts)| stuff.taken(loose * f64::from(parts) / f64::from(STEPS)))
            .collect()
    }

    /// What the bags to buy for a blend cost, in one's own money.
    #[must_use]
    pub fn price(&self, counts: &Counts, lost: f64) -> f64 {
        self.taken(counts, lost)
            .iter()
            .map(|taken| taken.bags_price)
            .sum()
    }

    /// The price of the cheapest bag there is.
    #[must_use]
    pub fn cheapest_bag(&self) -> f64 {
        let prices = self.materials.iter().filter_map(|stuff| stuff.price);
        prices.reduce(f64::min).unwrap_or(0.0)
    }

    /// What is bought and used of them is worth so much.
    #[must_use]
    pub fn worth(&self, counts: &Counts, lost: f64) -> f64 {
        let worth = |(stuff, taken): (&Stuff, Taken)| {
            stuff.price.unwrap_or(0.0) * taken.to_buy / stuff.bag_litres
        };
        let taken = self.taken(counts, lost);
        self.materials.iter().zip(taken).map(worth).sum()
    }

    /// Whether there is enough of everything that cannot be bought.
    #[must_use]
    pub fn to_be_had(&self, counts: &Counts, lost: f64) -> bool {
        let loose = self.litres / (1.0 - lost);
        self.materials.iter().zip(counts).all(|(stuff, &parts)| {
            let litres = loose * f64::from(parts) / f64::from(STEPS);
            stuff.price.is_some() || litres <= stuff.in_hand_litres
        })
    }

    /// What is held against the targets, in the order of [`Target::ALL`].
    #[must_use]
    pub fn held_against(&self, counts: &Counts, judged: &Judged) -> [f64; 4] {
        let price = self.price(counts, judged.lost);
        [judged.air, judged.water, judged.wet_kg, price]
    }

    /// By how much each target is missed, as a share of it; nought where it is met or not set.
    #[must_use]
    pub fn missed(&self, held: &[f64; 4]) -> [f64; 4] {
        let mut missed = [0.0; 4];
        for (place, target) in Target::ALL.into_iter().enumerate() {
            if let Some(wanted) = self.targets[place] {
                let short = if target.at_least() {
                    wanted - held[place]
                } else {
                    held[place] - wanted
                };
                /// What a miss is held against where the target is nought.
                const LEAST: f64 = 1e-9;
                missed[place] = short.max(0.0) / wanted.max(LEAST);
            }
        }
        missed
    }

    /// Whether a blend meets the targets and can be had.
    #[must_use]
    pub fn meets(&self, counts: &Counts, judged: &Judged) -> bool {
        self.missed(&self.held_against(counts, judged)) == [0.0; 4]
            && self.to_be_had(counts, judged.lost)
    }

    /// What the best blend has the least of; where two have as much, the one that uses least of
    /// what is bought goes first, and then the one of fewer materials.
    #[must_use]
    pub fn rank(&self, looked: &Looked) -> (f64, f64, usize) {
        let worth = self.worth(&looked.counts, looked.judged.lost);
        let price = self.price(&looked.counts, looked.judged.lost);
        let first = match self.aim {
            Aim::Price => price,
            Aim::Weight => looked.judged.wet_kg,
            Aim::Air => -looked.judged.air,
            Aim::EasyWater => -looked.judged.easy_water,
        };
        let many = looked.counts.iter().filter(|parts| **parts > 0).count();
        (first, worth, many)
    }
}

/// Less of two ranks goes first.
#[must_use]
pub fn before(one: &(f64, f64, usize), other: &(f64, f64, usize)) -> std::cmp::Ordering {
    one.0
        .total_cmp(&other.0)
        .then(one.1.total_cmp(&other.1))
        .then(one.2.cmp(&other.2))
}
