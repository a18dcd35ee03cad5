//! Lifting, dust and hygiene: the usual figures. Guidelines, not limits; local
//! codes and the label on the bag go first.

use super::sources::{HSE_L23, LEGIONELLA_ADVICE, MAXIM_2014, SILICA_LIMIT, Source};

/// A weight above which a lift close to the body at waist height should be looked at, kg.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiftingGuideline {
    /// For men.
    pub men_kg: f64,
    /// For women.
    pub women_kg: f64,
    /// Where it comes from.
    pub source: &'static Source,
}

/// Hands between knuckle and elbow, load close.
pub static LIFT_CLOSE: LiftingGuideline = LiftingGuideline {
    men_kg: 25.0,
    women_kg: 16.0,
    source: &HSE_L23,
};

/// The same height with the arms stretched out, as when a pot is set at the back of a bench.
pub static LIFT_AT_ARMS_LENGTH: LiftingGuideline = LiftingGuideline {
    men_kg: 15.0,
    women_kg: 10.0,
    source: &HSE_L23,
};

/// Source of the advice on Legionella.
pub static LEGIONELLA: &Source = &LEGIONELLA_ADVICE;

/// Source of the advice on perlite and other nuisance dust.
pub static NUISANCE_DUST: &Source = &MAXIM_2014;

/// Source of the advice on silica.
pub static SILICA_DUST: &Source = &SILICA_LIMIT;
