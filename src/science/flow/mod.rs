//! The flow of water from a tray through a capillary bed and the root ball that stands on it.
//!
//! Richards' equation in one dimension, upwards, over a section A that varies with height z:
//!
//! A ∂θ/∂t = ∂/∂z \[A K(h) (∂h/∂z + 1)\] - roots - evaporation.
//!
//! | file | what it holds |
//! |---|---|
//! | `table` | the curves of a medium, tabulated for the time loop |
//! | `element` | the flow between two neighbouring heights |
//! | `station` | what stands in the tray: layers, joints, roots |
//! | `uptake` | the response of roots to suction; the course of demand through a day |
//! | `tray` | how the tray is filled |
//! | `balance` | what came in, went out and is stored |
//! | `solve` | columns that share one tray; one implicit stage by Newton's method; steps through time |
//! | `steady`, `wicking` | answers in closed form |
//!
//! **Method.** Water is conserved at each node as in the mixed form of Celia, Bouloutas & Zarba 1990
//! (Water Resources Research 26:1483), but solved by Newton's method on a stretched head
//! (see `table`) instead of Picard's, and stepped by the two-stage, second-order, stiffly accurate
//! Runge-Kutta method of Alexander 1977 (SIAM Journal on Numerical Analysis 14:1006) with steps chosen from its
//! embedded first-order error. From stage to stage the water that the flows say there must be is
//! carried, not the water of the last iterate, so that what iteration leaves over does not add up.
//!
//! **Tray.** All stations share one water level. A floor that slopes is a row of stations whose floors
//! lie at different heights. Between a station's foot and the tray only free water moves: a foot above
//! the level neither drinks from the tray nor holds it back.

mod balance;
mod element;
mod solve;
mod station;
pub mod steady;
mod table;
mod tray;
mod uptake;
pub mod wicking;

use std::fmt;

pub use balance::Balance;
pub use solve::{Flow, Steps, Weather};
pub use station::{Contact, Foot, Joint, Layer, NotAStation, Roots, Station, Top};
pub use table::{NotCurves, Table};
pub use tray::Filling;
pub use uptake::{HalfSine, NotAStress, Stress};

/// Why there is no answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoFlow {
    /// What stands in the tray cannot be set up.
    Station(NotAStation),
    /// The filling has a level, rate or time that makes no sense.
    Filling,
    /// A step, the tolerance or a time is not above nought.
    Steps,
    /// The first heads are not numbers.
    Start,
    /// The weather gave something that is not a number, or is below nought, at this time.
    Weather {
        /// Since the start, s.
        time_s: f64,
    },
    /// No step could be solved, however short.
    DoesNotConverge {
        /// Since the start, s.
        time_s: f64,
    },
    /// The steps allowed were used up.
    TooManySteps {
        /// How far it came, s.
        time_s: f64,
    },
}

impl fmt::Display for NoFlow {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Station(problem) => problem.fmt(out),
            Self::Filling => out.write_str(
                "the tray must fill at a rate above nought, to a level above the one at which filling begins",
            ),
            Self::Steps => out.write_str("steps and tolerances must be above nought"),
            Self::Start => out.write_str("the water at the start must be given at every height"),
            Self::Weather { .. } => {
                out.write_str("demand, evaporation and watering must be nought or more")
            }
            Self::DoesNotConverge { .. } => out.write_str(
                "the flow of water could not be solved here: a finer spacing or a less sudden medium would help",
            ),
            Self::TooManySteps { .. } => out.write_str(
                "the flow of water took too long to solve: a coarser spacing or tolerance would help",
            ),
        }
    }
}

impl std::error::Error for NoFlow {}

impl From<NotAStation> for NoFlow {
    fn from(problem: NotAStation) -> Self {
        Self::Station(problem)
    }
}
