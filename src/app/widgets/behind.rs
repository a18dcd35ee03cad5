//! What is behind an answer: what to mind, and how it was worked out.

use leptos::prelude::*;

use crate::reckon::answer::{Caution, Step};
use crate::reckon::doubt::DRAWS;

/// The cautions, in the order of the work, before the step that needs them.
#[component]
pub fn Cautions(
    /// The cautions.
    cautions: Vec<Caution>,
) -> impl IntoView {
    let items = cautions
        .into_iter()
        .map(|caution| {
            view! {
                <li>
                    <strong>{caution.before}</strong>
                    <span>{caution.sentence}</span>
                    <small>{caution.source.short} ", " {caution.source.standing.words()}</small>
                </li>
            }
        })
        .collect_view();
    view! {
        <section class="cautions" aria-labelledby="cautions-heading">
            <h2 id="cautions-heading">"Mind this first"</h2>
            <ul>{items}</ul>
        </section>
    }
}

/// The working: formula, numbers put in, result, source.
#[component]
pub fn Working(
    /// The steps.
    steps: Vec<Step>,
) -> impl IntoView {
    let items = steps
        .into_iter()
        .map(|step| {
            view! {
                <li>
                    <h3>{step.what}</h3>
                    <p class="formula">{step.formula}</p>
                    <p class="put-in">{step.put_in}</p>
                    <p class="result">"= " {step.result}</p>
                    <p class="source">
                        {step.source.full} " (" {step.source.standing.words()} ")"
                    </p>
                </li>
            }
        })
        .collect_view();
    view! {
        <details class="behind">
            <summary>"Working and sources"</summary>
            <p class="hint">
                "At the best figures. The limits come from " {DRAWS}
                " draws of the whole reckoning, each with every input drawn from its own range."
            </p>
            <ol class="working">{items}</ol>
        </details>
    }
}
