//! Mix: what goes into the pot, and how it will hold air and water there.

use leptos::prelude::*;

use crate::app::desk::Desk;
use crate::app::plots::pot_cut::PotCut;
use crate::app::route::Page;
use crate::app::stored::stored;
use crate::app::widgets::behind::{Cautions, Working};
use crate::app::widgets::choice::{Choice, Item};
use crate::app::widgets::field::{NumberField, Problem, Units};
use crate::app::widgets::figures::{FigureTable, Headline, figure_text};
use crate::app::widgets::paper::Paper;
use crate::app::widgets::strip::Strip;
use crate::app::widgets::verdict::VerdictMark;
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
/// The use for which the tray is drawn.
const FED_FROM_BELOW: &str = "fed_from_below";
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
                <Show when=move || desk.before_link.with(Option::is_some)>
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
                </Show>
            </div>
            <AnswerCard desk/>
            <QuestionSlip desk/>
        </div>
        <Strip answer=desk.answer stale=Signal::derive(move || desk.stale()) to=ANSWER/>
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

fn part_places(desk: Desk<Mix>) -> Vec<usize> {
    (0..desk.question.with(|question| question.parts.len())).collect()
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
    let many = Memo::new(move |_| desk.question.with(|question| question.parts.len()));
    let problem = desk.problem_at("parts".to_owned());
    view! {
        <fieldset class="parts">
            <legend>"Parts by volume"</legend>
            <For each=move || part_places(desk) key=|index| *index let:index>
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
                        class="quiet"
                        aria-label=move || ["Take out ", &part_name(desk, index)].concat()
                        hidden={move || many.get() < 2}
                        on:click=move |_| {
                            desk.question.update(|question| {
                                if index < question.parts.len() {
                                    question.parts.remove(index);
                                }
                            });
                        }
                    >
                        "Take out"
                    </button>
                </div>
            </For>
            <Problem id="field-parts-problem" problem/>
            <button
                type="button"
                class="quiet"
                hidden={move || many.get() >= MOST_PARTS}
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
        <Show when=tapered>
            {length("pot.rim", "Across the rim, inside", |pot| &pot.rim, |pot, entry| pot.rim = entry)}
            {length("pot.base", "Across the base, inside", |pot| &pot.base, |pot, entry| pot.base = entry)}
        </Show>
        <Show when=move || own_size() && !tapered()>
            <NumberField
                path="pot.volume"
                label="Volume to the brim"
                entry=Signal::derive(move || desk.question.with(|question| question.pot.volume.clone()))
                change=Callback::new(move |entry| desk.question.update(|question| question.pot.volume = entry))
                units={Units::of::<Volume>(&["L", "mL", "gal"])}
                problem=desk.problem_at("pot.volume".to_owned())
                step=0.5
            />
        </Show>
        <Show when=own_size>
            {length("pot.height", "Height, inside", |pot| &pot.height, |pot, entry| pot.height = entry)}
            {length("pot.below_rim", "Space below the rim, once watered", |pot| &pot.below_rim, |pot, entry| pot.below_rim = entry)}
        </Show>
    }
}

/// What the pots are for.
#[component]
fn Purpose(desk: Desk<Mix>) -> impl IntoView {
    let problem = desk.problem_at("purpose".to_owned());
    let chosen = move || desk.question.with(|question| question.purpose.clone());
    view! {
        <div class="field" class:wrong=move || problem.with(Option::is_some)>
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
                {LIMITS
                    .iter()
                    .map(|limits| {
                        view! {
                            <option value=limits.key selected=move || chosen() == limits.key>{limits.name}</option>
                        }
                    })
                    .collect_view()}
            </select>
            <Problem id="field-purpose-problem" problem/>
        </div>
    }
}

/// The bags that the materials come in.
#[component]
fn Bags(desk: Desk<Mix>) -> impl IntoView {
    view! {
        <For each=move || part_places(desk) key=|index| *index let:index>
            <NumberField
                path=format!("parts.{index}.bag")
                label=Signal::derive(move || ["Bag of ", &part_name(desk, index)].concat())
                entry=Signal::derive(move || part(desk, index).bag)
                change=Callback::new(move |entry| change_part(desk, index, |part| part.bag = entry))
                units={Units::of::<Volume>(&["L", "gal", "m3", "ft3"])}
                problem=desk.problem_at(format!("parts.{index}.bag"))
                step=5.0
            />
        </For>
    }
}

/// The answer.
#[component]
fn AnswerCard(desk: Desk<Mix>) -> impl IntoView {
    let stale = move || desk.stale();
    view! {
        <section class="answer" id=ANSWER aria-label="The answer" class:stale=stale>
            <p class="last-good" role="status" hidden=move || !stale()>
                "The question cannot be answered as it stands. This is the answer to your last good one."
            </p>
            {move || {
                desk.answer
                    .get()
                    .map_or_else(
                        || view! { <p class="none">"Put the question right, and the answer stands here."</p> }.into_any(),
                        |answer| answered(desk, answer).into_any(),
                    )
            }}
        </section>
    }
}

fn answered(desk: Desk<Mix>, answer: Answer<Detail>) -> impl IntoView {
    let stored = stored();
    let style = stored.style();
    let in_tray = desk.question.with_untracked(|question| question.purpose == FED_FROM_BELOW);
    let finding = Signal::derive(move || desk.finding.get().is_some());
    let (parts, mut whole): (Vec<Figure>, Vec<Figure>) =
        answer.figures.into_iter().partition(|figure| figure.name.name.starts_with(PART_FIGURE));
    let headline = (!whole.is_empty()).then(|| whole.remove(0));
    view! {
        <VerdictMark verdict=answer.judgement.verdict/>
        {headline.map(|figure| view! { <Headline figure finding/> })}
        <p class="slow" hidden=move || !finding.get()>
            <progress max="1" value=move || desk.finding.get().unwrap_or(1.0).to_string() aria-label="Finding the range"></progress>
            <button type="button" class="quiet" on:click=move |_| desk.stop()>"Stop"</button>
        </p>
        <p class="judgement">{answer.judgement.sentence}</p>
        <p class="advice">{answer.advice}</p>
        <PotCut detail=answer.detail.clone() in_tray style/>
        <Cautions cautions=answer.cautions/>
        <Shopping parts shopping=answer.detail.shopping/>
        <details class="behind">
            <summary>"All figures"</summary>
            <FigureTable figures=whole caption="For this mix in this pot"/>
        </details>
        <Working steps=answer.working/>
        <Paper/>
    }
}

/// What to measure out and what to buy.
#[component]
fn Shopping(parts: Vec<Figure>, shopping: Vec<Purchase>) -> impl IntoView {
    let stored = stored();
    let style = stored.style();
    let rows = parts
        .into_iter()
        .zip(shopping)
        .map(|(figure, purchase)| {
            let text = figure_text(&figure, stored.unit(figure.name.kind.what).as_deref(), style);
            let name = figure.name.label.trim_end_matches(" to measure out").to_owned();
            view! {
                <tr>
                    <th scope="row">{name}</th>
                    <td>{text.best} {text.span.map(|span| view! { <small>{span}</small> })}</td>
                    <td>{bags(&purchase, style)}</td>
                </tr>
            }
        })
        .collect_view();
    view! {
        <table class="shopping">
            <caption>"Measure out, loose and damp, for all pots"</caption>
            <thead>
                <tr>
                    <th scope="col">"Material"</th>
                    <th scope="col">"Measure out"</th>
                    <th scope="col">"Bags"</th>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
    }
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
