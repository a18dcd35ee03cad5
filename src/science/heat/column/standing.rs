//! What stands on what.

use super::NoColumn;
use crate::measure::{HeatDensity, Length, NumberPerArea, Temperature, TemperatureDifference};
use crate::science::heat::films::Convection;
use crate::science::heat::ground::Solid;
use crate::science::heat::ground::layers::Slice;

/// Hours of a day.
pub(super) const DAY_H: f64 = 24.0;

/// A place in the column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The surface of the floor.
    Floor,
    /// The underside of a raised tray or bench.
    Underside,
    /// Where the heat of a bench is given.
    Heater,
    /// The water of the tray; the tray's floor where there is none.
    Water,
    /// The bed in the tray.
    Bed,
    /// The lower third of the pots.
    PotBottom,
    /// The middle third.
    PotMiddle,
    /// The upper third.
    PotTop,
    /// The air around the plants: under the cover while it lies, that of the house otherwise.
    Air,
}

impl Place {
    /// All of them, upwards.
    pub const ALL: [Self; 9] = [
        Self::Floor,
        Self::Underside,
        Self::Heater,
        Self::Water,
        Self::Bed,
        Self::PotBottom,
        Self::PotMiddle,
        Self::PotTop,
        Self::Air,
    ];
}

/// How a surface stands towards air, house, sun and wet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    /// Convection alone; a steady coefficient that carries radiation too goes with an emissivity of nought
    /// and is not to be wet.
    pub convection: Convection,
    /// Emissivity for long waves, 0 to 1.
    pub emissivity: f64,
    /// Share of what it sees that is the house's cover; the rest is taken to be as warm as the air.
    pub sees_cover: f64,
    /// Share of it that evaporates as open water does.
    pub wet: f64,
    /// Heat it takes up for each watt of sun on a square metre of standing, W/m² of standing: absorptance,
    /// its share of the area and what leaves shade, all in one.
    pub sun: f64,
}

impl Surface {
    /// One steady film to air, radiation and all; dry, and out of the sun.
    #[must_use]
    pub fn plain(film_w_per_m2_k: f64) -> Self {
        Self {
            convection: Convection::Steady(film_w_per_m2_k),
            emissivity: 0.0,
            sees_cover: 0.0,
            wet: 0.0,
            sun: 0.0,
        }
    }

    fn check(&self) -> Result<(), NoColumn> {
        let share = |x: f64| (0.0..=1.0).contains(&x);
        let sound = self.convection.is_sound()
            && [self.emissivity, self.sees_cover, self.wet, self.sun]
                .into_iter()
                .all(share);
        if sound {
            Ok(())
        } else {
            Err(NoColumn::Surface)
        }
    }
}

/// The walls of the pots.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side {
    /// The surface. Its sun falls on the upper two thirds; the lowest stands in the shade of tray and
    /// neighbours.
    pub surface: Surface,
    /// Share of the wall that air reaches: 1 for a pot by itself, about 0.15 to 0.4 in a closed block.
    pub acting: f64,
}

/// Pots that stand in the tray, all alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pots {
    /// How many.
    pub number: NumberPerArea,
    /// Inner breadth at the top of the mix.
    pub top: Length,
    /// Inner breadth at the base.
    pub base: Length,
    /// Depth of the mix.
    pub depth: Length,
    /// The mix, with its water.
    pub mix: Solid,
    /// From the water or bed into the base, W/m² K.
    pub into_base_w_per_m2_k: f64,
    /// The walls.
    pub side: Side,
    /// The top of the mix.
    pub surface: Surface,
}

/// Water from the tank that comes into the tray while as much of the tray's own goes up into pots and air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Refill {
    /// How much each day.
    pub depth: Length,
    /// How warm the tank is.
    pub tank: Temperature,
    /// When it begins, hour of the day.
    pub from_h: f64,
    /// How long it runs, h; at most a day.
    pub for_h: f64,
}

/// The tray.
#[derive(Clone, Debug, PartialEq)]
pub struct Tray {
    /// Free water; nought for a dry tray.
    pub water: Length,
    /// What the tray itself takes up, J/m² K.
    pub own_j_per_m2_k: f64,
    /// A bed in it under the pots, with its own water.
    pub bed: Option<Slice>,
    /// Water or bed that lies open between the pots.
    pub open: Surface,
    /// What flows in.
    pub refills: Vec<Refill>,
}

/// The floor of the house below, and the ground.
#[derive(Clone, Debug, PartialEq)]
pub struct Floor {
    /// Downwards; a metre in all leaves nothing of a day's swing.
    pub layers: Vec<Slice>,
    /// The temperature below the last.
    pub deep: Temperature,
}

/// Air between a raised tray or bench and the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Along the underside.
    pub under_tray: Convection,
    /// Along the floor.
    pub on_floor: Convection,
    /// Radiation between the two against that of black faces, 0 to 1.
    pub exchange: f64,
    /// How high its air is between that measured at the floor (0) and at the bench (1).
    pub air_height: f64,
    /// Heat the floor below takes up for each watt of sun on a square metre of standing.
    pub floor_sun: f64,
    /// Resistance of tray bottom, slats or boards, m² K/W.
    pub through_m2_k_per_w: f64,
}

/// What the tray or bench stands on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Foot {
    /// The floor, through a resistance of contact, m² K/W.
    OnFloor {
        /// m² K/W.
        contact_m2_k_per_w: f64,
    },
    /// Legs or slats.
    Raised(Gap),
}

/// How a heater is driven.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Control {
    /// It is off.
    Off,
    /// It is on.
    On,
    /// By a thermostat: on below, off above.
    Thermostat {
        /// The middle of the band.
        set: Temperature,
        /// From where it goes on to where it goes off.
        band: TemperatureDifference,
        /// Where its probe is.
        probe: Place,
    },
}

/// The heat of a bench.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heater {
    /// Power installed.
    pub power: HeatDensity,
    /// What the layer that it lies in takes up, J/m² K.
    pub layer_j_per_m2_k: f64,
    /// From that layer up into the tray, m² K/W.
    pub up_m2_k_per_w: f64,
    /// Insulation below it, m² K/W.
    pub insulation_m2_k_per_w: f64,
    /// How it is driven.
    pub control: Control,
}

/// A cover over the bench, closed from one hour of the day to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cover {
    /// Closed from, hour of the day.
    pub from_h: f64,
    /// Closed to, hour of the day; before `from_h` where it lies over midnight; the same where it always lies.
    pub to_h: f64,
    /// From its air out to the air of the house, W/m² K of standing.
    pub loss_w_per_m2_k: f64,
    /// Share of that loss that radiates to the cover of the house.
    pub sees_cover: f64,
    /// Share of the sun that it lets through.
    pub transmitted: f64,
}

/// A standing, for each square metre.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// The pots.
    pub pots: Pots,
    /// The tray.
    pub tray: Tray,
    /// The floor.
    pub floor: Floor,
    /// What the tray or bench stands on.
    pub foot: Foot,
    /// Heat.
    pub heater: Option<Heater>,
    /// A cover.
    pub cover: Option<Cover>,
    /// How high the pots are between the air measured at the floor (0) and at the bench (1).
    pub air_height: f64,
}

fn positive(x: f64) -> bool {
    x > 0.0 && x.is_finite()
}

fn counts(x: f64) -> bool {
    x >= 0.0 && x.is_finite()
}

fn share(x: f64) -> bool {
    (0.0..=1.0).contains(&x)
}

fn hour(x: f64) -> bool {
    (0.0..=DAY_H).contains(&x)
}

fn sound(is: bool, otherwise: NoColumn) -> Result<(), NoColumn> {
    if is { Ok(()) } else { Err(otherwise) }
}

impl Pots {
    /// Share of the standing that lies under a section of that breadth.
    pub(super) fn covered(&self, breadth_m: f64) -> f64 {
        self.number.in_per_square_metre() * std::f64::consts::FRAC_PI_4 * breadth_m * breadth_m
    }

    fn check(&self) -> Result<(), NoColumn> {
        let sizes = [
            self.number.in_per_square_metre(),
            self.top.in_metres(),
            self.base.in_metres(),
            self.depth.in_metres(),
            self.into_base_w_per_m2_k,
        ];
        sound(sizes.into_iter().all(positive), NoColumn::Pots)?;
        let widest = self.top.in_metres().max(self.base.in_metres());
        sound(self.covered(widest) <= 1.0, NoColumn::PotsTooClose)?;
        sound(share(self.side.acting), NoColumn::Surface)?;
        self.side.surface.check()?;
        self.surface.check()
    }
}

impl Standing {
    /// That it can be.
    pub(super) fn check(&self) -> Result<(), NoColumn> {
        self.pots.check()?;
        sound(
            counts(self.tray.water.in_metres())
                && counts(self.tray.own_j_per_m2_k)
                && self.tray.bed.is_none_or(|bed| positive(bed.thickness_m)),
            NoColumn::Tray,
        )?;
        self.tray.open.check()?;
        for refill in &self.tray.refills {
            let is = counts(refill.depth.in_metres())
                && refill.tank.in_celsius().is_finite()
                && hour(refill.from_h)
                && refill.for_h > 0.0
                && refill.for_h <= DAY_H;
            sound(is, NoColumn::Refill)?;
        }
        let layers = &self.floor.layers;
        sound(
            !layers.is_empty()
                && layers.iter().all(|layer| positive(layer.thickness_m))
                && self.floor.deep.in_celsius().is_finite(),
            NoColumn::Floor,
        )?;
        sound(share(self.air_height), NoColumn::Foot)?;
        match &self.foot {
            Foot::OnFloor { contact_m2_k_per_w } => {
                sound(positive(*contact_m2_k_per_w), NoColumn::Foot)?;
            }
            Foot::Raised(gap) => sound(
                gap.under_tray.is_sound()
                    && gap.on_floor.is_sound()
                    && positive(gap.through_m2_k_per_w)
                    && [gap.exchange, gap.air_height, gap.floor_sun]
                        .into_iter()
                        .all(share),
                NoColumn::Foot,
            )?,
        }
        if let Some(heater) = &self.heater {
            let driven = match heater.control {
                Control::Thermostat { set, band, .. } => {
                    set.in_celsius().is_finite() && positive(band.in_kelvins())
                }
                Control::Off | Control::On => true,
            };
            let is = counts(heater.power.in_watts_per_square_metre())
                && counts(heater.layer_j_per_m2_k)
                && positive(heater.up_m2_k_per_w)
                && positive(heater.insulation_m2_k_per_w)
                && driven;
            sound(is, NoColumn::Heater)?;
        }
        if let Some(cover) = &self.cover {
            let is = hour(cover.from_h)
                && hour(cover.to_h)
                && positive(cover.loss_w_per_m2_k)
                && share(cover.sees_cover)
                && share(cover.transmitted);
            sound(is, NoColumn::Cover)?;
        }
        Ok(())
    }
}
