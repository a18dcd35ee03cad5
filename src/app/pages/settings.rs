//! Settings: how this device shows things, what is stored on it, and about Longtom.

use leptos::prelude::*;
use leptos::task::spawn_local;

use crate::app::install::install;
use crate::app::stored::stored;
use crate::app::version::{Without, version};
use crate::app::words;
use crate::keep::browser::save_file;
use crate::keep::{Aside, Scheme, Settings, TextSize, parcel};
use crate::measure::{DecimalMark, Length, Mass, Quantity, Volume};

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

/// A choice among few, all in sight.
#[component]
fn Few<T: Copy + PartialEq + Send + Sync + 'static>(
    /// What is chosen.
    legend: &'static str,
    /// Name of the group.
    name: &'static str,
    /// The choices and their words.
    choices: Vec<(T, String)>,
    /// What is chosen now.
    chosen: Signal<T>,
    /// Takes what is chosen next.
    choose: Callback<T>,
) -> impl IntoView {
    view! {
        <fieldset class="few">
            <legend>{legend}</legend>
            {choices
                .into_iter()
                .enumerate()
                .map(|(index, (value, words))| {
                    let id = format!("{name}-{index}");
                    view! {
                        <div>
                            <input
                                type="radio"
                                id=id.clone()
                                name=name
                                prop:checked=move || chosen.get() == value
                                on:change=move |_| choose.run(value)
                            />
                            <label for=id>{words}</label>
                        </div>
                    }
                })
                .collect_view()}
        </fieldset>
    }
}

fn words_of<T>(choices: &[(T, &str)]) -> Vec<(T, String)>
where
    T: Copy,
{
    choices.iter().map(|(value, words)| (*value, (*words).to_owned())).collect()
}

/// How things are shown.
#[component]
fn Showing() -> impl IntoView {
    let stored = stored();
    let units = |legend: &'static str, what: &'static str, table: &'static [crate::measure::Unit], keys: &[&str]| {
        let offered: Vec<&'static str> =
            table.iter().map(|unit| unit.key).filter(|key| keys.contains(key)).collect();
        let first = offered.first().copied().unwrap_or_default();
        let names = table
            .iter()
            .filter(|unit| keys.contains(&unit.key))
            .map(|unit| (unit.key, format!("{} ({})", unit.plural, unit.symbol)))
            .collect();
        let chosen = Signal::derive(move || {
            let kept = stored.unit(what);
            offered.iter().copied().find(|key| Some(*key) == kept.as_deref()).unwrap_or(first)
        });
        view! {
            <Few
                legend
                name=what
                choices=names
                chosen
                choose=Callback::new(move |key: &'static str| {
                    stored.change_settings(move |settings| {
                        settings.units.insert(what.to_owned(), key.to_owned());
                    });
                })
            />
        }
    };
    let change = move |change: fn(&mut Settings, DecimalMark), mark| stored.change_settings(move |settings| change(settings, mark));
    view! {
        <section aria-labelledby="showing">
            <h2 id="showing">"How things are shown"</h2>
            <Few
                legend="Decimal mark"
                name="decimal"
                choices=words_of(&[
                    (DecimalMark::Ask, "ask when 1,250 or 1.250 can be read two ways"),
                    (DecimalMark::Point, "point: 2.5"),
                    (DecimalMark::Comma, "comma: 2,5"),
                ])
                chosen=Signal::derive(move || stored.settings().decimal)
                choose=Callback::new(move |mark| change(|settings, mark| settings.decimal = mark, mark))
            />
            {units("Volumes", Volume::WHAT, Volume::UNITS, &["L", "gal", "us_gal"])}
            {units("Weights", Mass::WHAT, Mass::UNITS, &["kg", "lb"])}
            {units("Lengths", Length::WHAT, Length::UNITS, &["mm", "cm", "in"])}
            <Few
                legend="Light or dark"
                name="scheme"
                choices=words_of(&[
                    (Scheme::Auto, "as the device is set"),
                    (Scheme::Light, "light, for full sun"),
                    (Scheme::Dark, "dark, for before dawn"),
                ])
                chosen=Signal::derive(move || stored.settings().scheme)
                choose=Callback::new(move |scheme| stored.change_settings(move |settings| settings.scheme = scheme))
            />
            <Few
                legend="Size of text"
                name="text"
                choices=words_of(&[
                    (TextSize::Normal, "normal"),
                    (TextSize::Large, "large"),
                    (TextSize::Largest, "largest"),
                ])
                chosen=Signal::derive(move || stored.settings().text_size)
                choose=Callback::new(move |size| stored.change_settings(move |settings| settings.text_size = size))
            />
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
                        if let Err(problem) = save_file(words::EVERYTHING_FILE, "application/json", &text) {
                            stored.tell(problem.to_string());
                        }
                    }
                    Err(problem) => stored.tell(crate::keep::words::shelf_problem(&problem)),
                }
            });
        }
    };
    view! {
        <section aria-labelledby="device">
            <h2 id="device">"On this device"</h2>
            <p>
                {move || match without.get() {
                    Without::Asking => "Longtom is being stored on this device.".to_owned(),
                    Without::Stored { bytes } => format!("All of Longtom is stored here ({}).", words::kilobytes(bytes)),
                    Without::NotHere => "This browser does not store Longtom: it needs a signal each time.".to_owned(),
                    Without::Incomplete => "Part of Longtom has been cleared. Load the page once with a signal.".to_owned(),
                }}
            </p>
            <p>
                "What you type stays on this device, in this browser. Nothing is sent anywhere. Clearing the browser's data clears it too: take a copy now and then."
            </p>
            <p>
                <button type="button" on:click=everything>{words::TAKE_EVERYTHING}</button>
            </p>
            <Show when=move || asides.with(|asides| !asides.is_empty())>
                <h3>"Set aside"</h3>
                <p>"These could not be read by this version. Nothing of them is lost: save them as files."</p>
                <ul class="asides">
                    <For each=move || asides.get() key=|aside| aside.key.clone() let:aside>
                        <AsideRow aside/>
                    </For>
                </ul>
            </Show>
            <h3>"On the home screen"</h3>
            <Show
                when=move || install.done.get()
                fallback=move || {
                    view! {
                        <Show when=move || install.is_offered() fallback=|| view! { <HowToInstall/> }>
                            <p>
                                <button type="button" on:click=move |_| install.accept()>"Put Longtom on the home screen"</button>
                            </p>
                        </Show>
                    }
                }
            >
                <p>"Longtom is on the home screen of this device."</p>
            </Show>
        </section>
    }
}

/// One text that was set aside.
#[component]
fn AsideRow(aside: Aside) -> impl IntoView {
    let stored = stored();
    let key = StoredValue::new(aside.key.clone());
    let save = move |_| {
        let Some(cabinet) = stored.cabinet() else { return };
        spawn_local(async move {
            let key = key.get_value();
            let saved = match cabinet.aside_text(&key).await {
                Ok(text) => save_file(&[&key, ".txt"].concat(), "text/plain", &text),
                Err(problem) => Err(problem),
            };
            if let Err(problem) = saved {
                stored.tell(problem.to_string());
            }
        });
    };
    let sure = RwSignal::new(false);
    let discard = move |_| {
        let Some(cabinet) = stored.cabinet() else { return };
        spawn_local(async move {
            match cabinet.discard_aside(&key.get_value()).await {
                Ok(()) => stored.asides_changed.update(|count| *count += 1),
                Err(problem) => stored.tell(problem.to_string()),
            }
        });
    };
    view! {
        <li>
            <span>{aside.key} ", " {words::kilobytes(aside.bytes as f64)}</span>
            <button type="button" class="quiet" on:click=save>"Save as a file"</button>
            {(!aside.in_place)
                .then(|| {
                    view! {
                        <Show
                            when=move || sure.get()
                            fallback=move || {
                                view! {
                                    <button type="button" class="quiet" on:click=move |_| sure.set(true)>"Throw away"</button>
                                }
                            }
                        >
                            <button type="button" class="quiet danger" on:click=discard>"Throw away for good"</button>
                        </Show>
                    }
                })}
        </li>
    }
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
