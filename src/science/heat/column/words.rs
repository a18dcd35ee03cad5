//! Why a column is not reckoned, and what would be right.

use std::fmt;

/// Why there is no answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoColumn {
    /// Pots without a size or a number.
    Pots,
    /// Pots that cover more than there is.
    PotsTooClose,
    /// A film, an emissivity, a wet share or a share of sun that cannot be.
    Surface,
    /// Water below nought, or a bed that is no layer.
    Tray,
    /// A refill below nought, or outside the day.
    Refill,
    /// No layer of ground, or a layer that is none.
    Floor,
    /// A resistance, a gap or a height that cannot be.
    Foot,
    /// Power, insulation or thermostat that cannot be.
    Heater,
    /// The thermostat's probe is at a place that this standing has not.
    Probe,
    /// A cover that loses no heat, or lies outside the day.
    Cover,
    /// Air, sun and sky that are no numbers, or too few of them.
    Course,
    /// Steps that are not above nought.
    Steps,
    /// A time that is not within the course, or runs backwards.
    Times,
    /// Temperatures that ran out of all bounds.
    OutOfBounds {
        /// When, s.
        time_s: f64,
    },
    /// What came in, went out and was stored does not add up: figures that lie too many powers of ten apart
    /// leave too few digits.
    DoesNotBalance {
        /// What is missing, as a share of all that flowed.
        gap: f64,
    },
    /// The day did not come to repeat itself.
    DoesNotSettle {
        /// How far its end still is from its beginning, K.
        drift_k: f64,
    },
    /// So many steps were not enough.
    TooManySteps {
        /// How far it came, s.
        time_s: f64,
    },
}

impl fmt::Display for NoColumn {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Pots => "Pots need a breadth, a depth and a number per m², each more than 0.",
            Self::PotsTooClose => {
                "So many pots of this size cover more than there is: space them, or check their breadth."
            }
            Self::Surface => {
                "A film must be 0 or more, and the shares of a surface (wet, sunlit, emissivity) between 0 and 1."
            }
            Self::Tray => {
                "Water in the tray must be 0 or more, and a bed must have a depth above 0."
            }
            Self::Refill => "A refill needs 0 or more litres and an hour between 0 and 24.",
            Self::Floor => "The floor needs at least one layer with a thickness above 0, and a temperature below it.",
            Self::Foot => "The resistance between tray and floor, and the films of a gap, must be more than 0.",
            Self::Heater => {
                "Power must be 0 or more, insulation more than 0, and the thermostat must switch within a band above 0."
            }
            Self::Probe => "The thermostat's probe must be at a place that is there.",
            Self::Cover => {
                "A cover must lose some heat and lie from one hour of the day to another, both between 0 and 24."
            }
            Self::Course => "Give the air, sun and sky of at least two times, each a number.",
            Self::Steps => "Steps must be more than 0 and no longer than an hour.",
            Self::Times => "The end must come after the beginning, within the days given.",
            Self::OutOfBounds { .. } => {
                "The temperatures ran out of all bounds: check the figures that were put in."
            }
            Self::DoesNotBalance { .. } => {
                "Some of these figures are far too large or too small for the others: check them."
            }
            Self::DoesNotSettle { .. } => {
                "The day did not come to repeat itself: check the figures that were put in."
            }
            Self::TooManySteps { .. } => {
                "The thermostat switched too often to follow: give it a wider band."
            }
        })
    }
}

impl std::error::Error for NoColumn {}
