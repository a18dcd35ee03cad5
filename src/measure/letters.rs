//! Capital and small letters of the Latin alphabet.
//!
//! The standard library knows those of every script, by tables that are a tenth of what a page may
//! weigh. Names in a nursery are written in Latin letters; what is not is found as it is written.

/// The small letter of a capital one: ASCII, Latin-1 and Latin Extended-A (Unicode 16.0, the simple
/// lowercase mapping of U+0041 to U+017F). Any other character stays as it is.
#[must_use]
pub fn small(letter: char) -> char {
    /// From a capital letter to its small one, where they stand in two blocks.
    const APART: u32 = 32;
    let code = letter as u32;
    let small = match code {
        0x41..=0x5A | 0xC0..=0xD6 | 0xD8..=0xDE => code + APART,
        // The capital I with a dot becomes a plain i.
        0x130 => 0x69,
        0x178 => 0xFF,
        // Pairs that begin with an odd code, and those that begin with an even one.
        0x139..=0x148 | 0x179..=0x17E => code + (code & 1),
        0x100..=0x137 | 0x14A..=0x177 => code | 1,
        _ => code,
    };
    char::from_u32(small).unwrap_or(letter)
}

/// A text in small letters.
#[must_use]
pub fn in_small(text: &str) -> String {
    text.chars().map(small).collect()
}

/// An English sentence or name with a capital at its head.
#[must_use]
pub fn capitalised(text: &str) -> String {
    let mut capitalised = text.to_owned();
    if let Some(first) = capitalised.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    capitalised
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_letters_are_those_of_the_standard_library() {
        // U+0130 becomes two characters there: an i, and a dot of its own over it.
        for code in (0..=0x17F).filter(|code| *code != 0x130) {
            let letter = char::from_u32(code).unwrap_or_default();
            assert_eq!(
                letter.to_lowercase().next(),
                Some(small(letter)),
                "U+{code:04X}"
            );
        }
        assert_eq!(in_small("CRÈME Ž İ"), "crème ž i");
    }

    #[test]
    fn a_sentence_begins_with_a_capital() {
        assert_eq!(capitalised("the day book"), "The day book");
        assert_eq!(capitalised("émile"), "émile");
        assert_eq!(capitalised(""), "");
    }
}
