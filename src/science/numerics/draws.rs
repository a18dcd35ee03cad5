//! Seeded draws: the same seed gives the same numbers on every machine.

use rand_core::{Rng, SeedableRng};
use rand_pcg::Pcg64Mcg;

/// A source of draws that can be repeated from its seed.
///
/// The generator is PCG XSL 128/64 MCG (O'Neill 2014, Harvey Mudd College
/// HMC-CS-2014-0905); its stream for a seed is fixed, so a range can be
/// recomputed to the last digit years later.
#[derive(Clone, Debug)]
pub struct Draws {
    generator: Pcg64Mcg,
    hypercube: Option<Hypercube>,
}

/// The strata of a Latin hypercube: for each input the order in which its strata are drawn from.
#[derive(Clone, Debug)]
struct Hypercube {
    draws: usize,
    draw: usize,
    input: usize,
    orders: Vec<Vec<usize>>,
}

impl Draws {
    /// The draws that belong to `seed`.
    #[must_use]
    pub fn from_seed(seed: u64) -> Self {
        Self {
            generator: Pcg64Mcg::seed_from_u64(seed),
            hypercube: None,
        }
    }

    /// The draws of a Latin hypercube: over so many draws, each separated by
    /// [`next_draw`](Self::next_draw), the first number drawn falls once into each of as many
    /// equal strata, so does the second, and so on, each in an order of its own. Limits found from
    /// them move much less from seed to seed than those of independent draws.
    ///
    /// Source: McKay, Beckman & Conover 1979, Technometrics 21:239.
    #[must_use]
    pub fn hypercube(seed: u64, draws: usize) -> Self {
        let hypercube = Hypercube {
            draws: draws.max(1),
            draw: 0,
            input: 0,
            orders: Vec::new(),
        };
        Self {
            hypercube: Some(hypercube),
            ..Self::from_seed(seed)
        }
    }

    /// Begins the next draw of a hypercube. Beyond the last, it begins anew.
    pub fn next_draw(&mut self) {
        if let Some(hypercube) = &mut self.hypercube {
            hypercube.draw = (hypercube.draw + 1) % hypercube.draws;
            hypercube.input = 0;
        }
    }

    /// A number from the open interval 0 to 1, all equally likely.
    pub fn uniform(&mut self) -> f64 {
        let within = self.plain_uniform();
        let Some(mut hypercube) = self.hypercube.take() else {
            return within;
        };
        if hypercube.input == hypercube.orders.len() {
            hypercube.orders.push(self.shuffled(hypercube.draws));
        }
        let order = hypercube.orders.get(hypercube.input);
        let stratum = order
            .and_then(|order| order.get(hypercube.draw))
            .copied()
            .unwrap_or(0);
        let number = (stratum as f64 + within) / hypercube.draws as f64;
        hypercube.input += 1;
        self.hypercube = Some(hypercube);
        number
    }

    /// The whole numbers below `end` in an order of chance (Durstenfeld 1964, Communications of
    /// the ACM 7:420).
    fn shuffled(&mut self, end: usize) -> Vec<usize> {
        let mut order: Vec<usize> = (0..end).collect();
        for place in (1..end).rev() {
            let other = ((self.plain_uniform() * (place + 1) as f64) as usize).min(place);
            order.swap(place, other);
        }
        order
    }

    fn plain_uniform(&mut self) -> f64 {
        /// A double carries 53 bits; half a step keeps both ends out.
        const STEP: f64 = 1.0 / (1u64 << 53) as f64;
        ((self.generator.next_u64() >> 11) as f64 + 0.5) * STEP
    }

    /// A deviate of the standard normal distribution (mean 0, standard deviation 1).
    pub fn deviate(&mut self) -> f64 {
        standard_normal_quantile(self.uniform())
    }

    /// A whole number below `end`; nought where `end` is nought.
    pub fn below(&mut self, end: usize) -> usize {
        ((self.uniform() * end as f64) as usize).min(end.saturating_sub(1))
    }
}

/// The standard normal deviate below which a share `p` of the distribution lies, 0 < p < 1.
///
/// Source: Wichura 1988, Applied Statistics 37:477, algorithm AS 241 (PPND16),
/// relative accuracy about 1e-16. Outside 0 to 1 the answer is not a number.
#[must_use]
pub fn standard_normal_quantile(p: f64) -> f64 {
    const CENTRAL: ([f64; 8], [f64; 8]) = (
        [
            3.387_132_872_796_366_5,
            133.141_667_891_784_38,
            1_971.590_950_306_551_3,
            13_731.693_765_509_46,
            45_921.953_931_549_87,
            67_265.770_927_008_7,
            33_430.575_583_588_13,
            2_509.080_928_730_122_7,
        ],
        [
            1.0,
            42.313_330_701_600_91,
            687.187_007_492_057_9,
            5_394.196_021_424_751,
            21_213.794_301_586_597,
            39_307.895_800_092_71,
            28_729.085_735_721_943,
            5_226.495_278_852_545,
        ],
    );
    const MIDDLE: ([f64; 8], [f64; 8]) = (
        [
            1.423_437_110_749_683_5,
            4.630_337_846_156_546,
            5.769_497_221_460_691,
            3.647_848_324_763_204_5,
            1.270_458_252_452_368_4,
            0.241_780_725_177_450_6,
            2.272_384_498_926_918_4e-2,
            7.745_450_142_783_414e-4,
        ],
        [
            1.0,
            2.053_191_626_637_759,
            1.676_384_830_183_803_8,
            0.689_767_334_985_1,
            0.148_103_976_427_480_08,
            1.519_866_656_361_645_7e-2,
            5.475_938_084_995_345e-4,
            1.050_750_071_644_416_9e-9,
        ],
    );
    const FAR: ([f64; 8], [f64; 8]) = (
        [
            6.657_904_643_501_103,
            5.463_784_911_164_114,
            1.784_826_539_917_291_3,
            0.296_560_571_828_504_87,
            2.653_218_952_657_612_4e-2,
            1.242_660_947_388_078_4e-3,
            2.711_555_568_743_487_6e-5,
            2.010_334_399_292_288_1e-7,
        ],
        [
            1.0,
            0.599_832_206_555_888,
            0.136_929_880_922_735_8,
            1.487_536_129_085_061_5e-2,
            7.868_691_311_456_133e-4,
            1.846_318_317_510_054_7e-5,
            1.421_511_758_316_446e-7,
            2.044_263_103_389_939_8e-15,
        ],
    );
    fn ratio((above, below): &([f64; 8], [f64; 8]), x: f64) -> f64 {
        let polynomial =
            |terms: &[f64; 8]| terms.iter().rev().fold(0.0, |sum, term| sum * x + term);
        polynomial(above) / polynomial(below)
    }
    if !(p > 0.0 && p < 1.0) {
        return f64::NAN;
    }
    let q = p - 0.5;
    if q.abs() <= 0.425 {
        return q * ratio(&CENTRAL, 0.180_625 - q * q);
    }
    let r = (-p.min(1.0 - p).ln()).sqrt();
    let size = if r <= 5.0 {
        ratio(&MIDDLE, r - 1.6)
    } else {
        ratio(&FAR, r - 5.0)
    };
    size.copysign(q)
}
