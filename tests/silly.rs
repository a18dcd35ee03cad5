//! Silly, hurried and hostile input to Mix: each gets its field and its sentence, and nothing breaks.
//! The sentences stand here in full, so that they are read like code whenever they change.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::measure::{DecimalMark, Entry};
use longtom::reckon::Reckoning;
use longtom::reckon::doubt::doubt_of;
use longtom::reckon::mix::{Mix, OWN_ROUND, OWN_SQUARE, OWN_VOLUME, PartAsked, Question};
use longtom::science::numerics::draws::Draws;

fn part(material: &str, amount: &str) -> PartAsked {
    PartAsked {
        material: material.to_owned(),
        amount: Entry::new(amount, ""),
        ..PartAsked::default()
    }
}

/// The usual question with a change.
fn with(change: impl FnOnce(&mut Question)) -> Question {
    let mut question = Question::default();
    change(&mut question);
    question
}

fn with_parts(parts: &[(&str, &str)]) -> Question {
    with(|question| {
        question.parts = parts
            .iter()
            .map(|&(material, amount)| part(material, amount))
            .collect()
    })
}

fn with_amount(text: &str) -> Question {
    with(|question| question.parts[0].amount = Entry::new(text, ""))
}

fn own_pot(size: &str, [rim, base, height, below_rim]: [&str; 4]) -> Question {
    with(|question| {
        let millimetres = |text: &str| Entry::new(text, "mm");
        question.pot.size = size.to_owned();
        question.pot.rim = millimetres(rim);
        question.pot.base = millimetres(base);
        question.pot.height = millimetres(height);
        question.pot.below_rim = millimetres(below_rim);
    })
}

fn own_volume(litres: &str, height: &str) -> Question {
    with(|question| {
        question.pot.size = OWN_VOLUME.to_owned();
        question.pot.volume = Entry::new(litres, "L");
        question.pot.height = Entry::new(height, "mm");
    })
}

/// Field and sentence of each problem.
fn told(question: &Question, mark: DecimalMark) -> Vec<(String, String)> {
    match Mix::check(question, mark) {
        Ok(_) => Vec::new(),
        Err(problems) => problems
            .into_iter()
            .map(|problem| (problem.field, problem.sentence))
            .collect(),
    }
}

/// Exactly these problems, under a decimal mark that is not set.
fn assert_told(question: &Question, expected: &[(&str, &str)]) {
    let told = told(question, DecimalMark::Ask);
    let told: Vec<(&str, &str)> = told
        .iter()
        .map(|(field, sentence)| (field.as_str(), sentence.as_str()))
        .collect();
    assert_eq!(told, expected);
}

#[test]
fn the_usual_question_has_no_problem() {
    assert_told(&Question::default(), &[]);
}

#[test]
fn parts_that_are_numbers_are_read_however_they_are_written() {
    for text in [
        "0", "1/2", "2 1/2", "½", "2,5", "2.5", " 3 ", "1e2", "+4", "1000", "0.000001",
    ] {
        assert_told(&with_amount(text), &[]);
    }
}

#[test]
fn parts_that_are_no_number() {
    for text in [
        "abc", "NaN", "inf", "0x10", "1_000", "٣", "７", "7 mm", "--3", "..", "🌱",
    ] {
        let sentence = format!("“{text}” is not a number. Write one such as 12, 2.5 or 2 1/2.");
        assert_told(&with_amount(text), &[("parts.0.amount", &sentence)]);
    }
}

#[test]
fn parts_that_are_silly_numbers() {
    for (text, sentence) in [
        ("", "Write a number."),
        ("   ", "Write a number."),
        (
            "-1",
            "Parts: -1 is too little. Between 0 and 1000 would be right.",
        ),
        (
            "1001",
            "Parts: 1001 is too much. Between 0 and 1000 would be right.",
        ),
        ("1e400", "1e400 is too large. Write a smaller number."),
        ("-1e400", "-1e400 is too large. Write a smaller number."),
        (
            "1e-400",
            "1e-400 is too close to nought. Write 0, or a larger number.",
        ),
        (
            "1,250",
            "1,250 can be read as 1250 or as 1.25. Write 1250 or 1.25.",
        ),
        (
            "1.250",
            "1.250 can be read as 1250 or as 1.25. Write 1250 or 1.25.",
        ),
        (
            "1 250 0",
            "The digits of 1 250 0 are not parted in thousands. Write them without gaps.",
        ),
        (
            "1/0",
            "1/0 is divided by nought. Write a fraction such as 1/2.",
        ),
        (
            "9999999999999999999999999999999999999999999",
            "That is too long for a number. Write at most 40 digits and marks.",
        ),
    ] {
        assert_told(&with_amount(text), &[("parts.0.amount", sentence)]);
    }
}

#[test]
fn a_decimal_mark_that_is_set_settles_what_could_be_read_twice() {
    assert_eq!(
        told(&with_amount("1,250"), DecimalMark::Point),
        [(
            "parts.0.amount".to_owned(),
            "Parts: 1,250 is too much. Between 0 and 1000 would be right.".to_owned()
        )]
    );
    assert_eq!(told(&with_amount("1,250"), DecimalMark::Comma), []);
}

#[test]
fn parts_in_a_unit() {
    let question = with(|question| question.parts[0].amount = Entry::new("3", "mm"));
    assert_told(
        &question,
        &[(
            "parts.0.amount",
            "A plain number is wanted here, without mm.",
        )],
    );
}

#[test]
fn a_mix_of_nothing() {
    assert_told(
        &with_parts(&[]),
        &[("parts", "A mix needs at least one material. Add one.")],
    );
    assert_told(
        &with_parts(&[
            ("composted_bark", "0"),
            ("coir_pith", "0.0"),
            ("grit", "0/5"),
        ]),
        &[(
            "parts.0.amount",
            "All parts are 0. Give at least one material a number above 0.",
        )],
    );
}

#[test]
fn one_negative_part_is_told_and_the_others_are_left_alone() {
    assert_told(
        &with_parts(&[("composted_bark", "1"), ("coir_pith", "-3"), ("grit", "0")]),
        &[(
            "parts.1.amount",
            "Parts: -3 is too little. Between 0 and 1000 would be right.",
        )],
    );
}

#[test]
fn eight_times_the_same_material() {
    let sentence = "There is grit in this mix already. Add the two parts together in one row.";
    let fields: Vec<String> = (1..8)
        .map(|place| format!("parts.{place}.material"))
        .collect();
    let expected: Vec<(&str, &str)> = fields
        .iter()
        .map(|field| (field.as_str(), sentence))
        .collect();
    assert_told(&with_parts(&[("grit", "1"); 8]), &expected);
}

#[test]
fn nine_materials() {
    let keys = [
        "composted_bark",
        "coir_pith",
        "grit",
        "sharp_sand",
        "pumice",
        "scoria",
        "white_peat",
        "black_peat",
        "wood_fibre",
    ];
    let parts = keys.map(|key| (key, "1"));
    assert_told(
        &with_parts(&parts),
        &[(
            "parts",
            "A mix may have up to 8 materials. Leave out the smallest.",
        )],
    );
    assert_told(&with_parts(&parts[..8]), &[]);
}

#[test]
fn a_material_that_nobody_knows() {
    for (key, sentence) in [
        (
            "moon dust",
            "There is no material called “moon dust”. Choose one from the list.",
        ),
        (
            "composted_brak",
            "There is no material called “composted_brak”. Did you mean “composted_bark”?",
        ),
        (
            "Composted_Bark",
            "There is no material called “Composted_Bark”. Did you mean “composted_bark”?",
        ),
        (
            "rice hulls",
            "There is no material called “rice hulls”. Did you mean “rice_hulls”?",
        ),
        (
            "ab",
            "There is no material called “ab”. Choose one from the list.",
        ),
        ("", "Choose a material."),
        ("  ", "Choose a material."),
    ] {
        assert_told(
            &with_parts(&[(key, "1")]),
            &[("parts.0.material", sentence)],
        );
    }
}

/// Another material altogether is no help to whoever types the half of a name.
#[test]
fn half_a_name_is_not_taken_for_another_material() {
    for key in ["peat", "coir", "bark", "sand", "clay", "loam"] {
        for (_, sentence) in told(&with_parts(&[(key, "1")]), DecimalMark::Ask) {
            let offered = sentence
                .split("Did you mean “")
                .nth(1)
                .and_then(|rest| rest.split('”').next());
            assert!(
                offered.is_none_or(|offered| offered.contains(key)),
                "{key}: {sentence}"
            );
        }
    }
}

#[test]
fn a_million_characters() {
    let long = "x".repeat(1_000_000);
    assert_told(
        &with_parts(&[(&long, "1")]),
        &[(
            "parts.0.material",
            "There is no material called “xxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…”. Choose one from the list.",
        )],
    );
    let too_long = "That is too long for a number. Write at most 40 digits and marks.";
    assert_told(
        &with_amount(&"9".repeat(1_000_000)),
        &[("parts.0.amount", too_long)],
    );
    assert_told(&with_amount(&format!("1{}", " ".repeat(1_000_000))), &[]);
    let spaces = " ".repeat(1_000_000);
    assert_told(
        &with_amount(&spaces),
        &[("parts.0.amount", "Write a number.")],
    );
    let use_and_pot = with(|question| {
        question.pot.size = "🌱".repeat(250_000);
        question.purpose = "é".repeat(500_000);
    });
    assert_told(
        &use_and_pot,
        &[
            (
                "pot.size",
                "There is no pot called “🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱🌱…”. Choose one from the list.",
            ),
            (
                "purpose",
                "There is no use called “éééééééééééééééééééééééééééééé…”. Choose one from the list.",
            ),
        ],
    );
}

#[test]
fn bags() {
    for (text, unit, sentence) in [
        ("", "L", "Write a number."),
        (
            "0",
            "L",
            "Size of the bag: 0\u{a0}L is too little. Between 1 and 3000\u{a0}L would be right.",
        ),
        (
            "-3",
            "L",
            "Size of the bag: -3\u{a0}L is too little. Between 1 and 3000\u{a0}L would be right.",
        ),
        (
            "5000",
            "L",
            "Size of the bag: 5000\u{a0}L is too much. Between 1 and 3000\u{a0}L would be right.",
        ),
        (
            "0.1",
            "gal",
            "Size of the bag: 0.1\u{a0}gal is too little. Between 0.22 and 659\u{a0}gal would be right.",
        ),
        (
            "1,250",
            "L",
            "1,250 can be read as 1250 or as 1.25. Write 1250 or 1.25.",
        ),
        ("70", "", "Say which unit: L, mL, m³, gal, US gal or ft³."),
        (
            "70",
            "mm",
            "mm is not a unit for this. Say which unit: L, mL, m³, gal, US gal or ft³.",
        ),
        (
            "70",
            "furlong",
            "furlong is not a unit for this. Say which unit: L, mL, m³, gal, US gal or ft³.",
        ),
    ] {
        let question = with(|question| question.parts[2].bag = Entry::new(text, unit));
        assert_told(&question, &[("parts.2.bag", sentence)]);
    }
}

#[test]
fn numbers_of_pots() {
    for (text, sentence) in [
        ("", "Write a number."),
        (
            "0",
            "Number of pots: 0 is too little. Between 1 and 100\u{202f}000 would be right.",
        ),
        (
            "-1",
            "Number of pots: -1 is too little. Between 1 and 100\u{202f}000 would be right.",
        ),
        (
            "1.5",
            "Number of pots: 1.5 is not a whole number. Write 1 or 2.",
        ),
        (
            "100001",
            "Number of pots: 100001 is too much. Between 1 and 100\u{202f}000 would be right.",
        ),
        ("1e400", "1e400 is too large. Write a smaller number."),
        (
            "1,250",
            "1,250 can be read as 1250 or as 1.25. Write 1250 or 1.25.",
        ),
    ] {
        assert_told(
            &with(|question| question.pots = Entry::new(text, "")),
            &[("pots", sentence)],
        );
    }
}

#[test]
fn uses_and_pots_that_nobody_knows() {
    for (purpose, sentence) in [
        (
            "roof",
            "There is no use called “roof”. Choose one from the list.",
        ),
        (
            "seeds",
            "There is no use called “seeds”. Did you mean “seed”?",
        ),
        (
            "growing on",
            "There is no use called “growing on”. Did you mean “growing_on”?",
        ),
        ("", "Choose a use."),
    ] {
        assert_told(
            &with(|question| question.purpose = purpose.to_owned()),
            &[("purpose", sentence)],
        );
    }
    for (size, sentence) in [
        (
            "bucket",
            "There is no pot called “bucket”. Choose one from the list.",
        ),
        (
            "round_10cm",
            "There is no pot called “round_10cm”. Did you mean “round_10_cm”?",
        ),
        (
            "own_roud",
            "There is no pot called “own_roud”. Did you mean “own_round”?",
        ),
        ("", "Choose a pot."),
    ] {
        assert_told(
            &with(|question| question.pot.size = size.to_owned()),
            &[("pot.size", sentence)],
        );
    }
}

#[test]
fn pots_that_nobody_makes() {
    let apart =
        "Rim and base are more than four times apart. Measure both inside, straight across.";
    assert_told(
        &own_pot(OWN_ROUND, ["100", "10", "100", "10"]),
        &[("pot.base", apart)],
    );
    assert_told(
        &own_pot(OWN_SQUARE, ["20", "100", "100", "10"]),
        &[("pot.base", apart)],
    );
    assert_told(
        &own_pot(OWN_ROUND, ["0", "0", "0", "0"]),
        &[
            (
                "pot.rim",
                "Breadth of the pot: 0\u{a0}mm is too little. Between 10 and 1000\u{a0}mm would be right.",
            ),
            (
                "pot.base",
                "Breadth of the pot: 0\u{a0}mm is too little. Between 10 and 1000\u{a0}mm would be right.",
            ),
            (
                "pot.height",
                "Height of the pot: 0\u{a0}mm is too little. Between 20 and 1000\u{a0}mm would be right.",
            ),
        ],
    );
    assert_told(
        &own_pot(OWN_ROUND, ["5000", "-70", "1e400", "10"]),
        &[
            (
                "pot.rim",
                "Breadth of the pot: 5000\u{a0}mm is too much. Between 10 and 1000\u{a0}mm would be right.",
            ),
            (
                "pot.base",
                "Breadth of the pot: -70\u{a0}mm is too little. Between 10 and 1000\u{a0}mm would be right.",
            ),
            ("pot.height", "1e400 is too large. Write a smaller number."),
        ],
    );
    assert_told(
        &with(|question| {
            question.pot.size = OWN_ROUND.to_owned();
            question.pot.rim = Entry::new("100", "in");
        }),
        &[(
            "pot.rim",
            "Breadth of the pot: 100\u{a0}in is too much. Between 0.394 and 39.3\u{a0}in would be right.",
        )],
    );
}

#[test]
fn volumes_and_heights_that_do_not_belong_together() {
    assert_told(
        &own_volume("500", "20"),
        &[(
            "pot.volume",
            "A pot of this volume and height would be 500 cm across. Check the two.",
        )],
    );
    assert_told(
        &own_volume("0.005", "1000"),
        &[(
            "pot.volume",
            "A pot of this volume and height would be 0.22 cm across. Check the two.",
        )],
    );
    assert_told(
        &own_volume("0", "100"),
        &[(
            "pot.volume",
            "Volume of the pot: 0\u{a0}L is too little. Between 0.005 and 500\u{a0}L would be right.",
        )],
    );
}

#[test]
fn a_pot_filled_with_nothing() {
    let sentence = "The pot is only 88 mm tall: leave less space below the rim.";
    assert_told(
        &own_pot(OWN_ROUND, ["100", "70", "88", "88"]),
        &[("pot.below_rim", sentence)],
    );
    assert_told(
        &own_pot(OWN_ROUND, ["100", "70", "88", "200"]),
        &[("pot.below_rim", sentence)],
    );
    assert_told(
        &own_pot(OWN_ROUND, ["100", "70", "88", "600"]),
        &[(
            "pot.below_rim",
            "Space below the rim: 600\u{a0}mm is too much. Between 0 and 500\u{a0}mm would be right.",
        )],
    );
    assert_told(&own_pot(OWN_ROUND, ["100", "70", "88", "0"]), &[]);
}

/// What belongs to another size of pot is kept, and not read.
#[test]
fn sizes_of_another_pot_are_not_read() {
    let question = with(|question| {
        question.pot.rim = Entry::new("mud", "furlong");
        question.pot.volume = Entry::new("", "");
    });
    assert_told(&question, &[]);
}

#[test]
fn everything_empty() {
    let question = with(|question| {
        question.parts = vec![PartAsked {
            bag: Entry::default(),
            ..PartAsked::default()
        }];
        question.pot.size = String::new();
        question.pots = Entry::default();
        question.purpose = String::new();
    });
    assert_told(
        &question,
        &[
            ("parts.0.material", "Choose a material."),
            ("parts.0.amount", "Write a number."),
            ("parts.0.bag", "Write a number."),
            ("pot.size", "Choose a pot."),
            ("pots", "Write a number."),
            ("purpose", "Choose a use."),
        ],
    );
}

/// Whoever does as the sentence says must not be refused again.
#[test]
fn what_a_sentence_says_would_be_right_is_right() {
    for text in ["0", "1000"] {
        assert_told(&with_amount(text), &[]);
    }
    for (text, unit) in [("1", "L"), ("3000", "L"), ("0.22", "gal"), ("659", "gal")] {
        assert_told(
            &with(|question| question.parts[0].bag = Entry::new(text, unit)),
            &[],
        );
    }
    for text in ["1", "100\u{202f}000"] {
        assert_told(&with(|question| question.pots = Entry::new(text, "")), &[]);
    }
    for text in ["0.394", "39.3"] {
        let question = with(|question| {
            question.pot.size = OWN_ROUND.to_owned();
            question.pot.rim = Entry::new(text, "in");
            question.pot.base = Entry::new(text, "in");
        });
        assert_told(&question, &[]);
    }
}

#[cfg(feature = "terminal")]
mod json {
    use super::*;
    use longtom::reckon::document::read_question;

    fn told(text: &str) -> Vec<(String, String)> {
        match read_question::<Mix>(text) {
            Ok(_) => Vec::new(),
            Err(problems) => problems
                .into_iter()
                .map(|problem| (problem.field, problem.sentence))
                .collect(),
        }
    }

    fn assert_told(text: &str, expected: &[(&str, &str)]) {
        let told = told(text);
        let told: Vec<(&str, &str)> = told
            .iter()
            .map(|(field, sentence)| (field.as_str(), sentence.as_str()))
            .collect();
        assert_eq!(told, expected, "{text}");
    }

    #[test]
    fn what_is_left_out_is_as_usual() {
        assert_eq!(read_question::<Mix>("{}").unwrap(), Question::default());
        let some = read_question::<Mix>(r#"{"pots": 7, "purpose": "seed"}"#).unwrap();
        assert_eq!((some.pots.text(), some.purpose.as_str()), ("7", "seed"));
        assert_eq!(some.parts, Question::default().parts);
    }

    #[test]
    fn fields_that_a_question_does_not_have() {
        assert_told(
            r#"{"moon": 1}"#,
            &[(
                "moon",
                "The question has no field “moon” here. It has: bench, bucket, chemistry, parts, pot, pots, purpose, stands.",
            )],
        );
        assert_told(
            r#"{"parts": [{"material": "grit"}, {"materal": "grit"}]}"#,
            &[(
                "parts.1.materal",
                "The question has no field “materal” here. It has: amount, bag, in_hand, material, own, price.",
            )],
        );
        assert_told(
            r#"{"pot": {"sise": 1, "depth": 2}}"#,
            &[
                (
                    "pot.depth",
                    "The question has no field “depth” here. It has: base, below_rim, height, rim, size, volume.",
                ),
                (
                    "pot.sise",
                    "The question has no field “sise” here. It has: base, below_rim, height, rim, size, volume.",
                ),
            ],
        );
        let long = format!("{{\"{}\": 1}}", "x".repeat(1_000_000));
        let (field, sentence) = &told(&long)[0];
        assert_eq!(field.len(), 1_000_000);
        assert_eq!(
            sentence,
            "The question has no field “xxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…” here. It has: bench, bucket, chemistry, parts, pot, pots, purpose, stands."
        );
    }

    const NOT_JSON: [&str; 6] = [
        "",
        "nope",
        r#"{"purpose":"seed""#,
        "\u{feff}{}",
        r#"{"pots": 1e400}"#,
        "{'pots': 1}",
    ];
    const FIELDS: &str = "Fields in braces are wanted here: bench, bucket, chemistry, parts, pot, pots, purpose, stands.";
    const FIELDS_OF_A_PART: &str =
        "Fields in braces are wanted here: amount, bag, in_hand, material, own, price.";
    const LIST: &str = "A list in square brackets is wanted here.";
    const TEXT: &str = "A text in quotation marks, or a number, is wanted here.";
    /// What is JSON and no question, the place where it goes astray, and what is wanted there.
    const NOT_A_QUESTION: [(&str, &str, &str); 11] = [
        ("null", "", FIELDS),
        ("3", "", FIELDS),
        ("\"x\"", "", FIELDS),
        ("true", "", FIELDS),
        (r#"{"parts": 3}"#, "parts", LIST),
        (r#"{"parts": [3]}"#, "parts.0", FIELDS_OF_A_PART),
        (r#"{"parts": [{"amount": {}}]}"#, "parts.0.amount", TEXT),
        (r#"{"pots": [1]}"#, "pots", TEXT),
        (r#"{"pots": {"a": 1}}"#, "pots", TEXT),
        (r#"{"pots": null}"#, "pots", TEXT),
        (r#"{"pots": true}"#, "pots", TEXT),
    ];
    /// Lists where a group of named fields is wanted.
    const LISTS: [&str; 5] = [
        "[]",
        "[[]]",
        r#"{"pot": []}"#,
        r#"{"pot": ["round_2_l"]}"#,
        r#"{"parts": [["grit", "1"]]}"#,
    ];

    #[test]
    fn what_is_no_json_is_told_with_its_place() {
        for text in NOT_JSON {
            let told = told(text);
            assert_eq!(told.len(), 1, "{text}");
            assert_eq!(told[0].0, "");
            let sentence = &told[0].1;
            assert!(
                sentence.starts_with("This is not JSON: look at line 1, column "),
                "{sentence}"
            );
        }
        assert_told("", &[("", "This is not JSON: look at line 1, column 0.")]);
        assert_told(
            "{}\n{}",
            &[("", "This is not JSON: look at line 2, column 1.")],
        );
    }

    #[test]
    fn what_is_no_question_is_told_where_it_goes_astray() {
        for (text, field, sentence) in NOT_A_QUESTION {
            assert_told(text, &[(field, sentence)]);
        }
        // A number for a name passes the shape, and is no text.
        assert_told(
            r#"{"parts": [{"material": 3}]}"#,
            &[(
                "",
                "This is not a question for this reckoning. `reckon example` prints one to start from.",
            )],
        );
    }

    /// Read by place, a list would answer another question than the one that was meant.
    #[test]
    fn a_list_is_no_question() {
        let read: Vec<&str> = LISTS
            .into_iter()
            .filter(|text| told(text).is_empty())
            .collect();
        assert_eq!(read, Vec::<&str>::new(), "read as if they were questions");
    }

    /// A sentence is for whoever wrote the file, not for whoever wrote the program.
    #[test]
    fn no_sentence_speaks_the_language_of_the_program() {
        let mut spoken = Vec::new();
        let shapes = NOT_A_QUESTION.into_iter().map(|(text, _, _)| text);
        for text in NOT_JSON.into_iter().chain(shapes) {
            for (_, sentence) in told(text) {
                let lower = sentence.to_lowercase();
                if ["invalid", "error", "struct ", "eof", "ident ", "oops"]
                    .iter()
                    .any(|word| lower.contains(word))
                {
                    spoken.push(sentence);
                }
            }
        }
        assert_eq!(spoken, Vec::<String>::new());
    }

    #[test]
    fn a_very_deep_list_does_not_break_the_reader() {
        let deep = format!(
            "{{\"parts\": {}{}}}",
            "[".repeat(100_000),
            "]".repeat(100_000)
        );
        assert_eq!(told(&deep).len(), 1);
    }
}

/// Careless questions, in their thousands: each is answered, or refused with a sentence at a field.
#[test]
fn careless_questions_are_answered_or_told_what_is_wrong() {
    const MANY: usize = 20_000;
    let mut draws = Draws::from_seed(2026);
    let (mut answered, mut refused) = (0, 0);
    for _ in 0..MANY {
        let question = Mix::careless(&mut draws);
        match Mix::check(&question, DecimalMark::Ask) {
            Ok(case) => {
                let answer = Mix::answer(&case, None)
                    .unwrap_or_else(|problem| panic!("{problem:?}: {question:?}"));
                for figure in &answer.figures {
                    assert!(
                        figure.range.best().is_finite(),
                        "{}: {question:?}",
                        figure.name.name
                    );
                    // A hair of rounding below nought is looked at by itself, in `mix.rs`.
                    assert!(
                        figure.range.best() >= -1e-12,
                        "{}: {question:?}",
                        figure.name.name
                    );
                }
                assert!(
                    !answer.advice.is_empty()
                        && !answer.working.is_empty()
                        && !answer.cautions.is_empty()
                );
                assert!(
                    answer
                        .detail
                        .shopping
                        .iter()
                        .all(|bought| bought.left_over_litres >= -1e-9),
                    "{question:?}"
                );
                answered += 1;
            }
            Err(problems) => {
                assert!(!problems.is_empty(), "{question:?}");
                for problem in problems {
                    let sentence = problem.sentence;
                    assert!(!problem.field.is_empty(), "{sentence}: {question:?}");
                    assert!(
                        sentence.ends_with(['.', '?']) && sentence.len() < 300,
                        "{sentence}"
                    );
                }
                refused += 1;
            }
        }
    }
    println!("{answered} answered, {refused} refused with a sentence");
    assert!(
        answered > MANY / 4 && refused > MANY / 4,
        "both ways are tried: {answered} and {refused}"
    );
}

#[test]
fn ranges_of_careless_questions_do_not_break() {
    const MANY: usize = 100;
    const DRAWS: u32 = 200;
    let mut draws = Draws::from_seed(77);
    let mut answered = 0;
    while answered < MANY {
        let question = Mix::careless(&mut draws);
        let Ok(case) = Mix::check(&question, DecimalMark::Ask) else {
            continue;
        };
        let doubt = doubt_of::<Mix>(case.clone(), DRAWS, answered as u64)
            .unwrap_or_else(|problem| panic!("{problem:?}: {question:?}"));
        let answer = Mix::answer(&case, Some(&doubt))
            .unwrap_or_else(|problem| panic!("{problem:?}: {question:?}"));
        for figure in &answer.figures {
            let range = figure.range;
            let in_order = range.low() <= range.best() && range.best() <= range.high();
            assert!(
                in_order && range.low().is_finite() && range.high().is_finite(),
                "{}: {question:?}",
                figure.name.name
            );
        }
        assert!(
            answer
                .detail
                .shopping
                .iter()
                .all(|bought| bought.bags_to_be_sure >= bought.bags),
            "{question:?}"
        );
        answered += 1;
    }
}

/// What is asked more seldom.
mod seldom {
    use super::*;
    use longtom::reckon::mix::{DRAIN_TEST, OWN_FIGURES};

    fn typed(path: &'static str, text: &str, unit: &str) -> Vec<(String, String)> {
        let question = with(|question| {
            let entry = question
                .numbers()
                .into_iter()
                .find(|(name, _)| *name == path);
            *entry.unwrap().1 = Entry::new(text, unit);
        });
        told(&question, DecimalMark::Ask)
    }

    /// A number of the first part, whose own figures or drain test are asked for.
    fn of_part(whose: &str, changes: &[(&str, &str, &str)]) -> Question {
        with(|question| {
            let part = &mut question.parts[0];
            whose.clone_into(&mut part.own.figures);
            for (path, text, unit) in changes {
                let entry = part.numbers().into_iter().find(|(name, _)| name == path);
                *entry.unwrap().1 = Entry::new(*text, *unit);
            }
        })
    }

    /// A test that was done with care: 1 L and 2 L of damp bark.
    const WEIGHED: [(&str, &str, &str); 11] = [
        ("own.moisture", "45", "%"),
        ("own.short.volume", "1", "L"),
        ("own.short.height", "100", "mm"),
        ("own.short.filled", "420", "g"),
        ("own.short.soaked", "940", "g"),
        ("own.short.drained", "640", "g"),
        ("own.tall.volume", "2", "L"),
        ("own.tall.height", "200", "mm"),
        ("own.tall.filled", "840", "g"),
        ("own.tall.soaked", "1880", "g"),
        ("own.tall.drained", "1180", "g"),
    ];

    fn weighed(changes: &[(&'static str, &'static str, &'static str)]) -> Question {
        let all: Vec<(&str, &str, &str)> = WEIGHED.iter().chain(changes).copied().collect();
        of_part(DRAIN_TEST, &all)
    }

    #[test]
    fn numbers_that_cannot_be() {
        for (path, text, unit, sentence) in [
            (
                "stands.tray",
                "5000",
                "mm",
                "Depth of water in the tray: 5000\u{a0}mm is too much. Between 0 and 300\u{a0}mm would be right.",
            ),
            ("stands.tray", "", "mm", "Write a number."),
            (
                "stands.bed",
                "-10",
                "mm",
                "Depth of the bed: -10\u{a0}mm is too little. Between 0 and 500\u{a0}mm would be right.",
            ),
            (
                "stands.drinks",
                "0",
                "mL",
                "What a plant drinks in a day: 0\u{a0}mL is too little. Between 1 and 50\u{202f}000\u{a0}mL would be right.",
            ),
            (
                "bench.spacing",
                "0",
                "mm",
                "From pot to pot: 0\u{a0}mm is too little. Between 10 and 5000\u{a0}mm would be right.",
            ),
            (
                "bench.spacing",
                "90",
                "mm",
                "The pots are 100 mm across inside, so their middles are at least that far apart.",
            ),
            (
                "bench.limit",
                "much",
                "kg/m2",
                "“much” is not a number. Write one such as 12, 2.5 or 2 1/2.",
            ),
            (
                "chemistry.lime",
                "500",
                "g/L",
                "Ground limestone: 500\u{a0}g/L is too much. Between 0 and 50\u{a0}g/L would be right.",
            ),
            (
                "chemistry.alkalinity",
                "3",
                "mm",
                "mm is not a unit for this. Say which unit: g/L, mg/L, kg/m³ or lb/ft³.",
            ),
        ] {
            let told = typed(path, text, unit);
            assert_eq!(told.len(), 1, "{path}: {told:?}");
            assert_eq!(told[0], (path.to_owned(), sentence.to_owned()));
        }
    }

    /// Half a bucket test is no test, and no mix grows.
    #[test]
    fn bucket_tests_that_cannot_be() {
        assert_eq!(
            typed("bucket.mixed", "9", "L"),
            [("bucket.loose".to_owned(), "Write a number.".to_owned())]
        );
        for (mixed, sentence) in [
            (
                "12",
                "The mix measures more than what went in. Measure all of it the same way, loose and struck off.",
            ),
            (
                "4",
                "No mix loses half of its volume. Measure the mix again, loose and not pressed.",
            ),
        ] {
            let question = with(|question| {
                question.bucket.loose = Entry::new("10", "L");
                question.bucket.mixed = Entry::new(mixed, "L");
            });
            assert_told(&question, &[("bucket.mixed", sentence)]);
        }
    }

    #[test]
    fn weights_that_cannot_be() {
        assert_told(&weighed(&[]), &[]);
        for (change, at, sentence) in [
            (
                ("own.short.drained", "960", "g"),
                "short.drained",
                "It weighs more drained than soaked. Check whether the two are swapped.",
            ),
            (
                ("own.short.drained", "100", "g"),
                "short.drained",
                "It weighs less drained than dry. Check that the vessel is taken off both.",
            ),
            (
                ("own.tall.soaked", "18800", "g"),
                "tall.soaked",
                "There would be 9.17 L of water for each litre of the vessel. Check its volume, and that the vessel is taken off the weights.",
            ),
            (
                ("own.moisture", "96", "%"),
                "moisture",
                "Water in what was filled in: 96% is too much. Between 0 and 95% would be right.",
            ),
            (("own.moisture", "", "%"), "moisture", "Write a number."),
            (
                ("own.tall.height", "", "mm"),
                "tall.height",
                "Write a number.",
            ),
            (
                ("own.short.volume", "1", "g"),
                "short.volume",
                "g is not a unit for this. Say which unit: L, mL, m³, gal, US gal or ft³.",
            ),
        ] {
            let at = format!("parts.0.own.{at}");
            assert_told(&weighed(&[change]), &[(&at, sentence)]);
        }
    }

    #[test]
    fn own_figures_that_cannot_be() {
        for (pore_space, at, sentence) in [
            (
                "40",
                "water_at_10_cm",
                "Water at 10 cm of suction (60%) must be less than the pore space (40%). Check the two.",
            ),
            (
                "120",
                "pore_space",
                "Pore space: 120% is too much. Between 5 and 99% would be right.",
            ),
        ] {
            let changes = [
                ("own.pore_space", pore_space, "%"),
                ("own.water_at_10_cm", "60", "%"),
            ];
            let at = format!("parts.0.own.{at}");
            assert_told(&of_part(OWN_FIGURES, &changes), &[(&at, sentence)]);
        }
    }

    #[test]
    fn choices_that_there_are_not() {
        let question = with(|question| {
            question.bench.set_out = "hexagon".to_owned();
            question.chemistry.feed = "lots".to_owned();
            question.parts[1].own.figures = "drain_tset".to_owned();
        });
        assert_told(
            &question,
            &[
                (
                    "parts.1.own.figures",
                    "There is no choice of figures called “drain_tset”. Did you mean “drain_test”?",
                ),
                (
                    "bench.set_out",
                    "There is no way to set pots out called “hexagon”. Choose one from the list.",
                ),
                (
                    "chemistry.feed",
                    "There is no charge of feed called “lots”. Choose one from the list.",
                ),
            ],
        );
    }
}
