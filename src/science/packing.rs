//! Packing: the volume lost when coarse and fine grains are mixed.
//!
//! Each material is treated as grains of an envelope (solid and the pores inside
//! the grain) that fill a share φ of its bulk volume when it lies alone.

/// One material of a packing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grains {
    /// Share of the mix by bulk volume before mixing; the shares add to one.
    pub bulk_share: f64,
    /// φ, the share of its own bulk volume that its envelopes fill, above 0 and up to 1.
    pub packing_fraction: f64,
    /// Median grain diameter, mm.
    pub grain_mm: f64,
}

/// The share of the bulk volume that vanishes on mixing, by the linear packing
/// density model with loosening and wall effects.
///
/// For each class i as the dominant one
/// φ_i / {1 - Σ_coarser \[1 - φ_i + b φ_i (1 - 1/φ_j)\] x_j - Σ_finer \[1 - a φ_i/φ_j\] x_j},
/// a = √(1 - (1 - d_j/d_i)^1.02) for finer j, b = 1 - (1 - d_i/d_j)^1.5 for coarser j,
/// x the envelope shares; the mix packs as the smallest of these.
/// Source: de Larrard 1999, *Concrete Mixture Proportioning*, chapter 1 (virtual packing, equations 1.29
/// to 1.34 as recalled; the limits d_j/d_i to 0 and to 1 are checked). Made for hard grains: soft
/// fibres bridge and are pressed, so they lose less.
///
/// Never below nought; nought for fewer than two materials.
#[must_use]
pub fn volume_lost_de_larrard_1999(grains: &[Grains]) -> f64 {
    let envelopes: f64 = grains
        .iter()
        .map(|g| g.bulk_share * g.packing_fraction)
        .sum();
    if envelopes <= 0.0 {
        return 0.0;
    }
    let envelope_share = |g: &Grains| g.bulk_share * g.packing_fraction / envelopes;
    let packed_as = |i: usize| {
        let dominant = &grains[i];
        let phi_i = dominant.packing_fraction;
        let taken: f64 = grains
            .iter()
            .enumerate()
            .filter(|&(j, _)| j != i)
            .map(|(_, other)| {
                let phi_j = other.packing_fraction;
                let effect = if other.grain_mm > dominant.grain_mm {
                    1.0 - phi_i
                        + wall_effect(dominant.grain_mm / other.grain_mm)
                            * phi_i
                            * (1.0 - 1.0 / phi_j)
                } else {
                    1.0 - loosening_effect(other.grain_mm / dominant.grain_mm) * phi_i / phi_j
                };
                effect * envelope_share(other)
            })
            .sum();
        phi_i / (1.0 - taken)
    };
    let packed = (0..grains.len())
        .filter(|&i| grains[i].bulk_share > 0.0)
        .map(packed_as)
        .fold(1.0, f64::min);
    (1.0 - envelopes / packed).max(0.0)
}

/// a: how far small grains of a ratio finer to coarser diameter push coarse ones apart.
fn loosening_effect(ratio: f64) -> f64 {
    (1.0 - (1.0 - ratio).powf(1.02)).sqrt()
}

/// b: how far fine grains of a ratio finer to coarser diameter pack badly against coarse ones.
fn wall_effect(ratio: f64) -> f64 {
    1.0 - (1.0 - ratio).powf(1.5)
}
