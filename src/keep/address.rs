//! The address of a question: what stands behind `#/mix?` in a link or a bookmark.
//!
//! Fields are named, so that a link made today is read in ten years: `parts.0.material=coir_pith`.
//! Only texts are carried; whoever reads one checks it as if it had been typed.

use crate::reckon::form::Texts;

/// Longer than this, an address was not made here.
const MOST_BYTES: usize = 40_000;

/// Texts as an address.
#[must_use]
pub fn write(texts: &[(String, String)]) -> String {
    let mut address = String::new();
    for (path, text) in texts {
        if !address.is_empty() {
            address.push('&');
        }
        escape(path, &mut address);
        address.push('=');
        escape(text, &mut address);
    }
    address
}

/// The texts of an address, or nothing where it is none.
#[must_use]
pub fn read(address: &str) -> Option<Texts> {
    if address.is_empty() || address.len() > MOST_BYTES {
        return None;
    }
    let pairs = address.split('&').map(|pair| {
        let (path, text) = pair.split_once('=')?;
        Some((unescape(path)?, unescape(text)?))
    });
    pairs.collect()
}

/// Every byte but letters, digits and `-._~` as `%XX` (RFC 3986, section 2.3).
fn escape(text: &str, escaped: &mut String) {
    const HEX: &[u8; 16] = b"0123456789ABCDEF";
    for &byte in text.as_bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            escaped.push(char::from(byte));
        } else {
            escaped.push('%');
            escaped.push(char::from(HEX[usize::from(byte >> 4)]));
            escaped.push(char::from(HEX[usize::from(byte & 15)]));
        }
    }
}

fn unescape(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let Some((&byte, after)) = rest.split_first() {
        if byte == b'%' {
            let digits = std::str::from_utf8(after.get(..2)?).ok()?;
            bytes.push(u8::from_str_radix(digits, 16).ok()?);
            rest = after.get(2..)?;
        } else {
            bytes.push(byte);
            rest = after;
        }
    }
    String::from_utf8(bytes).ok()
}
