//! What is grown.

use super::amounts::{
    COUNT, DAYS, MONEY, ONE_OR_MORE, POT_SIZE, SHARE, SMALL_WEIGHT, SPACING, TEMPERATURE, YEAR,
};
use super::{AFTER_SOWING, After, Book, Field, ITS_BATCH, Kind, NAMED, NOTES, ON, Takes};
use Takes::{Choice, Day, Handbook, Number, One, Text};

/// The kinds of this file.
pub static KINDS: &[&Kind] = &[&CROP, &SEED_LOT, &BATCH, &STAGE, &PLAN];

/// A crop of one's own, or own figures over the handbook's.
pub static CROP: Kind = Kind::standing(
    "crop",
    ["crop", "crops"],
    &[
        NAMED,
        Field::new("like", "Figures as in the handbook", Handbook(Book::Crop)),
        Field::new("latin", "Botanical name", Text),
        Field::new("base_temperature", "Grows above", Number(&TEMPERATURE)),
        Field::new("best_temperature", "Grows best at", Number(&TEMPERATURE)),
        Field::new("cold_limit", "Harmed below", Number(&TEMPERATURE)),
        Field::new("heat_limit", "Harmed above", Number(&TEMPERATURE)),
        Field::new("days_to_up", "From sowing to up", Number(&DAYS)),
        Field::new("days_to_ready", "From sowing to ready", Number(&DAYS)),
        Field::new("spacing", "Plants on the bench", Number(&SPACING)),
        NOTES,
    ],
)
.ordered(&[
    ("base_temperature", "best_temperature"),
    ("cold_limit", "heat_limit"),
    ("days_to_up", "days_to_ready"),
]);

/// A lot of seed.
pub static SEED_LOT: Kind = Kind::standing(
    "seed_lot",
    ["seed lot", "seed lots"],
    &[
        NAMED,
        Field::needed("crop", "Crop", Handbook(Book::Crop)),
        Field::new("variety", "Variety", Text),
        Field::new("supplier", "Supplier", Text),
        Field::new("lot", "Lot number", Text),
        Field::new("bought", "Bought", Day),
        Field::new("year", "Year of harvest", Number(&YEAR)),
        Field::new("seeds", "Seeds", Number(&COUNT)),
        Field::new("weight", "Weight", Number(&SMALL_WEIGHT)),
        Field::new("germination", "Germinates", Number(&SHARE)),
        Field::new("price", "Price", Number(&MONEY)),
        NOTES,
    ],
);

/// Plants sown or struck together.
pub static BATCH: Kind = Kind::standing(
    "batch",
    ["batch", "batches"],
    &[
        NAMED,
        Field::needed("crop", "Crop", Handbook(Book::Crop)),
        Field::new("variety", "Variety", Text),
        Field::new("seed_lot", "Seed lot", One(&["seed_lot"])),
        Field::needed("sown", "Sown or struck", Day),
        Field::new("number", "How many", Number(&ONE_OR_MORE)),
        Field::new("pot", "Pot", Handbook(Book::Pot)),
        Field::new("mix", "Mix", One(&["mix"])),
        Field::new("inside", "Stands in", One(&["bay", "tray", "house"])),
        Field::new("plan", "Plan", One(&["plan"])),
        Field::new("passport", "Traceability code", Text),
        NOTES,
    ],
)
.after(&[After {
    day: "sown",
    link: "seed_lot",
    other_day: "bought",
}]);

/// What became of a batch on a day.
pub static STAGE: Kind = Kind::log(
    "stage",
    ["stage", "stages"],
    &[
        ON,
        ITS_BATCH,
        Field::needed(
            "what",
            "What",
            Choice(&[
                ("up", "up"),
                ("pricked_out", "pricked out"),
                ("potted_on", "potted on"),
                ("moved", "moved"),
                ("hardened", "hardened for a day"),
                ("pinched", "pinched"),
                ("lost", "lost"),
                ("ended", "ended"),
            ]),
        ),
        Field::new("number", "How many", Number(&COUNT)),
        Field::new("to", "Stands now in", One(&["bay", "tray", "house"])),
        Field::new("pot", "Pot", Handbook(Book::Pot)),
        Field::new("mix", "Mix", One(&["mix"])),
        Field::new("why", "Why", Text),
        NOTES,
    ],
)
.after(AFTER_SOWING);

/// What is wanted, and when.
pub static PLAN: Kind = Kind::standing(
    "plan",
    ["plan", "plans"],
    &[
        NAMED,
        Field::new("crop", "Crop", Handbook(Book::Crop)),
        Field::new("variety", "Variety", Text),
        Field::new("wanted", "Plants wanted", Number(&ONE_OR_MORE)),
        Field::new("sow_on", "To be sown", Day),
        Field::new("ready_by", "To be ready", Day),
        Field::new("number", "Cells or pots to sow", Number(&ONE_OR_MORE)),
        Field::new("seed_lot", "Seed lot", One(&["seed_lot"])),
        Field::new("pot", "Pot", Handbook(Book::Pot)),
        Field::new("spacing", "From pot to pot", Number(&POT_SIZE)),
        Field::new("first", "Comes up in", One(&["bay", "tray", "house"])),
        Field::new("then", "Stands in pots in", One(&["bay", "tray", "house"])),
        Field::new("customer", "For whom", Text),
        NOTES,
    ],
)
.ordered(&[("sow_on", "ready_by")]);
