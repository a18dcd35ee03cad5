//! One of a long list, found by typing a part of its name.

use leptos::html::{Dialog, Input};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::field::Problem;
use crate::app::markup::Markup;

/// One of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Its name in the question.
    pub key: &'static str,
    /// Its name on the page.
    pub name: String,
    /// A second line, which may be empty.
    pub note: String,
}

/// A button that shows what is chosen and opens the list.
#[component]
pub fn Choice(
    /// Path in the question.
    #[prop(into)]
    path: String,
    /// What is chosen.
    #[prop(into)]
    label: String,
    /// Heading of the list.
    #[prop(into)]
    heading: String,
    /// The list.
    items: StoredValue<Vec<Item>>,
    /// The key chosen now.
    #[prop(into)]
    chosen: Signal<String>,
    /// Takes the key chosen next.
    choose: Callback<&'static str>,
    /// The sentence at the field, if there is one.
    #[prop(into)]
    problem: Signal<Option<String>>,
) -> impl IntoView {
    let id = ["field-", &path.replace('.', "-")].concat();
    let (label_id, problem_id) = ([&id, "-label"].concat(), [&id, "-problem"].concat());
    let labelled_by = [&label_id, " ", &id].concat();
    let dialog = NodeRef::<Dialog>::new();
    let search = NodeRef::<Input>::new();
    let typed = RwSignal::new(String::new());
    let open = RwSignal::new(false);

    let name = Signal::derive(move || {
        let key = chosen.get();
        items.with_value(|items| items.iter().find(|item| item.key == key).map(|item| item.name.clone())).unwrap_or_else(|| {
            if key.is_empty() { "Choose one".to_owned() } else { key }
        })
    });
    let show = move |_| {
        typed.set(String::new());
        open.set(true);
        if let Some(dialog) = dialog.get_untracked()
            && dialog.show_modal().is_ok()
            && let Some(search) = search.get_untracked()
        {
            let _ = search.focus();
        }
    };
    let close = move || {
        if let Some(dialog) = dialog.get_untracked() {
            dialog.close();
        }
    };
    // Made only while it is looked at.
    let list = Signal::derive(move || {
        if !open.get() {
            return String::new();
        }
        let (typed, chosen) = (typed.get().to_ascii_lowercase(), chosen.get());
        items.with_value(|items| written_list(items, &typed, &chosen))
    });
    let take = move |event: leptos::ev::MouseEvent| {
        let target = event.target().and_then(|target| target.dyn_into::<web_sys::Element>().ok());
        let button = target.and_then(|target| target.closest("button").ok().flatten());
        let key = button.and_then(|button| button.get_attribute("data-key")).unwrap_or_default();
        if let Some(key) = items.with_value(|items| items.iter().map(|item| item.key).find(|known| *known == key)) {
            choose.run(key);
            close();
        }
    };
    let list_name = heading.clone();
    let search_id = [&id, "-search"].concat();
    view! {
        <div class="field" class:wrong=Signal::derive(move || problem.with(Option::is_some))>
            <span class="label" id=label_id>{label}</span>
            <button
                type="button"
                class="choice"
                id=id
                aria-haspopup="dialog"
                aria-labelledby=labelled_by
                aria-describedby=problem_id.clone()
                on:click=show
            >
                <span>{name}</span>
                <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M7 10l5 5 5-5"/></svg>
            </button>
            <Problem id=problem_id problem/>
            <dialog node_ref=dialog class="sheet" aria-label=list_name on:close=move |_| open.set(false)>
                <div class="sheet-head">
                    <label for=search_id.clone()>{heading}</label>
                    <button type="button" class="quiet" on:click=move |_| close()>"Close"</button>
                    <input
                        id=search_id
                        type="text"
                        autocomplete="off"
                        placeholder="Type a part of the name"
                        node_ref=search
                        prop:value=Signal::derive(move || typed.get())
                        on:input=move |event| typed.set(event_target_value(&event))
                    />
                </div>
                <div class="sheet-list" inner_html=list on:click=take></div>
            </dialog>
        </div>
    }
}

/// Those of the list whose names hold every word typed.
fn written_list(items: &[Item], typed: &str, chosen: &str) -> String {
    let mut markup = Markup::new();
    let mut none = true;
    markup.within("ul", &[], &mut |list| {
        for item in items {
            let text = [&item.name, " ", &item.note].concat().to_ascii_lowercase();
            if !typed.split_whitespace().all(|word| text.contains(word)) {
                continue;
            }
            none = false;
            let pressed = if item.key == chosen { "true" } else { "false" };
            let attributes = [("type", "button"), ("data-key", item.key), ("aria-pressed", pressed)];
            list.within("li", &[], &mut |row| {
                row.within("button", &attributes, &mut |button| {
                    button.element("span", &[], &item.name).text(" ").element("small", &[], &item.note);
                });
            });
        }
    });
    if none {
        markup.element("p", &[("class", "none")], "Nothing has that in its name. Try a shorter part of it.");
    }
    markup.done()
}
