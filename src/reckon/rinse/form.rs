//! The form of Rinse.

use super::question::{
    CORRECTS, DOES_NOT, EXTRACTS, OWN_TARGET, PURE, Question, SAME, SOAK, TRICKLE,
};
use crate::handbook::rinsing::{OWN, SALTY, TARGETS, WETNESS};
use crate::measure::{Density, Entry, Fraction, Length, SaltConductivity, Temperature, Volume};
use crate::reckon::form::{Field, Form, Piece, Units, named};

const LITRES: Units = Units::of::<Volume>(&["L", "gal"]);
const CONDUCTIVITIES: Units = Units::of::<SaltConductivity>(&["mS/cm", "uS/cm"]);
const TEMPERATURES: Units = Units::of::<Temperature>(&["degC", "degF"]);
const DEPTHS: Units = Units::of::<Length>(&["cm", "mm", "in"]);
const SHARES: Units = Units::of::<Fraction>(&["%"]);
const DENSITIES: Units = Units::of::<Density>(&["g/L"]);

impl Form for Question {
    fn pieces(&self) -> Vec<Piece> {
        let salty = SALTY.iter().map(|row| (row.key, row.name));
        let mut fields = vec![Field::few("material", "Material", salty)];
        if self.material == OWN {
            fields.push(Field::number(
                "held",
                "Water it holds once drained",
                SHARES,
                5.0,
            ));
            fields.push(Field::number("density", "Its dry density", DENSITIES, 50.0));
        }
        fields.push(Field::number("litres", "How much of it", LITRES, 5.0));
        let extracts = EXTRACTS.iter().map(|row| (row.key, row.name));
        fields.push(Field::few("extract", "Salt measured in", extracts));
        fields.push(Field::number(
            "conductivity",
            "It reads",
            CONDUCTIVITIES,
            0.1,
        ));
        fields.push(Field::number(
            "source",
            "The water for rinsing reads",
            CONDUCTIVITIES,
            0.1,
        ));
        let ways = [(SOAK, "soaked and drained"), (TRICKLE, "trickled through")];
        fields.push(Field::few("way", "How it is rinsed", ways));
        fields.push(Field::number("water", "Water for each rinse", LITRES, 5.0));
        let uses = TARGETS.iter().map(|row| (row.key, row.name));
        let own = [(OWN_TARGET, "a reading of my own")];
        fields.push(Field::few("purpose", "What for", uses.chain(own)));
        if self.purpose == OWN_TARGET {
            fields.push(Field::number("target", "Come down to", CONDUCTIVITIES, 0.1));
        }
        let wetness = WETNESS.iter().map(|row| (row.key, row.name));
        let mut more = vec![Field::few("wetness", "How wet it is now", wetness)];
        let waters = [
            (PURE, "pure water, or clean rain"),
            (SAME, "the water for rinsing"),
        ];
        more.push(Field::few(
            "extract_water",
            "The extract was made with",
            waters,
        ));
        let meters = [
            (CORRECTS, "corrects to 25 °C"),
            (DOES_NOT, "does not correct"),
        ];
        more.push(Field::few("meter", "The meter", meters));
        if self.meter == DOES_NOT {
            more.push(Field::number(
                "temperature",
                "Temperature of what it was held in",
                TEMPERATURES,
                1.0,
            ));
        }
        more.push(Field::number(
            "depth",
            "How deep it lies to drain",
            DEPTHS,
            5.0,
        ));
        let mut pieces: Vec<Piece> = fields.into_iter().map(Piece::from).collect();
        pieces.push(Piece::more("More of the question", more));
        pieces
    }

    fn entry(&mut self, path: &str) -> Option<&mut Entry> {
        named(self.numbers(), path)
    }

    fn choice(&mut self, path: &str) -> Option<&mut String> {
        named(self.choices(), path)
    }

    fn paths(&self) -> Vec<String> {
        let mut asked = self.clone();
        let choices = asked.choices().map(|(path, _)| path.to_owned());
        let mut paths = Vec::from(choices);
        paths.extend(asked.numbers().into_iter().map(|(path, _)| path.to_owned()));
        paths
    }

    fn lists(&self) -> &'static [&'static str] {
        &[]
    }

    fn blank_rows(&mut self, _path: &str, _many: usize) {}

    fn add_row(&mut self, _path: &str) {}

    fn take_out_row(&mut self, _path: &str, _index: usize) {}
}
