//! A pot as a question asks for it: one of the handbook, or sizes of one's own.

use super::form::{Field, Item, Items, Numbers, Takes, Units};
use super::reader::Reader;
use super::words;
use crate::handbook::pots::{POTS, Pot, pot};
use crate::measure::{Entry, Length, Limits, NumberStyle, Volume, significant};
use crate::science::container::Vessel;

/// The path of its size.
pub const SIZE: &str = "pot.size";

/// The pot: one of the handbook, or sizes of one's own. What belongs to another size is kept but not read.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema),
    serde(default)
)]
pub struct PotAsked {
    /// Key of a handbook pot such as round_10_cm, or own_round, own_square or own_volume.
    pub size: String,
    /// Inside breadth at the rim (own_round, own_square), such as "100 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub rim: Entry,
    /// Inside breadth at the base (own_round, own_square), such as "70 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub base: Entry,
    /// Inside height (all own sizes), such as "88 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub height: Entry,
    /// Volume to the rim (own_volume), such as "8.5 L".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub volume: Entry,
    /// From the rim down to the mix once watered (own sizes), such as "10 mm".
    #[cfg_attr(feature = "terminal", schemars(with = "String"))]
    pub below_rim: Entry,
}

/// A round pot by its own sizes.
pub const OWN_ROUND: &str = "own_round";
/// A square pot by its own sizes.
pub const OWN_SQUARE: &str = "own_square";
/// A straight-sided pot by volume and height.
pub const OWN_VOLUME: &str = "own_volume";

impl Default for PotAsked {
    fn default() -> Self {
        let millimetres = |text: &str| Entry::new(text, Length::MILLIMETRE.key);
        Self {
            size: "round_10_cm".to_owned(),
            rim: millimetres("100"),
            base: millimetres("70"),
            height: millimetres("88"),
            volume: Entry::new("0.5", Volume::LITRE.key),
            below_rim: millimetres("10"),
        }
    }
}

const LENGTHS: Units = Units::of::<Length>(&["mm", "cm", "in"]);
const VOLUMES: Units = Units::of::<Volume>(&["L", "mL", "gal"]);

const BREADTH: Limits<Length> = Limits::millimetres("Breadth of the pot", 10.0, 1000.0);
const HEIGHT: Limits<Length> = Limits::millimetres("Height of the pot", 20.0, 1000.0);
const POT_VOLUME: Limits<Volume> = Limits::litres("Volume of the pot", 0.005, 500.0);
const BELOW_RIM: Limits<Length> = Limits::millimetres("Space below the rim", 0.0, 500.0);

/// No pot is broader than it is tall by more than this, nor the other way round: outside it a
/// volume and a height do not belong together.
const MOST_BREADTH_TO_HEIGHT: f64 = 10.0;
/// Rim and base of a tapered pot differ at most by this factor.
const MOST_TAPER: f64 = 4.0;
/// A pot filled less than this holds nothing worth reckoning.
const FILL_AT_LEAST: Length = Length::from_millimetres(10.0);

impl PotAsked {
    /// Its numbers, each by its path.
    pub fn numbers(&mut self) -> Numbers<'_> {
        vec![
            ("pot.rim", &mut self.rim),
            ("pot.base", &mut self.base),
            ("pot.height", &mut self.height),
            ("pot.volume", &mut self.volume),
            ("pot.below_rim", &mut self.below_rim),
        ]
    }

    /// Its fields: which of the sizes, and what must be told of one's own.
    pub fn fields(&self, sizes: Items) -> impl Iterator<Item = Field> {
        let choice = Takes::Many {
            heading: "Pot",
            items: sizes,
        };
        let length = |path: &str, label: &str| Field::number(path, label, LENGTHS, 5.0);
        let mut fields = vec![Field::new(SIZE, "Pot", choice)];
        match self.size.as_str() {
            OWN_ROUND | OWN_SQUARE => fields.extend([
                length("pot.rim", "Across the rim, inside"),
                length("pot.base", "Across the base, inside"),
            ]),
            OWN_VOLUME => fields.push(Field::number(
                "pot.volume",
                "Volume to the brim",
                VOLUMES,
                0.5,
            )),
            _ => return fields.into_iter(),
        }
        fields.push(length("pot.height", "Height, inside"));
        fields.push(length("pot.below_rim", "Space below the rim, once watered"));
        fields.into_iter()
    }

    /// The inside of the pot and the height of the mix in it, once watered.
    pub fn read(&self, reader: &mut Reader) -> Option<(Vessel, Length)> {
        if let Some(pot) = pot(&self.size) {
            return Some((pot.vessel(), pot.height - pot.below_rim));
        }
        let vessel = match self.size.as_str() {
            OWN_ROUND | OWN_SQUARE => {
                let rim = reader.read("pot.rim", &self.rim, &BREADTH);
                let base = reader.read("pot.base", &self.base, &BREADTH);
                let height = reader.read("pot.height", &self.height, &HEIGHT);
                let (rim, base, height) = (rim?, base?, height?);
                if rim / base > MOST_TAPER || base / rim > MOST_TAPER {
                    reader.say("pot.base", words::pot_tapers_too_much());
                    return None;
                }
                if self.size == OWN_ROUND {
                    Vessel::round(base, rim, height)
                } else {
                    Vessel::square(base, rim, height)
                }
            }
            OWN_VOLUME => {
                let volume = reader.read("pot.volume", &self.volume, &POT_VOLUME);
                let height = reader.read("pot.height", &self.height, &HEIGHT);
                let (volume, height) = (volume?, height?);
                let vessel = Vessel::straight(volume, height);
                let ratio = vessel.breadth_at(height) / height;
                if !(MOST_BREADTH_TO_HEIGHT.recip()..=MOST_BREADTH_TO_HEIGHT).contains(&ratio) {
                    reader.say(
                        "pot.volume",
                        words::volume_and_height_apart(vessel.breadth_at(height)),
                    );
                    return None;
                }
                vessel
            }
            _ => {
                let known = POTS
                    .iter()
                    .map(|pot| pot.key)
                    .chain([OWN_ROUND, OWN_SQUARE, OWN_VOLUME]);
                reader.say(SIZE, words::not_in_list(words::A_POT, &self.size, known));
                return None;
            }
        };
        let below_rim = reader.read("pot.below_rim", &self.below_rim, &BELOW_RIM)?;
        let fill = vessel.height() - below_rim;
        if fill < FILL_AT_LEAST {
            reader.say("pot.below_rim", words::pot_not_filled(vessel.height()));
            return None;
        }
        Some((vessel, fill))
    }

    /// What it is called.
    pub fn called(&self) -> &'static str {
        pot(&self.size).map_or("a pot of my own", |pot| pot.name)
    }
}

/// The sizes of the handbook to choose from.
#[must_use]
pub fn usual_sizes() -> Vec<Item> {
    let style = NumberStyle::default();
    let item = |pot: &Pot| {
        let brim = pot.vessel().volume_to(pot.height).in_litres();
        let millimetres = |length: Length| significant(length.in_millimetres(), 3, style);
        let sizes = [
            &millimetres(pot.rim),
            " mm across, ",
            &millimetres(pot.height),
            " mm tall, ",
            &significant(brim, 2, style),
            " L to the brim",
        ];
        Item::new(pot.key, pot.name, &sizes.concat())
    };
    POTS.iter().map(item).collect()
}

/// The sizes to choose from: those of the handbook, then one's own.
#[must_use]
pub fn sizes() -> Vec<Item> {
    let own = [
        Item::new(
            OWN_ROUND,
            "my own, round",
            "measured inside at rim, base and height",
        ),
        Item::new(
            OWN_SQUARE,
            "my own, square",
            "measured inside at rim, base and height",
        ),
        Item::new(
            OWN_VOLUME,
            "my own, by volume",
            "a volume to the brim and a height, straight sides",
        ),
    ];
    usual_sizes().into_iter().chain(own).collect()
}
