//! How many seeds to sow, and how seed ages.

use super::counting::{
    chance_of_at_least, chance_of_at_least_when_shares_differ, fewest_trials, standard_normal_share,
};
use super::numerics::draws::standard_normal_quantile;

/// More seeds than this for one sowing are not reckoned.
pub const MOST_SEEDS: u32 = 10_000_000;

/// The fewest seeds of which at least `wanted` make plants with a certainty, where each does with
/// the chance `share` whatever the others do. None where `share` is not above 0, the certainty not
/// below 1, or more than [`MOST_SEEDS`] would be needed.
#[must_use]
pub fn seeds_to_sow(wanted: u32, share: f64, certainty: f64) -> Option<u32> {
    if !(share > 0.0 && certainty < 1.0) {
        return None;
    }
    fewest_trials(wanted, MOST_SEEDS, certainty, &|seeds| {
        chance_of_at_least(wanted, seeds, share.min(1.0))
    })
}

/// The most seeds for which shares that differ are reckoned: their chances are summed one by one.
pub const MOST_SEEDS_WHEN_SHARES_DIFFER: u32 = 100_000;

/// The same where the share follows a beta distribution with `a` and `b`: after x of m seeds came up
/// in a test, and knowing nothing before, a = x + 1 and b = m - x + 1 (or x + ½ and m - x + ½).
#[must_use]
pub fn seeds_to_sow_when_shares_differ(wanted: u32, a: f64, b: f64, certainty: f64) -> Option<u32> {
    if !(a > 0.0 && b > 0.0 && certainty < 1.0) {
        return None;
    }
    fewest_trials(wanted, MOST_SEEDS_WHEN_SHARES_DIFFER, certainty, &|seeds| {
        chance_of_at_least_when_shares_differ(wanted, seeds, a, b)
    })
}

/// The chance that a cell sown with some seeds has at least one plant: 1 - (1 - p)^s.
#[must_use]
pub fn chance_that_cell_fills(share: f64, seeds_in_cell: u32) -> f64 {
    1.0 - (1.0 - share).powf(f64::from(seeds_in_cell))
}

/// How a kind of seed ages, with the constants of its viability equation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ageing {
    /// K_E.
    pub species: f64,
    /// C_W, by the logarithm of the moisture in % of fresh weight.
    pub moisture: f64,
    /// C_H, by the temperature in °C.
    pub temperature: f64,
    /// C_Q, by its square.
    pub temperature_squared: f64,
}

impl Ageing {
    /// Days in which the viable share falls by one probit: log10 σ = K_E - C_W log10 m - C_H t -
    /// C_Q t².
    ///
    /// Source: Ellis & Roberts 1980, Annals of Botany 45:13-30. For about 5 to 25 % of moisture and
    /// -20 to 90 °C.
    #[must_use]
    pub fn days_for_one_probit(&self, moisture_percent: f64, temperature_c: f64) -> f64 {
        10_f64.powf(
            self.species
                - self.moisture * moisture_percent.log10()
                - self.temperature * temperature_c
                - self.temperature_squared * temperature_c * temperature_c,
        )
    }

    /// The viable share after some days of storage: v = K_i - d/σ in probits.
    #[must_use]
    pub fn share_after(
        &self,
        share_at_first: f64,
        days: f64,
        moisture_percent: f64,
        temperature_c: f64,
    ) -> f64 {
        let sigma = self.days_for_one_probit(moisture_percent, temperature_c);
        standard_normal_share(standard_normal_quantile(share_at_first) - days / sigma)
    }
}
