//! The page of any reckoning: the answer first, then the question, then what to do with the answer.

use std::rc::Rc;

use leptos::prelude::*;
use web_sys::Element;

use super::beside;
use crate::app::desk::Desk;
use crate::app::from_nursery::{self, answered};
use crate::app::live::{a_moment_after, attribute, hidden, inside, pressed, pressed_in};
use crate::app::markup::Markup;
use crate::app::notices;
use crate::app::route::Page;
use crate::app::stored::stored;
use crate::app::widgets::behind::{cautions, working};
use crate::app::widgets::figures::{Shown, answer_head, answer_line};
use crate::app::widgets::{form, paper, strip};
use crate::reckon::Reckoning;
use crate::reckon::answer::Answer;
use crate::reckon::form::{Texts, make_portable, texts};

/// Writes a part of an answer.
pub type Writes<Detail> = fn(&Answer<Detail>, &Shown) -> String;
/// Draws an answer; the name keeps apart what is drawn twice on one page.
pub type Draws<Detail> = fn(&Answer<Detail>, &Shown, &str) -> String;

/// Several questions of one reckoning, side by side.
pub struct Beside<Detail: 'static> {
    /// What may stand there.
    pub lead: &'static str,
    /// What the question of an answer is about, in one line.
    pub called: fn(&Answer<Detail>) -> String,
}

/// What the page of one reckoning shows of its own.
pub struct Sight<Detail: 'static> {
    /// The page.
    pub page: Page,
    /// Its heading.
    pub heading: &'static str,
    /// How several stand side by side, where they may.
    pub beside: Option<Beside<Detail>>,
    /// What the record keeps of its answer beyond its figures, where it keeps the answer and not the question
    /// alone.
    pub keeps: Option<fn(&Detail) -> Texts>,
    /// The drawing.
    pub drawing: Draws<Detail>,
    /// The same as a table.
    pub drawing_as_table: Writes<Detail>,
    /// What to do: measure out, buy, lay.
    pub doing: Writes<Detail>,
    /// All its figures.
    pub figures: Writes<Detail>,
}

/// Ids of what is live on the page.
const DESK: &str = "desk";
const LINKED: &str = "linked";
const ANSWER: &str = "answer";
const LAST_GOOD: &str = "last-good";
const HEAD: &str = "answer-head";
const SLOW: &str = "slow";
const SLOW_BAR: &str = "slow-bar";
const SLOW_STOP: &str = "slow-stop";
const DRAWING: &str = "drawing";
/// Id of what the drawing is written into.
pub const DRAWN: &str = "drawn";
const DRAWN_AS_TABLE: &str = "drawn-as-table";
const DOING: &str = "doing";
const CAUTIONS: &str = "cautions";
const TO_DO: &str = "to-do";
const FIGURES: &str = "figures";
const WORKED: &str = "worked";
const BESIDE: &str = "set-beside";

/// Where no question has been answered yet.
const NO_ANSWER: &str = "<p class=\"none\">Put the question right, and the answer stands here.</p>";

/// Opens the page; its desk comes back, for what a page hears by itself.
pub fn open<R: Reckoning>(into: &Element, sight: &'static Sight<R::Detail>) -> Desk<R> {
    into.set_inner_html(&written(sight.heading, R::ASKS, sight.beside.is_some()));
    let desk = Desk::<R>::open(sight.page);
    form::open(Rc::new(desk));
    let stored = stored();
    inside(DRAWN, move || {
        desk.answer.with(|answer| {
            answer.as_ref().map_or_else(String::new, |answer| {
                (sight.drawing)(answer, &Shown::by(&stored.settings()), DRAWN)
            })
        })
    });
    let drawn = a_moment_after(move || {
        desk.answer.track();
        let _ = stored.settings();
    });
    // What is read of the answer, by whoever writes it down; nothing where there is none yet.
    let read = move |id: &'static str, write: Writes<R::Detail>| {
        inside(id, move || {
            drawn.over.track();
            desk.answer.with_untracked(|answer| {
                answer.as_ref().map_or_else(String::new, |answer| {
                    write(answer, &Shown::by(&stored.settings_now()))
                })
            })
        });
    };
    read(DRAWN_AS_TABLE, sight.drawing_as_table);
    read(CAUTIONS, |answer, _| cautions(&answer.cautions));
    read(TO_DO, sight.doing);
    read(FIGURES, sight.figures);
    read(WORKED, |answer, _| working(&answer.working));
    inside(HEAD, move || {
        desk.answer.with(|answer| match answer {
            Some(answer) => {
                let finding = desk.finding.with(Option::is_some);
                answer_head(answer, &Shown::by(&stored.settings()), finding)
            }
            None => NO_ANSWER.to_owned(),
        })
    });
    strip::open(
        ANSWER,
        move || {
            desk.answer.with(|answer| {
                answer.as_ref().map_or_else(String::new, |answer| {
                    answer_line(answer, &Shown::by(&stored.settings()), desk.stale())
                })
            })
        },
        move || desk.stale(),
    );

    let none = move || desk.answer.with(Option::is_none);
    hidden(DRAWING, none);
    hidden(DOING, none);
    hidden(LAST_GOOD, move || !desk.stale() || none());
    attribute(DESK, "aria-busy", move || {
        drawn.under_way.get().then(|| "true".to_owned())
    });
    if let Some(beyond) = sight.keeps {
        attribute(from_nursery::PLACE, answered::ANSWERED, move || {
            if drawn.under_way.get() || desk.stale() || desk.finding.with(Option::is_some) {
                return None;
            }
            desk.answer.with_untracked(|answer| {
                let shown = Shown::by(&stored.settings_now());
                answer
                    .as_ref()
                    .map(|answer| answered::written(answer, &shown, beyond(&answer.detail)))
            })
        });
    }
    attribute(DESK, "data-stale", move || desk.stale().then(String::new));
    hidden(SLOW, move || desk.finding.with(Option::is_none));
    attribute(SLOW_BAR, "value", move || {
        desk.finding.get().map(|share| share.to_string())
    });
    pressed(SLOW_STOP, move || desk.stop());
    keep_linked(desk);
    paper::open();
    if sight.beside.is_some() {
        pressed(BESIDE, move || {
            let mut question = desk.question.get_untracked();
            make_portable(&mut question, stored.settings_now().decimal);
            stored.save_now();
            beside::set(stored, texts(&mut question));
        });
    }
    desk
}

/// Says that the question of a link has taken the place of the grower's own, and brings it back.
fn keep_linked<R: Reckoning>(desk: Desk<R>) {
    inside(LINKED, move || {
        let mut markup = Markup::new();
        if desk.before_link.with(Option::is_some) {
            notices::write(
                &mut markup,
                "This link's question has taken the place of your last one.",
                "Bring mine back",
                "",
            );
        }
        markup.done()
    });
    pressed_in(LINKED, move |_| {
        if let Some(own) = desk.before_link.get_untracked() {
            desk.before_link.set(None);
            desk.question.set(own);
        }
    });
}

fn written(heading: &str, asks: &str, has_beside: bool) -> String {
    let mut markup = Markup::new();
    markup.within("div", &[("class", "desk"), ("id", DESK)], &mut |desk| {
        desk.within("div", &[("class", "desk-head")], &mut |head| {
            head.element("h1", &[], heading)
                .element("p", &[("class", "lead")], asks)
                .mark("div", &[("id", LINKED)]);
        });
        write_answer(desk);
        desk.within("div", &[("class", "asked")], &mut |asked| {
            form::write(asked);
            asked.mark(
                "div",
                &[("class", "from-nursery"), ("id", from_nursery::PLACE)],
            );
        });
        write_doing(desk, has_beside);
    });
    strip::write(&mut markup);
    markup.done()
}

fn write_answer(markup: &mut Markup) {
    let section = [
        ("class", "answer"),
        ("id", ANSWER),
        ("aria-label", "The answer"),
    ];
    markup.within("section", &section, &mut |answer| {
        let slow = [("class", "slow"), ("id", SLOW), ("hidden", "")];
        let bar = [
            ("id", SLOW_BAR),
            ("max", "1"),
            ("aria-label", "Finding the range"),
        ];
        answer
            .element(
                "p",
                &[
                    ("class", "last-good"),
                    ("id", LAST_GOOD),
                    ("role", "status"),
                    ("hidden", ""),
                ],
                "The question cannot be answered as it stands. This is the answer to your last good one.",
            )
            .mark("div", &[("class", "answer-head"), ("id", HEAD)])
            .within("p", &slow, &mut |slow| {
                slow.mark("progress", &bar).element(
                    "button",
                    &[("type", "button"), ("class", "quiet"), ("id", SLOW_STOP)],
                    "Stop",
                );
            })
            .within(
                "figure",
                &[("class", "drawing"), ("id", DRAWING)],
                &mut |figure| {
                    figure.mark("div", &[("id", DRAWN)]);
                    write_behind(figure, "The drawing as a table", DRAWN_AS_TABLE);
                },
            );
    });
}

fn write_doing(markup: &mut Markup, has_beside: bool) {
    let section = [
        ("class", "doing"),
        ("id", DOING),
        ("aria-label", "What to do"),
    ];
    markup.within("section", &section, &mut |doing| {
        doing
            .mark("div", &[("class", "cautions"), ("id", CAUTIONS)])
            .mark("div", &[("id", TO_DO)]);
        write_behind(doing, "All figures", FIGURES);
        write_behind(doing, "Working and sources", WORKED);
        let more: &[_] = if has_beside {
            &[(BESIDE, "Set beside others")]
        } else {
            &[]
        };
        paper::write(doing, more);
    });
}

/// What is looked at more seldom.
fn write_behind(markup: &mut Markup, summary: &str, id: &str) {
    markup.within("details", &[("class", "behind")], &mut |details| {
        details
            .element("summary", &[], summary)
            .mark("div", &[("id", id)]);
    });
}
