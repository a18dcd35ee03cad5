//! What was tested, found and learnt.

use super::amounts::{
    COUNT, DEPTH, FIGURE, HEIGHT, MINUTES, ONE_OR_MORE, POT_SIZE, POT_VOLUME, SHARE, SMALL_WEIGHT,
    VOLUME,
};
use super::{AFTER_SOWING, Book, Field, ITS_BATCH, Kind, NAMED, NOTES, ON, PLACES, Takes};
use Takes::{Choice, Handbook, Number, One, Rows, Text};

/// The kinds of this file.
pub static KINDS: &[&Kind] = &[&TEST, &FIT, &CARD, &LOOK, &VERDICT, &OUTCOME];

/// A test done with kitchen scales, a bucket, a tube or a tray of seeds.
pub static TEST: Kind = Kind::log(
    "test",
    ["test", "tests"],
    &[
        ON,
        Field::needed(
            "what",
            "Which test",
            Choice(&[
                ("drain", "drain test of a pot"),
                ("bucket", "bucket test of a flow"),
                ("tube", "tube test of a sand"),
                ("germination", "germination test"),
            ]),
        ),
        Field::new("mix", "Mix", One(&["mix"])),
        Field::new("material", "Material", Handbook(Book::Material)),
        Field::new("seed_lot", "Seed lot", One(&["seed_lot"])),
        Field::new("pot", "Pot", Handbook(Book::Pot)),
        Field::new("volume", "Volume of the pot or bucket", Number(&POT_VOLUME)),
        Field::new("height", "Height of the mark", Number(&POT_SIZE)),
        Field::new(
            "moisture",
            "Water in what was filled in, share of its weight",
            Number(&SHARE),
        ),
        Field::new(
            "filled_weight",
            "Weight as filled in",
            Number(&SMALL_WEIGHT),
        ),
        Field::new(
            "full_weight",
            "Weight when full of water",
            Number(&SMALL_WEIGHT),
        ),
        Field::new(
            "drained_weight",
            "Weight when drained",
            Number(&SMALL_WEIGHT),
        ),
        Field::new("dry_weight", "Weight when dry", Number(&SMALL_WEIGHT)),
        Field::new("drained", "Water drained", Number(&VOLUME)),
        Field::new("time", "Time it took", Number(&MINUTES)),
        Field::new("rise", "Height of the water", Number(&DEPTH)),
        Field::new("seeds", "Seeds laid", Number(&ONE_OR_MORE)),
        Field::new("up", "Seeds up", Number(&COUNT)),
        NOTES,
    ],
)
.ordered(&[
    ("drained_weight", "full_weight"),
    ("filled_weight", "full_weight"),
    ("dry_weight", "drained_weight"),
    ("up", "seeds"),
]);

/// Figures fitted to what was measured.
pub static FIT: Kind = Kind::standing(
    "fit",
    ["fit", "fits"],
    &[
        NAMED,
        Field::new("on", "Day", Takes::Day),
        Field::new(
            "of",
            "Of",
            One(&[
                "house",
                "bay",
                "tray",
                "mix",
                "material",
                "crop",
                "instrument",
            ]),
        ),
        Field::new("by", "Reckoning", Text),
        Field::new(
            "figures",
            "Figures",
            Rows(&[
                Field::needed("what", "Figure", Text),
                Field::new("low", "Low", Number(&FIGURE)),
                Field::needed("best", "Best", Number(&FIGURE)),
                Field::new("high", "High", Number(&FIGURE)),
                Field::new("unit", "Unit", Text),
            ]),
        ),
        NOTES,
    ],
);

/// The points that batches of a crop are looked at by.
pub static CARD: Kind = Kind::standing(
    "card",
    ["card", "cards"],
    &[
        NAMED,
        Field::needed("crop", "Crop", Handbook(Book::Crop)),
        Field::needed("points", "Points, in their order", Text),
        NOTES,
    ],
);

/// A look at a batch, to see whether it is ready.
pub static LOOK: Kind = Kind::log(
    "look",
    ["look", "looks"],
    &[
        ON,
        ITS_BATCH,
        Field::new(
            "roots",
            "Roots",
            Choice(&[
                ("none", "none to be seen"),
                ("few", "a few at the edge"),
                ("hold", "hold the mix together"),
                ("crowded", "crowded"),
            ]),
        ),
        Field::new("leaves", "True leaves", Number(&COUNT)),
        Field::new("height", "Height", Number(&HEIGHT)),
        Field::new(
            "looks",
            "Looks",
            Choice(&[
                ("strong", "strong"),
                ("soft", "soft or drawn"),
                ("hungry", "hungry"),
                ("ill", "ill"),
            ]),
        ),
        NOTES,
    ],
)
.after(AFTER_SOWING);

/// What a reckoning said of a batch.
pub static VERDICT: Kind = Kind::log(
    "verdict",
    ["verdict", "verdicts"],
    &[
        ON,
        ITS_BATCH,
        Field::new("by", "Reckoning", Text),
        Field::needed("said", "It said", Text),
        Field::new(
            "stage",
            "So it is",
            Choice(&[
                ("ready", "ready"),
                ("wait", "ready, and waits"),
                ("not_yet", "not ready yet"),
                ("overdue", "overdue"),
            ]),
        ),
        Field::new("best_day", "Best day to move", Takes::Day),
        Field::new("to", "Goes to", One(PLACES)),
        Field::new(
            "seen",
            "What was seen",
            Rows(&[
                Field::needed("what", "Of what", Text),
                Field::needed("found", "Seen", Text),
            ]),
        ),
        Field::new(
            "hardening",
            "Hardening, day by day",
            Rows(&[
                Field::needed("day", "Day", Takes::Day),
                Field::needed("what", "What to do", Text),
            ]),
        ),
        Field::new("question", "The question", Text),
        NOTES,
    ],
)
.after(AFTER_SOWING);

/// What came of it.
pub static OUTCOME: Kind = Kind::log(
    "outcome",
    ["outcome", "outcomes"],
    &[
        ON,
        ITS_BATCH,
        Field::new("verdict", "Verdict", One(&["verdict"])),
        Field::needed(
            "went",
            "It went",
            Choice(&[
                ("well", "well"),
                ("slowly", "slowly"),
                ("checked", "with a check to growth"),
                ("harmed", "harmed by cold"),
                ("lost", "lost"),
            ]),
        ),
        Field::new("lost", "Lost", Number(&COUNT)),
        NOTES,
    ],
)
.after(AFTER_SOWING);
