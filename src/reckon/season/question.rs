//! The question of Season as it is typed.

use crate::measure::{
    Duration, Entry, Fraction, Length, Temperature, TemperatureDifference, Volume,
};
use crate::reckon::form::{Numbers, asked};

/// What is to be raised, by when, where, and what is in hand.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct Question {
    /// How sure it is to be, in 100: 80, 90 or 95.
    pub certainty: String,
    /// Key of a climate such as east_anglia.
    pub climate: String,
    /// What is to be raised.
    pub sowings: Vec<SowingAsked>,
    /// Where it may stand.
    pub places: Vec<PlaceAsked>,
    /// The hands there are.
    pub hands: HandsAsked,
    /// The mix that pots are filled with.
    pub mix: MixAsked,
}

asked! {
    /// Something to be raised from seed.
    SowingAsked {
        /// Key of a crop such as sweet_basil.
        crop: String,
        /// How many plants or pots are wanted, each time.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        wanted: Entry,
        /// What the day is of: ready or sown.
        by: String,
        /// The day, such as 2027-05-20.
        day: String,
        /// How often, one after the other.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        times: Entry,
        /// How long from one to the next.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        every: Entry,
        /// Share that comes up; empty for what is usual.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        up: Entry,
        /// How many seeds that share was found of, in a test of one's own; empty where it is no such share.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        tested: Entry,
        /// Share of the seedlings lost afterwards.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        lost: Entry,
        /// Seeds in a cell or a pot; empty for what is usual.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        in_cell: Entry,
        /// Key of the pot it is potted into.
        pot: String,
        /// From the middle of a pot to the next.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        spacing: Entry,
        /// Where it comes up: the place's number.
        first: String,
        /// Where it stands in its pots.
        then: String,
        /// How long pots stand once they are ready.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        stands: Entry,
        /// Seeds in a packet.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        packet: Entry,
        /// Price of a packet; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        packet_price: Entry,
        /// Seeds in hand.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        in_hand: Entry,
        /// Price of a pot; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        pot_price: Entry,
    }
}

asked! {
    /// A bench or a bay.
    PlaceAsked {
        /// What it is called.
        name: String,
        /// How warm it is: held, or house for as warm as a house in that weather.
        warmth: String,
        /// Held at.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        held: Entry,
        /// How much warmer the house is than outside by night.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        night: Entry,
        /// The same by day.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        day: Entry,
        /// Light of lamps, mol/m² in a day; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        lamps: Entry,
        /// Length.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        length: Entry,
        /// Breadth.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        breadth: Entry,
    }
}

asked! {
    /// Hands: minutes for a hundred of each, and the hours that there are.
    HandsAsked {
        /// Hours of a week.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        hours: Entry,
        /// Minutes for a hundred cells or pots sown.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        sowing: Entry,
        /// Minutes for a hundred potted, with moving them.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        potting: Entry,
    }
}

asked! {
    /// The mix.
    MixAsked {
        /// Litres in a bag.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        bag: Entry,
        /// Price of a bag; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        price: Entry,
        /// Litres in hand.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        in_hand: Entry,
    }
}

/// The day is that on which plants are ready.
pub const READY: &str = "ready";
/// The day is that of sowing.
pub const SOWN: &str = "sown";
/// Held at a temperature.
pub const HELD: &str = "held";
/// As warm as a house in the weather.
pub const HOUSE: &str = "house";
/// How sure it may be.
pub const CERTAINTIES: [&str; 3] = ["80", "90", "95"];
/// Sowings at most.
pub const MOST_SOWINGS: usize = 12;
/// Places at most.
pub const MOST_PLACES: usize = 8;
/// The numbers of places.
pub const PLACE_KEYS: [&str; MOST_PLACES] = ["1", "2", "3", "4", "5", "6", "7", "8"];

fn share(text: &str) -> Entry {
    Entry::new(text, Fraction::PERCENT.key)
}

fn days(text: &str) -> Entry {
    Entry::new(text, Duration::DAY.key)
}

fn metres(text: &str) -> Entry {
    Entry::new(text, Length::METRE.key)
}

fn kelvins(text: &str) -> Entry {
    Entry::new(text, TemperatureDifference::DEGREE_CELSIUS.key)
}

impl Default for Question {
    /// Basil for the middle of May, from a warm bench onto one that is kept from cold.
    fn default() -> Self {
        Self {
            certainty: "90".to_owned(),
            climate: "east_anglia".to_owned(),
            sowings: vec![SowingAsked::default()],
            places: vec![
                PlaceAsked::default(),
                PlaceAsked {
                    name: "house bench".to_owned(),
                    held: Entry::new("16", Temperature::DEGREE_CELSIUS.key),
                    length: metres("6"),
                    breadth: metres("1.5"),
                    ..PlaceAsked::default()
                },
            ],
            hands: HandsAsked::default(),
            mix: MixAsked::default(),
        }
    }
}

impl Default for SowingAsked {
    fn default() -> Self {
        Self {
            crop: "sweet_basil".to_owned(),
            wanted: Entry::number(240.0),
            by: READY.to_owned(),
            day: "2027-05-20".to_owned(),
            times: Entry::number(1.0),
            every: days("14"),
            up: share(""),
            tested: Entry::default(),
            lost: share("5"),
            in_cell: Entry::default(),
            pot: "round_9_cm".to_owned(),
            spacing: Entry::new("110", Length::MILLIMETRE.key),
            first: "1".to_owned(),
            then: "2".to_owned(),
            stands: days("7"),
            packet: Entry::number(1000.0),
            packet_price: Entry::default(),
            in_hand: Entry::number(0.0),
            pot_price: Entry::default(),
        }
    }
}

impl Default for PlaceAsked {
    fn default() -> Self {
        Self {
            name: "warm bench".to_owned(),
            warmth: HELD.to_owned(),
            held: Entry::new("21", Temperature::DEGREE_CELSIUS.key),
            night: kelvins("2"),
            day: kelvins("6"),
            lamps: Entry::default(),
            length: metres("3"),
            breadth: metres("1.2"),
        }
    }
}

impl Default for HandsAsked {
    fn default() -> Self {
        Self {
            hours: Entry::new("40", Duration::HOUR.key),
            sowing: Entry::new("15", Duration::MINUTE.key),
            potting: Entry::new("60", Duration::MINUTE.key),
        }
    }
}

impl Default for MixAsked {
    fn default() -> Self {
        Self {
            bag: Entry::new("70", Volume::LITRE.key),
            price: Entry::default(),
            in_hand: Entry::new("0", Volume::LITRE.key),
        }
    }
}

fn empty(numbers: Numbers<'_>) {
    for (_, entry) in numbers {
        *entry = entry.with_text(String::new());
    }
}

impl SowingAsked {
    /// One of which no number is said.
    #[must_use]
    pub fn blank() -> Self {
        let mut blank = Self::default();
        empty(blank.numbers());
        blank
    }

    /// Its numbers.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("wanted", &mut self.wanted),
            ("times", &mut self.times),
            ("every", &mut self.every),
            ("up", &mut self.up),
            ("tested", &mut self.tested),
            ("lost", &mut self.lost),
            ("in_cell", &mut self.in_cell),
            ("spacing", &mut self.spacing),
            ("stands", &mut self.stands),
            ("packet", &mut self.packet),
            ("packet_price", &mut self.packet_price),
            ("in_hand", &mut self.in_hand),
            ("pot_price", &mut self.pot_price),
        ]
    }

    /// Its choices.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 6] {
        [
            ("crop", &mut self.crop),
            ("by", &mut self.by),
            ("day", &mut self.day),
            ("pot", &mut self.pot),
            ("first", &mut self.first),
            ("then", &mut self.then),
        ]
    }
}

impl PlaceAsked {
    /// One of which no number is said.
    #[must_use]
    pub fn blank() -> Self {
        let mut blank = Self::default();
        empty(blank.numbers());
        blank
    }

    /// Its numbers.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("held", &mut self.held),
            ("night", &mut self.night),
            ("day", &mut self.day),
            ("lamps", &mut self.lamps),
            ("length", &mut self.length),
            ("breadth", &mut self.breadth),
        ]
    }

    /// Its choices.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 2] {
        [("name", &mut self.name), ("warmth", &mut self.warmth)]
    }
}

impl Question {
    /// Every number that is not in a row, by its path.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("hands.hours", &mut self.hands.hours),
            ("hands.sowing", &mut self.hands.sowing),
            ("hands.potting", &mut self.hands.potting),
            ("mix.bag", &mut self.mix.bag),
            ("mix.price", &mut self.mix.price),
            ("mix.in_hand", &mut self.mix.in_hand),
        ]
    }

    /// Every choice that is not in a row, by its path.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 2] {
        [
            ("certainty", &mut self.certainty),
            ("climate", &mut self.climate),
        ]
    }
}
