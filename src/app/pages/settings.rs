//! Settings: how this device shows things, what is stored on it, and about Longtom.

use std::rc::Rc;

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::app::install::install;
use crate::app::stored::{Stored, stored};
use crate::app::version::{Without, version};
use crate::app::widgets::{listed, shown};
use crate::app::words;
use crate::keep::browser::{AnyShelf, save_file};
use crate::keep::{Aside, Cabinet, KeepProblem, Scheme, Settings, TextSize, parcel};
use crate::measure::{DecimalMark, Length, Mass, Unit, Volume};
use crate::reckon::answer::Kind;

/// The page.
#[component]
pub fn SettingsPage() -> impl IntoView {
    view! {
        <h1>"Settings"</h1>
        <Showing/>
        <OnThisDevice/>
        <About/>
    }
}

/// A choice among few, all in sight. Choices go by their place in the list.
#[component]
fn Few(
    /// What is chosen.
    legend: &'static str,
    /// Name of the group.
    name: &'static str,
    /// The words of the choices.
    choices: Vec<String>,
    /// The place of the choice made now.
    #[prop(into)]
    chosen: Signal<usize>,
    /// Takes the place of the choice made next.
    choose: Callback<usize>,
) -> impl IntoView {
    let rows: Vec<AnyView> = choices
        .into_iter()
        .enumerate()
        .map(|(index, words)| {
            let id = [name, "-", &index.to_string()].concat();
            let checked = Signal::derive(move || chosen.get() == index);
            view! {
                <div>
                    <input
                        type="radio"
                        id=id.clone()
                        name=name
                        prop:checked=checked
                        on:change=move |_| choose.run(index)
                    />
                    <label for=id>{words}</label>
                </div>
            }
            .into_any()
        })
        .collect();
    view! {
        <fieldset class="few">
            <legend>{legend}</legend>
            {rows}
        </fieldset>
    }
}

/// A setting among few values.
fn setting<T: Copy + PartialEq + Send + Sync + 'static>(
    legend: &'static str,
    name: &'static str,
    choices: &'static [(T, &'static str)],
    get: fn(&Settings) -> T,
    set: fn(&mut Settings, T),
) -> AnyView {
    let stored = stored();
    let chosen = Signal::derive(move || {
        let now = get(&stored.settings());
        choices
            .iter()
            .position(|(value, _)| *value == now)
            .unwrap_or_default()
    });
    let choose = Callback::new(move |place: usize| {
        if let Some(&(value, _)) = choices.get(place) {
            stored.change_settings(Rc::new(move |settings: &mut Settings| set(settings, value)));
        }
    });
    let words = choices
        .iter()
        .map(|(_, words)| (*words).to_owned())
        .collect();
    view! { <Few legend name choices=words chosen choose/> }.into_any()
}

/// The unit in which a quantity is shown.
fn unit_setting(legend: &'static str, kind: Kind, keys: &[&str]) -> AnyView {
    let stored = stored();
    let offered: Vec<&'static Unit> = kind
        .units
        .iter()
        .filter(|unit| keys.contains(&unit.key))
        .collect();
    let words = offered
        .iter()
        .map(|unit| [unit.plural, " (", unit.symbol, ")"].concat())
        .collect();
    let keys: Vec<&'static str> = offered.iter().map(|unit| unit.key).collect();
    let known = keys.clone();
    let chosen = Signal::derive(move || {
        let kept = stored.unit(kind.what);
        known
            .iter()
            .position(|key| Some(*key) == kept.as_deref())
            .unwrap_or_default()
    });
    let choose = Callback::new(move |place: usize| {
        if let Some(&key) = keys.get(place) {
            stored.choose_unit(kind.what.to_owned(), key.to_owned());
        }
    });
    view! { <Few legend name=kind.what choices=words chosen choose/> }.into_any()
}

/// How things are shown.
#[component]
fn Showing() -> impl IntoView {
    const DECIMAL: &[(DecimalMark, &str)] = &[
        (
            DecimalMark::Ask,
            "ask when 1,250 or 1.250 can be read two ways",
        ),
        (DecimalMark::Point, "point: 2.5"),
        (DecimalMark::Comma, "comma: 2,5"),
    ];
    const SCHEME: &[(Scheme, &str)] = &[
        (Scheme::Auto, "as the device is set"),
        (Scheme::Light, "light, for full sun"),
        (Scheme::Dark, "dark, for before dawn"),
    ];
    const TEXT: &[(TextSize, &str)] = &[
        (TextSize::Normal, "normal"),
        (TextSize::Large, "large"),
        (TextSize::Largest, "largest"),
    ];
    let rows = vec![
        setting(
            "Decimal mark",
            "decimal",
            DECIMAL,
            |all| all.decimal,
            |all, mark| all.decimal = mark,
        ),
        unit_setting("Volumes", Kind::of::<Volume>(), &["L", "gal", "us_gal"]),
        unit_setting("Weights", Kind::of::<Mass>(), &["kg", "lb"]),
        unit_setting("Lengths", Kind::of::<Length>(), &["mm", "cm", "in"]),
        setting(
            "Light or dark",
            "scheme",
            SCHEME,
            |all| all.scheme,
            |all, scheme| all.scheme = scheme,
        ),
        setting(
            "Size of text",
            "text",
            TEXT,
            |all| all.text_size,
            |all, size| all.text_size = size,
        ),
    ];
    view! {
        <section aria-labelledby="showing">
            <h2 id="showing">"How things are shown"</h2>
            {rows}
        </section>
    }
}

/// What is stored.
#[component]
fn OnThisDevice() -> impl IntoView {
    let stored = stored();
    let without = version().without;
    let install = install();
    let asides = RwSignal::new(Vec::<Aside>::new());
    Effect::new(move |_| {
        stored.asides_changed.track();
        if let Some(cabinet) = stored.cabinet() {
            spawn_local(async move {
                match cabinet.asides().await {
                    Ok(found) => asides.set(found),
                    Err(problem) => stored.tell(problem.to_string()),
                }
            });
        }
    });
    let everything = move |_| {
        stored.save_now();
        if let Some(cabinet) = stored.cabinet() {
            spawn_local(async move {
                let now = String::from(js_sys::Date::new_0().to_iso_string());
                match parcel::pack(cabinet.shelf(), &now).await {
                    Ok(text) => {
                        if let Err(problem) =
                            save_file(words::EVERYTHING_FILE, "application/json", &text)
                        {
                            stored.tell(problem.to_string());
                        }
                    }
                    Err(problem) => stored.tell(crate::keep::words::shelf_problem(&problem)),
                }
            });
        }
    };
    let told = Signal::derive(move || match without.get() {
        Without::Asking => "Longtom is being stored on this device.".to_owned(),
        Without::Stored { bytes } => [
            "All of Longtom is stored here (",
            &words::kilobytes(bytes),
            ").",
        ]
        .concat(),
        Without::NotHere => {
            "This browser does not store Longtom: it needs a signal each time.".to_owned()
        }
        Without::Incomplete => {
            "Part of Longtom has been cleared. Load the page once with a signal.".to_owned()
        }
    });
    let any_aside = move || asides.with(|asides| !asides.is_empty());
    view! {
        <section aria-labelledby="device">
            <h2 id="device">"On this device"</h2>
            <p>{told}</p>
            <p>
                "What you type stays on this device, in this browser. Nothing is sent anywhere. Clearing the browser's data clears it too: take a copy now and then."
            </p>
            <p>
                <button type="button" on:click=everything>{words::TAKE_EVERYTHING}</button>
            </p>
            {shown(any_aside, || {
                view! {
                    <h3>"Set aside"</h3>
                    <p>"These could not be read by this version. Nothing of them is lost: save them as files."</p>
                }
                .into_any()
            })}
            <ul class="asides">
                {listed(move || asides.with(Vec::len), move |place| {
                    asides.with_untracked(|all| all.get(place).cloned()).map(aside_row).into_any()
                })}
            </ul>
            <h3>"On the home screen"</h3>
            {shown(move || install.done.get(), || {
                view! { <p>"Longtom is on the home screen of this device."</p> }.into_any()
            })}
            {shown(move || !install.done.get() && install.is_offered(), move || {
                view! {
                    <p>
                        <button type="button" on:click=move |_| install.accept()>"Put Longtom on the home screen"</button>
                    </p>
                }
                .into_any()
            })}
            {shown(move || !install.done.get() && !install.is_offered(), || view! { <HowToInstall/> }.into_any())}
        </section>
    }
}

/// One text that was set aside: it can be saved as a file, and thrown away at the second touch.
fn aside_row(aside: Aside) -> AnyView {
    let stored = stored();
    let key = StoredValue::new(aside.key.clone());
    let sure = RwSignal::new(false);
    let save = move |_| {
        with_aside(stored, key.get_value(), |cabinet, key| async move {
            let text = cabinet.aside_text(&key).await?;
            save_file(&[&key, ".txt"].concat(), "text/plain", &text)
        });
    };
    let discard = move |_| {
        if sure.get_untracked() {
            with_aside(stored, key.get_value(), move |cabinet, key| async move {
                cabinet.discard_aside(&key).await?;
                stored.asides_changed.update(|count| *count += 1);
                Ok(())
            });
        } else {
            sure.set(true);
        }
    };
    let words = Signal::derive(move || {
        if sure.get() {
            "Throw away for good"
        } else {
            "Throw away"
        }
        .to_owned()
    });
    let size = words::kilobytes(aside.bytes as f64);
    view! {
        <li>
            <span>{[&aside.key, ", ", &size].concat()}</span>
            <button type="button" class="quiet" on:click=save>"Save as a file"</button>
            <button type="button" class="quiet danger" hidden=aside.in_place on:click=discard>{words}</button>
        </li>
    }
    .into_any()
}

/// Does something with a text that was set aside, and tells what stands in the way.
fn with_aside<Act, Doing>(stored: Stored, key: String, act: Act)
where
    Act: FnOnce(Cabinet<AnyShelf>, String) -> Doing + 'static,
    Doing: Future<Output = Result<(), KeepProblem>>,
{
    let Some(cabinet) = stored.cabinet() else {
        return;
    };
    spawn_local(async move {
        if let Err(problem) = act(cabinet, key).await {
            stored.tell(problem.to_string());
        }
    });
}

/// How it is put on the home screen where the browser does not offer it.
#[component]
fn HowToInstall() -> impl IntoView {
    view! {
        <p>"On a tablet or phone, open the browser's menu or its share sign, and choose to add the page to the home screen. What is stored in the browser may not come along: save it as a file first."</p>
        <svg class="how-to" viewBox="0 0 300 90" role="img" aria-labelledby="how-to-title">
            <title id="how-to-title">"Share sign, then add to the home screen, then the pot on the screen"</title>
            <path d="M30 40v30h34V40M47 52V18M37 27l10-10 10 10"/>
            <path class="way" d="M84 48h26M102 41l8 7-8 7"/>
            <path d="M130 26h40v44h-40zM150 36v24M138 48h24"/>
            <path class="way" d="M190 48h26M208 41l8 7-8 7"/>
            <path d="M236 20h44v54h-44zM250 34h16l-2.4 24h-11.2zM252 48h12"/>
        </svg>
    }
}

/// About, and what to mind everywhere.
#[component]
fn About() -> impl IntoView {
    view! {
        <section aria-labelledby="about">
            <h2 id="about">"About Longtom"</h2>
            <p>
                "Longtom works out what a small glasshouse nursery has to settle, from the first sowing to the last invoice, on the device itself. A long tom is the old potters' word for a deep pot: depth is what drains a pot."
            </p>
            <p>"Version " {env!("CARGO_PKG_VERSION")} ". Every figure has its source, under Look up and behind each answer."</p>
            <h3>"Mind this everywhere"</h3>
            <p>
                "Longtom reckons; it does not know your place. Labels, local codes and licensed practice go first: for mains electricity near water, for sprays, for lifting, for dust, and for heat under glass. Try a little before you trust it with a crop."
            </p>
        </section>
    }
}
