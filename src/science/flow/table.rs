//! The curves of a medium as a table, so that the time loop takes no power.
//!
//! The table runs over a stretched head p: the head h in metres is s0 p where pores are full
//! (p ≥ 0), and the suction is s0 (e^-p - 1) where they are not. One step of p is then about one
//! part of the suction however dry the medium is, and finding a place in the table takes one
//! multiplication, because p itself is what the flow is solved for.

use std::fmt;

use crate::science::conductivity::Curves;

/// s0: suctions well below it are spaced evenly, those above it by their logarithm, m.
/// A fifth of a centimetre is about the air entry of the coarsest bed.
const STRETCH_M: f64 = 0.002;
/// Pieces of the table. With 1024 the conductivity of the steepest media is right to the error
/// told at [`Table::new`].
const PIECES: usize = 1024;
/// The suction at the dry end of the table, m. Drier than air-dry peat (about 10⁴ m).
const DRIEST_SUCTION_M: f64 = 2.0e4;
/// Conductivity is not told below this share of the saturated one: nothing moves there.
const LEAST_SHARE: f64 = 1e-30;
/// Water that full pores take in for each metre of head, fraction of volume per metre: the
/// compressibility of water, frame and trapped air. So small that a flooded pot gains a thousandth
/// of one per cent, it keeps a column that is full throughout solvable.
/// Common practice, no source.
const STORAGE_PER_M: f64 = 1e-4;

/// Why curves could not be tabulated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotCurves {
    /// Water content is not between nought and one, or rises with suction.
    Water,
    /// Conductivity is not above nought, or rises with suction.
    Conductivity,
}

impl fmt::Display for NotCurves {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Water => {
                "the water a medium holds must lie between nought and all of it, and fall as suction grows"
            }
            Self::Conductivity => {
                "the conductivity of a medium must be above nought and fall as suction grows"
            }
        })
    }
}

impl std::error::Error for NotCurves {}

/// The stretched head of a head in metres.
#[must_use]
pub(super) fn stretched(head_m: f64) -> f64 {
    if head_m >= 0.0 {
        head_m / STRETCH_M
    } else {
        driest().max(-(-head_m / STRETCH_M).ln_1p())
    }
}

/// The driest stretched head that there is.
pub(super) fn driest() -> f64 {
    -(DRIEST_SUCTION_M / STRETCH_M).ln_1p()
}

/// The place of a stretched head below nought: the piece, and how far along it.
#[derive(Clone, Copy)]
pub(super) struct Place {
    piece: usize,
    along: f64,
}

/// Polynomials of the third degree that join with their slopes.
type Cubic = [f64; 4];

fn cubic(ends: [f64; 2], slopes: [f64; 2]) -> Cubic {
    let rise = ends[1] - ends[0];
    [
        ends[0],
        slopes[0],
        3.0 * rise - 2.0 * slopes[0] - slopes[1],
        slopes[0] + slopes[1] - 2.0 * rise,
    ]
}

/// Value and slope along the piece.
#[inline(always)]
fn of(cubic: &Cubic, t: f64) -> (f64, f64) {
    let [c0, c1, c2, c3] = *cubic;
    (
        c0 + t * (c1 + t * (c2 + t * c3)),
        c1 + t * (2.0 * c2 + t * 3.0 * c3),
    )
}

/// The scale of stretched heads, with the head of each as a table.
#[derive(Clone, Debug)]
pub(super) struct Scale {
    pieces: Vec<Cubic>,
    driest: f64,
    pieces_per_unit: f64,
}

impl Scale {
    pub(super) fn new() -> Self {
        let driest = driest();
        let step = -driest / PIECES as f64;
        let end = |k: usize| driest + step * k as f64;
        let head = |p: f64| -STRETCH_M * (-p).exp_m1();
        let slope = |p: f64| STRETCH_M * (-p).exp() * step;
        Self {
            pieces: (0..PIECES)
                .map(|k| {
                    let ends = [end(k), end(k + 1)];
                    cubic(ends.map(head), ends.map(slope))
                })
                .collect(),
            driest,
            pieces_per_unit: 1.0 / step,
        }
    }

    pub(super) fn place(&self, p: f64) -> Place {
        let at = ((p - self.driest) * self.pieces_per_unit).max(0.0);
        let piece = (at as usize).min(PIECES - 1);
        Place {
            piece,
            along: at - piece as f64,
        }
    }

    /// Head in metres and its slope over p.
    #[inline(always)]
    pub(super) fn head_m(&self, p: f64, place: Place) -> (f64, f64) {
        if p >= 0.0 {
            return (STRETCH_M * p, STRETCH_M);
        }
        let (head, slope) = of(&self.pieces[place.piece], place.along);
        (head, slope * self.pieces_per_unit)
    }
}

/// What the flow needs of a medium at one head; slopes are over the stretched head.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct State {
    pub water: f64,
    pub water_slope: f64,
    pub ln_conductivity: f64,
    pub ln_conductivity_slope: f64,
    /// ∫ K dh from the driest head up, m²/s: Kirchhoff's potential.
    pub potential: f64,
    pub potential_slope: f64,
}

#[derive(Clone, Debug)]
struct Piece {
    water: Cubic,
    ln_conductivity: Cubic,
    potential: Cubic,
}

/// The curves of a medium, tabulated.
#[derive(Clone, Debug)]
pub struct Table {
    pieces: Vec<Piece>,
    pieces_per_unit: f64,
    saturated: f64,
    ln_saturated: f64,
    saturated_m_per_s: f64,
    potential_at_saturation: f64,
}

impl Table {
    /// From curves, over suctions from nought to 20 km of water.
    ///
    /// Interpolated by cubics whose slopes are kept from overshooting (Fritsch & Carlson 1980,
    /// SIAM Journal on Numerical Analysis 17:238), water in itself, conductivity in its logarithm.
    /// Error: below 2e-6 of the volume in water and 1e-4 of itself in conductivity beyond suctions of
    /// 0.1 mm, where the curves are smooth; at a corner, such as the air entry of Brooks and Corey,
    /// up to 3e-3 and 5 % within 6 % of its suction. Within 0.1 mm of saturation curves of n below 1.5
    /// fall faster than any table: 0.3 % at n = 1.6, 3 % at 1.4, half at 1.2. Give those an air entry.
    ///
    /// # Errors
    /// [`NotCurves`] where the curves are not what [`Curves`] promises.
    pub fn new(curves: &dyn Curves) -> Result<Self, NotCurves> {
        let driest = driest();
        let step = -driest / PIECES as f64;
        let suction = |k: usize| STRETCH_M * (-(driest + step * k as f64)).exp_m1();
        let full = curves.conductivity_m_per_s(0.0);
        if !(full > 0.0 && full.is_finite()) {
            return Err(NotCurves::Conductivity);
        }
        let mut water = Vec::with_capacity(PIECES + 1);
        let mut ln_conductivity = Vec::with_capacity(PIECES + 1);
        for k in 0..=PIECES {
            let suction_m = if k == PIECES { 0.0 } else { suction(k) };
            let theta = curves.water_content(suction_m);
            let conductivity = curves.conductivity_m_per_s(suction_m);
            // Written so that a number that is none is refused.
            if !(0.0..=1.0).contains(&theta) {
                return Err(NotCurves::Water);
            }
            if !(conductivity >= 0.0 && conductivity.is_finite()) {
                return Err(NotCurves::Conductivity);
            }
            water.push(theta);
            ln_conductivity.push(conductivity.max(full * LEAST_SHARE).ln());
        }
        /// Rounding may lift a flat curve by this much.
        const ROUNDING: f64 = 1e-12;
        let rises = |values: &[f64]| values.windows(2).all(|pair| pair[1] >= pair[0] - ROUNDING);
        if !rises(&water) {
            return Err(NotCurves::Water);
        }
        if !rises(&ln_conductivity) {
            return Err(NotCurves::Conductivity);
        }
        let water_slopes = slopes(&water);
        let ln_slopes = slopes(&ln_conductivity);
        let mut potential = 0.0;
        let pieces = (0..PIECES)
            .map(|k| {
                let pair = |values: &[f64]| [values[k], values[k + 1]];
                let ln_k = cubic(pair(&ln_conductivity), pair(&ln_slopes));
                // dΦ/dt = K dh/dp dp/dt along the piece.
                let rate = |t: f64| {
                    let p = driest + step * (k as f64 + t);
                    of(&ln_k, t).0.exp() * STRETCH_M * (-p).exp() * step
                };
                let from = potential;
                potential += GAUSS_3.iter().map(|(t, w)| w * rate(*t)).sum::<f64>();
                Piece {
                    water: cubic(pair(&water), pair(&water_slopes)),
                    ln_conductivity: ln_k,
                    potential: cubic([from, potential], [rate(0.0), rate(1.0)]),
                }
            })
            .collect();
        Ok(Self {
            pieces,
            pieces_per_unit: 1.0 / step,
            saturated: water[PIECES],
            ln_saturated: full.ln(),
            saturated_m_per_s: full,
            potential_at_saturation: potential,
        })
    }

    #[inline(always)]
    pub(super) fn state(&self, p: f64, place: Place) -> State {
        if p >= 0.0 {
            let head_m = STRETCH_M * p;
            return State {
                water: self.saturated + STORAGE_PER_M * head_m,
                water_slope: STORAGE_PER_M * STRETCH_M,
                ln_conductivity: self.ln_saturated,
                ln_conductivity_slope: 0.0,
                potential: self.potential_at_saturation + self.saturated_m_per_s * head_m,
                potential_slope: self.saturated_m_per_s * STRETCH_M,
            };
        }
        let piece = &self.pieces[place.piece];
        let (water, water_slope) = of(&piece.water, place.along);
        let (ln_conductivity, ln_slope) = of(&piece.ln_conductivity, place.along);
        let (potential, potential_slope) = of(&piece.potential, place.along);
        State {
            water,
            water_slope: water_slope * self.pieces_per_unit,
            ln_conductivity,
            ln_conductivity_slope: ln_slope * self.pieces_per_unit,
            potential,
            potential_slope: potential_slope * self.pieces_per_unit,
        }
    }

    fn at_suction(&self, suction_m: f64) -> State {
        let p = stretched(-suction_m);
        let at = ((p - driest()) * self.pieces_per_unit).max(0.0);
        let piece = (at as usize).min(PIECES - 1);
        let along = at - piece as f64;
        self.state(p, Place { piece, along })
    }

    /// θs: the pore space that water enters, fraction of volume.
    #[must_use]
    pub fn saturated(&self) -> f64 {
        self.saturated
    }

    /// Conductivity of the full medium, m/s.
    #[must_use]
    pub fn saturated_conductivity_m_per_s(&self) -> f64 {
        self.saturated_m_per_s
    }
}

/// The table is a medium itself: as exact as [`Table::new`] says, and quicker.
impl Curves for Table {
    fn water_content(&self, suction_m: f64) -> f64 {
        if suction_m <= 0.0 {
            self.saturated
        } else {
            self.at_suction(suction_m).water
        }
    }

    fn conductivity_m_per_s(&self, suction_m: f64) -> f64 {
        self.at_suction(suction_m).ln_conductivity.exp()
    }
}

/// Gauss-Legendre's rule of 3 points on nought to one.
/// Source: Abramowitz & Stegun 1964, table 25.4, n = 3.
const GAUSS_3: [(f64, f64); 3] = [
    (0.112_701_665_379_258_3, 5.0 / 18.0),
    (0.5, 8.0 / 18.0),
    (0.887_298_334_620_741_7, 5.0 / 18.0),
];

/// Slopes over one piece at each end of a rising row: differences of fourth order, no more than
/// three times the lesser of the rises beside them.
fn slopes(values: &[f64]) -> Vec<f64> {
    let last = values.len() - 1;
    let rise = |k: usize| (values[k + 1] - values[k]).max(0.0);
    (0..=last)
        .map(|k| {
            if k == 0 {
                return (1.5 * rise(0) - 0.5 * rise(1)).clamp(0.0, 3.0 * rise(0));
            }
            if k == last {
                let least = 3.0 * rise(k - 1);
                return (1.5 * rise(k - 1) - 0.5 * rise(k - 2)).clamp(0.0, least);
            }
            let least = 3.0 * rise(k - 1).min(rise(k));
            let centred = if k == 1 || k == last - 1 {
                (values[k + 1] - values[k - 1]) / 2.0
            } else {
                (8.0 * (values[k + 1] - values[k - 1]) - (values[k + 2] - values[k - 2])) / 12.0
            };
            centred.clamp(0.0, least)
        })
        .collect()
}
