//! Settings and last questions as signals, from and to what is kept on this device.

use std::rc::Rc;
use std::time::Duration;

use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;
use web_sys::Event;

use super::live::{heard_on, meanwhile};
use crate::keep::browser::{AnyShelf, Change, on_hiding, open, watch};
use crate::keep::{Cabinet, DocumentId, KeepProblem, Kind, LastQuestion, Notice, Saved, Settings};
use crate::measure::NumberStyle;

/// Waits so long after the last key before a question is saved.
const SAVED_AFTER: Duration = Duration::from_millis(300);
/// Another tab would have to save between every two of our steps for this many not to do.
const TRIES: usize = 5;
/// Settings have one document.
const THE_SETTINGS: &str = "";

type Write = Rc<dyn Fn()>;
type OnDocument = Rc<dyn Fn(DocumentId)>;

/// Told to the whole page when one of its two programs has saved the settings.
const SETTINGS_SAVED: &str = "longtom-settings";

/// Told to the whole page when there may be room again for what found none.
pub const ROOM_MADE: &str = "longtom-room";

/// Tells the whole page that there may be room again for what found none.
pub fn room_made() {
    if let Ok(made) = Event::new(ROOM_MADE) {
        let _ = window().dispatch_event(&made);
    }
}

/// What is kept, on the screen's side.
#[derive(Clone, Copy)]
pub struct Stored {
    cabinet: StoredValue<Option<Cabinet<AnyShelf>>, LocalStorage>,
    /// A save that waits for the typing to pause.
    waiting: StoredValue<Option<(TimeoutHandle, Write)>, LocalStorage>,
    settings: RwSignal<Settings>,
    /// Sentences to be told at the top of the page.
    pub notices: RwSignal<Vec<String>>,
    /// Whether what is kept has been loaded.
    pub ready: RwSignal<bool>,
    /// Hears of what another tab has saved, but for the settings.
    on_document: StoredValue<Option<OnDocument>, LocalStorage>,
    /// Goes up when texts have been set aside or discarded.
    pub asides_changed: RwSignal<u32>,
}

/// What is kept, from wherever it was provided.
#[must_use]
pub fn stored() -> Stored {
    expect_context()
}

impl Stored {
    /// Begins loading, and provides itself to the whole page.
    #[must_use]
    pub fn provide() -> Self {
        let stored = Self {
            cabinet: StoredValue::new_local(None),
            waiting: StoredValue::new_local(None),
            settings: RwSignal::new(Settings::default()),
            notices: RwSignal::new(Vec::new()),
            ready: RwSignal::new(false),
            on_document: StoredValue::new_local(None),
            asides_changed: RwSignal::new(0),
        };
        provide_context(stored);
        meanwhile(async move {
            let (cabinet, notice) = open().await;
            stored.tell_all(notice);
            let loaded = cabinet.load::<Settings>(THE_SETTINGS).await;
            stored.cabinet.set_value(Some(cabinet));
            stored.settings.set(loaded.document);
            stored.tell_all(loaded.notices);
            stored.ready.set(true);
        });
        stored.listen();
        stored
    }

    /// Saves at once what waits when the page is hidden, and sees what other tabs save.
    fn listen(self) {
        match on_hiding(move || self.save_now()) {
            Ok(watching) => {
                StoredValue::new_local(watching);
            }
            Err(problem) => self.tell(problem.to_string()),
        }
        heard_on(
            &window(),
            SETTINGS_SAVED,
            Box::new(move |_| self.load_settings()),
        );
        let seen = move |change| match change {
            Change::Document(document) if document.kind == Kind::Settings => self.load_settings(),
            Change::Document(document) => {
                if let Some(hear) = self.on_document.get_value() {
                    hear(document);
                }
            }
            Change::Asides => {
                self.asides_changed.update(|count| *count += 1);
                room_made();
            }
            Change::Cleared | Change::Foreign => room_made(),
        };
        match watch(seen) {
            Ok(watching) => {
                StoredValue::new_local(watching);
            }
            Err(problem) => self.tell(problem.to_string()),
        }
    }

    /// Loads the settings anew.
    fn load_settings(self) {
        meanwhile(async move {
            if let Some(cabinet) = self.cabinet.get_value() {
                let loaded = cabinet.load::<Settings>(THE_SETTINGS).await.document;
                if loaded != self.settings.get_untracked() {
                    self.settings.set(loaded);
                }
            }
        });
    }

    /// Hears of what another tab has saved, but for the settings.
    pub fn on_document(self, hear: impl Fn(DocumentId) + 'static) {
        self.on_document.set_value(Some(Rc::new(hear)));
    }

    /// Tells a sentence at the top of the page, once.
    pub fn tell(self, sentence: String) {
        self.notices.update(|notices| {
            if !notices.contains(&sentence) {
                notices.push(sentence);
            }
        });
    }

    /// Tells several.
    pub fn tell_all(self, notices: impl IntoIterator<Item = Notice>) {
        for notice in notices {
            self.tell(crate::keep::words::notice(&notice));
        }
    }

    fn tell_problem(self, problem: &KeepProblem) {
        self.tell(problem.to_string());
    }

    /// The settings.
    #[must_use]
    pub fn settings(self) -> Settings {
        self.settings.get()
    }

    /// The settings as they stand, for whoever need not be told when they change.
    #[must_use]
    pub fn settings_now(self) -> Settings {
        self.settings.get_untracked()
    }

    /// How numbers are printed here.
    #[must_use]
    pub fn style(self) -> NumberStyle {
        NumberStyle::for_mark(self.settings.with(|settings| settings.decimal))
    }

    /// Changes the settings here and on the device. If another tab has changed them meanwhile, the
    /// change is made to what that tab has saved.
    pub fn change_settings(self, change: Rc<dyn Fn(&mut Settings)>) {
        self.settings.update(|settings| change(settings));
        let Some(cabinet) = self.cabinet.get_value() else {
            return;
        };
        meanwhile(async move {
            for _ in 0..TRIES {
                match cabinet
                    .save(THE_SETTINGS, &self.settings.get_untracked())
                    .await
                {
                    Ok(Saved::Kept) => {
                        if let Ok(saved) = Event::new(SETTINGS_SAVED) {
                            let _ = window().dispatch_event(&saved);
                        }
                        return;
                    }
                    Ok(Saved::ChangedElsewhere(mut newer)) => {
                        change(&mut newer);
                        self.settings.set(newer);
                    }
                    Err(problem) => return self.tell_problem(&problem),
                }
            }
        });
    }

    /// Remembers the unit chosen for a field or a quantity.
    pub fn choose_unit(self, name: String, key: String) {
        self.change_settings(Rc::new(move |settings: &mut Settings| {
            settings.units.insert(name.clone(), key.clone());
        }));
    }

    /// The last question of a page, if it has one.
    pub async fn last_question(self, page: &'static str) -> Option<LastQuestion> {
        let cabinet = self.cabinet.get_value()?;
        let loaded = cabinet.load::<LastQuestion>(page).await;
        self.tell_all(loaded.notices);
        loaded.stored.then_some(loaded.document)
    }

    /// Saves the last question of a page once the typing pauses.
    pub fn save_question(self, page: &'static str, last: LastQuestion) {
        let last = Rc::new(last);
        let write: Write = Rc::new(move || {
            let Some(cabinet) = self.cabinet.get_value() else {
                return;
            };
            let last = Rc::clone(&last);
            let first = cabinet.save(page, &*last);
            meanwhile(async move {
                // Made again on top of what another tab has saved: the last question typed is
                // the last question.
                let outcome = match first.await {
                    Ok(Saved::ChangedElsewhere(_)) => cabinet.save(page, &*last).await,
                    done => done,
                };
                if let Err(problem) = outcome {
                    self.tell_problem(&problem);
                }
            });
        });
        self.save_later(write);
    }

    /// Changes the last question of a page once the typing pauses, on top of whatever another tab has
    /// saved.
    pub fn change_question(self, page: &'static str, change: Rc<dyn Fn(&mut LastQuestion)>) {
        self.save_later(Rc::new(move || {
            let Some(cabinet) = self.cabinet.get_value() else {
                return;
            };
            let change = Rc::clone(&change);
            meanwhile(async move {
                for _ in 0..TRIES {
                    let before = cabinet.load::<LastQuestion>(page).await.document;
                    let mut now = before.clone();
                    change(&mut now);
                    if now == before {
                        return;
                    }
                    match cabinet.save(page, &now).await {
                        Ok(Saved::Kept) => return,
                        Ok(Saved::ChangedElsewhere(_)) => {}
                        Err(problem) => return self.tell_problem(&problem),
                    }
                }
            });
        }));
    }

    fn save_later(self, write: Write) {
        self.forget_waiting();
        let later = Rc::clone(&write);
        let saved = move || {
            self.waiting.set_value(None);
            later();
        };
        match set_timeout_with_handle(saved, SAVED_AFTER) {
            Ok(handle) => self.waiting.set_value(Some((handle, write))),
            Err(_) => write(),
        }
    }

    /// Saves what waits.
    pub fn save_now(self) {
        if let Some(write) = self.forget_waiting() {
            write();
        }
    }

    fn forget_waiting(self) -> Option<Write> {
        let waiting = self.waiting.try_update_value(Option::take).flatten();
        waiting.map(|(handle, write)| {
            handle.clear();
            write
        })
    }

    /// The cabinet, once it is open.
    #[must_use]
    pub fn cabinet(self) -> Option<Cabinet<AnyShelf>> {
        self.cabinet.get_value()
    }
}
