//! The reckonings at a terminal: the program that is built, called as a person or a script calls it.
#![cfg(feature = "terminal")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::io::Write;
use std::process::{Command, Output, Stdio};

use longtom::measure::{DecimalMark, Entry};
use longtom::reckon::document::ask;
use longtom::reckon::mix::{Mix, Question};
use serde_json::{Value, json};

/// Exit code of a question that cannot be answered.
const UNANSWERED: Option<i32> = Some(1);
/// Exit code of a call that is not understood.
const NOT_UNDERSTOOD: Option<i32> = Some(2);

fn reckon(words: &[&str], typed: &str) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_reckon"))
        .args(words)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A call that asks no question ends without reading one.
    let _ = program.stdin.take().unwrap().write_all(typed.as_bytes());
    program.wait_with_output().unwrap()
}

fn said(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn complained(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// What a call that must go well prints, as JSON.
fn answered(words: &[&str], typed: &str) -> Value {
    let output = reckon(words, typed);
    assert!(
        output.status.success(),
        "{words:?}: {}",
        complained(&output)
    );
    assert_eq!(complained(&output), "");
    serde_json::from_str(&said(&output)).unwrap()
}

/// Field and sentence of each problem that a question must be refused with.
fn refused(words: &[&str], typed: &str) -> Vec<(String, String)> {
    let output = reckon(words, typed);
    assert_eq!(output.status.code(), UNANSWERED, "{typed}");
    assert_eq!(said(&output), "");
    let problems: Value = serde_json::from_str(&complained(&output)).unwrap();
    let text = |problem: &Value, name: &str| problem[name].as_str().unwrap().to_owned();
    problems
        .as_array()
        .unwrap()
        .iter()
        .map(|problem| (text(problem, "field"), text(problem, "sentence")))
        .collect()
}

/// The first line of what a call that is not understood is told.
fn not_understood(words: &[&str]) -> String {
    let output = reckon(words, "");
    assert_eq!(output.status.code(), NOT_UNDERSTOOD, "{words:?}");
    assert_eq!(said(&output), "");
    let complaint = complained(&output);
    assert!(complaint.contains("reckon list"), "help follows");
    complaint.lines().next().unwrap().to_owned()
}

#[test]
fn it_lists_the_reckonings() {
    let output = reckon(&["list"], "");
    assert!(output.status.success());
    assert_eq!(
        said(&output),
        "bed\tHow deep a bed under the pots?\n\
         mix\tHow will this mix hold air and water in this pot?\n\
         moving_on\tIs this batch ready, and are the nights?\n\
         recipe\tWhat should I mix from what I have?\n\
         rinse\tHow often must this be rinsed?\n\
         root_zone\tWhere do these pots stand this month?\n\
         season\tHow many do I sow, when, and does it fit?\n"
    );
}

/// The other reckonings go the same way: schema, example, answer, careless questions.
#[test]
fn a_recipe_is_asked_for_the_same_way() {
    let schema = answered(&["schema", "recipe"], "");
    let example = answered(&["example", "recipe"], "");
    let answer = answered(&["recipe"], &example.to_string());
    describes(&schema["question"], &schema["question"], &example, "");
    describes(&schema["answer"], &schema["answer"], &answer, "");
    assert_eq!(answer["reckoning"], "recipe");
    assert_eq!(answer["detail"]["met"], true);
    assert_eq!(answer["figures"][0]["name"], "price");
    assert_eq!(
        refused(&["recipe"], r#"{"moon": 1}"#)[0].0,
        "moon",
        "a field that it does not have"
    );
    let fuzzed = reckon(&["fuzz", "recipe", "--count", "500", "--seed", "3"], "");
    assert!(
        said(&fuzzed).ends_with("none broke\n"),
        "{}",
        complained(&fuzzed)
    );
}

#[test]
fn it_helps_whoever_asks() {
    for words in [&[][..], &["help"], &["--help"], &["-h"]] {
        let output = reckon(words, "");
        assert!(output.status.success(), "{words:?}");
        assert!(said(&output).contains("reckon NAME < question.json"));
    }
}

#[test]
fn its_schema_describes_the_question_and_the_answer() {
    let schema = answered(&["schema", "mix"], "");
    let example = answered(&["example", "mix"], "");
    let answer = answered(&["mix"], &example.to_string());
    for (described, document) in [
        (&schema["question"], &example),
        (&schema["answer"], &answer),
    ] {
        assert_eq!(described["type"], "object");
        assert!(
            described["$schema"]
                .as_str()
                .unwrap()
                .starts_with("https://json-schema.org/")
        );
        describes(described, described, document, "");
        assert!(
            described["properties"]
                .as_object()
                .unwrap()
                .values()
                .all(|field| field["description"].is_string() || field["$ref"].is_string())
        );
    }
}

/// Each field of the document is one of the schema's and of its type, and each that is required is there.
fn describes(root: &Value, schema: &Value, document: &Value, path: &str) {
    if let Some(name) = schema["$ref"].as_str() {
        let target = root
            .pointer(name.trim_start_matches('#'))
            .unwrap_or_else(|| panic!("{path}: {name} leads nowhere"));
        return describes(root, target, document, path);
    }
    if let Some(types) = schema.get("type") {
        let is = match document {
            Value::Null => "null",
            Value::Bool(_) => "boolean",
            Value::Number(_) => "number",
            Value::String(_) => "string",
            Value::Array(_) => "array",
            Value::Object(_) => "object",
        };
        let allowed = types == is
            || types
                .as_array()
                .is_some_and(|types| types.contains(&json!(is)));
        assert!(allowed, "{path}: {is} where the schema has {types}");
    }
    match document {
        Value::Object(fields) => {
            for (name, value) in fields {
                let described = schema["properties"]
                    .get(name)
                    .unwrap_or_else(|| panic!("{path}.{name} is not in the schema"));
                describes(root, described, value, &format!("{path}.{name}"));
            }
            for name in schema["required"].as_array().into_iter().flatten() {
                assert!(
                    fields.contains_key(name.as_str().unwrap()),
                    "{path}: {name} is required"
                );
            }
        }
        Value::Array(items) if schema["items"].is_object() => {
            for (place, item) in items.iter().enumerate() {
                describes(root, &schema["items"], item, &format!("{path}.{place}"));
            }
        }
        _ => {}
    }
}

#[test]
fn its_example_is_the_usual_question() {
    let example: Question = serde_json::from_value(answered(&["example", "mix"], "")).unwrap();
    assert_eq!(example, Question::default());
}

/// The same program answers on the page: to the last digit, seed by seed.
#[test]
fn it_gives_the_figures_of_the_library() {
    let example = said(&reckon(&["example", "mix"], ""));
    for seed in [1, 7] {
        let ours = said(&reckon(&["mix", "--seed", &seed.to_string()], &example));
        let library = ask::<Mix>(&Question::default(), DecimalMark::Point, seed).unwrap();
        assert_eq!(
            ours.trim_end(),
            serde_json::to_string_pretty(&library).unwrap()
        );
    }
    let usual = said(&reckon(&["mix"], &example));
    assert_eq!(
        usual,
        said(&reckon(&["mix", "--seed", "1"], &example)),
        "1 is the seed unless another is asked for"
    );
    assert_ne!(usual, said(&reckon(&["mix", "--seed", "2"], &example)));
}

#[test]
fn its_figures_have_units_and_are_in_order() {
    let answer = answered(&["mix"], "{}");
    assert_eq!(
        (
            answer["reckoning"].as_str(),
            answer["figures"][0]["name"].as_str()
        ),
        (Some("mix"), Some("air"))
    );
    for figure in answer["figures"].as_array().unwrap() {
        let number = |name: &str| figure[name].as_f64().unwrap();
        assert!(
            ["%", "L", "kg", "g/L", "mg/L", "mS/m", ""].contains(&figure["unit"].as_str().unwrap()),
            "{figure}"
        );
        assert!(
            number("low") <= number("best") && number("best") <= number("high"),
            "{figure}"
        );
    }
    for step in answer["working"].as_array().unwrap() {
        for part in ["what", "formula", "put_in", "result", "source"] {
            assert!(!step[part].as_str().unwrap().is_empty(), "{step}");
        }
    }
    assert!(
        !answer["cautions"].as_array().unwrap().is_empty()
            && !answer["advice"].as_str().unwrap().is_empty()
    );
    let chances: f64 = answer["chances"]
        .as_array()
        .unwrap()
        .iter()
        .map(|chance| chance.as_f64().unwrap())
        .sum();
    assert!((chances - 1.0).abs() < 1e-12);
}

#[test]
fn a_comma_is_decimal_where_that_is_said() {
    let comma = r#"{"parts": [{"material": "grit", "amount": "1,250", "bag": "25 L"}, {"material": "white_peat", "amount": "3", "bag": "70 L"}]}"#;
    let point = comma.replace("1,250", "1.25");
    assert_eq!(
        answered(&["mix", "--comma"], comma),
        answered(&["mix"], &point)
    );
    assert_eq!(
        refused(&["mix"], comma),
        [(
            "parts.0.amount".to_owned(),
            "Parts: 1,250 is too much. Between 0 and 1000 would be right.".to_owned()
        )]
    );
}

#[test]
fn questions_that_cannot_be_answered_are_told_at_their_fields() {
    let silly = Question {
        pots: Entry::new("0", ""),
        purpose: "seeds".to_owned(),
        ..Question::default()
    };
    assert_eq!(
        refused(&["mix"], &serde_json::to_string(&silly).unwrap()),
        [
            (
                "pots".to_owned(),
                "Number of pots: 0 is too little. Between 1 and 100\u{202f}000 would be right."
                    .to_owned()
            ),
            (
                "purpose".to_owned(),
                "There is no use called “seeds”. Did you mean “seed”?".to_owned()
            ),
        ]
    );
    assert_eq!(
        refused(&["mix"], r#"{"moon": 1}"#),
        [(
            "moon".to_owned(),
            "The question has no field “moon” here. It has: bench, bucket, chemistry, parts, pot, pots, purpose, stands.".to_owned()
        )]
    );
}

#[test]
fn what_is_no_question_at_all_is_told_so() {
    for typed in ["", "mud", "{", "[1, 2", "\u{0}"] {
        let problems = refused(&["mix"], typed);
        assert_eq!(problems.len(), 1);
        assert!(
            problems[0]
                .1
                .starts_with("This is not JSON: look at line 1, column "),
            "{problems:?}"
        );
    }
    let fields = "Fields in braces are wanted here: bench, bucket, chemistry, parts, pot, pots, purpose, stands.";
    let list = "A list in square brackets is wanted here.";
    for (typed, field, sentence) in [
        ("3", "", fields),
        ("[]", "", fields),
        ("null", "", fields),
        (r#"{"parts": 7}"#, "parts", list),
    ] {
        assert_eq!(
            refused(&["mix"], typed),
            [(field.to_owned(), sentence.to_owned())]
        );
    }
}

#[test]
fn a_question_that_is_not_text_is_told_so() {
    let mut program = Command::new(env!("CARGO_BIN_EXE_reckon"))
        .arg("mix")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    program
        .stdin
        .take()
        .unwrap()
        .write_all(&[0xff, 0xfe, 0x80])
        .unwrap();
    let output = program.wait_with_output().unwrap();
    assert_eq!(output.status.code(), UNANSWERED);
    assert!(complained(&output).contains("The question cannot be read"));
}

#[test]
fn calls_that_are_not_understood_are_told_what_there_is() {
    for (words, sentence) in [
        (&["mud"][..], "There is no reckoning called mud."),
        (&["schema", "mud"], "There is no reckoning called mud."),
        (&["example", "mud"], "There is no reckoning called mud."),
        (&["fuzz", "mud"], "There is no reckoning called mud."),
        (&["mix", "--moon"], "There is no option --moon."),
        (&["mix", "--seed"], "--seed wants a whole number after it."),
        (
            &["mix", "--seed", "-1"],
            "--seed wants a whole number after it.",
        ),
        (
            &["mix", "--seed", "two"],
            "--seed wants a whole number after it.",
        ),
        (
            &["fuzz", "mix", "--count", "1e3"],
            "--count wants a whole number after it.",
        ),
    ] {
        assert_eq!(not_understood(words), sentence, "{words:?}");
    }
}

#[test]
fn it_survives_its_own_careless_questions() {
    let counted = |words: &[&str], expected: u64| {
        let output = reckon(words, "");
        assert!(output.status.success(), "{}", complained(&output));
        let told = said(&output);
        assert!(
            told.ends_with("refused with a sentence, none broke\n"),
            "{told}"
        );
        let numbers: Vec<u64> = told
            .split_whitespace()
            .filter_map(|word| word.parse().ok())
            .collect();
        assert_eq!(numbers.iter().sum::<u64>(), expected, "{told}");
        assert!(
            numbers.len() == 2 && numbers.iter().all(|&number| number > 0),
            "{told}"
        );
        told
    };
    let first = counted(&["fuzz", "mix", "--count", "2000", "--seed", "3"], 2000);
    assert_eq!(
        first,
        counted(&["fuzz", "mix", "--count", "2000", "--seed", "3"], 2000)
    );
    counted(
        &["fuzz", "mix", "--count", "60", "--seed", "4", "--ranges"],
        60,
    );
}
