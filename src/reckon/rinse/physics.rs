//! One outcome of Rinse from one set of inputs: at their best, or drawn.

use super::question::{Case, Goal, Holder};
use crate::handbook::rinsing::{
    self, BUCKET, METER, OWN_HELD, PER_KELVIN, SAMPLE, SOURCE_TAKES, SWEPT, THERMOMETER,
};
use crate::handbook::{Figure, filling};
use crate::measure::{Length, Volume};
use crate::reckon::Problem;
use crate::reckon::answer::Verdict;
use crate::science::container::Vessel;
use crate::science::numerics::draws::Draws;
use crate::science::retention::Retention;
use crate::science::rinsing::{Heap, Holds, RunOff, Way};
use crate::science::salt_conductivity::{Extract, at_25_celsius};

/// Nobody rinses more often than this.
pub const MOST: usize = 40;

/// Everything that one outcome needs, with its doubt resolved one way; per litre of material.
#[derive(Clone, Debug)]
pub struct Inputs {
    /// The extract.
    pub extract: Extract,
    /// What it read, mS/cm at 25 °C.
    pub read_ms_per_cm: f64,
    /// Change of conductivity with temperature, 1/K.
    pub per_kelvin: f64,
    /// Salt at the start, mS/cm × L/L.
    pub salt: f64,
    /// Water in it at the start, L/L.
    pub water: f64,
    /// What it holds on to once drained.
    pub holds: Holds,
    /// Pores that water enters, L/L.
    pub pore_space: f64,
    /// How the water is given.
    pub way: Way,
    /// Water for each rinse, L/L.
    pub added: f64,
    /// The water for rinsing, mS/cm at 25 °C.
    pub source: f64,
    /// Dry density, kg/L.
    pub dry_kg_per_l: f64,
    goal: Goal,
}

/// Resolves the doubt of a figure.
trait Resolves {
    fn of(&mut self, figure: &Figure) -> f64;
    /// A standard normal deviate, nought at the best.
    fn deviate(&mut self) -> f64;
}

struct AtBest;

impl Resolves for AtBest {
    fn of(&mut self, figure: &Figure) -> f64 {
        figure.range.best()
    }
    fn deviate(&mut self) -> f64 {
        0.0
    }
}

impl Resolves for Draws {
    fn of(&mut self, figure: &Figure) -> f64 {
        figure.range.at(Draws::deviate(self))
    }
    fn deviate(&mut self) -> f64 {
        Draws::deviate(self)
    }
}

/// Mean water of a drained heap of a depth, fraction of volume.
fn held_water(curve: &Retention, depth: Length) -> f64 {
    Vessel::straight(Volume::from_litres(10.0), depth).mean_over(
        depth,
        Length::from_millimetres(0.0),
        |suction_cm| curve.water_content(suction_cm),
    )
}

impl Inputs {
    /// All at their best.
    pub fn best(case: &Case) -> Result<Self, Problem> {
        Self::resolved(case, &mut AtBest)
    }

    /// All drawn from their ranges.
    pub fn drawn(case: &Case, draws: &mut Draws) -> Result<Self, Problem> {
        Self::resolved(case, draws)
    }

    fn resolved(case: &Case, by: &mut impl Resolves) -> Result<Self, Problem> {
        /// A pore space holds a little air even at its wettest, fraction of volume.
        const LEAST_AIR: f64 = 0.005;
        let water = match &case.holder {
            Holder::Known(material) => {
                // A denser lot has less pore space, so the two are resolved together.
                let denser = by.deviate();
                let pore_space = material.pore_space.range.at(-denser).clamp(0.05, 0.995);
                let water = material.water_at_10_cm.range.at(by.deviate());
                let wider = by.of(&filling::WIDER_GAPS).max(0.01);
                let water = water.clamp(0.0, pore_space - LEAST_AIR);
                let curve = material
                    .shape
                    .retention_through(pore_space, water, wider)
                    .map_err(|problem| Problem::at("material", problem.to_string()))?;
                [
                    held_water(&curve, case.depth),
                    pore_space,
                    material.dry_density_g_per_l.range.at(denser).max(1.0),
                ]
            }
            Holder::Own {
                held,
                dry_density_g_per_l,
            } => {
                let held = (held * by.of(&OWN_HELD)).clamp(0.01, 0.95);
                [
                    held,
                    own_pore_space(held),
                    dry_density_g_per_l * by.of(&OWN_HELD).max(0.1),
                ]
            }
        };
        Ok(Self::with_water(case, by, water))
    }

    fn with_water(
        case: &Case,
        by: &mut impl Resolves,
        [held, pore_space, dry_density_g_per_l]: [f64; 3],
    ) -> Self {
        /// No water that is held is less, L/L, nor is any factor.
        const LEAST: f64 = 0.005;
        let salty = case.salty;
        let held = held.max(LEAST);
        let retardation = by.of(&salty.retardation).max(1.0);
        let holds = Holds {
            water: held,
            on_grains: (retardation - 1.0) * held,
        };
        let way = if case.trickles {
            Way::Trickle {
                swept: by.of(&SWEPT).max(0.1),
            }
        } else {
            Way::Soak {
                mixing: by.of(&salty.mixing).clamp(0.05, 1.0),
            }
        };
        let per_kelvin = by.of(&PER_KELVIN);
        let meter = by.of(&METER).max(LEAST);
        let warmer = by.of(&THERMOMETER);
        let corrected = |read: f64| match case.celsius {
            Some(celsius) => at_25_celsius(read * meter, celsius + warmer, per_kelvin),
            None => read * meter,
        };
        let source = corrected(case.source_ms_per_cm);
        let water = (held * by.of(&case.wetness.share)).clamp(0.0, held);
        let extract = Extract {
            water: case.extract.water,
            water_ms_per_cm: if case.extract_of_source { source } else { 0.0 },
            // A thicker extract holds as much of what keeps coming: lime and its like saturate.
            background_ms_per_cm: if case.extract.water > 0.0 {
                by.of(&salty.background).max(0.0)
            } else {
                0.0
            },
        };
        let read_ms_per_cm = corrected(case.read_ms_per_cm);
        // Water that drains off is that of the drained material, however wet it came.
        let sampled = if case.extract.water > 0.0 {
            water
        } else {
            held
        };
        let salt = extract.salt(read_ms_per_cm, sampled + holds.on_grains) * by.of(&SAMPLE);
        Self {
            extract,
            read_ms_per_cm,
            per_kelvin,
            salt: salt.max(0.0),
            water,
            holds,
            pore_space: pore_space.max(held),
            way,
            added: case.water_litres / case.litres * by.of(&BUCKET).max(LEAST),
            source,
            dry_kg_per_l: dry_density_g_per_l / 1000.0,
            goal: case.goal,
        }
    }

    /// What an extract of the drained material reads with so much salt, mS/cm.
    pub fn reads(&self, salt: f64) -> f64 {
        self.extract.reads(salt, self.holds.all())
    }

    /// What to come down to, mS/cm in the extract that was measured.
    pub fn target(&self) -> f64 {
        match self.goal {
            Goal::Own(target) => target,
            Goal::Use(target) => {
                /// Targets of uses are told in a 1:5 extract with pure water.
                const PURE: Extract = Extract {
                    water: 5.0,
                    water_ms_per_cm: 0.0,
                    background_ms_per_cm: 0.0,
                };
                let in_it = Extract {
                    background_ms_per_cm: self.extract.background_ms_per_cm,
                    ..PURE
                };
                self.reads(in_it.salt(target.ms_per_cm, self.holds.all()))
            }
        }
    }

    /// The least that this water allows, mS/cm in the extract.
    pub fn least(&self) -> f64 {
        self.reads(self.source * self.holds.all())
    }

    /// The same with pure water.
    pub fn least_with_pure_water(&self) -> f64 {
        let extract = Extract {
            water_ms_per_cm: 0.0,
            ..self.extract
        };
        extract.reads(0.0, self.holds.all())
    }

    /// Whether a rinse only wets the material.
    pub fn only_wets(&self) -> bool {
        self.added <= self.wets_with()
    }

    /// Water that only wets it, L/L.
    pub fn wets_with(&self) -> f64 {
        self.holds.water - self.water
    }

    /// Water that covers the drained material, L/L.
    pub fn covers_with(&self) -> f64 {
        self.pore_space - self.holds.water
    }

    fn start(&self) -> Heap {
        Heap {
            salt: self.salt,
            water: self.water,
        }
    }

    /// The conductivity at the end of the water that runs off a rinse, mS/cm: of all of it where it
    /// stood together, of the last of it where it trickled.
    fn seen_in(&self, run_off: RunOff, after: &Heap) -> f64 {
        match self.way {
            Way::Soak { .. } => run_off.ms_per_cm,
            Way::Trickle { .. } => after.salt / self.holds.all(),
        }
    }

    /// Rinses from the start on: what the extract reads after each, and what ran off it.
    pub fn rinses(&self) -> impl Iterator<Item = Rinse> + '_ {
        let mut heap = self.start();
        (0..).map(move |_| {
            let (after, run_off) = heap.rinsed(self.holds, self.way, self.added, self.source);
            heap = after;
            Rinse {
                extract: self.reads(after.salt),
                run_off: self.seen_in(run_off, &after),
            }
        })
    }

    /// What the water running off reads at the rinse that brings the material to its target, mS/cm.
    pub fn run_off_when_done(&self) -> f64 {
        let all = self.holds.all();
        // Excess over the source goes down by the same factor in each rinse, so one rinse of a unit
        // of it with pure water tells.
        let unit = Heap {
            salt: all,
            water: self.holds.water,
        };
        let (after, run_off) = unit.rinsed(self.holds, self.way, self.added, 0.0);
        let seen = self.seen_in(run_off, &after);
        let left = after.salt / all;
        let held = self.salt_at_target() / all;
        (self.source + (held - self.source) * seen / left.max(f64::MIN_POSITIVE)).max(self.source)
    }

    fn salt_at_target(&self) -> f64 {
        self.extract.salt(self.target(), self.holds.all()).max(0.0)
    }

    /// All of the material wet and drained, kg per litre.
    pub fn wet_kg_per_l(&self) -> f64 {
        self.dry_kg_per_l + self.holds.water
    }
}

/// Pores of a material of one's own, L/L, of which only the held water is known: with room for the
/// air of an open material (common practice, no source). For the water that covers it, and no more.
fn own_pore_space(held: f64) -> f64 {
    const AIR: f64 = 0.3;
    const MOST: f64 = 0.95;
    (held + AIR).min(MOST)
}

/// After one rinse.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rinse {
    /// What the extract reads, mS/cm.
    pub extract: f64,
    /// What the water running off reads, mS/cm.
    pub run_off: f64,
}

/// Rinses until the extract reads the target or less; none where [`MOST`] do not bring it there.
pub fn rinses_to_target(inputs: &Inputs) -> Option<usize> {
    let target = inputs.target();
    if inputs.reads(inputs.salt) <= target {
        return Some(0);
    }
    inputs
        .rinses()
        .take(MOST)
        .position(|rinse| rinse.extract <= target)
        .map(|place| place + 1)
}

/// How rinsing is judged: by how often, and by how much of the target the water itself takes up.
pub fn verdict(inputs: &Inputs, rinses: Option<usize>) -> Verdict {
    match rinses {
        Some(0) => Verdict::Serves,
        Some(many) if many < rinsing::TOO_MANY_RINSES => {
            if many < rinsing::MANY_RINSES && inputs.least() <= SOURCE_TAKES * inputs.target() {
                Verdict::Serves
            } else {
                Verdict::Watch
            }
        }
        _ => Verdict::DoesNotServe,
    }
}
