//! How water climbs into a dry medium above a water level, taken as one steady flow after another.
//!
//! While water rises, the profile is close to that of steady flow at the flux of the moment. With E
//! the flux at the water over the saturated conductivity, x a suction and X a height (each times α), and Kr(x)
//! the relative conductivity, it stands at
//!
//! X(x) = ∫₀^x Kr/(Kr + E F) dx,
//!
//! where F is the share of the flux that still goes on upwards where the suction is x: 1 in steady
//! flow ([`steady`](crate::science::flow::steady)). What does not go on fills pores on the way,
//!
//! F(x) = ∫ D dS over what is drier / ∫ D dS over all, with D = -∂X/∂E = ∫₀^x Kr/(Kr + E)² dx,
//!
//! S the share of the pores that is full: the flux-concentration relation, found from the profiles of F = 1. Source: Philip & Knight
//! 1974, Soil Science 117:1 (from memory). The profile holds W = ∫ S dX, and the flux
//! fills it, dW = E dT, with T = t Ks α/Δθ. With pores of one size it is Terzaghi's front
//! ([`RisingFront`](crate::science::flow::wicking::RisingFront)). A foot that stands D (times α) under the
//! water adds D (ln(1 + 1/E) - 1/(1 + E)) to T, and takes D E/(1 + E) off X.
//! How near this is to the whole of Richards' equation is told at [`SHARE_OFF`].

use crate::science::retention::PoreSystem;

/// Standard deviation of a height found so against one solved in full, as a share of it: no more than
/// this for n of 1.8 to 8, from the first minutes to rest (`tests/tube_test.rs`, where three in a hundred is
/// the furthest off).
pub const SHARE_OFF: f64 = 0.01;

/// Suctions times α from which the sums run, and through how many decades. Below the first, pores are full; beyond the
/// last they hold and carry nothing that counts.
const FIRST_SUCTION: f64 = 1e-3;
const DECADES: f64 = 6.0;
/// Steps of the sums, even in the logarithm: enough for four digits.
const STEPS: usize = 160;
/// E from the first moment to rest, as far as anybody waits.
const MOST_FLUX: f64 = 1e4;
const LEAST_FLUX: f64 = 1e-9;
const FLUXES: usize = 100;

/// The rise into media of one shape, whatever their pore size and conductivity.
#[derive(Clone, Debug)]
pub struct Rise {
    pores: PoreSystem,
    stages: Vec<Stage>,
}

/// One steady flow.
#[derive(Clone, Debug)]
struct Stage {
    /// ln E.
    ln_flux: f64,
    /// T without depth, and what each unit of depth adds.
    time: f64,
    time_of_depth: f64,
    /// X at each suction, without depth.
    heights: Vec<f64>,
}

/// Where the rise has come at a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Risen {
    /// The flux over the saturated conductivity.
    pub flux: f64,
    /// Height above the water at which the pores are full to each share asked for, cm.
    pub heights_cm: [f64; 2],
}

/// A medium that water rises into, and how long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Climb {
    /// α of the wetting curve, 1/cm.
    pub alpha_per_cm: f64,
    /// The conductivity behind the front, cm/s.
    pub conductivity_cm_per_s: f64,
    /// What fills behind the front, fraction of volume.
    pub fillable: f64,
    /// How deep the foot stands under the water, cm.
    pub depth_cm: f64,
    /// How long it has stood, s.
    pub time_s: f64,
}

/// What a front of height 1 takes until its flux is E: ln(1 + 1/E) - 1/(1 + E).
fn front(flux: f64) -> f64 {
    /// Above this the terms cancel to fewer digits than the series has.
    const MUCH: f64 = 1e3;
    let ratio = 1.0 / flux;
    if flux > MUCH {
        ratio * ratio * (0.5 - ratio * (2.0 / 3.0))
    } else {
        ratio.ln_1p() - ratio / (1.0 + ratio)
    }
}

/// The step of the logarithm of the suction.
fn ln_step() -> f64 {
    DECADES * std::f64::consts::LN_10 / STEPS as f64
}

impl Rise {
    /// For a shape of pores; only its n counts. From n = 1.5 up: media of rougher shape
    /// lose their conductivity within a hair of saturation, and no front forms.
    #[must_use]
    pub fn new(pores: &PoreSystem) -> Self {
        let ln_alpha = pores.alpha_per_cm().ln();
        // At each suction: it, S, Kr.
        let places: Vec<(f64, f64, f64)> = (0..=STEPS)
            .map(|k| {
                let ln_x = FIRST_SUCTION.ln() + ln_step() * k as f64;
                let saturation = pores.saturation_at_ln(ln_x - ln_alpha);
                // As Mualem's integral has it: f = 1 - (1 - S^(1/m))^m, in x = α h.
                let power = pores.power_at_ln(ln_x - ln_alpha);
                let f = -(-pores.m() * (1.0 / power).ln_1p()).exp_m1();
                (ln_x.exp(), saturation, saturation.sqrt() * f * f)
            })
            .collect();
        let fluxes = (MOST_FLUX / LEAST_FLUX).ln() / (FLUXES - 1) as f64;
        let mut stages: Vec<Stage> = Vec::with_capacity(FLUXES);
        let mut before: Option<(f64, f64)> = None;
        let mut time = 0.0;
        for k in 0..FLUXES {
            let ln_flux = MOST_FLUX.ln() - fluxes * k as f64;
            let flux = ln_flux.exp();
            let (heights, water) = profile(&places, flux);
            // Between two fluxes W goes as a power of E, so that ∫ dW/E = p/(1 + p) of W/E.
            let over = water / flux;
            time += match before {
                None => over / 2.0,
                Some((water_before, over_before)) => {
                    let p = (water / water_before).ln() / fluxes;
                    p / (1.0 + p) * (over - over_before)
                }
            };
            before = Some((water, over));
            stages.push(Stage {
                ln_flux,
                time,
                time_of_depth: front(flux),
                heights,
            });
        }
        Self {
            pores: *pores,
            stages,
        }
    }

    /// The suction times α at which pores of this shape are full to a share (above 0 and below 1).
    #[must_use]
    pub fn suction_at(&self, share_full: f64) -> f64 {
        (share_full.powf(-1.0 / self.pores.m()) - 1.0).powf(1.0 / self.pores.n())
    }

    /// The heights to which pores are full to two shares; below the water where
    /// the flow has not come up to it. Never above those at rest.
    #[must_use]
    pub fn risen(&self, climb: &Climb, shares_full: [f64; 2]) -> Risen {
        let Climb {
            alpha_per_cm,
            conductivity_cm_per_s,
            fillable,
            depth_cm,
            time_s,
        } = *climb;
        let depth = alpha_per_cm * depth_cm;
        let time = time_s * conductivity_cm_per_s * alpha_per_cm / fillable;
        let whole = |stage: &Stage| stage.time + depth * stage.time_of_depth;
        let after = self
            .stages
            .partition_point(|stage| whole(stage) < time)
            .clamp(1, FLUXES - 1);
        let (one, other) = (&self.stages[after - 1], &self.stages[after]);
        let (from, to) = (whole(one).ln(), whole(other).ln());
        let part = ((time.ln() - from) / (to - from)).clamp(0.0, 1.0);
        let between = |low: f64, high: f64, part: f64| low + part * (high - low);
        let flux = between(one.ln_flux, other.ln_flux, part).exp();
        let foot = -depth * flux / (1.0 + flux);
        let heights_cm = shares_full.map(|share| {
            let place = (self.suction_at(share) / FIRST_SUCTION).ln() / ln_step();
            let place = place.clamp(0.0, STEPS as f64);
            let below = (place as usize).min(STEPS - 1);
            let at = |stage: &Stage| {
                let heights = &stage.heights;
                between(heights[below], heights[below + 1], place - below as f64)
            };
            (foot + between(at(one), at(other), part)) / alpha_per_cm
        });
        Risen { flux, heights_cm }
    }
}

/// A sum of x f(x) over the logarithm of x, by trapezoids, the first from nought.
#[derive(Default)]
struct Sum {
    sum: f64,
    last: Option<f64>,
}

impl Sum {
    /// Goes on to the next place, whose x f(x) is told; the sum up to there.
    fn to(&mut self, now: f64) -> f64 {
        self.sum += match self.last {
            None => now,
            Some(last) => ln_step() * f64::midpoint(last, now),
        };
        self.last = Some(now);
        self.sum
    }
}

/// The heights of each suction at a flux, and the water that they hold; from each suction, the share
/// that is full and the relative conductivity.
fn profile(places: &[(f64, f64, f64)], flux: f64) -> (Vec<f64>, f64) {
    let mut sum = Sum::default();
    let moved: Vec<f64> = places
        .iter()
        .map(|&(x, _, conductivity)| {
            let beside = conductivity + flux;
            sum.to(x * conductivity / (beside * beside))
        })
        .collect();
    // What fills in what is drier than each place.
    let mut above = vec![0.0; places.len()];
    for k in (0..places.len() - 1).rev() {
        let emptied = places[k].1 - places[k + 1].1;
        above[k] = above[k + 1] + emptied * f64::midpoint(moved[k], moved[k + 1]);
    }
    let all = above[0] + (1.0 - places[0].1) * moved[0];
    let (mut height, mut water, mut held) = (Sum::default(), Sum::default(), 0.0);
    let heights = places
        .iter()
        .zip(&above)
        .map(|(&(x, saturation, conductivity), above)| {
            let goes_on = if all > 0.0 { above / all } else { 1.0 };
            let carried = x * conductivity / (conductivity + flux * goes_on);
            held = water.to(saturation * carried);
            height.to(carried)
        })
        .collect();
    (heights, held)
}
