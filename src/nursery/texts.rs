//! What was typed into the fields of one thing.
//!
//! A field has a path: `low`, or `parts.0.amount` where there are rows. A field without a text is
//! the same as one that is not there. All of it lies in one string, because a record has hundreds of
//! thousands of such fields.

use std::fmt;

/// Texts by the path of their field, in the order of the paths.
///
/// Each name and text stands behind its length in bytes and a colon.
#[derive(Clone, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Texts(Box<str>);

impl Texts {
    /// The texts of pairs, in whatever order; of two of a path the later counts.
    pub fn of<'a>(pairs: impl IntoIterator<Item = (&'a str, &'a str)>) -> Self {
        Self::of_pairs(&mut pairs.into_iter().collect::<Vec<_>>())
    }

    /// The same of pairs in a list, which it sorts.
    pub(crate) fn of_pairs(pairs: &mut [(&str, &str)]) -> Self {
        // A stable sort: among the same paths the later stays the later.
        pairs.sort_by_key(|pair| pair.0);
        let bytes = pairs.iter().map(|pair| room(pair.0) + room(pair.1));
        let mut packed = String::with_capacity(bytes.sum());
        for (place, (path, text)) in pairs.iter().enumerate() {
            let last = pairs.get(place + 1).is_none_or(|next| next.0 != *path);
            if last && !text.is_empty() {
                push(&mut packed, path);
                push(&mut packed, text);
            }
        }
        Self(packed.into_boxed_str())
    }

    /// All paths with their texts.
    #[must_use]
    pub fn iter(&self) -> Pairs<'_> {
        Pairs(&self.0)
    }

    /// The text at a path; empty where there is none.
    #[must_use]
    pub fn get(&self, path: &str) -> &str {
        self.iter()
            .find(|pair| pair.0 == path)
            .map_or("", |pair| pair.1)
    }

    /// Whether nothing was typed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Puts a text at a path; an empty one takes the field away.
    pub fn set(&mut self, path: &str, text: &str) {
        *self = Self::of(self.iter().chain([(path, text)]));
    }

    /// The same with one more text.
    #[must_use]
    pub fn with(mut self, path: &str, text: &str) -> Self {
        self.set(path, text);
        self
    }

    /// Everything in one piece, for a search that looks more closely where this holds its word.
    #[must_use]
    pub fn whole(&self) -> &str {
        &self.0
    }
}

impl fmt::Debug for Texts {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.debug_map().entries(self.iter()).finish()
    }
}

impl<'a> IntoIterator for &'a Texts {
    type Item = (&'a str, &'a str);
    type IntoIter = Pairs<'a>;

    fn into_iter(self) -> Pairs<'a> {
        self.iter()
    }
}

/// Bytes that a text takes up with its length, if that has one or two digits.
fn room(text: &str) -> usize {
    text.len() + if text.len() < 10 { 2 } else { 3 }
}

fn push(packed: &mut String, text: &str) {
    let length = text.len();
    // Nearly all are shorter than a hundred bytes, and there are hundreds of thousands.
    match u8::try_from(length) {
        Ok(length @ 0..=9) => packed.push(char::from(b'0' + length)),
        Ok(length @ 10..=99) => {
            packed.push(char::from(b'0' + length / 10));
            packed.push(char::from(b'0' + length % 10));
        }
        _ => packed.push_str(&length.to_string()),
    }
    packed.push(':');
    packed.push_str(text);
}

/// Paths and texts, one after the other.
#[derive(Clone, Debug)]
pub struct Pairs<'a>(&'a str);

impl<'a> Pairs<'a> {
    fn piece(&mut self) -> Option<&'a str> {
        // Asked several times for every log of a record: the digits are added up by hand.
        let (mut length, mut place) = (0usize, 0);
        loop {
            let byte = *self.0.as_bytes().get(place)?;
            place += 1;
            if byte == b':' {
                break;
            }
            length = length
                .wrapping_mul(10)
                .wrapping_add(usize::from(byte & 0xF));
        }
        let (piece, rest) = self.0.get(place..)?.split_at_checked(length)?;
        self.0 = rest;
        Some(piece)
    }
}

impl<'a> Iterator for Pairs<'a> {
    type Item = (&'a str, &'a str);

    fn next(&mut self) -> Option<(&'a str, &'a str)> {
        Some((self.piece()?, self.piece()?))
    }
}
