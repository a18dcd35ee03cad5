//! What the page's answer comes to, handed from the program that reckons to the one that keeps.
//!
//! The two share the page and nothing else, so it stands at the place of what the record brings.

use web_sys::Element;

use super::PLACE;
use crate::app::live::element;
use crate::app::widgets::figures::Shown;
use crate::keep::address;
use crate::measure::Entry;
use crate::reckon::answer::Answer;
use crate::reckon::form::Texts;

/// The attribute that it stands in; not there while the range is being found.
pub const ANSWERED: &str = "data-answered";
/// The path of the verdict's sentence.
pub const JUDGEMENT: &str = "judgement";
/// Before the name of a figure: the figure as it is told.
const TOLD: &str = "told.";
/// Figures are kept to a thousandth of their unit: what lies beyond is of converting alone.
const STEPS_OF_A_UNIT: f64 = 1000.0;

/// An answer as it is handed over: each figure by its name, and how it is told; and what is kept beyond these.
#[must_use]
pub fn written<Detail>(answer: &Answer<Detail>, shown: &Shown, beyond: Texts) -> String {
    let mut texts = vec![(JUDGEMENT.to_owned(), answer.judgement.sentence.clone())];
    texts.extend(beyond);
    for figure in &answer.figures {
        let name = &figure.name.name;
        if let Some(unit) = figure.unit_or_own(None) {
            let best = figure.in_unit(unit).best();
            let plain = Entry::number((best * STEPS_OF_A_UNIT).round() / STEPS_OF_A_UNIT);
            texts.push((name.clone(), plain.with_unit(unit.key).stored()));
        }
        texts.push(([TOLD, name].concat(), shown.text(figure).best));
    }
    address::write(&texts)
}

/// The answer of the page; nothing while its range is being found, or the question is not in order.
#[must_use]
pub fn read() -> Option<Texts> {
    address::read(&element::<Element>(PLACE)?.get_attribute(ANSWERED)?)
}

/// What an answer has at a path; empty where it has nothing.
#[must_use]
pub fn text<'a>(answer: &'a Texts, path: &str) -> &'a str {
    let found = answer.iter().find(|(known, _)| known == path);
    found.map_or("", |(_, text)| text)
}

/// A figure as it is told.
#[must_use]
pub fn told<'a>(answer: &'a Texts, name: &str) -> &'a str {
    text(answer, &[TOLD, name].concat())
}
