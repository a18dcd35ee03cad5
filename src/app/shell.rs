//! The frame around every page: name, places to go, notices.

use leptos::prelude::*;

use super::errands::Errands;
use super::install::Install;
use super::pages::{look_up::LookUp, mix::MixPage, reckon::ReckonPage, settings::SettingsPage};
use super::route::{self, Page};
use super::stored::Stored;
use super::version::Version;
use crate::keep::{Scheme, TextSize};

/// The whole screen.
#[component]
pub fn Shell() -> impl IntoView {
    let stored = Stored::provide();
    let version = Version::provide();
    Install::provide();
    provide_context(StoredValue::new_local(Errands::start()));
    let place = route::place();
    provide_context(place);
    dress_page(stored);

    let page = Memo::new(move |_| place.get().page);
    let main = NodeRef::<leptos::html::Main>::new();
    // Whoever reads by ear or keyboard is taken to the head of the new page; not on opening.
    Effect::new(move |before: Option<Page>| {
        let now = page.get();
        document().set_title(&[title(now), " – Longtom"].concat());
        if before.is_some_and(|before| before != now) {
            window().scroll_to_with_x_and_y(0.0, 0.0);
            if let Some(main) = main.get_untracked() {
                let _ = main.focus();
            }
        }
        now
    });
    let skip = move |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        if let Some(main) = main.get_untracked() {
            let _ = main.focus();
        }
    };

    view! {
        <a class="skip" href="#main" on:click=skip>"To the page"</a>
        <header class="head">
            <a class="name" href=Page::Reckon.address()>"Longtom"</a>
        </header>
        <Places page/>
        <main id="main" tabindex="-1" node_ref=main>
            <div class="notices" role="status">
                <Show when=move || version.is_waiting()>
                    <p class="notice">
                        <span>"A new version of Longtom is ready on this device."</span>
                        <button class="quiet" on:click=move |_| version.change_over()>"Change over"</button>
                    </p>
                </Show>
                <For each=move || stored.notices.get() key=Clone::clone let:sentence>
                    {
                        let read = sentence.clone();
                        view! {
                            <p class="notice">
                                <span>{sentence}</span>
                                <button
                                    class="quiet"
                                    on:click=move |_| stored.notices.update(|all| all.retain(|other| *other != read))
                                >
                                    "I have read it"
                                </button>
                            </p>
                        }
                    }
                </For>
            </div>
            <Show when=move || stored.ready.get()>
                {move || match page.get() {
                    Page::Reckon => view! { <ReckonPage/> }.into_any(),
                    Page::Mix => view! { <MixPage/> }.into_any(),
                    Page::LookUp => view! { <LookUp/> }.into_any(),
                    Page::Settings => view! { <SettingsPage/> }.into_any(),
                }}
            </Show>
        </main>
    }
}

/// The name of a page at the head of the window.
fn title(page: Page) -> &'static str {
    match page {
        Page::Reckon => "Reckon",
        Page::Mix => "Mix",
        Page::LookUp => "Look up",
        Page::Settings => "Settings",
    }
}

/// The places to go.
#[component]
fn Places(page: Memo<Page>) -> impl IntoView {
    /// A place: its page, its name, and its sign as the outline of a drawing 24 units wide.
    const PLACES: [(Page, &str, &str); 3] = [
        (Page::Reckon, "Reckon", "M5 4h14M6.5 4l1.8 16h7.4L17.5 4M7.6 13h8.8M8.3 16.5h7.4"),
        (Page::LookUp, "Look up", "M8 3h8v13l-4 5-4-5zM10.5 7h3M10.5 10.5h3"),
        (Page::Settings, "Settings", "M4 8h9M17 8h3M15 5.5v5M4 16h3M11 16h9M9 13.5v5"),
    ];
    view! {
        <nav class="places" aria-label="Places">
            {PLACES
                .into_iter()
                .map(|(to, name, sign)| {
                    let here = move || {
                        let now = page.get();
                        now == to || (to == Page::Reckon && now == Page::Mix)
                    };
                    view! {
                        <a href=to.address() aria-current=move || here().then_some("page")>
                            <svg viewBox="0 0 24 24" aria-hidden="true"><path d=sign/></svg>
                            <span>{name}</span>
                        </a>
                    }
                })
                .collect_view()}
        </nav>
    }
}

/// Light or dark, and the size of text, on the page's root.
fn dress_page(stored: Stored) {
    Effect::new(move |_| {
        let Some(root) = document().document_element() else { return };
        let settings = stored.settings();
        let scheme = match settings.scheme {
            Scheme::Auto => None,
            Scheme::Light => Some("light"),
            Scheme::Dark => Some("dark"),
        };
        let text = match settings.text_size {
            TextSize::Normal => None,
            TextSize::Large => Some("large"),
            TextSize::Largest => Some("largest"),
        };
        for (name, value) in [("data-scheme", scheme), ("data-text", text)] {
            let _ = match value {
                Some(value) => root.set_attribute(name, value),
                None => root.remove_attribute(name),
            };
        }
    });
}

