//! Salt, acidity and nitrogen of a blend: what mixing, lime and water make of them.
//!
//! Salt and nitrogen are balances of mass. The pH is a bracket from a rule, for no published
//! model can tell it; whoever needs to know measures.

mod words;

use crate::handbook::chemistry::{
    ALKALINE_WATER_MG_PER_L, BUFFER_SHARE_PER_PH, CHARGE_MS_PER_M, COIR_WORTH_WASHING, Chemistry,
    GROUND_LIMESTONE, LIME_CEILING, MOST_COMPOST, MOST_COMPOST_FOR_SEED, MOST_CORAL, MOST_WOODY,
    PH_DEPARTURE, SHARES, USED_MIX, WANTED_PH, WATER_CEILING, WATER_HELD, WATER_OF_A_SEASON,
    chemistry, salt_limits,
};
use crate::handbook::materials::{Material, material};
use crate::handbook::sources::{CHEMISTRY_RECALLED, EVANS_1996, Source, USED_MIX_JUDGEMENT};
use crate::handbook::thresholds::Use;
use crate::measure::Range;
use crate::reckon::doubt::{DRAWS, SEED};
use crate::science::chemistry::{
    Buffer, CHARGES_PER_GRAM_OF_CARBONATE, base_to_reach, capacity_together, diluted,
    per_litre_of_mix, ph_together, ph_with_base,
};
use crate::science::numerics::draws::Draws;

/// What was done to a blend, and the water it gets.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Treatment {
    /// Share of the volume lost on mixing, from 0 to below 1.
    pub volume_lost: f64,
    /// Ground limestone mixed in, g per litre of mix.
    pub lime_g_per_l: f64,
    /// Alkalinity of the water, mg/L as calcium carbonate; nought where it is not known.
    pub alkalinity_mg_per_l: f64,
    /// Conductivity of the water, mS/m; nought where it is not known.
    pub water_ms_per_m: f64,
    /// Whether a usual charge of feed was mixed in.
    pub charged: bool,
}

/// The chemistry of a blend, each figure with its range or one way out of many.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found<T> {
    /// Conductivity of the 1:5 extract, mS/m.
    pub conductivity_ms_per_m: T,
    /// pH in water once the lime has worked, as a bracket.
    pub ph: T,
    /// Ground limestone that takes it from where it is to about pH 6, g per litre of mix.
    pub lime_needed_g_per_l: T,
    /// Nitrogen that may be locked up in the first months, mg per litre of mix: as much is to be
    /// added, over the weeks, beyond what the plants need.
    pub nitrogen_locked_mg_per_l: T,
    /// How far a season's water of this alkalinity may raise the pH where nothing sour is fed.
    pub ph_rise: T,
}

/// A blend of materials that all have their chemistry in the handbook.
#[derive(Clone, Debug)]
pub struct Substances {
    parts: Vec<(f64, &'static Material, &'static Chemistry)>,
}

impl Substances {
    /// From shares by volume before mixing, which need not add to one, and keys of the handbook; none
    /// where a key is in no table, a share is below nought, or there is nothing of anything.
    #[must_use]
    pub fn of(parts: &[(f64, &str)]) -> Option<Self> {
        let sum: f64 = parts.iter().map(|(share, _)| share).sum();
        let usable = sum > 0.0 && sum.is_finite() && parts.iter().all(|(share, _)| *share >= 0.0);
        let parts = parts
            .iter()
            .map(|&(share, key)| Some((share, material(key)?)))
            .collect::<Option<Vec<_>>>()?;
        usable.then(|| Self::of_materials(&parts))
    }

    /// From shares of materials, which need not add to one. The handbook has the chemistry of all its
    /// materials, which a test holds; one without it would be passed over.
    pub(super) fn of_materials(parts: &[(f64, &'static Material)]) -> Self {
        let sum: f64 = parts.iter().map(|(share, _)| share).sum();
        let parts = parts
            .iter()
            .filter(|(share, _)| *share > 0.0)
            .filter_map(|&(share, material)| {
                Some((share / sum, material, chemistry(material.key)?))
            })
            .collect();
        Self { parts }
    }

    /// All figures at their best.
    #[must_use]
    pub fn best(&self, treatment: &Treatment) -> Found<f64> {
        self.found(treatment, &mut Range::best)
    }

    /// All figures drawn from their ranges.
    #[must_use]
    pub fn draw(&self, treatment: &Treatment, draws: &mut Draws) -> Found<f64> {
        self.found(treatment, &mut |range| range.at(draws.deviate()))
    }

    /// All figures with their ranges, from draws of the usual number and seed.
    #[must_use]
    pub fn ranges(&self, treatment: &Treatment) -> Found<Range<f64>> {
        let best = self.best(treatment).as_array();
        let mut samples = best.map(|_| Vec::with_capacity(DRAWS as usize));
        let mut draws = Draws::hypercube(SEED, DRAWS as usize);
        for _ in 0..DRAWS {
            let drawn = self.draw(treatment, &mut draws).as_array();
            for (samples, value) in samples.iter_mut().zip(drawn) {
                samples.push(value);
            }
            draws.next_draw();
        }
        let mut place = 0;
        Found::of(samples.map(|mut samples| {
            let best = best[place];
            place += 1;
            Range::from_samples(best, &mut samples).unwrap_or_else(|| Range::exact(best))
        }))
    }

    /// What is to be minded with what was found, worst first.
    #[must_use]
    pub fn warnings(
        &self,
        treatment: &Treatment,
        found: &Found<Range<f64>>,
        purpose: Use,
    ) -> Vec<Warning> {
        let limits = salt_limits(purpose);
        let mut warnings = Vec::new();
        let mut warn = |kind, sentence, source| {
            warnings.push(Warning {
                kind,
                sentence,
                source,
            });
        };
        if self.share(&[USED_MIX]) > 0.0 {
            let sentence = words::used_mix(purpose);
            warn(Kind::UsedMix, sentence, &USED_MIX_JUDGEMENT);
        }
        let salt = found.conductivity_ms_per_m;
        if salt.best() > limits.serves_to_ms_per_m {
            let sentence = words::salty(salt, limits);
            warn(Kind::Salt, sentence, limits.source);
        }
        let compost = self.share(&["green_compost"]);
        let most = match purpose {
            Use::Seed | Use::Cuttings => MOST_COMPOST_FOR_SEED,
            Use::YoungPlants | Use::FedFromBelow | Use::GrowingOn => MOST_COMPOST,
        };
        if compost > most {
            warn(Kind::Compost, words::compost(compost, most), SHARES);
        }
        let coral = self.share(&["crushed_coral"]);
        if coral > MOST_CORAL {
            warn(Kind::Coral, words::coral(coral), SHARES);
        }
        let coir = self.share(&["coir_pith", "coir_chips"]);
        if coir >= COIR_WORTH_WASHING {
            warn(Kind::Coir, words::coir(limits), &EVANS_1996);
        }
        let woody = self.share(&["wood_fibre", "wood_chips", "rice_hulls"]);
        if woody > MOST_WOODY {
            let sentence = words::woody(woody, found.nitrogen_locked_mg_per_l);
            warn(Kind::Nitrogen, sentence, &CHEMISTRY_RECALLED);
        }
        let (sour, limy) = limits.ph;
        if found.ph.best() < sour {
            let sentence = words::sour(found.ph, found.lime_needed_g_per_l);
            warn(Kind::Sour, sentence, limits.source);
        } else if found.ph.best() > limy {
            warn(Kind::Limy, words::limy(found.ph, limy), limits.source);
        }
        if treatment.alkalinity_mg_per_l >= ALKALINE_WATER_MG_PER_L {
            let sentence = words::alkaline(treatment.alkalinity_mg_per_l, found.ph_rise);
            warn(Kind::Water, sentence, &CHEMISTRY_RECALLED);
        }
        warnings
    }

    /// Share of the blend that is of these materials.
    fn share(&self, keys: &[&str]) -> f64 {
        let of = |part: &&(f64, &Material, &Chemistry)| keys.contains(&part.1.key);
        self.parts.iter().filter(of).map(|part| part.0).sum()
    }

    fn found(&self, treatment: &Treatment, at: &mut dyn FnMut(&Range<f64>) -> f64) -> Found<f64> {
        /// A capacity or a density cannot fall to nought, however far out it is drawn.
        const LEAST: f64 = 1e-3;
        /// mmolc in a cmol of charge, and kilograms in a gram.
        const MMOLC_PER_G_FROM_CMOL_PER_KG: f64 = 0.01;
        /// Volumes of water to one of mix in the extract of EN 13038.
        const EXTRACT: f64 = 5.0;
        /// Milligrams in a gram.
        const MILLIGRAMS: f64 = 1000.0;
        let lost = treatment.volume_lost;
        let buffer_share = at(&BUFFER_SHARE_PER_PH.range).max(LEAST);
        let mut buffers = Vec::with_capacity(self.parts.len());
        let (mut salts, mut nitrogen, mut limes) = (Vec::new(), Vec::new(), Vec::new());
        for &(share, material, chemistry) in &self.parts {
            let density = at(&material.dry_density_g_per_l.range).max(LEAST);
            let exchange = at(&chemistry.exchange_cmol_per_kg.range).max(LEAST);
            buffers.push(Buffer {
                ph: at(&chemistry.ph.range),
                capacity: share * density * exchange * MMOLC_PER_G_FROM_CMOL_PER_KG * buffer_share
                    / (1.0 - lost),
            });
            salts.push((share, at(&chemistry.conductivity_ms_per_m.range).max(0.0)));
            nitrogen.push((
                share,
                at(&chemistry.nitrogen_locked_mg_per_l.range).max(0.0),
            ));
            limes.push((share, density * at(&chemistry.free_lime.range).max(0.0)));
        }
        let capacity = capacity_together(&buffers);
        let ceiling = at(&LIME_CEILING.range);
        let limestone = at(&GROUND_LIMESTONE.range).clamp(LEAST, 1.0);
        let free_lime = per_litre_of_mix(limes.into_iter(), lost);
        let base = CHARGES_PER_GRAM_OF_CARBONATE
            * (free_lime + treatment.lime_g_per_l.max(0.0) * limestone);
        let departure = at(&PH_DEPARTURE.range);
        let ph = ph_with_base(ph_together(&buffers), capacity, base, ceiling) + departure;
        let charge = if treatment.charged {
            at(&CHARGE_MS_PER_M.range).max(0.0)
        } else {
            0.0
        };
        let held = at(&WATER_HELD.range).max(0.0);
        let season = at(&WATER_OF_A_SEASON.range).max(0.0);
        let from_water = season * treatment.alkalinity_mg_per_l.max(0.0) / MILLIGRAMS
            * CHARGES_PER_GRAM_OF_CARBONATE;
        let watered = ph_with_base(ph, capacity, from_water, at(&WATER_CEILING.range));
        Found {
            conductivity_ms_per_m: per_litre_of_mix(salts.into_iter(), lost)
                + charge
                + diluted(treatment.water_ms_per_m.max(0.0), held, EXTRACT),
            ph,
            lime_needed_g_per_l: base_to_reach(WANTED_PH, ph, capacity)
                / (CHARGES_PER_GRAM_OF_CARBONATE * limestone),
            nitrogen_locked_mg_per_l: per_litre_of_mix(nitrogen.into_iter(), lost),
            ph_rise: watered - ph,
        }
    }
}

impl<T: Copy> Found<T> {
    /// The figures in the order of the fields.
    #[must_use]
    pub fn as_array(&self) -> [T; 5] {
        [
            self.conductivity_ms_per_m,
            self.ph,
            self.lime_needed_g_per_l,
            self.nitrogen_locked_mg_per_l,
            self.ph_rise,
        ]
    }

    /// From the figures in the order of the fields.
    #[must_use]
    pub fn of(figures: [T; 5]) -> Self {
        let [
            conductivity_ms_per_m,
            ph,
            lime_needed_g_per_l,
            nitrogen_locked_mg_per_l,
            ph_rise,
        ] = figures;
        Self {
            conductivity_ms_per_m,
            ph,
            lime_needed_g_per_l,
            nitrogen_locked_mg_per_l,
            ph_rise,
        }
    }
}

/// What a warning is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Last season's mix is in it.
    UsedMix,
    /// Too much salt for the use.
    Salt,
    /// Much compost.
    Compost,
    /// Much coral.
    Coral,
    /// Coir that may not have been washed.
    Coir,
    /// Fresh wood or hulls that lock up nitrogen.
    Nitrogen,
    /// pH too low for the use.
    Sour,
    /// pH too high for the use.
    Limy,
    /// Water that raises the pH over the season.
    Water,
}

/// A warning.
#[derive(Clone, Debug, PartialEq)]
pub struct Warning {
    /// What it is about.
    pub kind: Kind,
    /// What is to be minded, and what to do.
    pub sentence: String,
    /// Who says so.
    pub source: &'static Source,
}
