//! Bytes of everything, held against the limits.

use std::path::Path;

use crate::build::PAGE;
use crate::compress::{Packing, is_packable};
use crate::headers;
use crate::problem::{Outcome, Problem, read_bytes};

/// Most that may be fetched before the first answer can appear, in bytes of brotli.
const FIRST_LOAD_LIMIT: usize = 200_000;
/// Most that the rest may take, fetched quietly afterwards for use offline: the pages of the
/// record, the further reckonings, the worker, the icons.
const REST_LIMIT: usize = 1_380_000;

/// How the names begin of all that a browser fetches before the first answer.
const FIRST_LOAD: [&str; 6] = [
    PAGE,
    "styles-",
    "starter-",
    "screen-",
    // The browser fetches these two by itself with the page.
    "manifest.webmanifest",
    "icons/pot.svg",
];
/// Never fetched by the page, nor stored: pictures shown before installing, and the
/// headers, which are for the host.
const NOT_COUNTED: [&str; 2] = ["screenshots/", headers::FILE];

/// A file's bytes as it is, and as it travels.
#[derive(Clone, Copy, Default)]
struct Bytes {
    raw: usize,
    gzip: usize,
    brotli: usize,
}

impl std::ops::AddAssign for Bytes {
    fn add_assign(&mut self, other: Self) {
        self.raw += other.raw;
        self.gzip += other.gzip;
        self.brotli += other.brotli;
    }
}

/// Prints the bytes of each file; refuses a site that is beyond its limits.
pub fn check(dir: &Path) -> Outcome<()> {
    let mut names = Vec::new();
    list(dir, "", &mut names)?;
    names.retain(|name| !NOT_COUNTED.iter().any(|start| name.starts_with(start)));
    names.sort();
    let is_first = |name: &String| FIRST_LOAD.iter().any(|start| name.starts_with(start));
    let (first, rest): (Vec<String>, Vec<String>) = names.into_iter().partition(is_first);
    if first.is_empty() {
        return Err(Problem::new(format!("{} holds no site.", dir.display())));
    }
    let first = print(dir, "First load", &first, FIRST_LOAD_LIMIT)?;
    let rest = print(dir, "Worker and the rest", &rest, REST_LIMIT)?;
    within("The first load", first, FIRST_LOAD_LIMIT)?;
    within("The rest", rest, REST_LIMIT)
}

fn within(what: &str, bytes: usize, limit: usize) -> Outcome<()> {
    if bytes > limit {
        return Err(Problem::new(format!(
            "{what} takes {bytes} bytes, {} more than the {limit} it may take.",
            bytes - limit
        )));
    }
    Ok(())
}

/// Prints a table of these files; returns their sum in brotli.
fn print(dir: &Path, title: &str, names: &[String], limit: usize) -> Outcome<usize> {
    println!("{title:42} {:>9} {:>9} {:>9}", "raw", "gzip", "brotli");
    let mut sum = Bytes::default();
    for name in names {
        let bytes = measure(dir, name)?;
        row(name, bytes);
        sum += bytes;
    }
    row(&format!("together (brotli at most {limit})"), sum);
    println!();
    Ok(sum.brotli)
}

fn row(name: &str, bytes: Bytes) {
    println!(
        "{name:42} {:>9} {:>9} {:>9}",
        bytes.raw, bytes.gzip, bytes.brotli
    );
}

/// What a file weighs; a packed form that would be longer is not sent, nor counted.
fn measure(dir: &Path, name: &str) -> Outcome<Bytes> {
    let content = read_bytes(&dir.join(name))?;
    let packed =
        |packing: Packing| match std::fs::read(dir.join(format!("{name}{}", packing.suffix()))) {
            Ok(packed) => Ok(packed.len()),
            Err(_) if is_packable(name) => packing
                .pack(&content)
                .map(|packed| packed.len().min(content.len())),
            Err(_) => Ok(content.len()),
        };
    Ok(Bytes {
        raw: content.len(),
        gzip: packed(Packing::Gzip)?,
        brotli: packed(Packing::Brotli)?,
    })
}

/// Names of all files below `dir` except the packed forms.
fn list(dir: &Path, below: &str, names: &mut Vec<String>) -> Outcome<()> {
    let folder = dir.join(below);
    let entries = std::fs::read_dir(&folder)
        .map_err(|cause| Problem::with_file("look into", &folder, cause))?;
    for entry in entries {
        let entry = entry.map_err(|cause| Problem::with_file("look into", &folder, cause))?;
        let name = format!("{below}{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            list(dir, &format!("{name}/"), names)?;
        } else if !Packing::ALL.iter().any(|p| name.ends_with(p.suffix())) {
            names.push(name);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
    use super::*;

    #[test]
    fn a_limit_is_a_limit() {
        assert_eq!(within("It", 10, 10), Ok(()));
        let refused = within("It", 12, 10).unwrap_err().to_string();
        assert!(refused.contains("2 more"), "{refused}");
    }
}
