//! The form of Rinse.

use super::question::{
    CORRECTS, DOES_NOT, EXTRACTS, OWN_TARGET, PURE, Question, SAME, SOAK, TRICKLE,
};
use crate::handbook::rinsing::{OWN, SALTY, TARGETS, WETNESS};
use crate::measure::{Density, Entry, Fraction, Length, SaltConductivity, Temperature, Volume};
use crate::reckon::form::{Field, Form, Item, Piece, Takes, Units};

const LITRES: Units = Units::of::<Volume>(&["L", "gal"]);
const CONDUCTIVITIES: Units = Units::of::<SaltConductivity>(&["mS/cm", "uS/cm"]);
const TEMPERATURES: Units = Units::of::<Temperature>(&["degC", "degF"]);
const DEPTHS: Units = Units::of::<Length>(&["cm", "mm", "in"]);
const SHARES: Units = Units::of::<Fraction>(&["%"]);
const DENSITIES: Units = Units::of::<Density>(&["g/L"]);

/// Paths of the choices.
const CHOICES: [&str; 7] = [
    "material",
    "wetness",
    "extract",
    "extract_water",
    "meter",
    "way",
    "purpose",
];
/// Paths of the numbers.
const NUMBERS: [&str; 9] = [
    "held",
    "density",
    "litres",
    "conductivity",
    "temperature",
    "source",
    "water",
    "depth",
    "target",
];

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let salty = SALTY.iter().map(|row| (row.key, row.name));
        let mut pieces = vec![few("material", "Material", salty)];
        if self.material == OWN {
            pieces.push(number("held", "Water it holds once drained", SHARES, 5.0));
            pieces.push(number("density", "Its dry density", DENSITIES, 50.0));
        }
        pieces.push(number("litres", "How much of it", LITRES, 5.0));
        let extracts = EXTRACTS.iter().map(|row| (row.key, row.name));
        pieces.push(few("extract", "Salt measured in", extracts));
        pieces.push(number("conductivity", "It reads", CONDUCTIVITIES, 0.1));
        pieces.push(number(
            "source",
            "The water for rinsing reads",
            CONDUCTIVITIES,
            0.1,
        ));
        let ways = [(SOAK, "soaked and drained"), (TRICKLE, "trickled through")];
        pieces.push(few("way", "How it is rinsed", ways.into_iter()));
        pieces.push(number("water", "Water for each rinse", LITRES, 5.0));
        let uses = TARGETS.iter().map(|row| (row.key, row.name));
        let own = [(OWN_TARGET, "a reading of my own")];
        pieces.push(few("purpose", "What for", uses.chain(own)));
        if self.purpose == OWN_TARGET {
            pieces.push(number("target", "Come down to", CONDUCTIVITIES, 0.1));
        }
        let wetness = WETNESS.iter().map(|row| (row.key, row.name));
        let mut more = vec![few("wetness", "How wet it is now", wetness)];
        let waters = [
            (PURE, "pure water, or clean rain"),
            (SAME, "the water for rinsing"),
        ];
        more.push(few(
            "extract_water",
            "The extract was made with",
            waters.into_iter(),
        ));
        let meters = [
            (CORRECTS, "corrects to 25 °C"),
            (DOES_NOT, "does not correct"),
        ];
        more.push(few("meter", "The meter", meters.into_iter()));
        if self.meter == DOES_NOT {
            more.push(number(
                "temperature",
                "Temperature of what it was held in",
                TEMPERATURES,
                1.0,
            ));
        }
        more.push(number("depth", "How deep it lies to drain", DEPTHS, 5.0));
        pieces.push(Piece::More {
            about: "More of the question",
            pieces: more,
        });
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        Some(match path {
            "held" => &mut self.held,
            "density" => &mut self.density,
            "litres" => &mut self.litres,
            "conductivity" => &mut self.conductivity,
            "temperature" => &mut self.temperature,
            "source" => &mut self.source,
            "water" => &mut self.water,
            "depth" => &mut self.depth,
            "target" => &mut self.target,
            _ => return None,
        })
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        Some(match path {
            "material" => &mut self.material,
            "wetness" => &mut self.wetness,
            "extract" => &mut self.extract,
            "extract_water" => &mut self.extract_water,
            "meter" => &mut self.meter,
            "way" => &mut self.way,
            "purpose" => &mut self.purpose,
            _ => return None,
        })
    }

    fn paths(&self) -> Vec<String> {
        CHOICES
            .iter()
            .chain(&NUMBERS)
            .map(|path| (*path).to_owned())
            .collect()
    }

    fn lists(&self) -> &'static [&'static str] {
        &[]
    }

    fn blank_rows(&mut self, _path: &str, _many: usize) {}

    fn add_row(&mut self, _path: &str) {}

    fn take_out_row(&mut self, _path: &str, _index: usize) {}
}

fn field(path: &str, label: &str, takes: Takes) -> Piece {
    Piece::Field(Field {
        path: path.to_owned(),
        label: label.to_owned(),
        takes,
    })
}

fn number(path: &str, label: &str, units: Units, step: f64) -> Piece {
    field(path, label, Takes::Number { units, step })
}

fn few<'a>(path: &str, label: &str, items: impl Iterator<Item = (&'a str, &'a str)>) -> Piece {
    let item = |(key, name): (&str, &str)| Item {
        key: key.to_owned(),
        name: name.to_owned(),
        note: String::new(),
    };
    field(path, label, Takes::Few(items.map(item).collect()))
}
