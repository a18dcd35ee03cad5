//! The site over HTTP, as a real host must serve it. Files are read at each request, so
//! a new build, or another version put in its place, is served at once.

use std::path::Path;
use std::sync::Arc;

use tiny_http::{Header, Method, Request, Response, Server};

use crate::build::PAGE;
use crate::compress::Packing;
use crate::dev::Builds;
use crate::headers::Headers;
use crate::problem::{Outcome, Problem};

/// Requests answered at the same time; a browser sends six at most to one host.
const THREADS: usize = 6;
/// Where pages wait for the next build, while developing.
const CHANGES: &str = "changes";

/// Serves `dir` at this port, under this path, until stopped. Port 0 takes any free one.
/// With `builds`, pages can wait for the next of them.
pub fn forever(dir: &Path, port: u16, under: &str, builds: Option<Arc<Builds>>) -> Outcome<()> {
    Headers::read(dir)?;
    let server = Server::http(("localhost", port))
        .map_err(|cause| Problem::new(format!("Could not listen at port {port}: {cause}.")))?;
    let under = format!("/{}", under.trim_matches('/'));
    let under = if under == "/" { under } else { under + "/" };
    if let Some(address) = server.server_addr().to_ip() {
        println!(
            "Serving {} at http://localhost:{}{under}",
            dir.display(),
            address.port()
        );
    }
    std::thread::scope(|scope| {
        for _ in 0..THREADS {
            scope.spawn(|| {
                while let Ok(request) = server.recv() {
                    handle(request, dir, &under, builds.as_ref());
                }
            });
        }
    });
    Ok(())
}

fn handle(request: Request, dir: &Path, under: &str, builds: Option<&Arc<Builds>>) {
    let path = request.url().split(['?', '#']).next().unwrap_or_default();
    let name = path.strip_prefix(under).map(str::to_owned);
    if let (Some(CHANGES), Some(builds)) = (name.as_deref(), builds) {
        let builds = Arc::clone(builds);
        std::thread::spawn(move || builds.tell(request.into_writer()));
        return;
    }
    let accepted = request
        .headers()
        .iter()
        .find(|header| header.field.equiv("Accept-Encoding"))
        .map_or("", |header| header.value.as_str());
    let answer = match (request.method(), name) {
        (Method::Get | Method::Head, Some(name)) => Answer::to(&name, dir, accepted),
        (Method::Get | Method::Head, None) => Answer::sentence(dir, 404, "Nothing is kept here."),
        _ => Answer::sentence(dir, 405, "Files here can be read, and nothing else."),
    };
    let mut response = Response::from_data(answer.body).with_status_code(answer.status);
    for (name, value) in answer.headers {
        if let Ok(header) = Header::from_bytes(name, value) {
            response.add_header(header);
        }
    }
    // Whoever asked may have gone away meanwhile; then there is nobody to tell.
    let _ = request.respond(response);
}

/// What is sent back.
struct Answer {
    status: u16,
    headers: Vec<(String, String)>,
    body: Vec<u8>,
}

impl Answer {
    fn to(name: &str, dir: &Path, accepted: &str) -> Self {
        let name = if name.is_empty() { PAGE } else { name };
        if !is_plain(name) {
            return Self::sentence(dir, 404, "Nothing is kept here.");
        }
        let Ok(headers) = Headers::read(dir) else {
            return Self::sentence(dir, 503, "The site is being built. Ask again in a moment.");
        };
        let packed = Packing::ALL
            .into_iter()
            .filter(|packing| accepts(accepted, packing.word()))
            .find_map(|packing| {
                let file = dir.join(format!("{name}{}", packing.suffix()));
                std::fs::read(file).ok().map(|body| (Some(packing), body))
            });
        let found = packed.or_else(|| Some((None, std::fs::read(dir.join(name)).ok()?)));
        let Some((packing, body)) = found else {
            return Self::sentence(dir, 404, "Nothing is kept here.");
        };
        let mut headers = owned(headers.for_file(name));
        headers.push(("Vary".into(), "Accept-Encoding".into()));
        if let Some(packing) = packing {
            headers.push(("Content-Encoding".into(), packing.word().into()));
        }
        Self {
            status: 200,
            headers,
            body,
        }
    }

    fn sentence(dir: &Path, status: u16, sentence: &str) -> Self {
        let mut headers = Headers::read(dir)
            .map_or_else(|_| Vec::new(), |headers| owned(headers.for_any_answer()));
        headers.push(("Content-Type".into(), "text/plain; charset=utf-8".into()));
        headers.push(("Cache-Control".into(), "no-store".into()));
        Self {
            status,
            headers,
            body: format!("{sentence}\n").into_bytes(),
        }
    }
}

fn owned<'a>(headers: impl Iterator<Item = (&'a str, &'a str)>) -> Vec<(String, String)> {
    headers
        .map(|(name, value)| (name.to_owned(), value.to_owned()))
        .collect()
}

/// Whether this names a file of the site and cannot name anything beside it. Names in
/// the site are made of few letters, so all others are refused, coded ones included.
fn is_plain(name: &str) -> bool {
    name.split('/').all(|part| {
        !part.is_empty()
            && !part.starts_with('.')
            && part
                .bytes()
                .all(|b| b.is_ascii_alphanumeric() || b"-_.".contains(&b))
    })
}

/// Whether an `Accept-Encoding` takes this coding (RFC 9110, section 12.5.3).
fn accepts(accepted: &str, coding: &str) -> bool {
    accepted.split(',').any(|choice| {
        let (name, weight) = choice.split_once(';').unwrap_or((choice, ""));
        let weight = weight.trim().strip_prefix("q=").map(str::parse::<f64>);
        name.trim() == coding && weight != Some(Ok(0.0))
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
    use super::*;

    #[test]
    fn nothing_outside_the_site_can_be_named() {
        for name in [
            "index.html",
            "icons/pot-192.png",
            "screen-0123456789abcdef.js",
        ] {
            assert!(is_plain(name), "{name}");
        }
        for name in [
            "../Cargo.toml",
            "icons/../../Cargo.toml",
            "%2e%2e/Cargo.toml",
            "..\\Cargo.toml",
            "/etc/passwd",
            "icons//x",
            ".git/config",
            "",
        ] {
            assert!(!is_plain(name), "{name}");
        }
    }

    // RFC 9110, section 12.5.3: its own examples, and a weight of nought.
    #[test]
    fn a_packing_is_sent_only_where_it_is_taken() {
        for (accepted, coding, taken) in [
            ("compress, gzip", "gzip", true),
            ("", "gzip", false),
            ("compress;q=0.5, gzip;q=1.0", "gzip", true),
            ("gzip;q=1.0, identity; q=0.5, *;q=0", "gzip", true),
            ("gzip, deflate, br", "br", true),
            ("gzip, br;q=0", "br", false),
            ("brotli", "br", false),
        ] {
            assert_eq!(accepts(accepted, coding), taken, "{accepted}");
        }
    }
}
