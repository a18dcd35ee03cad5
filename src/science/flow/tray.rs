//! The free water of a tray, and how it is filled.

/// How water is let into the tray.
#[derive(Clone, Debug, PartialEq)]
pub enum Filling {
    /// Not at all.
    Never,
    /// To a level above the lowest place of the floor, held there, m.
    Held {
        /// The level.
        level_m: f64,
    },
    /// By a float that opens when the level has fallen to `opens_at_m`, after a delay, and snaps shut
    /// when it has risen to `shuts_at_m`. What drinks more than half of its rate keeps it open.
    Float {
        /// The level at which it opens; nought for a tray that has run dry.
        opens_at_m: f64,
        /// The level at which it shuts.
        shuts_at_m: f64,
        /// What it lets in while open, m³/s.
        rate_m3_per_s: f64,
        /// From the level reaching `opens_at_m` until water comes.
        delay_s: f64,
    },
    /// By hand at set times, to a level.
    ByHand {
        /// Times since the start in rising order, s.
        at_s: Vec<f64>,
        /// The level at which the tap is shut.
        to_m: f64,
        /// What the tap lets in, m³/s.
        rate_m3_per_s: f64,
    },
}

/// A level this near to the one waited for has reached it: a film that no float can feel, m.
pub(super) const FILM_M: f64 = 2e-5;

impl Filling {
    pub(super) fn is_sound(&self) -> bool {
        let positive = |x: f64| x > 0.0 && x.is_finite();
        match self {
            Self::Never => true,
            Self::Held { level_m } => level_m.is_finite(),
            Self::Float {
                opens_at_m,
                shuts_at_m,
                rate_m3_per_s,
                delay_s,
            } => {
                *opens_at_m >= 0.0
                    && *shuts_at_m > *opens_at_m + 2.0 * FILM_M
                    && shuts_at_m.is_finite()
                    && positive(*rate_m3_per_s)
                    && *delay_s >= 0.0
                    && delay_s.is_finite()
            }
            Self::ByHand {
                at_s,
                to_m,
                rate_m3_per_s,
            } => {
                positive(*to_m)
                    && positive(*rate_m3_per_s)
                    && at_s.iter().all(|t| t.is_finite())
                    && at_s.windows(2).all(|pair| pair[0] <= pair[1])
            }
        }
    }

    pub(super) fn rate_m3_per_s(&self) -> f64 {
        match self {
            Self::Never | Self::Held { .. } => 0.0,
            Self::Float { rate_m3_per_s, .. } | Self::ByHand { rate_m3_per_s, .. } => {
                *rate_m3_per_s
            }
        }
    }

    /// The level at which the valve shuts.
    pub(super) fn shuts_at_m(&self) -> f64 {
        match self {
            Self::Never | Self::Held { .. } => f64::INFINITY,
            Self::Float { shuts_at_m, .. } => *shuts_at_m,
            Self::ByHand { to_m, .. } => *to_m,
        }
    }

    /// The level whose reaching opens the valve.
    pub(super) fn opens_at_m(&self) -> Option<f64> {
        match self {
            Self::Float { opens_at_m, .. } => Some(*opens_at_m + FILM_M),
            _ => None,
        }
    }
}

/// The state of the valve.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Valve {
    pub open: bool,
    /// When it is to open, if it is waiting.
    pub opens_s: Option<f64>,
    /// How many of the fillings by hand have been begun.
    pub by_hand: usize,
    /// How many times it has opened.
    pub fills: u32,
}

impl Valve {
    /// The next time at which the valve does something by the clock.
    pub fn next_s(&self, filling: &Filling) -> Option<f64> {
        match filling {
            Filling::Float { .. } => self.opens_s,
            Filling::ByHand { at_s, .. } => at_s.get(self.by_hand).copied(),
            _ => None,
        }
    }

    /// Opens, shuts or starts to wait, as the time and the level ask. True if anything changed.
    pub fn mind(&mut self, filling: &Filling, time_s: f64, level_m: f64) -> bool {
        if self.open {
            if level_m >= filling.shuts_at_m() - FILM_M {
                self.open = false;
                return true;
            }
            return false;
        }
        match filling {
            Filling::Float { delay_s, .. } => match self.opens_s {
                Some(opens_s) if time_s >= opens_s => {
                    *self = Self {
                        open: true,
                        opens_s: None,
                        fills: self.fills + 1,
                        ..*self
                    };
                    true
                }
                None if filling.opens_at_m().is_some_and(|opens| level_m <= opens) => {
                    self.opens_s = Some(time_s + delay_s);
                    self.mind(filling, time_s, level_m);
                    true
                }
                _ => false,
            },
            Filling::ByHand { at_s, .. } => {
                let due = at_s.get(self.by_hand).is_some_and(|at| time_s >= *at);
                if due {
                    self.by_hand += 1;
                    self.fills += 1;
                    self.open = level_m < filling.shuts_at_m() - FILM_M;
                }
                due
            }
            _ => false,
        }
    }
}
