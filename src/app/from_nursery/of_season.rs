//! What Season takes from the record, and keeps there: all that it asks at once, and the sowings as plans.

use super::{Keeps, Kept, Side, answered, asked};
use crate::app::record::Ledger;
use crate::app::route::{self, Page};
use crate::measure::letters::capitalised;
use crate::nursery::{Day, Id, Record, Texts};
use crate::reckon::Reckoning;
use crate::reckon::form::Texts as Answered;
use crate::reckon::season::{Question, SOWN_KEPT, Season, SowingAsked, kept_at};

pub const SIDE: Side = Side {
    whole: Some(("Take it all from the record", take)),
    keeps: Keeps::Named("Keep these sowings as plans, of the season called"),
    keep,
    ..Side::EMPTY
};

fn take(ledger: Ledger) -> bool {
    let question = ledger.read(|record| Season::of_record(record, ledger.today()));
    let Some(mut question) = question else {
        return false;
    };
    route::go(&route::asked(Page::Season, &mut question));
    true
}

/// Each sowing becomes a plan; the first of a row that was a plan already changes that.
fn keep(ledger: Ledger, name: &str) -> Kept {
    let Some(answer) = answered::read() else {
        return Kept::wait();
    };
    let question = asked::<Question>();
    let mut entries = Vec::new();
    let mut changed: Vec<Id> = Vec::new();
    let (mut new, mut again) = (0, 0);
    for place in 0.. {
        let of = |what: &str| answered::text(&answer, &kept_at(place, what)).to_owned();
        let row: Option<usize> = of(SOWN_KEPT).parse().ok();
        let Some(row) = row else { break };
        let Some(sowing) = question.sowings.get(row) else {
            continue;
        };
        let plan = plan_texts(ledger, &answer, &question, sowing, place, name);
        let before = Id::read(&sowing.plan)
            .filter(|plan| !changed.contains(plan))
            .filter(|plan| ledger.read(|record| record.get(*plan).is_some_and(|plan| !plan.gone)));
        let entry = match before {
            Some(before) => {
                changed.push(before);
                again += 1;
                // What it is called, and for whom, stays.
                let fields: Vec<(&str, &str)> =
                    plan.iter().filter(|(path, _)| *path != "name").collect();
                ledger.change(before, &fields)
            }
            None => {
                new += 1;
                ledger.add("plan", plan)
            }
        };
        entries.extend(entry);
    }
    if entries.is_empty() && again == 0 {
        return Kept::not();
    }
    let told = match (new, again) {
        (_, 0) => format!(
            "Kept as {}. What is due of them stands under This morning.",
            plans(new)
        ),
        (0, _) => format!("{} changed.", capitalised(&plans(again))),
        _ => format!("Kept as {}, and {} changed.", plans(new), plans(again)),
    };
    Kept { told, entries }
}

fn plans(many: u32) -> String {
    if many == 1 {
        "1 plan".to_owned()
    } else {
        format!("{many} plans")
    }
}

fn plan_texts(
    ledger: Ledger,
    answer: &Answered,
    question: &Question,
    sowing: &SowingAsked,
    place: usize,
    name: &str,
) -> Texts {
    let of = |what: &str| answered::text(answer, &kept_at(place, what));
    let on = Day::from_iso(of("on"));
    let called = [
        of("crop"),
        ", ",
        &on.map_or_else(String::new, Day::in_short),
        " (",
        name,
        ")",
    ];
    let mut plan = Texts::default()
        .with("name", &capitalised(&called.concat()))
        .with("crop", &sowing.crop)
        .with("wanted", sowing.wanted.text())
        .with("sow_on", of("on"))
        .with("ready_by", of("ready"))
        .with("number", of("cells"))
        .with("pot", &sowing.pot)
        .with("spacing", &sowing.spacing.stored());
    ledger.read(|record| {
        for (path, key) in [("first", &sowing.first), ("then", &sowing.then)] {
            if let Some(bay) = bay_of(record, question, key) {
                plan.set(path, &bay.text());
            }
        }
    });
    plan
}

/// The bay of the record that a place of the question is called after.
fn bay_of(record: &Record, question: &Question, key: &str) -> Option<Id> {
    let place: usize = key.parse().ok()?;
    let name = question.places.get(place.checked_sub(1)?)?.name.trim();
    let mut bays = record.of_kind("bay");
    bays.find(|bay| bay.own_name().trim() == name)
        .map(|bay| bay.id)
}
