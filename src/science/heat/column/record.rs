//! What became of each place, and where the heat went.

use super::standing::Place;
use crate::science::heat::cost::KWH_J;

/// Where heat came from and went to over a time, J/m².
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Balance {
    /// Taken up from the sun.
    pub sun_j_per_m2: f64,
    /// Given by the heater.
    pub heater_j_per_m2: f64,
    /// Up out of the deep ground.
    pub from_ground_j_per_m2: f64,
    /// Lost to air.
    pub to_air_j_per_m2: f64,
    /// Lost by radiation, to the cover of the house and to what is as warm as its air.
    pub radiated_j_per_m2: f64,
    /// Lost by evaporation; below nought where dew brought more.
    pub to_vapour_j_per_m2: f64,
    /// Lost to colder water that flowed in.
    pub to_refill_j_per_m2: f64,
    /// More in all nodes at the end than at the beginning.
    pub stored_j_per_m2: f64,
    /// All that flowed, whichever way: what a gap is held against.
    pub turnover_j_per_m2: f64,
}

impl Balance {
    /// A balance may miss this share of all that flowed; no record is given where it misses more.
    pub const MOST_GAP: f64 = 1e-6;

    /// What came in less what went out and what is stored, as a share of all that flowed.
    #[must_use]
    pub fn relative_gap(&self) -> f64 {
        let came = self.sun_j_per_m2 + self.heater_j_per_m2 + self.from_ground_j_per_m2;
        let went = self.to_air_j_per_m2
            + self.radiated_j_per_m2
            + self.to_vapour_j_per_m2
            + self.to_refill_j_per_m2;
        (came - went - self.stored_j_per_m2).abs() / self.turnover_j_per_m2.max(1.0)
    }
}

/// Flows at one time, W/m², named as in [`Balance`].
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Flows {
    pub sun: f64,
    pub heater: f64,
    pub from_ground: f64,
    pub to_air: f64,
    pub radiated: f64,
    pub to_vapour: f64,
    pub to_refill: f64,
}

impl Balance {
    pub(super) fn add(&mut self, flows: &Flows, seconds: f64) {
        self.sun_j_per_m2 += seconds * flows.sun;
        self.heater_j_per_m2 += seconds * flows.heater;
        self.from_ground_j_per_m2 += seconds * flows.from_ground;
        self.to_air_j_per_m2 += seconds * flows.to_air;
        self.radiated_j_per_m2 += seconds * flows.radiated;
        self.to_vapour_j_per_m2 += seconds * flows.to_vapour;
        self.to_refill_j_per_m2 += seconds * flows.to_refill;
        let all = [
            flows.sun,
            flows.heater,
            flows.from_ground,
            flows.to_air,
            flows.radiated,
            flows.to_vapour,
            flows.to_refill,
        ];
        self.turnover_j_per_m2 += seconds * all.into_iter().map(f64::abs).sum::<f64>();
    }
}

/// One place through the time.
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    /// Where.
    pub place: Place,
    /// °C at equal times from the beginning on, the end left out.
    pub samples_c: Vec<f64>,
    /// Mean over all steps, °C.
    pub mean_c: f64,
    /// Lowest at the end of any step, °C.
    pub lowest_c: f64,
    /// When, s.
    pub lowest_s: f64,
    /// Highest at the end of any step, °C.
    pub highest_c: f64,
    /// When, s.
    pub highest_s: f64,
}

/// A day, or a run of days.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// When it begins, s.
    pub begins_s: f64,
    /// When it ends, s.
    pub ends_s: f64,
    /// Between two samples, s.
    pub spacing_s: f64,
    /// The places that there are, upwards.
    pub traces: Vec<Trace>,
    /// Where the heat went.
    pub balance: Balance,
    /// How long the heater was on, s.
    pub heated_s: f64,
    /// How often the thermostat went on.
    pub switched_on: u32,
    /// How long the thermostat's probe lay below its band though the heater had been on for two hours, s:
    /// the power was too little.
    pub short_s: f64,
}

impl Record {
    /// One place, if there is such.
    #[must_use]
    pub fn trace(&self, place: Place) -> Option<&Trace> {
        self.traces.iter().find(|trace| trace.place == place)
    }

    /// Heat given by the heater, kWh/m².
    #[must_use]
    pub fn heater_kwh_per_m2(&self) -> f64 {
        self.balance.heater_j_per_m2 / KWH_J
    }

    /// Share of the time that the heater was on.
    #[must_use]
    pub fn duty(&self) -> f64 {
        self.heated_s / (self.ends_s - self.begins_s)
    }
}
