//! What stands where: houses with their bays and benches, and the batches in them.

use crate::app::markup::Markup;
use crate::app::widgets::things::{address_of, address_of_new, said_of, write_button};
use crate::measure::{DecimalMark, write_number};
use crate::nursery::day::month_name;
use crate::nursery::kinds::DAY;
use crate::nursery::{Day, Id, Record, Thing};

/// A batch as it stands on a day.
pub struct Standing {
    /// The batch.
    pub id: Id,
    /// Where it stands, if anywhere.
    pub place: Option<Id>,
    /// How many plants there are, where it was ever said.
    pub number: Option<f64>,
    /// What became of it last, and when.
    pub stage: String,
    /// Whether it has come to its end.
    pub ended: bool,
}

/// All batches as they stand on a day, by their id.
#[must_use]
pub fn standing(record: &Record, today: Day) -> Vec<Standing> {
    let places = record.where_batches_stand(today);
    let mut all: Vec<Standing> = places
        .into_iter()
        .map(|(id, place)| Standing {
            id,
            place,
            number: record.get(id).and_then(|batch| batch.base("number")),
            stage: String::new(),
            ended: false,
        })
        .collect();
    for batch in &mut all {
        let last = count(record, batch, today);
        let sown = || record.get(batch.id)?.day("sown");
        batch.stage = match last.and_then(|last| Some((last, last.day(DAY)?))) {
            Some((last, day)) => [&said_of(record, last, "what"), ", ", &short(day)].concat(),
            None => sown().map_or_else(String::new, |day| ["sown ", &short(day)].concat()),
        };
    }
    all
}

/// Counts a batch by what has been written of it. Gives back the last stage at which it was.
fn count<'a>(record: &'a Record, batch: &mut Standing, today: Day) -> Option<&'a Thing> {
    let mut last = None;
    let dated = |log: &&Thing| log.day(DAY).is_some();
    for log in record.stages_of(batch.id, today).filter(dated) {
        // Most stages say no number, and there are thousands.
        let said = !log.text("number").is_empty();
        let number = said.then(|| log.base("number")).flatten();
        let stage = log.kind == "stage";
        let what = if stage { log.choice("what") } else { None };
        match what {
            // What is lost or sold is taken away; at any other stage the plants are counted.
            None | Some("lost") => {
                batch.number = batch
                    .number
                    .map(|before| (before - number.unwrap_or(0.0)).max(0.0));
            }
            Some(_) => batch.number = number.or(batch.number),
        }
        if stage && what != Some("lost") {
            batch.ended = what == Some("ended");
            last = Some(log);
        }
    }
    last
}

/// `3 May`.
fn short(day: Day) -> String {
    let (_, month, day) = day.civil();
    [&day.to_string(), " ", month_name(month)].concat()
}

/// A sign for how plants stand: the pot on the floor, on slats, on a bench, on warmth.
const SIGNS: [(&str, &str); 5] = [
    ("floor", "M3 20h18M9 20l-1-8h8l-1 8"),
    ("raised", "M3 21h18M5 17h14M7 17v4M17 17v4M9 17l-1-8h8l-1 8"),
    ("bench", "M3 12h18M5 12v9M19 12v9M9 12l-1-8h8l-1 8"),
    (
        "heated_bench",
        "M3 12h18M5 12v9M19 12v9M9 12l-1-8h8l-1 8M8 16q2-2 4 0t4 0M8 20q2-2 4 0t4 0",
    ),
    ("", "M4 20V8h16v12z"),
];

fn write_sign(markup: &mut Markup, standing: &str) {
    let known = SIGNS.iter().find(|(key, _)| *key == standing);
    let sign = [
        ("class", "sign"),
        ("viewBox", "0 0 24 24"),
        ("aria-hidden", "true"),
    ];
    markup.within("svg", &sign, &mut |svg| {
        svg.mark("path", &[("d", known.map_or(SIGNS[4].1, |(_, path)| path))]);
    });
}

/// The plan, and what is known while it is written.
pub struct Plan<'a> {
    record: &'a Record,
    batches: Vec<Standing>,
    /// Places that have been drawn.
    drawn: Vec<Id>,
    today: Day,
}

/// Places may stand in each other so deep.
const DEEPEST: usize = 4;

impl<'a> Plan<'a> {
    /// The plan of a day.
    #[must_use]
    pub fn new(record: &'a Record, today: Day) -> Self {
        Self {
            record,
            batches: standing(record, today),
            drawn: Vec::new(),
            today,
        }
    }

    /// Writes all of it.
    pub fn write(&mut self, markup: &mut Markup) {
        let record = self.record;
        for house in record.of_kind("house") {
            let id = house.id.text();
            markup.within("section", &[("class", "house")], &mut |section| {
                section.within("h2", &[], &mut |head| {
                    head.element("a", &[("href", &address_of(house.id))], house.own_name());
                });
                let told: Vec<String> = ["cover", "heated", "set_point"]
                    .iter()
                    .map(|path| said_of(record, house, path))
                    .filter(|text| !text.is_empty())
                    .collect();
                section.element("p", &[("class", "hint")], &told.join(" · "));
                self.drawn.push(house.id);
                let bays = self.write_inside(section, house.id, 0);
                self.write_batches(section, house.id, false);
                section.within("p", &[("class", "acts")], &mut |line| {
                    let class = if bays { "quiet button" } else { "button" };
                    let new = address_of_new("bay", &[("inside", &id)]);
                    write_button(line, class, &new, "Add a bay or bench");
                });
            });
        }
        self.write_elsewhere(markup);
    }

    /// What stands in a place; false where no bay does.
    fn write_inside(&mut self, markup: &mut Markup, outer: Id, depth: usize) -> bool {
        let record = self.record;
        let inner: Vec<&Thing> = record
            .inside("bay", outer)
            .chain(record.inside("tray", outer))
            .filter(|place| !self.drawn.contains(&place.id))
            .collect();
        if inner.is_empty() || depth >= DEEPEST {
            return false;
        }
        markup.within("ul", &[("class", "bays")], &mut |list| {
            for place in &inner {
                self.write_place(list, place, depth);
            }
        });
        true
    }

    fn write_place(&mut self, list: &mut Markup, place: &Thing, depth: usize) {
        self.drawn.push(place.id);
        let record = self.record;
        let words = match said_of(record, place, "standing") {
            words if words.is_empty() => place.table().map_or("", |kind| kind.name).to_owned(),
            words => words,
        };
        list.within("li", &[("class", "bay")], &mut |row| {
            let link = [("class", "bay-head"), ("href", &*address_of(place.id))];
            row.within("a", &link, &mut |link| {
                write_sign(link, place.text("standing"));
                link.element("strong", &[], place.own_name())
                    .text(" ")
                    .element("span", &[], &words);
            });
            self.write_batches(row, place.id, true);
            self.write_inside(row, place.id, depth + 1);
        });
    }

    /// The batches directly in a place, and what adds one.
    fn write_batches(&self, markup: &mut Markup, place: Id, add: bool) {
        let here: Vec<&Standing> = self
            .batches
            .iter()
            .filter(|batch| batch.place == Some(place) && !batch.ended)
            .collect();
        if here.is_empty() && !add {
            return;
        }
        markup.within("ul", &[("class", "batches")], &mut |list| {
            for batch in &here {
                list.within("li", &[], &mut |row| write_batch(row, self.record, batch));
            }
            if add {
                let (place, today) = (place.text(), self.today.iso());
                let known = [("inside", &*place), ("sown", &*today)];
                list.within("li", &[("class", "add")], &mut |row| {
                    let new = address_of_new("batch", &known);
                    write_button(row, "plain", &new, "Add a batch here");
                });
            }
        });
    }

    /// Places that are in no house, and batches that stand nowhere.
    fn write_elsewhere(&mut self, markup: &mut Markup) {
        let record = self.record;
        let loose: Vec<&Thing> = record
            .of_kind("bay")
            .chain(record.of_kind("tray"))
            .filter(|place| !self.drawn.contains(&place.id))
            .collect();
        let placed = |place: Option<Id>| {
            let place = place.and_then(|place| record.get(place));
            place.is_some_and(|place| !place.gone)
        };
        let batches: Vec<usize> = (0..self.batches.len())
            .filter(|at| {
                let batch = self.batches.get(*at);
                batch.is_some_and(|batch| !batch.ended && !placed(batch.place))
            })
            .collect();
        if loose.is_empty() && batches.is_empty() {
            return;
        }
        markup.within("section", &[("class", "house")], &mut |section| {
            section.element("h2", &[], "In no house");
            if !loose.is_empty() {
                section.within("ul", &[("class", "bays")], &mut |list| {
                    for place in &loose {
                        if !self.drawn.contains(&place.id) {
                            self.write_place(list, place, 0);
                        }
                    }
                });
            }
            section.within("ul", &[("class", "batches")], &mut |list| {
                for batch in batches.iter().filter_map(|at| self.batches.get(*at)) {
                    list.within("li", &[], &mut |row| write_batch(row, record, batch));
                }
            });
        });
    }
}

/// A batch as a slip: its name, what it is and how many, and what became of it last.
fn write_batch(markup: &mut Markup, record: &Record, batch: &Standing) {
    let Some(thing) = record.get(batch.id) else {
        return;
    };
    markup.within("a", &[("href", &address_of(batch.id))], &mut |link| {
        let number = match batch.number {
            Some(number) => [", ", &write_number(number, DecimalMark::Point)].concat(),
            None => String::new(),
        };
        link.element("strong", &[], thing.own_name())
            .text(" ")
            .element(
                "span",
                &[],
                &[&said_of(record, thing, "crop"), &*number].concat(),
            )
            .text(" ")
            .element("small", &[], &batch.stage);
    });
}
