//! The question of Root zone as it is typed.

use super::own::Fits;
use crate::measure::{
    Area, Duration, Entry, HeatDensity, Length, Temperature, TemperatureDifference, Volume,
};
use crate::reckon::form::{Numbers, asked};
use crate::reckon::mix::{self, BenchAsked, PartAsked};
use crate::reckon::pot::{self, PotAsked};

/// Pots of a mix in a tray, where they may stand, and the air over them.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct Question {
    /// Where the pots would stand, which is answered first: floor, raised or bench.
    pub stand: String,
    /// The crop, such as tomato.
    pub crop: String,
    /// What it does: leaf, or rooting (also emergence).
    pub stage: String,
    /// Where and when.
    pub place: PlaceAsked,
    /// The air.
    pub air: AirAsked,
    /// The floor.
    pub floor: FloorAsked,
    /// A raised tray.
    pub raised: RaisedAsked,
    /// A heated bench.
    pub heated: HeatedAsked,
    /// A cover over the bench.
    pub cover: CoverAsked,
    /// The parts of the mix, as in Mix.
    pub parts: Vec<PartAsked>,
    /// The pot.
    pub pot: PotAsked,
    /// How the pots are set out.
    pub bench: BenchAsked,
    /// Water and bed in the tray.
    pub tray: TrayAsked,
    /// What heat costs.
    pub money: MoneyAsked,
    /// The air of days with readings of one's own, one after the other; mostly none.
    pub days: Vec<DayAsked>,
    /// The readings of those days, where they would stand.
    pub readings: Vec<ReadingAsked>,
    /// What was fitted to such readings before; mostly empty.
    pub fitted: FittedAsked,
}

asked! {
    /// Where and when.
    PlaceAsked {
        /// Key of a climate such as east_anglia.
        climate: String,
        /// Degrees north; empty for those of the climate.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        latitude: Entry,
        /// The month, 1 to 12.
        month: String,
    }
}

asked! {
    /// The air of the house and its cover.
    AirAsked {
        /// What is known: inside (minimum and maximum in the house) or outside (the house is reckoned from the
        /// weather).
        by: String,
        /// Mean minimum, in the house at bench height or outside.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        low: Entry,
        /// Mean maximum.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        high: Entry,
        /// Mean minimum at the floor; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        floor_low: Entry,
        /// Mean maximum at the floor; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        floor_high: Entry,
        /// Mean relative humidity inside, such as "75 %"; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        humidity: Entry,
        /// Maximum inside on the hottest day of July, for pots in the sun.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        hottest: Entry,
        /// The cover of the house, such as glass.
        cover: String,
        /// How tight the house is: old, poor or new.
        repair: String,
        /// Length of the house.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        length: Entry,
        /// Width of the house.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        width: Entry,
        /// Mean height of the house.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        height: Entry,
    }
}

asked! {
    /// The floor.
    FloorAsked {
        /// What lies on the earth: a ground such as concrete, or earth for nothing.
        top: String,
        /// How thick.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        thickness: Entry,
        /// Temperature a metre down, by one's own reading; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        deep: Entry,
        /// Mean of the year at its surface, under the house; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        mean: Entry,
        /// Half of what it swings there from winter to summer; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        swing: Entry,
    }
}

asked! {
    /// A raised tray.
    RaisedAsked {
        /// How high above the floor.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        height: Entry,
        /// On what: slats or boards.
        on: String,
    }
}

asked! {
    /// A heated bench.
    HeatedAsked {
        /// Held at.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        set: Entry,
        /// Where the probe sits: pot_bottom, pot_middle, heater, water or air.
        probe: String,
        /// Power installed.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        power: Entry,
        /// The insulating board below, such as eps, or none.
        board: String,
        /// How thick it is.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        thickness: Entry,
        /// Area of the bench.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        area: Entry,
    }
}

asked! {
    /// A cover over the heated bench.
    CoverAsked {
        /// none, film or film_and_fleece.
        kind: String,
        /// Closed from, hour of the day.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        from: Entry,
        /// Closed to, hour of the day.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        to: Entry,
    }
}

asked! {
    /// Water and bed in the tray.
    TrayAsked {
        /// Mean depth of free water.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        water: Entry,
        /// Key of a bed medium, or none.
        medium: String,
        /// Depth of the bed.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        bed: Entry,
        /// What a plant drinks in a day.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        drinks: Entry,
        /// How warm the tank is; empty where it is as warm as the mean of the air.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        tank: Entry,
    }
}

asked! {
    /// What heat costs, in one's own money.
    MoneyAsked {
        /// A kilowatt-hour; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        tariff: Entry,
        /// Weeks in a season in which the bench is heated.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        weeks: Entry,
        /// Price of a cover for the bench; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        cover_price: Entry,
        /// Seasons that it lasts.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        cover_life: Entry,
        /// Price of the insulation; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        board_price: Entry,
        /// Seasons that it lasts.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        board_life: Entry,
    }
}

asked! {
    /// The air of a day at bench height.
    DayAsked {
        /// Minimum, at its dawn.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        low: Entry,
        /// Maximum, in its afternoon; empty where it was not read.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        high: Entry,
    }
}

asked! {
    /// A reading of one's own.
    ReadingAsked {
        /// Of what: root (in the middle of a pot), water or bed.
        what: String,
        /// On which of the days: 1 for the first.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        day: Entry,
        /// At which hour, by the sun, such as 6.5.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        hour: Entry,
        /// What it read.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        temperature: Entry,
    }
}

asked! {
    /// A figure fitted before.
    #[derive(Default)]
    RangeAsked {
        /// In 1 of 10 cases it is lower.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        low: Entry,
        /// The most likely.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        best: Entry,
        /// In 1 of 10 cases it is higher.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        high: Entry,
    }
}

asked! {
    /// What was fitted to one's own readings before; empty where nothing was.
    #[derive(Default)]
    FittedAsked {
        /// How well air gets at the walls of the pots, times what is usual.
        walls: RangeAsked,
        /// How much warmer air is at bench height than at the floor by night, K.
        night: RangeAsked,
        /// The sun that pots and tray take up, times what is usual.
        sun: RangeAsked,
    }
}

/// On the floor.
pub const FLOOR: &str = "floor";
/// Raised.
pub const RAISED: &str = "raised";
/// On the heated bench.
pub const BENCH: &str = "bench";
/// Plants in leaf.
pub const LEAF: &str = "leaf";
/// Seed coming up and cuttings rooting.
pub const ROOTING: &str = "rooting";
/// The air of the house is known.
pub const INSIDE: &str = "inside";
/// The weather is known.
pub const OUTSIDE: &str = "outside";
/// Nothing of the kind.
pub const NONE: &str = "none";
/// Slats.
pub const SLATS: &str = "slats";
/// Boards.
pub const BOARDS_ON: &str = "boards";
/// The places of a probe, in the order of [`super::case::PROBES`].
pub const PROBE_KEYS: [&str; 5] = ["pot_bottom", "pot_middle", "heater", "water", "air"];
/// The months.
pub const MONTH_KEYS: [&str; 12] = [
    "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12",
];
/// The ends of a range that was fitted.
pub const FITTED_ENDS: [&str; 3] = ["low", "best", "high"];

/// Where the question asks for an end of what was fitted, by the figure's key.
#[must_use]
pub fn fitted_at(key: &str, end: &str) -> String {
    ["fitted.", key, ".", end].concat()
}

/// What one's own thermometer reads, in the order of [`super::own::PLACES`].
pub const READ_KEYS: [&str; 3] = ["root", "water", "bed"];
/// Days with readings at most.
pub const MOST_DAYS: usize = 14;
/// Readings at most.
pub const MOST_READINGS: usize = 60;
/// How tight houses are.
pub const REPAIRS: [&str; 3] = ["old", "poor", "new"];

fn millimetres(text: &str) -> Entry {
    Entry::new(text, Length::MILLIMETRE.key)
}

fn metres(text: &str) -> Entry {
    Entry::new(text, Length::METRE.key)
}

fn celsius(text: &str) -> Entry {
    Entry::new(text, Temperature::DEGREE_CELSIUS.key)
}

fn oclock(text: &str) -> Entry {
    Entry::new(text, Duration::HOUR.key)
}

impl Default for Question {
    /// Young tomatoes in April, in a house of 4 to 19 °C.
    fn default() -> Self {
        let of_mix = mix::Question::default();
        Self {
            stand: RAISED.to_owned(),
            crop: "tomato".to_owned(),
            stage: LEAF.to_owned(),
            place: PlaceAsked::default(),
            air: AirAsked::default(),
            floor: FloorAsked::default(),
            raised: RaisedAsked::default(),
            heated: HeatedAsked::default(),
            cover: CoverAsked::default(),
            parts: of_mix.parts,
            pot: PotAsked::default(),
            bench: BenchAsked {
                spacing: millimetres("110"),
                ..of_mix.bench
            },
            tray: TrayAsked::default(),
            money: MoneyAsked::default(),
            days: Vec::new(),
            readings: Vec::new(),
            fitted: FittedAsked::default(),
        }
    }
}

impl Default for DayAsked {
    fn default() -> Self {
        Self {
            low: celsius(""),
            high: celsius(""),
        }
    }
}

impl Default for ReadingAsked {
    fn default() -> Self {
        Self {
            what: READ_KEYS[0].to_owned(),
            day: Entry::default(),
            hour: oclock(""),
            temperature: celsius(""),
        }
    }
}

impl DayAsked {
    /// Its numbers.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![("low", &mut self.low), ("high", &mut self.high)]
    }
}

impl ReadingAsked {
    /// Its numbers.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("day", &mut self.day),
            ("hour", &mut self.hour),
            ("temperature", &mut self.temperature),
        ]
    }

    /// Its choice.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 1] {
        [("what", &mut self.what)]
    }
}

impl FittedAsked {
    /// Of one figure.
    #[must_use]
    pub fn of(&self, fits: Fits) -> &RangeAsked {
        match fits {
            Fits::Walls => &self.walls,
            Fits::Night => &self.night,
            Fits::Sun => &self.sun,
        }
    }
}

impl RangeAsked {
    /// Whether nothing is said of it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.low.is_empty() && self.best.is_empty() && self.high.is_empty()
    }
}

impl Default for PlaceAsked {
    fn default() -> Self {
        Self {
            climate: "east_anglia".to_owned(),
            latitude: Entry::default(),
            month: "4".to_owned(),
        }
    }
}

impl Default for AirAsked {
    fn default() -> Self {
        Self {
            by: INSIDE.to_owned(),
            low: celsius("4"),
            high: celsius("19"),
            floor_low: celsius(""),
            floor_high: celsius(""),
            humidity: Entry::new("", crate::measure::Fraction::PERCENT.key),
            hottest: celsius("42"),
            cover: "glass".to_owned(),
            repair: "old".to_owned(),
            length: metres("10"),
            width: metres("5"),
            height: metres("2.5"),
        }
    }
}

impl Default for FloorAsked {
    fn default() -> Self {
        Self {
            top: "earth".to_owned(),
            thickness: millimetres("100"),
            deep: celsius(""),
            mean: celsius(""),
            swing: Entry::new("", TemperatureDifference::DEGREE_CELSIUS.key),
        }
    }
}

impl Default for RaisedAsked {
    fn default() -> Self {
        Self {
            height: millimetres("300"),
            on: SLATS.to_owned(),
        }
    }
}

impl Default for HeatedAsked {
    fn default() -> Self {
        Self {
            set: celsius("21"),
            probe: "pot_bottom".to_owned(),
            power: Entry::new("100", HeatDensity::WATT_PER_SQUARE_METRE.key),
            board: "eps".to_owned(),
            thickness: millimetres("50"),
            area: Entry::new("5", Area::SQUARE_METRE.key),
        }
    }
}

impl Default for CoverAsked {
    fn default() -> Self {
        Self {
            kind: "film".to_owned(),
            from: oclock("18"),
            to: oclock("8"),
        }
    }
}

impl Default for TrayAsked {
    fn default() -> Self {
        Self {
            water: millimetres("10"),
            medium: NONE.to_owned(),
            bed: millimetres("30"),
            drinks: Entry::new("60", Volume::MILLILITRE.key),
            tank: celsius(""),
        }
    }
}

impl Default for MoneyAsked {
    fn default() -> Self {
        Self {
            tariff: Entry::default(),
            weeks: Entry::number(8.0),
            cover_price: Entry::default(),
            cover_life: Entry::number(3.0),
            board_price: Entry::default(),
            board_life: Entry::number(10.0),
        }
    }
}

impl Question {
    /// Every number that is not one of a part, by its path.
    pub fn numbers(&mut self) -> Numbers<'_> {
        let mut numbers = self.pot.numbers();
        numbers.extend([
            ("place.latitude", &mut self.place.latitude),
            ("air.low", &mut self.air.low),
            ("air.high", &mut self.air.high),
            ("air.floor_low", &mut self.air.floor_low),
            ("air.floor_high", &mut self.air.floor_high),
            ("air.humidity", &mut self.air.humidity),
            ("air.hottest", &mut self.air.hottest),
            ("air.length", &mut self.air.length),
            ("air.width", &mut self.air.width),
            ("air.height", &mut self.air.height),
            ("floor.thickness", &mut self.floor.thickness),
            ("floor.deep", &mut self.floor.deep),
            ("floor.mean", &mut self.floor.mean),
            ("floor.swing", &mut self.floor.swing),
            ("raised.height", &mut self.raised.height),
            ("heated.set", &mut self.heated.set),
            ("heated.power", &mut self.heated.power),
            ("heated.thickness", &mut self.heated.thickness),
            ("heated.area", &mut self.heated.area),
            ("cover.from", &mut self.cover.from),
            ("cover.to", &mut self.cover.to),
            ("bench.spacing", &mut self.bench.spacing),
            ("tray.water", &mut self.tray.water),
            ("tray.bed", &mut self.tray.bed),
            ("tray.drinks", &mut self.tray.drinks),
            ("tray.tank", &mut self.tray.tank),
            ("money.tariff", &mut self.money.tariff),
            ("money.weeks", &mut self.money.weeks),
            ("money.cover_price", &mut self.money.cover_price),
            ("money.cover_life", &mut self.money.cover_life),
            ("money.board_price", &mut self.money.board_price),
            ("money.board_life", &mut self.money.board_life),
            ("fitted.walls.low", &mut self.fitted.walls.low),
            ("fitted.walls.best", &mut self.fitted.walls.best),
            ("fitted.walls.high", &mut self.fitted.walls.high),
            ("fitted.night.low", &mut self.fitted.night.low),
            ("fitted.night.best", &mut self.fitted.night.best),
            ("fitted.night.high", &mut self.fitted.night.high),
            ("fitted.sun.low", &mut self.fitted.sun.low),
            ("fitted.sun.best", &mut self.fitted.sun.best),
            ("fitted.sun.high", &mut self.fitted.sun.high),
        ]);
        numbers
    }

    /// Every choice that is not one of a part, by its path.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 16] {
        [
            ("stand", &mut self.stand),
            ("crop", &mut self.crop),
            ("stage", &mut self.stage),
            ("place.climate", &mut self.place.climate),
            ("place.month", &mut self.place.month),
            ("air.by", &mut self.air.by),
            ("air.cover", &mut self.air.cover),
            ("air.repair", &mut self.air.repair),
            ("floor.top", &mut self.floor.top),
            ("raised.on", &mut self.raised.on),
            ("heated.probe", &mut self.heated.probe),
            ("heated.board", &mut self.heated.board),
            ("cover.kind", &mut self.cover.kind),
            (pot::SIZE, &mut self.pot.size),
            ("bench.set_out", &mut self.bench.set_out),
            ("tray.medium", &mut self.tray.medium),
        ]
    }
}
