//! Side by side: up to four questions of one reckoning, each with its drawing, and their figures
//! in one table. All of them stand in the address.

use std::rc::Rc;

use leptos::prelude::*;
use web_sys::Element;

use super::reckoning::{Beside, Sight};
use crate::app::errands::{Errands, News};
use crate::app::live::{inside, keep, meanwhile, pressed_in};
use crate::app::markup::Markup;
use crate::app::route::{self, Page, Place};
use crate::app::stored::{Stored, stored};
use crate::app::widgets::figures::Shown;
use crate::app::widgets::paper;
use crate::app::widgets::verdict::write_verdict;
use crate::keep::{LastQuestion, address};
use crate::measure::DecimalMark;
use crate::reckon::Reckoning;
use crate::reckon::answer::{Answer, Figure};
use crate::reckon::doubt::Doubt;
use crate::reckon::form::{Texts, put};

/// More than so many cannot be taken in at a glance.
const MOST: usize = 4;
/// What they are called, in their order.
const LETTERS: [&str; MOST] = ["A", "B", "C", "D"];
/// Under this name the questions are kept from one visit to the next.
const NAME: &str = "side-by-side";

/// Ids of what is live on the page.
const CARDS: &str = "beside-cards";
const TABLE: &str = "beside-table";

/// What a button does.
const OPEN: &str = "open";
const TAKE_OUT: &str = "take-out";

/// One of those that stand side by side.
struct Column<R: Reckoning> {
    asked: Texts,
    answer: Option<Answer<R::Detail>>,
}

/// Sets a question beside those that stand there already, and opens the page.
pub fn set(stored: Stored, question: Texts) {
    meanwhile(async move {
        let mut all = kept(stored).await;
        if !all.contains(&question) {
            if all.len() < MOST {
                all.push(question);
            } else {
                stored.tell(full());
            }
        }
        go(&all);
    });
}

fn full() -> String {
    "Four stand side by side already. Take one of them out, then set this one beside the others again.".to_owned()
}

/// The questions that stood side by side last.
async fn kept(stored: Stored) -> Vec<Texts> {
    let last = stored.last_question(NAME).await.unwrap_or_default();
    apart(last.question)
}

fn go(all: &[Texts]) {
    let address = address::write(&together(all));
    route::go(&[&Page::Beside.address(), "?", &address].concat());
}

/// Several questions as one, the paths of each under its number.
fn together(all: &[Texts]) -> Texts {
    let of = |(index, texts): (usize, &Texts)| -> Texts {
        let at = |path: &str| [&index.to_string(), ".", path].concat();
        texts
            .iter()
            .map(|(path, text)| (at(path), text.clone()))
            .collect()
    };
    all.iter().enumerate().flat_map(of).collect()
}

/// The questions that were put together; what is under no number is passed over.
fn apart(texts: Texts) -> Vec<Texts> {
    let mut all = vec![Texts::new(); MOST];
    for (path, text) in texts {
        if let Some((index, path)) = path.split_once('.')
            && let Some(place) = index
                .parse()
                .ok()
                .and_then(|index: usize| all.get_mut(index))
        {
            place.push((path.to_owned(), text));
        }
    }
    all.retain(|texts| !texts.is_empty());
    all
}

/// Opens the page.
pub fn open<R: Reckoning>(
    into: &Element,
    sight: &'static Sight<R::Detail>,
    beside: Beside<R::Detail>,
) {
    into.set_inner_html(&written(beside.lead));
    let called = beside.called;
    let stored = stored();
    let errands: StoredValue<Errands, LocalStorage> = expect_context();
    let place = expect_context::<ReadSignal<Place>>();
    let columns = RwSignal::new(Vec::<Column<R>>::new());
    keep(move || {
        let here = place.get();
        if here.page != Page::Beside {
            return;
        }
        let linked = address::read(&here.question).map(apart).unwrap_or_default();
        if linked.is_empty() && here.question.is_empty() {
            meanwhile(async move {
                let all = kept(stored).await;
                if !all.is_empty() {
                    go(&all);
                }
            });
        } else {
            show(columns, linked, here.question, stored, errands);
        }
    });
    on_cleanup(move || {
        errands.with_value(Errands::stop);
        stored.save_now();
    });
    inside(CARDS, move || {
        let shown = Shown::by(&stored.settings());
        columns.with(|columns| cards(columns, sight, called, &shown))
    });
    inside(TABLE, move || {
        let shown = Shown::by(&stored.settings());
        columns.with(|columns| table(columns, &shown))
    });
    pressed_in(CARDS, move |button| {
        let index = button.get_attribute("data-index");
        let Some(index) = index.and_then(|index| index.parse::<usize>().ok()) else {
            return;
        };
        let mut all: Vec<Texts> = columns
            .with_untracked(|columns| columns.iter().map(|column| column.asked.clone()).collect());
        if index >= all.len() {
            return;
        }
        match button.get_attribute("data-do").as_deref() {
            Some(OPEN) => {
                let question = address::write(&all[index]);
                route::go(&[&sight.page.address(), "?", &question].concat());
            }
            Some(TAKE_OUT) => {
                all.remove(index);
                if all.is_empty() {
                    // Remembered too, or the last one would be back.
                    remember(stored, String::new(), &all);
                    stored.save_now();
                    columns.set(Vec::new());
                    route::put_in_address(Page::Beside, "");
                } else {
                    go(&all);
                }
            }
            _ => {}
        }
    });
    paper::open();
}

fn remember(stored: Stored, address: String, all: &[Texts]) {
    let question = together(all);
    stored.save_question(NAME, LastQuestion { address, question });
}

/// Answers all, and sends for the doubt of one after the other.
fn show<R: Reckoning>(
    columns: RwSignal<Vec<Column<R>>>,
    all: Vec<Texts>,
    address: String,
    stored: Stored,
    errands: StoredValue<Errands, LocalStorage>,
) {
    let mark = stored.settings().decimal;
    remember(stored, address, &all);
    let answered = all.into_iter().map(|asked| Column {
        answer: answered::<R>(&asked, mark, None),
        asked,
    });
    columns.set(answered.collect());
    find(columns, 0, mark, errands);
}

fn find<R: Reckoning>(
    columns: RwSignal<Vec<Column<R>>>,
    index: usize,
    mark: DecimalMark,
    errands: StoredValue<Errands, LocalStorage>,
) {
    let asked = columns.with_untracked(|columns| {
        let rest = columns.iter().enumerate().skip(index);
        rest.filter(|(_, column)| column.answer.is_some())
            .map(|(index, column)| (index, column.asked.clone()))
            .next()
    });
    let Some((index, asked)) = asked else { return };
    let sent = asked.clone();
    let hear = move |news| match news {
        News::Under(_) => {}
        News::Found(doubt) => {
            let answer = answered::<R>(&asked, mark, Some(&doubt));
            columns.update(|columns| {
                if let Some(column) = columns.get_mut(index) {
                    column.answer = answer;
                }
            });
            find(columns, index + 1, mark, errands);
        }
        News::Refused(_) => find(columns, index + 1, mark, errands),
    };
    errands.with_value(|errands| errands.find::<R>(sent, mark, Rc::new(hear)));
}

/// The answer to a question, where it has one.
fn answered<R: Reckoning>(
    asked: &Texts,
    mark: DecimalMark,
    doubt: Option<&Doubt>,
) -> Option<Answer<R::Detail>> {
    let mut question = R::Question::default();
    put(&mut question, asked);
    let case = R::check(&question, mark).ok()?;
    R::answer(&case, doubt).ok()
}

fn written(lead: &str) -> String {
    let mut markup = Markup::new();
    markup.within("div", &[("class", "beside")], &mut |page| {
        page.element("h1", &[], "Side by side")
            .element("p", &[("class", "lead")], lead)
            .mark("div", &[("class", "cards"), ("id", CARDS)])
            .mark(
                "div",
                &[
                    ("class", "wide"),
                    ("id", TABLE),
                    ("tabindex", "0"),
                    ("role", "region"),
                    ("aria-label", "Their figures"),
                ],
            );
        paper::write(page, &[]);
    });
    markup.done()
}

fn cards<R: Reckoning>(
    columns: &[Column<R>],
    sight: &Sight<R::Detail>,
    called: fn(&Answer<R::Detail>) -> String,
    shown: &Shown,
) -> String {
    let mut markup = Markup::new();
    if columns.is_empty() {
        markup.within("p", &[("class", "none")], &mut |line| {
            line.text("Nothing stands here yet. Press “Set beside others” under an answer.");
        });
        let link = [("class", "button"), ("href", &sight.page.address() as &str)];
        markup.element("a", &link, &["Open ", sight.heading].concat());
    }
    for (index, (column, letter)) in columns.iter().zip(LETTERS).enumerate() {
        markup.within("article", &[("class", "card")], &mut |card| {
            card.element("h2", &[], letter);
            match &column.answer {
                Some(answer) => {
                    card.element("p", &[("class", "called")], &called(answer))
                        .within("p", &[], &mut |line| {
                            write_verdict(line, answer.judgement.verdict);
                        })
                        .within("div", &[("class", "drawing")], &mut |drawing| {
                            drawing.written(&(sight.drawing)(
                                answer,
                                shown,
                                &["pot-", letter].concat(),
                            ));
                        });
                }
                None => {
                    card.element(
                        "p",
                        &[("class", "none")],
                        "This question cannot be answered as it stands. Open it and put it right.",
                    );
                }
            }
            card.within("p", &[("class", "takeaway")], &mut |line| {
                for (does, what) in [(OPEN, "Open "), (TAKE_OUT, "Take out ")] {
                    let button = [
                        ("type", "button"),
                        ("class", "quiet"),
                        ("data-do", does),
                        ("data-index", &index.to_string() as &str),
                    ];
                    line.element("button", &button, &[what, letter].concat());
                }
            });
        });
    }
    markup.done()
}

/// All figures that any of them has, each in the order of the first that has it.
fn table<R: Reckoning>(columns: &[Column<R>], shown: &Shown) -> String {
    let mut markup = Markup::new();
    let answers: Vec<_> = columns
        .iter()
        .map(|column| column.answer.as_ref())
        .collect();
    let mut rows: Vec<&Figure> = Vec::new();
    for figure in answers.iter().flatten().flat_map(|answer| &answer.figures) {
        if !rows.iter().any(|row| row.name.name == figure.name.name) {
            rows.push(figure);
        }
    }
    if rows.is_empty() {
        return String::new();
    }
    let mut heads = vec!["What"];
    heads.extend(LETTERS.iter().take(columns.len()));
    let caption = "Best figures; below them what 8 in 10 lie within";
    markup.table("figures", caption, &heads, &mut |body| {
        for row in &rows {
            body.within("tr", &[], &mut |line| {
                line.element("th", &[("scope", "row")], &row.name.label);
                for answer in &answers {
                    let figure = answer.and_then(|answer| answer.figure(&row.name.name));
                    line.within("td", &[], &mut |cell| {
                        let Some(figure) = figure else {
                            cell.text("–");
                            return;
                        };
                        let text = shown.text(figure);
                        cell.text(&text.best).element(
                            "small",
                            &[],
                            text.span.as_deref().unwrap_or_default(),
                        );
                    });
                }
            });
        }
    });
    markup.done()
}
