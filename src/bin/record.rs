//! The record at a terminal: careless documents, and how long a large one takes.

use std::fmt::Write;
use std::hint::black_box;
use std::time::Instant;

use longtom::keep::journal::plausible::{careless, endures, journal};
use longtom::keep::journal::{Journal, Pen, Present, fold, format, months};
use longtom::nursery::sense::all_problems;
use longtom::nursery::{Day, Finder, Mark, Texts, Wanted, search};
use longtom::reckon::Problem;
use longtom::science::numerics::draws::Draws;

/// Puts careless documents through everything that is done with one. A panic ends the program.
pub fn fuzz(count: u64, seed: u64) -> Result<String, Problem> {
    let mut draws = Draws::from_seed(seed);
    let (mut let_in, mut refused) = (0u64, 0u64);
    let mut before = Journal::default();
    for round in 0..count {
        let text = careless(&mut draws);
        match endures(&text, &before) {
            Ok(true) => let_in += 1,
            Ok(false) => refused += 1,
            Err(why) => {
                return Err(Problem::at("", format!("round {round}, {why}: {text}")));
            }
        }
        if let Ok(opened) = format::open(&text) {
            before = opened.journal;
        }
    }
    Ok(format!(
        "{let_in} let in, {refused} refused with a sentence, none broke"
    ))
}

/// Times and sizes of a record with so many entries.
pub fn measure(entries: usize, seed: u64) -> String {
    let mut told = String::new();
    let journal = journal(entries, seed);
    let text = timed(&mut told, "write", || format::text(&journal));
    timed(&mut told, "parse", || {
        serde_json::from_str::<serde_json::Value>(&text).is_ok()
    });
    let opened = timed(&mut told, "read", || format::open(&text)).unwrap_or_default();
    let present = timed(&mut told, "fold", || fold(&opened.journal));
    timed(&mut told, "merge with a copy", || {
        let mut merged = journal.clone();
        merged.merge(&opened.journal);
        merged
    });
    let word = |words: &str| Wanted {
        words: words.to_owned(),
        ..Wanted::default()
    };
    let closed: Vec<Journal> = months::parts(&journal)
        .into_iter()
        .rev()
        .map(|(_, entries)| {
            let mut part = Journal::default();
            for entry in entries {
                part.put(entry.clone());
            }
            part
        })
        .collect();
    let finder = timed(&mut told, "make a finder", || Finder::of(&present.record));
    for words in ["probe loose", "house north", "house 1", "nowhere"] {
        let name = format!("search “{words}”, the first 100");
        timed(&mut told, &name, || {
            finder.search(&present.record, &word(words), 100).len()
        });
        let name = "the same without a finder, all".to_owned();
        timed(&mut told, &name, || {
            search::search(&present.record, &word(words), usize::MAX).len()
        });
    }
    timed(&mut told, "where batches stand", || {
        present.record.where_batches_stand(Day::LAST_OF_ALL).len()
    });
    timed(&mut told, "all that makes no sense", || {
        all_problems(&present.record).len()
    });
    timed(&mut told, "join month by month", || {
        let (mut journal, mut present) = (Journal::default(), Present::default());
        for part in &closed {
            present.join(&mut journal, part.clone());
        }
        journal.len()
    });
    let mut grown = (opened.journal.clone(), present.clone());
    timed(&mut told, "one entry more", || {
        let pen = Pen {
            journal: &grown.0,
            present: &grown.1,
            mark: Mark::from_random(seed),
            at: 0,
        };
        let entry = pen.add(
            "note",
            Texts::of([("day", "2030-01-01"), ("notes", "one more")]),
        );
        grown.0.put(entry.clone());
        grown.1.follow(&grown.0, &entry);
    });
    let parts = timed(&mut told, "into parts", || {
        let parts = months::parts(&journal);
        parts
            .into_iter()
            .map(|(part, entries)| format::part_text(&journal, &part, entries))
            .collect::<Vec<_>>()
    });
    let many = journal.len().max(1);
    let largest = parts.iter().map(String::len).max().unwrap_or(0);
    let _ = writeln!(
        told,
        "{many} entries, {} bytes each, largest part {largest} bytes",
        text.len() / many
    );
    deflated(&mut told, &parts, many);
    told
}

/// The best of some runs, so that what else the machine does counts little.
fn timed<T>(told: &mut String, name: &str, mut work: impl FnMut() -> T) -> T {
    const RUNS: usize = 5;
    let mut best = f64::INFINITY;
    let mut result = None;
    for _ in 0..RUNS {
        let begun = Instant::now();
        result = Some(black_box(work()));
        best = best.min(begun.elapsed().as_secs_f64());
    }
    let _ = writeln!(told, "{name}: {:.1} ms", best * 1e3);
    match result {
        Some(result) => result,
        None => work(),
    }
}

#[cfg(feature = "site")]
fn deflated(told: &mut String, parts: &[String], many: usize) {
    use flate2::Compression;
    use flate2::write::DeflateEncoder;
    use std::io::Write as _;
    let sizes = parts.iter().map(|part| {
        let mut encoder = DeflateEncoder::new(Vec::new(), Compression::new(6));
        let written = encoder
            .write_all(part.as_bytes())
            .and_then(|()| encoder.finish());
        written.map_or(0, |bytes| bytes.len())
    });
    let bytes: usize = sizes.sum();
    let _ = writeln!(told, "deflated part by part: {} bytes each", bytes / many);
}

#[cfg(not(feature = "site"))]
fn deflated(_: &mut String, _: &[String], _: usize) {}
