//! What came in, what went out and what is stored.

/// Volumes since the flow was set up, m³, over all that stands in the tray.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Balance {
    /// Let into the tray by the valve, by hand or by a level that is held (less what such a level
    /// takes back).
    pub let_in_m3: f64,
    /// Watered from above.
    pub watered_m3: f64,
    /// Come in across heads that are held at the foot or the top of a station.
    pub across_held_heads_m3: f64,
    /// Drunk by plants.
    pub drunk_m3: f64,
    /// Evaporated from the surfaces of pots and of the bed between them.
    pub evaporated_from_media_m3: f64,
    /// Evaporated from open water.
    pub evaporated_from_water_m3: f64,
    /// Held at the start, in the media and in the tray.
    pub stored_at_first_m3: f64,
    /// Held now.
    pub stored_m3: f64,
}

impl Balance {
    /// What came in, m³.
    #[must_use]
    pub fn inflow_m3(&self) -> f64 {
        self.let_in_m3 + self.watered_m3 + self.across_held_heads_m3
    }

    /// What went out, m³.
    #[must_use]
    pub fn outflow_m3(&self) -> f64 {
        self.drunk_m3 + self.evaporated_from_media_m3 + self.evaporated_from_water_m3
    }

    /// Inflow less outflow less what is stored in addition, m³: nought but for the solver's tolerance.
    #[must_use]
    pub fn gap_m3(&self) -> f64 {
        self.inflow_m3() - self.outflow_m3() - (self.stored_m3 - self.stored_at_first_m3)
    }

    /// The gap as a share of the largest flow: inflow, outflow or what is stored in addition. Where
    /// next to nothing moved, of a thousandth of what is stored.
    #[must_use]
    pub fn relative_gap(&self) -> f64 {
        /// Less than this share of the water moving is a column at rest.
        const AT_REST: f64 = 1e-3;
        let moved = self
            .inflow_m3()
            .abs()
            .max(self.outflow_m3().abs())
            .max((self.stored_m3 - self.stored_at_first_m3).abs())
            .max(AT_REST * self.stored_m3.abs());
        if moved > 0.0 {
            self.gap_m3().abs() / moved
        } else {
            0.0
        }
    }
}
