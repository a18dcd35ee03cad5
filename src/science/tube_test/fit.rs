//! Which media climb as was read: drawn by chance, weighted by how likely they make the readings.

use super::rise::{Climb, Rise, SHARE_OFF};
use super::{Draw, Field, Found, Grains, Read, Refusal, Remark, Why};
use crate::measure::{Conductivity, Density, Range, Suction};
use crate::science::conductivity::{MUALEM_TORTUOSITY, Medium, Paths};
use crate::science::flow::wicking::{
    DENSITY_KG_PER_M3, GRAVITY_M_PER_S2, SURFACE_TENSION_N_PER_M, VISCOSITY_PA_S,
};
use crate::science::numerics::draws::{Draws, standard_normal_quantile};
use crate::science::numerics::quadrature::integral;
use crate::science::retention::{PoreSystem, Retention};

/// α of wetting over α of drying: 2, from 1.4 to 2.9. Kool & Parker 1987, Water Resources Research 23:105,
/// take 2 from soils of the literature; Likos, Lu & Godt 2014, Journal of Geotechnical and
/// Geoenvironmental Engineering 140(4), find 2.2 on the average of 25 soils with a standard
/// deviation of about 1.2 (both cited from memory). The limits are judgement between the two.
pub const WETTING_RATIO: Range<f64> = Range::literal(1.4, 2.0, 2.9);

/// J at α, of K = (ρ g/μ) φ (J γ α/(ρ g))²: 0.15, from 0.058 to 0.39.
///
/// The form is that of Leverett 1941, Transactions of the AIME 142:152, whose clean sands of even
/// grain have J of 0.3 to 0.5 (from memory). A published table of a sand and three
/// gravels has J of 0.11, 0.21, 0.37 and 0.06, a textbook class of sands 0.04 (`tests/flow_published.rs`):
/// grains of many sizes conduct less than their largest pores would. The range is judgement over all
/// of them, a factor of 6.8 either way in conductivity.
pub const ENTRY_NUMBER: Range<f64> = Range::literal(0.058, 0.15, 0.39);

/// What is known of grains in general, and of eyes and hands. Judgement, not published, but for
/// what names a source.
mod usual {
    use super::Range;

    /// n - 1. Of the published table and textbook class of [`super::ENTRY_NUMBER`] 1.4 to 1.9;
    /// sand sieved to one size 3 to 8.
    pub const SHAPE_LESS_ONE: Range<f64> = Range::literal(1.0, 2.5, 6.0);
    /// n outside of this does not come.
    pub const SHAPES: std::ops::RangeInclusive<f64> = 1.5..=15.0;
    /// 1/α of wetting of solid grains, cm: from a gravel of a thumb's breadth to silt. All factors are as
    /// likely.
    pub const ENTRIES_CM: (f64, f64) = (0.2, 200.0);
    /// The same of porous grains: those finer than about 0.2 mm have no pores of their own left.
    pub const ENTRIES_OF_POROUS_CM: (f64, f64) = (0.2, 20.0);
    /// Where an eye sees "nearly wet": so much of the pores full, all as likely.
    pub const NEARLY_WET: (f64, f64) = (0.70, 0.95);
    /// Where an eye sees damp: so much of the pores full, all factors as likely.
    pub const DAMP: (f64, f64) = (0.03, 0.2);
    /// Water that solid grains keep however hard one pulls, fraction of volume, all as likely.
    pub const RESIDUAL: (f64, f64) = (0.0, 0.08);
    /// Gaps between porous grains, fraction of volume: random packings of spheres leave 0.36 to 0.40
    /// (Scott 1960, Nature 188:908, from memory), rough and angular grains more.
    pub const GAPS: Range<f64> = Range::literal(0.37, 0.42, 0.48);
    /// How high a handful lies on the sieve while it drains, cm, all as likely.
    pub const HANDFUL_CM: (f64, f64) = (2.0, 5.0);
    /// Drops that hang on or are shaken off, fraction of volume, standard deviation.
    pub const DRIP: f64 = 0.02;
    /// 1/α of the pores within grains on drying, cm: they keep their water to tens or hundreds
    /// of cm.
    pub const WITHIN_ENTRY_CM: Range<f64> = Range::literal(30.0, 100.0, 300.0);
    /// n of the pores within grains.
    pub const WITHIN_SHAPE: f64 = 1.5;
    /// Share of what a block of the inner pores would carry that gets across the points of contact.
    pub const ACROSS_CONTACTS: Range<f64> = Range::literal(0.03, 0.1, 0.3);
    /// What a rise reckoned with one system of pores is off where grains soak on the way, as a share of the
    /// height, standard deviation.
    pub const POROUS_SHARE_OFF: f64 = 0.12;
    /// How often the damp line seen of porous grains is that of the water within them.
    pub const RUNS_AHEAD: f64 = 0.7;
    /// How far that may be above where the gaps are damp, cm, all as likely.
    pub const MOST_AHEAD_CM: f64 = 20.0;
    /// Share of the water in porous grains that is residual.
    pub const WITHIN_RESIDUAL: f64 = 0.2;
}

/// How many media are tried.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tries {
    /// Shapes.
    shapes: usize,
    /// Media of each shape.
    of_each: usize,
}

impl Tries {
    /// For limits that hold still.
    pub(super) const WHOLE: Self = Self {
        shapes: 64,
        of_each: 1200,
    };
    /// For a first look.
    pub(super) const FIRST: Self = Self {
        shapes: 32,
        of_each: 250,
    };
}

/// Weights worth fewer even draws than this are few.
const FEW: f64 = 60.0;
/// A medium this much less likely than the best one, as a logarithm, changes no limit: all of them together
/// weigh less than a ten-thousandth of it.
const NEGLIGIBLE: f64 = 20.0;
/// With a best medium further off than this many standard deviations in all, there is none.
const FARTHEST: f64 = 4.0;
/// A tenth of the pores are empty: the air entry told.
const AIR_ENTRY_SHARE: f64 = 0.9;

/// One medium tried.
#[derive(Clone, Copy)]
struct Tried {
    ln_weight: f64,
    /// α of the gaps on wetting, 1/cm.
    ln_alpha: f64,
    n: f64,
    /// Ks of the gaps, cm/s.
    ln_conductivity: f64,
    gaps: f64,
    residual: f64,
    /// Pores within grains, fraction of volume; nought if solid.
    within: f64,
    ln_within_entry_cm: f64,
    ln_across: f64,
    ln_ratio: f64,
    density: f64,
    held: f64,
}

/// The lognormal of a range, at a deviate.
fn ln_at(range: &Range<f64>, deviate: f64) -> f64 {
    range.map_increasing(f64::ln).at(deviate)
}

fn between((low, high): (f64, f64), part: f64) -> f64 {
    low + part * (high - low)
}

/// (ρ g/μ) φ (J γ α/(ρ g))² in cm/s, α in 1/cm.
fn ln_conductivity_cm_per_s(ln_entry_number: f64, pores: f64, ln_alpha_per_cm: f64) -> f64 {
    let weight = DENSITY_KG_PER_M3 * GRAVITY_M_PER_S2;
    let tension_cm2 = SURFACE_TENSION_N_PER_M / weight * 1e4;
    // (ρ g/μ) turns an area into a speed: 1/(m s) = 1e-2 cm/s per cm².
    (weight / VISCOSITY_PA_S * 1e-2 * pores).ln()
        + 2.0 * (ln_entry_number + tension_cm2.ln() + ln_alpha_per_cm)
}

/// -½ of the square of a misfit.
fn ln_normal(off: f64, deviation: f64) -> f64 {
    -0.5 * (off / deviation).powi(2)
}

/// The chance that a standard normal deviate is below x, near enough for a weight.
fn chance_below(x: f64) -> f64 {
    // Bowling et al. 2009, Journal of Industrial Engineering and Management 2:114 (from memory): to 1.4e-4.
    1.0 / (1.0 + (-(0.070_56 * x.powi(3) + 1.5976 * x)).exp())
}

/// ln of how likely it is to read the damp line so far above where the gaps are damp, if it may be that
/// of the grains, against its being just there.
fn ln_damp_of_porous(above_cm: f64, deviation_cm: f64) -> f64 {
    let of_gaps = ln_normal(above_cm, deviation_cm).exp();
    let ahead = chance_below(above_cm / deviation_cm)
        - chance_below((above_cm - usual::MOST_AHEAD_CM) / deviation_cm);
    let of_grains =
        (2.0 * std::f64::consts::PI).sqrt() * deviation_cm * ahead / usual::MOST_AHEAD_CM;
    let all = (1.0 - usual::RUNS_AHEAD) * of_gaps + usual::RUNS_AHEAD * of_grains;
    all.max(f64::MIN_POSITIVE).ln()
}

impl Tried {
    fn gap_pores(&self) -> Option<PoreSystem> {
        PoreSystem::new((self.ln_alpha - self.ln_ratio).exp(), self.n).ok()
    }

    /// The medium on drying.
    fn draw(&self) -> Option<Draw> {
        let gaps = self.gap_pores()?;
        let saturated =
            |ln_cm_per_s: f64| Conductivity::from_metres_per_second(ln_cm_per_s.exp() / 100.0);
        let pore_space = self.gaps + self.within;
        let (retention, paths) = if self.within > 0.0 {
            let ln_alpha = -self.ln_within_entry_cm;
            let inner = PoreSystem::new(ln_alpha.exp(), usual::WITHIN_SHAPE).ok()?;
            let share = self.gaps / (pore_space - self.residual);
            let block = ln_conductivity_cm_per_s(ENTRY_NUMBER.best().ln(), self.within, ln_alpha);
            (
                Retention::double(self.residual, pore_space, share, gaps, inner).ok()?,
                Paths::Two {
                    between: saturated(self.ln_conductivity),
                    within: saturated(block + self.ln_across),
                },
            )
        } else {
            (
                Retention::single(self.residual, pore_space, gaps).ok()?,
                Paths::One {
                    saturated: saturated(self.ln_conductivity),
                },
            )
        };
        Some(Draw {
            drying: Medium::new(retention, paths, MUALEM_TORTUOSITY).ok()?,
            ratio: self.ln_ratio.exp(),
        })
    }
}

/// Weighs one medium of a shape, drawn by chance; none where it cannot be.
fn tried(read: &Read, rise: &Rise, n: f64, draws: &mut Draws) -> Option<Tried> {
    let nearly_wet = between(usual::NEARLY_WET, draws.uniform());
    let (damp_low, damp_high) = usual::DAMP;
    let damp = between((damp_low.ln(), damp_high.ln()), draws.uniform()).exp();
    let entry = draws.deviate();
    let (off_density, off_drip, off_gaps) = (draws.deviate(), draws.deviate(), draws.deviate());
    // No medium wets at larger suctions than it dries.
    let ln_ratio = ln_at(&WETTING_RATIO, draws.deviate()).max(0.0);
    let handful_cm = between(usual::HANDFUL_CM, draws.uniform());
    let (soaks, residual) = (draws.uniform(), between(usual::RESIDUAL, draws.uniform()));
    let ln_within_entry_cm = ln_at(&usual::WITHIN_ENTRY_CM, draws.deviate());
    let ln_across = ln_at(&usual::ACROSS_CONTACTS, draws.deviate());
    let place = draws.uniform();

    // Water never stands higher than at rest, which bounds α from above.
    /// Further off than this is not tried.
    const FAR: f64 = 5.0;
    let share_off = match read.grains {
        Grains::Solid { .. } => SHARE_OFF,
        Grains::Porous => usual::POROUS_SHARE_OFF,
    };
    let off_cm = |height_cm: f64| read.reading_cm.hypot(share_off * height_cm);
    let ((least_entry_cm, most_entry_cm), seen_cm, share) = match read.grains {
        Grains::Solid { .. } => (usual::ENTRIES_CM, read.damp_cm, damp),
        Grains::Porous => (usual::ENTRIES_OF_POROUS_CM, read.nearly_wet_cm, nearly_wet),
    };
    let (finest, coarsest) = (-most_entry_cm.ln(), -least_entry_cm.ln());
    let least_cm = seen_cm - FAR * off_cm(seen_cm);
    let highest = rise.suction_at(share);
    let coarsest = if least_cm > 0.0 {
        coarsest.min((highest / least_cm).ln())
    } else {
        coarsest
    };
    if coarsest <= finest {
        return None;
    }
    let ln_alpha = between((finest, coarsest), place);
    let mut ln_weight = (coarsest - finest).ln();

    let density = read.density * (read.density_off * off_density).exp();
    let held = density * read.held_by_weight;
    let drying = PoreSystem::new((ln_alpha - ln_ratio).exp(), n).ok()?;
    let gaps_held =
        |to_cm: f64| integral(0.0, to_cm, |s: f64| drying.saturation_at_ln(s.ln())) / to_cm;
    let (gaps, within, residual, fillable) = match read.grains {
        Grains::Solid { density: grain } => {
            let grain = grain.at(off_gaps).in_grams_per_litre() / 1000.0;
            let pores = 1.0 - density / grain;
            if pores <= residual {
                return None;
            }
            (pores, 0.0, residual, pores - residual)
        }
        Grains::Porous => {
            let gaps = usual::GAPS.at(off_gaps);
            let within = (held + usual::DRIP * off_drip - gaps * gaps_held(handful_cm)).max(0.0);
            if within <= 0.0 || gaps + within >= 1.0 {
                return None;
            }
            let residual = usual::WITHIN_RESIDUAL * within;
            // Dry grains soak from the gaps, more or less of their pores within the time.
            (gaps, within, residual, gaps + soaks * within)
        }
    };
    let ln_conductivity = ln_conductivity_cm_per_s(ln_at(&ENTRY_NUMBER, entry), gaps, ln_alpha);
    let climb = Climb {
        alpha_per_cm: ln_alpha.exp(),
        conductivity_cm_per_s: ln_conductivity.exp(),
        fillable,
        depth_cm: read.depth_cm,
        time_s: read.time_s,
    };
    let [wet_cm, damp_cm] = rise.risen(&climb, [nearly_wet, damp]).heights_cm;
    let (wet_cm, damp_cm) = (wet_cm.max(0.0), damp_cm.max(0.0));
    ln_weight += ln_normal(read.nearly_wet_cm - wet_cm, off_cm(wet_cm));
    ln_weight += match read.grains {
        Grains::Solid { .. } => ln_normal(read.damp_cm - damp_cm, off_cm(damp_cm)),
        Grains::Porous => ln_damp_of_porous(read.damp_cm - damp_cm, off_cm(damp_cm)),
    };
    if ln_weight < -FAR * FAR {
        return None;
    }
    if within == 0.0 {
        let there = residual + (gaps - residual) * gaps_held(handful_cm);
        ln_weight += ln_normal(held - there, usual::DRIP.hypot(density * read.held_error));
    }
    Some(Tried {
        ln_weight,
        ln_alpha,
        n,
        ln_conductivity,
        gaps,
        residual,
        within,
        ln_within_entry_cm,
        ln_across,
        ln_ratio,
        density,
        held: held + usual::DRIP * off_drip,
    })
}

pub(super) fn found(read: &Read, tries: Tries, draws: usize, seed: u64) -> Result<Found, Refusal> {
    let none = Refusal {
        field: Field::NearlyWet,
        why: Why::NoMedium,
    };
    let mut chance = Draws::from_seed(seed);
    let mut all = Vec::new();
    for shape in 0..tries.shapes {
        let part = (shape as f64 + chance.uniform()) / tries.shapes as f64;
        let ln_less_one = ln_at(&usual::SHAPE_LESS_ONE, standard_normal_quantile(part));
        let n = 1.0 + ln_less_one.exp();
        if !usual::SHAPES.contains(&n) {
            continue;
        }
        let Ok(pores) = PoreSystem::new(1.0, n) else {
            continue;
        };
        let rise = Rise::new(&pores);
        all.extend((0..tries.of_each).filter_map(|_| tried(read, &rise, n, &mut chance)));
    }
    let most = all
        .iter()
        .map(|one| one.ln_weight)
        .fold(f64::NEG_INFINITY, f64::max);
    if most < -FARTHEST * FARTHEST / 2.0 {
        return Err(none);
    }
    all.retain(|one: &Tried| one.ln_weight > most - NEGLIGIBLE);
    let weights: Vec<f64> = all.iter().map(|one| (one.ln_weight - most).exp()).collect();
    let sum: f64 = weights.iter().sum();
    let squares: f64 = weights.iter().map(|weight| weight * weight).sum();
    let worth = sum * sum / squares;

    let kept = resampled(&all, &weights, sum, draws.max(1), chance.uniform());
    let media: Vec<Draw> = kept.iter().filter_map(Tried::draw).collect();
    let middle = middle(&all, &weights, sum);
    let best = middle.draw().ok_or(none)?;

    let range = |figure: &dyn Fn(&Tried) -> f64| limits(&all, &weights, sum, figure).ok_or(none);
    let entry = |one: &Tried, ln_ratio: f64| {
        let m = 1.0 - 1.0 / one.n;
        let times_alpha = (AIR_ENTRY_SHARE.powf(-1.0 / m) - 1.0).powf(1.0 / one.n);
        times_alpha / (one.ln_alpha - ln_ratio).exp()
    };
    let mut remarks = Vec::new();
    if came_to_its_end(read, &middle) {
        remarks.push(Remark::CameToItsEnd);
    }
    if read.grains == Grains::Porous {
        remarks.push(Remark::DampWithinGrains);
    }
    if worth < FEW {
        remarks.push(Remark::FewClimbSo);
    }
    Ok(Found {
        wetting_air_entry: range(&|one| entry(one, 0.0))?
            .map_increasing(Suction::from_centimetres_of_water),
        drying_air_entry: range(&|one| entry(one, one.ln_ratio))?
            .map_increasing(Suction::from_centimetres_of_water),
        shape: range(&|one| one.n)?,
        conductivity: range(&|one| one.ln_conductivity)?
            .map_increasing(|ln| Conductivity::from_metres_per_second(ln.exp() / 100.0)),
        pore_space: range(&|one| one.gaps + one.within)?,
        held: range(&|one| one.held)?,
        dry_density: range(&|one| one.density * 1000.0)?
            .map_increasing(Density::from_grams_per_litre),
        best,
        draws: media,
        remarks,
    })
}

/// Whether the middle medium would stand as high, as far as reading tells, with half its conductivity.
fn came_to_its_end(read: &Read, middle: &Tried) -> bool {
    let Ok(pores) = PoreSystem::new(1.0, middle.n) else {
        return false;
    };
    let rise = Rise::new(&pores);
    let climb = Climb {
        alpha_per_cm: middle.ln_alpha.exp(),
        conductivity_cm_per_s: middle.ln_conductivity.exp(),
        fillable: middle.gaps + middle.within - middle.residual,
        depth_cm: read.depth_cm,
        time_s: read.time_s,
    };
    let half = Climb {
        conductivity_cm_per_s: climb.conductivity_cm_per_s / 2.0,
        ..climb
    };
    let shares = [
        f64::midpoint(usual::NEARLY_WET.0, usual::NEARLY_WET.1),
        (usual::DAMP.0 * usual::DAMP.1).sqrt(),
    ];
    let (now, then) = (rise.risen(&climb, shares), rise.risen(&half, shares));
    now.heights_cm
        .iter()
        .zip(&then.heights_cm)
        .all(|(now, then)| (now - then).abs() < read.reading_cm.hypot(SHARE_OFF * now))
}

/// Draws all as likely, by even steps along the weights (systematic resampling: Kitagawa 1996, Journal of
/// Computational and Graphical Statistics 5:1, from memory).
fn resampled(all: &[Tried], weights: &[f64], sum: f64, count: usize, start: f64) -> Vec<Tried> {
    let step = sum / count as f64;
    let mut next = start * step;
    let mut passed = 0.0;
    let mut kept = Vec::with_capacity(count);
    for (one, weight) in all.iter().zip(weights) {
        passed += weight;
        while next < passed && kept.len() < count {
            kept.push(*one);
            next += step;
        }
    }
    kept
}

/// A figure of the media tried below which a share of the weights lies.
fn weighted_quantile(figures: &[(f64, f64)], sum: f64, share: f64) -> Option<f64> {
    let mut passed = 0.0;
    figures
        .iter()
        .find(|(_, weight)| {
            passed += weight;
            passed >= share * sum
        })
        .or(figures.last())
        .map(|(figure, _)| *figure)
}

fn sorted(all: &[Tried], weights: &[f64], figure: &dyn Fn(&Tried) -> f64) -> Vec<(f64, f64)> {
    let mut figures: Vec<(f64, f64)> = all
        .iter()
        .map(figure)
        .zip(weights.iter().copied())
        .collect();
    figures.sort_by(|(one, _), (other, _)| one.total_cmp(other));
    figures
}

fn limits(
    all: &[Tried],
    weights: &[f64],
    sum: f64,
    figure: &dyn Fn(&Tried) -> f64,
) -> Option<Range<f64>> {
    let figures = sorted(all, weights, figure);
    let at = |share| weighted_quantile(&figures, sum, share);
    Range::new(at(0.1)?, at(0.5)?, at(0.9)?).ok()
}

/// The medium of the middle of each figure.
fn middle(all: &[Tried], weights: &[f64], sum: f64) -> Tried {
    let at = |figure: &dyn Fn(&Tried) -> f64| {
        weighted_quantile(&sorted(all, weights, figure), sum, 0.5).unwrap_or(f64::NAN)
    };
    Tried {
        ln_weight: 0.0,
        ln_alpha: at(&|one| one.ln_alpha),
        n: at(&|one| one.n),
        ln_conductivity: at(&|one| one.ln_conductivity),
        gaps: at(&|one| one.gaps),
        residual: at(&|one| one.residual),
        within: at(&|one| one.within),
        ln_within_entry_cm: at(&|one| one.ln_within_entry_cm),
        ln_across: at(&|one| one.ln_across),
        ln_ratio: at(&|one| one.ln_ratio),
        density: at(&|one| one.density),
        held: at(&|one| one.held),
    }
}
