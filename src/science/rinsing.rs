//! Rinsing a salty material: how its salt falls from rinse to rinse.
//!
//! Volumes are per litre of material (L/L), conductivities in one unit, at 25 °C. The water that the
//! material holds once drained carries the salt over into the next rinse. Grains that hold on to ions
//! count as so much more water.

/// Conductivity of the held water after one soak that was drained, the material holding `held`
/// L/L and `added` L/L of `source` water being added; `mixing` from 0 to 1 says how far held and
/// added water become one.
///
/// C' = C - e \[C - (C W + EC_w A)/(W + A)\]. Source: mass balance; e as the leaching efficiency of
/// soils (van der Molen 1973, as used in drainage handbooks).
#[must_use]
pub fn after_soak(before: f64, source: f64, held: f64, added: f64, mixing: f64) -> f64 {
    let mixed = (before * held + source * added) / (held + added);
    before - mixing * (before - mixed)
}

/// The same after so many soaks that mix in full.
///
/// C_n = EC_w + (C_0 - EC_w) \[W/(W + A)\]^n. Source: [`after_soak`] with e = 1, n times over.
#[must_use]
pub fn after_soaks(before: f64, source: f64, held: f64, added: f64, soaks: f64) -> f64 {
    source + (before - source) * (held / (held + added)).powf(soaks)
}

/// How many soaks that mix in full bring the held water down to `target`, as a number with a
/// fraction; none where the source water itself is not below the target, nought where nothing is to do.
#[must_use]
pub fn soaks_to(before: f64, target: f64, source: f64, held: f64, added: f64) -> Option<f64> {
    if before <= target {
        return Some(0.0);
    }
    (target > source)
        .then(|| ((before - source) / (target - source)).ln() / ((held + added) / held).ln())
}

/// Conductivity of the held water after `run_off` L/L have trickled through.
///
/// C = EC_w + (C_0 - EC_w) exp(-V/(f W)): a stirred tank of f times the held water. With f = 1 the
/// salt falls as in a tank; with f below 1 fresh water pushes the salty before it, with f above 1
/// some of it runs past. It never falls faster than if all that ran off were the held water.
/// Source: the exponential fall of Bunt 1974, Acta Horticulturae 37:1954 (abstract); f is the
/// inverse of the leaching efficiency of soils.
#[must_use]
pub fn after_trickle(before: f64, source: f64, held: f64, run_off: f64, swept: f64) -> f64 {
    let left = (-run_off / (swept * held)).exp();
    let at_best = (1.0 - run_off / held).max(0.0);
    source + (before - source) * left.max(at_best)
}

/// Water that must run off to bring the held water to `target` where it mixes as in a tank, L/L; none
/// where the source water itself is not below the target.
#[must_use]
pub fn trickle_to(before: f64, target: f64, source: f64, held: f64) -> Option<f64> {
    if before <= target {
        return Some(0.0);
    }
    (target > source).then(|| held * ((before - source) / (target - source)).ln())
}

/// How the water is given.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// Soaked, then drained; how far held and added water mix, 0 to 1.
    Soak {
        /// e of [`after_soak`].
        mixing: f64,
    },
    /// Trickled through.
    Trickle {
        /// f of [`after_trickle`].
        swept: f64,
    },
}

/// What a litre of material holds on to once drained.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holds {
    /// Water, L/L.
    pub water: f64,
    /// Ions on the grains, told as the water that would hold as many, L/L.
    pub on_grains: f64,
}

impl Holds {
    /// Water and grains together, L/L.
    #[must_use]
    pub fn all(&self) -> f64 {
        self.water + self.on_grains
    }
}

/// A litre of material between rinses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heap {
    /// Salt, mS/cm × L/L.
    pub salt: f64,
    /// Water in it, L/L; not more than it holds once drained.
    pub water: f64,
}

/// What ran off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunOff {
    /// How much, L/L.
    pub litres: f64,
    /// Its mean conductivity, mS/cm; that of the water in the material where none ran off.
    pub ms_per_cm: f64,
}

impl Heap {
    /// One rinse with `added` L/L of `source` water: the material afterwards, and what ran off.
    /// Salt is neither made nor lost: what was in it and in the water is in it or has run off.
    #[must_use]
    pub fn rinsed(&self, holds: Holds, way: Way, added: f64, source: f64) -> (Self, RunOff) {
        let run_off = self.water + added - holds.water;
        let brought = source * added;
        if run_off <= 0.0 {
            // It has only been wetted.
            let wetted = Self {
                salt: self.salt + brought,
                water: self.water + added,
            };
            let ms_per_cm = wetted.salt / (wetted.water + holds.on_grains);
            return (
                wetted,
                RunOff {
                    litres: 0.0,
                    ms_per_cm,
                },
            );
        }
        let all = holds.all();
        let held = match way {
            Way::Soak { mixing } => {
                // Where it was drier than drained, the water that it takes up is mixed from the start.
                let before = self.salt / all;
                let mixed = (self.salt + brought) / (all + run_off);
                before - mixing * (before - mixed)
            }
            Way::Trickle { swept } => {
                let taken_up = holds.water - self.water;
                let before = (self.salt + source * taken_up) / all;
                after_trickle(before, source, all, run_off, swept)
            }
        };
        let after = Self {
            salt: held * all,
            water: holds.water,
        };
        let left = (self.salt + brought - after.salt).max(0.0);
        (
            after,
            RunOff {
                litres: run_off,
                ms_per_cm: left / run_off,
            },
        )
    }
}
