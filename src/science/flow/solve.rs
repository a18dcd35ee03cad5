//! Columns that share one tray, and their steps through time.

use std::sync::Arc;

use super::NoFlow;
use super::balance::Balance;
use super::element::{End, Flux, flux};
use super::station::{Cut, Element, Foot, Node, Station, Top, cut};
use super::table::{Scale, State, Table, driest, stretched};
use super::tray::{FILM_M, Filling, Valve};
use super::uptake::Stress;

/// γ of the two-stage method that is stable for every step and exact at its end: 1 - 1/√2.
const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
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
/// Iterations above which the next step is no longer than this one.
const MANY_ITERATIONS: usize = 12;
/// How far one iteration may dry a node: by this power of e.
const DRYING_STRIDE: f64 = 2.5;
/// How far one iteration may wet a node that stays unsaturated.
const WETTING_STRIDE: f64 = 4.0;
/// A node that crosses saturation first stops this far beyond it (stretched head).
const BEYOND_SATURATION: f64 = 0.5;
/// No medium is taken to change by less than this share of its volume for a unit of stretched head,
/// when the next iterate is sought. Water itself is not touched by it.
const LEAST_SLOPE: f64 = 1e-10;
/// Diagonals are larger by so little: a contact that holds no water between two bone-dry media
/// would otherwise be cleared to nought by rounding.
const FIRMER: f64 = 1.0 + 1e-12;
/// How far one iteration may move the level, m.
const LEVEL_STRIDE_M: f64 = 0.01;
/// Steps shorter than this are not tried, s.
const SHORTEST_S: f64 = 1e-7;
/// Between a station's foot and the tray: m/s for each metre of head. A foot that takes a metre of
/// water a day feels a thousandth of a millimetre of it.
const FOOT_PER_S: f64 = 10.0;
/// A valve closes over the last of this rise of the level, as a float does, m.
const THROTTLE_M: f64 = 1e-3;
/// The section of the float's own chamber as a share of the tray's ground: it keeps a level defined
/// where a bed leaves no open water.
const CHAMBER_SHARE: f64 = 1e-6;
/// Over the last of this depth evaporation from a bed about to be flooded fades, m.
const FADE_M: f64 = 1e-3;
/// A surface gives all that the air asks up to this share of the air-dry suction, and then ever less.
const FREE_SHARE: f64 = 0.5;

/// What the air and the grower do, as functions of the seconds since the start.
pub struct Weather<'a> {
    /// Demand of the plants as a multiple of each station's mean.
    pub demand: &'a dyn Fn(f64) -> f64,
    /// Evaporation from wet surfaces, m/s.
    pub evaporation_m_per_s: &'a dyn Fn(f64) -> f64,
    /// Water on the tops of the stations, m/s.
    pub watering_m_per_s: &'a dyn Fn(f64) -> f64,
    /// The suction at which a surface is as dry as the air, m; 100 m (about 10⁴ cm) is usual.
    pub air_dry_suction_m: f64,
}

impl Weather<'static> {
    /// Nothing asked, nothing given.
    #[must_use]
    pub fn still() -> Self {
        Self {
            demand: &|_| 0.0,
            evaporation_m_per_s: &|_| 0.0,
            watering_m_per_s: &|_| 0.0,
            air_dry_suction_m: 100.0,
        }
    }
}

/// How time is stepped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steps {
    /// The first step, s.
    pub first_s: f64,
    /// The longest step, s.
    pub longest_s: f64,
    /// The water that a step's first-order error may misplace, as a share of all pores. The error of
    /// the step itself is of second order and much smaller. Infinite, it gives steps of even length.
    pub tolerance: f64,
    /// Steps after which the run is given up.
    pub most: usize,
}

impl Default for Steps {
    /// A simulated day of a bed and a pot to about one part in a hundred.
    fn default() -> Self {
        Self {
            first_s: 1.0,
            longest_s: 1800.0,
            tolerance: 1e-3,
            most: 1_000_000,
        }
    }
}

#[derive(Clone, Copy, Default)]
struct Now {
    demand: f64,
    evaporation: f64,
    watering: f64,
    air_dry_m: f64,
    valve: f64,
}

/// Rates of one station or of all, m³/s.
#[derive(Clone, Copy, Default)]
struct Rates {
    drunk: f64,
    evaporated: f64,
    from_water: f64,
    watered: f64,
    held: f64,
    let_in: f64,
}

impl Rates {
    fn add(&mut self, other: &Self, times: f64) {
        self.drunk += times * other.drunk;
        self.evaporated += times * other.evaporated;
        self.from_water += times * other.from_water;
        self.watered += times * other.watered;
        self.held += times * other.held;
        self.let_in += times * other.let_in;
    }
}

/// What is fixed of a station.
struct Column {
    first: usize,
    end: usize,
    /// Elements of this station begin here; there is one fewer than nodes.
    first_element: usize,
    foot: Foot,
    top: Top,
    floor_m: f64,
    count: f64,
    ground_m2: f64,
    top_m2: f64,
    beside: Vec<(f64, f64, f64)>,
    stress: Option<Stress>,
    demand_m3_per_s: f64,
    foot_m2: f64,
}

/// Water flowing in a tray of stations. Set up once, it is run as often as wanted; running takes no memory.
pub struct Flow {
    media: Vec<Arc<Table>>,
    scale: Scale,
    nodes: Vec<Node>,
    elements: Vec<Element>,
    columns: Vec<Column>,
    filling: Filling,
    valve: Valve,
    has_tray: bool,
    capacity_m3: f64,
    chamber_m2: f64,

    time_s: f64,
    step_s: f64,
    steps: usize,
    iterations: usize,
    balance: Balance,

    /// Stretched heads, and those before the step.
    heads: Vec<f64>,
    /// Heads at which the last thing that dries a node gives out: iteration goes no drier.
    floors: Vec<f64>,
    heads_last: Vec<f64>,
    heads_before: Vec<f64>,
    level_m: f64,
    level_before_m: f64,
    level_last_m: f64,
    /// Water that the flows say there is, m³; the last is the tray's.
    water: Vec<f64>,
    known: Vec<f64>,
    rates_first: Vec<f64>,
    rates: Vec<f64>,
    rates_accepted: Vec<f64>,
    flows: Rates,
    flows_first: Rates,

    states_below: Vec<State>,
    states_above: Vec<State>,
    head_m: Vec<f64>,
    head_slope: Vec<f64>,
    lower: Vec<f64>,
    diagonal: Vec<f64>,
    upper: Vec<f64>,
    residual: Vec<f64>,
    /// How the lowest node of each station bears on the level, and the level on it.
    to_level: Vec<f64>,
    to_tray: Vec<f64>,
    tray_diagonal: f64,
}

impl Flow {
    /// Sets up stations in a tray. `start_m` gives the head in metres from the station's number and
    /// the height above its floor; `level_m` is the water level above the lowest floor.
    ///
    /// # Errors
    /// [`NoFlow`] for what cannot be set up.
    pub fn new(
        stations: &[Station<'_>],
        filling: Filling,
        level_m: f64,
        start_m: &dyn Fn(usize, f64) -> f64,
    ) -> Result<Self, NoFlow> {
        if !filling.is_sound() {
            return Err(NoFlow::Filling);
        }
        let mut flow = Self {
            media: Vec::new(),
            scale: Scale::new(),
            nodes: Vec::new(),
            elements: Vec::new(),
            columns: Vec::new(),
            filling,
            valve: Valve::default(),
            has_tray: false,
            capacity_m3: 0.0,
            chamber_m2: 0.0,
            time_s: 0.0,
            step_s: 0.0,
            steps: 0,
            iterations: 0,
            balance: Balance::default(),
            heads: Vec::new(),
            floors: Vec::new(),
            heads_last: Vec::new(),
            heads_before: Vec::new(),
            level_m,
            level_before_m: level_m,
            level_last_m: level_m,
            water: Vec::new(),
            known: Vec::new(),
            rates_first: Vec::new(),
            rates: Vec::new(),
            rates_accepted: Vec::new(),
            flows: Rates::default(),
            flows_first: Rates::default(),
            states_below: Vec::new(),
            states_above: Vec::new(),
            head_m: Vec::new(),
            head_slope: Vec::new(),
            lower: Vec::new(),
            diagonal: Vec::new(),
            upper: Vec::new(),
            residual: Vec::new(),
            to_level: Vec::new(),
            to_tray: Vec::new(),
            tray_diagonal: 1.0,
        };
        for station in stations {
            flow.add(station)?;
        }
        if flow.columns.is_empty() {
            return Err(NoFlow::Station(super::NotAStation::Empty));
        }
        for values in [
            &mut flow.heads,
            &mut flow.floors,
            &mut flow.heads_last,
            &mut flow.heads_before,
            &mut flow.head_m,
            &mut flow.head_slope,
            &mut flow.lower,
            &mut flow.diagonal,
            &mut flow.upper,
            &mut flow.to_level,
        ] {
            values.resize(flow.nodes.len(), 0.0);
        }
        for values in [
            &mut flow.water,
            &mut flow.known,
            &mut flow.rates,
            &mut flow.rates_first,
            &mut flow.rates_accepted,
            &mut flow.residual,
        ] {
            values.resize(flow.nodes.len() + 1, 0.0);
        }
        flow.to_tray.resize(flow.columns.len(), 0.0);
        flow.states_below.resize(flow.nodes.len(), State::default());
        flow.states_above.resize(flow.nodes.len(), State::default());
        flow.begin(level_m, start_m)?;
        Ok(flow)
    }

    /// Begins anew at time nought, with another level and other heads; allocates nothing.
    ///
    /// # Errors
    /// [`NoFlow::Start`] if they are not numbers.
    pub fn begin(
        &mut self,
        level_m: f64,
        start_m: &dyn Fn(usize, f64) -> f64,
    ) -> Result<(), NoFlow> {
        if !level_m.is_finite() {
            return Err(NoFlow::Start);
        }
        self.level_m = match self.filling {
            Filling::Held { level_m } => level_m,
            _ => level_m,
        };
        for (which, column) in self.columns.iter().enumerate() {
            for node in column.first..column.end {
                let head_m = start_m(which, self.nodes[node].height_m);
                if !head_m.is_finite() {
                    return Err(NoFlow::Start);
                }
                self.heads[node] = stretched(head_m);
            }
        }
        self.time_s = 0.0;
        self.step_s = 0.0;
        self.valve = Valve::default();
        self.read_states();
        for node in 0..self.nodes.len() {
            self.water[node] = self.water_of(node).0;
        }
        let last = self.nodes.len();
        self.water[last] = self.tray_water_m3(self.level_m).0;
        let stored = self.stored_m3();
        self.balance = Balance {
            stored_at_first_m3: stored,
            stored_m3: stored,
            ..Balance::default()
        };
        Ok(())
    }

    fn add(&mut self, station: &Station<'_>) -> Result<(), NoFlow> {
        let Cut {
            nodes,
            elements,
            beside,
            top_m2,
        } = cut(station, &mut self.media)?;
        let first = self.nodes.len();
        let pores: f64 = nodes
            .iter()
            .map(|node| {
                node.volume_below_m3 * self.media[node.below].saturated()
                    + node.volume_above_m3 * self.media[node.above].saturated()
            })
            .sum();
        self.capacity_m3 += station.count * pores;
        let ground_m2 = station.ground.in_square_metres();
        self.has_tray |= station.foot == Foot::Tray;
        self.chamber_m2 += CHAMBER_SHARE * station.count * ground_m2;
        self.columns.push(Column {
            first,
            end: first + nodes.len(),
            first_element: self.elements.len(),
            foot: station.foot,
            top: station.top,
            floor_m: station.floor.in_metres(),
            count: station.count,
            ground_m2,
            top_m2,
            beside,
            stress: station.roots.as_ref().map(|roots| roots.stress),
            demand_m3_per_s: station
                .roots
                .as_ref()
                .map_or(0.0, |roots| roots.demand_m3_per_s),
            foot_m2: station.layers[0].base.in_square_metres(),
        });
        self.nodes.extend(nodes);
        self.elements.extend(elements);
        Ok(())
    }

    /// Free water in the tray at a level, m³, and the area it covers, m².
    fn tray_water_m3(&self, level_m: f64) -> (f64, f64) {
        let (mut volume, mut area) = (self.chamber_m2 * level_m, self.chamber_m2);
        for column in self.columns.iter().filter(|c| c.foot == Foot::Tray) {
            let depth_m = level_m - column.floor_m;
            let mut top_m = 0.0;
            for &(from_m, to_m, beside_m2) in &column.beside {
                if depth_m > from_m {
                    volume += column.count * beside_m2 * (depth_m.min(to_m) - from_m);
                    if depth_m <= to_m {
                        area += column.count * beside_m2;
                    }
                }
                top_m = to_m;
            }
            if depth_m > top_m {
                // What stands on the top of the station itself is counted there.
                let beside_m2 = (column.ground_m2 - column.top_m2).max(0.0);
                volume += column.count * beside_m2 * (depth_m - top_m);
                area += column.count * beside_m2;
            }
        }
        (volume, area)
    }

    fn stored_m3(&self) -> f64 {
        let tray = if self.has_tray {
            self.tray_water_m3(self.level_m).0
        } else {
            0.0
        };
        self.columns.iter().fold(tray, |stored, column| {
            let own: f64 = (column.first..column.end)
                .map(|node| self.water_of(node).0)
                .sum();
            stored + column.count * own
        })
    }

    #[inline(always)]
    fn read_states(&mut self) {
        for node in 0..self.nodes.len() {
            let p = self.heads[node];
            let place = self.scale.place(p);
            let (head_m, slope) = self.scale.head_m(p, place);
            self.head_m[node] = head_m;
            self.head_slope[node] = slope;
            let Node { below, above, .. } = self.nodes[node];
            let state = self.media[below].state(p, place);
            self.states_below[node] = state;
            self.states_above[node] = if above == below {
                state
            } else {
                self.media[above].state(p, place)
            };
        }
    }

    /// Water of a node, m³, and its slope over the stretched head. Water standing on a top counts.
    #[inline(always)]
    fn water_of(&self, node: usize) -> (f64, f64) {
        let cut = &self.nodes[node];
        let (below, above) = (&self.states_below[node], &self.states_above[node]);
        let water = cut.volume_below_m3 * below.water + cut.volume_above_m3 * above.water;
        // A bone-dry medium gives up nothing to the last digit; iteration needs a slope all the same.
        let slope = cut.volume_below_m3 * below.water_slope.max(LEAST_SLOPE)
            + cut.volume_above_m3 * above.water_slope.max(LEAST_SLOPE);
        if cut.pond_m2 > 0.0 && self.heads[node] > 0.0 {
            (
                water + cut.pond_m2 * self.head_m[node],
                slope + cut.pond_m2 * self.head_slope[node],
            )
        } else {
            (water, slope)
        }
    }

    /// Fills in residuals (what each node has too much), the rates of change and the derivatives.
    /// Gives the sum of what is left over, m³.
    fn assemble(&mut self, tau_s: f64, now: &Now) -> f64 {
        self.read_states();
        let last = self.nodes.len();
        let mut total = Rates::default();
        let mut left_over = 0.0;
        // Net flow into the tray, and how the tray's residual depends on its level.
        let room = (self.filling.shuts_at_m() - self.level_m) / THROTTLE_M;
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
    fn stage(&mut self, tau_s: f64, now: &Now) -> Option<usize> {
        let enough = LEFT_OVER * self.capacity_m3;
        let mut before = f64::INFINITY;
        for iteration in 0..MOST_ITERATIONS {
            let mut left_over = self.assemble(tau_s, now);
            // A step that made things worse is shortened, but for the first few, which may have to
            // cross a hill.
            let mut shortened = 0;
            while iteration > FREE_ITERATIONS && !(left_over < before) && shortened < MOST_SHORTENED
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

    fn weather_at(&self, weather: &Weather<'_>, time_s: f64) -> Result<Now, NoFlow> {
        let now = Now {
            demand: (weather.demand)(time_s),
            evaporation: (weather.evaporation_m_per_s)(time_s),
            watering: (weather.watering_m_per_s)(time_s),
            air_dry_m: weather.air_dry_suction_m,
            valve: if self.valve.open {
                self.filling.rate_m3_per_s()
            } else {
                0.0
            },
        };
        let sound = |x: f64| x >= 0.0 && x.is_finite();
        if [now.demand, now.evaporation, now.watering]
            .into_iter()
            .all(sound)
            && now.air_dry_m > 0.0
        {
            Ok(now)
        } else {
            Err(NoFlow::Weather { time_s })
        }
    }

    /// Tries a step. Gives the share of the pores' water that its first-order error misplaces and the
    /// iterations of its worse stage; nothing where it could not be solved.
    fn attempt(
        &mut self,
        weather: &Weather<'_>,
        step_s: f64,
    ) -> Result<Option<(f64, usize)>, NoFlow> {
        self.heads_before.copy_from_slice(&self.heads);
        self.level_before_m = self.level_m;
        if let Some(found) = self.attempt_in_two_stages(weather, step_s)? {
            return Ok(Some(found));
        }
        self.take_back();
        self.attempt_in_one_stage(weather, step_s)
    }

    fn attempt_in_two_stages(
        &mut self,
        weather: &Weather<'_>,
        step_s: f64,
    ) -> Result<Option<(f64, usize)>, NoFlow> {
        let tau_s = GAMMA * step_s;
        self.known.copy_from_slice(&self.water);
        let now = self.weather_at(weather, self.time_s + tau_s)?;
        let Some(first) = self.stage(tau_s, &now) else {
            return Ok(None);
        };
        self.rates_first.copy_from_slice(&self.rates);
        self.flows_first = self.flows;
        for ((known, water), rate) in self
            .known
            .iter_mut()
            .zip(&self.water)
            .zip(&self.rates_first)
        {
            *known = water + step_s * (1.0 - GAMMA) * rate;
        }
        let now = self.weather_at(weather, self.time_s + step_s)?;
        let Some(second) = self.stage(tau_s, &now) else {
            return Ok(None);
        };
        let change = self.change_of_rates(&self.rates_first);
        Ok(Some((change * tau_s / self.capacity_m3, first.max(second))))
    }

    /// Euler's implicit step. The second of two stages starts from water carried on beyond the first,
    /// which there may not be where a surface gives out or a tray runs dry within the step; this one
    /// never asks for such.
    fn attempt_in_one_stage(
        &mut self,
        weather: &Weather<'_>,
        step_s: f64,
    ) -> Result<Option<(f64, usize)>, NoFlow> {
        self.known.copy_from_slice(&self.water);
        let now = self.weather_at(weather, self.time_s + step_s)?;
        let Some(iterations) = self.stage(step_s, &now) else {
            return Ok(None);
        };
        // The error of the first order is half the step times the change of rates over it.
        let change = self.change_of_rates(&self.rates_accepted);
        self.rates_first.copy_from_slice(&self.rates);
        self.flows_first = self.flows;
        Ok(Some((0.5 * change * step_s / self.capacity_m3, iterations)))
    }

    /// How much the rates are now unlike others, summed over all nodes, m³/s.
    fn change_of_rates(&self, others: &[f64]) -> f64 {
        let last = self.nodes.len();
        let tray = if self.has_tray {
            (self.rates[last] - others[last]).abs()
        } else {
            0.0
        };
        self.columns.iter().fold(tray, |sum, column| {
            let own: f64 = (column.first..column.end)
                .map(|node| (self.rates[node] - others[node]).abs())
                .sum();
            sum + column.count * own
        })
    }

    fn take_back(&mut self) {
        self.heads.copy_from_slice(&self.heads_before);
        self.level_m = self.level_before_m;
    }

    fn accept(&mut self, step_s: f64) {
        let (a, b) = (step_s * (1.0 - GAMMA), step_s * GAMMA);
        for ((water, first), second) in self
            .water
            .iter_mut()
            .zip(&self.rates_first)
            .zip(&self.rates)
        {
            *water += a * first + b * second;
        }
        for (flows, times) in [(self.flows_first, a), (self.flows, b)] {
            let sum = &mut self.balance;
            sum.let_in_m3 += times * flows.let_in;
            sum.watered_m3 += times * flows.watered;
            sum.across_held_heads_m3 += times * flows.held;
            sum.drunk_m3 += times * flows.drunk;
            sum.evaporated_from_media_m3 += times * flows.evaporated;
            sum.evaporated_from_water_m3 += times * flows.from_water;
        }
        self.rates_accepted.copy_from_slice(&self.rates);
        self.time_s += step_s;
        self.steps += 1;
    }

    fn find_floors(&mut self, air_dry_m: f64) {
        for column in &self.columns {
            let wilted_m = column.stress.map(|stress| stress.wilted_m());
            for node in column.first..column.end {
                let cut = &self.nodes[node];
                // Beside its neighbours; they dry no further than their own.
                let driest_m = match wilted_m {
                    _ if cut.open_m2 > 0.0 => Some(air_dry_m),
                    Some(wilted_m) if cut.roots > 0.0 => Some(wilted_m.max(air_dry_m)),
                    _ => None,
                };
                self.floors[node] = driest_m.map_or(driest(), |suction_m| stretched(-suction_m));
            }
        }
    }

    fn hold_heads(&mut self) {
        for column in &self.columns {
            if let Foot::Head(head_m) = column.foot {
                self.heads[column.first] = stretched(head_m);
            }
            if let Top::Head(head_m) = column.top {
                self.heads[column.end - 1] = stretched(head_m);
            }
        }
    }

    /// Runs on to a time since the start. `watch` sees the flow after every step.
    ///
    /// # Errors
    /// [`NoFlow`] where the weather or the steps make no sense, or a step cannot be solved. The flow
    /// then stands where it last was.
    pub fn run(
        &mut self,
        until_s: f64,
        weather: &Weather<'_>,
        steps: &Steps,
        watch: &mut dyn FnMut(&Self),
    ) -> Result<(), NoFlow> {
        let positive = |x: f64| x > 0.0;
        if !([steps.first_s, steps.longest_s, steps.tolerance]
            .into_iter()
            .all(positive)
            && until_s.is_finite())
        {
            return Err(NoFlow::Steps);
        }
        if self.step_s <= 0.0 {
            self.step_s = steps.first_s;
        }
        self.hold_heads();
        self.find_floors(weather.air_dry_suction_m);
        let begun = self.steps;
        // Times nearer than this are one.
        let instant_s = SHORTEST_S.max(1e-12 * until_s.abs());
        while self.time_s < until_s - instant_s {
            if self.has_tray
                && self
                    .valve
                    .mind(&self.filling, self.time_s + instant_s, self.level_m)
            {
                self.step_s = self.step_s.min(steps.first_s);
            }
            let stop_s = self
                .valve
                .next_s(&self.filling)
                .filter(|next| *next > self.time_s + instant_s)
                .map_or(until_s, |next| next.min(until_s));
            let mut step_s = self.step_s.min(steps.longest_s);
            let mut clipped = false;
            if self.time_s + step_s >= stop_s - instant_s {
                clipped = self.time_s + step_s > stop_s + instant_s;
                step_s = stop_s - self.time_s;
            }
            let next_s = loop {
                if self.steps - begun >= steps.most {
                    return Err(NoFlow::TooManySteps {
                        time_s: self.time_s,
                    });
                }
                let shorter = match self.attempt(weather, step_s)? {
                    None => Some(0.25 * step_s),
                    Some((error, iterations)) => {
                        /// Steps aim at this share of the tolerance.
                        const AIM: f64 = 0.8;
                        let change = AIM * (steps.tolerance / error.max(1e-300)).sqrt();
                        if error > steps.tolerance && step_s > 1e3 * SHORTEST_S {
                            Some(step_s * change.clamp(0.1, 0.8))
                        } else if let Some(share) = self.overshoot(step_s) {
                            Some(step_s * share)
                        } else {
                            let most = if iterations > MANY_ITERATIONS {
                                1.0
                            } else {
                                3.0
                            };
                            self.accept(step_s);
                            break step_s * change.clamp(0.2, most);
                        }
                    }
                };
                if let Some(shorter) = shorter {
                    self.take_back();
                    step_s = shorter;
                    clipped = false;
                    if step_s < SHORTEST_S {
                        return Err(NoFlow::DoesNotConverge {
                            time_s: self.time_s,
                        });
                    }
                }
            };
            // A step cut to meet a time tells nothing against the next one's length.
            self.step_s = if clipped {
                self.step_s.max(next_s)
            } else {
                next_s
            };
            self.balance.stored_m3 = self.stored_m3();
            watch(self);
        }
        Ok(())
    }

    /// The share of a step that would have met the level waited for, if the step went past it.
    fn overshoot(&self, step_s: f64) -> Option<f64> {
        /// A level may be passed by so much.
        const PASSED_M: f64 = 5e-4;
        /// A step as short as this meets it well enough, s.
        const FINE_S: f64 = 1.0;
        if !self.has_tray || step_s < FINE_S {
            return None;
        }
        let (was, is) = (self.level_before_m, self.level_m);
        let waiting = !self.valve.open && self.valve.opens_s.is_none();
        self.filling
            .opens_at_m()
            .filter(|opens| waiting && is < *opens && was > opens + PASSED_M)
            .map(|opens| ((opens - was) / (is - was)).clamp(0.1, 0.9))
    }

    /// Since the start, s.
    #[must_use]
    pub fn time_s(&self) -> f64 {
        self.time_s
    }

    /// Height of the free water above the lowest floor, m. Nought or less: the tray is dry.
    #[must_use]
    pub fn level_m(&self) -> f64 {
        self.level_m
    }

    /// How many times the tray was filled.
    #[must_use]
    pub fn fills(&self) -> u32 {
        self.valve.fills
    }

    /// Steps taken, and iterations of Newton's method in them and in those taken back.
    #[must_use]
    pub fn effort(&self) -> (usize, usize) {
        (self.steps, self.iterations)
    }

    /// Heights that are solved for, over all stations.
    #[must_use]
    pub fn nodes(&self) -> usize {
        self.nodes.len()
    }

    /// What came in, went out and is stored.
    #[must_use]
    pub fn balance(&self) -> Balance {
        self.balance
    }

    /// Heights above the station's floor and heads there, m, from the floor up. Where media meet at
    /// a contact, a height comes more than once.
    pub fn heads_m(&self, station: usize) -> impl Iterator<Item = (f64, f64)> + '_ {
        let range = self
            .columns
            .get(station)
            .map_or(0..0, |column| column.first..column.end);
        range.map(|node| {
            let p = self.heads[node];
            (
                self.nodes[node].height_m,
                self.scale.head_m(p, self.scale.place(p)).0,
            )
        })
    }

    /// Water and pores of one station between two heights above its floor, m³.
    #[must_use]
    pub fn water_between(&self, station: usize, from_m: f64, to_m: f64) -> (f64, f64) {
        let (mut water_m3, mut pores_m3) = (0.0, 0.0);
        let Some(column) = self.columns.get(station) else {
            return (0.0, 0.0);
        };
        for at in column.first..column.end {
            let node = &self.nodes[at];
            let p = self.heads[at];
            let place = self.scale.place(p);
            let halves = [
                (
                    node.below,
                    node.volume_below_m3,
                    node.height_m - node.reach_below_m,
                    node.height_m,
                ),
                (
                    node.above,
                    node.volume_above_m3,
                    node.height_m,
                    node.height_m + node.reach_above_m,
                ),
            ];
            for (medium, volume_m3, low_m, high_m) in halves {
                if volume_m3 > 0.0 {
                    let share =
                        ((high_m.min(to_m) - low_m.max(from_m)) / (high_m - low_m)).max(0.0);
                    let table = &self.media[medium];
                    let state = table.state(p, place);
                    water_m3 += share * volume_m3 * state.water.min(table.saturated());
                    pores_m3 += share * volume_m3 * table.saturated();
                }
            }
        }
        (water_m3, pores_m3)
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
