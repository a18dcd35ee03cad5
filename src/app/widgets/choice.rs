//! One of a long list, found by typing a part of its name.

use leptos::html::{Dialog, Input};
use leptos::prelude::*;

use super::field::Problem;

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

    let name = move || {
        let key = chosen.get();
        items.with_value(|items| items.iter().find(|item| item.key == key).map(|item| item.name.clone())).unwrap_or_else(|| {
            if key.is_empty() { "Choose one".to_owned() } else { key }
        })
    };
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
    let found = move || {
        let typed = typed.get().to_lowercase();
        let words: Vec<&str> = typed.split_whitespace().collect();
        items.with_value(|items| {
            items
                .iter()
                .filter(|item| {
                    let text = [&item.name, " ", &item.note].concat().to_lowercase();
                    words.iter().all(|word| text.contains(word))
                })
                .cloned()
                .collect::<Vec<_>>()
        })
    };
    let list_name = heading.clone();
    let search_id = [&id, "-search"].concat();
    view! {
        <div class="field" class:wrong=move || problem.with(Option::is_some)>
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
                        prop:value=move || typed.get()
                        on:input=move |event| typed.set(event_target_value(&event))
                    />
                </div>
                // The list is made only while it is looked at.
                <Show when=move || open.get()>
                    <ul class="sheet-list">
                        <For each=found key=|item| item.key let:item>
                            <li>
                                <button
                                    type="button"
                                    aria-pressed=move || if chosen.get() == item.key { "true" } else { "false" }
                                    on:click=move |_| {
                                        choose.run(item.key);
                                        close();
                                    }
                                >
                                    <span>{item.name.clone()}</span>
                                    <small>{item.note.clone()}</small>
                                </button>
                            </li>
                        </For>
                    </ul>
                    <p class="none" hidden=move || !found().is_empty()>
                        "Nothing has that in its name. Try a shorter part of it."
                    </p>
                </Show>
            </dialog>
        </div>
    }
}
