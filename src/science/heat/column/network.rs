//! A standing as capacities and conductances, for each square metre.

use super::bordered::Bordered;
use super::course::Moment;
use super::record::Flows;
use super::standing::{DAY_H, Foot, Place, Pots, Standing, Surface};
use super::{Cover, NoColumn};
use crate::science::heat::films::{
    Convection, LEWIS, PSYCHROMETRIC_KPA_PER_K, radiation_between_w_per_m2_k, saturation_kpa,
    saturation_slope_kpa_per_k,
};
use crate::science::heat::ground::layers::Slice;
use crate::science::heat::medium::WATER_J_PER_M3_K;

/// The uppermost cell of the ground, m.
const FIRST_CELL_M: f64 = 0.008;
/// How much thicker each cell is than the one above it.
const GROWTH: f64 = 1.2;
/// Thirds of a pot.
const THIRDS: usize = 3;
/// Of the sun on the walls of pots, what falls on each third from the base.
const SIDE_SUN: [f64; THIRDS] = [0.0, 0.5, 0.5];
const HOUR_S: f64 = 3600.0;

/// A surface without heat of its own before a node.
#[derive(Clone, Debug)]
struct Skin {
    node: usize,
    /// m² for each m² of standing.
    area: f64,
    /// From the node to it, W/m² K of standing; infinite where it is the node itself.
    inner: f64,
    surface: Surface,
    /// Heat taken up for each W/m² of sun.
    sun: f64,
    temperature: f64,
    /// How fast it went in the last step, K/s.
    trend: f64,
    // As they are held through a step.
    convective: f64,
    radiative: f64,
    wet: f64,
    slope: f64,
    saturated_kpa: f64,
    tangent_at: f64,
}

/// Air that is known.
#[derive(Clone, Copy, Debug)]
struct Above {
    air: f64,
    cover: f64,
    vapour_kpa: f64,
    sun: f64,
}

/// How a skin stands between its node and what is outside: conductance, and the source at the node.
struct Link {
    conductance: f64,
    source: f64,
    /// Heat of the sun that goes on to the air above.
    sun_up: f64,
}

impl Skin {
    fn new(node: usize, area: f64, inner: f64, surface: Surface, sun: f64) -> Self {
        Self {
            node,
            area,
            inner,
            surface,
            sun,
            temperature: 0.0,
            trend: 0.0,
            convective: 0.0,
            radiative: 0.0,
            wet: 0.0,
            slope: 0.0,
            saturated_kpa: 0.0,
            tangent_at: 0.0,
        }
    }

    /// What it radiates to, besides air.
    fn seen(&self, above: &Above) -> f64 {
        above.air + self.surface.sees_cover * (above.cover - above.air)
    }

    /// Holds the coefficients for a step, as they will be so many seconds on.
    fn hold(&mut self, above: &Above, closed: bool, ahead_s: f64) {
        let here = self.temperature + self.trend * ahead_s;
        let convection = self
            .surface
            .convection
            .coefficient_w_per_m2_k(here, above.air);
        self.convective = self.area * convection;
        let seen = if closed { above.air } else { self.seen(above) };
        self.radiative = if self.surface.emissivity > 0.0 {
            self.area * radiation_between_w_per_m2_k(self.surface.emissivity, here, seen)
        } else {
            0.0
        };
        if self.surface.wet > 0.0 {
            self.wet = self.area * self.surface.wet * convection * LEWIS / PSYCHROMETRIC_KPA_PER_K;
            // Under a closed cover the air is taken to be saturated, and what evaporates is given to it
            // again as it wets the cover.
            self.tangent_at = if closed {
                f64::midpoint(here, above.air)
            } else {
                here
            };
            self.slope = self.wet * saturation_slope_kpa_per_k(self.tangent_at);
            self.saturated_kpa = saturation_kpa(self.tangent_at);
        }
    }

    fn outer(&self) -> f64 {
        self.convective + self.radiative + self.slope
    }

    /// What runs in from outside at 0 °C of the surface, in the open.
    fn driven(&self, above: &Above) -> f64 {
        self.convective * above.air
            + self.radiative * self.seen(above)
            + self.wet * (above.vapour_kpa - self.saturated_kpa)
            + self.slope * self.tangent_at
            + self.sun * above.sun
    }

    fn reach(&self) -> f64 {
        if self.inner.is_finite() {
            self.inner / (self.inner + self.outer())
        } else {
            1.0
        }
    }

    fn link(&self, above: &Above, closed: bool) -> Link {
        let reach = self.reach();
        let conductance = reach * self.outer();
        if closed {
            let sun = self.sun * above.sun;
            Link {
                conductance,
                source: reach * sun,
                sun_up: (1.0 - reach) * sun,
            }
        } else {
            Link {
                conductance,
                source: reach * self.driven(above),
                sun_up: 0.0,
            }
        }
    }

    /// Follows its node and the air; adds what flows in the open.
    fn follow(&mut self, node: f64, above: &Above, closed: bool, flows: &mut Flows) {
        let sun = self.sun * above.sun;
        let driven = if closed {
            self.outer() * above.air + sun
        } else {
            self.driven(above)
        };
        self.temperature = if self.inner.is_finite() {
            (self.inner * node + driven) / (self.inner + self.outer())
        } else {
            node
        };
        flows.sun += sun;
        if !closed {
            let here = self.temperature;
            flows.to_air += self.convective * (here - above.air);
            flows.radiated += self.radiative * (here - self.seen(above));
            flows.to_vapour += self.wet * (self.saturated_kpa - above.vapour_kpa)
                + self.slope * (here - self.tangent_at);
        }
    }
}

/// A gap under a raised tray, as it is held through a step.
#[derive(Clone, Debug)]
struct OpenGap {
    floor: usize,
    underside: usize,
    /// How fast floor and underside went in the last step, K/s.
    trends: [f64; 2],
    under_tray: Convection,
    on_floor: Convection,
    exchange: f64,
    air_height: f64,
    floor_sun: f64,
    tray_film: f64,
    floor_film: f64,
    radiative: f64,
}

/// Water that flows in at hours of the day.
#[derive(Clone, Debug)]
struct Inflow {
    conductance: f64,
    tank: f64,
    from_h: f64,
    for_h: f64,
}

/// The column, cut into nodes.
#[derive(Clone, Debug)]
pub(super) struct Network {
    /// J/m² K.
    pub capacity: Vec<f64>,
    /// To the next node, W/m² K; that of a gap is set anew for each step.
    link: Vec<f64>,
    deep_conductance: f64,
    deep: f64,
    skins: Vec<Skin>,
    gap: Option<OpenGap>,
    heater: Option<usize>,
    water: usize,
    places: Vec<(Place, usize)>,
    air_height: f64,
    cover: Option<Cover>,
    inflows: Vec<Inflow>,
    /// As the step holds them.
    closed: bool,
    inflow: f64,
    inflow_driven: f64,
    /// Air around the plants.
    pub air: f64,
    /// How fast that under a closed cover went in the last step, K/s.
    air_trend: f64,
    /// How long the last step was: trends lead no further than it did, s.
    trend_s: f64,
    skins_before: Vec<f64>,
}

/// What drives a stage.
#[derive(Clone, Copy, Debug)]
pub(super) struct Drive {
    pub moment: Moment,
    /// W/m².
    pub heater: f64,
}

/// A node in the making.
struct Chain {
    capacity: Vec<f64>,
    /// Conductance from each node but the last to the next.
    link: Vec<f64>,
}

impl Chain {
    /// A node over the last, through a conductance.
    fn add(&mut self, conductance: f64, capacity: f64) -> usize {
        if !self.capacity.is_empty() {
            self.link.push(conductance);
        }
        self.capacity.push(capacity);
        self.capacity.len() - 1
    }
}

/// Thickness and solid of each cell of the ground, downwards.
fn cells(layers: &[Slice]) -> Vec<Slice> {
    let mut cut = Vec::new();
    let mut thickness = FIRST_CELL_M;
    for layer in layers {
        // So many cells, growing alike, fill the layer; all are stretched to fit.
        let (mut sum, mut own) = (0.0, Vec::new());
        while sum < layer.thickness_m {
            own.push(thickness);
            sum += thickness;
            thickness *= GROWTH;
        }
        let fit = layer.thickness_m / sum;
        cut.extend(own.into_iter().map(|thickness_m| Slice {
            thickness_m: thickness_m * fit,
            ..*layer
        }));
    }
    cut
}

fn half_resistance(slice: &Slice) -> f64 {
    0.5 * slice.thickness_m / slice.solid.conductivity_w_per_m_k()
}

/// One third of a pot.
struct Third {
    volume: f64,
    wall: f64,
    breadth: f64,
}

/// Thirds from the base, for each square metre of standing: m³ and m².
fn thirds(pots: &Pots) -> [Third; THIRDS] {
    let (base, top) = (pots.base.in_metres(), pots.top.in_metres());
    let height = pots.depth.in_metres() / THIRDS as f64;
    let number = pots.number.in_per_square_metre();
    std::array::from_fn(|third| {
        let breadth = |part: f64| base + (top - base) * part / THIRDS as f64;
        let (low, high) = (breadth(third as f64), breadth(third as f64 + 1.0));
        let slant = height.hypot((high - low) / 2.0);
        Third {
            volume: number * std::f64::consts::PI / 12.0
                * height
                * (low * low + low * high + high * high),
            wall: number * std::f64::consts::PI * f64::midpoint(low, high) * slant,
            breadth: f64::midpoint(low, high),
        }
    })
}

impl Network {
    pub fn new(standing: &Standing) -> Result<Self, NoColumn> {
        standing.check()?;
        let mut chain = Chain {
            capacity: Vec::new(),
            link: Vec::new(),
        };
        let mut places = Vec::new();
        let mut skins = Vec::new();

        // The ground, from the deepest cell up.
        let cells = cells(&standing.floor.layers);
        let mut below: Option<f64> = None;
        let mut deep_conductance = 0.0;
        for cell in cells.iter().rev() {
            let half = half_resistance(cell);
            let conductance = 1.0 / (below.unwrap_or(0.0) + half);
            if below.is_none() {
                deep_conductance = conductance;
            }
            chain.add(
                conductance,
                cell.solid.capacity_j_per_m3_k() * cell.thickness_m,
            );
            below = Some(half);
        }
        let floor = chain.add(1.0 / below.unwrap_or(f64::INFINITY), 0.0);
        places.push((Place::Floor, floor));

        // From there to the tray.
        let mut gap = None;
        let mut resistance = match &standing.foot {
            Foot::OnFloor { contact_m2_k_per_w } => *contact_m2_k_per_w,
            Foot::Raised(open) => {
                let underside = chain.add(0.0, 0.0);
                places.push((Place::Underside, underside));
                gap = Some(OpenGap {
                    floor,
                    underside,
                    trends: [0.0; 2],
                    under_tray: open.under_tray,
                    on_floor: open.on_floor,
                    exchange: open.exchange,
                    air_height: open.air_height,
                    floor_sun: open.floor_sun,
                    tray_film: 0.0,
                    floor_film: 0.0,
                    radiative: 0.0,
                });
                open.through_m2_k_per_w
            }
        };
        let heater = standing.heater.as_ref().map(|heater| {
            let node = chain.add(
                1.0 / (resistance + heater.insulation_m2_k_per_w),
                heater.layer_j_per_m2_k,
            );
            resistance = heater.up_m2_k_per_w;
            places.push((Place::Heater, node));
            node
        });
        let tray = &standing.tray;
        let water = chain.add(
            1.0 / resistance,
            WATER_J_PER_M3_K * tray.water.in_metres() + tray.own_j_per_m2_k,
        );
        places.push((Place::Water, water));

        // A bed, then the pots.
        let pots = &standing.pots;
        let foot_share = pots.covered(pots.base.in_metres());
        let open_share = 1.0 - foot_share;
        let into_base = 1.0 / (pots.into_base_w_per_m2_k * foot_share);
        let mut to_pot = into_base;
        // What lies open between the pots: the water itself, or the bed from its middle.
        let mut open = (water, f64::INFINITY);
        if let Some(bed) = &tray.bed {
            let half = half_resistance(bed);
            let node = chain.add(
                1.0 / half,
                bed.solid.capacity_j_per_m3_k() * bed.thickness_m,
            );
            places.push((Place::Bed, node));
            open = (node, open_share / half);
            to_pot += half / foot_share;
        }
        if open_share > 0.0 {
            let (node, inner) = open;
            skins.push(Skin::new(node, open_share, inner, tray.open, tray.open.sun));
        }
        let conductivity = pots.mix.conductivity_w_per_m_k();
        let third_m = pots.depth.in_metres() / THIRDS as f64;
        let thirds = thirds(pots);
        let of_pots = [Place::PotBottom, Place::PotMiddle, Place::PotTop];
        let mut last = water;
        for (number, (third, place)) in thirds.iter().zip(of_pots).enumerate() {
            // Half a third up from the boundary below, at the section midway.
            let half = 0.5 * third_m / (conductivity * pots.covered(third.breadth));
            let node = chain.add(
                1.0 / (to_pot + half),
                third.volume * pots.mix.capacity_j_per_m3_k(),
            );
            places.push((place, node));
            let acting = third.wall * pots.side.acting;
            if acting > 0.0 {
                // From the mean of a round body to its wall: D/8k for each m² of wall (Carslaw & Jaeger
                // 1959, section 7.9, even flow).
                let inner = acting * 8.0 * conductivity / third.breadth;
                let sun = pots.side.surface.sun * SIDE_SUN[number];
                skins.push(Skin::new(node, acting, inner, pots.side.surface, sun));
            }
            to_pot = half;
            last = node;
        }
        let top_share = pots.covered(pots.top.in_metres());
        skins.push(Skin::new(
            last,
            top_share,
            1.0 / to_pot,
            pots.surface,
            pots.surface.sun,
        ));

        let inflows = tray
            .refills
            .iter()
            .map(|refill| Inflow {
                conductance: WATER_J_PER_M3_K * refill.depth.in_metres() / (refill.for_h * HOUR_S),
                tank: refill.tank.in_celsius(),
                from_h: refill.from_h,
                for_h: refill.for_h,
            })
            .collect();
        chain.link.push(0.0);
        let skins_before = vec![0.0; skins.len()];
        Ok(Self {
            capacity: chain.capacity,
            link: chain.link,
            deep_conductance,
            deep: standing.floor.deep.in_celsius(),
            skins,
            gap,
            heater,
            water,
            places,
            air_height: standing.air_height,
            cover: standing.cover,
            inflows,
            closed: false,
            inflow: 0.0,
            inflow_driven: 0.0,
            air: 0.0,
            air_trend: 0.0,
            trend_s: 0.0,
            skins_before,
        })
    }

    pub fn nodes(&self) -> usize {
        self.capacity.len()
    }

    pub fn node_of(&self, place: Place) -> Option<usize> {
        self.places
            .iter()
            .find(|(known, _)| *known == place)
            .map(|(_, node)| *node)
    }

    pub fn places(&self) -> impl Iterator<Item = Place> + '_ {
        self.places
            .iter()
            .map(|(place, _)| *place)
            .chain([Place::Air])
    }

    /// Hours of the day at which something begins or ends.
    pub fn hours_of_change(&self) -> impl Iterator<Item = f64> + '_ {
        let covers = self
            .cover
            .iter()
            .flat_map(|cover| [cover.from_h, cover.to_h]);
        let inflows = self
            .inflows
            .iter()
            .flat_map(|inflow| [inflow.from_h, inflow.from_h + inflow.for_h]);
        covers.chain(inflows)
    }

    /// All nodes and surfaces at one temperature.
    pub fn begin_at(&mut self, temperature: f64) {
        self.air = temperature;
        for skin in &mut self.skins {
            skin.temperature = temperature;
        }
    }

    pub fn keep(&mut self) {
        for (kept, skin) in self.skins_before.iter_mut().zip(&self.skins) {
            *kept = skin.temperature;
        }
    }

    pub fn take_back(&mut self) {
        for (skin, kept) in self.skins.iter_mut().zip(&self.skins_before) {
            skin.temperature = *kept;
        }
    }

    fn above(&self, moment: &Moment) -> Above {
        Above {
            air: moment.air_at_c(self.air_height),
            cover: moment.cover_c,
            vapour_kpa: moment.vapour_kpa,
            sun: moment.sun_w_per_m2,
        }
    }

    /// What is above the skins: the house, or the air under the cover.
    fn around(&self, moment: &Moment) -> Above {
        let house = self.above(moment);
        match &self.cover {
            Some(cover) if self.closed => Above {
                air: self.air,
                sun: house.sun * cover.transmitted,
                ..house
            },
            _ => house,
        }
    }

    /// Takes how fast all went in a step of so many seconds, for the next step to go by.
    pub fn learn(&mut self, before: &[f64], after: &[f64], air_before: f64, seconds: f64) {
        for (skin, before) in self.skins.iter_mut().zip(&self.skins_before) {
            skin.trend = (skin.temperature - before) / seconds;
        }
        if let Some(gap) = &mut self.gap {
            gap.trends =
                [gap.floor, gap.underside].map(|node| (after[node] - before[node]) / seconds);
        }
        self.air_trend = (self.air - air_before) / seconds;
        self.trend_s = seconds;
    }

    /// Something jumps: how fast all went tells nothing of the next step.
    pub fn forget(&mut self) {
        for skin in &mut self.skins {
            skin.trend = 0.0;
        }
        if let Some(gap) = &mut self.gap {
            gap.trends = [0.0; 2];
        }
        self.air_trend = 0.0;
    }

    /// Holds all coefficients for a step, as they will be at its middle, so many seconds on, at that moment
    /// and that hour of the day.
    pub fn hold(&mut self, temperatures: &[f64], moment: &Moment, hour: f64, ahead_s: f64) {
        let ahead_s = ahead_s.min(self.trend_s);
        let within = |from: f64, length: f64| (hour - from).rem_euclid(DAY_H) < length;
        let was_closed = self.closed;
        self.closed = self.cover.as_ref().is_some_and(|cover| {
            let length = (cover.to_h - cover.from_h).rem_euclid(DAY_H);
            length == 0.0 || within(cover.from_h, length)
        });
        if self.closed != was_closed {
            self.forget();
        }
        if !self.closed || !was_closed {
            self.air = moment.air_at_c(self.air_height);
        }
        let mut around = self.around(moment);
        let closed = self.closed;
        if closed {
            around.air += self.air_trend * ahead_s;
        }
        for skin in &mut self.skins {
            skin.hold(&around, closed, ahead_s);
        }
        if let Some(gap) = &mut self.gap {
            let air = moment.air_at_c(gap.air_height);
            let [floor, tray] = [(gap.floor, gap.trends[0]), (gap.underside, gap.trends[1])]
                .map(|(node, trend)| temperatures[node] + trend * ahead_s);
            gap.tray_film = gap.under_tray.coefficient_w_per_m2_k(tray, air);
            gap.floor_film = gap
                .on_floor
                .coefficient_w_per_m2_k(floor, moment.floor_air_c);
            gap.radiative = radiation_between_w_per_m2_k(gap.exchange, floor, tray);
        }
        let inflow_before = self.inflow;
        (self.inflow, self.inflow_driven) = (0.0, 0.0);
        for inflow in &self.inflows {
            if inflow.for_h >= DAY_H || within(inflow.from_h, inflow.for_h) {
                self.inflow += inflow.conductance;
                self.inflow_driven += inflow.conductance * inflow.tank;
            }
        }
        if self.inflow != inflow_before {
            self.forget();
        }
    }

    /// Writes the conductances and sources of a stage, without what is stored.
    pub fn load(&self, drive: &Drive, into: &mut Bordered) {
        let nodes = self.nodes();
        into.diagonal.fill(0.0);
        into.right.fill(0.0);
        into.shared.fill(0.0);
        into.link.copy_from_slice(&self.link);
        (into.shared_diagonal, into.shared_right) = (0.0, 0.0);
        if let Some(gap) = &self.gap {
            let air = drive.moment.air_at_c(gap.air_height);
            into.link[gap.floor] = gap.radiative;
            into.diagonal[gap.underside] += gap.tray_film;
            into.right[gap.underside] += gap.tray_film * air;
            into.diagonal[gap.floor] += gap.floor_film;
            into.right[gap.floor] += gap.floor_film * drive.moment.floor_air_c
                + gap.floor_sun * drive.moment.sun_w_per_m2;
        }
        for node in 0..nodes - 1 {
            let link = into.link[node];
            into.diagonal[node] += link;
            into.diagonal[node + 1] += link;
        }
        into.diagonal[0] += self.deep_conductance;
        into.right[0] += self.deep_conductance * self.deep;
        into.diagonal[self.water] += self.inflow;
        into.right[self.water] += self.inflow_driven;
        if let Some(heater) = self.heater {
            into.right[heater] += drive.heater;
        }
        let around = self.around(&drive.moment);
        for skin in &self.skins {
            let link = skin.link(&around, self.closed);
            into.diagonal[skin.node] += link.conductance;
            into.right[skin.node] += link.source;
            if self.closed {
                into.shared[skin.node] += link.conductance;
                into.shared_right += link.sun_up;
            }
        }
        if let (true, Some(cover)) = (self.closed, &self.cover) {
            let house = self.above(&drive.moment);
            into.shared_diagonal = cover.loss_w_per_m2_k;
            into.shared_right +=
                cover.loss_w_per_m2_k * (house.air + cover.sees_cover * (house.cover - house.air));
        }
    }

    /// Lets the surfaces follow the nodes and the air found, and tells what flows.
    pub fn follow(&mut self, temperatures: &[f64], shared: f64, drive: &Drive) -> Flows {
        let mut flows = Flows::default();
        let house = self.above(&drive.moment);
        self.air = if self.closed { shared } else { house.air };
        let around = self.around(&drive.moment);
        let closed = self.closed;
        for skin in &mut self.skins {
            skin.follow(temperatures[skin.node], &around, closed, &mut flows);
        }
        if let (true, Some(cover)) = (closed, &self.cover) {
            flows.to_air +=
                cover.loss_w_per_m2_k * (1.0 - cover.sees_cover) * (self.air - house.air);
            flows.radiated += cover.loss_w_per_m2_k * cover.sees_cover * (self.air - house.cover);
        }
        if let Some(gap) = &self.gap {
            let air = drive.moment.air_at_c(gap.air_height);
            flows.to_air += gap.tray_film * (temperatures[gap.underside] - air)
                + gap.floor_film * (temperatures[gap.floor] - drive.moment.floor_air_c);
            flows.sun += gap.floor_sun * drive.moment.sun_w_per_m2;
        }
        flows.from_ground += self.deep_conductance * (self.deep - temperatures[0]);
        flows.to_refill += self.inflow * temperatures[self.water] - self.inflow_driven;
        if self.heater.is_some() {
            flows.heater += drive.heater;
        }
        flows
    }

    /// From the air in place of the shared node: what a cover would be, were its air known.
    pub fn conductance_beyond_shared(&self) -> f64 {
        self.cover
            .as_ref()
            .map_or(0.0, |cover| cover.loss_w_per_m2_k)
    }
}
