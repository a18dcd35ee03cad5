//! Heat under glass: grounds and floors, covers, films, insulation, bench heat, and what roots ask for.
//!
//! Most rows of materials are those of the standards that builders reckon with; how a block of pots stands in
//! its air, how a tray touches a floor and how the ground under a house runs through the year were found
//! measured nowhere, and are judgements with wide ranges. A few days of readings of one's own go before
//! them.

use super::sources::{
    BED_WARMED_1994, BENCH_HEAT_GUIDE, COMMON_PRACTICE, COVER_TABLES, EN_10456, FAROUKI_1982,
    GEOOLA_2009, HE_2019, HEAT_JUDGEMENT, MOSS_1983, ROOT_CARDINALS, SAVAGE_1980,
    SOIL_WARMING_2011, SOIL_WARMING_SHEET, THERMAL_SOILS,
};
use super::{Figure, figure};
use crate::science::thermal_time::Cardinals;

/// A ground, a floor or what a bench is built of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ground {
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// Conductivity, W/m K.
    pub conductivity_w_per_m_k: Figure,
    /// Heat capacity by volume, MJ/m³ K.
    pub capacity_mj_per_m3_k: Figure,
}

const fn ground(
    key: &'static str,
    name: &'static str,
    conductivity_w_per_m_k: Figure,
    capacity_mj_per_m3_k: Figure,
) -> Ground {
    Ground {
        key,
        name,
        conductivity_w_per_m_k,
        capacity_mj_per_m3_k,
    }
}

/// What may lie under a house, usual first.
pub static GROUNDS: &[Ground] = &[
    ground(
        "earth",
        "earth, bare or under membrane",
        figure(0.4, 1.2, 1.7, &HEAT_JUDGEMENT),
        figure(1.4, 2.2, 3.0, &HEAT_JUDGEMENT),
    ),
    ground(
        "loam_moist",
        "moist loam",
        figure(0.8, 1.0, 1.6, &THERMAL_SOILS),
        figure(1.9, 2.2, 3.0, &THERMAL_SOILS),
    ),
    ground(
        "clay_moist",
        "moist clay",
        figure(0.7, 1.2, 1.6, &FAROUKI_1982),
        figure(2.0, 2.4, 3.0, &THERMAL_SOILS),
    ),
    ground(
        "sand_dry",
        "dry sand",
        figure(0.25, 0.3, 0.4, &THERMAL_SOILS),
        figure(1.2, 1.3, 1.5, &THERMAL_SOILS),
    ),
    ground(
        "sand_moist",
        "moist sand",
        figure(0.8, 1.2, 2.4, &FAROUKI_1982),
        figure(1.5, 1.7, 2.1, &THERMAL_SOILS),
    ),
    ground(
        "sand_wet",
        "wet sand",
        figure(1.7, 2.2, 2.6, &THERMAL_SOILS),
        figure(2.7, 2.9, 3.0, &THERMAL_SOILS),
    ),
    ground(
        "peat_soil",
        "wet peat soil",
        figure(0.4, 0.5, 0.6, &THERMAL_SOILS),
        figure(3.6, 4.0, 4.1, &THERMAL_SOILS),
    ),
    ground(
        "gravel_drained",
        "drained gravel or shingle",
        figure(0.3, 0.45, 0.8, &HEAT_JUDGEMENT),
        figure(1.3, 1.5, 1.7, &HEAT_JUDGEMENT),
    ),
    ground(
        "concrete",
        "concrete",
        figure(1.15, 1.35, 2.0, &EN_10456),
        figure(1.8, 2.0, 2.4, &EN_10456),
    ),
    ground(
        "slabs",
        "paving slabs on sand",
        figure(1.1, 1.4, 1.8, &HEAT_JUDGEMENT),
        figure(1.8, 2.0, 2.2, &HEAT_JUDGEMENT),
    ),
    ground(
        "timber",
        "softwood boards",
        figure(0.11, 0.13, 0.16, &EN_10456),
        figure(0.7, 0.8, 0.9, &EN_10456),
    ),
];

/// The ground of a key.
#[must_use]
pub fn ground_of(key: &str) -> Option<&'static Ground> {
    GROUNDS.iter().find(|ground| ground.key == key)
}

/// Mean of the year of open ground in a lowland at 50 to 55 °N, °C.
pub static OPEN_GROUND_MEAN_C: Figure = figure(10.0, 11.0, 12.0, &HEAT_JUDGEMENT);
/// Half-range of the year at its surface, K.
pub static OPEN_GROUND_SWING_K: Figure = figure(6.0, 7.6, 9.0, &HEAT_JUDGEMENT);
/// Day of the year on which its surface is coldest.
pub static OPEN_GROUND_COLDEST_DAY: Figure = figure(15.0, 20.0, 35.0, &HEAT_JUDGEMENT);
/// How much warmer the mean is under a house in use from March to October, K.
pub static UNDER_HOUSE_WARMER_K: Figure = figure(1.0, 2.5, 4.0, &HEAT_JUDGEMENT);
/// How much larger the swing is there, K.
pub static UNDER_HOUSE_SWINGS_MORE_K: Figure = figure(0.0, 1.5, 3.0, &HEAT_JUDGEMENT);

/// A cover of a house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HouseCover {
    /// Stable name.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// Transmittance, W/m² K of cover.
    pub loss_w_per_m2_k: Figure,
}

/// Covers of houses.
pub static HOUSE_COVERS: &[HouseCover] = &[
    HouseCover {
        key: "glass",
        name: "single glass",
        loss_w_per_m2_k: figure(5.5, 6.0, 7.5, &COVER_TABLES),
    },
    HouseCover {
        key: "film",
        name: "single film",
        loss_w_per_m2_k: figure(6.0, 6.8, 8.0, &COVER_TABLES),
    },
    HouseCover {
        key: "double_film",
        name: "double inflated film",
        loss_w_per_m2_k: figure(3.5, 4.0, 4.5, &COVER_TABLES),
    },
    HouseCover {
        key: "twin_wall",
        name: "twin-wall polycarbonate, 10 mm",
        loss_w_per_m2_k: figure(3.0, 3.3, 3.5, &COVER_TABLES),
    },
    HouseCover {
        key: "lined_glass",
        name: "glass lined with bubble film",
        loss_w_per_m2_k: figure(3.0, 3.5, 4.2, &COVER_TABLES),
    },
];

/// What a thermal screen drawn under the cover leaves of its loss, share.
pub static SCREEN_LEAVES: Figure = figure(0.6, 0.7, 0.8, &GEOOLA_2009);
/// Changes of air an hour of an old glass house in good repair, shut.
pub static AIR_CHANGES_PER_H: Figure = figure(1.0, 1.5, 2.0, &COVER_TABLES);
/// The same of one in poor repair.
pub static AIR_CHANGES_POOR_PER_H: Figure = figure(2.0, 3.0, 4.0, &COVER_TABLES);
/// The same of new glass, well kept.
pub static AIR_CHANGES_NEW_PER_H: Figure = figure(0.75, 1.0, 1.5, &COVER_TABLES);
/// How much warmer air is by night for each metre of height, K/m.
pub static NIGHT_INVERSION_K_PER_M: Figure = figure(0.0, 1.1, 1.5, &SAVAGE_1980);
/// How much warmer the air at bench height is by night than that at the floor, K.
pub static BENCH_WARMER_BY_NIGHT_K: Figure = figure(0.0, 0.8, 1.1, &HEAT_JUDGEMENT);

/// How long after noon it is warmest in a shut house, h; in the open it is nearer to two.
pub static GLASS_WARMEST_AFTER_NOON_H: Figure = figure(1.0, 1.25, 1.9, &HEAT_JUDGEMENT);

/// A cover over a bench inside the house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BenchCover {
    /// Stable name.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// From the air under it to the air of the house, W/m² K of bench.
    pub loss_w_per_m2_k: Figure,
}

/// Covers of benches.
pub static BENCH_COVERS: &[BenchCover] = &[
    BenchCover {
        key: "film",
        name: "film on hoops",
        loss_w_per_m2_k: figure(4.0, 5.0, 6.0, &HEAT_JUDGEMENT),
    },
    BenchCover {
        key: "film_and_fleece",
        name: "film and fleece",
        loss_w_per_m2_k: figure(2.9, 3.5, 4.6, &HEAT_JUDGEMENT),
    },
];

/// Share of the pots' walls that air reaches in a closed block.
pub static BLOCK_WALLS: Figure = figure(0.15, 0.4, 0.9, &HEAT_JUDGEMENT);
/// The same where pots stand apart by about their own breadth.
pub static APART_WALLS: Figure = figure(0.7, 0.9, 1.0, &HEAT_JUDGEMENT);
/// Between a tray and a flat floor, m² K/W.
pub static CONTACT_FLAT_M2_K_PER_W: Figure = figure(0.02, 0.05, 0.1, &HEAT_JUDGEMENT);
/// Between a tray and gravel or low slats, m² K/W.
pub static CONTACT_POINTS_M2_K_PER_W: Figure = figure(0.07, 0.12, 0.17, &HEAT_JUDGEMENT);
/// From water or wet bed into the base of a pot, W/m² K.
pub static INTO_BASE_W_PER_M2_K: Figure = figure(50.0, 100.0, 200.0, &HEAT_JUDGEMENT);
/// What draughts in a shut house carry off a surface, W/m² K.
pub static DRAUGHT_W_PER_M2_K: Figure = figure(0.5, 1.5, 3.0, &HEAT_JUDGEMENT);
/// Share of the sun at bench height that the tops of pots take up below a canopy.
pub static SUN_ON_TOP: Figure = figure(0.05, 0.1, 0.25, &HEAT_JUDGEMENT);
/// Share of it that the walls take up, in a block.
pub static SUN_ON_WALLS: Figure = figure(0.03, 0.1, 0.2, &HEAT_JUDGEMENT);
/// Of what tops of pots see above them, the share that is the cover; the rest is leaves.
pub static TOP_SEES: Figure = figure(0.6, 0.8, 0.95, &HEAT_JUDGEMENT);
/// The same of the walls of pots in a block; the rest is neighbours.
pub static WALL_SEES: Figure = figure(0.05, 0.2, 0.4, &HEAT_JUDGEMENT);
/// The same of open trays.
pub static TRAY_SEES: Figure = figure(0.2, 0.5, 0.8, &HEAT_JUDGEMENT);
/// Share of a bench cover's loss that radiates to the cover of the house: about half of still loss is radiation.
pub static BENCH_COVER_SEES: Figure = figure(0.2, 0.4, 0.6, &HEAT_JUDGEMENT);
/// Share of the sun that a bench cover lets through.
pub static BENCH_COVER_TRANSMITS: Figure = figure(0.75, 0.85, 0.92, &HEAT_JUDGEMENT);
/// Share of the sun that the floor below a raised tray takes up.
pub static SUN_BELOW_TRAY: Figure = figure(0.01, 0.05, 0.15, &HEAT_JUDGEMENT);
/// How full the gaps of a bed in a tray are on the mean of the days.
pub static BED_GAPS_FULL: Figure = figure(0.2, 0.5, 0.8, &HEAT_JUDGEMENT);
/// Share of the top of a mix that evaporates as open water does.
pub static WET_TOP: Figure = figure(0.05, 0.3, 0.8, &HEAT_JUDGEMENT);

/// How far the dew point of the air in a shut house lies over its lowest temperature of the night, K: plants and
/// wet floors go on giving off vapour by day, and the cover takes it by night.
pub static DEW_POINT_OVER_LOWEST_K: Figure = figure(-2.0, 0.5, 3.0, &HEAT_JUDGEMENT);
/// Share of the sun through the cover that stays as heat: what is not sent out again or leaves as vapour.
pub static HOUSE_KEEPS_SUN: Figure = figure(0.4, 0.6, 0.8, &HEAT_JUDGEMENT);
/// Share of that which falls on the floor.
pub static SUN_ON_FLOOR: Figure = figure(0.3, 0.5, 0.7, &HEAT_JUDGEMENT);
/// Share of the sky that the cover of a house sees.
pub static SKY_SEEN: Figure = figure(0.3, 0.5, 0.8, &HEAT_JUDGEMENT);
/// What stands in a house and follows its air takes up so much, kJ/K for each m² of floor.
pub static STANDING_KJ_PER_M2_K: Figure = figure(15.0, 30.0, 60.0, &HEAT_JUDGEMENT);
/// Between floor and air of a house, radiation and all, W/m² K.
pub static FLOOR_FILM_W_PER_M2_K: Figure = figure(5.0, 7.7, 10.0, &HEAT_JUDGEMENT);
/// What a kitchen thermometer in a pot is off, and the place of its tip, K: deviations of one reading.
pub static READ_TO_K: Figure = figure(0.3, 0.5, 1.0, &HEAT_JUDGEMENT);
/// Water that a mix holds on the mean of the days, against what it holds once drained.
pub static MIX_HOLDS_OF_DRAINED: Figure = figure(0.6, 0.8, 1.0, &HEAT_JUDGEMENT);
/// Resistance of slats and of boards under a tray, with its bottom, m² K/W.
pub static SLATS_M2_K_PER_W: Figure = figure(0.005, 0.01, 0.03, &HEAT_JUDGEMENT);
/// The same of boards of 18 mm.
pub static BOARDS_M2_K_PER_W: Figure = figure(0.1, 0.13, 0.18, &HEAT_JUDGEMENT);

/// What the wall of a pot takes up of the sun that falls on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PotColour {
    /// Stable name.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// Share of the sun.
    pub takes_up: Figure,
}

/// Colours of pots.
pub static POT_COLOURS: &[PotColour] = &[
    PotColour {
        key: "black",
        name: "black",
        takes_up: figure(0.9, 0.95, 0.97, &HEAT_JUDGEMENT),
    },
    PotColour {
        key: "terracotta",
        name: "terracotta",
        takes_up: figure(0.55, 0.65, 0.75, &HEAT_JUDGEMENT),
    },
    PotColour {
        key: "white",
        name: "white",
        takes_up: figure(0.2, 0.3, 0.4, &HEAT_JUDGEMENT),
    },
];

/// An insulating board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Board {
    /// Stable name.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// Conductivity, W/m K.
    pub conductivity_w_per_m_k: Figure,
}

/// Boards under a heated bench.
pub static BOARDS: &[Board] = &[
    Board {
        key: "eps",
        name: "expanded polystyrene",
        conductivity_w_per_m_k: figure(0.032, 0.036, 0.04, &EN_10456),
    },
    Board {
        key: "xps",
        name: "extruded polystyrene",
        conductivity_w_per_m_k: figure(0.030, 0.034, 0.037, &EN_10456),
    },
    Board {
        key: "pu",
        name: "polyurethane board",
        conductivity_w_per_m_k: figure(0.022, 0.025, 0.029, &EN_10456),
    },
    Board {
        key: "plywood",
        name: "plywood",
        conductivity_w_per_m_k: figure(0.12, 0.14, 0.17, &EN_10456),
    },
];

/// Heat installed under benches, as printed, W/m².
pub static UNDER_BENCH_W_PER_M2: Figure = figure(47.0, 63.0, 79.0, &BENCH_HEAT_GUIDE);
/// Heat of warming cable in beds as printed on a sheet, W/m².
pub static SOIL_WARMING_W_PER_M2: Figure = figure(78.0, 86.0, 111.0, &SOIL_WARMING_SHEET);
/// How much warmer than a house of 7 °C the same sheet says its beds become, K.
pub static SOIL_WARMING_LIFT_K: Figure = figure(11.0, 12.0, 13.0, &SOIL_WARMING_SHEET);
/// Heat that a measured, insulated bed of sand took on the mean of a day to be held at 20 °C, W/m².
pub static SOIL_WARMING_MEASURED_W_PER_M2: Figure = figure(78.0, 78.0, 100.0, &SOIL_WARMING_2011);
/// Up from a closed stand of pots on a bench, W/m² K.
pub static CLOSED_STAND_W_PER_M2_K: Figure = figure(5.0, 6.0, 8.0, &HEAT_JUDGEMENT);
/// Up from open wet sand or a tray of water, W/m² K.
pub static OPEN_SAND_W_PER_M2_K: Figure = figure(8.0, 11.0, 14.0, &HEAT_JUDGEMENT);
/// The band of a bench's thermostat, K.
pub static THERMOSTAT_BAND_K: Figure = figure(0.5, 1.0, 2.0, &SOIL_WARMING_2011);
/// Water or pot bottoms are to be no warmer than this, °C.
pub static WARMEST_ROOTS_C: Figure = figure(28.0, 29.0, 30.0, &COMMON_PRACTICE);
/// An independent cut-out breaks the heat of a bench at this, °C.
pub static CUT_OUT_C: Figure = figure(30.0, 32.0, 35.0, &COMMON_PRACTICE);

/// Hours of a night below its limit, for some nights on end, after which a tender root shows a check.
pub static CHECKED_AFTER_H: Figure = figure(4.0, 8.0, 12.0, &ROOT_CARDINALS);

/// What a crop's root asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RootCrop {
    /// The crop's key in [`super::crops`].
    pub key: &'static str,
    /// At and below it the root of a plant does not grow, °C.
    pub base_c: Figure,
    /// Best, °C.
    pub optimum_c: Figure,
    /// At and above it nothing grows, °C.
    pub ceiling_c: Figure,
    /// Roots below this for nights on end give a check, °C; none for the hardy.
    pub chilled_below_c: Option<Figure>,
}

impl RootCrop {
    /// The cardinal temperatures at their best figures; none if the row were out of order, which a test
    /// forbids.
    #[must_use]
    pub fn cardinals(&self) -> Option<Cardinals> {
        let [base, optimum, ceiling] =
            [self.base_c, self.optimum_c, self.ceiling_c].map(|figure| figure.range.best());
        Cardinals::new(base, optimum, ceiling).ok()
    }
}

/// A base is told to so many kelvins either way, an optimum and a ceiling to so many: a judgement over trials
/// of steps of 5 K.
const BASE_TOLD_TO_K: f64 = 2.0;
const OPTIMUM_TOLD_TO_K: f64 = 2.5;

const fn about(best_c: f64, told_to_k: f64) -> Figure {
    figure(
        best_c - told_to_k,
        best_c,
        best_c + told_to_k,
        &ROOT_CARDINALS,
    )
}

const fn root_crop(
    key: &'static str,
    [base_c, optimum_c, ceiling_c]: [f64; 3],
    chilled_below_c: Option<Figure>,
) -> RootCrop {
    RootCrop {
        key,
        base_c: about(base_c, BASE_TOLD_TO_K),
        optimum_c: about(optimum_c, OPTIMUM_TOLD_TO_K),
        ceiling_c: about(ceiling_c, OPTIMUM_TOLD_TO_K),
        chilled_below_c,
    }
}

/// What roots ask for. A crop without a row takes that of the crop it is a kind of.
pub static ROOT_CROPS: &[RootCrop] = &[
    root_crop(
        "tomato",
        [8.0, 26.0, 38.0],
        Some(figure(8.0, 10.0, 11.0, &ROOT_CARDINALS)),
    ),
    root_crop(
        "sweet_pepper",
        [10.0, 27.0, 40.0],
        Some(figure(10.0, 12.0, 13.0, &ROOT_CARDINALS)),
    ),
    root_crop(
        "chilli_annuum",
        [10.0, 27.0, 40.0],
        Some(figure(10.0, 12.0, 13.0, &ROOT_CARDINALS)),
    ),
    root_crop(
        "aubergine",
        [10.0, 28.0, 40.0],
        Some(figure(10.0, 12.0, 14.0, &ROOT_CARDINALS)),
    ),
    root_crop(
        "cucumber",
        [11.0, 27.0, 39.0],
        Some(figure(12.0, 13.0, 14.0, &ROOT_CARDINALS)),
    ),
    root_crop(
        "sweet_basil",
        [11.0, 30.0, 42.0],
        Some(figure(10.0, 11.5, 13.0, &ROOT_CARDINALS)),
    ),
    root_crop("coriander", [3.0, 20.5, 32.5], None),
    root_crop("parsley", [3.0, 20.5, 32.5], None),
    root_crop("chives", [3.0, 20.5, 32.5], None),
    root_crop("lettuce", [3.0, 20.5, 32.5], None),
];

/// What roots of a crop ask for.
#[must_use]
pub fn root_crop_of(key: &str) -> Option<&'static RootCrop> {
    ROOT_CROPS.iter().find(|crop| crop.key == key)
}

/// The root's part in growth as an exponent on the ratio of mean rates, for plants in leaf; 1 for emergence and
/// the rooting of cuttings. Fitted to two trials ([`FITTED_TRIALS`]); it overstates what cold does where the
/// colder rate is near nought.
pub static ROOT_EXPONENT: Figure = figure(0.15, 0.3, 0.6, &HEAT_JUDGEMENT);
/// The same as a share of growth, which does not run away near nought. Fitted to the same two trials.
pub static ROOT_SHARE: Figure = figure(0.15, 0.3, 0.45, &HEAT_JUDGEMENT);

/// A published trial of roots at two temperatures with all else alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RootTrial {
    /// The crop's key.
    pub crop: &'static str,
    /// The colder and the warmer root, °C.
    pub roots_c: [f64; 2],
    /// How many times the colder's yield the warmer's was: least, middle and most as printed.
    pub grew_times: Figure,
    /// What was done.
    pub what: &'static str,
}

/// The trials that the root's part was fitted to; they do not count as checks of it.
pub static FITTED_TRIALS: &[RootTrial] = &[
    RootTrial {
        crop: "tomato",
        roots_c: [17.0, 25.0],
        grew_times: figure(1.13, 1.145, 1.16, &MOSS_1983),
        what: "nutrient film of at least 25 °C against unheated, taken to be 17 °C; yield of eight weeks",
    },
    RootTrial {
        crop: "tomato",
        roots_c: [14.0, 20.0],
        grew_times: figure(1.14, 1.15, 1.16, &BED_WARMED_1994),
        what: "beds of 20 °C in the middle of March against unheated, taken to be 14 °C on the mean; yield of two seasons",
    },
];

/// A trial that nothing was fitted to.
pub static UNFITTED_TRIAL: RootTrial = RootTrial {
    crop: "tomato",
    roots_c: [10.0, 20.0],
    grew_times: figure(1.086, 1.17, 1.264, &HE_2019),
    what: "roots cooled to 10 °C in a winter house of 18 to 23 °C: 7.9 to 20.9 % less marketable yield",
};
