//! What is lost and pressed between the bag, the heap and the pot.

use super::sources::{
    COMMON_PRACTICE, DE_LARRARD_1999, MODEL_SHAPE, TRAPPED_ON_WETTING, VERHAGEN_2017,
};
use super::{Figure, figure};

/// How much more loose volume (as bags declare it, EN 12580) goes into a pot than the pot holds.
pub static PRESSED_INTO_POT: Figure = figure(0.05, 0.25, 0.55, &VERHAGEN_2017);

/// Share of the mix that is spilt and left over.
pub static SPILT: Figure = figure(0.03, 0.05, 0.10, &COMMON_PRACTICE);

/// How far a part measured by the bucket is off, as a factor.
pub static PART_AS_MEASURED: Figure = figure(0.9, 1.0, 1.1, &COMMON_PRACTICE);

/// How much of the volume loss of hard grains happens where all parts are stiff; families of
/// packing models differ by this much.
pub static LOSS_OF_STIFF_MIX: Figure = figure(0.7, 1.0, 1.4, &DE_LARRARD_1999);

/// The same where the fine part is soft: it bridges the gaps and is pressed, so less is lost.
pub static LOSS_OF_SOFT_MIX: Figure = figure(0.25, 0.5, 1.0, &COMMON_PRACTICE);

/// Share of soft parts, by volume, from which a mix packs as a soft one.
pub const SOFT_FROM_SHARE: f64 = 0.2;

/// No everyday mix is known to lose more than this share of its volume.
pub const MOST_LOST: f64 = 0.25;

/// Even a measured loss cannot go beyond that of equal grains whose gaps are all filled, by Furnas
/// with a packing fraction of 0.6 (28 %), with room for the reading of a bucket.
pub const MOST_MEASURED_LOSS: f64 = 0.4;

/// Share of the pore space in which air stays trapped when a dry or damp pot is watered. Only where
/// the pore space was found from densities: what soaking finds is without it.
pub static TRAPPED_AIR: Figure = figure(0.01, 0.08, 0.15, &TRAPPED_ON_WETTING);

/// More than this share of the pores is never taken up by trapped air.
pub const MOST_TRAPPED_AIR: f64 = 0.3;

/// How far it is the widest gaps between grains that finer grains fill first: 0, all gaps alike, to 1,
/// strictly the widest first.
pub static WIDEST_GAPS_FIRST: Figure = figure(0.1, 0.5, 0.9, &MODEL_SHAPE);

/// Share of a mix beside its largest part from which it counts as a mix in full.
pub const MIXED_FROM_SHARE: f64 = 0.2;

/// How far the water content may be off below 10 cm of suction, fraction of volume: of a material
/// by itself where its curve is not known, of a mix up to 20 cm, since parts do not simply add up.
pub static MODEL_BELOW_10_CM: Figure = figure(-0.04, 0.0, 0.04, &MODEL_SHAPE);

/// How much wider than the table's the gaps between grains may be, as a factor.
pub static WIDER_GAPS: Figure = figure(0.7, 1.0, 2.0, &MODEL_SHAPE);

/// Depth to which a tray is filled, mm.
pub static TRAY_FILL_MM: Figure = figure(15.0, 20.0, 25.0, &COMMON_PRACTICE);

/// Weight of a coarse bed with its water, g/L: grit to sharp sand.
pub static WET_BED_G_PER_L: Figure = figure(1600.0, 1700.0, 1900.0, &COMMON_PRACTICE);
