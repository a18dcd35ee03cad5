//! A choice among few, all in sight. Choices go by their place in the list.

use web_sys::{Element, Event, HtmlInputElement};

use crate::app::live::{element, target};
use crate::app::markup::Markup;

/// Writes a group of choices: what is chosen, the name of the group, the words of the choices.
pub fn write(markup: &mut Markup, legend: &str, name: &str, words: &[String]) {
    markup.within("fieldset", &[("class", "few")], &mut |few| {
        few.element("legend", &[], legend);
        for (place, words) in words.iter().enumerate() {
            let id = id_of(name, place);
            few.within("div", &[], &mut |row| {
                row.alone("input", &[("type", "radio"), ("id", &id), ("name", name)])
                    .element("label", &[("for", &id)], words);
            });
        }
    });
}

/// Shows which choice of a group is made.
pub fn show(name: &str, place: usize) {
    if let Some(input) = element::<HtmlInputElement>(&id_of(name, place)) {
        input.set_checked(true);
    }
}

/// The group and the place of the choice that an event made.
#[must_use]
pub fn made(event: &Event) -> Option<(String, usize)> {
    let id = target::<Element>(event)?.id();
    let (name, place) = id.rsplit_once('-')?;
    Some((name.to_owned(), place.parse().ok()?))
}

fn id_of(name: &str, place: usize) -> String {
    [name, "-", &place.to_string()].concat()
}
