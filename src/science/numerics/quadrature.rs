//! Integrals of smooth functions over an interval.

/// Points of the Gauss-Legendre rule used here on each half of the symmetric interval.
const HALF_POINTS: usize = 16;

/// Abscissas and weights of the 32-point Gauss-Legendre rule on -1 to 1, positive half.
///
/// Source: Abramowitz & Stegun 1964, *Handbook of Mathematical Functions*, table 25.4, n = 32.
const GAUSS_LEGENDRE_32: [(f64, f64); HALF_POINTS] = [
    (0.048_307_665_687_738_32, 0.096_540_088_514_727_8),
    (0.144_471_961_582_796_5, 0.095_638_720_079_274_86),
    (0.239_287_362_252_137_06, 0.093_844_399_080_804_57),
    (0.331_868_602_282_127_67, 0.091_173_878_695_763_89),
    (0.421_351_276_130_635_33, 0.087_652_093_004_403_81),
    (0.506_899_908_932_229_4, 0.083_311_924_226_946_75),
    (0.587_715_757_240_762_3, 0.078_193_895_787_070_31),
    (0.663_044_266_930_215_2, 0.072_345_794_108_848_5),
    (0.732_182_118_740_289_7, 0.065_822_222_776_361_85),
    (0.794_483_795_967_942_4, 0.058_684_093_478_535_55),
    (0.849_367_613_732_57, 0.050_998_059_262_376_18),
    (0.896_321_155_766_052_1, 0.042_835_898_022_226_68),
    (0.934_906_075_937_739_7, 0.034_273_862_913_021_43),
    (0.964_762_255_587_506_4, 0.025_392_065_309_262_06),
    (0.985_611_511_545_268_3, 0.016_274_394_730_905_67),
    (0.997_263_861_849_481_6, 0.007_018_610_009_470_097),
];

/// The integral of `f` from `low` to `high` by the 32-point Gauss-Legendre rule:
/// exact for polynomials up to degree 63.
///
/// Where `f` has a corner, integrate to the corner and on from it.
pub fn integral(low: f64, high: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
    let half = (high - low) / 2.0;
    let middle = f64::midpoint(low, high);
    let sum: f64 = GAUSS_LEGENDRE_32
        .iter()
        .map(|&(abscissa, weight)| {
            let step = half * abscissa;
            weight * (f(middle - step) + f(middle + step))
        })
        .sum();
    sum * half
}

/// The integral of `f` over consecutive pieces whose ends are `ends`, which must not fall.
pub fn integral_in_pieces(ends: &[f64], mut f: impl FnMut(f64) -> f64) -> f64 {
    ends.windows(2)
        .filter(|piece| piece[0] < piece[1])
        .map(|piece| integral(piece[0], piece[1], &mut f))
        .sum()
}
