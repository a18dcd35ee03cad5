//! Figures as they are read: a best with its limits.

use leptos::prelude::*;

use crate::app::stored::stored;
use crate::measure::{NumberStyle, RangeText, round_range, with_unit};
use crate::reckon::answer::Figure;

/// A figure in the unit chosen for its quantity, in words.
#[must_use]
pub fn figure_text(figure: &Figure, unit: Option<&str>, style: NumberStyle) -> RangeText {
    let Some(unit) = figure.unit_or_own(unit) else {
        return RangeText {
            best: String::new(),
            span: None,
        };
    };
    let range = figure.in_unit(unit);
    let printed = round_range(range.low(), range.best(), range.high(), style);
    RangeText {
        best: with_unit(&printed.best, unit),
        span: (printed.low != printed.high).then(|| [&printed.low, " to ", &printed.high].concat()),
    }
}

/// The headline: one large figure, its limits under it, and what it is.
#[component]
pub fn Headline(
    /// The figure.
    figure: Figure,
    /// Whether its limits are still being found.
    #[prop(into)]
    finding: Signal<bool>,
) -> impl IntoView {
    let stored = stored();
    let text = figure_text(&figure, stored.unit(figure.name.kind.what).as_deref(), stored.style());
    let span = text.span.clone();
    view! {
        <p class="headline">
            <span class="large">{text.best}</span>
            <span class="limits">
                {move || match &span {
                    Some(span) => span.clone(),
                    None if finding.get() => "finding its range …".to_owned(),
                    None => String::new(),
                }}
            </span>
            <span class="what">{figure.name.label}</span>
        </p>
    }
}

/// Figures in a table: what, best, low to high.
#[component]
pub fn FigureTable(
    /// The figures.
    figures: Vec<Figure>,
    /// What the table holds.
    #[prop(into)]
    caption: String,
) -> impl IntoView {
    let stored = stored();
    let rows = figures
        .into_iter()
        .map(|figure| {
            let text = figure_text(&figure, stored.unit(figure.name.kind.what).as_deref(), stored.style());
            view! {
                <tr>
                    <th scope="row">{figure.name.label}</th>
                    <td>{text.best}</td>
                    <td>{text.span.unwrap_or_else(|| "–".to_owned())}</td>
                </tr>
            }
        })
        .collect_view();
    view! {
        <table class="figures">
            <caption>{caption}</caption>
            <thead>
                <tr>
                    <th scope="col">"What"</th>
                    <th scope="col">"Best"</th>
                    <th scope="col">"8 in 10 lie within"</th>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
    }
}
