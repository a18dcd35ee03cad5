//! Mix: what goes into the pot, and how it will hold air and water there.

use leptos::prelude::*;

use crate::app::desk::Desk;
use crate::app::markup::Markup;
use crate::app::plots::pot_cut::{pot_cut, pot_table};
use crate::app::route::Page;
use crate::app::stored::stored;
use crate::app::widgets::behind::{cautions, working};
use crate::app::widgets::choice::{Choice, Item};
use crate::app::widgets::field::{NumberField, Problem, Units};
use crate::app::widgets::figures::{Shown, answer_head, answer_line, figure_table};
use crate::app::widgets::paper::Paper;
use crate::app::widgets::strip::Strip;
use crate::app::widgets::{Read, listed, shown};
use crate::handbook::materials::MATERIALS;
use crate::handbook::pots::{POTS, pot};
use crate::handbook::thresholds::LIMITS;
use crate::measure::{Entry, Length, NumberStyle, Volume, fixed, significant};
use crate::reckon::Reckoning;
use crate::reckon::answer::{Answer, Figure};
use crate::reckon::mix::{
    Detail, MOST_PARTS, Mix, OWN_ROUND, OWN_SQUARE, OWN_VOLUME, PartAsked, PotAsked, Purchase, Question,
};

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
            <QuestionSlip desk/>
        </div>
    }
}

/// The question.
#[component]
fn QuestionSlip(desk: Desk<Mix>) -> impl IntoView {
    view! {
        <form class="question" aria-label="The question" on:submit=|event| event.prevent_default()>
            <Parts desk/>
            <Pot desk/>
            <Purpose desk/>
            <NumberField
                path="pots"
                label="Number of pots"
                entry=Signal::derive(move || desk.question.with(|question| question.pots.clone()))
                change=Callback::new(move |entry| desk.question.update(|question| question.pots = entry))
                units=Units::none()
                problem=desk.problem_at("pots".to_owned())
                step=1.0
            />
            <details class="more">
                <summary>"More of the question"</summary>
                <Bags desk/>
            </details>
        </form>
    }
}

/// One part, or an empty one where it has just been taken away.
fn part(desk: Desk<Mix>, index: usize) -> PartAsked {
    desk.question.with(|question| question.parts.get(index).cloned().unwrap_or_default())
}

fn change_part(desk: Desk<Mix>, index: usize, change: impl FnOnce(&mut PartAsked)) {
    desk.question.update(|question| {
        if let Some(part) = question.parts.get_mut(index) {
            change(part);
        }
    });
}

/// The name of the material of a part, for labels.
fn part_name(desk: Desk<Mix>, index: usize) -> String {
    let key = part(desk, index).material;
    MATERIALS
        .iter()
        .find(|material| material.key == key)
        .map_or_else(|| format!("material {}", index + 1), |material| material.name.to_owned())
}

fn parts_of(desk: Desk<Mix>) -> usize {
    desk.question.with(|question| question.parts.len())
}

/// The parts of the mix.
#[component]
fn Parts(desk: Desk<Mix>) -> impl IntoView {
    let materials = StoredValue::new(
        MATERIALS
            .iter()
            .map(|material| Item {
                key: material.key,
                name: material.name.to_owned(),
                note: material.grade.to_owned(),
            })
            .collect::<Vec<_>>(),
    );
    let many = move || parts_of(desk);
    let problem = desk.problem_at("parts".to_owned());
    view! {
        <fieldset class="parts">
            <legend>"Parts by volume, loose"</legend>
            {listed(many, move |index| view! {
                <div class="part">
                    <Choice
                        path=format!("parts.{index}.material")
                        label=format!("Material {}", index + 1)
                        heading="Material"
                        items=materials
                        chosen=Signal::derive(move || part(desk, index).material)
                        choose=Callback::new(move |key: &'static str| {
                            change_part(desk, index, |part| key.clone_into(&mut part.material));
                        })
                        problem=desk.problem_at(format!("parts.{index}.material"))
                    />
                    <NumberField
                        path=format!("parts.{index}.amount")
                        label=Signal::derive(move || ["Parts of ", &part_name(desk, index)].concat())
                        entry=Signal::derive(move || part(desk, index).amount)
                        change=Callback::new(move |entry| change_part(desk, index, |part| part.amount = entry))
                        units=Units::none()
                        problem=desk.problem_at(format!("parts.{index}.amount"))
                        step=1.0
                    />
                    <button
                        type="button"
                        class="step"
                        aria-label=Signal::derive(move || ["Take out ", &part_name(desk, index)].concat())
                        hidden={Signal::derive(move || many() < 2)}
                        on:click=move |_| {
                            desk.question.update(|question| {
                                if index < question.parts.len() {
                                    question.parts.remove(index);
                                }
                            });
                        }
                    >
                        <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M7 7l10 10M17 7L7 17"/></svg>
                    </button>
                </div>
            }.into_any())}
            <Problem id="field-parts-problem" problem/>
            <button
                type="button"
                class="quiet"
                hidden={Signal::derive(move || many() >= MOST_PARTS)}
                on:click=move |_| desk.question.update(add_part)
            >
                "Add a material"
            </button>
        </fieldset>
    }
}

/// Adds one part of the first material that is not in the mix yet.
fn add_part(question: &mut Question) {
    let used = |key: &str| question.parts.iter().any(|part| part.material == key);
    let material = MATERIALS.iter().find(|material| !used(material.key)).map_or("", |material| material.key);
    let bag = question.parts.last().map_or_else(|| Entry::of(Volume::from_litres(70.0), &Volume::LITRE), |part| part.bag.clone());
    question.parts.push(PartAsked {
        material: material.to_owned(),
        amount: Entry::number(1.0),
        bag,
    });
}

/// The pot.
#[component]
fn Pot(desk: Desk<Mix>) -> impl IntoView {
    let style = NumberStyle::default();
    let size = |pot: &crate::handbook::pots::Pot| {
        let brim = pot.vessel().volume_to(pot.height).in_litres();
        [
            &significant(pot.rim.in_millimetres(), 3, style),
            " mm across, ",
            &significant(pot.height.in_millimetres(), 3, style),
            " mm tall, ",
            &significant(brim, 2, style),
            " L to the brim",
        ]
        .concat()
    };
    let own = |key, name: &str, note: &str| Item {
        key,
        name: name.to_owned(),
        note: note.to_owned(),
    };
    let pots = StoredValue::new(
        POTS.iter()
            .map(|pot| Item {
                key: pot.key,
                name: pot.name.to_owned(),
                note: size(pot),
            })
            .chain([
                own(OWN_ROUND, "my own, round", "measured inside at rim, base and height"),
                own(OWN_SQUARE, "my own, square", "measured inside at rim, base and height"),
                own(OWN_VOLUME, "my own, by volume", "a volume to the brim and a height, straight sides"),
            ])
            .collect::<Vec<_>>(),
    );
    let size = Memo::new(move |_| desk.question.with(|question| question.pot.size.clone()));
    let tapered = move || size.with(|size| size == OWN_ROUND || size == OWN_SQUARE);
    let own_size = move || size.with(|size| pot(size).is_none());
    let length = move |path: &'static str, label: &'static str, get: fn(&PotAsked) -> &Entry, set: fn(&mut PotAsked, Entry)| {
        view! {
            <NumberField
                path=path
                label=label
                entry=Signal::derive(move || desk.question.with(|question| get(&question.pot).clone()))
                change=Callback::new(move |entry| desk.question.update(|question| set(&mut question.pot, entry)))
                units={Units::of::<Length>(&["mm", "cm", "in"])}
                problem=desk.problem_at(path.to_owned())
                step=5.0
            />
        }
        .into_any()
    };
    view! {
        <Choice
            path="pot.size"
            label="Pot"
            heading="Pot"
            items=pots
            chosen=size
            choose=Callback::new(move |key: &'static str| {
                desk.question.update(|question| key.clone_into(&mut question.pot.size));
            })
            problem=desk.problem_at("pot.size".to_owned())
        />
        {shown(tapered, move || vec![
            length("pot.rim", "Across the rim, inside", |pot| &pot.rim, |pot, entry| pot.rim = entry),
            length("pot.base", "Across the base, inside", |pot| &pot.base, |pot, entry| pot.base = entry),
        ].into_any())}
        {shown(move || own_size() && !tapered(), move || view! {
            <NumberField
                path="pot.volume"
                label="Volume to the brim"
                entry=Signal::derive(move || desk.question.with(|question| question.pot.volume.clone()))
                change=Callback::new(move |entry| desk.question.update(|question| question.pot.volume = entry))
                units={Units::of::<Volume>(&["L", "mL", "gal"])}
                problem=desk.problem_at("pot.volume".to_owned())
                step=0.5
            />
        }.into_any())}
        {shown(own_size, move || vec![
            length("pot.height", "Height, inside", |pot| &pot.height, |pot, entry| pot.height = entry),
            length("pot.below_rim", "Space below the rim, once watered", |pot| &pot.below_rim, |pot, entry| pot.below_rim = entry),
        ].into_any())}
    }
}

/// What the pots are for.
#[component]
fn Purpose(desk: Desk<Mix>) -> impl IntoView {
    let problem = desk.problem_at("purpose".to_owned());
    let chosen = Signal::derive(move || desk.question.with(|question| question.purpose.clone()));
    let options = LIMITS
        .iter()
        .map(|limits| {
            let selected = Signal::derive(move || chosen.get() == limits.key);
            view! { <option value=limits.key selected=selected>{limits.name}</option> }.into_any()
        })
        .collect::<Vec<AnyView>>();
    view! {
        <div class="field" class:wrong=Signal::derive(move || problem.with(Option::is_some))>
            <label for="field-purpose">"What for"</label>
            <select
                id="field-purpose"
                prop:value=chosen
                aria-describedby="field-purpose-problem"
                on:change=move |event| {
                    let key = event_target_value(&event);
                    desk.question.update(|question| question.purpose = key);
                }
            >
                {options}
            </select>
            <Problem id="field-purpose-problem" problem/>
        </div>
    }
}

/// The bags that the materials come in.
#[component]
fn Bags(desk: Desk<Mix>) -> impl IntoView {
    view! {
        {listed(move || parts_of(desk), move |index| view! {
            <NumberField
                path=format!("parts.{index}.bag")
                label=Signal::derive(move || ["Bag of ", &part_name(desk, index)].concat())
                entry=Signal::derive(move || part(desk, index).bag)
                change=Callback::new(move |entry| change_part(desk, index, |part| part.bag = entry))
                units={Units::of::<Volume>(&["L", "gal", "m3", "ft3"])}
                problem=desk.problem_at(format!("parts.{index}.bag"))
                step=5.0
            />
        }.into_any())}
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
            desk.answer.with(|answer| answer.as_ref().map_or_else(String::new, |answer| shown.with(|shown| write(answer, shown))))
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
    figure_table(answer.figures.iter().skip(1).filter(|figure| !is_of_part(figure)), shown)
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
    markup.table("shopping", caption, &["Material", "Measure out", "Bags"], &mut |rows| {
        let parts = answer.figures.iter().filter(|figure| is_of_part(figure));
        for (figure, purchase) in parts.zip(&answer.detail.shopping) {
            let text = shown.text(figure);
            rows.within("tr", &[], &mut |row| {
                row.element("th", &[("scope", "row")], figure.name.label.trim_end_matches(" to measure out"))
                    .within("td", &[], &mut |cell| {
                        cell.text(&text.best).element("small", &[], text.span.as_deref().unwrap_or_default());
                    })
                    .element("td", &[], &bags(purchase, shown.style));
            });
        }
    });
    markup.done()
}

/// "2 bags of 70 L, 9 L left over; 3 to be 9 in 10 sure".
fn bags(purchase: &Purchase, style: NumberStyle) -> String {
    let count = |bags: f64| if bags == 1.0 { "1 bag".to_owned() } else { [&fixed(bags, 0, style), " bags"].concat() };
    let sure = if purchase.bags_to_be_sure > purchase.bags {
        ["; ", &fixed(purchase.bags_to_be_sure, 0, style), " to be 9 in 10 sure"].concat()
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
