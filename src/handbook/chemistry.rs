//! Salt, acidity and nitrogen of what potting mixes are made of.
//!
//! pH is in water and conductivity that of one volume in five of water (EN 13037, EN 13038). How a
//! lot was washed, limed, fed or composted decides more than its name does: a strip or a meter on
//! your own heap overrules all of it.

use super::sources::{
    BISHKO_2002, BUNT_1988_CEC, CHEMISTRY_RECALLED, COMMON_PRACTICE, EVANS_1996, HUANG_2007,
    PH_RULE, RIKALA_1990, RIPPY_2007, SALT_JUDGEMENT, Source, USED_MIX_JUDGEMENT,
    WOOD_FIBRE_NITROGEN,
};
use super::thresholds::Use;
use super::{Figure, figure};

/// The chemistry of one material of the [`materials`](super::materials).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chemistry {
    /// Key of the material.
    pub key: &'static str,
    /// pH in water.
    pub ph: Figure,
    /// Conductivity of a 1:5 extract by volume at 25 °C, mS/m.
    pub conductivity_ms_per_m: Figure,
    /// Cation exchange capacity, cmol/kg of dry matter.
    pub exchange_cmol_per_kg: Figure,
    /// Nitrogen that its decay may lock up in the first months, mg per litre of the material.
    pub nitrogen_locked_mg_per_l: Figure,
    /// Share of its dry mass that works as lime within a season.
    pub free_lime: Figure,
}

/// The chemistry of a material's key.
#[must_use]
pub fn chemistry(key: &str) -> Option<&'static Chemistry> {
    CHEMISTRY.iter().find(|row| row.key == key)
}

/// The key of last season's heap, of which more is to be minded than figures say.
pub const USED_MIX: &str = "used_mix";

/// Steps of pH that a material's exchange capacity is spread over, as a share of it for each step.
/// Bishko et al. 2002 comes to about 24 and Rikala and Jozefek 1990 to about 36 mmolc per litre of
/// peat and step, of some 120.
pub static BUFFER_SHARE_PER_PH: Figure = figure(0.17, 0.25, 0.35, &BISHKO_2002);

/// The pH at which limestone in a mix stops dissolving.
pub static LIME_CEILING: Figure = figure(6.8, 7.1, 7.4, &RIKALA_1990);

/// How much of its mass ground limestone counts for, as pure fine calcium carbonate, in the first weeks.
pub static GROUND_LIMESTONE: Figure = figure(0.6, 0.85, 1.0, &HUANG_2007);

/// How far the rule for the pH of a mix may itself be off.
pub static PH_DEPARTURE: Figure = figure(-0.4, 0.0, 0.4, &PH_RULE);

/// Conductivity of the 1:5 extract that a usual charge of feed adds (about 1 g of compound feed to
/// the litre), mS/m.
pub static CHARGE_MS_PER_M: Figure = figure(12.0, 20.0, 35.0, &CHEMISTRY_RECALLED);

/// Water that a mix holds when its extract is made, L/L.
pub static WATER_HELD: Figure = figure(0.3, 0.5, 0.7, &COMMON_PRACTICE);

/// Litres of water that a litre of mix sees in a season.
pub static WATER_OF_A_SEASON: Figure = figure(3.0, 7.0, 15.0, &COMMON_PRACTICE);

/// The pH that water of high alkalinity can bring a mix to.
pub static WATER_CEILING: Figure = figure(7.2, 7.6, 8.0, &CHEMISTRY_RECALLED);

/// The pH that lime is reckoned for.
pub const WANTED_PH: f64 = 6.0;
/// More compost than this share is too salty and too limy for most young roots.
pub const MOST_COMPOST: f64 = 0.30;
/// The same in a mix for seed.
pub const MOST_COMPOST_FOR_SEED: f64 = 0.10;
/// More coral than this share holds the pH above what fruiting crops take.
pub const MOST_CORAL: f64 = 0.10;
/// More fresh wood and hulls than this share need nitrogen of their own.
pub const MOST_WOODY: f64 = 0.30;
/// From this share coir that was not washed spoils a mix.
pub const COIR_WORTH_WASHING: f64 = 0.10;
/// Alkalinity of water from which a mix is watched, mg/L as calcium carbonate: the lower edge of
/// hard water.
pub const ALKALINE_WATER_MG_PER_L: f64 = 150.0;
/// Source of these shares.
pub static SHARES: &Source = &COMMON_PRACTICE;

/// What salt and pH serve a use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SaltLimits {
    /// The use.
    pub purpose: Use,
    /// Conductivity of the 1:5 extract up to which it serves, mS/m.
    pub serves_to_ms_per_m: f64,
    /// Conductivity up to which it can serve if watched, mS/m.
    pub watch_to_ms_per_m: f64,
    /// pH that serves, from and to.
    pub ph: (f64, f64),
    /// Where the limits come from.
    pub source: &'static Source,
}

/// The limits of a use.
#[must_use]
pub fn salt_limits(purpose: Use) -> &'static SaltLimits {
    let [seed, young, below, growing, cuttings] = &SALT_LIMITS;
    match purpose {
        Use::Seed => seed,
        Use::YoungPlants => young,
        Use::FedFromBelow => below,
        Use::GrowingOn => growing,
        Use::Cuttings => cuttings,
    }
}

const fn limits(purpose: Use, salt: (f64, f64), ph: (f64, f64)) -> SaltLimits {
    SaltLimits {
        purpose,
        serves_to_ms_per_m: salt.0,
        watch_to_ms_per_m: salt.1,
        ph,
        source: &SALT_JUDGEMENT,
    }
}

/// All limits of salt and pH.
pub static SALT_LIMITS: [SaltLimits; 5] = [
    limits(Use::Seed, (25.0, 40.0), (5.5, 6.5)),
    limits(Use::YoungPlants, (40.0, 60.0), (5.5, 6.5)),
    limits(Use::FedFromBelow, (45.0, 65.0), (5.6, 6.6)),
    limits(Use::GrowingOn, (60.0, 90.0), (5.6, 6.8)),
    limits(Use::Cuttings, (20.0, 35.0), (5.0, 6.5)),
];

type Three = [f64; 3];

const fn three(of: Three, source: &'static Source) -> Figure {
    figure(of[0], of[1], of[2], source)
}

/// A row of figures from memory.
const fn row(
    key: &'static str,
    ph: Three,
    conductivity: Three,
    exchange: Three,
    nitrogen: Three,
    free_lime: Three,
) -> Chemistry {
    Chemistry {
        key,
        ph: three(ph, &CHEMISTRY_RECALLED),
        conductivity_ms_per_m: three(conductivity, &CHEMISTRY_RECALLED),
        exchange_cmol_per_kg: three(exchange, &CHEMISTRY_RECALLED),
        nitrogen_locked_mg_per_l: three(nitrogen, &CHEMISTRY_RECALLED),
        free_lime: three(free_lime, &CHEMISTRY_RECALLED),
    }
}

const NONE: Three = [0.0, 0.0, 0.0];
/// Grit and sand may hold shell or limestone.
const MAYBE_LIMY: Three = [0.0, 0.0, 0.002];
const PERLITE: Chemistry = Chemistry {
    exchange_cmol_per_kg: figure(0.5, 1.5, 3.0, &BUNT_1988_CEC),
    ..row(
        "",
        [6.5, 7.2, 8.0],
        [0.5, 2.0, 5.0],
        [0.5, 1.5, 3.0],
        NONE,
        NONE,
    )
};

/// All rows, in the order of the materials, and last year's heap.
pub static CHEMISTRY: &[Chemistry] = &[
    Chemistry {
        exchange_cmol_per_kg: figure(108.0, 130.0, 162.0, &RIPPY_2007),
        ..row(
            "white_peat",
            [3.5, 4.0, 4.5],
            [2.0, 4.0, 10.0],
            NONE,
            [0.0, 5.0, 30.0],
            NONE,
        )
    },
    Chemistry {
        exchange_cmol_per_kg: figure(108.0, 140.0, 170.0, &RIPPY_2007),
        ..row(
            "black_peat",
            [3.5, 4.0, 4.5],
            [3.0, 6.0, 12.0],
            NONE,
            [0.0, 0.0, 15.0],
            NONE,
        )
    },
    Chemistry {
        ph: figure(5.6, 6.0, 6.9, &EVANS_1996),
        exchange_cmol_per_kg: figure(39.0, 50.0, 60.0, &EVANS_1996),
        ..row(
            "coir_pith",
            NONE,
            [10.0, 40.0, 300.0],
            NONE,
            [0.0, 20.0, 80.0],
            NONE,
        )
    },
    row(
        "coir_chips",
        [5.5, 6.0, 6.8],
        [10.0, 30.0, 200.0],
        [30.0, 45.0, 60.0],
        [0.0, 20.0, 80.0],
        NONE,
    ),
    Chemistry {
        exchange_cmol_per_kg: figure(30.0, 50.0, 70.0, &BUNT_1988_CEC),
        ..row(
            "composted_bark",
            [4.0, 5.0, 6.5],
            [5.0, 15.0, 40.0],
            NONE,
            [0.0, 40.0, 150.0],
            NONE,
        )
    },
    row(
        "green_compost",
        [7.0, 8.2, 9.0],
        [60.0, 110.0, 250.0],
        [40.0, 60.0, 90.0],
        [0.0, 20.0, 100.0],
        [0.002, 0.006, 0.02],
    ),
    row(
        "loam_compost",
        [5.8, 6.3, 6.8],
        [8.0, 20.0, 45.0],
        [12.0, 18.0, 25.0],
        [0.0, 0.0, 20.0],
        NONE,
    ),
    Chemistry {
        nitrogen_locked_mg_per_l: figure(80.0, 167.0, 300.0, &WOOD_FIBRE_NITROGEN),
        ..row(
            "wood_fibre",
            [4.5, 5.2, 6.2],
            [2.0, 6.0, 15.0],
            [10.0, 25.0, 50.0],
            NONE,
            NONE,
        )
    },
    row(
        "wood_chips",
        [4.5, 5.3, 6.5],
        [3.0, 8.0, 20.0],
        [10.0, 20.0, 40.0],
        [50.0, 130.0, 300.0],
        NONE,
    ),
    row(
        "rice_hulls",
        [5.7, 6.3, 7.0],
        [5.0, 15.0, 40.0],
        [5.0, 15.0, 30.0],
        [20.0, 100.0, 250.0],
        NONE,
    ),
    Chemistry {
        key: "perlite_fine",
        ..PERLITE
    },
    Chemistry {
        key: "perlite_medium",
        ..PERLITE
    },
    Chemistry {
        key: "perlite_coarse",
        ..PERLITE
    },
    Chemistry {
        exchange_cmol_per_kg: figure(80.0, 120.0, 160.0, &BUNT_1988_CEC),
        ..row(
            "vermiculite",
            [6.5, 7.3, 9.0],
            [2.0, 6.0, 20.0],
            NONE,
            NONE,
            NONE,
        )
    },
    row(
        "pumice",
        [6.5, 7.2, 8.0],
        [1.0, 5.0, 15.0],
        [1.0, 5.0, 15.0],
        NONE,
        NONE,
    ),
    row(
        "scoria",
        [6.8, 7.5, 8.5],
        [2.0, 6.0, 20.0],
        [1.0, 5.0, 20.0],
        NONE,
        NONE,
    ),
    row(
        "sharp_sand",
        [6.5, 7.3, 8.5],
        [1.0, 5.0, 20.0],
        [0.5, 1.0, 3.0],
        NONE,
        MAYBE_LIMY,
    ),
    row(
        "grit",
        [6.5, 7.3, 8.5],
        [1.0, 3.0, 10.0],
        [0.1, 0.4, 1.0],
        NONE,
        MAYBE_LIMY,
    ),
    row(
        "pea_gravel",
        [6.5, 7.3, 8.5],
        [1.0, 3.0, 10.0],
        [0.1, 0.4, 1.0],
        NONE,
        MAYBE_LIMY,
    ),
    row(
        "expanded_clay",
        [6.0, 7.0, 9.0],
        [2.0, 10.0, 60.0],
        [1.0, 3.0, 8.0],
        NONE,
        NONE,
    ),
    row(
        "rockwool_granulate",
        [6.5, 7.2, 8.2],
        [1.0, 3.0, 10.0],
        [0.1, 0.5, 1.0],
        NONE,
        NONE,
    ),
    Chemistry {
        // Its grains are coarse: the share is that of grains of 1 to 2 mm and less.
        free_lime: figure(0.01, 0.04, 0.13, &HUANG_2007),
        ..row(
            "crushed_coral",
            [8.2, 8.7, 9.2],
            [20.0, 150.0, 600.0],
            [0.3, 1.0, 2.0],
            NONE,
            NONE,
        )
    },
    Chemistry {
        key: USED_MIX,
        ph: figure(5.2, 6.3, 7.3, &USED_MIX_JUDGEMENT),
        conductivity_ms_per_m: figure(10.0, 35.0, 110.0, &USED_MIX_JUDGEMENT),
        exchange_cmol_per_kg: figure(30.0, 70.0, 130.0, &USED_MIX_JUDGEMENT),
        nitrogen_locked_mg_per_l: figure(0.0, 20.0, 80.0, &USED_MIX_JUDGEMENT),
        free_lime: figure(0.0, 0.0, 0.01, &USED_MIX_JUDGEMENT),
    },
];
