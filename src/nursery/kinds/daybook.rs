//! The day book: what is written down in a few seconds, every day.

use super::amounts::{
    COUNT, DAYS, DENSITY, DEPTH, MONEY, ONE_OR_MORE, SALT, SHARE, TEMPERATURE, VOLUME, WEIGHT,
};
use super::{
    AFTER_SOWING, BATCH, Field, ITS_BATCH, ITS_PLACE, Kind, NOTES, ON, PLACE, TIME, Takes,
};
use Takes::{Choice, LongText, Number, One, Text};

/// The kinds of this file.
pub static KINDS: &[&Kind] = &[
    &NIGHT, &READING, &HUMIDITY, &FORECAST, &WATERED, &FED, &TANK, &COUNTED, &TREATED, &BOUGHT,
    &CUT, &SOLD, &NOTE,
];

/// Minimum and maximum, as read in the morning.
pub static NIGHT: Kind = Kind::log(
    "night",
    ["minimum and maximum", "minima and maxima"],
    &[
        ON,
        ITS_PLACE,
        Field::new("low", "Minimum", Number(&TEMPERATURE)),
        Field::new("high", "Maximum", Number(&TEMPERATURE)),
        Field::new("instrument", "Instrument", One(&["instrument"])),
        NOTES,
    ],
)
.ordered(&[("low", "high")]);

/// One reading of a thermometer.
pub static READING: Kind = Kind::log(
    "reading",
    ["temperature", "temperatures"],
    &[
        ON,
        TIME,
        ITS_PLACE,
        Field::needed(
            "what",
            "Of what",
            Choice(&[
                ("air", "air"),
                ("root", "mix, at the roots"),
                ("bed", "bed under the pots"),
                ("water", "water"),
                ("outside", "air outside"),
            ]),
        ),
        Field::needed("value", "Temperature", Number(&TEMPERATURE)),
        Field::new("instrument", "Instrument", One(&["instrument"])),
        BATCH,
        NOTES,
    ],
);

/// Relative humidity of the air.
pub static HUMIDITY: Kind = Kind::log(
    "humidity",
    ["humidity", "humidities"],
    &[
        ON,
        TIME,
        ITS_PLACE,
        Field::needed("value", "Relative humidity", Number(&SHARE)),
        Field::new("instrument", "Instrument", One(&["instrument"])),
        NOTES,
    ],
);

/// What is forecast for the night that begins on this day.
pub static FORECAST: Kind = Kind::log(
    "forecast",
    ["forecast", "forecasts"],
    &[
        ON,
        Field::new("place", "Place", One(&["place"])),
        Field::needed("low", "Minimum tonight", Number(&TEMPERATURE)),
        Field::new("high", "Maximum today", Number(&TEMPERATURE)),
        Field::new(
            "sky",
            "Sky",
            Choice(&[
                ("clear", "clear"),
                ("broken", "broken cloud"),
                ("covered", "covered"),
            ]),
        ),
        Field::new(
            "wind",
            "Wind",
            Choice(&[("calm", "calm"), ("breeze", "breeze"), ("strong", "strong")]),
        ),
        NOTES,
    ],
);

/// Watering.
pub static WATERED: Kind = Kind::log(
    "watered",
    ["watering", "waterings"],
    &[
        ON,
        TIME,
        PLACE,
        BATCH,
        Field::new(
            "how",
            "How",
            Choice(&[
                ("below", "from below"),
                ("can", "can"),
                ("hose", "hose"),
                ("drip", "drip"),
                ("mist", "mist"),
            ]),
        ),
        Field::new("volume", "Water", Number(&VOLUME)),
        NOTES,
    ],
);

/// Feeding.
pub static FED: Kind = Kind::log(
    "fed",
    ["feeding", "feedings"],
    &[
        ON,
        PLACE,
        BATCH,
        Field::new("feed", "Feed", Text),
        Field::new("strength", "Strength", Number(&DENSITY)),
        Field::new("salt", "Salt of the feed", Number(&SALT)),
        Field::new("drain_salt", "Salt of what drained", Number(&SALT)),
        Field::new("volume", "Feed given", Number(&VOLUME)),
        NOTES,
    ],
);

/// What is in a tank, and what was added.
pub static TANK: Kind = Kind::log(
    "tank",
    ["tank", "tank readings"],
    &[
        ON,
        TIME,
        PLACE,
        Field::new("level", "Depth of water", Number(&DEPTH)),
        Field::new("volume", "Water in it", Number(&VOLUME)),
        Field::new("added", "Water added", Number(&VOLUME)),
        NOTES,
    ],
);

/// What was counted on leaves or cards.
pub static COUNTED: Kind = Kind::log(
    "count",
    ["count", "counts"],
    &[
        ON,
        PLACE,
        BATCH,
        Field::needed("what", "What", Text),
        Field::needed("found", "Found", Number(&COUNT)),
        Field::new("looked_at", "Looked at", Number(&ONE_OR_MORE)),
        Field::new(
            "on",
            "On",
            Choice(&[
                ("card", "sticky cards"),
                ("leaf", "leaves"),
                ("plant", "plants"),
            ]),
        ),
        NOTES,
    ],
);

/// A treatment, with what has to be kept of it.
pub static TREATED: Kind = Kind::log(
    "treated",
    ["treatment", "treatments"],
    &[
        ON,
        TIME,
        PLACE,
        BATCH,
        Field::needed("what", "With what", Text),
        Field::new("against", "Against what", Text),
        Field::new("dose", "Dose", Text),
        Field::new("interval", "Interval to harvest", Number(&DAYS)),
        Field::new("who", "By whom", Text),
        NOTES,
    ],
);

/// Something bought: one step back.
pub static BOUGHT: Kind = Kind::log(
    "bought",
    ["purchase", "purchases"],
    &[
        ON,
        Field::needed("what", "What", Text),
        Field::needed("supplier", "Supplier", Text),
        Field::new("lot", "Lot number", Text),
        Field::new("amount", "How much", Text),
        Field::new("price", "Price", Number(&MONEY)),
        Field::new("passport", "Plant passport", Text),
        NOTES,
    ],
);

/// A cut.
pub static CUT: Kind = Kind::log(
    "cut",
    ["cut", "cuts"],
    &[
        ON,
        ITS_BATCH,
        Field::needed("weight", "Weight", Number(&WEIGHT)),
        Field::new("bunches", "Bunches", Number(&COUNT)),
        Field::new("grade", "Grade", Text),
        NOTES,
    ],
)
.after(AFTER_SOWING);

/// Something sold: one step forward.
pub static SOLD: Kind = Kind::log(
    "sold",
    ["sale", "sales"],
    &[
        ON,
        BATCH,
        Field::needed("to", "To whom", Text),
        Field::new("what", "What", Text),
        Field::new("number", "How many", Number(&COUNT)),
        Field::new("weight", "Weight", Number(&WEIGHT)),
        Field::new("price", "Paid", Number(&MONEY)),
        Field::new("passport", "Plant passport", Text),
        NOTES,
    ],
)
.after(AFTER_SOWING);

/// A note.
pub static NOTE: Kind = Kind::log(
    "note",
    ["note", "notes"],
    &[
        ON,
        TIME,
        PLACE,
        BATCH,
        Field::needed("notes", "Note", LongText),
    ],
);
