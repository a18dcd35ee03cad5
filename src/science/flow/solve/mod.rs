//! Columns that share one tray: what is fixed of them, and how they stand.

mod newton;
mod stepping;

use std::sync::Arc;

use super::NoFlow;
use super::balance::Balance;
use super::station::{Cut, Element, Foot, Node, Station, Top, cut};
use super::table::{Scale, State, Table, stretched};
use super::tray::{Filling, Valve};
use super::uptake::Stress;

pub use stepping::{Steps, Weather};

/// No medium is taken to change by less than this share of its volume for a unit of stretched head,
/// when the next iterate is sought. Water itself is not touched by it.
const LEAST_SLOPE: f64 = 1e-10;
/// The section of the float's own chamber as a share of the tray's ground: it keeps a level defined
/// where a bed leaves no open water.
const CHAMBER_SHARE: f64 = 1e-6;

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
    /// What one of each station drinks, m³/s, and has drunk, m³.
    drinks: Vec<f64>,
    drinks_first: Vec<f64>,
    drunk_m3: Vec<f64>,

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
            drinks: Vec::new(),
            drinks_first: Vec::new(),
            drunk_m3: Vec::new(),
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
        for values in [
            &mut flow.to_tray,
            &mut flow.drinks,
            &mut flow.drinks_first,
            &mut flow.drunk_m3,
        ] {
            values.resize(flow.columns.len(), 0.0);
        }
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
        self.drunk_m3.fill(0.0);
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

    /// What one of a station has drunk since the beginning, m³; nought where there is no such station.
    #[must_use]
    pub fn drunk_m3(&self, station: usize) -> f64 {
        self.drunk_m3.get(station).copied().unwrap_or(0.0)
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
