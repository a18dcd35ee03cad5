//! Where things stand, and what they stand in.

use super::amounts::{
    AREA, BELOW_RIM, COUNT, DEPTH, HEAT, HEIGHT, HOURS, LAMP_LIGHT, LATITUDE, LOAD, MONEY, OFFSET,
    POT_SIZE, POT_VOLUME, POWER, SET_POINT, SLOPE, SPAN, TEMPERATURE,
};
use super::{Book, Field, INSIDE, Kind, NAMED, NOTES, PLACES, Takes};
use Takes::{Choice, Day, Handbook, Number, One, Rows, Text};

/// The kinds of this file.
pub static KINDS: &[&Kind] = &[&PLACE, &HOUSE, &BAY, &TRAY, &POT, &INSTRUMENT];

const COVERS: Takes = Choice(&[
    ("glass", "glass"),
    ("film", "one film"),
    ("two_films", "two films with air between"),
    ("twin_wall", "twin-wall sheet"),
    ("fleece", "fleece"),
    ("net", "net"),
    ("none", "nothing"),
]);

/// Where the nursery lies.
pub static PLACE: Kind = Kind::standing(
    "place",
    ["place", "places"],
    &[
        NAMED,
        Field::new("latitude", "Degrees north", Number(&LATITUDE)),
        Field::new("climate", "Climate", Handbook(Book::Climate)),
        Field::new(
            "months",
            "Own figures by month",
            Rows(&[
                Field::needed(
                    "month",
                    "Month",
                    Choice(&[
                        ("1", "January"),
                        ("2", "February"),
                        ("3", "March"),
                        ("4", "April"),
                        ("5", "May"),
                        ("6", "June"),
                        ("7", "July"),
                        ("8", "August"),
                        ("9", "September"),
                        ("10", "October"),
                        ("11", "November"),
                        ("12", "December"),
                    ]),
                ),
                Field::new("low", "Mean minimum", Number(&TEMPERATURE)),
                Field::new("high", "Mean maximum", Number(&TEMPERATURE)),
            ]),
        ),
        Field::new("last_frost", "Usual last frost", Day),
        NOTES,
    ],
);

/// A house of glass or film.
pub static HOUSE: Kind = Kind::standing(
    "house",
    ["house", "houses"],
    &[
        NAMED,
        Field::new(INSIDE, "Place", One(&["place"])),
        Field::new("cover", "Cover", COVERS),
        Field::new(
            "heated",
            "Heated",
            Choice(&[
                ("no", "not heated"),
                ("frost", "kept free of frost"),
                ("yes", "heated"),
            ]),
        ),
        Field::new("set_point", "Heated to", Number(&SET_POINT)),
        Field::new(
            "vents",
            "Vents",
            Choice(&[
                ("none", "none"),
                ("ends", "doors and ends"),
                ("sides", "sides"),
                ("roof", "roof"),
                ("roof_and_sides", "roof and sides"),
            ]),
        ),
        Field::new("vent_area", "Area of the vents", Number(&AREA)),
        Field::new("length", "Length", Number(&SPAN)),
        Field::new("width", "Width", Number(&SPAN)),
        Field::new("ridge", "Height of the ridge", Number(&HEIGHT)),
        NOTES,
    ],
);

/// A bay or a bench.
pub static BAY: Kind = Kind::standing(
    "bay",
    ["bay", "bays and benches"],
    &[
        NAMED,
        Field::needed(INSIDE, "In", One(&["house", "bay"])),
        Field::new(
            "standing",
            "How plants stand",
            Choice(&[
                ("floor", "on the floor"),
                ("raised", "raised"),
                ("bench", "on a bench"),
                ("heated_bench", "on a heated bench"),
            ]),
        ),
        Field::new("height", "Height above the floor", Number(&HEIGHT)),
        Field::new("length", "Length", Number(&SPAN)),
        Field::new("width", "Width", Number(&SPAN)),
        Field::new("area", "Area", Number(&AREA)),
        Field::new("load_limit", "May carry", Number(&LOAD)),
        Field::new("slope", "Slope", Number(&SLOPE)),
        Field::new("cover", "Cover over it", COVERS),
        Field::new("set_point", "Heated to", Number(&SET_POINT)),
        Field::new("heat", "Heat", Number(&HEAT)),
        Field::new("floats", "Float valves", Number(&COUNT)),
        Field::new("probe", "Probe", One(&["instrument"])),
        Field::new("insulation", "Insulation below", Number(&DEPTH)),
        Field::new("lamp_power", "Lamps use", Number(&POWER)),
        Field::new("lamp_light", "Light of the lamps", Number(&LAMP_LIGHT)),
        Field::new("lamp_hours", "Lamps on each day", Number(&HOURS)),
        NOTES,
    ],
);

/// A tray that pots stand in.
pub static TRAY: Kind = Kind::standing(
    "tray",
    ["tray", "trays"],
    &[
        NAMED,
        Field::new(INSIDE, "In", One(&["bay", "house"])),
        Field::new("number", "How many of them", Number(&COUNT)),
        Field::new("length", "Length", Number(&SPAN)),
        Field::new("width", "Width", Number(&SPAN)),
        Field::new("wall", "Height of the wall", Number(&DEPTH)),
        Field::new("level", "Water in it when filled", Number(&DEPTH)),
        Field::new("fall", "One end lies lower by", Number(&DEPTH)),
        Field::new("fill", "Filled with", Handbook(Book::BedMedium)),
        Field::new("fill_depth", "Depth of the fill", Number(&DEPTH)),
        Field::new(
            "bed",
            "Bed",
            Choice(&[
                ("none", "none"),
                ("sand", "sand"),
                ("grains", "grains such as perlite, clay or gravel"),
                ("matting", "matting"),
                ("flooded", "flooded and drained"),
            ]),
        ),
        NOTES,
    ],
);

/// A pot of one's own sizes.
pub static POT: Kind = Kind::standing(
    "pot",
    ["pot", "pots"],
    &[
        NAMED,
        Field::new("like", "Sizes as in the handbook", Handbook(Book::Pot)),
        Field::new(
            "outline",
            "Outline",
            Choice(&[("round", "round"), ("square", "square")]),
        ),
        Field::new("rim", "Across the rim, inside", Number(&POT_SIZE)),
        Field::new("base", "Across the base, inside", Number(&POT_SIZE)),
        Field::new("height", "Height, inside", Number(&POT_SIZE)),
        Field::new("volume", "Volume to the brim", Number(&POT_VOLUME)),
        Field::new("below_rim", "Space below the rim", Number(&BELOW_RIM)),
        Field::new("price", "Price of one", Number(&MONEY)),
        Field::new("supplier", "Supplier", Text),
        NOTES,
    ],
);

/// A thermometer or another instrument.
pub static INSTRUMENT: Kind = Kind::standing(
    "instrument",
    ["instrument", "instruments"],
    &[
        NAMED,
        Field::new(
            "measures",
            "Measures",
            Choice(&[
                ("temperature", "temperature"),
                ("humidity", "humidity"),
                ("both", "temperature and humidity"),
                ("salt", "salt in water"),
                ("light", "light"),
                ("weight", "weight"),
            ]),
        ),
        Field::new(INSIDE, "Where", One(PLACES)),
        Field::new(
            "medium",
            "In what",
            Choice(&[
                ("air", "air"),
                ("mix", "mix, at the roots"),
                ("bed", "bed under the pots"),
                ("water", "water"),
            ]),
        ),
        Field::new("height", "Height above the floor", Number(&HEIGHT)),
        Field::new("offset", "To be added to what it shows", Number(&OFFSET)),
        NOTES,
    ],
);
