//! The frame around every page: name, places to go, notices.

use leptos::prelude::*;

use super::errands::Errands;
use super::install::Install;
use super::pages::{look_up::LookUp, mix::MixPage, reckon::ReckonPage, settings::SettingsPage};
use super::route::{self, Page};
use super::stored::Stored;
use super::version::Version;
use super::widgets::{listed, shown};
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
                {shown(move || version.is_waiting(), move || {
                    notice("A new version of Longtom is ready on this device.".to_owned(), "Change over", Callback::new(move |()| version.change_over()))
                })}
                {listed(move || stored.notices.with(Vec::len), move |place| {
                    let sentence = stored.notices.with_untracked(|all| all.get(place).cloned()).unwrap_or_default();
                    let read = sentence.clone();
                    let forget = move |()| stored.notices.update(|all| all.retain(|other| *other != read));
                    notice(sentence, "I have read it", Callback::new(forget))
                })}
            </div>
            {shown(move || stored.ready.get(), move || page_view(page))}
        </main>
    }
}

/// The page, made anew when the place changes.
fn page_view(page: Memo<Page>) -> AnyView {
    let view: Box<dyn Fn() -> AnyView + Send> = Box::new(move || match page.get() {
        Page::Reckon => view! { <ReckonPage/> }.into_any(),
        Page::Mix => view! { <MixPage/> }.into_any(),
        Page::LookUp => view! { <LookUp/> }.into_any(),
        Page::Settings => view! { <SettingsPage/> }.into_any(),
    });
    view.into_any()
}

/// A sentence at the head of the page, and what can be done about it.
fn notice(sentence: String, answer: &'static str, act: Callback<()>) -> AnyView {
    view! {
        <p class="notice">
            <span>{sentence}</span>
            <button class="quiet" on:click=move |_| act.run(())>{answer}</button>
        </p>
    }
    .into_any()
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
        (
            Page::Reckon,
            "Reckon",
            "M5 4h14M6.5 4l1.8 16h7.4L17.5 4M7.6 13h8.8M8.3 16.5h7.4",
        ),
        (
            Page::LookUp,
            "Look up",
            "M8 3h8v13l-4 5-4-5zM10.5 7h3M10.5 10.5h3",
        ),
        (
            Page::Settings,
            "Settings",
            "M4 8h9M17 8h3M15 5.5v5M4 16h3M11 16h9M9 13.5v5",
        ),
    ];
    view! {
        <nav class="places" aria-label="Places">
            {PLACES
                .into_iter()
                .map(|(to, name, sign)| {
                    let here = Signal::derive(move || {
                        let now = page.get();
                        if now == to || (to == Page::Reckon && now == Page::Mix) { "page" } else { "false" }.to_owned()
                    });
                    view! {
                        <a href=to.address() aria-current=here>
                            <svg viewBox="0 0 24 24" aria-hidden="true"><path d=sign/></svg>
                            <span>{name}</span>
                        </a>
                    }
                    .into_any()
                })
                .collect::<Vec<AnyView>>()}
        </nav>
    }
}

/// Light or dark, and the size of text, on the page's root.
fn dress_page(stored: Stored) {
    Effect::new(move |_| {
        let Some(root) = document().document_element() else {
            return;
        };
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
