//! Heat under glass: the ground, the air inside, the column of pot, tray and bench, what growth makes of
//! it, and what it costs.
//!
//! | file | what it holds |
//! |---|---|
//! | [`ground`] | waves, steps, layers and slabs; the season from one's own readings |
//! | [`films`] | surface coefficients, air layers, free convection, radiation, sky, evaporation |
//! | [`medium`] | conductivity and heat capacity of mixes and soils |
//! | [`water`] | open water, such as a tank, and what filling from it does |
//! | [`air`] | the hours of a day; the balance of an unheated house |
//! | [`mod@column`] | pot, tray and bench on floor, slats or heat, hour by hour |
//! | [`growth`] | response to warmth at the root, chilling hours |
//! | [`cost`] | power, energy, what it costs and when it pays |
//! | [`fit`] | uncertain coefficients from a few days of one's own readings |
//!
//! Heat runs from the first-named to the second where it is above nought. Where a quantity has a type, it is
//! in it; conductivities, capacities and coefficients have their units in their names.

pub mod air;
pub mod column;
pub mod cost;
pub mod films;
pub mod fit;
pub mod ground;
pub mod growth;
pub mod medium;
pub mod water;
