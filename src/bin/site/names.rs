//! Names taken from content: a file of another content has another name, so a page can
//! never be given a part of another version, and a part can be kept for ever.

use sha2::{Digest, Sha256};

use crate::problem::{Outcome, Problem};

/// Hexadecimal digits of the digest in a file's name. 16 digits are 64 bits: among the
/// few dozen files of all versions ever kept side by side, two alike by chance are out
/// of the question.
const DIGITS: usize = 16;

/// The first digits of a content's SHA-256.
pub fn content_hash(content: &[u8]) -> String {
    Sha256::digest(content)
        .iter()
        .take(DIGITS / 2)
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

/// `screen.wasm` with this content becomes `screen-0123456789abcdef.wasm`.
pub fn named_by_content(plain: &str, content: &[u8]) -> String {
    let hash = content_hash(content);
    match plain.rsplit_once('.') {
        Some((stem, extension)) => format!("{stem}-{hash}.{extension}"),
        None => format!("{plain}-{hash}"),
    }
}

/// Whether this is a name that [`named_by_content`] gives.
pub fn is_named_by_content(published: &str) -> bool {
    let stem = published.rsplit_once('.').map_or(published, |(s, _)| s);
    stem.rsplit_once('-').is_some_and(|(_, hash)| {
        hash.len() == DIGITS && hash.bytes().all(|b| b.is_ascii_hexdigit())
    })
}

/// A content's SHA-256 as Subresource Integrity writes it
/// (<https://www.w3.org/TR/SRI/>): `sha256-` and base64 (RFC 4648, section 4).
pub fn integrity(content: &[u8]) -> String {
    format!("sha256-{}", base64(&Sha256::digest(content)))
}

fn base64(bytes: &[u8]) -> String {
    const ALPHABET: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for three in bytes.chunks(3) {
        let bits = (0..3).fold(0_u32, |bits, i| {
            bits << 8 | u32::from(three.get(i).copied().unwrap_or(0))
        });
        for i in 0..4 {
            // One byte fills two letters, two bytes three; the rest is padding.
            if i <= three.len() {
                text.push(char::from(ALPHABET[(bits >> (18 - 6 * i) & 63) as usize]));
            } else {
                text.push('=');
            }
        }
    }
    text
}

/// What each reference in the source becomes in the site. A reference is a quoted path
/// of the repository (`"style/index.css"`), or a quoted name under `built/` for what
/// only exists once built (`"built/screen.wasm"`).
#[derive(Default)]
pub struct References(Vec<(String, String)>);

impl References {
    /// From now on `"reference"` becomes `replacement`, quotes and all.
    pub fn add_raw(&mut self, reference: &str, replacement: impl Into<String>) {
        self.0
            .push((format!("\"{reference}\""), replacement.into()));
    }

    /// From now on `"reference"` becomes `"replacement"`.
    pub fn add(&mut self, reference: &str, replacement: &str) {
        self.add_raw(reference, format!("\"{replacement}\""));
    }

    /// The text of the file `name` with all its references replaced. One that nothing
    /// is known about is a problem, not left for a browser to find.
    pub fn replace_in(&self, name: &str, text: &str) -> Outcome<String> {
        let mut replaced = text.to_owned();
        for (reference, replacement) in &self.0 {
            replaced = replaced.replace(reference, replacement);
        }
        for folder in ["built/", "public/", "style/"] {
            if let Some((_, rest)) = replaced.split_once(&format!("\"{folder}")) {
                let file = rest.split('"').next().unwrap_or_default();
                return Err(Problem::new(format!(
                    "{name} refers to “{folder}{file}”, which is not among the site's files."
                )));
            }
        }
        Ok(replaced)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
    use super::*;

    // FIPS 180-2, appendix B.1: SHA-256 of "abc" begins ba7816bf 8f01cfea.
    #[test]
    fn a_name_carries_the_published_digest() {
        assert_eq!(content_hash(b"abc"), "ba7816bf8f01cfea");
        assert_eq!(
            named_by_content("a.b.js", b"abc"),
            "a.b-ba7816bf8f01cfea.js"
        );
        assert!(is_named_by_content("a.b-ba7816bf8f01cfea.js"));
        assert!(!is_named_by_content("service-worker.js"));
        assert!(!is_named_by_content("index.html"));
    }

    // RFC 4648, section 10: the test vectors.
    #[test]
    fn base64_as_the_standard_has_it() {
        for (plain, coded) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(plain.as_bytes()), coded, "{plain}");
        }
    }

    #[test]
    fn a_reference_is_replaced_and_a_strange_one_refused() {
        let mut references = References::default();
        references.add("style/index.css", "./styles-1.css");
        references.add_raw("built/files", "[1]");
        assert_eq!(
            references.replace_in("x", r#"href="style/index.css" "built/files""#),
            Ok(r#"href="./styles-1.css" [1]"#.to_owned())
        );
        let refused = references.replace_in("x", r#"src="public/gone.js""#);
        assert!(refused.unwrap_err().to_string().contains("public/gone.js"));
    }
}
