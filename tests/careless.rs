//! The terminal's careless questions: read and checked alone, answered, and with every flow solved in full.
//! Each round has a seed of its own, so what comes of them is the same however many cores share them.
#![cfg(feature = "terminal")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::process::Command;

fn fuzzed(options: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_reckon"))
        .args(["fuzz", "bed", "--seed", "5"])
        .args(options)
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).unwrap()
}

fn counts(told: &str) -> Vec<u64> {
    told.split_whitespace()
        .filter_map(|word| word.parse().ok())
        .collect()
}

/// Half of the documents are damaged, so that some cannot be read; all are counted, the same each time.
#[test]
fn read_and_checked_alone() {
    let told = fuzzed(&["--check", "--count", "600"]);
    let all = counts(&told);
    assert_eq!(all.len(), 3, "let in, not read, refused: {told}");
    assert_eq!(all.iter().sum::<u64>(), 600, "{told}");
    assert!(all.iter().all(|count| *count > 0), "{told}");
    assert_eq!(told, fuzzed(&["--check", "--count", "600"]));
}

/// So many are answered, and those refused on the way are told beside them.
#[test]
fn until_so_many_are_answered() {
    let told = fuzzed(&["--answered", "--count", "12"]);
    let all = counts(&told);
    assert_eq!(all[0], 12, "{told}");
    assert!(all[1] > 0, "{told}");
}

/// With the ranges every water balance is held to.
#[test]
fn with_the_flow_solved_in_full() {
    let told = fuzzed(&["--ranges", "--answered", "--count", "2"]);
    assert_eq!(counts(&told)[0], 2, "{told}");
}
