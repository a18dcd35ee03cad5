//! Electrical conductivity of water: how it tells of salt, at another temperature and in an extract.
//!
//! Salt is told here by the conductivity that it gives: a litre of material holds so many mS/cm × L/L of
//! salt if all of it, in a litre of water, would read so many mS/cm at 25 °C. That is a mass
//! balance as long as conductivity goes with concentration; strong brines conduct up to a tenth
//! less than that (potassium chloride: 0.1 mol/kg conducts 9 % less than ten times 0.01 mol/kg).

/// Temperature to which conductivities are told, °C.
pub const REFERENCE_CELSIUS: f64 = 25.0;

/// The conductivity at 25 °C of a water read at another temperature, in the unit it was read in.
///
/// EC25 = EC / \[1 + a (T - 25)\], a in 1/K, usually 0.0191; from 5 to 35 °C within 3 % for potassium
/// chloride. Source: ISO 7888:1985 and the usual linear correction; not valid near freezing.
#[must_use]
pub fn at_25_celsius(read: f64, celsius: f64, per_kelvin: f64) -> f64 {
    read / (1.0 + per_kelvin * (celsius - REFERENCE_CELSIUS))
}

/// How an extract is made: material, by volume, shaken with water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extract {
    /// Litres of water to one litre of material; nought for the water of the material itself.
    pub water: f64,
    /// Conductivity of that water, mS/cm at 25 °C.
    pub water_ms_per_cm: f64,
    /// What the material itself keeps giving off, mS/cm in the extract.
    pub background_ms_per_cm: f64,
}

impl Extract {
    /// The salt of a litre of material, mS/cm × L/L, whose extract reads so much. `held` is the water
    /// in the sample, with what its grains hold on to told as water, L/L (above nought).
    ///
    /// From the mass balance EC (w + h) = salt + w EC_w. Source: mass balance; for 1:5 the extract of
    /// EN 13038:2011, for 1:1.5 that of Sonneveld & van den Ende 1971, Plant and Soil 35:505.
    #[must_use]
    pub fn salt(&self, reads_ms_per_cm: f64, held: f64) -> f64 {
        (reads_ms_per_cm - self.background_ms_per_cm) * (self.water + held)
            - self.water * self.water_ms_per_cm
    }

    /// What the extract of a litre of material reads, mS/cm: the other way round.
    #[must_use]
    pub fn reads(&self, salt: f64, held: f64) -> f64 {
        (salt + self.water * self.water_ms_per_cm) / (self.water + held) + self.background_ms_per_cm
    }
}
