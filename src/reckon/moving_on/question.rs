//! The question of Moving on as it is typed.

use crate::measure::{Duration, Entry, Fraction, Length, Mass, Temperature, TemperatureDifference};
use crate::reckon::form::{Numbers, asked};

/// Which batch, which move, what is seen, and where it goes.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct Question {
    /// Key of a crop such as sweet_basil.
    pub crop: String,
    /// The move: prick_out, pot_on, cold_house or outdoors.
    #[cfg_attr(feature = "terminal", serde(rename = "move"))]
    pub moves: String,
    /// The day it is, such as 2027-05-20.
    pub today: String,
    /// The day from which its way is counted.
    pub since: String,
    /// What that day is: up for the day it came up, moved for that of its last move.
    pub from: String,
    /// Key of the pot it is in.
    pub pot: String,
    /// Key of the pot it goes into; only asked for potting on.
    pub next: String,
    /// How many plants.
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub plants: Entry,
    /// Key of a climate such as east_anglia.
    pub climate: String,
    /// Where it stood since.
    pub stood: StoodAsked,
    /// What is seen of it.
    pub seen: SeenAsked,
    /// A plant that was weighed; all four or none.
    pub weighed: WeighedAsked,
    /// Where it goes.
    pub place: PlaceAsked,
    /// Minima read in that place.
    pub nights: Vec<NightAsked>,
    /// Minima forecast for the open, tonight's first.
    pub forecasts: Vec<ForecastAsked>,
    /// The batch of the record that it is; empty where it is none.
    pub batch: String,
    /// Moves of this crop into cold before, and how they went.
    pub earlier: Vec<EarlierAsked>,
    /// What one's own batches of it needed.
    pub own: OwnAsked,
    /// Where in the record it goes; empty where that is not of it.
    pub to: String,
    /// The points that are looked at, in their order; empty for the usual ones in their usual order.
    pub card: Vec<PointAsked>,
}

asked! {
    /// A point of the card.
    PointAsked {
        /// Its key: ball, circling, tips, leaves, height, flower, pests or hardened; own for one of one's own.
        what: String,
        /// Of one's own: what to look for.
        words: String,
        /// Of one's own: needed where a batch does not move without it, tells where it decides nothing alone.
        weight: String,
        /// Of one's own: yes, no, or empty where nobody looked.
        seen: String,
    }
}

asked! {
    /// Where a batch stood.
    StoodAsked {
        /// Mean minimum.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        low: Entry,
        /// Mean maximum.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        high: Entry,
        /// Light, mol/m² in a day; empty for that of the sun under glass.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        light: Entry,
    }
}

asked! {
    /// What is seen; empty where nobody looked.
    SeenAsked {
        /// The ball when it is knocked out, 1 for none to 5 for whole.
        ball: String,
        /// Roots at the wall of the pot, 0 for none to 3 for a mat.
        circling: String,
        /// Colour of the root tips: white, tan or brown.
        tips: String,
        /// True leaves, as the crop's are counted.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        leaves: Entry,
        /// Height above the mix.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        height: Entry,
        /// Flower: none, bud or open.
        flower: String,
        /// Pests: none, few or many.
        pests: String,
        /// How many days it was hardened.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        hardened: Entry,
    }
}

asked! {
    /// A plant that was measured and dried and weighed.
    WeighedAsked {
        /// Its height.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        height: Entry,
        /// The thickness of its stem at the collar.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        stem: Entry,
        /// Dry mass above the mix.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        shoot: Entry,
        /// Dry mass of the roots.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        root: Entry,
    }
}

asked! {
    /// Where a batch goes.
    PlaceAsked {
        /// How much warmer its nights are than those outside.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        night: Entry,
        /// What it is held at by heat; empty where it is not heated.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        held: Entry,
        /// What lies over the plants by night: none or fleece.
        cover: String,
        /// The highest temperature expected there; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        hottest: Entry,
        /// Pots that still find room there; empty where that is not asked.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        room: Entry,
        /// Trays that are free there; empty where pots do not stand in trays.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        trays: Entry,
        /// Pots that a tray takes.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        in_tray: Entry,
        /// Float valves that are free there, one to a tray; empty where they are not counted.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        floats: Entry,
    }
}

asked! {
    /// A move of before.
    EarlierAsked {
        /// The coldest night in the two weeks after it.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        low: Entry,
        /// How it went: well, slowly, checked or harmed.
        went: String,
    }
}

asked! {
    /// What one's own batches needed, beside the handbook.
    OwnAsked {
        /// Warmth, % of what the handbook has; empty for what it has.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        warmth: Entry,
        /// How far the next batch may be off that, 8 in 10, % of what the handbook has.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        off: Entry,
    }
}

asked! {
    /// A minimum that was read.
    NightAsked {
        /// The morning on which it was read.
        day: String,
        /// The minimum.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        low: Entry,
    }
}

asked! {
    /// A minimum that is forecast for the open.
    ForecastAsked {
        /// The minimum.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        low: Entry,
    }
}

/// Seedlings into their first pot.
pub const PRICK_OUT: &str = "prick_out";
/// Into a bigger pot.
pub const POT_ON: &str = "pot_on";
/// Into an unheated house.
pub const COLD_HOUSE: &str = "cold_house";
/// Into the open.
pub const OUTDOORS: &str = "outdoors";
/// All moves.
pub const MOVES: [&str; 4] = [PRICK_OUT, POT_ON, COLD_HOUSE, OUTDOORS];
/// Counted from coming up.
pub const UP: &str = "up";
/// Counted from the last move.
pub const MOVED: &str = "moved";
/// What is counted from.
pub const FROM: [&str; 2] = [UP, MOVED];
/// What lies over the plants.
pub const COVERS: [&str; 2] = ["none", "fleece"];
/// Colours of root tips, the best first.
pub const TIPS: [&str; 3] = ["white", "tan", "brown"];
/// Flowers, the earliest first.
pub const FLOWERS: [&str; 3] = ["none", "bud", "open"];
/// Pests, the fewest first.
pub const PESTS: [&str; 3] = ["none", "few", "many"];
/// How a move went well.
pub const WELL: &str = "well";
/// It stood still for a while.
pub const SLOWLY: &str = "slowly";
/// Its growth was checked.
pub const CHECKED: &str = "checked";
/// Cold harmed it.
pub const HARMED: &str = "harmed";
/// How a move went, the best first.
pub const WENT: [&str; 4] = [WELL, SLOWLY, CHECKED, HARMED];
/// Scores of the ball.
pub const BALLS: [&str; 5] = ["1", "2", "3", "4", "5"];
/// Scores of circling.
pub const CIRCLINGS: [&str; 4] = ["0", "1", "2", "3"];
/// A point of one's own.
pub const OWN: &str = "own";
/// What a batch does not move without.
pub const NEEDED: &str = "needed";
/// What tells, and decides nothing alone.
pub const TELLS: &str = "tells";
/// How much may hang on a point of one's own.
pub const WEIGHTS: [&str; 2] = [NEEDED, TELLS];
/// What may be seen of a point of one's own.
pub const OWN_SEEN: [&str; 2] = ["yes", "no"];
/// Points of a card at most.
pub const MOST_POINTS: usize = 16;
/// Letters at most of what to look for at a point of one's own.
pub const MOST_LETTERS: usize = 120;
/// Logged nights at most.
pub const MOST_NIGHTS: usize = 30;
/// Forecast nights at most.
pub const MOST_FORECASTS: usize = 7;
/// Moves of before at most.
pub const MOST_EARLIER: usize = 30;

fn celsius(text: &str) -> Entry {
    Entry::new(text, Temperature::DEGREE_CELSIUS.key)
}

fn kelvins(text: &str) -> Entry {
    Entry::new(text, TemperatureDifference::DEGREE_CELSIUS.key)
}

impl Default for Question {
    /// Basil on a heated bench in the middle of April, to go into a cold house.
    fn default() -> Self {
        Self {
            crop: "sweet_basil".to_owned(),
            moves: COLD_HOUSE.to_owned(),
            today: "2027-04-15".to_owned(),
            since: "2027-03-20".to_owned(),
            from: MOVED.to_owned(),
            pot: "round_9_cm".to_owned(),
            next: "round_1_l".to_owned(),
            plants: Entry::number(100.0),
            climate: "east_anglia".to_owned(),
            stood: StoodAsked::default(),
            seen: SeenAsked::default(),
            weighed: WeighedAsked::default(),
            place: PlaceAsked::default(),
            nights: Vec::new(),
            forecasts: Vec::new(),
            batch: String::new(),
            earlier: Vec::new(),
            own: OwnAsked::default(),
            to: String::new(),
            card: Vec::new(),
        }
    }
}

impl Default for EarlierAsked {
    fn default() -> Self {
        Self {
            low: celsius(""),
            went: WELL.to_owned(),
        }
    }
}

impl Default for OwnAsked {
    fn default() -> Self {
        Self {
            warmth: Entry::new("", Fraction::PERCENT.key),
            off: Entry::new("", Fraction::PERCENT.key),
        }
    }
}

impl Default for PointAsked {
    /// One of one's own of which nothing is said yet.
    fn default() -> Self {
        Self {
            what: OWN.to_owned(),
            words: String::new(),
            weight: TELLS.to_owned(),
            seen: String::new(),
        }
    }
}

impl PointAsked {
    /// A point by its key.
    #[must_use]
    pub fn of(what: &str) -> Self {
        Self {
            what: what.to_owned(),
            ..Self::default()
        }
    }

    /// Whether it is one of one's own.
    #[must_use]
    pub fn is_own(&self) -> bool {
        self.what == OWN
    }
}

impl Default for StoodAsked {
    fn default() -> Self {
        Self {
            low: celsius("18"),
            high: celsius("24"),
            light: Entry::default(),
        }
    }
}

impl Default for SeenAsked {
    fn default() -> Self {
        Self {
            ball: String::new(),
            circling: String::new(),
            tips: String::new(),
            leaves: Entry::default(),
            height: Entry::new("", Length::CENTIMETRE.key),
            flower: String::new(),
            pests: String::new(),
            hardened: Entry::new("", Duration::DAY.key),
        }
    }
}

impl Default for WeighedAsked {
    fn default() -> Self {
        Self {
            height: Entry::new("", Length::CENTIMETRE.key),
            stem: Entry::new("", Length::MILLIMETRE.key),
            shoot: Entry::new("", Mass::GRAM.key),
            root: Entry::new("", Mass::GRAM.key),
        }
    }
}

impl Default for PlaceAsked {
    fn default() -> Self {
        Self {
            night: kelvins("2"),
            held: celsius(""),
            cover: "none".to_owned(),
            hottest: celsius(""),
            room: Entry::default(),
            trays: Entry::default(),
            in_tray: Entry::default(),
            floats: Entry::default(),
        }
    }
}

impl Default for NightAsked {
    fn default() -> Self {
        Self {
            day: String::new(),
            low: celsius(""),
        }
    }
}

impl Default for ForecastAsked {
    fn default() -> Self {
        Self { low: celsius("") }
    }
}

impl Question {
    /// Every number that is not in a row, by its path.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("plants", &mut self.plants),
            ("stood.low", &mut self.stood.low),
            ("stood.high", &mut self.stood.high),
            ("stood.light", &mut self.stood.light),
            ("seen.leaves", &mut self.seen.leaves),
            ("seen.height", &mut self.seen.height),
            ("seen.hardened", &mut self.seen.hardened),
            ("weighed.height", &mut self.weighed.height),
            ("weighed.stem", &mut self.weighed.stem),
            ("weighed.shoot", &mut self.weighed.shoot),
            ("weighed.root", &mut self.weighed.root),
            ("place.night", &mut self.place.night),
            ("place.held", &mut self.place.held),
            ("place.hottest", &mut self.place.hottest),
            ("place.room", &mut self.place.room),
            ("place.trays", &mut self.place.trays),
            ("place.in_tray", &mut self.place.in_tray),
            ("place.floats", &mut self.place.floats),
            ("own.warmth", &mut self.own.warmth),
            ("own.off", &mut self.own.off),
        ]
    }

    /// Every choice that is not in a row, and every day, by its path.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 16] {
        [
            ("crop", &mut self.crop),
            ("move", &mut self.moves),
            ("today", &mut self.today),
            ("since", &mut self.since),
            ("from", &mut self.from),
            ("pot", &mut self.pot),
            ("next", &mut self.next),
            ("climate", &mut self.climate),
            ("seen.ball", &mut self.seen.ball),
            ("seen.circling", &mut self.seen.circling),
            ("seen.tips", &mut self.seen.tips),
            ("seen.flower", &mut self.seen.flower),
            ("seen.pests", &mut self.seen.pests),
            ("place.cover", &mut self.place.cover),
            ("batch", &mut self.batch),
            ("to", &mut self.to),
        ]
    }
}
