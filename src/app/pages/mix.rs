//! Mix: what goes into the pot, and how it will hold air and water there.

use std::rc::Rc;

use leptos::prelude::*;

use crate::app::desk::Desk;
use crate::app::markup::Markup;
use crate::app::plots::pot_cut::{pot_cut, pot_table};
use crate::app::route::Page;
use crate::app::stored::stored;
use crate::app::widgets::behind::{cautions, working};
use crate::app::widgets::figures::{Shown, answer_head, answer_line, figure_table};
use crate::app::widgets::form::QuestionForm;
use crate::app::widgets::paper::Paper;
use crate::app::widgets::strip::Strip;
use crate::app::widgets::{Read, shown};
use crate::measure::{NumberStyle, fixed, significant};
use crate::reckon::Reckoning;
use crate::reckon::answer::{Answer, Figure};
use crate::reckon::mix::{Detail, Mix, Purchase};

/// Figures before those of the single parts: the rest of the outcome is the table of what to measure out.
const PART_FIGURE: &str = "litres_of_";
/// Anchor of the answer, for the strip.
const ANSWER: &str = "answer";

/// The page.
#[component]
pub fn MixPage() -> impl IntoView {
    let desk = Desk::<Mix>::open(Page::Mix);
    view! {
        <div class="desk">
            <div class="desk-head">
                <h1>"Mix"</h1>
                <p class="lead">{Mix::ASKS}</p>
                {shown(move || desk.before_link.with(Option::is_some), move || view! {
                    <p class="notice">
                        <span>"This link's mix has taken the place of your last one."</span>
                        <button
                            class="quiet"
                            on:click=move |_| {
                                if let Some(own) = desk.before_link.get_untracked() {
                                    desk.before_link.set(None);
                                    desk.question.set(own);
                                }
                            }
                        >
                            "Bring mine back"
                        </button>
                    </p>
                }.into_any())}
            </div>
            <AnswerCard desk/>
            <QuestionForm asked=Rc::new(desk)/>
        </div>
    }
}

/// The answer: the card, and what to do with it.
#[component]
fn AnswerCard(desk: Desk<Mix>) -> impl IntoView {
    let stored = stored();
    let shown = Memo::new(move |_| Shown::by(&stored.settings()));
    // What is read of the answer, by whoever writes it down; nothing where there is none yet.
    let read = move |write: fn(&Answer<Detail>, &Shown) -> String| {
        Signal::derive(move || {
            desk.answer.with(|answer| {
                answer.as_ref().map_or_else(String::new, |answer| {
                    shown.with(|shown| write(answer, shown))
                })
            })
        })
    };
    let finding = Memo::new(move |_| desk.finding.get().is_some());
    let head = Signal::derive(move || {
        desk.answer.with(|answer| match answer {
            Some(answer) => shown.with(|shown| answer_head(answer, shown, finding.get())),
            None => NO_ANSWER.to_owned(),
        })
    });
    let stale = Signal::derive(move || desk.stale());
    let none = Signal::derive(move || desk.answer.with(Option::is_none));
    view! {
        <div class="answers" class:stale=stale>
            <section class="answer" id=ANSWER aria-label="The answer">
                <p class="last-good" role="status" hidden=Signal::derive(move || !stale.get() || none.get())>
                    "The question cannot be answered as it stands. This is the answer to your last good one."
                </p>
                <Read markup=head class="answer-head"/>
                <Slow desk/>
                <figure class="drawing" hidden=none>
                    <Read markup=read(drawing) class="drawn"/>
                    <details class="behind">
                        <summary>"The drawing as a table"</summary>
                        <Read markup=read(|answer, shown| pot_table(&answer.detail, shown.style)) class="table"/>
                    </details>
                </figure>
            </section>
            <section class="doing" aria-label="What to do" hidden=none>
                <Read markup=read(|answer, _| cautions(&answer.cautions)) class="cautions"/>
                <Read markup=read(shopping) class="table"/>
                <details class="behind">
                    <summary>"All figures"</summary>
                    <Read markup=read(all_figures) class="table"/>
                </details>
                <details class="behind">
                    <summary>"Working and sources"</summary>
                    <Read markup=read(|answer, _| working(&answer.working)) class="worked"/>
                </details>
                <Paper/>
            </section>
        </div>
        <Strip
            line=Signal::derive(move || {
                desk.answer
                    .with(|answer| {
                        answer
                            .as_ref()
                            .map_or_else(String::new, |answer| shown.with(|shown| answer_line(answer, shown, stale.get())))
                    })
            })
            stale
            to=ANSWER
        />
    }
}

/// Where no question has been answered yet.
const NO_ANSWER: &str = "<p class=\"none\">Put the question right, and the answer stands here.</p>";

fn drawing(answer: &Answer<Detail>, shown: &Shown) -> String {
    pot_cut(&answer.detail, answer.detail.in_tray, shown.style)
}

fn all_figures(answer: &Answer<Detail>, shown: &Shown) -> String {
    figure_table(
        answer
            .figures
            .iter()
            .skip(1)
            .filter(|figure| !is_of_part(figure)),
        shown,
    )
}

fn is_of_part(figure: &Figure) -> bool {
    figure.name.name.starts_with(PART_FIGURE)
}

/// How far the finding of the range is, where it takes long, and the way to stop it.
#[component]
fn Slow(desk: Desk<Mix>) -> impl IntoView {
    view! {
        <p class="slow" hidden=Signal::derive(move || desk.finding.get().is_none())>
            <progress
                max="1"
                prop:value=Signal::derive(move || desk.finding.get().unwrap_or(1.0))
                aria-label="Finding the range"
            ></progress>
            <button type="button" class="quiet" on:click=move |_| desk.stop()>"Stop"</button>
        </p>
    }
}

/// What to measure out and what to buy.
fn shopping(answer: &Answer<Detail>, shown: &Shown) -> String {
    let mut markup = Markup::new();
    let caption = "Measure out, loose and damp, for all pots";
    markup.table(
        "shopping",
        caption,
        &["Material", "Measure out", "Bags"],
        &mut |rows| {
            let parts = answer.figures.iter().filter(|figure| is_of_part(figure));
            for (figure, purchase) in parts.zip(&answer.detail.shopping) {
                let text = shown.text(figure);
                rows.within("tr", &[], &mut |row| {
                    row.element(
                        "th",
                        &[("scope", "row")],
                        figure.name.label.trim_end_matches(" to measure out"),
                    )
                    .within("td", &[], &mut |cell| {
                        cell.text(&text.best).element(
                            "small",
                            &[],
                            text.span.as_deref().unwrap_or_default(),
                        );
                    })
                    .element("td", &[], &bags(purchase, shown.style));
                });
            }
        },
    );
    markup.done()
}

/// "2 bags of 70 L, 9 L left over; 3 to be 9 in 10 sure".
fn bags(purchase: &Purchase, style: NumberStyle) -> String {
    let count = |bags: f64| {
        if bags == 1.0 {
            "1 bag".to_owned()
        } else {
            [&fixed(bags, 0, style), " bags"].concat()
        }
    };
    let sure = if purchase.bags_to_be_sure > purchase.bags {
        [
            "; ",
            &fixed(purchase.bags_to_be_sure, 0, style),
            " to be 9 in 10 sure",
        ]
        .concat()
    } else {
        String::new()
    };
    [
        &count(purchase.bags),
        " of ",
        &significant(purchase.bag_litres, 3, style),
        " L, ",
        &significant(purchase.left_over_litres, 2, style),
        " L left over",
        &sure,
    ]
    .concat()
}
