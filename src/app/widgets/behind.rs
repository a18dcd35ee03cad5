//! What is behind an answer: what to mind, and how it was worked out.

use crate::app::markup::Markup;
use crate::reckon::answer::{Caution, Step};
use crate::reckon::doubt::DRAWS;

/// The cautions, in the order of the work, to stand before the step that needs them.
#[must_use]
pub fn cautions(cautions: &[Caution]) -> String {
    let mut markup = Markup::new();
    markup
        .element("h2", &[("id", "cautions-heading")], "Mind this first")
        .within("ul", &[], &mut |list| {
            for caution in cautions {
                let source = [caution.source.short, ", ", caution.source.standing.words()].concat();
                list.within("li", &[], &mut |item| {
                    item.element("strong", &[], &caution.before)
                        .element("span", &[], &caution.sentence)
                        .element("small", &[], &source);
                });
            }
        });
    markup.done()
}

/// The working: formula, numbers put in, result, source.
#[must_use]
pub fn working(steps: &[Step]) -> String {
    let mut markup = Markup::new();
    let hint = [
        "At the best figures. The limits come from ",
        &DRAWS.to_string(),
        " draws of the whole reckoning, each with every input drawn from its own range.",
    ]
    .concat();
    markup.element("p", &[("class", "hint")], &hint).within(
        "ol",
        &[("class", "working")],
        &mut |list| {
            for step in steps {
                let result = ["= ", &step.result].concat();
                let source = [step.source.full, " (", step.source.standing.words(), ")"].concat();
                list.within("li", &[], &mut |item| {
                    item.element("h3", &[], &step.what)
                        .element("p", &[("class", "formula")], &step.formula)
                        .element("p", &[("class", "put-in")], &step.put_in)
                        .element("p", &[("class", "result")], &result)
                        .element("p", &[("class", "source")], &source);
                });
            }
        },
    );
    markup.done()
}
