//! Names of things that hold on every device.
//!
//! An id such as `k3fq.812.a2b4` says which device made the entry (its mark), the how manyeth it was
//! of all that device had seen, and four letters that depend on what the entry says. So two devices
//! that carry the same mark by accident, as after a profile was copied, still give two names.

use std::fmt;

/// The mark of a device: one to eight small letters and digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Mark(u64);

/// The name of an entry, and of the thing that the entry added.
///
/// Their order is by number first: an entry comes after all that its device knew when it was made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Id {
    /// Higher than that of every entry its device had seen.
    pub number: u32,
    /// The device.
    pub mark: Mark,
    /// Depends on what the entry says.
    pub salt: u32,
}

/// Digits of base 32, without letters that look like others.
const DIGITS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";
/// The most characters of a mark.
const MARK_LENGTH: usize = 8;

impl Mark {
    /// The mark of a text, if it is of the right form.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let good = (1..=MARK_LENGTH).contains(&text.len())
            && text
                .bytes()
                .all(|byte| byte.is_ascii_digit() || byte.is_ascii_lowercase());
        good.then(|| {
            let packed = text
                .bytes()
                .fold(0, |packed, byte| packed << 8 | u64::from(byte));
            // Against the left, so that marks sort as their texts do.
            Self(packed << (8 * (MARK_LENGTH - text.len())))
        })
    }

    /// A mark of six characters out of a random number, for a new device.
    #[must_use]
    pub fn from_random(random: u64) -> Self {
        const CHARACTERS: usize = 6;
        let packed = (0..MARK_LENGTH).fold(0, |packed, place| {
            let digit = DIGITS[(random >> (5 * place)) as usize % DIGITS.len()];
            packed << 8
                | if place < CHARACTERS {
                    u64::from(digit)
                } else {
                    0
                }
        });
        Self(packed)
    }

    fn push(self, text: &mut String) {
        let bytes = self.0.to_be_bytes();
        text.extend(
            bytes
                .iter()
                .take_while(|byte| **byte != 0)
                .map(|byte| char::from(*byte)),
        );
    }
}

impl fmt::Display for Mark {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut text = String::new();
        self.push(&mut text);
        out.write_str(&text)
    }
}

impl Id {
    /// No id comes before this one.
    pub const LOWEST: Self = Self {
        number: 0,
        mark: Mark(0),
        salt: 0,
    };

    /// Reads `k3fq.812.a2b4`. Every id has one text only.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.split('.');
        let (mark, number, salt) = (parts.next()?, parts.next()?, parts.next()?);
        if parts.next().is_some() {
            return None;
        }
        Some(Self {
            number: number_of(number)?,
            mark: Mark::read(mark)?,
            salt: salt_of(salt)?,
        })
    }

    /// Its text, at the end of another.
    pub fn push(&self, text: &mut String) {
        self.mark.push(text);
        text.push('.');
        text.push_str(&self.number.to_string());
        text.push('.');
        let digits = (u32::BITS - self.salt.leading_zeros()).div_ceil(5).max(1);
        for place in (0..digits).rev() {
            text.push(char::from(
                DIGITS[(self.salt >> (5 * place)) as usize % DIGITS.len()],
            ));
        }
    }

    /// Its text.
    #[must_use]
    pub fn text(&self) -> String {
        let mut text = String::new();
        self.push(&mut text);
        text
    }
}

impl fmt::Display for Id {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.text())
    }
}

/// Digits without a nought in front.
fn number_of(text: &str) -> Option<u32> {
    let plain = text.bytes().all(|byte| byte.is_ascii_digit());
    let shortest = text == "0" || !text.starts_with('0');
    (plain && shortest).then(|| text.parse().ok()).flatten()
}

fn salt_of(text: &str) -> Option<u32> {
    if text.is_empty() || (text.len() > 1 && text.starts_with('0')) {
        return None;
    }
    text.bytes().try_fold(0u32, |salt, byte| {
        let digit = DIGITS.iter().position(|digit| *digit == byte)?;
        salt.checked_mul(32)?.checked_add(digit as u32)
    })
}
