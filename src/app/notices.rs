//! Sentences at the head of the page, and what can be done about each.

use leptos::prelude::*;

use super::live::{inside, pressed_in};
use super::markup::Markup;
use super::stored::Stored;

/// Keeps the notices of a place: those that `first` writes, then the sentences that are told. The
/// button of one that `first` has written is told to `act`.
pub fn keep(
    id: &'static str,
    stored: Stored,
    first: impl Fn(&mut Markup) + 'static,
    act: impl Fn(&str) + 'static,
) {
    inside(id, move || {
        let mut markup = Markup::new();
        first(&mut markup);
        stored.notices.with(|all| {
            for (place, sentence) in all.iter().enumerate() {
                write(&mut markup, sentence, "I have read it", &place.to_string());
            }
        });
        markup.done()
    });
    pressed_in(id, move |button| {
        let done = button.get_attribute("data-do").unwrap_or_default();
        match done.parse::<usize>() {
            Ok(place) => stored.notices.update(|all| {
                if place < all.len() {
                    all.remove(place);
                }
            }),
            Err(_) => act(&done),
        }
    });
}

/// Writes a sentence and the button that answers it.
pub fn write(markup: &mut Markup, sentence: &str, answer: &str, act: &str) {
    let button = [("type", "button"), ("class", "quiet"), ("data-do", act)];
    markup.within("p", &[("class", "notice")], &mut |notice| {
        notice
            .element("span", &[], sentence)
            .element("button", &button, answer);
    });
}
