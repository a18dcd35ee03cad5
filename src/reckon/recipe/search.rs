//! The search for the best blend.
//!
//! Every blend in whole parts of twenty is judged by the model of Mix at its best figures: at
//! most 10,626 of five materials, so nothing is left out and nothing is assumed of the model.
//!
//! Where the targets must be met in nine of ten draws, each blend would want hundreds of outcomes.
//! So how far the limits lie from the best figures is first taken at the lattice of Scheffé and bent
//! smoothly between; the blends are then gone through from the best downwards, and each that comes
//! near enough is drawn in full, with the very draws that Mix shows, until one meets the targets.
//! What each of them shows corrects what is expected of its neighbours.

use super::blends::{
    Counts, MOST_MATERIALS, STEPS, coarse_grid, grid, lattice, parts_apart, quadratic,
};
use super::judge::{Judged, Looked, before};
use super::question::{Aim, Case, Target};
use crate::reckon::Problem;
use crate::reckon::doubt::{Doubt, Sampling, UnderWay};
use crate::reckon::mix::Mix;

/// What a search has found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Finds {
    /// Whether the first blend meets the targets.
    pub met: bool,
    /// The best blend, or the nearest one; none where nothing can be had at all.
    pub first: Option<Counts>,
    /// Others that are nearly as good and differ most, or nothing.
    pub others: Vec<Counts>,
    /// Where none meets the targets: which stands in the way, and what can be had of it.
    pub in_way: Option<(Target, f64)>,
}

/// How many others are told.
const OTHERS: usize = 3;
/// Others that differ by fewer parts of twenty are the same to whoever mixes.
const WORTH_TELLING: u32 = 3;
/// Others may be behind the best by this share of it.
const NEARLY_AS_GOOD: f64 = 0.2;
/// And where less is not better, by this share of the volume.
const NEARLY_AS_MUCH: f64 = 0.03;
/// So many others are drawn in the hope that they meet the targets.
const OTHERS_TRIED: usize = 8;
/// So many are drawn in the search for the nearest.
const NEAREST_TRIED: usize = 40;

impl Finds {
    /// As plain numbers, which travel from one thread to another.
    #[must_use]
    pub fn written(&self, materials: usize) -> Vec<f64> {
        let way = self.in_way.map_or(-1.0, |(target, _)| {
            let place = Target::ALL.iter().position(|other| *other == target);
            place.map_or(-1.0, |place| place as f64)
        });
        let mut numbers = vec![
            f64::from(u8::from(self.met)),
            way,
            self.in_way.map_or(0.0, |(_, can_be)| can_be),
        ];
        for counts in self.first.iter().chain(&self.others) {
            numbers.extend(counts.iter().take(materials).copied().map(f64::from));
        }
        numbers
    }

    /// From those numbers; none where they are of another question.
    #[must_use]
    pub fn read(numbers: &[f64], materials: usize) -> Option<Self> {
        let (head, blends) = numbers.split_at_checked(3)?;
        if materials == 0 || !blends.len().is_multiple_of(materials) {
            return None;
        }
        let mut found = Vec::new();
        for blend in blends.chunks(materials) {
            let mut counts = [0; MOST_MATERIALS];
            for (parts, number) in counts.iter_mut().zip(blend) {
                *parts = *number as u8;
            }
            let all: u32 = counts.iter().copied().map(u32::from).sum();
            if all != u32::from(STEPS) {
                return None;
            }
            found.push(counts);
        }
        let way = (head[1] >= 0.0)
            .then(|| Target::ALL.get(head[1] as usize).copied())
            .flatten();
        let mut found = found.into_iter();
        Some(Self {
            met: head[0] > 0.5,
            first: found.next(),
            others: found.collect(),
            in_way: way.map(|target| (target, head[2])),
        })
    }
}

/// A first look between two key presses: coarse steps, best figures.
///
/// # Errors
/// What Mix says where it has no outcome.
pub fn first_look(case: &Case) -> Result<Finds, Problem> {
    let looked = coarse_grid(case.materials.len())
        .iter()
        .map(|counts| case.look(counts))
        .collect::<Result<Vec<_>, _>>()?;
    let at_best = |place: usize| looked.get(place).map(|one: &Looked| one.judged);
    Ok(chosen(case, &looked, &at_best))
}

/// The choice where what counts of each blend is known.
fn chosen(case: &Case, looked: &[Looked], counts: &dyn Fn(usize) -> Option<Judged>) -> Finds {
    let order = in_order(case, looked);
    let meets = |place: &usize| {
        let judged = counts(*place);
        judged.is_some_and(|judged| case.meets(&looked[*place].counts, &judged))
    };
    let Some(first) = order.iter().copied().find(meets) else {
        let near = nearest(case, looked, counts);
        return Finds {
            met: false,
            first: near.map(|(place, _, _)| looked[place].counts),
            others: Vec::new(),
            in_way: near.map(|(_, target, can_be)| (target, can_be)),
        };
    };
    let mut others: Vec<usize> = Vec::new();
    while others.len() < OTHERS {
        let taken: Vec<usize> = others.iter().copied().chain([first]).collect();
        let may = |place: &usize| meets(place);
        match farthest(case, looked, &order, &taken, &may) {
            Some(place) => others.push(place),
            None => break,
        }
    }
    Finds {
        met: true,
        first: Some(looked[first].counts),
        others: others
            .into_iter()
            .map(|place| looked[place].counts)
            .collect(),
        in_way: None,
    }
}

/// The places of all blends, best first.
fn in_order(case: &Case, looked: &[Looked]) -> Vec<usize> {
    let ranks: Vec<_> = looked.iter().map(|one| case.rank(one)).collect();
    let mut order: Vec<usize> = (0..looked.len()).collect();
    order.sort_by(|&one, &other| before(&ranks[one], &ranks[other]).then(one.cmp(&other)));
    order
}

/// Of the blends nearly as good as the first taken, the one that differs most from all taken.
fn farthest(
    case: &Case,
    looked: &[Looked],
    order: &[usize],
    taken: &[usize],
    may: &dyn Fn(&usize) -> bool,
) -> Option<usize> {
    let best = case.rank(&looked[*taken.last()?]).0;
    let slack = match case.aim {
        Aim::Air | Aim::EasyWater => NEARLY_AS_MUCH,
        Aim::Weight => NEARLY_AS_GOOD * best,
        // A bag more or less is nearly as good.
        Aim::Price => (NEARLY_AS_GOOD * best).max(case.cheapest_bag()),
    };
    let apart = |place: usize| {
        let from = |other: &usize| parts_apart(&looked[place].counts, &looked[*other].counts);
        taken.iter().map(from).min().unwrap_or(0)
    };
    order
        .iter()
        .copied()
        .take_while(|&place| case.rank(&looked[place]).0 <= best + slack)
        .filter(|&place| apart(place) >= WORTH_TELLING)
        .filter(may)
        // Of those equally far the first in order, which is the better one.
        .reduce(|one, other| {
            if apart(other) > apart(one) {
                other
            } else {
                one
            }
        })
}

/// The blend that can be had and comes nearest: where one target alone has to give, the one that
/// gives by the least share of it; else the one whose worst miss is least. With it the target in
/// the way, and what there is of it.
fn nearest(
    case: &Case,
    looked: &[Looked],
    counts: &dyn Fn(usize) -> Option<Judged>,
) -> Option<(usize, Target, f64)> {
    let mut best: Option<((usize, f64), usize, usize, f64)> = None;
    for (place, one) in looked.iter().enumerate() {
        let Some(judged) = counts(place) else {
            continue;
        };
        if !case.to_be_had(&one.counts, judged.lost) {
            continue;
        }
        let held = case.held_against(&one.counts, &judged);
        let missed = case.missed(&held);
        let many = missed.iter().filter(|miss| **miss > 0.0).count();
        let worst = (0..missed.len()).max_by(|&a, &b| missed[a].total_cmp(&missed[b]))?;
        // One target alone before several.
        let score = (many.min(2), missed[worst]);
        let better = best.is_none_or(|(known, ..)| {
            score
                .0
                .cmp(&known.0)
                .then(score.1.total_cmp(&known.1))
                .is_lt()
        });
        if better {
            best = Some((score, place, worst, held[worst]));
        }
    }
    best.map(|(_, place, worst, held)| (place, Target::ALL[worst], held))
}

/// Where a search stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    /// Looking at every blend at its best figures.
    Looking,
    /// Drawing the lattice.
    Lattice,
    /// Drawing the blends that may meet the targets, best first.
    Trying,
    /// Drawing others that are nearly as good.
    Others,
    /// Drawing the nearest, where none meets the targets.
    Nearest,
    /// Drawing the blend that is told, where it has not been.
    Telling,
    /// Done.
    Done,
}

/// What has been drawn of a blend.
struct Drawn {
    place: usize,
    at_the_limits: Judged,
    doubt: Doubt,
}

/// A search under way.
pub struct Search {
    case: Case,
    draws: u32,
    seed: u64,
    blends: Vec<Counts>,
    looked: Vec<Looked>,
    order: Vec<usize>,
    stage: Stage,
    trial: Option<(usize, Sampling<Mix>)>,
    drawn: Vec<Drawn>,
    /// What is expected between the best figures and the limits: air, water, weight, volume lost.
    departures: [Vec<(Counts, f64)>; 4],
    next: usize,
    first: Option<usize>,
    others: Vec<usize>,
    tried: usize,
    in_way: Option<(Target, f64)>,
    done: u32,
}

/// Trials that a search is thought to need, for telling how far it is.
const TRIALS_EXPECTED: u32 = 12;

impl Search {
    /// Begins a search, with so many draws from a seed for each blend that is drawn.
    #[must_use]
    pub fn begin(case: Case, draws: u32, seed: u64) -> Self {
        let blends = grid(case.materials.len(), 1);
        Self {
            looked: Vec::with_capacity(blends.len()),
            blends,
            case,
            draws,
            seed,
            order: Vec::new(),
            stage: Stage::Looking,
            trial: None,
            drawn: Vec::new(),
            departures: [const { Vec::new() }; 4],
            next: 0,
            first: None,
            others: Vec::new(),
            tried: 0,
            in_way: None,
            done: 0,
        }
    }

    fn look_at_one(&mut self) -> Result<(), Problem> {
        match self.blends.get(self.looked.len()) {
            Some(counts) => self.looked.push(self.case.look(counts)?),
            None => {
                self.order = in_order(&self.case, &self.looked);
                if self.case.sure {
                    self.stage = Stage::Lattice;
                } else {
                    let at_best = |place: usize| self.looked.get(place).map(|one| one.judged);
                    let finds = chosen(&self.case, &self.looked, &at_best);
                    self.settle(&finds);
                }
            }
        }
        Ok(())
    }

    /// Takes over what was found at the best figures.
    fn settle(&mut self, finds: &Finds) {
        let place = |counts: &Counts| self.blends.iter().position(|other| other == counts);
        self.first = finds.first.as_ref().and_then(place);
        self.others = finds.others.iter().filter_map(place).collect();
        self.in_way = finds.in_way;
        self.stage = Stage::Telling;
    }

    fn try_next(&mut self) -> Result<(), Problem> {
        match self.stage {
            Stage::Looking | Stage::Done => {}
            Stage::Lattice => {
                let lattice = lattice(self.case.materials.len());
                let next = lattice
                    .get(self.next)
                    .and_then(|counts| self.place_of(counts));
                self.next += 1;
                match next {
                    Some(place) => self.draw(place)?,
                    None => {
                        self.keep_departures();
                        self.next = 0;
                        self.stage = Stage::Trying;
                    }
                }
            }
            Stage::Trying => self.try_for_the_first()?,
            Stage::Others => self.try_for_another()?,
            Stage::Nearest => self.try_for_the_nearest()?,
            Stage::Telling => match self.first {
                Some(first) if self.drawn_of(first).is_none() => self.draw(first)?,
                _ => self.tell(),
            },
        }
        Ok(())
    }

    /// The next blend, best first, that may meet the targets is drawn, or known to meet them.
    fn try_for_the_first(&mut self) -> Result<(), Problem> {
        while let Some(&place) = self.order.get(self.next) {
            match self.drawn_of(place) {
                Some(drawn) => {
                    if self
                        .case
                        .meets(&self.looked[place].counts, &drawn.at_the_limits)
                    {
                        self.first = Some(place);
                        self.stage = Stage::Others;
                        return Ok(());
                    }
                    self.next += 1;
                }
                None if self.may_meet(place) => return self.draw(place),
                None => self.next += 1,
            }
        }
        self.stage = Stage::Nearest;
        Ok(())
    }

    /// The nearest blend by what is expected is drawn, until the nearest has been drawn already.
    fn try_for_the_nearest(&mut self) -> Result<(), Problem> {
        let expected = |place: usize| Some(self.expected(place));
        let near = nearest(&self.case, &self.looked, &expected);
        self.first = near.map(|(place, _, _)| place);
        self.in_way = near.map(|(_, target, can_be)| (target, can_be));
        if let Some(place) = self.first
            && let Some(drawn) = self.drawn_of(place)
            && self
                .case
                .meets(&self.looked[place].counts, &drawn.at_the_limits)
        {
            // It was thought to miss, and does not.
            self.in_way = None;
            self.stage = Stage::Others;
            return Ok(());
        }
        match self.first {
            Some(place) if self.drawn_of(place).is_none() && self.tried < NEAREST_TRIED => {
                self.tried += 1;
                self.draw(place)
            }
            _ => {
                self.stage = Stage::Telling;
                Ok(())
            }
        }
    }

    fn try_for_another(&mut self) -> Result<(), Problem> {
        let taken: Vec<usize> = self.others.iter().copied().chain(self.first).collect();
        let may = |place: &usize| match self.drawn_of(*place) {
            Some(drawn) => self
                .case
                .meets(&self.looked[*place].counts, &drawn.at_the_limits),
            None => self
                .case
                .meets(&self.looked[*place].counts, &self.expected(*place)),
        };
        let full = self.others.len() >= OTHERS || self.tried >= OTHERS_TRIED;
        let next = if full {
            None
        } else {
            farthest(&self.case, &self.looked, &self.order, &taken, &may)
        };
        match next {
            None => self.stage = Stage::Telling,
            Some(place) if self.drawn_of(place).is_some() => self.others.push(place),
            Some(place) => {
                self.tried += 1;
                self.draw(place)?;
            }
        }
        Ok(())
    }

    /// What is told of the way that is barred is what was drawn, not what was expected.
    fn tell(&mut self) {
        if let (Some(first), Some((target, _))) = (self.first, self.in_way)
            && let Some(drawn) = self.drawn_of(first)
            && self.case.sure
        {
            let counts = &self.looked[first].counts;
            let held = self.case.held_against(counts, &drawn.at_the_limits);
            let place = Target::ALL.iter().position(|other| *other == target);
            let can_be = place.and_then(|place| held.get(place).copied());
            self.in_way = can_be.map(|can_be| (target, can_be));
        }
        self.stage = Stage::Done;
    }

    fn place_of(&self, counts: &Counts) -> Option<usize> {
        self.blends.iter().position(|other| other == counts)
    }

    fn drawn_of(&self, place: usize) -> Option<&Drawn> {
        self.drawn.iter().find(|drawn| drawn.place == place)
    }

    fn draw(&mut self, place: usize) -> Result<(), Problem> {
        let case = self.case.mix_of(&self.blends[place]);
        self.trial = Some((place, Sampling::begin(case, self.draws, self.seed)?));
        Ok(())
    }

    fn keep_departures(&mut self) {
        for drawn in &self.drawn {
            let Some(looked) = self.looked.get(drawn.place) else {
                continue;
            };
            let apart = departure(&looked.judged, &drawn.at_the_limits);
            for (kept, value) in self.departures.iter_mut().zip(apart) {
                kept.push((looked.counts, value));
            }
        }
    }

    /// What is expected of a blend at the limits: the best figures, the quadratic, and what the
    /// nearest blend drawn was off from it, which counts for less the farther it is.
    fn expected(&self, place: usize) -> Judged {
        let looked = &self.looked[place];
        if let Some(drawn) = self.drawn_of(place) {
            return drawn.at_the_limits;
        }
        let mut apart = self.by_quadratic(&looked.counts);
        if let Some((near, parts)) = self.nearest_drawn(&looked.counts) {
            let known = &self.looked[near.place];
            let off = departure(&known.judged, &near.at_the_limits);
            let thought = self.by_quadratic(&known.counts);
            let weight = 1.0 - f64::from(parts.min(SO_FAR)) / f64::from(SO_FAR);
            for ((apart, off), thought) in apart.iter_mut().zip(off).zip(thought) {
                *apart += weight * (off - thought);
            }
        }
        moved(&looked.judged, apart)
    }

    fn by_quadratic(&self, counts: &Counts) -> [f64; 4] {
        let [air, water, weight, lost] = &self.departures;
        [air, water, weight, lost].map(|known| quadratic(known, counts))
    }

    /// The nearest blend drawn of the very same materials: with one more or one fewer other draws
    /// fall to each, and what is found jumps.
    fn nearest_drawn(&self, counts: &Counts) -> Option<(&Drawn, u32)> {
        let same = |other: &Counts| {
            let used = counts.iter().zip(other);
            used.into_iter()
                .all(|(one, other)| (*one > 0) == (*other > 0))
        };
        self.drawn
            .iter()
            .map(|drawn| (drawn, &self.looked[drawn.place].counts))
            .filter(|(_, other)| same(other))
            .map(|(drawn, other)| (drawn, parts_apart(other, counts)))
            .min_by_key(|(_, parts)| *parts)
    }

    /// Whether a blend may meet the targets, with room for how far what is expected may be off.
    fn may_meet(&self, place: usize) -> bool {
        let counts = &self.looked[place].counts;
        let expected = self.expected(place);
        let near = self
            .nearest_drawn(counts)
            .map_or(SO_FAR, |(_, parts)| parts);
        let room = if near <= CLOSE { ROOM_NEAR } else { ROOM };
        let [air, water, weight, lost] = room;
        let kinder = [air, water, -weight * expected.wet_kg, -lost];
        self.case.meets(counts, &moved(&expected, kinder))
    }
}

/// Parts beyond which a blend that was drawn tells nothing of another.
const SO_FAR: u32 = 6;
/// Parts up to which it tells much.
const CLOSE: u32 = 2;
/// How far what is expected may be off: air, water and volume lost as fractions, weight as a share
/// of it. `tests/recipe.rs` holds that it seldom is by half as much.
const ROOM: [f64; 4] = [0.035, 0.035, 0.04, 0.02];
/// The same close to a blend that was drawn.
const ROOM_NEAR: [f64; 4] = [0.012, 0.012, 0.02, 0.01];

fn departure(best: &Judged, limits: &Judged) -> [f64; 4] {
    [
        limits.air - best.air,
        limits.water - best.water,
        limits.wet_kg - best.wet_kg,
        limits.lost - best.lost,
    ]
}

fn moved(judged: &Judged, by: [f64; 4]) -> Judged {
    let [air, water, wet_kg, lost] = by;
    Judged {
        air: judged.air + air,
        water: judged.water + water,
        easy_water: judged.easy_water,
        wet_kg: judged.wet_kg + wet_kg,
        lost: (judged.lost + lost).max(0.0),
    }
}

impl UnderWay for Search {
    fn advance(&mut self, most: u32) -> Result<bool, Problem> {
        for _ in 0..most {
            if self.stage == Stage::Done {
                break;
            }
            self.done = self.done.saturating_add(1);
            if let Some((place, mut sampling)) = self.trial.take() {
                if sampling.advance(1)? {
                    let doubt = sampling.doubt();
                    self.drawn.push(Drawn {
                        place,
                        at_the_limits: self.case.at_the_limits(&doubt),
                        doubt,
                    });
                } else {
                    self.trial = Some((place, sampling));
                }
            } else if self.stage == Stage::Looking {
                self.look_at_one()?;
            } else {
                self.try_next()?;
            }
        }
        Ok(self.stage == Stage::Done)
    }

    fn progress(&self) -> (u32, u32) {
        let blends = u32::try_from(self.blends.len()).unwrap_or(u32::MAX);
        let trials = if self.case.sure {
            let lattice = u32::try_from(lattice(self.case.materials.len()).len()).unwrap_or(0);
            lattice + TRIALS_EXPECTED
        } else {
            1
        };
        let expected = blends.saturating_add(trials.saturating_mul(self.draws));
        // A search that takes longer than expected stands just before its end.
        (self.done.min(expected - expected / 50), expected)
    }

    fn finish(self: Box<Self>) -> Doubt {
        let finds = Finds {
            met: self.in_way.is_none() && self.first.is_some(),
            first: self.first.map(|place| self.looked[place].counts),
            others: self
                .others
                .iter()
                .map(|&place| self.looked[place].counts)
                .collect(),
            in_way: self.in_way,
        };
        let drawn = self.first.and_then(|first| self.drawn_of(first));
        let counts = finds.first.unwrap_or_default();
        let empty = Doubt {
            ranges: Vec::new(),
            chances: [0.0; 3],
            finds: Vec::new(),
        };
        let doubt = drawn.map_or(&empty, |drawn| &drawn.doubt);
        Doubt {
            ranges: self.case.ranges(&counts, doubt),
            chances: if finds.met {
                doubt.chances
            } else {
                [0.0, 0.0, 1.0]
            },
            finds: finds.written(self.case.materials.len()),
        }
    }
}
