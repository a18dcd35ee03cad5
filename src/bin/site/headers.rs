//! The headers that whoever serves the site must send, as data.
//!
//! `site build` writes them to `headers.json` beside the files, `site serve` reads them
//! from there, and any other host can be set up from the same file:
//!
//! ```json
//! {
//!   "every_file": { "Header": "value" },
//!   "named_by_content": { "Header": "value" },
//!   "all_others": { "Header": "value" },
//!   "types": { "extension": "media type" }
//! }
//! ```
//!
//! `named_by_content` is for files whose name ends in `-` and 16 hexadecimal digits
//! before the extension; `all_others` for the rest.

use std::collections::BTreeMap;
use std::path::Path;

use serde::{Deserialize, Serialize};

use crate::names::is_named_by_content;
use crate::problem::{Outcome, Problem, read_text};

/// Where the headers lie within the site.
pub const FILE: &str = "headers.json";

/// What a page of the site may do, as a Content-Security-Policy: run its own scripts and
/// WebAssembly, draw its own images, speak with its own host; nothing written into the
/// page and nothing from anywhere else. `data:` and `blob:` images are drawings saved
/// from the page itself.
const POLICY: [&str; 10] = [
    "default-src 'none'",
    // Without 'wasm-unsafe-eval' a browser refuses to compile WebAssembly.
    "script-src 'self' 'wasm-unsafe-eval'",
    "style-src 'self'",
    "img-src 'self' data: blob:",
    "connect-src 'self'",
    "manifest-src 'self'",
    "worker-src 'self'",
    "form-action 'none'",
    "base-uri 'self'",
    FRAME_ANCESTORS,
];

/// The one directive that counts only in a header, and is a fault in a `<meta>`.
const FRAME_ANCESTORS: &str = "frame-ancestors 'none'";

/// Headers of the one site, by the kind of file.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
pub struct Headers {
    every_file: BTreeMap<String, String>,
    named_by_content: BTreeMap<String, String>,
    all_others: BTreeMap<String, String>,
    types: BTreeMap<String, String>,
}

/// The policy as index.html states it, for hosts where headers cannot be set.
pub fn policy_for_page() -> String {
    let in_page: Vec<&str> = POLICY
        .into_iter()
        .filter(|part| *part != FRAME_ANCESTORS)
        .collect();
    in_page.join("; ")
}

impl Headers {
    /// The headers this site needs.
    pub fn of_the_site() -> Self {
        Self {
            every_file: table([
                ("Content-Security-Policy", POLICY.join("; ").as_str()),
                ("Referrer-Policy", "no-referrer"),
                (
                    "Permissions-Policy",
                    "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
                ),
                ("Cross-Origin-Opener-Policy", "same-origin"),
                ("Cross-Origin-Resource-Policy", "same-origin"),
                ("X-Content-Type-Options", "nosniff"),
            ]),
            named_by_content: table([("Cache-Control", "public, max-age=31536000, immutable")]),
            all_others: table([("Cache-Control", "no-cache")]),
            types: table([
                ("css", "text/css; charset=utf-8"),
                ("html", "text/html; charset=utf-8"),
                ("js", "text/javascript; charset=utf-8"),
                ("json", "application/json"),
                ("png", "image/png"),
                ("svg", "image/svg+xml"),
                ("wasm", "application/wasm"),
                ("webmanifest", "application/manifest+json"),
            ]),
        }
    }

    /// The headers stated in a built site.
    pub fn read(site: &Path) -> Outcome<Self> {
        let path = site.join(FILE);
        serde_json::from_str(&read_text(&path)?)
            .map_err(|cause| Problem::with_file("understand", &path, cause))
    }

    /// As they are written to [`FILE`].
    pub fn to_json(&self) -> Outcome<String> {
        serde_json::to_string_pretty(self)
            .map_err(|cause| Problem::new(format!("Could not write the headers: {cause}.")))
    }

    /// Everything to be sent with the file of this name.
    pub fn for_file(&self, name: &str) -> impl Iterator<Item = (&str, &str)> {
        let by_kind = if is_named_by_content(name) {
            &self.named_by_content
        } else {
            &self.all_others
        };
        let extension = name.rsplit_once('.').map_or("", |(_, e)| e);
        let media_type = self
            .types
            .get(extension)
            .map_or("application/octet-stream", String::as_str);
        self.for_any_answer()
            .chain(by_kind.iter().map(|(n, v)| (n.as_str(), v.as_str())))
            .chain([("Content-Type", media_type)])
    }

    /// What is sent even where there is no file.
    pub fn for_any_answer(&self) -> impl Iterator<Item = (&str, &str)> {
        self.every_file
            .iter()
            .map(|(name, value)| (name.as_str(), value.as_str()))
    }
}

fn table<const N: usize>(rows: [(&str, &str); N]) -> BTreeMap<String, String> {
    rows.into_iter()
        .map(|(name, value)| (name.to_owned(), value.to_owned()))
        .collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
    use super::*;

    fn sent(name: &str, header: &str) -> Option<String> {
        Headers::of_the_site()
            .for_file(name)
            .find(|(n, _)| *n == header)
            .map(|(_, v)| v.to_owned())
    }

    #[test]
    fn what_is_named_by_content_is_kept_and_the_rest_asked_for_afresh() {
        let kept = sent("screen-0123456789abcdef.wasm", "Cache-Control");
        assert!(kept.is_some_and(|value| value.contains("immutable")));
        for name in ["index.html", "service-worker.js", "manifest.webmanifest"] {
            assert_eq!(sent(name, "Cache-Control").as_deref(), Some("no-cache"));
        }
        assert_eq!(
            sent("screen-0123456789abcdef.wasm", "Content-Type").as_deref(),
            Some("application/wasm")
        );
    }

    #[test]
    fn headers_survive_their_file() {
        let headers = Headers::of_the_site();
        let text = headers.to_json().unwrap();
        assert_eq!(serde_json::from_str::<Headers>(&text).unwrap(), headers);
    }

    #[test]
    fn the_page_states_no_frame_ancestors() {
        assert!(!policy_for_page().contains("frame-ancestors"));
        assert!(policy_for_page().contains("default-src 'none'"));
    }
}
