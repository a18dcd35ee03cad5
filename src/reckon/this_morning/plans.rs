//! What is to be sown, and bought for it.

use super::asked::{Asked, Planned};
use super::{Done, Due, Opens, What, words};
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Texts};
use crate::reckon::season::bought_until;

/// What is sown within so many days is bought for now.
const BOUGHT_BEFORE_DAYS: i32 = 21;
/// What was written down as bought within so many days is bought.
const BOUGHT_LATELY_DAYS: i32 = 45;

/// Adds what plans want.
pub fn due(asked: &Asked<'_>, all: &mut Vec<Due>) {
    for planned in asked.planned() {
        all.extend(sow(asked, &planned));
    }
    buy(asked, all);
}

fn sow(asked: &Asked<'_>, planned: &Planned<'_>) -> Option<Due> {
    let Planned { plan, told } = planned;
    let from = Day::from_iso(&told.on)?;
    let mut batch = Texts::default()
        .with("name", plan.own_name())
        .with("sown", &asked.today.iso())
        .with("number", &told.cells.to_string())
        .with("plan", &plan.id.text());
    for (of_batch, of_plan) in [
        ("crop", "crop"),
        ("variety", "variety"),
        ("seed_lot", "seed_lot"),
        ("inside", "first"),
    ] {
        batch.set(of_batch, plan.text(of_plan));
    }
    // It is sown into its pots, or else into cells: then the pot comes with potting.
    if told.into_pots {
        batch.set("pot", plan.text("pot"));
    }
    Some(Due {
        what: What::Sow,
        about: Some(plan.id),
        from,
        sentence: words::sow(plan.own_name(), told),
        left: words::sow_left(told, from, asked.today),
        opens: Opens::New("batch", batch.clone()),
        done: Some(Done {
            kind: "batch",
            texts: batch,
        }),
        loses: f64::from(told.pots) * What::Sow.lost_in_a_day(),
    })
}

/// What is short for the sowings of the next weeks, unless it was bought lately.
fn buy(asked: &Asked<'_>, all: &mut Vec<Due>) {
    let until = asked.today.plus(BOUGHT_BEFORE_DAYS);
    let first = asked
        .planned()
        .filter_map(|planned| Day::from_iso(&planned.told.on))
        .filter(|on| *on <= until)
        .min();
    let Some(first) = first else { return };
    let plants: u32 = asked
        .planned()
        .filter(|planned| planned.told.on <= until.iso())
        .map(|planned| planned.told.pots)
        .sum();
    let lately = asked.today.plus(-BOUGHT_LATELY_DAYS);
    for line in bought_until(&asked.case, until) {
        let is_bought = asked.record.of_kind("bought").any(|bought| {
            bought.text("what") == line.what && bought.day(DAY).is_some_and(|day| day >= lately)
        });
        if line.buy == 0 || is_bought {
            continue;
        }
        let bought = Texts::default()
            .with(DAY, &asked.today.iso())
            .with("what", &line.what)
            .with("amount", &line.buy.to_string());
        all.push(Due {
            what: What::Buy,
            about: None,
            from: asked.today,
            sentence: words::buy(&line),
            left: words::buy_left(first),
            // Whom it was bought from is to be kept, and only the grower knows.
            opens: Opens::New("bought", bought),
            done: None,
            loses: f64::from(plants) * What::Buy.lost_in_a_day(),
        });
    }
}
