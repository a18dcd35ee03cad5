//! The months of some places between 50 and 57° north, out of doors.
//!
//! A start for whoever has no record yet: your own readings go before it, and a house adds its own
//! warmth. Means only: single days, nights and years stray from them as [`YEAR_SPREAD_C`] and
//! [`NIGHT_SPREAD_C`] tell.

use super::sources::{BUILDING_CLIMATE, KNMI_RECALLED, MET_STATIONS, NIGHT_SPREAD, Source};
use crate::measure::Range;
use crate::science::year_course::on_day;

/// MJ/m² d in a W/m².
pub const MJ_PER_DAY_IN_WATT: f64 = 0.0864;

/// Standard deviation of a month's mean minimum between years, K (seven lowland English stations,
/// 1991 to 2020).
pub const YEAR_SPREAD_C: [f64; 12] = [
    1.30, 1.51, 1.23, 0.94, 0.95, 0.88, 0.86, 0.94, 1.07, 1.59, 1.40, 1.83,
];

/// Standard deviation of a single night's minimum about the mean of many years, K, from air frost
/// days of the same stations; June to September, which hardly freeze, are between their neighbours
/// by judgement. Within 0.4 K.
pub const NIGHT_SPREAD_C: [f64; 12] = [
    3.52, 3.55, 3.22, 3.36, 3.41, 3.1, 3.0, 3.0, 3.2, 4.09, 3.99, 3.92,
];

/// How many spreads below the mean the coldest night of a month lies: in one year of ten more, in
/// the middle one, in one of ten less. Nights that follow each other with a correlation of 0.5 to
/// 0.65.
pub const COLDEST_NIGHT_SPREADS: [f64; 3] = [2.65, 1.85, 1.15];

/// Where the two spreads and the coldest nights come from.
pub static SPREAD_SOURCE: &Source = &NIGHT_SPREAD;

/// One place.
#[derive(Debug, PartialEq)]
pub struct Climate {
    /// Stable name in files and addresses.
    pub key: &'static str,
    /// Name on the page.
    pub name: &'static str,
}

/// What is known of a place.
#[derive(Debug, PartialEq)]
pub struct Weather {
    /// Weather station of temperatures and rain.
    pub station: &'static str,
    /// Degrees north.
    pub latitude: f64,
    /// Degrees east.
    pub longitude: f64,
    /// Metres above the sea.
    pub height_m: f64,
    /// First and last year of temperatures and rain.
    pub years: [u16; 2],
    /// Mean daily maximum by month, °C.
    pub highest_c: [f64; 12],
    /// Mean daily minimum by month, °C.
    pub lowest_c: [f64; 12],
    /// Rain by month, mm.
    pub rain_mm: [f64; 12],
    /// Solar radiation on the level, mean over day and night by month, W/m².
    pub radiation_w_per_m2: [f64; 12],
    /// Wind at 10 m in the open, m/s.
    pub wind_m_per_s: [f64; 12],
    /// Mean relative humidity by month, %, where it is known.
    pub humidity_percent: Option<[f64; 12]>,
    /// Where temperatures and rain come from.
    pub source: &'static Source,
    /// Where radiation and wind come from: for the region, not the station.
    pub sky_source: &'static Source,
}

impl Climate {
    /// What is known of it. Apart from the names, so that a page which only names places carries no
    /// figures.
    #[must_use]
    pub fn weather(&self) -> &'static Weather {
        let place = CLIMATES.iter().position(|climate| climate.key == self.key);
        place
            .and_then(|place| WEATHER.get(place))
            .unwrap_or(&WEATHER[0])
    }

    /// Mean daily maximum about a day of the year, °C.
    #[must_use]
    pub fn highest_on(&self, day_of_year: f64) -> f64 {
        on_day(&self.weather().highest_c, day_of_year)
    }

    /// Mean daily minimum about a day of the year, °C.
    #[must_use]
    pub fn lowest_on(&self, day_of_year: f64) -> f64 {
        on_day(&self.weather().lowest_c, day_of_year)
    }

    /// Solar radiation about a day of the year, MJ/m² d.
    #[must_use]
    pub fn radiation_on(&self, day_of_year: f64) -> f64 {
        on_day(&self.weather().radiation_w_per_m2, day_of_year).max(0.0) * MJ_PER_DAY_IN_WATT
    }

    /// Dew point of a month (0 is January), °C: about that of the mean minimum.
    ///
    /// Source: FAO-56 equation 48, dew point near the minimum where the ground is moist, and up to
    /// 2 K below it in dry spells; 1 K above it in wet ones by judgement. None for a month that is not.
    #[must_use]
    pub fn dew_point_c(&self, month: usize) -> Option<Range<f64>> {
        let lowest = *self.weather().lowest_c.get(month)?;
        Range::new(lowest - 2.0, lowest, lowest + 1.0).ok()
    }

    /// The coldest night of a month (0 is January), °C, with its limits of one year in ten. None for
    /// a month that is not.
    #[must_use]
    pub fn coldest_night_c(&self, month: usize) -> Option<Range<f64>> {
        let lowest = *self.weather().lowest_c.get(month)?;
        let spread = *NIGHT_SPREAD_C.get(month)?;
        let [low, best, high] = COLDEST_NIGHT_SPREADS.map(|spreads| lowest - spreads * spread);
        Range::new(low, best, high).ok()
    }
}

/// The place of a key.
#[must_use]
pub fn climate(key: &str) -> Option<&'static Climate> {
    CLIMATES.iter().find(|climate| climate.key == key)
}

/// All places, south to north.
pub static CLIMATES: &[Climate] = &[
    Climate {
        key: "south_west_england",
        name: "inland south-west England",
    },
    Climate {
        key: "netherlands",
        name: "middle of the Netherlands",
    },
    Climate {
        key: "east_anglia",
        name: "East Anglia",
    },
    Climate {
        key: "west_midlands",
        name: "west Midlands and Welsh border",
    },
    Climate {
        key: "northern_ireland",
        name: "Northern Ireland",
    },
    Climate {
        key: "north_east_england",
        name: "north-east England",
    },
    Climate {
        key: "east_scotland",
        name: "east of Scotland",
    },
];

/// What is known of each place, in the order of [`CLIMATES`].
static WEATHER: &[Weather] = &[
    Weather {
        station: "Yeovilton",
        latitude: 51.006,
        longitude: -2.641,
        height_m: 20.0,
        years: [2001, 2020],
        highest_c: [
            8.7, 9.0, 11.2, 14.4, 17.3, 20.2, 22.0, 21.4, 19.5, 15.6, 11.7, 9.2,
        ],
        lowest_c: [
            2.1, 1.9, 2.7, 4.5, 7.4, 10.6, 12.3, 12.3, 10.0, 7.9, 4.5, 2.3,
        ],
        rain_mm: [
            70.0, 53.0, 51.0, 45.0, 49.0, 58.0, 55.0, 59.0, 40.0, 81.0, 80.0, 76.0,
        ],
        radiation_w_per_m2: [
            32.0, 59.0, 105.0, 167.0, 201.0, 226.0, 206.0, 175.0, 130.0, 74.0, 40.0, 25.0,
        ],
        wind_m_per_s: [4.9, 4.6, 4.7, 4.3, 4.3, 3.8, 3.8, 3.7, 3.8, 4.3, 4.3, 4.6],
        humidity_percent: None,
        source: &MET_STATIONS,
        sky_source: &BUILDING_CLIMATE,
    },
    Weather {
        station: "De Bilt",
        latitude: 52.10,
        longitude: 5.18,
        height_m: 2.0,
        years: [1991, 2020],
        highest_c: [
            6.1, 7.0, 10.5, 15.0, 18.6, 21.3, 23.3, 23.0, 19.3, 14.5, 9.8, 6.7,
        ],
        lowest_c: [
            0.9, 0.7, 2.3, 4.6, 7.9, 10.6, 12.8, 12.4, 10.0, 7.0, 3.8, 1.5,
        ],
        rain_mm: [
            71.0, 63.0, 58.0, 42.0, 59.0, 71.0, 85.0, 84.0, 78.0, 81.0, 80.0, 84.0,
        ],
        radiation_w_per_m2: [
            26.0, 52.0, 94.0, 157.0, 200.0, 205.0, 198.0, 171.0, 119.0, 70.0, 32.0, 19.0,
        ],
        wind_m_per_s: [3.9, 3.8, 3.7, 3.2, 3.1, 2.9, 2.9, 2.8, 2.8, 3.1, 3.3, 3.6],
        humidity_percent: Some([
            87.0, 84.0, 80.0, 75.0, 75.0, 76.0, 77.0, 79.0, 83.0, 86.0, 89.0, 89.0,
        ]),
        source: &KNMI_RECALLED,
        sky_source: &KNMI_RECALLED,
    },
    Weather {
        station: "Cambridge",
        latitude: 52.245,
        longitude: 0.102,
        height_m: 26.0,
        years: [2001, 2020],
        highest_c: [
            7.8, 8.4, 11.0, 14.6, 17.6, 20.7, 23.2, 22.8, 19.9, 15.5, 11.0, 8.2,
        ],
        lowest_c: [
            2.0, 1.9, 2.8, 4.6, 7.6, 10.6, 12.7, 12.7, 10.4, 8.1, 4.7, 2.4,
        ],
        rain_mm: [
            49.0, 37.0, 33.0, 32.0, 47.0, 43.0, 54.0, 61.0, 44.0, 58.0, 52.0, 49.0,
        ],
        radiation_w_per_m2: [
            30.0, 58.0, 101.0, 165.0, 203.0, 220.0, 206.0, 173.0, 128.0, 74.0, 39.0, 24.0,
        ],
        wind_m_per_s: [4.9, 4.8, 4.7, 4.2, 4.2, 3.7, 3.8, 3.8, 4.0, 4.2, 4.3, 4.5],
        humidity_percent: None,
        source: &MET_STATIONS,
        sky_source: &BUILDING_CLIMATE,
    },
    Weather {
        station: "Shawbury",
        latitude: 52.794,
        longitude: -2.663,
        height_m: 72.0,
        years: [2001, 2020],
        highest_c: [
            7.6, 8.1, 10.3, 13.5, 16.5, 19.4, 21.1, 20.5, 18.3, 14.5, 10.5, 8.0,
        ],
        lowest_c: [1.3, 1.2, 1.9, 4.0, 6.9, 9.9, 11.6, 11.6, 9.4, 7.0, 3.7, 1.5],
        rain_mm: [
            57.0, 44.0, 44.0, 44.0, 53.0, 62.0, 63.0, 65.0, 56.0, 69.0, 60.0, 66.0,
        ],
        radiation_w_per_m2: [
            28.0, 55.0, 97.0, 153.0, 191.0, 208.0, 194.0, 163.0, 121.0, 69.0, 35.0, 23.0,
        ],
        wind_m_per_s: [4.5, 4.5, 4.4, 3.9, 3.8, 3.4, 3.3, 3.3, 3.5, 3.8, 3.9, 4.1],
        humidity_percent: None,
        source: &MET_STATIONS,
        sky_source: &BUILDING_CLIMATE,
    },
    Weather {
        station: "Armagh",
        latitude: 54.352,
        longitude: -6.649,
        height_m: 62.0,
        years: [2001, 2020],
        highest_c: [
            7.9, 8.7, 10.5, 13.4, 16.2, 18.6, 19.8, 19.3, 17.5, 14.0, 10.4, 8.2,
        ],
        lowest_c: [
            2.2, 1.8, 2.7, 4.6, 7.0, 10.0, 11.7, 11.6, 9.9, 7.1, 4.3, 2.4,
        ],
        rain_mm: [
            71.0, 58.0, 61.0, 48.0, 60.0, 68.0, 77.0, 85.0, 63.0, 84.0, 80.0, 75.0,
        ],
        radiation_w_per_m2: [
            24.0, 52.0, 96.0, 155.0, 201.0, 198.0, 183.0, 150.0, 107.0, 61.0, 30.0, 18.0,
        ],
        wind_m_per_s: [5.4, 5.3, 5.0, 4.7, 4.5, 4.1, 3.9, 3.7, 4.2, 4.6, 5.0, 5.0],
        humidity_percent: None,
        source: &MET_STATIONS,
        sky_source: &BUILDING_CLIMATE,
    },
    Weather {
        station: "Durham",
        latitude: 54.768,
        longitude: -1.585,
        height_m: 102.0,
        years: [2001, 2020],
        highest_c: [
            7.0, 7.8, 9.9, 12.9, 15.8, 18.3, 20.4, 19.8, 17.7, 13.8, 9.9, 7.3,
        ],
        lowest_c: [1.5, 1.4, 2.3, 4.2, 6.7, 9.6, 11.5, 11.5, 9.5, 6.9, 3.9, 1.6],
        rain_mm: [
            55.0, 47.0, 40.0, 44.0, 43.0, 63.0, 70.0, 73.0, 54.0, 65.0, 76.0, 60.0,
        ],
        radiation_w_per_m2: [
            25.0, 51.0, 95.0, 152.0, 196.0, 198.0, 190.0, 156.0, 115.0, 64.0, 32.0, 20.0,
        ],
        wind_m_per_s: [5.3, 5.2, 5.0, 4.3, 4.2, 3.9, 3.6, 3.6, 4.1, 4.3, 4.6, 4.8],
        humidity_percent: None,
        source: &MET_STATIONS,
        sky_source: &BUILDING_CLIMATE,
    },
    Weather {
        station: "Leuchars",
        latitude: 56.377,
        longitude: -2.862,
        height_m: 10.0,
        years: [2001, 2020],
        highest_c: [
            6.9, 7.6, 9.5, 12.0, 14.8, 17.3, 19.4, 18.9, 17.0, 13.4, 9.7, 7.2,
        ],
        lowest_c: [0.9, 0.8, 2.0, 3.9, 6.3, 9.4, 11.1, 10.8, 9.2, 6.5, 3.1, 1.0],
        rain_mm: [
            62.0, 48.0, 47.0, 39.0, 50.0, 68.0, 74.0, 84.0, 48.0, 87.0, 68.0, 61.0,
        ],
        radiation_w_per_m2: [
            21.0, 46.0, 89.0, 146.0, 198.0, 191.0, 183.0, 150.0, 106.0, 57.0, 27.0, 15.0,
        ],
        wind_m_per_s: [5.7, 5.8, 5.7, 5.0, 4.8, 4.6, 4.1, 4.1, 4.7, 5.0, 5.2, 5.0],
        humidity_percent: None,
        source: &MET_STATIONS,
        sky_source: &BUILDING_CLIMATE,
    },
];
