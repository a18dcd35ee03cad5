//! Addresses: what stands in a link is read back to the letter, and nothing hostile breaks it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::keep::address::{read, write};
use longtom::measure::{DecimalMark, Entry};
use longtom::reckon::Reckoning;
use longtom::reckon::mix::{Mix, PartAsked, Question};
use longtom::science::numerics::draws::Draws;
use proptest::prelude::*;

#[test]
fn the_usual_question_reads_as_its_fields() {
    let address = write(&Question::default()).unwrap();
    assert!(
        address.starts_with(
            "parts.0.amount=3&parts.0.bag=70%20L&parts.0.material=composted_bark&parts.1.amount=1"
        ),
        "{address}"
    );
    assert_eq!(read::<Question>(&address), Some(Question::default()));
}

#[test]
fn a_thousand_careless_questions_come_back_as_they_went() {
    let mut draws = Draws::from_seed(7);
    for _ in 0..1000 {
        let question = Mix::careless(&mut draws);
        let address = write(&question).unwrap();
        let back: Question = read(&address).expect("an address of ours is read");
        // A part with all its fields empty leaves no trace, and that is all a link may lose.
        let said = |q: &Question| serde_json::to_value(q).unwrap();
        if question
            .parts
            .iter()
            .all(|part| part != &PartAsked::default())
        {
            assert_eq!(said(&back), said(&question), "{address}");
        }
    }
}

#[test]
fn a_link_means_the_same_under_another_decimal_mark() {
    let mut question = Question::default();
    question.parts[0].amount = Entry::new("1,250", "");
    let portable = Mix::portable(&question, DecimalMark::Comma);
    for mark in [DecimalMark::Ask, DecimalMark::Point, DecimalMark::Comma] {
        let theirs = Mix::check(&portable, mark).unwrap();
        let ours = Mix::check(&question, DecimalMark::Comma).unwrap();
        assert_eq!(
            theirs.parts[0].share.to_bits(),
            ours.parts[0].share.to_bits()
        );
    }
}

#[test]
fn what_a_question_does_not_have_is_passed_over() {
    let read = read::<Question>("pots=7&moon=1&pot.size=round_2_l&purpose=seed").unwrap();
    assert_eq!(
        (read.pots.text(), read.pot.size.as_str()),
        ("7", "round_2_l")
    );
    assert!(
        read.parts.is_empty(),
        "a list that the link leaves out was empty"
    );
}

#[test]
fn hostile_addresses_are_refused_or_read_and_never_break() {
    let long = format!("pots={}", "9".repeat(10_000));
    for address in [
        "",
        "=",
        "&&",
        "%",
        "pots=%F",
        "pots=%FF",
        "parts.9999999.amount=1",
        "a.b.c.d.e.f.g=1",
        "parts=1",
        "pot=1",
        long.as_str(),
    ] {
        assert_eq!(read::<Question>(address), None, "{address}");
    }
}

proptest! {
    #[test]
    fn any_text_at_all_is_survived(text in "\\PC{0,300}") {
        let _ = read::<Question>(&text);
    }

    #[test]
    fn any_typed_text_comes_back(text in "\\PC{1,40}", unit in "[a-z]{0,3}") {
        let question = Question { pots: Entry::new(text, unit), ..Question::default() };
        let back: Question = read(&write(&question).unwrap()).unwrap();
        prop_assert_eq!(back.pots, question.pots);
    }
}
