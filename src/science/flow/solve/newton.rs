//! One implicit stage: Newton's method on tridiagonal columns bordered by one tray.

use std::cmp::Ordering;

use super::super::element::{End, Flux, flux};
use super::super::station::{Foot, Top};
use super::super::table::driest;
use super::super::tray::{FILM_M, Filling};
use super::{Flow, Now, Rates};

/// What a stage may leave over, as a share of all pores.
const LEFT_OVER: f64 = 1e-11;
/// What it may leave over when rounding stops it.
const LEFT_OVER_BY_ROUNDING: f64 = 1e-10;
/// Iterations before a step is given up and shortened.
const MOST_ITERATIONS: usize = 25;
/// Iterations that may make things worse for a while.
const FREE_ITERATIONS: usize = 4;
/// A step of Newton's that made things worse is cut to this share of itself,
const SHORTENED: f64 = 0.3;
/// so many times at the most.
const MOST_SHORTENED: usize = 4;
/// How far one iteration may dry a node: by this power of e.
const DRYING_STRIDE: f64 = 2.5;
/// How far one iteration may wet a node that stays unsaturated.
const WETTING_STRIDE: f64 = 4.0;
/// A node that crosses saturation first stops this far beyond it (stretched head).
const BEYOND_SATURATION: f64 = 0.5;
/// Diagonals are larger by so little: a contact that holds no water between two bone-dry media
/// would otherwise be cleared to nought by rounding.
const FIRMER: f64 = 1.0 + 1e-12;
/// How far one iteration may move the level, m.
const LEVEL_STRIDE_M: f64 = 0.01;
/// Between a station's foot and the tray: m/s for each metre of head. A foot that takes a metre of
/// water a day feels a thousandth of a millimetre of it.
const FOOT_PER_S: f64 = 10.0;
/// A valve closes over this rise of the level, as a float does, m: half of it short of the level at
/// which it shuts, where it snaps to. Were it to close down to nothing there, whatever drinks at that
/// time would hold it open for good.
const THROTTLE_M: f64 = 1e-3;
/// Over the last of this depth evaporation from a bed about to be flooded fades, m.
const FADE_M: f64 = 1e-3;
/// A surface gives all that the air asks up to this share of the air-dry suction, and then ever less.
const FREE_SHARE: f64 = 0.5;

impl Flow {
    /// Fills in residuals (what each node has too much), the rates of change and the derivatives.
    /// Gives the sum of what is left over, m³.
    fn assemble(&mut self, tau_s: f64, now: &Now) -> f64 {
        self.read_states();
        let last = self.nodes.len();
        let mut total = Rates::default();
        let mut left_over = 0.0;
        // Net flow into the tray, and how the tray's residual depends on its level.
        let closed_m = self.filling.shuts_at_m() + 0.5 * THROTTLE_M;
        let room = (closed_m - self.level_m) / THROTTLE_M;
        let let_in = now.valve * room.clamp(0.0, 1.0);
        let mut tray_rate = let_in;
        let mut tray_slope = if room > 0.0 && room < 1.0 {
            now.valve / THROTTLE_M
        } else {
            0.0
        };
        total.let_in = let_in;
        for which in 0..self.columns.len() {
            let column = &self.columns[which];
            let top = column.end - 1;
            let mut own = Rates::default();
            let mut from_below = Flux {
                up: 0.0,
                over_below: 0.0,
                over_above: 0.0,
            };
            let joined = column.foot == Foot::Tray;
            if joined {
                let depth_m = self.level_m - column.floor_m;
                let foot_m = self.head_m[column.first];
                let conduct = FOOT_PER_S * column.foot_m2;
                let over_depth = if depth_m > 0.0 { conduct } else { 0.0 };
                let over_foot = if foot_m > 0.0 { conduct } else { 0.0 };
                from_below = Flux {
                    up: over_depth * depth_m - over_foot * foot_m,
                    over_below: over_depth,
                    over_above: -over_foot * self.head_slope[column.first],
                };
                tray_rate -= column.count * from_below.up;
                tray_slope += column.count * from_below.over_below;
                self.to_tray[which] = tau_s * column.count * from_below.over_above;
            }
            self.to_level[column.first] = -tau_s * from_below.over_below;
            for node in column.first..column.end {
                let mut to_above = Flux {
                    up: 0.0,
                    over_below: 0.0,
                    over_above: 0.0,
                };
                if node < top {
                    let element = self.elements[column.first_element + node - column.first];
                    to_above = if element.medium.is_some() {
                        let end = |state, node: usize| End {
                            state,
                            head_m: self.head_m[node],
                            head_slope: self.head_slope[node],
                        };
                        flux(
                            end(&self.states_above[node], node),
                            end(&self.states_below[node + 1], node + 1),
                            element.rise_m,
                        )
                    } else {
                        Flux {
                            up: self.head_m[node] - self.head_m[node + 1],
                            over_below: self.head_slope[node],
                            over_above: -self.head_slope[node + 1],
                        }
                    };
                    to_above.up *= element.conduct;
                    to_above.over_below *= element.conduct;
                    to_above.over_above *= element.conduct;
                }
                let cut = &self.nodes[node];
                let suction_m = -self.head_m[node];
                let (mut gain, mut gain_slope) = (0.0, 0.0);
                if cut.roots > 0.0
                    && let Some(stress) = &column.stress
                {
                    let asked = column.demand_m3_per_s * now.demand * cut.roots;
                    let (share, slope) = stress.share_and_slope(suction_m);
                    gain -= asked * share;
                    gain_slope += asked * slope * self.head_slope[node];
                    own.drunk += asked * share;
                }
                if cut.open_m2 > 0.0 && now.evaporation > 0.0 {
                    let asked = now.evaporation * cut.open_m2;
                    let (share, slope) = dried(suction_m, now.air_dry_m, node < top);
                    gain -= asked * share;
                    gain_slope += asked * slope * self.head_slope[node];
                    own.evaporated += asked * share;
                }
                if node == top && now.watering > 0.0 {
                    let watered = now.watering * column.top_m2;
                    gain += watered;
                    own.watered += watered;
                }
                let (water, water_slope) = self.water_of(node);
                let held = (node == column.first && matches!(column.foot, Foot::Head(_)))
                    || (node == top && matches!(column.top, Top::Head(_)));
                let rate = from_below.up - to_above.up + gain;
                if held {
                    let needed = (water - self.known[node]) / tau_s;
                    own.held += needed - rate;
                    self.rates[node] = needed;
                    self.residual[node] = 0.0;
                    self.diagonal[node] = 1.0;
                    self.lower[node] = 0.0;
                    self.upper[node] = 0.0;
                } else {
                    self.rates[node] = rate;
                    let residual = water - self.known[node] - tau_s * rate;
                    self.residual[node] = residual;
                    left_over += column.count * residual.abs();
                    let own = water_slope
                        - tau_s * (from_below.over_above - to_above.over_below + gain_slope);
                    self.diagonal[node] = own * FIRMER;
                    self.lower[node] = if node > column.first {
                        -tau_s * from_below.over_below
                    } else {
                        0.0
                    };
                    self.upper[node] = tau_s * to_above.over_above;
                }
                from_below = to_above;
            }
            self.drinks[which] = own.drunk;
            total.add(&own, column.count);
        }
        if self.has_tray {
            let (water, area_m2) = self.tray_water_m3(self.level_m);
            let open_m2 = area_m2 - self.chamber_m2;
            let wet = (self.level_m / FILM_M).clamp(0.0, 1.0);
            let evaporated = now.evaporation * open_m2 * wet;
            if wet > 0.0 && wet < 1.0 {
                tray_slope += now.evaporation * open_m2 / FILM_M;
            }
            tray_rate -= evaporated;
            total.from_water = evaporated;
            if let Filling::Held { .. } = self.filling {
                let needed = (water - self.known[last]) / tau_s;
                total.let_in = needed - tray_rate;
                self.rates[last] = needed;
                self.residual[last] = 0.0;
                self.tray_diagonal = f64::INFINITY;
            } else {
                self.rates[last] = tray_rate;
                self.residual[last] = water - self.known[last] - tau_s * tray_rate;
                left_over += self.residual[last].abs();
                self.tray_diagonal = area_m2 + tau_s * tray_slope;
            }
        }
        self.flows = total;
        left_over
    }

    /// One step of Newton's method from what [`assemble`](Self::assemble) left: each column is cleared
    /// from its top down to its foot, the tray is solved with what the feet then say, and the heads
    /// follow upwards (Thomas's algorithm, bordered). False if the numbers gave out.
    fn improve(&mut self) -> bool {
        let last = self.nodes.len();
        let (mut tray, mut tray_diagonal) = (-self.residual[last], self.tray_diagonal);
        for (which, column) in self.columns.iter().enumerate() {
            for node in (column.first + 1..column.end).rev() {
                let factor = self.upper[node - 1] / self.diagonal[node];
                self.diagonal[node - 1] -= factor * self.lower[node];
                self.residual[node - 1] -= factor * self.residual[node];
            }
            if column.foot == Foot::Tray {
                let foot = column.first;
                let factor = self.to_tray[which] / self.diagonal[foot];
                tray += factor * self.residual[foot];
                tray_diagonal -= factor * self.to_level[foot];
            }
        }
        let level_change = if self.has_tray {
            tray / tray_diagonal
        } else {
            0.0
        };
        self.level_m = bounded_level(self.level_m, level_change);
        let mut sound = level_change.is_finite();
        for column in &self.columns {
            let mut change = 0.0;
            for node in column.first..column.end {
                change = if node == column.first {
                    (-self.residual[node] - self.to_level[node] * level_change)
                        / self.diagonal[node]
                } else {
                    (-self.residual[node] - self.lower[node] * change) / self.diagonal[node]
                };
                sound &= change.is_finite();
                let next = bounded(self.heads[node], change);
                self.heads[node] = next.max(self.floors[node].min(self.heads[node]));
            }
        }
        sound
    }

    /// Solves one stage: water = known + τ rate. Gives the iterations it took, or nothing.
    pub(super) fn stage(&mut self, tau_s: f64, now: &Now) -> Option<usize> {
        let enough = LEFT_OVER * self.capacity_m3;
        let mut before = f64::INFINITY;
        for iteration in 0..MOST_ITERATIONS {
            let mut left_over = self.assemble(tau_s, now);
            // A step that made things worse is shortened, but for the first few, which may have to
            // cross a hill.
            let mut shortened = 0;
            while iteration > FREE_ITERATIONS
                && left_over.partial_cmp(&before) != Some(Ordering::Less)
                && shortened < MOST_SHORTENED
            {
                for (head, last) in self.heads.iter_mut().zip(&self.heads_last) {
                    *head = last + SHORTENED * (*head - last);
                }
                self.level_m = self.level_last_m + SHORTENED * (self.level_m - self.level_last_m);
                left_over = self.assemble(tau_s, now);
                shortened += 1;
            }
            if !left_over.is_finite() {
                return None;
            }
            let stuck = iteration > 3
                && left_over >= 0.5 * before
                && left_over <= LEFT_OVER_BY_ROUNDING * self.capacity_m3;
            if left_over <= enough || stuck {
                self.iterations += iteration;
                return Some(iteration);
            }
            before = left_over;
            self.heads_last.copy_from_slice(&self.heads);
            self.level_last_m = self.level_m;
            if !self.improve() {
                return None;
            }
        }
        None
    }
}

/// The level after one iteration: it stops where the tray runs dry, and goes no further than a float
/// would in one fill.
fn bounded_level(level_m: f64, change_m: f64) -> f64 {
    let next_m = level_m + change_m.clamp(-LEVEL_STRIDE_M, LEVEL_STRIDE_M);
    if level_m > 0.0 && next_m < 0.0 {
        0.0
    } else {
        next_m
    }
}

/// The head after one iteration: it may not leap so far that the curves tell nothing of where it lands.
fn bounded(p: f64, change: f64) -> f64 {
    let next = p + change;
    let next = if p < 0.0 {
        if next > 0.0 {
            next.min(BEYOND_SATURATION).min(p + WETTING_STRIDE)
        } else {
            next.clamp(p - DRYING_STRIDE, p + WETTING_STRIDE)
        }
    } else if next < 0.0 {
        next.max(-BEYOND_SATURATION)
    } else {
        next
    };
    next.max(driest())
}

/// The share of the air's demand that a surface gives at a suction, and its slope over suction.
/// Full wetness up to half the air-dry suction, nought at it: what the medium cannot bring up dries
/// the surface until the two agree. A ledge about to be flooded hands over to the open water.
fn dried(suction_m: f64, air_dry_m: f64, ledge: bool) -> (f64, f64) {
    let free_m = FREE_SHARE * air_dry_m;
    if suction_m > free_m {
        // At the limit itself the slope is that of the side it is reached from.
        if suction_m > air_dry_m * (1.0 + 1e-9) {
            (0.0, 0.0)
        } else {
            let span = air_dry_m - free_m;
            (((air_dry_m - suction_m) / span).max(0.0), -1.0 / span)
        }
    } else if ledge && suction_m < 0.0 {
        if suction_m <= -FADE_M {
            (0.0, 0.0)
        } else {
            (1.0 + suction_m / FADE_M, 1.0 / FADE_M)
        }
    } else {
        (1.0, 0.0)
    }
}
