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
        bag: Entry::new("70", "L"),
    }
}

/// The usual question with a change.
fn with(change: impl FnOnce(&mut Question)) -> Question {
    let mut question = Question::default();
    change(&mut question);
    question
}

fn with_parts(parts: &[(&str, &str)]) -> Question {
    with(|question| question.parts = parts.iter().map(|&(material, amount)| part(material, amount)).collect())
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
        Err(problems) => problems.into_iter().map(|problem| (problem.field, problem.sentence)).collect(),
    }
}

#[test]
fn probe() {
    let show = |name: &str, question: Question| {
        for (field, sentence) in told(&question, DecimalMark::Ask) { println!("{name} | {field} | {sentence}"); }
    };
    for text in ["0","-1","","   ","abc","1e400","-1e400","1e-400","1,250","1.250","1 250 0","1/0","2 1/2","½","1001","NaN","inf","0x10","1_000","٣","７","7 mm","--3","\u{0}","🌱","1e3","9999999999999999999999999999999999999999999"] { show(&format!("amount {text:?}"), with_amount(text)); }
    show("amount mm", with(|q| q.parts[0].amount = Entry::new("3","mm")));
    show("all zero", with_parts(&[("composted_bark","0"),("coir_pith","0"),("grit","0.0")]));
    show("neg", with_parts(&[("composted_bark","-3"),("coir_pith","-0")]));
    show("none", with_parts(&[]));
    show("eight same", with_parts(&[("grit","1");8]));
    show("nine", with_parts(&[("composted_bark","1"),("coir_pith","1"),("grit","1"),("sharp_sand","1"),("pumice","1"),("scoria","1"),("white_peat","1"),("black_peat","1"),("wood_fibre","1")]));
    for m in ["moon dust","composted_brak","Composted_Bark","perlite","","coir","peat","ab","rice hulls"] { show(&format!("mat {m:?}"), with_parts(&[(m,"1")])); }
    show("million", with_parts(&[(&"x".repeat(1_000_000),"1")]));
    show("million amount", with_amount(&"9".repeat(1_000_000)));
    for b in [("0","L"),("","L"),("70",""),("70","mm"),("70","furlong"),("5000","L"),("1,250","L"),("-3","L"),("0.1","gal")] { show(&format!("bag {b:?}"), with(|q| q.parts[0].bag = Entry::new(b.0,b.1))); }
    for p in ["0","-1","1.5","100001","1e400","","1,250"] { show(&format!("pots {p:?}"), with(|q| q.pots = Entry::new(p,""))); }
    for u in ["roof","","seeds","Seed","growing on"] { show(&format!("use {u:?}"), with(|q| q.purpose = u.to_owned())); }
    for u in ["bucket","","round_10cm","own_roud"] { show(&format!("pot {u:?}"), with(|q| q.pot.size = u.to_owned())); }
    show("taper", own_pot(OWN_ROUND, ["100","10","100","10"]));
    show("taper sq", own_pot(OWN_SQUARE, ["20","100","100","10"]));
    show("zero sized", own_pot(OWN_ROUND, ["0","0","0","0"]));
    show("huge", own_pot(OWN_ROUND, ["5000","1e9","1e400","-3"]));
    show("fill nothing", own_pot(OWN_ROUND, ["100","70","88","88"]));
    show("fill less", own_pot(OWN_ROUND, ["100","70","88","200"]));
    show("fill over", own_pot(OWN_ROUND, ["100","70","88","600"]));
    show("flat", own_volume("500","20")); show("thin", own_volume("0.005","1000")); show("no vol", own_volume("0","100"));
    let mut e = Question::default(); e.parts = vec![PartAsked::default()]; e.pot.size = String::new(); e.pots = Entry::default(); e.purpose = String::new(); show("empty all", e);
    show("inches", with(|q| {q.pot.size = OWN_ROUND.into(); q.pot.rim = Entry::new("100","in");}));
    #[cfg(feature="terminal")]
    for t in ["", "nope", "[]", "{}", "null", "3", "\"x\"", "{\"parts\":3}", "{\"parts\":[3]}", "{\"parts\":[{\"material\":3}]}", "{\"pots\":[1]}", "{\"pots\":{\"a\":1}}", "{\"pots\":null}", "{\"pots\":true}","{\"pot\":[]}", "{\"moon\":1}", "{\"parts\":[{\"materal\":\"grit\"}]}", "{\"pot\":{\"sise\":1,\"depth\":2}}", "{\"parts\":[],\"parts\":[]}", "{\"pots\": 20}", "{\"pots\": 1e400}", "{\"pots\": -0.5}", "{\"purpose\":\"seed\"", "[[]]", "\u{feff}{}"] {
        match longtom::reckon::document::read_question::<Mix>(t) { Ok(q) => println!("json {t:?} | ok {}", serde_json::to_string(&q).unwrap()), Err(ps) => for p in ps { println!("json {t:?} | {} | {}", p.field, p.sentence); } }
    }
}
