//! What was typed into forms and not saved yet: all of it in one document, each draft under the tab
//! that holds it and the form that it belongs to.
//!
//! ```json
//! {"k3fq~new house/": "begun", "k3fq~new house/name": "Nor", "8xw2~k3fq.1.a2b4/": "begun"}
//! ```
//!
//! Two tabs may fill in the same form; each keeps its own. A tab that opens a form and has no draft of
//! it takes up the one that another has left.

use crate::nursery::Texts;
use crate::reckon::form;

/// Between the tab and the form.
const OF: char = '~';
/// Stands at the start of a draft, which may otherwise be empty: all fields may have been emptied.
const BEGUN: &str = "begun";

/// Under what a tab keeps its draft of a form. The form's name ends in `/`.
#[must_use]
pub fn key(tab: &str, form: &str) -> String {
    let mut key = tab.to_owned();
    key.push(OF);
    key.push_str(form);
    key
}

/// The key of the draft that a tab goes on with: its own, or else one that another tab has left.
#[must_use]
pub fn find<'a>(all: &'a form::Texts, tab: &str, form: &str) -> Option<&'a str> {
    let own = key(tab, form);
    let keys = || {
        let starts = all.iter().map(|(path, _)| path.as_str());
        // Drafts of earlier versions name no tab.
        starts.filter(|path| path.split_once(OF).map_or(*path, |(_, of)| of) == form)
    };
    keys()
        .find(|key| *key == own)
        .or_else(|| keys().next_back())
}

/// The draft of a key.
#[must_use]
pub fn texts(all: &form::Texts, key: &str) -> Texts {
    let fields = all.iter().filter_map(|(path, text)| {
        let field = path.strip_prefix(key)?;
        (!field.is_empty()).then_some((field, text.as_str()))
    });
    Texts::of(fields)
}

/// All drafts with this one under its key, or without it. The one that it was taken up from goes.
#[must_use]
pub fn with(all: &form::Texts, key: &str, taken_up: &str, draft: Option<&Texts>) -> form::Texts {
    let is_ours =
        |path: &str| path.starts_with(key) || (!taken_up.is_empty() && path.starts_with(taken_up));
    let mut now = form::Texts::new();
    let mut draft = draft;
    let mut put_draft = |now: &mut form::Texts| {
        if let Some(draft) = draft.take() {
            now.push((key.to_owned(), BEGUN.to_owned()));
            for (path, text) in draft.iter() {
                now.push(([key, path].concat(), text.to_owned()));
            }
        }
    };
    // In order, as they come back out of what is stored.
    for (path, text) in all {
        if is_ours(path) {
            continue;
        }
        if path.as_str() > key {
            put_draft(&mut now);
        }
        now.push((path.clone(), text.clone()));
    }
    put_draft(&mut now);
    now
}
