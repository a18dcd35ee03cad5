//! The crops themselves.

use super::{Begun, Crop, Kind};

/// All crops, herbs first.
pub static CROPS: &[&Crop] = &[
    &SWEET_BASIL,
    &THAI_BASIL,
    &LEMON_BASIL,
    &PURPLE_BASIL,
    &GREEK_BASIL,
    &HOLY_BASIL,
    &CORIANDER,
    &PARSLEY,
    &CHIVES,
    &DILL,
    &MINT,
    &ROCKET,
    &CHILLI_ANNUUM,
    &SWEET_PEPPER,
    &CHILLI_CHINENSE,
    &AUBERGINE,
    &TOMATO,
    &CUCUMBER,
    &COURGETTE,
    &LETTUCE,
];

static SWEET_BASIL: Crop = Crop {
    key: "sweet_basil",
    name: "sweet basil",
    botanical: "Ocimum basilicum",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: None,
};

static THAI_BASIL: Crop = Crop {
    key: "thai_basil",
    name: "Thai basil",
    botanical: "Ocimum basilicum var. thyrsiflora",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: Some(&SWEET_BASIL),
};

static LEMON_BASIL: Crop = Crop {
    key: "lemon_basil",
    name: "lemon basil",
    botanical: "Ocimum × africanum",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: Some(&SWEET_BASIL),
};

static PURPLE_BASIL: Crop = Crop {
    key: "purple_basil",
    name: "purple basil",
    botanical: "Ocimum basilicum, purple-leaved",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: Some(&SWEET_BASIL),
};

static GREEK_BASIL: Crop = Crop {
    key: "greek_basil",
    name: "Greek (bush) basil",
    botanical: "Ocimum basilicum var. minimum",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: Some(&SWEET_BASIL),
};

static HOLY_BASIL: Crop = Crop {
    key: "holy_basil",
    name: "holy basil",
    botanical: "Ocimum tenuiflorum",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: Some(&SWEET_BASIL),
};

static CORIANDER: Crop = Crop {
    key: "coriander",
    name: "coriander",
    botanical: "Coriandrum sativum",
    begun: Begun::Seed,
    kind: Kind::Hardy,
    kind_of: None,
};

static PARSLEY: Crop = Crop {
    key: "parsley",
    name: "flat parsley",
    botanical: "Petroselinum crispum var. neapolitanum",
    begun: Begun::Seed,
    kind: Kind::Hardy,
    kind_of: None,
};

static CHIVES: Crop = Crop {
    key: "chives",
    name: "chives",
    botanical: "Allium schoenoprasum",
    begun: Begun::Seed,
    kind: Kind::Hardy,
    kind_of: None,
};

static DILL: Crop = Crop {
    key: "dill",
    name: "dill",
    botanical: "Anethum graveolens",
    begun: Begun::Seed,
    kind: Kind::Hardy,
    kind_of: None,
};

static MINT: Crop = Crop {
    key: "mint",
    name: "mint",
    botanical: "Mentha spicata",
    begun: Begun::Cuttings,
    kind: Kind::Hardy,
    kind_of: None,
};

static ROCKET: Crop = Crop {
    key: "rocket",
    name: "rocket",
    botanical: "Eruca vesicaria subsp. sativa",
    begun: Begun::Seed,
    kind: Kind::Hardy,
    kind_of: None,
};

static CHILLI_ANNUUM: Crop = Crop {
    key: "chilli_annuum",
    name: "chilli (annuum)",
    botanical: "Capsicum annuum",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: None,
};

static SWEET_PEPPER: Crop = Crop {
    key: "sweet_pepper",
    name: "sweet pepper",
    botanical: "Capsicum annuum, Grossum Group",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: Some(&CHILLI_ANNUUM),
};

static CHILLI_CHINENSE: Crop = Crop {
    key: "chilli_chinense",
    name: "chilli (chinense)",
    botanical: "Capsicum chinense",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: Some(&CHILLI_ANNUUM),
};

static AUBERGINE: Crop = Crop {
    key: "aubergine",
    name: "aubergine",
    botanical: "Solanum melongena",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: None,
};

static TOMATO: Crop = Crop {
    key: "tomato",
    name: "tomato",
    botanical: "Solanum lycopersicum",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: None,
};

static CUCUMBER: Crop = Crop {
    key: "cucumber",
    name: "cucumber",
    botanical: "Cucumis sativus",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: None,
};

static COURGETTE: Crop = Crop {
    key: "courgette",
    name: "courgette",
    botanical: "Cucurbita pepo",
    begun: Begun::Seed,
    kind: Kind::Tender,
    kind_of: None,
};

static LETTUCE: Crop = Crop {
    key: "lettuce",
    name: "lettuce",
    botanical: "Lactuca sativa",
    begun: Begun::Seed,
    kind: Kind::Hardy,
    kind_of: None,
};
