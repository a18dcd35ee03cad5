//! How far a careful measurement with kitchen means is off.
//!
//! Half the distance between the 1-in-10 and 9-in-10 limits, common practice, no source: a level
//! read to 2 mm, a few grams of drip, and a filling that is never quite the same twice.

/// Water, air and pore space of a vessel, fraction of volume.
pub const SHARE_OFF: f64 = 0.03;

/// Dry density, as a share of itself.
pub const DENSITY_OFF: f64 = 0.05;

/// How finely a bucket is read, as a share of what is in it, one standard deviation.
pub const BUCKET_READ_TO: f64 = 0.01;

/// The step in which a kitchen scale shows, g.
pub const SCALE_STEP_G: f64 = 1.0;

/// How far a moisture found by drying a handful is off, share of the damp weight.
pub const MOISTURE_OFF: f64 = 0.02;
