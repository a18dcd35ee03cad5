//! What an answer is made of.

use serde::{Deserialize, Serialize};

use crate::handbook::sources::Source;
use crate::measure::{Quantity, Range, Unit};

/// How well something serves its use. Told by a word, a shape and a colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "terminal", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// It serves.
    Serves,
    /// It can serve, if watched.
    Watch,
    /// It does not serve.
    DoesNotServe,
}

impl Verdict {
    /// All three, best first.
    pub const ALL: [Self; 3] = [Self::Serves, Self::Watch, Self::DoesNotServe];
}

/// A kind of quantity, as a figure carries it about: its name and its units.
#[derive(Clone, Copy, Debug)]
pub struct Kind {
    /// Name of the quantity.
    pub what: &'static str,
    /// Its units, the usual one first.
    pub units: &'static [Unit],
}

impl Kind {
    /// The kind of a quantity.
    #[must_use]
    pub const fn of<Q: Quantity>() -> Self {
        Self {
            what: Q::WHAT,
            units: Q::UNITS,
        }
    }
}

/// The name of a figure, before it has a value.
#[derive(Clone, Debug)]
pub struct FigureName {
    /// Stable name in files.
    pub name: String,
    /// Name on the page.
    pub label: String,
    /// Kind of quantity.
    pub kind: Kind,
    /// Key of the unit it is shown in unless the grower chose another.
    pub unit: &'static str,
}

impl FigureName {
    /// A figure of quantity `Q`, shown in the unit of key `unit`.
    pub fn of<Q: Quantity>(
        name: impl Into<String>,
        label: impl Into<String>,
        unit: &'static str,
    ) -> Self {
        Self {
            name: name.into(),
            label: label.into(),
            kind: Kind::of::<Q>(),
            unit,
        }
    }
}

/// One figure of an answer.
#[derive(Clone, Debug)]
pub struct Figure {
    /// Its name.
    pub name: FigureName,
    /// Its value in base units; low, best and high are equal until the doubt is known.
    pub range: Range<f64>,
}

impl Figure {
    /// The unit of a key, or the figure's own where the key is not one of its kind.
    #[must_use]
    pub fn unit_or_own(&self, key: Option<&str>) -> Option<&'static Unit> {
        let find = |key: &str| self.name.kind.units.iter().find(|unit| unit.key == key);
        key.and_then(find)
            .or_else(|| find(self.name.unit))
            .or_else(|| self.name.kind.units.first())
    }

    /// Its range in a unit.
    #[must_use]
    pub fn in_unit(&self, unit: &Unit) -> Range<f64> {
        self.range.map_increasing(|base| unit.from_base(base))
    }
}

/// The verdict with its sentence.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// At the best figures.
    pub verdict: Verdict,
    /// In one sentence, with how sure it is.
    pub sentence: String,
    /// Shares of the draws that serve, need watching and do not serve, once they are known.
    pub chances: Option<[f64; 3]>,
}

/// A caution, and the step it must be read before.
#[derive(Clone, Debug, PartialEq)]
pub struct Caution {
    /// The step: "Before you open the bags".
    pub before: String,
    /// What to do.
    pub sentence: String,
    /// Who says so.
    pub source: &'static Source,
}

impl Caution {
    /// A caution before a step.
    pub fn new(before: &str, sentence: String, source: &'static Source) -> Self {
        Self {
            before: before.to_owned(),
            sentence,
            source,
        }
    }
}

/// One step of the working.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is worked out.
    pub what: String,
    /// The formula.
    pub formula: String,
    /// The formula with its numbers.
    pub put_in: String,
    /// What comes out.
    pub result: String,
    /// Whose formula or figures.
    pub source: &'static Source,
}

impl Step {
    /// What is worked out, by which formula, with which numbers, to which result, and whose it is.
    pub fn new(
        what: &str,
        formula: &str,
        put_in: String,
        result: String,
        source: &'static Source,
    ) -> Self {
        Self {
            what: what.to_owned(),
            formula: formula.to_owned(),
            put_in,
            result,
            source,
        }
    }
}

/// An answer.
#[derive(Clone, Debug)]
pub struct Answer<Detail> {
    /// The figures, the headline first.
    pub figures: Vec<Figure>,
    /// Does it serve?
    pub judgement: Judgement,
    /// What to do, in one sentence.
    pub advice: String,
    /// What to mind, before which step.
    pub cautions: Vec<Caution>,
    /// How it was worked out.
    pub working: Vec<Step>,
    /// What belongs to this reckoning alone.
    pub detail: Detail,
}

impl<Detail> Answer<Detail> {
    /// The figure of a name.
    #[must_use]
    pub fn figure(&self, name: &str) -> Option<&Figure> {
        self.figures.iter().find(|figure| figure.name.name == name)
    }
}
