//! What stands in a tray, from its floor up: layers, the joints between them, and roots.

use std::fmt;
use std::sync::Arc;

use super::table::Table;
use super::uptake::Stress;
use crate::measure::{Area, Length};

/// How a layer stands on what is below it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Joint {
    /// Grain on grain over all the section they share: one head, no resistance.
    Laid,
    /// Through a part of the base alone.
    Contact(Contact),
}

/// How the base of a pot touches what it stands on.
///
/// Water squeezes together towards round openings: each side adds a path of π a/4 over their area,
/// a the radius of one (the resistance 1/(4 K a) of a disc on a half space: Carslaw & Jaeger 1959,
/// *Conduction of Heat in Solids*, section 8.2, cited from memory). It holds where the openings are
/// some diameters apart. A gap that is bridged badly adds a conductance of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    share: f64,
    path_m: f64,
    conductance_per_s: f64,
}

impl Contact {
    /// The whole base is bedded into the medium.
    #[must_use]
    pub fn bedded() -> Self {
        Self {
            share: 1.0,
            path_m: 0.0,
            conductance_per_s: f64::INFINITY,
        }
    }

    /// Through round holes alone that make up a share of the base (above 0, up to 1).
    #[must_use]
    pub fn holes(share: f64, diameter: Length) -> Self {
        Self {
            share,
            path_m: std::f64::consts::FRAC_PI_8 * diameter.in_metres(),
            conductance_per_s: f64::INFINITY,
        }
    }

    /// The same across a gap: so many m/s for each metre of head across it.
    #[must_use]
    pub fn across_a_gap(self, conductance_per_s: f64) -> Self {
        Self {
            conductance_per_s,
            ..self
        }
    }
}

/// One layer of one medium. Its breadth grows in a straight line from its base to its top.
#[derive(Clone, Debug)]
pub struct Layer {
    /// The medium.
    pub medium: Arc<Table>,
    /// From its base to its top.
    pub height: Length,
    /// Section at the base, inside.
    pub base: Area,
    /// Section at the top, inside.
    pub top: Area,
    /// What it takes up of the tray outside, walls and all: at least the section of a bed, the
    /// footprint of a pot.
    pub footprint: Area,
    /// The longest distance between two heights that are solved for.
    pub spacing: Length,
    /// How it stands on what is below.
    pub joint: Joint,
}

/// Where roots are, how they bear suction, and what they are asked for.
pub struct Roots<'a> {
    /// The response to suction.
    pub stress: Stress,
    /// The density of roots at a height above the floor in metres, on any scale.
    pub density: &'a dyn Fn(f64) -> f64,
    /// The mean demand of the plant, m³/s.
    pub demand_m3_per_s: f64,
}

/// What the lowest height is joined to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Foot {
    /// The water of the tray.
    Tray,
    /// Nothing.
    Closed,
    /// Water held at a head, m.
    Head(f64),
}

/// What happens at the top.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Top {
    /// Air: evaporation and watering, as the weather has them.
    Open,
    /// Water held at a head, m.
    Head(f64),
}

/// One pot on its bed, or any other column of layers.
pub struct Station<'a> {
    /// Layers from the floor up.
    pub layers: Vec<Layer>,
    /// Roots, if there are any.
    pub roots: Option<Roots<'a>>,
    /// What the lowest height is joined to.
    pub foot: Foot,
    /// What happens at the top.
    pub top: Top,
    /// The area of the tray that falls to one of these.
    pub ground: Area,
    /// How high the tray's floor lies here above its lowest place.
    pub floor: Length,
    /// How many of these there are.
    pub count: f64,
}

/// Why a station cannot be set up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotAStation {
    /// There is no layer at all.
    Empty,
    /// A layer's height, section or spacing is not above nought, or finite.
    Layer,
    /// A layer is cut into more pieces than are of use.
    TooFine,
    /// A contact's share is not above nought and up to one, or its conductance not above nought.
    Contact,
    /// Roots have a density or a demand below nought, or none lie within the layers.
    Roots,
    /// The tray's area at a station is smaller than what stands on it, or the count is not above nought.
    Ground,
    /// A head that is held is not a number.
    Head,
}

impl fmt::Display for NotAStation {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Empty => "there must be a layer to hold water",
            Self::Layer => "each layer must have a height, a section and a spacing above nought",
            Self::TooFine => "a layer must be cut into no more than 20 000 pieces",
            Self::Contact => {
                "a pot must touch what it stands on with a share of its base above nought and up to one"
            }
            Self::Roots => "roots must lie within the layers and be asked for nought or more",
            Self::Ground => "the tray must be at least as large as what stands in it",
            Self::Head => "a held water level must be a number",
        })
    }
}

impl std::error::Error for NotAStation {}

/// More pieces than this in one layer are refused.
const MOST_PIECES: f64 = 20_000.0;

/// What joins two neighbouring heights.
#[derive(Clone, Copy, Debug)]
pub(super) struct Element {
    /// Which medium conducts; none across a gap.
    pub medium: Option<usize>,
    /// Section over length, m; across a gap the whole conductance, m²/s.
    pub conduct: f64,
    /// How much higher the upper end is, m.
    pub rise_m: f64,
}

/// A height that is solved for.
#[derive(Clone, Copy, Debug)]
pub(super) struct Node {
    pub height_m: f64,
    pub below: usize,
    pub above: usize,
    pub volume_below_m3: f64,
    pub volume_above_m3: f64,
    /// Half the length of the element below and above, m.
    pub reach_below_m: f64,
    pub reach_above_m: f64,
    /// Share of the plant's roots.
    pub roots: f64,
    /// Section that lies open to the air, m².
    pub open_m2: f64,
    /// Section on which water can stand, m².
    pub pond_m2: f64,
}

/// A station cut into nodes and elements.
#[derive(Clone, Debug)]
pub(super) struct Cut {
    pub nodes: Vec<Node>,
    pub elements: Vec<Element>,
    /// Bottom, top, and area of the tray left open beside each layer.
    pub beside: Vec<(f64, f64, f64)>,
    pub top_m2: f64,
}

/// The volume of a piece whose breadth runs in a straight line from one section to another.
fn frustum(low_m2: f64, high_m2: f64, height_m: f64) -> f64 {
    height_m / 3.0 * (low_m2 + (low_m2 * high_m2).sqrt() + high_m2)
}

pub(super) fn cut(station: &Station<'_>, media: &mut Vec<Arc<Table>>) -> Result<Cut, NotAStation> {
    if station.layers.is_empty() {
        return Err(NotAStation::Empty);
    }
    let positive = |x: f64| x > 0.0 && x.is_finite();
    let mut nodes: Vec<Node> = Vec::new();
    let mut elements = Vec::new();
    let mut beside = Vec::new();
    let ground_m2 = station.ground.in_square_metres();
    if !(positive(station.count) && ground_m2.is_finite() && station.floor.in_metres() >= 0.0) {
        return Err(NotAStation::Ground);
    }
    for head in [
        match station.foot {
            Foot::Head(head) => head,
            _ => 0.0,
        },
        match station.top {
            Top::Head(head) => head,
            Top::Open => 0.0,
        },
    ] {
        if !head.is_finite() {
            return Err(NotAStation::Head);
        }
    }
    let mut base_m = 0.0;
    for (which, layer) in station.layers.iter().enumerate() {
        let medium = media
            .iter()
            .position(|known| Arc::ptr_eq(known, &layer.medium))
            .unwrap_or_else(|| {
                media.push(Arc::clone(&layer.medium));
                media.len() - 1
            });
        let height_m = layer.height.in_metres();
        let (low_m2, high_m2) = (layer.base.in_square_metres(), layer.top.in_square_metres());
        let spacing_m = layer.spacing.in_metres();
        let footprint_m2 = layer.footprint.in_square_metres();
        if ![height_m, low_m2, high_m2, spacing_m]
            .into_iter()
            .all(positive)
        {
            return Err(NotAStation::Layer);
        }
        if !(footprint_m2 >= 0.0 && footprint_m2 <= ground_m2 * (1.0 + 1e-9)) {
            return Err(NotAStation::Ground);
        }
        beside.push((
            base_m,
            base_m + height_m,
            (ground_m2 - footprint_m2).max(0.0),
        ));
        if let Some(node) = nodes.last_mut() {
            let below_m2 = station.layers[which - 1].top.in_square_metres();
            node.open_m2 = (below_m2 - footprint_m2.max(low_m2)).max(0.0);
        } else {
            nodes.push(Node {
                height_m: 0.0,
                below: medium,
                above: medium,
                volume_below_m3: 0.0,
                volume_above_m3: 0.0,
                reach_below_m: 0.0,
                reach_above_m: 0.0,
                roots: 0.0,
                open_m2: 0.0,
                pond_m2: 0.0,
            });
        }
        let bare = |medium: usize| Node {
            height_m: base_m,
            below: medium,
            above: medium,
            volume_below_m3: 0.0,
            volume_above_m3: 0.0,
            reach_below_m: 0.0,
            reach_above_m: 0.0,
            roots: 0.0,
            open_m2: 0.0,
            pond_m2: 0.0,
        };
        if let Joint::Contact(contact) = layer.joint {
            if !(contact.share > 0.0
                && contact.share <= 1.0
                && contact.path_m >= 0.0
                && contact.path_m.is_finite()
                && contact.conductance_per_s > 0.0)
            {
                return Err(NotAStation::Contact);
            }
            let touching_m2 = contact.share * low_m2;
            let squeezed = |medium: usize| Element {
                medium: Some(medium),
                conduct: touching_m2 / contact.path_m,
                rise_m: 0.0,
            };
            if contact.path_m > 0.0 && which > 0 {
                let lower = nodes[nodes.len() - 1].below;
                elements.push(squeezed(lower));
                nodes.push(bare(lower));
            }
            if contact.conductance_per_s.is_finite() {
                elements.push(Element {
                    medium: None,
                    conduct: touching_m2 * contact.conductance_per_s,
                    rise_m: 0.0,
                });
                nodes.push(bare(medium));
            }
            if contact.path_m > 0.0 {
                if let Some(node) = nodes.last_mut() {
                    node.above = medium;
                }
                elements.push(squeezed(medium));
                nodes.push(bare(medium));
            }
        }
        let pieces = (height_m / spacing_m).ceil().max(1.0);
        if pieces > MOST_PIECES {
            return Err(NotAStation::TooFine);
        }
        let step_m = height_m / pieces;
        let breadth = |at_m: f64| {
            let along = at_m / height_m;
            low_m2.sqrt() + (high_m2.sqrt() - low_m2.sqrt()) * along
        };
        let section = |at_m: f64| breadth(at_m).powi(2);
        for piece in 0..pieces as usize {
            let (from, to) = (piece as f64 * step_m, (piece + 1) as f64 * step_m);
            let middle = f64::midpoint(from, to);
            if let Some(node) = nodes.last_mut() {
                node.above = medium;
                node.volume_above_m3 = frustum(section(from), section(middle), step_m / 2.0);
                node.reach_above_m = step_m / 2.0;
            }
            elements.push(Element {
                medium: Some(medium),
                // ∫ dz/A over a frustum is its length over the geometric mean of its ends.
                conduct: breadth(from) * breadth(to) / step_m,
                rise_m: step_m,
            });
            nodes.push(Node {
                height_m: base_m + to,
                volume_below_m3: frustum(section(middle), section(to), step_m / 2.0),
                reach_below_m: step_m / 2.0,
                ..bare(medium)
            });
        }
        base_m += height_m;
    }
    let top_m2 = station.layers[station.layers.len() - 1]
        .top
        .in_square_metres();
    if let Some(node) = nodes.last_mut() {
        node.open_m2 = top_m2;
        if station.top == Top::Open {
            node.pond_m2 = top_m2;
        }
    }
    if let Some(roots) = &station.roots {
        spread_roots(roots, &mut nodes)?;
    }
    Ok(Cut {
        nodes,
        elements,
        beside,
        top_m2,
    })
}

fn spread_roots(roots: &Roots<'_>, nodes: &mut [Node]) -> Result<(), NotAStation> {
    if !(roots.demand_m3_per_s >= 0.0 && roots.demand_m3_per_s.is_finite()) {
        return Err(NotAStation::Roots);
    }
    let mut all = 0.0;
    for node in nodes.iter_mut() {
        let below = (roots.density)(node.height_m - node.reach_below_m / 2.0);
        let above = (roots.density)(node.height_m + node.reach_above_m / 2.0);
        if !(below >= 0.0 && above >= 0.0) {
            return Err(NotAStation::Roots);
        }
        node.roots = below * node.volume_below_m3 + above * node.volume_above_m3;
        all += node.roots;
    }
    if !(all > 0.0 && all.is_finite()) {
        return Err(NotAStation::Roots);
    }
    for node in nodes {
        node.roots /= all;
    }
    Ok(())
}
