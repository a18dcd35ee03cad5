//! The curves of bed and mix, and what a bed carries over a height.

use super::inputs::{Grains, Inputs};
use crate::handbook::bed_media::{ALPHA_WITHIN_PER_CM, HELD_IN_GAPS, MIX_AIR_ENTRY_CM, N_WITHIN};
use crate::measure::Conductivity;
use crate::reckon::mix::Mixed;
use crate::science::conductivity::{Curves, MUALEM_TORTUOSITY, Medium, Paths};
use crate::science::retention::{PoreSystem, Retention};

const CM_PER_M: f64 = 100.0;

/// The bed.
#[derive(Clone)]
pub enum BedCurves {
    /// Gaps between grains, and pores within them, side by side.
    Scaled {
        /// The gaps.
        between: Medium,
        /// The pores within.
        within: Medium,
        /// Height to which it is damp, m.
        damp_m: f64,
    },
    /// As a tube test found it: the curve of drying, for a bed that was flooded and drains.
    Measured(Medium),
}

impl BedCurves {
    /// From inputs; none where figures far out make no curve.
    pub fn new(inputs: &Inputs) -> Option<Self> {
        let one = |residual, saturated, pores, cm_per_d| {
            let retention = Retention::single(residual, saturated, pores).ok()?;
            let paths = Paths::One {
                saturated: Conductivity::from_centimetres_per_day(cm_per_d),
            };
            Medium::new(retention, paths, MUALEM_TORTUOSITY).ok()
        };
        let grains = match &inputs.grains {
            Grains::Measured(medium) => return Some(Self::Measured(*medium)),
            Grains::Scaled(grains) => grains,
        };
        let grain = grains.grain_mm;
        let gaps = PoreSystem::new(grains.alpha_of_1_mm * grain, grains.n).ok()?;
        let inner = PoreSystem::new(ALPHA_WITHIN_PER_CM, N_WITHIN).ok()?;
        Some(Self::Scaled {
            between: one(
                HELD_IN_GAPS,
                grains.gaps,
                gaps,
                grains.cm_per_d_of_1_mm * grain * grain,
            )?,
            within: one(0.0, grains.inner, inner, grains.within_cm_per_d)?,
            damp_m: grains.damp_of_1_mm_cm / grain / CM_PER_M,
        })
    }

    /// What it holds once it has drained, fraction of volume: what its grains keep and little between.
    pub fn held(&self) -> f64 {
        /// A bed is lifted or weighed after it has drained to about this suction, m.
        const DRAINED_M: f64 = 0.3;
        match self {
            Self::Scaled { within, .. } => within.water_content(0.0) + HELD_IN_GAPS,
            Self::Measured(medium) => medium.water_content(DRAINED_M),
        }
    }
}

impl Curves for BedCurves {
    fn water_content(&self, suction_m: f64) -> f64 {
        match self {
            Self::Scaled {
                between, within, ..
            } => between.water_content(suction_m) + within.water_content(suction_m),
            Self::Measured(medium) => medium.water_content(suction_m),
        }
    }

    fn conductivity_m_per_s(&self, suction_m: f64) -> f64 {
        /// Beyond the damp line gaps carry nothing that counts: a power as steep as this.
        const GIVES_OUT: i32 = 20;
        /// Films on stone thin to half their conductivity at this suction, m. A judgement.
        const FILMS_HALVE_AT_M: f64 = 1.0;
        let (between, within, damp_m) = match self {
            Self::Scaled {
                between,
                within,
                damp_m,
            } => (between, within, damp_m),
            Self::Measured(medium) => return medium.conductivity_m_per_s(suction_m),
        };
        let over = (damp_m / suction_m).min(1.0).powi(GIVES_OUT);
        let between = between.conductivity_m_per_s(suction_m) * over;
        // Contact points and films hold on as the inner pores do, by their water and not by Mualem's
        // widest pores, which no contact has.
        let full_of = within.water_content(0.0);
        let filled = within.water_content(suction_m) / full_of.max(1e-9);
        let full = within.saturated_conductivity().in_metres_per_second();
        let share = if full_of > 0.0 {
            filled
        } else {
            1.0 / (1.0 + suction_m / FILMS_HALVE_AT_M)
        };
        between + full * share
    }
}

/// Curves at suctions that rise by a ratio: the mix, or anything that is asked for often.
#[derive(Clone)]
pub struct Tabled {
    water: Vec<f64>,
    ln_cm_per_d: Vec<f64>,
}

impl Tabled {
    const FIRST_CM: f64 = 0.1;
    const RATIO: f64 = 1.1;
    const MANY: usize = 130;

    /// The suction of a place, cm.
    pub fn suction_cm(place: usize) -> f64 {
        Self::FIRST_CM * Self::RATIO.powi(place as i32)
    }

    /// A mix by its water, conducting after Mualem 1976: K = Ks S^ℓ (∫ dθ/s beyond s over all of it)².
    /// Its curve lies at suctions smaller by a ratio than that of drying.
    pub fn of_mix(mixed: &Mixed, full_cm_per_d: f64, ratio: f64) -> Self {
        let mut water: Vec<f64> = (0..Self::MANY)
            .map(|place| {
                mixed
                    .water_at_suction(Self::suction_cm(place) * ratio)
                    .clamp(0.0, 1.0)
            })
            .collect();
        // Where a departure of the curve fades out it could rise with suction, which no water does.
        for place in 1..Self::MANY {
            water[place] = water[place].min(water[place - 1]);
        }
        let mut joined = vec![0.0; Self::MANY];
        for place in (0..Self::MANY - 1).rev() {
            let s = Self::suction_cm(place) * Self::RATIO.sqrt();
            joined[place] = joined[place + 1] + (water[place] - water[place + 1]) / s;
        }
        let least = water.last().copied().unwrap_or(0.0);
        let entry = (0..Self::MANY)
            .find(|place| Self::suction_cm(*place) * ratio >= MIX_AIR_ENTRY_CM)
            .unwrap_or(0);
        let mut ln_cm_per_d = Vec::with_capacity(Self::MANY);
        let mut last = full_cm_per_d.ln();
        for place in 0..Self::MANY {
            /// Nothing conducts less than this share of the full: it only keeps a logarithm.
            const LEAST: f64 = 1e-12;
            let full = (water[entry] - least).max(LEAST);
            let filled = ((water[place] - least) / full).clamp(LEAST, 1.0);
            let join = (joined[place] / joined[entry].max(LEAST)).clamp(LEAST, 1.0);
            let share = filled.powf(MUALEM_TORTUOSITY) * join * join;
            let ln = full_cm_per_d.ln() + share.max(LEAST).ln();
            last = ln.min(last);
            ln_cm_per_d.push(last);
        }
        Self { water, ln_cm_per_d }
    }

    /// Any curves.
    pub fn of(curves: &dyn Curves) -> Self {
        let at = |place: usize| Self::suction_cm(place) / CM_PER_M;
        let cm_per_d = |suction_m: f64| {
            let conducts = curves.conductivity_m_per_s(suction_m);
            Conductivity::from_metres_per_second(conducts).in_centimetres_per_day()
        };
        Self {
            water: (0..Self::MANY)
                .map(|p| curves.water_content(at(p)))
                .collect(),
            ln_cm_per_d: (0..Self::MANY).map(|p| cm_per_d(at(p)).ln()).collect(),
        }
    }

    fn between(values: &[f64], suction_cm: f64) -> f64 {
        let at = ((suction_cm.max(Self::FIRST_CM) / Self::FIRST_CM).ln() / Self::RATIO.ln())
            .clamp(0.0, (Self::MANY - 1) as f64);
        let place = (at as usize).min(Self::MANY - 2);
        let along = at - place as f64;
        match values.get(place..place + 2) {
            Some([low, high]) => low + along * (high - low),
            _ => 0.0,
        }
    }

    /// Water, fraction, at a suction in cm.
    pub fn water(&self, suction_cm: f64) -> f64 {
        Self::between(&self.water, suction_cm)
    }

    /// Water with all pores full, fraction.
    pub fn full(&self) -> f64 {
        self.water.first().copied().unwrap_or(0.0)
    }

    /// Conductivities at the suctions of the table, cm/d.
    pub fn conductivities(&self) -> Vec<f64> {
        self.ln_cm_per_d.iter().map(|ln| ln.exp()).collect()
    }

    /// Conductivity, cm/d, at a suction in cm.
    pub fn cm_per_d(&self, suction_cm: f64) -> f64 {
        Self::between(&self.ln_cm_per_d, suction_cm).exp()
    }
}

impl Curves for Tabled {
    fn water_content(&self, suction_m: f64) -> f64 {
        self.water(suction_m * CM_PER_M)
    }

    fn conductivity_m_per_s(&self, suction_m: f64) -> f64 {
        let cm_per_d = self.cm_per_d(suction_m * CM_PER_M);
        Conductivity::from_centimetres_per_day(cm_per_d).in_metres_per_second()
    }
}

/// What a bed carries over a height: heights that a flux climbs to each suction of the table.
pub struct Climb {
    heights_cm: Vec<f64>,
}

impl Climb {
    /// dz = ds/(1 + q/K(s)): Gardner 1958. The bed is given by its conductivities at the suctions of
    /// the table, cm/d.
    pub fn new(conductivities: &[f64], flux_cm_per_d: f64) -> Self {
        let rate = |place: usize| {
            let k = conductivities.get(place).copied().unwrap_or(0.0);
            k / (k + flux_cm_per_d)
        };
        let mut heights_cm = Vec::with_capacity(Tabled::MANY);
        let mut height = Tabled::FIRST_CM * rate(0);
        heights_cm.push(height);
        for place in 1..Tabled::MANY {
            let wide = Tabled::suction_cm(place) - Tabled::suction_cm(place - 1);
            height += 0.5 * wide * (rate(place - 1) + rate(place));
            heights_cm.push(height);
        }
        Self { heights_cm }
    }

    /// The suction at a height above the water, cm; none beyond where the link breaks.
    pub fn suction_at(&self, height_cm: f64) -> Option<f64> {
        let first = self.heights_cm.first().copied()?;
        if height_cm <= first {
            return Some(height_cm);
        }
        let place = self.heights_cm.partition_point(|h| *h < height_cm);
        let (low, high) = (self.heights_cm.get(place - 1)?, self.heights_cm.get(place)?);
        let along = (height_cm - low) / (high - low).max(1e-12);
        let from = Tabled::suction_cm(place - 1);
        Some(from + along * (Tabled::suction_cm(place) - from))
    }

    /// The height that it climbs while the suction grows to a limit, cm.
    pub fn height_to(&self, suction_cm: f64) -> f64 {
        Tabled::between(&self.heights_cm, suction_cm)
    }
}
