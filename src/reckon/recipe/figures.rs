//! The figures of Recipe, what is aimed at first.

use super::blends::Counts;
use super::judge::Judged;
use super::question::{Aim, Case};
use super::words;
use crate::measure::{Fraction, Mass, Number, Range, Volume};
use crate::reckon::answer::FigureName;
use crate::reckon::doubt::Doubt;

/// A figure that is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Told {
    Aimed(Aim),
    Water,
    VolumeLost,
    LitresOf(usize),
}

/// All of them, the one aimed at first.
fn told(case: &Case) -> Vec<Told> {
    let others = Aim::ALL.into_iter().filter(|aim| *aim != case.aim);
    let aims = [case.aim].into_iter().chain(others).map(Told::Aimed);
    let litres = (0..case.materials.len()).map(Told::LitresOf);
    aims.chain([Told::Water, Told::VolumeLost])
        .chain(litres)
        .collect()
}

impl Case {
    /// Their names.
    #[must_use]
    pub fn figures(&self) -> Vec<FigureName> {
        let fraction = |name: &str, label: &str| FigureName::of::<Fraction>(name, label, "%");
        told(self)
            .into_iter()
            .map(|told| match told {
                Told::Aimed(Aim::Price) => {
                    FigureName::of::<Number>("price", words::PRICE_OF_ALL, "")
                }
                Told::Aimed(Aim::Weight) => {
                    let label = words::wet_weight(self.by_depth);
                    FigureName::of::<Mass>("wet_weight", label, "kg")
                }
                Told::Aimed(Aim::Air) => fraction("air", words::AIR),
                Told::Aimed(Aim::EasyWater) => fraction("easy_water", words::EASY_WATER),
                Told::Water => fraction("water", words::WATER),
                Told::VolumeLost => fraction("volume_lost", words::VOLUME_LOST),
                Told::LitresOf(place) => {
                    let (key, name) = self
                        .materials
                        .get(place)
                        .map_or(("", ""), |stuff| (stuff.material.key, stuff.material.name));
                    FigureName::of::<Volume>(
                        ["litres_of_", key].concat(),
                        [name, " to measure out"].concat(),
                        "L",
                    )
                }
            })
            .collect()
    }

    /// Their values for a blend, base units.
    #[must_use]
    pub fn values(&self, counts: &Counts, judged: &Judged) -> Vec<f64> {
        told(self)
            .into_iter()
            .map(|told| match told {
                Told::Aimed(Aim::Price) => self.price(counts, judged.lost),
                Told::Aimed(Aim::Weight) => judged.wet_kg,
                Told::Aimed(Aim::Air) => judged.air,
                Told::Aimed(Aim::EasyWater) => judged.easy_water,
                Told::Water => judged.water,
                Told::VolumeLost => judged.lost,
                Told::LitresOf(place) => self.cubic_metres_of(place, counts, judged.lost),
            })
            .collect()
    }

    /// Their ranges for a blend of which Mix has told the doubt. What depends on the volume lost
    /// alone rises with it.
    #[must_use]
    pub fn ranges(&self, counts: &Counts, doubt: &Doubt) -> Vec<Range<f64>> {
        let of = |place: usize| doubt.ranges.get(place).copied();
        let lost = of(self.places.volume_lost);
        told(self)
            .into_iter()
            .map_while(|told| match told {
                Told::Aimed(Aim::Price) => {
                    Some(lost?.map_increasing(|lost| self.price(counts, lost)))
                }
                Told::Aimed(Aim::Weight) => of(self.places.wet_weight),
                Told::Aimed(Aim::Air) => of(self.places.air),
                Told::Aimed(Aim::EasyWater) => of(self.places.easy_water),
                Told::Water => of(self.places.water),
                Told::VolumeLost => lost,
                Told::LitresOf(place) => {
                    Some(lost?.map_increasing(|lost| self.cubic_metres_of(place, counts, lost)))
                }
            })
            .collect()
    }

    fn cubic_metres_of(&self, place: usize, counts: &Counts, lost: f64) -> f64 {
        let taken = self.taken(counts, lost);
        let litres = taken.get(place).map_or(0.0, |taken| taken.litres);
        Volume::from_litres(litres).in_cubic_metres()
    }
}
