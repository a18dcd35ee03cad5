//! The question of Season as it is typed.

use crate::measure::{
    AreaLoad, Density, Duration, Entry, Fraction, Length, Temperature, TemperatureDifference,
    Volume,
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
    /// What is sown already, and what became of it.
    pub batches: Vec<BatchAsked>,
    /// Where it may stand.
    pub places: Vec<PlaceAsked>,
    /// The hands there are.
    pub hands: HandsAsked,
    /// The mix that pots are filled with.
    pub mix: MixAsked,
    /// What the mix is made of, where one mixes it; empty where it is bought ready.
    pub parts: Vec<PartAsked>,
    /// What beds under the pots are laid of.
    pub bed: BedAsked,
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
        /// How many years old the seed is; empty where it is fresh, or was tested since.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        aged: Entry,
        /// How it was kept meanwhile: sealed_cold, dry_room or shed.
        kept: String,
        /// Share of the seedlings lost afterwards; empty for what is usual.
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
        /// How long its pots stand rim to rim before they are set so far apart.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        touching: Entry,
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
        /// Pots of that size in hand.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        pots_in_hand: Entry,
        /// The plan of the record that asks it; empty where none does.
        plan: String,
    }
}

asked! {
    /// Something that is sown already. Days that have not come yet are empty.
    BatchAsked {
        /// Key of a crop such as sweet_basil.
        crop: String,
        /// How many cells or pots were sown.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        number: Entry,
        /// The day of sowing.
        sown: String,
        /// The day that half of it was up.
        up: String,
        /// The day that it was potted, or went to where it stands.
        potted: String,
        /// The day that the first plants of it were ready for their next place, or sold.
        ready: String,
        /// The day of the first cut or pick.
        picked: String,
        /// The day that the last of it was gone, or is to go.
        gone: String,
        /// How many came up.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        came_up: Entry,
        /// How many of these were lost afterwards.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        lost: Entry,
        /// The day that it was meant to be sown; may be empty.
        meant_sown: String,
        /// The day that it was meant to be ready; may be empty.
        meant_ready: String,
        /// Key of the pot it is potted into.
        pot: String,
        /// From the middle of a pot to the next.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        spacing: Entry,
        /// How much warmer the nights were where it stood, from its sowing on, than they usually are there; empty where
        /// nobody knows.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        nights: Entry,
        /// The same of the warmest of the days.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        days: Entry,
        /// Where it comes up: the place's number.
        first: String,
        /// Where it stands in its pots.
        then: String,
        /// The batch of the record that it is; empty where it is none.
        batch: String,
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
        /// What it may carry; empty where nobody says.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        carries: Entry,
        /// How deep a bed is laid on it for this season; empty for none.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        bed: Entry,
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
        /// What a litre of it weighs in a watered pot.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        wet: Entry,
        /// Cells of a tray that seed is sown into.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        cells: Entry,
        /// Such trays in hand.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        trays: Entry,
        /// Price of such a tray; may be empty.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        tray_price: Entry,
    }
}

asked! {
    /// A part of the mix.
    PartAsked {
        /// What it is called.
        name: String,
        /// How many parts of it, loose.
        #[cfg_attr(feature = "terminal", schemars(with = "String"))]
        parts: Entry,
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

asked! {
    /// What beds are laid of.
    BedAsked {
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
pub const MOST_SOWINGS: usize = 40;
/// Batches at most.
pub const MOST_BATCHES: usize = 60;
/// Places at most.
pub const MOST_PLACES: usize = 12;
/// Parts of the mix at most.
pub const MOST_PARTS: usize = 8;
/// The numbers of places.
pub const PLACE_KEYS: [&str; MOST_PLACES] = [
    "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12",
];

fn share(text: &str) -> Entry {
    Entry::new(text, Fraction::PERCENT.key)
}

fn days(text: &str) -> Entry {
    Entry::new(text, Duration::DAY.key)
}

fn metres(text: &str) -> Entry {
    Entry::new(text, Length::METRE.key)
}

fn litres(text: &str) -> Entry {
    Entry::new(text, Volume::LITRE.key)
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
            batches: Vec::new(),
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
            parts: Vec::new(),
            bed: BedAsked::default(),
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
            aged: Entry::default(),
            kept: "dry_room".to_owned(),
            lost: share("5"),
            in_cell: Entry::default(),
            pot: "round_9_cm".to_owned(),
            spacing: Entry::new("110", Length::MILLIMETRE.key),
            touching: days("0"),
            first: "1".to_owned(),
            then: "2".to_owned(),
            stands: days("7"),
            packet: Entry::number(1000.0),
            packet_price: Entry::default(),
            in_hand: Entry::number(0.0),
            pot_price: Entry::default(),
            pots_in_hand: Entry::number(0.0),
            plan: String::new(),
        }
    }
}

impl Default for BatchAsked {
    fn default() -> Self {
        Self {
            crop: "sweet_basil".to_owned(),
            number: Entry::number(100.0),
            sown: String::new(),
            up: String::new(),
            potted: String::new(),
            ready: String::new(),
            picked: String::new(),
            gone: String::new(),
            came_up: Entry::default(),
            lost: Entry::default(),
            meant_sown: String::new(),
            meant_ready: String::new(),
            pot: "round_9_cm".to_owned(),
            spacing: Entry::new("110", Length::MILLIMETRE.key),
            nights: kelvins(""),
            days: kelvins(""),
            first: "1".to_owned(),
            then: "2".to_owned(),
            batch: String::new(),
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
            carries: Entry::new("", AreaLoad::KILOGRAM_PER_SQUARE_METRE.key),
            bed: Entry::new("", Length::MILLIMETRE.key),
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
            bag: litres("70"),
            price: Entry::default(),
            in_hand: litres("0"),
            wet: Entry::new("800", Density::GRAM_PER_LITRE.key),
            cells: Entry::number(84.0),
            trays: Entry::number(0.0),
            tray_price: Entry::default(),
        }
    }
}

impl Default for PartAsked {
    fn default() -> Self {
        Self {
            name: String::new(),
            parts: Entry::number(1.0),
            bag: litres("70"),
            price: Entry::default(),
            in_hand: litres("0"),
        }
    }
}

impl Default for BedAsked {
    fn default() -> Self {
        Self {
            bag: litres("100"),
            price: Entry::default(),
            in_hand: litres("0"),
        }
    }
}

impl SowingAsked {
    /// Its numbers.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("wanted", &mut self.wanted),
            ("times", &mut self.times),
            ("every", &mut self.every),
            ("up", &mut self.up),
            ("tested", &mut self.tested),
            ("aged", &mut self.aged),
            ("lost", &mut self.lost),
            ("in_cell", &mut self.in_cell),
            ("spacing", &mut self.spacing),
            ("touching", &mut self.touching),
            ("stands", &mut self.stands),
            ("packet", &mut self.packet),
            ("packet_price", &mut self.packet_price),
            ("in_hand", &mut self.in_hand),
            ("pot_price", &mut self.pot_price),
            ("pots_in_hand", &mut self.pots_in_hand),
        ]
    }

    /// Its choices.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 8] {
        [
            ("crop", &mut self.crop),
            ("by", &mut self.by),
            ("day", &mut self.day),
            ("kept", &mut self.kept),
            ("pot", &mut self.pot),
            ("first", &mut self.first),
            ("then", &mut self.then),
            ("plan", &mut self.plan),
        ]
    }
}

impl BatchAsked {
    /// Its numbers.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("number", &mut self.number),
            ("came_up", &mut self.came_up),
            ("lost", &mut self.lost),
            ("spacing", &mut self.spacing),
            ("nights", &mut self.nights),
            ("days", &mut self.days),
        ]
    }

    /// Its choices, and its days.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 13] {
        [
            ("crop", &mut self.crop),
            ("sown", &mut self.sown),
            ("up", &mut self.up),
            ("potted", &mut self.potted),
            ("ready", &mut self.ready),
            ("picked", &mut self.picked),
            ("gone", &mut self.gone),
            ("meant_sown", &mut self.meant_sown),
            ("meant_ready", &mut self.meant_ready),
            ("pot", &mut self.pot),
            ("first", &mut self.first),
            ("then", &mut self.then),
            ("batch", &mut self.batch),
        ]
    }
}

impl PartAsked {
    /// Its numbers.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("parts", &mut self.parts),
            ("bag", &mut self.bag),
            ("price", &mut self.price),
            ("in_hand", &mut self.in_hand),
        ]
    }

    /// Its choices.
    pub fn choices(&mut self) -> [(&'static str, &mut String); 1] {
        [("name", &mut self.name)]
    }
}

impl PlaceAsked {
    /// Its numbers.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("held", &mut self.held),
            ("night", &mut self.night),
            ("day", &mut self.day),
            ("lamps", &mut self.lamps),
            ("length", &mut self.length),
            ("breadth", &mut self.breadth),
            ("carries", &mut self.carries),
            ("bed", &mut self.bed),
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
            ("mix.wet", &mut self.mix.wet),
            ("mix.cells", &mut self.mix.cells),
            ("mix.trays", &mut self.mix.trays),
            ("mix.tray_price", &mut self.mix.tray_price),
            ("bed.bag", &mut self.bed.bag),
            ("bed.price", &mut self.bed.price),
            ("bed.in_hand", &mut self.bed.in_hand),
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
