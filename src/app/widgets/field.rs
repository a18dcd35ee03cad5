//! A number as it is typed, with its unit and steppers.

use leptos::prelude::*;

use crate::app::stored::stored;
use crate::measure::{DecimalMark, Entry, Quantity, Unit, read_number, write_number};

/// The units a field offers, and how what is typed is told in another.
#[derive(Clone)]
pub struct Units {
    offered: Vec<&'static Unit>,
    convert: fn(&Entry, &Unit, DecimalMark) -> Entry,
}

impl Units {
    /// These units of a quantity, by key.
    #[must_use]
    pub fn of<Q: Quantity>(keys: &[&str]) -> Self {
        Self {
            offered: keys.iter().filter_map(|key| Q::unit(key)).collect(),
            convert: Entry::converted::<Q>,
        }
    }

    /// No unit: a plain number.
    #[must_use]
    pub fn none() -> Self {
        Self::of::<crate::measure::Number>(&[])
    }
}

/// A field for a number. Its path in the question is its id and names its remembered unit.
#[component]
pub fn NumberField(
    /// Path in the question, such as `pot.height`.
    #[prop(into)]
    path: String,
    /// What it is.
    #[prop(into)]
    label: Signal<String>,
    /// What is typed.
    #[prop(into)]
    entry: Signal<Entry>,
    /// Takes what is typed now.
    change: Callback<Entry>,
    /// The units it may be given in.
    units: Units,
    /// The sentence at the field, if there is one.
    #[prop(into)]
    problem: Signal<Option<String>>,
    /// How far a step goes, in the unit shown.
    step: f64,
) -> impl IntoView {
    let stored = stored();
    let id = ["field-", &path.replace('.', "-")].concat();
    let problem_id = [&id, "-problem"].concat();
    let wrong = Signal::derive(move || problem.with(Option::is_some));
    let value = Signal::derive(move || entry.get().text().to_owned());
    let step_by = move |steps: f64| {
        let mark = stored.settings().decimal;
        let now = entry.get();
        let at = read_number(now.text(), mark).unwrap_or(0.0);
        // To the next whole step, so that 2.3 stepped up by 1 is 3.
        let to = if steps > 0.0 { (at / step + 1e-9).floor() + 1.0 } else { (at / step - 1e-9).ceil() - 1.0 };
        change.run(now.with_text(write_number((to * step).max(0.0), mark)));
    };
    let unit_field = (!units.offered.is_empty()).then(|| {
        let Units { offered, convert } = units;
        let chosen = offered.clone();
        let name = path.clone();
        let label = Signal::derive(move || [label.get().as_str(), ", unit"].concat());
        let unit = Signal::derive(move || entry.get().unit().to_owned());
        let options = offered
            .iter()
            .map(|unit| {
                let key = unit.key;
                let selected = Signal::derive(move || entry.with(|entry| entry.unit() == key));
                view! { <option value=key selected=selected>{unit.symbol}</option> }.into_any()
            })
            .collect::<Vec<AnyView>>();
        let choose = move |event| {
            let key = event_target_value(&event);
            if let Some(unit) = chosen.iter().find(|unit| unit.key == key) {
                change.run(convert(&entry.get_untracked(), unit, stored.settings().decimal));
                stored.choose_unit(name.clone(), key);
            }
        };
        view! {
            <select class="unit" aria-label=label on:change=choose prop:value=unit>{options}</select>
        }
        .into_any()
    });
    let less = Signal::derive(move || ["Less: ", &label.get()].concat());
    let more = Signal::derive(move || ["More: ", &label.get()].concat());
    view! {
        <div class="field" class:wrong=wrong>
            <label for=id.clone()>{label}</label>
            <div class="typed">
                <button type="button" class="step" aria-label=less on:click=move |_| step_by(-1.0)>
                    <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M6 12h12"/></svg>
                </button>
                <input
                    id=id
                    type="text"
                    inputmode="decimal"
                    autocomplete="off"
                    enterkeyhint="done"
                    maxlength="60"
                    prop:value=value
                    aria-invalid=Signal::derive(move || wrong.get().to_string())
                    aria-describedby=problem_id.clone()
                    on:input=move |event| change.run(entry.get_untracked().with_text(event_target_value(&event)))
                />
                {unit_field}
                <button type="button" class="step" aria-label=more on:click=move |_| step_by(1.0)>
                    <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M6 12h12M12 6v12"/></svg>
                </button>
            </div>
            <Problem id=problem_id problem/>
        </div>
    }
}

/// The sentence at a field. It is told when it appears, without taking the cursor away.
#[component]
pub fn Problem(
    /// Its id, for the field to point at.
    #[prop(into)]
    id: String,
    /// The sentence, if there is one.
    #[prop(into)]
    problem: Signal<Option<String>>,
) -> impl IntoView {
    view! {
        <p id=id class="problem" aria-live="polite" hidden=Signal::derive(move || problem.with(Option::is_none))>
            {Signal::derive(move || problem.get().unwrap_or_default())}
        </p>
    }
}
