//! A long choice: a sheet over the page, found by typing a part of the name.

use web_sys::{HtmlDialogElement, HtmlElement, HtmlInputElement};

use crate::app::live::element;
use crate::app::markup::Markup;
use crate::reckon::form::{Field, Item, Takes};

/// A sheet that is open.
pub struct Sheet {
    dialog: HtmlDialogElement,
    path: String,
    items: Vec<Item>,
    chosen: String,
}

const SEARCH: &str = "sheet-search";
const LIST: &str = "sheet-list";

impl Sheet {
    /// Opens the list of a field, if it has one, with the cursor where the name is typed.
    #[must_use]
    pub fn open(dialog: HtmlDialogElement, field: Field, chosen: String) -> Option<Self> {
        let Takes::Many { heading, items } = field.takes else {
            return None;
        };
        let sheet = Self {
            dialog,
            path: field.path,
            items: items(),
            chosen,
        };
        let mut markup = Markup::new();
        markup.within("div", &[("class", "sheet-head")], &mut |head| {
            head.element("label", &[("for", SEARCH)], heading)
                .element("button", &[("type", "button"), ("class", "quiet")], "Close")
                .alone(
                    "input",
                    &[
                        ("id", SEARCH),
                        ("type", "text"),
                        ("autocomplete", "off"),
                        ("placeholder", "Type a part of the name"),
                    ],
                );
        });
        markup.mark("div", &[("id", LIST), ("class", "sheet-list")]);
        sheet.dialog.set_inner_html(&markup.done());
        let _ = sheet.dialog.set_attribute("aria-label", heading);
        sheet.find();
        sheet.dialog.show_modal().ok()?;
        if let Some(search) = element::<HtmlElement>(SEARCH) {
            let _ = search.focus();
        }
        Some(sheet)
    }

    /// Path of the field that it is open for.
    #[must_use]
    pub fn path(&self) -> &str {
        &self.path
    }

    /// Shows those of the list whose names hold every word typed.
    pub fn find(&self) {
        let typed = element::<HtmlInputElement>(SEARCH)
            .map(|search| search.value())
            .unwrap_or_default();
        if let Some(list) = element::<HtmlElement>(LIST) {
            list.set_inner_html(&written(
                &self.items,
                &typed.to_ascii_lowercase(),
                &self.chosen,
            ));
        }
    }

    /// Closes it.
    pub fn close(&self) {
        self.dialog.close();
    }
}

fn written(items: &[Item], typed: &str, chosen: &str) -> String {
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
            let attributes = [
                ("type", "button"),
                ("data-key", &item.key as &str),
                ("aria-pressed", pressed),
            ];
            list.within("li", &[], &mut |row| {
                row.within("button", &attributes, &mut |button| {
                    button.element("span", &[], &item.name).text(" ").element(
                        "small",
                        &[],
                        &item.note,
                    );
                });
            });
        }
    });
    if none {
        markup.element(
            "p",
            &[("class", "none")],
            "Nothing has that in its name. Try a shorter part of it.",
        );
    }
    markup.done()
}
