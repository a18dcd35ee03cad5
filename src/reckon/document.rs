//! Questions and answers as JSON documents, for the terminal and whoever reads its output.

use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;
use serde_json::Value;

use super::answer::{Answer, Verdict};
use super::doubt::{self, doubt_of};
use super::{Problem, Reckoning, words};
use crate::measure::DecimalMark;

/// An answer as JSON.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct AnswerDocument<Detail> {
    /// Name of the reckoning.
    pub reckoning: String,
    /// The figures, the headline first.
    pub figures: Vec<FigureDocument>,
    /// Does it serve?
    pub verdict: Verdict,
    /// The verdict in one sentence.
    pub judgement: String,
    /// Shares of the draws that serve, need watching and do not serve.
    pub chances: Option<[f64; 3]>,
    /// What to do.
    pub advice: String,
    /// What to mind, before which step.
    pub cautions: Vec<CautionDocument>,
    /// How it was worked out.
    pub working: Vec<StepDocument>,
    /// What belongs to this reckoning alone.
    pub detail: Detail,
}

/// A figure as JSON. Low and high are the 1-in-10 and 9-in-10 limits.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct FigureDocument {
    /// Stable name.
    pub name: String,
    /// Name in words.
    pub label: String,
    /// Unit of the three numbers.
    pub unit: String,
    /// The 1-in-10 limit.
    pub low: f64,
    /// The best figure.
    pub best: f64,
    /// The 9-in-10 limit.
    pub high: f64,
}

/// A caution as JSON.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct CautionDocument {
    /// The step it comes before.
    pub before: String,
    /// What to do.
    pub sentence: String,
    /// Who says so.
    pub source: String,
}

/// A step of the working as JSON.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct StepDocument {
    /// What is worked out.
    pub what: String,
    /// The formula.
    pub formula: String,
    /// The numbers put in.
    pub put_in: String,
    /// What comes out.
    pub result: String,
    /// Whose formula or figures.
    pub source: String,
}

/// An answer as its document.
#[must_use]
pub fn document<R: Reckoning>(answer: Answer<R::Detail>) -> AnswerDocument<R::Detail> {
    let figures = answer
        .figures
        .iter()
        .filter_map(|figure| {
            let unit = figure.unit_or_own(None)?;
            let range = figure.in_unit(unit);
            Some(FigureDocument {
                name: figure.name.name.clone(),
                label: figure.name.label.clone(),
                unit: unit.key.to_owned(),
                low: range.low(),
                best: range.best(),
                high: range.high(),
            })
        })
        .collect();
    AnswerDocument {
        reckoning: R::NAME.to_owned(),
        figures,
        verdict: answer.judgement.verdict,
        judgement: answer.judgement.sentence,
        chances: answer.judgement.chances,
        advice: answer.advice,
        cautions: answer
            .cautions
            .into_iter()
            .map(|caution| CautionDocument {
                before: caution.before,
                sentence: caution.sentence,
                source: caution.source.full.to_owned(),
            })
            .collect(),
        working: answer
            .working
            .into_iter()
            .map(|step| StepDocument {
                what: step.what,
                formula: step.formula,
                put_in: step.put_in,
                result: step.result,
                source: step.source.full.to_owned(),
            })
            .collect(),
        detail: answer.detail,
    }
}

/// Reads a question from JSON; fields that the question does not have are told by name.
///
/// # Errors
/// Every problem found, each at its field.
pub fn read_question<R: Reckoning>(text: &str) -> Result<R::Question, Vec<Problem>> {
    let given: Value = serde_json::from_str(text)
        .map_err(|why| vec![Problem::at("", words::not_json(why.line(), why.column()))])?;
    let known = serde_json::to_value(R::Question::default()).unwrap_or_default();
    let mut problems = Vec::new();
    hold_against(&given, &known, "", &mut problems);
    if !problems.is_empty() {
        return Err(problems);
    }
    serde_json::from_value(given).map_err(|_| vec![Problem::at("", words::not_a_question())])
}

/// Holds what is given against the question as it is known, place by place.
fn hold_against(given: &Value, known: &Value, path: &str, problems: &mut Vec<Problem>) {
    let under = |name: &str| {
        if path.is_empty() {
            name.to_owned()
        } else {
            format!("{path}.{name}")
        }
    };
    match (given, known) {
        (Value::Object(given), Value::Object(known)) => {
            for (name, value) in given {
                match known.get(name) {
                    Some(known) => hold_against(value, known, &under(name), problems),
                    None => problems.push(Problem::at(
                        under(name),
                        words::no_such_field(name, known.keys()),
                    )),
                }
            }
        }
        (Value::Array(given), Value::Array(known)) => {
            for (index, value) in given.iter().enumerate() {
                if let Some(known) = known.first() {
                    hold_against(value, known, &under(&index.to_string()), problems);
                }
            }
        }
        (Value::String(_) | Value::Number(_), Value::String(_)) => {}
        _ => problems.push(Problem::at(path, words::wanted_here(known))),
    }
}

/// Answers a question with its doubt.
///
/// # Errors
/// Every problem found, each at its field.
pub fn ask<R: Reckoning>(
    question: &R::Question,
    mark: DecimalMark,
    seed: u64,
) -> Result<AnswerDocument<R::Detail>, Vec<Problem>> {
    let case = R::check(question, mark)?;
    let doubt = doubt_of::<R>(R::check(question, mark)?, doubt::DRAWS, seed)
        .map_err(|problem| vec![problem])?;
    let answer = R::answer(&case, Some(&doubt)).map_err(|problem| vec![problem])?;
    Ok(document::<R>(answer))
}

/// JSON Schemas of a reckoning's question and answer.
#[derive(Clone, Debug, Serialize)]
pub struct Schemas {
    /// Of the question.
    pub question: Schema,
    /// Of the answer.
    pub answer: Schema,
}

/// The schemas of a reckoning.
#[must_use]
pub fn schemas<R: Reckoning>() -> Schemas {
    Schemas {
        question: schema_for!(R::Question),
        answer: schema_for!(AnswerDocument<R::Detail>),
    }
}
