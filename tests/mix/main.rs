//! What the outside world says of Mix. Three rooms, counted apart:
//!
//! * `published`: measurements and findings in print, each with its source;
//! * `reference`: values of general-purpose libraries and independent quadrature, made by
//!   `tests/reference/container.py`;
//! * `identity`: what must hold for any mix whatever.
//!
//! Beside them, for what is asked more seldom: `own` figures, `buying`, and how the pots are `standing`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::measure::{DecimalMark, Entry, Range};
use longtom::reckon::Reckoning;
use longtom::reckon::doubt::{DRAWS, Doubt, SEED, doubt_of};
use longtom::reckon::mix::{Case, Mix, OWN_ROUND, PartAsked, PotAsked, Question};

mod buying;
mod identity;
mod own;
mod published;
mod reference;
mod standing;

/// A mix of materials by key, with their parts, in a pot.
fn question(parts: &[(&str, f64)], pot: PotAsked) -> Question {
    Question {
        parts: parts
            .iter()
            .map(|&(material, amount)| PartAsked {
                material: material.to_owned(),
                amount: Entry::number(amount),
                ..PartAsked::default()
            })
            .collect(),
        pot,
        pots: Entry::number(1.0),
        purpose: "growing_on".to_owned(),
        ..Question::default()
    }
}

/// A straight round core of 7.6 cm inside diameter, filled to its rim.
fn core(height_cm: f64) -> PotAsked {
    let centimetres = |value: f64| Entry::new(format!("{value}"), "cm");
    PotAsked {
        size: OWN_ROUND.to_owned(),
        rim: centimetres(7.6),
        base: centimetres(7.6),
        height: centimetres(height_cm),
        below_rim: centimetres(0.0),
        ..PotAsked::default()
    }
}

/// A pot of the handbook.
fn pot(key: &str) -> PotAsked {
    PotAsked {
        size: key.to_owned(),
        ..PotAsked::default()
    }
}

fn check(question: &Question) -> Case {
    Mix::check(question, DecimalMark::Ask).unwrap_or_else(|problems| panic!("{problems:?}"))
}

/// The figures of a case by name.
struct Figures {
    names: Vec<String>,
    values: Vec<f64>,
    doubt: Option<Doubt>,
}

impl Figures {
    /// At their best.
    fn best(question: &Question) -> Self {
        let case = check(question);
        Self {
            names: Mix::figures(&case)
                .into_iter()
                .map(|figure| figure.name)
                .collect(),
            values: Mix::best(&case).unwrap().values,
            doubt: None,
        }
    }

    /// With the doubt that the page and the terminal show.
    fn sampled(question: &Question) -> Self {
        let doubt = doubt_of::<Mix>(check(question), DRAWS, SEED).unwrap();
        Self {
            doubt: Some(doubt),
            ..Self::best(question)
        }
    }

    fn place(&self, name: &str) -> usize {
        self.names.iter().position(|known| known == name).unwrap()
    }

    fn of(&self, name: &str) -> f64 {
        self.values[self.place(name)]
    }

    fn range(&self, name: &str) -> Range<f64> {
        self.doubt.as_ref().unwrap().ranges[self.place(name)]
    }

    /// Dry bulk density, g/L: the dry weight over the volume, which is in no doubt.
    fn density(&self) -> f64 {
        self.of("dry_weight") / self.of("mix_in_pot")
    }

    fn density_range(&self) -> Range<f64> {
        let volume = self.of("mix_in_pot");
        self.range("dry_weight")
            .map_increasing(|weight| weight / volume)
    }
}
