//! What pages are put together from.
//!
//! Live pieces are views; what is only read is [`markup`](super::markup), set into the page by
//! [`Read`]. Conditions and lists go through [`shown`] and [`listed`], which take views of any
//! kind as one kind: a view of its own kind for each would be compiled for each.
//!
//! * [`form`]: any question's form, drawn from its description.
//! * [`sheet`]: one of a long list, found by typing.
//! * [`figures`]: figures as they are read.
//! * [`verdict`]: the verdict by word, shape and colour.
//! * [`behind`]: what is behind the answer: cautions, working.
//! * [`paper`]: print and link.
//! * [`strip`]: the answer in one line while its card is out of sight.

pub mod behind;
pub mod figures;
pub mod form;
pub mod paper;
pub mod sheet;
pub mod strip;
pub mod verdict;

use leptos::prelude::*;

/// A place in the page for what is only read.
#[component]
pub fn Read(
    /// The markup.
    #[prop(into)]
    markup: Signal<String>,
    /// Class of the place.
    class: &'static str,
) -> impl IntoView {
    view! { <div class=class inner_html=markup></div> }
}

type Make = Box<dyn Fn() -> AnyView + Send>;

/// A view while a condition holds.
pub fn shown(
    when: impl Fn() -> bool + Send + Sync + 'static,
    make: impl Fn() -> AnyView + Send + 'static,
) -> AnyView {
    either(
        Memo::new(move |_| when()),
        Box::new(make),
        Box::new(|| ().into_any()),
    )
}

/// One view or the other.
#[must_use]
pub fn either(when: Memo<bool>, make: Make, otherwise: Make) -> AnyView {
    let view: Make = Box::new(move || if when.get() { make() } else { otherwise() });
    view.into_any()
}

/// A view for each of so many places, made anew when their number changes.
pub fn listed(
    many: impl Fn() -> usize + Send + Sync + 'static,
    row: impl Fn(usize) -> AnyView + Send + 'static,
) -> AnyView {
    let many = Memo::new(move |_| many());
    let rows: Make = Box::new(move || {
        (0..many.get())
            .map(&row)
            .collect::<Vec<AnyView>>()
            .into_any()
    });
    rows.into_any()
}
