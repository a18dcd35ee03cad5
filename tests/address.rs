//! Addresses: what stands in a link is read back to the letter, and nothing hostile breaks it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use longtom::keep::address;
use longtom::measure::{DecimalMark, Entry};
use longtom::reckon::Reckoning;
use longtom::reckon::form::{make_portable, put, texts};
use longtom::reckon::mix::{Mix, Question};
use longtom::science::numerics::draws::Draws;
use proptest::prelude::*;

fn write(question: &Question) -> String {
    address::write(&texts(&mut question.clone()))
}

fn read(linked: &str) -> Option<Question> {
    let mut question = Question::default();
    put(&mut question, &address::read(linked)?).then_some(question)
}

#[test]
fn the_usual_question_reads_as_its_fields() {
    let address = write(&Question::default());
    assert!(
        address.starts_with(
            "parts.0.material=composted_bark&parts.0.amount=3&parts.0.bag=70%20L&parts.1.material="
        ),
        "{address}"
    );
    assert_eq!(read(&address), Some(Question::default()));
}

#[test]
fn a_thousand_careless_questions_come_back_as_they_went() {
    let mut draws = Draws::from_seed(7);
    let mut with_parts = 0;
    for _ in 0..1000 {
        let question = Mix::careless(&mut draws);
        let address = write(&question);
        // Longer than any link of ours, or of nothing: neither can be made on a page.
        if address.len() > 8_000 || question.parts.is_empty() {
            continue;
        }
        with_parts += 1;
        assert_eq!(read(&address), Some(question), "{address}");
    }
    assert!(with_parts > 700, "{with_parts}");
}

#[test]
fn a_link_means_the_same_under_another_decimal_mark() {
    let mut question = Question::default();
    question.parts[0].amount = Entry::new("1,250", "");
    let mut portable = question.clone();
    make_portable(&mut portable, DecimalMark::Comma);
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
    let read = read("pots=7&moon=1&pot.size=round_2_l&purpose=seed").unwrap();
    assert_eq!(
        (read.pots.text(), read.pot.size.as_str()),
        ("7", "round_2_l")
    );
    assert_eq!(
        read.parts,
        Question::default().parts,
        "what the link leaves out is as the page opens with it"
    );
}

#[test]
fn a_list_is_as_long_as_the_link_makes_it() {
    let read = read("parts.1.material=coir_pith&parts.1.amount=2").unwrap();
    assert_eq!(read.parts.len(), 2);
    assert_eq!(read.parts[0].material, "");
    assert_eq!(read.parts[1].amount.text(), "2");
    assert_eq!(read.parts[1].bag.text(), "70", "the usual bag");
}

#[test]
fn hostile_addresses_are_refused_or_read_and_never_break() {
    let long = format!("pots={}", "9".repeat(50_000));
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
        assert_eq!(read(address), None, "{address}");
    }
}

proptest! {
    #[test]
    fn any_text_at_all_is_survived(text in "\\PC{0,300}") {
        let _ = read(&text);
    }

    #[test]
    fn any_typed_text_comes_back(text in "\\PC{1,40}", unit in "[a-z]{0,3}") {
        let question = Question { pots: Entry::new(text, unit), ..Question::default() };
        let back = read(&write(&question)).unwrap();
        prop_assert_eq!(back.pots, question.pots);
    }
}
