//! The text of a thermometer's file, and its cells.

use super::NotRead;

/// The longest file that is read, in bytes: ten years of a reading each minute.
pub const MOST_BYTES: usize = 300_000_000;

/// A file of lines and cells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    text: String,
}

/// One row of cells. A cell may hold line ends of its own, so rows are not lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// The line of the file it begins on, from 1.
    pub line: usize,
    /// The cells.
    pub cells: Vec<String>,
}

impl Sheet {
    /// Reads the bytes of a file: UTF-8, UTF-16 with its mark, or else the usual western set of one
    /// byte for each letter.
    ///
    /// # Errors
    /// Why it is no text.
    pub fn read(bytes: &[u8]) -> Result<Self, NotRead> {
        if bytes.len() > MOST_BYTES {
            return Err(NotRead::TooLong);
        }
        let text = match bytes {
            [0xFF, 0xFE, rest @ ..] => from_utf16(rest, u16::from_le_bytes)?,
            [0xFE, 0xFF, rest @ ..] => from_utf16(rest, u16::from_be_bytes)?,
            _ => match std::str::from_utf8(bytes) {
                Ok(text) => text.trim_start_matches('\u{feff}').to_owned(),
                Err(_) => bytes.iter().map(|byte| char::from(*byte)).collect(),
            },
        };
        // What is no text soon holds a character that no text has.
        let strange =
            |letter: char| letter < ' ' && !matches!(letter, '\t' | '\n' | '\r' | '\u{c}');
        if text.contains(strange) || text.starts_with("%PDF") {
            return Err(NotRead::NotText);
        }
        if text.trim().is_empty() {
            return Err(NotRead::Empty);
        }
        Ok(Self { text })
    }

    /// The rows, with the cells as a delimiter parts them. Rows of nothing but spaces are left out.
    #[must_use]
    pub fn rows(&self, delimiter: char) -> Vec<Row> {
        let (rows, closed) = split(&self.text, delimiter, true);
        // Where a quotation mark is never closed, it was none.
        let rows = if closed {
            rows
        } else {
            split(&self.text, delimiter, false).0
        };
        let filled = |row: &Row| row.cells.iter().any(|cell| !cell.trim().is_empty());
        rows.into_iter().filter(filled).collect()
    }

    /// The beginning, up to so many lines.
    #[must_use]
    pub fn beginning(&self, lines: usize) -> Self {
        let mut ends = self.text.match_indices('\n').map(|(place, _)| place);
        let end = lines.checked_sub(1).and_then(|last| ends.nth(last));
        let text = end.and_then(|end| self.text.get(..end));
        Self {
            text: text.unwrap_or(&self.text).to_owned(),
        }
    }
}

fn from_utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Result<String, NotRead> {
    let units = bytes.chunks_exact(2).map(|pair| match pair {
        [first, second] => unit([*first, *second]),
        _ => 0,
    });
    char::decode_utf16(units)
        .collect::<Result<String, _>>()
        .map_err(|_| NotRead::NotText)
}

/// Parts a text into rows and cells, after RFC 4180 but for the delimiter; and tells whether every
/// quotation mark was closed.
fn split(text: &str, delimiter: char, quotes: bool) -> (Vec<Row>, bool) {
    let mut rows = Vec::new();
    let mut row = Row {
        line: 1,
        cells: Vec::new(),
    };
    let (mut cell, mut line, mut quoted) = (String::new(), 1, false);
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        let at_line_end = letter == '\n' || (letter == '\r' && letters.peek() != Some(&'\n'));
        if at_line_end {
            line += 1;
        }
        match letter {
            '"' if quoted && letters.peek() == Some(&'"') => {
                letters.next();
                cell.push('"');
            }
            '"' if quoted => quoted = false,
            _ if quoted => cell.push(letter),
            '"' if quotes && cell.trim().is_empty() => {
                cell.clear();
                quoted = true;
            }
            '\n' | '\r' => {
                if at_line_end {
                    row.cells.push(std::mem::take(&mut cell));
                    rows.push(row);
                    row = Row {
                        line,
                        cells: Vec::new(),
                    };
                }
            }
            letter if letter == delimiter => row.cells.push(std::mem::take(&mut cell)),
            _ => cell.push(letter),
        }
    }
    row.cells.push(cell);
    rows.push(row);
    (rows, !quoted)
}
