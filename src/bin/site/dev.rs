//! Builds again at each change of the source, and tells open pages.

use std::collections::BTreeMap;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::time::{Duration, SystemTime};

use crate::build::{self, PAGE, Speed};
use crate::problem::Outcome;
use crate::serve;

/// How often the source is looked at: soon enough to feel immediate, seldom enough to
/// cost nothing.
const LOOK_EVERY: Duration = Duration::from_millis(300);
/// How often an open page is sent a sign of life, so that a closed one is noticed.
const SIGN_OF_LIFE: Duration = Duration::from_secs(15);
/// What the site is made from.
const SOURCES: [&str; 6] = ["src", "style", "public", PAGE, "Cargo.toml", "Cargo.lock"];
/// Made from these too, but by cargo, which has to start this program anew.
const THIS_PROGRAM: &str = "src/bin/site";

/// The number of builds so far, for whoever waits for the next one.
#[derive(Default)]
pub struct Builds {
    count: Mutex<u64>,
    another: Condvar,
}

impl Builds {
    fn add(&self) {
        let mut count = self.count.lock().unwrap_or_else(PoisonError::into_inner);
        *count += 1;
        self.another.notify_all();
    }

    /// Sends the number of builds to a page, now and at each change, as server-sent
    /// events (HTML Living Standard, section 9.2), until the page is closed.
    pub fn tell(&self, mut page: impl Write) {
        let mut greeting = String::from("HTTP/1.1 200 OK\r\nContent-Type: text/event-stream\r\n");
        greeting.push_str("Cache-Control: no-store\r\nConnection: close\r\n\r\n");
        let mut told = None;
        loop {
            let count = self.count.lock().unwrap_or_else(PoisonError::into_inner);
            let (count, _) = self
                .another
                .wait_timeout_while(count, SIGN_OF_LIFE, |now| told == Some(*now))
                .unwrap_or_else(PoisonError::into_inner);
            let now = *count;
            drop(count);
            let message = if told == Some(now) {
                String::from(":\n\n")
            } else {
                format!("{}data: {now}\n\n", std::mem::take(&mut greeting))
            };
            told = Some(now);
            if page
                .write_all(message.as_bytes())
                .and_then(|()| page.flush())
                .is_err()
            {
                return;
            }
        }
    }
}

/// Builds, serves, and watches until stopped.
pub fn watch(dir: &Path, port: u16) -> Outcome<()> {
    let builds = Arc::new(Builds::default());
    let mut seen = look();
    build::site(dir, Speed::Quick)?;
    let watching = {
        let (dir, builds) = (dir.to_owned(), Arc::clone(&builds));
        move || loop {
            std::thread::sleep(LOOK_EVERY);
            let now = look();
            if now == seen {
                continue;
            }
            seen = now;
            match build::site(&dir, Speed::Quick) {
                Ok(()) => {
                    println!("Built again.");
                    builds.add();
                }
                Err(problem) => eprintln!("{problem} The last good build is still served."),
            }
        }
    };
    std::thread::spawn(watching);
    serve::forever(dir, port, "/", Some(builds))
}

/// When each source file was last changed.
fn look() -> BTreeMap<PathBuf, Option<SystemTime>> {
    let mut found = BTreeMap::new();
    let mut to_visit: Vec<PathBuf> = SOURCES.iter().map(PathBuf::from).collect();
    while let Some(path) = to_visit.pop() {
        if path == Path::new(THIS_PROGRAM) {
            continue;
        }
        if let Ok(entries) = std::fs::read_dir(&path) {
            to_visit.extend(entries.flatten().map(|entry| entry.path()));
        } else {
            let changed = std::fs::metadata(&path).and_then(|file| file.modified());
            found.insert(path, changed.ok());
        }
    }
    found
}
