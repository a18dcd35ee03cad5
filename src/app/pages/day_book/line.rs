//! Minimum and maximum typed in one line, such as `min 6, max 31`, `6/31` or `6,5 31`. Pure.

use crate::measure::letters::in_small;
use crate::measure::{DecimalMark, read_number};

/// What the words of a line may begin with, for the minimum and for the maximum.
const SAID: [(&str, Side); 6] = [
    ("min", Side::Low),
    ("low", Side::Low),
    ("night", Side::Low),
    ("max", Side::High),
    ("high", Side::High),
    ("day", Side::High),
];

#[derive(Clone, Copy, PartialEq)]
enum Side {
    Low,
    High,
}

/// The two numbers of a line as they were typed, minimum first; either may be empty if the other
/// is said to be what it is. None where it is not clear what is meant.
#[must_use]
pub fn read(line: &str, mark: DecimalMark) -> Option<[String; 2]> {
    let mut found = [String::new(), String::new()];
    let mut said = None;
    let mut named = false;
    for piece in pieces(line) {
        if piece.starts_with(char::is_alphabetic) {
            let word = in_small(&piece);
            let side = SAID.iter().find(|(start, _)| word.starts_with(start));
            match side {
                Some((_, side)) => said = Some(*side),
                None if ["to", "and", "c", "f"].contains(&word.as_str()) => {}
                None => return None,
            }
            continue;
        }
        read_number(&piece, mark).ok()?;
        named |= said.is_some();
        let side = match said.take() {
            Some(side) => side,
            // Without words the minimum comes first.
            None if found[0].is_empty() => Side::Low,
            None => Side::High,
        };
        let place = &mut found[side as usize];
        if !place.is_empty() {
            return None;
        }
        *place = piece;
    }
    let count = found.iter().filter(|text| !text.is_empty()).count();
    (said.is_none() && (count == 2 || count == 1 && named)).then_some(found)
}

/// Words and numbers. A comma between two digits belongs to a number; a line before a digit is its
/// sign, unless a digit stands right before the line.
fn pieces(line: &str) -> Vec<String> {
    let letters: Vec<char> = line.chars().collect();
    let digit = |place: Option<usize>| {
        place
            .and_then(|place| letters.get(place))
            .is_some_and(char::is_ascii_digit)
    };
    let mut pieces: Vec<String> = Vec::new();
    let mut open = false;
    let mut in_word = false;
    for (place, letter) in letters.iter().copied().enumerate() {
        let (before, after) = (digit(place.checked_sub(1)), digit(place.checked_add(1)));
        let is_word = letter.is_alphabetic();
        let belongs = match letter {
            '-' | '\u{2212}' | '+' => after && !before,
            ',' => before && after,
            '.' => after,
            _ => is_word || letter.is_ascii_digit(),
        };
        if !belongs {
            open = false;
            continue;
        }
        if !open || is_word != in_word {
            pieces.push(String::new());
        }
        if let Some(piece) = pieces.last_mut() {
            piece.push(letter);
        }
        open = true;
        in_word = is_word;
    }
    pieces
}
