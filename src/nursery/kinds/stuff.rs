//! What is bought, mixed and paid for.

use super::amounts::{BAG, COUNT, DENSITY, MONEY, PARTS, SHARE, VOLUME};
use super::{Book, Field, Kind, NAMED, NOTES, ON, Takes};
use Takes::{Choice, Day, Handbook, Number, Rows, Text, Time};

/// The kinds of this file.
pub static KINDS: &[&Kind] = &[&MATERIAL, &STOCK, &MIX, &PRICE, &TARIFF];

/// A material of one's own: what it is reckoned as, what it comes in and costs.
pub static MATERIAL: Kind = Kind::standing(
    "material",
    ["material", "materials"],
    &[
        NAMED,
        Field::new("like", "Reckoned as", Handbook(Book::Material)),
        Field::new("bag", "Size of the bag", Number(&BAG)),
        Field::new("price", "Price of a bag", Number(&MONEY)),
        Field::new("supplier", "Supplier", Text),
        Field::new("density", "Dry density", Number(&DENSITY)),
        Field::new("pore_space", "Pore space", Number(&SHARE)),
        Field::new(
            "water_at_10_cm",
            "Water at 10 cm of suction",
            Number(&SHARE),
        ),
        NOTES,
    ],
)
.ordered(&[("water_at_10_cm", "pore_space")]);

/// What is in hand of a material on a day.
pub static STOCK: Kind = Kind::log(
    "stock",
    ["stock in hand", "stock in hand"],
    &[
        ON,
        Field::needed("material", "Material", Handbook(Book::Material)),
        Field::new("volume", "Loose volume", Number(&VOLUME)),
        Field::new("bags", "Bags", Number(&COUNT)),
        NOTES,
    ],
);

/// A potting mix.
pub static MIX: Kind = Kind::standing(
    "mix",
    ["mix", "mixes"],
    &[
        NAMED,
        Field::new(
            "parts",
            "Parts by volume, loose",
            Rows(&[
                Field::needed("material", "Material", Handbook(Book::Material)),
                Field::needed("amount", "Parts", Number(&PARTS)),
                Field::new("bag", "Size of the bag", Number(&BAG)),
            ]),
        ),
        Field::new(
            "purpose",
            "What for",
            Choice(&[
                ("seed", "seed"),
                ("young_plants", "young plants"),
                ("fed_from_below", "pots fed from below"),
                ("growing_on", "growing on"),
                ("cuttings", "cuttings"),
            ]),
        ),
        Field::new("pot", "Pot", Handbook(Book::Pot)),
        Field::new("feed", "Feed mixed in", Number(&DENSITY)),
        NOTES,
    ],
);

/// What something is sold or bought for.
pub static PRICE: Kind = Kind::standing(
    "price",
    ["price", "prices"],
    &[
        NAMED,
        Field::needed("price", "Price", Number(&MONEY)),
        Field::new("each", "For each", Text),
        Field::new(
            "side",
            "Which way",
            Choice(&[("sells", "what it sells for"), ("costs", "what it costs")]),
        ),
        Field::new("customer", "Customer or supplier", Text),
        Field::new("from", "From", Day),
        NOTES,
    ],
);

/// What a kilowatt-hour costs, by day and by night.
pub static TARIFF: Kind = Kind::standing(
    "tariff",
    ["tariff", "tariffs"],
    &[
        NAMED,
        Field::needed("price", "Price of a kilowatt-hour", Number(&MONEY)),
        Field::new("night_price", "Price at night", Number(&MONEY)),
        Field::new("night_from", "Night from", Time),
        Field::new("night_to", "Night to", Time),
        Field::new("daily", "Each day besides", Number(&MONEY)),
        Field::new("from", "From", Day),
        NOTES,
    ],
);
