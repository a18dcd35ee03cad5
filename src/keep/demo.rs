//! The demo nursery: one season of an invented nursery that grows parsley, chives, sweet peppers and
//! cucumbers for its farm shop. Made by a few rules, so that whoever reads them sees how; nothing in
//! it was measured, and no such nursery exists.

use super::journal::{Journal, Pen, fold};
use crate::nursery::{Day, Id, Mark, Record, Texts};

/// The device that it pretends to come from.
const MARK: &str = "demo";
/// Its season: the first and the last morning.
const SEASON: [(i32, u32, u32); 2] = [(2025, 1, 20), (2025, 10, 12)];
/// Minutes in a day, and those to the morning round.
const DAY_MINUTES: i32 = 24 * 60;
const MORNING: i32 = 7 * 60;

/// Means of the nights and the days in a cold house by month from January, in tenths of a degree.
/// Invented: a glasshouse in a mild and windy place.
const MONTHS: [[i32; 2]; 12] = [
    [28, 110],
    [30, 135],
    [44, 180],
    [62, 225],
    [92, 260],
    [122, 285],
    [142, 300],
    [140, 295],
    [118, 255],
    [88, 195],
    [56, 145],
    [36, 112],
];

/// The houses: name, cover, heated, set point, vents, length, width, and how much warmer its nights
/// are than those of a cold house, in tenths of a degree.
const HOUSES: [([&str; 7], i32); 2] = [
    (
        [
            "Top house",
            "glass",
            "frost",
            "5 degC",
            "roof_and_sides",
            "18 m",
            "6.4 m",
        ],
        38,
    ),
    (
        ["Long tunnel", "film", "no", "", "ends", "27 m", "7.3 m"],
        0,
    ),
];

/// Bays and benches: house, name, how plants stand, length, width, set point.
const BAYS: [(usize, [&str; 5]); 6] = [
    (0, ["Warm bench", "heated_bench", "4 m", "1.2 m", "20 degC"]),
    (0, ["West bench", "bench", "12 m", "1.5 m", ""]),
    (0, ["East slats", "raised", "12 m", "1.5 m", ""]),
    (1, ["Tunnel left", "floor", "25 m", "1.6 m", ""]),
    (1, ["Tunnel right", "floor", "25 m", "1.6 m", ""]),
    (1, ["Tunnel slats", "raised", "10 m", "1.2 m", ""]),
];

/// Seed lots: crop, name, variety, seeds, share that germinates.
const SEED_LOTS: [[&str; 5]; 5] = [
    ["parsley", "Parsley, flat", "flat-leaved", "5000", "82 %"],
    ["parsley", "Parsley, curled", "curled", "3000", "78 %"],
    ["chives", "Chives, fine", "fine-leaved", "8000", "75 %"],
    [
        "sweet_pepper",
        "Peppers, long red",
        "long red",
        "300",
        "90 %",
    ],
    [
        "cucumber",
        "Cucumbers, small",
        "small-fruited",
        "120",
        "94 %",
    ],
];

/// Parts of a mix: the material and how many of it.
type Parts = &'static [(&'static str, &'static str)];

/// Mixes: name, purpose, and parts.
const MIXES: [(&str, &str, Parts); 2] = [
    (
        "Sowing mix",
        "seed",
        &[
            ("coir_pith", "3"),
            ("vermiculite", "1"),
            ("sharp_sand", "1"),
        ],
    ),
    (
        "Shop-pot mix",
        "fed_from_below",
        &[
            ("wood_fibre", "2"),
            ("green_compost", "2"),
            ("perlite_coarse", "1"),
        ],
    ),
];

/// Batches: lot of seed, name, sown on, how many, pot, first place, and the day on which they are up,
/// are potted on and moved to which place, and are at their end (none where they still stand).
struct Batch {
    lot: usize,
    name: &'static str,
    sown: (u32, u32),
    number: u32,
    pot: &'static str,
    first: usize,
    days_to_up: i32,
    days_to_pot: i32,
    second: usize,
    days_to_end: Option<i32>,
    /// From which day after sowing it is cut, how often in days, and the weight of a cut in grams for
    /// each hundred plants.
    cuts: (i32, i32, u32),
}

const fn batch(
    lot: usize,
    name: &'static str,
    sown: (u32, u32),
    number: u32,
    places: [usize; 2],
    days: [i32; 3],
    cuts: (i32, i32, u32),
) -> Batch {
    Batch {
        lot,
        name,
        sown,
        number,
        pot: "round_9_cm",
        first: places[0],
        days_to_up: days[0],
        days_to_pot: days[1],
        second: places[1],
        days_to_end: if days[2] > 0 { Some(days[2]) } else { None },
        cuts,
    }
}

const BATCHES: [Batch; 11] = [
    batch(
        0,
        "Flat parsley 1",
        (1, 27),
        240,
        [0, 1],
        [16, 38, 150],
        (78, 9, 900),
    ),
    batch(
        2,
        "Chives 1",
        (2, 3),
        300,
        [0, 2],
        [13, 40, 0],
        (82, 12, 700),
    ),
    batch(
        3,
        "Long red peppers",
        (2, 17),
        96,
        [0, 0],
        [11, 44, 0],
        (128, 7, 9500),
    ),
    batch(
        1,
        "Curled parsley 1",
        (3, 10),
        180,
        [0, 2],
        [17, 40, 160],
        (80, 10, 800),
    ),
    batch(
        4,
        "Small cucumbers 1",
        (4, 14),
        48,
        [0, 4],
        [5, 24, 125],
        (56, 4, 16_000),
    ),
    batch(
        0,
        "Flat parsley 2",
        (4, 21),
        240,
        [1, 5],
        [13, 34, 150],
        (66, 9, 950),
    ),
    batch(
        2,
        "Chives 2",
        (5, 5),
        240,
        [1, 1],
        [10, 35, 0],
        (74, 12, 750),
    ),
    batch(
        4,
        "Small cucumbers 2",
        (6, 9),
        40,
        [1, 4],
        [4, 20, 0],
        (48, 4, 15_000),
    ),
    batch(
        0,
        "Flat parsley 3",
        (7, 14),
        260,
        [1, 2],
        [11, 32, 0],
        (62, 9, 900),
    ),
    batch(
        1,
        "Curled parsley 2",
        (8, 4),
        200,
        [1, 5],
        [12, 33, 0],
        (65, 10, 780),
    ),
    batch(
        0,
        "Flat parsley for winter",
        (9, 8),
        300,
        [1, 1],
        [12, 60, 0],
        (90, 9, 900),
    ),
];

/// Batches that go into their last pot: which of [`BATCHES`], days after sowing, the pot, and the place.
const LAST_POTS: [(usize, i32, &str, usize); 3] = [
    (2, 103, "round_8_5_l", 3),
    (4, 38, "round_8_5_l", 4),
    (7, 34, "round_8_5_l", 4),
];

/// What Moving on said of a batch on a day when it was looked at: which of [`BATCHES`], days after sowing, how it stood,
/// the best day in days after sowing (none where none of three weeks was), and the sentence. These are the program's own,
/// from what the record has by then.
type Said = (usize, i32, &'static str, Option<i32>, &'static str);

const VERDICTS: [Said; 5] = [
    (
        0,
        28,
        "not_yet",
        Some(36),
        "This batch of flat parsley is not ready for pricking out yet: it lacks warmth enough since its last move.",
    ),
    (
        2,
        35,
        "ready",
        Some(38),
        "This batch of sweet pepper is ready for pricking out.",
    ),
    (
        1,
        105,
        "overdue",
        Some(112),
        "This batch of chives should have moved before: its pot has checked it since about week 4.5.",
    ),
    (
        2,
        92,
        "wait",
        Some(103),
        "This batch of sweet pepper is ready for the cold house but for hardening and warmer nights where it goes.",
    ),
    (
        8,
        28,
        "ready",
        Some(32),
        "This batch of flat parsley is ready for pricking out.",
    ),
];

/// How batches went after they had moved: which of [`BATCHES`], days after sowing, and how.
const OUTCOMES: [(usize, i32, &str); 4] = [
    (2, 117, "well"),
    (4, 45, "slowly"),
    (5, 50, "well"),
    (7, 42, "well"),
];

/// Customers of the shop, invented.
const SOLD_TO: [&str; 3] = ["farm shop", "village hall kitchen", "box scheme"];

/// Notes of the season: month, day, words.
const NOTES: [(u32, u32, &str); 6] = [
    (2, 11, "Mouse in the Top house. Lids on all trays of seed."),
    (3, 22, "First whole day with the roof vents open."),
    (5, 14, "Shading on the Top house, one coat."),
    (6, 30, "34 °C at noon in the tunnel. Damped down twice."),
    (
        8,
        19,
        "Chives cut back hard; they stand better on the slats than on the bench.",
    ),
    (10, 3, "Shading washed off. Gutters cleared."),
];

/// Numbers that look drawn and are the same everywhere (Numerical Recipes' quick generator, from
/// memory).
struct Draws(u32);

impl Draws {
    /// A whole number from `-most` to `most`, those in the middle more often.
    fn about_nought(&mut self, most: i32) -> i32 {
        (self.up_to(2 * most) + self.up_to(2 * most)) / 2 - most
    }

    fn up_to(&mut self, most: i32) -> i32 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        ((i64::from(self.0 >> 8) * (i64::from(most) + 1)) >> 24) as i32
    }
}

/// The season as a journal.
#[must_use]
pub fn journal() -> Journal {
    let [first, last] = SEASON.map(|(year, month, day)| on(year, month, day));
    let mut book = Book {
        journal: Journal::default(),
        mark: Mark::read(MARK).unwrap_or(Id::LOWEST.mark),
        logs: Vec::new(),
        day: first,
    };
    let place = book.add(
        "place",
        &[
            ("name", "The holding"),
            ("latitude", "54.5"),
            ("climate", "northern_ireland"),
        ],
    );
    let houses = HOUSES.map(|(texts, _)| {
        let [name, cover, heated, set_point, vents, length, width] = texts;
        book.add(
            "house",
            &[
                ("name", name),
                ("inside", &place.text()),
                ("cover", cover),
                ("heated", heated),
                ("set_point", set_point),
                ("vents", vents),
                ("length", length),
                ("width", width),
            ],
        )
    });
    let bays = BAYS.map(|(house, [name, standing, length, width, set_point])| {
        book.add(
            "bay",
            &[
                ("name", name),
                ("inside", &houses[house].text()),
                ("standing", standing),
                ("length", length),
                ("width", width),
                ("set_point", set_point),
            ],
        )
    });
    let thermometers = houses.map(|house| {
        let name = ["Thermometer ", &book.name(house)].concat();
        let inside = house.text();
        let measures = ("measures", "temperature");
        book.add(
            "instrument",
            &[
                ("name", &name),
                measures,
                ("inside", &inside),
                ("medium", "air"),
            ],
        )
    });
    let lots = SEED_LOTS.map(|[crop, name, variety, seeds, germinates]| {
        book.add(
            "seed_lot",
            &[
                ("name", name),
                ("crop", crop),
                ("variety", variety),
                ("bought", "2025-01-14"),
                ("seeds", seeds),
                ("germination", germinates),
            ],
        )
    });
    let mixes = MIXES.map(|(name, purpose, parts)| {
        let mut texts = vec![("name".to_owned(), name), ("purpose".to_owned(), purpose)];
        for (row, (material, amount)) in parts.iter().enumerate() {
            texts.push((format!("parts.{row}.material"), material));
            texts.push((format!("parts.{row}.amount"), amount));
        }
        let texts: Vec<(&str, &str)> = texts.iter().map(|(path, text)| (&**path, *text)).collect();
        book.add("mix", &texts)
    });
    let bag = book.add(
        "material",
        &[
            ("name", "Coir in bales"),
            ("like", "coir_pith"),
            ("bag", "70 L"),
            ("price", "9.80"),
        ],
    );
    book.add(
        "price",
        &[
            ("name", "Pot of parsley"),
            ("price", "1.80"),
            ("side", "sells"),
        ],
    );
    book.add("tariff", &[("name", "Electricity"), ("price", "0.31")]);
    book.add(
        "plan",
        &[
            ("name", "Chives for spring"),
            ("crop", "chives"),
            ("wanted", "300"),
            ("sow_on", "2026-02-02"),
            ("ready_by", "2026-04-20"),
        ],
    );

    let mut draws = Draws(2025);
    let read = nights(&mut book, &mut draws, [first, last], &houses, &thermometers);
    probe(&mut book, &read, bays[PROBED]);
    let made = BATCHES
        .each_ref()
        .map(|made| batches(&mut book, &mut draws, last, made, &lots, &bays, &mixes));
    moves(&mut book, &made, &bays, &mixes);
    for (month, day, words) in NOTES {
        book.log(on(2025, month, day), "note", &[("notes", words)]);
    }
    for (month, bags) in [(2, "6"), (5, "3"), (9, "4")] {
        book.log(
            on(2025, month, 2),
            "stock",
            &[("material", &bag.text()), ("bags", bags)],
        );
    }
    book.finish()
}

/// The bay in whose pots a thermometer was put.
const PROBED: usize = 2;
/// For so many mornings before the end.
const PROBED_DAYS: usize = 6;

/// A thermometer in a pot and one in its tray, at dawn and in the afternoon of the last days.
fn probe(book: &mut Book, nights: &[Read], bay: Id) {
    /// How much warmer than the air the mix is at dawn, in tenths of a degree, and the share of the day's swing that
    /// has reached it by the afternoon, in tenths.
    const MIX: [i32; 2] = [16, 6];
    /// The same of the water.
    const WATER: [i32; 2] = [24, 4];
    let last = nights.len().saturating_sub(PROBED_DAYS);
    let nights = nights.get(last..).unwrap_or(nights);
    for (place, night) in nights.iter().enumerate() {
        let after = nights
            .get(place + 1)
            .filter(|after| after.day == night.day.plus(1));
        for (what, [warmer, share]) in [("root", MIX), ("water", WATER)] {
            let mut log = |time: &str, tenths: i32| {
                let texts = [
                    ("place", &*bay.text()),
                    ("time", time),
                    ("what", what),
                    ("value", &*degrees(tenths)),
                ];
                book.log(night.day, "reading", &texts);
            };
            log("07:15", night.low + warmer);
            if let Some(after) = after {
                let swing = after.high - night.low;
                log("15:00", night.low + warmer + swing * share / 10);
            }
        }
    }
}

/// A minimum and the maximum of the day before, in tenths of a degree.
struct Read {
    day: Day,
    low: i32,
    high: i32,
}

/// Writes the nights; those of the first house come back.
fn nights(
    book: &mut Book,
    draws: &mut Draws,
    [first, last]: [Day; 2],
    houses: &[Id; 2],
    thermometers: &[Id; 2],
) -> Vec<Read> {
    /// A mild or a cold spell wears off by so much of ten each day.
    const LASTS: i32 = 7;
    let mut read = Vec::new();
    let (mut night_spell, mut day_spell) = (0, 0);
    for number in first.number()..=last.number() {
        let day = Day::from_number(number);
        night_spell = night_spell * LASTS / 10 + draws.about_nought(24);
        day_spell = day_spell * LASTS / 10 + draws.about_nought(36);
        let (_, month, of_month) = day.civil();
        let at = month as usize - 1;
        // From the middle of one month to that of the next in a straight line.
        let (before, after, share) = if of_month < 15 {
            ((at + 11) % 12, at, of_month as i32 + 15)
        } else {
            (at, (at + 1) % 12, of_month as i32 - 15)
        };
        let mean = |which: usize| {
            MONTHS[before][which] + (MONTHS[after][which] - MONTHS[before][which]) * share / 30
        };
        for (house, (_, warmer)) in HOUSES.iter().enumerate() {
            // One morning in a while nobody reads the thermometer.
            if draws.up_to(19) == 0 {
                continue;
            }
            let low = mean(0) + night_spell + warmer + draws.about_nought(8);
            // The heater keeps the frost out.
            let low = if *warmer > 0 {
                low.max(44 + draws.up_to(6))
            } else {
                low
            };
            let high = (mean(1) + day_spell + draws.about_nought(15)).max(low + 20);
            if house == 0 {
                read.push(Read { day, low, high });
            }
            book.log(
                day,
                "night",
                &[
                    ("place", &houses[house].text()),
                    ("low", &degrees(low)),
                    ("high", &degrees(high)),
                    ("instrument", &thermometers[house].text()),
                ],
            );
        }
    }
    read
}

/// Tenths of a degree to the half, as one reads it off a glass thermometer.
fn degrees(tenths: i32) -> String {
    let halves = (tenths + 2).div_euclid(5);
    let sign = if halves < 0 { "-" } else { "" };
    let half = if halves % 2 == 0 { "" } else { ".5" };
    format!("{sign}{}{half} degC", halves.abs() / 2)
}

fn batches(
    book: &mut Book,
    draws: &mut Draws,
    last: Day,
    made: &Batch,
    lots: &[Id; 5],
    bays: &[Id; 6],
    mixes: &[Id; 2],
) -> Id {
    let sown = on(2025, made.sown.0, made.sown.1);
    let [crop, _, variety, ..] = SEED_LOTS[made.lot];
    let of = book.add(
        "batch",
        &[
            ("name", made.name),
            ("crop", crop),
            ("variety", variety),
            ("seed_lot", &lots[made.lot].text()),
            ("sown", &sown.iso()),
            ("number", &made.number.to_string()),
            ("mix", &mixes[0].text()),
            ("inside", &bays[made.first].text()),
        ],
    );
    let id = of;
    let of = of.text();
    let mut log = |days: i32, kind: &str, texts: &[(&str, &str)]| {
        let day = sown.plus(days);
        if day <= last {
            let texts: Vec<(&str, &str)> = texts.iter().copied().chain([("batch", &*of)]).collect();
            book.log(day, kind, &texts);
        }
        day <= last
    };
    let up = made.number * (86 + draws.up_to(10) as u32) / 100;
    log(
        made.days_to_up,
        "stage",
        &[("what", "up"), ("number", &up.to_string())],
    );
    let (second, mix) = (bays[made.second].text(), mixes[1].text());
    let potted = [
        ("what", "potted_on"),
        ("pot", made.pot),
        ("mix", &*mix),
        ("to", &*second),
    ];
    log(made.days_to_pot, "stage", &potted);
    let lost = 1 + draws.up_to(6);
    log(
        made.days_to_pot + 9,
        "stage",
        &[
            ("what", "lost"),
            ("number", &lost.to_string()),
            ("why", "damped off"),
        ],
    );
    let (from, every, grams) = made.cuts;
    let end = made.days_to_end.unwrap_or(i32::MAX);
    let mut days = from;
    let mut turn = 0;
    while days < end {
        let grams = grams * made.number / 100 * (80 + draws.up_to(40) as u32) / 100;
        let weight = format!("{}.{} kg", grams / 1000, grams % 1000 / 100);
        if !log(days, "cut", &[("weight", &weight)]) {
            break;
        }
        if turn % 3 == 0 {
            log(
                days,
                "sold",
                &[
                    ("to", SOLD_TO[turn / 3 % SOLD_TO.len()]),
                    ("weight", &weight),
                ],
            );
        }
        turn += 1;
        days += every;
    }
    if let Some(end) = made.days_to_end {
        log(end, "stage", &[("what", "ended"), ("why", "past its best")]);
    }
    id
}

/// What was said of batches before they moved, their last pots, and how they went.
fn moves(
    book: &mut Book,
    batches: &[Id; BATCHES.len()],
    bays: &[Id; BAYS.len()],
    mixes: &[Id; MIXES.len()],
) {
    let of = |place: usize| {
        let (made, id) = (&BATCHES[place], batches[place]);
        let sown = on(2025, made.sown.0, made.sown.1);
        (id.text(), move |days: i32| sown.plus(days))
    };
    for (place, days, stage, best, said) in VERDICTS {
        let (batch, day) = of(place);
        let best = best.map_or_else(String::new, |best| day(best).iso());
        book.log(
            day(days),
            "verdict",
            &[
                ("batch", &batch),
                ("by", "moving_on"),
                ("said", said),
                ("stage", stage),
                ("best_day", &best),
            ],
        );
    }
    for (place, days, pot, bay) in LAST_POTS {
        let (batch, day) = of(place);
        book.log(
            day(days),
            "stage",
            &[
                ("batch", &batch),
                ("what", "potted_on"),
                ("pot", pot),
                ("mix", &mixes[1].text()),
                ("to", &bays[bay].text()),
            ],
        );
    }
    for (place, days, went) in OUTCOMES {
        let (batch, day) = of(place);
        book.log(day(days), "outcome", &[("batch", &batch), ("went", went)]);
    }
}

/// A day that is there: all of these are written above.
fn on(year: i32, month: u32, day: u32) -> Day {
    Day::from_civil(year, month, day).unwrap_or(Day::from_number(0))
}

/// One log that is to be written.
struct Log {
    day: Day,
    kind: String,
    texts: Texts,
}

/// The journal as it is written: what stands at once, logs in the order of their days.
struct Book {
    journal: Journal,
    mark: Mark,
    logs: Vec<Log>,
    day: Day,
}

impl Book {
    fn add(&mut self, kind: &str, texts: &[(&str, &str)]) -> Id {
        let texts = Texts::of(texts.iter().copied());
        self.write(self.day, kind, texts)
    }

    fn log(&mut self, day: Day, kind: &str, texts: &[(&str, &str)]) {
        let iso = day.iso();
        let texts = Texts::of(texts.iter().copied().chain([("day", &*iso)]));
        self.logs.push(Log {
            day,
            kind: kind.to_owned(),
            texts,
        });
    }

    fn write(&mut self, day: Day, kind: &str, texts: Texts) -> Id {
        let present = super::journal::Present::default();
        let at = day.number() * DAY_MINUTES + MORNING;
        let pen = Pen {
            journal: &self.journal,
            present: &present,
            mark: self.mark,
            at: at as u32,
        };
        let entry = pen.add(kind, texts);
        let id = entry.id;
        self.journal.put(entry);
        id
    }

    fn name(&self, id: Id) -> String {
        self.record().name_of(id)
    }

    fn record(&self) -> Record {
        fold(&self.journal).record
    }

    fn finish(mut self) -> Journal {
        let mut logs = std::mem::take(&mut self.logs);
        logs.sort_by_key(|log| log.day);
        for log in logs {
            self.write(log.day, &log.kind, log.texts);
        }
        self.journal
    }
}
