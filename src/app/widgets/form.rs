//! Any question's form, drawn from its description.
//!
//! The form is written as markup when its fields change, and only then; what is typed stays in
//! the page's own inputs, and is set there only where the question says otherwise. So the cursor
//! is never moved under a typing hand.

use std::cell::RefCell;
use std::rc::Rc;

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlElement, HtmlInputElement};

use super::sheet::Sheet;
use crate::app::desk::Desk;
use crate::app::live::{element, heard, keep, pressed_in, set_attribute, target};
use crate::app::markup::Markup;
use crate::app::stored::stored;
use crate::measure::{DecimalMark, Entry, read_number, write_number};
use crate::nursery::Day;
use crate::reckon::form::{Field, Form, Piece, Row, RowInOrder, Takes, fields};
use crate::reckon::{Problem, Reckoning};

/// A question on its desk, whatever its reckoning.
pub trait Asked {
    /// The pieces of its form; whoever reads them is told when they change.
    fn pieces(&self) -> Vec<Piece>;
    /// The number typed at a path, as it stands.
    fn entry(&self, path: &str) -> Entry;
    /// The choice made at a path, as it stands.
    fn choice(&self, path: &str) -> String;
    /// Types a number.
    fn type_in(&self, path: &str, entry: Entry);
    /// Makes a choice.
    fn choose(&self, path: &str, key: &str);
    /// Adds a row.
    fn add_row(&self, path: &str);
    /// Takes a row out.
    fn take_out_row(&self, path: &str, index: usize);
    /// Moves a row before the one that it follows, where the rows have an order.
    fn move_row_up(&self, _path: &str, _index: usize) {}
    /// The sentence at a path; whoever reads it is told when it changes.
    fn problem(&self, path: &str) -> Option<String>;
    /// The number from which steps begin while nothing is typed at a path; it is shown in its place.
    fn begin(&self, _path: &str) -> String {
        String::new()
    }
}

impl<R: Reckoning> Asked for Desk<R> {
    fn pieces(&self) -> Vec<Piece> {
        self.question.with(Form::pieces)
    }

    fn entry(&self, path: &str) -> Entry {
        let question = self.question.try_write_untracked();
        let entry = question.and_then(|mut question| question.entry(path).cloned());
        entry.unwrap_or_default()
    }

    fn choice(&self, path: &str) -> String {
        let question = self.question.try_write_untracked();
        let choice = question.and_then(|mut question| question.choice(path).cloned());
        choice.unwrap_or_default()
    }

    fn type_in(&self, path: &str, entry: Entry) {
        self.question.update(|question| {
            if let Some(place) = question.entry(path) {
                *place = entry;
            }
        });
    }

    fn choose(&self, path: &str, key: &str) {
        self.question.update(|question| {
            if let Some(place) = question.choice(path) {
                key.clone_into(place);
            }
        });
    }

    fn add_row(&self, path: &str) {
        self.question.update(|question| question.add_row(path));
    }

    fn take_out_row(&self, path: &str, index: usize) {
        self.question
            .update(|question| question.take_out_row(path, index));
    }

    fn move_row_up(&self, path: &str, index: usize) {
        self.question
            .update(|question| question.move_row_up(path, index));
    }

    fn problem(&self, path: &str) -> Option<String> {
        self.problems
            .with(|problems| Problem::sentence_at(problems, path))
    }
}

const MINUS: &str = "M6 12h12";
const PLUS: &str = "M6 12h12M12 6v12";
const PLUS_OR_MINUS: &str = "M7 9h10M12 4v10M7 19h10";
const CROSS: &str = "M7 7l10 10M17 7L7 17";
const DOWN: &str = "M7 10l5 5 5-5";

/// Ids of a form and of the sheet over it.
pub type Ids = [&'static str; 2];

/// Ids of the form of a page that has one only.
const FORM: Ids = ["question", "sheet"];

/// Writes the place of a form.
pub fn write(markup: &mut Markup) {
    write_as(markup, FORM, "The question");
}

/// Writes the place of one of several forms, and says what it is.
pub fn write_as(markup: &mut Markup, [form, sheet]: Ids, what: &str) {
    markup
        .mark(
            "form",
            &[("class", "question"), ("id", form), ("aria-label", what)],
        )
        .mark("dialog", &[("class", "sheet"), ("id", sheet)]);
}

/// Puts life into the form of a question.
pub fn open(asked: Rc<dyn Asked>) {
    open_as(FORM, asked);
}

/// Puts life into one of several forms. Their paths must differ.
pub fn open_as(ids: Ids, asked: Rc<dyn Asked>) {
    let drawn = RefCell::new(String::new());
    // In the order of the fields, which is another one only where the layout is.
    let shown = RefCell::new(Vec::<Standing>::new());
    let filled = Rc::clone(&asked);
    keep(move || {
        let pieces = filled.pieces();
        let layout = written(&pieces);
        if let Some(form) = element::<Element>(ids[0])
            && *drawn.borrow() != layout
        {
            redraw(&form, &layout);
            drawn.replace(layout);
            shown.borrow_mut().clear();
        }
        let standings: Vec<_> = fields(&pieces)
            .into_iter()
            .map(|field| (field, Standing::of(field, &*filled)))
            .collect();
        for (index, (field, standing)) in standings.iter().enumerate() {
            if shown.borrow().get(index) != Some(standing) {
                fill(field, standing);
                tell(&field.path, standing.problem.clone());
            }
        }
        shown.replace(
            standings
                .into_iter()
                .map(|(_, standing)| standing)
                .collect(),
        );
        tell_lists(&pieces, &*filled);
    });
    hear(ids[0], &asked);
    hear_sheet(ids, asked);
}

/// Shows the sentences at lists as a whole.
fn tell_lists(pieces: &[Piece], asked: &dyn Asked) {
    for piece in pieces {
        match piece {
            Piece::Rows { path, .. } | Piece::Ordered { path, .. } => {
                tell(path, asked.problem(path));
            }
            Piece::More { pieces, .. } => tell_lists(pieces, asked),
            Piece::Field(_) => {}
        }
    }
}

/// What is done with the form itself.
fn hear(form: &str, asked: &Rc<dyn Asked>) {
    let stored = stored();
    heard(form, "submit", |event| event.prevent_default());
    let typed = Rc::clone(asked);
    heard(form, "input", move |event| {
        let Some((path, input)) = hit::<Element>(&event) else {
            return;
        };
        if input.has_attribute(AS_IT_IS) {
            typed.choose(&path, &value_of(&input));
        } else if input.tag_name() == "INPUT" {
            typed.type_in(&path, typed.entry(&path).with_text(value_of(&input)));
        }
    });
    let chosen = Rc::clone(asked);
    heard(form, "change", move |event| {
        let Some((path, select)) = hit::<Element>(&event) else {
            return;
        };
        let key = value_of(&select);
        match field_at(&*chosen, &path).map(|field| field.takes) {
            Some(Takes::Few(_)) => chosen.choose(&path, &key),
            Some(Takes::Number { units, .. }) => {
                if let Some(unit) = units.offered().find(|unit| unit.key == key) {
                    let mark = stored.settings_now().decimal;
                    let entry = chosen.entry(&path).converted_among(units.all, unit, mark);
                    chosen.type_in(&path, entry);
                    stored.choose_unit(path, key);
                }
            }
            _ => {}
        }
    });
}

/// What is done with its buttons: steps, rows, and the sheet with a long list.
fn hear_sheet([form, sheet_id]: Ids, asked: Rc<dyn Asked>) {
    let stored = stored();
    let sheet = Rc::new(RefCell::new(None::<Sheet>));
    let opened = Rc::clone(&sheet);
    let pressed = Rc::clone(&asked);
    pressed_in(form, move |button| {
        let path = path_of(button);
        if let (Some(path), Some(steps)) = (&path, button.get_attribute("data-step")) {
            let mark = stored.settings_now().decimal;
            match steps.as_str() {
                "-1" => step(&*pressed, path, -1.0, mark),
                "1" => step(&*pressed, path, 1.0, mark),
                _ => turn(&*pressed, path, mark),
            }
        } else if let Some(path) = path {
            if let (Some(field), Some(dialog)) = (field_at(&*pressed, &path), element(sheet_id)) {
                opened.replace(Sheet::open(dialog, field, pressed.choice(&path)));
            }
        } else if let Some(rows) = attribute_above(button, "data-rows") {
            let index = |name: &str| button.get_attribute(name)?.parse::<usize>().ok();
            if let Some(index) = index(EARLIER) {
                // The cursor goes where the row will stand, before the row does.
                let before = index.saturating_sub(1);
                if !focus(&earlier_id_of(&rows, before)) {
                    focus(&row_id_of(&rows, before));
                }
                pressed.move_row_up(&rows, index);
            } else if let Some(index) = index("data-take-out") {
                pressed.take_out_row(&rows, index);
            } else {
                pressed.add_row(&rows);
            }
        }
    });
    let searched = Rc::clone(&sheet);
    heard(sheet_id, "input", move |_| {
        searched.borrow().iter().for_each(Sheet::find);
    });
    pressed_in(sheet_id, move |button| {
        let Some(sheet) = sheet.take() else { return };
        sheet.close();
        if let Some(key) = button.get_attribute("data-key") {
            asked.choose(sheet.path(), &key);
        }
    });
}

/// On what is asked for more seldom: what it is about.
const ABOUT: &str = "data-about";

/// On the button that moves a row before the one that it follows: the index of the row.
const EARLIER: &str = "data-earlier";

/// Id of that button.
fn earlier_id_of(list: &str, index: usize) -> String {
    ["earlier-", list, "-", &index.to_string()].concat()
}

/// Id of a row of which the order is the grower's.
fn row_id_of(list: &str, index: usize) -> String {
    ["row-", list, "-", &index.to_string()].concat()
}

/// Id of the button that adds a row.
fn add_id_of(list: &str) -> String {
    ["add-", list].concat()
}

/// Puts the cursor on the element of an id; false where there is none.
fn focus(id: &str) -> bool {
    element::<HtmlElement>(id).is_some_and(|element| element.focus().is_ok())
}

/// Id of a field's input or button.
fn id_of(path: &str) -> String {
    ["field-", &path.replace('.', "-")].concat()
}

fn problem_id_of(path: &str) -> String {
    [&id_of(path), "-problem"].concat()
}

/// An attribute of an element or of the nearest around it that has it.
fn attribute_above(element: &Element, name: &str) -> Option<String> {
    element
        .closest(&["[", name, "]"].concat())
        .ok()
        .flatten()?
        .get_attribute(name)
}

/// The path of the field that an element is part of.
fn path_of(element: &Element) -> Option<String> {
    attribute_above(element, "data-field")
}

/// Path and element of an event of a kind of input.
fn hit<E: JsCast>(event: &Event) -> Option<(String, E)> {
    let element = target::<Element>(event)?;
    let path = path_of(&element)?;
    Some((path, element.dyn_into().ok()?))
}

/// On inputs whose text is taken as it is, without a unit.
const AS_IT_IS: &str = "data-as-it-is";

/// What stands in an input, a select or a larger place for words: all three have a value alike.
fn value_of(element: &Element) -> String {
    element.unchecked_ref::<HtmlInputElement>().value()
}

fn set_value_of(element: &Element, value: &str) {
    let input = element.unchecked_ref::<HtmlInputElement>();
    // Setting it moves the cursor, even where nothing changes.
    if input.value() != value {
        input.set_value(value);
    }
}

fn field_at(asked: &dyn Asked, path: &str) -> Option<Field> {
    untrack(|| {
        fields(&asked.pieces())
            .into_iter()
            .find(|field| field.path == path)
            .cloned()
    })
}

/// To the next whole step, so that 2.3 stepped up by 1 is 3.
fn step(asked: &dyn Asked, path: &str, steps: f64, mark: DecimalMark) {
    /// A number this near a step stands on it.
    const NEAR: f64 = 1e-9;
    let (step, units) = match field_at(asked, path).map(|field| field.takes) {
        Some(Takes::Number { step, units }) => (step, units),
        Some(Takes::Day { steps_days }) => {
            let day = untrack(|| asked.choice(path));
            if let Ok(day) = Day::read(&day) {
                asked.choose(path, &day.plus(steps_days * steps as i32).iso());
            }
            return;
        }
        _ => return,
    };
    let now = begun(asked, path);
    let at = read_number(now.text(), mark).unwrap_or(0.0) / step;
    let to = if steps > 0.0 {
        (at + NEAR).floor() + 1.0
    } else {
        (at - NEAR).ceil() - 1.0
    };
    let shown = units.all.iter().find(|unit| unit.key == now.unit());
    let least = shown.or(units.all.first());
    let least = least.map_or(0.0, |unit| unit.from_base(units.low));
    // From one unit to another it may miss the whole number by a hair.
    let least = (least / NEAR).round() * NEAR;
    asked.type_in(
        path,
        now.with_text(write_number((to * step).max(least), mark)),
    );
}

/// The number typed; while there is none, the one that steps begin from.
fn begun(asked: &dyn Asked, path: &str) -> Entry {
    let now = asked.entry(path);
    if now.is_empty() {
        now.with_text(asked.begin(path))
    } else {
        now
    }
}

/// From above nought to below it, or back: the keyboard for numbers may have no minus.
fn turn(asked: &dyn Asked, path: &str, mark: DecimalMark) {
    let now = begun(asked, path);
    if let Ok(number) = read_number(now.text(), mark) {
        asked.type_in(path, now.with_text(write_number(0.0 - number, mark)));
    }
}

/// Puts the form's fields into the page, and the cursor back where it was.
fn redraw(form: &Element, layout: &str) {
    let active = document().active_element();
    // What had the cursor may be gone: then the row that stands in its place has it, or the button that adds one.
    let around = |which: &str| active.as_ref()?.closest(which).ok().flatten();
    let add = around("[data-rows]").and_then(|list| list.get_attribute("data-rows"));
    let focused: Vec<String> = [
        active.as_ref().map(Element::id),
        around("[id^=row-]").map(|row| row.id()),
        add.map(|list| add_id_of(&list)),
    ]
    .into_iter()
    .flatten()
    .filter(|id| !id.is_empty())
    .collect();
    let all = |which: &str| {
        let found = form.query_selector_all(which).ok();
        found.into_iter().flat_map(|found| {
            (0..found.length())
                .filter_map(move |index| found.item(index)?.dyn_into::<Element>().ok())
        })
    };
    let open: Vec<_> = all("details[open]")
        .map(|more| more.get_attribute(ABOUT))
        .collect();
    form.set_inner_html(layout);
    for more in all("details") {
        if open.contains(&more.get_attribute(ABOUT)) {
            let _ = more.set_attribute("open", "");
        }
    }
    let _ = focused.iter().any(|id| focus(id));
}

/// What a field shows: at each key that is pressed nearly all fields show what they showed before.
#[derive(PartialEq)]
struct Standing {
    /// The number or the choice.
    text: String,
    /// The unit of the number.
    unit: String,
    /// Where steps begin.
    begin: String,
    problem: Option<String>,
}

impl Standing {
    /// As the question has it.
    fn of(field: &Field, asked: &dyn Asked) -> Self {
        let problem = asked.problem(&field.path);
        if let Takes::Number { .. } = field.takes {
            let entry = asked.entry(&field.path);
            Self {
                text: entry.text().to_owned(),
                unit: entry.unit().to_owned(),
                begin: asked.begin(&field.path),
                problem,
            }
        } else {
            Self {
                text: asked.choice(&field.path),
                unit: String::new(),
                begin: String::new(),
                problem,
            }
        }
    }
}

/// Shows a field as it stands.
fn fill(field: &Field, standing: &Standing) {
    let Some(element) = element::<Element>(&id_of(&field.path)) else {
        return;
    };
    match &field.takes {
        Takes::Number { .. } => {
            set_value_of(&element, &standing.text);
            let begin = &standing.begin;
            set_attribute(
                &element,
                "placeholder",
                (!begin.is_empty()).then_some(begin),
            );
            let unit = element
                .parent_element()
                .and_then(|typed| typed.query_selector("select").ok().flatten());
            if let Some(unit) = unit {
                set_value_of(&unit, &standing.unit);
            }
        }
        Takes::Few(_) | Takes::Words { .. } | Takes::Day { .. } | Takes::Time => {
            set_value_of(&element, &standing.text);
        }
        Takes::Many { items, .. } => {
            let key = &standing.text;
            let name = items()
                .into_iter()
                .find(|item| item.key == *key)
                .map(|item| item.name);
            let name = name.unwrap_or_else(|| {
                if key.is_empty() {
                    "Choose one".to_owned()
                } else {
                    key.clone()
                }
            });
            if let Ok(Some(span)) = element.query_selector("span") {
                span.set_text_content(Some(&name));
            }
        }
    }
}

/// Shows the sentence at a field, or takes it away. It is told when it appears, and the cursor
/// stays where it is.
fn tell(path: &str, problem: Option<String>) {
    let Some(line) = element::<Element>(&problem_id_of(path)) else {
        return;
    };
    let set = |element: &Element, name: &str, on: bool| {
        set_attribute(element, name, on.then_some("true"));
    };
    set(&line, "hidden", problem.is_none());
    if line.text_content() != problem {
        line.set_text_content(problem.as_deref());
    }
    if let Some(element) = element::<Element>(&id_of(path)) {
        set(&element, "aria-invalid", problem.is_some());
    }
    if let Some(field) = line.parent_element() {
        set(&field, "data-wrong", problem.is_some());
    }
    // What is wrong must not lie behind something closed.
    if problem.is_some()
        && let Ok(Some(more)) = line.closest("details")
    {
        set(&more, "open", true);
    }
}

/// The form without what is typed in it.
fn written(pieces: &[Piece]) -> String {
    let mut markup = Markup::new();
    write_pieces(&mut markup, pieces);
    markup.done()
}

fn write_pieces(markup: &mut Markup, pieces: &[Piece]) {
    for piece in pieces {
        match piece {
            Piece::Field(field) => write_field(markup, field),
            Piece::More { about, pieces } => {
                let details = [("class", "more"), (ABOUT, about)];
                markup.within("details", &details, &mut |more| {
                    more.element("summary", &[], about);
                    write_pieces(more, pieces);
                });
            }
            Piece::Rows {
                path,
                legend,
                rows,
                add,
            } => write_list(markup, [path, legend], *add, &mut |list| {
                for (index, row) in rows.iter().enumerate() {
                    list.within("div", &[("class", "part")], &mut |part| {
                        row.fields.iter().for_each(|field| write_field(part, field));
                        write_take_out(part, row, index);
                    });
                }
            }),
            Piece::Ordered {
                path,
                legend,
                rows,
                add,
            } => write_list(markup, [path, legend], *add, &mut |list| {
                for (index, ordered) in rows.iter().enumerate() {
                    write_in_order(list, path, index, ordered);
                }
            }),
        }
    }
}

/// A list with its rows, the sentence at it, and what adds a row.
fn write_list(
    markup: &mut Markup,
    [path, legend]: [&str; 2],
    add: Option<&str>,
    rows: &mut dyn FnMut(&mut Markup),
) {
    let list = [("class", "parts"), ("data-rows", path)];
    markup.within("fieldset", &list, &mut |list| {
        list.element("legend", &[], legend);
        rows(list);
        write_problem(list, path);
        if let Some(words) = add {
            let id = add_id_of(path);
            let button = [("type", "button"), ("class", "quiet"), ("id", &id)];
            list.element("button", &button, words);
        }
    });
}

fn write_take_out(markup: &mut Markup, row: &Row, index: usize) {
    if let Some(words) = &row.take_out {
        let of = [
            ("data-take-out", &index.to_string() as &str),
            ("aria-label", words),
        ];
        write_sign_button(markup, &of, CROSS);
    }
}

/// A row of which the order is the grower's: what it is, what moves it and what takes it out, and its fields below.
fn write_in_order(markup: &mut Markup, list: &str, index: usize, ordered: &RowInOrder) {
    let id = row_id_of(list, index);
    let number = [&(index + 1).to_string(), "."].concat();
    let row = [
        ("class", "in-order"),
        ("id", &id as &str),
        ("tabindex", "-1"),
        ("role", "group"),
        ("aria-label", &[&number, " ", &ordered.title].concat()),
    ];
    markup.within("div", &row, &mut |row| {
        row.within("div", &[("class", "in-order-head")], &mut |head| {
            head.element("span", &[("class", "place")], &number)
                .element("span", &[("class", "called")], &ordered.title);
            if let Some(words) = &ordered.earlier {
                let button = [
                    ("type", "button"),
                    ("class", "quiet"),
                    ("id", &earlier_id_of(list, index) as &str),
                    (EARLIER, &index.to_string()),
                    ("aria-label", words),
                ];
                head.element("button", &button, "Earlier");
            }
            write_take_out(head, &ordered.row, index);
        });
        let fields = &ordered.row.fields;
        fields.iter().for_each(|field| write_field(row, field));
    });
}

fn write_field(markup: &mut Markup, field: &Field) {
    let (id, problem_id) = (id_of(&field.path), problem_id_of(&field.path));
    markup.within(
        "div",
        &[("class", "field"), ("data-field", &field.path)],
        &mut |place| {
            match &field.takes {
                Takes::Number { units, .. } => {
                    place.element("label", &[("for", &id)], &field.label);
                    place.within("div", &[("class", "typed")], &mut |typed| {
                        let [less, more, unit, sign] =
                            ["Less: ", "More: ", "Unit of: ", "Above or below nought: "]
                                .map(|what| [what, &field.label].concat());
                        write_sign_button(
                            typed,
                            &[("data-step", "-1"), ("aria-label", &less)],
                            MINUS,
                        );
                        let input = [
                            ("id", id.as_str()),
                            ("type", "text"),
                            ("inputmode", "decimal"),
                            ("autocomplete", "off"),
                            ("enterkeyhint", "done"),
                            ("maxlength", "60"),
                            ("aria-describedby", &problem_id),
                        ];
                        typed.alone("input", &input);
                        if units.go_below_nought() {
                            write_sign_button(
                                typed,
                                &[("data-step", "0"), ("aria-label", &sign)],
                                PLUS_OR_MINUS,
                            );
                        }
                        if units.offered().next().is_some() {
                            typed.within(
                                "select",
                                &[("class", "unit"), ("aria-label", &unit)],
                                &mut |select| {
                                    for unit in units.offered() {
                                        select.element(
                                            "option",
                                            &[("value", unit.key)],
                                            unit.symbol,
                                        );
                                    }
                                },
                            );
                        }
                        write_sign_button(
                            typed,
                            &[("data-step", "1"), ("aria-label", &more)],
                            PLUS,
                        );
                    });
                }
                Takes::Words { long: true } => {
                    place
                        .element("label", &[("for", &id)], &field.label)
                        .element(
                            "textarea",
                            &[
                                ("id", id.as_str()),
                                (AS_IT_IS, ""),
                                ("rows", "3"),
                                ("maxlength", "4000"),
                                ("aria-describedby", &problem_id),
                            ],
                            "",
                        );
                }
                Takes::Words { .. } | Takes::Day { .. } | Takes::Time => {
                    let kind = match field.takes {
                        Takes::Day { .. } => "date",
                        Takes::Time => "time",
                        _ => "text",
                    };
                    let input = [
                        ("id", id.as_str()),
                        (AS_IT_IS, ""),
                        ("type", kind),
                        ("autocomplete", "off"),
                        ("maxlength", "200"),
                        ("aria-describedby", &problem_id),
                    ];
                    place.element("label", &[("for", &id)], &field.label);
                    match field.takes {
                        Takes::Day { steps_days } if steps_days > 0 => {
                            place.within("div", &[("class", "typed")], &mut |typed| {
                                let [before, after] = ["Earlier: ", "Later: "]
                                    .map(|what| [what, &field.label].concat());
                                let button =
                                    |steps, label| [("data-step", steps), ("aria-label", label)];
                                write_sign_button(typed, &button("-1", &before as &str), MINUS);
                                typed.alone("input", &input);
                                write_sign_button(typed, &button("1", &after as &str), PLUS);
                            });
                        }
                        _ => {
                            place.alone("input", &input);
                        }
                    }
                }
                Takes::Few(items) => {
                    place.element("label", &[("for", &id)], &field.label);
                    place.within(
                        "select",
                        &[("id", &id), ("aria-describedby", &problem_id)],
                        &mut |select| {
                            for item in items {
                                select.element("option", &[("value", &item.key)], &item.name);
                            }
                        },
                    );
                }
                Takes::Many { .. } => {
                    let label_id = [&id, "-label"].concat();
                    place.element(
                        "span",
                        &[("class", "label"), ("id", &label_id)],
                        &field.label,
                    );
                    let button = [
                        ("type", "button"),
                        ("class", "choice"),
                        ("id", &id),
                        ("aria-haspopup", "dialog"),
                        ("aria-labelledby", &[&label_id, " ", &id].concat()),
                        ("aria-describedby", &problem_id),
                    ];
                    place.within("button", &button, &mut |button| {
                        button.element("span", &[], "");
                        write_sign(button, DOWN);
                    });
                }
            }
            write_problem(place, &field.path);
        },
    );
}

fn write_problem(markup: &mut Markup, path: &str) {
    markup.element(
        "p",
        &[
            ("id", &problem_id_of(path)),
            ("class", "problem"),
            ("aria-live", "polite"),
            ("hidden", "true"),
        ],
        "",
    );
}

fn write_sign_button(markup: &mut Markup, attributes: &[(&str, &str)], sign: &str) {
    let all: Vec<(&str, &str)> = [("type", "button"), ("class", "step")]
        .into_iter()
        .chain(attributes.iter().copied())
        .collect();
    markup.within("button", &all, &mut |button| write_sign(button, sign));
}

fn write_sign(markup: &mut Markup, sign: &str) {
    markup.within(
        "svg",
        &[("viewBox", "0 0 24 24"), ("aria-hidden", "true")],
        &mut |svg| {
            svg.mark("path", &[("d", sign)]);
        },
    );
}
