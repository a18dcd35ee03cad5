//! The question of Root zone, read and checked.

use crate::handbook::Figure;
use std::cell::OnceCell;
use std::rc::Rc;

use super::come::Best;
use super::own::{Before, Own};
use crate::handbook::bed_media::BedMedium;
use crate::handbook::climates::Climate;
use crate::handbook::heat::{BenchCover, Board, Ground, HouseCover, RootCrop};
use crate::measure::{Area, HeatDensity, Length, Temperature, TemperatureDifference, Volume};
use crate::reckon::mix;
use crate::science::heat::air::day_shape::LowestHighest;
use crate::science::heat::column::Place;

/// Where pots may stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stand {
    /// On the floor of the house.
    Floor,
    /// Raised above it.
    Raised,
    /// On a heated bench.
    Bench,
}

impl Stand {
    /// All of them, in the order in which they are told.
    pub const ALL: [Self; 3] = [Self::Floor, Self::Raised, Self::Bench];

    /// Its place among all.
    #[must_use]
    pub fn place(self) -> usize {
        self as usize
    }
}

/// Where a probe may sit, in the order of the keys of the question.
pub const PROBES: [Place; 5] = [
    Place::PotBottom,
    Place::PotMiddle,
    Place::Heater,
    Place::Water,
    Place::Air,
];

/// What is known of the air.
#[derive(Clone, Copy, Debug)]
pub enum Air {
    /// In the house: at bench height, and at the floor where that is known.
    Inside {
        /// At bench height.
        bench: LowestHighest,
        /// At the floor.
        floor: Option<LowestHighest>,
    },
    /// Outside, by day and night; the house is reckoned.
    Outside(LowestHighest),
}

/// The house, as far as its air is reckoned.
#[derive(Clone, Copy, Debug)]
pub struct Shell {
    /// What it is covered with.
    pub cover: &'static HouseCover,
    /// Changes of air an hour.
    pub air_changes_per_h: Figure,
    /// Length.
    pub length: Length,
    /// Width.
    pub width: Length,
    /// Mean height.
    pub height: Length,
}

/// What is known of the ground under the house by one's own readings.
#[derive(Clone, Copy, Debug, Default)]
pub struct GroundKnown {
    /// A metre down, in the month asked about.
    pub deep: Option<Temperature>,
    /// Mean of the year at its surface.
    pub mean: Option<Temperature>,
    /// Half of what its surface swings through the year.
    pub swing: Option<TemperatureDifference>,
}

/// A bed in the tray.
#[derive(Clone, Copy, Debug)]
pub struct Laid {
    /// Of what.
    pub medium: &'static BedMedium,
    /// How deep.
    pub depth: Length,
}

/// A heated bench.
#[derive(Clone, Copy, Debug)]
pub struct Heated {
    /// Held at.
    pub set: Temperature,
    /// Where the probe sits.
    pub probe: Place,
    /// Power installed.
    pub power: HeatDensity,
    /// Insulation below, and how thick.
    pub board: Option<(&'static Board, Length)>,
    /// Its area.
    pub area: Area,
}

/// A cover over the bench.
#[derive(Clone, Copy, Debug)]
pub struct Covered {
    /// Of what.
    pub cover: &'static BenchCover,
    /// Closed from, hour of the day.
    pub from_h: f64,
    /// Closed to.
    pub to_h: f64,
}

/// What is bought, and for how long.
#[derive(Clone, Copy, Debug)]
pub struct Bought {
    /// Its price, where it is known.
    pub price: Option<f64>,
    /// Seasons that it lasts.
    pub seasons: f64,
}

/// Money.
#[derive(Clone, Copy, Debug)]
pub struct Money {
    /// A kilowatt-hour, where it is known.
    pub tariff: Option<f64>,
    /// Weeks in a season in which the bench is heated.
    pub weeks: f64,
    /// A cover for the bench.
    pub cover: Bought,
    /// Its insulation.
    pub board: Bought,
}

/// The question, read and checked.
#[derive(Clone, Debug)]
pub struct Case {
    /// Where the pots would stand.
    pub stand: Stand,
    /// What its roots ask for.
    pub crop: &'static RootCrop,
    /// What it is called.
    pub crop_name: &'static str,
    /// Whether seed comes up or cuttings root; otherwise plants are in leaf.
    pub rooting: bool,
    /// Weather of the place.
    pub climate: &'static Climate,
    /// Degrees north.
    pub latitude: f64,
    /// Month, 0 for January.
    pub month: usize,
    /// The air.
    pub air: Air,
    /// Mean relative humidity inside, fraction, where it is known.
    pub humidity: Option<f64>,
    /// Maximum inside on the hottest day of July.
    pub hottest: Temperature,
    /// The house.
    pub shell: Shell,
    /// What lies on the earth, and how thick; none for bare earth.
    pub top: Option<(&'static Ground, Length)>,
    /// What is known of the ground below.
    pub ground: GroundKnown,
    /// How high a raised tray stands.
    pub raised: Length,
    /// Whether on boards; otherwise on slats.
    pub on_boards: bool,
    /// The heated bench.
    pub heated: Heated,
    /// A cover over it.
    pub cover: Option<Covered>,
    /// The mix in its pot, and the bench.
    pub mix: mix::Case,
    /// Pots on a square metre.
    pub pots_per_m2: f64,
    /// Mean depth of free water in the tray.
    pub water: Length,
    /// A bed in it.
    pub bed: Option<Laid>,
    /// What a plant drinks in a day.
    pub drinks: Volume,
    /// How warm the tank is, where that is known.
    pub tank: Option<Temperature>,
    /// Money.
    pub money: Money,
    /// Days with readings of one's own, where there are any.
    pub own: Option<Own>,
    /// What was fitted to such readings before.
    pub fitted: Before,
    /// What comes of it at the best figures, once that was asked for.
    pub(super) best: OnceCell<Rc<Best>>,
}

impl Case {
    /// Whether the air at the floor was read apart.
    #[must_use]
    pub fn floor_air_is_read(&self) -> bool {
        matches!(self.air, Air::Inside { floor: Some(_), .. })
    }
}
